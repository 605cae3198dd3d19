#pragma once
/// Strength of threads, level 1: areas, stripping, engagement, torque, walls.
///
/// D nominal diameter, E pitch diameter, K minor diameter of the internal thread, P pitch, n = 1/P threads
/// per unit length, L lead, LE length of engagement, A half the flank angle in the axial plane, f friction, F
/// tension. A length of engagement is the full-form one: chamfers, countersinks and run-outs taken off.
///
/// Formulas hold in any one system of units; those that carry a unit stand twice, in mm, N, MPa, N m, and in
/// in, lbf, psi, lbf in.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <string>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut::threads {

/// Units of a formula that stands twice.
enum class Units : std::uint8_t { metric, inch };

namespace detail {

constexpr double kNoNumber = std::numeric_limits<double>::quiet_NaN();

/// The metric or the inch name.
template <Units U>
constexpr std::string_view either(std::string_view metric, std::string_view inch) {
    return U == Units::metric ? metric : inch;
}
template <Units U>
inline constexpr std::string_view kLengthUnit = either<U>("mm", "in");
template <Units U>
inline constexpr std::string_view kForceUnit = either<U>("N", "lbf");
template <Units U>
inline constexpr std::string_view kStressUnit = either<U>("MPa", "psi");
template <Units U>
inline constexpr std::string_view kAreaUnit = either<U>("mm2", "in2");
template <Units U>
inline constexpr std::string_view kTorqueUnit = either<U>("N m", "lbf in");
/// Unit of force times length, in units of torque.
template <Units U>
inline constexpr double kTorqueScale = U == Units::metric ? 1000.0 : 1.0;

template <Units U>
constexpr Argument long_positive(std::string_view metric, std::string_view inch) {
    return positive(either<U>(metric, inch), kLengthUnit<U>);
}
template <Units U>
constexpr Argument long_not_negative(std::string_view metric, std::string_view inch) {
    return not_negative(either<U>(metric, inch), kLengthUnit<U>);
}

template <Units U>
inline constexpr Argument kNominal = long_positive<U>("diameter_mm", "diameter_in");
template <Units U>
inline constexpr Argument kAxialPitch = long_positive<U>("pitch_mm", "pitch_in");
template <Units U>
inline constexpr Argument kAxialLead = long_positive<U>("lead_mm", "lead_in");
template <Units U>
inline constexpr Argument kMeanPitchDiameter = long_positive<U>("pitch_diameter_mm", "pitch_diameter_in");
template <Units U>
inline constexpr Argument kEngaged = long_positive<U>("engagement_mm", "engagement_in");
template <Units U>
inline constexpr Argument kPreload = not_negative(either<U>("preload_n", "preload_lbf"), kForceUnit<U>);
template <Units U>
inline constexpr Argument kStressArea =
    positive(either<U>("stress_area_mm2", "stress_area_in2"), kAreaUnit<U>);
template <Units U>
inline constexpr Argument kBearingDiameter =
    long_not_negative<U>("bearing_diameter_mm", "bearing_diameter_in");
inline constexpr Argument kFlankHalfAngle = between("half_angle_deg", 3.0, 60.0, "deg");
inline constexpr Argument kThreadFriction = between("thread_friction", 0.0, 1.0);
inline constexpr Argument kBearingFriction = between("bearing_friction", 0.0, 1.0);

constexpr double circle(double diameter) {
    return std::numbers::pi / 4.0 * diameter * diameter;
}

/// Shear area of a thread cut by a cylinder of diameter `at`, which it stands `over` above (diametral).
inline double shear_area(double at, double over, double pitch, double half_angle,
                         double engagement) noexcept {
    const double width = 0.5 + tangent_deg(half_angle) * over / pitch;  // of P
    return width > 0.0 ? std::numbers::pi * engagement * at * width : kNoNumber;
}

/// Torque in the thread, per unit of tension: the screw, with its friction towards or away from the load.
inline double screw_arm(double pitch_diameter, double lead, double half_angle, double friction,
                        double sense) noexcept {
    const double f = friction / cosine_deg(half_angle);
    const double around = std::numbers::pi * pitch_diameter - sense * f * lead;
    return around > 0.0
               ? pitch_diameter / 2.0 * (sense * lead + std::numbers::pi * f * pitch_diameter) / around
               : kNoNumber;
}

}  // namespace detail

struct MetricStressArea {
    static constexpr std::string_view name = "metric_stress_area_mm2";
    static constexpr std::array arguments{detail::kNominal<Units::metric>,
                                          detail::kAxialPitch<Units::metric>};
    static double compute(double diameter, double pitch) noexcept {
        const double across = diameter - 0.9382 * pitch;
        return across > 0.0 ? 0.7854 * across * across : detail::kNoNumber;
    }
    static std::string refusal(double /*diameter*/, double /*pitch*/) {
        return "nothing is left inside the thread: diameter_mm must be above 0.9382 pitch_mm";
    }
};

/// Tensile stress area of an ISO metric thread.
///
///     A_s = 0.7854 (d - 0.9382 P)^2
///
/// Given
///   diameter_mm  d, mm, > 0
///   pitch_mm     P, mm, > 0
/// Returned
///   mm2
/// Errors
///   DomainError  an input is out of its range, or d is not above 0.9382 P
/// Source
///   ISO 898-1, recalled: pi/4 ((d2 + d3)/2)^2 with d3 = d1 - H/6
/// Example
///   metric_stress_area_mm2(10.0, 1.5) = 57.989597
inline double metric_stress_area_mm2(double diameter_mm, double pitch_mm) {
    return scalar<MetricStressArea>(diameter_mm, pitch_mm);
}

struct UnifiedStressArea {
    static constexpr std::string_view name = "unified_stress_area_in2";
    static constexpr std::array arguments{detail::kNominal<Units::inch>,
                                          positive("threads_per_inch", "1/in")};
    static double compute(double diameter, double threads_per_inch) noexcept {
        const double across = diameter - 0.9743 / threads_per_inch;
        return across > 0.0 ? detail::circle(across) : detail::kNoNumber;
    }
    static std::string refusal(double /*diameter*/, double /*threads_per_inch*/) {
        return "nothing is left inside the thread: diameter_in must be above 0.9743 / threads_per_inch";
    }
};

/// Tensile stress area of a Unified thread, for materials up to 100 ksi.
///
///     A_t = pi/4 (D - 0.9743/n)^2
///
/// Given
///   diameter_in       D, in, > 0
///   threads_per_inch  n, > 0
/// Returned
///   in2
/// Errors
///   DomainError  an input is out of its range, or D is not above 0.9743/n
/// Notes
///   1) Equal to pi (E/2 - 3H/16)^2 with the basic pitch diameter E.
/// Source
///   ASME B1.1 as handbooks print it (Machinery's Handbook, 24th ed.)
/// Example
///   unified_stress_area_in2(0.5, 13.0) = 0.141900
inline double unified_stress_area_in2(double diameter_in, double threads_per_inch) {
    return scalar<UnifiedStressArea>(diameter_in, threads_per_inch);
}

