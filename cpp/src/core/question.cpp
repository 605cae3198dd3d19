#include "halfnut/core/question.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/failed.hpp"
#include "halfnut/core/read_number.hpp"

namespace halfnut {

namespace {

// The one unit of arguments that is not the base of its dimension.
constexpr std::string_view kMinute = "min";
constexpr std::string_view kCelsius = "C";
constexpr double kSecondsInMinute = 60.0;

bool is_word(char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_' ||
           (static_cast<unsigned char>(letter) & 0x80U) != 0;
}
bool is_figure(char letter) {
    return letter >= '0' && letter <= '9';
}

/// How many bytes of a text are a decimal number, as messages write them.
std::size_t number_length(std::string_view text) {
    std::size_t at = text.starts_with('-') ? 1 : 0;
    const auto figures = [&] {
        const std::size_t from = at;
        while (at < text.size() && is_figure(text[at])) {
            ++at;
        }
        return at > from;
    };
    if (!figures()) {
        return 0;
    }
    const auto further = [&](std::size_t skip) {
        const std::size_t whole = at;
        at += skip;
        if (!figures()) {
            at = whole;
        }
    };
    if (text.substr(at).starts_with('.')) {
        further(1);
    }
    if (text.substr(at).starts_with('e')) {
        further(text.substr(at + 1).starts_with('-') || text.substr(at + 1).starts_with('+') ? 2 : 1);
    }
    return at;
}

double to_number(std::string_view text) {
    double value = 0.0;
    (void)read_number(text.data(), text.data() + text.size(), value);
    return value;
}

std::string of_unit(std::string_view unit) {
    return unit.empty() ? std::string() : fmt::format(" in {}", unit);
}

/// A number as a person writes one: at most six digits, as a whole number where it is one.
std::string plain(double value) {
    return fmt::format("{:g}", value);
}

[[noreturn]] void refuse(const AskedRow& row, std::string_view wanted, const Given& given) {
    throw DomainError(fmt::format("{} must be {}, got {}", row.name, wanted, given.shown()));
}

/// A number without its unit where one belongs, with how it would be written.
[[noreturn]] void refuse_bare(const AskedRow& row, const Given& given) {
    const bool usual = given.tag == Given::Tag::number && given.number != 0.0 && std::abs(given.number) < 1e9;
    const std::string_view dimension = dimension_name(row.dimension);
    throw UnitError(fmt::format("{}: {} has no unit; a bare number is never a {}: write text such as '{} {}'",
                                row.name, given.shown(), dimension, usual ? plain(given.number) : "1",
                                base_unit(row.dimension)));
}

/// Within a handler: rethrow an error of the core as what it is, with the words and the fault that `remade`
/// makes of its own.
template <class Remade>
[[noreturn]] void rethrow_remade(const Remade& remade) {
    try {
        throw;
    } catch (const Error& error) {
        const auto [words, fault] = remade(std::string_view(error.what()), error.fault());
        try {
            throw;
        } catch (const DesignationError& designation) {
            throw DesignationError(words, designation.position(), fault);
        } catch (const Failed& failed) {
            throw Failed(failed.code(), words, fault);
        } catch (const DomainError&) {
            throw DomainError(words, fault);
        } catch (const UnitError&) {
            throw UnitError(words, fault);
        } catch (const NotTabulatedError&) {
            throw NotTabulatedError(words, fault);
        } catch (const TableError&) {
            throw TableError(words, fault);
        }
    }
    throw std::logic_error("no error of the core is being handled");
}

/// The same in other words.
template <class Words>
[[noreturn]] void retell(const Words& words) {
    rethrow_remade([&](std::string_view what, const Fault& fault) { return std::pair(words(what), fault); });
}

double plain_number(const AskedRow& row, const Given& given) {
    if (!std::isfinite(given.number)) {
        throw Failed(StatusCode::not_finite, fmt::format("{} must be a finite number{}, got {}", row.name,
                                                         of_unit(row.unit), given.number));
    }
    return given.number;
}

/// The number of a text that is nothing but one; a nought in front may have lost a point.
std::optional<double> bare_number(std::string_view text) {
    const std::size_t sign = text.starts_with('-') ? 1 : 0;
    const bool lost = text.size() > sign + 1 && text[sign] == '0' && is_figure(text[sign + 1]);
    return lost || text.empty() || number_length(text) != text.size() ? std::nullopt
                                                                      : std::optional(to_number(text));
}

/// A temperature in degrees Celsius of a text with its scale: "40 C", "104 F".
double temperature_in_c(std::string_view text) {
    constexpr double kFahrenheitZero = 32.0;
    constexpr double kFahrenheitDegrees = 1.8;
    const std::size_t size = number_length(text);
    std::string_view scale = text.substr(size);
    for (const std::string_view before : {" ", "\u00b0", "deg", " "}) {
        scale.remove_prefix(scale.starts_with(before) ? before.size() : 0);
    }
    const double number = to_number(text.substr(0, size));
    const bool celsius = scale == "C" || scale == "c";
    const bool fahrenheit = scale == "F" || scale == "f";
    if (size == 0 || !(celsius || fahrenheit || scale.empty())) {
        throw DesignationError(
            fmt::format("'{}' is no temperature; write text such as '40 C' or '104 F'", bounds::shown(text)),
            size);
    }
    if (scale.empty()) {
        throw UnitError(
            fmt::format("'{0}' has no scale: write text such as '{0} C' or '{0} F'", bounds::shown(text)));
    }
    return fahrenheit ? (number - kFahrenheitZero) / kFahrenheitDegrees : number;
}

/// The argument of the lowest rank that is given says in which system the question is.
void lead(const AskedRow& row, bool inch, Asking& asking) {
    if (row.leading != 0 && (asking.led_by == 0 || row.leading < asking.led_by)) {
        asking.inch = inch;
        asking.led_by = row.leading;
    }
}

double quantity_in_base(const AskedRow& row, const Quantity& found, Asking& asking) {
    if (found.dimension() != row.dimension) {
        throw DomainError(fmt::format("{}: {} is a {}, not a {}", row.name, found.text(),
                                      dimension_name(found.dimension()), dimension_name(row.dimension)));
    }
    lead(row, found.system() == UnitSystem::inch, asking);
    if (found.unit().symbol == row.unit) {
        return found.value();
    }
    return row.unit == kMinute ? found.base() / kSecondsInMinute : found.base();
}

double number_of(const Given& given, const AskedRow& row, Asking& asking) {
    switch (given.tag) {
        case Given::Tag::quantity:
            if (row.has_dimension) {
                return quantity_in_base(row, Quantity(given.number, *given.unit), asking);
            }
            break;
        case Given::Tag::text:
            if (row.unit.empty()) {
                break;
            }
            if (const std::optional<double> number = bare_number(given.text);
                number && !row.written && row.unit != kCelsius) {
                return plain_number(row, {.tag = Given::Tag::number, .number = *number});
            }
            try {
                if (row.unit == kCelsius) {
                    return temperature_in_c(given.text);
                }
                return row.has_dimension && row.dimension != Dimension::angle  // which may be negative
                           ? quantity_in_base(
                                 row, parse_quantity(given.text, row.dimension, asking.catalogue), asking)
                           : parse_number(given.text, row.unit, asking.catalogue);
            } catch (const Error&) {
                rethrow_of(row.name);
            }
        case Given::Tag::number:
            if (!row.written) {
                return plain_number(row, given);
            }
            break;
        default:
            break;
    }
    if (row.written) {
        refuse_bare(row, given);
    }
    refuse(row, "a number" + of_unit(row.unit), given);
}

double in_range(const AskedRow& row, double value, const Asking& asking) {
    if (const StatusCode code = check(row.range, value); code != StatusCode::ok) {
        throw Failed(code, as_asked(argument_message(row.range, value), {&row, 1}, asking.inch));
    }
    return value;
}

/// The words that stand for a key: the argument's name; else the key without its length's unit.
std::string_view words_for(std::string_view key, std::span<const AskedRow> rows) {
    for (const AskedRow& row : rows) {
        if (row.key == key) {
            return row.name;
        }
    }
    for (const std::string_view unit : {"_mm_rev", "_mm_min", "_mm"}) {
        if (key.ends_with(unit)) {
            return key.substr(0, key.size() - unit.size());
        }
    }
    return key;
}

/// How many bytes from a place are a name in quotes, which is nobody's to change.
std::size_t quoted_length(std::string_view message, std::size_t at) {
    const bool opens = message[at] == '\'' && (at == 0 || !is_word(message[at - 1]));
    const std::size_t end = opens ? message.find('\'', at + 1) : std::string_view::npos;
    return end == std::string_view::npos ? 0 : end + 1 - at;
}

std::string named(std::string_view message, std::span<const AskedRow> rows) {
    std::string out;
    for (std::size_t at = 0; at < message.size();) {
        if (const std::size_t quoted = quoted_length(message, at); quoted > 0) {
            out += message.substr(at, quoted);
            at += quoted;
            continue;
        }
        std::size_t end = at;
        while (end < message.size() && is_word(message[end])) {
            ++end;
        }
        const std::string_view word = message.substr(at, end - at);
        out += word.empty() ? message.substr(at, 1) : words_for(word, rows);
        at = std::max(end, at + 1);
    }
    return out;
}

/// What follows a number that is a length in mm: nothing, or neither a letter nor a power.
bool ends_length(std::string_view rest) {
    return rest.empty() || rest.starts_with("/rev") || rest.starts_with("/min") ||
           !(is_word(rest.front()) || rest.front() == '/');
}

/// Whether a range goes on to its other end, which has the unit of both: " to 20 mm", " and at most 20 mm".
bool ends_range(std::string_view rest) {
    constexpr std::string_view kMm = " mm";
    for (const std::string_view between : {" to ", " and at most ", " and below "}) {
        if (rest.starts_with(between)) {
            const std::string_view end = rest.substr(between.size());
            const std::size_t size = number_length(end);
            return size > 0 && end.substr(size).starts_with(kMm) &&
                   ends_length(end.substr(size + kMm.size()));
        }
    }
    return false;
}

std::string in_inches(std::string_view message) {
    constexpr std::string_view kMm = " mm";
    std::string out;
    for (std::size_t at = 0; at < message.size();) {
        if (const std::size_t quoted = quoted_length(message, at); quoted > 0) {
            out += message.substr(at, quoted);
            at += quoted;
            continue;
        }
        const char before = at == 0 ? ' ' : message[at - 1];
        const std::string_view here = message.substr(at);
        const std::size_t size = number_length(here);
        const std::string_view rest = here.substr(size);
        if (size > 0 && !is_figure(before) && before != '.' && before != '(' && ends_range(rest)) {
            out += fmt::format("{:.4g}", to_number(here.substr(0, size)) / kInchMm);
            at += size;
            continue;
        }
        if (size == 0 || is_figure(before) || before == '.' || !rest.starts_with(kMm) ||
            !ends_length(rest.substr(kMm.size()))) {
            const std::size_t whole = size > 0 && !is_figure(before) && before != '.' ? size : 1;
            out += here.substr(0, whole);
            at += whole;
            continue;
        }
        const std::string_view after = rest.substr(kMm.size());
        const std::size_t inches = after.starts_with(" (") ? number_length(after.substr(2)) : 0;
        if (inches > 0 && after.substr(2 + inches).starts_with(" in)")) {  // both are told: inches first
            out += fmt::format("{} in ({} mm)", after.substr(2, inches), here.substr(0, size));
            at += size + kMm.size() + 2 + inches + 4;
        } else if (before == '(') {  // beside its inches already
            out += here.substr(0, size + kMm.size());
            at += size + kMm.size();
        } else {
            out += fmt::format("{:.4g} in", to_number(here.substr(0, size)) / kInchMm);
            at += size + kMm.size();
        }
    }
    return out;
}

}  // namespace

std::string Given::shown() const {
    switch (tag) {
        case Tag::nothing:
            return "None";
        case Tag::flag:
            return number != 0.0 ? "True" : "False";
        case Tag::number:
            return fmt::format("{}", number);
        case Tag::text:
            return fmt::format("'{}'", bounds::shown(text));
        case Tag::quantity:
            return Quantity(number, *unit).text();
        default:
            return std::string(text);
    }
}

void take(double& to, const Given& given, const AskedRow& row, Asking& asking) {
    to = in_range(row, number_of(given, row, asking), asking);
}

void take(int& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    if (given.tag != Given::Tag::number || given.number != std::floor(given.number)) {
        refuse(row, "a whole number", given);
    }
    if (!row.range.accepts(given.number) || std::abs(given.number) > 2147483647.0) {
        throw DomainError(argument_message(row.range.called(row.name), given.number));
    }
    to = static_cast<int>(given.number);
}

void take(bool& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    if (given.tag != Given::Tag::flag) {
        refuse(row, "True or False", given);
    }
    to = given.number != 0.0;
}

void take(std::string& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    if (given.tag != Given::Tag::text) {
        refuse(row, row.kin.empty() ? "text" : fmt::format("text or a {}", row.kin), given);
    }
    bounds::require_text(row.name, given.text, bounds::kDesignationBytes);
    to = given.text;
}

void take(std::vector<double>& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag != Given::Tag::list) {
        refuse(row, "a sequence", given);
    }
    for (const Given& item : given.items) {
        to.push_back(number_of(item, row, asking));
    }
}

