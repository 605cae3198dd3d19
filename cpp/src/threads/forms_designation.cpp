#include "halfnut/threads/forms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/cursor.hpp"
#include "halfnut/core/nought.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/core/read_number.hpp"

namespace halfnut::threads {
namespace {

constexpr int kMostStarts = 100;

/// The words of a text with blanks between them.
std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        out.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

std::string_view last_word(std::string_view text) {
    return text.substr(text.rfind(' ') + 1);
}

/// A letter as a bit, whatever its case; none of anything else.
constexpr std::uint32_t letter_bit(char c) noexcept {
    return is_letter(c) ? std::uint32_t{1} << static_cast<unsigned>(lower(c) - 'a') : 0U;
}

constexpr std::array<std::string_view, 3> kIsoTaperPrefixes{"Rc", "Rp", "R"};

constexpr std::string_view kWays =
    "write \"Tr40x7-7e\", \"Tr40x14(P7)LH-7H\", \"1 1/2-4 Acme-2G\", \"G1/2 A\", \"1/2-14 NPT\", \"R1/2\" or "
    "\"1/4-20 BSW\"";

class Reader : public TextCursor {
   public:
    Reader(std::string_view text, const Catalogue& catalogue) : TextCursor(text), catalogue_(catalogue) {}

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
    bool fail(std::size_t position, std::string message, StatusCode code = StatusCode::not_understood) {
        problem_ = {{code, 0}, position, std::move(message)};
        return false;
    }
    /// A form's name in front of its size: no letter follows, for Tr is not the form of Trp40x7.
    bool take_name(std::string_view name) {
        const std::size_t before = at_;
        skip_blanks();
        if (!starts_word(name)) {
            at_ = before;
            return false;
        }
        at_ += name.size();
        return true;
    }
    /// Words one after another, with or without blanks between them.
    bool take_all(std::string_view words) {
        const std::size_t before = at_;
        for (const std::string_view word : words_of(words)) {
            if (!take(word)) {
                at_ = before;
                return false;
            }
        }
        return true;
    }

