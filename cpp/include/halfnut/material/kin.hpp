#pragma once
/// Of what kin a row of the tables is to an alloy.

#include <array>
#include <cstddef>
#include <string_view>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::material {

/// The keys that an alloy answers to, nearest first.
class Kin {
   public:
    Kin(const Catalogue& catalogue, const AlloyRow& alloy) noexcept : like_(alloy.like) {
        keys_[count_++] = alloy.id;
        std::string_view group = alloy.group;
        while (count_ < kDeepest && !group.empty()) {
            keys_[count_++] = group;
            const GroupRow* row = find_group(catalogue, group);
            group = row == nullptr ? std::string_view{} : row->parent;
        }
    }

    /// Distance of the nearest of several keys, separated by spaces; -1 when none is kin.
    [[nodiscard]] int distance(std::string_view keys) const noexcept {
        for (std::size_t i = 0; i < count_; ++i) {
            const bool likes = i == 0 && !like_.empty() && among(keys, like_);
            if (likes || among(keys, keys_[i])) {
                return static_cast<int>(i);
            }
        }
        return -1;
    }

    [[nodiscard]] std::string_view key(int distance) const noexcept {
        return keys_[static_cast<std::size_t>(distance)];
    }

   private:
    /// has_word(), and at once where the keys are one word or shorter than it.
    static bool among(std::string_view keys, std::string_view key) noexcept {
        return keys.size() > key.size() ? has_word(keys, key) : keys == key;
    }

    static constexpr std::size_t kDeepest = 16;

    std::string_view like_;  ///< the alloy that a shop's own is like
    std::array<std::string_view, kDeepest> keys_{};
    std::size_t count_ = 0;
};

}  // namespace halfnut::material
