// Chasing: the header's examples, schedules as properties, refusals, thread dials in whole numbers.

#include "halfnut/cutting/chase.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "../reference.hpp"
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

TEST(Chase, PublishedThreadDials) {
    const test::Reference reference("cutting/chasing.csv");
    int read = 0;
    for (const test::ReferenceRow& row : reference.rows()) {
        if (row.text("what") != "dial") {
            continue;
        }
        const std::string& dial = row.text("dial");  // teeth of the wheel / threads an inch of the leadscrew
        const int wheel = std::stoi(dial);
        const int screw = std::stoi(dial.substr(dial.find('/') + 1));
        const auto quarters = static_cast<std::int64_t>(4.0 * row.number("pitch"));
        EXPECT_EQ(thread_dial(127, 5LL * screw, 127 * 4, 5 * quarters, wheel, 8).every,
                  static_cast<int>(row.number("every")))
            << row.text("id");
        ++read;
    }
    EXPECT_EQ(read, 14);
}

TEST(Chase, ThreadDialsAgainstCountingTurns) {
    for (int threads = 1; threads <= 60; ++threads) {
        for (int screw = 1; screw <= 16; ++screw) {
            for (int wheel = 1; wheel <= 64; wheel += 7) {
                for (int marks = 1; marks <= 16; ++marks) {
                    // k marks move the carriage by k wheel / (marks screw) in, which is so many leads
                    int every = 0;
                    for (int k = marks; k > 0; --k) {
                        every = k * wheel * threads % (marks * screw) == 0 ? k : every;
                    }
                    // a turn that is no whole number of leads makes one mark mean two things
                    const bool whole = wheel * threads % screw == 0;
                    ASSERT_EQ(thread_dial(127, 5LL * screw, 127, 5LL * threads, wheel, marks).every,
                              whole ? every : 0)
                        << threads << ' ' << screw << ' ' << wheel << ' ' << marks;
                }
            }
        }
    }
}

TEST(Chase, PropertiesOfTheSchedule) {
    std::mt19937_64 chance(20);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(chance);
    };
    for (int i = 0; i < 3000; ++i) {
        constexpr std::array kHalfAngles{14.5, 15.0, 27.5, 30.0, 45.0};
        constexpr std::array kInfeeds{Infeed::flank, Infeed::straight, Infeed::alternating};
        ChaseRequest request;
        request.internal = i % 2 == 0;
        request.equal_depths = i % 4 < 2;
        request.infeed = kInfeeds[static_cast<std::size_t>(i) % kInfeeds.size()];
        request.half_angle_deg = kHalfAngles[static_cast<std::size_t>(i) % kHalfAngles.size()];
        request.compound_deg = request.half_angle_deg - 0.5;
        request.pitch_mm = between(0.4, 6.0);
        const double half_angle = request.half_angle_deg * kDegree;
        const double height = request.pitch_mm / std::tan(half_angle) / 2.0;
        const double wide = 8.0 * request.pitch_mm;
        request.blank_mm = wide - (request.internal ? 1.25 * height : 0.0);
        request.pitch_diameter_mm = wide - 0.75 * height;
        const double lacks = 1.0 / std::sin(half_angle) - 1.0;  // of a round nose, in radii
        request.nose_radius_mm = (i % 5 == 0 ? 0.0 : between(0.001, 0.95)) * height / 2.0 / lacks;
        request.graduation_mm = between(0.005, 0.05);
        request.least_mm = between(0.01, 0.1);
        request.first_mm = std::max({between(0.1, 0.5), request.least_mm, request.graduation_mm});
        request.kc11_n_mm2 = between(300.0, 3000.0);
        request.mc = between(0.1, 0.4);
        ChaseSchedule found;
        std::string why;
        ASSERT_TRUE(evaluate(request, found, &why).ok()) << i << ' ' << why;
        const double lean = request.infeed == Infeed::flank ? std::cos(request.compound_deg * kDegree) : 1.0;
        // the dial adds up: whole lines, the remainder said, never past the pitch diameter
        EXPECT_NEAR(found.passes.back().line * request.graduation_mm - found.remainder_mm, found.travel_mm,
                    1e-9 * found.travel_mm);
        EXPECT_GT(found.remainder_mm, -request.graduation_mm);
        EXPECT_LE(found.remainder_mm, 0.0);
        EXPECT_NEAR(found.travel_mm * lean, found.depth_mm, 1e-12 * found.depth_mm);
        const int least =
            std::max(1, static_cast<int>(std::floor(request.least_mm / request.graduation_mm + 0.5)));
        int line = 0;
        std::size_t measured = 0;
        std::size_t shifted = 0;
        for (const ChasePass& pass : found.passes) {
            const int step = pass.line - line;
            ASSERT_GE(step, 1) << i;
            if (step > least) {  // no pass takes more than the limit unless it is the least that one may be
                EXPECT_LE(step * request.graduation_mm, request.first_mm * (1.0 + 1e-9)) << i;
                EXPECT_TRUE(request.equal_depths || pass.area_mm2 <= found.area_limit_mm2 * (1.0 + 1e-9))
                    << i;
            }
            EXPECT_GT(pass.force_n, 0.0);
            line = pass.line;
            measured += pass.measure ? 1U : 0U;
            shifted += pass.shift_mm != 0.0 ? 1U : 0U;
        }
        EXPECT_TRUE(measured == 1 || measured == 2) << i;
        EXPECT_TRUE(shifted == 0 || request.infeed == Infeed::alternating) << i;
    }
}

TEST(Chase, AForceLimitIsKeptOrRefused) {
    ChaseRequest request;
    request.pitch_mm = 2.0;
    request.blank_mm = 20.0;
    request.pitch_diameter_mm = 18.7;
    request.nose_radius_mm = 0.25;
    request.graduation_mm = 0.01;
    request.kc11_n_mm2 = 1500.0;
    request.mc = 0.25;
    const auto greatest = [](const ChaseSchedule& of) {
        return std::max_element(of.passes.begin(), of.passes.end(),
                                [](const ChasePass& a, const ChasePass& b) { return a.force_n < b.force_n; })
            ->force_n;
    };
    ChaseSchedule free;
    ASSERT_TRUE(evaluate(request, free).ok());
    request.force_limit_n = greatest(free) / 2.0;
    ChaseSchedule kept;
    ASSERT_TRUE(evaluate(request, kept).ok());
    EXPECT_LE(greatest(kept), request.force_limit_n);
    EXPECT_GT(kept.passes.size(), free.passes.size());
    EXPECT_EQ(kept.passes.back().line, free.passes.back().line);
    request.force_limit_n = 5.0;
    std::string why;
    EXPECT_FALSE(evaluate(request, kept, &why).ok());
    EXPECT_NE(why.find("force_limit_n 5 is not kept by even one line"), std::string::npos) << why;
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
