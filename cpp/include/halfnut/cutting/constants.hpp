#pragma once
/// The constants of cutting force that an alloy has, or the best estimate of them.

#include "halfnut/catalogue.hpp"
#include "halfnut/evidence.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// Specific cutting force at 0.25 mm over tensile strength: the median of the built-in alloys that have
/// both is 3.4, four fifths of them lie within 1.9 and 5.3.
inline constexpr double kForceOverTensile = 3.4;
inline constexpr double kForceOverTensileThicknessMm = 0.25;

/// Force grows as the square root of hardness: the handbook's unit powers of one steel in several
/// hardnesses follow exponents 0.44 (plain carbon), 0.56 (4140) and 0.59 (4130).
inline constexpr double kForceHardnessExponent = 0.5;

struct ForceConstants {
    double kc11_n_mm2 = kNaN;
    double mc = kNaN;
    RuleId rule;           ///< kc_tabulated, kc_from_unit_power or kc_from_tensile
    RowRef row;            ///< the alloy, with the source of the figure used
    bool rough = false;    ///< from the tensile strength alone
    bool shifted = false;  ///< for a hardness other than the tabulated one
};

/// Constants of an alloy.
///
/// Given
///   alloy         a row of the catalogue
///   hardness_hb   the work's own hardness; NaN for the tabulated one
/// Returned
///   kc1.1 and mc as tabulated; else from the unit power, with mc 0.2 as the handbook's feed factors have
///   it; else from the tensile strength. NaN when the alloy has none of these.
[[nodiscard]] ForceConstants force_constants(const Catalogue& catalogue, const material::AlloyRow& alloy,
                                             double hardness_hb) noexcept;

}  // namespace halfnut::cutting
