#pragma once
/// Holes for screws: before tapping, blind, clearance, counterbored and countersunk.

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/evidence.hpp"
#include "halfnut/threads/hole_formulas.hpp"
#include "halfnut/threads/hole_tables.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

/// A drill of a set.
struct DrillSize {
    double diameter_mm = kNaN;
    std::string name;  ///< "#7", "letter F", "13/64 in", "5.1 mm", or what a shop stamps on it
    RowRef row;        ///< empty for a drill that was given by its size alone
};

/// The set that is meant where none is named: the shop's own ("shop") if there is one, else "metric" or
/// "inch".
[[nodiscard]] std::string_view usual_drill_set(const Catalogue& catalogue, bool inch) noexcept;

/// Drills of one or more sets, smallest first, a size that two sets hold once.
///
/// Given
///   sets  names joined by "+": "metric", "fractional", "number", "letter", "inch" (the last three), or of
///         rows of threads/drill_sets, such as a shop's own: "fractional+letter"
/// Errors
///   NotTabulatedError  no such set; the message names the nearest and lists them
///   DomainError        a row whose unit is neither mm nor in, or whose run has no step
[[nodiscard]] std::vector<DrillSize> drill_set(const Catalogue& catalogue, std::string_view sets);

/// How much larger than itself a drill usually cuts, mm: the table's mean, between rows in proportion, at its
/// ends the end row's. `row` is the row nearest in size.
[[nodiscard]] double usual_oversize_mm(const Catalogue& catalogue, double drill_mm, RowRef& row) noexcept;

struct TappingRequest {
    Thread thread{};               ///< the internal part's class is meant, or its usual one
    double percent = kNaN;         ///< wanted per cent of thread; of these three at most one is given
    double engagement_mm = kNaN;   ///< length of engagement, full form
    double strength_ratio = kNaN;  ///< wanted share of the external thread's shear area
    bool form = false;             ///< a forming tap, not one that cuts
    double oversize_mm = 0.0;      ///< what the drill cuts over its size; NaN: the usual amount
    LimitOptions options{};
    std::optional<ThreadLimits> limits{};  ///< to cut the internal part to, in place of its class's
};

/// Names and ranges of the arguments; Status::argument counts in it.
inline constexpr std::array kTappingArguments{
    detail::kPercent, positive("engagement_mm", "mm"),
    Argument{.name = "strength_ratio", .unit = "", .low = 0.0, .high = 1.0, .low_open = true},
    not_negative("oversize_mm", "mm"), positive("drills")};

/// Per cent of thread where nothing else is asked.
inline constexpr double kUsualPercent = 75.0;
inline constexpr double kUsualFormingPercent = 65.0;

/// Above this a tap works much harder for hardly more strength.
inline constexpr double kHighPercent = 85.0;

/// What a person should know about a hole; the words are in Python, keyed by the name.
enum class HoleCaution : std::uint8_t { usual_percent, outside, no_drill, by_analogy, high_percent, forming };

constexpr auto enum_names(HoleCaution /*tag*/) {
    using std::string_view;
    return std::array{std::pair{HoleCaution::usual_percent, string_view("hole_usual_percent")},
                      std::pair{HoleCaution::outside, string_view("hole_outside")},
                      std::pair{HoleCaution::no_drill, string_view("hole_no_drill")},
                      std::pair{HoleCaution::by_analogy, string_view("hole_by_analogy")},
                      std::pair{HoleCaution::high_percent, string_view("hole_high_percent")},
                      std::pair{HoleCaution::forming, string_view("hole_forming")}};
}

/// Figures of a TappingHole, in the order of figures(). The last four may have none.
inline constexpr std::array<std::string_view, 18> kTappingFigures{
    "wanted_mm",     "wanted_percent",    "drill_mm",    "hole_mm",       "minor_mm",     "percent",
    "basic_percent", "strength_ratio",    "hole_min_mm", "hole_max_mm",   "minor_min_mm", "minor_max_mm",
    "oversize_mm",   "usual_oversize_mm", "below_mm",    "below_percent", "above_mm",     "above_percent"};
inline constexpr std::size_t kTappingSure = 14;  ///< figures that an ok answer always has

