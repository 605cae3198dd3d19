#include "halfnut/job/job_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <utility>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/builtin.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/json.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/coating.hpp"

namespace halfnut::job {

namespace {

using std::string_view;

// ---- keys that are no question's and no member's ----------------------------------------------------------

constexpr AskedRow worded(string_view name, string_view about, string_view kin = {}) {
    return {.name = name, .key = name, .kind = AskedKind::text, .about = about, .kin = kin};
}
constexpr AskedRow sized(string_view name, string_view key, string_view about) {
    return AskedRow{.name = name,
                    .key = key,
                    .kind = AskedKind::number,
                    .about = about,
                    .unit = "mm",
                    .dimension = Dimension::length,
                    .has_dimension = true,
                    .written = true}
        .above(0);
}
constexpr AskedRow of_kind(AskedKind kind, string_view name, string_view about) {
    return {.name = name, .key = name, .kind = kind, .about = about};
}

/// What may close on the work: not what stands for nothing, nor centres, which `hold` says.
constexpr auto kGrips = [] {
    constexpr auto kAll = kSpellings<Grip>;
    std::array<string_view, kAll.size() - 2> out{};
    std::copy(kAll.begin() + 1, kAll.end() - 1, out.begin());
    return out;
}();
constexpr AskedRow kGripsRow = [] {
    AskedRow out =
        of_kind(AskedKind::choice, "grips",
                "What closes on the work; without it the jaws or the collet of `holding`. Strip is "
                "copper or aluminium.");
    out.choices = kGrips;
    return out;
}();

constexpr std::array kOwn{
    worded("title", "What papers call it."),
    worded("number", "Its number on drawings."),
    worded("revision", "Revision of the drawings."),
    worded("date", "Date of the plan."),
    worded("owner", "Whose it is."),
    worded("prepared_by", "Who planned it."),
    worded("approved_by", "Who released it."),
    worded("name", "What it is called by."),
    worded("note", "What papers say beside it."),
    worded("zero", "Where the dials are set to zero: \"left front corner\"."),
    worded(
        "machine",
        "Machine that it is done on: a name, or a machine's file from the folder of this one. What is said "
        "of an operation comes before what is said of its part, and that before the job's.",
        "Machine"),
    worded("coating", "One of the job's coatings.", "Coating"),
    worded("finish", "\"anodise II black 15 um\", \"0.0002 in to 0.0003 in\"; in place of build_up.",
           "Finish"),
    sized("build_up", "build_up_mm", "How far each surface grows outward.").least(0),
    sized("build_up_most", "build_up_most_mm", "Where the build-up has a range, build_up is its least."),
    sized("bar_length", "bar_length_mm", "Length of a bar as it is bought."),
    of_kind(AskedKind::count, "quantity", "Pieces wanted."),
    of_kind(AskedKind::count, "divisions", "Parts of a turn on the dividing head: it is done at each."),
    of_kind(AskedKind::flag, "shock", "The load comes in shocks."),
    kGripsRow,
};

// ---- tables -----------------------------------------------------------------------------------------------

/// A table of the file. A key that must be there has a star; after "=" stands what it is, an argument of the
/// table's question or `question.argument`, where that is called otherwise; after ":" what is taken where it
/// is not given, and nothing there is an empty text; after "@" the table that stands there, "@[" a list of
/// them, "@{" tables by names of the person's own.
struct TableRow {
    string_view name;
    string_view about;
    string_view question;
    string_view keys;
};

constexpr std::array kTables{
    TableRow{"job",
             "What goes in the title block, the coatings, and the parts.",
             {},
             "title* number: revision: date: owner: prepared_by: approved_by: machine coatings@{coating "
             "parts*@[part"},
    TableRow{"coating",
             "How far a coating grows outward from each surface, or which finish it is.",
             {},
             "title* build_up build_up_most finish=own.finish"},
    TableRow{"part", "How many, of what, and how it is made.", "hold",
             "name*=own.name title: number: quantity* alloy* stock*@stock length*=part.length "
             "machine=own.machine tool coating=own.coating note: jaws:3 friction safety joints@[joint "
             "adjuster@adjuster true_to@[true operations*@[operation"},
    TableRow{"stock", "What a part is made from, and what cutting it up costs.", "part",
             "form* diameter bore across_flats thickness width bar_length through_spindle kerf facing grip "
             "pieces:1"},
    TableRow{"joint", "A threaded joint of the part. The factor of safety is the shop's to choose.",
             "strength",
             "external* internal* engagement* factor_of_safety* external_grade internal_alloy* "
             "internal_form* shock external_alloy external_form external_thickness external_tensile "
             "external_yield external_shear internal_thickness internal_tensile internal_yield "
             "internal_shear external_chamfer external_run_out internal_countersink internal_run_out "
             "external_bore internal_outside load rotating"},
    TableRow{"adjuster", "How a threaded part is screwed into its bases: how far may it be wound out?",
             "adjuster",
             "external* internal* second@second thread_length* base_thread* tube_diameter* middle:tube bore "
             "rod_bore chamfer run_out countersink base_run_out base_outside* base_reach* base_alloy "
             "lock_nut nut_outside nut_countersink form* push* pull* factor_of_safety* rule_diameters "
             "lubricant groove_width"},
    TableRow{"second", "What differs at a turnbuckle's second end.", "adjuster",
             "external* internal* thread_length base_thread base_reach lock_nut rod_bore"},
    TableRow{"true", "Two features that must run true to each other.", "true", "feature* to* within*"},
    TableRow{
        "places", "Where holes lie, from a stated zero.", "positions",
        "zero: holes rows at pattern* diameter step row_step angle=angle_deg over=over_deg clockwise x y "
        "edge_finder"},
    TableRow{"operation", "What every operation may say.", "step",
             "do* name=own.name: machine=own.machine end:first tool=turn.tool holding grips=own.grips "
             "grip_length indicated masked times:1 note:"},
};

const TableRow& table_row(string_view name) {
    return *std::find_if(kTables.begin(), kTables.end(),
                         [&](const TableRow& each) { return each.name == name; });
}

const AskedRow* row_in(std::span<const AskedRow> rows, string_view name) {
    const auto at = std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.name == name; });
    return at == rows.end() ? nullptr : &*at;
}

