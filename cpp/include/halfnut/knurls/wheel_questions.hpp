#pragma once
/// The shop's knurl wheels: which of them tracks on a diameter, and what diameter suits each.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/knurls/wheel_file.hpp"

namespace halfnut::knurls {

struct SuitableAsk {
    double diameter_mm = kNaN;  ///< of the blank; of the knurl when `finished`
    std::string pattern;        ///< only wheels that print it; empty: any
    bool finished = false;
    std::optional<std::vector<Wheel>> wheels;  ///< nothing is refused: there are no usual ones
};
void take(std::optional<std::vector<Wheel>>& to, const Given& given, const AskedRow& row, Asking& asking);

/// One wheel on one diameter; what does not apply is NaN or nothing.
struct WheelOnDiameter {
    std::string wheel;
    std::string pattern;
    std::string pitch;
    bool tracks = false;
    double mismatch_teeth = kNaN;
    double mismatch_limit_teeth = kNaN;
    double blank_diameter_mm = kNaN;
    double finished_diameter_mm = kNaN;
    double below_diameter_mm = kNaN;
    std::optional<std::int64_t> below_teeth;
    double above_diameter_mm = kNaN;
    std::optional<std::int64_t> above_teeth;
    std::string refusal;  ///< why there is no blank
};

/// The shop's wheels on one diameter, best first.
struct WheelChoice {
    double diameter_mm = kNaN;
    std::string unit;
    std::vector<WheelOnDiameter> wheels;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const RecordRow kWheelChoice;
extern const Question kSuitableWheels;

/// The wheels by how far they are from whole teeth; one without a blank says why, and one whose row has
/// mistakes stands last, with all of them.
///
/// Errors
///   DomainError   no wheels are given, or a pattern that is not understood
[[nodiscard]] WheelChoice suitable_wheels(const SuitableAsk& asked, const Asking& asking);

}  // namespace halfnut::knurls
