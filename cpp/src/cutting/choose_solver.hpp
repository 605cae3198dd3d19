#pragma once
// The free search behind choose(): levers with what changing them costs, and the dynamic programme over the
// dial's steps.
//
// Let a state be (k, l): k steps of the dial are off, lever l is set; a lever is a speed with a feed.
//     W(k, l) = least of   t(l) + V(k + d, l)   over every depth d that lever l may take from k
//                          2 t(l)               where the pair may take the rest with lever l
//     V(k, l) = least over l' of  c(l, l') + W(k, l')
// t is what a pass costs, c what a change costs, all >= 0 and all whole numbers, so that sums are exact. V(0,
// now) is the answer: every sequence of passes is a path of this graph, and the pair is its last arc.
//
// What is skipped cannot be better:
//   1. From k no lever costs less than t(l) + the least V of the states that a pass reaches (or 2 t(l) for
//      the pair), and levers are tried in the order of t. Let b be the least W(k, .) so far, of lever m, and
//      C the dearest change. Where that bound exceeds b + C, W(k, l) > W(k, m) + c(any, m): whatever lever is
//      set, changing to m is better than l, for this l and all that follow. They take no part.
//   2. Power, torque, grip and force grow with the depth: force goes as d sin(kappa)^-mc, and sin(kappa)
//      grows more slowly than d^1.1, mc < 0.9. So the deepest pass that they allow is found by halving, and
//      deeper ones break one of them. In boring the diameter grows with the depth; its speed lowers the force
//      by less than 0.153 of the relative growth of the diameter, which is less than that of the depth.
//   3. For a depth d a path through lever l costs t(l) + V(k + d, l). Where that is not below the best depth
//      so far, it is left untried whether or not d keeps the limits.
//   4. Where the least force across the work of any depth deflects the work too far even as it is now,
//      stiffer than any pass leaves it, every depth does. Where a feed is above the coarsest of the tables
//      for any depth, or the speed at the least diameter of a pass above the highest for any depth, every
//      depth breaks that limit.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include "halfnut/core/bounds.hpp"
#include "halfnut/cutting/choose.hpp"

namespace halfnut::cutting {

/// A cost: time in milliseconds, then levers moved, then places of speeds; one number, compared as one.
using Cost = std::int64_t;
inline constexpr int kTimeShift = 31;
inline constexpr int kMovedShift = 18;
inline constexpr Cost kNever = Cost{1} << 61;      ///< more than 298 h: no answer
inline constexpr double kLongestPassS = 100000.0;  ///< of all passes side by side

[[nodiscard]] inline Cost time_cost(double seconds) noexcept {
    // NaN and what is longer are never: sums of four costs still fit
    return seconds < kLongestPassS ? bounds::nearest<Cost>(seconds * 1000.0, 0) << kTimeShift : kNever;
}
[[nodiscard]] inline double cost_s(Cost cost) noexcept {
    return static_cast<double>(cost >> kTimeShift) / 1000.0;
}
[[nodiscard]] inline int cost_moved(Cost cost) noexcept {
    return static_cast<int>(cost >> kMovedShift & ((Cost{1} << (kTimeShift - kMovedShift)) - 1));
}

struct Speed {
    std::size_t step = 0;
    double rpm = kNaN;
    double available_kw = kNaN;
};
struct Feed {
    std::size_t step = 0;
    double per_rev = kNaN;  ///< mm of the slide that moves; NaN: per minute
    double per_min = kNaN;
};

/// Speeds and feeds of a machine, and what changing from one to another costs.
struct Levers {
    Levers(const machine::Machine& machine, const machine::FeedLadder* ladder, double ratio,
           const machine::Slide* fed, int only_spindle);

    std::vector<Speed> speeds;  ///< slow to fast
    std::vector<Feed> feeds;
    FeedSource source = FeedSource::step;
    std::vector<Cost> speed_change;  ///< from, to
    std::vector<Cost> feed_change;
    std::vector<bool> speed_stops;  ///< whether the spindle must stand still: from, to
    std::vector<bool> feed_stops;
    std::vector<Cost> first_speed;  ///< where nothing is known of what is set
    std::vector<Cost> first_feed;

