// The question of the fastest passes.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

#include "choose_job.hpp"
#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/core/words.hpp"
#include "halfnut/cutting/choosing.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/machine/dial.hpp"
#include "halfnut/material/alloy.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

// ---- what is asked ----------------------------------------------------------------------------------------

using Rows = CutRows<ChooseAsk, kChooseArguments>;
#define ASKED(member, about) HALFNUT_ASKED(ChooseAsk, member, about)
#define NUMBER(member, about) ASKED(cut.member, about).in(range_in(kChooseArguments, #member))

constexpr std::array kAsked{
    ASKED(cut.cut, "What is done.").called("do").required(),
    Rows::alloy,
    NUMBER(diameter_mm, "Diameter before turning or boring; of the face; of the cutter.").required().leads(),
    NUMBER(to_mm, "Diameter to reach, in turning and boring.").placed(),
    Rows::machine.saying("Machine whose levers and dials to choose from.").required().named(),
    NUMBER(off_mm, "Depth to take off: along the axis in facing, down in milling."),
    NUMBER(length_mm, "Length of the cut along the feed."),
    NUMBER(width_mm, "Width to mill away."),
    NUMBER(end_diameter_mm, "Diameter where facing ends.").usually("the centre, or the bore"),
    ASKED(flutes, "Teeth of the cutter.")
        .in(range_in(kChooseArguments, "flutes"))
        .usually("four, two below 5 mm"),
    Rows::tool,
    NUMBER(tolerance_mm,
           "Tolerance of the diameter, of a faced length or of a milled side: says how the size is closed "
           "on."),
    NUMBER(tolerance_share, "Share of the tolerance by which finishing cuts may deflect.")
        .usually("0.5")
        .finer(),
    NUMBER(roughness_um,
           "Ra that is asked of the last pass; the feed aims finer, since a real surface is rougher than its "
           "geometry."),
    NUMBER(life_min, "Life of the edge at least, in every pass.")
        .optioned("life")
        .usually("10 minutes, and as long as the pass"),
    NUMBER(force_n, "Force that tool and work bear.").optioned("force"),
    NUMBER(jaw_force_n, "Force of each jaw at rest; without it the grip is not computed.")
        .optioned("jaw-force"),
    NUMBER(grip_diameter_mm, "Diameter where the jaws grip.").usually("the diameter before the cut"),
    NUMBER(friction, "Friction between jaws and work.").usually("0.15").finer(),
    NUMBER(grip_safety, "How many times the grip that the cut needs.").usually("2").finer(),
    NUMBER(jaw_mass_kg, "Mass of each jaw, which costs grip at speed.").optioned("jaw-mass").finer(),
    NUMBER(jaw_radius_mm, "Radius on which a jaw's mass turns.").usually("the rim of the chuck").finer(),
    NUMBER(deflection_mm, "Most deflection of any pass.").usually("0.1 mm"),
    NUMBER(deepest_mm, "Deepest that the edge cuts.").usually("2.5 mm, or a cutter's usual step down"),
    NUMBER(step_over_mm, "Most across in one pass of milling."),
    ASKED(cut.hold, "How the work is held."),
    Rows::chuck,
    NUMBER(stick_out_mm, "Overhang of the work from the jaws, of a boring bar, of a cutter."),
    ASKED(sections,
          "Stepped work that is turned, from the chuck or the first centre on, in place of the overhang: "
          "length, diameter and, of a tube, bore of each section.")
        .or_a("Section")
        .as_length()
        .finer(),
    ASKED(cut_at_mm, "Where on the sections the cut begins, from the end that is free or on the last centre.")
        .least(0)
        .usually("the end")
        .finer(),
    ASKED(steadies_mm, "Place of each fixed steady; without sections the deflection is then not computed.")
        .called("steadies"),
    Rows::stock.usually("the diameter before the cut"),
    Rows::bar_length,
    Rows::bar_behind,
    NUMBER(bar_diameter_mm, "Diameter of the boring bar."),
    ASKED(cut.bar_material, "What the boring bar is made of.").finer(),
    NUMBER(bore_mm, "Bore of a tube."),
    NUMBER(nose_radius_mm, "Nose radius of the tool.").usually("0.8 mm"),
    NUMBER(entering_deg, "Entering angle of the edge.").usually("90 degrees").finer(),
    NUMBER(rake_deg, "Rake of the tool.").usually("as the force constants were measured"),
    Rows::wear,
    Rows::hardness,
    Rows::approach,
    Rows::overrun.usually("none, with a face mill half its diameter"),
    NUMBER(dial_set_s, "Time to set the dial.").optioned("dial-set").usually("5 s").finer(),
    ASKED(cut.hand_turns_per_min, "Turns of the handle a minute when a slide is wound back.")
        .plain()
        .in(range_in(kChooseArguments, "hand_turns_per_min"))
        .usually("60")
        .finer(),
    ASKED(cut.single, "All in one finishing pass."),
    ASKED(cut.free, "Any depths and levers in every pass, instead of a shop's way."),
    ASKED(now_spindle_rpm, "Spindle speed that is set now, one of the machine's: leaving it costs no time.")
        .above(0)
        .finer(),
    ASKED(now_feed, "Power feed that is set now, as the machine's chart has it.").or_a("Feed").finer(),
    ASKED(cut.only_spindle, "Place of the one spindle step to choose, from 0.").least(0).finer(),
    ASKED(brief, "The passes alone, without what limits cost and what would help.").finer(),
};
#undef NUMBER
#undef ASKED

