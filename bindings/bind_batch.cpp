// Batches: columns of NumPy arrays in, columns of NumPy arrays out, the interpreter lock given away.

#include <fmt/format.h>

#include "convert.hpp"
#include "halfnut/batch/cuts.hpp"
#include "halfnut/batch/tools.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

namespace {

using namespace cutting;
using namespace pybind11::literals;

/// The cases of a catalogue together with the catalogue itself.
class SharedCases {
   public:
    explicit SharedCases(const SharedCatalogue& catalogue)
        : catalogue_(catalogue), cases_(std::make_shared<const batch::TurnCases>(catalogue_.get())) {}
    [[nodiscard]] const Catalogue& catalogue() const noexcept { return catalogue_.get(); }
    [[nodiscard]] const batch::TurnCases& get() const noexcept { return *cases_; }

   private:
    SharedCatalogue catalogue_;
    std::shared_ptr<const batch::TurnCases> cases_;
};

/// The rows of one call: every column has as many.
class Columns {
   public:
    explicit Columns(std::size_t rows) : rows_(rows) {}

    /// A number for all rows, or a contiguous column of them.
    [[nodiscard]] batch::Numbers numbers(std::string_view name, const py::object& given) const {
        if (given.is_none()) {
            return {};
        }
        if (py::isinstance<py::array>(given)) {
            return {column<double>(name, given), kNaN};
        }
        return {nullptr, py::cast<double>(given)};
    }
    [[nodiscard]] batch::Codes codes(std::string_view name, const py::object& given) const {
        if (py::isinstance<py::array>(given)) {
            return {column<std::int32_t>(name, given), -1};
        }
        return {nullptr, py::cast<std::int32_t>(given)};
    }
    template <class T>
    [[nodiscard]] T* column(std::string_view name, const py::object& given, bool writable = false) const {
        const auto array = py::reinterpret_borrow<py::array>(given);
        const bool right = array.dtype().equal(py::dtype::of<T>()) && array.ndim() == 1 &&
                           static_cast<std::size_t>(array.shape(0)) == rows_ &&
                           (array.flags() & py::array::c_style) != 0 && (!writable || array.writeable());
        if (!right) {
            throw DomainError(fmt::format("{} must be a contiguous{} column of {} rows of {}", name,
                                          writable ? " writable" : "", rows_,
                                          py::cast<std::string>(py::str(py::dtype::of<T>()))));
        }
        return static_cast<T*>(const_cast<void*>(array.data()));
    }

   private:
    std::size_t rows_;
};

batch::CutColumns places(const Columns& columns, const py::dict& out) {
    batch::CutColumns places;
    for (const auto& [key, value] : out) {
        const auto name = py::cast<std::string>(key);
        const auto array = py::reinterpret_borrow<py::object>(value);
        bool known = false;
        const auto put = [&]<class T>(std::string_view of, T*& place) {
            if (name == of) {
                place = columns.column<T>(name, array, true);
                known = true;
            }
        };
        put("spindle_step", places.spindle_step);
        put("feed_step", places.feed_step);
        put("passes", places.passes);
        put("limited_by", places.limited_by);
        put("cautions", places.cautions);
        put("case_id", places.case_id);
        put("status", places.outcome.status);
        put("reason", places.outcome.reason);
        for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
            put(kCutFigures[i].name, places.figures[i]);
        }
        if (!known) {
            throw DomainError("no column '" + name + "'");
        }
    }
    return places;
}

/// A number or a column for each argument that is given, or that the row's tool gives.
template <class Arguments, class Forms>
auto request_numbers(const Columns& columns, const py::dict& given, const Arguments& arguments,
                     batch::ToolColumns& tools, const Forms& forms) {
    std::array<batch::Numbers, std::tuple_size_v<Arguments>> out{};
    std::size_t known = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const std::string_view name = arguments[i].argument.name;
        if (given.contains(text(name))) {
            out[i] = columns.numbers(name, given[text(name)]);
            ++known;
        }
        for (const batch::ToolForm& form : forms) {
            out[i] = form.argument == name ? tools.or_of_tool(out[i], form.member) : out[i];
        }
    }
    if (known != given.size()) {
        throw DomainError(
            fmt::format("no argument of this cut among {}", py::cast<std::string>(py::str(given))));
    }
    return out;
}

