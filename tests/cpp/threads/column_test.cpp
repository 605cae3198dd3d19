// Columns: textbook loads, the switch between Euler and Johnson, and the stepped column's limiting cases.

#include "halfnut/threads/column.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <numbers>
#include <random>

#include "halfnut/builtin.hpp"
#include "halfnut/threads/column_tables.hpp"
#include "reference.hpp"

namespace halfnut::threads {
namespace {

using test::ReferenceRow;
constexpr double kPi2 = std::numbers::pi * std::numbers::pi;

ColumnEnd end_of(const ReferenceRow& row, std::string_view column) {
    ColumnEnd end{};
    EXPECT_TRUE(enum_from_name(row.text(column), end)) << row.line();
    return end;
}

/// Our answer to a row, in its unit.
double answer(const ReferenceRow& row) {
    if (row.text("quantity") == "diameter_mm") {
        double low = 1.0;
        double high = 200.0;
        for (int i = 0; i < 60; ++i) {
            const double d = 0.5 * (low + high);
            const double load = column_load_n(
                tube_area_mm2(d, 0.0), row.number("length_mm") / gyration_radius_mm(d, 0.0), 207.0, 500.0);
            (load < row.number("load_n") ? low : high) = d;
        }
        return high;
    }
    // With L = 1 and E I2 = 1 the load is m itself.
    const double a = row.number("a_over_l");
    const double outer = row.number("i1_over_i2");
    std::vector<ColumnSegment> segments{{a, 1.0}};
    if (a < 1.0) {
        segments = {{0.5 * (1.0 - a), outer}, {a, 1.0}, {0.5 * (1.0 - a), outer}};
    }
    return stepped_column_load_n(segments, end_of(row, "first_end"), end_of(row, "second_end"));
}

TEST(Column, RecalledTextbookRows) {
    const test::Reference reference("threads/columns.csv");
    std::map<std::string, int> counted;
    for (const ReferenceRow& row : reference.rows()) {
        const std::string& printed = row.text("printed");
        const std::size_t point = printed.find('.');
        const double place = std::pow(10.0, -static_cast<double>(printed.size() - point - 1));
        const double ours = answer(row);
        // CL002: 0.27052 by beam elements, too (tests/oracles/column_beams.py); the recalled 0.270 is cut
        // off.
        const double within = row.text("role") == "excepted" ? place : 0.5 * place * (1.0 + 1e-9);
        ++counted[row.text("role")];
        EXPECT_NEAR(ours, row.number("printed"), within)
            << fmt::format("{}: ours {:.6g}, printed {}", row.text("row"), ours, printed);
    }
    EXPECT_EQ(counted["memory"], 29);
    EXPECT_EQ(counted["excepted"], 1);
    EXPECT_EQ(counted.size(), 2U);
}

TEST(Column, SwitchesWhereTheTextSays) {
    for (const double e : {44.8, 68.9, 113.8, 207.0}) {
        for (const double s_y : {100.0, 276.0, 500.0, 1100.0}) {
            const double at = transition_slenderness(e, s_y);
            EXPECT_NEAR(at * at, 2.0 * kPi2 * 1000.0 * e / s_y, 1e-9 * at * at);
            EXPECT_NEAR(column_load_n(100.0, at, e, s_y), 50.0 * s_y, 1e-9 * s_y);
            EXPECT_EQ(column_load_n(100.0, 1.001 * at, e, s_y), euler_load_n(100.0, 1.001 * at, e));
            EXPECT_EQ(column_load_n(100.0, 0.999 * at, e, s_y), johnson_load_n(100.0, 0.999 * at, e, s_y));
            EXPECT_LT(johnson_load_n(100.0, 0.9 * at, e, s_y), euler_load_n(100.0, 0.9 * at, e));
            EXPECT_THROW(johnson_load_n(100.0, 1.01 * at, e, s_y), DomainError);
            // One tangent: the slopes of both sides agree.
            const double step = 1e-4 * at;
            const double before = column_load_n(100.0, at - step, e, s_y);
            const double after = column_load_n(100.0, at + step, e, s_y);
            const double middle = column_load_n(100.0, at, e, s_y);
            EXPECT_NEAR((middle - before) / (after - middle), 1.0, 1e-3);
        }
    }
}

TEST(Column, CapacityIsTheUniformColumnsLoad) {
    for (const double slenderness : {5.0, 40.0, 70.0, 99.0, 150.0, 400.0}) {
        const double euler = euler_load_n(150.0, slenderness, 68.9);
        EXPECT_NEAR(column_capacity_n(euler, 150.0 * 240.0), column_load_n(150.0, slenderness, 68.9, 240.0),
                    1e-6 * euler)
            << slenderness;
    }
    EXPECT_EQ(column_load_n(150.0, 0.0, 68.9, 240.0), 150.0 * 240.0);
}

TEST(Column, CuttingAUniformColumnUpChangesNothing) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> length(1.0, 400.0);
    const std::array ends{
        std::pair{ColumnEnd::pinned, ColumnEnd::pinned}, std::pair{ColumnEnd::fixed, ColumnEnd::fixed},
        std::pair{ColumnEnd::fixed, ColumnEnd::pinned},  std::pair{ColumnEnd::fixed, ColumnEnd::free},
        std::pair{ColumnEnd::fixed, ColumnEnd::guided},  std::pair{ColumnEnd::guided, ColumnEnd::pinned}};
    for (const auto& [first, second] : ends) {
        for (std::size_t pieces = 1; pieces < 9; ++pieces) {
            std::vector<ColumnSegment> segments;
            double whole = 0.0;
            for (std::size_t i = 0; i < pieces; ++i) {
                segments.push_back({length(random), 3.0e8});
                whole += segments.back().length_mm;
            }
            const std::array one{ColumnSegment{whole, 3.0e8}};
            const double expected = stepped_column_load_n(one, first, second);
            EXPECT_NEAR(stepped_column_load_n(segments, first, second) / expected, 1.0, 1e-8)
                << enum_name(first) << ' ' << enum_name(second) << ' ' << pieces;
            EXPECT_NEAR(stepped_column_load_n(one, second, first) / expected, 1.0, 1e-12);
        }
    }
}

TEST(Column, APartAtItsOwnCriticalLoadHidesNothing) {
    // The second stretch alone, guided and pinned, buckles at exactly the first load that is tried.
    const std::array column{ColumnSegment{1.0, 1e7}, ColumnSegment{2.0, 1e7}};
    EXPECT_NEAR(stepped_column_load_n(column, ColumnEnd::guided, ColumnEnd::pinned) / (kPi2 * 1e7 / 36.0),
                1.0, 1e-9);
}

TEST(Column, TabulatedFactorsAreThoseOfTheEnds) {
    int read = 0;
    for (const ColumnEndRow& row : builtin().column_ends) {
        ++read;
        const std::array one{ColumnSegment{1.0, 1.0}};
        const double load = stepped_column_load_n(one, row.first, row.second);
        EXPECT_NEAR(std::numbers::pi / std::sqrt(load), row.theoretical_k, 1e-3) << enum_name(row.first);
        EXPECT_GE(row.design_k, row.theoretical_k);
        EXPECT_EQ(find_column_ends(builtin(), row.second, row.first), &row);
    }
    EXPECT_EQ(read, 6);
    EXPECT_EQ(find_column_ends(builtin(), ColumnEnd::pinned, ColumnEnd::free), nullptr);
}

TEST(Column, RefusesWhatIsNoColumn) {
    const std::array one{ColumnSegment{500.0, 1e9}};
    for (const auto& [first, second] :
         {std::pair{ColumnEnd::pinned, ColumnEnd::free}, std::pair{ColumnEnd::free, ColumnEnd::free},
          std::pair{ColumnEnd::guided, ColumnEnd::guided}, std::pair{ColumnEnd::guided, ColumnEnd::free}}) {
        EXPECT_FALSE(column_ends_hold(first, second));
        EXPECT_THROW(stepped_column_load_n(one, first, second), DomainError);
    }
    double out = 0.0;
    const std::array bad{ColumnSegment{500.0, 1e9}, ColumnSegment{500.0, kNaN}};
    const Status status = stepped_column_load(bad, ColumnEnd::pinned, ColumnEnd::pinned, out);
    EXPECT_EQ(status, (Status{StatusCode::not_finite, 1}));
    EXPECT_TRUE(std::isnan(out));
    EXPECT_THROW(stepped_column_load_n({}, ColumnEnd::pinned, ColumnEnd::pinned), DomainError);
    EXPECT_THROW((void)tube_area_mm2(20.0, 20.0), DomainError);
}

}  // namespace
}  // namespace halfnut::threads
