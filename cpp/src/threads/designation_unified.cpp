#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "designation_reader.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut::threads {
namespace {

constexpr std::int64_t kMaxDiameterIn = 400;
constexpr std::array<int, 8> kConstantPitchTpi{4, 6, 8, 12, 16, 20, 28, 32};
constexpr std::size_t kMostNoughts = 4;

/// Pitch in 1e-8 in from threads per inch in thousandths.
constexpr std::int64_t pitch_from_tpi(std::int64_t tpi_thousandths) {
    return rounded_quotient(100'000'000'000, tpi_thousandths);
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

class UnifiedReader : public DesignationReader {
   public:
    explicit UnifiedReader(const DesignationReader& from) : DesignationReader(from) {}

    Thread read() {
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
        return whole();
    }

   private:
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
        if (word.empty() || word == "LH" || word == "RH" || word == "LE") {
            at_ = series_at_;
            usual_series();
        } else if (!known()) {
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

    /// The series that the trade means where none is written, coarse before fine: 1/4-20 is UNC, 10-32 #10
    /// UNF.
    void usual_series() {
        std::vector<const UnifiedSeriesRow*> found;
        for (const std::int64_t diameter : diameters()) {
            const auto rows = rows_of(catalogue_, diameter);
            const auto first = std::find_if(rows.begin(), rows.end(), [&](const UnifiedSeriesRow& row) {
                return thread_.tpi_thousandths != 0 && row_tpi(row) == thread_.tpi_thousandths &&
                       row.note.empty();
            });
            if (first != rows.end()) {
                found.push_back(&*first);
            }
        }
        if (found.size() == 1) {
            thread_.series = found.front()->series;
            return;
        }
        std::string names = found.empty() ? "UNS for a special thread" : row_text(*found.front());
        if (found.size() > 1) {
            names += " or " + row_text(*found.back());
        }
        fail_at(series_at_, fmt::format("the series is wanted here, as in {}", names));
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

    bool bare_whole_ = false;
    int whole_ = 0;
    std::size_t size_at_ = 0;
    std::size_t pitch_at_ = 0;
    std::size_t series_at_ = 0;
};

}  // namespace

Thread read_unified(const DesignationReader& from) {
    return UnifiedReader(from).read();
}

}  // namespace halfnut::threads
