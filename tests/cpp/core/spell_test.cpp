#include "halfnut/core/spell.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/error.hpp"

namespace halfnut {
namespace {

struct Case {
    double value;
    FigureKind kind;
    std::string_view metric;
    std::string_view inch;
};

// NIST SP 811 (2008), appendix B, with the digits of each kind.
TEST(Spell, EveryKindInBothSystems) {
    constexpr std::array kCases{
        Case{31.75, FigureKind::size, "31.75 mm", "1.25 in"},
        Case{25.4, FigureKind::length, "25.400 mm", "1.0000 in"},
        Case{0.0254, FigureKind::fine, "0.0254 mm", "0.00100 in"},
        Case{38.1, FigureKind::travel, "38.1 mm", "1.500 in"},
        Case{5.08, FigureKind::film, "5.08 µm", "0.00020 in"},
        Case{91.44, FigureKind::speed, "91 m/min", "300 ft/min"},
        Case{0.254, FigureKind::feed, "0.254 mm/rev", "0.0100 in/rev"},
        Case{254, FigureKind::feed_rate, "254 mm/min", "10 in/min"},
        Case{1200, FigureKind::spindle, "1200 rev/min", "1200 rev/min"},
        Case{123.4, FigureKind::force, "123 N", "27.7 lbf"},
        Case{162000, FigureKind::force, "162 kN", "36,400 lbf"},
        Case{5.0, FigureKind::torque, "5 N m", "44.3 lbf in"},
        Case{30.0, FigureKind::torque, "30 N m", "22.1 lbf ft"},
        Case{0.7457, FigureKind::power, "0.75 kW", "1.00 hp"},
        Case{276, FigureKind::stress, "276 MPa", "40,000 psi"},
        Case{119.7, FigureKind::time, "2 min", "2 min"},
        Case{5399, FigureKind::time, "1 h 30 min", "1 h 30 min"},
        Case{3.42, FigureKind::time, "3.4 s", "3.4 s"},
        Case{59.6, FigureKind::time, "1 min", "1 min"},
        Case{0.4, FigureKind::life, "under 1 min", "under 1 min"},
        Case{480, FigureKind::life, "8 h or more", "8 h or more"},
        Case{1.63, FigureKind::roughness, "1.6 µm", "64 µin"},
        Case{3.17, FigureKind::roughness, "3.2 µm", "120 µin"},
        Case{16.387064, FigureKind::removal, "16.4 cm³/min", "1 in³/min"},
        Case{4.5359237, FigureKind::mass, "4.5 kg", "10 lb"},
        Case{100, FigureKind::rise, "100 °C", "180 °F"},
        Case{14.99, FigureKind::growth, "15 µm/°C", "328 µin/°F"},
        Case{4296, FigureKind::strip, "4,300 N/mm", "24,500 lbf/in"},
        Case{29.5, FigureKind::angle, "29.5°", "29.5°"},
    };
    for (const Case& each : kCases) {
        EXPECT_EQ(spell(each.value, each.kind, UnitSystem::metric), each.metric);
        EXPECT_EQ(spell(each.value, each.kind, UnitSystem::inch), each.inch);
    }
}

TEST(Spell, SpansHaveOneUnit) {
    EXPECT_EQ(spell_span(61, 115, FigureKind::force, UnitSystem::metric), "61 to 115 N");
    EXPECT_EQ(spell_span(9000, 12000, FigureKind::force, UnitSystem::metric), "9 to 12 kN");
    EXPECT_EQ(spell_span(0.032, 0.344, FigureKind::length, UnitSystem::inch), "0.0013 to 0.0135 in");
    EXPECT_EQ(spell_span(10, 10, FigureKind::film, UnitSystem::metric), "10 µm");
    EXPECT_EQ(spell_span(3, 600, FigureKind::life, UnitSystem::metric), "3 min to 8 h or more");
    EXPECT_EQ(spell_number(-0.00001, FigureKind::length, UnitSystem::metric), "0.000");
    EXPECT_EQ(spell_span(61.8, 143, FigureKind::force, UnitSystem::metric), "62 to 143 N");
    EXPECT_EQ(spell_span(0, 7.5, FigureKind::film, UnitSystem::inch), "0 to 0.00030 in");
}

TEST(Spell, KindsOfKeys) {
    EXPECT_EQ(figure_kind("cutting_force_n"), FigureKind::force);
    EXPECT_EQ(figure_kind("feed_mm_min"), FigureKind::feed_rate);
    EXPECT_EQ(figure_kind("cutting_speed_m_min"), FigureKind::speed);
    EXPECT_EQ(figure_kind("mrr_cm3_min"), FigureKind::removal);
    EXPECT_EQ(figure_kind("tool_life_min"), FigureKind::life);
    EXPECT_EQ(figure_kind("feed_rate"), FigureKind::feed_rate);
    EXPECT_THROW(static_cast<void>(figure_kind("spindle_fit")), DomainError);
    EXPECT_THROW(static_cast<void>(figure_kind("weight")), DomainError);
}

}  // namespace
}  // namespace halfnut
