#pragma once
// Level-1 formulas as Python functions: a plain double overload first, then one array template over the
// same inline evaluate(). pybind11's own vectorize is not used: it keeps the interpreter lock and is
// several times slower for scalars.

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/level1.hpp"

namespace halfnut::bind {

namespace py = pybind11;
using Doubles = py::array_t<double, py::array::c_style | py::array::forcecast>;

/// Elements above which an array call gives the interpreter lock away.
inline constexpr py::ssize_t kReleaseAbove = 4096;

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

/// The first failed element and how many failed, as a DomainError.
/// `refusal` is why its arguments do not go together, where the formula says so.
[[noreturn]] void raise_failed(std::string_view function, const Argument* arguments, Status status,
                               double value, const std::string& refusal, std::size_t index,
                               std::size_t failed, std::size_t size);

/// "raise" is true, "status" false, anything else a DomainError.
bool raises_on_error(const std::string& on_error);

/// A formula's docstring in the numpydoc layout: its summary, each argument with unit and range, what is
/// returned and raised. `summary` ends with the result's unit.
std::string numpydoc(std::string_view summary, std::span<const Argument> arguments);

namespace detail {

template <class Formula, std::size_t... I>
py::object call_arrays(const std::array<py::object, sizeof...(I)>& inputs, const std::string& on_error,
                       std::index_sequence<I...>) {
    const bool raise = raises_on_error(on_error);
    std::vector<Doubles> arrays;
    arrays.reserve(inputs.size());
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        arrays.push_back(plain_numbers(inputs[i], Formula::arguments[i]));
    }
    const std::vector<py::ssize_t> shape = broadcast_shape(arrays);
    const std::array<Operand, sizeof...(I)> in{operand(arrays[I], shape)...};
    py::array_t<double> out(shape);
    py::array_t<std::uint8_t> codes(raise ? std::vector<py::ssize_t>{0} : shape);
    const auto size = static_cast<std::size_t>(out.size());
    double* const values = out.mutable_data();
    std::uint8_t* const code = raise ? nullptr : codes.mutable_data();

    Status first{};
    std::size_t first_index = 0;
    std::size_t failed = 0;
    const auto run = [&] {
        for (std::size_t k = 0; k < size; ++k) {
            const Status status = evaluate<Formula>(values[k], in[I].data[k * in[I].step]...);
            if (code != nullptr) {
                code[k] = static_cast<std::uint8_t>(status.code);
            }
            if (!status.ok() && failed++ == 0) {
                first = status;
                first_index = k;
            }
        }
    };
    if (out.size() > kReleaseAbove) {
        const py::gil_scoped_release release;
        run();
    } else {
        run();
    }
    if (raise && failed > 0) {
        const Operand& at = in[first.argument];
        std::string refusal;
        if constexpr (kRefuses<Formula, std::conditional_t<I == I, double, void>...>) {
            if (first.code == StatusCode::inconsistent) {
                refusal = Formula::refusal(in[I].data[first_index * in[I].step]...);
            }
        }
        raise_failed(Formula::name, Formula::arguments.data(), first, at.data[first_index * at.step], refusal,
                     first_index, failed, size);
    }
    if (raise) {
        return shape.empty() ? py::object(py::float_(values[0])) : py::object(std::move(out));
    }
    return py::make_tuple(std::move(out), std::move(codes));
}

template <class Formula, std::size_t... I>
void define(py::module_& module, const char* summary, std::index_sequence<I...> indices) {
    static const std::array<std::string, sizeof...(I)> names{std::string(Formula::arguments[I].name)...};
    static const std::string name(Formula::name);
    const std::string doc = numpydoc(summary, Formula::arguments);
    py::options options;
    options.disable_function_signatures();
    module.def(
        name.c_str(),
        [](std::conditional_t<I == I, double, void>... values) { return scalar<Formula>(values...); },
        py::arg(names[I].c_str()).noconvert()..., doc.c_str());
    module.def(
        name.c_str(),
        [indices](std::conditional_t<I == I, py::object, void>... inputs, const std::string& on_error) {
            return call_arrays<Formula>(std::array<py::object, sizeof...(I)>{inputs...}, on_error, indices);
        },
        py::arg(names[I].c_str())..., py::arg("on_error") = "raise");
}

}  // namespace detail

/// Bind a level-1 formula under its own name: scalars give a float, arrays broadcast to an array.
/// `on_error="status"` gives (values, status codes) instead of raising at the first bad element.
template <class Formula>
void level1(py::module_& module, const char* summary) {
    detail::define<Formula>(module, summary, std::make_index_sequence<Formula::arguments.size()>{});
}

}  // namespace halfnut::bind
