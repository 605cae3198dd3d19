// Chasing, as a question: the thread's sizes, the lathe's dials and the tool at hand become passes.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/cutting/chasing.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/machine/dial.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/wires.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;
using threads::PartLimits;
using threads::Side;

// Usual lines, first and least passes, in inches and in millimetres; rules of the trade, as cutting/rules has
// them.
constexpr double kLineIn = 0.001;
constexpr double kLineMm = 0.01;
constexpr double kTurnIn = 0.1;
constexpr double kTurnMm = 1.0;
constexpr double kFirstIn = 0.010;
constexpr double kFirstMm = 0.25;
constexpr double kLeastIn = 0.0015;
constexpr double kLeastMm = 0.04;
constexpr double kHardeningLeastIn = 0.002;  // of metal that hardens where it is rubbed
constexpr double kHardeningLeastMm = 0.05;
constexpr string_view kMildSteel = "1018";  // what the usual first pass is for
constexpr double kChipMm = 0.1;             // at which resistances are compared
constexpr double kSideClearanceDeg = 3.0;
constexpr double kRunOutPitches = 2.5;
constexpr double kGroovePitches = 3.5;
constexpr double kInnerGroovePitches = 5.2;
constexpr double kGrooveRadiusPitches = 0.5;
constexpr double kLessThanFlankDeg = 0.5;
constexpr double kRoundedMm = 1e-6;
constexpr double kSixty = 30.0;  // half of the angle whose noses are an eighth of the pitch
constexpr int kFirstWheel = 10;
constexpr int kLastWheel = 48;
constexpr std::size_t kMostWheels = 4;

bool has(double value) {
    return !std::isnan(value);
}
double or_else(double given, double usual) {
    return has(given) ? given : usual;
}

// ---- what is asked ----------------------------------------------------------------------------------------

using Rows = CutRows<ChaseAsk, kTurnArguments>;
#define ASKED(member, about) HALFNUT_ASKED(ChaseAsk, member, about)
constexpr std::array kAsked{
    ASKED(
        thread,
        "Thread by its designation, the external part where it has no class; or limits, such as those before "
        "coating.")
        .or_a("Part")
        .required()
        .leads(),
    Rows::machine.saying(
        "The lathe, whose dials, scale, leadscrew, change gears, thread dial and spindle steps are used."),
    ASKED(alloy,
          "The work's material: gives the force of each pass, a shallower first pass where it resists more "
          "than "
          "mild steel, and with a machine the spindle step.")
        .or_a("Alloy"),
    ASKED(
        infeed,
        "How the tool goes in: by the compound set over, by the cross slide, or by the cross slide with the "
        "compound shifting the tool.")
        .usually("flank"),
    ASKED(compound_deg, "Angle of the compound from square to the work, at most the flank's.")
        .in(between("compound_deg", 0.0, 75.0, "deg"))
        .usually("half a degree less than the flank's"),
    ASKED(blank_mm, "Turned or bored diameter.").above(0).usually("the middle of its limits"),
    ASKED(pitch_diameter_mm, "Pitch diameter to aim at.").above(0).usually("the middle of its limits"),
    ASKED(nose_radius_mm, "Radius of the tool's round nose.")
        .least(0)
        .usually("an eighth of the pitch outside at 60 degrees; of other forms the root's own"),
    ASKED(nose_flat_mm, "Width of the tool's flat nose.")
        .least(0)
        .usually(
            "an eighth of the pitch inside at 60 degrees; of other forms what leaves the root's diameter"),
    ASKED(first_mm, "Greatest first pass along the slide.")
        .above(0)
        .usually("0.010 in or 0.25 mm, less in a tough alloy"),
    ASKED(least_mm, "Least later pass along the slide.").above(0).usually("0.0015 in or 0.04 mm"),
    ASKED(equal_depths, "Passes of one depth, not of one chip area."),
    ASKED(force_limit_n, "Force that no pass may go above, such as 300 N; needs an alloy.")
        .above(0)
        .with_unit(),
    ASKED(run_out_mm, "Free way between the end of the thread and a shoulder; none where it is nothing.")
        .least(0)
        .usually("2.5 pitches"),
    ASKED(reaction_s, "Time for opening the half nut: 0.5 s is brisk, 1 s safe.")
        .above(0)
        .usually("the machine file's, else 1 s"),
    ASKED(wire_mm, "Wires at hand, or of an internal thread the balls.")
        .above(0)
        .usually("the nearest of the set"),
    Rows::tool,
    ASKED(cut.length_mm, "Length of the thread; without it there is no time.")
        .in(range_in(kTurnArguments, "length_mm")),
    Rows::chuck,
    Rows::stock,
    Rows::bar_length,
    Rows::bar_behind,
    Rows::stick_out,
    ASKED(sections,
          "Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter "
          "and, of a tube, bore of each section.")
        .or_a("Section")
        .as_length()
        .finer(),
    ASKED(cut_at_mm, "Where on the sections the thread begins, from the end that is free.")
        .least(0)
        .usually("the end")
        .finer(),
    ASKED(cut.hold, "How the work is held."),
};
#undef ASKED

