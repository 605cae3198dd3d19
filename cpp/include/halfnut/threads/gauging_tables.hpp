#pragma once
/// Rows of the tables for measuring and coating threads.

#include <array>
#include <cstdint>

#include "halfnut/schema.hpp"
#include "halfnut/threads/kinds.hpp"

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
        std::array{HALFNUT_REQUIRED(set_name),    HALFNUT_REQUIRED(number), HALFNUT_OPTIONAL(diameter_in),
                   HALFNUT_OPTIONAL(diameter_mm), HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::MeasuringForceRow> {
    using Row = threads::MeasuringForceRow;
    static constexpr std::string_view table = "threads/measuring_forces";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(over_tpi), HALFNUT_REQUIRED(up_to_tpi), HALFNUT_REQUIRED(force_lbf),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::CoatingRow> {
    using Row = threads::CoatingRow;
    static constexpr std::string_view table = "threads/coatings";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED_AS("coating", id),
                                               HALFNUT_REQUIRED(name),
                                               HALFNUT_REQUIRED(process),
                                               HALFNUT_REQUIRED(base),
                                               HALFNUT_REQUIRED(film_min_um),
                                               HALFNUT_OPTIONAL(film_max_um),
                                               HALFNUT_REQUIRED(usual_low_um),
                                               HALFNUT_OPTIONAL(usual_high_um),
                                               HALFNUT_REQUIRED(growth_low),
                                               HALFNUT_REQUIRED(growth_high),
                                               HALFNUT_REQUIRED(etch_low_um),
                                               HALFNUT_REQUIRED(etch_high_um),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_REQUIRED(usual_source),
                                               HALFNUT_REQUIRED(growth_source),
                                               HALFNUT_REQUIRED(etch_source),
                                               HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
