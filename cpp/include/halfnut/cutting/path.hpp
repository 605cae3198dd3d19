#pragma once
/// Where the tool goes: tapers, ramps, helices. Geometry only.

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/kinematics.hpp"

namespace halfnut::cutting {

/// Angle between the side of a taper and its axis: the compound's setting.
///
///     tan(a) = (D - d) / (2 L)
///
/// Given
///   large_mm    D, mm, > 0
///   small_mm    d, mm, >= 0, below D
///   length_mm   L, mm, > 0, along the axis
/// Returned
///   degrees; the included angle is twice that
/// Source
///   geometry
/// Example
///   taper_angle_deg(30.0, 20.0, 50.0) = 5.7106
struct TaperAngle {
    static constexpr std::string_view name = "taper_angle_deg";
    static constexpr std::array arguments{positive("large_mm", "mm"), not_negative("small_mm", "mm"),
                                          positive("length_mm", "mm")};
    static double compute(double large, double small, double l) noexcept {
        return small >= large ? std::numeric_limits<double>::quiet_NaN()
                              : atan_of((large - small) / (2.0 * l)) / kDegree;
    }
};
inline double taper_angle_deg(double large_mm, double small_mm, double length_mm) {
    return scalar<TaperAngle>(large_mm, small_mm, length_mm);
}

/// How far the tailstock is set over for a taper between centres.
///
///     s = L_w (D - d) / (2 L)
///
/// Given
///   large_mm    D, mm, > 0
///   small_mm    d, mm, >= 0, below D
///   length_mm   L of the taper, mm, > 0
///   work_mm     L_w between the centres, mm, > 0
/// Returned
///   mm; good for small angles, the centres then stand askew
/// Source
///   US Army TC 9-524, taper turning (memory); geometry
/// Example
///   tailstock_setover_mm(30.0, 28.0, 100.0, 250.0) = 2.5
struct TailstockSetover {
    static constexpr std::string_view name = "tailstock_setover_mm";
    static constexpr std::array arguments{positive("large_mm", "mm"), not_negative("small_mm", "mm"),
                                          positive("length_mm", "mm"), positive("work_mm", "mm")};
    static double compute(double large, double small, double l, double work) noexcept {
        return small >= large ? std::numeric_limits<double>::quiet_NaN() : work * (large - small) / (2.0 * l);
    }
};
inline double tailstock_setover_mm(double large_mm, double small_mm, double length_mm, double work_mm) {
    return scalar<TailstockSetover>(large_mm, small_mm, length_mm, work_mm);
}

/// Travel along a slope to a depth.
///
///     L = a_p / sin(a)
///
/// Given
///   depth_mm   a_p, mm, > 0
///   ramp_deg   a, above 0, at most 90, from the plane of the table
/// Returned
///   mm
/// Source
///   geometry
/// Example
///   ramp_length_mm(3.0, 3.0) = 57.32
struct RampLength {
    static constexpr std::string_view name = "ramp_length_mm";
    static constexpr std::array arguments{positive("depth_mm", "mm"), Argument{.name = "ramp_deg",
                                                                               .unit = "deg",
                                                                               .low = 0.0,
                                                                               .high = 90.0,
                                                                               .low_open = true,
                                                                               .high_open = false}};
    static double compute(double a_p, double a) noexcept { return a_p / sine_deg(a); }
};
inline double ramp_length_mm(double depth_mm, double ramp_deg) {
    return scalar<RampLength>(depth_mm, ramp_deg);
}

/// Pitch of a helix on which an end mill winds down at an angle.
///
///     p = pi (D_h - D) tan(a)
///
/// Given
///   hole_mm              D_h, mm, > 0
///   cutter_diameter_mm   D, mm, > 0, below D_h
///   ramp_deg             a, above 0, below 90, of the way of the cutter's centre from the plane of the table
/// Returned
///   mm down in one turn
/// Source
///   geometry
/// Example
///   helix_pitch_mm(16.0, 10.0, 3.0) = 0.988
struct HelixPitch {
    static constexpr std::string_view name = "helix_pitch_mm";
    static constexpr std::array arguments{positive("hole_mm", "mm"), positive("cutter_diameter_mm", "mm"),
                                          inside("ramp_deg", 0.0, 90.0, "deg")};
    static double compute(double hole, double d, double a) noexcept {
        return d >= hole ? std::numeric_limits<double>::quiet_NaN()
                         : std::numbers::pi * (hole - d) * tangent_deg(a);
    }
};
inline double helix_pitch_mm(double hole_mm, double cutter_diameter_mm, double ramp_deg) {
    return scalar<HelixPitch>(hole_mm, cutter_diameter_mm, ramp_deg);
}

/// Travel of the cutter's centre along a helix to a depth.
///
///     L = (a_p / p) sqrt((pi (D_h - D))^2 + p^2)
///
/// Given
///   depth_mm             a_p, mm, > 0
///   pitch_mm             p, down in one turn, mm, > 0
///   hole_mm              D_h, mm, > 0
///   cutter_diameter_mm   D, mm, > 0, below D_h
/// Returned
///   mm
/// Source
///   geometry
/// Example
///   helix_length_mm(10.0, 1.0, 18.0, 10.0) = 251.5
struct HelixLength {
    static constexpr std::string_view name = "helix_length_mm";
    static constexpr std::array arguments{positive("depth_mm", "mm"), positive("pitch_mm", "mm"),
                                          positive("hole_mm", "mm"), positive("cutter_diameter_mm", "mm")};
    static double compute(double a_p, double p, double hole, double d) noexcept {
        const double around = std::numbers::pi * (hole - d);
        return d >= hole ? std::numeric_limits<double>::quiet_NaN()
                         : a_p / p * std::sqrt(around * around + p * p);
    }
};
inline double helix_length_mm(double depth_mm, double pitch_mm, double hole_mm, double cutter_diameter_mm) {
    return scalar<HelixLength>(depth_mm, pitch_mm, hole_mm, cutter_diameter_mm);
}

/// Feed of the cutter's centre that gives the edge its feed along the wall of a round hole.
///
///     v_c = v_f (D_h - D) / D_h
///
/// Given
///   table_feed_mm_min    v_f along the wall, mm/min, > 0
///   hole_mm              D_h, mm, > 0
///   cutter_diameter_mm   D, mm, > 0, below D_h
/// Returned
///   mm/min
/// Source
///   geometry
/// Example
///   centre_feed_mm_min(200.0, 20.0, 10.0) = 100.0
struct CentreFeed {
    static constexpr std::string_view name = "centre_feed_mm_min";
    static constexpr std::array arguments{positive("table_feed_mm_min", "mm/min"), positive("hole_mm", "mm"),
                                          positive("cutter_diameter_mm", "mm")};
    static double compute(double v, double hole, double d) noexcept {
        return d >= hole ? std::numeric_limits<double>::quiet_NaN() : v * (hole - d) / hole;
    }
};
inline double centre_feed_mm_min(double table_feed_mm_min, double hole_mm, double cutter_diameter_mm) {
    return scalar<CentreFeed>(table_feed_mm_min, hole_mm, cutter_diameter_mm);
}

}  // namespace halfnut::cutting
