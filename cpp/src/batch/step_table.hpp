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
    explicit StepTable(std::vector<double> steps) : steps_(std::move(steps)), count_(steps_.size()) {
        steps_.push_back(std::numeric_limits<double>::quiet_NaN());
        for (shift_ = kCoarsest; shift_ > kFinest && crowded(); --shift_) {
        }
        const std::uint64_t low = count_ == 0 ? 0 : key(steps_.front());
        const std::uint64_t bins = count_ == 0 ? 0 : key(steps_[count_ - 1]) - low + 1;
        first_ = low;
        starts_.assign(static_cast<std::size_t>(bins) + 1, static_cast<std::uint32_t>(count_));
        for (std::uint64_t bin = 0; bin < bins; ++bin) {
            const auto below =
                std::lower_bound(steps_.begin(), steps_.end() - 1, low + bin,
                                 [&](double step, std::uint64_t at) { return key(step) < at; });
            starts_[static_cast<std::size_t>(bin)] = static_cast<std::uint32_t>(below - steps_.begin());
        }
    }

    /// Steps that are not above x.
    [[nodiscard]] std::size_t not_above(double x) const noexcept {
        const std::uint64_t at = key(x);
        if (at < first_) {
            return 0;
        }
        const std::uint64_t last = starts_.size() - 1;
        std::size_t count = starts_[static_cast<std::size_t>(std::min(at - first_, last))];
        if (!crowded_) {
            return count + (steps_[count] <= x ? 1U : 0U);
        }
        while (steps_[count] <= x) {
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
    [[nodiscard]] bool crowded() noexcept {
        crowded_ = false;
        for (std::size_t i = 1; i < count_; ++i) {
            crowded_ = crowded_ || key(steps_[i]) == key(steps_[i - 1]);
        }
        return crowded_;
    }

    std::vector<double> steps_;
    std::size_t count_ = 0;
    unsigned shift_ = kCoarsest;
    std::uint64_t first_ = 0;
    bool crowded_ = false;
    std::vector<std::uint32_t> starts_;
};

}  // namespace halfnut::batch
