// The questions of holes: drill, spot, countersink, counterbore, ream, tap.

#include <fmt/format.h>

#include <cmath>

#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

// ---- what is asked ----------------------------------------------------------------------------------------

using Rows = CutRows<HoleAsk, kHoleArguments>;
#define ASKED(member, about) HALFNUT_ASKED(HoleAsk, member, about)
#define NUMBER(member, about) ASKED(cut.member, about).in(range_in(kHoleArguments, #member))

constexpr AskedRow kDiameter = NUMBER(diameter_mm, "").required().leads();
constexpr AskedRow kDepth =
    NUMBER(depth_mm, "Depth of the full diameter, the point beyond it; without it there is no time.");
constexpr AskedRow kPoint = NUMBER(point_deg, "Angle of the point, both sides together.");
constexpr AskedRow kHole = NUMBER(pilot_mm, "Hole as drilled or bored.").called("hole");
constexpr AskedRow kFlutes =
    ASKED(flutes, "Cutting edges of the tool.").in(range_in(kHoleArguments, "flutes"));

constexpr std::array kDrillAsked{
    Rows::alloy,
    kDiameter.saying("Diameter of the drill; a number or letter drill by its name, such as #7."),
    kDepth,
    Rows::machine,
    Rows::tool,
    Rows::feed,
    Rows::spindle,
    Rows::hardness,
    NUMBER(pilot_mm, "Hole that is there already.").called("pilot"),
    kPoint.usually("118 degrees"),
    Rows::wear,
    Rows::chuck,
    Rows::stock,
    Rows::bar_length,
    Rows::bar_behind,
    Rows::stick_out,
    Rows::approach,
    Rows::overrun,
};
constexpr std::array kSpotAsked{
    Rows::alloy,
    kDiameter.saying("Diameter of the spot at the surface; a little more than the hole leaves its chamfer."),
    Rows::machine,
    Rows::tool,
    Rows::feed,
    Rows::spindle,
    Rows::hardness,
    kPoint.usually("90 degrees"),
    Rows::chuck,
    Rows::stock,
    Rows::bar_length,
    Rows::bar_behind,
    Rows::stick_out,
    Rows::approach,
};
constexpr std::array kCountersinkAsked{
    Rows::alloy,
    kDiameter.saying("Diameter of the cone at the surface."),
    kHole.saying("Diameter of the hole.").required(),
    Rows::machine,
    Rows::tool,
    kFlutes.usually("3"),
    Rows::feed,
    Rows::spindle,
    Rows::hardness,
    kPoint.called("included_deg")
        .saying("Angle of the cone, both sides together; 82 and 100 degrees are usual in inch work.")
        .usually("90 degrees"),
    Rows::chuck,
    Rows::stock,
    Rows::bar_length,
    Rows::bar_behind,
    Rows::stick_out,
    Rows::approach,
};
constexpr std::array kCounterboreAsked{
    Rows::alloy,
    kDiameter.saying("Diameter of the counterbore."),
    kHole.saying("Diameter of the hole, which guides the tool.").required(),
    kDepth.saying("Depth of the counterbore; without it there is no time."),
    Rows::machine,
    Rows::tool,
    kFlutes.usually("3"),
    Rows::feed,
    Rows::spindle,
    Rows::hardness,
    Rows::chuck,
    Rows::stock,
    Rows::bar_length,
    Rows::bar_behind,
    Rows::stick_out,
    Rows::approach,
};
constexpr std::array kReamAsked{
    Rows::alloy,
    kDiameter.saying("Diameter of the reamer."),
    kDepth.saying("Depth of the full diameter; without it there is no time."),
    Rows::machine,
    Rows::tool,
    Rows::feed,
    Rows::spindle,
    Rows::hardness,
    kHole.saying("Hole as drilled or bored; without it there is no force."),
    kFlutes.usually("6"),
    Rows::chuck,
    Rows::stock,
    Rows::bar_length,
    Rows::bar_behind,
    Rows::stick_out,
    Rows::approach,
    Rows::overrun,
};
constexpr std::array kTapAsked{
    Rows::alloy,
    ASKED(thread, "Thread by its designation, such as M6, 1/4-20 UNC, G1/4 or 1/8-27 NPT; of one start.")
        .or_a("Thread")
        .required()
        .leads(),
    kDepth.saying("Depth of the thread; without it there is no time."),
    Rows::machine,
    Rows::tool,
    Rows::spindle,
    Rows::hardness,
    Rows::wear,
    ASKED(form, "A tap that forms the thread without a chip; its torque is rough."),
    Rows::chuck,
    Rows::stock,
    Rows::bar_length,
    Rows::bar_behind,
    Rows::stick_out,
    Rows::approach,
    Rows::overrun,
};
#undef NUMBER
#undef ASKED

// ---- how it is answered -----------------------------------------------------------------------------------

struct Setting {
    HoleCut cut{};
    string_view name;
    std::span<const AskedRow> rows;
};

double usual_teeth(const HoleRequest& request) {
    switch (request.cut) {
        case HoleCut::countersink:
        case HoleCut::counterbore:
            return kConeTeeth;
        case HoleCut::ream:  // which has forces where its hole is known
            return std::isnan(request.pilot_mm) ? kNaN : kReamerTeeth;
        default:
            return kNaN;
    }
}