std::span<const AskedRow> rows_of(string_view question) {
    return question == "step"                      ? step_question().arguments
           : question == "part"                    ? part_question().arguments
           : question == "true"                    ? true_question().arguments
           : question.empty() || question == "own" ? std::span<const AskedRow>(kOwn)
                                                   : find_question(question).arguments;
}

/// A key of a table.
struct Key {
    string_view name;
    const AskedRow* row = nullptr;  ///< of a value
    std::optional<string_view> usual{};
    const TableRow* table = nullptr;
    char many = 0;  ///< of tables: '[' or '{'
    bool needed = false;
};

/// What stands behind a mark; `word` keeps what is before it.
std::optional<string_view> behind(string_view& word, char mark) {
    const std::size_t at = word.find(mark);
    if (at == string_view::npos) {
        return std::nullopt;
    }
    const string_view out = word.substr(at + 1);
    word = word.substr(0, at);
    return out;
}

Key key_of(string_view word, string_view question) {
    Key out;
    if (auto table = behind(word, '@')) {
        out.many = table->front() == '[' || table->front() == '{' ? table->front() : '\0';
        out.table = &table_row(table->substr(out.many == 0 ? 0 : 1));
    }
    out.usual = behind(word, ':');
    string_view argument = behind(word, '=').value_or("");
    out.needed = behind(word, '*').has_value();
    out.name = word;
    if (out.table != nullptr) {
        return out;
    }
    const string_view of = argument.substr(0, argument.find('.'));
    if (of.size() < argument.size()) {
        argument.remove_prefix(of.size() + 1);
        question = of;
    }
    // what the question has not the walk knows, or the file alone
    for (const std::span<const AskedRow> rows :
         {rows_of(question), step_question().arguments, std::span<const AskedRow>(kOwn)}) {
        if (out.row = row_in(rows, argument.empty() ? word : argument); out.row != nullptr) {
            break;
        }
    }
    return out;
}

/// Calls with each key of a table.
template <class Each>
void for_keys(string_view keys, string_view question, const Each& each) {
    while (!keys.empty()) {
        const std::size_t end = std::min(keys.find(' '), keys.size());
        const string_view word = keys.substr(0, end);
        keys.remove_prefix(std::min(end + 1, keys.size()));
        if (word == "places") {
            each(Key{.name = word, .table = &table_row(word)});
        } else {
            each(key_of(word, question));
        }
    }
}

