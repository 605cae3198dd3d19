#include "halfnut/core/bounds.hpp"

#include <fmt/format.h>

#include "halfnut/core/error.hpp"

namespace halfnut::bounds {

std::string shown(std::string_view text) {
    constexpr std::size_t kShown = 60;
    if (text.size() <= kShown) {
        return std::string(text);
    }
    std::size_t end = kShown;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0U) == 0x80U) {
        --end;
    }
    return std::string(text.substr(0, end)) + "...";
}

std::string too_long(std::string_view what, std::string_view text, std::size_t most) {
    return fmt::format("{} must be at most {} bytes, got {}: '{}'", what, most, text.size(), shown(text));
}

void require_text(std::string_view what, std::string_view text, std::size_t most) {
    if (text.size() > most) {
        throw DomainError(too_long(what, text, most));
    }
}

}  // namespace halfnut::bounds
