#pragma once
/// What it takes to press a knurl in: the arc that a wheel touches on, and the force on it.

#include <array>
#include <cmath>
#include <string_view>

#include "halfnut/core/level1.hpp"

namespace halfnut::knurls {

/// Length of the arc on which a wheel that is pressed in touches the work.
///
///     l = sqrt(f D d / (D + d))
///
/// Given
///   infeed_mm           f, mm, > 0: by how much the wheel goes deeper while the work turns once
///   wheel_diameter_mm   D, mm, > 0
///   blank_diameter_mm   d, mm, > 0
/// Returned
///   mm along the surface
/// Notes
///   1) For an infeed that is small beside both diameters; within 2 % up to a twentieth of the smaller one.
/// Source
///   geometry of two circles that overlap by f
/// Example
///   knurl_contact_mm(0.05, 20.0, 20.0) = 0.70711
struct KnurlContact {
    static constexpr std::string_view name = "knurl_contact_mm";
    static constexpr std::array arguments{positive("infeed_mm", "mm"), positive("wheel_diameter_mm", "mm"),
                                          positive("blank_diameter_mm", "mm")};
    static double compute(double f, double wheel, double blank) noexcept {
        return std::sqrt(f * wheel * blank / (wheel + blank));
    }
};
inline double knurl_contact_mm(double infeed_mm, double wheel_diameter_mm, double blank_diameter_mm) {
    return scalar<KnurlContact>(infeed_mm, wheel_diameter_mm, blank_diameter_mm);
}

/// Force that presses one wheel into the work.
///
///     F = 3 Y b l s
///
/// Given
///   yield_mpa        Y, MPa, > 0, of the work
///   width_mm         b, mm, > 0: of the wheel's face on the work
///   contact_mm       l, mm, > 0: knurl_contact_mm
///   contact_share    s, above 0 and at most 1: of that patch the share that the teeth touch
/// Returned
///   N, across the axis
/// Notes
///   1) Work hardening and friction are left out: an order of size for choosing support, within a factor of
///      two or three.
/// Source
///   pressure of an indentation three times the yield strength, Tabor, recalled
/// Example
///   knurl_force_n(250.0, 6.0, 0.7, 1.0) = 3150
struct KnurlForce {
    static constexpr std::string_view name = "knurl_force_n";
    static constexpr std::array arguments{
        positive("yield_mpa", "MPa"), positive("width_mm", "mm"), positive("contact_mm", "mm"),
        Argument{.name = "contact_share", .unit = "", .low = 0.0, .high = 1.0, .low_open = true}};
    static double compute(double yield, double width, double contact, double share) noexcept {
        return 3.0 * yield * width * contact * share;
    }
};
inline double knurl_force_n(double yield_mpa, double width_mm, double contact_mm, double contact_share) {
    return scalar<KnurlForce>(yield_mpa, width_mm, contact_mm, contact_share);
}

}  // namespace halfnut::knurls
