#pragma once
/// One declaration a question: its arguments and the figures of its answer as rows of plain data. The Python
/// function with its signature and words, the command's options, the JSON Schema, columns and documents are
/// made of these rows; an argument's name, unit, range, default and meaning stand nowhere else.
///
///     // what is asked, what is answered, and how; weigh() throws
///     struct Weigh { double diameter_mm = kNaN; double length_mm = kNaN; std::string alloy; };
///     struct Weight { double mass_kg = kNaN; };
///     Weight weigh(const Weigh& asked, const Asking& asking);
///
///     constexpr std::array kAsked{
///         HALFNUT_ASKED(Weigh, alloy, "The work's material.").required(),
///         HALFNUT_ASKED(Weigh, diameter_mm, "Diameter of the bar.").above(0).required().leads(), ...};
///     constexpr std::array kFigures{HALFNUT_FIGURE(Weight, mass_kg, "Mass of the bar.")};
///     constexpr RecordRow kWeight{"Weight", "What a bar weighs.", kFigures};
///     constexpr Question kWeigh =
///         question<Weigh, Weight, &weigh>("material", "weigh", "What a bar weighs.", kAsked, kWeight);
///
/// A row is a name, a sentence and a few pointers to functions; what depends on a member's type is one
/// function a type, found by overloading: take() for what is asked, shown() for what is answered.

#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <typeinfo>
#include <utility>
#include <variant>
#include <vector>

#include "halfnut/core/evidence.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/core/schema.hpp"

namespace halfnut {

namespace machine {
struct Machine;
}

/// What an asker gave for one argument. A view: texts, lists and machines belong to the asker.
struct Given {
    enum class Tag : std::uint8_t { nothing, flag, number, text, quantity, machine, list, object, other };
    Tag tag = Tag::nothing;
    double number = 0;           ///< of a flag, a number, or a quantity in its unit
    std::string_view text{};     ///< a text; what something else looks like, for messages
    const Unit* unit = nullptr;  ///< of a quantity
    const machine::Machine* machine = nullptr;
    std::span<const Given> items{};  ///< of a list, and what stands at the keys of an object
    std::span<const std::string_view> keys{};
    const std::type_info* type = nullptr;  ///< of a thing of the core that an earlier answer gave
    const void* object = nullptr;

    /// The thing, where it is of this type.
    template <class Thing>
    [[nodiscard]] const Thing* as() const {
        return type != nullptr && *type == typeid(Thing) ? static_cast<const Thing*>(object) : nullptr;
    }

    /// As a message quotes it: 'text', 3, True, 1.25 in.
    [[nodiscard]] std::string shown() const;
};

/// What questions are read against, and what is learnt while they are.
struct Asking {
    const Catalogue& catalogue;
    bool inch =
        false;  ///< the argument that leads was given in inches: so are the answer's words and usual sizes
    int led_by = 0;        ///< rank of that argument; 0: none was given
    bool evidence = true;  ///< whether what the figures rest on is wanted: columns of rows have none
    std::vector<std::shared_ptr<const void>>
        kept{};  ///< what was made of what is asked, and views of it stand there
};

HALFNUT_ENUM(AskedKind, number, count, flag, choice, text, machine, list, object)

/// An argument of a question.
struct AskedRow {
    std::string_view name;  ///< as a person gives it: "depth"
    std::string_view key;   ///< the member, and the column: "depth_mm"
    AskedKind kind{};
    std::string_view about;      ///< a whole sentence
    std::string_view unit{};     ///< of the key
    Dimension dimension{};       ///< of the unit
    bool has_dimension = false;  ///< a text with a unit, or a quantity, is understood
    bool written = false;        ///< a person gives it with its unit; a bare number is refused
    Argument range{};            ///< in the key's unit
    std::string_view usual{};    ///< what is taken when it is not given, in words
    std::string_view kin{};      ///< a Python class that is understood beside text: "Alloy"
    std::string_view option{};   ///< a command's option for it, where that is not its name: "life"
    std::span<const std::string_view> choices{};
    bool is_required = false;
    bool is_placed = false;  ///< given by its place; else by its name
    int leading = 0;  ///< 1: its unit is the system of the answer; 2: where none of rank 1 is given; ...
    bool is_finer = false;                           ///< left out of a command's shortest help
    std::span<const AskedRow> (*parts)() = nullptr;  ///< of an object: what may stand in it
    /// Names to pick from, where there are some that a table holds; others may be understood too.
    std::vector<std::string> (*listed)(const Catalogue& catalogue) = nullptr;
    void (*take)(void* asked, const Given& given, const AskedRow& row, Asking& asking) = nullptr;
    void (*set)(void* asked, double value) = nullptr;  ///< of numbers: from a column, in the key's unit

