// How long an edge lasts in turning, after Taylor: the life at a speed, the speed for a life, what is
// cheapest.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/tool_life.hpp"
#include "halfnut/machine/machine.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::cutting {

namespace {

constexpr double kUsualFeedMm = 0.25;  // of most trials
constexpr double kUsualDepthMm = 2.5;

#define ASKED(member, about) HALFNUT_ASKED(LifeAsk, member, about)
constexpr std::array kAsked{
    alloy_row(ASKED(alloy, "")),
    ASKED(tool, "HSS, carbide or coated carbide, or a tool of the shop's tables.")
        .usually("HSS")
        .listing(&tool_names),
    ASKED(feed_mm_rev, "Feed a revolution.").above(0).leads(4).usually("0.25 mm/rev, as in the trials"),
    ASKED(depth_mm, "Depth of the cut on the radius.").above(0).leads(1).usually("2.5 mm, as in the trials"),
    ASKED(speed_m_min, "Cutting speed to tell the life at, such as 100 m/min.")
        .in(TaylorLife::arguments[2])
        .leads(3),
    ASKED(life_min, "Life in minutes to tell the speed for.").in(TaylorSpeed::arguments[2]).optioned("life"),
    ASKED(change_min, "Minutes to change the edge: tells the life for most parts an hour.")
        .in(FastestLife::arguments[1])
        .usually("the machine's time for a tool"),
    ASKED(edge_cost, "Cost of one edge; with the cost of a minute tells the cheapest life.")
        .in(EconomicLife::arguments[2]),
    ASKED(cost_per_min, "Cost of a minute of machine and person, in the same currency.")
        .plain()
        .in(EconomicLife::arguments[3]),
    hardness_row(ASKED(hardness_hb, "")),
    ASKED(machine, "Lathe whose time to change a tool is taken, and whose steps the speeds are turned into."),
    ASKED(diameter_mm, "Diameter of the work: turns cutting speeds into spindle speeds.")
        .in(SpindleSpeed::arguments[1])
        .leads(2),
};
#undef ASKED

std::string foremost(const LifeAnswer& answer) {
    const auto has = [](double value) { return !std::isnan(value); };
    return has(answer.life_min)               ? "life"
           : has(answer.speed_m_min)          ? "speed"
           : has(answer.fastest_speed_m_min)  ? "most"
           : has(answer.economic_speed_m_min) ? "cheapest"
                                              : "none";
}
std::string edge_said(const LifeAnswer& answer) {
    std::string out = answer.tool_material;
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

#define FIGURE(member, about) HALFNUT_FIGURE(LifeAnswer, member, about)
constexpr std::array kFigures{
    FIGURE(alloy, "The work's material.").made("Alloy"),
    FIGURE(tool_material, "What the edge is made of."),
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(feed_mm_rev, "Feed that the constants are for.").always(),
    FIGURE(depth_mm, "Depth that the constants are for.").always(),
    FIGURE(exponent, "n of V T^n = C, at this feed and depth.").always(),
    FIGURE(c_m_min, "C of V T^n = C: the speed for a life of one minute.").always(),
    FIGURE(at_speed_m_min, "Speed asked about."),
    FIGURE(life_min, "Life at that speed, at most eight hours."),
    FIGURE(life_low_min, "Its likely least."),
    FIGURE(life_high_min, "Its likely most."),
    FIGURE(for_life_min, "Life wanted."),
    FIGURE(speed_m_min, "Speed for that life."),
    FIGURE(speed_low_m_min, "Its likely least."),
    FIGURE(speed_high_m_min, "Its likely most."),
    FIGURE(fastest_life_min, "Life for the most parts an hour, from the time to change the edge."),
    FIGURE(fastest_speed_m_min, "Speed for the most parts an hour."),
    FIGURE(economic_life_min,
           "Life for the cheapest part, from that time, the edge's cost and the cost of a minute."),
    FIGURE(economic_speed_m_min, "Speed for the cheapest part."),
    FIGURE(
        spindle_rpm,
        "Spindle speed for the life wanted: the machine's fastest step that is not above it, or its slowest; "
        "without a machine exact."),
    FIGURE(fastest_rpm, "Spindle speed for the most parts an hour."),
    FIGURE(economic_rpm, "Spindle speed for the cheapest part."),
    FIGURE(verified, "Always False: measured lives scatter too widely about any computed one."),
    FIGURE(assumed, "What was not said and therefore taken, the tool first."),
    made_figure<&foremost>("foremost",
                           "Which answer is told first: life, speed, most, cheapest, or none was asked for."),
    made_figure<&edge_said>("edge_said", "What the edge is made of, in words."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What the constants rest on."),
};
#undef FIGURE
constexpr std::array kToolLifeSays{
    SaidRow{"assumed", "{assumed}"},
    SaidRow{"likely", "{life_low_min..life_high_min}: unverified"},
    SaidRow{"likely", "{speed_low_m_min..speed_high_m_min}: unverified"},
    SaidRow{"speed",
            "{foremost!=speed}{speed_m_min}[, {spindle_rpm:spindle}] for a tool life of {for_life_min}"},
    SaidRow{"most",
            "{foremost!=most}parts an hour: {fastest_speed_m_min}[, {fastest_rpm:spindle}], tool life "
            "{fastest_life_min}"},
    SaidRow{"cheapest",
            "{foremost!=cheapest}part: {economic_speed_m_min}[, {economic_rpm:spindle}], tool life "
            "{economic_life_min}"},
    SaidRow{"Taylor", "V T^n = C with n {exponent:g} and C {c_m_min:speed}"},
};
constexpr RecordRow kRecord{"ToolLife",
                            "Life of an edge in turning. A figure that was not asked for is None.",
                            kFigures,
                            "life_min speed_m_min spindle_rpm fastest_speed_m_min economic_speed_m_min",
                            {"[{foremost=life}tool life {life_min} at {at_speed_m_min}]"
                             "[{foremost=speed}{speed_m_min}][{foremost=speed}, {spindle_rpm:spindle}]"
                             "[{foremost=speed} for a tool life of {for_life_min}]"
                             "[{foremost=most}parts an hour: {fastest_speed_m_min}]"
                             "[{foremost=most}, {fastest_rpm:spindle}]"
                             "[{foremost=most}, tool life {fastest_life_min}]"
                             "[{foremost=cheapest}part: {economic_speed_m_min}]"
                             "[{foremost=cheapest}, {economic_rpm:spindle}]"
                             "[{foremost=cheapest}, tool life {economic_life_min}]"
                             "[{foremost=none}one minute of tool life at {c_m_min:speed}]"
                             "  (turn {alloy.title}, {edge_said})",
                             kToolLifeSays, "assumed, likely, speed, most, cheapest"}};

bool has(double value) {
    return !std::isnan(value);
}

/// The constants at the feed and depth of the answer.
EdgeLife constants_of(const LifeAsk& asked, const material::AlloyRow& alloy, ToolMaterial tool,
                      const LifeAnswer& at, const Catalogue& catalogue) {
    EdgeLife out;
    const LifeQuery query{&alloy, asked.hardness_hb, tool, at.feed_mm_rev, at.depth_mm};
    if (!edge_life(catalogue, query, out).ok()) {
        throw NotTabulatedError(
            "no tool life for this material and tool within four times the feed and ten times the depth of "
            "any "
            "trial");
    }
    return out;
}

std::vector<EvidenceText> evidence_of(const EdgeLife& edge, const Catalogue& catalogue) {
    constexpr std::array<std::string_view, 1> kFigure{"tool_life_min"};
    std::vector<EvidenceText> out;
    const auto note = [&](RuleId rule, RowRef row = {}) {
        out.push_back(evidence_text({0, rule, row}, kFigure, catalogue));
    };
    note(rule::taylor, edge.row);
    if (edge.moved) {
        note(rule::taylor_extended);
    }
    if (edge.shifted) {
        note(rule::window_hardness);
    }
    note(rule::life_band);
    return out;
}

}  // namespace

LifeAnswer tool_life(const LifeAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const material::AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    const Tool tool = find_tool(catalogue, asked.tool);
    if (has(asked.edge_cost) != has(asked.cost_per_min)) {
        throw DomainError("edge_cost and cost_per_min go together: give both, in one currency");
    }
    LifeAnswer out;
    out.alloy = alloy.id;
    out.tool_material = enum_name(tool.row->tool_material);
    const bool inch = asking.led_by == 0 && asked.machine != nullptr ? asked.machine->inch : asking.inch;
    const UnitSystem system = inch ? UnitSystem::inch : UnitSystem::metric;
    out.unit = unit_name(inch);
    out.feed_mm_rev = has(asked.feed_mm_rev) ? asked.feed_mm_rev : kUsualFeedMm;
    out.depth_mm = has(asked.depth_mm) ? asked.depth_mm : kUsualDepthMm;
    if (!tool.named) {
        out.assumed.push_back(fmt::format("{} tool", tool.row->name));
    }
    if (!has(asked.feed_mm_rev)) {
        out.assumed.push_back(fmt::format("feed {}", spell(out.feed_mm_rev, FigureKind::feed, system)));
    }
    if (!has(asked.depth_mm)) {
        out.assumed.push_back(fmt::format("depth {}", spell(out.depth_mm, FigureKind::size, system)));
    }
    double change = asked.change_min;
    if (!has(change) && asked.machine != nullptr && asked.machine->tool_change_s > 0.0) {
        change = asked.machine->tool_change_s / 60.0;
        out.assumed.push_back(fmt::format("edge change {:.3g} min", change));
    }
    const EdgeLife edge = constants_of(asked, alloy, tool.row->tool_material, out, catalogue);
    const double n = edge.exponent;
    const double c = edge.c_m_min;
    const auto life_at = [&](double speed) {
        return std::min(taylor_life_min(c, n, speed), kLongestLifeMin);
    };
    const auto speed_for = [&](double life) { return has(life) ? taylor_speed_m_min(c, n, life) : kNaN; };
    const auto rpm_for = [&](double speed) {
        if (!has(speed) || !has(asked.diameter_mm)) {
            return kNaN;
        }
        const double rpm = spindle_speed_rpm(speed, asked.diameter_mm);
        return asked.machine == nullptr ? rpm : machine::choose_spindle(*asked.machine, rpm, rpm).rpm;
    };
    out.exponent = n;
    out.c_m_min = c;
    out.at_speed_m_min = asked.speed_m_min;
    if (has(asked.speed_m_min)) {
        out.life_min = life_at(asked.speed_m_min);
        out.life_low_min = life_at(asked.speed_m_min / kLifeSpeedLow);
        out.life_high_min = life_at(asked.speed_m_min / kLifeSpeedHigh);
    }
    out.for_life_min = asked.life_min;
    out.speed_m_min = speed_for(asked.life_min);
    out.speed_low_m_min = out.speed_m_min * kLifeSpeedLow;
    out.speed_high_m_min = out.speed_m_min * kLifeSpeedHigh;
    if (has(change)) {
        out.fastest_life_min = fastest_life_min(n, change);
    }
    if (has(asked.edge_cost)) {
        out.economic_life_min =
            economic_life_min(n, has(change) ? change : 0.0, asked.edge_cost, asked.cost_per_min);
    }
    out.fastest_speed_m_min = speed_for(out.fastest_life_min);
    out.economic_speed_m_min = speed_for(out.economic_life_min);
    out.spindle_rpm = rpm_for(out.speed_m_min);
    out.fastest_rpm = rpm_for(out.fastest_speed_m_min);
    out.economic_rpm = rpm_for(out.economic_speed_m_min);
    out.told.push_back({"life_unverified", 0.0, {}});
    tell_hazards(alloy, out.told);
    out.evidence = evidence_of(edge, catalogue);
    return out;
}

constinit const Question kLifeQuestion = [] {
    Question out = question<LifeAsk, LifeAnswer, &tool_life>(
        "cutting", "tool_life",
        "How long an edge lasts in turning, the speed for a life, the lives for most and for cheapest parts.",
        kAsked, kRecord);
    out.sources =
        "Taylor's equation with the rows that the evidence names; Groover, Fundamentals of Modern "
        "Manufacturing, chapters 23 and 24.";
    out.example =
        "tool-life 1045 --tool \"coated carbide\" --life 15\n"
        "tool-life 1018 --speed 30m/min --feed 0.2mm/rev --depth 1mm\n"
        "tool-life 1018 --machine gap-bed --diameter 2in --edge-cost 2 --cost-per-min 1";
    return out;
}();

}  // namespace halfnut::cutting
