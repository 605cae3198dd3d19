#pragma once
/// Knurl blanks as a person asks for them: the pitch as it is called for, the wheel as it is measured.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/knurls/blank.hpp"

namespace halfnut::knurls {

/// "96 DP", "21 TPI", "0.8 mm", a name, or a metric designation. A bare number is refused for its unit.
struct PitchAsk {
    std::string text;
};
/// The wheel at hand: its diameter over the points with its teeth, or the size of a standard wheel.
struct WheelAsk {
    double diameter_mm = kNaN;
    double teeth = kNaN;
};
/// Class of the diametral system: 1, 2, 3, or I, II, III.
struct ClassAsk {
    int number = 0;
};
void take(PitchAsk& to, const Given& given, const AskedRow& row, Asking& asking);
void take(WheelAsk& to, const Given& given, const AskedRow& row, Asking& asking);
void take(ClassAsk& to, const Given& given, const AskedRow& row, Asking& asking);

struct KnurlAsk {
    KnurlRequest blank;  ///< without pitch, pattern, wheel and class, which stand below
    PitchAsk pitch;
    std::string pattern;
    WheelAsk wheel;
    ClassAsk tolerance_class;
};

/// The core's request for what is asked.
///
/// Errors
///   DesignationError, NotTabulatedError   pitch or pattern not understood
///   DomainError                           pattern or profile contradicts the one that the pitch names
[[nodiscard]] KnurlRequest request_of(const KnurlAsk& asked, const Catalogue& catalogue);

/// The blank to turn before knurling, and what comes of it.
struct BlankAnswer {
    KnurlBlank blank;
    std::string pitch;
    Pattern pattern{};
    Process process{};
    bool finished_wanted = false;
    std::string unit;
    std::vector<std::string> assumed;
    std::int64_t teeth = 0;
    bool given_tracks = false;
    std::int64_t below_teeth = 0;
    std::int64_t above_teeth = 0;
    std::optional<std::int64_t> wheel_teeth;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const RecordRow kBlankRecord;
extern const Question kBlankQuestion;

/// The blank that a knurl tracks on.
///
/// Errors
///   DomainError        a number out of its range, or two that contradict each other
///   DesignationError   a text that is not understood
///   NotTabulatedError  no such standard wheel or tolerance class
/// Example
///   0.5 in, "96 DP", "straight": teeth = 48
[[nodiscard]] BlankAnswer ask_blank(const KnurlAsk& asked, const Asking& asking);

}  // namespace halfnut::knurls
