#pragma once
/// What standard threads there are: near a diameter, and nearest to a part found on the bench.

#include <string>
#include <vector>

#include "halfnut/catalogue.hpp"
#include "halfnut/evidence.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

/// A thread of the series tables.
struct SeriesThread {
    AnyThread thread;    ///< without a class
    int preference = 0;  ///< 0 first: metric by ISO 261's order of choice, coarse before fine; Unified UNC,
                         ///< UNF, UNEF, UN, UNS; then the other forms by their order of choice, taper last
    RowRef row;
};

/// Threads of every form whose basic major diameter is within a distance of a diameter, preferred ones first,
/// then nearer ones, then coarser ones.
///
/// Given
///   diameter_mm  mm, > 0
///   within_mm    largest difference, mm, >= 0
/// Returned
///   the rows of ISO 261, of the Unified series and of threads/form_series, each thread once (a UN row that
///   is UNC, UNF or UNEF in its size stands under that name), and of threads/taper_pipe by the diameter in
///   the gauge plane (Rp, its parallel internal thread, by its own)
/// Errors
///   DomainError  an input is not finite or out of range
[[nodiscard]] std::vector<SeriesThread> threads_near(const Catalogue& catalogue, double diameter_mm,
                                                     double within_mm);

/// What was measured of a part.
struct FoundPart {
    Side side{};
    double diameter_mm = kNaN;    ///< its crest: major diameter of an external part, minor of an internal one
    double pitch_mm = kNaN;       ///< axial pitch
    double engagement_mm = kNaN;  ///< length over which the threads would engage; NaN: one diameter
    double flank_angle_deg = kNaN;  ///< between the two flanks of a groove; NaN: not measured
};

/// A standard thread set beside measurements.
struct ThreadMatch {
    ThreadPart part;  ///< with the class it was judged by: 6g or 6H, 2A or 2B, 7e or 7H, 2G, A, medium
    int preference = 0;
    bool taper = false;  ///< the diameter changes along it; sizes are those of the gauge plane
    double basic_diameter_mm =
        0;  ///< basic size of what was measured: major of an external part, minor of an internal one
    double outside_mm = 0;           ///< how far the measured diameter is outside the limits; 0 inside
    double pitch_difference_mm = 0;  ///< measured less standard
    double mismatch_mm = 0;          ///< what the pitch difference adds up to over the engagement
    double pitch_diameter_equivalent_mm =
        0;  ///< mismatch times cot A: what it takes from the clearance at the pitch diameter
    double flank_angle_deg = 0;          ///< of the standard thread, between its two flanks
    double flank_difference_deg = kNaN;  ///< measured less standard; NaN where none was measured
    double flank_equivalent_mm = 0;      ///< what that takes from the clearance at the pitch diameter
    bool like_the_first = false;         ///< these measurements do not tell it from the nearest one

    /// What the matches are ranked by, mm.
    [[nodiscard]] double rank_mm() const noexcept {
        return outside_mm + pitch_diameter_equivalent_mm + flank_equivalent_mm;
    }
};

/// Standard threads nearest to a measured part, of every form at once.
///
///     mismatch = |p - P| l / P,  rank = mismatch cot A + flank equivalent + amount outside the limits
///     flank equivalent = 2 h |tan a - tan A| cot A,  h = (basic major - basic pitch diameter) / 2
///
/// Given
///   found  what was measured: diameter and pitch, mm, > 0; engagement > 0; flank angle over 0, below 180
///   count  how many to give
/// Returned
///   nearest first; equal ones (to 1e-6 mm) by preference, and marked as like the first
/// Errors
///   DomainError  an input is not finite or out of range
/// Notes
///   1) A worn, coated or odd-class part lies a little outside its limits; that counts only as far as it
///   goes. 2) A match by pitch alone is found as long as its diameter is the nearest at hand: read both
///   figures. 3) Forms of one diameter and pitch (1/4-20 UNC and BSW, M60x3 and Tr60x3) are told apart by the
///   flank angle alone; parallel and taper pipe threads of one size by the taper, Acme and stub Acme by their
///   depth. 4) The limits of a taper thread are those of its gauge plane, which its standard lets lie some
///   turns to either side: the taper times those turns of the pitch.
[[nodiscard]] std::vector<ThreadMatch> identify_thread(const Catalogue& catalogue, const FoundPart& found,
                                                       std::size_t count);

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
