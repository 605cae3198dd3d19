#pragma once
/// Minimum strengths by form: what a load is to rest on, not typical values.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::material {

/// How a load lies to the grain of rolled, drawn or extruded stock.
enum class Grain : std::uint8_t { any, along, across };

constexpr auto enum_names(Grain /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Grain::any, string_view("")}, std::pair{Grain::along, string_view("along")},
                      std::pair{Grain::across, string_view("across")}};
}

struct MinimumStrength {
    const StrengthRow* row = nullptr;        ///< what the tensile strength is read from
    const StrengthRow* shear_row = nullptr;  ///< what shear is read from; null where none is known
    double tensile_mpa = kNaN;
    double yield_mpa = kNaN;    ///< NaN: the specification sets none
    double shear_mpa = kNaN;    ///< NaN: none known
    double bearing_mpa = kNaN;  ///< NaN: none known
    double over_mm = kNaN;      ///< range of thickness; NaN: open
    double up_to_mm = kNaN;
    bool least_of_grain = false;      ///< the row tells along from across, and the least of the two is taken
    bool weakest_of_several = false;  ///< no thickness was given: the least of the form's rows
};

/// Minimum strengths of an alloy in a form.
///
/// Given
///   alloy         one alloy in one condition, see find_alloy
///   form          "bar", "casting", "drawn tube", "extrusion", "plate", "sheet"
///   thickness_mm  diameter of a bar, thickness of plate, sheet or extrusion, wall of a tube, mm; NaN: not
///                 known, the least of the form's rows is taken
///   grain         how the load lies to the grain; any: the least of what the row gives
/// Returned
///   strengths in MPa with their row
/// Errors
///   NotTabulatedError  no minimum for this alloy, this form (the message lists the forms) or this thickness
///                      (it lists the ranges)
///   NotTabulatedError  across the grain is asked of a row that does not give both strengths across it
///   DomainError        a thickness that is not > 0
/// Notes
///   1) A row that does not tell along from across holds for along and any; its note says which it is, where
///      that is known.
/// Example
///   minimum_strength(builtin(), find_alloy(builtin(), "6061-T6"), "drawn tube").tensile_mpa = 289.58
[[nodiscard]] MinimumStrength minimum_strength(const Catalogue& catalogue, const AlloyRow& alloy,
                                               std::string_view form, double thickness_mm = kNaN,
                                               Grain grain = Grain::any);

}  // namespace halfnut::material
