// What holds the work: the surface gripped, its length and wall, the machine's own size, and what runs true.

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/job/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "walker.hpp"

namespace halfnut::job {

namespace {

// Source: common practice and lathe texts from memory, as the rules of job/rules.csv state them.
constexpr double kGripDiameters = 0.75;  // rule::grip_length
constexpr double kLeastGrip = 10.0;      // mm
constexpr double kFreeDiameters = 4.0;  // rule::overhang: that work may stand out of a chuck without a centre
constexpr double kJawsClear = 1.0;      // mm between a cut and the jaws: rule::clear_of_jaws
constexpr double kCentreDeg = 60.0;     // of the cone that a centre runs in
constexpr double kThinWall = 0.05;      // of the diameter: rule::wall_under_jaws
constexpr double kLeastStep = 3.0;      // mm in the jaws, of work pushed against them; common practice
constexpr double kHexagonStiff = 1.0516;  // of a hexagon, the round bar as stiff: I = 0.06014 w^4
constexpr double kClampDiameters = 2.0;   // length that is clamped to a faceplate: rule::faceplate

double least_grip(double diameter) {
    return std::max(kGripDiameters * diameter, kLeastGrip);
}

/// How ill a surface suits the jaws: 0 plain, 1 finished, 2 sloped or grooved, 3 threaded or knurled.
int badness(const Zone& zone) {
    switch (zone.surface) {
        case Surface::thread:
        case Surface::knurl:
            return 3;
        case Surface::taper:
        case Surface::groove:
            return 2;
        default:
            return zone.finished ? 1 : 0;
    }
}

}  // namespace

const machine::Chuck* Walker::chuck_of(const Step& step) const {
    if (step.machine == nullptr) {
        return nullptr;
    }
    const std::vector<machine::Chuck>& chucks = step.machine->chucks;
    if (step.holding.empty() && on_lathe(step)) {  // as the cut itself assumes it
        return chucks.empty() ? nullptr : &chucks.front();
    }
    for (const machine::Chuck& chuck : chucks) {
        if (chuck.name == step.holding) {
            return &chuck;
        }
    }
    return nullptr;
}

/// How far from the face the cuts of a holding go, from an operation on.
double Walker::reach_of(const Step& step) const {
    double out = 0.0;
    for (auto place = static_cast<std::size_t>(&step - part_.steps.data()); place < part_.steps.size();
         ++place) {
        const Step& each = part_.steps[place];
        if (&each != &step && !same_setting(part_.steps[place - 1], each)) {
            break;
        }
        if (each.what != Do::bore && !(each.what == Do::thread && each.side == threads::Side::internal)) {
            out = std::max(out, cut_of(each).second);
        }
    }
    return out;
}

double Walker::said_stick_out(const Step& step) const {
    // work is drawn out for a centre after its end is faced and spotted
    const auto says = [&](const Step& each) {
        return (each.what == Do::turn || each.what == Do::taper || each.what == Do::part_off) &&
               (each.hold == Hold::chuck) == (step.hold == Hold::chuck);
    };
    const auto place = static_cast<std::size_t>(&step - part_.steps.data());
    double out = kNaN;
    const auto take = [&](const Step& each) {
        out = says(each) && !std::isnan(each.stick_out_mm) && !(out >= each.stick_out_mm) ? each.stick_out_mm
                                                                                          : out;
    };
    take(step);
    for (std::size_t i = place; i > 0 && same_setting(part_.steps[i - 1], part_.steps[i]); --i) {
        take(part_.steps[i - 1]);
    }
    for (std::size_t i = place + 1;
         i < part_.steps.size() && same_setting(part_.steps[i - 1], part_.steps[i]); ++i) {
        take(part_.steps[i]);
    }
    return out;
}

/// Whether what holds the work closes on a bar, a hexagon, a plate.
void Walker::check_form(const Step& step) {
    const machine::Chuck* const chuck = chuck_of(step);
    const bool collet = now_.held.grip == Grip::collet && step.grips == Grip::as_held;
    const int jaws = chuck == nullptr ? 3 : chuck->jaws;
    const bool on_jaws = now_.held.grip == Grip::hard_jaws || now_.held.grip == Grip::soft_jaws ||
                         now_.held.grip == Grip::strip;
    if (part_.form == Form::hexagon && (collet || (on_jaws && jaws == 4))) {
        mistake("jaws_hexagon");
    }
    if (part_.form == Form::plate && chuck != nullptr && (collet || (on_jaws && jaws != 4))) {
        mistake("jaws_plate");
    }
    const double across = now_.greatest_mm(now_.from_mm, now_.to_mm);
    const double length = now_.to_mm - now_.from_mm;
    if (part_.form != Form::plate && now_.held.grip == Grip::faceplate &&
        (now_.on_bar || length > kClampDiameters * across + kTouch)) {
        mistake("faceplate_bar", length, across);
    }
}

/// The jaws of a steady run on plain work that is not cut where they stand.
void Walker::check_steadies(const Step& step) {
    const double stands_out = said_stick_out(step);
    if (!on_lathe(step) || std::isnan(stands_out)) {
        return;
    }
    const auto [from, to] = cut_of(step);
    for (const double place : step.steadies_mm) {
        const double at = stands_out - place;  // from the face
        if (at > from + kTouch && at < to - kTouch) {
            mistake("steady_in_cut", at, to);
            continue;
        }
        for (const Zone& zone : seen_from(step.end, now_.outside, at - kTouch, at + kTouch)) {
            if (badness(zone) >= 2) {
                mistake("steady_on", kNaN, kNaN,
                        {{"what", std::string(enum_name(zone.surface))},
                         {"other", fmt::format("{}", zone.operation)}});
                break;
            }
            if (part_.form == Form::hexagon && zone.surface == Surface::stock) {
                mistake("steady_flats");
                break;
            }
        }
    }
}

void Walker::hold(const Step& step) {
    now_.held = {.grip = step.grips};
    if (!on_lathe(step)) {
        now_.held.grip = step.grips == Grip::as_held ? Grip::vice : step.grips;
        return;
    }
    const double reach = reach_of(step);
    if (step.hold == Hold::between_centres) {
        now_.held.grip = Grip::centres;
        now_.held.stick_out_mm = far_end(step.end);
        check_machine(step);
        return;
    }
    if (step.grips == Grip::as_held) {
        const machine::Chuck* const chuck = chuck_of(step);
        const bool jaws = chuck == nullptr || chuck->jaws > 0;
        now_.held.grip = jaws                                     ? Grip::hard_jaws
                         : std::isnan(chuck->opening_greatest_mm) ? Grip::faceplate
                                                                  : Grip::collet;
    }
    check_form(step);
    if (part_.form == Form::plate || now_.held.grip == Grip::faceplate) {
        check_machine(step);
        return;
    }
    if (now_.held.grip == Grip::mandrel) {
        if (now_.bore.empty()) {
            mistake("mandrel_no_bore");
        } else if (std::none_of(now_.bore.begin(), now_.bore.end(), [](const Zone& each) {
                       return each.surface == Surface::bored || each.surface == Surface::reamed;
                   })) {
            mistake("mandrel_drilled");
        }
        check_machine(step);
        return;
    }
    if (now_.on_bar && step.end == End::first) {
        hold_bar(step, reach);
    } else {
        hold_piece(step, reach);
    }
    check_machine(step);
}

void Walker::hold_bar(const Step& step, double reach) {
    const double said = said_stick_out(step);
    const double stands_out = std::isnan(said) ? reach : said;
    now_.held.stick_out_mm = stands_out;
    const std::vector<Zone> behind =
        seen_from(step.end, now_.outside, std::max(stands_out, part_.length_mm), far_end(step.end));
    const Zone gripped = behind.empty() ? now_.outside.back() : behind.front();
    now_.held.diameter_mm = gripped.from_diameter_mm;
    now_.held.from_mm = std::max(stands_out, part_.length_mm);
    now_.held.to_mm = std::max(now_.held.from_mm, now_.to_mm);
    check_jaws(step, gripped);
    if (part_.through_spindle && step.machine != nullptr) {
        const machine::Chuck* const chuck = chuck_of(step);
        double hole = step.machine->spindle_bore_mm;
        if (chuck != nullptr && !std::isnan(chuck->through_mm)) {
            hole = std::isnan(hole) ? chuck->through_mm : std::min(hole, chuck->through_mm);
        }
        if (now_.held.diameter_mm > hole + kTouch) {
            mistake("spindle_bore", now_.held.diameter_mm, hole);
        }
    }
}

void Walker::hold_piece(const Step& step, double reach) {
    const double far = far_end(step.end);
    const double said = said_stick_out(step);
    const double stands_out = std::isnan(said) ? reach : said;
    const std::vector<Zone> zones = seen_from(step.end, now_.outside, stands_out, far);
    if (zones.empty()) {
        now_.held.stick_out_mm = far;
        if (stands_out <= far + kTouch) {  // else the cut itself goes beyond the work
            mistake("nothing_gripped", stands_out, far);
        }
        return;
    }
    const machine::Chuck* const chuck = chuck_of(step);
    double through = step.machine == nullptr ? kNaN : step.machine->spindle_bore_mm;
    if (chuck != nullptr && !std::isnan(chuck->through_mm)) {
        through = std::isnan(through) ? chuck->through_mm : std::min(through, chuck->through_mm);
    }
    const Zone* best = nullptr;
    double best_score = 0.0;
    double behind = 0.0;  // the thickest of what is deeper in the chuck
    const bool hard = now_.held.grip == Grip::hard_jaws || now_.held.grip == Grip::strip;
    for (auto zone = zones.rbegin(); zone != zones.rend(); ++zone) {
        const double need = std::isnan(step.grip_mm) ? least_grip(zone->greatest_mm()) : step.grip_mm;
        const double share = std::min(zone->length_mm() / need, 1.0);
        // a short grip is worse than a finished surface, and better than a thread; what is thicker behind it
        // must go into the chuck, past the jaws: hard ones would close on it
        const bool passed = !hard || chuck == nullptr || std::isnan(chuck->jaw_depth_mm) ||
                            behind <= zone->greatest_mm() + kTouch ||
                            zone->length_mm() >= chuck->jaw_depth_mm - kTouch;
        const bool enters =
            passed && (behind <= std::max(zone->greatest_mm(), through) + kTouch || std::isnan(through));
        const double score = (enters ? 10.0 : 0.0) - badness(*zone) + 3.0 * share;
        if (best == nullptr || score >= best_score) {
            best = &*zone;
            best_score = score;
        }
        behind = std::max(behind, zone->greatest_mm());
    }
    if (!std::isnan(said)) {
        best = &zones.front();  // the job says where the jaws begin
    }
    const double across = best->greatest_mm();
    const double need = least_grip(across);
    const double length = std::min(best->length_mm(), std::isnan(step.grip_mm) ? need : step.grip_mm);
    const double a = along(step.end, best->from_mm);
    const double b = along(step.end, best->from_mm + length);
    const bool passes = across <= through + kTouch || std::isnan(through);
    now_.held.stick_out_mm = !std::isnan(said) ? said
                             : passes          ? std::max(best->from_mm, reach)
                                               : std::max(best->from_mm, far - need);
    now_.held.from_mm = std::min(a, b);
    now_.held.to_mm = std::max(a, b);
    now_.held.diameter_mm = across;
    now_.held.surface = best->surface;
    check_jaws(step, *best);
    if (is_supported(step)) {
        return;
    }
    // work no longer than it is thick is pushed against the jaws: it does not tip out of them
    if (((length < need - kTouch && far - length > across) || length < kLeastStep - kTouch) &&
        std::isnan(part_.stub_mm)) {
        mistake("grip_short", length, need);
    }
    if (!passes && now_.held.stick_out_mm > kFreeDiameters * across + kTouch) {
        mistake("stands_out", now_.held.stick_out_mm, kFreeDiameters * across);
    }
}

double Walker::overhang(const Step& step) const {
    if (step.what == Do::thread && step.side == threads::Side::internal) {
        return kNaN;
    }
    const bool of_tool = step.what == Do::bore || step.what == Do::part_off;
    const double out = of_tool || std::isnan(step.stick_out_mm) ? now_.held.stick_out_mm : step.stick_out_mm;
    return out > 0.0 ? out : kNaN;
}

void Walker::set_sections(const Step& step) {
    const bool along = step.what == Do::turn || step.what == Do::taper ||
                       (step.what == Do::thread && step.side == threads::Side::external);
    const double said = said_stick_out(step);
    const double out = std::isnan(said) ? now_.held.stick_out_mm : said;
    const double near = near_end(step.end);
    const auto [from, to] = cut_of(step);
    const bool known =
        !part_.alloy.empty() && !std::isnan(material::find_alloy(catalogue_, part_.alloy).youngs_modulus_gpa);
    if (!along || !known || part_.form == Form::plate || !(to <= out + kTouch) || to <= near) {
        return;
    }
    const std::vector<Zone> zones = seen_from(step.end, now_.outside, near, out);
    const std::vector<Zone> bores = seen_from(step.end, now_.bore, near, out);
    std::vector<double> places;
    places.reserve(2 * (zones.size() + bores.size()));
    for (const auto* list : {&zones, &bores}) {
        for (const Zone& each : *list) {
            places.push_back(each.from_mm);
            places.push_back(each.to_mm);
        }
    }
    std::sort(places.begin(), places.end());
    std::vector<cutting::WorkSection> sections;
    for (std::size_t i = 1; i < places.size(); ++i) {
        const double length = places[i] - places[i - 1];
        if (length <= kTouch) {
            continue;
        }
        const auto under = [&](const std::vector<Zone>& list) {
            return Profile::within(list, places[i - 1] + kTouch, places[i] - kTouch);
        };
        double across = 0.0;
        for (const Zone& each : under(zones)) {
            const bool flats = part_.form == Form::hexagon && each.surface == Surface::stock;
            across = flats ? kHexagonStiff * part_.across_flats_mm : each.least_mm() - 2.0 * each.depth_mm;
        }
        double bore = 0.0;
        for (const Zone& each : under(bores)) {
            bore = each.greatest_mm();
        }
        if (!(across > bore)) {
            return;
        }
        sections.push_back({length, across, bore});
    }
    const bool plain = std::all_of(sections.begin(), sections.end(), [&](const cutting::WorkSection& each) {
        return std::abs(each.diameter_mm - sections.front().diameter_mm) <= kTouch &&
               std::abs(each.bore_mm - sections.front().bore_mm) <= kTouch;
    });
    const bool whole = std::abs(from - std::max(near, 0.0)) <= kTouch && to >= out - kTouch;
    if (sections.empty() || (plain && whole)) {
        return;
    }
    std::reverse(sections.begin(), sections.end());
    at_.sections = std::move(sections);
    at_.cut_at_mm = from <= kTouch ? 0.0 : from - near;
}

/// Whether a centre or a steady comes to the work in a holding, from an operation on.
bool Walker::is_supported(const Step& step) const {
    for (auto place = static_cast<std::size_t>(&step - part_.steps.data()); place < part_.steps.size();
         ++place) {
        const Step& each = part_.steps[place];
        if (&each != &step && !same_setting(part_.steps[place - 1], each)) {
            break;
        }
        if (each.hold != Hold::chuck || !each.steadies_mm.empty()) {
            return true;
        }
    }
    return false;
}

void Walker::check_jaws(const Step& step, const Zone& gripped) {
    const double across = gripped.greatest_mm();
    const machine::Chuck* const chuck = chuck_of(step);
    if (chuck != nullptr && (across > chuck->opening_greatest_mm + kTouch)) {
        const auto& all = step.machine->chucks;
        const auto wider = std::find_if(all.begin(), all.end(), [&](const machine::Chuck& each) {
            return across <= each.opening_greatest_mm + kTouch;
        });
        mistake("jaws_open", across, chuck->opening_greatest_mm,
                {{"chuck", chuck->name},
                 {"other", wider == all.end() ? "a larger chuck" : fmt::format("the {}", wider->name)}});
    }
    const double said = step.machine == nullptr ? kNaN : step.machine->tool_clearance_mm;
    const double clear = std::isnan(said) ? kJawsClear : said;
    const double free = said_stick_out(step) - reach_of(step);  // NaN: not said
    if (free < clear - kTouch && free >= -kTouch) {
        mistake("near_jaws", free, clear);
    }
    if (now_.held.grip != Grip::hard_jaws) {
        return;
    }
    const std::string other = fmt::format("{}", gripped.operation);
    if (gripped.surface == Surface::thread || gripped.surface == Surface::knurl ||
        gripped.surface == Surface::taper) {
        mistake("jaws_on", across, kNaN,
                {{"what", std::string(enum_name(gripped.surface))}, {"other", other}});
    } else if (gripped.finished) {
        mistake("jaws_mark", across, kNaN, {{"other", other}});
    }
    const double wall = 0.5 * (across - now_.bore_mm(now_.held.from_mm, now_.held.to_mm));
    if (wall < kThinWall * across) {
        mistake("jaws_thin", wall, kThinWall * across);
    }
}

void Walker::check_machine(const Step& step) {
    if (step.machine == nullptr) {
        return;
    }
    const machine::Machine& lathe = *step.machine;
    double swing = machine::swing_mm(lathe);
    if (!std::isnan(lathe.swing_in_gap_mm)) {
        swing = std::max(swing, lathe.swing_in_gap_mm);
    }
    const double across = now_.greatest_mm(now_.from_mm, now_.to_mm);
    if (across > swing + kTouch) {
        mistake("swing", across, swing);
    }
    if (now_.held.stick_out_mm > lathe.between_centres_mm + kTouch) {
        mistake("bed", now_.held.stick_out_mm, lathe.between_centres_mm);
    }
}

/// A centre wants a centre hole, or a bore that a cone can run in.
void Walker::check_centre(const Step& step) {
    if (step.hold == Hold::chuck || !on_lathe(step)) {
        return;
    }
    for (const End end : {End::first, End::second}) {
        if ((end != step.end && step.hold != Hold::between_centres) || hole_at(end) > 0.0) {
            continue;
        }
        double& cone = centre_deg_[static_cast<std::size_t>(end)];  // NaN: a centre drill's
        bool& spotted = spotted_[static_cast<std::size_t>(end)];
        if (!spotted) {
            mistake("no_centre", kNaN, kNaN, {{"end", std::string(enum_name(end))}});
        } else if (std::abs(cone - kCentreDeg) > 1.0) {
            mistake("centre_angle", kNaN, kNaN, {{"angle", fmt::format("{:g}°", cone)}});
        }
        spotted = true;  // said once
        cone = kNaN;
    }
}

// ---- what runs true ---------------------------------------------------------------------------------------

double Walker::run_out_mm(std::size_t place) const {
    const Step& step = part_.steps[place];
    const Grip grip = held_[place].grip;
    const machine::Chuck* const chuck = chuck_of(step);
    if (!step.indicated && step.grips == Grip::as_held && chuck != nullptr &&
        !std::isnan(chuck->run_out_mm)) {
        return chuck->run_out_mm;
    }
    const std::string_view held =
        step.indicated ? "indicated" : enum_name(grip == Grip::as_held ? Grip::hard_jaws : grip);
    for (const RunOutRow& row : catalogue_.run_outs) {
        if (row.grip == held) {
            return row.high_mm;
        }
    }
    return kNaN;
}

std::optional<std::size_t> Walker::feature(std::string_view name) const {
    for (std::size_t i = 0; i < part_.steps.size(); ++i) {
        if (part_.steps[i].name == name || fmt::format("{}", kApart * (static_cast<int>(i) + 1)) == name) {
            return i;
        }
    }
    return std::nullopt;
}

void Walker::check_true() {
    for (const True& each : part_.true_to) {
        const std::optional<std::size_t> one = feature(each.feature);
        const std::optional<std::size_t> two = feature(each.to);
        if (!one || !two) {
            mistake("true_unknown", kNaN, kNaN, {{"feature", one ? each.to : each.feature}});
            continue;
        }
        const auto [first, later] = std::minmax(*one, *two);
        if (settings_[first] == settings_[later]) {
            continue;
        }
        // gripped on a surface of the earlier holding it is as true as it is gripped; on another one the
        // error of that holding comes on top
        double run_out = run_out_mm(later);
        bool of_that_holding = false;
        for (const Zone& zone : Profile::within(out_.operations[later].after.outside, held_[later].from_mm,
                                                held_[later].to_mm)) {
            const std::size_t place = static_cast<std::size_t>(zone.operation / kApart);
            of_that_holding = of_that_holding || (place > 0 && settings_[place - 1] == settings_[first]);
        }
        if (!of_that_holding && held_[later].grip != Grip::centres && !part_.steps[later].indicated) {
            run_out += run_out_mm(first);
        }
        if (run_out > each.within_mm + kTouch) {
            operation_ = kApart * (static_cast<int>(later) + 1);
            mistake("runs_out", run_out, each.within_mm,
                    {{"feature", each.feature},
                     {"to", each.to},
                     {"grip", std::string(enum_name(held_[later].grip))},
                     {"other", fmt::format("{}", kApart * (static_cast<int>(first) + 1))}});
            operation_ = 0;
        }
    }
}

}  // namespace halfnut::job
