#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "cylinder_names.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/cursor.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/fits/tables.hpp"

namespace halfnut::fits {
namespace {

constexpr std::string_view kWays =
    "write a size and its class, such as \"25 H7\", \"25 H7/g6\", \"1 in H7/g6\", \"1.25 RC4\"";

class Reader {
   public:
    Reader(std::string_view text, const Catalogue& catalogue) : text_(text), catalogue_(catalogue) {}

    bool read(Cylinder& out) {
        skip_sign();
        return number() && unit() && classes(out) && end() && settle(out);
    }
    [[nodiscard]] CylinderProblem problem() && { return std::move(problem_); }

   private:
    [[nodiscard]] bool at_end() const noexcept { return at_ >= text_.size(); }
    [[nodiscard]] char here() const noexcept { return at_end() ? '\0' : text_[at_]; }
    void blanks() noexcept {
        while (here() == ' ' || here() == '\t') {
            ++at_;
        }
    }
    bool fail(std::size_t position, std::string message) {
        problem_ = {position, std::move(message)};
        return false;
    }
    bool take(std::string_view word) noexcept {
        if (text_.substr(at_, word.size()) != word) {
            return false;
        }
        at_ += word.size();
        return true;
    }
    void skip_sign() noexcept {
        blanks();
        static constexpr std::array<std::string_view, 4> kDiameterSigns{"\u00d8", "\u00f8", "\u2300", "dia"};
        for (const std::string_view sign : kDiameterSigns) {
            if (take(sign)) {
                break;
            }
        }
        blanks();
    }

    std::optional<double> decimal() {
        const char* const first = text_.data() + at_;
        const char* const last = text_.data() + text_.size();
        const char* stop = first;
        while (stop != last && (is_digit(*stop) || *stop == '.')) {
            ++stop;
        }
        const bool nought_in_front = stop - first > 1 && *first == '0' && is_digit(first[1]);
        double value = 0.0;
        const auto [end, error] = read_number(first, stop, value, false);
        if (error != std::errc{} || end != stop || stop == first || nought_in_front) {
            return std::nullopt;
        }
        at_ += static_cast<std::size_t>(stop - first);
        return value;
    }

    bool number() {
        start_ = at_;
        const std::optional<double> first = decimal();
        if (!first) {
            if (here() == '-') {
                return fail(at_, fmt::format("a size must be > 0; {}", kWays));
            }
            return fail(at_, fmt::format("no size found; {}", kWays));
        }
        size_ = *first;
        if (here() == ',') {
            return fail(at_, "a decimal comma is not read: write a point");
        }
        if (here() == '/' && is_digit(next())) {
            return fraction(0.0, size_);
        }
        // "1 1/4" and "1-1/4": a whole number and a fraction
        const std::size_t before = at_;
        if (here() == '-' || here() == ' ') {
            ++at_;
            const std::optional<double> top = is_digit(here()) ? decimal() : std::nullopt;
            if (top && here() == '/' && is_digit(next())) {
                return fraction(size_, *top);
            }
            at_ = before;
        }
        return true;
    }
    [[nodiscard]] char next() const noexcept { return at_ + 1 < text_.size() ? text_[at_ + 1] : '\0'; }

    bool fraction(double whole, double top) {
        ++at_;
        const std::optional<double> bottom = decimal();
        if (!bottom || *bottom == 0.0) {
            return fail(at_, "a fraction needs a number above 0 under its line");
        }
        size_ = whole + top / *bottom;
        fraction_ = true;
        return true;
    }

    bool unit() {
        blanks();
        static constexpr std::array<std::pair<std::string_view, bool>, 4> kUnitNames{
            {{"mm", false}, {"inch", true}, {"in", true}, {"\"", true}}};
        for (const auto& [name, inch] : kUnitNames) {
            const std::size_t before = at_;
            if (take(name)) {
                if (is_letter(here()) && name != "\"") {
                    at_ = before;
                    continue;
                }
                unit_inch_ = inch;
                break;
            }
        }
        blanks();
        return true;
    }

