// Strength of threads: published areas and worked figures, and what a joint holds.

#include "halfnut/threads/strength.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <map>
#include <sstream>

#include "../reference.hpp"
#include "halfnut/core/builtin.hpp"
#include "halfnut/threads/fit.hpp"

namespace halfnut::threads {
namespace {

using test::Reference;

int decimals(const std::string& printed) {
    const std::size_t dot = printed.find('.');
    return dot == std::string::npos ? 0 : static_cast<int>(printed.size() - dot - 1);
}

/// Half a unit of the printed last place.
double half_place(const std::string& printed) {
    return 0.5 * std::pow(10.0, -decimals(printed));
}

TEST(StressAreas, EveryPublishedRow) {
    const Reference reference("threads/stress_areas.csv");
    std::map<std::string, int> read;
    for (const auto& row : reference.rows()) {
        const double d = row.number("diameter_in");
        const double n = row.number("threads_per_inch");
        const double got = row.text("area") == "tensile" ? unified_stress_area_in2(d, n)
                                                         : minor_diameter_area_in2(d, 1.0 / n);
        const std::string& printed = row.text("printed_in2");
        const bool agrees = std::abs(got - row.number("printed_in2")) <= half_place(printed) * (1.0 + 1e-9);
        EXPECT_EQ(agrees, !row.has("excepted"))
            << row.text("case") << " printed " << printed << " got " << got;
        ++read[row.text("excepted")];
    }
    EXPECT_EQ(read[""], 94);
    EXPECT_EQ(read["four places"], 9);
    EXPECT_EQ(read["rounded twice"], 3);
    EXPECT_EQ(read["misprint"], 1);
    EXPECT_EQ(reference.rows().size(), 107U);
}

TEST(StrengthExamples, EveryPublishedRow) {
    using Numbers = std::vector<double>;
    const std::map<std::string, std::function<double(const Numbers&)>> functions{
        {"section_load_n", [](const Numbers& a) { return section_load_n(a[0], a[1]); }},
        {"section_load_lbf", [](const Numbers& a) { return section_load_lbf(a[0], a[1]); }},
        {"engagement_for_load_mm", [](const Numbers& a) { return engagement_for_load_mm(a[0], a[1], a[2]); }},
        {"overload_factor", [](const Numbers& a) { return overload_factor(a[0], a[1], a[2], a[3]); }},
        {"yielding_factor", [](const Numbers& a) { return yielding_factor(a[0], a[1], a[2], a[3]); }},
        {"share_of_strength", [](const Numbers& a) { return share_of_strength(a[0], a[1], a[2]); }},
        {"nut_factor_torque_lbf_in",
         [](const Numbers& a) { return nut_factor_torque_lbf_in(a[0], a[1], a[2]); }},
        {"tightening_torque_lbf_in",
         [](const Numbers& a) { return tightening_torque_lbf_in(a[0], a[1], a[2], a[3], a[4], a[5], a[6]); }},
        {"mean_stress_area_in2", [](const Numbers& a) { return mean_stress_area_in2(a[0], a[1]); }},
        {"handbook_torque_lbf_in",
         [](const Numbers& a) { return handbook_torque_lbf_in(a[0], a[1], a[2], a[3], a[4]); }},
    };
    const Reference reference("threads/strength_examples.csv");
    int agreed = 0;
    for (const auto& row : reference.rows()) {
        std::istringstream text(row.text("arguments"));
        Numbers arguments;
        for (double number = 0.0; text >> number;) {
            arguments.push_back(number);
        }
        const double got = functions.at(row.text("function"))(arguments) * row.number("times");
        const std::string& printed = row.text("printed");
        const bool agrees = std::abs(got - row.number("printed")) <= half_place(printed) * (1.0 + 1e-9);
        EXPECT_EQ(agrees, !row.has("excepted"))
            << row.text("case") << " printed " << printed << " got " << got;
        agreed += agrees ? 1 : 0;
    }
    EXPECT_EQ(reference.rows().size(), 10U);
    EXPECT_EQ(agreed, 9);
}

// The published M10 example whole: 6H thread in aluminium of 130 MPa ultimate shear, from sizes to length.
TEST(Stripping, PublishedM10InAluminium) {
    const double area = internal_shear_area_mm2(9.968, 9.206, 1.5, 30.0, 1.0);
    EXPECT_NEAR(engagement_for_load_mm(section_load_n(58.0, 1200.0), 130.0, area), 21.6, 0.05);
}

TEST(Stripping, InchAndMetricAreOneFormula) {
    EXPECT_NEAR(external_shear_area_mm2(0.434 * 25.4, 0.4435 * 25.4, 25.4 / 13.0, 30.0, 12.7) / 645.16,
                external_shear_area_in2(0.434, 0.4435, 1.0 / 13.0, 30.0, 0.5), 1e-12);
    EXPECT_NEAR(
        tightening_torque_nm(1000.0 * 4.4482216152605, 9.0, 1.5, 30.0, 0.1, 0.2, 13.0) / 0.1129848290276167,
        tightening_torque_lbf_in(1000.0, 9.0 / 25.4, 1.5 / 25.4, 30.0, 0.1, 0.2, 13.0 / 25.4), 1e-9);
}

TEST(Torque, PreloadIsTheInverseAndFrictionlessLeadsMeet) {
    const double torque = tightening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.15, 0.12, 13.0);
    EXPECT_NEAR(preload_from_torque_n(torque, 9.026, 1.5, 30.0, 0.15, 0.12, 13.0), 10000.0, 1e-9);
    // Without friction the work of a turn is load times lead.
    EXPECT_NEAR(tightening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.0, 0.0, 0.0) * 2.0 * std::numbers::pi, 15.0,
                1e-12);
    EXPECT_NEAR(loosening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.0, 0.0, 0.0) * 2.0 * std::numbers::pi, -15.0,
                1e-12);
    EXPECT_THROW((void)tightening_torque_nm(1.0, 2.0, 20.0, 30.0, 0.5, 0.0, 0.0), DomainError);
}

