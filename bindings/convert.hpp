#pragma once
// What crosses between Python and the core, and how: shapes only, numbers are computed in the core.
//
// Rules of every binding file
// 1. Order: how a request is read; how an answer is shown; columns; bind_<name>(): classes, then functions.
// 2. An enumeration crosses by its spelling in enum_names(); from_name() is its one reader.
// 3. What is not there is NaN in the core and None in Python (number_or_none). Answers are values: nothing is
//    changed. Tables cross as the Catalogue that Python holds.
// 4. An error names the argument, what it must be and what was given: "hold must be one of 'a', 'b', got
//    'c'". Of a column it goes on: "at index 2 (1 of 3 elements failed)".
// 5. The interpreter lock is given away by loops over rows (ask_rows(), batches, blocks of formulas), never
//    by a single answer. No Python object is touched without it.
// 6. A file that includes pybind11 costs seconds: several are compiled as one (CMakeLists.txt), so their
//    names in unnamed namespaces differ. What each record needs is a row here, not a template.

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <typeinfo>
#include <vector>

#include "bind.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/core/schema.hpp"

namespace halfnut::bind {

namespace py = pybind11;

// ---- texts and enumerations -------------------------------------------------------------------------------

inline py::str text(std::string_view value) {
    return {value.data(), value.size()};
}

/// The spellings of an enumeration, in its order.
template <class E>
std::vector<std::string_view> spellings() {
    std::vector<std::string_view> out;
    for (const auto& [value, spelling] : enum_names(E{})) {
        out.push_back(spelling);
    }
    return out;
}

[[noreturn]] void refuse_name(std::string_view argument, const std::vector<std::string_view>& allowed,
                              std::string_view given);

template <class E>
E from_name(std::string_view argument, std::string_view given) {
    E value{};
    if (!enum_from_name(given, value)) {
        refuse_name(argument, spellings<E>(), given);
    }
    return value;
}

// ---- numbers ----------------------------------------------------------------------------------------------

inline py::object number_or_none(double value) {
    return std::isnan(value) ? py::object(py::none()) : py::object(py::float_(value));
}

// ---- records ----------------------------------------------------------------------------------------------

/// How a type of member crosses: one a type, not one a member.
struct Crossing {
    py::object (*get)(const void* member, py::handle record);
    void (*set)(void* member, py::handle given, const char* name);
};

template <class M>
inline constexpr Crossing kCrossing{[](const void* member, py::handle record) -> py::object {
                                        const M& value = *static_cast<const M*>(member);
                                        if constexpr (std::is_enum_v<M>) {
                                            return text(enum_name(value));
                                        } else {
                                            return py::cast(
                                                value, py::return_value_policy::reference_internal, record);
                                        }
                                    },
                                    [](void* member, py::handle given, const char* name) {
                                        M& value = *static_cast<M*>(member);
                                        if constexpr (std::is_enum_v<M>) {
                                            value = from_name<M>(name, py::cast<std::string>(given));
                                        } else {
                                            value = py::cast<M>(given);
                                        }
                                    }};

/// A member of a record: its name, where it stands in it, how it crosses.
struct Member {
    const char* name;
    std::size_t offset;
    const Crossing* crossing;
};

/// A bound value as a value: equal, hashed and told to Dask by its state, pickled as it. `state` makes a
/// tuple of plain values and of such values of an object, None where a number is lacking; `made` takes it
/// back.
template <class T, class State, class Made>
void def_value(py::class_<T>& type, State state, Made made) {
    type.def(py::pickle([state](const py::object& self) -> py::tuple { return state(self); },
                        [made](const py::tuple& kept) -> T { return made(kept); }))
        .def("__eq__",
             [state](const py::object& self, const py::object& other) {
                 return py::isinstance<T>(other) && state(self).equal(state(other));
             })
        .def("__hash__", [state](const py::object& self) { return py::hash(state(self)); })
        .def("__dask_tokenize__", [state](const py::object& self) {
            const py::object plain = py::module_::import("dask.base").attr("normalize_token");
            return py::make_tuple(py::type::of(self).attr("__qualname__"), plain(state(self)));
        });
}

/// An item of a state, as a type of its own.
template <class M>
M held(const py::tuple& state, std::size_t place) {
    return py::cast<M>(state[place]);
}

/// The number of a state, NaN where it is None.
double number_held(const py::tuple& state, std::size_t place);

/// Set members of a record from keywords; what it has not, or cannot hold, is refused by name.
void set_members(void* record, const char* name, std::span<const Member> members, const py::kwargs& given);

/// Make members readable in Python.
void show_members(py::handle type, const std::type_info& record, std::span<const Member> members);

/// The members of a record as the state of a value: lists as tuples.
py::tuple members_state(py::handle self, std::span<const Member> members);

/// The same, taken back.
void take_state(void* record, const py::tuple& state, std::span<const Member> members);

/// A record in one line: its name and as many of its plain members as there is room for.
std::string members_shown(py::handle self, const char* name, std::span<const Member> members);

/// A record of plain members in Python: made by keywords, read, never changed. The rows must outlive the
/// module.
template <class Record>
py::class_<Record> record(py::module_& module, const char* name, std::span<const Member> members,
                          const char* doc) {
    py::class_<Record> type(module, name, doc);
    type.def(py::init([name, members](const py::kwargs& given) {
        Record out;
        set_members(&out, name, members, given);
        return out;
    }));
    show_members(type, typeid(Record), members);
    def_value<Record>(
        type, [members](py::handle self) { return members_state(self, members); },
        [members](const py::tuple& state) {
            Record out;
            take_state(&out, state, members);
            return out;
        });
    type.def("__repr__",
             [name, members](const py::object& self) { return members_shown(self, name, members); });
    return type;
}

// ---- arrays -----------------------------------------------------------------------------------------------

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

/// The common shape of arrays by NumPy's broadcasting rules; DomainError when there is none.
std::vector<py::ssize_t> broadcast_shape(const std::vector<Doubles>& arrays);

/// An array seen in a shape it broadcasts to.
Operand operand(const Doubles& array, const std::vector<py::ssize_t>& shape);

/// "raise" is true, "status" false, anything else a DomainError.
bool raises_on_error(const std::string& on_error);

/// A column of texts.
py::object text_column(const std::vector<std::string>& texts);

/// Texts by their distinct ones.
///
/// Given
///   values   a contiguous array of NumPy texts (kind U, native byte order), or a sequence of objects
/// Returned
///   (codes, texts): for each value its place among the distinct texts, which come in the order of their
///   first use; -1 for what is no text
py::tuple code_texts(const py::object& values);

}  // namespace halfnut::bind

/// The core's functions take the tables of what Python holds.
template <>
struct pybind11::detail::type_caster<halfnut::Catalogue> {
    static constexpr auto name = const_name("Catalogue");
    template <class>
    using cast_op_type = const halfnut::Catalogue&;
    bool load(handle given, bool convert) { return held_.load(given, convert); }
    explicit operator const halfnut::Catalogue&() {
        return cast_op<const halfnut::bind::SharedCatalogue&>(held_).get();
    }

   private:
    make_caster<halfnut::bind::SharedCatalogue> held_;
};
