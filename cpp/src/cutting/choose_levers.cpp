#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "choose_solver.hpp"

namespace halfnut::cutting {
namespace {

/// Numbers of series R40 (ISO 3), ten times the first decade.
constexpr std::array kR40{1000, 1060, 1120, 1180, 1250, 1320, 1400, 1500, 1600, 1700, 1800, 1900, 2000, 2120,
                          2240, 2360, 2500, 2650, 2800, 3000, 3150, 3350, 3550, 3750, 4000, 4250, 4500, 4750,
                          5000, 5300, 5600, 6000, 6300, 6700, 7100, 7500, 8000, 8500, 9000, 9500};

/// Ends of every variable step: the low end of one is a speed of another that reaches it too.
std::vector<double> ends_of(const machine::Machine& machine) {
    std::vector<double> out;
    for (const machine::SpindleStep& step : machine.spindle) {
        if (step.variable()) {
            out.push_back(step.rpm_low);
            out.push_back(step.rpm);
        }
    }
    return out;
}

/// Speeds of a step that are tried.
std::vector<double> speeds_of(const machine::SpindleStep& step, const std::vector<double>& ends) {
    if (!step.variable()) {
        return {step.rpm};
    }
    std::vector<double> out{step.rpm_low};
    for (const double rpm : ends) {
        if (rpm > step.rpm_low && rpm < step.rpm) {
            out.push_back(rpm);
        }
    }
    for (double decade = 0.001; decade < 100.0; decade *= 10.0) {
        for (const int number : kR40) {
            const double rpm = std::round(number * decade * 1000.0) / 1000.0;
            if (rpm > step.rpm_low && rpm < step.rpm) {
                out.push_back(rpm);
            }
        }
    }
    out.push_back(step.rpm);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

/// Controls that stand elsewhere for the second than for the first; at least one.
int moved(const std::vector<machine::Position>& from, const std::vector<machine::Position>& to) {
    int out = 0;
    for (const machine::Position& wanted : to) {
        const auto same = [&](const machine::Position& at) {
            return at.control == wanted.control && at.setting == wanted.setting;
        };
        out += std::none_of(from.begin(), from.end(), same) ? 1 : 0;
    }
    return std::clamp(out, 1, 7);
}

Cost change_cost(const machine::Machine& machine, bool stop, int levers) {
    return time_cost(stop ? machine.stop_change_s : machine.lever_change_s) | static_cast<Cost>(levers)
                                                                                  << kMovedShift;
}

}  // namespace

Levers::Levers(const machine::Machine& machine, const machine::FeedLadder* ladder, double ratio,
               const machine::Slide* fed, int only_spindle) {
    const std::vector<double> ends = ends_of(machine);
    for (std::size_t step = 0; step < machine.spindle.size(); ++step) {
        if (only_spindle >= 0 && step != static_cast<std::size_t>(only_spindle)) {
            continue;
        }
        for (const double rpm : speeds_of(machine.spindle[step], ends)) {
            if (machine::nearest_spindle(machine, rpm).step == step) {
                speeds.push_back({step, rpm, machine::spindle_power_kw(machine, step, rpm)});
            }
        }
    }
    std::stable_sort(speeds.begin(), speeds.end(),
                     [](const Speed& a, const Speed& b) { return a.rpm < b.rpm; });
    if (ladder != nullptr) {
        for (std::size_t step = 0; step < ladder->steps.size(); ++step) {
            const double feed = ladder->steps[step].feed_mm;
            feeds.push_back(ladder->kind == machine::FeedKind::per_rev ? Feed{step, feed * ratio, kNaN}
                                                                       : Feed{step, kNaN, feed});
        }
    } else if (fed != nullptr) {
        source = FeedSource::hand;
        for (const double rate : kHandRates) {
            feeds.push_back({feeds.size(), kNaN, rate * fed->travel_per_turn_mm});
        }
    }
    for (const Speed& from : speeds) {
        const machine::SpindleStep& a = machine.spindle[from.step];
        first_speed.push_back(change_cost(machine, a.stop_to_change, moved({}, a.positions)));
        for (const Speed& to : speeds) {
            const machine::SpindleStep& b = machine.spindle[to.step];
            const bool knob = from.step == to.step;
            speed_stops.push_back(!knob && (a.stop_to_change || b.stop_to_change));
            speed_change.push_back(&from == &to ? 0
                                   : knob       ? change_cost(machine, false, 1)
                                                : change_cost(machine, a.stop_to_change || b.stop_to_change,
                                                              moved(a.positions, b.positions)));
        }
    }
    for (const Feed& from : feeds) {
        if (source == FeedSource::hand) {
            first_feed.push_back(0);
            feed_change.insert(feed_change.end(), feeds.size(), 0);
            feed_stops.insert(feed_stops.end(), feeds.size(), false);
            continue;
        }
        const machine::FeedStep& a = ladder->steps[from.step];
        first_feed.push_back(change_cost(machine, a.stop_to_change, moved({}, a.positions)));
        for (const Feed& to : feeds) {
            const machine::FeedStep& b = ladder->steps[to.step];
            feed_stops.push_back(&from != &to && (a.stop_to_change || b.stop_to_change));
            feed_change.push_back(&from == &to ? 0
                                               : change_cost(machine, a.stop_to_change || b.stop_to_change,
                                                             moved(a.positions, b.positions)));
        }
    }
}

Cost Levers::from_now(int spindle, int feed, std::size_t s, std::size_t i) const noexcept {
    Cost out = 0;
    std::size_t known = speeds.size();
    for (std::size_t at = 0; at < speeds.size(); ++at) {
        if (spindle >= 0 && speeds[at].step == static_cast<std::size_t>(spindle)) {
            known = at;
        }
    }
    out += known < speeds.size() ? speed_change[known * speeds.size() + s] : first_speed[s];
    out += feed >= 0 && static_cast<std::size_t>(feed) < feeds.size()
               ? feed_change[static_cast<std::size_t>(feed) * feeds.size() + i]
               : first_feed[i];
    return out;
}

}  // namespace halfnut::cutting
