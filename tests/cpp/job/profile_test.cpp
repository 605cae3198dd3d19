// Zones of a workpiece: laid over one another, cut to a length, measured.

#include "halfnut/job/profile.hpp"

#include <gtest/gtest.h>

namespace halfnut::job {
namespace {

Zone zone(double from, double to, double diameter, Surface surface = Surface::turned) {
    Zone out;
    out.from_mm = from;
    out.to_mm = to;
    out.from_diameter_mm = out.to_diameter_mm = diameter;
    out.surface = surface;
    return out;
}

double length_of(const std::vector<Zone>& zones) {
    double out = 0.0;
    for (const Zone& each : zones) {
        out += each.length_mm();
    }
    return out;
}

TEST(Profile, AZoneLaidInTheMiddleLeavesBothSides) {
    std::vector<Zone> zones{zone(0.0, 100.0, 20.0, Surface::stock)};
    Profile::lay(zones, zone(40.0, 60.0, 10.0, Surface::groove));
    ASSERT_EQ(zones.size(), 3U);
    EXPECT_EQ(zones[1].surface, Surface::groove);
    EXPECT_DOUBLE_EQ(zones[0].to_mm, 40.0);
    EXPECT_DOUBLE_EQ(zones[2].from_mm, 60.0);
    EXPECT_DOUBLE_EQ(length_of(zones), 100.0);
}

TEST(Profile, ZonesHaveNoGapsHoweverTheyAreLaid) {
    std::vector<Zone> zones{zone(0.0, 100.0, 20.0, Surface::stock)};
    for (const auto& [from, to] :
         {std::pair{0.0, 30.0}, {20.0, 50.0}, {45.0, 46.0}, {10.0, 90.0}, {0.0, 100.0}}) {
        Profile::lay(zones, zone(from, to, 10.0));
        EXPECT_DOUBLE_EQ(length_of(zones), 100.0);
        for (std::size_t i = 1; i < zones.size(); ++i) {
            EXPECT_DOUBLE_EQ(zones[i].from_mm, zones[i - 1].to_mm);
        }
    }
    EXPECT_EQ(zones.size(), 1U);
}

TEST(Profile, ATaperCutToALengthKeepsItsSlope) {
    Zone taper = zone(0.0, 40.0, 10.0, Surface::taper);
    taper.to_diameter_mm = 18.0;
    const std::vector<Zone> cut = Profile::within({taper}, 10.0, 30.0);
    ASSERT_EQ(cut.size(), 1U);
    EXPECT_DOUBLE_EQ(cut[0].from_diameter_mm, 12.0);
    EXPECT_DOUBLE_EQ(cut[0].to_diameter_mm, 16.0);
}

TEST(Profile, AHoleIsAsDeepAsItStaysWide) {
    Profile work;
    work.from_mm = -1.0;
    work.to_mm = 50.0;
    work.bore = {zone(-1.0, 20.0, 12.0), zone(20.0, 35.0, 8.0), zone(45.0, 50.0, 12.0)};
    EXPECT_DOUBLE_EQ(work.bored_deep_mm(End::first, 1.0, 50.0), 35.0);
    EXPECT_DOUBLE_EQ(work.bored_deep_mm(End::first, 10.0, 50.0), 20.0);
    EXPECT_DOUBLE_EQ(work.bored_deep_mm(End::second, 10.0, 50.0), 5.0);
    EXPECT_DOUBLE_EQ(work.bored_deep_mm(End::second, 13.0, 50.0), 0.0);
    EXPECT_DOUBLE_EQ(work.bore_mm(0.0, 50.0), 12.0);
}

}  // namespace
}  // namespace halfnut::job
