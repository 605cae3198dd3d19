#pragma once
// Letters and grades as they are written.

#include <fmt/format.h>

#include <string>
#include <string_view>

#include "halfnut/fits/cylindrical.hpp"

namespace halfnut::fits {

inline constexpr double kUnits = 1e6;  // millionths of the native unit

inline std::string upper_case(std::string_view text) {
    std::string out(text);
    for (char& c : out) {
        c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return out;
}

inline std::string letter_name(std::uint8_t letter, bool hole) {
    return hole ? upper_case(kLetters[letter]) : std::string(kLetters[letter]);
}

inline std::string grade_name(int grade) {
    return grade == -1 ? "01" : fmt::format("{}", grade);
}

}  // namespace halfnut::fits
