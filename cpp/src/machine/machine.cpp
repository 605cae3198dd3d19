#include "halfnut/machine/machine.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "halfnut/core/error.hpp"
#include "halfnut/machine/dividing.hpp"
#include "halfnut/machine/gear_train.hpp"

namespace halfnut::machine {
namespace {

constexpr double kTypicalEfficiency = 0.9;
constexpr double kTypicalBackGearEfficiency = 0.75;
constexpr double kChartWrong = 1e-3;  // relative error of a lead: more is a wrong row, less an approximation
constexpr double kChartExact = 1e-9;

/// Collects problems under a prefix.
class Inspector {
   public:
    explicit Inspector(std::vector<Problem>& found) : found_(found) {}

    void wrong(const std::string& where, std::string text) {
        found_.push_back({where, std::move(text), false});
    }
    void odd(const std::string& where, std::string text) { found_.push_back({where, std::move(text), true}); }

    void positive(const std::string& where, double value, std::string_view unit) {
        if (!(std::isfinite(value) && value > 0.0)) {
            wrong(where, fmt::format("must be > 0 {}, got {}", unit, value));
        }
    }
    /// NaN means not given.
    void positive_if_given(const std::string& where, double value, std::string_view unit) {
        if (!std::isnan(value)) {
            positive(where, value, unit);
        }
    }

