#pragma once
/// Thread designations: what a drawing says, as a value, and back.
///
///     M10   M10x1.5-6g   M10×1.5 – 4g6g   M10-6H/6g   M8x1.25-6g-LH   M24xPh3P1.5-6g   M20x2-7g6g-L
///     M20x2-5g6g-18 1/4-20 UNC-2A   .250-20 UNC-2A   #10-32 UNF-2B   10-32 UNF   1-1/8-18 UNEF
///     3/4-.0625P-.1875L(3 starts) UN-2A
///
/// Sizes are exact: whole nanometres for metric threads, ten-thousandths of an inch for Unified ones (a
/// basic size has four places), so that two spellings of one thread compare equal.

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/nought.hpp"
#include "halfnut/threads/kinds.hpp"

namespace halfnut::threads {

enum class System : std::uint8_t { iso_metric, unified };

/// `rounded_root` is UNR; `controlled_root` is MJ or UNJ, which is read but has no limits here.
enum class Form : std::uint8_t { plain, rounded_root, controlled_root };

enum class Hand : std::uint8_t { right, left };

constexpr auto enum_names(Hand /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Hand::right, string_view("right")},
                      std::pair{Hand::left, string_view("left")}};
}

/// Length of engagement by ISO 965-1: short, normal, long.
enum class EngagementGroup : std::uint8_t { unstated, s, n, l };

constexpr auto enum_names(EngagementGroup /*tag*/) {
    using std::string_view;
    return std::array{std::pair{EngagementGroup::unstated, string_view("")},
                      std::pair{EngagementGroup::s, string_view("S")},
                      std::pair{EngagementGroup::n, string_view("N")},
                      std::pair{EngagementGroup::l, string_view("L")}};
}

/// How a Unified size is called.
enum class SizeStyle : std::uint8_t { decimal, fraction, number };

/// Tolerance class of an ISO metric thread: pitch diameter first, then crest (4g6g). Grade 0: not given.
struct IsoClass {
    std::uint8_t pitch_grade = 0;
    Position pitch_position{};
    std::uint8_t crest_grade = 0;
    Position crest_position{};

    [[nodiscard]] constexpr bool given() const noexcept { return pitch_grade != 0; }
    friend constexpr bool operator==(const IsoClass&, const IsoClass&) = default;
};

/// 1, 2 or 3; 0: not given.
using UnifiedClass = std::uint8_t;

/// A designated thread. A thread may carry the class of the external part, of the internal part, or both.
struct Thread {
    System system{};
    Form form{};
    UnifiedSeries series{};  ///< Unified only
    SizeStyle style{};       ///< Unified only
    Hand hand{};
    EngagementGroup group{};  ///< ISO only
    std::uint8_t starts = 1;
    UnifiedClass external_unified = 0;
    UnifiedClass internal_unified = 0;
    IsoClass external_iso;
    IsoClass internal_iso;
    std::int64_t diameter_units = 0;  ///< basic major diameter: nm, or 1e-4 in
    std::int64_t pitch_units = 0;     ///< axial pitch P: nm, or 1e-8 in
    std::int32_t tpi_thousandths =
        0;  ///< threads per inch (Unified); 0 where the pitch is no whole, half or quarter number
    std::int64_t engagement_units = 0;  ///< stated length of engagement: nm, or 1e-6 in; 0: not stated

    [[nodiscard]] bool inch() const noexcept { return system == System::unified; }
    [[nodiscard]] bool has_external() const noexcept { return external_iso.given() || external_unified != 0; }
    [[nodiscard]] bool has_internal() const noexcept { return internal_iso.given() || internal_unified != 0; }
    [[nodiscard]] double diameter_mm() const noexcept;
    [[nodiscard]] double diameter_in() const noexcept;
    [[nodiscard]] double pitch_mm() const noexcept;
    [[nodiscard]] double pitch_in() const noexcept;
    [[nodiscard]] double tpi() const noexcept { return tpi_thousandths / 1000.0; }
    [[nodiscard]] double lead_mm() const noexcept { return starts * pitch_mm(); }
    [[nodiscard]] double lead_in() const noexcept { return starts * pitch_in(); }
    /// Stated length of engagement, mm; NaN where none is stated.
    [[nodiscard]] double engagement_mm() const noexcept;
    /// The external or internal part alone; where its class is not given, the class that the standard means
    /// by silence (6g or 6H, up to d 1.4 mm 6h or 5H; 2A or 2B).
    [[nodiscard]] Thread part(Side side) const noexcept;

    friend bool operator==(const Thread&, const Thread&) = default;
};

/// A reading that failed: where, and why.
struct DesignationProblem {
    Status status;
    std::size_t position = 0;  ///< byte from 0
    std::string message;       ///< ends with the candidates where there are any
};

/// What to say of a text that names a system of threads without figures here (BA, NPTF, Pg); empty where it
/// names none.
[[nodiscard]] std::string foreign_thread(std::string_view text);

/// Read a designation without throwing.
///
/// Given
///   text       UTF-8; a sign of multiplication may be x, X, * or ×, a dash -, – or −
///   catalogue  where coarse pitches, series and numbered sizes are looked up
/// Returned
///   ok and `out`, or a status (not_understood, not_tabulated, inconsistent) and `problem` if it is given
[[nodiscard]] Status read_thread(std::string_view text, const Catalogue& catalogue, Thread& out,
                                 DesignationProblem* problem = nullptr);

/// Read a designation.
///
/// Errors
///   DesignationError   not understood, ambiguous (the message names the candidates) or contradictory, with
///   the position NotTabulatedError  no coarse pitch for the diameter, or no such size in the series that is
///   named
/// Notes
///   1) "10-32 UNF" is the numbered size because that is the one in the series; where the series tables
///      decide nothing ("4-33 UNS"), both readings are named and none is taken.
///   2) Sizes, pitches and series of no table are read ("M10.3x1.1-6g", "19/64-36 UNS-2B"); #00, #000 and
///      #0000 are 0.047, 0.034 and 0.021 in. Any other number with a nought in front is refused.
/// Example
///   parse_thread("M10", builtin()).pitch_mm() = 1.5
[[nodiscard]] Thread parse_thread(std::string_view text, const Catalogue& catalogue);

/// The one canonical spelling; parse_thread(format_thread(t)) == t. "M10x1.5-6g", "#10-32 UNF-2A".
[[nodiscard]] std::string format_thread(const Thread& thread);

/// "6g", "4g6g", "2A", "6H/6g"; empty where no class is given.
[[nodiscard]] std::string class_text(const Thread& thread);

/// Nominal size alone: "M10", "1/4", "#10", "0.250".
[[nodiscard]] std::string size_text(const Thread& thread);

}  // namespace halfnut::threads
