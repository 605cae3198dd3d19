// Cutting: level-1 formulas, and one cut as a request and a result.

#include <pybind11/stl.h>

#include "bind.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/holes.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/cutting/window.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;

namespace {

using namespace cutting;

void bind_formulas(py::module_& module) {
    level1<SpindleSpeed>(module, "Spindle speed that gives a cutting speed at a diameter, rev/min.");
    level1<CuttingSpeed>(module, "Cutting speed at a diameter, m/min.");
    level1<FeedRate>(module, "Feed motion of a tool fed by the revolution, mm/min.");
    level1<TableFeed>(module, "Table feed of a milling cutter, mm/min.");
    level1<TurningRemoval>(module, "Metal removed in turning, cm3/min.");
    level1<MillingRemoval>(module, "Metal removed in milling, cm3/min.");
    level1<DrillingRemoval>(module, "Metal removed in drilling, cm3/min.");
    level1<FeedTime>(module, "Time of a feed motion, s.");
    level1<PointLength>(module, "Length of a drill's point, mm.");
    level1<CountersinkDepth>(module, "Depth of a countersink, mm.");
    level1<MillingApproach>(module,
                            "Travel of a milling cutter to full width, cutting with its periphery, mm.");
    level1<FaceMillingApproach>(module, "Travel of a centred face mill to full width, mm.");
    level1<ChipThickness>(module, "Uncut chip thickness in turning, mm.");
    level1<MeanEntering>(module, "Mean entering angle where the nose does part of the cutting, degrees.");
    level1<Engagement>(module, "Angle of the cutter's turn during which a tooth cuts, degrees.");
    level1<MillingChipMax>(module, "Greatest chip thickness of a milling tooth, mm.");
    level1<MillingChipMean>(module, "Mean chip thickness of a milling tooth, mm.");
    level1<ChipThinning>(module, "How much more feed a narrow cut bears for the same chip.");
    level1<SpecificCuttingForce>(module, "Specific cutting force after Kienzle, N/mm2.");
    level1<TurningForce>(module, "Cutting force in turning after Kienzle, N.");
    level1<RakeCorrection>(module, "Correction of the cutting force for the rake.");
    level1<UnitPowerForce>(module, "Specific cutting force that a unit power stands for, N/mm2.");
    level1<FeedFactor>(module, "Feed factor of the handbook's power constants.");
    level1<UnitPower>(module, "Power at the cutter from a unit power, kW.");
    level1<CuttingPower>(module, "Power at the cutter from force and speed, kW.");
    level1<MotorPower>(module, "Power at the motor, kW.");
    level1<SpindleTorque>(module, "Torque at the spindle of a force at a diameter, N m.");
    level1<TorquePower>(module, "Power of a torque at a spindle speed, kW.");
    level1<RoughnessRt>(module, "Height of the feed ridges that a round nose leaves, um.");
    level1<RoughnessRa>(module, "Mean roughness that a round nose leaves, um.");
    level1<MillingRoughnessRt>(module, "Height of the tooth marks of peripheral milling, um.");
    level1<DrillingTorque>(module, "Torque of a drill, N m.");
    level1<DrillingThrust>(module, "Thrust of a drill, N.");
    level1<TappingTorque>(module, "Torque of a cutting tap, N m.");
    level1<SecondMoment>(module, "Second moment of area of a round bar or tube, mm4.");
    level1<CantileverDeflection>(module, "Deflection at the load of a bar held at one end, mm.");
    level1<CentresDeflection>(module, "Deflection at the load of work between centres, mm.");
    level1<ChuckCentreDeflection>(module, "Deflection at the load of work in a chuck with a centre, mm.");
}

template <class E>
E from_name(const std::string& text, const char* what) {
    E value{};
    if (!enum_from_name(text, value)) {
        std::string allowed;
        for (const auto& [candidate, spelling] : enum_names(E{})) {
            allowed += (allowed.empty() ? "'" : ", '") + std::string(spelling) + "'";
        }
        throw DomainError(std::string(what) + " must be one of " + allowed + ", got '" + text + "'");
    }
    return value;
}

void bind_result(py::module_& module) {
    py::class_<CutResult>(module, "CutResult", "What a cut comes to.")
        .def_property_readonly(
            "figures",
            [](const CutResult& self) {
                py::dict out;
                for (const CutFigure& at : kCutFigures) {
                    const double value = self.*(at.member);
                    out[py::str(at.name.data(), at.name.size())] =
                        std::isnan(value) ? py::object(py::none()) : py::object(py::float_(value));
                }
                return out;
            },
            "Every figure by its key; None where it does not apply.")
        .def_readonly("spindle_step", &CutResult::spindle_step)
        .def_readonly("feed_step", &CutResult::feed_step)
        .def_property_readonly("feed_source",
                               [](const CutResult& self) { return std::string(enum_name(self.feed_source)); })
        .def_property_readonly("spindle_fit",
                               [](const CutResult& self) { return std::string(enum_name(self.spindle_fit)); })
        .def_property_readonly("limited_by",
                               [](const CutResult& self) { return std::string(enum_name(self.limited_by)); })
        .def_property_readonly(
            "feed_limited_by",
            [](const CutResult& self) { return std::string(enum_name(self.feed_limited_by)); })
        .def_property_readonly(
            "cautions",
            [](const CutResult& self) {
                std::vector<std::string> codes;
                for (const auto& [code, name] : enum_names(CautionCode{})) {
                    if (self.has(code)) {
                        codes.emplace_back(name);
                    }
                }
                return codes;
            },
            "Codes of what a person should know.")
        .def_property_readonly(
            "limits",
            [](const CutResult& self) {
                py::list out;
                for (std::size_t i = 0; i < self.limit_count; ++i) {
                    const Limit& limit = self.limits[i];
                    out.append(py::make_tuple(std::string(enum_name(limit.code)), limit.value, limit.limit,
                                              limit.slack()));
                }
                return out;
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

/// Set a request's numbers by their names; None is not given.
template <class Request, std::size_t N>
void set_numbers(Request& request, const py::dict& numbers,
                 const std::array<RequestArgument<Request>, N>& arguments) {
    for (const auto& [key, value] : numbers) {
        const auto name = py::cast<std::string>(key);
        bool known = false;
        for (const RequestArgument<Request>& at : arguments) {
            if (at.argument.name == name) {
                known = true;
                if (!value.is_none()) {
                    request.*(at.member) = py::cast<double>(value);
                }
            }
        }
        if (!known) {
            throw DomainError("no argument '" + name + "'");
        }
    }
}

void bind_requests(py::module_& module) {
    module.def(
        "lathe_cut",
        [](const std::string& cut_name, int alloy, const std::string& tool_material, const py::dict& numbers,
           bool finish, const std::string& hold, int chuck, py::object hardness_hb,
           const machine::Machine* machine, const SharedCatalogue& catalogue) {
            TurnRequest request;
            request.cut = from_name<LatheCut>(cut_name, "cut");
            request.work.alloy = static_cast<std::uint16_t>(alloy);
            request.work.hardness_hb = hardness_hb.is_none() ? kNaN : py::cast<double>(hardness_hb);
            request.tool_material = from_name<ToolMaterial>(tool_material, "tool");
            request.finish = finish;
            request.hold = from_name<Hold>(hold, "hold");
            request.chuck = chuck;
            set_numbers(request, numbers, kTurnArguments);
            return cut(catalogue.get(), machine_or_any(machine), request);
        },
        py::arg("cut"), py::arg("alloy"), py::arg("tool_material"), py::arg("numbers"), py::arg("finish"),
        py::arg("hold"), py::arg("chuck"), py::arg("hardness_hb"), py::arg("machine"), py::arg("catalogue"),
        "One cut on a lathe. `numbers` are those of the core's TurnRequest, by name; None is not given.");
}

template <class E>
std::vector<std::string> spellings() {
    std::vector<std::string> out;
    for (const auto& [value, name] : enum_names(E{})) {
        out.emplace_back(name);
    }
    return out;
}

}  // namespace

void bind_cutting(py::module_& module) {
    bind_formulas(module);
    bind_result(module);
    bind_requests(module);
    module.def("caution_codes", &spellings<CautionCode>, "Every code that CutResult.cautions may hold.");
    module.def("limit_codes", &spellings<LimitCode>, "Every name that CutResult.limits may hold.");
}

}  // namespace halfnut::bind
