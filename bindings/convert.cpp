#include "convert.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

// ---- texts and enumerations -------------------------------------------------------------------------------

void refuse_name(std::string_view argument, const std::vector<std::string_view>& allowed,
                 std::string_view given) {
    std::string list;
    for (const std::string_view spelling : allowed) {
        list += fmt::format("{}'{}'", list.empty() ? "" : ", ", spelling);
    }
    throw DomainError(fmt::format("{} must be one of {}, got '{}'", argument, list, given));
}

// ---- numbers ----------------------------------------------------------------------------------------------

double given_or_lacking(std::string_view argument, const std::optional<double>& value) {
    if (value && std::isnan(*value)) {
        throw DomainError(fmt::format("{} must be finite, got nan", argument));
    }
    return value.value_or(kNaN);
}

double given_number(const py::handle& value, const Argument& argument) {
    if (py::isinstance<py::str>(value) || py::isinstance<py::bool_>(value) ||
        !py::detail::make_caster<double>().load(value, true)) {
        throw DomainError(fmt::format("{} must be a number, got {}", argument.name,
                                      py::cast<std::string>(py::repr(value))));
    }
    const auto out = py::cast<double>(value);
    if (!std::isfinite(out)) {
        throw DomainError(argument_message(argument, out));
    }
    return out;
}

py::dict figures_by_name(std::span<const std::string_view> names, std::span<const double> values) {
    py::dict out;
    for (std::size_t i = 0; i < names.size(); ++i) {
        out[text(names[i])] = number_or_none(values[i]);
    }
    return out;
}

const material::AlloyRow& alloy_at(const Catalogue& catalogue, int place) {
    if (place < 0 || static_cast<std::size_t>(place) >= catalogue.alloys.size()) {
        throw NotTabulatedError(fmt::format("no alloy {}", place));
    }
    return catalogue.alloys[static_cast<std::size_t>(place)];
}

// ---- records ----------------------------------------------------------------------------------------------

void set_members(void* record, const char* name, std::span<const Member> members, const py::kwargs& given) {
    for (const auto& [key, value] : given) {
        const auto wanted = py::cast<std::string>(key);
        const auto found = std::find_if(members.begin(), members.end(),
                                        [&](const Member& member) { return wanted == member.name; });
        if (found == members.end()) {
            throw DomainError(fmt::format("{} has no field '{}'", name, wanted));
        }
        try {
            found->crossing->set(static_cast<char*>(record) + found->offset, value, found->name);
        } catch (const py::cast_error&) {
            throw DomainError(
                fmt::format("{}: {} cannot be {}", name, wanted, py::cast<std::string>(py::repr(value))));
        }
    }
}

void show_members(py::handle type, const std::type_info& record, std::span<const Member> members) {
    const py::handle property(reinterpret_cast<PyObject*>(&PyProperty_Type));
    for (const Member& member : members) {
        const py::cpp_function get([&member, &record](py::handle self) {
            py::detail::type_caster_generic loaded(record);
            if (!loaded.load(self, false)) {
                throw py::type_error(fmt::format("{} is read of its own record only", member.name));
            }
            return member.crossing->get(static_cast<const char*>(loaded.value) + member.offset, self);
        });
        py::setattr(type, member.name, property(get));
    }
}

double number_held(const py::tuple& state, std::size_t place) {
    const py::object value = state[place];
    return value.is_none() ? kNaN : py::cast<double>(value);
}

py::dict members_of(py::handle self, std::span<const Member> members) {
    py::dict out;
    for (const Member& member : members) {
        out[member.name] = self.attr(member.name);
    }
    return out;
}

py::tuple members_compared(py::handle self, std::span<const Member> members) {
    py::list out;
    for (const Member& member : members) {
        const py::object value = self.attr(member.name);
        if (PyList_Check(value.ptr()) != 0) {
            out.append(py::tuple(value));
        } else if (PyFloat_Check(value.ptr()) != 0) {
            out.append(number_or_none(py::cast<double>(value)));
        } else {
            out.append(value);
        }
    }
    return py::tuple(out);
}

py::tuple members_token(py::handle self, const char* name, std::span<const Member> members) {
    const py::object normalize = py::module_::import("dask.base").attr("normalize_token");
    return py::make_tuple(name, normalize(members_compared(self, members)));
}

std::string members_shown(py::handle self, const char* name, std::span<const Member> members) {
    std::string said;
    for (const Member& member : members) {
        const py::object value = self.attr(member.name);
        const bool plain = PyFloat_Check(value.ptr()) != 0 || PyLong_Check(value.ptr()) != 0 ||
                           PyUnicode_Check(value.ptr()) != 0;
        const auto shown = py::cast<std::string>(py::repr(value));
        if (plain && shown != "nan" && shown != "''" && said.size() + shown.size() < 90) {
            said += fmt::format("{}{}={}", said.empty() ? "" : ", ", member.name, shown);
        }
    }
    return fmt::format("<{} {}>", name, said);
}

// ---- arrays -----------------------------------------------------------------------------------------------

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

AnswerColumns::AnswerColumns(std::vector<py::ssize_t> shape) : shape_(std::move(shape)) {
    for (const py::ssize_t extent : shape_) {
        rows_ *= static_cast<std::size_t>(extent);
    }
}

double* AnswerColumns::figures(std::string_view name) {
    py::array_t<double> column(shape_);
    double* const data = column.mutable_data();
    std::fill_n(data, rows_, kNaN);
    out_[text(name)] = std::move(column);
    figures_.push_back(data);
    return data;
}

void AnswerColumns::figures(std::span<const std::string_view> names) {
    for (const std::string_view name : names) {
        figures(name);
    }
}

void AnswerColumns::set_figures(std::size_t row, std::span<const double> values, std::size_t from) {
    for (std::size_t i = 0; i < values.size(); ++i) {
        figures_[from + i][row] = values[i];
    }
}

void AnswerColumns::run(const std::string& on_error, std::string_view what,
                        const std::function<Status(std::size_t row, std::string& why)>& answer) {
    const bool raise = raises_on_error(on_error);
    std::uint8_t* const status = codes("status");
    std::size_t failed = 0;
    std::size_t first = 0;
    std::string why;
    {
        const py::gil_scoped_release release;
        for (std::size_t row = 0; row < rows_; ++row) {
            std::string reason;
            const Status found = answer(row, reason);
            status[row] = static_cast<std::uint8_t>(found.code);
            if (!found.ok() && failed++ == 0) {
                first = row;
                why = reason.empty() ? std::string(status_sentence(found.code)) : std::move(reason);
            }
        }
    }
    if (raise && failed > 0) {
        throw DomainError(
            fmt::format("{} at index {} ({} of {} {} failed)", why, first, failed, rows_, what));
    }
}

py::object text_column(const std::vector<std::string>& texts) {
    return py::module_::import("numpy").attr("array")(texts, py::arg("dtype") = "U");
}

}  // namespace halfnut::bind