   private:
    std::vector<Problem>& found_;
};

void inspect_spindle(const Machine& machine, Inspector& inspector) {
    if (machine.spindle.empty()) {
        inspector.wrong("spindle", "needs at least one step");
    }
    for (std::size_t i = 0; i < machine.spindle.size(); ++i) {
        const SpindleStep& step = machine.spindle[i];
        const std::string where = fmt::format("spindle[{}]", i);
        inspector.positive(where + ".rpm", step.rpm, "rev/min");
        inspector.positive_if_given(where + ".rpm_low", step.rpm_low, "rev/min");
        inspector.positive_if_given(where + ".power_kw", step.power_kw, "kW");
        inspector.positive_if_given(where + ".power_low_kw", step.power_low_kw, "kW");
        if (step.rpm_low > step.rpm) {
            inspector.wrong(where + ".rpm_low",
                            fmt::format("must be at most rpm, {}, got {}", step.rpm, step.rpm_low));
        }
        if (step.rpm > 10000.0) {
            inspector.odd(where + ".rpm",
                          fmt::format("{} rev/min is more than a lathe or mill turns", step.rpm));
        }
        if (i > 0 && machine.spindle[i - 1].rpm >= step.rpm) {
            inspector.wrong(where + ".rpm", fmt::format("steps run from slow to fast; {} follows {}",
                                                        step.rpm, machine.spindle[i - 1].rpm));
        }
        if (step.power_kw > machine.motor_kw) {
            inspector.odd(where + ".power_kw",
                          fmt::format("{} kW at the spindle is more than the motor's {} kW", step.power_kw,
                                      machine.motor_kw));
        }
    }
}

void inspect_ladder(const FeedLadder& ladder, const std::string& where, Inspector& inspector) {
    inspector.positive_if_given(where + ".cross_ratio", ladder.cross_ratio, "");
    for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
        const std::string at = fmt::format("{}[{}]", where, i);
        inspector.positive(at, ladder.steps[i].feed_mm,
                           ladder.kind == FeedKind::per_rev ? "mm/rev" : "mm/min");
        if (i > 0 && ladder.steps[i - 1].feed_mm >= ladder.steps[i].feed_mm) {
            inspector.wrong(at, fmt::format("feeds run from fine to coarse; {} follows {}",
                                            ladder.steps[i].marked, ladder.steps[i - 1].marked));
        }
        if (ladder.kind == FeedKind::per_rev && ladder.steps[i].feed_mm > 5.0) {
            inspector.odd(at, fmt::format("{:.3g} mm a revolution is a pitch rather than a feed",
                                          ladder.steps[i].feed_mm));
        }
    }
}

void inspect_slides(const Machine& machine, Inspector& inspector) {
    for (std::size_t i = 0; i < machine.slides.size(); ++i) {
        const Slide& slide = machine.slides[i];
        const std::string where = "slide." + slide.name;
        inspector.positive(where + ".travel_per_turn", slide.travel_per_turn_mm, "mm");
        inspector.positive(where + ".graduation", slide.graduation_mm, "mm");
        inspector.positive_if_given(where + ".travel", slide.travel_mm, "mm");
        inspector.positive_if_given(where + ".readout", slide.readout_mm, "mm");
        for (std::size_t other = 0; other < i; ++other) {
            if (machine.slides[other].name == slide.name) {
                inspector.wrong(where, "is given twice");
            }
        }
        const double dial_turn = slide.travel_per_turn_mm * (slide.reads_diameter ? 2.0 : 1.0);
        const double marks = dial_turn / slide.graduation_mm;
        if (std::isfinite(marks) && std::abs(marks - std::round(marks)) > 1e-6 * marks) {
            inspector.odd(
                where + ".graduation",
                fmt::format("one turn is {:.6g} graduations, not a whole number; does the dial read {}?",
                            marks, slide.reads_diameter ? "the radius" : "the diameter"));
        }
    }
}

void inspect_chucks(const Machine& machine, Inspector& inspector) {
    for (std::size_t i = 0; i < machine.chucks.size(); ++i) {
        const Chuck& chuck = machine.chucks[i];
        const std::string where = fmt::format("chuck[{}]", i);
        inspector.positive(where + ".diameter", chuck.diameter_mm, "mm");
        inspector.positive_if_given(where + ".rpm_limit", chuck.rpm_limit, "rev/min");
        if (chuck.jaws != 0 && (chuck.jaws < 2 || chuck.jaws > 8)) {
            inspector.wrong(where + ".jaws",
                            fmt::format("must be 0 (no jaws) or 2 to 8, got {}", chuck.jaws));
        }
        inspector.positive_if_given(where + ".through", chuck.through_mm, "mm");
        inspector.positive_if_given(where + ".jaw_depth", chuck.jaw_depth_mm, "mm");
        inspector.positive_if_given(where + ".opening_least", chuck.opening_least_mm, "mm");
        inspector.positive_if_given(where + ".opening_greatest", chuck.opening_greatest_mm, "mm");
        inspector.positive_if_given(where + ".jaw_mass", chuck.jaw_mass_kg, "kg");
        inspector.positive_if_given(where + ".run_out", chuck.run_out_mm, "mm");
        if (chuck.opening_least_mm >= chuck.opening_greatest_mm) {
            inspector.wrong(where + ".opening_least",
                            fmt::format("must be below opening_greatest, {:.5g} mm, got {:.5g} mm",
                                        chuck.opening_greatest_mm, chuck.opening_least_mm));
        }
        const double rim_m_s = std::numbers::pi * chuck.diameter_mm / 1000.0 * chuck.rpm_limit / 60.0;
        if (rim_m_s > 50.0) {
            inspector.odd(where + ".rpm_limit",
                          fmt::format("the rim would run at {:.0f} m/s; read the marking again", rim_m_s));
        }
    }
}

/// What hands do; beyond these no one keeps it up.
void inspect_hands(const Machine& machine, Inspector& inspector) {
    constexpr double kMostTurns = 90.0;
    const auto turns = [&](const std::string& where, double value) {
        inspector.positive(where, value, "turns a minute");
        if (value > kMostTurns) {
            inspector.odd(where, fmt::format("{} turns a minute is more than hands keep up", value));
        }
    };
    turns("hands.tailstock_turns", machine.tailstock_turns_per_min);
    turns("hands.table_turns", machine.table_turns_per_min);
    inspector.positive("hands.half_nut", machine.half_nut_s, "s");
    inspector.positive("hands.ream_rpm", machine.hand_ream_rpm, "rev/min");
    inspector.positive("hands.knurl_rpm", machine.hand_knurl_rpm, "rev/min");
    if (machine.hand_axes < 1 || machine.hand_axes > 3) {
        inspector.wrong("hands.axes", fmt::format("must be from 1 to 3, got {}", machine.hand_axes));
    }
}

void inspect_dividing(const Machine& machine, Inspector& inspector) {
    if (machine.dividing_ratio < 0 || machine.dividing_ratio > kMostDividingRatio) {
        inspector.wrong("dividing.ratio", fmt::format("must be from 1 to {}, got {}", kMostDividingRatio,
                                                      machine.dividing_ratio));
    }
    if (machine.direct_holes < 0 || machine.direct_holes > kMostCircle) {
        inspector.wrong("dividing.direct",
                        fmt::format("must be from 1 to {}, got {}", kMostCircle, machine.direct_holes));
    }
    try {
        (void)index_plates("dividing.plates", machine.dividing_plates);
    } catch (const DomainError& error) {
        inspector.wrong("dividing.plates", error.what());
    }
}

std::string lead_text(double lead_mm, bool inch) {
    return inch ? fmt::format("{:.7g} threads an inch", 25.4 / lead_mm) : fmt::format("{:.7g} mm", lead_mm);
}

/// The gears of a row as a chart writes them: 24/80 × 63/60.
std::string row_text(const ChartRow& row) {
    std::string out;
    for (std::size_t i = 0; i < std::min(row.drivers.size(), row.driven.size()); ++i) {
        out += fmt::format("{}{}/{}", i == 0 ? "" : " × ", row.drivers[i], row.driven[i]);
    }
    return out.empty() ? "the gearbox" : out;
}

void inspect_chart(const Threading& threading, Inspector& inspector) {
    for (std::size_t i = 0; i < threading.chart.size(); ++i) {
        const ChartRow& row = threading.chart[i];
        const std::string where = fmt::format("threading.chart[{}]", i);
        if (row.drivers.size() != row.driven.size()) {
            inspector.wrong(where,
                            fmt::format("has {} drivers and {} driven gears; a train has as many of each",
                                        row.drivers.size(), row.driven.size()));
            continue;
        }
        const double gives = chart_lead_mm(threading, row);
        if (std::isnan(gives)) {
            inspector.wrong(where,
                            threading.gearbox.empty() ? "names no gears" : "names no step of the gearbox");
            continue;
        }
        const double error = gives / row.lead_mm - 1.0;
        const std::string gears = row_text(row);
        if (std::abs(error) > kChartWrong) {
            inspector.wrong(where, fmt::format("{} gives {}, the chart says {}", gears,
                                               lead_text(gives, row.inch), lead_text(row.lead_mm, row.inch)));
        } else if (std::abs(error) > kChartExact) {
            inspector.odd(where, fmt::format("{} gives {}, {:+.3g} % of what the chart says", gears,
                                             lead_text(gives, row.inch), error * 100.0));
        }
        std::vector<int> held = threading.gears;
        for (const std::vector<int>* side : {&row.drivers, &row.driven}) {
            for (const int teeth : *side) {
                const auto found = std::find(held.begin(), held.end(), teeth);
                if (found == held.end()) {
                    inspector.odd(
                        where, fmt::format("needs a gear of {} teeth, which is not among the gears", teeth));
                } else {
                    held.erase(found);
                }
            }
        }
    }
}

void inspect_swing(const Machine& machine, Inspector& inspector) {
    inspector.positive_if_given("swing_over_bed", machine.swing_over_bed_mm, "mm");
    inspector.positive_if_given("swing_over_cross_slide", machine.swing_over_cross_slide_mm, "mm");
    inspector.positive_if_given("swing_in_gap", machine.swing_in_gap_mm, "mm");
    const double swing = swing_mm(machine);
    constexpr double kMarked = 0.05;  // a swing is marked in round figures
    if (std::abs(swing - 2.0 * machine.centre_height_mm) > kMarked * swing) {
        inspector.odd("swing_over_bed", fmt::format("{:.5g} mm, and twice the centre height is {:.5g} mm",
                                                    swing, 2.0 * machine.centre_height_mm));
    }
    if (machine.swing_over_cross_slide_mm >= swing) {
        inspector.wrong("swing_over_cross_slide",
                        fmt::format("must be below the swing over the bed, {:.5g} mm, got {:.5g} mm", swing,
                                    machine.swing_over_cross_slide_mm));
    }
    if (machine.swing_in_gap_mm <= swing) {
        inspector.wrong("swing_in_gap",
                        fmt::format("must be above the swing over the bed, {:.5g} mm, got {:.5g} mm", swing,
                                    machine.swing_in_gap_mm));
    }
}

void inspect_threading(const Threading& threading, Inspector& inspector) {
    inspector.positive_if_given("leadscrew.lead", threading.lead_mm, "mm");
    inspector.positive("leadscrew.spindle_to_stud", threading.spindle_to_stud, "");
    for (const int teeth : threading.gears) {
        if (teeth < 10 || teeth > 200) {
            inspector.wrong("leadscrew.gears",
                            fmt::format("a change gear has 10 to 200 teeth, got {}", teeth));
        }
    }
    for (std::size_t i = 0; i < threading.gearbox.size(); ++i) {
        inspector.positive(fmt::format("leadscrew.gearbox[{}].ratio", i), threading.gearbox[i].ratio, "");
    }
    inspect_chart(threading, inspector);
}

}  // namespace

