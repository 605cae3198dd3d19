#pragma once
// How a request for a cut comes in by names and numbers, shared by the bindings of cuts.

#include <pybind11/pybind11.h>

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "halfnut/core/level1.hpp"
#include "halfnut/cutting/cut.hpp"

namespace halfnut::bind {

template <class E>
E from_name(const std::string& text, const char* what) {
    E value{};
    if (!enum_from_name(text, value)) {
        std::string allowed;
        for (const auto& [candidate, spelling] : enum_names(E{})) {
            allowed += (allowed.empty() ? "'" : ", '") + std::string(spelling) + "'";
        }
        throw DomainError(std::string(what) + " must be one of " + allowed + ", got '" + text + "'");
    }
    return value;
}

/// A number that was given for an argument: it must be one, and none that stands for what is not given.
inline double given_number(const pybind11::handle& value, const Argument& argument) {
    double out = kNaN;
    if (pybind11::isinstance<pybind11::str>(value) || pybind11::isinstance<pybind11::bool_>(value) ||
        !pybind11::detail::make_caster<double>().load(value, true)) {
        throw DomainError(std::string(argument.name) + " must be a number, got " +
                          pybind11::cast<std::string>(pybind11::repr(value)));
    }
    out = pybind11::cast<double>(value);
    if (!std::isfinite(out)) {
        throw DomainError(argument_message(argument, out));
    }
    return out;
}

inline cutting::Work work_of(int alloy, const pybind11::object& hardness_hb) {
    return {alloy < 0 ? cutting::kNoAlloy : static_cast<std::uint16_t>(alloy),
            hardness_hb.is_none() ? kNaN : given_number(hardness_hb, positive("hardness_hb", "HB"))};
}

/// Set a request's numbers by their names; None is not given.
template <class Request, std::size_t N>
void set_numbers(Request& request, const pybind11::dict& numbers,
                 const std::array<cutting::RequestArgument<Request>, N>& arguments) {
    for (const auto& [key, value] : numbers) {
        const auto name = pybind11::cast<std::string>(key);
        bool known = false;
        for (const cutting::RequestArgument<Request>& at : arguments) {
            if (at.argument.name == name) {
                known = true;
                if (!value.is_none()) {
                    request.*(at.member) = given_number(value, at.argument);
                }
            }
        }
        if (!known) {
            throw DomainError("no argument '" + name + "'");
        }
    }
}

/// (limit, value, bound, slack) each.
template <class Limits>
pybind11::list limit_tuples(const Limits& limits) {
    pybind11::list out;
    for (const cutting::Limit& limit : limits) {
        out.append(pybind11::make_tuple(std::string(enum_name(limit.code)), limit.value, limit.limit,
                                        limit.slack()));
    }
    return out;
}

}  // namespace halfnut::bind
