// The tables from Python, sources included, and a shop's own rows over them.

#include <cstdlib>

#include "convert.hpp"
#include "halfnut/core/builtin.hpp"
#include "halfnut/core/table_info.hpp"
#include "halfnut/core/tell.hpp"
#include "halfnut/core/words.hpp"

namespace halfnut::bind {

using namespace pybind11::literals;

namespace {

py::dict source_dict(const SourceRow& source) {
    const std::string_view kind =
        source.kind == SourceKind::practice ? "common practice" : enum_name(source.kind);
    return py::dict("table"_a = source.table, "key"_a = source.key, "kind"_a = kind,
                    "citation"_a = source.citation);
}

/// A cell as Python holds it; a source as a dictionary of its own.
struct Cell {
    const Catalogue& catalogue;

    py::object operator()(double value) const { return number_or_none(value); }
    py::object operator()(int value) const { return py::int_(value); }
    py::object operator()(bool value) const { return py::bool_(value); }
    py::object operator()(std::string_view value) const { return text(value); }
    py::object operator()(const EnumSpelling& value) const { return text(value.name); }
    py::object operator()(SourceId value) const {
        return value.index < catalogue.sources.size()
                   ? py::object(source_dict(catalogue.sources[value.index]))
                   : py::object(py::none());
    }
};

py::dict row_dict(const TableInfo& table, const std::byte* row, const Catalogue& catalogue) {
    py::dict dict;
    for (const ColumnInfo& column : table.columns) {
        dict[text(column.name)] = visit_cell(row, column, Cell{catalogue});
    }
    return dict;
}

/// The table of that name.
const TableInfo& named(const std::string& table) {
    if (const TableInfo* const found = find_table(table)) {
        return *found;
    }
    const std::string_view near = nearest_name(table, table_names());
    throw NotTabulatedError("no table '" + table + "'" +
                            (near.empty() ? "" : "; did you mean '" + std::string(near) + "'?"));
}

/// A text with figures of these, or DomainError where one is lacking.
std::string filled_from(std::string_view words, const py::dict& figures) {
    return filled(words, [&](std::string_view name) {
        const py::str key = text(name);
        if (!figures.contains(key)) {
            throw DomainError("'" + std::string(words) + "' needs '" + std::string(name) + "'");
        }
        return std::string(py::str(figures[key]));
    });
}

const CautionRow& caution_row(std::string_view code, const Catalogue& catalogue) {
    if (const CautionRow* const found = find_caution(code, catalogue)) {
        return *found;
    }
    throw NotTabulatedError("no caution '" + std::string(code) + "'");
}

}  // namespace

SharedCatalogue::SharedCatalogue() = default;

const Catalogue& SharedCatalogue::get() const noexcept {
    return overlay_ ? overlay_->catalogue() : builtin();
}

py::tuple SharedCatalogue::layers() const {
    py::list out;
    for (const Layer& layer : layers_) {
        out.append(py::make_tuple(layer.table, layer.text, layer.name, py::tuple(py::cast(layer.lines))));
    }
    return py::tuple(out);
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
    py::class_<EvidenceText> evidence(module, "Evidence", "What one figure of a record rests on.");
    def_value<EvidenceText>(
        evidence,
        [](py::handle self) {
            const auto& e = self.cast<const EvidenceText&>();
            return py::make_tuple(e.figure, e.rule, e.rule_id, e.row, e.source, e.kind);
        },
        [](const py::tuple& state) {
            return EvidenceText{held<std::string>(state, 0), held<std::string>(state, 1),
                                held<std::string>(state, 2), held<std::string>(state, 3),
                                held<std::string>(state, 4), held<std::string>(state, 5)};
        });
    evidence.def_readonly("figure", &EvidenceText::figure)
        .def_readonly("rule", &EvidenceText::rule)
        .def_readonly("rule_id", &EvidenceText::rule_id)
        .def_readonly("row", &EvidenceText::row)
        .def_readonly("source", &EvidenceText::source)
        .def_readonly("kind", &EvidenceText::kind)
        .def("__repr__", [](const EvidenceText& e) {
            return "Evidence(" + e.figure + ": " + e.rule + (e.row.empty() ? "" : "; " + e.row) + "; " +
                   e.source + " [" + e.kind + "])";
        });

    py::class_<SharedCatalogue> shared(
        module, "Catalogue", "The tables as one value: built in, or with a shop's own rows over them.");
    def_value<SharedCatalogue>(
        shared, [](py::handle self) { return self.cast<const SharedCatalogue&>().layers(); },
        [](const py::tuple& layers) {
            SharedCatalogue out;
            for (const py::handle layer : layers) {
                const auto parts = py::cast<py::tuple>(layer);
                out = out.with(held<std::string>(parts, 0), held<std::string>(parts, 1),
                               held<std::string>(parts, 2), held<std::vector<std::size_t>>(parts, 3));
            }
            return out;
        });
    shared.def(py::init<>())
        .def("with_table", &SharedCatalogue::with, "table"_a, "text"_a, "name"_a,
             "lines"_a = std::vector<std::size_t>{},
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
        .def_property_readonly(
            "layers", &SharedCatalogue::layers,
            "A shop's tables in the order in which they were laid: table, text, name, lines.")
        .def("tables", [](const SharedCatalogue&) { return table_names(); })
        .def(
            "rows",
            [](const SharedCatalogue& self, const std::string& name) {
                const TableInfo& table = named(name);
                py::list out;
                for (std::size_t i = 0; i < table.size(self.get()); ++i) {
                    out.append(row_dict(table, table.row(self.get(), i), self.get()));
                }
                return out;
            },
            "table"_a, "Rows of a table as dictionaries; each source is a dictionary of its own.")
        .def(
            "caution",
            [](const SharedCatalogue& self, std::string_view code, const py::dict& figures) {
                const CautionRow& row = caution_row(code, self.get());
                return std::pair(enum_name(row.rank), filled_from(row.text, figures));
            },
            "code"_a, "figures"_a, "Rank and text of a caution.")
        .def(
            "of_the_piece",
            [](const SharedCatalogue& self, std::string_view code) {
                return caution_row(code, self.get()).scope == Scope::piece;
            },
            "code"_a, "Whether a caution goes with the whole piece.")
        .def(
            "words",
            [](const SharedCatalogue& self, std::string_view list, std::string_view code,
               const py::dict& figures) { return filled_from(find_words(list, code, self.get()), figures); },
            "list"_a, "code"_a, "figures"_a, "A text by its list and code.");

    module.def(
        "filled",
        [](std::string_view text, const py::dict& figures, std::string_view unit,
           const Catalogue& catalogue) {
            using Plain = std::variant<std::monostate, bool, std::int64_t, double, std::string>;
            const auto figure = [&](std::string_view key) {
                const auto at = [](auto&& is) {
                    Value out;
                    out.is = std::forward<decltype(is)>(is);
                    return out;
                };
                return figures.contains(key) ? std::visit(at, figures[py::cast(key)].cast<Plain>()) : Value{};
            };
            return filled_with(text, figure, unit, catalogue);
        },
        "template"_a, "figures"_a, "unit"_a, "catalogue"_a,
        "A template with plain figures by their keys; None where it lacks one.");
    module.def(
        "environment",
        [](const std::string& name) {
            const char* const value = std::getenv(name.c_str());
            return value == nullptr ? py::object(py::none())
                                    : py::reinterpret_steal<py::object>(PyUnicode_DecodeFSDefault(value));
        },
        "name"_a, "A variable of the environment; None where there is none.");
    module.def("nearest_name", &nearest_name<std::vector<std::string>>, "name"_a, "candidates"_a,
               "The candidate nearest to a name by edit distance, or an empty text when none is near.");
}

}  // namespace halfnut::bind
