#include "halfnut/material/strengths.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <string_view>

#include "halfnut/core/builtin.hpp"
#include "halfnut/material/alloy.hpp"
#include "reference.hpp"

namespace halfnut::material {
namespace {

constexpr double kMpaPerKsi = 6.894757293168361;
constexpr double kMmPerInch = 25.4;

double figure(const MinimumStrength& strength, std::string_view name) {
    return name == "tensile" ? strength.tensile_mpa
           : name == "yield" ? strength.yield_mpa
           : name == "shear" ? strength.shear_mpa
                             : strength.bearing_mpa;
}

SourceKind kind_of(SourceId source) {
    return builtin().sources[source.index].kind;
}

TEST(MilHdbk5j_Minima, NoMinimumIsAboveThePrintedLeastOfItsDirections) {
    const test::Reference reference("material/strengths_5j.csv");
    std::size_t compared = 0;
    std::size_t not_held = 0;
    std::size_t equal = 0;
    for (const test::ReferenceRow& row : reference.rows()) {
        if (!row.has("alloy")) {
            ++not_held;
            continue;
        }
        const AlloyRow& alloy = find_alloy(builtin(), row.text("alloy"));
        const double low_mm = std::max(row.number("from_in") * kMmPerInch, 0.1);
        const double high_mm = row.has("up_to_in") ? row.number("up_to_in") * kMmPerInch : 400.0;
        const double printed_mpa = row.number("printed_ksi") * kMpaPerKsi;
        for (const double share : {0.0, 0.5, 1.0}) {
            const double thickness_mm = low_mm + share * (high_mm - low_mm);
            const double least = figure(minimum_strength(builtin(), alloy, row.text("form"), thickness_mm),
                                        row.text("figure"));
            EXPECT_FALSE(least > printed_mpa + 1e-9)
                << row.text("id") << ": " << row.text("alloy") << ' ' << row.text("form") << ' '
                << row.text("figure") << ' ' << row.text("grain") << " at " << thickness_mm
                << " mm: expected at most " << printed_mpa << ", got " << least;
            ++compared;
            equal += std::abs(least - printed_mpa) < 1e-9 ? 1 : 0;
        }
    }
    EXPECT_EQ(reference.rows().size(), 131U);
    EXPECT_EQ(not_held, 11U);
    EXPECT_EQ(compared, 360U);
    EXPECT_GT(equal, 270U) << "nearly every figure is the printed one itself";
}

TEST(MilHdbk5j_Minima, ALoadWhoseDirectionIsSaidGetsItsOwnFigure) {
    const AlloyRow& alloy = find_alloy(builtin(), "6061-T6");
    const auto ksi = [&](Grain grain) {
        const MinimumStrength found = minimum_strength(builtin(), alloy, "extrusion", 10.0, grain);
        return std::array{found.tensile_mpa / kMpaPerKsi, found.yield_mpa / kMpaPerKsi};
    };
    EXPECT_NEAR(ksi(Grain::along)[0], 38.0, 1e-9);
    EXPECT_NEAR(ksi(Grain::along)[1], 35.0, 1e-9);
    EXPECT_NEAR(ksi(Grain::across)[0], 37.0, 1e-9);
    EXPECT_NEAR(ksi(Grain::across)[1], 33.0, 1e-9);
    EXPECT_EQ(ksi(Grain::any), ksi(Grain::across));
    // 7075 plate is the stronger across the grain in tension, the weaker in yield
    const MinimumStrength plate =
        minimum_strength(builtin(), find_alloy(builtin(), "7075-T651"), "plate", 10.0);
    EXPECT_NEAR(plate.tensile_mpa / kMpaPerKsi, 77.0, 1e-9);
    EXPECT_NEAR(plate.yield_mpa / kMpaPerKsi, 67.0, 1e-9);
    EXPECT_TRUE(plate.least_of_grain);
    EXPECT_THROW((void)minimum_strength(builtin(), alloy, "drawn tube", 2.0, Grain::across),
                 NotTabulatedError);
}

TEST(MinimumStrengths, ARecalledRowNeverCoversWhatATranscribedOneDoes) {
    const auto metric = [](double mm, double in) { return std::isnan(mm) ? in * kMmPerInch : mm; };
    std::size_t pairs = 0;
    for (const StrengthRow& printed : builtin().strengths) {
        for (const StrengthRow& recalled : builtin().strengths) {
            if (kind_of(printed.source) == SourceKind::memory ||
                kind_of(recalled.source) != SourceKind::memory || printed.alloy != recalled.alloy ||
                printed.form != recalled.form) {
                continue;
            }
            ++pairs;
            const double low = std::max(metric(printed.over_mm, printed.over_in),
                                        metric(recalled.over_mm, recalled.over_in));
            const auto end = [&](const StrengthRow& row) {
                const double up = metric(row.up_to_mm, row.up_to_in);
                return std::isnan(up) ? 1e9 : up;
            };
            EXPECT_LE(std::min(end(printed), end(recalled)), low) << printed.alloy << ' ' << printed.form;
        }
    }
    EXPECT_GE(pairs, 12U);
}

TEST(MinimumStrengths, KindsOfSourceAreToldApart) {
    std::map<SourceKind, std::size_t> rows;
    for (const StrengthRow& row : builtin().strengths) {
        ++rows[kind_of(row.source)];
    }
    EXPECT_EQ(rows[SourceKind::transcription], 27U);
    EXPECT_EQ(rows[SourceKind::memory], 94U);
    EXPECT_EQ(rows.size(), 2U);
}

TEST(MinimumStrengths, WithoutAThicknessNoFigureIsAboveThatOfAnyRow) {
    std::size_t compared = 0;
    for (const StrengthRow& row : builtin().strengths) {
        const MinimumStrength least = minimum_strength(builtin(), find_alloy(builtin(), row.alloy), row.form);
        const double middle_in = std::isnan(row.up_to_in) ? row.over_in + 0.001 : row.up_to_in;
        const double thickness_mm = std::isnan(row.over_mm) ? middle_in * kMmPerInch : row.up_to_mm;
        const MinimumStrength one =
            minimum_strength(builtin(), find_alloy(builtin(), row.alloy), row.form, thickness_mm);
        for (const std::string_view name : {"tensile", "yield", "shear", "bearing"}) {
            EXPECT_FALSE(figure(least, name) > figure(one, name))
                << row.alloy << ' ' << row.form << ' ' << name;
            ++compared;
        }
    }
    EXPECT_EQ(compared, 4 * builtin().strengths.size());
}

}  // namespace
}  // namespace halfnut::material
