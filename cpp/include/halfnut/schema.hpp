#pragma once
/// How a row's members answer to a table's columns. A row type states its columns once:
///
///     template <> struct Schema<material::AlloyRow> {
///         static constexpr std::string_view table = "material/alloys";
///         static constexpr std::size_t key_columns = 1;
///         static constexpr auto columns = std::tuple{
///             required("id", &material::AlloyRow::id),
///             optional("mc", &material::AlloyRow::mc), ...};
///     };
///
/// in the order of the members. Member types: double (an empty optional cell is NaN), int, bool
/// ("yes"/"no"), std::string_view, SourceId, and enumerations with an enum_names() found by their
/// namespace. The table compiler, shop overlays and the Python catalogue all read this one list.

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include "halfnut/table.hpp"

namespace halfnut {

inline constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

/// Index of a row in Catalogue::sources; an empty optional cell is past the end of any catalogue.
struct SourceId {
    std::uint16_t index = 0xffff;
    friend constexpr bool operator==(SourceId, SourceId) = default;
};

/// Printed sources before practice before memory; a shop's own rows before all.
constexpr int source_rank(SourceKind kind) noexcept {
    switch (kind) {
        case SourceKind::shop:
            return 0;
        case SourceKind::practice:
            return 2;
        case SourceKind::memory:
            return 3;
        default:
            return 1;
    }
}

template <class Row>
struct Schema;

template <class Row, class Member>
struct Column {
    std::string_view name;
    Member Row::* member;
    bool required;
};

template <class Row, class Member>
constexpr Column<Row, Member> required(std::string_view name, Member Row::* member) {
    return {name, member, true};
}

template <class Row, class Member>
constexpr Column<Row, Member> optional(std::string_view name, Member Row::* member) {
    return {name, member, false};
}

/// Spelling of each value of an enumeration that tables use; specialise beside the enumeration as
/// `constexpr auto enum_names(E) { return std::array{std::pair{E::a, "a"sv}, ...}; }`.
constexpr auto enum_names(SourceKind /*tag*/) {
    using std::string_view;
    return std::array{std::pair{SourceKind::standard, string_view("standard")},
                      std::pair{SourceKind::government, string_view("government")},
                      std::pair{SourceKind::handbook, string_view("handbook")},
                      std::pair{SourceKind::textbook, string_view("textbook")},
                      std::pair{SourceKind::paper, string_view("paper")},
                      std::pair{SourceKind::practice, string_view("practice")},
                      std::pair{SourceKind::memory, string_view("memory")},
                      std::pair{SourceKind::shop, string_view("shop")}};
}

template <class E>
    requires std::is_enum_v<E>
constexpr std::string_view enum_name(E value) {
    for (const auto& [candidate, name] : enum_names(value)) {
        if (candidate == value) {
            return name;
        }
    }
    return {};
}

template <class E>
    requires std::is_enum_v<E>
constexpr bool enum_from_name(std::string_view text, E& value) {
    for (const auto& [candidate, name] : enum_names(E{})) {
        if (name == text) {
            value = candidate;
            return true;
        }
    }
    return false;
}

/// A citation that rows refer to.
struct SourceRow {
    std::string_view table;  ///< the table that cites it, such as "material/alloys"
    std::string_view key;    ///< its key there, such as "S1"
    SourceKind kind{};
    std::string_view citation;
};

/// Rows of one table, typed, with the text they point into.
///
/// Errors: TableError naming file and line for an unknown, missing or repeated column, a cell that its
/// type cannot hold, a source key that is not declared, and rows that are not unique by key or, where the
/// file's own order is asked for, not sorted.
enum class RowOrder : std::uint8_t { as_filed, any };

template <class Row>
std::vector<Row> typed_rows(const ParsedTable& table, std::uint16_t first_source,
                            RowOrder order = RowOrder::as_filed);

namespace detail {

[[noreturn]] void bad_cell(const ParsedTable& table, std::size_t line, std::string_view column,
                           std::string_view cell, std::string_view wanted);
[[noreturn]] void bad_table(const ParsedTable& table, std::size_t line, const std::string& what);
double read_double(const ParsedTable& table, std::size_t line, std::string_view column,
                   std::string_view cell);
int read_int(const ParsedTable& table, std::size_t line, std::string_view column, std::string_view cell);
SourceId read_source(const ParsedTable& table, std::size_t line, std::string_view cell,
                     std::uint16_t first_source);
std::vector<std::size_t> match_columns(const ParsedTable& table,
                                       const std::vector<std::pair<std::string_view, bool>>& wanted);

template <class Member>
void read_cell(const ParsedTable& table, const ParsedRow& row, std::size_t index, std::string_view name,
               bool is_required, std::uint16_t first_source, Member& out) {
    constexpr auto kAbsent = static_cast<std::size_t>(-1);
    const std::string_view cell = index == kAbsent ? std::string_view{} : std::string_view(row.cells[index]);
    if (cell.empty()) {
        if (is_required) {
            bad_cell(table, row.line, name, cell, "a value");
        }
        if constexpr (std::is_same_v<Member, double>) {
            out = kNaN;
        } else {
            out = Member{};
        }
        return;
    }
    if constexpr (std::is_same_v<Member, double>) {
        out = read_double(table, row.line, name, cell);
    } else if constexpr (std::is_same_v<Member, bool>) {
        if (cell != "yes" && cell != "no") {
            bad_cell(table, row.line, name, cell, "yes or no");
        }
        out = cell == "yes";
    } else if constexpr (std::is_same_v<Member, int>) {
        out = read_int(table, row.line, name, cell);
    } else if constexpr (std::is_same_v<Member, SourceId>) {
        out = read_source(table, row.line, cell, first_source);
    } else if constexpr (std::is_enum_v<Member>) {
        if (!enum_from_name(cell, out)) {
            std::string wanted = "one of";
            for (const auto& [value, spelling] : enum_names(Member{})) {
                wanted += ' ';
                wanted += spelling;
            }
            bad_cell(table, row.line, name, cell, wanted);
        }
    } else {
        static_assert(std::is_same_v<Member, std::string_view>);
        out = cell;
    }
}

template <class Row, std::size_t... I>
constexpr auto key_of(const Row& row, std::index_sequence<I...> /*indices*/) {
    return std::tuple{row.*(std::get<I>(Schema<Row>::columns).member)...};
}

}  // namespace detail

/// The row's key: its first Schema<Row>::key_columns members.
template <class Row>
constexpr auto row_key(const Row& row) {
    return detail::key_of(row, std::make_index_sequence<Schema<Row>::key_columns>{});
}

template <class Row>
std::vector<Row> typed_rows(const ParsedTable& table, std::uint16_t first_source, RowOrder order) {
    std::vector<std::pair<std::string_view, bool>> wanted;
    std::apply([&](const auto&... column) { (wanted.emplace_back(column.name, column.required), ...); },
               Schema<Row>::columns);
    const std::vector<std::size_t> at = detail::match_columns(table, wanted);

    std::vector<std::pair<Row, std::size_t>> rows;  // with the line of each
    for (const ParsedRow& parsed : table.rows) {
        Row row{};
        std::size_t i = 0;
        std::apply(
            [&](const auto&... column) {
                (detail::read_cell(table, parsed, at[i++], column.name, column.required, first_source,
                                   row.*(column.member)),
                 ...);
            },
            Schema<Row>::columns);
        rows.emplace_back(row, parsed.line);
    }
    if (order == RowOrder::any) {
        std::stable_sort(rows.begin(), rows.end(),
                         [](const auto& a, const auto& b) { return row_key(a.first) < row_key(b.first); });
    }
    std::vector<Row> out;
    for (const auto& [row, line] : rows) {
        if (!out.empty() && !(row_key(out.back()) < row_key(row))) {
            detail::bad_table(
                table, line,
                std::string(order == RowOrder::any ? "rows must be" : "rows must be sorted and") +
                    " unique by key (the first " + std::to_string(Schema<Row>::key_columns) + " columns)");
        }
        out.push_back(row);
    }
    return out;
}

}  // namespace halfnut
