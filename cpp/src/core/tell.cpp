#include "halfnut/core/tell.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <system_error>
#include <tuple>
#include <variant>

#include "halfnut/core/error.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/core/words.hpp"

namespace halfnut {

namespace {

// ---- what stands in a template ----------------------------------------------------------------------------

bool is_word(char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_';
}
bool is_figure(char letter) {
    return std::isdigit(static_cast<unsigned char>(letter)) != 0;
}

/// Reads a place from its front.
class PlaceReader {
   public:
    explicit PlaceReader(std::string_view text) : left_(text) {}

    [[nodiscard]] bool done() const { return left_.empty(); }
    bool skip(std::string_view text) {
        const bool found = left_.starts_with(text);
        left_.remove_prefix(found ? text.size() : 0);
        return found;
    }
    template <class Is>
    std::string_view all(Is is) {
        const auto* const end = std::find_if_not(left_.begin(), left_.end(), is);
        return take(static_cast<std::size_t>(end - left_.begin()));
    }
    /// A whole number that what follows is multiplied by.
    std::string_view times() {
        std::size_t at = left_.starts_with('-') ? 1 : 0;
        const std::size_t from = at;
        while (at < left_.size() && is_figure(left_[at])) {
            ++at;
        }
        const bool found = at > from && left_.substr(at).starts_with('*');
        const std::string_view out = take(found ? at : 0);
        skip(found ? "*" : "");
        return out;
    }
    /// Keys with a point between them.
    std::string_view path() {
        std::size_t at = 0;
        while (at < left_.size() && (is_word(left_[at]) ||
                                     (left_[at] == '.' && at + 1 < left_.size() && is_word(left_[at + 1])))) {
            ++at;
        }
        return take(at);
    }
    std::string_view test() {
        for (const std::string_view each : {"!=", "<=", ">=", "?", "!", "=", "<", ">"}) {
            if (left_.starts_with(each)) {
                return take(each.size());
            }
        }
        return {};
    }
    std::string_view rest() { return take(left_.size()); }

   private:
    std::string_view take(std::size_t size) {
        const std::string_view out = left_.substr(0, size);
        left_.remove_prefix(size);
        return out;
    }
    std::string_view left_;
};

/// What stands between braces; nothing where that is no place.
std::optional<Place> place_of(std::string_view text) {
    PlaceReader words(text);
    if (const std::string_view list = words.all(is_word); !list.empty() && words.skip("/")) {
        const std::string_view code = words.all(is_word);
        if (words.done() && !code.empty() && std::islower(static_cast<unsigned char>(code.front())) != 0) {
            return Place{.list = list, .code = code};
        }
    }
    PlaceReader reader(text);
    Place out{.times = reader.times()};
    out.path = reader.path();
    out.test = reader.test();
    if (!out.test.empty()) {
        out.than = reader.rest();
        return out;
    }
    if (reader.skip("..")) {
        out.last = reader.path();
    }
    if (reader.skip("/")) {
        out.over = reader.all([](char letter) { return is_figure(letter) || letter == '.'; });
    }
    if (reader.skip(":")) {
        out.kind = reader.rest();
    }
    return reader.done() ? std::optional(out) : std::nullopt;
}

// ---- figures ----------------------------------------------------------------------------------------------

/// What stands at a path: a value, and what it is; records as they are told.
struct Thing {
    Value value{};
    AnsweredKind kind = AnsweredKind::text;
    std::vector<Telling> records{};

    [[nodiscard]] bool is_list() const {
        return kind == AnsweredKind::pairs || kind == AnsweredKind::numbers || kind == AnsweredKind::counts ||
               kind == AnsweredKind::texts || kind == AnsweredKind::records;
    }
    [[nodiscard]] bool is_record() const { return kind == AnsweredKind::record && !records.empty(); }
    [[nodiscard]] bool is_nothing() const {
        return !is_list() && !is_record() && std::holds_alternative<std::monostate>(value.is);
    }
    [[nodiscard]] std::size_t count() const {
        const auto* const items = std::get_if<Values>(&value.is);
        return kind == AnsweredKind::records ? records.size() : items == nullptr ? 0 : items->size();
    }
    [[nodiscard]] Thing item(std::size_t place) const {
        if (kind == AnsweredKind::records) {
            return {.kind = AnsweredKind::record, .records = {records[place]}};
        }
        return {std::get<Values>(value.is)[place]};
    }
};

Thing thing_of(std::string text) {
    return {Value{std::move(text)}};
}

const std::string& text_in(const Value& value) {
    return std::get<std::string>(value.is);
}

/// A number as it is written in a template.
double number_of(std::string_view text) {
    double out = kNaN;
    const auto [end, error] = read_number(text.data(), text.data() + text.size(), out);
    return error == std::errc() && end == text.data() + text.size() ? out : kNaN;
}

// ---- templates filled -------------------------------------------------------------------------------------

using Lookup = std::function<Thing(std::string_view path)>;

class Filler {
   public:
    Filler(const Lookup& figure, std::string_view unit, const Catalogue& catalogue)
        : figure_(figure), unit_(unit), catalogue_(catalogue) {}

