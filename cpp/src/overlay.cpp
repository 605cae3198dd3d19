#include "halfnut/overlay.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <limits>
#include <utility>

#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/table_info.hpp"

namespace halfnut {
namespace {

/// Merge rows over a base, both sorted by key; a row with a base row's key replaces it.
RowBuffer merged(const TableInfo& table, const Catalogue& base, const RowBuffer& over) {
    RowBuffer rows(table.row_bytes);
    const std::size_t size = table.size(base);
    rows.reserve(size + over.size());
    std::size_t next = 0;
    for (std::size_t i = 0; i < size; ++i) {
        const std::byte* const row = table.row(base, i);
        while (next < over.size() && compare_keys(table, over[next], row) < 0) {
            rows.push_back(over[next++]);
        }
        const bool replaced = next < over.size() && compare_keys(table, row, over[next]) >= 0;
        rows.push_back(replaced ? over[next++] : row);
    }
    while (next < over.size()) {
        rows.push_back(over[next++]);
    }
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
            mistakes.push_back(must_be(column, wanted, word));
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
            mistakes.push_back(must_be(bounds.name,
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

/// What else is wrong with a row that was read.
void check(const TableInfo& table, const std::byte* row, const Catalogue& catalogue,
           std::vector<std::string>& mistakes) {
    const auto check_as = [&]<class Row>(Row copy) {
        std::memcpy(&copy, row, sizeof copy);
        check_row(copy, catalogue, mistakes);
    };
    switch (table.id) {
        case TableId::alloys:
            return check_as(material::AlloyRow{});
        case TableId::aliases:
            return check_as(material::AliasRow{});
        case TableId::strengths:
            return check_as(material::StrengthRow{});
        case TableId::speeds:
            return check_as(cutting::SpeedRow{});
        case TableId::tool_lives:
            return check_as(cutting::ToolLifeRow{});
        default:
            return;
    }
}

/// Rows that a person asks for by one name: a built-in one does not stand in for a shop's that is refused.
bool asked_by_name(const TableInfo& table) {
    return table.key_columns == 1 && table.columns[0].kind == CellKind::text && table.id != TableId::rules &&
           table.id != TableId::groups;
}

/// The key of a row that is asked for by name.
std::string_view name_of(const TableInfo& table, const std::byte* row) {
    return cell_at<std::string_view>(row, table.columns[0]);
}

}  // namespace

struct Overlay::Tables {
    Catalogue view;
    std::vector<SourceRow> sources;
    std::vector<RowBuffer> rows{table_infos().size()};
    std::deque<ParsedTable> texts;  // what the rows' text points into
    std::deque<std::string> names;  // what the sources' table names and some citations point into
    std::vector<RefusedRow> refused;

    void add(const TableInfo& table, const ParsedTable& text) {
        constexpr std::size_t kPlaces =
            std::numeric_limits<std::int16_t>::max();  // the smallest type that counts rows
        if (table.size(view) + text.rows.size() > kPlaces || sources.size() + text.sources.size() > kPlaces) {
            throw TableError(fmt::format("{}:1: more than {} rows or sources in all", text.name, kPlaces));
        }
        const auto first_source = static_cast<std::uint16_t>(sources.size());
        const std::string_view name = names.emplace_back(text.name);
        for (const ParsedSource& source : text.sources) {
            sources.push_back({name, source.key, SourceKind::shop, source.citation});
        }
        std::vector<RefusedRow> earlier = std::exchange(refused, {});
        std::vector<SoundRow> sound = sound_rows(table, text, first_source);
        std::stable_sort(sound.begin(), sound.end(), [&](const SoundRow& a, const SoundRow& b) {
            return compare_keys(table, a.bytes.data(), b.bytes.data()) < 0;
        });
        RowBuffer over(table.row_bytes);
        std::size_t line = 0;
        for (const SoundRow& row : sound) {
            const ParsedRow& parsed = text.rows[row.place];
            if (!over.empty() && compare_keys(table, over.back(), row.bytes.data()) >= 0) {
                refuse(table, text, parsed, {fmt::format("the row of line {} has the same key", line)});
            } else {
                over.push_back(row.bytes.data());
                line = parsed.line;
            }
        }
        RowBuffer all = merged(table, view, over);
        if (asked_by_name(table)) {
            for (std::size_t i = 0; i < over.size(); ++i) {  // what this file puts right
                std::erase_if(earlier, [&](const RefusedRow& old) {
                    return old.table == table.name && old.names.front() == name_of(table, over[i]);
                });
            }
            if (table.id != TableId::alloys) {  // match_alloy() sees to those
                all = without_refused(table, all);
            }
        }
        refused.insert(refused.begin(), std::make_move_iterator(earlier.begin()),
                       std::make_move_iterator(earlier.end()));
        RowBuffer& owned = rows[static_cast<std::size_t>(table.id)];
        owned = std::move(all);
        table.set(view, owned.bytes());
        view.sources = sources;
        view.refused = refused;
    }

    /// The rows of a table asked by name, but for those whose name a refused row has.
    [[nodiscard]] RowBuffer without_refused(const TableInfo& table, const RowBuffer& all) const {
        RowBuffer out(table.row_bytes);
        for (std::size_t i = 0; i < all.size(); ++i) {
            const std::string_view name = name_of(table, all[i]);
            if (std::none_of(refused.begin(), refused.end(), [&](const RefusedRow& row) {
                    return row.table == table.name && row.names.front() == name;
                })) {
                out.push_back(all[i]);
            }
        }
        return out;
    }

    struct SoundRow {
        std::vector<std::byte> bytes;
        std::size_t place;  ///< in the table's text
    };

    /// The rows without a mistake; the others are refused.
    std::vector<SoundRow> sound_rows(const TableInfo& table, const ParsedTable& text,
                                     std::uint16_t first_source) {
        const std::vector<std::size_t> at = find_columns(table, text);
        std::vector<SoundRow> sound;
        for (std::size_t place = 0; place < text.rows.size(); ++place) {
            const ParsedRow& parsed = text.rows[place];
            std::vector<std::string> mistakes;
            std::vector<std::byte> row(table.row_bytes);
            if (!parsed.mistake.empty()) {
                mistakes.push_back(parsed.mistake);
            } else {
                mistakes = read_sound(table, text, parsed, at, first_source, row.data());
            }
            if (mistakes.empty()) {
                sound.push_back({std::move(row), place});
            } else {
                refuse(table, text, parsed, std::move(mistakes));
            }
        }
        return sound;
    }

    /// Read a row of the right length; what is wrong with it.
    std::vector<std::string> read_sound(const TableInfo& table, const ParsedTable& text,
                                        const ParsedRow& parsed, const std::vector<std::size_t>& at,
                                        std::uint16_t first_source, std::byte* row) {
        std::vector<std::string> mistakes;
        material::AlloyRow alloy;
        EmptyCell empty = EmptyCell::absent;
        if (table.id == TableId::alloys) {
            empty = start_like(text, parsed, alloy, mistakes);
            std::memcpy(row, &alloy, sizeof alloy);
        }
        for (std::string& mistake : read_row(table, text, parsed, at, first_source, empty, row)) {
            mistakes.push_back(std::move(mistake));
        }
        if (table.id == TableId::alloys) {
            std::memcpy(&alloy, row, sizeof alloy);
            finish_like(text, parsed, first_source, alloy, mistakes);
            std::memcpy(row, &alloy, sizeof alloy);
        }
        for (std::size_t i = 0; i < text.columns.size(); ++i) {
            std::string what = unknown_column(table, text.columns[i]);
            if (!what.empty() && !parsed.cells[i].empty()) {
                mistakes.push_back(std::move(what));
            }
        }
        check(table, row, view, mistakes);
        return mistakes;
    }

    void refuse(const TableInfo& table, const ParsedTable& text, const ParsedRow& row,
                std::vector<std::string> mistakes) {
        refused.push_back({std::string(table.name), fmt::format("{}:{}", text.name, row.line),
                           names_of(text, row, table.columns[0].name), std::move(mistakes)});
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
                mistakes.push_back(must_be(column, "a value", ""));
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

Overlay::Overlay(const Catalogue& base) : tables_(std::make_unique<Tables>()) {
    tables_->view = base;
    tables_->sources.assign(base.sources.begin(), base.sources.end());
    tables_->view.sources = tables_->sources;
}

Overlay::~Overlay() = default;

void Overlay::add(std::string_view table, std::string_view text, std::string_view name,
                  std::span<const std::size_t> lines) {
    ParsedTable& parsed = tables_->texts.emplace_back(parse_table(text, name, BadRows::keep));
    for (std::size_t i = 0; i < std::min(lines.size(), parsed.rows.size()); ++i) {
        parsed.rows[i].line = lines[i];
    }
    const TableInfo* const info = find_table(table);
    if (info == nullptr) {
        throw NotTabulatedError(
            fmt::format("{}: no table '{}'; the tables are {}", name, table, fmt::join(table_names(), ", ")));
    }
    tables_->add(*info, parsed);
}

const Catalogue& Overlay::catalogue() const noexcept {
    return tables_->view;
}

}  // namespace halfnut
