// Quantities with their units.

#include <fmt/format.h>
#include "convert.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/core/spell.hpp"

namespace halfnut::bind {

namespace {

Dimension dimension_from(const std::string& name) {
    for (int i = 0; i <= static_cast<int>(Dimension::stress); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        if (dimension_name(dimension) == name) {
            return dimension;
        }
    }
    throw DomainError("no dimension '" + name + "'");
}

Quantity quantity(double value, const std::string& unit, const std::string& dimension) {
    const Dimension wanted = dimension_from(dimension);
    const Unit* found = find_unit(unit, wanted);
    if (found == nullptr) {
        throw DomainError("'" + unit + "' is no unit of " + dimension);
    }
    const Quantity given(value, *found);
    const std::string_view base = base_unit(wanted);
    const bounds::Range range = bounds::of_unit(base);
    if (!range.holds(given.base())) {  // NaN too
        throw DomainError(fmt::format("{} must be 0, or from {} to {} {}, got {} {}", dimension, range.least,
                                      range.greatest, base, value, unit));
    }
    return given;
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
        .def(py::init(&quantity), py::arg("value"), py::arg("unit"), py::arg("dimension"))
        .def_property_readonly("value", &Quantity::value)
        .def_property_readonly("unit", [](const Quantity& q) { return std::string(q.unit().symbol); })
        .def_property_readonly("dimension",
                               [](const Quantity& q) { return std::string(dimension_name(q.dimension())); })
        .def_property_readonly("system", [](const Quantity& q) { return system_name(q.system()); })
        .def_property_readonly("base", &Quantity::base)
        .def("__str__", &Quantity::text)
        .def("__repr__", [](const Quantity& q) { return "Quantity('" + q.text() + "')"; })
        .def(
            "__eq__",
            [](const Quantity& a, const Quantity& b) {
                return a.dimension() == b.dimension() && a.base() == b.base();
            },
            py::is_operator())
        .def("__hash__", [](const Quantity& q) {
            return py::hash(py::make_tuple(static_cast<int>(q.dimension()), q.base()));
        });

    py::class_<Length, Quantity>(module, "Length", "A length; it keeps the unit it was given in.")
        .def(py::init([](double value, const std::string& unit) {
                 return Length(quantity(value, unit, "length"));
             }),
             py::arg("value"), py::arg("unit"))
        .def_property_readonly("mm", &Length::mm)
        .def_property_readonly("inches", &Length::in)
        .def("__repr__", [](const Length& q) { return "Length('" + q.text() + "')"; });

    module.def(
        "spell",
        [](double value, std::string_view kind, std::string_view unit) {
            return spell(value, figure_kind(kind), system_of(unit));
        },
        py::arg("value"), py::arg("kind"), py::arg("unit"),
        "A figure with its unit, by its kind or its key, in the system of a length's unit: 'in' or 'mm'.");
    module.def(
        "spell_number",
        [](double value, std::string_view kind, std::string_view unit) {
            return spell_number(value, figure_kind(kind), system_of(unit));
        },
        py::arg("value"), py::arg("kind"), py::arg("unit"), "A figure without its unit.");
    module.def(
        "spell_span",
        [](double low, double high, std::string_view kind, std::string_view unit) {
            return spell_span(low, high, figure_kind(kind), system_of(unit));
        },
        py::arg("low"), py::arg("high"), py::arg("kind"), py::arg("unit"), "Two figures as from-to.");
    module.def(
        "bounds",
        [] {
            py::dict out;
            out["text_bytes"] = bounds::kTextBytes;
            out["designation_bytes"] = bounds::kDesignationBytes;
            out["file_bytes"] = bounds::kFileBytes;
            out["rows"] = bounds::kRows;
            out["items"] = bounds::kItems;
            out["nesting"] = bounds::kNesting;
            out["count"] = bounds::kCount;
            out["passes"] = bounds::kPasses;
            return out;
        },
        "Bounds on counts and lengths of text, by name.");
    module.def(
        "unit_bounds",
        [](const std::string& unit) {
            const bounds::Range range = bounds::of_unit(unit);
            return std::pair(range.least, range.greatest);
        },
        py::arg("unit"), "Least and greatest magnitude, other than 0, of a number with a unit such as 'mm'.");
    module.def(
        "parse_quantity",
        [](const std::string& text, const std::string& dimension, const SharedCatalogue& catalogue) {
            return parse_quantity(text, dimension_from(dimension), catalogue.get());
        },
        py::arg("text"), py::arg("dimension"), py::arg("catalogue"),
        "Read a quantity of a given dimension from text.");
    module.def(
        "parse_length",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return parse_length(text, catalogue.get());
        },
        py::arg("text"), py::arg("catalogue"),
        "Read a length from text, drills by number or letter included.");
}

}  // namespace halfnut::bind
