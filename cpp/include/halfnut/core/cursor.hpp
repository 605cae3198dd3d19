#pragma once
/// A place in a text that is being read: characters, words, blanks, dashes and signs of multiplication.

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace halfnut {

constexpr bool is_digit(char c) noexcept {
    return c >= '0' && c <= '9';
}
constexpr bool is_letter(char c) noexcept {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
constexpr char upper(char c) noexcept {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}
constexpr char lower(char c) noexcept {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Whether a text begins with a word, whatever the case of either.
constexpr bool begins_with(std::string_view text, std::string_view word) noexcept {
    if (text.size() < word.size()) {
        return false;
    }
    for (std::size_t i = 0; i < word.size(); ++i) {
        if (lower(text[i]) != lower(word[i])) {
            return false;
        }
    }
    return true;
}

/// A place in a text. Nothing is copied: the text outlives it.
class TextCursor {
   public:
    explicit TextCursor(std::string_view text) noexcept : text_(text) {}

   protected:
    [[nodiscard]] bool at_end() const noexcept { return at_ >= text_.size(); }
    [[nodiscard]] char peek(std::size_t ahead = 0) const noexcept {
        return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
    }
    [[nodiscard]] std::string_view rest() const noexcept { return text_.substr(at_); }
    [[nodiscard]] bool starts(std::string_view word) const noexcept {
        return text_.substr(at_, word.size()) == word;
    }
    /// Whether the text goes on with a word in capitals or small letters, and not with more letters after it.
    [[nodiscard]] bool starts_word(std::string_view word) const noexcept {
        return begins_with(rest(), word) && !is_letter(peek(word.size()));
    }

    bool skip_blanks() noexcept {
        const std::size_t from = at_;
        for (;;) {
            if (peek() == ' ' || peek() == '\t') {
                ++at_;
            } else if (starts("\u00a0")) {
                at_ += 2;
            } else {
                return at_ > from;
            }
        }
    }
    bool accept(std::string_view word) noexcept {
        if (!starts(word)) {
            return false;
        }
        at_ += word.size();
        return true;
    }
    /// A word, whatever its case, with blanks before it.
    bool take(std::string_view word) noexcept {
        const std::size_t before = at_;
        skip_blanks();
        if (!begins_with(rest(), word)) {
            at_ = before;
            return false;
        }
        at_ += word.size();
        return true;
    }
    bool accept_dash() noexcept {
        static constexpr std::array<std::string_view, 7> kDashes{"-",      "\u2010", "\u2011", "\u2012",
                                                                 "\u2013", "\u2014", "\u2212"};
        return sign(kDashes);
    }
    bool accept_times() noexcept {
        static constexpr std::array<std::string_view, 4> kTimes{"x", "X", "*", "\u00d7"};
        return sign(kTimes);
    }

    std::string_view text_;
    std::size_t at_ = 0;

   private:
    /// One of some signs, with the blanks around it.
    template <std::size_t N>
    bool sign(const std::array<std::string_view, N>& spellings) noexcept {
        const std::size_t from = at_;
        skip_blanks();
        for (const std::string_view spelling : spellings) {
            if (accept(spelling)) {
                skip_blanks();
                return true;
            }
        }
        at_ = from;
        return false;
    }
};

}  // namespace halfnut
