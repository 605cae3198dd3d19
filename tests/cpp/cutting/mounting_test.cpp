// Work as it stands in the lathe: room, overhang and whirl of a cut.

#include <gtest/gtest.h>

#include <cmath>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/overlay.hpp"
#include "halfnut/cutting/choose.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "reference.hpp"

namespace halfnut::cutting {
namespace {

std::uint16_t alloy(std::string_view name) {
    return static_cast<std::uint16_t>(&material::find_alloy(builtin(), name) - builtin().alloys.data());
}

machine::Machine lathe() {
    machine::Machine out;
    out.name = "test lathe";
    out.motor_kw = 1.5;
    out.swing_over_bed_mm = 300.0;
    out.swing_over_cross_slide_mm = 180.0;
    out.between_centres_mm = 700.0;
    out.spindle_bore_mm = 38.0;
    out.spindle_length_mm = 400.0;
    for (const double rpm : {60.0, 120.0, 250.0, 500.0, 1000.0, 2000.0}) {
        machine::SpindleStep step;
        step.rpm = rpm;
        out.spindle.push_back(step);
    }
    for (const double feed : {0.05, 0.1, 0.2, 0.4}) {
        out.carriage.steps.push_back({feed, feed, false, {}});
    }
    machine::Chuck chuck;
    chuck.name = "three-jaw";
    chuck.jaws = 3;
    chuck.diameter_mm = 160.0;
    chuck.rpm_limit = 2500.0;
    chuck.opening_least_mm = 3.0;
    chuck.opening_greatest_mm = 160.0;
    out.chucks.push_back(chuck);
    out.slides.push_back(
        {.name = "carriage", .travel_per_turn_mm = 20.0, .graduation_mm = 0.1, .travel_mm = 620.0});
    out.slides.push_back(
        {.name = "tailstock", .travel_per_turn_mm = 3.0, .graduation_mm = 0.05, .travel_mm = 90.0});
    return out;
}

TurnRequest turn(std::string_view name, double diameter, double length = kNaN) {
    TurnRequest request;
    request.work.alloy = alloy(name);
    request.diameter_mm = diameter;
    request.depth_mm = 0.5;
    request.length_mm = length;
    request.chuck = 0;
    return request;
}

double limit_of(const CutResult& cut, LimitCode code) {
    for (std::size_t i = 0; i < cut.limit_count; ++i) {
        if (cut.limits[i].code == code) {
            return cut.limits[i].limit;
        }
    }
    return kNaN;
}

TEST(FirstWhirl, WorkedCases) {
    const test::Reference table("cutting/first_whirl.csv");
    std::size_t rows = 0;
    for (const test::ReferenceRow& row : table.rows()) {
        const double got =
            first_whirl_rpm(row.number("diameter_mm"), row.number("bore_mm"), row.number("length_mm"),
                            row.number("e_gpa"), row.number("density_kg_m3"), kWhirlRootChuck);
        EXPECT_EQ(std::round(got), row.number("rpm")) << row.text("case");
        ++rows;
    }
    EXPECT_EQ(rows, 7U);
}

TEST(FirstWhirl, RootsSolveTheFrequencyEquations) {
    const double chuck = kWhirlRootChuck;  // cos b cosh b = -1; tan b = tanh b with a centre
    EXPECT_NEAR(std::cos(chuck) * std::cosh(chuck), -1.0, 1e-12);
    EXPECT_NEAR(std::tan(kWhirlRootChuckAndCentre), std::tanh(kWhirlRootChuckAndCentre), 1e-12);
    // Hexagon of width w: I = 5 sqrt(3) a^4 / 16 and A = 3 sqrt(3) a^2 / 2 with a = w / sqrt(3).
    const double side = 1.0 / std::sqrt(3.0);
    const double gyration2 =
        5.0 * std::sqrt(3.0) * std::pow(side, 4) / 16.0 / (3.0 * std::sqrt(3.0) * side * side / 2.0);
    EXPECT_NEAR(kHexagonRound * kHexagonRound / 16.0, gyration2, 1e-15);
}

TEST(Mounting, WorkThatDoesNotGoInIsRefused) {
    const machine::Machine machine = lathe();
    CutResult out;
    const auto why = [&](const TurnRequest& request) {
        return obstacle_of(evaluate(builtin(), machine, request, out));
    };
    EXPECT_EQ(why(turn("6061-T6", 301.0)), machine::Obstacle::over_bed);
    EXPECT_EQ(out.refusal.found, 301.0);
    EXPECT_EQ(out.refusal.bound, 300.0);
    EXPECT_TRUE(std::isnan(out.spindle_rpm));
    TurnRequest wide = turn("6061-T6", 200.0, 50.0);
    wide.chuck = -1;
    EXPECT_EQ(why(wide), machine::Obstacle::cross_slide);
    wide.cut = LatheCut::face;
    EXPECT_EQ(why(wide), machine::Obstacle::none);
    EXPECT_TRUE(out.has(CautionCode::over_cross_slide));
    TurnRequest stepped = turn("6061-T6", 170.0);
    EXPECT_EQ(why(stepped), machine::Obstacle::jaws_open);
    stepped.diameter_mm = 60.0;
    stepped.stock_diameter_mm = 170.0;
    EXPECT_EQ(why(stepped), machine::Obstacle::jaws_open);
    TurnRequest thin = turn("6061-T6", 2.0);
    EXPECT_EQ(why(thin), machine::Obstacle::none);
    EXPECT_TRUE(out.has(CautionCode::below_jaws));
    thin.stock_diameter_mm = 2.5;
    EXPECT_EQ(why(thin), machine::Obstacle::jaws_closed);
    TurnRequest shaft = turn("1018", 40.0, 650.0);
    shaft.hold = Hold::between_centres;
    shaft.stick_out_mm = 710.0;
    EXPECT_EQ(why(shaft), machine::Obstacle::between_centres);
    shaft.stick_out_mm = 690.0;
    EXPECT_EQ(why(shaft), machine::Obstacle::none);
    EXPECT_TRUE(out.has(CautionCode::over_travel));
    TurnRequest bar = turn("1018", 40.0, 30.0);
    bar.bar_length_mm = 1000.0;
    EXPECT_EQ(why(bar), machine::Obstacle::spindle_bore);
    EXPECT_THROW((void)cut(builtin(), machine, bar), DomainError);
    EXPECT_EQ(why(turn("1018", 40.0, 30.0)), machine::Obstacle::none);
}

TEST(Mounting, ACutIsNoLongerThanTheOverhang) {
    TurnRequest request = turn("1018", 40.0, 127.0);
    request.stick_out_mm = 25.4;
    CutResult out;
    EXPECT_EQ(evaluate(builtin(), lathe(), request, out).code, StatusCode::inconsistent);
    try {
        (void)cut(builtin(), lathe(), request);
        FAIL() << "answered";
    } catch (const DomainError& error) {
        const std::string text = error.what();
        EXPECT_NE(text.find("127 mm"), std::string::npos) << text;
        EXPECT_NE(text.find("25.4 mm"), std::string::npos) << text;
    }
}

TEST(Mounting, TheLengthOfTheCutIsTheLeastOverhang) {
    const TurnRequest told = [] {
        TurnRequest request = turn("6061-T6", 20.0, 90.0);
        request.stick_out_mm = 90.0;
        return request;
    }();
    CutResult by_length;
    CutResult by_overhang;
    ASSERT_TRUE(evaluate(builtin(), lathe(), turn("6061-T6", 20.0, 90.0), by_length).ok());
    ASSERT_TRUE(evaluate(builtin(), lathe(), told, by_overhang).ok());
    EXPECT_EQ(by_length.deflection_mm, by_overhang.deflection_mm);
    EXPECT_EQ(by_length.cautions, by_overhang.cautions);
    EXPECT_TRUE(by_length.has(CautionCode::slender));
}

TEST(Mounting, SpeedStaysBelowHalfTheFirstWhirlOfTheWork) {
    // 6 x 300 mm: after the cut 5 mm are left.
    const material::AlloyRow& row = material::find_alloy(builtin(), "6061-T6");
    const double half =
        0.5 * first_whirl_rpm(5.0, 0.0, 300.0, row.youngs_modulus_gpa, row.density_kg_m3, kWhirlRootChuck);
    CutResult exact;
    ASSERT_TRUE(evaluate(builtin(), any_machine(), turn("6061-T6", 6.0, 300.0), exact).ok());
    EXPECT_NEAR(exact.spindle_rpm, half, 1e-9 * half);
    EXPECT_TRUE(exact.has(CautionCode::work_whips));
    EXPECT_TRUE(exact.has(CautionCode::climbs));
    EXPECT_EQ(exact.limited_by, LimitCode::work_whirl);
    EXPECT_DOUBLE_EQ(limit_of(exact, LimitCode::work_whirl), half);
    CutResult stepped;
    ASSERT_TRUE(evaluate(builtin(), lathe(), turn("6061-T6", 6.0, 300.0), stepped).ok());
    EXPECT_EQ(stepped.spindle_rpm, 1000.0);  // of 250, 500, 1000, 2000
    TurnRequest asked = turn("6061-T6", 6.0, 300.0);
    asked.spindle_rpm = 2000.0;
    ASSERT_TRUE(evaluate(builtin(), lathe(), asked, stepped).ok());
    EXPECT_EQ(stepped.spindle_rpm, 1000.0);
    EXPECT_TRUE(stepped.has(CautionCode::asked_speed_moved));
    for (const Hold hold : {Hold::chuck_and_centre, Hold::between_centres}) {
        TurnRequest held = turn("6061-T6", 6.0, 300.0);
        held.hold = hold;
        CutResult with_centre;
        ASSERT_TRUE(evaluate(builtin(), any_machine(), held, with_centre).ok());
        EXPECT_GT(with_centre.spindle_rpm, 2.5 * exact.spindle_rpm);
    }
    TurnRequest far = turn("6061-T6", 6.0, 600.0);
    far.stick_out_mm = 1400.0;  // half the first whirl: 54 rev/min
    EXPECT_EQ(obstacle_of(evaluate(builtin(), lathe(), far, stepped)), machine::Obstacle::work_whips);
}

TEST(Mounting, SpeedStaysBelowHalfTheFirstWhirlOfTheBar) {
    const material::AlloyRow& row = material::find_alloy(builtin(), "C36000");
    TurnRequest request = turn("C36000", 20.0, 30.0);
    request.bar_length_mm = 1430.0;  // less 30 that stand out and 400 in the spindle: 1000 behind
    const double half =
        0.5 * first_whirl_rpm(20.0, 0.0, 1000.0, row.youngs_modulus_gpa, row.density_kg_m3, kWhirlRootChuck);
    CutResult out;
    ASSERT_TRUE(evaluate(builtin(), lathe(), request, out).ok());
    EXPECT_NEAR(limit_of(out, LimitCode::bar_whirl), half, 1e-9 * half);
    EXPECT_EQ(out.spindle_rpm, 250.0);
    EXPECT_LE(out.spindle_rpm, half);
    EXPECT_TRUE(out.has(CautionCode::bar_whips));
    request.bar_length_mm = kNaN;
    request.bar_behind_mm = 1000.0;
    CutResult behind;
    ASSERT_TRUE(evaluate(builtin(), lathe(), request, behind).ok());
    EXPECT_EQ(behind.spindle_rpm, 250.0);
    request.bar_behind_mm = 100.0;
    ASSERT_TRUE(evaluate(builtin(), lathe(), request, behind).ok());
    EXPECT_FALSE(behind.has(CautionCode::bar_whips));
    request.bar_behind_mm = 3000.0;
    EXPECT_EQ(obstacle_of(evaluate(builtin(), lathe(), request, behind)), machine::Obstacle::bar_whips);
    // A tube whips at more than a bar, a hexagon at 1.054 times a round bar of its flats.
    HoleRequest hole;
    hole.work.alloy = request.work.alloy;
    hole.diameter_mm = 5.0;
    hole.chuck = 0;
    hole.stock_flats_mm = 20.0;
    hole.bar_behind_mm = 1000.0;
    CutResult drilled;
    ASSERT_TRUE(evaluate(builtin(), lathe(), hole, drilled).ok());
    EXPECT_NEAR(limit_of(drilled, LimitCode::bar_whirl), 1.0540926 * half, 1e-6 * half);
    hole.depth_mm = 95.0;
    ASSERT_TRUE(evaluate(builtin(), lathe(), hole, drilled).ok());
    EXPECT_TRUE(drilled.has(CautionCode::over_travel));
    EXPECT_DOUBLE_EQ(limit_of(drilled, LimitCode::travel), 90.0);
}

TEST(Mounting, WithoutAModulusNothingIsSilentlyFreeOfWhirl) {
    Overlay shop(builtin());
    shop.add("material/alloys",
             "# table: ours\n# S1: shop | measured\nid,name,condition,iso513,group,density_kg_m3,source\n"
             "X1,stuff,cast,N,bronze-bearing,8800,S1\n",
             "ours");
    const Catalogue& tables = shop.catalogue();
    TurnRequest request = turn("6061-T6", 20.0, 75.0);  // 19 mm are left: slender from 76 mm on
    request.work.alloy =
        static_cast<std::uint16_t>(&material::find_alloy(tables, "stuff") - tables.alloys.data());
    CutResult out;
    ASSERT_TRUE(evaluate(tables, lathe(), request, out).ok());
    EXPECT_FALSE(out.has(CautionCode::whirl_unknown));
    request.length_mm = 77.0;
    ASSERT_TRUE(evaluate(tables, lathe(), request, out).ok());
    EXPECT_TRUE(out.has(CautionCode::whirl_unknown));
    request.hold = Hold::chuck_and_centre;
    ASSERT_TRUE(evaluate(tables, lathe(), request, out).ok());
    EXPECT_FALSE(out.has(CautionCode::whirl_unknown));
    request.bar_behind_mm = 900.0;
    EXPECT_EQ(evaluate(tables, lathe(), request, out).code, StatusCode::not_tabulated);
    EXPECT_THROW((void)cut(tables, lathe(), request), NotTabulatedError);
    request.bar_behind_mm = kNaN;
    request.deflection_limit_mm = 0.1;
    EXPECT_THROW((void)cut(tables, lathe(), request), NotTabulatedError);
}

TEST(Mounting, ChosenPassesKeepToTheSameRoomAndWhirl) {
    ChooseRequest request;
    request.cut = ChooseCut::turn;
    request.work.alloy = alloy("6061-T6");
    request.diameter_mm = 12.0;
    request.to_mm = 11.0;
    request.length_mm = 250.0;
    request.hold = Hold::chuck_and_centre;
    request.bar_behind_mm = 900.0;
    request.chuck = 0;
    const material::AlloyRow& row = builtin().alloys[request.work.alloy];
    const double half =
        0.5 * first_whirl_rpm(12.0, 0.0, 900.0, row.youngs_modulus_gpa, row.density_kg_m3, kWhirlRootChuck);
    const Passes found = choose(builtin(), lathe(), request, false);
    ASSERT_FALSE(found.passes.empty());
    for (const ChosenPass& pass : found.passes) {
        EXPECT_LE(pass.cut.spindle_rpm, half);
    }
    request.stick_out_mm = 750.0;
    EXPECT_THROW((void)choose(builtin(), lathe(), request, false), DomainError);
    request.stick_out_mm = 100.0;
    EXPECT_THROW((void)choose(builtin(), lathe(), request, false), DomainError);
}

TEST(WhirlSpan, SteadiesShortenIt) {
    EXPECT_EQ(whirl_span_mm(Hold::chuck, 300.0, {}), 300.0);
    const std::array<double, 1> end{300.0};
    // Between chuck and a steady at the end it is a beam free to tilt at both: its whirl is that of an
    // overhang of 300 x 1.8751 / pi.
    const double span = whirl_span_mm(Hold::chuck, 300.0, end);
    EXPECT_NEAR(first_whirl_rpm(20.0, 0.0, span, 205.0, 7850.0, kWhirlRootChuck),
                first_whirl_rpm(20.0, 0.0, 300.0, 205.0, 7850.0, kWhirlRootCentres), 1e-6);
    const std::array<double, 1> middle{150.0};
    EXPECT_NEAR(whirl_span_mm(Hold::between_centres, 300.0, middle), 150.0, 1e-12);
}

}  // namespace
}  // namespace halfnut::cutting
