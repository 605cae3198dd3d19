#include "halfnut/threads/forms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <optional>

#include "halfnut/bounds.hpp"
#include "halfnut/quantity.hpp"
#include "halfnut/threads/rules.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

constexpr std::size_t kMajorMax = 0;
constexpr std::size_t kMajorMin = 1;
constexpr std::size_t kPitchMax = 2;
constexpr std::size_t kPitchMin = 3;
constexpr std::size_t kMinorMax = 4;
constexpr std::size_t kMinorMin = 5;
constexpr std::uint8_t kEverySize = figure_index(kFormFigures, "every size");
constexpr std::uint8_t kPitchFigure = figure_index(kFormFigures, "pitch_min");
constexpr int kMostStarts = 100;
constexpr std::int32_t kNoSize = 0;  // of a limit that would be at or below 0, or beyond all threads

char lower(char c) noexcept {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
bool is_digit(char c) noexcept {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) noexcept {
    return lower(c) >= 'a' && lower(c) <= 'z';
}
std::string lowered(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), lower);
    return out;
}

constexpr std::array<std::string_view, 9> kTrapezoidalClasses{"7e", "8e", "9e", "7c", "8c",
                                                              "9c", "7H", "8H", "9H"};
constexpr std::string_view kWays =
    "write \"Tr40x7-7e\", \"Tr40x14(P7)LH-7H\", \"1 1/2-4 Acme-2G\", \"G1/2 A\", \"1/2-14 NPT\", \"R1/2\" or "
    "\"1/4-20 BSW\"";

class Reader {
   public:
    Reader(std::string_view text, const Catalogue& catalogue) : text_(text), catalogue_(catalogue) {}

    Status read(FormThread& out) {
        const bool ok = form(out) && trailing_hand(out) && end();
        if (ok) {
            return {};
        }
        if (nought_at_) {
            fail(*nought_at_, std::string(kLeadingNought));
        }
        if (const std::string foreign = foreign_thread(text_); !foreign.empty()) {
            fail(0, foreign, StatusCode::not_tabulated);
        }
        return problem_.status;
    }
    [[nodiscard]] DesignationProblem problem() && { return std::move(problem_); }

   private:
    [[nodiscard]] char here() const noexcept { return at_ < text_.size() ? text_[at_] : '\0'; }
    void blanks() noexcept {
        while (here() == ' ' || here() == '\t') {
            ++at_;
        }
    }
    bool fail(std::size_t position, std::string message, StatusCode code = StatusCode::not_understood) {
        problem_ = {{code, 0}, position, std::move(message)};
        return false;
    }
    /// A word, whatever its case, with blanks before it.
    bool take(std::string_view word) noexcept {
        const std::size_t before = at_;
        blanks();
        for (const char c : word) {
            if (lower(here()) != c) {
                at_ = before;
                return false;
            }
            ++at_;
        }
        return true;
    }
    bool sign(std::initializer_list<std::string_view> spellings) noexcept {
        const std::size_t before = at_;
        blanks();
        for (const std::string_view spelling : spellings) {
            if (text_.substr(at_, spelling.size()) == spelling) {
                at_ += spelling.size();
                return true;
            }
        }
        at_ = before;
        return false;
    }
    bool dash() noexcept { return sign({"-", "\u2013", "\u2212"}); }
    bool times() noexcept { return sign({"x", "X", "*", "\u00d7"}); }

    std::optional<double> decimal() {
        blanks();
        const char* const first = text_.data() + at_;
        const char* const last = text_.data() + text_.size();
        const char* stop = first;
        while (stop != last && (is_digit(*stop) || *stop == '.')) {
            ++stop;
        }
        if (stop - first > 1 && *first == '0' && is_digit(first[1])) {
            if (!nought_at_) {
                nought_at_ = at_;
            }
            return std::nullopt;  // 016 is no 16: a nought in front may be a point lost, or another size
        }
        double value = 0.0;
        const auto [reached, error] = std::from_chars(first, stop, value, std::chars_format::fixed);
        constexpr double kMost = 1e6;
        if (stop == first || error != std::errc{} || reached != stop || !(value <= kMost)) {
            return std::nullopt;
        }
        at_ += static_cast<std::size_t>(stop - first);
        return value;
    }
    /// A decimal, a fraction, or a whole number and a fraction.
    std::optional<double> mixed() {
        std::optional<double> first = decimal();
        if (!first) {
            return std::nullopt;
        }
        if (here() == '/') {
            return over(0.0, *first);
        }
        const std::size_t before = at_;
        if (here() == ' ' || here() == '-') {
            ++at_;
            if (is_digit(here())) {
                const std::optional<double> top = decimal();
                if (top && here() == '/') {
                    return over(*first, *top);
                }
            }
            at_ = before;
        }
        return first;
    }
    std::optional<double> over(double whole, double top) {
        ++at_;
        const std::optional<double> bottom = decimal();
        if (!bottom || *bottom == 0.0) {
            return std::nullopt;
        }
        return whole + top / *bottom;
    }

    bool form(FormThread& out) {
        if (take("tr")) {
            return trapezoidal(out);
        }
        if (take("npt")) {
            out.form = "NPT";
            return size(out) && taper(out);
        }
        if (take("g")) {
            out.form = "G";
            return size(out) && parallel_pipe(out);
        }
        for (const std::string_view prefix : {"Rc", "Rp", "R"}) {
            if (take(lowered(prefix))) {
                out.form = "R";
                out.prefix = prefix;
                return size(out) && taper(out);
            }
        }
        return inch_form(out);
    }

