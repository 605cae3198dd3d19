#include "halfnut/core/tell.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/words.hpp"

namespace halfnut {
namespace {

struct Way {
    std::string name;
    double bend_mm = 0.0;
};
struct Whole {
    std::string unit = "mm";
    double bore_mm = 25.4;
    double high_mm = 50.8;
    double torque_nm = kNaN;
    double left_mm = -0.5;
    std::string none;
    std::string hand = "left";
    std::string limited_by = "tool_life";
    std::vector<std::string> limits{"power", "torque"};
    int starts = 2;
    bool by_form = true;
    bool loose = false;
    double nought = 0.0;
    double share = 0.256;
    std::vector<Way> ways{{"between centres", 0.01}, {"with a centre", 0.02}};
    std::vector<std::pair<std::string, std::string>> levers{{"belt", "fast"}, {"lever", "2"}};
    std::vector<std::string> steps{"face it", "turn it"};
    std::string alloy = "A96061";
};

constexpr std::array kWayFigures{HALFNUT_FIGURE(Way, name, "Name."), HALFNUT_FIGURE(Way, bend_mm, "Bend.")};
constexpr RecordRow kWay{"Way", "A way.", kWayFigures, {}, Says{.answer = "{bend_mm} {name}[ ({unit})]"}};
constexpr std::array kWholeFigures{
    HALFNUT_FIGURE(Whole, unit, "Unit."),        HALFNUT_FIGURE(Whole, bore_mm, "Bore."),
    HALFNUT_FIGURE(Whole, high_mm, "High."),     HALFNUT_FIGURE(Whole, torque_nm, "Torque."),
    HALFNUT_FIGURE(Whole, left_mm, "Left."),     HALFNUT_FIGURE(Whole, none, "None."),
    HALFNUT_FIGURE(Whole, hand, "Hand."),        HALFNUT_FIGURE(Whole, limited_by, "Limit."),
    HALFNUT_FIGURE(Whole, limits, "Limits."),    HALFNUT_FIGURE(Whole, starts, "Starts."),
    HALFNUT_FIGURE(Whole, by_form, "By form."),  HALFNUT_FIGURE(Whole, loose, "Loose."),
    HALFNUT_FIGURE(Whole, nought, "Nought."),    HALFNUT_FIGURE(Whole, share, "Share."),
    HALFNUT_RECORDS(Whole, ways, kWay, "Ways."), HALFNUT_FIGURE(Whole, levers, "Levers."),
    HALFNUT_FIGURE(Whole, steps, "Steps."),      HALFNUT_FIGURE(Whole, alloy, "Alloy.").made("Alloy"),
};
constexpr std::array kWholeRows{
    SaidRow{"bore", "{bore_mm}"},
    SaidRow{"torque", "{torque_nm}"},
    SaidRow{"#", "steps"},
    SaidRow{"*or", "steps"},
    SaidRow{"*", "levers"},
    SaidRow{"{name}", "{bend_mm}", "ways"},
    SaidRow{"more", "{name}", "ways+"},
};
constexpr RecordRow kWhole{"Whole", "A whole.", kWholeFigures, {}, Says{.answer = "", .rows = kWholeRows}};

Telling whole(std::string_view unit = "mm") {
    const Whole made;
    return {kWhole, values_of(kWhole, &made), builtin(), unit};
}

TEST(Telling, ATemplateIsFilled) {
    using Filled = std::optional<std::string>;
    const std::vector<std::pair<std::string, Filled>> cases{
        {"{bore_mm}", "25.400 mm"},
        {"{bore_mm:fine}", "25.4000 mm"},
        {"{bore_mm:both}", "25.400 mm (1.0000 in)"},
        {"{bore_mm:fine both}", "25.4000 mm (1.00000 in)"},
        {"{bore_mm:fine other}", "1.00000 in"},
        {"{bore_mm..high_mm}", "25.400 to 50.800 mm"},
        {"{bore_mm..high_mm/2:both}", "12.700 to 25.400 mm (0.5000 to 1.0000 in)"},
        {"{bore_mm/25.4:.2f} in", "1.00 in"},
        {"{100*bore_mm:+.1f}", "+2540.0"},
        {"{share:.0%}, {share:%}, {share:g}, {starts:.1f}", "26%, 25.600000%, 0.256, 2.0"},
        {"{-1*left_mm}", "0.500 mm"},
        {"{limited_by:limit}, {said/geometry_alone}", "tool life, geometry alone: the least"},
        {"{limits:limit}", "power at the spindle, torque at the spindle"},
        {"{limits:limit and}", "power at the spindle and torque at the spindle"},
        {"{limits.first} {limits.last} {limits.count}", "power torque 2"},
        {"{ways}", "0.010 mm between centres (mm), 0.020 mm with a centre (mm)"},
        {"{ways.last}", "0.020 mm with a centre (mm)"},
        {"{alloy.title}, {starts}", "6061 T6, 2"},
        {"set{levers}", "setbelt fast, lever 2"},
        {"{torque_nm}", std::nullopt},
        {"{none}", std::nullopt},
        {"a[, {torque_nm}][, {none}]", "a"},
        {"[{hand=left}left][{hand=right}right][{hand!=right}!]", "left!"},
        {"[{starts=2}=][{starts!=2}/][{starts>1}>][{starts<1}<][{starts>=2}>=][{starts<=1}<=]", "=>>="},
        {"[{left_mm<nought}less][{bore_mm=high_mm}same][{bore_mm<high_mm}smaller]", "lesssmaller"},
        {"[{torque_nm=0}0][{torque_nm!=0}1][{torque_nm!}none][{torque_nm?}some]", "none"},
        {"[{by_form?}form][{by_form!}no form][{loose?}loose][{loose!}tight]", "formtight"},
        {"[{nought?}there][{nought=0} and nought][{none?}text][{limits?}, list]", "there and nought, list"},
        {"{loose?}never", std::nullopt},
        {"no {place here} [and none] here", "no {place here} and none here"},
    };
    for (const auto& [text, filled] : cases) {
        EXPECT_EQ(whole().filled(text), filled) << text;
    }
    EXPECT_THROW((void)whole().filled("{colour}"), DomainError);
}

TEST(Telling, ARecordWithinIsToldInTheUnitOfItsAnswer) {
    EXPECT_EQ(whole("in").filled("{ways.first}"), "0.0004 in between centres (in)");
    EXPECT_EQ(whole("in").in("mm").filled("{ways.first}"), "0.010 mm between centres (mm)");
    const Way held{"held", 1.0};
    EXPECT_EQ(Telling(kWay, values_of(kWay, &held), builtin(), "in").filled("{}"), "0.0394 in held (in)");
    EXPECT_EQ(Telling(kWay, values_of(kWay, &held), builtin()).answer(), "1.000 mm held (mm)");
}

TEST(Telling, RowsAreMadeOfFiguresListsAndRecords) {
    const std::vector<std::pair<std::string, std::string>> wanted{{"bore", "25.400 mm"},
                                                                  {"1.", "face it"},
                                                                  {"2.", "turn it"},
                                                                  {"or", "face it"},
                                                                  {"or", "turn it"},
                                                                  {"belt", "fast"},
                                                                  {"lever", "2"},
                                                                  {"between centres", "0.010 mm"},
                                                                  {"with a centre", "0.020 mm"},
                                                                  {"more", "with a centre"}};
    EXPECT_EQ(whole().rows(), wanted);
}

TEST(Telling, ATemplateOfPlainFiguresIsFilled) {
    const auto figure = [](std::string_view path) {
        return path == "end" ? Value{std::string("2 in")} : path == "bore_mm" ? Value{25.4} : Value{};
    };
    EXPECT_EQ(filled_with("to {end}[, {depth} deep][{depth!}, through]", figure, "in", builtin()),
              "to 2 in, through");
    EXPECT_EQ(filled_with("{bore_mm}, {unit}", figure, "in", builtin()), "1.0000 in, in");
    EXPECT_EQ(filled_with("{depth} deep", figure, "in", builtin()), std::nullopt);
}

/// Paths of a record's templates stand among its figures, and what is said of words among the words.
void expect_declared(const RecordRow& row, std::string_view text, int& count) {
    for (const Place& place : places_in(text)) {
        if (!place.list.empty()) {
            EXPECT_NO_THROW((void)find_words(place.list, place.code, builtin())) << row.name << ": " << text;
            continue;
        }
        for (const std::string_view path : {place.path, place.last}) {
            const std::string_view key = path.substr(0, path.find('.'));
            const bool known = key.empty() || key == "answer" || key == "cited" || key == "kinds" ||
                               key == "unit" ||
                               std::any_of(row.figures.begin(), row.figures.end(),
                                           [&](const FigureRow& each) { return each.key == key; });
            EXPECT_TRUE(known) << row.name << ": " << text;
            count += key.empty() ? 0 : 1;
        }
    }
}

void expect_declared(const RecordRow& row, std::set<const RecordRow*>& seen, int& count) {
    if (!seen.insert(&row).second) {
        return;
    }
    for (const std::string_view text : {row.says.answer, row.says.first, row.says.last}) {
        expect_declared(row, text, count);
    }
    for (const SaidRow& said : row.says.rows) {
        const bool listed = said.label.starts_with('*') || said.label == "#" || said.label == "=";
        const std::string_view key =
            said.each.substr(0, said.each.size() - (said.each.ends_with('+') ? 1 : 0));
        const auto of = std::find_if(row.figures.begin(), row.figures.end(),
                                     [&](const FigureRow& each) { return !listed && each.key == key; });
        expect_declared(of == row.figures.end() ? row : *of->of, said.label, count);
        expect_declared(of == row.figures.end() ? row : *of->of,
                        listed ? "{" + std::string(said.text) + "}" : std::string(said.text), count);
    }
    for (const FigureRow& figure : row.figures) {
        if (figure.of != nullptr) {
            expect_declared(*figure.of, seen, count);
        }
    }
}

TEST(Telling, TemplatesSpeakOfFiguresThatThereAre) {
    std::set<const RecordRow*> seen;
    int count = 0;
    for (const Question* const question : questions()) {
        expect_declared(*question->answer, seen, count);
    }
    EXPECT_GT(count, 500);
}

}  // namespace
}  // namespace halfnut
