#include "halfnut/threads/any_thread.hpp"

#include <fmt/format.h>

#include <cmath>

#include "halfnut/bounds.hpp"
#include "halfnut/threads/form_tables.hpp"

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
    if (is_form_designation(text)) {
        FormThread form;
        status = read_form_thread(text, catalogue, form, &problem);
        out = std::move(form);
    } else {
        Thread thread;
        status = read_thread(text, catalogue, thread, &problem);
        out = thread;
    }
    if (!status.ok() && why != nullptr) {
        const bool absent = status.code == StatusCode::not_tabulated && is_form_designation(text);
        *why = absent ? problem.message
                      : fmt::format("cannot read '{}' at position {}: {}", bounds::shown(text),
                                    problem.position + 1, problem.message);
    }
    return status;
}

std::string format_any_thread(const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? format_form_thread(*form) : format_thread(std::get<Thread>(thread));
}

double pitch_mm(const AnyThread& thread) noexcept {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form->pitch_mm() : std::get_if<Thread>(&thread)->pitch_mm();
}

double half_angle_deg(const Catalogue& catalogue, const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? form_row(catalogue, *form).half_angle_deg : kIsoHalfAngleDeg;
}

double basic_major_mm(const Catalogue& catalogue, const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    if (form == nullptr) {
        return std::get<Thread>(thread).diameter_mm();
    }
    const ThreadFormRow& row = form_row(catalogue, *form);
    if (row.taper == 0.0 || form->parallel_internal()) {
        return form->diameter_mm();
    }
    constexpr std::size_t kAtGaugePlane = 1;
    return taper_pipe(catalogue, *form).figures[kAtGaugePlane] + row.pitch_drop * form->pitch_mm();
}

Status one_part(const AnyThread& thread, std::optional<Side> side, PartChoice choice, ThreadPart& out,
                std::string* why) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    const Thread* const plain = std::get_if<Thread>(&thread);
    const bool external = form != nullptr ? !form->external_class.empty() : plain->has_external();
    const bool internal = form != nullptr ? !form->internal_class.empty() : plain->has_internal();
    const auto part = [&](Side which) -> AnyThread {
        return form != nullptr ? AnyThread(form_part(*form, which)) : AnyThread(plain->part(which));
    };
    // their classes, if any, say nothing of the internal part, and of a taper thread of none
    const bool pipe = form != nullptr && (form->form == "G" || form->form == "R" || form->form == "NPT");
    const bool internal_pipe =
        pipe && (form->form == "G" ? !external : form->prefix == "Rc" || form->prefix == "Rp");
    if (side) {
        const bool own = *side == Side::external ? external : internal;
        const bool other = *side == Side::external ? internal : external;
        if (other && !own && !pipe) {
            return refuse(
                why, fmt::format("{} does not name an {} thread; the usual one is {}",
                                 format_any_thread(thread), *side == Side::external ? "external" : "internal",
                                 format_any_thread(part(*side))));
        }
        out = {part(*side), *side};
        return {};
    }
    if (!pipe && external == internal && choice == PartChoice::named) {
        return refuse(why, fmt::format("{} names {}: take its .external or its .internal",
                                       format_any_thread(thread), external ? "both parts" : "no part"));
    }
    const Side meant = internal_pipe || (internal && !external) ? Side::internal : Side::external;
    out = {part(meant), meant};
    return {};
}

std::string part_title(const ThreadPart& part) {
    const FormThread* const form = std::get_if<FormThread>(&part.thread);
    const bool open = form != nullptr && form->form != "Tr" && form->form != "G" && form->form != "R";
    return format_any_thread(part.thread) + (!open                         ? ""
                                             : part.side == Side::external ? " external"
                                                                           : " internal");
}

FitPart fit_part(const Catalogue& catalogue, const FormThread& thread, const FormLimits& limits) {
    FitPart out;
    out.major = {limits.mm(1), limits.mm(0)};
    out.pitch = {limits.mm(3), limits.mm(2)};
    out.minor = {limits.mm(5), limits.mm(4)};
    out.pitch_mm = thread.pitch_mm();
    out.starts = thread.starts;
    out.half_angle_deg = form_row(catalogue, thread).half_angle_deg;
    out.left_hand = thread.left_hand;
    return out;
}

Status evaluate(const Catalogue& catalogue, const ThreadPart& part, const LimitOptions& options,
                PartLimits& out, std::string* why) {
    out = {};
    if (const FormThread* const form = std::get_if<FormThread>(&part.thread)) {
        FormLimits limits;
        const double engagement = options.engagement_mm / form->scale();
        const Status status = evaluate(catalogue, *form, part.side, engagement, limits, why);
        if (status.ok()) {
            out.sizes = fit_part(catalogue, *form, limits);
            out.allowance_mm = limits.allowance * form->scale();
            for (std::size_t i = 0; i < out.mm.size(); ++i) {
                out.mm[i] = limits.mm(i);
                out.in[i] = limits.in(i);
            }
        }
        out.inch = form->inch;
        return status;
    }
    const Thread& thread = std::get<Thread>(part.thread);
    ThreadLimits limits;
    const Status status = evaluate(catalogue, thread, options, limits, why);
    if (status.ok()) {
        out.sizes = fit_part(thread, limits);
        out.allowance_mm = std::abs(limits.deviation) * (limits.inch() ? kInchMm / 1e4 : 1e-3);
        for (std::size_t i = 0; i < out.mm.size(); ++i) {
            out.mm[i] = limits.mm(static_cast<Limit>(i));
            out.in[i] = limits.in(static_cast<Limit>(i));
        }
    }
    out.inch = thread.inch();
    return status;
}

}  // namespace halfnut::threads