    bool size(FormThread& out) {
        blanks();
        start_ = at_;
        const std::optional<double> found = mixed();
        if (!found || !(*found > 0.0)) {
            return fail(start_, fmt::format("no size found; {}", kWays));
        }
        out.diameter = *found;
        return true;
    }

    bool trapezoidal(FormThread& out) {
        out.form = "Tr";
        const std::size_t start = at_;
        const std::optional<double> diameter = decimal();
        if (!diameter || !(*diameter > 0.0)) {
            return fail(start, "a diameter follows Tr, such as Tr40x7");
        }
        if (!times()) {
            return fail(at_, "a pitch follows the diameter, such as Tr40x7");
        }
        const std::size_t lead_at = at_;
        const std::optional<double> lead = decimal();
        if (!lead || !(*lead > 0.0)) {
            return fail(lead_at, "a pitch or lead > 0 follows the x, such as Tr40x7");
        }
        out.diameter = *diameter;
        out.size = trimmed(*diameter, 3);
        out.pitch = *lead;
        const bool bracket = sign({"("});
        if (take("p")) {
            const std::size_t pitch_at = at_;
            const std::optional<double> pitch = decimal();
            if (!pitch || !(*pitch > 0.0) || !whole_starts(*lead, *pitch, out)) {
                return fail(pitch_at, fmt::format("the lead {:g} must be a whole number of pitches, 1 to {}",
                                                  *lead, kMostStarts));
            }
            out.pitch = *pitch;
        } else if (bracket) {
            return fail(at_, "a pitch stands in the brackets, such as Tr40x14(P7)");
        }
        if (bracket && !sign({")"})) {
            return fail(at_, "the bracket is not closed");
        }
        if (!(out.pitch < out.diameter)) {
            return fail(lead_at, fmt::format("the pitch {:g} must be less than the diameter {:g}", out.pitch,
                                             out.diameter));
        }
        hand(out);
        if (!dash()) {
            return true;
        }
        if (hand(out)) {
            return true;
        }
        do {
            const std::size_t class_at = at_;
            blanks();
            std::string name;
            while (is_digit(here()) || is_letter(here())) {
                name += text_[at_++];
            }
            if (std::find(kTrapezoidalClasses.begin(), kTrapezoidalClasses.end(), name) ==
                kTrapezoidalClasses.end()) {
                return fail(class_at, fmt::format("no class '{}': 7e, 8e, 9e, 7c, 8c, 9c; 7H, 8H, 9H", name));
            }
            std::string& place = name.back() == 'H' ? out.internal_class : out.external_class;
            if (!place.empty()) {
                return fail(class_at, "one class for each part, such as 7H/7e");
            }
            place = name;
        } while (sign({"/"}));
        return true;
    }

    static bool whole_starts(double lead, double pitch, FormThread& out) noexcept {
        const double starts = std::round(lead / pitch);
        if (!(starts >= 1.0 && starts <= kMostStarts) || std::abs(starts * pitch - lead) > 1e-4 * pitch) {
            return false;
        }
        out.starts = bounds::whole<int>(starts);
        return true;
    }

    bool hand(FormThread& out) noexcept {
        if (take("lh")) {
            out.left_hand = true;
            return true;
        }
        return false;
    }
    bool trailing_hand(FormThread& out) noexcept {
        const std::size_t before = at_;
        (void)dash();
        if (!hand(out)) {
            at_ = before;
        }
        return true;
    }

    /// The row of the series that a size is; none where it is no standard size.
    [[nodiscard]] const FormSeriesRow* series(std::string_view form, double diameter_called) const noexcept {
        for (const FormSeriesRow& row : catalogue_.form_series) {
            if (row.form == form && same_size(row.size, diameter_called)) {
                return &row;
            }
        }
        return nullptr;
    }
    [[nodiscard]] static bool same_size(std::string_view called, double value) noexcept {
        double whole = 0.0;
        double top = 0.0;
        double bottom = 1.0;
        const std::size_t slash = called.find('/');
        const std::size_t blank = called.find(' ');
        const auto number = [&](std::size_t from, std::size_t to) {
            double out = 0.0;
            std::from_chars(called.data() + from, called.data() + to, out);
            return out;
        };
        if (slash == std::string_view::npos) {
            whole = number(0, called.size());
        } else {
            const std::size_t top_at = blank == std::string_view::npos ? 0 : blank + 1;
            whole = blank == std::string_view::npos ? 0.0 : number(0, blank);
            top = number(top_at, slash);
            bottom = number(slash + 1, called.size());
        }
        return std::abs(whole + top / bottom - value) < 1e-6;
    }

    bool no_size(const FormThread& out, std::string_view form, bool taper) {
        std::string list;
        const auto add = [&](std::string_view size) {
            list += list.empty() ? "" : ", ";
            list += size;
        };
        if (taper) {
            for (const TaperPipeRow& row : catalogue_.taper_pipe) {
                if (row.form == form) {
                    add(row.size);
                }
            }
        } else {
            for (const FormSeriesRow& row : catalogue_.form_series) {
                if (row.form == form) {
                    add(row.size);
                }
            }
        }
        return fail(start_, fmt::format("no size {:g} of {}; the sizes are {}", out.diameter, form, list),
                    StatusCode::not_tabulated);
    }

