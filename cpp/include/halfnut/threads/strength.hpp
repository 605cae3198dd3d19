#pragma once
/// What a threaded joint holds: tension, stripping of either thread, walls; what fails first.
///
/// Areas are those of strength_formulas.hpp, at the limits that weaken each part. Loads are by the strengths
/// that are given, minimum ones for a load that matters. No factor of safety is in any of them but where a
/// figure says so.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/core/evidence.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/limits.hpp"
#include "halfnut/threads/strength_formulas.hpp"

namespace halfnut::threads {

struct FitPart;

/// Strengths of one part, MPa. `shear_mpa` NaN: 0.577 of the tensile strength. `yield_mpa` NaN: not known.
struct PartStrength {
    double tensile_mpa = kNaN;
    double yield_mpa = kNaN;
    double shear_mpa = kNaN;
};

/// Sizes of a pair that weaken it, mm; NaN for a size that no standard limits.
struct StrengthSizes {
    double diameter_mm = kNaN;
    double pitch_mm = kNaN;
    int starts = 1;
    double half_angle_deg = 30.0;  ///< other than 30: no stress area is published, the root's is taken
    bool unified = false;          ///< stress area by the Unified formulas
    double external_major_min_mm = kNaN;
    double external_pitch_min_mm = kNaN;
    double external_root_min_mm = kNaN;  ///< d3, for walls and net sections
    double internal_minor_max_mm = kNaN;
    double internal_pitch_max_mm = kNaN;
    double internal_root_max_mm = kNaN;  ///< deepest root of the internal thread
};

/// Sizes from the limits of both parts.
///
/// Notes
///   1) The root of an external thread is its least minor diameter where the standard sets one, else
///      d2 min - 0.616025 P (smallest root radius); the root of an internal one is D2 max + 0.793857 P
///      (11H/12, a flat of P/24 left by a worn tap).
///   2) A coating adds nothing to the strength of a thread, and what it consumes is small beside the limits.
[[nodiscard]] StrengthSizes strength_sizes(const Thread& external, const ThreadLimits& external_limits,
                                           const ThreadLimits& internal_limits);

/// Sizes from those of both parts and the nominal diameter, for a form beside ISO metric and Unified.
///
/// Notes
///   1) A root whose far limit no standard sets lies as much deeper than its near one as the pitch diameter
///      may: the flanks of one tool move together. NaN where there is neither limit.
[[nodiscard]] StrengthSizes strength_sizes(double diameter_mm, const FitPart& external,
                                           const FitPart& internal);

/// Sizes from the limits of both parts, of any form: by the first rule where its standard is ISO or Unified.
[[nodiscard]] StrengthSizes strength_sizes(const PartLimits& external, const PartLimits& internal);

struct StrengthRequest {
    StrengthSizes sizes;
    PartStrength external;
    PartStrength internal;
    double overlap_mm = kNaN;          ///< over which one part is inside the other
    double external_chamfer_mm = 0.0;  ///< these four lie within the overlap and have no full form
    double external_run_out_mm = 0.0;
    double internal_countersink_mm = 0.0;
    double internal_run_out_mm = 0.0;
    double external_bore_mm = 0.0;  ///< 0: solid
    double internal_outside_mm =
        kNaN;                        ///< outside diameter or width across flats; NaN: as thick as one likes
    double load_n = kNaN;            ///< axial, on the joint; NaN: none is given
    double factor_of_safety = kNaN;  ///< NaN: none, and no allowable load is answered
};

/// Names and ranges of the arguments that a person gives; Status::argument counts in it.
inline constexpr std::array kStrengthArguments{
    positive("diameter_mm", "mm"),
    positive("pitch_mm", "mm"),
    between("half_angle_deg", 3.0, 60.0, "deg"),
    positive("external_major_min_mm", "mm"),
    positive("external_pitch_min_mm", "mm"),
    positive("external_root_min_mm", "mm"),
    positive("internal_minor_max_mm", "mm"),
    positive("internal_pitch_max_mm", "mm"),
    positive("internal_root_max_mm", "mm"),
    positive("engagement_mm", "mm"),
    not_negative("external_chamfer_mm", "mm"),
    not_negative("external_run_out_mm", "mm"),
    not_negative("internal_countersink_mm", "mm"),
    not_negative("internal_run_out_mm", "mm"),
    not_negative("external_bore_mm", "mm"),
    positive("internal_outside_mm", "mm"),
    positive("external_tensile_mpa", "MPa"),
    positive("external_yield_mpa", "MPa"),
    positive("external_shear_mpa", "MPa"),
    positive("internal_tensile_mpa", "MPa"),
    positive("internal_yield_mpa", "MPa"),
    positive("internal_shear_mpa", "MPa"),
    not_negative("load_n", "N"),
    between("factor_of_safety", 1.0, 100.0),
};

/// What breaks first as the load grows.
enum class StrengthElement : std::uint8_t {
    external_tension,
    internal_tension,
    external_thread,
    internal_thread
};

constexpr auto enum_names(StrengthElement /*tag*/) {
    using std::string_view;
    return std::array{std::pair{StrengthElement::external_tension, string_view("external part in tension")},
                      std::pair{StrengthElement::internal_tension, string_view("internal part in tension")},
                      std::pair{StrengthElement::external_thread, string_view("external thread strips")},
                      std::pair{StrengthElement::internal_thread, string_view("internal thread strips")}};
}

/// What a person should know; the words for each are in Python, keyed by the name.
enum class StrengthCaution : std::uint16_t {
    shear_by_ratio = 1U << 0U,      ///< a shear strength is taken as 0.577 of the tensile one
    dilation_beyond = 1U << 1U,     ///< internal part thinner than anything published on dilation
    outside_unknown = 1U << 2U,     ///< no outside diameter: dilation and internal wall left aside
    few_turns = 1U << 3U,           ///< under three full turns engaged
    many_turns = 1U << 4U,          ///< beyond 1.5 diameters the far turns bear little
    thin_external_wall = 1U << 5U,  ///< less wall under the external thread than the thread is deep
    thin_internal_wall = 1U << 6U,  ///< less wall over the internal thread than the thread is deep
    strips_first = 1U << 7U,        ///< a thread strips before a section breaks
    yield_unknown = 1U << 8U,       ///< a section's yield strength is not given
    no_factor = 1U << 9U,           ///< no factor of safety in any figure
    hoop_over_yield = 1U << 10U,    ///< the internal wall yields by hoop stress under the load
};

constexpr auto enum_names(StrengthCaution /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{StrengthCaution::shear_by_ratio, string_view("shear_by_ratio")},
        std::pair{StrengthCaution::dilation_beyond, string_view("dilation_beyond")},
        std::pair{StrengthCaution::outside_unknown, string_view("strength_outside_unknown")},
        std::pair{StrengthCaution::few_turns, string_view("few_turns")},
        std::pair{StrengthCaution::many_turns, string_view("strength_many_turns")},
        std::pair{StrengthCaution::thin_external_wall, string_view("strength_thin_external_wall")},
        std::pair{StrengthCaution::thin_internal_wall, string_view("strength_thin_internal_wall")},
        std::pair{StrengthCaution::strips_first, string_view("strength_strips_first")},
        std::pair{StrengthCaution::yield_unknown, string_view("strength_yield_unknown")},
        std::pair{StrengthCaution::no_factor, string_view("strength_no_factor")},
        std::pair{StrengthCaution::hoop_over_yield, string_view("strength_hoop_over_yield")}};
}

