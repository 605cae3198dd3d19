#pragma once
/// How far a force may lie from the one computed, as a question.

#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/kinds.hpp"

namespace halfnut::cutting {

struct BandAsk {
    std::string alloy;
    Process process = Process::turn;
};

/// Where a measured force lies. NaN where a figure is not known.
struct BandAnswer {
    ForceBand band;
    ForceConstants constants;
    std::string alloy;
    Process process{};
    int papers = 0;
    int rows = 0;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kForceBand;

/// Band of an alloy's forces, and the constants that they are computed with.
[[nodiscard]] BandAnswer force_band(const BandAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
