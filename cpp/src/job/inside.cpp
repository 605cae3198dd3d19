// Holes on the axis and off it, and what is milled and sawn.

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/core/elementary.hpp"
#include "halfnut/threads/holes.hpp"
#include "halfnut/threads/precoat.hpp"
#include "walker.hpp"

namespace halfnut::job {

namespace {

// Source: common practice, as the rules of job/rules.csv state them, but where another is named.
constexpr double kPointDeep =
    0.3004303;  // of a drill's diameter: half of it over tan 59 degrees, a 118 degree point
constexpr double kChipRoomPitches = 2.0;  // rule::hole_for_tap
constexpr double kDrillWander = 0.03;     // mm that a drilled hole may be off the drill's size
constexpr double kLeastPercent = 50.0;    // rule::tap_hole
constexpr double kPercentPitches =
    1.299;                         // of full thread, on the diameter: Machinery's Handbook, tap drills
constexpr double kReamMost = 0.5;  // mm on the diameter: rule::ream_stock
constexpr double kReamLeast = 0.05;
constexpr double kReamLead = 0.15;  // of the diameter, that a reamer is short of the bottom: rule::ream_lead
constexpr double kReamed = 0.85;    // least hole over reamer that is taken for the one drilled for it
constexpr double kRunOutPitches = 2.0;
constexpr double kLeastRunOutPitches = 1.0;
constexpr double kBarShare = 0.9;  // rule::boring_bar
constexpr double kUsualBarShare = 2.0 / 3.0;
constexpr double kTapRunsOn = 5.0;     // pitches that a tap goes past a hole's far end: rule::hole_for_tap
constexpr double kThinFloor = 0.5;     // mm under a pocket: rule::floor
constexpr double kThinSide = 1.0;      // mm beside a pocket: rule::side
constexpr double kBelowPlate = 5.0;    // mm that a drill may go on below a plate: rule::below_plate
constexpr double kLeastThreads = 2.0;  // rule::tap_thin
constexpr double kStartAgrees = 0.05;  // mm between what a job says is there and what is
constexpr double kFormingMost = 85.0;  // per cent of thread that a forming tap may make
constexpr double kSideBelow = 5.0;     // mm that a side may be milled past the work's thickness
constexpr double kStraightMm = 16.0;   // rule::pilot
constexpr double kStraightLightMm = 25.0;
constexpr double kPilotShare = 0.3;
constexpr double kCountersinkDeg = 90.0;     // as the question of a countersink takes it
constexpr double kThreadBarDiameters = 6.0;  // rule::thread_bar
constexpr double kTapDiameters = 3.0;        // rule::tap_long

}  // namespace

/// A spot is for a drill to come, or for a centre.
void Walker::spot(const Step& step) {
    const auto side = static_cast<std::size_t>(step.end);
    const bool on_turned = part_.form != Form::plate && step.times == 1 && std::isnan(step.spread_x_mm);
    if (on_axis(step) || on_turned) {
        centre_deg_[side] = step.point_deg;
        centre_mm_[side] = step.diameter_mm;
        spotted_by_[side] = operation_;
        spotted_[side] = true;
    }
    check_places(step);
    spots_.push_back({.count = step.times, .diameter_mm = step.diameter_mm, .operation = operation_});
    const double hole = on_axis(step)        ? hole_at(step.end)
                        : now_.holes.empty() ? 0.0
                                             : now_.holes.back().diameter_mm;
    const bool to_drill = std::any_of(&step, part_.steps.data() + part_.steps.size(), [&](const Step& each) {
        return each.what == Do::drill && each.end == step.end && !on_axis(step);
    });
    if (hole > 0.0 && !to_drill) {
        mistake("spot_late", step.diameter_mm, hole);
    }
}

double Walker::thickness_mm() const {
    return part_.form == Form::plate ? part_.thickness_mm - planed_mm_ : part_.length_mm;
}

double Walker::hole_depth(const Step& step) const {
    return std::isnan(step.depth_mm) ? thickness_mm() : step.depth_mm;
}

double Walker::hole_at(End end) const {
    double near = near_end(end);
    for (const Zone& zone : seen_from(end, now_.bore, near, far_end(end))) {
        if (zone.from_mm > near + kTouch) {
            break;
        }
        if (zone.surface != Surface::countersunk && zone.surface != Surface::counterbored) {
            return zone.from_diameter_mm;
        }
        near = zone.to_mm;  // the hole is below what it was widened for
    }
    return 0.0;
}

bool Walker::goes_through(End end, double deep) const {
    return deep >= std::min(far_end(end), part_.length_mm) - kTouch;
}

/// How far a tool goes on through the work by its lead, which is tapered: less what its depth is more.
double Walker::beyond(const Step& step, double lead_mm) const {
    return at_.through ? std::max(0.0, thickness_mm() + lead_mm - hole_depth(step)) : 0.0;
}

Holes* Walker::holes_for(double least, double most) {
    Holes* last = nullptr;
    for (auto group = now_.holes.rbegin(); group != now_.holes.rend(); ++group) {
        if (group->surface == Surface::reamed || group->surface == Surface::tapped) {
            continue;
        }
        if (group->diameter_mm >= least - kTouch && group->diameter_mm <= most + kTouch) {
            return &*group;
        }
        last = last == nullptr ? &*group : last;
    }
    return last;
}

void Walker::check_count(const Step& step, const Holes& holes) {
    if (step.times > holes.count) {
        mistake("holes_missing", kNaN, kNaN,
                {{"wanted", fmt::format("{}", step.times)},
                 {"there", fmt::format("{}", holes.count)},
                 {"other", fmt::format("{}", holes.operation)}});
    }
}

/// Metal between a hole on the axis and the outside, the roots of its threads and knurls.
void Walker::check_wall(const Step& step, double diameter, double from, double to) {
    for (const Zone& zone : seen_from(step.end, now_.outside, from, std::min(to, part_.length_mm))) {
        const double root = zone.least_mm() - 2.0 * zone.depth_mm;
        if (diameter >= root - kTouch) {
            mistake("no_wall", root, diameter);
            return;
        }
    }
}

void Walker::cut_bore(Zone zone) {
    if (zone.length_mm() <= kTouch) {
        return;
    }
    check_cut_away(now_.bore, zone, true);
    double place = zone.from_mm;
    const auto lay_free = [&](double from, double to) {
        if (to > from + kTouch) {
            Profile::lay(now_.bore, Profile::within({zone}, from, to).front());
        }
    };
    for (const Zone& under : Profile::within(now_.bore, zone.from_mm, zone.to_mm)) {
        lay_free(place, under.from_mm);
        if (under.least_mm() < zone.greatest_mm() - kTouch) {
            lay_free(under.from_mm, under.to_mm);
        }
        place = under.to_mm;
    }
    lay_free(place, zone.to_mm);
}

void Walker::check_places(const Step& step) {
    if (on_axis(step)) {
        if (step.times > 1) {
            mistake("off_axis", kNaN, kNaN, {{"wanted", fmt::format("{}", step.times)}});
        }
        return;
    }
    const bool plate = part_.form == Form::plate;
    const double across = now_.greatest_mm(now_.from_mm, now_.to_mm);
    const double sides[2] = {plate ? part_.width_mm : across, plate ? part_.length_mm : across};
    const auto [short_spread, long_spread] =
        std::minmax({or_zero(step.spread_x_mm), or_zero(step.spread_y_mm)});
    const double wide = step.diameter_mm + short_spread;
    const double long_side = step.diameter_mm + long_spread;
    const auto [least, most] = std::minmax(sides[0], sides[1]);
    const bool by_itself = long_spread <= 0.0 && step.what == Do::drill;  // which has a check of its own
    const bool off = !by_itself && (long_side > most + kTouch || wide > least + kTouch);
    if (off && long_side > most + kTouch) {
        mistake("holes_off", long_side, most);
    } else if (off) {
        mistake("holes_off", wide, least);
    }
    if (step.apart_mm < step.diameter_mm - kTouch) {
        mistake("holes_meet", step.apart_mm, step.diameter_mm);
    }
    if (plate && !off && from_corner(step)) {
        check_edges(step);
    }
}

bool Walker::from_corner(const Step& step) {
    return step.zero.find("corner") != std::string::npos && !std::isnan(step.least_x_mm);
}

/// Holes whose places are measured from a corner of a plate, which way round is not known.
void Walker::check_edges(const Step& step) {
    const double radius = step.what == Do::spot ? 0.0 : 0.5 * step.diameter_mm;
    double reach[2] = {0.0, 0.0};
    const double least[2] = {step.least_x_mm, step.least_y_mm};
    const double spread[2] = {step.spread_x_mm, step.spread_y_mm};
    for (int axis = 0; axis < 2; ++axis) {
        const auto [near, far] = std::minmax({std::abs(least[axis]), std::abs(least[axis] + spread[axis])});
        const bool both_sides = least[axis] < -kTouch && least[axis] + spread[axis] > kTouch;
        if (both_sides || near < radius - kTouch) {
            mistake("hole_on_edge", both_sides ? 0.0 : near, radius);
            return;
        }
        reach[axis] = far + radius;
    }
    const auto [narrow, wide] = std::minmax({part_.width_mm, part_.length_mm});
    const auto [less, more] = std::minmax({reach[0], reach[1]});
    if (more > wide + kTouch || less > narrow + kTouch) {
        const bool along = more > wide + kTouch;
        mistake("holes_off", along ? more : less, along ? wide : narrow);
    }
}

/// A drill starts where a spot, a centre or a hole guides it.
void Walker::check_guided(bool guided) {
    if (!guided && !unguided_told_) {
        unguided_told_ = true;
        mistake("drill_unspotted");
    }
}

void Walker::check_pilot(const Step& step, double hole) {
    const bool grabs = is_of("brass") || is_of("plastic");
    const bool light = is_of("aluminium") || is_of("magnesium");
    if (step.diameter_mm > (light ? kStraightLightMm : kStraightMm) + kTouch && hole <= 0.0 && !grabs &&
        hole_depth(step) > step.diameter_mm) {
        mistake("pilot_wanted", step.diameter_mm, kPilotShare * step.diameter_mm);
    }
}

void Walker::drill(const Step& step) {
    const double depth = hole_depth(step);
    check_places(step);
    if (!on_axis(step)) {
        const double thick = thickness_mm();
        const double narrow = std::min(part_.width_mm, part_.length_mm);
        if (part_.form == Form::plate && step.diameter_mm >= narrow - kTouch) {
            mistake("drill_wide", step.diameter_mm, narrow);
        }
        int spotted = 0;
        for (const Holes& each : spots_) {
            spotted += each.count;
        }
        if (spotted > 0 && step.times > spotted) {
            mistake("spots_missing", kNaN, kNaN,
                    {{"wanted", fmt::format("{}", step.times)}, {"there", fmt::format("{}", spotted)}});
        }
        const bool through = std::isnan(step.depth_mm) || depth >= thick - kTouch;
        if (part_.form == Form::plate && depth > thick + std::max(kBelowPlate, step.diameter_mm)) {
            mistake("drill_below", depth, thick);
        }
        at_.through = through;
        Holes made{.count = step.times,
                   .diameter_mm = step.diameter_mm,
                   .depth_mm = depth,
                   .through = through,
                   .operation = operation_,
                   .place_mm = {step.least_x_mm, step.least_y_mm, step.spread_x_mm, step.spread_y_mm}};
        const auto pilot = std::find_if(now_.holes.begin(), now_.holes.end(), [&](const Holes& each) {
            return each.count == made.count && each.surface == Surface::drilled &&
                   each.diameter_mm < made.diameter_mm - kTouch && each.depth_mm >= depth - kTouch &&
                   std::equal(
                       each.place_mm.begin(), each.place_mm.end(), made.place_mm.begin(),
                       [](double a, double b) { return std::abs(a - b) <= kTouch; });
        });
        check_pilot(step, pilot == now_.holes.end() ? 0.0 : pilot->diameter_mm);
        const bool to_start = std::isnan(step.least_x_mm) && step.times == 1 &&
                              std::any_of(&step, part_.steps.data() + part_.steps.size(),
                                          [](const Step& each) { return each.shape == "pocket"; });
        check_guided(spotted > 0 || pilot != now_.holes.end() || hole_at(step.end) > 0.0 || to_start);
        if (pilot != now_.holes.end()) {
            at_.hole_mm = pilot->diameter_mm;
            now_.holes.erase(pilot);
        }
        now_.holes.push_back(std::move(made));
        if (!through && part_.form == Form::plate &&
            depth + kPointDeep * step.diameter_mm >= thick - kTouch) {
            mistake("point_breaks", depth + kPointDeep * step.diameter_mm, thick);
        }
        return;
    }
    const double hole = hole_at(step.end);
    at_.hole_mm = hole > 0.0 && hole < step.diameter_mm - kTouch ? hole : kNaN;
    at_.hole_deep_mm = now_.bored_deep_mm(step.end, kTouch, part_.length_mm);
    const double outside = now_.greatest_mm(now_.from_mm, now_.to_mm);
    if (outside > 0.0 && step.diameter_mm >= outside - kTouch) {
        mistake("drill_wide", step.diameter_mm, outside);
        return;
    }
    check_pilot(step, hole);
    check_guided(hole > 0.0 || spotted_[static_cast<std::size_t>(step.end)]);
    check_wall(step, step.diameter_mm, 0.0, depth);
    if (now_.bored_deep_mm(step.end, step.diameter_mm, part_.length_mm) >= depth - kTouch) {
        mistake("not_larger", step.diameter_mm, hole);
    }
    const Zone zone = zone_of(step, 0.0, depth, step.diameter_mm, Surface::drilled);
    at_.from_mm = zone.from_mm;
    at_.to_mm = zone.to_mm;
    cut_bore(zone);
    const double deep = now_.bored_deep_mm(step.end, kTouch, part_.length_mm);
    at_.through = goes_through(step.end, deep);
    const double tip = depth + kPointDeep * step.diameter_mm;
    if (!at_.through && tip >= part_.length_mm - kTouch) {
        mistake("point_breaks", tip, part_.length_mm);
    }
}

void Walker::ream_in(const Step& step, double hole, double hole_deep, bool through) {
    const double depth = hole_depth(step);
    at_.hole_mm = hole;
    at_.hole_deep_mm = hole_deep;
    const double left = step.diameter_mm - hole;
    if (left <= kTouch) {
        mistake("ream_hole", hole, step.diameter_mm);
    } else if (left > kReamMost) {
        mistake("ream_much", left, kReamMost);
    } else if (left < kReamLeast) {
        mistake("ream_little", left, kReamLeast);
    }
    if (!through && depth > hole_deep + kTouch) {
        mistake("ream_deep", depth, hole_deep);
    } else if (!through && hole_deep - depth < kReamLead * step.diameter_mm - kTouch) {
        mistake("ream_lead", depth, depth + kReamLead * step.diameter_mm);
    }
    if (!step.masked && part_.coating.max_um > 0.0) {
        mistake("coat_closes", step.diameter_mm, step.diameter_mm - 2e-3 * part_.coating.max_um);
    }
}

void Walker::ream(const Step& step) {
    if (!on_axis(step)) {
        Holes* const holes = holes_for(kReamed * step.diameter_mm, step.diameter_mm);
        if (holes == nullptr) {
            mistake("no_hole", kNaN, step.diameter_mm, {{"do", "ream"}});
            return;
        }
        check_count(step, *holes);
        ream_in(step, holes->diameter_mm, holes->depth_mm, holes->through);
        holes->diameter_mm = step.diameter_mm;
        holes->surface = Surface::reamed;
        holes->operation = operation_;
        at_.through = holes->through;
        at_.beyond_mm = beyond(step, kReamLead * step.diameter_mm);
        return;
    }
    const double hole = hole_at(step.end);
    if (hole <= 0.0) {
        mistake("no_hole", kNaN, step.diameter_mm, {{"do", "ream"}});
        return;
    }
    const double deep = now_.bored_deep_mm(step.end, kTouch, part_.length_mm);
    at_.through = goes_through(step.end, deep);
    ream_in(step, hole, deep, at_.through);
    Zone zone = zone_of(step, 0.0, hole_depth(step), step.diameter_mm, Surface::reamed);
    zone.finished = true;
    at_.from_mm = zone.from_mm;
    at_.to_mm = zone.to_mm;
    check_wall(step, step.diameter_mm, 0.0, hole_depth(step));
    cut_bore(zone);
}

void Walker::check_tap_hole(const Step& step, const ThreadSizes& sizes, double hole) {
    if (step.form) {
        const auto hole_of = [&](double share) {
            return threads::FormingHole::compute(sizes.major, sizes.pitch, share);
        };
        const double made = threads::FormingPercent::compute(sizes.major, sizes.pitch, hole);
        if (hole < hole_of(kFormingMost) - kDrillWander || made < kLeastPercent) {
            mistake("tap_hole", hole, hole_of(kFormingMost),
                    {{"thread", step.thread}, {"percent", fmt::format("{:.0f}", made)}},
                    hole_of(kLeastPercent));
        }
        return;
    }
    if (std::isnan(sizes.minor_low) || std::isnan(sizes.minor_high)) {
        return;
    }
    const double percent = 100.0 * (sizes.major - hole) / (kPercentPitches * sizes.pitch);
    const Words words{{"thread", step.thread},
                      {"percent", fmt::format("{:.0f}", percent)},
                      {"low", size(sizes.minor_low)},
                      {"high", size(sizes.minor_high)}};
    if (hole < sizes.minor_low - kDrillWander || percent < kLeastPercent) {
        mistake("tap_hole", hole, sizes.minor_low, words, sizes.minor_high);
    } else if (hole > sizes.minor_high + kDrillWander + 2e-3 * part_.coating.max_um) {
        mistake("tap_hole_loose", hole, sizes.minor_low, words, sizes.minor_high);
    }
}

void Walker::check_tap_depth(const Step& step, const ThreadSizes& sizes, double hole_deep, bool through) {
    if (through || sizes.tapers) {
        return;
    }
    const double thread = hole_depth(step);
    const auto needs = [&](std::string_view lead) {
        const double threads = threads::tap_lead(catalogue_, lead).threads_max;
        return thread + (threads + kChipRoomPitches) * sizes.pitch;
    };
    if (hole_deep < needs("bottoming") - kTouch) {
        mistake("tap_shallow", hole_deep, needs("plug"), {{"thread", step.thread}, {"full", size(thread)}});
    } else if (hole_deep < needs("plug") - kTouch) {
        mistake("tap_bottoming", hole_deep, needs("plug"));
    }
}

void Walker::check_tap(const Step& step, const ThreadSizes& sizes) {
    const double thread = std::min(hole_depth(step), thickness_mm());
    if (thread < kLeastThreads * sizes.pitch - kTouch) {
        mistake("tap_thin", thread, sizes.pitch);
    }
    if (thread > kTapDiameters * sizes.major + kTouch) {
        mistake("tap_long", thread, kTapDiameters * sizes.major);
    }
    if (step.form && is_of("iron")) {
        mistake("tap_crumbles");
    }
    if (step.apart_mm <= sizes.major + kTouch) {
        mistake("holes_meet", step.apart_mm, sizes.major);
    }
}

void Walker::tap(const Step& step) {
    const std::optional<ThreadSizes> sizes = sizes_of(step);
    if (!sizes) {
        return;
    }
    const double least = std::isnan(sizes->minor_low) ? 0.0 : sizes->minor_low - kDrillWander;
    double hole = 0.0;
    double deep = 0.0;
    Holes* holes = nullptr;
    // a hole on the axis of turned work may be tapped on a mill
    if (on_axis(step) || (part_.form != Form::plate && now_.holes.empty())) {
        hole = hole_at(step.end);
        deep = now_.bored_deep_mm(step.end, kTouch, part_.length_mm);
        at_.through = goes_through(step.end, deep);
    } else if (holes = holes_for(least, sizes->major); holes != nullptr) {
        hole = holes->diameter_mm;
        deep = holes->depth_mm;
        at_.through = holes->through;
        check_count(step, *holes);
    }
    if (hole <= 0.0) {
        mistake("no_hole", kNaN, std::isnan(sizes->minor_low) ? sizes->major : sizes->minor_low,
                {{"do", "tap"}});
        return;
    }
    at_.hole_mm = hole;
    at_.hole_deep_mm = deep;
    check_tap(step, *sizes);
    check_tap_hole(step, *sizes, hole);
    check_tap_depth(step, *sizes, deep, at_.through);
    const double thread = hole_depth(step);
    if (thread > thickness_mm() + kTapRunsOn * sizes->pitch) {
        mistake("beyond_part", thread, thickness_mm());
    }
    if (!step.masked && part_.coating.max_um > 0.0 && !sizes->tapers) {
        mistake("coat_tap", kNaN, kNaN, {{"thread", step.thread}});
    }
    if (holes != nullptr) {
        at_.beyond_mm = beyond(step, threads::tap_lead(catalogue_, "plug").threads_max * sizes->pitch);
        holes->surface = Surface::tapped;
        holes->thread = step.thread;
        holes->operation = operation_;
        return;
    }
    Zone zone = zone_of(step, 0.0, std::min(thread, deep), hole, Surface::tapped);
    zone.thread = step.thread;
    zone.depth_mm = 0.5 * (sizes->major - hole);
    zone.left_hand = sizes->left_hand;
    at_.from_mm = zone.from_mm;
    at_.to_mm = zone.to_mm;
    check_wall(step, sizes->major, 0.0, thread);
    if (zone.length_mm() > kTouch) {
        Profile::lay(now_.bore, zone);
    }
}

void Walker::widen(const Step& step) {
    const bool flat = step.what == Do::counterbore;
    double hole = std::isnan(step.hole_mm) ? 0.0 : step.hole_mm;
    check_places(step);
    if (on_axis(step)) {
        hole = hole > 0.0 ? hole : hole_at(step.end);
    } else if (!now_.holes.empty()) {
        Holes* const holes = hole > 0.0 ? holes_for(hole, hole) : &now_.holes.back();
        if (holes != nullptr) {
            hole = hole > 0.0 ? hole : holes->diameter_mm;
            check_count(step, *holes);
        }
    }
    at_.hole_mm = hole > 0.0 ? hole : kNaN;
    if (hole <= 0.0) {
        mistake("no_hole", kNaN, step.diameter_mm, {{"do", std::string(enum_name(step.what))}});
        return;
    }
    if (hole >= step.diameter_mm - kTouch) {
        mistake("not_larger", step.diameter_mm, hole);
        return;
    }
    const double there = on_axis(step) ? hole_at(step.end) : 0.0;
    if (there > 0.0 && std::abs(there - hole) > kStartAgrees) {
        mistake("start_wrong", hole, there);
    }
    const auto spot = std::find_if(spots_.begin(), spots_.end(), [&](const Holes& each) {
        return each.count >= step.times && each.diameter_mm >= step.diameter_mm - kTouch;
    });
    if (!flat && spot != spots_.end()) {
        mistake("countersink_idle", spot->diameter_mm, kNaN, {{"other", fmt::format("{}", spot->operation)}});
    }
    const double half_deg = 0.5 * (std::isnan(step.included_deg) ? kCountersinkDeg : step.included_deg);
    const double down = flat ? step.depth_mm : 0.5 * (step.diameter_mm - hole) / tangent_deg(half_deg);
    if ((flat || part_.form == Form::plate) && down >= thickness_mm() - kTouch) {
        mistake("counterbore_deep", down, thickness_mm());
    } else if (flat && part_.form == Form::plate && thickness_mm() - down < kThinFloor - kTouch) {
        mistake("floor_thin", thickness_mm() - down);
    }
    if (part_.form == Form::plate) {
        deep_by_[static_cast<std::size_t>(step.end)] = operation_;
    }
    if (on_axis(step)) {
        Zone zone =
            zone_of(step, 0.0, down, step.diameter_mm, flat ? Surface::counterbored : Surface::countersunk);
        if (!flat) {
            (step.end == End::first ? zone.to_diameter_mm : zone.from_diameter_mm) = hole;
        }
        check_wall(step, step.diameter_mm, 0.0, flat ? down : 0.0);
        cut_bore(zone);
    }
}

/// A bar that cuts behind a smaller hole stands across that hole: its tip out by what the hole leaves it.
void Walker::check_recess(const Step& step, double from) {
    if (from <= kTouch) {
        return;
    }
    double front = kNaN;
    for (const Zone& each : seen_from(step.end, now_.bore, 0.0, from)) {
        front = front <= each.least_mm() ? front : each.least_mm();
    }
    const double most = 1.5 * front - 0.5 * step.to_mm;
    if (step.bar_mm > most + kTouch) {
        mistake("bar_recess", step.bar_mm, front,
                {{"to", size(step.to_mm)}, {"aim", size(std::max(most, 0.0))}});
    }
}

void Walker::bore(const Step& step) {
    const auto [from, to] = cut_of(step);
    Zone zone = zone_of(step, from, to, step.to_mm, Surface::bored);
    at_.from_mm = zone.from_mm;
    at_.to_mm = zone.to_mm;
    double hole = 0.0;
    for (const Zone& each : Profile::within(now_.bore, zone.from_mm, zone.to_mm)) {
        hole = hole > 0.0 ? std::min(hole, each.least_mm()) : each.least_mm();
    }
    if (!std::isnan(step.start_mm)) {
        if (hole > 0.0 && std::abs(hole - step.start_mm) > kStartAgrees) {
            mistake("start_wrong", step.start_mm, hole);
        }
        hole = step.start_mm;
    }
    at_.hole_mm = hole > 0.0 ? hole : kNaN;
    if (hole <= 0.0) {
        mistake("no_hole", kNaN, step.to_mm, {{"do", "bore"}});
        return;
    }
    check_recess(step, from);
    check_broken(step);
    check_finish(step);
    const double deep = now_.bored_deep_mm(step.end, kTouch, part_.length_mm);
    at_.hole_deep_mm = deep;
    at_.through = goes_through(step.end, deep);
    const std::vector<Zone> bottom = seen_from(step.end, now_.bore, deep - 1e3 * kTouch, deep);
    const bool pointed = !bottom.empty() && bottom.back().surface == Surface::drilled;
    const double cone = pointed ? kPointDeep * bottom.back().to_diameter_mm : 0.0;  // flattened by the bar
    if (to > deep + cone + kTouch && !at_.through && std::isnan(step.start_mm)) {
        mistake("bore_deep", to, deep);
    }
    if (step.to_mm <= hole + kTouch) {
        mistake("not_larger", step.to_mm, hole);
    }
    if (step.bar_mm >= hole - kTouch) {
        mistake("bar_wide", step.bar_mm, hole, {{"aim", size(kUsualBarShare * hole)}});
    } else if (step.bar_mm > kBarShare * hole) {
        mistake("bar_tight", step.bar_mm, hole);
    }
    if (to > step.stick_out_mm + kTouch) {
        mistake("bar_short", step.stick_out_mm, to);
    }
    check_wall(step, step.to_mm, from, to);
    cut_bore(zone);
}

/// What a bar must reach that goes into the hole and still clears the thread as it is drawn back.
void Walker::check_thread_bar(const Step& step, const ThreadSizes& sizes, double hole) {
    const double bar = std::min(kUsualBarShare * hole, hole - 0.5 * (sizes.major - hole));
    const auto [from, to] = cut_of(step);
    if (to > kThreadBarDiameters * bar) {
        mistake("thread_bar", to, bar);
    }
}

void Walker::thread_inside(const Step& step) {
    const auto [from, to] = cut_of(step);
    Zone zone = zone_of(step, from, to, 0.0, Surface::thread);
    zone.thread = step.thread;
    at_.from_mm = zone.from_mm;
    at_.to_mm = zone.to_mm;
    const std::vector<Zone> holes = seen_from(step.end, now_.bore, std::max(from, 0.0), to);
    const std::optional<ThreadSizes> sizes = sizes_of(step);
    if (holes.empty()) {
        mistake("no_hole", kNaN, sizes && !std::isnan(sizes->minor_low) ? sizes->minor_low : kNaN,
                {{"do", "thread"}});
        return;
    }
    at_.hole_mm = holes.front().from_diameter_mm;
    const double any_deep = now_.bored_deep_mm(step.end, kTouch, part_.length_mm);
    at_.hole_deep_mm = any_deep;
    at_.through = goes_through(step.end, any_deep);
    check_broken(step);
    if (!sizes || sizes->tapers || std::isnan(sizes->minor_low)) {
        return;
    }
    check_thread_bar(step, *sizes, at_.hole_mm);
    for (const Zone& each : holes) {
        const bool chamfer = each.surface == Surface::countersunk || each.surface == Surface::counterbored;
        const bool less = each.least_mm() < sizes->minor_low - kTouch;
        const bool more = each.greatest_mm() > sizes->minor_high + kTouch && !chamfer;
        if ((less || more) && each.from_mm <= std::max(from, 0.0) + kTouch) {
            mistake("thread_hole", less ? each.least_mm() : each.greatest_mm(), sizes->minor_low,
                    {{"thread", step.thread}, {"aim", size(0.5 * (sizes->minor_low + sizes->minor_high))}},
                    sizes->minor_high);
            break;
        }
    }
    const double deep = now_.bored_deep_mm(step.end, sizes->minor_low, part_.length_mm);
    const double room = deep - to;
    if (deep > kTouch && room < -kTouch) {
        mistake("thread_deep", to, deep, {{"thread", step.thread}});
    } else if (!goes_through(step.end, deep) && deep > kTouch &&
               room < kLeastRunOutPitches * sizes->pitch - kTouch) {
        mistake("no_run_out", std::max(room, 0.0), kRunOutPitches * sizes->pitch);
    }
    zone.depth_mm = 0.5 * (sizes->major - sizes->minor_low);
    zone.left_hand = sizes->left_hand;
    check_wall(step, sizes->major, std::max(from, 0.0), to);
    for (const Zone& under : Profile::within(now_.bore, zone.from_mm, zone.to_mm)) {
        if (under.surface != Surface::countersunk) {
            Zone cut = zone;
            cut.from_mm = under.from_mm;
            cut.to_mm = under.to_mm;
            cut.from_diameter_mm = under.from_diameter_mm;
            cut.to_diameter_mm = under.to_diameter_mm;
            Profile::lay(now_.bore, cut);
        }
    }
}

// ---- on the mill ------------------------------------------------------------------------------------------

void Walker::mill(const Step& step) {
    const bool plate = part_.form == Form::plate;
    const double thick = plate ? thickness_mm() : now_.greatest_mm(now_.from_mm, now_.to_mm);
    const bool side = step.shape == "side";
    if (plate && step.shape == "face" &&
        step.width_mm >= std::min(part_.width_mm, part_.length_mm) - kTouch) {
        const int deep = deep_by_[static_cast<std::size_t>(step.end)];
        if (deep != 0) {
            mistake("plane_late", step.times * step.depth_mm, kNaN, {{"other", fmt::format("{}", deep)}});
        }
        planed_mm_ += step.times * step.depth_mm;
        if (planed_mm_ >= part_.thickness_mm - kTouch) {
            mistake("mill_deep", planed_mm_, part_.thickness_mm);
        }
    }
    if (step.depth_mm > thick + (side ? kSideBelow : 0.0) + kTouch) {
        mistake("mill_deep", step.depth_mm, thick);
    }
    const auto measured = std::find_if(part_.steps.data(), &step, [&](const Step& each) {
        return each.what == Do::drill && from_corner(each) && each.end == step.end;
    });
    if (plate && side && measured != &step) {
        mistake("side_late", kNaN, kNaN,
                {{"other", fmt::format("{}", kApart * (measured - part_.steps.data() + 1))}});
    }
    if (plate && side) {  // along the plate it takes width away, across it length
        const double across = step.length_mm > part_.width_mm + kTouch ? part_.width_mm : part_.length_mm;
        if (step.times * step.width_mm >= across - kTouch) {
            mistake("mill_wide", step.times * step.width_mm, across);
        }
    }
    const bool closed = step.shape == "pocket";
    const double floor = thick - step.depth_mm;
    if (plate && !side && step.shape != "face" && floor > kTouch && floor < kThinFloor) {
        mistake("floor_thin", floor);
    }
    const double across = plate ? std::max(part_.width_mm, part_.length_mm) : part_.length_mm;
    if (closed && plate && step.width_mm >= std::min(part_.width_mm, part_.length_mm) - kTouch) {
        mistake("mill_wide", step.width_mm, std::min(part_.width_mm, part_.length_mm));
    } else if (closed && plate) {
        const auto [narrow, wide] = std::minmax({part_.width_mm, part_.length_mm});
        const auto [less, more] = std::minmax({step.width_mm, step.length_mm});
        const double wall = 0.5 * std::min(narrow - less, wide - more);
        if (wall > kTouch && wall < kThinSide - kTouch) {
            mistake("side_thin", wall, kThinSide);
        }
    }
    if (step.length_mm > across + (closed ? 0.0 : 2.0 * step.cutter_mm) + kTouch && !side) {
        mistake("mill_long", step.length_mm, across);
    }
    if ((closed || step.shape == "slot") && step.cutter_mm > step.width_mm + kTouch) {
        mistake("cutter_wide", step.cutter_mm, step.width_mm);
    }
    if (step.depth_mm > step.stick_out_mm + kTouch) {
        mistake("cutter_short", step.stick_out_mm, step.depth_mm);
    }
    now_.milled.push_back({step.shape, step.length_mm, step.width_mm, step.depth_mm, step.times, operation_});
}

void Walker::saw(const Step& step) {
    if (step.depth_mm >= 0.5 * step.blade_mm - kTouch) {
        mistake("saw_deep", step.depth_mm, 0.5 * step.blade_mm);
    }
    now_.milled.push_back({"slit", step.length_mm, step.thickness_mm, step.depth_mm, step.times, operation_});
}

}  // namespace halfnut::job
