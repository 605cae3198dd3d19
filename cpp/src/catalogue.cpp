#include "halfnut/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace halfnut {
namespace {

template <class Tables>
struct OwnedRows;

template <class... Members>
struct OwnedRows<std::tuple<Members...>> {
    using Type = std::tuple<std::vector<TableRow<Members>>...>;
};

/// Merge rows over a base, both sorted by key; a row with a base row's key replaces it.
template <class Row>
std::vector<Row> merged(std::span<const Row> base, const std::vector<Row>& over) {
    std::vector<Row> rows;
    rows.reserve(base.size() + over.size());
    auto next = over.begin();
    for (const Row& row : base) {
        while (next != over.end() && row_key(*next) < row_key(row)) {
            rows.push_back(*next++);
        }
        const bool replaced = next != over.end() && !(row_key(row) < row_key(*next));
        rows.push_back(replaced ? *next++ : row);
    }
    rows.insert(rows.end(), next, over.end());
    return rows;
}

}  // namespace

struct Overlay::Rows {
    Catalogue view;
    std::vector<SourceRow> sources;
    OwnedRows<std::remove_const_t<decltype(kTables)>>::Type rows;
    std::deque<ParsedTable> texts;  // what the rows' text points into
    std::deque<std::string> names;  // what the sources' table names point into

    template <std::size_t I>
    bool add_to(std::string_view wanted, std::string& known) {
        constexpr auto kMember = std::get<I>(kTables);
        using Row = TableRow<std::remove_const_t<decltype(kMember)>>;
        known += known.empty() ? "" : ", ";
        known += Schema<Row>::table;
        if (wanted != Schema<Row>::table) {
            return false;
        }
        const ParsedTable& parsed = texts.back();
        constexpr std::size_t kPlaces =
            std::numeric_limits<std::int16_t>::max();  // the smallest type that counts rows
        if ((view.*kMember).size() + parsed.rows.size() > kPlaces ||
            sources.size() + parsed.sources.size() > kPlaces) {
            throw TableError(fmt::format("{}:1: more than {} rows or sources in all", parsed.name, kPlaces));
        }
        const std::vector<Row> over =
            typed_rows<Row>(parsed, static_cast<std::uint16_t>(sources.size()), RowOrder::any);
        const std::string_view name = names.emplace_back(parsed.name);
        for (const ParsedSource& source : parsed.sources) {
            sources.push_back({name, source.key, SourceKind::shop, source.citation});
        }
        auto& owned = std::get<I>(rows);
        owned = merged(view.*kMember, over);
        view.*kMember = owned;
        view.sources = sources;
        return true;
    }
};

Overlay::Overlay(const Catalogue& base) : rows_(std::make_unique<Rows>()) {
    rows_->view = base;
    rows_->sources.assign(base.sources.begin(), base.sources.end());
    rows_->view.sources = rows_->sources;
}

Overlay::~Overlay() = default;

void Overlay::add(std::string_view table, std::string_view text, std::string_view name) {
    rows_->texts.push_back(parse_table(text, name));
    std::string known;
    const bool found = [&]<std::size_t... I>(std::index_sequence<I...>) {
        return (rows_->add_to<I>(table, known) || ...);
    }(std::make_index_sequence<std::tuple_size_v<std::remove_const_t<decltype(kTables)>>>{});
    if (!found) {
        throw NotTabulatedError(fmt::format("{}: no table '{}'; the tables are {}", name, table, known));
    }
}

const Catalogue& Overlay::catalogue() const noexcept {
    return rows_->view;
}

}  // namespace halfnut
