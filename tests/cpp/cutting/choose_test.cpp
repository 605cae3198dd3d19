#include "halfnut/cutting/choose.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "halfnut/core/builtin.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {
namespace {

machine::Machine lathe() {
    machine::Machine out;
    out.name = "test lathe";
    out.motor_kw = 1.5;
    out.efficiency = 0.8;
    for (const double rpm : {60.0, 110.0, 200.0, 360.0, 650.0, 1200.0}) {
        machine::SpindleStep step;
        step.rpm = rpm;
        step.stop_to_change = true;
        out.spindle.push_back(step);
    }
    for (const double feed : {0.05, 0.08, 0.12, 0.2, 0.3}) {
        machine::FeedStep step;
        step.feed_mm = feed;
        out.carriage.steps.push_back(step);
    }
    out.carriage.cross_ratio = 0.5;
    for (const char* name : {"cross", "compound", "carriage"}) {
        machine::Slide slide;
        slide.name = name;
        slide.travel_per_turn_mm = slide.name == "carriage" ? 20.0 : 3.0;
        slide.graduation_mm = 0.05;
        out.slides.push_back(slide);
    }
    return out;
}

ChooseRequest shaft() {
    ChooseRequest out;
    out.cut = ChooseCut::turn;
    out.work.alloy =
        static_cast<std::uint16_t>(&material::find_alloy(builtin(), "1018") - builtin().alloys.data());
    out.diameter_mm = 32.0;
    out.to_mm = 27.9;
    out.length_mm = 80.0;
    return out;
}

double taken(const Passes& found) {
    double off = 0.0;
    for (const ChosenPass& pass : found.passes) {
        off += pass.depth_mm;
    }
    return off;
}

TEST(Choose, WithoutLimitsOneCutByTheDialFollowsRoughing) {
    const Passes found = choose(builtin(), lathe(), shaft(), true);
    ASSERT_GE(found.passes.size(), 2U);
    EXPECT_NEAR(taken(found), (32.0 - 27.9) / 2.0, 1e-12);
    EXPECT_EQ(found.closing.way, ClosingWay::one_unmeasured);
    const ChosenPass& last = found.passes.back();
    EXPECT_GE(last.depth_mm, kOneCutLowMm);
    EXPECT_LE(last.depth_mm, kOneCutHighMm);
    EXPECT_EQ(last.line, 41);
    EXPECT_DOUBLE_EQ(last.after_mm, 27.9);
    for (const ChosenPass& pass : found.passes) {
        EXPECT_FALSE(pass.measure_before);
        EXPECT_EQ(pass.finish, &pass == &last);
        EXPECT_TRUE(pass.finish || pass.line % found.lines_apart == 0);
    }
}

TEST(Choose, ABandOfATenthIsClosedOnByOneMeasuredCut) {
    ChooseRequest request = shaft();
    request.tolerance_mm = 0.1;
    const Passes found = choose(builtin(), lathe(), request, false);
    ASSERT_GE(found.passes.size(), 2U);
    EXPECT_EQ(found.closing.way, ClosingWay::one_measured);
    for (const ChosenPass& pass : found.passes) {
        EXPECT_EQ(pass.by_measurement, &pass == &found.passes.back());
    }
}

TEST(Choose, ACloserBandIsHalvedAndMeasuredTwice) {
    ChooseRequest request = shaft();
    request.tolerance_mm = 0.033;  // h8
    const Passes found = choose(builtin(), lathe(), request, false);
    ASSERT_GE(found.passes.size(), 3U);
    EXPECT_EQ(found.closing.way, ClosingWay::halves);
    EXPECT_EQ(found.closing.instrument, Instrument::micrometer);
    EXPECT_FALSE(found.closing.third);
    const ChosenPass& last = found.passes.back();
    const ChosenPass& half = found.passes[found.passes.size() - 2];
    EXPECT_NEAR(last.depth_mm, half.depth_mm, 1e-12);
    EXPECT_GE(last.depth_mm, kHalfLowMm);
    EXPECT_LE(last.depth_mm, kHalfHighMm);
    EXPECT_EQ(last.cut.spindle_rpm, half.cut.spindle_rpm);
    EXPECT_EQ(last.cut.feed_mm_rev, half.cut.feed_mm_rev);
    EXPECT_TRUE(half.by_measurement && last.by_measurement);
    request.tolerance_mm = 0.013;  // h6
    EXPECT_TRUE(choose(builtin(), lathe(), request, false).closing.third);
}

TEST(Choose, NoStopIsMadeToChangeBetweenPasses) {
    ChooseRequest request = shaft();
    request.roughness_um = 0.8;
    const Passes found = choose(builtin(), lathe(), request, false);
    ASSERT_GE(found.passes.size(), 2U);
    for (std::size_t i = 1; i < found.passes.size(); ++i) {
        EXPECT_EQ(found.passes[i].cut.spindle_rpm, found.passes[0].cut.spindle_rpm);
        EXPECT_TRUE(found.passes[i].finish ||
                    found.passes[i].cut.feed_mm_rev == found.passes[0].cut.feed_mm_rev);
    }
    EXPECT_LT(found.passes.back().cut.feed_mm_rev, found.passes[0].cut.feed_mm_rev);
}

TEST(Choose, FreeTakesAllOffAndEndsInAnEqualPair) {
    ChooseRequest request = shaft();
    request.free = true;
    const Passes found = choose(builtin(), lathe(), request, true);
    ASSERT_GE(found.passes.size(), 2U);
    EXPECT_NEAR(taken(found), (32.0 - 27.9) / 2.0, 1e-12);
    const ChosenPass& last = found.passes.back();
    const ChosenPass& first = found.passes[found.passes.size() - 2];
    EXPECT_LE(std::abs(last.depth_mm - first.depth_mm), found.line_mm + 1e-12);
    EXPECT_EQ(last.cut.spindle_rpm, first.cut.spindle_rpm);
    EXPECT_EQ(last.cut.feed_mm_rev, first.cut.feed_mm_rev);
    EXPECT_TRUE(last.measure_before);
    EXPECT_DOUBLE_EQ(last.after_mm, 27.9);
}

TEST(Closing, AnEdgeThatCannotCutThinIsGivenMore) {
    const material::AlloyRow& steel = material::find_alloy(builtin(), "1018");
    const material::AlloyRow& stainless = material::find_alloy(builtin(), "304");
    const material::AlloyRow& aluminium = material::find_alloy(builtin(), "6061-T6");
    EXPECT_EQ(least_depth_mm(steel, ToolMaterial::hss, 0.8), 0.05);
    EXPECT_NEAR(least_depth_mm(steel, ToolMaterial::carbide, 0.8), 0.8 / 3.0, 1e-12);
    EXPECT_EQ(least_depth_mm(steel, ToolMaterial::carbide, 0.2), 0.1);
    EXPECT_EQ(least_depth_mm(aluminium, ToolMaterial::carbide, 0.8), 0.05);
    EXPECT_EQ(least_depth_mm(stainless, ToolMaterial::hss, 0.8), 0.1);
}

TEST(Choose, CountsEveryShareOfTheTime) {
    const Passes found = choose(builtin(), lathe(), shaft(), false);
    double sum = found.final_measure_s;
    for (const ChosenPass& pass : found.passes) {
        sum += pass.cut_s + pass.return_s + pass.dial_s + pass.change_s + pass.measure_s;
        EXPECT_NEAR(pass.cut_s, pass.cut.time_s, 5e-4);
        EXPECT_NEAR(pass.return_s, 82.0 / 20.0, 5e-4);
    }
    EXPECT_NEAR(found.time_s, sum, 1e-9);
}

TEST(Choose, KeepsEveryLimitOfEvaluate) {
    ChooseRequest request = shaft();
    request.stick_out_mm = 120.0;
    request.tolerance_mm = 0.02;
    request.roughness_um = 1.6;
    const Passes found = choose(builtin(), lathe(), request, false);
    ASSERT_FALSE(found.passes.empty());
    for (const ChosenPass& pass : found.passes) {
        for (const CautionCode code :
             {CautionCode::above_window, CautionCode::power_exceeded, CautionCode::deflection_exceeded,
              CautionCode::roughness_exceeded, CautionCode::feed_above_nose, CautionCode::chip_too_thin}) {
            EXPECT_FALSE(pass.cut.has(code)) << enum_name(code);
        }
        for (const Limit& limit : pass.limits) {
            EXPECT_GE(limit.slack(), -1e-9) << enum_name(limit.code);
        }
    }
}

TEST(Choose, SaysWhatStandsInTheWay) {
    ChooseRequest request = shaft();
    request.free = true;
    request.stick_out_mm = 600.0;
    request.tolerance_mm = 0.01;
    const Passes found = choose(builtin(), lathe(), request, true);
    EXPECT_TRUE(found.passes.empty());
    ASSERT_FALSE(found.relaxations.empty());
    EXPECT_EQ(found.relaxations.front().code, LimitCode::deflection);
    // relaxed by that much there is an answer, by a little less there is none
    const double factor = found.relaxations.front().factor;
    ChooseRequest wider = request;
    wider.tolerance_mm *= factor * 1.001;
    wider.deflection_mm = kMostBendMm * factor * 1.001;
    EXPECT_FALSE(choose(builtin(), lathe(), wider, false).passes.empty());
    wider.tolerance_mm = request.tolerance_mm * factor / 1.01;
    wider.deflection_mm = kMostBendMm * factor / 1.01;
    EXPECT_TRUE(choose(builtin(), lathe(), wider, false).passes.empty());
}

TEST(Choose, RefusesWhatContradictsItself) {
    ChooseRequest request = shaft();
    request.to_mm = 40.0;
    EXPECT_THROW(static_cast<void>(choose(builtin(), lathe(), request, false)), DomainError);
    request = shaft();
    request.length_mm = kNaN;
    EXPECT_THROW(static_cast<void>(choose(builtin(), lathe(), request, false)), DomainError);
    request = shaft();
    request.cut = ChooseCut::mill_slot;
    EXPECT_THROW(static_cast<void>(choose(builtin(), lathe(), request, false)), DomainError);
}

TEST(Choose, LeavesLeversThatAreSet) {
    ChooseRequest request = shaft();
    const Passes free = choose(builtin(), lathe(), request, false);
    request.now_spindle = static_cast<int>(free.passes.front().cut.spindle_step);
    request.now_feed = static_cast<int>(free.passes.front().cut.feed_step);
    const Passes set = choose(builtin(), lathe(), request, false);
    EXPECT_NEAR(free.time_s - set.time_s, 65.0, 1e-9);  // one stop and one lever
}

}  // namespace
}  // namespace halfnut::cutting
