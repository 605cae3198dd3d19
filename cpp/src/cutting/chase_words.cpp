// What is said of chasing a thread: settings, the way of the dial, what to do at the lathe.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "halfnut/cutting/chasing.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

constexpr double kDegreesInFoot = 12.0;  // inches

std::string ordinal(int number) {
    return number == 2 ? "second" : number == 3 ? "third" : fmt::format("{}th", number);
}

/// An answer on its way into words.
class Told {
   public:
    explicit Told(const ChaseAnswer& chase)
        : chase_(chase),
          stop_(*std::find_if(chase.passes.begin(), chase.passes.end(),
                              [](const ChasedPass& each) { return each.pass.measure; })) {}

    [[nodiscard]] std::string passes() const {
        const std::string angle =
            chase_.compound_deg > 0.0
                ? fmt::format(" at {:g}°, marked {:g}", chase_.compound_deg, chase_.compound_marked_deg)
                : "";
        return fmt::format("{}: {} passes on the {}{}, {} lines; {} at line {}", chase_.thread,
                           chase_.passes.size(), chase_.slide, angle, chase_.passes.back().pass.line, trial(),
                           stop_.pass.line);
    }

    [[nodiscard]] std::string dial() const {
        std::vector<std::string> lines;
        for (const ChasedPass& each : chase_.passes) {
            lines.push_back(
                fmt::format("{}{}", each.pass.line, each.pass.measure ? fmt::format(" ({})", trial()) : ""));
        }
        const std::string angle =
            chase_.compound_marked_deg > 0.0 ? fmt::format(" at {:g}", chase_.compound_marked_deg) : "";
        return fmt::format("{}{}, touch = 0, then lines {}", chase_.slide, angle, joined(lines, " "));
    }

    [[nodiscard]] std::vector<std::string> stages() const {
        std::vector<std::string> out;
        for (auto each = chase_.passes.begin() + (stop_.number - 1); each != chase_.passes.end(); ++each) {
            std::string read;
            if (chase_.taper) {
                read = fmt::format("{:.1f} turns of the gauge, ", gauge_turns(each->left_mm));
            } else if (!std::isnan(each->over_wires_mm)) {
                read = fmt::format("{} {}, ", over(), length(each->over_wires_mm));
            }
            out.push_back(
                fmt::format("line {}, the dial at {}: {}{} left on the pitch diameter, {:.1f} lines",
                            each->pass.line, each->at, read, length(each->left_mm), each->left_lines));
        }
        return out;
    }

    /// Where the thread is within its limits, as its last reading tells it.
    [[nodiscard]] std::optional<std::string> good() const {
        const ChasedPass& last = chase_.passes.back();
        if (std::isnan(last.over_wires_mm) || std::isnan(chase_.wire_mm)) {
            return std::nullopt;
        }
        const double more = last.over_wires_mm - last.pass.pitch_diameter_mm;
        return fmt::format("{} {} of {}",
                           spell_span(chase_.pitch_min_mm + more, chase_.pitch_max_mm + more,
                                      FigureKind::length, system_of(chase_.unit)),
                           over(), length(chase_.wire_mm));
    }

    [[nodiscard]] std::optional<std::string> feed() const {
        if (!chase_.train) {
            return std::nullopt;
        }
        std::vector<std::string> out;
        if (!chase_.train->standard) {
            out.push_back("change gears " + chase_.train->gears);
        }
        if (!chase_.train->positions.empty()) {
            out.push_back(levers_said(chase_.train->positions));
        }
        return joined(out, ", ");
    }

