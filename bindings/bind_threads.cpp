// Threads of any form: designations, limits of one part, taper pipe threads; what is near, what a found part
// may be.

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

constexpr std::size_t kSizes = 6;  // of the figures of limits those that every form has

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

std::optional<Side> side_or_none(const std::optional<std::string>& side) {
    return side ? std::optional(from_name<Side>("side", *side)) : std::nullopt;
}

ThreadPart part_meant(const AnyThread& thread, const std::optional<std::string>& side) {
    ThreadPart part;
    std::string why;
    if (!one_part(thread, side_or_none(side), part, &why).ok()) {
        throw DomainError(why);
    }
    return part;
}

/// A tolerance in the standard's own unit; None where the standard sets no such one.
template <class Get>
py::object own_tolerance(const PartLimits& limits, double places, Get get) {
    const ThreadLimits* const own = std::get_if<ThreadLimits>(&limits.standard);
    const std::int32_t value = own == nullptr ? 0 : get(*own);
    return value == 0 ? py::object(py::none()) : py::object(py::float_(value / (limits.inch ? places : 1e3)));
}

double native(const PartLimits& limits, double mm) {
    return limits.inch ? mm / kInchMm : mm;
}

double pitch_tolerance(const PartLimits& limits) {
    const ThreadLimits* const own = std::get_if<ThreadLimits>(&limits.standard);
    const FormLimits* const form = std::get_if<FormLimits>(&limits.standard);
    return own != nullptr    ? own->pitch_tolerance / (own->inch() ? 1e6 : 1e3)
           : form != nullptr ? form->pitch_tolerance
                             : native(limits, limits.pitch_tolerance_mm);
}

double allowance(const PartLimits& limits) {
    const ThreadLimits* const own = std::get_if<ThreadLimits>(&limits.standard);
    const FormLimits* const form = std::get_if<FormLimits>(&limits.standard);
    return own != nullptr    ? std::abs(own->deviation / (own->inch() ? 1e4 : 1e3))
           : form != nullptr ? form->allowance
                             : native(limits, limits.allowance_mm);
}

py::dict geometry(const PartLimits& limits, const SharedCatalogue& shared) {
    const Catalogue& catalogue = shared.get();
    const FormThread* const form = limits.part ? form_of(limits.part->thread) : nullptr;
    const bool own = limits.part && form == nullptr;
    const double pitch = limits.sizes.pitch_mm;
    py::dict out;
    double root_radius = 0.0;
    double crest_flat = own ? pitch / 8.0 : kNaN;
    double minor = own ? BasicMinorDiameter::compute(limits.diameter_mm(), pitch) : kNaN;
    if (form != nullptr) {
        const ThreadFormRow& row = form_row(catalogue, *form);
        out["form"] = std::string(form->parallel_internal() ? "parallel pipe" : row.name);
        root_radius = row.root_radius * pitch;
        crest_flat = row.crest_flat * pitch;
        minor = basic_minor_diameter_mm(catalogue, *form);
    } else {
        out["form"] = !own ? "" : limits.inch ? "Unified" : "ISO metric";
    }
    out["basic_pitch_mm"] = basic_pitch_mm(catalogue, limits);
    out["basic_minor_mm"] = number_or_none(minor);
    out["root_radius_mm"] = root_radius;
    out["crest_flat_mm"] = number_or_none(crest_flat);
    return out;
}

/// The part of a fit: measured sizes in place of limits.
FitPart fit_part_of(const PartLimits& limits, const BuildUp& build_up, const std::optional<double>& pitch_mm,
                    const std::optional<double>& major_mm, const std::optional<double>& minor_mm,
                    double lead_error_mm, double temperature_c, double expansion_um_m_k) {
    FitPart part = limits.sizes;
    part.build_up = build_up;
    const auto measured = [](SizeRange& range, std::string_view argument, const std::optional<double>& size) {
        if (size) {
            range = {given_or_lacking(argument, size), *size};
        }
    };
    measured(part.pitch, "pitch_mm", pitch_mm);
    measured(part.major, "major_mm", major_mm);
    measured(part.minor, "minor_mm", minor_mm);
    part.lead_error_mm = lead_error_mm;
    part.temperature_c = temperature_c;
    part.expansion_um_m_k = expansion_um_m_k;
    return part;
}

using Ends = std::pair<std::optional<double>, std::optional<double>>;

