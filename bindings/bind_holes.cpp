// Holes for screws: before tapping, blind, clearance, counterbored and countersunk.

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "convert.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/hole_tables.hpp"
#include "halfnut/threads/holes.hpp"
#include "halfnut/threads/rules.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

/// Drills as Python holds them: smallest first.
struct DrillSet {
    std::vector<DrillSize> drills;

    [[nodiscard]] py::object name(int place) const {
        return place < 0 ? py::object(py::none())
                         : py::object(py::str(drills[static_cast<std::size_t>(place)].name));
    }
};

DrillSet own_drills(const std::vector<std::pair<std::string, double>>& given) {
    DrillSet out;
    for (const auto& [name, diameter_mm] : given) {
        if (!(std::isfinite(diameter_mm) && diameter_mm > 0.0)) {
            throw DomainError(fmt::format("drill '{}' must be > 0 mm, got {}", name, diameter_mm));
        }
        out.drills.push_back({diameter_mm, name, {}});
    }
    std::stable_sort(out.drills.begin(), out.drills.end(),
                     [](const DrillSize& a, const DrillSize& b) { return a.diameter_mm < b.diameter_mm; });
    return out;
}

/// The ISO metric or Unified thread that a table holds something for.
const Thread& tabulated(const AnyThread& thread, std::string_view what) {
    const Thread* const own = std::get_if<Thread>(&thread);
    if (own == nullptr) {
        throw NotTabulatedError(
            fmt::format("{}: no {} is tabulated for threads of this form, only for ISO metric and "
                        "Unified ones",
                        format_any_thread(thread), what));
    }
    return *own;
}

py::dict tapping_answer(const AnyThread& thread, const DrillSet& set, const SharedCatalogue& catalogue,
                        const std::optional<double>& percent, const std::optional<double>& engagement_mm,
                        const std::optional<double>& strength_ratio, bool form,
                        const std::optional<double>& oversize_mm, const std::optional<PartLimits>& limits) {
    TappingRequest request;
    if (limits) {
        request.limits = std::get<ThreadLimits>(limits->standard);
    }
    request.thread = tabulated(thread, "per cent of thread");
    request.percent = given_or_lacking("percent", percent);
    request.engagement_mm = given_or_lacking("engagement_mm", engagement_mm);
    request.strength_ratio = given_or_lacking("strength_ratio", strength_ratio);
    request.form = form;
    request.oversize_mm = given_or_lacking("oversize_mm", oversize_mm);
    const TappingHole hole = tapping_hole(catalogue.get(), request, set.drills);
    py::dict out;
    out["figures"] = figures_by_name(kTappingFigures, hole.figures());
    out["drill"] = set.name(hole.chosen);
    out["below"] = set.name(hole.below);
    out["above"] = set.name(hole.above);
    out["within"] = set.name(hole.within);
    out["cautions"] = cautions_of<HoleCaution>(hole);
    out["evidence"] = evidence_list(hole.evidence.items(), kTappingFigures, catalogue.get());
    return out;
}

/// Columns of tapping holes for many designations; a row that fails has NaN everywhere and a status.
py::dict tapping_columns(const std::vector<std::string>& designations, const py::object& drills,
                         const SharedCatalogue& catalogue, const std::vector<Doubles>& numbers, bool form,
                         const std::optional<double>& oversize_mm, const std::string& on_error) {
    const NumberColumns number(numbers, 3);  // percent, engagement, strength
    const std::size_t rows = designations.size();
    for (const std::size_t size : number.sizes()) {
        if (size != rows && size != 1) {
            throw DomainError(fmt::format("a column has {} values for {} designations", size, rows));
        }
    }
    std::array<std::vector<DrillSize>, 2> sets;
    for (const bool inch : {false, true}) {
        sets[inch ? 1 : 0] = py::isinstance<DrillSet>(drills)
                                 ? py::cast<DrillSet>(drills).drills
                                 : drill_set(catalogue.get(), usual_drill_set(catalogue.get(), inch));
    }
    const double oversize = given_or_lacking("oversize_mm", oversize_mm);
    AnswerColumns columns(rows);
    columns.keep_place("drill");
    columns.figures(std::span(kTappingFigures).first(kTappingSure));
    std::uint8_t* const cautions = columns.codes("cautions");
    std::vector<std::string> drill(rows);
    columns.run(on_error, "designations", [&](std::size_t row, std::string& why) {
        TappingRequest request;
        TappingHole hole;
        DesignationProblem problem;
        Status status = read_thread(designations[row], catalogue.get(), request.thread, &problem);
        if (!status.ok()) {
            why = fmt::format("cannot read '{}' at position {}: {}", designations[row], problem.position + 1,
                              problem.message);
            return status;
        }
        request.percent = number(0, row);
        request.engagement_mm = number(1, row);
        request.strength_ratio = number(2, row);
        request.form = form;
        request.oversize_mm = oversize;
        const auto& set = sets[request.thread.inch() ? 1 : 0];
        status = evaluate(catalogue.get(), request, set, hole, &why);
        if (status.ok()) {
            drill[row] = set[static_cast<std::size_t>(hole.chosen)].name;
            const auto figures = hole.figures();
            columns.set_figures(row, std::span(figures).first(kTappingSure));
            cautions[row] = hole.cautions;
        }
        return status;
    });
    columns.dict()["drill"] = text_column(drill);
    return columns.dict();
}

