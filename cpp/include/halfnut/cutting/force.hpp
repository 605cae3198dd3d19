#pragma once
/// Cutting force, power and torque.

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

#include "halfnut/cutting/chip.hpp"

namespace halfnut::cutting {

/// One horsepower (550 ft lbf/s) in kW, and one hp per in3/min as a specific force in N/mm2.
inline constexpr double kHorsepowerKw = 0.7456998715822702;
inline constexpr double kUnitPowerNMm2 = kHorsepowerKw * 60000.0 / 16.387064;

/// Chip thickness at which the handbook's power constants hold: 0.012 in.
inline constexpr double kUnitPowerThicknessMm = 0.3048;

/// Exponent of chip thickness in the handbook's feed factors, which follow (0.012 in / f)^0.2.
inline constexpr double kFeedFactorExponent = 0.2;

/// Specific cutting force after Kienzle.
///
///     k_c = k_c1.1 h^-m_c
///
/// Given
///   kc11_n_mm2          k_c1.1, N/mm2, > 0
///   mc                  m_c, 0 to below 1
///   chip_thickness_mm   h, mm, > 0
/// Returned
///   N/mm2
/// Notes
///   1) The tables hold from about 0.05 to 2.5 mm; a thinner chip needs more force than this says.
/// Source
///   Kienzle; Koenig/Essel; Tschaetsch, Praxiswissen Zerspantechnik, ch. 2 (memory)
/// Example
///   specific_cutting_force_n_mm2(1820.0, 0.22, 0.25) = 2469.0
struct SpecificCuttingForce {
    static constexpr std::string_view name = "specific_cutting_force_n_mm2";
    static constexpr std::array arguments{
        positive("kc11_n_mm2", "N/mm2"),
        Argument{.name = "mc", .unit = "", .low = 0.0, .high = 1.0, .low_open = false, .high_open = true},
        positive("chip_thickness_mm", "mm")};
    static double compute(double kc11, double m_c, double h) noexcept { return kc11 * power_of(h, -m_c); }
};
inline double specific_cutting_force_n_mm2(double kc11_n_mm2, double mc, double chip_thickness_mm) {
    return scalar<SpecificCuttingForce>(kc11_n_mm2, mc, chip_thickness_mm);
}

/// Cutting force in turning after Kienzle.
///
///     F_c = k_c1.1 b h^(1 - m_c) K,  b = a_p / sin(kappa),  h = f sin(kappa)
///
/// Given
///   kc11_n_mm2     k_c1.1, N/mm2, > 0
///   mc             m_c, 0 to below 1
///   depth_mm       a_p, mm, > 0
///   feed_mm_rev    f, mm/rev, > 0
///   entering_deg   kappa, degrees, above 0, at most 120
///   correction     K, product of the corrections for rake and wear, > 0; 1 for none
/// Returned
///   N
/// Source
///   Tschaetsch, Praxiswissen Zerspantechnik, ch. 2 (memory)
/// Example
///   turning_force_n(2000.0, 0.25, 2.0, 0.25, 90.0, 1.0) = 1414.2
struct TurningForce {
    static constexpr std::string_view name = "turning_force_n";
    static constexpr std::array arguments{
        SpecificCuttingForce::arguments[0], SpecificCuttingForce::arguments[1], positive("depth_mm", "mm"),
        ChipThickness::arguments[0],        ChipThickness::arguments[1],        positive("correction")};
    /// Logarithm to the base 2 of h^-m_c and of a correction for the speed.
    template <class Numbers = AnyNumber>
    static double log2_factor(double m_c, double h, double speed_log2) noexcept {
        return -m_c * Numbers::log2(h) + speed_log2;
    }
    /// With that logarithm.
    template <class Numbers = AnyNumber>
    static double with_log2(double kc11, double factor_log2, double a_p, double f, double k) noexcept {
        return kc11 * Numbers::exp2(factor_log2) * a_p * f * k;  // b h = a_p f
    }
    /// For a chip thickness that is known.
    static double at(double kc11, double m_c, double a_p, double f, double h, double k,
                     double speed_log2 = 0.0) noexcept {
        return with_log2(kc11, log2_factor(m_c, h, speed_log2), a_p, f, k);
    }
    static double compute(double kc11, double m_c, double a_p, double f, double kappa, double k) noexcept {
        return at(kc11, m_c, a_p, f, ChipThickness::compute(f, kappa), k);
    }
};
inline double turning_force_n(double kc11_n_mm2, double mc, double depth_mm, double feed_mm_rev,
                              double entering_deg, double correction) {
    return scalar<TurningForce>(kc11_n_mm2, mc, depth_mm, feed_mm_rev, entering_deg, correction);
}

/// Correction of the cutting force for the rake of the tool.
///
///     K = 1 - (gamma - gamma_0) / 66.7
///
/// Given
///   rake_deg             gamma, degrees, -30 to 40
///   reference_rake_deg   gamma_0 that the constants were measured with: +6 steel, +2 cast iron
/// Returned
///   ratio: 1.5 % a degree
/// Source
///   Tschaetsch, Praxiswissen Zerspantechnik, ch. 2 (memory)
/// Example
///   rake_correction(0.0, 6.0) = 1.08996
struct RakeCorrection {
    static constexpr std::string_view name = "rake_correction";
    static constexpr std::array arguments{between("rake_deg", -30.0, 40.0, "deg"),
                                          between("reference_rake_deg", -10.0, 20.0, "deg")};
    static double compute(double gamma, double gamma_0) noexcept {
        return 1.0 - (gamma - gamma_0) * (1.0 / 66.7);
    }
};
inline double rake_correction(double rake_deg, double reference_rake_deg) {
    return scalar<RakeCorrection>(rake_deg, reference_rake_deg);
}

/// Correction of the cutting force for the cutting speed.
///
///     K = K_v(v_c) / K_v(v_0),  K_v = 2.023 / v^0.153 from 20 to 100 m/min, 1.380 / v^0.07 above
///
/// Given
///   cutting_speed_m_min     v_c, m/min, > 0; below 20 taken as 20
///   reference_speed_m_min   v_0 that the constants were measured at: 100 for most tables
/// Returned
///   ratio
/// Source
///   Tschaetsch, Praxiswissen Zerspantechnik, ch. 2 (memory)
/// Example
///   speed_correction(300.0, 100.0) = 0.9260
struct SpeedCorrection {
    static constexpr std::string_view name = "speed_correction";
    static constexpr std::array arguments{positive("cutting_speed_m_min", "m/min"),
                                          positive("reference_speed_m_min", "m/min")};
    /// Logarithm to the base 2 of K_v.
    template <class Numbers = AnyNumber>
    static double log2_at(double v) noexcept {
        constexpr double kBend = 100.0;
        constexpr double kSlowest = 20.0;
        constexpr double kSlow = log2_of(2.023);
        constexpr double kFast = log2_of(1.380);
        const bool slow = v < kBend;
        const double log = Numbers::log2(v < kSlowest ? kSlowest : v);
        return (slow ? kSlow : kFast) + (slow ? -0.153 : -0.07) * log;
    }
    static double compute(double v_c, double v_0) noexcept { return exp2_of(log2_at(v_c) - log2_at(v_0)); }
};
inline double speed_correction(double cutting_speed_m_min, double reference_speed_m_min) {
    return scalar<SpeedCorrection>(cutting_speed_m_min, reference_speed_m_min);
}

/// Specific cutting force that a unit power stands for.
///
///     k_c = 2730 K_p
///
/// Given
///   unit_power_hp_in3_min   K_p, hp per in3/min, > 0
/// Returned
///   N/mm2, at the chip thickness that the unit power holds at
/// Source
///   units: 1 hp = 550 ft lbf/s, 1 in3 = 16.387064 cm3
/// Example
///   unit_power_force_n_mm2(0.62) = 1692.8
struct UnitPowerForce {
    static constexpr std::string_view name = "unit_power_force_n_mm2";
    static constexpr std::array arguments{positive("unit_power_hp_in3_min", "hp/(in3/min)")};
    static double compute(double k_p) noexcept { return kUnitPowerNMm2 * k_p; }
};
inline double unit_power_force_n_mm2(double unit_power_hp_in3_min) {
    return scalar<UnitPowerForce>(unit_power_hp_in3_min);
}

/// Feed factor of the handbook's power constants.
///
///     C = (0.3048 mm / f)^0.2
///
/// Given
///   feed_mm   f, mm per revolution or per tooth, > 0
/// Returned
///   ratio; within 0.03 of the printed factors from 0.001 to 0.060 in
/// Source
///   fitted by us to the feed factors of Machinery's Handbook (memory)
/// Example
///   feed_factor(0.4064) = 0.9441
struct FeedFactor {
    static constexpr std::string_view name = "feed_factor";
    static constexpr std::array arguments{positive("feed_mm", "mm")};
    static double compute(double f) noexcept {
        return power_of(kUnitPowerThicknessMm / f, kFeedFactorExponent);
    }
};
inline double feed_factor(double feed_mm) {
    return scalar<FeedFactor>(feed_mm);
}

/// Power at the cutter from a unit power.
///
///     P_c = K_p C Q W
///
/// Given
///   unit_power_hp_in3_min   K_p, hp per in3/min, > 0
///   feed_factor             C, ratio, > 0
///   removal_cm3_min         Q, cm3/min, > 0
///   wear_factor             W, ratio, > 0: 1 sharp, 1.1 finish turning, 1.3 ordinary turning and drilling
/// Returned
///   kW
/// Source
///   Machinery's Handbook 31st ed., p. 1147, machining power
/// Example
///   unit_power_kw(0.62, 0.94, 110.12, 1.30) = 3.797
struct UnitPower {
    static constexpr std::string_view name = "unit_power_kw";
    static constexpr std::array arguments{positive("unit_power_hp_in3_min", "hp/(in3/min)"),
                                          positive("feed_factor"), positive("removal_cm3_min", "cm3/min"),
                                          positive("wear_factor")};
    static double compute(double k_p, double c, double q, double w) noexcept {
        return UnitPowerForce::compute(k_p) * c * q * w / 60000.0;
    }
};
inline double unit_power_kw(double unit_power_hp_in3_min, double feed_factor, double removal_cm3_min,
                            double wear_factor) {
    return scalar<UnitPower>(unit_power_hp_in3_min, feed_factor, removal_cm3_min, wear_factor);
}

/// Power at the cutter from force and speed.
///
///     P_c = F_c v_c / 60000
///
/// Given
///   cutting_force_n       F_c, N, > 0
///   cutting_speed_m_min   v_c, m/min, > 0
/// Returned
///   kW
/// Example
///   cutting_power_kw(1557.0, 100.0) = 2.595
struct CuttingPower {
    static constexpr std::string_view name = "cutting_power_kw";
    static constexpr std::array arguments{positive("cutting_force_n", "N"),
                                          positive("cutting_speed_m_min", "m/min")};
    static double compute(double f_c, double v_c) noexcept { return f_c * v_c * (1.0 / 60000.0); }
};
inline double cutting_power_kw(double cutting_force_n, double cutting_speed_m_min) {
    return scalar<CuttingPower>(cutting_force_n, cutting_speed_m_min);
}

/// Power at the motor.
///
///     P_m = P_c / E
///
/// Given
///   cutting_power_kw   P_c, kW, > 0
///   efficiency         E, above 0, at most 1: 0.9 belt, 0.75 back gear, 0.7 to 0.8 geared head
/// Returned
///   kW
/// Source
///   Machinery's Handbook 31st ed., p. 1152, equation 7; efficiencies table 4 (memory)
/// Example
///   motor_power_kw(17.5, 0.9) = 19.444
struct MotorPower {
    static constexpr std::string_view name = "motor_power_kw";
    static constexpr std::array arguments{
        positive("cutting_power_kw", "kW"),
        Argument{
            .name = "efficiency", .unit = "", .low = 0.0, .high = 1.0, .low_open = true, .high_open = false}};
    static double compute(double p_c, double e) noexcept { return p_c / e; }
};
inline double motor_power_kw(double cutting_power_kw, double efficiency) {
    return scalar<MotorPower>(cutting_power_kw, efficiency);
}

/// Torque at the spindle of a force at a diameter.
///
///     M = F_c d / 2000
///
/// Given
///   cutting_force_n   F_c, N, > 0
///   diameter_mm       d, mm, > 0
/// Returned
///   N m
/// Example
///   spindle_torque_nm(1000.0, 50.0) = 25.0
struct SpindleTorque {
    static constexpr std::string_view name = "spindle_torque_nm";
    static constexpr std::array arguments{positive("cutting_force_n", "N"), positive("diameter_mm", "mm")};
    static double compute(double f_c, double d) noexcept { return f_c * d * (1.0 / 2000.0); }
};
inline double spindle_torque_nm(double cutting_force_n, double diameter_mm) {
    return scalar<SpindleTorque>(cutting_force_n, diameter_mm);
}

/// Power of a torque at a spindle speed.
///
///     P = 2 pi M n / 60000
///
/// Given
///   torque_nm     M, N m, > 0
///   spindle_rpm   n, rev/min, > 0
/// Returned
///   kW
/// Source
///   Machinery's Handbook 31st ed., p. 1152, equation 6, there as M n / 9550
/// Example
///   torque_power_kw(63.16, 350.0) = 2.3149
struct TorquePower {
    static constexpr std::string_view name = "torque_power_kw";
    static constexpr std::array arguments{positive("torque_nm", "N m"), positive("spindle_rpm", "rev/min")};
    static double compute(double m, double n) noexcept { return 2.0 * std::numbers::pi * m * n / 60000.0; }
};
inline double torque_power_kw(double torque_nm, double spindle_rpm) {
    return scalar<TorquePower>(torque_nm, spindle_rpm);
}

}  // namespace halfnut::cutting