    bool parallel_pipe(FormThread& out) {
        const FormSeriesRow* const row = series("G", out.diameter);
        if (row == nullptr) {
            return no_size(out, "G", false);
        }
        out.size = row->size;
        out.diameter = row->diameter;
        out.tpi = row->tpi;
        out.pitch = kInchMm / row->tpi;
        const std::size_t before = at_;
        (void)dash();
        if (take("a")) {
            out.external_class = 'A';
        } else if (take("b")) {
            out.external_class = 'B';
        } else {
            at_ = before;
        }
        return true;
    }

    bool taper(FormThread& out) {
        const TaperPipeRow* found = nullptr;
        for (const TaperPipeRow& row : catalogue_.taper_pipe) {
            if (row.form == out.form && same_size(row.size, out.diameter)) {
                found = &row;
            }
        }
        if (found == nullptr) {
            return no_size(out, out.form, true);
        }
        if (out.tpi != 0.0 && std::abs(out.tpi - found->tpi) > 1e-6) {
            return fail(start_,
                        fmt::format("{} {} has {:g} threads per inch, got {:g}", out.form, found->size,
                                    found->tpi, out.tpi),
                        StatusCode::inconsistent);
        }
        out.size = found->size;
        out.diameter = found->diameter;
        out.tpi = found->tpi;
        out.inch = out.form == "NPT";
        out.pitch = (out.inch ? 1.0 : kInchMm) / found->tpi;
        return true;
    }

    bool inch_form(FormThread& out) {
        if (!size(out)) {
            return false;
        }
        const double called = out.diameter;
        (void)sign({"in", "\""});
        std::optional<double> pitch;
        std::optional<double> tpi;
        if (dash()) {
            const std::size_t number_at = at_;
            const std::optional<double> number = decimal();
            if (!number || !(*number > 0.0)) {
                return fail(number_at, fmt::format("threads per inch follow the dash; {}", kWays));
            }
            if (take("p")) {
                pitch = number;
                const std::size_t lead_at = at_;
                const std::optional<double> lead = dash() ? decimal() : std::nullopt;
                if (!lead || !take("l") || !whole_starts(*lead, *pitch, out)) {
                    return fail(lead_at,
                                "a lead of whole pitches follows the pitch, such as 1-0.2P-0.4L Acme");
                }
            } else {
                tpi = number;
            }
        }
        (void)dash();
        if (!keyword(out)) {
            return false;
        }
        if (out.form == "NPT") {
            out.tpi = tpi.value_or(0.0);
            return !pitch ? taper(out)
                          : fail(start_, "a taper pipe thread is called by its size, such as 1/2-14 NPT");
        }
        out.inch = true;
        const FormSeriesRow* const row = series(out.form, called);
        if (!pitch && !tpi) {
            if (row == nullptr) {
                return no_size(out, out.form, false);
            }
            tpi = row->tpi;
        }
        out.tpi = tpi.value_or(0.0);
        out.pitch = tpi ? 1.0 / *tpi : *pitch;
        if (pitch && out.starts == 1) {
            out.tpi = 1.0 / *pitch;
        }
        out.size = row != nullptr ? std::string(row->size) : trimmed(called, 4);
        if (!(out.pitch < out.diameter)) {
            return fail(start_, fmt::format("the pitch {:g} in must be less than the diameter {:g} in",
                                            out.pitch, out.diameter));
        }
        return classes(out);
    }

    bool keyword(FormThread& out) {
        struct Word {
            std::string_view text;
            std::string_view form;
        };
        static constexpr std::array<Word, 6> kWords{{{"stub acme", "Stub Acme"},
                                                     {"stubacme", "Stub Acme"},
                                                     {"acme", "Acme"},
                                                     {"npt", "NPT"},
                                                     {"bsw", "BSW"},
                                                     {"bsf", "BSF"}}};
        for (const Word& word : kWords) {
            if (take(word.text)) {
                out.form = word.form;
                return true;
            }
        }
        return fail(at_, fmt::format("no thread form found; {}", kWays));
    }

    bool classes(FormThread& out) {
        const std::size_t before = at_;
        const bool dashed = dash();
        const bool bracket = !dashed && sign({"("});
        const std::size_t class_at = at_;
        if (out.form == "BSW" || out.form == "BSF") {
            for (const WhitworthClassRow& row : catalogue_.whitworth_classes) {
                if (take(row.name)) {
                    out.external_class = out.internal_class = row.name;
                    return !bracket || sign({")"}) || fail(at_, "the bracket is not closed");
                }
            }
        } else if (!bracket) {
            for (const AcmeClassRow& row : catalogue_.acme_classes) {
                if (row.form == out.form && take(lowered(row.name))) {
                    out.external_class = out.internal_class = row.name;
                    return true;
                }
            }
        }
        if (dashed && !bracket) {
            const std::size_t hand_at = at_;
            FormThread probe = out;
            if (hand(probe)) {
                at_ = before;
                return true;
            }
            at_ = hand_at;
        }
        if (dashed || bracket) {
            return fail(class_at, fmt::format("no such class of {}; it has {}", out.form, class_names(out)));
        }
        at_ = before;
        return true;
    }
    [[nodiscard]] std::string class_names(const FormThread& thread) const {
        std::string list;
        for (const std::string& name : form_classes(catalogue_, thread, Side::external)) {
            list += list.empty() ? "" : ", ";
            list += name;
        }
        return list;
    }

