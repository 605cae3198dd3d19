// One machine of the shop as a value.

#include <pybind11/stl.h>

#include <functional>
#include <map>
#include <string>
#include <type_traits>

#include "bind.hpp"
#include "cut_requests.hpp"
#include "halfnut/machine/machine.hpp"

namespace halfnut::bind {

namespace py = pybind11;

namespace {

using namespace machine;

/// A value of named fields in Python: made by keywords, read, never changed.
template <class T>
class Value {
   public:
    Value(py::module_& module, const char* name, const char* doc) : type_(module, name, doc), name_(name) {}

    template <class M>
    Value& field(const char* name, M T::* member) {
        if constexpr (std::is_enum_v<M>) {
            type_.def_property_readonly(
                name, [member](const T& self) { return std::string(enum_name(self.*member)); });
            fields_.emplace(name, [member, name](T& out, const py::handle& value) {
                out.*member = from_name<M>(py::cast<std::string>(value), name);
            });
        } else {
            type_.def_readonly(name, member);
            fields_.emplace(name,
                            [member](T& out, const py::handle& value) { out.*member = py::cast<M>(value); });
        }
        return *this;
    }

    /// The class, with its constructor.
    py::class_<T>& made() {
        type_.def(py::init([name = name_, fields = fields_](const py::kwargs& given) {
            T out;
            for (const auto& [key, value] : given) {
                const auto field = py::cast<std::string>(key);
                const auto at = fields.find(field);
                if (at == fields.end()) {
                    throw DomainError(name + " has no field '" + field + "'");
                }
                try {
                    at->second(out, value);
                } catch (const py::cast_error&) {
                    throw DomainError(name + ": " + field + " cannot be " +
                                      py::cast<std::string>(py::repr(value)));
                }
            }
            return out;
        }));
        return type_;
    }

