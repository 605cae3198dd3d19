// Quantities with their units.

#include <fmt/format.h>

#include <compare>
#include <optional>

#include "convert.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/builtin.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/core/spell.hpp"

namespace halfnut::bind {

using namespace pybind11::literals;

namespace {

Dimension dimension_from(std::string_view name) {
    std::string known;
    for (std::size_t i = 0; i < kDimensions; ++i) {
        const auto dimension = static_cast<Dimension>(i);
        if (dimension_name(dimension) == name) {
            return dimension;
        }
        known += fmt::format("{}'{}'", known.empty() ? "" : ", ", dimension_name(dimension));
    }
    throw DomainError(fmt::format("dimension must be one of {}, got '{}'", known, name));
}

const Unit& unit_of(std::string_view spelling, Dimension dimension) {
    if (const Unit* const found = find_unit(spelling, dimension)) {
        return *found;
    }
    std::string known;
    for (const Unit& unit : units()) {
        if (unit.dimension == dimension) {
            known += fmt::format("{}{}", known.empty() ? "" : ", ", unit.symbol);
        }
    }
    throw DomainError(
        fmt::format("'{}' is no unit of {}; there are {}", spelling, dimension_name(dimension), known));
}

Quantity quantity(double value, const std::string& unit, const std::string& dimension) {
    return bounded_quantity(value, unit_of(unit, dimension_from(dimension)));
}

/// A result as Python has it: a length is a Length.
py::object crossed(const Quantity& result) {
    return result.dimension() == Dimension::length ? py::cast(Length(result)) : py::cast(result);
}

/// What a quantity is put together with: a quantity of its own kind. A bare number is refused in words; of
/// anything else Python asks the other.
const Quantity* other_of(const Quantity& self, const py::object& other, std::string_view verb) {
    if (py::isinstance<Quantity>(other)) {
        const auto* const found = py::cast<const Quantity*>(other);
        if (found->dimension() != self.dimension()) {
            throw DomainError(fmt::format("{} cannot be {} {}: one is a {}, the other a {}", self.text(),
                                          verb, found->text(), dimension_name(self.dimension()),
                                          dimension_name(found->dimension())));
        }
        return found;
    }
    if (PyNumber_Check(other.ptr()) != 0 && !py::hasattr(other, "units") && !py::hasattr(other, "unit")) {
        const auto shown = py::cast<std::string>(py::str(other));
        throw UnitError(fmt::format("{} cannot be {} {}, which has no unit; a bare number is never a {}",
                                    self.text(), verb, shown, dimension_name(self.dimension())));
    }
    return nullptr;
}

py::object not_implemented() {
    return py::reinterpret_borrow<py::object>(Py_NotImplemented);
}

template <class Holds>
auto comparison(Holds holds) {
    return [holds](const Quantity& self, const py::object& other) -> py::object {
        const Quantity* const found = other_of(self, other, "compared with");
        return found == nullptr ? not_implemented() : py::bool_(holds(self <=> *found));
    };
}

py::object sum(const Quantity& self, const py::object& other) {
    const Quantity* const found = other_of(self, other, "added to");
    return found == nullptr ? not_implemented() : crossed(self + *found);
}

/// sum([a, b]) begins with a plain 0.
py::object sum_from(const Quantity& self, const py::object& other) {
    const bool start = PyLong_CheckExact(other.ptr()) != 0 && PyObject_IsTrue(other.ptr()) == 0;
    return start ? crossed(self) : sum(self, other);
}

py::object difference(const Quantity& self, const py::object& other) {
    const Quantity* const found = other_of(self, other, "taken together with");
    return found == nullptr ? not_implemented() : crossed(self - *found);
}

/// A plain number of Python's or NumPy's; a truth value is none.
std::optional<double> factor_of(const py::object& other) {
    py::detail::make_caster<double> number;
    if (py::isinstance<py::bool_>(other) || py::isinstance<Quantity>(other) || !number.load(other, true)) {
        return std::nullopt;
    }
    return py::detail::cast_op<double>(number);
}

py::object product(const Quantity& self, const py::object& other) {
    const std::optional<double> factor = factor_of(other);
    return factor ? crossed(self * *factor) : not_implemented();
}

py::object quotient(const Quantity& self, const py::object& other) {
    if (py::isinstance<Quantity>(other)) {
        return py::float_(self / *other_of(self, other, "divided by"));
    }
    const std::optional<double> divisor = factor_of(other);
    return divisor ? crossed(self / *divisor) : not_implemented();
}

/// "", a unit, a format of numbers, or a format of numbers, a blank and a unit: ".3f in".
std::string formatted(const Quantity& self, const std::string& spec) {
    const Dimension dimension = self.dimension();
    const std::size_t blank = spec.find(' ');
    if (spec.empty()) {
        return self.text();
    }
    if (find_unit(spec, dimension) != nullptr) {
        return Quantity(self.in(unit_of(spec, dimension)), unit_of(spec, dimension)).text();
    }
    const Unit& unit = blank == std::string::npos
                           ? self.unit()
                           : unit_of(std::string_view(spec).substr(blank + 1), dimension);
    const py::object number = py::float_(self.in(unit));
    const py::object text = number.attr("__format__")(spec.substr(0, blank));
    return fmt::format("{} {}", py::cast<std::string>(text), unit.symbol);
}

const char* system_name(UnitSystem system) {
    return system == UnitSystem::metric ? "metric" : system == UnitSystem::inch ? "inch" : "both";
}

/// The system of a length's unit.
UnitSystem system_of(std::string_view unit) {
    return unit == "in" ? UnitSystem::inch : UnitSystem::metric;
}

}  // namespace

void bind_quantity(py::module_& module) {
    py::class_<Quantity>(module, "Quantity", "A number with its unit.")
        .def(py::init(&quantity), "value"_a, "unit"_a, "dimension"_a)
        .def(py::init([](std::string_view written, const std::string& dimension) {
                 return parse_quantity(written, dimension_from(dimension), builtin());
             }),
             "text"_a, "dimension"_a)
        .def_property_readonly("value", &Quantity::value)
        .def_property_readonly("unit", [](const Quantity& q) { return std::string(q.unit().symbol); })
        .def_property_readonly("dimension",
                               [](const Quantity& q) { return std::string(dimension_name(q.dimension())); })
        .def_property_readonly("system", [](const Quantity& q) { return system_name(q.system()); })
        .def_property_readonly("base", &Quantity::base)
        .def("__str__", &Quantity::text)
        .def("__repr__",
             [](const Quantity& q) {
                 return fmt::format("Quantity('{}', '{}')", q.text(), dimension_name(q.dimension()));
             })
        .def("__format__", &formatted, "spec"_a,
             "A format of numbers, a blank, a unit, each of them optional: '.3f in', '.0f', 'mm'.")
        .def(
            "to",
            [](const Quantity& q, const std::string& unit) {
                const Unit& wanted = unit_of(unit, q.dimension());
                return crossed(Quantity(q.in(wanted), wanted));
            },
            "unit"_a, "The same in another unit.")
        .def(
            "__eq__", [](const Quantity& a, const Quantity& b) { return a == b; }, py::is_operator())
        .def("__hash__",
             [](const Quantity& q) {
                 return py::hash(py::make_tuple(static_cast<int>(q.dimension()), q.compared()));
             })
        .def("__lt__", comparison([](std::partial_ordering order) { return order < 0; }), "other"_a)
        .def("__le__", comparison([](std::partial_ordering order) { return order <= 0; }), "other"_a)
        .def("__gt__", comparison([](std::partial_ordering order) { return order > 0; }), "other"_a)
        .def("__ge__", comparison([](std::partial_ordering order) { return order >= 0; }), "other"_a)
        .def("__add__", &sum, "other"_a)
        .def("__radd__", &sum_from, "other"_a)
        .def("__sub__", &difference, "other"_a)
        .def("__rsub__", &difference, "other"_a)
        .def("__mul__", &product, "factor"_a)
        .def("__rmul__", &product, "factor"_a)
        .def("__truediv__", &quotient, "divisor"_a)
        .def("__neg__", [](const Quantity& q) { return crossed(Quantity(-q.value(), q.unit())); })
        .def("__pos__", [](const Quantity& q) { return crossed(q); })
        .def("__abs__", [](const Quantity& q) { return crossed(Quantity(std::abs(q.value()), q.unit())); })
        .def("__reduce__",
             [](const py::object& self) {
                 const auto& q = py::cast<const Quantity&>(self);
                 const py::str unit = text(q.unit().symbol);
                 py::tuple made = py::make_tuple(q.value(), unit);
                 if (!py::isinstance<Length>(self)) {
                     made = py::make_tuple(q.value(), unit, text(dimension_name(q.dimension())));
                 }
                 return py::tuple(py::make_tuple(py::type::of(self), made));
             })
        .def("__dask_tokenize__", [](const Quantity& q) {
            return py::make_tuple("halfnut.Quantity", text(dimension_name(q.dimension())), q.value(),
                                  text(q.unit().symbol));
        });

    py::class_<Length, Quantity>(module, "Length", "A length; it keeps the unit it was given in.")
        .def(py::init([](double value, const std::string& unit) {
                 return Length(quantity(value, unit, "length"));
             }),
             "value"_a, "unit"_a)
        .def(py::init([](std::string_view written) { return parse_length(written, builtin()); }), "text"_a)
        .def_property_readonly("mm", &Length::mm)
        .def_property_readonly("inch", &Length::in)
        .def("__repr__", [](const Length& q) { return "Length('" + q.text() + "')"; });

    const auto of_one = [](std::string (*spelled)(double, FigureKind, UnitSystem)) {
        return [spelled](double value, std::string_view kind, std::string_view unit) {
            return spelled(value, figure_kind(kind), system_of(unit));
        };
    };
    module.def(
        "spell", of_one(&spell), "value"_a, "kind"_a, "unit"_a,
        "A figure with its unit, by its kind or its key, in the system of a length's unit: 'in' or 'mm'.");
    module.def("spell_number", of_one(&spell_number), "value"_a, "kind"_a, "unit"_a,
               "A figure without its unit.");
    module.def(
        "spell_span",
        [](double low, double high, std::string_view kind, std::string_view unit) {
            return spell_span(low, high, figure_kind(kind), system_of(unit));
        },
        "low"_a, "high"_a, "kind"_a, "unit"_a, "Two figures as from-to.");
    module.def(
        "bounds",
        [] {
            return py::dict(
                "text_bytes"_a = bounds::kTextBytes, "designation_bytes"_a = bounds::kDesignationBytes,
                "file_bytes"_a = bounds::kFileBytes, "rows"_a = bounds::kRows, "items"_a = bounds::kItems,
                "nesting"_a = bounds::kNesting, "count"_a = bounds::kCount, "passes"_a = bounds::kPasses);
        },
        "Bounds on counts and lengths of text, by name.");
    module.def(
        "parse_quantity",
        [](std::string_view text, std::string_view dimension, const Catalogue& catalogue) {
            return parse_quantity(text, dimension_from(dimension), catalogue);
        },
        "text"_a, "dimension"_a, "catalogue"_a, "Read a quantity of a given dimension from text.");
    module.def(
        "base_units",
        [] {
            py::dict out;
            for (std::size_t i = 0; i < kDimensions; ++i) {
                out[text(dimension_name(static_cast<Dimension>(i)))] =
                    text(base_unit(static_cast<Dimension>(i)));
            }
            return out;
        },
        "Base units by what they are of.");
    module.def("parse_length", &parse_length, "text"_a, "catalogue"_a,
               "Read a length from text, drills by number or letter included.");
}

}  // namespace halfnut::bind
