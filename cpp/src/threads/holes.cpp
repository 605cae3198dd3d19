#include "halfnut/threads/holes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/core/tables.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/rules.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

constexpr double kSameSizeMm = 1e-6;
constexpr double kEdgeMm = 1e-9;
constexpr double kLongestEngagement = 3.0;  // diameters, the last of the standard's bands

constexpr std::string_view kInchSets[] = {"fractional", "number", "letter"};

/// 0.203125 as "13/64", 1.25 as "1-1/4"; empty where it is no whole number of sixty-fourths.
std::string fraction(double inches) {
    const double sixty_fourths = inches * 64.0;
    if (std::abs(sixty_fourths - std::round(sixty_fourths)) > 1e-9) {
        return {};
    }
    auto top = bounds::nearest<int>(sixty_fourths);
    const int whole = top / 64;
    top %= 64;
    if (top == 0) {
        return std::to_string(whole);
    }
    int bottom = 64;
    while (top % 2 == 0) {
        top /= 2;
        bottom /= 2;
    }
    return whole == 0 ? fmt::format("{}/{}", top, bottom) : fmt::format("{}-{}/{}", whole, top, bottom);
}

std::string drill_name(double size, bool inch) {
    if (!inch) {
        return trimmed(size, 3) + " mm";
    }
    const std::string name = fraction(size);
    return (name.empty() ? trimmed(size, 5) : name) + " in";
}

void add_named(const Catalogue& catalogue, bool letters, std::vector<DrillSize>& out) {
    for (const DrillRow& row : catalogue.drills) {
        const bool letter = row.name[0] >= 'A' && row.name[0] <= 'Z';
        if (letter == letters) {
            out.push_back({row.diameter_in * kInchMm, (letter ? "letter " : "#") + std::string(row.name),
                           row_ref(catalogue.drills, row)});
        }
    }
}

void add_rows(const Catalogue& catalogue, std::string_view set, std::vector<DrillSize>& out) {
    for (const DrillSetRow& row : catalogue.drill_sets) {
        if (row.set_name != set) {
            continue;
        }
        if (row.unit != "mm" && row.unit != "in") {
            throw DomainError(fmt::format("drill set '{}': unit must be mm or in, got '{}'", set, row.unit));
        }
        const bool inch = row.unit == "in";
        const bool run = !std::isnan(row.last);
        if (!(row.first > 0.0) || (run && !(row.step > 0.0 && row.last >= row.first))) {
            throw DomainError(fmt::format(
                "drill set '{}': first must be > 0, and a run to last needs last >= first and a step > 0",
                set));
        }
        const auto count = run ? std::floor((row.last - row.first) / row.step + 1e-6) : 0.0;
        constexpr double kMostDrills = 10000.0;
        if (count > kMostDrills) {
            throw DomainError(fmt::format("drill set '{}': {:.0f} drills in one run", set, count));
        }
        for (double k = 0.0; k <= count; k += 1.0) {
            const double size = std::round((row.first + k * row.step * (run ? 1.0 : 0.0)) * 1e6) / 1e6;
            const double exact = run ? size : row.first;
            out.push_back({inch ? exact * kInchMm : exact,
                           row.name.empty() || run ? drill_name(exact, inch) : std::string(row.name),
                           row_ref(catalogue.drill_sets, row)});
        }
    }
}