bool may_be_nothing(const AskedRow& row) {
    return row.range.low == 0.0 && !row.range.low_open;
}

// ---- reading ----------------------------------------------------------------------------------------------

/// What was read at a key; null where the table has none of that name.
const FileValue* find(const FileEntries& table, string_view key) {
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const FileEntry& each) { return each.key == key; });
    return found == table.end() ? nullptr : &found->value;
}
bool given(const FileEntries& table, string_view key) {
    const FileValue* const found = find(table, key);
    return found != nullptr && found->is.index() != 0;
}
template <class As>
const As* as(const FileEntries& table, string_view key) {
    const FileValue* const found = find(table, key);
    return found == nullptr ? nullptr : std::get_if<As>(&found->is);
}

const Given* member(const Given& object, string_view key) {
    const auto found = std::find(object.keys.begin(), object.keys.end(), key);
    return found == object.keys.end() ? nullptr
                                      : &object.items[static_cast<std::size_t>(found - object.keys.begin())];
}

class Reader {
   public:
    Reader(const Given& file, const FindMachine& find_machine, FileReading& reading)
        : find_machine_(find_machine), reading_(reading) {
        if (const Given* const coatings = member(file, "coatings")) {
            coatings_.assign(coatings->keys.begin(), coatings->keys.end());
        }
    }

    void read(FileTable& table, const TableRow& row, FileEntries& to) {
        read_keys(table, row.keys, row.question, to);
        if (row.name == "operation") {
            const auto* const what = as<std::string>(to, "do");
            if (what == nullptr) {
                table.leave();  // of what kind, and so with what keys, is not known
                return;
            }
            Do kind{};
            (void)enum_from_name(*what, kind);
            read_keys(table, kind_of(kind).keys, kind_of(kind).question, to);
        }
        table.close();
        if (table.sound()) {
            check(table, row.name, to);
        }
    }

   private:
    void read_keys(FileTable& table, string_view keys, string_view question, FileEntries& to) {
        for_keys(keys, question, [&](const Key& key) {
            FileEntry& entry = to.emplace_back();
            entry.key = key.name;
            if (key.table == nullptr) {
                value(table, key, entry.value);
            } else {
                tables(table, key, entry.value);
            }
        });
    }

    void tables(FileTable& table, const Key& key, FileValue& to) {
        const Need need = key.needed ? Need::required : Need::optional;
        if (key.many == '[') {
            auto& out = to.is.emplace<std::vector<FileValue>>();
            const std::size_t mistakes = reading_.mistakes.size();
            table.tables(key.name, [&](FileTable& each) { one(each, key, out.emplace_back()); }, need);
            if (key.needed && out.empty() && mistakes == reading_.mistakes.size()) {
                table.refuse(key.name, "must not be empty");
            }
        } else if (key.many == '{') {
            auto& out = to.is.emplace<FileEntries>();
            table.named(key.name, [&](FileTable& each, string_view name) {
                FileEntry& entry = out.emplace_back();
                entry.key = name;
                one(each, key, entry.value);
            });
        } else {
            table.table(key.name, [&](FileTable& each) { one(each, key, to); }, need);
        }
    }

    void one(FileTable& table, const Key& key, FileValue& to) {
        read(table, *key.table, to.is.emplace<FileEntries>());
    }

    void value(FileTable& table, const Key& key, FileValue& to) {
        const AskedRow& row = *key.row;
        const Need need = key.needed ? Need::required : Need::optional;
        switch (row.kind) {
            case AskedKind::flag:
                table.flag(key.name, to.is.emplace<bool>(false));
                break;
            case AskedKind::count: {
                int count = key.usual ? key.usual->front() - '0' : 0;
                table.count(key.name, count, need);
                if (key.usual || table.has(key.name)) {
                    to.is = std::int64_t{count};
                }
                break;
            }
            case AskedKind::choice:
                if (const auto place = table.one_of(key.name, row.choices, need)) {
                    to.is = std::string(row.choices[*place]);
                } else if (key.usual) {
                    to.is = std::string(*key.usual);
                }
                break;
            case AskedKind::list:
                list(table, key, to);
                break;
            case AskedKind::number:
                if (row.written) {
                    if (const auto read =
                            table.quantity(key.name, row.dimension, need, may_be_nothing(row))) {
                        to.is = *read;
                    }
                } else {
                    double number = kNaN;
                    table.number(key.name, number, row.range, need);
                    if (!std::isnan(number)) {
                        to.is = number;
                    }
                }
                break;
            default:
                text(table, key, to);
        }
    }

