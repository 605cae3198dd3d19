#include "convert.hpp"

#include <fmt/format.h>

#include <algorithm>

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

py::tuple members_state(py::handle self, std::span<const Member> members) {
    py::tuple out(members.size());
    for (std::size_t i = 0; i < members.size(); ++i) {
        const py::object value = self.attr(members[i].name);
        out[i] = PyList_Check(value.ptr()) != 0    ? py::tuple(value)
                 : PyFloat_Check(value.ptr()) != 0 ? number_or_none(py::cast<double>(value))
                                                   : value;
    }
    return out;
}

void take_state(void* record, const py::tuple& state, std::span<const Member> members) {
    for (std::size_t i = 0; i < members.size(); ++i) {
        const py::object value = state[i];
        members[i].crossing->set(static_cast<char*>(record) + members[i].offset,
                                 value.is_none() ? py::object(py::float_(kNaN)) : value, members[i].name);
    }
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

py::object text_column(const std::vector<std::string>& texts) {
    return py::module_::import("numpy").attr("array")(texts, py::arg("dtype") = "U");
}

}  // namespace halfnut::bind
