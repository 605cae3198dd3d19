#pragma once
/// Rows of the table of column ends.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

#include "halfnut/schema.hpp"
#include "halfnut/threads/kinds.hpp"

namespace halfnut::threads {

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
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(first),    HALFNUT_REQUIRED(second), HALFNUT_REQUIRED(theoretical_k),
                   HALFNUT_REQUIRED(design_k), HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