struct TappingHole {
    double wanted_mm = kNaN;       ///< hole wanted
    double wanted_percent = kNaN;  ///< per cent of thread in it
    double drill_mm = kNaN;        ///< the drill chosen
    double hole_mm = kNaN;         ///< what it leaves: with its oversize
    double minor_mm = kNaN;        ///< minor diameter once tapped; of a cutting tap the hole
    double percent = kNaN;         ///< per cent of thread reached
    double basic_percent = kNaN;   ///< the same, of the basic height 5 H / 8
    double strength_ratio = kNaN;  ///< shear area of the external thread, over that at the smallest minor
    double hole_min_mm = kNaN;     ///< limits of the hole before tapping ...
    double hole_max_mm = kNaN;     ///< ... by class, or by class and length of engagement
    double minor_min_mm = kNaN;    ///< limits of the class
    double minor_max_mm = kNaN;
    double oversize_mm = kNaN;        ///< that was computed with
    double usual_oversize_mm = kNaN;  ///< of this drill
    double below_mm = kNaN;           ///< nearest drills not above, and ...
    double below_percent = kNaN;
    double above_mm = kNaN;  ///< ... above the one that would make the wanted hole; NaN: the set has none
    double above_percent = kNaN;
    int chosen = -1;  ///< places in the set; -1: none
    int below = -1;
    int above = -1;
    int within = -1;  ///< the drill nearest to the wanted hole whose hole is within its limits
    std::uint8_t cautions = 0;
    static_assert(enum_names(HoleCaution{}).size() <= 8, "cautions has a bit for each");
    Evidence<20> evidence;

    [[nodiscard]] bool has(HoleCaution caution) const noexcept {
        return (cautions & (1U << static_cast<unsigned>(caution))) != 0;
    }
    [[nodiscard]] std::array<double, kTappingFigures.size()> figures() const noexcept;
};

/// The drill for a tapped hole, without throwing.
///
/// Given
///   drills  as drill_set gives them: smallest first
/// Returned
///   ok and `out`; else, with `why` saying it in words,
///     out_of_range   an argument out of its range, or an engagement over three diameters
///     inconsistent   more than one of percent, engagement and strength asked for
///     not_tabulated  no drills, none below the thread or none large enough to tap, or no
///                    limits for the thread's class
/// Notes
///   1) By engagement the hole's limits move within the class's tolerance as the standard says for Unified
///      threads: small holes for short engagements. Metric threads are answered the same way, by analogy.
///   2) The strength of the internal thread does not depend on the hole, so far as formulas go: it strips at
///      the major diameter.
///   3) Of two drills equally near the smaller is taken.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const TappingRequest& request,
                              std::span<const DrillSize> drills, TappingHole& out,
                              std::string* why = nullptr);

/// The drill for a tapped hole.
///
/// Errors
///   DomainError, NotTabulatedError  as evaluate() says
/// Example
///   M6: drill 5.0 mm, 77 per cent of thread; 1/4-20 UNC: #7, 75 per cent
[[nodiscard]] TappingHole tapping_hole(const Catalogue& catalogue, const TappingRequest& request,
                                       std::span<const DrillSize> drills);

struct BlindRequest {
    double pitch_mm = kNaN;
    double hole_mm = kNaN;         ///< the drill
    double full_thread_mm = kNaN;  ///< wanted; or ...
    double drill_depth_mm = kNaN;  ///< ... at full diameter, that is there
    double chamfer_min = kNaN;     ///< threads
    double chamfer_max = kNaN;
    double chip_room_mm = kNaN;  ///< NaN: 2 P, 1 P under a forming tap
    double point_deg = 118.0;
    double thickness_mm = kNaN;  ///< metal there; NaN: not asked
    bool form = false;
};

inline constexpr std::array kBlindArguments{
    positive("pitch_mm", "mm"),         positive("hole_mm", "mm"),
    positive("full_thread_mm", "mm"),   positive("drill_depth_mm", "mm"),
    between("chamfer_min", 0.0, 20.0),  between("chamfer_max", 0.0, 20.0),
    not_negative("chip_room_mm", "mm"), inside("point_deg", 0.0, 180.0, "deg"),
    positive("thickness_mm", "mm")};