/// Figures of a ThreadStrength, in the order of its members.
inline constexpr std::array<std::string_view, 37> kStrengthFigures{
    "full_form_engagement_mm",
    "engaged_turns",
    "stress_area_mm2",
    "root_area_mm2",
    "external_net_area_mm2",
    "internal_net_area_mm2",
    "external_shear_area_mm2_mm",
    "internal_shear_area_mm2_mm",
    "external_shear_area_mm2",
    "internal_shear_area_mm2",
    "external_shear_strength_mpa",
    "internal_shear_strength_mpa",
    "strength_ratio",
    "stripping_ratio",
    "dilation_factor",
    "external_bending_factor",
    "internal_bending_factor",
    "external_tension_n",
    "internal_tension_n",
    "external_stripping_n",
    "internal_stripping_n",
    "external_yield_n",
    "internal_yield_n",
    "weakest_n",
    "bears_n",
    "allowable_n",
    "engagement_required_mm",
    "engagement_handbook_mm",
    "engagement_for_load_mm",
    "external_wall_mm",
    "internal_wall_mm",
    "radial_pressure_mpa",
    "internal_hoop_mpa",
    "external_hoop_mpa",
    "outside_to_diameter",
    "factor_reached",
    "thread_depth_mm",
};

struct ThreadStrength {
    double full_form_engagement_mm = kNaN;
    double engaged_turns = kNaN;  ///< in pitches
    double stress_area_mm2 = kNaN;
    double root_area_mm2 = kNaN;          ///< at d3
    double external_net_area_mm2 = kNaN;  ///< stress area less the bore
    double internal_net_area_mm2 = kNaN;  ///< outside less the root of the thread; NaN: outside unknown
    double external_shear_area_mm2_mm = kNaN;
    double internal_shear_area_mm2_mm = kNaN;
    double external_shear_area_mm2 = kNaN;
    double internal_shear_area_mm2 = kNaN;
    double external_shear_strength_mpa = kNaN;
    double internal_shear_strength_mpa = kNaN;
    double strength_ratio = kNaN;   ///< Rs, internal over external, by shear strengths
    double stripping_ratio = kNaN;  ///< J, external over internal, by tensile strengths
    double dilation_factor = kNaN;
    double external_bending_factor = kNaN;  ///< at most 1
    double internal_bending_factor = kNaN;  ///< at most 1
    double external_tension_n = kNaN;
    double internal_tension_n = kNaN;
    double external_stripping_n = kNaN;
    double internal_stripping_n = kNaN;
    double external_yield_n = kNaN;
    double internal_yield_n = kNaN;
    double weakest_n = kNaN;               ///< first to break
    double bears_n = kNaN;                 ///< first to yield in section, or to break
    double allowable_n = kNaN;             ///< bears_n over the factor of safety
    double engagement_required_mm = kNaN;  ///< full form, for a section to break before a thread strips
    double engagement_handbook_mm = kNaN;  ///< full form, by the handbook's rule with J, solid parts
    double engagement_for_load_mm = kNaN;  ///< full form, for the load with the factor of safety
    double external_wall_mm = kNaN;        ///< root to bore; NaN: solid
    double internal_wall_mm = kNaN;        ///< root to outside
    double radial_pressure_mpa = kNaN;     ///< of the flanks, under the load
    double internal_hoop_mpa = kNaN;       ///< tension, under the load
    double external_hoop_mpa = kNaN;       ///< compression, under the load
    double outside_to_diameter = kNaN;
    double factor_reached = kNaN;  ///< bears_n over the load
    double thread_depth_mm = kNaN;
    StrengthElement weakest{};
    std::uint16_t cautions = 0;
    Evidence<24> evidence;

