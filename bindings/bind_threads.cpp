// Threads: designations, limits of size, and the profile's formulas.

#include <fmt/format.h>
#include <pybind11/stl.h>

#include <memory>
#include <vector>

#include "bind.hpp"
#include "figures.hpp"
#include "halfnut/threads/limits.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/series.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;
using namespace threads;

namespace {

Side side_from(const std::string& name) {
    if (name == "external") {
        return Side::external;
    }
    if (name == "internal") {
        return Side::internal;
    }
    throw DomainError(fmt::format("side must be 'external' or 'internal', got '{}'", name));
}

UnifiedRule rule_from(const std::string& name) {
    if (name == "current") {
        return UnifiedRule::current;
    }
    if (name == "handbook") {
        return UnifiedRule::handbook;
    }
    throw DomainError(fmt::format("rule must be 'current' or 'handbook', got '{}'", name));
}

const char* rule_name(UnifiedRule rule) {
    return rule == UnifiedRule::current ? "current" : "handbook";
}

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

constexpr std::array<std::pair<LimitCaution, const char*>, 9> kCautionNames{{
    {LimitCaution::not_tabulated, "not_tabulated"},
    {LimitCaution::not_provided, "not_provided"},
    {LimitCaution::engagement_class, "engagement_class"},
    {LimitCaution::special_engagement, "special_engagement"},
    {LimitCaution::toleranced_as_series, "toleranced_as_series"},
    {LimitCaution::not_in_series, "not_in_series"},
    {LimitCaution::multi_start, "multi_start"},
    {LimitCaution::doubtful_position, "doubtful_position"},
    {LimitCaution::mixed_positions, "mixed_positions"},
}};

std::vector<std::string> caution_names(const ThreadLimits& limits) {
    std::vector<std::string> names;
    for (const auto& [caution, name] : kCautionNames) {
        if (limits.has(caution)) {
            names.emplace_back(name);
        }
    }
    return names;
}

/// A tolerance in the standard's unit: whole micrometres, or millionths of an inch.
double tolerance(const ThreadLimits& limits, std::int32_t units) {
    return units / (limits.inch() ? 1e6 : 1e3);
}

LimitOptions options(const std::string& rule, const py::object& engagement_mm) {
    return {.rule = rule_from(rule),
            .engagement_mm = engagement_mm.is_none() ? kNaN : py::cast<double>(engagement_mm)};
}

/// Columns of limits for many designations; a row that fails has NaN everywhere and a status.
class LimitColumns {
   public:
    explicit LimitColumns(std::size_t rows) : rows_(rows) {
        for (std::vector<double>& column : columns_) {
            column.assign(rows, kNaN);
        }
        status_.assign(rows, 0);
        inch_.assign(rows, 0);
    }

    void set(std::size_t row, const ThreadLimits& limits) {
        inch_[row] = limits.inch() ? 1 : 0;
        for (std::size_t i = 0; i < kNames; ++i) {
            const auto limit = static_cast<Limit>(i);
            columns_[i][row] = limits.mm(limit);
            columns_[kNames + i][row] = limits.in(limit);
        }
    }
    void fail(std::size_t row, StatusCode code) { status_[row] = static_cast<std::uint8_t>(code); }

    py::dict dict() && {
        py::dict out;
        for (std::size_t i = 0; i < 2 * kNames; ++i) {
            const std::string name =
                std::string(kThreadLimitFigures[i % kNames]) + (i < kNames ? "_mm" : "_in");
            out[py::str(name)] = owned(std::move(columns_[i]));
        }
        py::list units;
        for (std::size_t row = 0; row < rows_; ++row) {
            units.append(status_[row] != 0 ? "" : inch_[row] != 0 ? "in" : "mm");
        }
        out["native_unit"] = py::module_::import("numpy").attr("array")(units, py::arg("dtype") = "U2");
        out["status"] = owned(std::move(status_));
        return out;
    }

   private:
    static constexpr std::size_t kNames = 6;  // major_max ... minor_min

    template <class T>
    static py::array_t<T> owned(std::vector<T>&& column) {
        auto keeper = std::make_unique<std::vector<T>>(std::move(column));
        const T* data = keeper->data();
        const auto size = static_cast<py::ssize_t>(keeper->size());
        const py::capsule owner(keeper.release(),
                                [](void* pointer) { delete static_cast<std::vector<T>*>(pointer); });
        return py::array_t<T>(size, data, owner);
    }