    [[nodiscard]] std::optional<std::string> filled(std::string_view text) const {
        std::string out;
        while (true) {
            const std::size_t open = text.find('[');
            const std::size_t close = text.find(']', std::min(open, text.size()));
            const bool ends = close == std::string_view::npos;
            const std::optional<std::string> before = section(ends ? text : text.substr(0, open));
            if (!before) {
                return std::nullopt;
            }
            out += *before;
            if (ends) {
                return out;
            }
            out += section(text.substr(open + 1, close - open - 1)).value_or("");
            text.remove_prefix(close + 1);
        }
    }

   private:
    /// A text without square brackets; nothing where one of its places has none.
    [[nodiscard]] std::optional<std::string> section(std::string_view text) const {
        std::string out;
        while (true) {
            const std::size_t open = text.find('{');
            const std::size_t close = text.find('}', std::min(open, text.size()));
            if (close == std::string_view::npos) {
                return out.append(text);
            }
            out += text.substr(0, open);
            if (const std::optional<Place> place = place_of(text.substr(open + 1, close - open - 1))) {
                const std::optional<std::string> found = said(*place);
                if (!found) {
                    return std::nullopt;
                }
                out += *found;
                text.remove_prefix(close + 1);
            } else {
                out += '{';
                text.remove_prefix(open + 1);
            }
        }
    }

    [[nodiscard]] std::optional<std::string> said(const Place& place) const {
        if (!place.list.empty()) {
            return std::string(find_words(place.list, place.code, catalogue_));
        }
        Thing thing = figure_(place.path);
        if (!place.test.empty()) {
            return holds(thing, place) ? std::optional<std::string>("") : std::nullopt;
        }
        Thing last = place.last.empty() ? Thing() : figure_(place.last);
        if (thing.is_nothing() || (!place.last.empty() && last.is_nothing())) {
            return std::nullopt;
        }
        if (!place.times.empty() || !place.over.empty()) {
            const double times = place.times.empty() ? 1.0 : number_of(place.times);
            const double over = place.over.empty() ? 1.0 : number_of(place.over);
            for (Thing* const each : {&thing, &last}) {
                if (const std::optional<double> number = number_in(each->value)) {
                    each->value = {times * *number / over};
                }
            }
        }
        std::string out = spelled(thing, number_in(last.value), place.kind, place.path);
        return out.empty() ? std::nullopt : std::optional(std::move(out));
    }

    [[nodiscard]] bool holds(const Thing& thing, const Place& place) const {
        const std::optional<double> number = number_in(thing.value);
        if (place.test == "?" || place.test == "!") {
            const auto* const text = std::get_if<std::string>(&thing.value.is);
            const auto* const flag = std::get_if<bool>(&thing.value.is);
            const bool there = flag != nullptr   ? *flag
                               : text != nullptr ? !text->empty()
                               : thing.is_list() ? thing.count() > 0
                                                 : !thing.is_nothing();
            return there == (place.test == "?");
        }
        if (thing.is_nothing()) {
            return false;
        }
        if (!number) {
            const auto* const text = std::get_if<std::string>(&thing.value.is);
            return (text != nullptr && *text == place.than) == (place.test == "=");
        }
        const double written = number_of(place.than);
        const std::optional<double> other =
            std::isnan(written) ? number_in(figure_(place.than).value) : written;
        if (!other) {
            return place.test == "!=";
        }
        return place.test == "="    ? *number == *other
               : place.test == "!=" ? *number != *other
               : place.test == "<"  ? *number < *other
               : place.test == ">"  ? *number > *other
               : place.test == "<=" ? *number <= *other
                                    : *number >= *other;
    }

