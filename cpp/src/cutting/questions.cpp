// The answer that all cuts share, and every question of the room.

#include "halfnut/cutting/questions.hpp"

#include "cut_answer.hpp"
#include "halfnut/cutting/census.hpp"
#include "halfnut/cutting/chasing.hpp"
#include "halfnut/cutting/choosing.hpp"
#include "halfnut/cutting/force_question.hpp"
#include "halfnut/cutting/gears.hpp"
#include "halfnut/cutting/holding.hpp"
#include "halfnut/cutting/holding_taper.hpp"
#include "halfnut/cutting/knurling.hpp"
#include "halfnut/cutting/layout.hpp"
#include "halfnut/cutting/screw_hole.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

constexpr std::array kLimitFigures{
    HALFNUT_FIGURE(LimitLeft, name, "What limits."),
    HALFNUT_FIGURE(LimitLeft, value,
                   "What the cut comes to; what follows the force at the upper edge of its band.")
        .always(),
    HALFNUT_FIGURE(LimitLeft, bound, "What is allowed.").always(),
    HALFNUT_FIGURE(LimitLeft, slack, "What is left, as a share of the bound; below zero it is passed.")
        .always(),
};
}  // namespace

constinit const RecordRow kLimitRecord{"Limit",
                                       "A limit of a cut: what is used of it and what is left.",
                                       kLimitFigures,
                                       {},
                                       {"{name:limit} [{slack>=0}{slack:.0%}][{slack<0}{-1*slack:.0%}]"}};

