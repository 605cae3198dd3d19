#include "halfnut/knurls/questions.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"

namespace halfnut::knurls {
namespace {

Given text(std::string_view words) {
    return {.tag = Given::Tag::text, .text = words};
}

/// The wheel that a text or a list stands for.
WheelAsk wheel(const Given& given) {
    const Question& question = find_question("knurl_blank");
    for (const AskedRow& row : question.arguments) {
        if (row.name == "wheel") {
            KnurlAsk out;
            Asking asking{builtin()};
            row.take(&out, given, row, asking);
            return out.wheel;
        }
    }
    return {};
}

TEST(KnurlBlankQuestion, AnswersAsTheRequestDoes) {
    KnurlAsk asked;
    asked.blank.diameter_mm = 12.7;
    asked.pitch.text = "96 DP";
    asked.pattern = "straight";
    const BlankAnswer answer = ask_blank(asked, Asking{builtin()});
    EXPECT_EQ(answer.teeth, 48);  // P D, Machinery's Handbook 31st ed., p. 1059
    EXPECT_EQ(answer.blank.blank_diameter_mm,
              knurl_blank(request_of(asked, builtin()), builtin()).blank_diameter_mm);
    EXPECT_TRUE(answer.assumed.empty());
}

TEST(KnurlBlankQuestion, ReadsTheWheelAtHand) {
    for (const char* const words : {"0.750 in, 47 teeth", " 0.750 in 47 Teeth ", "0.750 in,47T"}) {
        EXPECT_DOUBLE_EQ(wheel(text(words)).diameter_mm, 19.05) << words;
        EXPECT_EQ(wheel(text(words)).teeth, 47.0) << words;
    }
    EXPECT_TRUE(std::isnan(wheel(text("20 mm")).teeth));
    const std::array pair{text("0.750 in"), Given{.tag = Given::Tag::number, .number = 47.0}};
    EXPECT_EQ(wheel({.tag = Given::Tag::list, .items = pair}).teeth, 47.0);
    EXPECT_THROW((void)wheel({.tag = Given::Tag::list, .items = std::span(pair).first(1)}), DomainError);
    EXPECT_THROW((void)wheel({.tag = Given::Tag::number, .number = 20.0}), UnitError);
}

}  // namespace
}  // namespace halfnut::knurls
