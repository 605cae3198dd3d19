// Plain holes and shafts: limits of size, fits.

#include <fmt/format.h>
#include "convert.hpp"
#include "halfnut/fits/cylindrical.hpp"

namespace halfnut::bind {

using namespace fits;

namespace {

py::object zone_dict(const Zone& zone) {
    if (!zone.given) {
        return py::none();
    }
    py::dict out;
    out["upper_units"] = zone.upper;
    out["lower_units"] = zone.lower;
    out["kind"] = std::string(enum_name(zone.kind));
    return out;
}

py::dict cylinder_answer(const std::string& text, const SharedCatalogue& catalogue) {
    const Cylinder cylinder = parse_cylinder(text, catalogue.get());
    const CylinderLimits limits = cylinder_limits(catalogue.get(), cylinder);
    py::dict out;
    out["text"] = format_cylinder(cylinder);
    out["unit"] = cylinder.inch() ? "in" : "mm";
    out["nominal_units"] = cylinder.nominal_units;
    out["hole_class"] = cylinder.hole.given() ? format_class(cylinder.hole) : std::string();
    out["shaft_class"] = cylinder.shaft.given() ? format_class(cylinder.shaft) : std::string();
    out["ansi_fit"] = cylinder.ansi_fit;
    out["hole"] = zone_dict(limits.hole);
    out["shaft"] = zone_dict(limits.shaft);
    out["clearance_min_units"] = limits.clearance_min;
    out["clearance_max_units"] = limits.clearance_max;
    out["character"] = std::string(enum_name(limits.character));
    out["evidence"] = evidence_list(limits.evidence.items(), kCylinderFigures, catalogue.get());
    return out;
}

/// Columns of limits for many sizes; a row that fails has NaN everywhere and a status.
py::dict cylinder_columns(const std::vector<std::string>& texts, const SharedCatalogue& catalogue,
                          const std::string& on_error) {
    static constexpr std::array<std::string_view, 6> kNames{
        "hole_max_mm", "hole_min_mm", "shaft_max_mm", "shaft_min_mm", "clearance_min_mm", "clearance_max_mm"};
    AnswerColumns columns(texts.size());
    columns.figures(kNames);
    columns.run(on_error, "sizes", [&](std::size_t row, std::string& why) {
        Cylinder cylinder;
        CylinderLimits limits;
        CylinderProblem problem;
        Status status = read_cylinder(texts[row], catalogue.get(), cylinder, &problem);
        std::string reason = problem.message;
        if (status.ok()) {
            status = evaluate(catalogue.get(), cylinder, limits, &reason);
        }
        if (!status.ok()) {
            why = fmt::format("'{}': {}", texts[row], reason);
            return status;
        }
        const auto mm = [&](std::int64_t units) {
            return cylinder.inch() ? static_cast<double>(units * 127) / 5e6
                                   : static_cast<double>(units) / 1e6;
        };
        const auto size = [&](const Zone& zone, std::int64_t deviation) {
            return zone.given ? mm(cylinder.nominal_units + deviation) : kNaN;
        };
        const bool pair = limits.hole.given && limits.shaft.given;
        columns.set_figures(
            row, std::array{size(limits.hole, limits.hole.upper), size(limits.hole, limits.hole.lower),
                            size(limits.shaft, limits.shaft.upper), size(limits.shaft, limits.shaft.lower),
                            pair ? mm(limits.clearance_min) : kNaN, pair ? mm(limits.clearance_max) : kNaN});
        return status;
    });
    return columns.dict();
}

MeetingPart meeting_part(const std::array<double, 6>& given) {
    return {given[0], given[1], given[2], given[3], given[4], given[5]};
}

py::dict meeting_answer(const std::array<double, 6>& hole, const std::array<double, 6>& shaft,
                        double tolerance_over_sigma, double mean_shift, const SharedCatalogue& catalogue) {
    const Meeting answer =
        meeting({meeting_part(hole), meeting_part(shaft), tolerance_over_sigma, mean_shift});
    py::dict out = figures_by_name(kMeetingFigures, answer.figures());
    out["evidence"] = evidence_list(answer.evidence.items(), kMeetingFigures, catalogue.get());
    return out;
}

}  // namespace

void bind_fits(py::module_& module) {
    module.def("cylinder_answer", &cylinder_answer, py::arg("text"), py::arg("catalogue"),
               "Limits of a plain hole, a shaft or a pair; sizes in millionths of `unit`.");
    module.def("cylinder_columns", &cylinder_columns, py::arg("texts"), py::arg("catalogue"),
               py::arg("on_error") = "raise", "The same for many sizes, as columns in mm.");
    module.def("meeting_answer", &meeting_answer, py::arg("hole"), py::arg("shaft"),
               py::arg("tolerance_over_sigma"), py::arg("mean_shift"), py::arg("catalogue"),
               "Clearance of a hole and a shaft, each (min_mm, max_mm, build_up_min_um, build_up_max_um, "
               "temperature_c, expansion_um_m_k).");
}

}  // namespace halfnut::bind
