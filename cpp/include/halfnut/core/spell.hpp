#pragma once
/// Figures as a person reads them: one unit and one number of digits for each kind, by system.
///
/// An inch question is answered in inches, pounds-force, feet a minute, psi and horsepower, a metric one in
/// millimetres, newtons, metres a minute, MPa and kilowatts. Trailing zeros stay where places are fixed and
/// are dropped where significant digits are counted; from 1,000 on a force or a stress has thousands set
/// apart.

#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/core/quantity.hpp"

namespace halfnut {

/// What a figure is, in the base unit of its key's suffix.
enum class FigureKind : std::uint8_t {
    size,        ///< mm; as it was asked for
    length,      ///< mm; to hold or to measure
    fine,        ///< mm; a reading over wires, a deflection
    travel,      ///< mm; along the work
    film,        ///< um
    speed,       ///< m/min
    feed,        ///< mm/rev
    feed_rate,   ///< mm/min
    spindle,     ///< rev/min
    force,       ///< N
    torque,      ///< N m
    power,       ///< kW
    cut_force,   ///< N; of cutting, known to a third
    cut_torque,  ///< N m; the same
    cut_power,   ///< kW; the same
    stress,      ///< MPa
    time,        ///< s
    life,        ///< min; of an edge
    roughness,   ///< um
    removal,     ///< cm3/min
    mass,        ///< kg
    rise,        ///< K; of a temperature
    growth,      ///< um/K
    strip,       ///< N/mm
    angle,       ///< deg
};

/// The kind of a name such as "feed_rate", or of a key by the unit at its end: "cutting_force_n" is a force.
///
/// Errors
///   DomainError  neither
[[nodiscard]] FigureKind figure_kind(std::string_view name);

/// Longest tool life, in minutes, that is told: the tests behind the constants of Taylor's equation are
/// shorter.
inline constexpr double kLongestLifeMin = 480.0;

/// A figure with its unit.
///
/// Given
///   value   in the base unit of its kind; finite
///   kind    what it is
///   system  metric or inch
/// Returned
///   the number, a blank and the unit; a time in hours, minutes and seconds
/// Notes
///   1) Tool life is measured up to some hours: above that, only that it is more.
/// Example
///   spell(9.026, FigureKind::length, UnitSystem::metric) is "9.026 mm"
[[nodiscard]] std::string spell(double value, FigureKind kind, UnitSystem system);

/// Its number alone, in the unit that spell() gives it.
[[nodiscard]] std::string spell_number(double value, FigureKind kind, UnitSystem system);

/// Two figures as from-to with one unit, which the larger has; one where both read the same.
///
/// Example
///   spell_span(61.0, 115.0, FigureKind::force, UnitSystem::metric) is "61 to 115 N"
[[nodiscard]] std::string spell_span(double low, double high, FigureKind kind, UnitSystem system);

}  // namespace halfnut
