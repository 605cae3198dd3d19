#include "halfnut/threads/adjuster.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/threads/column_tables.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/rules.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

constexpr double kFewTurns = 3.0;
constexpr double kPreloadShare = 0.75;
constexpr double kNutRule = 0.5;  // of the nominal diameter
constexpr std::size_t kSamples = 9;

consteval std::uint8_t figure(std::string_view name) {
    return figure_index(kAdjusterEvidence, name);
}

double given_or(double value, double fallback) noexcept {
    return std::isnan(value) ? fallback : value;
}

/// Of a section: where it yields, or where only that is known, breaks.
double section_strength(const PartStrength& strength) noexcept {
    return given_or(strength.yield_mpa, strength.tensile_mpa);
}

const AdjusterMaterial& external_material(const AdjusterRequest& request, std::size_t end) noexcept {
    return request.middle == AdjusterMiddle::external ? request.middle_material : request.ends[end].outer;
}
const AdjusterMaterial& internal_material(const AdjusterRequest& request, std::size_t end) noexcept {
    return request.middle == AdjusterMiddle::external ? request.ends[end].outer : request.middle_material;
}

/// Name of an end, where there are two.
std::string end_name(const AdjusterRequest& request, std::size_t end) {
    return request.count == 1 ? "" : end == 0 ? "first end: " : "second end: ";
}

/// Answers of one evaluation, with the reason for a refusal.
class Maker {
   public:
    Maker(const Catalogue& catalogue, const AdjusterRequest& request, std::string* why)
        : catalogue_(catalogue), request_(request), why_(why) {}

    Status make(Adjuster& out);

   private:
    Status refuse(std::string words, StatusCode code = StatusCode::inconsistent) {
        if (why_ != nullptr) {
            *why_ = std::move(words);
        }
        return {code, 0};
    }
    template <std::size_t N, std::size_t M>
    Status check_numbers(const std::array<Argument, N>& arguments, const std::array<double, N>& values,
                         const std::array<std::string_view, M>& may_lack, const std::string& where) {
        for (std::size_t i = 0; i < N; ++i) {
            if (std::isnan(values[i]) &&
                std::find(may_lack.begin(), may_lack.end(), arguments[i].name) != may_lack.end()) {
                continue;
            }
            const StatusCode code = check(arguments[i], values[i]);
            if (code != StatusCode::ok) {
                return refuse(where + argument_message(arguments[i], values[i]), code);
            }
        }
        return {};
    }
    Status check_request();
    Status cut_sizes(const Thread& thread, const BuildUp& build_up, ThreadLimits& out);
    Status pair(std::size_t end, AdjusterEndAnswer& out, SizedPair& pair);
    Status threads(std::size_t end, AdjusterEndAnswer& out);
    Status preload(std::size_t end, double area_diameter, AdjusterEndAnswer& out);
    Status make_end(std::size_t end, AdjusterEndAnswer& out);
    Status lock_nut(std::size_t end, AdjusterEndAnswer& out);
    Status range(Adjuster& out);
    void caution(AdjusterCaution caution) {
        cautions_ = static_cast<std::uint16_t>(cautions_ | static_cast<std::uint16_t>(caution));
    }
    void note_evidence(Adjuster& out) const;

    const Catalogue& catalogue_;
    const AdjusterRequest& request_;
    std::string* why_;
    std::uint16_t cautions_ = 0;
};

double engaged(const AdjusterEnd& end, double insertion) noexcept {
    return EngagedLength::compute(insertion, end.thread_length_mm, end.chamfer_mm, end.run_out_mm,
                                  end.base_length_mm, end.countersink_mm, end.base_run_out_mm);
}

/// The same, less what of the groove lies within it.
double engaged_beside_groove(const AdjusterEnd& end, double insertion, double groove, double width) noexcept {
    const double from = std::max(end.chamfer_mm, insertion - (end.base_length_mm - end.base_run_out_mm));
    const double to = std::min(end.thread_length_mm - end.run_out_mm, insertion - end.countersink_mm);
    const double lost = std::min(to, groove) - std::max(from, groove - width);
    return std::max(0.0, engaged(end, insertion) - std::max(0.0, lost));
}

