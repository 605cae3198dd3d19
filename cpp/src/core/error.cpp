#include "halfnut/core/error.hpp"

#include <algorithm>
#include <cctype>
#include <numeric>
#include <vector>

namespace halfnut {

std::string_view status_name(StatusCode code) noexcept {
    switch (code) {
        case StatusCode::ok:
            return "ok";
        case StatusCode::not_finite:
            return "not_finite";
        case StatusCode::out_of_range:
            return "out_of_range";
        case StatusCode::no_result:
            return "no_result";
        case StatusCode::unknown_name:
            return "unknown_name";
        case StatusCode::not_tabulated:
            return "not_tabulated";
        case StatusCode::not_understood:
            return "not_understood";
        case StatusCode::no_machine_step:
            return "no_machine_step";
        case StatusCode::inconsistent:
            return "inconsistent";
        case StatusCode::fire:
            return "fire";
    }
    return "unknown";
}

std::string_view status_sentence(StatusCode code) noexcept {
    switch (code) {
        case StatusCode::ok:
            return "answered";
        case StatusCode::not_finite:
            return "an argument is not a finite number";
        case StatusCode::out_of_range:
            return "an argument is outside its range";
        case StatusCode::no_result:
            return "the numbers are too large or too small for an answer";
        case StatusCode::unknown_name:
            return "a name is not in the catalogue";
        case StatusCode::not_tabulated:
            return "the standard's table has no such row";
        case StatusCode::not_understood:
            return "the text cannot be read";
        case StatusCode::no_machine_step:
            return "the machine has no step that does this";
        case StatusCode::inconsistent:
            return "two arguments contradict each other";
        case StatusCode::fire:
            return "even the slowest step is above the speed at which these chips may take fire; take a "
                   "smaller "
                   "diameter or a slower machine";
    }
    return "unknown status";
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t substitution = diagonal + (lower(a[i]) == lower(b[j]) ? 0U : 1U);
            diagonal = row[j + 1];
            row[j + 1] = std::min({substitution, row[j] + 1, diagonal + 1});
        }
    }
    return row[b.size()];
}

bool near_enough(std::string_view name, std::string_view candidate, std::size_t distance) {
    if (name.empty() || candidate.empty()) {
        return false;
    }
    const auto digit = [](std::string_view text) { return text.front() >= '0' && text.front() <= '9'; };
    if (digit(name) != digit(candidate)) {
        return false;
    }
    if (name.size() < 3) {
        return distance == 0 ||
               (distance == 1 && edit_distance(name.substr(0, 1), candidate.substr(0, 1)) == 0);
    }
    return distance <= std::max<std::size_t>(1, name.size() / 3);
}

bool written_out(std::string_view name, std::string_view candidate) {
    return name.size() >= 3 && candidate.size() > name.size() &&
           edit_distance(name, candidate.substr(0, name.size())) == 0;
}

}  // namespace halfnut
