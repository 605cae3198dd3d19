// One cut as a request and a result; its band of force, its heat, the life of its edge.

#include <span>

#include "cut_requests.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/tooling.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

namespace {

using namespace cutting;

void bind_band(py::module_& module) {
    py::class_<ForceBand>(module, "ForceBand", "Where a measured force lies, as shares of the computed one.")
        .def_readonly("low", &ForceBand::low)
        .def_readonly("high", &ForceBand::high)
        .def_readonly("verified", &ForceBand::verified)
        .def_readonly("papers", &ForceBand::papers)
        .def_readonly("rows", &ForceBand::rows)
        .def_readonly("median", &ForceBand::median)
        .def(
            "evidence",
            [](const ForceBand& self, const SharedCatalogue& catalogue) {
                constexpr std::array<std::string_view, 1> kFigures{"band"};
                const std::array items{EvidenceItem{
                    0, self.verified ? cutting::rule::force_band : cutting::rule::force_band_unverified,
                    self.row}};
                return evidence_list(items, kFigures, catalogue.get());
            },
            py::arg("catalogue"), "What the band rests on.");
    module.def(
        "force_band",
        [](int alloy, const std::string& process, const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            const material::AlloyRow& row = alloy_at(tables, alloy);
            const ForceConstants constants = force_constants(tables, row, kNaN);
            return force_band(tables, row, from_name<Process>("process", process), constants.rough);
        },
        py::arg("alloy"), py::arg("process"), py::arg("catalogue"),
        "Band of an alloy's forces; `process` is 'turn', 'mill', 'drill' or 'tap'.");
}

void bind_life(py::module_& module) {
    module.attr("LIFE_SPEED_LOW") = kLifeSpeedLow;
    module.attr("LIFE_SPEED_HIGH") = kLifeSpeedHigh;
}

void bind_more(py::module_& module) {
    module.def(
        "tool",
        [](const std::string& name, const SharedCatalogue& catalogue) {
            const ToolRow& row = *find_tool(catalogue.get(), name).row;
            py::dict form;
            for (const auto& [key, value] : {std::pair{"teeth", row.teeth},
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

void bind_result(py::module_& module) {
    py::class_<CutResult>(module, "CutResult", "What a cut comes to.")
        .def_property_readonly(
            "figures",
            [](const CutResult& self) {
                py::dict out;
                for (const CutFigure& at : kCutFigures) {
                    out[text(at.name)] = number_or_none(self.*(at.member));
                }
                return out;
            },
            "Every figure by its key; None where it does not apply.")
        .def_readonly("passes", &CutResult::passes)
        .def_readonly("passes_across", &CutResult::passes_across)
        .def_readonly("passes_down", &CutResult::passes_down)
        .def_readonly("spindle_step", &CutResult::spindle_step)
        .def_readonly("feed_step", &CutResult::feed_step)
        .def_property_readonly("feed_source",
                               [](const CutResult& self) { return enum_name(self.feed_source); })
        .def_property_readonly("spindle_fit",
                               [](const CutResult& self) { return enum_name(self.spindle_fit); })
        .def_property_readonly("limited_by", [](const CutResult& self) { return enum_name(self.limited_by); })
        .def_property_readonly("feed_limited_by",
                               [](const CutResult& self) { return enum_name(self.feed_limited_by); })
        .def_readonly("band", &CutResult::band, "Band of force, power and torque.")
        .def_readonly("ordinary_wear", &CutResult::ordinary_wear,
                      "Factor on the force of a sharp edge at which limits are judged.")
        .def_property_readonly(
            "cautions", [](const CutResult& self) { return cautions_of<CautionCode>(self); },
            "Codes of what a person should know.")
        .def_property_readonly(
            "limits",
            [](const CutResult& self) {
                return limit_tuples(std::span(self.limits).first(self.limit_count));
            },
            "(limit, value, bound, slack) each; slack is a share of the bound.")
        .def(
            "evidence",
            [](const CutResult& self, const SharedCatalogue& catalogue) {
                return evidence_list(self.evidence.items(), kCutFigureNames, catalogue.get());
            },
            py::arg("catalogue"), "What each figure rests on.");
}

const machine::Machine& machine_or_any(const machine::Machine* given) {
    return given == nullptr ? any_machine() : *given;
}

void bind_requests(py::module_& module) {
    module.def(
        "lathe_cut",
        [](const std::string& cut_name, int alloy, const std::string& tool_material, const py::dict& numbers,
           bool finish, bool inch, const std::string& hold, int chuck, const py::object& hardness_hb,
           const machine::Machine* machine, const SharedCatalogue& catalogue) {
            TurnRequest request;
            request.cut = from_name<LatheCut>("cut", cut_name);
            request.work = work_of(alloy, hardness_hb);
            request.tool_material = from_name<ToolMaterial>("tool", tool_material);
            request.finish = finish;
            request.inch = inch;
            request.hold = from_name<Hold>("hold", hold);
            request.chuck = chuck;
            set_numbers(request, numbers, kTurnArguments);
            return cut(catalogue.get(), machine_or_any(machine), request);
        },
        py::arg("cut"), py::arg("alloy"), py::arg("tool_material"), py::arg("numbers"), py::arg("finish"),
        py::arg("inch"), py::arg("hold"), py::arg("chuck"), py::arg("hardness_hb"), py::arg("machine"),
        py::arg("catalogue"),
        "One cut on a lathe. `numbers` are those of the core's TurnRequest, by name; None is not given.");
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
    bind_band(module);
    bind_life(module);
    bind_result(module);
    bind_requests(module);
    bind_more(module);
    bind_windows(module);
    module.def("caution_codes", &spellings<CautionCode>, "Every code that CutResult.cautions may hold.");
    module.def("limit_codes", &spellings<LimitCode>, "Every name that CutResult.limits may hold.");
}

}  // namespace halfnut::bind
