#include "halfnut/core/quantity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/cursor.hpp"
#include "halfnut/core/nought.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/core/tables.hpp"

namespace halfnut {
namespace {

constexpr double kPi = 3.14159265358979323846;

// Factors are whole-number ratios wherever the definition is (1 in = 127/5 mm), so that a length converts
// with one rounding: 0.75 in is the double nearest to 19.05 mm. A horsepower is 550 ft lbf/s.

constexpr std::array kUnits{
    Unit{Dimension::length, "mm", 1, 1, UnitSystem::metric},
    Unit{Dimension::length, "cm", 10, 1, UnitSystem::metric},
    Unit{Dimension::length, "m", 1000, 1, UnitSystem::metric},
    Unit{Dimension::length, "µm", 1, 1000, UnitSystem::metric},
    Unit{Dimension::length, "in", 127, 5, UnitSystem::inch},
    Unit{Dimension::length, "thou", 127, 5000, UnitSystem::inch},
    Unit{Dimension::length, "ft", 1524, 5, UnitSystem::inch},
    Unit{Dimension::length, "µin", 127, 5'000'000, UnitSystem::inch},
    Unit{Dimension::speed, "m/min", 1, 1, UnitSystem::metric},
    Unit{Dimension::speed, "m/s", 60, 1, UnitSystem::metric},
    Unit{Dimension::speed, "ft/min", 381, 1250, UnitSystem::inch},
    Unit{Dimension::feed_per_rev, "mm/rev", 1, 1, UnitSystem::metric},
    Unit{Dimension::feed_per_rev, "in/rev", 127, 5, UnitSystem::inch},
    Unit{Dimension::feed_rate, "mm/min", 1, 1, UnitSystem::metric},
    Unit{Dimension::feed_rate, "in/min", 127, 5, UnitSystem::inch},
    Unit{Dimension::angle, "deg", 1, 1, UnitSystem::both},
    Unit{Dimension::angle, "rad", 180, kPi, UnitSystem::both},
    Unit{Dimension::power, "kW", 1, 1, UnitSystem::metric},
    Unit{Dimension::power, "W", 1, 1000, UnitSystem::metric},
    Unit{Dimension::power, "hp", 550 * kFootM * kPoundForceN, 1000, UnitSystem::inch},
    Unit{Dimension::force, "N", 1, 1, UnitSystem::metric},
    Unit{Dimension::force, "kN", 1000, 1, UnitSystem::metric},
    Unit{Dimension::force, "lbf", kPoundForceN, 1, UnitSystem::inch},
    Unit{Dimension::torque, "N m", 1, 1, UnitSystem::metric},
    Unit{Dimension::torque, "lbf ft", kPoundForceN * kFootM, 1, UnitSystem::inch},
    Unit{Dimension::torque, "lbf in", kPoundForceN * 0.0254, 1, UnitSystem::inch},
    Unit{Dimension::time, "s", 1, 1, UnitSystem::both},
    Unit{Dimension::time, "min", 60, 1, UnitSystem::both},
    Unit{Dimension::time, "h", 3600, 1, UnitSystem::both},
    Unit{Dimension::frequency, "rev/min", 1, 1, UnitSystem::both},
    Unit{Dimension::stress, "MPa", 1, 1, UnitSystem::metric},
    Unit{Dimension::stress, "N/mm2", 1, 1, UnitSystem::metric},
    Unit{Dimension::stress, "GPa", 1000, 1, UnitSystem::metric},
    Unit{Dimension::stress, "psi", kPoundForceN, 645.16, UnitSystem::inch},
    Unit{Dimension::stress, "ksi", kPoundForceN * 1000, 645.16, UnitSystem::inch},
    Unit{Dimension::hardness, "HB", 1, 1, UnitSystem::both},
    Unit{Dimension::mass, "kg", 1, 1, UnitSystem::metric},
    Unit{Dimension::mass, "g", 1, 1000, UnitSystem::metric},
    Unit{Dimension::mass, "lb", kPoundKg, 1, UnitSystem::inch},
    Unit{Dimension::mass, "oz", kPoundKg, 16, UnitSystem::inch},
};

struct Spelling {
    std::string_view written;
    std::string_view symbol;
};

constexpr std::array kUnitSpellings{
    Spelling{"millimetre", "mm"},
    Spelling{"millimetres", "mm"},
    Spelling{"millimeter", "mm"},
    Spelling{"millimeters", "mm"},
    Spelling{"centimetre", "cm"},
    Spelling{"centimeter", "cm"},
    Spelling{"metre", "m"},
    Spelling{"metres", "m"},
    Spelling{"meter", "m"},
    Spelling{"meters", "m"},
    Spelling{"um", "µm"},
    Spelling{"μm", "µm"},
    Spelling{"micron", "µm"},
    Spelling{"microns", "µm"},
    Spelling{"in.", "in"},
    Spelling{"inch", "in"},
    Spelling{"inches", "in"},
    Spelling{"\"", "in"},
    Spelling{"''", "in"},
    Spelling{"″", "in"},
    Spelling{"”", "in"},
    Spelling{"thousandths", "thou"},
    Spelling{"foot", "ft"},
    Spelling{"feet", "ft"},
    Spelling{"ft.", "ft"},
    Spelling{"'", "ft"},
    Spelling{"′", "ft"},
    Spelling{"sfm", "ft/min"},
    Spelling{"sfpm", "ft/min"},
    Spelling{"fpm", "ft/min"},
    Spelling{"mm/r", "mm/rev"},
    Spelling{"ipr", "in/rev"},
    Spelling{"in/r", "in/rev"},
    Spelling{"ipm", "in/min"},
    Spelling{"°", "deg"},
    Spelling{"degree", "deg"},
    Spelling{"degrees", "deg"},
    Spelling{"kw", "kW"},
    Spelling{"w", "W"},
    Spelling{"HP", "hp"},
    Spelling{"lb", "lbf"},
    Spelling{"lbs", "lbf"},
    Spelling{"Nm", "N m"},
    Spelling{"N·m", "N m"},
    Spelling{"N*m", "N m"},
    Spelling{"ft lbf", "lbf ft"},
    Spelling{"ft-lb", "lbf ft"},
    Spelling{"lb-ft", "lbf ft"},
    Spelling{"in lbf", "lbf in"},
    Spelling{"in-lb", "lbf in"},
    Spelling{"lb-in", "lbf in"},
    Spelling{"sec", "s"},
    Spelling{"seconds", "s"},
    Spelling{"minutes", "min"},
    Spelling{"hours", "h"},
    Spelling{"rpm", "rev/min"},
    Spelling{"r/min", "rev/min"},
    Spelling{"min-1", "rev/min"},
    Spelling{"N/mm²", "N/mm2"},
    Spelling{"uin", "µin"},
    Spelling{"μin", "µin"},
    Spelling{"microinch", "µin"},
    Spelling{"microinches", "µin"},
    Spelling{"HBW", "HB"},
    Spelling{"BHN", "HB"},
    Spelling{"lbs", "lb"},
};

constexpr std::array kDimensionNames{
    std::pair{std::string_view("length"), std::string_view("mm")},
    std::pair{std::string_view("speed"), std::string_view("m/min")},
    std::pair{std::string_view("feed"), std::string_view("mm/rev")},
    std::pair{std::string_view("feed rate"), std::string_view("mm/min")},
    std::pair{std::string_view("angle"), std::string_view("deg")},
    std::pair{std::string_view("power"), std::string_view("kW")},
    std::pair{std::string_view("force"), std::string_view("N")},
    std::pair{std::string_view("torque"), std::string_view("N m")},
    std::pair{std::string_view("time"), std::string_view("s")},
    std::pair{std::string_view("spindle speed"), std::string_view("rev/min")},
    std::pair{std::string_view("stress"), std::string_view("MPa")},
    std::pair{std::string_view("hardness"), std::string_view("HB")},
    std::pair{std::string_view("mass"), std::string_view("kg")},
};
static_assert(kDimensionNames.size() == kDimensions);

const Unit& unit_by_symbol(std::string_view symbol) {
    return *std::find_if(kUnits.begin(), kUnits.end(),
                         [&](const Unit& unit) { return unit.symbol == symbol; });
}

bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

/// Reads one quantity from text, remembering the position for messages.
class QuantityReader {
   public:
    QuantityReader(std::string_view text, Dimension dimension, const Catalogue& catalogue,
                   bool with_sign = false)
        : text_(text), dimension_(dimension), catalogue_(catalogue), with_sign_(with_sign) {}