TEST(Factors, MeetAtTheirSeams) {
    EXPECT_NEAR(dilation_factor(1.9), DilationFactor::curve(1.9 - 1e-9), 1e-6);
    EXPECT_NEAR(dilation_factor(1.4), 0.75, 1e-12);
    EXPECT_EQ(dilation_factor(3.0), 1.0);
    EXPECT_THROW((void)dilation_factor(1.39), DomainError);
    EXPECT_NEAR(external_bending_factor(1.0 + 1e-9), external_bending_factor(1.0), 5e-4);
    EXPECT_NEAR(internal_bending_factor(1.0 - 1e-9), internal_bending_factor(1.0), 5e-4);
    EXPECT_EQ(external_bending_factor(9.0), external_bending_factor(2.2));
    EXPECT_EQ(internal_bending_factor(0.1), internal_bending_factor(0.4));
}

StrengthRequest pair_of(std::string_view external, std::string_view internal) {
    const Thread male = parse_thread(external, builtin());
    const Thread female = parse_thread(internal, builtin());
    StrengthRequest request;
    request.sizes = strength_sizes(male, limits(builtin(), male), limits(builtin(), female));
    request.external = {900.0, 720.0, kNaN};
    request.internal = {290.0, 240.0, 186.0};
    request.overlap_mm = 15.0;
    return request;
}

// M10-6H/6g by hand: Kn 8.676, Es 8.862, Ds 9.732, En 9.206, P 1.5.
TEST(Strength, MetricByHand) {
    StrengthRequest request = pair_of("M10-6g", "M10-6H");
    request.internal.shear_mpa = 300.0;
    const ThreadStrength answer = strength(request);
    const double pi = std::numbers::pi;
    const double t = std::tan(pi / 6.0);
    const double external = pi / 1.5 * 8.676 * (0.75 + t * (8.862 - 8.676));
    const double internal = pi / 1.5 * 9.732 * (0.75 + t * (9.732 - 9.206));
    EXPECT_NEAR(answer.external_shear_area_mm2, 15.0 * external, 1e-9);
    EXPECT_NEAR(answer.internal_shear_area_mm2, 15.0 * internal, 1e-9);
    EXPECT_NEAR(answer.stress_area_mm2, 57.99, 0.005);
    EXPECT_NEAR(answer.external_tension_n, 900.0 * answer.stress_area_mm2, 1e-9);
    EXPECT_NEAR(answer.external_shear_strength_mpa, 0.577 * 900.0, 1e-9);
    const double ratio = 300.0 * internal / (0.577 * 900.0 * external);
    EXPECT_NEAR(answer.strength_ratio, ratio, 1e-12);
    EXPECT_NEAR(answer.internal_stripping_n,
                300.0 * 15.0 * internal * (0.728 + ratio * (1.769 + ratio * (-2.896 + ratio * 1.296))), 1e-6);
    EXPECT_EQ(answer.dilation_factor, 1.0);
    EXPECT_EQ(answer.weakest, StrengthElement::external_tension);
    EXPECT_NEAR(answer.bears_n, 720.0 * answer.stress_area_mm2, 1e-9);
    EXPECT_TRUE(std::isnan(answer.allowable_n));
    EXPECT_TRUE(answer.has(StrengthCaution::no_factor));
    EXPECT_TRUE(answer.has(StrengthCaution::outside_unknown));
    EXPECT_TRUE(answer.has(StrengthCaution::shear_by_ratio));
}

