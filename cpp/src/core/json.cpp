#include "halfnut/core/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <new>
#include <optional>
#include <tuple>
#include <utility>
#include <variant>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/overlay.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/core/tell.hpp"

namespace halfnut {

namespace {

constexpr std::string_view kDialect = "https://json-schema.org/draft/2020-12/schema";

/// Writes JSON; commas are its own business.
class Writer {
   public:
    [[nodiscard]] std::string take() { return std::move(text_); }

    Writer& key(std::string_view name) {
        separate();
        put(json_text(name));
        text_ += ": ";
        return *this;
    }
    void text(std::string_view value) { plain(json_text(value)); }
    void number(double value) { plain(number_text(value)); }
    void count(std::int64_t value) { plain(fmt::format("{}", value)); }
    void flag(bool value) { plain(value ? "true" : "false"); }
    void null() { plain("null"); }
    /// What is JSON already.
    void plain(std::string_view json) {
        separate();
        put(json);
        begun_ = true;
    }
    template <class Each>
    void object(const Each& members) {
        nested('{', '}', members);
    }
    template <class Each>
    void array(const Each& items) {
        nested('[', ']', items);
    }

   private:
    template <class Each>
    void nested(char open, char close, const Each& inside) {
        separate();
        text_ += open;
        begun_ = false;
        inside();
        text_ += close;
        begun_ = true;
    }
    void separate() {
        if (begun_) {
            text_ += ", ";
        }
        begun_ = false;
    }
    void put(std::string_view json) { text_ += json; }

