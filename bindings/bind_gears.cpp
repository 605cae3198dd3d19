// Change gears: the search.

#include "convert.hpp"
#include "halfnut/machine/gear_train.hpp"

namespace halfnut::bind {

using namespace machine;
using namespace pybind11::literals;

namespace {

py::object some(int value, int least) {
    return value < least ? py::object(py::none()) : py::object(py::int_(value));
}

void bind_train(py::module_& module) {
    py::class_<GearTrain>(module, "GearTrain", "A train of change gears.")
        .def_property_readonly(
            "drivers",
            [](const GearTrain& self) {
                return self.compound() ? py::tuple(py::make_tuple(self.driver_1, self.driver_2))
                                       : py::tuple(py::make_tuple(self.driver_1));
            },
            "On the stud; of a compound train then the one in the banjo.")
        .def_property_readonly(
            "driven",
            [](const GearTrain& self) {
                return self.compound() ? py::tuple(py::make_tuple(self.driven_1, self.driven_2))
                                       : py::tuple(py::make_tuple(self.driven_2));
            },
            "Of a compound train the one in the banjo first; last the one on the leadscrew.")
        .def_property_readonly("idler", [](const GearTrain& self) { return some(self.idler, 1); })
        .def_property_readonly("box", [](const GearTrain& self) { return some(self.box, 0); })
        .def_readonly("error", &GearTrain::error)
        .def_readonly("exact", &GearTrain::exact)
        .def_readonly("standard", &GearTrain::standard)
        .def_readonly("steep", &GearTrain::steep)
        .def_property_readonly("mounting", [](const GearTrain& self) { return enum_name(self.mounting); })
        .def_property_readonly("stud_to_banjo_mm",
                               [](const GearTrain& self) { return number_or_none(self.stud_to_banjo_mm); })
        .def_property_readonly("banjo_to_screw_mm",
                               [](const GearTrain& self) { return number_or_none(self.banjo_to_screw_mm); });
}

py::dict find_trains(const Threading& threading, std::pair<std::int64_t, std::int64_t> lead_mm,
                     double error_limit, std::size_t most, bool compound, bool gearbox, bool unmountable) {
    if (lead_mm.second == 0) {
        throw DomainError("lead_mm must be a ratio with a denominator above 0");
    }
    const GearQuestion question{
        {lead_mm.first, lead_mm.second}, error_limit, most, compound, gearbox, unmountable};
    GearAnswer found;
    std::string why;
    if (!gear_trains(threading, question, found, &why).ok()) {
        throw DomainError("gear_trains: " + why);
    }
    return py::dict("trains"_a = std::move(found.trains), "found"_a = found.found,
                    "refused"_a = found.refused);
}

}  // namespace

void bind_gears(py::module_& module) {
    bind_train(module);
    module.def("gear_trains", &find_trains, "threading"_a, "lead_mm"_a, "error_limit"_a = 0.001,
               "most"_a = std::size_t{20}, "compound"_a = true, "gearbox"_a = true, "unmountable"_a = false,
               "Every train of the gears at hand for a lead, best first; the lead in mm as a fraction.");
}

}  // namespace halfnut::bind
