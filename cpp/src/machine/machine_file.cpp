#include "halfnut/machine/machine_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "halfnut/core/builtin.hpp"

namespace halfnut::machine {

namespace {

using std::string_view;
using enum Need;

/// A ladder's word for all its steps, and a step's own over it.
void read_stop(FileTable& table, bool& to, bool every) {
    to = every;
    table.flag("stop_to_change", to);
}

void read_positions(FileTable& table, std::vector<Position>& to) {
    std::vector<std::pair<std::string, std::string>> settings;
    table.settings("positions", settings);
    to.reserve(settings.size());
    for (auto& [control, setting] : settings) {
        to.push_back({std::move(control), std::move(setting)});
    }
}

void read_spindle(FileTable& table, std::vector<SpindleStep>& to) {
    bool every = false;
    table.flag("stop_to_change", every);
    table.tables(
        "steps",
        [&](FileTable& row) {
            SpindleStep& step = to.emplace_back();
            row.number("rpm", step.rpm, required);
            row.number("rpm_low", step.rpm_low);
            row.size("power", Dimension::power, step.power_kw);
            row.size("power_low", Dimension::power, step.power_low_kw);
            row.flag("back_gear", step.back_gear);
            read_stop(row, step.stop_to_change, every);
            read_positions(row, step.positions);
            if (row.sound() && step.rpm_low >= step.rpm) {
                row.refuse(
                    fmt::format("rpm_low must be less than rpm, {:g}; got {:g}", step.rpm, step.rpm_low));
            }
            if (row.sound() && row.has("power_low") && !row.has("rpm_low")) {
                row.refuse("power_low is the power at rpm_low, which is missing");
            }
        },
        required);
    if (table.sound() && to.empty()) {
        table.refuse("needs at least one step");
    }
}

/// Power feeds; what they are marked in is the unit of the first.
void read_ladder(FileTable& table, FeedLadder& to) {
    const Dimension dimension = to.kind == FeedKind::per_rev ? Dimension::feed_per_rev : Dimension::feed_rate;
    bool every = false;
    table.flag("stop_to_change", every);
    if (to.kind == FeedKind::per_rev) {
        table.number("cross_ratio", to.cross_ratio);
    }
    table.tables("steps", [&](FileTable& row) {
        FeedStep step;
        if (const auto feed = row.quantity("feed", dimension, required)) {
            const bool inch = feed->system() == UnitSystem::inch;
            if (to.steps.empty()) {
                to.marked_in_inch = inch;
            }
            step.feed_mm = feed->base();
            step.marked = inch == to.marked_in_inch ? feed->value()
                                                    : feed->base() / (to.marked_in_inch ? kInchMm : 1.0);
        }
        read_stop(row, step.stop_to_change, every);
        read_positions(row, step.positions);
        to.steps.push_back(std::move(step));
    });
}

void read_slide(FileTable& table, string_view name, Slide& to) {
    to.name = name;
    table.size("per_turn", Dimension::length, to.travel_per_turn_mm, required);
    if (const auto line = table.quantity("graduation", Dimension::length, required)) {
        to.graduation_mm = line->base();
        to.marked_graduation = line->value();
        to.marked_in_inch = line->system() == UnitSystem::inch;
    }
    constexpr std::array<string_view, 3> kReads{"travel", "radius", "diameter"};
    to.reads_diameter = table.one_of("reads", kReads) == 2U;
    table.size("travel", Dimension::length, to.travel_mm);
    table.size("readout", Dimension::length, to.readout_mm);
    table.flag("power_feed", to.power_feed);
    table.size("backlash", Dimension::length, to.backlash_mm, optional, true);
    constexpr std::array<string_view, 2> kApproach{"plus", "minus"};
    to.approach_minus = table.one_of("approach", kApproach) == 1U;
}

void read_chuck(FileTable& table, Chuck& to) {
    table.text("name", to.name, required);
    table.count("jaws", to.jaws, required, 0);
    table.size("diameter", Dimension::length, to.diameter_mm, required);
    table.number("max_rpm", to.rpm_limit);
    constexpr std::array<string_view, 3> kBodies{"steel", "cast iron", "unknown"};
    to.cast_iron = table.one_of("body", kBodies) != 0U;
    table.size("through", Dimension::length, to.through_mm);
    table.size("jaw_depth", Dimension::length, to.jaw_depth_mm);
    table.size("opening_least", Dimension::length, to.opening_least_mm);
    table.size("opening_greatest", Dimension::length, to.opening_greatest_mm);
    table.size("jaw_weight", Dimension::mass, to.jaw_mass_kg);
    table.size("run_out", Dimension::length, to.run_out_mm);
}

/// A lead, as threads an inch or under a name of its own: one of the two. Whether it was threads an inch.
bool read_lead(FileTable& table, string_view name, double& lead_mm, double& threads_per_inch) {
    table.number("threads_per_inch", threads_per_inch);
    table.size(name, Dimension::length, lead_mm);
    const bool inch = table.has("threads_per_inch");
    if (table.sound() && inch == table.has(name)) {
        table.refuse(fmt::format("needs threads_per_inch or {}, one of the two", name));
    }
    if (inch) {
        lead_mm = kInchMm / threads_per_inch;
    }
    return inch;
}

void read_chart_row(FileTable& table, ChartRow& to) {
    double threads_per_inch = kNaN;
    to.inch = read_lead(table, "pitch", to.lead_mm, threads_per_inch);
    table.counts("drivers", to.drivers);
    table.counts("driven", to.driven);
    read_positions(table, to.positions);
}

void read_gearbox(FileTable& table, Threading& to) {
    table.count("driver", to.standard_driver, required);
    table.count("driven", to.standard_driven, required);
    table.tables("steps", [&](FileTable& row) {
        GearboxStep& step = to.gearbox.emplace_back();
        double pitch_mm = kNaN;
        double threads_per_inch = kNaN;
        read_lead(row, "pitch", pitch_mm, threads_per_inch);
        step.ratio = pitch_mm / to.lead_mm;
        read_positions(row, step.positions);
    });
}

void read_threading(FileTable& table, Threading& to) {
    to.metric = !read_lead(table, "lead", to.lead_mm, to.threads_per_inch);
    table.number("spindle_to_stud", to.spindle_to_stud);
    table.counts("gears", to.gears);
    double diametral_pitch = kNaN;
    table.size("module", Dimension::length, to.module_mm);
    table.number("diametral_pitch", diametral_pitch);
    if (table.sound() && table.has("module") && table.has("diametral_pitch")) {
        table.refuse("module and diametral_pitch say the same; give one");
    }
    if (!std::isnan(diametral_pitch)) {
        to.module_mm = kInchMm / diametral_pitch;
    }
    table.size("stud_to_screw", Dimension::length, to.stud_to_screw_mm);
    table.size("banjo_nearest", Dimension::length, to.banjo_low_mm);
    table.size("banjo_farthest", Dimension::length, to.banjo_high_mm);
    table.size("stud_clearance", Dimension::length, to.stud_clearance_mm);
    table.size("collar", Dimension::length, to.collar_mm);
    table.table("gearbox", [&](FileTable& box) { read_gearbox(box, to); });
    table.table("dial", [&](FileTable& dial) {
        int teeth = 0;
        dial.count("teeth", teeth, required);
        dial.count("marks", to.dial_marks, required);
        to.dial_threads_per_turn = teeth;
    });
    table.tables("chart", [&](FileTable& row) { read_chart_row(row, to.chart.emplace_back()); });
}

void read_machine(FileTable& table, Machine& to) {
    table.text("name", to.name, required);
    table.choice("kind", to.kind, required);
    constexpr std::array<string_view, 2> kSystems{"inch", "metric"};
    to.inch = table.one_of("system", kSystems, required) == 0U;
    table.size("motor", Dimension::power, to.motor_kw, required);
    table.table("spindle", [&](FileTable& part) { read_spindle(part, to.spindle); }, required);
    std::string title;  // for a sheet: the core has no use of it
    table.text("title", title);
    table.number("efficiency", to.efficiency);
    if (to.efficiency > 1.0) {
        table.refuse("efficiency", "must be more than 0 and at most 1");
    }
    table.size("torque_limit", Dimension::torque, to.torque_limit_nm);
    table.size("centre_height", Dimension::length, to.centre_height_mm);
    table.size("swing_over_bed", Dimension::length, to.swing_over_bed_mm);
    table.size("swing_over_cross_slide", Dimension::length, to.swing_over_cross_slide_mm);
    table.size("swing_in_gap", Dimension::length, to.swing_in_gap_mm);
    table.size("between_centres", Dimension::length, to.between_centres_mm);
    table.size("spindle_bore", Dimension::length, to.spindle_bore_mm);
    table.size("spindle_length", Dimension::length, to.spindle_length_mm);
    table.choice("compound_zero", to.compound_zero);
    to.table.kind = FeedKind::per_minute;
    table.table("carriage", [&](FileTable& part) { read_ladder(part, to.carriage); });
    table.table("quill", [&](FileTable& part) { read_ladder(part, to.quill); });
    table.table("table", [&](FileTable& part) { read_ladder(part, to.table); });
    table.named("slides",
                [&](FileTable& part, string_view name) { read_slide(part, name, to.slides.emplace_back()); });
    table.tables("chucks", [&](FileTable& part) { read_chuck(part, to.chucks.emplace_back()); });
    table.table("threading", [&](FileTable& part) { read_threading(part, to.threading); });
    table.table("seconds", [&](FileTable& part) {
        part.size("lever", Dimension::time, to.lever_change_s, optional, true);
        part.size("stop", Dimension::time, to.stop_change_s, optional, true);
        part.size("tool", Dimension::time, to.tool_change_s, optional, true);
        part.size("measure", Dimension::time, to.measure_s, optional, true);
    });
    table.table("hands", [&](FileTable& part) {
        part.number("tailstock_turns", to.tailstock_turns_per_min);
        part.number("table_turns", to.table_turns_per_min);
        part.size("half_nut", Dimension::time, to.half_nut_s, optional, true);
        part.number("ream_rpm", to.hand_ream_rpm);
        part.number("knurl_rpm", to.hand_knurl_rpm);
        part.count("axes", to.hand_axes);
    });
    table.size("tool_clearance", Dimension::length, to.tool_clearance_mm);
    table.table("dividing", [&](FileTable& part) {
        to.dividing_ratio = 40;  // of nearly all heads: one turn of the crank is nine degrees
        part.count("ratio", to.dividing_ratio);
        part.text("plates", to.dividing_plates);
        part.count("direct", to.direct_holes);
    });
}

/// Collects what is not given.
struct Missing {
    std::vector<Problem>& out;

