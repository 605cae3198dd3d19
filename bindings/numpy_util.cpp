#include "numpy_util.hpp"

#include <fmt/format.h>
#include <pybind11/stl.h>

#include <algorithm>

namespace halfnut::bind {

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

void raise_failed(std::string_view function, const Argument* arguments, Status status, double value,
                  std::size_t index, std::size_t failed, std::size_t size) {
    const bool argument_at_fault =
        status.code == StatusCode::not_finite || status.code == StatusCode::out_of_range;
    const std::string what = argument_at_fault
                                 ? argument_message(arguments[status.argument], value)
                                 : fmt::format("{}: {}", function, status_sentence(status.code));
    throw DomainError(fmt::format("{} at index {} ({} of {} elements failed)", what, index, failed, size));
}

bool raises_on_error(const std::string& on_error) {
    if (on_error != "raise" && on_error != "status") {
        throw DomainError(fmt::format("on_error must be 'raise' or 'status', got '{}'", on_error));
    }
    return on_error == "raise";
}

}  // namespace halfnut::bind
