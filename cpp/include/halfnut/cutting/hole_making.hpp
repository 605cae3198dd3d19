#pragma once
/// Holes: drill, ream, tap, spot, countersink, counterbore. On a lathe from the tailstock, on a mill or drill
/// press from the quill.

#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

enum class HoleCut : std::uint8_t { drill, ream, tap, spot, countersink, counterbore, form_tap };

constexpr auto enum_names(HoleCut /*tag*/) {
    using std::string_view;
    return std::array{std::pair{HoleCut::drill, string_view("drill")},
                      std::pair{HoleCut::ream, string_view("ream")},
                      std::pair{HoleCut::tap, string_view("tap")},
                      std::pair{HoleCut::spot, string_view("spot")},
                      std::pair{HoleCut::countersink, string_view("countersink")},
                      std::pair{HoleCut::counterbore, string_view("counterbore")},
                      std::pair{HoleCut::form_tap, string_view("form tap")}};
}

/// What is asked of a hole. NaN is not given.
struct HoleRequest {
    HoleCut cut{};
    Work work;
    ToolMaterial tool_material = ToolMaterial::hss;

    double diameter_mm = kNaN;        ///< of the tool; spotting and countersinking: at the top of the cone
    double depth_mm = kNaN;           ///< of the full diameter; a cone knows its own; NaN: no time
    double pilot_mm = kNaN;           ///< hole that is there already
    double point_deg = kNaN;          ///< included; NaN: 118 drilling, 90 spotting and countersinking
    double teeth = kNaN;              ///< countersink and counterbore; NaN: 3; reamer; NaN: 6
    double pitch_mm = kNaN;           ///< tapping
    double feed_mm_rev = kNaN;        ///< wanted
    double spindle_rpm = kNaN;        ///< wanted
    double wear_factor = kNaN;        ///< on the force; NaN: sharp, limits with ordinary wear
    double approach_mm = kNaN;        ///< NaN: 2
    double overrun_mm = kNaN;         ///< beyond the depth, NaN: 0
    double stock_diameter_mm = kNaN;  ///< of the work, where it turns; NaN: not known
    double stock_flats_mm = kNaN;     ///< of a hexagon, across its flats
    double stick_out_mm = kNaN;       ///< of the work from the jaws, where it turns
    double bar_length_mm = kNaN;      ///< of the whole bar, where it goes through the spindle
    double bar_behind_mm = kNaN;      ///< free behind the spindle, in place of the bar's length
    int chuck = -1;                   ///< place in Machine::chucks, where the work turns; -1: none
};

inline constexpr double kPointDeg = 118.0;
inline constexpr double kConeDeg = 90.0;
inline constexpr double kConeTeeth = 3.0;
inline constexpr double kReamerTeeth = 6.0;
inline constexpr double kReamerLeadDeg = 45.0;  ///< of a machine reamer's chamfer

/// Feed a tooth of countersink and counterbore, as a share of the tool's diameter, and its bounds.
inline constexpr double kConeFeedShare = 0.003;
inline constexpr double kConeFeedLowMm = 0.02;
inline constexpr double kConeFeedHighMm = 0.1;
inline constexpr double kStandardChiselRatio = 0.18;  ///< of a standard drill, the handbook's c/d

/// Chip thickness of a tap's chamfer: 0.54 P over three flutes and four threads of chamfer.
inline constexpr double kTapChipOverPitch = 0.54 / 12.0;
inline constexpr double kTapFriction = 1.3;  ///< sharp and oiled

/// Torque of a forming tap over that of a cutting one; 1.5 to 3 are met with.
inline constexpr double kFormTapTorque = 2.0;

/// Depth, in diameters, above which a drill wants clearing; then the first peck and each further one, in
/// diameters, half as much where chips are long; and the time to clear the drill by hand.
inline constexpr double kDeepHole = 4.0;
inline constexpr double kFirstPeck = 3.0;
inline constexpr double kFurtherPeck = 1.0;
inline constexpr double kLastPeck = 0.25;  ///< of a peck: less than that is drilled with the one before
inline constexpr double kPeckSeconds = 5.0;

/// Pecks of a drill to a depth.
struct Pecks {
    int count = 1;  ///< 1: no withdrawal before the depth is reached
    double first_mm = kNaN;
    double each_mm = kNaN;
};
[[nodiscard]] Pecks pecks_of(const material::AlloyRow& alloy, double diameter_mm, double depth_mm) noexcept;

