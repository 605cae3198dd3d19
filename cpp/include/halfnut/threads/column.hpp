#pragma once
/// When a tube in compression bows out: Euler's and Johnson's loads, uniform and stepped columns.
///
/// The load is central and the column straight; an eccentric push or a bent tube fails below it. Slenderness
/// is the effective length over the radius of gyration, K L / r, with K of the ends (see column_ends.csv).
///
///     Euler    P = pi^2 E A / (K L / r)^2                       from the transition up
///     Johnson  P = S_y A (1 - S_y (K L / r)^2 / (4 pi^2 E))     below it
///
/// The two meet, with one tangent, where either is half the yield load: (K L / r)^2 = 2 pi^2 E / S_y.

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <span>
#include <string_view>

#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/threads/column_tables.hpp"

namespace halfnut {
struct Catalogue;
}

namespace halfnut::threads {

/// Area of a round bar or tube.
///
///     A = pi (D - d) (D + d) / 4
///
/// Given
///   diameter_mm   D, mm, > 0
///   bore_mm       d, mm, >= 0, below D; 0 for a solid bar
/// Returned
///   mm2
/// Errors
///   DomainError  an input is out of its range, or the bore is not below the diameter
/// Source
///   geometry
/// Example
///   tube_area_mm2(25.4, 20.0) = 192.55
struct TubeArea {
    static constexpr std::string_view name = "tube_area_mm2";
    static constexpr std::array arguments{positive("diameter_mm", "mm"), not_negative("bore_mm", "mm")};
    static double compute(double d, double b) noexcept {
        return b < d ? 0.25 * std::numbers::pi * (d - b) * (d + b) : std::numeric_limits<double>::quiet_NaN();
    }
    static std::string refusal(double d, double b);
};
inline double tube_area_mm2(double diameter_mm, double bore_mm) {
    return scalar<TubeArea>(diameter_mm, bore_mm);
}

/// Radius of gyration of a round bar or tube.
///
///     r = sqrt(D^2 + d^2) / 4
///
/// Given
///   diameter_mm   D, mm, > 0
///   bore_mm       d, mm, >= 0, below D; 0 for a solid bar
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the bore is not below the diameter
/// Source
///   geometry
/// Example
///   gyration_radius_mm(25.4, 20.0) = 8.0822
struct GyrationRadius {
    static constexpr std::string_view name = "gyration_radius_mm";
    static constexpr std::array arguments = TubeArea::arguments;
    static double compute(double d, double b) noexcept {
        return b < d ? 0.25 * std::sqrt(d * d + b * b) : std::numeric_limits<double>::quiet_NaN();
    }
    static std::string refusal(double d, double b) { return TubeArea::refusal(d, b); }
};
inline double gyration_radius_mm(double diameter_mm, double bore_mm) {
    return scalar<GyrationRadius>(diameter_mm, bore_mm);
}

/// Slenderness above which a column buckles before it yields, where Euler and Johnson meet.
///
///     (K L / r)_1 = sqrt(2 pi^2 E / S_y)
///
/// Given
///   youngs_modulus_gpa  E, GPa, > 0
///   yield_mpa           S_y, MPa, > 0
/// Returned
///   dimensionless
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Shigley writes (l / k)_1 = sqrt(2 pi^2 C E / S_y) with C = 1 / K^2 of the ends; the same.
/// Source
///   Shigley's Mechanical Engineering Design, 9th ed., section 4-13, recalled
/// Example
///   transition_slenderness(207.0, 500.0) = 90.397
struct TransitionSlenderness {
    static constexpr std::string_view name = "transition_slenderness";
    static constexpr std::array arguments{positive("youngs_modulus_gpa", "GPa"),
                                          positive("yield_mpa", "MPa")};
    static double compute(double e, double s_y) noexcept {
        return std::numbers::pi * std::sqrt(2000.0 * e / s_y);
    }
};
inline double transition_slenderness(double youngs_modulus_gpa, double yield_mpa) {
    return scalar<TransitionSlenderness>(youngs_modulus_gpa, yield_mpa);
}

/// Euler's load of a uniform column: the elastic one.
///
///     P = pi^2 E A / (K L / r)^2
///
/// Given
///   area_mm2            A, mm2, > 0
///   slenderness         K L / r, > 0
///   youngs_modulus_gpa  E, GPa, > 0
/// Returned
///   N
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Below the transition slenderness the column yields first: see column_load_n().
/// Source
///   Shigley's Mechanical Engineering Design, 9th ed., section 4-12, recalled
/// Example
///   euler_load_n(1256.6, 150.0, 207.0) = 114101
struct EulerLoad {
    static constexpr std::string_view name = "euler_load_n";
    static constexpr std::array arguments{positive("area_mm2", "mm2"), positive("slenderness"),
                                          positive("youngs_modulus_gpa", "GPa")};
    static double compute(double a, double s, double e) noexcept {
        return std::numbers::pi * std::numbers::pi * 1000.0 * e * a / (s * s);
    }
};
inline double euler_load_n(double area_mm2, double slenderness, double youngs_modulus_gpa) {
    return scalar<EulerLoad>(area_mm2, slenderness, youngs_modulus_gpa);
}

/// Johnson's load of a uniform column of intermediate length.
///
///     P = S_y A (1 - S_y (K L / r)^2 / (4 pi^2 E))
///
/// Given
///   area_mm2            A, mm2, > 0
///   slenderness         K L / r, >= 0, up to the transition slenderness
///   youngs_modulus_gpa  E, GPa, > 0
///   yield_mpa           S_y, MPa, > 0
/// Returned
///   N
/// Errors
///   DomainError  an input is out of its range, or the column is too slender for this formula
/// Source
///   Shigley's Mechanical Engineering Design, 9th ed., section 4-13, recalled
/// Example
///   johnson_load_n(314.16, 75.0, 207.0, 500.0) = 103019
struct JohnsonLoad {
    static constexpr std::string_view name = "johnson_load_n";
    static constexpr std::array arguments{positive("area_mm2", "mm2"), not_negative("slenderness"),
                                          positive("youngs_modulus_gpa", "GPa"),
                                          positive("yield_mpa", "MPa")};
    static double compute(double a, double s, double e, double s_y) noexcept {
        const double share = s_y * s * s / (4000.0 * std::numbers::pi * std::numbers::pi * e);
        // At the transition the share is a half; a rounding error above it is no slender column.
        return share <= 0.5 * (1.0 + 1e-12) ? s_y * a * (1.0 - share)
                                            : std::numeric_limits<double>::quiet_NaN();
    }
    static std::string refusal(double a, double s, double e, double s_y);
};
inline double johnson_load_n(double area_mm2, double slenderness, double youngs_modulus_gpa,
                             double yield_mpa) {
    return scalar<JohnsonLoad>(area_mm2, slenderness, youngs_modulus_gpa, yield_mpa);
}

/// Load at which a uniform column fails: Johnson's below the transition slenderness, Euler's from it up.
///
/// Given
///   area_mm2            A, mm2, > 0
///   slenderness         K L / r, >= 0
///   youngs_modulus_gpa  E, GPa, > 0
///   yield_mpa           S_y, MPa, > 0
/// Returned
///   N, without any factor of safety
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Shigley's Mechanical Engineering Design, 9th ed., sections 4-12 and 4-13, recalled
/// Example
///   column_load_n(1256.6, 150.0, 207.0, 500.0) = 114101
struct ColumnLoad {
    static constexpr std::string_view name = "column_load_n";
    static constexpr std::array arguments = JohnsonLoad::arguments;
    static double compute(double a, double s, double e, double s_y) noexcept {
        return s < TransitionSlenderness::compute(e, s_y) ? JohnsonLoad::compute(a, s, e, s_y)
                                                          : EulerLoad::compute(a, s, e);
    }
};
inline double column_load_n(double area_mm2, double slenderness, double youngs_modulus_gpa,
                            double yield_mpa) {
    return scalar<ColumnLoad>(area_mm2, slenderness, youngs_modulus_gpa, yield_mpa);
}

/// Load at which any column fails, from its elastic buckling load and the load at which its weakest section
/// yields.
///
///     P = P_e                      where P_e <= P_y / 2
///     P = P_y (1 - P_y / (4 P_e))  else
///
/// Given
///   elastic_load_n  P_e, N, > 0: Euler's, or a stepped column's
///   yield_load_n    P_y, N, > 0: the least of area times yield strength
/// Returned
///   N, without any factor of safety
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) For a uniform column this is column_load_n(), written with the two loads. For a stepped one it takes
///      the weakest section along the whole length, which errs on the safe side.
/// Source
///   Shigley's Mechanical Engineering Design, 9th ed., sections 4-12 and 4-13, rewritten
/// Example
///   column_capacity_n(114101.0, 628319.0) = 114101; column_capacity_n(114101.0, 157080.0) = 103016
struct ColumnCapacity {
    static constexpr std::string_view name = "column_capacity_n";
    static constexpr std::array arguments{positive("elastic_load_n", "N"), positive("yield_load_n", "N")};
    static double compute(double p_e, double p_y) noexcept {
        return p_e <= 0.5 * p_y ? p_e : p_y * (1.0 - p_y / (4.0 * p_e));
    }
};
inline double column_capacity_n(double elastic_load_n, double yield_load_n) {
    return scalar<ColumnCapacity>(elastic_load_n, yield_load_n);
}

