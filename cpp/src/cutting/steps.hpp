#pragma once
// Steps that all operations share: which spindle step, which feed, what evidence.

#include <cmath>

#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/window.hpp"

namespace halfnut::cutting {

inline constexpr std::uint8_t figure(std::string_view name) noexcept {
    for (std::size_t i = 0; i < kCutFigureNames.size(); ++i) {
        if (kCutFigureNames[i] == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return 0xff;
}

inline double value_or(double value, double fallback) noexcept {
    return std::isnan(value) ? fallback : value;
}

inline bool is_any(const machine::Machine& machine) noexcept {
    return &machine == &any_machine();
}

/// What is above these counts as a far group, or a far hardness.
inline constexpr int kFarKinship = 4;

/// Status::argument where no argument is at fault.
inline constexpr std::uint8_t kNoArgument = 0xff;

/// Whether the alloy exists and the machine turns.
[[nodiscard]] Status check_setting(const Catalogue& catalogue, const machine::Machine& machine,
                                   const Work& work) noexcept;

/// Put the window into the result, with its evidence and cautions.
void note_window(const SpeedWindow& window, CutResult& out) noexcept;

/// Fastest that a spindle may turn while a thread is cut and it must be stopped by hand: so many turns a
/// minute, and so much travel.
inline constexpr double kThreadRpm = 300.0;
inline constexpr double kThreadTravelMmMin = 600.0;

/// Least feed by hand, as a share of the low end of power feeds: finer, the edges rub. Metal that hardens,
/// and chips that burn, bear no less than that low end. Common practice.
inline constexpr double kLeastHandFeed = 0.5;

/// What holds a spindle back beside window and chuck. NaN: nothing.
struct SpeedBounds {
    double pitch_mm = kNaN;              ///< of a thread
    double work_rpm = kNaN;              ///< half the first whirl of the work
    double bar_rpm = kNaN;               ///< of the bar behind the spindle
    const FireLimitRow* fire = nullptr;  ///< of chips that burn
    double hand_rpm = kNaN;              ///< fastest that hands keep up with
    bool taps = false;                   ///< the slowest step where none is asked for
};

/// Choose the spindle step for a diameter, by window, chuck, bounds and wish. No room where even the slowest
/// step makes work or bar whip, no answer where it is above the fire limit.
[[nodiscard]] Status choose_speed(const machine::Machine& machine, double diameter_mm, double asked_rpm,
                                  int chuck, const SpeedBounds& bounds, CutResult& out) noexcept;

/// A figure that follows the force, with ordinary wear and at the unfavourable edge of the force's band.
inline double at_edge(double value, const CutResult& out) noexcept {
    return value * (value_or(out.band.high, 1.0) * out.ordinary_wear);
}

/// Logarithm to the base 2 of the correction of tabulated kc for the cutting speed; 0 where the constants
/// hold for any.
inline double speed_log2(const ForceConstants& constants, double cutting_speed_m_min) noexcept {
    return std::isnan(constants.speed_m_min) ? 0.0
                                             : SpeedCorrection::log2_at(cutting_speed_m_min) -
                                                   SpeedCorrection::log2_at(constants.speed_m_min);
}

inline double speed_correction(const ForceConstants& constants, double cutting_speed_m_min) noexcept {
    return exp2_of(speed_log2(constants, cutting_speed_m_min));
}

/// Edges of force, thrust and power from the band.
void set_band(CutResult& out) noexcept;

/// What the band rests on, at the figure that it belongs to.
void note_band(std::string_view name, CutResult& out) noexcept;
/// What a band rests on.
[[nodiscard]] inline RuleId rule_of(const ForceBand& band) noexcept {
    return band.verified ? rule::force_band : rule::force_band_unverified;
}

/// What the constants of force rest on.
void note_constants(std::uint8_t at, const ForceConstants& constants, CutResult& out) noexcept;

/// The real surface that roughness_ra_um is the geometry of, and what its band rests on; nothing without one.
void note_finish_band(const Catalogue& catalogue, const FinishBandRow* band, CutResult& out) noexcept;

/// Cutting fluid of the operation, in one word; none for metal that no group's row is for.
void note_fluid(const Catalogue& catalogue, const material::AlloyRow& alloy, Operation operation,
                CutResult& out) noexcept;

/// How far a tool stands out over its size, against the most for ordinary cuts; a word on it beyond
/// that. Nothing where the ratio is not known.
void note_overhang(const Catalogue& catalogue, Overhung what, double ratio, CautionCode caution,
                   CutResult& out) noexcept;

/// Power at spindle and motor against what there is; torque against the spindle's limit.
void note_power(const machine::Machine& machine, CutResult& out) noexcept;

/// Whether power and torque hold.
[[nodiscard]] bool power_holds(const machine::Machine& machine, const CutResult& out) noexcept;

/// Travel, feed rate and time; turns of the handle where the feed is by hand.
void note_travel(const machine::Machine& machine, std::string_view slide, double travel_mm,
                 CutResult& out) noexcept;

/// The fastest that hands feed a slide, mm/min; NaN for one that the machine does not give.
[[nodiscard]] double hand_feed_mm_min(const machine::Machine& machine, std::string_view slide) noexcept;

/// What binds: the feed's limit where a figure holds the feed back, else the spindle's.
void note_binding(const machine::Machine& machine, CutResult& out) noexcept;

/// Every figure NaN, for a failed row.
void clear(CutResult& out) noexcept;

/// Ok when no figure is infinite; else no_result, with every figure cleared.
[[nodiscard]] Status finished(CutResult& out) noexcept;

}  // namespace halfnut::cutting
