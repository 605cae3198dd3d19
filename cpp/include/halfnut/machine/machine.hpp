#pragma once
/// One machine of the shop, in its own terms: what its levers give and what its dials read.
///
/// A plain value, filled from a machine file. Lengths are in mm and speeds in rev/min; beside each figure
/// that is marked on the machine stands what is marked, in the machine's own unit.

#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/schema.hpp"

namespace halfnut::machine {

enum class Kind : std::uint8_t { lathe, mill, drill_press };

constexpr auto enum_names(Kind /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Kind::lathe, string_view("lathe")},
                      std::pair{Kind::mill, string_view("mill")},
                      std::pair{Kind::drill_press, string_view("drill press")}};
}

/// Where a lever, belt or switch stands: "range" at "B".
struct Position {
    std::string control;
    std::string setting;
};

/// A speed of the spindle. A drive that can be set to any speed is a step from rpm_low to rpm.
struct SpindleStep {
    double rpm = 0;
    double rpm_low = kNaN;       ///< lowest speed of a variable step; NaN: the step is one speed
    double power_kw = kNaN;      ///< what the spindle can give at rpm; NaN: motor power times efficiency
    double power_low_kw = kNaN;  ///< at rpm_low; NaN: falls with the speed, as at constant torque
    bool back_gear = false;
    bool stop_to_change = false;
    std::vector<Position> positions;

    [[nodiscard]] bool variable() const noexcept { return rpm_low < rpm; }
};

/// A power feed. On a lathe `feed_mm` is longitudinal travel a revolution; on a table, travel a minute.
struct FeedStep {
    double feed_mm = 0;
    double marked = 0;  ///< as on the chart, in the ladder's unit
    bool stop_to_change = false;
    std::vector<Position> positions;
};

/// What a ladder of feeds counts.
enum class FeedKind : std::uint8_t { per_rev, per_minute };

constexpr auto enum_names(FeedKind /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FeedKind::per_rev, string_view("per rev")},
                      std::pair{FeedKind::per_minute, string_view("per minute")}};
}

/// The power feeds of one train: the carriage, the quill, the table.
struct FeedLadder {
    FeedKind kind{};
    bool marked_in_inch = false;
    std::vector<FeedStep> steps;  ///< empty: hand feed only
    double cross_ratio = kNaN;    ///< cross travel over longitudinal travel; NaN: no power cross feed
};

/// A slide and its dial.
struct Slide {
    std::string name;               ///< "cross", "compound", "carriage", "tailstock", "quill", "x", "y", "z"
    double travel_per_turn_mm = 0;  ///< of the slide, for one turn of the handle
    double graduation_mm = 0;      ///< what one graduation is marked as: on the diameter where reads_diameter
    double marked_graduation = 0;  ///< the same, in the dial's unit
    bool marked_in_inch = false;
    bool reads_diameter = false;  ///< the dial counts twice the slide's travel
    double travel_mm = kNaN;      ///< how far it goes; NaN: not given
    double readout_mm = kNaN;     ///< resolution of a digital readout; NaN: none
    bool power_feed = false;
    double backlash_mm = kNaN;
    bool approach_minus = false;  ///< readings are come to the other way: wear or the operator's habit
};

/// Where the compound's angle scale reads zero.
enum class CompoundZero : std::uint8_t { none, along_axis, across_axis };

constexpr auto enum_names(CompoundZero /*tag*/) {
    using std::string_view;
    return std::array{std::pair{CompoundZero::none, string_view("none")},
                      std::pair{CompoundZero::along_axis, string_view("along the spindle axis")},
                      std::pair{CompoundZero::across_axis, string_view("across the spindle axis")}};
}

/// What holds the work and how fast it may turn.
struct Chuck {
    std::string name;
    int jaws = 0;  ///< 0: a collet, a faceplate or a driving plate
    double diameter_mm = 0;
    double rpm_limit = kNaN;   ///< as marked by its maker; NaN: not marked
    bool cast_iron = false;    ///< body of cast iron, or of unknown stuff
    double through_mm = kNaN;  ///< of the hole through its body
    double jaw_depth_mm = kNaN;
    double opening_least_mm = kNaN;  ///< smallest and greatest diameter that it grips from outside
    double opening_greatest_mm = kNaN;
    double jaw_mass_kg = kNaN;  ///< of one jaw with its top jaw
    double run_out_mm = kNaN;   ///< of work held anew in it, full indicator reading; NaN: as is usual
};

