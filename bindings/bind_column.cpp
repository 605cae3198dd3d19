// Columns: uniform and stepped; adjusters wound out.

#include <fmt/format.h>

#include <vector>

#include "asked.hpp"
#include "convert.hpp"
#include "halfnut/threads/adjuster_questions.hpp"
#include "halfnut/threads/column.hpp"
#include "halfnut/threads/column_tables.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

py::object stepped(const py::object& lengths_mm, const py::object& stiffnesses_n_mm2,
                   const std::string& first_end, const std::string& second_end, const std::string& on_error) {
    const bool raise = raises_on_error(on_error);
    const ColumnEnd first = from_name<ColumnEnd>("first_end", first_end);
    const ColumnEnd second = from_name<ColumnEnd>("second_end", second_end);
    const std::vector<Doubles> arrays{
        plain_numbers(lengths_mm, positive("lengths_mm", "mm")),
        plain_numbers(stiffnesses_n_mm2, positive("stiffnesses_n_mm2", "N mm2"))};
    std::vector<py::ssize_t> shape = broadcast_shape(arrays);
    if (shape.empty() || shape.back() == 0) {
        throw DomainError("lengths_mm must have at least one segment along its last axis");
    }
    const Operand length = operand(arrays[0], shape);
    const Operand stiffness = operand(arrays[1], shape);
    const auto segments = static_cast<std::size_t>(shape.back());
    shape.pop_back();
    py::array_t<double> out(shape);
    py::array_t<std::uint8_t> codes(shape);
    double* const values = out.mutable_data();
    std::uint8_t* const code = codes.mutable_data();
    const auto rows = static_cast<std::size_t>(out.size());
    std::size_t failed = 0;
    std::size_t first_index = 0;
    {
        const py::gil_scoped_release release;
        std::vector<ColumnSegment> column(segments);
        for (std::size_t row = 0; row < rows; ++row) {
            for (std::size_t i = 0; i < segments; ++i) {
                const std::size_t at = row * segments + i;
                column[i] = {length.data[at * length.step], stiffness.data[at * stiffness.step]};
            }
            const Status status = stepped_column_load(column, first, second, values[row]);
            code[row] = static_cast<std::uint8_t>(status.code);
            if (!status.ok() && failed++ == 0) {
                first_index = row;
            }
        }
    }
    if (!raise) {
        return py::make_tuple(std::move(out), std::move(codes));
    }
    if (failed > 0) {
        std::vector<ColumnSegment> column(segments);
        for (std::size_t i = 0; i < segments; ++i) {
            const std::size_t at = first_index * segments + i;
            column[i] = {length.data[at * length.step], stiffness.data[at * stiffness.step]};
        }
        try {
            (void)stepped_column_load_n(column, first, second);
        } catch (const DomainError& error) {
            throw DomainError(shape.empty() ? std::string(error.what())
                                            : fmt::format("{} at index {} ({} of {} elements failed)",
                                                          error.what(), first_index, failed, rows));
        }
    }
    return shape.empty() ? py::object(py::float_(values[0])) : py::object(std::move(out));
}

/// An adjuster at many turns from its shortest safe length, as columns.
py::dict adjuster_states(const py::object& answer, const Doubles& turns, const std::string& on_error) {
    const Adjuster& adjuster =
        static_cast<const AdjusterAnswer*>(answer_held(answer, typeid(AdjusterAnswer)))->whole;
    const auto rows = static_cast<std::size_t>(turns.size());
    const double* const given = turns.data();
    AnswerColumns columns(rows);
    columns.figures(kAdjusterStateFigures);
    columns.keep_place("pull_element");
    columns.keep_place("push_element");
    std::vector<std::string> pull(rows);
    std::vector<std::string> push(rows);
    columns.run(on_error, "elements", [&](std::size_t row, std::string& why) {
        AdjusterState state;
        const Status status = evaluate(adjuster, given[row], state);
        if (status.ok()) {
            columns.set_figures(row, figures(state));
            pull[row] = element_text(adjuster, state.pull_element, state.pull_end);
            push[row] = element_text(adjuster, state.push_element, state.push_end);
        } else {
            why = fmt::format("turns must be from 0 to {:.6g}, the safe range, got {}", adjuster.turns,
                              given[row]);
        }
        return status;
    });
    columns.dict()["pull_element"] = text_column(pull);
    columns.dict()["push_element"] = text_column(push);
    return columns.dict();
}

}  // namespace

void bind_column(py::module_& module) {
    module.def("adjuster_states", &adjuster_states, py::arg("answer"), py::arg("turns"),
               py::arg("on_error") = "raise", "An adjuster at many turns from its shortest safe length.");
    module.def("stepped_column_load_n", &stepped, py::arg("lengths_mm"), py::arg("stiffnesses_n_mm2"),
               py::arg("first_end"), py::arg("second_end"), py::arg("on_error") = "raise",
               "Elastic buckling load of a column of several sections, N; segments along the last axis.");
    module.def(
        "column_end_factors",
        [](const std::string& first_end, const std::string& second_end, const SharedCatalogue& catalogue) {
            const ColumnEnd first = from_name<ColumnEnd>("first_end", first_end);
            const ColumnEnd second = from_name<ColumnEnd>("second_end", second_end);
            const ColumnEndRow* const row = find_column_ends(catalogue.get(), first, second);
            if (row == nullptr) {
                throw DomainError(fmt::format("ends {} and {} do not hold a column", first_end, second_end));
            }
            return py::make_tuple(row->theoretical_k, row->design_k);
        },
        py::arg("first_end"), py::arg("second_end"), py::arg("catalogue"),
        "Effective length factors of a pair of ends: theoretical, and recommended for design.");
}

}  // namespace halfnut::bind
