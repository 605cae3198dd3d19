#include "halfnut/threads/judge.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/rules.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

/// A rounding error of a conversion puts no part out of its limits.
constexpr double kNothingMm = 1e-9;

constexpr IsoClass iso(int pitch_grade, int crest_grade, Position position) {
    return {static_cast<std::uint8_t>(pitch_grade), position, static_cast<std::uint8_t>(crest_grade),
            position};
}

constexpr std::array kExternalClasses{iso(3, 4, Position::h), iso(4, 4, Position::h), iso(5, 4, Position::h),
                                      iso(5, 6, Position::h), iso(6, 6, Position::h), iso(7, 6, Position::h),
                                      iso(4, 4, Position::g), iso(5, 6, Position::g), iso(6, 6, Position::g),
                                      iso(7, 6, Position::g), iso(8, 8, Position::g), iso(9, 8, Position::g),
                                      iso(6, 6, Position::f), iso(6, 6, Position::e), iso(7, 6, Position::e),
                                      iso(8, 8, Position::e), iso(9, 8, Position::e)};
constexpr std::array kInternalClasses{iso(4, 4, Position::H), iso(5, 5, Position::H), iso(6, 6, Position::H),
                                      iso(7, 7, Position::H), iso(8, 8, Position::H), iso(5, 5, Position::G),
                                      iso(6, 6, Position::G), iso(7, 7, Position::G), iso(8, 8, Position::G)};

/// One diameter: `go` is the size that its maximum-material side is judged on, `not_go` the other.
Judged judged(double measured, double go, double not_go, double min, double max, bool external) {
    Judged out;
    out.measured_mm = measured;
    out.min_mm = min;
    out.max_mm = max;
    if (std::isnan(measured)) {
        return out;
    }
    const double sense = external ? 1.0 : -1.0;
    const double most = external ? max : min;
    const double least = external ? min : max;
    const double over = std::isnan(most) ? -1.0 : sense * (go - most);
    const double under = std::isnan(least) ? -1.0 : sense * (least - not_go);
    out.place = under > kNothingMm ? Place::overcut : over > kNothingMm ? Place::metal_left : Place::within;
    out.to_enter_mm = out.place == Place::metal_left ? over : 0.0;
    if (!std::isnan(most) && !std::isnan(least)) {
        out.to_middle_mm = sense * (go - 0.5 * (most + least));
    } else {
        out.to_middle_mm = out.to_enter_mm;
    }
    out.to_last_mm = std::isnan(least) ? out.to_enter_mm : -under;
    return out;
}

std::array<Judged, 3> against(const Measured& measured, const FitPart& limits, Side side, double functional) {
    const bool external = side == Side::external;
    // The external minor and the internal major diameter are roots: their maximum-material side alone is a
    // limit that a gauge checks; the figures of the other side come with the tool.
    const SizeRange major{limits.major.min_mm, external ? limits.major.max_mm : kNaN};
    const SizeRange minor{external ? kNaN : limits.minor.min_mm, limits.minor.max_mm};
    return {
        judged(measured.major_mm, measured.major_mm, measured.major_mm, major.min_mm, major.max_mm, external),
        judged(measured.pitch_mm, functional, measured.pitch_mm, limits.pitch.min_mm, limits.pitch.max_mm,
               external),
        judged(measured.minor_mm, measured.minor_mm, measured.minor_mm, minor.min_mm, minor.max_mm,
               external)};
}

void try_classes(const Catalogue& catalogue, const JudgeRequest& request, double functional, Verdict& out) {
    const bool external = out.side == Side::external;
    const auto attempt = [&](const Thread& thread) {
        ThreadLimits limits;
        if (!evaluate(catalogue, thread, request.options, limits).ok()) {
            return;
        }
        const std::array<Judged, 3> places = against(request, fit_part(thread, limits), out.side, functional);
        out.classes.push_back({class_text(thread), {places[0].place, places[1].place, places[2].place}});
    };
    Thread thread = request.thread;
    if (thread.inch()) {
        for (UnifiedClass grade = 1; grade <= 3; ++grade) {
            (external ? thread.external_unified : thread.internal_unified) = grade;
            attempt(thread);
        }
        return;
    }
    const auto each = [&](const auto& classes) {
        for (const IsoClass& candidate : classes) {
            (external ? thread.external_iso : thread.internal_iso) = candidate;
            attempt(thread);
        }
    };
    if (external) {
        each(kExternalClasses);
    } else {
        each(kInternalClasses);
    }
}

