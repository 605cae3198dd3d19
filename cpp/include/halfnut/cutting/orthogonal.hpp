#pragma once
/// Orthogonal cutting: what a chip tells of the shear.

#include <array>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/kinematics.hpp"

namespace halfnut::cutting {

/// Chip thickness ratio.
///
///     r = t_0 / t_c
///
/// Given
///   uncut_thickness_mm   t_0, mm, > 0
///   chip_thickness_mm    t_c, mm, > 0
/// Returned
///   ratio, usually below 1
/// Source
///   Groover, Introduction to Manufacturing Processes, ch. 15
/// Example
///   chip_ratio(0.30, 0.65) = 0.46154
struct ChipRatio {
    static constexpr std::string_view name = "chip_ratio";
    static constexpr std::array arguments{positive("uncut_thickness_mm", "mm"),
                                          positive("chip_thickness_mm", "mm")};
    static double compute(double t_0, double t_c) noexcept { return t_0 / t_c; }
};
inline double chip_ratio(double uncut_thickness_mm, double chip_thickness_mm) {
    return scalar<ChipRatio>(uncut_thickness_mm, chip_thickness_mm);
}

/// Angle of the shear plane.
///
///     tan(phi) = r cos(alpha) / (1 - r sin(alpha))
///
/// Given
///   rake_deg     alpha, degrees, -45 to 45
///   chip_ratio   r, > 0
/// Returned
///   degrees
/// Source
///   Groover, Introduction to Manufacturing Processes, ch. 15
/// Example
///   shear_angle_deg(15.0, 0.46154) = 26.85
struct ShearAngle {
    static constexpr std::string_view name = "shear_angle_deg";
    static constexpr std::array arguments{between("rake_deg", -45.0, 45.0, "deg"), positive("chip_ratio")};
    static double compute(double alpha, double r) noexcept {
        return atan2_of(r * cosine_deg(alpha), 1.0 - r * sine_deg(alpha)) / kDegree;
    }
};
inline double shear_angle_deg(double rake_deg, double chip_ratio) {
    return scalar<ShearAngle>(rake_deg, chip_ratio);
}

/// Shear strain of the chip.
///
///     gamma = cot(phi) + tan(phi - alpha)
///
/// Given
///   rake_deg          alpha, degrees, -45 to 45
///   shear_angle_deg   phi, degrees, above 0 and below 90
/// Returned
///   strain
/// Source
///   Groover, Introduction to Manufacturing Processes, ch. 15
/// Example
///   shear_strain(15.0, 26.86) = 2.185
struct ShearStrain {
    static constexpr std::string_view name = "shear_strain";
    static constexpr std::array arguments{between("rake_deg", -45.0, 45.0, "deg"),
                                          inside("shear_angle_deg", 0.0, 90.0, "deg")};
    static double compute(double alpha, double phi) noexcept {
        return 1.0 / tangent_deg(phi) + tangent_deg(phi - alpha);
    }
};
inline double shear_strain(double rake_deg, double shear_angle_deg) {
    return scalar<ShearStrain>(rake_deg, shear_angle_deg);
}

/// Force along the shear plane.
///
///     F_s = F_c cos(phi) - F_t sin(phi)
///
/// Given
///   cutting_force_n   F_c, N, > 0
///   thrust_force_n    F_t, N, >= 0
///   shear_angle_deg   phi, degrees, above 0 and below 90
/// Returned
///   N
/// Source
///   Groover, Introduction to Manufacturing Processes, ch. 15
/// Example
///   shear_force_n(950.0, 475.0, 18.435) = 751.0
struct ShearForce {
    static constexpr std::string_view name = "shear_force_n";
    static constexpr std::array arguments{positive("cutting_force_n", "N"),
                                          not_negative("thrust_force_n", "N"),
                                          inside("shear_angle_deg", 0.0, 90.0, "deg")};
    static double compute(double f_c, double f_t, double phi) noexcept {
        return f_c * cosine_deg(phi) - f_t * sine_deg(phi);
    }
};
inline double shear_force_n(double cutting_force_n, double thrust_force_n, double shear_angle_deg) {
    return scalar<ShearForce>(cutting_force_n, thrust_force_n, shear_angle_deg);
}

/// Area of the shear plane.
///
///     A_s = t_0 w / sin(phi)
///
/// Given
///   uncut_thickness_mm   t_0, mm, > 0
///   width_mm             w, mm, > 0
///   shear_angle_deg      phi, degrees, above 0 and below 90
/// Returned
///   mm2; the shear strength is the shear force over it
/// Source
///   Groover, Introduction to Manufacturing Processes, ch. 15
/// Example
///   shear_area_mm2(0.5, 3.0, 25.4) = 3.497
struct ShearArea {
    static constexpr std::string_view name = "shear_area_mm2";
    static constexpr std::array arguments{positive("uncut_thickness_mm", "mm"), positive("width_mm", "mm"),
                                          inside("shear_angle_deg", 0.0, 90.0, "deg")};
    static double compute(double t_0, double w, double phi) noexcept { return t_0 * w / sine_deg(phi); }
};
inline double shear_area_mm2(double uncut_thickness_mm, double width_mm, double shear_angle_deg) {
    return scalar<ShearArea>(uncut_thickness_mm, width_mm, shear_angle_deg);
}

/// Friction angle on the rake face after Merchant.
///
///     beta = 90 + alpha - 2 phi
///
/// Given
///   rake_deg          alpha, degrees, -45 to 45
///   shear_angle_deg   phi, degrees, above 0 and below 90
/// Returned
///   degrees; the coefficient of friction is its tangent
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 21 (memory)
/// Example
///   merchant_friction_deg(10.0, 25.4) = 49.2
struct MerchantFriction {
    static constexpr std::string_view name = "merchant_friction_deg";
    static constexpr std::array arguments{between("rake_deg", -45.0, 45.0, "deg"),
                                          inside("shear_angle_deg", 0.0, 90.0, "deg")};
    static double compute(double alpha, double phi) noexcept { return 90.0 + alpha - 2.0 * phi; }
};
inline double merchant_friction_deg(double rake_deg, double shear_angle_deg) {
    return scalar<MerchantFriction>(rake_deg, shear_angle_deg);
}

/// Speed at which the chip runs over the rake face.
///
///     v_ch = v_c sin(phi) / cos(phi - alpha)
///
/// Given
///   cutting_speed_m_min   v_c, m/min, > 0
///   rake_deg              alpha, degrees, -45 to 45
///   shear_angle_deg       phi, degrees, above 0 and below 90
/// Returned
///   m/min
/// Source
///   geometry of the shear plane
/// Example
///   chip_speed_m_min(35.0, 15.0, 45.0) = 28.58
struct ChipSpeed {
    static constexpr std::string_view name = "chip_speed_m_min";
    static constexpr std::array arguments{positive("cutting_speed_m_min", "m/min"),
                                          between("rake_deg", -45.0, 45.0, "deg"),
                                          inside("shear_angle_deg", 0.0, 90.0, "deg")};
    static double compute(double v_c, double alpha, double phi) noexcept {
        return v_c * sine_deg(phi) / cosine_deg(phi - alpha);
    }
};
inline double chip_speed_m_min(double cutting_speed_m_min, double rake_deg, double shear_angle_deg) {
    return scalar<ChipSpeed>(cutting_speed_m_min, rake_deg, shear_angle_deg);
}

/// Mean rise of temperature at the chip after Cook.
///
///     dT = 0.4 (U / (rho C)) (v_c t_0 / K)^0.333
///
/// Given
///   specific_energy_j_mm3      U, J/mm3, > 0
///   volumetric_heat_j_mm3_k    rho C, J/(mm3 K), > 0
///   cutting_speed_m_min        v_c, m/min, > 0
///   uncut_thickness_mm         t_0, mm, > 0
///   diffusivity_mm2_s          K, mm2/s, > 0
/// Returned
///   K
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 21, equation 21.22 (memory)
/// Example
///   temperature_rise_k(1.038, 0.003, 100.0, 0.5, 50.0) = 353
struct TemperatureRise {
    static constexpr std::string_view name = "temperature_rise_k";
    static constexpr std::array arguments{
        positive("specific_energy_j_mm3", "J/mm3"), positive("volumetric_heat_j_mm3_k", "J/(mm3 K)"),
        positive("cutting_speed_m_min", "m/min"), positive("uncut_thickness_mm", "mm"),
        positive("diffusivity_mm2_s", "mm2/s")};
    static double compute(double u, double rho_c, double v_c, double t_0, double k) noexcept {
        return 0.4 * u / rho_c * power_of(1000.0 * v_c / 60.0 * t_0 / k, 0.333);
    }
};
inline double temperature_rise_k(double specific_energy_j_mm3, double volumetric_heat_j_mm3_k,
                                 double cutting_speed_m_min, double uncut_thickness_mm,
                                 double diffusivity_mm2_s) {
    return scalar<TemperatureRise>(specific_energy_j_mm3, volumetric_heat_j_mm3_k, cutting_speed_m_min,
                                   uncut_thickness_mm, diffusivity_mm2_s);
}

}  // namespace halfnut::cutting
