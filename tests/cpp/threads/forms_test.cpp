#include "halfnut/threads/forms.hpp"
#include "halfnut/threads/any_thread.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "halfnut/core/builtin.hpp"
#include "halfnut/threads/kinds.hpp"
#include "reference.hpp"

namespace halfnut::threads {
namespace {

TEST(FormThreads, PublishedTrapezoidalLimits) {
    const test::Reference reference("threads/form_limits.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        if (row.text("unit") != "mm") {
            continue;
        }
        const FormLimits limits =
            form_limits(builtin(), parse_form_thread(row.text("thread"), builtin()), Side::external);
        for (std::size_t i = 0; i < limits.figures.size(); ++i) {
            EXPECT_EQ(limits.figures[i], std::lround(1000.0 * row.number(kFormFigures[i])))
                << row.text("thread") << ' ' << kFormFigures[i];
        }
        ++read;
    }
    EXPECT_EQ(read, 9U);
}

// The printed rows of standard pairs, every figure; 5/8-6 and 1-4 are of no series, and their print takes the
// allowance and tolerances of another diameter (their figures are formed in
// tests/python/threads/test_form_threads.py).
TEST(FormThreads, PublishedAcmeLimits) {
    const test::Reference reference("threads/form_limits.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        if (row.text("unit") != "in" || row.text("id") == "OT015" || row.text("id") == "OT017") {
            continue;
        }
        const FormLimits limits =
            form_limits(builtin(), parse_form_thread(row.text("thread"), builtin()), Side::external);
        for (std::size_t i = 0; i < limits.figures.size(); ++i) {
            EXPECT_EQ(limits.figures[i], std::lround(1e4 * row.number(kFormFigures[i])))
                << row.text("thread") << ' ' << kFormFigures[i];
        }
        ++read;
    }
    EXPECT_EQ(read, 5U);
}

// 7/8-6: 0.8750 - 0.0833 = 0.7917, allowance 0.008 sqrt 0.875 = 0.0075, tolerance 0.006 sqrt 0.875 +
// 0.030 sqrt (1/6) = 0.0179: 0.7842 and 0.7663 from figures of four places (0.7842 and 0.7663 unrounded).
// 1 3/8-4, 4G: 1.2500, 0.004 sqrt 1.375 = 0.0047, 0.002 sqrt 1.375 + 0.010 sqrt 0.25 =
// 0.0073: 1.2453, 1.2380. 7/8-6, 3G: 0.7917 - 0.0056 = 0.7861, less 0.0028 sqrt 0.875 + 0.014 sqrt (1/6) =
// 0.0083: 0.7778. 3/4-6, 2G: 0.6667 - 0.0069 = 0.6598, less 0.0174: 0.6424; unrounded it would be 0.6597 and
// 0.6423.
TEST(FormThreads, AcmePitchDiametersAreFormedOfFiguresOfFourPlaces) {
    struct Row {
        std::string_view text;
        std::int32_t high;
        std::int32_t low;
    };
    for (const Row& row : {Row{"7/8-6 Acme-2G", 7842, 7663}, Row{"1 3/8-4 Acme-4G", 12453, 12380},
                           Row{"7/8-6 Acme-3G", 7861, 7778}, Row{"3/4-6 Acme-2G", 6598, 6424}}) {
        const FormLimits limits =
            form_limits(builtin(), parse_form_thread(row.text, builtin()), Side::external);
        EXPECT_EQ(limits.figures[2], row.high) << row.text;
        EXPECT_EQ(limits.figures[3], row.low) << row.text;
    }
}

TEST(FormThreads, ANoughtInFrontIsNotLost) {
    for (const std::string_view text : {"Tr016x4-7e", "Tr16x04-7e", "G01/2 A", "G1/02 A", "01/2-14 NPT",
                                        "1/2-014 NPT", "R01/2", "01/4-20 BSW", "1-05 Acme-2G"}) {
        FormThread out;
        DesignationProblem problem;
        EXPECT_FALSE(read_form_thread(text, builtin(), out, &problem).ok()) << text;
        EXPECT_NE(problem.message.find("nought"), std::string::npos) << text << ": " << problem.message;
    }
    EXPECT_EQ(format_form_thread(parse_form_thread("0.5-10 Acme-2G", builtin())), "1/2-10 Acme-2G");
}

