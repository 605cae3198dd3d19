#pragma once
// Of what kin a row of the tables is to an alloy.

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/cutting/kin_rows.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// The keys that an alloy answers to, nearest first.
class Kin {
   public:
    Kin(const Catalogue& catalogue, const material::AlloyRow& alloy) noexcept : like_(alloy.like) {
        keys_[count_++] = alloy.id;
        std::string_view group = alloy.group;
        while (count_ < kDeepest && !group.empty()) {
            keys_[count_++] = group;
            const material::GroupRow* row = material::find_group(catalogue, group);
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
    /// material::has_word(), and at once where the keys are one word or shorter than it.
    static bool among(std::string_view keys, std::string_view key) noexcept {
        return keys.size() > key.size() ? material::has_word(keys, key) : keys == key;
    }

    static constexpr std::size_t kDeepest = 16;

    std::string_view like_;  ///< the alloy that a shop's own is like
    std::array<std::string_view, kDeepest> keys_{};
    std::size_t count_ = 0;
};

/// Every row of a table that is wanted and of kin, in order: those known, else what is found of the table.
template <class Row, class Wanted, class Distance, class Visit>
void each_kin_row(Rows<Row> table, const std::vector<KinRow<Row>>* known, Wanted wanted, Distance distance,
                  Visit visit) {
    if (known != nullptr) {
        for (const KinRow<Row>& each : *known) {
            if (wanted(*each.row)) {
                visit(each);
            }
        }
        return;
    }
    for (const Row& row : table) {
        if (wanted(row)) {
            if (const int near = distance(row); near >= 0) {
                visit(KinRow<Row>{&row, near});
            }
        }
    }
}

}  // namespace halfnut::cutting