py::dict blind_answer(double pitch_mm, double hole_mm, const std::string& lead,
                      const SharedCatalogue& catalogue, const std::optional<double>& full_thread_mm,
                      const std::optional<double>& drill_depth_mm, const std::optional<double>& chip_room_mm,
                      double point_deg, const std::optional<double>& thickness_mm, bool form) {
    const TapLeadRow& row = tap_lead(catalogue.get(), lead);
    const BlindRequest request{
        .pitch_mm = pitch_mm,
        .hole_mm = hole_mm,
        .full_thread_mm = given_or_lacking("full_thread_mm", full_thread_mm),
        .drill_depth_mm = given_or_lacking("drill_depth_mm", drill_depth_mm),
        .chamfer_min = row.threads_min,
        .chamfer_max = row.threads_max,
        .chip_room_mm = given_or_lacking("chip_room_mm", chip_room_mm),
        .point_deg = point_deg,
        .thickness_mm = given_or_lacking("thickness_mm", thickness_mm),
        .form = form,
    };
    const BlindHole hole = blind_hole(catalogue.get(), request, &row);
    py::dict out;
    out["figures"] = figures_by_name(kBlindFigures, hole.figures());
    out["lead"] = std::string(row.lead);
    out["threads_min"] = row.threads_min;
    out["threads_max"] = row.threads_max;
    out["evidence"] = evidence_list(hole.evidence.items(), kBlindFigures, catalogue.get());
    return out;
}

py::dict clearance_answer(const AnyThread& thread, const std::string& fit, const SharedCatalogue& catalogue) {
    const ClearanceHole hole =
        clearance_hole(catalogue.get(), tabulated(thread, "clearance hole"), clearance_fit(fit));
    static constexpr std::array<std::string_view, 1> kFigure{"hole_mm"};
    Evidence<1> evidence;
    evidence.note(0, threads::rule::hole_clearance, hole.row);
    py::dict out;
    out["hole_mm"] = hole.hole_mm;
    out["drill"] = std::string(hole.drill);
    out["evidence"] = evidence_list(evidence.items(), kFigure, catalogue.get());
    return out;
}

py::dict seat_answer(const AnyThread& thread, const std::string& head, double hole_mm, double recess_mm,
                     const SharedCatalogue& catalogue) {
    const ScrewSeat seat =
        screw_seat(catalogue.get(), {tabulated(thread, "screw head"), head, hole_mm, recess_mm});
    py::dict out = figures_by_name(kSeatFigures, seat.figures());
    out["evidence"] = evidence_list(seat.evidence.items(), kSeatFigures, catalogue.get());
    return out;
}

}  // namespace

void bind_holes(py::module_& module) {
    py::class_<DrillSet>(module, "DrillSet", "Drills, smallest first.")
        .def(py::init(&own_drills), py::arg("drills"))
        .def_property_readonly("names",
                               [](const DrillSet& set) {
                                   py::list out;
                                   for (const DrillSize& drill : set.drills) {
                                       out.append(py::str(drill.name));
                                   }
                                   return out;
                               })
        .def_property_readonly("diameters_mm", [](const DrillSet& set) {
            py::list out;
            for (const DrillSize& drill : set.drills) {
                out.append(py::float_(drill.diameter_mm));
            }
            return out;
        });
    module.def(
        "drill_set",
        [](const std::string& sets, const SharedCatalogue& catalogue) {
            return DrillSet{drill_set(catalogue.get(), sets)};
        },
        py::arg("sets"), py::arg("catalogue"), "Drills of one or more sets, names joined by '+'.");
    module.def(
        "usual_drill_set",
        [](bool inch, const SharedCatalogue& catalogue) {
            return std::string(usual_drill_set(catalogue.get(), inch));
        },
        py::arg("inch"), py::arg("catalogue"), "The set that is meant where none is named.");
    module.def("tapping_answer", &tapping_answer, py::arg("thread"), py::arg("drills"), py::arg("catalogue"),
               py::arg("percent"), py::arg("engagement_mm"), py::arg("strength_ratio"), py::arg("form"),
               py::arg("oversize_mm"), py::arg("limits") = py::none(),
               "The drill for a tapped hole; an oversize of None is the usual one.");
    module.def("tapping_columns", &tapping_columns, py::arg("designations"), py::arg("drills"),
               py::arg("catalogue"), py::arg("numbers"), py::arg("form"), py::arg("oversize_mm"),
               py::arg("on_error") = "raise", "Tapping holes of many designations as columns.");
    module.def("blind_answer", &blind_answer, py::arg("pitch_mm"), py::arg("hole_mm"), py::arg("lead"),
               py::arg("catalogue"), py::arg("full_thread_mm"), py::arg("drill_depth_mm"),
               py::arg("chip_room_mm"), py::arg("point_deg"), py::arg("thickness_mm"), py::arg("form"),
               "Depths of a blind tapped hole.");
    module.def("clearance_answer", &clearance_answer, py::arg("thread"), py::arg("fit"), py::arg("catalogue"),
               "Hole that a screw passes through.");
    module.def("seat_answer", &seat_answer, py::arg("thread"), py::arg("head"), py::arg("hole_mm"),
               py::arg("recess_mm"), py::arg("catalogue"), "Counterbore or countersink for a screw's head.");
}

}  // namespace halfnut::bind
