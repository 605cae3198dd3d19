#include "halfnut/threads/forms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <optional>

#include "halfnut/bounds.hpp"
#include "halfnut/quantity.hpp"

namespace halfnut::threads {
namespace {

constexpr int kMostStarts = 100;

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
            out.form = 'G';
            return size(out) && parallel_pipe(out);
        }
        for (const std::string_view prefix : {"Rc", "Rp", "R"}) {
            if (take(lowered(prefix))) {
                out.form = 'R';
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

}  // namespace halfnut::threads
