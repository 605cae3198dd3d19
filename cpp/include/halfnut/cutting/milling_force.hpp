#pragma once
/// Where the force of a milling cutter points: along the feed and across it.

#include <array>
#include <limits>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/cutting/kinematics.hpp"

namespace halfnut::cutting {

/// Radial over tangential force at a tooth, where none was measured.
inline constexpr double kRadialShare = 0.6;

namespace detail {

/// Integrals of the chip (sin), of its tangential force along the feed (sin cos) and across it (sin sin).
struct Engaged {
    double chip;
    double along;
    double across;
};
inline Engaged engaged(double entry_deg, double exit_deg) noexcept {
    const SineCosine a = sine_cosine_deg(entry_deg);
    const SineCosine b = sine_cosine_deg(exit_deg);
    const double chip = a.cosine - b.cosine;
    const double along = (b.sine - a.sine) * (b.sine + a.sine) / 2.0;
    const double across = ((exit_deg - entry_deg) * kDegree - (b.sine * b.cosine - a.sine * a.cosine)) / 2.0;
    return {chip, along, across};
}

}  // namespace detail

/// Mean force against the feed, over the mean tangential force of the engaged teeth.
///
///     (int sin cos + q int sin sin) / int sin   over the teeth's way through the work
///
/// Given
///   entry_deg      where a tooth enters, degrees from the side that conventional milling enters at, 0 to 180
///   exit_deg       where it leaves, above entry_deg, at most 180
///   radial_share   q, radial over tangential force, 0 to 2
/// Returned
///   ratio; positive pushes the work along with the table's feed force, as in conventional milling
/// Source
///   integration of tooth forces proportional to the chip, straight teeth: any text on milling mechanics
/// Example
///   milling_feed_force_ratio(0.0, 180.0, 0.6) = 0.47124
struct MillingFeedForce {
    static constexpr std::string_view name = "milling_feed_force_ratio";
    static constexpr std::array arguments{between("entry_deg", 0.0, 180.0, "deg"),
                                          between("exit_deg", 0.0, 180.0, "deg"),
                                          between("radial_share", 0.0, 2.0)};
    static double compute(double entry, double exit, double q) noexcept {
        if (exit <= entry) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        const detail::Engaged over = detail::engaged(entry, exit);
        return (over.along + q * over.across) / over.chip;
    }
};
inline double milling_feed_force_ratio(double entry_deg, double exit_deg, double radial_share) {
    return scalar<MillingFeedForce>(entry_deg, exit_deg, radial_share);
}

/// Mean force across the feed, over the mean tangential force of the engaged teeth.
///
///     (int sin sin - q int sin cos) / int sin
///
/// Given
///   entry_deg, exit_deg, radial_share   as for milling_feed_force_ratio
/// Returned
///   ratio; the sign tells whether the cutter is pulled into the wall (positive) or pushed off it
/// Source
///   as for milling_feed_force_ratio
/// Example
///   milling_cross_force_ratio(0.0, 180.0, 0.6) = 0.78540
struct MillingCrossForce {
    static constexpr std::string_view name = "milling_cross_force_ratio";
    static constexpr std::array arguments = MillingFeedForce::arguments;
    static double compute(double entry, double exit, double q) noexcept {
        if (exit <= entry) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        const detail::Engaged over = detail::engaged(entry, exit);
        return (over.across - q * over.along) / over.chip;
    }
};
inline double milling_cross_force_ratio(double entry_deg, double exit_deg, double radial_share) {
    return scalar<MillingCrossForce>(entry_deg, exit_deg, radial_share);
}

}  // namespace halfnut::cutting
