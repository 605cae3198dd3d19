// What a cut says beside its figures.

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cut_answer.hpp"
#include "halfnut/cutting/questions.hpp"
#include "said.hpp"

namespace halfnut::cutting {
namespace {

constexpr double kSame = 1e-9;  // a bound that is met is not passed

/// Lever positions behind the figure that they set.
std::string setting(const std::vector<std::pair<std::string, std::string>>& positions) {
    return positions.empty() ? "" : ": " + levers_said(positions);
}

std::vector<std::string> spelled(const std::vector<double>& depths_mm, std::size_t count, FigureKind kind,
                                 std::string_view unit) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < std::min(count, depths_mm.size()); ++i) {
        out.push_back(spell(depths_mm[i], kind, system_of(unit)));
    }
    return out;
}

template <class Wanted>
std::vector<LimitLeft> others(const CutAnswer& cut, const Wanted& wanted) {
    std::vector<LimitLeft> out;
    std::copy_if(cut.limits.begin(), cut.limits.end(), std::back_inserter(out), [&](const LimitLeft& limit) {
        return limit.name != enum_name(cut.cut.limited_by) && wanted(limit.slack);
    });
    return out;
}

}  // namespace

std::string operation_said(const CutAnswer& cut) {
    std::string out = cut.operation;
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

std::vector<std::string> taken(const CutAnswer& cut) {
    std::vector<std::string> out;
    std::copy_if(cut.assumed.begin(), cut.assumed.end(), std::back_inserter(out),
                 [](const std::string& each) {
                     return !each.starts_with("depth") && !each.starts_with("nose radius");
                 });
    return out;
}

bool is_milled(const CutAnswer& cut) {
    return cut.operation.starts_with("mill");
}

bool is_by_hand(const CutAnswer& cut) {
    return std::any_of(cut.told.begin(), cut.told.end(),
                       [](const Told& each) { return each.code == "tap_by_hand"; });
}

std::string spindle_text(const CutAnswer& cut) {
    return fmt::format("{}{:.0f} rev/min{}", is_by_hand(cut) ? "tap by hand, or at the slowest step: " : "",
                       cut.cut.spindle_rpm, setting(cut.spindle_positions));
}

std::string feed_text(const CutAnswer& cut) {
    constexpr std::string_view kFeed = "feed ";
    std::string_view said = cut.feed_said ? std::string_view(*cut.feed_said) : "-";
    said.remove_prefix(said.starts_with(kFeed) ? kFeed.size() : 0);
    return std::string(said) + setting(cut.feed_positions);
}

std::optional<std::string> dial_text(const CutAnswer& cut) {
    if (!cut.dial_slide) {
        return std::nullopt;
    }
    std::vector<std::string> parts;
    for (const auto& [count, what] : {std::pair(cut.dial_turns, "turn"), std::pair(cut.dial_line, "line")}) {
        if (count.value_or(0) != 0) {
            parts.push_back(counted(*count, what));
        }
    }
    return parts.empty() ? std::nullopt : std::optional(*cut.dial_slide + " dial " + joined(parts, " + "));
}

std::optional<std::string> passes_said(const CutAnswer& cut) {
    constexpr std::size_t kShown = 3;
    if (const std::size_t count = cut.peck_depths_mm.size(); count > 0) {
        return fmt::format("{} pecks: clear the drill at {}{}", count,
                           joined(spelled(cut.peck_depths_mm, kShown, FigureKind::size, cut.unit), ", "),
                           count > kShown ? ", ..." : "");
    }
    if (cut.cut.passes < 2) {
        return std::nullopt;
    }
    std::string width;
    if (!std::isnan(cut.cut.width_mm)) {
        width = ", each " + spell(cut.cut.width_mm, FigureKind::size, system_of(cut.unit)) + " wide";
    }
    return fmt::format("{}: {} across, {} down{}", cut.cut.passes, cut.cut.passes_across, cut.cut.passes_down,
                       width);
}

std::optional<std::string> pecks_said(const CutAnswer& cut) {
    const std::size_t count = cut.peck_depths_mm.size();
    return count < 2 ? std::nullopt
                     : std::optional(joined(
                           spelled(cut.peck_depths_mm, count - 1, FigureKind::travel, cut.unit), ", "));
}

std::string band(const CutAnswer& cut) {
    return cut.force_verified.value_or(false) ? "verified" : "unverified";
}

std::optional<std::string> feed_limit(const CutAnswer& cut) {
    const LimitCode held = cut.cut.feed_limited_by;
    const bool exact = enum_name(cut.cut.feed_source) == "exact";
    return exact || held == cut.cut.limited_by || held == LimitCode::none
               ? std::nullopt
               : std::optional<std::string>(enum_name(held));
}

std::vector<LimitLeft> left(const CutAnswer& cut) {
    return others(cut, [](double slack) { return slack >= -kSame; });
}

std::vector<LimitLeft> over(const CutAnswer& cut) {
    return others(cut, [](double slack) { return slack < -kSame; });
}

std::vector<std::string> edge_limits(const CutAnswer& cut) {
    std::vector<std::string> judged;
    std::vector<std::string> passed;
    for (const LimitLeft& limit : cut.limits) {
        if (cut.holds_at_edge && follows_force(limit.name) && !std::isnan(limit.slack)) {
            judged.push_back(limit.name);
            if (limit.slack < 0.0) {
                passed.push_back(limit.name);
            }
        }
    }
    return passed.empty() ? judged : passed;
}

std::string setting_said(const CutAnswer& cut) {
    return fmt::format("{}; {}{}", spindle_text(cut), cut.feed_said.value_or("feed -"),
                       setting(cut.feed_positions));
}

}  // namespace halfnut::cutting
