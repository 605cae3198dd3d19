#pragma once
// A table of a job's file as it was read, looked at key by key.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>

#include "halfnut/core/quantity.hpp"
#include "halfnut/core/question.hpp"

namespace halfnut::job {

/// What stands at a key of a table; nothing where it is not given.
inline const Given& at(const Given& table, std::string_view key) {
    static constexpr Given kNothing{};
    const auto found = std::find(table.keys.begin(), table.keys.end(), key);
    return found == table.keys.end() ? kNothing
                                     : table.items[static_cast<std::size_t>(found - table.keys.begin())];
}
inline bool is_given(const Given& table, std::string_view key) {
    return at(table, key).tag != Given::Tag::nothing;
}
inline double size_mm(const Given& table, std::string_view key) {
    const Given& size = at(table, key);
    return size.tag == Given::Tag::quantity ? Quantity(size.number, *size.unit).base() : kNaN;
}
inline double size_or_0(const Given& table, std::string_view key) {
    return is_given(table, key) ? size_mm(table, key) : 0.0;
}

}  // namespace halfnut::job
