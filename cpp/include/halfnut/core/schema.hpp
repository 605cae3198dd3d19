#pragma once
/// How a row's members answer to a table's columns. A row type states its columns once:
///
///     template <> struct Schema<material::AlloyRow> {
///         using Row = material::AlloyRow;
///         static constexpr std::string_view table = "material/alloys";
///         static constexpr std::size_t key_columns = 1;
///         static constexpr auto columns = std::array{HALFNUT_REQUIRED(id), HALFNUT_OPTIONAL(mc), ...};
///     };
///
/// in the order of the members. Member types: double (an empty optional cell is NaN), int, bool
/// ("yes"/"no"), std::string_view, SourceId, and enumerations of one byte with an enum_names() found by their
/// namespace. The table compiler, shop overlays, evidence and the Python catalogue read this one list, as
/// plain rows: see <halfnut/core/table_info.hpp>.

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <string_view>
#include <type_traits>
#include <utility>

#include "halfnut/core/table.hpp"

namespace halfnut {

inline constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

/// Index of a row in Catalogue::sources; an empty optional cell is past the end of any catalogue.
struct SourceId {
    std::uint16_t index = 0xffff;
    friend constexpr bool operator==(SourceId, SourceId) = default;
};

/// Printed and transcribed sources before practice before memory; a shop's own rows before all.
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

/// Spelling of each value of an enumeration that tables use; specialise beside the enumeration as
/// `constexpr auto enum_names(E) { return std::array{std::pair{E::a, "a"sv}, ...}; }`.
constexpr auto enum_names(SourceKind /*tag*/) {
    using std::string_view;
    return std::array{std::pair{SourceKind::standard, string_view("standard")},
                      std::pair{SourceKind::government, string_view("government")},
                      std::pair{SourceKind::handbook, string_view("handbook")},
                      std::pair{SourceKind::textbook, string_view("textbook")},
                      std::pair{SourceKind::paper, string_view("paper")},
                      std::pair{SourceKind::transcription, string_view("transcription")},
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

namespace detail {

/// The values of an enumeration with the names in its own text, "a, b, c".
template <class E, class Text>
constexpr auto named_values(Text /*tag*/) {
    constexpr std::string_view kText = Text{}();
    std::array<std::pair<E, std::string_view>, std::count(kText.begin(), kText.end(), ',') + 1> out{};
    std::size_t at = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const std::size_t end = std::min(kText.find(',', at), kText.size());
        out[i] = {static_cast<E>(i), kText.substr(at, end - at)};
        at = end + 2;
    }
    return out;
}

}  // namespace detail

/// An enumeration of one byte whose values are spelled as they are named.
#define HALFNUT_ENUM(E, ...)                                                                      \
    enum class E : std::uint8_t { __VA_ARGS__ };                                                  \
    constexpr auto enum_names(E) {                                                                \
        return ::halfnut::detail::named_values<E>([] { return std::string_view(#__VA_ARGS__); }); \
    }

/// A citation that rows refer to.
struct SourceRow {
    std::string_view table;  ///< the table that cites it, such as "material/alloys"
    std::string_view key;    ///< its key there, such as "S1"
    SourceKind kind{};
    std::string_view citation;
};

/// Rows of one table side by side: a view, which may name a row that is only declared.
template <class Row>
class Rows {
   public:
    constexpr Rows() noexcept = default;
    constexpr Rows(const Row* first, std::size_t count) noexcept : first_(first), count_(count) {}
    constexpr Rows(const Row* first, const Row* end) noexcept
        : Rows(first, static_cast<std::size_t>(end - first)) {}
    template <std::size_t N>
    constexpr Rows(const Row (&rows)[N]) noexcept : Rows(rows, N) {}  // NOLINT: as plain as a span

    [[nodiscard]] constexpr const Row* data() const noexcept { return first_; }
    [[nodiscard]] constexpr std::size_t size() const noexcept { return count_; }
    [[nodiscard]] constexpr bool empty() const noexcept { return count_ == 0; }
    [[nodiscard]] constexpr const Row* begin() const noexcept { return first_; }
    [[nodiscard]] constexpr const Row* end() const noexcept { return first_ + count_; }
    [[nodiscard]] constexpr const Row& operator[](std::size_t place) const noexcept { return first_[place]; }
    [[nodiscard]] constexpr const Row& front() const noexcept { return first_[0]; }
    [[nodiscard]] constexpr const Row& back() const noexcept { return first_[count_ - 1]; }

   private:
    const Row* first_ = nullptr;
    std::size_t count_ = 0;
};

/// A value of an enumeration of one byte, and how tables write it.
struct EnumSpelling {
    std::uint8_t value;
    std::string_view name;
};

/// enum_names() of an enumeration as plain rows.
template <class E>
    requires std::is_enum_v<E>
inline constexpr auto kEnumSpellings = [] {
    static_assert(sizeof(E) == 1);
    constexpr auto kNames = enum_names(E{});
    std::array<EnumSpelling, kNames.size()> out{};
    for (std::size_t i = 0; i < out.size(); ++i) {
        out[i] = {static_cast<std::uint8_t>(kNames[i].first), kNames[i].second};
    }
    return out;
}();

/// What a column's member is.
enum class CellKind : std::uint8_t { number, whole, yes_no, text, source, choice };

/// A column: its name and the member that holds its cells.
struct ColumnInfo {
    std::string_view name;
    std::size_t offset;  ///< of the member in its row
    CellKind kind;
    bool required;
    std::span<const EnumSpelling> spellings;  ///< of a choice
};

/// The columns of a row type; see the head of this file.
template <class Row>
struct Schema;

namespace detail {

template <class Member>
constexpr ColumnInfo column(std::string_view name, std::size_t offset, bool required) {
    if constexpr (std::is_same_v<Member, double>) {
        return {name, offset, CellKind::number, required, {}};
    } else if constexpr (std::is_same_v<Member, int>) {
        return {name, offset, CellKind::whole, required, {}};
    } else if constexpr (std::is_same_v<Member, bool>) {
        return {name, offset, CellKind::yes_no, required, {}};
    } else if constexpr (std::is_same_v<Member, SourceId>) {
        return {name, offset, CellKind::source, required, {}};
    } else if constexpr (std::is_enum_v<Member>) {
        return {name, offset, CellKind::choice, required, kEnumSpellings<Member>};
    } else {
        static_assert(std::is_same_v<Member, std::string_view>);
        return {name, offset, CellKind::text, required, {}};
    }
}

}  // namespace detail

/// A column of the row type that `Row` names where this is written; its member's name is the column's.
#define HALFNUT_REQUIRED(member) HALFNUT_REQUIRED_AS(#member, member)
#define HALFNUT_OPTIONAL(member) HALFNUT_OPTIONAL_AS(#member, member)
#define HALFNUT_REQUIRED_AS(name, member) \
    ::halfnut::detail::column<decltype(Row::member)>(name, offsetof(Row, member), true)
#define HALFNUT_OPTIONAL_AS(name, member) \
    ::halfnut::detail::column<decltype(Row::member)>(name, offsetof(Row, member), false)

/// Place of a column among its row's source columns; a compile error when there is no such column.
template <class Row>
consteval std::uint8_t source_place(std::string_view name) {
    std::uint8_t place = 0;
    for (const ColumnInfo& column : Schema<Row>::columns) {
        if (column.kind == CellKind::source) {
            if (column.name == name) {
                return place;
            }
            ++place;
        }
    }
    throw "no such source column";
}

}  // namespace halfnut
