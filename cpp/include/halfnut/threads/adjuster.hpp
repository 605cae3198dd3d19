#pragma once
/// A threaded tube in its base, or a turnbuckle: how far it may be wound out, with how much play, and what it
/// bears there.
///
/// The middle member is turned. At each threaded end an outer member is screwed to it: a base on a tube with
/// external threads, or a rod in a body with internal ones. An adjuster has one threaded end, a turnbuckle
/// two.
///
///     length = middle + outer members - insertions
///
/// An insertion runs from the mouth of the internal part to the end of the external one. A right-hand lead is
/// above 0, a left-hand one below. Unwinding the first end by a turn unwinds the second by a turn where the
/// hands are opposite, and winds it in where they are equal.

#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/evidence.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/column.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/strength.hpp"

namespace halfnut::threads {

/// Change of length of a turnbuckle for a turn of its middle.
///
///     |L1 - L2|, leads with their sign
///
/// Given
///   first_lead_mm   L1, mm: above 0 right-hand, below 0 left-hand
///   second_lead_mm  L2, mm, likewise
/// Returned
///   mm
/// Errors
///   DomainError  an input is not finite or 0, or hands and leads are equal: then turning moves nothing
/// Source
///   geometry
/// Example
///   turnbuckle_travel_mm(1.5, -1.5) = 3; turnbuckle_travel_mm(1.75, 1.5) = 0.25
struct TurnbuckleTravel {
    static constexpr std::string_view name = "turnbuckle_travel_mm";
    static constexpr std::array arguments{finite("first_lead_mm", "mm"), finite("second_lead_mm", "mm")};
    static double compute(double first, double second) noexcept {
        // Leads of one thread, in inches or in mm, differ by rounding only.
        constexpr double kSame = 1e-9;
        return first == 0.0 || second == 0.0 || std::abs(first - second) < kSame * std::abs(first)
                   ? std::numeric_limits<double>::quiet_NaN()
                   : std::abs(first - second);
    }
    static std::string refusal(double first, double second);
};
inline double turnbuckle_travel_mm(double first_lead_mm, double second_lead_mm) {
    return scalar<TurnbuckleTravel>(first_lead_mm, second_lead_mm);
}

/// Full-form length over which an external thread is engaged in an internal one.
///
///     min(T - r, e - c) - max(a, e - (B - q)), not below 0
///
/// Given
///   insertion_mm      e, from the mouth of the internal part to the end of the external one, mm, >= 0
///   thread_length_mm  T, of the external thread from its end, run-out included, mm, > 0
///   chamfer_mm        a, at the end of the external thread, mm, >= 0
///   run_out_mm        r, of the external thread, mm, >= 0
///   base_length_mm    B, of the internal thread from its mouth, run-out included, mm, > 0
///   countersink_mm    c, at the mouth, mm, >= 0
///   base_run_out_mm   q, at the far end of the internal thread, mm, >= 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Source
///   geometry
/// Example
///   engaged_length_mm(20.0, 30.0, 1.5, 2.0, 25.0, 1.0, 2.0) = 17.5
struct EngagedLength {
    static constexpr std::string_view name = "engaged_length_mm";
    static constexpr std::array arguments{
        not_negative("insertion_mm", "mm"),   positive("thread_length_mm", "mm"),
        not_negative("chamfer_mm", "mm"),     not_negative("run_out_mm", "mm"),
        positive("base_length_mm", "mm"),     not_negative("countersink_mm", "mm"),
        not_negative("base_run_out_mm", "mm")};
    static double compute(double e, double t, double a, double r, double b, double c, double q) noexcept {
        return std::max(0.0, std::min(t - r, e - c) - std::max(a, e - (b - q)));
    }
};
inline double engaged_length_mm(double insertion_mm, double thread_length_mm, double chamfer_mm,
                                double run_out_mm, double base_length_mm, double countersink_mm,
                                double base_run_out_mm) {
    return scalar<EngagedLength>(insertion_mm, thread_length_mm, chamfer_mm, run_out_mm, base_length_mm,
                                 countersink_mm, base_run_out_mm);
}

/// Least preload of a lock nut that keeps a joint tight.
///
///     F = n max(push, pull)
///
/// Given
///   push_n            largest push, N, >= 0
///   pull_n            largest pull, N, >= 0
///   factor_of_safety  n, 1 to 100
/// Returned
///   N
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) A pull unloads the nut's face, a push the flank in the base, by at most the whole load. The share
///      that the parts' stiffness would leave on is not counted on.
/// Source
///   balance of forces on the threaded end
/// Example
///   lock_preload_n(400.0, 250.0, 2.0) = 800
struct LockPreload {
    static constexpr std::string_view name = "lock_preload_n";
    static constexpr std::array arguments{not_negative("push_n", "N"), not_negative("pull_n", "N"),
                                          between("factor_of_safety", 1.0, 100.0)};
    static double compute(double push, double pull, double n) noexcept { return n * std::max(push, pull); }
};
inline double lock_preload_n(double push_n, double pull_n, double factor_of_safety) {
    return scalar<LockPreload>(push_n, pull_n, factor_of_safety);
}

