// Strength of threads: how far a metal is to be engaged.

#include "convert.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/joint.hpp"
#include "halfnut/threads/joint_tables.hpp"

namespace halfnut::bind {

void bind_strength(py::module_& module) {
    module.def(
        "engagement_practice",
        [](int internal, const std::string& loading, double diameter_mm, const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            const threads::EngagementPracticeRow& row = threads::engagement_practice(
                tables, alloy_at(tables, internal), from_name<threads::Loading>("loading", loading));
            return std::pair{static_cast<int>(&row - tables.engagement_practice.data()),
                             threads::engagement_by_practice_mm(row, diameter_mm)};
        },
        py::arg("internal"), py::arg("loading"), py::arg("diameter_mm"), py::arg("catalogue"),
        "Row of threads/engagement_practice for an alloy, and its length.");
}

}  // namespace halfnut::bind
