#pragma once
/// Thrust and torque of drills and taps.

#include <array>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/force.hpp"

namespace halfnut::cutting {

/// Torque of a drill.
///
///     M = K_d f^0.8 D^1.8 A W / 40000
///
/// Given
///   kd            K_d, work-material factor in its inch form, > 0: 24000 for steel of 200 HB
///   feed_mm_rev   f, mm/rev, > 0
///   diameter_mm   D, mm, > 0
///   torque_a      A, factor of the chisel edge, > 0
///   wear_factor   W, ratio, > 0
/// Returned
///   N m
/// Source
///   Machinery's Handbook 31st ed., pp. 1152-1153; the feed and diameter factors of its tables 7 and 8
///   follow f^0.8 and D^1.8
/// Example
///   drilling_torque_nm(24000.0, 0.2032, 22.225, 1.085, 1.30) = 62.8
struct DrillingTorque {
    static constexpr std::string_view name = "drilling_torque_nm";
    static constexpr std::array arguments{positive("kd"), positive("feed_mm_rev", "mm/rev"),
                                          positive("diameter_mm", "mm"), positive("torque_a"),
                                          positive("wear_factor")};
    static double compute(double kd, double f, double d, double a, double w) noexcept {
        return kd * power_of(f, 0.8) * power_of(d, 1.8) * a * w / 40000.0;
    }
};
inline double drilling_torque_nm(double kd, double feed_mm_rev, double diameter_mm, double torque_a,
                                 double wear_factor) {
    return scalar<DrillingTorque>(kd, feed_mm_rev, diameter_mm, torque_a, wear_factor);
}

/// Thrust of a drill.
///
///     T = 0.05 K_d f^0.8 D^0.8 B W + 0.007 K_d D^2 J W
///
/// Given
///   kd            K_d, work-material factor in its inch form, > 0
///   feed_mm_rev   f, mm/rev, > 0
///   diameter_mm   D, mm, > 0
///   thrust_b      B, factor of the chisel edge, > 0
///   thrust_j      J, factor of the chisel edge, >= 0
///   wear_factor   W, ratio, > 0
/// Returned
///   N
/// Source
///   Machinery's Handbook 31st ed., pp. 1152-1153
/// Example
///   drilling_thrust_n(24000.0, 0.2032, 22.225, 1.355, 0.030, 1.30) = 10298
struct DrillingThrust {
    static constexpr std::string_view name = "drilling_thrust_n";
    static constexpr std::array arguments{
        positive("kd"),       positive("feed_mm_rev", "mm/rev"), positive("diameter_mm", "mm"),
        positive("thrust_b"), not_negative("thrust_j"),          positive("wear_factor")};
    static double compute(double kd, double f, double d, double b, double j, double w) noexcept {
        return 0.05 * kd * power_of(f, 0.8) * power_of(d, 0.8) * b * w + 0.007 * kd * d * d * j * w;
    }
};
inline double drilling_thrust_n(double kd, double feed_mm_rev, double diameter_mm, double thrust_b,
                                double thrust_j, double wear_factor) {
    return scalar<DrillingThrust>(kd, feed_mm_rev, diameter_mm, thrust_b, thrust_j, wear_factor);
}

/// Torque of a cutting tap.
///
///     M = k_c P^2 d K / 8000
///
/// Given
///   specific_force_n_mm2   k_c, N/mm2, > 0
///   pitch_mm               P, mm, > 0
///   diameter_mm            d, mm, > 0, of the thread
///   friction_factor        K, ratio, >= 1: 1.3 sharp and oiled to 2.5 worn
/// Returned
///   N m
/// Notes
///   1) All lands together cut the groove's section, about P^2/4, at a lever of half the diameter.
/// Source
///   Tschaetsch, Praxiswissen Zerspantechnik, tapping (memory); weak, no second source
/// Example
///   tapping_torque_nm(2500.0, 1.0, 6.0, 1.5) = 2.8125
struct TappingTorque {
    static constexpr std::string_view name = "tapping_torque_nm";
    static constexpr std::array arguments{positive("specific_force_n_mm2", "N/mm2"),
                                          positive("pitch_mm", "mm"), positive("diameter_mm", "mm"),
                                          Argument{.name = "friction_factor",
                                                   .unit = "",
                                                   .low = 1.0,
                                                   .high = 10.0,
                                                   .low_open = false,
                                                   .high_open = false}};
    static double compute(double k_c, double p, double d, double k) noexcept {
        return k_c * p * p * d * k / 8000.0;
    }
};
inline double tapping_torque_nm(double specific_force_n_mm2, double pitch_mm, double diameter_mm,
                                double friction_factor) {
    return scalar<TappingTorque>(specific_force_n_mm2, pitch_mm, diameter_mm, friction_factor);
}

}  // namespace halfnut::cutting
