#include "halfnut/threads/limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/bounds.hpp"
#include "halfnut/threads/metric.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/rules.hpp"
#include "halfnut/threads/tables.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

constexpr std::uint8_t figure(std::string_view name) {
    for (std::size_t i = 0; i < kThreadLimitFigures.size(); ++i) {
        if (kThreadLimitFigures[i] == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return 0;
}
constexpr std::uint8_t kEverySize = figure("every size");
constexpr std::int64_t kSizeZero = 600;  // of the numbered size #0, 1e-4 in

std::size_t place(Limit limit) {
    return static_cast<std::size_t>(limit);
}
std::uint8_t number(Limit limit) {
    return static_cast<std::uint8_t>(limit);
}

void caution(ThreadLimits& out, LimitCaution caution) {
    out.cautions = static_cast<std::uint16_t>(out.cautions | static_cast<std::uint16_t>(caution));
}

void caution_basis(ThreadLimits& out, Basis basis) {
    if (basis == Basis::formula) {
        caution(out, LimitCaution::not_tabulated);
    } else if (basis == Basis::not_provided) {
        caution(out, LimitCaution::not_provided);
    }
}

Status refuse(ThreadLimits& out, StatusCode code, std::string* why, const std::string& text) {
    out.figures.fill(kNoLimit);
    out.evidence = {};
    if (why != nullptr) {
        *why = text;
    }
    return {code, 0};
}

RuleId deviation_rule(const Micrometres& deviation, Position position) {
    if (deviation.basis == Basis::table) {
        return rule::iso_deviation_table;
    }
    if (deviation.basis == Basis::formula) {
        return rule::iso_deviation_formula;
    }
    return position == Position::h || position == Position::H ? rule::iso_deviation_zero
                                                              : rule::iso_deviation_galvanized;
}

RuleId crest_rule(Basis basis) {
    return basis == Basis::table ? rule::iso_crest_table : rule::iso_crest_formula;
}
RuleId pitch_rule(Basis basis) {
    return basis == Basis::table ? rule::iso_pitch_table : rule::iso_pitch_formula;
}

/// Classes that ISO 965-1 recommends for a group of engagement, any position: external pitch grades, internal
/// grades.
bool recommended(Side side, EngagementGroup group, int pitch_grade) {
    const bool external = side == Side::external;
    switch (group) {
        case EngagementGroup::s:
            return external ? pitch_grade == 3 || pitch_grade == 5 : pitch_grade == 4 || pitch_grade == 5;
        case EngagementGroup::l:
            return external ? pitch_grade == 5 || pitch_grade == 7 || pitch_grade == 9 : pitch_grade >= 6;
        default:
            return external ? pitch_grade == 4 || pitch_grade == 6 || pitch_grade == 8
                            : pitch_grade >= 5 && pitch_grade <= 7;
    }
}

void iso_engagement(const Catalogue& catalogue, const Thread& thread, double length_mm, int pitch_grade,
                    ThreadLimits& out) {
    const IsoEngagementRow* row = iso_engagement_row(catalogue, thread.diameter_units, thread.pitch_units);
    out.group = thread.group;
    if (row != nullptr) {
        out.engagement_over = row->n_over_mm;
        out.engagement_up_to = row->n_up_to_mm;
        if (!std::isnan(length_mm)) {
            out.group = length_mm <= row->n_over_mm    ? EngagementGroup::s
                        : length_mm <= row->n_up_to_mm ? EngagementGroup::n
                                                       : EngagementGroup::l;
            out.evidence.note(kEverySize, rule::iso_engagement, row_ref(catalogue.iso_engagement, *row));
        }
    }
    if (out.group != EngagementGroup::unstated && !recommended(out.side, out.group, pitch_grade)) {
        caution(out, LimitCaution::engagement_class);
    }
}

template <class Row>
bool holds(Rows<Row> rows, double Row::* diameter, double Row::* pitch, double diameter_scale,
           std::int64_t wanted, double pitch_scale, std::int64_t wanted_pitch) {
    auto row = std::partition_point(rows.begin(), rows.end(), [&](const Row& r) {
        return bounds::nearest<std::int64_t>(r.*diameter * diameter_scale) < wanted;
    });
    for (; row != rows.end() && bounds::nearest<std::int64_t>((*row).*diameter * diameter_scale) == wanted;
         ++row) {
        if (bounds::nearest<std::int64_t>((*row).*pitch * pitch_scale) == wanted_pitch) {
            return true;
        }
    }
    return false;
}

bool listed(const Catalogue& catalogue, const Thread& thread) {
    return thread.inch()
               ? holds(catalogue.unified_series, &UnifiedSeriesRow::diameter_in, &UnifiedSeriesRow::tpi, 1e4,
                       thread.diameter_units, 1e3, thread.tpi_thousandths)
               : holds(catalogue.iso_series, &IsoSeriesRow::diameter_mm, &IsoSeriesRow::pitch_mm, 1e6,
                       thread.diameter_units, 1e6, thread.pitch_units);
}

Status iso_limits(const Catalogue& catalogue, const Thread& thread, double length_mm, ThreadLimits& out,
                  std::string* why) {
    const Side side = out.side;
    const bool external = side == Side::external;
    const IsoClass iso = external ? thread.external_iso : thread.internal_iso;
    const auto pitch_deviation = iso_deviation(catalogue, iso.pitch_position, thread.pitch_units);
    const auto crest_deviation = iso_deviation(catalogue, iso.crest_position, thread.pitch_units);
    if (!pitch_deviation || !crest_deviation || is_internal(iso.pitch_position) == external ||
        is_internal(iso.crest_position) == external) {
        return refuse(
            out, StatusCode::not_tabulated, why,
            fmt::format("{}: position {} has no deviation at a pitch of {:.6g} mm", format_thread(thread),
                        enum_name(!pitch_deviation ? iso.pitch_position : iso.crest_position),
                        thread.pitch_mm()));
    }
    const auto crest = iso_crest_tolerance(catalogue, side, thread.pitch_units, iso.crest_grade);
    const auto pitch =
        iso_pitch_tolerance(catalogue, side, thread.diameter_units, thread.pitch_units, iso.pitch_grade);
    if (!crest || !pitch) {
        return refuse(
            out, StatusCode::not_tabulated, why,
            fmt::format("{}: no tolerance of grade {} for a pitch of {:.6g} mm", format_thread(thread),
                        !crest ? iso.crest_grade : iso.pitch_grade, thread.pitch_mm()));
    }
    const int factor = iso_starts_factor(thread.starts);
    const int pitch_tolerance = (pitch->value_um * factor + 50) / 100;
    const auto d = static_cast<std::int32_t>((thread.diameter_units + 500) / 1000);
    const auto d2 = static_cast<std::int32_t>(iso_basic_pitch_um(thread.diameter_units, thread.pitch_units));
    const auto d1 = static_cast<std::int32_t>(iso_basic_minor_um(thread.diameter_units, thread.pitch_units));
    auto& f = out.figures;
    const auto note = [&](Limit limit, RuleId rule, RowRef row = {}) {
        out.evidence.note(number(limit), rule, row);
    };

    out.deviation = pitch_deviation->value_um;
    out.pitch_tolerance = pitch_tolerance;
    out.crest_tolerance = crest->value_um;
    out.evidence.note(kEverySize, rule::iso_limits);
    out.evidence.note(kEverySize, rule::iso_basic_size);
    if (external) {
        f[place(Limit::major_max)] = d + crest_deviation->value_um;
        f[place(Limit::major_min)] = f[place(Limit::major_max)] - crest->value_um;
        f[place(Limit::pitch_max)] = d2 + pitch_deviation->value_um;
        f[place(Limit::pitch_min)] = f[place(Limit::pitch_max)] - pitch_tolerance;
        f[place(Limit::minor_max)] = d1 + pitch_deviation->value_um;
        // the root is reached from the unrounded pitch diameter and rounded once
        const double pitch_nm = static_cast<double>(thread.pitch_units);
        const double exact_um = (static_cast<double>(thread.diameter_units) -
                                 0.75 * kTriangleHeight * pitch_nm - 0.616025 * pitch_nm) /
                                1000.0;
        f[place(Limit::minor_min)] =
            bounds::nearest<std::int32_t>(exact_um + pitch_deviation->value_um - pitch_tolerance);
        out.root_radius_min =
            static_cast<std::int32_t>((thread.pitch_units + 4000) / 8000);  // 0.125 P, half up
        note(Limit::major_max, deviation_rule(*crest_deviation, iso.crest_position), crest_deviation->row);
        note(Limit::major_min, crest_rule(crest->basis), crest->row);
        note(Limit::pitch_max, deviation_rule(*pitch_deviation, iso.pitch_position), pitch_deviation->row);
        note(Limit::pitch_min, pitch_rule(pitch->basis), pitch->row);
        note(Limit::minor_max, deviation_rule(*pitch_deviation, iso.pitch_position), pitch_deviation->row);
        note(Limit::minor_min, rule::iso_root);
    } else {
        f[place(Limit::major_min)] = d + pitch_deviation->value_um;
        f[place(Limit::pitch_min)] = d2 + pitch_deviation->value_um;
        f[place(Limit::pitch_max)] = f[place(Limit::pitch_min)] + pitch_tolerance;
        f[place(Limit::minor_min)] = d1 + crest_deviation->value_um;
        f[place(Limit::minor_max)] = f[place(Limit::minor_min)] + crest->value_um;
        note(Limit::major_min, deviation_rule(*pitch_deviation, iso.pitch_position), pitch_deviation->row);
        note(Limit::pitch_min, deviation_rule(*pitch_deviation, iso.pitch_position), pitch_deviation->row);
        note(Limit::pitch_max, pitch_rule(pitch->basis), pitch->row);
        note(Limit::minor_min, deviation_rule(*crest_deviation, iso.crest_position), crest_deviation->row);
        note(Limit::minor_max, crest_rule(crest->basis), crest->row);
    }
    if (thread.starts > 1) {
        note(external ? Limit::pitch_min : Limit::pitch_max, rule::iso_multi_start);
    }
    for (const Basis basis : {pitch_deviation->basis, crest_deviation->basis, crest->basis, pitch->basis}) {
        caution_basis(out, basis);
    }
    if (iso.pitch_position <= Position::d || iso.crest_position <= Position::d) {
        caution(out, LimitCaution::doubtful_position);
    }
    if (iso.pitch_position != iso.crest_position) {
        caution(out, LimitCaution::mixed_positions);
    }
    iso_engagement(catalogue, thread, length_mm, iso.pitch_grade, out);
    return {};
}

Status unified_limits(const Catalogue& catalogue, const Thread& thread, UnifiedRule decimal_rule,
                      double length_mm, ThreadLimits& out, std::string* why) {
    const bool external = out.side == Side::external;
    const UnifiedClass grade = external ? thread.external_unified : thread.internal_unified;
    if (grade > 3 || thread.pitch_units <= 0 || thread.pitch_units > 400'000'000 ||
        thread.diameter_units > 4'000'000) {
        return refuse(out, StatusCode::out_of_range, why,
                      "a Unified class is 1, 2 or 3, a pitch at most 4 in, a diameter at most 400 in");
    }
    const UnifiedSeries series = unified_rule_series(catalogue, thread);
    const std::int64_t stated =
        std::isnan(length_mm) ? 0 : bounds::nearest<std::int64_t>(length_mm / 25.4 * 1e6);
    const UnifiedEngagement engagement = unified_engagement(series, thread, stated);
    const bool by_print = decimal_rule == UnifiedRule::printed;
    const UnifiedToleranceDiameterRow* neighbour = nullptr;
    if (by_print && !engagement.at_diameter && !engagement.special) {
        neighbour = unified_tolerance_diameter(catalogue, thread.diameter_units);
    }
    const std::int64_t at =
        neighbour == nullptr ? thread.diameter_units : bounds::nearest<std::int64_t>(neighbour->at_in * 1e4);
    const std::int64_t tolerance =
        unified_tolerance_2a(decimal_rule, at, engagement.length_units, thread.pitch_units);
    const UnifiedSizes sizes = external ? unified_external(decimal_rule, thread, tolerance)
                                        : unified_internal(decimal_rule, thread, tolerance);
    auto& f = out.figures;
    const auto note = [&](Limit limit, RuleId rule, RowRef row = {}) {
        out.evidence.note(number(limit), rule, row);
    };

    out.deviation = -sizes.allowance;
    out.pitch_tolerance = static_cast<std::int32_t>(sizes.pitch_tolerance);
    out.crest_tolerance = static_cast<std::int32_t>(sizes.crest_tolerance);
    out.engagement_over = static_cast<double>(engagement.from_units) / 1e6;
    out.engagement_up_to = static_cast<double>(engagement.up_to_units) / 1e6;
    out.evidence.note(kEverySize, rule::unified_limits);
    if (thread.style == SizeStyle::number && thread.diameter_units < kSizeZero) {
        out.evidence.note(kEverySize, rule::unified_size_below_zero);
    }
    out.evidence.note(kEverySize, by_print ? rule::unified_rounding_printed : rule::unified_rounding_formula);
    const RuleId length_rule = engagement.special       ? rule::unified_engagement_special
                               : engagement.at_diameter ? rule::unified_engagement_diameter
                                                        : rule::unified_engagement_pitches;
    const Limit toleranced = external ? Limit::pitch_min : Limit::pitch_max;
    note(toleranced, rule::unified_pitch_tolerance,
         neighbour == nullptr ? RowRef{} : row_ref(catalogue.unified_tolerance_diameters, *neighbour));
    note(toleranced, length_rule);
    if (external) {
        f[place(Limit::major_max)] = sizes.major_max;
        f[place(Limit::major_min)] = sizes.major_min;
        f[place(Limit::pitch_max)] = sizes.pitch_max;
        f[place(Limit::pitch_min)] = sizes.pitch_min;
        f[place(Limit::minor_max)] = sizes.minor_max;
        f[place(Limit::unr_minor_max)] = sizes.unr_minor_max;
        note(Limit::major_max, rule::unified_allowance);
        note(Limit::major_min, rule::unified_major_tolerance);
        if (grade == 2) {
            f[place(Limit::major_min_unfinished)] = sizes.major_min_unfinished;
            note(Limit::major_min_unfinished, rule::unified_major_tolerance);
        }
        const RuleId unr = by_print ? rule::unified_unr_minor_printed : rule::unified_unr_minor;
        note(Limit::minor_max, thread.form == Form::rounded_root ? unr : rule::unified_minor_reference);
        note(Limit::unr_minor_max, unr);
    } else {
        f[place(Limit::major_min)] = sizes.major_min;
        f[place(Limit::pitch_min)] = sizes.pitch_min;
        f[place(Limit::pitch_max)] = sizes.pitch_max;
        f[place(Limit::minor_min)] = sizes.minor_min;
        f[place(Limit::minor_max)] = sizes.minor_max;
        note(Limit::minor_min, rule::unified_minor);
        note(Limit::minor_max, rule::unified_minor_tolerance);
    }
    if (engagement.special) {
        caution(out, LimitCaution::special_engagement);
    }
    if (series != thread.series && thread.series != UnifiedSeries::unef) {
        caution(out, LimitCaution::toleranced_as_series);
    }
    if (thread.starts > 1) {
        caution(out, LimitCaution::multi_start);
    }
    if (grade == 1 &&
        ((series != UnifiedSeries::unc && series != UnifiedSeries::unf) || thread.diameter_units < 2500)) {
        caution(out, LimitCaution::not_provided);
    }
    return {};
}

}  // namespace

double ThreadLimits::native(Limit limit) const noexcept {
    const std::int32_t size = figures[place(limit)];
    return size == kNoLimit ? kNaN : static_cast<double>(size) / (inch() ? 10'000.0 : 1'000.0);
}
double ThreadLimits::mm(Limit limit) const noexcept {
    const std::int32_t size = figures[place(limit)];
    return size == kNoLimit ? kNaN
           : inch()         ? static_cast<double>(size) * 25.4 / 10'000.0
                            : static_cast<double>(size) / 1'000.0;
}
double ThreadLimits::in(Limit limit) const noexcept {
    const std::int32_t size = figures[place(limit)];
    return size == kNoLimit ? kNaN : static_cast<double>(size) / (inch() ? 10'000.0 : 25'400.0);
}

Status evaluate(const Catalogue& catalogue, const Thread& thread, const LimitOptions& options,
                ThreadLimits& out, std::string* why) {
    out = ThreadLimits{};
    out.system = thread.system;
    out.figures.fill(kNoLimit);
    if (thread.diameter_units <= 0 || thread.pitch_units <= 0 || thread.starts < 1) {
        return refuse(out, StatusCode::out_of_range, why, "a thread needs a diameter and a pitch > 0");
    }
    if (thread.form == Form::controlled_root) {
        return refuse(out, StatusCode::not_tabulated, why,
                      fmt::format("{}: {} threads have a controlled root and minor diameters of their own, "
                                  "whose tolerances are in no table here",
                                  format_thread(thread), thread.inch() ? "UNJ" : "MJ"));
    }
    if (thread.has_external() == thread.has_internal()) {
        const std::string external = format_thread(thread.part(Side::external));
        const std::string internal = format_thread(thread.part(Side::internal));
        return refuse(
            out, StatusCode::inconsistent, why,
            fmt::format("{} {}: ask for {} (external) or {} (internal)", format_thread(thread),
                        thread.has_external() ? "is a fit of two parts" : "names no tolerance class",
                        external, internal));
    }
    double length_mm = options.engagement_mm;
    if (!std::isnan(length_mm) && !(length_mm > 0.0 && length_mm < 1e5)) {
        return refuse(out, StatusCode::out_of_range, why,
                      fmt::format("engagement must be > 0 and < 100000 mm, got {:.6g} mm", length_mm));
    }
    if (std::isnan(length_mm)) {
        length_mm = thread.engagement_mm();
    }
    out.side = thread.has_external() ? Side::external : Side::internal;
    const Status status = thread.inch() ? unified_limits(catalogue, thread, options.rule, length_mm, out, why)
                                        : iso_limits(catalogue, thread, length_mm, out, why);
    if (!status.ok()) {
        return status;
    }
    for (const std::int32_t size : out.figures) {
        if (size != kNoLimit && size <= 0) {  // M4x3: the tolerance reaches through the axis
            return refuse(
                out, StatusCode::out_of_range, why,
                fmt::format("{}: the pitch is too coarse for the diameter, no thread is left at the root",
                            format_thread(thread)));
        }
    }
    if (!listed(catalogue, thread)) {
        caution(out, LimitCaution::not_in_series);
    }
    return status;
}

ThreadLimits limits(const Catalogue& catalogue, const Thread& thread, const LimitOptions& options) {
    return or_throw<ThreadLimits>(
        [&](ThreadLimits& out, std::string* why) { return evaluate(catalogue, thread, options, out, why); });
}

}  // namespace halfnut::threads
