// A part walked through its operations: where they cut, in what order, and what they leave.

#include "halfnut/job/walk.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/core/words.hpp"
#include "halfnut/material/alloy.hpp"
#include "walker.hpp"

namespace halfnut::job {

namespace {

bool parts_off(const Part& part) {
    return std::any_of(part.steps.begin(), part.steps.end(),
                       [](const Step& step) { return step.what == Do::part_off; });
}

/// What is left on at an end to be faced: as the job says, else what its operations face off.
double left_on(const Part& part, End end) {
    double faced = 0.0;
    for (const Step& step : part.steps) {
        if (step.what == Do::face && step.end == end && std::isnan(step.to_mm)) {
            faced += step.off_mm;
        }
    }
    return std::isnan(part.facing_mm) ? faced : part.facing_mm;
}

/// Where a piece is parted off, from the face of its first end: what is faced off its second end later stays
/// on.
double parted_at(const Part& part) {
    double out = part.length_mm;
    bool parted = false;
    for (const Step& step : part.steps) {
        parted = parted || step.what == Do::part_off;
        if (parted && step.what == Do::face && step.end == End::second && std::isnan(step.to_mm)) {
            out += step.off_mm;
        }
    }
    return out;
}

bool makes_outside(const Step& step) {
    const Cuts cuts = kind_of(step.what).cuts;
    const bool inside = step.what == Do::thread && step.side == threads::Side::internal;
    return (cuts == Cuts::outside || cuts == Cuts::end) && !inside;
}

}  // namespace

Walker::Walker(const Part& part, const Catalogue& catalogue) : part_(part), catalogue_(catalogue) {
    const double length = part.length_mm;
    now_.on_bar = parts_off(part) || part.pieces > 1;
    now_.from_mm = -left_on(part, End::first);
    now_.to_mm = std::isnan(part.blank_mm) ? length + left_on(part, End::second)
                                           : std::max(now_.from_mm + part.blank_mm, length);
    constexpr double kCorners = 1.1547005383792517;  // of a hexagon, across corners over across flats
    const double outside =
        part.form == Form::hexagon ? kCorners * part.across_flats_mm : or_zero(part.diameter_mm);
    if (outside > 0.0) {
        now_.outside.push_back({now_.from_mm, now_.to_mm, outside, outside});
    }
    if (part.bore_mm > 0.0) {
        now_.bore.push_back({now_.from_mm, now_.to_mm, part.bore_mm, part.bore_mm});
    }
    out_.part = part.name;
}

WalkedPart Walker::walk() {
    for (std::size_t i = 0; i < part_.steps.size(); ++i) {
        operation_ = kApart * (static_cast<int>(i) + 1);
        at_ = {};
        at_.operation = operation_;
        const Step& now = part_.steps[i];
        const bool goes_on = i > 0 && same_setting(part_.steps[i - 1], now);
        settings_.push_back(i == 0 ? 1 : settings_.back() + (goes_on ? 0 : 1));
        order(now);
        if (!goes_on) {
            hold(now);
        }
        check_centre(now);
        check_steadies(now);
        now_.held.end = now.end;
        now_.held.setting = settings_.back();
        held_.push_back(now_.held);
        at_.reach_mm = reach_of(now);
        at_.overhang_mm = overhang(now);
        set_sections(now);
        step(now);
        if (std::isnan(at_.hole_mm) && !std::isnan(at_.from_mm)) {
            const double hole = now_.bore_mm(at_.from_mm, at_.to_mm);  // that thins what is turned
            at_.hole_mm = hole > 0.0 && makes_outside(now) ? hole : kNaN;
        }
        at_.covers.emplace_back(at_.through ? "through" : "blind");
        if (now.what == Do::thread && now.side == threads::Side::internal) {
            at_.covers.emplace_back("inside");  // the bar is what bends, not the work
        }
        at_.length_mm = now_.to_mm - now_.from_mm;
        at_.after = now_;
        out_.operations.push_back(at_);
    }
    operation_ = 0;
    if (part_.pieces > 1 && parted_ == 0) {
        mistake("never_parted", kNaN, kNaN, {{"pieces", fmt::format("{}", part_.pieces)}});
    }
    check_lengths();
    check_coating();
    check_true();
    return std::move(out_);
}

std::string Walker::size(double mm) const {
    return size_text(mm, part_.inch);
}

Mistake mistake_of(const Catalogue& catalogue, bool inch, std::string_view code, int operation, double found,
                   double needed, Words words, double most) {
    Mistake out{.code = std::string(code),
                .operation = operation,
                .found_mm = found,
                .needed_mm = needed,
                .needed_most_mm = most};
    const auto figure = [&](std::string_view name) {
        if (name == "found" || name == "needed" || name == "most") {
            return size_text(name == "found" ? found : name == "needed" ? needed : most, inch);
        }
        if (name == "for_needed") {
            return std::isnan(needed) ? std::string() : ", for " + size_text(needed, inch);
        }
        const auto* const word =
            std::find_if(words.begin(), words.end(), [&](const auto& each) { return each.first == name; });
        return word == words.end() ? std::string() : word->second;
    };
    if (const CautionRow* const caution = find_caution(code, catalogue)) {
        out.text = filled(caution->text, figure);
    } else {
        out.refused = true;
        out.text = filled(find_words("refused", code, catalogue), figure);
        out.cure = filled(find_words("cure", code, catalogue), figure);
    }
    return out;
}

void Walker::mistake(std::string_view code, double found, double needed, Words words, double most) {
    out_.mistakes.push_back(mistake_of(catalogue_, part_.inch, code, operation_, found, needed, words, most));
}

const Step* Walker::maker(int operation) const {
    const std::size_t place = static_cast<std::size_t>(operation / kApart);
    return place == 0 || place > part_.steps.size() ? nullptr : &part_.steps[place - 1];
}

// ---- where ------------------------------------------------------------------------------------------------

bool Walker::on_lathe(const Step& step) const {
    return step.machine == nullptr || step.machine->kind == machine::Kind::lathe;
}

bool Walker::on_axis(const Step& step) const {
    return on_lathe(step) && part_.form != Form::plate;
}

double Walker::far_end(End end) const {
    return end == End::first ? now_.to_mm : part_.length_mm - now_.from_mm;
}

double Walker::near_end(End end) const {
    return end == End::first ? now_.from_mm : part_.length_mm - now_.to_mm;
}

std::pair<double, double> Walker::span(const Step& step, double from, double to) const {
    // what begins at the face takes the stock with it that is still in front of it
    const double begin = from <= kTouch ? std::min(from, near_end(step.end)) : from;
    const double a = along(step.end, begin);
    const double b = along(step.end, to);
    return {std::min(a, b), std::max(a, b)};
}

/// A groove whose place the job does not give lies against the shoulder of its end; where there is none,
/// behind what was cut before.
double Walker::groove_place(const Step& step) const {
    if (!std::isnan(step.at_mm)) {
        return step.at_mm;
    }
    const double width = std::isnan(step.width_mm) ? step.blade_mm : step.width_mm;
    std::vector<Zone> zones = now_.outside;
    if (step.end == End::second) {
        std::reverse(zones.begin(), zones.end());
    }
    for (std::size_t i = 1; i < zones.size(); ++i) {
        const bool first = step.end == End::first;
        const double before = first ? zones[i - 1].to_diameter_mm : zones[i - 1].from_diameter_mm;
        const double after = first ? zones[i].from_diameter_mm : zones[i].to_diameter_mm;
        if (after > before + kTouch && zones[i - 1].surface != Surface::stock) {
            const double shoulder = first ? zones[i].from_mm : part_.length_mm - zones[i].to_mm;
            return std::max(0.0, shoulder - width);
        }
    }
    for (auto walked = out_.operations.rbegin(); walked != out_.operations.rend(); ++walked) {
        const Step* const made = maker(walked->operation);
        if (made->end == step.end && !std::isnan(walked->to_mm)) {
            return step.end == End::first ? walked->to_mm : part_.length_mm - walked->from_mm;
        }
    }
    return 0.0;
}

std::pair<double, double> Walker::cut_of(const Step& step) const {
    const double at = or_zero(step.at_mm);
    switch (step.what) {
        case Do::turn:
        case Do::taper:
        case Do::bore:
        case Do::thread:
            return {at, at + step.length_mm};
        case Do::knurl: {
            const double place = knurl_place(step);
            return {place, place + step.width_mm};
        }
        case Do::groove: {
            const double place = groove_place(step);
            return {place, place + (std::isnan(step.width_mm) ? step.blade_mm : step.width_mm)};
        }
        case Do::part_off:
            return {parted_at(part_), parted_at(part_) + step.blade_mm};
        case Do::face:
        case Do::spot:
        case Do::drill:
        case Do::countersink:
        case Do::counterbore:
        case Do::ream:
        case Do::tap:
        case Do::mill:
        case Do::saw:
            break;
    }
    return {0.0, 0.0};
}

bool Walker::same_setting(const Step& before, const Step& after) const {
    return before.machine == after.machine && before.end == after.end && before.holding == after.holding &&
           before.grips == after.grips && before.what != Do::part_off &&
           (before.hold == Hold::between_centres) == (after.hold == Hold::between_centres);
}

// ---- in what order ----------------------------------------------------------------------------------------

void Walker::order(const Step& step) {
    if (!on_lathe(step)) {
        return;
    }
    if (parted_ != 0 && step.end == End::first) {
        mistake("after_parting", kNaN, kNaN, {{"other", fmt::format("{}", parted_)}});
    }
    if (now_.on_bar && step.end == End::second) {
        mistake("still_on_bar");
        now_.on_bar = false;
    }
}

void Walker::step(const Step& step) {
    if (part_.form == Form::plate && on_lathe(step) && !std::isnan(step.start_mm)) {
        now_.outside = {{now_.from_mm, now_.to_mm, step.start_mm, step.start_mm}};
    }
    switch (step.what) {
        case Do::turn:
        case Do::taper:
            return turn(step);
        case Do::face:
            return face(step);
        case Do::bore:
            return bore(step);
        case Do::groove:
            return groove(step);
        case Do::part_off:
            return part_off(step);
        case Do::spot:
            return spot(step);
        case Do::drill:
            return drill(step);
        case Do::countersink:
        case Do::counterbore:
            return widen(step);
        case Do::ream:
            return ream(step);
        case Do::tap:
            return tap(step);
        case Do::mill:
            return mill(step);
        case Do::saw:
            return saw(step);
        case Do::thread:
            return step.side == threads::Side::external ? thread_outside(step) : thread_inside(step);
        case Do::knurl:
            return knurl(step);
    }
}

bool Walker::is_of(std::string_view group) const {
    return !part_.alloy.empty() &&
           material::kinship(catalogue_, material::find_alloy(catalogue_, part_.alloy), group) >= 0;
}

/// A stub that stays on, where nothing parts the piece off; a finish that is made for another metal.
void Walker::check_coating() {
    const double over = now_.to_mm - now_.from_mm - part_.length_mm;
    if (part_.stub_mm > 0.0 && part_.pieces == 1 && !parts_off(part_) && over >= part_.stub_mm - kTouch) {
        mistake("stub_stays", over);
    }
    const threads::CoatingRow* const row = part_.coating.row(catalogue_);
    if (row == nullptr || row->base == threads::CoatingBase::any || part_.alloy.empty()) {
        return;
    }
    // what is made for steel is put on stainless steel and iron, too
    const std::string_view base = enum_name(row->base);
    const bool suits = is_of(base) || (base == "steel" && (is_of("stainless") || is_of("iron")));
    if (!suits) {
        mistake("coat_base", kNaN, kNaN,
                {{"coating", part_.coating_name}, {"base", std::string(base)}, {"alloy", part_.alloy}});
    }
}

/// The stock says how much is left on its ends: both are faced, and the length comes out.
void Walker::check_lengths() {
    if (std::isnan(part_.facing_mm) || part_.form == Form::plate || parts_off(part_)) {
        return;
    }
    if (now_.first_faced != now_.second_faced && part_.facing_mm > kTouch && std::isnan(part_.stub_mm)) {
        mistake("end_sawn", part_.facing_mm, kNaN,
                {{"end", std::string(enum_name(now_.first_faced ? End::second : End::first))}});
    }
    if (!now_.first_faced || !now_.second_faced) {
        return;
    }
    const double length = now_.to_mm - now_.from_mm;
    if (std::abs(length - part_.length_mm) > kTouch && std::isnan(part_.stub_mm)) {
        mistake(length < part_.length_mm ? "comes_short" : "comes_long", length, part_.length_mm);
    }
}

WalkedJob walk(std::span<const Part> parts, const Catalogue& catalogue) {
    WalkedJob out;
    for (const Part& part : parts) {
        out.parts.push_back(Walker(part, catalogue).walk());
    }
    check_joints(parts, catalogue, out);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        out.parts[i].told = standing(parts[i], catalogue);
        for (Mistake& mistake : out.parts[i].mistakes) {
            const auto number = static_cast<std::size_t>(mistake.operation / kApart);
            const int line = number == 0 ? parts[i].line : parts[i].steps[number - 1].line;
            mistake.line = line == 0 ? std::nullopt : std::optional(line);
        }
    }
    return out;
}

}  // namespace halfnut::job
