#include "halfnut/cutting/edge_life.hpp"

#include <cmath>
#include <tuple>

#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "kin.hpp"

namespace halfnut::cutting {
namespace {

bool within(double a, double b, double factor) noexcept {
    return a <= b * factor && b <= a * factor;
}

double apart(double a, double b) noexcept {
    return std::isnan(a) || std::isnan(b) ? 0.0 : std::abs(log2_of(a / b));
}

}  // namespace

Status edge_life(const Catalogue& catalogue, const LifeQuery& query, EdgeLife& out) noexcept {
    out = {};
    const material::AlloyRow& alloy = *query.alloy;
    const double hb = std::isnan(query.hardness_hb) ? alloy.hardness_hb : query.hardness_hb;
    const ToolLifeRow* best = nullptr;
    std::tuple<int, double, double, double> best_rank;
    const auto counts = [&](const ToolLifeRow& row) {
        return row.tool_material == query.tool_material &&
               within(row.feed_mm, query.feed_mm_rev, kFarthestFeed) &&
               within(row.depth_mm, query.depth_mm, kFarthestDepth);
    };
    const auto compare = [&](const KinRow<ToolLifeRow>& each) {
        const ToolLifeRow& row = *each.row;
        const std::tuple rank{each.distance, apart(row.hardness_hb, hb),
                              apart(row.feed_mm, query.feed_mm_rev) + apart(row.depth_mm, query.depth_mm),
                              row.c_m_min};
        if (best == nullptr || rank < best_rank) {
            best = &row;
            best_rank = rank;
        }
    };
    each_kin_row(
        catalogue.tool_lives, query.kin == nullptr ? nullptr : &query.kin->lives, counts,
        [&](const ToolLifeRow& row) { return material::kinship(catalogue, alloy, row.key); }, compare);
    if (best == nullptr) {
        return {StatusCode::not_tabulated, 0};
    }
    const bool carbide =
        query.tool_material == ToolMaterial::carbide || query.tool_material == ToolMaterial::carbide_coated;
    out.exponent = best->exponent;
    out.feed_exponent = carbide ? kCarbideLifeFeed : kHssLifeFeed;
    out.depth_exponent = carbide ? kCarbideLifeDepth : kHssLifeDepth;
    out.c_m_min = best->c_m_min * power_of(best->feed_mm / query.feed_mm_rev, out.feed_exponent) *
                  power_of(best->depth_mm / query.depth_mm, out.depth_exponent);
    out.moved = best->feed_mm != query.feed_mm_rev || best->depth_mm != query.depth_mm;
    const double reference = std::isnan(best->hardness_hb) ? alloy.hardness_hb : best->hardness_hb;
    if (alloy.iso513 != material::Iso513::n && !std::isnan(hb) && !std::isnan(reference) && hb != reference) {
        out.c_m_min *= reference / hb;
        out.shifted = true;
    }
    out.row = row_ref(catalogue.tool_lives, *best);
    out.kinship = std::get<0>(best_rank);
    return {};
}

}  // namespace halfnut::cutting
