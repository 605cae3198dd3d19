#include "halfnut/threads/fit.hpp"

#include <algorithm>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/spread.hpp"
#include "halfnut/threads/rules.hpp"

namespace halfnut::threads {
namespace {

/// A part as it meets the other: warm, and for the pitch diameter with its errors of form.
class Met {
   public:
    Met(const FitPart& part, bool external) noexcept
        : part_(part),
          sense_(external ? 1.0 : -1.0),
          scale_(1.0 + part.expansion_um_m_k * 1e-6 * (part.temperature_c - 20.0)),
          error_(PitchErrorShare(part)) {}

    /// What the coating adds to the material's side of a diameter, mm, least and greatest.
    [[nodiscard]] SizeRange coat(bool pitch) const noexcept {
        const auto change = [&](double um) {
            return scale_ *
                   (pitch ? CoatedPitchChange::compute(um, part_.half_angle_deg)
                          : CoatedDiameterChange::compute(um)) /
                   1000.0;
        };
        return {change(part_.build_up.min_um), change(part_.build_up.max_um)};
    }
    /// Pitch diameter as it gauges, bare.
    [[nodiscard]] SizeRange pitch() const noexcept {
        return {scale_ * part_.pitch.min_mm + sense_ * error_, scale_ * part_.pitch.max_mm + sense_ * error_};
    }
    [[nodiscard]] SizeRange coated(const SizeRange& bare, const SizeRange& coat) const noexcept {
        return sense_ > 0.0 ? SizeRange{bare.min_mm + coat.min_mm, bare.max_mm + coat.max_mm}
                            : SizeRange{bare.min_mm - coat.max_mm, bare.max_mm - coat.min_mm};
    }
    [[nodiscard]] SizeRange crest(const SizeRange& bare) const noexcept {
        return coated({scale_ * bare.min_mm, scale_ * bare.max_mm}, coat(false));
    }
    /// As the shop cuts it: `shift` towards the maximum-material limit.
    [[nodiscard]] Spread cut(double tolerance_over_sigma, double shift) const noexcept {
        const SizeRange size = pitch();
        const double half = 0.5 * (size.max_mm - size.min_mm);
        return {size.min_mm, size.max_mm, 0.5 * (size.min_mm + size.max_mm) + sense_ * shift * half,
                2.0 * half / tolerance_over_sigma};
    }

   private:
    static double PitchErrorShare(const FitPart& part) noexcept {
        return std::abs(part.lead_error_mm) / tangent_deg(part.half_angle_deg) + part.flank_equivalent_mm;
    }

