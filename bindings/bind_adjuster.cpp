// Adjusters and turnbuckles.

#include <fmt/format.h>

#include <memory>
#include <vector>

#include "asked.hpp"
#include "convert.hpp"
#include "halfnut/threads/adjuster.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/kinds.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

/// A number that may be left out: absent and None are NaN, a NaN that was given is refused.
double number(const py::dict& given, const char* name, double fallback = kNaN) {
    if (!given.contains(name) || given[name].is_none()) {
        return fallback;
    }
    const auto value = py::cast<double>(given[name]);
    if (std::isnan(value)) {
        throw DomainError(fmt::format("{} must be finite, got nan", name));
    }
    return value;
}

AdjusterMaterial material(const py::dict& given) {
    return {.strength = {.tensile_mpa = number(given, "tensile_mpa"),
                         .yield_mpa = number(given, "yield_mpa"),
                         .shear_mpa = number(given, "shear_mpa")},
            .youngs_modulus_gpa = number(given, "youngs_modulus_gpa"),
            .expansion_um_m_k = number(given, "expansion_um_m_k")};
}

AdjusterEnd end_of(const py::dict& given) {
    AdjusterEnd end;
    const auto& external = limits_held(given["external"]);
    const auto& internal = limits_held(given["internal"]);
    const bool own = std::holds_alternative<ThreadLimits>(external.standard) &&
                     std::holds_alternative<ThreadLimits>(internal.standard);
    if (own) {
        end.external = std::get<Thread>(external.part->thread);
        end.internal = std::get<Thread>(internal.part->thread);
    } else {
        end.sized = SizedPair{.diameter_mm = external.diameter_mm(),
                              .external = external.sizes,
                              .internal = internal.sizes,
                              .external_name = external.title(),
                              .internal_name = internal.title()};
    }
    end.external_build_up = py::cast<BuildUp>(given["external_build_up"]);
    end.internal_build_up = py::cast<BuildUp>(given["internal_build_up"]);
    if (end.sized) {
        end.sized->external.build_up = end.external_build_up;
        end.sized->internal.build_up = end.internal_build_up;
    }
    end.thread_length_mm = number(given, "thread_length_mm");
    end.chamfer_mm = number(given, "chamfer_mm", 0.0);
    end.run_out_mm = number(given, "run_out_mm", 0.0);
    end.external_bore_mm = number(given, "external_bore_mm", 0.0);
    end.base_length_mm = number(given, "base_length_mm");
    end.countersink_mm = number(given, "countersink_mm", 0.0);
    end.base_run_out_mm = number(given, "base_run_out_mm", 0.0);
    end.room_mm = number(given, "room_mm");
    end.internal_outside_mm = number(given, "internal_outside_mm");
    end.outer_length_mm = number(given, "outer_length_mm");
    end.outer_outside_mm = number(given, "outer_outside_mm");
    end.outer_bore_mm = number(given, "outer_bore_mm", 0.0);
    end.nut_thickness_mm = number(given, "nut_thickness_mm", 0.0);
    end.nut_countersink_mm = number(given, "nut_countersink_mm", 0.0);
    end.nut_outside_mm = number(given, "nut_outside_mm");
    end.thread_friction_low = number(given, "thread_friction_low");
    end.thread_friction_high = number(given, "thread_friction_high");
    end.bearing_friction_low = number(given, "bearing_friction_low");
    end.bearing_friction_high = number(given, "bearing_friction_high");
    end.rule_diameters = number(given, "rule_diameters");
    end.outer = material(py::cast<py::dict>(given["outer"]));
    end.nut = material(py::cast<py::dict>(given["nut"]));
    return end;
}

AdjusterRequest request_of(const py::dict& given, const std::vector<py::dict>& ends) {
    AdjusterRequest request;
    if (ends.empty() || ends.size() > request.ends.size()) {
        throw DomainError(fmt::format("an adjuster has 1 or 2 threaded ends, got {}", ends.size()));
    }
    request.count = ends.size();
    for (std::size_t i = 0; i < ends.size(); ++i) {
        request.ends[i] = end_of(ends[i]);
    }
    request.middle = from_name<AdjusterMiddle>("middle", py::cast<std::string>(given["middle"]));
    request.middle_length_mm = number(given, "middle_length_mm");
    request.middle_outside_mm = number(given, "middle_outside_mm");
    request.middle_bore_mm = number(given, "middle_bore_mm", 0.0);
    request.middle_material = material(py::cast<py::dict>(given["material"]));
    request.push_n = number(given, "push_n");
    request.pull_n = number(given, "pull_n");
    request.factor_of_safety = number(given, "factor_of_safety");
    request.flats = number(given, "flats", 6.0);
    request.groove_width_mm = number(given, "groove_width_mm", 0.0);
    request.first_end = from_name<ColumnEnd>("first_end", py::cast<std::string>(given["first_end"]));
    request.second_end = from_name<ColumnEnd>("second_end", py::cast<std::string>(given["second_end"]));
    return request;
}

