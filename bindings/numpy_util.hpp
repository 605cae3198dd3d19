#pragma once
// Arrays of numbers as arguments: what carries a unit, broadcasting, errors by row.

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>

#include <string>
#include <vector>

#include "halfnut/core/level1.hpp"

namespace halfnut::bind {

namespace py = pybind11;
using Doubles = py::array_t<double, py::array::c_style | py::array::forcecast>;

/// An input of a broadcast call: its data, and 0 or 1 as the step from element to element.
struct Operand {
    Doubles array;
    const double* data = nullptr;
    std::size_t step = 0;
};

/// What was given for an argument as doubles. A value that carries a unit is converted to the argument's, or
/// refused; so is what is no number.
Doubles plain_numbers(const py::object& value, const Argument& argument);

/// The common shape of arrays by NumPy's broadcasting rules; ValueError (NumPy's) when there is none.
std::vector<py::ssize_t> broadcast_shape(const std::vector<Doubles>& arrays);

/// An array seen in a shape it broadcasts to.
Operand operand(const Doubles& array, const std::vector<py::ssize_t>& shape);

/// "raise" is true, "status" false, anything else a DomainError.
bool raises_on_error(const std::string& on_error);

}  // namespace halfnut::bind
