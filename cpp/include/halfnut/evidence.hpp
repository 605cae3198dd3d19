#pragma once
/// What a number rests on: for each figure of a record the rule it was computed by and, where there is
/// one, the table row it was read from. Kept as small integers into constexpr registries; text is made
/// only when someone asks.

#include <array>
#include <cstdint>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>

#include "halfnut/schema.hpp"

namespace halfnut {

struct Catalogue;

/// A rule: a formula, a rounding rule, a rule of thumb, with its source. Tables: <domain>/rules.csv.
struct RuleRow {
    std::string_view id;         ///< an identifier; C++ code names it <domain>::rule::<id>
    std::string_view statement;  ///< the formula or the rule in plain symbols
    SourceId source;
    std::string_view note;
};

template <>
struct Schema<RuleRow> {
    using Row = RuleRow;
    static constexpr std::string_view table = "rules";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(id), HALFNUT_REQUIRED(statement),
                                               HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

/// A row of Catalogue::rules: the place of its domain in Catalogue::rule_starts, and its place in the domain.
struct RuleId {
    std::uint8_t domain = 0;
    std::uint16_t place = 0;
    friend constexpr bool operator==(RuleId, RuleId) = default;
};

/// A row of one of the catalogue's tables: which table (its TableId) and which row.
struct RowRef {
    static constexpr std::uint8_t kNone = 0xff;
    std::uint8_t table = kNone;
    std::uint16_t row = 0;
    std::uint8_t source = 0;  ///< which of the row's source columns is cited, counted from 0

    [[nodiscard]] constexpr bool empty() const noexcept { return table == kNone; }
    friend constexpr bool operator==(RowRef, RowRef) = default;
};

struct EvidenceItem {
    std::uint8_t figure = 0;  ///< place in the record's own list of figures
    RuleId rule;
    RowRef row;
};

/// A record's evidence: at most Capacity items, no allocation. Evidence that did not fit is not read at all,
/// rather than in part: items() throws.
template <std::size_t Capacity>
class Evidence {
   public:
    constexpr void note(std::uint8_t figure, RuleId rule, RowRef row = {}) noexcept {
        if (count_ < Capacity) {
            items_[count_] = {figure, rule, row};
        }
        ++count_;
    }
    [[nodiscard]] constexpr std::span<const EvidenceItem> items() const {
        if (count_ > Capacity) {
            throw std::length_error("a record has more evidence than it has room for");
        }
        return {items_.data(), count_};
    }

   private:
    std::array<EvidenceItem, Capacity> items_{};
    std::size_t count_ = 0;
};

/// Place of a figure in a record's list of figures; a compile error when it is not there.
template <std::size_t N>
consteval std::uint8_t figure_index(const std::array<std::string_view, N>& figures, std::string_view name) {
    for (std::size_t i = 0; i < N; ++i) {
        if (figures[i] == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    throw "no such figure";
}

/// Evidence as a person reads it.
struct EvidenceText {
    std::string figure;   ///< the record's key, such as "cutting_force_n"
    std::string rule;     ///< the rule's statement
    std::string rule_id;  ///< such as "kienzle_force"
    std::string row;      ///< the table and its key cells, such as "material/alloys A96061"; empty if none
    std::string source;   ///< the citation of the row where there is one, else of the rule
    std::string kind;     ///< that citation's kind: "standard", ..., "common practice", "memory", "shop"
};

/// Make the text of one item. Shapes: `figures` is the record's own list.
[[nodiscard]] EvidenceText evidence_text(const EvidenceItem& item, std::span<const std::string_view> figures,
                                         const Catalogue& catalogue);

}  // namespace halfnut