/// Most that a lock nut's preload changes for a degree, between unlike materials.
///
///     dF / dT = E A (x_c - x_e)
///
/// Given
///   youngs_modulus_gpa        E, of the external part, GPa, > 0
///   area_mm2                  A, net section of the external part, mm2, > 0
///   clamped_expansion_um_m_k  x_c, of the base and the nut, 1e-6 per kelvin
///   external_expansion_um_m_k x_e, of the external part, 1e-6 per kelvin
/// Returned
///   N/K, above 0 where warmth tightens
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) The clamped parts are taken as rigid, so this is a bound.
/// Source
///   elastic strain of a held bar
/// Example
///   lock_preload_change_n_k(68.9, 100.0, 11.7, 23.6) = -81.99
struct LockPreloadChange {
    static constexpr std::string_view name = "lock_preload_change_n_k";
    static constexpr std::array arguments{positive("youngs_modulus_gpa", "GPa"), positive("area_mm2", "mm2"),
                                          between("clamped_expansion_um_m_k", -10.0, 200.0),
                                          between("external_expansion_um_m_k", -10.0, 200.0)};
    static double compute(double e, double a, double clamped, double external) noexcept {
        return 1e-3 * e * a * (clamped - external);
    }
};
inline double lock_preload_change_n_k(double youngs_modulus_gpa, double area_mm2,
                                      double clamped_expansion_um_m_k, double external_expansion_um_m_k) {
    return scalar<LockPreloadChange>(youngs_modulus_gpa, area_mm2, clamped_expansion_um_m_k,
                                     external_expansion_um_m_k);
}

/// Which part of each pair is the middle member.
enum class AdjusterMiddle : std::uint8_t {
    external,  ///< a tube with external threads, screwed into bases
    internal,  ///< a body with internal threads, that takes rods
};

constexpr auto enum_names(AdjusterMiddle /*tag*/) {
    using std::string_view;
    return std::array{std::pair{AdjusterMiddle::external, string_view("tube")},
                      std::pair{AdjusterMiddle::internal, string_view("body")}};
}

/// What a part is made of. NaN: not known.
struct AdjusterMaterial {
    PartStrength strength;
    double youngs_modulus_gpa = kNaN;
    double expansion_um_m_k = kNaN;
};

/// A pair of threads by their sizes, of a form beside ISO metric and Unified.
struct SizedPair {
    double diameter_mm = kNaN;  ///< nominal
    FitPart external;           ///< to cut to, before coating; with its build-up
    FitPart internal;
    std::string external_name;
    std::string internal_name;
};

/// One threaded end. Lengths along the axis, mm.
struct AdjusterEnd {
    Thread external;                 ///< with exactly one class; not looked at where there is `sized`
    Thread internal;                 ///< likewise
    std::optional<SizedPair> sized;  ///< then the two build-ups here are not looked at
    BuildUp external_build_up;
    BuildUp internal_build_up;
    double thread_length_mm = kNaN;  ///< external thread from its end, run-out included
    double chamfer_mm = 0.0;
    double run_out_mm = 0.0;
    double external_bore_mm = 0.0;  ///< under the external thread: of the tube, or of the rod
    double base_length_mm = kNaN;   ///< internal thread from its mouth, run-out included
    double countersink_mm = 0.0;
    double base_run_out_mm = 0.0;
    double room_mm = kNaN;  ///< how far the external end may go in past the mouth; NaN: to the run-out
    double internal_outside_mm = kNaN;
    double outer_length_mm = kNaN;   ///< of the outer member: from its joint to its mouth or to its end
    double outer_outside_mm = kNaN;  ///< its plain section
    double outer_bore_mm = 0.0;
    double nut_thickness_mm = 0.0;    ///< 0: no lock nut
    double nut_countersink_mm = 0.0;  ///< at each face
    double nut_outside_mm = kNaN;
    double thread_friction_low = kNaN;
    double thread_friction_high = kNaN;
    double bearing_friction_low = kNaN;
    double bearing_friction_high = kNaN;
    double rule_diameters = kNaN;  ///< least engagement by rule, in nominal diameters
    AdjusterMaterial outer;
    AdjusterMaterial nut;
};

