#pragma once
/// What a dial reads: turns of the handle and lines from where it was set to nought.

#include "halfnut/machine/machine.hpp"

namespace halfnut::machine {

/// A reading to the nearest line.
struct DialReading {
    int turns = 0;
    int line = 0;             ///< within the turn
    double remainder_mm = 0;  ///< what the line misses, as the dial counts: twice the travel where it reads
                              ///< the diameter; 0 within a millionth of a line
};

/// Lines on the dial of a slide.
[[nodiscard]] int lines_a_turn(const Slide& slide) noexcept;

/// The reading of a dial that was set to nought, after a travel of its slide.
///
/// Given
///   slide      with its travel for one turn and its graduation
///   travel_mm  finite and not negative, at most a million turns
/// Example
///   0.040 in on a dial of 0.001 in that reads the diameter, 0.200 in a turn: line 80
[[nodiscard]] DialReading dial_reading(const Slide& slide, double travel_mm) noexcept;

}  // namespace halfnut::machine
