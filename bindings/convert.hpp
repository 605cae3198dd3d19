#pragma once
// What crosses between Python and the core, and how: shapes only, numbers are computed in the core.
//
// Rules of every binding file
// 1. Order: how a request is read; how an answer is shown; columns; bind_<name>(): classes, then functions.
// 2. An enumeration crosses by its spelling in enum_names(); from_name() is its one reader.
// 3. What is not there is NaN in the core and None in Python (number_or_none). A number that may be left out
// is
//    an optional (given_or_lacking): a NaN that was given is refused. Answers are values: nothing is changed.
// 4. An error names the argument, what it must be and what was given: "hold must be one of 'a', 'b', got
// 'c'".
//    Of a column it goes on: "at index 2 (1 of 3 elements failed)".
// 5. The interpreter lock is given away by loops over rows (ask_rows(), AnswerColumns::run, blocks of
// formulas) and
//    by the search for passes, never by a single answer. No Python object is touched without it.
// 6. A file that includes pybind11 costs seconds: the files of a room are compiled as one (CMakeLists.txt),
// so
//    their names in unnamed namespaces differ. What each record needs is a row here, not a template.

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

/// Spellings of the cautions that a record has.
template <class Caution, class Record>
std::vector<std::string_view> cautions_of(const Record& record) {
    std::vector<std::string_view> out;
    for (const auto& [caution, spelling] : enum_names(Caution{})) {
        if (record.has(caution)) {
            out.push_back(spelling);
        }
    }
    return out;
}

// ---- numbers ----------------------------------------------------------------------------------------------

inline py::object number_or_none(double value) {
    return std::isnan(value) ? py::object(py::none()) : py::object(py::float_(value));
}

/// NaN stands for "not given" in a request, so a NaN that was given is refused.
double given_or_lacking(std::string_view argument, const std::optional<double>& value);

/// A number that was given for an argument: it must be one, and finite.
double given_number(const py::handle& value, const Argument& argument);

/// Figures by their names.
py::dict figures_by_name(std::span<const std::string_view> names, std::span<const double> values);

/// The row of an alloy by its place; NotTabulatedError where there is none.
const material::AlloyRow& alloy_at(const Catalogue& catalogue, int place);

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

/// A bound value as a value: equal, hashed and told to Dask by its state, pickled as it. A state is a tuple
/// of plain values, None where a number is lacking.
template <class T>
void def_value(py::class_<T>& type, py::tuple (*state)(const T&), T (*made)(const py::tuple&)) {
    type.def(py::pickle(state, made))
        .def("__eq__",
             [state](const T& self, const py::object& other) {
                 return py::isinstance<T>(other) && state(self).equal(state(py::cast<const T&>(other)));
             })
        .def("__hash__", [state](const T& self) { return py::hash(state(self)); })
        .def("__dask_tokenize__", [state](const py::object& self) {
            return py::make_tuple(py::type::of(self).attr("__qualname__"), state(py::cast<const T&>(self)));
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

/// The members of a record by name, as set_members takes them.
py::dict members_of(py::handle self, std::span<const Member> members);

/// Members compared: lists as tuples, None where a number is lacking.
py::tuple members_compared(py::handle self, std::span<const Member> members);

/// What Dask knows a record by: Dask itself makes plain values of the members.
py::tuple members_token(py::handle self, const char* name, std::span<const Member> members);

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
    type.def(py::pickle([members](const py::object& self) { return members_of(self, members); },
                        [name, members](const py::dict& given) {
                            Record out;
                            set_members(&out, name, members, py::kwargs(given));
                            return out;
                        }))
        .def("__eq__",
             [members](const py::object& self, const py::object& other) {
                 return py::isinstance<Record>(other) &&
                        members_compared(self, members).equal(members_compared(other, members));
             })
        .def("__hash__",
             [members](const py::object& self) { return py::hash(members_compared(self, members)); })
        .def("__dask_tokenize__",
             [name, members](const py::object& self) { return members_token(self, name, members); })
        .def("__repr__",
             [name, members](const py::object& self) { return members_shown(self, name, members); });
    return type;
}

/// The method evidence(catalogue) of an answer: what each of its figures rests on.
template <class Answer>
void def_evidence(py::class_<Answer>& type, std::span<const std::string_view> figures) {
    type.def(
        "evidence",
        [figures](const Answer& self, const SharedCatalogue& catalogue) {
            return evidence_list(self.evidence.items(), figures, catalogue.get());
        },
        py::arg("catalogue"), "What each figure rests on.");
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

/// Columns of figures and of codes, in the order they are made, and the status; a row that fails keeps NaN
/// and 0.
class AnswerColumns {
   public:
    explicit AnswerColumns(std::size_t rows) : shape_{static_cast<py::ssize_t>(rows)}, rows_(rows) {}
    /// A row is an element of this shape.
    explicit AnswerColumns(std::vector<py::ssize_t> shape);

    /// A column of figures.
    double* figures(std::string_view name);
    /// Several columns of figures; figure() writes to them by their places.
    void figures(std::span<const std::string_view> names);
    void figure(std::size_t row, std::size_t column, double value) { figures_[column][row] = value; }
    void set_figures(std::size_t row, std::span<const double> values, std::size_t from = 0);
    /// A column of small whole numbers.
    template <class Code = std::uint8_t>
    Code* codes(std::string_view name) {
        py::array_t<Code> column(shape_);
        Code* const data = column.mutable_data();
        std::fill_n(data, rows_, Code{0});
        out_[text(name)] = std::move(column);
        return data;
    }
    /// Keep a column's place for what is made of Python objects afterwards.
    void keep_place(std::string_view name) { out_[text(name)] = py::none(); }

    /// Answer each row without the interpreter lock. `answer(row, why)` fills a row and gives its status;
    /// `what` are the rows of an error's message. Status columns or the first error, as on_error says.
    void run(const std::string& on_error, std::string_view what,
             const std::function<Status(std::size_t row, std::string& why)>& answer);

    [[nodiscard]] py::dict& dict() noexcept { return out_; }

   private:
    std::vector<py::ssize_t> shape_;
    std::size_t rows_ = 1;
    py::dict out_;
    std::vector<double*> figures_;
};

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
