#pragma once
/// Speeds, feeds, metal removed and time.

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "halfnut/core/level1.hpp"
#include "halfnut/threads/hole_formulas.hpp"

namespace halfnut::cutting {

/// Spindle speed that gives a cutting speed at a diameter.
///
///     n = 1000 v_c / (pi d)
///
/// Given
///   cutting_speed_m_min   v_c, m/min, > 0
///   diameter_mm           d, mm, > 0: the work in turning, the tool in drilling and milling
/// Returned
///   rev/min
/// Errors
///   DomainError   an input is not finite and > 0
/// Notes
///   1) No machine limit is applied; see choose_spindle().
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 22; Tabellenbuch Metall
/// Example
///   spindle_speed_rpm(100.0, 50.0) = 636.62
struct SpindleSpeed {
    static constexpr std::string_view name = "spindle_speed_rpm";
    static constexpr std::array arguments{positive("cutting_speed_m_min", "m/min"),
                                          positive("diameter_mm", "mm")};
    static double compute(double v_c, double d) noexcept { return 1000.0 / (std::numbers::pi * d) * v_c; }
};
inline double spindle_speed_rpm(double cutting_speed_m_min, double diameter_mm) {
    return scalar<SpindleSpeed>(cutting_speed_m_min, diameter_mm);
}

/// Cutting speed at a diameter.
///
///     v_c = pi d n / 1000
///
/// Given
///   spindle_rpm   n, rev/min, > 0
///   diameter_mm   d, mm, > 0
/// Returned
///   m/min
/// Example
///   cutting_speed_m_min(636.62, 50.0) = 100.00
struct CuttingSpeed {
    static constexpr std::string_view name = "cutting_speed_m_min";
    static constexpr std::array arguments{positive("spindle_rpm", "rev/min"), positive("diameter_mm", "mm")};
    static double compute(double n, double d) noexcept { return std::numbers::pi / 1000.0 * d * n; }
};
inline double cutting_speed_m_min(double spindle_rpm, double diameter_mm) {
    return scalar<CuttingSpeed>(spindle_rpm, diameter_mm);
}

/// Feed motion of a tool that is fed by the revolution.
///
///     v_f = f n
///
/// Given
///   feed_mm_rev   f, mm/rev, > 0
///   spindle_rpm   n, rev/min, > 0
/// Returned
///   mm/min
/// Example
///   feed_rate_mm_min(0.25, 400.0) = 100.0
struct FeedRate {
    static constexpr std::string_view name = "feed_rate_mm_min";
    static constexpr std::array arguments{positive("feed_mm_rev", "mm/rev"),
                                          positive("spindle_rpm", "rev/min")};
    static double compute(double f, double n) noexcept { return f * n; }
};
inline double feed_rate_mm_min(double feed_mm_rev, double spindle_rpm) {
    return scalar<FeedRate>(feed_mm_rev, spindle_rpm);
}

/// Table feed of a milling cutter.
///
///     v_f = f_z z n
///
/// Given
///   feed_per_tooth_mm   f_z, mm, > 0
///   teeth               z, > 0
///   spindle_rpm         n, rev/min, > 0
/// Returned
///   mm/min
/// Example
///   table_feed_mm_min(0.05, 4.0, 500.0) = 100.0
struct TableFeed {
    static constexpr std::string_view name = "table_feed_mm_min";
    static constexpr std::array arguments{positive("feed_per_tooth_mm", "mm"), positive("teeth"),
                                          positive("spindle_rpm", "rev/min")};
    static double compute(double f_z, double z, double n) noexcept { return f_z * z * n; }
};
inline double table_feed_mm_min(double feed_per_tooth_mm, double teeth, double spindle_rpm) {
    return scalar<TableFeed>(feed_per_tooth_mm, teeth, spindle_rpm);
}

/// Metal removed in turning.
///
///     Q = v_c f a_p
///
/// Given
///   cutting_speed_m_min   v_c, m/min, > 0
///   feed_mm_rev           f, mm/rev, > 0
///   depth_mm              a_p, mm, > 0, on the radius
/// Returned
///   cm3/min
/// Notes
///   1) v_c at the outer diameter gives the handbooks' figure; at the mean diameter, the volume exactly.
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 22
/// Example
///   turning_removal_cm3_min(108.0, 0.30, 2.6) = 84.24
struct TurningRemoval {
    static constexpr std::string_view name = "turning_removal_cm3_min";
    static constexpr std::array arguments{positive("cutting_speed_m_min", "m/min"),
                                          positive("feed_mm_rev", "mm/rev"), positive("depth_mm", "mm")};
    static double compute(double v_c, double f, double a_p) noexcept { return v_c * f * a_p; }
};
inline double turning_removal_cm3_min(double cutting_speed_m_min, double feed_mm_rev, double depth_mm) {
    return scalar<TurningRemoval>(cutting_speed_m_min, feed_mm_rev, depth_mm);
}

/// Metal removed in milling.
///
///     Q = a_p a_e v_f / 1000
///
/// Given
///   depth_mm             a_p, mm, > 0, along the cutter's axis
///   width_mm             a_e, mm, > 0, across it
///   feed_rate_mm_min     v_f, mm/min, > 0
/// Returned
///   cm3/min
/// Example
///   milling_removal_cm3_min(5.0, 60.0, 1534.5) = 460.35
struct MillingRemoval {
    static constexpr std::string_view name = "milling_removal_cm3_min";
    static constexpr std::array arguments{positive("depth_mm", "mm"), positive("width_mm", "mm"),
                                          positive("feed_rate_mm_min", "mm/min")};
    static double compute(double a_p, double a_e, double v_f) noexcept { return a_p * a_e * v_f / 1000.0; }
};
inline double milling_removal_cm3_min(double depth_mm, double width_mm, double feed_rate_mm_min) {
    return scalar<MillingRemoval>(depth_mm, width_mm, feed_rate_mm_min);
}

/// Metal removed in drilling from the solid.
///
///     Q = pi D^2 v_f / 4000
///
/// Given
///   diameter_mm        D, mm, > 0
///   feed_rate_mm_min   v_f, mm/min, > 0
/// Returned
///   cm3/min
/// Example
///   drilling_removal_cm3_min(10.0, 238.0) = 18.692
struct DrillingRemoval {
    static constexpr std::string_view name = "drilling_removal_cm3_min";
    static constexpr std::array arguments{positive("diameter_mm", "mm"),
                                          positive("feed_rate_mm_min", "mm/min")};
    static double compute(double d, double v_f) noexcept { return std::numbers::pi * d * d * v_f / 4000.0; }
};
inline double drilling_removal_cm3_min(double diameter_mm, double feed_rate_mm_min) {
    return scalar<DrillingRemoval>(diameter_mm, feed_rate_mm_min);
}

/// Time of a feed motion.
///
///     t = 60 L / v_f
///
/// Given
///   travel_mm          L, mm, >= 0: the cut with approach and overrun
///   feed_rate_mm_min   v_f, mm/min, > 0
/// Returned
///   s
/// Example
///   feed_time_s(200.0, 200.0) = 60.0
struct FeedTime {
    static constexpr std::string_view name = "feed_time_s";
    static constexpr std::array arguments{not_negative("travel_mm", "mm"),
                                          positive("feed_rate_mm_min", "mm/min")};
    static double compute(double l, double v_f) noexcept { return 60.0 * l / v_f; }
};
inline double feed_time_s(double travel_mm, double feed_rate_mm_min) {
    return scalar<FeedTime>(travel_mm, feed_rate_mm_min);
}

// Both are geometry of the hole, which the threads need before a cut is asked for.
using threads::countersink_depth_mm;
using threads::CountersinkDepth;
using threads::point_length_mm;
using threads::PointLength;

/// Travel of a milling cutter from its first touch to full width, cutting with its periphery.
///
///     A = sqrt(a_e (D - a_e))
///
/// Given
///   cutter_diameter_mm   D, mm, > 0
///   width_mm             a_e, mm, > 0, at most D: depth of cut in slab milling, side step in end milling
/// Returned
///   mm
/// Notes
///   1) From a_e = D/2 on, half the diameter: the cutter's centre must pass the edge.
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 22
/// Example
///   milling_approach_mm(80.0, 5.0) = 19.365
struct MillingApproach {
    static constexpr std::string_view name = "milling_approach_mm";
    static constexpr std::array arguments{positive("cutter_diameter_mm", "mm"), positive("width_mm", "mm")};
    static double compute(double d, double a_e) noexcept {
        if (a_e > d) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        return a_e < d / 2.0 ? std::sqrt(a_e * (d - a_e)) : d / 2.0;
    }
};
inline double milling_approach_mm(double cutter_diameter_mm, double width_mm) {
    return scalar<MillingApproach>(cutter_diameter_mm, width_mm);
}

/// Travel of a face mill, centred on the work, from its first touch to full width.
///
///     A = (D - sqrt(D^2 - w^2)) / 2
///
/// Given
///   cutter_diameter_mm   D, mm, > 0
///   width_mm             w, mm, > 0, at most D
/// Returned
///   mm
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 22 (memory)
/// Example
///   face_milling_approach_mm(50.0, 40.0) = 10.0
struct FaceMillingApproach {
    static constexpr std::string_view name = "face_milling_approach_mm";
    static constexpr std::array arguments{positive("cutter_diameter_mm", "mm"), positive("width_mm", "mm")};
    static double compute(double d, double w) noexcept { return (d - std::sqrt(d * d - w * w)) / 2.0; }
};
inline double face_milling_approach_mm(double cutter_diameter_mm, double width_mm) {
    return scalar<FaceMillingApproach>(cutter_diameter_mm, width_mm);
}

}  // namespace halfnut::cutting
