#pragma once
/// How far the work or a bar deflects under the cut. Straight, of one section.

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "halfnut/cutting/kinematics.hpp"

namespace halfnut::cutting {

/// Second moment of area of a round bar or tube.
///
///     I = pi (D^4 - d^4) / 64
///
/// Given
///   diameter_mm   D, mm, > 0
///   bore_mm       d, mm, >= 0, below D; 0 for a solid bar
/// Returned
///   mm4
/// Source
///   beam tables (Roark)
/// Example
///   second_moment_mm4(25.4, 0.0) = 20432
struct SecondMoment {
    static constexpr std::string_view name = "second_moment_mm4";
    static constexpr std::array arguments{positive("diameter_mm", "mm"), not_negative("bore_mm", "mm")};
    static double compute(double d, double b) noexcept {
        if (b >= d) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        return std::numbers::pi * (d * d + b * b) * (d + b) * (d - b) /
               64.0;  // no cancellation in thin tubes
    }
};
inline double second_moment_mm4(double diameter_mm, double bore_mm) {
    return scalar<SecondMoment>(diameter_mm, bore_mm);
}

/// Deflection at the load of a bar held at one end: work in a chuck, a boring bar.
///
///     y = F x^3 / (3 E I)
///
/// Given
///   force_n             F, N, >= 0
///   overhang_mm         x, mm, >= 0, from the jaws to the load
///   youngs_modulus_gpa  E, GPa, > 0
///   second_moment_mm4   I, mm4, > 0
/// Returned
///   mm
/// Source
///   beam tables (Roark); E. Isakov, Cutting Tool Engineering, July 2019
/// Example
///   cantilever_deflection_mm(911.1, 101.6, 206.0, 20432.0) = 0.0757
struct CantileverDeflection {
    static constexpr std::string_view name = "cantilever_deflection_mm";
    static constexpr std::array arguments{not_negative("force_n", "N"), not_negative("overhang_mm", "mm"),
                                          positive("youngs_modulus_gpa", "GPa"),
                                          positive("second_moment_mm4", "mm4")};
    static double compute(double f, double x, double e, double i) noexcept {
        return f * x * x * x / (3000.0 * e * i);
    }
};
inline double cantilever_deflection_mm(double force_n, double overhang_mm, double youngs_modulus_gpa,
                                       double second_moment_mm4) {
    return scalar<CantileverDeflection>(force_n, overhang_mm, youngs_modulus_gpa, second_moment_mm4);
}

/// Deflection at the load of work between centres.
///
///     y = F a^2 b^2 / (3 E I L),  b = L - a
///
/// Given
///   force_n             F, N, >= 0
///   position_mm         a, mm, >= 0, at most L, from one centre
///   length_mm           L, mm, > 0, between the centres
///   youngs_modulus_gpa  E, GPa, > 0
///   second_moment_mm4   I, mm4, > 0
/// Returned
///   mm
/// Source
///   beam tables (Roark)
/// Example
///   centres_deflection_mm(100.0, 150.0, 300.0, 205.0, 20432.0) = 0.01343
struct CentresDeflection {
    static constexpr std::string_view name = "centres_deflection_mm";
    static constexpr std::array arguments{not_negative("force_n", "N"), not_negative("position_mm", "mm"),
                                          positive("length_mm", "mm"), positive("youngs_modulus_gpa", "GPa"),
                                          positive("second_moment_mm4", "mm4")};
    static double compute(double f, double a, double l, double e, double i) noexcept {
        const double b = l - a;
        return b < 0.0 ? std::numeric_limits<double>::quiet_NaN() : f * a * a * b * b / (3000.0 * e * i * l);
    }
};
inline double centres_deflection_mm(double force_n, double position_mm, double length_mm,
                                    double youngs_modulus_gpa, double second_moment_mm4) {
    return scalar<CentresDeflection>(force_n, position_mm, length_mm, youngs_modulus_gpa, second_moment_mm4);
}

/// Deflection at the load of work held in a chuck and steadied by a centre.
///
///     y = F a^3 b^2 (3 L + b) / (12 E I L^3),  b = L - a
///
/// Given
///   force_n             F, N, >= 0
///   position_mm         a, mm, >= 0, at most L, from the chuck
///   length_mm           L, mm, > 0, from chuck to centre
///   youngs_modulus_gpa  E, GPa, > 0
///   second_moment_mm4   I, mm4, > 0
/// Returned
///   mm; greatest at a = 0.586 L, there F L^3 / (102 E I)
/// Source
///   beam tables (Roark), fixed at one end and supported at the other
/// Example
///   chuck_centre_deflection_mm(100.0, 150.0, 300.0, 205.0, 20432.0) = 0.005875
struct ChuckCentreDeflection {
    static constexpr std::string_view name = "chuck_centre_deflection_mm";
    static constexpr std::array arguments = CentresDeflection::arguments;
    static double compute(double f, double a, double l, double e, double i) noexcept {
        const double b = l - a;
        if (b < 0.0) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        return f * a * a * a * b * b * (3.0 * l + b) / (12000.0 * e * i * l * l * l);
    }
};
inline double chuck_centre_deflection_mm(double force_n, double position_mm, double length_mm,
                                         double youngs_modulus_gpa, double second_moment_mm4) {
    return scalar<ChuckCentreDeflection>(force_n, position_mm, length_mm, youngs_modulus_gpa,
                                         second_moment_mm4);
}

/// First whirl of a round bar or tube: the speed at which the least bow grows without bound.
///
///     n = 60 (b^2 / 2 pi L^2) sqrt(E I / (rho A)),  I / A = (D^2 + d^2) / 16
///
/// Given
///   diameter_mm         D, mm, > 0; of a hexagon: 1.054 times its width across flats
///   bore_mm             d, mm, >= 0, below D; 0 for a solid bar
///   length_mm           L, mm, > 0, free
///   youngs_modulus_gpa  E, GPa, > 0
///   density_kg_m3       rho, kg/m3, > 0
///   root                b, > 0: 1.8751 held at one end, 3.9266 with a centre at the other, pi between
///   centres
/// Returned
///   rev/min
/// Notes
///   1) A bow at rest grows 1 / (1 - (n / n1)^2) times at n: by a third at half of it.
///   2) A bar that lies loose in the spindle whirls lower.
/// Source
///   bending vibration of beams (Timoshenko), recalled; a slowly turning bow whirls at the beam's own
///   frequency
/// Example
///   first_whirl_rpm(25.0, 0.0, 914.0, 205.0, 7850.0, 1.8751) = 1284
struct FirstWhirl {
    static constexpr std::string_view name = "first_whirl_rpm";
    static constexpr std::array arguments{
        positive("diameter_mm", "mm"),      not_negative("bore_mm", "mm"),
        positive("length_mm", "mm"),        positive("youngs_modulus_gpa", "GPa"),
        positive("density_kg_m3", "kg/m3"), positive("root")};
    static double compute(double d, double b, double l, double e, double rho, double root) noexcept {
        if (b >= d) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        const double gyration_mm = std::sqrt(d * d + b * b) / 4.0;
        const double sound_mm_s = 1000.0 * std::sqrt(1e9 * e / rho);
        return 60.0 * root * root / (2.0 * std::numbers::pi * l * l) * sound_mm_s * gyration_mm;
    }
};
inline double first_whirl_rpm(double diameter_mm, double bore_mm, double length_mm, double youngs_modulus_gpa,
                              double density_kg_m3, double root) {
    return scalar<FirstWhirl>(diameter_mm, bore_mm, length_mm, youngs_modulus_gpa, density_kg_m3, root);
}

/// Load that buckles a slender bar held at one end and pinned at the other.
///
///     P = 4.4934^2 E I / L^2
///
/// Given
///   length_mm            L, mm, > 0
///   youngs_modulus_gpa   E, GPa, > 0
///   second_moment_mm4    I, mm^4, > 0
/// Returned
///   N
/// Source
///   Euler's column: the first root of tan x = x
/// Example
///   pinned_buckling_n(20.0, 210.0, 0.0030680) = 32.52
struct PinnedBuckling {
    static constexpr std::string_view name = "pinned_buckling_n";
    static constexpr std::array arguments{positive("length_mm", "mm"), positive("youngs_modulus_gpa", "GPa"),
                                          positive("second_moment_mm4", "mm4")};
    static double compute(double l, double e, double i) noexcept {
        constexpr double kRoot = 4.493409457909064;
        return kRoot * kRoot * 1000.0 * e * i / (l * l);
    }
};
inline double pinned_buckling_n(double length_mm, double youngs_modulus_gpa, double second_moment_mm4) {
    return scalar<PinnedBuckling>(length_mm, youngs_modulus_gpa, second_moment_mm4);
}

/// Torque at which the surface of a round bar reaches a shear stress.
///
///     M = pi tau d^3 / 16
///
/// Given
///   shear_mpa     tau, MPa, > 0
///   diameter_mm   d, mm, > 0
/// Returned
///   N m
/// Source
///   torsion of a round bar
/// Example
///   twist_strength_nm(1200.0, 2.0) = 1.8850
struct TwistStrength {
    static constexpr std::string_view name = "twist_strength_nm";
    static constexpr std::array arguments{positive("shear_mpa", "MPa"), positive("diameter_mm", "mm")};
    static double compute(double tau, double d) noexcept {
        return std::numbers::pi / 16.0 * tau * d * d * d / 1000.0;
    }
};
inline double twist_strength_nm(double shear_mpa, double diameter_mm) {
    return scalar<TwistStrength>(shear_mpa, diameter_mm);
}

/// Width of cut up to which no chatter grows at any speed, of a tool or work with one mode.
///
///     b = 2 k z (1 + z) / K_s
///
/// Given
///   stiffness_n_um         k, N/um, > 0: a load beside the deflection that it makes, measured at the edge
///   damping                z, damping ratio, > 0, at most 1: 0.02 to 0.05 without a damper
///   specific_force_n_mm2   K_s, N/mm2, > 0
/// Returned
///   mm, along the edge
/// Notes
///   1) The force is taken to point where the mode is softest, so that this is the least.
/// Source
///   Tlusty: b = -1 / (2 K_s Re[G]min), one mode: Re[G]min = -1 / (4 k z (1 + z))
/// Example
///   limiting_width_mm(20.0, 0.03, 2000.0) = 0.618
struct LimitingWidth {
    static constexpr std::string_view name = "limiting_width_mm";
    static constexpr std::array arguments{
        positive("stiffness_n_um", "N/um"),
        Argument{
            .name = "damping", .unit = "", .low = 0.0, .high = 1.0, .low_open = true, .high_open = false},
        positive("specific_force_n_mm2", "N/mm2")};
    static double compute(double k, double z, double k_s) noexcept {
        return 2.0 * 1000.0 * k * z * (1.0 + z) / k_s;
    }
};
inline double limiting_width_mm(double stiffness_n_um, double damping, double specific_force_n_mm2) {
    return scalar<LimitingWidth>(stiffness_n_um, damping, specific_force_n_mm2);
}

/// Roots of the frequency equation for work held at one end, with a centre at the other, between centres.
inline constexpr double kWhirlRootChuck = 1.8751040687119611;
inline constexpr double kWhirlRootChuckAndCentre = 3.9266023120479187;
inline constexpr double kWhirlRootCentres = std::numbers::pi;

/// Diameter of the round bar that whirls as a hexagon does, over the width across flats: I / A = 5 w^2 / 72.
inline constexpr double kHexagonRound = 1.0540925533894598;

/// Share of the first whirl that no speed goes above.
inline constexpr double kWhirlShare = 0.5;

}  // namespace halfnut::cutting
