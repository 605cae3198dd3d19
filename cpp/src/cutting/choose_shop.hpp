#pragma once
// The search among passes as shops divide them: all rough passes with one lever, on every stride-th step of
// the dial, then the finishing cuts of the job's closing with one lever, which may differ where no stop is
// needed to move to it.
//
// With rough lever l the cost hangs on how many passes reach a step, not on how deep each is:
//     n(k, l)    least number of passes with l from nothing to step k, the last of them before a measurement
//     answer     least over k, l, m of  c(now, l) + n(k, l) t(l) + c(l, m) + f t(m) + g,
//                or c(now, m) + f t(m) + g from nothing
// where f finishing cuts with m take what k leaves, and g is what measuring before them costs. n is found
// breadth first, every pass once it holds, as far as passes that cost no more than the best answer may still
// reach an end.
//
// Of answers of one cost: the finishing cut nearest to what is aimed at, the slower rough speed and finer
// rough feed, the slower finishing speed and finer feed, then from the first pass on the deeper one.
//
// What is skipped cannot be better: a step that no finishing cuts can start from ends nothing; rough levers
// are tried in the order of t, and where fewest passes by depth alone with the cheapest finishing cost more
// than the best answer so far, no later lever is better; a lever is of no use with no pass that may come
// last, and with none as deep as the mean of the passes that would cost no more than the best answer. Depths
// that power, torque, grip and force do not allow are found by halving (choose_solver.hpp, 2).

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <tuple>
#include <utility>
#include <vector>

#include "choose_solver.hpp"

namespace halfnut::cutting {

/// The cheapest sequence whose rough passes end on every `stride`-th step. Job also gives closes(),
/// measures(), measurements(), measure_s() and finish_off_aim().
template <class Job, class Which>
class ShopSearch : LeverSearch<Job, Which> {
    using Base = LeverSearch<Job, Which>;
    using Base::from_now, Base::job_, Base::levers_, Base::order_, Base::passes_;
    using Base::speed_of, Base::feed_of;
    template <Which kWhich>
    [[nodiscard]] bool holds(const Bite& bite, std::size_t l) const {
        return Base::template holds<kWhich>(bite, l);
    }

   public:
    ShopSearch(const Job& job, Barred barred, int stride)
        : Base(job, barred), stride_(stride), cap_(job.cap() / stride * stride) {
        for (int k = 0; k <= job.steps(); k += stride) {
            if (job.closes(k) == 0) {
                continue;
            }
            End end{k, job.closes(k), kNever, std::vector<std::int8_t>(levers_.count(), kUnknown)};
            for (const std::size_t l : order_) {
                if (finishes(end, l)) {
                    end.cheapest = end.cuts * passes_[l];
                    ends_.push_back(std::move(end));
                    break;
                }
            }
        }
    }

    [[nodiscard]] Sequence solve() {
        if (!ends_.empty() && ends_.front().at == 0) {
            finish(ends_.front(), kNone, 0);
            ends_.erase(ends_.begin());
        }
        if (!ends_.empty() && cap_ >= stride_) {
            Cost cheapest = kNever;
            for (const End& end : ends_) {
                cheapest = std::min(cheapest, end.cheapest);
            }
            const Cost fewest = (ends_.front().at + cap_ - 1) / cap_;
            for (const std::size_t l : order_) {
                if (passes_[l] > (best_.cost - cheapest) / fewest) {
                    break;
                }
                if (may_be_better(l, cheapest) && enters(l)) {
                    rough(l, cheapest);
                }
            }
        }
        return unfold();
    }

   private:
    static constexpr std::int8_t kUnknown = -1;
    static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

    /// A step from which the finishing cuts can take the rest.
    struct End {
        int at = 0;
        int cuts = 0;
        Cost cheapest = kNever;         // cuts that hold
        std::vector<std::int8_t> held;  // by lever
    };
    struct Best {
        Cost cost = kNever;
        double off_aim = 0.0;
        std::size_t rough = kNone;
        std::size_t finishing = kNone;
        int at = 0;
        int cuts = 0;
        int passes = 0;
    };

