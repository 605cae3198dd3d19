#pragma once
/// Rows that quantities are read with: drills known by number or letter.

#include "halfnut/core/schema.hpp"

namespace halfnut {

/// A drill known by a name instead of a size.
struct DrillRow {
    std::string_view name;  ///< "1" to "97", "A" to "Z"
    double diameter_in = 0;
    SourceId source;
    std::string_view note;
};

template <>
struct Schema<DrillRow> {
    using Row = DrillRow;
    static constexpr std::string_view table = "quantity/drills";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(name), HALFNUT_REQUIRED(diameter_in),
                                               HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
