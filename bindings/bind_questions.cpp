// Questions: every one through one function. No question, no argument and no figure is known here by its
// name.

#include <fmt/format.h>

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "convert.hpp"
#include "halfnut/batch/run.hpp"
#include "halfnut/core/declared.hpp"
#include "halfnut/core/file_table.hpp"
#include "halfnut/core/json.hpp"
#include "halfnut/core/question.hpp"
#include "halfnut/core/tell.hpp"
#include "halfnut/core/words.hpp"
#include "halfnut/cutting/closing.hpp"
#include "halfnut/job/answer.hpp"
#include "halfnut/job/job_file.hpp"
#include "halfnut/job/lot.hpp"
#include "halfnut/job/walk.hpp"
#include "halfnut/knurls/wheel_file.hpp"
#include "halfnut/machine/machine.hpp"
#include "halfnut/machine/machine_file.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::bind {

using namespace pybind11::literals;

namespace {

/// An answer as Python holds it, with what was asked: it is pickled as that, and asked again. Of one within
/// another the way there: places of figures, and which of their records.
struct Answered {
    Answer answer;
    py::tuple values;
    SharedCatalogue catalogue;
    Telling telling;
    std::vector<std::pair<std::size_t, std::size_t>> way{};
};

// ---- what is asked ----------------------------------------------------------------------------------------

/// What was given, with what it views: lists and texts that are made on the way.
class Taken {
   public:
    explicit Taken(const py::tuple& values) {
        given_.reserve(values.size());
        for (const py::handle value : values) {
            given_.push_back(take(value));
        }
    }
    [[nodiscard]] std::span<const Given> given() const { return given_; }

   private:
    Given take(py::handle value) {
        if (value.is_none()) {
            return {};
        }
        if (PyBool_Check(value.ptr()) != 0) {
            return {.tag = Given::Tag::flag, .number = value.ptr() == Py_True ? 1.0 : 0.0};
        }
        if (PyFloat_Check(value.ptr()) != 0 || PyLong_Check(value.ptr()) != 0) {
            const double number = PyFloat_AsDouble(value.ptr());
            if (PyErr_Occurred() == nullptr) {
                return {.tag = Given::Tag::number, .number = number};
            }
            PyErr_Clear();  // a whole number beyond all floats
            return {.tag = Given::Tag::number, .number = std::numeric_limits<double>::infinity()};
        }
        if (PyUnicode_Check(value.ptr()) != 0) {
            return {.tag = Given::Tag::text, .text = viewed(value)};  // the asker holds it
        }
        if (py::isinstance<Quantity>(value)) {
            const auto& quantity = value.cast<const Quantity&>();
            return {.tag = Given::Tag::quantity, .number = quantity.value(), .unit = &quantity.unit()};
        }
        if (py::isinstance<machine::Machine>(value)) {
            return {.tag = Given::Tag::machine,
                    .text = "a machine",
                    .machine = value.cast<const machine::Machine*>()};
        }
        const std::string_view looks = kept(py::repr(value));
        if (py::isinstance<py::dict>(value)) {
            std::vector<Given> items;
            std::vector<std::string_view> keys;
            for (const auto& [key, item] : py::reinterpret_borrow<py::dict>(value)) {
                keys.push_back(kept(py::str(key)));
                items.push_back(take(item));
            }
            lists_.push_back(std::make_unique<std::vector<Given>>(std::move(items)));
            keys_.push_back(std::make_unique<std::vector<std::string_view>>(std::move(keys)));
            return {.tag = Given::Tag::object, .text = looks, .items = *lists_.back(), .keys = *keys_.back()};
        }
        if (const Given known = known_thing(value, looks); known.object != nullptr) {
            return known;
        }
        if (py::isinstance<py::tuple>(value) || py::isinstance<py::list>(value)) {
            std::vector<Given> items;
            for (const py::handle item : value) {
                items.push_back(take(item));
            }
            lists_.push_back(std::make_unique<std::vector<Given>>(std::move(items)));
            return {.tag = Given::Tag::list, .text = looks, .items = *lists_.back()};
        }
        return {.tag = Given::Tag::other, .text = looks};
    }
    /// A thing of the core that an earlier answer gave.
    static Given known_thing(py::handle value, std::string_view looks) {
        Given out{.tag = Given::Tag::other, .text = looks};
        const auto is_a = [&]<class Thing>(const Thing* /*tag*/) {
            if (py::isinstance<Thing>(value)) {
                out.type = &typeid(Thing);
                out.object = value.cast<const Thing*>();
            }
        };
        is_a(static_cast<const threads::BuildUp*>(nullptr));
        is_a(static_cast<const threads::AnyThread*>(nullptr));
        if (py::isinstance<Answered>(value) && value.cast<const Answered&>().way.empty()) {
            const Answer& answer = value.cast<const Answered&>().answer;
            out.type = answer.question->answered;
            out.object = answer.record.get();
        }
        return out;
    }
    static std::string_view viewed(py::handle text) {
        Py_ssize_t size = 0;
        const char* const data = PyUnicode_AsUTF8AndSize(text.ptr(), &size);
        if (data == nullptr) {
            throw py::error_already_set();
        }
        return {data, static_cast<std::size_t>(size)};
    }
    std::string_view kept(py::object text) { return viewed(texts_.emplace_back(std::move(text))); }