    void if_none(double value, std::string where, string_view text) const {
        if (std::isnan(value)) {
            say(std::move(where), text);
        }
    }
    void say(std::string where, string_view text) const {
        out.push_back({std::move(where), std::string(text), false});
    }
};

void missing_chucks(const Machine& machine, const Missing& missing) {
    if (machine.chucks.empty()) {
        missing.say("chucks", "no limit of speed for what holds the work");
    }
    for (std::size_t i = 0; i < machine.chucks.size(); ++i) {
        const Chuck& chuck = machine.chucks[i];
        missing.if_none(chuck.rpm_limit, fmt::format("chucks[{}].max_rpm", i),
                        "a cautious rim speed is taken");
        if (machine.kind == Kind::lathe && chuck.jaws > 0) {
            missing.if_none(chuck.opening_greatest_mm + chuck.opening_least_mm,
                            fmt::format("chucks[{}].opening_least and opening_greatest", i),
                            "work is not held against them");
            missing.if_none(chuck.jaw_mass_kg, fmt::format("chucks[{}].jaw_weight", i),
                            "the grip that the jaws lose at speed is not told");
        }
    }
}

void missing_of_lathe(const Machine& machine, const Missing& missing) {
    missing.if_none(swing_mm(machine), "swing_over_bed", "work too wide for the lathe is not refused");
    missing.if_none(machine.swing_over_cross_slide_mm, "swing_over_cross_slide",
                    "work too wide for the carriage to pass is not refused");
    missing.if_none(machine.between_centres_mm, "between_centres",
                    "work too long for the lathe is not refused");
    missing.if_none(machine.spindle_bore_mm, "spindle_bore", "a bar too wide for the spindle is not refused");
    missing.if_none(machine.spindle_length_mm, "spindle_length",
                    "the whole bar behind the overhang is taken to whip");
    if (machine.carriage.steps.empty()) {
        missing.say("carriage", "no power feed: answers are in turns of the handle");
    }
    missing.if_none(machine.threading.lead_mm, "threading", "no threads can be chased");
}

}  // namespace

Machine machine_of_file(const Given& file, FileReading& reading) {
    Machine out;
    read_file(file, reading, [&](FileTable& table) { read_machine(table, out); });
    return out;
}

std::vector<std::string> machine_file_keys() {
    std::vector<std::string> out;
    FileReading reading{builtin()};
    reading.keys = &out;
    (void)machine_of_file({}, reading);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

std::vector<Problem> missing(const Machine& machine) {
    std::vector<Problem> out;
    const Missing missing{out};
    const auto slides = [&](const std::vector<string_view>& names, const auto& look) {
        for (const string_view name : names) {
            look(name, find_slide(machine, name));
        }
    };
    const std::vector<string_view> lathe{"cross", "compound", "carriage", "tailstock"};
    const std::vector<string_view> mill{"x", "y", "z"};
    slides(machine.kind == Kind::lathe  ? lathe
           : machine.kind == Kind::mill ? mill
                                        : std::vector<string_view>{},
           [&](string_view name, const Slide* slide) {
               if (slide == nullptr) {
                   missing.say(fmt::format("slides.{}", name),
                               fmt::format("no dial readings for the {}", name));
               }
           });
    const bool powers = std::all_of(machine.spindle.begin(), machine.spindle.end(),
                                    [](const SpindleStep& step) { return !std::isnan(step.power_kw); });
    if (!powers) {
        missing.if_none(machine.efficiency, "efficiency", "a typical one is taken from motor to spindle");
    }
    missing_chucks(machine, missing);
    if (machine.kind == Kind::mill) {
        slides({"x", "quill"}, [&](string_view name, const Slide* slide) {
            if (slide != nullptr) {
                missing.if_none(slide->travel_mm, fmt::format("slides.{}.travel", name),
                                "a cut that is too long for it is not told");
            }
        });
    }
    if (machine.kind == Kind::lathe) {
        missing_of_lathe(machine, missing);
    }
    return out;
}

}  // namespace halfnut::machine
