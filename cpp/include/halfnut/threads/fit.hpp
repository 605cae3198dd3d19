#pragma once
/// Will it screw together: clearances, play, tilt and the chance of interference of two threads.
///
/// A clearance is a difference of diameters, internal less external, below 0 where the parts interfere. Sizes
/// are taken as they meet: coated, and at their temperatures. Everything engaged is the full-form length:
/// chamfers, countersinks and run-outs taken off.
///
///     axial play   = clearance at the pitch diameter x tan A
///     radial play  = the least of the three clearances, side to side
///     tilt         = clearance / (length of engagement + d2 cot A), to either side, or the crests' clearance
///                    / length where they touch first

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

struct AxialPlay {
    static constexpr std::string_view name = "axial_play_mm";
    static constexpr std::array arguments{not_negative("pitch_clearance_mm", "mm"), detail::kCoatedHalfAngle};
    static double compute(double clearance, double half_angle) noexcept {
        return clearance * tangent_deg(half_angle);
    }
};

/// End play of a thread: how far one part moves along the other, stop to stop.
///
///     c tan A
///
/// Given
///   pitch_clearance_mm  c, difference of the pitch diameters, mm, >= 0
///   half_angle_deg      A, degrees, 3 to 60
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Example
///   axial_play_mm(0.1, 30.0) = 0.057735
inline double axial_play_mm(double pitch_clearance_mm, double half_angle_deg) {
    return scalar<AxialPlay>(pitch_clearance_mm, half_angle_deg);
}

struct ThreadTilt {
    static constexpr std::string_view name = "thread_tilt_deg";
    static constexpr std::array arguments{
        not_negative("pitch_clearance_mm", "mm"), not_negative("crest_clearance_mm", "mm"),
        positive("engagement_mm", "mm"), positive("pitch_diameter_mm", "mm"), detail::kCoatedHalfAngle};
    static double compute(double clearance, double crest, double engagement, double pitch_diameter,
                          double half_angle) noexcept {
        const double flanks = clearance / (engagement + pitch_diameter / tangent_deg(half_angle));
        return std::min(flanks, crest / engagement) / kDegree;
    }
};

/// How far one part leans in the other, to either side, before it touches at both ends.
///
///     min( c / (LE + d2 cot A), c_crest / LE )
///
/// Given
///   pitch_clearance_mm  c, mm, >= 0
///   crest_clearance_mm  the lesser of the clearances at major and minor diameter, mm, >= 0
///   engagement_mm       LE, full-form length of engagement, mm, > 0
///   pitch_diameter_mm   d2, mm, > 0
///   half_angle_deg      A, degrees, 3 to 60
/// Returned
///   degrees
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Leaning by an angle moves a flank at the end of the engagement by half its length across, and by half
///      the pitch diameter along; the flank's normal adds the two.
/// Source
///   geometry
/// Example
///   thread_tilt_deg(0.1, 0.2, 10.0, 9.0, 30.0) = 0.223894
inline double thread_tilt_deg(double pitch_clearance_mm, double crest_clearance_mm, double engagement_mm,
                              double pitch_diameter_mm, double half_angle_deg) {
    return scalar<ThreadTilt>(pitch_clearance_mm, crest_clearance_mm, engagement_mm, pitch_diameter_mm,
                              half_angle_deg);
}

/// A size between two limits, mm. NaN: no such limit. A measured size has both ends equal.
struct SizeRange {
    double min_mm = kNaN;
    double max_mm = kNaN;
};

/// One part of a fit, bare and at 20 C.
struct FitPart {
    SizeRange major;
    SizeRange pitch;
    SizeRange minor;
    double pitch_mm = kNaN;  ///< axial pitch P
    int starts = 1;
    double half_angle_deg = 30.0;
    bool left_hand = false;
    BuildUp build_up;
    double lead_error_mm = 0.0;        ///< between any two flanks within the engagement
    double flank_equivalent_mm = 0.0;  ///< see flank_error_equivalent_mm
    double temperature_c = 20.0;
    double expansion_um_m_k = 0.0;  ///< 1e-6 per kelvin
};

/// The limits of a part as they are rounded by its standard.
[[nodiscard]] FitPart fit_part(const Thread& thread, const ThreadLimits& limits);

struct FitRequest {
    FitPart external;
    FitPart internal;
    double engagement_mm = kNaN;  ///< full-form length; NaN: the nominal diameter is assumed
    double assumed_engagement_mm = kNaN;
    /// Tolerance over standard deviation of the shop's cutting: 6 fills the zone with plus and minus 3 sigma.
    double tolerance_over_sigma = 6.0;
    /// Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other.
    double mean_shift = 0.0;
};

/// Names and ranges of the arguments that a person gives; Status::argument counts in it.
inline constexpr std::array kFitArguments{
    positive("external_pitch_diameter_mm", "mm"),
    positive("internal_pitch_diameter_mm", "mm"),
    positive("pitch_mm", "mm"),
    between("half_angle_deg", 3.0, 60.0, "deg"),
    positive("engagement_mm", "mm"),
    between("tolerance_over_sigma", 2.0, 100.0),
    between("mean_shift", -1.0, 1.0),
    between("temperature_c", -200.0, 1000.0, "C"),
    between("expansion_um_m_k", -10.0, 200.0),
    not_negative("lead_error_mm", "mm"),
};

