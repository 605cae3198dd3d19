// Plain holes and shafts: limits of size, fits.

#include <fmt/format.h>
#include "convert.hpp"
#include "halfnut/fits/cylindrical.hpp"

namespace halfnut::bind {

using namespace fits;

namespace {

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

}  // namespace

void bind_fits(py::module_& module) {
    module.def("cylinder_columns", &cylinder_columns, py::arg("texts"), py::arg("catalogue"),
               py::arg("on_error") = "raise",
               "Limits of many plain holes, shafts and pairs, as columns in mm.");
}

}  // namespace halfnut::bind
