#pragma once
/// One cut: what is asked of it and what it comes to. Shared by all operations.

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/machine/machine.hpp"
#include "halfnut/machine/room.hpp"

namespace halfnut::cutting {

/// No alloy: a request that says none is refused.
inline constexpr std::uint16_t kNoAlloy = 0xffff;

/// The work's material.
struct Work {
    std::uint16_t alloy = kNoAlloy;  ///< row of Catalogue::alloys; required
    double hardness_hb = kNaN;       ///< its own; NaN: as tabulated
};

/// How the work is held on a lathe.
enum class Hold : std::uint8_t { chuck, chuck_and_centre, between_centres };

constexpr auto enum_names(Hold /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Hold::chuck, string_view("chuck")},
                      std::pair{Hold::chuck_and_centre, string_view("chuck and centre")},
                      std::pair{Hold::between_centres, string_view("between centres")}};
}

/// How the feed is had.
enum class FeedSource : std::uint8_t {
    step,   ///< a power feed of the machine
    hand,   ///< the handle is turned
    exact,  ///< no machine was given, or the pitch of a thread
};

constexpr auto enum_names(FeedSource /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FeedSource::step, string_view("step")},
                      std::pair{FeedSource::hand, string_view("hand")},
                      std::pair{FeedSource::exact, string_view("exact")}};
}

/// What can bind a cut. Written to columns: append, never renumber.
HALFNUT_ENUM(LimitCode, none, speed_window, machine_top_speed, chuck_speed, power, torque, deflection,
             roughness, nose_feed, feed_guide, asked, machine_slowest, machine_finest_feed, reversal,
             chip_thickness, force, grip, tool_life, edge_depth, work_whirl, bar_whirl, swing, cross_slide,
             jaws, travel, hand_feed, hand_speed, least_depth, overhang, stability, tap_breaks, drill_buckles)

/// A limit and how near it is.
struct Limit {
    LimitCode code{};
    double value = kNaN;  ///< power, torque and deflection: with ordinary wear, at the upper edge of the band
    double limit = kNaN;

    /// What is left, as a share; negative when it is passed. Chip, depth and tool life have a least value.
    [[nodiscard]] double slack() const noexcept {
        const bool least = code == LimitCode::chip_thickness || code == LimitCode::tool_life ||
                           code == LimitCode::jaws || code == LimitCode::least_depth;
        return 1.0 - (least ? limit / value : value / limit);
    }
};

/// What a person should know. Bits of CutResult::cautions; append, never renumber.
HALFNUT_ENUM(CautionCode, above_window, above_chuck_limit, chuck_unmarked, power_exceeded, torque_exceeded,
             deflection_exceeded, roughness_exceeded, feed_above_nose, chip_too_thin, slender, overhang,
             force_rough, speed_below_window, asked_speed_moved, asked_feed_moved, window_doubtful,
             window_far, window_stand_in, fire_speed, hand_feed, deep_hole, thin_wall, speed_at_centre, grabs,
             below_smallest_feed, work_whips, bar_whips, climbs, in_gap, over_cross_slide, below_jaws,
             over_travel, fine_feed_fire, tap_by_hand, roughness_least, whirl_unknown, cutter_overhang,
             blade_overhang, tap_breaks, drill_buckles)

/// What a cut comes to. A figure that does not apply to the operation, or that nothing was given for, is NaN.
struct CutResult {
    double spindle_rpm = kNaN;
    double cutting_speed_m_min = kNaN;
    double window_low_m_min = kNaN;
    double window_high_m_min = kNaN;
    double feed_mm_rev = kNaN;
    double feed_per_tooth_mm = kNaN;
    double feed_mm_min = kNaN;
    double depth_mm = kNaN;
    double width_mm = kNaN;
    double chip_thickness_mm = kNaN;      ///< mean over the engaged edge
    double chip_thickness_max_mm = kNaN;  ///< milling
    double mrr_cm3_min = kNaN;
    double cutting_force_n = kNaN;
    double feed_force_n = kNaN;
    double passive_force_n = kNaN;
    double cutting_force_low_n = kNaN;  ///< band of what a measurement would find
    double cutting_force_high_n = kNaN;
    double feed_force_low_n = kNaN;  ///< of a drill's thrust
    double feed_force_high_n = kNaN;
    double spindle_power_kw = kNaN;
    double spindle_power_low_kw = kNaN;
    double spindle_power_high_kw = kNaN;
    double motor_power_kw = kNaN;
    double available_power_kw = kNaN;  ///< at the spindle, at this step
    double torque_nm = kNaN;
    double travel_mm = kNaN;  ///< of the feed motion: the cut with approach and overrun
    double time_s = kNaN;
    double tool_life_min = kNaN;  ///< of the edge in turning, after Taylor; with its band
    double tool_life_low_min = kNaN;
    double tool_life_high_min = kNaN;
    double roughness_ra_um = kNaN;    ///< by geometry alone: the least
    double roughness_low_um = kNaN;   ///< of a real surface, by a sharp edge on steady work
    double roughness_high_um = kNaN;  ///< the same by an edge in use
    double deflection_mm = kNaN;      ///< of work, bar or cutter, at the cut; in turning under a worn edge
    double hand_turns_per_min = kNaN;
    double hand_turns = kNaN;  ///< of the handle, for the whole travel

