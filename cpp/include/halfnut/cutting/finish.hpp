#pragma once
/// The roughness that feed and nose leave by geometry alone.

#include <array>
#include <cmath>
#include <limits>
#include <string_view>

#include "halfnut/cutting/kinematics.hpp"

namespace halfnut::cutting {

/// Height of the feed ridges that a round nose leaves.
///
///     R_t = r - sqrt(r^2 - f^2 / 4),  about f^2 / (8 r)
///
/// Given
///   feed_mm_rev      f, mm/rev, > 0, at most 2 r
///   nose_radius_mm   r, mm, > 0
/// Returned
///   um
/// Notes
///   1) A real surface is rougher: at low speed, in a ductile or built-up-edge metal, by 1.3 to 2 or more.
/// Source
///   Boothroyd (memory); geometry
/// Example
///   roughness_rt_um(0.2, 0.8) = 6.2746
struct RoughnessRt {
    static constexpr std::string_view name = "roughness_rt_um";
    static constexpr std::array arguments{positive("feed_mm_rev", "mm/rev"),
                                          positive("nose_radius_mm", "mm")};
    static double compute(double f, double r) noexcept {
        const double half = f / 2.0;
        return 1000.0 * half * half / (r + std::sqrt(r * r - half * half));  // no cancellation at small f
    }
};
inline double roughness_rt_um(double feed_mm_rev, double nose_radius_mm) {
    return scalar<RoughnessRt>(feed_mm_rev, nose_radius_mm);
}

/// Mean roughness that a round nose leaves.
///
///     R_a = f^2 / (32 r)
///
/// Given
///   feed_mm_rev      f, mm/rev, > 0, at most 2 r
///   nose_radius_mm   r, mm, > 0
/// Returned
///   um
/// Notes
///   1) The exact mean of a parabola is f^2 / (18 sqrt(3) r), 2.6 % more.
///   2) See roughness_rt_um on real surfaces.
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 24 (memory)
/// Example
///   roughness_ra_um(0.25, 1.2) = 1.6276
struct RoughnessRa {
    static constexpr std::string_view name = "roughness_ra_um";
    static constexpr std::array arguments = RoughnessRt::arguments;
    static double compute(double f, double r) noexcept {
        return f > 2.0 * r ? std::numeric_limits<double>::quiet_NaN() : 1000.0 * f * f / (32.0 * r);
    }
};
inline double roughness_ra_um(double feed_mm_rev, double nose_radius_mm) {
    return scalar<RoughnessRa>(feed_mm_rev, nose_radius_mm);
}

/// Height of the tooth marks that peripheral milling leaves.
///
///     R_t = f_z^2 / (4 D)
///
/// Given
///   feed_per_tooth_mm    f_z, mm, > 0; with run-out use the feed a revolution
///   cutter_diameter_mm   D, mm, > 0
/// Returned
///   um
/// Source
///   Martellotti (memory), the trochoid taken as a circle
/// Example
///   milling_roughness_rt_um(0.2, 10.0) = 1.0
struct MillingRoughnessRt {
    static constexpr std::string_view name = "milling_roughness_rt_um";
    static constexpr std::array arguments{positive("feed_per_tooth_mm", "mm"),
                                          positive("cutter_diameter_mm", "mm")};
    static double compute(double f_z, double d) noexcept { return 1000.0 * f_z * f_z / (4.0 * d); }
};
inline double milling_roughness_rt_um(double feed_per_tooth_mm, double cutter_diameter_mm) {
    return scalar<MillingRoughnessRt>(feed_per_tooth_mm, cutter_diameter_mm);
}

}  // namespace halfnut::cutting
