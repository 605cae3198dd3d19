#pragma once
/// Thin and slender work where it is held: how far it deflects, is squeezed by the jaws, and grows warm.

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "halfnut/cutting/questions.hpp"
#include "halfnut/cutting/rigidity.hpp"

namespace halfnut::cutting {

/// Stepped work under a force, as it is asked for.
struct WorkBendAsk {
    std::vector<WorkSection> sections;
    double force_n = kNaN;
    Hold hold = Hold::chuck;
    std::string alloy;  ///< or youngs_modulus_gpa
    double youngs_modulus_gpa = kNaN;
    std::vector<double> steadies_mm;
    double centre_n_um = std::numeric_limits<double>::infinity();
    double chuck_n_um = std::numeric_limits<double>::infinity();
    double tolerance_mm = kNaN;
    int places = kBeamPlaces;
};

/// How far work deflects at the tool as the tool travels along it.
struct WorkBend {
    std::string unit = "mm";  ///< of the question: in or mm
    Hold hold = Hold::chuck;
    double force_n = kNaN;
    BeamBend beam;
    std::vector<double> diameter_error_mm;  ///< how much larger than set each place is turned
    double taper_mm = kNaN;                 ///< largest diameter turned less the smallest
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};

/// A ring or tube in jaws, as it is asked for.
struct JawSqueezeAsk {
    double outside_mm = kNaN;
    double bore_mm = kNaN;
    double width_mm = kNaN;
    double cutting_force_n = kNaN;
    double friction = kNaN;
    double safety = kNaN;
    int jaws = 3;
    double cut_diameter_mm = kNaN;
    std::string alloy;  ///< or youngs_modulus_gpa
    double youngs_modulus_gpa = kNaN;
    double spindle_rpm = kNaN;  ///< with the two below: what speed takes from the grip
    double jaw_mass_kg = kNaN;
    double mass_radius_mm = kNaN;
    double allowed_mm = kNaN;
};

/// Out-of-round of a ring in a number of jaws or contacts.
struct InJaws {
    int jaws = 0;
    double out_of_round_mm = kNaN;
};

/// A ring or tube in jaws: the force that holds it, and how far out of round it comes when bored there.
struct JawSqueeze {
    std::string unit = "mm";
    int jaws = 0;
    double jaw_force_n = kNaN;
    double jaw_force_at_rest_n = kNaN;
    double out_of_round_mm = kNaN;
    double wall_mm = kNaN;
    double mean_diameter_mm = kNaN;
    std::vector<InJaws> by_jaws;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};

/// A place along the work and how much larger than set the diameter comes there.
struct PlaceOnWork {
    double at_mm = kNaN;
    double larger_mm = kNaN;
};

/// The same work held otherwise.
struct OtherWay {
    std::string name;
    double bend_mm = kNaN;
};

/// Work where it is held, under one cut.
struct Holding {
    std::string unit = "mm";
    CutAnswer cut;
    WorkBend bend;
    std::vector<PlaceOnWork> places;
    std::vector<OtherWay> other_ways;
    int steadies_for_span = 0;
    double jaw_force_n = kNaN;
    std::vector<InJaws> rings;
    std::optional<JawSqueeze> squeeze;
    double warming_k = kNaN;
    double growth_mm = kNaN;
    std::vector<std::string> ways;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};

extern const std::array<Question, 3> kHoldingQuestions;

/// How far stepped work deflects at the tool, and the diameters it leaves.
///
/// Errors
///   DomainError        a size out of its range, neither or both of alloy and modulus
///   NotTabulatedError  no such alloy, or none with a modulus
[[nodiscard]] WorkBend work_bend(const WorkBendAsk& asked, const Asking& asking);

/// The jaw force that a ring or tube needs, and how far out of round that leaves it. Errors as above.
[[nodiscard]] JawSqueeze jaw_squeeze(const JawSqueezeAsk& asked, const Asking& asking);

/// How far work deflects, is squeezed and warms where it is held, under the cut that turn() makes. Errors as
/// turn(), and friction without safety.
[[nodiscard]] Holding hold(const LatheAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
