// The questions of the mill: mill, the ways down into a slot, and slitting.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/cutting/path.hpp"
#include "halfnut/machine/room.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

constexpr double kWayDownFeed = 0.5;  // share of the slot's feed on the way down: common practice
constexpr double kHelixLeast = 1.2;   // holes in cutters, so that no post is left standing
constexpr double kHelixMost = 1.9;
constexpr double kSawToothMm = 0.02;

// ---- what is asked ----------------------------------------------------------------------------------------

using Rows = CutRows<MillAsk, kMillArguments>;
#define ASKED(member, about) HALFNUT_ASKED(MillAsk, member, about)
#define NUMBER(member, about) ASKED(cut.member, about).in(range_in(kMillArguments, #member))

constexpr AskedRow kCutter =
    NUMBER(cutter_diameter_mm, "Diameter of the cutter.").called("cutter").required().leads();
constexpr AskedRow kDepth = NUMBER(depth_mm, "Depth to be cut away along the cutter's axis, in all passes.");
constexpr AskedRow kFlutes = ASKED(flutes, "Teeth of the cutter.")
                                 .in(range_in(kMillArguments, "flutes"))
                                 .usually("four, two below 5 mm");
constexpr AskedRow kLength = NUMBER(length_mm, "Length along the feed; without it there is no time.");
constexpr AskedRow kTooth =
    NUMBER(feed_per_tooth_mm, "Feed a tooth wanted; the next slower feed of the table is taken.");
constexpr AskedRow kStickOut =
    Rows::stick_out.saying("Overhang of the cutter from its holder; without it there is no deflection.");

constexpr std::array kMillAsked{
    Rows::alloy,
    kCutter,
    kDepth.required().named(),
    kFlutes,
    ASKED(cut.shape,
          "What is milled: a slot, a side or a pocket with an end mill, or a face with a face mill.")
        .usually("side"),
    NUMBER(width_mm, "Width to be cut away across the feed, in all passes.").usually("a slot's its cutter's"),
    kLength,
    NUMBER(step_over_mm, "Most across in one pass; the passes come out equal."),
    NUMBER(step_down_mm, "Most down in one pass; the passes come out equal."),
    Rows::machine,
    Rows::tool,
    kTooth,
    Rows::spindle,
    Rows::hardness,
    NUMBER(entering_deg, "Entering angle of a face mill's edge.").usually("90 degrees").finer(),
    NUMBER(nose_radius_mm, "Nose radius of a face mill's teeth.").usually("0.8 mm"),
    Rows::roughness.saying("Ra that the feed may leave on a wall or a face, one tooth leading the others."),
    kStickOut,
    Rows::deflection.saying("Deflection of the cutter that is allowed."),
    Rows::wear,
    Rows::approach,
    Rows::overrun.usually("none, with a face mill half its diameter"),
    Rows::skin,
};

/// Of a way down, all that is asked of the slot but its size.
constexpr std::array<string_view, 7> kOfItsOwn{"alloy",    "cutter_diameter_mm", "depth_mm",    "shape",
                                               "width_mm", "step_over_mm",       "step_down_mm"};
constexpr AskedRow kAngle = ASKED(angle_deg, "").usually("3 degrees");
constexpr Argument below(double most) {
    return {.name = "angle_deg", .unit = "deg", .low = 0.0, .high = most, .low_open = true};
}
constexpr auto kRampAsked = with_those_of(
    std::array{
        Rows::alloy,
        kCutter,
        kDepth.saying("Depth to reach.").required(),
        kAngle.saying("Angle of the slope.").in(below(30.0)),
    },
    kMillAsked, kOfItsOwn);
constexpr auto kHelixAsked = with_those_of(
    std::array{
        Rows::alloy,
        kCutter,
        ASKED(hole_mm,
              "Diameter of the hole that is left: 1.2 to 1.9 cutters, so that no post is left standing.")
            .above(0)
            .required(),
        kDepth.saying("Depth to reach.").required(),
        kAngle.saying("Angle of the helix at the cutter's centre.").in(below(10.0)),
    },
    kMillAsked, kOfItsOwn);
constexpr std::array kSawAsked{
    Rows::alloy,
    ASKED(slit.blade_mm, "Diameter of the saw.").above(0).required().leads(),
    ASKED(slit.thickness_mm, "Width that the saw cuts.").above(0).required(),
    ASKED(slit.depth_mm, "Depth of the slit, below the radius of the saw.").above(0).required(),
    kFlutes.called("teeth").saying("Teeth of the saw.").usually("").required().named(),
    kLength,
    Rows::machine,
    Rows::tool,
    kTooth.usually("0.02 mm"),
    Rows::spindle,
    Rows::hardness,
    Rows::wear,
    Rows::approach,
    Rows::overrun,
};
#undef NUMBER
#undef ASKED

