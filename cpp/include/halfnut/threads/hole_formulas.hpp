#pragma once
/// Holes as numbers: before tapping, blind, countersunk.
///
/// Per cent of thread has one basis for ISO metric and Unified threads, as tap-drill tables have it: 100 is a
/// double depth of 1.299038 P (0.6495 P a side, 3 H / 4). The basic height of the internal thread, 5 H / 8,
/// is 83.3 of it.

#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut::threads {

/// Double depth of a 100 per cent thread over its pitch.
inline constexpr double kFullDepth = 0.75 * std::numbers::sqrt3;

/// Hole of a forming tap: this times the per cent times the pitch below the major diameter.
inline constexpr double kFormingDepth = 0.0068;

namespace detail {
inline constexpr Argument kMajor = positive("diameter_mm", "mm");
inline constexpr Argument kHolePitch = positive("pitch_mm", "mm");
inline constexpr Argument kPercent{
    .name = "percent", .unit = "%", .low = 0.0, .high = 100.0, .low_open = true};
inline constexpr Argument kHole = positive("hole_mm", "mm");
inline constexpr double kNoHole = std::numeric_limits<double>::quiet_NaN();
inline constexpr double kDegreeTangent = 1.0 / std::numbers::sqrt3;  // tan 30
}  // namespace detail

/// Length of a drill's point: what it travels beyond the full diameter.
///
///     A = D / (2 tan(sigma / 2))
///
/// Given
///   diameter_mm   D, mm, > 0
///   point_deg     sigma, included angle, degrees, above 0 and below 180
/// Returned
///   mm: 0.300 D at 118 degrees, 0.207 D at 135
/// Source
///   geometry; Groover, Fundamentals of Modern Manufacturing, ch. 22
/// Example
///   point_length_mm(10.0, 118.0) = 3.004
struct PointLength {
    static constexpr std::string_view name = "point_length_mm";
    static constexpr std::array arguments{positive("diameter_mm", "mm"),
                                          inside("point_deg", 0.0, 180.0, "deg")};
    static double compute(double d, double sigma) noexcept { return d / (2.0 * tangent_deg(sigma / 2.0)); }
};
inline double point_length_mm(double diameter_mm, double point_deg) {
    return scalar<PointLength>(diameter_mm, point_deg);
}

/// Depth of a countersink.
///
///     t = (D_c - d) / (2 tan(c / 2))
///
/// Given
///   countersink_diameter_mm   D_c, mm, > 0
///   hole_diameter_mm          d, mm, > 0, at most D_c
///   included_deg              c, degrees, above 0 and below 180
/// Returned
///   mm
/// Example
///   countersink_depth_mm(12.0, 6.0, 90.0) = 3.0
struct CountersinkDepth {
    static constexpr std::string_view name = "countersink_depth_mm";
    static constexpr std::array arguments{positive("countersink_diameter_mm", "mm"),
                                          positive("hole_diameter_mm", "mm"),
                                          inside("included_deg", 0.0, 180.0, "deg")};
    static double compute(double d_c, double d, double c) noexcept {
        return d_c < d ? detail::kNoHole : (d_c - d) / (2.0 * tangent_deg(c / 2.0));
    }
};
inline double countersink_depth_mm(double countersink_diameter_mm, double hole_diameter_mm,
                                   double included_deg) {
    return scalar<CountersinkDepth>(countersink_diameter_mm, hole_diameter_mm, included_deg);
}

/// Diameter that a countersink reaches at a depth.
///
///     D_c = d + 2 t tan(c / 2)
///
/// Given
///   depth_mm           t, mm, >= 0, from the surface to the foot of the cone
///   hole_diameter_mm   d, mm, > 0
///   included_deg       c, degrees, above 0 and below 180
/// Returned
///   mm
/// Example
///   countersink_diameter_mm(3.0, 6.0, 90.0) = 12.0
struct CountersinkDiameter {
    static constexpr std::string_view name = "countersink_diameter_mm";
    static constexpr std::array arguments{not_negative("depth_mm", "mm"), positive("hole_diameter_mm", "mm"),
                                          inside("included_deg", 0.0, 180.0, "deg")};
    static double compute(double t, double d, double c) noexcept {
        return d + 2.0 * t * tangent_deg(c / 2.0);
    }
};
inline double countersink_diameter_mm(double depth_mm, double hole_diameter_mm, double included_deg) {
    return scalar<CountersinkDiameter>(depth_mm, hole_diameter_mm, included_deg);
}

