// What is said of change gears: the train, its error, what to do at the lathe.

#include <fmt/format.h>

#include <cmath>
#include <string>

#include "halfnut/cutting/gears.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

std::string train_said(const GearTrainAnswer& train) {
    std::vector<std::string> pairs;
    for (std::size_t i = 0; i < train.drivers.size(); ++i) {
        pairs.push_back(fmt::format("{}/{}", train.drivers[i], train.driven[i]));
    }
    const std::string idler = train.idler ? fmt::format(", idler {}", *train.idler) : "";
    return joined(pairs, " × ") + idler;
}

/// The figures of a chart of feeds are rounded, so a feed is never called exact.
std::string error_said(const GearTrainAnswer& train) {
    constexpr double kWholePercents = 10.0;
    if (train.exact) {
        return train.what == "feed" ? "by the chart" : "exact";
    }
    const double percent = std::abs(train.error) * 100.0;
    const char* const way = train.error > 0.0 ? "long" : "short";
    return percent < kWholePercents ? fmt::format("{:.2g} % {}", percent, way)
                                    : fmt::format("{:.0f} % {}", percent, way);
}

std::string mounting_said(const GearTrainAnswer& train) {
    if (train.mounting == machine::Mounting::unchecked) {
        return "mounting unchecked: the machine's file lacks module, stud or banjo distances";
    }
    if (std::isnan(train.stud_to_banjo_mm) || std::isnan(train.banjo_to_screw_mm)) {
        return "stands on the lathe as its chart has it";
    }
    const UnitSystem system = system_of(train.lathe_unit);
    return fmt::format("closes with the banjo's stud {} from the stud, {} from the {}",
                       spell(train.stud_to_banjo_mm, FigureKind::length, system),
                       spell(train.banjo_to_screw_mm, FigureKind::length, system), train.ends_on);
}

/// What the error comes to over the engagement, against the tolerance of the pitch diameter.
std::optional<std::string> judgement(const GearTrainAnswer& train) {
    if (train.exact || std::isnan(train.lead_error_mm)) {
        return std::nullopt;
    }
    const UnitSystem system = system_of(train.unit);
    const std::string over =
        fmt::format("{} over {} of engagement", spell(train.lead_error_mm, FigureKind::fine, system),
                    spell(train.engagement_mm, FigureKind::length, system));
    if (std::isnan(train.pitch_tolerance_mm)) {
        return over;
    }
    return fmt::format("{} takes {} of the pitch diameter's {}: {}", over,
                       spell(train.on_pitch_diameter_mm, FigureKind::fine, system),
                       spell(train.pitch_tolerance_mm, FigureKind::length, system),
                       train.good_enough.value_or(false) ? "good enough" : "too much");
}

std::optional<std::string> indexing_said(const GearTrainAnswer& train) {
    if (train.starts < 2) {
        return std::nullopt;
    }
    if (!train.index_teeth) {
        return fmt::format(
            "the stud's {} teeth do not part into {}; move the compound, set along the work, by the pitch "
            "from "
            "start to start.",
            train.drivers.front(), train.starts);
    }
    return fmt::format(
        "chalk the tooth of the stud's {} that is in mesh and the gap that it lies in, swing the banjo "
        "clear, "
        "turn the spindle until {} teeth have passed, mesh again.",
        train.drivers.front(), *train.index_teeth);
}

std::vector<std::pair<std::string, std::string>> shafts_of(const GearTrainAnswer& train) {
    const bool compound = train.drivers.size() == 2;
    const std::string banjo = compound      ? fmt::format("{} with {}", train.driven[0], train.drivers[1])
                              : train.idler ? fmt::format("idler {}", *train.idler)
                                            : "an idler that meshes with both";
    return {{"stud", fmt::format("{}", train.drivers.front())},
            {"banjo", banjo},
            {train.ends_on, fmt::format("{}", train.driven.back())}};
}

