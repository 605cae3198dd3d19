#include "halfnut/threads/designation.hpp"
#include "halfnut/bounds.hpp"
#include "halfnut/threads/tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

namespace halfnut::threads {
namespace {

constexpr std::int64_t kNanometresPerMm = 1'000'000;
constexpr std::int64_t kMaxDiameterMm = 10'000;
constexpr std::int64_t kMaxDiameterIn = 400;
constexpr double kNanometresPerInch = 25'400'000.0;
constexpr std::array<int, 10> kNumberSizes{0, 1, 2, 3, 4, 5, 6, 8, 10, 12};
constexpr std::array<int, 8> kConstantPitchTpi{4, 6, 8, 12, 16, 20, 28, 32};

struct Failure {
    DesignationProblem problem;
};

constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
constexpr bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
constexpr char upper(char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}

constexpr bool is_number_size(std::int64_t number) {
    return std::find(kNumberSizes.begin(), kNumberSizes.end(), number) != kNumberSizes.end();
}

/// Diameter of a numbered size, 1e-4 in: 0.060 + 0.013 N; #00 is the -1, #000 the -2, #0000 the -3.
constexpr std::int64_t numbered_size(std::int64_t number) {
    return 600 + 130 * number;
}
constexpr std::size_t kMostNoughts = 4;

constexpr std::int64_t rounded_quotient(std::int64_t numerator, std::int64_t denominator) {
    return (2 * numerator + denominator) / (2 * denominator);
}

/// Pitch in 1e-8 in from threads per inch in thousandths.
constexpr std::int64_t pitch_from_tpi(std::int64_t tpi_thousandths) {
    return rounded_quotient(100'000'000'000, tpi_thousandths);
}

std::string decimal_text(std::int64_t units, std::int64_t per_one, int min_places) {
    int places = 0;
    for (std::int64_t scale = per_one; scale > 1; scale /= 10) {
        ++places;
    }
    std::string text = fmt::format("{}.{:0{}}", units / per_one, units % per_one, places);
    const std::size_t keep = text.find('.') + 1 + static_cast<std::size_t>(min_places);
    while (text.size() > keep && text.back() == '0') {
        text.pop_back();
    }
    if (text.back() == '.') {
        text.pop_back();
    }
    return text;
}

std::string mm_text(std::int64_t nanometres) {
    return decimal_text(nanometres, kNanometresPerMm, 0);
}
std::string inch_text(std::int64_t units) {
    return decimal_text(units, 10'000, 3);
}
std::string tpi_text(std::int32_t thousandths) {
    return decimal_text(thousandths, 1000, 0);
}

/// A pitch or lead in inches to the places that bring the threads per inch back: four, six from 40 up.
std::string pitch_text(const Thread& thread, std::int64_t times) {
    const std::int64_t step = thread.tpi_thousandths == 0       ? 1
                              : thread.tpi_thousandths < 40'000 ? 10'000
                                                                : 100;
    return decimal_text(rounded_quotient(thread.pitch_units * times, step) * step, 100'000'000, 4);
}

/// "1 1/8" where the size is a multiple of 1/64 rounded to four places, else nothing.
std::optional<std::string> fraction_text(std::int64_t units) {
    const std::int64_t whole = units / 10'000;
    const std::int64_t rest = units % 10'000;
    if (rest == 0) {
        return fmt::format("{}", whole);
    }
    for (std::int64_t over = 2; over <= 64; over *= 2) {
        for (std::int64_t n = 1; n < over; n += 2) {
            if (rounded_quotient(n * 10'000, over) == rest) {
                return whole == 0 ? fmt::format("{}/{}", n, over) : fmt::format("{} {}/{}", whole, n, over);
            }
        }
    }
    return std::nullopt;
}

std::string series_text(Form form, UnifiedSeries series) {
    std::string text = form == Form::rounded_root ? "UNR" : form == Form::controlled_root ? "UNJ" : "UN";
    text += std::string_view(enum_name(series)).substr(2);
    return text;
}

std::string iso_class_text(const IsoClass& iso) {
    std::string text = fmt::format("{}{}", iso.pitch_grade, enum_name(iso.pitch_position));
    if (iso.crest_grade != iso.pitch_grade || iso.crest_position != iso.pitch_position) {
        text += fmt::format("{}{}", iso.crest_grade, enum_name(iso.crest_position));
    }
    return text;
}

std::string row_text(const UnifiedSeriesRow& row) {
    const bool numbered = row.diameter_in < 0.22;
    return fmt::format("{}{}-{} {}", numbered ? "#" : "", row.size,
                       tpi_text(bounds::nearest<std::int32_t>(row.tpi * 1000)), enum_name(row.series));
}

std::int64_t row_units(const UnifiedSeriesRow& row) {
    return bounds::nearest<std::int64_t>(row.diameter_in * 10'000, 1, bounds::kUnits);
}
std::int32_t row_tpi(const UnifiedSeriesRow& row) {
    return bounds::nearest<std::int32_t>(row.tpi * 1000, 1);
}

/// Rows of one Unified diameter.
Rows<UnifiedSeriesRow> rows_of(const Catalogue& catalogue, std::int64_t diameter_units) {
    const auto rows = catalogue.unified_series;
    const auto low = std::partition_point(rows.begin(), rows.end(),
                                          [&](const auto& row) { return row_units(row) < diameter_units; });
    const auto high = std::partition_point(low, rows.end(),
                                           [&](const auto& row) { return row_units(row) == diameter_units; });
    return {low, high};
}

class Reader {
   public:
    Reader(std::string_view text, const Catalogue& catalogue) : text_(text), catalogue_(catalogue) {}

    Thread read() {
        skip_blanks();
        if (at_end()) {
            fail("no thread given; write it as 'M10x1.5-6g' or '1/4-20 UNC-2A'");
        }
        if (upper(peek()) == 'M') {
            iso();
        } else if (is_digit(peek()) || peek() == '.' || peek() == '#' || upper(peek()) == 'N') {
            unified();
        } else {
            fail("a metric thread begins with M, a Unified one with its size");
        }
        skip_blanks();
        if (!at_end()) {
            fail(fmt::format("'{}' is left over", text_.substr(at_)));
        }
        return thread_;
    }

   private:
    // --- characters -----------------------------------------------------------------------------------

    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
    [[nodiscard]] char peek(std::size_t ahead = 0) const {
        return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
    }
    [[nodiscard]] bool starts(std::string_view word) const { return text_.substr(at_, word.size()) == word; }
    /// Whether the text goes on with a word in capitals or small letters, and not with more letters after it.
    [[nodiscard]] bool starts_word(std::string_view word) const {
        for (std::size_t i = 0; i < word.size(); ++i) {
            if (upper(peek(i)) != word[i]) {
                return false;
            }
        }
        return !is_letter(peek(word.size()));
    }

    bool skip_blanks() {
        const std::size_t from = at_;
        for (;;) {
            if (peek() == ' ' || peek() == '\t') {
                ++at_;
            } else if (starts("\xC2\xA0")) {
                at_ += 2;
            } else {
                return at_ > from;
            }
        }
    }

    bool accept(std::string_view word) {
        if (!starts(word)) {
            return false;
        }
        at_ += word.size();
        return true;
    }

    bool accept_dash() {
        const std::size_t from = at_;
        skip_blanks();
        for (const std::string_view dash : {"-", "\xE2\x80\x90", "\xE2\x80\x91", "\xE2\x80\x92",
                                            "\xE2\x80\x93", "\xE2\x80\x94", "\xE2\x88\x92"}) {
            if (accept(dash)) {
                skip_blanks();
                return true;
            }
        }
        at_ = from;
        return false;
    }

    bool accept_times() {
        const std::size_t from = at_;
        skip_blanks();
        if (accept("x") || accept("X") || accept("*") || accept("\xC3\x97")) {
            skip_blanks();
            return true;
        }
        at_ = from;
        return false;
    }

    /// A dash, or blanks with something after them.
    bool accept_separator() {
        if (accept_dash()) {
            return true;
        }
        return skip_blanks() && !at_end();
    }

    [[noreturn]] void fail_at(std::size_t position, const std::string& what,
                              StatusCode code = StatusCode::not_understood) const {
        throw Failure{{{code, 0}, position, what}};
    }
    [[noreturn]] void fail(const std::string& what, StatusCode code = StatusCode::not_understood) const {
        fail_at(at_, what, code);
    }

    // --- numbers --------------------------------------------------------------------------------------

    /// A decimal number as whole units; `scale` units to one.
    std::int64_t decimal(std::int64_t scale, std::int64_t largest, std::string_view what) {
        const std::size_t from = at_;
        check_noughts();
        if (!is_digit(peek()) && !(peek() == '.' && is_digit(peek(1)))) {
            fail(fmt::format("{} is wanted here", what));
        }
        std::int64_t units = 0;
        const auto check_size = [&] {
            if (units > largest * scale) {
                fail_at(from, fmt::format("{} of more than {}", what, largest), StatusCode::out_of_range);
            }
        };
        while (is_digit(peek())) {
            units = units * 10 + (peek() - '0') * scale;
            check_size();
            ++at_;
        }
        if (peek() == ',') {
            fail("a comma in a number; write the decimal with a point");
        }
        if (peek() == '.' && is_digit(peek(1))) {
            ++at_;
            std::int64_t place = scale;
            while (is_digit(peek())) {
                if (place == 1) {
                    if (peek() != '0') {
                        fail(fmt::format("{} has more places than the {} that count", what,
                                         scale == 10'000        ? 4
                                         : scale == 1000        ? 3
                                         : scale == 100'000'000 ? 8
                                                                : 6));
                    }
                } else {
                    place /= 10;
                    units += (peek() - '0') * place;
                }
                ++at_;
            }
            check_size();
        }
        return units;
    }

    /// A nought in front of a number is a size of its own such as #00, or a slip such as 1/04: never another
    /// size.
    void check_noughts() const {
        if (peek() == '0' && is_digit(peek(1))) {
            fail(std::string(kLeadingNought));
        }
    }
    /// Noughts from here on, where nothing but noughts makes the number.
    [[nodiscard]] std::size_t noughts() const {
        std::size_t count = 0;
        while (peek(count) == '0') {
            ++count;
        }
        return is_digit(peek(count)) || peek(count) == '.' || peek(count) == '/' ? 0 : count;
    }
    /// #00, #000 or #0000; false for any other size.
    bool size_below_zero() {
        const std::size_t count = noughts();
        if (count < 2) {
            return false;
        }
        if (count > kMostNoughts) {
            fail(fmt::format("no size #{}; below #0 there are #00, #000 and #0000", text_.substr(at_, count)),
                 StatusCode::not_tabulated);
        }
        at_ += count;
        whole_ = 1 - static_cast<int>(count);
        thread_.style = SizeStyle::number;
        thread_.diameter_units = numbered_size(whole_);
        return true;
    }

    int small_integer(std::string_view what) {
        const std::size_t from = at_;
        check_noughts();
        if (!is_digit(peek())) {
            fail(fmt::format("{} is wanted here", what));
        }
        int value = 0;
        while (is_digit(peek())) {
            value = value * 10 + (peek() - '0');
            if (value > 100'000) {
                fail_at(from, "the number is too large", StatusCode::out_of_range);
            }
            ++at_;
        }
        return value;
    }

    // --- ISO metric -----------------------------------------------------------------------------------

    void iso() {
        thread_.system = System::iso_metric;
        ++at_;
        if (upper(peek()) == 'J') {
            thread_.form = Form::controlled_root;
            ++at_;
        }
        skip_blanks();
        const std::size_t size_at = at_;
        thread_.diameter_units = decimal(kNanometresPerMm, kMaxDiameterMm, "a diameter in millimetres");
        if (thread_.diameter_units == 0) {
            fail_at(size_at, "a diameter must be > 0 mm", StatusCode::out_of_range);
        }
        if (accept_times()) {
            iso_pitch();
        } else {
            coarse_pitch(size_at);
        }
        check_geometry(size_at);
        while (!at_end()) {
            const std::size_t from = at_;
            if (!accept_separator()) {
                break;
            }
            if (at_end()) {
                fail_at(from, "a dash with nothing after it");
            }
            iso_element();
        }
    }

    void iso_pitch() {
        if (upper(peek()) == 'P' && upper(peek(1)) == 'H') {
            at_ += 2;
            skip_blanks();
            const std::size_t lead_at = at_;
            const std::int64_t lead = decimal(kNanometresPerMm, kMaxDiameterMm, "a lead in millimetres");
            skip_blanks();
            if (upper(peek()) != 'P') {
                fail("P and the pitch are wanted after the lead, as in Ph3P1.5");
            }
            ++at_;
            skip_blanks();
            pitch_mm_here();
            set_starts(lead, thread_.pitch_units, 0, lead_at, "lead",
                       [](std::int64_t units) { return mm_text(units); });
            return;
        }
        if (upper(peek()) == 'P' && (is_digit(peek(1)) || peek(1) == '.')) {
            ++at_;
        }
        pitch_mm_here();
    }

    void pitch_mm_here() {
        const std::size_t from = at_;
        thread_.pitch_units = decimal(kNanometresPerMm, kMaxDiameterMm, "a pitch in millimetres");
        if (thread_.pitch_units == 0) {
            fail_at(from, "a pitch must be > 0 mm", StatusCode::out_of_range);
        }
    }

    template <class Text>
    void set_starts(std::int64_t lead, std::int64_t pitch, std::int64_t tolerance, std::size_t position,
                    std::string_view name, Text text) {
        const std::int64_t starts = rounded_quotient(lead, pitch);
        if (starts < 1 || starts > 255 ||
            std::abs(starts * pitch - lead) > tolerance * std::max<std::int64_t>(starts, 1)) {
            fail_at(
                position,
                fmt::format("a {} must be a whole number of pitches: {} is {:.4g} times {}", name, text(lead),
                            static_cast<double>(lead) / static_cast<double>(pitch), text(pitch)),
                StatusCode::inconsistent);
        }
        thread_.starts = static_cast<std::uint8_t>(starts);
    }

    void coarse_pitch(std::size_t size_at) {
        const auto rows = catalogue_.iso_series;
        const auto nm = [](double mm) { return bounds::nearest<std::int64_t>(mm * 1e6, 1, bounds::kUnits); };
        const auto low = std::partition_point(rows.begin(), rows.end(), [&](const auto& r) {
            return nm(r.diameter_mm) < thread_.diameter_units;
        });
        std::string pitches;
        for (auto row = low; row != rows.end() && nm(row->diameter_mm) == thread_.diameter_units; ++row) {
            if (row->series == IsoSeries::coarse) {
                thread_.pitch_units = nm(row->pitch_mm);
                return;
            }
            pitches = pitches.empty() ? mm_text(nm(row->pitch_mm))
                                      : fmt::format("{}, {}", mm_text(nm(row->pitch_mm)), pitches);
        }
        const std::string name = fmt::format("M{}", mm_text(thread_.diameter_units));
        if (!pitches.empty()) {
            fail_at(size_at,
                    fmt::format("{} has no coarse pitch; write one of its fine pitches: {}", name, pitches),
                    StatusCode::not_tabulated);
        }
        std::int64_t nearest = 0;
        for (const IsoSeriesRow& row : rows) {
            const std::int64_t d = nm(row.diameter_mm);
            if (row.series == IsoSeries::coarse &&
                std::abs(d - thread_.diameter_units) < std::abs(nearest - thread_.diameter_units)) {
                nearest = d;
            }
        }
        fail_at(size_at,
                fmt::format("{} is in no series, so its pitch must be written, as in {}x1; the nearest with "
                            "a coarse pitch is M{}",
                            name, name, mm_text(nearest)),
                StatusCode::not_tabulated);
    }

    void check_geometry(std::size_t size_at) const {
        const double ratio = thread_.diameter_mm() / thread_.pitch_mm();
        if (ratio <
            1.3) {  // d - 17 H / 12 is the root of the design profile, and d - 1.227 P must leave a core
            fail_at(size_at,
                    fmt::format("a pitch of {:.6g} mm leaves no core in a diameter of {:.6g} mm",
                                thread_.pitch_mm(), thread_.diameter_mm()),
                    StatusCode::inconsistent);
        }
    }

    void iso_element() {
        const std::size_t from = at_;
        if (hand()) {
            return;
        }
        if (is_letter(peek()) && !is_letter(peek(1)) && !is_digit(peek(1))) {
            const char letter = upper(peek());
            if (letter == 'S' || letter == 'N' || letter == 'L') {
                if (thread_.group != EngagementGroup::unstated || thread_.engagement_units != 0) {
                    fail("the engagement is stated twice");
                }
                thread_.group = letter == 'S'   ? EngagementGroup::s
                                : letter == 'N' ? EngagementGroup::n
                                                : EngagementGroup::l;
                ++at_;
                return;
            }
        }
        if (is_digit(peek()) && is_letter(peek(1)) && !(peek(1) == 'm' && peek(2) == 'm')) {
            iso_classes();
            return;
        }
        if (is_digit(peek()) || peek() == '.') {
            const std::int64_t length =
                decimal(kNanometresPerMm, kMaxDiameterMm, "a length of engagement in millimetres");
            skip_blanks();
            const bool unit = accept("mm");
            if (!unit && !thread_.has_external() && !thread_.has_internal()) {
                fail_at(from, fmt::format("{0} may be a class without its letter ({0}g, {0}H) or a length: "
                                          "write the letter, or '{0} mm'",
                                          mm_text(length)));
            }
            set_engagement(length, from);
            return;
        }
        fail("a tolerance class (6g, 4g6g, 6H), S, N, L, a length of engagement or LH is wanted here");
    }

    void set_engagement(std::int64_t length, std::size_t from) {
        if (thread_.group != EngagementGroup::unstated || thread_.engagement_units != 0) {
            fail_at(from, "the engagement is stated twice");
        }
        if (length == 0) {
            fail_at(from, "a length of engagement must be > 0", StatusCode::out_of_range);
        }
        thread_.engagement_units = length;
    }

    bool hand() {
        for (const auto& [word, hand] : {std::pair{std::string_view("LH"), Hand::left},
                                         std::pair{std::string_view("RH"), Hand::right}}) {
            if (starts_word(word)) {
                if (hand_given_) {
                    fail("the hand is stated twice");
                }
                thread_.hand = hand;
                hand_given_ = true;
                at_ += 2;
                return true;
            }
        }
        return false;
    }

    void iso_classes() {
        iso_class();
        skip_blanks();
        if (accept("/")) {
            skip_blanks();
            iso_class();
        }
    }

    void iso_class() {
        const std::size_t from = at_;
        IsoClass out;
        iso_symbol(out.pitch_grade, out.pitch_position);
        out.crest_grade = out.pitch_grade;
        out.crest_position = out.pitch_position;
        const std::size_t crest_at = at_;
        const bool two = is_digit(peek());
        if (two) {
            iso_symbol(out.crest_grade, out.crest_position);
        }
        const bool internal = is_internal(out.pitch_position);
        if (internal != is_internal(out.crest_position)) {
            fail_at(
                crest_at,
                "one class cannot hold an external and an internal position; a fit is written as in 6H/6g");
        }
        if (internal ? (out.pitch_grade < 4 || out.pitch_grade > 8)
                     : (out.pitch_grade < 3 || out.pitch_grade > 9)) {
            fail_at(from,
                    fmt::format("grade {} of an {} pitch diameter; the standard has {}", out.pitch_grade,
                                internal ? "internal" : "external", internal ? "4 to 8" : "3 to 9"),
                    StatusCode::not_tabulated);
        }
        const bool crest_known = internal
                                     ? (out.crest_grade >= 4 && out.crest_grade <= 8)
                                     : (out.crest_grade == 4 || out.crest_grade == 6 || out.crest_grade == 8);
        if (!crest_known) {
            const std::string hint =
                internal || two ? std::string()
                                : fmt::format("; write both, as in {}{}6{}", out.pitch_grade,
                                              enum_name(out.pitch_position), enum_name(out.pitch_position));
            fail_at(two ? crest_at : from,
                    fmt::format("grade {} of {}; the standard has {}{}", out.crest_grade,
                                internal ? "an internal minor diameter" : "an external major diameter",
                                internal ? "4 to 8" : "4, 6 and 8", hint),
                    StatusCode::not_tabulated);
        }
        IsoClass& place = internal ? thread_.internal_iso : thread_.external_iso;
        if (place.given()) {
            fail_at(from, fmt::format("two {} classes", internal ? "internal" : "external"));
        }
        place = out;
    }

    void iso_symbol(std::uint8_t& grade, Position& position) {
        if (!is_digit(peek())) {
            fail("a tolerance grade, such as the 6 of 6g, is wanted here");
        }
        grade = static_cast<std::uint8_t>(peek() - '0');
        ++at_;
        std::string_view best;
        for (const auto& [value, name] : enum_names(Position{})) {
            if (starts(name) && name.size() > best.size()) {
                best = name;
                position = value;
            }
        }
        if (best.empty()) {
            fail(peek() == '\0'
                     ? "a position letter is wanted after the grade, as in 6g or 6H"
                     : fmt::format(
                           "'{}' is no tolerance position; external a b c d e f g h az, internal G H AZ AX",
                           text_.substr(at_, 1)));
        }
        at_ += best.size();
    }

    // --- Unified --------------------------------------------------------------------------------------

    void unified() {
        thread_.system = System::unified;
        size_at_ = at_;
        unified_size();
        skip_blanks();
        if (accept("\"")) {
            bare_whole_ = false;
        } else if (starts_word("IN")) {
            at_ += 2;
            bare_whole_ = false;
        }
        skip_blanks();
        if (accept("(")) {  // No. 10 (0.190)-32
            const std::size_t from = at_;
            const std::int64_t units = decimal(10'000, kMaxDiameterIn, "the size in inches");
            if (units != thread_.diameter_units) {
                fail_at(from,
                        fmt::format("{} is {} in, not {}", size_text(thread_),
                                    inch_text(thread_.diameter_units), inch_text(units)),
                        StatusCode::inconsistent);
            }
            if (!accept(")")) {
                fail("a closing parenthesis is wanted here");
            }
        }
        if (!accept_dash()) {
            fail_without_tpi();
        }
        unified_pitch();
        accept_dash();
        skip_blanks();
        unified_series();
        while (!at_end()) {
            skip_blanks();
            const bool dash = accept_dash();
            if (at_end()) {
                if (dash) {
                    fail("a dash with nothing after it");
                }
                break;
            }
            unified_element();
        }
        if (thread_.form == Form::rounded_root && thread_.internal_unified != 0) {
            fail_at(series_at_, "UNR is a form of the external thread; the internal one is UN",
                    StatusCode::inconsistent);
        }
    }

    void unified_size() {
        bool marked = false;
        if (accept("#")) {
            marked = true;
        } else if (upper(peek()) == 'N') {
            if (upper(peek(1)) != 'O') {
                fail("a Unified thread begins with its size; the series comes after the threads per inch");
            }
            at_ += 2;
            accept(".");
            marked = true;
        }
        skip_blanks();
        const std::size_t from = at_;
        if (size_below_zero()) {
            return;
        }
        if (marked) {
            whole_ = small_integer("the number of a size");
            if (!is_number_size(whole_)) {
                fail_at(
                    from,
                    fmt::format("no size #{}; numbered sizes are 0, 1, 2, 3, 4, 5, 6, 8, 10 and 12", whole_),
                    StatusCode::not_tabulated);
            }
            thread_.style = SizeStyle::number;
            thread_.diameter_units = numbered_size(whole_);
            return;
        }
        std::size_t end = at_;
        while (end < text_.size() && is_digit(text_[end])) {
            ++end;
        }
        const bool is_whole = end > at_ && (end >= text_.size() || text_[end] != '.');
        if (!is_whole) {
            thread_.style = SizeStyle::decimal;
            thread_.diameter_units = decimal(10'000, kMaxDiameterIn, "a size in inches");
            if (thread_.diameter_units == 0) {
                fail_at(from, "a size must be > 0 in", StatusCode::out_of_range);
            }
            return;
        }
        thread_.style = SizeStyle::fraction;
        const int first = small_integer("a size");
        if (peek() == '/') {
            thread_.diameter_units = fraction(first, from);
            return;
        }
        check_whole(first, from);
        // "1-1/8" and "1 1/8", but not the "4-" of "4-1 1/2"
        const std::size_t after = at_;
        if (accept_dash() || skip_blanks()) {
            const std::size_t second_at = at_;
            if (is_digit(peek())) {
                const int second = small_integer("a fraction");
                if (peek() == '/') {
                    thread_.diameter_units = std::int64_t{first} * 10'000 + fraction(second, second_at);
                    return;
                }
            }
        }
        at_ = after;
        whole_ = first;
        thread_.diameter_units = std::int64_t{first} * 10'000;
        bare_whole_ = true;
    }

    void check_whole(int whole, std::size_t from) const {
        if (whole > kMaxDiameterIn) {
            fail_at(from, fmt::format("a size of more than {} in", kMaxDiameterIn), StatusCode::out_of_range);
        }
    }

    /// The denominator after a numerator; the value in 1e-4 in, rounded as basic sizes are.
    std::int64_t fraction(int numerator, std::size_t from) {
        ++at_;
        const std::size_t over_at = at_;
        const int over = small_integer("a denominator");
        if (over != 2 && over != 4 && over != 8 && over != 16 && over != 32 && over != 64) {
            fail_at(over_at, "a fraction of an inch is in halves, quarters, ... or sixty-fourths");
        }
        if (numerator == 0 || numerator >= over) {
            fail_at(from, "a fraction of an inch must be above 0 and below 1");
        }
        return rounded_quotient(std::int64_t{numerator} * 10'000, over);
    }

    void unified_pitch() {
        const std::size_t from = at_;
        std::size_t end = at_;
        while (end < text_.size() && (is_digit(text_[end]) || text_[end] == '.')) {
            ++end;
        }
        if (end < text_.size() && end > at_ && upper(text_[end]) == 'P') {
            pitch_and_lead();
        } else {
            thread_.tpi_thousandths = static_cast<std::int32_t>(decimal(1000, 500, "the threads per inch"));
            const std::size_t after = at_;
            if (thread_.tpi_thousandths % 1000 == 0 && (skip_blanks() || accept_dash()) && is_digit(peek())) {
                const int numerator = small_integer("a fraction");
                if (peek() == '/') {
                    ++at_;
                    const std::size_t over_at = at_;
                    const int over = small_integer("a denominator");
                    if ((over != 2 && over != 4) || numerator <= 0 || numerator >= over) {
                        fail_at(over_at, "threads per inch come in halves or quarters");
                    }
                    thread_.tpi_thousandths += numerator * 1000 / over;
                } else {
                    at_ = after;
                }
            } else {
                at_ = after;
            }
            if (thread_.tpi_thousandths < 250) {
                fail_at(from, "the threads per inch must be at least 1/4", StatusCode::out_of_range);
            }
            thread_.pitch_units = pitch_from_tpi(thread_.tpi_thousandths);
        }
        pitch_at_ = from;
    }

    /// .0625P-.1875L(3 starts)
    void pitch_and_lead() {
        const std::size_t from = at_;
        const std::int64_t pitch = decimal(100'000'000, 4, "a pitch in inches");
        const std::size_t digits = places(from);
        ++at_;  // P
        if (pitch == 0) {
            fail_at(from, "a pitch must be > 0 in", StatusCode::out_of_range);
        }
        thread_.pitch_units = pitch;
        // a pitch printed to a few places stands for the whole, half or quarter number of threads it comes
        // from
        const std::int64_t tpi = rounded_quotient(400'000'000, pitch) * 250;
        std::int64_t step = 100'000'000;
        for (std::size_t i = 0; i < digits; ++i) {
            step /= 10;
        }
        if (tpi >= 250 &&
            rounded_quotient(pitch_from_tpi(tpi), step) == rounded_quotient(thread_.pitch_units, step)) {
            thread_.tpi_thousandths = static_cast<std::int32_t>(tpi);
            thread_.pitch_units = pitch_from_tpi(tpi);
        }
        if (!accept_dash()) {
            fail("a dash and the lead are wanted after the pitch, as in .0625P-.1875L(3 starts)");
        }
        const std::size_t lead_at = at_;
        const std::int64_t lead = decimal(100'000'000, 400, "a lead in inches");
        if (upper(peek()) != 'L') {
            fail("L is wanted after the lead, as in .1875L");
        }
        ++at_;
        set_starts(lead, thread_.pitch_units, 10'000, lead_at, "lead",
                   [](std::int64_t units) { return decimal_text(units, 100'000'000, 4); });
        skip_blanks();
        if (accept("(")) {
            skip_blanks();
            const std::size_t starts_at = at_;
            const int starts = number_of_starts();
            if (starts != thread_.starts) {
                fail_at(starts_at, fmt::format("the lead is {} pitches, not {}", thread_.starts, starts),
                        StatusCode::inconsistent);
            }
        }
    }

    [[nodiscard]] std::size_t places(std::size_t from) const {
        const auto point = text_.substr(from, at_ - from).find('.');
        return point == std::string_view::npos ? 0 : std::min<std::size_t>(at_ - from - point - 1, 8);
    }

    int number_of_starts() {
        constexpr std::array<std::string_view, 8> kWords{"ONE",  "TWO", "THREE", "FOUR",
                                                         "FIVE", "SIX", "SEVEN", "EIGHT"};
        int starts = 0;
        for (std::size_t i = 0; i < kWords.size(); ++i) {
            if (starts_word(kWords[i])) {
                starts = static_cast<int>(i) + 1;
                at_ += kWords[i].size();
                break;
            }
        }
        if (starts == 0) {
            starts = small_integer("the number of starts");
        }
        accept_dash();
        skip_blanks();
        if (starts_word("STARTS")) {
            at_ += 6;
        } else if (starts_word("START")) {
            at_ += 5;
        }
        skip_blanks();
        if (!accept(")")) {
            fail("'starts' and a closing parenthesis are wanted here");
        }
        return starts;
    }

    void unified_series() {
        series_at_ = at_;
        std::string word;
        while (is_letter(peek())) {
            word += upper(peek());
            ++at_;
        }
        const auto known = [&]() -> bool {
            if (word.rfind("UN", 0) != 0) {
                return false;
            }
            std::string_view rest = std::string_view(word).substr(2);
            if (!rest.empty() && (rest.front() == 'R' || rest.front() == 'J')) {
                thread_.form = rest.front() == 'R' ? Form::rounded_root : Form::controlled_root;
                rest.remove_prefix(1);
            }
            for (const auto& [series, name] : enum_names(UnifiedSeries{})) {
                if (name.substr(2) == rest) {
                    thread_.series = series;
                    return true;
                }
            }
            return false;
        };
        if (word.empty()) {
            fail_without_series();
        }
        if (!known()) {
            const bool national = word == "NC" || word == "NF" || word == "NEF" || word == "NS";
            const std::string hint =
                national ? fmt::format("; {} is the older national series, its Unified successor is U{}",
                                       word, word)
                         : std::string();
            fail_at(series_at_, fmt::format("'{}' is no Unified series; UNC, UNF, UNEF, UN, UNS, with R or J "
                                            "after UN for those roots{}",
                                            word, hint));
        }
        settle_size();
        check_series();
    }

    /// A whole number below 13 may be a numbered size or inches.
    void settle_size() {
        const bool may_be_number = bare_whole_ && is_number_size(whole_);
        if (may_be_number) {
            const std::int64_t number = numbered_size(whole_);
            const std::int64_t inches = whole_ * std::int64_t{10'000};
            const bool number_listed = listed(number);
            const bool inches_listed = listed(inches);
            const bool number_possible = is_possible(number);
            if (number_listed != inches_listed) {
                take(number_listed, number);
            } else if (!number_possible || whole_ == 0) {
                take(!is_possible(inches), number);
            } else {
                fail_at(size_at_,
                        fmt::format("'{}' may be the size #{} ({} in) or {} inches: write #{}-{} or {}-{}",
                                    whole_, whole_, inch_text(number), whole_, whole_, tpi_or_pitch(),
                                    inch_text(inches), tpi_or_pitch()));
            }
        }
        if (thread_.diameter_units == 0) {
            fail_at(size_at_, "a size must be > 0 in", StatusCode::out_of_range);
        }
        check_geometry(size_at_);
    }

    void take(bool number, std::int64_t units) {
        if (number) {
            thread_.diameter_units = units;
            thread_.style = SizeStyle::number;
        }
    }

    [[nodiscard]] bool listed(std::int64_t diameter) const {
        const auto rows = rows_of(catalogue_, diameter);
        return std::any_of(rows.begin(), rows.end(), [&](const auto& row) {
            return row_tpi(row) == thread_.tpi_thousandths &&
                   (row.series == thread_.series || thread_.series == UnifiedSeries::uns ||
                    thread_.series == UnifiedSeries::un);
        });
    }

    [[nodiscard]] bool is_possible(std::int64_t diameter) const {
        return static_cast<double>(diameter) * 1e4 >= 1.3 * static_cast<double>(thread_.pitch_units);
    }

    [[nodiscard]] std::string tpi_or_pitch() const {
        return thread_.tpi_thousandths != 0
                   ? tpi_text(thread_.tpi_thousandths)
                   : fmt::format("{}P", decimal_text(thread_.pitch_units, 100'000'000, 4));
    }

    [[nodiscard]] std::string candidates() const {
        std::vector<std::string> names;
        for (const std::int64_t diameter : diameters()) {
            for (const UnifiedSeriesRow& row : rows_of(catalogue_, diameter)) {
                if (row.note.empty()) {
                    names.push_back(row_text(row));
                }
            }
        }
        if (names.size() > 12) {
            names.resize(12);
            names.emplace_back("...");
        }
        return fmt::format("{}", fmt::join(names, ", "));
    }

    /// The diameters that the size as written may mean.
    [[nodiscard]] std::vector<std::int64_t> diameters() const {
        std::vector<std::int64_t> out{thread_.diameter_units};
        if (bare_whole_ && is_number_size(whole_)) {
            out.insert(out.begin(), numbered_size(whole_));
        }
        return out;
    }

    [[noreturn]] void fail_without_tpi() const {
        const std::string names = candidates();
        fail(fmt::format("a dash and the threads per inch are wanted here{}{}", names.empty() ? "" : ": ",
                         names));
    }

    [[noreturn]] void fail_without_series() const {
        std::vector<std::string> names;
        for (const std::int64_t diameter : diameters()) {
            for (const UnifiedSeriesRow& row : rows_of(catalogue_, diameter)) {
                if (row_tpi(row) == thread_.tpi_thousandths && row.note.empty()) {
                    names.push_back(row_text(row));
                }
            }
        }
        if (names.empty()) {
            names.emplace_back("UNS for a special thread");
        }
        fail_at(series_at_, fmt::format("the series is wanted here, as in {}", fmt::join(names, " or ")));
    }

    void check_series() const {
        const UnifiedSeries series = thread_.series;
        if (series == UnifiedSeries::uns || thread_.tpi_thousandths == 0) {
            return;
        }
        if (series == UnifiedSeries::un) {
            const bool constant = std::any_of(kConstantPitchTpi.begin(), kConstantPitchTpi.end(),
                                              [&](int tpi) { return tpi * 1000 == thread_.tpi_thousandths; });
            if (!constant) {
                fail_at(pitch_at_,
                        fmt::format("{} threads per inch is no constant-pitch series (4, 6, 8, 12, 16, 20, "
                                    "28, 32); write UNS",
                                    tpi_or_pitch()),
                        StatusCode::not_tabulated);
            }
            return;
        }
        if (!listed(thread_.diameter_units)) {
            const std::string names = candidates();
            fail_at(series_at_,
                    fmt::format("{}-{} is not in the {} series{}{}; outside the series write UNS",
                                size_text(thread_), tpi_or_pitch(), enum_name(series),
                                names.empty() ? "" : "; of this size there are ", names),
                    StatusCode::not_tabulated);
        }
    }

    void unified_element() {
        const std::size_t from = at_;
        if (hand()) {
            return;
        }
        if (accept(",") || accept(";")) {
            skip_blanks();
        }
        if (hand()) {
            return;
        }
        if (starts_word("LE")) {
            at_ += 2;
            skip_blanks();
            accept("=");
            skip_blanks();
            const std::size_t length_at = at_;
            const std::int64_t length = decimal(1'000'000, 400, "a length of engagement in inches");
            skip_blanks();
            if (!accept("\"") && starts_word("IN")) {
                at_ += 2;
            }
            set_engagement(length, length_at);
            return;
        }
        if (starts("(21)") || starts("(22)") ||
            starts("(23)")) {  // gauging system of B1.3, which changes no limit
            at_ += 4;
            return;
        }
        if (is_digit(peek())) {
            unified_class();
            skip_blanks();
            if (accept("/")) {
                skip_blanks();
                unified_class();
            }
            return;
        }
        if (starts_word("MOD")) {
            fail("a modified (MOD) thread carries its own limits; its designation alone does not give them");
        }
        fail_at(from, "a class (2A, 2B), LH or 'LE=' and a length of engagement is wanted here");
    }

    void unified_class() {
        const char grade = peek();
        const char side = upper(peek(1));
        if (grade < '1' || grade > '3' || (side != 'A' && side != 'B') || is_letter(peek(2))) {
            fail("the classes of Unified threads are 1A, 2A, 3A (external) and 1B, 2B, 3B (internal)");
        }
        UnifiedClass& place = side == 'A' ? thread_.external_unified : thread_.internal_unified;
        if (place != 0) {
            fail(fmt::format("two {} classes", side == 'A' ? "external" : "internal"));
        }
        place = static_cast<UnifiedClass>(grade - '0');
        at_ += 2;
    }

    std::string_view text_;
    const Catalogue& catalogue_;
    std::size_t at_ = 0;
    Thread thread_;
    bool hand_given_ = false;
    bool bare_whole_ = false;
    int whole_ = 0;
    std::size_t size_at_ = 0;
    std::size_t pitch_at_ = 0;
    std::size_t series_at_ = 0;
};

/// A system of threads that is known by name and has no figures here.
struct ForeignThread {
    std::string_view word;  ///< in capitals, as it stands in a designation
    std::string_view says;
};
constexpr std::array kForeignThreads{
    ForeignThread{"BSPT", "taper British pipe thread: write R1/2 outside, Rc1/2 inside"},
    ForeignThread{"BSPP", "parallel British pipe thread: write G1/2 A outside, G1/2 inside"},
    ForeignThread{"BSP", "British pipe thread: parallel write G1/2, taper R1/2 outside and Rc1/2 inside"},
    ForeignThread{"NPTF", "Dryseal taper pipe thread; NPT has other limits"},
    ForeignThread{"NPSF", "Dryseal straight pipe thread"},
    ForeignThread{"NPSI", "Dryseal straight pipe thread"},
    ForeignThread{"PTF", "Dryseal short taper pipe thread"},
    ForeignThread{"NPSM", "American straight pipe thread for joints"},
    ForeignThread{"NPSL", "American straight pipe thread for lock nuts"},
    ForeignThread{"NPSC", "American straight pipe thread of couplings"},
    ForeignThread{"NPSH", "American hose thread"},
    ForeignThread{"NPS", "American straight pipe thread"},
    ForeignThread{"ANPT", "aeronautical taper pipe thread; NPT has other limits"},
    ForeignThread{"NPTR", "taper pipe thread of railings"},
    ForeignThread{"NH", "American hose coupling thread"},
    ForeignThread{"NST", "American fire hose thread"},
    ForeignThread{"GHT", "garden hose thread"},
    ForeignThread{"PG", "steel conduit thread of 80 degrees"},
    ForeignThread{"BA", "British Association thread of 47.5 degrees"},
    ForeignThread{"BSC", "British cycle thread"},
    ForeignThread{"CEI", "British cycle thread"},
    ForeignThread{"BSB", "British brass thread, 26 to the inch, 55 degrees"},
    ForeignThread{"ME", "model engineers' thread of 55 degrees"},
    ForeignThread{"WHIT", "Whitworth of a size of its own; BSW and BSF are held"},
    ForeignThread{"UNM", "Unified miniature thread"},
    ForeignThread{"STI", "tapped hole of a screw-thread insert"},
    ForeignThread{"EG", "tapped hole of a screw-thread insert"},
    ForeignThread{"RD", "knuckle thread"},
    ForeignThread{"BUTT", "buttress thread"},
    ForeignThread{"BUTTRESS", "buttress thread"},
    ForeignThread{"RMS", "microscope objective thread, 0.7965 in, 36 to the inch, 55 degrees"},
    ForeignThread{"NGT", "gas cylinder valve thread"},
    ForeignThread{"NGO", "gas cylinder outlet thread"},
    ForeignThread{"CGA", "gas cylinder outlet thread"},
    ForeignThread{"API", "oilfield thread"},
};

}  // namespace

std::string foreign_thread(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        if (!is_letter(text[at])) {
            ++at;
            continue;
        }
        std::string word;
        for (; at < text.size() && is_letter(text[at]); ++at) {
            word += upper(text[at]);
        }
        for (const ForeignThread& each : kForeignThreads) {
            if (each.word == word) {
                return fmt::format("{} is not held here ({})", each.word, each.says);
            }
        }
    }
    return {};
}

double Thread::diameter_mm() const noexcept {
    return inch() ? static_cast<double>(diameter_units) * 25.4 / 1e4
                  : static_cast<double>(diameter_units) / 1e6;
}
double Thread::diameter_in() const noexcept {
    return inch() ? static_cast<double>(diameter_units) / 1e4
                  : static_cast<double>(diameter_units) / kNanometresPerInch;
}
double Thread::pitch_in() const noexcept {
    if (!inch()) {
        return static_cast<double>(pitch_units) / kNanometresPerInch;
    }
    return tpi_thousandths != 0 ? 1000.0 / tpi_thousandths : static_cast<double>(pitch_units) / 1e8;
}
double Thread::pitch_mm() const noexcept {
    return inch() ? pitch_in() * 25.4 : static_cast<double>(pitch_units) / 1e6;
}

double Thread::engagement_mm() const noexcept {
    if (engagement_units == 0) {
        return kNaN;
    }
    return inch() ? static_cast<double>(engagement_units) * 25.4 / 1e6
                  : static_cast<double>(engagement_units) / 1e6;
}

Thread Thread::part(Side side) const noexcept {
    Thread out = *this;
    const bool small = !inch() && diameter_units <= 1'400'000;
    if (side == Side::external) {
        out.internal_iso = {};
        out.internal_unified = 0;
        if (!has_external()) {
            if (inch()) {
                out.external_unified = 2;
            } else {
                out.external_iso = small ? IsoClass{6, Position::h, 6, Position::h}
                                         : IsoClass{6, Position::g, 6, Position::g};
            }
        }
        return out;
    }
    out.external_iso = {};
    out.external_unified = 0;
    if (out.form == Form::rounded_root) {
        out.form = Form::plain;
    }
    if (!has_internal()) {
        if (inch()) {
            out.internal_unified = 2;
        } else {
            out.internal_iso =
                small ? IsoClass{5, Position::H, 5, Position::H} : IsoClass{6, Position::H, 6, Position::H};
        }
    }
    return out;
}

Status read_thread(std::string_view text, const Catalogue& catalogue, Thread& out,
                   DesignationProblem* problem) {
    if (text.size() > bounds::kDesignationBytes) {
        out = {};
        if (problem != nullptr) {
            *problem = {{StatusCode::not_understood, 0},
                        0,
                        bounds::too_long("thread", text, bounds::kDesignationBytes)};
        }
        return {StatusCode::not_understood, 0};
    }
    try {
        out = Reader(text, catalogue).read();
        return {};
    } catch (const Failure& failure) {
        out = Thread{};
        DesignationProblem found = failure.problem;
        if (std::string foreign = foreign_thread(text); !foreign.empty()) {
            found = {{StatusCode::not_tabulated, 0}, 0, std::move(foreign)};
        }
        if (problem != nullptr) {
            *problem = found;
        }
        return found.status;
    }
}

Thread parse_thread(std::string_view text, const Catalogue& catalogue) {
    Thread out;
    DesignationProblem problem;
    const Status status = read_thread(text, catalogue, out, &problem);
    if (status.ok()) {
        return out;
    }
    const std::string message = fmt::format("cannot read '{}' at position {}: {}", bounds::shown(text),
                                            problem.position + 1, problem.message);
    if (status.code == StatusCode::not_tabulated) {
        throw NotTabulatedError(message);
    }
    throw DesignationError(message, problem.position);
}

std::string size_text(const Thread& thread) {
    if (!thread.inch()) {
        return fmt::format("M{}{}", thread.form == Form::controlled_root ? "J" : "",
                           mm_text(thread.diameter_units));
    }
    if (thread.style == SizeStyle::number) {
        const std::int64_t number = (thread.diameter_units - numbered_size(0)) / 130;
        return number >= 0 ? fmt::format("#{}", number)
                           : fmt::format("#{}", std::string(static_cast<std::size_t>(1 - number), '0'));
    }
    if (thread.style == SizeStyle::fraction) {
        if (const auto fraction = fraction_text(thread.diameter_units)) {
            return *fraction;
        }
    }
    return inch_text(thread.diameter_units);
}

std::string class_text(const Thread& thread) {
    std::string external;
    std::string internal;
    if (thread.inch()) {
        external = thread.external_unified == 0 ? "" : fmt::format("{}A", thread.external_unified);
        internal = thread.internal_unified == 0 ? "" : fmt::format("{}B", thread.internal_unified);
        return external + (!external.empty() && !internal.empty() ? "/" : "") + internal;
    }
    internal = thread.internal_iso.given() ? iso_class_text(thread.internal_iso) : "";
    external = thread.external_iso.given() ? iso_class_text(thread.external_iso) : "";
    return internal + (!external.empty() && !internal.empty() ? "/" : "") + external;
}

std::string format_thread(const Thread& thread) {
    std::string text = size_text(thread);
    if (thread.inch()) {
        // whole inches that could be a numbered size say so, unless the series leaves no doubt
        const std::int64_t whole = thread.diameter_units / 10'000;
        const bool doubtful = thread.style == SizeStyle::fraction && thread.diameter_units % 10'000 == 0 &&
                              is_number_size(whole);
        if (doubtful && (thread.series == UnifiedSeries::uns || thread.series == UnifiedSeries::un)) {
            text += " in";
        }
        if (thread.starts == 1 && thread.tpi_thousandths != 0) {
            text += fmt::format("-{}", tpi_text(thread.tpi_thousandths));
        } else {
            text +=
                fmt::format("-{}P-{}L({} START{})", pitch_text(thread, 1), pitch_text(thread, thread.starts),
                            thread.starts, thread.starts == 1 ? "" : "S");
        }
        text += ' ' + series_text(thread.form, thread.series);
    } else if (thread.starts == 1) {
        text += fmt::format("x{}", mm_text(thread.pitch_units));
    } else {
        text +=
            fmt::format("xPh{}P{}", mm_text(thread.pitch_units * thread.starts), mm_text(thread.pitch_units));
    }
    const std::string tolerance = class_text(thread);
    if (!tolerance.empty()) {
        text += '-' + tolerance;
    }
    if (thread.group != EngagementGroup::unstated) {
        text += thread.group == EngagementGroup::s ? "-S" : thread.group == EngagementGroup::n ? "-N" : "-L";
    }
    if (thread.engagement_units != 0 && !thread.inch()) {
        text += fmt::format("-{}{}", mm_text(thread.engagement_units), tolerance.empty() ? " mm" : "");
    }
    if (thread.hand == Hand::left) {
        text += "-LH";
    }
    if (thread.engagement_units != 0 && thread.inch()) {
        text += fmt::format(", LE={}", decimal_text(thread.engagement_units, 1'000'000, 3));
    }
    return text;
}

}  // namespace halfnut::threads
