#pragma once
// Columns of threads, and the names that threads are asked about by.

#include <fmt/format.h>
#include <pybind11/pybind11.h>

#include <string>
#include <string_view>

#include "halfnut/error.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::bind {

/// Columns in, columns out: limits, fits, sizes over wires, verdicts, limits before coating.
void bind_thread_columns(pybind11::module_& module);

template <class E>
E from_name(std::string_view argument, const std::string& name) {
    E value{};
    if (!enum_from_name(name, value)) {
        std::string list;
        for (const auto& [candidate, spelling] : enum_names(E{})) {
            list += list.empty() ? "" : ", ";
            list += spelling;
        }
        throw DomainError(fmt::format("{} must be one of {}, got '{}'", argument, list, name));
    }
    return value;
}

inline threads::UnifiedRule rule_from(const std::string& name) {
    if (name != "printed" && name != "formula") {
        throw DomainError(fmt::format("rule must be 'printed' or 'formula', got '{}'", name));
    }
    return name == "formula" ? threads::UnifiedRule::formula : threads::UnifiedRule::printed;
}

inline threads::Side side_from(const std::string& name) {
    if (name != "external" && name != "internal") {
        throw DomainError(fmt::format("side must be 'external' or 'internal', got '{}'", name));
    }
    return name == "external" ? threads::Side::external : threads::Side::internal;
}

}  // namespace halfnut::bind
