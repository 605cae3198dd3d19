#include "numpy_util.hpp"

#include <fmt/format.h>
#include <pybind11/stl.h>

#include <algorithm>

namespace halfnut::bind {

Doubles plain_numbers(const py::object& value, const Argument& argument) {
    const bool number = PyFloat_CheckExact(value.ptr()) != 0 || PyLong_CheckExact(value.ptr()) != 0;
    if (!number) {
        // A plain array of numbers is taken as it is; all else is looked at by what knows of units.
        static const py::handle array_type =
            py::object(py::module_::import("numpy").attr("ndarray")).release();
        const bool array = py::type::handle_of(value).is(array_type);
        const char kind = array ? py::reinterpret_borrow<py::array>(value).dtype().kind() : 'O';
        if (kind != 'f' && kind != 'i' && kind != 'u') {
            const py::object numbers = py::module_::import("halfnut.core.carriers").attr("numbers");
            return py::cast<Doubles>(numbers(value, argument.unit, argument.name));
        }
    }
    return py::cast<Doubles>(value);
}

std::vector<py::ssize_t> broadcast_shape(const std::vector<Doubles>& arrays) {
    std::vector<py::ssize_t> shape;
    for (const Doubles& array : arrays) {
        shape.resize(std::max(shape.size(), static_cast<std::size_t>(array.ndim())), 1);
    }
    for (const Doubles& array : arrays) {
        const auto offset = static_cast<py::ssize_t>(shape.size()) - array.ndim();
        for (py::ssize_t axis = 0; axis < array.ndim(); ++axis) {
            py::ssize_t& extent = shape[static_cast<std::size_t>(offset + axis)];
            if (array.shape(axis) == extent || array.shape(axis) == 1) {
                continue;
            }
            if (extent != 1) {
                throw DomainError(
                    fmt::format("arrays do not broadcast: extents {} and {}", extent, array.shape(axis)));
            }
            extent = array.shape(axis);
        }
    }
    return shape;
}

Operand operand(const Doubles& array, const std::vector<py::ssize_t>& shape) {
    Operand out{array, nullptr, 1};
    if (array.size() == 1) {
        out.step = 0;
    } else if (!std::equal(shape.begin(), shape.end(), array.shape(), array.shape() + array.ndim())) {
        const py::object spread = py::module_::import("numpy").attr("broadcast_to")(array, shape);
        out.array = py::cast<Doubles>(spread);
    }
    out.data = out.array.data();
    return out;
}

bool raises_on_error(const std::string& on_error) {
    if (on_error != "raise" && on_error != "status") {
        throw DomainError(fmt::format("on_error must be 'raise' or 'status', got '{}'", on_error));
    }
    return on_error == "raise";
}

}  // namespace halfnut::bind
