// Tools, holders and windows by their names.

#include <string>

#include "convert.hpp"
#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/tooling.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/knurls/pitch.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

namespace {

using namespace cutting;

void bind_more(py::module_& module) {
    module.def(
        "tool",
        [](const std::string& name, const SharedCatalogue& catalogue) {
            const ToolRow& row = *find_tool(catalogue.get(), name).row;
            py::dict form;
            for (const auto& [key, value] : {std::pair{"flutes", row.teeth},
                                             {"nose_radius_mm", row.nose_radius_mm},
                                             {"entering_deg", row.entering_deg},
                                             {"rake_deg", row.rake_deg},
                                             {"point_deg", row.point_deg},
                                             {"stick_out_mm", row.stick_out_mm}}) {
                form[key] = value;
            }
            return py::make_tuple(enum_name(row.tool_material), form);
        },
        py::arg("name"), py::arg("catalogue"),
        "Material of a tool by its name, and what its row says of its form, NaN where nothing; \"\" is plain "
        "high-speed steel.");
    module.def(
        "holder_place",
        [](const machine::Machine* machine, const py::object& chuck, const std::string& hold) {
            Holder asked;
            if (py::isinstance<py::str>(chuck)) {
                asked.name = chuck.cast<std::string>();
            } else if (!chuck.is_none()) {
                asked.place = chuck.cast<int>();
            }
            std::vector<std::string> assumed;
            return holder_place(machine, asked, from_name<Hold>("hold", hold), assumed);
        },
        py::arg("machine"), py::arg("chuck"), py::arg("hold"),
        "Place of the chuck that is meant, the first where nobody says; -1 where there is none.");
}

WindowQuery window_query(int alloy, const std::string& operation, const std::string& tool_material,
                         double depth_mm, double feed_mm, std::optional<double> hardness_hb,
                         const SharedCatalogue& catalogue) {
    return {&alloy_at(catalogue.get(), alloy),
            hardness_hb.value_or(kNaN),
            from_name<Operation>("operation", operation),
            from_name<ToolMaterial>("tool", tool_material),
            depth_mm,
            feed_mm,
            kNaN};
}

void bind_windows(py::module_& module) {
    module.def(
        "speed_window",
        [](int alloy, const std::string& operation, const std::string& tool_material, double depth_mm,
           double feed_mm, std::optional<double> hardness_hb, const SharedCatalogue& catalogue) {
            SpeedWindow window;
            if (!speed_window(
                     catalogue.get(),
                     window_query(alloy, operation, tool_material, depth_mm, feed_mm, hardness_hb, catalogue),
                     window)
                     .ok()) {
                throw NotTabulatedError("no speed for this material, operation and tool");
            }
            return py::make_tuple(window.low_m_min, window.high_m_min);
        },
        py::arg("alloy"), py::arg("operation"), py::arg("tool_material"), py::arg("depth_mm"),
        py::arg("feed_mm"), py::arg("hardness_hb"), py::arg("catalogue"),
        "Lowest and highest cutting speed, m/min.");
    module.def(
        "feed_window",
        [](int alloy, const std::string& operation, const std::string& tool_material, double depth_mm,
           double feed_mm, std::optional<double> hardness_hb,
           const SharedCatalogue& catalogue) -> py::object {
            FeedWindow window;
            if (!feed_window(
                     catalogue.get(),
                     window_query(alloy, operation, tool_material, depth_mm, feed_mm, hardness_hb, catalogue),
                     window)
                     .ok()) {
                return py::none();
            }
            return py::make_tuple(window.low_mm, window.high_mm);
        },
        py::arg("alloy"), py::arg("operation"), py::arg("tool_material"), py::arg("depth_mm"),
        py::arg("feed_mm"), py::arg("hardness_hb"), py::arg("catalogue"),
        "Finest and coarsest feed of the tables, mm a revolution or a tooth; None where they have none.");
}

}  // namespace

void bind_cutting(py::module_& module) {
    module.def(
        "parse_knurl_pattern",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return std::string(enum_name(knurls::parse_knurl_pattern(text, catalogue.get())));
        },
        py::arg("text"), py::arg("catalogue"), "Read a pattern by name or by metric form.");
    bind_more(module);
    bind_windows(module);
    module.def("caution_codes", &spellings<CautionCode>,
               "Every code of a caution on a cut, in the order of a batch's bits.");
    module.def("limit_codes", &spellings<LimitCode>,
               "Every name of a limit of a cut, in the order of a batch's places.");
}

}  // namespace halfnut::bind
