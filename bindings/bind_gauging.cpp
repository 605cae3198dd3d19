// Fit, coating and gauging of threads.

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "convert.hpp"
#include "halfnut/threads/coating_questions.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/gauging_tables.hpp"
#include "halfnut/threads/precoat.hpp"

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

py::tuple part_state(const FitPart& p) {
    const auto n = [](double value) { return number_or_none(value); };
    return py::make_tuple(n(p.major.min_mm), n(p.major.max_mm), n(p.pitch.min_mm), n(p.pitch.max_mm),
                          n(p.minor.min_mm), n(p.minor.max_mm), n(p.pitch_mm), p.starts, p.half_angle_deg,
                          p.left_hand, build_up_state(p.build_up), p.lead_error_mm, p.flank_equivalent_mm,
                          p.temperature_c, p.expansion_um_m_k);
}

FitPart part_made(const py::tuple& s) {
    const auto n = [&s](std::size_t place) { return number_held(s, place); };
    return {{n(0), n(1)},
            {n(2), n(3)},
            {n(4), n(5)},
            n(6),
            held<int>(s, 7),
            n(8),
            held<bool>(s, 9),
            build_up_made(held<py::tuple>(s, 10)),
            n(11),
            n(12),
            n(13),
            n(14)};
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
    module.def(
        "require_takes",
        [](int coating, const std::string& group, const std::string& title,
           const SharedCatalogue& catalogue) {
            require_takes(catalogue.get().coatings[static_cast<std::size_t>(coating)], group, title);
        },
        py::arg("coating"), py::arg("group"), py::arg("title"), py::arg("catalogue"),
        "Refuse a coating on a metal that does not take it.");
    module.def(
        "coating_cautions",
        [](const BuildUp& build_up, bool internal, const SharedCatalogue& catalogue) {
            std::vector<std::pair<std::string, std::vector<std::pair<std::string, std::string>>>> out;
            for (const Told& told : coating_cautions(build_up, catalogue.get(), internal)) {
                out.emplace_back(told.code, told.words);
            }
            return out;
        },
        py::arg("build_up"), py::arg("internal"), py::arg("catalogue"),
        "What to mind about a finish as a process: codes of cautions, with the words in their places.");

    module.def(
        "precoat_answer",
        [](const PartLimits& bare, const BuildUp& build_up, const SharedCatalogue& catalogue,
           const std::string& gauged_at) {
            return precoat(catalogue.get(), bare, build_up, from_name<GaugedAt>("gauged_at", gauged_at));
        },
        py::arg("bare"), py::arg("build_up"), py::arg("catalogue"), py::arg("gauged_at") = "basic",
        "Limits to cut before coating.");
}

void bind_thread_fits(py::module_& module) {
    py::class_<FitPart> fit_part_class(module, "FitPart", "One part of a fit, bare and at 20 C.");
    def_value<FitPart>(fit_part_class, &part_state, &part_made);
    module.def(
        "fit_chances",
        [](const FitPart& external, const FitPart& internal, const Doubles& clearances_mm,
           double tolerance_over_sigma, double mean_shift) {
            FitRequest request;
            request.external = external;
            request.internal = internal;
            request.assumed_engagement_mm = 1.0;  // a length makes no difference to the chance
            request.tolerance_over_sigma = tolerance_over_sigma;
            request.mean_shift = mean_shift;
            (void)fit(request);  // checks the ranges
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
        py::arg("external"), py::arg("internal"), py::arg("clearances_mm"), py::kw_only(),
        py::arg("tolerance_over_sigma") = 6.0, py::arg("mean_shift") = 0.0,
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