template <Units U>
struct HighStrengthStressArea {
    static constexpr std::string_view name =
        detail::either<U>("high_strength_stress_area_mm2", "high_strength_stress_area_in2");
    static constexpr std::array arguments{
        detail::long_positive<U>("external_pitch_min_mm", "external_pitch_min_in"), detail::kAxialPitch<U>};
    static double compute(double pitch_diameter, double pitch) noexcept {
        const double radius = pitch_diameter / 2.0 - 0.16238 * pitch;
        return radius > 0.0 ? std::numbers::pi * radius * radius : detail::kNoNumber;
    }
    static std::string refusal(double /*pitch_diameter*/, double /*pitch*/) {
        return "nothing is left inside the thread: the pitch diameter must be above 0.32476 of the pitch";
    }
};

/// Tensile stress area of a Unified thread, for materials above 100 ksi (690 MPa): by the least pitch
/// diameter.
///
///     A_t = pi (Es_min/2 - 0.16238 P)^2
///
/// Given
///   external_pitch_min_mm, external_pitch_min_in  Es_min, > 0
///   pitch_mm, pitch_in                            P, > 0
/// Returned
///   mm2, in2
/// Errors
///   DomainError  an input is out of its range, or nothing is left
/// Source
///   ASME B1.1 as handbooks print it (Machinery's Handbook, 24th ed.)
/// Example
///   high_strength_stress_area_in2(0.4435, 1.0 / 13.0) = 0.137576
inline double high_strength_stress_area_mm2(double external_pitch_min_mm, double pitch_mm) {
    return scalar<HighStrengthStressArea<Units::metric>>(external_pitch_min_mm, pitch_mm);
}
inline double high_strength_stress_area_in2(double external_pitch_min_in, double pitch_in) {
    return scalar<HighStrengthStressArea<Units::inch>>(external_pitch_min_in, pitch_in);
}

template <Units U>
struct MeanStressArea {
    static constexpr std::string_view name =
        detail::either<U>("mean_stress_area_mm2", "mean_stress_area_in2");
    static constexpr std::array arguments{detail::kMeanPitchDiameter<U>,
                                          detail::long_positive<U>("minor_diameter_mm", "minor_diameter_in")};
    static double compute(double pitch_diameter, double minor) noexcept {
        return detail::circle(0.5 * (pitch_diameter + minor));
    }
};

/// Tensile stress area from any pitch and minor diameter: a circle of their mean.
///
///     A = pi/4 ((d2 + d3)/2)^2
///
/// Given
///   pitch_diameter_mm, pitch_diameter_in  d2, > 0
///   minor_diameter_mm, minor_diameter_in  d3, at the root, > 0
/// Returned
///   mm2, in2
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Machinery's Handbook, 31st ed., p. 1665
/// Example
///   mean_stress_area_in2(0.45, 0.4001) = 0.141898
inline double mean_stress_area_mm2(double pitch_diameter_mm, double minor_diameter_mm) {
    return scalar<MeanStressArea<Units::metric>>(pitch_diameter_mm, minor_diameter_mm);
}
inline double mean_stress_area_in2(double pitch_diameter_in, double minor_diameter_in) {
    return scalar<MeanStressArea<Units::inch>>(pitch_diameter_in, minor_diameter_in);
}

template <Units U>
struct MinorDiameterArea {
    static constexpr std::string_view name =
        detail::either<U>("minor_diameter_area_mm2", "minor_diameter_area_in2");
    static constexpr std::array arguments{detail::kNominal<U>, detail::kAxialPitch<U>};
    static double compute(double diameter, double pitch) noexcept {
        const double root = diameter - 1.299038 * pitch;
        return root > 0.0 ? detail::circle(root) : detail::kNoNumber;
    }
    static std::string refusal(double /*diameter*/, double /*pitch*/) {
        return "nothing is left inside the thread: the diameter must be above 1.299038 of the pitch";
    }
};

/// Area at the root of a 60 degree thread of the basic size, 3H/4 deep on a side.
///
///     A_r = pi/4 (d - 1.299038 P)^2
///
/// Given
///   diameter_mm, diameter_in  d, > 0
///   pitch_mm, pitch_in        P, > 0
/// Returned
///   mm2, in2
/// Errors
///   DomainError  an input is out of its range, or nothing is left
/// Source
///   Shigley, Mechanical Engineering Design, 9th ed., table 8-2
/// Example
///   minor_diameter_area_in2(0.5, 1.0 / 13.0) = 0.125709
inline double minor_diameter_area_mm2(double diameter_mm, double pitch_mm) {
    return scalar<MinorDiameterArea<Units::metric>>(diameter_mm, pitch_mm);
}
inline double minor_diameter_area_in2(double diameter_in, double pitch_in) {
    return scalar<MinorDiameterArea<Units::inch>>(diameter_in, pitch_in);
}

template <Units U>
struct NetArea {
    static constexpr std::string_view name = detail::either<U>("net_area_mm2", "net_area_in2");
    static constexpr std::array arguments{
        detail::long_positive<U>("outside_diameter_mm", "outside_diameter_in"),
        detail::long_not_negative<U>("bore_mm", "bore_in")};
    static double compute(double outside, double bore) noexcept {
        return outside > bore ? std::numbers::pi / 4.0 * (outside - bore) * (outside + bore)
                              : detail::kNoNumber;
    }
    static std::string refusal(double /*outside*/, double /*bore*/) {
        return "no wall is left: the outside diameter must be above the bore";
    }
};

/// Net section of a tube: the root of an external thread over a bore, or an outside over an internal thread.
///
///     A = pi/4 (D^2 - b^2)
///
/// Given
///   outside_diameter_mm, outside_diameter_in  D: outside, or the root d3 of an external thread, > 0
///   bore_mm, bore_in                          b: bore, or the major diameter of an internal thread, >= 0
/// Returned
///   mm2, in2
/// Errors
///   DomainError  an input is out of its range, or no wall is left
/// Source
///   geometry
/// Example
///   net_area_mm2(20.0, 16.0) = 113.097336
inline double net_area_mm2(double outside_diameter_mm, double bore_mm) {
    return scalar<NetArea<Units::metric>>(outside_diameter_mm, bore_mm);
}
inline double net_area_in2(double outside_diameter_in, double bore_in) {
    return scalar<NetArea<Units::inch>>(outside_diameter_in, bore_in);
}