    bool end() {
        blanks();
        return at_ >= text_.size() ||
               fail(at_, fmt::format("'{}' is left over; {}", text_.substr(at_), kWays));
    }

    std::string_view text_;
    const Catalogue& catalogue_;
    std::size_t at_ = 0;
    std::size_t start_ = 0;
    std::optional<std::size_t> nought_at_;
    DesignationProblem problem_{{StatusCode::not_understood, 0}, 0, {}};
};

// Limits -------------------------------------------------------------------------------------------------

class Limiter {
   public:
    Limiter(const Catalogue& catalogue, const FormThread& thread, Side side, double engagement,
            FormLimits& out, std::string* why)
        : catalogue_(catalogue),
          thread_(thread),
          external_(side == Side::external),
          engagement_(engagement),
          out_(out),
          why_(why),
          row_(form_row(catalogue, thread)) {
        out_.side = side;
        out_.inch = thread.inch;
        out_.figures.fill(kNoLimit);
        const std::string& given = external_ ? thread.external_class : thread.internal_class;
        class_ = given.empty() ? usual_class(thread, side) : given;
        d_ = thread.diameter;
        p_ = thread.pitch;
        pitch_ = d_ - row_.pitch_drop * p_;
        minor_ = d_ - row_.minor_drop * p_;
        out_.evidence.note(kEverySize, rule::form_basic, row_ref(catalogue.thread_forms, row_));
    }

    Status answer() {
        if (thread_.parallel_internal()) {
            return parallel_in_taper();
        }
        if (row_.taper > 0.0) {
            return taper();
        }
        if (thread_.form == "Tr") {
            return trapezoidal();
        }
        if (thread_.form == "G") {
            return pipe();
        }
        if (thread_.form == "BSW" || thread_.form == "BSF") {
            return whitworth();
        }
        return acme();
    }

   private:
    Status refuse(std::string why) {
        if (why_ != nullptr) {
            *why_ = std::move(why);
        }
        out_.figures.fill(kNoLimit);
        return {StatusCode::not_tabulated, 0};
    }
    void set(std::size_t figure, double size) {
        constexpr double kRepresented = 1e-6;  // a half that a binary number falls just short of
        const double places = std::floor(size * (out_.inch ? 1e4 : 1e3) + 0.5 + kRepresented);
        constexpr double kMost = 2e9;
        out_.figures[figure] = places > 0.0 && places < kMost ? bounds::whole<std::int32_t>(places) : kNoSize;
    }
    /// A figure of an inch print, to four places, a half going to the even one.
    static double four_places(double inch) noexcept {
        constexpr double kPlaces = 1e4;
        constexpr double kHalf = 1e-6;  // how near a binary number comes to a half
        const double places = inch * kPlaces;
        const double below = std::floor(places);
        const double rest = places - below;
        if (std::abs(rest - 0.5) < kHalf) {
            return (std::fmod(below, 2.0) == 0.0 ? below : below + 1.0) / kPlaces;
        }
        return (rest < 0.5 ? below : below + 1.0) / kPlaces;
    }
    template <class Row>
    void note(RuleId rule, Rows<Row> table, const Row& row, std::uint8_t source = 0) {
        out_.evidence.note(kPitchFigure, rule, row_ref(table, row, source));
    }

    const TaperPipeRow* taper_row() const {
        for (const TaperPipeRow& each : catalogue_.taper_pipe) {
            if (each.form == thread_.form && each.size == thread_.size) {
                return &each;
            }
        }
        return nullptr;
    }

    /// A taper thread is gauged, not measured: say by what.
    Status taper() {
        const TaperPipeRow* const row = taper_row();
        if (row == nullptr) {
            return refuse(fmt::format("no pipe thread of size {}", thread_.size));
        }
        const double turns = external_ ? row->tolerance_turns : row->internal_turns;
        return refuse(fmt::format(
            "{} is a taper thread: its standard sets a gauge plane and turns, no limits of size; "
            "gauge it by a taper {} of its standard, its gauging notch or step within {:g} turn{}, {:.2f} "
            "mm, "
            "of the {}; see taper_pipe",
            format_form_thread(thread_), external_ ? "ring" : "plug", turns, turns == 1.0 ? "" : "s",
            turns * thread_.pitch_mm(), external_ ? "end of the pipe" : "mouth"));
    }

    Status parallel_in_taper() {
        if (external_) {
            return refuse(fmt::format("{} is an internal thread; the taper thread R{} goes into it",
                                      format_form_thread(thread_), thread_.size));
        }
        const TaperPipeRow* const row = taper_row();
        if (row == nullptr) {
            return refuse(fmt::format("no pipe thread of size {}", thread_.size));
        }
        note(rule::pipe_parallel_in_taper, catalogue_.taper_pipe, *row);
        const double t = row->internal_turns * p_ * row_.taper;
        out_.pitch_tolerance = 2.0 * t;
        set(kMajorMin, d_ - t);
        set(kPitchMax, pitch_ + t);
        set(kPitchMin, pitch_ - t);
        set(kMinorMax, minor_ + t);
        set(kMinorMin, minor_ - t);
        return {};
    }