// ---- what is answered -------------------------------------------------------------------------------------

#define OWN(member, about) HALFNUT_FIGURE(PlannedPass, member, about)
#define CHOSEN(member, about) HALFNUT_FIGURE(PlannedPass, chosen.member, about)
constexpr std::array kPassFigures{
    OWN(number, "Number of the pass, from 1."),
    HALFNUT_RECORD(PlannedPass, cut, kCutRecord, "The pass as a cut of its own."),
    CHOSEN(depth_mm, "Depth: on the radius, along the axis, or down.").always(),
    CHOSEN(before_mm, "Diameter before it in turning and boring, else what is off already.").always(),
    CHOSEN(after_mm, "The same after it.").always(),
    HALFNUT_RECORD(
        PlannedPass, dial, kDialRecord,
        "Dial that sets the depth, from where the tool touches; None where a measurement sets it."),
    CHOSEN(finish, "Whether it is a finishing cut."),
    CHOSEN(measure_before, "Whether the work is measured before it."),
    OWN(measure, "What to measure before it, and what to take then."),
    CHOSEN(slower_holds, "Whether the next slower speed keeps every limit too."),
    CHOSEN(faster_holds, "Whether the next faster speed keeps every limit too."),
    CHOSEN(cut_s, "Time of the cut.").always(),
    CHOSEN(return_s, "Time of the way back.").always(),
    CHOSEN(dial_s, "Time to set the dial.").always(),
    CHOSEN(change_s, "Time to change levers before it.").always(),
    CHOSEN(measure_s, "Time to measure before it.").always(),
    CHOSEN(levers_moved, "Levers that are moved before it."),
    HALFNUT_RECORDS(PlannedPass, limits, kLimitRecord,
                    "Every limit of the pass; chip thickness and tool life have a least value."),
    OWN(told, "What a person should know."),
};
#undef CHOSEN
#undef OWN
constexpr RecordRow kPassRecord{"PassPlanned",
                                "One pass: its cut, what it leaves, and where the dial stands.",
                                kPassFigures,
                                {},
                                {"pass {number}: {cut}"}};

#define SECONDS(member, about) HALFNUT_FIGURE(Seconds, member, about)
constexpr std::array kPriceFigures{
    SECONDS(name, "What limits."),
    SECONDS(saved_s, "Time that would be saved without it.").always(),
};
constexpr RecordRow kPriceRecord{"Price", "A limit that costs time.", kPriceFigures};
constexpr std::array kGainFigures{
    SECONDS(name, "One more thing, by its code.").called("code"),
    SECONDS(saved_s, "Time that it would save; None where only it makes an answer."),
};
constexpr RecordRow kGainRecord{"Gain", "One more thing, and what it would buy.", kGainFigures};
#undef SECONDS
double cost_s(const Share& limit) {
    return limit.cost_s;
}
std::string relaxed_said(const Share& limit) {
    return limit.said;
}

