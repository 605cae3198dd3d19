#include "halfnut/cutting/constants.hpp"

#include <cmath>

#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::cutting {

ForceConstants force_constants(const Catalogue& catalogue, const material::AlloyRow& alloy,
                               double hardness_hb) noexcept {
    using material::AlloyRow;
    ForceConstants out;
    const bool has_kc = !std::isnan(alloy.kc11_n_mm2);
    const bool has_unit_power =
        !std::isnan(alloy.unit_power_hp_in3_min) && !std::isnan(alloy.unit_power_thickness_mm);
    const auto rank = [&](SourceId figure) {  // a figure without a source of its own is of the row's
        const SourceId source = figure.index < catalogue.sources.size() ? figure : alloy.source;
        return source_rank(catalogue.sources[source.index].kind);
    };
    if (has_kc && !(has_unit_power && rank(alloy.unit_power_source) < rank(alloy.kc_source))) {
        out.kc11_n_mm2 = alloy.kc11_n_mm2;
        out.mc = alloy.mc;
        out.speed_m_min =
            alloy.iso513 == material::Iso513::s ? kTableSpeedHeatResistantMMin : kTableSpeedMMin;
        out.rule = rule::kc_tabulated;
        out.row = row_ref(catalogue.alloys, alloy, source_place<AlloyRow>("kc_source"));
    } else if (has_unit_power) {
        const double at = alloy.unit_power_thickness_mm;
        out.kc11_n_mm2 =
            UnitPowerForce::compute(alloy.unit_power_hp_in3_min) * std::pow(at, kFeedFactorExponent);
        out.mc = kFeedFactorExponent;
        out.rule = rule::kc_from_unit_power;
        out.row = row_ref(catalogue.alloys, alloy, source_place<AlloyRow>("unit_power_source"));
    } else if (!std::isnan(alloy.tensile_mpa)) {
        out.kc11_n_mm2 = kForceOverTensile * alloy.tensile_mpa *
                         std::pow(kForceOverTensileThicknessMm, kFeedFactorExponent);
        out.mc = kFeedFactorExponent;
        out.rule = rule::kc_from_tensile;
        out.row = row_ref(catalogue.alloys, alloy);
        out.rough = true;
    }
    if (!std::isnan(hardness_hb) && !std::isnan(alloy.hardness_hb) && hardness_hb != alloy.hardness_hb) {
        out.kc11_n_mm2 *= std::pow(hardness_hb / alloy.hardness_hb, kForceHardnessExponent);
        out.shifted = true;
    }
    return out;
}

ForceBand force_band(const Catalogue& catalogue, const material::AlloyRow& alloy, Process process,
                     bool rough) noexcept {
    ForceBand out;
    int nearest = -1;
    for (const ForceBandRow& row : catalogue.force_bands) {
        const int distance = row.process == process ? material::kinship(catalogue, alloy, row.group) : -1;
        if (distance >= 0 && (nearest < 0 || distance < nearest)) {
            nearest = distance;
            out = {row.low,
                   row.high,
                   row.check == Check::verified,
                   std::isnan(row.papers) ? 0.0 : row.papers,
                   std::isnan(row.rows) ? 0.0 : row.rows,
                   row.median,
                   row_ref(catalogue.force_bands, row)};
        }
    }
    if (rough) {
        out.low = kRoughBandLow;
        out.high = kRoughBandHigh;
        out.verified = false;
    }
    return out;
}

}  // namespace halfnut::cutting