    [[nodiscard]] std::string spelled(const Thing& thing, const std::optional<double>& last,
                                      std::string_view kind, std::string_view path) const {
        if (const auto* const text = std::get_if<std::string>(&thing.value.is)) {
            const std::string_view list = kind.substr(0, kind.find(' '));
            return list.empty() || text->empty() ? *text : std::string(find_words(list, *text, catalogue_));
        }
        if (thing.is_record()) {
            return thing.records.front().answer();
        }
        if (thing.is_list()) {
            return listed(thing, kind, path);
        }
        if (const auto* const pair = std::get_if<Values>(&thing.value.is)) {
            return fmt::format("{} {}", text_in(pair->front()), text_in(pair->back()));
        }
        if (const std::optional<std::string> plain = formatted(thing.value, kind)) {
            return *plain;
        }
        if (const auto* const whole = std::get_if<std::int64_t>(&thing.value.is); whole != nullptr && !last) {
            return fmt::format("{}", *whole);
        }
        return in_units(number_in(thing.value).value_or(kNaN), last, kind.empty() ? path : kind);
    }

    [[nodiscard]] std::string listed(const Thing& thing, std::string_view kind, std::string_view path) const {
        std::string out;
        for (std::size_t i = 0; i < thing.count(); ++i) {
            const std::string each = spelled(thing.item(i), std::nullopt, kind, path);
            if (!each.empty()) {
                out += out.empty() ? "" : kind.ends_with(" and") ? " and " : ", ";
                out += each;
            }
        }
        return out;
    }

    /// A plain number, where the kind says how: "+.2f", "g", "%".
    static std::optional<std::string> formatted(const Value& value, std::string_view kind) {
        const std::string_view spec = kind.substr(kind.starts_with('+') ? 1 : 0);
        const std::size_t digits = spec.starts_with('.') ? spec.find_first_not_of("0123456789", 1) : 0;
        const std::string_view form = digits < spec.size() ? spec.substr(digits) : std::string_view();
        if ((form != "f" && form != "g" && form != "%") || digits == 1) {
            return std::nullopt;
        }
        const double number = number_in(value).value_or(kNaN);
        if (form != "%") {
            return fmt::format(fmt::runtime(fmt::format("{{:{}}}", kind)), number);
        }
        kind.remove_suffix(1);
        return fmt::format(fmt::runtime(fmt::format("{{:{}f}}%", kind)), 100.0 * number);
    }

    /// A figure with its unit: "force", "fine both", "both" of a length.
    [[nodiscard]] std::string in_units(double value, const std::optional<double>& last,
                                       std::string_view kind) const {
        const std::size_t blank = kind.find(' ');
        const bool of_length = kind == "both" || kind == "other";
        const FigureKind what = of_length ? FigureKind::length : figure_kind(kind.substr(0, blank));
        const std::string_view units = of_length                         ? kind
                                       : blank == std::string_view::npos ? std::string_view()
                                                                         : kind.substr(blank + 1);
        const auto in = [&](bool inch) {
            const UnitSystem system = inch ? UnitSystem::inch : UnitSystem::metric;
            return last ? spell_span(value, *last, what, system) : spell(value, what, system);
        };
        const bool inch = unit_ == "in";
        return units.empty()      ? in(inch)
               : units == "other" ? in(!inch)
                                  : fmt::format("{} ({})", in(inch), in(!inch));
    }

