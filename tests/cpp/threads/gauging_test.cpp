// Sizes over wires: published tables and examples, inverses and limiting cases. The exact contact against an
// independent numerical one is in the Python tests.

#include "halfnut/threads/gauging.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "halfnut/schema.hpp"
#include "reference.hpp"

namespace halfnut::threads {
namespace {

using test::ReferenceRow;

constexpr double kIn = 25.4;

/// Half a unit of the last printed place.
double half_unit(const std::string& printed) {
    const std::size_t point = printed.find('.');
    const std::size_t places = point == std::string::npos ? 0 : printed.size() - point - 1;
    return 0.5 * std::pow(10.0, -static_cast<double>(places));
}

double pitch_in(const ReferenceRow& row) {
    return row.has("pitch_in") ? row.number("pitch_in") : 1.0 / row.number("tpi");
}

/// Our answer to a printed row, inches or degrees, and what the print itself may be off by.
struct Answer {
    double value = 0.0;
    double slack = 0.0;
};

/// M - E over the wire that touches at the pitch line, and over the ends of what rounds to the printed wire,
/// in.
std::array<double, 3> less_pitch(const ReferenceRow& row) {
    const double pitch = pitch_in(row) * kIn;
    const double e = row.number("pitch_diameter_in") * kIn;
    const double lead = row.number("lead_in") * kIn;
    const double a = row.number("half_angle_deg");
    const double best = best_wire_exact_mm(e, pitch, lead, a);
    const double wire = row.number("wire_in") * kIn;
    const double half = 0.000005 * kIn;  // five places
    EXPECT_NEAR(best / kIn, wire / kIn, 4.5e-5) << row.text("case_id");
    const auto over = [&](double w) {
        return (over_wires_exact_mm(e, e + pitch / 2.0, pitch, lead, a, w) - e) / kIn;
    };
    return {over(best), over(wire - half), over(wire + half)};
}

Answer answer(const ReferenceRow& row) {
    const std::string& quantity = row.text("quantity");
    const double pitch = pitch_in(row) * kIn;
    if (quantity == "groove_constant") {
        // a wire w adds w (1 + 1 / sin 30 deg) = 3 w
        return {-(over_wires_plain_mm(100.0, pitch, 30.0, 1.0) - 3.0) / kIn + 100.0 / kIn, 1e-9};
    }
    if (quantity == "best_wire") {
        // The Acme column is 0.51645 P with five places of 0.5164502.
        return {best_wire_mm(pitch, row.number("half_angle_deg")) / kIn, 2e-7};
    }
    if (quantity == "smallest_wire" || quantity == "largest_wire") {
        const double a = row.number("half_angle_deg");
        // An Acme thread: the crest stands P/4 above the pitch line.
        const double value = quantity == "largest_wire"
                                 ? largest_wire_mm(100.0, 100.0 - pitch / 2.0, pitch, a)
                                 : smallest_wire_mm(100.0, 100.0 - pitch / 2.0, pitch, a);
        return {value / kIn, 0.0};
    }
    if (quantity == "over_wires_less_pitch") {
        // Over the wire that touches at the pitch line, or over any that the print may have rounded to its
        // own.
        const std::array<double, 3> range = less_pitch(row);
        const double printed = row.number("printed");
        const double over_printed_wire = std::clamp(printed, range[1], range[2]);
        const bool best = std::abs(range[0] - printed) < std::abs(over_printed_wire - printed);
        return {best ? range[0] : over_printed_wire, 0.0};
    }
    if (row.text("form") == "helical groove") {
        const double e = 0.625;
        const double tan_b = 0.864 / (std::numbers::pi * e);
        // The print gives the normal half angle, 20 degrees.
        const double half_angle = std::atan(std::tan(20.0 * kDegree) * std::hypot(1.0, tan_b)) / kDegree;
        const InvoluteWorking work =
            over_wires_involute_working(e * kIn, 0.144 * kIn, 0.864 * kIn, half_angle, 0.07013 * kIn);
        const std::map<std::string, double> steps{
            {"tan_lead_angle", work.tan_lead_angle},
            {"lead_angle_deg", std::atan(work.tan_lead_angle) / kDegree},
            {"involute_f_deg", work.f_deg},
            {"involute_ta", work.t_a_mm / kIn},
            {"involute_hb_deg", work.h_b_deg},
            {"involute_inv_g", work.involute_g}};
        const auto step = steps.find(quantity);
        // Worked with the steps as printed, whose rounding carries 0.00001 in into the last line.
        return step != steps.end() ? Answer{step->second, 0.0} : Answer{work.over_wires_mm / kIn, 1e-5};
    }
    const double height = row.text("form") == "sharp V" ? 1.0 : 0.75;
    const double e = row.number("major_in") * kIn - height * std::sqrt(0.75) * pitch;
    // The print forms these rows with the constants 1.5155 and 1.7321, four places of 1.515544 and 1.732051.
    return {over_wires_plain_mm(e, pitch, 30.0, row.number("wire_in") * kIn) / kIn,
            (height == 1.0 ? 0.0000493 : 0.0000446) * pitch / kIn};
}

TEST(ThreeWire, PublishedRows) {
    const test::Reference reference("threads/three_wire.csv");
    std::map<std::string, int> counted;
    int excepted = 0;
    for (const ReferenceRow& row : reference.rows()) {
        if (row.has("excepted")) {
            ++excepted;
            continue;
        }
        const Answer ours = answer(row);
        const double printed = row.number("printed");
        EXPECT_NEAR(ours.value, printed, half_unit(row.text("printed")) + ours.slack + 1e-12)
            << row.text("case_id") << ' ' << row.text("quantity") << ": printed " << printed << ", ours "
            << ours.value;
        ++counted[row.text("role")];
    }
    EXPECT_EQ(counted["independent"], 71);
    EXPECT_EQ(counted["formula"], 51);
    EXPECT_EQ(excepted, 3);
    fmt::print("three wires: {} independent and {} formula rows agree, {} excepted\n", counted["independent"],
               counted["formula"], excepted);
}

// Why the excepted rows cannot stand, from their own print.
TEST(ThreeWire, ExceptedRowsContradictThemselves) {
    const test::Reference reference("threads/three_wire.csv");
    int wires = 0;
    for (const ReferenceRow& row : reference.rows()) {
        if (!row.has("excepted")) {
            continue;
        }
        if (row.text("case_id") == "US46") {
            EXPECT_LT(row.number("printed"), row.number("major_in"));
            continue;
        }
        // No wire that rounds to the printed one gives the printed size, by the print's formula (4) or
        // exactly.
        const double e = row.number("pitch_diameter_in") * kIn;
        const double a = row.number("half_angle_deg");
        const double greatest = (row.number("wire_in") + 0.000005) * kIn;
        const double involute =
            over_wires_involute_mm(e, pitch_in(row) * kIn, row.number("lead_in") * kIn, a, greatest) - e;
        EXPECT_LT(involute / kIn, row.number("printed") - 0.000005) << row.text("case_id");
        EXPECT_LT(less_pitch(row)[2], row.number("printed") - 0.000005) << row.text("case_id");
        ++wires;
    }
    EXPECT_EQ(wires, 2);
}

struct Case {
    double e;
    double major;
    double pitch;
    int starts;
    double half_angle;
};

const Case kCases[] = {
    {9.026, 10.0, 1.5, 1, 30.0},  {3.545, 4.0, 0.7, 1, 30.0},  {22.051, 24.0, 3.0, 3, 30.0},
    {18.0, 20.0, 4.0, 1, 15.0},   {18.0, 20.0, 4.0, 4, 15.0},  {22.86, 25.4, 5.08, 2, 14.5},
    {24.117, 25.4, 2.0, 1, 27.5}, {0.838, 1.0, 0.25, 1, 30.0}, {98.701, 100.0, 2.0, 1, 30.0},
};

TEST(ThreeWire, AtNoLeadEveryFormulaIsThePlainOne) {
    for (const Case& c : kCases) {
        const double wire = best_wire_mm(c.pitch, c.half_angle);
        const double plain = over_wires_plain_mm(c.e, c.pitch, c.half_angle, wire);
        EXPECT_NEAR(over_wires_lead_mm(c.e, c.pitch, 0.0, c.half_angle, wire), plain, 1e-13 * plain);
        EXPECT_NEAR(over_wires_normal_mm(c.e, c.pitch, 0.0, c.half_angle, wire), plain, 1e-13 * plain);
        EXPECT_NEAR(over_wires_exact_mm(c.e, c.major, c.pitch, 0.0, c.half_angle, wire), plain,
                    1e-13 * plain);
        EXPECT_NEAR(over_wires_held_mm(c.e, c.major, c.pitch, 0.0, c.half_angle, wire), plain, 1e-13 * plain);
        EXPECT_NEAR(best_wire_exact_mm(c.e, c.pitch, 0.0, c.half_angle), wire, 1e-13 * wire);
    }
}

TEST(ThreeWire, TheInverseGivesThePitchDiameterBack) {
    for (const Case& c : kCases) {
        const double lead = c.starts * c.pitch;
        const double best = best_wire_mm(c.pitch, c.half_angle);
        for (const double share : {0.97, 1.0, 1.1}) {
            const double wire = share * best;
            const double m = over_wires_exact_mm(c.e, c.major, c.pitch, lead, c.half_angle, wire);
            EXPECT_NEAR(pitch_diameter_from_wires_exact_mm(m, c.major, c.pitch, lead, c.half_angle, wire),
                        c.e, 1e-13 * c.e);
            const double m2 = over_wires_lead_mm(c.e, c.pitch, lead, c.half_angle, wire);
            EXPECT_NEAR(pitch_diameter_from_wires_lead_mm(m2, c.pitch, lead, c.half_angle, wire), c.e,
                        1e-13 * c.e);
            const double m1 = over_wires_plain_mm(c.e, c.pitch, c.half_angle, wire);
            EXPECT_NEAR(pitch_diameter_from_wires_plain_mm(m1, c.pitch, c.half_angle, wire), c.e,
                        1e-13 * c.e);
        }
        const double minor = c.e - 0.7 * (c.major - c.e);
        const double across = across_balls_exact_mm(c.e, minor, c.pitch, lead, c.half_angle, best);
        EXPECT_NEAR(pitch_diameter_from_balls_exact_mm(across, minor, c.pitch, lead, c.half_angle, best), c.e,
                    1e-13 * c.e);
    }
}

TEST(ThreeWire, AWireHeldAtTheLeadAngleNeverReadsLessThanAFreeOne) {
    for (const Case& c : kCases) {
        const double lead = c.starts * c.pitch;
        const double wire = best_wire_mm(c.pitch, c.half_angle);
        const double free = over_wires_exact_mm(c.e, c.major, c.pitch, lead, c.half_angle, wire);
        const double held = over_wires_held_mm(c.e, c.major, c.pitch, lead, c.half_angle, wire);
        EXPECT_GE(held, free);
        EXPECT_GT(over_wires_lead_mm(c.e, c.pitch, lead, c.half_angle, wire), free);
        EXPECT_LT(over_wires_plain_mm(c.e, c.pitch, c.half_angle, wire), free);
        EXPECT_LT(wire_tilt_deg(c.e, c.major, c.pitch, lead, c.half_angle, wire),
                  std::atan(lead / (std::numbers::pi * c.e)) / kDegree);
    }
}

TEST(ThreeWire, AtTheBestWireTheFlankAngleDoesNotMatter) {
    for (const Case& c : kCases) {
        const double wire = best_wire_mm(c.pitch, c.half_angle);
        const double right = over_wires_plain_mm(c.e, c.pitch, c.half_angle, wire);
        const double wrong = over_wires_plain_mm(c.e, c.pitch, c.half_angle + 0.1, wire);
        const double large = over_wires_plain_mm(c.e, c.pitch, c.half_angle + 0.1, 1.2 * wire) -
                             over_wires_plain_mm(c.e, c.pitch, c.half_angle, 1.2 * wire);
        EXPECT_LT(std::abs(wrong - right), 0.02 * std::abs(large));
    }
}

TEST(ThreeWire, OutOfTheUsableRangeIsRefusedWithTheNearestWire) {
    const auto message = [](double wire) -> std::string {
        try {
            (void)over_wires_exact_mm(9.026, 10.0, 1.5, 1.5, 30.0, wire);
        } catch (const DomainError& error) {
            return error.what();
        }
        return "";
    };
    EXPECT_EQ(message(0.866), "");
    EXPECT_EQ(message(0.75),
              "over_wires_exact_mm: wire_mm must be above about 0.7577 mm for this thread, got 0.75: it does "
              "not stand "
              "above the crest; best 0.8646 mm");
    EXPECT_EQ(message(1.6),
              "over_wires_exact_mm: wire_mm must be below about 1.515 mm for this thread, got 1.6: it rides "
              "on the edge "
              "of the crest; best 0.8646 mm");
    double out = 0.0;
    EXPECT_EQ(evaluate<OverWiresExact>(out, 9.026, 10.0, 1.5, 1.5, 30.0, 0.7),
              (Status{StatusCode::inconsistent, 0}));
    EXPECT_TRUE(std::isnan(out));
    EXPECT_THROW((void)over_wires_exact_mm(10.5, 10.0, 1.5, 1.5, 30.0, 0.866), DomainError);
    EXPECT_THROW((void)over_wires_involute_mm(10.0, 1.5, 0.0, 30.0, 0.866), DomainError);
    EXPECT_THROW((void)pitch_diameter_from_wires_plain_mm(1.0, 1.5, 30.0, 0.866), DomainError);
    EXPECT_THROW((void)across_balls_exact_mm(9.026, 8.376, 1.5, 1.5, 30.0, 1.4), DomainError);
    EXPECT_THROW((void)over_wires_plain_mm(9.026, 1.5, 30.0, kNaN), DomainError);
}

TEST(TwoBalls, PlainFormulaAtNoLead) {
    for (const Case& c : kCases) {
        const double ball = best_wire_mm(c.pitch, c.half_angle);
        const double minor = c.e - 0.7 * (c.major - c.e);
        EXPECT_NEAR(across_balls_exact_mm(c.e, minor, c.pitch, 0.0, c.half_angle, ball),
                    across_balls_plain_mm(c.e, c.pitch, c.half_angle, ball), 1e-13 * c.e);
    }
    EXPECT_NEAR(across_balls_skew_mm(9.459038, 1.5, 0.866), 9.491706, 1e-6);
}

// The textbooks' rule for half angle errors of metric threads, per minute of arc: 0.073 P K um with P in mm,
// K 3 for a flank that bears at the external crest (error below zero), 2 at the root.
TEST(FunctionalDiameter, ErrorsOfLeadAndAngle) {
    EXPECT_NEAR(pitch_error_equivalent_mm(-0.01, 30.0), 0.01732, 1e-5);
    const double h = std::sqrt(0.75) * 2.0;
    const double minute = 1.0 / 60.0;
    EXPECT_NEAR(flank_error_equivalent_mm(-minute, 0.0, 30.0, 3.0 * h / 8.0, h / 4.0) * 1000.0,
                0.073 * 2.0 * 3.0, 0.003);
    EXPECT_NEAR(flank_error_equivalent_mm(0.0, minute, 30.0, 3.0 * h / 8.0, h / 4.0) * 1000.0,
                0.073 * 2.0 * 2.0, 0.003);
    EXPECT_EQ(flank_error_equivalent_mm(0.0, 0.0, 30.0, 1.0, 1.0), 0.0);
    EXPECT_THROW((void)flank_error_equivalent_mm(-20.0, 0.0, 14.5, 1.0, 1.0), DomainError);
}

}  // namespace
}  // namespace halfnut::threads