// ---- what is answered -------------------------------------------------------------------------------------

#define FIGURE(member, about) HALFNUT_FIGURE(ChasedPass, member, about)
constexpr std::array kPassFigures{
    FIGURE(number, "Which pass it is."),
    FIGURE(pass.line, "Lines of the dial from touching the blank."),
    FIGURE(pass.travel_mm, "The same along the slide.").always(),
    FIGURE(pass.depth_mm, "Depth of the tip below the blank.").always(),
    FIGURE(
        pass.shift_mm,
        "Shift of the tool along the work, for infeed from flank to flank; above zero towards the headstock.")
        .always(),
    FIGURE(pass.force_n, "Force of the pass."),
    FIGURE(pass.pitch_diameter_mm, "Pitch diameter after it.").always(),
    FIGURE(over_wires_mm, "Reading over wires or across balls, where they touch."),
    FIGURE(left_mm, "What is left on the pitch diameter, to the size that is aimed at.").always(),
    FIGURE(left_lines, "The same in lines.").always(),
    FIGURE(pass.measure, "Whether to measure after it."),
    FIGURE(turns, "Whole turns of the handle from touching."),
    FIGURE(dial, "Line of the dial beyond those turns."),
    FIGURE(at, "Where the dial stands, in words."),
};
#undef FIGURE
constexpr RecordRow kPassRecord{
    "ChasePass", "One pass: where the dial stands, and what the thread measures after it.", kPassFigures};

#define FIGURE(member, about) HALFNUT_FIGURE(GaugePlane, member, about)
constexpr std::array kPlaneFigures{
    FIGURE(compound_setting_deg, "Setting of the taper attachment from the axis.").always(),
    FIGURE(taper_on_diameter, "Taper on the diameter.").always(),
    FIGURE(hand_engagement_mm, "Distance of the gauge plane from the end.").always(),
    FIGURE(tolerance_turns, "Turns that the gauge may stand off either way.").always(),
    FIGURE(thread_height_mm, "Height of the thread.").always(),
};
#undef FIGURE
constexpr RecordRow kPlaneRecord{"GaugePlane", "Where a taper thread is cut and gauged.", kPlaneFigures};