Status Maker::check_request() {
    if (request_.count != 1 && request_.count != 2) {
        return refuse(fmt::format("an adjuster has 1 or 2 threaded ends, got {}", request_.count),
                      StatusCode::out_of_range);
    }
    const std::array<std::string_view, 0> none{};
    Status status = check_numbers(
        kAdjusterArguments,
        {request_.middle_length_mm, request_.middle_outside_mm, request_.middle_bore_mm, request_.push_n,
         request_.pull_n, request_.factor_of_safety, request_.flats, request_.groove_width_mm},
        none, "");
    for (std::size_t i = 0; status.ok() && i < request_.count; ++i) {
        const AdjusterEnd& e = request_.ends[i];
        const std::array values{e.thread_length_mm,
                                e.chamfer_mm,
                                e.run_out_mm,
                                e.external_bore_mm,
                                e.base_length_mm,
                                e.countersink_mm,
                                e.base_run_out_mm,
                                e.room_mm,
                                e.internal_outside_mm,
                                e.outer_length_mm,
                                e.outer_outside_mm,
                                e.outer_bore_mm,
                                e.nut_thickness_mm,
                                e.nut_countersink_mm,
                                e.nut_outside_mm,
                                e.thread_friction_low,
                                e.thread_friction_high,
                                e.bearing_friction_low,
                                e.bearing_friction_high,
                                e.rule_diameters};
        if (e.nut_thickness_mm > 0.0) {
            const std::array<std::string_view, 1> may_lack{"room_mm"};
            status = check_numbers(kAdjusterEndArguments, values, may_lack, end_name(request_, i));
        } else {
            const std::array<std::string_view, 6> may_lack{"room_mm",
                                                           "nut_outside_mm",
                                                           "thread_friction_low",
                                                           "thread_friction_high",
                                                           "bearing_friction_low",
                                                           "bearing_friction_high"};
            status = check_numbers(kAdjusterEndArguments, values, may_lack, end_name(request_, i));
        }
    }
    if (!status.ok()) {
        return status;
    }
    if (!(request_.middle_bore_mm < request_.middle_outside_mm)) {
        return refuse(fmt::format("middle_bore_mm must be below middle_outside_mm, {} mm, got {} mm",
                                  request_.middle_outside_mm, request_.middle_bore_mm));
    }
    for (std::size_t i = 0; i < request_.count; ++i) {
        const AdjusterEnd& e = request_.ends[i];
        const double carrier = request_.middle == AdjusterMiddle::internal
                                   ? e.outer_length_mm
                                   : request_.middle_length_mm / static_cast<double>(request_.count);
        if (carrier < e.thread_length_mm) {
            return refuse(fmt::format(
                "{}thread_length_mm must be at most {:.6g} mm, what there is to carry it, got {} mm",
                end_name(request_, i), carrier, e.thread_length_mm));
        }
        const double tapped = request_.middle_length_mm / static_cast<double>(request_.count);
        if (request_.middle == AdjusterMiddle::internal && tapped < e.base_length_mm) {
            return refuse(fmt::format(
                "{}base_length_mm must be at most {:.6g} mm, what there is of the body, got {} mm",
                end_name(request_, i), tapped, e.base_length_mm));
        }
        if (!(e.outer_bore_mm < e.outer_outside_mm)) {
            return refuse(fmt::format("{}outer_bore_mm must be below outer_outside_mm, {} mm, got {} mm",
                                      end_name(request_, i), e.outer_outside_mm, e.outer_bore_mm));
        }
    }
    if (find_column_ends(catalogue_, request_.first_end, request_.second_end) == nullptr) {
        return refuse(fmt::format("ends {} and {} do not hold a column", enum_name(request_.first_end),
                                  enum_name(request_.second_end)));
    }
    return {};
}

/// Limits to cut a part to: of its class, or before coating.
Status Maker::cut_sizes(const Thread& thread, const BuildUp& build_up, ThreadLimits& out) {
    if (build_up.bare()) {
        return evaluate(catalogue_, thread, LimitOptions{}, out, why_);
    }
    Precoat coated;
    const Status status =
        evaluate(catalogue_, PrecoatRequest{.thread = thread, .build_up = build_up}, coated, why_);
    out = coated.before;
    return status;
}

/// Leads, above 0 right-hand.
double signed_lead(const AdjusterEnd& end) {
    if (end.sized) {
        const FitPart& part = end.sized->external;
        return (part.left_hand ? -1.0 : 1.0) * part.pitch_mm * part.starts;
    }
    const Thread external = end.external.part(Side::external);
    return (external.hand == Hand::left ? -1.0 : 1.0) * external.lead_mm();
}