PartLimits limits_by_sizes(const std::string& name, const std::string& side, const std::string& unit,
                           double pitch_mm, int starts, double half_angle_deg, const std::string& hand,
                           const Ends& major_mm, const Ends& pitch_diameter_mm, const Ends& minor_mm) {
    const auto range = [](const Ends& ends) {
        return SizeRange{ends.first.value_or(kNaN), ends.second.value_or(kNaN)};
    };
    FitPart sizes;
    sizes.major = range(major_mm);
    sizes.pitch = range(pitch_diameter_mm);
    sizes.minor = range(minor_mm);
    sizes.pitch_mm = pitch_mm;
    sizes.starts = starts;
    sizes.half_angle_deg = half_angle_deg;
    sizes.left_hand = hand == "left";
    return sized_limits(sizes, from_name<Side>("side", side), unit == "in", name);
}

py::object gauge_dict(const PartLimits& limits) {
    const ThreadLimits* const own = std::get_if<ThreadLimits>(&limits.standard);
    if (own == nullptr) {
        throw NotTabulatedError(fmt::format(
            "{}: gauges are answered for ISO metric and Unified threads; go and not-go are these limits",
            limits.title()));
    }
    const GaugeSizes sizes = gauge_sizes(*own);
    return figures_by_name(
        std::array<std::string_view, 5>{"go_pitch", "go_crest", "not_go_pitch", "plain_go", "plain_not_go"},
        std::array{sizes.native(sizes.go_pitch), sizes.native(sizes.go_crest),
                   sizes.native(sizes.not_go_pitch), sizes.native(sizes.plain_go),
                   sizes.native(sizes.plain_not_go)});
}

py::tuple evidence_state(std::span<const EvidenceItem> items) {
    py::list out;
    for (const EvidenceItem& item : items) {
        out.append(py::make_tuple(item.figure, item.rule.domain, item.rule.place, item.row.table,
                                  item.row.row, item.row.source));
    }
    return py::tuple(out);
}

template <std::size_t N>
void take_evidence(const py::tuple& state, Evidence<N>& out) {
    for (const py::handle item : state) {
        const auto i = py::cast<py::tuple>(item);
        out.note(held<std::uint8_t>(i, 0), {held<std::uint8_t>(i, 1), held<std::uint16_t>(i, 2)},
                 {held<std::uint8_t>(i, 3), held<std::uint16_t>(i, 4), held<std::uint8_t>(i, 5)});
    }
}

py::tuple standard_state(const PartLimits& limits) {
    if (const ThreadLimits* const l = std::get_if<ThreadLimits>(&limits.standard)) {
        return py::make_tuple(static_cast<int>(l->system), enum_name(l->side),
                              py::tuple(py::cast(l->figures)), l->deviation, l->pitch_tolerance,
                              l->crest_tolerance, l->root_radius_min, static_cast<int>(l->group),
                              number_or_none(l->engagement_over), number_or_none(l->engagement_up_to),
                              l->cautions, evidence_state(l->evidence.items()));
    }
    if (const FormLimits* const l = std::get_if<FormLimits>(&limits.standard)) {
        return py::make_tuple(enum_name(l->side), l->inch, py::tuple(py::cast(l->figures)), l->allowance,
                              l->pitch_tolerance, evidence_state(l->evidence.items()));
    }
    return py::tuple();
}

