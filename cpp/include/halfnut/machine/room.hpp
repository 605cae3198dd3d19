#pragma once
/// Whether work goes into a lathe: its swing, the way between the centres, the bore of the spindle, the jaws.

#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/machine/machine.hpp"

namespace halfnut::machine {

/// What refuses work. Written to reasons of batches: append, never renumber.
enum class Obstacle : std::uint8_t {
    none,
    over_bed,         ///< wider than what swings over the bed, or in the gap
    cross_slide,      ///< wider than what the carriage passes under
    between_centres,  ///< longer than the way between the centres
    spindle_bore,     ///< a bar that does not go through spindle or chuck
    jaws_open,        ///< wider than the jaws open
    jaws_closed,      ///< thinner than the jaws close on
    work_whips,       ///< overhanging work whips even at the slowest speed
    bar_whips,        ///< so does the bar behind the spindle
};

/// The number of obstacles.
inline constexpr std::uint8_t kObstacles = 9;

/// An obstacle with the figure found and the machine's own: mm, or rev/min where something whips.
struct Refusal {
    Obstacle what{};
    double found = kNaN;
    double bound = kNaN;
};

/// Work as it stands in a lathe; NaN is not known.
struct Placed {
    double swings_mm = kNaN;   ///< greatest diameter that turns
    double passes_mm = kNaN;   ///< greatest diameter that the carriage must pass under
    double gripped_mm = kNaN;  ///< diameter between the jaws
    double between_mm = kNaN;  ///< length between the centres, where one is used
    double through_mm = kNaN;  ///< diameter of a bar in the spindle
    int chuck = -1;            ///< place in Machine::chucks; -1: none
};

/// The first obstacle to work, the machine's own size before its chuck's.
///
/// A size that the machine does not give refuses nothing. Work that only the gap takes is not refused.
[[nodiscard]] Refusal refusal(const Machine& machine, const Placed& placed) noexcept;

/// An obstacle in one line: the figure found, the machine's, and the nearest cure.
[[nodiscard]] std::string refusal_text(const Machine& machine, const Refusal& refusal, int chuck);

/// The same for a row of a batch, without figures.
[[nodiscard]] std::string_view obstacle_sentence(Obstacle what) noexcept;

/// Throw DomainError where a way down into the work moves more slides at once than the machine does.
void require_axes(const Machine& machine, std::string_view way, int axes);

}  // namespace halfnut::machine