    const Lookup& figure_;
    std::string_view unit_;
    const Catalogue& catalogue_;
};

// ---- records ----------------------------------------------------------------------------------------------

/// Place of a figure in its record; as many as there are where it has none of that key.
std::size_t place_in(const RecordRow& row, std::string_view key) {
    const auto found = std::find_if(row.figures.begin(), row.figures.end(),
                                    [&](const FigureRow& each) { return each.key == key; });
    return static_cast<std::size_t>(found - row.figures.begin());
}

/// The record that a text is the name of.
Telling named(std::string_view kin, std::string_view name, const Catalogue& catalogue) {
    const Given given{.tag = Given::Tag::text, .text = name};
    return {ask(question_of(kin), {&given, 1}, catalogue), catalogue};
}

/// Of a record's evidence "cited", each source and what kind it is of, or "kinds", those in their order.
Thing of_evidence(const Telling& record, std::string_view key, const Catalogue& catalogue) {
    std::vector<std::string> out;
    for (const EvidenceText& each : tells_of(record.row(), record.values(), catalogue).evidence) {
        std::string said = key == "kinds" ? each.kind : fmt::format("{} [{}]", each.source, each.kind);
        if (std::find(out.begin(), out.end(), said) == out.end()) {
            out.push_back(std::move(said));
        }
    }
    if (key == "kinds") {
        std::sort(out.begin(), out.end());
    }
    return {shown(out), AnsweredKind::texts};
}

Thing figure_of(const Telling& record, std::string_view key, std::string_view unit,
                const Catalogue& catalogue) {
    const std::size_t place = place_in(record.row(), key);
    if (place == record.row().figures.size()) {
        if (key == "unit") {
            return thing_of(std::string(unit));
        }
        if (key == "answer") {
            return thing_of(record.answer());
        }
        if (key == "cited" || key == "kinds") {
            return of_evidence(record, key, catalogue);
        }
        throw DomainError(fmt::format("{} has no figure '{}'", record.row().name, key));
    }
    const FigureRow& figure = record.row().figures[place];
    if (figure.kind == AnsweredKind::record || figure.kind == AnsweredKind::records) {
        return {.kind = figure.kind, .records = record.within(place)};
    }
    Thing out{record.figure(place), figure.kind};
    if (const auto* const text = std::get_if<std::string>(&out.value.is);
        text != nullptr && !figure.kin.empty()) {
        return {.kind = AnsweredKind::record, .records = {named(figure.kin, *text, catalogue)}};
    }
    return out;
}

/// What stands at a path from a record: keys of figures, of a list first, last and count.
Thing thing_at(const Telling& record, std::string_view path, std::string_view unit,
               const Catalogue& catalogue) {
    Thing out{.kind = AnsweredKind::record, .records = {record}};
    while (!path.empty()) {
        const std::string_view key = path.substr(0, path.find('.'));
        path.remove_prefix(std::min(key.size() + 1, path.size()));
        if (out.is_list()) {
            const std::size_t count = out.count();
            out = key == "count" ? Thing{Value{static_cast<std::int64_t>(count)}, AnsweredKind::count}
                  : count == 0   ? Thing()
                                 : out.item(key == "first" ? 0 : count - 1);
        } else if (out.is_record()) {
            const Telling at = out.records.front();
            out = figure_of(at, key, unit, catalogue);
        } else {
            return {};
        }
    }
    return out;
}

// ---- what is told -----------------------------------------------------------------------------------------

/// The figure of a key as it stands in a text; nothing where the record has none.
std::optional<std::string> in_words(const RecordRow& record, const Values& values, std::string_view key) {
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (record.figures[i].key == key) {
            if (const auto* const text = std::get_if<std::string>(&values[i].is)) {
                return *text;
            }
            if (const auto* const count = std::get_if<std::int64_t>(&values[i].is)) {
                return fmt::format("{}", *count);
            }
            if (const auto* const number = std::get_if<double>(&values[i].is)) {
                return number_text(*number);
            }
        }
    }
    return std::nullopt;
}

ToldCaution caution_of(const Value& told, const RecordRow& record, const Values& values,
                       const Catalogue& catalogue) {
    const auto& parts = std::get<Values>(told.is);  // code, gravity, words
    const std::string& code = text_in(parts[0]);
    const CautionRow* const row = find_caution(code, catalogue);
    if (row == nullptr) {
        throw NotTabulatedError(fmt::format("no caution '{}'", code));
    }
    const auto word = [&](std::string_view name) {
        for (const Value& pair : std::get<Values>(parts[2].is)) {
            const auto& both = std::get<Values>(pair.is);
            if (text_in(both[0]) == name) {
                return text_in(both[1]);
            }
        }
        if (std::optional<std::string> figure = in_words(record, values, name)) {
            return *figure;
        }
        throw DomainError(fmt::format("'{}' needs '{}'", row->text, name));
    };
    return {row->rank, code, filled(row->text, word), number_in(parts[1]).value_or(0.0)};
}

EvidenceText evidence_in(const Value& item) {
    const auto& at = std::get<Values>(item.is);
    return {text_in(at[0]), text_in(at[1]), text_in(at[2]), text_in(at[3]), text_in(at[4]), text_in(at[5])};
}

bool same(const EvidenceText& a, const EvidenceText& b) {
    const auto texts = [](const EvidenceText& each) {
        return std::tie(each.figure, each.rule, each.rule_id, each.row, each.source, each.kind);
    };
    return texts(a) == texts(b);
}
bool same(const ToldCaution& a, const ToldCaution& b) {
    return a.rank == b.rank && a.code == b.code && a.text == b.text;
}

template <class Item>
void add_once(std::vector<Item>& items, Item item) {
    if (std::none_of(items.begin(), items.end(), [&](const Item& each) { return same(each, item); })) {
        items.push_back(std::move(item));
    }
}

void gather(const RecordRow& record, const Values& values, const Catalogue& catalogue, Tells& out) {
    for (std::size_t i = 0; i < values.size(); ++i) {
        const auto* const several = std::get_if<Values>(&values[i].is);
        if (several == nullptr) {
            continue;
        }
        for (const Value& each : *several) {
            if (record.figures[i].kind == AnsweredKind::told) {
                add_once(out.cautions, caution_of(each, record, values, catalogue));
            } else if (record.figures[i].kind == AnsweredKind::evidence) {
                add_once(out.evidence, evidence_in(each));
            }
        }
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        const auto* const within = std::get_if<Values>(&values[i].is);
        const FigureRow& figure = record.figures[i];
        if (within == nullptr || figure.of == nullptr || !answers_itself(*figure.of)) {
            continue;
        }
        if (figure.kind == AnsweredKind::record) {
            gather(*figure.of, *within, catalogue, out);
            continue;
        }
        for (const Value& each : *within) {
            gather(*figure.of, std::get<Values>(each.is), catalogue, out);
        }
    }
}

}  // namespace