    [[nodiscard]] std::vector<std::string> steps() const {
        std::vector<std::string> out{blank(), compound()};
        const GearTrainAnswer* const train = chase_.train ? &*chase_.train : nullptr;
        if (train != nullptr && !train->standard) {
            out.push_back(fmt::format("Change gears {}: {}, {}.", train->gears, train->error_said,
                                      enum_name(train->mounting)));
        }
        const std::string ground = chase_.nose_radius_mm > 0.0 ? "round " + length(chase_.nose_radius_mm)
                                                               : "flat " + length(chase_.nose_flat_mm);
        out.push_back(fmt::format(
            "Tool: nose {}; side clearance {:.0f} degrees on the leading side, {:.0f} on the other.", ground,
            chase_.leading_clearance_deg, chase_.trailing_clearance_deg));
        out.push_back(half_nut());
        if (chase_.hand == "left") {
            out.emplace_back(
                "Left-hand: groove first, leadscrew reversed; start in the groove and cut towards the "
                "tailstock. The clearances change sides.");
        }
        if (!std::isnan(chase_.stop_run_out_mm)) {
            out.push_back(fmt::format(
                "Too fast to stop here by hand: the tool upside down, the spindle reversed, cutting "
                "from the groove away from the shoulder; or a groove {} wide; or a crank on the "
                "spindle.",
                length(chase_.stop_run_out_mm)));
        }
        out.push_back(
            fmt::format("Touch the {}, set the dial to 0, and cut to line {} by the table. Repeat the "
                        "last pass without feeding in until nothing more comes off, and {}.",
                        inner() ? "bore" : "blank", stop_.pass.line, trial()));
        out.push_back(closing());
        if (!std::isnan(chase_.start_shift_mm)) {
            out.push_back(
                fmt::format("Next start: with the same dial readings, after moving the compound {} "
                            "along the work; {} starts.",
                            length(chase_.start_shift_mm), chase_.starts));
            if (train != nullptr && train->index_teeth) {
                out.push_back("Or by the gears: " + train->indexing.value_or(""));
            }
        }
        return out;
    }

   private:
    [[nodiscard]] bool inner() const { return chase_.side == threads::Side::internal; }
    [[nodiscard]] const char* over() const { return inner() ? "across balls" : "over wires"; }
    [[nodiscard]] const char* trial() const { return chase_.taper ? "try the gauge" : "measure"; }
    [[nodiscard]] std::string length(double mm) const {
        return spell(mm, FigureKind::length, system_of(chase_.unit));
    }
    /// Turns by which a change of the pitch diameter moves the gauge of a taper thread.
    [[nodiscard]] double gauge_turns(double on_diameter_mm) const {
        return on_diameter_mm / (chase_.taper->taper_on_diameter * chase_.lead_mm);
    }

    [[nodiscard]] std::string blank() const {
        const std::string chamfer = fmt::format("chamfer {} at 45 degrees", length(chase_.chamfer_mm));
        if (!chase_.taper) {
            const std::string groove =
                chase_.run_out_mm <= 0.0
                    ? ""
                    : fmt::format("; before a shoulder a groove {} wide at {}, corners rounded {}",
                                  length(chase_.groove_width_mm), length(chase_.groove_diameter_mm),
                                  length(chase_.groove_radius_mm));
            return fmt::format("{} to {}, {}{}.", inner() ? "Bore" : "Turn", length(chase_.blank_mm), chamfer,
                               groove);
        }
        const GaugePlane& pipe = *chase_.taper;
        const std::string attachment =
            fmt::format("Set the taper attachment to {:.4f} degrees, {:g} in per foot on the diameter",
                        pipe.compound_setting_deg, kDegreesInFoot * pipe.taper_on_diameter);
        const std::string wide = length(chase_.blank_mm);
        const std::string small = length(chase_.blank_mm - pipe.taper_on_diameter * pipe.hand_engagement_mm);
        const std::string away = length(pipe.hand_engagement_mm);
        return inner() ? fmt::format(
                             "{}, the large end at the mouth. Bore to {} at the mouth, {} at a depth of "
                             "{}, {}.",
                             attachment, wide, small, away, chamfer)
                       : fmt::format(
                             "{}, the small end at the end of the pipe. Turn to {} at the end, {} at {} "
                             "from it, {}; the thread runs out on the taper, without a groove.",
                             attachment, small, wide, away, chamfer);
    }

