#pragma once
// How many of a machine's steps are not above a speed or a feed, for many rows at once: a row finds its bin
// by the leading bits of its number, and one comparison with the bin's edge does the rest.

#include <algorithm>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace halfnut::batch {

class StepTable {
   public:
    // The one step that a bin may hold, or the first of a later one, and how many steps come before it.
    struct Bin {
        double edge;
        std::size_t below;
    };

    StepTable() = default;

    /// Steps > 0, rising.
    explicit StepTable(const std::vector<double>& steps) {
        if (steps.empty()) {
            return;
        }
        for (shift_ = kCoarsest; shift_ > kFinest && crowded(steps); --shift_) {
        }
        crowded_ = crowded(steps);
        // A bin before the first step's, for all that is below it; nothing is sought above the last step.
        first_ = key(steps.front()) - 1;
        low_ = std::bit_cast<double>(first_ << shift_);
        high_ = steps.back();
        const std::uint64_t last = key(high_);
        for (std::uint64_t bin = first_, below = 0; bin <= last; ++bin) {
            bins_.push_back({steps[below], below});
            while (below < steps.size() && key(steps[below]) == bin) {
                ++below;
            }
        }
    }

    /// Whether steps stand so close that a bin holds two: the table does not serve them.
    [[nodiscard]] bool crowded() const noexcept { return crowded_; }

    [[nodiscard]] const std::vector<Bin>& bins() const noexcept { return bins_; }

    /// The bin of x; of NaN the first. Its `below`, and one more where x is not below its edge, is the count.
    [[nodiscard]] std::uint64_t place(double x) const noexcept {
        const double above = x > low_ ? x : low_;
        const double held = above < high_ ? above : high_;
        return key(held) - first_;
    }

   private:
    static constexpr unsigned kCoarsest = 49;  // 8 bins an octave
    static constexpr unsigned kFinest = 42;

    [[nodiscard]] std::uint64_t key(double x) const noexcept {
        return std::bit_cast<std::uint64_t>(x) >> shift_;
    }
    [[nodiscard]] bool crowded(const std::vector<double>& steps) const noexcept {
        return std::adjacent_find(steps.begin(), steps.end(),
                                  [&](double a, double b) { return key(a) == key(b); }) != steps.end();
    }

    std::vector<Bin> bins_;
    double low_ = 0.0;
    double high_ = 0.0;
    unsigned shift_ = kCoarsest;
    std::uint64_t first_ = 0;
    bool crowded_ = false;
};

}  // namespace halfnut::batch
