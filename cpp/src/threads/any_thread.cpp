#include "halfnut/threads/any_thread.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/bounds.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/profile.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

constexpr double kIsoHalfAngleDeg = 30.0;

Status refuse(std::string* why, std::string text) {
    if (why != nullptr) {
        *why = std::move(text);
    }
    return {StatusCode::inconsistent, 0};
}

}  // namespace

Status read_any_thread(std::string_view text, const Catalogue& catalogue, AnyThread& out, std::string* why) {
    DesignationProblem problem;
    Status status;
    const bool of_a_form = is_form_designation(text, catalogue);
    if (of_a_form) {
        FormThread form;
        status = read_form_thread(text, catalogue, form, &problem);
        out = std::move(form);
    } else {
        Thread thread;
        status = read_thread(text, catalogue, thread, &problem);
        out = thread;
    }
    if (!status.ok() && why != nullptr) {
        const bool absent = status.code == StatusCode::not_tabulated && of_a_form;
        *why = absent ? problem.message
                      : fmt::format("cannot read '{}' at position {}: {}", bounds::shown(text),
                                    problem.position + 1, problem.message);
    }
    return status;
}

AnyThread parse_any_thread(std::string_view text, const Catalogue& catalogue) {
    return is_form_designation(text, catalogue) ? AnyThread(parse_form_thread(text, catalogue))
                                                : AnyThread(parse_thread(text, catalogue));
}

std::string format_any_thread(const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? format_form_thread(*form) : format_thread(std::get<Thread>(thread));
}

bool is_inch(const AnyThread& thread) noexcept {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form->inch : std::get_if<Thread>(&thread)->inch();
}

bool is_left_hand(const AnyThread& thread) noexcept {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form->left_hand : std::get_if<Thread>(&thread)->hand == Hand::left;
}

int starts(const AnyThread& thread) noexcept {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form->starts : std::get_if<Thread>(&thread)->starts;
}

double diameter_mm(const AnyThread& thread) noexcept {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form->diameter_mm() : std::get_if<Thread>(&thread)->diameter_mm();
}

double pitch_mm(const AnyThread& thread) noexcept {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form->pitch_mm() : std::get_if<Thread>(&thread)->pitch_mm();
}

bool tapers(const AnyThread& thread) noexcept {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr && form->tapers();
}

bool has_class(const AnyThread& thread, Side side) noexcept {
    if (const FormThread* const form = std::get_if<FormThread>(&thread)) {
        return !form->class_of(side).empty();
    }
    const Thread* const own = std::get_if<Thread>(&thread);
    return side == Side::external ? own->has_external() : own->has_internal();
}

std::string class_of(const AnyThread& thread, Side side) {
    if (!has_class(thread, side)) {
        return {};
    }
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form->class_of(side) : class_text(std::get<Thread>(thread).part(side));
}

double half_angle_deg(const Catalogue& catalogue, const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form_row(catalogue, *form).half_angle_deg : kIsoHalfAngleDeg;
}

double basic_major_mm(const Catalogue& catalogue, const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    if (form == nullptr || !form->tapers()) {
        return diameter_mm(thread);
    }
    constexpr std::size_t kAtGaugePlane = 1;
    return taper_pipe(catalogue, *form).figures[kAtGaugePlane] +
           form_row(catalogue, *form).pitch_drop * form->pitch_mm();
}

double basic_pitch_mm(const Catalogue& catalogue, const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? basic_pitch_diameter_mm(catalogue, *form)
                           : BasicPitchDiameter::compute(diameter_mm(thread), pitch_mm(thread));
}

namespace {

/// One part alone, with its class or the usual one.
ThreadPart part_of(const AnyThread& thread, Side side) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    ThreadPart out{
        form != nullptr ? AnyThread(form_part(*form, side)) : AnyThread(std::get<Thread>(thread).part(side)),
        side};
    out.class_assumed = !has_class(thread, side) && has_class(out.thread, side);
    return out;
}

}  // namespace

