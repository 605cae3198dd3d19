#include "halfnut/cutting/constants.hpp"

#include <algorithm>
#include <cmath>

#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::cutting {

namespace {

/// Kienzle's force on the scale of the unit powers over the alloy's own unit power, at the chip of that; NaN
/// where the alloy has not both.
double constants_apart(const Catalogue& catalogue, const material::AlloyRow& alloy) noexcept {
    return SpecificCuttingForce::compute(alloy.kc11_n_mm2, alloy.mc, alloy.unit_power_thickness_mm) /
           (force_scale(catalogue, alloy).kienzle_over_unit_power *
            UnitPowerForce::compute(alloy.unit_power_hp_in3_min));
}

}  // namespace

ForceConstants force_constants(const Catalogue& catalogue, const material::AlloyRow& alloy,
                               double hardness_hb) noexcept {
    using material::AlloyRow;
    const ForceScaleRow& scale = force_scale(catalogue, alloy);
    ForceConstants out;
    out.rake_deg = scale.rake_deg;
    const bool has_kc = !std::isnan(alloy.kc11_n_mm2);
    const bool has_unit_power =
        !std::isnan(alloy.unit_power_hp_in3_min) && !std::isnan(alloy.unit_power_thickness_mm);
    const auto rank = [&](SourceId figure) {  // a figure without a source of its own is of the row's
        const SourceId source = figure.index < catalogue.sources.size() ? figure : alloy.source;
        return source_rank(catalogue.sources[source.index].kind);
    };
    if (has_kc && !(has_unit_power && rank(alloy.unit_power_source) < rank(alloy.kc_source))) {
        out.kc11_n_mm2 = alloy.kc11_n_mm2 / scale.kienzle_over_unit_power;
        out.mc = alloy.mc;
        if (scale.kienzle_over_unit_power != 1.0) {
            out.scale = row_ref(catalogue.force_scales, scale);
        }
        out.speed_m_min =
            alloy.iso513 == material::Iso513::s ? kTableSpeedHeatResistantMMin : kTableSpeedMMin;
        out.rule = rule::kc_tabulated;
        out.row = row_ref(catalogue.alloys, alloy, source_place<AlloyRow>("kc_source"));
    } else if (has_unit_power) {
        const double at = alloy.unit_power_thickness_mm;
        out.kc11_n_mm2 =
            UnitPowerForce::compute(alloy.unit_power_hp_in3_min) * power_of(at, kFeedFactorExponent);
        out.mc = kFeedFactorExponent;
        out.rule = rule::kc_from_unit_power;
        out.row = row_ref(catalogue.alloys, alloy, source_place<AlloyRow>("unit_power_source"));
    } else if (!std::isnan(alloy.tensile_mpa)) {
        out.kc11_n_mm2 = kForceOverTensile * alloy.tensile_mpa *
                         power_of(kForceOverTensileThicknessMm, kFeedFactorExponent);
        out.mc = kFeedFactorExponent;
        out.rule = rule::kc_from_tensile;
        out.row = row_ref(catalogue.alloys, alloy);
        out.rough = true;
    }
    if (!std::isnan(hardness_hb) && !std::isnan(alloy.hardness_hb) && hardness_hb != alloy.hardness_hb) {
        out.kc11_n_mm2 *= power_of(hardness_hb / alloy.hardness_hb, kForceHardnessExponent);
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
    if (!out.verified) {
        const double apart = constants_apart(catalogue, alloy);
        const bool kienzle = force_constants(catalogue, alloy, kNaN).rule == rule::kc_tabulated;
        const double other = kienzle ? 1.0 / apart : apart;
        const double upper =
            (kienzle ? 1.0 / apart : 1.0) * (alloy.unit_power_high_hp_in3_min / alloy.unit_power_hp_in3_min);
        for (const double reach : {other, upper}) {  // NaN where the alloy has no such figure
            out.low = std::fmin(out.low, reach);
            out.high = std::fmax(out.high, reach);
        }
    }
    if (rough) {
        out.low = kRoughBandLow;
        out.high = kRoughBandHigh;
        out.verified = false;
    }
    return out;
}

double capped_kc(const ForceConstants& constants, double chip_thickness_mm, double form) noexcept {
    const double kc =
        form * SpecificCuttingForce::compute(constants.kc11_n_mm2, constants.mc, chip_thickness_mm);
    const double most = kMostOverKc11 * constants.kc11_n_mm2;
    return kc > most ? most : kc;
}

const FinishBandRow* finish_band(const Catalogue& catalogue, const material::AlloyRow& alloy,
                                 ToolMaterial tool) noexcept {
    // What stands nearest in kind where a tool has no rows of its own.
    const ToolMaterial kind = tool == ToolMaterial::carbide || tool == ToolMaterial::carbide_coated
                                  ? ToolMaterial::carbide
                                  : ToolMaterial::hss;
    const FinishBandRow* nearest = nullptr;
    int least = 0;
    for (const FinishBandRow& row : catalogue.finish_bands) {
        const int distance = row.tool_material == tool || row.tool_material == kind
                                 ? material::kinship(catalogue, alloy, row.group)
                                 : -1;
        const bool own = nearest != nullptr && distance == least && row.tool_material == tool;
        if (distance >= 0 && (nearest == nullptr || distance < least || own)) {
            nearest = &row;
            least = distance;
        }
    }
    return nearest;
}

double finish_aim(const Catalogue& catalogue, const material::AlloyRow& alloy, ToolMaterial tool) noexcept {
    const FinishBandRow* const row = finish_band(catalogue, alloy, tool);
    return row == nullptr ? 1.0 : row->aim;
}

const ForceScaleRow& force_scale(const Catalogue& catalogue, const material::AlloyRow& alloy) noexcept {
    const ForceScaleRow* nearest = &catalogue.force_scales.front();
    int least = -1;
    for (const ForceScaleRow& row : catalogue.force_scales) {
        const int distance = material::kinship(catalogue, alloy, row.group);
        if (distance >= 0 && (least < 0 || distance < least)) {
            nearest = &row;
            least = distance;
        }
    }
    return *nearest;
}

const OverhangRow& overhang_of(const Catalogue& catalogue, Overhung what) noexcept {
    const auto at = std::find_if(catalogue.overhangs.begin(), catalogue.overhangs.end(),
                                 [&](const OverhangRow& row) { return row.what == what; });
    return at == catalogue.overhangs.end() ? catalogue.overhangs.front() : *at;
}

}  // namespace halfnut::cutting
