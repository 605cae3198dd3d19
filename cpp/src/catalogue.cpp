#include "halfnut/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "halfnut/material/alloy.hpp"

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

/// The cell of a row under a column; empty where there is no such column.
std::string_view cell_of(const ParsedTable& table, const ParsedRow& row, std::string_view column) {
    const auto at = std::find(table.columns.begin(), table.columns.end(), column);
    return at == table.columns.end()
               ? std::string_view{}
               : std::string_view(row.cells[static_cast<std::size_t>(at - table.columns.begin())]);
}

/// What a row may be asked for by: its key, its name, its name with its condition.
std::vector<std::string> names_of(const ParsedTable& table, const ParsedRow& row, std::string_view key) {
    std::vector<std::string> names{std::string(cell_of(table, row, key))};
    const std::string_view name = cell_of(table, row, "name");
    if (const std::string_view condition = cell_of(table, row, "condition"); !condition.empty()) {
        names.push_back(fmt::format("{} {}", name, condition));
    }
    if (!name.empty() && names.front() != name) {
        names.emplace_back(name);
    }
    return names;
}

// What only other tables can tell of a row: names that it refers to. And figures in a wrong unit: the bounds
// are the common practice of materials, wide enough for wax and for tungsten.

template <class Row>
void check_row(const Row& /*row*/, const Catalogue& /*catalogue*/, std::vector<std::string>& /*mistakes*/) {}

void check_group(std::string_view group, const Catalogue& catalogue, std::vector<std::string>& mistakes) {
    if (group.empty() || material::find_group(catalogue, group) != nullptr) {
        return;
    }
    std::vector<std::string_view> names;
    std::string list;
    for (const material::GroupRow& row : catalogue.groups) {
        names.push_back(row.group);
        list += list.empty() ? "" : ", ";
        list += row.group;
    }
    const std::string_view near = nearest_name(group, names);
    mistakes.push_back(fmt::format("no group '{}'{}; the groups are {}", group,
                                   near.empty() ? "" : fmt::format("; did you mean '{}'?", near), list));
}

void check_alloy_id(std::string_view id, const Catalogue& catalogue, std::vector<std::string>& mistakes) {
    const auto same = [&](const material::AlloyRow& row) { return row.id == id; };
    if (id.empty() || std::any_of(catalogue.alloys.begin(), catalogue.alloys.end(), same)) {
        return;
    }
    const material::AlloyMatch match = material::match_alloy(catalogue, id);
    mistakes.push_back(fmt::format(
        "no alloy has the id '{}'{}", id,
        match.alloy == nullptr ? "" : fmt::format("; the id of that alloy is '{}'", match.alloy->id)));
}

/// Words of a cell, each one of those that the built-in alloys use.
void check_words(std::string_view column, std::string_view words, const Catalogue& catalogue,
                 std::string_view material::AlloyRow::* member, std::vector<std::string>& mistakes) {
    std::vector<std::string_view> known;
    const auto each_word = [](std::string_view text, const auto& visit) {
        while (!text.empty()) {
            const std::size_t end = std::min(text.find(' '), text.size());
            if (end > 0) {
                visit(text.substr(0, end));
            }
            text.remove_prefix(std::min(end + 1, text.size()));
        }
    };
    for (const material::AlloyRow& row : catalogue.alloys) {
        each_word(row.*member, [&](std::string_view word) { known.push_back(word); });
    }
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    each_word(words, [&](std::string_view word) {
        if (!std::binary_search(known.begin(), known.end(), word)) {
            std::string wanted = "of the words";
            for (const std::string_view one : known) {
                wanted += ' ';
                wanted += one;
            }
            mistakes.push_back(detail::must_be(column, wanted, word));
        }
    });
}