struct AdjusterRequest {
    std::array<AdjusterEnd, 2> ends;
    std::size_t count = 1;  ///< threaded ends: 1 or 2
    AdjusterMiddle middle = AdjusterMiddle::external;
    double middle_length_mm = kNaN;  ///< from end to end; of an adjuster from its end to its far joint
    double middle_outside_mm = kNaN;
    double middle_bore_mm = 0.0;  ///< of its plain part: a body's ends have their internal threads instead
    AdjusterMaterial middle_material;
    double push_n = kNaN;
    double pull_n = kNaN;
    double factor_of_safety = kNaN;
    double flats = 6.0;
    double groove_width_mm = 0.0;
    ColumnEnd first_end = ColumnEnd::pinned;
    ColumnEnd second_end = ColumnEnd::pinned;
};

/// Names and ranges of an end's numbers, and of the whole's.
inline constexpr std::array kAdjusterEndArguments{
    positive("thread_length_mm", "mm"),         not_negative("chamfer_mm", "mm"),
    not_negative("run_out_mm", "mm"),           not_negative("external_bore_mm", "mm"),
    positive("base_length_mm", "mm"),           not_negative("countersink_mm", "mm"),
    not_negative("base_run_out_mm", "mm"),      positive("room_mm", "mm"),
    positive("internal_outside_mm", "mm"),      not_negative("outer_length_mm", "mm"),
    positive("outer_outside_mm", "mm"),         not_negative("outer_bore_mm", "mm"),
    not_negative("nut_thickness_mm", "mm"),     not_negative("nut_countersink_mm", "mm"),
    positive("nut_outside_mm", "mm"),           between("thread_friction_low", 0.0, 1.0),
    between("thread_friction_high", 0.0, 1.0),  between("bearing_friction_low", 0.0, 1.0),
    between("bearing_friction_high", 0.0, 1.0), between("rule_diameters", 0.0, 10.0),
};
inline constexpr std::array kAdjusterArguments{
    positive("middle_length_mm", "mm"),   positive("middle_outside_mm", "mm"),
    not_negative("middle_bore_mm", "mm"), not_negative("push_n", "N"),
    not_negative("pull_n", "N"),          between("factor_of_safety", 1.0, 100.0),
    between("flats", 2.0, 24.0),          not_negative("groove_width_mm", "mm"),
};

/// What gives way.
enum class AdjusterElement : std::uint8_t {
    external_section,
    internal_section,
    external_thread,
    internal_thread,
    middle_section,
    column,
};

constexpr auto enum_names(AdjusterElement /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{AdjusterElement::external_section, string_view("section under the external thread")},
        std::pair{AdjusterElement::internal_section, string_view("section around the internal thread")},
        std::pair{AdjusterElement::external_thread, string_view("external thread strips")},
        std::pair{AdjusterElement::internal_thread, string_view("internal thread strips")},
        std::pair{AdjusterElement::middle_section, string_view("plain section of the middle")},
        std::pair{AdjusterElement::column, string_view("column buckles")}};
}

/// What a person should know; the words are those of the table of cautions.
enum class AdjusterCaution : std::uint16_t {
    factor_short = 1U << 0U,      ///< the factor of safety is not reached everywhere in the range
    strips_first = 1U << 1U,      ///< wound out, a thread strips before a section breaks
    few_turns = 1U << 2U,         ///< under three pitches engaged
    preload_high = 1U << 3U,      ///< greatest preload and pull above 0.75 of the section's yield
    nut_thin = 1U << 4U,          ///< the lock nut strips at the greatest preload and push
    may_bind = 1U << 5U,          ///< some parts within their limits do not screw together
    expansion = 1U << 6U,         ///< base or nut expand unlike the external part
    no_lock_nut = 1U << 7U,       ///< nothing takes the play out
    shear_by_ratio = 1U << 8U,    ///< a shear strength is taken as 0.577 of the tensile one
    thin_wall = 1U << 9U,         ///< less wall by a thread than it is deep
    dilation_beyond = 1U << 10U,  ///< internal part thinner than anything published on dilation
};

