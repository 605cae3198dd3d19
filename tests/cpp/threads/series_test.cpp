#include "halfnut/threads/series.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "halfnut/core/builtin.hpp"
#include "halfnut/threads/kinds.hpp"
#include "sanitized.hpp"

namespace halfnut::threads {
namespace {

std::vector<std::string> names(const std::vector<SeriesThread>& threads) {
    std::vector<std::string> out;
    for (const SeriesThread& found : threads) {
        out.push_back(format_any_thread(found.thread));
    }
    return out;
}

TEST(Series, ThreadsNearADiameterPreferredFirst) {
    const auto near = names(threads_near(builtin(), 6.35, 0.5));
    ASSERT_GE(near.size(), 5U);
    EXPECT_EQ(near[0], "1/4-20 UNC");
    EXPECT_EQ(near[1], "M6x1");
    EXPECT_EQ(std::count(near.begin(), near.end(), "1/4-20 UN"), 0);  // stands under UNC
    // 1/4-20, -28 and -32; Acme, stub Acme, BSF, BSW
    EXPECT_EQ(threads_near(builtin(), 6.35, 0.0).size(), 7U);
    EXPECT_TRUE(threads_near(builtin(), 1000.0, 1.0).empty());
    EXPECT_THROW((void)threads_near(builtin(), -1.0, 1.0), DomainError);
    EXPECT_THROW((void)threads_near(builtin(), kNaN, 1.0), DomainError);
}

TEST(Series, EveryThreadOfTheTablesIsListedOnceAndReadsBack) {
    const auto all = threads_near(builtin(), 400.0, 400.0);
    // 414 Unified rows, 37 of them the same thread under a second series; then the other forms, the tapers
    // and Rp
    EXPECT_EQ(all.size(), 352U + 377U + 298U + 39U + 15U);
    for (const SeriesThread& found : all) {
        AnyThread again;
        ASSERT_TRUE(read_any_thread(format_any_thread(found.thread), builtin(), again).ok());
        EXPECT_EQ(again, found.thread) << format_any_thread(found.thread);
    }
}

TEST(Series, EveryThreadIsIdentifiedFromItsOwnSizes) {
    // Every fifth: tests/python/threads/test_series.py asks all of them.
    constexpr std::size_t kEach = test::kSanitized ? 50 : 5;
    std::size_t count = 0;
    const std::vector<SeriesThread> listed = threads_near(builtin(), 400.0, 400.0);
    for (std::size_t i = 0; i < listed.size(); i += kEach) {
        const SeriesThread& known = listed[i];
        for (const Side side : {Side::external, Side::internal}) {
            ThreadPart part;
            PartLimits size;
            ASSERT_TRUE(one_part(known.thread, side, part).ok());
            if (!evaluate(builtin(), part, {}, size).ok()) {
                continue;  // a taper thread has no limits of size
            }
            const double crest =
                side == Side::external ? 0.5 * (size.mm[0] + size.mm[1]) : 0.5 * (size.mm[4] + size.mm[5]);
            const FoundPart measured{side, crest, pitch_mm(part.thread), kNaN,
                                     2.0 * half_angle_deg(builtin(), part.thread)};
            const auto found = identify_thread(builtin(), measured, 12);
            ASSERT_EQ(found.size(), 12U);
            EXPECT_NEAR(found[0].rank_mm(), 0.0, 1e-6);
            // another size of the same pitch and angle may hold the same crest; then it is no less a match
            const bool among = std::any_of(found.begin(), found.end(), [&](const ThreadMatch& m) {
                return m.part.thread == part.thread && (m.like_the_first || &m == &found[0]);
            });
            EXPECT_TRUE(among) << part_title(part);
            ++count;
        }
    }
    // Rp is internal alone, and the fifths of a list differ by a few.
    EXPECT_NEAR(static_cast<double>(count), (2 * (729 + 298) + 15) / double{kEach}, 5.0);
}

TEST(Series, ATaperThreadIsFoundInItsGaugePlane) {
    // 1/2-14 NPT: E1 0.77843 in (table 2), a thread height of 0.05714 over it
    const auto found = identify_thread(
        builtin(), {Side::external, (0.77843 + 0.05714) * kInchMm, kInchMm / 14.0, kNaN, 60.0}, 2);
    EXPECT_EQ(part_title(found[0].part), "1/2-14 NPT external");
    EXPECT_TRUE(found[0].taper);
    EXPECT_EQ(found[0].outside_mm, 0.0);
    // a turn to either side is allowed: 1/14 in along, a sixteenth of that on the diameter
    const double turn = kInchMm / 14.0 / 16.0;
    const auto beyond = identify_thread(
        builtin(), {Side::external, (0.77843 + 0.05714) * kInchMm + turn + 0.01, kInchMm / 14.0, kNaN, 60.0},
        1);
    EXPECT_NEAR(beyond[0].outside_mm, 0.01, 1e-4);
}

TEST(Series, AFoundPartIsSetBesideEveryForm) {
    // 20 threads an inch against 1.25 mm: 0.02 mm a turn, 0.13 mm over 8 mm of engagement
    const FoundPart part{Side::external, 7.9, 1.27, 8.0};
    const auto found = identify_thread(builtin(), part, 8);
    const auto m8 = std::find_if(found.begin(), found.end(),
                                 [](const ThreadMatch& m) { return part_title(m.part) == "M8x1.25-6g"; });
    ASSERT_NE(m8, found.end());
    EXPECT_NEAR(m8->pitch_difference_mm, 0.02, 1e-12);
    EXPECT_NEAR(m8->mismatch_mm, 0.02 * 8.0 / 1.25, 1e-12);
    EXPECT_NEAR(m8->pitch_diameter_equivalent_mm, 0.2217, 1e-4);
    EXPECT_TRUE(std::isnan(m8->flank_difference_deg));
    EXPECT_THROW((void)identify_thread(builtin(), {Side::external, 8.0, 0.0}, 3), DomainError);
    EXPECT_THROW((void)identify_thread(builtin(), {Side::external, 8.0, 1.0, kNaN, 0.0}, 3), DomainError);
}

TEST(Series, TheFlankAngleTellsWhitworthFromUnified) {
    const auto best = [](double angle) {
        const auto found = identify_thread(builtin(), {Side::external, 6.25, 1.27, kNaN, angle}, 3);
        return part_title(found[0].part);
    };
    EXPECT_EQ(best(kNaN), "1/4-20 UNC-2A");
    EXPECT_EQ(best(60.0), "1/4-20 UNC-2A");
    EXPECT_EQ(best(55.0), "1/4-20 BSW-medium external");
    EXPECT_EQ(best(56.0), "1/4-20 BSW-medium external");
    // 2 h |tan 27.5 - tan 30| cot 30
    const auto found = identify_thread(builtin(), {Side::external, 6.25, 1.27, kNaN, 55.0}, 3);
    const double h = 0.375 * 0.8660254037844386 * 1.27;
    EXPECT_NEAR(found[1].flank_equivalent_mm,
                2.0 * h * (std::tan(std::numbers::pi / 6.0) - std::tan(27.5 * std::numbers::pi / 180.0)) *
                    std::sqrt(3.0),
                1e-12);
}

TEST(Gauges, FollowFromTheLimits) {
    const GaugeSizes ring = gauge_sizes(limits(builtin(), parse_thread("M10-6g", builtin())));
    EXPECT_EQ(ring.native(ring.go_pitch), 8.994);
    EXPECT_EQ(ring.native(ring.not_go_pitch), 8.862);
    EXPECT_EQ(ring.native(ring.go_crest), 8.344);
    EXPECT_EQ(ring.native(ring.plain_not_go), 9.732);
    const GaugeSizes plug = gauge_sizes(limits(builtin(), parse_thread("1/4-20 UNC-2B", builtin())));
    EXPECT_EQ(plug.native(plug.go_pitch), 0.2175);
    EXPECT_EQ(plug.native(plug.go_crest), 0.25);
    EXPECT_EQ(plug.native(plug.not_go_pitch), 0.2224);
    EXPECT_EQ(plug.native(plug.plain_go), 0.196);
}

}  // namespace
}  // namespace halfnut::threads
