#pragma once
// Figures of a record as Python sees them: a dictionary, None where there is no number.

#include <fmt/format.h>
#include <pybind11/pybind11.h>

#include <cmath>
#include <optional>
#include <string_view>

#include "halfnut/core/error.hpp"
#include "halfnut/core/schema.hpp"

namespace halfnut::bind {

inline pybind11::object number_or_none(double value) {
    return std::isnan(value) ? pybind11::object(pybind11::none()) : pybind11::object(pybind11::float_(value));
}

/// Figures by their names.
template <class Names, class Values>
pybind11::dict figures_by_name(const Names& names, const Values& values) {
    pybind11::dict out;
    for (std::size_t i = 0; i < names.size(); ++i) {
        out[pybind11::str(names[i].data(), names[i].size())] = number_or_none(values[i]);
    }
    return out;
}

/// NaN stands for "not given" in a request, so a NaN that was given is refused here.
inline double given_or_lacking(std::string_view argument, const std::optional<double>& value) {
    if (value && std::isnan(*value)) {
        throw DomainError(fmt::format("{} must be finite, got nan", argument));
    }
    return value.value_or(kNaN);
}

}  // namespace halfnut::bind