std::size_t take_choice(const Given& given, const AskedRow& row) {
    if (given.tag != Given::Tag::text) {
        refuse(row, "text", given);
    }
    const auto found = std::find(row.choices.begin(), row.choices.end(), given.text);
    if (found == row.choices.end()) {
        refuse_choice(row.name, row.choices, given.text);
    }
    return static_cast<std::size_t>(found - row.choices.begin());
}

bool take_parts(void* to, const Given& given, const AskedRow& row, Asking& asking) {
    const std::span<const AskedRow> parts = row.parts();
    std::vector<const AskedRow*> places;
    std::vector<std::string_view> names;
    for (const AskedRow& part : parts) {
        names.push_back(part.name);
        if (part.is_placed) {
            places.push_back(&part);
        }
    }
    const bool listed = given.tag == Given::Tag::list;
    if (given.tag != Given::Tag::object &&
        (!listed || (given.items.size() != places.size() && !given.items.empty()))) {
        refuse(row,
               fmt::format("an object, or its {}",
                           fmt::join(std::span(names).first(places.size()), " and its ")),
               given);
    }
    for (std::size_t i = 0; i < given.items.size(); ++i) {
        const auto part = listed ? parts.begin() + (places[i] - parts.data())
                                 : std::find_if(parts.begin(), parts.end(), [&](const AskedRow& each) {
                                       return each.name == given.keys[i];
                                   });
        if (part == parts.end()) {
            const std::string_view near = nearest_name(given.keys[i], names);
            throw DomainError(fmt::format("{} has no '{}'{}", row.name, bounds::shown(given.keys[i]),
                                          near.empty() ? fmt::format("; it has {}", fmt::join(names, ", "))
                                                       : fmt::format("; did you mean '{}'?", near)),
                              {std::string(row.name),
                               bounds::shown(given.keys[i]),
                               {names.begin(), names.end()},
                               std::string(near)});
        }
        if (given.items[i].tag == Given::Tag::nothing) {
            continue;
        }
        try {
            part->take(to, given.items[i], *part, asking);
        } catch (const Error&) {
            rethrow_of(row.name);
        }
    }
    return !listed || !given.items.empty();
}