std::vector<Place> places_in(std::string_view text) {
    std::vector<Place> out;
    for (std::size_t open = text.find('{'); open != std::string_view::npos; open = text.find('{', open + 1)) {
        const std::string_view inner = text.substr(open + 1);
        if (const std::optional<Place> place = place_of(inner.substr(0, inner.find('}')))) {
            out.push_back(*place);
        }
    }
    return out;
}

bool answers_itself(const RecordRow& row) {
    return std::any_of(row.figures.begin(), row.figures.end(),
                       [](const FigureRow& each) { return each.kind == AnsweredKind::told; });
}

const Question& question_of(std::string_view kin) {
    std::string name(kin);
    name.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(name.front())));
    return find_question(name);
}

std::string number_text(double value) {
    if (!std::isfinite(value)) {
        return "null";
    }
    std::string out = fmt::format("{}", value);
    return out.find_first_of(".e") == std::string::npos ? out + ".0" : out;
}

std::optional<double> number_in(const Value& value) {
    if (const auto* const number = std::get_if<double>(&value.is)) {
        return *number;
    }
    if (const auto* const whole = std::get_if<std::int64_t>(&value.is)) {
        return static_cast<double>(*whole);
    }
    if (const auto* const flag = std::get_if<bool>(&value.is)) {
        return *flag ? 1.0 : 0.0;
    }
    return std::nullopt;
}

std::string joined_text(const Value& value) {
    if (const auto* const said = std::get_if<std::string>(&value.is)) {
        return *said;
    }
    std::string out;
    if (const auto* const items = std::get_if<Values>(&value.is)) {
        for (const Value& item : *items) {
            const auto* const told = std::get_if<Values>(&item.is);
            out += out.empty() ? "" : "; ";
            out += joined_text(told == nullptr ? item : told->front());
        }
    }
    return out;
}

FigurePlace find_figure(const Question& question, std::string_view key) {
    for (const FigureRow& figure : question.answer->figures) {
        if (figure.key == key) {
            return {.figure = &figure};
        }
        if (figure.kind != AnsweredKind::record || !key.starts_with(figure.key)) {
            continue;
        }
        const std::string_view inner = key.substr(figure.key.size());
        const std::size_t place = inner.starts_with('_') ? place_in(*figure.of, inner.substr(1)) : 0;
        if (inner.starts_with('_') && place < figure.of->figures.size()) {
            return {.within = &figure, .place = place, .figure = &figure.of->figures[place]};
        }
    }
    throw DomainError(fmt::format("{} has no figure '{}'", question.name, key));
}