std::vector<Problem> problems(const Machine& machine) {
    std::vector<Problem> found;
    Inspector inspector(found);
    if (machine.name.empty()) {
        inspector.wrong("name", "is missing");
    }
    inspector.positive_if_given("motor", machine.motor_kw, "kW");
    if (machine.motor_kw > 30.0) {
        inspector.odd("motor", fmt::format("{} kW is large for a one-off shop's machine; is the unit right?",
                                           machine.motor_kw));
    }
    if (!std::isnan(machine.efficiency) && !(machine.efficiency > 0.0 && machine.efficiency <= 1.0)) {
        inspector.wrong("efficiency",
                        fmt::format("must be above 0 and at most 1, got {}", machine.efficiency));
    }
    inspect_spindle(machine, inspector);
    inspect_ladder(machine.carriage, "feeds", inspector);
    inspect_ladder(machine.quill, "quill_feeds", inspector);
    inspect_ladder(machine.table, "table_feeds", inspector);
    inspect_slides(machine, inspector);
    inspect_chucks(machine, inspector);
    inspect_threading(machine.threading, inspector);
    inspector.positive_if_given("centre_height", machine.centre_height_mm, "mm");
    inspect_swing(machine, inspector);
    inspector.positive_if_given("between_centres", machine.between_centres_mm, "mm");
    inspector.positive_if_given("spindle_bore", machine.spindle_bore_mm, "mm");
    inspector.positive_if_given("spindle_length", machine.spindle_length_mm, "mm");
    inspector.positive_if_given("torque_limit", machine.torque_limit_nm, "N m");
    inspect_hands(machine, inspector);
    inspect_dividing(machine, inspector);
    inspector.positive_if_given("tool_clearance", machine.tool_clearance_mm, "mm");
    for (const auto& [where, seconds] : {std::pair{"seconds.lever_change", machine.lever_change_s},
                                         std::pair{"seconds.stop_change", machine.stop_change_s},
                                         std::pair{"seconds.measure", machine.measure_s},
                                         std::pair{"seconds.tool_change", machine.tool_change_s}}) {
        if (!(std::isfinite(seconds) && seconds >= 0.0)) {
            inspector.wrong(where, fmt::format("must be >= 0 s, got {}", seconds));
        }
    }
    return found;
}

