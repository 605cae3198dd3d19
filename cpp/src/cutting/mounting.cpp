#include "mounting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/material/tables.hpp"
#include "steps.hpp"

namespace halfnut::cutting {
namespace {

double root_of(Hold hold) noexcept {
    switch (hold) {
        case Hold::between_centres:
            return kWhirlRootCentres;
        case Hold::chuck_and_centre:
            return kWhirlRootChuckAndCentre;
        default:
            return kWhirlRootChuck;
    }
}

double half_whirl(const material::AlloyRow& alloy, double diameter, double bore, double length,
                  double root) noexcept {
    if (!(length > 0.0) || !(diameter > bore)) {
        return kNaN;
    }
    return kWhirlShare *
           FirstWhirl::compute(diameter, bore, length, alloy.youngs_modulus_gpa, alloy.density_kg_m3, root);
}

bool in_spindle(const machine::Machine& machine, const Mounting& mounting) noexcept {
    if (!std::isnan(mounting.bar_behind_mm)) {
        return true;
    }
    const bool chucked =
        mounting.chuck >= 0 && static_cast<std::size_t>(mounting.chuck) < machine.chucks.size();
    const double jaws =
        chucked ? value_or(machine.chucks[static_cast<std::size_t>(mounting.chuck)].jaw_depth_mm, 0.0) : 0.0;
    return mounting.bar_length_mm > value_or(mounting.length_mm, 0.0) + jaws;
}

std::string size_text(const machine::Machine& machine, double mm) {
    return machine.inch ? fmt::format("{:.4g} in ({:.5g} mm)", mm / 25.4, mm)
                        : fmt::format("{:.5g} mm ({:.4g} in)", mm, mm / 25.4);
}

}  // namespace

double bar_free_mm(const machine::Machine& machine, const Mounting& mounting) noexcept {
    if (mounting.hold == Hold::between_centres || !in_spindle(machine, mounting)) {
        return kNaN;
    }
    const double free =
        value_or(mounting.bar_behind_mm, mounting.bar_length_mm - value_or(mounting.length_mm, 0.0) -
                                             value_or(machine.spindle_length_mm, 0.0));
    return free > 0.0 ? free : kNaN;
}

double work_whirl_rpm(const material::AlloyRow& alloy, const Mounting& mounting) noexcept {
    if (mounting.beam != nullptr) {
        return kWhirlShare * mounting.beam->whirl_rpm(mounting.left_mm, alloy.density_kg_m3);
    }
    return half_whirl(alloy, mounting.left_mm, mounting.bore_mm,
                      value_or(mounting.span_mm, mounting.length_mm), root_of(mounting.hold));
}

double bar_whirl_rpm(const machine::Machine& machine, const material::AlloyRow& alloy,
                     const Mounting& mounting) noexcept {
    return half_whirl(alloy, mounting.bar_mm, mounting.bar_bore_mm, bar_free_mm(machine, mounting),
                      kWhirlRootChuck);
}

Status check_room(const machine::Machine& machine, const Mounting& mounting, CutResult& out) noexcept {
    machine::Placed placed;
    placed.swings_mm = mounting.swings_mm;
    placed.passes_mm = mounting.along && !std::isnan(mounting.length_mm) ? mounting.swings_mm : kNaN;
    placed.between_mm = mounting.hold == Hold::chuck ? kNaN : mounting.length_mm;
    placed.chuck = mounting.hold == Hold::between_centres ? -1 : mounting.chuck;
    placed.gripped_mm = mounting.held_mm;
    if (in_spindle(machine, mounting)) {
        placed.through_mm = value_or(mounting.held_mm, mounting.swings_mm);
    }
    out.refusal = machine::refusal(machine, placed);
    if (out.refusal.what == machine::Obstacle::none && std::isnan(mounting.held_mm)) {
        // What the jaws grip was not said: it may be less than what swings on a stepped blank, and is then
        // told; more than the jaws open it is not.
        placed.gripped_mm = mounting.swings_mm;
        const machine::Refusal jaws = machine::refusal(machine, placed);
        if (jaws.what == machine::Obstacle::jaws_open) {
            out.refusal = jaws;
        }
    }
    return out.refusal.what == machine::Obstacle::none ? Status{} : no_room(out.refusal.what);
}

void note_room(const machine::Machine& machine, const Mounting& mounting, CutResult& out) noexcept {
    if (machine.kind != machine::Kind::lathe) {
        return;
    }
    const double swing = machine::swing_mm(machine);
    if (mounting.swings_mm > swing * kSameLength) {
        out.caution(CautionCode::in_gap);
        out.limit(LimitCode::swing, mounting.swings_mm, swing);
    }
    if (mounting.swings_mm > machine.swing_over_cross_slide_mm * kSameLength) {
        out.caution(CautionCode::over_cross_slide);
        out.limit(LimitCode::cross_slide, mounting.swings_mm, machine.swing_over_cross_slide_mm);
    }
    if (mounting.hold != Hold::between_centres && mounting.outside && std::isnan(mounting.held_mm) &&
        mounting.chuck >= 0 && static_cast<std::size_t>(mounting.chuck) < machine.chucks.size()) {
        const double least = machine.chucks[static_cast<std::size_t>(mounting.chuck)].opening_least_mm;
        if (mounting.swings_mm * kSameLength < least) {
            out.caution(CautionCode::below_jaws);
            out.limit(LimitCode::jaws, mounting.swings_mm, least);
        }
    }
}

void note_unknown_whirl(const material::AlloyRow& alloy, const Mounting& mounting, CutResult& out) noexcept {
    const double slender = mounting.hold == Hold::chuck ? kSlenderChuck : kSlenderCentre;
    if (std::isnan(alloy.youngs_modulus_gpa) &&
        value_or(mounting.span_mm, mounting.length_mm) > slender * mounting.left_mm) {
        out.caution(CautionCode::whirl_unknown);
    }
}

void note_slide_travel(const machine::Machine& machine, std::string_view slide, double travel_mm,
                       CutResult& out) noexcept {
    const machine::Slide* const at = machine::find_slide(machine, slide);
    const bool beyond =
        at != nullptr && travel_mm > at->travel_mm * kSameLength;  // not where it is not a number
    if (!beyond) {
        return;
    }
    out.caution(CautionCode::over_travel);
    const auto end = out.limits.begin() + static_cast<std::ptrdiff_t>(out.limit_count);
    const auto told = std::find_if(out.limits.begin(), end,
                                   [](const Limit& each) { return each.code == LimitCode::travel; });
    if (told == end) {
        out.limit(LimitCode::travel, travel_mm, at->travel_mm);
    } else if (travel_mm * told->limit > told->value * at->travel_mm) {
        *told = {LimitCode::travel, travel_mm, at->travel_mm};
    }
}

void throw_if_no_room(const machine::Machine& machine, const CutResult& result, int chuck) {
    if (result.refusal.what != machine::Obstacle::none) {
        throw DomainError(machine::refusal_text(machine, result.refusal, chuck));
    }
}

void throw_short_overhang(std::string_view argument, double overhang_mm, double length_mm,
                          const machine::Machine& machine) {
    throw DomainError(fmt::format("{} must be at least the length of the cut, {}, got {}", argument,
                                  size_text(machine, length_mm), size_text(machine, overhang_mm)));
}

}  // namespace halfnut::cutting
