#include "halfnut/core/question.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"
#include "halfnut/cutting/questions.hpp"

namespace halfnut {
namespace {

Given text(std::string_view words) {
    return {.tag = Given::Tag::text, .text = words};
}

std::string refusal_of(const Question& question, std::initializer_list<Given> given) {
    try {
        (void)ask(question, std::span(given.begin(), given.size()), builtin());
    } catch (const Error& error) {
        return error.what();
    }
    return {};
}

TEST(Question, IsFoundByItsNameOrTheNearestIsOffered) {
    EXPECT_EQ(find_question("turn").name, "turn");
    EXPECT_THROW((void)find_question("turns"), NotTabulatedError);
}

TEST(Question, AnswersAsTheTypedCallDoes) {
    cutting::LatheAsk asked;
    asked.alloy = "6061-T6";
    asked.cut.diameter_mm = 32.0;
    const cutting::CutAnswer direct = cutting::turn(asked, Asking{builtin()});
    const std::array given{text("6061-T6"), text("32 mm")};
    const Answer answer = ask(find_question("turn"), given, builtin());
    const auto& by_text = *static_cast<const cutting::CutAnswer*>(answer.record.get());
    EXPECT_EQ(by_text.cut.spindle_rpm, direct.cut.spindle_rpm);
    EXPECT_EQ(by_text.cut.cutting_force_n, direct.cut.cutting_force_n);
    EXPECT_EQ(by_text.assumed, direct.assumed);
    EXPECT_FALSE(answer.inch);
    EXPECT_TRUE(ask(find_question("turn"), std::array{text("6061-T6"), text("1-1/4 in")}, builtin()).inch);
    const Values values = values_of(*answer.question->answer, answer.record.get());
    EXPECT_EQ(values.size(), answer.question->answer->figures.size());
}

TEST(Question, RefusesInTheWordsOfTheAsker) {
    const Question& turn = find_question("turn");
    EXPECT_EQ(refusal_of(turn, {text("6061-T6"), text("1 in"), text("2 in")}),
              "depth must be at most half of diameter, got 2 in");
    EXPECT_EQ(refusal_of(turn, {text("6061-T6"), {.tag = Given::Tag::number, .number = 3.0}}),
              "diameter: 3 has no unit; a bare number is never a length: write text such as '3 mm'");
    EXPECT_EQ(refusal_of(turn, {text("6061-T6")}), "turn needs diameter: Diameter before the cut.");
}

TEST(Question, TellsSizesInTheUnitOfTheQuestion) {
    EXPECT_EQ(as_asked("depth_mm must be at most half of diameter_mm, got 22.86 mm", {}, true),
              "depth must be at most half of diameter, got 0.9 in");
    EXPECT_EQ(as_asked("depth must be from 2.54 to 25.4 mm, got 0 mm", {}, true),
              "depth must be from 0.1 to 1 in, got 0 in");
    EXPECT_EQ(as_asked("diameter 304.8 mm (12 in) is over the swing", {}, true),
              "diameter 12 in (304.8 mm) is over the swing");
    EXPECT_EQ(as_asked("12 in (304.8 mm) is over", {}, true), "12 in (304.8 mm) is over");
    EXPECT_EQ(as_asked("feed 0.254 mm/rev, 3 N/mm2, 5 mm2, 2.54 mm", {}, true),
              "feed 0.01 in/rev, 3 N/mm2, 5 mm2, 0.1 in");
    EXPECT_EQ(as_asked("diameter_mm must be > 0 mm, got nan mm", {}, false),
              "diameter must be > 0 mm; none is given");
    AskedRow bar;
    bar.name = "overhang";
    bar.key = "stick_out_mm";
    const std::array kRows{bar};
    EXPECT_EQ(as_asked("stick_out_mm must be > 0 mm", kRows, false), "overhang must be > 0 mm");
}

}  // namespace
}  // namespace halfnut
