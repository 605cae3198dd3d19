// The tables from Python, sources included, and a shop's own rows over them.

#include <pybind11/stl.h>

#include "bind.hpp"
#include "halfnut/builtin.hpp"

namespace halfnut::bind {

namespace py = pybind11;

namespace {

py::object cell(double value) {
    return std::isnan(value) ? py::object(py::none()) : py::object(py::float_(value));
}
[[maybe_unused]] py::object cell(int value) {
    return py::int_(value);
}
[[maybe_unused]] py::object cell(bool value) {
    return py::bool_(value);
}
py::object cell(std::string_view value) {
    return py::str(value.data(), value.size());
}
template <class E>
    requires std::is_enum_v<E>
py::object cell(E value) {
    return cell(enum_name(value));
}

py::dict source_dict(const SourceRow& source) {
    py::dict out;
    out["table"] = cell(source.table);
    out["key"] = cell(source.key);
    out["kind"] =
        source.kind == SourceKind::practice ? py::object(py::str("common practice")) : cell(source.kind);
    out["citation"] = cell(source.citation);
    return out;
}

template <class Row>
py::dict row_dict(const Row& row, const Catalogue& catalogue) {
    py::dict dict;
    const auto put = [&](const auto& column) {
        const auto& value = row.*(column.member);
        const py::str name(column.name.data(), column.name.size());
        if constexpr (std::is_same_v<std::remove_cvref_t<decltype(value)>, SourceId>) {
            dict[name] = value.index < catalogue.sources.size()
                             ? py::object(source_dict(catalogue.sources[value.index]))
                             : py::object(py::none());
        } else {
            dict[name] = cell(value);
        }
    };
    std::apply([&](const auto&... column) { (put(column), ...); }, Schema<Row>::columns);
    return dict;
}

template <class Row>
py::list rows_of(std::span<const Row> rows, const Catalogue& catalogue) {
    py::list out;
    for (const Row& row : rows) {
        out.append(row_dict(row, catalogue));
    }
    return out;
}

template <class Visit>
void for_each_table(Visit visit) {
    std::apply([&](const auto&... member) { (visit(member), ...); }, kTables);
}

/// What `visit` makes of the table of that name.
template <class Visit>
py::object in_table(const std::string& table, Visit visit) {
    py::object out = py::none();
    std::vector<std::string_view> names;
    for_each_table([&](auto member) {
        using Row = TableRow<decltype(member)>;
        names.push_back(Schema<Row>::table);
        if (table == Schema<Row>::table) {
            out = visit(member);
        }
    });
    if (out.is_none()) {
        const std::string_view near = nearest_name(table, names);
        throw NotTabulatedError("no table '" + table + "'" +
                                (near.empty() ? "" : "; did you mean '" + std::string(near) + "'?"));
    }
    return out;
}

}  // namespace

SharedCatalogue::SharedCatalogue() = default;

const Catalogue& SharedCatalogue::get() const noexcept {
    return overlay_ ? overlay_->catalogue() : builtin();
}

SharedCatalogue SharedCatalogue::with(const std::string& table, const std::string& text,
                                      const std::string& name, const std::vector<std::size_t>& lines) const {
    SharedCatalogue out;
    out.layers_ = layers_;
    out.layers_.push_back({table, text, name, lines});
    auto overlay = std::make_shared<Overlay>(builtin());
    for (const Layer& layer : out.layers_) {
        overlay->add(layer.table, layer.text, layer.name, layer.lines);
    }
    out.overlay_ = std::move(overlay);
    return out;
}

py::list evidence_list(std::span<const EvidenceItem> items, std::span<const std::string_view> figures,
                       const Catalogue& catalogue) {
    py::list out;
    for (const EvidenceItem& item : items) {
        out.append(py::cast(evidence_text(item, figures, catalogue)));
    }
    return out;
}

void bind_catalogue(py::module_& module) {
    py::class_<EvidenceText>(module, "Evidence", "What one figure of a record rests on.")
        .def_readonly("figure", &EvidenceText::figure)
        .def_readonly("rule", &EvidenceText::rule)
        .def_readonly("rule_id", &EvidenceText::rule_id)
        .def_readonly("row", &EvidenceText::row)
        .def_readonly("source", &EvidenceText::source)
        .def_readonly("kind", &EvidenceText::kind)
        .def("__repr__", [](const EvidenceText& e) {
            return "Evidence(" + e.figure + ": " + e.rule + (e.row.empty() ? "" : "; " + e.row) + "; " +
                   e.source + " [" + e.kind + "])";
        });

    py::class_<SharedCatalogue>(module, "Catalogue",
                                "The tables as one value: built in, or with a shop's own rows over them.")
        .def(py::init<>())
        .def("with_table", &SharedCatalogue::with, py::arg("table"), py::arg("text"), py::arg("name"),
             py::arg("lines") = std::vector<std::size_t>{},
             "A new catalogue with a table's text laid over this one; a row with a mistake is refused.")
        .def(
            "refused",
            [](const SharedCatalogue& self) {
                py::list out;
                for (const RefusedRow& row : self.get().refused) {
                    out.append(py::make_tuple(row.table, row.where, row.names, row.mistakes, refusal(row)));
                }
                return out;
            },
            "Rows of a shop's tables that cannot be used: table, file and line, names, mistakes, all in one "
            "text.")
        .def("tables",
             [](const SharedCatalogue&) {
                 py::list names;
                 for_each_table(
                     [&](auto member) { names.append(cell(Schema<TableRow<decltype(member)>>::table)); });
                 return names;
             })
        .def(
            "rows",
            [](const SharedCatalogue& self, const std::string& table) {
                return in_table(table, [&](auto member) { return rows_of(self.get().*member, self.get()); });
            },
            py::arg("table"), "Rows of a table as dictionaries; each source is a dictionary of its own.")
        .def(
            "row",
            [](const SharedCatalogue& self, const std::string& table, std::size_t index) {
                return in_table(table, [&](auto member) {
                    const auto rows = self.get().*member;
                    if (index >= rows.size()) {
                        throw NotTabulatedError(table + " has " + std::to_string(rows.size()) + " rows");
                    }
                    return row_dict(rows[index], self.get());
                });
            },
            py::arg("table"), py::arg("index"), "One row of a table, as in rows().");

    module.def(
        "status_name",
        [](std::uint8_t code) { return std::string(status_name(static_cast<StatusCode>(code))); },
        py::arg("code"));
    module.def(
        "nearest_name",
        [](const std::string& name, const std::vector<std::string>& candidates) {
            return std::string(nearest_name(name, candidates));
        },
        py::arg("name"), py::arg("candidates"),
        "The candidate nearest to a name by edit distance, or an empty text when none is near.");
}

}  // namespace halfnut::bind