    std::optional<double> decimal() {
        skip_blanks();
        const char* const first = text_.data() + at_;
        const char* const last = text_.data() + text_.size();
        const char* stop = first;
        while (stop != last && (is_digit(*stop) || *stop == '.')) {
            ++stop;
        }
        if (leading_nought({first, static_cast<std::size_t>(stop - first)})) {
            if (!nought_at_) {
                nought_at_ = at_;
            }
            return std::nullopt;  // 016 is no 16: a nought in front may be a point lost, or another size
        }
        double value = 0.0;
        const auto [reached, error] = read_number(first, stop, value, false);
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
        if (peek() == '/') {
            return over(0.0, *first);
        }
        const std::size_t before = at_;
        if (peek() == ' ' || peek() == '-') {
            ++at_;
            if (is_digit(peek())) {
                const std::optional<double> top = decimal();
                if (top && peek() == '/') {
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
        for (const ThreadFormRow& row : catalogue_.thread_forms) {
            if (row.rule == FormRule::iso_taper_pipe) {
                for (const std::string_view prefix : kIsoTaperPrefixes) {
                    if (take_name(prefix)) {
                        out.become(row);
                        out.prefix = prefix;
                        return size(out) && taper(out);
                    }
                }
            } else if ((row.written != FormStyle::inch || row.taper > 0.0) && take_name(row.form)) {
                out.become(row);
                return row.written == FormStyle::lead ? diameter_and_lead(out)
                       : row.taper > 0.0              ? size(out) && taper(out)
                                                      : size(out) && prefixed(out);
            }
        }
        return inch_form(out);
    }

    bool size(FormThread& out) {
        skip_blanks();
        start_ = at_;
        const std::optional<double> found = mixed();
        if (!found || !(*found > 0.0)) {
            return fail(start_, fmt::format("no size found; {}", kWays));
        }
        out.diameter = *found;
        return true;
    }

    bool diameter_and_lead(FormThread& out) {
        const std::size_t start = at_;
        const std::optional<double> diameter = decimal();
        if (!diameter || !(*diameter > 0.0)) {
            return fail(start, fmt::format("a diameter follows {0}, such as {0}40x7", out.form));
        }
        if (!accept_times()) {
            return fail(at_, fmt::format("a pitch follows the diameter, such as {}40x7", out.form));
        }
        const std::size_t lead_at = at_;
        const std::optional<double> lead = decimal();
        if (!lead || !(*lead > 0.0)) {
            return fail(lead_at, fmt::format("a pitch or lead > 0 follows the x, such as {}40x7", out.form));
        }
        out.diameter = *diameter;
        out.size = trimmed(*diameter, 3);
        out.pitch = *lead;
        const bool bracket = take("(");
        if (take("p")) {
            const std::size_t pitch_at = at_;
            const std::optional<double> pitch = decimal();
            if (!pitch || !(*pitch > 0.0) || !whole_starts(*lead, *pitch, out)) {
                return fail(pitch_at, fmt::format("the lead {:g} must be a whole number of pitches, 1 to {}",
                                                  *lead, kMostStarts));
            }
            out.pitch = *pitch;
        } else if (bracket) {
            return fail(at_, fmt::format("a pitch stands in the brackets, such as {}40x14(P7)", out.form));
        }
        if (bracket && !take(")")) {
            return fail(at_, "the bracket is not closed");
        }
        if (!(out.pitch < out.diameter)) {
            return fail(lead_at, fmt::format("the pitch {:g} must be less than the diameter {:g}", out.pitch,
                                             out.diameter));
        }
        hand(out);
        if (!accept_dash()) {
            return true;
        }
        if (hand(out)) {
            return true;
        }
        do {
            const std::size_t class_at = at_;
            skip_blanks();
            std::string name;
            while (is_digit(peek()) || is_letter(peek())) {
                name += text_[at_++];
            }
            const auto known = [&](Side side) {
                const std::vector<std::string> all = form_classes(catalogue_, out, side);
                return std::find(all.begin(), all.end(), name) != all.end();
            };
            const bool internal = known(Side::internal);
            if (!internal && !known(Side::external)) {
                return fail(class_at,
                            fmt::format("no class '{}': {}; {}", name, class_names(out, Side::external),
                                        class_names(out, Side::internal)));
            }
            std::string& place = internal ? out.internal_class : out.external_class;
            if (!place.empty()) {
                return fail(class_at, fmt::format("one class for each part, such as {}/{}",
                                                  out.usual_internal, out.usual_external));
            }
            place = name;
        } while (take("/"));
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
        (void)accept_dash();
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
            (void)read_number(called.data() + from, called.data() + to, out);
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

    bool prefixed(FormThread& out) {
        const FormSeriesRow* const row = series(out.form, out.diameter);
        if (row == nullptr) {
            return no_size(out, out.form, false);
        }
        out.size = row->size;
        out.diameter = row->diameter;
        out.tpi = row->tpi;
        out.pitch = (out.inch ? 1.0 : kInchMm) / row->tpi;
        const std::size_t before = at_;
        (void)accept_dash();
        for (const std::string& name : form_classes(catalogue_, out, Side::external)) {
            if (take(name)) {
                out.external_class = name;
                return true;
            }
        }
        at_ = before;
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
        out.pitch = (out.inch ? 1.0 : kInchMm) / found->tpi;
        return true;
    }

    bool inch_form(FormThread& out) {
        if (!size(out)) {
            return false;
        }
        const double called = out.diameter;
        if (!take("in")) {
            (void)take("\"");
        }
        std::optional<double> pitch;
        std::optional<double> tpi;
        if (accept_dash()) {
            const std::size_t number_at = at_;
            const std::optional<double> number = decimal();
            if (!number || !(*number > 0.0)) {
                return fail(number_at, fmt::format("threads per inch follow the dash; {}", kWays));
            }
            if (take("p")) {
                pitch = number;
                const std::size_t lead_at = at_;
                const std::optional<double> lead = accept_dash() ? decimal() : std::nullopt;
                if (!lead || !take("l") || !whole_starts(*lead, *pitch, out)) {
                    return fail(lead_at,
                                "a lead of whole pitches follows the pitch, such as 1-0.2P-0.4L Acme");
                }
            } else {
                tpi = number;
            }
        }
        (void)accept_dash();
        if (!keyword(out)) {
            return false;
        }
        if (out.tapers()) {
            out.tpi = tpi.value_or(0.0);
            return !pitch ? taper(out)
                          : fail(start_, "a taper pipe thread is called by its size, such as 1/2-14 NPT");
        }
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
        for (const ThreadFormRow& row : catalogue_.thread_forms) {
            if (row.written == FormStyle::inch && take_all(row.form)) {
                out.become(row);
                return true;
            }
        }
        return fail(at_, fmt::format("no thread form found; {}", kWays));
    }

    bool classes(FormThread& out) {
        const std::size_t before = at_;
        const bool dashed = accept_dash();
        const bool bracket = !dashed && take("(");
        const std::size_t class_at = at_;
        for (const std::string& name : form_classes(catalogue_, out, Side::external)) {
            if (take(name)) {
                out.external_class = out.internal_class = name;
                return !bracket || take(")") || fail(at_, "the bracket is not closed");
            }
        }
        if (dashed) {
            const std::size_t hand_at = at_;
            FormThread probe = out;
            if (hand(probe)) {
                at_ = before;
                return true;
            }
            at_ = hand_at;
        }
        if (dashed || bracket) {
            return fail(class_at, fmt::format("no such class of {}; it has {}", out.form,
                                              class_names(out, Side::external)));
        }
        at_ = before;
        return true;
    }
    [[nodiscard]] std::string class_names(const FormThread& thread, Side side) const {
        return fmt::format("{}", fmt::join(form_classes(catalogue_, thread, side), ", "));
    }

    bool end() {
        skip_blanks();
        return at_end() || fail(at_, fmt::format("'{}' is left over; {}", rest(), kWays));
    }

    const Catalogue& catalogue_;
    std::size_t start_ = 0;
    std::optional<std::size_t> nought_at_;
    DesignationProblem problem_{{StatusCode::not_understood, 0}, 0, {}};
};

}  // namespace

bool is_form_designation(std::string_view text, const Catalogue& catalogue) noexcept {
    std::string_view rest = text;
    const auto skip = [&rest] {
        while (!rest.empty() && (rest.front() == ' ' || rest.front() == '\t')) {
            rest.remove_prefix(1);
        }
    };
    skip();
    const std::string_view whole = rest;
    std::uint32_t letters = 0;
    for (const char c : whole) {
        letters |= letter_bit(c);
    }
    const auto has = [&](std::string_view word) {
        if ((letters & letter_bit(word.front())) == 0U) {  // as of most threads and forms
            return false;
        }
        return std::search(whole.begin(), whole.end(), word.begin(), word.end(),
                           [](char one, char other) { return lower(one) == lower(other); }) != whole.end();
    };
    const auto leads = [&](std::string_view word) {
        if (!begins_with(whole, word)) {
            return false;
        }
        rest = whole.substr(word.size());
        skip();
        return !rest.empty() && (is_digit(rest.front()) || rest.front() == '.');
    };
    return std::any_of(catalogue.thread_forms.begin(), catalogue.thread_forms.end(),
                       [&](const ThreadFormRow& row) {
                           if (row.rule == FormRule::iso_taper_pipe) {
                               return std::any_of(kIsoTaperPrefixes.begin(), kIsoTaperPrefixes.end(), leads);
                           }
                           if ((row.written != FormStyle::inch || row.taper > 0.0) && leads(row.form)) {
                               return true;
                           }
                           return row.written == FormStyle::inch && has(last_word(row.form));
                       });
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
    if (thread.written == FormStyle::lead) {
        const std::string lead =
            thread.starts == 1
                ? trimmed(thread.pitch, 3)
                : fmt::format("{}(P{})", trimmed(thread.starts * thread.pitch, 3), trimmed(thread.pitch, 3));
        std::string classes = thread.internal_class;
        classes += !classes.empty() && !thread.external_class.empty() ? "/" : "";
        classes += thread.external_class;
        return fmt::format("{}{}x{}{}{}{}", thread.form, thread.size, lead, thread.left_hand ? "LH" : "",
                           classes.empty() ? "" : "-", classes);
    }
    const std::string left = thread.left_hand ? "-LH" : "";
    if (thread.written == FormStyle::prefix) {
        return fmt::format("{}{}{}{}{}", thread.prefix.empty() ? thread.form : thread.prefix, thread.size,
                           thread.external_class.empty() ? "" : " ", thread.external_class, left);
    }
    const std::string pitch = thread.starts == 1 ? trimmed(thread.tpi, 4)
                                                 : fmt::format("{}P-{}L", trimmed(thread.pitch, 6),
                                                               trimmed(thread.starts * thread.pitch, 6));
    const std::string& name = thread.external_class.empty() ? thread.internal_class : thread.external_class;
    return fmt::format("{}-{} {}{}{}{}", thread.size, pitch, thread.form, name.empty() ? "" : "-", name,
                       left);
}

std::vector<std::string> form_classes(const Catalogue& catalogue, const FormThread& thread, Side side) {
    const auto row = std::find_if(catalogue.thread_forms.begin(), catalogue.thread_forms.end(),
                                  [&](const ThreadFormRow& each) { return each.form == thread.form; });
    std::vector<std::string> out;
    if (thread.rule == FormRule::whitworth) {
        for (const WhitworthClassRow& each : catalogue.whitworth_classes) {
            out.emplace_back(each.name);
        }
    } else if (thread.rule == FormRule::acme) {
        for (const AcmeClassRow& each : catalogue.acme_classes) {
            if (each.form == thread.form) {
                out.emplace_back(each.name);
            }
        }
    } else if (row != catalogue.thread_forms.end()) {
        for (const std::string_view name :
             words_of(side == Side::external ? row->external_classes : row->internal_classes)) {
            out.emplace_back(name);
        }
    }
    return out;
}

}  // namespace halfnut::threads