    std::size_t rows_;
    std::array<std::vector<double>, 2 * kNames> columns_;
    std::vector<std::uint8_t> status_;
    std::vector<std::uint8_t> inch_;
};

py::dict limit_columns(const py::iterable& designations, const SharedCatalogue& catalogue,
                       const std::string& rule, const Doubles& engagement_mm, const std::string& on_error) {
    const bool raise = raises_on_error(on_error);
    std::vector<std::string> texts;
    for (const py::handle item : designations) {
        texts.push_back(py::cast<std::string>(item));
    }
    const auto count = static_cast<std::size_t>(engagement_mm.size());
    if (count > 1 && count != texts.size()) {
        throw DomainError(
            fmt::format("engagement_mm has {} values for {} designations", count, texts.size()));
    }
    const double* lengths = engagement_mm.data();
    const UnifiedRule decimal_rule = rule_from(rule);
    LimitColumns columns(texts.size());
    std::size_t failed = 0;
    std::size_t first = 0;
    std::string why;
    const auto run = [&] {
        for (std::size_t row = 0; row < texts.size(); ++row) {
            Thread thread;
            ThreadLimits limits;
            DesignationProblem problem;
            std::string reason;
            Status status = read_thread(texts[row], catalogue.get(), thread, &problem);
            if (status.ok()) {
                const double length = count == 0 ? kNaN : lengths[count == 1 ? 0 : row];
                status = evaluate(catalogue.get(), thread, {.rule = decimal_rule, .engagement_mm = length},
                                  limits, &reason);
            } else {
                reason = fmt::format("cannot read '{}' at position {}: {}", texts[row], problem.position + 1,
                                     problem.message);
            }
            if (status.ok()) {
                columns.set(row, limits);
            } else {
                columns.fail(row, status.code);
                if (failed++ == 0) {
                    first = row;
                    why = reason;
                }
            }
        }
    };
    {
        const py::gil_scoped_release release;
        run();
    }
    if (raise && failed > 0) {
        throw DomainError(
            fmt::format("{} at index {} ({} of {} designations failed)", why, first, failed, texts.size()));
    }
    return std::move(columns).dict();
}

}  // namespace

void bind_threads(py::module_& module) {
    level1<TriangleHeight>(module, "Height of the fundamental triangle, H = (sqrt 3 / 2) P, mm.");
    level1<BasicPitchDiameter>(module, "Basic pitch diameter, unrounded, d2 = d - 3 H / 4, mm.");
    level1<BasicMinorDiameter>(module, "Basic minor diameter, unrounded, d1 = d - 5 H / 4, mm.");
    level1<RootDiameter>(module, "Root of the design profile, unrounded, d3 = d - 17 H / 12, mm.");
    level1<StressDiameter>(module, "Diameter of the stress area, (d2 + d3) / 2, mm.");
    level1<LeadAngle>(module, "Lead angle at the pitch diameter, tan L = lead / (pi d2), deg.");

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
            "part", [](const Thread& t, const std::string& side) { return t.part(side_from(side)); },
            py::arg("side"))
        .def("__str__", &format_thread)
        .def("__repr__", [](const Thread& t) { return "Thread('" + format_thread(t) + "')"; })
        .def(
            "__eq__", [](const Thread& a, const Thread& b) { return a == b; }, py::is_operator())
        .def("__hash__", [](const Thread& t) { return py::hash(py::str(format_thread(t))); })
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
        .def_property_readonly(
            "side", [](const ThreadLimits& l) { return l.side == Side::external ? "external" : "internal"; })
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
        .def_property_readonly("cautions", &caution_names)
        .def(
            "evidence",
            [](const ThreadLimits& l, const SharedCatalogue& catalogue) {
                return evidence_list(l.evidence.items(), kThreadLimitFigures, catalogue.get());
            },
            py::arg("catalogue"));

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
            return limits(catalogue.get(), thread, options(rule, engagement_mm));
        },
        py::arg("thread"), py::arg("catalogue"), py::arg("rule") = rule_name(UnifiedRule::current),
        py::arg("engagement_mm") = py::none(), "Limits of one part of a thread.");
    module.def("thread_limit_columns", &limit_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("rule") = "current", py::arg("engagement_mm") = py::array_t<double>(0),
               py::arg("on_error") = "raise",
               "Columns of limits for many designations, with a status a row.");

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
