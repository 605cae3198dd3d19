#include "halfnut/batch/tools.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "halfnut/core/error.hpp"
#include "halfnut/cutting/tooling.hpp"

namespace halfnut::batch {

using namespace cutting;

namespace {

const ToolRow* known_tool(const Catalogue& catalogue, const std::string& name) {
    try {
        return find_tool(catalogue, name).row;
    } catch (const DomainError&) {
        return nullptr;
    }
}

std::int32_t material_of(const ToolRow* tool) noexcept {
    return tool == nullptr ? -1 : static_cast<std::int32_t>(tool->tool_material);
}

}  // namespace

ToolColumns::ToolColumns(const Catalogue& catalogue, const std::vector<std::string>& names, const Codes& at,
                         std::size_t rows)
    : at_(at), rows_(rows) {
    const auto is_name = [&](std::int32_t place) {
        return place >= 0 && static_cast<std::size_t>(place) < names.size();
    };
    std::vector<bool> looked_up(names.size(), false);  // of many names a few rows have but some
    tools_.assign(names.size() + 1, nullptr);
    tools_.back() = find_tool(catalogue, "").row;
    for (std::size_t row = 0; row < (at.data == nullptr ? 1 : rows); ++row) {
        if (is_name(at.at(row))) {
            const auto place = static_cast<std::size_t>(at.at(row));
            if (!looked_up[place]) {
                looked_up[place] = true;
                tools_[place] = known_tool(catalogue, names[place]);
            }
        }
    }
    if (at.data != nullptr) {
        materials_.resize(rows);
        std::transform(at.data, at.data + rows, materials_.begin(),
                       [&](std::int32_t place) { return material_of(tool(place)); });
    }
}

const ToolRow* ToolColumns::tool(std::int32_t place) const noexcept {
    const auto at = static_cast<std::size_t>(place);
    return place >= 0 && at < tools_.size() ? tools_[at] : tools_.back();
}

Codes ToolColumns::materials() const noexcept {
    return at_.data == nullptr ? Codes{nullptr, material_of(tool(at_.all))} : Codes{materials_.data(), -1};
}

Numbers ToolColumns::or_of_tool(const Numbers& given, double ToolRow::* member) {
    const auto of = [&](const ToolRow* tool) { return tool == nullptr ? kNaN : tool->*member; };
    const bool for_all = given.data == nullptr && given.given();
    if (for_all || std::all_of(tools_.begin(), tools_.end(),
                               [&](const ToolRow* tool) { return std::isnan(of(tool)); })) {
        return given;
    }
    if (given.data == nullptr && at_.data == nullptr) {
        return {nullptr, of(tool(at_.all))};
    }
    std::vector<double> column(rows_);
    for (std::size_t row = 0; row < rows_; ++row) {
        const double own = given.at(row);
        column[row] = std::isnan(own) ? of(tool(at_.at(row))) : own;
    }
    return {kept_.emplace_back(std::move(column)).data(), kNaN};
}

}  // namespace halfnut::batch