TEST(Strength, AChamferAndACountersinkShortenTheEngagement) {
    StrengthRequest request = pair_of("M10-6g", "M10-6H");
    const ThreadStrength whole = strength(request);
    request.external_chamfer_mm = 1.0;
    request.external_run_out_mm = 0.5;
    request.internal_countersink_mm = 1.0;
    request.internal_run_out_mm = 0.5;
    const ThreadStrength less = strength(request);
    EXPECT_NEAR(less.full_form_engagement_mm, 12.0, 1e-12);
    EXPECT_NEAR(less.internal_stripping_n, whole.internal_stripping_n * 12.0 / 15.0, 1e-9);
    EXPECT_NEAR(less.engagement_required_mm, whole.engagement_required_mm, 1e-9);
    request.internal_run_out_mm = 12.5;
    EXPECT_THROW((void)strength(request), DomainError);
}

TEST(Strength, AtTheRequiredEngagementASectionAndAThreadFailTogether) {
    StrengthRequest request = pair_of("1/2-13 UNC-2A", "1/2-13 UNC-2B");
    request.internal_outside_mm = 19.0;
    request.overlap_mm = strength(request).engagement_required_mm;
    const ThreadStrength answer = strength(request);
    EXPECT_NEAR(std::min(answer.external_stripping_n, answer.internal_stripping_n),
                std::min(answer.external_tension_n, answer.internal_tension_n), 1e-6);
    // 900 MPa is above 100 ksi: the area of high strength
    EXPECT_NEAR(answer.stress_area_mm2 / 645.16, 0.13757, 5e-6);
    EXPECT_LT(answer.dilation_factor, 1.0);
}

TEST(Strength, TubesAndThinWalls) {
    StrengthRequest request = pair_of("M30x1.5-6g", "M30x1.5-6H");
    request.external = {290.0, 240.0, 186.0};
    request.external_bore_mm = 26.0;
    request.internal_outside_mm = 36.0;
    request.load_n = 5000.0;
    request.factor_of_safety = 4.0;
    const ThreadStrength answer = strength(request);
    EXPECT_NEAR(answer.external_net_area_mm2, answer.stress_area_mm2 - std::numbers::pi / 4.0 * 26.0 * 26.0,
                1e-9);
    EXPECT_NEAR(answer.external_wall_mm, (request.sizes.external_root_min_mm - 26.0) / 2.0, 1e-12);
    EXPECT_TRUE(answer.has(StrengthCaution::dilation_beyond));
    EXPECT_FALSE(answer.has(StrengthCaution::no_factor));
    EXPECT_NEAR(answer.allowable_n, answer.bears_n / 4.0, 1e-9);
    EXPECT_NEAR(answer.factor_reached, answer.bears_n / 5000.0, 1e-9);
    const double pressure = 5000.0 * std::tan(std::numbers::pi / 6.0) /
                            (std::numbers::pi * request.sizes.external_pitch_min_mm * 15.0);
    EXPECT_NEAR(answer.radial_pressure_mpa, pressure, 1e-9);
    EXPECT_GT(answer.internal_hoop_mpa, pressure);
    request.external_bore_mm = 29.0;
    EXPECT_THROW((void)strength(request), DomainError);
    request.external_bore_mm = 26.0;
    request.internal_outside_mm = 30.2;
    EXPECT_THROW((void)strength(request), DomainError);
}

