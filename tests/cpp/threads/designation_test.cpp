#include "halfnut/threads/designation.hpp"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "halfnut/core/builtin.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut::threads {
namespace {

Thread read(std::string_view text) {
    return parse_thread(text, builtin());
}

struct Problem {
    std::size_t position;
    std::string text;
    bool tabulated;
};

Problem refused(std::string_view text) {
    Thread thread;
    DesignationProblem problem;
    const Status status = read_thread(text, builtin(), thread, &problem);
    EXPECT_FALSE(status.ok()) << text << " was read as " << format_thread(thread);
    return {problem.position, problem.message, status.code != StatusCode::not_tabulated};
}

TEST(Designation, EveryFormIsReadAndHasOneCanonicalSpelling) {
    const std::vector<std::pair<std::string_view, std::string_view>> forms{
        {"M10", "M10x1.5"},
        {"M10x1.5-6g", "M10x1.5-6g"},
        {"M10×1.5 – 4g6g", "M10x1.5-4g6g"},
        {"M10-6H/6g", "M10x1.5-6H/6g"},
        {"M10 - 6g / 6H", "M10x1.5-6H/6g"},
        {"m10 X 1.50 6g", "M10x1.5-6g"},
        {"M8x1.25-6g-LH", "M8x1.25-6g-LH"},
        {"M8-LH", "M8x1.25-LH"},
        {"M24x Ph3P1.5-6g", "M24xPh3P1.5-6g"},
        {"M24xPh3P1.5-6H-L-LH", "M24xPh3P1.5-6H-L-LH"},
        {"M20x2-7g6g-L", "M20x2-7g6g-L"},
        {"M20x2-5g6g-18", "M20x2-5g6g-18"},
        {"M20x2-18 mm", "M20x2-18 mm"},
        {"M12x1.75-6az", "M12x1.75-6az"},
        {"M12-6AZ", "M12x1.75-6AZ"},
        {"M12-6AX", "M12x1.75-6AX"},
        {"MJ10x1.5-4h6h", "MJ10x1.5-4h6h"},
        {"M0.8x0.2-5h4h", "M0.8x0.2-5h4h"},
        {"1/4-20 UNC-2A", "1/4-20 UNC-2A"},
        {".250-20 UNC-2A", "0.250-20 UNC-2A"},
        {"0.2500-20UNC-2A", "0.250-20 UNC-2A"},
        {"#10-32 UNF-2B", "#10-32 UNF-2B"},
        {"10-32 UNF", "#10-32 UNF"},
        {"No. 10 (0.190)-32 UNF-3B", "#10-32 UNF-3B"},
        {"0.190-32 UNF-3B", "0.190-32 UNF-3B"},
        {"1-1/8-18 UNEF-2A", "1 1/8-18 UNEF-2A"},
        {"1.125-18 UNEF", "1.125-18 UNEF"},
        {"1 1/8-18 UNEF", "1 1/8-18 UNEF"},
        {"7/8-14 UNF-3B-LH", "7/8-14 UNF-3B-LH"},
        {"0.750-24 UNS-2A", "0.750-24 UNS-2A"},
        {"3/4-.0625P-.1875L(3 starts) UN", "3/4-0.0625P-0.1875L(3 STARTS) UN"},
        {"0.750-0.0625P-0.1875L (THREE START) UN-2A", "0.750-0.0625P-0.1875L(3 STARTS) UN-2A"},
        {"3/4-.0833P-.1667L UN-2A", "3/4-0.0833P-0.1667L(2 STARTS) UN-2A"},
        {"2-4 1/2 UNC-2B", "2-4.5 UNC-2B"},
        {"2.000-4.5 UNC-2B", "2.000-4.5 UNC-2B"},
        {"1-8 UNC-2A/2B", "1-8 UNC-2A/2B"},
        {"1 1/2-8 UN-2A", "1 1/2-8 UN-2A"},
        {"1-1/2-8-UN-2A", "1 1/2-8 UN-2A"},
        {"3/8-24 UNRF-2A", "3/8-24 UNRF-2A"},
        {"3/8-24 UNJF-3A", "3/8-24 UNJF-3A"},
        {"1-14 UNS-2A", "1 in-14 UNS-2A"},
        {"4-16 UN-2A", "4 in-16 UN-2A"},
        {"1/4-24 UNS-2A, LE=1.25", "1/4-24 UNS-2A, LE=1.250"},
        {"1/4\"-20 UNC-2A (21)", "1/4-20 UNC-2A"},
        {"19/64-36 UNS-2B", "19/64-36 UNS-2B"},
        {"4-40 unc-2b", "#4-40 UNC-2B"},
        {"12-28 UN-2A", "#12-28 UN-2A"},
        {"12 in-8 UN-2A", "12 in-8 UN-2A"},
    };
    for (const auto& [text, canonical] : forms) {
        const Thread thread = read(text);
        EXPECT_EQ(format_thread(thread), canonical) << text;
        EXPECT_EQ(read(canonical), thread) << canonical;
    }
}

TEST(Designation, SizesAreExactInWhateverSpelling) {
    EXPECT_EQ(read("M10").pitch_mm(), 1.5);
    EXPECT_EQ(read("M10").diameter_in(), 10.0 / 25.4);
    EXPECT_EQ(read("10-32 UNF").diameter_in(), 0.190);
    EXPECT_EQ(read("19/64-36 UNS").diameter_in(), 0.2969);  // a basic size has four places
    EXPECT_EQ(read("1/4-20 UNC").diameter_mm(), 6.35);
    EXPECT_EQ(read("1/4-20 UNC").pitch_in(), 0.05);
    EXPECT_EQ(read("M24xPh3P1.5").lead_mm(), 3.0);
    EXPECT_EQ(read("3/4-.0625P-.1875L(3 starts) UN").lead_in(), 0.1875);
    Thread decimal = read(".250-20 UNC-2A");
    Thread fraction = read("1/4-20 UNC-2A");
    EXPECT_NE(decimal, fraction);
    decimal.style = fraction.style;
    EXPECT_EQ(decimal, fraction);
}

TEST(Designation, TheSeriesThatTheTradeMeansWhereNoneIsWritten) {
    for (const auto& [text, whole] : {std::pair{"1/4-20", "1/4-20 UNC"},
                                      {"1/4-28", "1/4-28 UNF"},
                                      {"1/4-32", "1/4-32 UNEF"},
                                      {"10-32", "#10-32 UNF"},
                                      {"1-8", "1-8 UNC"},
                                      {"1/4-20-2A", "1/4-20 UNC-2A"},
                                      {"1-8 LH", "1-8 UNC-LH"}}) {
        EXPECT_EQ(format_thread(read(text)), whole);
    }
}

TEST(Designation, AnErrorPointsAtTheCharacterAndNamesCandidates) {
    struct Case {
        std::string_view text;
        std::size_t position;
        std::string_view says;
    };
    const std::vector<Case> cases{
        {"", 0, "M10x1.5-6g"},
        {"Tr20x4", 0, "begins with M"},
        {"M", 1, "diameter in millimetres"},
        {"M0", 1, "> 0"},
        {"M10x", 4, "pitch in millimetres"},
        {"M10x1,5", 5, "comma"},
        {"M10x1.5-", 7, "nothing after"},
        {"M10x1.5-7q", 9, "no tolerance position"},
        {"M10x1.5-7F", 9, "internal G H AZ AX"},
        {"M10x1.5-6", 8, "6g, 6H"},
        {"M10x1.5-5g", 8, "5g6g"},
        {"M10x1.5-2h", 8, "3 to 9"},
        {"M10x1.5-6g6H", 10, "6H/6g"},
        {"M10x1.5-6g/6h", 11, "two external"},
        {"M10x1.5-6g-LH-LH", 14, "twice"},
        {"M10x1.5-6g-L-20", 13, "twice"},
        {"M10x1.5-6g;", 10, "left over"},
        {"M24xPh4P1.5-6g", 6, "whole number of pitches"},
        {"M2x2", 1, "no core"},
        {"M5.3", 1, "in no series"},
        {"M26-6g", 1, "fine pitches: 1.5"},
        {"M99999", 1, "more than 10000"},
        {"1/4", 3, "1/4-20 UNC, 1/4-28 UNF, 1/4-32 UNEF"},
        {"1/4-21", 6, "UNS for a special thread"},
        {"1/4-20 UNF-2A", 7, "1/4-28 UNF"},
        {"1/4-20 NC", 7, "UNC"},
        {"1/4-20 BSW", 7, "no Unified series"},
        {"1/4-24 UN", 4, "UNS"},
        {"1/7-20 UNC", 2, "sixty-fourths"},
        {"#7-20 UNC", 1, "numbered sizes"},
        {"#10 (0.191)-32 UNF", 5, "0.190"},
        {"10-30 UNS-2A", 0, "#10-30 or 10.000-30"},
        {"1/4-20 UNC-4A", 11, "1A, 2A, 3A"},
        {"1/4-20 UNC-2A-2A", 14, "two external"},
        {"1/4-20 UNC-2A MOD", 14, "MOD"},
        {"3/8-24 UNRF-2B", 7, "external"},
        {"3/4-.0625P-.1875L(2 starts) UN", 18, "3 pitches"},
        {"3/4-.0625P-.15L UN", 11, "whole number of pitches"},
    };
    for (const Case& c : cases) {
        const Problem problem = refused(c.text);
        EXPECT_EQ(problem.position, c.position) << c.text << ": " << problem.text;
        EXPECT_NE(problem.text.find(c.says), std::string::npos) << c.text << ": " << problem.text;
    }
    try {
        (void)read("M10x1.5-7q");
        FAIL();
    } catch (const DesignationError& error) {
        EXPECT_EQ(error.position(), 9U);
    }
    EXPECT_THROW((void)read("M5.3"), NotTabulatedError);
}

TEST(Designation, EveryThreadOfTheSeriesComesBackFromItsText) {
    std::size_t count = 0;
    for (const IsoSeriesRow& row : builtin().iso_series) {
        for (const IsoClass& iso : {IsoClass{}, IsoClass{6, Position::g, 6, Position::g},
                                    IsoClass{4, Position::g, 6, Position::g}}) {
            Thread thread;
            thread.diameter_units = std::llround(row.diameter_mm * 1e6);
            thread.pitch_units = std::llround(row.pitch_mm * 1e6);
            thread.external_iso = iso;
            EXPECT_EQ(read(format_thread(thread)), thread) << format_thread(thread);
            ++count;
        }
    }
    EXPECT_EQ(count, 3 * 352U);
    count = 0;
    for (const UnifiedSeriesRow& row : builtin().unified_series) {
        for (const std::string& text : {std::string(row.size), fmt::format("{:.4f}", row.diameter_in)}) {
            const Thread thread = read(fmt::format("{}-{} {}-2A", text, row.tpi, enum_name(row.series)));
            EXPECT_EQ(thread.diameter_units, std::llround(row.diameter_in * 1e4)) << format_thread(thread);
            EXPECT_EQ(thread.tpi(), row.tpi);
            EXPECT_EQ(read(format_thread(thread)), thread) << format_thread(thread);
            ++count;
        }
    }
    EXPECT_EQ(count, 2 * 414U);
}

TEST(Designation, SilenceMeansTheClassOfTheStandard) {
    EXPECT_EQ(class_text(read("M10").part(Side::external)), "6g");
    EXPECT_EQ(class_text(read("M10").part(Side::internal)), "6H");
    EXPECT_EQ(class_text(read("M1.4").part(Side::external)), "6h");
    EXPECT_EQ(class_text(read("M1.4").part(Side::internal)), "5H");
    EXPECT_EQ(class_text(read("1/4-20 UNC").part(Side::external)), "2A");
    EXPECT_EQ(class_text(read("M10-6H/4g6g").part(Side::external)), "4g6g");
    EXPECT_EQ(format_thread(read("3/8-24 UNRF-2A").part(Side::internal)), "3/8-24 UNF-2B");
}

}  // namespace
}  // namespace halfnut::threads
