#pragma once
// How the answers of this room are said: what a person reads beside the figures.

#include <fmt/format.h>

#include <cstdlib>
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
struct Division;
struct GearTrainAnswer;
struct GearTrainsAnswer;
struct KnurlSetup;
struct PairsAnswer;
struct Polygon;
struct Positions;
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