Status one_part(const AnyThread& thread, std::optional<Side> side, ThreadPart& out, std::string* why) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    const bool external = has_class(thread, Side::external);
    const bool internal = has_class(thread, Side::internal);
    const bool pipe = form != nullptr && form->pipe();
    if (side) {
        const bool own = *side == Side::external ? external : internal;
        const bool other = *side == Side::external ? internal : external;
        if (other && !own && !pipe) {
            return refuse(why, fmt::format("{} does not name an {} thread; the usual one is {}",
                                           format_any_thread(thread), enum_name(*side),
                                           format_any_thread(part_of(thread, *side).thread)));
        }
        out = part_of(thread, *side);
        return {};
    }
    const bool internal_pipe =
        pipe && (form->rule == FormRule::parallel_pipe ? !external
                                                       : form->taper_internal() || form->parallel_internal());
    out = part_of(thread, internal_pipe || (internal && !external) ? Side::internal : Side::external);
    return {};
}

ThreadPart mate(const AnyThread& thread, Side side) {
    ThreadPart out = part_of(thread, side);
    const Thread* const own = std::get_if<Thread>(&thread);
    if (own != nullptr && own->inch() && !has_class(thread, side)) {
        const UnifiedClass grade = std::max(own->external_unified, own->internal_unified);
        Thread& part = std::get<Thread>(out.thread);
        if (grade != 0) {
            (side == Side::external ? part.external_unified : part.internal_unified) = grade;
        }
    }
    return out;
}

std::string part_title(const ThreadPart& part) {
    const FormThread* const form = std::get_if<FormThread>(&part.thread);
    std::string out = format_any_thread(part.thread);
    if (form != nullptr && form->written == FormStyle::inch) {
        out += part.side == Side::external ? " external" : " internal";
    }
    return out;
}

double PartLimits::diameter_mm() const noexcept {
    if (part) {
        return threads::diameter_mm(part->thread);
    }
    const SizeRange& major = sizes.major;
    return !std::isnan(major.max_mm)   ? major.max_mm
           : !std::isnan(major.min_mm) ? major.min_mm
                                       : sizes.pitch.max_mm;
}

void PartLimits::set_sizes(const FitPart& moved) {
    sizes = moved;
    mm = {moved.major.max_mm, moved.major.min_mm, moved.pitch.max_mm,
          moved.pitch.min_mm, moved.minor.max_mm, moved.minor.min_mm};
    std::transform(mm.begin(), mm.end(), in.begin(), [](double each) { return each / kInchMm; });
}

void take_limits(const Thread& thread, const ThreadLimits& limits, PartLimits& out) {
    out.sizes = fit_part(thread, limits);
    const double place_mm = limits.inch() ? kInchMm / 1e4 : 1e-3;
    out.allowance_mm = std::abs(limits.deviation) * place_mm;
    out.pitch_tolerance_mm = limits.pitch_tolerance * (limits.inch() ? kInchMm / 1e6 : 1e-3);
    for (std::size_t i = 0; i < out.mm.size(); ++i) {
        out.mm[i] = limits.mm(static_cast<Limit>(i));
        out.in[i] = limits.in(static_cast<Limit>(i));
    }
    out.standard = limits;
}

Status evaluate(const Catalogue& catalogue, const ThreadPart& part, const LimitOptions& options,
                PartLimits& out, std::string* why) {
    out = {};
    out.part = part;
    out.side = part.side;
    out.options = options;
    out.inch = is_inch(part.thread);
    const FormThread* const form = std::get_if<FormThread>(&part.thread);
    if (form == nullptr) {
        const Thread& thread = std::get<Thread>(part.thread);
        ThreadLimits limits;
        const Status status = evaluate(catalogue, thread, options, limits, why);
        if (status.ok()) {
            take_limits(thread, limits, out);
        }
        return status;
    }
    FormLimits& limits = out.standard.emplace<FormLimits>();
    const double engagement = options.engagement_mm / form->scale();
    const Status status = evaluate(catalogue, *form, part.side, engagement, limits, why);
    if (status.ok()) {
        out.allowance_mm = limits.allowance * form->scale();
        out.pitch_tolerance_mm = limits.pitch_tolerance * form->scale();
        for (std::size_t i = 0; i < out.mm.size(); ++i) {
            out.mm[i] = limits.mm(i);
            out.in[i] = limits.in(i);
        }
        out.sizes.major = {out.mm[1], out.mm[0]};
        out.sizes.pitch = {out.mm[3], out.mm[2]};
        out.sizes.minor = {out.mm[5], out.mm[4]};
        out.sizes.pitch_mm = form->pitch_mm();
        out.sizes.starts = form->starts;
        out.sizes.half_angle_deg = form_row(catalogue, *form).half_angle_deg;
        out.sizes.left_hand = form->left_hand;
    }
    return status;
}

