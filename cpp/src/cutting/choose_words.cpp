// What a choice of passes says beside its figures.

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/cutting/choosing.hpp"
#include "said.hpp"

namespace halfnut::cutting {
namespace {

using Rows = std::vector<std::pair<std::string, std::string>>;

double summed(const ChooseAnswer& answer, double ChosenPass::* share) {
    double out = 0.0;
    for (const PlannedPass& each : answer.passes) {
        out += each.chosen.*share;
    }
    return out;
}

std::string number(double mm, std::string_view unit) {
    return spell_number(mm, FigureKind::length, system_of(unit));
}

/// Characters of a text, which may be more bytes.
std::size_t wide(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char each) {
        return (static_cast<unsigned char>(each) & 0xC0U) != 0x80U;
    }));
}

std::string padded(const std::string& text, std::size_t width) {
    return text + std::string(width - std::min(width, wide(text)), ' ');
}

/// Feeds by hand, in turns of the handle a minute; none where no pass has one.
std::optional<std::pair<double, double>> hand_turns(const ChooseAnswer& answer) {
    std::optional<std::pair<double, double>> out;
    for (const PlannedPass& each : answer.passes) {
        const double turns = each.cut.cut.hand_turns_per_min;
        if (!std::isnan(turns)) {
            out = out ? std::pair(std::min(out->first, turns), std::max(out->second, turns))
                      : std::pair(turns, turns);
        }
    }
    return out;
}

std::optional<double> cost_of(const ChooseAnswer& answer, std::string_view limit) {
    const auto found = std::find_if(answer.prices.begin(), answer.prices.end(),
                                    [&](const Seconds& each) { return each.name == limit; });
    return found == answer.prices.end() ? std::nullopt : std::optional(found->saved_s);
}

}  // namespace

bool is_found(const ChooseAnswer& answer) {
    return !answer.passes.empty();
}

std::string tightest(const ChooseAnswer& answer) {
    const auto least =
        std::min_element(answer.slack.begin(), answer.slack.end(), [](const Share& one, const Share& other) {
            return one.share < other.share || (one.share == other.share && one.name < other.name);
        });
    return least == answer.slack.end() ? "none" : least->name;
}

double cutting_s(const ChooseAnswer& answer) {
    return summed(answer, &ChosenPass::cut_s);
}
double returning_s(const ChooseAnswer& answer) {
    return summed(answer, &ChosenPass::return_s);
}
double dials_s(const ChooseAnswer& answer) {
    return summed(answer, &ChosenPass::dial_s);
}
double levers_s(const ChooseAnswer& answer) {
    return summed(answer, &ChosenPass::change_s);
}
double measuring_s(const ChooseAnswer& answer) {
    return summed(answer, &ChosenPass::measure_s) + (is_found(answer) ? answer.chosen.final_measure_s : 0.0);
}

std::string depths_said(const ChooseAnswer& answer) {
    std::vector<std::string> out;
    for (const PlannedPass& each : answer.passes) {
        out.push_back(number(each.chosen.depth_mm, answer.unit));
    }
    return joined(out, ", ");
}

/// A line a pass: depth, what it leaves, dial, levers.
Rows table_said(const ChooseAnswer& answer) {
    constexpr std::size_t kGap = 2;
    if (answer.passes.empty()) {
        return {};
    }
    const std::string head = answer.dial + " dial";
    std::vector<std::string> dials;
    std::size_t width = head.size();
    for (const PlannedPass& each : answer.passes) {
        dials.push_back(each.dial ? each.dial->said : each.measure.empty() ? "" : "as measured");
        width = std::max(width, wide(dials.back()));
    }
    width += kGap;
    Rows out{{"pass", fmt::format("{:>8}{:>10}  {}levers", "depth",
                                  std::isnan(answer.to_mm) ? "off" : "diameter", padded(head, width))}};
    std::string before;
    for (std::size_t i = 0; i < dials.size(); ++i) {
        const PlannedPass& pass = answer.passes[i];
        if (pass.chosen.measure_before) {
            out.emplace_back("", pass.measure);
        }
        std::string levers = setting_said(pass.cut);
        const bool same = levers == std::exchange(before, levers);
        out.emplace_back(std::to_string(pass.number),
                         fmt::format("{:>8}{:>10}  {}{}", number(pass.chosen.depth_mm, answer.unit),
                                     number(pass.chosen.after_mm, answer.unit), padded(dials[i], width),
                                     same ? "as before" : levers));
    }
    return out;
}

double off_line_mm(const ChooseAnswer& answer) {
    return std::abs(answer.chosen.remainder_mm);
}

std::optional<double> fewest_turns(const ChooseAnswer& answer) {
    const auto turns = hand_turns(answer);
    return turns ? std::optional(turns->first) : std::nullopt;
}

std::optional<double> most_turns(const ChooseAnswer& answer) {
    const auto turns = hand_turns(answer);
    return turns ? std::optional(turns->second) : std::nullopt;
}

std::optional<double> limit_cost_s(const ChooseAnswer& answer) {
    return cost_of(answer, enum_name(answer.chosen.limited_by));
}

/// What is left of each limit, the least first; what one costs stands beside it, but for the one told before.
std::vector<Share> left_of_limits(const ChooseAnswer& answer) {
    std::vector<Share> out = answer.slack;
    std::stable_sort(out.begin(), out.end(),
                     [](const Share& one, const Share& other) { return one.share < other.share; });
    for (Share& each : out) {
        if (each.name != enum_name(answer.chosen.limited_by)) {
            each.cost_s = cost_of(answer, each.name).value_or(kNaN);
        }
    }
    return out;
}

/// What one step up or down does in each pass; of all of them only where it holds in all of them.
std::string neighbours_said(const ChooseAnswer& answer) {
    std::vector<std::string> whole;
    std::vector<std::string> some;
    for (const auto& [name, holds] :
         {std::pair("slower", &ChosenPass::slower_holds), std::pair("faster", &ChosenPass::faster_holds)}) {
        std::vector<std::string> numbers;
        for (const PlannedPass& each : answer.passes) {
            if (each.chosen.*holds) {
                numbers.push_back(std::to_string(each.number));
            }
        }
        if (numbers.size() == answer.passes.size()) {
            whole.emplace_back(name);
        } else if (!numbers.empty()) {
            some.push_back(fmt::format("one step {} keeps every limit in pass{} {} alone", name,
                                       numbers.size() == 1 ? "" : "es", joined(numbers, ", ")));
        }
    }
    if (!whole.empty()) {
        some.insert(some.begin(),
                    fmt::format("one step {} keeps every limit in every pass", joined(whole, " or ")));
    }
    return some.empty() ? "one step up or down breaks a limit in every pass" : joined(some, "; ");
}

std::optional<double> next_more_s(const ChooseAnswer& answer) {
    const double more = answer.next_s - answer.chosen.time_s;
    return std::isnan(more) ? std::nullopt : std::optional(more);
}

}  // namespace halfnut::cutting
