#pragma once
/// How far work deflects along its length, is squeezed by the jaws, and grows by its own warmth.

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <memory>
#include <numbers>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/cutting/cut.hpp"

namespace halfnut::cutting {

/// A length of work of one section, from the chuck or the first centre on.
struct WorkSection {
    double length_mm = std::numeric_limits<double>::quiet_NaN();
    double diameter_mm = std::numeric_limits<double>::quiet_NaN();
    double bore_mm = 0.0;
};

/// Straight round work of one or several sections, and how it is held.
struct WorkBeam {
    std::vector<WorkSection> sections;
    Hold hold = Hold::chuck;
    std::vector<double> steadies_mm;  ///< places of fixed steadies, from the chuck or the first centre
    double youngs_modulus_gpa = std::numeric_limits<double>::quiet_NaN();
    /// Stiffness of each centre, N/um, and of the work's seat in the chuck; infinite: they do not give.
    double centre_n_um = std::numeric_limits<double>::infinity();
    double chuck_n_um = std::numeric_limits<double>::infinity();
};

/// Deflection of the work at the tool as the tool travels along it.
///
/// Beams of Euler and Bernoulli, exact for sections of one diameter; the weight of the work is left out.
///
/// Given
///   beam        1 to 100 sections, steadies within the work
///   force_n     force across the work, N, finite; towards the axis is positive
///   places_mm   where the tool stands, mm, 0 to the length of the work
///   bend_mm     receives one deflection a place, mm; NaN on failure
///   why         receives the words for a failure, where given
/// Returned
///   ok, or a status and NaN: out_of_range (a size), inconsistent (bore and diameter), not_finite
/// Source
///   unit-load theorem and force method, any text on the mechanics of structures
/// Notes
///   1) The diameter turned there is larger than set by twice the deflection.
///   2) A chuck alone holds place and slope; a centre or steady holds the place only.
[[nodiscard]] Status evaluate(const WorkBeam& beam, double force_n, std::span<const double> places_mm,
                              std::span<double> bend_mm, std::string* why = nullptr);

/// The same along the whole work.
struct BeamBend {
    std::vector<double> places_mm;  ///< from the chuck or the first centre, evenly spaced
    std::vector<double> bend_mm;
    double worst_mm = 0.0;
    double worst_at_mm = 0.0;
    double length_mm = 0.0;
    double slenderness = 0.0;  ///< longest span between supports over the mean diameter
    bool slender = false;      ///< a span is longer than kSlenderChuck or kSlenderCentre allows
};

/// How many places along the work are looked at where nobody says.
inline constexpr int kBeamPlaces = 101;

/// Deflection at `places` places, 2 or more, along the work, or along a length of it.
///
/// Errors
///   DomainError  as evaluate() refuses
[[nodiscard]] BeamBend bend_along(const WorkBeam& beam, double force_n, int places = kBeamPlaces,
                                  double from_mm = 0.0,
                                  double to_mm = std::numeric_limits<double>::infinity());

/// Work of several sections of which a length is being turned, by the diameter that is left there.
///
/// Source
///   evaluate() above; first whirl: Dunkerley's sum of mass times deflection under a unit force, a lower
///   bound
class TurnedBeam {
   public:
    /// Given
    ///   beam               the work, the length that is turned as it will be or as it is
    ///   from_mm, to_mm     that length, from the chuck or the first centre, within the work
    ///   finished_mm        diameter that it is turned to: what is thinner there stays as it is
    /// Errors
    ///   DomainError  as evaluate() refuses
    TurnedBeam(WorkBeam beam, double from_mm, double to_mm, double finished_mm);
    ~TurnedBeam();
    TurnedBeam(TurnedBeam&&) noexcept;

    /// Most deflection at the tool over the length that is turned, mm, under 1 N; NaN for a diameter that its
    /// bore leaves nothing of.
    [[nodiscard]] double worst_mm_n(double left_mm) const noexcept;
    /// Whether it deflects more than a plain bar of that diameter, held as it is, that stands out
    /// kSlenderChuck or kSlenderCentre diameters.
    [[nodiscard]] bool slender(double left_mm) const noexcept;
    /// Its first whirl, rev/min.
    [[nodiscard]] double whirl_rpm(double left_mm, double density_kg_m3) const;
    [[nodiscard]] double length_mm() const noexcept;
    /// The work once that diameter is left.
    [[nodiscard]] WorkBeam with(double left_mm) const;

