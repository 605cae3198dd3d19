#pragma once
/// The Unified tolerance system (ASME B1.1), in whole last places: 1e-4 in for sizes, 1e-6 in for tolerances.
///
/// Two decimal rules. `printed` gives what printed tables and go gauges carry; it is Halfnut's own fit to
/// those tables, for no text seen states it. It takes tolerance increments to six places, everything else to
/// four with a half going to the even figure; five sizes carry the tolerance of a neighbour, as printed.
/// `formula` is the standard's own rule since 2003: six-place intermediates, half up, each limit from limits
/// already rounded. The two differ by 0.0001 in (0.001 in on a three-place minor diameter) in about three
/// limits of a hundred of UNC and UNF.

#include <cstdint>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut::threads {

enum class UnifiedRule : std::uint8_t { printed, formula };

constexpr auto enum_names(UnifiedRule /*tag*/) {
    using std::string_view;
    return std::array{std::pair{UnifiedRule::printed, string_view("printed")},
                      std::pair{UnifiedRule::formula, string_view("formula")}};
}

/// Length of engagement behind a tolerance.
struct UnifiedEngagement {
    std::int64_t length_units = 0;  ///< LE of the formula, 1e-6 in
    std::int64_t from_units = 0;    ///< lengths that the tolerance serves, 1e-6 in
    std::int64_t up_to_units = 0;
    bool at_diameter = false;  ///< LE = D, else LE = 9 P
    bool special =
        false;  ///< the stated length is outside what the standard tolerance serves, and is LE itself
};

/// The series whose rule tolerances a thread: UNC, UNF or UNEF where diameter and threads per inch are in
/// that series, whatever series the designation names.
[[nodiscard]] UnifiedSeries unified_rule_series(const Catalogue& catalogue, const Thread& thread) noexcept;

/// LE by series; `stated_units` is the length of engagement asked for, 1e-6 in, or 0.
[[nodiscard]] UnifiedEngagement unified_engagement(UnifiedSeries rule_series, const Thread& thread,
                                                   std::int64_t stated_units) noexcept;

/// The row of a diameter that print tolerances as another size, or null.
[[nodiscard]] const UnifiedToleranceDiameterRow* unified_tolerance_diameter(
    const Catalogue& catalogue, std::int64_t diameter_units) noexcept;

/// Pitch-diameter tolerance of class 2A, 1e-6 in.
///
///     Td2(2A) = 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3)
///
/// `formula` rounds the sum to 1e-6 in, `printed` each of the three increments.
[[nodiscard]] std::int64_t unified_tolerance_2a(UnifiedRule rule, std::int64_t diameter_units,
                                                std::int64_t length_units, std::int64_t pitch_units) noexcept;

/// Minor-diameter tolerance of an internal thread, 1e-12 in, unrounded.
[[nodiscard]] std::int64_t unified_minor_tolerance(UnifiedRule rule, const Thread& thread) noexcept;

/// Sizes of one part, 1e-4 in, and the tolerances behind them.
struct UnifiedSizes {
    std::int32_t major_max = 0;
    std::int32_t major_min = 0;
    std::int32_t major_min_unfinished = 0;  ///< class 2A, unfinished hot-rolled material
    std::int32_t pitch_max = 0;
    std::int32_t pitch_min = 0;
    std::int32_t minor_max = 0;  ///< of an external thread a reference size: UN, or UNR for that form
    std::int32_t minor_min = 0;
    std::int32_t unr_minor_max = 0;
    std::int32_t allowance = 0;
    std::int64_t pitch_tolerance = 0;  ///< 1e-6 in
    std::int64_t crest_tolerance = 0;  ///< 1e-6 in; major of an external thread, minor of an internal one
};

/// Limits of an external part (class 1 to 3), given its class 2A tolerance.
[[nodiscard]] UnifiedSizes unified_external(UnifiedRule rule, const Thread& thread,
                                            std::int64_t tolerance_2a) noexcept;

/// Limits of an internal part (class 1 to 3), given the class 2A tolerance.
[[nodiscard]] UnifiedSizes unified_internal(UnifiedRule rule, const Thread& thread,
                                            std::int64_t tolerance_2a) noexcept;

}  // namespace halfnut::threads
