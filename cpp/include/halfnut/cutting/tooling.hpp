#pragma once
/// What a person names when a cut is asked for: the tool, and what holds the work.

#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/cutting/tables.hpp"

namespace halfnut::cutting {

/// A tool by its name; the plain one of high-speed steel where nobody named any.
struct Tool {
    const ToolRow* row = nullptr;
    bool named = false;
    bool tells = false;  ///< the row says more than the material, or is the shop's own
};
[[nodiscard]] Tool find_tool(const Catalogue& catalogue, std::string_view name);

/// Names of every tool of the tables.
[[nodiscard]] std::vector<std::string> tool_names(const Catalogue& catalogue);

/// The place of the holder that is meant, -1 when there is none; one that nobody named is assumed.
[[nodiscard]] int holder_place(const machine::Machine* machine, const Holder& asked, Hold hold,
                               std::vector<std::string>& assumed);

}  // namespace halfnut::cutting