    const FitPart& part_;
    double sense_;
    double scale_;
    double error_;
};

/// Least of two numbers of which either may be missing.
double least(double a, double b) noexcept {
    return std::isnan(a) ? b : std::isnan(b) ? a : std::min(a, b);
}

bool differ(double a, double b) noexcept {
    return std::abs(a - b) > 1e-9 * std::max(a, b);
}

Status check_part(const FitPart& part, std::uint8_t pitch_argument) noexcept {
    const auto bad = [&](std::uint8_t argument, double value) {
        return check(kFitArguments[argument], value);
    };
    const std::array<std::pair<std::uint8_t, double>, 8> values{{
        {pitch_argument, part.pitch.min_mm},
        {pitch_argument, part.pitch.max_mm},
        {std::uint8_t{2}, part.pitch_mm},
        {std::uint8_t{3}, part.half_angle_deg},
        {std::uint8_t{7}, part.temperature_c},
        {std::uint8_t{8}, part.expansion_um_m_k},
        {std::uint8_t{9}, std::abs(part.lead_error_mm)},
        {std::uint8_t{9}, part.flank_equivalent_mm},
    }};
    for (const auto& [argument, value] : values) {
        const StatusCode code = bad(argument, value);
        if (code != StatusCode::ok) {
            return {code, argument};
        }
    }
    if (part.pitch.min_mm > part.pitch.max_mm) {
        return {StatusCode::inconsistent, pitch_argument};
    }
    return {};
}

void note_evidence(const FitRequest& request, ThreadFit& out) noexcept {
    out.evidence.note(figure_index(kFitFigures, "pitch_clearance_min_mm"), rule::fit_clearance);
    out.evidence.note(figure_index(kFitFigures, "radial_play_max_mm"), rule::fit_radial_play);
    out.evidence.note(figure_index(kFitFigures, "axial_play_max_mm"), rule::fit_axial_play);
    out.evidence.note(figure_index(kFitFigures, "tilt_max_deg"), rule::fit_tilt);
    out.evidence.note(figure_index(kFitFigures, "chance_of_interference"), rule::fit_statistical);
    if (!request.external.build_up.bare() || !request.internal.build_up.bare()) {
        out.evidence.note(figure_index(kFitFigures, "pitch_clearance_min_mm"), rule::coat_build_up);
    }
    const auto has_error = [](const FitPart& part) {
        return part.lead_error_mm != 0.0 || part.flank_equivalent_mm != 0.0;
    };
    if (has_error(request.external) || has_error(request.internal)) {
        out.evidence.note(figure_index(kFitFigures, "pitch_clearance_min_mm"), rule::fit_functional);
    }
    if (request.external.temperature_c != 20.0 || request.internal.temperature_c != 20.0) {
        out.evidence.note(figure_index(kFitFigures, "pitch_clearance_min_mm"), rule::fit_thermal);
    }
}

}  // namespace

std::array<double, kFitFigures.size()> ThreadFit::figures() const noexcept {
    return {pitch_clearance_min_mm, pitch_clearance_max_mm, major_clearance_min_mm, major_clearance_max_mm,
            minor_clearance_min_mm, minor_clearance_max_mm, radial_play_min_mm,     radial_play_max_mm,
            axial_play_min_mm,      axial_play_max_mm,      tilt_min_deg,           tilt_max_deg,
            clearance_mean_mm,      clearance_sigma_mm,     chance_of_interference, engagement_mm,
            lead_mismatch_mm,       turns_to_bind};
}

FitPart fit_part(const Thread& thread, const ThreadLimits& limits) {
    FitPart out;
    out.major = {limits.mm(Limit::major_min), limits.mm(Limit::major_max)};
    out.pitch = {limits.mm(Limit::pitch_min), limits.mm(Limit::pitch_max)};
    out.minor = {limits.mm(Limit::minor_min), limits.mm(Limit::minor_max)};
    out.pitch_mm = thread.pitch_mm();
    out.starts = thread.starts;
    out.left_hand = thread.hand == Hand::left;
    return out;
}

Status evaluate(const FitRequest& request, ThreadFit& out) noexcept {
    out = {};
    for (const auto& [part, argument] :
         {std::pair{&request.external, std::uint8_t{0}}, std::pair{&request.internal, std::uint8_t{1}}}) {
        const Status status = check_part(*part, argument);
        if (!status.ok()) {
            return status;
        }
    }
    out.engagement_assumed = std::isnan(request.engagement_mm);
    const double engagement = out.engagement_assumed ? request.assumed_engagement_mm : request.engagement_mm;
    for (const auto& [argument, value] :
         {std::pair{std::uint8_t{4}, engagement}, std::pair{std::uint8_t{5}, request.tolerance_over_sigma},
          std::pair{std::uint8_t{6}, request.mean_shift}}) {
        const StatusCode code = check(kFitArguments[argument], value);
        if (code != StatusCode::ok) {
            return {code, argument};
        }
    }
    const Met male(request.external, true);
    const Met female(request.internal, false);
    const SizeRange male_coat = male.coat(true);
    const SizeRange female_coat = female.coat(true);
    const SizeRange male_pitch = male.coated(male.pitch(), male_coat);
    const SizeRange female_pitch = female.coated(female.pitch(), female_coat);
    const SizeRange male_major = male.crest(request.external.major);
    const SizeRange female_major = female.crest(request.internal.major);
    const SizeRange male_minor = male.crest(request.external.minor);
    const SizeRange female_minor = female.crest(request.internal.minor);

    out.engagement_mm = engagement;
    out.pitch_clearance_min_mm = female_pitch.min_mm - male_pitch.max_mm;
    out.pitch_clearance_max_mm = female_pitch.max_mm - male_pitch.min_mm;
    out.major_clearance_min_mm = female_major.min_mm - male_major.max_mm;
    out.major_clearance_max_mm = female_major.max_mm - male_major.min_mm;
    out.minor_clearance_min_mm = female_minor.min_mm - male_minor.max_mm;
    out.minor_clearance_max_mm = female_minor.max_mm - male_minor.min_mm;
    const double crest_min = least(out.major_clearance_min_mm, out.minor_clearance_min_mm);
    const double crest_max = least(out.major_clearance_max_mm, out.minor_clearance_max_mm);
    const double worst = least(out.pitch_clearance_min_mm, crest_min);
    const double best = least(out.pitch_clearance_max_mm, crest_max);
    out.radial_play_min_mm = std::max(0.0, worst);
    out.radial_play_max_mm = std::max(0.0, best);

    // Play and tilt of parts that go together; a part that interferes has none.
    const double half_angle = request.external.half_angle_deg;
    const double flank_min = worst < 0.0 ? 0.0 : out.pitch_clearance_min_mm;
    const double flank_max = best < 0.0 ? 0.0 : out.pitch_clearance_max_mm;
    const auto tilt = [&](double flank, double crest) {
        const double across = std::isnan(crest) ? flank : std::max(0.0, crest);
        return ThreadTilt::compute(flank, std::isnan(crest) ? 1e300 : across, engagement, male_pitch.max_mm,
                                   half_angle);
    };
    out.axial_play_min_mm = AxialPlay::compute(flank_min, half_angle);
    out.axial_play_max_mm = AxialPlay::compute(flank_max, half_angle);
    out.tilt_min_deg = tilt(flank_min, crest_min);
    out.tilt_max_deg = tilt(flank_max, crest_max);

    const Spread male_cut = male.cut(request.tolerance_over_sigma, request.mean_shift);
    const Spread female_cut = female.cut(request.tolerance_over_sigma, request.mean_shift);
    const auto even = [](const SizeRange& r) { return (r.max_mm - r.min_mm) * (r.max_mm - r.min_mm) / 12.0; };
    out.clearance_mean_mm =
        female_cut.expected() - male_cut.expected() -
        0.5 * (male_coat.min_mm + male_coat.max_mm + female_coat.min_mm + female_coat.max_mm);
    out.clearance_sigma_mm =
        std::sqrt(female_cut.variance() + male_cut.variance() + even(male_coat) + even(female_coat));
    out.chance_of_interference = chance_below(request, 0.0);

    const double male_lead = request.external.pitch_mm * request.external.starts;
    const double female_lead = request.internal.pitch_mm * request.internal.starts;
    const bool other_pitch = differ(request.external.pitch_mm, request.internal.pitch_mm) ||
                             request.external.starts != request.internal.starts;
    const bool other_angle = differ(request.external.half_angle_deg, request.internal.half_angle_deg);
    const bool other_hand = request.external.left_hand != request.internal.left_hand;
    if (other_pitch) {
        out.lead_mismatch_mm = std::abs(male_lead - female_lead);
        if (out.lead_mismatch_mm > 0.0) {
            out.turns_to_bind = out.axial_play_max_mm / out.lead_mismatch_mm;
        }
    }
    if (other_pitch || other_angle || other_hand) {
        out.verdict = FitVerdict::mismatch;
        out.deciding = other_hand    ? FitDimension::hand
                       : other_pitch ? FitDimension::lead
                                     : FitDimension::angle;
    } else {
        // A rounding error of the subtraction is no interference.
        const double zero = -1e-9;
        out.verdict = worst >= zero  ? FitVerdict::free
                      : best >= zero ? FitVerdict::may_bind
                                     : FitVerdict::interferes;
        const double nearly = worst + 1e-9;
        out.deciding = out.pitch_clearance_min_mm <= nearly   ? FitDimension::pitch
                       : out.major_clearance_min_mm <= nearly ? FitDimension::major
                                                              : FitDimension::minor;
    }
    note_evidence(request, out);
    return {};
}

double chance_below(const FitRequest& request, double clearance_mm) noexcept {
    const Met male(request.external, true);
    const Met female(request.internal, false);
    const Spread male_cut = male.cut(request.tolerance_over_sigma, request.mean_shift);
    Spread female_cut = female.cut(request.tolerance_over_sigma, request.mean_shift);
    // A clearance below c is an interference of parts that are c farther apart.
    female_cut.low -= clearance_mm;
    female_cut.high -= clearance_mm;
    female_cut.mean -= clearance_mm;
    const auto interval = [](const SizeRange& range) { return Interval{range.min_mm, range.max_mm}; };
    return chance_of_interference(female_cut, male_cut, interval(male.coat(true)),
                                  interval(female.coat(true)));
}

ThreadFit fit(const FitRequest& request) {
    ThreadFit out;
    const Status status = evaluate(request, out);
    if (!status.ok()) {
        const std::array<double, kFitArguments.size()> values{
            request.external.pitch.min_mm,
            request.internal.pitch.min_mm,
            std::min(request.external.pitch_mm, request.internal.pitch_mm),
            request.external.half_angle_deg,
            out.engagement_assumed ? request.assumed_engagement_mm : request.engagement_mm,
            request.tolerance_over_sigma,
            request.mean_shift,
            request.external.temperature_c,
            request.external.expansion_um_m_k,
            request.external.lead_error_mm};
        throw_status(status, "fit", kFitArguments.data(), values.data());
    }
    return out;
}

Status evaluate(const SuitRequest& request, Suited& out) noexcept {
    out = {};
    const std::array given{
        request.measured_mm,      request.measured_change_min_um, request.measured_change_max_um,
        request.clearance_min_mm, request.clearance_max_mm,       request.change_min_um,
        request.change_max_um};
    for (std::size_t i = 0; i < given.size(); ++i) {
        if (!std::isfinite(given[i])) {
            return {StatusCode::not_finite, static_cast<std::uint8_t>(i)};
        }
    }
    if (!(request.measured_mm > 0.0)) {
        return {StatusCode::out_of_range, 0};
    }
    const double least_away =
        request.clearance_min_mm + (request.measured_change_max_um + request.change_max_um) / 1000.0;
    const double most_away =
        request.clearance_max_mm + (request.measured_change_min_um + request.change_min_um) / 1000.0;
    if (least_away > most_away) {
        return {StatusCode::inconsistent, 4};
    }
    out.pitch = request.external
                    ? SizeRange{request.measured_mm - most_away, request.measured_mm - least_away}
                    : SizeRange{request.measured_mm + least_away, request.measured_mm + most_away};
    out.evidence.note(figure_index(kSuitFigures, "pitch_max_mm"), rule::fit_clearance);
    if (request.measured_change_max_um != 0.0 || request.change_max_um != 0.0) {
        out.evidence.note(figure_index(kSuitFigures, "pitch_max_mm"), rule::coat_build_up);
    }
    out.evidence.note(figure_index(kSuitFigures, "over_max_mm"), rule::wire_contact);
    return {};
}

}  // namespace halfnut::threads
