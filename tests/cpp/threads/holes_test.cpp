// Holes: published tap drills, limits by engagement, clearance holes and heads; the drill that is nearest.

#include "halfnut/threads/holes.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>

#include "halfnut/builtin.hpp"
#include "halfnut/quantity.hpp"
#include "halfnut/threads/hole_tables.hpp"
#include "reference.hpp"

namespace halfnut::threads {
namespace {

using test::Reference;
using test::ReferenceRow;

Thread read(std::string_view text) {
    return parse_thread(text, builtin());
}

TappingHole ask(std::string_view thread, TappingRequest request = {}, std::string_view set = {}) {
    request.thread = read(thread);
    const auto drills =
        drill_set(builtin(), set.empty() ? usual_drill_set(builtin(), request.thread.inch()) : set);
    return tapping_hole(builtin(), request, drills);
}

/// "#7", "F", "13/64", "1-1/32" or "0.221" in inches.
double drill_in(const std::string& text) {
    const bool letter = text.size() == 1 && text[0] >= 'A';
    const std::string written = letter ? "letter " + text : text[0] == '#' ? text : text + " in";
    return parse_length(written, builtin()).in();
}

TEST(Holes, WorkedFigures) {
    const Reference reference("threads/hole_formulas.csv");
    int count = 0;
    for (const ReferenceRow& row : reference.rows()) {
        const std::string& quantity = row.text("quantity");
        const double unit = row.text("unit") == "in" ? 25.4 : 1.0;
        double ours = 0.0;
        if (quantity == "tapping_hole") {
            ours = tapping_hole_mm(row.number("diameter") * unit, row.number("pitch") * unit,
                                   row.number("percent")) /
                   unit;
        } else if (quantity == "percent") {
            ours = thread_percent(row.number("diameter"), row.number("pitch"), row.number("hole"));
        } else if (quantity == "point_share") {
            ours = point_length_mm(1.0, row.number("angle_deg"));
        } else {
            ours = countersink_depth_mm(2.0, 1.0, row.number("angle_deg"));
        }
        const std::string& printed = row.text("printed");
        const auto point = printed.find('.');
        const auto places =
            point == std::string::npos ? 0.0 : static_cast<double>(printed.size() - point - 1);
        EXPECT_NEAR(ours, row.number("printed"), 0.5 * std::pow(10.0, -places) + 1e-9) << row.text("row");
        ++count;
    }
    EXPECT_EQ(count, 8);
}

TEST(Holes, LimitsByEngagement) {
    const Reference reference("threads/hole_limits.csv");
    int count = 0;
    for (const ReferenceRow& row : reference.rows()) {
        const Thread thread = read(row.text("thread"));
        TappingRequest request;
        request.engagement_mm = row.number("engagement_diameters") * thread.diameter_mm();
        const TappingHole hole = ask(row.text("thread"), request);
        // 3B is cut off after its places, 2B rounded.
        const bool cut_off = thread.internal_unified == 3;
        const double below = cut_off ? 0.001 : 0.0005;
        const double above = cut_off ? 1e-6 : 0.0005 + 1e-9;
        for (const auto& [column, ours] : {std::pair{"hole_min_in", hole.hole_min_mm / 25.4},
                                           std::pair{"hole_max_in", hole.hole_max_mm / 25.4}}) {
            if (row.has(column)) {
                EXPECT_GE(ours, row.number(column) - above) << row.line() << ' ' << column;
                EXPECT_LE(ours, row.number(column) + below + 1e-9) << row.line() << ' ' << column;
                ++count;
            }
        }
    }
    EXPECT_EQ(count, 15);
}

TEST(Holes, NumberAndLetterDrillsAgreeWithAnOpenTable) {
    const Reference reference("threads/drill_sizes.csv");
    int count = 0;
    for (const ReferenceRow& row : reference.rows()) {
        // the library keeps three places
        EXPECT_NEAR(drill_in(row.text("name")), row.number("diameter_in"), 0.0005 + 1e-9) << row.text("name");
        ++count;
    }
    EXPECT_EQ(count, 106);
}

TEST(Holes, ClearanceHolesAgreeWithAnOpenTable) {
    const Reference reference("threads/clearance_holes.csv");
    std::map<std::string, int> counted;
    for (const ReferenceRow& row : reference.rows()) {
        const std::string& excepted = row.text("excepted");
        if (excepted == "row") {
            ++counted["excepted"];
            continue;
        }
        const bool inch = row.text("unit") == "in";
        Thread thread = read(inch ? "1/4-20 UNC" : "M6");
        if (inch) {
            const std::string& size = row.text("size");
            thread.diameter_units = size[0] == '#'
                                        ? 600 + 130 * std::stoi(size.substr(1))
                                        : std::llround(parse_length(size + " in", builtin()).in() * 1e4);
        } else {
            thread.diameter_units = std::llround(std::stod(row.text("size").substr(1)) * 1e6);
        }
        for (const std::string column : {"close", "normal", "loose"}) {
            if (excepted.find(column) != std::string::npos) {
                ++counted["excepted"];
                continue;
            }
            const ClearanceHole hole = clearance_hole(builtin(), thread, clearance_fit(column));
            if (inch) {
                // The standard prints three places of the drill that makes the hole.
                EXPECT_NEAR(hole.hole_mm / 25.4, drill_in(row.text(column)), 0.0005 + 1e-9)
                    << row.text("size") << ' ' << column;
                EXPECT_NEAR(drill_in(std::string(hole.drill)), drill_in(row.text(column)), 1e-9)
                    << row.text("size") << ' ' << column;
            } else {
                EXPECT_DOUBLE_EQ(hole.hole_mm, row.number(column)) << row.text("size") << ' ' << column;
            }
            ++counted[row.text("unit")];
        }
    }
    EXPECT_EQ(counted["mm"], 144);
    EXPECT_EQ(counted["in"], 66);
    EXPECT_EQ(counted["excepted"], 24);
    fmt::print("clearance holes: {} metric, {} inch figures agree\n", counted["mm"], counted["in"]);
}

TEST(Holes, HeadsAgreeWithAnOpenTable) {
    const Reference reference("threads/screw_head_sizes.csv");
    std::map<std::string, int> counted;
    for (const ReferenceRow& row : reference.rows()) {
        const bool inch = row.text("unit") == "in";
        Thread thread = read(inch ? "1/4-20 UNC" : "M6");
        const std::string& size = row.text("size");
        if (!inch) {
            thread.diameter_units = std::llround(std::stod(size.substr(1)) * 1e6);
        } else {
            thread.diameter_units = size[0] == '#'
                                        ? 600 + 130 * std::stoi(size.substr(1))
                                        : std::llround(parse_length(size + " in", builtin()).in() * 1e4);
        }
        ScrewSeat seat;
        try {
            seat = screw_seat(builtin(), {thread, row.text("head"), 0.5 * thread.diameter_mm()});
        } catch (const NotTabulatedError&) {
            ++counted["not held"];
            continue;
        }
        const double unit = inch ? 25.4 : 1.0;
        const bool knurled = !inch && row.text("head") == "socket";
        EXPECT_GE(row.number("head_diameter") - seat.head_diameter_mm / unit, -5e-4) << size;
        EXPECT_LE(row.number("head_diameter") - seat.head_diameter_mm / unit, knurled ? 0.47 : 5e-4) << size;
        if (row.has("head_height")) {
            EXPECT_NEAR(seat.head_height_mm / unit, row.number("head_height"), 5e-4) << size;
            EXPECT_GT(seat.seat_diameter_mm / unit, row.number("head_diameter")) << size;
        }
        ++counted[row.text("unit") + row.text("head")];
    }
    EXPECT_EQ(counted["mmsocket"], 16);
    EXPECT_EQ(counted["insocket"], 18);
    EXPECT_EQ(counted["mmflat"], 9);
    EXPECT_EQ(counted["not held"], 4);
}

TEST(Holes, UsualTapDrills) {
    const Reference reference("threads/tap_drills.csv");
    int same = 0;
    int count = 0;
    for (const ReferenceRow& row : reference.rows()) {
        if (row.has("excepted")) {
            continue;
        }
        const Thread thread = read(row.text("thread"));
        const TappingHole hole = ask(row.text("thread"));
        const double soft = thread.inch() ? drill_in(row.text("soft")) * 25.4 : row.number("soft");
        const double percent = thread_percent(thread.diameter_mm(), thread.pitch_mm(), soft);
        EXPECT_GT(percent, 55.0) << row.text("thread");
        EXPECT_LT(percent, 96.0) << row.text("thread");
        same += std::abs(soft - hole.drill_mm) < 1e-6 ? 1 : 0;
        ++count;
    }
    EXPECT_EQ(count, 97);
    EXPECT_EQ(same, 96);
    fmt::print("tap drills for 75 per cent: {} of {} are those of an open table\n", same, count);
}

TEST(Holes, TheDrillIsTheNearest) {
    int count = 0;
    for (const std::string_view text :
         {"M3", "M6", "M6x0.75", "M10", "M24x2", "#4-40 UNC", "1/4-20 UNC", "3/8-24 UNF", "1-8 UNC"}) {
        for (const std::string_view set : {"metric", "fractional", "number", "inch", "metric+letter"}) {
            for (const double percent : {50.0, 65.0, 75.0, 80.0}) {
                TappingRequest request{.thread = read(text), .percent = percent};
                const auto drills = drill_set(builtin(), set);
                TappingHole hole;
                if (!evaluate(builtin(), request, drills, hole).ok()) {
                    continue;
                }
                const bool inside = hole.wanted_mm >= hole.hole_min_mm && hole.wanted_mm <= hole.hole_max_mm;
                double best = 1e9;
                double best_within = 1e9;
                for (const DrillSize& drill : drills) {
                    if (drill.diameter_mm >= request.thread.diameter_mm()) {
                        continue;
                    }
                    const double off = std::abs(drill.diameter_mm - hole.wanted_mm);
                    best = std::min(best, off);
                    if (drill.diameter_mm >= hole.hole_min_mm - 1e-9 &&
                        drill.diameter_mm <= hole.hole_max_mm + 1e-9) {
                        best_within = std::min(best_within, off);
                    }
                }
                const double wanted = inside && best_within < 1e9 ? best_within : best;
                EXPECT_NEAR(std::abs(hole.drill_mm - hole.wanted_mm), wanted, 1e-9) << text << ' ' << set;
                ++count;
            }
        }
    }
    EXPECT_EQ(count, 9 * 5 * 4 - 4 * 4);  // no number drill is large enough for four of the threads
}

TEST(Holes, SetsHoldWhatTheySay) {
    EXPECT_EQ(drill_set(builtin(), "number").size(), 97U);
    EXPECT_EQ(drill_set(builtin(), "letter").size(), 26U);
    const auto fractional = drill_set(builtin(), "fractional");
    EXPECT_EQ(fractional.size(), 112U + 16U + 20U);
    EXPECT_EQ(fractional[12].name, "13/64 in");
    EXPECT_DOUBLE_EQ(fractional[12].diameter_mm, 13.0 / 64.0 * 25.4);
    EXPECT_EQ(fractional.back().name, "3-1/2 in");
    const auto metric = drill_set(builtin(), "metric");
    EXPECT_EQ(metric.size(), 55U + 110U + 22U + 72U + 36U);  // 14.25 to 32 by quarters holds 72
    const auto inch = drill_set(builtin(), "inch");
    for (std::size_t i = 1; i < inch.size(); ++i) {
        EXPECT_GT(inch[i].diameter_mm, inch[i - 1].diameter_mm);
    }
    try {
        (void)drill_set(builtin(), "fraction");
        ADD_FAILURE();
    } catch (const NotTabulatedError& error) {
        EXPECT_NE(std::string(error.what()).find("did you mean 'fractional'"), std::string::npos);
    }
}

TEST(Holes, StrengthAndItsInverseMeet) {
    TappingRequest request;
    request.strength_ratio = 0.8;
    const TappingHole hole = ask("M10", request);
    const double back = strip_ratio(hole.wanted_mm, hole.minor_min_mm, 1.5, 8.862);
    EXPECT_NEAR(back, 0.8, 1e-12);
    EXPECT_NEAR(strip_ratio(5.0, 4.917, 1.0, 5.212), 0.94418, 5e-6);
    EXPECT_NEAR(hole_for_strip_ratio_mm(1.0, 4.917, 1.0, 5.212), 4.917, 1e-12);
}

TEST(Holes, OversizeAndForming) {
    TappingRequest usual;
    usual.oversize_mm = kNaN;
    const TappingHole hole = ask("1/4-20 UNC", usual);
    EXPECT_GT(hole.hole_mm, hole.drill_mm + 0.07);
    EXPECT_LT(hole.percent, thread_percent(6.35, 1.27, hole.drill_mm));
    RowRef row;
    EXPECT_NEAR(usual_oversize_mm(builtin(), 6.35, row), 0.1016, 1e-9);
    EXPECT_NEAR(usual_oversize_mm(builtin(), 0.1875 * 25.4, row), 0.0035 * 25.4, 1e-9);
    EXPECT_NEAR(usual_oversize_mm(builtin(), 0.1, row), 0.0015 * 25.4, 1e-9);

    TappingRequest forming;
    forming.form = true;
    const TappingHole formed = ask("M6", forming);
    EXPECT_GT(formed.hole_mm, 5.4);
    EXPECT_LT(formed.minor_mm, formed.hole_mm - 0.3);
    EXPECT_NEAR(thread_percent(6.0, 1.0, formed.minor_mm), formed.percent, 1e-9);
    EXPECT_TRUE(formed.has(HoleCaution::forming));
}

TEST(Holes, BlindDepths) {
    const TapLeadRow& plug = tap_lead(builtin(), "plug");
    const BlindRequest request{.pitch_mm = 1.0,
                               .hole_mm = 5.0,
                               .full_thread_mm = 12.0,
                               .chamfer_min = plug.threads_min,
                               .chamfer_max = plug.threads_max};
    const BlindHole hole = blind_hole(builtin(), request, &plug);
    EXPECT_DOUBLE_EQ(hole.drill_depth_mm, 12.0 + 5.0 + 2.0);
    EXPECT_DOUBLE_EQ(hole.tap_depth_mm, 17.0);
    EXPECT_NEAR(hole.total_depth_mm, 19.0 + 1.5022, 1e-4);
    BlindRequest back = request;
    back.full_thread_mm = kNaN;
    back.drill_depth_mm = hole.drill_depth_mm;
    EXPECT_DOUBLE_EQ(blind_hole(builtin(), back, &plug).full_thread_mm, 12.0);
    BlindRequest thin = request;
    thin.thickness_mm = 20.0;
    try {
        (void)blind_hole(builtin(), thin, &plug);
        ADD_FAILURE();
    } catch (const DomainError& error) {
        EXPECT_NE(std::string(error.what()).find("full thread must be below 11.5 mm"), std::string::npos)
            << error.what();
    }
    EXPECT_THROW((void)tap_lead(builtin(), "plugg"), NotTabulatedError);
}

TEST(Holes, SeatsAndWhatIsRefused) {
    const ScrewSeat bore = screw_seat(builtin(), {read("1/4-20 UNC"), "socket", 0.281 * 25.4});
    EXPECT_NEAR(bore.seat_diameter_mm / 25.4, 0.4375, 1e-9);
    EXPECT_NEAR(bore.depth_mm / 25.4, 0.25, 1e-9);
    const ScrewSeat sink = screw_seat(builtin(), {read("M6"), "flat", 6.6});
    EXPECT_DOUBLE_EQ(sink.seat_diameter_mm, 12.6);
    EXPECT_NEAR(sink.depth_mm, 3.0, 1e-9);
    const ScrewSeat deeper = screw_seat(builtin(), {read("M6"), "flat", 6.6, 0.2});
    EXPECT_NEAR(deeper.depth_mm, 3.2, 1e-9);
    EXPECT_NEAR(deeper.seat_diameter_mm, 13.0, 1e-9);
    EXPECT_THROW((void)screw_seat(builtin(), {read("M6"), "oval", 6.6}), NotTabulatedError);
    EXPECT_THROW((void)screw_seat(builtin(), {read("M7"), "flat", 7.6}), NotTabulatedError);
    EXPECT_THROW((void)screw_seat(builtin(), {read("M6"), "flat", 12.7}), DomainError);
    EXPECT_THROW((void)clearance_fit("snug"), DomainError);

    TappingRequest two{.percent = 75.0, .engagement_mm = 6.0};
    EXPECT_THROW((void)ask("M6", two), DomainError);
    TappingRequest far;
    far.engagement_mm = 18.5;
    EXPECT_THROW((void)ask("M6", far), DomainError);
    TappingRequest much{.percent = 101.0};
    EXPECT_THROW((void)ask("M6", much), DomainError);
    EXPECT_THROW((void)ask("#0-80 UNF", {}, "metric+nothing"), NotTabulatedError);
    EXPECT_THROW((void)ask("M80x6", {}, "metric"), NotTabulatedError);
    EXPECT_TRUE(ask("1/4-20 UNC", {}, "letter").has(HoleCaution::no_drill));
}

}  // namespace
}  // namespace halfnut::threads
