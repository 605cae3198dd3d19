#pragma once
/// Sizes over wires and between balls: what a measured pitch diameter rests on.
///
/// E pitch diameter (where groove and ridge are equally wide: P/2), D major diameter, P pitch, L lead, A half
/// angle in the axial plane, B lead angle (tan B = L / (pi E)), W wire, M size over three wires.
///
/// Four formulas of rising exactness stand here, as shops and standards use them, and the contact itself:
///
///     (1) plain      M = E - (P/2) cot A + W (1 + csc A)
///     (2) lead       (1) + (W/2) tan^2 B cos A cot A
///     (3) normal     M = E - (P/2) cot A + W (1 + csc A_n), tan A_n = tan A cos B
///     (4) involute   the flank taken as an involute helicoid
///     exact          a wire that is free to find its own tilt in the groove of a helicoid whose flanks are
///                    straight in the axial plane: what a lathe tool set on centre cuts
///
/// A wire that lies free turns until the line from each contact to its axis leaves the axis at one point;
/// there it touches exactly where a ball of its diameter would. (2) and (3) stand close to a wire that is
/// held at the lead angle B instead, which reads a little more.
///
/// Sources: Machinery's Handbook, 31st ed., pp. 2126-2136 (1, 2, 3, 4); US Army Ordnance subcourse OD1645
/// (best wire); the contact is geometry, checked against an independent numerical solution in the tests.

#include <cmath>
#include <numbers>
#include <string>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut::threads {

namespace detail {

/// A groove and the wire or ball in it. `sense` is +1 for an external thread, -1 for an internal one; `crest`
/// is the radius where the flank ends at the crest. Lengths in any one unit.
struct Groove {
    double sense = 1.0;
    double pitch_radius = 0.0;
    double crest_radius = 0.0;
    double half_width = 0.0;  ///< of the groove at the pitch line: P/4
    double lead = 0.0;
    double tan_half_angle = 0.0;
};

/// Where a wire touches.
struct Contact {
    bool found = false;           ///< the contact lies on the flank, below the crest
    bool single = false;          ///< the wire touches each flank at one point only
    double contact_radius = 0.0;  ///< of the point, from the thread's axis
    double contact_angle = 0.0;   ///< of the point about the thread's axis, rad
    double axis_radius = 0.0;     ///< of the wire's axis
    double tan_tilt = 0.0;        ///< of the wire
};

/// A wire free to tilt, or a ball.
[[nodiscard]] Contact free_contact(const Groove& groove, double wire_radius) noexcept;
/// A wire held at a tilt.
[[nodiscard]] Contact held_contact(const Groove& groove, double wire_radius, double tan_tilt) noexcept;
/// Radius of the wire that touches at the pitch line; NaN where there is none.
[[nodiscard]] double best_wire_radius(const Groove& groove) noexcept;

/// The steps of (4), in the letters of OverWiresInvolute. NaN in `over_wires`: the wire falls through the
/// groove.
struct InvoluteSteps {
    double tan_lead_angle = 0.0;
    double f = 0.0;  ///< rad
    double t_a = 0.0;
    double h_b = 0.0;  ///< rad
    double involute_g = 0.0;
    double over_wires = 0.0;
};
[[nodiscard]] InvoluteSteps involute_steps(double pitch_diameter, double pitch, double lead,
                                           double half_angle, double wire) noexcept;
[[nodiscard]] double over_wires_exact(double pitch_diameter, double major_diameter, double pitch, double lead,
                                      double half_angle, double wire) noexcept;
[[nodiscard]] double over_wires_held(double pitch_diameter, double major_diameter, double pitch, double lead,
                                     double half_angle, double wire) noexcept;
[[nodiscard]] double wire_tilt(double pitch_diameter, double major_diameter, double pitch, double lead,
                               double half_angle, double wire) noexcept;
[[nodiscard]] double best_wire_exact(double pitch_diameter, double pitch, double lead,
                                     double half_angle) noexcept;
[[nodiscard]] double pitch_from_wires_lead(double over_wires, double pitch, double lead, double half_angle,
                                           double wire) noexcept;
[[nodiscard]] double pitch_from_wires_exact(double over_wires, double major_diameter, double pitch,
                                            double lead, double half_angle, double wire) noexcept;
[[nodiscard]] double across_balls_exact(double pitch_diameter, double minor_diameter, double pitch,
                                        double lead, double half_angle, double ball) noexcept;
[[nodiscard]] double pitch_from_balls_exact(double across_balls, double minor_diameter, double pitch,
                                            double lead, double half_angle, double ball) noexcept;
/// Why a wire does not measure this thread: the usable range, in words.
[[nodiscard]] std::string wire_refusal(double pitch_diameter, double major_diameter, double pitch,
                                       double lead, double half_angle, double wire);
[[nodiscard]] std::string ball_refusal(double pitch_diameter, double minor_diameter, double pitch,
                                       double lead, double half_angle, double ball);
[[nodiscard]] std::string involute_refusal(double pitch_diameter, double pitch, double lead,
                                           double half_angle, double wire);
/// Why a reading leads to no pitch diameter.
[[nodiscard]] std::string reading_refusal(std::string_view reading, double value);

inline constexpr Argument kPitchDiameter = positive("pitch_diameter_mm", "mm");
inline constexpr Argument kMajorDiameter = positive("major_diameter_mm", "mm");
inline constexpr Argument kMinorDiameter = positive("minor_diameter_mm", "mm");
inline constexpr Argument kPitch = positive("pitch_mm", "mm");
inline constexpr Argument kLead = not_negative("lead_mm", "mm");
inline constexpr Argument kHalfAngle = between("half_angle_deg", 3.0, 60.0, "deg");
inline constexpr Argument kWire = positive("wire_mm", "mm");
inline constexpr Argument kBall = positive("ball_mm", "mm");
inline constexpr Argument kOverWires = positive("over_wires_mm", "mm");
inline constexpr Argument kAcrossBalls = positive("across_balls_mm", "mm");

}  // namespace detail

