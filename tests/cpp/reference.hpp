#pragma once
// Published answers from tests/reference, read by column name.

#include <gtest/gtest.h>

#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "halfnut/core/table.hpp"

namespace halfnut::test {

/// One published row; the text is as printed.
class ReferenceRow {
   public:
    ReferenceRow(const ParsedTable& table, const ParsedRow& row) : table_(&table), row_(&row) {}

    [[nodiscard]] const std::string& text(std::string_view column) const {
        for (std::size_t i = 0; i < table_->columns.size(); ++i) {
            if (table_->columns[i] == column) {
                return row_->cells[i];
            }
        }
        throw TableError(table_->name + ": no column " + std::string(column));
    }
    [[nodiscard]] bool has(std::string_view column) const { return !text(column).empty(); }
    [[nodiscard]] double number(std::string_view column) const { return std::stod(text(column)); }
    [[nodiscard]] std::size_t line() const { return row_->line; }

   private:
    const ParsedTable* table_;
    const ParsedRow* row_;
};

/// A file of published answers, in the format of the data tables.
class Reference {
   public:
    explicit Reference(const std::string& relative) {
        std::ifstream file(std::filesystem::path(HALFNUT_REFERENCE_DIR) / relative, std::ios::binary);
        EXPECT_TRUE(file) << relative;
        const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
        table_ = parse_table(text, relative);
        for (const ParsedRow& row : table_.rows) {
            rows_.emplace_back(table_, row);
        }
    }
    Reference(const Reference&) = delete;
    Reference& operator=(const Reference&) = delete;

    [[nodiscard]] const std::vector<ReferenceRow>& rows() const { return rows_; }

   private:
    ParsedTable table_;
    std::vector<ReferenceRow> rows_;
};

}  // namespace halfnut::test