   private:
    py::class_<T> type_;
    std::string name_;
    std::map<std::string, std::function<void(T&, const py::handle&)>> fields_;
};

void bind_steps(py::module_& module) {
    py::class_<Position>(module, "Position", "Where a lever, belt or switch stands.")
        .def(py::init([](std::string control, std::string setting) {
                 return Position{std::move(control), std::move(setting)};
             }),
             py::arg("control"), py::arg("setting"))
        .def_readonly("control", &Position::control)
        .def_readonly("setting", &Position::setting);

    Value<SpindleStep>(module, "SpindleStep", "A speed of the spindle.")
        .field("rpm", &SpindleStep::rpm)
        .field("rpm_low", &SpindleStep::rpm_low)
        .field("power_kw", &SpindleStep::power_kw)
        .field("power_low_kw", &SpindleStep::power_low_kw)
        .field("back_gear", &SpindleStep::back_gear)
        .field("stop_to_change", &SpindleStep::stop_to_change)
        .field("positions", &SpindleStep::positions)
        .made()
        .def_property_readonly("variable", &SpindleStep::variable);

    Value<FeedStep>(module, "FeedStep", "A power feed.")
        .field("feed_mm", &FeedStep::feed_mm)
        .field("marked", &FeedStep::marked)
        .field("stop_to_change", &FeedStep::stop_to_change)
        .field("positions", &FeedStep::positions)
        .made();

    Value<FeedLadder>(module, "FeedLadder", "The power feeds of one train.")
        .field("kind", &FeedLadder::kind)
        .field("marked_in_inch", &FeedLadder::marked_in_inch)
        .field("steps", &FeedLadder::steps)
        .field("cross_ratio", &FeedLadder::cross_ratio)
        .made();
}

void bind_parts(py::module_& module) {
    Value<Slide>(module, "Slide", "A slide and its dial.")
        .field("name", &Slide::name)
        .field("travel_per_turn_mm", &Slide::travel_per_turn_mm)
        .field("graduation_mm", &Slide::graduation_mm)
        .field("marked_graduation", &Slide::marked_graduation)
        .field("marked_in_inch", &Slide::marked_in_inch)
        .field("reads_diameter", &Slide::reads_diameter)
        .field("travel_mm", &Slide::travel_mm)
        .field("readout_mm", &Slide::readout_mm)
        .field("power_feed", &Slide::power_feed)
        .field("backlash_mm", &Slide::backlash_mm)
        .made();

    Value<Chuck>(module, "Chuck", "What holds the work and how fast it may turn.")
        .field("name", &Chuck::name)
        .field("jaws", &Chuck::jaws)
        .field("diameter_mm", &Chuck::diameter_mm)
        .field("rpm_limit", &Chuck::rpm_limit)
        .field("cast_iron", &Chuck::cast_iron)
        .field("through_mm", &Chuck::through_mm)
        .field("jaw_depth_mm", &Chuck::jaw_depth_mm)
        .field("opening_least_mm", &Chuck::opening_least_mm)
        .field("opening_greatest_mm", &Chuck::opening_greatest_mm)
        .field("jaw_mass_kg", &Chuck::jaw_mass_kg)
        .made()
        .def_property_readonly("limit_rpm", &chuck_rpm_limit);

    Value<GearboxStep>(module, "GearboxStep", "A lead that the gearbox gives on its standard train.")
        .field("ratio", &GearboxStep::ratio)
        .field("positions", &GearboxStep::positions)
        .made();

    Value<ChartRow>(module, "ChartRow", "A row of the chart that hangs at the lathe.")
        .field("lead_mm", &ChartRow::lead_mm)
        .field("inch", &ChartRow::inch)
        .field("drivers", &ChartRow::drivers)
        .field("driven", &ChartRow::driven)
        .field("positions", &ChartRow::positions)
        .made();

    Value<Threading>(module, "Threading", "The leadscrew and what drives it.")
        .field("lead_mm", &Threading::lead_mm)
        .field("threads_per_inch", &Threading::threads_per_inch)
        .field("metric", &Threading::metric)
        .field("spindle_to_stud", &Threading::spindle_to_stud)
        .field("gears", &Threading::gears)
        .field("module_mm", &Threading::module_mm)
        .field("stud_to_screw_mm", &Threading::stud_to_screw_mm)
        .field("banjo_low_mm", &Threading::banjo_low_mm)
        .field("banjo_high_mm", &Threading::banjo_high_mm)
        .field("stud_clearance_mm", &Threading::stud_clearance_mm)
        .field("collar_mm", &Threading::collar_mm)
        .field("standard_driver", &Threading::standard_driver)
        .field("standard_driven", &Threading::standard_driven)
        .field("gearbox", &Threading::gearbox)
        .field("dial_threads_per_turn", &Threading::dial_threads_per_turn)
        .field("dial_marks", &Threading::dial_marks)
        .field("chart", &Threading::chart)
        .made();
}

}  // namespace

void bind_machine(py::module_& module) {
    bind_steps(module);
    bind_parts(module);

    Value<Machine>(module, "Machine", "One machine of the shop, in its own terms.")
        .field("kind", &Machine::kind)
        .field("compound_zero", &Machine::compound_zero)
        .field("name", &Machine::name)
        .field("inch", &Machine::inch)
        .field("motor_kw", &Machine::motor_kw)
        .field("efficiency", &Machine::efficiency)
        .field("spindle", &Machine::spindle)
        .field("carriage", &Machine::carriage)
        .field("quill", &Machine::quill)
        .field("table", &Machine::table)
        .field("slides", &Machine::slides)
        .field("chucks", &Machine::chucks)
        .field("threading", &Machine::threading)
        .field("centre_height_mm", &Machine::centre_height_mm)
        .field("swing_over_bed_mm", &Machine::swing_over_bed_mm)
        .field("swing_over_cross_slide_mm", &Machine::swing_over_cross_slide_mm)
        .field("swing_in_gap_mm", &Machine::swing_in_gap_mm)
        .field("between_centres_mm", &Machine::between_centres_mm)
        .field("spindle_bore_mm", &Machine::spindle_bore_mm)
        .field("spindle_length_mm", &Machine::spindle_length_mm)
        .field("torque_limit_nm", &Machine::torque_limit_nm)
        .field("lever_change_s", &Machine::lever_change_s)
        .field("stop_change_s", &Machine::stop_change_s)
        .field("measure_s", &Machine::measure_s)
        .field("tool_change_s", &Machine::tool_change_s)
        .made()
        .def_property_readonly("swing_mm", &swing_mm)
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