struct BestWire {
    static constexpr std::string_view name = "best_wire_mm";
    static constexpr std::array arguments{detail::kPitch, detail::kHalfAngle};
    static double compute(double pitch, double half_angle) noexcept {
        return pitch / 2.0 / cosine_deg(half_angle);
    }
};

/// Wire that touches the flanks at the pitch line, lead angle left aside.
///
///     W = (P / 2) / cos A
///
/// Given
///   pitch_mm        P, mm, > 0
///   half_angle_deg  A, degrees, 3 to 60
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Over this wire a wrong flank angle does not change the reading.
/// Source
///   US Army Ordnance subcourse OD1645, p. 127; Machinery's Handbook, 31st ed., p. 2135 for 29 degrees
/// Example
///   best_wire_mm(1.5, 30.0) = 0.866025
inline double best_wire_mm(double pitch_mm, double half_angle_deg) {
    return scalar<BestWire>(pitch_mm, half_angle_deg);
}

struct SmallestWire {
    static constexpr std::string_view name = "smallest_wire_mm";
    static constexpr std::array arguments{detail::kMajorDiameter, detail::kPitchDiameter, detail::kPitch,
                                          detail::kHalfAngle};
    static double compute(double major, double pitch_diameter, double pitch, double half_angle) noexcept {
        return (major - pitch_diameter + pitch / 2.0 / tangent_deg(half_angle)) /
               (1.0 + 1.0 / sine_deg(half_angle));
    }
};

/// Wire that just stands above the crest, lead angle left aside: any smaller does not meet the anvil.
///
///     W = (D - E + (P/2) cot A) / (1 + csc A)
///
/// Given
///   major_diameter_mm  D, mm, > 0
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   half_angle_deg     A, degrees, 3 to 60
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Source
///   geometry; 0.487263 P at 29 degrees, as Machinery's Handbook, 31st ed., p. 2135 prints
/// Example
///   smallest_wire_mm(10.0, 9.026, 1.5, 30.0) = 0.757679
inline double smallest_wire_mm(double major_diameter_mm, double pitch_diameter_mm, double pitch_mm,
                               double half_angle_deg) {
    return scalar<SmallestWire>(major_diameter_mm, pitch_diameter_mm, pitch_mm, half_angle_deg);
}

struct LargestWire {
    static constexpr std::string_view name = "largest_wire_mm";
    static constexpr std::array arguments{detail::kMajorDiameter, detail::kPitchDiameter, detail::kPitch,
                                          detail::kHalfAngle};
    static double compute(double major, double pitch_diameter, double pitch, double half_angle) noexcept {
        return ((major - pitch_diameter) * tangent_deg(half_angle) + pitch / 2.0) / cosine_deg(half_angle);
    }
};

/// Wire that touches the flank where it ends at the crest, lead angle left aside: any larger rides on the
/// edge.
///
///     W = ((D - E) tan A + P/2) / cos A
///
/// Given
///   major_diameter_mm  D, mm, > 0
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   half_angle_deg     A, degrees, 3 to 60
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Source
///   geometry; 0.650013 P at 29 degrees, as Machinery's Handbook, 31st ed., p. 2135 prints
/// Example
///   largest_wire_mm(10.0, 9.026, 1.5, 30.0) = 1.515359
inline double largest_wire_mm(double major_diameter_mm, double pitch_diameter_mm, double pitch_mm,
                              double half_angle_deg) {
    return scalar<LargestWire>(major_diameter_mm, pitch_diameter_mm, pitch_mm, half_angle_deg);
}

