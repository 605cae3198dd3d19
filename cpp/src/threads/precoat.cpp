#include "halfnut/threads/precoat.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/bounds.hpp"
#include "halfnut/threads/metric.hpp"
#include "halfnut/threads/rules.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

constexpr double kHalfAngleDeg = 30.0;
constexpr std::int32_t kMostUnits = 100'000'000;  // 100 m; sums of a few still fit

/// A last place of the standard, um.
double last_place_um(const ThreadLimits& limits) {
    return limits.inch() ? 2.54 : 1.0;
}

/// Into the zone: a maximum down, a minimum up; figures a rounding error off a whole count stay.
std::int32_t down(double units) {
    return bounds::whole<std::int32_t>(std::floor(units + 1e-6), -kMostUnits, kMostUnits);
}
std::int32_t up(double units) {
    return bounds::whole<std::int32_t>(std::ceil(units - 1e-6), -kMostUnits, kMostUnits);
}

/// Moves a pair of limits by a coating that adds from `least` to `most` to the diameter, last places.
/// `slack` is how far the coated maximum-material size may pass the class's.
struct Move {
    bool external;
    double slack;
    double least;
    double most;

    void operator()(std::int32_t& maximum, std::int32_t& minimum) const {
        if (external) {
            if (maximum != kNoLimit) {
                maximum = std::min(maximum, down(maximum + slack - most));
            }
            if (minimum != kNoLimit) {
                minimum = up(minimum - least);
            }
        } else {
            if (minimum != kNoLimit) {
                minimum = std::max(minimum, up(minimum - slack + most));
            }
            if (maximum != kNoLimit) {
                maximum = down(maximum + least);
            }
        }
    }
};

/// How far the crest's maximum-material limit stays off the basic size, last places.
double crest_allowance(const Thread& thread, const ThreadLimits& limits) {
    if (thread.inch()) {
        return std::abs(limits.deviation);
    }
    if (limits.side == Side::external) {
        const std::int64_t basic_major_um = thread.diameter_units / 1000;
        return static_cast<double>(basic_major_um) -
               limits.figures[static_cast<std::size_t>(Limit::major_max)];
    }
    return limits.figures[static_cast<std::size_t>(Limit::minor_min)] -
           static_cast<double>(iso_basic_minor_um(thread.diameter_units, thread.pitch_units));
}

/// The nearest position or class whose allowance holds a change of the pitch diameter.
void find_position(const Catalogue& catalogue, const PrecoatRequest& request, double change_um,
                   Precoat& out) {
    const Thread& thread = request.thread;
    if (thread.inch()) {
        if (out.uncoated.side == Side::internal || thread.external_unified == 2) {
            return;
        }
        Thread other = thread;
        other.external_unified = 2;
        ThreadLimits limits;
        if (evaluate(catalogue, other, request.options, limits).ok() &&
            std::abs(limits.deviation) * last_place_um(limits) >= change_um) {
            out.has_position = true;
            out.unified_class = 2;
            out.position_deviation_um = std::abs(limits.deviation) * last_place_um(limits);
        }
        return;
    }
    constexpr std::array kExternal{Position::g, Position::f, Position::e, Position::az};
    constexpr std::array kInternal{Position::G, Position::AX, Position::AZ};
    const auto search = [&](const auto& positions) {
        for (const Position position : positions) {
            const auto deviation = iso_deviation(catalogue, position, thread.pitch_units);
            if (deviation && std::abs(deviation->value_um) >= change_um) {
                out.has_position = true;
                out.position = position;
                out.position_deviation_um = std::abs(deviation->value_um);
                return;
            }
        }
    };
    if (out.uncoated.side == Side::external) {
        search(kExternal);
    } else {
        search(kInternal);
    }
}

std::string no_tolerance_left(const PrecoatRequest& request, const Precoat& out, double spread_um) {
    return fmt::format(
        "a build-up from {:.4g} to {:.4g} um moves the pitch diameter of {} by {:.4g} um more at its "
        "thickest than at "
        "its thinnest, and the tolerance is {:.4g} um: no part can be cut that gauges; a coating held "
        "closer, or a "
        "masked thread, can be",
        request.build_up.min_um, request.build_up.max_um, format_thread(request.thread), spread_um,
        out.uncoated.pitch_tolerance * (out.uncoated.inch() ? 0.0254 : 1.0));
}

}  // namespace

