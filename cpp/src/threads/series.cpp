#include "halfnut/threads/series.hpp"

#include <algorithm>
#include <cmath>

#include "halfnut/level1.hpp"
#include "halfnut/threads/profile.hpp"

namespace halfnut::threads {
namespace {

constexpr Argument kDiameter = positive("diameter_mm", "mm");
constexpr Argument kPitch = positive("pitch_mm", "mm");
constexpr Argument kWithin = not_negative("within_mm", "mm");
constexpr Argument kEngagement = positive("engagement_mm", "mm");

void require(const Argument& argument, double value) {
    if (check(argument, value) != StatusCode::ok) {
        throw DomainError(argument_message(argument, value));
    }
}

SeriesThread of_row(const Catalogue& catalogue, const IsoSeriesRow& row) {
    SeriesThread out;
    out.thread.system = System::iso_metric;
    out.thread.diameter_units = std::llround(row.diameter_mm * 1e6);
    out.thread.pitch_units = std::llround(row.pitch_mm * 1e6);
    out.preference = 2 * (row.choice - 1) + (row.series == IsoSeries::coarse ? 0 : 1);
    out.row = row_ref(catalogue.iso_series, row);
    return out;
}

bool is_number(std::string_view size) {
    return size.find('/') == std::string_view::npos;
}

SeriesThread of_row(const Catalogue& catalogue, const UnifiedSeriesRow& row) {
    SeriesThread out;
    out.thread.system = System::unified;
    out.thread.series = row.series;
    out.thread.diameter_units = std::llround(row.diameter_in * 1e4);
    out.thread.tpi_thousandths = static_cast<std::int32_t>(std::lround(row.tpi * 1000));
    out.thread.pitch_units =
        (200'000'000'000 + out.thread.tpi_thousandths) / (2 * std::int64_t{out.thread.tpi_thousandths});
    // sizes below 1/4 in are called by number or by a fraction
    out.thread.style =
        is_number(row.size) && row.diameter_in < 0.25 ? SizeStyle::number : SizeStyle::fraction;
    out.preference = static_cast<int>(row.series);
    out.row = row_ref(catalogue.unified_series, row);
    return out;
}

/// Every thread of the series tables once.
template <class Visit>
void for_each_thread(const Catalogue& catalogue, Visit visit) {
    for (const IsoSeriesRow& row : catalogue.iso_series) {
        visit(of_row(catalogue, row));
    }
    const UnifiedSeriesRow* previous = nullptr;
    for (const UnifiedSeriesRow& row : catalogue.unified_series) {
        const bool again =
            previous != nullptr && previous->diameter_in == row.diameter_in && previous->tpi == row.tpi;
        if (!again) {
            visit(of_row(catalogue, row));
        }
        previous = &row;
    }
}

}  // namespace

std::vector<SeriesThread> threads_near(const Catalogue& catalogue, double diameter_mm, double within_mm) {
    require(kDiameter, diameter_mm);
    require(kWithin, within_mm);
    std::vector<SeriesThread> found;
    // a hair of slack, so that a distance written in one unit reaches the size written in the other
    const double reach = within_mm + 1e-9;
    for_each_thread(catalogue, [&](const SeriesThread& candidate) {
        if (std::abs(candidate.thread.diameter_mm() - diameter_mm) <= reach) {
            found.push_back(candidate);
        }
    });
    std::stable_sort(found.begin(), found.end(), [&](const SeriesThread& a, const SeriesThread& b) {
        const auto key = [&](const SeriesThread& x) {
            return std::tuple{x.preference, std::abs(x.thread.diameter_mm() - diameter_mm),
                              -x.thread.pitch_mm()};
        };
        return key(a) < key(b);
    });
    return found;
}

std::vector<ThreadMatch> identify_thread(const Catalogue& catalogue, Side side, double diameter_mm,
                                         double pitch_mm, double engagement_mm, std::size_t count) {
    require(kDiameter, diameter_mm);
    require(kPitch, pitch_mm);
    const double length = std::isnan(engagement_mm) ? diameter_mm : engagement_mm;
    require(kEngagement, length);
    std::vector<ThreadMatch> found;
    for_each_thread(catalogue, [&](const SeriesThread& candidate) {
        ThreadMatch match;
        match.thread = candidate.thread.part(side);
        match.preference = candidate.preference;
        ThreadLimits limits;
        if (!evaluate(catalogue, match.thread, {}, limits).ok()) {
            return;
        }
        const bool external = side == Side::external;
        const double high = limits.mm(external ? Limit::major_max : Limit::minor_max);
        const double low = limits.mm(external ? Limit::major_min : Limit::minor_min);
        const double standard = match.thread.pitch_mm();
        match.basic_diameter_mm = external
                                      ? match.thread.diameter_mm()
                                      : BasicMinorDiameter::compute(match.thread.diameter_mm(), standard);
        match.outside_mm = std::max({0.0, diameter_mm - high, low - diameter_mm});
        match.pitch_difference_mm = pitch_mm - standard;
        match.mismatch_mm = std::abs(match.pitch_difference_mm) * length / standard;
        match.pitch_diameter_equivalent_mm = std::numbers::sqrt3 * match.mismatch_mm;
        found.push_back(match);
    });
    std::stable_sort(found.begin(), found.end(), [](const ThreadMatch& a, const ThreadMatch& b) {
        const auto key = [](const ThreadMatch& x) {
            return std::pair{x.outside_mm + x.pitch_diameter_equivalent_mm, x.preference};
        };
        return key(a) < key(b);
    });
    found.resize(std::min(count, found.size()));
    return found;
}

GaugeSizes gauge_sizes(const ThreadLimits& limits) noexcept {
    const auto size = [&](Limit limit) { return limits.figures[static_cast<std::size_t>(limit)]; };
    GaugeSizes out;
    out.system = limits.system;
    out.side = limits.side;
    if (limits.side == Side::external) {
        out.go_pitch = size(Limit::pitch_max);
        out.go_crest = size(Limit::minor_max);
        out.not_go_pitch = size(Limit::pitch_min);
        out.plain_go = size(Limit::major_max);
        out.plain_not_go = size(Limit::major_min);
    } else {
        out.go_pitch = size(Limit::pitch_min);
        out.go_crest = size(Limit::major_min);
        out.not_go_pitch = size(Limit::pitch_max);
        out.plain_go = size(Limit::minor_min);
        out.plain_not_go = size(Limit::minor_max);
    }
    return out;
}

}  // namespace halfnut::threads