void refuse_choice(std::string_view name, std::span<const std::string_view> choices, std::string_view given) {
    std::string list;
    for (const std::string_view choice : choices) {
        list += fmt::format("{}'{}'", list.empty() ? "" : ", ", choice);
    }
    const std::string_view near = nearest_name(given, choices);
    throw DomainError(
        fmt::format("{} must be one of {}, got '{}'{}", name, list, bounds::shown(given),
                    near.empty() ? "" : fmt::format("; did you mean '{}'?", near)),
        {std::string(name), bounds::shown(given), {choices.begin(), choices.end()}, std::string(near)});
}

Value::Value() noexcept = default;
Value::Value(bool flag) noexcept : is(flag) {}
Value::Value(std::int64_t count) noexcept : is(count) {}
Value::Value(double number) noexcept : is(number) {}
Value::Value(std::string text) noexcept : is(std::move(text)) {}
Value::Value(Values list) noexcept : is(std::move(list)) {}
Value::Value(const Value& other) = default;
Value::Value(Value&& other) noexcept = default;
Value& Value::operator=(const Value& other) = default;
Value& Value::operator=(Value&& other) noexcept = default;
Value::~Value() = default;

Value shown(double value) {
    return std::isnan(value) ? Value() : Value(value);
}

Value shown(bool value) {
    return value;
}

