#pragma once
/// The ISO metric tolerance system (ISO 965-1): deviations, tolerances, lengths of engagement.
///
/// Every figure comes from the printed table where it has a row; only where it has none, from the formula
/// behind the table, rounded to the R40 series as the standard says, and then `basis` tells.
///
/// Notes
///   1) The tables depart from formula and R40 in about one cell of eight, so the tables come first.
///   2) Grades other than 6 stand a fixed number of R40 places from grade 6; this reproduces the tables but
///      for one cell (T_d 8 at P 8), and is how a grade of no row is reached from a neighbour that has one.

#include <cstdint>
#include <optional>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut::threads {

enum class Basis : std::uint8_t {
    table,         ///< a row of the table
    formula,       ///< no row for this pitch or diameter: the formula behind the table
    not_provided,  ///< the table has this pitch and diameter, but not this grade: stepped from a grade it has
    rule,          ///< no table belongs to it (h, H, az, AZ, AX)
};

/// One figure of the tolerance system, whole micrometres.
struct Micrometres {
    int value_um = 0;
    Basis basis{};
    RowRef row;  ///< the row it is, or that it was stepped from
};

/// Fundamental deviation: EI of an internal position, es of an external one.
///
/// Given
///   position     tolerance position
///   pitch_units  P, nm
/// Returned
///   nothing where there is neither row nor formula (a to d outside their table)
[[nodiscard]] std::optional<Micrometres> iso_deviation(const Catalogue& catalogue, Position position,
                                                       std::int64_t pitch_units) noexcept;

/// Tolerance of the crest: T_d of an external thread (grades 4, 6, 8), T_D1 of an internal one (4 to 8).
[[nodiscard]] std::optional<Micrometres> iso_crest_tolerance(const Catalogue& catalogue, Side side,
                                                             std::int64_t pitch_units, int grade) noexcept;

/// Tolerance of the pitch diameter of a single-start thread: T_d2 (grades 3 to 9) or T_D2 (4 to 8).
[[nodiscard]] std::optional<Micrometres> iso_pitch_tolerance(const Catalogue& catalogue, Side side,
                                                             std::int64_t diameter_units,
                                                             std::int64_t pitch_units, int grade) noexcept;

/// Tolerance factor of multiple-start threads in hundredths: 100, 112, 125, 140, 160.
[[nodiscard]] int iso_starts_factor(int starts) noexcept;

/// The row that bounds group N for a diameter and pitch, or null.
[[nodiscard]] const IsoEngagementRow* iso_engagement_row(const Catalogue& catalogue,
                                                         std::int64_t diameter_units,
                                                         std::int64_t pitch_units) noexcept;

/// Basic pitch and minor diameter, whole micrometres (ISO 724).
[[nodiscard]] std::int64_t iso_basic_pitch_um(std::int64_t diameter_units, std::int64_t pitch_units) noexcept;
[[nodiscard]] std::int64_t iso_basic_minor_um(std::int64_t diameter_units, std::int64_t pitch_units) noexcept;

}  // namespace halfnut::threads