    [[nodiscard]] std::string compound() const {
        const char* const square =
            chase_.taper ? "Set the tool square to the axis by a centre gauge, not to the taper."
                         : "Set the tool square by a centre gauge.";
        if (!std::isnan(chase_.compound_deg)) {
            return fmt::format(
                "Set the compound to {:g} on its scale, {:g} degrees from square to the work. {}",
                chase_.compound_marked_deg, chase_.compound_deg, square);
        }
        return chase_.infeed == Infeed::alternating
                   ? fmt::format("Set the compound along the work; it shifts the tool. {}", square)
                   : square;
    }

    [[nodiscard]] std::string half_nut() const {
        if (!chase_.dial_every) {
            return "Keep the half nut closed and reverse the spindle, unless the lathe's own chart says "
                   "where it "
                   "fits.";
        }
        const int every = *chase_.dial_every;
        if (every == 0) {
            std::vector<std::string> wheels;
            for (const int wheel : chase_.dial_wheels) {
                wheels.push_back(fmt::format("{}", wheel));
            }
            return fmt::format(
                "No mark of the thread dial fits: keep the half nut closed, draw the tool out as "
                "the spindle stops, and run back with the spindle reversed.{}",
                wheels.empty() ? ""
                               : fmt::format(" A wheel of {} teeth on the dial would let it open.",
                                             joined(wheels, ", ")));
        }
        if (every == 1) {
            return "Close the half nut at any mark of the thread dial.";
        }
        if (every == chase_.dial_marks) {
            return "Close the half nut at one mark of the thread dial, always the same.";
        }
        return fmt::format("Close the half nut at every {} mark of the thread dial, counted from the first.",
                           ordinal(every));
    }

    /// From the first measurement to the size.
    [[nodiscard]] std::string closing() const {
        const std::string taken = length(chase_.schedule.line_on_pitch_diameter_mm);
        if (!std::isnan(chase_.wire_mm) && !std::isnan(stop_.over_wires_mm)) {
            const std::string target =
                length(stop_.over_wires_mm + (inner() ? stop_.left_mm : -stop_.left_mm));
            const std::string how = inner() ? fmt::format("Across balls of {}: subtract the reading from {}",
                                                          length(chase_.wire_mm), target)
                                            : fmt::format("Over wires of {}: subtract {} from the reading",
                                                          length(chase_.wire_mm), target);
            return fmt::format(
                "{}; a line takes off {}. Go half of the lines left, repeat without feeding in, "
                "measure, go the rest. Never round up.",
                how, taken);
        }
        if (chase_.taper) {
            return fmt::format(
                "Screw the taper {} on by hand: right where its step is flush with {}, within {:g} turn{}. A "
                "line "
                "brings it {:.2f} turns further. Go half of the lines that are left, repeat without feeding "
                "in, "
                "try it, go the rest. Never round up.",
                inner() ? "plug" : "ring", inner() ? "the mouth" : "the end of the pipe",
                chase_.taper->tolerance_turns, chase_.taper->tolerance_turns == 1.0 ? "" : "s",
                gauge_turns(chase_.schedule.line_on_pitch_diameter_mm));
        }
        return fmt::format(
            "A line takes {} off the pitch diameter. Go half of the lines that are left, repeat "
            "without feeding in, measure or try the gauge, go the rest. Never round up.",
            taken);
    }

    const ChaseAnswer& chase_;
    const ChasedPass& stop_;
};

}  // namespace

void say(ChaseAnswer& chase) {
    for (ChasedPass& each : chase.passes) {
        each.at =
            fmt::format("{}{}", each.turns == 0 ? "" : counted(each.turns, "turn") + " and ", each.dial);
    }
    if (!std::isnan(chase.spindle_rpm)) {
        const std::string levers =
            chase.spindle_positions.empty() ? "" : ": " + levers_said(chase.spindle_positions);
        chase.spindle_said = fmt::format("{:.0f} rev/min{}", chase.spindle_rpm, levers);
    }
    const Told told(chase);
    chase.said = told.passes();
    chase.dial_said = told.dial();
    chase.stages = told.stages();
    chase.good = told.good();
    chase.feed_said = told.feed();
    chase.steps = told.steps();
}

}  // namespace halfnut::cutting
