#pragma once
/// Rows of the tables for measuring and coating threads.

#include <array>
#include <cstdint>

#include "halfnut/schema.hpp"

namespace halfnut::threads {

/// A wire of a set, in the unit it is marked in; the other is NaN.
struct WireRow {
    std::string_view set_name;
    int number = 0;
    double diameter_in = 0;
    double diameter_mm = 0;
    SourceId source;
    std::string_view note;
};

/// Force on measuring wires; serves threads per inch above over_tpi, up to and including up_to_tpi.
struct MeasuringForceRow {
    double over_tpi = 0;
    double up_to_tpi = 0;
    double force_lbf = 0;
    SourceId source;
    std::string_view note;
};

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

/// A coating: its usual film, the share of the film that grows outward, and the metal etched off first.
struct CoatingRow {
    std::string_view id;
    std::string_view name;
    CoatingProcess process{};
    CoatingBase base{};
    double film_min_um = 0;
    double film_max_um = 0;  ///< NaN: only a minimum is specified
    double usual_low_um = 0;
    double usual_high_um = 0;  ///< NaN: only a minimum is specified
    double growth_low = 0;
    double growth_high = 0;
    double etch_low_um = 0;
    double etch_high_um = 0;
    SourceId source;
    SourceId usual_source;
    SourceId growth_source;
    SourceId etch_source;
    std::string_view note;
};

}  // namespace halfnut::threads

namespace halfnut {

template <>
struct Schema<threads::WireRow> {
    using Row = threads::WireRow;
    static constexpr std::string_view table = "threads/wire_sets";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::tuple{required("set_name", &Row::set_name),       required("number", &Row::number),
                   optional("diameter_in", &Row::diameter_in), optional("diameter_mm", &Row::diameter_mm),
                   required("source", &Row::source),           optional("note", &Row::note)};
};

template <>
struct Schema<threads::MeasuringForceRow> {
    using Row = threads::MeasuringForceRow;
    static constexpr std::string_view table = "threads/measuring_forces";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("over_tpi", &Row::over_tpi), required("up_to_tpi", &Row::up_to_tpi),
                   required("force_lbf", &Row::force_lbf), required("source", &Row::source),
                   optional("note", &Row::note)};
};

template <>
struct Schema<threads::CoatingRow> {
    using Row = threads::CoatingRow;
    static constexpr std::string_view table = "threads/coatings";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("coating", &Row::id),
                                               required("name", &Row::name),
                                               required("process", &Row::process),
                                               required("base", &Row::base),
                                               required("film_min_um", &Row::film_min_um),
                                               optional("film_max_um", &Row::film_max_um),
                                               required("usual_low_um", &Row::usual_low_um),
                                               optional("usual_high_um", &Row::usual_high_um),
                                               required("growth_low", &Row::growth_low),
                                               required("growth_high", &Row::growth_high),
                                               required("etch_low_um", &Row::etch_low_um),
                                               required("etch_high_um", &Row::etch_high_um),
                                               required("source", &Row::source),
                                               required("usual_source", &Row::usual_source),
                                               required("growth_source", &Row::growth_source),
                                               required("etch_source", &Row::etch_source),
                                               optional("note", &Row::note)};
};

}  // namespace halfnut