inline constexpr double kChipRoomPitches = 2.0;
inline constexpr double kFormingRoomPitches = 1.0;

inline constexpr std::array<std::string_view, 8> kBlindFigures{
    "full_thread_mm", "chamfer_min_mm", "chamfer_max_mm", "chip_room_mm",
    "drill_depth_mm", "point_mm",       "total_depth_mm", "tap_depth_mm"};

struct BlindHole {
    double full_thread_mm = kNaN;
    double chamfer_min_mm = kNaN;
    double chamfer_max_mm = kNaN;
    double chip_room_mm = kNaN;
    double drill_depth_mm = kNaN;  ///< at full diameter
    double point_mm = kNaN;
    double total_depth_mm = kNaN;  ///< to the tip of the point
    double tap_depth_mm = kNaN;    ///< that the tap's end goes to
    Evidence<6> evidence;

    [[nodiscard]] std::array<double, kBlindFigures.size()> figures() const noexcept;
};

/// Depths of a blind tapped hole, by the longest chamfer that the tap's lead allows, without throwing.
///
/// Returned
///   ok and `out`; else, with `why` saying it in words, not_finite, out_of_range with the argument (see
///   kBlindArguments), or inconsistent: both or neither of full_thread_mm and drill_depth_mm, a hole too
///   shallow, or metal too thin for the point
[[nodiscard]] Status evaluate(const BlindRequest& request, BlindHole& out, std::string* why = nullptr);

/// Depths of a blind tapped hole. `lead` is for the evidence, may be null.
///
/// Errors
///   DomainError  as evaluate() says
[[nodiscard]] BlindHole blind_hole(const Catalogue& catalogue, const BlindRequest& request,
                                   const TapLeadRow* lead);

/// The tap lead of that name, such as "plug" or "C".
///
/// Errors
///   NotTabulatedError  no such lead; the message lists them
[[nodiscard]] const TapLeadRow& tap_lead(const Catalogue& catalogue, std::string_view name);

enum class ClearanceFit : std::uint8_t { close, normal, loose };

/// "fine", "medium", "coarse" (ISO 273) or "close", "normal", "loose" (ASME B18.2.8); either names either.
[[nodiscard]] ClearanceFit clearance_fit(std::string_view name);

struct ClearanceHole {
    double hole_mm = kNaN;
    std::string_view drill;  ///< the inch standard's own; empty for metric
    RowRef row;
};

/// Hole that a screw of a thread's diameter passes through.
///
/// Errors
///   NotTabulatedError  no such diameter in the standard; the message names the nearest
[[nodiscard]] ClearanceHole clearance_hole(const Catalogue& catalogue, const Thread& thread,
                                           ClearanceFit fit);

struct SeatRequest {
    Thread thread;
    std::string_view head;   ///< "socket", "flat", "flat socket", "flat 100"
    double hole_mm = kNaN;   ///< clearance hole that the seat goes over
    double recess_mm = 0.0;  ///< of the top of the head below the surface
};

inline constexpr std::array<std::string_view, 6> kSeatFigures{
    "head_diameter_mm", "head_height_mm", "seat_diameter_mm", "depth_mm", "angle_deg", "hole_mm"};

struct ScrewSeat {
    double head_diameter_mm = kNaN;
    double head_height_mm = kNaN;    ///< NaN: countersunk
    double seat_diameter_mm = kNaN;  ///< at the surface
    double depth_mm = kNaN;          ///< of the counterbore, or of the countersink down to the hole
    double angle_deg = kNaN;         ///< NaN: a counterbore
    double hole_mm = kNaN;
    Evidence<4> evidence;

    [[nodiscard]] std::array<double, kSeatFigures.size()> figures() const noexcept {
        return {head_diameter_mm, head_height_mm, seat_diameter_mm, depth_mm, angle_deg, hole_mm};
    }
};

/// Counterbore or countersink for a screw's head.
///
/// Errors
///   NotTabulatedError  no such head, or none of this size; the message names those that there are
///   DomainError        the hole is not smaller than the seat, or an argument is out of its range
[[nodiscard]] ScrewSeat screw_seat(const Catalogue& catalogue, const SeatRequest& request);

}  // namespace halfnut::threads
