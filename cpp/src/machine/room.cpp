#include "halfnut/machine/room.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/error.hpp"

namespace halfnut::machine {
namespace {

// A size that is met exactly fits, whatever unit it was given in.
constexpr double kSame = 1.0 + 1e-9;

const Chuck* chuck_at(const Machine& machine, int chuck) noexcept {
    return chuck >= 0 && static_cast<std::size_t>(chuck) < machine.chucks.size()
               ? &machine.chucks[static_cast<std::size_t>(chuck)]
               : nullptr;
}

/// A length in both systems, the machine's own first.
std::string size_text(const Machine& machine, double mm) {
    const std::string metric = fmt::format("{:.5g} mm", mm);
    const std::string inch = fmt::format("{:.4g} in", mm / 25.4);
    return machine.inch ? fmt::format("{} ({})", inch, metric) : fmt::format("{} ({})", metric, inch);
}

bool grips(const Chuck& chuck, double mm) noexcept {
    return !(mm > chuck.opening_greatest_mm * kSame) && !(mm * kSame < chuck.opening_least_mm);
}

/// Another chuck of the machine that says it takes the work; empty when none does.
std::string other_chuck(const Machine& machine, double gripped_mm) {
    for (const Chuck& chuck : machine.chucks) {
        if (!std::isnan(chuck.opening_greatest_mm) && grips(chuck, gripped_mm)) {
            return fmt::format("take the {}, ", chuck.name);
        }
    }
    return "";
}

}  // namespace

Refusal refusal(const Machine& machine, const Placed& placed) noexcept {
    if (machine.kind != Kind::lathe) {
        return {};
    }
    const double swing = swing_mm(machine);
    const double widest = std::fmax(swing, machine.swing_in_gap_mm);
    if (placed.swings_mm > widest * kSame) {
        return {Obstacle::over_bed, placed.swings_mm, widest};
    }
    if (placed.passes_mm > machine.swing_over_cross_slide_mm * kSame) {
        return {Obstacle::cross_slide, placed.passes_mm, machine.swing_over_cross_slide_mm};
    }
    if (placed.passes_mm > swing * kSame) {
        return {Obstacle::over_bed, placed.passes_mm, swing};
    }
    if (placed.between_mm > machine.between_centres_mm * kSame) {
        return {Obstacle::between_centres, placed.between_mm, machine.between_centres_mm};
    }
    const Chuck* const chuck = chuck_at(machine, placed.chuck);
    const double through =
        chuck == nullptr ? machine.spindle_bore_mm : std::fmin(machine.spindle_bore_mm, chuck->through_mm);
    if (placed.through_mm > through * kSame) {
        return {Obstacle::spindle_bore, placed.through_mm, through};
    }
    if (chuck != nullptr && placed.gripped_mm > chuck->opening_greatest_mm * kSame) {
        return {Obstacle::jaws_open, placed.gripped_mm, chuck->opening_greatest_mm};
    }
    if (chuck != nullptr && placed.gripped_mm * kSame < chuck->opening_least_mm) {
        return {Obstacle::jaws_closed, placed.gripped_mm, chuck->opening_least_mm};
    }
    return {};
}

std::string refusal_text(const Machine& machine, const Refusal& refusal, int chuck) {
    const auto sizes = [&](std::string_view what, std::string_view limit, std::string_view cure) {
        return fmt::format("{} {} {} of {}, {}: {}", what, size_text(machine, refusal.found), limit,
                           machine.name, size_text(machine, refusal.bound), cure);
    };
    const Chuck* const held = chuck_at(machine, chuck);
    const std::string_view holder = held == nullptr ? std::string_view("chuck") : held->name;
    const auto jaws = [&](std::string_view what, std::string_view cure) {
        return fmt::format("work {} {} what the {} grips from outside, {}: {}{}",
                           size_text(machine, refusal.found), what, holder, size_text(machine, refusal.bound),
                           other_chuck(machine, refusal.found), cure);
    };
    switch (refusal.what) {
        case Obstacle::over_bed:
            return sizes("diameter", "is over the swing", "take a larger lathe");
        case Obstacle::cross_slide:
            return sizes("diameter", "is over the swing over the cross slide",
                         "the carriage cannot pass; take a larger lathe");
        case Obstacle::between_centres:
            return sizes("work", "long is more than between the centres", "take a longer lathe");
        case Obstacle::spindle_bore:
            return sizes("bar", "is over the spindle bore", "saw a blank that stays before the chuck");
        case Obstacle::jaws_open:
            return jaws("is over", "a faceplate, or grip a smaller step");
        case Obstacle::jaws_closed:
            return jaws("is below", "or a collet");
        case Obstacle::work_whips:
            return fmt::format(
                "the overhanging work whips: at most {:.0f} rev/min, half its first whirl; {} turns no "
                "slower than "
                "{:.0f}: bring a centre or a steady, or shorten the overhang",
                refusal.bound, machine.name, refusal.found);
        case Obstacle::bar_whips:
            return fmt::format(
                "the bar behind the spindle whips: at most {:.0f} rev/min, half its first whirl; {} turns no "
                "slower "
                "than {:.0f}: guide the bar or cut it shorter",
                refusal.bound, machine.name, refusal.found);
        default:
            return "";
    }
}

std::string_view obstacle_sentence(Obstacle what) noexcept {
    switch (what) {
        case Obstacle::over_bed:
            return "the work is over the swing of the machine";
        case Obstacle::cross_slide:
            return "the work is over the swing over the cross slide";
        case Obstacle::between_centres:
            return "the work is longer than between the centres";
        case Obstacle::spindle_bore:
            return "the bar is over the spindle bore";
        case Obstacle::jaws_open:
            return "the work is wider than the chuck's jaws open";
        case Obstacle::jaws_closed:
            return "the work is thinner than the chuck's jaws close on";
        case Obstacle::work_whips:
            return "the overhanging work whips even at the slowest speed";
        case Obstacle::bar_whips:
            return "the bar behind the spindle whips even at the slowest speed";
        default:
            return "";
    }
}

void require_axes(const Machine& machine, std::string_view way, int axes) {
    const int at_once = axes_at_once(machine);
    if (axes > at_once) {
        throw DomainError(fmt::format(
            "a {} moves {} slides at once, {} moves {}, hands winding {}: drill a start hole, or plunge", way,
            axes, machine.name, at_once, machine.hand_axes));
    }
}

}  // namespace halfnut::machine
