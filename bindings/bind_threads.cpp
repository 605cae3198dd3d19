// Threads: designations, limits of size, and the profile's formulas.

#include <fmt/format.h>

#include <memory>
#include <vector>

#include "convert.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/series.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

const char* group_name(EngagementGroup group) {
    switch (group) {
        case EngagementGroup::s:
            return "S";
        case EngagementGroup::n:
            return "N";
        case EngagementGroup::l:
            return "L";
        default:
            return "";
    }
}

/// A tolerance in the standard's unit: whole micrometres, or millionths of an inch.
double tolerance(const ThreadLimits& limits, std::int32_t units) {
    return units / (limits.inch() ? 1e6 : 1e3);
}

py::tuple limits_state(const ThreadLimits& l) {
    py::list items;
    for (const EvidenceItem& item : l.evidence.items()) {
        items.append(py::make_tuple(item.figure, item.rule.domain, item.rule.place, item.row.table,
                                    item.row.row, item.row.source));
    }
    return py::make_tuple(static_cast<int>(l.system), enum_name(l.side), py::tuple(py::cast(l.figures)),
                          l.deviation, l.pitch_tolerance, l.crest_tolerance, l.root_radius_min,
                          static_cast<int>(l.group), number_or_none(l.engagement_over),
                          number_or_none(l.engagement_up_to), l.cautions, py::tuple(items));
}

ThreadLimits limits_made(const py::tuple& s) {
    ThreadLimits out{.system = static_cast<System>(held<int>(s, 0)),
                     .side = from_name<Side>("side", held<std::string>(s, 1)),
                     .figures = held<std::array<std::int32_t, kLimits>>(s, 2),
                     .deviation = held<std::int32_t>(s, 3),
                     .pitch_tolerance = held<std::int32_t>(s, 4),
                     .crest_tolerance = held<std::int32_t>(s, 5),
                     .root_radius_min = held<std::int32_t>(s, 6),
                     .group = static_cast<EngagementGroup>(held<int>(s, 7)),
                     .engagement_over = number_held(s, 8),
                     .engagement_up_to = number_held(s, 9),
                     .cautions = held<std::uint16_t>(s, 10),
                     .evidence = {}};
    for (const py::handle item : s[11]) {
        const auto i = py::cast<py::tuple>(item);
        out.evidence.note(held<std::uint8_t>(i, 0), {held<std::uint8_t>(i, 1), held<std::uint16_t>(i, 2)},
                          {held<std::uint8_t>(i, 3), held<std::uint16_t>(i, 4), held<std::uint8_t>(i, 5)});
    }
    return out;
}

LimitOptions limit_options(const std::string& rule, const py::object& engagement_mm) {
    return {.rule = from_name<UnifiedRule>("rule", rule),
            .engagement_mm = engagement_mm.is_none() ? kNaN : py::cast<double>(engagement_mm)};
}

}  // namespace

