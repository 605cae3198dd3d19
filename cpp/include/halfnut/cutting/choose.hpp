#pragma once
/// The fastest passes for a turning, facing, boring or milling job on one machine's own levers and dials.
///
/// A job takes off a depth T: on the radius in turning and boring, along the axis in facing, down in milling.
/// A pass has a depth, a spindle step and a feed step. Depths are counted in lines of the dial that sets
/// them, from where the tool touches.
///
/// The family: passes are divided as a shop divides them, and the answer is the fastest of these, exactly.
///   rough       any number of passes with one speed and one feed, each ending on a whole ten of lines; on a
///               five, or on any line, where tens cost more than kTensCost of the time
///   finish      as closing.hpp says for the tolerance: one cut, by the dial where no tolerance is given,
///               else by the measurement before it; or two halves, measured before each. Work that needs no
///               roughing has two also where one would do, measured between them: only what the tool has cut
///               tells where it stands; one line of the dial is not divided. In milling one last pass of at
///               least 0.2 mm, measured before where a tolerance is given
///   levers      those of roughing, or others that can be set without stopping the spindle
///   spring      on a lathe the pass before a measurement deflects by at most a quarter of the cut that
///               follows; it and the single cut after it by at most a tenth of the tolerance
/// `single` asks for one pass instead.
///
/// Free choice, on request: any depths, with any levers in every pass; the last two are a pair, with the same
/// levers, the work measured between them. Of what is left before the pair the first takes half, in whole
/// lines, halves up.
///
/// The objective, in this order
///   1. time: for every pass cutting (approach and overrun in it), return stroke and setting of the dial;
///      every change of spindle step or feed step, the first setting in it; every measurement, that of the
///      finished work in it. Each of these is rounded to whole milliseconds, so that sums
///      do not hang on their order.
///   2. levers moved: controls whose setting differs, at least one for every change
///   3. speed: the sum over the passes of the spindle step's place among the speeds, slow to fast
///   4. of answers that are equal so far: the finishing cut nearest to 0.2 mm alone, 0.175 mm each of two;
///   the slower rough speed, the finer rough feed, the slower finishing speed, the finer finishing feed; from
///   the first pass on the deeper one. Free: from the first pass on the pair before a rough pass, the deeper
///   pass, the slower speed, the finer feed. So there is one answer
///
/// Costs
///   change     Machine::stop_change_s where either step needs the spindle stopped, else lever_change_s;
///              between two speeds of one variable step lever_change_s; nothing between two rates of a hand
///   return     the slide wound back at hand_turns_per_min turns of its handle, or by its fastest power feed
///              where that is faster; kReturnMmMin where the machine gives no dial for the slide
///   dial       dial_set_s for every pass
///
/// Speeds and feeds tried
///   every step of the machine; of a variable step the numbers of series R40 (ISO 3) within it and the ends
///   of every variable step, on the first step that reaches the speed; where there is no power feed
///   kHandRates turns of the handle a minute
///
/// What every pass keeps, computed as evaluate() computes it, forces at the upper edge of their band
///   speed window, chuck's speed, feed guide, feed for the nose, thinnest chip, power, torque, force on tool
///   and work, deflection, grip, tool life, depth of the edge; the last pass or pair also roughness, and
///   deflection within its share of the tolerance.
///
///   Limits on speed, feed, finish and depth of the edge hold up to a billionth above, the others, which are
///   computed, from a billionth below, so that evaluate() agrees whatever its rounding.
///
/// Method
///   Breadth first over the lines that are off, for each lever; free: dynamic programming over lines and
///   levers. Exact: choose_shop.hpp and choose_solver.hpp say why nothing that is skipped could be better.

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "halfnut/cutting/closing.hpp"
#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/turning.hpp"

namespace halfnut::cutting {

enum class ChooseCut : std::uint8_t { turn, face, bore, mill_slot, mill_side, mill_pocket, mill_face };

constexpr auto enum_names(ChooseCut /*tag*/) {
    using std::string_view;
    return std::array{std::pair{ChooseCut::turn, string_view("turn")},
                      std::pair{ChooseCut::face, string_view("face")},
                      std::pair{ChooseCut::bore, string_view("bore")},
                      std::pair{ChooseCut::mill_slot, string_view("mill slot")},
                      std::pair{ChooseCut::mill_side, string_view("mill side")},
                      std::pair{ChooseCut::mill_pocket, string_view("mill pocket")},
                      std::pair{ChooseCut::mill_face, string_view("mill face")}};
}

[[nodiscard]] constexpr bool is_milling(ChooseCut cut) noexcept {
    return cut >= ChooseCut::mill_slot;
}

/// Life that an edge has at least where none is asked for; common practice.
inline constexpr double kLeastEdgeLifeMin = 10.0;

/// What is asked for. NaN is not given.
struct ChooseRequest {
    ChooseCut cut{};
    Work work;
    ToolMaterial tool_material = ToolMaterial::hss;

