#include "halfnut/threads/limits.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "halfnut/builtin.hpp"
#include "halfnut/threads/kinds.hpp"
#include "reference.hpp"

namespace halfnut::threads {
namespace {

struct Tally {
    std::size_t rows = 0;
    std::size_t rows_agree = 0;
    std::size_t cells = 0;
    std::size_t cells_agree = 0;
};

/// Compare every printed cell with the limits; columns whose mismatch is excepted must differ, all others
/// must agree.
class Comparison {
   public:
    explicit Comparison(std::map<std::string, Limit> columns) : columns_(std::move(columns)) {}

    void row(const test::ReferenceRow& reference, const ThreadLimits& limits, double unit) {
        std::set<std::string> excepted;
        std::istringstream words(reference.text("excepted"));
        for (std::string word; words >> word;) {
            excepted.insert(word);
        }
        Tally& tally = tallies_[reference.text("role") + " | " + reference.text("source")];
        ++tally.rows;
        bool all = true;
        for (const auto& [column, limit] : columns_) {
            if (!reference.has(column)) {
                continue;
            }
            const auto printed = std::llround(reference.number(column) * unit);
            const std::int32_t got = limits.figures[static_cast<std::size_t>(limit)];
            const bool agrees = printed == got;
            ++tally.cells;
            tally.cells_agree += agrees ? 1U : 0U;
            all = all && agrees;
            EXPECT_EQ(agrees, excepted.count(column) == 0)
                << reference.text("designation") << ' ' << column << ": printed " << reference.text(column)
                << ", got " << static_cast<double>(got) / unit << ", line " << reference.line() << ' '
                << reference.text("source");
        }
        tally.rows_agree += all ? 1U : 0U;
    }

    void print() const {
        for (const auto& [source, tally] : tallies_) {
            std::cout << fmt::format("{:>4}/{:<4} rows {:>4}/{:<4} cells  {}\n", tally.rows_agree, tally.rows,
                                     tally.cells_agree, tally.cells, source);
        }
    }

