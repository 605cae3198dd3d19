#include "halfnut/machine/machine.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace halfnut::machine {
namespace {

Machine lathe() {
    Machine machine;
    machine.name = "test lathe";
    machine.motor_kw = 1.5;
    for (const double rpm : {70.0, 200.0, 500.0, 1200.0}) {
        SpindleStep step;
        step.rpm = rpm;
        step.back_gear = rpm < 300.0;
        machine.spindle.push_back(step);
    }
    machine.carriage.steps = {{0.05, 0.05, false, {}}, {0.1, 0.1, false, {}}, {0.2, 0.2, false, {}}};
    return machine;
}

TEST(ChooseSpindle, HighestStepNotAboveTheWindow) {
    const Machine machine = lathe();
    EXPECT_EQ(choose_spindle(machine, 400.0, 600.0).rpm, 500.0);
    EXPECT_EQ(choose_spindle(machine, 400.0, 600.0).fit, SpindleFit::within);
    EXPECT_EQ(choose_spindle(machine, 500.0, 500.0).fit, SpindleFit::within);
    EXPECT_EQ(choose_spindle(machine, 600.0, 900.0).rpm, 500.0);
    EXPECT_EQ(choose_spindle(machine, 600.0, 900.0).fit, SpindleFit::below_window);
    EXPECT_EQ(choose_spindle(machine, 30.0, 60.0).rpm, 70.0);
    EXPECT_EQ(choose_spindle(machine, 30.0, 60.0).fit, SpindleFit::above_window);
}

TEST(ChooseSpindle, VariableStepTakesTheSpeedItself) {
    Machine machine = lathe();
    machine.spindle.resize(1);
    machine.spindle[0].rpm_low = 100.0;
    machine.spindle[0].rpm = 2000.0;
    EXPECT_EQ(choose_spindle(machine, 700.0, 850.0).rpm, 850.0);
    EXPECT_EQ(choose_spindle(machine, 10.0, 50.0).fit, SpindleFit::above_window);
    EXPECT_EQ(choose_spindle(machine, 10.0, 50.0).rpm, 100.0);
    EXPECT_EQ(nearest_spindle(machine, 640.0).rpm, 640.0);
}

TEST(SpindlePower, VariableDriveLosesPowerWithSpeed) {
    Machine machine = lathe();
    machine.efficiency = 0.8;
    EXPECT_DOUBLE_EQ(spindle_power_kw(machine, 3, 1200.0), 1.2);
    machine.spindle[3].rpm_low = 600.0;
    EXPECT_DOUBLE_EQ(spindle_power_kw(machine, 3, 600.0), 0.6);
    EXPECT_DOUBLE_EQ(spindle_power_kw(machine, 3, 900.0), 0.9);
    machine.spindle[3].power_low_kw = 1.0;
    EXPECT_DOUBLE_EQ(spindle_power_kw(machine, 3, 600.0), 1.0);
}

TEST(ChooseFeed, LargestNotAboveTheWanted) {
    const FeedLadder ladder = lathe().carriage;
    EXPECT_EQ(choose_feed(ladder, 0.15), 1U);
    EXPECT_EQ(choose_feed(ladder, 0.1), 1U);
    EXPECT_EQ(choose_feed(ladder, 0.01), 0U);
    EXPECT_EQ(choose_feed(ladder, 9.0), 2U);
}

TEST(ChuckLimit, CautiousRimSpeedWhereNothingIsMarked) {
    Chuck chuck;
    chuck.diameter_mm = 200.0;
    EXPECT_NEAR(chuck_rpm_limit(chuck), 25.0 / (std::numbers::pi * 0.2) * 60.0, 1e-9);
    chuck.rpm_limit = 1800.0;
    EXPECT_EQ(chuck_rpm_limit(chuck), 1800.0);
}

TEST(Problems, AreAllNamedAtOnce) {
    EXPECT_TRUE(problems(lathe()).empty());
    Machine machine = lathe();
    machine.name.clear();
    machine.spindle[2].rpm = 150.0;
    machine.efficiency = 1.2;
    machine.slides.push_back({.name = "cross", .travel_per_turn_mm = 2.0, .graduation_mm = 0.03});
    const std::vector<Problem> found = problems(machine);
    ASSERT_EQ(found.size(), 4U);
    EXPECT_EQ(found[0].where, "name");
    EXPECT_EQ(found[1].where, "efficiency");
    EXPECT_EQ(found[2].where, "spindle[2].rpm");
    EXPECT_TRUE(found[3].odd) << found[3].text;
}

}  // namespace
}  // namespace halfnut::machine
