// The choice of passes: a request by its numbers, and the answer.

#include "cut_requests.hpp"
#include "halfnut/cutting/choose.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

namespace {

using namespace cutting;

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

void bind_answer(py::module_& module) {
    py::class_<ChosenPass>(module, "ChosenPass", "One pass of a choice.")
        .def_readonly("cut", &ChosenPass::cut)
        .def_readonly("depth_mm", &ChosenPass::depth_mm)
        .def_readonly("before_mm", &ChosenPass::before_mm)
        .def_readonly("after_mm", &ChosenPass::after_mm)
        .def_readonly("line", &ChosenPass::line)
        .def_readonly("finish", &ChosenPass::finish)
        .def_readonly("measure_before", &ChosenPass::measure_before)
        .def_readonly("by_measurement", &ChosenPass::by_measurement)
        .def_readonly("slower_holds", &ChosenPass::slower_holds)
        .def_readonly("faster_holds", &ChosenPass::faster_holds)
        .def_readonly("cut_s", &ChosenPass::cut_s)
        .def_readonly("return_s", &ChosenPass::return_s)
        .def_readonly("dial_s", &ChosenPass::dial_s)
        .def_readonly("change_s", &ChosenPass::change_s)
        .def_readonly("measure_s", &ChosenPass::measure_s)
        .def_readonly("levers_moved", &ChosenPass::levers_moved)
        .def_property_readonly(
            "limits", [](const ChosenPass& self) { return limit_tuples(self.limits); },
            "(limit, value, bound, slack) each; slack is a share of the bound.");
    py::class_<Closing>(module, "Closing", "How a size is closed on.")
        .def_property_readonly("way", [](const Closing& self) { return enum_name(self.way); })
        .def_property_readonly("instrument", [](const Closing& self) { return enum_name(self.instrument); })
        .def_readonly("low_mm", &Closing::low_mm)
        .def_readonly("high_mm", &Closing::high_mm)
        .def_readonly("error_mm", &Closing::error_mm)
        .def_readonly("reach_mm", &Closing::reach_mm)
        .def_readonly("cold", &Closing::cold)
        .def_readonly("compound", &Closing::compound)
        .def_readonly("coarse", &Closing::coarse)
        .def_readonly("third", &Closing::third);
    py::class_<Passes>(module, "Passes", "The fastest passes, or what stands in their way.")
        .def_readonly("passes", &Passes::passes)
        .def_readonly("time_s", &Passes::time_s)
        .def_readonly("levers_moved", &Passes::levers_moved)
        .def_readonly("final_measure_s", &Passes::final_measure_s)
        .def_readonly("line_mm", &Passes::line_mm)
        .def_readonly("remainder_mm", &Passes::remainder_mm)
        .def_readonly("readout", &Passes::readout)
        .def_readonly("dial_assumed", &Passes::dial_assumed)
        .def_readonly("return_assumed", &Passes::return_assumed)
        .def_readonly("hand_fed", &Passes::hand_fed)
        .def_readonly("across", &Passes::across)
        .def_readonly("lines_apart", &Passes::lines_apart)
        .def_readonly("closing", &Passes::closing)
        .def_property_readonly("limited_by", [](const Passes& self) { return enum_name(self.limited_by); })
        .def_property_readonly(
            "prices",
            [](const Passes& self) {
                py::list out;
                for (const LimitPrice& each : self.prices) {
                    out.append(py::make_tuple(enum_name(each.code), each.saved_s));
                }
                return out;
            },
            "(limit, seconds saved without it) each.")
        .def_property_readonly(
            "gains",
            [](const Passes& self) {
                py::list out;
                for (const Gain& each : self.gains) {
                    out.append(py::make_tuple(enum_name(each.code), each.saved_s));
                }
                return out;
            },
            "(one more thing, seconds that it saves) each; infinite where only it makes an answer.")
        .def_property_readonly(
            "next",
            [](const Passes& self) -> py::object {
                if (std::isnan(self.next.time_s)) {
                    return py::none();
                }
                return py::make_tuple(self.next.time_s, self.next.passes, self.next.spindle_rpm,
                                      self.next.feed_mm_rev);
            },
            "Time, passes, spindle speed and feed of the first pass of the best answer with other levers; "
            "None "
            "where there is none.")
        .def_property_readonly(
            "relaxations",
            [](const Passes& self) {
                py::list out;
                for (const Relaxation& each : self.relaxations) {
                    out.append(py::make_tuple(enum_name(each.code), each.factor));
                }
                return out;
            },
            "(limit, factor that it would have to be relaxed by) each, where there are no passes.")
        .def_readonly("together", &Passes::together);
}

}  // namespace

void bind_choose(py::module_& module) {
    bind_windows(module);
    bind_answer(module);
    module.def(
        "choose_passes",
        [](const std::string& cut, int alloy, const std::string& tool_material, const py::dict& numbers,
           bool single, bool free, const std::string& hold, int chuck, const py::object& hardness_hb,
           int now_spindle, int now_feed, const machine::Machine& machine, const SharedCatalogue& catalogue,
           bool explain) {
            ChooseRequest request;
            request.cut = from_name<ChooseCut>("cut", cut);
            request.work = work_of(alloy, hardness_hb);
            request.tool_material = from_name<ToolMaterial>("tool", tool_material);
            request.single = single;
            request.free = free;
            request.hold = from_name<Hold>("hold", hold);
            request.chuck = chuck;
            request.now_spindle = now_spindle;
            request.now_feed = now_feed;
            set_numbers(request, numbers, kChooseArguments);
            const py::gil_scoped_release release;
            return choose(catalogue.get(), machine, request, explain);
        },
        py::arg("cut"), py::arg("alloy"), py::arg("tool_material"), py::arg("numbers"), py::arg("single"),
        py::arg("free"), py::arg("hold"), py::arg("chuck"), py::arg("hardness_hb"), py::arg("now_spindle"),
        py::arg("now_feed"), py::arg("machine"), py::arg("catalogue"), py::arg("explain"),
        "The fastest passes within every limit. `numbers` are those of the core's ChooseRequest, by name; "
        "None is "
        "not given.");
}

}  // namespace halfnut::bind
