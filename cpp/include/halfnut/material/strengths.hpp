#pragma once
/// Minimum strengths by form: what a load is to rest on, not typical values.

#include <string_view>

#include "halfnut/catalogue.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::material {

struct MinimumStrength {
    const StrengthRow* row = nullptr;
    double tensile_mpa = kNaN;
    double yield_mpa = kNaN;    ///< NaN: the specification sets none
    double shear_mpa = kNaN;    ///< NaN: none known
    double bearing_mpa = kNaN;  ///< NaN: none known
    double over_mm = kNaN;      ///< range of thickness; NaN: open
    double up_to_mm = kNaN;
    bool weakest_of_several = false;  ///< no thickness was given, and the row is the weakest of the form's
};

/// Minimum strengths of an alloy in a form.
///
/// Given
///   alloy         one alloy in one condition, see find_alloy
///   form          "bar", "casting", "drawn tube", "extrusion", "plate", "sheet"
///   thickness_mm  diameter of a bar, thickness of plate, sheet or extrusion, wall of a tube, mm; NaN: not
///   known,
///                 the weakest row of the form is taken
/// Returned
///   strengths in MPa with their row
/// Errors
///   NotTabulatedError  no minimum for this alloy, this form (the message lists the forms) or this thickness
///   (it
///                      lists the ranges)
///   DomainError        a thickness that is not > 0
/// Example
///   minimum_strength(builtin(), find_alloy(builtin(), "6061-T6"), "drawn tube").tensile_mpa = 289.58
[[nodiscard]] MinimumStrength minimum_strength(const Catalogue& catalogue, const AlloyRow& alloy,
                                               std::string_view form, double thickness_mm = kNaN);

}  // namespace halfnut::material
