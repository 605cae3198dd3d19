#include "halfnut/cutting/kin_rows.hpp"

#include "kin.hpp"

namespace halfnut::cutting {

namespace {

template <class Row>
std::vector<KinRow<Row>> kin_of(const Kin& kin, Rows<Row> table) {
    std::vector<KinRow<Row>> out;
    for (const Row& row : table) {
        if (const int distance = kin.distance(row.key); distance >= 0) {
            out.push_back({&row, distance});
        }
    }
    return out;
}

}  // namespace

KinRows::KinRows(const Catalogue& catalogue, const material::AlloyRow& alloy) {
    const Kin kin(catalogue, alloy);
    speeds = kin_of(kin, catalogue.speeds);
    lives = kin_of(kin, catalogue.tool_lives);
}

}  // namespace halfnut::cutting
