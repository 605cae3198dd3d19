#pragma once
/// Level 1: functions of plain numbers, one home for each.
///
/// A formula is a type: its name, its arguments with their ranges, and compute(). From it come the
/// non-throwing evaluate(), the scalar call that throws, and the array call of the Python module.
///
///     struct SpindleSpeed {
///         static constexpr std::string_view name = "spindle_speed_rpm";
///         static constexpr std::array arguments{positive("cutting_speed_m_min", "m/min"),
///         positive("diameter_mm", "mm")}; static double compute(double v_c, double d) noexcept { return
///         1000.0 * v_c / (std::numbers::pi * d); }
///     };
///     inline double spindle_speed_rpm(double v_c, double d) { return scalar<SpindleSpeed>(v_c, d); }

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"

namespace halfnut {

/// An argument's name, unit and range.
struct Argument {
    std::string_view name;
    std::string_view unit;
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
    bool low_open = false;   ///< the value must be above low, not at it
    bool high_open = false;  ///< the value must be below high, not at it
    bounds::Range stated{};  ///< what any number of this unit keeps, beside the range

    [[nodiscard]] constexpr bool in_range(double value) const noexcept {
        return (low_open ? value > low : value >= low) && (high_open ? value < high : value <= high);
    }
    [[nodiscard]] constexpr bool accepts(double value) const noexcept {
        return in_range(value) && stated.holds(value);
    }
    [[nodiscard]] constexpr Argument called(std::string_view as) const noexcept {
        Argument out = *this;
        out.name = as;
        return out;
    }
};

/// > 0, within the bounds of its unit.
constexpr Argument positive(std::string_view name, std::string_view unit = "") {
    return {.name = name, .unit = unit, .low = 0.0, .low_open = true, .stated = bounds::of_unit(unit)};
}
/// >= 0, up to the greatest of its unit: what is computed from sizes may be as small as it likes.
constexpr Argument not_negative(std::string_view name, std::string_view unit = "") {
    return {.name = name, .unit = unit, .low = 0.0, .stated = {0.0, bounds::of_unit(unit).greatest}};
}
/// From low to high, both included.
constexpr Argument between(std::string_view name, double low, double high, std::string_view unit = "") {
    return {.name = name, .unit = unit, .low = low, .high = high};
}
/// Above low and below high, neither included.
constexpr Argument inside(std::string_view name, double low, double high, std::string_view unit = "") {
    return {.name = name, .unit = unit, .low = low, .high = high, .low_open = true, .high_open = true};
}
/// Any finite number up to the greatest of its unit.
constexpr Argument finite(std::string_view name, std::string_view unit = "") {
    return {.name = name, .unit = unit, .stated = {0.0, bounds::of_unit(unit).greatest}};
}

/// "> 0 mm", "from 0 to 75 deg", "finite".
[[nodiscard]] std::string range_text(const Argument& argument);

/// The same with the bounds of the unit: "from 1e-06 to 100000 mm", "from 0 to 100000 mm".
[[nodiscard]] std::string whole_range_text(const Argument& argument);

/// "diameter_mm must be > 0 mm, got -2", "diameter_mm must be from 1e-06 to 100000 mm, got 1e+12".
[[nodiscard]] std::string argument_message(const Argument& argument, double value);

/// Throw the exception that a status stands for. `function` is named where no argument is at fault.
[[noreturn]] void throw_status(Status status, std::string_view function, const Argument* arguments,
                               const double* values);

/// Check one argument against its range.
[[nodiscard]] inline StatusCode check(const Argument& argument, double value) noexcept {
    if (!std::isfinite(value)) {
        return StatusCode::not_finite;
    }
    return argument.accepts(value) ? StatusCode::ok : StatusCode::out_of_range;
}

/// Refuse a value that is not in its argument's range.
///
/// Errors
///   DomainError  it is not, with its range
void require(const Argument& argument, double value);

/// Whether a formula can say why arguments that are each in range do not go together: then a NaN from its
/// compute() is `inconsistent`, and refusal() gives the words.
template <class Formula, class... Values>
inline constexpr bool kRefuses = requires(Values... values) { Formula::refusal(values...); };

/// Evaluate a formula without throwing: `out` is the answer, or NaN with a status other than ok.
template <class Formula, class... Values>
[[nodiscard]] Status evaluate(double& out, Values... values) noexcept {
    constexpr std::size_t kCount = sizeof...(Values);
    static_assert(kCount == Formula::arguments.size(), "one value for each argument");
    const std::array<double, kCount> given{static_cast<double>(values)...};
    for (std::size_t i = 0; i < kCount; ++i) {
        const StatusCode code = check(Formula::arguments[i], given[i]);
        if (code != StatusCode::ok) {
            out = std::numeric_limits<double>::quiet_NaN();
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    out = Formula::compute(values...);
    if (!std::isfinite(out)) {
        out = std::numeric_limits<double>::quiet_NaN();
        return {kRefuses<Formula, Values...> ? StatusCode::inconsistent : StatusCode::no_result, 0};
    }
    return {};
}

/// Evaluate a formula for one set of numbers.
///
/// Errors: DomainError, naming the argument, its value, unit and range.
template <class Formula, class... Values>
[[nodiscard]] double scalar(Values... values) {
    double out = 0.0;
    const Status status = evaluate<Formula>(out, values...);
    if (!status.ok()) {
        if constexpr (kRefuses<Formula, Values...>) {
            if (status.code == StatusCode::inconsistent) {
                throw DomainError(std::string(Formula::name) + ": " + Formula::refusal(values...));
            }
        }
        const std::array<double, sizeof...(Values)> given{static_cast<double>(values)...};
        throw_status(status, Formula::name, Formula::arguments.data(), given.data());
    }
    return out;
}

}  // namespace halfnut