    static void list(FileTable& table, const Key& key, FileValue& to) {
        std::vector<FileValue> out;
        if (key.row->has_dimension && key.row->kin.empty()) {
            for (const Quantity& each : table.quantities(key.name, key.row->dimension)) {
                out.emplace_back().is = each;
            }
        } else {  // of places each is a text
            std::vector<std::string> texts;
            table.texts(key.name, texts);
            for (std::string& each : texts) {
                out.emplace_back().is = std::move(each);
            }
        }
        if (table.has(key.name)) {
            to.is = std::move(out);
        }
    }

    void text(FileTable& table, const Key& key, FileValue& to) {
        std::string out;
        if (key.usual) {
            out = *key.usual;
            table.text(key.name, out);
        } else {
            table.name(key.name, out, key.needed ? Need::required : Need::optional);
        }
        // what papers alone say may be longer than what is looked up
        const bool is_said = key.row == row_in(kOwn, key.row->name) && key.row->kin.empty();
        if (out.size() > bounds::kDesignationBytes && (key.name == "name" || !is_said)) {
            table.refuse(key.name, fmt::format("must be at most {} bytes, got {}", bounds::kDesignationBytes,
                                               out.size()));
        } else if (key.usual) {
            to.is = std::move(out);
        } else if (!out.empty()) {
            named(table, key, out);
            to.is = std::move(out);
        }
    }

    /// The name of what must exist.
    void named(FileTable& table, const Key& key, std::string& name) {
        const string_view kin = key.row->kin;
        try {
            if (kin == "Machine") {
                MachineNamed found = find_machine_(name);
                if (!found.problem.empty()) {
                    const std::vector<string_view> known(found.known.begin(), found.known.end());
                    table.refuse_name(key.name, std::move(found.problem), name, known);
                }
                name = std::move(found.name);
            } else if (kin == "Coating" &&
                       std::find(coatings_.begin(), coatings_.end(), name) == coatings_.end()) {
                table.refuse_name(key.name, "no coating of that name in this job", name, coatings_);
            } else if (kin == "Alloy") {
                (void)material::find_alloy(reading_.catalogue, name);
            } else if (kin == "Finish") {
                (void)threads::parse_build_up(name, reading_.catalogue);
            }
        } catch (const Error& error) {
            table.refuse(key.name, error.what());
        }
    }

    // ---- what must go together ------------------------------------------------------------------------

    static void check(FileTable& table, string_view name, FileEntries& read) {
        if (name == "operation") {
            check_operation(table, read);
        } else if (name == "coating") {
            check_coating(table, read);
        } else if (name == "stock") {
            check_stock(table, read);
        } else if (name == "part") {
            check_part(table, read);
        } else if (name == "job") {
            check_job(table, read);
        }
    }

    /// An operation at places or divisions is done as often as there are.
    static void check_operation(FileTable& table, FileEntries& read) {
        const auto* const places = as<FileEntries>(read, "places");
        const auto* const divisions = as<std::int64_t>(read, "divisions");
        if (places != nullptr && divisions != nullptr) {
            table.refuse("has places and divisions: give one");
            return;
        }
        const std::int64_t count = places != nullptr      ? places_of(*places)
                                   : divisions != nullptr ? *divisions
                                                          : 0;
        if (count == 0) {
            return;
        }
        for (FileEntry& each : read) {
            if (each.key != "times") {
                continue;
            }
            if (const auto times = std::get<std::int64_t>(each.value.is);
                table.has("times") && times != count) {
                table.refuse(fmt::format("times, {}, must be the {} of its places or divisions; leave it out",
                                         times, count));
            }
            each.value.is = count;
        }
    }
    static std::int64_t places_of(const FileEntries& places) {
        if (*as<std::string>(places, "pattern") == "list") {
            const auto* const listed = as<std::vector<FileValue>>(places, "at");
            return listed == nullptr ? 0 : static_cast<std::int64_t>(listed->size());
        }
        const auto* const holes = as<std::int64_t>(places, "holes");
        const auto* const rows = as<std::int64_t>(places, "rows");
        return holes == nullptr ? 0 : *holes * (rows == nullptr ? 1 : *rows);
    }

