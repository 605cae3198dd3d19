// A hole for a screw, as one question.

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/screw_hole.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/holes.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

constexpr double kStraightMm = 12.0;  // rule::drill_steps: drilled at once up to here
constexpr double kPilotShare = 0.25;  // of the drill: as wide as its web
constexpr double kSpotOverMm = 0.4;   // rule::spot_over: leaves a chamfer of 0.2 mm
constexpr string_view kNoHead = "none";

#define ASKED(member, about) HALFNUT_ASKED(ScrewHoleAsk, member, about)
constexpr std::array kAsked{
    alloy_row(ASKED(alloy, "")),
    ASKED(thread, "Thread of the screw.").or_a("Thread").required().leads(),
    ASKED(
        head,
        "Head of the screw: socket, flat, flat socket or flat 100 (inch), or none for a hole without a seat.")
        .usually("socket"),
    ASKED(fit, "Fit of the hole: close, normal or loose; fine, medium or coarse.").usually("normal"),
    ASKED(thickness_mm, "Thickness of the work, through which it is drilled; without it there is no time.")
        .above(0),
    ASKED(recess_mm, "How far the top of the head lies below the surface.").least(0).usually("flush"),
    ASKED(tool, "HSS, carbide, or a tool of the shop's tables.").usually("HSS").listing(&tool_names),
    ASKED(machine, "Machine whose levers to choose from; without one speed and feed are exact."),
};
#undef ASKED