/// A stretch of one section.
struct ColumnSegment {
    double length_mm = 0.0;        ///< > 0
    double stiffness_n_mm2 = 0.0;  ///< E I, > 0
};

/// Names and ranges of a segment's numbers; Status::argument counts in it, and 2 is the pair of ends.
inline constexpr std::array kSegmentArguments{positive("length_mm", "mm"),
                                              positive("stiffness_n_mm2", "N mm2")};

/// Elastic buckling load of a column of several sections, without throwing.
///
/// Returned
///   ok and `out_n`; not_finite or out_of_range with the number of a segment that is wrong; inconsistent
///   where the ends do not hold the column at all (see column_ends_hold()); out_of_range of 0 where there is
///   no segment.
[[nodiscard]] Status stepped_column_load(std::span<const ColumnSegment> segments, ColumnEnd first,
                                         ColumnEnd second, double& out_n);

/// Elastic buckling load of a column of several sections, one after another.
///
/// Given
///   segments  in order from the first end, lengths in mm, E I in N mm2; at least one
///   first     how the first end is held
///   second    how the second end is held
/// Returned
///   N: the least load at which the straight column is no longer stable
/// Errors
///   DomainError  a segment's number is out of its range, or the ends do not hold the column
/// Notes
///   1) Each segment enters by its exact stiffness under compression (stability functions); the number of
///      negative pivots of the assembled stiffness counts the buckling loads below a trial load, so bisection
///      finds the least one and cannot take another for it. No mesh; Agrees with beam elements within 5e-5; a
///      stub of a five-hundredth of the length, 200 times as stiff, at an end that sways: 2e-5.
///   2) Elastic: compare it with the yield load, column_capacity_n().
/// Source
///   beam-column theory (Timoshenko and Gere, Theory of Elastic Stability, recalled); the count of negative
///   pivots after Wittrick and Williams, recalled
/// Example
///   one segment of length L, both ends pinned: pi^2 E I / L^2
double stepped_column_load_n(std::span<const ColumnSegment> segments, ColumnEnd first, ColumnEnd second);

/// Whether two ends hold a column in place: not where it could swing or slide away without bending.
[[nodiscard]] constexpr bool column_ends_hold(ColumnEnd first, ColumnEnd second) noexcept {
    const auto stays = [](ColumnEnd end) { return end == ColumnEnd::pinned || end == ColumnEnd::fixed; };
    const auto directs = [](ColumnEnd end) { return end == ColumnEnd::fixed || end == ColumnEnd::guided; };
    return stays(first) && stays(second)
               ? true
               : (stays(first) || stays(second)) && (directs(first) || directs(second));
}

/// Row of the table of ends for a pair of them, in either order; nullptr where they do not hold a column.
[[nodiscard]] const ColumnEndRow* find_column_ends(const Catalogue& catalogue, ColumnEnd first,
                                                   ColumnEnd second) noexcept;

}  // namespace halfnut::threads
