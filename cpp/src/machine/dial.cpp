#include "halfnut/machine/dial.hpp"

#include <cmath>

namespace halfnut::machine {

namespace {
constexpr double kExactLines = 1e-6;  // of a line: below this a remainder is rounding and not a distance
}  // namespace

int lines_a_turn(const Slide& slide) noexcept {
    const double shown = slide.travel_per_turn_mm * (slide.reads_diameter ? 2.0 : 1.0);
    return static_cast<int>(std::lround(shown / slide.graduation_mm));
}

DialReading dial_reading(const Slide& slide, double travel_mm) noexcept {
    const double lines = travel_mm * (slide.reads_diameter ? 2.0 : 1.0) / slide.graduation_mm;
    const double nearest = std::nearbyint(lines);  // halves to even
    const auto whole = static_cast<long long>(nearest);
    const int turn = lines_a_turn(slide);
    const double over = lines - nearest;
    return {static_cast<int>(whole / turn), static_cast<int>(whole % turn),
            std::abs(over) < kExactLines ? 0.0 : over * slide.graduation_mm};
}

}  // namespace halfnut::machine