CutAnswer answer(const Setting& setting, const HoleAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const material::AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    CutContext context(catalogue, setting.name, alloy, find_tool(catalogue, asked.tool));
    HoleRequest request = asked.cut;
    request.cut = setting.cut;
    request.work.alloy = static_cast<std::uint16_t>(&alloy - catalogue.alloys.data());
    request.tool_material = context.tool.row->tool_material;
    set_stock(request, asked.stock);
    if (asks(setting.rows, "point_deg")) {
        from_tool(request.point_deg, context.tool.row->point_deg);
    }
    if (asks(setting.rows, "flutes")) {
        request.teeth = asked.flutes > 0 ? asked.flutes : context.tool.row->teeth;
        const double usual = usual_teeth(request);
        if (std::isnan(request.teeth) && !std::isnan(usual)) {
            context.assumed.push_back(fmt::format("{:g} flutes", usual));
        }
    }
    const machine::Machine* const machine = asked.machine;
    if (machine != nullptr && machine->kind == machine::Kind::lathe) {
        request.chuck = holder_place(machine, asked.chuck, Hold::chuck, context.assumed);
    }
    context.machine = machine;
    context.feeds = Feeds::quill;
    context.hole = true;
    context.diameter_mm = request.diameter_mm;
    context.inch = asking.inch;
    return answer_of(context, cut(catalogue, machine == nullptr ? any_machine() : *machine, request));
}

}  // namespace

CutAnswer drill(const HoleAsk& asked, const Asking& asking) {
    return answer({HoleCut::drill, "drill", kDrillAsked}, asked, asking);
}

CutAnswer spot(const HoleAsk& asked, const Asking& asking) {
    return answer({HoleCut::spot, "spot", kSpotAsked}, asked, asking);
}

CutAnswer countersink(const HoleAsk& asked, const Asking& asking) {
    return answer({HoleCut::countersink, "countersink", kCountersinkAsked}, asked, asking);
}

CutAnswer counterbore(const HoleAsk& asked, const Asking& asking) {
    return answer({HoleCut::counterbore, "counterbore", kCounterboreAsked}, asked, asking);
}

CutAnswer ream(const HoleAsk& asked, const Asking& asking) {
    return answer({HoleCut::ream, "ream", kReamAsked}, asked, asking);
}

CutAnswer tap(const HoleAsk& given, const Asking& asking) {
    HoleAsk asked = given;
    const threads::AnyThread& thread = asked.thread;
    asked.cut.pitch_mm = threads::pitch_mm(thread);
    asked.cut.diameter_mm = std::visit([](const auto& each) { return each.diameter_mm(); }, thread);
    const auto* const form = std::get_if<threads::FormThread>(&thread);
    if (form != nullptr && form->starts > 1) {
        throw DomainError(fmt::format("{} has {} starts: cut it with a single point, not with a tap",
                                      threads::format_any_thread(thread), form->starts));
    }
    if (form != nullptr && asked.form) {
        throw DomainError(
            fmt::format("form: there is no rule for forming taps in {}", threads::format_any_thread(thread)));
    }
    const Setting setting = asked.form ? Setting{HoleCut::form_tap, "form_tap", kTapAsked}
                                       : Setting{HoleCut::tap, "tap", kTapAsked};
    CutAnswer out = answer(setting, asked, asking);
    if (form != nullptr) {
        const bool tapers =
            threads::form_row(asking.catalogue, *form).taper != 0.0 && !form->parallel_internal();
        out.told.push_back({tapers ? "taper_tap" : "form_tap_torque", 0.0, {}});
    }
    return out;
}

namespace {

template <CutAnswer (*Evaluate)(const HoleAsk&, const Asking&)>
constexpr Question hole_question(string_view name, string_view about, std::span<const AskedRow> rows,
                                 string_view example) {
    Question out = cut_question<HoleAsk, CutAnswer, Evaluate>(name, about, rows, kCutRecord, example);
    out.sources =
        "Thrust and torque of drilling after Machinery's Handbook, Kienzle's force of other tools, with the "
        "rows that the evidence names.";
    return out;
}

}  // namespace

constinit const std::array<Question, 6> kHoleQuestions{
    hole_question<&drill>(
        "drill",
        "Drill a hole, from a lathe's tailstock or a mill's quill: spindle step, feed, thrust, torque, time.",
        kDrillAsked, "drill 5083 \"#7\" --machine bench-mill --depth 12mm"),
    hole_question<&spot>("spot",
                         "Spot a hole's place before it is drilled; the forces are those of a drill as wide.",
                         kSpotAsked, "spot 5083 6mm --machine bench-mill"),
    hole_question<&countersink>("countersink",
                                "Countersink a hole: spindle step, feed, and the torque at the widest place.",
                                kCountersinkAsked, "countersink 5083 12mm 6.6mm --machine bench-mill"),
    hole_question<&counterbore>(
        "counterbore", "Counterbore a hole, flat at the bottom: spindle step, feed and torque.",
        kCounterboreAsked, "counterbore 5083 11mm 6.6mm --depth 6mm --machine bench-mill"),
    hole_question<&ream>(
        "ream",
        "Ream a drilled hole: spindle step, feed, time and, where the hole is known, torque and thrust.",
        kReamAsked, "ream 5083 8mm --machine bench-mill --depth 12mm"),
    hole_question<&tap>(
        "tap", "Tap a drilled hole with a machine tap, in and out again: spindle step, torque, time.",
        kTapAsked, "tap 5083 M6 --machine bench-mill --depth 12mm"),
};

}  // namespace halfnut::cutting