    [[nodiscard]] bool has(StrengthCaution caution) const noexcept {
        return (cautions & static_cast<std::uint16_t>(caution)) != 0;
    }
    [[nodiscard]] std::array<double, kStrengthFigures.size()> figures() const noexcept;
};

/// What a joint holds, without throwing.
///
/// Returned
///   ok and `out`; or not_finite or out_of_range with the argument (see kStrengthArguments), or inconsistent
///   with the first of the arguments that contradict each other: no thread of full form in the overlap (9),
///   no wall (14 the bore, 15 the outside), threads that do not overlap (6)
/// Notes
///   1) The stress area of a Unified thread above 100 ksi (689.476 MPa) tensile is the one of high strength.
///   2) Stripping loads are shear area x shear strength x dilation factor x bending factor; the published
///      bending factors go up to 1.19, here they stay at 1. Below 1.4 diameters outside, the curve of the
///      dilation factor is carried on, with a caution.
///   3) The published factors are of 60 degree threads. For another angle the curve of the dilation factor is
///      a bound, since a flatter flank spreads its nut less, and the least published bending factor is taken
///      for both parts.
///   4) A tension member's yield counts in bears_n, a thread's shear yield does not: threads share the load
///      as they yield, so they are held to breaking and the factor of safety.
[[nodiscard]] Status evaluate(const StrengthRequest& request, ThreadStrength& out) noexcept;

