#include "halfnut/core/words.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"
#include "halfnut/cutting/choose.hpp"
#include "halfnut/cutting/cut.hpp"
#include "halfnut/knurls/blank.hpp"
#include "halfnut/threads/adjuster.hpp"
#include "halfnut/threads/holes.hpp"
#include "halfnut/threads/limits.hpp"
#include "halfnut/threads/strength.hpp"
#include "halfnut/threads/wires.hpp"

namespace halfnut {
namespace {

template <class E>
void expect_cautions() {
    for (const auto& [value, name] : enum_names(E{})) {
        EXPECT_NE(find_caution(name, builtin()), nullptr) << name;
    }
}

template <class E>
void expect_words(std::string_view list) {
    for (const auto& [value, name] : enum_names(E{})) {
        EXPECT_NO_THROW(static_cast<void>(find_words(list, name, builtin()))) << list << ' ' << name;
    }
}

TEST(Words, EveryCodeOfTheCoreHasThem) {
    expect_cautions<cutting::CautionCode>();
    expect_cautions<knurls::KnurlCaution>();
    expect_cautions<threads::AdjusterCaution>();
    expect_cautions<threads::HoleCaution>();
    expect_cautions<threads::LimitCaution>();
    expect_cautions<threads::StrengthCaution>();
    expect_cautions<threads::WireCaution>();
    expect_words<cutting::LimitCode>("limit");
    expect_words<cutting::LimitCode>("help");
    expect_words<cutting::GainCode>("gain");
    EXPECT_EQ(find_caution("no_such_code", builtin()), nullptr);
    EXPECT_THROW(static_cast<void>(find_words("limit", "no_such_code", builtin())), NotTabulatedError);
}

TEST(Words, FiguresStandInTheirPlaces) {
    const auto figure = [](std::string_view name) { return "<" + std::string(name) + ">"; };
    EXPECT_EQ(filled("over {a}, {b}: {a}", figure), "over <a>, <b>: <a>");
    EXPECT_EQ(filled("nothing", figure), "nothing");
    EXPECT_EQ(filled("open {", figure), "open {");
}

TEST(Words, StandingCautionsOfAnOperation) {
    EXPECT_EQ(standing_cautions("form_tap", builtin()),
              (std::vector<std::string_view>{"form_tap_ductile", "tap_reversal"}));
    EXPECT_EQ(standing_cautions("tap", builtin()), std::vector<std::string_view>{"tap_reversal"});
    EXPECT_TRUE(standing_cautions("thread", builtin()).empty());
}

}  // namespace
}  // namespace halfnut
