// Fit, coating and gauging of threads.

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "asked.hpp"
#include "convert.hpp"
#include "halfnut/threads/coating_questions.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/gauging_tables.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

py::tuple build_up_state(const BuildUp& b) {
    return py::make_tuple(b.min_um, b.max_um, number_or_none(b.film_min_um), number_or_none(b.film_max_um),
                          static_cast<int>(b.origin), b.maximum_by_rule, b.coating);
}

BuildUp build_up_made(const py::tuple& s) {
    return {held<double>(s, 0),
            held<double>(s, 1),
            number_held(s, 2),
            number_held(s, 3),
            static_cast<BuildUpOrigin>(held<int>(s, 4)),
            held<bool>(s, 5),
            held<std::int16_t>(s, 6)};
}

void bind_coatings(py::module_& module) {
    py::class_<BuildUp> build_up_class(module, "BuildUp",
                                       "What a coating adds to one surface, from least to most, um.");
    def_value<BuildUp>(build_up_class, &build_up_state, &build_up_made);
    build_up_class.def_readonly("min_um", &BuildUp::min_um)
        .def(py::init(&build_up_between), py::arg("min_um"), py::arg("max_um"))
        .def_readonly("max_um", &BuildUp::max_um)
        .def_property_readonly("film_min_um", [](const BuildUp& b) { return number_or_none(b.film_min_um); })
        .def_property_readonly("film_max_um", [](const BuildUp& b) { return number_or_none(b.film_max_um); })
        .def(
            "__repr__",
            [](const BuildUp& b) { return fmt::format("<BuildUp {:.4g} to {:.4g} um>", b.min_um, b.max_um); })
        .def_property_readonly("bare", &BuildUp::bare)
        .def(
            "recoated",
            [](const BuildUp& b, int strips, const SharedCatalogue& catalogue) {
                return recoated(b, strips, catalogue.get());
            },
            py::arg("strips"), py::arg("catalogue"))
        .def_readonly("maximum_by_rule", &BuildUp::maximum_by_rule)
        .def_property_readonly("usual", [](const BuildUp& b) { return b.origin == BuildUpOrigin::usual; })
        .def_property_readonly("coating",
                               [](const BuildUp& b) {
                                   return b.coating < 0 ? py::object(py::none())
                                                        : py::object(py::int_(static_cast<int>(b.coating)));
                               })
        .def(
            "evidence",
            [](const BuildUp& b, const SharedCatalogue& catalogue) {
                static constexpr std::array<std::string_view, 1> kFigure{"build_up_um"};
                Evidence<4> evidence;
                note_build_up(catalogue.get(), b, 0, evidence);
                return evidence_list(evidence.items(), kFigure, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "parse_build_up",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return parse_build_up(text, catalogue.get());
        },
        py::arg("text"), py::arg("catalogue"), "Read a build-up or a coating.");
}

void bind_thread_fits(py::module_& module) {
    module.def(
        "fit_chances",
        [](const py::tuple& asked, const Doubles& clearances_mm, const SharedCatalogue& catalogue) {
            Asking asking{catalogue.get()};
            FitRequest request = fit_request(
                *std::static_pointer_cast<const FitAsk>(read_question("fit", asked, asking)), asking);
            request.assumed_engagement_mm = 1.0;  // a length makes no difference to the chance
            (void)fit(request);                   // checks the ranges
            py::array_t<double> out(clearances_mm.size());
            const double* const given = clearances_mm.data();
            double* const chances = out.mutable_data();
            const auto size = static_cast<std::size_t>(out.size());
            for (std::size_t i = 0; i < size; ++i) {
                if (!std::isfinite(given[i])) {
                    throw DomainError(
                        fmt::format("clearances_mm must be finite, got {} at index {}", given[i], i));
                }
                chances[i] = chance_below(request, given[i]);
            }
            return out;
        },
        py::arg("asked"), py::arg("clearances_mm"), py::arg("catalogue"),
        "Chance that the clearance of a pair is below each of some values.");
}

}  // namespace

void bind_gauging(py::module_& module) {
    module.def(
        "over_wires_involute_working",
        [](double pitch_diameter_mm, double pitch_mm, double lead_mm, double half_angle_deg, double wire_mm) {
            const InvoluteWorking w =
                over_wires_involute_working(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
            py::dict out;
            out["tan_lead_angle"] = w.tan_lead_angle;
            out["f_deg"] = w.f_deg;
            out["t_a_mm"] = w.t_a_mm;
            out["h_b_deg"] = w.h_b_deg;
            out["involute_g"] = w.involute_g;
            out["over_wires_mm"] = w.over_wires_mm;
            return out;
        },
        py::arg("pitch_diameter_mm"), py::arg("pitch_mm"), py::arg("lead_mm"), py::arg("half_angle_deg"),
        py::arg("wire_mm"), "Size over wires of a groove between involute helicoids, with the steps to it.");
    bind_coatings(module);
    bind_thread_fits(module);
}

}  // namespace halfnut::bind
