#pragma once
// Rows of cuts that go through evaluate(): the work of a row, and its answer into the columns.

#include "halfnut/batch/cuts.hpp"
#include "halfnut/cutting/kinds.hpp"

namespace halfnut::batch {

inline cutting::Work work_of(const CutSetting& setting, const WorkColumns& columns, std::size_t row) {
    const auto place = static_cast<std::size_t>(columns.alloy.at(row));
    const std::int32_t alloy = place < setting.alloys.size() ? setting.alloys[place] : -1;
    return {alloy < 0 ? cutting::kNoAlloy : static_cast<std::uint16_t>(alloy), columns.hardness_hb.at(row)};
}

/// Whether a row's tool is one; else the row's status.
inline Status check_tool(const WorkColumns& columns, std::size_t row) {
    constexpr std::size_t kTools = enum_names(cutting::ToolMaterial{}).size();
    return static_cast<std::size_t>(columns.tool_material.at(row)) < kTools
               ? Status{}
               : Status{StatusCode::unknown_name, 0xff};
}

inline void write_cut(const CutColumns& out, std::size_t row, Status status, const cutting::CutResult& result,
                      std::int32_t case_id) {
    for (std::size_t i = 0; i < cutting::kCutFigures.size(); ++i) {
        if (out.figures[i] != nullptr) {
            out.figures[i][row] = status.ok() ? result.*(cutting::kCutFigures[i].member) : kNaN;
        }
    }
    if (out.spindle_step != nullptr) {
        out.spindle_step[row] = static_cast<std::uint16_t>(result.spindle_step);
    }
    if (out.feed_step != nullptr) {
        out.feed_step[row] = static_cast<std::uint16_t>(result.feed_step);
    }
    if (out.passes != nullptr) {
        out.passes[row] =
            static_cast<std::uint16_t>(status.ok() ? result.passes : 0);  // bounds::kPasses fits
    }
    if (out.limited_by != nullptr) {
        out.limited_by[row] =
            static_cast<std::uint8_t>(status.ok() ? result.limited_by : cutting::LimitCode::none);
    }
    if (out.cautions != nullptr) {
        out.cautions[row] = status.ok() ? result.cautions : 0;
    }
    if (out.case_id != nullptr) {
        out.case_id[row] = case_id;
    }
    out.outcome.set(row, status);
}

}  // namespace halfnut::batch
