#pragma once
// What the readers of both systems share: numbers, and what stands in every designation.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <string_view>
#include <utility>

#include "halfnut/core/cursor.hpp"
#include "halfnut/threads/designation.hpp"

namespace halfnut::threads {

constexpr std::int64_t kNanometresPerMm = 1'000'000;
constexpr std::int64_t kMaxDiameterMm = 10'000;
constexpr std::array<int, 10> kNumberSizes{0, 1, 2, 3, 4, 5, 6, 8, 10, 12};

struct Failure {
    DesignationProblem problem;
};

constexpr bool is_number_size(std::int64_t number) {
    return std::find(kNumberSizes.begin(), kNumberSizes.end(), number) != kNumberSizes.end();
}

/// Diameter of a numbered size, 1e-4 in: 0.060 + 0.013 N; #00 is the -1, #000 the -2, #0000 the -3.
constexpr std::int64_t numbered_size(std::int64_t number) {
    return 600 + 130 * number;
}

constexpr std::int64_t rounded_quotient(std::int64_t numerator, std::int64_t denominator) {
    return (2 * numerator + denominator) / (2 * denominator);
}

std::string decimal_text(std::int64_t units, std::int64_t per_one, int min_places);
std::string mm_text(std::int64_t nanometres);
std::string inch_text(std::int64_t units);
std::string tpi_text(std::int32_t thousandths);

/// A place in a designation, and the thread that it has given so far.
class DesignationReader : public TextCursor {
   public:
    DesignationReader(std::string_view text, const Catalogue& catalogue)
        : TextCursor(text), catalogue_(catalogue) {}

    Thread read();

   protected:
    /// A dash, or blanks with something after them.
    bool accept_separator() {
        if (accept_dash()) {
            return true;
        }
        return skip_blanks() && !at_end();
    }

    [[noreturn]] void fail_at(std::size_t position, const std::string& what,
                              StatusCode code = StatusCode::not_understood) const {
        throw Failure{{{code, 0}, position, what}};
    }
    [[noreturn]] void fail(const std::string& what, StatusCode code = StatusCode::not_understood) const {
        fail_at(at_, what, code);
    }

    // --- numbers --------------------------------------------------------------------------------------

    /// A decimal number as whole units; `scale` units to one.
    std::int64_t decimal(std::int64_t scale, std::int64_t largest, std::string_view what) {
        const std::size_t from = at_;
        check_noughts();
        if (!is_digit(peek()) && !(peek() == '.' && is_digit(peek(1)))) {
            fail(fmt::format("{} is wanted here", what));
        }
        std::int64_t units = 0;
        const auto check_size = [&] {
            if (units > largest * scale) {
                fail_at(from, fmt::format("{} of more than {}", what, largest), StatusCode::out_of_range);
            }
        };
        while (is_digit(peek())) {
            units = units * 10 + (peek() - '0') * scale;
            check_size();
            ++at_;
        }
        if (peek() == ',') {
            fail("a comma in a number; write the decimal with a point");
        }
        if (peek() == '.' && is_digit(peek(1))) {
            ++at_;
            std::int64_t place = scale;
            while (is_digit(peek())) {
                if (place == 1) {
                    if (peek() != '0') {
                        fail(fmt::format("{} has more places than the {} that count", what,
                                         scale == 10'000        ? 4
                                         : scale == 1000        ? 3
                                         : scale == 100'000'000 ? 8
                                                                : 6));
                    }
                } else {
                    place /= 10;
                    units += (peek() - '0') * place;
                }
                ++at_;
            }
            check_size();
        }
        return units;
    }

    /// A nought in front of a number is a size of its own such as #00, or a slip such as 1/04: never another
    /// size.
    void check_noughts() const {
        if (peek() == '0' && is_digit(peek(1))) {
            fail(std::string(kLeadingNought));
        }
    }
    int small_integer(std::string_view what) {
        const std::size_t from = at_;
        check_noughts();
        if (!is_digit(peek())) {
            fail(fmt::format("{} is wanted here", what));
        }
        int value = 0;
        while (is_digit(peek())) {
            value = value * 10 + (peek() - '0');
            if (value > 100'000) {
                fail_at(from, "the number is too large", StatusCode::out_of_range);
            }
            ++at_;
        }
        return value;
    }

    /// The thread, when nothing is left of the text.
    Thread whole() {
        skip_blanks();
        if (!at_end()) {
            fail(fmt::format("'{}' is left over", text_.substr(at_)));
        }
        return thread_;
    }

    // --- elements -------------------------------------------------------------------------------------

    template <class Text>
    void set_starts(std::int64_t lead, std::int64_t pitch, std::int64_t tolerance, std::size_t position,
                    std::string_view name, Text text) {
        const std::int64_t starts = rounded_quotient(lead, pitch);
        if (starts < 1 || starts > 255 ||
            std::abs(starts * pitch - lead) > tolerance * std::max<std::int64_t>(starts, 1)) {
            fail_at(
                position,
                fmt::format("a {} must be a whole number of pitches: {} is {:.4g} times {}", name, text(lead),
                            static_cast<double>(lead) / static_cast<double>(pitch), text(pitch)),
                StatusCode::inconsistent);
        }
        thread_.starts = static_cast<std::uint8_t>(starts);
    }

    void check_geometry(std::size_t size_at) const {
        const double ratio = thread_.diameter_mm() / thread_.pitch_mm();
        if (ratio <
            1.3) {  // d - 17 H / 12 is the root of the design profile, and d - 1.227 P must leave a core
            fail_at(size_at,
                    fmt::format("a pitch of {:.6g} mm leaves no core in a diameter of {:.6g} mm",
                                thread_.pitch_mm(), thread_.diameter_mm()),
                    StatusCode::inconsistent);
        }
    }

    void set_engagement(std::int64_t length, std::size_t from) {
        if (thread_.group != EngagementGroup::unstated || thread_.engagement_units != 0) {
            fail_at(from, "the engagement is stated twice");
        }
        if (length == 0) {
            fail_at(from, "a length of engagement must be > 0", StatusCode::out_of_range);
        }
        thread_.engagement_units = length;
    }

    bool hand() {
        for (const auto& [word, hand] : {std::pair{std::string_view("LH"), Hand::left},
                                         std::pair{std::string_view("RH"), Hand::right}}) {
            if (starts_word(word)) {
                if (hand_given_) {
                    fail("the hand is stated twice");
                }
                thread_.hand = hand;
                hand_given_ = true;
                at_ += 2;
                return true;
            }
        }
        return false;
    }

    const Catalogue& catalogue_;
    Thread thread_;
    bool hand_given_ = false;
};

/// The whole of a designation, from its first character on.
Thread read_metric(const DesignationReader& from);
Thread read_unified(const DesignationReader& from);

}  // namespace halfnut::threads
