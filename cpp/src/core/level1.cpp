#include "halfnut/core/level1.hpp"

#include "halfnut/core/failed.hpp"

#include <fmt/format.h>

namespace halfnut {

std::string range_text(const Argument& argument) {
    const std::string unit = argument.unit.empty() ? "" : fmt::format(" {}", argument.unit);
    const bool has_low = std::isfinite(argument.low);
    const bool has_high = std::isfinite(argument.high);
    if (has_low && has_high) {
        if (!argument.low_open && !argument.high_open) {
            return fmt::format("from {} to {}{}", argument.low, argument.high, unit);
        }
        return fmt::format("{} {} and {} {}{}", argument.low_open ? "above" : "at least", argument.low,
                           argument.high_open ? "below" : "at most", argument.high, unit);
    }
    if (has_low) {
        return fmt::format("{} {}{}", argument.low_open ? ">" : ">=", argument.low, unit);
    }
    if (has_high) {
        return fmt::format("{} {}{}", argument.high_open ? "<" : "<=", argument.high, unit);
    }
    return "finite";
}

std::string whole_range_text(const Argument& argument) {
    if (!(argument.stated.greatest < bounds::kAnyUnit.greatest)) {
        return range_text(argument);
    }
    const std::string unit = argument.unit.empty() ? "" : fmt::format(" {}", argument.unit);
    if (argument.low < 0.0) {
        return fmt::format("from {} to {}{}", -argument.stated.greatest, argument.stated.greatest, unit);
    }
    return fmt::format("from {} to {}{}", argument.stated.least, argument.stated.greatest, unit);
}

std::string argument_message(const Argument& argument, double value) {
    // of a length with its unit, which a question in inches puts in another
    const bool of_length = argument.unit.starts_with("mm") && std::isfinite(value);
    const std::string got = of_length ? fmt::format("{} {}", value, argument.unit) : fmt::format("{}", value);
    if (std::isfinite(value) && argument.in_range(value) && !argument.stated.holds(value)) {
        return argument.stated.greatest < bounds::kAnyUnit.greatest
                   ? fmt::format("{} must be {}, got {}", argument.name, whole_range_text(argument), got)
                   : fmt::format("{} must be from {} to {} in magnitude, got {}", argument.name,
                                 argument.stated.least, argument.stated.greatest, got);
    }
    std::string range = range_text(argument);
    if (!std::isfinite(value) && range != "finite") {
        range = "finite and " + range;
    }
    return fmt::format("{} must be {}, got {}", argument.name, range, got);
}

void require(const Argument& argument, double value) {
    if (const StatusCode code = check(argument, value); code != StatusCode::ok) {
        throw Failed(code, argument_message(argument, value));
    }
}

void throw_status(Status status, std::string_view function, const Argument* arguments, const double* values) {
    switch (status.code) {
        case StatusCode::not_finite:
        case StatusCode::out_of_range:
            throw Failed(status.code, argument_message(arguments[status.argument], values[status.argument]));
        case StatusCode::not_tabulated:
            throw NotTabulatedError(fmt::format("{}: {}", function, status_sentence(status.code)));
        default:
            throw Failed(status.code, fmt::format("{}: {}", function, status_sentence(status.code)));
    }
}

}  // namespace halfnut
