// Level-1 formulas of machine, in the order of the domain: a line here is all that every face needs of one.

#include <array>

#include "halfnut/core/formula.hpp"
#include "halfnut/machine/gear_train.hpp"

namespace halfnut::machine {

std::span<const FormulaRow> formulas() noexcept {
    static constexpr std::array kFormulas{
        row<TrainLead>("Lead that a train of change gears gives, mm."),
        row<GearCentres>("Distance of the shafts of two gears in mesh, mm."),
    };
    return kFormulas;
}

}  // namespace halfnut::machine
