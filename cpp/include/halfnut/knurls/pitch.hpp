#pragma once
/// Pitches of knurls: three systems, brought to one circular pitch in millimetres.
///
/// The circular pitch is measured along the surface, either across the teeth (normal) or around the
/// work (transverse). They differ for teeth that lean by the helix angle. A wheel by teeth per inch or
/// by metric pitch is named by its normal pitch; one by diametral pitch by the transverse pitch.

#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <string_view>

#include "halfnut/catalogue.hpp"
#include "halfnut/knurls/kinds.hpp"
#include "halfnut/level1.hpp"
#include "halfnut/quantity.hpp"

namespace halfnut::knurls {

inline constexpr double kDegree = std::numbers::pi / 180.0;

/// Circular pitch of a number of teeth per inch.
///
///     p = 25.4 / TPI
///
/// Given
///   teeth_per_inch  TPI, > 0, along the surface
/// Returned
///   mm, measured as the teeth per inch were (across the teeth for a diagonal wheel)
/// Errors
///   DomainError  the argument is not finite and > 0
/// Source
///   trade circular-knurl data sheet: P = 1/TPI
/// Example
///   pitch_from_teeth_per_inch_mm(20.0) = 1.27
struct PitchFromTeethPerInch {
    static constexpr std::string_view name = "pitch_from_teeth_per_inch_mm";
    static constexpr std::array arguments{positive("teeth_per_inch", "/in")};
    static double compute(double teeth_per_inch) noexcept { return kInchMm / teeth_per_inch; }
};
inline double pitch_from_teeth_per_inch_mm(double teeth_per_inch) {
    return scalar<PitchFromTeethPerInch>(teeth_per_inch);
}

/// Circular pitch around the blank of a diametral pitch.
///
///     p_t = 25.4 pi / P
///
/// Given
///   diametral_pitch  P, > 0, teeth per inch of diameter
/// Returned
///   mm around the blank
/// Errors
///   DomainError  the argument is not finite and > 0
/// Source
///   Machinery's Handbook 31st ed., p. 1059: N = P D
/// Example
///   pitch_from_diametral_mm(96.0) = 0.83121
struct PitchFromDiametral {
    static constexpr std::string_view name = "pitch_from_diametral_mm";
    static constexpr std::array arguments{positive("diametral_pitch", "/in")};
    static double compute(double diametral_pitch) noexcept {
        return std::numbers::pi * kInchMm / diametral_pitch;
    }
};
inline double pitch_from_diametral_mm(double diametral_pitch) {
    return scalar<PitchFromDiametral>(diametral_pitch);
}

/// Pitch around the work of teeth that lean by the helix angle.
///
///     p_t = p / cos(beta)
///
/// Given
///   normal_pitch_mm  p, mm, > 0, across the teeth
///   helix_deg        beta, from the axis, 0 to 75 degrees
/// Returned
///   mm around the work
/// Errors
///   DomainError  an argument is outside its range
/// Source
///   geometry of the developed cylinder
/// Example
///   transverse_pitch_mm(1.0, 30.0) = 1.1547
struct TransversePitch {
    static constexpr std::string_view name = "transverse_pitch_mm";
    static constexpr std::array arguments{positive("normal_pitch_mm", "mm"),
                                          between("helix_deg", 0.0, 75.0, "deg")};
    static double compute(double p, double beta) noexcept { return p / std::cos(beta * kDegree); }
};
inline double transverse_pitch_mm(double normal_pitch_mm, double helix_deg) {
    return scalar<TransversePitch>(normal_pitch_mm, helix_deg);
}

/// Pitch across teeth that lean by the helix angle; the inverse of transverse_pitch_mm.
///
///     p = p_t cos(beta)
///
/// Given
///   transverse_pitch_mm  p_t, mm, > 0, around the work
///   helix_deg            beta, from the axis, 0 to 75 degrees
/// Returned
///   mm across the teeth
/// Errors
///   DomainError  an argument is outside its range
/// Source
///   geometry of the developed cylinder
/// Example
///   normal_pitch_mm(1.0, 30.0) = 0.86603
struct NormalPitch {
    static constexpr std::string_view name = "normal_pitch_mm";
    static constexpr std::array arguments{positive("transverse_pitch_mm", "mm"),
                                          between("helix_deg", 0.0, 75.0, "deg")};
    static double compute(double p_t, double beta) noexcept { return p_t * std::cos(beta * kDegree); }
};
inline double normal_pitch_mm(double transverse_pitch_mm, double helix_deg) {
    return scalar<NormalPitch>(transverse_pitch_mm, helix_deg);
}

/// Pitch that a measured wheel prints around its own face.
///
///     p_t = pi (D_w + c) / N_w
///
/// Given
///   wheel_diameter_mm      D_w, mm, > 0, over the points
///   wheel_teeth            N_w, > 0
///   tracking_allowance_mm  c, mm, >= 0: the points dig in, so the blank sees a slightly larger wheel
/// Returned
///   mm around the wheel
/// Errors
///   DomainError  an argument is outside its range
/// Notes
///   1) For a wheel by diametral pitch c = N_w Q / pi brings back the nominal pitch.
/// Source
///   trade note on tracking (name withheld): D = (N / N_w)(D_w + c)
/// Example
///   wheel_pitch_mm(19.05, 47.0, 0.1778) = 1.28524
struct WheelPitch {
    static constexpr std::string_view name = "wheel_pitch_mm";
    static constexpr std::array arguments{positive("wheel_diameter_mm", "mm"), positive("wheel_teeth"),
                                          not_negative("tracking_allowance_mm", "mm")};
    static double compute(double d_w, double n_w, double c) noexcept {
        return std::numbers::pi * (d_w + c) / n_w;
    }
};
inline double wheel_pitch_mm(double wheel_diameter_mm, double wheel_teeth, double tracking_allowance_mm) {
    return scalar<WheelPitch>(wheel_diameter_mm, wheel_teeth, tracking_allowance_mm);
}

/// Outside diameter of a wheel by diametral pitch.
///
///     D_ow = D_nw - N_w Q / pi
///
/// Given
///   nominal_diameter_in  D_nw, in, > 0
///   wheel_teeth          N_w, > 0
///   tracking_factor_in   Q, in, >= 0
/// Returned
///   in
/// Errors
///   DomainError  an argument is outside its range
/// Source
///   ANSI/ASME B94.6, recalled (memory)
/// Example
///   diametral_wheel_outside_in(0.75, 72.0, 0.0002618) = 0.744
struct DiametralWheelOutside {
    static constexpr std::string_view name = "diametral_wheel_outside_in";
    static constexpr std::array arguments{positive("nominal_diameter_in", "in"), positive("wheel_teeth"),
                                          not_negative("tracking_factor_in", "in")};
    static double compute(double d_nw, double n_w, double q) noexcept {
        return d_nw - n_w * q / std::numbers::pi;
    }
};
inline double diametral_wheel_outside_in(double nominal_diameter_in, double wheel_teeth,
                                         double tracking_factor_in) {
    return scalar<DiametralWheelOutside>(nominal_diameter_in, wheel_teeth, tracking_factor_in);
}

/// The system a pitch is given in.
enum class PitchSystem : std::uint8_t {
    diametral,  ///< teeth per inch of blank diameter
    circular,   ///< teeth per inch along the surface, across the teeth
    metric,     ///< millimetres along the surface, across the teeth
};

constexpr auto enum_names(PitchSystem /*tag*/) {
    using std::string_view;
    return std::array{std::pair{PitchSystem::diametral, string_view("diametral")},
                      std::pair{PitchSystem::circular, string_view("circular")},
                      std::pair{PitchSystem::metric, string_view("metric")}};
}

/// A pitch as it is called for, with the pattern and the profile angle where the text names them.
struct KnurlPitch {
    PitchSystem system{};
    double value = 0;  ///< teeth per inch of diameter, teeth per inch, or mm
    std::optional<Pattern> pattern;
    std::optional<double> profile_deg;
};

/// Read the pitch of a knurl.
///
/// Understood: "96 DP", "DP 96", "21 TPI", "0.8 mm", "fine", "medium", "coarse", and metric designations
/// with their form: "RGE 0.8", "RGE 08", "RGE 08 - 105 DIN 82", "DIN 82 - RGE 0.8".
///
/// Given
///   text       UTF-8; letters of either case; blanks at either end are ignored
///   catalogue  where forms, codes and names are looked up
/// Errors
///   UnitError          a number alone; the message shows the three ways to write it
///   DesignationError   anything else that is not understood, with the position
///   NotTabulatedError  a form, code or name that does not exist; the message lists those that do
/// Example
///   parse_knurl_pitch("RGE 08 - 105 DIN 82", builtin()).value = 0.8
[[nodiscard]] KnurlPitch parse_knurl_pitch(std::string_view text, const Catalogue& catalogue);

/// The pitch as a drawing writes it: "96 DP", "21 TPI", "0.8 mm".
[[nodiscard]] std::string knurl_pitch_text(PitchSystem system, double value);

/// Read a pattern: "straight", "left", "right", "diamond" (raised), "diamond indented", "cross", ..., or a
/// metric form such as "RGV".
///
/// Errors: DesignationError listing the patterns.
[[nodiscard]] Pattern parse_knurl_pattern(std::string_view text, const Catalogue& catalogue);

}  // namespace halfnut::knurls
