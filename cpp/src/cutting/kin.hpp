#pragma once
// The rows of a table that are kin to an alloy, found once or looked up now.

#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/cutting/kin_rows.hpp"
#include "halfnut/material/kin.hpp"

namespace halfnut::cutting {

using material::Kin;

/// Every row of a table that is wanted and of kin, in order: those known, else what is found of the table.
template <class Row, class Wanted, class Distance, class Visit>
void each_kin_row(Rows<Row> table, const std::vector<KinRow<Row>>* known, Wanted wanted, Distance distance,
                  Visit visit) {
    if (known != nullptr) {
        for (const KinRow<Row>& each : *known) {
            if (wanted(*each.row)) {
                visit(each);
            }
        }
        return;
    }
    for (const Row& row : table) {
        if (wanted(row)) {
            if (const int near = distance(row); near >= 0) {
                visit(KinRow<Row>{&row, near});
            }
        }
    }
}

}  // namespace halfnut::cutting
