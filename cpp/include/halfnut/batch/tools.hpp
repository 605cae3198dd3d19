#pragma once
/// Tools of a batch by their names: the material of each row's, and what its form gives where a row is open.

#include <array>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/batch/run.hpp"
#include "halfnut/core/catalogue.hpp"
#include "halfnut/cutting/tables.hpp"

namespace halfnut::batch {

/// A number of a cut that a tool's row may give.
struct ToolForm {
    std::string_view argument;
    double cutting::ToolRow::* member;
};

inline constexpr std::array kTurnForms{
    ToolForm{"nose_radius_mm", &cutting::ToolRow::nose_radius_mm},
    ToolForm{"entering_deg", &cutting::ToolRow::entering_deg},
    ToolForm{"rake_deg", &cutting::ToolRow::rake_deg},
};
inline constexpr std::array kHoleForms{ToolForm{"point_deg", &cutting::ToolRow::point_deg}};
inline constexpr std::array kMillForms{
    ToolForm{"flutes", &cutting::ToolRow::teeth},
    ToolForm{"entering_deg", &cutting::ToolRow::entering_deg},
    ToolForm{"nose_radius_mm", &cutting::ToolRow::nose_radius_mm},
    ToolForm{"stick_out_mm", &cutting::ToolRow::stick_out_mm},
};

class ToolColumns {
   public:
    /// The tools of rows.
    ///
    /// Given
    ///   names  of tools; one that there is not marks its rows
    ///   at     places among the names; a row of any other number has the plain tool
    /// Errors
    ///   TableError   the shop's row of a tool cannot be used
    ToolColumns(const Catalogue& catalogue, const std::vector<std::string>& names, const Codes& at,
                std::size_t rows);
    ToolColumns(const ToolColumns&) = delete;
    ToolColumns& operator=(const ToolColumns&) = delete;

    /// Codes of the materials, -1 where there is no such tool.
    [[nodiscard]] Codes materials() const noexcept;

    /// What a row gives, else its tool's. The column is kept here.
    [[nodiscard]] Numbers or_of_tool(const Numbers& given, double cutting::ToolRow::* member);

   private:
    /// Null: there is none of that name.
    [[nodiscard]] const cutting::ToolRow* tool(std::int32_t place) const noexcept;

    Codes at_;
    std::size_t rows_;
    std::vector<const cutting::ToolRow*> tools_;  ///< by name, the plain one last
    std::vector<std::int32_t> materials_;
    std::deque<std::vector<double>> kept_;
};

}  // namespace halfnut::batch
