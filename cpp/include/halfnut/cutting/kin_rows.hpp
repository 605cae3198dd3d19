#pragma once
/// The rows that an alloy's kin has in the tables, found once for many questions about that alloy.

#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// A row and how near of kin: 0 of the alloy itself, 1 of its group, 2 of the group above, ...
template <class Row>
struct KinRow {
    const Row* row = nullptr;
    int distance = -1;
};

/// Rows of any kin, in the order of their tables.
struct KinRows {
    KinRows(const Catalogue& catalogue, const material::AlloyRow& alloy);

    std::vector<KinRow<SpeedRow>> speeds;
    std::vector<KinRow<ToolLifeRow>> lives;
};

}  // namespace halfnut::cutting
