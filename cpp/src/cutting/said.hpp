#pragma once
// How the answers of this room are said: what a person reads beside the figures.

#include <fmt/format.h>

#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/spell.hpp"

namespace halfnut::cutting {

/// The system of an answer's unit, in or mm.
inline UnitSystem system_of(std::string_view unit) {
    return unit == "in" ? UnitSystem::inch : UnitSystem::metric;
}

struct ChaseAnswer;
struct ChooseAnswer;
struct CutAnswer;
struct Division;
struct GearTrainAnswer;
struct LimitLeft;
struct GearTrainsAnswer;
struct KnurlSetup;
struct PairsAnswer;
struct Polygon;
struct Positions;
struct Share;
struct SineBar;

/// What an answer says beside its figures, made of them.
void say(GearTrainAnswer& train);
void say(GearTrainsAnswer& trains);
void say(PairsAnswer& answer);
void say(ChaseAnswer& chase);
void say(KnurlSetup& setup);
void say(Positions& answer);
void say(Division& answer);
void say(Polygon& answer);
void say(SineBar& answer);

/// What a cut says beside its figures: see its declaration.
[[nodiscard]] std::string operation_said(const CutAnswer& cut);
[[nodiscard]] std::vector<std::string> taken(const CutAnswer& cut);
[[nodiscard]] bool is_milled(const CutAnswer& cut);
[[nodiscard]] bool is_by_hand(const CutAnswer& cut);
[[nodiscard]] std::string spindle_text(const CutAnswer& cut);
[[nodiscard]] std::string feed_text(const CutAnswer& cut);
[[nodiscard]] std::optional<std::string> dial_text(const CutAnswer& cut);
[[nodiscard]] std::optional<std::string> passes_said(const CutAnswer& cut);
[[nodiscard]] std::optional<std::string> pecks_said(const CutAnswer& cut);
[[nodiscard]] std::string band(const CutAnswer& cut);
[[nodiscard]] std::optional<std::string> feed_limit(const CutAnswer& cut);
[[nodiscard]] std::vector<LimitLeft> left(const CutAnswer& cut);
[[nodiscard]] std::vector<LimitLeft> over(const CutAnswer& cut);
[[nodiscard]] std::vector<std::string> edge_limits(const CutAnswer& cut);
[[nodiscard]] std::string setting_said(const CutAnswer& cut);

/// What a choice of passes says beside its figures.
[[nodiscard]] bool is_found(const ChooseAnswer& answer);
[[nodiscard]] std::string tightest(const ChooseAnswer& answer);
[[nodiscard]] double cutting_s(const ChooseAnswer& answer);
[[nodiscard]] double returning_s(const ChooseAnswer& answer);
[[nodiscard]] double dials_s(const ChooseAnswer& answer);
[[nodiscard]] double levers_s(const ChooseAnswer& answer);
[[nodiscard]] double measuring_s(const ChooseAnswer& answer);
[[nodiscard]] std::string depths_said(const ChooseAnswer& answer);
[[nodiscard]] std::vector<std::pair<std::string, std::string>> table_said(const ChooseAnswer& answer);
[[nodiscard]] double off_line_mm(const ChooseAnswer& answer);
[[nodiscard]] std::optional<double> fewest_turns(const ChooseAnswer& answer);
[[nodiscard]] std::optional<double> most_turns(const ChooseAnswer& answer);
[[nodiscard]] std::optional<double> limit_cost_s(const ChooseAnswer& answer);
[[nodiscard]] std::vector<Share> left_of_limits(const ChooseAnswer& answer);
[[nodiscard]] std::string neighbours_said(const ChooseAnswer& answer);
[[nodiscard]] std::optional<double> next_more_s(const ChooseAnswer& answer);

/// "1 turn", "3 turns".
inline std::string counted(int count, std::string_view what) {
    return std::to_string(count) + " " + std::string(what) + (std::abs(count) == 1 ? "" : "s");
}

/// Texts with something between.
inline std::string joined(const std::vector<std::string>& texts, std::string_view between) {
    return fmt::format("{}", fmt::join(texts, between));
}

/// Where levers stand, in one line: "range B, lever 2".
inline std::string levers_said(const std::vector<std::pair<std::string, std::string>>& positions) {
    std::vector<std::string> out;
    out.reserve(positions.size());
    for (const auto& [control, setting] : positions) {
        out.push_back(fmt::format("{} {}", control, setting));
    }
    return joined(out, ", ");
}

}  // namespace halfnut::cutting