    [[nodiscard]] std::size_t count() const noexcept { return speeds.size() * feeds.size(); }
    /// From the levers set now, -1 for unknown.
    [[nodiscard]] Cost from_now(int spindle, int feed, std::size_t s, std::size_t i) const noexcept;
};

/// What a pass is: a rough one, the rough one before a measurement, half of what is left, the rest, or one
/// that takes all that is left.
enum class PassKind : std::uint8_t { rough, before_measuring, half, rest, only };

/// One pass: from which step of the dial, how many steps deep where it is rough, what it is.
struct Bite {
    int from = 0;
    int deep = 0;
    PassKind kind{};

    [[nodiscard]] bool finish() const noexcept { return kind >= PassKind::half; }
    [[nodiscard]] bool last() const noexcept { return kind >= PassKind::rest; }
};

struct Planned {
    Bite bite;
    std::size_t speed = 0;
    std::size_t feed = 0;
};
struct Sequence {
    Cost cost = kNever;  ///< with what is measured before passes, not of the finished work
    std::vector<Planned> passes;
};

/// A lever that may not be used.
struct Barred {
    std::size_t speed = std::numeric_limits<std::size_t>::max();
    std::size_t feed = std::numeric_limits<std::size_t>::max();
};

/// What both searches over a job's levers share. Job gives levers(), steps(), cap(), pass_s(), return_s(),
/// dial_s(), side_by_side(), now_spindle(), now_feed(), holds<>(), may_hold() and may_bend_little().
template <class Job, class Which>
class LeverSearch {
   public:
    LeverSearch(const Job& job, Barred barred) : job_(job), levers_(job.levers()) {
        const std::size_t count = levers_.count();
        passes_.assign(count, kNever);
        for (std::size_t s = 0; s < levers_.speeds.size(); ++s) {
            for (std::size_t i = 0; i < levers_.feeds.size(); ++i) {
                const double cut = job.pass_s(s, i);
                const double whole = (cut + job.return_s() + job.dial_s()) * job.side_by_side();
                if (whole < kLongestPassS && !(s == barred.speed && i == barred.feed)) {
                    const Cost one = time_cost(cut) + time_cost(job.return_s()) + time_cost(job.dial_s());
                    passes_[lever(s, i)] =
                        one * job.side_by_side() + static_cast<Cost>(std::min<std::size_t>(s, 255));
                }
            }
        }
        for (std::size_t l = 0; l < count; ++l) {
            const bool ever = passes_[l] < kNever && fixed_hold(l) &&
                              (job.may_hold(false, job.steps(), speed_of(l), feed_of(l)) ||
                               job.may_hold(false, 0, speed_of(l), feed_of(l)));
            if (ever) {
                order_.push_back(l);
            }
        }
        std::stable_sort(order_.begin(), order_.end(),
                         [&](std::size_t a, std::size_t b) { return passes_[a] < passes_[b]; });
    }

    /// All in one pass.
    [[nodiscard]] Sequence one_pass() const {
        Sequence out;
        const Bite bite{0, job_.steps(), PassKind::only};
        for (const std::size_t l : order_) {
            const Cost cost = from_now(l) + passes_[l];
            if (cost < out.cost && holds<Which::all>(bite, l)) {
                out = {cost, {{bite, speed_of(l), feed_of(l)}}};
            }
        }
        return out;
    }

   protected:
    [[nodiscard]] std::size_t lever(std::size_t s, std::size_t i) const noexcept {
        return s * levers_.feeds.size() + i;
    }
    [[nodiscard]] std::size_t speed_of(std::size_t l) const noexcept { return l / levers_.feeds.size(); }
    [[nodiscard]] std::size_t feed_of(std::size_t l) const noexcept { return l % levers_.feeds.size(); }
    template <Which kWhich>
    [[nodiscard]] bool holds(const Bite& bite, std::size_t l) const {
        return job_.template holds<kWhich>(bite, speed_of(l), feed_of(l));
    }
    [[nodiscard]] bool fixed_hold(std::size_t l) const {
        return holds<Which::fixed>(Bite{0, std::min(1, job_.steps()), PassKind::rough},
                                   l);  // less than a line: none
    }