Value shown(std::string_view value) {
    return std::string(value);
}

Value shown(const std::string& value) {
    return value;
}

Value shown(const std::pair<std::string, std::string>& pair) {
    return Value(Values{pair.first, pair.second});
}

Value shown(const EvidenceText& text) {
    return Value(Values{shown(text.figure), shown(text.rule), shown(text.rule_id), shown(text.row),
                        shown(text.source), shown(text.kind)});
}

Value shown(const Told& told) {
    return Value(Values{told.code, told.gravity, shown(told.words)});
}

namespace {

/// What a function makes of each item of a list.
template <class One>
Value each_of(const void* first, std::size_t count, std::size_t size, const One& one) {
    Values out;
    out.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        out.push_back(one(static_cast<const std::byte*>(first) + i * size));
    }
    return Value(std::move(out));
}

}  // namespace

Value shown_each(const void* first, std::size_t count, std::size_t size, Value (*one)(const void* item)) {
    return each_of(first, count, size, one);
}

Value shown_each(const void* first, std::size_t count, std::size_t size, const RecordRow& of) {
    return each_of(first, count, size, [&](const void* item) { return record_value(of, item); });
}

EvidenceText rests_on(std::string_view figure, RuleId rule, const Catalogue& catalogue, RowRef row) {
    return evidence_text({.figure = 0, .rule = rule, .row = row}, std::array{figure}, catalogue);
}

