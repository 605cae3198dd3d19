// The Python module halfnut._core: one bind_<domain>.cpp a domain.

#include <pybind11/pybind11.h>

#include <utility>

#include "bind.hpp"
#include "halfnut/core/error.hpp"

namespace py = pybind11;

namespace {

/// An exception class of the package, with a second base, so that `except ValueError` also catches it. Those
/// that are registered later are tried first.
template <class E>
py::object register_error(py::module_& module, const char* name, const py::tuple& bases) {
    py::object type = py::register_exception<E>(module, name, bases);
    type.attr("__module__") = "halfnut";
    return type;
}

void bind_errors(py::module_& module) {
    const py::handle value_error(PyExc_ValueError);
    const py::object error =
        register_error<halfnut::Error>(module, "Error", py::make_tuple(py::handle(PyExc_Exception)));
    register_error<halfnut::DomainError>(module, "DomainError", py::make_tuple(error, value_error));
    register_error<halfnut::UnitError>(module, "UnitError", py::make_tuple(error, value_error));
    register_error<halfnut::NotTabulatedError>(module, "NotTabulatedError",
                                               py::make_tuple(error, py::handle(PyExc_LookupError)));
    register_error<halfnut::TableError>(module, "TableError", py::make_tuple(error, value_error));
    static const py::handle designation = register_error<halfnut::DesignationError>(
                                              module, "DesignationError", py::make_tuple(error, value_error))
                                              .release();
    py::register_exception_translator([](std::exception_ptr pointer) {
        try {
            std::rethrow_exception(std::move(pointer));
        } catch (const halfnut::DesignationError& e) {
            const py::object raised = designation(e.what());
            raised.attr("position") = e.position();
            PyErr_SetObject(designation.ptr(), raised.ptr());
        }
    });
}

}  // namespace

PYBIND11_MODULE(_core, module, py::mod_gil_not_used()) {
    module.doc() = "Halfnut's core: numbers in, numbers out.";
    module.attr("__version__") = HALFNUT_VERSION;
    bind_errors(module);
    for (const auto bind :
         {halfnut::bind::bind_catalogue, halfnut::bind::bind_formulas, halfnut::bind::bind_quantity,
          halfnut::bind::bind_machine, halfnut::bind::bind_threads, halfnut::bind::bind_cutting,
          halfnut::bind::bind_questions, halfnut::bind::bind_batch}) {
        bind(module);
    }
}
