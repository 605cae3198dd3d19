// The questions of measuring: what to read over wires, and the plug that tries a nut.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "answering.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::threads {

namespace {

// ---- over wires -------------------------------------------------------------------------------------------

#define ASKED(member, about) HALFNUT_ASKED(WiresAsk, member, about)
constexpr std::array kWiresAsked{
    ASKED(
        thread,
        "Thread by its designation, or limits of one part; an internal thread is answered across two balls.")
        .or_a("Part")
        .required()
        .leads(),
    ASKED(wire, "Wire at hand; \"best\" for the one that touches at the pitch line.")
        .as_length()
        .usually("the nearest of the set"),
    ASKED(set, "Set of wires to choose from: inch, metric, or one of the shop's own.")
        .usually("that of the thread's unit"),
    ASKED(build_up,
          "Coating still to come, which the part is cut for: its name, or what it adds to a surface.")
        .or_a("BuildUp")
        .optioned("coating")
        .usually("none"),
};
#undef ASKED

std::string wires_or_balls(const WiresAnswer& answer) {
    return answer.side == Side::external ? "wires" : "balls";
}
double plain_off_mm(const WiresAnswer& answer) {
    return answer.read.over_max_plain_mm - answer.read.over_max_mm;
}
double left_unknown_mm(const WiresAnswer& answer) {
    return answer.read.wire_known_to_mm * answer.read.wire_error_factor;
}

#define FIGURE(member, about) HALFNUT_FIGURE(WiresAnswer, member, about)
constexpr std::array kWiresFigures{
    FIGURE(thread, "Part that is measured."),
    FIGURE(side, "Which part: external over wires, internal across balls."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(read.wire_mm, "Wire to measure with; of an internal thread the ball.").always(),
    FIGURE(read.choice, "How the wire was come by.").called("wire_choice"),
    FIGURE(read.best_wire_mm, "Wire that touches at the pitch line.").always(),
    FIGURE(read.smallest_wire_mm, "Smallest wire that measures every part within the limits.").always(),
    FIGURE(read.largest_wire_mm, "Largest wire that does.").always(),
    FIGURE(read.over_max_mm, "Reading at the greatest pitch diameter.").always(),
    FIGURE(read.over_min_mm, "Reading at the least pitch diameter.").always(),
    FIGURE(read.over_max_plain_mm, "Greatest reading by the plain formula, the lead left aside.").always(),
    FIGURE(read.over_min_plain_mm, "Least reading by the plain formula.").always(),
    FIGURE(read.over_max_lead_mm, "Greatest reading by the standards' formula for the lead."),
    FIGURE(read.over_min_lead_mm, "Least reading by that formula."),
    FIGURE(read.over_max_held_mm, "Greatest reading with wires held at the lead angle."),
    FIGURE(read.over_min_held_mm, "Least reading with wires held so."),
    FIGURE(pitch_max_mm, "Greatest pitch diameter.").always(),
    FIGURE(pitch_min_mm, "Least pitch diameter.").always(),
    FIGURE(read.lead_angle_deg, "Lead angle at the pitch diameter.").always(),
    FIGURE(read.wire_tilt_deg, "How far free wires tilt in the groove."),
    FIGURE(read.wire_error_factor, "Error of the pitch diameter for one of the wire's diameter.").always(),
    FIGURE(read.measuring_force_n, "Force to measure with."),
    FIGURE(read.skew_add_mm, "Added to the reading where two balls stand half a pitch apart.").always(),
    FIGURE(read.wire_known_to_mm, "How well the wire must be known.").always(),
    FIGURE(read.micrometer_max_mm, "Greatest reading of a thread micrometer, set on a plug of this pitch."),
    FIGURE(read.micrometer_min_mm, "Least reading of a thread micrometer."),
    FIGURE(before_coating, "These are readings before a coating."),
    FIGURE(coated_max_mm, "Most that the coated part may read over these wires; its gauges decide."),
    FIGURE(coated_min_mm, "Least that the coated part may read."),
    made_figure<&wires_or_balls>("wires", "What it is read over: wires, or balls."),
    made_figure<&plain_off_mm>("plain_off_mm", "By how much the plain formula is off."),
    made_figure<&left_unknown_mm>("left_mm", "What is left unknown of the pitch diameter."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
/// Readings of the coated part at its gauges' sizes; none where the wire does not measure it any more.
void read_coated(const PartLimits& before, WiresAnswer& out) {
    const BeforeCoating& coat = *before.coating;
    const FitPart& part = before.sizes;
    const double lead = part.starts * part.pitch_mm;
    const auto read = [&](double pitch_diameter) {
        return before.side == Side::external
                   ? OverWiresExact::compute(pitch_diameter, coat.go_after_crest_mm, part.pitch_mm, lead,
                                             part.half_angle_deg, out.read.wire_mm)
                   : AcrossBallsExact::compute(pitch_diameter, coat.go_after_crest_mm, part.pitch_mm, lead,
                                               part.half_angle_deg, out.read.wire_mm);
    };
    const double go = read(coat.go_after_pitch_mm);
    const double not_go = read(coat.not_go_after_pitch_mm);
    if (std::isfinite(go) && std::isfinite(not_go)) {
        out.coated_max_mm = std::max(go, not_go);
        out.coated_min_mm = std::min(go, not_go);
    }
}

// ---- the shop's plug --------------------------------------------------------------------------------------

constexpr std::array kPlugAsked{
    HALFNUT_ASKED(PlugAsk, thread, "Internal thread by its designation, or its limits.")
        .or_a("Part")
        .required()
        .leads(),
    HALFNUT_ASKED(PlugAsk, pitch_mm,
                  "Least and greatest pitch diameter to try for, of a nut cut to suit a screw.")
        .usually("the limits"),
    HALFNUT_ASKED(PlugAsk, wire, "Wire at hand.").as_length().usually("the nearest of the set"),
    HALFNUT_ASKED(PlugAsk, build_up, "Coating still to come, which the thread is cut for.")
        .or_a("BuildUp")
        .optioned("coating")
        .usually("none"),
};

#define FIGURE(member, about) HALFNUT_FIGURE(PlugAnswer, member, about)
constexpr std::array kPlugFigures{
    FIGURE(thread, "Internal thread that it tries."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(go_pitch_mm, "Pitch diameter of the go end.").always(),
    FIGURE(go_major_mm, "Major diameter of the go end.").always(),
    FIGURE(go_over_wires_mm, "Reading of the go end over wires.").always(),
    FIGURE(not_go_pitch_mm, "Pitch diameter of the not-go end.").always(),
    FIGURE(not_go_major_mm, "Major diameter of the not-go end.").always(),
    FIGURE(not_go_over_wires_mm, "Reading of the not-go end over wires.").always(),
    FIGURE(wire_mm, "Wire to measure with.").always(),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
}  // namespace

constexpr std::array kOverWiresSays{
    SaidRow{"",
            "{over_min_mm..over_max_mm:fine other} [{side=external}over][{side=internal}across] "
            "{wire_mm:fine other} {wires}"},
    SaidRow{"coated", "{coated_min_mm..coated_max_mm:fine} over the same {wires}"},
    SaidRow{"pitch", "{pitch_min_mm..pitch_max_mm:length}"},
    SaidRow{"best",
            "{best_wire_mm:fine both}[{wire_choice=best}, taken][{wire_choice!=best}; taken: {wire_choice}]; "
            "usable "
            "{smallest_wire_mm..largest_wire_mm:fine}"},
    SaidRow{"plain", "{over_min_plain_mm..over_max_plain_mm:fine}, off by {plain_off_mm:fine}"},
    SaidRow{"standard", "{over_min_lead_mm..over_max_lead_mm:fine}, lead angle by formula"},
    SaidRow{"offset", "{skew_add_mm!=0}{skew_add_mm:fine} more where the balls stand half a pitch apart"},
    SaidRow{"or",
            "{micrometer_min_mm..micrometer_max_mm:length} by thread micrometer, set on a plug gauge of this "
            "pitch"},
    SaidRow{"accuracy",
            "{wires} known to {wire_known_to_mm:fine}, which leaves {left_mm:fine} on the pitch diameter"},
    SaidRow{"force", "{measuring_force_n}"},
    SaidRow{"angle", "lead {lead_angle_deg}"},
};
constinit const RecordRow kWiresRecord{"OverWires",
                                       "Sizes over wires of an external thread, or across two balls.",
                                       kWiresFigures,
                                       {},
                                       {"[{before_coating?}before coating ]{thread}: "
                                        "{over_min_mm..over_max_mm:fine} [{side=external}over]"
                                        "[{side=internal}across] {wire_mm:fine} {wires}",
                                        kOverWiresSays, "coated, pitch"}};

constexpr std::array kShopPlugSays{
    SaidRow{"not-go",
            "{not_go_pitch_mm:length} pitch, {not_go_major_mm:length} major, {not_go_over_wires_mm:fine} "
            "over the same wires; three turns are enough"},
};
constinit const RecordRow kPlugRecord{
    "ShopPlug",
    "Sizes of a plug that a shop cuts to try an internal thread with.",
    kPlugFigures,
    {},
    {"plug for {thread}: go end {go_pitch_mm:length} pitch, {go_major_mm:length} major, "
     "{go_over_wires_mm:fine} over {wire_mm:fine} wires",
     kShopPlugSays, "not-go"}};

namespace {

// ---- what a measured part is ------------------------------------------------------------------------------

#define ASKED(member, about) HALFNUT_ASKED(JudgeAsk, member, about)
#define FOUND(member, about) ASKED(found.member, about).in(range_in(kJudgeArguments, #member))
constexpr std::array kJudgeAsked{
    ASKED(thread, "Thread that the part is to be; limits, such as those before coating, are judged alone.")
        .or_a("Part")
        .required()
        .leads(),
    ASKED(found.pitch_mm, "Pitch diameter as measured.").in(measured("pitch_mm")),
    ASKED(found.over_wires_mm,
          "Size over three wires, or across two balls square to the axis of a nut, in its place.")
        .in(measured("over_wires_mm")),
    ASKED(found.wire_mm, "Diameter of those wires or balls.").in(measured("wire_mm")),
    ASKED(found.major_mm, "Major diameter as measured.").in(measured("major_mm")),
    ASKED(found.minor_mm, "Minor diameter as measured.").in(measured("minor_mm")),
    ASKED(found.lead_error_mm, "Error of lead between any two flanks engaged.")
        .from(-kLongestMm, kLongestMm)
        .usually("none"),
    FOUND(leading_error_deg, "Half angle of the leading flank less the standard one.").usually("none"),
    FOUND(following_error_deg, "Half angle of the following flank less the standard one.").usually("none"),
    ASKED(engagement_mm, "Length of engagement.").in(measured("engagement_mm")).usually("normal"),
};
#undef FOUND
#undef ASKED

#define FIGURE(member, about) HALFNUT_FIGURE(Judged, member, about)
constexpr std::array kJudgedFigures{
    FIGURE(measured_mm, "Size as measured."),
    FIGURE(min_mm, "Least size allowed."),
    FIGURE(max_mm, "Greatest size allowed."),
    FIGURE(place, "Where the size lies."),
    FIGURE(to_enter_mm, "To come off the diameter before it is within.").always(),
    FIGURE(to_middle_mm, "To come off to the middle of the zone; below 0 it is past that.").always(),
    FIGURE(to_last_mm, "Most that may come off; below 0 it is past its limit.").always(),
};
#undef FIGURE
constexpr RecordRow kJudgedRecord{"Judged", "One diameter against its limits.", kJudgedFigures};

template <std::size_t Diameter>
constexpr FigureRow class_place(std::string_view key, std::string_view about) {
    return {.key = key,
            .about = about,
            .kind = AnsweredKind::text,
            .choices = kSpellings<Place>,
            .get = [](const void* answer) {
                return shown(static_cast<const ClassTried*>(answer)->places[Diameter]);
            }};
}
constexpr std::array kTriedFigures{
    HALFNUT_FIGURE(ClassTried, name, "Class that was tried."),
    FigureRow{.key = "met",
              .about = "Whether every measured diameter meets it.",
              .kind = AnsweredKind::flag,
              .get = [](const void* answer) { return shown(static_cast<const ClassTried*>(answer)->met()); }},
    class_place<0>("major", "Where the major diameter lies."),
    class_place<1>("pitch", "Where the pitch diameter lies."),
    class_place<2>("minor", "Where the minor diameter lies."),
};
constexpr RecordRow kTriedRecord{"ClassTried", "A class that a part was tried against.", kTriedFigures};

/// The diameters that were judged, by their names.
std::array<std::pair<std::string_view, const Judged*>, 3> diameters_of(const JudgeAnswer& answer) {
    return {{{"major", &answer.major}, {"pitch", &answer.pitch}, {"minor", &answer.minor}}};
}
std::pair<std::string_view, const Judged*> worst_of(const JudgeAnswer& answer) {
    const auto all = diameters_of(answer);
    return *std::find_if(all.begin(), all.end(),
                         [&](const auto& each) { return each.second->place == answer.place; });
}
std::string worst(const JudgeAnswer& answer) {
    return std::string(worst_of(answer).first);
}
double worst_left_mm(const JudgeAnswer& answer) {
    return worst_of(answer).second->to_enter_mm;
}
double worst_past_mm(const JudgeAnswer& answer) {
    return -worst_of(answer).second->to_last_mm;
}
bool passes(const JudgeAnswer& answer) {
    return answer.place == Place::within;
}

/// Each measured diameter in its limits, and what may come off it on either dial.
std::vector<std::pair<std::string, std::string>> diameters_said(const JudgeAnswer& answer) {
    const bool inch = answer.unit == "in";
    const auto end = [&](double limit) {
        return std::isnan(limit) ? "open" : spell_number(limit, FigureKind::length, system_of(inch));
    };
    std::vector<std::pair<std::string, std::string>> out;
    for (const auto& [name, judged] : diameters_of(answer)) {
        if (std::isnan(judged->measured_mm)) {
            continue;
        }
        out.emplace_back(name,
                         fmt::format("{}, limits {} to {}: {}", halfnut::size_text(judged->measured_mm, inch),
                                     end(judged->min_mm), end(judged->max_mm), enum_name(judged->place)));
        if (judged->place == Place::overcut) {
            continue;
        }
        const auto off = [&](std::string_view words, double size) {
            if (size > 0.0) {
                out.emplace_back(
                    "", fmt::format("{} {} on a diameter dial, {} on a radius dial", words,
                                    halfnut::size_text(size, inch), halfnut::size_text(size / 2.0, inch)));
            }
        };
        off("at least", judged->to_enter_mm);
        off("to the middle", judged->to_middle_mm);
        off("at most", judged->to_last_mm);
    }
    return out;
}

#define FIGURE(member, about) HALFNUT_FIGURE(JudgeAnswer, member, about)
constexpr std::array kJudgeRows{
    FIGURE(thread, "Thread that the part was to be."),
    FIGURE(side, "Which part it is."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(place, "Where the worst of its diameters lies."),
    HALFNUT_RECORD(JudgeAnswer, major, kJudgedRecord, "Major diameter."),
    HALFNUT_RECORD(JudgeAnswer, pitch, kJudgedRecord, "Pitch diameter."),
    HALFNUT_RECORD(JudgeAnswer, minor, kJudgedRecord, "Minor diameter."),
    FIGURE(functional_pitch_mm, "Pitch diameter that a gauge feels, errors of lead and angle included."),
    FIGURE(over_wires_mm, "Size over wires as measured."),
    FIGURE(wire_mm, "Wire that it was measured over."),
    HALFNUT_RECORDS(JudgeAnswer, classes, kTriedRecord, "Every class that was tried."),
    FIGURE(classes_met, "Classes that every measured diameter meets."),
    made_figure<&passes>("passes", "Whether every diameter that was measured is within its limits."),
    made_figure<&worst>("worst", "The worst of its diameters."),
    made_figure<&worst_left_mm>("worst_left_mm", "What has to come off that one."),
    made_figure<&worst_past_mm>("worst_past_mm", "How far that one is past its limit."),
    made_figure<&diameters_said>("diameters_said", "Each diameter, and what is left on either dial."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kJudgeSays{
    SaidRow{"*", "diameters_said"},
    SaidRow{
        "gauges",
        "{functional_pitch_mm!=pitch.measured_mm}as {functional_pitch_mm} pitch, for its errors of lead and "
        "angle"},
    SaidRow{"read", "{over_wires_mm} over {wire_mm}"},
    SaidRow{"meets", "[{classes_met}][{classes_met!}no class]"},
};
constexpr RecordRow kJudgeRecord{
    "Verdict",
    "What a measured part is: its place in each zone, its classes, what is left to take off.",
    kJudgeRows,
    {},
    {"{thread}: [{place=within}within its limits]"
     "[{place=metal left}not yet: {worst} diameter has {worst_left_mm} to come off]"
     "[{place=overcut}overcut: {worst} diameter is {worst_past_mm} past its limit]",
     kJudgeSays, "pitch, meets"}};

}  // namespace

WiresAnswer wires(const WiresAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const PartLimits limits = before(catalogue, limits_of(catalogue, asked.thread), asked.build_up);
    const bool external = limits.side == Side::external;
    if (std::isnan(external ? limits.sizes.major.max_mm : limits.sizes.minor.min_mm)) {
        throw DomainError(
            fmt::format("{}: give its {} diameter, which the wires or balls have to stand above",
                        limits.title(), external ? "major" : "minor"));
    }
    WireRequest request = wire_request(limits);
    request.wire_mm = asked.wire.mm;
    request.best = asked.wire.best;
    request.set = asked.set;
    WiresAnswer out{.thread = limits.title(),
                    .side = limits.side,
                    .unit = unit_of(limits),
                    .read = over_wires(catalogue, request),
                    .pitch_max_mm = limits.sizes.pitch.max_mm,
                    .pitch_min_mm = limits.sizes.pitch.min_mm,
                    .before_coating = limits.before_coating()};
    if (out.before_coating && !std::isnan(limits.coating->go_after_crest_mm)) {
        read_coated(limits, out);
    }
    tell_all<WireCaution>(out.told, out.read);
    tell_of(out.told, catalogue, limits, true);
    append_evidence(out.read.evidence.items(), kWireFigures, catalogue, out.evidence);
    return out;
}

constinit const Question kWires = [] {
    Question out = question<WiresAsk, WiresAnswer, &wires>(
        "threads", "wires", "What to read over wires for the limits of a thread; across two balls of a nut.",
        kWiresAsked, kWiresRecord);
    out.sources =
        "Contact of a wire with the helicoid; Machinery's Handbook, as the rules of the evidence name.";
    out.own_units = true;
    out.example = "wires M10-6g\nwires \"7/8-14 UNF-2A\" --wire 0.045in";
    return out;
}();

PlugAnswer shop_plug(const PlugAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const bool by_limits = asked.thread.limits() != nullptr;
    const std::optional<Side> side = by_limits ? std::nullopt : std::optional(Side::internal);
    const PartLimits nut = before(catalogue, limits_of(catalogue, asked.thread, side), asked.build_up);
    if (nut.side != Side::internal || !nut.part) {
        throw DomainError(
            fmt::format("a plug tries an internal thread that has a designation, got {}", nut.title()));
    }
    const FitPart& part = nut.sizes;
    PlugAnswer out{.thread = nut.title(), .unit = unit_of(nut)};
    out.go_pitch_mm = part.pitch.min_mm;
    out.not_go_pitch_mm = part.pitch.max_mm;
    if (!asked.pitch_mm.empty()) {
        if (asked.pitch_mm.size() != 2) {
            throw DomainError(fmt::format("pitch must be two lengths, the least and the greatest, got {}",
                                          asked.pitch_mm.size()));
        }
        out.go_pitch_mm = asked.pitch_mm[0];
        out.not_go_pitch_mm = asked.pitch_mm[1];
        if (!(0.0 < out.go_pitch_mm && out.go_pitch_mm <= out.not_go_pitch_mm)) {
            throw DomainError(
                fmt::format("pitch must be > 0, the least before the greatest, got {:.4g} mm to {:.4g} mm",
                            out.go_pitch_mm, out.not_go_pitch_mm));
        }
    }
    const double diameter = nut.diameter_mm();
    // A root with a clearance touches no screw, so that the plug has the screw's crest; a centralizing one
    // does.
    const bool clear = nut.by_form() && !class_of(nut.part->thread, Side::internal).ends_with('C');
    out.go_major_mm = clear || std::isnan(part.major.min_mm) ? diameter : part.major.min_mm;
    // What the crest of the not-go end stands above the pitch line.
    constexpr double kShareOfDepth = 3.0;
    constexpr double kShareOfTriangle = 4.0;
    const double depth = nut.by_form() ? (diameter - basic_pitch_mm(catalogue, nut)) / kShareOfDepth
                                       : TriangleHeight::compute(part.pitch_mm) / kShareOfTriangle;
    out.not_go_major_mm = out.not_go_pitch_mm + 2.0 * depth;
    const AnyThread screw = part_of(nut.part->thread, Side::external);
    out.wire_mm = wires({.thread = {screw}, .wire = asked.wire}, asking).read.wire_mm;
    const double lead = part.starts * part.pitch_mm;
    out.go_over_wires_mm = over_wires_exact_mm(out.go_pitch_mm, out.go_major_mm, part.pitch_mm, lead,
                                               part.half_angle_deg, out.wire_mm);
    out.not_go_over_wires_mm = over_wires_exact_mm(out.not_go_pitch_mm, out.not_go_major_mm, part.pitch_mm,
                                                   lead, part.half_angle_deg, out.wire_mm);
    out.evidence = evidence_of(catalogue, nut);
    return out;
}

constinit const Question kShopPlug = [] {
    Question out = question<PlugAsk, PlugAnswer, &shop_plug>(
        "threads", "shop_plug", "Plug to cut for trying an internal thread, with its readings over wires.",
        kPlugAsked, kPlugRecord);
    out.sources = "Limits of the thread's standard; common practice for the crest of the not-go end.";
    out.example = "shop-plug M10-6H\nshop-plug Tr16x4-7H";
    return out;
}();

JudgeAnswer judge(const JudgeAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const bool alone = asked.thread.limits() != nullptr;
    const PartLimits own =
        limits_of(catalogue, asked.thread, std::nullopt, {.engagement_mm = asked.engagement_mm});
    const Verdict verdict = judge(catalogue, PartJudgeRequest{asked.found, own, alone});
    JudgeAnswer out{.thread = own.title() + (own.before_coating() ? " before coating" : ""),
                    .side = own.side,
                    .unit = unit_of(own),
                    .place = verdict.place(),
                    .major = verdict.diameters[0],
                    .pitch = verdict.diameters[1],
                    .minor = verdict.diameters[2],
                    .functional_pitch_mm = verdict.functional_pitch_mm,
                    .over_wires_mm = asked.found.over_wires_mm,
                    .wire_mm = asked.found.wire_mm,
                    .classes = verdict.classes};
    for (const ClassTried& each : verdict.classes) {
        if (each.met()) {
            out.classes_met.push_back(each.name);
        }
    }
    if (alone) {
        tell(out.told, "judge_these_limits");
    }
    tell_of(out.told, catalogue, own);
    if (verdict.crest_assumed) {
        tell(out.told, own.side == Side::external ? "judge_major_assumed" : "judge_minor_assumed");
    }
    if (asked.found.lead_error_mm == 0.0 && asked.found.leading_error_deg == 0.0 &&
        asked.found.following_error_deg == 0.0) {
        tell(out.told, "judge_form_assumed");
    }
    append_evidence(verdict.evidence.items(), kJudgeFigures, catalogue, out.evidence);
    if (out.evidence.empty()) {
        out.evidence = evidence_of(catalogue, own);
    }
    return out;
}

constinit const Question kJudge = [] {
    Question out = question<JudgeAsk, JudgeAnswer, &judge>(
        "threads", "judge", "What a measured part is: its classes, and what is left to take off.",
        kJudgeAsked, kJudgeRecord);
    out.sources = "Limits of the thread's standard; NBS Handbook H28 for errors of lead and angle.";
    out.example =
        "judge M10-6g --pitch 9.05mm --major 9.9mm\njudge \"7/8-14 UNF-2A\" --over-wires 0.8830in --wire "
        "0.040in";
    return out;
}();

}  // namespace halfnut::threads