struct OverWiresPlain {
    static constexpr std::string_view name = "over_wires_plain_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kPitch, detail::kHalfAngle,
                                          detail::kWire};
    static double compute(double pitch_diameter, double pitch, double half_angle, double wire) noexcept {
        return pitch_diameter - pitch / 2.0 / tangent_deg(half_angle) +
               wire * (1.0 + 1.0 / sine_deg(half_angle));  // (1)
    }
};

/// Size over wires by the plain formula, lead angle left aside.
///
///     M = E - (P/2) cot A + W (1 + csc A)                           (1)
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Short by the lead correction of (2): 0.0006 mm on M10, 0.02 mm on a four-start trapezoidal thread.
/// Source
///   Machinery's Handbook, 31st ed., p. 2127
/// Example
///   over_wires_plain_mm(9.026, 1.5, 30.0, 0.866) = 10.324962
inline double over_wires_plain_mm(double pitch_diameter_mm, double pitch_mm, double half_angle_deg,
                                  double wire_mm) {
    return scalar<OverWiresPlain>(pitch_diameter_mm, pitch_mm, half_angle_deg, wire_mm);
}

struct OverWiresLead {
    static constexpr std::string_view name = "over_wires_lead_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kPitch, detail::kLead,
                                          detail::kHalfAngle, detail::kWire};
    static double compute(double pitch_diameter, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        const double tan_b = lead / (std::numbers::pi * pitch_diameter);
        return OverWiresPlain::compute(pitch_diameter, pitch, half_angle, wire) +
               wire * 0.5 * tan_b * tan_b * cosine_deg(half_angle) / tangent_deg(half_angle);  // (2)
    }
};

/// Size over wires with the lead-angle correction of the screw-thread standards.
///
///     M = E - (P/2) cot A + W (1 + csc A + 0.5 tan^2 B cos A cot A)     (2)
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) To be used in place of (1) when the correction exceeds 0.00015 in (0.0038 mm).
/// Source
///   Machinery's Handbook, 31st ed., p. 2127 (NBS Handbook H28, ASME B1.2)
/// Example
///   over_wires_lead_mm(9.026, 1.5, 1.5, 30.0, 0.866) = 10.326779
inline double over_wires_lead_mm(double pitch_diameter_mm, double pitch_mm, double lead_mm,
                                 double half_angle_deg, double wire_mm) {
    return scalar<OverWiresLead>(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
}

struct OverWiresNormal {
    static constexpr std::string_view name = "over_wires_normal_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kPitch, detail::kLead,
                                          detail::kHalfAngle, detail::kWire};
    static double compute(double pitch_diameter, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        const double tan_b = lead / (std::numbers::pi * pitch_diameter);
        const double tan_a = tangent_deg(half_angle);
        const double csc_a_n = std::sqrt(1.0 + (1.0 + tan_b * tan_b) / (tan_a * tan_a));
        return pitch_diameter - pitch / 2.0 / tan_a + wire * (1.0 + csc_a_n);  // (3)
    }
};

/// Size over wires with the half angle of the normal plane.
///
///     M = E - (P/2) cot A + W (1 + csc A_n), tan A_n = tan A cos B       (3)
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Machinery's Handbook, 31st ed., pp. 2127-2128
/// Example
///   over_wires_normal_mm(9.026, 1.5, 1.5, 30.0, 0.866) = 10.326778
inline double over_wires_normal_mm(double pitch_diameter_mm, double pitch_mm, double lead_mm,
                                   double half_angle_deg, double wire_mm) {
    return scalar<OverWiresNormal>(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
}

struct OverWiresInvolute {
    static constexpr std::string_view name = "over_wires_involute_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kPitch, detail::kLead,
                                          detail::kHalfAngle, detail::kWire};
    static double compute(double pitch_diameter, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        return detail::involute_steps(pitch_diameter, pitch, lead, half_angle, wire).over_wires;
    }
    static std::string refusal(double pitch_diameter, double pitch, double lead, double half_angle,
                               double wire) {
        return detail::involute_refusal(pitch_diameter, pitch, lead, half_angle, wire);
    }
};