    [[nodiscard]] PassKind last_rough() const noexcept {
        return job_.measures() ? PassKind::before_measuring : PassKind::rough;
    }
    [[nodiscard]] bool finishes(End& end, std::size_t l) const {
        std::int8_t& known = end.held[l];
        if (known == kUnknown) {
            const bool ever = job_.may_hold(true, end.at, speed_of(l), feed_of(l));
            known = ever && (end.cuts == 1 ? holds<Which::all>(Bite{end.at, 0, PassKind::only}, l)
                                           : holds<Which::all>(Bite{end.at, 0, PassKind::half}, l) &&
                                                 holds<Which::all>(Bite{end.at, 0, PassKind::rest}, l))
                        ? 1
                        : 0;
        }
        return known == 1;
    }

    /// The best finishing from a step, reached by so many passes with a lever, or by none.
    void finish(End& end, std::size_t rough, int passes) {
        const Cost before = rough == kNone ? 0 : from_now(rough) + passes * passes_[rough];
        const double off_aim = job_.finish_off_aim(end.at);
        const Cost measuring = job_.measurements(end.at) * time_cost(job_.measure_s());
        for (const std::size_t l : order_) {
            const Cost least = before + end.cuts * passes_[l] + measuring;
            if (least > best_.cost) {
                break;
            }
            Cost change = 0;
            if (rough == kNone) {
                change = from_now(l);
            } else if (rough != l) {
                const std::size_t speed = speed_of(rough) * levers_.speeds.size() + speed_of(l);
                const std::size_t feed = feed_of(rough) * levers_.feeds.size() + feed_of(l);
                if (levers_.speed_stops[speed] || levers_.feed_stops[feed]) {
                    continue;
                }
                change = levers_.speed_change[speed] + levers_.feed_change[feed];
            }
            const Best found{least + change, off_aim, rough, l, end.at, end.cuts, passes};
            const auto rank = [](const Best& one) {
                // no rough pass comes before any
                return std::tuple(one.cost, one.off_aim, one.rough + 1, one.finishing, -one.at);
            };
            if (found.cost < kNever && rank(found) < rank(best_) && finishes(end, l)) {
                best_ = found;
            }
        }
    }