SpindleChoice choose_spindle(const Machine& machine, double rpm_low, double rpm_high) noexcept {
    // The same speed reached by another way of rounding still counts as not above the limit.
    const double limit = rpm_high * (1.0 + 1e-12);
    SpindleChoice choice{0, 0.0, SpindleFit::above_window};
    for (std::size_t i = 0; i < machine.spindle.size(); ++i) {
        const SpindleStep& step = machine.spindle[i];
        const double slowest = step.variable() ? step.rpm_low : step.rpm;
        if (slowest > limit) {
            continue;
        }
        const double rpm = std::min(step.rpm, std::max(slowest, rpm_high));
        if (rpm > choice.rpm) {
            choice = {i, rpm, rpm < rpm_low ? SpindleFit::below_window : SpindleFit::within};
        }
    }
    if (choice.fit == SpindleFit::above_window && !machine.spindle.empty()) {
        const SpindleStep& first = machine.spindle.front();
        choice.rpm = first.variable() ? first.rpm_low : first.rpm;
    }
    return choice;
}

SpindleChoice nearest_spindle(const Machine& machine, double rpm) noexcept {
    SpindleChoice choice{0, 0.0, SpindleFit::given};
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < machine.spindle.size(); ++i) {
        const SpindleStep& step = machine.spindle[i];
        const double at = step.variable() ? std::clamp(rpm, step.rpm_low, step.rpm) : step.rpm;
        if (std::abs(at - rpm) < nearest) {
            nearest = std::abs(at - rpm);
            choice.step = i;
            choice.rpm = at;
        }
    }
    return choice;
}

