// The questions of holes for screws: before tapping, blind, clearance, under a head, of taper pipe threads.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "answering.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/hole_tables.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/rules.hpp"

namespace halfnut::threads {

namespace {

using std::string_view;

constexpr double kRounding = 1e-9;  // mm

// ---- taper pipe -------------------------------------------------------------------------------------------

constexpr std::array kTaperAsked{
    HALFNUT_ASKED(TaperPipeAsk, thread, "Taper pipe thread by its designation: 1/2-14 NPT, R1/2, Rc1/2.")
        .or_a("Thread")
        .required()
        .leads(),
};

double pipe_figure(const TaperPipe& pipe, string_view name) {
    const auto found = std::find(kTaperPipeFigures.begin(), kTaperPipeFigures.end(), name);
    return pipe.figures[static_cast<std::size_t>(found - kTaperPipeFigures.begin())];
}
double thread_depth_mm(const TaperPipeAnswer& answer) {
    const double wrench = pipe_figure(answer.pipe, "wrench_length_mm");
    return pipe_figure(answer.pipe, "hand_engagement_mm") + (std::isnan(wrench) ? 0.0 : wrench);
}
double fewest_turns(const TaperPipeAnswer& answer) {
    return pipe_figure(answer.pipe, "hand_turns") - pipe_figure(answer.pipe, "tolerance_turns");
}
double most_turns(const TaperPipeAnswer& answer) {
    return pipe_figure(answer.pipe, "hand_turns") + pipe_figure(answer.pipe, "tolerance_turns");
}

template <std::size_t Place>
constexpr FigureRow pipe_row(string_view about) {
    return item_row<TaperPipeAnswer, kTaperPipeFigures, Place,
                    [](const TaperPipeAnswer& answer) -> const auto& { return answer.pipe.figures; }>(about);
}
#define FIGURE(member, about) HALFNUT_FIGURE(TaperPipeAnswer, member, about)
constexpr std::array kTaperFigures{
    FIGURE(thread, "Thread as it is designated."),
    FIGURE(unit, "Unit of its standard."),
    FIGURE(tpi, "Threads per inch.").always(),
    pipe_row<0>("Pitch diameter at the small end.").always(),
    pipe_row<1>("Pitch diameter in the gauge plane.").always(),
    pipe_row<2>("Pitch diameter where the effective thread ends."),
    pipe_row<3>("Pitch diameter at the end of the wrench make-up."),
    pipe_row<4>("Length of hand engagement: the gauge plane from the end.").always(),
    pipe_row<5>("Length of the effective thread."),
    pipe_row<6>("Length of the wrench make-up."),
    pipe_row<7>("Overall length, vanishing threads included."),
    pipe_row<8>("Length with full crests."),
    pipe_row<9>("Height of the thread.").always(),
    pipe_row<10>("Turns of hand engagement.").always(),
    pipe_row<11>("Tolerance of the gauge, turns either way.").always(),
    pipe_row<12>("Minor diameter at the mouth of the internal thread: a reamer's large end.").always(),
    pipe_row<13>("Minor diameter where the internal thread ends: the hole to drill before reaming.").always(),
    pipe_row<14>("Setting of the compound: half of the taper.").always(),
    pipe_row<15>("Taper on the diameter for a length of one.").always(),
    made_figure<&thread_depth_mm>(
        "depth_mm", "Depth of the thread in an internal part: hand engagement and wrench turns."),
    made_figure<&fewest_turns>("fewest_turns", "Fewest turns of hand engagement."),
    made_figure<&most_turns>("most_turns", "Most turns of hand engagement."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kTaperPipeSays{
    SaidRow{"pitch", "{pitch_small_end_mm:both} at the end, {pitch_gauge_plane_mm:both} at the plane"},
    SaidRow{"thread", "{effective_length_mm:both} effective, {pitch_effective_mm:both} there"},
    SaidRow{"overall", "{overall_length_mm:both} with the vanishing threads"},
    SaidRow{"height", "{thread_height_mm:both}"},
    SaidRow{"hole", "drill at most {hole_at_end_mm:both}, ream to {hole_at_face_mm:both} at the mouth"},
    SaidRow{"set",
            "compound or attachment at {compound_setting_deg:.4f} deg; attachment {12*taper_on_diameter:g} "
            "in per "
            "foot; tool square to the axis, not to the taper"},
};
constexpr RecordRow kTaperRecord{"TaperPipe",
                                 "What a taper pipe thread is cut and gauged to.",
                                 kTaperFigures,
                                 {},
                                 {"{thread}: {hand_turns:.2f} turns by hand, {fewest_turns:.1f} to "
                                  "{most_turns:.1f}; gauge plane {hand_engagement_mm} from the end",
                                  kTaperPipeSays, "hole, set"}};

// ---- drills -----------------------------------------------------------------------------------------------

constexpr string_view kSets =
    "Drills to choose from: sets joined by \"+\" (metric, fractional, number, letter, inch, or the shop's "
    "own), "
    "or the drills at hand.";

constexpr std::array kDrillSetAsked{
    HALFNUT_ASKED(DrillSetAsk, drills, kSets).or_a("Drills").as_length().required(),
};
constexpr std::array kDrillSetFigures{
    HALFNUT_FIGURE(DrillSetAnswer, names, "Their names."),
    HALFNUT_FIGURE(DrillSetAnswer, diameters_mm, "Their diameters."),
    HALFNUT_FIGURE(DrillSetAnswer, told, "What a person should know."),
    HALFNUT_FIGURE(DrillSetAnswer, evidence, "What they rest on."),
};
constexpr RecordRow kDrillSetRecord{"DrillSet",
                                    "Drills, smallest first.",
                                    kDrillSetFigures,
                                    {},
                                    {"{names.count} drills, {names.first} to {names.last}"}};

// ---- before tapping ---------------------------------------------------------------------------------------

constexpr const Argument& tapping(string_view key) {
    return range_in(kTappingArguments, key);
}
constexpr std::array kTappingAsked{
    HALFNUT_ASKED(TappingAsk, thread, "Thread by its designation, or limits of an internal part.")
        .or_a("Part")
        .required()
        .leads(),
    HALFNUT_ASKED(TappingAsk, percent,
                  "Per cent of thread wanted, of tap-drill tables; of other forms of their basic height.")
        .in(tapping("percent"))
        .usually("75, or 65 under a forming tap"),
    HALFNUT_ASKED(TappingAsk, engagement_mm, "Full-form length of engagement: small holes for short ones.")
        .in(tapping("engagement_mm")),
    HALFNUT_ASKED(TappingAsk, strength_ratio, "Share of the external thread's shear area to keep.")
        .called("strength")
        .in(tapping("strength_ratio")),
    HALFNUT_ASKED(TappingAsk, drills, kSets)
        .or_a("Drills")
        .as_length()
        .usually("the shop's own, or those of the thread's unit"),
    HALFNUT_ASKED(TappingAsk, oversize, "What the drill cuts over its own size: \"usual\", or a length.")
        .as_length()
        .usually("nothing"),
    HALFNUT_ASKED(TappingAsk, tap, "How the tap makes the thread; a forming tap wants a larger hole."),
};

/// A drill with its size in both units, each said once.
std::string drill_said(const TappingAnswer& answer) {
    const bool inch = answer.unit == "in";
    const double size = answer.hole.drill_mm;
    return answer.drill.ends_with(" " + answer.unit)
               ? fmt::format("{} ({})", answer.drill, halfnut::size_text(size, !inch))
               : fmt::format("{}, {}", answer.drill, both_sizes_text(size, inch));
}

/// The drills on either side of the hole that is wanted, with what each would leave of the thread.
std::optional<std::string> nearest_said(const TappingAnswer& answer) {
    std::string out;
    const auto say = [&](const std::optional<std::string>& name, double size, double share) {
        if (name && !std::isnan(share)) {
            const std::string known = name->ends_with(" " + answer.unit)
                                          ? ""
                                          : halfnut::size_text(size, answer.unit == "in") + ", ";
            out += fmt::format("{}{} ({}{:.0f} %)", out.empty() ? "" : " and ", *name, known, share);
        }
    };
    say(answer.below, answer.hole.below_mm, answer.hole.below_percent);
    say(answer.above, answer.hole.above_mm, answer.hole.above_percent);
    return out.empty() ? std::nullopt : std::optional(out);
}

#define FIGURE(member, about) HALFNUT_FIGURE(TappingAnswer, member, about)
constexpr std::array kTappingRows{
    FIGURE(thread, "Internal thread, with its class."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(tap, "How the tap makes the thread."),
    FIGURE(drill, "Drill to use; of a taper thread the one for a straight hole, tapped without reaming."),
    FIGURE(hole.drill_mm, "Diameter of that drill.").always(),
    FIGURE(below, "Next drill at or below the hole that is wanted."),
    FIGURE(above, "Next drill above it."),
    FIGURE(within, "Drill nearest to the wanted hole that keeps the limits."),
    FIGURE(hole.wanted_mm, "Hole that is wanted."),
    FIGURE(hole.wanted_percent, "Per cent of thread in the wanted hole."),
    FIGURE(hole.hole_mm, "Hole that the drill leaves."),
    FIGURE(hole.minor_mm, "Minor diameter once tapped."),
    FIGURE(hole.percent, "Per cent of thread reached."),
    FIGURE(hole.basic_percent, "Per cent of the basic height reached."),
    FIGURE(hole.strength_ratio, "Shear area of the external thread, over that in the smallest hole."),
    FIGURE(hole.hole_min_mm, "Least hole allowed."),
    FIGURE(hole.hole_max_mm, "Greatest hole allowed."),
    FIGURE(in_limits, "Whether the hole keeps its limits."),
    FIGURE(beside_limits,
           "By how much the hole misses its limits: 0.0001 in over; empty where it keeps them or has none."),
    FIGURE(hole.minor_min_mm, "Least minor diameter of the class."),
    FIGURE(hole.minor_max_mm, "Greatest minor diameter of the class."),
    FIGURE(hole.oversize_mm, "Oversize that was counted in."),
    FIGURE(hole.usual_oversize_mm, "Oversize that a drill this size usually cuts."),
    FIGURE(hole.below_mm, "Diameter of the drill below."),
    FIGURE(hole.below_percent, "Per cent of thread it would leave."),
    FIGURE(hole.above_mm, "Diameter of the drill above."),
    FIGURE(hole.above_percent, "Per cent of thread it would leave."),
    FIGURE(ream_drill, "Drill for a hole that a taper reamer then opens."),
    FIGURE(ream_drill_mm, "Diameter of that drill."),
    FIGURE(hole_at_face_mm, "Minor diameter at the mouth of a taper thread, which the reamer leaves."),
    FIGURE(hole_at_end_mm, "Minor diameter where a taper thread ends."),
    FIGURE(taper_on_diameter, "Taper on the diameter for a length of one."),
    FIGURE(hand_turns, "Turns that the gauge or the fitting goes in by hand."),
    made_figure<&drill_said>("drill_said", "The drill with its size in both units."),
    made_figure<&nearest_said>("nearest_said", "The drills on either side, with what each would leave."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kTappingSays{
    SaidRow{"reamed", "{hole_at_face_mm:both} at the mouth, {hole_at_end_mm:both} at the end"},
    SaidRow{"tap", "until the plug gauge, or the fitting, goes in {hand_turns:.1f} turns by hand"},
    SaidRow{"wanted", "{wanted_mm:both}, {wanted_percent:.0f} %"},
    SaidRow{"nearest", "{nearest_said}"},
    SaidRow{"limits", "{hole_min_mm..hole_max_mm:both}: [{beside_limits}][{beside_limits!}within]"},
    SaidRow{"minor", "{tap=form}about {minor_mm} once formed, limits {minor_min_mm..minor_max_mm}"},
    SaidRow{"hole", "{oversize_mm!=0}{hole_mm:both}, with {oversize_mm} of oversize"},
    SaidRow{"oversize", "{oversize_mm=0}a drill this size usually cuts {usual_oversize_mm} over: measure"},
    SaidRow{"strength",
            "{100*strength_ratio:.0f} % of the screw thread's shear area in the smallest hole; "
            "{basic_percent:.0f} % of the basic height"},
    SaidRow{"load", "{said/load}"},
};
}  // namespace

constinit const RecordRow kTappingRecord{
    "TappingHole",
    "The drill for a tapped hole, and what it leaves of the thread; a taper pipe thread has two, and no "
    "limits.",
    kTappingRows,
    {},
    {"{thread}: drill [{hand_turns?}{drill} straight, or {ream_drill} and ream 1:16]"
     "[{basic_percent?}{drill_said}: {percent:.0f} % of thread][{basic_percent?}{tap=form} formed]"
     "[{basic_percent!}{hand_turns!}{in_limits?}{drill}: {percent:.0f} % of the form's height]"
     "[{basic_percent!}{hand_turns!}{in_limits!}{drill}, then bore or ream to {wanted_mm:both}]",
     kTappingSays, "limits, nearest, reamed, tap"}};

namespace {

/// The largest drill of a set that is no larger than a hole.
const DrillSize& largest(const std::vector<DrillSize>& drills, double most_mm, const std::string& what) {
    constexpr double kSame = 1e-6;
    const auto above =
        std::upper_bound(drills.begin(), drills.end(), most_mm + kSame,
                         [](double size, const DrillSize& drill) { return size < drill.diameter_mm; });
    if (above == drills.begin()) {
        throw NotTabulatedError(
            fmt::format("no drill of the set is as small as {}, {:.3f} mm", what, most_mm));
    }
    return *(above - 1);
}

std::string said_limits(double low_mm, double high_mm, bool inch) {
    return spell_span(low_mm, high_mm, FigureKind::length, system_of(inch));
}

/// By per cent of thread, as tap-drill tables have it.
TappingAnswer tabulated_hole(const TappingAsk& asked, const Thread& thread, const PartLimits* own,
                             const std::vector<DrillSize>& drills, const Catalogue& catalogue) {
    TappingRequest request{.thread = thread,
                           .percent = asked.percent,
                           .engagement_mm = asked.engagement_mm,
                           .strength_ratio = asked.strength_ratio,
                           .form = asked.tap == TapKind::form,
                           .oversize_mm = asked.oversize.mm};
    if (own != nullptr) {
        request.limits = std::get<ThreadLimits>(own->standard);
    }
    TappingAnswer out;
    out.hole = tapping_hole(catalogue, request, drills);
    const auto name = [&](int place) {
        return place < 0 ? std::optional<std::string>() : drills[static_cast<std::size_t>(place)].name;
    };
    out.drill = *name(out.hole.chosen);
    out.below = name(out.hole.below);
    out.above = name(out.hole.above);
    out.within = name(out.hole.within);
    const Words words{{"percent", fmt::format("{:.0f}", out.hole.wanted_percent)},
                      {"within", out.within.value_or("")},
                      {"limits", said_limits(out.hole.hole_min_mm, out.hole.hole_max_mm, thread.inch())}};
    for (const auto& [caution, spelling] : enum_names(HoleCaution{})) {
        if (out.hole.has(caution)) {
            tell(out.told, spelling, words);
        }
    }
    append_evidence(out.hole.evidence.items(), kTappingFigures, catalogue, out.evidence);
    return out;
}

/// By the limits of the minor diameter; per cent is of the form's own basic height.
TappingAnswer form_hole(const PartLimits& inner, double percent, const std::vector<DrillSize>& drills,
                        const Catalogue& catalogue) {
    constexpr double kShare = 0.75;
    constexpr double kWhole = 100.0;
    const FormThread& thread = std::get<FormThread>(inner.part->thread);
    const double diameter = inner.diameter_mm();
    const double depth = diameter - basic_minor_diameter_mm(catalogue, thread);
    const SizeRange& minor = inner.sizes.minor;
    const auto share = [&](double size) { return kWhole * (diameter - size) / depth; };
    const auto kept = [&](double size) {
        return minor.min_mm - kRounding <= size && size <= minor.max_mm + kRounding;
    };
    const double wanted = std::isnan(percent) ? minor.min_mm + kShare * (minor.max_mm - minor.min_mm)
                                              : diameter - percent / kWhole * depth;
    const DrillSize* chosen = nullptr;
    for (const DrillSize& drill : drills) {
        if (kept(drill.diameter_mm) && (chosen == nullptr || std::abs(drill.diameter_mm - wanted) <
                                                                 std::abs(chosen->diameter_mm - wanted))) {
            chosen = &drill;
        }
    }
    TappingAnswer out;
    const Words limits{{"limits", said_limits(minor.min_mm, minor.max_mm, inner.inch)}};
    if (chosen != nullptr) {
        out.within = chosen->name;
    } else {
        chosen = &largest(drills, minor.min_mm, "the hole for " + inner.title());
        tell(out.told, "hole_no_drill", limits);
    }
    if (thread.lead_screw) {
        tell(out.told, "form_tap_set");
    }
    if (!kept(wanted)) {
        tell(out.told, "form_hole_outside", limits);
    }
    tell_of(out.told, catalogue, inner);
    out.drill = chosen->name;
    out.hole.drill_mm = out.hole.hole_mm = chosen->diameter_mm;
    out.hole.wanted_mm = wanted;
    out.hole.wanted_percent = share(wanted);
    out.hole.percent = share(chosen->diameter_mm);
    out.hole.hole_min_mm = out.hole.minor_min_mm = minor.min_mm;
    out.hole.hole_max_mm = out.hole.minor_max_mm = minor.max_mm;
    for (EvidenceText& each : evidence_of(catalogue, inner)) {
        if (each.figure.starts_with("minor_") || each.figure == "every size" || each.figure == "pitch_min") {
            out.evidence.push_back(std::move(each));
        }
    }
    if (std::isnan(percent)) {
        out.evidence.push_back(rests_on("wanted_mm", rule::form_hole, catalogue));
    }
    return out;
}

/// The drill for a straight hole, and the one before a taper reamer.
TappingAnswer taper_hole(const AnyThread& thread, const std::vector<DrillSize>& drills,
                         const Asking& asking) {
    const TaperPipeAnswer pipe = taper_pipe(TaperPipeAsk{thread}, asking);
    TappingAnswer out;
    out.hole_at_face_mm = pipe_figure(pipe.pipe, "hole_at_face_mm");
    out.hole_at_end_mm = pipe_figure(pipe.pipe, "hole_at_end_mm");
    out.taper_on_diameter = pipe_figure(pipe.pipe, "taper_on_diameter");
    out.hand_turns = pipe_figure(pipe.pipe, "hand_turns");
    const DrillSize& straight = largest(drills, out.hole_at_face_mm, "the hole for " + pipe.thread);
    const DrillSize& before =
        largest(drills, out.hole_at_end_mm, "the hole for " + pipe.thread + " before reaming");
    out.drill = straight.name;
    out.hole.drill_mm = straight.diameter_mm;
    out.ream_drill = before.name;
    out.ream_drill_mm = before.diameter_mm;
    tell(out.told, "taper_hole_straight");
    out.told.insert(out.told.end(), pipe.told.begin(), pipe.told.end());
    out.evidence = pipe.evidence;
    out.evidence.push_back(rests_on("drill_mm", rule::taper_drill, asking.catalogue));
    return out;
}

/// What has no rule in threads of other forms than ISO metric and Unified.
void refuse_unruled(const TappingAsk& asked) {
    std::string odd;
    const auto note = [&](bool is_given, string_view name) {
        odd += is_given ? fmt::format("{}{}", odd.empty() ? "" : ", ", name) : std::string();
    };
    note(!std::isnan(asked.engagement_mm), "engagement");
    note(!std::isnan(asked.strength_ratio), "strength");
    note(asked.oversize.mm != 0.0, "oversize");
    note(asked.tap != TapKind::cut, "tap");
    if (!odd.empty()) {
        throw DomainError(odd + ": there is no rule for it in threads of this form");
    }
}

// ---- blind ------------------------------------------------------------------------------------------------

constexpr const Argument& blind(string_view key) {
    return range_in(kBlindArguments, key);
}
constexpr std::array kBlindAsked{
    HALFNUT_ASKED(BlindAsk, thread, "Thread by its designation.").or_a("Thread").required().leads(),
    HALFNUT_ASKED(BlindAsk, full_thread_mm, "Length that is to have every thread full.")
        .in(blind("full_thread_mm")),
    HALFNUT_ASKED(BlindAsk, drilled_mm, "Depth at full diameter that is there already.")
        .in(blind("drill_depth_mm").called("drilled_mm")),
    HALFNUT_ASKED(BlindAsk, lead, "Lead of the tap: taper, plug, bottoming, or a form letter A to E.")
        .usually("plug"),
    HALFNUT_ASKED(BlindAsk, drill, "Drill that is used.")
        .or_a("Drill")
        .as_length()
        .usually("that of the tapping hole"),
    HALFNUT_ASKED(BlindAsk, point_deg, "Angle of the drill's point.")
        .called("point")
        .in(blind("point_deg"))
        .usually("118 deg"),
    HALFNUT_ASKED(BlindAsk, chip_room_mm, "Room for chips under the tap.")
        .in(blind("chip_room_mm"))
        .usually("two pitches, one under a forming tap"),
    HALFNUT_ASKED(BlindAsk, thickness_mm, "Thickness of the metal: a point that comes through is refused.")
        .in(blind("thickness_mm")),
    HALFNUT_ASKED(BlindAsk, tap, "How the tap makes the thread."),
};

#define FIGURE(member, about) HALFNUT_FIGURE(BlindAnswer, member, about)
constexpr std::array kBlindRows{
    FIGURE(thread, "Internal thread, with its class."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(lead, "Lead of the tap."),
    FIGURE(threads_min, "Shortest chamfer of such a tap, threads.").always(),
    FIGURE(threads_max, "Longest chamfer of such a tap, threads; depths are computed with it.").always(),
    FIGURE(drill, "Drill that is used."),
    FIGURE(hole_mm, "Diameter of that drill.").always(),
    FIGURE(hole.full_thread_mm, "Length with every thread full.").always(),
    FIGURE(hole.chamfer_min_mm, "Shortest chamfer of the tap.").always(),
    FIGURE(hole.chamfer_max_mm, "Longest chamfer of the tap.").always(),
    FIGURE(hole.chip_room_mm, "Room for chips under the tap.").always(),
    FIGURE(hole.drill_depth_mm, "Depth to drill at full diameter.").always(),
    FIGURE(hole.point_mm, "Length of the drill's point.").always(),
    FIGURE(hole.total_depth_mm, "Depth to the tip of the point.").always(),
    FIGURE(hole.tap_depth_mm, "Depth that the tap's end goes to.").always(),
    FIGURE(full_threads, "How many full threads there are.").always(),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kBlindHoleSays{
    SaidRow{"full", "{full_threads:.1f} threads"},
    SaidRow{"chamfer",
            "{chamfer_min_mm..chamfer_max_mm}: {lead} tap, {threads_min:g} to {threads_max:g} threads"},
    SaidRow{"chips", "{chip_room_mm} of room under the tap"},
    SaidRow{"tap", "to {tap_depth_mm:both} at its end"},
    SaidRow{"point", "{point_mm} more: {total_depth_mm:both} to the tip"},
};
constexpr RecordRow kBlindRecord{"BlindHole",
                                 "Depths of a blind tapped hole.",
                                 kBlindRows,
                                 {},
                                 {"{thread}: drill {drill}, {drill_depth_mm:both} deep at full diameter for "
                                  "{full_thread_mm:both} of full thread",
                                  kBlindHoleSays, "full, tap, point"}};

// ---- clearance and seats ----------------------------------------------------------------------------------

constexpr string_view kFits =
    "Fit of the clearance hole: fine, medium or coarse (ISO 273); close, normal or loose (ASME B18.2.8).";

constexpr std::array kClearanceAsked{
    HALFNUT_ASKED(ClearanceAsk, thread, "Thread of the screw; its diameter and system count.")
        .or_a("Thread")
        .required()
        .leads(),
    HALFNUT_ASKED(ClearanceAsk, fit, kFits).placed().usually("normal"),
};

#define FIGURE(member, about) HALFNUT_FIGURE(ClearanceAnswer, member, about)
constexpr std::array kClearanceRows{
    FIGURE(size, "Size of the screw."),
    FIGURE(unit, "Unit of its thread."),
    FIGURE(fit, "Fit, as the standard calls it."),
    FIGURE(standard, "Standard that sets the hole."),
    FIGURE(hole_mm, "Diameter of the hole.").always(),
    FIGURE(drill, "Drill that makes it."),
    FIGURE(clearance_mm, "Hole less the screw.").always(),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kClearanceHoleSays{
    SaidRow{"play", "{clearance_mm:both} over the screw"},
    SaidRow{"by", "{standard}"},
};
constexpr RecordRow kClearanceRecord{
    "ClearanceHole",
    "A hole that a screw passes through.",
    kClearanceRows,
    {},
    {"{size}: {fit} clearance hole {hole_mm:both}, drill {drill}", kClearanceHoleSays, "play, by"}};

constexpr std::array kSeatAsked{
    HALFNUT_ASKED(SeatAsk, thread, "Thread of the screw.").or_a("Thread").required().leads(),
    HALFNUT_ASKED(
        SeatAsk, head,
        "Head of the screw: socket, in a counterbore; flat (90 degrees metric, 82 inch), flat socket "
        "(the same angles) or flat 100 (inch, 100 degrees), in a countersink.")
        .usually("socket"),
    HALFNUT_ASKED(SeatAsk, fit, kFits).usually("normal"),
    HALFNUT_ASKED(SeatAsk, hole_mm, "Hole that is there already, in place of the clearance hole.").above(0),
    HALFNUT_ASKED(SeatAsk, recess_mm, "How far the top of the head lies below the surface.")
        .least(0)
        .usually("flush"),
};

#define FIGURE(member, about) HALFNUT_FIGURE(SeatAnswer, member, about)
constexpr std::array kSeatRows{
    FIGURE(size, "Size of the screw."),
    FIGURE(unit, "Unit of its thread."),
    FIGURE(head, "Head of the screw."),
    FIGURE(seat.hole_mm, "Hole under the seat.").always(),
    FIGURE(seat.seat_diameter_mm, "Diameter of the seat at the surface.").always(),
    FIGURE(seat.depth_mm, "Depth of the counterbore, or of the cone down to the hole.").always(),
    FIGURE(seat.head_diameter_mm, "Diameter of the head; of a flat one to its sharp corner.").always(),
    FIGURE(seat.head_height_mm, "Height of the head; none of a flat one."),
    FIGURE(seat.angle_deg, "Angle of the countersink; none of a counterbore."),
    FIGURE(recess_mm, "How far the head lies below the surface.").always(),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kSeatSays{
    SaidRow{"hole", "{hole_mm:both}"},
    SaidRow{"head", "{head_diameter_mm:both}[{angle_deg?} to its sharp corner][, {head_height_mm} high]"},
    SaidRow{"recess", "{recess_mm>0}{recess_mm} below the surface"},
    SaidRow{"depth", "{angle_deg?}of the cone from the surface to the hole"},
};
constexpr RecordRow kSeatRecord{"ScrewSeat",
                                "A counterbore or countersink over a clearance hole.",
                                kSeatRows,
                                {},
                                {"{size} {head} head: [{angle_deg!}counterbore][countersink {angle_deg:g} "
                                 "deg to] {seat_diameter_mm:both}, "
                                 "{depth_mm:both} deep",
                                 kSeatSays, "hole"}};

/// The ISO metric or Unified thread that a table holds something for.
const Thread& tabulated(const AnyThread& thread, string_view what) {
    const Thread* const own = std::get_if<Thread>(&thread);
    if (own == nullptr) {
        throw NotTabulatedError(fmt::format(
            "{}: no {} is tabulated for threads of this form, only for ISO metric and Unified ones",
            format_any_thread(thread), what));
    }
    return *own;
}

}  // namespace

// ---- what is asked ----------------------------------------------------------------------------------------

void take(DrillsAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag == Given::Tag::text) {
        to.drills = drill_set(asking.catalogue, given.text);
        return;
    }
    if (given.tag != Given::Tag::list || given.items.empty()) {
        throw DomainError(fmt::format("{} must be a set's name or a list of one drill or more, got {}",
                                      row.name, given.shown()));
    }
    for (const Given& item : given.items) {
        double mm = kNaN;
        take(mm, item, row, asking);
        const std::string name = item.tag == Given::Tag::text ? std::string(item.text) : item.shown();
        if (!(std::isfinite(mm) && mm > 0.0)) {
            throw DomainError(fmt::format("drill '{}' must be > 0 mm, got {}", name, mm));
        }
        to.drills.push_back({mm, name, {}});
    }
    std::stable_sort(to.drills.begin(), to.drills.end(),
                     [](const DrillSize& a, const DrillSize& b) { return a.diameter_mm < b.diameter_mm; });
}

void take(OversizeAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag == Given::Tag::text && is_word(given.text, "usual")) {
        to.mm = kNaN;
    } else {
        take(to.mm, given, row, asking);
    }
}

void take(DrillAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    const bool chosen = given.tag == Given::Tag::list && given.items.size() == 2;
    const Given& size = chosen ? given.items[1] : given;
    take(to.mm, size, row, asking);
    const Given& name = chosen ? given.items[0] : given;
    to.name = name.tag == Given::Tag::text ? std::string(name.text) : name.shown();
}

// ---- how it is answered -----------------------------------------------------------------------------------

TaperPipeAnswer taper_pipe(const TaperPipeAsk& asked, const Asking& asking) {
    TaperPipeAnswer out{.thread = format_any_thread(asked.thread),
                        .unit = unit_name(is_inch(asked.thread)),
                        .pipe = taper_pipe(asking.catalogue, asked.thread)};
    out.tpi = std::get<FormThread>(asked.thread).tpi;
    append_evidence(out.pipe.evidence.items(), kTaperPipeFigures, asking.catalogue, out.evidence);
    if (std::any_of(out.evidence.begin(), out.evidence.end(),
                    [](const EvidenceText& each) { return each.kind == "memory"; })) {
        tell(out.told, "from_memory");
    }
    tell(out.told, "taper_pipe_seal");
    return out;
}

DrillSetAnswer drill_set(const DrillSetAsk& asked, const Asking& asking) {
    DrillSetAnswer out;
    for (const DrillSize& drill : asked.drills.drills) {
        out.names.push_back(drill.name);
        out.diameters_mm.push_back(drill.diameter_mm);
        if (!drill.row.empty() && out.evidence.empty()) {
            out.evidence.push_back(as_tabulated("diameters_mm", drill.row, asking.catalogue));
        }
    }
    return out;
}

TappingAnswer tapping_hole(const TappingAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const PartLimits* const own = asked.thread.limits();
    if (own != nullptr && (own->side != Side::internal || !own->part)) {
        throw DomainError(fmt::format("a tapped hole needs the limits of an internal thread, got those of {}",
                                      own->title()));
    }
    const AnyThread& thread = own != nullptr ? own->part->thread : std::get<AnyThread>(asked.thread.is);
    const std::vector<DrillSize> drills =
        !asked.drills.drills.empty() ? asked.drills.drills
                                     : drill_set(catalogue, usual_drill_set(catalogue, is_inch(thread)));
    const auto answer = [&] {
        if (const Thread* const tabular = std::get_if<Thread>(&thread)) {
            return tabulated_hole(asked, *tabular, own, drills, catalogue);
        }
        if (tapers(thread) && !std::isnan(asked.percent)) {
            throw DomainError(
                fmt::format("percent: {} is a taper thread, its hole follows from the gauge plane",
                            format_any_thread(thread)));
        }
        refuse_unruled(asked);
        return tapers(thread) ? taper_hole(thread, drills, asking)
                              : form_hole(limits_of(catalogue, asked.thread, Side::internal), asked.percent,
                                          drills, catalogue);
    };
    TappingAnswer out = answer();
    out.thread = format_any_thread(tapers(thread) ? thread : part_of(thread, Side::internal));
    out.unit = unit_name(is_inch(thread));
    out.tap = asked.tap;
    const TappingHole& hole = out.hole;
    if (!std::isnan(hole.hole_min_mm)) {
        const double under = hole.hole_min_mm - hole.hole_mm;
        const double over = hole.hole_mm - hole.hole_max_mm;
        out.in_limits = under <= kRounding && over <= kRounding;
        if (!*out.in_limits) {
            out.beside_limits =
                fmt::format("{} {}", halfnut::size_text(std::max(under, over), is_inch(thread)),
                            over > under ? "over" : "under");
        }
    }
    return out;
}

BlindAnswer blind_hole(const BlindAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const AnyThread& thread = asked.thread;
    const bool inch = is_inch(thread);
    if (tapers(thread)) {
        const TaperPipe pipe = taper_pipe(catalogue, thread);
        const double wrench = pipe_figure(pipe, "wrench_length_mm");
        const double depth = pipe_figure(pipe, "hand_engagement_mm") + (std::isnan(wrench) ? 0.0 : wrench);
        throw DomainError(fmt::format(
            "{} is a taper thread: drill past its {} of thread by the tap's chamfer, and stop by the gauge",
            format_any_thread(thread), spell(depth, FigureKind::length, system_of(inch))));
    }
    DrillAsked drill = asked.drill;
    if (std::isnan(drill.mm) || (std::holds_alternative<FormThread>(thread) && asked.tap != TapKind::cut)) {
        const TappingAnswer hole = tapping_hole({.thread = {thread}, .tap = asked.tap}, asking);
        drill = {hole.drill, hole.hole.drill_mm};
    } else if (drill.mm >= diameter_mm(thread)) {
        throw DomainError(fmt::format("drill must be below {:.4g} mm, the thread's own, got {:.6g} mm",
                                      diameter_mm(thread), drill.mm));
    }
    const TapLeadRow& lead = tap_lead(catalogue, asked.lead);
    BlindAnswer out{.thread = format_any_thread(part_of(thread, Side::internal)),
                    .unit = unit_name(inch),
                    .lead = std::string(lead.lead),
                    .threads_min = lead.threads_min,
                    .threads_max = lead.threads_max,
                    .drill = drill.name,
                    .hole_mm = drill.mm};
    out.hole = blind_hole(catalogue,
                          {.pitch_mm = pitch_mm(thread),
                           .hole_mm = drill.mm,
                           .full_thread_mm = asked.full_thread_mm,
                           .drill_depth_mm = asked.drilled_mm,
                           .chamfer_min = lead.threads_min,
                           .chamfer_max = lead.threads_max,
                           .chip_room_mm = asked.chip_room_mm,
                           .point_deg = asked.point_deg,
                           .thickness_mm = asked.thickness_mm,
                           .form = asked.tap == TapKind::form},
                          &lead);
    out.full_threads = out.hole.full_thread_mm / pitch_mm(thread);
    constexpr double kShortLead = 2.0;
    if (lead.threads_min < kShortLead) {
        tell(out.told, "hole_short_lead");
    }
    append_evidence(out.hole.evidence.items(), kBlindFigures, catalogue, out.evidence);
    return out;
}

ClearanceAnswer clearance_hole(const ClearanceAsk& asked, const Asking& asking) {
    const Thread& thread = tabulated(asked.thread, "clearance hole");
    const ClearanceFit fit = clearance_fit(asked.fit);
    const ClearanceHole hole = clearance_hole(asking.catalogue, thread, fit);
    constexpr std::array<string_view, 3> kMetric{"fine", "medium", "coarse"};
    constexpr std::array<string_view, 3> kInch{"close", "normal", "loose"};
    const bool inch = thread.inch();
    return {.size = size_text(thread),
            .unit = unit_name(inch),
            .fit = std::string((inch ? kInch : kMetric).at(static_cast<std::size_t>(fit))),
            .standard = inch ? "ASME B18.2.8" : "ISO 273",
            .hole_mm = hole.hole_mm,
            .drill = hole.drill.empty() ? fmt::format("{:g} mm", hole.hole_mm) : std::string(hole.drill),
            .clearance_mm = hole.hole_mm - thread.diameter_mm(),
            .told = {},
            .evidence = {rests_on("hole_mm", rule::hole_clearance, asking.catalogue, hole.row)}};
}

SeatAnswer screw_seat(const SeatAsk& asked, const Asking& asking) {
    const Thread& thread = tabulated(asked.thread, "screw head");
    const double hole = std::isnan(asked.hole_mm)
                            ? clearance_hole(asking.catalogue, thread, clearance_fit(asked.fit)).hole_mm
                            : asked.hole_mm;
    SeatAnswer out{.size = size_text(thread),
                   .unit = unit_name(thread.inch()),
                   .head = asked.head,
                   .seat = screw_seat(asking.catalogue, {thread, asked.head, hole, asked.recess_mm}),
                   .recess_mm = asked.recess_mm};
    append_evidence(out.seat.evidence.items(), kSeatFigures, asking.catalogue, out.evidence);
    return out;
}

// ---- the questions ----------------------------------------------------------------------------------------

namespace {

template <class Asked, class Answered, Answered (*Evaluate)(const Asked&, const Asking&)>
constexpr Question hole_question(string_view name, string_view about, std::span<const AskedRow> rows,
                                 const RecordRow& record, string_view sources, string_view example) {
    Question out = question<Asked, Answered, Evaluate>("threads", name, about, rows, record);
    out.sources = sources;
    out.example = example;
    return out;
}

}  // namespace

constinit const Question kTaperPipe = hole_question<TaperPipeAsk, TaperPipeAnswer, &taper_pipe>(
    "taper_pipe",
    "What a taper pipe thread is cut and gauged to: turns by hand, gauge plane, holes, setting.", kTaperAsked,
    kTaperRecord, "ASME B1.20.1 and ISO 7-1 as the rows of the evidence name them.",
    "taper-pipe \"1/2-14 NPT\"");

constinit const Question kDrillSet = hole_question<DrillSetAsk, DrillSetAnswer, &drill_set>(
    "drill_set", "The drills of one or more sets, smallest first.", kDrillSetAsked, kDrillSetRecord,
    "The rows that the evidence names.", "drill-set number+letter");

constinit const Question kTappingHole = hole_question<TappingAsk, TappingAnswer, &tapping_hole>(
    "tapping_hole", "The drill for a tapped hole, and what it leaves of the thread.", kTappingAsked,
    kTappingRecord, "Tap-drill tables of Machinery's Handbook, and the rows that the evidence names.",
    "tapping-hole M6\ntapping-hole \"1/4-20 UNC\" --drills fractional --percent 65\ntapping-hole G1/2");

constinit const Question kBlindHole = hole_question<BlindAsk, BlindAnswer, &blind_hole>(
    "blind_hole", "How deep to drill a blind hole for a length of full thread, or what a drilled one takes.",
    kBlindAsked, kBlindRecord, "Chamfers of taps as the rows of the evidence name them; geometry.",
    "blind-hole M6 --full-thread 12mm --lead bottoming");

constinit const Question kClearanceHole = hole_question<ClearanceAsk, ClearanceAnswer, &clearance_hole>(
    "clearance_hole", "A hole that a screw passes through.", kClearanceAsked, kClearanceRecord,
    "ISO 273 and ASME B18.2.8 as the rows of the evidence name them.", "clearance-hole M6 close");

constinit const Question kScrewSeat = hole_question<SeatAsk, SeatAnswer, &screw_seat>(
    "screw_seat", "Counterbore or countersink for the head of a screw.", kSeatAsked, kSeatRecord,
    "Heads of the standards that the rows of the evidence name.", "screw-seat M6 --head flat");

}  // namespace halfnut::threads