    [[nodiscard]] Cost from_now(std::size_t l) const noexcept {
        return levers_.from_now(job_.now_spindle(), job_.now_feed(), speed_of(l), feed_of(l));
    }

    const Job& job_;
    const Levers& levers_;
    std::vector<Cost> passes_;  // t(l)
    std::vector<std::size_t> order_;
};

/// The cheapest sequence of any depths with any levers, ending in a pair. Job also gives pairs() and
/// measure_s().
template <class Job, class Which>
class FreeSearch : LeverSearch<Job, Which> {
    using Base = LeverSearch<Job, Which>;
    using Base::from_now, Base::job_, Base::levers_, Base::order_, Base::passes_;
    using Base::lever, Base::speed_of, Base::feed_of;
    template <Which kWhich>
    [[nodiscard]] bool holds(const Bite& bite, std::size_t l) const {
        return Base::template holds<kWhich>(bite, l);
    }

   public:
    FreeSearch(const Job& job, Barred barred) : Base(job, barred) {
        const auto dearest = [](const std::vector<Cost>& changes, const std::vector<Cost>& first) {
            return std::max(*std::max_element(changes.begin(), changes.end()),
                            *std::max_element(first.begin(), first.end()));
        };
        dearest_ = dearest(levers_.speed_change, levers_.first_speed) +
                   dearest(levers_.feed_change, levers_.first_feed);
    }

    [[nodiscard]] Sequence solve() {
        const auto steps = static_cast<std::size_t>(job_.steps());
        const std::size_t count = levers_.count();
        cap_ = job_.cap();
        value_.assign(count * (steps + 1), kNever);
        next_.assign(count * (steps + 1), 0);
        depth_.assign(count * (steps + 1), 0);
        least_.assign(steps + 1, kNever);
        for (int k = job_.steps(); k >= 0; --k) {
            settle(k);
        }
        return unfold();
    }

   private:
    [[nodiscard]] std::size_t at(int k, std::size_t l) const noexcept {
        return l * static_cast<std::size_t>(job_.steps() + 1) + static_cast<std::size_t>(k);
    }

    void settle(int k) {
        const int most = std::min(cap_, job_.steps() - k - 1);
        Cost reached = kNever;
        for (int d = 1; d <= most; ++d) {
            reached = std::min(reached, least_[static_cast<std::size_t>(k) + static_cast<std::size_t>(d)]);
        }
        const bool pair_fits = job_.pairs(k);
        Cost best = kNever;
        alive_.clear();
        for (const std::size_t l : order_) {
            const Cost one = passes_[l];
            const Cost bound = std::min(reached + one, pair_fits ? 2 * one : kNever);
            if (bound > best + dearest_ || bound >= kNever) {
                break;
            }
            Cost found = kNever;
            int deep = 0;
            if (pair_fits && job_.may_hold(true, k, speed_of(l), feed_of(l)) &&
                holds<Which::all>(Bite{k, 0, PassKind::half}, l) &&
                holds<Which::all>(Bite{k, 0, PassKind::rest}, l)) {
                found = 2 * one;
            }
            rough(k, most, l, found, deep);
            if (found < kNever) {
                alive_.push_back({l, found});
                depth_[at(k, l)] = static_cast<std::int16_t>(deep);
                best = std::min(best, found);
            }
        }
        least_[static_cast<std::size_t>(k)] = best;
        change(k, best);
    }

