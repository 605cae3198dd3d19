#include "halfnut/core/formula.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <limits>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/threads/gauging.hpp"

namespace halfnut {
namespace {

/// A number for an argument: in range mostly, else one of those that are refused.
double drawn(const Argument& argument, std::mt19937_64& random) {
    const double share = std::uniform_real_distribution(0.0, 1.0)(random);
    if (share < 0.02) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (share < 0.04) {
        return -1e9;
    }
    const double low = std::isfinite(argument.low) ? argument.low : -50.0;
    const double high = std::isfinite(argument.high) ? argument.high : low + 50.0;
    return low + (high - low) * std::uniform_real_distribution(0.0, 1.0)(random);
}

TEST(Formula, EachRowIsDescribed) {
    std::set<std::string_view> names;
    for (const FormulaRoom& room : formula_rooms()) {
        EXPECT_FALSE(room.formulas.empty()) << room.name;
        for (const FormulaRow& formula : room.formulas) {
            EXPECT_TRUE(names.insert(formula.name).second) << formula.name;
            EXPECT_TRUE(formula.summary.ends_with('.')) << formula.name;
            std::set<std::string_view> arguments;
            for (const Argument& argument : formula.arguments) {
                EXPECT_TRUE(arguments.insert(argument.name).second) << formula.name << ' ' << argument.name;
            }
        }
    }
    EXPECT_TRUE(names.contains("spindle_speed_rpm"));
}

TEST(Formula, OneElementAndABlockOfThemAgreeInEveryBitAndStatus) {
    constexpr std::size_t kRows = 300;
    std::mt19937_64 random(20);
    std::size_t ok = 0;
    std::size_t failed = 0;
    for (const FormulaRoom& room : formula_rooms()) {
        for (const FormulaRow& formula : room.formulas) {
            const std::size_t count = formula.arguments.size();
            std::vector<std::vector<double>> columns(count);
            ArgumentColumns in;
            for (std::size_t i = 0; i < count; ++i) {
                const bool one_for_all = count > 1 && i + 1 == count;
                for (std::size_t k = 0; k < (one_for_all ? 1 : kRows); ++k) {
                    columns[i].push_back(drawn(formula.arguments[i], random));
                }
                in.data[i] = columns[i].data();
                in.step[i] = one_for_all ? 0 : 1;
            }
            std::vector<double> out(kRows);
            std::vector<std::uint8_t> codes(kRows);
            const Failures failures = formula.block(in, kRows, out.data(), codes.data());
            std::size_t bad = 0;
            for (std::size_t k = 0; k < kRows; ++k) {
                const auto values = in.element(count, k);
                double one = 0.0;
                const Status status = evaluate(formula, values.data(), one);
                EXPECT_EQ(static_cast<std::uint8_t>(status.code), codes[k]) << formula.name;
                EXPECT_EQ(std::isnan(one), !status.ok()) << formula.name;
                if (status.ok()) {
                    EXPECT_EQ(std::bit_cast<std::uint64_t>(one), std::bit_cast<std::uint64_t>(out[k]))
                        << formula.name;
                } else if (bad++ == 0) {
                    EXPECT_EQ(failures.first_index, k) << formula.name;
                    EXPECT_EQ(failures.first, status) << formula.name;
                }
            }
            EXPECT_EQ(failures.count, bad) << formula.name;
            ok += kRows - bad;
            failed += bad;
        }
    }
    EXPECT_GT(ok, 10 * kRows);
    EXPECT_GT(failed, 10 * kRows);
}

template <class Call>
std::string thrown(const Call& call) {
    try {
        (void)call();
    } catch (const DomainError& error) {
        return error.what();
    }
    return "nothing";
}

TEST(Formula, ARowSaysWhatTheCallThrows) {
    constexpr FormulaRow kSpeed = row<cutting::SpindleSpeed>("");
    double out = 0.0;
    const std::array<double, 2> negative{100.0, -25.0};
    EXPECT_EQ(failure_text(kSpeed, evaluate(kSpeed, negative.data(), out), negative.data()),
              thrown([] { return cutting::spindle_speed_rpm(100.0, -25.0); }));

    // Its refusal() is a template: found by how it is called.
    constexpr FormulaRow kWires = row<threads::PitchFromWiresPlain>("");
    const std::array<double, 4> small{0.1, 3.0, 30.0, 1.7};
    const Status status = evaluate(kWires, small.data(), out);
    EXPECT_EQ(status.code, StatusCode::inconsistent);
    EXPECT_EQ(failure_text(kWires, status, small.data()),
              thrown([] { return scalar<threads::PitchFromWiresPlain>(0.1, 3.0, 30.0, 1.7); }));
}

}  // namespace
}  // namespace halfnut