#define FIGURE(member, about) HALFNUT_FIGURE(ChaseAnswer, member, about)
constexpr std::array kFigures{
    FIGURE(thread, "Part that is cut."),
    FIGURE(side, "Which part it is."),
    FIGURE(unit, "Unit of the dial."),
    FIGURE(infeed, "How the tool goes in."),
    FIGURE(slide, "Slide that feeds in."),
    FIGURE(line_mm, "Travel of the slide for one line of its dial.").always(),
    FIGURE(compound_deg, "Angle of the compound from square to the work's axis."),
    FIGURE(compound_marked_deg, "The same as this lathe's own scale reads it."),
    FIGURE(blank_mm, "Turned or bored diameter.").always(),
    FIGURE(pitch_diameter_mm, "Pitch diameter that is aimed at.").always(),
    FIGURE(pitch_max_mm, "Greatest pitch diameter.").always(),
    FIGURE(pitch_min_mm, "Least pitch diameter.").always(),
    FIGURE(half_angle_deg, "Angle of a flank.").always(),
    FIGURE(nose_radius_mm, "Radius of a round nose; nothing of a flat one.").always(),
    FIGURE(nose_flat_mm, "Width of a flat nose; nothing of a round one.").always(),
    FIGURE(root_mm, "Diameter at the bottom of the groove.").always(),
    FIGURE(schedule.depth_mm, "Depth of the tip below the blank.").always(),
    FIGURE(schedule.travel_mm, "Travel of the slide to there.").always(),
    FIGURE(cross_travel_mm, "Travel of the cross slide straight in for the same depth.").always(),
    FIGURE(schedule.remainder_mm, "What of the travel the last line goes past; below zero it is left.")
        .always(),
    FIGURE(schedule.line_on_pitch_diameter_mm, "What one line takes off the pitch diameter.").always(),
    FIGURE(lead_mm, "Lead of the thread.").always(),
    FIGURE(starts, "Starts of the thread."),
    FIGURE(start_shift_mm,
           "Travel of the compound, set along the work, that moves the tool from one start to the next."),
    FIGURE(hand, "Hand of the thread: right or left."),
    FIGURE(lead_angle_deg, "Lead angle at the root.").always(),
    FIGURE(leading_clearance_deg, "Clearance of the tool's side towards which it is fed.").always(),
    FIGURE(trailing_clearance_deg, "Clearance of its other side.").always(),
    FIGURE(chamfer_mm, "Chamfer of the blank.").always(),
    FIGURE(run_out_mm, "Free way between the end of the thread and a shoulder.").always(),
    FIGURE(groove_width_mm, "Width of a groove before a shoulder.").always(),
    FIGURE(groove_diameter_mm, "Diameter at its bottom.").always(),
    FIGURE(groove_radius_mm, "Radius of its corners.").always(),
    FIGURE(spindle_rpm, "Spindle speed to set; needs a machine and an alloy."),
    FIGURE(spindle_positions, "Where levers and belts of the spindle stand."),
    FIGURE(stopping_rpm, "Fastest spindle speed at which a hand still opens the half nut in time."),
    FIGURE(stop_run_out_mm, "Run-out in which the slowest step could be stopped, where there is too little."),
    FIGURE(dial_every,
           "Which marks of the thread dial fit: every so-many-th; 0 where none does; none where no dial is "
           "known."),
    FIGURE(dial_marks, "Marks of the thread dial."),
    FIGURE(dial_wheels, "Where no mark fits: teeth of wheels for the thread dial that would."),
    HALFNUT_RECORD(ChaseAnswer, train, kGearTrainRecord,
                   "Change gears for the lead, where the lathe's file names its gears."),
    FIGURE(wire_mm, "Wires, or balls of an internal thread."),
    HALFNUT_RECORD(ChaseAnswer, taper, kPlaneRecord,
                   "Of a taper thread, whose diameters here are those in its gauge plane."),
    HALFNUT_RECORDS(ChaseAnswer, passes, kPassRecord, "The passes."),
    FIGURE(
        repeats,
        "Whether a pass is repeated at the same dial before measuring: not in metal that hardens where it is "
        "rubbed."),
    FIGURE(most_force_n, "The greatest force of a pass."),
    HALFNUT_RECORD(ChaseAnswer, cut, kCutRecord, "The cut at the speed of the window."),
    FIGURE(said, "The passes in one line."),
    FIGURE(spindle_said, "The spindle speed to set, with its levers."),
    FIGURE(feed_said, "Levers of the gearbox, and gears to change."),
    FIGURE(dial_said, "The slide, and the lines of its dial from touching, pass by pass."),
    FIGURE(good, "Reading at which the thread is within its limits."),
    FIGURE(stages, "From the first measurement on: the line, the reading, what is left."),
    FIGURE(steps, "What to do at the lathe, in order."),
    FIGURE(assumed, "What was not said and therefore taken."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What the figures rest on beside those of gears and cut."),
};
#undef FIGURE
constexpr std::array kChasingSays{
    SaidRow{"good", "{good}"},
    SaidRow{"blank", "{blank_mm}[{taper?} in the gauge plane]; tip goes {depth_mm} deep, root {root_mm}"},
    SaidRow{"pitch",
            "aim {pitch_diameter_mm}, limits {pitch_min_mm..pitch_max_mm}; last line leaves "
            "{passes.last.left_mm}"},
    SaidRow{"spindle", "{spindle_said}"},
    SaidRow{"feed", "{feed_said}"},
    SaidRow{"stop", "at most {stopping_rpm} to stop by hand"},
    SaidRow{"force", "at most {most_force_n} in a pass"},
    SaidRow{"dial", "{dial_said}"},
    SaidRow{"passes", "{spindle_said?}{said}"},
    SaidRow{"*stage", "stages"},
    SaidRow{"#", "steps"},
    SaidRow{"assumed", "{assumed}"},
    SaidRow{"load", "{said/load}"},
};
constexpr RecordRow kRecord{
    "Chasing",
    "How to chase a thread: sizes, settings, passes, readings; None where a figure does not apply.",
    kFigures,
    {},
    {"{said}", kChasingSays, "feed, dial, good, blank", true, "[{spindle_said}][{spindle_said!}{said}]"}};

// ---- how it is answered -----------------------------------------------------------------------------------

enum Size : std::size_t { major_max, major_min, pitch_max, pitch_min, minor_max, minor_min };

double size_of(const PartLimits& part, Size which, string_view name) {
    if (!has(part.mm[which])) {
        throw DomainError(fmt::format("{}: {} has no limit; give the size to cut", part.title(), name));
    }
    return part.mm[which];
}

/// What of the thread, the lathe and the question the steps below share.
struct Chased {
    const ChaseAsk& asked;
    const Catalogue& catalogue;
    const PartLimits& part;
    bool inner = false;
    double pitch_mm = kNaN;
    const machine::Slide* slide = nullptr;
    bool inch = false;  ///< of the dial
    int lines_around = 1;
    double reaction_s = 1.0;
};

std::string length_text(const Chased& at, double mm) {
    return spell(mm, FigureKind::length, at.inch ? UnitSystem::inch : UnitSystem::metric);
}

double root_radius_mm(const Chased& at) {
    const auto* const form = at.part.part ? std::get_if<threads::FormThread>(&at.part.part->thread) : nullptr;
    return form == nullptr ? 0.0 : threads::form_row(at.catalogue, *form).root_radius * at.pitch_mm;
}

void set_dial(Chased& at, ChaseAnswer& out) {
    if (at.slide == nullptr) {
        at.inch = at.part.inch;
        out.line_mm = at.inch ? kLineIn * kInchMm : kLineMm;
        at.lines_around = bounds::nearest((at.inch ? kTurnIn * kInchMm : kTurnMm) / out.line_mm, 1);
        out.assumed.push_back(fmt::format("a dial of {} a line, {} lines around",
                                          length_text(at, out.line_mm), at.lines_around));
    } else {
        at.inch = at.slide->marked_in_inch;
        out.line_mm = at.slide->graduation_mm / (at.slide->reads_diameter ? 2.0 : 1.0);
        at.lines_around = machine::lines_a_turn(*at.slide);
    }
    out.unit = unit_name(at.inch);
}

void set_nose(const Chased& at, ChaseAnswer& out) {
    if (has(at.asked.nose_radius_mm) || has(at.asked.nose_flat_mm)) {
        out.nose_radius_mm = or_else(at.asked.nose_radius_mm, 0.0);
        out.nose_flat_mm = or_else(at.asked.nose_flat_mm, 0.0);
        return;
    }
    if (const double radius = root_radius_mm(at); radius > 0.0) {
        out.nose_radius_mm = radius;
        out.assumed.push_back(fmt::format("a round nose of {}, the root's own", length_text(at, radius)));
        return;
    }
    if (at.part.sizes.half_angle_deg != kSixty || out.taper) {
        double root = at.inner ? at.part.mm[major_min] : at.part.mm[minor_max];
        if (out.taper) {
            root = out.pitch_diameter_mm +
                   (at.inner ? out.taper->thread_height_mm : -out.taper->thread_height_mm);
        }
        if (!has(root)) {
            throw DomainError(fmt::format("{}: give nose_radius or nose_flat, or the diameter of its root",
                                          at.part.title()));
        }
        out.nose_flat_mm =
            root_flat_mm(at.pitch_mm, out.pitch_diameter_mm, root, at.part.sizes.half_angle_deg);
        out.assumed.push_back(fmt::format("a flat nose of {}, which leaves the root at {}",
                                          length_text(at, out.nose_flat_mm), length_text(at, root)));
        return;
    }
    const double nose = at.pitch_mm / 8.0;
    (at.inner ? out.nose_flat_mm : out.nose_radius_mm) = nose;
    out.assumed.push_back(fmt::format("a {} nose of {}", at.inner ? "flat" : "round", length_text(at, nose)));
}

double slowest_rpm(const machine::Machine& lathe) {
    const machine::SpindleStep& step = lathe.spindle.front();
    return step.variable() ? step.rpm_low : step.rpm;
}

/// The step of the window that can also be stopped in time. Without an alloy none is named: how fast it may
/// be cut is not known.
void set_spindle(const Chased& at, const Asking& asking, ChaseAnswer& out) {
    const ChaseAsk& asked = at.asked;
    if (asked.machine == nullptr) {
        return;
    }
    const double slowest = slowest_rpm(*asked.machine);
    // a left-hand thread starts in the groove and runs out at the free end
    if (out.hand == "right" && slowest > out.stopping_rpm) {
        out.told.push_back({"chase_cannot_stop", 0.0, {}});
        out.stop_run_out_mm = slowest * out.lead_mm * at.reaction_s / 60.0;
    }
    if (asked.alloy.empty()) {
        return;
    }
    LatheAsk cut;
    cut.cut = asked.cut;
    cut.cut.diameter_mm = at.part.diameter_mm();
    cut.alloy = asked.alloy;
    cut.tool = asked.tool;
    cut.machine = asked.machine;
    cut.chuck = asked.chuck;
    cut.stock = asked.stock;
    cut.sections = asked.sections;
    cut.cut_at_mm = asked.cut_at_mm;
    cut.pitch_mm = out.lead_mm;
    out.cut = thread_speed(cut, asking);
    if (at.inner) {  // the bar is what gives way, not the work
        std::erase_if(out.cut->told, [](const Told& each) { return each.code == "slender"; });
    }
    out.spindle_rpm = out.cut->cut.spindle_rpm;
    if (has(out.stopping_rpm)) {
        const double stops = machine::choose_spindle(*asked.machine, out.stopping_rpm, out.stopping_rpm).rpm;
        out.spindle_rpm = std::min(out.spindle_rpm, stops);
    }
    const std::size_t step = machine::choose_spindle(*asked.machine, out.spindle_rpm, out.spindle_rpm).step;
    for (const machine::Position& each : asked.machine->spindle[step].positions) {
        out.spindle_positions.emplace_back(each.control, each.setting);
    }
}

/// Specific cutting force at a chip of a tenth of a millimetre.
double resistance(const ForceConstants& constants) {
    return specific_cutting_force_n_mm2(constants.kc11_n_mm2, constants.mc, kChipMm);
}

ChaseSchedule schedule_of(const Chased& at, ChaseAnswer& out) {
    const ChaseAsk& asked = at.asked;
    ChaseRequest request;
    request.internal = at.inner;
    request.infeed = asked.infeed;
    request.equal_depths = asked.equal_depths;
    request.blank_mm = out.blank_mm;
    request.pitch_diameter_mm = out.pitch_diameter_mm;
    request.pitch_mm = at.pitch_mm;
    request.half_angle_deg = out.half_angle_deg;
    request.nose_radius_mm = out.nose_radius_mm;
    request.nose_flat_mm = out.nose_flat_mm;
    request.compound_deg = or_else(asked.compound_deg, out.half_angle_deg - kLessThanFlankDeg);
    request.graduation_mm = out.line_mm;
    request.first_mm = or_else(asked.first_mm, at.inch ? kFirstIn * kInchMm : kFirstMm);
    request.least_mm = or_else(asked.least_mm, at.inch ? kLeastIn * kInchMm : kLeastMm);
    request.force_limit_n = asked.force_limit_n;
    if (!asked.alloy.empty()) {
        const material::AlloyRow& metal = material::find_alloy(at.catalogue, asked.alloy);
        if (material::has_word(metal.traits, "work_hardening")) {
            out.repeats = false;
            request.least_mm =
                or_else(asked.least_mm, at.inch ? kHardeningLeastIn * kInchMm : kHardeningLeastMm);
            out.evidence.push_back(rests_on("passes", rule::chase_hardening, at.catalogue));
        }
        const auto constants_of = [&](string_view alloy) {
            return force_constants(at.catalogue, material::find_alloy(at.catalogue, alloy), kNaN);
        };
        const ForceConstants constants = constants_of(asked.alloy);
        request.kc11_n_mm2 = constants.kc11_n_mm2;
        request.mc = constants.mc;
        const double share = resistance(constants_of(kMildSteel)) / resistance(constants);
        if (!has(asked.first_mm) && !has(asked.force_limit_n) && share < 1.0) {
            request.first_mm = std::max({request.first_mm * share, request.least_mm, out.line_mm});
            out.evidence.push_back(rests_on("passes", rule::chase_alloy, at.catalogue));
        }
    }
    ChaseSchedule found;
    std::string why;
    if (!evaluate(request, found, &why).ok()) {
        throw DomainError(why);
    }
    return found;
}

/// The bottom of the groove must clear the crest of the mate, and leave the root that the standard asks for.
void judge_root(const Chased& at, ChaseAnswer& out) {
    const PartLimits& part = at.part;
    const bool binds = at.inner ? out.root_mm < part.mm[major_min] - kRoundedMm
                                : out.root_mm > part.mm[minor_max] + kRoundedMm;
    if (binds) {
        out.told.push_back({"chase_root_binds", 0.0, {}});
    } else if (!at.inner && !part.inch && out.root_mm < part.mm[minor_min] - kRoundedMm) {
        out.told.push_back({"chase_root_deep", 0.0, {}});
    }
}

/// Wires over an external thread, balls in an internal one; NaN where none measure it and none were asked
/// for.
double wire_of(const Chased& at, bool tapers) {
    const double wire = at.asked.wire_mm;
    if (tapers) {
        if (has(wire)) {
            throw DomainError(
                fmt::format("wire: {} tapers; it is tried with its gauge, not over wires", at.part.title()));
        }
        return kNaN;
    }
    threads::WireRequest request = threads::wire_request(at.part);
    request.wire_mm = wire;
    threads::OverWires found;
    std::string why;
    if (!threads::evaluate(at.catalogue, request, found, &why).ok()) {
        if (has(wire)) {
            throw DomainError(why);
        }
        return kNaN;
    }
    return found.wire_mm;
}

/// Reading at a pitch diameter; NaN where the wires do not touch.
double reading_mm(const Chased& at, const ChaseAnswer& out, double pitch_diameter_mm) {
    if (!has(out.wire_mm)) {
        return kNaN;
    }
    const auto size = at.inner ? &threads::across_balls_exact_mm : &threads::over_wires_exact_mm;
    try {
        return size(pitch_diameter_mm, out.blank_mm, at.pitch_mm, out.lead_mm, out.half_angle_deg,
                    out.wire_mm);
    } catch (const DomainError&) {
        return kNaN;
    }
}

void set_passes(const Chased& at, ChaseAnswer& out) {
    for (const ChasePass& each : out.schedule.passes) {
        ChasedPass pass;
        pass.number = static_cast<int>(out.passes.size()) + 1;
        pass.pass = each;
        pass.over_wires_mm = reading_mm(at, out, each.pitch_diameter_mm);
        pass.left_mm = std::abs(each.pitch_diameter_mm - out.pitch_diameter_mm);
        pass.left_lines = pass.left_mm / out.schedule.line_on_pitch_diameter_mm;
        pass.turns = each.line / at.lines_around;
        pass.dial = each.line % at.lines_around;
        out.most_force_n = has(each.force_n) ? std::fmax(out.most_force_n, each.force_n) : out.most_force_n;
        out.passes.push_back(pass);
    }
    const double last = out.passes.back().pass.pitch_diameter_mm;
    if (!(out.pitch_min_mm <= last && last <= out.pitch_max_mm)) {
        out.told.push_back({"chase_line_too_coarse", 0.0, {}});
    }
}

/// How often a mark of the thread dial fits, and wheels that would do where none does.
void set_thread_dial(const Chased& at, const machine::Ratio& lead, ChaseAnswer& out) {
    if (at.asked.machine == nullptr) {
        return;
    }
    const machine::Threading& threading = at.asked.machine->threading;
    if (threading.dial_marks == 0 || !has(threading.dial_threads_per_turn) || !has(threading.lead_mm)) {
        return;
    }
    const machine::Ratio screw = machine::simplest_ratio(threading.lead_mm);
    if (screw.num == 0) {
        throw DomainError(fmt::format("leadscrew must be a ratio of terms up to ten million, got {:g} mm",
                                      threading.lead_mm));
    }
    const auto every = [&](int wheel) {
        return thread_dial(screw.num, screw.den, lead.num, lead.den, wheel, threading.dial_marks).every;
    };
    out.dial_every = every(bounds::nearest(threading.dial_threads_per_turn, 1));
    out.dial_marks = threading.dial_marks;
    for (int wheel = kFirstWheel; out.dial_every == 0 && wheel <= kLastWheel; ++wheel) {
        if (out.dial_wheels.size() < kMostWheels && every(wheel) != 0) {
            out.dial_wheels.push_back(wheel);
        }
    }
}

/// The best train of the lathe's own gears; none where its file names none, or nothing comes near.
void set_train(const Chased& at, const LeadWanted& lead, const Asking& asking, ChaseAnswer& out) {
    const machine::Machine* const lathe = at.asked.machine;
    if (lathe == nullptr || lathe->threading.gears.empty() || !has(lathe->threading.lead_mm)) {
        return;
    }
    GearAsk gears;
    gears.lead = lead;
    gears.machine = lathe;
    gears.most = 1;
    GearTrainsAnswer found = gear_train(gears, asking);
    if (!found.trains.empty()) {
        out.train = std::move(found.trains.front());
    }
}

void set_compound(const Chased& at, ChaseAnswer& out) {
    constexpr double kSquare = 90.0;
    out.slide = at.asked.infeed == Infeed::flank ? "compound" : "cross slide";
    if (at.asked.infeed != Infeed::flank) {
        return;
    }
    out.compound_deg = or_else(at.asked.compound_deg, out.half_angle_deg - kLessThanFlankDeg);
    const machine::CompoundZero zero =
        at.asked.machine == nullptr ? machine::CompoundZero::none : at.asked.machine->compound_zero;
    out.compound_marked_deg =
        zero == machine::CompoundZero::along_axis ? kSquare - out.compound_deg : out.compound_deg;
    if (zero == machine::CompoundZero::none) {
        out.assumed.emplace_back("a scale that reads 0 with the compound square to the work");
    }
}

void set_clearances(const Chased& at, ChaseAnswer& out) {
    const double sign = at.inner ? 2.0 : -2.0;
    out.root_mm = out.blank_mm + sign * out.schedule.depth_mm;
    out.lead_angle_deg = threads::lead_angle_deg(out.lead_mm, at.inner ? out.blank_mm : out.root_mm);
    out.leading_clearance_deg = std::ceil(out.lead_angle_deg + kSideClearanceDeg);
    out.trailing_clearance_deg = std::fmax(1.0, std::floor(kSideClearanceDeg - out.lead_angle_deg));
    out.chamfer_mm = out.schedule.depth_mm;
    out.cross_travel_mm = out.schedule.depth_mm;
    out.groove_width_mm = (at.inner ? kInnerGroovePitches : kGroovePitches) * at.pitch_mm;
    out.groove_diameter_mm = out.blank_mm + sign * (out.schedule.depth_mm + 2.0 * out.line_mm);
    out.groove_radius_mm = kGrooveRadiusPitches * at.pitch_mm;
}

/// The gauge plane of a taper thread, what it rests on and what it cautions of.
void set_taper(const Chased& at, const threads::AnyThread& thread, ChaseAnswer& out) {
    const threads::TaperPipe pipe = threads::taper_pipe(at.catalogue, thread);
#define FIGURE(name) pipe.figures[figure_index(threads::kTaperPipeFigures, name)]
    out.taper =
        GaugePlane{FIGURE("compound_setting_deg"), FIGURE("taper_on_diameter"), FIGURE("hand_engagement_mm"),
                   FIGURE("tolerance_turns"), FIGURE("thread_height_mm")};
#undef FIGURE
    append_evidence(pipe.evidence.items(), threads::kTaperPipeFigures, at.catalogue, out.evidence);
    out.assumed.push_back(fmt::format("limits that are {:g} turn{} of the gauge either way",
                                      out.taper->tolerance_turns,
                                      out.taper->tolerance_turns == 1.0 ? "" : "s"));
    if (std::any_of(out.evidence.begin(), out.evidence.end(),
                    [](const EvidenceText& each) { return each.kind == "memory"; })) {
        out.told.push_back({"from_memory", 0.0, {}});
    }
    out.told.push_back({"taper_pipe_seal", 0.0, {}});
}

void rest(const Chased& at, ChaseAnswer& out) {
    constexpr std::array kRests{
        std::pair{string_view("depth_mm"), rule::chase_depth},
        std::pair{string_view("passes"), rule::chase_area},
        std::pair{string_view("passes"), rule::chase_first},
        std::pair{string_view("passes"), rule::chase_measure},
        std::pair{string_view("pitch_diameter_mm"), rule::chase_aim},
        std::pair{string_view("compound_deg"), rule::chase_compound},
        std::pair{string_view("nose_radius_mm"), rule::chase_nose},
        std::pair{string_view("run_out_mm"), rule::chase_run_out},
        std::pair{string_view("stopping_rpm"), rule::chase_stop},
        std::pair{string_view("dial_every"), rule::chase_dial},
    };
    std::vector<EvidenceText> all;
    all.reserve(kRests.size() + out.evidence.size());
    for (const auto& [name, of] : kRests) {
        all.push_back(rests_on(name, of, at.catalogue));
    }
    all.insert(all.end(), out.evidence.begin(), out.evidence.end());
    append_evidence(at.catalogue, at.part, all);
    out.evidence = std::move(all);
}

}  // namespace