/// Pitch diameter from the size over wires or across balls; why there is none, in words.
std::string pitch_over_wires(const Measured& measured, const FitPart& limits, Verdict& out,
                             double& pitch_diameter) {
    const bool external = out.side == Side::external;
    const double found = external ? measured.major_mm : measured.minor_mm;
    out.crest_assumed = std::isnan(found);
    const double crest = !out.crest_assumed ? found : external ? limits.major.max_mm : limits.minor.min_mm;
    const double pitch = limits.pitch_mm;
    const double lead = limits.starts * pitch;
    const double half_angle = limits.half_angle_deg;
    const auto solve = [&]<class Formula>(Formula /*formula*/) {
        const Status status = halfnut::evaluate<Formula>(pitch_diameter, measured.over_wires_mm, crest, pitch,
                                                         lead, half_angle, measured.wire_mm);
        return status.ok() ? std::string()
                           : Formula::refusal(measured.over_wires_mm, crest, pitch, lead, half_angle,
                                              measured.wire_mm);
    };
    return external ? solve(PitchFromWiresExact{}) : solve(PitchFromBallsExact{});
}

Status refuse(std::string_view text, Verdict& out, std::string* why) {
    if (why != nullptr) {
        *why = text;
    }
    out = {};
    return {StatusCode::inconsistent, 0};
}

/// Whether there is something to judge, each number in its range.
Status check_measured(const Measured& request, Verdict& out, std::string* why) {
    const std::array values{request.pitch_mm,          request.major_mm,
                            request.minor_mm,          request.lead_error_mm,
                            request.leading_error_deg, request.following_error_deg,
                            request.over_wires_mm,     request.wire_mm};
    const auto is_error = [](std::size_t i) { return i >= 3 && i < 6; };
    bool measured = false;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!is_error(i) && std::isnan(values[i])) {
            continue;
        }
        measured |= !is_error(i);
        const StatusCode code = check(kJudgeArguments[i], values[i]);
        if (code != StatusCode::ok) {
            if (why != nullptr) {
                *why = argument_message(kJudgeArguments[i], values[i]);
            }
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    const bool over_wires = !std::isnan(request.over_wires_mm);
    if (over_wires != !std::isnan(request.wire_mm)) {
        return refuse("a size over wires and the wire's diameter go together: give over_wires and wire", out,
                      why);
    }
    if (over_wires && !std::isnan(request.pitch_mm)) {
        return refuse("pitch and over_wires say the same: give one of them", out, why);
    }
    if (!measured) {
        return refuse("nothing measured: give a pitch, major or minor diameter, or a size over wires", out,
                      why);
    }
    return {};
}

/// The diameters of a part against its limits; the pitch diameter, where it was measured over wires, is put
/// in `found`. `error` is what the errors of form take from the clearance.
Status judge_diameters(Measured& found, const FitPart& limits, double depth_above, double depth_below,
                       Verdict& out, double& error, std::string* why) {
    if (!std::isnan(found.over_wires_mm)) {
        const std::string text = pitch_over_wires(found, limits, out, found.pitch_mm);
        if (!text.empty()) {
            return refuse(text, out, why);
        }
    }
    error = PitchErrorEquivalent::compute(found.lead_error_mm, limits.half_angle_deg) +
            FlankErrorEquivalent::compute(found.leading_error_deg, found.following_error_deg,
                                          limits.half_angle_deg, depth_above, depth_below);
    if (std::isnan(error)) {
        return refuse(fmt::format("errors of {:g} and {:g} deg leave no flank of {:g} deg",
                                  found.leading_error_deg, found.following_error_deg, limits.half_angle_deg),
                      out, why);
    }
    out.functional_pitch_mm = found.pitch_mm + (out.side == Side::external ? error : -error);
    out.diameters = against(found, limits, out.side, out.functional_pitch_mm);
    return {};
}

}  // namespace

Place Verdict::place() const noexcept {
    Place worst = Place::not_measured;
    for (const Judged& d : diameters) {
        worst = std::max(worst, d.place);
    }
    return worst;
}