void check_row(const material::AlloyRow& row, const Catalogue& catalogue,
               std::vector<std::string>& mistakes) {
    using Row = material::AlloyRow;
    struct Bounds {
        std::string_view name;
        double Row::* member;
        double low;
        double high;
        std::string_view unit;
    };
    static constexpr std::array kBounds{
        Bounds{"hardness_hb", &Row::hardness_hb, 1, 1000, "HB"},
        Bounds{"density_kg_m3", &Row::density_kg_m3, 100, 25000, "kg/m3"},
        Bounds{"youngs_modulus_gpa", &Row::youngs_modulus_gpa, 0.01, 1200, "GPa"},
        Bounds{"yield_mpa", &Row::yield_mpa, 1, 5000, "MPa"},
        Bounds{"tensile_mpa", &Row::tensile_mpa, 1, 5000, "MPa"},
        Bounds{"kc11_n_mm2", &Row::kc11_n_mm2, 10, 10000, "N/mm2"},
        Bounds{"mc", &Row::mc, 0, 1, ""},
        Bounds{"unit_power_hp_in3_min", &Row::unit_power_hp_in3_min, 0.01, 10, "hp/(in3/min)"},
        Bounds{"unit_power_high_hp_in3_min", &Row::unit_power_high_hp_in3_min, 0.01, 10, "hp/(in3/min)"},
        Bounds{"unit_power_thickness_mm", &Row::unit_power_thickness_mm, 0.001, 5, "mm"},
        Bounds{"expansion_um_m_k", &Row::expansion_um_m_k, 0.1, 500, "um/(m K)"},
        Bounds{"conductivity_w_m_k", &Row::conductivity_w_m_k, 0.01, 1000, "W/(m K)"},
        Bounds{"specific_heat_j_kg_k", &Row::specific_heat_j_kg_k, 50, 5000, "J/(kg K)"},
    };
    for (const Bounds& bounds : kBounds) {
        const double value = row.*bounds.member;
        if (value < bounds.low || value > bounds.high) {
            mistakes.push_back(detail::must_be(bounds.name,
                                               fmt::format("{:g} to {:g}{}{}", bounds.low, bounds.high,
                                                           bounds.unit.empty() ? "" : " ", bounds.unit),
                                               fmt::format("{:g}", value)));
        }
    }
    if (std::isnan(row.kc11_n_mm2) != std::isnan(row.mc)) {
        mistakes.emplace_back("kc11_n_mm2 and mc go together: give both or neither");
    }
    check_group(row.group, catalogue, mistakes);
    check_words("hazards", row.hazards, catalogue, &Row::hazards, mistakes);
    check_words("traits", row.traits, catalogue, &Row::traits, mistakes);
}

void check_row(const material::AliasRow& row, const Catalogue& catalogue,
               std::vector<std::string>& mistakes) {
    if (row.alloy.empty()) {  // only the built-in table says what is not held
        mistakes.push_back(detail::must_be("alloy", "a value", ""));
    }
    check_alloy_id(row.alloy, catalogue, mistakes);
}

void check_row(const material::StrengthRow& row, const Catalogue& catalogue,
               std::vector<std::string>& mistakes) {
    check_alloy_id(row.alloy, catalogue, mistakes);
}

/// A key that is a group, or else an alloy's id.
void check_key(std::string_view key, const Catalogue& catalogue, std::vector<std::string>& mistakes) {
    std::vector<std::string> as_alloy;
    check_alloy_id(key, catalogue, as_alloy);
    if (!as_alloy.empty()) {
        check_group(key, catalogue, mistakes);
    }
}

void check_row(const cutting::SpeedRow& row, const Catalogue& catalogue, std::vector<std::string>& mistakes) {
    check_key(row.key, catalogue, mistakes);
}

void check_row(const cutting::ToolLifeRow& row, const Catalogue& catalogue,
               std::vector<std::string>& mistakes) {
    check_key(row.key, catalogue, mistakes);
}

/// Rows that a person asks for by one name: a built-in one does not stand in for a shop's that is refused.
template <class Row>
inline constexpr bool kAskedByName =
    Schema<Row>::key_columns == 1 &&
    std::is_same_v<std::tuple_element_t<0, decltype(row_key(Row{}))>, std::string_view> &&
    !std::is_same_v<Row, RuleRow> && !std::is_same_v<Row, material::GroupRow>;

}  // namespace

struct Overlay::Rows {
    Catalogue view;
    std::vector<SourceRow> sources;
    OwnedRows<std::remove_const_t<decltype(kTables)>>::Type rows;
    std::deque<ParsedTable> texts;  // what the rows' text points into
    std::deque<std::string> names;  // what the sources' table names and some citations point into
    std::vector<RefusedRow> refused;

