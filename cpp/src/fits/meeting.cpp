#include "halfnut/fits/cylindrical.hpp"

#include <fmt/format.h>

#include <cmath>

#include "halfnut/core/spread.hpp"
#include "halfnut/fits/rules.hpp"

namespace halfnut::fits {
namespace {

std::array<double, kMeetingArguments.size()> values(const MeetingRequest& request) noexcept {
    const MeetingPart& hole = request.hole;
    const MeetingPart& shaft = request.shaft;
    return {hole.min_mm,
            hole.max_mm,
            hole.build_up_min_um,
            hole.build_up_max_um,
            hole.temperature_c,
            hole.expansion_um_m_k,
            shaft.min_mm,
            shaft.max_mm,
            shaft.build_up_min_um,
            shaft.build_up_max_um,
            shaft.temperature_c,
            shaft.expansion_um_m_k,
            request.tolerance_over_sigma,
            request.mean_shift};
}

/// Places of the least of each pair; the greatest follows.
constexpr std::array<std::uint8_t, 4> kLeast{0, 2, 6, 8};

constexpr std::uint8_t kClearance = figure_index(kMeetingFigures, "clearance_min_mm");
constexpr std::uint8_t kChance = figure_index(kMeetingFigures, "chance_of_interference");

}  // namespace

Status evaluate(const MeetingRequest& request, Meeting& out) noexcept {
    out = {};
    const auto given = values(request);
    for (std::size_t i = 0; i < given.size(); ++i) {
        const StatusCode code = check(kMeetingArguments[i], given[i]);
        if (code != StatusCode::ok) {
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    for (const std::uint8_t least : kLeast) {
        if (given[least] > given[least + 1U]) {
            return {StatusCode::inconsistent, least};
        }
    }
    const auto met = [&](const MeetingPart& part, double sense) {
        const double scale = 1.0 + part.expansion_um_m_k * 1e-6 * (part.temperature_c - 20.0);
        const double half = 0.5 * (part.max_mm - part.min_mm) * scale;
        const double middle = 0.5 * (part.max_mm + part.min_mm) * scale;
        return Spread{middle - half, middle + half, middle + sense * request.mean_shift * half,
                      2.0 * half / request.tolerance_over_sigma};
    };
    const auto coat = [](const MeetingPart& part) {
        return Interval{2.0 * part.build_up_min_um / 1000.0, 2.0 * part.build_up_max_um / 1000.0};
    };
    const Spread hole = met(request.hole, -1.0);
    const Spread shaft = met(request.shaft, 1.0);
    const Interval hole_coat = coat(request.hole);
    const Interval shaft_coat = coat(request.shaft);
    const auto even = [](const Interval& range) {
        constexpr double kEven = 12.0;
        return (range.high - range.low) * (range.high - range.low) / kEven;
    };
    out.clearance_min_mm = hole.low - shaft.high - hole_coat.high - shaft_coat.high;
    out.clearance_max_mm = hole.high - shaft.low - hole_coat.low - shaft_coat.low;
    out.clearance_mean_mm = hole.expected() - shaft.expected() -
                            0.5 * (hole_coat.low + hole_coat.high + shaft_coat.low + shaft_coat.high);
    out.clearance_sigma_mm =
        std::sqrt(hole.variance() + shaft.variance() + even(hole_coat) + even(shaft_coat));
    out.chance_of_interference = chance_of_interference(hole, shaft, hole_coat, shaft_coat);
    out.evidence.note(kClearance, rule::fit_clearance);
    out.evidence.note(kChance, rule::fit_statistical);
    if (hole_coat.high > 0.0 || shaft_coat.high > 0.0) {
        out.evidence.note(kClearance, rule::fit_build_up);
    }
    if (request.hole.temperature_c != 20.0 || request.shaft.temperature_c != 20.0) {
        out.evidence.note(kClearance, rule::fit_thermal);
    }
    return {};
}

Meeting meeting(const MeetingRequest& request) {
    Meeting out;
    const Status status = evaluate(request, out);
    if (!status.ok()) {
        const auto given = values(request);
        if (status.code == StatusCode::inconsistent) {
            throw DomainError(fmt::format("{} must be at most {}, got {} and {}",
                                          kMeetingArguments[status.argument].name,
                                          kMeetingArguments[status.argument + 1U].name,
                                          given[status.argument], given[status.argument + 1U]));
        }
        throw_status(status, "meeting", kMeetingArguments.data(), given.data());
    }
    return out;
}

}  // namespace halfnut::fits