#define SHARE(member, about) HALFNUT_FIGURE(Share, member, about)
constexpr std::array kSlackFigures{
    SHARE(name, "What limits."),
    SHARE(share, "Least that is left of it over the passes, as a share of the bound.").always(),
    made_figure<&cost_s>("cost_s", "Time that would be saved without it, where that is told beside it."),
};
constexpr RecordRow kSlackRecord{"Slack", "What is left of a limit.", kSlackFigures};
constexpr std::array kRelaxedFigures{
    SHARE(name, "What limits."),
    SHARE(share, "How many times as wide it would have to be.").called("factor").always(),
    made_figure<&relaxed_said>("said", "The same in words."),
};
constexpr RecordRow kRelaxedRecord{"Relaxation", "A limit that stands in the way.", kRelaxedFigures};
#undef SHARE

#define OWN(member, about) HALFNUT_FIGURE(ChooseAnswer, member, about)
#define CHOSEN(member, about) HALFNUT_FIGURE(ChooseAnswer, chosen.member, about)
constexpr std::array kFigures{
    OWN(work, "What is done.").called("do"),
    OWN(alloy, "The work's material.").made("Alloy"),
    OWN(tool_material, "What the edge is made of."),
    OWN(machine_name, "Name of the machine."),
    OWN(unit, "Unit of the question: in or mm."),
    OWN(diameter_mm, "Diameter before the cut, or of the cutter.").always(),
    OWN(to_mm, "Diameter to reach."),
    OWN(off_mm, "Depth to take off."),
    OWN(depth_mm, "Depth in all.").always(),
    CHOSEN(closing.way, "How the size is closed on.").called("closing"),
    CHOSEN(closing.instrument, "What the size is measured with; none where that is not said."),
    CHOSEN(closing.reach_mm,
           "Half a line of the dial and the instrument's error together, either way on the size."),
    CHOSEN(lines_apart, "Rough readings are whole multiples of so many lines."),
    HALFNUT_RECORDS(ChooseAnswer, passes, kPassRecord,
                    "Passes in order; none where nothing keeps every limit."),
    CHOSEN(time_s, "Cutting, return strokes, dial, levers and measuring."),
    CHOSEN(levers_moved, "Levers that are moved in all."),
    CHOSEN(final_measure_s, "Time to measure the finished work.").always(),
    CHOSEN(line_mm, "Travel of the slide for one line of its dial.").always(),
    CHOSEN(remainder_mm, "What the last pass misses the nearest line by, along the slide.").always(),
    CHOSEN(readout, "Whether a readout can set that."),
    CHOSEN(hand_fed, "Whether the feed is by hand."),
    CHOSEN(across, "Milling: passes side by side at each depth."),
    OWN(edge_share, "Share of the edge's computed life that the passes take, unverified."),
    OWN(dial, "Slide whose dial sets the depth; empty where the machine has none."),
    CHOSEN(limited_by,
           "The limit without which the answer would be quickest; none where no single one holds it back."),
    HALFNUT_RECORDS(ChooseAnswer, prices, kPriceRecord, "Limits that cost time, the dearest first."),
    HALFNUT_RECORDS(ChooseAnswer, slack, kSlackRecord, "What is left of each limit."),
    HALFNUT_RECORDS(ChooseAnswer, gains, kGainRecord, "What one more thing would buy, most first."),
    OWN(next_s, "Time of the best answer that leaves the first pass's levers alone."),
    OWN(next_words, "That answer in words."),
    HALFNUT_RECORDS(ChooseAnswer, relaxations, kRelaxedRecord,
                    "Without passes: what stands in the way, the least first."),
    CHOSEN(together, "Whether no single one would do, but all of these together."),
    OWN(assumed, "What was not said and therefore taken, the tool first."),
    made_figure<&is_found>("found", "Whether there is an answer."),
    made_figure<&tightest>("tightest", "The limit that least is left of in any pass; none without passes."),
    made_figure<&cutting_s>("cutting_s", "Time of the cuts."),
    made_figure<&returning_s>("returning_s", "Time of the ways back."),
    made_figure<&dials_s>("dials_s", "Time to set the dial."),
    made_figure<&levers_s>("levers_s", "Time to change levers."),
    made_figure<&measuring_s>("measuring_s", "Time to measure, the finished work too."),
    made_figure<&depths_said>("depths_said", "The depths, without their unit."),
    made_figure<&table_said>("table_said", "A line a pass: depth, what it leaves, dial, levers."),
    made_figure<&off_line_mm>("off_line_mm", "How far off a line of the dial the last pass ends."),
    made_figure<&fewest_turns>("fewest_turns", "By hand: fewest turns of the handle a minute."),
    made_figure<&most_turns>("most_turns", "By hand: most turns of the handle a minute."),
    made_figure<&limit_cost_s>("limit_cost_s", "Time that would be saved without what limits."),
    made_records<kSlackRecord, &left_of_limits>("left", "What is left of each limit, the least first."),
    made_figure<&neighbours_said>("neighbours_said", "What one step up or down does in each pass."),
    made_figure<&next_more_s>("next_more_s", "How much longer the next best answer takes."),
    OWN(told, "What a person should know of the passes as a whole."),
    OWN(evidence, "What the choice rests on."),
};
#undef CHOSEN
#undef OWN
constexpr std::array kPassesSays{
    SaidRow{"job", "{do} {alloy.title}, {diameter_mm}[ to {to_mm}][{to_mm!}, {off_mm} off], {machine_name}"},
    SaidRow{"closing", "{closing:closing}"},
    SaidRow{"assumed", "{assumed}"},
    SaidRow{"*", "table_said"},
    SaidRow{"", "{passes?}{across>1}each depth in {across} passes side by side"},
    SaidRow{"time",
            "{passes?}{time_s}: cutting {cutting_s}, return {returning_s}, dial {dials_s}, levers "
            "{levers_s}, measuring "
            "{measuring_s}"},
    SaidRow{"dial",
            "{passes?}{remainder_mm!=0}the last pass ends {off_line_mm:fine} off a line, [{readout?}set by "
            "the readout]"
            "[{readout!}between two lines]"},
    SaidRow{
        "feed",
        "{hand_fed?}by hand, {fewest_turns:.3g} to {most_turns:.3g} turns of the handle a minute, steadily"},
    SaidRow{"tool", "{passes?}{edge_share:.0%} of its computed life, unverified"},
    SaidRow{"limit", "{passes?}{limited_by:limit}[, costs {limit_cost_s}]"},
    SaidRow{"left", "{name:limit} {share:.0%}[, costs {cost_s}]", "left"},
    SaidRow{"speed", "{passes?}{neighbours_said}"},
    SaidRow{"finish", "Ra {passes.last.cut.roughness_ra_um}, {said/geometry_alone}"},
    SaidRow{"next",
            "{passes?}{next_more_s?}with other levers: {next_words}: [{next_more_s>=0.05}{next_more_s} more]"
            "[{next_more_s<0.05}no slower]"},
    SaidRow{"why",
            "{passes!}[{relaxations!}no limit alone stands in the way: the depth is less than the dial and "
            "the edge "
            "can cut][{relaxations?}{together?}all of these together stand in the way]"
            "[{relaxations?}{together!}any one of these would do, the least first]"},
    SaidRow{"", "{name:limit}: {said}", "relaxations"},
    SaidRow{"gain", "{code:gain}: [{saved_s} less][{saved_s!}would make an answer]", "gains"},
};
constexpr RecordRow kRecord{
    "Passes",
    "The fastest passes, or what stands in their way.",
    kFigures,
    "passes time_s",
    {"[{passes!}no passes keep every limit][{passes?}{passes.count} pass][{passes.count>1}es]"
     "[{passes?} of {depths_said} {unit}, {time_s}]",
     kPassesSays, "limit, why", true}};

