#pragma once
/// Cuts on a lathe with a single-point tool: turn, face, bore, part off; and knurling and threading as far
/// as speed and feed go.

#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

class TurnedBeam;

enum class LatheCut : std::uint8_t { turn, face, bore, part_off, knurl, thread };

constexpr auto enum_names(LatheCut /*tag*/) {
    using std::string_view;
    return std::array{std::pair{LatheCut::turn, string_view("turn")},
                      std::pair{LatheCut::face, string_view("face")},
                      std::pair{LatheCut::bore, string_view("bore")},
                      std::pair{LatheCut::part_off, string_view("part off")},
                      std::pair{LatheCut::knurl, string_view("knurl")},
                      std::pair{LatheCut::thread, string_view("thread")}};
}

/// What is asked of a lathe cut. NaN is not given.
struct TurnRequest {
    LatheCut cut{};
    Work work;
    ToolMaterial tool_material = ToolMaterial::hss;

    double diameter_mm = kNaN;      ///< where the edge runs: before the cut outside, after it in a bore
    double end_diameter_mm = kNaN;  ///< facing and parting: where the cut ends; NaN: at the centre
    double depth_mm = kNaN;         ///< on the radius; facing: along the axis; parting: width of the blade;
                                    ///< NaN: usual_depth_mm()
    double length_mm = kNaN;        ///< of the cut along the axis; facing and parting know their own
    double feed_mm_rev = kNaN;      ///< wanted; threading: the pitch
    double spindle_rpm = kNaN;      ///< wanted
    double bore_mm = kNaN;          ///< of a tube
    double stick_out_mm = kNaN;     ///< of the work from the jaws, or between the centres; of a bar from its
                                    ///< holder; NaN: as far as the cut is long
    double bar_diameter_mm = kNaN;  ///< boring: of the bar
    double nose_radius_mm = kNaN;   ///< NaN: 0.8
    double entering_deg = kNaN;     ///< NaN: 90
    double rake_deg = kNaN;         ///< NaN: as the constants were measured
    double wear_factor = kNaN;      ///< on the force; NaN: sharp, limits with ordinary wear
    double roughness_limit_um = kNaN;
    double deflection_limit_mm = kNaN;
    double approach_mm = kNaN;        ///< NaN: 2
    double overrun_mm = kNaN;         ///< NaN: 0
    double span_mm = kNaN;            ///< longest free span where steadies hold the work; NaN: the overhang
    double stock_diameter_mm = kNaN;  ///< of the bar or blank that is held; NaN: diameter_mm
    double stock_flats_mm = kNaN;     ///< of a hexagon, across its flats
    double bar_length_mm = kNaN;      ///< of the whole bar, where it goes through the spindle
    double bar_behind_mm = kNaN;      ///< free behind the spindle, in place of the bar's length
    BarMaterial bar_material{};       ///< boring: of the bar
    bool finish = false;              ///< a finishing cut, whatever its depth
    Skin skin{};                      ///< of the stock
    bool inch = false;                ///< the question is in inch units: so are the usual sizes
    Hold hold{};
    int chuck = -1;                    ///< place in Machine::chucks; -1: none
    const TurnedBeam* beam = nullptr;  ///< stepped work that is turned, in place of a plain bar; not owned
};

inline constexpr double kNoseRadiusMm = 0.8;
inline constexpr double kEnteringDeg = 90.0;
inline constexpr double kApproachMm = 2.0;

/// Feed wanted when none was asked for, rough and finish, held within the table's feeds.
inline constexpr double kRoughFeedMm = 0.2;
inline constexpr double kFinishFeedMm = 0.1;
inline constexpr double kBoreFeedMm = 0.1;
inline constexpr double kPartingFeedMm = 0.05;

/// Depth taken when none was asked for, rough and finish, in metric and in inch questions; at most a quarter
/// of the radius. Common practice.
inline constexpr double kRoughDepthMm = 1.0;
inline constexpr double kFinishDepthDefaultMm = 0.25;
inline constexpr double kRoughDepthIn = 0.040;
inline constexpr double kFinishDepthIn = 0.010;

/// Width of a parting blade when none was given, in metric and in inch questions. Common practice.
inline constexpr double kBladeMm = 3.0;
inline constexpr double kBladeIn = 0.125;

/// Depth of a cut over its feed, at least: no feed table raises the usual feed beyond that. US Army subcourse
/// OD1645, Lathe Operations (1988): depth 5 to 10 times the feed.
inline constexpr double kDepthOverFeed = 5.0;