Tells tells_of(const RecordRow& row, const Values& values, const Catalogue& catalogue) {
    Tells out;
    gather(row, values, catalogue, out);
    return out;
}

std::optional<std::string> filled_with(std::string_view text,
                                       const std::function<Value(std::string_view path)>& figure,
                                       std::string_view unit, const Catalogue& catalogue) {
    const Lookup lookup = [&](std::string_view path) {
        return path == "unit" ? thing_of(std::string(unit)) : Thing{figure(path)};
    };
    return Filler(lookup, unit, catalogue).filled(text);
}

Telling::Telling(const Answer& answer, const Catalogue& catalogue)
    : row_(answer.question->answer), catalogue_(&catalogue), record_(answer.record) {
    if (const std::size_t place = place_in(*row_, "unit"); place < row_->figures.size()) {
        unit_ = text_in(figure(place));
    }
}

Telling::Telling(const RecordRow& row, Values values, const Catalogue& catalogue, std::string_view unit)
    : row_(&row), catalogue_(&catalogue), values_(std::make_shared<const Values>(std::move(values))) {
    const std::size_t place = place_in(row, "unit");
    if (!answers_itself(row)) {
        unit_ = unit;
    } else if (place < row.figures.size()) {
        unit_ = text_in((*values_)[place]);
    }
}

Telling Telling::in(std::string_view unit) const {
    Telling out = *this;
    out.unit_ = unit;
    return out;
}

Value Telling::figure(std::size_t place) const {
    return values_ == nullptr ? row_->figures[place].get(record_.get()) : (*values_)[place];
}

std::vector<Telling> Telling::within(std::size_t place) const {
    const FigureRow& at = row_->figures[place];
    std::vector<Telling> out;
    const Value value = figure(place);
    if (const auto* const several = std::get_if<Values>(&value.is)) {
        if (at.kind == AnsweredKind::record) {
            out.emplace_back(*at.of, *several, *catalogue_, unit_);
            return out;
        }
        out.reserve(several->size());
        for (const Value& each : *several) {
            out.emplace_back(*at.of, std::get<Values>(each.is), *catalogue_, unit_);
        }
    }
    return out;
}

std::optional<std::string> Telling::filled(std::string_view text) const {
    const Lookup figure = [this](std::string_view path) { return thing_at(*this, path, unit_, *catalogue_); };
    return Filler(figure, unit_, *catalogue_).filled(text);
}

std::string Telling::answer() const {
    return filled(row_->says.answer).value_or("");
}

std::vector<std::pair<std::string, std::string>> Telling::rows() const {
    std::vector<std::pair<std::string, std::string>> out;
    const auto at = [this](std::string_view path) { return thing_at(*this, path, unit_, *catalogue_); };
    for (const SaidRow& said : row_->says.rows) {
        if (said.label == "=") {
            const std::string head = filled(said.each).value_or("");
            for (const Telling& each : at(said.text).records) {
                for (auto& [label, text] : each.rows()) {
                    out.emplace_back(label, label.empty() ? text : head + text);
                }
            }
        } else if (said.label == "#" || said.label.starts_with('*')) {
            const Thing items = at(said.text);
            for (std::size_t i = 0; i < items.count(); ++i) {
                const Value item = items.item(i).value;
                if (const auto* const pair = std::get_if<Values>(&item.is)) {
                    out.emplace_back(text_in(pair->front()), text_in(pair->back()));
                } else {
                    out.emplace_back(
                        said.label == "#" ? fmt::format("{}.", i + 1) : std::string(said.label.substr(1)),
                        text_in(item));
                }
            }
        } else {
            const bool further = said.each.ends_with('+');
            const std::vector<Telling> items =
                at(said.each.substr(0, said.each.size() - (further ? 1 : 0))).records;
            for (std::size_t i = further ? 1 : 0; i < items.size(); ++i) {
                std::optional<std::string> label = items[i].filled(said.label);
                std::optional<std::string> text = items[i].filled(said.text);
                if (label && text) {
                    out.emplace_back(std::move(*label), std::move(*text));
                }
            }
        }
    }
    return out;
}

Values Telling::values() const {
    if (values_ != nullptr) {
        return *values_;
    }
    Values out;
    out.reserve(row_->figures.size());
    for (const FigureRow& figure : row_->figures) {
        out.push_back(figure.is_aside ? Value{} : figure.get(record_.get()));
    }
    return out;
}

}  // namespace halfnut
