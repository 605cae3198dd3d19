// One machine of the shop as a value.

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "convert.hpp"
#include "halfnut/cutting/knurling.hpp"
#include "halfnut/machine/dial.hpp"
#include "halfnut/machine/machine.hpp"
#include "halfnut/machine/machine_file.hpp"
#include "halfnut/machine/machine_json.hpp"
#include "halfnut/machine/members.hpp"
#include "halfnut/machine/room.hpp"

namespace halfnut::bind {

using namespace pybind11::literals;

namespace {

using namespace machine;

/// Rows of the list of a record's members.
template <class Record>
std::span<const Member> rows() {
    static const std::vector<Member> kRows = [] {
        std::vector<Member> out;
        const Record fresh{};
        const auto* const start = reinterpret_cast<const char*>(&fresh);
        members(&fresh, [&](const auto&... each) {
            const auto put = [&]<class M>(const Named<Record, M>& named) {
                const auto* const at = reinterpret_cast<const char*>(&(fresh.*named.member));
                out.push_back({named.name.data(), static_cast<std::size_t>(at - start), &kCrossing<M>});
            };
            (put(each), ...);
        });
        return out;
    }();
    return kRows;
}

}  // namespace

void bind_machine(py::module_& module) {
    py::class_<Position> position(module, "Position", "Where a lever, belt or switch stands.");
    def_value<Position>(
        position,
        [](py::handle self) {
            const auto& p = self.cast<const Position&>();
            return py::make_tuple(p.control, p.setting);
        },
        [](const py::tuple& s) { return Position{held<std::string>(s, 0), held<std::string>(s, 1)}; });
    position.def(py::init<std::string, std::string>(), "control"_a, "setting"_a)
        .def_readonly("control", &Position::control)
        .def_readonly("setting", &Position::setting)
        .def("__repr__", [](const Position& p) { return "<Position " + p.control + " " + p.setting + ">"; });

    record<SpindleStep>(module, "SpindleStep", rows<SpindleStep>(), "A speed of the spindle.")
        .def_property_readonly("variable", &SpindleStep::variable);

    record<FeedStep>(module, "FeedStep", rows<FeedStep>(), "A power feed.");

    record<FeedLadder>(module, "FeedLadder", rows<FeedLadder>(), "The power feeds of one train.");

    record<Slide>(module, "Slide", rows<Slide>(), "A slide and its dial.")
        .def_property_readonly("lines_a_turn", &lines_a_turn)
        .def(
            "reading",
            [](const Slide& self, double travel_mm) {
                const auto [slide, at, line_mm, unit, said] = cutting::dial_at(self, travel_mm);
                return py::make_tuple(slide, at.turns, at.line, at.remainder_mm, line_mm, unit, said);
            },
            "travel_mm"_a, "What its dial reads after a travel from nought: the figures of a DialReading.");

    record<Chuck>(module, "Chuck", rows<Chuck>(), "What holds the work and how fast it may turn.")
        .def_property_readonly("limit_rpm", &chuck_rpm_limit);

    record<GearboxStep>(module, "GearboxStep", rows<GearboxStep>(),
                        "A lead that the gearbox gives on its standard train.");

    record<ChartRow>(module, "ChartRow", rows<ChartRow>(), "A row of the chart that hangs at the lathe.");

    record<Threading>(module, "Threading", rows<Threading>(), "The leadscrew and what drives it.");

    record<Machine>(module, "Machine", rows<Machine>(), "One machine of the shop, in its own terms.")
        .def_property_readonly("swing_mm", &swing_mm)
        .def("json", &machine_json, "The machine as an object of JSON, for questions of other programs.")
        .def(
            "problems",
            [](const Machine& self) {
                py::list out;
                for (const Problem& problem : problems(self)) {
                    out.append(py::make_tuple(problem.where, problem.text, problem.odd));
                }
                return out;
            },
            "Everything wrong or odd: (where, text, odd) each; odd is unlikely but possible.")
        .def(
            "missing",
            [](const Machine& self) {
                py::list out;
                for (const Problem& problem : missing(self)) {
                    out.append(py::make_tuple(problem.where, problem.text));
                }
                return out;
            },
            "What the machine leaves out, and what the answers lack without it: (where, text) each.")
        .def(
            "fastest_rpm", [](const Machine& self, double rpm) { return choose_spindle(self, 0.0, rpm).rpm; },
            "rpm"_a, "The fastest speed that is not above another, rev/min, else the slowest.")
        .def("slide", &find_slide, "name"_a, py::return_value_policy::copy,
             "The slide of that name, or None.");
}

}  // namespace halfnut::bind
