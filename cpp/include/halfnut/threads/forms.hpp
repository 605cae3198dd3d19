#pragma once
/// Thread forms beside ISO metric and Unified: trapezoidal, Acme, pipe, Whitworth.
///
///     Tr40x7-7e   Tr 40x14(P7)LH-7H   1 1/2-4 Acme-2G   1-0.2P-0.4L Acme-2C   G1/2 A   1/4-20 BSW-medium
///     1/2-14 NPT   R1/2   Rc1/2
///
/// A form is a row of threads/thread_forms: flank angle, basic depths, radius or flat, taper. What its
/// standard sets besides is one rule a form. Sizes are in the standard's unit, limits whole last places of
/// it: 1 um or 1e-4 in.

#include <array>
#include <cstdint>
#include <numbers>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

/// A designated thread of such a form.
struct FormThread {
    std::string form;       ///< as in threads/thread_forms; Rc and Rp are R
    std::string prefix;     ///< of an ISO 7-1 thread: "R", "Rc", "Rp"
    std::string size;       ///< as it is called: "40", "1 1/2"
    double diameter = 0.0;  ///< basic major diameter, mm or in; of NPT the pipe's outside diameter
    double pitch = 0.0;     ///< axial pitch, mm or in
    double tpi = 0.0;       ///< 0 for a form called by its pitch
    int starts = 1;
    bool left_hand = false;
    bool inch = false;
    std::string external_class;  ///< "7e", "2G", "A", "medium"; empty where none is given
    std::string internal_class;
    // what the form's row says of it
    FormStyle written{};
    FormRule rule{};
    bool lead_screw = false;
    std::string usual_external;  ///< class that is meant where none is given; empty where there is one only
    std::string usual_internal;

    /// Of the form of a row, in its unit.
    void become(const ThreadFormRow& row);
    /// The parallel internal thread that a taper external one seals in.
    [[nodiscard]] bool parallel_internal() const noexcept { return prefix == "Rp"; }
    [[nodiscard]] bool taper_internal() const noexcept { return prefix == "Rc"; }
    /// Its diameter changes along it: it has a gauge plane and no limits.
    [[nodiscard]] bool tapers() const noexcept {
        return (rule == FormRule::npt || rule == FormRule::iso_taper_pipe) && !parallel_internal();
    }
    /// A pipe thread's class says nothing of the internal part, and of a taper thread there is none.
    [[nodiscard]] bool pipe() const noexcept {
        return rule == FormRule::parallel_pipe || rule == FormRule::npt || rule == FormRule::iso_taper_pipe;
    }
    [[nodiscard]] const std::string& class_of(Side side) const noexcept {
        return side == Side::external ? external_class : internal_class;
    }
    /// Usual class of a part: 7e and 7H, 2G, A, medium; empty where there is one only.
    [[nodiscard]] const std::string& usual_class(Side side) const noexcept {
        return side == Side::external ? usual_external : usual_internal;
    }
    [[nodiscard]] double scale() const noexcept { return inch ? kInchMm : 1.0; }
    [[nodiscard]] double diameter_mm() const noexcept { return diameter * scale(); }
    [[nodiscard]] double pitch_mm() const noexcept { return pitch * scale(); }
    [[nodiscard]] double lead_mm() const noexcept { return starts * pitch_mm(); }

    friend bool operator==(const FormThread&, const FormThread&) = default;
};

/// Whether a text is meant as a thread of such a form, readable or not.
[[nodiscard]] bool is_form_designation(std::string_view text, const Catalogue& catalogue) noexcept;

/// Read a designation without throwing.
///
/// Returned
///   ok and `out`; or not_understood, not_tabulated or inconsistent, and `problem` if it is given
[[nodiscard]] Status read_form_thread(std::string_view text, const Catalogue& catalogue, FormThread& out,
                                      DesignationProblem* problem = nullptr);

/// Read a designation.
///
/// Errors
///   DesignationError   not understood or contradictory, with the position
///   NotTabulatedError  no such size in the series that is named
/// Example
///   parse_form_thread("Tr40x14(P7)-7e", builtin()).starts = 2
[[nodiscard]] FormThread parse_form_thread(std::string_view text, const Catalogue& catalogue);

/// The one canonical spelling; it reads back as the same thread.
[[nodiscard]] std::string format_form_thread(const FormThread& thread);

/// The form's row: its geometry and source.
[[nodiscard]] const ThreadFormRow& form_row(const Catalogue& catalogue, const FormThread& thread);

/// Whether a series of its standard has this diameter with this pitch.
[[nodiscard]] bool in_series(const Catalogue& catalogue, const FormThread& thread) noexcept;

/// Basic diameters of its profile, mm; of a taper thread those over its diameter as designated.
[[nodiscard]] double basic_pitch_diameter_mm(const Catalogue& catalogue, const FormThread& thread);
[[nodiscard]] double basic_minor_diameter_mm(const Catalogue& catalogue, const FormThread& thread);

/// Every class of a part that its standard has: 7e to 9c, 7H to 9H, 2C to 4G, A and B, close to free; none
/// where there is one only.
[[nodiscard]] std::vector<std::string> form_classes(const Catalogue& catalogue, const FormThread& thread,
                                                    Side side);

/// One part alone, with its class or the usual one.
[[nodiscard]] FormThread form_part(const FormThread& thread, Side side);

inline constexpr std::array<std::string_view, 7> kFormFigures{
    "major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min", "every size"};

