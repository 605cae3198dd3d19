// Practice of threaded joints: galling, friction, engagement, bolts; minimum strengths by form.

#include "halfnut/threads/joint.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/strengths.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/joint_tables.hpp"

namespace halfnut::threads {
namespace {

const material::AlloyRow& alloy(std::string_view name) {
    return material::find_alloy(builtin(), name);
}

TEST(Galling, TheNearestPairInEitherOrder) {
    EXPECT_EQ(galling(builtin(), alloy("6061-T6"), alloy("7075-T6")).severity, Galling::high);
    EXPECT_EQ(galling(builtin(), alloy("304"), alloy("316")).severity, Galling::severe);
    EXPECT_EQ(galling(builtin(), alloy("416"), alloy("304")).severity, Galling::high);
    EXPECT_EQ(galling(builtin(), alloy("304"), alloy("titanium grade 2")).severity, Galling::high);
    EXPECT_EQ(&galling(builtin(), alloy("1018"), alloy("6061-T6")),
              &galling(builtin(), alloy("6061-T6"), alloy("1018")));
    EXPECT_EQ(galling(builtin(), alloy("C36000"), alloy("304")).severity, Galling::low);
}

TEST(Friction, TheWorseMetalDecides) {
    const ThreadFrictionRow& row = thread_friction(builtin(), alloy("1018"), alloy("6061-T6"), "dry");
    EXPECT_EQ(row.group, "aluminium");
    EXPECT_THROW((void)thread_friction(builtin(), alloy("1018"), alloy("6061-T6"), "treacle"),
                 NotTabulatedError);
    for (const ThreadFrictionRow& each : builtin().thread_friction) {
        EXPECT_LT(each.friction_low, each.friction_high);
        EXPECT_GT(each.friction_low, 0.0);
    }
}

TEST(Engagement, ByPractice) {
    const auto length = [](std::string_view name, Loading loading) {
        return engagement_by_practice_mm(engagement_practice(builtin(), alloy(name), loading), 10.0);
    };
    EXPECT_NEAR(length("6061-T6", Loading::shock), 20.0 + 0.062 * 25.4, 1e-12);
    EXPECT_EQ(length("6061-T6", Loading::steady), 20.0);
    EXPECT_EQ(length("1018", Loading::steady), 10.0);
    EXPECT_EQ(length("C36000", Loading::shock), 20.0);
}

TEST(Bolts, GradesAndTheirSizes) {
    EXPECT_EQ(bolt_strength(builtin(), "8.8", 10.0).tensile_mpa, 800.0);
    EXPECT_EQ(bolt_strength(builtin(), "8.8", 20.0).tensile_mpa, 830.0);
    EXPECT_NEAR(bolt_strength(builtin(), "SAE 5", 25.4).tensile_mpa, 120.0 * 6.894757, 1e-3);
    EXPECT_NEAR(bolt_strength(builtin(), "SAE 5", 28.575).proof_mpa, 74.0 * 6.894757, 1e-3);
    EXPECT_NEAR(bolt_strength(builtin(), "SAE 8", 6.35).yield_mpa, 130.0 * 6.894757, 1e-3);
    EXPECT_THROW((void)bolt_strength(builtin(), "SAE 5", 3.0), NotTabulatedError);
    EXPECT_THROW((void)bolt_strength(builtin(), "SAE 9", 10.0), NotTabulatedError);
}

TEST(MinimumStrengths, ByFormAndThickness) {
    const auto& tube = alloy("6061-T6");
    EXPECT_NEAR(minimum_strength(builtin(), tube, "drawn tube").tensile_mpa, 289.58, 0.005);
    EXPECT_NEAR(minimum_strength(builtin(), tube, "extrusion").tensile_mpa, 255.11, 0.005);
    EXPECT_NEAR(minimum_strength(builtin(), tube, "plate", 120.0).tensile_mpa, 275.79, 0.005);
    const auto any = minimum_strength(builtin(), tube, "plate");
    EXPECT_TRUE(any.weakest_of_several);
    EXPECT_NEAR(any.tensile_mpa, 275.79, 0.005);
    EXPECT_EQ(minimum_strength(builtin(), alloy("S355"), "plate", 20.0).yield_mpa, 345.0);
    const auto message = [](auto call) {
        try {
            call();
        } catch (const NotTabulatedError& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    EXPECT_EQ(message([&] { (void)minimum_strength(builtin(), tube, ""); }),
              "say the form of 6061 T6: bar, drawn tube, extrusion, plate, sheet");
    EXPECT_NE(message([&] {
                  (void)minimum_strength(builtin(), tube, "drawn tub");
              }).find("did you mean 'drawn tube'?"),
              std::string::npos);
    EXPECT_NE(message([&] { (void)minimum_strength(builtin(), tube, "sheet", 20.0); }).find("over 0.2413 mm"),
              std::string::npos);
    EXPECT_NE(
        message([&] { (void)minimum_strength(builtin(), alloy("POM"), "bar"); }).find("give its tensile"),
        std::string::npos);
}

TEST(MinimumStrengths, EveryRowIsOfAnAlloyAndInOneUnit) {
    std::size_t rows = 0;
    for (const material::StrengthRow& row : builtin().strengths) {
        const auto& of = alloy(row.alloy);
        EXPECT_EQ(of.id, row.alloy);
        EXPECT_NE(std::isnan(row.tensile_mpa), std::isnan(row.tensile_ksi)) << row.alloy << row.form;
        const double yield = std::isnan(row.yield_mpa) ? row.yield_ksi : row.yield_mpa;
        const double tensile = std::isnan(row.tensile_mpa) ? row.tensile_ksi : row.tensile_mpa;
        EXPECT_FALSE(yield >= tensile) << row.alloy << row.form;
        EXPECT_FALSE(row.shear_ksi < 0.45 * tensile || row.shear_ksi > 0.7 * tensile)
            << row.alloy << row.form;
        EXPECT_FALSE(row.over_in >= row.up_to_in || row.over_mm >= row.up_to_mm) << row.alloy << row.form;
        ++rows;
    }
    EXPECT_EQ(rows, 121U);
}

}  // namespace
}  // namespace halfnut::threads