PartLimits limits(const Catalogue& catalogue, const ThreadPart& part, const LimitOptions& options) {
    return or_throw<PartLimits>(
        [&](PartLimits& out, std::string* why) { return evaluate(catalogue, part, options, out, why); });
}

PartLimits sized_limits(const FitPart& sizes, Side side, bool inch, std::string name) {
    PartLimits out;
    out.name = std::move(name);
    out.side = side;
    out.inch = inch;
    out.pitch_tolerance_mm = sizes.pitch.max_mm - sizes.pitch.min_mm;
    out.set_sizes(sizes);
    return out;
}

TaperPipe taper_pipe(const Catalogue& catalogue, const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    if (form == nullptr) {
        throw NotTabulatedError(
            fmt::format("{} is no taper pipe thread; NPT, R and Rc are", format_any_thread(thread)));
    }
    return taper_pipe(catalogue, *form);
}

PartLimits gauge_plane_limits(const Catalogue& catalogue, const AnyThread& thread) {
    const TaperPipe pipe = taper_pipe(catalogue, thread);
    const FormThread& form = std::get<FormThread>(thread);
    const bool inner = form.taper_internal();
    PartLimits out;
    out.side = inner ? Side::internal : Side::external;
    out.part = ThreadPart{form, out.side};
    out.inch = form.inch;
    const double aim = pipe.figures[figure_index(kTaperPipeFigures, "pitch_gauge_plane_mm")];
    const double height = pipe.figures[figure_index(kTaperPipeFigures, "thread_height_mm")];
    const double slack = pipe.figures[figure_index(kTaperPipeFigures, "tolerance_turns")] * form.pitch_mm() *
                         pipe.figures[figure_index(kTaperPipeFigures, "taper_on_diameter")];
    const double crest = inner ? aim - height : aim + height;
    FitPart sizes;
    sizes.pitch = {aim - slack, aim + slack};
    (inner ? sizes.minor : sizes.major) = {crest, crest};
    sizes.pitch_mm = form.pitch_mm();
    sizes.starts = form.starts;
    sizes.half_angle_deg = form_row(catalogue, form).half_angle_deg;
    sizes.left_hand = form.left_hand;
    out.set_sizes(sizes);
    return out;
}

double basic_pitch_mm(const Catalogue& catalogue, const PartLimits& limits) {
    return limits.part                     ? basic_pitch_mm(catalogue, limits.part->thread)
           : limits.side == Side::external ? limits.sizes.pitch.max_mm
                                           : limits.sizes.pitch.min_mm;
}

std::vector<std::string_view> limit_cautions(const Catalogue& catalogue, const PartLimits& limits) {
    std::vector<std::string_view> out;
    if (const ThreadLimits* const own = std::get_if<ThreadLimits>(&limits.standard)) {
        for (const auto& [caution, spelling] : enum_names(LimitCaution{})) {
            if (own->has(caution)) {
                out.push_back(spelling);
            }
        }
    } else if (limits.part) {
        const FormThread& form = std::get<FormThread>(limits.part->thread);
        if (form.lead_screw && !in_series(catalogue, form)) {
            out.emplace_back("form_special_pair");
        }
        if (form.starts > 1 && form.rule != FormRule::trapezoidal) {  // which has a factor for starts
            out.push_back(enum_name(LimitCaution::multi_start));
        }
    }
    if (limits.part && limits.part->class_assumed) {
        out.emplace_back("class_assumed");
    }
    return out;
}

}  // namespace halfnut::threads