    Quantity read() {
        bounds::require_text(dimension_name(dimension_), text_);
        skip_blanks();
        if (at_end()) {
            fail(fmt::format("no {} given; write it as {}", dimension_name(dimension_), example()));
        }
        if (dimension_ == Dimension::length) {
            if (const auto drill = drill_by_name()) {
                return *drill;
            }
        }
        const std::size_t number_at = at_;
        const double value = number();
        const std::size_t unit_at = at_;
        std::string_view spelling = text_.substr(at_);
        while (!spelling.empty() && is_blank(spelling.front())) {
            spelling.remove_prefix(1);
        }
        while (!spelling.empty() && is_blank(spelling.back())) {
            spelling.remove_suffix(1);
        }
        if (spelling.empty()) {
            throw UnitError(fmt::format("'{}' has no unit; a bare number is never a {}: write {}",
                                        trimmed_text(), dimension_name(dimension_), suggestions(value)));
        }
        if (const Unit* unit = find_unit(spelling, dimension_)) {
            const Quantity quantity(value, *unit);
            const bounds::Range range = bounds::of_unit(base_unit(dimension_));
            if (!range.holds(quantity.base())) {  // infinite too: 2e306 m is finite, its millimetres are not
                at_ = number_at;
                fail(fmt::format("a {} must be 0, or from {} to {} {}", dimension_name(dimension_),
                                 range.least, range.greatest, base_unit(dimension_)));
            }
            return quantity;
        }
        at_ = unit_at + (spelling.data() - text_.substr(unit_at).data() > 0 ? 1U : 0U);
        fail_unit(spelling);
    }