/// An answer with what was asked: it is pickled and compared by that.
struct Asked {
    Adjuster answer;
    py::tuple question;  ///< given, ends, catalogue
};

Asked ask(const py::dict& given, const std::vector<py::dict>& ends, const SharedCatalogue& catalogue) {
    return {adjuster(catalogue.get(), request_of(given, ends)), py::make_tuple(given, ends, catalogue)};
}

/// States at many turns as columns.
py::dict states(const Adjuster& adjuster, const Doubles& turns, const std::string& on_error) {
    const auto rows = static_cast<std::size_t>(turns.size());
    const double* const given = turns.data();
    AnswerColumns columns(rows);
    columns.figures(kAdjusterStateFigures);
    columns.keep_place("pull_element");
    columns.keep_place("push_element");
    std::vector<std::string> pull(rows);
    std::vector<std::string> push(rows);
    const auto named = [&](AdjusterElement element, std::uint8_t end) {
        const bool of_an_end =
            element != AdjusterElement::middle_section && element != AdjusterElement::column;
        return std::string(enum_name(element)) + (adjuster.request.count != 2 || !of_an_end ? ""
                                                  : end == 0                                ? ", first end"
                                                                                            : ", second end");
    };
    columns.run(on_error, "elements", [&](std::size_t row, std::string& why) {
        AdjusterState state;
        const Status status = evaluate(adjuster, given[row], state);
        if (status.ok()) {
            columns.set_figures(row, figures(state));
            pull[row] = named(state.pull_element, state.pull_end);
            push[row] = named(state.push_element, state.push_end);
        } else {
            why = fmt::format("turns must be from 0 to {:.6g}, the safe range, got {}", adjuster.turns,
                              given[row]);
        }
        return status;
    });
    columns.dict()["pull_element"] = pull;
    columns.dict()["push_element"] = push;
    return columns.dict();
}

py::dict end_dict(const AdjusterEndAnswer& end) {
    py::dict out = figures_by_name(kAdjusterEndFigures, figures(end));
    out["external_major_min_mm"] = number_or_none(end.sizes.external_major_min_mm);
    out["external_pitch_min_mm"] = number_or_none(end.sizes.external_pitch_min_mm);
    out["internal_minor_max_mm"] = number_or_none(end.sizes.internal_minor_max_mm);
    out["internal_pitch_max_mm"] = number_or_none(end.sizes.internal_pitch_max_mm);
    out["diameter_mm"] = end.sizes.diameter_mm;
    out["pitch_mm"] = end.sizes.pitch_mm;
    out["half_angle_deg"] = end.half_angle_deg;
    return out;
}

}  // namespace

void bind_adjuster(py::module_& module) {
    py::class_<Asked> adjuster_class(module, "AdjusterAnswer", "An adjuster or turnbuckle, answered.");
    adjuster_class
        .def_property_readonly(
            "figures", [](const Asked& a) { return figures_by_name(kAdjusterFigures, figures(a.answer)); })
        .def_property_readonly("opposite_hands", [](const Asked& a) { return a.answer.opposite_hands; })
        .def_property_readonly("ends",
                               [](const Asked& a) {
                                   py::list out;
                                   for (std::size_t i = 0; i < a.answer.request.count; ++i) {
                                       out.append(end_dict(a.answer.ends[i]));
                                   }
                                   return out;
                               })
        .def_property_readonly("cautions",
                               [](const Asked& a) { return cautions_of<AdjusterCaution>(a.answer); })
        .def(
            "states",
            [](const Asked& a, const Doubles& turns, const std::string& on_error) {
                return states(a.answer, turns, on_error);
            },
            py::arg("turns"), py::arg("on_error") = "raise")
        .def(
            "evidence",
            [](const Asked& a, const SharedCatalogue& catalogue) {
                return evidence_list(a.answer.evidence.items(), kAdjusterEvidence, catalogue.get());
            },
            py::arg("catalogue"), "What each figure rests on.");
    adjuster_class
        .def(py::pickle([](const Asked& a) { return a.question; },
                        [](const py::tuple& q) {
                            return ask(held<py::dict>(q, 0), held<std::vector<py::dict>>(q, 1),
                                       held<SharedCatalogue>(q, 2));
                        }))
        .def("__eq__", [](const Asked& a, const py::object& other) {
            return py::isinstance<Asked>(other) && a.question.equal(py::cast<const Asked&>(other).question);
        });
    adjuster_class.attr("__hash__") = py::none();
    module.def("adjuster_answer", &ask, py::arg("given"), py::arg("ends"), py::arg("catalogue"),
               "An adjuster of one threaded end or two.");
}

}  // namespace halfnut::bind