   private:
    template <class M>
    [[nodiscard]] constexpr AskedRow with(M AskedRow::* member, M value) const {
        AskedRow out = *this;
        out.*member = value;
        return out;
    }

   public:
    // How a declaration is spelled.
    [[nodiscard]] constexpr AskedRow required() const { return placed().with(&AskedRow::is_required, true); }
    [[nodiscard]] constexpr AskedRow placed() const { return with(&AskedRow::is_placed, true); }
    [[nodiscard]] constexpr AskedRow named() const { return with(&AskedRow::is_placed, false); }
    [[nodiscard]] constexpr AskedRow leads(int rank = 1) const { return with(&AskedRow::leading, rank); }
    [[nodiscard]] constexpr AskedRow finer() const { return with(&AskedRow::is_finer, true); }
    [[nodiscard]] constexpr AskedRow called(std::string_view as) const { return with(&AskedRow::name, as); }
    [[nodiscard]] constexpr AskedRow optioned(std::string_view as) const {
        return with(&AskedRow::option, as);
    }
    [[nodiscard]] constexpr AskedRow saying(std::string_view what) const {
        return with(&AskedRow::about, what);
    }
    [[nodiscard]] constexpr AskedRow usually(std::string_view what) const {
        return with(&AskedRow::usual, what);
    }
    [[nodiscard]] constexpr AskedRow or_a(std::string_view cls) const { return with(&AskedRow::kin, cls); }
    [[nodiscard]] constexpr AskedRow listing(std::vector<std::string> (*names)(const Catalogue&)) const {
        return with(&AskedRow::listed, names);
    }
    [[nodiscard]] constexpr AskedRow in(const Argument& bounds) const {
        return with(&AskedRow::range, bounds);
    }
    /// Of a member whose type does not tell: a length is understood, and a person gives it with its unit.
    [[nodiscard]] constexpr AskedRow as_length() const {
        AskedRow out = *this;
        out.unit = "mm";
        out.dimension = Dimension::length;
        out.has_dimension = true;
        out.written = true;
        return out;
    }
    /// Of a force and its like: a person gives it with its unit, and by its name without one.
    [[nodiscard]] constexpr AskedRow with_unit() const {
        return with(&AskedRow::written, true).called(key.substr(0, key.rfind('_')));
    }
    /// Of a number whose name only seems to end in a unit.
    [[nodiscard]] constexpr AskedRow plain() const {
        AskedRow out = in(finite(key));
        out.unit = {};
        out.has_dimension = false;
        return out;
    }
    [[nodiscard]] constexpr AskedRow above(double low) const {
        return in({.name = key, .unit = unit, .low = low, .low_open = true, .stated = bounds::of_unit(unit)});
    }
    [[nodiscard]] constexpr AskedRow least(double low) const {
        return in({.name = key, .unit = unit, .low = low});
    }
    [[nodiscard]] constexpr AskedRow from(double low, double high) const {
        return in({.name = key, .unit = unit, .low = low, .high = high});
    }
};

struct RecordRow;
struct Value;
using Values = std::vector<Value>;

/// A value of an answer. A number that does not apply is nothing; a record is its values in the order of its
/// rows. Its members stand in one unit: hundreds of figures are made into values in each file of questions.
struct Value {
    Value() noexcept;
    Value(bool flag) noexcept;
    Value(std::int64_t count) noexcept;
    Value(double number) noexcept;
    Value(std::string text) noexcept;
    explicit Value(Values list) noexcept;
    Value(const Value& other);
    Value(Value&& other) noexcept;
    Value& operator=(const Value& other);
    Value& operator=(Value&& other) noexcept;
    ~Value();

