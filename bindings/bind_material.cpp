// Alloys by name.

#include "convert.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

void bind_material(py::module_& module) {
    module.def(
        "find_alloy",
        [](const std::string& name, const SharedCatalogue& catalogue) {
            const auto& rows = catalogue.get().alloys;
            return static_cast<int>(&material::find_alloy(catalogue.get(), name) - rows.data());
        },
        py::arg("name"), py::arg("catalogue"), "Row of the alloy of a name in the table material/alloys.");
    module.def(
        "cutting_fluids",
        [](int alloy, const SharedCatalogue& catalogue) -> std::optional<int> {
            const auto& rows = catalogue.get().cutting_fluids;
            const material::CuttingFluidRow* const found =
                material::cutting_fluids(catalogue.get(), alloy_at(catalogue.get(), alloy));
            return found == nullptr ? std::nullopt : std::optional(static_cast<int>(found - rows.data()));
        },
        py::arg("alloy"), py::arg("catalogue"),
        "Row of the alloy of a row in the table material/cutting_fluids.");
}

}  // namespace halfnut::bind