   private:
    std::map<std::string, Limit> columns_;
    std::map<std::string, Tally> tallies_;
};

ThreadLimits of(std::string_view text, LimitOptions options = {}) {
    return limits(builtin(), parse_thread(text, builtin()), options);
}

TEST(IsoMetricLimits, PublishedRows) {
    const test::Reference reference("threads/iso_metric_limits.csv");
    Comparison external({{"d_max", Limit::major_max},
                         {"d_min", Limit::major_min},
                         {"d2_max", Limit::pitch_max},
                         {"d2_min", Limit::pitch_min},
                         {"d1_max", Limit::minor_max},
                         {"d3_min", Limit::minor_min}});
    Comparison internal({{"D_min", Limit::major_min},
                         {"D2_max", Limit::pitch_max},
                         {"D2_min", Limit::pitch_min},
                         {"D1_max", Limit::minor_max},
                         {"D1_min", Limit::minor_min}});
    for (const test::ReferenceRow& row : reference.rows()) {
        const ThreadLimits got = of(row.text("designation"));
        (got.side == Side::external ? external : internal).row(row, got, 1000.0);
    }
    external.print();
    internal.print();
    EXPECT_EQ(reference.rows().size(), 146U);
}

TEST(UnifiedLimits, PublishedRows) {
    const test::Reference reference("threads/unified_limits.csv");
    Comparison external({{"major_max", Limit::major_max},
                         {"major_min", Limit::major_min},
                         {"major_min_2", Limit::major_min_unfinished},
                         {"pd_max", Limit::pitch_max},
                         {"pd_min", Limit::pitch_min},
                         {"unr_minor_max", Limit::unr_minor_max},
                         {"un_minor_max", Limit::minor_max}});
    Comparison internal({{"int_major_min", Limit::major_min},
                         {"pd_max", Limit::pitch_max},
                         {"pd_min", Limit::pitch_min},
                         {"minor_max", Limit::minor_max},
                         {"minor_min", Limit::minor_min}});
    for (const test::ReferenceRow& row : reference.rows()) {
        const ThreadLimits got =
            of(row.text("designation"),
               {.rule = row.text("rule") == "formula" ? UnifiedRule::formula : UnifiedRule::printed});
        (got.side == Side::external ? external : internal).row(row, got, 10'000.0);
        if (row.has("allowance")) {
            EXPECT_EQ(-got.deviation, std::llround(row.number("allowance") * 1e4)) << row.text("designation");
        }
        if (row.has("pd_tol")) {
            const double places = row.text("pd_tol").size() > 6 ? 1e6 : 1e4;
            EXPECT_EQ(std::llround(got.pitch_tolerance / (1e6 / places)),
                      std::llround(row.number("pd_tol") * places))
                << row.text("designation");
        }
    }
    external.print();
    internal.print();
    EXPECT_EQ(reference.rows().size(), 207U);
}

// Machinery's Handbook, 31st ed., pp. 2010-2023: every figure of the worked calculations of 1/2-28 UNEF-2A.
TEST(UnifiedLimits, HandbookWorkedExample) {
    const ThreadLimits got = of("1/2-28 UNEF-2A", {.rule = UnifiedRule::formula});
    EXPECT_EQ(got.pitch_tolerance, 3668);
    EXPECT_EQ(got.crest_tolerance, 6507);  // printed 0.006508, but 0.06 * 28^(-2/3) is 0.00650706
    EXPECT_EQ(got.native(Limit::major_max), 0.4989);
    EXPECT_EQ(got.native(Limit::unr_minor_max), 0.4564);
}

TEST(UnifiedLimits, TheRulesDifferWhereShopHandbooksPrintAnotherFigure) {
    // 1-8 UNC-2A: the tolerance 0.00675 is half way between two places
    EXPECT_EQ(of("1-8 UNC-2A").native(Limit::pitch_min), 0.9100);
    EXPECT_EQ(of("1-8 UNC-2A", {.rule = UnifiedRule::formula}).native(Limit::pitch_min), 0.9101);
    EXPECT_EQ(of("1/4-20 UNC-2B").native(Limit::pitch_max), 0.2224);
    EXPECT_EQ(of("1/4-20 UNC-2B", {.rule = UnifiedRule::formula}).native(Limit::pitch_max), 0.2224);
}

// Of #00 a tap standards chart prints 0.047 in; each further nought 0.013 in less. Pitch diameters by
// arithmetic: 0.0470 - 0.64951905 / 90 = 0.03978, 0.0340 - 0.64951905 / 120 = 0.02859,
// 0.0210 - 0.64951905 / 160 = 0.01694.
TEST(UnifiedLimits, NoughtsInFrontAreASizeOfTheirOwn) {
    struct Row {
        std::string_view text;
        double diameter;
        double pitch;
    };
    for (const Row& row : {Row{"#00-90 UNS-2B", 0.0470, 0.0398}, Row{"#000-120 UNS-2B", 0.0340, 0.0286},
                           Row{"#0000-160 UNS-2B", 0.0210, 0.0169}, Row{"00-90 UNS-2B", 0.0470, 0.0398},
                           Row{"No. 00 (0.047)-90 UNS-2B", 0.0470, 0.0398}}) {
        const ThreadLimits got = of(row.text);
        EXPECT_EQ(got.native(Limit::major_min), row.diameter) << row.text;
        EXPECT_EQ(got.native(Limit::pitch_min), row.pitch) << row.text;
        EXPECT_TRUE(got.has(LimitCaution::not_in_series)) << row.text;
        const Thread thread = parse_thread(row.text, builtin());
        EXPECT_EQ(parse_thread(format_thread(thread), builtin()), thread) << format_thread(thread);
    }
    EXPECT_EQ(format_thread(parse_thread("#000-120 UNS-2A", builtin())), "#000-120 UNS-2A");
    EXPECT_EQ(of("#0-80 UNF-2B").native(Limit::major_min), 0.0600);
    for (const std::string_view text :
         {"#010-32 UNF-2A", "#00000-200 UNS-2A", "1/04-20 UNC-2A", "01/4-20 UNC-2A", "M08-6g", "M8x01.25-6g",
          "M08x1-6g", "1/4-020 UNC-2A", "00.25-20 UNC-2A", "1 01/8-7 UNC-2A", "01-8 UNC-2A", "06-32 UNC-2A",
          "M24xPh03P1.5-6g", "M10-06g", "#00-90 UNF-2A"}) {
        Thread out;
        EXPECT_FALSE(read_thread(text, builtin(), out).ok()) << text;
    }
}

TEST(UnifiedLimits, TheToleranceFollowsTheSeriesThatHoldsTheThread) {
    const ThreadLimits unc = of("1/4-20 UNC-2A");
    const ThreadLimits un = of("1/4-20 UN-2A");
    EXPECT_EQ(un.figures, unc.figures);
    EXPECT_TRUE(un.has(LimitCaution::toleranced_as_series));
    EXPECT_FALSE(unc.has(LimitCaution::toleranced_as_series));
    // the former fine size of 1 in at one diameter: 0.9463 in the handbook tables, 0.9466 over nine pitches
    EXPECT_EQ(of("1-14 UNS-2A").native(Limit::pitch_min), 0.9463);
}

TEST(UnifiedLimits, OnlyLengthsOutsideTheStandardRangeChangeTheTolerance) {
    const ThreadLimits normal = of("1/4-20 UNC-2A");
    EXPECT_EQ(of("1/4-20 UNC-2A", {.engagement_mm = 0.375 * 25.4}).figures,
              normal.figures);  // 1.5 D is still served
    const ThreadLimits longer = of("1/4-20 UNC-2A", {.engagement_mm = 0.5 * 25.4});
    EXPECT_TRUE(longer.has(LimitCaution::special_engagement));
    EXPECT_GT(longer.pitch_tolerance, normal.pitch_tolerance);
    EXPECT_EQ(of("1/4-20 UNC-2A, LE=0.5").figures, longer.figures);
}

TEST(IsoMetricLimits, TablesFirstAndTheFormulaOnlyOutsideThem) {
    EXPECT_FALSE(of("M10x1.5-6g").has(LimitCaution::not_tabulated));
    EXPECT_TRUE(of("M10x1.1-6g").has(LimitCaution::not_tabulated));  // no such pitch
    EXPECT_TRUE(of("M400x4-6g").has(LimitCaution::not_tabulated));   // past the last diameter range
    EXPECT_TRUE(of("M1x0.2-6H").has(LimitCaution::not_provided));    // the table has no grade 6 here
    EXPECT_FALSE(of("M1x0.2-4H").has(LimitCaution::not_provided));
    EXPECT_TRUE(of("M10x1.1-6g").has(LimitCaution::not_in_series));
    EXPECT_TRUE(of("M10x1.5-6d").has(LimitCaution::doubtful_position));
    EXPECT_THROW((void)of("M10x0.5-6d"), NotTabulatedError);
}

TEST(IsoMetricLimits, EngagementChoosesTheClassAndLeavesTheTolerance) {
    // N for M10x1.5 is over 5 up to 15 mm
    EXPECT_EQ(of("M10-6g", {.engagement_mm = 15.0}).group, EngagementGroup::n);
    EXPECT_EQ(of("M10-6g", {.engagement_mm = 5.0}).group, EngagementGroup::s);
    const ThreadLimits longer = of("M10-6g-30");
    EXPECT_EQ(longer.group, EngagementGroup::l);
    EXPECT_TRUE(longer.has(LimitCaution::engagement_class));
    EXPECT_EQ(longer.figures, of("M10-6g").figures);
    EXPECT_FALSE(of("M10-7g6g-30").has(LimitCaution::engagement_class));
}

TEST(IsoMetricLimits, MultipleStartsWidenThePitchToleranceOnly) {
    const ThreadLimits one = of("M24x1.5-6g");
    const ThreadLimits two = of("M24xPh3P1.5-6g");
    EXPECT_EQ(two.native(Limit::major_min), one.native(Limit::major_min));
    EXPECT_EQ(one.pitch_tolerance, 150);
    EXPECT_EQ(two.pitch_tolerance, 168);
}

TEST(Limits, OnePartOnlyIsAnswered) {
    for (const std::string_view text :
         {"M10", "M10-6H/6g", "1/4-20 UNC", "MJ10x1.5-4h6h", "1/4-20 UNJC-3A"}) {
        ThreadLimits out;
        std::string why;
        const Status status = evaluate(builtin(), parse_thread(text, builtin()), {}, out, &why);
        EXPECT_FALSE(status.ok()) << text;
        EXPECT_FALSE(why.empty()) << text;
        for (const Limit limit : {Limit::major_max, Limit::pitch_min, Limit::minor_max}) {
            EXPECT_TRUE(std::isnan(out.native(limit))) << text;
        }
    }
}

}  // namespace
}  // namespace halfnut::threads