/// The pair as its sizes, and those that weaken it.
Status Maker::pair(std::size_t index, AdjusterEndAnswer& out, SizedPair& pair) {
    const AdjusterEnd& end = request_.ends[index];
    if (end.sized) {
        pair = *end.sized;
        out.sizes = strength_sizes(pair.diameter_mm, pair.external, pair.internal);
        return {};
    }
    const Thread external = end.external.part(Side::external);
    const Thread internal = end.internal.part(Side::internal);
    Status status = cut_sizes(external, end.external_build_up, out.external_cut);
    if (status.ok()) {
        status = cut_sizes(internal, end.internal_build_up, out.internal_cut);
    }
    if (!status.ok()) {
        if (why_ != nullptr) {
            *why_ = end_name(request_, index) + *why_;
        }
        return status;
    }
    pair = {.diameter_mm = external.diameter_mm(),
            .external = fit_part(external, out.external_cut),
            .internal = fit_part(internal, out.internal_cut),
            .external_name = format_thread(external),
            .internal_name = format_thread(internal)};
    pair.external.build_up = end.external_build_up;
    pair.internal.build_up = end.internal_build_up;
    out.sizes = strength_sizes(external, out.external_cut, out.internal_cut);
    return {};
}

/// Sizes of the pair, its play, and what a millimetre of it bears.
Status Maker::threads(std::size_t index, AdjusterEndAnswer& out) {
    const AdjusterEnd& end = request_.ends[index];
    SizedPair met;
    Status status = pair(index, out, met);
    if (!status.ok()) {
        return status;
    }
    out.lead_mm = signed_lead(end);
    out.half_angle_deg = met.external.half_angle_deg;
    out.insertion_max_mm =
        std::min(end.thread_length_mm - end.run_out_mm - end.nut_thickness_mm,
                 given_or(end.room_mm, end.base_length_mm - end.base_run_out_mm + end.chamfer_mm));
    out.engagement_max_mm = engaged(end, std::max(0.0, out.insertion_max_mm));
    if (!(out.engagement_max_mm > 0.0)) {
        return refuse(fmt::format(
            "{}no thread of full form is engaged even when wound right in: of {:.4g} mm of external and "
            "{:.4g} mm of internal thread, chamfer, countersink, run-outs and lock nut take all",
            end_name(request_, index), end.thread_length_mm, end.base_length_mm));
    }

    const FitRequest asked_fit{
        .external = met.external, .internal = met.internal, .engagement_mm = out.engagement_max_mm};
    ThreadFit fitted;
    status = evaluate(asked_fit, fitted);
    if (!status.ok()) {
        return refuse(
            fmt::format("{}the threads' sizes are out of the range of a fit", end_name(request_, index)),
            status.code);
    }
    if (fitted.verdict == FitVerdict::mismatch || fitted.verdict == FitVerdict::interferes) {
        return refuse(fmt::format("{}{} does not screw into {}: {} ({})", end_name(request_, index),
                                  met.external_name, met.internal_name, enum_name(fitted.verdict),
                                  enum_name(fitted.deciding)));
    }
    if (fitted.verdict == FitVerdict::may_bind) {
        caution(AdjusterCaution::may_bind);
    }
    out.pitch_clearance_min_mm = std::max(0.0, fitted.pitch_clearance_min_mm);
    out.pitch_clearance_max_mm = fitted.pitch_clearance_max_mm;
    out.crest_clearance_max_mm = std::fmin(fitted.major_clearance_max_mm, fitted.minor_clearance_max_mm);
    out.axial_play_min_mm = fitted.axial_play_min_mm;
    out.axial_play_max_mm = fitted.axial_play_max_mm;
    out.pitch_diameter_mm = met.external.pitch.max_mm;

    ThreadStrength joint;
    const StrengthRequest asked{.sizes = out.sizes,
                                .external = external_material(request_, index).strength,
                                .internal = internal_material(request_, index).strength,
                                .overlap_mm = out.engagement_max_mm,
                                .external_bore_mm = end.external_bore_mm,
                                .internal_outside_mm = end.internal_outside_mm};
    try {
        joint = strength(asked);
    } catch (const Error& error) {
        return refuse(end_name(request_, index) + error.what());
    }
    out.external_area_mm2 = joint.external_net_area_mm2;
    out.external_root_mm = out.sizes.external_root_min_mm;
    out.internal_area_mm2 = joint.internal_net_area_mm2;
    out.internal_root_mm = out.sizes.internal_root_max_mm;
    out.external_shear_area_mm2_mm = joint.external_shear_area_mm2_mm;
    out.internal_shear_area_mm2_mm = joint.internal_shear_area_mm2_mm;
    out.external_shear_mpa = joint.external_shear_strength_mpa;
    out.internal_shear_mpa = joint.internal_shear_strength_mpa;
    out.external_strip_n_mm = joint.external_stripping_n / out.engagement_max_mm;
    out.internal_strip_n_mm = joint.internal_stripping_n / out.engagement_max_mm;
    out.external_section_n = given_or(joint.external_yield_n, joint.external_tension_n);
    out.internal_section_n = given_or(joint.internal_yield_n, joint.internal_tension_n);
    out.engagement_full_strength_mm = joint.engagement_required_mm;
    if (joint.has(StrengthCaution::shear_by_ratio)) {
        caution(AdjusterCaution::shear_by_ratio);
    }
    if (joint.has(StrengthCaution::thin_external_wall) || joint.has(StrengthCaution::thin_internal_wall)) {
        caution(AdjusterCaution::thin_wall);
    }
    if (joint.has(StrengthCaution::dilation_beyond)) {
        caution(AdjusterCaution::dilation_beyond);
    }
    return end.nut_thickness_mm > 0.0
               ? preload(index, std::sqrt(4.0 * joint.stress_area_mm2 / std::numbers::pi), out)
               : Status{};
}