Status evaluate(const Catalogue& catalogue, const PrecoatRequest& request, Precoat& out, std::string* why) {
    out = {};
    const Status status = evaluate(catalogue, request.thread, request.options, out.uncoated, why);
    if (!status.ok()) {
        return status;
    }
    const ThreadLimits& own = out.uncoated;
    const double place = last_place_um(own);
    const bool external = own.side == Side::external;
    const bool to_basic = request.gauged_at == GaugedAt::basic;
    const double slack = to_basic ? std::abs(own.deviation) : 0.0;
    const double crest_slack = to_basic ? crest_allowance(request.thread, own) : 0.0;
    const double most = CoatedPitchChange::compute(request.build_up.max_um, kHalfAngleDeg);
    const double least = CoatedPitchChange::compute(request.build_up.min_um, kHalfAngleDeg);
    const double most_crest = CoatedDiameterChange::compute(request.build_up.max_um);
    const double least_crest = CoatedDiameterChange::compute(request.build_up.min_um);
    out.before = own;
    out.allowance_um = std::abs(own.deviation) * place;
    out.pitch_change_um = most;
    out.greatest_build_up_um = GreatestBuildUp::compute(out.allowance_um, kHalfAngleDeg);
    const bool holds =
        slack > 0.0 && most / place <= slack + 1e-6 && most_crest / place <= crest_slack + 1e-6;
    out.way = request.build_up.bare() ? PrecoatWay::bare : holds ? PrecoatWay::held : PrecoatWay::deducted;
    if (out.way == PrecoatWay::deducted) {
        const auto at = [&](Limit limit) -> std::int32_t& {
            return out.before.figures[static_cast<std::size_t>(limit)];
        };
        const Move move_pitch{external, slack, least / place, most / place};
        const Move move_crest{external, crest_slack, least_crest / place, most_crest / place};
        const Move move_root{external, slack, least_crest / place, most_crest / place};
        const Move& move_major = external ? move_crest : move_root;
        const Move& move_minor = external ? move_root : move_crest;
        move_pitch(at(Limit::pitch_max), at(Limit::pitch_min));
        move_major(at(Limit::major_max), at(Limit::major_min));
        move_minor(at(Limit::minor_max), at(Limit::minor_min));
        move_minor(at(Limit::unr_minor_max), at(Limit::major_min_unfinished));
        const Limit crest_max = external ? Limit::major_max : Limit::minor_max;
        const Limit crest_min = external ? Limit::major_min : Limit::minor_min;
        if (at(Limit::pitch_max) < at(Limit::pitch_min) || at(crest_max) < at(crest_min)) {
            if (why != nullptr) {
                *why = no_tolerance_left(request, out, most - least);
            }
            out.before.figures.fill(kNoLimit);
            return {StatusCode::inconsistent, 1};
        }
        if (to_basic) {
            find_position(catalogue, request, most, out);
        }
    }
    const double sense = external ? 1.0 : -1.0;
    out.go_after_pitch_mm =
        own.mm(external ? Limit::pitch_max : Limit::pitch_min) + sense * slack * place / 1000.0;
    out.go_after_crest_mm =
        own.mm(external ? Limit::major_max : Limit::minor_min) + sense * crest_slack * place / 1000.0;
    out.not_go_after_pitch_mm = own.mm(external ? Limit::pitch_min : Limit::pitch_max);

    if (out.way == PrecoatWay::bare) {
        return {};
    }
    constexpr auto kEverySize = figure_index(kPrecoatFigures, "every size");
    constexpr auto kChange = figure_index(kPrecoatFigures, "pitch_change_um");
    out.evidence.note(kEverySize, out.way == PrecoatWay::held ? rule::coat_allowance : rule::coat_before);
    note_build_up(catalogue, request.build_up, kChange, out.evidence);
    out.evidence.note(figure_index(kPrecoatFigures, "greatest_build_up_um"), rule::coat_allowance);
    out.evidence.note(figure_index(kPrecoatFigures, "go_after_pitch_mm"), rule::coat_allowance);
    return {};
}