    double diameter_mm = kNaN;  ///< of the work before turning or boring; of the face; of a cutter
    double to_mm = kNaN;        ///< turning, boring: diameter to reach
    double off_mm = kNaN;       ///< facing: along the axis; milling: down
    double end_diameter_mm = kNaN;
    double length_mm = kNaN;
    double width_mm = kNaN;  ///< milling: across, in all
    double teeth = kNaN;     ///< milling; NaN: usual_teeth()
    double bore_mm = kNaN;
    double stick_out_mm = kNaN;  ///< of the work, of a boring bar, of a cutter
    double bar_diameter_mm = kNaN;
    BarMaterial bar_material{};
    double nose_radius_mm = kNaN;
    double entering_deg = kNaN;
    double rake_deg = kNaN;
    double wear_factor = kNaN;
    double approach_mm = kNaN;
    double overrun_mm = kNaN;
    double step_over_mm = kNaN;  ///< milling: most across in one pass

    double tolerance_mm = kNaN;      ///< of the diameter, of a faced length, of a milled side; NaN: none
    double tolerance_share = kNaN;   ///< that the deflection may take; NaN: 0.5
    double deflection_mm = kNaN;     ///< that work, bar or cutter may bend in any pass; NaN: 0.1
    double roughness_um = kNaN;      ///< Ra of the last pass
    double life_min = kNaN;          ///< that the edge must last at least in every pass; NaN:
                                     ///< kLeastEdgeLifeMin, and the pass, where a life is tabulated
    double force_n = kNaN;           ///< that tool and work bear; NaN: no such limit
    double jaw_force_n = kNaN;       ///< of each jaw at rest; NaN: grip is not computed
    double grip_diameter_mm = kNaN;  ///< NaN: diameter_mm
    double friction = kNaN;          ///< NaN: 0.15
    double grip_safety = kNaN;       ///< NaN: 2
    double jaw_mass_kg = kNaN;       ///< NaN: the chuck's own; where it has none the grip is that at rest
    double jaw_radius_mm = kNaN;     ///< of its centre of mass; NaN: the chuck's rim
    double deepest_mm = kNaN;  ///< that the edge can cut; NaN: 2.5, milling the cutter's usual step down

    double dial_set_s = kNaN;          ///< NaN: 5
    double hand_turns_per_min = kNaN;  ///< of the handle when a slide is wound back; NaN: 60
    double stock_diameter_mm = kNaN;   ///< as for TurnRequest
    double stock_flats_mm = kNaN;
    double bar_length_mm = kNaN;
    double bar_behind_mm = kNaN;
    double span_mm = kNaN;
    double line_mm = kNaN;  ///< travel for one line where the machine has no dial; NaN: 0.01, inch 0.0005 in

