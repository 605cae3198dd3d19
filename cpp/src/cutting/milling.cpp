#include "halfnut/cutting/milling.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/milling_force.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "mill.hpp"
#include "mounting.hpp"
#include "steps.hpp"

namespace halfnut::cutting {
namespace {

using milling::kSameStep;

constexpr std::uint8_t argument_place(std::string_view name) noexcept {
    for (std::size_t i = 0; i < kMillArguments.size(); ++i) {
        if (kMillArguments[i].argument.name == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return 0;
}

Status check_shape(const MillRequest& request) noexcept {
    const double d = request.cutter_diameter_mm;
    const bool enclosed = request.shape == MillShape::slot || request.shape == MillShape::pocket;
    if ((request.shape != MillShape::slot && std::isnan(request.width_mm)) ||
        (enclosed && request.width_mm < d * (1.0 - kSameStep))) {
        return {StatusCode::inconsistent, argument_place("width_mm")};
    }
    if (request.step_over_mm > d) {
        return {StatusCode::inconsistent, argument_place("step_over_mm")};
    }
    return {};
}

/// Equal steps of at most `most` that make up `whole`.
struct Steps {
    int count = 1;
    double each = kNaN;
};
Steps equal_steps(double whole, double most) noexcept {
    const double count = std::max(1.0, std::ceil(whole / most - kSameStep));
    return {bounds::whole<int>(count, 1, bounds::kCount), whole / count};
}

/// Passes of the cut: how wide and deep each bites.
struct Passes {
    Steps across;
    Steps down;
    double bite_mm = kNaN;  ///< a_e of the widest pass
};

Passes passes_of(const MillRequest& request) noexcept {
    const double d = request.cutter_diameter_mm;
    Passes out;
    out.down =
        equal_steps(request.depth_mm, value_or(request.step_down_mm, milling::usual_down(request.shape, d)));
    const double width = value_or(request.width_mm, d);
    const double over = value_or(request.step_over_mm, milling::usual_over(request.shape, d));
    switch (request.shape) {
        case MillShape::face:
        case MillShape::side:
            out.across = equal_steps(width, over);
            out.bite_mm = out.across.each;
            break;
        default: {
            // The first pass is a full slot; the rest step over.
            const double rest = std::max(0.0, width - d);
            const Steps more = equal_steps(rest, over);
            out.across = {rest > kSameStep * d ? 1 + more.count : 1, d};
            out.bite_mm = d;
        }
    }
    return out;
}

/// Everything about a request that does not hang on the feed.
struct Filled {
    Filled(const MillRequest& asked, const material::AlloyRow& of) noexcept
        : request(asked), alloy(of), passes(passes_of(asked)) {}

    const MillRequest& request;
    const material::AlloyRow& alloy;
    Passes passes;
    ForceConstants constants;
    double entering = 90.0;
    const FinishBandRow* finish_band = nullptr;
    double aim = 1.0;  // roughness asked for over that of the geometry aimed at
};

/// Where a tooth is in the work, degrees: from the cutter's edge inward, a face mill's about its middle.
struct Arc {
    double entry = 0.0;
    double exit = 180.0;
};
Arc arc_of(const MillRequest& request, double bite) noexcept {
    const double d = request.cutter_diameter_mm;
    if (request.shape == MillShape::face) {
        const double half = asin_of(std::min(bite / d, 1.0)) / kDegree;
        return {90.0 - half, 90.0 + half};
    }
    return {0.0, Engagement::compute(bite, d)};
}

/// Feed a revolution that leaves a roughness, by geometry finer than that by `aim`.
double feed_for_finish(const MillRequest& request, double aim) noexcept {
    const double ra_mm = request.roughness_limit_um / aim / 1000.0;
    return request.shape == MillShape::face
               ? std::sqrt(32.0 * value_or(request.nose_radius_mm, kFaceNoseMm) * ra_mm)
               : std::sqrt(16.0 * request.cutter_diameter_mm * ra_mm);
}

/// Chip, force, power at a table feed.
void compute(const Filled& filled, double table_feed, CutResult& out) noexcept {
    const MillRequest& request = filled.request;
    const double d = request.cutter_diameter_mm;
    out.feed_mm_min = table_feed;
    out.feed_mm_rev = table_feed / out.spindle_rpm;
    out.feed_per_tooth_mm = out.feed_mm_rev / request.teeth;
    out.depth_mm = filled.passes.down.each;
    out.width_mm = filled.passes.bite_mm;
    const double bite = std::min(out.width_mm, d);
    out.chip_thickness_mm = MillingChipMean::compute(out.feed_per_tooth_mm, bite, d, filled.entering);
    out.chip_thickness_max_mm = MillingChipMax::compute(out.feed_per_tooth_mm, bite, d, filled.entering);
    out.mrr_cm3_min = MillingRemoval::compute(out.depth_mm, bite, table_feed);
    const double kc = SpecificCuttingForce::compute(filled.constants.kc11_n_mm2, filled.constants.mc,
                                                    out.chip_thickness_mm) *
                      milling::kForm * value_or(request.wear_factor, 1.0) *
                      speed_correction(filled.constants, out.cutting_speed_m_min);
    out.spindle_power_kw = out.mrr_cm3_min * kc / 60000.0;
    out.cutting_force_n = out.spindle_power_kw * 60000.0 / out.cutting_speed_m_min;
    out.torque_nm = SpindleTorque::compute(out.cutting_force_n, d);
    const Arc arc = arc_of(request, bite);
    out.feed_force_n = out.cutting_force_n * MillingFeedForce::compute(arc.entry, arc.exit, kRadialShare);
    out.passive_force_n =
        out.cutting_force_n * std::abs(MillingCrossForce::compute(arc.entry, arc.exit, kRadialShare));
    out.roughness_ra_um = milling::finish_um(request, out.feed_mm_rev);
    set_band(out);
    out.deflection_mm = milling::bend_mm(request, out.cutting_force_n);
}

LimitCode broken(const Filled& filled, const machine::Machine& machine, const CutResult& out) noexcept {
    if (at_edge(out.torque_nm, out) > machine.torque_limit_nm) {
        return LimitCode::torque;
    }
    if (!power_holds(machine, out)) {
        return LimitCode::power;
    }
    return at_edge(out.deflection_mm, out) > filled.request.deflection_limit_mm ? LimitCode::deflection
                                                                                : LimitCode::none;
}

/// The feed a tooth that is wanted, the most that still suits, and the least that hands may give.
struct Wanted {
    double feed = kNaN;
    double most = kNaN;
    double least = kNaN;
};

Wanted wanted_per_tooth(const Catalogue& catalogue, const Filled& filled, const WindowQuery& query,
                        CutResult& out) noexcept {
    const MillRequest& request = filled.request;
    const std::uint8_t key = figure("feed_per_tooth_mm");
    if (!std::isnan(request.feed_per_tooth_mm)) {
        out.evidence.note(key, rule::feed_asked);
        out.feed_limited_by = LimitCode::asked;
        // hands keep up with it by a slower spindle, where none was asked for
        const double least = std::isnan(request.spindle_rpm) ? request.feed_per_tooth_mm : kNaN;
        return {request.feed_per_tooth_mm, request.feed_per_tooth_mm, least};
    }
    out.feed_limited_by = LimitCode::feed_guide;
    FeedWindow window;
    double feed = milling::usual_feed(request.cutter_diameter_mm);
    double most = feed;
    if (feed_window(catalogue, query, window).ok()) {
        feed = window.low_mm;
        most = window.high_mm;
        out.evidence.note(key, rule::feed_tooth, window.row);
        if (window.small_cutter) {
            out.evidence.note(key, rule::feed_small_cutter);
        }
        if (window.held_by_fire) {
            out.evidence.note(key, rule::fire_feed, window.fire_row);
        }
    } else {
        out.evidence.note(key, rule::feed_tooth);
    }
    // Fine chips take fire more easily: no finer feed for the sake of the surface there.
    if (!std::isnan(request.roughness_limit_um) && request.shape != MillShape::slot && !window.held_by_fire) {
        const double fine = feed_for_finish(request, filled.aim) / request.teeth;
        most = std::min(most, fine);
        if (fine < feed) {
            feed = fine;
            out.feed_limited_by = LimitCode::roughness;
            out.evidence.note(key, rule::feed_roughness_milling);
        }
    }
    const bool whole = window.held_by_fire || material::has_word(filled.alloy.traits, "work_hardening");
    return {feed, most, (whole ? 1.0 : kLeastHandFeed) * feed};
}

void choose_feed(const machine::Machine& machine, const Filled& filled, Wanted suits,
                 CutResult& out) noexcept {
    const double table_feed = TableFeed::compute(suits.feed, filled.request.teeth, out.spindle_rpm);
    if (is_any(machine)) {
        out.feed_source = FeedSource::exact;
        compute(filled, table_feed, out);
        return;
    }
    const auto by_hand = [&] {
        const double fastest = hand_feed_mm_min(machine, "x");
        const bool binds = std::isnan(filled.request.feed_per_tooth_mm) && fastest < table_feed;
        out.feed_source = FeedSource::hand;
        if (binds) {
            out.feed_limited_by = LimitCode::hand_feed;
            out.evidence.note(figure("feed_mm_min"), rule::feed_by_hand);
        }
        compute(filled, binds ? fastest : table_feed, out);
    };
    if (machine.table.steps.empty()) {
        by_hand();
        return;
    }
    std::size_t step = machine::choose_feed(machine.table, table_feed);
    const double most = TableFeed::compute(suits.most, filled.request.teeth, out.spindle_rpm);
    const bool too_coarse = machine.table.steps[step].feed_mm > most * (1.0 + 1e-9);
    if (too_coarse && out.feed_limited_by != LimitCode::roughness) {
        out.evidence.note(figure("feed_mm_min"), rule::feed_hand_finer);
        out.caution(CautionCode::below_smallest_feed);
        by_hand();
        return;
    }
    out.feed_source = FeedSource::step;
    compute(filled, machine.table.steps[step].feed_mm, out);
    if (std::isnan(filled.request.feed_per_tooth_mm)) {
        LimitCode bound = broken(filled, machine, out);
        while (bound != LimitCode::none && step > 0) {
            out.feed_limited_by = bound;
            --step;
            compute(filled, machine.table.steps[step].feed_mm, out);
            bound = broken(filled, machine, out);
        }
        if (out.feed_limited_by != LimitCode::feed_guide && out.feed_limited_by != LimitCode::roughness) {
            out.evidence.note(figure("feed_mm_min"), rule::feed_power);
        }
    } else if (std::abs(out.feed_mm_min - table_feed) > 1e-9 * table_feed) {
        out.caution(CautionCode::asked_feed_moved);
    }
    if (out.feed_mm_min > table_feed * (1.0 + 1e-9)) {
        out.feed_limited_by = LimitCode::machine_finest_feed;
        if (too_coarse) {
            out.caution(CautionCode::below_smallest_feed);
        }
    }
    out.feed_step = step;
}

void note_force(const Catalogue& catalogue, const Filled& filled, CutResult& out) noexcept {
    const MillRequest& request = filled.request;
    const bool carbide = request.tool_material == ToolMaterial::carbide ||
                         request.tool_material == ToolMaterial::carbide_coated;
    const std::uint8_t force = figure("cutting_force_n");
    out.evidence.note(figure("chip_thickness_mm"), rule::chip_mean_milling);
    out.evidence.note(figure("chip_thickness_max_mm"), rule::chip_max_milling);
    out.evidence.note(figure("mrr_cm3_min"), rule::removal_milling);
    out.evidence.note(figure("spindle_power_kw"), rule::milling_power);
    out.evidence.note(force, rule::milling_force);
    note_constants(force, filled.constants, out);
    out.evidence.note(force, rule::kienzle_form);
    if (!std::isnan(request.wear_factor)) {
        out.evidence.note(force, rule::wear);
    } else {
        out.evidence.note(figure("cutting_force_high_n"), rule::ordinary_wear);
    }
    if (!std::isnan(filled.constants.speed_m_min)) {
        out.evidence.note(force, rule::speed_correction);
    }
    note_band("cutting_force_high_n", out);
    out.evidence.note(figure("torque_nm"), rule::torque);
    out.evidence.note(figure("feed_force_n"), rule::milling_feed_force);
    if (!std::isnan(out.roughness_ra_um)) {
        out.evidence.note(figure("roughness_ra_um"), rule::roughness_milling);
        note_finish_band(catalogue, filled.finish_band, out);
        if (!std::isnan(request.roughness_limit_um)) {
            const double aimed = request.roughness_limit_um / filled.aim;
            out.limit(LimitCode::roughness, out.roughness_ra_um, aimed);
            out.caution(CautionCode::roughness_least);
            if (out.roughness_ra_um > aimed * (1.0 + 1e-9)) {
                out.caution(CautionCode::roughness_exceeded);
            }
        }
    }
    if (filled.constants.rough) {
        out.caution(CautionCode::force_rough);
    }
    if (out.chip_thickness_max_mm < milling::kRubbingChipMm) {
        out.caution(CautionCode::chip_too_thin);
    }
    if (!std::isnan(out.deflection_mm)) {
        out.evidence.note(figure("deflection_mm"), rule::deflection_cutter);
        if (!std::isnan(request.deflection_limit_mm)) {
            out.limit(LimitCode::deflection, at_edge(out.deflection_mm, out), request.deflection_limit_mm);
            if (at_edge(out.deflection_mm, out) > request.deflection_limit_mm) {
                out.caution(CautionCode::deflection_exceeded);
            }
        }
    }
    if (request.shape != MillShape::face) {
        note_overhang(catalogue, carbide ? Overhung::carbide_cutter : Overhung::cutter,
                      request.stick_out_mm / request.cutter_diameter_mm, CautionCode::cutter_overhang, out);
    }
}

}  // namespace

namespace milling {

double usual_down(MillShape shape, double cutter_diameter_mm) noexcept {
    switch (shape) {
        case MillShape::face:
            return kFaceStepDownMm;
        case MillShape::side:
            return kSideStepDown * cutter_diameter_mm;
        default:
            return kSlotStepDown * cutter_diameter_mm;
    }
}

double usual_over(MillShape shape, double cutter_diameter_mm) noexcept {
    switch (shape) {
        case MillShape::face:
            return kFaceStepOver * cutter_diameter_mm;
        case MillShape::side:
            return kSideStepOver * cutter_diameter_mm;
        default:
            return kPocketStepOver * cutter_diameter_mm;
    }
}

double usual_feed(double cutter_diameter_mm) noexcept {
    return std::min(kUsualFeedShare * cutter_diameter_mm, kUsualFeedMostMm);
}

double ordinary_wear(const MillRequest& request) noexcept {
    return !std::isnan(request.wear_factor)   ? 1.0
           : request.shape == MillShape::face ? kFaceWear
                                              : kEndMillWear;
}

double bend_mm(const MillRequest& request, double force) noexcept {
    if (std::isnan(request.stick_out_mm)) {
        return kNaN;
    }
    const bool carbide = request.tool_material == ToolMaterial::carbide ||
                         request.tool_material == ToolMaterial::carbide_coated;
    return CantileverDeflection::compute(
        force, request.stick_out_mm, carbide ? kCarbideCutterGpa : kSteelCutterGpa,
        SecondMoment::compute(kCutterCore * request.cutter_diameter_mm, 0.0));
}

double finish_um(const MillRequest& request, double feed_mm_rev) noexcept {
    switch (request.shape) {
        case MillShape::face:
            return RoughnessRa::compute(feed_mm_rev, value_or(request.nose_radius_mm, kFaceNoseMm));
        case MillShape::slot:
            return kNaN;
        default:
            return MillingRoughnessRt::compute(feed_mm_rev, request.cutter_diameter_mm) / 4.0;
    }
}

double pass_travel(const MillRequest& request, double bite) noexcept {
    const double d = request.cutter_diameter_mm;
    const double gap = value_or(request.approach_mm, 2.0);
    switch (request.shape) {
        case MillShape::face: {
            const double run_out = value_or(request.overrun_mm, d / 2.0);
            return request.length_mm + FaceMillingApproach::compute(d, std::min(bite, d)) + gap + run_out;
        }
        case MillShape::side:
            return request.length_mm + MillingApproach::compute(d, std::min(bite, d)) + gap +
                   value_or(request.overrun_mm, 0.0);
        case MillShape::slot:
            return request.length_mm + d / 2.0 + gap + value_or(request.overrun_mm, 0.0);
        default:
            return std::max(0.0, request.length_mm - d) + gap + value_or(request.overrun_mm, 0.0);
    }
}

}  // namespace milling

double usual_teeth(double cutter_diameter_mm) noexcept {
    constexpr double kFewTeethBelowMm = 5.0;
    return cutter_diameter_mm < kFewTeethBelowMm ? 2.0 : 4.0;
}

Status evaluate(const Catalogue& catalogue, const machine::Machine& machine, const MillRequest& asked,
                CutResult& out) noexcept {
    out = {};
    MillRequest request = asked;
    request.teeth = value_or(asked.teeth, usual_teeth(asked.cutter_diameter_mm));
    Status status = check_request(request, kMillArguments);
    if (status.ok()) {
        status = check_shape(request);
    }
    if (status.ok()) {
        status = check_setting(catalogue, machine, request.work);
    }
    if (!status.ok()) {
        return status;
    }
    Filled filled(request, catalogue.alloys[request.work.alloy]);
    if (std::int64_t{filled.passes.across.count} * filled.passes.down.count > bounds::kPasses) {
        return {StatusCode::inconsistent, argument_place("depth_mm")};
    }
    filled.constants = force_constants(catalogue, filled.alloy, request.work.hardness_hb);
    filled.finish_band = finish_band(catalogue, filled.alloy, request.tool_material);
    filled.aim = filled.finish_band == nullptr ? 1.0 : filled.finish_band->aim;
    out.band = force_band(catalogue, filled.alloy, Process::mill, filled.constants.rough);
    out.ordinary_wear = milling::ordinary_wear(request);
    filled.entering = value_or(request.entering_deg, 90.0);
    const WindowQuery query{&filled.alloy,
                            request.work.hardness_hb,
                            request.shape == MillShape::face ? Operation::face_mill : Operation::end_mill,
                            request.tool_material,
                            filled.passes.down.each,
                            request.feed_per_tooth_mm,
                            request.cutter_diameter_mm};
    SpeedWindow window;
    status = speed_window(catalogue, query, window);
    if (!status.ok()) {
        return {status.code, kNoArgument};
    }
    hold_skin(catalogue, filled.alloy, request.skin, window);
    note_window(window, out);
    note_fluid(catalogue, filled.alloy, query.operation, out);
    const Wanted wanted = wanted_per_tooth(catalogue, filled, query, out);
    const bool fed_by_hand = !is_any(machine) && machine.table.steps.empty();
    const double hand_rpm =
        fed_by_hand ? hand_feed_mm_min(machine, "x") / (wanted.least * request.teeth) : kNaN;
    status = choose_speed(machine, request.cutter_diameter_mm, request.spindle_rpm, -1,
                          {kNaN, kNaN, kNaN, fire_limit(catalogue, filled.alloy), hand_rpm}, out);
    if (!status.ok()) {
        clear(out);
        return status;
    }
    choose_feed(machine, filled, wanted, out);
    note_force(catalogue, filled, out);
    note_power(machine, out);
    out.passes = filled.passes.across.count * filled.passes.down.count;
    out.passes_across = filled.passes.across.count;
    out.passes_down = filled.passes.down.count;
    note_travel(machine, "x", milling::pass_travel(request, filled.passes.bite_mm) * out.passes, out);
    // Passes side by side move the table across by all but the first bite, or a pocket's by all but the
    // cutter.
    note_slide_travel(machine, "x", milling::pass_travel(request, filled.passes.bite_mm), out);
    note_slide_travel(machine, "y", value_or(request.width_mm, 0.0) - filled.passes.bite_mm, out);
    note_slide_travel(machine, "z", request.depth_mm, out);
    if (!std::isnan(out.travel_mm)) {
        out.evidence.note(figure("travel_mm"), rule::milling_approach);
    }
    note_binding(machine, out);
    return finished(out);
}

CutResult cut(const Catalogue& catalogue, const machine::Machine& machine, const MillRequest& request) {
    CutResult out;
    throw_if_failed(evaluate(catalogue, machine, request, out), enum_name(request.shape), request,
                    kMillArguments);
    return out;
}

}  // namespace halfnut::cutting