    static void check_coating(FileTable& table, const FileEntries& read) {
        const auto* const least = as<Quantity>(read, "build_up");
        const auto* const most = as<Quantity>(read, "build_up_most");
        if ((least != nullptr) == given(read, "finish")) {
            table.refuse(
                "needs build_up, how far each surface grows, or finish, such as 'anodise II black 15 um'");
        } else if (most != nullptr && least == nullptr) {
            table.refuse("has build_up_most without build_up");
        } else if (most != nullptr && most->base() < least->base()) {
            table.refuse(
                fmt::format("build_up_most, {}, is less than build_up, {}", most->text(), least->text()));
        }
    }

    static void check_stock(FileTable& table, const FileEntries& read) {
        struct Needs {
            string_view form;
            std::array<bool, 5> sizes;
        };
        constexpr std::array<string_view, 5> kSizes{"diameter", "bore", "across_flats", "thickness", "width"};
        constexpr std::array kNeeds{Needs{"bar", {true}}, Needs{"tube", {true, true}},
                                    Needs{"hexagon", {false, false, true}},
                                    Needs{"plate", {false, false, false, true, true}}};
        const auto& form = *as<std::string>(read, "form");
        const auto* const needs =
            std::find_if(kNeeds.begin(), kNeeds.end(), [&](const Needs& each) { return each.form == form; });
        std::vector<string_view> missing;
        std::vector<string_view> extra;
        for (std::size_t i = 0; i < kSizes.size(); ++i) {
            if (needs->sizes[i] != given(read, kSizes[i])) {
                (needs->sizes[i] ? missing : extra).push_back(kSizes[i]);
            }
        }
        const auto* const diameter = as<Quantity>(read, "diameter");
        const auto* const bore = as<Quantity>(read, "bore");
        if (!missing.empty() || !extra.empty()) {
            table.refuse(fmt::format("{} stock {}{}{}", form,
                                     missing.empty() ? "" : fmt::format("needs {}", fmt::join(missing, ", ")),
                                     missing.empty() || extra.empty() ? "" : " and ",
                                     extra.empty() ? "" : fmt::format("has no {}", fmt::join(extra, ", "))));
        } else if (*as<bool>(read, "through_spindle") && !given(read, "bar_length")) {
            table.refuse("through_spindle needs bar_length, for a long bar behind the spindle whips");
        } else if (diameter != nullptr && bore != nullptr && bore->base() >= diameter->base()) {
            table.refuse(
                fmt::format("bore, {}, must be less than diameter, {}", bore->text(), diameter->text()));
        }
    }

    static void check_part(FileTable& table, const FileEntries& read) {
        if (given(read, "friction") != given(read, "safety")) {
            table.refuse("friction and safety of the grip are given together or not at all");
        }
    }

    static void check_job(FileTable& table, const FileEntries& read) {
        if (given(read, "machine")) {
            return;
        }
        std::vector<std::string> homeless;
        const auto& parts = *as<std::vector<FileValue>>(read, "parts");
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const auto& part = std::get<FileEntries>(parts[i].is);
            const auto& operations = *as<std::vector<FileValue>>(part, "operations");
            for (std::size_t k = 0; k < operations.size() && !given(part, "machine"); ++k) {
                if (!given(std::get<FileEntries>(operations[k].is), "machine")) {
                    homeless.push_back(fmt::format("parts[{}].operations[{}]", i, k));
                }
            }
        }
        if (!homeless.empty()) {
            table.refuse(fmt::format("machine is missing for {}: give it there, for the part or for the job",
                                     fmt::join(homeless, ", ")));
        }
    }

    const FindMachine& find_machine_;
    FileReading& reading_;
    std::vector<string_view> coatings_;
};

// ---- its schema -------------------------------------------------------------------------------------------

std::string object_schema(const TableRow& row, const Kind* kind, const Catalogue& catalogue);

