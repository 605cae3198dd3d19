#pragma once
/// Chasing as a person asks for it: a thread, the lathe and the tool at hand; the passes on the lathe's own
/// dial.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "halfnut/cutting/chase.hpp"
#include "halfnut/cutting/gears.hpp"
#include "halfnut/cutting/questions.hpp"

namespace halfnut::cutting {

struct ChaseAsk {
    TurnRequest cut;  ///< of it the length of the thread and how the work is held
    std::string alloy;
    std::string tool;
    const machine::Machine* machine = nullptr;
    Holder chuck;
    Stock stock;
    std::vector<WorkSection> sections;  ///< as for LatheAsk
    double cut_at_mm = 0.0;
    threads::PartAsked thread;
    Infeed infeed = Infeed::flank;
    double compound_deg = kNaN;
    double blank_mm = kNaN;
    double pitch_diameter_mm = kNaN;
    double nose_radius_mm = kNaN;
    double nose_flat_mm = kNaN;
    double first_mm = kNaN;
    double least_mm = kNaN;
    bool equal_depths = false;
    double force_limit_n = kNaN;
    double run_out_mm = kNaN;
    double reaction_s = kNaN;
    double wire_mm = kNaN;
};

/// One pass: where the dial stands, and what the thread measures after it.
struct ChasedPass {
    int number = 0;
    ChasePass pass;
    double over_wires_mm = kNaN;
    double left_mm = kNaN;
    double left_lines = kNaN;
    int turns = 0;
    int dial = 0;
    std::string at;  ///< turns and line of the dial in words
};

/// Where a taper thread is cut and gauged.
struct GaugePlane {
    double compound_setting_deg = kNaN;
    double taper_on_diameter = kNaN;
    double hand_engagement_mm = kNaN;
    double tolerance_turns = kNaN;
    double thread_height_mm = kNaN;
};

/// How to chase a thread. NaN where a figure does not apply.
struct ChaseAnswer {
    std::string thread;
    threads::Side side{};
    std::string unit = "mm";
    Infeed infeed{};
    std::string slide;
    double line_mm = kNaN;
    double compound_deg = kNaN;
    double compound_marked_deg = kNaN;
    double blank_mm = kNaN;
    double pitch_diameter_mm = kNaN;
    double pitch_max_mm = kNaN;
    double pitch_min_mm = kNaN;
    double half_angle_deg = kNaN;
    double nose_radius_mm = 0.0;
    double nose_flat_mm = 0.0;
    double root_mm = kNaN;
    double cross_travel_mm = kNaN;
    ChaseSchedule schedule;
    double lead_mm = kNaN;
    int starts = 1;
    double start_shift_mm = kNaN;
    std::string hand;
    double lead_angle_deg = kNaN;
    double leading_clearance_deg = kNaN;
    double trailing_clearance_deg = kNaN;
    double chamfer_mm = kNaN;
    double run_out_mm = kNaN;
    double groove_width_mm = kNaN;
    double groove_diameter_mm = kNaN;
    double groove_radius_mm = kNaN;
    double spindle_rpm = kNaN;
    std::vector<std::pair<std::string, std::string>> spindle_positions;
    double stopping_rpm = kNaN;
    double stop_run_out_mm = kNaN;
    std::optional<int> dial_every;
    std::optional<int> dial_marks;
    std::vector<int> dial_wheels;
    std::optional<GearTrainAnswer> train;
    double wire_mm = kNaN;
    std::optional<GaugePlane> taper;
    std::vector<ChasedPass> passes;
    bool repeats = true;
    double most_force_n = kNaN;
    std::optional<CutAnswer> cut;
    // as it is said
    std::string said;
    std::optional<std::string> spindle_said;
    std::optional<std::string> feed_said;
    std::string dial_said;
    std::optional<std::string> good;
    std::vector<std::string> stages;
    std::vector<std::string> steps;
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kChase;

/// How to cut a thread with a single point on a lathe: blank, settings, passes on the dial, readings.
///
/// Errors
///   DomainError        sizes that do not go together, a force limit that cannot be kept
///   NotTabulatedError  no such alloy or tool
/// Example
///   M24x1.5-6g: the last pass at line 106, measured first at line 90
[[nodiscard]] ChaseAnswer chase(const ChaseAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
