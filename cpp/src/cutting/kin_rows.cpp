#include "halfnut/cutting/kin_rows.hpp"

#include "halfnut/material/alloy.hpp"
#include "kin.hpp"

namespace halfnut::cutting {

KinRows::KinRows(const Catalogue& catalogue, const material::AlloyRow& alloy) {
    const Kin kin(catalogue, alloy);
    for (const SpeedRow& row : catalogue.speeds) {
        if (const int distance = kin.distance(row.key); distance >= 0) {
            speeds.push_back({&row, distance});
        }
    }
    for (const ToolLifeRow& row : catalogue.tool_lives) {
        if (const int distance = material::kinship(catalogue, alloy, row.key); distance >= 0) {
            lives.push_back({&row, distance});
        }
    }
}

}  // namespace halfnut::cutting