    /// The best rough pass from a step with one lever; the deepest of equal ones.
    void rough(int k, int most, std::size_t l, Cost& found, int& deep) const {
        if (most < 1 || !job_.may_hold(false, k, speed_of(l), feed_of(l))) {
            return;
        }
        const Cost* values = &value_[at(0, l)];
        bool promising = false;
        for (int d = most; d >= 1 && !promising; --d) {
            promising = passes_[l] + values[k + d] < found;
        }
        if (!promising) {
            return;
        }
        int low = 0;
        int high = most;
        while (low < high) {
            const int middle = (low + high + 1) / 2;
            if (holds<Which::growing>(Bite{k, middle, PassKind::rough}, l)) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        if (low < 1 || !job_.may_bend_little(k, low, speed_of(l), feed_of(l))) {
            return;
        }
        for (int d = low; d >= 1; --d) {
            const Cost cost = passes_[l] + values[k + d];
            if (cost < found && holds<Which::all>(Bite{k, d, PassKind::rough}, l)) {
                found = cost;
                deep = d;
            }
        }
    }

    /// V(k, .) from W(k, .): first over the feeds at each speed, then over the speeds.
    void change(int k, Cost best) {
        const std::size_t speeds = levers_.speeds.size();
        const std::size_t feeds = levers_.feeds.size();
        if (best >= kNever) {
            return;
        }
        by_speed_.assign(speeds * feeds, {0, kNever});
        used_.assign(speeds, false);
        for (const Alive& to : alive_) {
            if (to.cost > best + dearest_) {
                continue;
            }
            const std::size_t s = speed_of(to.lever);
            used_[s] = true;
            const Cost* costs = &levers_.feed_change[0];
            for (std::size_t i = 0; i < feeds; ++i) {
                const Cost cost = costs[i * feeds + feed_of(to.lever)] + to.cost;
                Alive& known = by_speed_[s * feeds + i];
                if (cost < known.cost || (cost == known.cost && to.lever < known.lever)) {
                    known = {to.lever, cost};
                }
            }
        }
        for (std::size_t to = 0; to < speeds; ++to) {
            if (!used_[to]) {
                continue;
            }
            for (std::size_t s = 0; s < speeds; ++s) {
                const Cost costs = levers_.speed_change[s * speeds + to];
                for (std::size_t i = 0; i < feeds; ++i) {
                    const Alive& known = by_speed_[to * feeds + i];
                    Cost& value = value_[at(k, lever(s, i))];
                    if (costs + known.cost < value) {
                        value = costs + known.cost;
                        next_[at(k, lever(s, i))] = static_cast<std::int32_t>(known.lever);
                    }
                }
            }
        }
        if (k == 0) {
            start_ = {0, kNever};
            for (const Alive& to : alive_) {
                const Cost cost = from_now(to.lever) + to.cost;
                if (cost < start_.cost || (cost == start_.cost && to.lever < start_.lever)) {
                    start_ = {to.lever, cost};
                }
            }
        }
    }

    [[nodiscard]] Sequence unfold() const {
        Sequence out;
        if (start_.cost >= kNever) {
            return out;
        }
        out.cost = start_.cost + time_cost(job_.measure_s());
        std::size_t l = start_.lever;
        int k = 0;
        while (true) {
            const int deep = depth_[at(k, l)];
            if (deep == 0) {
                out.passes.push_back({Bite{k, 0, PassKind::half}, speed_of(l), feed_of(l)});
                out.passes.push_back({Bite{k, 0, PassKind::rest}, speed_of(l), feed_of(l)});
                return out;
            }
            out.passes.push_back({Bite{k, deep, PassKind::rough}, speed_of(l), feed_of(l)});
            k += deep;
            l = static_cast<std::size_t>(next_[at(k, l)]);
        }
    }

    struct Alive {
        std::size_t lever = 0;
        Cost cost = kNever;
    };

    Cost dearest_ = 0;
    int cap_ = 0;
    std::vector<Cost> value_;
    std::vector<std::int32_t> next_;
    std::vector<std::int16_t> depth_;
    std::vector<Cost> least_;
    std::vector<Alive> alive_;
    std::vector<Alive> by_speed_;
    std::vector<bool> used_;
    Alive start_;
};

}  // namespace halfnut::cutting
