#include "halfnut/evidence.hpp"

#include <fmt/format.h>

#include <cmath>

#include "halfnut/catalogue.hpp"
#include "halfnut/table_info.hpp"

namespace halfnut {
namespace {

struct CellText {
    std::string operator()(double cell) const { return std::isnan(cell) ? "-" : fmt::format("{}", cell); }
    std::string operator()(int cell) const { return fmt::format("{}", cell); }
    std::string operator()(bool cell) const { return cell ? "yes" : "no"; }
    std::string operator()(std::string_view cell) const { return std::string(cell); }
    std::string operator()(SourceId cell) const { return fmt::format("{}", cell.index); }
    std::string operator()(const EnumSpelling& cell) const { return std::string(cell.name); }
};

/// The row's source in the given place among its source columns.
SourceId row_source(const TableInfo& table, const std::byte* row, std::uint8_t place) {
    std::uint8_t at = 0;
    for (const ColumnInfo& column : table.columns) {
        if (column.kind == CellKind::source && at++ == place) {
            return cell_at<SourceId>(row, column);
        }
    }
    return {};
}

/// The row's table with its key cells, and its source.
void describe_row(RowRef ref, const Catalogue& catalogue, std::string& text, SourceId& source) {
    const TableInfo& table = table_infos()[ref.table];
    if (ref.row >= table.size(catalogue)) {
        return;
    }
    const std::byte* const row = table.row(catalogue, ref.row);
    text = table.name;
    for (const ColumnInfo& column : table.columns.first(table.key_columns)) {
        text += ' ';
        text += visit_cell(row, column, CellText{});
    }
    source = row_source(table, row, ref.source);
}

}  // namespace

EvidenceText evidence_text(const EvidenceItem& item, std::span<const std::string_view> figures,
                           const Catalogue& catalogue) {
    EvidenceText text;
    text.figure = item.figure < figures.size() ? std::string(figures[item.figure]) : std::string();
    SourceId source{};
    const RuleId id = item.rule;
    if (id.domain < catalogue.rule_starts.size()) {
        const RuleRow& rule = catalogue.rules[catalogue.rule_starts[id.domain] + id.place];
        text.rule = rule.statement;
        text.rule_id = rule.id;
        source = rule.source;
    }
    if (!item.row.empty()) {
        describe_row(item.row, catalogue, text.row, source);
    }
    if (source.index < catalogue.sources.size()) {
        const SourceRow& row = catalogue.sources[source.index];
        text.source = row.citation;
        text.kind =
            row.kind == SourceKind::practice ? "common practice" : std::string(source_kind_name(row.kind));
    }
    return text;
}

}  // namespace halfnut
