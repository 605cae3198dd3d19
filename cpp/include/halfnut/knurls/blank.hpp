#pragma once
/// The blank to turn before knurling, so that the knurl closes on itself, and the size it comes out at.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

#include "halfnut/catalogue.hpp"
#include "halfnut/evidence.hpp"
#include "halfnut/knurls/growth.hpp"
#include "halfnut/knurls/kinds.hpp"
#include "halfnut/knurls/pitch.hpp"
#include "halfnut/knurls/tracking.hpp"

namespace halfnut::knurls {

/// How the teeth are made.
enum class Process : std::uint8_t {
    form,  ///< pressed in: metal moves, the diameter grows
    cut,   ///< cut: metal goes, the diameter stays
};

constexpr auto enum_names(Process /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Process::form, string_view("form")},
                      std::pair{Process::cut, string_view("cut")}};
}

/// Which of the blanks that track is answered.
enum class Prefer : std::uint8_t { nearest, below, above };

constexpr auto enum_names(Prefer /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Prefer::nearest, string_view("nearest")},
                      std::pair{Prefer::below, string_view("below")},
                      std::pair{Prefer::above, string_view("above")}};
}

/// What is asked. NaN stands for "not given".
struct KnurlRequest {
    double diameter_mm = kNaN;  ///< of the work before knurling, or after it when `finished`
    PitchSystem system = PitchSystem::metric;
    double pitch = kNaN;  ///< teeth per inch of diameter, teeth per inch, or mm
    Pattern pattern = Pattern::diamond_raised;
    Process process = Process::form;
    Prefer prefer = Prefer::nearest;
    bool finished = false;
    bool set_over = false;                ///< straight wheels turned to the helix angle
    double helix_deg = kNaN;              ///< of leaning teeth, from the axis; 30 when not given
    double profile_deg = kNaN;            ///< between the flanks; the system's own depth when not given
    double wheel_diameter_mm = kNaN;      ///< over the points, measured; or nominal, when no teeth are given
    double wheel_teeth = kNaN;            ///< counted; looked up for a standard wheel when not given
    double tracking_allowance_mm = kNaN;  ///< c; by rule when not given
    int tolerance_class = 0;              ///< 1, 2, 3 of the diametral system; 0 for none
    double width_mm = kNaN;               ///< of the knurled band
};

/// Names and ranges of the request's arguments; Status::argument counts in it.
inline constexpr std::array kKnurlArguments{
    positive("diameter_mm", "mm"),
    positive("pitch"),
    inside("helix_deg", 0.0, 75.0, "deg"),
    between("profile_deg", 40.0, 140.0, "deg"),
    positive("wheel_diameter_mm", "mm"),
    positive("wheel_teeth"),
    not_negative("tracking_allowance_mm", "mm"),
    between("tolerance_class", 0.0, 3.0),
    positive("width_mm", "mm"),
    finite("process"),
    finite("set_over"),
};

/// Something legal that the shop should know. Values are bits of KnurlBlank::cautions.
enum class KnurlCaution : std::uint32_t {
    stray_pitch = 1U << 0U,       ///< the pitch is not one of its system's series
    few_teeth = 1U << 1U,         ///< under 12 teeth: the flat-blank rules are rough
    wheel_off_pitch = 1U << 2U,   ///< the wheel's own pitch is over 3 % from the one called for
    coarse_diametral = 1U << 3U,  ///< 64 DP, where 96 DP is preferred
    large_diametral = 1U << 4U,   ///< a diametral pitch on more than 1 in
    wide_band = 1U << 5U,         ///< the band is wider than the blank's diameter
    off_finished = 1U << 6U,      ///< whole teeth leave the finished diameter outside its limits
};

constexpr auto enum_names(KnurlCaution /*tag*/) {
    using std::string_view;
    return std::array{std::pair{KnurlCaution::stray_pitch, string_view("knurl_stray_pitch")},
                      std::pair{KnurlCaution::few_teeth, string_view("knurl_few_teeth")},
                      std::pair{KnurlCaution::wheel_off_pitch, string_view("knurl_wheel_off_pitch")},
                      std::pair{KnurlCaution::coarse_diametral, string_view("knurl_coarse_diametral")},
                      std::pair{KnurlCaution::large_diametral, string_view("knurl_large_diametral")},
                      std::pair{KnurlCaution::wide_band, string_view("knurl_wide_band")},
                      std::pair{KnurlCaution::off_finished, string_view("knurl_off_finished")}};
}