    std::vector<Given> given_;
    std::vector<py::object> texts_;
    std::vector<std::unique_ptr<std::vector<Given>>> lists_;
    std::vector<std::unique_ptr<std::vector<std::string_view>>> keys_;
};

// ---- values -----------------------------------------------------------------------------------------------

/// A tuple of what `made` makes of each.
template <class Items, class Made>
py::tuple tuple_of(const Items& items, const Made& made) {
    py::tuple out(items.size());
    for (std::size_t i = 0; i < items.size(); ++i) {
        out[i] = made(items[i]);
    }
    return out;
}

template <class Any>
py::object value_read(const Any& value);

py::dict table_of(const FileEntries& entries) {
    py::dict out;
    for (const FileEntry& entry : entries) {
        out[py::str(entry.key)] = value_read(entry.value);
    }
    return out;
}

/// A value of an answer, or of a person's file.
template <class Any>
py::object value_read(const Any& value) {
    return std::visit(
        [](const auto& is) -> py::object {
            using Is = std::remove_cvref_t<decltype(is)>;
            if constexpr (std::is_same_v<Is, std::monostate>) {
                return py::none();
            } else if constexpr (std::is_same_v<Is, FileEntries>) {
                return table_of(is);
            } else if constexpr (std::is_same_v<Is, std::vector<Any>>) {
                return tuple_of(is, &value_read<Any>);
            } else if constexpr (std::is_same_v<Is, Quantity>) {
                return is.dimension() == Dimension::length ? py::cast(Length(is)) : py::cast(is);
            } else {
                return py::cast(is);
            }
        },
        value.is);
}

// ---- a person's file --------------------------------------------------------------------------------------

py::list mistakes_of(const FileReading& reading) {
    py::list out;
    for (const FileMistake& mistake : reading.mistakes) {
        py::list path;
        for (const FileStep& step : mistake.path) {
            path.append(step.place ? py::object(py::int_(*step.place)) : py::object(py::str(step.key)));
        }
        out.append(py::make_tuple(path, mistake.problem, mistake.of_value, mistake.allowed, mistake.nearest,
                                  mistake.place));
    }
    return out;
}

py::tuple machine_of_file(const py::object& file, const Catalogue& catalogue) {
    const Taken taken(py::make_tuple(file));
    FileReading reading{catalogue};
    const machine::Machine found = machine::machine_of_file(taken.given().front(), reading);
    if (!reading.mistakes.empty()) {
        return py::make_tuple(py::none(), mistakes_of(reading), py::none());
    }
    const std::vector<std::string> told = machine::machine_lines(taken.given().front(), found);
    return py::make_tuple(found, py::list(), py::tuple(py::cast(told)));
}

py::list wheel_file_mistakes(const py::object& file, const Catalogue& catalogue) {
    const Taken taken(py::make_tuple(file));
    FileReading reading{catalogue};
    (void)knurls::wheels_of_file(taken.given().front(), reading);
    return mistakes_of(reading);
}

/// `find_machine`: of a name that by which the machine is found again, why there is none, and all names.
py::tuple job_of_file(const py::object& file, std::string_view text, const py::function& find_machine,
                      const Catalogue& catalogue) {
    const Taken taken(py::make_tuple(file));
    FileReading reading{catalogue};
    const auto named = [&](std::string_view name) {
        const auto [found, problem, known] =
            find_machine(name).cast<std::tuple<std::string, std::string, std::vector<std::string>>>();
        return job::MachineNamed{found, problem, known};
    };
    const FileEntries found = job::job_of_file(taken.given().front(), named, reading, text);
    return py::make_tuple(table_of(found), mistakes_of(reading));
}

// ---- what is answered -------------------------------------------------------------------------------------

/// Keys of a record as texts of the interpreter, made once: they live as long as the process.
const std::vector<PyObject*>& keys_of(const RecordRow& row) {
    static auto& known = *new std::map<const RecordRow*, std::vector<PyObject*>>;
    std::vector<PyObject*>& keys = known[&row];
    if (keys.empty()) {
        for (const FigureRow& figure : row.figures) {
            keys.push_back(py::str(figure.key.data(), figure.key.size()).release().ptr());
        }
    }
    return keys;
}

py::dict dictionary(const RecordRow& row, const Values& values);

py::object figure_of(const FigureRow& figure, const Value& value) {
    if (figure.kind == AnsweredKind::record) {
        const auto* const record = std::get_if<Values>(&value.is);
        return record == nullptr ? py::object(py::none()) : py::object(dictionary(*figure.of, *record));
    }
    if (figure.kind == AnsweredKind::records) {
        return tuple_of(std::get<Values>(value.is),
                        [&](const Value& item) { return dictionary(*figure.of, std::get<Values>(item.is)); });
    }
    return value_of(value);
}

py::dict dictionary(const RecordRow& row, const Values& values) {
    const std::vector<PyObject*>& keys = keys_of(row);
    py::dict out;
    for (std::size_t i = 0; i < keys.size(); ++i) {
        const py::object shown = figure_of(row.figures[i], values[i]);
        if (PyDict_SetItem(out.ptr(), keys[i], shown.ptr()) != 0) {
            throw py::error_already_set();
        }
    }
    return out;
}

/// A record within an answer: its figures, and how it is told where it is by itself.
py::dict part_of(const Telling& record) {
    py::dict out = dictionary(record.row(), record.values());
    if (!record.row().says.answer.empty()) {
        out["said"] = record.answer();
    }
    return out;
}

Answered ask_question(std::string_view name, const py::tuple& values, const SharedCatalogue& catalogue) {
    const Question& question = find_question(name);
    const Taken taken(values);
    const Answer answer = ask(question, taken.given(), catalogue.get());
    return {answer, values, catalogue, Telling(answer, catalogue.get())};
}

/// Whether the core reads each value as it is.
bool as_they_are(const py::tuple& values) {
    static const std::array kKinds{py::type::of(py::none()),         py::type::of(py::str()),
                                   py::type::of(py::float_()),       py::type::of(py::int_()),
                                   py::type::of(py::bool_()),        py::type::of<Quantity>(),
                                   py::type::of<Length>(),           py::type::of<machine::Machine>(),
                                   py::type::of<threads::BuildUp>(), py::type::of<threads::AnyThread>(),
                                   py::type::of<Answered>()};
    return std::all_of(values.begin(), values.end(), [](const py::handle value) {
        const auto* const kind = reinterpret_cast<PyObject*>(Py_TYPE(value.ptr()));
        return std::any_of(kKinds.begin(), kKinds.end(),
                           [&](const py::handle one) { return one.ptr() == kind; }) ||
               (PyTuple_CheckExact(value.ptr()) && as_they_are(py::reinterpret_borrow<py::tuple>(value)));
    });
}

Answered within(const Answered& self, std::size_t place, std::size_t which) {
    Answered out{self.answer, self.values, self.catalogue, self.telling.within(place).at(which), self.way};
    out.way.emplace_back(place, which);
    return out;
}

/// The answer within it that a way leads to.
Answered further(const Answered& self, std::span<const std::pair<std::size_t, std::size_t>> way) {
    return way.empty() ? self : further(within(self, way[0].first, way[0].second), way.subspan(1));
}

/// One figure as it is read; nothing for one that only the answer has that this would be by itself.
py::object one_figure(const Answered& self, std::string_view key) {
    const std::span<const FigureRow> figures = self.telling.row().figures;
    for (std::size_t i = 0; i < figures.size(); ++i) {
        if (figures[i].key != key) {
            continue;
        }
        if (figures[i].of == nullptr) {
            const Value value = self.telling.figure(i);
            return figures[i].kin.empty()
                       ? value_of(value)
                       : py::cast(ask_question(question_of(figures[i].kin).name,
                                               py::make_tuple(value_of(value)), self.catalogue));
        }
        const std::vector<Telling> records = self.telling.within(i);
        py::tuple out(records.size());
        for (std::size_t j = 0; j < records.size(); ++j) {
            out[j] = answers_itself(*figures[i].of) ? py::cast(within(self, i, j)) : part_of(records[j]);
        }
        return figures[i].kind == AnsweredKind::records ? py::object(out)
               : records.empty()                        ? py::object(py::none())
                                                        : py::object(out[0]);
    }
    return py::none();
}

/// What it cautions of, code, text, rank and gravity each, and what it rests on.
py::tuple tells_in(const Answered& self) {
    const Tells tells = tells_of(self.telling.row(), self.telling.values(), self.catalogue.get());
    const auto caution = [](const ToldCaution& each) {
        return py::make_tuple(each.code, each.text, enum_name(each.rank), each.gravity);
    };
    return py::make_tuple(tuple_of(tells.cautions, caution), py::tuple(py::cast(tells.evidence)));
}

/// A figure of many rows: numbers with NaN where there is none, or texts.
struct FigureColumn {
    std::string key{};
    FigurePlace at{};
    py::array_t<double> numbers{};
    double* number = nullptr;
    std::vector<std::string> texts{};
};

void put(FigureColumn& column, std::size_t row, const Value& value) {
    if (column.number != nullptr) {
        column.number[row] = number_in(value).value_or(kNaN);
    } else {
        column.texts[row] = joined_text(value);
    }
}

/// `columns`: (place of the argument, numbers, whether they were inches) or (place, codes, texts) each, every
/// one as long as there are rows.
py::dict ask_question_rows(std::string_view name, const py::tuple& values, const py::list& columns,
                           std::size_t rows, const std::vector<std::string>& wanted,
                           const Catalogue& catalogue, std::size_t workers) {
    const Question& question = find_question(name);
    const Taken common(values);
    std::vector<AskedColumn> asked;
    std::vector<std::vector<std::string>> texts(columns.size());
    std::vector<std::vector<std::string_view>> views(columns.size());
    std::vector<py::object> kept;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const auto column = columns[i].cast<py::tuple>();
        AskedColumn one{.argument = column[0].cast<std::size_t>()};
        if (py::isinstance<py::bool_>(column[2])) {
            one.inch = column[2].cast<bool>();
            auto numbers = column[1].cast<Doubles>();
            one.numbers = {numbers.data(), static_cast<std::size_t>(numbers.size())};
            kept.push_back(std::move(numbers));
        } else {
            auto codes =
                column[1].cast<py::array_t<std::int32_t, py::array::c_style | py::array::forcecast>>();
            one.codes = {codes.data(), static_cast<std::size_t>(codes.size())};
            kept.push_back(std::move(codes));
            texts[i] = column[2].cast<std::vector<std::string>>();
            views[i].assign(texts[i].begin(), texts[i].end());
            one.texts = views[i];
        }
        asked.push_back(one);
    }
    std::vector<FigureColumn> figures;
    figures.reserve(wanted.size());
    for (const std::string& key : wanted) {
        FigureColumn& column =
            figures.emplace_back(FigureColumn{.key = key, .at = find_figure(question, key)});
        const AnsweredKind kind = column.at.figure->kind;
        if (kind == AnsweredKind::number || kind == AnsweredKind::count || kind == AnsweredKind::flag) {
            column.numbers = py::array_t<double>(static_cast<py::ssize_t>(rows));
            column.number = column.numbers.mutable_data();
            std::fill_n(column.number, rows, kNaN);
        } else {
            column.texts.resize(rows);
        }
    }
    py::array_t<std::uint8_t> status(static_cast<py::ssize_t>(rows));
    std::uint8_t* const code = status.mutable_data();
    std::fill_n(code, rows, std::uint8_t{0});
    std::vector<std::string> why(rows);
    {
        const py::gil_scoped_release release;
        const auto ask_some = [&](std::size_t first, std::size_t last) {
            ask_rows(
                question, common.given(), asked, first, last, catalogue,
                [&](std::size_t row, const void* answer) {
                    const FigureRow* within = nullptr;
                    Value record;
                    for (FigureColumn& column : figures) {
                        if (column.at.within == nullptr) {
                            put(column, row, column.at.figure->get(answer));
                            continue;
                        }
                        if (column.at.within != within) {  // those of one record stand beside each other
                            within = column.at.within;
                            record = within->get(answer);
                        }
                        if (const auto* const inner = std::get_if<Values>(&record.is)) {
                            put(column, row, (*inner)[column.at.place]);
                        }
                    }
                },
                [&](std::size_t row, StatusCode failure, std::string_view words) {
                    code[row] = static_cast<std::uint8_t>(failure);
                    why[row] = words;
                });
        };
        ask_some(0, 0);  // what all rows share is refused even where there are none
        batch::run_blocks(rows, batch::workers_for(rows, batch::kSerialLookUps, workers), batch::kBlockRows,
                          [&] { return ask_some; });
    }
    py::dict out;
    for (FigureColumn& column : figures) {
        out[text(column.key)] =
            column.number != nullptr ? py::object(column.numbers) : text_column(column.texts);
    }
    out["status"] = status;
    out["reason"] = text_column(why);
    return out;
}

