// What is said of setting out at the mill.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "halfnut/cutting/layout.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

constexpr double kSecondsOfArc = 3600.0;
constexpr std::size_t kShown = 12;  // divisions of a long count that are said

std::string length(double mm, std::string_view unit) {
    return spell(mm + 0.0, FigureKind::length, system_of(unit));
}

std::string said_of(const DivideMove& move) {
    std::vector<std::string> parts;
    if (move.turns != 0) {
        parts.push_back(counted(move.turns, "turn"));
    }
    if (move.holes != 0) {
        parts.push_back(fmt::format("{} of {}", counted(move.holes, "hole"), move.circle));
    }
    std::string out = parts.empty() ? "0 turns" : joined(parts, " + ");
    if (move.other_circle != 0) {
        out += fmt::format(" {} {} of {}", move.other_holes > 0 ? "+" : "−",
                           counted(std::abs(move.other_holes), "hole"), move.other_circle);
    }
    return out;
}

std::string error_of(const DivideMove& move) {
    return move.error_deg == 0.0 ? "exact"
                                 : fmt::format("{:+.1f} seconds of arc", move.error_deg * kSecondsOfArc);
}

std::string said_of(const PlaceToGo& place, std::string_view unit) {
    const auto axis = [&](const char* name, double mm, const std::optional<std::string>& reading, bool back) {
        const std::string at = length(mm, unit);
        return fmt::format("{} {}{}{}", name, at, reading && *reading != at ? " = " + *reading : "",
                           back ? " (back past it first)" : "");
    };
    return fmt::format("{}, {}", axis("X", place.x_mm, place.x_reading, place.back_x),
                       axis("Y", place.y_mm, place.y_reading, place.back_y));
}

}  // namespace

void say(Positions& answer) {
    const std::string come =
        answer.approach ? fmt::format(", each come to from one side ({})", *answer.approach) : "";
    answer.said = fmt::format("{}, {}{}", counted(answer.holes, "hole"), answer.pattern, come);
    if (!std::isnan(answer.edge_mm)) {
        const std::string dial = answer.edge_reading ? ", " + *answer.edge_reading : "";
        answer.zero_said =
            fmt::format("{} on from where the finder touches{}", length(answer.edge_mm, answer.unit), dial);
    }
    for (const PlaceToGo& place : answer.places) {
        answer.places_said.emplace_back(fmt::format("hole {}", place.hole), said_of(place, answer.unit));
    }
    if (!std::isnan(answer.check_mm)) {
        answer.check_said =
            fmt::format("{} from hole {} to {}, before drilling", length(answer.check_mm, answer.unit),
                        answer.check_from, answer.check_to);
    }
}

void say(Division& answer) {
    const DivideMove& move = answer.move;
    const std::string what = answer.divisions.value_or(0) != 0
                                 ? fmt::format("{} divisions", *answer.divisions)
                                 : fmt::format("{:.6g}°", answer.angle_deg);
    answer.move_said = said_of(move);
    answer.said = fmt::format("{}: {}{}", what, answer.move_said,
                              answer.exact ? "" : ", the nearest: " + error_of(move));
    if (move.holes != 0) {
        answer.arms_said =
            fmt::format("over {}, {} holes with the pin's", counted(move.holes, "space"), move.holes + 1);
    }
    std::vector<std::string> also;
    for (const DivideMove& each : answer.also) {
        also.push_back(said_of(each));
    }
    answer.also_said = joined(also, "; ");
    if (answer.direct_step) {
        answer.direct_said = fmt::format("every {} holes of the plate of {}", *answer.direct_step,
                                         answer.direct_holes.value_or(0));
    }
    for (const DivideMove& each : answer.two_circles) {
        answer.two_said.push_back(fmt::format("{}, one plate: {}", said_of(each), error_of(each)));
    }
    for (std::size_t i = 0; i < std::min(answer.steps.size(), kShown); ++i) {
        const DivideStep& step = answer.steps[i];
        answer.count_said.push_back(fmt::format("division {}: {} + {} from the start", step.division,
                                                counted(step.turns, "turn"), counted(step.holes, "hole")));
    }
    if (answer.steps.size() > kShown) {
        answer.count_said.push_back(
            fmt::format("and so on to {}; all with --json", answer.steps.back().division));
    }
}

void say(Polygon& answer) {
    if (!answer.division) {
        return;
    }
    const Division& division = *answer.division;
    const std::string direct = division.direct_step
                                   ? fmt::format("; or every {} holes of {}, direct", *division.direct_step,
                                                 division.direct_holes.value_or(0))
                                   : "";
    answer.dividing = division.move_said + direct;
}

void say(SineBar& answer) {
    const UnitSystem system = system_of(answer.unit);
    answer.said = fmt::format("stack {} under a bar of {}: {:.6g}°", length(answer.set_mm, answer.unit),
                              spell(answer.bar_mm, FigureKind::size, system), answer.angle_deg);
    answer.error_said =
        fmt::format("{:+.1f} seconds of arc; {:.2g} for each {}", answer.error_deg * kSecondsOfArc,
                    answer.error_each_deg * kSecondsOfArc, answer.unit == "in" ? "0.0001 in" : "0.001 mm");
}

}  // namespace halfnut::cutting