/// The record's figures, in the order of its members.
inline constexpr std::array<std::string_view, 23> kKnurlFigures{
    "blank_diameter_mm",
    "teeth",
    "blank_plus_minus_mm",
    "finished_diameter_mm",
    "finished_max_mm",
    "finished_min_mm",
    "growth_mm",
    "tooth_depth_mm",
    "given_diameter_mm",
    "given_teeth",
    "given_mismatch_teeth",
    "given_mismatch_mm",
    "mismatch_limit_teeth",
    "below_diameter_mm",
    "below_teeth",
    "above_diameter_mm",
    "above_teeth",
    "normal_pitch_mm",
    "transverse_pitch_mm",
    "helix_deg",
    "wheel_diameter_mm",
    "wheel_teeth",
    "tracking_allowance_mm",
};

/// The answer. A figure that does not apply is NaN: limits without a class, a wheel where none was given.
struct KnurlBlank {
    double blank_diameter_mm = kNaN;  ///< to turn
    double teeth = kNaN;              ///< whole
    double blank_plus_minus_mm = kNaN;
    double finished_diameter_mm = kNaN;  ///< expected over the points
    double finished_max_mm = kNaN;       ///< of the tolerance class
    double finished_min_mm = kNaN;
    double growth_mm = kNaN;             ///< on the diameter
    double tooth_depth_mm = kNaN;        ///< full
    double given_diameter_mm = kNaN;     ///< the blank that was given, or that leaves the finished diameter
    double given_teeth = kNaN;           ///< around it, not rounded
    double given_mismatch_teeth = kNaN;  ///< -0.5 to 0.5
    double given_mismatch_mm = kNaN;     ///< the same along the surface
    double mismatch_limit_teeth = kNaN;  ///< beyond it the wheel is likely to print a second set
    double below_diameter_mm = kNaN;     ///< largest tracking blank not above it
    double below_teeth = kNaN;
    double above_diameter_mm = kNaN;  ///< smallest tracking blank not below it
    double above_teeth = kNaN;
    double normal_pitch_mm = kNaN;      ///< across the teeth, as called for
    double transverse_pitch_mm = kNaN;  ///< around the work, as the wheel prints it
    double helix_deg = kNaN;
    double wheel_diameter_mm = kNaN;
    double wheel_teeth = kNaN;
    double tracking_allowance_mm = kNaN;
    std::uint32_t cautions = 0;
    Evidence<26> evidence;

    /// The figures in the order of kKnurlFigures.
    [[nodiscard]] std::array<double, kKnurlFigures.size()> figures() const noexcept {
        return {blank_diameter_mm,
                teeth,
                blank_plus_minus_mm,
                finished_diameter_mm,
                finished_max_mm,
                finished_min_mm,
                growth_mm,
                tooth_depth_mm,
                given_diameter_mm,
                given_teeth,
                given_mismatch_teeth,
                given_mismatch_mm,
                mismatch_limit_teeth,
                below_diameter_mm,
                below_teeth,
                above_diameter_mm,
                above_teeth,
                normal_pitch_mm,
                transverse_pitch_mm,
                helix_deg,
                wheel_diameter_mm,
                wheel_teeth,
                tracking_allowance_mm};
    }
    [[nodiscard]] bool has(KnurlCaution caution) const noexcept {
        return (cautions & static_cast<std::uint32_t>(caution)) != 0U;
    }
};

/// Blank, whole teeth and finished diameter of a knurl, without throwing.
///
///     D = N p_t / pi,  finished = D + g,  N whole
///
/// Given
///   request    what is asked
///   catalogue  pitches, forms, wheels, depths and tolerance classes
///   out        the answer; every figure NaN unless the status is ok
/// Returned
///   ok; not_finite or out_of_range with the argument; not_tabulated: no such standard wheel, or no such
///   class for the pitch; inconsistent: a helix on a straight pattern, a cut knurl with sunk or crossing
///   rings, a class for straight teeth on another pattern, set-over wheels on a straight pattern
/// Notes
///   1) For a wanted finished diameter growth and whole teeth are solved together: the growth does not
///      depend on the blank, so N = pi (D_f - g) / p_t is made whole and the diameter follows.
///   2) Depth and growth are those of the full form called for; light pressure gives less.
///   3) Fewer than 3 teeth around the work are out of range.
///   4) Metric standard wheels are tabulated with straight teeth only; a leaning one must be measured.
/// Source
///   the rules named in the evidence, each with its source
[[nodiscard]] Status evaluate(const KnurlRequest& request, const Catalogue& catalogue,
                              KnurlBlank& out) noexcept;

/// The same, throwing.
///
/// Errors
///   DomainError        an argument outside its range or two that contradict each other
///   NotTabulatedError  no such standard wheel or class; the message lists those that exist
/// Example
///   0.5 in at 96 DP, straight: blank_diameter_mm = 12.7, teeth = 48
[[nodiscard]] KnurlBlank knurl_blank(const KnurlRequest& request, const Catalogue& catalogue);

}  // namespace halfnut::knurls
