// Batches: columns of NumPy arrays in, columns of NumPy arrays out, the interpreter lock given away.

#include <fmt/format.h>

#include "convert.hpp"
#include "halfnut/batch/cuts.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

namespace {

using namespace cutting;

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
    batch::Numbers numbers(const std::string& name, const py::object& given) {
        if (given.is_none()) {
            return {};
        }
        if (py::isinstance<py::array>(given)) {
            return {typed<double>(name, py::reinterpret_borrow<py::array>(given), false), kNaN};
        }
        return {nullptr, py::cast<double>(given)};
    }
    batch::Codes codes(const std::string& name, const py::object& given) {
        if (py::isinstance<py::array>(given)) {
            return {typed<std::int32_t>(name, py::reinterpret_borrow<py::array>(given), false), -1};
        }
        return {nullptr, py::cast<std::int32_t>(given)};
    }
    template <class T>
    const T* column(const std::string& name, const py::object& given) {
        return typed<T>(name, py::reinterpret_borrow<py::array>(given), false);
    }
    template <class T>
    T* place(const std::string& name, const py::object& given) {
        return typed<T>(name, py::reinterpret_borrow<py::array>(given), true);
    }

   private:
    template <class T>
    T* typed(const std::string& name, const py::array& array, bool writable) {
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

    std::size_t rows_;
};

batch::CutColumns places(Columns& columns, const py::dict& out) {
    batch::CutColumns places;
    for (const auto& [key, value] : out) {
        const auto name = py::cast<std::string>(key);
        const auto array = py::reinterpret_borrow<py::object>(value);
        bool known = true;
        if (name == "spindle_step") {
            places.spindle_step = columns.place<std::uint16_t>(name, array);
        } else if (name == "feed_step") {
            places.feed_step = columns.place<std::uint16_t>(name, array);
        } else if (name == "passes") {
            places.passes = columns.place<std::uint16_t>(name, array);
        } else if (name == "limited_by") {
            places.limited_by = columns.place<std::uint8_t>(name, array);
        } else if (name == "cautions") {
            places.cautions = columns.place<std::uint64_t>(name, array);
        } else if (name == "case_id") {
            places.case_id = columns.place<std::int32_t>(name, array);
        } else if (name == "status") {
            places.outcome.status = columns.place<std::uint8_t>(name, array);
        } else if (name == "reason") {
            places.outcome.reason = columns.place<std::uint16_t>(name, array);
        } else {
            known = false;
            for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
                if (kCutFigures[i].name == name) {
                    places.figures[i] = columns.place<double>(name, array);
                    known = true;
                }
            }
        }
        if (!known) {
            throw DomainError("no column '" + name + "'");
        }
    }
    return places;
}

template <class Request, std::size_t N>
std::array<batch::Numbers, N> request_numbers(Columns& columns, const py::dict& given,
                                              const std::array<RequestArgument<Request>, N>& arguments) {
    std::array<batch::Numbers, N> out{};
    for (const auto& [key, value] : given) {
        const auto name = py::cast<std::string>(key);
        bool known = false;
        for (std::size_t i = 0; i < N; ++i) {
            if (arguments[i].argument.name == name) {
                out[i] = columns.numbers(name, py::reinterpret_borrow<py::object>(value));
                known = true;
            }
        }
        if (!known) {
            throw DomainError("no argument '" + name + "'");
        }
    }
    return out;
}

batch::WorkColumns work(Columns& columns, const py::object& alloy, const py::object& tool,
                        const py::object& hardness_hb) {
    return {columns.codes("alloy", alloy), columns.numbers("hardness_hb", hardness_hb),
            columns.codes("tool", tool)};
}