    bool classes(Cylinder& out) {
        if (at_end()) {
            return fail(at_, fmt::format("a class is missing after the size; {}", kWays));
        }
        const std::size_t start = at_;
        if (ansi(out)) {
            return true;
        }
        ToleranceClass first;
        if (!iso(first)) {
            return false;
        }
        (first.hole ? out.hole : out.shaft) = first;
        blanks();
        if (here() != '/' && here() != '-') {
            return true;
        }
        ++at_;
        blanks();
        const std::size_t second_start = at_;
        ToleranceClass second;
        if (!iso(second)) {
            return false;
        }
        if (!first.hole || second.hole) {
            const std::string wanted =
                first.hole == second.hole
                    ? fmt::format(
                          "a fit needs one hole (capital) and one shaft (small letter), got {} and {}",
                          format_class(first), format_class(second))
                    : fmt::format("the hole's class goes first: {}/{}", format_class(second),
                                  format_class(first));
            return fail(first.hole == second.hole ? second_start : start, wanted);
        }
        out.shaft = second;
        return true;
    }

    bool ansi(Cylinder& out) {
        const std::size_t before = at_;
        std::string name;
        while (is_letter(here()) && name.size() < 2) {
            name += text_[at_++];
        }
        blanks();
        const std::size_t digits = at_;
        while (is_digit(here())) {
            name += text_[at_++];
        }
        name = upper_case(name);
        const auto& rows = catalogue_.ansi_fits;
        const bool known = digits != at_ && std::any_of(rows.begin(), rows.end(),
                                                        [&](const AnsiFitRow& r) { return r.fit == name; });
        if (!known) {
            at_ = before;
            return false;
        }
        out.system = FitSystem::ansi_b4_1;
        out.ansi_fit = name;
        return true;
    }

    bool iso(ToleranceClass& out) {
        const std::size_t start = at_;
        std::string letters;
        while (is_letter(here())) {
            letters += text_[at_++];
        }
        if (letters.empty()) {
            return fail(start, fmt::format("no class found; {}", kWays));
        }
        const std::string capitals = upper_case(letters);
        std::string small = capitals;
        for (char& c : small) {
            c = static_cast<char>(c - 'A' + 'a');
        }
        const auto found = std::find(kLetters.begin(), kLetters.end(), small);
        out.hole = letters == capitals;
        if (found == kLetters.end()) {
            return fail(start, no_letter(letters, small));
        }
        if (!out.hole && letters != small) {
            return fail(start, fmt::format("'{}' mixes capitals and small letters: {} is a hole, {} a shaft",
                                           letters, capitals, small));
        }
        out.letter = static_cast<std::uint8_t>(found - kLetters.begin());
        const std::size_t grade_start = at_;
        std::string grade;
        while (is_digit(here())) {
            grade += text_[at_++];
        }
        if (grade.empty()) {
            return fail(grade_start, fmt::format("{} needs a grade, 01 to 18", letters));
        }
        int value = 0;
        std::from_chars(grade.data(), grade.data() + grade.size(), value);
        if (grade == "01") {
            value = -1;
        } else if (grade.size() > 2 || value > 18 || (grade.size() == 2 && grade[0] == '0')) {
            return fail(grade_start, fmt::format("the grades are 01, 0 and 1 to 18, got {}", grade));
        }
        out.grade = value;
        return true;
    }