EvidenceText as_tabulated(std::string_view figure, RowRef row, const Catalogue& catalogue) {
    constexpr RuleId kNoRule{.domain = 0xff, .place = 0};
    EvidenceText out = rests_on(figure, kNoRule, catalogue, row);
    out.rule = "as tabulated";
    return out;
}

void append_evidence(std::span<const EvidenceItem> items, std::span<const std::string_view> figures,
                     const Catalogue& catalogue, std::vector<EvidenceText>& out) {
    for (const EvidenceItem& item : items) {
        out.push_back(evidence_text(item, figures, catalogue));
    }
}

void rethrow_of(std::string_view argument) {
    retell([&](std::string_view why) {
        return why.starts_with(argument) ? std::string(why) : fmt::format("{}: {}", argument, why);
    });
}

std::string size_text(double mm, bool inch) {
    return inch ? fmt::format("{:.4f} in", mm / kInchMm) : fmt::format("{:.3f} mm", mm);
}

std::string both_sizes_text(double mm, bool inch) {
    return fmt::format("{} ({})", size_text(mm, inch), size_text(mm, !inch));
}

std::string as_asked(std::string_view message, std::span<const AskedRow> rows, bool inch) {
    constexpr std::string_view kNone = ", got nan mm";
    std::string out = named(message, rows);
    if (const std::size_t at = out.find(kNone); at != std::string::npos) {
        out.replace(at, kNone.size(), "; none is given");
    }
    return inch ? in_inches(out) : out;
}

