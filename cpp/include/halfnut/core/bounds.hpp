#pragma once
/// Bounds on what Halfnut takes: sizes, counts, lengths of text. Every reader and every request keeps them,
/// so that no number is too large to count in and no question is too large to answer.
///
/// The ranges are common practice made wide: the smallest length is a millionth of a millimetre, the largest
/// 100 m.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>

namespace halfnut::bounds {

/// Least and greatest magnitude of a number other than 0.
struct Range {
    double least = 0.0;
    double greatest = std::numeric_limits<double>::infinity();

    [[nodiscard]] constexpr bool holds(double value) const noexcept {
        const double magnitude = value < 0.0 ? -value : value;
        return value == 0.0 || (magnitude >= least && magnitude <= greatest);
    }
};

inline constexpr double kLeastLengthMm = 1e-6;
inline constexpr double kGreatestLengthMm = 1e5;

inline constexpr std::size_t kTextBytes = 1000;        ///< a quantity, a name, a title
inline constexpr std::size_t kDesignationBytes = 200;  ///< a thread, a fit, a pitch
inline constexpr std::size_t kFileBytes = 1'000'000;   ///< a file of the shop: job, machine, table
inline constexpr std::size_t kRows = 20'000;           ///< a table of the shop
inline constexpr double kCell = 1e15;                  ///< a number in a table
inline constexpr std::size_t kItems = 1000;  ///< a list in a job or machine file: parts, operations, gears
inline constexpr int kNesting = 20;          ///< tables within tables, parts of a dotted key
inline constexpr int kCount = 1'000'000;     ///< passes, pecks, dial lines of one answer
inline constexpr std::int64_t kUnits =
    1'000'000'000'000;                  ///< last places of a size: 1000 m in nm, so that sums fit
inline constexpr int kPasses = 10'000;  ///< passes of one operation of a job

/// Range of a number whose unit has none of its own.
inline constexpr Range kAnyUnit{1e-30, 1e30};

/// Range of a number with a unit, by the unit's symbol.
[[nodiscard]] constexpr Range of_unit(std::string_view unit) noexcept {
    struct Row {
        std::string_view unit;
        Range range;
    };
    constexpr Row kUnitRanges[] = {
        {"mm", {kLeastLengthMm, kGreatestLengthMm}},
        {"in", {4e-8, 4000.0}},
        {"um", {1e-3, 1e8}},
        {"mm/rev", {kLeastLengthMm, kGreatestLengthMm}},
        {"mm/min", {1e-6, 1e7}},
        {"m/min", {1e-6, 1e5}},
        {"rev/min", {1e-6, 1e7}},
        {"1/min", {1e-6, 1e7}},
        {"deg", {1e-9, 36000.0}},
        {"kW", {1e-9, 1e6}},
        {"N", {1e-9, 1e12}},
        {"N m", {1e-9, 1e12}},
        {"MPa", {1e-9, 1e9}},
        {"GPa", {1e-9, 1e6}},
        {"HB", {1.0, 1e4}},  // from softer than lead to harder than diamond
        {"kg", {1e-9, 1e9}},
        {"s", {1e-6, 1e9}},
        {"min", {1e-6, 1e9}},
    };
    for (const Row& row : kUnitRanges) {
        if (row.unit == unit) {
            return row.range;
        }
    }
    return kAnyUnit;
}

/// The one way from a double to a whole number: towards zero, held within [low, high]; NaN gives low. A cast
/// by itself is undefined where the number does not fit.
template <class Int>
[[nodiscard]] constexpr Int whole(double value, Int low = std::numeric_limits<Int>::min(),
                                  Int high = std::numeric_limits<Int>::max()) noexcept {
    if (!(value > static_cast<double>(low))) {
        return low;
    }
    // 2^63 - 1 has no double of its own: at or above its neighbour 2^63 is too large
    return value < static_cast<double>(high) ? static_cast<Int>(value) : high;
}

/// The same to the nearest whole number, halves away from zero.
template <class Int>
[[nodiscard]] inline Int nearest(double value, Int low = std::numeric_limits<Int>::min(),
                                 Int high = std::numeric_limits<Int>::max()) noexcept {
    return whole<Int>(std::round(value), low, high);
}

/// A text as an error quotes it: what is longer than 60 bytes is cut, between characters.
[[nodiscard]] std::string shown(std::string_view text);

/// What is said of a text that is too long: "alloy must be at most 1000 bytes, got 100000: 'aaaa...'".
[[nodiscard]] std::string too_long(std::string_view what, std::string_view text, std::size_t most);

/// Refuse a text that is too long. DomainError.
void require_text(std::string_view what, std::string_view text, std::size_t most = kTextBytes);

}  // namespace halfnut::bounds