// ---- what is declared -------------------------------------------------------------------------------------

py::dict declared_question(std::string_view name) {
    return dictionary(kDeclaredQuestion, values_of(kDeclaredQuestion, &find_question(name)));
}

std::vector<std::string_view> question_names() {
    std::vector<std::string_view> out;
    out.reserve(questions().size());
    for (const Question* const question : questions()) {
        out.push_back(question->name);
    }
    return out;
}

using Machines = std::map<std::string, const machine::Machine*, std::less<>>;

std::vector<job::Part> parts_of(const Taken& job, const Machines& machines, const Catalogue& catalogue,
                                std::string_view text = {}) {
    const auto machine_of = [&](std::string_view name) {
        const auto at = machines.find(name);
        return at == machines.end() ? nullptr : at->second;
    };
    return job::parts_of(job.given().front(), machine_of, catalogue, text);
}

/// What was asked as Python gives it; `made` has the answers that there are, by their records.
py::object given_back(const Given& given, const std::map<const void*, py::object>& made) {
    using Tag = Given::Tag;
    switch (given.tag) {
        case Tag::nothing:
            return py::none();
        case Tag::flag:
            return py::bool_(given.number != 0.0);
        case Tag::number:
            return py::float_(given.number);
        case Tag::text:
            return text(given.text);
        case Tag::quantity:
            return value_read(FileValue{Quantity(given.number, *given.unit)});
        case Tag::machine:
            return py::cast(given.machine);
        case Tag::list:
            return tuple_of(given.items, [&](const Given& each) { return given_back(each, made); });
        default:
            break;
    }
    if (const auto* const thread = given.as<threads::AnyThread>()) {
        return py::cast(*thread);
    }
    const auto* const build_up = given.as<threads::BuildUp>();
    return build_up != nullptr ? py::cast(*build_up) : made.at(given.object);
}

