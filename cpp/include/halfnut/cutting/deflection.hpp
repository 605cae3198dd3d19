#pragma once
/// How far the work or a bar bends under the cut. Straight, of one section.

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

}  // namespace halfnut::cutting
