#pragma once
// Work as it stands in the machine: whether there is room for it, and how fast it may turn before it whips.

#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

class TurnedBeam;

/// What of a request has to do with the machine's own size. NaN is not known.
struct Mounting {
    double swings_mm = kNaN;  ///< greatest diameter that is sure to turn
    double held_mm = kNaN;    ///< diameter of the stock in the jaws; NaN: not told
    double length_mm = kNaN;  ///< overhang, or between the centres
    double span_mm = kNaN;    ///< longest free span of that
    double left_mm = kNaN;    ///< diameter and bore that the span whirls with
    double bore_mm = 0.0;
    double bar_mm = kNaN;  ///< the bar behind the spindle: round diameter that whirls as it does, and bore
    double bar_bore_mm = 0.0;
    double bar_length_mm = kNaN;
    double bar_behind_mm = kNaN;
    bool outside = false;  ///< swings_mm is the work's own outside
    bool along = false;    ///< the carriage passes under it
    Hold hold{};
    int chuck = -1;
    const TurnedBeam* beam = nullptr;  ///< stepped work, which whirls in its own way
};

/// Across the corners of a hexagon, over across its flats.
inline constexpr double kHexagonWide = 1.1547005383792515;

/// One length in two units is the same within this.
inline constexpr double kSameLength = 1.0 + 1e-9;

/// The bar's free length behind the spindle; NaN when there is none.
[[nodiscard]] double bar_free_mm(const machine::Machine& machine, const Mounting& mounting) noexcept;

/// Half the first whirl of the overhanging work and of the bar, rev/min; NaN where they are not known:
/// without a length, or a modulus in the alloy's row.
[[nodiscard]] double work_whirl_rpm(const material::AlloyRow& alloy, const Mounting& mounting) noexcept;
[[nodiscard]] double bar_whirl_rpm(const machine::Machine& machine, const material::AlloyRow& alloy,
                                   const Mounting& mounting) noexcept;

/// Ok when the machine has room for the work; else why not, with the figures in the result.
[[nodiscard]] Status check_room(const machine::Machine& machine, const Mounting& mounting,
                                CutResult& out) noexcept;

/// Cautions of work that the machine takes only so far.
void note_room(const machine::Machine& machine, const Mounting& mounting, CutResult& out) noexcept;

/// Caution where slender work may whip and its alloy has no modulus to say at which speed. The surface of
/// work that is not slender would pass half its first whirl above 700 m/min even in PTFE, the least stiff for
/// its weight of all that is built in.
void note_unknown_whirl(const material::AlloyRow& alloy, const Mounting& mounting, CutResult& out) noexcept;

/// Caution where a cut goes further than the slide; of several slides the one is told that falls shortest.
void note_slide_travel(const machine::Machine& machine, std::string_view slide, double travel_mm,
                       CutResult& out) noexcept;

}  // namespace halfnut::cutting