Status sizes_before_coating(const FitPart& limits, Side side, std::string_view title, FitPart& out,
                            std::string* why) {
    const BuildUp& coat = limits.build_up;
    const bool external = side == Side::external;
    out = limits;
    struct Dimension {
        std::string_view name;
        SizeRange& size;
        double least;
        double most;
    };
    const double least = CoatedDiameterChange::compute(coat.min_um) / 1000.0;
    const double most = CoatedDiameterChange::compute(coat.max_um) / 1000.0;
    const double pitch_least = CoatedPitchChange::compute(coat.min_um, limits.half_angle_deg) / 1000.0;
    const double pitch_most = CoatedPitchChange::compute(coat.max_um, limits.half_angle_deg) / 1000.0;
    for (const Dimension& each :
         {Dimension{"major", out.major, least, most}, Dimension{"pitch", out.pitch, pitch_least, pitch_most},
          Dimension{"minor", out.minor, least, most}}) {
        each.size.min_mm = external ? each.size.min_mm - each.least : each.size.min_mm + each.most;
        each.size.max_mm = external ? each.size.max_mm - each.most : each.size.max_mm + each.least;
        if (each.size.min_mm > each.size.max_mm) {
            if (why != nullptr) {
                *why = fmt::format(
                    "a build-up from {:g} to {:g} um varies by more than the {} diameter's tolerance of {}: "
                    "mask the thread, or have the coating held closer",
                    coat.min_um, coat.max_um, each.name, title);
            }
            out = limits;
            return {StatusCode::inconsistent, 1};
        }
    }
    return {};
}

namespace {

/// Of a form whose standard lets no allowance hold a coating: it gauges at its own limits once it is coated.
Status moved_sizes(const PartLimits& bare, const BuildUp& build_up, PartLimits& out, std::string* why) {
    const FitPart& own = bare.sizes;
    FitPart coated = own;
    coated.build_up = build_up;
    FitPart before;
    const Status status = sizes_before_coating(coated, bare.side, bare.title(), before, why);
    if (!status.ok()) {
        return status;
    }
    const bool external = bare.side == Side::external;
    before.build_up = {};
    if (!build_up.bare()) {
        out.set_sizes(before);
    }
    out.coating = {.way = build_up.bare() ? PrecoatWay::bare : PrecoatWay::deducted,
                   .build_up = build_up,
                   .allowance_um = 1000.0 * bare.allowance_mm,
                   .pitch_change_um = CoatedPitchChange::compute(build_up.max_um, own.half_angle_deg),
                   .greatest_build_up_um = 0.0,
                   .go_after_pitch_mm = external ? own.pitch.max_mm : own.pitch.min_mm,
                   .go_after_crest_mm = external ? own.major.max_mm : own.minor.min_mm,
                   .not_go_after_pitch_mm = external ? own.pitch.min_mm : own.pitch.max_mm,
                   .not_go_after_crest_mm = external ? own.major.min_mm : own.minor.max_mm,
                   .position = {},
                   .evidence = {}};
    return status;
}

}  // namespace

Status evaluate(const Catalogue& catalogue, const PartLimits& bare, const BuildUp& build_up,
                GaugedAt gauged_at, PartLimits& out, std::string* why) {
    out = bare;
    if (!std::holds_alternative<ThreadLimits>(bare.standard)) {
        return moved_sizes(bare, build_up, out, why);
    }
    const Thread& thread = std::get<Thread>(bare.part->thread);
    Precoat answer;
    const Status status = evaluate(catalogue, {thread, build_up, gauged_at, bare.options}, answer, why);
    if (!status.ok()) {
        return status;
    }
    take_limits(thread, answer.before, out);
    out.coating = {.way = answer.way,
                   .build_up = build_up,
                   .allowance_um = answer.allowance_um,
                   .pitch_change_um = answer.pitch_change_um,
                   .greatest_build_up_um = answer.greatest_build_up_um,
                   .go_after_pitch_mm = answer.go_after_pitch_mm,
                   .go_after_crest_mm = answer.go_after_crest_mm,
                   .not_go_after_pitch_mm = answer.not_go_after_pitch_mm,
                   .not_go_after_crest_mm = bare.side == Side::external ? bare.mm[1] : bare.mm[4],
                   .position = !answer.has_position        ? ""
                               : answer.unified_class != 0 ? fmt::format("{}A", answer.unified_class)
                                                           : std::string(enum_name(answer.position)),
                   .evidence = answer.evidence};
    return status;
}

PartLimits precoat(const Catalogue& catalogue, const PartLimits& bare, const BuildUp& build_up,
                   GaugedAt gauged_at) {
    return or_throw<PartLimits>([&](PartLimits& out, std::string* why) {
        return evaluate(catalogue, bare, build_up, gauged_at, out, why);
    });
}

Precoat precoat(const Catalogue& catalogue, const PrecoatRequest& request) {
    return or_throw<Precoat>(
        [&](Precoat& out, std::string* why) { return evaluate(catalogue, request, out, why); });
}

}  // namespace halfnut::threads
