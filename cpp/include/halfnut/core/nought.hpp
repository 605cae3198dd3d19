#pragma once
/// A nought in front of a number: 08 is 8, or .8 with its point lost. No reader of sizes guesses which.

#include <string_view>

namespace halfnut {

/// What is said of it.
inline constexpr std::string_view kLeadingNought =
    "a number with a nought in front: leave the nought out, or write the point that is missing";

/// Whether a text begins with a nought and another digit.
[[nodiscard]] constexpr bool leading_nought(std::string_view text) noexcept {
    return text.size() > 1 && text[0] == '0' && text[1] >= '0' && text[1] <= '9';
}

}  // namespace halfnut