    std::string text_;
    bool begun_ = false;  ///< something stands before in this object or list
};

// ---- answers ----------------------------------------------------------------------------------------------

void write(Writer& out, const FigureRow& row, const Value& value);

void write_value(Writer& out, const Value& value) {
    std::visit(
        [&](const auto& is) {
            using Is = std::remove_cvref_t<decltype(is)>;
            if constexpr (std::is_same_v<Is, std::monostate>) {
                out.null();
            } else if constexpr (std::is_same_v<Is, bool>) {
                out.flag(is);
            } else if constexpr (std::is_same_v<Is, std::int64_t>) {
                out.count(is);
            } else if constexpr (std::is_same_v<Is, double>) {
                out.number(is);
            } else if constexpr (std::is_same_v<Is, std::string>) {
                out.text(is);
            } else {
                out.array([&] {
                    for (const Value& each : is) {
                        write_value(out, each);
                    }
                });
            }
        },
        value.is);
}

const std::string& text_in(const Value& value) {
    return std::get<std::string>(value.is);
}

void write_figures(Writer& out, const RecordRow& record, const Values& values) {
    for (std::size_t i = 0; i < values.size(); ++i) {
        const AnsweredKind kind = record.figures[i].kind;
        if (kind != AnsweredKind::told && kind != AnsweredKind::evidence && !record.figures[i].is_aside) {
            write(out.key(record.figures[i].key), record.figures[i], values[i]);
        }
    }
}

void write(Writer& out, const FigureRow& row, const Value& value) {
    const auto* const several = std::get_if<Values>(&value.is);
    if (several == nullptr) {
        write_value(out, value);
        return;
    }
    switch (row.kind) {
        case AnsweredKind::pairs:
            out.object([&] {
                for (const Value& pair : *several) {
                    const auto& both = std::get<Values>(pair.is);
                    out.key(text_in(both[0])).text(text_in(both[1]));
                }
            });
            break;
        case AnsweredKind::record:
            out.object([&] { write_figures(out, *row.of, *several); });
            break;
        case AnsweredKind::records:
            out.array([&] {
                for (const Value& each : *several) {
                    out.object([&] { write_figures(out, *row.of, std::get<Values>(each.is)); });
                }
            });
            break;
        default:
            write_value(out, value);
    }
}

// ---- in words ---------------------------------------------------------------------------------------------

/// A figure as a person reads it.
std::string spelled(const FigureRow& row, double value, UnitSystem system) {
    if (!row.unit.empty()) {
        try {
            return spell(value, figure_kind(row.key), system);
        } catch (const DomainError&) {  // of a unit that is the same in both systems
            return fmt::format("{:.6g} {}", value, row.unit);
        }
    }
    return fmt::format("{:.6g}", value);
}

/// A value in one line; empty where there is nothing to say.
std::string said_text(const FigureRow& row, const Value& value, UnitSystem system) {
    return std::visit(
        [&](const auto& is) -> std::string {
            using Is = std::remove_cvref_t<decltype(is)>;
            if constexpr (std::is_same_v<Is, std::monostate>) {
                return {};
            } else if constexpr (std::is_same_v<Is, bool>) {
                return is ? "yes" : "no";
            } else if constexpr (std::is_same_v<Is, std::int64_t>) {
                return fmt::format("{}", is);
            } else if constexpr (std::is_same_v<Is, double>) {
                return std::isfinite(is) ? spelled(row, is, system) : std::string();
            } else if constexpr (std::is_same_v<Is, std::string>) {
                return is;
            } else {
                std::string out;
                for (const Value& each : is) {
                    const auto* const pair = std::get_if<Values>(&each.is);
                    const std::string text =
                        pair == nullptr || row.kind != AnsweredKind::pairs
                            ? said_text(row, each, system)
                            : fmt::format("{} {}", text_in((*pair)[0]), text_in((*pair)[1]));
                    out += fmt::format("{}{}", out.empty() ? "" : ", ", text);
                }
                return out;
            }
        },
        value.is);
}

void write_said(Writer& out, const RecordRow& record, const Values& values, UnitSystem system) {
    out.array([&] {
        for (std::size_t i = 0; i < values.size(); ++i) {
            const FigureRow& row = record.figures[i];
            if (row.kind == AnsweredKind::told || row.kind == AnsweredKind::evidence || row.is_aside) {
                continue;
            }
            const auto* const several = std::get_if<Values>(&values[i].is);
            const bool nested = row.of != nullptr && several != nullptr && !several->empty();
            const std::string text = row.of == nullptr ? said_text(row, values[i], system) : std::string();
            if (text.empty() && !nested) {
                continue;
            }
            out.object([&] {
                out.key("key").text(row.key);
                out.key("about").text(row.about);
                if (!nested) {
                    out.key("text").text(text);
                    return;
                }
                out.key("rows").array([&] {
                    if (row.kind == AnsweredKind::record) {
                        write_said(out, *row.of, *several, system);
                        return;
                    }
                    for (const Value& each : *several) {
                        write_said(out, *row.of, std::get<Values>(each.is), system);
                    }
                });
            });
        }
    });
}

void write_leads(Writer& out, std::string_view leads) {
    out.array([&] {
        while (!leads.empty()) {
            const std::size_t end = std::min(leads.find(' '), leads.size());
            out.text(leads.substr(0, end));
            leads.remove_prefix(std::min(end + 1, leads.size()));
        }
    });
}

// ---- schemas ----------------------------------------------------------------------------------------------

void write_texts(Writer& out, std::span<const std::string_view> texts) {
    out.array([&] {
        for (const std::string_view each : texts) {
            out.text(each);
        }
    });
}

void write_range(Writer& out, const Argument& range) {
    if (std::isfinite(range.low)) {
        out.key(range.low_open ? "exclusiveMinimum" : "minimum").number(range.low);
    }
    if (std::isfinite(range.high)) {
        out.key(range.high_open ? "exclusiveMaximum" : "maximum").number(range.high);
    }
}

std::string description(const AskedRow& row) {
    return row.usual.empty() ? std::string(row.about)
                             : fmt::format("{} When not given: {}.", row.about, row.usual);
}

/// An argument as a person gives it.
void write_named(Writer& out, const AskedRow& row, const Catalogue& catalogue) {
    out.key("description").text(description(row));
    const auto type = [&](std::string_view name) { out.key("type").text(name); };
    if (row.kind == AskedKind::choice) {
        write_texts(out.key("enum"), row.choices);
        if (!row.usual.empty()) {
            out.key("default").text(row.usual);
        }
    } else if (row.kind == AskedKind::list) {
        type("array");
        if (!row.choices.empty()) {
            out.key("items").object([&] { write_texts(out.key("enum"), row.choices); });
        }
    } else if (row.kind == AskedKind::object) {
        write_texts(out.key("type"), std::array<std::string_view, 2>{"array", "object"});
        out.key("properties").object([&] {
            for (const AskedRow& part : row.parts()) {
                out.key(part.name).object([&] { write_named(out, part, catalogue); });
            }
        });
        out.key("additionalProperties").flag(false);
    } else if (row.kind == AskedKind::machine) {
        write_texts(out.key("type"), std::array<std::string_view, 2>{"string", "object"});
    } else if (row.kind == AskedKind::flag) {
        type("boolean");
        out.key("default").flag(false);
    } else if (row.kind == AskedKind::count) {
        type("integer");
    } else if (row.kind == AskedKind::text && row.kin == "Holder") {
        write_texts(out.key("type"), std::array<std::string_view, 2>{"string", "integer"});
    } else if (row.written || row.kind == AskedKind::text) {
        type("string");
    } else if (row.has_dimension) {
        write_texts(out.key("type"), std::array<std::string_view, 2>{"number", "string"});
        write_range(out, row.range);
    } else {
        type("number");
        write_range(out, row.range);
    }
    if (!row.unit.empty()) {
        out.key("unit").text(row.unit);
    }
    if (row.has_dimension) {
        out.key("dimension").text(dimension_name(row.dimension));
    }
    if (!row.kin.empty()) {
        out.key("kin").text(row.kin);
    }
    if (row.is_finer) {
        out.key("finer").flag(true);
    }
    if (row.listed != nullptr) {
        const std::vector<std::string> names = row.listed(catalogue);
        out.key("examples").array([&] {
            for (const std::string& name : names) {
                out.text(name);
            }
        });
    }
}

bool has_column(const AskedRow& row) {
    return !row.unit.empty() && row.key != row.name;
}

/// An argument by its key, a number in the key's unit.
void write_column(Writer& out, const AskedRow& row) {
    const auto plain = [&] {
        out.key("description").text(fmt::format("{} In {}.", description(row), row.unit));
        out.key("type").text("number");
        write_range(out, row.range);
    };
    if (row.kind == AskedKind::list) {
        out.key("type").text("array");
        out.key("items").object(plain);
    } else {
        plain();
    }
    out.key("of").text(row.name);
}

void write_needed(Writer& out, const AskedRow& row) {
    const auto require = [&](std::string_view key) {
        out.object([&] { write_texts(out.key("required"), std::array{key}); });
    };
    out.object([&] {
        out.key("anyOf").array([&] {
            require(row.name);
            if (has_column(row)) {
                require(row.key);
            }
        });
    });
}

void write_type(Writer& out, std::string_view name, bool always) {
    if (always) {
        out.key("type").text(name);
    } else {
        write_texts(out.key("type"), std::array<std::string_view, 2>{name, "null"});
    }
}

void write_shapes(Writer& out, const RecordRow& record);

void write_shape(Writer& out, const FigureRow& row) {
    const std::string about =
        row.unit.empty() ? std::string(row.about) : fmt::format("{} In {}.", row.about, row.unit);
    const auto items = [&](std::string_view type) {
        write_type(out, "array", row.is_always);
        out.key("items").object([&] { out.key("type").text(type); });
    };
    switch (row.kind) {
        case AnsweredKind::number:
            write_type(out, "number", row.is_always);
            break;
        case AnsweredKind::count:
            write_type(out, "integer", row.is_always);
            break;
        case AnsweredKind::flag:
            write_type(out, "boolean", row.is_always);
            break;
        case AnsweredKind::pairs:
            write_type(out, "object", row.is_always);
            out.key("additionalProperties").object([&] { out.key("type").text("string"); });
            break;
        case AnsweredKind::numbers:
            items("number");
            break;
        case AnsweredKind::counts:
            items("integer");
            break;
        case AnsweredKind::texts:
            items("string");
            break;
        case AnsweredKind::record:
            write_type(out, "object", row.is_always);
            out.key("properties").object([&] { write_shapes(out, *row.of); });
            break;
        case AnsweredKind::records:
            write_type(out, "array", row.is_always);
            out.key("items").object([&] {
                out.key("description").text(row.of->about);
                out.key("type").text("object");
                out.key("properties").object([&] { write_shapes(out, *row.of); });
            });
            break;
        default:
            write_type(out, "string", row.is_always);
    }
    out.key("description").text(about);
    if (!row.unit.empty()) {
        out.key("unit").text(row.unit);
    }
}

void write_shapes(Writer& out, const RecordRow& record) {
    for (const FigureRow& figure : record.figures) {
        if (figure.kind != AnsweredKind::told && figure.kind != AnsweredKind::evidence && !figure.is_aside) {
            out.key(figure.key).object([&] { write_shape(out, figure); });
        }
    }
}

constexpr std::array<std::string_view, 5> kEvidenceKeys{"figure", "rule", "row", "source", "kind"};
constexpr std::array<std::string_view, 3> kCautionKeys{"code", "rank", "text"};

void write_answer(Writer& out, const Question& question) {
    const auto list_of = [&](std::string_view name, std::span<const std::string_view> keys) {
        out.key(name).object([&] {
            out.key("type").text("array");
            out.key("items").object([&] {
                out.key("type").text("object");
                out.key("properties").object([&] {
                    for (const std::string_view key : keys) {
                        out.key(key).object([&] { out.key("type").text("string"); });
                    }
                });
            });
        });
    };
    out.key("description").text(question.answer->about);
    out.key("type").text("object");
    out.key("properties").object([&] {
        out.key("halfnut").object([&] { out.key("const").count(kJsonForm); });
        out.key("question").object([&] { out.key("const").text(question.name); });
        out.key("version").object([&] { out.key("const").count(question.version); });
        list_of("cautions", kCautionKeys);
        list_of("evidence", kEvidenceKeys);
        write_shapes(out, *question.answer);
    });
}

/// A shop's tables beside a question.
void write_tables(Writer& out) {
    out.key("description")
        .text(
            "The shop's own tables, laid over the built-in ones in this order. The question 'questions' with "
            "them "
            "has what halfnut_questions() has without.");
    out.key("type").text("array");
    out.key("items").object([&] {
        out.key("type").text("object");
        out.key("properties").object([&] {
            for (const auto& each : {std::pair{"table", "Its name, such as material/alloys."},
                                     std::pair{"text", "Its text, laid out as the built-in tables are."},
                                     std::pair{"name", "What messages call it; its name when not given."}}) {
                out.key(each.first).object([&] {
                    out.key("description").text(each.second);
                    out.key("type").text("string");
                });
            }
        });
        write_texts(out.key("required"), std::array<std::string_view, 2>{"table", "text"});
        out.key("additionalProperties").flag(false);
    });
}

void write_schema(Writer& out, const Question& question, const Catalogue& catalogue) {
    out.object([&] {
        out.key("$schema").text(kDialect);
        out.key("title").text(question.name);
        out.key("description").text(question.about);
        out.key("room").text(question.room);
        out.key("type").text("object");
        out.key("properties").object([&] {
            out.key("halfnut").object([&] { out.key("const").count(kJsonForm); });
            out.key("question").object([&] { out.key("const").text(question.name); });
            out.key("say").object([&] {
                out.key("description").text("Whether each figure is given in words too.");
                out.key("type").text("boolean");
                out.key("default").flag(false);
            });
            out.key("tables").object([&] { write_tables(out); });
            out.key("values").object([&] {
                out.key("type").text("object");
                out.key("properties").object([&] {
                    for (const AskedRow& row : question.arguments) {
                        out.key(row.name).object([&] { write_named(out, row, catalogue); });
                    }
                    for (const AskedRow& row : question.arguments) {
                        if (has_column(row)) {
                            out.key(row.key).object([&] { write_column(out, row); });
                        }
                    }
                });
                out.key("additionalProperties").flag(false);
                if (std::any_of(question.arguments.begin(), question.arguments.end(),
                                [](const AskedRow& row) { return row.is_required; })) {
                    out.key("allOf").array([&] {
                        for (const AskedRow& row : question.arguments) {
                            if (row.is_required) {
                                write_needed(out, row);
                            }
                        }
                    });
                }
            });
        });
        write_texts(out.key("required"), std::array<std::string_view, 2>{"question", "values"});
        out.key("additionalProperties").flag(false);
        out.key("$defs").object([&] { out.key("answer").object([&] { write_answer(out, question); }); });
    });
}

// ---- what is asked ----------------------------------------------------------------------------------------

constexpr std::string_view kHalfnut = "halfnut";
constexpr std::string_view kQuestion = "question";
constexpr std::string_view kValues = "values";
constexpr std::string_view kSay = "say";
constexpr std::string_view kTables = "tables";
constexpr std::array kKeys{kHalfnut, kQuestion, kValues, kSay, kTables};
constexpr std::string_view kQuestions = "questions";  // what the questions are, not one of them

const Given* member(const Given& object, std::string_view key) {
    const auto found = std::find(object.keys.begin(), object.keys.end(), key);
    return found == object.keys.end() ? nullptr
                                      : &object.items[static_cast<std::size_t>(found - object.keys.begin())];
}

/// The text at a key of one of `tables`.
std::string_view text_at(const Given& table, std::string_view key, std::string_view otherwise) {
    const Given* const found = member(table, key);
    if (found == nullptr && !otherwise.empty()) {
        return otherwise;
    }
    if (found == nullptr || found->tag != Given::Tag::text) {
        throw DomainError(
            fmt::format("tables must be a list of objects with the texts 'table' and 'text'; one has no '{}'",
                        key),
            {std::string(kTables), {}, {}, {}});
    }
    return found->text;
}

/// A shop's tables laid over a catalogue; nothing where none are given.
std::unique_ptr<const Overlay> laid(const Given* tables, const Catalogue& catalogue) {
    if (tables == nullptr || tables->tag == Given::Tag::nothing) {
        return nullptr;
    }
    if (tables->tag != Given::Tag::list) {
        throw DomainError(fmt::format("tables must be a list, got {}", tables->shown()),
                          {std::string(kTables), tables->shown(), {}, {}});
    }
    auto out = std::make_unique<Overlay>(catalogue);
    for (const Given& table : tables->items) {
        const std::string_view name = text_at(table, "table", {});
        out->add(name, text_at(table, "text", {}), text_at(table, "name", name));
    }
    return out;
}

/// Numbers in the unit of a key, as quantities where the key's unit belongs to a dimension.
class InUnit {
   public:
    Given of(const AskedRow& row, const Given& value) {
        if (value.tag == Given::Tag::list) {
            std::vector<Given> items;
            for (const Given& each : value.items) {
                items.push_back(of(row, each));
            }
            lists_.push_back(std::move(items));
            Given out = value;
            out.items = lists_.back();
            return out;
        }
        if (value.tag != Given::Tag::number) {
            throw DomainError(
                fmt::format("{} must be a number in {}, got {}", row.key, row.unit, value.shown()),
                {std::string(row.name), value.shown(), {}, {}});
        }
        const Unit* const unit = row.has_dimension ? find_unit(row.unit, row.dimension) : nullptr;
        return unit == nullptr ? value
                               : Given{.tag = Given::Tag::quantity, .number = value.number, .unit = unit};
    }