namespace {

#define CUT(member, about) HALFNUT_FIGURE(CutAnswer, cut.member, about)
#define OWN(member, about) HALFNUT_FIGURE(CutAnswer, member, about)
constexpr std::array kFigures{
    OWN(operation, "What is done."),
    OWN(alloy, "The work's material.").made("Alloy"),
    OWN(tool_material, "What the edge is made of."),
    OWN(tool_name, "Name of the tool."),
    OWN(machine_name, "Name of the machine."),
    OWN(unit, "Unit of the question: in or mm."),
    OWN(machine_unit, "Unit of the machine's dials and charts."),
    OWN(diameter_mm, "Diameter of the work or the tool.").always(),
    CUT(spindle_rpm, "Spindle speed to set.").always(),
    CUT(cutting_speed_m_min, "Cutting speed at the diameter.").always(),
    CUT(window_low_m_min, "Slowest cutting speed that suits.").always(),
    CUT(window_high_m_min, "Fastest cutting speed that suits.").always(),
    CUT(feed_mm_rev, "Feed to set."),
    CUT(feed_per_tooth_mm, "Milling: feed a tooth."),
    CUT(feed_mm_min, "Feed by time."),
    CUT(depth_mm, "Depth of the cut: on the radius; of a hole; down, in milling."),
    CUT(width_mm, "Milling: width of the cut."),
    CUT(chip_thickness_mm, "Thickness of the chip, its mean over the engaged edge."),
    CUT(chip_thickness_max_mm, "Milling: greatest thickness of the chip."),
    CUT(mrr_cm3_min, "Metal removed."),
    CUT(cutting_force_n, "Force along the cutting speed, of a sharp edge."),
    CUT(feed_force_n,
        "Force along the feed: a drill's thrust; in turning that of an edge half worn, or as worn as was "
        "said."),
    CUT(passive_force_n, "Turning: force across cutting speed and feed, of such an edge."),
    CUT(cutting_force_low_n, "Least force that a measurement would find."),
    CUT(cutting_force_high_n, "Greatest force that a measurement would find, with an edge in use."),
    CUT(feed_force_low_n, "Least thrust that a measurement would find."),
    CUT(feed_force_high_n, "Greatest thrust that a measurement would find."),
    CUT(spindle_power_kw, "Power at the spindle."),
    CUT(spindle_power_low_kw, "Its least."),
    CUT(spindle_power_high_kw, "Its most, with an edge in use."),
    CUT(motor_power_kw, "Power that the motor gives for it."),
    CUT(available_power_kw, "Power that the spindle has at this step."),
    CUT(torque_nm, "Torque at the spindle."),
    CUT(travel_mm, "Travel of the feed, approach and overrun with it."),
    CUT(time_s, "Time of that travel."),
    CUT(tool_life_min, "Turning: life of the edge after Taylor, unverified."),
    CUT(tool_life_low_min, "Its likely least."),
    CUT(tool_life_high_min, "Its likely most."),
    CUT(roughness_ra_um, "Ra by geometry alone: the least."),
    CUT(roughness_low_um, "Ra that a sharp edge on steady work leaves at least."),
    CUT(roughness_high_um, "Ra that an edge in use leaves at most."),
    CUT(deflection_mm, "Deflection of work, bar or cutter at the cut; in turning under such an edge."),
    CUT(hand_turns_per_min, "Feed by hand: turns of the handle a minute."),
    CUT(hand_turns, "Turns of the handle for the whole travel."),
    OWN(torque_low_nm, "Torque at the lower edge of the force."),
    OWN(torque_high_nm, "Torque at its upper edge, where it is judged."),
    OWN(deflection_low_mm, "Deflection at the lower edge of the force."),
    OWN(deflection_high_mm, "Deflection at its upper edge, where it is judged."),
    OWN(chip_thinning,
        "Milling: how much more feed a tooth bears for the same greatest chip than in a cut half as wide as "
        "the cutter."),
    HALFNUT_FIGURE(CutAnswer, heat.chip_rise_k,
                   "Mean rise of temperature where the chip leaves the edge, an estimate."),
    HALFNUT_FIGURE(CutAnswer, heat.heat_to_work_share,
                   "Share of the cutting power that goes into the work, an estimate."),
    HALFNUT_FIGURE(CutAnswer, heat.heat_to_work_w, "The same as power."),
    HALFNUT_FIGURE(CutAnswer, heat.heat_to_work_high_w, "The same at the upper edge of the force."),
    OWN(peck_depths_mm,
        "Drilling: depths at which the drill is withdrawn to clear its chips, the whole depth last."),
    OWN(force_verified, "Whether measured cuts of the alloy bear the band of the force out."),
    CUT(passes, "Passes in all."),
    CUT(passes_across, "Passes side by side."),
    CUT(passes_down, "Passes one below another."),
    OWN(spindle_step, "Place of the spindle step in the machine's list."),
    OWN(spindle_positions, "Where levers and belts of the spindle stand, in the machine's own words."),
    CUT(spindle_fit, "How the spindle step meets the window of speeds."),
    OWN(feed_step, "Place of the feed step in the machine's list, where the feed is one."),
    OWN(feed_positions, "Where the levers of the feed stand."),
    OWN(feed_marked, "The feed as the machine's chart marks it."),
    OWN(dial_slide, "Slide whose dial sets the depth."),
    OWN(dial_turns, "Turns of its handle from where the tool touches."),
    OWN(dial_line, "Line of its dial within the turn, to the nearest."),
    OWN(feed_said, "The feed to set; by hand, turns of the handle a minute."),
    CUT(feed_source,
        "step: a power feed of the machine; hand: the handle is turned; exact: no machine, or a thread."),
    CUT(limited_by, "What keeps the cut from being faster."),
    CUT(feed_limited_by, "What keeps the feed from being coarser."),
    HALFNUT_RECORDS(CutAnswer, limits, kLimitRecord, "Every limit that applies."),
    OWN(holds_at_edge,
        "Whether power, torque and deflection hold at the upper edge of the force; None without such a "
        "limit."),
    OWN(fluid, "Cutting fluid in one word."),
    OWN(lacking, "What the alloy's row is too poor to tell."),
    OWN(assumed, "What was not said and therefore taken, the tool first."),
    made_figure<&operation_said>("operation_said", "What is done, in words."),
    made_figure<&taken>("taken", "What was taken, but for what the answer shows beside it."),
    made_figure<&is_milled>("milled", "Whether a cutter of several teeth goes round."),
    made_figure<&setting_said>("setting_said", "The levers to set, in one line: spindle speed and feed."),
    made_figure<&is_by_hand>("by_hand", "A tap is better turned by hand: no reversing holder is known of."),
    made_figure<&spindle_text>("spindle_text",
                               "The spindle speed to set, with its levers as the plate has them."),
    made_figure<&feed_text>("feed_text", "The feed to set, with its levers."),
    made_figure<&dial_text>("dial_text", "The dial that sets the depth, from where the tool touches."),
    made_figure<&passes_said>("passes_said", "How many passes, or where a drill is withdrawn; none for one."),
    made_figure<&pecks_said>("pecks_said", "Depths at which the drill is drawn clear, but the last."),
    made_figure<&band>("band", "What the band of the force rests on: verified or unverified."),
    made_figure<&feed_limit>("feed_limit",
                             "What keeps the feed from being coarser, where it is something else."),
    made_records<kLimitRecord, &left>("left", "Other limits that are kept."),
    made_records<kLimitRecord, &over>("over", "Other limits that are passed."),
    made_figure<&edge_limits>(
        "edge_limits", "Limits that holds_at_edge speaks of: those passed, else all that follow the force."),
    OWN(told, "What a person should know."),
    OWN(evidence, "What each figure rests on."),
};
#undef OWN
#undef CUT

}  // namespace

