// Chasing: the header's examples, the last line of a schedule, refusals, thread dials in whole numbers.

#include "halfnut/cutting/chase.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"

namespace halfnut::cutting {
namespace {

ChaseRequest coarse() {
    ChaseRequest out;
    out.blank_mm = 20.0;
    out.pitch_diameter_mm = 18.376;
    out.pitch_mm = 2.5;
    out.nose_radius_mm = 0.3125;
    out.graduation_mm = 0.02;
    return out;
}

TEST(Chase, HeaderExamples) {
    EXPECT_NEAR(chasing_depth_mm(20.0, 18.376, 2.5, 30.0, 0.36084, 0.0, 0.0), 1.5337, 5e-5);
    EXPECT_NEAR(compound_travel_mm(1.0, 29.5), 1.149, 5e-4);
    // trapezoidal thread of 4 mm pitch to its basic minor diameter, d - P: 0.366 P at the root
    EXPECT_NEAR(root_flat_mm(4.0, 18.0, 16.0, 15.0), 0.366 * 4.0, 1e-3);
    EXPECT_DOUBLE_EQ(root_flat_mm(4.0, 18.0, 20.0, 15.0), root_flat_mm(4.0, 18.0, 16.0, 15.0));
    EXPECT_THROW((void)root_flat_mm(2.0, 18.0, 16.0, 30.0), DomainError);
    EXPECT_EQ(stopping_rpm(5.0, 1.5, 1.0), 200.0);
}

TEST(Chase, TheLastLineIsTheNearestThatDoesNotPass) {
    for (const Infeed infeed : {Infeed::straight, Infeed::flank, Infeed::alternating}) {
        ChaseRequest request = coarse();
        request.infeed = infeed;
        ChaseSchedule found;
        ASSERT_TRUE(evaluate(request, found).ok());
        const ChasePass& last = found.passes.back();
        EXPECT_GE(last.pitch_diameter_mm, request.pitch_diameter_mm);
        EXPECT_LT(last.pitch_diameter_mm - request.pitch_diameter_mm, found.line_on_pitch_diameter_mm);
        EXPECT_TRUE(last.measure);
        EXPECT_TRUE(std::isnan(last.force_n));
    }
}

TEST(Chase, RefusalsNameTheArgumentAndLeaveNothing) {
    ChaseSchedule found;
    std::string why;
    ChaseRequest request = coarse();
    request.graduation_mm = 0.0;
    EXPECT_EQ(evaluate(request, found, &why).code, StatusCode::out_of_range);
    EXPECT_EQ(why, "graduation_mm must be > 0 mm, got 0 mm");
    EXPECT_TRUE(found.passes.empty());
    request = coarse();
    request.graduation_mm = 5.0;
    EXPECT_EQ(evaluate(request, found, &why).code, StatusCode::inconsistent);
    request = coarse();
    request.blank_mm = kNaN;
    EXPECT_EQ(evaluate(request, found, &why).code, StatusCode::not_finite);
    request = coarse();
    request.least_mm = 1.0;
    EXPECT_EQ(evaluate(request, found, &why).code, StatusCode::inconsistent);
    request = coarse();
    request.force_limit_n = 100.0;
    EXPECT_EQ(evaluate(request, found, &why).code, StatusCode::inconsistent);
}

TEST(Chase, ThreadDials) {
    // 8 threads an inch, 32 teeth, 8 marks: 10, 13, 11.5 and 2.25 an inch, then 1.5 mm
    EXPECT_EQ(thread_dial(127, 40, 127, 50, 32, 8).every, 1);
    EXPECT_EQ(thread_dial(127, 40, 127, 65, 32, 8).every, 2);
    EXPECT_EQ(thread_dial(127, 40, 254, 115, 32, 8).every, 4);
    EXPECT_EQ(thread_dial(127, 40, 508, 45, 32, 8).every, 8);
    EXPECT_EQ(thread_dial(127, 40, 3, 2, 32, 8).every, 0);
    EXPECT_EQ(thread_dial(0, 1, 3, 2, 32, 8).every, 0);
    EXPECT_TRUE(thread_dial(3, 1, 3, 2, 14, 14).any_line);
}

TEST(Chase, LeadsAreFractions) {
    const auto lead = [](std::string_view text) {
        return lead_fraction_mm(threads::parse_thread(text, builtin()));
    };
    EXPECT_EQ(lead("M24xPh3P1.5-6g"), (std::pair<std::int64_t, std::int64_t>{3, 1}));
    EXPECT_EQ(lead("1/4-20 UNC-2A"), (std::pair<std::int64_t, std::int64_t>{127, 100}));
}

}  // namespace
}  // namespace halfnut::cutting