   private:
    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
    [[nodiscard]] char peek(std::size_t ahead = 0) const {
        return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
    }
    void skip_blanks() {
        while (!at_end() && is_blank(text_[at_])) {
            ++at_;
        }
    }
    [[nodiscard]] std::string_view trimmed_text() const {
        std::string_view text = text_;
        while (!text.empty() && is_blank(text.front())) {
            text.remove_prefix(1);
        }
        while (!text.empty() && is_blank(text.back())) {
            text.remove_suffix(1);
        }
        return text;
    }

    [[noreturn]] void fail(const std::string& what) const {
        throw DesignationError(fmt::format("cannot read '{}' at position {}: {}", text_, at_ + 1, what), at_);
    }

    [[nodiscard]] std::string example() const {
        switch (dimension_) {
            case Dimension::length:
                return "'1.25 in', '1-1/4 in' or '32 mm'";
            case Dimension::speed:
                return "'100 m/min' or '300 ft/min'";
            case Dimension::feed_per_rev:
                return "'0.2 mm/rev' or '0.008 in/rev'";
            default:
                return fmt::format("'1 {}'", base_unit(dimension_));
        }
    }

    [[nodiscard]] std::string suggestions(double value) const {
        std::vector<std::string> ways;
        for (const UnitSystem system : {UnitSystem::metric, UnitSystem::inch, UnitSystem::both}) {
            const auto first = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) {
                return unit.dimension == dimension_ && unit.system == system;
            });
            if (first != kUnits.end()) {
                ways.push_back(fmt::format("'{} {}'", trimmed(value, 6), first->symbol));
            }
        }
        return fmt::format("{}", fmt::join(ways, " or "));
    }

    [[noreturn]] void fail_unit(std::string_view spelling) const {
        if (spelling.front() == ',') {
            fail("a comma in a number; write the decimal with a point, and no thousands separator");
        }
        for (const Unit& unit : kUnits) {
            if (find_unit(spelling, unit.dimension) != nullptr) {
                fail(fmt::format("'{}' is a unit of {}, but a {} is wanted, such as {}", spelling,
                                 dimension_name(unit.dimension), dimension_name(dimension_), example()));
            }
        }
        std::vector<std::string_view> symbols;
        for (const Unit& unit : kUnits) {
            if (unit.dimension == dimension_) {
                symbols.push_back(unit.symbol);
            }
        }
        const std::string_view near = nearest_name(spelling, symbols);
        fail(fmt::format("unknown unit '{}'{}; units of {}: {}", spelling,
                         near.empty() ? "" : fmt::format(", did you mean '{}'?", near),
                         dimension_name(dimension_), fmt::join(symbols, ", ")));
    }

    double number() {
        if (with_sign_ && peek() == '-' && (is_digit(peek(1)) || peek(1) == '.')) {
            ++at_;
            with_sign_ = false;
            return -number();
        }
        if (peek() == '-' || text_.substr(at_).rfind("−", 0) == 0) {
            fail(fmt::format("a {} cannot be negative", dimension_name(dimension_)));
        }
        if (peek() == '+') {
            ++at_;
        }
        if (is_digit(peek()) || (peek() == '.' && is_digit(peek(1)))) {
            return number_or_fraction();
        }
        fail(fmt::format("a number is wanted here, such as in {}", example()));
    }

