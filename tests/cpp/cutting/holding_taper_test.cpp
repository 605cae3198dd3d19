#include "halfnut/cutting/holding_taper.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"

namespace halfnut::cutting {
namespace {

HoldingTaper taper(const char* name, double large_mm = kNaN, double length_mm = kNaN) {
    HoldingTaperAsk asked;
    asked.name.text = name;
    asked.large_mm = large_mm;
    asked.length_mm = length_mm;
    return holding_taper(asked, Asking{builtin()});
}

TEST(HoldingTaperQuestion, ReadsNames) {
    for (const char* const name :
         {"morse 3", "Morse taper 3", "MORSE No. 3", "morse #3", "morse3", " morse no 3 "}) {
        EXPECT_EQ(taper(name).name, "Morse 3") << name;
    }
    EXPECT_DOUBLE_EQ(taper("jarno 6").small_mm, 0.6 * kInchMm);  // n/10 in, Machinery's Handbook
    EXPECT_DOUBLE_EQ(taper("1 : 10", 20.0, 40.0).small_mm, 16.0);
    for (const char* const name :
         {"morse", "morse 03", "morse 3 x", "cone 3", "1:0", "1:2000", "jarno 2.5", ""}) {
        EXPECT_THROW((void)taper(name, 20.0, 40.0), NotTabulatedError) << name;
    }
    EXPECT_THROW((void)taper("1:10"), DomainError);
    EXPECT_THROW((void)taper("morse 3", 20.0), DomainError);
    EXPECT_THROW((void)taper("1:10", 20.0, 200.0), DomainError);  // ends in a point
}

}  // namespace
}  // namespace halfnut::cutting
