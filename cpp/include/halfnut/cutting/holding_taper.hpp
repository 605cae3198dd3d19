#pragma once
/// Self-holding tapers of spindles and tailstocks: their ends, and the settings of the lathe that cut them.

#include <string>
#include <vector>

#include "halfnut/core/question.hpp"

namespace halfnut::cutting {

/// "morse 3", "jarno 6", "metric 80", or a taper on the diameter such as "1:10".
struct TaperName {
    std::string text;
};
void take(TaperName& to, const Given& given, const AskedRow& row, Asking& asking);

struct HoldingTaperAsk {
    TaperName name;
    double length_mm = kNaN;  ///< from the gauge plane
    double large_mm = kNaN;   ///< at the gauge plane, of a taper without sizes of its own
    double between_centres_mm = kNaN;
    double sine_bar_mm = kNaN;
};

/// NaN where a figure does not apply.
struct HoldingTaper {
    std::string name;
    std::string unit;
    double large_mm = kNaN;
    double small_mm = kNaN;
    double length_mm = kNaN;
    double taper_on_diameter = kNaN;
    double per_foot_in = kNaN;
    double angle_deg = kNaN;
    double setover_mm = kNaN;
    double sine_stack_mm = kNaN;
    double sine_bar_mm = kNaN;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const RecordRow kHoldingTaperRecord;
extern const Question kHoldingTaper;

/// Ends, taper and settings of a self-holding taper.
///
/// Errors
///   NotTabulatedError  no such taper; the message names those that there are
///   DomainError        a length missing, out of its range, or so long that nothing is left
/// Example
///   "morse 3": large_mm = 23.825, angle_deg = 1.4377
[[nodiscard]] HoldingTaper holding_taper(const HoldingTaperAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