/// A factor to three digits, of large ones each, a comma every three.
std::string factor_text(double factor) {
    constexpr double kLarge = 1000.0;
    constexpr std::size_t kGroup = 3;
    if (factor < kLarge) {
        return fmt::format("{:.3g}", factor);
    }
    std::string out = fmt::format("{:.0f}", factor);
    for (std::size_t at = out.size() - kGroup; at > 0 && at < out.size(); at -= std::min(at, kGroup)) {
        out.insert(at, ",");
    }
    return out;
}

// ---- how it is answered -----------------------------------------------------------------------------------

LatheCut lathe_cut(ChooseCut cut) {
    return cut == ChooseCut::turn ? LatheCut::turn : cut == ChooseCut::face ? LatheCut::face : LatheCut::bore;
}

/// Off by no more than a plate rounds.
bool as_marked(double given, double step) {
    constexpr double kRounded = 0.02;
    return std::abs(given - step) <= kRounded * step;
}

/// Places of the steps that are set now.
void set_now(const ChooseAsk& asked, const CutContext& context, ChooseRequest& out) {
    const machine::Machine& machine = *asked.machine;
    if (const double rpm = asked.now_spindle_rpm; !std::isnan(rpm)) {
        const machine::SpindleChoice step = machine::nearest_spindle(machine, rpm);
        if (!as_marked(rpm, step.rpm)) {
            throw DomainError(
                fmt::format("now_spindle_rpm must be a speed of {}, got {:g} rev/min; the nearest "
                            "is {:g}",
                            machine.name, rpm, step.rpm));
        }
        out.now_spindle = static_cast<int>(step.step);
    }
    const double feed = asked.now_feed.mm;
    if (std::isnan(feed)) {
        return;
    }
    const machine::FeedLadder& ladder = ladder_of(machine, context.feeds);
    const auto& steps = ladder.steps;
    const bool per_minute = ladder.kind == machine::FeedKind::per_minute;
    if (steps.empty() || asked.now_feed.per_minute != per_minute) {
        throw DomainError(fmt::format("now_feed must be a power feed of {}, {}", machine.name,
                                      steps.empty() ? "which has none for this cut"
                                      : per_minute  ? "travel a minute, such as '40 mm/min'"
                                                    : "travel a revolution, such as '0.1 mm/rev'"));
    }
    const auto nearest =
        std::min_element(steps.begin(), steps.end(), [&](const auto& one, const auto& other) {
            return std::abs(one.feed_mm - feed) < std::abs(other.feed_mm - feed);
        });
    if (!as_marked(feed, nearest->feed_mm)) {
        const FigureKind kind = per_minute ? FigureKind::feed_rate : FigureKind::feed;
        const UnitSystem system = context.inch ? UnitSystem::inch : UnitSystem::metric;
        throw DomainError(fmt::format("now_feed must be a power feed of {}, got {}; the nearest is {}",
                                      machine.name, spell(feed, kind, system),
                                      spell(nearest->feed_mm, kind, system)));
    }
    out.now_feed = static_cast<int>(nearest - steps.begin());
}

