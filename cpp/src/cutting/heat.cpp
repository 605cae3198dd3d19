#include "halfnut/cutting/heat.hpp"

#include "halfnut/cutting/orthogonal.hpp"

namespace halfnut::cutting {

CutHeat heat_of(const material::AlloyRow& alloy, const CutResult& cut) noexcept {
    CutHeat out;
    const double rho_c = alloy.density_kg_m3 * alloy.specific_heat_j_kg_k * 1e-9;  // J/(mm3 K)
    const double diffusivity = alloy.conductivity_w_m_k * 1e-3 / rho_c;            // mm2/s
    const double speed = cut.cutting_speed_m_min;
    const double chip = cut.chip_thickness_mm;
    const bool known =
        diffusivity > 0.0 && speed > 0.0 && chip > 0.0 && cut.spindle_power_kw > 0.0 && cut.mrr_cm3_min > 0.0;
    if (!known) {
        return out;
    }
    const double energy_j_mm3 = 60.0 * cut.spindle_power_kw / cut.mrr_cm3_min;
    out.chip_rise_k = TemperatureRise::compute(energy_j_mm3, rho_c, speed, chip, diffusivity);
    out.heat_to_work_share = HeatToWork::compute(speed, chip, diffusivity, kUsualShearDeg);
    out.heat_to_work_w = 1000.0 * cut.spindle_power_kw * out.heat_to_work_share;
    out.heat_to_work_high_w = 1000.0 * cut.spindle_power_high_kw * out.heat_to_work_share;
    return out;
}

}  // namespace halfnut::cutting