/// Largest feed as a share of the nose radius.
inline constexpr double kFeedOverNose = 0.6;

/// A chip thinner than this rubs: a third of the edge radius of a carbide insert, 0.025 mm or so.
inline constexpr double kRubbingThicknessMm = 0.01;

/// Work sticks out far from these on, in diameters: in a chuck, steadied at its end.
inline constexpr double kSlenderChuck = 4.0;
inline constexpr double kSlenderCentre = 12.0;

/// A wall is thin below this share of the diameter.
inline constexpr double kThinWall = 0.1;

/// Worst place between chuck and centre, see chuck_centre_deflection_mm.
inline constexpr double kMiddleOfChuckCentre = 102.0;

/// Deflection at that place, mm; arguments as for chuck_centre_deflection_mm.
inline double chuck_and_centre_deflection(double force, double length, double e, double i) noexcept {
    return force * length * length * length / (kMiddleOfChuckCentre * 1000.0 * e * i);
}

/// Factor on the force of a sharp edge at which limits are judged where no wear is given: ordinary turning
/// and drilling. Machinery's Handbook 31st ed., p. 1147, machining power.
inline constexpr double kOrdinaryWear = 1.3;

/// Flank wear of an edge in use: half of the 0.3 mm at which ISO 3685 ends its life (recalled); and of one
/// that is as blunt as that, whose wear factor is 1.3 to 1.5 (Tschaetsch, recalled).
inline constexpr double kOrdinaryFlankMm = 0.15;
inline constexpr double kBluntFlankMm = 0.3;
inline constexpr double kBluntWear = 1.4;

/// Force across the edge, in the plane of feed and depth, over the cutting force, by flank wear: measured
/// Fp/Fc 0.63, 0.84, 1.37 and Ff/Fc 0.46, 0.51, 0.86 at 0, 0.1 and 0.3 mm; the root of the sum of squares.
inline constexpr double kSharpShare = 0.780;
inline constexpr double kMiddleFlankMm = 0.1;
inline constexpr double kMiddleShare = 0.983;
inline constexpr double kBluntShare = 1.618;

/// That share between the measured flank wears, held at the last.
inline constexpr double normal_share_at(double flank_mm) noexcept {
    const double first = kSharpShare + (kMiddleShare - kSharpShare) / kMiddleFlankMm * flank_mm;
    const double second = kMiddleShare + (kBluntShare - kMiddleShare) / (kBluntFlankMm - kMiddleFlankMm) *
                                             (flank_mm - kMiddleFlankMm);
    const double rising = flank_mm < kMiddleFlankMm ? first : second;
    return rising < kBluntShare ? rising : kBluntShare;
}
inline constexpr double kOrdinaryShare = normal_share_at(kOrdinaryFlankMm);

/// The share at a wear factor, 1 sharp; NaN: ordinary wear.
inline double normal_share(double wear_factor) noexcept {
    const double given = normal_share_at(kBluntFlankMm / (kBluntWear - 1.0) * (wear_factor - 1.0));
    return wear_factor == wear_factor ? given : kOrdinaryShare;
}

