#include "halfnut/threads/forms.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "halfnut/builtin.hpp"
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

TEST(FormThreads, SpellingsReadBack) {
    for (const char* const text : {"Tr40x14(P7)LH-7H/7e", "1 1/2-4 Acme-2G", "1-0.2P-0.4L Acme-2C", "G1/2 A",
                                   "1/2-14 NPT", "Rc1/2", "1/4-20 BSW-free"}) {
        const FormThread thread = parse_form_thread(text, builtin());
        EXPECT_EQ(format_form_thread(thread), text);
        EXPECT_EQ(parse_form_thread(format_form_thread(thread), builtin()), thread);
    }
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