/// What `made` makes of the arguments of a kind of cut.
template <class Made>
auto by_kind(std::string_view kind, const Made& made) {
    return kind == "turn"   ? made(kTurnArguments)
           : kind == "mill" ? made(kMillArguments)
                            : made(kHoleArguments);
}

/// Why a row has no answer, in words that hold for every row with this reason.
std::string reason(const std::string& kind, std::uint16_t code) {
    const Status status = batch::status_of(code);
    if (code == 0) {
        return "";
    }
    std::string of_argument = by_kind(kind, [&](const auto& arguments) -> std::string {
        if (status.argument >= arguments.size()) {
            return "";
        }
        const auto& at = arguments[status.argument];
        return status.code == StatusCode::inconsistent ? fmt::format("{} must {}", at.argument.name, at.must)
               : status.code == StatusCode::not_finite || status.code == StatusCode::out_of_range
                   ? fmt::format("{} must be {}", at.argument.name, whole_range_text(at.argument))
               : status.code == StatusCode::not_tabulated ? no_modulus_text(at.argument.name)
                                                          : "";
    });
    if (!of_argument.empty()) {
        return of_argument;
    }
    if (status.argument == kHardnessArgument) {
        return fmt::format("{} must be {}", kHardness.name, whole_range_text(kHardness));
    }
    const machine::Obstacle what = obstacle_of(status);
    return std::string(what != machine::Obstacle::none ? machine::obstacle_sentence(what)
                                                       : status_sentence(status.code));
}

/// What a case rests on, or None where there is no such case.
py::object describe(const SharedCases& self, std::int32_t id) {
    const batch::TurnCase* found = self.get().find(id);
    if (found == nullptr) {
        return py::none();
    }
    TurnRequest request;
    request.work.alloy = found->alloy;
    request.tool_material = found->tool_material;
    request.finish = found->finish;
    request.diameter_mm = 1e3;
    request.depth_mm = 0.5;
    request.length_mm = 1.0;
    request.stick_out_mm = 1.0;
    CutResult cut;
    const TurnTables& tables = found->tables;
    const Status status = evaluate(self.catalogue(), any_machine(), request, tables, cut);
    return py::dict(
        "alloy"_a = self.catalogue().alloys[found->alloy].id, "tool"_a = enum_name(found->tool_material),
        "finish"_a = found->finish, "window_low_m_min"_a = tables.window.low_m_min,
        "window_high_m_min"_a = tables.window.high_m_min, "kc11_n_mm2"_a = tables.constants.kc11_n_mm2,
        "mc"_a = tables.constants.mc, "kc_speed_m_min"_a = tables.constants.speed_m_min,
        "band_low"_a = tables.band.low, "band_high"_a = tables.band.high,
        "youngs_modulus_gpa"_a = self.catalogue().alloys[found->alloy].youngs_modulus_gpa,
        "evidence"_a =
            py::tuple(status.ok() ? evidence_list(cut.evidence.items(), kCutFigureNames, self.catalogue())
                                  : py::list()));
}