template <Units U>
struct ExternalShearArea {
    static constexpr std::string_view name =
        detail::either<U>("external_shear_area_mm2", "external_shear_area_in2");
    static constexpr std::array arguments{
        detail::long_positive<U>("internal_minor_max_mm", "internal_minor_max_in"),
        detail::long_positive<U>("external_pitch_min_mm", "external_pitch_min_in"), detail::kAxialPitch<U>,
        detail::kFlankHalfAngle, detail::kEngaged<U>};
    static double compute(double minor, double pitch_diameter, double pitch, double half_angle,
                          double engagement) noexcept {
        return detail::shear_area(minor, pitch_diameter - minor, pitch, half_angle, engagement);
    }
    static std::string refusal(double, double, double, double, double) {
        return "the threads do not overlap: the internal minor diameter clears the external thread";
    }
};

/// Area over which an external thread strips: the cylinder at the crests of the internal one.
///
///     AS_s = pi n LE Kn_max [1/(2n) + tan A (Es_min - Kn_max)]
///
/// Given
///   internal_minor_max_mm, _in  Kn_max, greatest minor diameter of the internal thread, > 0
///   external_pitch_min_mm, _in  Es_min, least pitch diameter of the external thread, > 0
///   pitch_mm, pitch_in          P = 1/n, > 0
///   half_angle_deg              A, degrees, 3 to 60
///   engagement_mm, _in          LE, full-form length; 1 gives the area per unit of length, > 0
/// Returned
///   mm2, in2
/// Errors
///   DomainError  an input is out of its range, or the threads do not overlap
/// Notes
///   1) Print has 0.57735 for tan 30 degrees, 5e-7 less.
/// Source
///   FED-STD-H28/2B and ASME B1.1, appendix B, as Machinery's Handbook, 24th ed., prints them
/// Example
///   external_shear_area_in2(0.434, 0.4435, 1.0 / 13.0, 30.0, 0.5) = 0.389466
inline double external_shear_area_mm2(double internal_minor_max_mm, double external_pitch_min_mm,
                                      double pitch_mm, double half_angle_deg, double engagement_mm) {
    return scalar<ExternalShearArea<Units::metric>>(internal_minor_max_mm, external_pitch_min_mm, pitch_mm,
                                                    half_angle_deg, engagement_mm);
}
inline double external_shear_area_in2(double internal_minor_max_in, double external_pitch_min_in,
                                      double pitch_in, double half_angle_deg, double engagement_in) {
    return scalar<ExternalShearArea<Units::inch>>(internal_minor_max_in, external_pitch_min_in, pitch_in,
                                                  half_angle_deg, engagement_in);
}

template <Units U>
struct InternalShearArea {
    static constexpr std::string_view name =
        detail::either<U>("internal_shear_area_mm2", "internal_shear_area_in2");
    static constexpr std::array arguments{
        detail::long_positive<U>("external_major_min_mm", "external_major_min_in"),
        detail::long_positive<U>("internal_pitch_max_mm", "internal_pitch_max_in"), detail::kAxialPitch<U>,
        detail::kFlankHalfAngle, detail::kEngaged<U>};
    static double compute(double major, double pitch_diameter, double pitch, double half_angle,
                          double engagement) noexcept {
        return detail::shear_area(major, major - pitch_diameter, pitch, half_angle, engagement);
    }
    static std::string refusal(double, double, double, double, double) {
        return "the threads do not overlap: the external major diameter clears the internal thread";
    }
};

/// Area over which an internal thread strips: the cylinder at the crests of the external one.
///
///     AS_n = pi n LE Ds_min [1/(2n) + tan A (Ds_min - En_max)]
///
/// Given
///   external_major_min_mm, _in  Ds_min, least major diameter of the external thread, > 0
///   internal_pitch_max_mm, _in  En_max, greatest pitch diameter of the internal thread, > 0
///   pitch_mm, pitch_in          P = 1/n, > 0
///   half_angle_deg              A, degrees, 3 to 60
///   engagement_mm, _in          LE, full-form length; 1 gives the area per unit of length, > 0
/// Returned
///   mm2, in2
/// Errors
///   DomainError  an input is out of its range, or the threads do not overlap
/// Source
///   as external_shear_area_mm2
/// Example
///   internal_shear_area_in2(0.4876, 0.4565, 1.0 / 13.0, 30.0, 0.5) = 0.561735
inline double internal_shear_area_mm2(double external_major_min_mm, double internal_pitch_max_mm,
                                      double pitch_mm, double half_angle_deg, double engagement_mm) {
    return scalar<InternalShearArea<Units::metric>>(external_major_min_mm, internal_pitch_max_mm, pitch_mm,
                                                    half_angle_deg, engagement_mm);
}
inline double internal_shear_area_in2(double external_major_min_in, double internal_pitch_max_in,
                                      double pitch_in, double half_angle_deg, double engagement_in) {
    return scalar<InternalShearArea<Units::inch>>(external_major_min_in, internal_pitch_max_in, pitch_in,
                                                  half_angle_deg, engagement_in);
}

template <Units U>
struct FullFormLength {
    static constexpr std::string_view name = detail::either<U>("full_form_length_mm", "full_form_length_in");
    static constexpr std::array arguments{
        detail::long_positive<U>("overlap_mm", "overlap_in"),
        detail::long_not_negative<U>("external_chamfer_mm", "external_chamfer_in"),
        detail::long_not_negative<U>("external_run_out_mm", "external_run_out_in"),
        detail::long_not_negative<U>("internal_countersink_mm", "internal_countersink_in"),
        detail::long_not_negative<U>("internal_run_out_mm", "internal_run_out_in")};
    static double compute(double overlap, double chamfer, double run_out, double countersink,
                          double internal_run_out) noexcept {
        const double left = overlap - chamfer - run_out - countersink - internal_run_out;
        return left > 0.0 ? left : detail::kNoNumber;
    }
    static std::string refusal(double, double, double, double, double) {
        return "chamfers, countersinks and run-outs leave no thread of full form in the overlap";
    }
};

/// Length over which two threads are engaged with their full form.
///
///     LE = overlap - chamfer - run-outs - countersink
///
/// Given
///   overlap_mm, _in              over which one part is inside the other, end to end, > 0
///   external_chamfer_mm, _in     lengths of the external part without full form that lie within the overlap:
///   ... external_run_out_mm, _in     ... chamfer, run-out or relief, >= 0 internal_countersink_mm, _in
///   depths of all countersinks of the internal part within the overlap, >= 0 internal_run_out_mm, _in tap
///   lead or run-out within the overlap, >= 0
/// Returned
///   mm, in
/// Errors
///   DomainError  an input is out of its range, or nothing is left
/// Source
///   geometry; a length that two parts lack at one place is taken off twice, on the safe side
/// Example
///   full_form_length_mm(15.0, 1.5, 0.0, 1.0, 0.0) = 12.5
inline double full_form_length_mm(double overlap_mm, double external_chamfer_mm, double external_run_out_mm,
                                  double internal_countersink_mm, double internal_run_out_mm) {
    return scalar<FullFormLength<Units::metric>>(overlap_mm, external_chamfer_mm, external_run_out_mm,
                                                 internal_countersink_mm, internal_run_out_mm);
}
inline double full_form_length_in(double overlap_in, double external_chamfer_in, double external_run_out_in,
                                  double internal_countersink_in, double internal_run_out_in) {
    return scalar<FullFormLength<Units::inch>>(overlap_in, external_chamfer_in, external_run_out_in,
                                               internal_countersink_in, internal_run_out_in);
}