    void check_nought() const {
        if (leading_nought(text_.substr(at_))) {
            fail(std::string(kLeadingNought));
        }
    }

    double number_or_fraction() {
        const std::size_t start = at_;
        check_nought();
        double whole = decimal();
        const bool is_whole =
            text_.substr(start, at_ - start).find_first_not_of("0123456789") == std::string_view::npos;
        if (!is_whole) {
            return whole;
        }
        if (peek() == '/' && is_digit(peek(1))) {
            return over(whole, start);
        }
        // "1-1/4" and "1 1/4": a whole number, a hyphen or blanks, and a fraction
        const std::size_t after_whole = at_;
        if (peek() == '-') {
            ++at_;
        } else {
            skip_blanks();
        }
        const std::size_t fraction_at = at_;
        const bool nought = leading_nought(text_.substr(at_));
        while (is_digit(peek())) {
            ++at_;
        }
        if (at_ > fraction_at && at_ > after_whole + 1 && peek() == '/' && is_digit(peek(1))) {
            if (nought) {
                at_ = fraction_at;
                check_nought();
            }
            double numerator = 0.0;
            (void)read_number(text_.data() + fraction_at, text_.data() + at_, numerator);
            return whole + over(numerator, fraction_at);
        }
        at_ = after_whole;
        return whole;
    }

    double over(double numerator, std::size_t start) {
        ++at_;
        check_nought();
        const std::size_t denominator_at = at_;
        while (is_digit(peek())) {
            ++at_;
        }
        double denominator = 0.0;
        (void)read_number(text_.data() + denominator_at, text_.data() + at_, denominator);
        if (denominator == 0.0) {
            at_ = denominator_at;
            fail("a fraction cannot be over zero");
        }
        const double value = numerator / denominator;
        if (!std::isfinite(value)) {
            at_ = start;
            fail("the number is too large");
        }
        return value;
    }

    double decimal() {
        double value = 0.0;
        const char* begin = text_.data() + at_;
        const auto [end, error] = read_number(begin, text_.data() + text_.size(), value);
        if (error == std::errc::result_out_of_range || !std::isfinite(value)) {
            fail("the number is too large or too small");
        }
        at_ += static_cast<std::size_t>(end - begin);
        return value;
    }

    /// "#7", "No. 7", "number 7 drill", "letter F", "F drill", "drill F".
    std::optional<Quantity> drill_by_name() {
        std::string folded;
        for (const char c : trimmed_text()) {
            folded += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        }
        bool named = false;
        const auto strip_front = [&](std::string_view word) {
            if (folded.rfind(word, 0) == 0) {
                folded.erase(0, word.size());
                named = true;
            }
            folded.erase(0, std::min(folded.find_first_not_of(" \t"), folded.size()));
        };
        const auto strip_back = [&](std::string_view word) {
            if (folded.size() > word.size() &&
                folded.compare(folded.size() - word.size(), word.size(), word) == 0) {
                folded.erase(folded.size() - word.size());
                named = true;
            }
            folded.erase(folded.find_last_not_of(" \t") + 1);
        };
        strip_back("drill");
        strip_front("drill");
        for (const std::string_view word : {"letter", "number", "no.", "no ", "#"}) {
            strip_front(word);
        }
        const bool is_number =
            !folded.empty() && folded.size() <= 3 && std::all_of(folded.begin(), folded.end(), is_digit);
        const bool is_letter = folded.size() == 1 && folded[0] >= 'a' && folded[0] <= 'z';
        if (!named || (!is_number && !is_letter)) {
            return std::nullopt;
        }
        std::string name = folded;
        if (is_letter) {
            name[0] = static_cast<char>(name[0] - 'a' + 'A');
        }
        for (const DrillRow& drill : catalogue_.drills) {
            if (drill.name == name) {
                return Length::inches(drill.diameter_in);
            }
        }
        throw NotTabulatedError(fmt::format(
            "no drill '{}'; number drills run from 1 to 97, letter drills from A to Z", trimmed_text()));
    }

    std::string_view text_;
    Dimension dimension_;
    const Catalogue& catalogue_;
    bool with_sign_;
    std::size_t at_ = 0;
};

}  // namespace

std::span<const Unit> units() noexcept {
    return kUnits;
}

const Unit* find_unit(std::string_view spelling, Dimension dimension) noexcept {
    const auto stands_for = [&](std::string_view symbol) {
        return symbol == spelling ||
               std::any_of(kUnitSpellings.begin(), kUnitSpellings.end(), [&](const Spelling& known) {
                   return known.written == spelling && known.symbol == symbol;
               });
    };
    const auto found = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) {
        return unit.dimension == dimension && stands_for(unit.symbol);
    });
    return found == kUnits.end() ? nullptr : &*found;
}