void bind_threads(py::module_& module) {
    py::class_<Thread>(module, "Thread", "A designated thread; str() is its canonical designation.")
        .def_property_readonly("system", [](const Thread& t) { return t.inch() ? "Unified" : "ISO metric"; })
        .def_property_readonly("unit", [](const Thread& t) { return t.inch() ? "in" : "mm"; })
        .def_property_readonly(
            "series",
            [](const Thread& t) { return t.inch() ? std::string(enum_name(t.series)) : std::string(); })
        .def_property_readonly("size", [](const Thread& t) { return size_text(t); })
        .def_property_readonly("tolerance_class", [](const Thread& t) { return class_text(t); })
        .def_property_readonly("form",
                               [](const Thread& t) {
                                   return t.form == Form::plain          ? "plain"
                                          : t.form == Form::rounded_root ? "rounded root"
                                                                         : "controlled root";
                               })
        .def_property_readonly("hand",
                               [](const Thread& t) { return t.hand == Hand::right ? "right" : "left"; })
        .def_property_readonly("starts", [](const Thread& t) { return static_cast<int>(t.starts); })
        .def_property_readonly("engagement_group", [](const Thread& t) { return group_name(t.group); })
        .def_property_readonly("engagement_mm",
                               [](const Thread& t) { return number_or_none(t.engagement_mm()); })
        .def_property_readonly("diameter_mm", &Thread::diameter_mm)
        .def_property_readonly("diameter_in", &Thread::diameter_in)
        .def_property_readonly("pitch_mm", &Thread::pitch_mm)
        .def_property_readonly("pitch_in", &Thread::pitch_in)
        .def_property_readonly("lead_mm", &Thread::lead_mm)
        .def_property_readonly("lead_in", &Thread::lead_in)
        .def_property_readonly(
            "tpi", [](const Thread& t) { return number_or_none(t.tpi_thousandths == 0 ? kNaN : t.tpi()); })
        .def_property_readonly("has_external", &Thread::has_external)
        .def_property_readonly("has_internal", &Thread::has_internal)
        .def_property_readonly(
            "external", [](const Thread& t) { return t.part(Side::external); },
            "The external part alone, with the class that is meant where none is given.")
        .def_property_readonly(
            "internal", [](const Thread& t) { return t.part(Side::internal); },
            "The internal part alone, with the class that is meant where none is given.")
        .def(
            "part",
            [](const Thread& t, const std::string& side) { return t.part(from_name<Side>("side", side)); },
            py::arg("side"))
        .def("__str__", &format_thread)
        .def("__repr__", [](const Thread& t) { return "Thread('" + format_thread(t) + "')"; })
        .def(
            "__eq__", [](const Thread& a, const Thread& b) { return a == b; }, py::is_operator())
        .def("__hash__", [](const Thread& t) { return py::hash(py::str(format_thread(t))); })
        .def("__dask_tokenize__", [](const Thread& t) { return py::make_tuple("Thread", format_thread(t)); })
        .def(py::pickle([](const Thread& t) { return format_thread(t); },
                        [](const std::string& text) { return parse_thread(text, SharedCatalogue().get()); }));

    py::class_<ThreadLimits> limits_class(module, "LimitFigures",
                                          "Limits of one part of a thread, in its standard's own unit.");
    for (std::size_t i = 0; i < kLimits; ++i) {
        limits_class.def_property_readonly(std::string(kThreadLimitFigures[i]).c_str(),
                                           [limit = static_cast<Limit>(i)](const ThreadLimits& l) {
                                               return number_or_none(l.native(limit));
                                           });
    }
    limits_class.def_property_readonly("unit", [](const ThreadLimits& l) { return l.inch() ? "in" : "mm"; })
        .def_property_readonly("side", [](const ThreadLimits& l) { return enum_name(l.side); })
        .def_property_readonly("deviation",
                               [](const ThreadLimits& l) { return l.deviation / (l.inch() ? 1e4 : 1e3); })
        .def_property_readonly("pitch_tolerance",
                               [](const ThreadLimits& l) { return tolerance(l, l.pitch_tolerance); })
        .def_property_readonly("crest_tolerance",
                               [](const ThreadLimits& l) { return tolerance(l, l.crest_tolerance); })
        .def_property_readonly("root_radius_min",
                               [](const ThreadLimits& l) {
                                   return number_or_none(l.root_radius_min == 0
                                                             ? kNaN
                                                             : l.root_radius_min / (l.inch() ? 1e4 : 1e3));
                               })
        .def_property_readonly("engagement_group", [](const ThreadLimits& l) { return group_name(l.group); })
        .def_property_readonly("engagement_over",
                               [](const ThreadLimits& l) { return number_or_none(l.engagement_over); })
        .def_property_readonly("engagement_up_to",
                               [](const ThreadLimits& l) { return number_or_none(l.engagement_up_to); })
        .def_property_readonly("cautions",
                               [](const ThreadLimits& l) { return cautions_of<LimitCaution>(l); });
    def_evidence(limits_class, kThreadLimitFigures);
    def_value<ThreadLimits>(limits_class, &limits_state, &limits_made);

    module.def(
        "parse_thread",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return parse_thread(text, catalogue.get());
        },
        py::arg("text"), py::arg("catalogue"), "Read a thread designation.");
    module.def(
        "thread_limits",
        [](const Thread& thread, const SharedCatalogue& catalogue, const std::string& rule,
           const py::object& engagement_mm) {
            return limits(catalogue.get(), thread, limit_options(rule, engagement_mm));
        },
        py::arg("thread"), py::arg("catalogue"), py::arg("rule") = "printed",
        py::arg("engagement_mm") = py::none(), "Limits of one part of a thread.");
    module.def(
        "gauge_sizes",
        [](const ThreadLimits& limits) {
            const GaugeSizes sizes = gauge_sizes(limits);
            py::dict out;
            out["go_pitch"] = sizes.native(sizes.go_pitch);
            out["go_crest"] = sizes.native(sizes.go_crest);
            out["not_go_pitch"] = sizes.native(sizes.not_go_pitch);
            out["plain_go"] = sizes.native(sizes.plain_go);
            out["plain_not_go"] = sizes.native(sizes.plain_not_go);
            return out;
        },
        py::arg("limits"), "What the gauges for a part are made to, before gauge tolerances.");
}

}  // namespace halfnut::bind
