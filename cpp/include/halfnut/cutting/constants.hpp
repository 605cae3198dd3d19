#pragma once
/// The constants of cutting force that an alloy has, or the best estimate of them; and how far a measured
/// force may lie from the computed one.

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// Specific cutting force at 0.25 mm over tensile strength: the median of the built-in alloys that have
/// both is 3.5, four fifths of them lie within 2.3 and 5.4.
inline constexpr double kForceOverTensile = 3.5;
inline constexpr double kForceOverTensileThicknessMm = 0.25;

/// Force grows as the square root of hardness: the handbook's unit powers of one steel in several
/// hardnesses follow exponents 0.44 (plain carbon), 0.56 (4140) and 0.59 (4130).
inline constexpr double kForceHardnessExponent = 0.5;

/// Cutting speeds that the tables of kc1.1 were measured at: titanium and nickel alloys, and all others. The
/// handbook's unit powers hold for any speed.
inline constexpr double kTableSpeedMMin = 100.0;
inline constexpr double kTableSpeedHeatResistantMMin = 50.0;

/// Specific cutting force over kc1.1, at most, where chips are thinner than the tables hold for and the form
/// of the cut adds to it: a tap maker's printed forces in tapping lie at up to 2.2 times kc1.1 (3700 N/mm2
/// for a steel of 133 HB, 4200 for stainless, 5500 at 40 HRC), and none of parting or drilling is known
/// above.
inline constexpr double kMostOverKc11 = 2.2;

struct ForceConstants {
    double kc11_n_mm2 = kNaN;
    double mc = kNaN;
    double speed_m_min = kNaN;  ///< that kc1.1 was measured at; NaN: for any speed
    double rake_deg = kNaN;     ///< that they stand for
    RowRef scale;               ///< what put Kienzle's constants on the scale of the unit powers
    RuleId rule;                ///< kc_tabulated, kc_from_unit_power or kc_from_tensile
    RowRef row;                 ///< the alloy, with the source of the figure used
    bool rough = false;         ///< from the tensile strength alone
    bool shifted = false;       ///< for a hardness other than the tabulated one
};

/// Constants of an alloy.
///
/// Given
///   alloy         a row of the catalogue
///   hardness_hb   the work's own hardness; NaN for the tabulated one
/// Returned
///   kc1.1 and mc as tabulated, or from the unit power, with mc 0.2 as the handbook's feed factors have it:
///   of two the one of the better source, a shop's own before a printed one before practice before a recalled
///   one; of equal ones kc1.1. Else from the tensile strength. NaN when the alloy has none of these.
///   Whichever it is, it stands on one scale, that of the unit powers: Kienzle's are divided by what they lie
///   above in the alloy's family (cutting/force_scales).
[[nodiscard]] ForceConstants force_constants(const Catalogue& catalogue, const material::AlloyRow& alloy,
                                             double hardness_hb) noexcept;

/// Band of a force that is known from the tensile strength alone: within a factor of two.
inline constexpr double kRoughBandLow = 0.5;
inline constexpr double kRoughBandHigh = 2.0;

/// Where a measured force lies, as shares of the computed one. Power and torque follow the force.
struct ForceBand {
    double low = kNaN;
    double high = kNaN;
    bool verified = false;  ///< borne out by measured cuts of the group
    double papers = 0;      ///< of measured cuts of the group
    double rows = 0;
    double median = kNaN;  ///< of computed over measured force in them
    RowRef row;
};

/// Band of an alloy's forces in a process: of its own group, else of the nearest group above. Where measured
/// cuts do not bear it out it reaches at least as far as the alloy's own constants disagree: Kienzle's, the
/// unit power, the upper end of that.
///
/// Given
///   alloy     a row of the catalogue
///   process   turning (facing, boring and parting too), milling, drilling or tapping
///   rough     the force is known from the tensile strength alone
[[nodiscard]] ForceBand force_band(const Catalogue& catalogue, const material::AlloyRow& alloy,
                                   Process process, bool rough) noexcept;

/// Specific cutting force in a cut of a form that adds to it, N/mm2, at most kMostOverKc11 times kc1.1.
[[nodiscard]] double capped_kc(const ForceConstants& constants, double chip_thickness_mm,
                               double form) noexcept;

/// What an edge leaves over the geometry of feed and nose, in a metal and of a tool material.
///
/// Returned
///   the row of the nearest group, of the tool's own kind before others; null where no group has one
[[nodiscard]] const FinishBandRow* finish_band(const Catalogue& catalogue, const material::AlloyRow& alloy,
                                               ToolMaterial tool) noexcept;

/// Roughness asked for over that of the geometry that is aimed at; 1 where no row says.
[[nodiscard]] double finish_aim(const Catalogue& catalogue, const material::AlloyRow& alloy,
                                ToolMaterial tool) noexcept;

/// What puts Kienzle's constants of an alloy on the scale of the unit powers; the row of the nearest group.
[[nodiscard]] const ForceScaleRow& force_scale(const Catalogue& catalogue,
                                               const material::AlloyRow& alloy) noexcept;

/// How far a tool may stand out.
[[nodiscard]] const OverhangRow& overhang_of(const Catalogue& catalogue, Overhung what) noexcept;

}  // namespace halfnut::cutting