ChaseAnswer chase(const ChaseAsk& asked, const Asking& asking) {
    const PartLimits part = cut_limits(asking.catalogue, asked.thread);
    const LeadWanted lead = lead_of(asking.catalogue, part);
    const bool tapers = part.part && threads::tapers(part.part->thread);
    Chased at{asked, asking.catalogue, part, part.side == Side::internal, part.sizes.pitch_mm};
    at.reaction_s = or_else(asked.reaction_s, asked.machine == nullptr ? 1.0 : asked.machine->half_nut_s);
    if (asked.machine != nullptr) {
        at.slide = machine::find_slide(*asked.machine, asked.infeed == Infeed::flank ? "compound" : "cross");
    }
    ChaseAnswer out;
    out.thread = part.title();
    out.side = part.side;
    out.infeed = asked.infeed;
    out.half_angle_deg = part.sizes.half_angle_deg;
    out.lead_mm = lead.mm.value();
    out.starts = part.sizes.starts;
    out.start_shift_mm = out.starts > 1 ? at.pitch_mm : kNaN;
    out.hand = part.sizes.left_hand ? "left" : "right";
    set_dial(at, out);
    const double crest_high =
        at.inner ? size_of(part, minor_max, "minor max") : size_of(part, major_max, "major max");
    const double crest_low =
        at.inner ? size_of(part, minor_min, "minor min") : size_of(part, major_min, "major min");
    out.blank_mm = or_else(asked.blank_mm, (crest_high + crest_low) / 2.0);
    out.pitch_max_mm = size_of(part, pitch_max, "pitch max");
    out.pitch_min_mm = size_of(part, pitch_min, "pitch min");
    out.pitch_diameter_mm = or_else(asked.pitch_diameter_mm, (out.pitch_max_mm + out.pitch_min_mm) / 2.0);
    if (tapers) {
        set_taper(at, part.part->thread, out);
    }
    set_nose(at, out);
    out.run_out_mm = or_else(asked.run_out_mm, kRunOutPitches * at.pitch_mm);
    if (out.run_out_mm > 0.0) {
        out.stopping_rpm = stopping_rpm(out.run_out_mm, out.lead_mm, at.reaction_s);
    }
    set_spindle(at, asking, out);
    out.schedule = schedule_of(at, out);
    set_clearances(at, out);
    judge_root(at, out);
    out.wire_mm = wire_of(at, tapers);
    set_passes(at, out);
    set_thread_dial(at, lead.mm, out);
    set_train(at, lead, asking, out);
    set_compound(at, out);
    if (!has(asked.run_out_mm)) {
        out.assumed.push_back(fmt::format("a run-out of {}", length_text(at, out.run_out_mm)));
    }
    rest(at, out);
    say(out);
    return out;
}

constinit const Question kChase = [] {
    Question out = question<ChaseAsk, ChaseAnswer, &chase>(
        "cutting", "chase",
        "How to cut a thread with a single point on a lathe: blank, settings, passes on the dial, readings.",
        kAsked, kRecord);
    out.sources = "Geometry of the thread form; the rules of the trade that the evidence names.";
    out.example =
        "chase \"7/8-14 UNF-2A\" --machine gap-bed --alloy 6061-T6\n"
        "chase M24x1.5-6g --machine metric-lathe --infeed straight --run-out 4mm";
    return out;
}();

}  // namespace halfnut::cutting
