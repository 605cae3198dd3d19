#pragma once
// How many of a machine's steps are not above a speed or a feed: one look-up and one comparison a row.

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>
#include <vector>

namespace halfnut::batch {

class StepTable {
   public:
    StepTable() = default;

    /// Steps > 0, rising.
    explicit StepTable(const std::vector<double>& steps) {
        if (steps.empty()) {
            return;
        }
        for (shift_ = kCoarsest; shift_ > kFinest && crowded(steps); --shift_) {
        }
        crowded_ = crowded(steps);
        steps_ = steps;
        first_ = key(steps.front());
        const std::uint64_t bins = key(steps.back()) - first_ + 1;
        std::size_t below = 0;
        for (std::uint64_t bin = 0; bin < bins; ++bin) {
            bins_.push_back({steps[below], static_cast<std::uint32_t>(below)});
            while (below < steps.size() && key(steps[below]) == first_ + bin) {
                ++below;
            }
        }
        bins_.push_back({std::numeric_limits<double>::quiet_NaN(), static_cast<std::uint32_t>(steps.size())});
    }

    /// Steps that are not above x.
    [[nodiscard]] std::size_t not_above(double x) const noexcept {
        const std::uint64_t at = key(x);
        if (at < first_ || bins_.empty()) {
            return 0;
        }
        const std::uint64_t last = bins_.size() - 1;
        const Bin& bin = bins_[static_cast<std::size_t>(std::min(at - first_, last))];
        std::size_t count = bin.below + (bin.step <= x ? 1U : 0U);
        while (crowded_ && count < steps_.size() && steps_[count] <= x) {
            ++count;
        }
        return count;
    }

   private:
    static constexpr unsigned kCoarsest = 46;  // 64 bins an octave
    static constexpr unsigned kFinest = 42;

    [[nodiscard]] std::uint64_t key(double x) const noexcept {
        return std::bit_cast<std::uint64_t>(x) >> shift_;
    }
    [[nodiscard]] bool crowded(const std::vector<double>& steps) const noexcept {
        return std::adjacent_find(steps.begin(), steps.end(),
                                  [&](double a, double b) { return key(a) == key(b); }) != steps.end();
    }

    // The first step of a bin, or of a later one, and how many steps come before it.
    struct Bin {
        double step;
        std::uint32_t below;
    };

    std::vector<double> steps_;
    std::vector<Bin> bins_;
    unsigned shift_ = kCoarsest;
    std::uint64_t first_ = 0;
    bool crowded_ = false;
};

}  // namespace halfnut::batch