constexpr auto enum_names(AdjusterCaution /*tag*/) {
    using std::string_view;
    return std::array{std::pair{AdjusterCaution::factor_short, string_view("adjuster_factor_short")},
                      std::pair{AdjusterCaution::strips_first, string_view("adjuster_strips_first")},
                      std::pair{AdjusterCaution::few_turns, string_view("few_turns")},
                      std::pair{AdjusterCaution::preload_high, string_view("adjuster_preload_high")},
                      std::pair{AdjusterCaution::nut_thin, string_view("adjuster_nut_thin")},
                      std::pair{AdjusterCaution::may_bind, string_view("adjuster_may_bind")},
                      std::pair{AdjusterCaution::expansion, string_view("adjuster_expansion")},
                      std::pair{AdjusterCaution::no_lock_nut, string_view("adjuster_no_lock_nut")},
                      std::pair{AdjusterCaution::shear_by_ratio, string_view("shear_by_ratio")},
                      std::pair{AdjusterCaution::thin_wall, string_view("adjuster_thin_wall")},
                      std::pair{AdjusterCaution::dilation_beyond, string_view("dilation_beyond")}};
}

/// What holds at one end wherever it stands.
struct AdjusterEndAnswer {
    double lead_mm = kNaN;  ///< below 0 left-hand
    double engagement_for_load_mm =
        kNaN;  ///< the thread bears its load, with the factor where the load has none
    double engagement_full_strength_mm = kNaN;  ///< a section breaks before a thread strips
    double engagement_rule_mm = kNaN;           ///< rule_diameters x D
    double engagement_least_mm = kNaN;          ///< the greater of load and rule
    double insertion_max_mm = kNaN;
    double insertion_min_mm = kNaN;
    double insertion_min_strength_mm = kNaN;
    double insertion_min_rule_mm = kNaN;
    double engagement_max_mm = kNaN;       ///< at insertion_max_mm
    double groove_mm = kNaN;               ///< from the end of the external part to the groove's far edge
    double pitch_clearance_min_mm = kNaN;  ///< coated
    double pitch_clearance_max_mm = kNaN;
    double crest_clearance_max_mm = kNaN;  ///< NaN: no crest limits it
    double axial_play_min_mm = kNaN;
    double axial_play_max_mm = kNaN;
    double pitch_diameter_mm = kNaN;  ///< external, greatest
    double external_area_mm2 = kNaN;  ///< stress area less the bore
    double external_root_mm = kNaN;
    double internal_area_mm2 = kNaN;
    double internal_root_mm = kNaN;
    double external_shear_area_mm2_mm = kNaN;
    double internal_shear_area_mm2_mm = kNaN;
    double external_shear_mpa = kNaN;
    double internal_shear_mpa = kNaN;
    double external_strip_n_mm = kNaN;  ///< stripping load for each mm of full form
    double internal_strip_n_mm = kNaN;
    double external_section_n = kNaN;  ///< yields
    double internal_section_n = kNaN;
    double preload_least_n = kNaN;  ///< NaN, as the rest, without a lock nut
    double preload_max_n = kNaN;    ///< at torque_nm, where friction is least
    double torque_nm = kNaN;        ///< gives preload_least_n where friction is greatest
    double loosen_nm = kNaN;        ///< least that turns the nut back
    double thread_load_n = kNaN;    ///< that engagement_for_load_mm is for
    double nut_least_mm = kNaN;     ///< thickness at which its thread bears preload_max_n and the push
    double nut_rule_mm = kNaN;      ///< half the diameter
    double preload_change_n_k = kNaN;
    ThreadLimits external_cut;  ///< to cut to, before coating; empty of a sized pair
    ThreadLimits internal_cut;
    double half_angle_deg = 30.0;
    StrengthSizes sizes;
};

