#include "halfnut/threads/series.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut::threads {
namespace {

// what a thread on a bench may be; outside it a measurement is a slip of the pen
constexpr Argument kDiameter = between("diameter_mm", 0.05, 10'000.0, "mm");
constexpr Argument kPitch = between("pitch_mm", 0.01, 500.0, "mm");
constexpr Argument kWithin = not_negative("within_mm", "mm");
constexpr Argument kEngagement = between("engagement_mm", 0.01, 10'000.0, "mm");
constexpr Argument kFlankAngle = inside("flank_angle_deg", 0.0, 180.0, "deg");

SeriesThread of_row(const Catalogue& catalogue, const IsoSeriesRow& row) {
    Thread thread;
    thread.system = System::iso_metric;
    thread.diameter_units = bounds::nearest<std::int64_t>(row.diameter_mm * 1e6, 1, bounds::kUnits);
    thread.pitch_units = bounds::nearest<std::int64_t>(row.pitch_mm * 1e6, 1, bounds::kUnits);
    return {thread, 2 * (row.choice - 1) + (row.series == IsoSeries::coarse ? 0 : 1),
            row_ref(catalogue.iso_series, row)};
}

bool is_number(std::string_view size) {
    return size.find('/') == std::string_view::npos;
}

SeriesThread of_row(const Catalogue& catalogue, const UnifiedSeriesRow& row) {
    Thread thread;
    thread.system = System::unified;
    thread.series = row.series;
    thread.diameter_units = bounds::nearest<std::int64_t>(row.diameter_in * 1e4, 1, bounds::kUnits);
    thread.tpi_thousandths = bounds::nearest<std::int32_t>(row.tpi * 1000, 1);
    thread.pitch_units =
        (200'000'000'000 + thread.tpi_thousandths) / (2 * std::int64_t{thread.tpi_thousandths});
    // sizes below 1/4 in are called by number or by a fraction
    thread.style = is_number(row.size) && row.diameter_in < 0.25 ? SizeStyle::number : SizeStyle::fraction;
    return {thread, static_cast<int>(row.series), row_ref(catalogue.unified_series, row)};
}

constexpr int kOtherForms = 6;  // after ISO 261's three choices, coarse and fine
constexpr int kTaperForms = 9;

SeriesThread of_row(const Catalogue& catalogue, const FormSeriesRow& row) {
    FormThread thread;
    thread.form = row.form;
    thread.become(form_row(catalogue, thread));
    thread.size = row.size;
    thread.diameter = row.diameter;
    thread.tpi = std::isnan(row.tpi) ? 0.0 : row.tpi;
    thread.pitch = std::isnan(row.tpi) ? row.pitch_mm : (thread.inch ? 1.0 : kInchMm) / row.tpi;
    return {thread, kOtherForms + row.choice - 1, row_ref(catalogue.form_series, row)};
}

SeriesThread of_row(const Catalogue& catalogue, const TaperPipeRow& row, bool parallel) {
    FormThread thread;
    thread.form = row.form;
    thread.become(form_row(catalogue, thread));
    const bool iso = thread.rule == FormRule::iso_taper_pipe;
    thread.prefix = !iso ? "" : parallel ? "Rp" : "R";
    thread.size = row.size;
    thread.diameter = row.diameter;
    thread.tpi = row.tpi;
    thread.pitch = (thread.inch ? 1.0 : kInchMm) / row.tpi;
    return {thread, kTaperForms, row_ref(catalogue.taper_pipe, row)};
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
    for (const FormSeriesRow& row : catalogue.form_series) {
        visit(of_row(catalogue, row));
    }
    for (const TaperPipeRow& row : catalogue.taper_pipe) {
        const SeriesThread thread = of_row(catalogue, row, false);
        visit(thread);
        if (std::get<FormThread>(thread.thread).rule == FormRule::iso_taper_pipe) {
            visit(of_row(catalogue, row, true));
        }
    }
}

/// A part's crest: its basic size and its limits, mm.
struct Crest {
    double basic = kNaN;
    double low = kNaN;
    double high = kNaN;
};

/// In the gauge plane, which may lie some turns to either side.
Crest taper_crest(const Catalogue& catalogue, const FormThread& thread, Side side) {
    const TaperPipe sizes = taper_pipe(catalogue, thread);
    constexpr auto kTurns = figure_index(kTaperPipeFigures, "tolerance_turns");
    constexpr auto kMouth = figure_index(kTaperPipeFigures, "hole_at_face_mm");
    constexpr auto kTaper = figure_index(kTaperPipeFigures, "taper_on_diameter");
    Crest out;
    out.basic = side == Side::external ? basic_major_mm(catalogue, thread) : sizes.figures[kMouth];
    const double along = sizes.figures[kTurns] * thread.pitch_mm() * sizes.figures[kTaper];
    out.low = out.basic - along;
    out.high = out.basic + along;
    return out;
}

/// Depth of the basic profile over the pitch line, mm.
double flank_height(const Catalogue& catalogue, const AnyThread& thread) {
    if (const FormThread* const form = std::get_if<FormThread>(&thread)) {
        return 0.5 * form_row(catalogue, *form).pitch_drop * form->pitch_mm();
    }
    return 0.375 * TriangleHeight::compute(pitch_mm(thread));
}

/// A measured angle against a standard one, both between two flanks: what it takes from the clearance at the
/// pitch diameter.
double flank_equivalent(double measured_deg, double standard_deg, double height) {
    const double a = tangent_deg(0.5 * measured_deg);
    const double b = tangent_deg(0.5 * standard_deg);
    return 2.0 * height * std::abs(a - b) / b;
}

/// A thread beside what was measured; false where its standard sets no such part.
bool compare(const Catalogue& catalogue, const SeriesThread& candidate, const FoundPart& found, double length,
             ThreadMatch& match) {
    AnyThread thread = candidate.thread;
    FormThread* const form = std::get_if<FormThread>(&thread);
    const bool external = found.side == Side::external;
    match.taper = form != nullptr && form->tapers();
    if (match.taper && form->rule == FormRule::iso_taper_pipe && !external) {
        form->prefix = "Rc";
    }
    if (!one_part(thread, found.side, match.part).ok()) {
        return false;
    }
    Crest crest;
    if (match.taper) {
        crest = taper_crest(catalogue, *form, found.side);
    } else {
        PartLimits limits;
        if (!evaluate(catalogue, match.part, {}, limits).ok()) {
            return false;
        }
        const SizeRange& range = external ? limits.sizes.major : limits.sizes.minor;
        const double major = basic_major_mm(catalogue, thread);
        const double minor = form != nullptr ? basic_minor_diameter_mm(catalogue, *form)
                                             : BasicMinorDiameter::compute(major, pitch_mm(thread));
        crest = {external ? major : minor, range.min_mm, range.max_mm};
    }
    const double half_angle = half_angle_deg(catalogue, thread);
    const double standard = pitch_mm(thread);
    match.preference = candidate.preference;
    match.basic_diameter_mm = crest.basic;
    match.outside_mm = std::max({0.0, found.diameter_mm - crest.high, crest.low - found.diameter_mm});
    match.pitch_difference_mm = found.pitch_mm - standard;
    match.mismatch_mm = std::abs(match.pitch_difference_mm) * length / standard;
    match.pitch_diameter_equivalent_mm = PitchErrorEquivalent::compute(match.mismatch_mm, half_angle);
    match.flank_angle_deg = 2.0 * half_angle;
    if (!std::isnan(found.flank_angle_deg)) {
        match.flank_difference_deg = found.flank_angle_deg - match.flank_angle_deg;
        match.flank_equivalent_mm =
            flank_equivalent(found.flank_angle_deg, match.flank_angle_deg, flank_height(catalogue, thread));
    }
    return true;
}

}  // namespace

std::vector<SeriesThread> threads_near(const Catalogue& catalogue, double diameter_mm, double within_mm) {
    require(kDiameter, diameter_mm);
    require(kWithin, within_mm);
    struct Near {
        SeriesThread thread;
        double distance;
        double pitch;
    };
    std::vector<Near> near;
    // a hair of slack, so that a distance written in one unit reaches the size written in the other
    const double reach = within_mm + 1e-9;
    for_each_thread(catalogue, [&](const SeriesThread& candidate) {
        const double distance = std::abs(basic_major_mm(catalogue, candidate.thread) - diameter_mm);
        if (distance <= reach) {
            near.push_back({candidate, distance, pitch_mm(candidate.thread)});
        }
    });
    std::stable_sort(near.begin(), near.end(), [](const Near& a, const Near& b) {
        return std::tuple{a.thread.preference, a.distance, -a.pitch} <
               std::tuple{b.thread.preference, b.distance, -b.pitch};
    });
    std::vector<SeriesThread> out;
    out.reserve(near.size());
    for (Near& each : near) {
        out.push_back(std::move(each.thread));
    }
    return out;
}

std::vector<ThreadMatch> identify_thread(const Catalogue& catalogue, const FoundPart& found,
                                         std::size_t count) {
    require(kDiameter, found.diameter_mm);
    require(kPitch, found.pitch_mm);
    const double length = std::isnan(found.engagement_mm) ? found.diameter_mm : found.engagement_mm;
    require(kEngagement, length);
    if (!std::isnan(found.flank_angle_deg)) {
        require(kFlankAngle, found.flank_angle_deg);
    }
    std::vector<ThreadMatch> matches;
    for_each_thread(catalogue, [&](const SeriesThread& candidate) {
        ThreadMatch match;
        if (compare(catalogue, candidate, found, length, match)) {
            matches.push_back(std::move(match));
        }
    });
    // below a millionth no measurement decides, only the rounding of 25.4 / n
    const auto rank = [](const ThreadMatch& match) { return std::round(match.rank_mm() * 1e6); };
    std::stable_sort(matches.begin(), matches.end(), [&](const ThreadMatch& a, const ThreadMatch& b) {
        return std::pair{rank(a), a.preference} < std::pair{rank(b), b.preference};
    });
    for (ThreadMatch& match : matches) {
        match.like_the_first = &match != &matches.front() && rank(match) == rank(matches.front());
    }
    matches.resize(std::min(count, matches.size()));
    return matches;
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
