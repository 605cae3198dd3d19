#include "halfnut/machine/dividing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"

namespace halfnut::machine {

namespace {

constexpr std::size_t kMostPlates = 12;
constexpr std::size_t kMostCircles = 16;  // of one plate
constexpr double kExact = 1e-9;           // turns of the crank: rounding, no error

/// Holes of a circle nearest to a part of a turn; whole turns go to the turns.
IndexMove on_circle(double turns, int circle) {
    const double holes = std::floor(turns * circle + 0.5);
    IndexMove out;
    out.turns = bounds::whole(std::floor(holes / circle), 0);
    out.holes = bounds::whole(holes - static_cast<double>(out.turns) * circle, 0);
    out.circle = out.holes == 0 ? 0 : circle;
    out.error_turn = holes / circle - turns;
    if (std::abs(out.error_turn) < kExact) {
        out.error_turn = 0.0;
    }
    return out;
}

}  // namespace

std::vector<std::vector<int>> index_plates(std::string_view argument, std::string_view text) {
    const auto refuse = [&] {
        throw DomainError(
            fmt::format("{} must be the holes of circles from 2 to {}, blanks between and commas "
                        "between plates, such as '15 16 17, 21 23 27', got '{}'",
                        argument, kMostCircle, bounds::shown(text)));
    };
    std::vector<std::vector<int>> out(1);
    int circle = 0;
    bool reading = false;
    const auto end = [&] {
        if (reading && (circle < 2 || circle > kMostCircle || out.back().size() >= kMostCircles)) {
            refuse();
        }
        if (reading) {
            out.back().push_back(circle);
        }
        circle = 0;
        reading = false;
    };
    for (const char each : text) {
        if (each >= '0' && each <= '9') {
            if ((!reading && each == '0') || circle > kMostCircle) {
                refuse();
            }
            circle = 10 * circle + (each - '0');
            reading = true;
        } else if (each == ' ') {
            end();
        } else if (each == ',') {
            end();
            if (out.back().empty() || out.size() >= kMostPlates) {
                refuse();
            }
            out.emplace_back();
        } else {
            refuse();
        }
    }
    end();
    if (out.back().empty()) {
        if (out.size() > 1) {
            refuse();
        }
        out.pop_back();
    }
    return out;
}

std::vector<IndexMove> index_moves(long long turns, long long parts,
                                   const std::vector<std::vector<int>>& plates) {
    std::vector<IndexMove> out;
    const long long whole = turns / parts;
    const long long rest = turns % parts;
    if (rest == 0) {
        return {{.turns = static_cast<int>(whole)}};
    }
    for (const std::vector<int>& plate : plates) {
        for (const int circle : plate) {
            if (rest * circle % parts == 0) {
                out.push_back({.turns = static_cast<int>(whole),
                               .holes = static_cast<int>(rest * circle / parts),
                               .circle = circle});
            }
        }
    }
    std::stable_sort(out.begin(), out.end(),
                     [](const IndexMove& a, const IndexMove& b) { return a.circle > b.circle; });
    const auto same = [](const IndexMove& a, const IndexMove& b) { return a.circle == b.circle; };
    out.erase(std::unique(out.begin(), out.end(), same), out.end());
    return out;
}

std::vector<IndexMove> nearest_moves(double turns, const std::vector<std::vector<int>>& plates) {
    std::vector<IndexMove> out;
    for (const std::vector<int>& plate : plates) {
        for (const int circle : plate) {
            out.push_back(on_circle(turns, circle));
        }
    }
    std::stable_sort(out.begin(), out.end(), [](const IndexMove& a, const IndexMove& b) {
        const double one = std::abs(a.error_turn);
        const double two = std::abs(b.error_turn);
        return one < two || (one == two && a.circle > b.circle);
    });
    return out;
}

std::vector<IndexMove> two_circle_moves(double turns, const std::vector<std::vector<int>>& plates,
                                        double within) {
    std::vector<IndexMove> out;
    const double whole = std::floor(turns);
    const double part = turns - whole;
    for (const std::vector<int>& plate : plates) {
        for (const int circle : plate) {
            for (const int other : plate) {
                if (other == circle) {
                    continue;
                }
                for (int holes = 1; holes < circle; ++holes) {
                    // what is left goes on the other circle, on with the first or back
                    const double left = part - static_cast<double>(holes) / circle;
                    const int back = bounds::nearest(left * other, -other, other);
                    const double error = static_cast<double>(back) / other - left;
                    // of two movements on with each other one is told: that whose larger part comes first
                    if (back == 0 || std::abs(back) >= other || std::abs(error) > within ||
                        (back > 0 && holes * other < back * circle)) {
                        continue;
                    }
                    out.push_back({bounds::whole(whole, 0), holes, circle, back, other,
                                   std::abs(error) < kExact ? 0.0 : error});
                }
            }
        }
    }
    std::stable_sort(out.begin(), out.end(), [](const IndexMove& a, const IndexMove& b) {
        const double one = std::abs(a.error_turn);
        const double two = std::abs(b.error_turn);
        return one < two || (one == two && a.holes + std::abs(a.back) < b.holes + std::abs(b.back));
    });
    return out;
}

}  // namespace halfnut::machine
