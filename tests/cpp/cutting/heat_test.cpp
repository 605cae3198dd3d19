// Heat of a cut, where a milling force points, pecks: header examples, balances, what is not known stays NaN.

#include <gtest/gtest.h>

#include "halfnut/builtin.hpp"
#include "halfnut/cutting/heat.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/milling_force.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {
namespace {

const material::AlloyRow& alloy(std::string_view id) {
    return material::find_alloy(builtin(), id);
}

TEST(Heat, HeaderExamples) {
    EXPECT_NEAR(heat_to_work_share(100.0, 0.2, 13.5, 25.0), 0.10561, 5e-6);
    EXPECT_NEAR(work_warming_k(200.0, 60.0, 50.0, 0.0, 100.0, 7850.0, 475.0), 16.39, 5e-3);
    EXPECT_NEAR(milling_feed_force_ratio(0.0, 180.0, 0.6), 0.47124, 5e-6);
    EXPECT_NEAR(milling_cross_force_ratio(0.0, 180.0, 0.6), 0.78540, 5e-6);
    EXPECT_THROW((void)work_warming_k(1.0, 1.0, 20.0, 20.0, 10.0, 7850.0, 475.0), DomainError);
    EXPECT_THROW((void)milling_feed_force_ratio(90.0, 90.0, 0.6), DomainError);
}

TEST(Heat, OfACutIsAShareOfItsPower) {
    TurnRequest request;
    request.work.alloy = static_cast<std::uint16_t>(&alloy("G10450") - builtin().alloys.data());
    request.diameter_mm = 50.0;
    request.depth_mm = 1.0;
    const CutResult turned = cut(builtin(), any_machine(), request);
    const CutHeat heat = heat_of(alloy("G10450"), turned);
    EXPECT_GT(heat.chip_rise_k, 100.0);
    EXPECT_LT(heat.chip_rise_k, 1500.0);
    EXPECT_DOUBLE_EQ(heat.heat_to_work_w, 1000.0 * turned.spindle_power_kw * heat.heat_to_work_share);
    EXPECT_GT(heat.heat_to_work_high_w, heat.heat_to_work_w);
    request.cut = LatheCut::knurl;
    EXPECT_TRUE(std::isnan(heat_of(alloy("G10450"), cut(builtin(), any_machine(), request)).heat_to_work_w));
}

TEST(Pecks, FromFourDiametersAndHalfAsLongWhereChipsAre) {
    EXPECT_EQ(pecks_of(alloy("A96061"), 10.0, 40.0).count, 1);
    EXPECT_EQ(pecks_of(alloy("A96061"), 10.0, 50.0).count, 3);
    EXPECT_EQ(pecks_of(alloy("G10180"), 10.0, 50.0).count, 8);
    EXPECT_EQ(pecks_of(alloy("G10180"), 10.0, kNaN).count, 1);
    EXPECT_LE(pecks_of(alloy("G10180"), 1e-3, 1e9).count, 1000001);
}

}  // namespace
}  // namespace halfnut::cutting
