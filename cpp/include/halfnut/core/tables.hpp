#pragma once
/// Rows of the core: drills known by number or letter, cautions, words.

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

/// What a caution can come to: someone is hurt; work, tool or machine suffers; good to know.
HALFNUT_ENUM(Rank, danger, caution, note)

/// What a caution goes with: one operation, or the whole piece, its metal or its finish.
HALFNUT_ENUM(Scope, operation, piece)

struct CautionRow {
    std::string_view code;  ///< as enum_names() of a record's cautions has it
    Rank rank{};
    Scope scope{};
    std::string_view stands_with;  ///< operations that it goes with whatever the figures
    std::string_view text;         ///< figures stand in it as {name}
};

template <>
struct Schema<CautionRow> {
    using Row = CautionRow;
    static constexpr std::string_view table = "core/cautions";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(code), HALFNUT_REQUIRED(rank), HALFNUT_REQUIRED(scope),
                   HALFNUT_OPTIONAL(stands_with), HALFNUT_REQUIRED(text)};
};

struct WordRow {
    std::string_view list;
    std::string_view code;
    std::string_view text;  ///< figures stand in it as {name}
};

template <>
struct Schema<WordRow> {
    using Row = WordRow;
    static constexpr std::string_view table = "core/words";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(list), HALFNUT_REQUIRED(code), HALFNUT_REQUIRED(text)};
};

}  // namespace halfnut