/// Size over wires of a groove between involute helicoids.
///
///     tan B = L / (pi E), tan F = tan A / tan B, R_b = (E/2) cos F
///     tan H_b = cos F cot B, T_a = (P/2) / tan B
///     inv G = T_a / E + inv F + W / (2 R_b cos H_b) - pi P / L, inv x = tan x - x
///     M = 2 R_b / cos G + W                                             (4)
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the wire falls through the groove
/// Notes
///   1) For large lead angles and worms; below 1 degree of lead angle the formula loses figures, and at 0 it
///   has no answer.
/// Source
///   Machinery's Handbook, 31st ed., p. 2133
/// Example
///   over_wires_involute_mm(25.4, 25.4, 25.4, 14.5, 13.0) = 43.103162
inline double over_wires_involute_mm(double pitch_diameter_mm, double pitch_mm, double lead_mm,
                                     double half_angle_deg, double wire_mm) {
    return scalar<OverWiresInvolute>(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
}

/// The steps of over_wires_involute_mm, for who works it by hand: lengths in mm, angles in degrees.
struct InvoluteWorking {
    double tan_lead_angle = 0.0;
    double f_deg = 0.0;
    double t_a_mm = 0.0;
    double h_b_deg = 0.0;
    double involute_g = 0.0;
    double over_wires_mm = 0.0;
};

/// Size over wires by (4), with its steps.
///
/// Given, Errors
///   as for over_wires_involute_mm
/// Example
///   over_wires_involute_working(25.4, 25.4, 25.4, 14.5, 13.0).tan_lead_angle = 0.318310
[[nodiscard]] inline InvoluteWorking over_wires_involute_working(double pitch_diameter_mm, double pitch_mm,
                                                                 double lead_mm, double half_angle_deg,
                                                                 double wire_mm) {
    const double over = over_wires_involute_mm(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
    const detail::InvoluteSteps s =
        detail::involute_steps(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
    return {s.tan_lead_angle, s.f / kDegree, s.t_a, s.h_b / kDegree, s.involute_g, over};
}

struct OverWiresExact {
    static constexpr std::string_view name = "over_wires_exact_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kMajorDiameter, detail::kPitch,
                                          detail::kLead,          detail::kHalfAngle,     detail::kWire};
    static double compute(double pitch_diameter, double major, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        return detail::over_wires_exact(pitch_diameter, major, pitch, lead, half_angle, wire);
    }
    static std::string refusal(double pitch_diameter, double major, double pitch, double lead,
                               double half_angle, double wire) {
        return detail::wire_refusal(pitch_diameter, major, pitch, lead, half_angle, wire);
    }
};

/// Size over wires, exactly: a wire free to tilt in the groove that a straight-edged tool on centre leaves.
///
///     k = L / (2 pi), a = tan A, q^2 = 1 + a^2 + k^2/r^2, w = W/2
///     contact (r, f): tan f = -w k / (r (q r + w a)), P/4 + a (r - E/2) + k f = w / q
///     M = 2 (r cos f + w (a cos f - (k/r) sin f) / q) + W
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   major_diameter_mm  D, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the wire does not measure this thread: it must stand above
///                the crest, touch below the flank's end, and touch each flank at one point
/// Notes
///   1) The same contact as a ball's, so the same figure serves balls of that diameter.
///   2) Solved to the last figures of a double by Newton's method, bracketed between the root and the crest.
/// Source
///   geometry, see the head of this file
/// Example
///   over_wires_exact_mm(9.026, 10.0, 1.5, 1.5, 30.0, 0.866) = 10.326695
inline double over_wires_exact_mm(double pitch_diameter_mm, double major_diameter_mm, double pitch_mm,
                                  double lead_mm, double half_angle_deg, double wire_mm) {
    return scalar<OverWiresExact>(pitch_diameter_mm, major_diameter_mm, pitch_mm, lead_mm, half_angle_deg,
                                  wire_mm);
}

struct OverWiresHeld {
    static constexpr std::string_view name = "over_wires_held_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kMajorDiameter, detail::kPitch,
                                          detail::kLead,          detail::kHalfAngle,     detail::kWire};
    static double compute(double pitch_diameter, double major, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        return detail::over_wires_held(pitch_diameter, major, pitch, lead, half_angle, wire);
    }
    static std::string refusal(double pitch_diameter, double major, double pitch, double lead,
                               double half_angle, double wire) {
        return detail::wire_refusal(pitch_diameter, major, pitch, lead, half_angle, wire);
    }
};

/// Size over wires that are held at the lead angle of the pitch line instead of finding their own tilt.
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   major_diameter_mm  D, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the wire does not measure this thread: it must stand above
///                the crest, touch below the flank's end, and touch each flank at one point
/// Notes
///   1) Never less than over_wires_exact_mm: 0.0001 mm more on M10, 0.02 mm on a four-start trapezoidal
///   thread.
/// Source
///   geometry, see the head of this file
/// Example
///   over_wires_held_mm(9.026, 10.0, 1.5, 1.5, 30.0, 0.866) = 10.326778
inline double over_wires_held_mm(double pitch_diameter_mm, double major_diameter_mm, double pitch_mm,
                                 double lead_mm, double half_angle_deg, double wire_mm) {
    return scalar<OverWiresHeld>(pitch_diameter_mm, major_diameter_mm, pitch_mm, lead_mm, half_angle_deg,
                                 wire_mm);
}

struct WireTilt {
    static constexpr std::string_view name = "wire_tilt_deg";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kMajorDiameter, detail::kPitch,
                                          detail::kLead,          detail::kHalfAngle,     detail::kWire};
    static double compute(double pitch_diameter, double major, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        return detail::wire_tilt(pitch_diameter, major, pitch, lead, half_angle, wire);
    }
    static std::string refusal(double pitch_diameter, double major, double pitch, double lead,
                               double half_angle, double wire) {
        return detail::wire_refusal(pitch_diameter, major, pitch, lead, half_angle, wire);
    }
};

