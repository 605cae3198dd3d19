// Thread forms beside ISO metric and Unified: designations, limits, taper pipe threads, screws that lift; and
// threads of any form: the part that is meant, what is near, what a found part may be.

#include <fmt/format.h>

#include "convert.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/forms.hpp"
#include "halfnut/threads/series.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

py::dict form_limits_answer(const FormThread& thread, const std::string& side,
                            const SharedCatalogue& catalogue, const std::optional<double>& engagement_mm) {
    const double engagement = given_or_lacking("engagement_mm", engagement_mm) / thread.scale();
    const FormLimits limits = form_limits(catalogue.get(), thread, from_name<Side>("side", side), engagement);
    py::dict out;
    for (std::size_t i = 0; i < limits.figures.size(); ++i) {
        out[py::str(std::string(kFormFigures[i]) + "_mm")] = number_or_none(limits.mm(i));
    }
    out["allowance_mm"] = limits.allowance * thread.scale();
    out["pitch_tolerance_mm"] = limits.pitch_tolerance * thread.scale();
    out["evidence"] = evidence_list(limits.evidence.items(), kFormFigures, catalogue.get());
    return out;
}

py::dict form_geometry(const FormThread& thread, const SharedCatalogue& catalogue) {
    const ThreadFormRow& row = form_row(catalogue.get(), thread);
    py::dict out;
    out["name"] = std::string(thread.parallel_internal() ? "parallel pipe" : row.name);
    out["in_series"] = in_series(catalogue.get(), thread);
    out["half_angle_deg"] = row.half_angle_deg;
    out["basic_pitch_mm"] = basic_pitch_diameter_mm(catalogue.get(), thread);
    out["basic_minor_mm"] = basic_minor_diameter_mm(catalogue.get(), thread);
    out["root_radius_mm"] = row.root_radius * thread.pitch_mm();
    out["crest_flat_mm"] = row.crest_flat * thread.pitch_mm();
    out["taper"] = thread.parallel_internal() ? 0.0 : row.taper;
    return out;
}

py::dict taper_answer(const FormThread& thread, const SharedCatalogue& catalogue) {
    const TaperPipe answer = taper_pipe(catalogue.get(), thread);
    py::dict out = figures_by_name(kTaperPipeFigures, answer.figures);
    out["evidence"] = evidence_list(answer.evidence.items(), kTaperPipeFigures, catalogue.get());
    return out;
}

py::tuple part_answer(const AnyThread& thread, const std::optional<std::string>& side, bool usual) {
    ThreadPart part;
    std::string why;
    const std::optional<Side> wanted = side ? std::optional(from_name<Side>("side", *side)) : std::nullopt;
    if (!one_part(thread, wanted, usual ? PartChoice::usual : PartChoice::named, part, &why).ok()) {
        throw DomainError(why);
    }
    return py::make_tuple(part.thread, enum_name(part.side), part_title(part));
}

py::list near_answer(double diameter_mm, double within_mm, const SharedCatalogue& catalogue) {
    py::list out;
    for (const SeriesThread& found : threads_near(catalogue.get(), diameter_mm, within_mm)) {
        out.append(py::make_tuple(found.thread, found.preference));
    }
    return out;
}

py::list identify_answer(const std::string& side, double diameter_mm, double pitch_mm, std::size_t count,
                         const SharedCatalogue& catalogue, const std::optional<double>& engagement_mm,
                         const std::optional<double>& flank_angle_deg) {
    const FoundPart found{from_name<Side>("side", side), diameter_mm, pitch_mm,
                          given_or_lacking("engagement_mm", engagement_mm),
                          given_or_lacking("flank_angle_deg", flank_angle_deg)};
    py::list out;
    for (const ThreadMatch& match : identify_thread(catalogue.get(), found, count)) {
        py::dict row;
        row["thread"] = match.part.thread;
        row["title"] = part_title(match.part);
        row["preference"] = match.preference;
        row["taper"] = match.taper;
        row["basic_diameter_mm"] = match.basic_diameter_mm;
        row["outside_mm"] = match.outside_mm;
        row["pitch_difference_mm"] = match.pitch_difference_mm;
        row["mismatch_mm"] = match.mismatch_mm;
        row["pitch_diameter_equivalent_mm"] = match.pitch_diameter_equivalent_mm;
        row["flank_angle_deg"] = match.flank_angle_deg;
        row["flank_difference_deg"] = number_or_none(match.flank_difference_deg);
        row["flank_equivalent_mm"] = match.flank_equivalent_mm;
        row["like_the_first"] = match.like_the_first;
        out.append(row);
    }
    return out;
}

}  // namespace