// ---- how it is answered -----------------------------------------------------------------------------------

#define FIGURE(member, about) HALFNUT_FIGURE(EntryAnswer, member, about)
constexpr std::array kEntryFigures{
    FIGURE(way, "How the cutter goes down: ramp or helix."),
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(angle_deg, "Angle of the slope.").always(),
    FIGURE(turns, "Turns of a helix."),
    FIGURE(pitch_mm, "How far a turn of a helix goes down."),
    FIGURE(length_mm, "Travel on the way down.").always(),
    FIGURE(feed_mm_min, "Feed of the cutter's centre on the way down.").always(),
    FIGURE(time_s, "Time of the way down.").always(),
    HALFNUT_RECORD(EntryAnswer, cut, kCutRecord, "The slot cut at full depth, of a helix that of one turn."),
    FIGURE(told, "What a person should know of the way down."),
};
#undef FIGURE
constexpr std::array kEntrySays{
    SaidRow{"turns", "{turns:.1f} turns, {pitch_mm} down in each"},
    SaidRow{"time", "{time_s} on the way down"},
    SaidRow{"spindle", "{cut.spindle_text}"},
    SaidRow{"=", "cut"},
};
constexpr RecordRow kEntryRecord{
    "Entry",
    "How an end mill goes down into the work: a slope or a helix, and the cut at full depth.",
    kEntryFigures,
    {},
    {"{way} at {angle_deg}, {cut.spindle_rpm:spindle}, {feed_mm_min} at the centre", kEntrySays,
     "turns, time, spindle, feed, depth, passes, limit", true}};

CutAnswer answer(const MillAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const material::AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    const std::string operation = fmt::format("mill_{}", enum_name(asked.cut.shape));
    CutContext context(catalogue, operation, alloy, find_tool(catalogue, asked.tool));
    const ToolRow& form = *context.tool.row;
    MillRequest request = asked.cut;
    request.work.alloy = static_cast<std::uint16_t>(&alloy - catalogue.alloys.data());
    request.tool_material = form.tool_material;
    request.teeth = asked.flutes > 0 ? asked.flutes : form.teeth;
    from_tool(request.entering_deg, form.entering_deg);
    from_tool(request.nose_radius_mm, form.nose_radius_mm);
    from_tool(request.stick_out_mm, form.stick_out_mm);
    if (std::isnan(request.teeth)) {
        context.assumed.push_back(fmt::format("{:g} flutes", usual_teeth(request.cutter_diameter_mm)));
    }
    if (request.shape == MillShape::face && std::isnan(request.nose_radius_mm)) {
        context.assumed.push_back(fmt::format("nose radius {}", size_text(kFaceNoseMm, asking.inch)));
    }
    context.machine = asked.machine;
    context.feeds = Feeds::table;
    context.diameter_mm = request.cutter_diameter_mm;
    context.inch = asking.inch;
    if (request.skin != Skin::clean) {
        context.extra.push_back(skin_code(request.skin));
    }
    return answer_of(context,
                     cut(catalogue, asked.machine == nullptr ? any_machine() : *asked.machine, request));
}

/// The slot at the foot of a way down, cut to its depth at once.
CutAnswer slot(const MillAsk& asked, double depth_mm, const Asking& asking) {
    MillAsk slot = asked;
    slot.cut.shape = MillShape::slot;
    slot.cut.depth_mm = depth_mm;
    slot.cut.step_down_mm = depth_mm;
    return answer(slot, asking);
}

/// A way down on which so many slides move at once.
EntryAnswer entry(string_view way, int axes, const MillAsk& asked, const Asking& asking) {
    if (asked.machine != nullptr) {
        machine::require_axes(*asked.machine, way, axes);
    }
    EntryAnswer out;
    out.way = way;
    out.unit = unit_name(asking.inch);
    out.angle_deg = asked.angle_deg;
    out.told.push_back({"entry_centre_cutting", 0.0, {}});
    return out;
}

}  // namespace

CutAnswer mill(const MillAsk& asked, const Asking& asking) {
    return answer(asked, asking);
}

EntryAnswer ramp(const MillAsk& asked, const Asking& asking) {
    EntryAnswer out = entry("ramp", 2, asked, asking);
    out.cut = slot(asked, asked.cut.depth_mm, asking);
    out.length_mm = ramp_length_mm(asked.cut.depth_mm, asked.angle_deg);
    out.feed_mm_min = kWayDownFeed * out.cut.cut.feed_mm_min;
    out.time_s = 60.0 * out.length_mm / out.feed_mm_min;
    return out;
}

