#pragma once
/// What standard threads there are: near a diameter, and nearest to a part found on the bench.

#include <string>
#include <vector>

#include "halfnut/catalogue.hpp"
#include "halfnut/evidence.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

/// A thread of the series tables.
struct SeriesThread {
    Thread thread;       ///< without a class
    int preference = 0;  ///< 0 first: metric by ISO 261's order of choice, coarse before fine; Unified UNC,
                         ///< UNF, UNEF, UN, UNS
    RowRef row;
};

/// Threads of both systems whose basic major diameter is within a distance of a diameter, preferred ones
/// first, then nearer ones, then coarser ones.
///
/// Given
///   diameter_mm  mm, > 0
///   within_mm    largest difference, mm, >= 0
/// Returned
///   the rows of ISO 261 and of the Unified series, each thread once (a UN row that is UNC, UNF or UNEF in
///   its size stands under that name)
/// Errors
///   DomainError  an input is not finite or out of range
[[nodiscard]] std::vector<SeriesThread> threads_near(const Catalogue& catalogue, double diameter_mm,
                                                     double within_mm);

/// A standard thread set beside measurements.
struct ThreadMatch {
    Thread thread;  ///< with the class it was judged by: 6g or 6H, 2A or 2B
    int preference = 0;
    double basic_diameter_mm =
        0;  ///< basic size of what was measured: major of an external part, minor of an internal one
    double outside_mm = 0;           ///< how far the measured diameter is outside the limits; 0 inside
    double pitch_difference_mm = 0;  ///< measured less standard
    double mismatch_mm = 0;          ///< what the pitch difference adds up to over the engagement
    double pitch_diameter_equivalent_mm =
        0;  ///< mismatch times cot 30: what it takes from the clearance at the pitch diameter
};

/// Standard threads nearest to a measured part, in both systems at once.
///
///     mismatch = |p - P| l / P,  equivalent = sqrt 3 * mismatch,  rank = equivalent + amount outside the
///     limits
///
/// Given
///   side           the part that was measured
///   diameter_mm    its crest: major diameter of an external part, minor diameter of an internal one; mm, > 0
///   pitch_mm       measured axial pitch, mm, > 0
///   engagement_mm  length over which the threads would engage, mm, > 0; NaN: one diameter
///   count          how many to give
/// Returned
///   nearest first; equal ones by preference
/// Errors
///   DomainError  an input is not finite and > 0
/// Notes
///   1) A worn, coated or odd-class part lies a little outside its limits; that counts only as far as it
///   goes. 2) A match by pitch alone is found as long as its diameter is the nearest at hand: read both
///   figures.
[[nodiscard]] std::vector<ThreadMatch> identify_thread(const Catalogue& catalogue, Side side,
                                                       double diameter_mm, double pitch_mm,
                                                       double engagement_mm, std::size_t count);

/// What the gauges for one part are made to, before gauge maker's tolerance and wear.
///
/// Source: memory, ISO 1502 and ASME B1.2. Pitch diameters and plain gauges follow from the limits of the
/// part.
struct GaugeSizes {
    System system{};
    Side side{};
    std::int32_t go_pitch = 0;  ///< last places, as in ThreadLimits
    std::int32_t go_crest = 0;  ///< go ring: minor diameter; go plug: major diameter
    std::int32_t not_go_pitch = 0;
    std::int32_t plain_go =
        0;  ///< plain ring or snap on the major diameter; plain plug in the minor diameter
    std::int32_t plain_not_go = 0;

    [[nodiscard]] double native(std::int32_t size) const noexcept {
        return static_cast<double>(size) / (system == System::unified ? 1e4 : 1e3);
    }
};

[[nodiscard]] GaugeSizes gauge_sizes(const ThreadLimits& limits) noexcept;

}  // namespace halfnut::threads
