#include "halfnut/cutting/hole_making.hpp"

#include <algorithm>
#include <cmath>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/holes.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/material/alloy.hpp"
#include "mounting.hpp"
#include "steps.hpp"

namespace halfnut::cutting {
namespace {

constexpr double kDrillForm = 1.2;        // Tschaetsch: chips are harder to form in a hole
constexpr double kUsualFeedShare = 0.01;  // of the diameter, where no table has a feed
constexpr double kRingThrust = 0.6;       // of the tangential force, across the edge, as in turning

constexpr std::uint8_t argument_place(std::string_view name) noexcept {
    for (std::size_t i = 0; i < kHoleArguments.size(); ++i) {
        if (kHoleArguments[i].argument.name == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return 0;
}

Operation operation_of(HoleCut cut) noexcept {
    switch (cut) {
        case HoleCut::ream:
            return Operation::ream;
        case HoleCut::tap:
        case HoleCut::form_tap:
            return Operation::tap;
        case HoleCut::spot:
            return Operation::spot;
        case HoleCut::countersink:
            return Operation::countersink;
        case HoleCut::counterbore:
            return Operation::counterbore;
        default:
            return Operation::drill;
    }
}

/// Whether the tool cuts the ring between a hole and its own diameter.
bool cuts_ring(const HoleRequest& request) noexcept {
    return request.cut == HoleCut::countersink || request.cut == HoleCut::counterbore ||
           (request.cut == HoleCut::ream && request.pilot_mm > 0.0);
}
bool taps(HoleCut cut) noexcept {
    return cut == HoleCut::tap || cut == HoleCut::form_tap;
}
/// Whether forces are computed; those of a reamer hang on the hole it follows.
bool has_force(const HoleRequest& request) noexcept {
    return request.cut != HoleCut::ream || cuts_ring(request);
}
bool drills(HoleCut cut) noexcept {
    return cut == HoleCut::drill || cut == HoleCut::spot;
}
double point_of(const HoleRequest& request) noexcept {
    return value_or(request.point_deg, request.cut == HoleCut::drill ? kPointDeg : kConeDeg);
}

Status check_shape(const HoleRequest& request) noexcept {
    const bool follows = request.cut == HoleCut::countersink || request.cut == HoleCut::counterbore;
    if (request.pilot_mm >= request.diameter_mm || (follows && std::isnan(request.pilot_mm))) {
        return {StatusCode::inconsistent, argument_place("pilot_mm")};
    }
    if (taps(request.cut) && !(request.pitch_mm < request.diameter_mm / 2.0)) {
        return {StatusCode::inconsistent, argument_place("pitch_mm")};
    }
    if (request.stock_diameter_mm <= request.diameter_mm) {
        return {StatusCode::inconsistent, argument_place("stock_diameter_mm")};
    }
    if (!std::isnan(request.stock_flats_mm) &&
        (!std::isnan(request.stock_diameter_mm) || request.stock_flats_mm <= request.diameter_mm)) {
        return {StatusCode::inconsistent, argument_place("stock_flats_mm")};
    }
    const bool stock = !std::isnan(request.stock_diameter_mm) || !std::isnan(request.stock_flats_mm);
    if (!std::isnan(request.bar_length_mm) && !stock) {
        return {StatusCode::inconsistent, argument_place("bar_length_mm")};
    }
    if (!std::isnan(request.bar_behind_mm) && (!stock || !std::isnan(request.bar_length_mm))) {
        return {StatusCode::inconsistent, argument_place("bar_behind_mm")};
    }
    return {};
}

/// The work of a hole in a lathe; elsewhere it stands still.
Mounting mounting_of(const machine::Machine& machine, const HoleRequest& request) noexcept {
    Mounting out;
    if (machine.kind != machine::Kind::lathe) {
        return out;
    }
    const bool hexagon = !std::isnan(request.stock_flats_mm);
    const double stock = hexagon ? kHexagonWide * request.stock_flats_mm : request.stock_diameter_mm;
    const double round = hexagon ? kHexagonRound * request.stock_flats_mm : request.stock_diameter_mm;
    out.swings_mm = std::fmax(stock, request.diameter_mm);
    out.held_mm = hexagon ? request.stock_flats_mm : request.stock_diameter_mm;
    out.length_mm = request.stick_out_mm;
    out.left_mm = round;
    out.bar_mm = round;
    out.bar_length_mm = request.bar_length_mm;
    out.bar_behind_mm = request.bar_behind_mm;
    out.chuck = request.chuck;
    return out;
}

const DrillPointRow& point_row(const Catalogue& catalogue) noexcept {
    const DrillPointRow* nearest = &catalogue.drill_points.front();
    for (const DrillPointRow& row : catalogue.drill_points) {
        if (std::abs(row.chisel_ratio - kStandardChiselRatio) <
            std::abs(nearest->chisel_ratio - kStandardChiselRatio)) {
            nearest = &row;
        }
    }
    return *nearest;
}

/// Thrust and torque of a drill at a feed.
void compute_drill(const Catalogue& catalogue, const HoleRequest& request, const ForceConstants& constants,
                   const DrillFactor& factor, double feed, CutResult& out) noexcept {
    const DrillPointRow& point = point_row(catalogue);
    const double d = request.diameter_mm;
    const double w = value_or(request.wear_factor, 1.0);
    out.feed_mm_rev = feed;
    out.chip_thickness_mm = feed / 2.0 * sine_deg(point_of(request) / 2.0);
    double kd = factor.kd;
    if (factor.from_kc) {
        // The torque of kc over both lips, F = kc D f / 4 each at a lever of D / 2, as a factor of the
        // handbook's form.
        const double torque_nm =
            capped_kc(constants, out.chip_thickness_mm, kDrillForm) * feed * d * d / 8000.0;
        kd = torque_nm / DrillingTorque::compute(1.0, feed, d, point.torque_a, 1.0);
    }
    // A pilot hole takes its share of the section, and the chisel edge with it.
    const double share = value_or(request.pilot_mm, 0.0) / d;
    const double chisel = share > 0.0 ? 0.0 : point.thrust_j;
    out.torque_nm = DrillingTorque::compute(kd, feed, d, point.torque_a, w) * (1.0 - share * share);
    out.feed_force_n = DrillingThrust::compute(kd, feed, d, point.thrust_b, chisel, w) * (1.0 - share);
    out.spindle_power_kw = TorquePower::compute(out.torque_nm, out.spindle_rpm);
    out.mrr_cm3_min =
        DrillingRemoval::compute(d, FeedRate::compute(feed, out.spindle_rpm)) * (1.0 - share * share);
    set_band(out);
}

/// Lead angle and teeth of a tool that cuts a ring.
struct RingTool {
    double half_deg = 0.0;
    double teeth = 0.0;
};
RingTool ring_tool(const HoleRequest& request) noexcept {
    switch (request.cut) {
        case HoleCut::countersink:
            return {point_of(request) / 2.0, value_or(request.teeth, kConeTeeth)};
        case HoleCut::ream:
            return {kReamerLeadDeg, value_or(request.teeth, kReamerTeeth)};
        default:
            return {90.0, value_or(request.teeth, kConeTeeth)};
    }
}

/// Torque and thrust of a ring: its chip half-way out, a countersink's at its widest.
void compute_ring(const HoleRequest& request, const ForceConstants& constants, double feed,
                  CutResult& out) noexcept {
    const double d = request.diameter_mm;
    const double hole = request.pilot_mm;
    const RingTool tool = ring_tool(request);
    out.feed_mm_rev = feed;
    out.chip_thickness_mm = feed / tool.teeth * sine_deg(tool.half_deg);
    const double kc = capped_kc(constants, out.chip_thickness_mm, kDrillForm);
    const double tangential = value_or(request.wear_factor, 1.0) * kc * feed * (d - hole) / 2.0;
    out.torque_nm = tangential * (d + hole) / 4.0 / 1000.0;
    out.feed_force_n = kRingThrust * tangential * sine_deg(tool.half_deg);
    out.spindle_power_kw = TorquePower::compute(out.torque_nm, out.spindle_rpm);
    out.mrr_cm3_min =
        DrillingRemoval::compute(d, FeedRate::compute(feed, out.spindle_rpm)) * (1.0 - hole * hole / (d * d));
    set_band(out);
}

void compute_tap(const HoleRequest& request, const ForceConstants& constants, CutResult& out) noexcept {
    out.feed_mm_rev = request.pitch_mm;
    out.chip_thickness_mm = kTapChipOverPitch * request.pitch_mm;
    const double kc = capped_kc(constants, out.chip_thickness_mm, 1.0);
    out.torque_nm = TappingTorque::compute(kc, request.pitch_mm, request.diameter_mm,
                                           kTapFriction * value_or(request.wear_factor, 1.0));
    if (request.cut == HoleCut::form_tap) {
        out.chip_thickness_mm = kNaN;
        out.torque_nm *= kFormTapTorque;
    }
    out.spindle_power_kw = TorquePower::compute(out.torque_nm, out.spindle_rpm);
    set_band(out);
}

/// Torque of a tap against half of what breaks it at the least: what overload clutches are set to.
void note_tap_core(const Catalogue& catalogue, const HoleRequest& request, CutResult& out) noexcept {
    if (request.cut != HoleCut::tap || catalogue.tap_cores.empty() || std::isnan(out.torque_nm)) {
        return;
    }
    const double d = request.diameter_mm;
    const TapCoreRow* below = &catalogue.tap_cores.front();
    const TapCoreRow* above = nullptr;
    for (const TapCoreRow& row : catalogue.tap_cores) {  // sorted
        if (!(row.diameter_mm > d)) {
            below = &row;
        } else if (above == nullptr) {
            above = &row;
        }
    }
    double ratio = below->core_ratio;
    if (above != nullptr && d > below->diameter_mm) {
        ratio += (above->core_ratio - ratio) * (d - below->diameter_mm) /
                 (above->diameter_mm - below->diameter_mm);
    }
    const double breaks = TwistStrength::compute(below->shear_low_mpa, ratio * d);
    out.limit(LimitCode::tap_breaks, at_edge(out.torque_nm, out), kTapClutchShare * breaks);
    out.evidence.note(figure("torque_nm"), rule::tap_breaks, row_ref(catalogue.tap_cores, *below));
    if (at_edge(out.torque_nm, out) > kTapClutchShare * breaks) {
        out.caution(CautionCode::tap_breaks);
    }
}

/// Thrust of a drill against the least that buckles it, held in the chuck and pinned by its point.
void note_buckling(const HoleRequest& request, CutResult& out) noexcept {
    if (request.cut != HoleCut::drill || std::isnan(out.feed_force_n)) {
        return;
    }
    const bool carbide = request.tool_material == ToolMaterial::carbide ||
                         request.tool_material == ToolMaterial::carbide_coated;
    const double d = request.diameter_mm;
    const double free = std::fmax(kDrillFreeDiameters * d + kDrillFreeMm, value_or(request.depth_mm, 0.0));
    const double buckles = PinnedBuckling::compute(free, carbide ? kCarbideCutterGpa : kSteelCutterGpa,
                                                   SecondMoment::compute(kDrillCore * d, 0.0));
    out.limit(LimitCode::drill_buckles, at_edge(out.feed_force_n, out), buckles);
    out.evidence.note(figure("feed_force_n"), rule::drill_buckles);
    if (at_edge(out.feed_force_n, out) > buckles) {
        out.caution(CautionCode::drill_buckles);
    }
}

/// Row of a drilled hole so deep that speed and feed are reduced; null else.
const DeepHoleRow* deep_row(const Catalogue& catalogue, const HoleRequest& request) noexcept {
    const DeepHoleRow* deep = nullptr;
    for (const DeepHoleRow& row : catalogue.deep_holes) {  // sorted
        if (request.cut == HoleCut::drill && !(request.depth_mm < row.depth_ratio * request.diameter_mm)) {
            deep = std::isnan(request.depth_mm) ? nullptr : &row;
        }
    }
    return deep;
}

/// The feed that is wanted, the most that still suits, and the least that a drill or reamer still cuts at.
struct Wanted {
    double feed = kNaN;
    double most = kNaN;
    double least = kNaN;
};

Wanted wanted_feed(const Catalogue& catalogue, const HoleRequest& request, const material::AlloyRow& alloy,
                   const FireLimitRow* fire, CutResult& out) noexcept {
    const std::uint8_t key = figure("feed_mm_rev");
    if (taps(request.cut)) {
        out.evidence.note(key, rule::feed_pitch);
        out.feed_limited_by = LimitCode::asked;
        return {request.pitch_mm, request.pitch_mm};
    }
    const double finest = fire == nullptr ? 0.0 : fire->feed_least_mm;
    if (!std::isnan(request.feed_mm_rev)) {
        if (request.cut != HoleCut::drill && request.feed_mm_rev < finest) {
            out.caution(CautionCode::fine_feed_fire);
        }
        out.evidence.note(key, rule::feed_asked);
        out.feed_limited_by = LimitCode::asked;
        return {request.feed_mm_rev, request.feed_mm_rev};
    }
    out.feed_limited_by = LimitCode::feed_guide;
    if (request.cut == HoleCut::countersink || request.cut == HoleCut::counterbore) {
        const double tooth =
            std::clamp(kConeFeedShare * request.diameter_mm, kConeFeedLowMm, kConeFeedHighMm);
        out.evidence.note(key, rule::feed_cone);
        const double teeth = value_or(request.teeth, kConeTeeth);
        return {std::max(teeth * tooth, finest), std::max(teeth * kConeFeedHighMm, finest)};
    }
    FeedWindow window;
    double feed = kUsualFeedShare * request.diameter_mm;
    double most = feed;
    double least = kLeastHandFeed * feed;
    const WindowQuery query{&alloy, request.work.hardness_hb, Operation::drill, request.tool_material, kNaN,
                            kNaN,   request.diameter_mm};
    if (feed_window(catalogue, query, window).ok()) {
        feed = std::sqrt(window.low_mm * window.high_mm);
        most = window.high_mm;
        // fed finer than its window, a drill hardens such a metal in front of itself
        const bool whole = fire != nullptr || material::has_word(alloy.traits, "work_hardening");
        least = (whole ? 1.0 : kLeastHandFeed) * window.low_mm;
        out.evidence.note(key, rule::feed_drill, window.row);
        if (window.shared) {
            out.evidence.note(key, rule::feed_drill_share, window.share_row);
        }
        if (window.held_by_fire) {
            out.evidence.note(key, rule::fire_feed, window.fire_row);
        }
    } else {
        out.evidence.note(key, rule::feed_drill);
    }
    if (const DeepHoleRow* const deep = deep_row(catalogue, request); deep != nullptr && fire == nullptr) {
        feed *= deep->feed_share;
        least *= deep->feed_share;
        out.evidence.note(key, rule::deep_hole, row_ref(catalogue.deep_holes, *deep));
    }
    if (request.cut == HoleCut::ream) {
        feed *= kReamFeed;
        most *= kReamFeed;
        least *= kReamFeed;
        out.evidence.note(key, rule::feed_ream);
    }
    return {feed, most, least};
}

std::string_view slide_of(const machine::Machine& machine) noexcept {
    return machine.kind == machine::Kind::lathe ? "tailstock" : "quill";
}

bool fed_by_hand(const machine::Machine& machine) noexcept {
    return !is_any(machine) && (machine.kind == machine::Kind::lathe || machine.quill.steps.empty());
}

/// Fastest spindle at which hands still feed a drill or reamer as much as it must cut; NaN: no such bound.
double hand_rpm(const machine::Machine& machine, const HoleRequest& request, const Wanted& suits) noexcept {
    if (taps(request.cut) || !fed_by_hand(machine)) {
        return kNaN;
    }
    const double fed = hand_feed_mm_min(machine, slide_of(machine)) / suits.least;
    return request.cut == HoleCut::ream ? std::fmin(fed, machine.hand_ream_rpm) : fed;
}

/// Set the feed of a drill or reamer, finer than wanted where power or torque will not hold, and by hand no
/// faster than a hand turns.
template <class Compute>
void choose_feed(const machine::Machine& machine, HoleCut cut, bool free_choice, Wanted suits, CutResult& out,
                 const Compute& compute) noexcept {
    double wanted = suits.feed;
    if (is_any(machine)) {
        out.feed_source = FeedSource::exact;
        compute(wanted);
        return;
    }
    if (fed_by_hand(machine)) {
        out.feed_source = FeedSource::hand;
        const double fastest = hand_feed_mm_min(machine, slide_of(machine)) / out.spindle_rpm;
        if (free_choice && fastest < wanted) {
            wanted = fastest;
            out.feed_limited_by = LimitCode::hand_feed;
            out.evidence.note(figure("feed_mm_rev"), rule::feed_by_hand);
        }
        compute(wanted);
        return;
    }
    std::size_t step = machine::choose_feed(machine.quill, wanted);
    if (machine.quill.steps[step].feed_mm > suits.most * (1.0 + 1e-9)) {
        out.feed_source = FeedSource::hand;
        out.evidence.note(figure("feed_mm_rev"), rule::feed_hand_finer);
        if (cut != HoleCut::spot) {  // which is fed by hand anywhere
            out.caution(CautionCode::below_smallest_feed);
        }
        compute(wanted);
        return;
    }
    out.feed_source = FeedSource::step;
    compute(machine.quill.steps[step].feed_mm);
    while (free_choice && step > 0 && !power_holds(machine, out)) {
        --step;
        out.feed_limited_by = LimitCode::power;
        compute(machine.quill.steps[step].feed_mm);
    }
    if (out.feed_limited_by == LimitCode::power) {
        out.evidence.note(figure("feed_mm_rev"), rule::feed_power);
    }
    if (!free_choice && std::abs(out.feed_mm_rev - wanted) > 1e-9 * wanted) {
        out.caution(CautionCode::asked_feed_moved);
    }
    if (out.feed_mm_rev > wanted * (1.0 + 1e-9)) {
        out.feed_limited_by = LimitCode::machine_finest_feed;
    }
    out.feed_step = step;
}

void note_force(const Catalogue& catalogue, const HoleRequest& request, const ForceConstants& constants,
                const DrillFactor& factor, CutResult& out) noexcept {
    const std::uint8_t torque = figure("torque_nm");
    if (cuts_ring(request)) {
        out.evidence.note(torque, rule::ring_torque);
        out.evidence.note(figure("feed_force_n"), rule::ring_thrust);
        note_constants(torque, constants, out);
        out.evidence.note(figure("mrr_cm3_min"), rule::removal_drilling);
    } else if (drills(request.cut)) {
        out.evidence.note(torque, rule::drill_torque, row_ref(catalogue.drill_points, point_row(catalogue)));
        out.evidence.note(figure("feed_force_n"), rule::drill_thrust,
                          row_ref(catalogue.drill_points, point_row(catalogue)));
        if (factor.from_kc) {
            out.evidence.note(torque, rule::kd_from_kc);
            note_constants(torque, constants, out);
        } else {
            out.evidence.note(torque, rule::kd_row, factor.row);
            if (constants.shifted) {
                out.evidence.note(torque, rule::kc_hardness);
            }
        }
        if (request.pilot_mm > 0.0) {
            out.evidence.note(torque, rule::drill_pilot);
        }
        out.evidence.note(figure("mrr_cm3_min"), rule::removal_drilling);
    } else {
        out.evidence.note(torque, rule::tap_torque);
        if (request.cut == HoleCut::form_tap) {
            out.evidence.note(torque, rule::form_tap_torque);
        }
        note_constants(torque, constants, out);
    }
    const bool of_kc = factor.from_kc || !drills(request.cut);
    const double form = taps(request.cut) ? 1.0 : kDrillForm;
    if (of_kc && capped_kc(constants, out.chip_thickness_mm, form) == kMostOverKc11 * constants.kc11_n_mm2) {
        out.evidence.note(torque, rule::force_capped);
    }
    if (!std::isnan(request.wear_factor)) {
        out.evidence.note(torque, rule::wear);
    } else if (!taps(request.cut)) {
        out.evidence.note(figure("spindle_power_high_kw"), rule::ordinary_wear);
    }
    out.evidence.note(figure("spindle_power_kw"), rule::power_from_torque);
    note_band("spindle_power_high_kw", out);
    if (constants.rough && (factor.from_kc || !drills(request.cut))) {
        out.caution(CautionCode::force_rough);
    }
}

double travel_of(const HoleRequest& request, CutResult& out) noexcept {
    if (request.cut == HoleCut::spot || request.cut == HoleCut::countersink) {
        const double cone = CountersinkDepth::compute(request.diameter_mm, value_or(request.pilot_mm, 0.0),
                                                      point_of(request));
        out.evidence.note(figure("travel_mm"), rule::cone_depth);
        return cone + value_or(request.approach_mm, 2.0) + value_or(request.overrun_mm, 0.0);
    }
    double travel = request.depth_mm + value_or(request.approach_mm, 2.0) + value_or(request.overrun_mm, 0.0);
    if (request.cut == HoleCut::drill) {
        travel +=
            PointLength::compute(request.diameter_mm, value_or(request.point_deg, kPointDeg)) -
            PointLength::compute(value_or(request.pilot_mm, 0.0), value_or(request.point_deg, kPointDeg));
        if (!std::isnan(travel)) {
            out.evidence.note(figure("travel_mm"), rule::point_length);
        }
    }
    return taps(request.cut) ? 2.0 * travel : travel;
}

}  // namespace

Pecks pecks_of(const material::AlloyRow& alloy, double diameter_mm, double depth_mm) noexcept {
    if (!(depth_mm > kDeepHole * diameter_mm)) {
        return {};
    }
    const double share = material::has_word(alloy.traits, "long_chips") ? 0.5 : 1.0;
    const double first = kFirstPeck * share * diameter_mm;
    const double each = kFurtherPeck * share * diameter_mm;
    const double more = std::ceil((depth_mm - first) / each - kLastPeck);
    return {1 + bounds::whole<int>(more, 0, bounds::kCount - 1), first, each};
}

DrillFactor drill_factor(const Catalogue& catalogue, const material::AlloyRow& alloy,
                         double hardness_hb) noexcept {
    int nearest = -1;
    for (const DrillMaterialRow& row : catalogue.drill_materials) {
        const int distance = material::kinship(catalogue, alloy, row.group);
        if (distance >= 0 && (nearest < 0 || distance < nearest)) {
            nearest = distance;
        }
    }
    if (nearest < 0) {
        return {kNaN, {}, true};
    }
    const double hb = value_or(hardness_hb, alloy.hardness_hb);
    const DrillMaterialRow* below = nullptr;
    const DrillMaterialRow* above = nullptr;
    for (const DrillMaterialRow& row : catalogue.drill_materials) {  // sorted by group, then hardness
        if (material::kinship(catalogue, alloy, row.group) != nearest) {
            continue;
        }
        if (below == nullptr || !(row.hardness_hb > hb)) {
            below = &row;
        }
        if (above == nullptr && !(row.hardness_hb < hb)) {
            above = &row;
        }
    }
    const RowRef ref = row_ref(catalogue.drill_materials, *below);
    if (below->hardness_hb == 0.0 || std::isnan(hb)) {
        return {below->kd_inch, ref, false};
    }
    if (above == nullptr || above == below || hb < below->hardness_hb) {
        return {below->kd_inch * power_of(hb / below->hardness_hb, kForceHardnessExponent), ref, false};
    }
    const double along = (hb - below->hardness_hb) / (above->hardness_hb - below->hardness_hb);
    return {below->kd_inch + along * (above->kd_inch - below->kd_inch), ref, false};
}

Status evaluate(const Catalogue& catalogue, const machine::Machine& machine, const HoleRequest& request,
                CutResult& out) noexcept {
    out = {};
    Status status = check_request(request, kHoleArguments);
    if (status.ok()) {
        status = check_shape(request);
    }
    if (status.ok()) {
        status = check_setting(catalogue, machine, request.work);
    }
    if (!status.ok()) {
        return status;
    }
    const material::AlloyRow& alloy = catalogue.alloys[request.work.alloy];
    if (std::isnan(alloy.youngs_modulus_gpa) &&
        (!std::isnan(request.bar_behind_mm) || !std::isnan(request.bar_length_mm))) {
        return {StatusCode::not_tabulated,
                argument_place(std::isnan(request.bar_behind_mm) ? "bar_length_mm" : "bar_behind_mm")};
    }
    SpeedWindow window;
    const WindowQuery query{
        &alloy, request.work.hardness_hb, operation_of(request.cut), request.tool_material, kNaN,
        kNaN,   request.diameter_mm};
    status = speed_window(catalogue, query, window);
    if (!status.ok()) {
        return {status.code, kNoArgument};
    }
    if (const DeepHoleRow* const deep = deep_row(catalogue, request); deep != nullptr) {
        window.low_m_min *= deep->speed_share;
        window.high_m_min *= deep->speed_share;
        out.evidence.note(figure("window_high_m_min"), rule::deep_hole, row_ref(catalogue.deep_holes, *deep));
    }
    const Mounting mounting = mounting_of(machine, request);
    status = check_room(machine, mounting, out);
    if (!status.ok()) {
        return status;
    }
    note_window(window, out);
    note_fluid(catalogue, alloy, query.operation, out);
    const FireLimitRow* const fire = fire_limit(catalogue, alloy);
    const Wanted wanted = wanted_feed(catalogue, request, alloy, fire, out);
    const SpeedBounds bounds{taps(request.cut) ? request.pitch_mm : kNaN, work_whirl_rpm(alloy, mounting),
                             bar_whirl_rpm(machine, alloy, mounting),     fire,
                             hand_rpm(machine, request, wanted),          taps(request.cut)};
    status = choose_speed(machine, request.diameter_mm, request.spindle_rpm, request.chuck, bounds, out);
    if (!status.ok()) {
        clear(out);
        return status;
    }
    note_room(machine, mounting, out);
    note_unknown_whirl(alloy, mounting, out);
    const ForceConstants constants = force_constants(catalogue, alloy, request.work.hardness_hb);
    const DrillFactor factor = drill_factor(catalogue, alloy, request.work.hardness_hb);
    if (has_force(request)) {
        const bool rough = constants.rough && (factor.from_kc || !drills(request.cut));
        out.band = force_band(catalogue, alloy, taps(request.cut) ? Process::tap : Process::drill, rough);
        // the friction of a tap counts for wear too
        out.ordinary_wear = taps(request.cut) || !std::isnan(request.wear_factor) ? 1.0 : kOrdinaryWear;
    }
    if (taps(request.cut)) {
        out.feed_source = FeedSource::exact;
        compute_tap(request, constants, out);
    } else {
        choose_feed(machine, request.cut, std::isnan(request.feed_mm_rev), wanted, out, [&](double feed) {
            out.feed_mm_rev = feed;
            if (cuts_ring(request)) {
                compute_ring(request, constants, feed, out);
            } else if (drills(request.cut)) {
                compute_drill(catalogue, request, constants, factor, feed, out);
            }
        });
    }
    if (has_force(request)) {
        note_force(catalogue, request, constants, factor, out);
        note_power(machine, out);
        note_tap_core(catalogue, request, out);
        note_buckling(request, out);
    }
    out.depth_mm = request.depth_mm;
    if (request.cut == HoleCut::drill && request.depth_mm > kDeepHole * request.diameter_mm) {
        out.caution(CautionCode::deep_hole);
    }
    if (request.cut == HoleCut::drill && material::has_word(alloy.traits, "grabs_drill")) {
        out.caution(CautionCode::grabs);
    }
    note_travel(machine, slide_of(machine), travel_of(request, out), out);
    note_slide_travel(machine, slide_of(machine), request.depth_mm, out);
    if (request.cut == HoleCut::drill) {
        out.passes_down = pecks_of(alloy, request.diameter_mm, request.depth_mm).count;
        out.passes = out.passes_down;
        if (out.passes > bounds::kPasses) {
            clear(out);
            return {StatusCode::inconsistent, argument_place("depth_mm")};
        }
        if (out.passes > 1) {
            out.time_s += kPeckSeconds * (out.passes - 1);
            out.evidence.note(figure("time_s"), rule::pecks);
        }
    }
    note_binding(machine, out);
    return finished(out);
}

CutResult cut(const Catalogue& catalogue, const machine::Machine& machine, const HoleRequest& request) {
    CutResult out;
    const Status status = evaluate(catalogue, machine, request, out);
    throw_if_no_room(machine, out, request.chuck);
    throw_if_failed(status, enum_name(request.cut), request, kHoleArguments);
    return out;
}

}  // namespace halfnut::cutting