/// Lock nut: preload that keeps the joint tight, the torque for it, what friction makes of that torque.
Status Maker::preload(std::size_t index, double area_diameter, AdjusterEndAnswer& out) {
    const AdjusterEnd& end = request_.ends[index];
    out.preload_least_n = LockPreload::compute(request_.push_n, request_.pull_n, request_.factor_of_safety);
    TighteningRequest asked{.diameter_mm = out.sizes.diameter_mm,
                            .pitch_diameter_mm = out.pitch_diameter_mm,
                            .lead_mm = std::abs(out.lead_mm),
                            .half_angle_deg = out.half_angle_deg,
                            .section_diameter_mm = area_diameter,
                            .bore_mm = end.external_bore_mm,
                            .thread_friction_low = end.thread_friction_low,
                            .thread_friction_high = end.thread_friction_high,
                            .bearing_friction_low = end.bearing_friction_low,
                            .bearing_friction_high = end.bearing_friction_high,
                            .bearing_diameter_mm = 0.5 * (out.sizes.diameter_mm + end.nut_outside_mm),
                            .preload_n = out.preload_least_n};
    try {
        out.torque_nm = tighten(asked).torque_max_nm;
        asked.preload_n = kNaN;
        asked.torque_nm = out.torque_nm;
        const Tightening reached = tighten(asked);
        out.preload_max_n = reached.preload_max_n;
        out.loosen_nm = reached.loosen_min_nm;
    } catch (const Error& error) {
        return refuse(end_name(request_, index) + error.what());
    }
    return {};
}

/// Thickness that the lock nut needs, and what warmth does to its preload.
Status Maker::lock_nut(std::size_t index, AdjusterEndAnswer& out) {
    const AdjusterEnd& end = request_.ends[index];
    const AdjusterMaterial& external = external_material(request_, index);
    const double full = end.nut_thickness_mm - 2.0 * end.nut_countersink_mm - request_.groove_width_mm;
    out.nut_rule_mm = kNutRule * out.sizes.diameter_mm;
    if (!(end.nut_outside_mm > out.sizes.internal_root_max_mm)) {
        return refuse(
            fmt::format("{}nut_outside_mm must be above {:.6g} mm, the root of its thread, got {} mm",
                        end_name(request_, index), out.sizes.internal_root_max_mm, end.nut_outside_mm));
    }
    ThreadStrength nut;
    try {
        nut = strength(StrengthRequest{.sizes = out.sizes,
                                       .external = external.strength,
                                       .internal = end.nut.strength,
                                       .overlap_mm = out.sizes.diameter_mm,
                                       .external_bore_mm = end.external_bore_mm,
                                       .internal_outside_mm = end.nut_outside_mm});
    } catch (const Error& error) {
        return refuse(fmt::format("{}lock nut: {}", end_name(request_, index), error.what()));
    }
    const double needed = engagement_for(nut, out.preload_max_n + request_.push_n);
    out.nut_least_mm = needed + 2.0 * end.nut_countersink_mm + request_.groove_width_mm;
    if (needed > full) {
        caution(AdjusterCaution::nut_thin);
    }
    double worst = 0.0;
    for (const AdjusterMaterial* clamped : {&end.nut, &internal_material(request_, index)}) {
        const double change =
            LockPreloadChange::compute(external.youngs_modulus_gpa, out.external_area_mm2,
                                       clamped->expansion_um_m_k, external.expansion_um_m_k);
        if (std::isnan(change) || std::abs(change) > std::abs(worst)) {
            worst = change;
        }
    }
    out.preload_change_n_k = worst;
    if (worst != 0.0) {
        caution(AdjusterCaution::expansion);
    }
    if (out.preload_max_n + request_.pull_n > kPreloadShare * out.external_section_n) {
        caution(AdjusterCaution::preload_high);
    }
    return {};
}