Status evaluate(const Catalogue& catalogue, const JudgeRequest& request, Verdict& out, std::string* why) {
    out = {};
    Status status = check_measured(request, out, why);
    if (!status.ok()) {
        return status;
    }
    status = evaluate(catalogue, request.thread, request.options, out.limits, why);
    if (!status.ok()) {
        return status;
    }
    out.side = out.limits.side;
    JudgeRequest found = request;
    const double h = TriangleHeight::compute(request.thread.pitch_mm());
    double error = 0.0;
    status =
        judge_diameters(found, fit_part(request.thread, out.limits), 3.0 * h / 8.0, h / 4.0, out, error, why);
    if (!status.ok()) {
        return status;
    }
    try_classes(catalogue, found, out.functional_pitch_mm, out);
    const bool over_wires = !std::isnan(request.over_wires_mm);
    if (over_wires) {
        out.evidence.note(figure_index(kJudgeFigures, "pitch"), rule::wire_contact);
    }
    out.evidence.note(figure_index(kJudgeFigures, "pitch"), rule::gauge_limits);
    out.evidence.note(figure_index(kJudgeFigures, "major"),
                      out.limits.inch() ? rule::unified_limits : rule::iso_limits);
    out.evidence.note(figure_index(kJudgeFigures, "minor"),
                      out.limits.inch() ? rule::unified_limits : rule::iso_limits);
    if (error != 0.0) {
        out.evidence.note(figure_index(kJudgeFigures, "functional_pitch_mm"), rule::fit_functional);
    }
    return {};
}

Status evaluate(const SizedJudgeRequest& request, Verdict& out, std::string* why) {
    out = {};
    Status status = check_measured(request, out, why);
    if (!status.ok()) {
        return status;
    }
    out.side = request.side;
    SizedJudgeRequest found = request;
    const FitPart& limits = request.limits;
    const double crest = request.side == Side::external ? limits.major.max_mm : limits.minor.min_mm;
    const double height = 0.5 * std::abs(crest - request.basic_pitch_diameter_mm);
    const double depth = std::isfinite(height) ? height : 0.0;
    double error = 0.0;
    status = judge_diameters(found, limits, depth, depth, out, error, why);
    if (!status.ok()) {
        return status;
    }
    const auto& d = out.diameters;
    out.classes.push_back({request.name, {d[0].place, d[1].place, d[2].place}});
    return {};
}

Status evaluate(const Catalogue& catalogue, const PartJudgeRequest& request, Verdict& out, std::string* why) {
    const PartLimits& own = request.limits;
    const Thread* const thread = own.part ? std::get_if<Thread>(&own.part->thread) : nullptr;
    if (thread != nullptr && !request.these_alone) {
        return evaluate(catalogue, JudgeRequest{request, *thread, own.options}, out, why);
    }
    const std::string name = own.part ? class_of(own.part->thread, own.side) : std::string();
    const Status status =
        evaluate(SizedJudgeRequest{request, own.sizes, own.side, basic_pitch_mm(catalogue, own),
                                   name.empty() ? own.title() : name},
                 out, why);
    if (!status.ok() || request.these_alone || !own.part) {
        return status;
    }
    ThreadPart part = *own.part;
    FormThread& form = std::get<FormThread>(part.thread);
    const std::vector<std::string> names = form_classes(catalogue, form, own.side);
    if (names.empty()) {
        return status;
    }
    out.classes.clear();
    Measured found = request;
    found.pitch_mm = out.diameters[1].measured_mm;
    PartLimits limits;
    for (const std::string& each : names) {
        (own.side == Side::external ? form.external_class : form.internal_class) = each;
        if (evaluate(catalogue, part, own.options, limits).ok()) {
            const auto d = against(found, limits.sizes, own.side, out.functional_pitch_mm);
            out.classes.push_back({each, {d[0].place, d[1].place, d[2].place}});
        }
    }
    return status;
}

Verdict judge(const Catalogue& catalogue, const PartJudgeRequest& request) {
    return or_throw<Verdict>(
        [&](Verdict& out, std::string* why) { return evaluate(catalogue, request, out, why); });
}

Verdict judge(const SizedJudgeRequest& request) {
    return or_throw<Verdict>([&](Verdict& out, std::string* why) { return evaluate(request, out, why); });
}

Verdict judge(const Catalogue& catalogue, const JudgeRequest& request) {
    return or_throw<Verdict>(
        [&](Verdict& out, std::string* why) { return evaluate(catalogue, request, out, why); });
}

}  // namespace halfnut::threads