/// Tilt that a free wire finds, from the plane square to the thread's axis.
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   major_diameter_mm  D, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   degrees; a little less than the lead angle
/// Errors
///   DomainError  an input is out of its range, or the wire does not measure this thread: it must stand above
///                the crest, touch below the flank's end, and touch each flank at one point
/// Source
///   geometry, see the head of this file
/// Example
///   wire_tilt_deg(9.026, 10.0, 1.5, 1.5, 30.0, 0.866) = 2.8892
inline double wire_tilt_deg(double pitch_diameter_mm, double major_diameter_mm, double pitch_mm,
                            double lead_mm, double half_angle_deg, double wire_mm) {
    return scalar<WireTilt>(pitch_diameter_mm, major_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
}

struct BestWireExact {
    static constexpr std::string_view name = "best_wire_exact_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kPitch, detail::kLead,
                                          detail::kHalfAngle};
    static double compute(double pitch_diameter, double pitch, double lead, double half_angle) noexcept {
        return detail::best_wire_exact(pitch_diameter, pitch, lead, half_angle);
    }
};

/// Wire that touches at the pitch line, lead angle included.
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Reproduces the best wires of Machinery's Handbook, 31st ed., p. 2136 (lead angles of 5 to 12
///      degrees) to two in their last place.
/// Source
///   geometry, see the head of this file
/// Example
///   best_wire_exact_mm(9.026, 1.5, 1.5, 30.0) = 0.864625
inline double best_wire_exact_mm(double pitch_diameter_mm, double pitch_mm, double lead_mm,
                                 double half_angle_deg) {
    return scalar<BestWireExact>(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg);
}

struct PitchFromWiresPlain {
    static constexpr std::string_view name = "pitch_diameter_from_wires_plain_mm";
    static constexpr std::array arguments{detail::kOverWires, detail::kPitch, detail::kHalfAngle,
                                          detail::kWire};
    static double compute(double over_wires, double pitch, double half_angle, double wire) noexcept {
        const double e =
            over_wires + pitch / 2.0 / tangent_deg(half_angle) - wire * (1.0 + 1.0 / sine_deg(half_angle));
        return e > 0.0 ? e : std::numeric_limits<double>::quiet_NaN();
    }
    template <class... Others>
    static std::string refusal(double over_wires, Others... /*others*/) {
        return detail::reading_refusal("over_wires_mm", over_wires);
    }
};

/// Pitch diameter from a size over wires, by (1).
///
/// Given
///   over_wires_mm   M, size over three wires, mm, > 0
///   pitch_mm        P, mm, > 0
///   half_angle_deg  A, degrees, 3 to 60
///   wire_mm         W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the reading is no size over such wires
/// Example
///   pitch_diameter_from_wires_plain_mm(10.324962, 1.5, 30.0, 0.866) = 9.026
inline double pitch_diameter_from_wires_plain_mm(double over_wires_mm, double pitch_mm, double half_angle_deg,
                                                 double wire_mm) {
    return scalar<PitchFromWiresPlain>(over_wires_mm, pitch_mm, half_angle_deg, wire_mm);
}

struct PitchFromWiresLead {
    static constexpr std::string_view name = "pitch_diameter_from_wires_lead_mm";
    static constexpr std::array arguments{detail::kOverWires, detail::kPitch, detail::kLead,
                                          detail::kHalfAngle, detail::kWire};
    static double compute(double over_wires, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        return detail::pitch_from_wires_lead(over_wires, pitch, lead, half_angle, wire);
    }
    template <class... Others>
    static std::string refusal(double over_wires, Others... /*others*/) {
        return detail::reading_refusal("over_wires_mm", over_wires);
    }
};