/// A part's operations: figures, and the answers by what they are with the names of their records.
py::tuple operations_of(const job::AnsweredPart& part, const SharedCatalogue& catalogue) {
    std::map<const void*, py::object> made;
    for (const job::Asked& each : part.kept->asked) {
        const py::tuple values =
            tuple_of(each.values, [&](const Given& one) { return given_back(one, made); });
        made[each.answer.record.get()] =
            py::cast(Answered{each.answer, values, catalogue, Telling(each.answer, catalogue.get())});
    }
    return tuple_of(part.operations, [&](const job::Answered& found) {
        py::dict out = dictionary(job::kAnswered, values_of(job::kAnswered, &found));
        py::dict answers;
        for (const auto& [name, asked] : found.answers) {
            answers[text(name)] =
                py::make_tuple(asked->answer.question->answer->name, made.at(asked->answer.record.get()));
        }
        out["answers"] = answers;
        return out;
    });
}

py::dict walk_job(const py::dict& job, const Machines& machines, std::string_view text,
                  const SharedCatalogue& catalogue, bool asked) {
    const Taken taken(py::make_tuple(job));
    const std::vector<job::Part> parts = parts_of(taken, machines, catalogue.get(), text);
    const job::WalkedJob walked = job::walk(parts, catalogue.get());
    py::dict out = dictionary(job::kWalkedJob, values_of(job::kWalkedJob, &walked));
    for (std::size_t i = 0; asked && i < parts.size(); ++i) {
        const job::AnsweredPart part =
            job::answer_part(taken.given().front(), i, parts[i], walked.parts[i], catalogue.get());
        const py::object shown = out["parts"][py::int_(i)];
        shown["answered"] = operations_of(part, catalogue);
        const std::optional<job::Order> order = job::better_order(parts[i], part, catalogue.get());
        shown["order"] =
            order ? py::object(dictionary(job::kOrder, values_of(job::kOrder, &*order))) : py::none();
    }
    return out;
}