template <Units U>
struct SectionLoad {
    static constexpr std::string_view name = detail::either<U>("section_load_n", "section_load_lbf");
    static constexpr std::array arguments{
        positive(detail::either<U>("area_mm2", "area_in2"), detail::kAreaUnit<U>),
        positive(detail::either<U>("strength_mpa", "strength_psi"), detail::kStressUnit<U>)};
    static double compute(double area, double strength) noexcept { return area * strength; }
};

/// Load that an area bears: a shear area at its shear strength, a net section at its tensile or yield
/// strength.
///
///     F = A S
///
/// Given
///   area_mm2, area_in2          A, > 0
///   strength_mpa, strength_psi  S, > 0
/// Returned
///   N, lbf
/// Errors
///   DomainError  an input is out of its range
/// Source
///   definition of stress
/// Example
///   section_load_n(58.0, 1200.0) = 69600.0
inline double section_load_n(double area_mm2, double strength_mpa) {
    return scalar<SectionLoad<Units::metric>>(area_mm2, strength_mpa);
}
inline double section_load_lbf(double area_in2, double strength_psi) {
    return scalar<SectionLoad<Units::inch>>(area_in2, strength_psi);
}

template <Units U>
struct EngagementForLoad {
    static constexpr std::string_view name =
        detail::either<U>("engagement_for_load_mm", "engagement_for_load_in");
    static constexpr std::array arguments{
        not_negative(detail::either<U>("load_n", "load_lbf"), detail::kForceUnit<U>),
        positive(detail::either<U>("shear_strength_mpa", "shear_strength_psi"), detail::kStressUnit<U>),
        positive(detail::either<U>("shear_area_mm2_mm", "shear_area_in2_in"),
                 detail::either<U>("mm2/mm", "in2/in"))};
    static double compute(double load, double strength, double area) noexcept {
        return load / (strength * area);
    }
};

/// Full-form length at which a thread strips at a load.
///
///     LE = F / (S_s a)
///
/// Given
///   load_n, load_lbf                       F, >= 0
///   shear_strength_mpa, shear_strength_psi S_s, > 0
///   shear_area_mm2_mm, shear_area_in2_in   a, shear area per length of engagement, > 0
/// Returned
///   mm, in
/// Errors
///   DomainError  an input is out of its range
/// Source
///   handbook of bolts and bolted joints (1998), thread stripping
/// Example
///   engagement_for_load_mm(69600.0, 130.0, 24.842) = 21.551622
inline double engagement_for_load_mm(double load_n, double shear_strength_mpa, double shear_area_mm2_mm) {
    return scalar<EngagementForLoad<Units::metric>>(load_n, shear_strength_mpa, shear_area_mm2_mm);
}
inline double engagement_for_load_in(double load_lbf, double shear_strength_psi, double shear_area_in2_in) {
    return scalar<EngagementForLoad<Units::inch>>(load_lbf, shear_strength_psi, shear_area_in2_in);
}

template <Units U>
struct EngagementForTension {
    static constexpr std::string_view name =
        detail::either<U>("engagement_for_tension_mm", "engagement_for_tension_in");
    static constexpr std::array arguments{
        detail::kStressArea<U>, detail::long_positive<U>("internal_minor_max_mm", "internal_minor_max_in"),
        detail::long_positive<U>("external_pitch_min_mm", "external_pitch_min_in"), detail::kAxialPitch<U>,
        detail::kFlankHalfAngle};
    static double compute(double stress_area, double minor, double pitch_diameter, double pitch,
                          double half_angle) noexcept {
        return 2.0 * stress_area / detail::shear_area(minor, pitch_diameter - minor, pitch, half_angle, 1.0);
    }
    static std::string refusal(double, double, double, double, double) {
        return "the threads do not overlap: the internal minor diameter clears the external thread";
    }
};

/// Full-form length that makes an external thread break before it strips, both parts of one strength: its
/// shear area is twice its tensile area.
///
///     LE = 2 A_t / { pi Kn_max [1/2 + n tan A (Es_min - Kn_max)] }
///
/// Given
///   stress_area_mm2, _in2       A_t, > 0
///   internal_minor_max_mm, _in  Kn_max, > 0
///   external_pitch_min_mm, _in  Es_min, > 0
///   pitch_mm, pitch_in          P = 1/n, > 0
///   half_angle_deg              A, degrees, 3 to 60
/// Returned
///   mm, in
/// Errors
///   DomainError  an input is out of its range, or the threads do not overlap
/// Notes
///   1) For an internal part of lower strength, times J of stripping_ratio() where J is above 1.
/// Source
///   FED-STD-H28/2B and ASME B1.1, appendix B, as Machinery's Handbook, 24th ed., prints them
/// Example
///   engagement_for_tension_in(0.1419, 0.434, 0.4435, 1.0 / 13.0, 30.0) = 0.364345
inline double engagement_for_tension_mm(double stress_area_mm2, double internal_minor_max_mm,
                                        double external_pitch_min_mm, double pitch_mm,
                                        double half_angle_deg) {
    return scalar<EngagementForTension<Units::metric>>(stress_area_mm2, internal_minor_max_mm,
                                                       external_pitch_min_mm, pitch_mm, half_angle_deg);
}
inline double engagement_for_tension_in(double stress_area_in2, double internal_minor_max_in,
                                        double external_pitch_min_in, double pitch_in,
                                        double half_angle_deg) {
    return scalar<EngagementForTension<Units::inch>>(stress_area_in2, internal_minor_max_in,
                                                     external_pitch_min_in, pitch_in, half_angle_deg);
}

struct StrippingRatio {
    static constexpr std::string_view name = "stripping_ratio";
    static constexpr std::array arguments{
        positive("external_shear_area_mm2", "mm2"), positive("external_strength_mpa", "MPa"),
        positive("internal_shear_area_mm2", "mm2"), positive("internal_strength_mpa", "MPa")};
    static double compute(double external_area, double external, double internal_area,
                          double internal) noexcept {
        return external_area * external / (internal_area * internal);
    }
};

