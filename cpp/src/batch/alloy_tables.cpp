#include "alloy_tables.hpp"

#include <algorithm>
#include <iterator>
#include <string_view>
#include <vector>

#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/kin.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::batch {

using namespace cutting;

namespace {

// Rows an alloy from which its own tables pay.
constexpr std::size_t kWorthIt = 32;

/// Those rows of a table that are keyed to the alloy or its kin, in their order.
template <class Row>
Rows<Row> keep(const material::Kin& kin, Rows<Row> table, std::string_view Row::* keys,
               std::vector<std::vector<Row>>& kept) {
    std::vector<Row>& out = kept.emplace_back();
    std::copy_if(table.begin(), table.end(), std::back_inserter(out),
                 [&](const Row& row) { return kin.distance(row.*keys) >= 0; });
    return {out.data(), out.size()};
}

}  // namespace

AlloyTables::AlloyTables(const CutSetting& setting, std::size_t rows) : setting_(setting) {
    if (rows < kWorthIt * setting.alloys.size()) {
        return;
    }
    const Catalogue& whole = *setting.catalogue;
    for (const std::int32_t place : setting.alloys) {
        Catalogue& view = views_.emplace_back(whole);
        const auto row = static_cast<std::size_t>(place);
        if (row < whole.alloys.size()) {
            const material::Kin kin(whole, whole.alloys[row]);
            const auto narrow = [&](auto table, auto keys, auto& kept) {
                view.*table = keep(kin, whole.*table, keys, kept);
            };
            narrow(&Catalogue::speeds, &SpeedRow::key, speeds_);
            narrow(&Catalogue::tool_lives, &ToolLifeRow::key, lives_);
            narrow(&Catalogue::force_bands, &ForceBandRow::group, bands_);
            narrow(&Catalogue::drill_materials, &DrillMaterialRow::group, drill_materials_);
            narrow(&Catalogue::drill_feed_shares, &DrillFeedShareRow::group, drill_feed_shares_);
            narrow(&Catalogue::tooth_feeds, &ToothFeedRow::group, tooth_feeds_);
        }
    }
}

}  // namespace halfnut::batch
