// One cut as a request and a result; its band of force, its heat, the life of its edge.

#include <span>

#include "cut_requests.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/heat.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/tables.hpp"
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
    module.attr("LONGEST_LIFE_MIN") = kLongestLifeMin;
}

void bind_more(py::module_& module) {
    module.def(
        "cut_heat",
        [](const CutResult& cut, int alloy, const SharedCatalogue& catalogue) {
            const CutHeat heat = heat_of(alloy_at(catalogue.get(), alloy), cut);
            py::dict out;
            out["chip_rise_k"] = number_or_none(heat.chip_rise_k);
            out["heat_to_work_share"] = number_or_none(heat.heat_to_work_share);
            out["heat_to_work_w"] = number_or_none(heat.heat_to_work_w);
            out["heat_to_work_high_w"] = number_or_none(heat.heat_to_work_high_w);
            return out;
        },
        py::arg("cut"), py::arg("alloy"), py::arg("catalogue"),
        "Heat of a cut: rise at the chip, share and power into the work; None where nothing is known.");
    module.def("usual_teeth", &usual_teeth, py::arg("cutter_diameter_mm"),
               "Teeth of a cutter that nothing is said of.");
    module.def(
        "tool_evidence",
        [](std::size_t place, const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            if (place >= tables.tools.size()) {
                throw NotTabulatedError("no tool " + std::to_string(place));
            }
            constexpr std::array<std::string_view, 1> kFigures{"tool"};
            const std::array items{
                EvidenceItem{0, cutting::rule::tool_row, row_ref(tables.tools, tables.tools[place])}};
            return evidence_list(items, kFigures, tables);
        },
        py::arg("place"), py::arg("catalogue"), "What is known of a tool, by its place in cutting/tools.");
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

}  // namespace

void bind_cutting(py::module_& module) {
    bind_band(module);
    bind_life(module);
    bind_result(module);
    bind_requests(module);
    bind_more(module);
    module.def("caution_codes", &spellings<CautionCode>, "Every code that CutResult.cautions may hold.");
    module.def("limit_codes", &spellings<LimitCode>, "Every name that CutResult.limits may hold.");
}

}  // namespace halfnut::bind