Status Maker::make_end(std::size_t index, AdjusterEndAnswer& out) {
    const Status status = threads(index, out);
    if (!status.ok()) {
        return status;
    }
    const AdjusterEnd& end = request_.ends[index];
    const double largest = std::max(request_.push_n, request_.pull_n);
    out.thread_load_n =
        std::max(request_.factor_of_safety * largest, given_or(out.preload_max_n, 0.0) + largest);
    out.engagement_for_load_mm =
        out.thread_load_n / std::min(out.external_strip_n_mm, out.internal_strip_n_mm);
    out.engagement_rule_mm = end.rule_diameters * out.sizes.diameter_mm;
    out.engagement_least_mm = std::max(out.engagement_for_load_mm, out.engagement_rule_mm);
    const double lost = end.chamfer_mm + end.countersink_mm;
    out.insertion_min_mm = out.engagement_least_mm + lost;
    out.insertion_min_strength_mm = out.engagement_for_load_mm + lost;
    out.insertion_min_rule_mm = out.engagement_rule_mm + lost;
    out.groove_mm = out.insertion_min_mm + end.nut_thickness_mm;
    if (out.engagement_least_mm >= out.engagement_max_mm || out.insertion_min_mm >= out.insertion_max_mm) {
        const bool by_rule = out.engagement_rule_mm >= out.engagement_for_load_mm;
        return refuse(
            fmt::format("{}no safe range: {} asks for {:.2f} mm of full-form engagement, wound right in "
                        "there are {:.2f} mm; "
                        "a longer external or internal thread{}, or {}",
                        end_name(request_, index),
                        by_rule ? fmt::format("the rule of {:.3g} D", end.rule_diameters) : "strength",
                        out.engagement_least_mm, out.engagement_max_mm,
                        end.nut_thickness_mm > 0.0 ? " or a thinner lock nut" : "",
                        by_rule ? "rule_diameters stated lower with licensed advice"
                                : "a smaller load or a stronger metal"));
    }
    if (end.nut_thickness_mm > 0.0) {
        if (const Status nut = lock_nut(index, out); !nut.ok()) {
            return nut;
        }
    } else {
        caution(AdjusterCaution::no_lock_nut);
    }
    if (out.engagement_least_mm < kFewTurns * out.sizes.pitch_mm) {
        caution(AdjusterCaution::few_turns);
    }
    if (out.engagement_least_mm < out.engagement_full_strength_mm) {
        caution(AdjusterCaution::strips_first);
    }
    return {};
}

/// Turns between the ends' own limits, and the lengths there.
struct Winding {
    double turns = kNaN;
    double shortest = kNaN;
    double longest = kNaN;
};

/// Insertions after some turns from the shortest length.
std::array<double, 2> insertions(const Adjuster& adjuster, double turns,
                                 const std::array<double, 2>& least) noexcept {
    const auto& ends = adjuster.ends;
    std::array<double, 2> out{ends[0].insertion_max_mm - turns * std::abs(ends[0].lead_mm), kNaN};
    if (adjuster.request.count == 1) {
        return out;
    }
    out[1] = ends[1].insertion_max_mm - turns * std::abs(ends[1].lead_mm);
    if (!adjuster.opposite_hands) {
        const std::size_t in = std::abs(ends[0].lead_mm) > std::abs(ends[1].lead_mm) ? 1 : 0;
        out[in] = least[in] + turns * std::abs(ends[in].lead_mm);
    }
    return out;
}

double length_at(const Adjuster& adjuster, const std::array<double, 2>& insertion) noexcept {
    double length = adjuster.request.middle_length_mm;
    for (std::size_t i = 0; i < adjuster.request.count; ++i) {
        length += adjuster.request.ends[i].outer_length_mm - insertion[i];
    }
    return length;
}