double efficiency_at(const Machine& machine, std::size_t step) noexcept {
    if (!std::isnan(machine.efficiency)) {
        return machine.efficiency;
    }
    return machine.spindle[step].back_gear ? kTypicalBackGearEfficiency : kTypicalEfficiency;
}

double spindle_power_kw(const Machine& machine, std::size_t step, double rpm) noexcept {
    const SpindleStep& at = machine.spindle[step];
    const double full =
        std::isnan(at.power_kw) ? machine.motor_kw * efficiency_at(machine, step) : at.power_kw;
    if (!at.variable() || rpm >= at.rpm) {
        return full;
    }
    const double low = std::isnan(at.power_low_kw) ? full * at.rpm_low / at.rpm : at.power_low_kw;
    return low + (full - low) * (rpm - at.rpm_low) / (at.rpm - at.rpm_low);
}

std::size_t choose_feed(const FeedLadder& ladder, double wanted_mm) noexcept {
    std::size_t best = 0;
    for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
        if (ladder.steps[i].feed_mm <= wanted_mm * (1.0 + 1e-9)) {
            best = i;
        }
    }
    return best;
}

double hand_turns_per_min(const Machine& machine, std::string_view slide) noexcept {
    return slide == "tailstock" || slide == "quill" ? machine.tailstock_turns_per_min
                                                    : machine.table_turns_per_min;
}

int axes_at_once(const Machine& machine) noexcept {
    return machine.hand_axes + (machine.table.steps.empty() ? 0 : 1);
}

const Slide* find_slide(const Machine& machine, std::string_view name) noexcept {
    for (const Slide& slide : machine.slides) {
        if (slide.name == name) {
            return &slide;
        }
    }
    return nullptr;
}

double chuck_rpm_limit(const Chuck& chuck) noexcept {
    if (!std::isnan(chuck.rpm_limit)) {
        return chuck.rpm_limit;
    }
    return 60.0 * kUnmarkedRimSpeedMs / (std::numbers::pi * chuck.diameter_mm / 1000.0);
}

}  // namespace halfnut::machine