constexpr std::array kCutSays{
    SaidRow{"feed", "{feed_text}"},
    SaidRow{"depth", "{depth_mm:size}[, {dial_text}][; {time_s}]"},
    SaidRow{"passes", "{passes_said}"},
    SaidRow{"limit", "{limited_by:limit}[; assumed {taken}]"},
    SaidRow{"of feed", "{feed_limit:limit}"},
    SaidRow{"helps", "{limited_by:help}[; {feed_limit:help}]"},
    SaidRow{"cut", "{operation_said} {alloy.title}, {diameter_mm:size}"},
    SaidRow{"assumed", "{assumed}"},
    SaidRow{"speed", "{cutting_speed_m_min}; window {window_low_m_min..window_high_m_min}"},
    SaidRow{"chip", "{chip_thickness_mm} thick"},
    SaidRow{"force",
            "{cutting_force_n:cut_force}[, likely {cutting_force_low_n..cutting_force_high_n:cut_force}: "
            "{band:band}]"},
    SaidRow{"along",
            "{cutting_force_n?}{feed_force_n:cut_force}[, across the feed {passive_force_n:cut_force}]"},
    SaidRow{"thrust",
            "{cutting_force_n!}{feed_force_n:cut_force}[, likely "
            "{feed_force_low_n..feed_force_high_n:cut_force}: {band:band}]"},
    SaidRow{"power",
            "{spindle_power_kw:cut_power}[, likely {spindle_power_low_kw..spindle_power_high_kw:cut_power}], "
            "at the spindle[; {motor_power_kw:cut_power} at the motor]"},
    SaidRow{"torque", "{torque_nm:cut_torque}[, removes {mrr_cm3_min}]"},
    SaidRow{"tool life", "{tool_life_min}[, likely {tool_life_low_min..tool_life_high_min}]: unverified"},
    SaidRow{"finish",
            "Ra {roughness_ra_um}, {said/geometry_alone}[{milled?}, one tooth leading][; likely "
            "{roughness_low_um..roughness_high_um}]"},
    SaidRow{"deflects",
            "{deflection_mm:fine}[, likely {deflection_low_mm..deflection_high_mm:fine}], [{milled?}of the "
            "cutter][{milled!}twice that on the diameter]"},
    SaidRow{"fluid", "{fluid}"},
    SaidRow{"*unknown", "lacking"},
    SaidRow{"heat",
            "chip about {chip_rise_k} hotter than the work; {heat_to_work_share:.0%} of the heat, "
            "{heat_to_work_w:.0f} W, "
            "into the work: estimates"},
    SaidRow{"time", "{time_s} for {travel_mm:size} of travel[, {hand_turns:.1f} turns of the handle]"},
    SaidRow{"left", "{left}"},
    SaidRow{"over", "{over}"},
    SaidRow{"",
            "{edge_limits:limit and}: [{holds_at_edge?}enough even][{holds_at_edge!}NOT enough] at the "
            "highest likely "
            "force"},
};
constinit const RecordRow kCutRecord{
    "Cut",
    "One cut: the levers to set and what it comes to.",
    kFigures,
    "spindle_rpm spindle_positions feed_said feed_positions",
    {"{setting_said}", kCutSays, "feed, depth, passes, limit", true, "{spindle_text}"}};

std::span<const Question* const> questions() noexcept {
    static const std::vector<const Question*> kAll = [] {
        std::vector<const Question*> out{&kHoldingTaper, &kGearTrain, &kTranslatingPairs, &kChase,
                                         &kKnurlSetup,   &kPositions, &kDivide,           &kPolygon,
                                         &kSineBar,      &kScrewHole, &kChoose,           &kForceBand};
        for (const std::span<const Question> some :
             {std::span<const Question>(kLatheQuestions), std::span<const Question>(kHoleQuestions),
              std::span<const Question>(kHoldingQuestions), std::span<const Question>(kShapeQuestions),
              std::span<const Question>(kMillQuestions), std::span<const Question>(&kLifeQuestion, 1),
              std::span<const Question>(kCensusQuestions)}) {
            for (const Question& each : some) {
                out.push_back(&each);
            }
        }
        return out;
    }();
    return kAll;
}

}  // namespace halfnut::cutting