/// How much more the external thread bears against stripping than the internal one.
///
///     J = AS_s S_ext / (AS_n S_int); above 1 the internal thread strips first, and LE is to be J times as
///     long
///
/// Given
///   external_shear_area_mm2, internal_shear_area_mm2  AS_s, AS_n, > 0, or both in2
///   external_strength_mpa, internal_strength_mpa      S, tensile, > 0, or both psi
/// Returned
///   a ratio
/// Errors
///   DomainError  an input is out of its range
/// Source
///   FED-STD-H28/2B and ASME B1.1, appendix B, as Machinery's Handbook, 24th ed., prints them
/// Example
///   stripping_ratio(0.389466, 120.0, 0.561735, 42.0) = 1.980923
inline double stripping_ratio(double external_shear_area_mm2, double external_strength_mpa,
                              double internal_shear_area_mm2, double internal_strength_mpa) {
    return scalar<StrippingRatio>(external_shear_area_mm2, external_strength_mpa, internal_shear_area_mm2,
                                  internal_strength_mpa);
}

struct DilationFactor {
    static constexpr std::string_view name = "dilation_factor";
    static constexpr double kThinnest = 1.4;  ///< published from here
    static constexpr double kStiff = 1.9;     ///< published up to here, where it is 1
    static constexpr std::array arguments{
        between("outside_to_diameter", kThinnest, std::numeric_limits<double>::infinity())};
    /// Below kThinnest: the same curve, carried on.
    static double curve(double ratio) noexcept {
        return ratio >= kStiff ? 1.0 : -ratio * ratio + 3.8 * ratio - 2.61;
    }
    static double compute(double ratio) noexcept { return curve(ratio); }
};

/// What is left of a stripping load where the internal part is thin and widens under the flanks.
///
///     C1 = -(s/D)^2 + 3.8 s/D - 2.61, 1.4 <= s/D < 1.9; 1 above
///
/// Given
///   outside_to_diameter  s/D, outside diameter or width across flats over the nominal diameter, >= 1.4
/// Returned
///   a factor, 0.75 to 1
/// Errors
///   DomainError  below 1.4: nothing is published
/// Source
///   Alexander, Analysis and Design of Threaded Assemblies, SAE 770420 (1977), also in VDI 2230, recalled
/// Example
///   dilation_factor(1.5) = 0.84
inline double dilation_factor(double outside_to_diameter) {
    return scalar<DilationFactor>(outside_to_diameter);
}

struct ExternalBendingFactor {
    static constexpr std::string_view name = "external_bending_factor";
    static constexpr std::array arguments{positive("strength_ratio")};
    static constexpr double kEven = 0.897;
    static constexpr double kHighest = 2.2;  ///< published up to here
    static double compute(double ratio) noexcept {
        const double r = std::min(ratio, kHighest);
        return r <= 1.0 ? kEven : 5.594 + r * (-13.682 + r * (14.107 + r * (-6.057 + r * 0.9353)));
    }
};

/// What is left of the external thread's stripping load as the threads bend apart.
///
///     C2 = 0.897, Rs <= 1; 5.594 - 13.682 Rs + 14.107 Rs^2 - 6.057 Rs^3 + 0.9353 Rs^4, 1 < Rs < 2.2
///
/// Given
///   strength_ratio  Rs = S_s,int AS_n / (S_s,ext AS_s), > 0
/// Returned
///   a factor; above Rs = 2.2, the value there
/// Errors
///   DomainError  an input is out of its range
/// Source
///   as dilation_factor
/// Example
///   external_bending_factor(1.5) = 1.009031
inline double external_bending_factor(double strength_ratio) {
    return scalar<ExternalBendingFactor>(strength_ratio);
}

struct InternalBendingFactor {
    static constexpr std::string_view name = "internal_bending_factor";
    static constexpr std::array arguments{positive("strength_ratio")};
    static constexpr double kEven = 0.897;
    static constexpr double kLowest = 0.4;  ///< published from here
    static double compute(double ratio) noexcept {
        const double r = std::max(ratio, kLowest);
        return r >= 1.0 ? kEven : 0.728 + r * (1.769 + r * (-2.896 + r * 1.296));
    }
};

/// What is left of the internal thread's stripping load as the threads bend apart.
///
///     C3 = 0.728 + 1.769 Rs - 2.896 Rs^2 + 1.296 Rs^3, 0.4 < Rs < 1; 0.897, Rs >= 1
///
/// Given
///   strength_ratio  Rs = S_s,int AS_n / (S_s,ext AS_s), > 0
/// Returned
///   a factor; below Rs = 0.4, the value there
/// Errors
///   DomainError  an input is out of its range
/// Source
///   as dilation_factor
/// Example
///   internal_bending_factor(0.7) = 0.991788
inline double internal_bending_factor(double strength_ratio) {
    return scalar<InternalBendingFactor>(strength_ratio);
}

template <Units U>
struct RadialPressure {
    static constexpr std::string_view name = detail::either<U>("radial_pressure_mpa", "radial_pressure_psi");
    static constexpr std::array arguments{
        not_negative(detail::either<U>("load_n", "load_lbf"), detail::kForceUnit<U>),
        detail::kMeanPitchDiameter<U>, detail::kEngaged<U>, detail::kFlankHalfAngle};
    static double compute(double load, double pitch_diameter, double engagement, double half_angle) noexcept {
        return load * tangent_deg(half_angle) / (std::numbers::pi * pitch_diameter * engagement);
    }
};

/// Pressure with which flanks under an axial load spread the internal part and squeeze the external one.
///
///     p = F tan A / (pi E LE)
///
/// Given
///   load_n, load_lbf                      F, >= 0
///   pitch_diameter_mm, pitch_diameter_in  E, > 0
///   engagement_mm, engagement_in          LE, full-form length, > 0
///   half_angle_deg                        A, degrees, 3 to 60
/// Returned
///   MPa, psi, over the cylinder of the pitch diameter
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Without friction, and even over the length: friction lowers it, the first turns bear more than the
///   last.
/// Source
///   statics of the flank
/// Example
///   radial_pressure_mpa(10000.0, 9.026, 15.0, 30.0) = 13.573834
inline double radial_pressure_mpa(double load_n, double pitch_diameter_mm, double engagement_mm,
                                  double half_angle_deg) {
    return scalar<RadialPressure<Units::metric>>(load_n, pitch_diameter_mm, engagement_mm, half_angle_deg);
}
inline double radial_pressure_psi(double load_lbf, double pitch_diameter_in, double engagement_in,
                                  double half_angle_deg) {
    return scalar<RadialPressure<Units::inch>>(load_lbf, pitch_diameter_in, engagement_in, half_angle_deg);
}