/// Pitch diameter from a size over wires, by (2).
///
/// Given
///   over_wires_mm   M, size over three wires, mm, > 0
///   pitch_mm        P, mm, > 0
///   lead_mm         L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg  A, degrees, 3 to 60
///   wire_mm         W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the reading is no size over such wires
/// Example
///   pitch_diameter_from_wires_lead_mm(10.326779, 1.5, 1.5, 30.0, 0.866) = 9.026
inline double pitch_diameter_from_wires_lead_mm(double over_wires_mm, double pitch_mm, double lead_mm,
                                                double half_angle_deg, double wire_mm) {
    return scalar<PitchFromWiresLead>(over_wires_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
}

struct PitchFromWiresExact {
    static constexpr std::string_view name = "pitch_diameter_from_wires_exact_mm";
    static constexpr std::array arguments{detail::kOverWires, detail::kMajorDiameter, detail::kPitch,
                                          detail::kLead,      detail::kHalfAngle,     detail::kWire};
    static double compute(double over_wires, double major, double pitch, double lead, double half_angle,
                          double wire) noexcept {
        return detail::pitch_from_wires_exact(over_wires, major, pitch, lead, half_angle, wire);
    }
    static std::string refusal(double over_wires, double major, double pitch, double lead, double half_angle,
                               double wire) {
        const double pitch_diameter = PitchFromWiresPlain::compute(over_wires, pitch, half_angle, wire);
        return std::isnan(pitch_diameter)
                   ? detail::reading_refusal("over_wires_mm", over_wires)
                   : detail::wire_refusal(pitch_diameter, major, pitch, lead, half_angle, wire);
    }
};

/// Pitch diameter from a size over wires, exactly: the inverse of over_wires_exact_mm.
///
/// Given
///   over_wires_mm      M, size over three wires, mm, > 0
///   major_diameter_mm  D, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   wire_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the wire does not measure this thread: it must stand above
///                the crest, touch below the flank's end, and touch each flank at one point
/// Example
///   pitch_diameter_from_wires_exact_mm(10.326695, 10.0, 1.5, 1.5, 30.0, 0.866) = 9.026
inline double pitch_diameter_from_wires_exact_mm(double over_wires_mm, double major_diameter_mm,
                                                 double pitch_mm, double lead_mm, double half_angle_deg,
                                                 double wire_mm) {
    return scalar<PitchFromWiresExact>(over_wires_mm, major_diameter_mm, pitch_mm, lead_mm, half_angle_deg,
                                       wire_mm);
}

struct SmallestBall {
    static constexpr std::string_view name = "smallest_ball_mm";
    static constexpr std::array arguments{detail::kMajorDiameter, detail::kPitchDiameter, detail::kPitch,
                                          detail::kHalfAngle};
    static double compute(double major, double pitch_diameter, double pitch, double half_angle) noexcept {
        return (pitch / 2.0 / tangent_deg(half_angle) - (major - pitch_diameter)) /
               (1.0 / sine_deg(half_angle) - 1.0);
    }
};

/// Ball that just reaches the root of an internal thread, lead angle left aside: any smaller bottoms.
///
///     W = ((P/2) cot A - (D - E)) / (csc A - 1)
///
/// Given
///   major_diameter_mm  D, mm, > 0
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   half_angle_deg     A, degrees, 3 to 60
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Source
///   geometry
/// Example
///   smallest_ball_mm(10.0, 9.026, 1.5, 30.0) = 0.325038
inline double smallest_ball_mm(double major_diameter_mm, double pitch_diameter_mm, double pitch_mm,
                               double half_angle_deg) {
    return scalar<SmallestBall>(major_diameter_mm, pitch_diameter_mm, pitch_mm, half_angle_deg);
}

struct LargestBall {
    static constexpr std::string_view name = "largest_ball_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kMinorDiameter, detail::kPitch,
                                          detail::kHalfAngle};
    static double compute(double pitch_diameter, double minor, double pitch, double half_angle) noexcept {
        return ((pitch_diameter - minor) * tangent_deg(half_angle) + pitch / 2.0) / cosine_deg(half_angle);
    }
};

/// Ball that touches an internal thread where its flank ends at the crest, lead angle left aside.
///
///     W = ((E - D1) tan A + P/2) / cos A
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   minor_diameter_mm  D1, where the crests of an internal thread end, mm, > 0
///   pitch_mm           P, mm, > 0
///   half_angle_deg     A, degrees, 3 to 60
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Source
///   geometry
/// Example
///   largest_ball_mm(9.026, 8.376, 1.5, 30.0) = 1.299359
inline double largest_ball_mm(double pitch_diameter_mm, double minor_diameter_mm, double pitch_mm,
                              double half_angle_deg) {
    return scalar<LargestBall>(pitch_diameter_mm, minor_diameter_mm, pitch_mm, half_angle_deg);
}

