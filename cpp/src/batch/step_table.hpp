#pragma once
// How many of a machine's steps are not above a speed or a feed, for many rows at once: a row finds its bin
// by the leading bits of its number, and one comparison with the bin's edge does the rest.

#include <algorithm>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace halfnut::batch {

// Bin of a number, without a branch.
struct BinFinder {
    double low = 0.0;   // nothing is sought below it,
    double high = 0.0;  // or above this
    unsigned shift = 0;
    std::uint64_t first = 0;

    /// The place of x's bin; of NaN the first.
    [[nodiscard]] std::uint64_t operator()(double x) const noexcept {
        const double above = x > low ? x : low;
        const double held = above < high ? above : high;
        return (std::bit_cast<std::uint64_t>(held) >> shift) - first;
    }
};

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
        unsigned& shift = finder_.shift;
        for (shift = kCoarsest; shift > kFinest && crowded(steps); --shift) {
        }
        crowded_ = crowded(steps);
        // A bin before the first step's, for all that is below it.
        finder_.first = key(steps.front()) - 1;
        finder_.low = std::bit_cast<double>(finder_.first << shift);
        finder_.high = steps.back();
        const std::uint64_t last = key(steps.back());
        std::size_t below = 0;
        for (std::uint64_t bin = finder_.first; bin <= last; ++bin) {
            bins_.push_back({steps[below], below});
            while (below < steps.size() && key(steps[below]) == bin) {
                ++below;
            }
        }
    }

    /// Whether steps stand so close that a bin holds two: the table does not serve them.
    [[nodiscard]] bool crowded() const noexcept { return crowded_; }

    [[nodiscard]] const std::vector<Bin>& bins() const noexcept { return bins_; }

    /// Finds a number's bin. Its `below`, and one more where the number is not below its edge, is the count.
    [[nodiscard]] const BinFinder& finder() const noexcept { return finder_; }

   private:
    static constexpr unsigned kCoarsest = 49;  // 8 bins an octave
    static constexpr unsigned kFinest = 42;

    [[nodiscard]] std::uint64_t key(double x) const noexcept {
        return std::bit_cast<std::uint64_t>(x) >> finder_.shift;
    }
    [[nodiscard]] bool crowded(const std::vector<double>& steps) const noexcept {
        return std::adjacent_find(steps.begin(), steps.end(),
                                  [&](double a, double b) { return key(a) == key(b); }) != steps.end();
    }

    std::vector<Bin> bins_;
    BinFinder finder_;
    bool crowded_ = false;
};

}  // namespace halfnut::batch