template <Units U>
struct HoopTension {
    static constexpr std::string_view name = detail::either<U>("hoop_tension_mpa", "hoop_tension_psi");
    static constexpr std::array arguments{
        not_negative(detail::either<U>("pressure_mpa", "pressure_psi"), detail::kStressUnit<U>),
        detail::long_positive<U>("inside_diameter_mm", "inside_diameter_in"),
        detail::long_positive<U>("outside_diameter_mm", "outside_diameter_in")};
    static double compute(double pressure, double inside, double outside) noexcept {
        return outside > inside ? pressure * (outside * outside + inside * inside) /
                                      ((outside - inside) * (outside + inside))
                                : detail::kNoNumber;
    }
    static std::string refusal(double, double, double) {
        return "no wall is left: the outside diameter must be above the inside diameter";
    }
};

/// Greatest hoop stress of a ring under pressure from within, at its inside.
///
///     s = p (Do^2 + Di^2) / (Do^2 - Di^2)
///
/// Given
///   pressure_mpa, pressure_psi                p, >= 0
///   inside_diameter_mm, inside_diameter_in    Di, at the roots of the internal thread, > 0
///   outside_diameter_mm, outside_diameter_in  Do, > 0
/// Returned
///   MPa, psi, tension
/// Errors
///   DomainError  an input is out of its range, or no wall is left
/// Source
///   Lame, thick cylinder, in any textbook of machine design
/// Example
///   hoop_tension_mpa(10.0, 10.0, 15.0) = 26.0
inline double hoop_tension_mpa(double pressure_mpa, double inside_diameter_mm, double outside_diameter_mm) {
    return scalar<HoopTension<Units::metric>>(pressure_mpa, inside_diameter_mm, outside_diameter_mm);
}
inline double hoop_tension_psi(double pressure_psi, double inside_diameter_in, double outside_diameter_in) {
    return scalar<HoopTension<Units::inch>>(pressure_psi, inside_diameter_in, outside_diameter_in);
}

template <Units U>
struct HoopCompression {
    static constexpr std::string_view name =
        detail::either<U>("hoop_compression_mpa", "hoop_compression_psi");
    static constexpr std::array arguments{
        not_negative(detail::either<U>("pressure_mpa", "pressure_psi"), detail::kStressUnit<U>),
        detail::long_not_negative<U>("bore_mm", "bore_in"),
        detail::long_positive<U>("outside_diameter_mm", "outside_diameter_in")};
    static double compute(double pressure, double bore, double outside) noexcept {
        if (!(outside > bore)) {
            return detail::kNoNumber;
        }
        return bore > 0.0 ? 2.0 * pressure * outside * outside / ((outside - bore) * (outside + bore))
                          : pressure;
    }
    static std::string refusal(double, double, double) {
        return "no wall is left: the outside diameter must be above the bore";
    }
};

/// Greatest hoop stress of a tube under pressure from outside, at its bore.
///
///     s = 2 p Do^2 / (Do^2 - b^2); p where there is no bore
///
/// Given
///   pressure_mpa, pressure_psi                p, >= 0
///   bore_mm, bore_in                          b, >= 0
///   outside_diameter_mm, outside_diameter_in  Do, at the roots of the external thread, > 0
/// Returned
///   MPa, psi, compression
/// Errors
///   DomainError  an input is out of its range, or no wall is left
/// Source
///   Lame, thick cylinder, in any textbook of machine design
/// Example
///   hoop_compression_mpa(10.0, 10.0, 15.0) = 36.0
inline double hoop_compression_mpa(double pressure_mpa, double bore_mm, double outside_diameter_mm) {
    return scalar<HoopCompression<Units::metric>>(pressure_mpa, bore_mm, outside_diameter_mm);
}
inline double hoop_compression_psi(double pressure_psi, double bore_in, double outside_diameter_in) {
    return scalar<HoopCompression<Units::inch>>(pressure_psi, bore_in, outside_diameter_in);
}

template <Units U>
struct TighteningTorque {
    static constexpr std::string_view name =
        detail::either<U>("tightening_torque_nm", "tightening_torque_lbf_in");
    static constexpr std::array arguments{detail::kPreload<U>,        detail::kMeanPitchDiameter<U>,
                                          detail::kAxialLead<U>,      detail::kFlankHalfAngle,
                                          detail::kThreadFriction,    detail::kBearingFriction,
                                          detail::kBearingDiameter<U>};
    static double compute(double preload, double pitch_diameter, double lead, double half_angle,
                          double thread, double bearing, double bearing_diameter) noexcept {
        return preload *
               (detail::screw_arm(pitch_diameter, lead, half_angle, thread, 1.0) +
                bearing * bearing_diameter / 2.0) /
               detail::kTorqueScale<U>;
    }
    static std::string refusal(double, double, double, double, double, double, double) {
        return "the thread locks itself: so steep a lead does not turn under load with this friction";
    }
};

/// Torque that brings a tension into a thread; thread and bearing friction apart.
///
///     T = F [ E/2 (L + pi f E sec A) / (pi E - f L sec A) + f_b D_b / 2 ]
///
/// Given
///   preload_n, preload_lbf                    F, >= 0
///   pitch_diameter_mm, pitch_diameter_in      E, > 0
///   lead_mm, lead_in                          L, > 0
///   half_angle_deg                            A, degrees, 3 to 60
///   thread_friction                           f, 0 to 1
///   bearing_friction                          f_b, of nut or head on its seat, 0 to 1
///   bearing_diameter_mm, bearing_diameter_in  D_b, mean diameter of the seat; 0 where none turns on one, >=
///   0
/// Returned
///   N m, lbf in
/// Errors
///   DomainError  an input is out of its range, or the screw cannot turn under load
/// Notes
///   1) A prevailing torque (locking element, rough or coated thread) comes on top.
/// Source
///   Shigley, Mechanical Engineering Design, eq. 8-1 and 8-5, and its collar term
/// Example
///   tightening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.15, 0.15, 13.0) = 20.060219
inline double tightening_torque_nm(double preload_n, double pitch_diameter_mm, double lead_mm,
                                   double half_angle_deg, double thread_friction, double bearing_friction,
                                   double bearing_diameter_mm) {
    return scalar<TighteningTorque<Units::metric>>(preload_n, pitch_diameter_mm, lead_mm, half_angle_deg,
                                                   thread_friction, bearing_friction, bearing_diameter_mm);
}
inline double tightening_torque_lbf_in(double preload_lbf, double pitch_diameter_in, double lead_in,
                                       double half_angle_deg, double thread_friction, double bearing_friction,
                                       double bearing_diameter_in) {
    return scalar<TighteningTorque<Units::inch>>(preload_lbf, pitch_diameter_in, lead_in, half_angle_deg,
                                                 thread_friction, bearing_friction, bearing_diameter_in);
}