std::vector<std::string> steps_of(const GearTrainAnswer& train) {
    std::vector<std::string> out;
    if (train.standard) {
        out.push_back(fmt::format("The gears stay as the chart is for: {}.", train.gears));
    } else {
        const std::string meshes = train.drivers.size() == 2 ? fmt::format(", {} meshing with the stud's {}",
                                                                           train.driven[0], train.drivers[0])
                                                             : "";
        out.emplace_back("Switch the lathe off at the mains before the gear guard is opened.");
        out.push_back(fmt::format(
            "Stud {}; banjo {}{}; {}'s shaft {}. A strip of paper between the teeth of each mesh "
            "gives the play.",
            train.shafts[0].second, train.shafts[1].second, meshes, train.ends_on, train.shafts[2].second));
    }
    if (!train.positions.empty()) {
        out.push_back(fmt::format("Gearbox: {}.", levers_said(train.positions)));
    }
    out.emplace_back(
        train.what == "lead"
            ? "Turn the spindle by hand through a turn, then take a scratch cut and measure it "
              "over many threads."
            : "Turn the spindle by hand through a turn, then measure the way of the carriage for "
              "ten turns.");
    if (train.indexing) {
        out.push_back(fmt::format("{} starts: {}", train.starts, *train.indexing));
    }
    return out;
}

/// A lead as a person says it: threads an inch of an inch one, else a length.
std::string travel_said(double mm, std::string_view unit) {
    return unit == "in" ? fmt::format("{:.6g} threads an inch", kInchMm / mm) : fmt::format("{:.6g} mm", mm);
}

}  // namespace

void say(GearTrainAnswer& train) {
    train.gears = train_said(train);
    train.error_said = error_said(train);
    train.mounting_said = mounting_said(train);
    train.judgement = judgement(train);
    train.indexing = indexing_said(train);
    train.shafts = shafts_of(train);
    train.steps = steps_of(train);
    const std::string levers = train.positions.empty() ? "" : "; " + levers_said(train.positions);
    train.said = fmt::format("{}{}: {}, {}", train.gears, levers, travel_said(train.gives_mm, train.unit),
                             train.error_said);
}

void say(GearTrainsAnswer& trains) {
    const bool any = !trains.trains.empty();
    trains.said =
        fmt::format("{}: {}", trains.title, any ? trains.trains.front().said : "no train of these gears");
    if (any && trains.error_percent > trains.asked_percent) {
        trains.wider = fmt::format("nothing is within {:g} %; this is the nearest", trains.asked_percent);
    }
    for (std::size_t i = 1; i < trains.trains.size(); ++i) {
        const GearTrainAnswer& each = trains.trains[i];
        const char* const judged = each.exact || !each.good_enough ? ""
                                   : *each.good_enough             ? ", good enough"
                                                                   : ", too much";
        trains.others.push_back(fmt::format("{:<24}  {:<24}  {}{}", each.gears, levers_said(each.positions),
                                            each.error_said, judged));
    }
    const std::string unfit =
        trains.refused == 0 ? "" : fmt::format(", {} more do not close on this lathe", trains.refused);
    trains.search = fmt::format("{} trains within {:g} %{}", trains.found, trains.error_percent, unfit);
}

void say(PairsAnswer& answer) {
    const std::size_t count = answer.pairs.size();
    answer.said = fmt::format("{}: {} pair{}",
                              answer.cut == Translating::inches ? "inches on a metric leadscrew, 127/100"
                                                                : "millimetres on an inch one, 100/127",
                              count == 0 ? "no" : fmt::format("{}", count), count == 1 ? "" : "s");
    for (const machine::TranslatingPair& pair : answer.pairs) {
        const std::string rest =
            pair.num == 1 && pair.den == 1 ? "" : fmt::format(" × {}/{}", pair.num, pair.den);
        const std::string error = pair.exact ? "exact" : fmt::format("{:+.4f} %", pair.error * 100.0);
        answer.each_said.push_back(fmt::format("{}/{}{}: {}", pair.driver, pair.driven, rest, error));
    }
}

}  // namespace halfnut::cutting
