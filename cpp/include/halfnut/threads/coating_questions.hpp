#pragma once
/// Coatings as a person asks for them, and plain fits of parts that may be coated.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/fits/cylindrical.hpp"
#include "halfnut/threads/coating.hpp"

namespace halfnut::threads {

/// A build-up as text, a length, two lengths from least to most, or one that was read before.
void take(BuildUp& to, const Given& given, const AskedRow& row, Asking& asking);

/// What to mind about a finish as a process; `internal`: in a hole.
[[nodiscard]] std::vector<Told> coating_cautions(const BuildUp& coat, const Catalogue& catalogue,
                                                 bool internal = false);

struct CoatingAsk {
    std::string text;
    std::string on;
    int strips = 0;
};

/// A finish: its film, what it adds to a surface, and what to mind.
struct CoatingAnswer {
    std::string id;
    std::string name;
    std::string text;
    int strips = 0;
    CoatingProcess process{};
    CoatingBase base{};
    double film_min_um = kNaN;
    double film_max_um = kNaN;
    double build_up_min_um = kNaN;
    double build_up_max_um = kNaN;
    double pitch_change_min_um = kNaN;
    double pitch_change_max_um = kNaN;
    std::string note;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kCoating;

/// What is known of a finish.
///
/// Errors
///   NotTabulatedError  no such coating or alloy
///   DomainError        the alloy does not take it; strips out of their range
/// Example
///   "hard anodise 0.002 in": build_up_max_um = 25.4
[[nodiscard]] CoatingAnswer coating(const CoatingAsk& asked, const Asking& asking);

struct CylindricalFitAsk {
    std::string text;
    BuildUp hole_build_up;
    BuildUp shaft_build_up;
    double hole_mm = kNaN;  ///< as measured
    double shaft_mm = kNaN;
    std::string hole_alloy;
    std::string shaft_alloy;
    double hole_temperature_c = 20.0;
    double shaft_temperature_c = 20.0;
    double tolerance_over_sigma = 6.0;
    double mean_shift = 0.0;
};

/// Limits of one part, in whole millionths of the standard's unit and in mm.
struct CylinderPart {
    std::string side;
    std::string tolerance_class;
    std::string unit;
    std::int64_t nominal_units = 0;
    std::int64_t upper_units = 0;
    std::int64_t lower_units = 0;
    std::int64_t max_units = 0;
    std::int64_t min_units = 0;
    double max_mm = kNaN;
    double min_mm = kNaN;
    double tolerance_mm = kNaN;
    fits::FigureKind kind{};
    std::string sizes_said;
    std::string deviations_said;
};

/// A size, or a hole and a shaft together. Clearances are below 0 where the parts interfere.
struct CylindricalFit {
    std::string text;
    std::string unit;
    double nominal_mm = kNaN;
    std::optional<CylinderPart> hole;
    std::optional<CylinderPart> shaft;
    std::string name;
    fits::FitCharacter character{};
    fits::FigureKind kind{};
    fits::Meeting meeting;
    double hole_build_up_min_um = 0.0;
    double hole_build_up_max_um = 0.0;
    double shaft_build_up_min_um = 0.0;
    double shaft_build_up_max_um = 0.0;
    double hole_cut_min_mm = kNaN;
    double hole_cut_max_mm = kNaN;
    double shaft_cut_min_mm = kNaN;
    double shaft_cut_max_mm = kNaN;
    double hole_temperature_c = 20.0;
    double shaft_temperature_c = 20.0;
    // as it is said
    std::string said;
    std::optional<std::string> hole_said;
    std::optional<std::string> shaft_said;
    std::vector<std::string> coated_said;
    std::vector<std::string> cut_said;
    std::optional<std::string> hole_warm_said;
    std::optional<std::string> shaft_warm_said;
    std::optional<std::string> likely_said;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kCylindricalFit;

/// What a fit says beside its figures, made of them.
void say(CylindricalFit& fit);

/// Limits of a plain hole or shaft, and how the two go together.
///
/// Errors
///   DesignationError   the text is not understood, with the position
///   NotTabulatedError  the standard gives no such class at this size
///   DomainError        a size, a temperature or a spread out of its range; what speaks of a pair, of one
///   part
/// Example
///   "25 H7/g6": the hole's max_mm = 25.021, the character is clearance
[[nodiscard]] CylindricalFit cylindrical_fit(const CylindricalFitAsk& asked, const Asking& asking);

/// Which part of a fit keeps its zone.
enum class FitBasis : std::uint8_t { hole, shaft };
constexpr auto enum_names(FitBasis /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FitBasis::hole, string_view("hole")},
                      std::pair{FitBasis::shaft, string_view("shaft")}};
}

struct PreferredFitsAsk {
    std::optional<FitBasis> basis;
};

struct PreferredFit {
    std::string fit;
    std::string basis;
    std::string name;
    std::string source;
    std::string kind;
};

/// Fits to choose first.
struct PreferredFitsAnswer {
    std::vector<PreferredFit> fits;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kPreferredFits;

/// The fits to choose first, with their basis, use and source.
[[nodiscard]] PreferredFitsAnswer preferred_fits(const PreferredFitsAsk& asked, const Asking& asking);

}  // namespace halfnut::threads
