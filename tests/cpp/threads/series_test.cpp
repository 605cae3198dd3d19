#include "halfnut/threads/series.hpp"

#include <gtest/gtest.h>

#include "halfnut/builtin.hpp"

namespace halfnut::threads {
namespace {

std::vector<std::string> names(const std::vector<SeriesThread>& threads) {
    std::vector<std::string> out;
    for (const SeriesThread& found : threads) {
        out.push_back(format_thread(found.thread));
    }
    return out;
}

TEST(Series, ThreadsNearADiameterPreferredFirst) {
    const auto near = names(threads_near(builtin(), 6.35, 0.5));
    ASSERT_GE(near.size(), 5U);
    EXPECT_EQ(near[0], "1/4-20 UNC");
    EXPECT_EQ(near[1], "M6x1");
    EXPECT_EQ(std::count(near.begin(), near.end(), "1/4-20 UN"), 0);  // stands under UNC
    EXPECT_EQ(threads_near(builtin(), 6.35, 0.0).size(), 3U);         // 1/4-20, -28 and -32
    EXPECT_TRUE(threads_near(builtin(), 1000.0, 1.0).empty());
    EXPECT_THROW((void)threads_near(builtin(), -1.0, 1.0), DomainError);
    EXPECT_THROW((void)threads_near(builtin(), kNaN, 1.0), DomainError);
}

TEST(Series, EveryThreadOfBothTablesIsListedOnceAndReadsBack) {
    const auto all = threads_near(builtin(), 200.0, 200.0);
    EXPECT_EQ(all.size(), 352U + 377U);  // 414 Unified rows, 37 of them the same thread under a second series
    for (const SeriesThread& found : all) {
        EXPECT_EQ(parse_thread(format_thread(found.thread), builtin()), found.thread)
            << format_thread(found.thread);
    }
}

TEST(Series, EveryThreadIsIdentifiedFromItsOwnSizes) {
    std::size_t count = 0;
    for (const SeriesThread& known : threads_near(builtin(), 200.0, 200.0)) {
        for (const Side side : {Side::external, Side::internal}) {
            const Thread part = known.thread.part(side);
            const ThreadLimits size = limits(builtin(), part);
            const double crest = side == Side::external
                                     ? 0.5 * (size.mm(Limit::major_max) + size.mm(Limit::major_min))
                                     : 0.5 * (size.mm(Limit::minor_max) + size.mm(Limit::minor_min));
            const auto found = identify_thread(builtin(), side, crest, part.pitch_mm(), kNaN, 3);
            ASSERT_EQ(found.size(), 3U);
            EXPECT_EQ(found[0].outside_mm, 0.0);
            EXPECT_EQ(found[0].mismatch_mm, 0.0);
            // another size of the same pitch may hold the same crest; then it is no less a match
            const bool among = std::any_of(found.begin(), found.end(),
                                           [&](const ThreadMatch& m) { return m.thread == part; });
            EXPECT_TRUE(among) << format_thread(part);
            ++count;
        }
    }
    EXPECT_EQ(count, 2 * 729U);
}

TEST(Series, AFoundPartIsSetBesideBothSystems) {
    // 20 threads an inch against 1.25 mm: 0.02 mm a turn, 0.13 mm over 8 mm of engagement
    const auto found = identify_thread(builtin(), Side::external, 7.9, 1.27, 8.0, 8);
    const auto m8 = std::find_if(found.begin(), found.end(), [](const ThreadMatch& m) {
        return format_thread(m.thread) == "M8x1.25-6g";
    });
    ASSERT_NE(m8, found.end());
    EXPECT_NEAR(m8->pitch_difference_mm, 0.02, 1e-12);
    EXPECT_NEAR(m8->mismatch_mm, 0.02 * 8.0 / 1.25, 1e-12);
    EXPECT_NEAR(m8->pitch_diameter_equivalent_mm, 0.2217, 1e-4);
    EXPECT_TRUE(
        std::any_of(found.begin(), found.end(), [](const ThreadMatch& m) { return m.thread.inch(); }));
    EXPECT_THROW((void)identify_thread(builtin(), Side::external, 8.0, 0.0, kNaN, 3), DomainError);
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