template <Units U>
struct LooseningTorque {
    static constexpr std::string_view name =
        detail::either<U>("loosening_torque_nm", "loosening_torque_lbf_in");
    static constexpr std::array arguments = TighteningTorque<U>::arguments;
    static double compute(double preload, double pitch_diameter, double lead, double half_angle,
                          double thread, double bearing, double bearing_diameter) noexcept {
        return preload *
               (detail::screw_arm(pitch_diameter, lead, half_angle, thread, -1.0) +
                bearing * bearing_diameter / 2.0) /
               detail::kTorqueScale<U>;
    }
};

/// Torque that turns a thread under tension back; below 0 it turns back by itself.
///
///     T = F [ E/2 (pi f E sec A - L) / (pi E + f L sec A) + f_b D_b / 2 ]
///
/// Given
///   as tightening_torque_nm
/// Returned
///   N m, lbf in
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Shigley, Mechanical Engineering Design, eq. 8-2, with the flank's secant as in 8-5
/// Example
///   loosening_torque_nm(10000.0, 9.026, 1.5, 30.0, 0.15, 0.15, 13.0) = 15.118337
inline double loosening_torque_nm(double preload_n, double pitch_diameter_mm, double lead_mm,
                                  double half_angle_deg, double thread_friction, double bearing_friction,
                                  double bearing_diameter_mm) {
    return scalar<LooseningTorque<Units::metric>>(preload_n, pitch_diameter_mm, lead_mm, half_angle_deg,
                                                  thread_friction, bearing_friction, bearing_diameter_mm);
}
inline double loosening_torque_lbf_in(double preload_lbf, double pitch_diameter_in, double lead_in,
                                      double half_angle_deg, double thread_friction, double bearing_friction,
                                      double bearing_diameter_in) {
    return scalar<LooseningTorque<Units::inch>>(preload_lbf, pitch_diameter_in, lead_in, half_angle_deg,
                                                thread_friction, bearing_friction, bearing_diameter_in);
}

template <Units U>
struct PreloadFromTorque {
    static constexpr std::string_view name =
        detail::either<U>("preload_from_torque_n", "preload_from_torque_lbf");
    static constexpr std::array arguments{
        not_negative(detail::either<U>("torque_nm", "torque_lbf_in"), detail::kTorqueUnit<U>),
        detail::kMeanPitchDiameter<U>,
        detail::kAxialLead<U>,
        detail::kFlankHalfAngle,
        detail::kThreadFriction,
        detail::kBearingFriction,
        detail::kBearingDiameter<U>};
    static double compute(double torque, double pitch_diameter, double lead, double half_angle, double thread,
                          double bearing, double bearing_diameter) noexcept {
        return torque / TighteningTorque<U>::compute(1.0, pitch_diameter, lead, half_angle, thread, bearing,
                                                     bearing_diameter);
    }
    static std::string refusal(double, double, double, double, double, double, double) {
        return "the thread locks itself: so steep a lead does not turn under load with this friction";
    }
};

/// Tension that a torque brings into a thread: the inverse of tightening_torque_nm.
///
/// Given
///   torque_nm, torque_lbf_in  T, prevailing torque taken off, >= 0
///   the others                as tightening_torque_nm
/// Returned
///   N, lbf
/// Errors
///   DomainError  an input is out of its range, or the screw cannot turn under load
/// Example
///   preload_from_torque_n(20.060219, 9.026, 1.5, 30.0, 0.15, 0.15, 13.0) = 10000.0
inline double preload_from_torque_n(double torque_nm, double pitch_diameter_mm, double lead_mm,
                                    double half_angle_deg, double thread_friction, double bearing_friction,
                                    double bearing_diameter_mm) {
    return scalar<PreloadFromTorque<Units::metric>>(torque_nm, pitch_diameter_mm, lead_mm, half_angle_deg,
                                                    thread_friction, bearing_friction, bearing_diameter_mm);
}
inline double preload_from_torque_lbf(double torque_lbf_in, double pitch_diameter_in, double lead_in,
                                      double half_angle_deg, double thread_friction, double bearing_friction,
                                      double bearing_diameter_in) {
    return scalar<PreloadFromTorque<Units::inch>>(torque_lbf_in, pitch_diameter_in, lead_in, half_angle_deg,
                                                  thread_friction, bearing_friction, bearing_diameter_in);
}

template <Units U>
struct HandbookTorque {
    static constexpr std::string_view name =
        detail::either<U>("handbook_torque_nm", "handbook_torque_lbf_in");
    static constexpr std::array arguments{detail::kPreload<U>, detail::kNominal<U>, detail::kAxialLead<U>,
                                          detail::kThreadFriction, detail::kBearingFriction};
    static double compute(double preload, double diameter, double lead, double thread,
                          double bearing) noexcept {
        return preload * (0.159 * lead + (0.531 * thread + 0.625 * bearing) * diameter) /
               detail::kTorqueScale<U>;
    }
};

/// Torque of a 60 degree fastener with a head or nut of the usual size.
///
///     T = F (0.159 L + 0.531 f D + 0.625 f_b D)
///
/// Given
///   preload_n, preload_lbf    F, >= 0
///   diameter_mm, diameter_in  D, > 0
///   lead_mm, lead_in          L, > 0
///   thread_friction           f, 0 to 1
///   bearing_friction          f_b, 0 to 1
/// Returned
///   N m, lbf in
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) The long form with E = 0.92 D, a seat from D to 1.5 D, and friction to first order.
/// Source
///   Machinery's Handbook, 31st ed., p. 1665, eq. 23; eq. 24 with both frictions equal
/// Example
///   handbook_torque_lbf_in(11707.0, 0.5, 1.0 / 13.0, 0.15, 0.15) = 1158.200
inline double handbook_torque_nm(double preload_n, double diameter_mm, double lead_mm, double thread_friction,
                                 double bearing_friction) {
    return scalar<HandbookTorque<Units::metric>>(preload_n, diameter_mm, lead_mm, thread_friction,
                                                 bearing_friction);
}
inline double handbook_torque_lbf_in(double preload_lbf, double diameter_in, double lead_in,
                                     double thread_friction, double bearing_friction) {
    return scalar<HandbookTorque<Units::inch>>(preload_lbf, diameter_in, lead_in, thread_friction,
                                               bearing_friction);
}

template <Units U>
struct NutFactorTorque {
    static constexpr std::string_view name =
        detail::either<U>("nut_factor_torque_nm", "nut_factor_torque_lbf_in");
    static constexpr std::array arguments{detail::kPreload<U>, detail::kNominal<U>,
                                          between("nut_factor", 0.0, 1.0)};
    static double compute(double preload, double diameter, double factor) noexcept {
        return factor * preload * diameter / detail::kTorqueScale<U>;
    }
};

