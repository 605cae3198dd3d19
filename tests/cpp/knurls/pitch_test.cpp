#include "halfnut/knurls/pitch.hpp"

#include <gtest/gtest.h>

#include "halfnut/builtin.hpp"
#include "halfnut/knurls/tables.hpp"
#include "reference.hpp"

namespace halfnut::knurls {
namespace {

TEST(KnurlPitch, PrintedDesignations) {
    const test::Reference reference("knurls/designations.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        const KnurlPitch pitch = parse_knurl_pitch(row.text("text"), builtin());
        EXPECT_EQ(pitch.system, PitchSystem::metric) << row.text("id");
        EXPECT_EQ(pitch.value, row.number("pitch_mm")) << row.text("id");
        ASSERT_TRUE(pitch.pattern && pitch.profile_deg) << row.text("id");
        EXPECT_EQ(*pitch.pattern, parse_knurl_pattern(row.text("form"), builtin())) << row.text("id");
        EXPECT_EQ(*pitch.profile_deg, row.number("profile_deg")) << row.text("id");
        ++read;
    }
    EXPECT_EQ(read, 1U);
}

TEST(KnurlPitch, WaysToWriteIt) {
    struct Case {
        const char* text;
        PitchSystem system;
        double value;
    };
    for (const Case& c :
         {Case{"96 DP", PitchSystem::diametral, 96.0}, Case{"96dp", PitchSystem::diametral, 96.0},
          Case{" DP 128 ", PitchSystem::diametral, 128.0}, Case{"21 TPI", PitchSystem::circular, 21.0},
          Case{"20.5tpi", PitchSystem::circular, 20.5}, Case{"0.8 mm", PitchSystem::metric, 0.8},
          Case{".8mm", PitchSystem::metric, 0.8}, Case{"Medium", PitchSystem::circular, 21.0},
          Case{"coarse", PitchSystem::circular, 14.0}, Case{"fine", PitchSystem::circular, 33.0},
          Case{"RGE 0.8", PitchSystem::metric, 0.8}, Case{"rge 0.8 mm", PitchSystem::metric, 0.8},
          Case{"RGE 1", PitchSystem::metric, 1.0}, Case{"RKV 16", PitchSystem::metric, 1.6},
          Case{"RAA05", PitchSystem::metric, 0.5}, Case{"DIN 82 - RGE 0.8", PitchSystem::metric, 0.8},
          Case{"DIN 82 RBL 12", PitchSystem::metric, 1.2},
          Case{"RGE 2.0 DIN 82", PitchSystem::metric, 2.0}}) {
        const KnurlPitch pitch = parse_knurl_pitch(c.text, builtin());
        EXPECT_EQ(pitch.system, c.system) << c.text;
        EXPECT_EQ(pitch.value, c.value) << c.text;
    }
    EXPECT_FALSE(parse_knurl_pitch("96 DP", builtin()).pattern.has_value());
    EXPECT_EQ(parse_knurl_pitch("DIN 82 RBL 12", builtin()).pattern, Pattern::left);
}

TEST(KnurlPitch, WhatIsNotUnderstood) {
    EXPECT_THROW((void)parse_knurl_pitch("0.8", builtin()), UnitError);
    for (const char* text : {"", "  ", "-96 DP", "0 DP", "96 XP", "96 DP 12", "RGE", "RGE 0.8 x", "1.2.3 mm",
                             "RGE 08 -", "DIN 82", "0,8 mm", "TPI", "96 96", "DIN 82 -", "DP DP"}) {
        try {
            (void)parse_knurl_pitch(text, builtin());
            ADD_FAILURE() << '"' << text << "\" was understood";
        } catch (const DesignationError& error) {
            EXPECT_NE(std::string(error.what()).find("21 TPI"), std::string::npos) << error.what();
        } catch (const NotTabulatedError& error) {
            EXPECT_NE(std::string(error.what()).find("medium"), std::string::npos) << error.what();
        }
    }
    EXPECT_THROW((void)parse_knurl_pitch("RGE 07", builtin()), NotTabulatedError);
    EXPECT_THROW((void)parse_knurl_pitch("tiny", builtin()), NotTabulatedError);
}

TEST(KnurlPitch, Patterns) {
    EXPECT_EQ(parse_knurl_pattern("diamond", builtin()), Pattern::diamond_raised);
    EXPECT_EQ(parse_knurl_pattern("Diamond-Indented", builtin()), Pattern::diamond_indented);
    EXPECT_EQ(parse_knurl_pattern("cross", builtin()), Pattern::cross_raised);
    EXPECT_EQ(parse_knurl_pattern("rkv", builtin()), Pattern::cross_indented);
    try {
        (void)parse_knurl_pattern("strait", builtin());
        FAIL();
    } catch (const DesignationError& error) {
        EXPECT_NE(std::string(error.what()).find("nearest \"straight\""), std::string::npos) << error.what();
    }
}

TEST(KnurlPitch, PrintedPitchAround) {
    const test::Reference reference("knurls/circular_pitches.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        const double around = transverse_pitch_mm(pitch_from_teeth_per_inch_mm(row.number("teeth_per_inch")),
                                                  row.number("helix_deg"));
        EXPECT_NEAR(kInchMm / around, row.number("teeth_per_inch_around"), 0.0051) << row.text("id");
        ++read;
    }
    EXPECT_EQ(read, 1U);
}

TEST(KnurlPitch, NormalAndTransverseAreInverse) {
    for (double helix = 0.0; helix <= 75.0; helix += 2.5) {
        EXPECT_NEAR(normal_pitch_mm(transverse_pitch_mm(1.3, helix), helix), 1.3, 1e-15) << helix;
    }
    EXPECT_THROW((void)transverse_pitch_mm(1.0, 76.0), DomainError);
    EXPECT_THROW((void)pitch_from_diametral_mm(0.0), DomainError);
}

// Wheels of 1/2 in are recalled from the standard; the others follow from the recalled factor.
TEST(DiametralWheels, OutsideDiameters) {
    const test::Reference reference("knurls/diametral_wheels.csv");
    std::size_t recalled = 0;
    std::size_t derived = 0;
    for (const auto& row : reference.rows()) {
        for (const DiametralPitchRow& pitch : builtin().knurl_diametral_pitches) {
            if (pitch.diametral_pitch == row.number("diametral_pitch")) {
                const double outside = diametral_wheel_outside_in(
                    row.number("nominal_in"), row.number("teeth"), pitch.tracking_factor_in);
                EXPECT_NEAR(outside, row.number("outside_in"), 0.00005 + 1e-9) << row.text("id");
                (row.text("grade") == "memory" ? recalled : derived) += 1;
            }
        }
        EXPECT_EQ(row.number("teeth"), row.number("diametral_pitch") * row.number("nominal_in"))
            << row.text("id");
    }
    EXPECT_EQ(recalled, 4U);
    EXPECT_EQ(derived, 14U);
}

// Rows with a note differ in the last printed place, and the note says why.
TEST(DiametralWheels, PrintedTeethPerInchAcrossTheTeeth) {
    const test::Reference reference("knurls/equivalent_pitches.csv");
    std::size_t agreed = 0;
    std::size_t explained = 0;
    for (const auto& row : reference.rows()) {
        for (const DiametralPitchRow& pitch : builtin().knurl_diametral_pitches) {
            if (pitch.diametral_pitch != row.number("diametral_pitch")) {
                continue;
            }
            const double outside =
                diametral_wheel_outside_in(1.0, pitch.diametral_pitch, pitch.tracking_factor_in);
            const double around_mm = wheel_pitch_mm(outside * kInchMm, pitch.diametral_pitch, 0.0);
            const double across = kInchMm / normal_pitch_mm(around_mm, row.number("helix_deg"));
            const double difference = std::abs(across - row.number("teeth_per_inch"));
            if (row.has("note")) {
                EXPECT_GT(difference, 0.0501) << row.text("id") << ": no longer differs; count it as agreed";
                EXPECT_LT(difference, 0.15) << row.text("id");
                ++explained;
            } else {
                EXPECT_LE(difference, 0.0501) << row.text("id") << " got " << across;
                ++agreed;
            }
        }
    }
    EXPECT_EQ(agreed, 5U);
    EXPECT_EQ(explained, 3U);
}

TEST(KnurlTables, ComputableColumns) {
    std::size_t read = 0;
    for (const DiametralWheelRow& row : builtin().knurl_diametral_wheels) {
        EXPECT_EQ(row.teeth, row.diametral_pitch * row.nominal_diameter_in);
        ++read;
    }
    EXPECT_EQ(read, 20U);
    // printed counts lie within one tooth of pi d / t; they are not always its nearest whole number
    std::size_t not_nearest = 0;
    for (const MetricWheelRow& row : builtin().knurl_metric_wheels) {
        const double exact = std::numbers::pi * row.diameter_mm / row.pitch_mm;
        EXPECT_LT(std::abs(row.teeth - exact), 1.0) << row.diameter_mm << ' ' << row.pitch_mm;
        not_nearest += row.teeth == std::round(exact) ? 0U : 1U;
        EXPECT_EQ(row.note.empty(), row.teeth == std::round(exact)) << row.diameter_mm << ' ' << row.pitch_mm;
    }
    EXPECT_EQ(builtin().knurl_metric_wheels.size(), 12U);
    EXPECT_EQ(not_nearest, 2U);
    for (const MetricPitchRow& row : builtin().knurl_metric_pitches) {
        EXPECT_EQ(std::stod(std::string(row.code)), std::round(10.0 * row.pitch_mm));
    }
}

}  // namespace
}  // namespace halfnut::knurls
