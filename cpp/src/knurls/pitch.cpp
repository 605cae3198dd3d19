#include "halfnut/knurls/pitch.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/cursor.hpp"
#include "halfnut/core/nought.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/knurls/tables.hpp"

namespace halfnut::knurls {
namespace {

bool same(std::string_view a, std::string_view b) noexcept {
    return a.size() == b.size() && begins_with(a, b);
}

bool is_number(char c) noexcept {
    return is_digit(c) || c == '.';
}

/// A word, a number or a single other character, and where it starts.
struct Token {
    std::string_view text;
    std::size_t position;
};

std::vector<Token> tokens_of(std::string_view text) {
    std::vector<Token> tokens;
    std::size_t i = 0;
    while (i < text.size()) {
        const std::size_t start = i;
        if (is_letter(text[i])) {
            while (i < text.size() && is_letter(text[i])) {
                ++i;
            }
        } else if (is_number(text[i])) {
            while (i < text.size() && is_number(text[i])) {
                ++i;
            }
        } else {
            ++i;
            if (text[start] == ' ' || text[start] == '\t') {
                continue;
            }
        }
        tokens.push_back({text.substr(start, i - start), start});
    }
    return tokens;
}

constexpr std::string_view kWays =
    "write \"96 DP\", \"21 TPI\", \"0.8 mm\" or a form and its pitch such as \"RGE 0.8\"";

[[noreturn]] void not_understood(std::string_view text, std::size_t position) {
    throw DesignationError(
        fmt::format("knurl pitch \"{}\" not understood at character {}; {}", text, position + 1, kWays),
        position);
}

double number_of(std::string_view text, const Token& token) {
    if (leading_nought(token.text)) {
        throw DesignationError(
            fmt::format("cannot read '{}' at position {}: {}", text, token.position + 1, kLeadingNought),
            token.position);
    }
    double value = 0.0;
    const char* end = token.text.data() + token.text.size();
    const auto [stop, error] = read_number(token.text.data(), end, value);
    if (error != std::errc{} || stop != end) {
        not_understood(text, token.position);
    }
    if (!(value > 0.0)) {
        throw DesignationError(fmt::format("knurl pitch \"{}\" must be > 0; {}", text, kWays),
                               token.position);
    }
    return value;
}

const MetricFormRow* find_form(std::string_view name, const Catalogue& catalogue) noexcept {
    for (const MetricFormRow& row : catalogue.knurl_forms) {
        if (same(row.form, name)) {
            return &row;
        }
    }
    return nullptr;
}

template <class Rows, class Name>
std::string listed(const Rows& rows, Name name) {
    std::string list;
    for (const auto& row : rows) {
        list += list.empty() ? "" : ", ";
        list += fmt::format("{}", name(row));
    }
    return list;
}

/// The pitch after a form: "0.8", or a code such as "08".
double form_pitch(std::string_view text, const Token& token, const Catalogue& catalogue) {
    if (token.text.find('.') != std::string_view::npos) {
        return number_of(text, token);
    }
    for (const MetricPitchRow& row : catalogue.knurl_metric_pitches) {
        if (row.code == token.text) {
            return row.pitch_mm;
        }
    }
    if (!leading_nought(token.text)) {  // 03 is a code that there is none of
        const double value = number_of(text, token);
        if (token.text.size() == 1) {
            return value;
        }
    }
    throw NotTabulatedError(fmt::format(
        "no metric knurl pitch of code {} in \"{}\"; codes: {}", token.text, text,
        listed(catalogue.knurl_metric_pitches, [](const MetricPitchRow& row) { return row.code; })));
}

}  // namespace

KnurlPitch parse_knurl_pitch(std::string_view text, const Catalogue& catalogue) {
    bounds::require_text("knurl pitch", text, bounds::kDesignationBytes);
    std::vector<Token> tokens = tokens_of(text);
    if (tokens.empty()) {
        throw DesignationError(fmt::format("knurl pitch is empty; {}", kWays), 0);
    }

    // "DIN 82", "DIN 82 -" before or "DIN 82" after a form says nothing more
    if (tokens.size() > 2 && same(tokens[0].text, "din") && tokens[1].text == "82") {
        tokens.erase(tokens.begin(), tokens.begin() + (tokens[2].text == "-" ? 3 : 2));
    } else if (tokens.size() > 2 && same(tokens[tokens.size() - 2].text, "din") &&
               tokens.back().text == "82") {
        tokens.resize(tokens.size() - 2);
    }

    if (tokens.empty()) {
        not_understood(text, 0);
    }
    const Token& first = tokens[0];

    if (const MetricFormRow* form = find_form(first.text, catalogue)) {
        KnurlPitch pitch{
            .system = PitchSystem::metric, .value = 0.0, .pattern = form->pattern, .profile_deg = {}};
        if (tokens.size() < 2) {
            not_understood(text, text.size());
        }
        pitch.value = form_pitch(text, tokens[1], catalogue);
        std::size_t next = 2;
        if (next < tokens.size() && same(tokens[next].text, "mm")) {
            ++next;
        }
        if (next + 1 < tokens.size() && tokens[next].text == "-") {
            pitch.profile_deg = number_of(text, tokens[next + 1]);
            next += 2;
        }
        if (next != tokens.size()) {
            not_understood(text, tokens[next].position);
        }
        return pitch;
    }

    if (tokens.size() == 1 && is_letter(first.text[0])) {
        for (const CircularNameRow& row : catalogue.knurl_names) {
            if (same(row.name, first.text)) {
                return {.system = PitchSystem::circular,
                        .value = row.teeth_per_inch,
                        .pattern = {},
                        .profile_deg = {}};
            }
        }
        throw NotTabulatedError(
            fmt::format("no knurl pitch or form called \"{}\"; names: {}; forms: {}", first.text,
                        listed(catalogue.knurl_names, [](const CircularNameRow& row) { return row.name; }),
                        listed(catalogue.knurl_forms, [](const MetricFormRow& row) { return row.form; })));
    }

    if (tokens.size() == 1) {
        throw UnitError(fmt::format("knurl pitch {} needs its unit; {}", number_of(text, first), kWays));
    }
    if (tokens.size() > 2) {
        not_understood(text, tokens[2].position);
    }
    const bool unit_first = is_letter(first.text[0]);
    const Token& unit = unit_first ? tokens[0] : tokens[1];
    const Token& number = unit_first ? tokens[1] : tokens[0];
    for (const auto& [spelling, system] : {std::pair{std::string_view("dp"), PitchSystem::diametral},
                                           std::pair{std::string_view("tpi"), PitchSystem::circular},
                                           std::pair{std::string_view("mm"), PitchSystem::metric}}) {
        if (same(unit.text, spelling)) {
            return {.system = system, .value = number_of(text, number), .pattern = {}, .profile_deg = {}};
        }
    }
    not_understood(text, unit.position);
}

std::string knurl_pitch_text(PitchSystem system, double value) {
    switch (system) {
        case PitchSystem::diametral:
            return fmt::format("{} DP", value);
        case PitchSystem::circular:
            return fmt::format("{} TPI", value);
        case PitchSystem::metric:
            break;
    }
    return fmt::format("{} mm", value);
}

Pattern parse_knurl_pattern(std::string_view text, const Catalogue& catalogue) {
    if (const MetricFormRow* form = find_form(text, catalogue)) {
        return form->pattern;
    }
    std::string wanted;
    for (char c : text) {
        wanted += c == '-' || c == '_' ? ' ' : lower(c);
    }
    if (wanted == "diamond" || wanted == "cross") {
        wanted += " raised";
    }
    Pattern pattern{};
    if (enum_from_name(wanted, pattern)) {
        return pattern;
    }
    std::string list;
    std::vector<std::string_view> names;
    for (const auto& [value, name] : enum_names(Pattern{})) {
        list += list.empty() ? "" : ", ";
        list += name;
        names.push_back(name);
    }
    const std::string_view near = nearest_name(wanted, names);
    throw DesignationError(fmt::format("no knurl pattern \"{}\"; {}one of: {}", text,
                                       near.empty() ? "" : fmt::format("nearest \"{}\"; ", near), list),
                           0);
}

}  // namespace halfnut::knurls