// ---- a lot ------------------------------------------------------------------------------------------------

py::dict lot_of(double time_s, int quantity) {
    const job::Lot found = job::lot_of(time_s, quantity);
    return dictionary(job::kLot, values_of(job::kLot, &found));
}

/// What a size is measured with, and how far that errs.
py::tuple measured_with(bool inside, bool along, double size_mm, double band_mm, const Catalogue& catalogue) {
    const cutting::Measured found = cutting::measured_with(inside, along, size_mm, band_mm);
    return py::make_tuple(find_words("instrument", enum_name(found.instrument), catalogue), found.error_mm);
}

py::dict cut_up(const py::dict& part) {
    const Taken taken(py::make_tuple(part));
    const job::StockAsk asked = job::stock_of(taken.given().front());
    const job::CutList found{asked, job::cut_up(asked)};
    return dictionary(job::kCutList, values_of(job::kCutList, &found));
}

py::tuple bars_of(const py::dict& job) {
    const Taken taken(py::make_tuple(job));
    return tuple_of(job::bars_of(taken.given().front()), [](const job::Sawn& each) {
        return dictionary(job::kSawn, values_of(job::kSawn, &each));
    });
}

/// What a job's file may say of an operation.
py::tuple job_kinds() {
    return tuple_of(job::kinds(), [](const job::Kind& each) {
        return dictionary(job::kKind, values_of(job::kKind, &each));
    });
}

}  // namespace

