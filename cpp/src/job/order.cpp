// Another order of a part's operations, where that moves fewer levers.

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "halfnut/job/lot.hpp"
#include "walker.hpp"

namespace halfnut::job {

namespace {

constexpr double kLeastGain = 60.0;  // s: another order is worth a word from here on; rule::other_order
constexpr int kMostTried = 400;      // orders that are walked for one part

using Places = std::vector<std::size_t>;

struct Cost {
    double seconds = 0.0;
    int stops = 0;
};

/// Whether an operation may change places, and with which others: the order that apprentices are taught.
int freedom(Do what) {
    switch (what) {
        case Do::turn:
        case Do::taper:
        case Do::groove:
        case Do::bore:
        case Do::spot:
        case Do::drill:
        case Do::countersink:
        case Do::counterbore:
            return 1;
        case Do::mill:
            return 2;
        default:
            return 0;  // keeps its place, as does one that is not known here
    }
}

struct Ordering {
    const Part& part;
    std::span<const Moved> moved;
    const Catalogue& catalogue;

    [[nodiscard]] Cost cost(const Places& order) const {
        Cost out;
        std::map<std::pair<const machine::Machine*, std::string>, std::string> standing;
        for (const std::size_t place : order) {
            const machine::Machine* const machine = part.steps[place].machine;
            for (const LeverGroup& each : moved[place].before) {
                std::string& now = standing[{machine, each.group}];
                if (!each.positions.empty() && now != each.positions) {
                    out.seconds += each.stop ? machine->stop_change_s : machine->lever_change_s;
                    out.stops += each.stop ? 1 : 0;
                    now = each.positions;
                }
            }
            for (const LeverGroup& each : moved[place].left) {
                if (!each.positions.empty()) {
                    standing[{machine, each.group}] = each.positions;
                }
            }
        }
        return out;
    }

    /// Stops that no order does without: one for each setting of each machine.
    [[nodiscard]] int fewest_stops() const {
        std::set<std::tuple<const machine::Machine*, std::string, std::string>> settings;
        for (std::size_t place = 0; place < moved.size(); ++place) {
            for (const LeverGroup& each : moved[place].before) {
                if (each.stop && !each.positions.empty()) {
                    settings.insert({part.steps[place].machine, each.group, each.positions});
                }
            }
        }
        return static_cast<int>(settings.size());
    }

    [[nodiscard]] WalkedPart walked(const Places& order) const {
        Part changed = part;
        for (std::size_t i = 0; i < order.size(); ++i) {
            changed.steps[i] = part.steps[order[i]];
        }
        return Walker(changed, catalogue).walk();
    }
};

bool is_same(double a, double b) {
    return a == b || (std::isnan(a) && std::isnan(b));
}

bool meets_the_same(const Walked& a, const Walked& b) {
    return is_same(a.from_mm, b.from_mm) && is_same(a.to_mm, b.to_mm) && is_same(a.start_mm, b.start_mm) &&
           is_same(a.hole_mm, b.hole_mm) && is_same(a.hole_deep_mm, b.hole_deep_mm) && a.through == b.through;
}

}  // namespace

std::optional<Order> better_order(const Part& part, std::span<const Moved> moved,
                                  const Catalogue& catalogue) {
    const Ordering all{part, moved, catalogue};
    Places best(part.steps.size());
    for (std::size_t i = 0; i < best.size(); ++i) {
        best[i] = i;
    }
    const Cost now = all.cost(best);
    const bool answered =
        std::all_of(moved.begin(), moved.end(), [](const Moved& each) { return each.answered; });
    if (!answered || now.stops <= all.fewest_stops()) {
        return std::nullopt;
    }
    const WalkedPart own = all.walked(best);
    std::set<std::pair<int, std::string>> told;
    for (const Mistake& each : own.mistakes) {
        told.insert({each.operation, each.code});
    }
    const auto stays = [&](const Places& order) {
        const WalkedPart found = all.walked(order);
        for (std::size_t i = 0; i < order.size(); ++i) {
            if (!meets_the_same(found.operations[i], own.operations[order[i]])) {
                return false;
            }
        }
        return std::all_of(found.mistakes.begin(), found.mistakes.end(), [&](const Mistake& each) {
            const auto place = static_cast<std::size_t>(each.operation / kApart);
            return place == 0 ||
                   told.contains({kApart * (static_cast<int>(order[place - 1]) + 1), each.code});
        });
    };
    const auto held_alike = [&](std::size_t a, std::size_t b) {
        const Step& one = part.steps[a];
        const Step& two = part.steps[b];
        return one.machine == two.machine && one.end == two.end && one.holding == two.holding &&
               one.grips == two.grips &&
               own.operations[a].after.held.setting == own.operations[b].after.held.setting;
    };
    /// The order with one operation elsewhere, where it and all that it passes may change places.
    const auto with_moved = [&](const Places& order, std::size_t from, std::size_t to) {
        Places out;
        const auto [low, high] = std::minmax(from, to);
        const int kind = freedom(part.steps[order[from]].what);
        for (std::size_t i = low; i <= high; ++i) {
            if (kind == 0 || freedom(part.steps[order[i]].what) != kind ||
                !held_alike(order[i], order[from])) {
                return out;
            }
        }
        out = order;
        out.erase(out.begin() + static_cast<std::ptrdiff_t>(from));
        out.insert(out.begin() + static_cast<std::ptrdiff_t>(to), order[from]);
        return out;
    };
    Cost least = now;
    int tried = 0;
    const auto improve = [&] {
        for (std::size_t from = 0; from < best.size(); ++from) {
            for (std::size_t to = 0; to < best.size(); ++to) {
                const Places order = from == to ? Places{} : with_moved(best, from, to);
                if (order.empty()) {
                    continue;
                }
                const Cost cost = all.cost(order);
                constexpr double kSameTime = 1e-9;
                if (cost.seconds < least.seconds - kSameTime && tried++ < kMostTried && stays(order)) {
                    best = order;
                    least = cost;
                    return true;
                }
            }
        }
        return false;
    };
    while (tried < kMostTried && improve()) {
    }
    if (now.seconds - least.seconds < kLeastGain && now.stops == least.stops) {
        return std::nullopt;
    }
    Order out{{}, now.seconds - least.seconds, now.stops - least.stops};
    for (const std::size_t place : best) {
        out.numbers.push_back(kApart * (static_cast<int>(place) + 1));
    }
    return out;
}

}  // namespace halfnut::job
