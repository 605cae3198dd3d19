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
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include "halfnut/bounds.hpp"
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

/// Rows of one built-in table, typed, with the text they point into.
///
/// Errors: TableError naming file and line for an unknown, missing or repeated column, a cell that its
/// type cannot hold, a source key that is not declared, and rows that are not sorted or not unique by key.
template <class Row>
std::vector<Row> typed_rows(const ParsedTable& table, std::uint16_t first_source);

namespace detail {

inline constexpr auto kAbsent = static_cast<std::size_t>(-1);

/// Names of a row's columns, and whether each must have a value.
using WantedColumns = std::vector<std::pair<std::string_view, bool>>;

[[noreturn]] void bad_table(const ParsedTable& table, std::size_t line, const std::string& what);
std::string must_be(std::string_view column, std::string_view wanted, std::string_view cell);
bool read_number(std::string_view cell, double& out);
bool read_number(std::string_view cell, int& out);
bool read_source(const ParsedTable& table, std::string_view cell, std::uint16_t first_source, SourceId& out);
std::string undeclared_source(std::string_view cell);
/// Place of each wanted column in the table, kAbsent where it is not there; a column given twice is a
/// TableError.
std::vector<std::size_t> find_columns(const ParsedTable& table, const WantedColumns& wanted);
/// What is wrong with a column's name; empty where nothing is.
std::string unknown_column(std::string_view column, const WantedColumns& wanted);
/// find_columns(), with a TableError for a column that is missing or unknown.
std::vector<std::size_t> match_columns(const ParsedTable& table, const WantedColumns& wanted);

/// Read a cell that is not empty; what is wrong with it, or an empty text.
template <class Member>
std::string read_cell(const ParsedTable& table, std::string_view cell, std::string_view name,
                      std::uint16_t first_source, Member& out) {
    if constexpr (std::is_same_v<Member, double>) {
        if (read_number(cell, out)) {
            return {};
        }
        const bool large = std::isfinite(out) && std::abs(out) > bounds::kCell;
        return must_be(name, large ? "a number of at most 1e15" : "a number", cell);
    } else if constexpr (std::is_same_v<Member, bool>) {
        out = cell == "yes";
        return out || cell == "no" ? std::string{} : must_be(name, "yes or no", cell);
    } else if constexpr (std::is_same_v<Member, int>) {
        return read_number(cell, out) ? std::string{} : must_be(name, "a whole number", cell);
    } else if constexpr (std::is_same_v<Member, SourceId>) {
        return read_source(table, cell, first_source, out) ? std::string{} : undeclared_source(cell);
    } else if constexpr (std::is_enum_v<Member>) {
        if (enum_from_name(cell, out)) {
            return {};
        }
        std::string wanted = "one of";
        for (const auto& [value, spelling] : enum_names(Member{})) {
            wanted += ' ';
            wanted += spelling;
        }
        return must_be(name, wanted, cell);
    } else {
        static_assert(std::is_same_v<Member, std::string_view>);
        out = cell;
        return {};
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

/// A row type's columns, as a table's header is compared with.
template <class Row>
detail::WantedColumns wanted_columns() {
    detail::WantedColumns wanted;
    std::apply([&](const auto&... column) { (wanted.emplace_back(column.name, column.required), ...); },
               Schema<Row>::columns);
    return wanted;
}

/// What an empty cell means.
enum class EmptyCell : std::uint8_t {
    absent,  ///< no value; a mistake where one is required
    kept,    ///< what the row holds already; a mistake in a key
};

/// Read a row's cells.
///
/// Given
///   parsed        the row's text
///   at            place of each column, as find_columns() gives it
///   first_source  place in Catalogue::sources of the table's first
///   empty         what an empty cell means
///   row           what is read, over what it holds
/// Returned
///   every mistake, in the order of the columns
template <class Row>
std::vector<std::string> read_row(const ParsedTable& table, const ParsedRow& parsed,
                                  const std::vector<std::size_t>& at, std::uint16_t first_source,
                                  EmptyCell empty, Row& row) {
    std::vector<std::string> mistakes;
    std::size_t place = 0;
    const auto read = [&](const auto& column) {
        const std::size_t i = place++;
        auto& member = row.*(column.member);
        using Member = std::remove_reference_t<decltype(member)>;
        const std::string_view cell =
            at[i] == detail::kAbsent ? std::string_view{} : std::string_view(parsed.cells[at[i]]);
        if (!cell.empty()) {
            if (std::string what = detail::read_cell(table, cell, column.name, first_source, member);
                !what.empty()) {
                mistakes.push_back(std::move(what));
            }
            return;
        }
        if (column.required && (empty == EmptyCell::absent || i < Schema<Row>::key_columns)) {
            mistakes.push_back(detail::must_be(column.name, "a value", cell));
        }
        if (empty == EmptyCell::absent) {
            if constexpr (std::is_same_v<Member, double>) {
                member = kNaN;
            } else {
                member = Member{};
            }
        }
    };
    std::apply([&](const auto&... column) { (read(column), ...); }, Schema<Row>::columns);
    return mistakes;
}

template <class Row>
std::vector<Row> typed_rows(const ParsedTable& table, std::uint16_t first_source) {
    const std::vector<std::size_t> at = detail::match_columns(table, wanted_columns<Row>());
    std::vector<Row> rows;
    for (const ParsedRow& parsed : table.rows) {
        Row row{};
        const std::vector<std::string> mistakes =
            read_row(table, parsed, at, first_source, EmptyCell::absent, row);
        if (!mistakes.empty()) {
            detail::bad_table(table, parsed.line, mistakes.front());
        }
        if (!rows.empty() && !(row_key(rows.back()) < row_key(row))) {
            detail::bad_table(table, parsed.line,
                              "rows must be sorted and unique by key (the first " +
                                  std::to_string(Schema<Row>::key_columns) + " columns)");
        }
        rows.push_back(row);
    }
    return rows;
}

}  // namespace halfnut
