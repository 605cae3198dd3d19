#include "halfnut/core/bounds.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/overlay.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/cutting/choose.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/fits/cylindrical.hpp"
#include "halfnut/knurls/pitch.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/holes.hpp"

namespace halfnut {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

std::string mm_text(double value) {
    char text[64];
    std::snprintf(text, sizeof text, "%.17g mm", value);
    return text;
}

template <class Ask>
std::string refusal(Ask ask) {
    try {
        ask();
    } catch (const Error& error) {
        return error.what();
    }
    return {};
}

TEST(Bounds, AWholeNumberComesOutOfAnyDouble) {
    EXPECT_EQ(bounds::whole<int>(3.9), 3);
    EXPECT_EQ(bounds::whole<int>(-3.9), -3);
    EXPECT_EQ(bounds::whole<int>(kNaN, 7), 7);
    EXPECT_EQ(bounds::whole<int>(kInf), std::numeric_limits<int>::max());
    EXPECT_EQ(bounds::whole<int>(-kInf), std::numeric_limits<int>::min());
    EXPECT_EQ(bounds::whole<int>(2147483648.0), std::numeric_limits<int>::max());
    EXPECT_EQ(bounds::whole<std::int64_t>(9.3e18), std::numeric_limits<std::int64_t>::max());
    EXPECT_EQ(bounds::whole<std::int64_t>(-9.3e18), std::numeric_limits<std::int64_t>::min());
    EXPECT_EQ(bounds::whole<std::uint8_t>(256.0), 255);
    EXPECT_EQ(bounds::whole<std::uint8_t>(-1.0), 0);
    EXPECT_EQ(bounds::whole<int>(1e11, 0, 1000), 1000);
    EXPECT_EQ(bounds::nearest<int>(2.5), 3);
    EXPECT_EQ(bounds::nearest<int>(-2.5), -3);
}

TEST(Bounds, OfALengthAreKeptByTheReader) {
    const auto reads = [](double mm) {
        return refusal([&] { (void)parse_length(mm_text(mm), builtin()); }).empty();
    };
    // a millionth of a millimetre and 100 m: at the bound, just below it, just above it
    EXPECT_TRUE(reads(1e-6));
    EXPECT_FALSE(reads(std::nextafter(1e-6, 0.0)));
    EXPECT_TRUE(reads(std::nextafter(1e-6, 1.0)));
    EXPECT_TRUE(reads(1e5));
    EXPECT_TRUE(reads(std::nextafter(1e5, 0.0)));
    EXPECT_FALSE(reads(std::nextafter(1e5, kInf)));
    EXPECT_TRUE(reads(0.0));
    const std::string said = refusal([] { (void)parse_length("1e12 mm", builtin()); });
    EXPECT_NE(said.find("0, or from 1e-06 to 100000 mm"), std::string::npos) << said;
}

TEST(Bounds, OfEveryDimensionAreKeptByTheReader) {
    for (int i = 0; i <= static_cast<int>(Dimension::stress); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        const std::string unit(base_unit(dimension));
        const bounds::Range range = bounds::of_unit(unit);
        ASSERT_LT(range.greatest, 1e30) << unit << " has no row of its own";
        for (const auto& [value, takes] : {std::pair{range.least, true}, std::pair{range.greatest, true},
                                           std::pair{std::nextafter(range.least, 0.0), false},
                                           std::pair{std::nextafter(range.greatest, kInf), false}}) {
            char text[64];
            std::snprintf(text, sizeof text, "%.17g %s", value, unit.c_str());
            EXPECT_EQ(refusal([&] { (void)parse_quantity(text, dimension, builtin()); }).empty(), takes)
                << text;
        }
    }
}

TEST(Bounds, OfAFormulaNameArgumentValueAndRange) {
    EXPECT_NO_THROW((void)cutting::spindle_speed_rpm(100.0, 1e5));
    const std::string said =
        refusal([] { (void)cutting::spindle_speed_rpm(100.0, std::nextafter(1e5, kInf)); });
    EXPECT_NE(said.find("diameter_mm must be from 1e-06 to 100000 mm, got"), std::string::npos) << said;
    EXPECT_NE(refusal([] { (void)cutting::spindle_speed_rpm(100.0, 1e-7); }), "");
    EXPECT_EQ(refusal([] { (void)cutting::spindle_speed_rpm(100.0, -2.0); }),
              "diameter_mm must be > 0 mm, got -2 mm");
}

TEST(Bounds, OfTextsAreKeptByEveryReader) {
    const std::string longest(bounds::kDesignationBytes, '9');
    const std::string longer = longest + "9";
    const auto too_long = [](const std::string& said) {
        return said.find(" bytes, got ") != std::string::npos;
    };
    const auto each = [&](auto ask) {
        EXPECT_FALSE(too_long(refusal([&] { ask(longest); })));
        const std::string said = refusal([&] { ask(longer); });
        EXPECT_TRUE(too_long(said)) << said;
        EXPECT_LT(refusal([&] { ask(std::string(1'000'000, '9')); }).size(), 400U);
    };
    each([](const std::string& text) { (void)threads::parse_thread(text, builtin()); });
    each([](const std::string& text) { (void)threads::parse_form_thread("Tr" + text.substr(2), builtin()); });
    each([](const std::string& text) { (void)fits::parse_cylinder(text, builtin()); });
    each([](const std::string& text) { (void)threads::parse_build_up(text, builtin()); });
    each([](const std::string& text) { (void)knurls::parse_knurl_pitch(text, builtin()); });
    each([](const std::string& text) { (void)threads::drill_set(builtin(), text); });
    each([](const std::string& text) { (void)material::find_alloy(builtin(), text); });
    EXPECT_TRUE(too_long(refusal([] { (void)parse_length(std::string(1001, ' ') + "1 mm", builtin()); })));
}

TEST(Bounds, ANameFarLongerThanTheOthersIsNotCompared) {
    const std::vector<std::string_view> names{"turn", "drill"};
    EXPECT_EQ(nearest_name("drlll", names), "drill");
    // compared letter by letter, 10^8 letters against 5 would take seconds
    EXPECT_EQ(nearest_name(std::string(100'000'000, 'x'), names), "");
}

TEST(Bounds, EvidenceThatDoesNotFitIsNotReadInPart) {
    Evidence<2> evidence;
    evidence.note(0, {});
    evidence.note(1, {});
    EXPECT_EQ(evidence.items().size(), 2U);
    evidence.note(2, {});
    EXPECT_THROW((void)evidence.items(), std::length_error);
}

machine::Machine lathe() {
    machine::Machine out;
    out.name = "lathe";
    machine::SpindleStep step;
    step.rpm = 400.0;
    out.spindle.push_back(step);
    machine::FeedStep feed;
    feed.feed_mm = 0.1;
    out.carriage.steps.push_back(feed);
    out.carriage.cross_ratio = 0.5;
    return out;
}

cutting::Work work_of(std::string_view name) {
    return {static_cast<std::uint16_t>(&material::find_alloy(builtin(), name) - builtin().alloys.data()),
            kNaN};
}

cutting::ChooseRequest turned(double diameter_mm) {
    cutting::ChooseRequest out;
    out.cut = cutting::ChooseCut::turn;
    out.work = work_of("6061-T6");
    out.diameter_mm = diameter_mm;
    out.to_mm = 25.0;
    out.length_mm = 50.0;
    return out;
}

TEST(Bounds, OfAJobsSizesKeepTheChoiceOfPassesWithinItsTables) {
    for (const double size : {std::nextafter(1e5, kInf), 1e11, 1e12, 1e300}) {
        const std::string said =
            refusal([&] { (void)cutting::choose(builtin(), lathe(), turned(size), false); });
        EXPECT_NE(said.find("diameter_mm must be from 1e-06 to 100000 mm"), std::string::npos) << said;
    }
    EXPECT_NO_THROW((void)cutting::choose(builtin(), lathe(), turned(1e5), false));
    cutting::ChooseRequest face = turned(25.0);
    face.cut = cutting::ChooseCut::face;
    face.to_mm = kNaN;
    face.off_mm = 1e12;
    EXPECT_NE(refusal([&] { (void)cutting::choose(builtin(), lathe(), face, false); }).find("off_mm"),
              std::string::npos);
    face.off_mm = 1e5;
    face.line_mm = 1e-6;
    EXPECT_NO_THROW((void)cutting::choose(builtin(), lathe(), face, false));
    face.off_mm = 0.004;  // less than a line of 0.01 mm: no whole step to look up
    face.line_mm = kNaN;
    EXPECT_NO_THROW((void)cutting::choose(builtin(), lathe(), face, false));
    cutting::ChooseRequest slow = turned(32.0);
    slow.dial_set_s = 1e9;  // a pass that lasts 30 years is no answer, and no number that wraps
    EXPECT_TRUE(cutting::choose(builtin(), lathe(), slow, false).passes.empty());
}

TEST(Bounds, OfPassesAndPecksAreToldAtTheDepth) {
    cutting::MillRequest slot;
    slot.work = work_of("6061-T6");
    slot.shape = cutting::MillShape::slot;
    slot.cutter_diameter_mm = 10.0;
    slot.teeth = 4.0;
    slot.depth_mm = 10.0;
    slot.step_down_mm = 0.001;  // 10 / 0.001 = 10000 passes
    cutting::CutResult out;
    EXPECT_TRUE(cutting::evaluate(builtin(), cutting::any_machine(), slot, out).ok());
    EXPECT_EQ(out.passes, 10'000);
    slot.step_down_mm = 0.000999;
    EXPECT_NE(refusal([&] {
                  (void)cutting::cut(builtin(), cutting::any_machine(), slot);
              }).find("depth_mm must take at most 10000 passes"),
              std::string::npos);
    cutting::HoleRequest hole;
    hole.work = work_of("6061-T6");
    hole.diameter_mm = 1.0;
    hole.depth_mm = 1e5;
    EXPECT_NE(refusal([&] {
                  (void)cutting::cut(builtin(), cutting::any_machine(), hole);
              }).find("depth_mm must take at most 10000 pecks"),
              std::string::npos);
}

TEST(Bounds, OfATableAreToldWithItsLine) {
    const std::string head = "# table: drills\n# S1: shop | drawer\nname,diameter_in,source\n";
    std::string rows;
    for (std::size_t i = 0; i <= bounds::kRows; ++i) {
        rows += "x,1,S1\n";
    }
    EXPECT_NE(refusal([&] { (void)parse_table(head + rows, "own.csv"); }).find("at most 20000 rows"),
              std::string::npos);
    EXPECT_NE(refusal([&] {
                  (void)parse_table(head + std::string(bounds::kFileBytes, ' '), "own.csv");
              }).find("at most 1000000 bytes"),
              std::string::npos);
    Overlay overlay(builtin());
    overlay.add("quantity/drills", head + "own,1e300,S1\n", "own.csv");
    ASSERT_EQ(overlay.catalogue().refused.size(), 1U);
    EXPECT_EQ(overlay.catalogue().refused.front().where, "own.csv:4");
    EXPECT_EQ(overlay.catalogue().refused.front().mistakes.front(),
              "diameter_in must be a number of at most 1e15, got '1e300'");
}

}  // namespace
}  // namespace halfnut
