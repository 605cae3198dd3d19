// A part walked: what is left after each operation, and what is wrong.

#include "halfnut/job/walk.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/tables.hpp"
#include "halfnut/core/words.hpp"

namespace halfnut::job {
namespace {

Part bar(double diameter, double length) {
    Part out;
    out.name = "pin";
    out.diameter_mm = diameter;
    out.length_mm = length;
    out.facing_mm = 1.0;
    out.blank_mm = length + 2.0;
    return out;
}

Step turn(double to, double length, End end = End::first) {
    Step out;
    out.what = Do::turn;
    out.to_mm = to;
    out.length_mm = length;
    out.end = end;
    return out;
}

Step face(double off, End end = End::first) {
    Step out;
    out.what = Do::face;
    out.off_mm = off;
    out.end = end;
    return out;
}

WalkedPart walked(const Part& part) {
    return walk({&part, 1}, builtin()).parts.front();
}

TEST(Walk, FacesAndShouldersStandWhereTheyWereCut) {
    Part part = bar(20.0, 60.0);
    part.steps = {face(1.0), turn(16.0, 30.0), turn(10.0, 12.0), face(1.0, End::second)};
    const WalkedPart out = walked(part);
    ASSERT_EQ(out.operations.size(), 4U);
    EXPECT_TRUE(out.mistakes.empty()) << out.mistakes.front().code;
    const Profile& after = out.operations.back().after;
    EXPECT_DOUBLE_EQ(after.from_mm, 0.0);
    EXPECT_DOUBLE_EQ(after.to_mm, 60.0);
    EXPECT_TRUE(after.first_faced && after.second_faced);
    ASSERT_EQ(after.outside.size(), 3U);
    EXPECT_DOUBLE_EQ(after.outside[0].to_mm, 12.0);
    EXPECT_DOUBLE_EQ(after.outside[1].to_mm, 30.0);
    EXPECT_DOUBLE_EQ(after.outside[1].from_diameter_mm, 16.0);
    EXPECT_EQ(after.outside[2].surface, Surface::stock);
    EXPECT_DOUBLE_EQ(out.operations[2].start_mm, 16.0);
    EXPECT_EQ(out.operations[3].after.held.setting, 2);
}

TEST(Walk, TheSecondEndIsMeasuredFromItsOwnFace) {
    Part part = bar(20.0, 60.0);
    part.steps = {turn(15.0, 10.0, End::second)};
    const WalkedPart out = walked(part);
    EXPECT_DOUBLE_EQ(out.operations[0].from_mm, 50.0);
    EXPECT_DOUBLE_EQ(out.operations[0].after.greatest_mm(51.0, 60.0), 15.0);
    EXPECT_DOUBLE_EQ(out.operations[0].after.greatest_mm(0.0, 60.0), 20.0);
}

TEST(Walk, EveryMistakeHasWordsAndACureOrIsACaution) {
    int read = 0;
    for (const WordRow& row : builtin().words) {
        if (row.list == "refused") {
            EXPECT_FALSE(find_words("cure", row.code, builtin()).empty()) << row.code;
            EXPECT_EQ(find_caution(row.code, builtin()), nullptr)
                << row.code << " is refused and cautioned about";
            ++read;
        }
    }
    EXPECT_GT(read, 40);
}

TEST(Walk, AMistakeStopsNothing) {
    Part part = bar(20.0, 60.0);
    part.steps = {turn(25.0, 10.0), turn(16.0, 90.0), turn(12.0, 10.0)};
    const WalkedPart out = walked(part);
    ASSERT_EQ(out.operations.size(), 3U);
    ASSERT_EQ(out.mistakes.size(), 2U);
    EXPECT_EQ(out.mistakes[0].code, "not_smaller");
    EXPECT_DOUBLE_EQ(out.mistakes[0].found_mm, 25.0);
    EXPECT_DOUBLE_EQ(out.mistakes[0].needed_mm, 20.0);
    EXPECT_EQ(out.mistakes[0].operation, 10);
    EXPECT_EQ(out.mistakes[1].code, "beyond_part");
}

}  // namespace
}  // namespace halfnut::job
