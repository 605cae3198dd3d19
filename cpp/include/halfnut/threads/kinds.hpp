#pragma once
/// Kinds of tolerance position, series, side, coating, load and column end.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

namespace halfnut::threads {

/// Tolerance position of an ISO metric thread: lower case external, upper case internal.
enum class Position : std::uint8_t { a, b, c, d, e, f, g, h, az, G, H, AZ, AX };

constexpr auto enum_names(Position /*tag*/) {
    using std::pair;
    using std::string_view;
    return std::array{pair{Position::a, string_view("a")},   pair{Position::b, string_view("b")},
                      pair{Position::c, string_view("c")},   pair{Position::d, string_view("d")},
                      pair{Position::e, string_view("e")},   pair{Position::f, string_view("f")},
                      pair{Position::g, string_view("g")},   pair{Position::h, string_view("h")},
                      pair{Position::az, string_view("az")}, pair{Position::G, string_view("G")},
                      pair{Position::H, string_view("H")},   pair{Position::AZ, string_view("AZ")},
                      pair{Position::AX, string_view("AX")}};
}

constexpr bool is_internal(Position position) noexcept {
    return position >= Position::G;
}

enum class IsoSeries : std::uint8_t { coarse, fine };

constexpr auto enum_names(IsoSeries /*tag*/) {
    using std::string_view;
    return std::array{std::pair{IsoSeries::coarse, string_view("coarse")},
                      std::pair{IsoSeries::fine, string_view("fine")}};
}

/// Series of a Unified thread; `un` holds every constant-pitch series.
enum class UnifiedSeries : std::uint8_t { unc, unf, unef, un, uns };

constexpr auto enum_names(UnifiedSeries /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{UnifiedSeries::unc, string_view("UNC")}, std::pair{UnifiedSeries::unf, string_view("UNF")},
        std::pair{UnifiedSeries::unef, string_view("UNEF")}, std::pair{UnifiedSeries::un, string_view("UN")},
        std::pair{UnifiedSeries::uns, string_view("UNS")}};
}

enum class Side : std::uint8_t { external, internal };

constexpr auto enum_names(Side /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Side::external, string_view("external")},
                      std::pair{Side::internal, string_view("internal")}};
}

enum class CoatingProcess : std::uint8_t { anodise, plating, conversion };

constexpr auto enum_names(CoatingProcess /*tag*/) {
    using std::string_view;
    return std::array{std::pair{CoatingProcess::anodise, string_view("anodise")},
                      std::pair{CoatingProcess::plating, string_view("plating")},
                      std::pair{CoatingProcess::conversion, string_view("conversion")}};
}

/// What a coating goes on.
enum class CoatingBase : std::uint8_t { any, aluminium, steel, titanium };

constexpr auto enum_names(CoatingBase /*tag*/) {
    using std::string_view;
    return std::array{std::pair{CoatingBase::any, string_view("any")},
                      std::pair{CoatingBase::aluminium, string_view("aluminium")},
                      std::pair{CoatingBase::steel, string_view("steel")},
                      std::pair{CoatingBase::titanium, string_view("titanium")}};
}

enum class Galling : std::uint8_t { unknown, low, moderate, high, severe };

constexpr auto enum_names(Galling /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{Galling::unknown, string_view("unknown")}, std::pair{Galling::low, string_view("low")},
        std::pair{Galling::moderate, string_view("moderate")}, std::pair{Galling::high, string_view("high")},
        std::pair{Galling::severe, string_view("severe")}};
}

enum class Loading : std::uint8_t { shock, steady };

constexpr auto enum_names(Loading /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Loading::shock, string_view("shock")},
                      std::pair{Loading::steady, string_view("steady")}};
}

/// How the end of a column is held.
enum class ColumnEnd : std::uint8_t {
    pinned,  ///< held in place, free to turn
    fixed,   ///< held in place and in direction
    guided,  ///< held in direction, free to move sideways
    free,    ///< free to turn and to move sideways
};

constexpr auto enum_names(ColumnEnd /*tag*/) {
    using std::string_view;
    return std::array{std::pair{ColumnEnd::pinned, string_view("pinned")},
                      std::pair{ColumnEnd::fixed, string_view("fixed")},
                      std::pair{ColumnEnd::guided, string_view("guided")},
                      std::pair{ColumnEnd::free, string_view("free")}};
}

}  // namespace halfnut::threads