Winding wind(const Adjuster& adjuster, const std::array<double, 2>& least) noexcept {
    double turns = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < adjuster.request.count; ++i) {
        const AdjusterEndAnswer& end = adjuster.ends[i];
        turns = std::min(turns, (end.insertion_max_mm - least[i]) / std::abs(end.lead_mm));
    }
    turns = std::max(0.0, turns);
    return {turns, length_at(adjuster, insertions(adjuster, 0.0, least)),
            length_at(adjuster, insertions(adjuster, turns, least))};
}

std::array<double, 2> least_insertions(const Adjuster& adjuster, double AdjusterEndAnswer::* which) noexcept {
    return {adjuster.ends[0].*which, adjuster.ends[1].*which};
}

Status Maker::range(Adjuster& out) {
    if (request_.count == 2) {
        double travel = kNaN;
        const Status status =
            halfnut::evaluate<TurnbuckleTravel>(travel, out.ends[0].lead_mm, out.ends[1].lead_mm);
        if (!status.ok()) {
            return refuse(TurnbuckleTravel::refusal(out.ends[0].lead_mm, out.ends[1].lead_mm), status.code);
        }
        out.travel_per_turn_mm = travel;
        out.opposite_hands = out.ends[0].lead_mm * out.ends[1].lead_mm < 0.0;
    } else {
        out.travel_per_turn_mm = std::abs(out.ends[0].lead_mm);
        out.opposite_hands = true;
    }
    out.travel_per_flat_mm = out.travel_per_turn_mm / request_.flats;
    return {};
}

double second_moment(double outside, double bore) noexcept {
    return std::numbers::pi * (outside * outside + bore * bore) * (outside - bore) * (outside + bore) / 64.0;
}

/// The column at some insertions, from the first joint to the second.
std::vector<ColumnSegment> segments(const Adjuster& adjuster, const std::array<double, 2>& insertion) {
    const AdjusterRequest& request = adjuster.request;
    std::vector<ColumnSegment> out;
    const auto add = [&](double length, double gpa, double outside, double bore) {
        if (length > 0.0) {
            out.push_back({length, 1000.0 * gpa * second_moment(outside, bore)});
        }
    };
    const bool tube = request.middle == AdjusterMiddle::external;
    const auto outer = [&](std::size_t i) {
        const AdjusterEnd& end = request.ends[i];
        const double gpa = end.outer.youngs_modulus_gpa;
        if (tube) {
            add(end.outer_length_mm, gpa, end.outer_outside_mm,
                std::max(end.outer_bore_mm,
                         std::min(adjuster.ends[i].internal_root_mm, 0.999 * end.outer_outside_mm)));
        } else {
            add(end.outer_length_mm - end.thread_length_mm, gpa, end.outer_outside_mm, end.outer_bore_mm);
        }
    };
    const auto exposed = [&](std::size_t i) {
        const AdjusterEnd& end = request.ends[i];
        add(end.thread_length_mm - insertion[i], external_material(request, i).youngs_modulus_gpa,
            adjuster.ends[i].external_root_mm, end.external_bore_mm);
    };
    // of a body, what its thread leaves; the rod within is not counted on
    const auto tapped = [&](std::size_t i) {
        const AdjusterEnd& end = request.ends[i];
        if (!tube) {
            add(end.base_length_mm, request.middle_material.youngs_modulus_gpa, end.internal_outside_mm,
                std::min(adjuster.ends[i].internal_root_mm, 0.999 * end.internal_outside_mm));
        }
    };
    double plain = request.middle_length_mm;
    for (std::size_t i = 0; i < request.count; ++i) {
        plain -= tube ? request.ends[i].thread_length_mm : request.ends[i].base_length_mm;
    }
    outer(0);
    exposed(0);
    tapped(0);
    add(plain, request.middle_material.youngs_modulus_gpa, request.middle_outside_mm, request.middle_bore_mm);
    if (request.count == 2) {
        tapped(1);
        exposed(1);
        outer(1);
    }
    return out;
}

