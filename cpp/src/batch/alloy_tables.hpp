#pragma once
// The catalogue as the cuts of each alloy see it: of the long tables only the rows keyed to the alloy or its
// groups.

#include <vector>

#include "halfnut/batch/cuts.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::batch {

// Numbers come out as from the whole catalogue. Places of rows in evidence do not, so this serves batches,
// which give none.
class AlloyTables {
   public:
    AlloyTables(const CutSetting& setting, std::size_t rows);

    /// The catalogue for a place in CutSetting::alloys, or any other number.
    [[nodiscard]] const Catalogue& of(std::int32_t place) const noexcept {
        const auto at = static_cast<std::size_t>(place);
        return at < views_.size() ? views_[at] : *setting_.catalogue;
    }

   private:
    const CutSetting& setting_;
    std::vector<Catalogue> views_;
    std::vector<std::vector<cutting::SpeedRow>> speeds_;
    std::vector<std::vector<cutting::ToolLifeRow>> lives_;
    std::vector<std::vector<cutting::ForceBandRow>> bands_;
    std::vector<std::vector<cutting::DrillMaterialRow>> drill_materials_;
    std::vector<std::vector<cutting::DrillFeedShareRow>> drill_feed_shares_;
    std::vector<std::vector<cutting::ToothFeedRow>> tooth_feeds_;
};

}  // namespace halfnut::batch