void bind_forms(py::module_& module) {
    py::class_<FormThread> form_thread(module, "FormThread",
                                       "A designated thread beside ISO metric and Unified.");
    def_value<FormThread>(
        form_thread,
        [](const FormThread& t) -> py::tuple {
            return py::make_tuple(t.form, t.prefix, t.size, t.diameter, t.pitch, t.tpi, t.starts, t.left_hand,
                                  t.inch, t.external_class, t.internal_class);
        },
        [](const py::tuple& s) {
            return FormThread{held<std::string>(s, 0), held<std::string>(s, 1), held<std::string>(s, 2),
                              held<double>(s, 3),      held<double>(s, 4),      held<double>(s, 5),
                              held<int>(s, 6),         held<bool>(s, 7),        held<bool>(s, 8),
                              held<std::string>(s, 9), held<std::string>(s, 10)};
        });
    form_thread.def_readonly("form", &FormThread::form)
        .def_readonly("prefix", &FormThread::prefix)
        .def_readonly("size", &FormThread::size)
        .def_readonly("starts", &FormThread::starts)
        .def_readonly("tpi", &FormThread::tpi)
        .def_readonly("external_class", &FormThread::external_class)
        .def_readonly("internal_class", &FormThread::internal_class)
        .def_property_readonly("hand", [](const FormThread& t) { return t.left_hand ? "left" : "right"; })
        .def_property_readonly("unit", [](const FormThread& t) { return t.inch ? "in" : "mm"; })
        .def_property_readonly("diameter_mm", &FormThread::diameter_mm)
        .def_property_readonly("pitch_mm", &FormThread::pitch_mm)
        .def_property_readonly("lead_mm", &FormThread::lead_mm)
        .def_property_readonly("has_external", [](const FormThread& t) { return !t.external_class.empty(); })
        .def_property_readonly("has_internal", [](const FormThread& t) { return !t.internal_class.empty(); })
        .def_property_readonly("external", [](const FormThread& t) { return form_part(t, Side::external); })
        .def_property_readonly("internal", [](const FormThread& t) { return form_part(t, Side::internal); })
        .def(
            "part",
            [](const FormThread& t, const std::string& side) {
                return form_part(t, from_name<Side>("side", side));
            },
            py::arg("side"))
        .def("__repr__", [](const FormThread& t) { return "<FormThread " + format_form_thread(t) + ">"; })
        .def("__str__", &format_form_thread);
    module.def("is_form_designation", &is_form_designation, py::arg("text"),
               "Whether a text is meant as a trapezoidal, Acme, pipe or Whitworth thread.");
    module.def(
        "parse_form_thread",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return parse_form_thread(text, catalogue.get());
        },
        py::arg("text"), py::arg("catalogue"), "Read such a designation.");
    module.def("form_limits_answer", &form_limits_answer, py::arg("thread"), py::arg("side"),
               py::arg("catalogue"), py::arg("engagement_mm") = py::none(),
               "Limits of one part, mm; None where there is none.");
    module.def("form_geometry", &form_geometry, py::arg("thread"), py::arg("catalogue"),
               "Flank angle, basic diameters, radius and flat of a form, mm.");
    module.def("taper_pipe_answer", &taper_answer, py::arg("thread"), py::arg("catalogue"),
               "Sizes of a taper pipe thread, mm.");
    module.def("one_part", &part_answer, py::arg("thread"), py::arg("side") = py::none(),
               py::arg("usual") = true,
               "The part of a thread that is meant, its side, and how answers call it.");
    module.def("threads_near", &near_answer, py::arg("diameter_mm"), py::arg("within_mm"),
               py::arg("catalogue"),
               "Standard threads near a diameter with their preference, preferred ones first.");
    module.def("identify_thread", &identify_answer, py::arg("side"), py::arg("diameter_mm"),
               py::arg("pitch_mm"), py::arg("count"), py::arg("catalogue"),
               py::arg("engagement_mm") = py::none(), py::arg("flank_angle_deg") = py::none(),
               "Standard threads of every form nearest to a measured part.");
}

}  // namespace halfnut::bind
