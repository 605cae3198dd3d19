// Coatings: published effects on sizes, what an allowance holds, and reading a coating's name and thickness.

#include "halfnut/threads/coating.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <optional>

#include "halfnut/builtin.hpp"
#include "halfnut/threads/gauging_tables.hpp"
#include "reference.hpp"

namespace halfnut::threads {
namespace {

using test::ReferenceRow;

/// Our answer to a printed row in the row's own unit (a factor of t, um or in), or nothing where the row asks
/// for the limits of a thread.
std::optional<double> answer(const ReferenceRow& row) {
    const std::string& quantity = row.text("quantity");
    const double film = row.has("film") ? row.number("film") : 0.0;
    const double build_up = build_up_um(film, row.number("ratio"), 0.0);
    const bool internal = row.text("thread").find("internal") != std::string::npos;
    if (quantity == "surface_change") {
        return build_up;
    }
    if (quantity == "diameter_change") {
        return coated_diameter_change_um(build_up);
    }
    if (quantity == "hole_change") {
        return -coated_diameter_change_um(build_up);
    }
    if (quantity == "pitch_change") {
        return (internal ? -1.0 : 1.0) * coated_pitch_change_um(build_up, row.number("half_angle_deg"));
    }
    if (quantity == "metal_consumed") {
        return metal_consumed_um(film, row.number("ratio"));
    }
    if (quantity == "needed_deviation") {
        const std::string& length = row.text("thread");
        return length == "local" ? coated_pitch_change_um(film, 30.0)
                                 : needed_deviation_um(film, std::stod(length));
    }
    if (quantity == "greatest_coating_of_nominal") {
        return parse_build_up("1 mm min", builtin()).max_um / 1000.0;
    }
    return std::nullopt;
}

TEST(Coating, PublishedEffects) {
    const test::Reference reference("threads/coatings.csv");
    std::map<std::string, int> counted;
    for (const ReferenceRow& row : reference.rows()) {
        const std::optional<double> ours = answer(row);
        if (!ours) {
            ++counted["limits"];
            continue;
        }
        const std::string& printed = row.text("printed");
        const std::size_t point = printed.find('.');
        const double half_unit = 0.5 * std::pow(10.0, point == std::string::npos
                                                          ? 0.0
                                                          : -static_cast<double>(printed.size() - point - 1));
        EXPECT_NEAR(*ours, row.number("printed"), half_unit + 1e-9)
            << row.text("row") << ' ' << row.text("quantity");
        ++counted[row.text("role")];
    }
    EXPECT_EQ(counted["independent"], 36);
    EXPECT_EQ(counted["derived"], 7);
    EXPECT_EQ(counted["table-cell"], 11);
    EXPECT_EQ(counted["memory"], 12);
    EXPECT_EQ(counted["limits"], 41);
    fmt::print("coatings: {} independent, {} derived, {} table cells, {} from memory agree\n",
               counted["independent"], counted["derived"], counted["table-cell"], counted["memory"]);
}

TEST(Coating, AnodiseAsAProcess) {
    EXPECT_DOUBLE_EQ(build_up_um(12.0, 0.5, 2.0), 4.0);
    EXPECT_DOUBLE_EQ(metal_consumed_um(12.0, 0.5), 6.0);
    EXPECT_DOUBLE_EQ(recoated_build_up_um(12.0, 0.5, 2.0, 0.0), 4.0);
    // Stripping takes the film and the metal it was made of; the next etch and film start from there.
    EXPECT_DOUBLE_EQ(recoated_build_up_um(12.0, 0.5, 2.0, 1.0), 4.0 - 6.0 - 2.0);
    EXPECT_DOUBLE_EQ(greatest_build_up_um(coated_pitch_change_um(3.0, 14.5), 14.5), 3.0);
    EXPECT_THROW((void)build_up_um(12.0, 1.2, 0.0), DomainError);
    EXPECT_THROW((void)needed_deviation_um(8.0, 16.0), DomainError);
}

TEST(Coating, StrippedAndGrownAnew) {
    const Catalogue& catalogue = builtin();
    // 8 to 12 um of film, growth 1/3 to 1/2, etch 0 to 5 um, stripped once:
    // most 8/2 - 8/2 and 12/2 - 12/2; least 12/3 - 5 - (2/3 x 12 + 5)
    const BuildUp once = recoated(parse_build_up("anodise II 8-12 um", catalogue), 1, catalogue);
    EXPECT_NEAR(once.max_um, 0.0, 1e-12);
    EXPECT_NEAR(once.min_um, 4.0 - 5.0 - 13.0, 1e-9);
    const BuildUp plain = parse_build_up("anodise II 8-12 um", catalogue);
    EXPECT_EQ(recoated(plain, 0, catalogue).min_um, plain.min_um);
    EXPECT_EQ(recoated(plain, 0, catalogue).max_um, plain.max_um);
    EXPECT_THROW((void)recoated(plain, -1, catalogue), DomainError);
    EXPECT_THROW((void)recoated(parse_build_up("8 um", catalogue), 1, catalogue), DomainError);
}

TEST(Coating, ReadsBuildUpsAndCoatings) {
    const Catalogue& catalogue = builtin();
    const auto range = [&](std::string_view text) {
        const BuildUp b = parse_build_up(text, catalogue);
        return std::pair{std::round(b.min_um * 1000.0) / 1000.0, std::round(b.max_um * 1000.0) / 1000.0};
    };
    using Pair = std::pair<double, double>;
    EXPECT_EQ(range("bare"), Pair(0, 0));
    EXPECT_EQ(range("8 um"), Pair(8, 8));
    EXPECT_EQ(range("5-8 um"), Pair(5, 8));
    EXPECT_EQ(range("5 to 8 um"), Pair(5, 8));
    EXPECT_EQ(range("0.0002 in to 0.0003 in"), Pair(5.08, 7.62));
    EXPECT_EQ(range("0.0002–0.0003 in"), Pair(5.08, 7.62));
    EXPECT_EQ(range("8 um min"), Pair(8, 12));
    EXPECT_EQ(range("1e-2 mm"), Pair(10, 10));
    EXPECT_EQ(range("zinc SC2"), Pair(8, 12));
    EXPECT_EQ(range("Zinc sc2 8-10 um"), Pair(8, 10));
    EXPECT_EQ(range("anodise II 12 um"), Pair(-1, 6));
    EXPECT_EQ(range("Type II anodize, 12 um"), Pair(-1, 6));
    EXPECT_EQ(range("black anodise II 12 um"), range("anodise II black 12 um"));
    EXPECT_EQ(range("hard anodise 0.002 in"), Pair(20.4, 25.4));
    EXPECT_EQ(range("black oxide"), Pair(0, 0));
    EXPECT_EQ(parse_build_up("anodise III", catalogue).origin, BuildUpOrigin::usual);
    EXPECT_TRUE(parse_build_up("zinc SC2", catalogue).maximum_by_rule);
    EXPECT_EQ(parse_build_up("anodise III", catalogue).row(catalogue)->process, CoatingProcess::anodise);
}

TEST(Coating, RefusesWhatItCannotRead) {
    const Catalogue& catalogue = builtin();
    EXPECT_THROW((void)parse_build_up("", catalogue), DesignationError);
    EXPECT_THROW((void)parse_build_up("8", catalogue), UnitError);
    EXPECT_THROW((void)parse_build_up("8-5 um", catalogue), DesignationError);
    EXPECT_THROW((void)parse_build_up("anodise II thick", catalogue), DesignationError);
    EXPECT_THROW((void)parse_build_up("anodise II -3 um", catalogue), DesignationError);
    EXPECT_THROW((void)build_up_between(3.0, 2.0), DomainError);
    EXPECT_THROW((void)build_up_between(kNaN, 2.0), DomainError);
    try {
        (void)parse_build_up("zink SC2 8 um", catalogue);
        FAIL();
    } catch (const NotTabulatedError& error) {
        EXPECT_NE(std::string(error.what()).find("zinc SC2"), std::string::npos) << error.what();
    }
}

TEST(Coating, GoesOnItsMetalOnly) {
    const CoatingRow& anodise = *parse_build_up("anodise II", builtin()).row(builtin());
    EXPECT_NO_THROW(require_takes(anodise, "aluminium-wrought-aged", "6061 T6"));
    EXPECT_THROW(require_takes(anodise, "brass-free", "C36000"), DomainError);
    EXPECT_THROW(require_takes(anodise, "steel-alloy-30", "4130"), DomainError);
    EXPECT_NO_THROW(
        require_takes(*parse_build_up("zinc SC2", builtin()).row(builtin()), "iron-grey", "grey iron"));
    EXPECT_NO_THROW(require_takes(*parse_build_up("electroless nickel B", builtin()).row(builtin()),
                                  "brass-free", "C36000"));
}

TEST(Coating, TableIsInOrder) {
    for (const CoatingRow& row : builtin().coatings) {
        EXPECT_LE(row.film_min_um, row.usual_low_um) << row.id;
        EXPECT_FALSE(row.usual_high_um < row.usual_low_um) << row.id;
        EXPECT_FALSE(row.film_max_um < row.usual_high_um) << row.id;
        EXPECT_LE(row.growth_low, row.growth_high) << row.id;
        EXPECT_LE(row.etch_low_um, row.etch_high_um) << row.id;
    }
    for (const WireRow& row : builtin().wires) {
        EXPECT_NE(std::isnan(row.diameter_in), std::isnan(row.diameter_mm))
            << row.set_name << ' ' << row.number;
    }
}

}  // namespace
}  // namespace halfnut::threads