    [[nodiscard]] std::string no_letter(const std::string& letters, const std::string& small) const {
        std::vector<std::string_view> names(kLetters.begin(), kLetters.end());
        for (const AnsiFitRow& row : catalogue_.ansi_fits) {
            if (std::find(names.begin(), names.end(), row.fit) == names.end()) {
                names.push_back(row.fit);
            }
        }
        std::size_t digits = at_;
        while (digits < text_.size() && is_digit(text_[digits])) {
            ++digits;
        }
        const std::string whole = letters + std::string(text_.substr(at_, digits - at_));
        const std::string_view near = nearest_name(upper_case(whole), names);
        if (!near.empty() && near.size() > 2) {
            return fmt::format("no class '{}'; the nearest is {}", whole, near);
        }
        const std::string_view letter = nearest_name(small, kLetters);
        return letter.empty()
                   ? fmt::format("no letter '{}': A to ZC for holes, a to zc for shafts", letters)
                   : fmt::format("no letter '{}': A to ZC for holes, a to zc for shafts; the nearest is '{}'",
                                 letters, letter);
    }

    bool end() {
        blanks();
        return at_end() || fail(at_, fmt::format("'{}' is left over; {}", text_.substr(at_), kWays));
    }

    bool settle(Cylinder& out) {
        const bool native_inch = out.inch();
        if (fraction_ && !native_inch && !unit_inch_) {
            return fail(start_, "a fraction is a size in inches: write its unit, such as \"1/2 in H7\"");
        }
        const bool inch = unit_inch_.value_or(native_inch);
        double native = size_;
        if (inch && !native_inch) {
            native = size_ * kInchMm;
        } else if (!inch && native_inch) {
            native = size_ / kInchMm;
        }
        constexpr double kMostNative = 1e6;
        if (!(native > 0.0) || native > kMostNative) {
            return fail(start_,
                        fmt::format("a size must be > 0 and at most {:g}, got {:g}", kMostNative, native));
        }
        out.nominal_units = bounds::nearest<std::int64_t>(native * kUnits);
        if (out.nominal_units == 0) {
            return fail(start_, fmt::format("a size must be > 0, got {:g}", native));
        }
        return true;
    }

    std::string_view text_;
    const Catalogue& catalogue_;
    std::size_t at_ = 0;
    std::size_t start_ = 0;
    double size_ = 0.0;
    bool fraction_ = false;
    std::optional<bool> unit_inch_;
    CylinderProblem problem_;
};

/// A figure of a table: in range over (over, to].

}  // namespace

std::string format_class(const ToleranceClass& tolerance_class) {
    return letter_name(tolerance_class.letter, tolerance_class.hole) + grade_name(tolerance_class.grade);
}

std::string format_cylinder(const Cylinder& cylinder) {
    std::string out = trimmed(static_cast<double>(cylinder.nominal_units) / kUnits, 6) + " ";
    if (cylinder.inch()) {
        return out + cylinder.ansi_fit;
    }
    if (cylinder.hole.given()) {
        out += format_class(cylinder.hole);
    }
    if (cylinder.shaft.given()) {
        out += cylinder.hole.given() ? "/" : "";
        out += format_class(cylinder.shaft);
    }
    return out;
}

Status read_cylinder(std::string_view text, const Catalogue& catalogue, Cylinder& out,
                     CylinderProblem* problem) {
    out = {};
    if (text.size() > bounds::kDesignationBytes) {
        if (problem != nullptr) {
            *problem = {0, bounds::too_long("size", text, bounds::kDesignationBytes)};
        }
        return {StatusCode::not_understood, 0};
    }
    Reader reader(text, catalogue);
    if (reader.read(out)) {
        return {};
    }
    out = {};
    if (problem != nullptr) {
        *problem = std::move(reader).problem();
    }
    return {StatusCode::not_understood, 0};
}

Cylinder parse_cylinder(std::string_view text, const Catalogue& catalogue) {
    Cylinder out;
    CylinderProblem problem;
    if (!read_cylinder(text, catalogue, out, &problem).ok()) {
        throw DesignationError(fmt::format("cannot read '{}' at position {}: {}", bounds::shown(text),
                                           problem.position + 1, problem.message),
                               problem.position);
    }
    return out;
}

}  // namespace halfnut::fits