/// Why a row has no answer, in words that hold for every row with this reason.
template <class Request, std::size_t N>
std::string reason_words(Status status, const std::array<RequestArgument<Request>, N>& arguments) {
    if (status.argument < N) {
        const RequestArgument<Request>& at = arguments[status.argument];
        if (status.code == StatusCode::inconsistent) {
            return fmt::format("{} must {}", at.argument.name, at.must);
        }
        if (status.code == StatusCode::not_finite || status.code == StatusCode::out_of_range) {
            return fmt::format("{} must be {}", at.argument.name, whole_range_text(at.argument));
        }
        if (status.code == StatusCode::not_tabulated) {
            return no_modulus_text(at.argument.name);
        }
    }
    if (status.argument == kHardnessArgument) {
        return fmt::format("{} must be {}", kHardness.name, whole_range_text(kHardness));
    }
    if (const machine::Obstacle what = obstacle_of(status); what != machine::Obstacle::none) {
        return std::string(machine::obstacle_sentence(what));
    }
    return std::string(status_sentence(status.code));
}

std::string reason(const std::string& kind, std::uint16_t code) {
    const Status status = batch::status_of(code);
    if (code == 0) {
        return "";
    }
    if (kind == "turn") {
        return reason_words(status, kTurnArguments);
    }
    if (kind == "drill") {
        return reason_words(status, kHoleArguments);
    }
    if (kind == "mill") {
        return reason_words(status, kMillArguments);
    }
    return std::string(status_sentence(status.code));
}

template <class Request, std::size_t N>
py::list argument_list(const std::array<RequestArgument<Request>, N>& arguments) {
    py::list out;
    for (const RequestArgument<Request>& at : arguments) {
        out.append(py::make_tuple(std::string(at.argument.name), std::string(at.argument.unit), at.required));
    }
    return out;
}

void bind_cases(py::module_& module) {
    py::class_<SharedCases>(module, "TurnCases", "The distinct cases of turning in a catalogue.")
        .def(py::init<const SharedCatalogue&>(), py::arg("catalogue"))
        .def(
            "describe",
            [](const SharedCases& self, std::int32_t id) -> py::object {
                const batch::TurnCase* found = self.get().find(id);
                if (found == nullptr) {  // known by its id though no row of this process had it
                    const auto bits = static_cast<std::uint32_t>(id);
                    const auto tool = static_cast<ToolMaterial>(bits >> 10U & 7U);
                    const auto alloy = static_cast<std::int32_t>(bits >> 13U);
                    if (id < 0 || static_cast<std::size_t>(tool) >= enum_names(ToolMaterial{}).size()) {
                        return py::none();
                    }
                    self.get().prepare({alloy}, tool);
                    found = self.get().find(id);
                }
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
                const Status status = evaluate(self.catalogue(), any_machine(), request, found->tables, cut);
                py::dict out;
                out["alloy"] = static_cast<int>(found->alloy);
                out["tool"] = std::string(enum_name(found->tool_material));
                out["finish"] = found->finish;
                const TurnTables& tables = found->tables;
                const material::AlloyRow& alloy_row = self.catalogue().alloys[found->alloy];
                out["window_low_m_min"] = tables.window.low_m_min;
                out["window_high_m_min"] = tables.window.high_m_min;
                out["kc11_n_mm2"] = tables.constants.kc11_n_mm2;
                out["mc"] = tables.constants.mc;
                out["kc_speed_m_min"] = tables.constants.speed_m_min;
                out["band_low"] = tables.band.low;
                out["band_high"] = tables.band.high;
                out["youngs_modulus_gpa"] = alloy_row.youngs_modulus_gpa;
                out["evidence"] = status.ok()
                                      ? evidence_list(cut.evidence.items(), kCutFigureNames, self.catalogue())
                                      : py::list();
                return out;
            },
            py::arg("case_id"), "What a case rests on, or None where there is no such case.");
}

}  // namespace

