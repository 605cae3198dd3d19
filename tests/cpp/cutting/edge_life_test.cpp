// Constants of edge life: from their rows, carried to other conditions.

#include <gtest/gtest.h>

#include <cmath>

#include "halfnut/builtin.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/tool_life.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {
namespace {

TEST(EdgeLife, IsTheRowsOwnAtItsConditions) {
    int checked = 0;
    int exact = 0;
    for (const ToolLifeRow& row : builtin().tool_lives) {
        material::AlloyRow alloy = builtin().alloys[0];
        alloy.group = row.key;
        alloy.hardness_hb = row.hardness_hb;
        EdgeLife life;
        ASSERT_TRUE(
            edge_life(builtin(), {&alloy, kNaN, row.tool_material, row.feed_mm, row.depth_mm}, life).ok());
        EXPECT_FALSE(life.moved);
        EXPECT_FALSE(life.shifted);
        EXPECT_LE(life.c_m_min, row.c_m_min) << row.key << ' ' << row.number;
        exact += life.c_m_min == row.c_m_min ? 1 : 0;
        ++checked;
    }
    EXPECT_EQ(checked, 42);
    EXPECT_EQ(exact, 41) << "one row has a slower one for the same conditions";
}

TEST(EdgeLife, IsCarriedAndShiftedByItsRules) {
    const material::AlloyRow& steel = material::find_alloy(builtin(), "1045");
    EdgeLife at;
    EdgeLife finer;
    EdgeLife harder;
    ASSERT_TRUE(edge_life(builtin(), {&steel, kNaN, ToolMaterial::carbide_coated, 0.25, 2.5}, at).ok());
    ASSERT_TRUE(edge_life(builtin(), {&steel, kNaN, ToolMaterial::carbide_coated, 0.125, 2.5}, finer).ok());
    ASSERT_TRUE(edge_life(builtin(), {&steel, 326.0, ToolMaterial::carbide_coated, 0.25, 2.5}, harder).ok());
    EXPECT_EQ(at.c_m_min, 700.0);
    EXPECT_NEAR(finer.c_m_min, 700.0 * std::pow(2.0, kCarbideLifeFeed), 1e-9);
    EXPECT_NEAR(harder.c_m_min, 350.0, 1e-9);
    EdgeLife none;
    EXPECT_FALSE(edge_life(builtin(), {&steel, kNaN, ToolMaterial::carbide_coated, 0.02, 2.5}, none).ok())
        << "too far from any trial";
    const material::AlloyRow& stainless = material::find_alloy(builtin(), "304");
    EXPECT_FALSE(edge_life(builtin(), {&stainless, kNaN, ToolMaterial::carbide, 0.25, 2.5}, none).ok());
}

TEST(EconomicLife, IsLongerThanTheFastest) {
    EXPECT_DOUBLE_EQ(economic_life_min(0.25, 2.0, 4.0, 1.0), 18.0);
    EXPECT_GT(economic_life_min(0.125, 2.0, 1.0, 1.0), fastest_life_min(0.125, 2.0));
}

}  // namespace
}  // namespace halfnut::cutting
