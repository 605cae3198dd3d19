#pragma once
/// Rows that a walked job is judged by.

#include <string_view>

#include "halfnut/core/schema.hpp"

namespace halfnut::job {

/// Run-out of work that is held anew, full indicator reading.
struct RunOutRow {
    std::string_view grip;  ///< as a Grip is spelled, or "indicated"
    double low_mm = 0;
    double high_mm = 0;
    SourceId source;
    std::string_view note;
};

}  // namespace halfnut::job

namespace halfnut {

template <>
struct Schema<job::RunOutRow> {
    using Row = job::RunOutRow;
    static constexpr std::string_view table = "job/run_outs";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(grip), HALFNUT_REQUIRED(low_mm), HALFNUT_REQUIRED(high_mm),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