std::span<const Question* const> questions() noexcept {
    static const std::vector<const Question*> kAll = [] {
        std::vector<const Question*> out;
        for (const std::span<const Question* const> room :
             {material::questions(), threads::questions(), knurls::questions(), cutting::questions()}) {
            out.insert(out.end(), room.begin(), room.end());
        }
        return out;
    }();
    return kAll;
}

const Question& find_question(std::string_view name) {
    std::vector<std::string_view> names;
    for (const Question* const each : questions()) {
        if (each->name == name) {
            return *each;
        }
    }
    for (const Question* const each : questions()) {
        names.push_back(each->name);
    }
    const std::string_view near = nearest_name(name, names);
    throw NotTabulatedError(
        fmt::format("no question '{}'{}", bounds::shown(name),
                    near.empty() ? "" : fmt::format("; did you mean '{}'?", near)),
        {"question", bounds::shown(name), {names.begin(), names.end()}, std::string(near)});
}

namespace {

void take_all(const Question& question, std::span<const Given> given, void* asked, Asking& asking) {
    for (std::size_t i = 0; i < given.size() && i < question.arguments.size(); ++i) {
        if (given[i].tag != Given::Tag::nothing) {
            question.arguments[i].take(asked, given[i], question.arguments[i], asking);
        }
    }
}

[[noreturn]] void refuse_lack(const Question& question, const AskedRow& row) {
    const bool number = row.kind == AskedKind::number || row.kind == AskedKind::count;
    throw Failed(number ? StatusCode::not_finite : StatusCode::not_understood,
                 fmt::format("{} needs {}: {}", question.name, row.name, row.about),
                 {.argument = std::string(row.name), .value = {}, .allowed = {}, .nearest = {}});
}

/// The argument that a message begins with; null where none is.
const AskedRow* spoken_of(const Question& question, std::string_view message) {
    std::size_t end = 0;
    while (end < message.size() && is_word(message[end])) {
        ++end;
    }
    const auto found = std::find_if(question.arguments.begin(), question.arguments.end(),
                                    [&](const AskedRow& row) { return row.name == message.substr(0, end); });
    return found == question.arguments.end() ? nullptr : &*found;
}

/// A fault with what the declaration and the question tell beside it.
Fault completed(const Question& question, std::span<const Given> given, std::string_view message,
                Fault fault) {
    const AskedRow* const row = spoken_of(question, fault.argument.empty() ? message : fault.argument);
    if (row == nullptr) {
        return fault;
    }
    fault.argument = row->name;
    const auto place = static_cast<std::size_t>(row - question.arguments.data());
    if (fault.value.empty() && place < given.size() && given[place].tag != Given::Tag::nothing) {
        const Given& value = given[place];
        fault.value = value.tag == Given::Tag::text ? bounds::shown(value.text) : value.shown();
    }
    if (const std::string range = range_text(row->range); fault.allowed.empty() && range != "finite") {
        fault.allowed.push_back(range);
    }
    return fault;
}

std::shared_ptr<const void> evaluated(const Question& question, const void* asked, const Asking& asking) {
    try {
        return question.evaluate(asked, asking);
    } catch (const TableError&) {  // it speaks of a file's columns, not of arguments
        throw;
    } catch (const Error&) {
        retell([&](std::string_view why) {
            return as_asked(why, question.arguments, asking.inch && !question.own_units);
        });
    }
}

/// What a row of a column gives; false where it gives nothing.
bool take_cell(const AskedColumn& column, std::size_t row, const AskedRow& argument, void* asked,
               Asking& asking) {
    if (!column.numbers.empty()) {
        const double number = column.numbers[row];
        if (std::isnan(number)) {
            return false;
        }
        if (argument.set == nullptr && !argument.has_dimension) {
            throw DomainError(
                fmt::format("{} is no number: a column of numbers cannot give it", argument.name));
        }
        if (argument.kind == AskedKind::flag && number != 0.0 && number != 1.0) {
            throw DomainError(fmt::format("{} must be 0 or 1, got {}", argument.name, number));
        }
        lead(argument, column.inch, asking);
        if (argument.set == nullptr) {
            argument.take(asked,
                          {.tag = Given::Tag::quantity,
                           .number = number,
                           .unit = find_unit(argument.unit, argument.dimension)},
                          argument, asking);
            return true;
        }
        argument.set(asked,
                     in_range(argument, plain_number(argument, {.tag = Given::Tag::number, .number = number}),
                              asking));
        return true;
    }
    if (column.codes[row] < 0) {
        return false;
    }
    const std::string_view text = column.texts[static_cast<std::size_t>(column.codes[row])];
    argument.take(asked, {.tag = Given::Tag::text, .text = text}, argument, asking);
    return true;
}

}  // namespace

