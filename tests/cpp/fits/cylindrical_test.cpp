#include "halfnut/fits/cylindrical.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"
#include "reference.hpp"

namespace halfnut::fits {
namespace {

TEST(CylindricalFit, PublishedLimits) {
    const test::Reference reference("fits/cylindrical_limits.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        const CylinderLimits limits = cylinder_limits(builtin(), parse_cylinder(row.text("size"), builtin()));
        const Zone& zone = row.text("part") == "hole" ? limits.hole : limits.shaft;
        ASSERT_TRUE(zone.given) << row.text("id");
        EXPECT_EQ(zone.upper, std::llround(1000.0 * row.number("upper"))) << row.text("id");
        EXPECT_EQ(zone.lower, std::llround(1000.0 * row.number("lower"))) << row.text("id");
        if (row.has("hole_upper")) {
            EXPECT_EQ(limits.hole.upper, std::llround(1000.0 * row.number("hole_upper"))) << row.text("id");
        }
        ++read;
    }
    EXPECT_EQ(read, 90U);
}

TEST(CylindricalFit, SpellingsReadBack) {
    for (const char* const text : {"25 H7/g6", "25 js01", "12.7 H7", "1.25 RC4", "0.8 P6"}) {
        const Cylinder cylinder = parse_cylinder(text, builtin());
        EXPECT_EQ(format_cylinder(cylinder), text);
        EXPECT_EQ(parse_cylinder(format_cylinder(cylinder), builtin()), cylinder);
    }
}

TEST(CylindricalFit, MeetingOfFixedSizesIsTheirDifference) {
    const Meeting answer = meeting({{10.02, 10.02}, {10.0, 10.0, 5.0, 5.0}});
    EXPECT_NEAR(answer.clearance_min_mm, 0.01, 1e-12);
    EXPECT_NEAR(answer.clearance_max_mm, 0.01, 1e-12);
    EXPECT_EQ(answer.chance_of_interference, 0.0);
    EXPECT_THROW((void)meeting({{10.02, 10.0}, {10.0, 10.0}}), DomainError);
}

TEST(CylindricalFit, ToleranceUnit) {
    EXPECT_NEAR(tolerance_unit_um(23.2379), 1.307375, 5e-7);
}

}  // namespace
}  // namespace halfnut::fits
