// Threads of any form by their designations.

#include <fmt/format.h>

#include <memory>
#include <vector>

#include "convert.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/series.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

const Thread* own_of(const AnyThread& thread) {
    return std::get_if<Thread>(&thread);
}
const FormThread* form_of(const AnyThread& thread) {
    return std::get_if<FormThread>(&thread);
}

std::string classes_text(const AnyThread& thread) {
    const std::string outside = class_of(thread, Side::external);
    const std::string inside = class_of(thread, Side::internal);
    const Thread* const own = own_of(thread);
    return own != nullptr                        ? class_text(*own)
           : outside == inside || inside.empty() ? outside
           : outside.empty()                     ? inside
                                                 : inside + "/" + outside;
}

AnyThread part_of_side(const AnyThread& thread, Side side) {
    const FormThread* const form = form_of(thread);
    return form != nullptr ? AnyThread(form_part(*form, side))
                           : AnyThread(std::get<Thread>(thread).part(side));
}

py::tuple thread_state(const AnyThread& thread) {
    return py::make_tuple(format_any_thread(thread), class_of(thread, Side::external),
                          class_of(thread, Side::internal));
}

AnyThread thread_made(const py::tuple& state) {
    AnyThread out = parse_any_thread(held<std::string>(state, 0), SharedCatalogue().get());
    if (FormThread* const form = std::get_if<FormThread>(&out)) {
        form->external_class = held<std::string>(state, 1);
        form->internal_class = held<std::string>(state, 2);
    }
    return out;
}

}  // namespace

void bind_threads(py::module_& module) {
    const auto side_of = [](const std::string& side) { return from_name<Side>("side", side); };
    py::class_<AnyThread>(module, "Thread",
                          "A designated thread of any form; str() is its canonical designation.")
        .def_property_readonly(
            "system",
            [](const AnyThread& t) -> std::string {
                const FormThread* const form = form_of(t);
                return form != nullptr ? form->form : is_inch(t) ? "Unified" : "ISO metric";
            })
        .def_property_readonly(
            "form",
            [](const AnyThread& t) { return form_of(t) != nullptr ? form_of(t)->form : std::string(); },
            "Of a form beside ISO metric and Unified; empty for those.")
        .def_property_readonly("unit", [](const AnyThread& t) { return is_inch(t) ? "in" : "mm"; })
        .def_property_readonly("series",
                               [](const AnyThread& t) {
                                   const Thread* const own = own_of(t);
                                   return own != nullptr && own->inch() ? std::string(enum_name(own->series))
                                                                        : std::string();
                               })
        .def_property_readonly("size",
                               [](const AnyThread& t) {
                                   return form_of(t) != nullptr ? form_of(t)->size : size_text(*own_of(t));
                               })
        .def_property_readonly(
            "prefix", [](const AnyThread& t) { return form_of(t) != nullptr ? form_of(t)->prefix : ""; })
        .def_property_readonly("tolerance_class", &classes_text)
        .def_property_readonly("external_class",
                               [](const AnyThread& t) { return class_of(t, Side::external); })
        .def_property_readonly("internal_class",
                               [](const AnyThread& t) { return class_of(t, Side::internal); })
        .def_property_readonly("root",
                               [](const AnyThread& t) {
                                   const Thread* const own = own_of(t);
                                   return own == nullptr || own->form == Form::plain ? "plain"
                                          : own->form == Form::rounded_root          ? "rounded root"
                                                                                     : "controlled root";
                               })
        .def_property_readonly("hand", [](const AnyThread& t) { return is_left_hand(t) ? "left" : "right"; })
        .def_property_readonly("starts", [](const AnyThread& t) { return starts(t); })
        .def_property_readonly("engagement_group",
                               [](const AnyThread& t) {
                                   return own_of(t) != nullptr ? enum_name(own_of(t)->group)
                                                               : std::string_view();
                               })
        .def_property_readonly(
            "engagement_mm",
            [](const AnyThread& t) {
                return number_or_none(own_of(t) != nullptr ? own_of(t)->engagement_mm() : kNaN);
            })
        .def_property_readonly("diameter_mm", [](const AnyThread& t) { return diameter_mm(t); })
        .def_property_readonly("diameter_in",
                               [](const AnyThread& t) {
                                   return own_of(t) != nullptr ? own_of(t)->diameter_in()
                                          : is_inch(t)         ? form_of(t)->diameter
                                                               : diameter_mm(t) / kInchMm;
                               })
        .def_property_readonly("pitch_mm", [](const AnyThread& t) { return pitch_mm(t); })
        .def_property_readonly("pitch_in",
                               [](const AnyThread& t) {
                                   return own_of(t) != nullptr ? own_of(t)->pitch_in()
                                          : is_inch(t)         ? form_of(t)->pitch
                                                               : pitch_mm(t) / kInchMm;
                               })
        .def_property_readonly("lead_mm", [](const AnyThread& t) { return starts(t) * pitch_mm(t); })
        .def_property_readonly("lead_in",
                               [](const AnyThread& t) {
                                   return own_of(t) != nullptr ? own_of(t)->lead_in()
                                          : is_inch(t)         ? form_of(t)->starts * form_of(t)->pitch
                                                               : starts(t) * pitch_mm(t) / kInchMm;
                               })
        .def_property_readonly("tpi",
                               [](const AnyThread& t) {
                                   const double tpi =
                                       own_of(t) != nullptr ? own_of(t)->tpi() : form_of(t)->tpi;
                                   return number_or_none(tpi == 0.0 ? kNaN : tpi);
                               })
        .def_property_readonly("tapers", [](const AnyThread& t) { return tapers(t); })
        .def_property_readonly("pipe",
                               [](const AnyThread& t) { return form_of(t) != nullptr && form_of(t)->pipe(); })
        .def_property_readonly(
            "lead_screw", [](const AnyThread& t) { return form_of(t) != nullptr && form_of(t)->lead_screw; })
        .def_property_readonly("has_external",
                               [](const AnyThread& t) { return has_class(t, Side::external); })
        .def_property_readonly("has_internal",
                               [](const AnyThread& t) { return has_class(t, Side::internal); })
        .def_property_readonly(
            "external", [](const AnyThread& t) { return part_of_side(t, Side::external); },
            "The external part alone, with the class that is meant where none is given.")
        .def_property_readonly(
            "internal", [](const AnyThread& t) { return part_of_side(t, Side::internal); },
            "The internal part alone, with the class that is meant where none is given.")
        .def(
            "part",
            [side_of](const AnyThread& t, const std::string& side) { return part_of_side(t, side_of(side)); },
            py::arg("side"), "One part alone, with the class that is meant where none is given.")
        .def(
            "mate",
            [side_of](const AnyThread& t, const std::string& side) { return mate(t, side_of(side)).thread; },
            py::arg("side"), "The part that goes with it, of the class that goes with its own.")
        .def("__str__", &format_any_thread)
        .def("__repr__", [](const AnyThread& t) { return "Thread('" + format_any_thread(t) + "')"; })
        .def(
            "__eq__", [](const AnyThread& a, const AnyThread& b) { return a == b; }, py::is_operator())
        .def("__hash__", [](const AnyThread& t) { return py::hash(py::str(format_any_thread(t))); })
        .def("__dask_tokenize__",
             [](const AnyThread& t) { return py::make_tuple("Thread", thread_state(t)); })
        .def(py::pickle(&thread_state, &thread_made));
    module.def(
        "parse_thread",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return parse_any_thread(text, catalogue.get());
        },
        py::arg("text"), py::arg("catalogue"), "Read a thread designation of any form.");
}

}  // namespace halfnut::bind
