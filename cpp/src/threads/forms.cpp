#include "halfnut/threads/forms.hpp"

#include <fmt/format.h>

#include "halfnut/core/elementary.hpp"
#include "halfnut/threads/rules.hpp"

namespace halfnut::threads {

const ThreadFormRow& form_row(const Catalogue& catalogue, const FormThread& thread) {
    for (const ThreadFormRow& row : catalogue.thread_forms) {
        if (row.form == thread.form) {
            return row;
        }
    }
    throw NotTabulatedError(fmt::format("no thread form '{}'", thread.form));
}

bool in_series(const Catalogue& catalogue, const FormThread& thread) noexcept {
    constexpr double kAlike = 1e-6;
    const auto alike = [](double a, double b) { return std::abs(a - b) <= kAlike * b; };
    for (const FormSeriesRow& row : catalogue.form_series) {
        const double pitch = std::isnan(row.tpi) ? row.pitch_mm : (thread.inch ? 1.0 : kInchMm) / row.tpi;
        if (row.form == thread.form && alike(row.diameter, thread.diameter) && alike(pitch, thread.pitch)) {
            return true;
        }
    }
    return false;
}

double basic_pitch_diameter_mm(const Catalogue& catalogue, const FormThread& thread) {
    return (thread.diameter - form_row(catalogue, thread).pitch_drop * thread.pitch) * thread.scale();
}

double basic_minor_diameter_mm(const Catalogue& catalogue, const FormThread& thread) {
    return (thread.diameter - form_row(catalogue, thread).minor_drop * thread.pitch) * thread.scale();
}

void FormThread::become(const ThreadFormRow& row) {
    form = row.form;
    inch = row.inch;
    written = row.written;
    rule = row.rule;
    lead_screw = row.lead_screw;
    usual_external = row.external_class;
    usual_internal = row.internal_class;
}

FormThread form_part(const FormThread& thread, Side side) {
    FormThread out = thread;
    const bool external = side == Side::external;
    std::string& own = external ? out.external_class : out.internal_class;
    own = own.empty() ? thread.usual_class(side) : own;
    (external ? out.internal_class : out.external_class).clear();
    return out;
}

TaperPipe taper_pipe(const Catalogue& catalogue, const FormThread& thread) {
    const TaperPipeRow* row = nullptr;
    for (const TaperPipeRow& each : catalogue.taper_pipe) {
        if (thread.tapers() && each.form == thread.form && each.size == thread.size) {
            row = &each;
        }
    }
    if (row == nullptr) {
        throw NotTabulatedError(
            fmt::format("{} is no taper pipe thread; NPT, R and Rc are", format_form_thread(thread)));
    }
    const ThreadFormRow& form = form_row(catalogue, thread);
    const double p = thread.pitch;
    const double t = form.taper;
    const double l1 = row->hand_engagement;
    const bool npt = thread.rule == FormRule::npt;
    const double d = row->diameter;
    // 1:16 on the diameter; the pitch diameter falls from the gauge plane to the small end
    const double e0 = npt ? d - (0.05 * d + 1.1) * p : d - form.pitch_drop * p - t * l1;
    const double e1 = e0 + t * l1;
    const double l2 = npt ? (0.80 * d + 6.8) * p : kNaN;
    const double l3 = row->wrench_turns * p;
    const double h = npt ? 0.8 * p : form.pitch_drop * p;
    constexpr double kVanish = 3.47;
    const double half_taper = atan_of(0.5 * t) / kDegree;
    const double unit = thread.scale();
    TaperPipe out;
    out.figures = {e0 * unit,
                   e1 * unit,
                   (e0 + t * l2) * unit,
                   (e0 - t * l3) * unit,
                   l1 * unit,
                   l2 * unit,
                   l3 * unit,
                   (l2 + kVanish * p) * unit,
                   (l2 - 2.0 * p) * unit,
                   h * unit,
                   l1 / p,
                   thread.taper_internal() ? row->internal_turns : row->tolerance_turns,
                   (e1 - h) * unit,
                   (e0 - (std::isnan(l3) ? 0.0 : t * l3) - h) * unit,
                   half_taper,
                   t};
    const RowRef ref = row_ref(catalogue.taper_pipe, *row);
    out.evidence.note(figure_index(kTaperPipeFigures, "pitch_small_end_mm"),
                      npt ? rule::npt_basic : rule::taper_pipe_whitworth, ref);
    out.evidence.note(figure_index(kTaperPipeFigures, "tolerance_turns"),
                      npt ? rule::npt_gauge : rule::taper_pipe_whitworth);
    out.evidence.note(figure_index(kTaperPipeFigures, "hole_at_end_mm"), rule::taper_hole);
    return out;
}

}  // namespace halfnut::threads
