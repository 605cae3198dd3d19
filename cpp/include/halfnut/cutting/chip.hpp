#pragma once
/// Chip thickness and width, in turning and in milling.

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/kinematics.hpp"

namespace halfnut::cutting {

/// Uncut chip thickness in turning.
///
///     h = f sin(kappa)
///
/// Given
///   feed_mm_rev    f, mm/rev, > 0
///   entering_deg   kappa, angle between cutting edge and feed, degrees, above 0, at most 90
/// Returned
///   mm
/// Source
///   Tschaetsch, Praxiswissen Zerspantechnik, ch. 2 (memory)
/// Example
///   chip_thickness_mm(0.25, 45.0) = 0.17678
struct ChipThickness {
    static constexpr std::string_view name = "chip_thickness_mm";
    static constexpr std::array arguments{positive("feed_mm_rev", "mm/rev"), Argument{.name = "entering_deg",
                                                                                      .unit = "deg",
                                                                                      .low = 0.0,
                                                                                      .high = 120.0,
                                                                                      .low_open = true,
                                                                                      .high_open = false}};
    static double compute(double f, double kappa) noexcept { return f * sine_cosine_deg(kappa).sine; }
};
inline double chip_thickness_mm(double feed_mm_rev, double entering_deg) {
    return scalar<ChipThickness>(feed_mm_rev, entering_deg);
}

/// The mean entering angle by its sine and the size of its cosine; see MeanEntering. Arithmetic alone, for
/// any number of rows at once.
///
/// Given
///   a_p     depth, > 0
///   r       nose radius, >= 0
///   kappa   sine and cosine of the straight edge's angle
/// Returned
///   of the chord across the engaged edge; the straight edge's own for a sharp nose
template <class Numbers = AnyNumber>
[[gnu::always_inline]] inline SineCosine mean_entering(double a_p, double r, SineCosine kappa) noexcept {
    if constexpr (Numbers::any) {  // the same angle, of sizes whose squares can be told
        constexpr double kFar = 0x1p500;
        const double size = a_p + r;
        const double scale = size < 1.0 / kFar ? kFar : size > kFar ? 1.0 / kFar : 1.0;
        a_p *= scale;
        r *= scale;
    }
    const double nose = r * (1.0 - kappa.cosine);  // depth up to which only the nose cuts
    const bool curved = a_p <= nose;
    const double straight = r * kappa.sine * kappa.sine + (a_p - nose) * kappa.cosine;  // along, by the sine
    const double square = curved ? a_p * (2.0 * r - a_p) : straight * straight;
    const double across = curved ? a_p : a_p * kappa.sine;
    const double inverse = 1.0 / std::sqrt(across * across + square);
    return {across * inverse, std::sqrt(square) * inverse};
}

/// Mean entering angle when the nose does much of the cutting: the direction of the chord across the
/// engaged edge.
///
///     depth >= r (1 - cos kappa):   the angle of the chord from the deepest to the highest point
///     depth below that:             kappa_m = acos(1 - a_p / r) / 2, the chord's too
///
/// Given
///   depth_mm         a_p, mm, > 0
///   nose_radius_mm   r, mm, >= 0
///   entering_deg     kappa of the straight edge, degrees, above 0, at most 120
/// Returned
///   degrees; kappa itself for a sharp nose
/// Notes
///   1) For a_p < r (1 - cos kappa) only the nose cuts.
/// Source
///   geometry of the tool nose
/// Example
///   mean_entering_deg(0.2, 0.8, 90.0) = 20.70
struct MeanEntering {
    static constexpr std::string_view name = "mean_entering_deg";
    static constexpr std::array arguments{positive("depth_mm", "mm"), not_negative("nose_radius_mm", "mm"),
                                          Argument{.name = "entering_deg",
                                                   .unit = "deg",
                                                   .low = 0.0,
                                                   .high = 120.0,
                                                   .low_open = true,
                                                   .high_open = false}};
    static double compute(double a_p, double r, double kappa) noexcept {
        const SineCosine edge = sine_cosine_deg(kappa);
        const double nose = r * (1.0 - edge.cosine);  // depth up to which only the nose cuts
        const double along = a_p <= nose ? std::sqrt(a_p * (2.0 * r - a_p))
                                         : r * edge.sine + (a_p - nose) * edge.cosine / edge.sine;
        return atan2_of(a_p, along) / kDegree;
    }
};
inline double mean_entering_deg(double depth_mm, double nose_radius_mm, double entering_deg) {
    return scalar<MeanEntering>(depth_mm, nose_radius_mm, entering_deg);
}

/// Angle of the cutter's turn during which a tooth cuts, from an edge of the cutter inward.
///
///     cos(phi_s) = 1 - 2 a_e / D
///
/// Given
///   width_mm             a_e, mm, > 0, at most D
///   cutter_diameter_mm   D, mm, > 0
/// Returned
///   degrees, 0 to 180
/// Source
///   El-Hofy, Fundamentals of Machining Processes, ch. 6
/// Example
///   engagement_deg(10.0, 20.0) = 90.0
struct Engagement {
    static constexpr std::string_view name = "engagement_deg";
    static constexpr std::array arguments{positive("width_mm", "mm"), positive("cutter_diameter_mm", "mm")};
    static double compute(double a_e, double d) noexcept { return acos_of(1.0 - 2.0 * a_e / d) / kDegree; }
};
inline double engagement_deg(double width_mm, double cutter_diameter_mm) {
    return scalar<Engagement>(width_mm, cutter_diameter_mm);
}

/// Greatest chip thickness of a milling tooth.
///
///     h_max = 2 f_z sin(kappa) sqrt((a_e/D)(1 - a_e/D)),  from a_e = D/2 on f_z sin(kappa)
///
/// Given
///   feed_per_tooth_mm    f_z, mm, > 0
///   width_mm             a_e, mm, > 0, at most D
///   cutter_diameter_mm   D, mm, > 0
///   entering_deg         kappa, degrees, above 0, at most 90
/// Returned
///   mm
/// Source
///   El-Hofy, Fundamentals of Machining Processes, ch. 6
/// Example
///   milling_chip_thickness_max_mm(0.1, 2.0, 20.0, 90.0) = 0.06
struct MillingChipMax {
    static constexpr std::string_view name = "milling_chip_thickness_max_mm";
    static constexpr std::array arguments{positive("feed_per_tooth_mm", "mm"), positive("width_mm", "mm"),
                                          positive("cutter_diameter_mm", "mm"),
                                          Argument{.name = "entering_deg",
                                                   .unit = "deg",
                                                   .low = 0.0,
                                                   .high = 90.0,
                                                   .low_open = true,
                                                   .high_open = false}};
    static double compute(double f_z, double a_e, double d, double kappa) noexcept {
        const double x = a_e / d;
        if (x > 1.0) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        const double h = f_z * sine_cosine_deg(kappa).sine;
        return x < 0.5 ? 2.0 * h * std::sqrt(x * (1.0 - x)) : h;
    }
};
inline double milling_chip_thickness_max_mm(double feed_per_tooth_mm, double width_mm,
                                            double cutter_diameter_mm, double entering_deg) {
    return scalar<MillingChipMax>(feed_per_tooth_mm, width_mm, cutter_diameter_mm, entering_deg);
}

/// Mean chip thickness of a milling tooth over its engagement.
///
///     h_m = (360 / (pi phi_s)) f_z (a_e / D) sin(kappa)
///
/// Given
///   as milling_chip_thickness_max_mm
/// Returned
///   mm
/// Notes
///   1) For a small a_e this is f_z sqrt(a_e / D).
/// Source
///   Tschaetsch, Praxiswissen Zerspantechnik, milling (memory)
/// Example
///   milling_chip_thickness_mean_mm(0.1, 20.0, 20.0, 90.0) = 0.06366
struct MillingChipMean {
    static constexpr std::string_view name = "milling_chip_thickness_mean_mm";
    static constexpr std::array arguments = MillingChipMax::arguments;
    static double compute(double f_z, double a_e, double d, double kappa) noexcept {
        const double phi_s = Engagement::compute(a_e, d);
        return 360.0 / (std::numbers::pi * phi_s) * f_z * (a_e / d) * sine_cosine_deg(kappa).sine;
    }
};
inline double milling_chip_thickness_mean_mm(double feed_per_tooth_mm, double width_mm,
                                             double cutter_diameter_mm, double entering_deg) {
    return scalar<MillingChipMean>(feed_per_tooth_mm, width_mm, cutter_diameter_mm, entering_deg);
}

/// How much more feed a narrow cut bears for the same greatest chip thickness.
///
///     D / (2 sqrt(a_e (D - a_e))),  from a_e = D/2 on 1
///
/// Given
///   width_mm             a_e, mm, > 0, at most D
///   cutter_diameter_mm   D, mm, > 0
/// Returned
///   ratio, >= 1
/// Source
///   radial chip thinning, geometry of milling_chip_thickness_max_mm
/// Example
///   chip_thinning_factor(2.0, 20.0) = 1.6667
struct ChipThinning {
    static constexpr std::string_view name = "chip_thinning_factor";
    static constexpr std::array arguments{positive("width_mm", "mm"), positive("cutter_diameter_mm", "mm")};
    static double compute(double a_e, double d) noexcept {
        if (a_e > d) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        return a_e < d / 2.0 ? d / (2.0 * std::sqrt(a_e * (d - a_e))) : 1.0;
    }
};
inline double chip_thinning_factor(double width_mm, double cutter_diameter_mm) {
    return scalar<ChipThinning>(width_mm, cutter_diameter_mm);
}

}  // namespace halfnut::cutting
