#include "halfnut/threads/coating.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/quantity.hpp"

namespace halfnut::threads {
namespace {

/// A word of the text: lower case and in one spelling, with the byte where it begins.
struct Word {
    std::string text;
    std::size_t begin = 0;
    std::size_t end = 0;
};

std::string one_spelling(std::string_view word) {
    std::string out;
    for (const char c : word) {
        out += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    }
    constexpr std::array<std::pair<std::string_view, std::string_view>, 13> kSpellings{{
        {"anodize", "anodise"},
        {"anodized", "anodise"},
        {"anodizing", "anodise"},
        {"anodised", "anodise"},
        {"anodising", "anodise"},
        {"sulphuric", "sulfuric"},
        {"color", "colour"},
        {"dye", "dyed"},
        {"phosphated", "phosphate"},
        {"galvanising", "galvanizing"},
        {"1", "i"},
        {"2", "ii"},
        {"3", "iii"},
    }};
    for (const auto& [written, meant] : kSpellings) {
        if (out == written) {
            return std::string(meant);
        }
    }
    return out;
}

std::vector<Word> words(std::string_view text) {
    std::vector<Word> out;
    std::size_t i = 0;
    while (i < text.size()) {
        if (text[i] == ' ' || text[i] == '\t' || text[i] == ',') {
            ++i;
            continue;
        }
        const std::size_t begin = i;
        while (i < text.size() && text[i] != ' ' && text[i] != '\t' && text[i] != ',') {
            ++i;
        }
        out.push_back({one_spelling(text.substr(begin, i - begin)), begin, i});
    }
    return out;
}

/// How many words of the text a name uses up, "type" left aside ("type II anodise" is "anodise II"); 0: none.
std::size_t words_used(const std::vector<Word>& text, std::string_view name) {
    const std::vector<Word> wanted = words(name);
    std::vector<std::string> left;
    left.reserve(wanted.size());
    for (const Word& word : wanted) {
        left.push_back(word.text);
    }
    std::size_t used = 0;
    while (used < text.size() && !left.empty()) {
        const std::string& word = text[used].text;
        const auto found = std::find(left.begin(), left.end(), word);
        if (found != left.end()) {
            left.erase(found);
        } else if (word != "type" && word != "class" && word != "grade") {
            break;
        }
        ++used;
    }
    return left.empty() ? used : 0;
}

bool is_number_start(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    return first != std::string_view::npos &&
           ((text[first] >= '0' && text[first] <= '9') || text[first] == '.');
}

/// A thickness in micrometres; a message of the quantity reader is set in the whole text.
double thickness_um(std::string_view text, std::size_t offset, const Catalogue& catalogue) {
    try {
        return parse_length(text, catalogue).mm() * 1000.0;
    } catch (const DesignationError& error) {
        throw DesignationError(error.what(), offset + error.position());
    }
}

struct Thickness {
    double min_um = 0.0;
    double max_um = 0.0;
    bool minimum_only = false;
};

/// "8 um", "5-8 um", "5 um to 8 um", "5..8 um", "8 um min".
Thickness read_thickness(std::string_view text, std::size_t offset, const Catalogue& catalogue) {
    Thickness out;
    for (const std::string_view ending : {"minimum", "nominal", "min.", "nom.", "min", "nom"}) {
        const std::size_t last = text.find_last_not_of(" \t");
        const std::string_view trimmed = text.substr(0, last + 1);
        // "min" is also a unit of time, never of length, so that an ending is an ending.
        if (trimmed.size() > ending.size() && trimmed.ends_with(ending)) {
            text = trimmed.substr(0, trimmed.size() - ending.size());
            out.minimum_only = true;
            break;
        }
    }
    for (const std::string_view between : {" to ", "..", "–", "-"}) {
        const std::size_t at = text.find(between, 1);
        if (at == std::string_view::npos || text[at - 1] == 'e' || text[at - 1] == 'E' ||
            !is_number_start(text.substr(at + between.size()))) {
            continue;
        }
        const std::string_view second = text.substr(at + between.size());
        std::string first(text.substr(0, at));
        if (first.find_first_not_of("0123456789.eE+- \t") == std::string::npos) {
            const std::size_t unit = second.find_first_not_of("0123456789.eE+- \t");
            if (unit != std::string_view::npos) {
                first.append(1, ' ').append(second.substr(unit));
            }
        }
        out.min_um = thickness_um(first, offset, catalogue);
        out.max_um = thickness_um(second, offset + at + between.size(), catalogue);
        if (out.min_um > out.max_um) {
            throw DesignationError(
                fmt::format("a thickness goes from the least to the greatest, got '{}'", text), offset);
        }
        return out;
    }
    out.min_um = out.max_um = thickness_um(text, offset, catalogue);
    return out;
}

constexpr double kMaximumOfMinimum = 1.5;  // ASME B1.1-2003, 7.4.2

}  // namespace

void require_takes(const CoatingRow& row, std::string_view group, std::string_view title) {
    const bool takes = row.base == CoatingBase::any || group.starts_with(enum_name(row.base)) ||
                       (row.base == CoatingBase::steel && group.starts_with("iron"));
    if (!takes) {
        throw DomainError(fmt::format("{} does not go on {} ({}); it needs {}", row.name, title, group,
                                      enum_name(row.base)));
    }
}

BuildUp recoated(const BuildUp& build_up, int strips, const Catalogue& catalogue) {
    constexpr int kMostStrips = 10;
    const CoatingRow* row = build_up.row(catalogue);
    if (row == nullptr) {
        throw DomainError(
            "only a named coating can be stripped: its growth says how much metal goes with the film");
    }
    if (strips < 0 || strips > kMostStrips) {
        throw DomainError(fmt::format("strips must be from 0 to {}, got {}", kMostStrips, strips));
    }
    const auto at = [&](double film, double growth, double etch) {
        return RecoatedBuildUp::compute(film, growth, etch, strips);
    };
    // More film leaves more outside or takes more metal, by its growth and how often: either end may be the
    // least.
    BuildUp out = build_up;
    out.min_um = std::min(at(build_up.film_min_um, row->growth_low, row->etch_high_um),
                          at(build_up.film_max_um, row->growth_low, row->etch_high_um));
    out.max_um = std::max(at(build_up.film_min_um, row->growth_high, row->etch_low_um),
                          at(build_up.film_max_um, row->growth_high, row->etch_low_um));
    return out;
}

BuildUp build_up_between(double min_um, double max_um) {
    if (!std::isfinite(min_um) || !std::isfinite(max_um)) {
        throw DomainError("a build-up must be finite");
    }
    if (min_um > max_um) {
        throw DomainError(
            fmt::format("the least build-up, {} um, must not be above the greatest, {} um", min_um, max_um));
    }
    BuildUp out;
    out.min_um = min_um;
    out.max_um = max_um;
    out.origin = BuildUpOrigin::given;
    return out;
}

BuildUp parse_build_up(std::string_view text, const Catalogue& catalogue) {
    bounds::require_text("coating", text, bounds::kDesignationBytes);
    const std::vector<Word> given = words(text);
    if (given.empty()) {
        throw DesignationError("no coating given; write it as '8 um', 'anodise II 12 um' or 'bare'", 0);
    }
    BuildUp out;
    if (given.size() == 1 && (given[0].text == "bare" || given[0].text == "none" || given[0].text == "0")) {
        return out;
    }
    if (is_number_start(text)) {
        const Thickness t = read_thickness(text, 0, catalogue);
        out.min_um = t.min_um;
        out.max_um = t.minimum_only && t.min_um == t.max_um ? kMaximumOfMinimum * t.max_um : t.max_um;
        out.maximum_by_rule = out.max_um != t.max_um;
        out.origin = BuildUpOrigin::given;
        return out;
    }
    std::size_t used = 0;
    std::vector<std::string_view> known;
    for (std::size_t i = 0; i < catalogue.coatings.size(); ++i) {
        const CoatingRow& row = catalogue.coatings[i];
        known.push_back(row.id);
        known.push_back(row.name);
        const std::size_t by = std::max(words_used(given, row.id), words_used(given, row.name));
        if (by > used) {
            used = by;
            out.coating = static_cast<std::int16_t>(i);
        }
    }
    if (used == 0) {
        const std::size_t number = text.find_first_of("0123456789");
        const std::string name(text.substr(0, number));
        const std::string_view near = nearest_name(name.substr(0, name.find_last_not_of(' ') + 1), known);
        std::string list;
        for (const CoatingRow& row : catalogue.coatings) {
            list += list.empty() ? "" : ", ";
            list += row.id;
        }
        throw NotTabulatedError(
            fmt::format("no coating '{}'{}; known: {}", text,
                        near.empty() ? std::string() : fmt::format("; did you mean '{}'?", near), list));
    }
    const CoatingRow& row = *out.row(catalogue);
    if (used == given.size()) {
        out.origin = BuildUpOrigin::usual;
        out.film_min_um = row.usual_low_um;
        out.maximum_by_rule = std::isnan(row.usual_high_um);
        out.film_max_um = out.maximum_by_rule ? kMaximumOfMinimum * row.usual_low_um : row.usual_high_um;
    } else {
        const std::size_t at = given[used].begin;
        if (!is_number_start(text.substr(at))) {
            throw DesignationError(
                fmt::format("expected the film's thickness after '{}', such as '12 um', got '{}'",
                            text.substr(0, given[used - 1].end), text.substr(at)),
                at);
        }
        const Thickness t = read_thickness(text.substr(at), at, catalogue);
        out.origin = BuildUpOrigin::film;
        out.film_min_um = t.min_um;
        out.maximum_by_rule = t.minimum_only && t.min_um == t.max_um;
        out.film_max_um = out.maximum_by_rule ? kMaximumOfMinimum * t.min_um : t.max_um;
    }
    out.min_um = BuildUpOfFilm::compute(out.film_min_um, row.growth_low, row.etch_high_um);
    out.max_um = BuildUpOfFilm::compute(out.film_max_um, row.growth_high, row.etch_low_um);
    return out;
}

}  // namespace halfnut::threads