    template <std::size_t I>
    bool add_to(std::string_view wanted, std::string& known) {
        constexpr auto kMember = std::get<I>(kTables);
        using Row = TableRow<std::remove_const_t<decltype(kMember)>>;
        known += known.empty() ? "" : ", ";
        known += Schema<Row>::table;
        if (wanted != Schema<Row>::table) {
            return false;
        }
        const ParsedTable& table = texts.back();
        constexpr std::size_t kPlaces =
            std::numeric_limits<std::int16_t>::max();  // the smallest type that counts rows
        if ((view.*kMember).size() + table.rows.size() > kPlaces ||
            sources.size() + table.sources.size() > kPlaces) {
            throw TableError(fmt::format("{}:1: more than {} rows or sources in all", table.name, kPlaces));
        }
        const auto first_source = static_cast<std::uint16_t>(sources.size());
        const std::string_view name = names.emplace_back(table.name);
        for (const ParsedSource& source : table.sources) {
            sources.push_back({name, source.key, SourceKind::shop, source.citation});
        }
        std::vector<RefusedRow> earlier = std::exchange(refused, {});
        std::vector<std::pair<Row, std::size_t>> sound = sound_rows<Row>(table, first_source);
        std::stable_sort(sound.begin(), sound.end(),
                         [](const auto& a, const auto& b) { return row_key(a.first) < row_key(b.first); });
        std::vector<Row> over;
        std::size_t line = 0;
        for (const auto& [row, place] : sound) {
            const ParsedRow& parsed = table.rows[place];
            if (!over.empty() && !(row_key(over.back()) < row_key(row))) {
                refuse<Row>(table, parsed, {fmt::format("the row of line {} has the same key", line)});
            } else {
                over.push_back(row);
                line = parsed.line;
            }
        }
        auto& owned = std::get<I>(rows);
        owned = merged(view.*kMember, over);
        if constexpr (kAskedByName<Row>) {
            const auto named = [](const auto& list, std::string_view key) {
                return std::any_of(list.begin(), list.end(), [&](const RefusedRow& row) {
                    return row.table == Schema<Row>::table && row.names.front() == key;
                });
            };
            for (const Row& row : over) {  // what this file puts right
                std::erase_if(earlier, [&](const RefusedRow& old) {
                    return old.table == Schema<Row>::table && old.names.front() == std::get<0>(row_key(row));
                });
            }
            if constexpr (!std::is_same_v<Row, material::AlloyRow>) {  // match_alloy() sees to those
                std::erase_if(owned,
                              [&](const Row& row) { return named(refused, std::get<0>(row_key(row))); });
            }
        }
        refused.insert(refused.begin(), std::make_move_iterator(earlier.begin()),
                       std::make_move_iterator(earlier.end()));
        view.*kMember = owned;
        view.sources = sources;
        view.refused = refused;
        return true;
    }

    /// The rows without a mistake, with their places; the others are refused.
    template <class Row>
    std::vector<std::pair<Row, std::size_t>> sound_rows(const ParsedTable& table,
                                                        std::uint16_t first_source) {
        const detail::WantedColumns wanted = wanted_columns<Row>();
        const std::vector<std::size_t> at = detail::find_columns(table, wanted);
        std::vector<std::pair<Row, std::size_t>> sound;
        for (std::size_t place = 0; place < table.rows.size(); ++place) {
            const ParsedRow& parsed = table.rows[place];
            std::vector<std::string> mistakes;
            Row row{};
            if (!parsed.mistake.empty()) {
                mistakes.push_back(parsed.mistake);
            } else {
                EmptyCell empty = EmptyCell::absent;
                if constexpr (std::is_same_v<Row, material::AlloyRow>) {
                    empty = start_like(table, parsed, row, mistakes);
                }
                for (std::string& mistake : read_row(table, parsed, at, first_source, empty, row)) {
                    mistakes.push_back(std::move(mistake));
                }
                if constexpr (std::is_same_v<Row, material::AlloyRow>) {
                    finish_like(table, parsed, first_source, row, mistakes);
                }
                for (std::size_t i = 0; i < table.columns.size(); ++i) {
                    std::string what = detail::unknown_column(table.columns[i], wanted);
                    if (!what.empty() && !parsed.cells[i].empty()) {
                        mistakes.push_back(std::move(what));
                    }
                }
                check_row(row, view, mistakes);
            }
            if (mistakes.empty()) {
                sound.emplace_back(row, place);
            } else {
                refuse<Row>(table, parsed, std::move(mistakes));
            }
        }
        return sound;
    }