TEST(Strength, WrongInputsHaveAStatusAndLeaveNoFigure) {
    const auto fails = [](auto change, StatusCode code) {
        StrengthRequest request = pair_of("M10-6g", "M10-6H");
        change(request);
        ThreadStrength out;
        EXPECT_EQ(evaluate(request, out).code, code);
        EXPECT_TRUE(std::isnan(out.bears_n));
    };
    fails([](StrengthRequest& r) { r.overlap_mm = kNaN; }, StatusCode::not_finite);
    fails([](StrengthRequest& r) { r.overlap_mm = -1.0; }, StatusCode::out_of_range);
    fails([](StrengthRequest& r) { r.external.tensile_mpa = 0.0; }, StatusCode::out_of_range);
    fails([](StrengthRequest& r) { r.factor_of_safety = 0.5; }, StatusCode::out_of_range);
    fails([](StrengthRequest& r) { r.sizes.internal_minor_max_mm = 10.5; }, StatusCode::inconsistent);
    fails(
        [](StrengthRequest& r) {
            r.overlap_mm = 1e308;
            r.external.tensile_mpa = 1e308;
        },
        StatusCode::out_of_range);
}

TEST(Strength, FlanksWithoutPublishedFactorsTakeTheirBounds) {
    FitPart screw;
    screw.major = {15.7, 16.0};
    screw.pitch = {13.64, 13.905};
    screw.minor = {kNaN, 11.5};
    screw.pitch_mm = 4.0;
    screw.half_angle_deg = 15.0;
    FitPart nut = screw;
    nut.major = {16.5, kNaN};
    nut.pitch = {14.0, 14.355};
    nut.minor = {12.0, 12.375};
    StrengthRequest request;
    request.sizes = strength_sizes(16.0, screw, nut);
    EXPECT_NEAR(request.sizes.external_root_min_mm, 11.5 - 0.265, 1e-12);
    EXPECT_NEAR(request.sizes.internal_root_max_mm, 16.5 + 0.355, 1e-12);
    request.external.tensile_mpa = 600.0;
    request.internal.tensile_mpa = 250.0;
    request.overlap_mm = 24.0;
    request.internal_outside_mm = 24.0;
    const ThreadStrength flat = strength(request);
    EXPECT_EQ(flat.external_bending_factor, 0.897);
    EXPECT_EQ(flat.internal_bending_factor, 0.897);
    EXPECT_NEAR(flat.dilation_factor, dilation_factor(1.5), 1e-12);
    EXPECT_EQ(flat.stress_area_mm2, flat.root_area_mm2);
    request.sizes.half_angle_deg = 30.0;
    EXPECT_NE(strength(request).internal_bending_factor, 0.897);
}

TEST(Tightening, RangeOfFrictionIsARangeOfTorque) {
    TighteningRequest request{.diameter_mm = 10.0,
                              .pitch_diameter_mm = 9.026,
                              .lead_mm = 1.5,
                              .half_angle_deg = 30.0,
                              .section_diameter_mm = 8.593,
                              .bore_mm = 0.0,
                              .thread_friction_low = 0.08,
                              .thread_friction_high = 0.16,
                              .bearing_friction_low = 0.08,
                              .bearing_friction_high = 0.16,
                              .bearing_diameter_mm = 13.0,
                              .prevailing_nm = 2.0,
                              .preload_n = 10000.0};
    const Tightening by_preload = tighten(request);
    EXPECT_NEAR(by_preload.torque_min_nm,
                2.0 + tightening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.08, 0.08, 13.0), 1e-9);
    EXPECT_NEAR(by_preload.torque_max_nm,
                2.0 + tightening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.16, 0.16, 13.0), 1e-9);
    EXPECT_EQ(by_preload.preload_min_n, 10000.0);
    EXPECT_NEAR(by_preload.loosen_min_nm,
                2.0 + loosening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.08, 0.08, 13.0), 1e-9);
    request.torque_nm = by_preload.torque_max_nm;
    EXPECT_THROW((void)tighten(request), DomainError);
    request.preload_n = kNaN;
    const Tightening by_torque = tighten(request);
    EXPECT_NEAR(by_torque.preload_min_n, 10000.0, 1e-6);
    EXPECT_GT(by_torque.preload_max_n, 15000.0);
    EXPECT_NEAR(by_torque.nut_factor_max, by_preload.nut_factor_max, 1e-12);
    request.torque_nm = 1.0;
    EXPECT_THROW((void)tighten(request), DomainError);
    request.torque_nm = 30.0;
    request.thread_friction_low = 0.3;
    EXPECT_THROW((void)tighten(request), DomainError);
}

}  // namespace
}  // namespace halfnut::threads