/// The request with the tool's figures where nothing is said, and what is assumed.
ChooseRequest request_of(const ChooseAsk& asked, const Asking& asking, CutContext& context) {
    const ToolRow& form = *context.tool.row;
    ChooseRequest out = asked.cut;
    const bool milling = is_milling(out.cut);
    out.work.alloy = static_cast<std::uint16_t>(&context.alloy - asking.catalogue.alloys.data());
    out.tool_material = form.tool_material;
    from_tool(out.nose_radius_mm, form.nose_radius_mm);
    from_tool(out.entering_deg, form.entering_deg);
    if (milling) {
        out.teeth = asked.flutes > 0 ? asked.flutes : form.teeth;
    } else {
        from_tool(out.rake_deg, form.rake_deg);
        from_tool(out.bar_diameter_mm, form.bar_diameter_mm);
    }
    if (milling || out.cut == ChooseCut::bore) {
        from_tool(out.stick_out_mm, form.stick_out_mm);
    }
    if (milling && std::isnan(out.teeth)) {
        context.assumed.push_back(fmt::format("{:g} flutes", usual_teeth(out.diameter_mm)));
    }
    if ((!milling || out.cut == ChooseCut::mill_face) && std::isnan(out.nose_radius_mm)) {
        context.assumed.push_back(fmt::format("nose radius {}", size_text(kNoseRadiusMm, asking.inch)));
    }
    set_stock(out, asked.stock);
    set_now(asked, context, out);
    if (!milling) {
        out.chuck = holder_place(asked.machine, asked.chuck, out.hold, context.assumed);
        if (std::isnan(out.jaw_force_n) && out.hold != Hold::between_centres) {
            context.assumed.emplace_back("a grip that holds, for no jaw force is given");
        }
    }
    if (!asked.steadies_mm.empty()) {
        const double length = std::isnan(out.length_mm) ? 0.0 : out.length_mm;
        out.span_mm = whirl_span_mm(out.hold, std::isnan(out.stick_out_mm) ? length : out.stick_out_mm,
                                    asked.steadies_mm);
    }
    return out;
}