    /// Deepest pass from a step that the limits which grow with the depth allow.
    [[nodiscard]] int deepest(int k, int most, std::size_t l) const {
        int low = 0;
        int high = most / stride_;
        while (low < high) {
            const int middle = (low + high + 1) / 2;
            if (holds<Which::growing>(Bite{k, middle * stride_, PassKind::rough}, l)) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        low *= stride_;
        return low > 0 && job_.may_bend_little(k, low, speed_of(l), feed_of(l)) ? low : 0;
    }

    /// Rough passes with a lever that are no dearer than the best answer, whatever finishing follows.
    [[nodiscard]] Cost most_passes(std::size_t l, Cost cheapest_finish) const {
        return (best_.cost - cheapest_finish - from_now(l)) / std::max<Cost>(passes_[l], 1);
    }

    /// Whether as many passes with a lever as are no dearer than the best answer can reach an end: one of
    /// them must be as deep as their mean, which the limits that grow with the depth allow somewhere.
    [[nodiscard]] bool may_be_better(std::size_t l, Cost cheapest_finish) const {
        const Cost most = most_passes(l, cheapest_finish);
        const Cost strides = ends_.front().at / stride_;
        if (most < 1) {
            return false;
        }
        const auto mean = static_cast<int>((strides + most - 1) / most * stride_);
        for (int k = 0; k + mean <= ends_.back().at; k += stride_) {
            if (job_.may_hold(false, k, speed_of(l), feed_of(l)) &&
                holds<Which::growing>(Bite{k, mean, PassKind::rough}, l)) {
                return true;
            }
        }
        return false;
    }

    /// Whether any pass with a lever may come last before finishing.
    [[nodiscard]] bool enters(std::size_t l) const {
        for (const End& end : ends_) {
            for (int deep = stride_; deep <= std::min(cap_, end.at); deep += stride_) {
                if (holds<Which::all>(Bite{end.at - deep, deep, last_rough()}, l)) {
                    return true;
                }
            }
        }
        return false;
    }

    /// Finishing after the fewest rough passes with a lever.
    void rough(std::size_t l, Cost cheapest_finish) {
        const int last = ends_.back().at;
        reached_.assign(static_cast<std::size_t>(last / stride_) + 1, false);
        std::vector<bool> ended(ends_.size(), false);
        std::vector<int> front{0};
        std::vector<int> next;
        for (int passes = 1; !front.empty(); ++passes) {
            const Cost more = most_passes(l, cheapest_finish) - passes;
            if (more < 0) {
                return;
            }
            // the first step from which that many more passes may reach an end
            const auto enough = std::min<Cost>(more, last);
            const int first = more == 0 ? last + 1 : ends_.front().at - static_cast<int>(enough) * cap_;
            next.clear();
            for (auto from = front.rbegin(); from != front.rend(); ++from) {
                if (!job_.may_hold(false, *from, speed_of(l), feed_of(l))) {
                    continue;
                }
                const int low = deepest(*from, std::min(cap_, last - *from), l);
                for (std::size_t e = 0; e < ends_.size(); ++e) {
                    const int deep = ends_[e].at - *from;
                    if (!ended[e] && deep > 0 && deep <= low &&
                        holds<Which::all>(Bite{*from, deep, last_rough()}, l)) {
                        ended[e] = true;
                        finish(ends_[e], l, passes);
                    }
                }
                for (int to = *from + low; to > *from && to >= first; to -= stride_) {
                    if (!reached_[static_cast<std::size_t>(to / stride_)] &&
                        holds<Which::all>(Bite{*from, to - *from, PassKind::rough}, l)) {
                        reached_[static_cast<std::size_t>(to / stride_)] = true;
                        next.push_back(to);
                    }
                }
            }
            std::sort(next.begin(), next.end());
            front.swap(next);
        }
    }

    /// Whether the end can be reached from a step in so many passes of the rough lever.
    [[nodiscard]] bool leads(int from, int passes) {
        const int deep = best_.at - from;
        if (passes == 0) {
            return deep == 0;
        }
        if (deep < passes * stride_ || deep > static_cast<std::int64_t>(passes) * cap_) {
            return false;
        }
        std::int8_t& known =
            leads_[static_cast<std::size_t>(passes)][static_cast<std::size_t>(from / stride_)];
        if (known == kUnknown) {
            known = next_from(from, passes) > 0 ? 1 : 0;
        }
        return known == 1;
    }
    /// The deepest pass from which the rest leads to the end; 0 where none does.
    [[nodiscard]] int next_from(int from, int passes) {
        const std::size_t l = best_.rough;
        for (int deep = deepest(from, std::min(cap_, best_.at - from), l); deep > 0; deep -= stride_) {
            const PassKind kind = passes == 1 ? last_rough() : PassKind::rough;
            if (leads(from + deep, passes - 1) && holds<Which::all>(Bite{from, deep, kind}, l)) {
                return deep;
            }
        }
        return 0;
    }

    [[nodiscard]] Sequence unfold() {
        Sequence out;
        if (best_.cost >= kNever) {
            return out;
        }
        out.cost = best_.cost;
        leads_.assign(static_cast<std::size_t>(best_.passes) + 1,
                      std::vector<std::int8_t>(static_cast<std::size_t>(best_.at / stride_) + 1, kUnknown));
        int from = 0;
        for (int left = best_.passes; left > 0; --left) {
            const int deep = next_from(from, left);
            const PassKind kind = left == 1 ? last_rough() : PassKind::rough;
            out.passes.push_back({Bite{from, deep, kind}, speed_of(best_.rough), feed_of(best_.rough)});
            from += deep;
        }
        const auto cut = [&](PassKind kind) {
            out.passes.push_back({Bite{from, 0, kind}, speed_of(best_.finishing), feed_of(best_.finishing)});
        };
        if (best_.cuts == 2) {
            cut(PassKind::half);
        }
        cut(best_.cuts == 2 ? PassKind::rest : PassKind::only);
        return out;
    }

    int stride_ = 1;
    int cap_ = 0;
    std::vector<End> ends_;
    Best best_;
    std::vector<bool> reached_;
    std::vector<std::vector<std::int8_t>> leads_;
};

}  // namespace halfnut::cutting