/// A thread or feed that the gearbox gives on its standard train.
struct GearboxStep {
    double ratio = 0;  ///< leadscrew turns for one turn of the spindle, on the standard train
    std::vector<Position> positions;
};

/// A row of the chart that hangs at the lathe: what it promises, and the gears and levers for it.
struct ChartRow {
    double lead_mm = kNaN;     ///< of the carriage for a turn of the spindle, as promised
    bool inch = false;         ///< promised as threads an inch
    std::vector<int> drivers;  ///< none: the gearbox's standard train
    std::vector<int> driven;
    std::vector<Position> positions;  ///< of the gearbox's levers
};

/// The leadscrew and what drives it.
struct Threading {
    double lead_mm = kNaN;           ///< lead of the screw, exact: 25.4 over its threads an inch; NaN: none
    double threads_per_inch = kNaN;  ///< as marked, where it is an inch screw
    bool metric = false;
    double spindle_to_stud = 1.0;    ///< stud turns for one turn of the spindle
    std::vector<int> gears;          ///< teeth of every change gear at hand, equal gears repeated
    double module_mm = kNaN;         ///< of the change gears
    double stud_to_screw_mm = kNaN;  ///< centre distance that a simple train must bridge
    double banjo_low_mm = kNaN;      ///< nearest and farthest place of an intermediate stud from the screw
    double banjo_high_mm = kNaN;
    double stud_clearance_mm = kNaN;  ///< radius free around the first stud
    double collar_mm = kNaN;          ///< diameter of the largest nut or collar on the shafts of the gears
    int standard_driver = 0;          ///< train that the gearbox chart holds for; 0: no gearbox
    int standard_driven = 0;
    std::vector<GearboxStep> gearbox;
    double dial_threads_per_turn = kNaN;  ///< leadscrew threads for one turn of the thread dial; NaN: none
    int dial_marks = 0;
    std::vector<ChartRow> chart;  ///< as printed at the lathe; checked, never computed with
};

struct Machine {
    std::string name;
    Kind kind{};
    bool inch = false;  ///< its dials and charts are in inches
    double motor_kw = kNaN;
    double efficiency = kNaN;          ///< from motor to spindle; NaN: a typical one, told in the evidence
    std::vector<SpindleStep> spindle;  ///< slow to fast
    FeedLadder carriage;               ///< a lathe's, per revolution
    FeedLadder quill;                  ///< a mill's or a drill press's, per revolution
    FeedLadder table;                  ///< a mill's, per minute
    std::vector<Slide> slides;
    CompoundZero compound_zero{};
    std::vector<Chuck> chucks;
    Threading threading;
    double centre_height_mm = kNaN;
    double swing_over_bed_mm = kNaN;          ///< diameter; NaN: twice the centre height
    double swing_over_cross_slide_mm = kNaN;  ///< diameter that the carriage passes under
    double swing_in_gap_mm = kNaN;            ///< diameter, with the gap open; NaN: no gap
    double between_centres_mm = kNaN;
    double spindle_bore_mm = kNaN;
    double spindle_length_mm = kNaN;  ///< from its nose to its rear end: there it guides a bar
    double torque_limit_nm = kNaN;    ///< of the spindle, where its maker gives one
    double lever_change_s = 5;        ///< for one change of levers while it runs
    double stop_change_s = 60;        ///< for one that needs the spindle stopped, belts and back gear
    double measure_s = 30;
    double tool_change_s = 60;
    /// What hands do at it: turns a minute of a handle, kept up steadily; seconds to see a mark and open the
    /// half nut; the fastest spindle that a reamer is fed at and a knurl's turns are counted at; slides that
    /// are wound at once. Practice of training at hand lathes and mills.
    double tailstock_turns_per_min = 60;  ///< of the tailstock's or the quill's handle
    double table_turns_per_min = 60;      ///< of a table's or a lathe slide's
    double half_nut_s = 1;
    double hand_ream_rpm = 400;
    double hand_knurl_rpm = 225;
    int hand_axes = 1;
    double tool_clearance_mm = kNaN;  ///< between a cut and the jaws, for tool and holder; NaN: 1 mm
    /// The dividing head: turns of its crank for one of the work, its plates as "15 16 17, 21 23 27", holes
    /// of the plate on its spindle.
    int dividing_ratio = 0;  ///< 0: none
    std::string dividing_plates;
    int direct_holes = 0;  ///< 0: none
};