std::string table_schema(const Key& key, const Catalogue& catalogue) {
    std::vector<std::string> each;
    if (key.table->name == "operation") {
        for (const Kind& kind : kinds()) {
            each.push_back(object_schema(*key.table, &kind, catalogue));
        }
    }
    std::string inner = each.empty() ? object_schema(*key.table, nullptr, catalogue)
                                     : fmt::format(R"({{"oneOf": [{}]}})", fmt::join(each, ", "));
    switch (key.many) {
        case '[':
            return fmt::format(R"({{"type": "array", "items": {}{}}})", inner,
                               key.needed ? R"(, "minItems": 1)" : "");
        case '{':
            return fmt::format(R"({{"type": "object", "additionalProperties": {}}})", inner);
        default:
            return inner;
    }
}

std::string object_schema(const TableRow& row, const Kind* kind, const Catalogue& catalogue) {
    std::vector<std::string> properties;
    std::vector<std::string> required;
    const auto put = [&](const Key& key) {
        const std::string name = json_text(key.name);
        if (key.needed) {
            required.push_back(name);
        }
        std::string schema = key.table != nullptr ? table_schema(key, catalogue)
                             : kind != nullptr && key.name == "do"
                                 ? fmt::format(R"({{"const": {}}})", json_text(enum_name(kind->what)))
                                 : argument_schema_json(*key.row, catalogue);
        properties.push_back(fmt::format("{}: {}", name, schema));
    };
    for_keys(row.keys, row.question, put);
    if (kind != nullptr) {
        for_keys(kind->keys, kind->question, put);
    }
    return fmt::format(R"({{"description": {}, "type": "object", "properties": {{{}}}, "required": [{}], )"
                       R"("additionalProperties": false}})",
                       json_text(kind == nullptr ? row.about : kind->about), fmt::join(properties, ", "),
                       fmt::join(required, ", "));
}

/// The name of a part, the number of its operation and its line, then the key; empty outside of parts.
std::string place_of(std::span<const FileStep> path, const Given& file, std::span<const PartLines> lines) {
    constexpr int kApart = 10;
    if (path.size() < 2 || path[0].key != "parts" || !path[1].place) {
        return {};
    }
    const std::size_t part = *path[1].place;
    const Given* const named = member(member(file, "parts")->items[part], "name");
    std::string out = named != nullptr && named->tag == Given::Tag::text && !named->text.empty()
                          ? std::string(named->text)
                          : fmt::format("part {}", part + 1);
    int line = part < lines.size() ? lines[part].part : 0;
    path = path.subspan(2);
    if (path.size() >= 2 && path[0].key == "operations" && path[1].place) {
        const std::size_t operation = *path[1].place;
        out += fmt::format(", operation {}", kApart * (operation + 1));
        if (part < lines.size() && operation < lines[part].operations.size()) {
            line = lines[part].operations[operation];
        }
        path = path.subspan(2);
    }
    out += line == 0 ? "" : fmt::format(", line {}", line);
    return path.empty() ? out : fmt::format("{}: {}", out, path_text(path));
}

}  // namespace

FileEntries job_of_file(const Given& file, const FindMachine& find_machine, FileReading& reading,
                        string_view text) {
    FileEntries out;
    Reader reader(file, find_machine, reading);
    read_file(file, reading, [&](FileTable& table) { reader.read(table, table_row("job"), out); });
    if (!reading.mistakes.empty()) {
        const std::vector<PartLines> lines = lines_of(text);
        for (FileMistake& mistake : reading.mistakes) {
            mistake.place = place_of(mistake.path, file, lines);
        }
    }
    return out;
}

std::vector<std::pair<string_view, string_view>> called_otherwise(const Kind& kind) {
    std::vector<std::pair<string_view, string_view>> out;
    for_keys(kind.keys, kind.question, [&](const Key& key) {
        if (key.row != nullptr && key.row->name != key.name &&
            row_in(rows_of(kind.question), key.row->name) == key.row) {
            out.emplace_back(key.name, key.row->name);
        }
    });
    return out;
}

std::string job_schema_json(const Catalogue& catalogue) {
    return object_schema(table_row("job"), nullptr, catalogue);
}

}  // namespace halfnut::job