/// What to measure before a pass, and what to take then.
std::string measure_words(const Passes& chosen, std::size_t place, const Catalogue& catalogue) {
    const ChosenPass& one = chosen.passes[place];
    if (!one.measure_before) {
        return {};
    }
    const bool ahead =
        std::any_of(chosen.passes.begin() + static_cast<std::ptrdiff_t>(place) + 1, chosen.passes.end(),
                    [](const ChosenPass& each) { return each.measure_before; });
    const Closing& closing = chosen.closing;
    const string_view share = closing.way == ClosingWay::free                ? "free"
                              : ahead                                        ? "half"
                              : place > 0 && chosen.passes[place - 1].finish ? "rest"
                                                                             : "whole";
    std::string how;
    if (closing.instrument != Instrument::none) {
        how = find_words("instrument", enum_name(closing.instrument), catalogue);
    }
    how += closing.cold ? ", cold" : "";
    return filled(find_words("measure", share, catalogue), [&](string_view /*name*/) { return how; });
}

/// A pass as a cut of its own: levers were chosen, so none was moved against a wish, and the dial is that of
/// all passes so far.
CutAnswer cut_of(const CutContext& context, const ChooseRequest& request, const ChosenPass& pass) {
    CutContext own = context;
    own.diameter_mm = request.cut == ChooseCut::turn   ? pass.before_mm
                      : request.cut == ChooseCut::bore ? pass.after_mm
                                                       : request.diameter_mm;
    CutAnswer out = answer_of(own, pass.cut);
    out.dial_slide.reset();
    out.dial_turns.reset();
    out.dial_line.reset();
    std::erase_if(out.told, [](const Told& each) {
        return each.code == "asked_feed_moved" || each.code == "asked_speed_moved";
    });
    std::erase_if(out.evidence, [](const EvidenceText& each) {
        return each.rule_id == "feed_asked" || each.rule_id == "spindle_asked";
    });
    if (!is_milling(request.cut)) {
        TurnRequest held;
        held.cut = lathe_cut(request.cut);
        held.hold = request.hold;
        held.diameter_mm = own.diameter_mm;
        held.bore_mm = request.bore_mm;
        held.stock_diameter_mm = request.stock_diameter_mm;
        held.stock_flats_mm = request.stock_flats_mm;
        held.bar_length_mm = request.bar_length_mm;
        held.bar_behind_mm = request.bar_behind_mm;
        note_bar(own.machine, held, own.alloy, own.inch, out);
    }
    return out;
}

std::vector<PlannedPass> passes_of(const CutContext& context, const ChooseRequest& request,
                                   const machine::Slide* slide, const Passes& chosen) {
    std::vector<PlannedPass> out;
    double gone = 0.0;
    for (std::size_t i = 0; i < chosen.passes.size(); ++i) {
        const ChosenPass& one = chosen.passes[i];
        gone += one.depth_mm;
        PlannedPass& pass = out.emplace_back();
        pass.number = static_cast<int>(i) + 1;
        pass.chosen = one;
        pass.cut = cut_of(context, request, one);
        if (slide != nullptr && !one.by_measurement) {
            pass.dial = dial_at(*slide, gone);
        }
        pass.measure = measure_words(chosen, i, context.catalogue);
        for (const Limit& limit : one.limits) {
            pass.limits.push_back(limit_left(limit));
        }
    }
    return out;
}

