// A machine as a person reads it: what it is, its spindle, its feeds, its dials, in the words of its file.

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "halfnut/machine/machine_file.hpp"

namespace halfnut::machine {

namespace {

using std::string_view;

/// What stands at a key of a file's table, as it is written there; empty where there is nothing.
std::string written(const Given& table, string_view key) {
    for (std::size_t i = 0; i < table.keys.size(); ++i) {
        if (table.keys[i] == key) {
            const Given& value = table.items[i];
            return value.tag == Given::Tag::text ? std::string(value.text) : value.shown();
        }
    }
    return {};
}

/// A table or a list within a table; one without items where there is none.
Given within(const Given& table, string_view key) {
    for (std::size_t i = 0; i < table.keys.size(); ++i) {
        if (table.keys[i] == key) {
            return table.items[i];
        }
    }
    return {};
}

std::string levers(const std::vector<Position>& positions) {
    std::string out;
    for (const Position& each : positions) {
        out += fmt::format("{}{} {}", out.empty() ? "" : ", ", each.control, each.setting);
    }
    return out;
}

void say_feeds(const Given& file, string_view name, const FeedLadder& ladder, std::vector<std::string>& out) {
    const Given steps = within(within(file, name), "steps");
    if (!ladder.steps.empty()) {
        out.push_back(fmt::format("{} feeds", name));
    }
    for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
        out.push_back(
            fmt::format("  {:>12}  {}", written(steps.items[i], "feed"), levers(ladder.steps[i].positions)));
    }
}

/// What goes into a lathe, and what its chucks take.
void say_room(const Given& file, const Machine& machine, std::vector<std::string>& out) {
    constexpr std::array<std::pair<string_view, string_view>, 5> kNamed{
        {{"over bed", "swing_over_bed"},
         {"over cross slide", "swing_over_cross_slide"},
         {"in gap", "swing_in_gap"},
         {"between centres", "between_centres"},
         {"spindle bore", "spindle_bore"}}};
    const std::size_t before = out.size();
    for (const auto& [label, key] : kNamed) {
        std::string value = written(file, key);
        if (const std::string height = written(file, "centre_height");
            value.empty() && key == "swing_over_bed" && !height.empty()) {
            value = fmt::format("centre height {}", height);
        }
        if (!value.empty()) {
            out.push_back(fmt::format("  {:>16}  {}", label, value));
        }
    }
    const Given chucks = within(file, "chucks");
    for (std::size_t i = 0; i < machine.chucks.size(); ++i) {
        const Chuck& chuck = machine.chucks[i];
        const std::string opening = written(chucks.items[i], "opening_greatest");
        out.push_back(fmt::format(
            "  {:>16}  {}{}", chuck.name,
            std::isnan(chuck.rpm_limit) ? "no speed marked" : fmt::format("{:g} rev/min", chuck.rpm_limit),
            opening.empty() ? "" : fmt::format(", opens to {}", opening)));
    }
    if (out.size() > before) {
        out.insert(out.begin() + static_cast<std::ptrdiff_t>(before), "room");
    }
}

}  // namespace

std::vector<std::string> machine_lines(const Given& file, const Machine& machine) {
    const std::string title = written(file, "title");
    std::vector<std::string> out{
        fmt::format("{} ({}): {}, {} dials, {} motor", title.empty() ? machine.name : title, machine.name,
                    enum_name(machine.kind), written(file, "system"), written(file, "motor")),
        "spindle, rev/min"};
    for (const SpindleStep& step : machine.spindle) {
        const std::string speed = step.variable() ? fmt::format("{:g} to {:g}", step.rpm_low, step.rpm)
                                                  : fmt::format("{:g}", step.rpm);
        out.push_back(fmt::format("  {:>12}  {}", speed, levers(step.positions)));
    }
    say_feeds(file, "carriage", machine.carriage, out);
    say_feeds(file, "quill", machine.quill, out);
    say_feeds(file, "table", machine.table, out);
    say_room(file, machine, out);
    out.push_back(fmt::format("by hand  {:g} turns a minute at tailstock or quill, {:g} at a slide",
                              machine.tailstock_turns_per_min, machine.table_turns_per_min));
    out.emplace_back("dials");
    const Given slides = within(file, "slides");
    for (std::size_t i = 0; i < machine.slides.size(); ++i) {
        const Given& slide = slides.items[i];
        const std::string reads = written(slide, "reads");
        out.push_back(
            fmt::format("  {:>12}  {} a turn, {} a line{}", machine.slides[i].name,
                        written(slide, "per_turn"), written(slide, "graduation"),
                        reads.empty() || reads == "travel" ? "" : fmt::format(", reads {}", reads)));
    }
    return out;
}

}  // namespace halfnut::machine
