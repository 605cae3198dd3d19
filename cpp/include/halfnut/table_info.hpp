#pragma once
/// Every table as data: name, columns and rows as plain bytes. For what treats all tables alike: the table
/// compiler, overlays, evidence, the Python catalogue.

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/catalogue.hpp"

namespace halfnut {

struct TableInfo {
    TableId id;
    std::string_view row_type;  ///< as C++ names it, such as "halfnut::material::AlloyRow"
    std::string_view header;    ///< that defines it, such as "material/tables.hpp"
    std::string_view member;    ///< of Catalogue
    std::string_view name;      ///< such as "material/alloys"
    std::size_t key_columns;    ///< the first columns are the key, which rows are sorted by
    std::span<const ColumnInfo> columns;
    std::size_t row_bytes;
    Rows<std::byte> (*rows)(const Catalogue&);       ///< the bytes of all rows
    void (*set)(Catalogue&, Rows<std::byte> bytes);  ///< show these rows instead

    [[nodiscard]] std::size_t size(const Catalogue& catalogue) const noexcept {
        return rows(catalogue).size() / row_bytes;
    }
    [[nodiscard]] const std::byte* row(const Catalogue& catalogue, std::size_t place) const noexcept {
        return rows(catalogue).data() + place * row_bytes;
    }
};

/// Every table, in the order of TableId.
[[nodiscard]] std::span<const TableInfo> table_infos() noexcept;

/// A table by its name; null where there is none.
[[nodiscard]] const TableInfo* find_table(std::string_view name) noexcept;

/// The names of all tables, in their order.
[[nodiscard]] std::vector<std::string_view> table_names();

template <class Cell>
[[nodiscard]] Cell cell_at(const std::byte* row, const ColumnInfo& column) noexcept {
    Cell out;
    std::memcpy(&out, row + column.offset, sizeof out);
    return out;
}

/// Call `visit` with a cell: double, int, bool, std::string_view or SourceId; of a choice, its EnumSpelling.
template <class Visit>
decltype(auto) visit_cell(const std::byte* row, const ColumnInfo& column, Visit&& visit) {
    switch (column.kind) {
        case CellKind::number:
            return visit(cell_at<double>(row, column));
        case CellKind::whole:
            return visit(cell_at<int>(row, column));
        case CellKind::yes_no:
            return visit(cell_at<bool>(row, column));
        case CellKind::source:
            return visit(cell_at<SourceId>(row, column));
        case CellKind::choice: {
            const auto value = cell_at<std::uint8_t>(row, column);
            for (const EnumSpelling& spelling : column.spellings) {
                if (spelling.value == value) {
                    return visit(spelling);
                }
            }
            return visit(EnumSpelling{value, {}});
        }
        case CellKind::text:
            break;
    }
    return visit(cell_at<std::string_view>(row, column));
}

/// Rows of one table as they are read, side by side.
class RowBuffer {
   public:
    explicit RowBuffer(std::size_t row_bytes = 1) : row_bytes_(row_bytes) {}

    [[nodiscard]] std::size_t size() const noexcept { return bytes_.size() / row_bytes_; }
    [[nodiscard]] bool empty() const noexcept { return bytes_.empty(); }
    [[nodiscard]] const std::byte* operator[](std::size_t place) const noexcept {
        return bytes_.data() + place * row_bytes_;
    }
    [[nodiscard]] const std::byte* back() const noexcept {
        return bytes_.data() + bytes_.size() - row_bytes_;
    }
    [[nodiscard]] Rows<std::byte> bytes() const noexcept { return {bytes_.data(), bytes_.size()}; }
    /// The rows by their type, which must be the table's.
    template <class Row>
    [[nodiscard]] Rows<Row> as() const noexcept {
        return {reinterpret_cast<const Row*>(bytes_.data()), size()};
    }

    void push_back(const std::byte* row) { bytes_.insert(bytes_.end(), row, row + row_bytes_); }
    void reserve(std::size_t rows) { bytes_.reserve(rows * row_bytes_); }

   private:
    std::size_t row_bytes_;
    std::vector<std::byte> bytes_;  // as well aligned as anything that is allocated
};

/// Order of two rows by their key: negative, zero or positive.
[[nodiscard]] int compare_keys(const TableInfo& table, const std::byte* a, const std::byte* b) noexcept;

/// Rows of a built-in table's text, which they point into.
///
/// Errors: TableError naming file and line for an unknown, missing or repeated column, a cell that its
/// type cannot hold, a source key that is not declared, and rows that are not sorted or not unique by key.
[[nodiscard]] RowBuffer read_rows(const TableInfo& table, const ParsedTable& text,
                                  std::uint16_t first_source);

/// Place of each of the table's columns in its text, kNoColumn where it is not there.
///
/// Errors: TableError for a column given twice.
inline constexpr auto kNoColumn = static_cast<std::size_t>(-1);
[[nodiscard]] std::vector<std::size_t> find_columns(const TableInfo& table, const ParsedTable& text);

/// What is wrong with a column's name; empty where nothing is.
[[nodiscard]] std::string unknown_column(const TableInfo& table, std::string_view column);

/// "yield_mpa must be a number, got 'x'".
[[nodiscard]] std::string must_be(std::string_view column, std::string_view wanted, std::string_view cell);

/// What an empty cell means.
enum class EmptyCell : std::uint8_t {
    absent,  ///< no value; a mistake where one is required
    kept,    ///< what the row holds already; a mistake in a key
};

/// Read a row's cells.
///
/// Given
///   table         the table
///   text          all its text
///   parsed        the row's text
///   at            place of each column, as find_columns() gives it
///   first_source  place in Catalogue::sources of the table's first
///   empty         what an empty cell means
///   row           row_bytes of them: what is read, over what they hold
/// Returned
///   every mistake, in the order of the columns
[[nodiscard]] std::vector<std::string> read_row(const TableInfo& table, const ParsedTable& text,
                                                const ParsedRow& parsed, const std::vector<std::size_t>& at,
                                                std::uint16_t first_source, EmptyCell empty, std::byte* row);

}  // namespace halfnut