#define FIGURE(member, about) HALFNUT_FIGURE(ScrewHole, member, about)
constexpr std::array kFigures{
    FIGURE(size, "Size of the screw."),
    FIGURE(unit, "Unit of its thread: in or mm."),
    FIGURE(alloy, "The work's material.").made("Alloy"),
    FIGURE(fit, "Fit, as the standard calls it."),
    FIGURE(hole_mm, "Diameter of the clearance hole.").always(),
    FIGURE(drill, "Drill that makes it."),
    FIGURE(head, "Head of the screw."),
    FIGURE(seat_mm, "Diameter of its seat at the surface."),
    FIGURE(seat_depth_mm, "Depth of the counterbore, or of the cone down to the hole."),
    FIGURE(seat_deg, "Angle of the cone; none of a counterbore."),
    FIGURE(spot_mm, "Diameter of the spot at the surface.").always(),
    FIGURE(point_mm, "How far the drill goes on past the far face, for its point.").always(),
    FIGURE(tapping_drill, "Drill for the part that the screw is turned into."),
    FIGURE(tapping_drill_mm, "Its diameter.").always(),
    HALFNUT_RECORD(ScrewHole, spot, kCutRecord, "Spotting."),
    HALFNUT_RECORDS(ScrewHole, drills, kCutRecord, "Drilling, in its steps."),
    HALFNUT_RECORD(ScrewHole, seat, kCutRecord, "Counterboring or countersinking."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kSays{
    SaidRow{"seat", "{seat.operation}[ {seat_deg:g}° to] {seat_mm:length}, {seat_depth_mm:length} deep"},
    SaidRow{"spot", "to {spot_mm:length}: {spot.answer}"},
    SaidRow{"drill", "{diameter_mm:length}: {answer}[; clear at {pecks_said}]", "drills"},
    SaidRow{"point", "goes {point_mm:length} on past the far face"},
    SaidRow{"{seat.operation}", "{seat.answer}"},
    SaidRow{"tapped", "the other part: drill {tapping_drill}"},
};
constexpr RecordRow kRecord{"ScrewHole",
                            "A hole for a screw: sizes, and the cuts in their order.",
                            kFigures,
                            {},
                            {"{size} {fit}: hole {hole_mm:length}, drill {drill}  ({alloy.title})", kSays,
                             "seat, drill, tapped", true}};

/// Diameters of the drills in their order: a wide hole has a pilot, but in metal that grabs.
std::vector<double> steps_of(double hole_mm, bool grabs, const Catalogue& catalogue, bool inch) {
    if (hole_mm <= kStraightMm || grabs) {
        return {hole_mm};
    }
    double pilot = kNaN;
    for (const threads::DrillSize& each :
         threads::drill_set(catalogue, threads::usual_drill_set(catalogue, inch))) {
        const double off = std::abs(each.diameter_mm - kPilotShare * hole_mm);
        if (std::isnan(pilot) || off < std::abs(pilot - kPilotShare * hole_mm)) {
            pilot = each.diameter_mm;
        }
    }
    return {pilot, hole_mm};
}

}  // namespace

ScrewHole screw_hole(const ScrewHoleAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const threads::ClearanceAnswer clear = threads::clearance_hole({asked.thread, asked.fit}, asking);
    ScrewHole out;
    out.size = clear.size;
    out.unit = clear.unit;
    out.fit = clear.fit;
    out.hole_mm = clear.hole_mm;
    out.drill = clear.drill;
    out.head = asked.head;
    out.evidence = clear.evidence;
    const bool inch = clear.unit == "in";
    Asking in_its_unit = asking;
    in_its_unit.inch = inch;
    const material::AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    out.alloy = alloy.id;
    threads::TappingAsk tapped;
    tapped.thread.is = asked.thread;
    const threads::TappingAnswer tap = threads::tapping_hole(tapped, asking);
    out.tapping_drill = tap.drill;
    out.tapping_drill_mm = tap.hole.drill_mm;

    HoleAsk cut;
    cut.alloy = asked.alloy;
    cut.tool = asked.tool;
    cut.machine = asked.machine;
    const bool grabs = in_group(catalogue, alloy, "brass");
    const std::vector<double> steps = steps_of(out.hole_mm, grabs, catalogue, inch);
    out.spot_mm = steps.front() + kSpotOverMm;
    HoleAsk one = cut;
    one.tool.clear();
    one.cut.diameter_mm = out.spot_mm;
    out.spot = spot(one, in_its_unit);
    out.point_mm = PointLength::compute(out.hole_mm, kPointDeg);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        one = cut;
        one.cut.diameter_mm = steps[i];
        one.cut.depth_mm = asked.thickness_mm;
        one.cut.pilot_mm = i == 0 ? kNaN : steps[i - 1];
        out.drills.push_back(drill(one, in_its_unit));
    }
    if (asked.head != kNoHead) {
        const threads::SeatAnswer seat =
            threads::screw_seat({asked.thread, asked.head, asked.fit, out.hole_mm, asked.recess_mm}, asking);
        out.seat_mm = seat.seat.seat_diameter_mm;
        out.seat_depth_mm = seat.seat.depth_mm;
        out.seat_deg = seat.seat.angle_deg;
        out.evidence.insert(out.evidence.end(), seat.evidence.begin(), seat.evidence.end());
        if (out.seat_depth_mm >= asked.thickness_mm) {
            throw DomainError(fmt::format("thickness must be above {}, the depth of the seat, got {}",
                                          size_text(out.seat_depth_mm, inch),
                                          size_text(asked.thickness_mm, inch)));
        }
        one = cut;
        one.tool.clear();
        one.cut.diameter_mm = out.seat_mm;
        one.cut.pilot_mm = out.hole_mm;
        if (std::isnan(out.seat_deg)) {
            one.cut.depth_mm = out.seat_depth_mm;
            out.seat = counterbore(one, in_its_unit);
        } else {
            one.cut.point_deg = out.seat_deg;
            out.seat = countersink(one, in_its_unit);
        }
    }
    out.evidence.push_back(rests_on("drills", rule::drill_steps, catalogue));
    out.evidence.push_back(rests_on("spot_mm", rule::spot_over, catalogue));
    return out;
}

constinit const Question kScrewHole = [] {
    Question out =
        question<ScrewHoleAsk, ScrewHole, &screw_hole>("cutting", "screw_hole",
                                                       "A hole for a screw in one answer: clearance, seat of "
                                                       "the head, spot, drills in steps, tapping drill.",
                                                       kAsked, kRecord);
    out.sources = "ISO 273, ASME B18.2.8 and the heads' standards as the rows of the evidence name them.";
    out.example =
        "screw-hole 6061-T6 M6 --thickness 12mm --machine bench-mill\n"
        "screw-hole 5083 \"1/4-20\" --head flat --thickness 3/8in --machine bench-mill";
    return out;
}();

}  // namespace halfnut::cutting