/// Share of the edge's life that the passes take; NaN where no life is tabulated.
double edge_share(const Passes& chosen) {
    double out = chosen.passes.empty() ? kNaN : 0.0;
    for (const ChosenPass& one : chosen.passes) {
        out += one.cut_s / 60.0 / one.cut.tool_life_min;
    }
    return out;
}

std::vector<Share> least_slack(const std::vector<PlannedPass>& passes) {
    std::vector<Share> out;
    for (const PlannedPass& pass : passes) {
        for (const LimitLeft& limit : pass.limits) {
            if (std::isnan(limit.slack)) {
                continue;
            }
            const auto at = std::find_if(out.begin(), out.end(),
                                         [&](const Share& each) { return each.name == limit.name; });
            if (at == out.end()) {
                out.push_back({limit.name, limit.slack});
            } else {
                at->share = std::min(at->share, limit.slack);
            }
        }
    }
    return out;
}

void tell(const ChooseRequest& request, const Passes& chosen, const material::AlloyRow& alloy,
          ChooseAnswer& out) {
    std::vector<Told>& told = out.told;
    const bool found = !chosen.passes.empty();
    const bool shops = found && !request.free && !request.single && !std::isnan(request.tolerance_mm);
    const bool measured = shops && std::any_of(chosen.passes.begin(), chosen.passes.end(),
                                               [](const ChosenPass& each) { return each.measure_before; });
    const auto add = [&](const char* code, bool holds) {
        if (holds) {
            told.push_back({code, 0.0, {}});
        }
    };
    if (!found) {
        tell_hazards(alloy, told);
    }
    add("no_passes", !found);
    add("edge_spent", out.edge_share > 1.0);
    add("dial_coarse", measured && chosen.closing.coarse);
    add("close_grade", measured && chosen.closing.third);
    add("compound_over", measured && chosen.closing.compound);
    add("little_left", shops && !measured);
}

void set_next(const NextBest& next, bool machine_inch, ChooseAnswer& out) {
    if (std::isnan(next.time_s)) {
        return;
    }
    out.next_s = next.time_s;
    const UnitSystem system = machine_inch ? UnitSystem::inch : UnitSystem::metric;
    out.next_words = fmt::format("{} passes, first {:.0f} rev/min, {}", next.passes, next.spindle_rpm,
                                 spell(next.feed_mm_rev, FigureKind::feed, system));
}

constexpr std::array kRests{
    std::pair{string_view("time_s"), rule::choose_time},
    std::pair{string_view("time_s"), rule::choose_search},
    std::pair{string_view("depth_mm"), rule::choose_closing},
    std::pair{string_view("depth_mm"), rule::choose_least},
    std::pair{string_view("depth_mm"), rule::choose_deepest},
    std::pair{string_view("deflection_mm"), rule::choose_bend},
};

}  // namespace

void take(ChartFeed& to, const Given& given, const AskedRow& row, Asking& asking) {
    std::optional<Quantity> quantity;
    if (given.tag == Given::Tag::text) {
        const bool per_minute = given.text.find("min") != string_view::npos;
        try {
            quantity = parse_quantity(given.text, per_minute ? Dimension::feed_rate : Dimension::feed_per_rev,
                                      asking.catalogue);
        } catch (const Error&) {
            rethrow_of(row.name);
        }
    } else if (given.tag == Given::Tag::quantity) {
        quantity = Quantity(given.number, *given.unit);
    }
    if (!quantity ||
        (quantity->dimension() != Dimension::feed_rate && quantity->dimension() != Dimension::feed_per_rev)) {
        throw UnitError(
            fmt::format("{} must be a feed with its unit, such as '0.1 mm/rev' or '40 mm/min', got {}",
                        row.name, given.shown()));
    }
    to.mm = quantity->base();
    to.per_minute = quantity->dimension() == Dimension::feed_rate;
}