/// An adjuster wound out by some turns.
struct AdjusterState {
    double turns = kNaN;  ///< from the shortest safe length
    double length_mm = kNaN;
    std::array<double, 2> insertion_mm{kNaN, kNaN};
    std::array<double, 2> engagement_mm{kNaN, kNaN};
    double axial_play_min_mm = kNaN;  ///< of both ends together, lock nuts slack; 0 where they are tight
    double axial_play_max_mm = kNaN;
    std::array<double, 2> tilt_max_deg{kNaN, kNaN};  ///< either way, lock nuts slack
    double pull_n = kNaN;                            ///< at which the weakest element gives way
    double push_n = kNaN;
    double elastic_load_n = kNaN;  ///< elastic buckling, ideal ends
    double column_n = kNaN;
    AdjusterElement pull_element{};
    AdjusterElement push_element{};
    std::uint8_t pull_end = 0;
    std::uint8_t push_end = 0;
};

/// Figures that evidence names: those of the whole, of an end, and of a state.
inline constexpr std::array<std::string_view, 14> kAdjusterEvidence{
    "travel_per_turn_mm", "engagement_mm",     "engagement_for_load_mm", "engagement_rule_mm",
    "longest_mm",         "groove_mm",         "axial_play_max_mm",      "tilt_max_deg",
    "preload_least_n",    "torque_nm",         "external_strip_n_mm",    "column_n",
    "growth_um_k",        "external_section_n"};

struct Adjuster {
    double travel_per_turn_mm = kNaN;
    double travel_per_flat_mm = kNaN;
    double turns = kNaN;  ///< from the shortest safe length to the longest
    double travel_mm = kNaN;
    double shortest_mm = kNaN;
    double longest_mm = kNaN;
    double longest_strength_mm = kNaN;  ///< were engagement by strength the only rule
    double longest_rule_mm = kNaN;      ///< were engagement by rule the only one
    double growth_um_k = kNaN;          ///< half wound out, for each degree
    double middle_section_n = kNaN;     ///< plain section of the middle yields
    double least_yield_load_n = kNaN;   ///< of the sections along the column
    double end_factor = kNaN;           ///< (K ideal / K for design)^2 of the column's ends
    double factor_reached = kNaN;       ///< least over the range, of the loads that are stated; NaN: none is
    bool opposite_hands = false;
    std::array<AdjusterEndAnswer, 2> ends;
    AdjusterRequest request;
    std::uint16_t cautions = 0;
    Evidence<24> evidence;

    [[nodiscard]] bool has(AdjusterCaution caution) const noexcept {
        return (cautions & static_cast<std::uint16_t>(caution)) != 0;
    }
};

/// An adjuster or turnbuckle, without throwing.
///
/// Returned
///   ok and `out`; else the status, and in `why` what a person reads: an argument out of its range, leads
///   that move nothing, threads that are not one pair, no wall, no safe range
/// Notes
///   1) Insertion ends where the lock nut would leave the full form (T - r - nut), or where there is no more
///      room. It begins where the full form engaged is the least: least + chamfer + countersink.
///   2) Least engagement by strength: neither thread strips under the greater of n times the largest load,
///      and preload_max_n with the largest load on top.
///   3) Equal hands: the end of the larger lead begins wound in, the other one wound out.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const AdjusterRequest& request, Adjuster& out,
                              std::string* why = nullptr);

/// An adjuster or turnbuckle.
///
/// Errors
///   DomainError        as evaluate() says
///   NotTabulatedError  a thread without limits
[[nodiscard]] Adjuster adjuster(const Catalogue& catalogue, const AdjusterRequest& request);

/// Where an adjuster stands after some turns from its shortest safe length, without throwing.
///
/// Returned
///   ok and `out`; not_finite or out_of_range where the turns are not from 0 to Adjuster::turns
[[nodiscard]] Status evaluate(const Adjuster& adjuster, double turns, AdjusterState& out);

/// Figures of a state, in the order of kAdjusterStateFigures.
inline constexpr std::array<std::string_view, 14> kAdjusterStateFigures{"turns",
                                                                        "length_mm",
                                                                        "first_insertion_mm",
                                                                        "second_insertion_mm",
                                                                        "first_engagement_mm",
                                                                        "second_engagement_mm",
                                                                        "axial_play_min_mm",
                                                                        "axial_play_max_mm",
                                                                        "first_tilt_deg",
                                                                        "second_tilt_deg",
                                                                        "pull_n",
                                                                        "push_n",
                                                                        "elastic_load_n",
                                                                        "column_n"};
[[nodiscard]] std::array<double, kAdjusterStateFigures.size()> figures(const AdjusterState& state) noexcept;

}  // namespace halfnut::threads
