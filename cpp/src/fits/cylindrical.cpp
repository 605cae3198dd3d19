#include "halfnut/fits/cylindrical.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "halfnut/bounds.hpp"
#include "halfnut/fits/rules.hpp"
#include "halfnut/fits/tables.hpp"
#include "halfnut/quantity.hpp"
#include "halfnut/spread.hpp"

namespace halfnut::fits {
namespace {

constexpr double kUnits = 1e6;                      // millionths of the native unit
constexpr std::int64_t kUnitsPerThousandth = 1000;  // um or 0.001 in
constexpr double kDeltaOverMm = 3.0;
constexpr double kDeltaToMm = 500.0;
constexpr int kDeltaFirstGrade = 3;

constexpr std::uint8_t letter_place(std::string_view name) {
    std::uint8_t place = 0;
    while (kLetters[place] != name) {
        ++place;
    }
    return place;
}
constexpr std::uint8_t kH = letter_place("h");
constexpr std::uint8_t kJs = letter_place("js");
constexpr std::uint8_t kJ = letter_place("j");
constexpr std::uint8_t kK = letter_place("k");
constexpr std::uint8_t kN = letter_place("n");

std::string upper_case(std::string_view text) {
    std::string out(text);
    for (char& c : out) {
        c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return out;
}

std::string letter_name(std::uint8_t letter, bool hole) {
    return hole ? upper_case(kLetters[letter]) : std::string(kLetters[letter]);
}

std::string grade_name(int grade) {
    return grade == -1 ? "01" : fmt::format("{}", grade);
}

std::int64_t units_of(double thousandths) noexcept {
    return bounds::nearest<std::int64_t>(thousandths * static_cast<double>(kUnitsPerThousandth));
}

// Reading ------------------------------------------------------------------------------------------------

bool is_digit(char c) noexcept {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) noexcept {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

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
        const auto [end, error] = std::from_chars(first, stop, value, std::chars_format::fixed);
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

// Limits -------------------------------------------------------------------------------------------------

/// A figure of a table: in range over (over, to].
template <class Row>
bool holds(const Row& row, double size) noexcept {
    return size > row.over_mm && size <= row.to_mm;
}

class Iso {
   public:
    Iso(const Catalogue& catalogue, double size_mm, std::string* why)
        : catalogue_(catalogue), size_(size_mm), why_(why) {}

    /// Zone of one part; evidence under `figure`.
    Status zone(const ToleranceClass& asked, std::uint8_t figure, Evidence<12>& evidence, Zone& out) {
        figure_ = figure;
        evidence_ = &evidence;
        kind_ = FigureKind::printed;
        const IsoGradeRow* const grade = grade_row(asked.grade);
        if (grade == nullptr) {
            return refuse(no_grade(asked.grade));
        }
        if (size_ <= 1.0 && asked.grade >= 14) {
            return refuse(fmt::format("IT{} is not used for sizes to 1 mm", asked.grade));
        }
        if (size_ <= 1.0 && asked.letter <= letter_place("b")) {
            return refuse(
                fmt::format("{} is not used for sizes to 1 mm", letter_name(asked.letter, asked.hole)));
        }
        note(rule::standard_tolerance, row_ref(catalogue_.iso_grades, *grade), grade->source);
        tolerance_ = units_of(grade->tolerance_um);
        const Status status = asked.letter == kJs ? symmetrical(out)
                              : asked.hole        ? hole(asked, out)
                                                  : shaft(asked, out);
        out.given = status.ok();
        out.kind = kind_;
        return status;
    }

   private:
    Status refuse(std::string why) {
        if (why_ != nullptr) {
            *why_ = std::move(why);
        }
        return {StatusCode::not_tabulated, 0};
    }

    void note(RuleId rule, RowRef row, SourceId source) {
        evidence_->note(figure_, rule, row);
        switch (catalogue_.sources[source.index].kind) {
            case SourceKind::shop:
                kind_ = FigureKind::shop;
                break;
            case SourceKind::memory:
            case SourceKind::practice:
                worsen(FigureKind::memory);
                break;
            default:
                break;
        }
    }
    /// By the standard's rule rather than from a cell of its own.
    void derived() noexcept { worsen(FigureKind::derived); }
    void worsen(FigureKind kind) noexcept {
        if (kind_ != FigureKind::shop) {
            kind_ = std::max(kind_, kind);
        }
    }

    [[nodiscard]] const IsoGradeRow* grade_row(int grade) const noexcept {
        for (const IsoGradeRow& row : catalogue_.iso_grades) {
            if (row.grade == grade && holds(row, size_)) {
                return &row;
            }
        }
        return nullptr;
    }
    [[nodiscard]] std::string no_grade(int grade) const {
        double most = 0.0;
        for (const IsoGradeRow& row : catalogue_.iso_grades) {
            most = row.grade == grade ? std::max(most, row.to_mm) : most;
        }
        return fmt::format("IT{} is given to {:g} mm, got {:g} mm", grade_name(grade), most, size_);
    }

    [[nodiscard]] const IsoDeviationRow* deviation_row(std::string_view letter, int grade) const noexcept {
        for (const IsoDeviationRow& row : catalogue_.iso_fundamental_deviations) {
            if (row.letter == letter && grade >= row.grade_from && grade <= row.grade_to &&
                holds(row, size_)) {
                return &row;
            }
        }
        return nullptr;
    }
    /// Why a letter has no figure here: its grades at this size, or its sizes.
    [[nodiscard]] std::string no_deviation(std::string_view letter, int grade) const {
        std::string grades;
        double from = kNaN;
        double to = kNaN;
        for (const IsoDeviationRow& row : catalogue_.iso_fundamental_deviations) {
            if (row.letter != letter) {
                continue;
            }
            if (holds(row, size_)) {
                grades += grades.empty() ? "" : ", ";
                grades += row.grade_from == row.grade_to
                              ? grade_name(row.grade_from)
                              : fmt::format("{} to {}", grade_name(row.grade_from), grade_name(row.grade_to));
            }
            if (grade >= row.grade_from && grade <= row.grade_to) {
                from = std::isnan(from) ? row.over_mm : std::min(from, row.over_mm);
                to = std::isnan(to) ? row.to_mm : std::max(to, row.to_mm);
            }
        }
        if (!grades.empty()) {
            return fmt::format("{} has no grade {} at {:g} mm; it has {}", letter, grade_name(grade), size_,
                               grades);
        }
        if (!std::isnan(from)) {
            return fmt::format("{}{} is given for sizes over {:g} to {:g} mm, got {:g} mm", letter,
                               grade_name(grade), from, to, size_);
        }
        return fmt::format("{} has no grade {} at any size", letter, grade_name(grade));
    }

    Status symmetrical(Zone& out) {
        evidence_->note(figure_, rule::symmetrical);
        derived();
        out.upper = tolerance_ / 2;
        out.lower = -out.upper;
        return {};
    }

    Status shaft(const ToleranceClass& asked, Zone& out) {
        const std::string_view letter = kLetters[asked.letter];
        const IsoDeviationRow* const row = deviation_row(letter, asked.grade);
        if (row == nullptr) {
            return refuse(no_deviation(letter, asked.grade));
        }
        note(rule::shaft_deviation, row_ref(catalogue_.iso_fundamental_deviations, *row), row->source);
        const std::int64_t deviation = units_of(row->deviation_um);
        out.upper = asked.letter <= kH ? deviation : deviation + tolerance_;
        out.lower = out.upper - tolerance_;
        return {};
    }

    Status hole(const ToleranceClass& asked, Zone& out) {
        const std::string name = letter_name(asked.letter, true);
        if (const IsoDeviationRow* const own = deviation_row(name, asked.grade)) {
            note(rule::own_deviation, row_ref(catalogue_.iso_fundamental_deviations, *own), own->source);
            return from_upper(units_of(own->deviation_um), out);
        }
        if (asked.letter == kJ) {
            return refuse(no_deviation(name, asked.grade));
        }
        const bool to_h = asked.letter <= kH;
        constexpr int kGradeOfK = 6;  // k has its figures for grades 4 to 7, which the hole K takes
        const std::string_view letter = kLetters[asked.letter];
        const int shaft_grade = asked.letter == kK ? kGradeOfK : asked.grade;
        const IsoDeviationRow* const row = deviation_row(letter, shaft_grade);
        if (row == nullptr) {
            return refuse(fmt::format("the hole follows the shaft: {}", no_deviation(letter, shaft_grade)));
        }
        const std::int64_t deviation = units_of(row->deviation_um);
        const RowRef ref = row_ref(catalogue_.iso_fundamental_deviations, *row);
        if (to_h) {
            note(rule::mirrored, ref, row->source);
            if (asked.letter != kH) {
                derived();
            }
            out.lower = -deviation;
            out.upper = out.lower + tolerance_;
            return {};
        }
        return above_h(asked, deviation, ref, row->source, out);
    }

    /// K to ZC.
    Status above_h(const ToleranceClass& asked, std::int64_t deviation, RowRef ref, SourceId source,
                   Zone& out) {
        const bool to_n = asked.letter <= kN;
        const int last_with_delta = to_n ? 8 : 7;
        const bool delta_sizes = size_ > kDeltaOverMm && size_ <= kDeltaToMm;
        const std::string name = letter_name(asked.letter, true);
        derived();
        if (asked.letter == kN && size_ <= 1.0 && asked.grade > last_with_delta) {
            return refuse("N coarser than IT8 is not used for sizes to 1 mm");
        }
        if (asked.letter == kK && size_ > kDeltaOverMm && asked.grade > last_with_delta) {
            return refuse(
                fmt::format("K is given to IT8 over 3 mm, got IT{} at {:g} mm", asked.grade, size_));
        }
        if (delta_sizes && asked.grade <= last_with_delta) {
            if (asked.grade < kDeltaFirstGrade) {
                return refuse(
                    fmt::format("{} is given from IT3 at {:g} mm: the standard has no delta for IT{}", name,
                                size_, grade_name(asked.grade)));
            }
            const IsoGradeRow* const finer = grade_row(asked.grade - 1);
            if (finer == nullptr) {
                return refuse(no_grade(asked.grade - 1));
            }
            note(rule::with_delta, ref, source);
            note(rule::with_delta, row_ref(catalogue_.iso_grades, *finer), finer->source);
            return from_upper(-deviation + tolerance_ - units_of(finer->tolerance_um), out);
        }
        if (asked.letter == kN && delta_sizes) {
            evidence_->note(figure_, rule::n_coarse);
            return from_upper(0, out);
        }
        note(rule::without_delta, ref, source);
        return from_upper(-deviation, out);
    }

    Status from_upper(std::int64_t upper, Zone& out) const noexcept {
        out.upper = upper;
        out.lower = upper - tolerance_;
        return {};
    }

    const Catalogue& catalogue_;
    double size_;
    std::string* why_;
    std::uint8_t figure_ = 0;
    Evidence<12>* evidence_ = nullptr;
    FigureKind kind_{};
    std::int64_t tolerance_ = 0;
};

Status ansi_limits(const Catalogue& catalogue, const Cylinder& cylinder, CylinderLimits& out,
                   std::string* why) {
    const double size = static_cast<double>(cylinder.nominal_units) / kUnits;
    double from = kNaN;
    double to = kNaN;
    for (const AnsiFitRow& row : catalogue.ansi_fits) {
        if (row.fit != cylinder.ansi_fit) {
            continue;
        }
        from = std::isnan(from) ? row.over_in : std::min(from, row.over_in);
        to = std::isnan(to) ? row.to_in : std::max(to, row.to_in);
        if (!(size > row.over_in && size <= row.to_in)) {
            continue;
        }
        const SourceKind kind = catalogue.sources[row.source.index].kind;
        const FigureKind figure = kind == SourceKind::shop ? FigureKind::shop
                                  : kind == SourceKind::memory || kind == SourceKind::practice
                                      ? FigureKind::memory
                                      : FigureKind::printed;
        out.hole = {true, units_of(row.hole_upper_thou), 0, figure};
        out.shaft = {true, units_of(row.shaft_upper_thou), units_of(row.shaft_lower_thou), figure};
        out.evidence.note(0, rule::ansi_limits, row_ref(catalogue.ansi_fits, row));
        out.evidence.note(1, rule::ansi_limits, row_ref(catalogue.ansi_fits, row));
        return {};
    }
    if (why != nullptr) {
        *why = std::isnan(from) ? fmt::format("no fit '{}'", cylinder.ansi_fit)
                                : fmt::format("{} is given for sizes over {:g} to {:g} in, got {:g} in",
                                              cylinder.ansi_fit, from, to, size);
    }
    return {StatusCode::not_tabulated, 0};
}

std::array<double, kMeetingArguments.size()> values(const MeetingRequest& request) noexcept {
    const MeetingPart& hole = request.hole;
    const MeetingPart& shaft = request.shaft;
    return {hole.min_mm,
            hole.max_mm,
            hole.build_up_min_um,
            hole.build_up_max_um,
            hole.temperature_c,
            hole.expansion_um_m_k,
            shaft.min_mm,
            shaft.max_mm,
            shaft.build_up_min_um,
            shaft.build_up_max_um,
            shaft.temperature_c,
            shaft.expansion_um_m_k,
            request.tolerance_over_sigma,
            request.mean_shift};
}

/// Places of the least of each pair; the greatest follows.
constexpr std::array<std::uint8_t, 4> kLeast{0, 2, 6, 8};

constexpr std::uint8_t kClearance = figure_index(kMeetingFigures, "clearance_min_mm");
constexpr std::uint8_t kChance = figure_index(kMeetingFigures, "chance_of_interference");

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

Status evaluate(const Catalogue& catalogue, const Cylinder& cylinder, CylinderLimits& out, std::string* why) {
    out = {};
    const double size = static_cast<double>(cylinder.nominal_units) / kUnits;
    double most = 0.0;
    if (cylinder.inch()) {
        for (const AnsiFitRow& row : catalogue.ansi_fits) {
            most = std::max(most, row.to_in);
        }
    } else {
        for (const IsoGradeRow& row : catalogue.iso_grades) {
            most = std::max(most, row.to_mm);
        }
    }
    if (!(size > 0.0 && size <= most)) {
        if (why != nullptr) {
            *why = fmt::format("the nominal size must be > 0 and at most {:g} {}, got {:g}", most,
                               cylinder.inch() ? "in" : "mm", size);
        }
        return {StatusCode::out_of_range, 0};
    }
    Status status;
    if (cylinder.inch()) {
        status = ansi_limits(catalogue, cylinder, out, why);
    } else {
        Iso iso(catalogue, size, why);
        if (cylinder.hole.given()) {
            status = iso.zone(cylinder.hole, 0, out.evidence, out.hole);
        }
        if (status.ok() && cylinder.shaft.given()) {
            status = iso.zone(cylinder.shaft, 1, out.evidence, out.shaft);
        }
        if (!cylinder.hole.given() && !cylinder.shaft.given()) {
            if (why != nullptr) {
                *why = "no class is given";
            }
            status = {StatusCode::inconsistent, 0};
        }
    }
    if (!status.ok()) {
        out = {};
        return status;
    }
    if (out.hole.given && out.shaft.given) {
        out.clearance_min = out.hole.lower - out.shaft.upper;
        out.clearance_max = out.hole.upper - out.shaft.lower;
        out.character = out.clearance_min >= 0   ? FitCharacter::clearance
                        : out.clearance_max <= 0 ? FitCharacter::interference
                                                 : FitCharacter::transition;
        out.evidence.note(figure_index(kCylinderFigures, "clearance"), rule::fit_clearance);
    }
    return {};
}

CylinderLimits cylinder_limits(const Catalogue& catalogue, const Cylinder& cylinder) {
    CylinderLimits out;
    std::string why;
    const Status status = evaluate(catalogue, cylinder, out, &why);
    if (status.code == StatusCode::not_tabulated) {
        throw NotTabulatedError(fmt::format("{}: {}", format_cylinder(cylinder), why));
    }
    if (!status.ok()) {
        throw DomainError(fmt::format("{}: {}", format_cylinder(cylinder), why));
    }
    return out;
}

Status evaluate(const MeetingRequest& request, Meeting& out) noexcept {
    out = {};
    const auto given = values(request);
    for (std::size_t i = 0; i < given.size(); ++i) {
        const StatusCode code = check(kMeetingArguments[i], given[i]);
        if (code != StatusCode::ok) {
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    for (const std::uint8_t least : kLeast) {
        if (given[least] > given[least + 1U]) {
            return {StatusCode::inconsistent, least};
        }
    }
    const auto met = [&](const MeetingPart& part, double sense) {
        const double scale = 1.0 + part.expansion_um_m_k * 1e-6 * (part.temperature_c - 20.0);
        const double half = 0.5 * (part.max_mm - part.min_mm) * scale;
        const double middle = 0.5 * (part.max_mm + part.min_mm) * scale;
        return Spread{middle - half, middle + half, middle + sense * request.mean_shift * half,
                      2.0 * half / request.tolerance_over_sigma};
    };
    const auto coat = [](const MeetingPart& part) {
        return Interval{2.0 * part.build_up_min_um / 1000.0, 2.0 * part.build_up_max_um / 1000.0};
    };
    const Spread hole = met(request.hole, -1.0);
    const Spread shaft = met(request.shaft, 1.0);
    const Interval hole_coat = coat(request.hole);
    const Interval shaft_coat = coat(request.shaft);
    const auto even = [](const Interval& range) {
        constexpr double kEven = 12.0;
        return (range.high - range.low) * (range.high - range.low) / kEven;
    };
    out.clearance_min_mm = hole.low - shaft.high - hole_coat.high - shaft_coat.high;
    out.clearance_max_mm = hole.high - shaft.low - hole_coat.low - shaft_coat.low;
    out.clearance_mean_mm = hole.expected() - shaft.expected() -
                            0.5 * (hole_coat.low + hole_coat.high + shaft_coat.low + shaft_coat.high);
    out.clearance_sigma_mm =
        std::sqrt(hole.variance() + shaft.variance() + even(hole_coat) + even(shaft_coat));
    out.chance_of_interference = chance_of_interference(hole, shaft, hole_coat, shaft_coat);
    out.evidence.note(kClearance, rule::fit_clearance);
    out.evidence.note(kChance, rule::fit_statistical);
    if (hole_coat.high > 0.0 || shaft_coat.high > 0.0) {
        out.evidence.note(kClearance, rule::fit_build_up);
    }
    if (request.hole.temperature_c != 20.0 || request.shaft.temperature_c != 20.0) {
        out.evidence.note(kClearance, rule::fit_thermal);
    }
    return {};
}

Meeting meeting(const MeetingRequest& request) {
    Meeting out;
    const Status status = evaluate(request, out);
    if (!status.ok()) {
        const auto given = values(request);
        if (status.code == StatusCode::inconsistent) {
            throw DomainError(fmt::format("{} must be at most {}, got {} and {}",
                                          kMeetingArguments[status.argument].name,
                                          kMeetingArguments[status.argument + 1U].name,
                                          given[status.argument], given[status.argument + 1U]));
        }
        throw_status(status, "meeting", kMeetingArguments.data(), given.data());
    }
    return out;
}

}  // namespace halfnut::fits
