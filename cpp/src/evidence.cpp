#include "halfnut/evidence.hpp"

#include <fmt/format.h>

#include "halfnut/catalogue.hpp"

namespace halfnut {
namespace {

std::string cell_text(std::string_view cell) {
    return std::string(cell);
}
[[maybe_unused]] std::string cell_text(double cell) {
    return std::isnan(cell) ? "-" : fmt::format("{}", cell);
}
[[maybe_unused]] std::string cell_text(int cell) {
    return fmt::format("{}", cell);
}
template <class E>
    requires std::is_enum_v<E>
std::string cell_text(E cell) {
    return std::string(enum_name(cell));
}

/// The row's source in the given place among its source columns.
template <class Row>
SourceId row_source(const Row& row, std::uint8_t place) {
    SourceId found{};
    std::uint8_t at = 0;
    const auto visit = [&]<class Member>(const Column<Row, Member>& column) {
        if constexpr (std::is_same_v<Member, SourceId>) {
            if (at++ == place) {
                found = row.*(column.member);
            }
        }
    };
    std::apply([&](const auto&... column) { (visit(column), ...); }, Schema<Row>::columns);
    return found;
}

/// The row's table with its key cells, and its source.
template <std::size_t I = 0>
bool describe_row(RowRef ref, const Catalogue& catalogue, std::string& text, SourceId& source) {
    if constexpr (I < std::tuple_size_v<std::remove_const_t<decltype(kTables)>>) {
        constexpr auto kMember = std::get<I>(kTables);
        using Row = TableRow<std::remove_const_t<decltype(kMember)>>;
        if (ref.table != I) {
            return describe_row<I + 1>(ref, catalogue, text, source);
        }
        const std::span<const Row> rows = catalogue.*kMember;
        if (ref.row >= rows.size()) {
            return false;
        }
        const Row& row = rows[ref.row];
        text = Schema<Row>::table;
        std::apply([&](const auto&... cell) { ((text += ' ', text += cell_text(cell)), ...); }, row_key(row));
        source = row_source(row, ref.source);
        return true;
    } else {
        return false;
    }
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