/// Torque by the nut factor, the short form of common practice.
///
///     T = K F D
///
/// Given
///   preload_n, preload_lbf    F, >= 0
///   diameter_mm, diameter_in  D, > 0
///   nut_factor                K, 0 to 1; about 0.2, see threads/nut_factors
/// Returned
///   N m, lbf in
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Shigley, Mechanical Engineering Design, 9th ed., eq. 8-27
/// Example
///   nut_factor_torque_lbf_in(25000.0, 0.75, 0.2) = 3750.0
inline double nut_factor_torque_nm(double preload_n, double diameter_mm, double nut_factor) {
    return scalar<NutFactorTorque<Units::metric>>(preload_n, diameter_mm, nut_factor);
}
inline double nut_factor_torque_lbf_in(double preload_lbf, double diameter_in, double nut_factor) {
    return scalar<NutFactorTorque<Units::inch>>(preload_lbf, diameter_in, nut_factor);
}

struct ShareOfStrength {
    static constexpr std::string_view name = "share_of_strength";
    static constexpr std::array arguments{detail::kPreload<Units::metric>, detail::kStressArea<Units::metric>,
                                          positive("strength_mpa", "MPa")};
    static double compute(double preload, double area, double strength) noexcept {
        return preload / (area * strength);
    }
};

/// Share of a strength (proof, yield) that a tension takes up.
///
///     F / (A_t S)
///
/// Given
///   preload_n        F, >= 0
///   stress_area_mm2  A_t, > 0
///   strength_mpa     S, > 0; all three may be in lbf, in2 and psi instead
/// Returned
///   a share
/// Errors
///   DomainError  an input is out of its range
/// Source
///   definition of stress
/// Example
///   share_of_strength(25000.0, 0.373, 85000.0) = 0.788520
inline double share_of_strength(double preload_n, double stress_area_mm2, double strength_mpa) {
    return scalar<ShareOfStrength>(preload_n, stress_area_mm2, strength_mpa);
}

template <Units U>
struct TighteningStress {
    static constexpr std::string_view name =
        detail::either<U>("tightening_stress_mpa", "tightening_stress_psi");
    static constexpr std::array arguments{
        detail::kPreload<U>,
        not_negative(detail::either<U>("thread_torque_nm", "thread_torque_lbf_in"), detail::kTorqueUnit<U>),
        detail::long_positive<U>("section_diameter_mm", "section_diameter_in"),
        detail::long_not_negative<U>("bore_mm", "bore_in")};
    static double compute(double preload, double torque, double diameter, double bore) noexcept {
        const double d2 = diameter * diameter;
        const double b2 = bore * bore;
        if (!(diameter > bore)) {
            return detail::kNoNumber;
        }
        const double tension = preload / (std::numbers::pi / 4.0 * (d2 - b2));
        const double shear =
            16.0 * torque * detail::kTorqueScale<U> * diameter / (std::numbers::pi * (d2 * d2 - b2 * b2));
        return std::sqrt(tension * tension + 3.0 * shear * shear);
    }
    static std::string refusal(double, double, double, double) {
        return "no wall is left: the section's diameter must be above the bore";
    }
};

/// Tension and torsion of a thread while it is tightened, as one stress to hold against yield.
///
///     s_v = sqrt(s^2 + 3 t^2), s = 4 F / (pi (D^2 - b^2)), t = 16 T D / (pi (D^4 - b^4))
///
/// Given
///   preload_n, preload_lbf                    F, >= 0
///   thread_torque_nm, thread_torque_lbf_in    T, the part of the torque that goes through the thread, >= 0
///   section_diameter_mm, section_diameter_in  D, such as that of the stress area, > 0
///   bore_mm, bore_in                          b, >= 0
/// Returned
///   MPa, psi
/// Errors
///   DomainError  an input is out of its range, or no wall is left
/// Source
///   distortion energy, in any textbook of machine design
/// Example
///   tightening_stress_mpa(10000.0, 10.3, 8.593, 0.0) = 223.024
inline double tightening_stress_mpa(double preload_n, double thread_torque_nm, double section_diameter_mm,
                                    double bore_mm) {
    return scalar<TighteningStress<Units::metric>>(preload_n, thread_torque_nm, section_diameter_mm, bore_mm);
}
inline double tightening_stress_psi(double preload_lbf, double thread_torque_lbf_in,
                                    double section_diameter_in, double bore_in) {
    return scalar<TighteningStress<Units::inch>>(preload_lbf, thread_torque_lbf_in, section_diameter_in,
                                                 bore_in);
}

namespace detail {
inline constexpr Argument kJointShare = between("joint_share", 0.0, 1.0);
inline constexpr Argument kProofLoad = positive("proof_load_n", "N");
inline constexpr Argument kJointPreload = not_negative("preload_n", "N");
inline constexpr Argument kJointLoad = positive("load_n", "N");
}  // namespace detail

struct OverloadFactor {
    static constexpr std::string_view name = "overload_factor";
    static constexpr std::array arguments{detail::kProofLoad, detail::kJointPreload, positive("joint_share"),
                                          detail::kJointLoad};
    static double compute(double proof, double preload, double share, double load) noexcept {
        return (proof - preload) / (share * load);
    }
};

/// How many times the outside load may grow before a preloaded bolt reaches its proof load.
///
///     n = (F_p - F_i) / (C P)
///
/// Given
///   proof_load_n  F_p, > 0, or all three in lbf
///   preload_n     F_i, >= 0
///   joint_share   C = k_b / (k_b + k_m), share of the outside load that the bolt feels, > 0
///   load_n        P, outside load, > 0
/// Returned
///   a factor
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Shigley, Mechanical Engineering Design, ch. 8
/// Example
///   overload_factor(17.028, 12.771, 0.2, 14.17) = 1.502117
inline double overload_factor(double proof_load_n, double preload_n, double joint_share, double load_n) {
    return scalar<OverloadFactor>(proof_load_n, preload_n, joint_share, load_n);
}

struct YieldingFactor {
    static constexpr std::string_view name = "yielding_factor";
    static constexpr std::array arguments{detail::kProofLoad, detail::kJointPreload, detail::kJointShare,
                                          detail::kJointLoad};
    static double compute(double proof, double preload, double share, double load) noexcept {
        return proof / (share * load + preload);
    }
};

/// Proof load over the tension in a preloaded bolt under its outside load.
///
///     n = F_p / (C P + F_i)
///
/// Given
///   proof_load_n  F_p, > 0, or all three in lbf
///   preload_n     F_i, >= 0
///   joint_share   C, 0 to 1
///   load_n        P, > 0
/// Returned
///   a factor
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Shigley, Mechanical Engineering Design, ch. 8
/// Example
///   yielding_factor(17.028, 12.771, 0.2, 14.17) = 1.091189
inline double yielding_factor(double proof_load_n, double preload_n, double joint_share, double load_n) {
    return scalar<YieldingFactor>(proof_load_n, preload_n, joint_share, load_n);
}

}  // namespace halfnut::threads
