#include "halfnut/core/read_number.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string_view>
#include <system_error>

namespace halfnut {
namespace {

struct Read {
    double value = -1.0;
    std::size_t size = 0;
    std::errc error{};
};
Read read(std::string_view text, bool scaled = true) {
    Read out;
    const auto [end, error] = read_number(text.data(), text.data() + text.size(), out.value, scaled);
    out.size = static_cast<std::size_t>(end - text.data());
    out.error = error;
    return out;
}

TEST(ReadNumber, EndsWhereTheNumberDoes) {
    struct Case {
        std::string_view text;
        double value;
        std::size_t size;
    };
    for (const Case& each :
         {Case{"32 mm", 32.0, 2}, Case{".750in", 0.75, 4}, Case{"5.", 5.0, 2}, Case{"-1.5e-3x", -1.5e-3, 7},
          Case{"2e", 2.0, 1}, Case{"2e+", 2.0, 1}, Case{"1.2.3", 1.2, 3}, Case{"0x10", 0.0, 1}}) {
        const Read found = read(each.text);
        EXPECT_EQ(found.error, std::errc{}) << each.text;
        EXPECT_EQ(found.value, each.value) << each.text;
        EXPECT_EQ(found.size, each.size) << each.text;
    }
    EXPECT_EQ(read("2e3", false).value, 2.0);
    EXPECT_EQ(read("2e3", false).size, 1U);
}

TEST(ReadNumber, WhatIsNoNumberIsRefusedAndLeavesTheValue) {
    for (const std::string_view text : {"", "-", ".", "-.", "+1", " 1", "e5", "inf", "nan", "mm"}) {
        const Read found = read(text);
        EXPECT_EQ(found.error, std::errc::invalid_argument) << text;
        EXPECT_EQ(found.value, -1.0) << text;
    }
    for (const std::string_view text : {"1e999", "-1e999", "1e-999"}) {
        EXPECT_EQ(read(text).error, std::errc::result_out_of_range) << text;
    }
    EXPECT_EQ(read("0e-999").value, 0.0);
}

TEST(ReadNumber, RoundsToTheNearest) {
    EXPECT_EQ(read("0.1").value, 0.1);
    EXPECT_EQ(read("9007199254740993").value, 9007199254740992.0);  // a tie goes to the even one
    EXPECT_EQ(read("9007199254740993.0000000001").value, 9007199254740994.0);
    EXPECT_EQ(read("4.9e-324").value, std::numeric_limits<double>::denorm_min());
    EXPECT_EQ(read("1.7976931348623157e308").value, std::numeric_limits<double>::max());
}

}  // namespace
}  // namespace halfnut