void Maker::note_evidence(Adjuster& out) const {
    const auto note = [&](std::string_view name, RuleId rule) {
        for (std::size_t i = 0; i < kAdjusterEvidence.size(); ++i) {
            if (kAdjusterEvidence[i] == name) {
                out.evidence.note(static_cast<std::uint8_t>(i), rule);
            }
        }
    };
    out.evidence.note(figure("travel_per_turn_mm"), rule::adjuster_travel);
    out.evidence.note(figure("engagement_mm"), rule::adjuster_engaged);
    out.evidence.note(figure("engagement_for_load_mm"), rule::adjuster_thread_load);
    out.evidence.note(figure("engagement_rule_mm"), rule::adjuster_rule);
    out.evidence.note(figure("longest_mm"), rule::adjuster_least);
    out.evidence.note(figure("longest_mm"), rule::adjuster_range);
    out.evidence.note(figure("groove_mm"), rule::adjuster_groove);
    note("axial_play_max_mm", rule::fit_axial_play);
    note("tilt_max_deg", rule::fit_tilt);
    if (!std::isnan(out.ends[0].preload_least_n)) {
        note("preload_least_n", rule::adjuster_preload);
        note("preload_least_n", rule::adjuster_preload_thermal);
        note("torque_nm", rule::torque_long);
    }
    note("external_strip_n_mm", rule::strength_shear_external);
    note("external_strip_n_mm", rule::strength_shear_internal);
    note("external_strip_n_mm", rule::strength_stripping);
    note("external_section_n", rule::strength_net_area);
    note("external_section_n", rule::strength_bears);
    note("column_n", rule::column_stepped);
    note("column_n", rule::column_capacity);
    note("column_n", rule::column_design_factor);
    note("growth_um_k", rule::adjuster_growth);
}

Status Maker::make(Adjuster& out) {
    out = {};
    Status status = check_request();
    if (!status.ok()) {
        return status;
    }
    Adjuster made;
    made.request = request_;
    // What moves nothing is refused before anything is said of its threads.
    for (std::size_t i = 0; i < request_.count; ++i) {
        made.ends[i].lead_mm = signed_lead(request_.ends[i]);
    }
    status = range(made);
    for (std::size_t i = 0; status.ok() && i < request_.count; ++i) {
        status = make_end(i, made.ends[i]);
    }
    if (!status.ok()) {
        return status;
    }

    const Winding safe = wind(made, least_insertions(made, &AdjusterEndAnswer::insertion_min_mm));
    made.turns = safe.turns;
    made.shortest_mm = safe.shortest;
    made.longest_mm = safe.longest;
    made.travel_mm = safe.longest - safe.shortest;
    made.longest_strength_mm =
        wind(made, least_insertions(made, &AdjusterEndAnswer::insertion_min_strength_mm)).longest;
    made.longest_rule_mm =
        wind(made, least_insertions(made, &AdjusterEndAnswer::insertion_min_rule_mm)).longest;

    const double plain_area = TubeArea::compute(request_.middle_outside_mm, request_.middle_bore_mm);
    made.middle_section_n = plain_area * section_strength(request_.middle_material.strength);
    made.least_yield_load_n = made.middle_section_n;
    const std::array<double, 2> half =
        insertions(made, 0.5 * made.turns, least_insertions(made, &AdjusterEndAnswer::insertion_min_mm));
    const bool tube = request_.middle == AdjusterMiddle::external;
    made.growth_um_k = request_.middle_length_mm * request_.middle_material.expansion_um_m_k / 1000.0;
    for (std::size_t i = 0; i < request_.count; ++i) {
        const AdjusterEnd& end = request_.ends[i];
        made.least_yield_load_n = std::min(
            {made.least_yield_load_n, made.ends[i].external_section_n, made.ends[i].internal_section_n});
        if (!tube) {
            made.least_yield_load_n =
                std::min(made.least_yield_load_n, TubeArea::compute(end.outer_outside_mm, end.outer_bore_mm) *
                                                      section_strength(end.outer.strength));
        }
        made.growth_um_k += (end.outer_length_mm * end.outer.expansion_um_m_k -
                             half[i] * external_material(request_, i).expansion_um_m_k) /
                            1000.0;
    }
    const ColumnEndRow* const held = find_column_ends(catalogue_, request_.first_end, request_.second_end);
    made.end_factor = held->theoretical_k * held->theoretical_k / (held->design_k * held->design_k);

    double reached = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < kSamples; ++k) {
        AdjusterState state;
        const double share = static_cast<double>(k) / static_cast<double>(kSamples - 1);
        status = evaluate(made, share * made.turns, state);
        if (!status.ok()) {
            return refuse("the loads of these sizes are beyond what a double holds", status.code);
        }
        reached = std::min({reached, request_.pull_n > 0.0 ? state.pull_n / request_.pull_n : reached,
                            request_.push_n > 0.0 ? state.push_n / request_.push_n : reached});
    }
    if (std::isfinite(reached)) {
        made.factor_reached = reached;
        if (reached < request_.factor_of_safety) {
            caution(AdjusterCaution::factor_short);
        }
    }
    note_evidence(made);
    made.cautions = cautions_;
    out = made;
    return {};
}

}  // namespace