/// A mistake or an oddity of a machine.
struct Problem {
    std::string where;  ///< such as "spindle[2].rpm"
    std::string text;   ///< what is wrong and what would be right
    bool odd = false;   ///< unlikely but possible; false: wrong
};

/// Everything wrong or odd with a machine; empty when there is nothing.
[[nodiscard]] std::vector<Problem> problems(const Machine& machine);

/// How a wanted spindle speed is met.
enum class SpindleFit : std::uint8_t {
    within,        ///< the step is in the window
    below_window,  ///< the machine has no step in the window; the next slower one is taken
    above_window,  ///< even the slowest step is above the window
    given,         ///< the speed was asked for
};

constexpr auto enum_names(SpindleFit /*tag*/) {
    using std::string_view;
    return std::array{std::pair{SpindleFit::within, string_view("within")},
                      std::pair{SpindleFit::below_window, string_view("below window")},
                      std::pair{SpindleFit::above_window, string_view("above window")},
                      std::pair{SpindleFit::given, string_view("given")}};
}

struct SpindleChoice {
    std::size_t step = 0;  ///< place in Machine::spindle
    double rpm = 0;
    SpindleFit fit{};
};

/// The fastest step that is not above a speed.
///
/// Given
///   machine   with at least one step
///   rpm_low   lower end of the window, > 0
///   rpm_high  upper end, >= rpm_low; the limits of chucks and work already applied
/// Returned
///   the step, and whether it lies in the window. With every step above the window, the slowest.
[[nodiscard]] SpindleChoice choose_spindle(const Machine& machine, double rpm_low, double rpm_high) noexcept;

/// The step nearest to a speed that was asked for; a variable step takes it exactly.
[[nodiscard]] SpindleChoice nearest_spindle(const Machine& machine, double rpm) noexcept;

/// Efficiency from motor to spindle at a step: the machine's own, or a typical one: 0.9 belt, 0.75 back gear.
[[nodiscard]] double efficiency_at(const Machine& machine, std::size_t step) noexcept;

/// Power that the spindle can give at a speed of a step; NaN when neither the step nor the motor says.
[[nodiscard]] double spindle_power_kw(const Machine& machine, std::size_t step, double rpm) noexcept;

/// The place of the feed to set for a wanted one: the largest not above it, else the smallest.
/// The ladder must have steps.
[[nodiscard]] std::size_t choose_feed(const FeedLadder& ladder, double wanted_mm) noexcept;

/// Turns a minute that hands keep up at the handle of a slide.
[[nodiscard]] double hand_turns_per_min(const Machine& machine, std::string_view slide) noexcept;

/// Slides that move at once: those that hands wind, and one more where the table has power feed.
[[nodiscard]] int axes_at_once(const Machine& machine) noexcept;

/// The slide of that name, or null.
[[nodiscard]] const Slide* find_slide(const Machine& machine, std::string_view name) noexcept;

/// Diameter that swings over the bed; NaN when the machine does not say.
[[nodiscard]] inline double swing_mm(const Machine& machine) noexcept {
    return machine.swing_over_bed_mm == machine.swing_over_bed_mm ? machine.swing_over_bed_mm
                                                                  : 2.0 * machine.centre_height_mm;
}

/// Speed that a chuck bears: as marked, else that of a cautious rim speed, 25 m/s.
[[nodiscard]] double chuck_rpm_limit(const Chuck& chuck) noexcept;

/// Rim speed taken for a chuck that carries no marked limit, m/s.
inline constexpr double kUnmarkedRimSpeedMs = 25.0;

}  // namespace halfnut::machine