/// Hole before tapping for a per cent of thread.
///
///     d = D - 1.299038 P p / 100
///
/// Given
///   diameter_mm   D, basic major diameter, mm, > 0
///   pitch_mm      P, mm, > 0
///   percent       p, above 0 and at most 100
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the pitch too coarse for the diameter
/// Source
///   Machinery's Handbook, tap drill sizes (memory): D - 0.01299 p / n in inches, D - p P / 76.98 in mm
/// Example
///   tapping_hole_mm(6.0, 1.0, 77.0) = 4.999741
struct TappingHoleSize {
    static constexpr std::string_view name = "tapping_hole_mm";
    static constexpr std::array arguments{detail::kMajor, detail::kHolePitch, detail::kPercent};
    static double compute(double major, double pitch, double percent) noexcept {
        const double hole = major - kFullDepth * pitch * percent / 100.0;
        return hole > 0.0 ? hole : detail::kNoHole;
    }
    static std::string refusal(double /*major*/, double /*pitch*/, double /*percent*/) {
        return "so coarse a pitch leaves no hole in this diameter";
    }
};
inline double tapping_hole_mm(double diameter_mm, double pitch_mm, double percent) {
    return scalar<TappingHoleSize>(diameter_mm, pitch_mm, percent);
}

/// Per cent of thread that a hole leaves: the inverse of tapping_hole_mm.
///
///     p = 100 (D - d) / (1.299038 P)
///
/// Given
///   diameter_mm   D, basic major diameter, mm, > 0
///   pitch_mm      P, mm, > 0
///   hole_mm       d, mm, > 0, below D
/// Returned
///   per cent; above 100 for a hole smaller than a full thread's
/// Errors
///   DomainError  an input is out of its range, or the hole not smaller than the thread
/// Example
///   thread_percent(6.0, 1.0, 5.0) = 76.98
struct ThreadPercent {
    static constexpr std::string_view name = "thread_percent";
    static constexpr std::array arguments{detail::kMajor, detail::kHolePitch, detail::kHole};
    static double compute(double major, double pitch, double hole) noexcept {
        return hole < major ? 100.0 * (major - hole) / (kFullDepth * pitch) : detail::kNoHole;
    }
    static std::string refusal(double /*major*/, double /*pitch*/, double /*hole*/) {
        return "hole_mm must be below diameter_mm";
    }
};
inline double thread_percent(double diameter_mm, double pitch_mm, double hole_mm) {
    return scalar<ThreadPercent>(diameter_mm, pitch_mm, hole_mm);
}

/// Hole before a forming tap, which presses the thread and cuts nothing.
///
///     d = D - 0.0068 p P
///
/// Given
///   diameter_mm   D, basic major diameter, mm, > 0
///   pitch_mm      P, mm, > 0
///   percent       p, per cent of thread wanted, above 0 and at most 100; 65 is usual
/// Returned
///   mm
/// Errors
///   DomainError  as tapping_hole_mm
/// Notes
///   1) The metal decides: try one hole, and measure the minor diameter.
/// Source
///   Machinery's Handbook and tap makers' tables (memory): D - 0.0068 p / n in inches, D - p P / 147.06 in mm
/// Example
///   forming_hole_mm(6.0, 1.0, 65.0) = 5.558
struct FormingHole {
    static constexpr std::string_view name = "forming_hole_mm";
    static constexpr std::array arguments{detail::kMajor, detail::kHolePitch, detail::kPercent};
    static double compute(double major, double pitch, double percent) noexcept {
        const double hole = major - kFormingDepth * percent * pitch;
        return hole > 0.0 ? hole : detail::kNoHole;
    }
    static std::string refusal(double major, double pitch, double percent) {
        return TappingHoleSize::refusal(major, pitch, percent);
    }
};
inline double forming_hole_mm(double diameter_mm, double pitch_mm, double percent) {
    return scalar<FormingHole>(diameter_mm, pitch_mm, percent);
}

