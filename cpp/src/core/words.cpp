#include "halfnut/core/words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/core/error.hpp"

namespace halfnut {

const CautionRow* find_caution(std::string_view code, const Catalogue& catalogue) noexcept {
    const auto* const found = std::find_if(catalogue.cautions.begin(), catalogue.cautions.end(),
                                           [&](const CautionRow& row) { return row.code == code; });
    return found == catalogue.cautions.end() ? nullptr : found;
}

std::vector<std::string_view> standing_cautions(std::string_view operation, const Catalogue& catalogue) {
    std::vector<std::string_view> out;
    for (const CautionRow& row : catalogue.cautions) {
        for (std::string_view left = row.stands_with; !left.empty();) {
            const std::size_t end = std::min(left.find(' '), left.size());
            if (left.substr(0, end) == operation) {
                out.push_back(row.code);
            }
            left.remove_prefix(std::min(end + 1, left.size()));
        }
    }
    return out;
}

std::string_view find_words(std::string_view list, std::string_view code, const Catalogue& catalogue) {
    const auto* const found =
        std::find_if(catalogue.words.begin(), catalogue.words.end(),
                     [&](const WordRow& row) { return row.list == list && row.code == code; });
    if (found == catalogue.words.end()) {
        throw NotTabulatedError(fmt::format("no words for '{}' of '{}'", code, list));
    }
    return found->text;
}

std::string filled(std::string_view text, const std::function<std::string(std::string_view)>& figure) {
    std::string out;
    while (true) {
        const std::size_t open = text.find('{');
        const std::size_t close = text.find('}', std::min(open, text.size()));
        if (close == std::string_view::npos) {
            return out.append(text);
        }
        out += text.substr(0, open);
        out += figure(text.substr(open + 1, close - open - 1));
        text.remove_prefix(close + 1);
    }
}

}  // namespace halfnut
