// Number and letter drills are recalled from ASME B94.11M. These checks do not know the table: the order of
// the sizes, and the tapping drills that shops pair with threads, whose thread height follows from geometry.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string_view>

#include "halfnut/builtin.hpp"
#include "halfnut/quantity.hpp"
#include "halfnut/quantity_tables.hpp"

namespace halfnut {
namespace {

double drill_in(std::string_view name) {
    return parse_length(name, builtin()).in();
}
double number_in(int number) {
    return drill_in(fmt::format("#{}", number));
}
double letter_in(int letter) {
    return drill_in(fmt::format("letter {}", static_cast<char>(letter)));
}

TEST(Drills, NumbersFallAndLettersRise) {
    EXPECT_EQ(builtin().drills.size(), 97U + 26U);
    for (int number = 2; number <= 97; ++number) {
        const double step = number_in(number - 1) - number_in(number);
        EXPECT_GT(step, 0.0) << number;
        EXPECT_LE(step, 0.0091) << number;
    }
    for (int letter = 'B'; letter <= 'Z'; ++letter) {
        const double step = letter_in(letter) - letter_in(letter - 1);
        EXPECT_GT(step, 0.0) << letter;
        EXPECT_LE(step, 0.0151) << letter;
    }
    EXPECT_GT(drill_in("letter A"), drill_in("#1"));
    EXPECT_EQ(drill_in("letter E"), 0.25);
}

TEST(Drills, SizesAreWholeTenThousandths) {
    for (const DrillRow& row : builtin().drills) {
        EXPECT_NEAR(row.diameter_in * 1e4, std::round(row.diameter_in * 1e4), 1e-9) << row.name;
    }
}

// Pairs as shop charts give them; height of thread in percent = 100 (D - d) n / 1.29904.
TEST(Drills, UsualTappingDrillsLeaveTheUsualHeightOfThread) {
    struct Pair {
        const char* drill;
        double major_in;
        double threads_per_inch;
    };
    constexpr std::array kPairs{
        Pair{"#3", 0.25, 28},         Pair{"#7", 0.25, 20},        Pair{"letter F", 0.3125, 18},
        Pair{"letter I", 0.3125, 24}, Pair{"letter Q", 0.375, 24}, Pair{"letter U", 0.4375, 14},
        Pair{"#21", 0.190, 32},       Pair{"#25", 0.190, 24},      Pair{"#29", 0.164, 32},
        Pair{"#36", 0.138, 32},       Pair{"#33", 0.138, 40},      Pair{"#37", 0.125, 44},
        Pair{"#38", 0.125, 40},       Pair{"#43", 0.112, 40},      Pair{"#42", 0.112, 48},
        Pair{"#47", 0.099, 48},       Pair{"#50", 0.086, 56},      Pair{"#53", 0.073, 64}};
    for (const Pair& pair : kPairs) {
        const double percent =
            100.0 * (pair.major_in - drill_in(pair.drill)) * pair.threads_per_inch / 1.29904;
        EXPECT_GT(percent, 64.0) << pair.drill;
        EXPECT_LT(percent, 84.0) << pair.drill;
    }
}

}  // namespace
}  // namespace halfnut
