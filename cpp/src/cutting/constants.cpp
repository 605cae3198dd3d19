#include "halfnut/cutting/constants.hpp"

#include <cmath>

#include "halfnut/cutting/force.hpp"
#include "halfnut/rules.hpp"

namespace halfnut::cutting {

ForceConstants force_constants(const Catalogue& catalogue, const material::AlloyRow& alloy,
                               double hardness_hb) noexcept {
    using material::AlloyRow;
    ForceConstants out;
    if (!std::isnan(alloy.kc11_n_mm2)) {
        out.kc11_n_mm2 = alloy.kc11_n_mm2;
        out.mc = alloy.mc;
        out.rule = rule::kc_tabulated;
        out.row = row_ref(catalogue.alloys, alloy, source_place<AlloyRow>("kc_source"));
    } else if (!std::isnan(alloy.unit_power_hp_in3_min) && !std::isnan(alloy.unit_power_thickness_mm)) {
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

}  // namespace halfnut::cutting
