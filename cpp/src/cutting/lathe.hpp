#pragma once
// What a lathe cut is made of, shared by one cut and by the choice of passes.

#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/material/tables.hpp"
#include "mounting.hpp"

namespace halfnut::cutting::lathe {

/// A deflection, mm, and the rule behind it; NaN when there is nothing to compute it with.
struct Bend {
    double value = kNaN;
    RuleId rule;
};

[[nodiscard]] Operation operation_of(LatheCut cut, bool finish) noexcept;

/// Whether the cross slide feeds.
[[nodiscard]] bool crosses(LatheCut cut) noexcept;

/// Factor on the force for rake, over the rake that the constants stand for, wear and form.
[[nodiscard]] double correction(const TurnRequest& request, double reference_rake_deg) noexcept;

/// Deflection of work that has a diameter left, or of a boring bar of a modulus, under a force across it.
[[nodiscard]] Bend bend(const TurnRequest& request, const material::AlloyRow& alloy, double bar_gpa,
                        double left_mm, double passive_force_n) noexcept;

/// How far the work stands out, or the boring bar: at least as far as the cut is long. NaN when neither is
/// known.
[[nodiscard]] double reach_of(const TurnRequest& request) noexcept;

/// The work of a cut in the machine; `left_mm` is its diameter after the cut.
[[nodiscard]] Mounting mounting_of(const TurnRequest& request, double left_mm) noexcept;

/// Travel of the feed; NaN when no length was given.
[[nodiscard]] double travel_of(const TurnRequest& request) noexcept;

}  // namespace halfnut::cutting::lathe