const Unit* find_unit(std::string_view spelling) noexcept {
    for (std::size_t dimension = 0; dimension < kDimensions; ++dimension) {
        if (const Unit* const unit = find_unit(spelling, static_cast<Dimension>(dimension))) {
            return unit;
        }
    }
    return nullptr;
}

std::string_view dimension_name(Dimension dimension) noexcept {
    return kDimensionNames[static_cast<std::size_t>(dimension)].first;
}
std::string_view base_unit(Dimension dimension) noexcept {
    return kDimensionNames[static_cast<std::size_t>(dimension)].second;
}

double Quantity::in(const Unit& other) const {
    if (other.dimension != dimension()) {
        throw DomainError(fmt::format("{} is a {}, not a {}", text(), dimension_name(dimension()),
                                      dimension_name(other.dimension)));
    }
    return &other == unit_ ? value_ : base() * other.denominator / other.numerator;
}

std::string Quantity::text() const {
    return fmt::format("{} {}", trimmed(value_, 6), unit_->symbol);
}

double Quantity::compared() const {
    const std::string rounded = fmt::format("{:.11e}", base());
    double out = base();
    (void)read_number(rounded.data(), rounded.data() + rounded.size(), out);
    return out;
}

Quantity bounded_quantity(double value, const Unit& unit) {
    const Quantity out(value, unit);
    const std::string_view base = base_unit(unit.dimension);
    const bounds::Range range = bounds::of_unit(base);
    if (!range.holds(out.base())) {  // NaN too
        throw DomainError(fmt::format("{} must be 0, or from {} to {} {}, got {} {}",
                                      dimension_name(unit.dimension), range.least, range.greatest, base,
                                      value, unit.symbol));
    }
    return out;
}

Quantity operator+(const Quantity& a, const Quantity& b) {
    // What rounding leaves of a difference of equals is less than the least that there is: none.
    const Quantity sum(a.value() + b.in(a.unit()), a.unit());
    const bounds::Range range = bounds::of_unit(base_unit(a.dimension()));
    return bounded_quantity(std::abs(sum.base()) < range.least ? 0.0 : sum.value(), a.unit());
}
Quantity operator-(const Quantity& a, const Quantity& b) {
    return a + Quantity(-b.value(), b.unit());
}
Quantity operator*(const Quantity& a, double factor) {
    return bounded_quantity(a.value() * factor, a.unit());
}
Quantity operator/(const Quantity& a, double divisor) {
    if (divisor == 0.0) {
        throw DomainError(fmt::format("{} cannot be divided by zero", a.text()));
    }
    return bounded_quantity(a.value() / divisor, a.unit());
}
double operator/(const Quantity& a, const Quantity& b) {
    const double divisor = b.in(a.unit());
    if (divisor == 0.0) {
        throw DomainError(fmt::format("{} cannot be divided by {}", a.text(), b.text()));
    }
    return a.value() / divisor;
}

Length Length::inches(double value) {
    return Length(Quantity(value, unit_by_symbol("in")));
}
Length Length::millimetres(double value) {
    return Length(Quantity(value, unit_by_symbol("mm")));
}

Length::Length(const Quantity& quantity) : Quantity(quantity) {
    if (quantity.dimension() != Dimension::length) {
        throw DomainError(
            fmt::format("{} is a {}, not a length", quantity.text(), dimension_name(quantity.dimension())));
    }
}

Quantity parse_quantity(std::string_view text, Dimension dimension, const Catalogue& catalogue) {
    return QuantityReader(text, dimension, catalogue).read();
}

double parse_number(std::string_view text, std::string_view unit, const Catalogue& catalogue) {
    const Unit* const wanted = find_unit(unit);
    if (wanted == nullptr) {
        throw DomainError(fmt::format("no unit '{}'", unit));
    }
    const bool with_sign = wanted->dimension == Dimension::angle;
    return QuantityReader(text, wanted->dimension, catalogue, with_sign).read().in(*wanted);
}

Length parse_length(std::string_view text, const Catalogue& catalogue) {
    return Length(parse_quantity(text, Dimension::length, catalogue));
}

std::string trimmed(double value, int places) {
    std::string text = fmt::format("{:.{}f}", value, places);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') {
            text.pop_back();
        }
    }
    return text == "-0" ? "0" : text;
}

}  // namespace halfnut
