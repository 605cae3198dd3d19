// Level-1 formulas: every row of the core's registry as one built-in function. Floats take the interpreter's
// own vector call, with no overloads and no casters; anything else meets one path for arrays.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "convert.hpp"
#include "halfnut/core/formula.hpp"

namespace halfnut::bind {

namespace {

/// Elements above which an array call gives the interpreter lock away.
constexpr std::size_t kReleaseAbove = 4096;
/// Built-in functions that are made ready for; the registry has fewer.
constexpr std::size_t kMostFormulas = 256;

/// A formula as Python knows it.
struct Bound {
    const FormulaRow* row = nullptr;
    std::array<PyObject*, kMostArguments + 1> names{};  ///< of the arguments, then "on_error"; interned
    std::string name;
    std::string doc;
    PyMethodDef method{};
};

/// By place; they live as long as the process, as built-in functions of the interpreter do.
std::array<const Bound*, kMostFormulas> bound{};

/// The numbers of a call that has plain floats or whole numbers only.
bool plain(PyObject* given, double& value) {
    if (PyFloat_Check(given) != 0) {  // numpy.float64 is one
        value = PyFloat_AS_DOUBLE(given);
        return true;
    }
    if (PyLong_Check(given) != 0) {
        value = PyLong_AsDouble(given);
        if (PyErr_Occurred() == nullptr) {
            return true;
        }
        PyErr_Clear();
    }
    return false;
}

PyObject* scalar(const FormulaRow& formula, const double* values) {
    double out = 0.0;
    const Status status = evaluate(formula, values, out);
    if (!status.ok()) {
        throw DomainError(failure_text(formula, status, values));
    }
    return PyFloat_FromDouble(out);
}

PyObject* arrays(const FormulaRow& formula, PyObject* const* given, bool raise) {
    const std::size_t count = formula.arguments.size();
    std::vector<Doubles> inputs;
    inputs.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        inputs.push_back(plain_numbers(py::reinterpret_borrow<py::object>(given[i]), formula.arguments[i]));
    }
    const std::vector<py::ssize_t> shape = broadcast_shape(inputs);
    ArgumentColumns in;
    for (std::size_t i = 0; i < count; ++i) {
        Operand one = operand(inputs[i], shape);
        in.data[i] = one.data;
        in.step[i] = one.step;
        inputs[i] = std::move(one.array);
    }
    py::array_t<double> out(shape);
    py::array_t<std::uint8_t> codes(raise ? std::vector<py::ssize_t>{0} : shape);
    double* const values = out.mutable_data();
    std::uint8_t* const code = raise ? nullptr : codes.mutable_data();
    const auto size = static_cast<std::size_t>(out.size());
    Failures failures;
    if (size > kReleaseAbove) {
        const py::gil_scoped_release release;
        failures = formula.block(in, size, values, code);
    } else {
        failures = formula.block(in, size, values, code);
    }
    if (!raise) {
        return py::make_tuple(std::move(out), std::move(codes)).release().ptr();
    }
    if (failures.count > 0) {
        const auto at = in.element(count, failures.first_index);
        throw DomainError(fmt::format("{} at index {} ({} of {} elements failed)",
                                      failure_text(formula, failures.first, at.data()), failures.first_index,
                                      failures.count, size));
    }
    return shape.empty() ? PyFloat_FromDouble(values[0]) : out.release().ptr();
}

/// Put the arguments of a call into their places; false with a TypeError where they do not fit.
bool place(const Bound& self, PyObject* const* args, Py_ssize_t by_place, PyObject* keywords,
           PyObject** given) {
    const auto places = static_cast<Py_ssize_t>(self.row->arguments.size() + 1);
    if (by_place > places) {
        PyErr_Format(PyExc_TypeError, "%s() takes at most %zd arguments (%zd given)", self.name.c_str(),
                     places, by_place);
        return false;
    }
    std::copy_n(args, by_place, given);
    const Py_ssize_t by_name = keywords == nullptr ? 0 : PyTuple_GET_SIZE(keywords);
    for (Py_ssize_t k = 0; k < by_name; ++k) {
        PyObject* const name = PyTuple_GET_ITEM(keywords, k);
        Py_ssize_t i = 0;
        while (i < places && self.names[static_cast<std::size_t>(i)] != name) {
            ++i;
        }
        if (i == places) {  // not interned, or not known
            i = 0;
            while (i < places && PyUnicode_Compare(self.names[static_cast<std::size_t>(i)], name) != 0) {
                ++i;
            }
        }
        if (i == places) {
            PyErr_Format(PyExc_TypeError, "%s() got an unexpected keyword argument '%U'", self.name.c_str(),
                         name);
            return false;
        }
        if (given[i] != nullptr) {
            PyErr_Format(PyExc_TypeError, "%s() got multiple values for argument '%U'", self.name.c_str(),
                         name);
            return false;
        }
        given[i] = args[by_place + k];
    }
    for (Py_ssize_t i = 0; i + 1 < places; ++i) {
        if (given[i] == nullptr) {
            PyErr_Format(PyExc_TypeError, "%s() missing required argument '%U' (pos %zd)", self.name.c_str(),
                         self.names[static_cast<std::size_t>(i)], i + 1);
            return false;
        }
    }
    return true;
}

PyObject* call(const Bound& self, PyObject* const* args, Py_ssize_t by_place, PyObject* keywords) {
    const FormulaRow& formula = *self.row;
    const std::size_t count = formula.arguments.size();
    std::array<PyObject*, kMostArguments + 1> given{};
    if (!place(self, args, by_place, keywords, given.data())) {
        return nullptr;
    }
    PyObject* const on_error = given[count];
    std::array<double, kMostArguments> values{};
    bool scalars = on_error == nullptr;
    for (std::size_t i = 0; scalars && i < count; ++i) {
        scalars = plain(given[i], values[i]);
    }
    try {
        if (scalars) {
            return scalar(formula, values.data());
        }
        if (on_error != nullptr && PyUnicode_Check(on_error) == 0) {
            throw py::type_error(fmt::format("{}() argument 'on_error' must be str, not {}", self.name,
                                             Py_TYPE(on_error)->tp_name));
        }
        return arrays(formula, given.data(),
                      on_error == nullptr || raises_on_error(py::cast<std::string>(py::handle(on_error))));
    } catch (py::error_already_set& error) {
        error.restore();
    } catch (...) {
        py::detail::try_translate_exceptions();
    }
    return nullptr;
}

using Entry = PyObject* (*)(PyObject*, PyObject* const*, Py_ssize_t, PyObject*);

/// One address a formula, so that each is a plain function of its module: it is pickled by its name.
template <std::size_t Place>
PyObject* call_at(PyObject* /*module*/, PyObject* const* args, Py_ssize_t by_place, PyObject* keywords) {
    return call(*bound[Place], args, by_place, keywords);
}
template <std::size_t... Place>
constexpr auto entries(std::index_sequence<Place...> /*places*/) {
    return std::array<Entry, sizeof...(Place)>{&call_at<Place>...};
}

/// A formula's docstring in the numpydoc layout: its signature, its summary, each argument with unit and
/// range, what is returned and raised.
std::string docstring(const FormulaRow& formula) {
    std::string doc(formula.name);
    doc += '(';
    for (const Argument& argument : formula.arguments) {
        doc += fmt::format("{}, ", argument.name);
    }
    doc += fmt::format("on_error='raise')\n--\n\n{}\n\nParameters\n----------\n", formula.summary);
    for (const Argument& argument : formula.arguments) {
        const std::string range = whole_range_text(argument);
        doc += fmt::format("{} : float or array_like\n    {}.\n", argument.name,
                           range == "finite"
                               ? fmt::format("Finite{}{}", argument.unit.empty() ? "" : ", ", argument.unit)
                               : fmt::format("Finite and {}", range));
    }
    doc +=
        "on_error : {\"raise\", \"status\"}\n"
        "    For arrays: raise at the first bad element, or return the values (NaN where there is none)\n"
        "    and an array of status codes: 0 where there is one, 1 not finite, 2 out of range, 3 no result,\n"
        "    8 inconsistent.\n"
        "\nReturns\n-------\nfloat or ndarray\n"
        "    A float when every argument is a scalar, else an array in the broadcast shape.\n"
        "\nRaises\n------\nDomainError\n"
        "    An argument outside its range; for arrays with the first bad index and the count.\n";
    return doc;
}

PyObject* interned(std::string_view text) {
    PyObject* const out = PyUnicode_InternFromString(std::string(text).c_str());
    if (out == nullptr) {
        throw py::error_already_set();
    }
    return out;
}

}  // namespace