    std::variant<std::monostate, bool, std::int64_t, double, std::string, Values> is;
};

HALFNUT_ENUM(AnsweredKind, number, count, flag, text, pairs, numbers, counts, texts, record, records, told,
             evidence)

/// Something to tell a person: a code of the table of cautions; of those of one code the one with the
/// greatest gravity is the gravest. `words` fill places in its text beside the answer's own figures.
struct Told {
    std::string code;
    double gravity = 0.0;
    std::vector<std::pair<std::string, std::string>> words;
};

/// A figure of an answer, or of a record within one.
struct FigureRow {
    std::string_view key;
    std::string_view about;
    AnsweredKind kind{};
    std::string_view unit{};
    const RecordRow* of = nullptr;  ///< of records, and of an answer within this one
    bool is_always = true;          ///< every answer has it; a number need not apply, nor what is optional
    bool is_aside = false;          ///< made of others when told, on no face; who asks by its key has it
    std::string_view kin{};         ///< the Python class that a text is the name of: "Alloy"
    std::span<const std::string_view> choices{};  ///< of a text that is one of these
    Value (*get)(const void* answer) = nullptr;

    [[nodiscard]] constexpr FigureRow always() const {
        FigureRow out = *this;
        out.is_always = true;
        return out;
    }
    [[nodiscard]] constexpr FigureRow called(std::string_view as) const {
        FigureRow out = *this;
        out.key = as;
        return out;
    }
    [[nodiscard]] constexpr FigureRow made(std::string_view cls) const {
        FigureRow out = *this;
        out.kin = cls;
        return out;
    }
};

/// A line under an answer: a template of its label, and one of what it says.
struct SaidRow {
    std::string_view label;
    std::string_view text;
    std::string_view each{};  ///< records within, each of which makes a row; "matches+": all but the first
};

/// How an answer is told. In a template stands
///   {torque_nm}         a figure, spelled by the unit at the end of its key
///   {bore_mm:fine}      of another kind: "fine both" has the other unit in brackets, "fine other" that
///                       alone; both and other by themselves are of a length
///   {share:.2f}         a plain number: {2*share:.2f} twice that, {length_mm/25.4:.4f} in another unit
///   {low_n..high_n}     a span
///   {cut.feed_said}     a figure of an answer within; of a list {names.first}, {names.last}, {names.count},
///                       {places} each record as it is told, {} this one
///   {limited_by:limit}  of a code its text in that list of the words; {said/load} a text of them
///   {limits:limit and}  of a list "and" for the commas
///   {hand=left}         nothing where that is so, else it lacks; of numbers != < > <= >= too, whose other
///                       side may be a figure
///   {by_form?}          nothing where a flag is true, a number is there, a text or list is not empty;
///                       {by_form!} nothing where not
/// What stands in square brackets is left out where one of its figures is lacking, and so is the row for one
/// outside. Where a figure is several texts a label "*or" gives each a row of its own, "#" a number, and "*"
/// takes labels and texts as they are; "=" takes the rows of an answer within, with `each` before texts.
struct Says {
    std::string_view answer{};  ///< the first line
    std::span<const SaidRow> rows{};
    std::string_view
        brief{};  ///< labels of the rows that the short answer has, a comma between them; "*": all
    bool at_machine = false;   ///< what comes before these figures is said with a caution
    std::string_view first{};  ///< what is printed as the first line in its place
    std::string_view last{};   ///< the last line of the short answer
};

struct RecordRow {
    std::string_view name;
    std::string_view about;
    std::span<const FigureRow> figures;
    std::string_view leads{};  ///< keys of the figures that are the answer, a blank between them
    Says says{};
    bool in_both = false;      ///< the flat dictionary has each figure in the other system too
    std::string_view items{};  ///< key of the list that the answer comes to, where it can be walked as one
};

struct Question {
    std::string_view name;
    std::string_view room;
    std::string_view about;
    std::span<const AskedRow> arguments;
    const RecordRow* answer = nullptr;
    std::string_view sources{};
    std::string_view example{};                ///< as a command: "turn 6061-T6 1.25in"
    bool own_units = false;                    ///< messages tell sizes as tables and designations have them
    int version = 1;                           ///< raised when a key goes or changes its meaning
    const std::type_info* answered = nullptr;  ///< of the answer, which another question may be given
    std::shared_ptr<void> (*fresh)() = nullptr;
    std::shared_ptr<void> (*copy)(const void* asked) = nullptr;
    std::shared_ptr<const void> (*evaluate)(const void* asked, const Asking& asking) = nullptr;
};

/// An answer as any face takes it.
struct Answer {
    const Question* question = nullptr;
    std::shared_ptr<const void> record;
    bool inch = false;
};

namespace material {
[[nodiscard]] std::span<const Question* const> questions() noexcept;
}
namespace threads {
[[nodiscard]] std::span<const Question* const> questions() noexcept;
}
namespace knurls {
[[nodiscard]] std::span<const Question* const> questions() noexcept;
}
namespace cutting {
[[nodiscard]] std::span<const Question* const> questions() noexcept;
}

/// Every question, room by room.
[[nodiscard]] std::span<const Question* const> questions() noexcept;

/// The question of a name; NotTabulatedError with the nearest name where there is none.
[[nodiscard]] const Question& find_question(std::string_view name);

/// What is asked, read into the question's own struct: given[i] is for arguments[i]; what is left out at the
/// end is not given.
[[nodiscard]] std::shared_ptr<void> read_asked(const Question& question, std::span<const Given> given,
                                               Asking& asking);

/// Ask by place: given[i] is for arguments[i]; what is left out at the end is not given.
///
/// Errors
///   as the question's own; every one speaks of arguments by the names that a person gives, in the unit of
///   the argument that leads
[[nodiscard]] Answer ask(const Question& question, std::span<const Given> given, const Catalogue& catalogue);

/// An argument of many rows: numbers in its key's unit, NaN where one is not given; or places in a list of
/// texts, below 0 where none is.
struct AskedColumn {
    std::size_t argument = 0;
    std::span<const double> numbers{};
    bool inch = false;  ///< the numbers were given in inches
    std::span<const std::int32_t> codes{};
    std::span<const std::string_view> texts{};
};

/// Ask once for each row from one up to another, what is common given once.
///
/// Given
///   common    as for ask(); what columns give is nothing here
///   columns   each with all rows
///   answered  called with each row and its answer
///   failed    called with each row that has none, and why: a status that stands for the kind of error
/// Errors
///   DomainError  a column of an argument that there is not, or that ends before the rows; as ask(), of what
///   is common
void ask_rows(const Question& question, std::span<const Given> common, std::span<const AskedColumn> columns,
              std::size_t first, std::size_t last, const Catalogue& catalogue,
              const std::function<void(std::size_t row, const void* answer)>& answered,
              const std::function<void(std::size_t row, StatusCode code, std::string_view why)>& failed);

/// The values of a record, in the order of its rows.
[[nodiscard]] Values values_of(const RecordRow& row, const void* record);

/// The same as one value; of no record nothing.
[[nodiscard]] Value record_value(const RecordRow& row, const void* record);

/// Evidence of one figure: its rule and, where there is one, the row.
[[nodiscard]] EvidenceText rests_on(std::string_view figure, RuleId rule, const Catalogue& catalogue,
                                    RowRef row = {});

/// What has no rule: a figure read from a row.
[[nodiscard]] EvidenceText as_tabulated(std::string_view figure, RowRef row, const Catalogue& catalogue);

/// Evidence of a record, as texts after those that there are.
void append_evidence(std::span<const EvidenceItem> items, std::span<const std::string_view> figures,
                     const Catalogue& catalogue, std::vector<EvidenceText>& out);

/// Within a handler: rethrow the core's error, as what it is, with the argument's name before it.
[[noreturn]] void rethrow_of(std::string_view argument);

/// A length as answers write it, to 0.001 mm or 0.0001 in: "1.2500 in"; with the other unit, "1.2500 in
/// (31.750 mm)".
[[nodiscard]] std::string size_text(double mm, bool inch);
[[nodiscard]] std::string both_sizes_text(double mm, bool inch);

/// A core's message in the words of a question: arguments by the names that a person gives, sizes in inches
/// where the question is.
///
/// Given
///   message  such as "depth_mm must be at most half of diameter_mm, got 22.86 mm"
///   rows     arguments whose keys may stand in it; of other keys the unit goes
///   inch     sizes are told in inches
/// Returned
///   such as "depth must be at most half of diameter, got 0.9 in"
[[nodiscard]] std::string as_asked(std::string_view message, std::span<const AskedRow> rows, bool inch);

/// "depth must be one of 'a', 'b', got 'c'", with the nearest where one is near. DomainError.
[[noreturn]] void refuse_choice(std::string_view name, std::span<const std::string_view> choices,
                                std::string_view given);

// ---- one function a type: what is asked -------------------------------------------------------------------

void take(double& to, const Given& given, const AskedRow& row, Asking& asking);
void take(int& to, const Given& given, const AskedRow& row, Asking& asking);
void take(bool& to, const Given& given, const AskedRow& row, Asking& asking);
void take(std::string& to, const Given& given, const AskedRow& row, Asking& asking);
void take(const machine::Machine*& to, const Given& given, const AskedRow& row, Asking& asking);
void take(std::vector<double>& to, const Given& given, const AskedRow& row, Asking& asking);

/// Place of a spelling among the choices; DomainError where it is none of them.
[[nodiscard]] std::size_t take_choice(const Given& given, const AskedRow& row);

/// What an object gives, or a list of those parts that are given by their places, read into a struct that the
/// parts are members of; false where it gives nothing. DomainError: a name that there is not.
bool take_parts(void* to, const Given& given, const AskedRow& row, Asking& asking);

/// Spellings of an enumeration, in its order.
template <class E>
inline constexpr auto kSpellings = [] {
    constexpr auto kNames = enum_names(E{});
    std::array<std::string_view, kNames.size()> out{};
    for (std::size_t i = 0; i < out.size(); ++i) {
        out[i] = kNames[i].second;
    }
    return out;
}();

template <class E>
    requires std::is_enum_v<E>
void take(E& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    to = enum_names(E{})[take_choice(given, row)].first;
}
template <class E>
    requires std::is_enum_v<E>
void take(std::optional<E>& to, const Given& given, const AskedRow& row, Asking& asking) {
    take(to.emplace(), given, row, asking);
}

// ---- one function a type: what is answered ----------------------------------------------------------------

Value shown(double value);
Value shown(bool value);
template <class Whole>
    requires(std::is_integral_v<Whole> && !std::is_same_v<Whole, bool>)
Value shown(Whole value) {
    return static_cast<std::int64_t>(value);
}
Value shown(std::string_view value);
Value shown(const std::string& value);
template <class E>
    requires std::is_enum_v<E>
Value shown(E value) {
    return shown(enum_name(value));
}
Value shown(const std::pair<std::string, std::string>& pair);
/// Figure, rule, id of the rule, row, source, kind of source.
Value shown(const EvidenceText& text);
/// Code, gravity, words.
Value shown(const Told& told);
/// What is shown of each of a list's items, and of each as the values of a record.
Value shown_each(const void* first, std::size_t count, std::size_t size, Value (*one)(const void* item));
Value shown_each(const void* first, std::size_t count, std::size_t size, const RecordRow& of);
template <class Item>
Value shown(const std::vector<Item>& items) {
    return shown_each(items.data(), items.size(), sizeof(Item),
                      [](const void* item) { return shown(*static_cast<const Item*>(item)); });
}
template <class Item>
Value shown(const std::optional<Item>& item) {
    return item ? shown(*item) : Value{};
}

// ---- how rows are made of members -------------------------------------------------------------------------

namespace detail {

/// A unit that a member's name may end in.
struct Suffix {
    std::string_view suffix;
    std::string_view unit;
    Dimension dimension{};
    bool has_dimension = false;
    bool written = false;
};

/// The one table of suffixes, longest first.
inline constexpr std::array kSuffixes{
    Suffix{"_hp_in3_min", "hp/(in3/min)"},
    Suffix{"_j_kg_k", "J/(kg K)"},
    Suffix{"_um_m_k", "um/(m K)"},
    Suffix{"_w_m_k", "W/(m K)"},
    Suffix{"_kg_m3", "kg/m3"},
    Suffix{"_mm_rev", "mm/rev", Dimension::feed_per_rev, true, true},
    Suffix{"_mm_min", "mm/min", Dimension::feed_rate, true, true},
    Suffix{"_cm3_min", "cm3/min"},
    Suffix{"_m_min", "m/min", Dimension::speed, true, true},
    Suffix{"_n_mm2", "N/mm2", Dimension::stress, true, false},
    Suffix{"_n_um", "N/um"},
    Suffix{"_mm2", "mm2"},
    Suffix{"_mm", "mm", Dimension::length, true, true},
    Suffix{"_um", "um"},
    Suffix{"_deg", "deg", Dimension::angle, true, false},
    Suffix{"_rpm", "rev/min", Dimension::frequency, true, false},
    Suffix{"_kw", "kW", Dimension::power, true, false},
    Suffix{"_nm", "N m", Dimension::torque, true, false},
    Suffix{"_mpa", "MPa", Dimension::stress, true, false},
    Suffix{"_gpa", "GPa"},
    Suffix{"_n", "N", Dimension::force, true, false},
    Suffix{"_min", "min", Dimension::time, true, false},
    Suffix{"_s", "s", Dimension::time, true, false},
    Suffix{"_kg", "kg", Dimension::mass, true, false},
    Suffix{"_w", "W"},
    Suffix{"_k", "K"},
    Suffix{"_c", "C"},
    Suffix{"_hb", "HB", Dimension::hardness, true, false},
};

constexpr Suffix suffix_of(std::string_view key) {
    for (const Suffix& each : kSuffixes) {
        if (key.ends_with(each.suffix)) {
            return each;
        }
    }
    return {};
}

/// "cut.depth_mm" is "depth_mm".
constexpr std::string_view last_name(std::string_view path) {
    return path.substr(path.find_last_of(". ") + 1);
}

template <class M>
inline constexpr bool kIsList = false;
template <class Item>
inline constexpr bool kIsList<std::vector<Item>> = true;

template <class M>
inline constexpr bool kIsOptional = false;
template <class Item>
inline constexpr bool kIsOptional<std::optional<Item>> = true;
template <class M>
inline constexpr bool kIsOptionalChoice = false;
template <class Item>
inline constexpr bool kIsOptionalChoice<std::optional<Item>> = std::is_enum_v<Item>;

/// At{}(asked) is the member.
template <class M, class At>
constexpr AskedRow asked_row(std::string_view path, std::string_view about) {
    AskedRow out{.name = last_name(path), .key = last_name(path), .about = about};
    const Suffix suffix = suffix_of(out.key);
    if constexpr (std::is_same_v<M, double> || std::is_same_v<M, std::vector<double>>) {
        out.kind = kIsList<M> ? AskedKind::list : AskedKind::number;
        out.unit = suffix.unit;
        out.dimension = suffix.dimension;
        out.has_dimension = suffix.has_dimension;
        out.written = suffix.written;
        if (suffix.written) {
            out.name = out.key.substr(0, out.key.size() - suffix.suffix.size());
        }
        out.range = finite(out.key, out.unit);
    } else if constexpr (std::is_same_v<M, int>) {
        out.kind = AskedKind::count;
    } else if constexpr (std::is_same_v<M, bool>) {
        out.kind = AskedKind::flag;
    } else if constexpr (std::is_enum_v<M>) {
        out.kind = AskedKind::choice;
        out.choices = kSpellings<M>;
        out.usual = enum_name(M{});
    } else if constexpr (kIsOptionalChoice<M>) {
        out.kind = AskedKind::choice;
        out.choices = kSpellings<typename M::value_type>;
    } else if constexpr (std::is_same_v<M, const machine::Machine*>) {
        out.kind = AskedKind::machine;
    } else {
        out.kind = kIsList<M> ? AskedKind::list : AskedKind::text;
    }
    out.take = [](void* asked, const Given& given, const AskedRow& row, Asking& asking) {
        take(At{}(asked), given, row, asking);
    };
    if constexpr (std::is_same_v<M, double> || std::is_same_v<M, int> || std::is_same_v<M, bool>) {
        out.set = [](void* asked, double value) { At{}(asked) = static_cast<M>(value); };
    }
    return out;
}

template <class M>
constexpr AnsweredKind figure_kind() {
    if constexpr (kIsOptional<M>) {
        return figure_kind<typename M::value_type>();
    } else if constexpr (std::is_same_v<M, double>) {
        return AnsweredKind::number;
    } else if constexpr (std::is_same_v<M, bool>) {
        return AnsweredKind::flag;
    } else if constexpr (std::is_integral_v<M>) {
        return AnsweredKind::count;
    } else if constexpr (std::is_same_v<M, std::vector<double>>) {
        return AnsweredKind::numbers;
    } else if constexpr (std::is_same_v<M, std::vector<int>>) {
        return AnsweredKind::counts;
    } else if constexpr (std::is_same_v<M, std::vector<std::string>>) {
        return AnsweredKind::texts;
    } else if constexpr (std::is_same_v<M, std::vector<std::pair<std::string, std::string>>>) {
        return AnsweredKind::pairs;
    } else if constexpr (std::is_same_v<M, std::vector<Told>>) {
        return AnsweredKind::told;
    } else if constexpr (std::is_same_v<M, std::vector<EvidenceText>>) {
        return AnsweredKind::evidence;
    } else {
        return AnsweredKind::text;
    }
}

template <class M, class At>
constexpr FigureRow figure_row(std::string_view path, std::string_view about) {
    FigureRow out{.key = last_name(path), .about = about, .kind = figure_kind<M>()};
    out.unit =
        out.kind == AnsweredKind::number || out.kind == AnsweredKind::numbers ? suffix_of(out.key).unit : "";
    out.is_always = !(kIsOptional<M> || std::is_same_v<M, double>);
    if constexpr (std::is_enum_v<M>) {
        out.choices = kSpellings<M>;
    }
    out.get = [](const void* answer) { return shown(At{}(answer)); };
    return out;
}

template <class Whole, class Made>
std::pair<Whole, Made> made_of(Made (*)(const Whole&));  // never called

template <const RecordRow& Of, class M, class At>
constexpr FigureRow record_row(std::string_view path, std::string_view about) {
    FigureRow out{.key = last_name(path), .about = about, .kind = AnsweredKind::record, .of = &Of};
    out.is_always = !kIsOptional<M>;
    out.get = [](const void* answer) {
        const auto& item = At{}(answer);
        if constexpr (kIsOptional<M>) {
            return record_value(Of, item ? &*item : nullptr);
        } else {
            return record_value(Of, &item);
        }
    };
    return out;
}

template <const RecordRow& Of, class At>
constexpr FigureRow records_row(std::string_view path, std::string_view about) {
    FigureRow out{.key = last_name(path), .about = about, .kind = AnsweredKind::records, .of = &Of};
    out.get = [](const void* answer) {
        const auto& items = At{}(answer);
        return shown_each(items.data(), items.size(), sizeof(*items.data()), Of);
    };
    return out;
}

}  // namespace detail

/// A figure that a function makes of an answer when it is asked for: `Made of(const Answer&)`.
template <auto Of>
constexpr FigureRow made_figure(std::string_view key, std::string_view about) {
    using Pair = decltype(detail::made_of(Of));
    using Made = typename Pair::second_type;
    FigureRow out{.key = key, .about = about, .kind = detail::figure_kind<Made>(), .is_aside = true};
    out.unit = out.kind == AnsweredKind::number ? detail::suffix_of(key).unit : "";
    out.is_always = !detail::kIsOptional<Made>;
    out.get = [](const void* answer) {
        return shown(Of(*static_cast<const typename Pair::first_type*>(answer)));
    };
    return out;
}

/// The same of records: `std::vector<Item> of(const Answer&)`.
template <const RecordRow& Record, auto Of>
constexpr FigureRow made_records(std::string_view key, std::string_view about) {
    using Whole = typename decltype(detail::made_of(Of))::first_type;
    FigureRow out{.key = key, .about = about, .kind = AnsweredKind::records, .of = &Record, .is_aside = true};
    out.get = [](const void* answer) {
        const auto items = Of(*static_cast<const Whole*>(answer));
        return shown_each(items.data(), items.size(), sizeof(*items.data()), Record);
    };
    return out;
}

// A type and a member cannot stand in parentheses.
// NOLINTBEGIN(bugprone-macro-parentheses)
/// An argument that goes to a member of what is asked.
#define HALFNUT_ASKED(Asked, member, words)                                                  \
    halfnut::detail::asked_row<std::remove_cvref_t<decltype(std::declval<Asked&>().member)>, \
                               decltype([](void* asked) -> auto& {                           \
                                   return static_cast<Asked*>(asked)->member;                \
                               })>(#member, words)

/// A figure that is a member of the answer.
#define HALFNUT_FIGURE(Answer, member, words)                                                  \
    halfnut::detail::figure_row<std::remove_cvref_t<decltype(std::declval<Answer&>().member)>, \
                                decltype([](const void* answer) -> const auto& {               \
                                    return static_cast<const Answer*>(answer)->member;         \
                                })>(#member, words)

/// A record that is a member of the answer; an optional one need not apply.
#define HALFNUT_RECORD(Answer, member, of, words)                                                  \
    halfnut::detail::record_row<of, std::remove_cvref_t<decltype(std::declval<Answer&>().member)>, \
                                decltype([](const void* answer) -> const auto& {                   \
                                    return static_cast<const Answer*>(answer)->member;             \
                                })>(#member, words)

/// A list of records that is a member of the answer; `of` is the RecordRow of each.
#define HALFNUT_RECORDS(Answer, member, of, words)                                      \
    halfnut::detail::records_row<of, decltype([](const void* answer) -> const auto& {   \
                                     return static_cast<const Answer*>(answer)->member; \
                                 })>(#member, words)
// NOLINTEND(bugprone-macro-parentheses)

/// A question: what is asked, what is answered, and the function between them.
template <class Asked, class Answered, Answered (*Evaluate)(const Asked&, const Asking&)>
constexpr Question question(std::string_view room, std::string_view name, std::string_view about,
                            std::span<const AskedRow> arguments, const RecordRow& answer) {
    return {.name = name,
            .room = room,
            .about = about,
            .arguments = arguments,
            .answer = &answer,
            .answered = &typeid(Answered),
            .fresh = []() -> std::shared_ptr<void> { return std::make_shared<Asked>(); },
            .copy = [](const void* asked) -> std::shared_ptr<void> {
                return std::make_shared<Asked>(*static_cast<const Asked*>(asked));
            },
            .evaluate = [](const void* asked, const Asking& asking) -> std::shared_ptr<const void> {
                return std::make_shared<Answered>(Evaluate(*static_cast<const Asked*>(asked), asking));
            }};
}

}  // namespace halfnut