void take_standard(const py::tuple& s, PartLimits& out) {
    constexpr std::size_t kOfForm = 6;
    if (s.empty()) {
        return;
    }
    if (s.size() == kOfForm) {
        FormLimits& l = out.standard.emplace<FormLimits>();
        l.side = from_name<Side>("side", held<std::string>(s, 0));
        l.inch = held<bool>(s, 1);
        l.figures = held<std::array<std::int32_t, kSizes>>(s, 2);
        l.allowance = held<double>(s, 3);
        l.pitch_tolerance = held<double>(s, 4);
        take_evidence(held<py::tuple>(s, 5), l.evidence);
        return;
    }
    ThreadLimits& l = out.standard.emplace<ThreadLimits>();
    l.system = static_cast<System>(held<int>(s, 0));
    l.side = from_name<Side>("side", held<std::string>(s, 1));
    l.figures = held<std::array<std::int32_t, kLimits>>(s, 2);
    l.deviation = held<std::int32_t>(s, 3);
    l.pitch_tolerance = held<std::int32_t>(s, 4);
    l.crest_tolerance = held<std::int32_t>(s, 5);
    l.root_radius_min = held<std::int32_t>(s, 6);
    l.group = static_cast<EngagementGroup>(held<int>(s, 7));
    l.engagement_over = number_held(s, 8);
    l.engagement_up_to = number_held(s, 9);
    l.cautions = held<std::uint16_t>(s, 10);
    take_evidence(held<py::tuple>(s, 11), l.evidence);
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

template <class Numbers>
py::tuple numbers_state(const Numbers& numbers) {
    py::list out;
    for (const double each : numbers) {
        out.append(number_or_none(each));
    }
    return py::tuple(out);
}

constexpr std::array<std::string_view, 6> kCoatingNames{"allowance_um",         "pitch_change_um",
                                                        "greatest_build_up_um", "go_after_pitch_mm",
                                                        "go_after_crest_mm",    "not_go_after_pitch_mm"};

std::array<double, 6> coating_numbers(const BeforeCoating& c) {
    return {c.allowance_um,      c.pitch_change_um,   c.greatest_build_up_um,
            c.go_after_pitch_mm, c.go_after_crest_mm, c.not_go_after_pitch_mm};
}

py::object coating_of(const PartLimits& limits) {
    if (!limits.coating) {
        return py::none();
    }
    const BeforeCoating& c = *limits.coating;
    py::dict out = figures_by_name(kCoatingNames, coating_numbers(c));
    out["way"] = text(enum_name(c.way));
    out["build_up"] = py::cast(c.build_up);
    out["position"] = c.position.empty() ? py::object(py::none()) : py::object(py::str(c.position));
    return out;
}

py::tuple coating_state(const PartLimits& limits) {
    if (!limits.coating) {
        return py::tuple();
    }
    const BeforeCoating& c = *limits.coating;
    return py::make_tuple(enum_name(c.way), py::cast(c.build_up), numbers_state(coating_numbers(c)),
                          c.position, evidence_state(c.evidence.items()));
}

void take_coating(const py::tuple& s, PartLimits& out) {
    if (s.empty()) {
        return;
    }
    const auto numbers = held<py::tuple>(s, 2);
    const auto number = [&numbers](std::size_t place) { return number_held(numbers, place); };
    BeforeCoating& c = out.coating.emplace();
    c.way = from_name<PrecoatWay>("way", held<std::string>(s, 0));
    c.build_up = held<BuildUp>(s, 1);
    c.allowance_um = number(0);
    c.pitch_change_um = number(1);
    c.greatest_build_up_um = number(2);
    c.go_after_pitch_mm = number(3);
    c.go_after_crest_mm = number(4);
    c.not_go_after_pitch_mm = number(5);
    c.position = held<std::string>(s, 3);
    take_evidence(held<py::tuple>(s, 4), c.evidence);
}

/// What limits are: their part, their sizes, and what the standard says of them.
py::tuple limits_state(const PartLimits& l) {
    const py::object part = l.part
                                ? py::object(py::make_tuple(thread_state(l.part->thread),
                                                            enum_name(l.part->side), l.part->class_assumed))
                                : py::object(py::none());
    const FitPart& p = l.sizes;
    return py::make_tuple(
        part, l.name, enum_name(l.side), l.inch,
        numbers_state(std::array{p.major.min_mm, p.major.max_mm, p.pitch.min_mm, p.pitch.max_mm,
                                 p.minor.min_mm, p.minor.max_mm, p.pitch_mm, p.half_angle_deg}),
        p.starts, p.left_hand, enum_name(l.options.rule), number_or_none(l.options.engagement_mm),
        number_or_none(l.allowance_mm), number_or_none(l.pitch_tolerance_mm), numbers_state(l.mm),
        numbers_state(l.in), standard_state(l), coating_state(l));
}

PartLimits limits_made(const py::tuple& s) {
    PartLimits out;
    if (!s[0].is_none()) {
        const auto part = held<py::tuple>(s, 0);
        out.part = ThreadPart{thread_made(held<py::tuple>(part, 0)),
                              from_name<Side>("side", held<std::string>(part, 1)), held<bool>(part, 2)};
    }
    out.name = held<std::string>(s, 1);
    out.side = from_name<Side>("side", held<std::string>(s, 2));
    out.inch = held<bool>(s, 3);
    const auto sizes = held<py::tuple>(s, 4);
    const auto size = [&sizes](std::size_t place) { return number_held(sizes, place); };
    out.sizes.major = {size(0), size(1)};
    out.sizes.pitch = {size(2), size(3)};
    out.sizes.minor = {size(4), size(5)};
    out.sizes.pitch_mm = size(6);
    out.sizes.half_angle_deg = size(7);
    out.sizes.starts = held<int>(s, 5);
    out.sizes.left_hand = held<bool>(s, 6);
    out.options = {.rule = from_name<UnifiedRule>("rule", held<std::string>(s, 7)),
                   .engagement_mm = number_held(s, 8)};
    out.allowance_mm = number_held(s, 9);
    out.pitch_tolerance_mm = number_held(s, 10);
    for (std::size_t i = 0; i < kSizes; ++i) {
        out.mm[i] = number_held(held<py::tuple>(s, 11), i);
        out.in[i] = number_held(held<py::tuple>(s, 12), i);
    }
    take_standard(held<py::tuple>(s, 13), out);
    take_coating(held<py::tuple>(s, 14), out);
    return out;
}

void bind_thread(py::module_& module) {
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
    module.def(
        "one_part",
        [](const AnyThread& thread, const std::optional<std::string>& side) {
            const ThreadPart part = part_meant(thread, side);
            return py::make_tuple(part.thread, enum_name(part.side), part_title(part));
        },
        py::arg("thread"), py::arg("side") = py::none(),
        "The part of a thread that is meant, its side, and how answers call it.");
}

void bind_limits(py::module_& module) {
    py::class_<PartLimits> limits_class(module, "PartLimits",
                                        "Limits of one part of a thread of any form, or of a part by its "
                                        "sizes alone. A limit without a suffix is in "
                                        "the standard's own unit.");
    def_value<PartLimits>(limits_class, &limits_state, &limits_made);
    for (std::size_t i = 0; i < kSizes; ++i) {
        const std::string name(kThreadLimitFigures[i]);
        limits_class.def_property_readonly(
            name.c_str(), [i](const PartLimits& l) { return number_or_none(l.inch ? l.in[i] : l.mm[i]); });
        limits_class.def_property_readonly((name + "_mm").c_str(),
                                           [i](const PartLimits& l) { return number_or_none(l.mm[i]); });
        limits_class.def_property_readonly((name + "_in").c_str(),
                                           [i](const PartLimits& l) { return number_or_none(l.in[i]); });
    }
    for (std::size_t i = kSizes; i < kLimits; ++i) {
        limits_class.def_property_readonly(
            std::string(kThreadLimitFigures[i]).c_str(),
            [limit = static_cast<Limit>(i)](const PartLimits& l) {
                const ThreadLimits* const own = std::get_if<ThreadLimits>(&l.standard);
                return number_or_none(own == nullptr ? kNaN : own->native(limit));
            });
    }
    limits_class
        .def_property_readonly(
            "thread",
            [](const PartLimits& l) { return l.part ? py::cast(l.part->thread) : py::object(py::none()); })
        .def_property_readonly("title", &PartLimits::title)
        .def_property_readonly("side", [](const PartLimits& l) { return enum_name(l.side); })
        .def_property_readonly("unit", [](const PartLimits& l) { return l.inch ? "in" : "mm"; })
        .def_property_readonly(
            "tolerance_class",
            [](const PartLimits& l) { return l.part ? class_of(l.part->thread, l.side) : std::string(); })
        .def_property_readonly("class_assumed",
                               [](const PartLimits& l) { return l.part && l.part->class_assumed; })
        .def_property_readonly("by_form", &PartLimits::by_form,
                               "Of a form beside ISO metric and Unified, or of sizes alone.")
        .def_property_readonly("pitch_mm", [](const PartLimits& l) { return l.sizes.pitch_mm; })
        .def_property_readonly("starts", [](const PartLimits& l) { return l.sizes.starts; })
        .def_property_readonly("lead_mm",
                               [](const PartLimits& l) { return l.sizes.starts * l.sizes.pitch_mm; })
        .def_property_readonly("hand",
                               [](const PartLimits& l) { return l.sizes.left_hand ? "left" : "right"; })
        .def_property_readonly("half_angle_deg", [](const PartLimits& l) { return l.sizes.half_angle_deg; })
        .def_property_readonly("diameter_mm", &PartLimits::diameter_mm)
        .def_property_readonly("allowance", [](const PartLimits& l) { return number_or_none(allowance(l)); })
        .def_property_readonly("allowance_mm",
                               [](const PartLimits& l) { return number_or_none(l.allowance_mm); })
        .def_property_readonly("pitch_tolerance",
                               [](const PartLimits& l) { return number_or_none(pitch_tolerance(l)); })
        .def_property_readonly("pitch_tolerance_mm",
                               [](const PartLimits& l) { return number_or_none(l.pitch_tolerance_mm); })
        .def_property_readonly("crest_tolerance",
                               [](const PartLimits& l) {
                                   return own_tolerance(
                                       l, 1e6, [](const ThreadLimits& own) { return own.crest_tolerance; });
                               })
        .def_property_readonly("root_radius_min",
                               [](const PartLimits& l) {
                                   return own_tolerance(
                                       l, 1e4, [](const ThreadLimits& own) { return own.root_radius_min; });
                               })
        .def_property_readonly("engagement_group",
                               [](const PartLimits& l) {
                                   const ThreadLimits* const own = std::get_if<ThreadLimits>(&l.standard);
                                   return own == nullptr ? std::string_view() : enum_name(own->group);
                               })
        .def_property_readonly("engagement_over",
                               [](const PartLimits& l) {
                                   const ThreadLimits* const own = std::get_if<ThreadLimits>(&l.standard);
                                   return number_or_none(own == nullptr ? kNaN : own->engagement_over);
                               })
        .def_property_readonly("engagement_up_to",
                               [](const PartLimits& l) {
                                   const ThreadLimits* const own = std::get_if<ThreadLimits>(&l.standard);
                                   return number_or_none(own == nullptr ? kNaN : own->engagement_up_to);
                               })
        .def_property_readonly("coating", &coating_of, "What limits before coating are made for; None else.")
        .def("geometry", &geometry, py::arg("catalogue"),
             "The form's name, its basic diameters, radius of the root and flat of the crest, mm.")
        .def("gauges", &gauge_dict, "What the gauges for a part are made to, before gauge tolerances.")
        .def(
            "cautions",
            [](const PartLimits& l, const SharedCatalogue& catalogue) {
                return limit_cautions(catalogue.get(), l);
            },
            py::arg("catalogue"), "What to know about these limits, by code.")
        .def("part", &fit_part_of, py::arg("build_up"), py::kw_only(), py::arg("pitch_mm") = py::none(),
             py::arg("major_mm") = py::none(), py::arg("minor_mm") = py::none(),
             py::arg("lead_error_mm") = 0.0, py::arg("temperature_c") = 20.0,
             py::arg("expansion_um_m_k") = 0.0,
             "The part of a fit; what was measured stands in place of limits.")
        .def(
            "evidence",
            [](const PartLimits& l, const SharedCatalogue& catalogue) {
                return evidence_of(catalogue.get(), l);
            },
            py::arg("catalogue"), "What each figure rests on.");
    module.def(
        "thread_limits",
        [](const AnyThread& thread, const SharedCatalogue& catalogue, const std::optional<std::string>& side,
           const std::string& rule, const std::optional<double>& engagement_mm) {
            return limits(catalogue.get(), part_meant(thread, side),
                          {.rule = from_name<UnifiedRule>("rule", rule),
                           .engagement_mm = given_or_lacking("engagement_mm", engagement_mm)});
        },
        py::arg("thread"), py::arg("catalogue"), py::arg("side") = py::none(), py::arg("rule") = "printed",
        py::arg("engagement_mm") = py::none(), "Limits of one part of a thread.");
    module.def("sized_limits", &limits_by_sizes, py::arg("name"), py::arg("side"), py::arg("unit"),
               py::arg("pitch_mm"), py::arg("starts"), py::arg("half_angle_deg"), py::arg("hand"),
               py::arg("major_mm"), py::arg("pitch_diameter_mm"), py::arg("minor_mm"),
               "Limits of a part by its sizes alone, each the smallest and the largest, mm.");
}

}  // namespace

void bind_threads(py::module_& module) {
    bind_thread(module);
    bind_limits(module);
}

}  // namespace halfnut::bind