    bool single = false;  ///< all in one finishing pass
    bool free = false;    ///< any depths with any levers, and a pair
    Hold hold{};
    int chuck = -1;
    int now_spindle = -1;  ///< step that is set now; -1: not known, so that setting it counts
    int now_feed = -1;
    int only_spindle = -1;             ///< the one step to choose among; -1: all
    const TurnedBeam* beam = nullptr;  ///< as for TurnRequest
};

inline constexpr double kToleranceShare = 0.5;
inline constexpr double kMostBendMm = 0.1;
inline constexpr double kGripFriction = 0.15;
inline constexpr double kGripSafety = 2.0;
inline constexpr double kDeepestMm = 2.5;
inline constexpr double kDialSetS = 5.0;
inline constexpr double kWindTurnsPerMin = 60.0;
inline constexpr double kReturnMmMin = 1000.0;
inline constexpr double kLineMm = 0.01;
inline constexpr double kInchLineMm = 0.0127;

/// Steady rates of a hand on a handle that are tried where there is no power feed, turns a minute: R5.
inline constexpr std::array kHandRates{1.0, 1.6, 2.5, 4.0, 6.3, 10.0, 16.0, 25.0, 40.0, 60.0};

/// Passes side by side that are tried in side and face milling: up to so many times the fewest.
inline constexpr int kMostAcross = 4;

/// Most steps that a depth is planned in; a greater depth counts every fifth, tenth, hundredth, ... line.
inline constexpr int kMostLines = 1000;

/// Share of the time that rough readings on whole tens, or fives, of lines may cost.
inline constexpr double kTensCost = 0.05;

/// The numbers of a request with their ranges.
inline constexpr std::array kChooseArguments{
    RequestArgument<ChooseRequest>{positive("diameter_mm", "mm"), &ChooseRequest::diameter_mm, true},
    RequestArgument<ChooseRequest>{positive("to_mm", "mm"), &ChooseRequest::to_mm, false,
                                   "be below the diameter before in turning, above it in boring"},
    RequestArgument<ChooseRequest>{positive("off_mm", "mm"), &ChooseRequest::off_mm, false,
                                   "be given for facing and milling"},
    RequestArgument<ChooseRequest>{not_negative("end_diameter_mm", "mm"), &ChooseRequest::end_diameter_mm,
                                   false, "be below diameter_mm"},
    RequestArgument<ChooseRequest>{positive("length_mm", "mm"), &ChooseRequest::length_mm, false,
                                   "be given, for there is no time without it"},
    RequestArgument<ChooseRequest>{positive("width_mm", "mm"), &ChooseRequest::width_mm, false,
                                   "be given, and at least the cutter's diameter for a slot or pocket"},
    RequestArgument<ChooseRequest>{between("flutes", 1.0, 60.0), &ChooseRequest::teeth},
    RequestArgument<ChooseRequest>{not_negative("bore_mm", "mm"), &ChooseRequest::bore_mm, false,
                                   "be below the finished diameter"},
    RequestArgument<ChooseRequest>{positive("stick_out_mm", "mm"), &ChooseRequest::stick_out_mm},
    RequestArgument<ChooseRequest>{positive("bar_diameter_mm", "mm"), &ChooseRequest::bar_diameter_mm, false,
                                   "be below diameter_mm"},
    RequestArgument<ChooseRequest>{not_negative("nose_radius_mm", "mm"), &ChooseRequest::nose_radius_mm},
    RequestArgument<ChooseRequest>{between("entering_deg", 10.0, 120.0, "deg"), &ChooseRequest::entering_deg},
    RequestArgument<ChooseRequest>{between("rake_deg", -30.0, 40.0, "deg"), &ChooseRequest::rake_deg},
    RequestArgument<ChooseRequest>{between("wear_factor", 1.0, 3.0), &ChooseRequest::wear_factor},
    RequestArgument<ChooseRequest>{not_negative("approach_mm", "mm"), &ChooseRequest::approach_mm},
    RequestArgument<ChooseRequest>{not_negative("overrun_mm", "mm"), &ChooseRequest::overrun_mm},
    RequestArgument<ChooseRequest>{positive("step_over_mm", "mm"), &ChooseRequest::step_over_mm, false,
                                   "be at most the cutter's diameter"},
    RequestArgument<ChooseRequest>{positive("tolerance_mm", "mm"), &ChooseRequest::tolerance_mm},
    RequestArgument<ChooseRequest>{between("tolerance_share", 0.01, 1.0), &ChooseRequest::tolerance_share},
    RequestArgument<ChooseRequest>{positive("deflection_mm", "mm"), &ChooseRequest::deflection_mm},
    RequestArgument<ChooseRequest>{positive("roughness_um", "um"), &ChooseRequest::roughness_um},
    RequestArgument<ChooseRequest>{positive("life_min", "min"), &ChooseRequest::life_min},
    RequestArgument<ChooseRequest>{positive("force_n", "N"), &ChooseRequest::force_n},
    RequestArgument<ChooseRequest>{positive("jaw_force_n", "N"), &ChooseRequest::jaw_force_n},
    RequestArgument<ChooseRequest>{positive("grip_diameter_mm", "mm"), &ChooseRequest::grip_diameter_mm},
    RequestArgument<ChooseRequest>{between("friction", 0.01, 1.0), &ChooseRequest::friction},
    RequestArgument<ChooseRequest>{between("grip_safety", 1.0, 20.0), &ChooseRequest::grip_safety},
    RequestArgument<ChooseRequest>{positive("jaw_mass_kg", "kg"), &ChooseRequest::jaw_mass_kg},
    RequestArgument<ChooseRequest>{positive("jaw_radius_mm", "mm"), &ChooseRequest::jaw_radius_mm},
    RequestArgument<ChooseRequest>{positive("deepest_mm", "mm"), &ChooseRequest::deepest_mm},
    RequestArgument<ChooseRequest>{not_negative("dial_set_s", "s"), &ChooseRequest::dial_set_s},
    RequestArgument<ChooseRequest>{positive("hand_turns_per_min", "1/min"),
                                   &ChooseRequest::hand_turns_per_min},
    RequestArgument<ChooseRequest>{positive("line_mm", "mm"), &ChooseRequest::line_mm},
    RequestArgument<ChooseRequest>{positive("stock_diameter_mm", "mm"), &ChooseRequest::stock_diameter_mm,
                                   false, "be at least diameter_mm"},
    RequestArgument<ChooseRequest>{positive("stock_flats_mm", "mm"), &ChooseRequest::stock_flats_mm},
    RequestArgument<ChooseRequest>{positive("bar_length_mm", "mm"), &ChooseRequest::bar_length_mm},
    RequestArgument<ChooseRequest>{not_negative("bar_behind_mm", "mm"), &ChooseRequest::bar_behind_mm, false,
                                   "be left away where bar_length_mm is given"},
    RequestArgument<ChooseRequest>{positive("span_mm", "mm"), &ChooseRequest::span_mm},
};

/// One pass.
struct ChosenPass {
    CutResult cut;  ///< as evaluate() has it at these levers and this depth
    double depth_mm = kNaN;
    double before_mm = kNaN;  ///< turning, boring: diameter; else what is off already
    double after_mm = kNaN;
    int line = 0;         ///< of the dial where the pass runs, from where the tool touched; the last: nearest
    bool finish = false;  ///< a finishing cut
    bool measure_before = false;
    bool by_measurement = false;  ///< set by what the measurement leaves, not by `line`
    bool slower_holds = false;    ///< the next slower speed keeps every limit too
    bool faster_holds = false;    ///< the next faster speed of the machine keeps every limit too
    double cut_s = 0;             ///< shares of the time
    double return_s = 0;
    double dial_s = 0;
    double change_s = 0;   ///< of the levers before this pass
    double measure_s = 0;  ///< before this pass
    int levers_moved = 0;
    std::vector<Limit> limits;  ///< every limit of the pass; value over limit, chip and life limit over value
};

/// A limit that makes the answer slower, and by how much.
struct LimitPrice {
    LimitCode code{};
    double saved_s = 0;  ///< without the limit
};

/// How far a limit would have to be relaxed for there to be an answer at all, all others kept.
struct Relaxation {
    LimitCode code{};
    double factor = kNaN;  ///< on the limit, above 1; a least chip or life is divided by it
};

/// One more thing, and what it would buy.
enum class GainCode : std::uint8_t {
    centre,        ///< a centre in the tailstock
    rake,          ///< six degrees more rake: a sharper tool
    stick_out,     ///< a quarter less stick-out
    spindle_step,  ///< a speed half way between the one used most and the next
    feed_step,     ///< a feed half way between the one used most and the next
};

constexpr auto enum_names(GainCode /*tag*/) {
    using std::string_view;
    return std::array{std::pair{GainCode::centre, string_view("centre")},
                      std::pair{GainCode::rake, string_view("rake")},
                      std::pair{GainCode::stick_out, string_view("stick_out")},
                      std::pair{GainCode::spindle_step, string_view("spindle_step")},
                      std::pair{GainCode::feed_step, string_view("feed_step")}};
}

struct Gain {
    GainCode code{};
    double saved_s = 0;  ///< of the answer's time; infinite where only this makes an answer
};

/// The best answer that leaves the levers of the first pass alone.
struct NextBest {
    double time_s = kNaN;  ///< NaN: there is none
    std::size_t passes = 0;
    double spindle_rpm = kNaN;  ///< of its first pass
    double feed_mm_rev = kNaN;
};

/// The answer. Without passes nothing keeps every limit, and `relaxations` say what stands in the way.
struct Passes {
    std::vector<ChosenPass> passes;
    double time_s = kNaN;
    int levers_moved = 0;
    double final_measure_s = 0;
    double line_mm = kNaN;      ///< travel for one line
    double remainder_mm = 0;    ///< of the last pass to the nearest line, along the slide
    bool readout = false;       ///< the slide has a readout, so that the remainder can be set
    bool dial_assumed = false;  ///< the machine gives no dial for the slide
    bool return_assumed = false;
    bool hand_fed = false;
    int across = 1;          ///< milling: passes side by side at each depth
    int lines_apart = 1;     ///< rough readings are whole multiples of so many lines
    Closing closing;         ///< of the size; in milling its way alone
    LimitCode limited_by{};  ///< the limit without which the answer would be quickest; none: no single one
    std::vector<LimitPrice> prices;       ///< explained: limits that cost time, the dearest first
    std::vector<Gain> gains;              ///< explained: what would save time, most first
    NextBest next;                        ///< explained
    std::vector<Relaxation> relaxations;  ///< without an answer: each alone would do, the least first
    bool together = false;                ///< no single one would do: all of these together
};

/// The fastest passes.
///
/// Given
///   catalogue   the tables
///   machine     a lathe for turning, facing, boring; a mill for milling
///   request     see ChooseRequest
///   explain     whether to compute prices, gains and the next best: each asks again
/// Returned
///   the passes, or why there are none
/// Errors
///   DomainError         a number out of its range, or one that contradicts another
///   NotTabulatedError   no speed for this material and tool
[[nodiscard]] Passes choose(const Catalogue& catalogue, const machine::Machine& machine,
                            const ChooseRequest& request, bool explain);

}  // namespace halfnut::cutting