   private:
    struct Parts;
    std::unique_ptr<const Parts> parts_;
};

/// Out-of-round of a ring or thin tube that was bored round in the jaws, once it is let go.
///
///     inward at a jaw    (F R^3 / 2 E I) (cot a / 2 + a / (2 sin^2 a) - 1 / a),  a = pi / z
///     outward midway     (F R^3 / 2 E I) (1 / a - (sin a + a cos a) / (2 sin^2 a))
///     e = their sum, peak to valley on the radius
///
/// Given
///   jaw_force_n         F, N, >= 0, of each jaw
///   jaws                z, whole, 2 to 100 (contact points of a pie jaw or collet count as many)
///   mean_diameter_mm    2 R, mm, > 0
///   wall_mm             mm, > 0, below half the mean diameter
///   width_mm            mm, > 0, that shares the load
///   youngs_modulus_gpa  E, GPa, > 0
/// Returned
///   mm on the radius
/// Source
///   thin ring under equal radial loads, equally spaced (Timoshenko, Strength of Materials; Roark), the
///   displacements derived from it
/// Notes
///   1) For walls up to about a fifth of the mean radius; a thicker ring is stiffer than this.
///   2) An even number of jaws shows in two-point measurement as 2 e, an odd one hardly shows at all.
/// Example
///   ring_out_of_round_mm(1000.0, 3.0, 60.0, 3.0, 20.0, 70.0) = 0.2588
struct RingOutOfRound {
    static constexpr std::string_view name = "ring_out_of_round_mm";
    static constexpr std::array arguments{
        not_negative("jaw_force_n", "N"), between("jaws", 2.0, 100.0), positive("mean_diameter_mm", "mm"),
        positive("wall_mm", "mm"),        positive("width_mm", "mm"),  positive("youngs_modulus_gpa", "GPa")};
    static double compute(double force, double jaws, double mean, double wall, double width,
                          double modulus) noexcept {
        if (jaws != std::floor(jaws) || wall >= mean / 2.0) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        const double a = std::numbers::pi / jaws;
        const auto [s, c] = sine_cosine(a);
        const double in = c / (2.0 * s) + a / (2.0 * s * s) - 1.0 / a;
        const double out = 1.0 / a - (s + a * c) / (2.0 * s * s);
        const double radius = mean / 2.0;
        const double second_moment = width * wall * wall * wall / 12.0;
        return force * radius * radius * radius / (2000.0 * modulus * second_moment) * (in + out);
    }
    static std::string refusal(double force, double jaws, double mean, double wall, double width,
                               double modulus);
};
inline double ring_out_of_round_mm(double jaw_force_n, double jaws, double mean_diameter_mm, double wall_mm,
                                   double width_mm, double youngs_modulus_gpa) {
    return scalar<RingOutOfRound>(jaw_force_n, jaws, mean_diameter_mm, wall_mm, width_mm, youngs_modulus_gpa);
}

/// Free span that work held by steadies whips with, as the overhang of work held so without steadies.
///
/// Between two supports work is taken to be free to tilt; the end beyond the last steady is held at one end.
///
/// Given
///   hold          how the ends are held
///   length_mm     > 0, from the chuck or the first centre to the end
///   steadies_mm   places from the chuck or the first centre, each within the length
/// Returned
///   mm; the length itself without steadies
/// Source
///   the first whirl of each span by its own root, see FirstWhirl
[[nodiscard]] double whirl_span_mm(Hold hold, double length_mm, std::span<const double> steadies_mm);

/// Force that each jaw needs so that the work does not slip.
///
///     F = S Fc d / (mu z g)
///
/// Given
///   cutting_force_n    Fc, N, >= 0, at the tool
///   cut_diameter_mm    d, mm, > 0, where the tool cuts
///   grip_diameter_mm   g, mm, > 0, where the jaws grip
///   jaws               z, 2 to 100
///   friction           mu, > 0, at most 1: smooth jaws 0.1 to 0.2, serrated ones on raw stock 0.3 to 0.5
///   safety             S, >= 1, stated by who asks
/// Returned
///   N, at standstill or at the speed alike
/// Source
///   balance of moments; the ranges of friction are recalled from texts on workholding
/// Example
///   jaw_force_needed_n(800.0, 40.0, 50.0, 3.0, 0.15, 2.5) = 3556
struct JawForceNeeded {
    static constexpr std::string_view name = "jaw_force_needed_n";
    static constexpr std::array arguments{
        not_negative("cutting_force_n", "N"),
        positive("cut_diameter_mm", "mm"),
        positive("grip_diameter_mm", "mm"),
        between("jaws", 2.0, 100.0),
        Argument{.name = "friction", .unit = "", .low = 0.0, .high = 1.0, .low_open = true},
        Argument{.name = "safety", .unit = "", .low = 1.0}};
    static double compute(double force, double cut, double grip, double jaws, double friction,
                          double safety) noexcept {
        return safety * force * cut / (friction * jaws * grip);
    }
};
inline double jaw_force_needed_n(double cutting_force_n, double cut_diameter_mm, double grip_diameter_mm,
                                 double jaws, double friction, double safety) {
    return scalar<JawForceNeeded>(cutting_force_n, cut_diameter_mm, grip_diameter_mm, jaws, friction, safety);
}

/// Force of one jaw at speed, when it grips from outside.
///
///     F = F0 - m r w^2,  w = 2 pi n / 60; nothing below zero: the jaw has let go
///
/// Given
///   force_at_rest_n   F0, N, >= 0
///   jaw_mass_kg       m, kg, > 0, of the jaw with its top jaw
///   mass_radius_mm    r, mm, > 0, of the jaw's centre of mass from the axis
///   spindle_rpm       n, rev/min, >= 0
/// Returned
///   N
/// Source
///   circular motion; the chuck's maker and EN 1550 set the limits
/// Example
///   jaw_force_at_speed_n(5000.0, 0.8, 60.0, 1500.0) = 3816
struct JawForceAtSpeed {
    static constexpr std::string_view name = "jaw_force_at_speed_n";
    static constexpr std::array arguments{not_negative("force_at_rest_n", "N"), positive("jaw_mass_kg", "kg"),
                                          positive("mass_radius_mm", "mm"),
                                          not_negative("spindle_rpm", "rev/min")};
    static double compute(double at_rest, double mass, double radius, double rpm) noexcept {
        const double w = std::numbers::pi * rpm / 30.0;
        return std::fmax(0.0, at_rest - mass * radius / 1000.0 * w * w);
    }
};
inline double jaw_force_at_speed_n(double force_at_rest_n, double jaw_mass_kg, double mass_radius_mm,
                                   double spindle_rpm) {
    return scalar<JawForceAtSpeed>(force_at_rest_n, jaw_mass_kg, mass_radius_mm, spindle_rpm);
}

/// Size that warm work has at 20 degrees.
///
///     D20 = D / (1 + alpha (T - 20))
///
/// Given
///   warm_mm             D, mm, > 0, as measured, with an instrument at 20 degrees
///   temperature_c       T of the work, deg C, -50 to 400
///   expansion_per_k     alpha, 1/K, > 0, below 1e-4
/// Returned
///   mm
/// Source
///   linear expansion; 20 degrees is the reference temperature of ISO 1
/// Example
///   size_at_20_mm(50.0, 60.0, 23.6e-6) = 49.9528
struct SizeAt20 {
    static constexpr std::string_view name = "size_at_20_mm";
    static constexpr std::array arguments{positive("warm_mm", "mm"),
                                          between("temperature_c", -50.0, 400.0, "deg C"),
                                          inside("expansion_per_k", 0.0, 1e-4, "1/K")};
    static double compute(double warm, double temperature, double expansion) noexcept {
        return warm / (1.0 + expansion * (temperature - 20.0));
    }
};
inline double size_at_20_mm(double warm_mm, double temperature_c, double expansion_per_k) {
    return scalar<SizeAt20>(warm_mm, temperature_c, expansion_per_k);
}

}  // namespace halfnut::cutting
