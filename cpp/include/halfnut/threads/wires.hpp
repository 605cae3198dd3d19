#pragma once
/// What to read over wires (external) or across two balls (internal) for a thread's limits, and with which.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/core/evidence.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

/// How a wire was come by.
enum class WireChoice : std::uint8_t { given, best, nearest_of_set };

constexpr auto enum_names(WireChoice /*tag*/) {
    using std::string_view;
    return std::array{std::pair{WireChoice::given, string_view("given")},
                      std::pair{WireChoice::best, string_view("best")},
                      std::pair{WireChoice::nearest_of_set, string_view("nearest of the set")}};
}

struct WireRequest {
    FitPart part;  ///< sizes of the bare part, of any flank angle; its coating, errors and temperature do not
                   ///< count
    Side side{};
    bool inch = false;          ///< the thread's own unit
    std::string title;          ///< how messages call the thread
    double wire_mm = kNaN;      ///< NaN: chosen
    bool best = false;          ///< the best wire itself, not the nearest of a set
    std::string_view set = {};  ///< set to choose from; empty: the one of the thread's unit
};

/// A request for the limits of one part; as its standard rounds them, or before coating.
[[nodiscard]] WireRequest wire_request(const Thread& thread, const ThreadLimits& limits);
[[nodiscard]] WireRequest wire_request(const PartLimits& limits);

enum class WireCaution : std::uint16_t {
    off_best = 1U << 0U,  ///< so far from the best wire that an error of the flank angle shows
    even_starts = 1U
        << 1U,  ///< even starts: one ball or wire sits opposite another, three wires still measure
    lead_matters = 1U << 2U,  ///< the plain formula would be off by more than 0.00015 in
};

constexpr auto enum_names(WireCaution /*tag*/) {
    using std::string_view;
    return std::array{std::pair{WireCaution::off_best, string_view("wire_off_best")},
                      std::pair{WireCaution::even_starts, string_view("wire_even_starts")},
                      std::pair{WireCaution::lead_matters, string_view("wire_lead_matters")}};
}

/// Figures of an OverWires, in the order of its members.
inline constexpr std::array<std::string_view, 20> kWireFigures{
    "wire_mm",           "best_wire_mm",      "smallest_wire_mm",  "largest_wire_mm",   "over_max_mm",
    "over_min_mm",       "over_max_plain_mm", "over_min_plain_mm", "over_max_lead_mm",  "over_min_lead_mm",
    "over_max_held_mm",  "over_min_held_mm",  "lead_angle_deg",    "wire_tilt_deg",     "wire_error_factor",
    "measuring_force_n", "skew_add_mm",       "wire_known_to_mm",  "micrometer_max_mm", "micrometer_min_mm"};

/// Sizes over wires of an external thread, or across two balls of an internal one (then `wire` is the ball).
struct OverWires {
    double wire_mm = kNaN;
    double best_wire_mm = kNaN;  ///< lead angle included
    double smallest_wire_mm = kNaN;
    double largest_wire_mm = kNaN;
    double over_max_mm = kNaN;  ///< exact, at the greatest pitch diameter
    double over_min_mm = kNaN;
    double over_max_plain_mm = kNaN;  ///< by the plain formula
    double over_min_plain_mm = kNaN;
    double over_max_lead_mm = kNaN;  ///< with the standards' lead correction; NaN for balls
    double over_min_lead_mm = kNaN;
    double over_max_held_mm = kNaN;  ///< exact, wires held at the lead angle; NaN for balls
    double over_min_held_mm = kNaN;
    double lead_angle_deg = kNaN;
    double wire_tilt_deg = kNaN;      ///< NaN for balls
    double wire_error_factor = kNaN;  ///< what an error of the wire's diameter counts in the pitch diameter
    double measuring_force_n = kNaN;  ///< NaN where the table has none
    double skew_add_mm = 0.0;         ///< balls: what half a pitch of offset adds to the greatest size
    double wire_known_to_mm = kNaN;   ///< how well the wire or ball must be known
    double micrometer_max_mm = kNaN;  ///< thread micrometer; NaN for internal threads and even starts
    double micrometer_min_mm = kNaN;
    Side side{};
    WireChoice choice{};
    std::int16_t wire_row = -1;  ///< of Catalogue::wires
    std::uint16_t cautions = 0;
    Evidence<14> evidence;

    [[nodiscard]] bool has(WireCaution caution) const noexcept {
        return (cautions & static_cast<std::uint16_t>(caution)) != 0;
    }
    [[nodiscard]] std::array<double, kWireFigures.size()> figures() const noexcept;
};

/// Sizes over wires, without throwing.
///
/// Returned
///   ok and `out`; or, with `why` saying it in words,
///     unknown_name  no such set of wires
///     inconsistent  the wire does not measure this thread, or no wire of the set does
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const WireRequest& request, OverWires& out,
                              std::string* why = nullptr);

/// Sizes over wires.
///
/// Errors
///   DomainError        the wire is out of the usable range; the message names the best
///   NotTabulatedError  no such set of wires
/// Notes
///   1) The wire is usable over the whole of the part's limits: it stands above the largest crest and touches
///      below the smallest.
/// Example
///   M10-6g over 0.895 mm: 10.382 to 10.250 mm
[[nodiscard]] OverWires over_wires(const Catalogue& catalogue, const WireRequest& request);

}  // namespace halfnut::threads
