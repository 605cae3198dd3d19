#include "halfnut/cutting/turning.hpp"

#include <algorithm>
#include <cmath>

#include "halfnut/core/quantity.hpp"
#include "halfnut/core/rules.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/tool_life.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/material/alloy.hpp"
#include "lathe.hpp"
#include "mounting.hpp"
#include "steps.hpp"

namespace halfnut::cutting {
namespace {

constexpr double kInsideForm = 1.2;  // Tschaetsch: chips are harder to form inside
constexpr double kPartingForm = 1.3;
constexpr std::uint8_t argument_place(std::string_view name) noexcept {
    for (std::size_t i = 0; i < kTurnArguments.size(); ++i) {
        if (kTurnArguments[i].argument.name == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return 0;
}

bool has_force(LatheCut cut) noexcept {
    return cut != LatheCut::knurl && cut != LatheCut::thread;
}

}  // namespace

namespace lathe {

bool crosses(LatheCut cut) noexcept {
    return cut == LatheCut::face || cut == LatheCut::part_off;
}

Operation operation_of(LatheCut cut, bool finish) noexcept {
    switch (cut) {
        case LatheCut::bore:
            return Operation::bore;
        case LatheCut::part_off:
            return Operation::part_off;
        case LatheCut::knurl:
            return Operation::knurl;
        case LatheCut::thread:
            return Operation::thread;
        default:
            return finish ? Operation::turn_finish : Operation::turn_rough;
    }
}

double correction(const TurnRequest& request, double reference_rake_deg) noexcept {
    double out = 1.0;
    if (!std::isnan(request.rake_deg)) {
        out *= RakeCorrection::compute(request.rake_deg, reference_rake_deg);
    }
    out *= value_or(request.wear_factor, 1.0);
    if (request.cut == LatheCut::bore) {
        out *= kInsideForm;
    } else if (request.cut == LatheCut::part_off) {
        out *= kPartingForm;
    }
    return out;
}

Bend bend(const TurnRequest& request, const material::AlloyRow& alloy, double bar_gpa, double left_mm,
          double passive_force_n) noexcept {
    const double out = reach_of(request);
    if (std::isnan(out) || !std::isnan(request.span_mm)) {  // between steadies it is a beam's, see WorkBeam
        return {};
    }
    if (request.cut == LatheCut::bore) {
        if (std::isnan(request.bar_diameter_mm)) {
            return {};
        }
        return {CantileverDeflection::compute(passive_force_n, out, bar_gpa,
                                              SecondMoment::compute(request.bar_diameter_mm, 0.0)),
                rule::deflection_bar};
    }
    const double bore = value_or(request.bore_mm, 0.0);
    if (request.cut != LatheCut::turn || !(left_mm > bore)) {
        return {};
    }
    if (request.beam != nullptr) {
        return {passive_force_n * request.beam->worst_mm_n(left_mm), rule::work_beam};
    }
    const double e = alloy.youngs_modulus_gpa;
    const double i = SecondMoment::compute(left_mm, bore);
    switch (request.hold) {
        case Hold::between_centres:
            return {CentresDeflection::compute(passive_force_n, out / 2.0, out, e, i),
                    rule::deflection_centres};
        case Hold::chuck_and_centre:
            return {chuck_and_centre_deflection(passive_force_n, out, e, i), rule::deflection_chuck_centre};
        default:
            return {CantileverDeflection::compute(passive_force_n, out, e, i), rule::deflection_chuck};
    }
}

double reach_of(const TurnRequest& request) noexcept {
    return crosses(request.cut) ? request.stick_out_mm : value_or(request.stick_out_mm, request.length_mm);
}

Mounting mounting_of(const TurnRequest& request, double left_mm) noexcept {
    const double d = request.diameter_mm;
    Mounting out;
    out.hold = request.hold;
    out.chuck = request.chuck;
    out.outside = request.cut != LatheCut::bore && request.cut != LatheCut::thread;
    out.along = out.outside && !crosses(request.cut);
    const bool hexagon = !std::isnan(request.stock_flats_mm);
    const double stock = hexagon ? kHexagonWide * request.stock_flats_mm : request.stock_diameter_mm;
    out.swings_mm = std::fmax(stock, d);
    out.held_mm = hexagon ? request.stock_flats_mm : request.stock_diameter_mm;
    out.bar_length_mm = request.bar_length_mm;
    out.bar_behind_mm = request.bar_behind_mm;
    out.bar_mm = hexagon ? kHexagonRound * request.stock_flats_mm : value_or(request.stock_diameter_mm, d);
    out.bar_bore_mm = request.cut == LatheCut::bore ? 0.0 : value_or(request.bore_mm, 0.0);
    if (request.cut != LatheCut::bore) {  // there the overhang is the boring bar's
        out.length_mm = reach_of(request);
        out.span_mm = request.span_mm;
        out.beam = request.beam;
        out.left_mm = crosses(request.cut) ? value_or(stock, d) : left_mm;
        out.bore_mm = value_or(request.bore_mm, 0.0);
    }
    return out;
}

double travel_of(const TurnRequest& request) noexcept {
    const double gaps = value_or(request.approach_mm, kApproachMm) + value_or(request.overrun_mm, 0.0);
    if (crosses(request.cut)) {
        const double end = std::max(value_or(request.end_diameter_mm, 0.0), value_or(request.bore_mm, 0.0));
        return (request.diameter_mm - end) / 2.0 + gaps;
    }
    return request.length_mm + gaps;  // NaN when no length was given
}

}  // namespace lathe

namespace {

using lathe::crosses;

/// A request with everything that was not given filled in.
struct Filled {
    Filled(const TurnRequest& asked, const material::AlloyRow& of) noexcept : request(asked), alloy(of) {}

    const TurnRequest& request;
    const material::AlloyRow& alloy;
    double depth = kNaN;
    double nose = kNoseRadiusMm;
    double entering = kEnteringDeg;
    bool finish = false;
    double correction = 1.0;
    const FinishBandRow* finish_band = nullptr;
    double aim = 1.0;  // roughness asked for over that of the geometry aimed at
    double bar_gpa = kNaN;
    ForceConstants constants;
};

Status check_shape(const TurnRequest& request) noexcept {
    const double radius = request.diameter_mm / 2.0;
    if (request.cut == LatheCut::turn && request.depth_mm > radius) {
        return {StatusCode::inconsistent, argument_place("depth_mm")};
    }
    if (request.cut == LatheCut::bore && request.bar_diameter_mm >= request.diameter_mm) {
        return {StatusCode::inconsistent, argument_place("bar_diameter_mm")};
    }
    if (request.bore_mm >= request.diameter_mm) {
        return {StatusCode::inconsistent, argument_place("bore_mm")};
    }
    if (lathe::reach_of(request) * kSameLength < request.length_mm && !crosses(request.cut)) {
        return {StatusCode::inconsistent, argument_place("stick_out_mm")};
    }
    if (!std::isnan(request.stock_flats_mm) && !std::isnan(request.stock_diameter_mm)) {
        return {StatusCode::inconsistent, argument_place("stock_flats_mm")};
    }
    if (request.stock_diameter_mm * kSameLength < request.diameter_mm) {
        return {StatusCode::inconsistent, argument_place("stock_diameter_mm")};
    }
    if (!std::isnan(request.bar_length_mm) && !std::isnan(request.bar_behind_mm)) {
        return {StatusCode::inconsistent, argument_place("bar_behind_mm")};
    }
    if (crosses(request.cut) && request.end_diameter_mm >= request.diameter_mm) {
        return {StatusCode::inconsistent, argument_place("end_diameter_mm")};
    }
    if (request.cut == LatheCut::thread && std::isnan(request.feed_mm_rev)) {
        return {StatusCode::not_finite, argument_place("feed_mm_rev")};
    }
    return {};
}

Filled fill(const Catalogue& catalogue, const TurnRequest& request) noexcept {
    Filled filled(request, catalogue.alloys[request.work.alloy]);
    if (has_force(request.cut)) {
        const double usual = request.cut == LatheCut::part_off
                                 ? usual_blade_mm(request.inch)
                                 : usual_depth_mm(request.diameter_mm, request.finish, request.inch);
        filled.depth = value_or(request.depth_mm, usual);
    }
    filled.finish = request.finish || filled.depth <= kFinishDepthMm;
    filled.nose = value_or(request.nose_radius_mm, kNoseRadiusMm);
    filled.entering = request.cut == LatheCut::part_off ? 90.0 : value_or(request.entering_deg, kEnteringDeg);
    filled.correction = lathe::correction(request, force_scale(catalogue, filled.alloy).rake_deg);
    filled.finish_band = finish_band(catalogue, filled.alloy, request.tool_material);
    filled.aim = filled.finish_band == nullptr ? 1.0 : filled.finish_band->aim;
    filled.bar_gpa = overhang_of(catalogue, overhung(request.bar_material)).youngs_modulus_gpa;
    return filled;
}

/// Deflection for the force across the work at a feed: the cut's end is its weakest.
lathe::Bend deflection(const Filled& filled, double passive_force) noexcept {
    return lathe::bend(filled.request, filled.alloy, filled.bar_gpa,
                       filled.request.diameter_mm - 2.0 * filled.depth, passive_force);
}

/// The most that the corrections of parting may come to.
double parting_most_n(const Filled& filled, double feed) noexcept {
    return kMostOverKc11 * filled.constants.kc11_n_mm2 * filled.depth * feed *
           (filled.correction / kPartingForm);
}

/// Chip, forces, power and deflection at a feed.
void compute(const Filled& filled, double feed, CutResult& out) noexcept {
    out.feed_mm_rev = feed;
    if (!has_force(filled.request.cut)) {
        return;
    }
    const SineCosine kappa = filled.request.cut == LatheCut::part_off
                                 ? SineCosine{1.0, 0.0}
                                 : mean_entering(filled.depth, filled.nose, sine_cosine_deg(filled.entering));
    out.depth_mm = filled.depth;
    out.chip_thickness_mm = feed * kappa.sine;
    out.cutting_force_n = TurningForce::at(filled.constants.kc11_n_mm2, filled.constants.mc, filled.depth,
                                           feed, out.chip_thickness_mm, filled.correction,
                                           speed_log2(filled.constants, out.cutting_speed_m_min));
    if (filled.request.cut == LatheCut::part_off) {
        out.cutting_force_n = std::min(out.cutting_force_n, parting_most_n(filled, feed));
    }
    const double normal = normal_share(filled.request.wear_factor) * out.cutting_force_n;
    out.feed_force_n = normal * kappa.sine;
    out.passive_force_n = normal * kappa.cosine;
    out.spindle_power_kw = CuttingPower::compute(out.cutting_force_n, out.cutting_speed_m_min);
    out.torque_nm = SpindleTorque::compute(out.cutting_force_n, filled.request.diameter_mm);
    out.mrr_cm3_min = TurningRemoval::compute(out.cutting_speed_m_min, feed, filled.depth);
    set_band(out);
    out.deflection_mm = deflection(filled, out.passive_force_n).value;
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

/// The feeds of this cut on this machine, in mm of the slide that moves; empty when there is no power feed.
struct Feeds {
    const machine::FeedLadder* ladder = nullptr;
    double ratio = 1.0;  ///< cross feed over what the ladder says

    [[nodiscard]] bool power() const noexcept { return ladder != nullptr && !ladder->steps.empty(); }
    [[nodiscard]] double at(std::size_t step) const noexcept { return ladder->steps[step].feed_mm * ratio; }
};

Feeds feeds_of(const machine::Machine& machine, LatheCut cut) noexcept {
    if (cut == LatheCut::thread || machine.carriage.steps.empty()) {
        return {};
    }
    if (!crosses(cut)) {
        return {&machine.carriage, 1.0};
    }
    return std::isnan(machine.carriage.cross_ratio) ? Feeds{}
                                                    : Feeds{&machine.carriage, machine.carriage.cross_ratio};
}

/// The feed that is wanted before the machine and the limits have their say, and the most that still suits.
struct Wanted {
    double feed = kNaN;
    double most = kNaN;
};

Wanted wanted_feed(const Filled& filled, const TurnTables& tables, double finest, CutResult& out) noexcept {
    const TurnRequest& request = filled.request;
    const std::uint8_t key = figure("feed_mm_rev");
    if (!std::isnan(request.feed_mm_rev)) {
        out.evidence.note(key, request.cut == LatheCut::thread ? rule::feed_pitch : rule::feed_asked);
        out.feed_limited_by = LimitCode::asked;
        return {request.feed_mm_rev, request.feed_mm_rev};
    }
    double feed = usual_feed_mm(request.cut, filled.finish);
    double most = feed;
    if (tables.has_feeds) {
        // A feed of deeper cuts does not raise that of a shallow one.
        const double low = std::min(tables.feeds.low_mm, filled.depth / kDepthOverFeed);
        feed = std::min(std::max(feed, low), tables.feeds.high_mm);
        most = tables.feeds.high_mm;
        out.evidence.note(key, rule::feed_guide, tables.feeds.row);
        if (tables.feeds.held_by_fire) {
            out.evidence.note(key, rule::fire_feed, tables.feeds.fire_row);
        }
    } else {
        out.evidence.note(key, rule::feed_guide);
    }
    out.feed_limited_by = LimitCode::feed_guide;
    if (has_force(request.cut) && request.cut != LatheCut::part_off && filled.nose > 0.0) {
        most = std::min(most, kFeedOverNose * filled.nose);
        if (feed > kFeedOverNose * filled.nose) {
            feed = kFeedOverNose * filled.nose;
            out.feed_limited_by = LimitCode::nose_feed;
            out.evidence.note(key, rule::feed_nose);
        }
        if (!std::isnan(request.roughness_limit_um)) {
            const double fine =
                std::sqrt(32.0 * filled.nose * (request.roughness_limit_um / filled.aim) / 1000.0);
            most = std::min(most, fine);
            if (fine < feed) {
                feed = fine;
                out.feed_limited_by = LimitCode::roughness;
                out.evidence.note(key, rule::feed_roughness);
            }
        }
    }
    if (feed < finest) {
        out.feed_limited_by = LimitCode::feed_guide;
    }
    return {std::max(feed, finest), std::max(most, finest)};
}

/// Set the feed; one left to us is no finer than `finest`.
void choose_feed(const machine::Machine& machine, const Filled& filled, Wanted suits, double finest,
                 CutResult& out) noexcept {
    const double wanted = suits.feed;
    const bool left_open = std::isnan(filled.request.feed_mm_rev);
    if (!left_open && wanted < finest) {
        out.caution(CautionCode::fine_feed_fire);
    }
    const Feeds feeds = feeds_of(machine, filled.request.cut);
    const auto by_hand = [&] {
        const char* const slide = crosses(filled.request.cut) ? "cross" : "carriage";
        const double fed = hand_feed_mm_min(machine, slide) / out.spindle_rpm;
        const double fastest = fed < finest ? finest : fed;
        const bool binds = left_open && fastest < wanted;
        out.feed_source = FeedSource::hand;
        if (binds) {
            out.feed_limited_by = LimitCode::hand_feed;
            out.evidence.note(figure("feed_mm_rev"), rule::feed_by_hand);
        }
        compute(filled, binds ? fastest : wanted, out);
    };
    if (filled.request.cut == LatheCut::thread || is_any(machine)) {
        out.feed_source = FeedSource::exact;
        compute(filled, wanted, out);
        return;
    }
    if (!feeds.power()) {
        by_hand();
        return;
    }
    out.feed_source = FeedSource::step;
    std::size_t step = machine::choose_feed(*feeds.ladder, wanted / feeds.ratio);
    const auto too_fine = [&](std::size_t at) { return left_open && feeds.at(at) < finest * (1.0 - 1e-9); };
    while (too_fine(step) && step + 1 < feeds.ladder->steps.size()) {
        ++step;
    }
    // Every power feed coarser than suits, or finer than is safe: by hand. A hand leaves no finer surface.
    const bool too_coarse = feeds.at(step) > suits.most * (1.0 + 1e-9);
    if ((too_coarse && out.feed_limited_by != LimitCode::roughness) || too_fine(step)) {
        out.evidence.note(figure("feed_mm_rev"), rule::feed_hand_finer);
        if (too_coarse) {
            out.caution(CautionCode::below_smallest_feed);
        }
        by_hand();
        return;
    }
    compute(filled, feeds.at(step), out);
    if (!left_open) {
        if (std::abs(feeds.at(step) - wanted) > 1e-9 * wanted) {
            out.caution(CautionCode::asked_feed_moved);
        }
    } else {
        // The feed was left to us: finer until the machine and the work bear it.
        LimitCode bound = broken(filled, machine, out);
        while (bound != LimitCode::none && step > 0 && !too_fine(step - 1)) {
            out.feed_limited_by = bound;
            --step;
            compute(filled, feeds.at(step), out);
            bound = broken(filled, machine, out);
        }
        if (out.feed_limited_by == LimitCode::power || out.feed_limited_by == LimitCode::torque ||
            out.feed_limited_by == LimitCode::deflection) {
            out.evidence.note(figure("feed_mm_rev"), rule::feed_power);
        }
    }
    if (feeds.at(step) > wanted * (1.0 + 1e-9)) {
        out.feed_limited_by = LimitCode::machine_finest_feed;
        if (too_coarse) {
            out.caution(CautionCode::below_smallest_feed);
        }
    }
    out.feed_step = step;
}

void note_force(const Filled& filled, CutResult& out) noexcept {
    const std::uint8_t force = figure("cutting_force_n");
    out.evidence.note(figure("chip_thickness_mm"), rule::chip_thickness);
    out.evidence.note(force, rule::kienzle_force);
    note_constants(force, filled.constants, out);
    if (!std::isnan(filled.request.rake_deg)) {
        out.evidence.note(force, rule::rake);
    }
    if (!std::isnan(filled.constants.speed_m_min)) {
        out.evidence.note(force, rule::speed_correction);
    }
    note_band("cutting_force_high_n", out);
    if (std::isnan(filled.request.wear_factor)) {
        out.evidence.note(figure("passive_force_n"), rule::ordinary_flank);
        out.evidence.note(figure("cutting_force_high_n"), rule::ordinary_wear);
    } else {
        out.evidence.note(force, rule::wear);
    }
    if (filled.request.cut == LatheCut::bore || filled.request.cut == LatheCut::part_off) {
        out.evidence.note(force, rule::kienzle_form);
    }
    if (filled.request.cut == LatheCut::part_off &&
        out.cutting_force_n == parting_most_n(filled, out.feed_mm_rev)) {
        out.evidence.note(force, rule::force_capped);
    }
    out.evidence.note(figure("passive_force_n"), rule::passive_force);
    out.evidence.note(figure("spindle_power_kw"), rule::power);
    out.evidence.note(figure("torque_nm"), rule::torque);
    out.evidence.note(figure("mrr_cm3_min"), rule::removal_turning);
    if (out.chip_thickness_mm < kRubbingThicknessMm) {
        out.caution(CautionCode::chip_too_thin);
    }
}

void note_finish(const Catalogue& catalogue, const Filled& filled, CutResult& out) noexcept {
    if (filled.request.cut == LatheCut::part_off || !(filled.nose > 0.0)) {
        return;
    }
    const double ra = RoughnessRa::compute(out.feed_mm_rev, filled.nose);
    if (std::isnan(ra) || out.feed_mm_rev > kFeedOverNose * filled.nose * (1.0 + 1e-9)) {
        out.caution(CautionCode::feed_above_nose);
    }
    if (std::isnan(ra)) {
        return;
    }
    out.roughness_ra_um = ra;
    out.evidence.note(figure("roughness_ra_um"), rule::roughness);
    note_finish_band(catalogue, filled.finish_band, out);
    if (!std::isnan(filled.request.roughness_limit_um)) {
        const double aimed = filled.request.roughness_limit_um / filled.aim;
        out.limit(LimitCode::roughness, ra, aimed);
        out.caution(CautionCode::roughness_least);
        if (ra > aimed * (1.0 + 1e-9)) {
            out.caution(CautionCode::roughness_exceeded);
        }
    }
}

void note_rigidity(const Catalogue& catalogue, const Filled& filled, CutResult& out) noexcept {
    const TurnRequest& request = filled.request;
    const auto [bent, used] = deflection(filled, out.passive_force_n);
    if (!std::isnan(bent)) {
        out.deflection_mm = bent;
        out.evidence.note(figure("deflection_mm"), used);
        if (!std::isnan(request.deflection_limit_mm)) {
            out.limit(LimitCode::deflection, at_edge(bent, out), request.deflection_limit_mm);
            if (at_edge(bent, out) > request.deflection_limit_mm) {
                out.caution(CautionCode::deflection_exceeded);
            }
        }
    }
    if (request.cut == LatheCut::bore) {
        const double bar = value_or(request.bar_diameter_mm, request.diameter_mm);  // none is thicker
        note_overhang(catalogue, overhung(request.bar_material), lathe::reach_of(request) / bar,
                      CautionCode::overhang, out);
    } else if (request.cut == LatheCut::part_off) {
        const double end = std::max(value_or(request.end_diameter_mm, 0.0), value_or(request.bore_mm, 0.0));
        note_overhang(catalogue, Overhung::blade, (request.diameter_mm - end) / 2.0 / filled.depth,
                      CautionCode::blade_overhang, out);
    } else if (at_edge(bent, out) > filled.depth) {
        out.caution(CautionCode::climbs);
    }
    const double wall = (request.diameter_mm - request.bore_mm) / 2.0;
    if (request.cut != LatheCut::bore && request.bore_mm > 0.0 && wall < kThinWall * request.diameter_mm) {
        out.caution(CautionCode::thin_wall);
    }
}

/// Work that stands out far for its diameter, whether it is turned, knurled or threaded.
void note_slender(const TurnRequest& request, CutResult& out) noexcept {
    const double most = request.hold == Hold::chuck ? kSlenderChuck : kSlenderCentre;
    if (request.beam != nullptr
            ? request.beam->slender(request.diameter_mm)
            : request.cut != LatheCut::bore &&
                  value_or(request.span_mm, lathe::reach_of(request)) > most * request.diameter_mm) {
        out.caution(CautionCode::slender);
    }
}

/// Life of the edge at the speed, feed and depth chosen, where there are constants for it.
void note_life(const Catalogue& catalogue, const Filled& filled, CutResult& out) noexcept {
    if (filled.request.cut == LatheCut::part_off) {
        return;
    }
    EdgeLife life;
    const LifeQuery query{&filled.alloy, filled.request.work.hardness_hb, filled.request.tool_material,
                          out.feed_mm_rev, filled.depth};
    if (!edge_life(catalogue, query, life).ok()) {
        return;
    }
    const auto at = [&](double speed) {
        return std::min(TaylorLife::compute(life.c_m_min, life.exponent, speed), kLongestLifeMin);
    };
    out.tool_life_min = at(out.cutting_speed_m_min);
    out.tool_life_low_min = at(out.cutting_speed_m_min / kLifeSpeedLow);
    out.tool_life_high_min = at(out.cutting_speed_m_min / kLifeSpeedHigh);
    const std::uint8_t key = figure("tool_life_min");
    out.evidence.note(key, rule::taylor, life.row);
    if (life.moved) {
        out.evidence.note(key, rule::taylor_extended);
    }
    if (life.shifted) {
        out.evidence.note(key, rule::window_hardness);
    }
    out.evidence.note(figure("tool_life_high_min"), rule::life_band);
}

constexpr Status kSplits{StatusCode::not_tabulated, kNoArgument - 1};

/// A laminate, whose layers part under a knurl.
bool splits(const Catalogue& catalogue, const material::AlloyRow& alloy) noexcept {
    return material::kinship(catalogue, alloy, "composite") >= 0;
}

/// What needs the modulus of an alloy whose row gives none.
Status check_modulus(const material::AlloyRow& alloy, const TurnRequest& request) noexcept {
    if (!std::isnan(alloy.youngs_modulus_gpa)) {
        return {};
    }
    if (!std::isnan(request.bar_behind_mm) || !std::isnan(request.bar_length_mm)) {
        return {StatusCode::not_tabulated,
                argument_place(std::isnan(request.bar_behind_mm) ? "bar_length_mm" : "bar_behind_mm")};
    }
    const bool bends = request.cut == LatheCut::turn && !std::isnan(lathe::reach_of(request));
    return bends && !std::isnan(request.deflection_limit_mm)
               ? Status{StatusCode::not_tabulated, argument_place("deflection_limit_mm")}
               : Status{};
}

Status check_turn(const Catalogue& catalogue, const machine::Machine& machine,
                  const TurnRequest& request) noexcept {
    Status status = check_request(request, kTurnArguments);
    if (status.ok()) {
        status = check_shape(request);
    }
    if (status.ok()) {
        status = check_setting(catalogue, machine, request.work);
    }
    if (status.ok() && request.cut == LatheCut::knurl &&
        splits(catalogue, catalogue.alloys[request.work.alloy])) {
        return kSplits;
    }
    return status.ok() ? check_modulus(catalogue.alloys[request.work.alloy], request) : status;
}

TurnTables look_up(const Catalogue& catalogue, const Filled& filled, const KinRows* kin) noexcept {
    const TurnRequest& request = filled.request;
    TurnTables tables;
    tables.operation = lathe::operation_of(request.cut, filled.finish);
    tables.constants = force_constants(catalogue, filled.alloy, request.work.hardness_hb);
    if (has_force(request.cut)) {
        tables.band = force_band(catalogue, filled.alloy, Process::turn, tables.constants.rough);
    }
    const WindowQuery query{&filled.alloy,
                            request.work.hardness_hb,
                            tables.operation,
                            request.tool_material,
                            filled.depth,
                            value_or(request.feed_mm_rev, usual_feed_mm(request.cut, filled.finish)),
                            kNaN,
                            kin};
    tables.window_status = {speed_window(catalogue, query, tables.window).code, kNoArgument};
    hold_skin(catalogue, filled.alloy, request.skin, tables.window);
    if (tables.window_status.ok() && std::isnan(request.feed_mm_rev)) {
        tables.has_feeds = feed_window(catalogue, query, tables.feeds).ok();
    }
    return tables;
}

Status answer(const Catalogue& catalogue, const machine::Machine& machine, Filled& filled,
              const TurnTables& tables, CutResult& out) noexcept {
    const TurnRequest& request = filled.request;
    if (!tables.window_status.ok()) {
        return tables.window_status;
    }
    filled.constants = tables.constants;
    if (has_force(request.cut)) {
        out.band = tables.band;
        out.ordinary_wear = std::isnan(request.wear_factor) ? kOrdinaryWear : 1.0;
        if (tables.constants.rough) {
            out.caution(CautionCode::force_rough);
        }
    }
    const Mounting mounting =
        lathe::mounting_of(request, request.diameter_mm - 2.0 * value_or(filled.depth, 0.0));
    if (const Status room = check_room(machine, mounting, out); !room.ok()) {
        return room;
    }
    note_window(tables.window, out);
    note_fluid(catalogue, filled.alloy, tables.operation, out);
    const FireLimitRow* const fire = fire_limit(catalogue, filled.alloy);
    const SpeedBounds bounds{request.cut == LatheCut::thread ? request.feed_mm_rev : kNaN,
                             work_whirl_rpm(filled.alloy, mounting),
                             bar_whirl_rpm(machine, filled.alloy, mounting), fire,
                             request.cut == LatheCut::knurl ? machine.hand_knurl_rpm : kNaN};
    if (const Status held =
            choose_speed(machine, request.diameter_mm, request.spindle_rpm, request.chuck, bounds, out);
        !held.ok()) {
        clear(out);
        return held;
    }
    note_room(machine, mounting, out);
    note_unknown_whirl(filled.alloy, mounting, out);
    note_slender(request, out);
    const double finest = fire == nullptr || !has_force(request.cut) ? 0.0 : fire->feed_least_mm;
    choose_feed(machine, filled, wanted_feed(filled, tables, finest, out), finest, out);
    if (has_force(request.cut)) {
        note_force(filled, out);
        note_power(machine, out);
        note_finish(catalogue, filled, out);
        note_rigidity(catalogue, filled, out);
        note_life(catalogue, filled, out);
    }
    const bool cross = crosses(request.cut);
    if (cross && !(request.end_diameter_mm > 0.0) && !(request.bore_mm > 0.0)) {
        out.caution(CautionCode::speed_at_centre);
    }
    note_travel(machine, cross ? "cross" : "carriage", lathe::travel_of(request), out);
    note_slide_travel(machine, cross ? "cross" : "carriage", cross ? out.travel_mm : request.length_mm, out);
    note_binding(machine, out);
    return finished(out);
}

}  // namespace

double usual_feed_mm(LatheCut cut, bool finish) noexcept {
    if (cut == LatheCut::part_off) {
        return kPartingFeedMm;
    }
    if (cut == LatheCut::bore || cut == LatheCut::knurl) {
        return kBoreFeedMm;
    }
    return finish ? kFinishFeedMm : kRoughFeedMm;
}

double usual_depth_mm(double diameter_mm, bool finish, bool inch) noexcept {
    const double metric = finish ? kFinishDepthDefaultMm : kRoughDepthMm;
    const double usual = inch ? kInchMm * (finish ? kFinishDepthIn : kRoughDepthIn) : metric;
    return std::min(usual, diameter_mm / 8.0);
}

double usual_blade_mm(bool inch) noexcept {
    return inch ? kInchMm * kBladeIn : kBladeMm;
}

TurnTables turn_tables(const Catalogue& catalogue, const TurnRequest& request, const KinRows* kin) noexcept {
    return look_up(catalogue, fill(catalogue, request), kin);
}

Status evaluate(const Catalogue& catalogue, const machine::Machine& machine, const TurnRequest& request,
                const TurnTables& tables, CutResult& out) noexcept {
    out = {};
    const Status status = check_turn(catalogue, machine, request);
    if (!status.ok()) {
        return status;
    }
    Filled filled = fill(catalogue, request);
    return answer(catalogue, machine, filled, tables, out);
}

Status evaluate(const Catalogue& catalogue, const machine::Machine& machine, const TurnRequest& request,
                CutResult& out) noexcept {
    out = {};
    const Status status = check_turn(catalogue, machine, request);
    if (!status.ok()) {
        return status;
    }
    Filled filled = fill(catalogue, request);
    return answer(catalogue, machine, filled, look_up(catalogue, filled, nullptr), out);
}

CutResult cut(const Catalogue& catalogue, const machine::Machine& machine, const TurnRequest& request) {
    CutResult out;
    const Status status = evaluate(catalogue, machine, request, out);
    throw_if_no_room(machine, out, request.chuck);
    if (status == kSplits) {
        throw NotTabulatedError("knurl: a laminate splits under the wheels: cut grooves with a tool instead");
    }
    if (status == Status{StatusCode::inconsistent, argument_place("stick_out_mm")}) {
        throw_short_overhang("stick_out_mm", request.stick_out_mm, request.length_mm, machine);
    }
    throw_if_failed(status, enum_name(request.cut), request, kTurnArguments);
    return out;
}

}  // namespace halfnut::cutting