/// What a joint holds.
///
/// Errors
///   DomainError  a size, length, strength or factor out of its range, or sizes that contradict each other
[[nodiscard]] ThreadStrength strength(const StrengthRequest& request);

/// Why a request has no answer, in words.
[[nodiscard]] std::string refusal(const StrengthRequest& request, Status status);

/// Full-form length at which a joint bears a load: `load_n` in any of the stripping loads of `answer`.
[[nodiscard]] double engagement_for(const ThreadStrength& answer, double load_n) noexcept;

struct TighteningRequest {
    double diameter_mm = kNaN;
    double pitch_diameter_mm = kNaN;
    double lead_mm = kNaN;
    double half_angle_deg = 30.0;
    double section_diameter_mm = kNaN;  ///< of the stress area
    double bore_mm = 0.0;
    double thread_friction_low = kNaN;
    double thread_friction_high = kNaN;
    double bearing_friction_low = kNaN;
    double bearing_friction_high = kNaN;
    double bearing_diameter_mm = kNaN;  ///< mean diameter of the seat
    double prevailing_nm = 0.0;
    double preload_n = kNaN;  ///< one of these two
    double torque_nm = kNaN;
};

inline constexpr std::array kTighteningArguments{
    positive("diameter_mm", "mm"),
    positive("pitch_diameter_mm", "mm"),
    positive("lead_mm", "mm"),
    between("half_angle_deg", 3.0, 60.0, "deg"),
    positive("section_diameter_mm", "mm"),
    not_negative("bore_mm", "mm"),
    between("thread_friction", 0.0, 1.0),
    between("bearing_friction", 0.0, 1.0),
    not_negative("bearing_diameter_mm", "mm"),
    not_negative("prevailing_nm", "N m"),
    not_negative("preload_n", "N"),
    not_negative("torque_nm", "N m"),
};

/// Figures of a Tightening, in the order of its members.
inline constexpr std::array<std::string_view, 11> kTighteningFigures{
    "preload_min_n",    "preload_max_n",    "torque_min_nm",  "torque_max_nm",
    "loosen_min_nm",    "loosen_max_nm",    "nut_factor_min", "nut_factor_max",
    "thread_share_min", "thread_share_max", "stress_max_mpa"};

struct Tightening {
    double preload_min_n = kNaN;  ///< both as asked where a preload is asked for
    double preload_max_n = kNaN;
    double torque_min_nm = kNaN;  ///< both as asked where a torque is asked for
    double torque_max_nm = kNaN;
    double loosen_min_nm = kNaN;  ///< least torque that turns it back: least friction, its own preload
    double loosen_max_nm = kNaN;
    double nut_factor_min = kNaN;  ///< K = T / (F D), prevailing torque left out
    double nut_factor_max = kNaN;
    double thread_share_min = kNaN;  ///< share of the torque that goes into the thread
    double thread_share_max = kNaN;
    double stress_max_mpa = kNaN;  ///< tension and torsion together, greatest
    Evidence<8> evidence;

    [[nodiscard]] std::array<double, kTighteningFigures.size()> figures() const noexcept;
};

/// Torque for a preload, or preload from a torque, over a range of friction, without throwing.
///
/// Returned
///   ok and `out`; not_finite or out_of_range with the argument (see kTighteningArguments); inconsistent with
///   argument 10 where neither or both of preload and torque are given, 6 or 7 where a range runs backwards,
///   5 where the bore leaves no wall, 11 where the prevailing torque takes all, 2 where so steep a lead does
///   not turn under load
[[nodiscard]] Status evaluate(const TighteningRequest& request, Tightening& out) noexcept;

/// Errors
///   DomainError  an input out of its range, or inputs that contradict each other
[[nodiscard]] Tightening tighten(const TighteningRequest& request);

}  // namespace halfnut::threads
