// Change gears: the header's examples, exactness, ranking, mounting, refusals, charts.

#include "halfnut/machine/gear_train.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace halfnut::machine {
namespace {

Threading inch_screw() {
    Threading out;
    out.lead_mm = 25.4 / 8.0;
    out.gears = {20, 24, 30, 40, 40, 52, 60, 63, 80, 127};
    return out;
}

Threading with_distances() {
    Threading out = inch_screw();
    out.module_mm = 1.5;
    out.stud_to_screw_mm = 180.0;
    out.banjo_low_mm = 50.0;
    out.banjo_high_mm = 220.0;
    return out;
}

GearQuestion lead(std::int64_t num, std::int64_t den) {
    GearQuestion out;
    out.lead_mm = {num, den};
    return out;
}

TEST(GearTrain, HeaderExamples) {
    EXPECT_DOUBLE_EQ(train_lead_mm(3.175, 1.0, 40.0, 127.0), 1.0);
    EXPECT_DOUBLE_EQ(gear_centres_mm(40.0, 127.0, 1.5875), 132.55625);
}

TEST(GearTrain, SimplestRatiosAreTheOnesMeant) {
    EXPECT_EQ(simplest_ratio(25.4 / 8.0), (Ratio{127, 40}));
    EXPECT_EQ(simplest_ratio(25.4 / 11.5), (Ratio{254, 115}));
    EXPECT_EQ(simplest_ratio(2.0 / 3.0), (Ratio{2, 3}));
    EXPECT_EQ(simplest_ratio(0.6667), (Ratio{6667, 10000}));
    EXPECT_EQ(simplest_ratio(1.0), (Ratio{1, 1}));
    EXPECT_EQ(simplest_ratio(0.0).num, 0);
    EXPECT_EQ(simplest_ratio(kNaN).num, 0);
    EXPECT_EQ(simplest_ratio(1e-9).num, 0);
    for (int den = 1; den < 200; ++den) {
        for (int num = 1; num < 200; ++num) {
            const Ratio found = simplest_ratio(static_cast<double>(num) / den);
            ASSERT_EQ(found.num * den, found.den * num) << num << "/" << den;
        }
    }
}

TEST(GearTrain, ExactTrainsComeFirstThenTheSmallestError) {
    GearAnswer found;
    ASSERT_TRUE(gear_trains(inch_screw(), lead(1, 1), found).ok());
    ASSERT_FALSE(found.trains.empty());
    EXPECT_TRUE(found.trains.front().exact);
    EXPECT_EQ(found.trains.front().driver_1, 40);
    EXPECT_EQ(found.trains.front().driven_2, 127);
    EXPECT_EQ(found.trains.front().mounting, Mounting::unchecked);
    EXPECT_TRUE(std::is_sorted(
        found.trains.begin(), found.trains.end(),
        [](const GearTrain& a, const GearTrain& b) { return std::abs(a.error) < std::abs(b.error); }));
    EXPECT_EQ(found.found, found.trains.size());
}

TEST(GearTrain, EqualGearsAreUsedNoMoreThanThereAre) {
    Threading one = inch_screw();
    one.gears = {40, 60};
    GearAnswer found;
    ASSERT_TRUE(gear_trains(one, lead(127, 40), found).ok());  // the leadscrew's own lead, 1 to 1
    EXPECT_TRUE(found.trains.empty());
    one.gears = {40, 40};
    ASSERT_TRUE(gear_trains(one, lead(127, 40), found).ok());
    EXPECT_EQ(found.trains.size(), 1U);
}

TEST(GearTrain, AGearboxMultipliesTheStandardTrain) {
    Threading boxed = inch_screw();
    boxed.standard_driver = 40;
    boxed.standard_driven = 40;
    boxed.gearbox.resize(2);
    boxed.gearbox[0].ratio = 0.5;
    boxed.gearbox[1].ratio = 1.0;
    GearAnswer found;
    ASSERT_TRUE(gear_trains(boxed, lead(127, 80), found).ok());
    EXPECT_TRUE(found.trains.front().exact);
    EXPECT_TRUE(found.trains.front().standard);
    EXPECT_EQ(found.trains.front().box, 0);
    boxed.standard_driver = 0;
    std::string why;
    EXPECT_EQ(gear_trains(boxed, lead(127, 80), found, &why).code, StatusCode::inconsistent);
    EXPECT_FALSE(why.empty());
}

TEST(GearTrain, OnlyTrainsThatCloseAreAnsweredWhereTheDistancesAreKnown) {
    GearAnswer free;
    GearAnswer placed;
    ASSERT_TRUE(gear_trains(inch_screw(), lead(3, 2), free).ok());
    ASSERT_TRUE(gear_trains(with_distances(), lead(3, 2), placed).ok());
    EXPECT_EQ(placed.found + placed.refused, free.found);
    EXPECT_GT(placed.refused, 0U);
    for (const GearTrain& train : placed.trains) {
        EXPECT_EQ(train.mounting, Mounting::closes);
        EXPECT_GE(train.stud_to_banjo_mm + train.banjo_to_screw_mm, 180.0);
        EXPECT_LE(std::abs(train.stud_to_banjo_mm - train.banjo_to_screw_mm), 180.0);
        EXPECT_TRUE(train.compound() || train.idler > 0);
    }
    GearQuestion all = lead(3, 2);
    all.unmountable = true;
    ASSERT_TRUE(gear_trains(with_distances(), all, placed).ok());
    EXPECT_EQ(placed.trains.size(), free.trains.size());
}

TEST(GearTrain, RefusalsNameTheArgument) {
    GearAnswer found;
    std::string why;
    EXPECT_EQ(gear_trains(inch_screw(), lead(0, 1), found, &why).code, StatusCode::out_of_range);
    EXPECT_EQ(why, "lead_mm must be > 0 mm, got 0 mm");
    Threading wrong = inch_screw();
    wrong.gears.push_back(401);
    EXPECT_EQ(gear_trains(wrong, lead(1, 1), found, &why).code, StatusCode::out_of_range);
    EXPECT_EQ(why, "gears must have 1 to 400 teeth, got 401");
    wrong = inch_screw();
    wrong.lead_mm = kNaN;
    EXPECT_EQ(gear_trains(wrong, lead(1, 1), found, &why).code, StatusCode::not_finite);
    GearQuestion wide = lead(1, 1);
    wide.error_limit = -0.1;
    EXPECT_EQ(gear_trains(inch_screw(), wide, found, &why).code, StatusCode::out_of_range);
}

TEST(GearTrain, TranslatingPairsAreFound) {
    const std::vector<TranslatingPair> found =
        translating_pairs({37, 47, 63, 80, 100, 120, 127}, 6, 3e-4, false);
    const auto holds = [&](int driver, int driven, int num, int den) {
        return std::any_of(found.begin(), found.end(), [&](const TranslatingPair& pair) {
            return pair.driver == driver && pair.driven == driven && pair.num == num && pair.den == den;
        });
    };
    EXPECT_TRUE(holds(127, 100, 1, 1));
    EXPECT_TRUE(holds(127, 120, 6, 5));
    EXPECT_TRUE(holds(47, 37, 1, 1));
    EXPECT_TRUE(holds(80, 63, 1, 1));
}

TEST(GearTrain, AChartIsCheckedRowByRow) {
    Machine lathe;
    lathe.name = "lathe";
    lathe.kind = Kind::lathe;
    lathe.spindle.push_back({.rpm = 100.0, .positions = {}});
    lathe.threading = inch_screw();
    lathe.threading.chart = {{25.4 / 10.0, true, {40}, {50}, {}},   // 50 is not at hand
                             {25.4 / 16.0, true, {20}, {40}, {}},   // right
                             {25.4 / 12.0, true, {40}, {52}, {}},   // gives 10.4
                             {1.0, false, {24, 63}, {80, 60}, {}},  // near
                             {1.0, false, {}, {}, {}}};             // nothing to reckon with
    std::vector<std::string> wrong;
    std::vector<std::string> odd;
    for (const Problem& problem : problems(lathe)) {
        (problem.odd ? odd : wrong).push_back(problem.where + ": " + problem.text);
    }
    EXPECT_EQ(wrong,
              (std::vector<std::string>{
                  "threading.chart[2]: 40/52 gives 10.4 threads an inch, the chart says 12 threads an inch",
                  "threading.chart[4]: names no gears"}));
    EXPECT_EQ(odd,
              (std::vector<std::string>{
                  "threading.chart[0]: needs a gear of 50 teeth, which is not among the gears",
                  "threading.chart[3]: 24/80 × 63/60 gives 1.000125 mm, +0.0125 % of what the chart says"}));
}

}  // namespace
}  // namespace halfnut::machine