std::string TurnbuckleTravel::refusal(double first, double second) {
    if (first == 0.0 || second == 0.0) {
        return "a lead must not be 0 mm: above 0 right-hand, below 0 left-hand";
    }
    return fmt::format(
        "equal hands and equal leads, {:.6g} mm at both ends: turning the middle moves nothing; make one "
        "thread "
        "{}-hand, or its pitch another",
        std::abs(second), first > 0.0 ? "left" : "right");
}

Status evaluate(const Catalogue& catalogue, const AdjusterRequest& request, Adjuster& out, std::string* why) {
    std::string words;
    return Maker(catalogue, request, why == nullptr ? &words : why).make(out);
}

Adjuster adjuster(const Catalogue& catalogue, const AdjusterRequest& request) {
    return or_throw<Adjuster>(
        [&](Adjuster& out, std::string* why) { return evaluate(catalogue, request, out, why); });
}

Status evaluate(const Adjuster& adjuster, double turns, AdjusterState& out) {
    out = {};
    if (!std::isfinite(turns)) {
        return {StatusCode::not_finite, 0};
    }
    // A turn computed from a length may miss the end by a rounding error.
    const double slack = 1e-9 * std::max(1.0, adjuster.turns);
    if (!(turns >= -slack && turns <= adjuster.turns + slack)) {
        return {StatusCode::out_of_range, 0};
    }
    const AdjusterRequest& request = adjuster.request;
    AdjusterState made;
    made.turns = std::clamp(turns, 0.0, adjuster.turns);
    made.insertion_mm =
        insertions(adjuster, made.turns, least_insertions(adjuster, &AdjusterEndAnswer::insertion_min_mm));
    made.length_mm = length_at(adjuster, made.insertion_mm);
    made.axial_play_min_mm = 0.0;
    made.axial_play_max_mm = 0.0;
    made.pull_n = adjuster.middle_section_n;
    made.pull_element = AdjusterElement::middle_section;
    for (std::size_t i = 0; i < request.count; ++i) {
        const AdjusterEndAnswer& end = adjuster.ends[i];
        made.engagement_mm[i] = engaged_beside_groove(request.ends[i], made.insertion_mm[i], end.groove_mm,
                                                      request.groove_width_mm);
        made.axial_play_min_mm += end.axial_play_min_mm;
        made.axial_play_max_mm += end.axial_play_max_mm;
        made.tilt_max_deg[i] =
            ThreadTilt::compute(end.pitch_clearance_max_mm, given_or(end.crest_clearance_max_mm, 1e300),
                                made.engagement_mm[i], end.pitch_diameter_mm, end.half_angle_deg);
        for (const auto& [element, load] :
             {std::pair{AdjusterElement::external_section, end.external_section_n},
              std::pair{AdjusterElement::internal_section, end.internal_section_n},
              std::pair{AdjusterElement::external_thread, end.external_strip_n_mm * made.engagement_mm[i]},
              std::pair{AdjusterElement::internal_thread, end.internal_strip_n_mm * made.engagement_mm[i]}}) {
            if (load < made.pull_n) {
                made.pull_n = load;
                made.pull_element = element;
                made.pull_end = static_cast<std::uint8_t>(i);
            }
        }
    }
    made.push_n = made.pull_n;
    made.push_element = made.pull_element;
    made.push_end = made.pull_end;
    const Status status = stepped_column_load(segments(adjuster, made.insertion_mm), request.first_end,
                                              request.second_end, made.elastic_load_n);
    if (!status.ok()) {
        return status;
    }
    made.column_n =
        ColumnCapacity::compute(made.elastic_load_n * adjuster.end_factor, adjuster.least_yield_load_n);
    if (made.column_n < made.push_n) {
        made.push_n = made.column_n;
        made.push_element = AdjusterElement::column;
        made.push_end = 0;
    }
    out = made;
    return {};
}

std::array<double, kAdjusterStateFigures.size()> figures(const AdjusterState& s) noexcept {
    return {s.turns,
            s.length_mm,
            s.insertion_mm[0],
            s.insertion_mm[1],
            s.engagement_mm[0],
            s.engagement_mm[1],
            s.axial_play_min_mm,
            s.axial_play_max_mm,
            s.tilt_max_deg[0],
            s.tilt_max_deg[1],
            s.pull_n,
            s.push_n,
            s.elastic_load_n,
            s.column_n};
}

}  // namespace halfnut::threads