    template <class Row>
    void refuse(const ParsedTable& table, const ParsedRow& row, std::vector<std::string> mistakes) {
        refused.push_back({std::string(Schema<Row>::table), fmt::format("{}:{}", table.name, row.line),
                           names_of(table, row, std::get<0>(Schema<Row>::columns).name),
                           std::move(mistakes)});
    }

    /// An alloy's row begins as the row of the alloy that it is like.
    EmptyCell start_like(const ParsedTable& table, const ParsedRow& parsed, material::AlloyRow& row,
                         std::vector<std::string>& mistakes) const {
        const std::string_view like = cell_of(table, parsed, "like");
        if (like.empty()) {
            return EmptyCell::absent;
        }
        try {
            row = material::find_alloy(view, like);
        } catch (const Error& error) {
            mistakes.push_back(fmt::format("like: {}", error.what()));
        }
        return EmptyCell::kept;
    }

    /// What a row that is like another must say itself, and where its figures come from.
    void finish_like(const ParsedTable& table, const ParsedRow& parsed, std::uint16_t first_source,
                     material::AlloyRow& row, std::vector<std::string>& mistakes) {
        const std::string_view like = cell_of(table, parsed, "like");
        if (like.empty()) {
            return;
        }
        for (const std::string_view column : {"name", "source"}) {
            if (cell_of(table, parsed, column).empty()) {
                mistakes.push_back(detail::must_be(column, "a value", ""));
            }
        }
        const auto given = [&](std::initializer_list<std::string_view> columns) {
            return std::any_of(columns.begin(), columns.end(), [&](std::string_view column) {
                return !cell_of(table, parsed, column).empty();
            });
        };
        if (!mistakes.empty()) {
            return;
        }
        const material::AlloyRow& base = material::find_alloy(view, like);
        const SourceId own = row.source;
        if (own.index >= first_source && own.index < sources.size()) {
            const std::string& citation =
                names.emplace_back(fmt::format("{}; what the row leaves out is that of {} {}",
                                               sources[own.index].citation, base.name, base.condition));
            sources.push_back({sources[own.index].table, sources[own.index].key, SourceKind::shop, citation});
            row.source = {static_cast<std::uint16_t>(sources.size() - 1)};
        }
        const auto cite = [&](std::initializer_list<std::string_view> figures, std::string_view column,
                              SourceId material::AlloyRow::* member) {
            if (given(figures) && !given({column})) {
                row.*member = own;
            }
        };
        cite({"kc11_n_mm2", "mc"}, "kc_source", &material::AlloyRow::kc_source);
        cite({"unit_power_hp_in3_min", "unit_power_high_hp_in3_min", "unit_power_thickness_mm"},
             "unit_power_source", &material::AlloyRow::unit_power_source);
        cite({"expansion_um_m_k", "conductivity_w_m_k", "specific_heat_j_kg_k"}, "thermal_source",
             &material::AlloyRow::thermal_source);
        if (!given({"note"})) {
            row.note = {};
        }
        row.like = base.id;
    }
};

Overlay::Overlay(const Catalogue& base) : rows_(std::make_unique<Rows>()) {
    rows_->view = base;
    rows_->sources.assign(base.sources.begin(), base.sources.end());
    rows_->view.sources = rows_->sources;
}

Overlay::~Overlay() = default;

void Overlay::add(std::string_view table, std::string_view text, std::string_view name,
                  std::span<const std::size_t> lines) {
    ParsedTable& parsed = rows_->texts.emplace_back(parse_table(text, name, BadRows::keep));
    for (std::size_t i = 0; i < std::min(lines.size(), parsed.rows.size()); ++i) {
        parsed.rows[i].line = lines[i];
    }
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