   private:
    std::vector<std::vector<Given>> lists_;  // a vector keeps its items where they are when it is moved
};

/// The values of a question by place.
std::vector<Given> placed(const Question& question, const Given& values, InUnit& in_unit) {
    std::vector<Given> out(question.arguments.size());
    for (std::size_t i = 0; i < values.keys.size(); ++i) {
        const std::string_view key = values.keys[i];
        const auto of_key = [&](const AskedRow& row) {
            return row.name == key || (!row.unit.empty() && row.key == key);
        };
        const auto row = std::find_if(question.arguments.begin(), question.arguments.end(), of_key);
        if (row == question.arguments.end()) {
            std::vector<std::string_view> names;
            for (const AskedRow& each : question.arguments) {
                names.push_back(each.name);
            }
            std::vector<std::string_view> known = names;
            for (const AskedRow& each : question.arguments) {
                if (!each.unit.empty()) {
                    known.push_back(each.key);
                }
            }
            const std::string_view near = nearest_name(key, known);
            throw DomainError(fmt::format("{} has no '{}'{}", question.name, bounds::shown(key),
                                          near.empty() ? "" : fmt::format("; did you mean '{}'?", near)),
                              {bounds::shown(key), {}, {names.begin(), names.end()}, std::string(near)});
        }
        Given& place = out[static_cast<std::size_t>(row - question.arguments.begin())];
        if (place.tag != Given::Tag::nothing) {
            throw DomainError(fmt::format("{} is given twice", row->name),
                              {std::string(row->name), {}, {}, {}});
        }
        const Given& value = values.items[i];
        place = key == row->name || value.tag == Given::Tag::nothing ? value : in_unit.of(*row, value);
    }
    return out;
}

std::string_view code_of(const std::exception& error) {
    if (dynamic_cast<const UnitError*>(&error) != nullptr) {
        return "unit";
    }
    if (dynamic_cast<const NotTabulatedError*>(&error) != nullptr) {
        return "not_tabulated";
    }
    if (dynamic_cast<const DesignationError*>(&error) != nullptr) {
        return "designation";
    }
    if (dynamic_cast<const TableError*>(&error) != nullptr) {
        return "table";
    }
    if (dynamic_cast<const DomainError*>(&error) != nullptr) {
        return "domain";
    }
    if (dynamic_cast<const Error*>(&error) != nullptr) {
        return "input";
    }
    return dynamic_cast<const std::bad_alloc*>(&error) != nullptr ? "memory" : "unforeseen";
}

}  // namespace

std::string json_text(std::string_view text) {
    std::string out = "\"";
    for (const char letter : text) {
        const auto byte = static_cast<unsigned char>(letter);
        if (letter == '"' || letter == '\\') {
            out += '\\';
            out += letter;
        } else if (letter == '\n') {
            out += "\\n";
        } else if (letter == '\t') {
            out += "\\t";
        } else if (byte < 0x20 || byte == 0x7f) {
            out += fmt::format("\\u{:04x}", byte);
        } else {
            out += letter;
        }
    }
    return out + '"';
}

std::string answered_json(const Given& asked, const Catalogue& catalogue) {
    const Given* const values = member(asked, kValues);
    if (asked.tag != Given::Tag::object || (values != nullptr && values->tag != Given::Tag::object)) {
        throw DomainError("a question is an object with 'question' and, as an object, 'values'");
    }
    for (const std::string_view key : asked.keys) {
        if (std::find(kKeys.begin(), kKeys.end(), key) == kKeys.end()) {
            throw DomainError(fmt::format("a question has no '{}'; it has '{}'", bounds::shown(key),
                                          fmt::join(kKeys, "', '")),
                              {bounds::shown(key), {}, {kKeys.begin(), kKeys.end()}, {}});
        }
    }
    const Given* const say = member(asked, kSay);
    if (say != nullptr && say->tag != Given::Tag::flag) {
        throw DomainError(fmt::format("say must be true or false, got {}", say->shown()),
                          {std::string(kSay), say->shown(), {}, {}});
    }
    if (const Given* const form = member(asked, kHalfnut);
        form != nullptr && (form->tag != Given::Tag::number || form->number != kJsonForm)) {
        throw DomainError(
            fmt::format("halfnut must be {}, the version of this form, got {}", kJsonForm, form->shown()),
            {std::string(kHalfnut), form->shown(), {fmt::format("{}", kJsonForm)}, {}});
    }
    const Given* const name = member(asked, kQuestion);
    if (name != nullptr && name->tag != Given::Tag::text) {
        throw DomainError(fmt::format("question must be text, got {}", name->shown()),
                          {std::string(kQuestion), name->shown(), {}, {}});
    }
    const std::unique_ptr<const Overlay> shop = laid(member(asked, kTables), catalogue);
    const Catalogue& tables = shop == nullptr ? catalogue : shop->catalogue();
    const std::string_view named = name == nullptr ? std::string_view() : name->text;
    if (named == kQuestions) {
        return schemas_json(tables);
    }
    const Question& question = find_question(named);
    InUnit in_unit;
    const std::vector<Given> given =
        values == nullptr ? std::vector<Given>() : placed(question, *values, in_unit);
    return answer_json(ask(question, given, tables), tables, say != nullptr && say->number != 0.0);
}

std::string answer_json(const Answer& answer, const Catalogue& catalogue, bool say) {
    const RecordRow& record = *answer.question->answer;
    const Values values = Telling(answer, catalogue).values();
    Tells tells = tells_of(record, values, catalogue);
    std::stable_sort(tells.cautions.begin(), tells.cautions.end(),
                     [](const ToldCaution& a, const ToldCaution& b) { return a.rank < b.rank; });
    Writer out;
    out.object([&] {
        out.key(kHalfnut).count(kJsonForm);
        out.key(kQuestion).text(answer.question->name);
        out.key("version").count(answer.question->version);
        write_figures(out, record, values);
        out.key("cautions").array([&] {
            for (const ToldCaution& each : tells.cautions) {
                out.object([&] {
                    out.key("code").text(each.code);
                    out.key("rank").text(enum_name(each.rank));
                    out.key("text").text(each.text);
                });
            }
        });
        out.key("evidence").array([&] {
            for (const EvidenceText& each : tells.evidence) {
                const std::array texts{&each.figure, &each.rule, &each.row, &each.source, &each.kind};
                out.object([&] {
                    for (std::size_t i = 0; i < texts.size(); ++i) {
                        out.key(kEvidenceKeys[i]).text(*texts[i]);
                    }
                });
            }
        });
        if (say) {
            write_said(out.key("said"), record, values, answer.inch ? UnitSystem::inch : UnitSystem::metric);
            write_leads(out.key("leads"), record.leads);
        }
    });
    return out.take();
}

std::string schema_json(const Question& question, const Catalogue& catalogue) {
    Writer out;
    write_schema(out, question, catalogue);
    return out.take();
}

std::string schemas_json(const Catalogue& catalogue) {
    Writer out;
    out.object([&] {
        out.key("$schema").text(kDialect);
        out.key("title").text(kHalfnut);
        out.key("oneOf").array([&] {
            for (const Question* const each : questions()) {
                write_schema(out, *each, catalogue);
            }
        });
    });
    return out.take();
}

std::string argument_schema_json(const AskedRow& row, const Catalogue& catalogue) {
    Writer out;
    out.object([&] { write_named(out, row, catalogue); });
    return out.take();
}

std::string error_json(const std::exception& error) {
    Writer out;
    const auto* const own = dynamic_cast<const Error*>(&error);
    const Fault fault = own == nullptr ? Fault() : own->fault();
    out.object([&] {
        out.key("error").object([&] {
            out.key("code").text(code_of(error));
            out.key("message").text(error.what());
            for (const auto& [key, value] :
                 {std::pair{"argument", &fault.argument}, std::pair{"value", &fault.value},
                  std::pair{"nearest", &fault.nearest}}) {
                if (!value->empty()) {
                    out.key(key).text(*value);
                }
            }
            if (!fault.allowed.empty()) {
                out.key("allowed").array([&] {
                    for (const std::string& each : fault.allowed) {
                        out.text(each);
                    }
                });
            }
        });
    });
    return out.take();
}

}  // namespace halfnut