ChooseAnswer choose_passes(const ChooseAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const machine::Machine& machine = *asked.machine;
    std::string operation(enum_name(asked.cut.cut));
    std::replace(operation.begin(), operation.end(), ' ', '_');
    CutContext context(catalogue, operation, material::find_alloy(catalogue, asked.alloy),
                       find_tool(catalogue, asked.tool));
    context.machine = asked.machine;
    context.feeds = is_milling(asked.cut.cut) ? Feeds::table : Feeds::carriage;
    context.inch = asking.inch;
    ChooseRequest request = request_of(asked, asking, context);

    std::optional<TurnedBeam> beam;
    if (!asked.sections.empty() && request.cut == ChooseCut::turn) {
        beam.emplace(turned_beam(asked.sections, asked.steadies_mm, context.alloy,
                                 {request.hold, asked.cut_at_mm, request.length_mm, request.to_mm}));
        request.beam = &*beam;
        request.stick_out_mm = beam->length_mm();
        request.span_mm = kNaN;
    }

    ChooseAnswer out;
    out.chosen = choose(catalogue, machine, request, !asked.brief && request.only_spindle < 0);
    const Passes& chosen = out.chosen;
    const UnitSystem system = asking.inch ? UnitSystem::inch : UnitSystem::metric;
    if (chosen.dial_assumed) {
        context.assumed.push_back(fmt::format("{} a line, for the machine gives no dial",
                                              spell(chosen.line_mm, FigureKind::length, system)));
    }
    if (chosen.return_assumed) {
        context.assumed.push_back(fmt::format("return at {}, for the machine gives no dial",
                                              spell(kReturnMmMin, FigureKind::feed_rate, system)));
    }
    const machine::Slide* const slide = Dial(machine, request).slide;
    out.work = enum_name(request.cut);
    out.alloy = context.alloy.id;
    out.tool_material = enum_name(context.tool.row->tool_material);
    out.machine_name = machine.name;
    out.unit = unit_name(asking.inch);
    out.diameter_mm = request.diameter_mm;
    out.to_mm = request.to_mm;
    out.off_mm = request.off_mm;
    out.depth_mm =
        std::isnan(request.off_mm) ? std::abs(request.diameter_mm - request.to_mm) / 2.0 : request.off_mm;
    out.dial = slide == nullptr ? std::string() : slide->name;
    out.passes = passes_of(context, request, slide, chosen);
    for (const LimitPrice& each : chosen.prices) {
        out.prices.push_back({std::string(enum_name(each.code)), each.saved_s});
    }
    for (const Gain& each : chosen.gains) {
        out.gains.push_back(
            {std::string(enum_name(each.code)), std::isfinite(each.saved_s) ? each.saved_s : kNaN});
    }
    for (const Relaxation& each : chosen.relaxations) {
        const string_view code = enum_name(each.code);
        out.relaxations.push_back(
            {.name = std::string(code),
             .share = each.factor,
             .said = filled(find_words("relaxed", code, catalogue),
                            [&](string_view /*name*/) { return factor_text(each.factor); })});
    }
    out.slack = least_slack(out.passes);
    set_next(chosen.next, machine.inch, out);
    out.assumed = context.assumed;
    out.edge_share = edge_share(chosen);
    tell(request, chosen, context.alloy, out);
    for (const auto& [figure, rule] : kRests) {
        out.evidence.push_back(rests_on(figure, rule, catalogue));
    }
    return out;
}

constinit const Question kChoose = cut_question<ChooseAsk, ChooseAnswer, &choose_passes>(
    "choose", "The fastest passes over the machine's real steps and dial lines that keep every limit.",
    kAsked, kRecord,
    "choose turn 6061-T6 1.25in 1.1in --length 2in --machine gap-bed\n"
    "choose \"mill slot\" 7075 10mm --off 8mm --length 60mm --machine bench-mill");

}  // namespace halfnut::cutting
