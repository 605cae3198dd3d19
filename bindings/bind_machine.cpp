// One machine of the shop as a value.

#include <array>
#include <string>

#include "convert.hpp"
#include "halfnut/machine/dial.hpp"
#include "halfnut/machine/machine.hpp"
#include "halfnut/machine/machine_json.hpp"
#include "halfnut/machine/room.hpp"

namespace halfnut::bind {

namespace {

using namespace machine;

constexpr std::array kSpindleStepMembers{
    HALFNUT_MEMBER(SpindleStep, rpm),       HALFNUT_MEMBER(SpindleStep, rpm_low),
    HALFNUT_MEMBER(SpindleStep, power_kw),  HALFNUT_MEMBER(SpindleStep, power_low_kw),
    HALFNUT_MEMBER(SpindleStep, back_gear), HALFNUT_MEMBER(SpindleStep, stop_to_change),
    HALFNUT_MEMBER(SpindleStep, positions),
};

constexpr std::array kFeedStepMembers{
    HALFNUT_MEMBER(FeedStep, feed_mm),
    HALFNUT_MEMBER(FeedStep, marked),
    HALFNUT_MEMBER(FeedStep, stop_to_change),
    HALFNUT_MEMBER(FeedStep, positions),
};

constexpr std::array kFeedLadderMembers{
    HALFNUT_MEMBER(FeedLadder, kind),
    HALFNUT_MEMBER(FeedLadder, marked_in_inch),
    HALFNUT_MEMBER(FeedLadder, steps),
    HALFNUT_MEMBER(FeedLadder, cross_ratio),
};

constexpr std::array kSlideMembers{
    HALFNUT_MEMBER(Slide, name),           HALFNUT_MEMBER(Slide, travel_per_turn_mm),
    HALFNUT_MEMBER(Slide, graduation_mm),  HALFNUT_MEMBER(Slide, marked_graduation),
    HALFNUT_MEMBER(Slide, marked_in_inch), HALFNUT_MEMBER(Slide, reads_diameter),
    HALFNUT_MEMBER(Slide, travel_mm),      HALFNUT_MEMBER(Slide, readout_mm),
    HALFNUT_MEMBER(Slide, power_feed),     HALFNUT_MEMBER(Slide, backlash_mm),
    HALFNUT_MEMBER(Slide, approach_minus),
};

constexpr std::array kChuckMembers{
    HALFNUT_MEMBER(Chuck, name),
    HALFNUT_MEMBER(Chuck, jaws),
    HALFNUT_MEMBER(Chuck, diameter_mm),
    HALFNUT_MEMBER(Chuck, rpm_limit),
    HALFNUT_MEMBER(Chuck, cast_iron),
    HALFNUT_MEMBER(Chuck, through_mm),
    HALFNUT_MEMBER(Chuck, jaw_depth_mm),
    HALFNUT_MEMBER(Chuck, opening_least_mm),
    HALFNUT_MEMBER(Chuck, opening_greatest_mm),
    HALFNUT_MEMBER(Chuck, jaw_mass_kg),
    HALFNUT_MEMBER(Chuck, run_out_mm),
};

constexpr std::array kGearboxStepMembers{
    HALFNUT_MEMBER(GearboxStep, ratio),
    HALFNUT_MEMBER(GearboxStep, positions),
};

constexpr std::array kChartRowMembers{
    HALFNUT_MEMBER(ChartRow, lead_mm), HALFNUT_MEMBER(ChartRow, inch),      HALFNUT_MEMBER(ChartRow, drivers),
    HALFNUT_MEMBER(ChartRow, driven),  HALFNUT_MEMBER(ChartRow, positions),
};

constexpr std::array kThreadingMembers{
    HALFNUT_MEMBER(Threading, lead_mm),
    HALFNUT_MEMBER(Threading, threads_per_inch),
    HALFNUT_MEMBER(Threading, metric),
    HALFNUT_MEMBER(Threading, spindle_to_stud),
    HALFNUT_MEMBER(Threading, gears),
    HALFNUT_MEMBER(Threading, module_mm),
    HALFNUT_MEMBER(Threading, stud_to_screw_mm),
    HALFNUT_MEMBER(Threading, banjo_low_mm),
    HALFNUT_MEMBER(Threading, banjo_high_mm),
    HALFNUT_MEMBER(Threading, stud_clearance_mm),
    HALFNUT_MEMBER(Threading, collar_mm),
    HALFNUT_MEMBER(Threading, standard_driver),
    HALFNUT_MEMBER(Threading, standard_driven),
    HALFNUT_MEMBER(Threading, gearbox),
    HALFNUT_MEMBER(Threading, dial_threads_per_turn),
    HALFNUT_MEMBER(Threading, dial_marks),
    HALFNUT_MEMBER(Threading, chart),
};

constexpr std::array kMachineMembers{
    HALFNUT_MEMBER(Machine, kind),
    HALFNUT_MEMBER(Machine, compound_zero),
    HALFNUT_MEMBER(Machine, name),
    HALFNUT_MEMBER(Machine, inch),
    HALFNUT_MEMBER(Machine, motor_kw),
    HALFNUT_MEMBER(Machine, efficiency),
    HALFNUT_MEMBER(Machine, spindle),
    HALFNUT_MEMBER(Machine, carriage),
    HALFNUT_MEMBER(Machine, quill),
    HALFNUT_MEMBER(Machine, table),
    HALFNUT_MEMBER(Machine, slides),
    HALFNUT_MEMBER(Machine, chucks),
    HALFNUT_MEMBER(Machine, threading),
    HALFNUT_MEMBER(Machine, centre_height_mm),
    HALFNUT_MEMBER(Machine, swing_over_bed_mm),
    HALFNUT_MEMBER(Machine, swing_over_cross_slide_mm),
    HALFNUT_MEMBER(Machine, swing_in_gap_mm),
    HALFNUT_MEMBER(Machine, between_centres_mm),
    HALFNUT_MEMBER(Machine, spindle_bore_mm),
    HALFNUT_MEMBER(Machine, spindle_length_mm),
    HALFNUT_MEMBER(Machine, torque_limit_nm),
    HALFNUT_MEMBER(Machine, lever_change_s),
    HALFNUT_MEMBER(Machine, stop_change_s),
    HALFNUT_MEMBER(Machine, measure_s),
    HALFNUT_MEMBER(Machine, tool_change_s),
    HALFNUT_MEMBER(Machine, tailstock_turns_per_min),
    HALFNUT_MEMBER(Machine, table_turns_per_min),
    HALFNUT_MEMBER(Machine, half_nut_s),
    HALFNUT_MEMBER(Machine, hand_ream_rpm),
    HALFNUT_MEMBER(Machine, hand_knurl_rpm),
    HALFNUT_MEMBER(Machine, hand_axes),
    HALFNUT_MEMBER(Machine, tool_clearance_mm),
    HALFNUT_MEMBER(Machine, dividing_ratio),
    HALFNUT_MEMBER(Machine, dividing_plates),
    HALFNUT_MEMBER(Machine, direct_holes),
};

void bind_steps(py::module_& module) {
    py::class_<Position> position(module, "Position", "Where a lever, belt or switch stands.");
    def_value<Position>(
        position, [](const Position& p) -> py::tuple { return py::make_tuple(p.control, p.setting); },
        [](const py::tuple& s) { return Position{held<std::string>(s, 0), held<std::string>(s, 1)}; });
    position
        .def(py::init([](std::string control, std::string setting) {
                 return Position{std::move(control), std::move(setting)};
             }),
             py::arg("control"), py::arg("setting"))
        .def_readonly("control", &Position::control)
        .def_readonly("setting", &Position::setting)
        .def("__repr__", [](const Position& p) { return "<Position " + p.control + " " + p.setting + ">"; });

    record<SpindleStep>(module, "SpindleStep", kSpindleStepMembers, "A speed of the spindle.")
        .def_property_readonly("variable", &SpindleStep::variable);

    record<FeedStep>(module, "FeedStep", kFeedStepMembers, "A power feed.");

    record<FeedLadder>(module, "FeedLadder", kFeedLadderMembers, "The power feeds of one train.");
}

void bind_parts(py::module_& module) {
    record<Slide>(module, "Slide", kSlideMembers, "A slide and its dial.")
        .def_property_readonly("lines_a_turn", &lines_a_turn)
        .def(
            "reading",
            [](const Slide& self, double travel_mm) {
                const DialReading found = dial_reading(self, travel_mm);
                return py::make_tuple(found.turns, found.line, found.remainder_mm);
            },
            py::arg("travel_mm"), "Turns, line and what the line misses after a travel from nought.");

    record<Chuck>(module, "Chuck", kChuckMembers, "What holds the work and how fast it may turn.")
        .def_property_readonly("limit_rpm", &chuck_rpm_limit);

    record<GearboxStep>(module, "GearboxStep", kGearboxStepMembers,
                        "A lead that the gearbox gives on its standard train.");

    record<ChartRow>(module, "ChartRow", kChartRowMembers, "A row of the chart that hangs at the lathe.");

    record<Threading>(module, "Threading", kThreadingMembers, "The leadscrew and what drives it.");
}

}  // namespace

void bind_machine(py::module_& module) {
    bind_steps(module);
    bind_parts(module);

    record<Machine>(module, "Machine", kMachineMembers, "One machine of the shop, in its own terms.")
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
            "slide",
            [](const Machine& self, const std::string& name) -> py::object {
                const Slide* slide = find_slide(self, name);
                return slide == nullptr ? py::object(py::none()) : py::cast(*slide);
            },
            py::arg("name"), "The slide of that name, or None.");
}

}  // namespace halfnut::bind