struct AcrossBallsPlain {
    static constexpr std::string_view name = "across_balls_plain_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kPitch, detail::kHalfAngle,
                                          detail::kBall};
    static double compute(double pitch_diameter, double pitch, double half_angle, double ball) noexcept {
        return pitch_diameter + pitch / 2.0 / tangent_deg(half_angle) -
               ball * (1.0 / sine_deg(half_angle) - 1.0);
    }
};

/// Size across two balls in opposite grooves of an internal thread, lead angle left aside.
///
///     M = E + (P/2) cot A - W (csc A - 1)
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0
///   half_angle_deg     A, degrees, 3 to 60
///   ball_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Notes
///   1) Measured square to the axis; see across_balls_skew_mm for two balls that stand half a pitch apart.
/// Source
///   geometry, as (1)
/// Example
///   across_balls_plain_mm(9.026, 1.5, 30.0, 0.866) = 9.459038
inline double across_balls_plain_mm(double pitch_diameter_mm, double pitch_mm, double half_angle_deg,
                                    double ball_mm) {
    return scalar<AcrossBallsPlain>(pitch_diameter_mm, pitch_mm, half_angle_deg, ball_mm);
}

struct AcrossBallsExact {
    static constexpr std::string_view name = "across_balls_exact_mm";
    static constexpr std::array arguments{detail::kPitchDiameter, detail::kMinorDiameter, detail::kPitch,
                                          detail::kLead,          detail::kHalfAngle,     detail::kBall};
    static double compute(double pitch_diameter, double minor, double pitch, double lead, double half_angle,
                          double ball) noexcept {
        return detail::across_balls_exact(pitch_diameter, minor, pitch, lead, half_angle, ball);
    }
    static std::string refusal(double pitch_diameter, double minor, double pitch, double lead,
                               double half_angle, double ball) {
        return detail::ball_refusal(pitch_diameter, minor, pitch, lead, half_angle, ball);
    }
};

/// Size across two balls in opposite grooves of an internal thread, exactly.
///
/// Given
///   pitch_diameter_mm  E, mm, > 0
///   minor_diameter_mm  D1, where the crests of an internal thread end, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   ball_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the ball touches past the end of the flank
/// Source
///   geometry, see the head of this file
/// Example
///   across_balls_exact_mm(9.026, 8.376, 1.5, 1.5, 30.0, 0.866) = 9.457129
inline double across_balls_exact_mm(double pitch_diameter_mm, double minor_diameter_mm, double pitch_mm,
                                    double lead_mm, double half_angle_deg, double ball_mm) {
    return scalar<AcrossBallsExact>(pitch_diameter_mm, minor_diameter_mm, pitch_mm, lead_mm, half_angle_deg,
                                    ball_mm);
}

struct PitchFromBallsExact {
    static constexpr std::string_view name = "pitch_diameter_from_balls_exact_mm";
    static constexpr std::array arguments{detail::kAcrossBalls, detail::kMinorDiameter, detail::kPitch,
                                          detail::kLead,        detail::kHalfAngle,     detail::kBall};
    static double compute(double across, double minor, double pitch, double lead, double half_angle,
                          double ball) noexcept {
        return detail::pitch_from_balls_exact(across, minor, pitch, lead, half_angle, ball);
    }
    static std::string refusal(double across, double minor, double pitch, double lead, double half_angle,
                               double ball) {
        const double pitch_diameter =
            across - pitch / 2.0 / tangent_deg(half_angle) + ball * (1.0 / sine_deg(half_angle) - 1.0);
        return pitch_diameter > 0.0
                   ? detail::ball_refusal(pitch_diameter, minor, pitch, lead, half_angle, ball)
                   : detail::reading_refusal("across_balls_mm", across);
    }
};

/// Pitch diameter from a size across two balls: the inverse of across_balls_exact_mm.
///
/// Given
///   across_balls_mm    outside to outside of two balls, square to the axis, mm, > 0
///   minor_diameter_mm  D1, where the crests of an internal thread end, mm, > 0
///   pitch_mm           P, mm, > 0
///   lead_mm            L, starts times the pitch; 0 for a row of rings, mm, >= 0
///   half_angle_deg     A, degrees, 3 to 60
///   ball_mm            W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range, or the ball touches past the end of the flank
/// Example
///   pitch_diameter_from_balls_exact_mm(9.457129, 8.376, 1.5, 1.5, 30.0, 0.866) = 9.026
inline double pitch_diameter_from_balls_exact_mm(double across_balls_mm, double minor_diameter_mm,
                                                 double pitch_mm, double lead_mm, double half_angle_deg,
                                                 double ball_mm) {
    return scalar<PitchFromBallsExact>(across_balls_mm, minor_diameter_mm, pitch_mm, lead_mm, half_angle_deg,
                                       ball_mm);
}

