#include <gtest/gtest.h>

#include <cmath>

#include "halfnut/core/builtin.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/holes.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {
namespace {

std::uint16_t alloy(std::string_view name) {
    return static_cast<std::uint16_t>(&material::find_alloy(builtin(), name) - builtin().alloys.data());
}

machine::Machine mill() {
    machine::Machine out;
    out.name = "test mill";
    out.kind = machine::Kind::mill;
    out.motor_kw = 0.75;
    out.efficiency = 0.8;
    for (const double rpm : {100.0, 200.0, 400.0, 800.0, 1600.0, 3200.0}) {
        machine::SpindleStep step;
        step.rpm = rpm;
        out.spindle.push_back(step);
    }
    for (const double feed : {0.05, 0.1, 0.2}) {
        out.quill.steps.push_back({feed, feed, false, {}});
    }
    out.table.kind = machine::FeedKind::per_minute;
    for (const double feed : {16.0, 25.0, 40.0, 63.0, 100.0, 160.0, 250.0}) {
        out.table.steps.push_back({feed, feed, false, {}});
    }
    out.slides.push_back({.name = "x", .travel_per_turn_mm = 4.0, .graduation_mm = 0.05});
    out.slides.push_back({.name = "quill", .travel_per_turn_mm = 60.0, .graduation_mm = 1.0});
    return out;
}

HoleRequest hole(HoleCut cut, std::string_view name, double diameter) {
    HoleRequest request;
    request.cut = cut;
    request.work.alloy = alloy(name);
    request.diameter_mm = diameter;
    request.depth_mm = 20.0;
    return request;
}

MillRequest side(std::string_view name, double cutter, double width, double depth) {
    MillRequest request;
    request.shape = MillShape::side;
    request.work.alloy = alloy(name);
    request.cutter_diameter_mm = cutter;
    request.teeth = 4.0;
    request.width_mm = width;
    request.depth_mm = depth;
    request.length_mm = 100.0;
    return request;
}

template <class Request>
CutResult answer(const machine::Machine& machine, const Request& request) {
    CutResult out;
    const Status status = evaluate(builtin(), machine, request, out);
    EXPECT_TRUE(status.ok()) << status_name(status.code) << ' ' << int{status.argument};
    return out;
}

TEST(Drill, FiguresAreTheHandbooks) {
    const machine::Machine machine = mill();
    HoleRequest request = hole(HoleCut::drill, "4130 normalised", 10.0);
    request.work.hardness_hb = 250.0;
    request.feed_mm_rev = 0.1;
    const CutResult out = answer(machine, request);
    // K_d between the steel rows of 200 and 300 HB, standard chisel edge
    EXPECT_DOUBLE_EQ(out.torque_nm, drilling_torque_nm(27500.0, 0.1, 10.0, 1.085, 1.0));
    EXPECT_DOUBLE_EQ(out.feed_force_n, drilling_thrust_n(27500.0, 0.1, 10.0, 1.355, 0.030, 1.0));
    EXPECT_DOUBLE_EQ(out.spindle_power_kw, torque_power_kw(out.torque_nm, out.spindle_rpm));
    EXPECT_DOUBLE_EQ(out.travel_mm, 22.0 + point_length_mm(10.0, 118.0));
    EXPECT_DOUBLE_EQ(out.time_s, feed_time_s(out.travel_mm, 0.1 * out.spindle_rpm));
    EXPECT_TRUE(std::isnan(out.cutting_force_n));
}

TEST(Drill, FactorByGroupAndHardness) {
    const auto kd = [](std::string_view name, double hb) {
        return drill_factor(builtin(), material::find_alloy(builtin(), name), hb);
    };
    EXPECT_EQ(kd("1018", 200.0).kd, 24000.0);
    EXPECT_EQ(kd("1018", 350.0).kd, 32500.0);
    EXPECT_DOUBLE_EQ(kd("1018", 800.0).kd, 34000.0 * std::sqrt(2.0));
    EXPECT_DOUBLE_EQ(kd("1018", 50.0).kd, 12000.0);
    EXPECT_EQ(kd("6061", kNaN).kd, 7000.0);
    EXPECT_EQ(kd("12L14", kNaN).kd, 12000.0);
    EXPECT_TRUE(kd("718", kNaN).from_kc);
}

TEST(Drill, FactorFromKcIsNearTheHandbooks) {
    // Where both are known the Kienzle torque of the lips lies within a factor of two of the handbook's.
    for (const material::AlloyRow& row : builtin().alloys) {
        const DrillFactor factor = drill_factor(builtin(), row, kNaN);
        if (factor.from_kc) {
            continue;
        }
        const ForceConstants constants = force_constants(builtin(), row, kNaN);
        const double h = 0.1 * std::sin(59.0 * kDegree);
        const double kienzle =
            1.2 * specific_cutting_force_n_mm2(constants.kc11_n_mm2, constants.mc, h) * 0.2 * 100.0 / 8000.0;
        const double ratio = kienzle / drilling_torque_nm(factor.kd, 0.2, 10.0, 1.085, 1.0);
        EXPECT_GT(ratio, 0.4) << row.id;
        EXPECT_LT(ratio, 2.5) << row.id;
    }
}

TEST(Drill, PilotTakesItsShare) {
    HoleRequest request = hole(HoleCut::drill, "1018", 20.0);
    request.feed_mm_rev = 0.1;
    const CutResult solid = answer(mill(), request);
    request.pilot_mm = 10.0;
    const CutResult piloted = answer(mill(), request);
    EXPECT_DOUBLE_EQ(piloted.torque_nm, 0.75 * solid.torque_nm);
    EXPECT_LT(piloted.feed_force_n, 0.5 * solid.feed_force_n);
    EXPECT_LT(piloted.travel_mm, solid.travel_mm);
    request.pilot_mm = 20.0;
    CutResult out;
    EXPECT_EQ(evaluate(builtin(), mill(), request, out).code, StatusCode::inconsistent);
}

TEST(Drill, ByHandFromATailstock) {
    machine::Machine machine = mill();
    machine.kind = machine::Kind::lathe;
    machine.slides.push_back({.name = "tailstock", .travel_per_turn_mm = 4.0, .graduation_mm = 0.1});
    const CutResult out = answer(machine, hole(HoleCut::drill, "brass", 8.0));
    EXPECT_EQ(out.feed_source, FeedSource::hand);
    EXPECT_DOUBLE_EQ(out.hand_turns, out.travel_mm / 4.0);
    EXPECT_TRUE(out.has(CautionCode::grabs));
}

TEST(Drill, PowerMakesTheFeedFiner) {
    const CutResult out = answer(mill(), hole(HoleCut::drill, "1045", 20.0));
    EXPECT_EQ(out.feed_mm_rev, 0.05);
    EXPECT_EQ(out.limited_by, LimitCode::power);
    EXPECT_LE(out.spindle_power_kw, out.available_power_kw);
}

TEST(Ream, TwiceTheDrillsFeed) {
    const CutResult drilled = answer(any_machine(), hole(HoleCut::drill, "6061", 10.0));
    const CutResult reamed = answer(any_machine(), hole(HoleCut::ream, "6061", 10.0));
    EXPECT_DOUBLE_EQ(reamed.feed_mm_rev, 2.0 * drilled.feed_mm_rev);
    EXPECT_LT(reamed.spindle_rpm, 4000.0);
    EXPECT_TRUE(std::isnan(reamed.torque_nm));
}

TEST(Tap, GoesInAndOut) {
    HoleRequest request = hole(HoleCut::tap, "6061", 6.0);
    request.pitch_mm = 1.0;
    const CutResult out = answer(mill(), request);
    EXPECT_EQ(out.feed_mm_rev, 1.0);
    EXPECT_DOUBLE_EQ(out.travel_mm, 44.0);
    const ForceConstants constants = force_constants(builtin(), builtin().alloys[request.work.alloy], kNaN);
    const double kc = specific_cutting_force_n_mm2(constants.kc11_n_mm2, constants.mc, 0.045);
    EXPECT_DOUBLE_EQ(out.torque_nm, tapping_torque_nm(kc, 1.0, 6.0, 1.3));
    request.pitch_mm = kNaN;
    CutResult bad;
    const Status status = evaluate(builtin(), mill(), request, bad);
    EXPECT_EQ(kHoleArguments[status.argument].argument.name, "pitch_mm");
}

TEST(Mill, FiguresAreTheFormulas) {
    MillRequest request = side("1018", 16.0, 4.0, 8.0);
    request.feed_per_tooth_mm = 0.05;
    const CutResult out = answer(any_machine(), request);
    EXPECT_DOUBLE_EQ(out.feed_mm_min, table_feed_mm_min(0.05, 4.0, out.spindle_rpm));
    EXPECT_DOUBLE_EQ(out.chip_thickness_mm, milling_chip_thickness_mean_mm(0.05, 4.0, 16.0, 90.0));
    EXPECT_DOUBLE_EQ(out.mrr_cm3_min, milling_removal_cm3_min(8.0, 4.0, out.feed_mm_min));
    const ForceConstants constants = force_constants(builtin(), builtin().alloys[request.work.alloy], kNaN);
    const double kc =
        1.2 * specific_cutting_force_n_mm2(constants.kc11_n_mm2, constants.mc, out.chip_thickness_mm);
    EXPECT_DOUBLE_EQ(out.spindle_power_kw, out.mrr_cm3_min * kc / 60000.0);
    EXPECT_NEAR(torque_power_kw(out.torque_nm, out.spindle_rpm), out.spindle_power_kw, 1e-12);
    EXPECT_EQ(out.passes, 1);
    EXPECT_DOUBLE_EQ(out.travel_mm, 102.0 + milling_approach_mm(16.0, 4.0));
}

TEST(Mill, PassesAreEqualAndMakeUpTheWhole) {
    MillRequest request = side("6061", 10.0, 11.0, 25.0);
    request.step_over_mm = 2.5;
    request.step_down_mm = 10.0;
    const CutResult out = answer(mill(), request);
    EXPECT_EQ(out.passes_across, 5);
    EXPECT_EQ(out.passes_down, 3);
    EXPECT_DOUBLE_EQ(out.width_mm * 5.0, 11.0);
    EXPECT_DOUBLE_EQ(out.depth_mm * 3.0, 25.0);
    EXPECT_EQ(out.passes, 15);
    request.shape = MillShape::pocket;
    request.width_mm = 30.0;
    request.step_over_mm = 5.0;
    const CutResult pocket = answer(mill(), request);
    EXPECT_EQ(pocket.passes_across, 5) << "a slot, then 20 mm in steps of 5";
    EXPECT_EQ(pocket.width_mm, 10.0) << "reckoned for the full slot";
    request.width_mm = 8.0;
    CutResult bad;
    EXPECT_EQ(evaluate(builtin(), mill(), request, bad).code, StatusCode::inconsistent);
    EXPECT_TRUE(std::isnan(bad.spindle_rpm));
}

TEST(Mill, TableFeedIsAStepAndPowerHolds) {
    machine::Machine machine = mill();
    MillRequest request = side("1045", 20.0, 10.0, 20.0);
    const CutResult out = answer(machine, request);
    EXPECT_EQ(out.feed_mm_min, machine.table.steps[out.feed_step].feed_mm);
    EXPECT_LE(out.spindle_power_kw, out.available_power_kw);
    machine.table.steps.clear();
    const CutResult hand = answer(machine, request);
    EXPECT_EQ(hand.feed_source, FeedSource::hand);
    EXPECT_DOUBLE_EQ(hand.hand_turns_per_min, hand.feed_mm_min / 4.0);
}

TEST(Mill, CutterBendsWithItsStickOutCubed) {
    MillRequest request = side("6061", 6.0, 1.0, 6.0);
    request.feed_per_tooth_mm = 0.03;
    request.stick_out_mm = 15.0;
    const CutResult out = answer(any_machine(), request);
    request.stick_out_mm = 30.0;
    const CutResult longer = answer(any_machine(), request);
    EXPECT_NEAR(longer.deflection_mm, 8.0 * out.deflection_mm, 1e-12);
    EXPECT_TRUE(longer.has(CautionCode::cutter_overhang));
    request.tool_material = ToolMaterial::carbide;
    EXPECT_LT(answer(any_machine(), request).deflection_mm, longer.deflection_mm);
}

}  // namespace
}  // namespace halfnut::cutting
