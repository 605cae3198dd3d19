#pragma once
/// Basic profile of 60 degree threads (ISO 68-1, and the same for Unified), unrounded.
///
/// Source: Machinery's Handbook, 27th ed., pp. 1785-1786 and 1815 (ISO 68-1, ISO 724). A standard's own
/// basic sizes are these, rounded as it rounds: see limits.hpp.

#include <numbers>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut::threads {

inline constexpr double kTriangleHeight = std::numbers::sqrt3 / 2.0;  // H / P

struct TriangleHeight {
    static constexpr std::string_view name = "triangle_height_mm";
    static constexpr std::array arguments{positive("pitch_mm", "mm")};
    static double compute(double pitch) noexcept { return kTriangleHeight * pitch; }
};

struct BasicPitchDiameter {
    static constexpr std::string_view name = "basic_pitch_diameter_mm";
    static constexpr std::array arguments{positive("diameter_mm", "mm"), positive("pitch_mm", "mm")};
    static double compute(double d, double pitch) noexcept { return d - 0.75 * kTriangleHeight * pitch; }
};

struct BasicMinorDiameter {
    static constexpr std::string_view name = "basic_minor_diameter_mm";
    static constexpr std::array arguments{positive("diameter_mm", "mm"), positive("pitch_mm", "mm")};
    static double compute(double d, double pitch) noexcept { return d - 1.25 * kTriangleHeight * pitch; }
};

struct RootDiameter {
    static constexpr std::string_view name = "root_diameter_mm";
    static constexpr std::array arguments{positive("diameter_mm", "mm"), positive("pitch_mm", "mm")};
    static double compute(double d, double pitch) noexcept {
        return d - 17.0 / 12.0 * kTriangleHeight * pitch;
    }
};

struct StressDiameter {
    static constexpr std::string_view name = "stress_diameter_mm";
    static constexpr std::array arguments{positive("diameter_mm", "mm"), positive("pitch_mm", "mm")};
    static double compute(double d, double pitch) noexcept {
        return 0.5 * (BasicPitchDiameter::compute(d, pitch) + RootDiameter::compute(d, pitch));
    }
};

struct LeadAngle {
    static constexpr std::string_view name = "lead_angle_deg";
    static constexpr std::array arguments{positive("lead_mm", "mm"), positive("pitch_diameter_mm", "mm")};
    static double compute(double lead, double d2) noexcept {
        return atan_of(lead / (std::numbers::pi * d2)) / kDegree;
    }
};

/// Height of the fundamental triangle.
///
///     H = (sqrt 3 / 2) P
///
/// Given
///   pitch_mm  P, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  not finite and > 0
/// Example
///   triangle_height_mm(1.0) = 0.866025
inline double triangle_height_mm(double pitch_mm) {
    return scalar<TriangleHeight>(pitch_mm);
}

/// Basic pitch diameter, unrounded.
///
///     d2 = d - 3 H / 4
///
/// Given
///   diameter_mm  d, basic major diameter, mm, > 0
///   pitch_mm     P, mm, > 0
/// Returned
///   mm; negative when the pitch is too coarse for the diameter
/// Errors
///   DomainError  an input is not finite and > 0
/// Example
///   basic_pitch_diameter_mm(10.0, 1.5) = 9.025721
inline double basic_pitch_diameter_mm(double diameter_mm, double pitch_mm) {
    return scalar<BasicPitchDiameter>(diameter_mm, pitch_mm);
}

/// Basic minor diameter, unrounded: d1 = d - 5 H / 4. Given, returned and errors as for the pitch diameter.
inline double basic_minor_diameter_mm(double diameter_mm, double pitch_mm) {
    return scalar<BasicMinorDiameter>(diameter_mm, pitch_mm);
}

/// Root of the design profile of the external thread, unrounded: d3 = d - 17 H / 12.
inline double root_diameter_mm(double diameter_mm, double pitch_mm) {
    return scalar<RootDiameter>(diameter_mm, pitch_mm);
}

/// Diameter of the stress area: (d2 + d3) / 2.
inline double stress_diameter_mm(double diameter_mm, double pitch_mm) {
    return scalar<StressDiameter>(diameter_mm, pitch_mm);
}

/// Lead angle at the pitch diameter: tan L = lead / (pi d2), degrees.
inline double lead_angle_deg(double lead_mm, double pitch_diameter_mm) {
    return scalar<LeadAngle>(lead_mm, pitch_diameter_mm);
}

}  // namespace halfnut::threads