    Status trapezoidal() {
        const TrapezoidalPitchRow* at_pitch = nullptr;
        std::string pitches;
        for (const TrapezoidalPitchRow& row : catalogue_.trapezoidal_pitches) {
            pitches += fmt::format("{}{:g}", pitches.empty() ? "" : ", ", row.pitch_mm);
            if (std::abs(row.pitch_mm - p_) < 1e-9) {
                at_pitch = &row;
            }
        }
        if (at_pitch == nullptr) {
            return refuse(fmt::format("no tolerances for a pitch of {:g} mm; tabulated: {}", p_, pitches));
        }
        const TrapezoidalToleranceRow* tolerance = nullptr;
        std::string ranges;
        for (const TrapezoidalToleranceRow& row : catalogue_.trapezoidal_tolerances) {
            if (std::abs(row.pitch_mm - p_) < 1e-9) {
                ranges +=
                    fmt::format("{}over {:g} to {:g}", ranges.empty() ? "" : ", ", row.over_mm, row.to_mm);
                if (d_ > row.over_mm && d_ <= row.to_mm) {
                    tolerance = &row;
                }
            }
        }
        if (tolerance == nullptr) {
            return refuse(fmt::format("no pitch tolerance for Tr{:g}x{:g}; this pitch is tabulated {} mm", d_,
                                      p_, ranges));
        }
        const int grade = class_[0] - '0';
        const auto pick = [&](double seven, double eight, double nine) {
            return grade == 7 ? seven : grade == 8 ? eight : nine;
        };
        static constexpr std::array<double, 5> kStarts{1.0, 1.12, 1.25, 1.4, 1.6};
        const double factor = kStarts[static_cast<std::size_t>(std::min(thread_.starts, 5) - 1)];
        const double um =
            factor *
            (external_ ? pick(tolerance->external_7_um, tolerance->external_8_um, tolerance->external_9_um)
                       : pick(tolerance->internal_7_um, tolerance->internal_8_um, tolerance->internal_9_um));
        const double t2 = std::round(um) / 1000.0;
        const double clearance = at_pitch->crest_clearance_mm;
        constexpr std::uint8_t kSevenSource = source_place<TrapezoidalToleranceRow>("external_7_source");
        constexpr std::uint8_t kOtherSource = source_place<TrapezoidalToleranceRow>("source");
        note(external_ ? rule::trapezoidal_external : rule::trapezoidal_internal,
             catalogue_.trapezoidal_tolerances, *tolerance,
             external_ && grade == 7 ? kSevenSource : kOtherSource);
        if (thread_.starts > 1) {
            out_.evidence.note(kPitchFigure, rule::trapezoidal_starts);
        }
        const auto note_pitch = [&](RuleId rule, std::uint8_t source) {
            note(rule, catalogue_.trapezoidal_pitches, *at_pitch, source);
        };
        note_pitch(rule::form_basic, source_place<TrapezoidalPitchRow>("clearance_source"));
        out_.pitch_tolerance = t2;
        if (external_) {
            const bool e = class_.back() == 'e';
            const double es = (e ? at_pitch->es_e_um : at_pitch->es_c_um) / 1000.0;
            note_pitch(rule::trapezoidal_external, e ? source_place<TrapezoidalPitchRow>("e_source")
                                                     : source_place<TrapezoidalPitchRow>("c_source"));
            note_pitch(rule::trapezoidal_external, source_place<TrapezoidalPitchRow>("major_source"));
            out_.allowance = -es;
            set(kMajorMax, d_);
            set(kMajorMin, d_ - at_pitch->major_tolerance_um / 1000.0);
            set(kPitchMax, pitch_ + es);
            set(kPitchMin, pitch_ + es - t2);
            set(kMinorMax, minor_ - 2.0 * clearance);
            // print rounds this tolerance by itself, halves to even: 212.5 is 212, 237.5 is 238
            set(kMinorMin, minor_ - 2.0 * clearance - std::nearbyint(1.25 * std::round(um)) / 1000.0 + es);
            return {};
        }
        note_pitch(rule::trapezoidal_internal, source_place<TrapezoidalPitchRow>("minor_source"));
        set(kMajorMin, d_ + 2.0 * clearance);
        set(kPitchMax, pitch_ + t2);
        set(kPitchMin, pitch_);
        set(kMinorMax, minor_ + at_pitch->minor_tolerance_um / 1000.0);
        set(kMinorMin, minor_);
        return {};
    }