/// Per cent of thread that a forming tap makes in a hole: the inverse of forming_hole_mm.
///
///     p = (D - d) / (0.0068 P)
///
/// Given
///   as thread_percent
/// Returned
///   per cent
/// Example
///   forming_percent(6.0, 1.0, 5.558) = 65
struct FormingPercent {
    static constexpr std::string_view name = "forming_percent";
    static constexpr std::array arguments{detail::kMajor, detail::kHolePitch, detail::kHole};
    static double compute(double major, double pitch, double hole) noexcept {
        return hole < major ? (major - hole) / (kFormingDepth * pitch) : detail::kNoHole;
    }
    static std::string refusal(double major, double pitch, double hole) {
        return ThreadPercent::refusal(major, pitch, hole);
    }
};
inline double forming_percent(double diameter_mm, double pitch_mm, double hole_mm) {
    return scalar<FormingPercent>(diameter_mm, pitch_mm, hole_mm);
}

/// Depth to drill a blind hole to, at its full diameter, for a length of full thread.
///
///     full thread + c P + room
///
/// Given
///   full_thread_mm    length with every thread full, mm, > 0
///   pitch_mm          P, mm, > 0
///   chamfer_threads   c, threads of the tap's chamfer, 0 to 20
///   chip_room_mm      room under the tap, mm, >= 0
/// Returned
///   mm; the drill's point goes point_length_mm deeper
/// Example
///   blind_drill_depth_mm(12.0, 1.0, 5.0, 2.0) = 19.0
struct BlindDrillDepth {
    static constexpr std::string_view name = "blind_drill_depth_mm";
    static constexpr std::array arguments{positive("full_thread_mm", "mm"), detail::kHolePitch,
                                          between("chamfer_threads", 0.0, 20.0),
                                          not_negative("chip_room_mm", "mm")};
    static double compute(double full, double pitch, double chamfer, double room) noexcept {
        return full + chamfer * pitch + room;
    }
};
inline double blind_drill_depth_mm(double full_thread_mm, double pitch_mm, double chamfer_threads,
                                   double chip_room_mm) {
    return scalar<BlindDrillDepth>(full_thread_mm, pitch_mm, chamfer_threads, chip_room_mm);
}

/// Length of full thread that a drilled blind hole takes: the inverse of blind_drill_depth_mm.
///
///     depth - c P - room
///
/// Given
///   drill_depth_mm    at full diameter, mm, > 0
///   others            as blind_drill_depth_mm
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the hole too shallow for one full thread
/// Example
///   full_thread_mm(19.0, 1.0, 5.0, 2.0) = 12.0
struct FullThread {
    static constexpr std::string_view name = "full_thread_mm";
    static constexpr std::array arguments{positive("drill_depth_mm", "mm"), detail::kHolePitch,
                                          between("chamfer_threads", 0.0, 20.0),
                                          not_negative("chip_room_mm", "mm")};
    static double compute(double depth, double pitch, double chamfer, double room) noexcept {
        const double full = depth - chamfer * pitch - room;
        return full > 0.0 ? full : detail::kNoHole;
    }
    static std::string refusal(double depth, double pitch, double chamfer, double room) {
        return "a hole " + std::to_string(depth) +
               " mm deep leaves no full thread: chamfer and chip room take " +
               std::to_string(chamfer * pitch + room) + " mm";
    }
};
inline double full_thread_mm(double drill_depth_mm, double pitch_mm, double chamfer_threads,
                             double chip_room_mm) {
    return scalar<FullThread>(drill_depth_mm, pitch_mm, chamfer_threads, chip_room_mm);
}

