// Level-1 formulas of fits, in the order of the domain: a line here is all that every face needs of one.

#include <array>

#include "halfnut/core/formula.hpp"
#include "halfnut/fits/cylindrical.hpp"

namespace halfnut::fits {

std::span<const FormulaRow> formulas() noexcept {
    static constexpr std::array kFormulas{
        row<ToleranceUnit>("Standard tolerance unit of ISO 286 at a size, um."),
    };
    return kFormulas;
}

}  // namespace halfnut::fits