    Status acme() {
        const AcmeClassRow* row = nullptr;
        for (const AcmeClassRow& each : catalogue_.acme_classes) {
            if (each.form == thread_.form && each.name == class_) {
                row = &each;
            }
        }
        if (row == nullptr) {
            return refuse(fmt::format("{} has no class {}", thread_.form, class_));
        }
        constexpr double kCoarsestPitch = 0.1;  // 10 threads per inch
        const double clearance = p_ >= kCoarsestPitch - 1e-9 ? 0.020 : 0.010;
        const double root_d = std::sqrt(d_);
        const double tolerance = row->tolerance_d * root_d + row->tolerance_p * std::sqrt(p_);
        note(external_ ? rule::acme_external : rule::acme_internal, catalogue_.acme_classes, *row,
             source_place<AcmeClassRow>("source"));
        note(rule::acme_external, catalogue_.acme_classes, *row,
             source_place<AcmeClassRow>("allowance_source"));
        // print forms the pitch diameters of figures of four places, and the others of unrounded tolerances
        const auto print = [&](std::size_t figure, double size) { set(figure, four_places(size)); };
        const double pitch = four_places(pitch_);
        out_.evidence.note(kEverySize, rule::acme_rounding);
        out_.pitch_tolerance = four_places(tolerance);
        const bool centralizing = !std::isnan(row->external_major_d);
        if (external_) {
            out_.allowance = four_places(row->allowance_d * root_d);
            const double major = centralizing ? row->external_major_d * root_d : std::max(0.05 * p_, 0.005);
            const double root = four_places(minor_ - clearance);
            print(kMajorMax, d_);
            print(kMajorMin, d_ - major);
            print(kPitchMax, pitch - out_.allowance);
            print(kPitchMin, pitch - out_.allowance - out_.pitch_tolerance);
            print(kMinorMax, root);
            print(kMinorMin, root - 1.5 * tolerance);
            return {};
        }
        const double least = centralizing ? row->internal_major_min_d * root_d : clearance;
        const double more = centralizing ? row->internal_major_d * root_d : clearance;
        const double minor = four_places(centralizing ? d_ - 0.9 * p_ : minor_);
        print(kMajorMax, d_ + least + more);
        print(kMajorMin, d_ + least);
        print(kPitchMax, pitch + out_.pitch_tolerance);
        print(kPitchMin, pitch);
        print(kMinorMax, minor + 0.05 * p_);
        print(kMinorMin, minor);
        return {};
    }

    Status pipe() {
        for (const PipeToleranceRow& row : catalogue_.pipe_tolerances) {
            if (!(d_ > row.over_mm && d_ <= row.to_mm)) {
                continue;
            }
            note(rule::pipe_parallel, catalogue_.pipe_tolerances, row);
            const double t = row.pitch_diameter_um / 1000.0;
            out_.pitch_tolerance = external_ && class_ == "B" ? 2.0 * t : t;
            set(kMajorMin, external_ ? d_ - 2.0 * t : d_);
            set(kPitchMax, external_ ? pitch_ : pitch_ + t);
            set(kPitchMin, external_ ? pitch_ - out_.pitch_tolerance : pitch_);
            if (external_) {
                set(kMajorMax, d_);
                set(kMinorMax, minor_);
            } else {
                set(kMinorMin, minor_);
                set(kMinorMax, minor_ + row.minor_um / 1000.0);
            }
            return {};
        }
        return refuse(fmt::format("no tolerances for a major diameter of {:g} mm", d_));
    }

    Status whitworth() {
        const WhitworthClassRow* row = nullptr;
        for (const WhitworthClassRow& each : catalogue_.whitworth_classes) {
            if (each.name == class_) {
                row = &each;
            }
        }
        if (row == nullptr) {
            return refuse(fmt::format("Whitworth threads have no class {}", class_));
        }
        const auto tolerance = [&](double d, double p) {
            const double length = std::isnan(engagement_) ? d : engagement_;
            return 0.002 * std::cbrt(d) + 0.003 * std::sqrt(length) + 0.005 * std::sqrt(p);
        };
        const double root_p = std::sqrt(p_);
        const double t = row->factor * tolerance(d_, p_);
        note(rule::whitworth_tolerance, catalogue_.whitworth_classes, *row);
        out_.evidence.note(kEverySize, rule::whitworth_limits);
        out_.pitch_tolerance = t;
        if (external_) {
            // below 1/4 in that of the series' 1/4 in size, above 3/4 in none
            constexpr double kLeast = 0.25;
            constexpr double kMost = 0.75;
            constexpr double kCoarse = 20.0;
            constexpr double kFine = 26.0;
            const bool small = d_ < kLeast - 1e-9;
            const double of_p = !small ? p_ : 1.0 / (thread_.form == "BSW" ? kCoarse : kFine);
            out_.allowance = d_ > kMost + 1e-9 ? 0.0 : row->allowance * tolerance(small ? kLeast : d_, of_p);
            const double a = out_.allowance;
            out_.evidence.note(kPitchFigure, rule::whitworth_allowance);
            set(kMajorMax, d_ - a);
            set(kMajorMin, d_ - a - t - 0.01 * root_p);
            set(kPitchMax, pitch_ - a);
            set(kPitchMin, pitch_ - a - t);
            set(kMinorMax, minor_ - a);
            set(kMinorMin, minor_ - a - t - row->minor_p * root_p);
            return {};
        }
        const double tpi = 1.0 / p_;
        const double more = tpi > 25.0 ? 0.004 : tpi > 21.0 ? 0.005 : 0.007;
        set(kMajorMin, d_);
        set(kPitchMax, pitch_ + t);
        set(kPitchMin, pitch_);
        set(kMinorMax, minor_ + 0.2 * p_ + more);
        set(kMinorMin, minor_);
        return {};
    }

    const Catalogue& catalogue_;
    const FormThread& thread_;
    bool external_;
    double engagement_;
    FormLimits& out_;
    std::string* why_;
    const ThreadFormRow& row_;
    std::string class_;
    double d_ = 0.0;
    double p_ = 0.0;
    double pitch_ = 0.0;
    double minor_ = 0.0;
};

}  // namespace

