#include "halfnut/core/table_info.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/core/tables.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/fits/tables.hpp"
#include "halfnut/job/tables.hpp"
#include "halfnut/knurls/tables.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/column_tables.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/gauging_tables.hpp"
#include "halfnut/threads/hole_tables.hpp"
#include "halfnut/threads/joint_tables.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut {
namespace {

template <class Row, Rows<Row> Catalogue::* kMember>
constexpr TableInfo table_info(TableId id, std::string_view row_type, std::string_view header,
                               std::string_view member) {
    static_assert(std::is_trivially_copyable_v<Row> && alignof(Row) <= alignof(std::max_align_t));
    return {id,
            row_type,
            header,
            member,
            Schema<Row>::table,
            Schema<Row>::key_columns,
            Schema<Row>::columns,
            sizeof(Row),
            [](const Catalogue& catalogue) {
                const Rows<Row> rows = catalogue.*kMember;
                return Rows<std::byte>(reinterpret_cast<const std::byte*>(rows.data()),
                                       rows.size() * sizeof(Row));
            },
            [](Catalogue& catalogue, Rows<std::byte> bytes) {
                catalogue.*kMember = {reinterpret_cast<const Row*>(bytes.data()), bytes.size() / sizeof(Row)};
            }};
}

constexpr TableInfo kInfos[]{
#define HALFNUT_TABLE(space, header, member, row) \
    table_info<space::row, &Catalogue::member>(TableId::member, #space "::" #row, header, #member),
    HALFNUT_TABLES(HALFNUT_TABLE)
#undef HALFNUT_TABLE
};

[[noreturn]] void bad_table(const ParsedTable& text, std::size_t line, const std::string& what) {
    throw TableError(fmt::format("{}:{}: {}", text.name, line, what));
}

/// The whole of a cell as a number.
template <class Number>
bool read_whole(std::string_view cell, Number& out) {
    const char* const last = cell.data() + cell.size();
    std::from_chars_result found{};
    if constexpr (std::is_same_v<Number, double>) {
        found = read_number(cell.data(), last, out);
    } else {
        found = std::from_chars(cell.data(), last, out);
    }
    const auto [end, error] = found;
    return error == std::errc{} && end == cell.data() + cell.size();
}

template <class Cell>
void put(std::byte* row, const ColumnInfo& column, Cell cell) {
    std::memcpy(row + column.offset, &cell, sizeof cell);
}

/// Read a cell that is not empty; what is wrong with it, or an empty text.
std::string read_cell(const ParsedTable& text, std::string_view cell, std::uint16_t first_source,
                      const ColumnInfo& column, std::byte* row) {
    switch (column.kind) {
        case CellKind::number: {
            double value = 0;
            const bool read = read_whole(cell, value);
            const bool large = std::isfinite(value) && std::abs(value) > bounds::kCell;
            put(row, column, value);
            return read && std::abs(value) <= bounds::kCell
                       ? std::string{}
                       : must_be(column.name, large ? "a number of at most 1e15" : "a number", cell);
        }
        case CellKind::whole: {
            int value = 0;
            const bool read = read_whole(cell, value);
            put(row, column, value);
            return read ? std::string{} : must_be(column.name, "a whole number", cell);
        }
        case CellKind::yes_no:
            put(row, column, cell == "yes");
            return cell == "yes" || cell == "no" ? std::string{} : must_be(column.name, "yes or no", cell);
        case CellKind::source: {
            const auto declared =
                std::find_if(text.sources.begin(), text.sources.end(),
                             [&](const ParsedSource& source) { return source.key == cell; });
            if (declared == text.sources.end()) {
                return fmt::format("source '{}' is not declared; declare it as '# {}: kind | citation'", cell,
                                   is_source_key(cell) ? cell : "S1");
            }
            put(row, column,
                SourceId{static_cast<std::uint16_t>(first_source + (declared - text.sources.begin()))});
            return {};
        }
        case CellKind::choice: {
            std::string wanted = "one of";
            for (const EnumSpelling& spelling : column.spellings) {
                if (spelling.name == cell) {
                    put(row, column, spelling.value);
                    return {};
                }
                wanted += ' ';
                wanted += spelling.name;
            }
            return must_be(column.name, wanted, cell);
        }
        case CellKind::text:
            break;
    }
    put(row, column, cell);
    return {};
}

void put_absent(const ColumnInfo& column, std::byte* row) {
    switch (column.kind) {
        case CellKind::number:
            return put(row, column, kNaN);
        case CellKind::whole:
            return put(row, column, 0);
        case CellKind::yes_no:
            return put(row, column, false);
        case CellKind::source:
            return put(row, column, SourceId{});
        case CellKind::choice:
            return put(row, column, std::uint8_t{});
        case CellKind::text:
            return put(row, column, std::string_view{});
    }
}

std::vector<std::size_t> match_columns(const TableInfo& table, const ParsedTable& text) {
    std::vector<std::size_t> at = find_columns(table, text);
    for (std::size_t i = 0; i < at.size(); ++i) {
        if (at[i] == kNoColumn && table.columns[i].required) {
            bad_table(text, 1, fmt::format("no column '{}'", table.columns[i].name));
        }
    }
    for (const std::string& column : text.columns) {
        if (const std::string what = unknown_column(table, column); !what.empty()) {
            bad_table(text, 1, what);
        }
    }
    return at;
}

/// -1, 0 or 1; 0 where neither is less.
template <class Cell>
int order(const Cell& a, const Cell& b) {
    return a < b ? -1 : b < a ? 1 : 0;
}

}  // namespace

std::span<const TableInfo> table_infos() noexcept {
    return kInfos;
}

const TableInfo* find_table(std::string_view name) noexcept {
    const auto* const found = std::find_if(std::begin(kInfos), std::end(kInfos),
                                           [&](const TableInfo& info) { return info.name == name; });
    return found == std::end(kInfos) ? nullptr : found;
}

std::vector<std::string_view> table_names() {
    std::vector<std::string_view> names;
    for (const TableInfo& info : kInfos) {
        names.push_back(info.name);
    }
    return names;
}

int compare_keys(const TableInfo& table, const std::byte* a, const std::byte* b) noexcept {
    for (const ColumnInfo& column : table.columns.first(table.key_columns)) {
        const auto of = [&]<class Cell>(Cell /*type*/) {
            return order(cell_at<Cell>(a, column), cell_at<Cell>(b, column));
        };
        int found = 0;
        switch (column.kind) {
            case CellKind::number:
                found = of(double{});
                break;
            case CellKind::whole:
                found = of(int{});
                break;
            case CellKind::yes_no:
                found = of(bool{});
                break;
            case CellKind::source:
                found = order(cell_at<SourceId>(a, column).index, cell_at<SourceId>(b, column).index);
                break;
            case CellKind::choice:
                found = of(std::uint8_t{});
                break;
            case CellKind::text:
                found = of(std::string_view{});
                break;
        }
        if (found != 0) {
            return found;
        }
    }
    return 0;
}

std::string must_be(std::string_view column, std::string_view wanted, std::string_view cell) {
    return fmt::format("{} must be {}, got '{}'", column, wanted, cell);
}

std::vector<std::size_t> find_columns(const TableInfo& table, const ParsedTable& text) {
    std::vector<std::size_t> at;
    for (const ColumnInfo& column : table.columns) {
        const auto found = std::find(text.columns.begin(), text.columns.end(), column.name);
        at.push_back(found == text.columns.end() ? kNoColumn
                                                 : static_cast<std::size_t>(found - text.columns.begin()));
    }
    for (const std::string& column : text.columns) {
        if (std::count(text.columns.begin(), text.columns.end(), column) > 1) {
            bad_table(text, 1, fmt::format("column '{}' is given twice", column));
        }
    }
    return at;
}

std::string unknown_column(const TableInfo& table, std::string_view column) {
    std::vector<std::string_view> names;
    for (const ColumnInfo& known : table.columns) {
        if (known.name == column) {
            return {};
        }
        names.push_back(known.name);
    }
    const std::string_view near = nearest_name(column, names);
    return fmt::format("unknown column '{}'{}", column,
                       near.empty() ? "" : fmt::format("; did you mean '{}'?", near));
}

std::vector<std::string> read_row(const TableInfo& table, const ParsedTable& text, const ParsedRow& parsed,
                                  const std::vector<std::size_t>& at, std::uint16_t first_source,
                                  EmptyCell empty, std::byte* row) {
    std::vector<std::string> mistakes;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const ColumnInfo& column = table.columns[i];
        const std::string_view cell =
            at[i] == kNoColumn ? std::string_view{} : std::string_view(parsed.cells[at[i]]);
        if (!cell.empty()) {
            if (std::string what = read_cell(text, cell, first_source, column, row); !what.empty()) {
                mistakes.push_back(std::move(what));
            }
            continue;
        }
        if (column.required && (empty == EmptyCell::absent || i < table.key_columns)) {
            mistakes.push_back(must_be(column.name, "a value", cell));
        }
        if (empty == EmptyCell::absent) {
            put_absent(column, row);
        }
    }
    return mistakes;
}

RowBuffer read_rows(const TableInfo& table, const ParsedTable& text, std::uint16_t first_source) {
    const std::vector<std::size_t> at = match_columns(table, text);
    RowBuffer rows(table.row_bytes);
    std::vector<std::byte> row(table.row_bytes);
    for (const ParsedRow& parsed : text.rows) {
        const std::vector<std::string> mistakes =
            read_row(table, text, parsed, at, first_source, EmptyCell::absent, row.data());
        if (!mistakes.empty()) {
            bad_table(text, parsed.line, mistakes.front());
        }
        if (!rows.empty() && compare_keys(table, rows.back(), row.data()) >= 0) {
            bad_table(text, parsed.line,
                      fmt::format("rows must be sorted and unique by key (the first {} columns)",
                                  table.key_columns));
        }
        rows.push_back(row.data());
    }
    return rows;
}

}  // namespace halfnut