/// Shear area of the external thread in a tapped hole, over that in another hole.
///
///     d (P/2 + (E - d) / sqrt 3) / [ d0 (P/2 + (E - d0) / sqrt 3) ]
///
/// Given
///   hole_mm             d, minor diameter of the internal thread, mm, > 0
///   full_hole_mm        d0, the one compared with, mm, > 0: usually the smallest minor diameter
///   pitch_mm            P, mm, > 0
///   pitch_diameter_mm   E, of the external thread, its smallest, mm, > 0
/// Returned
///   ratio; what a larger hole leaves of the strength of the external thread. The internal thread strips at
///   the major diameter, where the hole does not matter.
/// Errors
///   DomainError  an input is out of its range, or either hole past the crests, E + sqrt 3 P / 2
/// Source
///   FED-STD-H28/2B (ASME B1.1, appendix B), as quoted from Machinery's Handbook, 24th ed.
/// Example
///   strip_ratio(5.0, 4.917, 1.0, 5.212) = 0.94418
struct StripRatio {
    static constexpr std::string_view name = "strip_ratio";
    static constexpr std::array arguments{detail::kHole, positive("full_hole_mm", "mm"), detail::kHolePitch,
                                          positive("pitch_diameter_mm", "mm")};
    static double area(double hole, double pitch, double e) noexcept {
        return hole * (0.5 * pitch + detail::kDegreeTangent * (e - hole));
    }
    static double compute(double hole, double full_hole, double pitch, double e) noexcept {
        const double one = area(hole, pitch, e);
        const double other = area(full_hole, pitch, e);
        return one > 0.0 && other > 0.0 ? one / other : detail::kNoHole;
    }
    static std::string refusal(double /*hole*/, double /*full_hole*/, double pitch, double e) {
        return "holes must be below " + std::to_string(e + 0.5 * std::numbers::sqrt3 * pitch) +
               " mm, where no thread is left";
    }
};
inline double strip_ratio(double hole_mm, double full_hole_mm, double pitch_mm, double pitch_diameter_mm) {
    return scalar<StripRatio>(hole_mm, full_hole_mm, pitch_mm, pitch_diameter_mm);
}

/// Largest hole that leaves a share of the external thread's shear area: the inverse of strip_ratio.
///
/// Given
///   ratio    above 0 and at most 1
///   others   as strip_ratio
/// Returned
///   mm
/// Errors
///   DomainError  as strip_ratio
/// Example
///   hole_for_strip_ratio_mm(1.0, 4.917, 1.0, 5.212) = 4.917
struct HoleForStripRatio {
    static constexpr std::string_view name = "hole_for_strip_ratio_mm";
    static constexpr std::array arguments{
        Argument{.name = "ratio", .unit = "", .low = 0.0, .high = 1.0, .low_open = true},
        positive("full_hole_mm", "mm"), detail::kHolePitch, positive("pitch_diameter_mm", "mm")};
    static double compute(double ratio, double full_hole, double pitch, double e) noexcept {
        const double wanted = ratio * StripRatio::area(full_hole, pitch, e);
        if (!(wanted > 0.0)) {
            return detail::kNoHole;
        }
        // tan 30 d^2 - b d + wanted = 0; the larger root lies on the falling side of the area
        const double b = 0.5 * pitch + detail::kDegreeTangent * e;
        const double root = b * b - 4.0 * detail::kDegreeTangent * wanted;
        return root >= 0.0 ? (b + std::sqrt(root)) / (2.0 * detail::kDegreeTangent) : detail::kNoHole;
    }
    static std::string refusal(double ratio, double full_hole, double pitch, double e) {
        return StripRatio::refusal(ratio, full_hole, pitch, e);
    }
};
inline double hole_for_strip_ratio_mm(double ratio, double full_hole_mm, double pitch_mm,
                                      double pitch_diameter_mm) {
    return scalar<HoleForStripRatio>(ratio, full_hole_mm, pitch_mm, pitch_diameter_mm);
}

}  // namespace halfnut::threads
