// One machine of the shop as a value.

#include <pybind11/stl.h>

#include "bind.hpp"
#include "halfnut/machine/machine.hpp"

namespace halfnut::bind {

namespace py = pybind11;

namespace {

using namespace machine;

/// A member of an enumeration type, read and written by the name that tables and files use.
template <class Owner, class E>
void named(py::class_<Owner>& type, const char* name, E Owner::* member) {
    type.def_property(
        name, [member](const Owner& self) { return std::string(enum_name(self.*member)); },
        [member, name](Owner& self, const std::string& text) {
            if (!enum_from_name(text, self.*member)) {
                std::string allowed;
                for (const auto& [value, spelling] : enum_names(E{})) {
                    allowed += (allowed.empty() ? "'" : ", '") + std::string(spelling) + "'";
                }
                throw DomainError(std::string(name) + " must be one of " + allowed + ", got '" + text + "'");
            }
        });
}

void bind_steps(py::module_& module) {
    py::class_<Position>(module, "Position", "Where a lever, belt or switch stands.")
        .def(py::init([](std::string control, std::string setting) {
                 return Position{std::move(control), std::move(setting)};
             }),
             py::arg("control"), py::arg("setting"))
        .def_readwrite("control", &Position::control)
        .def_readwrite("setting", &Position::setting);

    py::class_<SpindleStep>(module, "SpindleStep", "A speed of the spindle.")
        .def(py::init<>())
        .def_readwrite("rpm", &SpindleStep::rpm)
        .def_readwrite("rpm_low", &SpindleStep::rpm_low)
        .def_readwrite("power_kw", &SpindleStep::power_kw)
        .def_readwrite("power_low_kw", &SpindleStep::power_low_kw)
        .def_readwrite("back_gear", &SpindleStep::back_gear)
        .def_readwrite("stop_to_change", &SpindleStep::stop_to_change)
        .def_readwrite("positions", &SpindleStep::positions)
        .def_property_readonly("variable", &SpindleStep::variable);

    py::class_<FeedStep>(module, "FeedStep", "A power feed.")
        .def(py::init<>())
        .def_readwrite("feed_mm", &FeedStep::feed_mm)
        .def_readwrite("marked", &FeedStep::marked)
        .def_readwrite("stop_to_change", &FeedStep::stop_to_change)
        .def_readwrite("positions", &FeedStep::positions);

    py::class_<FeedLadder> ladder(module, "FeedLadder", "The power feeds of one train.");
    named(ladder.def(py::init<>()), "kind", &FeedLadder::kind);
    ladder.def_readwrite("marked_in_inch", &FeedLadder::marked_in_inch)
        .def_readwrite("steps", &FeedLadder::steps)
        .def_readwrite("cross_ratio", &FeedLadder::cross_ratio);
}

void bind_parts(py::module_& module) {
    py::class_<Slide>(module, "Slide", "A slide and its dial.")
        .def(py::init<>())
        .def_readwrite("name", &Slide::name)
        .def_readwrite("travel_per_turn_mm", &Slide::travel_per_turn_mm)
        .def_readwrite("graduation_mm", &Slide::graduation_mm)
        .def_readwrite("marked_graduation", &Slide::marked_graduation)
        .def_readwrite("marked_in_inch", &Slide::marked_in_inch)
        .def_readwrite("reads_diameter", &Slide::reads_diameter)
        .def_readwrite("travel_mm", &Slide::travel_mm)
        .def_readwrite("readout_mm", &Slide::readout_mm)
        .def_readwrite("power_feed", &Slide::power_feed)
        .def_readwrite("backlash_mm", &Slide::backlash_mm);

    py::class_<Chuck>(module, "Chuck", "What holds the work and how fast it may turn.")
        .def(py::init<>())
        .def_readwrite("name", &Chuck::name)
        .def_readwrite("jaws", &Chuck::jaws)
        .def_readwrite("diameter_mm", &Chuck::diameter_mm)
        .def_readwrite("rpm_limit", &Chuck::rpm_limit)
        .def_readwrite("cast_iron", &Chuck::cast_iron)
        .def_readwrite("through_mm", &Chuck::through_mm)
        .def_readwrite("jaw_depth_mm", &Chuck::jaw_depth_mm)
        .def_readwrite("opening_least_mm", &Chuck::opening_least_mm)
        .def_readwrite("opening_greatest_mm", &Chuck::opening_greatest_mm)
        .def_readwrite("jaw_mass_kg", &Chuck::jaw_mass_kg)
        .def_property_readonly("limit_rpm", &chuck_rpm_limit);

    py::class_<GearboxStep>(module, "GearboxStep", "A lead that the gearbox gives on its standard train.")
        .def(py::init<>())
        .def_readwrite("ratio", &GearboxStep::ratio)
        .def_readwrite("positions", &GearboxStep::positions);

    py::class_<ChartRow>(module, "ChartRow", "A row of the chart that hangs at the lathe.")
        .def(py::init<>())
        .def_readwrite("lead_mm", &ChartRow::lead_mm)
        .def_readwrite("inch", &ChartRow::inch)
        .def_readwrite("drivers", &ChartRow::drivers)
        .def_readwrite("driven", &ChartRow::driven)
        .def_readwrite("positions", &ChartRow::positions);

    py::class_<Threading>(module, "Threading", "The leadscrew and what drives it.")
        .def(py::init<>())
        .def_readwrite("lead_mm", &Threading::lead_mm)
        .def_readwrite("threads_per_inch", &Threading::threads_per_inch)
        .def_readwrite("metric", &Threading::metric)
        .def_readwrite("spindle_to_stud", &Threading::spindle_to_stud)
        .def_readwrite("gears", &Threading::gears)
        .def_readwrite("module_mm", &Threading::module_mm)
        .def_readwrite("stud_to_screw_mm", &Threading::stud_to_screw_mm)
        .def_readwrite("banjo_low_mm", &Threading::banjo_low_mm)
        .def_readwrite("banjo_high_mm", &Threading::banjo_high_mm)
        .def_readwrite("stud_clearance_mm", &Threading::stud_clearance_mm)
        .def_readwrite("collar_mm", &Threading::collar_mm)
        .def_readwrite("standard_driver", &Threading::standard_driver)
        .def_readwrite("standard_driven", &Threading::standard_driven)
        .def_readwrite("gearbox", &Threading::gearbox)
        .def_readwrite("dial_threads_per_turn", &Threading::dial_threads_per_turn)
        .def_readwrite("dial_marks", &Threading::dial_marks)
        .def_readwrite("chart", &Threading::chart);
}

}  // namespace

void bind_machine(py::module_& module) {
    bind_steps(module);
    bind_parts(module);

    py::class_<Machine> type(module, "Machine", "One machine of the shop, in its own terms.");
    type.def(py::init<>());
    named(type, "kind", &Machine::kind);
    named(type, "compound_zero", &Machine::compound_zero);
    type.def_readwrite("name", &Machine::name)
        .def_readwrite("inch", &Machine::inch)
        .def_readwrite("motor_kw", &Machine::motor_kw)
        .def_readwrite("efficiency", &Machine::efficiency)
        .def_readwrite("spindle", &Machine::spindle)
        .def_readwrite("carriage", &Machine::carriage)
        .def_readwrite("quill", &Machine::quill)
        .def_readwrite("table", &Machine::table)
        .def_readwrite("slides", &Machine::slides)
        .def_readwrite("chucks", &Machine::chucks)
        .def_readwrite("threading", &Machine::threading)
        .def_readwrite("centre_height_mm", &Machine::centre_height_mm)
        .def_readwrite("swing_over_bed_mm", &Machine::swing_over_bed_mm)
        .def_readwrite("swing_over_cross_slide_mm", &Machine::swing_over_cross_slide_mm)
        .def_readwrite("swing_in_gap_mm", &Machine::swing_in_gap_mm)
        .def_property_readonly("swing_mm", &swing_mm)
        .def_readwrite("between_centres_mm", &Machine::between_centres_mm)
        .def_readwrite("spindle_bore_mm", &Machine::spindle_bore_mm)
        .def_readwrite("spindle_length_mm", &Machine::spindle_length_mm)
        .def_readwrite("torque_limit_nm", &Machine::torque_limit_nm)
        .def_readwrite("lever_change_s", &Machine::lever_change_s)
        .def_readwrite("stop_change_s", &Machine::stop_change_s)
        .def_readwrite("measure_s", &Machine::measure_s)
        .def_readwrite("tool_change_s", &Machine::tool_change_s)
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