std::vector<std::string_view> set_names(const Catalogue& catalogue) {
    std::vector<std::string_view> names{"inch", "number", "letter"};
    for (const DrillSetRow& row : catalogue.drill_sets) {
        if (std::find(names.begin(), names.end(), row.set_name) == names.end()) {
            names.push_back(row.set_name);
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

void add_set(const Catalogue& catalogue, std::string_view set, std::vector<DrillSize>& out) {
    if (set == "inch") {
        for (const std::string_view each : kInchSets) {
            add_set(catalogue, each, out);
        }
        return;
    }
    const std::size_t before = out.size();
    if (set == "number" || set == "letter") {
        add_named(catalogue, set == "letter", out);
    }
    add_rows(catalogue, set, out);
    if (out.size() == before) {
        const std::vector<std::string_view> names = set_names(catalogue);
        const std::string_view near = nearest_name(set, names);
        std::string list;
        for (const std::string_view name : names) {
            list += (list.empty() ? "" : ", ") + std::string(name);
        }
        throw NotTabulatedError(fmt::format("no drill set '{}'{}; the sets are {}", set,
                                            near.empty() ? "" : fmt::format("; did you mean '{}'?", near),
                                            list));
    }
}

/// A request's limits of the hole, and the hole that is wanted.
struct Wanted {
    double hole_mm = kNaN;
    double min_mm = kNaN;
    double max_mm = kNaN;
    RuleId rule{};
};

/// The minor diameter that a tap leaves of a hole, and the hole before a minor diameter.
struct Tapped {
    double major;
    bool form;
    static constexpr double kPressed = kFullDepth / (100.0 * kFormingDepth);

    [[nodiscard]] double minor(double hole) const { return form ? major - kPressed * (major - hole) : hole; }
    [[nodiscard]] double hole(double minor) const {
        return form ? major - (major - minor) / kPressed : minor;
    }
};

/// Limits of the hole by length of engagement: within the class's minor tolerance, and a quarter beyond it.
void engagement_band(double engagement, double major_mm, bool inch, double low, double high, Wanted& out) {
    const double tolerance = high - low;
    const double diameters = engagement / major_mm;
    const double from = diameters <= 1.0 / 3.0   ? 0.0
                        : diameters <= 2.0 / 3.0 ? 0.25
                        : diameters <= 1.5       ? 0.5
                                                 : 0.75;
    constexpr double kNarrowestMm = 0.004 * kInchMm;
    constexpr double kFromMm = 0.25 * kInchMm;
    const bool floor = inch && major_mm >= kFromMm - kEdgeMm;
    const double width = std::max(0.5 * tolerance, floor ? kNarrowestMm : 0.0);
    out.min_mm = low + from * tolerance;
    out.max_mm = out.min_mm + width;
}

Status refuse(StatusCode code, std::uint8_t argument, std::string* why, std::string text) {
    if (why != nullptr) {
        *why = std::move(text);
    }
    return {code, argument};
}

/// The first argument that is given and not in its range.
Status check_arguments(const TappingRequest& request, std::string* why) {
    const std::array<double, 4> given{request.percent, request.engagement_mm, request.strength_ratio,
                                      request.oversize_mm};
    for (std::size_t i = 0; i < given.size(); ++i) {
        if (std::isnan(given[i])) {
            continue;
        }
        const StatusCode code = check(kTappingArguments[i], given[i]);
        if (code != StatusCode::ok) {
            return refuse(code, static_cast<std::uint8_t>(i), why,
                          argument_message(kTappingArguments[i], given[i]));
        }
    }
    const int asked = static_cast<int>(!std::isnan(request.percent)) +
                      static_cast<int>(!std::isnan(request.engagement_mm)) +
                      static_cast<int>(!std::isnan(request.strength_ratio));
    if (asked > 1) {
        return refuse(StatusCode::inconsistent, 0, why,
                      "percent, engagement and strength ask for a hole each; give one of them");
    }
    return {};
}

double external_pitch_min_mm(const Catalogue& catalogue, const Thread& thread) {
    ThreadLimits external;
    if (evaluate(catalogue, thread.part(Side::external), LimitOptions{}, external).ok()) {
        return external.mm(Limit::pitch_min);
    }
    return thread.diameter_mm() - 0.5 * kFullDepth * thread.pitch_mm();
}

void set_caution(TappingHole& out, HoleCaution caution) {
    out.cautions = static_cast<std::uint8_t>(out.cautions | (1U << static_cast<unsigned>(caution)));
}

void note_evidence(const TappingRequest& request, const ThreadLimits& limits,
                   std::span<const DrillSize> drills, RuleId wanted_rule, RowRef oversize_row,
                   TappingHole& out) {
    const auto note = [&](std::string_view figure, RuleId rule, RowRef row = {}) {
        for (std::size_t i = 0; i < kTappingFigures.size(); ++i) {
            if (kTappingFigures[i] == figure) {
                out.evidence.note(static_cast<std::uint8_t>(i), rule, row);
            }
        }
    };
    note("wanted_mm", wanted_rule);
    if (out.has(HoleCaution::usual_percent)) {
        note("wanted_percent", rule::hole_usual_percent);
    }
    note("percent", request.form ? rule::hole_form : rule::hole_percent);
    note("basic_percent", rule::hole_percent);
    note("drill_mm", rule::hole_drill, drills[static_cast<std::size_t>(out.chosen)].row);
    note("strength_ratio", rule::hole_strength);
    if (!std::isnan(request.engagement_mm)) {
        note("hole_max_mm", rule::hole_engagement);
    }
    note("usual_oversize_mm", rule::hole_oversize, oversize_row);
    for (const EvidenceItem& item : limits.evidence.items()) {
        const std::string_view figure = kThreadLimitFigures[item.figure];
        if (figure == "minor_min" || figure == "minor_max" || figure == "every size") {
            note(figure == "minor_max" ? "minor_max_mm" : "minor_min_mm", item.rule, item.row);
        }
    }
}

/// The name a person gave, and the sizes nearest to it.
template <class Rows, class Size>
std::string nearest_sizes(const Rows& rows, double wanted, Size size) {
    const auto above =
        std::find_if(rows.begin(), rows.end(), [&](const auto* row) { return size(*row) > wanted; });
    std::vector<std::string> near;
    if (above != rows.begin()) {
        near.push_back(trimmed(size(**std::prev(above)), 4));
    }
    if (above != rows.end()) {
        near.push_back(trimmed(size(**above), 4));
    }
    return near.size() == 2 ? near[0] + " and " + near[1] : near.empty() ? "none" : near[0];
}

/// Whether a row of a size table is of a thread's diameter.
bool same_size(double row, double wanted) {
    return std::abs(row - wanted) < 1e-6;
}

}  // namespace

std::string_view usual_drill_set(const Catalogue& catalogue, bool inch) noexcept {
    const bool own = std::any_of(catalogue.drill_sets.begin(), catalogue.drill_sets.end(),
                                 [](const DrillSetRow& row) { return row.set_name == "shop"; });
    return own ? "shop" : inch ? "inch" : "metric";
}

std::vector<DrillSize> drill_set(const Catalogue& catalogue, std::string_view sets) {
    bounds::require_text("drills", sets, bounds::kDesignationBytes);
    std::vector<DrillSize> out;
    std::size_t from = 0;
    while (from <= sets.size()) {
        const std::size_t to = std::min(sets.find('+', from), sets.size());
        std::string_view set = sets.substr(from, to - from);
        while (!set.empty() && set.front() == ' ') {
            set.remove_prefix(1);
        }
        while (!set.empty() && set.back() == ' ') {
            set.remove_suffix(1);
        }
        add_set(catalogue, set, out);
        from = to + 1;
    }
    std::stable_sort(out.begin(), out.end(), [](const DrillSize& a, const DrillSize& b) {
        return a.diameter_mm < b.diameter_mm - kSameSizeMm;
    });
    out.erase(std::unique(out.begin(), out.end(),
                          [](const DrillSize& a, const DrillSize& b) {
                              return std::abs(a.diameter_mm - b.diameter_mm) < kSameSizeMm;
                          }),
              out.end());
    return out;
}

double usual_oversize_mm(const Catalogue& catalogue, double drill_mm, RowRef& row) noexcept {
    const auto rows = catalogue.drill_oversize;
    if (rows.empty()) {
        return 0.0;
    }
    const double size_in = drill_mm / kInchMm;
    const DrillOversizeRow* nearest = rows.data();
    const DrillOversizeRow* low = nullptr;
    const DrillOversizeRow* high = nullptr;
    for (const DrillOversizeRow& each : rows) {
        if (std::abs(each.diameter_in - size_in) < std::abs(nearest->diameter_in - size_in)) {
            nearest = &each;
        }
        if (each.diameter_in <= size_in) {
            low = &each;
        } else if (high == nullptr) {
            high = &each;
        }
    }
    row = row_ref(rows, *nearest);
    if (low == nullptr || high == nullptr) {
        return nearest->mean_in * kInchMm;
    }
    const double share = (size_in - low->diameter_in) / (high->diameter_in - low->diameter_in);
    return (low->mean_in + share * (high->mean_in - low->mean_in)) * kInchMm;
}

std::array<double, kTappingFigures.size()> TappingHole::figures() const noexcept {
    return {wanted_mm,     wanted_percent,    drill_mm,    hole_mm,       minor_mm,     percent,
            basic_percent, strength_ratio,    hole_min_mm, hole_max_mm,   minor_min_mm, minor_max_mm,
            oversize_mm,   usual_oversize_mm, below_mm,    below_percent, above_mm,     above_percent};
}

Status evaluate(const Catalogue& catalogue, const TappingRequest& request, std::span<const DrillSize> drills,
                TappingHole& out, std::string* why) {
    out = {};
    Status status = check_arguments(request, why);
    if (!status.ok()) {
        return status;
    }
    const Thread internal = request.thread.part(Side::internal);
    ThreadLimits limits;
    if (request.limits) {
        limits = *request.limits;
    } else {
        status = evaluate(catalogue, internal, request.options, limits, why);
    }
    if (!status.ok()) {
        return status;
    }
    if (drills.empty()) {
        return refuse(StatusCode::not_tabulated, 4, why, "the drill set is empty");
    }
    const double major = request.thread.diameter_mm();
    const double pitch = request.thread.pitch_mm();
    const double minor_min = limits.mm(Limit::minor_min);
    const double minor_max = limits.mm(Limit::minor_max);
    const double pitch_min = external_pitch_min_mm(catalogue, request.thread);
    const Tapped tapped{major, request.form};
    const auto percent_of = [&](double hole) {
        return request.form ? FormingPercent::compute(major, pitch, hole)
                            : ThreadPercent::compute(major, pitch, hole);
    };

    // What is wanted, and between what.
    Wanted wanted;
    wanted.min_mm = tapped.hole(minor_min);
    wanted.max_mm = tapped.hole(minor_max);
    if (!std::isnan(request.engagement_mm)) {
        if (request.engagement_mm > kLongestEngagement * major + kEdgeMm) {
            return refuse(
                StatusCode::out_of_range, 1, why,
                fmt::format("engagement_mm must be at most 3 diameters, {:.4g} mm for {}, got {:.4g} mm",
                            kLongestEngagement * major, format_thread(request.thread),
                            request.engagement_mm));
        }
        engagement_band(request.engagement_mm, major, request.thread.inch(), minor_min, minor_max, wanted);
        wanted.min_mm = tapped.hole(wanted.min_mm);
        wanted.max_mm = tapped.hole(wanted.max_mm);
        wanted.hole_mm = 0.5 * (wanted.min_mm + wanted.max_mm);
        wanted.rule = rule::hole_engagement;
        if (!request.thread.inch()) {
            set_caution(out, HoleCaution::by_analogy);
        }
    } else if (!std::isnan(request.strength_ratio)) {
        wanted.hole_mm =
            tapped.hole(HoleForStripRatio::compute(request.strength_ratio, minor_min, pitch, pitch_min));
        wanted.rule = rule::hole_strength;
    } else {
        double percent = request.percent;
        if (std::isnan(percent)) {
            percent = request.form ? kUsualFormingPercent : kUsualPercent;
            set_caution(out, HoleCaution::usual_percent);
        }
        wanted.hole_mm = request.form ? FormingHole::compute(major, pitch, percent)
                                      : TappingHoleSize::compute(major, pitch, percent);
        wanted.rule = request.form ? rule::hole_form : rule::hole_percent;
    }
    if (!(wanted.hole_mm > 0.0 && wanted.hole_mm < major)) {
        return refuse(StatusCode::no_result, 0, why,
                      fmt::format("no hole in {} gives this", format_thread(request.thread)));
    }

    // The drills about it.
    const auto oversize_of = [&](const DrillSize& drill) {
        RowRef row;
        return std::isnan(request.oversize_mm) ? usual_oversize_mm(catalogue, drill.diameter_mm, row)
                                               : request.oversize_mm;
    };
    const auto off = [&](int place) {
        const DrillSize& drill = drills[static_cast<std::size_t>(place)];
        return std::abs(drill.diameter_mm + oversize_of(drill) - wanted.hole_mm);
    };
    const auto nearer = [&](int place, int best) { return best < 0 || off(place) < off(best) - kEdgeMm; };
    int nearest = -1;
    for (int place = 0; place < static_cast<int>(drills.size()); ++place) {
        const DrillSize& drill = drills[static_cast<std::size_t>(place)];
        const double hole = drill.diameter_mm + oversize_of(drill);
        if (!(hole < major)) {
            break;
        }
        if (hole <= wanted.hole_mm + kEdgeMm) {
            out.below = place;
        } else if (out.above < 0) {
            out.above = place;
        }
        if (nearer(place, nearest)) {
            nearest = place;
        }
        if (hole >= wanted.min_mm - kEdgeMm && hole <= wanted.max_mm + kEdgeMm && nearer(place, out.within)) {
            out.within = place;
        }
    }
    if (nearest < 0) {
        return refuse(StatusCode::not_tabulated, 4, why,
                      fmt::format("no drill of the set makes a hole below {}, {:.4g} mm; its smallest is {}",
                                  format_thread(request.thread), major, drills.front().name));
    }
    const bool inside =
        wanted.hole_mm >= wanted.min_mm - kEdgeMm && wanted.hole_mm <= wanted.max_mm + kEdgeMm;
    const bool usual = out.has(HoleCaution::usual_percent);
    out.chosen = (inside || usual) && out.within >= 0 ? out.within : nearest;
    const DrillSize& drill = drills[static_cast<std::size_t>(out.chosen)];
    if (drill.diameter_mm + oversize_of(drill) < tapped.hole(major - kFullDepth * pitch) - kEdgeMm) {
        return refuse(StatusCode::not_tabulated, 4, why,
                      fmt::format("no drill of the set is large enough for {}: the nearest, {}, leaves more "
                                  "metal than a full thread; bore or ream to {:.4g} to {:.4g} mm",
                                  format_thread(request.thread), drill.name, wanted.min_mm, wanted.max_mm));
    }
    RowRef oversize_row;
    out.wanted_mm = wanted.hole_mm;
    out.wanted_percent = percent_of(wanted.hole_mm);
    out.drill_mm = drill.diameter_mm;
    out.oversize_mm = oversize_of(drill);
    out.usual_oversize_mm = usual_oversize_mm(catalogue, drill.diameter_mm, oversize_row);
    out.hole_mm = drill.diameter_mm + out.oversize_mm;
    out.minor_mm = tapped.minor(out.hole_mm);
    out.percent = percent_of(out.hole_mm);
    out.basic_percent = out.percent * 1.2;  // 3 H / 4 over 5 H / 8
    out.strength_ratio = StripRatio::compute(out.minor_mm, minor_min, pitch, pitch_min);
    out.hole_min_mm = wanted.min_mm;
    out.hole_max_mm = wanted.max_mm;
    out.minor_min_mm = minor_min;
    out.minor_max_mm = minor_max;
    const auto beside = [&](int place, double& size, double& percent) {
        if (place >= 0) {
            const DrillSize& at = drills[static_cast<std::size_t>(place)];
            size = at.diameter_mm;
            percent = percent_of(at.diameter_mm + oversize_of(at));
        }
    };
    beside(out.below, out.below_mm, out.below_percent);
    beside(out.above, out.above_mm, out.above_percent);
    if (out.within < 0) {
        set_caution(out, HoleCaution::no_drill);
    } else if (out.hole_mm < wanted.min_mm - kEdgeMm || out.hole_mm > wanted.max_mm + kEdgeMm) {
        set_caution(out, HoleCaution::outside);
    }
    if (out.percent > kHighPercent) {
        set_caution(out, HoleCaution::high_percent);
    }
    if (request.form) {
        set_caution(out, HoleCaution::forming);
    }
    note_evidence(request, limits, drills, wanted.rule, oversize_row, out);
    return {};
}

TappingHole tapping_hole(const Catalogue& catalogue, const TappingRequest& request,
                         std::span<const DrillSize> drills) {
    return or_throw<TappingHole>(
        [&](TappingHole& out, std::string* why) { return evaluate(catalogue, request, drills, out, why); });
}

std::array<double, kBlindFigures.size()> BlindHole::figures() const noexcept {
    return {full_thread_mm, chamfer_min_mm, chamfer_max_mm, chip_room_mm,
            drill_depth_mm, point_mm,       total_depth_mm, tap_depth_mm};
}

Status evaluate(const BlindRequest& request, BlindHole& out, std::string* why) {
    out = {};
    const std::array<double, kBlindArguments.size()> given{
        request.pitch_mm,       request.hole_mm,     request.full_thread_mm,
        request.drill_depth_mm, request.chamfer_min, request.chamfer_max,
        request.chip_room_mm,   request.point_deg,   request.thickness_mm};
    constexpr std::array kMayBeAbsent{false, false, true, true, false, false, true, false, true};
    for (std::size_t i = 0; i < given.size(); ++i) {
        if (std::isnan(given[i]) && kMayBeAbsent[i]) {
            continue;
        }
        const StatusCode code = check(kBlindArguments[i], given[i]);
        if (code != StatusCode::ok) {
            return refuse(code, static_cast<std::uint8_t>(i), why,
                          argument_message(kBlindArguments[i], given[i]));
        }
    }
    if (std::isnan(request.full_thread_mm) == std::isnan(request.drill_depth_mm)) {
        return refuse(StatusCode::inconsistent, 2, why,
                      "give either the length of full thread or the depth of the hole");
    }
    if (request.chamfer_max < request.chamfer_min) {
        return refuse(StatusCode::inconsistent, 5, why, "chamfer_max must not be below chamfer_min");
    }
    const double pitch = request.pitch_mm;
    const double room = std::isnan(request.chip_room_mm)
                            ? (request.form ? kFormingRoomPitches : kChipRoomPitches) * pitch
                            : request.chip_room_mm;
    const double point = PointLength::compute(request.hole_mm, request.point_deg);
    double full = request.full_thread_mm;
    double depth = request.drill_depth_mm;
    if (std::isnan(depth)) {
        depth = BlindDrillDepth::compute(full, pitch, request.chamfer_max, room);
    } else {
        full = FullThread::compute(depth, pitch, request.chamfer_max, room);
        if (std::isnan(full)) {
            return refuse(
                StatusCode::inconsistent, 3, why,
                fmt::format("a hole {:.4g} mm deep leaves no full thread: chamfer and chip room take "
                            "{:.4g} mm; a tap of shorter lead takes less",
                            depth, request.chamfer_max * pitch + room));
        }
    }
    if (!std::isnan(request.thickness_mm) && depth + point >= request.thickness_mm) {
        const double most = request.thickness_mm - point - request.chamfer_max * pitch - room;
        return refuse(
            StatusCode::inconsistent, 8, why,
            fmt::format(
                "the drill's point comes through: {:.4g} mm deep with its point, in {:.4g} mm of metal; "
                "{}",
                depth + point, request.thickness_mm,
                most > 0.0
                    ? fmt::format("full thread must be below {:.4g} mm, or the tap's lead shorter", most)
                    : std::string("a tap of shorter lead, a flatter drill, or a hole right through")));
    }
    out.full_thread_mm = full;
    out.chamfer_min_mm = request.chamfer_min * pitch;
    out.chamfer_max_mm = request.chamfer_max * pitch;
    out.chip_room_mm = room;
    out.drill_depth_mm = depth;
    out.point_mm = point;
    out.total_depth_mm = depth + point;
    out.tap_depth_mm = depth - room;
    return {};
}

BlindHole blind_hole(const Catalogue& catalogue, const BlindRequest& request, const TapLeadRow* lead) {
    BlindHole out;
    std::string why;
    const Status status = evaluate(request, out, &why);
    if (!status.ok()) {
        throw DomainError(why);
    }
    out.evidence.note(figure_index(kBlindFigures, "drill_depth_mm"), rule::hole_blind);
    out.evidence.note(figure_index(kBlindFigures, "chamfer_max_mm"), rule::hole_chamfer,
                      lead == nullptr ? RowRef{} : row_ref(catalogue.tap_leads, *lead));
    if (std::isnan(request.chip_room_mm)) {
        out.evidence.note(figure_index(kBlindFigures, "chip_room_mm"), rule::hole_chip_room);
    }
    return out;
}

const TapLeadRow& tap_lead(const Catalogue& catalogue, std::string_view name) {
    std::vector<std::string_view> names;
    std::string list;
    for (const TapLeadRow& row : catalogue.tap_leads) {
        if (row.lead == name) {
            return row;
        }
        names.push_back(row.lead);
        list += (list.empty() ? "" : ", ") + std::string(row.lead);
    }
    const std::string_view near = nearest_name(name, names);
    throw NotTabulatedError(fmt::format("no tap lead '{}'{}; the leads are {}", name,
                                        near.empty() ? "" : fmt::format("; did you mean '{}'?", near), list));
}

ClearanceFit clearance_fit(std::string_view name) {
    constexpr std::array kNames{
        std::pair{std::string_view("fine"), ClearanceFit::close},
        std::pair{std::string_view("close"), ClearanceFit::close},
        std::pair{std::string_view("medium"), ClearanceFit::normal},
        std::pair{std::string_view("normal"), ClearanceFit::normal},
        std::pair{std::string_view("coarse"), ClearanceFit::loose},
        std::pair{std::string_view("loose"), ClearanceFit::loose},
    };
    for (const auto& [known, fit] : kNames) {
        if (known == name) {
            return fit;
        }
    }
    throw DomainError(fmt::format(
        "fit must be fine, medium or coarse (the same as close, normal or loose), got '{}'", name));
}

ClearanceHole clearance_hole(const Catalogue& catalogue, const Thread& thread, ClearanceFit fit) {
    const auto pick = [&](double close, double normal, double loose) {
        return fit == ClearanceFit::close ? close : fit == ClearanceFit::normal ? normal : loose;
    };
    ClearanceHole out;
    if (thread.inch()) {
        std::vector<const InchClearanceRow*> rows;
        for (const InchClearanceRow& row : catalogue.inch_clearance) {
            if (same_size(row.diameter_in, thread.diameter_in())) {
                out.hole_mm = pick(row.close_in, row.normal_in, row.loose_in) * kInchMm;
                out.drill = fit == ClearanceFit::close    ? row.close_drill
                            : fit == ClearanceFit::normal ? row.normal_drill
                                                          : row.loose_drill;
                out.row = row_ref(catalogue.inch_clearance, row);
                return out;
            }
            rows.push_back(&row);
        }
        throw NotTabulatedError(
            fmt::format("ASME B18.2.8 has no {}; nearest {} in", size_text(thread),
                        nearest_sizes(rows, thread.diameter_in(),
                                      [](const InchClearanceRow& row) { return row.diameter_in; })));
    }
    std::vector<const MetricClearanceRow*> rows;
    for (const MetricClearanceRow& row : catalogue.metric_clearance) {
        if (same_size(row.diameter_mm, thread.diameter_mm())) {
            out.hole_mm = pick(row.fine_mm, row.medium_mm, row.coarse_mm);
            out.row = row_ref(catalogue.metric_clearance, row);
            return out;
        }
        rows.push_back(&row);
    }
    throw NotTabulatedError(
        fmt::format("ISO 273 has no {}; nearest {} mm", size_text(thread),
                    nearest_sizes(rows, thread.diameter_mm(),
                                  [](const MetricClearanceRow& row) { return row.diameter_mm; })));
}

ScrewSeat screw_seat(const Catalogue& catalogue, const SeatRequest& request) {
    const bool inch = request.thread.inch();
    const std::string_view unit = inch ? "in" : "mm";
    const double to_mm = inch ? kInchMm : 1.0;
    const double diameter = inch ? request.thread.diameter_in() : request.thread.diameter_mm();
    std::vector<std::string_view> heads;
    std::vector<const ScrewHeadRow*> sizes;
    const ScrewHeadRow* found = nullptr;
    for (const ScrewHeadRow& row : catalogue.screw_heads) {
        if (row.unit != unit) {
            continue;
        }
        if (std::find(heads.begin(), heads.end(), row.head) == heads.end()) {
            heads.push_back(row.head);
        }
        if (row.head == request.head) {
            sizes.push_back(&row);
            found = same_size(row.diameter, diameter) ? &row : found;
        }
    }
    if (sizes.empty()) {
        std::string list;
        for (const std::string_view head : heads) {
            list += (list.empty() ? "" : ", ") + std::string(head);
        }
        throw NotTabulatedError(fmt::format("no head '{}' among {} screws; there are {}", request.head,
                                            inch ? "inch" : "metric", list));
    }
    if (found == nullptr) {
        throw NotTabulatedError(fmt::format(
            "no {} head for {}; nearest {} {}", request.head, size_text(request.thread),
            nearest_sizes(sizes, diameter, [](const ScrewHeadRow& row) { return row.diameter; }), unit));
    }
    require(positive("hole_mm", "mm"), request.hole_mm);
    require(not_negative("recess_mm", "mm"), request.recess_mm);
    ScrewSeat out;
    out.head_diameter_mm = found->head_diameter * to_mm;
    out.hole_mm = request.hole_mm;
    const RowRef row = row_ref(catalogue.screw_heads, *found);
    out.evidence.note(figure_index(kSeatFigures, "head_diameter_mm"),
                      std::isnan(found->angle_deg) ? rule::hole_counterbore : rule::hole_countersink, row);
    if (std::isnan(found->angle_deg)) {
        out.head_height_mm = found->head_height * to_mm;
        out.seat_diameter_mm = found->seat_diameter * to_mm;
        out.depth_mm = out.head_height_mm + request.recess_mm;
        out.evidence.note(figure_index(kSeatFigures, "depth_mm"), rule::hole_counterbore, row);
    } else {
        // A cone that stands deeper is wider at the surface by as much as it widens over the recess.
        out.angle_deg = found->angle_deg;
        out.seat_diameter_mm =
            CountersinkDiameter::compute(request.recess_mm, out.head_diameter_mm, out.angle_deg);
        out.depth_mm = CountersinkDepth::compute(out.seat_diameter_mm, request.hole_mm, out.angle_deg);
        out.evidence.note(figure_index(kSeatFigures, "depth_mm"), rule::hole_countersink, row);
    }
    if (!(request.hole_mm < out.seat_diameter_mm)) {
        throw DomainError(fmt::format("hole_mm must be below the seat, {:.4g} mm, got {:.4g} mm",
                                      out.seat_diameter_mm, request.hole_mm));
    }
    return out;
}

}  // namespace halfnut::threads