/// Torque that a tap is driven with at most, over the least that breaks it: overload clutches are set to
/// about half of it. Recalled.
inline constexpr double kTapClutchShare = 0.5;

/// Free length of a jobber drill below its chuck, about, and the round bar that bends as its fluted part
/// does, over the diameter: a lower bound, recalled.
inline constexpr double kDrillFreeDiameters = 10.0;
inline constexpr double kDrillFreeMm = 10.0;
inline constexpr double kDrillCore = 0.5;

/// Reaming feed over drilling feed.
inline constexpr double kReamFeed = 2.0;

/// The numbers of a request with their ranges.
inline constexpr std::array kHoleArguments{
    RequestArgument<HoleRequest>{positive("diameter_mm", "mm"), &HoleRequest::diameter_mm, true},
    RequestArgument<HoleRequest>{positive("depth_mm", "mm"), &HoleRequest::depth_mm, false,
                                 "take at most 10000 pecks"},
    RequestArgument<HoleRequest>{not_negative("pilot_mm", "mm"), &HoleRequest::pilot_mm, false,
                                 "be below diameter_mm, and given for a countersink or counterbore"},
    RequestArgument<HoleRequest>{between("point_deg", 60.0, 180.0, "deg"), &HoleRequest::point_deg},
    RequestArgument<HoleRequest>{between("flutes", 1.0, 20.0), &HoleRequest::teeth},
    RequestArgument<HoleRequest>{positive("pitch_mm", "mm"), &HoleRequest::pitch_mm, false,
                                 "be given and below half of diameter_mm"},
    RequestArgument<HoleRequest>{positive("feed_mm_rev", "mm/rev"), &HoleRequest::feed_mm_rev},
    RequestArgument<HoleRequest>{positive("spindle_rpm", "rev/min"), &HoleRequest::spindle_rpm},
    RequestArgument<HoleRequest>{between("wear_factor", 1.0, 3.0), &HoleRequest::wear_factor},
    RequestArgument<HoleRequest>{not_negative("approach_mm", "mm"), &HoleRequest::approach_mm},
    RequestArgument<HoleRequest>{not_negative("overrun_mm", "mm"), &HoleRequest::overrun_mm},
    RequestArgument<HoleRequest>{positive("stock_diameter_mm", "mm"), &HoleRequest::stock_diameter_mm, false,
                                 "be above diameter_mm"},
    RequestArgument<HoleRequest>{positive("stock_flats_mm", "mm"), &HoleRequest::stock_flats_mm, false,
                                 "be left away where stock_diameter_mm is given"},
    RequestArgument<HoleRequest>{positive("stick_out_mm", "mm"), &HoleRequest::stick_out_mm},
    RequestArgument<HoleRequest>{positive("bar_length_mm", "mm"), &HoleRequest::bar_length_mm, false,
                                 "be given together with the stock's size"},
    RequestArgument<HoleRequest>{not_negative("bar_behind_mm", "mm"), &HoleRequest::bar_behind_mm, false,
                                 "be given together with the stock's size, and without bar_length_mm"},
};

/// Work-material factor of drilling, and what it rests on.
struct DrillFactor {
    double kd = kNaN;
    RowRef row;  ///< the row nearest in hardness; empty when computed from kc
    bool from_kc = false;
};

/// K_d of an alloy: of its group or the nearest group above, between its rows by hardness and beyond them
/// with the square root of hardness; NaN where no group has one.
[[nodiscard]] DrillFactor drill_factor(const Catalogue& catalogue, const material::AlloyRow& alloy,
                                       double hardness_hb) noexcept;

/// One hole: spindle step and feed, thrust (as feed force), torque, power, time.
///
/// A drill's travel counts its point; a tap goes in and comes out again. From three diameters on a drill runs
/// slower and is fed finer, from four it is withdrawn to clear its chips: `passes_down` counts the pecks, the
/// time has the withdrawals. A spot drill is computed as a drill of the spot's diameter. Countersink,
/// counterbore and a reamer in a known hole cut the ring between hole and diameter, all teeth alike. A
/// forming tap is computed from the torque of a cutting one.
///
/// Returned
///   ok and every figure that applies; or why not, and every figure NaN
///   status.argument counts in kHoleArguments
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const machine::Machine& machine,
                              const HoleRequest& request, CutResult& out) noexcept;

/// evaluate() that throws DomainError or NotTabulatedError.
[[nodiscard]] CutResult cut(const Catalogue& catalogue, const machine::Machine& machine,
                            const HoleRequest& request);

}  // namespace halfnut::cutting
