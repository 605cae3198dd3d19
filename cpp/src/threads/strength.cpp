#include "halfnut/threads/strength.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/rules.hpp"

namespace halfnut::threads {
namespace {

constexpr double kShearShare = 0.577;
constexpr double kHighStrengthMpa = 689.475729;  // 100 ksi
constexpr double kFewTurns = 3.0;
constexpr double kManyDiameters = 1.5;

// Roots of 60 degree threads, diametral, of P from the pitch line.
constexpr double kIsoRoot = 0.616025;       // smallest root radius
constexpr double kUnifiedRoot = 0.649519;   // a flat of P/8, or the smallest radius of UNR
constexpr double kInternalRoot = 0.793857;  // a flat of P/24

/// Whether stress areas and bending factors are published for the flanks: those of 60 degrees.
bool published_flanks(const StrengthSizes& sizes) noexcept {
    return sizes.half_angle_deg == 30.0;
}

template <std::size_t N>
consteval std::uint8_t place(const std::array<Argument, N>& arguments, std::string_view name) {
    for (std::size_t i = 0; i < N; ++i) {
        if (arguments[i].name == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    throw "no such argument";
}
consteval std::uint8_t strength_place(std::string_view name) {
    return place(kStrengthArguments, name);
}
consteval std::uint8_t figure(std::string_view name) {
    return figure_index(kStrengthFigures, name);
}
consteval std::uint8_t tightening_place(std::string_view name) {
    return place(kTighteningArguments, name);
}

/// In the order of kStrengthArguments.
std::array<double, kStrengthArguments.size()> given(const StrengthRequest& r) noexcept {
    const StrengthSizes& s = r.sizes;
    return {s.diameter_mm,
            s.pitch_mm,
            s.half_angle_deg,
            s.external_major_min_mm,
            s.external_pitch_min_mm,
            s.external_root_min_mm,
            s.internal_minor_max_mm,
            s.internal_pitch_max_mm,
            s.internal_root_max_mm,
            r.overlap_mm,
            r.external_chamfer_mm,
            r.external_run_out_mm,
            r.internal_countersink_mm,
            r.internal_run_out_mm,
            r.external_bore_mm,
            r.internal_outside_mm,
            r.external.tensile_mpa,
            r.external.yield_mpa,
            r.external.shear_mpa,
            r.internal.tensile_mpa,
            r.internal.yield_mpa,
            r.internal.shear_mpa,
            r.load_n,
            r.factor_of_safety};
}

/// Arguments that may be left out, as NaN.
constexpr std::array kMayLack{strength_place("internal_outside_mm"), strength_place("external_yield_mpa"),
                              strength_place("external_shear_mpa"),  strength_place("internal_yield_mpa"),
                              strength_place("internal_shear_mpa"),  strength_place("load_n"),
                              strength_place("factor_of_safety")};

template <std::size_t N, std::size_t M>
Status check_all(const std::array<Argument, N>& arguments, const std::array<double, N>& values,
                 const std::array<std::uint8_t, M>& may_lack) noexcept {
    for (std::size_t i = 0; i < N; ++i) {
        if (std::isnan(values[i]) && std::find(may_lack.begin(), may_lack.end(), i) != may_lack.end()) {
            continue;
        }
        const StatusCode code = check(arguments[i], values[i]);
        if (code != StatusCode::ok) {
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    return {};
}

/// Lesser of two numbers of which either may be missing.
double lesser(double a, double b) noexcept {
    return std::isnan(a) ? b : std::isnan(b) ? a : std::min(a, b);
}

template <class Figures>
bool all_finite_or_lacking(const Figures& figures) noexcept {
    return std::none_of(figures.begin(), figures.end(), [](double value) { return std::isinf(value); });
}

void note_evidence(const StrengthRequest& request, bool high_strength, ThreadStrength& out) noexcept {
    const auto note = [&](std::uint8_t figure, RuleId rule) { out.evidence.note(figure, rule); };
    note(figure("full_form_engagement_mm"), rule::strength_full_form);
    const bool published = published_flanks(request.sizes);
    note(figure("stress_area_mm2"), !published               ? rule::strength_area_root
                                    : !request.sizes.unified ? rule::strength_area_metric
                                    : high_strength          ? rule::strength_area_high
                                                             : rule::strength_area_unified);
    note(figure("root_area_mm2"), rule::strength_root);
    note(figure("external_net_area_mm2"), rule::strength_net_area);
    note(figure("external_shear_area_mm2"), rule::strength_shear_external);
    note(figure("internal_shear_area_mm2"), rule::strength_shear_internal);
    if (std::isnan(request.external.shear_mpa)) {
        note(figure("external_shear_strength_mpa"), rule::strength_shear_ratio);
    }
    if (std::isnan(request.internal.shear_mpa)) {
        note(figure("internal_shear_strength_mpa"), rule::strength_shear_ratio);
    }
    note(figure("stripping_ratio"), rule::strength_handbook);
    note(figure("engagement_handbook_mm"), rule::strength_handbook);
    note(figure("dilation_factor"), rule::strength_dilation);
    const RuleId bending = published ? rule::strength_bending : rule::strength_bending_bound;
    note(figure("external_bending_factor"), bending);
    note(figure("internal_bending_factor"), bending);
    note(figure("external_stripping_n"), rule::strength_stripping);
    note(figure("internal_stripping_n"), rule::strength_stripping);
    note(figure("external_tension_n"), rule::strength_tension);
    note(figure("bears_n"), rule::strength_bears);
    note(figure("engagement_required_mm"), rule::strength_required);
    if (!std::isnan(request.factor_of_safety)) {
        note(figure("allowable_n"), rule::strength_allowable);
    }
    if (!std::isnan(out.external_wall_mm) || !std::isnan(out.internal_wall_mm)) {
        note(std::isnan(out.external_wall_mm) ? figure("internal_wall_mm") : figure("external_wall_mm"),
             rule::strength_wall);
    }
    if (!std::isnan(out.radial_pressure_mpa)) {
        note(figure("radial_pressure_mpa"), rule::strength_hoop);
    }
}

/// Whether walls are thick and turns enough; the load's hoop stress against yield.
void note_cautions(const StrengthRequest& request, ThreadStrength& out) noexcept {
    const auto when = [&](bool true_here, StrengthCaution caution) {
        if (true_here) {
            out.cautions = static_cast<std::uint16_t>(out.cautions | static_cast<std::uint16_t>(caution));
        }
    };
    when(std::isnan(request.external.shear_mpa) || std::isnan(request.internal.shear_mpa),
         StrengthCaution::shear_by_ratio);
    when(out.outside_to_diameter < DilationFactor::kThinnest, StrengthCaution::dilation_beyond);
    when(std::isnan(request.internal_outside_mm), StrengthCaution::outside_unknown);
    when(out.engaged_turns < kFewTurns, StrengthCaution::few_turns);
    when(out.full_form_engagement_mm > kManyDiameters * request.sizes.diameter_mm,
         StrengthCaution::many_turns);
    when(out.external_wall_mm < out.thread_depth_mm, StrengthCaution::thin_external_wall);
    when(out.internal_wall_mm < out.thread_depth_mm, StrengthCaution::thin_internal_wall);
    when(out.weakest == StrengthElement::external_thread || out.weakest == StrengthElement::internal_thread,
         StrengthCaution::strips_first);
    when(std::isnan(request.external.yield_mpa) ||
             (std::isnan(request.internal.yield_mpa) && !std::isnan(request.internal_outside_mm)),
         StrengthCaution::yield_unknown);
    when(std::isnan(request.factor_of_safety), StrengthCaution::no_factor);
    when(out.internal_hoop_mpa > request.internal.yield_mpa, StrengthCaution::hoop_over_yield);
}

/// Loads that break each element, and which is the least.
void weigh(const StrengthRequest& request, ThreadStrength& out) noexcept {
    out.external_tension_n = out.external_net_area_mm2 * request.external.tensile_mpa;
    out.external_yield_n = out.external_net_area_mm2 * request.external.yield_mpa;
    out.internal_tension_n = out.internal_net_area_mm2 * request.internal.tensile_mpa;
    out.internal_yield_n = out.internal_net_area_mm2 * request.internal.yield_mpa;
    const std::array loads{std::pair{StrengthElement::external_tension, out.external_tension_n},
                           std::pair{StrengthElement::internal_tension, out.internal_tension_n},
                           std::pair{StrengthElement::external_thread, out.external_stripping_n},
                           std::pair{StrengthElement::internal_thread, out.internal_stripping_n}};
    out.weakest_n = out.external_tension_n;
    for (const auto& [element, load] : loads) {
        if (load < out.weakest_n) {
            out.weakest_n = load;
            out.weakest = element;
        }
    }
    out.bears_n = lesser(out.weakest_n, lesser(out.external_yield_n, out.internal_yield_n));
    out.allowable_n = out.bears_n / request.factor_of_safety;
}

/// Walls, and what the flanks do to them under the load.
void walls(const StrengthRequest& request, ThreadStrength& out) noexcept {
    const StrengthSizes& s = request.sizes;
    if (request.external_bore_mm > 0.0) {
        out.external_wall_mm = 0.5 * (s.external_root_min_mm - request.external_bore_mm);
    }
    out.internal_wall_mm = 0.5 * (request.internal_outside_mm - s.internal_root_max_mm);
    if (std::isnan(request.load_n)) {
        return;
    }
    out.radial_pressure_mpa = RadialPressure<Units::metric>::compute(
        request.load_n, s.external_pitch_min_mm, out.full_form_engagement_mm, s.half_angle_deg);
    out.external_hoop_mpa = HoopCompression<Units::metric>::compute(
        out.radial_pressure_mpa, request.external_bore_mm, s.external_root_min_mm);
    if (!std::isnan(request.internal_outside_mm)) {
        out.internal_hoop_mpa = HoopTension<Units::metric>::compute(
            out.radial_pressure_mpa, s.internal_root_max_mm, request.internal_outside_mm);
    }
    if (request.load_n > 0.0) {
        out.factor_reached = out.bears_n / request.load_n;
    }
}

std::string contradiction(Status status) {
    switch (status.argument) {
        case strength_place("engagement_mm"):
            return "engagement_mm: chamfers, countersinks and run-outs leave no thread of full form in it";
        case strength_place("external_bore_mm"):
            return "external_bore_mm: no wall is left under the external thread; a smaller bore or a larger "
                   "thread";
        case strength_place("internal_outside_mm"):
            return "internal_outside_mm: no wall is left over the internal thread; a larger outside or a "
                   "smaller "
                   "thread";
        case strength_place("internal_minor_max_mm"):
            return "internal_minor_max_mm: the threads do not overlap, it clears the external thread";
        case strength_place("internal_pitch_max_mm"):
            return "internal_pitch_max_mm: the threads do not overlap, it clears the external thread";
        default:
            return "diameter_mm: nothing is left inside a thread of this pitch";
    }
}

std::array<double, kTighteningArguments.size()> given(const TighteningRequest& r, bool high) noexcept {
    return {r.diameter_mm,
            r.pitch_diameter_mm,
            r.lead_mm,
            r.half_angle_deg,
            r.section_diameter_mm,
            r.bore_mm,
            high ? r.thread_friction_high : r.thread_friction_low,
            high ? r.bearing_friction_high : r.bearing_friction_low,
            r.bearing_diameter_mm,
            r.prevailing_nm,
            r.preload_n,
            r.torque_nm};
}

constexpr std::array kTighteningMayLack{tightening_place("preload_n"), tightening_place("torque_nm")};

}  // namespace

std::array<double, kStrengthFigures.size()> ThreadStrength::figures() const noexcept {
    return {full_form_engagement_mm,
            engaged_turns,
            stress_area_mm2,
            root_area_mm2,
            external_net_area_mm2,
            internal_net_area_mm2,
            external_shear_area_mm2_mm,
            internal_shear_area_mm2_mm,
            external_shear_area_mm2,
            internal_shear_area_mm2,
            external_shear_strength_mpa,
            internal_shear_strength_mpa,
            strength_ratio,
            stripping_ratio,
            dilation_factor,
            external_bending_factor,
            internal_bending_factor,
            external_tension_n,
            internal_tension_n,
            external_stripping_n,
            internal_stripping_n,
            external_yield_n,
            internal_yield_n,
            weakest_n,
            bears_n,
            allowable_n,
            engagement_required_mm,
            engagement_handbook_mm,
            engagement_for_load_mm,
            external_wall_mm,
            internal_wall_mm,
            radial_pressure_mpa,
            internal_hoop_mpa,
            external_hoop_mpa,
            outside_to_diameter,
            factor_reached,
            thread_depth_mm};
}

std::array<double, kTighteningFigures.size()> Tightening::figures() const noexcept {
    return {preload_min_n,  preload_max_n,  torque_min_nm,    torque_max_nm,    loosen_min_nm, loosen_max_nm,
            nut_factor_min, nut_factor_max, thread_share_min, thread_share_max, stress_max_mpa};
}

StrengthSizes strength_sizes(const Thread& external, const ThreadLimits& external_limits,
                             const ThreadLimits& internal_limits) {
    StrengthSizes out;
    out.diameter_mm = external.diameter_mm();
    out.pitch_mm = external.pitch_mm();
    out.starts = external.starts;
    out.unified = external.inch();
    out.external_major_min_mm = external_limits.mm(Limit::major_min);
    out.external_pitch_min_mm = external_limits.mm(Limit::pitch_min);
    const double root = external_limits.mm(Limit::minor_min);
    out.external_root_min_mm =
        std::isnan(root)
            ? out.external_pitch_min_mm - (external.inch() ? kUnifiedRoot : kIsoRoot) * out.pitch_mm
            : root;
    out.internal_minor_max_mm = internal_limits.mm(Limit::minor_max);
    out.internal_pitch_max_mm = internal_limits.mm(Limit::pitch_max);
    out.internal_root_max_mm = out.internal_pitch_max_mm + kInternalRoot * out.pitch_mm;
    return out;
}

StrengthSizes strength_sizes(double diameter_mm, const FitPart& external, const FitPart& internal) {
    StrengthSizes out;
    out.diameter_mm = diameter_mm;
    out.pitch_mm = external.pitch_mm;
    out.starts = external.starts;
    out.half_angle_deg = external.half_angle_deg;
    out.external_major_min_mm = external.major.min_mm;
    out.external_pitch_min_mm = external.pitch.min_mm;
    out.external_root_min_mm = std::isnan(external.minor.min_mm)
                                   ? external.minor.max_mm - (external.pitch.max_mm - external.pitch.min_mm)
                                   : external.minor.min_mm;
    out.internal_minor_max_mm = internal.minor.max_mm;
    out.internal_pitch_max_mm = internal.pitch.max_mm;
    out.internal_root_max_mm = std::isnan(internal.major.max_mm)
                                   ? internal.major.min_mm + (internal.pitch.max_mm - internal.pitch.min_mm)
                                   : internal.major.max_mm;
    return out;
}

StrengthSizes strength_sizes(const PartLimits& external, const PartLimits& internal) {
    const ThreadLimits* const male = std::get_if<ThreadLimits>(&external.standard);
    const ThreadLimits* const female = std::get_if<ThreadLimits>(&internal.standard);
    return male != nullptr && female != nullptr
               ? strength_sizes(std::get<Thread>(external.part->thread), *male, *female)
               : strength_sizes(external.diameter_mm(), external.sizes, internal.sizes);
}

Status evaluate(const StrengthRequest& request, ThreadStrength& out) noexcept {
    out = {};
    const Status status = check_all(kStrengthArguments, given(request), kMayLack);
    if (!status.ok()) {
        return status;
    }
    const auto contradicts = [](std::uint8_t argument) { return Status{StatusCode::inconsistent, argument}; };
    const StrengthSizes& s = request.sizes;

    ThreadStrength made;
    made.full_form_engagement_mm = FullFormLength<Units::metric>::compute(
        request.overlap_mm, request.external_chamfer_mm, request.external_run_out_mm,
        request.internal_countersink_mm, request.internal_run_out_mm);
    if (std::isnan(made.full_form_engagement_mm)) {
        return contradicts(strength_place("engagement_mm"));
    }
    made.engaged_turns = made.full_form_engagement_mm / s.pitch_mm;
    made.thread_depth_mm = 0.5 * (s.diameter_mm - s.external_root_min_mm);

    const bool published = published_flanks(s);
    const bool high_strength = published && s.unified && request.external.tensile_mpa > kHighStrengthMpa;
    constexpr double kInch = 25.4;
    made.stress_area_mm2 =
        !published   ? detail::circle(s.external_root_min_mm)
        : !s.unified ? MetricStressArea::compute(s.diameter_mm, s.pitch_mm)
        : high_strength
            ? HighStrengthStressArea<Units::metric>::compute(s.external_pitch_min_mm, s.pitch_mm)
            : UnifiedStressArea::compute(s.diameter_mm / kInch, kInch / s.pitch_mm) * kInch * kInch;
    if (std::isnan(made.stress_area_mm2)) {
        return contradicts(strength_place("diameter_mm"));
    }
    made.root_area_mm2 = detail::circle(s.external_root_min_mm);
    made.external_net_area_mm2 = made.stress_area_mm2 - detail::circle(request.external_bore_mm);
    if (!(made.external_net_area_mm2 > 0.0) || !(request.external_bore_mm < s.external_root_min_mm)) {
        return contradicts(strength_place("external_bore_mm"));
    }
    if (!std::isnan(request.internal_outside_mm)) {
        made.internal_net_area_mm2 =
            NetArea<Units::metric>::compute(request.internal_outside_mm, s.internal_root_max_mm);
        if (std::isnan(made.internal_net_area_mm2)) {
            return contradicts(strength_place("internal_outside_mm"));
        }
        made.outside_to_diameter = request.internal_outside_mm / s.diameter_mm;
    }

    made.external_shear_area_mm2_mm = ExternalShearArea<Units::metric>::compute(
        s.internal_minor_max_mm, s.external_pitch_min_mm, s.pitch_mm, s.half_angle_deg, 1.0);
    made.internal_shear_area_mm2_mm = InternalShearArea<Units::metric>::compute(
        s.external_major_min_mm, s.internal_pitch_max_mm, s.pitch_mm, s.half_angle_deg, 1.0);
    if (std::isnan(made.external_shear_area_mm2_mm) || s.internal_minor_max_mm >= s.external_major_min_mm) {
        return contradicts(strength_place("internal_minor_max_mm"));
    }
    if (std::isnan(made.internal_shear_area_mm2_mm)) {
        return contradicts(strength_place("internal_pitch_max_mm"));
    }
    made.external_shear_area_mm2 = made.external_shear_area_mm2_mm * made.full_form_engagement_mm;
    made.internal_shear_area_mm2 = made.internal_shear_area_mm2_mm * made.full_form_engagement_mm;
    const auto shear = [](const PartStrength& part) {
        return std::isnan(part.shear_mpa) ? kShearShare * part.tensile_mpa : part.shear_mpa;
    };
    made.external_shear_strength_mpa = shear(request.external);
    made.internal_shear_strength_mpa = shear(request.internal);
    made.strength_ratio = made.internal_shear_strength_mpa * made.internal_shear_area_mm2_mm /
                          (made.external_shear_strength_mpa * made.external_shear_area_mm2_mm);
    made.stripping_ratio =
        StrippingRatio::compute(made.external_shear_area_mm2_mm, request.external.tensile_mpa,
                                made.internal_shear_area_mm2_mm, request.internal.tensile_mpa);
    made.dilation_factor =
        std::isnan(made.outside_to_diameter) ? 1.0 : DilationFactor::curve(made.outside_to_diameter);
    made.external_bending_factor = published
                                       ? std::min(1.0, ExternalBendingFactor::compute(made.strength_ratio))
                                       : ExternalBendingFactor::kEven;
    made.internal_bending_factor = published
                                       ? std::min(1.0, InternalBendingFactor::compute(made.strength_ratio))
                                       : InternalBendingFactor::kEven;
    made.external_stripping_n = made.external_shear_area_mm2 * made.external_shear_strength_mpa *
                                made.dilation_factor * made.external_bending_factor;
    made.internal_stripping_n = made.internal_shear_area_mm2 * made.internal_shear_strength_mpa *
                                made.dilation_factor * made.internal_bending_factor;
    weigh(request, made);

    made.engagement_required_mm =
        engagement_for(made, lesser(made.external_tension_n, made.internal_tension_n));
    made.engagement_handbook_mm =
        EngagementForTension<Units::metric>::compute(made.stress_area_mm2, s.internal_minor_max_mm,
                                                     s.external_pitch_min_mm, s.pitch_mm, s.half_angle_deg) *
        std::max(1.0, made.stripping_ratio);
    if (!std::isnan(request.load_n)) {
        const double factor = std::isnan(request.factor_of_safety) ? 1.0 : request.factor_of_safety;
        made.engagement_for_load_mm = engagement_for(made, factor * request.load_n);
    }
    walls(request, made);
    note_evidence(request, high_strength, made);
    note_cautions(request, made);
    if (!all_finite_or_lacking(made.figures()) || std::isnan(made.bears_n) || !(made.weakest_n > 0.0)) {
        return {StatusCode::no_result, 0};
    }
    out = made;
    return {};
}

std::string refusal(const StrengthRequest& request, Status status) {
    switch (status.code) {
        case StatusCode::inconsistent:
            return "strength: " + contradiction(status);
        case StatusCode::not_finite:
        case StatusCode::out_of_range:
            return argument_message(kStrengthArguments[status.argument], given(request)[status.argument]);
        default:
            return fmt::format("strength: {}", status_sentence(status.code));
    }
}

ThreadStrength strength(const StrengthRequest& request) {
    ThreadStrength out;
    const Status status = evaluate(request, out);
    if (!status.ok()) {
        throw DomainError(refusal(request, status));
    }
    return out;
}

double engagement_for(const ThreadStrength& answer, double load_n) noexcept {
    return load_n / lesser(answer.external_stripping_n, answer.internal_stripping_n) *
           answer.full_form_engagement_mm;
}

Status evaluate(const TighteningRequest& request, Tightening& out) noexcept {
    out = {};
    for (const bool high : {false, true}) {
        const Status status = check_all(kTighteningArguments, given(request, high), kTighteningMayLack);
        if (!status.ok()) {
            return status;
        }
    }
    const auto contradicts = [](std::uint8_t argument) { return Status{StatusCode::inconsistent, argument}; };
    if (std::isnan(request.preload_n) == std::isnan(request.torque_nm)) {
        return contradicts(tightening_place("preload_n"));
    }
    if (request.thread_friction_low > request.thread_friction_high) {
        return contradicts(tightening_place("thread_friction"));
    }
    if (request.bearing_friction_low > request.bearing_friction_high) {
        return contradicts(tightening_place("bearing_friction"));
    }
    if (!(request.bore_mm < request.section_diameter_mm)) {
        return contradicts(tightening_place("bore_mm"));
    }
    const bool by_torque = std::isnan(request.preload_n);
    if (by_torque && request.torque_nm < request.prevailing_nm) {
        return contradicts(tightening_place("torque_nm"));
    }

    struct End {
        double preload;
        double torque;
        double loosen;
        double factor;
        double share;
        double stress;
    };
    const auto end = [&](double thread, double bearing) {
        const double arm = detail::screw_arm(request.pitch_diameter_mm, request.lead_mm,
                                             request.half_angle_deg, thread, 1.0);
        const double back = detail::screw_arm(request.pitch_diameter_mm, request.lead_mm,
                                              request.half_angle_deg, thread, -1.0);
        const double seat = bearing * request.bearing_diameter_mm / 2.0;
        const double preload = by_torque ? (request.torque_nm - request.prevailing_nm) * 1000.0 / (arm + seat)
                                         : request.preload_n;
        return End{
            preload,
            by_torque ? request.torque_nm : preload * (arm + seat) / 1000.0 + request.prevailing_nm,
            preload * (back + seat) / 1000.0 + request.prevailing_nm,
            (arm + seat) / request.diameter_mm,
            arm / (arm + seat),
            TighteningStress<Units::metric>::compute(preload, preload * arm / 1000.0 + request.prevailing_nm,
                                                     request.section_diameter_mm, request.bore_mm)};
    };
    const std::array ends{end(request.thread_friction_low, request.bearing_friction_low),
                          end(request.thread_friction_low, request.bearing_friction_high),
                          end(request.thread_friction_high, request.bearing_friction_low),
                          end(request.thread_friction_high, request.bearing_friction_high)};
    if (std::isnan(ends.back().factor)) {
        return contradicts(tightening_place("lead_mm"));
    }
    Tightening made;
    const auto range = [&](double End::* member, double& low, double& high) {
        low = ends[0].*member;
        high = low;
        for (const End& each : ends) {
            low = std::min(low, each.*member);
            high = std::max(high, each.*member);
        }
    };
    double least_stress = kNaN;
    range(&End::preload, made.preload_min_n, made.preload_max_n);
    range(&End::torque, made.torque_min_nm, made.torque_max_nm);
    range(&End::loosen, made.loosen_min_nm, made.loosen_max_nm);
    range(&End::factor, made.nut_factor_min, made.nut_factor_max);
    range(&End::share, made.thread_share_min, made.thread_share_max);
    range(&End::stress, least_stress, made.stress_max_mpa);
    const auto figures = made.figures();
    if (!std::all_of(figures.begin(), figures.end(), [](double value) { return std::isfinite(value); })) {
        return {StatusCode::no_result, 0};
    }
    made.evidence.note(figure_index(kTighteningFigures, "torque_max_nm"), rule::torque_long);
    made.evidence.note(figure_index(kTighteningFigures, "loosen_min_nm"), rule::torque_loosening);
    made.evidence.note(figure_index(kTighteningFigures, "nut_factor_max"), rule::torque_nut_factor);
    made.evidence.note(figure_index(kTighteningFigures, "stress_max_mpa"), rule::torque_stress);
    if (request.prevailing_nm > 0.0) {
        made.evidence.note(figure_index(kTighteningFigures, "torque_max_nm"), rule::torque_prevailing);
    }
    out = made;
    return {};
}

Tightening tighten(const TighteningRequest& request) {
    Tightening out;
    const Status status = evaluate(request, out);
    if (status.code == StatusCode::inconsistent) {
        switch (status.argument) {
            case tightening_place("preload_n"):
                throw DomainError("tighten: give the preload or the torque, one of the two");
            case tightening_place("bore_mm"):
                throw DomainError(fmt::format("bore_mm must be below section_diameter_mm, {} mm, got {} mm",
                                              request.section_diameter_mm, request.bore_mm));
            case tightening_place("torque_nm"):
                throw DomainError(fmt::format("torque_nm must be above the prevailing torque, {} N m, got {}",
                                              request.prevailing_nm, request.torque_nm));
            case tightening_place("lead_mm"):
                throw DomainError("lead_mm: so steep a lead does not turn under load with this friction");
            default:
                throw DomainError(fmt::format("{}: a range goes from the lesser to the greater",
                                              kTighteningArguments[status.argument].name));
        }
    }
    if (!status.ok()) {
        const bool low_bad = !check_all(kTighteningArguments, given(request, false), kTighteningMayLack).ok();
        const auto values = given(request, !low_bad);
        throw_status(status, "tighten", kTighteningArguments.data(), values.data());
    }
    return out;
}

}  // namespace halfnut::threads
