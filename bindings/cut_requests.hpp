#pragma once
// How a request for a cut comes in by names and numbers, shared by the bindings of cuts.

#include <array>
#include <string>

#include "convert.hpp"
#include "halfnut/cutting/cut.hpp"

namespace halfnut::bind {

inline cutting::Work work_of(int alloy, const py::object& hardness_hb) {
    return {alloy < 0 ? cutting::kNoAlloy : static_cast<std::uint16_t>(alloy),
            hardness_hb.is_none() ? kNaN : given_number(hardness_hb, positive("hardness_hb", "HB"))};
}

/// Set a request's numbers by their names; None is not given.
template <class Request, std::size_t N>
void set_numbers(Request& request, const py::dict& numbers,
                 const std::array<cutting::RequestArgument<Request>, N>& arguments) {
    for (const auto& [key, value] : numbers) {
        const auto name = py::cast<std::string>(key);
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
py::list limit_tuples(const Limits& limits) {
    py::list out;
    for (const cutting::Limit& limit : limits) {
        out.append(py::make_tuple(enum_name(limit.code), limit.value, limit.limit, limit.slack()));
    }
    return out;
}

}  // namespace halfnut::bind
