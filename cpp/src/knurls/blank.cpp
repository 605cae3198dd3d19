#include "halfnut/knurls/blank.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/knurls/rules.hpp"
#include "halfnut/knurls/tables.hpp"

namespace halfnut::knurls {
namespace {

constexpr double kSame = 1e-9;               // two table keys closer than this are one
constexpr double kAllowanceOfPitch = 0.145;  // rule allowance_by_pitch
constexpr double kBlankShareOfTooth = 0.1;   // rule blank_share
constexpr double kLeaningDeg = 30.0;         // DIN 82 and B94.6 wheels
constexpr double kWheelOffPitch = 0.03;
constexpr double kCoarseDiametral = 64.0;
constexpr double kLargestDiametralMm = kInchMm;
constexpr double kFewTeeth = 12.0;

constexpr std::uint8_t kDepthSource = source_place<DiametralPitchRow>("depth_source");
constexpr std::uint8_t kFactorSource = source_place<DiametralPitchRow>("tracking_factor_source");
constexpr std::uint8_t kLowerSource = source_place<DiametralToleranceRow>("lower_source");

constexpr std::uint8_t figure(std::string_view name) noexcept {
    for (std::size_t i = 0; i < kKnurlFigures.size(); ++i) {
        if (kKnurlFigures[i] == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return static_cast<std::uint8_t>(kKnurlFigures.size());
}

enum ArgumentIndex : std::uint8_t {
    kDiameter,
    kPitch,
    kHelix,
    kProfile,
    kWheelDiameter,
    kWheelTeeth,
    kAllowance,
    kClass,
    kWidth,
    kProcess,
    kSetOver,
};

bool given(double value) noexcept {
    return !std::isnan(value);
}

bool near(double a, double b) noexcept {
    return std::abs(a - b) <= kSame;
}

bool leans(Pattern pattern) noexcept {
    return pattern == Pattern::left || pattern == Pattern::right || pattern == Pattern::diamond_raised ||
           pattern == Pattern::diamond_indented;
}

/// Cutting wheels make ridges and standing points, DIN 82 RAA, RBL, RBR and RGE only.
bool can_be_cut(Pattern pattern) noexcept {
    return pattern != Pattern::diamond_indented && pattern != Pattern::cross_raised &&
           pattern != Pattern::cross_indented;
}

template <class Rows, class Match>
auto find(const Rows& rows, Match match) noexcept -> decltype(rows.data()) {
    for (const auto& row : rows) {
        if (match(row)) {
            return &row;
        }
    }
    return nullptr;
}

const DiametralPitchRow* diametral_row(const KnurlRequest& request, const Catalogue& catalogue) noexcept {
    if (request.system != PitchSystem::diametral) {
        return nullptr;
    }
    return find(catalogue.knurl_diametral_pitches,
                [&](const DiametralPitchRow& row) { return near(row.diametral_pitch, request.pitch); });
}

/// First argument that is outside its range, or ok.
Status check_arguments(const KnurlRequest& request) noexcept {
    const std::array<double, 9> values{request.diameter_mm,
                                       request.pitch,
                                       request.helix_deg,
                                       request.profile_deg,
                                       request.wheel_diameter_mm,
                                       request.wheel_teeth,
                                       request.tracking_allowance_mm,
                                       static_cast<double>(request.tolerance_class),
                                       request.width_mm};
    for (std::size_t i = 0; i < values.size(); ++i) {
        const bool needed = i == kDiameter || i == kPitch;
        if (!needed && std::isnan(values[i])) {
            continue;
        }
        const StatusCode code = check(kKnurlArguments[i], values[i]);
        if (code != StatusCode::ok) {
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    return {};
}

/// What two arguments can contradict each other in.
Status check_consistent(const KnurlRequest& request) noexcept {
    if (!leans(request.pattern) && given(request.helix_deg)) {
        return {StatusCode::inconsistent, kHelix};
    }
    if (!leans(request.pattern) && request.set_over) {
        return {StatusCode::inconsistent, kSetOver};
    }
    if (request.process == Process::cut && !can_be_cut(request.pattern)) {
        return {StatusCode::inconsistent, kProcess};
    }
    if (given(request.wheel_teeth) && !given(request.wheel_diameter_mm)) {
        return {StatusCode::inconsistent, kWheelTeeth};
    }
    if (given(request.tracking_allowance_mm) && !given(request.wheel_diameter_mm)) {
        return {StatusCode::inconsistent, kAllowance};
    }
    if (request.tolerance_class > 1 && request.pattern != Pattern::straight) {
        return {StatusCode::inconsistent, kClass};
    }
    if (request.tolerance_class != 0 && request.system != PitchSystem::diametral) {
        return {StatusCode::inconsistent, kClass};
    }
    return {};
}

/// One evaluation: the steps below run in order and each fills its figures with their evidence.
class Working {
   public:
    Working(const KnurlRequest& request, const Catalogue& catalogue, KnurlBlank& out) noexcept
        : request_(request),
          catalogue_(catalogue),
          out_(out),
          diametral_(diametral_row(request, catalogue)) {}

    Status run() noexcept {
        nominal_pitch();
        if (const Status status = wheel(); !status.ok()) {
            return status;
        }
        depth();
        growth();
        if (const Status status = teeth(); !status.ok()) {
            return status;
        }
        if (const Status status = limits(); !status.ok()) {
            return status;
        }
        cautions();
        return {};
    }

   private:
    void note(std::string_view name, RuleId rule, RowRef row = {}) noexcept {
        out_.evidence.note(figure(name), rule, row);
    }
    /// The row of this diametral pitch, citing one of its source columns.
    [[nodiscard]] RowRef diametral_ref(std::uint8_t source) const noexcept {
        RowRef ref = row_ref(catalogue_.knurl_diametral_pitches, *diametral_);
        ref.source = source;
        return ref;
    }
    void warn(KnurlCaution caution) noexcept { out_.cautions |= static_cast<std::uint32_t>(caution); }

    void nominal_pitch() noexcept {
        const double beta =
            leans(request_.pattern) ? (given(request_.helix_deg) ? request_.helix_deg : kLeaningDeg) : 0.0;
        out_.helix_deg = beta;
        if (!leans(request_.pattern)) {
            note("helix_deg", rule::straight_angle);
        } else if (!given(request_.helix_deg)) {
            note("helix_deg", rule::leaning_angle);
        }
        switch (request_.system) {
            case PitchSystem::diametral: {
                const double p = PitchFromDiametral::compute(request_.pitch);
                const RowRef row = diametral_ == nullptr
                                       ? RowRef{}
                                       : row_ref(catalogue_.knurl_diametral_pitches, *diametral_);
                if (request_.set_over) {
                    out_.normal_pitch_mm = p;
                    note("normal_pitch_mm", rule::diametral_teeth_set_over, row);
                } else {
                    out_.normal_pitch_mm = NormalPitch::compute(p, beta);
                    note("normal_pitch_mm", rule::diametral_teeth, row);
                }
                break;
            }
            case PitchSystem::circular:
                out_.normal_pitch_mm = PitchFromTeethPerInch::compute(request_.pitch);
                note("normal_pitch_mm", rule::circular_pitch);
                break;
            case PitchSystem::metric: {
                out_.normal_pitch_mm = request_.pitch;
                const MetricPitchRow* row =
                    find(catalogue_.knurl_metric_pitches,
                         [&](const MetricPitchRow& r) { return near(r.pitch_mm, request_.pitch); });
                note("normal_pitch_mm", rule::metric_pitch,
                     row == nullptr ? RowRef{} : row_ref(catalogue_.knurl_metric_pitches, *row));
                break;
            }
        }
        out_.transverse_pitch_mm = TransversePitch::compute(out_.normal_pitch_mm, beta);
    }

    /// A wheel at hand sets the pitch around the work; its name only sets the depth.
    Status wheel() noexcept {
        if (!given(request_.wheel_diameter_mm)) {
            note("transverse_pitch_mm", rule::transverse_pitch);
            return {};
        }
        out_.wheel_diameter_mm = request_.wheel_diameter_mm;
        out_.wheel_teeth = request_.wheel_teeth;
        if (!given(request_.wheel_teeth)) {
            if (const Status status = standard_wheel(); !status.ok()) {
                return status;
            }
        }
        const double diameter = out_.wheel_diameter_mm;
        const double count = out_.wheel_teeth;
        out_.tracking_allowance_mm = request_.tracking_allowance_mm;
        if (!given(out_.tracking_allowance_mm)) {
            if (diametral_ != nullptr) {
                out_.tracking_allowance_mm =
                    kInchMm * count * diametral_->tracking_factor_in / std::numbers::pi;
                note("tracking_allowance_mm", rule::allowance_by_factor, diametral_ref(kFactorSource));
            } else {
                out_.tracking_allowance_mm = kAllowanceOfPitch * WheelPitch::compute(diameter, count, 0.0);
                note("tracking_allowance_mm", rule::allowance_by_pitch);
            }
        }
        const double printed = WheelPitch::compute(diameter, count, out_.tracking_allowance_mm);
        const double nominal = request_.set_over ? out_.normal_pitch_mm : out_.transverse_pitch_mm;
        if (std::abs(printed / nominal - 1.0) > kWheelOffPitch) {
            warn(KnurlCaution::wheel_off_pitch);
        }
        out_.transverse_pitch_mm =
            request_.set_over ? TransversePitch::compute(printed, out_.helix_deg) : printed;
        note("transverse_pitch_mm", rule::wheel_pitch);
        return {};
    }

    /// Teeth and size over the points of a wheel known by its nominal diameter.
    Status standard_wheel() noexcept {
        const double nominal = request_.wheel_diameter_mm;
        if (request_.system == PitchSystem::metric && (out_.helix_deg == 0.0 || request_.set_over)) {
            const MetricWheelRow* row = find(catalogue_.knurl_metric_wheels, [&](const MetricWheelRow& r) {
                return near(r.diameter_mm, nominal) && near(r.pitch_mm, request_.pitch);
            });
            if (row != nullptr) {
                out_.wheel_teeth = row->teeth;
                note("wheel_teeth", rule::wheel_teeth_table, row_ref(catalogue_.knurl_metric_wheels, *row));
                return {};
            }
        } else if (diametral_ != nullptr) {
            const DiametralWheelRow* row =
                find(catalogue_.knurl_diametral_wheels, [&](const DiametralWheelRow& r) {
                    return near(r.diametral_pitch, request_.pitch) &&
                           near(r.nominal_diameter_in * kInchMm, nominal);
                });
            if (row != nullptr) {
                out_.wheel_teeth = row->teeth;
                out_.wheel_diameter_mm =
                    kInchMm * DiametralWheelOutside::compute(row->nominal_diameter_in, row->teeth,
                                                             diametral_->tracking_factor_in);
                note("wheel_teeth", rule::wheel_teeth_table,
                     row_ref(catalogue_.knurl_diametral_wheels, *row));
                note("wheel_diameter_mm", rule::wheel_outside, diametral_ref(kFactorSource));
                return {};
            }
        }
        return {StatusCode::not_tabulated, kWheelDiameter};
    }

    void depth() noexcept {
        if (!given(request_.profile_deg) && diametral_ != nullptr) {
            const bool leaning_teeth = out_.helix_deg > 0.0 && !request_.set_over;
            out_.tooth_depth_mm =
                kInchMm * (leaning_teeth ? diametral_->diagonal_depth_in : diametral_->straight_depth_in);
            note("tooth_depth_mm", rule::table_depth, diametral_ref(kDepthSource));
            return;
        }
        const ToothDepthRow* share = nullptr;
        if (!given(request_.profile_deg) && request_.system == PitchSystem::circular) {
            share = find(catalogue_.knurl_tooth_depths,
                         [&](const ToothDepthRow& r) { return r.pattern == request_.pattern; });
        }
        if (share != nullptr) {
            out_.tooth_depth_mm = share->depth_share * out_.normal_pitch_mm;
            note("tooth_depth_mm", rule::share_depth, row_ref(catalogue_.knurl_tooth_depths, *share));
            return;
        }
        out_.tooth_depth_mm = SharpToothDepth::compute(
            out_.normal_pitch_mm, given(request_.profile_deg) ? request_.profile_deg : kStandardProfileDeg);
        note("tooth_depth_mm", rule::sharp_depth);
    }

    void growth() noexcept {
        if (request_.process == Process::cut) {
            out_.growth_mm = 0.0;
            note("growth_mm", rule::cut_growth);
            return;
        }
        const bool standard_profile =
            !given(request_.profile_deg) || near(request_.profile_deg, kStandardProfileDeg);
        if (request_.system == PitchSystem::metric && standard_profile) {
            const MetricFormRow* form = find(catalogue_.knurl_forms, [&](const MetricFormRow& r) {
                return r.pattern == request_.pattern;
            });
            if (form != nullptr) {
                out_.growth_mm = form->blank_factor * out_.normal_pitch_mm;
                note("growth_mm", rule::factor_growth, row_ref(catalogue_.knurl_forms, *form));
                return;
            }
        }
        out_.growth_mm = FormGrowth::compute(out_.tooth_depth_mm, growth_share(request_.pattern));
        note("growth_mm", rule::volume_growth);
    }

    Status teeth() noexcept {
        const double d = request_.finished ? request_.diameter_mm - out_.growth_mm : request_.diameter_mm;
        const double p_t = out_.transverse_pitch_mm;
        const double n = TeethAround::compute(d, p_t);
        if (!(n >= kFewestTeeth - kWholeTooth)) {
            return {StatusCode::out_of_range, kDiameter};
        }
        out_.given_diameter_mm = d;
        out_.given_teeth = n;
        out_.given_mismatch_teeth = MismatchTeeth::compute(d, p_t);
        out_.given_mismatch_mm = out_.given_mismatch_teeth * p_t;
        out_.mismatch_limit_teeth = kMismatchLimit;
        out_.below_teeth = whole_below(n);
        out_.above_teeth = whole_above(n);
        out_.below_diameter_mm = TrackingBlank::compute(out_.below_teeth, p_t);
        out_.above_diameter_mm = TrackingBlank::compute(out_.above_teeth, p_t);
        const bool above = request_.prefer == Prefer::above || (request_.prefer == Prefer::nearest &&
                                                                out_.above_teeth - n < n - out_.below_teeth);
        out_.teeth = above ? out_.above_teeth : out_.below_teeth;
        out_.blank_diameter_mm = above ? out_.above_diameter_mm : out_.below_diameter_mm;
        out_.finished_diameter_mm = out_.blank_diameter_mm + out_.growth_mm;
        note("blank_diameter_mm", rule::whole_teeth);
        note("finished_diameter_mm", rule::finished_sum);
        if (request_.finished) {
            note("given_diameter_mm", rule::given_blank);
        }
        for (const std::string_view name :
             {"teeth", "below_diameter_mm", "below_teeth", "above_diameter_mm", "above_teeth"}) {
            note(name, rule::whole_teeth);
        }
        note("given_teeth", rule::teeth_around);
        note("given_mismatch_teeth", rule::mismatch);
        note("given_mismatch_mm", rule::mismatch_arc);
        note("mismatch_limit_teeth", rule::mismatch_limit);
        return {};
    }

    Status limits() noexcept {
        const DiametralToleranceRow* row = nullptr;
        if (request_.system == PitchSystem::diametral) {
            const int wanted = request_.tolerance_class == 0 ? 1 : request_.tolerance_class;
            row = find(catalogue_.knurl_tolerances, [&](const DiametralToleranceRow& r) {
                return r.tolerance_class == wanted && near(r.diametral_pitch, request_.pitch);
            });
        }
        if (row == nullptr) {
            if (request_.tolerance_class != 0) {
                return {StatusCode::not_tabulated, kClass};
            }
            out_.blank_plus_minus_mm =
                kBlankShareOfTooth * TrackingBlank::compute(1.0, out_.transverse_pitch_mm);
            note("blank_plus_minus_mm", rule::blank_share);
            return {};
        }
        const RowRef ref = row_ref(catalogue_.knurl_tolerances, *row);
        out_.blank_plus_minus_mm = row->blank_plus_minus_in * kInchMm;
        note("blank_plus_minus_mm", rule::blank_table, ref);
        if (request_.tolerance_class != 0) {
            const double nominal = request_.finished ? request_.diameter_mm : out_.finished_diameter_mm;
            out_.finished_max_mm = nominal + row->outside_upper_in * kInchMm;
            out_.finished_min_mm = nominal + row->outside_lower_in * kInchMm;
            note("finished_max_mm", rule::class_limits, ref);
            RowRef lower = ref;
            lower.source = kLowerSource;
            note("finished_min_mm", rule::class_limits, lower);
        }
        return {};
    }

    void cautions() noexcept {
        const bool in_series = request_.system == PitchSystem::circular || diametral_ != nullptr ||
                               (request_.system == PitchSystem::metric &&
                                find(catalogue_.knurl_metric_pitches, [&](const MetricPitchRow& r) {
                                    return near(r.pitch_mm, request_.pitch);
                                }) != nullptr);
        if (!in_series) {
            warn(KnurlCaution::stray_pitch);
        }
        if (out_.teeth < kFewTeeth) {
            warn(KnurlCaution::few_teeth);
        }
        if (request_.system == PitchSystem::diametral && near(request_.pitch, kCoarseDiametral)) {
            warn(KnurlCaution::coarse_diametral);
        }
        if (request_.system == PitchSystem::diametral &&
            out_.blank_diameter_mm > kLargestDiametralMm * (1.0 + kSame)) {
            warn(KnurlCaution::large_diametral);
        }
        if (given(request_.width_mm) && request_.width_mm > out_.blank_diameter_mm) {
            warn(KnurlCaution::wide_band);
        }
        if (out_.finished_diameter_mm > out_.finished_max_mm ||
            out_.finished_diameter_mm < out_.finished_min_mm) {
            warn(KnurlCaution::off_finished);
        }
    }

    const KnurlRequest& request_;
    const Catalogue& catalogue_;
    KnurlBlank& out_;
    const DiametralPitchRow* diametral_;
};

std::string wheels_listed(const KnurlRequest& request, const Catalogue& catalogue) {
    std::string list;
    const auto add = [&](const std::string& text) { list += (list.empty() ? "" : ", ") + text; };
    if (request.system == PitchSystem::metric && (request.set_over || !leans(request.pattern))) {
        for (const MetricWheelRow& row : catalogue.knurl_metric_wheels) {
            if (near(row.pitch_mm, request.pitch)) {
                add(fmt::format("{} mm", row.diameter_mm));
            }
        }
    } else if (request.system == PitchSystem::diametral) {
        for (const DiametralWheelRow& row : catalogue.knurl_diametral_wheels) {
            if (near(row.diametral_pitch, request.pitch)) {
                add(fmt::format("{} in", row.nominal_diameter_in));
            }
        }
    }
    return list.empty() ? "none; give its diameter and its teeth"
                        : list + "; or give its diameter and its teeth";
}

[[noreturn]] void throw_knurl(Status status, const KnurlRequest& request, const Catalogue& catalogue) {
    const std::string_view pattern = enum_name(request.pattern);
    const std::string pitch = knurl_pitch_text(request.system, request.pitch);
    if (status.code == StatusCode::inconsistent) {
        switch (status.argument) {
            case kHelix:
                throw DomainError(fmt::format(
                    "helix_deg is for leaning teeth, and {} teeth do not lean: leave it out, got {} deg",
                    pattern, request.helix_deg));
            case kSetOver:
                throw DomainError(fmt::format(
                    "set_over is for leaning teeth, and {} teeth do not lean: leave it out", pattern));
            case kProcess:
                throw DomainError(
                    fmt::format("process must be form for a {} knurl: cut wheels make straight, left, right "
                                "or diamond raised only",
                                pattern));
            case kWheelTeeth:
                throw DomainError(
                    fmt::format("wheel_teeth {} needs wheel_diameter_mm beside it", request.wheel_teeth));
            case kAllowance:
                throw DomainError(fmt::format("tracking_allowance_mm {} needs wheel_diameter_mm beside it",
                                              request.tracking_allowance_mm));
            default:
                if (request.system != PitchSystem::diametral) {
                    throw DomainError(fmt::format(
                        "tolerance_class {} is for diametral pitches (64, 96, 128, 160 DP), got {}",
                        request.tolerance_class, pitch));
                }
                throw DomainError(fmt::format("tolerance_class {} is for straight teeth, got {}: use class 1",
                                              request.tolerance_class, pattern));
        }
    }
    if (status.code == StatusCode::not_tabulated) {
        if (status.argument == kWheelDiameter) {
            throw NotTabulatedError(
                fmt::format("no standard {} wheel of {:.6g} mm for {}; tabulated: {}",
                            request.set_over || !leans(request.pattern) ? "straight" : "leaning",
                            request.wheel_diameter_mm, pitch, wheels_listed(request, catalogue)));
        }
        throw NotTabulatedError(
            fmt::format("no tolerance class {} for {}; tabulated: classes 1, 2, 3 for 64, 96, 128, 160 DP",
                        request.tolerance_class, pitch));
    }
    if (status.code == StatusCode::no_result) {
        throw DomainError(
            fmt::format("diameter_mm {:.6g} mm at {} gives no finite figures: take a usual size",
                        request.diameter_mm, pitch));
    }
    if (status.argument == kDiameter && request.diameter_mm > 0.0 &&
        status.code == StatusCode::out_of_range) {
        throw DomainError(
            fmt::format("diameter_mm {:.6g} mm takes fewer than {} teeth at {}: choose a finer pitch",
                        request.diameter_mm, kFewestTeeth, pitch));
    }
    const std::array<double, 9> values{request.diameter_mm,
                                       request.pitch,
                                       request.helix_deg,
                                       request.profile_deg,
                                       request.wheel_diameter_mm,
                                       request.wheel_teeth,
                                       request.tracking_allowance_mm,
                                       static_cast<double>(request.tolerance_class),
                                       request.width_mm};
    throw_status(status, "knurl_blank", kKnurlArguments.data(), values.data());
}

}  // namespace

Status evaluate(const KnurlRequest& request, const Catalogue& catalogue, KnurlBlank& out) noexcept {
    out = {};
    Status status = check_arguments(request);
    if (status.ok()) {
        status = check_consistent(request);
    }
    if (status.ok()) {
        status = Working(request, catalogue, out).run();
    }
    const auto figures = out.figures();
    if (status.ok() &&
        std::any_of(figures.begin(), figures.end(), [](double figure) { return std::isinf(figure); })) {
        status = {StatusCode::no_result, kDiameter};
    }
    if (!status.ok()) {
        out = {};
    }
    return status;
}

KnurlBlank knurl_blank(const KnurlRequest& request, const Catalogue& catalogue) {
    KnurlBlank out;
    const Status status = evaluate(request, catalogue, out);
    if (!status.ok()) {
        throw_knurl(status, request, catalogue);
    }
    return out;
}

}  // namespace halfnut::knurls