bool is_form_designation(std::string_view text) noexcept {
    std::string_view rest = text;
    while (!rest.empty() && (rest.front() == ' ' || rest.front() == '\t')) {
        rest.remove_prefix(1);
    }
    const auto starts = [&](std::string_view word) {
        if (rest.size() <= word.size()) {
            return false;
        }
        for (std::size_t i = 0; i < word.size(); ++i) {
            if (lower(rest[i]) != word[i]) {
                return false;
            }
        }
        std::size_t next = word.size();
        while (next < rest.size() && rest[next] == ' ') {
            ++next;
        }
        return next < rest.size() && (is_digit(rest[next]) || rest[next] == '.');
    };
    for (const std::string_view word : {"tr", "g", "r", "rc", "rp", "npt"}) {
        if (starts(word)) {
            return true;
        }
    }
    for (const std::string_view word : {"acme", "npt", "bsw", "bsf"}) {
        for (std::size_t i = 0; i + word.size() <= rest.size(); ++i) {
            bool same = true;
            for (std::size_t k = 0; k < word.size() && same; ++k) {
                same = lower(rest[i + k]) == word[k];
            }
            if (same) {
                return true;
            }
        }
    }
    return false;
}

Status read_form_thread(std::string_view text, const Catalogue& catalogue, FormThread& out,
                        DesignationProblem* problem) {
    out = {};
    if (text.size() > bounds::kDesignationBytes) {
        if (problem != nullptr) {
            *problem = {{StatusCode::not_understood, 0},
                        0,
                        bounds::too_long("thread", text, bounds::kDesignationBytes)};
        }
        return {StatusCode::not_understood, 0};
    }
    Reader reader(text, catalogue);
    const Status status = reader.read(out);
    if (!status.ok()) {
        out = {};
        if (problem != nullptr) {
            *problem = std::move(reader).problem();
        }
    }
    return status;
}

FormThread parse_form_thread(std::string_view text, const Catalogue& catalogue) {
    FormThread out;
    DesignationProblem problem;
    const Status status = read_form_thread(text, catalogue, out, &problem);
    if (status.code == StatusCode::not_tabulated) {
        throw NotTabulatedError(problem.message);
    }
    if (!status.ok()) {
        throw DesignationError(fmt::format("cannot read '{}' at position {}: {}", bounds::shown(text),
                                           problem.position + 1, problem.message),
                               problem.position);
    }
    return out;
}

std::string format_form_thread(const FormThread& thread) {
    const std::string hand = thread.left_hand ? "LH" : "";
    if (thread.form == "Tr") {
        const std::string lead =
            thread.starts == 1
                ? trimmed(thread.pitch, 3)
                : fmt::format("{}(P{})", trimmed(thread.starts * thread.pitch, 3), trimmed(thread.pitch, 3));
        std::string classes = thread.internal_class;
        classes += !classes.empty() && !thread.external_class.empty() ? "/" : "";
        classes += thread.external_class;
        return fmt::format("Tr{}x{}{}{}{}", thread.size, lead, hand, classes.empty() ? "" : "-", classes);
    }
    const std::string left = thread.left_hand ? "-LH" : "";
    if (thread.form == "G") {
        return fmt::format("G{}{}{}{}", thread.size, thread.external_class.empty() ? "" : " ",
                           thread.external_class, left);
    }
    if (thread.form == "R") {
        return thread.prefix + thread.size + left;
    }
    if (thread.form == "NPT") {
        return fmt::format("{}-{} NPT{}", thread.size, trimmed(thread.tpi, 3), left);
    }
    const std::string pitch = thread.starts == 1 ? trimmed(thread.tpi, 4)
                                                 : fmt::format("{}P-{}L", trimmed(thread.pitch, 6),
                                                               trimmed(thread.starts * thread.pitch, 6));
    const std::string& name = thread.external_class.empty() ? thread.internal_class : thread.external_class;
    return fmt::format("{}-{} {}{}{}{}", thread.size, pitch, thread.form, name.empty() ? "" : "-", name,
                       left);
}

const ThreadFormRow& form_row(const Catalogue& catalogue, const FormThread& thread) {
    for (const ThreadFormRow& row : catalogue.thread_forms) {
        if (row.form == thread.form) {
            return row;
        }
    }
    throw NotTabulatedError(fmt::format("no thread form '{}'", thread.form));
}

bool in_series(const Catalogue& catalogue, const FormThread& thread) noexcept {
    constexpr double kAlike = 1e-6;
    const auto alike = [](double a, double b) { return std::abs(a - b) <= kAlike * b; };
    for (const FormSeriesRow& row : catalogue.form_series) {
        const double pitch = std::isnan(row.tpi) ? row.pitch_mm : (thread.inch ? 1.0 : kInchMm) / row.tpi;
        if (row.form == thread.form && alike(row.diameter, thread.diameter) && alike(pitch, thread.pitch)) {
            return true;
        }
    }
    return false;
}

double basic_pitch_diameter_mm(const Catalogue& catalogue, const FormThread& thread) {
    return (thread.diameter - form_row(catalogue, thread).pitch_drop * thread.pitch) * thread.scale();
}

double basic_minor_diameter_mm(const Catalogue& catalogue, const FormThread& thread) {
    return (thread.diameter - form_row(catalogue, thread).minor_drop * thread.pitch) * thread.scale();
}

