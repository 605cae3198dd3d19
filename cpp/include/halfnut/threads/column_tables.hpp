#pragma once
/// Rows of the table of column ends.

#include <array>
#include <cstdint>
#include <string_view>
#include <tuple>
#include <utility>

#include "halfnut/schema.hpp"

namespace halfnut::threads {

/// How the end of a column is held.
enum class ColumnEnd : std::uint8_t {
    pinned,  ///< held in place, free to turn
    fixed,   ///< held in place and in direction
    guided,  ///< held in direction, free to move sideways
    free,    ///< free to turn and to move sideways
};

constexpr auto enum_names(ColumnEnd /*tag*/) {
    using std::string_view;
    return std::array{std::pair{ColumnEnd::pinned, string_view("pinned")},
                      std::pair{ColumnEnd::fixed, string_view("fixed")},
                      std::pair{ColumnEnd::guided, string_view("guided")},
                      std::pair{ColumnEnd::free, string_view("free")}};
}

/// Effective length factor K of a pair of ends.
struct ColumnEndRow {
    ColumnEnd first{};
    ColumnEnd second{};
    double theoretical_k = 0;
    double design_k = 0;  ///< recommended where fixed ends are only nearly so
    SourceId source;
    std::string_view note;
};

}  // namespace halfnut::threads

namespace halfnut {

template <>
struct Schema<threads::ColumnEndRow> {
    using Row = threads::ColumnEndRow;
    static constexpr std::string_view table = "threads/column_ends";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("first", &Row::first),
                                               required("second", &Row::second),
                                               required("theoretical_k", &Row::theoretical_k),
                                               required("design_k", &Row::design_k),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

}  // namespace halfnut