struct AcrossBallsSkew {
    static constexpr std::string_view name = "across_balls_skew_mm";
    static constexpr std::array arguments{detail::kAcrossBalls, detail::kPitch, detail::kBall};
    static double compute(double across, double pitch, double ball) noexcept {
        return std::sqrt((across - ball) * (across - ball) + pitch * pitch / 4.0) + ball;
    }
};

/// Size across two balls in grooves half a pitch apart along the axis, as an odd number of starts puts them.
///
///     M' = sqrt((M - W)^2 + (P/2)^2) + W
///
/// Given
///   across_balls_mm  outside to outside of two balls, square to the axis, mm, > 0
///   pitch_mm         P, mm, > 0
///   ball_mm          W, mm, > 0
/// Returned
///   mm
/// Errors
///   DomainError  an input is out of its range
/// Source
///   geometry
/// Example
///   across_balls_skew_mm(9.459038, 1.5, 0.866) = 9.491706
inline double across_balls_skew_mm(double across_balls_mm, double pitch_mm, double ball_mm) {
    return scalar<AcrossBallsSkew>(across_balls_mm, pitch_mm, ball_mm);
}

struct PitchErrorEquivalent {
    static constexpr std::string_view name = "pitch_error_equivalent_mm";
    static constexpr std::array arguments{finite("lead_error_mm", "mm"), detail::kHalfAngle};
    static double compute(double error, double half_angle) noexcept {
        return std::abs(error) / tangent_deg(half_angle);
    }
};

/// What an error of lead over the engagement takes from the pitch diameter's clearance.
///
///     dE = |dP| cot A
///
/// Given
///   lead_error_mm   dP, between any two flanks within the length of engagement, mm
///   half_angle_deg  A, degrees, 3 to 60
/// Returned
///   mm, >= 0: an external thread gauges so much larger, an internal one so much smaller
/// Errors
///   DomainError  an input is out of its range
/// Source
///   NBS Handbook H28; 1.732 times the error at 60 degrees
/// Example
///   pitch_error_equivalent_mm(0.01, 30.0) = 0.017321
inline double pitch_error_equivalent_mm(double lead_error_mm, double half_angle_deg) {
    return scalar<PitchErrorEquivalent>(lead_error_mm, half_angle_deg);
}

struct FlankErrorEquivalent {
    static constexpr std::string_view name = "flank_error_equivalent_mm";
    static constexpr std::array arguments{
        inside("leading_error_deg", -30.0, 30.0, "deg"), inside("following_error_deg", -30.0, 30.0, "deg"),
        detail::kHalfAngle, not_negative("depth_above_mm", "mm"), not_negative("depth_below_mm", "mm")};
    static double compute(double leading, double following, double half_angle, double above,
                          double below) noexcept {
        const double tan_a = tangent_deg(half_angle);
        const auto flank = [&](double error) {
            const double change = tangent_deg(half_angle + error) - tan_a;
            return change > 0.0 ? below * change : -above * change;
        };
        return half_angle + leading > 0.0 && half_angle + following > 0.0
                   ? (flank(leading) + flank(following)) / tan_a
                   : std::numeric_limits<double>::quiet_NaN();
    }
};

/// What errors of the two half angles take from the pitch diameter's clearance.
///
///     dE = cot A sum_i h_i |tan(A + e_i) - tan A|, h = h_below for e > 0, h_above for e < 0
///
/// Given
///   leading_error_deg, following_error_deg  e, measured half angle less the right one, degrees
///   half_angle_deg                          A, degrees, 3 to 60
///   depth_above_mm                          engaged flank from the pitch line to the external crest, mm
///   (3H/8) depth_below_mm                          engaged flank from the pitch line to the internal crest,
///   mm (H/4)
/// Returned
///   mm, >= 0: an external thread gauges so much larger, an internal one so much smaller
/// Errors
///   DomainError  an input is out of its range
/// Source
///   geometry; to first order NBS Handbook H28's and the metric textbooks' 0.073 P (3 or 2) per minute in
///   micrometres
/// Example
///   flank_error_equivalent_mm(-0.5, 0.0, 30.0, 0.487, 0.325) = 0.009766
inline double flank_error_equivalent_mm(double leading_error_deg, double following_error_deg,
                                        double half_angle_deg, double depth_above_mm, double depth_below_mm) {
    return scalar<FlankErrorEquivalent>(leading_error_deg, following_error_deg, half_angle_deg,
                                        depth_above_mm, depth_below_mm);
}

}  // namespace halfnut::threads
