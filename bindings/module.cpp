// The Python module halfnut._core: one bind_<domain>.cpp a domain, called here in the order of the layers.

#include <pybind11/pybind11.h>

#include "bind.hpp"
#include "halfnut/core/error.hpp"

namespace py = pybind11;

namespace {

/// An exception class with a second base, so that `except ValueError` also catches it.
PyObject* exception(py::module_& module, const char* name, const py::tuple& bases) {
    const std::string full = std::string("halfnut.") + name;
    PyObject* type = PyErr_NewException(full.c_str(), bases.ptr(), nullptr);
    if (type == nullptr) {
        throw py::error_already_set();
    }
    module.add_object(name, py::reinterpret_borrow<py::object>(type));
    return type;
}

PyObject* error_type = nullptr;
PyObject* domain_error_type = nullptr;
PyObject* unit_error_type = nullptr;
PyObject* not_tabulated_error_type = nullptr;
PyObject* designation_error_type = nullptr;
PyObject* table_error_type = nullptr;

void bind_errors(py::module_& module) {
    const py::object value_error = py::reinterpret_borrow<py::object>(PyExc_ValueError);
    const py::object lookup_error = py::reinterpret_borrow<py::object>(PyExc_LookupError);
    error_type =
        exception(module, "Error", py::make_tuple(py::reinterpret_borrow<py::object>(PyExc_Exception)));
    const py::object error = py::reinterpret_borrow<py::object>(error_type);
    domain_error_type = exception(module, "DomainError", py::make_tuple(error, value_error));
    unit_error_type = exception(module, "UnitError", py::make_tuple(error, value_error));
    not_tabulated_error_type = exception(module, "NotTabulatedError", py::make_tuple(error, lookup_error));
    designation_error_type = exception(module, "DesignationError", py::make_tuple(error, value_error));
    table_error_type = exception(module, "TableError", py::make_tuple(error, value_error));
    // NOLINTNEXTLINE(performance-unnecessary-value-param): the signature is pybind11's
    py::register_exception_translator([](std::exception_ptr pointer) {
        if (!pointer) {
            return;
        }
        try {
            std::rethrow_exception(pointer);
        } catch (const halfnut::DomainError& e) {
            PyErr_SetString(domain_error_type, e.what());
        } catch (const halfnut::UnitError& e) {
            PyErr_SetString(unit_error_type, e.what());
        } catch (const halfnut::NotTabulatedError& e) {
            PyErr_SetString(not_tabulated_error_type, e.what());
        } catch (const halfnut::TableError& e) {
            PyErr_SetString(table_error_type, e.what());
        } catch (const halfnut::DesignationError& e) {
            const py::object type = py::reinterpret_borrow<py::object>(designation_error_type);
            const py::object raised = type(e.what());
            raised.attr("position") = e.position();
            PyErr_SetObject(designation_error_type, raised.ptr());
        } catch (const halfnut::Error& e) {
            PyErr_SetString(error_type, e.what());
        }
    });
}

}  // namespace

PYBIND11_MODULE(_core, module, py::mod_gil_not_used()) {
    module.doc() = "Halfnut's core: numbers in, numbers out.";
    module.attr("__version__") = HALFNUT_VERSION;
    bind_errors(module);
    halfnut::bind::bind_catalogue(module);
    halfnut::bind::bind_formulas(module);
    halfnut::bind::bind_quantity(module);
    halfnut::bind::bind_material(module);
    halfnut::bind::bind_machine(module);
    halfnut::bind::bind_gears(module);
    halfnut::bind::bind_column(module);
    halfnut::bind::bind_gauging(module);
    halfnut::bind::bind_threads(module);
    halfnut::bind::bind_cutting(module);
    halfnut::bind::bind_chasing(module);
    halfnut::bind::bind_questions(module);
    halfnut::bind::bind_batch(module);
}
