// Fit of two threads: worst case, play, tilt, chance of interference, mismatches, parts cut to suit.

#include "halfnut/threads/fit.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "halfnut/core/builtin.hpp"

namespace halfnut::threads {
namespace {

FitPart part(std::string_view name) {
    const Thread thread = parse_thread(name, builtin());
    return fit_part(thread, limits(builtin(), thread));
}

FitRequest pair(std::string_view external, std::string_view internal) {
    FitRequest request;
    request.external = part(external);
    request.internal = part(internal);
    request.engagement_mm = 10.0;
    return request;
}

// M10-6H/6g: 9.206/9.026 over 8.994/8.862, 10.000 over 9.968, 8.376 over 8.344.
TEST(Fit, MetricByHand) {
    const ThreadFit answer = fit(pair("M10-6g", "M10-6H"));
    EXPECT_EQ(answer.verdict, FitVerdict::free);
    EXPECT_EQ(answer.deciding, FitDimension::pitch);
    EXPECT_NEAR(answer.pitch_clearance_min_mm, 0.032, 1e-12);
    EXPECT_NEAR(answer.pitch_clearance_max_mm, 0.344, 1e-12);
    EXPECT_NEAR(answer.major_clearance_min_mm, 0.032, 1e-12);
    EXPECT_NEAR(answer.minor_clearance_min_mm, 0.032, 1e-12);
    EXPECT_TRUE(std::isnan(answer.major_clearance_max_mm));
    EXPECT_NEAR(answer.axial_play_max_mm, 0.344 * std::tan(std::numbers::pi / 6.0), 1e-12);
    EXPECT_NEAR(answer.radial_play_min_mm, 0.032, 1e-12);
    EXPECT_EQ(answer.chance_of_interference, 0.0);
}

TEST(Fit, ACoatingThickerThanTheAllowanceMayBind) {
    FitRequest request = pair("M10-6g", "M10-6H");
    request.external.build_up = parse_build_up("10 um", builtin());
    const ThreadFit one = fit(request);
    EXPECT_EQ(one.verdict, FitVerdict::may_bind);
    EXPECT_NEAR(one.pitch_clearance_min_mm, -0.008, 1e-12);
    EXPECT_NEAR(one.major_clearance_min_mm, 0.012, 1e-12);
    EXPECT_GT(one.chance_of_interference, 0.0);
    EXPECT_LT(one.chance_of_interference, 0.01);
    request.internal.build_up = parse_build_up("100 um", builtin());
    const ThreadFit both = fit(request);
    EXPECT_EQ(both.verdict, FitVerdict::interferes);
    EXPECT_EQ(both.chance_of_interference, 1.0);
    EXPECT_EQ(both.axial_play_max_mm, 0.0);
    EXPECT_EQ(both.tilt_max_deg, 0.0);
}

TEST(Fit, LineToLineIsNoInterference) {
    const ThreadFit answer = fit(pair("M10-6h", "M10-6H"));
    EXPECT_EQ(answer.verdict, FitVerdict::free);
    EXPECT_NEAR(answer.pitch_clearance_min_mm, 0.0, 1e-12);
}

TEST(Fit, TiltByGeometry) {
    // Two rings of contact 10 mm apart, 45 degree flanks: half the length across and half the diameter along.
    const double tilt = thread_tilt_deg(0.1, 10.0, 10.0, 20.0, 45.0) * std::numbers::pi / 180.0;
    EXPECT_NEAR(tilt * (10.0 / 2.0 + 20.0 / 2.0), 0.1 / 2.0, 1e-12);
    EXPECT_NEAR(thread_tilt_deg(0.1, 0.01, 10.0, 20.0, 45.0) * std::numbers::pi / 180.0, 0.001, 1e-12);
}

TEST(Fit, WarmPartsOfUnlikeMetals) {
    FitRequest request = pair("M10-6h", "M10-6H");
    request.external.expansion_um_m_k = 23.6;
    request.external.temperature_c = 70.0;
    request.internal.expansion_um_m_k = 11.5;
    request.internal.temperature_c = 70.0;
    const ThreadFit answer = fit(request);
    EXPECT_NEAR(answer.pitch_clearance_min_mm, -9.026 * (23.6 - 11.5) * 1e-6 * 50.0, 1e-9);
    EXPECT_EQ(answer.verdict, FitVerdict::may_bind);
}

TEST(Fit, ErrorsOfLeadTakeClearance) {
    FitRequest request = pair("M10-6g", "M10-6H");
    request.external.lead_error_mm = -0.010;
    EXPECT_NEAR(fit(request).pitch_clearance_min_mm, 0.032 - 0.010 * std::sqrt(3.0), 1e-12);
    request.internal.flank_equivalent_mm = 0.020;
    EXPECT_NEAR(fit(request).pitch_clearance_min_mm, 0.012 - 0.010 * std::sqrt(3.0), 1e-12);
}

TEST(Fit, MismatchesAreAnsweredAsSuch) {
    const ThreadFit pitch = fit(pair("3/8-16 UNC-2A", "M10-6H"));
    EXPECT_EQ(pitch.verdict, FitVerdict::mismatch);
    EXPECT_EQ(pitch.deciding, FitDimension::lead);
    EXPECT_NEAR(pitch.lead_mismatch_mm, 0.0875, 1e-9);
    EXPECT_NEAR(pitch.turns_to_bind, pitch.axial_play_max_mm / 0.0875, 1e-9);
    const ThreadFit hand = fit(pair("M10-6g-LH", "M10-6H"));
    EXPECT_EQ(hand.deciding, FitDimension::hand);
    EXPECT_TRUE(std::isnan(hand.turns_to_bind));
    FitRequest angle = pair("M10-6g", "M10-6H");
    angle.internal.half_angle_deg = 27.5;
    EXPECT_EQ(fit(angle).deciding, FitDimension::angle);
    EXPECT_EQ(fit(pair("M24x3-6g", "M24xPh6P3-6H")).verdict, FitVerdict::mismatch);
}

TEST(Fit, MeasuredSizesMixWithLimits) {
    FitRequest request = pair("M10-6g", "M10-6H");
    request.internal.pitch = {9.100, 9.100};
    const ThreadFit answer = fit(request);
    EXPECT_NEAR(answer.pitch_clearance_min_mm, 0.106, 1e-12);
    EXPECT_NEAR(answer.pitch_clearance_max_mm, 0.238, 1e-12);
}

// A zone so narrow against its limits that the cut-off does not show: the textbook's normal difference.
TEST(Fit, TheChanceOfUncutNormalsIsTheTextbooks) {
    FitRequest request = pair("M10-6g", "M10-6H");
    request.external.pitch = {8.9, 9.1};
    request.internal.pitch = {8.92, 9.12};
    request.tolerance_over_sigma = 16.0;  // to 8 sigma
    const ThreadFit answer = fit(request);
    const double sigma = std::sqrt(2.0) * 0.2 / 16.0;
    EXPECT_NEAR(answer.clearance_sigma_mm, sigma, 1e-9);
    EXPECT_NEAR(answer.clearance_mean_mm, 0.02, 1e-12);
    EXPECT_NEAR(answer.chance_of_interference, 0.5 * std::erfc(0.02 / sigma / std::sqrt(2.0)), 1e-9);
}

// Fixed sizes and two even build-ups: the triangle or trapezium by hand.
TEST(Fit, TheChanceOfEvenBuildUpsIsATrapeziumsShare) {
    FitRequest request = pair("M10-6g", "M10-6H");
    request.external.pitch = {9.0, 9.0};
    request.internal.pitch = {9.03, 9.03};
    request.external.build_up = build_up_between(0.0, 5.0);  // 0 to 0.020 mm
    request.internal.build_up = build_up_between(0.0, 5.0);
    EXPECT_NEAR(fit(request).chance_of_interference, 0.125, 1e-12);  // sum above 0.030 of 0 to 0.040
    request.internal.build_up = build_up_between(0.0, 10.0);         // 0 to 0.040 mm
    EXPECT_NEAR(fit(request).chance_of_interference, 0.5, 1e-12);
}

TEST(Fit, ABuildUpOfHardlyAnyRangeIsAFixedOne) {
    FitRequest request = pair("M10-6h", "M10-6H");
    request.external.build_up = build_up_between(0.0, 1.2e-308);
    EXPECT_EQ(fit(request).chance_of_interference, fit(pair("M10-6h", "M10-6H")).chance_of_interference);
    request.external.build_up = build_up_between(0.0, 1e-12);
    EXPECT_TRUE(std::isfinite(fit(request).chance_of_interference));
}

TEST(Fit, RefusesWhatIsNoSize) {
    ThreadFit out;
    FitRequest request = pair("M10-6g", "M10-6H");
    request.engagement_mm = -1.0;
    EXPECT_EQ(evaluate(request, out), (Status{StatusCode::out_of_range, 4}));
    EXPECT_THROW((void)fit(request), DomainError);
    request = pair("M10-6g", "M10-6H");
    request.external.pitch = {9.0, 8.9};
    EXPECT_EQ(evaluate(request, out).code, StatusCode::inconsistent);
    request = pair("M10-6g", "M10-6H");
    request.engagement_mm = kNaN;
    request.assumed_engagement_mm = 10.0;
    EXPECT_TRUE(fit(request).engagement_assumed);
}

TEST(Fit, CutToSuitKeepsTheWantedClearance) {
    SuitRequest request;
    request.measured_mm = 9.100;
    request.clearance_min_mm = 0.020;
    request.clearance_max_mm = 0.060;
    request.change_min_um = 12.0;
    request.change_max_um = 20.0;
    Suited out;
    ASSERT_TRUE(evaluate(request, out).ok());
    EXPECT_NEAR(out.pitch.max_mm, 9.060, 1e-12);
    EXPECT_NEAR(out.pitch.min_mm, 9.028, 1e-12);
    request.external = false;
    ASSERT_TRUE(evaluate(request, out).ok());
    EXPECT_NEAR(out.pitch.min_mm, 9.140, 1e-12);
    request.change_max_um = 80.0;
    EXPECT_EQ(evaluate(request, out).code, StatusCode::inconsistent);
}

}  // namespace
}  // namespace halfnut::threads
