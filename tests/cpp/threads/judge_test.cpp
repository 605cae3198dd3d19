// Verdicts on measured parts, and sizes over wires for a thread's limits.

#include "halfnut/threads/judge.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/builtin.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/wires.hpp"

namespace halfnut::threads {
namespace {

JudgeRequest measured(std::string_view thread, double pitch_mm) {
    JudgeRequest request;
    request.thread = parse_thread(thread, builtin());
    request.pitch_mm = pitch_mm;
    return request;
}

bool meets(const Verdict& verdict, std::string_view name) {
    return std::any_of(verdict.classes.begin(), verdict.classes.end(),
                       [&](const ClassTried& c) { return c.name == name && c.met(); });
}

// M10-6g: pitch 8.994/8.862; 6h 9.026/8.894; 4g 8.994/8.909.
TEST(Judge, WhatIsLeftToTakeOff) {
    const Verdict large = judge(builtin(), measured("M10-6g", 9.050));
    EXPECT_EQ(large.place(), Place::metal_left);
    EXPECT_NEAR(large.diameters[1].to_enter_mm, 0.056, 1e-12);
    EXPECT_NEAR(large.diameters[1].to_middle_mm, 0.122, 1e-12);
    EXPECT_NEAR(large.diameters[1].to_last_mm, 0.188, 1e-12);
    const Verdict good = judge(builtin(), measured("M10-6g", 8.950));
    EXPECT_EQ(good.place(), Place::within);
    EXPECT_EQ(good.diameters[1].to_enter_mm, 0.0);
    const Verdict small = judge(builtin(), measured("M10-6g", 8.850));
    EXPECT_EQ(small.place(), Place::overcut);
    EXPECT_NEAR(small.diameters[1].to_last_mm, -0.012, 1e-12);
    EXPECT_EQ(judge(builtin(), measured("M10-6g", 8.994)).place(), Place::within);
    EXPECT_EQ(judge(builtin(), measured("M10-6g", 8.862)).place(), Place::within);
}

TEST(Judge, AnInternalThreadIsCutOutwards) {
    const Verdict small = judge(builtin(), measured("M10-6H", 9.000));
    EXPECT_EQ(small.place(), Place::metal_left);
    EXPECT_NEAR(small.diameters[1].to_enter_mm, 0.026, 1e-12);
    EXPECT_EQ(judge(builtin(), measured("M10-6H", 9.300)).place(), Place::overcut);
    JudgeRequest request = measured("M10-6H", 9.1);
    request.minor_mm = 8.3;
    EXPECT_EQ(judge(builtin(), request).diameters[2].place, Place::metal_left);
    request.minor_mm = 8.7;
    EXPECT_EQ(judge(builtin(), request).diameters[2].place, Place::overcut);
    request.major_mm = 9.9;
    EXPECT_EQ(judge(builtin(), request).diameters[0].place, Place::metal_left);
}

TEST(Judge, ClassesThatThePartMeets) {
    const Verdict verdict = judge(builtin(), measured("M10-6g", 8.910));
    EXPECT_EQ(verdict.classes.size(), 17U);
    EXPECT_TRUE(meets(verdict, "6g"));
    EXPECT_TRUE(meets(verdict, "6h"));
    EXPECT_FALSE(meets(verdict, "4h"));
    const Verdict inch = judge(builtin(), measured("1/4-20 UNC-2A", 0.2150 * 25.4));
    EXPECT_EQ(inch.classes.size(), 3U);
    EXPECT_TRUE(meets(inch, "1A"));
    EXPECT_TRUE(meets(inch, "2A"));
    EXPECT_TRUE(meets(inch, "3A"));
}

TEST(Judge, ErrorsOfFormCountOnTheGoSideOnly) {
    JudgeRequest request = measured("M10-6g", 8.990);
    request.lead_error_mm = 0.010;
    const Verdict verdict = judge(builtin(), request);
    EXPECT_NEAR(verdict.functional_pitch_mm, 8.990 + 0.010 * std::sqrt(3.0), 1e-12);
    EXPECT_EQ(verdict.place(), Place::metal_left);
    request.pitch_mm = 8.850;
    EXPECT_EQ(judge(builtin(), request).place(), Place::overcut);
}

TEST(Judge, ReadsSizesOverWiresAndAcrossBalls) {
    JudgeRequest request = measured("M10-6g", kNaN);
    request.wire_mm = 0.895;
    request.over_wires_mm = over_wires_exact_mm(8.950, 9.968, 1.5, 1.5, 30.0, 0.895);
    const Verdict screw = judge(builtin(), request);
    EXPECT_NEAR(screw.diameters[1].measured_mm, 8.950, 1e-12);
    EXPECT_TRUE(screw.crest_assumed);
    request.major_mm = 9.9;
    EXPECT_FALSE(judge(builtin(), request).crest_assumed);
    request = measured("M10-6H", kNaN);
    request.wire_mm = 0.866;
    request.over_wires_mm = across_balls_exact_mm(9.100, 8.376, 1.5, 1.5, 30.0, 0.866);
    EXPECT_NEAR(judge(builtin(), request).diameters[1].measured_mm, 9.100, 1e-12);
    request.wire_mm = kNaN;
    EXPECT_THROW((void)judge(builtin(), request), DomainError);
    request.wire_mm = -1.0;
    Verdict out;
    EXPECT_EQ(evaluate(builtin(), request, out), (Status{StatusCode::out_of_range, 7}));
}

TEST(Judge, RefusesNothingMeasured) {
    EXPECT_THROW((void)judge(builtin(), measured("M10-6g", kNaN)), DomainError);
    EXPECT_THROW((void)judge(builtin(), measured("M10-6g", -1.0)), DomainError);
    EXPECT_THROW((void)judge(builtin(), measured("M10", 9.0)), DomainError);
}

WireRequest wires_for(std::string_view name, double wire_mm = kNaN) {
    const Thread thread = parse_thread(name, builtin());
    WireRequest request = wire_request(thread, limits(builtin(), thread));
    request.wire_mm = wire_mm;
    return request;
}

TEST(OverWires, NearestOfASetForTheLimits) {
    const OverWires answer = over_wires(builtin(), wires_for("M10-6g"));
    EXPECT_EQ(answer.choice, WireChoice::nearest_of_set);
    EXPECT_DOUBLE_EQ(answer.wire_mm, 0.895);
    EXPECT_NEAR(answer.over_max_mm, over_wires_exact_mm(8.994, 9.968, 1.5, 1.5, 30.0, 0.895), 1e-12);
    EXPECT_NEAR(answer.over_min_mm, over_wires_exact_mm(8.862, 9.968, 1.5, 1.5, 30.0, 0.895), 1e-12);
    EXPECT_NEAR(answer.over_max_mm - answer.over_min_mm, 0.132, 1e-4);
    EXPECT_NEAR(answer.wire_error_factor, 3.0, 1e-12);
    EXPECT_NEAR(answer.measuring_force_n, 2.5 * 4.4482216152605, 1e-9);
    EXPECT_DOUBLE_EQ(over_wires(builtin(), wires_for("1/4-20 UNC-2A")).wire_mm, 0.029 * 25.4);
}

TEST(OverWires, TheWireServesEveryPartWithinTheLimits) {
    const OverWires answer = over_wires(builtin(), wires_for("M10-6g"));
    EXPECT_NO_THROW((void)over_wires(builtin(), wires_for("M10-6g", answer.smallest_wire_mm + 1e-6)));
    EXPECT_NO_THROW((void)over_wires(builtin(), wires_for("M10-6g", answer.largest_wire_mm - 1e-6)));
    EXPECT_THROW((void)over_wires(builtin(), wires_for("M10-6g", answer.smallest_wire_mm - 1e-6)),
                 DomainError);
    EXPECT_THROW((void)over_wires(builtin(), wires_for("M10-6g", answer.largest_wire_mm + 1e-6)),
                 DomainError);
    // The least pitch diameter sinks the wire, and the largest crest stands highest over it.
    EXPECT_GT(answer.smallest_wire_mm, smallest_wire_mm(9.968, 8.862, 1.5, 30.0) - 0.002);
    EXPECT_LT(answer.largest_wire_mm, largest_wire_mm(9.732, 8.994, 1.5, 30.0) + 0.002);
}

TEST(OverWires, InternalThreadsAreMeasuredAcrossBalls) {
    const OverWires answer = over_wires(builtin(), wires_for("M10-6H"));
    EXPECT_EQ(answer.side, Side::internal);
    EXPECT_EQ(answer.choice, WireChoice::best);
    EXPECT_GT(answer.over_max_mm, answer.over_min_mm);
    EXPECT_GT(answer.skew_add_mm, 0.0);
    EXPECT_EQ(over_wires(builtin(), wires_for("M24xPh6P3-6H")).skew_add_mm, 0.0);
}

TEST(OverWires, RefusesUnknownSetsByName) {
    WireRequest request = wires_for("M10-6g");
    request.set = "none such";
    EXPECT_THROW((void)over_wires(builtin(), request), NotTabulatedError);
}

TEST(Judge, ATrapezoidalScrewByHand) {
    // Tr12x3-7e: pitch diameter 10.415/10.191; an error of lead of 0.01 counts cot 15 = 3.732 times
    PartJudgeRequest request;
    request.limits = limits(builtin(), ThreadPart{parse_form_thread("Tr12x3-7e", builtin()), Side::external});
    request.these_alone = false;
    request.pitch_mm = 10.400;
    Verdict found = judge(builtin(), request);
    EXPECT_EQ(found.place(), Place::within);
    EXPECT_NEAR(found.diameters[1].to_last_mm, 0.209, 1e-9);
    EXPECT_NEAR(found.diameters[1].to_middle_mm, 0.097, 1e-9);
    ASSERT_EQ(found.classes.size(), 6U);
    EXPECT_EQ(found.classes[0].name, "7e");
    EXPECT_TRUE(found.classes[0].met());
    request.lead_error_mm = 0.01;
    found = judge(builtin(), request);
    EXPECT_EQ(found.place(), Place::metal_left);
    EXPECT_NEAR(found.functional_pitch_mm, 10.4373, 1e-4);
    request.leading_error_deg = -16.0;  // no flank of 15 degrees is left
    Verdict none;
    std::string why;
    EXPECT_EQ(evaluate(builtin(), request, none, &why).code, StatusCode::inconsistent);
    EXPECT_NE(why.find("leave no flank"), std::string::npos);
}

}  // namespace
}  // namespace halfnut::threads
