#pragma once
/// What a measured part is: which limits it keeps, which classes it meets, what is left to take off.
///
/// The go side is judged on the functional pitch diameter (errors of lead and of the flank angles added to an
/// external thread's, taken from an internal one's), the not-go side on the pitch diameter as measured.

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "halfnut/core/evidence.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

/// What was measured of a part.
struct Measured {
    double pitch_mm = kNaN;  ///< NaN: not measured
    double major_mm = kNaN;
    double minor_mm = kNaN;
    double lead_error_mm = 0.0;  ///< between any two flanks within the engagement
    double leading_error_deg = 0.0;
    double following_error_deg = 0.0;
    double over_wires_mm = kNaN;  ///< in place of pitch_mm, with wire_mm: over wires, or across balls
    double wire_mm = kNaN;
};

struct JudgeRequest : Measured {
    Thread thread;  ///< with exactly one class: the part that is meant
    LimitOptions options;
};

/// A part by the sizes it is to keep, of any flank angle.
struct SizedJudgeRequest : Measured {
    FitPart limits;  ///< its coating, errors and temperature do not count
    Side side{};
    double basic_pitch_diameter_mm = kNaN;  ///< half of crest less this is the depth of flank to either side
    std::string name;                       ///< of the class or the sizes, for ClassTried
};

/// A part of any form.
struct PartJudgeRequest : Measured {
    PartLimits limits;        ///< that it is to keep
    bool these_alone = true;  ///< against these limits alone; else every class of its standard is tried
};

inline constexpr std::array kJudgeArguments{
    positive("pitch_mm", "mm"),
    positive("major_mm", "mm"),
    positive("minor_mm", "mm"),
    finite("lead_error_mm", "mm"),
    inside("leading_error_deg", -20.0, 20.0, "deg"),
    inside("following_error_deg", -20.0, 20.0, "deg"),
    positive("over_wires_mm", "mm"),
    positive("wire_mm", "mm"),
};

/// Where a measured size lies.
enum class Place : std::uint8_t {
    not_measured,
    within,
    metal_left,  ///< past the maximum-material limit: can still be cut
    overcut,     ///< past the minimum-material limit: cannot
};

constexpr auto enum_names(Place /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Place::not_measured, string_view("not measured")},
                      std::pair{Place::within, string_view("within")},
                      std::pair{Place::metal_left, string_view("metal left")},
                      std::pair{Place::overcut, string_view("overcut")}};
}

/// The three diameters, in this order.
inline constexpr std::array<std::string_view, 3> kDiameters{"major", "pitch", "minor"};

/// One diameter against its limits.
struct Judged {
    double measured_mm = kNaN;
    double min_mm = kNaN;
    double max_mm = kNaN;
    Place place{};
    double to_enter_mm = 0.0;   ///< to take off (on the diameter) before it is within; 0 once it is
    double to_middle_mm = 0.0;  ///< to the middle of the zone; below 0: past it
    double to_last_mm = 0.0;    ///< most that may still come off; below 0: overcut
};

/// A class the part was tried against.
struct ClassTried {
    std::string name;
    std::array<Place, 3> places{};

    [[nodiscard]] bool met() const noexcept {
        for (const Place place : places) {
            if (place == Place::metal_left || place == Place::overcut) {
                return false;
            }
        }
        return true;
    }
};

inline constexpr std::array<std::string_view, 4> kJudgeFigures{"functional_pitch_mm", "major", "pitch",
                                                               "minor"};

struct Verdict {
    std::array<Judged, 3> diameters;
    double functional_pitch_mm = kNaN;
    bool crest_assumed = false;  ///< no crest was measured for the wires: taken at its maximum-material limit
    std::vector<ClassTried> classes;
    Side side{};
    ThreadLimits limits;  ///< of the thread that was asked about; of sizes none
    Evidence<7> evidence;

    /// The worst of the three: overcut, then metal_left, then within.
    [[nodiscard]] Place place() const noexcept;
};

/// Verdict on a measured part, without throwing.
///
/// Returned
///   ok and `out`; or, with `why` saying it in words, a status of evaluate() for limits, not_finite or
///   out_of_range with the argument (see kJudgeArguments), or inconsistent when nothing was measured, a pitch
///   diameter twice, or over a wire that does not measure this thread
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const JudgeRequest& request, Verdict& out,
                              std::string* why = nullptr);

/// Verdict on a part by the sizes it is to keep, without throwing. No other class is tried, and the evidence
/// is that of the sizes. Status and `why` as above, without those of limits.
[[nodiscard]] Status evaluate(const SizedJudgeRequest& request, Verdict& out, std::string* why = nullptr);

/// Verdict on a measured part of any form, without throwing; every class of its standard is tried unless
/// these limits alone are asked for. The evidence of a form is that of its limits. Status and `why` as above.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const PartJudgeRequest& request, Verdict& out,
                              std::string* why = nullptr);

/// Verdict on a measured part.
///
/// Errors
///   DomainError        nothing measured, or a size out of its range
///   NotTabulatedError  a class, position or form without figures
/// Notes
///   1) The depth of the engaged flank, for errors of the flank angle, is 3H/8 above the pitch line and H/4
///   below; of another form from the pitch line to the crest, to either side. 2) Classes tried: those that
///   ISO 965-1 recommends, 1 to 3 of ASME B1.1, or all of a form.
[[nodiscard]] Verdict judge(const Catalogue& catalogue, const JudgeRequest& request);
[[nodiscard]] Verdict judge(const SizedJudgeRequest& request);
[[nodiscard]] Verdict judge(const Catalogue& catalogue, const PartJudgeRequest& request);

}  // namespace halfnut::threads