py::object value_of(const Value& value) {
    return value_read(value);
}

const void* answer_held(py::handle answer, const std::type_info& kind) {
    const Answer& held = py::cast<const Answered&>(answer).answer;
    if (*held.question->answered != kind) {
        throw DomainError("this answers another question");
    }
    return held.record.get();
}

std::shared_ptr<void> read_question(std::string_view name, const py::tuple& values, Asking& asking) {
    return read_asked(find_question(name), Taken(values).given(), asking);
}

void bind_questions(py::module_& module) {
    py::class_<Answered> type(module, "Answer",
                              "The answer to a question, its figures read when they are asked for.");
    def_value<Answered>(
        type,
        [](py::handle self) {
            const auto& its = self.cast<const Answered&>();
            return py::make_tuple(its.answer.question->name, its.values, its.catalogue,
                                  py::tuple(py::cast(its.way)));
        },
        [](const py::tuple& state) {
            const Answered whole = ask_question(held<std::string>(state, 0), held<py::tuple>(state, 1),
                                                held<SharedCatalogue>(state, 2));
            return further(whole, held<std::vector<std::pair<std::size_t, std::size_t>>>(state, 3));
        });
    type.def_readonly("catalogue", &Answered::catalogue, "What it was asked of.")
        .def_property_readonly(
            "is_whole", [](const Answered& self) { return self.way.empty(); },
            "Whether it is what was asked for, not an answer within that.")
        .def("figure", &one_figure, "key"_a, "One figure.")
        .def("tells", &tells_in, "Cautions (code, text, rank, gravity) and evidence.")
        .def(
            "filled",
            [](const Answered& self, std::string_view text, std::string_view unit) {
                return (unit.empty() ? self.telling : self.telling.in(unit)).filled(text);
            },
            "template"_a, "unit"_a,
            "A template with its figures, in its own unit where that is empty; or None.")
        .def(
            "says",
            [](const Answered& self) {
                const Says& says = self.telling.row().says;
                return py::make_tuple(self.telling.answer(), self.telling.filled(says.first),
                                      self.telling.filled(says.last));
            },
            "Its answer, and what is printed first and last in the place of it and of nothing.")
        .def(
            "rows", [](const Answered& self) { return self.telling.rows(); },
            "What stands under the answer: label and text.")
        .def(
            "json", [](const Answered& self) { return answer_json(self.answer, self.catalogue.get()); },
            "The whole of what was asked as JSON.");
    module.def(
        "ask",
        [](std::string_view name, const py::tuple& values, const SharedCatalogue& catalogue,
           const py::object& read) {
            const bool plain = read.is_none() || as_they_are(values);
            return ask_question(name, plain ? values : py::tuple(read(name, values)), catalogue);
        },
        "name"_a, "values"_a, "catalogue"_a, "read"_a = py::none(),
        "The answer to the question of a name. `values` are those of its arguments in their order; None is "
        "not given. `read` makes what the core reads of values that it does not take as they are.");
    module.def("ask_rows", &ask_question_rows, "name"_a, "values"_a, "columns"_a, "rows"_a, "wanted"_a,
               "catalogue"_a, "workers"_a = 0,
               "The same for many rows: figures as columns, with a status and a reason each. `columns` are "
               "(place of the argument, numbers, whether they were inches) or (place, codes, texts).");
    module.def(
        "answered_json",
        [](const py::object& asked, const Catalogue& catalogue) {
            return answered_json(Taken(py::make_tuple(asked)).given().front(), catalogue);
        },
        "asked"_a, "catalogue"_a, "The answer to a question that came as JSON, as JSON.");
    module.def(
        "schema_json",
        [](std::string_view name, const Catalogue& catalogue) {
            return schema_json(find_question(name), catalogue);
        },
        "name"_a, "catalogue"_a, "The JSON Schema of a question and of its answer.");
    module.def(
        "machine_of_file", &machine_of_file, "file"_a, "catalogue"_a,
        "The machine of a file's tables, or None, every mistake in them (the keys on the way to it, what is "
        "wrong, whether it is a value's, what is allowed and what is nearest), and the machine in lines.");
    module.def("machine_file_keys", &machine::machine_file_keys, "Every key of a machine file.");
    module.def("wheel_file_mistakes", &wheel_file_mistakes, "file"_a, "catalogue"_a,
               "Every mistake in the tables of a file of knurl wheels.");
    module.def(
        "job_of_file", &job_of_file, "file"_a, "text"_a, "find_machine"_a, "catalogue"_a,
        "The tables of a job's file as they are read, whole only where there is no mistake, and every "
        "mistake "
        "in them. `find_machine` has of a name that by which the machine is found again, why there is none, "
        "and all names.");
    module.def(
        "job_schema_json", [](const Catalogue& catalogue) { return job::job_schema_json(catalogue); },
        "catalogue"_a, "The JSON Schema of a job's file.");
    module.def("walk_job", &walk_job, "job"_a, "machines"_a, "text"_a, "catalogue"_a, "asked"_a,
               "A job's parts walked through their operations: the work after each, and every mistake; where "
               "it is asked, their answers, and another order that moves fewer levers, or None. `machines` "
               "has those that it names, `text` is that of its file, "
               "for the lines of mistakes.");
    module.def("lot_of", &lot_of, "time_s"_a, "quantity"_a,
               "Times of a lot, least and most, of the first piece, each further one and all; spares; which "
               "pieces are measured wholly.");
    module.def("measured_with", &measured_with, "inside"_a, "along"_a, "size_mm"_a, "band_mm"_a,
               "catalogue"_a,
               "The instrument that a size with limits is measured with, and its error either way, mm.");
    module.def("once_coated", &job::once_coated, "least_mm"_a, "greatest_mm"_a, "inside"_a, "coating"_a,
               "Least and greatest of a plain diameter once it is coated, mm.");
    module.def("cut_up", &cut_up, "part"_a, "How the stock of a job's part is cut up for its lot.");
    module.def("bars_of", &bars_of, "job"_a,
               "Of each stock of a job its bars: names and lengths of what is sawn from each, longest first, "
               "and what it leaves.");
    module.def("job_kinds", &job_kinds, "Kinds of operations that a job's file has.");
    module.def("question_names", &question_names, "Names of the questions that the core declares.");
    module.def("question", &declared_question, "name"_a, "A question as it is declared in the core.");
}

}  // namespace halfnut::bind
