#include "alloy_tables.hpp"

#include <algorithm>
#include <string_view>

#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/tables.hpp"

#include "halfnut/material/alloy.hpp"

namespace halfnut::batch {

using namespace cutting;

namespace {

/// Whether any of several keys, separated by spaces, is the alloy or one of its groups.
bool related(const Catalogue& catalogue, const material::AlloyRow& alloy, std::string_view keys) {
    while (!keys.empty()) {
        const std::size_t end = std::min(keys.find(' '), keys.size());
        if (material::kinship(catalogue, alloy, keys.substr(0, end)) >= 0) {
            return true;
        }
        keys.remove_prefix(std::min(end + 1, keys.size()));
    }
    return false;
}

// Rows an alloy from which its own tables pay.
constexpr std::size_t kWorthIt = 32;

/// Those rows of a table that are keyed to the alloy or its kin, in their order.
template <class Row>
Rows<Row> keep(const Catalogue& catalogue, const material::AlloyRow& alloy, Rows<Row> table,
               std::string_view Row::* keys, std::vector<std::vector<Row>>& kept) {
    std::vector<Row>& out = kept.emplace_back();
    std::copy_if(table.begin(), table.end(), std::back_inserter(out),
                 [&](const Row& row) { return related(catalogue, alloy, row.*keys); });
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
            const material::AlloyRow& alloy = whole.alloys[row];
            const auto narrow = [&](auto table, auto keys, auto& kept) {
                view.*table = keep(whole, alloy, whole.*table, keys, kept);
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