/// Limits of one part, last places of its standard's unit; kNoLimit where it sets none.
struct FormLimits {
    Side side{};
    bool inch = false;
    std::array<std::int32_t, 6> figures{};
    double allowance = 0.0;        ///< of the pitch diameter, native
    double pitch_tolerance = 0.0;  ///< native
    Evidence<16> evidence;

    [[nodiscard]] double mm(std::size_t figure) const noexcept {
        return figures[figure] == kNoLimit ? kNaN
               : inch                      ? figures[figure] * kInchMm / 1e4
                                           : figures[figure] / 1e3;
    }
    [[nodiscard]] double in(std::size_t figure) const noexcept {
        return figures[figure] == kNoLimit ? kNaN : figures[figure] / (inch ? 1e4 : 1e3 * kInchMm);
    }
};

/// Limits of one part of a form, without throwing.
///
/// Given
///   thread      a thread; its class of this side, or the usual one
///   side        which part
///   engagement  length of engagement, native; NaN: one diameter (Whitworth tolerances depend on it)
/// Returned
///   ok and `out`; or not_tabulated or out_of_range with `why`
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const FormThread& thread, Side side,
                              double engagement, FormLimits& out, std::string* why = nullptr);

/// Limits of one part of a form.
///
/// Errors
///   NotTabulatedError  the standard gives no such class, or no limits at all (taper pipe threads)
///   DomainError        an engagement out of its range
/// Example
///   form_limits(builtin(), parse_form_thread("Tr12x3-7e", builtin()), Side::external).mm(2) = 10.415
[[nodiscard]] FormLimits form_limits(const Catalogue& catalogue, const FormThread& thread, Side side,
                                     double engagement = kNaN);

inline constexpr std::array<std::string_view, 16> kTaperPipeFigures{
    "pitch_small_end_mm",   "pitch_gauge_plane_mm", "pitch_effective_mm",   "pitch_wrench_mm",
    "hand_engagement_mm",   "effective_length_mm",  "wrench_length_mm",     "overall_length_mm",
    "full_crest_length_mm", "thread_height_mm",     "hand_turns",           "tolerance_turns",
    "hole_at_face_mm",      "hole_at_end_mm",       "compound_setting_deg", "taper_on_diameter"};

/// A taper pipe thread: gauge plane, turns by hand, holes, how to set the lathe.
struct TaperPipe {
    std::array<double, kTaperPipeFigures.size()> figures{};  ///< NaN where the standard gives none
    Evidence<8> evidence;
};

/// Sizes of a taper pipe thread.
///
/// Given
///   thread  NPT, R or Rc
/// Errors
///   NotTabulatedError  not a taper form, or no such size
/// Example
///   taper_pipe(builtin(), parse_form_thread("1/2-14 NPT", builtin())).figures[10] = 4.48
[[nodiscard]] TaperPipe taper_pipe(const Catalogue& catalogue, const FormThread& thread);

namespace detail {
/// Cosine of the flank angle in the plane across the thread, as the friction of a screw takes it.
inline double normal_flank_cosine(double tan_lead_angle, double half_angle_deg) noexcept {
    const double cos_lead_angle = sine_cosine_of_tangent(tan_lead_angle).cosine;
    return sine_cosine_of_tangent(tangent_deg(half_angle_deg) * cos_lead_angle).cosine;
}
}  // namespace detail

struct ScrewEfficiency {
    static constexpr std::string_view name = "screw_efficiency";
    static constexpr std::array arguments{positive("lead_mm", "mm"), positive("pitch_diameter_mm", "mm"),
                                          between("half_angle_deg", 0.0, 60.0, "deg"),
                                          between("friction", 0.0, 1.0)};
    static double compute(double lead, double d2, double half_angle, double friction) noexcept {
        const double t = lead / (std::numbers::pi * d2);
        const double c = detail::normal_flank_cosine(t, half_angle);
        const double driving = c - friction * t;
        return driving <= 0.0 ? 0.0 : t * driving / (c * t + friction);
    }
};

/// Efficiency of a screw that lifts a load, without the friction of its collar.
///
///     e = tan L (cos a - f tan L) / (cos a tan L + f),  tan a = tan A cos L
///
/// Given
///   lead_mm            lead, mm, > 0
///   pitch_diameter_mm  d2, mm, > 0
///   half_angle_deg     A, degrees, 0 to 60
///   friction           f, 0 to 1
/// Returned
///   0 to 1
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Shigley, Mechanical Engineering Design, 9th ed., section 8-2 (recalled)
/// Example
///   screw_efficiency(7.0, 36.5, 15.0, 0.1) = 0.368618
inline double screw_efficiency(double lead_mm, double pitch_diameter_mm, double half_angle_deg,
                               double friction) {
    return scalar<ScrewEfficiency>(lead_mm, pitch_diameter_mm, half_angle_deg, friction);
}

struct HoldingFriction {
    static constexpr std::string_view name = "holding_friction";
    static constexpr std::array arguments{positive("lead_mm", "mm"), positive("pitch_diameter_mm", "mm"),
                                          between("half_angle_deg", 0.0, 60.0, "deg")};
    static double compute(double lead, double d2, double half_angle) noexcept {
        const double t = lead / (std::numbers::pi * d2);
        return t * detail::normal_flank_cosine(t, half_angle);
    }
};

/// Least friction at which a load does not turn its screw: f = tan L cos a. Given, errors and source as for
/// screw_efficiency().
inline double holding_friction(double lead_mm, double pitch_diameter_mm, double half_angle_deg) {
    return scalar<HoldingFriction>(lead_mm, pitch_diameter_mm, half_angle_deg);
}

}  // namespace halfnut::threads