void bind_batch(py::module_& module) {
    bind_cases(module);
    module.def(
        "batch_cuts",
        [](const std::string& kind, const SharedCases& cases, const machine::Machine* machine,
           std::size_t rows, const std::vector<std::int32_t>& alloys, const py::object& alloy,
           const py::object& tool, const py::object& hardness_hb, const py::dict& numbers,
           const py::object& finish, const std::string& way, bool inch, int chuck, const py::dict& out,
           std::size_t workers, const std::string& clone) {
            Columns columns(rows);
            const batch::WorkColumns what = work(columns, alloy, tool, hardness_hb);
            const batch::CutSetting shared{&cases.catalogue(), machine == nullptr ? &any_machine() : machine,
                                           alloys, chuck, workers};
            const batch::CutColumns to = places(columns, out);
            if (kind == "turn") {
                batch::TurnColumns given{.work = what,
                                         .numbers = request_numbers(columns, numbers, kTurnArguments),
                                         .inch = inch,
                                         .hold = from_name<Hold>("hold", way)};
                if (py::isinstance<py::array>(finish)) {
                    given.finish = columns.column<std::uint8_t>("finish", finish);
                } else {
                    given.finish_all = py::cast<bool>(finish);
                }
                const batch::Clone wanted =
                    clone.empty() ? batch::widest_clone() : from_name<batch::Clone>("clone", clone);
                const py::gil_scoped_release release;
                batch::turn(cases.get(), shared, given, rows, to, wanted);
            } else if (kind == "mill") {
                const batch::MillColumns given{what, request_numbers(columns, numbers, kMillArguments),
                                               from_name<MillShape>("shape", way)};
                const py::gil_scoped_release release;
                batch::mill(shared, given, rows, to);
            } else {
                const batch::HoleColumns given{what, request_numbers(columns, numbers, kHoleArguments),
                                               from_name<HoleCut>("kind", kind)};
                const py::gil_scoped_release release;
                batch::holes(shared, given, rows, to);
            }
        },
        py::arg("kind"), py::arg("cases"), py::arg("machine"), py::arg("rows"), py::arg("alloys"),
        py::arg("alloy"), py::arg("tool"), py::arg("hardness_hb"), py::arg("numbers"), py::arg("finish"),
        py::arg("way"), py::arg("inch"), py::arg("chuck"), py::arg("out"), py::arg("workers") = 0,
        py::arg("clone") = "",
        "Many cuts of a kind, 'turn', 'drill' or 'mill'; see halfnut.batch. `way` is how the work of a "
        "turned "
        "one is held, or what a milled one is.");
    module.def(
        "batch_arguments",
        [](const std::string& kind) {
            return kind == "turn"    ? argument_list(kTurnArguments)
                   : kind == "drill" ? argument_list(kHoleArguments)
                                     : argument_list(kMillArguments);
        },
        py::arg("kind"),
        "(name, unit, required) of each number of a kind of cut: 'turn', 'drill' or 'mill'.");
    module.attr("HARDNESS_ARGUMENT") = kHardnessArgument;
    module.def("batch_reason", &reason, py::arg("kind"), py::arg("code"),
               "Why rows with this reason have no answer; '' for 0.");
    module.def(
        "match_alloys",
        [](const std::vector<std::string>& names, const SharedCatalogue& catalogue) {
            std::vector<std::int32_t> out;
            for (const std::string& name : names) {
                const material::AlloyRow* const found = material::match_alloy(catalogue.get(), name).alloy;
                out.push_back(
                    found == nullptr ? -1 : static_cast<std::int32_t>(found - catalogue.get().alloys.data()));
            }
            return out;
        },
        py::arg("names"), py::arg("catalogue"), "Rows of the alloys of these names; -1 where none is meant.");
    module.def(
        "code_texts", &code_texts, py::arg("values"),
        "(codes, texts): a column of texts as places among its distinct ones, -1 for what is no text.");
    module.def(
        "batch_clone", [] { return std::string(enum_name(batch::widest_clone())); },
        "Widest instruction set that batches of turning use here.");
    module.def(
        "nothing", [](double a, double b) { return a + b; }, py::arg("a").noconvert(),
        py::arg("b").noconvert(), "The sum of two numbers: what a call of a bound function costs by itself.");
    module.def("tool_materials", &spellings<ToolMaterial>, "Tool materials, in the order of their codes.");
    module.def(
        "cut_figures",
        [] { return std::vector<std::string>(kCutFigureNames.begin(), kCutFigureNames.end()); },
        "Figures of a cut, in their order.");
}

}  // namespace halfnut::bind
