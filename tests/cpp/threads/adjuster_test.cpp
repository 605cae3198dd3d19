// Adjusters: travel, engagement by hand, the safe range of a plain case, refusals.

#include "halfnut/threads/adjuster.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"

namespace halfnut::threads {
namespace {

AdjusterRequest turnbuckle(const char* second) {
    const AdjusterMaterial metal{.strength = {.tensile_mpa = 290.0, .yield_mpa = 241.0, .shear_mpa = 186.0},
                                 .youngs_modulus_gpa = 68.9,
                                 .expansion_um_m_k = 23.6};
    AdjusterRequest request;
    request.count = 2;
    for (std::size_t i = 0; i < 2; ++i) {
        AdjusterEnd& end = request.ends[i];
        const std::string thread = i == 0 ? "M20x1.5" : second;
        const bool left = thread.find("LH") != std::string::npos;
        const std::string size = thread.substr(0, thread.find("-LH"));
        end.external = parse_thread(size + "-6g" + (left ? "-LH" : ""), builtin());
        end.internal = parse_thread(size + "-6H" + (left ? "-LH" : ""), builtin());
        end.thread_length_mm = 50.0;
        end.run_out_mm = 2.0;
        end.chamfer_mm = 1.5;
        end.base_length_mm = 32.0;
        end.countersink_mm = 1.0;
        end.external_bore_mm = 14.0;
        end.internal_outside_mm = 34.0;
        end.outer_length_mm = 40.0;
        end.outer_outside_mm = 34.0;
        end.nut_thickness_mm = 10.0;
        end.nut_outside_mm = 30.0;
        end.thread_friction_low = end.bearing_friction_low = 0.14;
        end.thread_friction_high = end.bearing_friction_high = 0.24;
        end.rule_diameters = 1.0;
        end.outer = metal;
        end.nut = metal;
    }
    request.middle_length_mm = 400.0;
    request.middle_outside_mm = 22.0;
    request.middle_bore_mm = 14.0;
    request.middle_material = metal;
    request.push_n = 400.0;
    request.pull_n = 300.0;
    request.factor_of_safety = 4.0;
    return request;
}

TEST(Adjuster, TravelAndEngagementByHand) {
    EXPECT_EQ(turnbuckle_travel_mm(1.5, -1.5), 3.0);
    EXPECT_EQ(turnbuckle_travel_mm(1.75, 1.5), 0.25);
    EXPECT_THROW((void)turnbuckle_travel_mm(1.5, 1.5), DomainError);
    EXPECT_THROW((void)turnbuckle_travel_mm(0.0, 1.5), DomainError);
    EXPECT_EQ(engaged_length_mm(20.0, 30.0, 1.5, 2.0, 25.0, 1.0, 2.0), 17.5);
    EXPECT_EQ(engaged_length_mm(29.0, 30.0, 1.5, 2.0, 25.0, 1.0, 2.0), 22.0);
    EXPECT_EQ(engaged_length_mm(2.0, 30.0, 1.5, 2.0, 25.0, 1.0, 2.0), 0.0);
    EXPECT_EQ(lock_preload_n(400.0, 250.0, 2.0), 800.0);
}

TEST(Adjuster, SafeRangeOfOppositeHands) {
    const Adjuster found = adjuster(builtin(), turnbuckle("M20x1.5-LH"));
    // In from 20 + 1.5 + 1 to the room of 32 + 1.5; the lock nut would allow 50 - 2 - 10.
    EXPECT_NEAR(found.ends[0].insertion_min_mm, 22.5, 1e-12);
    EXPECT_NEAR(found.ends[0].insertion_max_mm, 33.5, 1e-12);
    EXPECT_NEAR(found.turns, 11.0 / 1.5, 1e-12);
    EXPECT_NEAR(found.shortest_mm, 480.0 - 67.0, 1e-9);
    EXPECT_NEAR(found.longest_mm, 480.0 - 45.0, 1e-9);
    EXPECT_NEAR(found.ends[0].groove_mm, 32.5, 1e-12);
    AdjusterState state;
    ASSERT_TRUE(evaluate(found, found.turns, state).ok());
    EXPECT_NEAR(state.engagement_mm[0], 20.0, 1e-9);
    EXPECT_EQ(evaluate(found, found.turns + 1.0, state).code, StatusCode::out_of_range);
    EXPECT_TRUE(std::isnan(state.length_mm));
}

TEST(Adjuster, GrooveTakesFullFormWhereItIsEngaged) {
    AdjusterRequest request = turnbuckle("M20x1.5-LH");
    const Adjuster plain = adjuster(builtin(), request);
    request.groove_width_mm = 2.0;
    const Adjuster grooved = adjuster(builtin(), request);
    AdjusterState whole;
    AdjusterState cut;
    ASSERT_TRUE(evaluate(plain, 0.0, whole).ok());
    ASSERT_TRUE(evaluate(grooved, 0.0, cut).ok());
    // Wound right in, 33.5 mm, the groove from 30.5 to 32.5 lies within the base.
    EXPECT_NEAR(whole.engagement_mm[0] - cut.engagement_mm[0], 2.0, 1e-9);
    EXPECT_EQ(plain.longest_mm, grooved.longest_mm);
}

TEST(Adjuster, RefusesWhatMovesNothing) {
    Adjuster out;
    std::string why;
    EXPECT_EQ(evaluate(builtin(), turnbuckle("M20x1.5"), out, &why).code, StatusCode::inconsistent);
    EXPECT_NE(why.find("equal hands and equal leads"), std::string::npos) << why;
    EXPECT_THROW((void)adjuster(builtin(), turnbuckle("M20x1.5")), DomainError);
}

}  // namespace
}  // namespace halfnut::threads
