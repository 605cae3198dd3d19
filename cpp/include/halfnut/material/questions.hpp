#pragma once
/// Alloys as a person asks for them.

#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::material {

struct AlloyAsk {
    std::string name;
};

/// An alloy's row in words, with where each of its properties comes from.
struct AlloyAnswer {
    AlloyRow row;
    std::vector<std::string> group_names;
    std::vector<std::string> hazards;
    std::vector<std::string> traits;
    std::vector<std::string> fluids;     ///< operation and cutting fluid
    std::vector<std::string> strengths;  ///< least ones by form and thickness, as they are printed
    std::vector<std::string> lacking;    ///< what forces and deflections of the work need, and the row lacks
    int index = 0;                       ///< place in Catalogue::alloys
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const RecordRow kAlloyRecord;

/// The alloy of a name.
///
/// Errors
///   NotTabulatedError   nothing of that name, or several conditions to choose from
///   TableError          the shop's row of that name cannot be used
/// Example
///   asked by name "6061-T6" hardness_hb is 95
[[nodiscard]] AlloyAnswer alloy(const AlloyAsk& asked, const Asking& asking);

}  // namespace halfnut::material