void bind_formulas(py::module_& module) {
    static constexpr auto kEntries = entries(std::make_index_sequence<kMostFormulas>{});
    std::size_t at = 0;
    for (const FormulaRoom& room : formula_rooms()) {
        for (const FormulaRow& formula : room.formulas) {
            if (at == kMostFormulas) {
                throw Error("more formulas than bind_formulas.cpp makes ready for");
            }
            auto* const self = new Bound{&formula, {}, std::string(formula.name), docstring(formula)};
            for (std::size_t i = 0; i < formula.arguments.size(); ++i) {
                self->names[i] = interned(formula.arguments[i].name);
            }
            self->names[formula.arguments.size()] = interned("on_error");
            bound[at] = self;
            self->method = {self->name.c_str(),
                            reinterpret_cast<PyCFunction>(reinterpret_cast<void (*)()>(kEntries[at])),
                            METH_FASTCALL | METH_KEYWORDS, self->doc.c_str()};
            PyObject* const made =
                PyCFunction_NewEx(&self->method, module.ptr(), module.attr("__name__").ptr());
            if (made == nullptr) {
                throw py::error_already_set();
            }
            module.add_object(self->name.c_str(), py::reinterpret_steal<py::object>(made));
            ++at;
        }
    }
    module.def(
        "formulas",
        [] {
            py::dict out;
            for (const FormulaRoom& room : formula_rooms()) {
                py::list names;
                for (const FormulaRow& formula : room.formulas) {
                    names.append(text(formula.name));
                }
                out[text(room.name)] = std::move(names);
            }
            return out;
        },
        "Names of the formulas of numbers, by room.");
}

}  // namespace halfnut::bind