    ForceBand band;              ///< of force, power and torque; limits are judged at its upper edge
    double ordinary_wear = 1.0;  ///< factor on the force of a sharp edge at which limits are judged

    int passes = 1;  ///< milling: across times down
    int passes_across = 1;
    int passes_down = 1;
    std::size_t spindle_step = 0;
    std::size_t feed_step = 0;
    FeedSource feed_source{};
    machine::SpindleFit spindle_fit{};
    LimitCode limited_by{};
    LimitCode feed_limited_by{};
    std::uint64_t cautions = 0;
    std::array<Limit, enum_names(LimitCode{}).size()> limits{};  // each at most once
    std::size_t limit_count = 0;
    std::string_view fluid;    ///< cutting fluid, in one word of the catalogue; empty where none is known
    machine::Refusal refusal;  ///< why the machine has no room for it, where that is so
    Evidence<48> evidence;

    static_assert(enum_names(CautionCode{}).size() <= 64, "cautions has a bit for each");
    void caution(CautionCode code) noexcept { cautions |= std::uint64_t{1} << static_cast<unsigned>(code); }
    [[nodiscard]] bool has(CautionCode code) const noexcept {
        return (cautions >> static_cast<unsigned>(code) & 1U) != 0;
    }
    void limit(LimitCode code, double value, double bound) noexcept {
        if (limit_count < limits.size()) {
            limits[limit_count++] = {code, value, bound};
        }
    }
};

/// A figure of a record: its key and where it is.
struct CutFigure {
    std::string_view name;
    double CutResult::* member;
};

/// Every figure of a cut, in the order that dictionaries and columns have them.
inline constexpr std::array kCutFigures{
    CutFigure{"spindle_rpm", &CutResult::spindle_rpm},
    CutFigure{"cutting_speed_m_min", &CutResult::cutting_speed_m_min},
    CutFigure{"window_low_m_min", &CutResult::window_low_m_min},
    CutFigure{"window_high_m_min", &CutResult::window_high_m_min},
    CutFigure{"feed_mm_rev", &CutResult::feed_mm_rev},
    CutFigure{"feed_per_tooth_mm", &CutResult::feed_per_tooth_mm},
    CutFigure{"feed_mm_min", &CutResult::feed_mm_min},
    CutFigure{"depth_mm", &CutResult::depth_mm},
    CutFigure{"width_mm", &CutResult::width_mm},
    CutFigure{"chip_thickness_mm", &CutResult::chip_thickness_mm},
    CutFigure{"chip_thickness_max_mm", &CutResult::chip_thickness_max_mm},
    CutFigure{"mrr_cm3_min", &CutResult::mrr_cm3_min},
    CutFigure{"cutting_force_n", &CutResult::cutting_force_n},
    CutFigure{"feed_force_n", &CutResult::feed_force_n},
    CutFigure{"passive_force_n", &CutResult::passive_force_n},
    CutFigure{"cutting_force_low_n", &CutResult::cutting_force_low_n},
    CutFigure{"cutting_force_high_n", &CutResult::cutting_force_high_n},
    CutFigure{"feed_force_low_n", &CutResult::feed_force_low_n},
    CutFigure{"feed_force_high_n", &CutResult::feed_force_high_n},
    CutFigure{"spindle_power_kw", &CutResult::spindle_power_kw},
    CutFigure{"spindle_power_low_kw", &CutResult::spindle_power_low_kw},
    CutFigure{"spindle_power_high_kw", &CutResult::spindle_power_high_kw},
    CutFigure{"motor_power_kw", &CutResult::motor_power_kw},
    CutFigure{"available_power_kw", &CutResult::available_power_kw},
    CutFigure{"torque_nm", &CutResult::torque_nm},
    CutFigure{"travel_mm", &CutResult::travel_mm},
    CutFigure{"time_s", &CutResult::time_s},
    CutFigure{"tool_life_min", &CutResult::tool_life_min},
    CutFigure{"tool_life_low_min", &CutResult::tool_life_low_min},
    CutFigure{"tool_life_high_min", &CutResult::tool_life_high_min},
    CutFigure{"roughness_ra_um", &CutResult::roughness_ra_um},
    CutFigure{"roughness_low_um", &CutResult::roughness_low_um},
    CutFigure{"roughness_high_um", &CutResult::roughness_high_um},
    CutFigure{"deflection_mm", &CutResult::deflection_mm},
    CutFigure{"hand_turns_per_min", &CutResult::hand_turns_per_min},
    CutFigure{"hand_turns", &CutResult::hand_turns},
};

