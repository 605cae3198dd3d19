#include "halfnut/core/quantity.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "halfnut/core/builtin.hpp"

namespace halfnut {
namespace {

double mm(std::string_view text) {
    return parse_length(text, builtin()).mm();
}

// NIST SP 811 (2008), appendix B: 1 in = 25.4 mm exactly, 1 ft = 304.8 mm exactly.
TEST(ParseLength, ShopSpellings) {
    EXPECT_EQ(mm("1-1/4 in"), 31.75);
    EXPECT_EQ(mm("1-1/4\""), 31.75);
    EXPECT_EQ(mm("1 1/4\""), 31.75);
    EXPECT_EQ(mm(".750in"), 19.05);
    EXPECT_EQ(mm("0.750 in"), 19.05);
    EXPECT_EQ(mm("32 mm"), 32.0);
    EXPECT_EQ(mm("32mm"), 32.0);
    EXPECT_EQ(mm("3/16 in"), 4.7625);
    EXPECT_EQ(mm("  1 inch "), 25.4);
    EXPECT_EQ(mm("12 thou"), 0.3048);
    EXPECT_EQ(mm("5 µm"), 0.005);
    EXPECT_EQ(mm("3 ft"), 914.4);
}

TEST(ParseLength, DrillsByName) {
    EXPECT_DOUBLE_EQ(mm("#7"), 0.201 * 25.4);
    EXPECT_DOUBLE_EQ(mm("No. 7 drill"), 0.201 * 25.4);
    EXPECT_DOUBLE_EQ(mm("number 29"), 0.136 * 25.4);
    EXPECT_DOUBLE_EQ(mm("letter F"), 0.257 * 25.4);
    EXPECT_DOUBLE_EQ(mm("F drill"), 0.257 * 25.4);
    EXPECT_THROW(mm("#98"), NotTabulatedError);
    EXPECT_THROW(mm("F"), DesignationError);
}

TEST(ParseLength, ABareNumberIsNeverALength) {
    for (const char* text : {"32", "1.25", "1-1/4", "3/16", " 7 "}) {
        EXPECT_THROW(mm(text), UnitError) << text;
    }
}

TEST(ParseLength, ErrorsSayWhere) {
    try {
        mm("1,25 mm");
        FAIL();
    } catch (const DesignationError& error) {
        EXPECT_NE(std::string(error.what()).find("comma"), std::string::npos) << error.what();
        EXPECT_EQ(error.position(), 1U);
    }
    for (const char* text :
         {"", "-1 in", "in", "1/0 in", "1 parsec", "1 m/min", "1e999 mm", "nan mm", "inf in", "1..2 mm"}) {
        EXPECT_THROW(mm(text), DesignationError) << text;
    }
}

TEST(ParseLength, ANoughtInFrontMayBeALostPoint) {
    for (const char* text :
         {"08 mm", "00 mm", "007 in", "08.5 mm", "01/4 in", "1/08 in", "1-01/4 in", "1 1/04 in"}) {
        try {
            mm(text);
            ADD_FAILURE() << text;
        } catch (const DesignationError& error) {
            EXPECT_NE(std::string(error.what()).find("a nought in front"), std::string::npos) << error.what();
        }
    }
    EXPECT_EQ(mm("0 mm"), 0.0);
    EXPECT_EQ(mm("0.8 mm"), 0.8);
    EXPECT_EQ(mm("80 mm"), 80.0);
    EXPECT_DOUBLE_EQ(mm("10-1/2 in"), 266.7);
}

TEST(ParseLength, AFiniteNumberWhoseMillimetresAreNotIsRefused) {
    EXPECT_THROW(mm("2e306 m"), DesignationError);
    EXPECT_THROW(mm("2e300 m"), DesignationError);
    EXPECT_EQ(mm("100 m"), 1e5);
}

TEST(Units, EverySymbolIsKnownOnceInItsDimension) {
    std::set<std::pair<int, std::string_view>> seen;
    for (const Unit& unit : units()) {
        EXPECT_TRUE(seen.emplace(static_cast<int>(unit.dimension), unit.symbol).second) << unit.symbol;
        EXPECT_EQ(find_unit(unit.symbol, unit.dimension), &unit) << unit.symbol;
    }
    EXPECT_EQ(seen.size(), 40U);
}

// NIST SP 811 (2008), appendix B.8: 1 hp (550 ft lbf/s) = 745.6999 W; 1 psi = 6894.757 Pa; 1 lbf in =
// 0.1129848 N m.
TEST(Units, PublishedFactors) {
    const auto base = [](std::string_view text, Dimension dimension) {
        return parse_quantity(text, dimension, builtin()).base();
    };
    EXPECT_NEAR(base("1 hp", Dimension::power), 0.7456999, 5e-8);
    EXPECT_NEAR(base("1 psi", Dimension::stress), 6.894757e-3, 5e-10);
    EXPECT_NEAR(base("1 lbf in", Dimension::torque), 0.1129848, 5e-8);
    EXPECT_EQ(base("300 ft/min", Dimension::speed), 91.44);
    EXPECT_EQ(base("1 lb", Dimension::mass), 0.45359237);
    EXPECT_EQ(base("16 oz", Dimension::mass), 0.45359237);
}

// The inch is 25.4 mm exactly: a thousandth is 25.4 um, a millionth 0.0254 um.
TEST(Quantity, EqualWhereTheUnitsSayTheSame) {
    for (int thousandths = 1; thousandths <= 4000; ++thousandths) {
        const Length inches = Length::inches(thousandths / 1000.0);
        const Length metric = Length::millimetres(thousandths * 254 / 10000.0);
        EXPECT_TRUE(inches == metric) << inches.text();
        EXPECT_EQ(inches.compared(), metric.compared());
        EXPECT_TRUE(Length::inches((thousandths + 1) / 1000.0) > metric);
    }
    EXPECT_TRUE(Length::inches(0.0) == Length::millimetres(-0.0));
}

TEST(Quantity, ArithmeticKeepsTheLeftUnit) {
    const Quantity sum = Length::inches(1) + Length::millimetres(12.7);
    EXPECT_EQ(sum.text(), "1.5 in");
    EXPECT_EQ((Length::millimetres(30) - Length::inches(1)).text(), "4.6 mm");
    EXPECT_EQ((Length::inches(0.7) - Length::millimetres(17.78)).value(), 0.0);  // not a rounding's rest
    EXPECT_EQ((Length::inches(3) * 2.5).text(), "7.5 in");
    EXPECT_EQ((Length::inches(3) / 2).text(), "1.5 in");
    EXPECT_EQ(Length::inches(2) / Length::millimetres(25.4), 2.0);
    EXPECT_THROW(Length::inches(3) / 0.0, DomainError);
    EXPECT_THROW(Length::inches(3) / Length::inches(0), DomainError);
    EXPECT_THROW(Length::inches(3) * 1e9, DomainError);
    const Quantity speed = parse_quantity("30 m/min", Dimension::speed, builtin());
    EXPECT_THROW(speed + Length::inches(3), DomainError);
    EXPECT_FALSE(speed < Length::inches(3));
    EXPECT_FALSE(speed == Length::inches(3));
}

TEST(ParseNumber, InTheWantedUnit) {
    EXPECT_DOUBLE_EQ(parse_number("63 uin", "um", builtin()), 1.6002);
    EXPECT_DOUBLE_EQ(parse_number("500 rpm", "rev/min", builtin()), 500.0);
    EXPECT_DOUBLE_EQ(parse_number("100 lbf", "N", builtin()), 444.82216152605);
    EXPECT_DOUBLE_EQ(parse_number("-6 deg", "deg", builtin()), -6.0);
    EXPECT_DOUBLE_EQ(parse_number("95 HBW", "HB", builtin()), 95.0);
    EXPECT_DOUBLE_EQ(parse_number("0.5 min", "s", builtin()), 30.0);
    EXPECT_DOUBLE_EQ(parse_number("30 ksi", "MPa", builtin()), 30000 * 4.4482216152605 / 645.16);
    EXPECT_THROW((void)parse_number("-6 N", "N", builtin()), DesignationError);
    EXPECT_THROW((void)parse_number("6 mm", "N", builtin()), DesignationError);
    EXPECT_THROW((void)parse_number("6", "N", builtin()), UnitError);
    EXPECT_THROW((void)parse_number("6 N", "furlong", builtin()), DomainError);
}

TEST(Trimmed, DropsTrailingZeros) {
    EXPECT_EQ(trimmed(1.25, 4), "1.25");
    EXPECT_EQ(trimmed(100.0, 3), "100");
    EXPECT_EQ(trimmed(-0.00001, 3), "0");
}

}  // namespace
}  // namespace halfnut
