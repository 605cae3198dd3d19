#include "halfnut/machine/dial.hpp"

#include <gtest/gtest.h>

namespace halfnut::machine {
namespace {

// 0.100 in for a turn of the handle and 0.001 in a line, as the dials of inch lathes are cut.
Slide cross(bool reads_diameter) {
    Slide out;
    out.name = "cross";
    out.travel_per_turn_mm = 2.54;
    out.graduation_mm = 0.0254;
    out.reads_diameter = reads_diameter;
    return out;
}

TEST(Dial, HeaderExample) {
    const DialReading found = dial_reading(cross(true), 1.016);
    EXPECT_EQ(lines_a_turn(cross(true)), 200);
    EXPECT_EQ(found.turns, 0);
    EXPECT_EQ(found.line, 80);
    EXPECT_EQ(found.remainder_mm, 0.0);
}

TEST(Dial, CountsItsOwnTravelWhereItReadsTheRadius) {
    const DialReading found = dial_reading(cross(false), 2.54 + 0.25 * 0.0254);
    EXPECT_EQ(lines_a_turn(cross(false)), 100);
    EXPECT_EQ(found.turns, 1);
    EXPECT_EQ(found.line, 0);
    EXPECT_NEAR(found.remainder_mm, 0.25 * 0.0254, 1e-12);
}

}  // namespace
}  // namespace halfnut::machine
