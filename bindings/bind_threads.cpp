// Threads of any form, coatings, fits, adjusters and columns.

#include <fmt/format.h>

#include <memory>

#include "convert.hpp"
#include "halfnut/threads/adjuster_questions.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/coating_questions.hpp"
#include "halfnut/threads/column.hpp"
#include "halfnut/threads/column_tables.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/thread_figures.hpp"

namespace halfnut::bind {

using namespace threads;
using namespace pybind11::literals;

namespace {

py::tuple thread_state(py::handle self) {
    const auto& thread = self.cast<const AnyThread&>();
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

void bind_thread(py::module_& module) {
    py::class_<AnyThread> type(module, "Thread",
                               "A designated thread of any form; str() is its canonical designation.");
    const py::handle property(reinterpret_cast<PyObject*>(&PyProperty_Type));
    for (const FigureRow& figure : thread_figures()) {
        const py::cpp_function get([&figure](const AnyThread& self) { return value_of(figure.get(&self)); });
        py::setattr(type, text(figure.key), property(get, "doc"_a = text(figure.about)));
    }
    def_value<AnyThread>(type, &thread_state, &thread_made);
    for (const Side side : {Side::external, Side::internal}) {
        type.def_property_readonly(
            std::string(enum_name(side)).c_str(), [side](const AnyThread& t) { return part_of(t, side); },
            "That part alone, with the class that is meant where none is given.");
    }
    type.def(
            "part",
            [](const AnyThread& t, const std::string& side) {
                return part_of(t, from_name<Side>("side", side));
            },
            "side"_a, "One part alone, with the class that is meant where none is given.")
        .def(
            "mate",
            [](const AnyThread& t, const std::string& side) {
                return mate(t, from_name<Side>("side", side)).thread;
            },
            "side"_a, "The part that goes with it, of the class that goes with its own.")
        .def("__str__", &format_any_thread)
        .def("__repr__", [](const AnyThread& t) { return "Thread('" + format_any_thread(t) + "')"; });
    module.def("parse_thread", &parse_any_thread, "text"_a, "catalogue"_a,
               "Read a thread designation of any form.");
}

// ---- coatings and fits ------------------------------------------------------------------------------------

py::tuple build_up_state(py::handle self) {
    const auto& b = self.cast<const BuildUp&>();
    return py::make_tuple(b.min_um, b.max_um, number_or_none(b.film_min_um), number_or_none(b.film_max_um),
                          static_cast<int>(b.origin), b.maximum_by_rule, b.coating);
}

BuildUp build_up_made(const py::tuple& s) {
    return {held<double>(s, 0),
            held<double>(s, 1),
            number_held(s, 2),
            number_held(s, 3),
            static_cast<BuildUpOrigin>(held<int>(s, 4)),
            held<bool>(s, 5),
            held<std::int16_t>(s, 6)};
}

void bind_coatings(py::module_& module) {
    py::class_<BuildUp> type(module, "BuildUp",
                             "What a coating adds to one surface, from least to most, um.");
    def_value<BuildUp>(type, &build_up_state, &build_up_made);
    type.def(py::init(&build_up_between), "min_um"_a, "max_um"_a)
        .def_readonly("min_um", &BuildUp::min_um)
        .def_readonly("max_um", &BuildUp::max_um)
        .def_property_readonly("film_min_um", [](const BuildUp& b) { return number_or_none(b.film_min_um); })
        .def_property_readonly("film_max_um", [](const BuildUp& b) { return number_or_none(b.film_max_um); })
        .def_property_readonly("bare", &BuildUp::bare)
        .def_readonly("maximum_by_rule", &BuildUp::maximum_by_rule)
        .def_property_readonly("usual", [](const BuildUp& b) { return b.origin == BuildUpOrigin::usual; })
        .def_property_readonly(
            "coating",
            [](const BuildUp& b) { return b.coating < 0 ? std::nullopt : std::optional(int{b.coating}); })
        .def("recoated", &recoated, "strips"_a, "catalogue"_a)
        .def(
            "evidence",
            [](const BuildUp& b, const Catalogue& catalogue) {
                static constexpr std::array<std::string_view, 1> kFigure{"build_up_um"};
                Evidence<4> evidence;
                note_build_up(catalogue, b, 0, evidence);
                return evidence_list(evidence.items(), kFigure, catalogue);
            },
            "catalogue"_a)
        .def("__repr__", [](const BuildUp& b) {
            return fmt::format("<BuildUp {:.4g} to {:.4g} um>", b.min_um, b.max_um);
        });
    module.def("parse_build_up", &parse_build_up, "text"_a, "catalogue"_a, "Read a build-up or a coating.");
}

py::array_t<double> fit_chances(const py::tuple& asked, const Doubles& clearances_mm,
                                const Catalogue& catalogue) {
    Asking asking{catalogue};
    FitRequest request =
        fit_request(*std::static_pointer_cast<const FitAsk>(read_question("fit", asked, asking)), asking);
    request.assumed_engagement_mm = 1.0;  // a length makes no difference to the chance
    (void)fit(request);                   // checks the ranges
    py::array_t<double> out(clearances_mm.size());
    double* const chances = out.mutable_data();
    for (py::ssize_t i = 0; i < out.size(); ++i) {
        const double given = clearances_mm.data()[i];
        if (!std::isfinite(given)) {
            throw DomainError(fmt::format("clearances_mm must be finite, got {} at index {}", given, i));
        }
        chances[i] = chance_below(request, given);
    }
    return out;
}

// ---- adjusters and columns --------------------------------------------------------------------------------

/// Figures, the status, and why there are none.
py::tuple adjuster_at(const py::object& answer, double turns) {
    const Adjuster& adjuster =
        static_cast<const AdjusterAnswer*>(answer_held(answer, typeid(AdjusterAnswer)))->whole;
    AdjusterState state;
    const Status status = evaluate(adjuster, turns, state);
    const auto values = figures(status.ok() ? state : AdjusterState{});
    py::dict out;
    for (std::size_t i = 0; i < values.size(); ++i) {
        out[text(kAdjusterStateFigures[i])] = values[i];
    }
    out["pull_element"] = status.ok() ? element_text(adjuster, state.pull_element, state.pull_end) : "";
    out["push_element"] = status.ok() ? element_text(adjuster, state.push_element, state.push_end) : "";
    return py::make_tuple(
        out, static_cast<int>(status.code),
        fmt::format("turns must be from 0 to {:.6g}, the safe range, got {}", adjuster.turns, turns));
}

/// Newtons, the status, and why there are none.
py::tuple stepped_column(const std::vector<double>& lengths_mm, const std::vector<double>& stiffnesses_n_mm2,
                         const std::string& first_end, const std::string& second_end) {
    const ColumnEnd first = from_name<ColumnEnd>("first_end", first_end);
    const ColumnEnd second = from_name<ColumnEnd>("second_end", second_end);
    std::vector<ColumnSegment> segments;
    segments.reserve(lengths_mm.size());
    for (std::size_t i = 0; i < lengths_mm.size(); ++i) {
        segments.push_back({lengths_mm[i], stiffnesses_n_mm2.at(i)});
    }
    double load = kNaN;
    std::string why;
    const Status status = stepped_column_load(segments, first, second, load);
    try {
        if (!status.ok()) {
            (void)stepped_column_load_n(segments, first, second);
        }
    } catch (const DomainError& error) {
        why = error.what();
    }
    return py::make_tuple(load, static_cast<int>(status.code), why);
}

std::pair<double, double> column_end_factors(const std::string& first_end, const std::string& second_end,
                                             const Catalogue& catalogue) {
    const ColumnEndRow* const row = find_column_ends(catalogue, from_name<ColumnEnd>("first_end", first_end),
                                                     from_name<ColumnEnd>("second_end", second_end));
    if (row == nullptr) {
        throw DomainError(fmt::format("ends {} and {} do not hold a column", first_end, second_end));
    }
    return {row->theoretical_k, row->design_k};
}

}  // namespace

void bind_threads(py::module_& module) {
    bind_thread(module);
    bind_coatings(module);
    module.def("fit_chances", &fit_chances, "asked"_a, "clearances_mm"_a, "catalogue"_a,
               "Chance that the clearance of a pair is below each of some values.");
    module.def("adjuster_at", &adjuster_at, "answer"_a, "turns"_a,
               "Figures of an adjuster some turns from its shortest safe length, status, and why none.");
    module.def("stepped_column_load_n", &stepped_column, "lengths_mm"_a, "stiffnesses_n_mm2"_a, "first_end"_a,
               "second_end"_a,
               "Elastic buckling load of a column of several sections, N, status, and why none.");
    module.def("column_end_factors", &column_end_factors, "first_end"_a, "second_end"_a, "catalogue"_a,
               "Effective length factors of a pair of ends: theoretical, and recommended for design.");
}

}  // namespace halfnut::bind
