#include "halfnut/knurls/tracking.hpp"

#include <gtest/gtest.h>

#include "reference.hpp"

namespace halfnut::knurls {
namespace {

TEST(KnurlTracking, DiametralBlanks) {
    const test::Reference reference("knurls/diametral_blanks.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        const double p_t = pitch_from_diametral_mm(row.number("diametral_pitch"));
        const double d = row.number("blank_in") * kInchMm;
        EXPECT_NEAR(teeth_around(d, p_t), row.number("teeth"), 1e-9) << row.text("id");
        EXPECT_NEAR(mismatch_teeth(d, p_t), 0.0, 1e-9) << row.text("id");
        EXPECT_NEAR(tracking_blank_mm(row.number("teeth"), p_t), d, 1e-9) << row.text("id");
        EXPECT_NEAR(blank_below_mm(d, p_t), d, 1e-9) << row.text("id");
        EXPECT_NEAR(blank_above_mm(d, p_t), d, 1e-9) << row.text("id");
        ++read;
    }
    EXPECT_EQ(read, 29U);
}

TEST(KnurlTracking, PrintedExampleOfAWheelSetOver) {
    const test::Reference reference("knurls/set_over_wheel.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        const double p = pitch_from_diametral_mm(row.number("diametral_pitch"));
        const std::string& quantity = row.text("quantity");
        double got = 0.0;
        if (quantity == "teeth_around") {
            got = teeth_around(row.number("diameter_in") * kInchMm,
                               transverse_pitch_mm(p, row.number("set_over_deg")));
        } else if (quantity == "set_over_for_138_teeth_deg") {
            got = tracking_helix_deg(138.0, p, row.number("diameter_in") * kInchMm);
        } else if (quantity == "blank_for_138_teeth_in") {
            got = tracking_blank_mm(138.0, transverse_pitch_mm(p, row.number("set_over_deg"))) / kInchMm;
        } else {
            ADD_FAILURE() << quantity;
        }
        EXPECT_NEAR(got, row.number("value"), row.number("half_last_place")) << row.text("id");
        ++read;
    }
    EXPECT_EQ(read, 3U);
}

TEST(KnurlTracking, PrintedStepsThatTrack) {
    const test::Reference reference("knurls/uniform_tracking.csv");
    std::size_t read = 0;
    std::size_t blanks = 0;
    for (const auto& row : reference.rows()) {
        const double p_t = pitch_from_diametral_mm(row.number("diametral_pitch"));
        const auto denominator = static_cast<int>(row.number("step_denominator"));
        for (int i = denominator / 8; i <= denominator; ++i) {
            EXPECT_NEAR(mismatch_teeth(kInchMm * i / denominator, p_t), 0.0, 1e-9)
                << row.text("id") << ' ' << i;
            ++blanks;
        }
        ++read;
    }
    EXPECT_EQ(read, 7U);
    EXPECT_EQ(blanks, 511U);
    // and the page's point: 96 DP does not track on every 1/64
    EXPECT_NEAR(std::abs(mismatch_teeth(kInchMm * 33.0 / 64.0, pitch_from_diametral_mm(96.0))), 0.5, 1e-9);
}

TEST(KnurlTracking, PrintedBlanksFromAMeasuredWheel) {
    const test::Reference reference("knurls/wheel_ratio.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        const double p_t = wheel_pitch_mm(row.number("wheel_in") * kInchMm, row.number("wheel_teeth"),
                                          row.number("allowance_in") * kInchMm);
        const double n = teeth_around(row.number("near_in") * kInchMm, p_t);
        EXPECT_EQ(std::round(n), row.number("teeth")) << row.text("id");
        EXPECT_NEAR(tracking_blank_mm(row.number("teeth"), p_t) / kInchMm, row.number("blank_in"),
                    row.number("half_last_place_in"))
            << row.text("id");
        ++read;
    }
    EXPECT_EQ(read, 2U);
}

TEST(KnurlTracking, BelowAndAboveBracketAndHoldWholeTeeth) {
    for (double p_t = 0.45; p_t < 2.2; p_t += 0.0731) {
        for (double d = 3.0; d < 80.0; d += 0.377) {
            const double below = blank_below_mm(d, p_t);
            const double above = blank_above_mm(d, p_t);
            ASSERT_LE(below, d + 1e-6) << d << ' ' << p_t;
            ASSERT_GE(above, d - 1e-6) << d << ' ' << p_t;
            ASSERT_LE(above - below, p_t / std::numbers::pi + 1e-9) << d << ' ' << p_t;
            ASSERT_NEAR(mismatch_teeth(below, p_t), 0.0, 1e-9) << d << ' ' << p_t;
            ASSERT_NEAR(mismatch_teeth(above, p_t), 0.0, 1e-9) << d << ' ' << p_t;
        }
    }
}

TEST(KnurlTracking, HelixForTeethIsTheInverse) {
    const double p = 1.27;
    for (double psi = 1.0; psi < 70.0; psi += 3.0) {
        const double d = tracking_blank_mm(40.0, transverse_pitch_mm(p, psi));
        EXPECT_NEAR(tracking_helix_deg(40.0, p, d), psi, 1e-9);
    }
    EXPECT_NEAR(tracking_helix_deg(40.0, p, tracking_blank_mm(40.0, p)), 0.0, 1e-6);
    EXPECT_THROW((void)tracking_helix_deg(41.0, p, tracking_blank_mm(40.0, p)), DomainError);
    EXPECT_THROW((void)blank_below_mm(0.1, 1.27), DomainError);
}

}  // namespace
}  // namespace halfnut::knurls