EntryAnswer helix(const MillAsk& asked, const Asking& asking) {
    constexpr double kAsSaid = 1e-9;
    const double cutter = asked.cut.cutter_diameter_mm;
    const double hole = asked.hole_mm;
    const double depth = asked.cut.depth_mm;
    if (hole < kHelixLeast * cutter * (1.0 - kAsSaid) || hole > kHelixMost * cutter * (1.0 + kAsSaid)) {
        const auto size = [&](double mm) { return size_text(mm, asking.inch); };
        throw DomainError(fmt::format("hole must be from {} to {} for this cutter, got {}",
                                      size(kHelixLeast * cutter), size(kHelixMost * cutter), size(hole)));
    }
    EntryAnswer out = entry("helix", 3, asked, asking);
    out.pitch_mm = std::min(helix_pitch_mm(hole, cutter, asked.angle_deg), depth);
    out.turns = depth / out.pitch_mm;
    out.length_mm = helix_length_mm(depth, out.pitch_mm, hole, cutter);
    out.cut = slot(asked, out.pitch_mm, asking);
    out.feed_mm_min = centre_feed_mm_min(kWayDownFeed * out.cut.cut.feed_mm_min, hole, cutter);
    out.time_s = 60.0 * out.length_mm / out.feed_mm_min;
    return out;
}

CutAnswer saw(const MillAsk& asked, const Asking& asking) {
    const Slit& slit = asked.slit;
    if (slit.depth_mm >= slit.blade_mm / 2.0) {
        throw DomainError(fmt::format("depth must be below half the saw, {}, got {}",
                                      size_text(slit.blade_mm / 2.0, asking.inch),
                                      size_text(slit.depth_mm, asking.inch)));
    }
    MillAsk side = asked;
    side.cut.shape = MillShape::side;
    side.cut.cutter_diameter_mm = slit.blade_mm;
    side.cut.depth_mm = slit.thickness_mm;
    side.cut.step_down_mm = slit.thickness_mm;
    side.cut.width_mm = slit.depth_mm;
    side.cut.step_over_mm = slit.depth_mm;
    from_tool(side.cut.feed_per_tooth_mm, kSawToothMm);
    CutAnswer out = answer(side, asking);
    out.operation = "saw";
    out.cut.roughness_ra_um = kNaN;
    out.dial_slide.reset();  // that of the width, which the saw has
    out.dial_turns.reset();
    out.dial_line.reset();
    if (std::isnan(asked.cut.feed_per_tooth_mm)) {
        out.assumed.push_back(fmt::format("{} a tooth", size_text(kSawToothMm, asking.inch)));
    }
    std::vector<Told> told{{"saw_clamped", 0.0, {}}, {"window_stand_in", 0.0, {}}};
    if (in_group(asking.catalogue, material::find_alloy(asking.catalogue, asked.alloy), "aluminium")) {
        told.push_back({"aluminium_fines", 0.0, {}});
    }
    for (Told& each : out.told) {
        if (std::none_of(told.begin(), told.end(),
                         [&](const Told& said) { return said.code == each.code; })) {
            told.push_back(std::move(each));
        }
    }
    out.told = std::move(told);
    return out;
}

constinit const std::array<Question, 4> kMillQuestions{
    cut_question<MillAsk, CutAnswer, &mill>(
        "mill", "Mill a slot, a side or a pocket with an end mill, or a face with a face mill.", kMillAsked,
        kCutRecord, "mill 7075 10mm --shape pocket --width 30mm --depth 8mm --machine bench-mill"),
    cut_question<MillAsk, EntryAnswer, &ramp>("ramp", "Ramp an end mill down a slope into a slot or pocket.",
                                              kRampAsked, kEntryRecord,
                                              "ramp 7075 10mm 3mm --machine bench-mill"),
    cut_question<MillAsk, EntryAnswer, &helix>(
        "helix",
        "Wind an end mill down a helix into solid work; wants a machine that moves three axes at once.",
        kHelixAsked, kEntryRecord, "helix 7075 10mm 16mm 8mm"),
    cut_question<MillAsk, CutAnswer, &saw>(
        "saw", "Slit with a saw on an arbor, in one pass to depth; the speed is that of an end mill.",
        kSawAsked, kCutRecord, "saw 6061-T6 80mm 1mm 6mm --teeth 48 --length 50mm --machine bench-mill"),
};

}  // namespace halfnut::cutting
