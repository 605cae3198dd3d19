#pragma once
/// Depth of the teeth and what forming adds to the diameter.
///
/// Forming moves metal and loses none. A full sharp tooth of height h on a flat blank raises the points by
/// half its height for ridges, two thirds for standing points, a third for sunk points; the diameter grows
/// by twice that. At a profile angle of 90 degrees this gives 0.5, 0.667 and 0.333 of the pitch, the factors
/// that DIN 82 prints. Root rounding and the material are left out, as DIN 82 says of its own factors.

#include <array>
#include <cmath>
#include <string_view>

#include "halfnut/knurls/kinds.hpp"
#include "halfnut/knurls/pitch.hpp"
#include "halfnut/level1.hpp"

namespace halfnut::knurls {

inline constexpr double kStandardProfileDeg = 90.0;  ///< DIN 82:1973-01, clause 2.1

/// Height of a full sharp tooth.
///
///     h = p / (2 tan(alpha / 2))
///
/// Given
///   normal_pitch_mm  p, mm, > 0, across the teeth
///   profile_deg      alpha, the angle between the flanks, 40 to 140 degrees
/// Returned
///   mm
/// Errors
///   DomainError  an argument is outside its range
/// Source
///   geometry; company knurl guideline RL-CS-012a 2004 for 90 degrees: 0.5 p
/// Example
///   sharp_tooth_depth_mm(0.8, 90.0) = 0.4
struct SharpToothDepth {
    static constexpr std::string_view name = "sharp_tooth_depth_mm";
    static constexpr std::array arguments{positive("normal_pitch_mm", "mm"),
                                          between("profile_deg", 40.0, 140.0, "deg")};
    static double compute(double p, double alpha) noexcept {
        return p / (2.0 * std::tan(0.5 * alpha * kDegree));
    }
};
inline double sharp_tooth_depth_mm(double normal_pitch_mm, double profile_deg) {
    return scalar<SharpToothDepth>(normal_pitch_mm, profile_deg);
}

/// What forming a full tooth adds to the diameter, by keeping the volume.
///
///     g = 2 s h
///
/// Given
///   tooth_depth_mm  h, mm, > 0
///   growth_share    s, the points' rise as a share of h: growth_share(pattern)
/// Returned
///   mm on the diameter
/// Errors
///   DomainError  an argument is outside its range
/// Notes
///   1) Flat blank. On a round one of diameter D the true figure is smaller by at most h / (6 D) of itself.
/// Source
///   constant volume; the factors of DIN 82:1973-01, clause 2.4 at 90 degrees
/// Example
///   form_growth_mm(0.4, 0.5) = 0.4
struct FormGrowth {
    static constexpr std::string_view name = "form_growth_mm";
    static constexpr std::array arguments{positive("tooth_depth_mm", "mm"), inside("growth_share", 0.0, 1.0)};
    static double compute(double h, double s) noexcept { return 2.0 * s * h; }
};
inline double form_growth_mm(double tooth_depth_mm, double growth_share) {
    return scalar<FormGrowth>(tooth_depth_mm, growth_share);
}

/// Rise of the points as a share of the tooth's height: 1/2 ridges, 2/3 standing, 1/3 sunk points.
[[nodiscard]] constexpr double growth_share(Pattern pattern) noexcept {
    switch (pattern) {
        case Pattern::diamond_raised:
        case Pattern::cross_raised:
            return 2.0 / 3.0;
        case Pattern::diamond_indented:
        case Pattern::cross_indented:
            return 1.0 / 3.0;
        case Pattern::straight:
        case Pattern::left:
        case Pattern::right:
            break;
    }
    return 0.5;
}

}  // namespace halfnut::knurls