std::string usual_class(const FormThread& thread, Side side) {
    const bool external = side == Side::external;
    if (thread.form == "Tr") {
        return external ? "7e" : "7H";
    }
    if (thread.form == "G") {
        return external ? "A" : "";
    }
    if (thread.form == "BSW" || thread.form == "BSF") {
        return "medium";
    }
    return thread.form == "Acme" || thread.form == "Stub Acme" ? "2G" : "";
}

std::vector<std::string> form_classes(const Catalogue& catalogue, const FormThread& thread, Side side) {
    std::vector<std::string> out;
    if (thread.form == "Tr") {
        for (const std::string_view name : kTrapezoidalClasses) {
            if ((name.back() == 'H') == (side == Side::internal)) {
                out.emplace_back(name);
            }
        }
    } else if (thread.form == "G" && side == Side::external) {
        out = {"A", "B"};
    } else if (thread.form == "BSW" || thread.form == "BSF") {
        for (const WhitworthClassRow& row : catalogue.whitworth_classes) {
            out.emplace_back(row.name);
        }
    } else {
        for (const AcmeClassRow& row : catalogue.acme_classes) {
            if (row.form == thread.form) {
                out.emplace_back(row.name);
            }
        }
    }
    return out;
}

FormThread form_part(const FormThread& thread, Side side) {
    FormThread out = thread;
    const bool external = side == Side::external;
    std::string& own = external ? out.external_class : out.internal_class;
    own = own.empty() ? usual_class(thread, side) : own;
    (external ? out.internal_class : out.external_class).clear();
    return out;
}

Status evaluate(const Catalogue& catalogue, const FormThread& thread, Side side, double engagement,
                FormLimits& out, std::string* why) {
    out = {};
    constexpr Argument kEngagement = positive("engagement");
    if (!std::isnan(engagement)) {
        const StatusCode code = check(kEngagement, engagement);
        if (code != StatusCode::ok) {
            if (why != nullptr) {
                *why = argument_message(kEngagement, engagement);
            }
            out.figures.fill(kNoLimit);
            return {code, 0};
        }
    }
    const Status status = Limiter(catalogue, thread, side, engagement, out, why).answer();
    const auto* const none = std::find(out.figures.begin(), out.figures.end(), kNoSize);
    if (status.ok() && none != out.figures.end()) {
        if (why != nullptr) {
            const auto figure = static_cast<std::size_t>(none - out.figures.begin());
            *why = fmt::format(
                "the tolerances of {} leave no {}: its size, pitch and engagement do not go together",
                format_form_thread(thread), kFormFigures[figure]);
        }
        out.figures.fill(kNoLimit);
        return {StatusCode::out_of_range, 0};
    }
    return status;
}

FormLimits form_limits(const Catalogue& catalogue, const FormThread& thread, Side side, double engagement) {
    return or_throw<FormLimits>([&](FormLimits& out, std::string* why) {
        return evaluate(catalogue, thread, side, engagement, out, why);
    });
}

TaperPipe taper_pipe(const Catalogue& catalogue, const FormThread& thread) {
    const TaperPipeRow* row = nullptr;
    for (const TaperPipeRow& each : catalogue.taper_pipe) {
        if (!thread.parallel_internal() && each.form == thread.form && each.size == thread.size) {
            row = &each;
        }
    }
    if (row == nullptr) {
        throw NotTabulatedError(
            fmt::format("{} is no taper pipe thread; NPT, R and Rc are", format_form_thread(thread)));
    }
    const ThreadFormRow& form = form_row(catalogue, thread);
    const double p = thread.pitch;
    const double t = form.taper;
    const double l1 = row->hand_engagement;
    const bool npt = thread.form == "NPT";
    const double d = row->diameter;
    // 1:16 on the diameter; the pitch diameter falls from the gauge plane to the small end
    const double e0 = npt ? d - (0.05 * d + 1.1) * p : d - form.pitch_drop * p - t * l1;
    const double e1 = e0 + t * l1;
    const double l2 = npt ? (0.80 * d + 6.8) * p : kNaN;
    const double l3 = row->wrench_turns * p;
    const double h = npt ? 0.8 * p : form.pitch_drop * p;
    constexpr double kVanish = 3.47;
    const double half_taper = std::atan(0.5 * t) / detail::kFormDegree;
    const double unit = thread.scale();
    TaperPipe out;
    out.figures = {e0 * unit,
                   e1 * unit,
                   (e0 + t * l2) * unit,
                   (e0 - t * l3) * unit,
                   l1 * unit,
                   l2 * unit,
                   l3 * unit,
                   (l2 + kVanish * p) * unit,
                   (l2 - 2.0 * p) * unit,
                   h * unit,
                   l1 / p,
                   thread.prefix == "Rc" ? row->internal_turns : row->tolerance_turns,
                   (e1 - h) * unit,
                   (e0 - (std::isnan(l3) ? 0.0 : t * l3) - h) * unit,
                   half_taper,
                   t};
    const RowRef ref = row_ref(catalogue.taper_pipe, *row);
    out.evidence.note(figure_index(kTaperPipeFigures, "pitch_small_end_mm"),
                      npt ? rule::npt_basic : rule::taper_pipe_whitworth, ref);
    out.evidence.note(figure_index(kTaperPipeFigures, "tolerance_turns"),
                      npt ? rule::npt_gauge : rule::taper_pipe_whitworth);
    out.evidence.note(figure_index(kTaperPipeFigures, "hole_at_end_mm"), rule::taper_hole);
    return out;
}

}  // namespace halfnut::threads
