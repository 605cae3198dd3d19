#pragma once
/// Whether a wheel falls back into its own marks when the work has turned once.

#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/knurls/pitch.hpp"

namespace halfnut::knurls {

/// A count of teeth this near a whole number is whole: it covers the rounding of inch to millimetre.
inline constexpr double kWholeTooth = 1e-6;

/// Beyond this mismatch, in teeth, a wheel is likely to cut a second set of teeth (memory).
inline constexpr double kMismatchLimit = 0.2;

/// Fewest teeth around the work for which a blank is answered.
inline constexpr double kFewestTeeth = 3.0;

/// Whole teeth at or below, and at or above, a count.
[[nodiscard]] inline double whole_below(double teeth) noexcept {
    return std::floor(teeth + kWholeTooth);
}
[[nodiscard]] inline double whole_above(double teeth) noexcept {
    return std::ceil(teeth - kWholeTooth);
}

/// Teeth that a pitch puts around a blank; whole only where the knurl tracks.
///
///     N = pi D / p_t
///
/// Given
///   blank_diameter_mm    D, mm, > 0
///   transverse_pitch_mm  p_t, mm, > 0, around the work
/// Returned
///   teeth, not rounded
/// Errors
///   DomainError  an argument is not finite and > 0
/// Source
///   Machinery's Handbook 31st ed., p. 1059; trade circular-knurl data sheet: N = pi D / P
/// Example
///   teeth_around(25.4, 1.27) = 62.832
struct TeethAround {
    static constexpr std::string_view name = "teeth_around";
    static constexpr std::array arguments{positive("blank_diameter_mm", "mm"),
                                          positive("transverse_pitch_mm", "mm")};
    static double compute(double d, double p_t) noexcept { return std::numbers::pi * d / p_t; }
};
inline double teeth_around(double blank_diameter_mm, double transverse_pitch_mm) {
    return scalar<TeethAround>(blank_diameter_mm, transverse_pitch_mm);
}

/// How far the teeth around a blank are from the nearest whole number.
///
///     f = N - round(N)
///
/// Given
///   blank_diameter_mm    D, mm, > 0
///   transverse_pitch_mm  p_t, mm, > 0, around the work
/// Returned
///   teeth, -0.5 to 0.5: 0 tracks, 0.5 prints twice the teeth
/// Errors
///   DomainError  an argument is not finite and > 0
/// Notes
///   1) The limit at which a pattern still closes is a shop rule, about 0.2 (memory): kMismatchLimit.
/// Source
///   trade note on tracking (name withheld)
/// Example
///   mismatch_teeth(25.4, 1.27) = -0.16815
struct MismatchTeeth {
    static constexpr std::string_view name = "mismatch_teeth";
    static constexpr std::array arguments = TeethAround::arguments;
    static double compute(double d, double p_t) noexcept {
        const double n = TeethAround::compute(d, p_t);
        return n - std::round(n);
    }
};
inline double mismatch_teeth(double blank_diameter_mm, double transverse_pitch_mm) {
    return scalar<MismatchTeeth>(blank_diameter_mm, transverse_pitch_mm);
}

/// Blank that takes a number of teeth.
///
///     D = N p_t / pi
///
/// Given
///   teeth                N, > 0; whole for a knurl that tracks
///   transverse_pitch_mm  p_t, mm, > 0, around the work
/// Returned
///   mm
/// Errors
///   DomainError  an argument is not finite and > 0
/// Source
///   Machinery's Handbook 31st ed., p. 1059
/// Example
///   tracking_blank_mm(63.0, 1.27) = 25.468
struct TrackingBlank {
    static constexpr std::string_view name = "tracking_blank_mm";
    static constexpr std::array arguments{positive("teeth"), positive("transverse_pitch_mm", "mm")};
    static double compute(double n, double p_t) noexcept { return n * p_t / std::numbers::pi; }
};
inline double tracking_blank_mm(double teeth, double transverse_pitch_mm) {
    return scalar<TrackingBlank>(teeth, transverse_pitch_mm);
}

/// Largest blank with whole teeth that is not above a diameter.
///
/// Given
///   blank_diameter_mm    mm, > 0
///   transverse_pitch_mm  p_t, mm, > 0, around the work
/// Returned
///   mm; the diameter itself where it already tracks
/// Errors
///   DomainError  an argument is not finite and > 0, or not one tooth fits
/// Example
///   blank_below_mm(25.4, 1.27) = 25.064
struct BlankBelow {
    static constexpr std::string_view name = "blank_below_mm";
    static constexpr std::array arguments = TeethAround::arguments;
    static double compute(double d, double p_t) noexcept {
        const double n = whole_below(TeethAround::compute(d, p_t));
        return n > 0.0 ? TrackingBlank::compute(n, p_t) : kNaN;
    }
};
inline double blank_below_mm(double blank_diameter_mm, double transverse_pitch_mm) {
    return scalar<BlankBelow>(blank_diameter_mm, transverse_pitch_mm);
}

/// Smallest blank with whole teeth that is not below a diameter; see blank_below_mm.
///
/// Example
///   blank_above_mm(25.4, 1.27) = 25.468
struct BlankAbove {
    static constexpr std::string_view name = "blank_above_mm";
    static constexpr std::array arguments = TeethAround::arguments;
    static double compute(double d, double p_t) noexcept {
        const double n = whole_above(TeethAround::compute(d, p_t));
        return n > 0.0 ? TrackingBlank::compute(n, p_t) : kNaN;
    }
};
inline double blank_above_mm(double blank_diameter_mm, double transverse_pitch_mm) {
    return scalar<BlankAbove>(blank_diameter_mm, transverse_pitch_mm);
}

/// Angle at which a straight wheel, set over, puts a number of teeth around a blank that cannot change.
///
///     psi = acos(N p / (pi D))
///
/// Given
///   teeth              N, > 0, at most what the wheel puts around when square to the work
///   normal_pitch_mm    p, mm, > 0, across the teeth
///   blank_diameter_mm  D, mm, > 0
/// Returned
///   degrees from the axis, 0 to below 90
/// Errors
///   DomainError  an argument is not finite and > 0, or so many teeth do not fit at any angle
/// Source
///   Machinery's Handbook 31st ed., p. 1059, equation 17
/// Example
///   tracking_helix_deg(138.0, 25.4 * pi / 160.0, 25.4) = 30.40
struct TrackingHelix {
    static constexpr std::string_view name = "tracking_helix_deg";
    static constexpr std::array arguments{positive("teeth"), positive("normal_pitch_mm", "mm"),
                                          positive("blank_diameter_mm", "mm")};
    static double compute(double n, double p, double d) noexcept {
        const double cosine = n * p / (std::numbers::pi * d);
        return cosine > 1.0 && cosine < 1.0 + 1e-12 ? 0.0 : acos_of(cosine) / kDegree;
    }
};
inline double tracking_helix_deg(double teeth, double normal_pitch_mm, double blank_diameter_mm) {
    return scalar<TrackingHelix>(teeth, normal_pitch_mm, blank_diameter_mm);
}

}  // namespace halfnut::knurls