TEST(FormThreads, SystemsWithoutFiguresAreNamed) {
    for (const auto& [text, name] : {std::pair<std::string_view, std::string_view>{"1/8-27 NPTF", "NPTF"},
                                     {"1/2 BSPT", "BSPT"},
                                     {"1/2 BSPP", "BSPP"},
                                     {"Pg 11", "PG"},
                                     {"PG11", "PG"},
                                     {"2BA", "BA"},
                                     {"BA 2", "BA"},
                                     {"1/2-14 NPSM", "NPSM"},
                                     {"3/4-11.5 NH", "NH"},
                                     {"Rd40x1/6", "RD"},
                                     {"M6 STI", "STI"},
                                     {"EG M6", "EG"},
                                     {"0.30 UNM", "UNM"},
                                     {"1/4-32 ME", "ME"}}) {
        AnyThread thread;
        std::string why;
        EXPECT_EQ(read_any_thread(text, builtin(), thread, &why).code, StatusCode::not_tabulated) << text;
        EXPECT_NE(why.find(std::string(name) + " is not held here"), std::string::npos) << why;
    }
}

TEST(FormThreads, SpellingsReadBack) {
    for (const char* const text : {"Tr40x14(P7)LH-7H/7e", "1 1/2-4 Acme-2G", "1-0.2P-0.4L Acme-2C", "G1/2 A",
                                   "1/2-14 NPT", "Rc1/2", "1/4-20 BSW-free"}) {
        const FormThread thread = parse_form_thread(text, builtin());
        EXPECT_EQ(format_form_thread(thread), text);
        EXPECT_EQ(parse_form_thread(format_form_thread(thread), builtin()), thread);
    }
}

TEST(FormThreads, TheWholeNameOfAFormIsRead) {
    std::vector<ThreadFormRow> forms(builtin().thread_forms.begin(), builtin().thread_forms.end());
    const auto tr =
        std::find_if(forms.begin(), forms.end(), [](const auto& row) { return row.form == "Tr"; });
    ASSERT_NE(tr, forms.end());
    forms.push_back(*tr);  // behind the form whose name it begins with
    forms.back().form = "Trp";
    Catalogue shop = builtin();
    shop.thread_forms = {forms.data(), forms.size()};
    EXPECT_EQ(parse_form_thread("Trp40x7", shop).form, "Trp");
    EXPECT_EQ(parse_form_thread("tr 40x7", shop).form, "Tr");
}

TEST(FormThreads, TaperPipeHandbookExample) {
    const TaperPipe pipe = taper_pipe(builtin(), parse_form_thread("1/2-14 NPT", builtin()));
    EXPECT_NEAR(pipe.figures[0] / kInchMm, 0.75843, 5e-6);
    EXPECT_NEAR(pipe.figures[10], 4.48, 1e-9);
}

TEST(FormThreads, LimitsThatNoThreadCanHaveAreRefused) {
    const auto status = [](std::string_view text, double engagement) {
        FormLimits out;
        std::string why;
        const Status found =
            evaluate(builtin(), parse_form_thread(text, builtin()), Side::external, engagement, out, &why);
        EXPECT_EQ(found.ok(), why.empty());
        EXPECT_EQ(std::isnan(out.mm(0)), !found.ok());
        return found.code;
    };
    EXPECT_EQ(status("1/4-20 BSW", 1.0), StatusCode::ok);
    EXPECT_EQ(status("1/4-20 BSW", 1e5), StatusCode::out_of_range);
    EXPECT_EQ(status("1/4-20 BSW", 1e300), StatusCode::out_of_range);
    EXPECT_EQ(status("0.26-4 Acme-2G", kNaN), StatusCode::out_of_range);
    EXPECT_EQ(status("999999-4 Acme-2G", kNaN), StatusCode::out_of_range);
}

TEST(FormThreads, Screws) {
    EXPECT_NEAR(screw_efficiency(7.0, 36.5, 15.0, 0.1), 0.368618, 5e-7);
    EXPECT_NEAR(holding_friction(4.0, 18.0, 15.0),
                std::tan(std::atan(4.0 / (std::numbers::pi * 18.0))) *
                    std::cos(std::atan(std::tan(15.0 * std::numbers::pi / 180.0) *
                                       std::cos(std::atan(4.0 / (std::numbers::pi * 18.0))))),
                1e-12);
}

}  // namespace
}  // namespace halfnut::threads