std::shared_ptr<void> read_asked(const Question& question, std::span<const Given> given, Asking& asking) {
    std::shared_ptr<void> asked = question.fresh();
    for (std::size_t i = 0; i < question.arguments.size(); ++i) {
        if (question.arguments[i].is_required && (i >= given.size() || given[i].tag == Given::Tag::nothing)) {
            refuse_lack(question, question.arguments[i]);
        }
    }
    take_all(question, given, asked.get(), asking);
    return asked;
}

Answer ask(const Question& question, std::span<const Given> given, const Catalogue& catalogue) {
    try {
        Asking asking{catalogue};
        const std::shared_ptr<void> asked = read_asked(question, given, asking);
        return {&question, evaluated(question, asked.get(), asking), asking.inch};
    } catch (const Error&) {
        rethrow_remade([&](std::string_view what, const Fault& fault) {
            return std::pair(std::string(what), completed(question, given, what, fault));
        });
    }
}

void ask_rows(const Question& question, std::span<const Given> common, std::span<const AskedColumn> columns,
              std::size_t first, std::size_t last, const Catalogue& catalogue,
              const std::function<void(std::size_t row, const void* answer)>& answered,
              const std::function<void(std::size_t row, StatusCode code, std::string_view why)>& failed) {
    for (const AskedColumn& column : columns) {
        if (column.argument >= question.arguments.size() ||
            std::max(column.numbers.size(), column.codes.size()) < last) {
            throw DomainError(fmt::format("a column of {} has no argument, or too few rows", question.name));
        }
    }
    Asking shared{catalogue};
    shared.evidence = false;
    const std::shared_ptr<void> all = question.fresh();
    take_all(question, common, all.get(), shared);
    std::vector<bool> given(question.arguments.size(), false);
    for (std::size_t i = 0; i < common.size() && i < given.size(); ++i) {
        given[i] = common[i].tag != Given::Tag::nothing;
    }
    for (std::size_t row = first; row < last; ++row) {
        try {
            const std::shared_ptr<void> asked = question.copy(all.get());
            Asking asking = shared;
            for (const AskedColumn& column : columns) {
                given[column.argument] =
                    take_cell(column, row, question.arguments[column.argument], asked.get(), asking);
            }
            for (std::size_t i = 0; i < given.size(); ++i) {
                if (question.arguments[i].is_required && !given[i]) {
                    refuse_lack(question, question.arguments[i]);
                }
            }
            answered(row, evaluated(question, asked.get(), asking).get());
        } catch (const Error& error) {
            failed(row, code_of(error), error.what());
        }
    }
}

Value record_value(const RecordRow& row, const void* record) {
    return record == nullptr ? Value() : Value(values_of(row, record));
}

Values values_of(const RecordRow& row, const void* record) {
    Values out;
    out.reserve(row.figures.size());
    for (const FigureRow& figure : row.figures) {
        out.push_back(figure.get(record));
    }
    return out;
}

}  // namespace halfnut