/// The numbers of a request with their ranges.
inline constexpr std::array kTurnArguments{
    RequestArgument<TurnRequest>{positive("diameter_mm", "mm"), &TurnRequest::diameter_mm, true},
    RequestArgument<TurnRequest>{not_negative("end_diameter_mm", "mm"), &TurnRequest::end_diameter_mm, false,
                                 "be below diameter_mm"},
    RequestArgument<TurnRequest>{positive("depth_mm", "mm"), &TurnRequest::depth_mm, false,
                                 "be at most half of diameter_mm"},
    RequestArgument<TurnRequest>{positive("length_mm", "mm"), &TurnRequest::length_mm},
    RequestArgument<TurnRequest>{positive("feed_mm_rev", "mm/rev"), &TurnRequest::feed_mm_rev},
    RequestArgument<TurnRequest>{positive("spindle_rpm", "rev/min"), &TurnRequest::spindle_rpm},
    RequestArgument<TurnRequest>{not_negative("bore_mm", "mm"), &TurnRequest::bore_mm, false,
                                 "be below diameter_mm"},
    RequestArgument<TurnRequest>{positive("stick_out_mm", "mm"), &TurnRequest::stick_out_mm, false,
                                 "be at least length_mm"},
    RequestArgument<TurnRequest>{positive("bar_diameter_mm", "mm"), &TurnRequest::bar_diameter_mm, false,
                                 "be below diameter_mm"},
    RequestArgument<TurnRequest>{not_negative("nose_radius_mm", "mm"), &TurnRequest::nose_radius_mm},
    RequestArgument<TurnRequest>{between("entering_deg", 10.0, 120.0, "deg"), &TurnRequest::entering_deg},
    RequestArgument<TurnRequest>{between("rake_deg", -30.0, 40.0, "deg"), &TurnRequest::rake_deg},
    RequestArgument<TurnRequest>{between("wear_factor", 1.0, 3.0), &TurnRequest::wear_factor},
    RequestArgument<TurnRequest>{positive("roughness_limit_um", "um"), &TurnRequest::roughness_limit_um},
    RequestArgument<TurnRequest>{positive("deflection_limit_mm", "mm"), &TurnRequest::deflection_limit_mm},
    RequestArgument<TurnRequest>{not_negative("approach_mm", "mm"), &TurnRequest::approach_mm},
    RequestArgument<TurnRequest>{not_negative("overrun_mm", "mm"), &TurnRequest::overrun_mm},
    RequestArgument<TurnRequest>{positive("span_mm", "mm"), &TurnRequest::span_mm},
    RequestArgument<TurnRequest>{positive("stock_diameter_mm", "mm"), &TurnRequest::stock_diameter_mm, false,
                                 "be at least diameter_mm"},
    RequestArgument<TurnRequest>{positive("stock_flats_mm", "mm"), &TurnRequest::stock_flats_mm, false,
                                 "be left away where stock_diameter_mm is given"},
    RequestArgument<TurnRequest>{positive("bar_length_mm", "mm"), &TurnRequest::bar_length_mm},
    RequestArgument<TurnRequest>{not_negative("bar_behind_mm", "mm"), &TurnRequest::bar_behind_mm, false,
                                 "be left away where bar_length_mm is given"},
};

/// One cut on a lathe: spindle step and feed, force, power, finish, deflection, time.
///
/// The spindle step is the fastest that is not above the speed window, nor above the chuck's limit, nor above
/// half the first whirl of the overhanging work and of the bar behind the spindle. The
/// feed is the one asked for, or a usual one within the table's, held back by the nose and by the roughness
/// wanted; a feed that was not asked for is made finer until power, torque and deflection hold.
///
/// Given
///   catalogue   the tables
///   machine     a lathe; any_machine() for none in particular
///   request     see TurnRequest
/// Returned
///   ok and every figure that applies; or why not, and every figure NaN
///   status.argument counts in kTurnArguments; for work that the machine has no room for see obstacle_of()
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const machine::Machine& machine,
                              const TurnRequest& request, CutResult& out) noexcept;

/// What the tables give for a cut. It depends on alloy, hardness and tool, on whether the cut finishes, and
/// in steps on depth and feed; rows that share it need not look it up again.
struct TurnTables {
    Operation operation{};
    ForceConstants constants;
    ForceBand band;
    SpeedWindow window;
    Status window_status;
    FeedWindow feeds;  ///< around the usual feed; counts where none was asked for
    bool has_feeds = false;
};

/// The tables' part of evaluate().
///
/// Given
///   catalogue   the tables
///   request     with an alloy of the catalogue and a diameter; see TurnRequest
///   kin         rows of the alloy's kin; null: the tables are searched
/// Returned
///   window_status is not_tabulated where no row of any kin has a speed
[[nodiscard]] TurnTables turn_tables(const Catalogue& catalogue, const TurnRequest& request,
                                     const KinRows* kin) noexcept;

/// evaluate() with what turn_tables() gave, for this request or one that shares its tables: the same answer.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const machine::Machine& machine,
                              const TurnRequest& request, const TurnTables& tables, CutResult& out) noexcept;

/// Feed wanted when none was asked for and no table has one.
[[nodiscard]] double usual_feed_mm(LatheCut cut, bool finish) noexcept;

/// Depth of a turning, facing or boring cut that was not given: a round figure in the system of the question,
/// at most a quarter of the radius. One that comes out as shallow as a finishing cut is one.
[[nodiscard]] double usual_depth_mm(double diameter_mm, bool finish, bool inch) noexcept;

/// Width of a parting blade that was not given.
[[nodiscard]] double usual_blade_mm(bool inch) noexcept;

/// evaluate() that throws.
///
/// Errors
///   DomainError         a number out of its range, named with value, unit and range
///   NotTabulatedError   no speed for this material, operation and tool
[[nodiscard]] CutResult cut(const Catalogue& catalogue, const machine::Machine& machine,
                            const TurnRequest& request);

}  // namespace halfnut::cutting