enum class FitVerdict : std::uint8_t {
    free,        ///< screws together whatever the sizes within the limits
    may_bind,    ///< some parts within the limits interfere
    interferes,  ///< no parts within the limits screw together
    mismatch,    ///< not one thread: pitch, starts, angle or hand differ
};

constexpr auto enum_names(FitVerdict /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FitVerdict::free, string_view("free")},
                      std::pair{FitVerdict::may_bind, string_view("may bind")},
                      std::pair{FitVerdict::interferes, string_view("interferes")},
                      std::pair{FitVerdict::mismatch, string_view("mismatch")}};
}

enum class FitDimension : std::uint8_t { pitch, major, minor, lead, hand, angle };

constexpr auto enum_names(FitDimension /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FitDimension::pitch, string_view("pitch diameter")},
                      std::pair{FitDimension::major, string_view("major diameter")},
                      std::pair{FitDimension::minor, string_view("minor diameter")},
                      std::pair{FitDimension::lead, string_view("lead")},
                      std::pair{FitDimension::hand, string_view("hand")},
                      std::pair{FitDimension::angle, string_view("thread angle")}};
}

/// Figures of a ThreadFit, in the order of its members.
inline constexpr std::array<std::string_view, 18> kFitFigures{
    "pitch_clearance_min_mm", "pitch_clearance_max_mm", "major_clearance_min_mm", "major_clearance_max_mm",
    "minor_clearance_min_mm", "minor_clearance_max_mm", "radial_play_min_mm",     "radial_play_max_mm",
    "axial_play_min_mm",      "axial_play_max_mm",      "tilt_min_deg",           "tilt_max_deg",
    "clearance_mean_mm",      "clearance_sigma_mm",     "chance_of_interference", "engagement_mm",
    "lead_mismatch_mm",       "turns_to_bind"};

struct ThreadFit {
    double pitch_clearance_min_mm = kNaN;
    double pitch_clearance_max_mm = kNaN;
    double major_clearance_min_mm = kNaN;
    double major_clearance_max_mm = kNaN;  ///< NaN where the standard leaves a root open
    double minor_clearance_min_mm = kNaN;
    double minor_clearance_max_mm = kNaN;
    double radial_play_min_mm = kNaN;  ///< 0 where the parts interfere
    double radial_play_max_mm = kNaN;
    double axial_play_min_mm = kNaN;
    double axial_play_max_mm = kNaN;
    double tilt_min_deg = kNaN;
    double tilt_max_deg = kNaN;
    double clearance_mean_mm = kNaN;  ///< at the pitch diameter
    double clearance_sigma_mm = kNaN;
    double chance_of_interference = kNaN;
    double engagement_mm = kNaN;
    double lead_mismatch_mm = 0.0;  ///< over one turn
    double turns_to_bind = kNaN;    ///< before a wrong lead has used up the axial play; NaN: never
    FitVerdict verdict{};
    FitDimension deciding{};
    bool engagement_assumed = false;
    Evidence<12> evidence;

    [[nodiscard]] std::array<double, kFitFigures.size()> figures() const noexcept;
};

/// Fit of two threads, without throwing.
///
/// Returned
///   ok and `out`, or not_finite or out_of_range with the argument (see kFitArguments)
/// Notes
///   1) A mismatch (pitch, starts, hand, angle) is an answer, not a failure: the clearances are there, and
///      turns_to_bind says how far the parts still go.
///   2) The worst case is that of the limits; the chance is of cutting within them as the shop does, a size
///      normal about its mean and cut off at its limits, a build-up even over its range.
[[nodiscard]] Status evaluate(const FitRequest& request, ThreadFit& out) noexcept;

/// Fit of two threads.
///
/// Errors
///   DomainError  a size, length or spread out of its range
[[nodiscard]] ThreadFit fit(const FitRequest& request);

/// Chance that the clearance at the pitch diameter of a pair is below a number: the distribution of the
/// clearance.
///
/// Given
///   request       as for evaluate(); its ranges are taken as checked
///   clearance_mm  mm
/// Returned
///   from 0 to 1; at 0 mm the chance of interference
[[nodiscard]] double chance_below(const FitRequest& request, double clearance_mm) noexcept;

/// A part cut to suit a measured one, pitch diameter: for an external part to suit a nut, or the other way
/// round.
///
/// Given
///   measured_mm         pitch diameter of the part that is there, as it will meet: coated already, or bare
///   measured_change_um  what a coating will still do to it: 2 t / sin A, greatest; 0: it is finished
///   clearance_min_mm    wanted at the pitch diameter, least and ...
///   clearance_max_mm    ... greatest, mm
///   change_min_um       what the coating of the part to cut does, least and ...
///   change_max_um       ... greatest
///   external            the part to cut is the external one
/// Returned
///   limits to cut to, mm: at them the wanted clearances are kept whatever the coating within its range
struct SuitRequest {
    double measured_mm = kNaN;
    double measured_change_min_um = 0.0;
    double measured_change_max_um = 0.0;
    double clearance_min_mm = kNaN;
    double clearance_max_mm = kNaN;
    double change_min_um = 0.0;
    double change_max_um = 0.0;
    bool external = true;
};
inline constexpr std::array<std::string_view, 3> kSuitFigures{"pitch_min_mm", "pitch_max_mm", "over_max_mm"};

struct Suited {
    SizeRange pitch;
    Evidence<4> evidence;
};
[[nodiscard]] Status evaluate(const SuitRequest& request, Suited& out) noexcept;

}  // namespace halfnut::threads
