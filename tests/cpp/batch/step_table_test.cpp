#include "../../../cpp/src/batch/step_table.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace halfnut::batch {
namespace {

std::size_t not_above(const StepTable& table, double x) {
    const StepTable::Bin& bin = table.bins().at(table.finder()(x));
    return bin.below + (bin.edge <= x ? 1U : 0U);
}

void expect_counts(const std::vector<double>& steps) {
    const StepTable table(steps);
    ASSERT_FALSE(table.crowded());
    constexpr double kInf = std::numeric_limits<double>::infinity();
    std::vector<double> asked{0.0, 5e-324, 1e-300, 1e300, kInf};
    for (const double step : steps) {
        asked.insert(asked.end(), {std::nextafter(step, 0.0), step, std::nextafter(step, kInf)});
    }
    std::mt19937_64 random(1);
    for (int i = 0; i < 2000; ++i) {
        asked.push_back(std::exp2(std::uniform_real_distribution<double>(-8.0, 14.0)(random)));
    }
    for (const double x : asked) {
        const auto counted =
            std::count_if(steps.begin(), steps.end(), [&](double step) { return step <= x; });
        ASSERT_EQ(not_above(table, x), static_cast<std::size_t>(counted)) << x;
    }
}

TEST(StepTable, CountsStepsNotAbove) {
    expect_counts({70, 115, 190, 300, 460, 600, 755, 920, 1255, 1600, 2000});
    expect_counts({500});
    std::vector<double> wide;
    for (int i = -7; i < 12; ++i) {
        wide.push_back(std::exp2(i));
    }
    expect_counts(wide);
    EXPECT_EQ(not_above(StepTable({1.0, 2.0}), std::numeric_limits<double>::quiet_NaN()), 0U);
}

TEST(StepTable, SaysWhereStepsStandTooClose) {
    std::vector<double> near;
    std::vector<double> nearer;
    for (int i = 0; i < 300; ++i) {
        near.push_back(100.0 * std::pow(1.002, i));
        nearer.push_back(100.0 + i * 0.001);
    }
    expect_counts(near);
    EXPECT_TRUE(StepTable(nearer).crowded());
}

}  // namespace
}  // namespace halfnut::batch
