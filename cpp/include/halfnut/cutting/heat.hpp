#pragma once
/// Heat of a cut: how much of it goes into the work, how hot the chip runs, how warm the work gets.

#include <algorithm>
#include <array>
#include <limits>
#include <numbers>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// Share of a cut's power that is made at the shear plane; the rest is friction on the chip.
inline constexpr double kShearHeat = 0.75;

/// Angle of the shear plane where none was measured.
inline constexpr double kUsualShearDeg = 25.0;

/// Share of a cut's heat that goes into the work.
///
///     beta = 0.5 - 0.35 lg(R tan phi)   R tan phi from 0.04 to 10
///     beta = 0.3 - 0.15 lg(R tan phi)   above
///     share = 3/4 beta,  R = v_c h / K
///
/// Given
///   cutting_speed_m_min   v_c, m/min, > 0
///   chip_thickness_mm     h before the cut, mm, > 0
///   diffusivity_mm2_s     K of the work, mm2/s, > 0
///   shear_angle_deg       phi, above 0 and below 90; 25 where it is not known
/// Returned
///   ratio of the cutting power; R tan phi is held from 0.04 to 60, the range of the trials
/// Source
///   Boothroyd's curve as Oxley, Mechanics of Machining, puts it in two lines (memory); three quarters of the
///   heat made at the shear plane (memory: Groover; Trent)
/// Example
///   heat_to_work_share(100.0, 0.2, 13.5, 25.0) = 0.10561
struct HeatToWork {
    static constexpr std::string_view name = "heat_to_work_share";
    static constexpr std::array arguments{
        positive("cutting_speed_m_min", "m/min"), positive("chip_thickness_mm", "mm"),
        positive("diffusivity_mm2_s", "mm2/s"), inside("shear_angle_deg", 0.0, 90.0, "deg")};
    static double compute(double v_c, double h, double k, double phi) noexcept {
        const double r = std::clamp(1000.0 / 60.0 * v_c * h / k * tangent_deg(phi), 0.04, 60.0);
        const double log10_r = log2_of(r) * (std::numbers::ln2 / std::numbers::ln10);
        const double beta = r < 10.0 ? 0.5 - 0.35 * log10_r : 0.3 - 0.15 * log10_r;
        return kShearHeat * beta;
    }
};
inline double heat_to_work_share(double cutting_speed_m_min, double chip_thickness_mm,
                                 double diffusivity_mm2_s, double shear_angle_deg) {
    return scalar<HeatToWork>(cutting_speed_m_min, chip_thickness_mm, diffusivity_mm2_s, shear_angle_deg);
}

/// How much warmer a round piece gets from the heat that goes into it, when none leaves it.
///
///     dT = P t / (rho c V),  V = pi (D^2 - d^2) L / 4
///
/// Given
///   heat_w               P into the work, W, >= 0
///   time_s               t, s, >= 0
///   diameter_mm          D, mm, > 0
///   bore_mm              d, mm, >= 0, below D
///   length_mm            L, mm, > 0
///   density_kg_m3        rho, > 0
///   specific_heat_j_kg_k c, J/(kg K), > 0
/// Returned
///   K; an upper bound, air and chuck take some of it
/// Source
///   heat balance
/// Example
///   work_warming_k(200.0, 60.0, 50.0, 0.0, 100.0, 7850.0, 475.0) = 16.39
struct WorkWarming {
    static constexpr std::string_view name = "work_warming_k";
    static constexpr std::array arguments{not_negative("heat_w", "W"),
                                          not_negative("time_s", "s"),
                                          positive("diameter_mm", "mm"),
                                          not_negative("bore_mm", "mm"),
                                          positive("length_mm", "mm"),
                                          positive("density_kg_m3", "kg/m3"),
                                          positive("specific_heat_j_kg_k", "J/(kg K)")};
    static double compute(double p, double t, double d, double bore, double l, double rho,
                          double c) noexcept {
        if (bore >= d) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        const double volume_m3 = 1e-9 * std::numbers::pi / 4.0 * (d - bore) * (d + bore) * l;
        return p * t / (rho * c * volume_m3);
    }
};
inline double work_warming_k(double heat_w, double time_s, double diameter_mm, double bore_mm,
                             double length_mm, double density_kg_m3, double specific_heat_j_kg_k) {
    return scalar<WorkWarming>(heat_w, time_s, diameter_mm, bore_mm, length_mm, density_kg_m3,
                               specific_heat_j_kg_k);
}

/// Heat of a cut. NaN where the cut has no power or chip, or the alloy no thermal properties.
struct CutHeat {
    double chip_rise_k = kNaN;          ///< mean rise where the chip leaves the edge
    double heat_to_work_share = kNaN;   ///< of the cutting power
    double heat_to_work_w = kNaN;       ///< from the cutting power as computed
    double heat_to_work_high_w = kNaN;  ///< at the upper edge of the force's band
};

/// Heat of a cut, from its power, removal, chip and speed.
[[nodiscard]] CutHeat heat_of(const material::AlloyRow& alloy, const CutResult& cut) noexcept;

}  // namespace halfnut::cutting