/// Names of kCutFigures, for evidence.
inline constexpr auto kCutFigureNames = [] {
    std::array<std::string_view, kCutFigures.size()> names{};
    for (std::size_t i = 0; i < names.size(); ++i) {
        names[i] = kCutFigures[i].name;
    }
    return names;
}();

/// A machine that can be set to any speed and feed: what an answer without a machine is computed on.
[[nodiscard]] const machine::Machine& any_machine() noexcept;

/// The status of work that a machine has no room for, and the obstacle that a status stands for.
[[nodiscard]] constexpr Status no_room(machine::Obstacle what) noexcept {
    constexpr unsigned kFirst = 0xe0;
    return {StatusCode::no_machine_step, static_cast<std::uint8_t>(kFirst + static_cast<unsigned>(what))};
}
[[nodiscard]] constexpr machine::Obstacle obstacle_of(Status status) noexcept {
    const unsigned first = no_room(machine::Obstacle::none).argument;
    const bool named = status.code == StatusCode::no_machine_step && status.argument > first &&
                       status.argument < first + machine::kObstacles;
    return named ? static_cast<machine::Obstacle>(status.argument - first) : machine::Obstacle::none;
}

/// Throw DomainError where a machine has no room for the work, with the figures and the nearest cure.
void throw_if_no_room(const machine::Machine& machine, const CutResult& result, int chuck);

/// Throw DomainError for an overhang below the length of the cut.
[[noreturn]] void throw_short_overhang(std::string_view argument, double overhang_mm, double length_mm,
                                       const machine::Machine& machine);

/// Brinell hardness of the work, where it is not that of the alloy's row, and its Status::argument.
inline constexpr Argument kHardness = positive("hardness_hb", "HB");
inline constexpr std::uint8_t kHardnessArgument = 0xfe;

/// An argument of a request, with its range and where its value is.
template <class Request>
struct RequestArgument {
    Argument argument;
    double Request::* member;
    bool required = false;                                     ///< not required: NaN means not given
    std::string_view must = "agree with the other arguments";  ///< what an inconsistent one must
};

/// Check a request's numbers; the status names the first bad one by its place.
template <class Request, std::size_t N>
[[nodiscard]] Status check_request(const Request& request,
                                   const std::array<RequestArgument<Request>, N>& arguments) noexcept {
    for (std::size_t i = 0; i < N; ++i) {
        const double value = request.*(arguments[i].member);
        if (std::isnan(value) && !arguments[i].required) {
            continue;
        }
        const StatusCode code = check(arguments[i].argument, value);
        if (code != StatusCode::ok) {
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    return {};
}

[[noreturn]] void throw_request(Status status, const Argument& argument, double value, std::string_view must);
[[noreturn]] void throw_request(Status status, std::string_view operation);

/// Why there is no answer to an argument that needs the modulus of an alloy whose row gives none.
[[nodiscard]] std::string no_modulus_text(std::string_view argument);

/// Throw what a request's status stands for.
template <class Request, std::size_t N>
void throw_if_failed(Status status, std::string_view operation, const Request& request,
                     const std::array<RequestArgument<Request>, N>& arguments) {
    if (status.ok()) {
        return;
    }
    const bool argument_at_fault = status.code == StatusCode::not_finite ||
                                   status.code == StatusCode::out_of_range ||
                                   status.code == StatusCode::inconsistent;
    if (argument_at_fault && status.argument < N) {
        const RequestArgument<Request>& at = arguments[status.argument];
        throw_request(status, at.argument, request.*(at.member), at.must);
    }
    if (argument_at_fault && status.argument == kHardnessArgument) {
        throw_request(status, kHardness, request.work.hardness_hb, "");
    }
    if (status.code == StatusCode::not_tabulated && status.argument < N) {
        throw NotTabulatedError(no_modulus_text(arguments[status.argument].argument.name));
    }
    throw_request(status, operation);
}

}  // namespace halfnut::cutting