void cuts(const std::string& kind, const SharedCases& cases, const machine::Machine* machine,
          std::size_t rows, const std::vector<std::int32_t>& alloys, const py::object& alloy,
          const std::vector<std::string>& tool_names, const py::object& tool, const py::object& hardness_hb,
          const py::dict& numbers, const py::object& finish, const std::string& way, bool inch, int chuck,
          const py::dict& out, std::size_t workers, const std::string& clone) {
    const Columns columns(rows);
    batch::ToolColumns tools(cases.catalogue(), tool_names, columns.codes("tool", tool), rows);
    const batch::WorkColumns what{columns.codes("alloy", alloy), columns.numbers("hardness_hb", hardness_hb),
                                  tools.materials()};
    const batch::CutSetting shared{&cases.catalogue(), machine == nullptr ? &any_machine() : machine, alloys,
                                   chuck, workers};
    const batch::CutColumns to = places(columns, out);
    if (kind == "turn") {
        const bool each = py::isinstance<py::array>(finish);
        const batch::TurnColumns given{
            .work = what,
            .numbers = request_numbers(columns, numbers, kTurnArguments, tools, batch::kTurnForms),
            .finish = each ? columns.column<std::uint8_t>("finish", finish) : nullptr,
            .finish_all = !each && py::cast<bool>(finish),
            .inch = inch,
            .hold = from_name<Hold>("hold", way)};
        const batch::Clone wanted =
            clone.empty() ? batch::widest_clone() : from_name<batch::Clone>("clone", clone);
        const py::gil_scoped_release release;
        batch::turn(cases.get(), shared, given, rows, to, wanted);
    } else if (kind == "mill") {
        const batch::MillColumns given{
            what, request_numbers(columns, numbers, kMillArguments, tools, batch::kMillForms),
            from_name<MillShape>("shape", way)};
        const py::gil_scoped_release release;
        batch::mill(shared, given, rows, to);
    } else {
        const batch::HoleColumns given{
            what, request_numbers(columns, numbers, kHoleArguments, tools, batch::kHoleForms),
            from_name<HoleCut>("kind", kind)};
        const py::gil_scoped_release release;
        batch::holes(shared, given, rows, to);
    }
}

std::vector<std::int32_t> match_alloys(const std::vector<std::string>& names, const Catalogue& catalogue) {
    std::vector<std::int32_t> out;
    out.reserve(names.size());
    for (const std::string& name : names) {
        const material::AlloyRow* const found = material::match_alloy(catalogue, name).alloy;
        out.push_back(found == nullptr ? -1 : static_cast<std::int32_t>(found - catalogue.alloys.data()));
    }
    return out;
}

}  // namespace

void bind_batch(py::module_& module) {
    py::class_<SharedCases>(module, "TurnCases", "The distinct cases of turning in a catalogue.")
        .def(py::init<const SharedCatalogue&>(), "catalogue"_a)
        .def("describe", &describe, "case_id"_a,
             "What a case rests on, or None where there is no such case.");
    module.def(
        "batch_cuts", &cuts, "kind"_a, "cases"_a, "machine"_a, "rows"_a, "alloys"_a, "alloy"_a, "tools"_a,
        "tool"_a, "hardness_hb"_a, "numbers"_a, "finish"_a, "way"_a, "inch"_a, "chuck"_a, "out"_a,
        "workers"_a = 0, "clone"_a = "",
        "Many cuts of a kind, 'turn', 'drill' or 'mill'; see halfnut.batch. `way` is how the work of a "
        "turned one is held, or what a milled one is.");
    module.def(
        "batch_arguments",
        [](const std::string& kind) {
            return by_kind(kind, [](const auto& arguments) {
                py::list out;
                for (const auto& at : arguments) {
                    out.append(py::make_tuple(at.argument.name, at.argument.unit, at.required));
                }
                return out;
            });
        },
        "kind"_a, "(name, unit, required) of each number of a kind of cut: 'turn', 'drill' or 'mill'.");
    module.attr("HARDNESS_ARGUMENT") = kHardnessArgument;
    module.def("batch_reason", &reason, "kind"_a, "code"_a,
               "Why rows with this reason have no answer; '' for 0.");
    module.def("match_alloys", &match_alloys, "names"_a, "catalogue"_a,
               "Rows of the alloys of these names; -1 where none is meant.");
    module.def(
        "code_texts", &code_texts, "values"_a,
        "(codes, texts): a column of texts as places among its distinct ones, -1 for what is no text.");
    module.def(
        "batch_clone", [] { return enum_name(batch::widest_clone()); },
        "Widest instruction set that batches of turning use here.");
    module.def(
        "nothing", [](double a, double b) { return a + b; }, "a"_a.noconvert(), "b"_a.noconvert(),
        "The sum of two numbers: what a call of a bound function costs by itself.");
    module.def(
        "cut_figures", [] { return std::vector(kCutFigureNames.begin(), kCutFigureNames.end()); },
        "Figures of a cut, in their order.");
}

}  // namespace halfnut::bind
