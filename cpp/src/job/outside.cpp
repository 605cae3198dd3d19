// What is turned, faced, grooved, threaded, knurled and parted off.

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/knurls/questions.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/precoat.hpp"
#include "walker.hpp"

namespace halfnut::job {

namespace {

// Source of the constants of this file: common practice, as the rules of job/rules.csv state them.
constexpr double kRunOutPitches = 2.0;  // rule::run_out
constexpr double kLeastRunOutPitches = 1.0;
constexpr double kGroovePitches = 1.5;   // rule::left_hand_groove
constexpr double kChamferPitches = 2.0;  // a chamfer at the start of a thread is no longer
constexpr double kBladeWidths = 8.0;     // rule::blade_depth
constexpr double kBeyondPiece = 6.0;     // mm that a cut may run on into the bar behind the piece
constexpr double kNearBlankPitches =
    0.1;  // that a blank may be off its limits before it is refused: rule::thread_blank
constexpr double kRootDepth = 1.22687;  // of an ISO or Unified thread, over the pitch, on the diameter
constexpr double kStartAgrees = 0.05;   // mm between what a job says that it starts from and what is there
constexpr double kCentreDeg = 60.0;     // of a spot whose point is not said; as centre drills are
constexpr double kSpotLeft = 0.5;       // least of its width that facing leaves; common practice
constexpr double kLandDepths = 1.0;     // depths of a groove: rule::land
constexpr double kTurnedRaMm = 0.4e-3;  // rule::turned_finish

std::string number(int value) {
    return fmt::format("{}", value);
}

knurls::KnurlRequest request_of(const Step& step, double diameter, const Catalogue& catalogue) {
    knurls::KnurlAsk asked;
    asked.pitch = {step.pitch};
    asked.pattern = step.pattern;
    asked.blank.diameter_mm = diameter;
    asked.blank.finished = step.finished;
    asked.blank.process = step.process;
    asked.blank.width_mm = step.width_mm;
    asked.blank.prefer = step.finished ? knurls::Prefer::nearest : knurls::Prefer::below;
    return knurls::request_of(asked, catalogue);
}

bool is_precious(const Zone& zone) {
    return zone.surface == Surface::thread || zone.surface == Surface::knurl ||
           zone.surface == Surface::reamed || zone.surface == Surface::tapped;
}

}  // namespace

std::vector<Zone> Walker::seen_from(End end, const std::vector<Zone>& zones, double from, double to) const {
    const double a = along(end, from);
    const double b = along(end, to);
    std::vector<Zone> out = Profile::within(zones, std::min(a, b), std::max(a, b));
    if (end == End::second) {
        std::reverse(out.begin(), out.end());
        for (Zone& zone : out) {
            const double near = part_.length_mm - zone.to_mm;
            zone.to_mm = part_.length_mm - zone.from_mm;
            zone.from_mm = near;
            std::swap(zone.from_diameter_mm, zone.to_diameter_mm);
        }
    }
    return out;
}

Zone Walker::zone_of(const Step& step, double from, double to, double diameter, Surface surface) const {
    const auto [begin, end] = span(step, from, to);
    return {.from_mm = std::max(begin, now_.from_mm),
            .to_mm = std::min(end, now_.to_mm),
            .from_diameter_mm = diameter,
            .to_diameter_mm = diameter,
            .surface = surface,
            .name = step.name,
            .operation = operation_,
            .finished = step.exact() || step.finish};
}

void Walker::check_cut_away(const std::vector<Zone>& zones, const Zone& zone, bool inside) {
    int told = 0;
    for (const Zone& each : zones) {
        const double from = std::max(each.from_mm, zone.from_mm);
        const double to = std::min(each.to_mm, zone.to_mm);
        const bool whole = from <= each.from_mm + kTouch && to >= each.to_mm - kTouch;
        const bool away = inside ? each.least_mm() < zone.least_mm() - kTouch
                                 : each.greatest_mm() > zone.greatest_mm() + kTouch;
        if (is_precious(each) && away && to > from + kTouch && (whole || !inside) && told != each.operation) {
            told = each.operation;
            mistake("cuts_away", to - from, kNaN,
                    {{"what", inside && each.surface != Surface::thread
                                  ? fmt::format("{} hole", enum_name(each.surface))
                                  : std::string(enum_name(each.surface))},
                     {"other", number(each.operation)}});
        }
    }
}

void Walker::cut_outside(const Zone& zone) {
    if (zone.length_mm() <= kTouch) {
        return;
    }
    check_cut_away(now_.outside, zone, false);
    for (const Zone& under : Profile::within(now_.outside, zone.from_mm, zone.to_mm)) {
        if (under.greatest_mm() > zone.least_mm() + kTouch) {
            Zone part = zone;
            part.from_mm = under.from_mm;
            part.to_mm = under.to_mm;
            if (zone.from_diameter_mm != zone.to_diameter_mm) {  // a taper's own slope
                part = Profile::within({zone}, under.from_mm, under.to_mm).front();
            }
            Profile::lay(now_.outside, part);
        }
    }
}

void Walker::check_reach(const Step& step, double to) {
    const double stands_out = said_stick_out(step);
    if (!std::isnan(stands_out) && to > stands_out + kTouch && step.what != Do::bore) {
        mistake("beyond_stick_out", to, stands_out);
        return;
    }
    double end = far_end(step.end);
    if (now_.on_bar && step.end == End::first) {
        double blade = std::isnan(part_.kerf_mm) ? 0.0 : part_.kerf_mm;
        for (const Step& each : part_.steps) {
            blade = each.what == Do::part_off ? std::max(blade, each.blade_mm) : blade;
        }
        const double run_on = std::max(kBeyondPiece, 0.5 * now_.greatest_mm(now_.from_mm, now_.to_mm));
        end = part_.length_mm + blade + run_on;
    }
    if (to > end + kTouch) {
        mistake("beyond_part", to, now_.on_bar ? part_.length_mm : end);
    }
}

void Walker::check_start(const Step& step, double met) {
    at_.start_mm = std::isnan(step.start_mm) ? met : step.start_mm;
    const bool differs = std::abs(step.start_mm - met) > kStartAgrees && part_.form != Form::hexagon;
    if (differs && met > 0.0) {
        mistake("start_wrong", step.start_mm, met);
    }
    if (!(step.to_mm < at_.start_mm - kTouch)) {
        mistake("not_smaller", step.to_mm, at_.start_mm);
    }
}

void Walker::check_neck(const Step& step, double from, double to) {
    if (from <= kTouch) {
        return;
    }
    const std::vector<Zone> before = seen_from(step.end, now_.outside, near_end(step.end), from);
    const std::vector<Zone> at = seen_from(step.end, now_.outside, from, to);
    if (!before.empty() && before.back().to_diameter_mm > step.to_mm + kTouch && !at.empty() &&
        at.front().from_diameter_mm > step.to_mm + kTouch) {
        mistake("neck_shut", kNaN, step.to_mm);
    }
}

/// What is turned from a hexagon is round below its width across flats.
void Walker::check_flats(const Step& step, double begin, double end) {
    const std::vector<Zone> under = Profile::within(now_.outside, begin, end);
    const bool stock = std::any_of(under.begin(), under.end(),
                                   [](const Zone& each) { return each.surface == Surface::stock; });
    if (part_.form == Form::hexagon && stock && step.to_mm > part_.across_flats_mm + kTouch) {
        mistake("flats_left", step.to_mm, part_.across_flats_mm);
    }
}

void Walker::check_broken(const Step& step) {
    if (!now_.milled.empty() && on_lathe(step) && !broken_told_) {
        broken_told_ = true;
        mistake("cut_broken", kNaN, kNaN,
                {{"what", now_.milled.back().shape}, {"other", number(now_.milled.back().operation)}});
    }
}

void Walker::check_finish(const Step& step) {
    if (step.roughness_mm < kTurnedRaMm - 1e-9) {
        const auto told = [](double mm) { return fmt::format("{:.2g} µm", 1e3 * mm); };
        mistake("finish_ground", kNaN, kNaN,
                {{"asked", told(step.roughness_mm)}, {"best", told(kTurnedRaMm)}});
    }
}

void Walker::turn(const Step& step) {
    const auto [from, to] = cut_of(step);
    check_reach(step, to);
    const auto [begin, end] = span(step, from, to);
    at_.from_mm = begin;
    at_.to_mm = end;
    check_start(step, now_.greatest_mm(begin, end));
    check_neck(step, from, to);
    check_flats(step, begin, end);
    check_broken(step);
    check_finish(step);
    const auto side = static_cast<std::size_t>(step.end);
    if (from <= kTouch && spotted_[side] && step.to_mm < centre_mm_[side] - kTouch) {
        mistake("centre_cut", step.to_mm, centre_mm_[side]);
    }
    Zone zone =
        zone_of(step, from, to, step.to_mm, step.what == Do::taper ? Surface::taper : Surface::turned);
    if (step.what == Do::taper) {
        (step.end == End::first ? zone.to_diameter_mm : zone.from_diameter_mm) = at_.start_mm;
    }
    const double hole = now_.bore_mm(zone.from_mm, zone.to_mm);
    if (hole >= step.to_mm - kTouch) {
        mistake("no_wall", step.to_mm, hole);
    }
    cut_outside(zone);
}

void Walker::face(const Step& step) {
    const double near = near_end(step.end);
    const auto [begin, end] = span(step, near, near + step.off_mm);
    at_.from_mm = begin;
    at_.to_mm = end;
    const double met = now_.greatest_mm(begin, end);
    at_.start_mm = std::isnan(step.start_mm) ? met : step.start_mm;
    if (!std::isnan(step.to_mm)) {
        cut_outside(zone_of(step, near, near + step.off_mm, step.to_mm, Surface::turned));
        return;
    }
    for (const Walked& walked : out_.operations) {
        const Step* const made = maker(walked.operation);
        const bool measured = made->what == Do::turn || made->what == Do::thread ||
                              made->what == Do::groove || made->what == Do::bore || made->what == Do::knurl;
        if (made->end == step.end && measured && on_lathe(*made)) {
            mistake("face_late", step.off_mm, kNaN, {{"other", number(walked.operation)}});
            break;
        }
    }
    check_finish(step);
    const auto side = static_cast<std::size_t>(step.end);
    if (spotted_[side] && hole_at(step.end) <= 0.0) {
        const double half = (std::isnan(centre_deg_[side]) ? kCentreDeg : centre_deg_[side]) / 2.0;
        const double left = centre_mm_[side] - 2.0 * step.off_mm * tangent_deg(half);
        if (left < kSpotLeft * centre_mm_[side]) {
            mistake("spot_faced", kNaN, kNaN, {{"other", number(spotted_by_[side])}});
        }
    }
    (step.end == End::first ? now_.from_mm : now_.to_mm) +=
        step.end == End::first ? step.off_mm : -step.off_mm;
    (step.end == End::first ? now_.first_faced : now_.second_faced) = true;
    now_.outside = Profile::within(now_.outside, now_.from_mm, now_.to_mm);
    now_.bore = Profile::within(now_.bore, now_.from_mm, now_.to_mm);
}

void Walker::groove(const Step& step) {
    const auto [from, to] = cut_of(step);
    check_reach(step, to);
    const auto [begin, end] = span(step, from, to);
    at_.from_mm = begin;
    at_.to_mm = end;
    check_start(step, now_.greatest_mm(begin, end));
    const double hole = now_.bore_mm(begin, end);
    if (hole >= step.to_mm - kTouch) {
        mistake("groove_through", step.to_mm, hole);
    }
    const double deep = 0.5 * (at_.start_mm - step.to_mm);
    double land = 0.0;  // metal in front of the groove, as far as it is as wide as that
    const std::vector<Zone> before = seen_from(step.end, now_.outside, near_end(step.end), from);
    for (auto zone = before.rbegin(); zone != before.rend() && zone->least_mm() > step.to_mm + kTouch;
         ++zone) {
        land += zone->length_mm();
    }
    if (land > kTouch && land < kLandDepths * deep - kTouch) {
        mistake("land_thin", land, kLandDepths * deep);
    }
    cut_outside(zone_of(step, from, to, step.to_mm, Surface::groove));
}

void Walker::part_off(const Step& step) {
    const auto [from, to] = cut_of(step);
    check_reach(step, to);
    at_.from_mm = from;
    at_.to_mm = to;
    const bool ends = now_.to_mm <= from + kTouch;  // the blank, where it has no stub
    const double across = now_.greatest_mm(ends ? from - step.blade_mm : from, to);
    at_.start_mm = across;
    if (std::isnan(part_.stub_mm) && !part_.through_spindle && part_.pieces == 1) {
        mistake("no_stub");
    }
    if (step.blade_mm > part_.kerf_mm + kTouch && (part_.pieces > 1 || part_.stub_mm > 0.0)) {
        mistake("kerf_short", step.blade_mm, part_.kerf_mm);
    }
    const double deep = 0.5 * (across - now_.bore_mm(from, to));
    if (deep > kBladeWidths * step.blade_mm + kTouch) {
        mistake("blade_deep", deep, kBladeWidths * step.blade_mm);
    }
    parted_ = operation_;
    now_.on_bar = false;
    now_.to_mm = from;
    now_.outside = Profile::within(now_.outside, now_.from_mm, now_.to_mm);
    now_.bore = Profile::within(now_.bore, now_.from_mm, now_.to_mm);
}

// ---- threads ----------------------------------------------------------------------------------------------

std::optional<ThreadSizes> Walker::sizes_of(const Step& step) const {
    const threads::Side side = step.what == Do::tap ? threads::Side::internal : step.side;
    threads::AnyThread read;
    threads::ThreadPart part;
    if (!threads::read_any_thread(step.thread, catalogue_, read).ok() ||
        !threads::one_part(read, side, part).ok()) {
        return std::nullopt;  // what cannot be read is said where the thread itself is asked for
    }
    ThreadSizes out{.major = threads::diameter_mm(read),
                    .pitch = threads::pitch_mm(read),
                    .left_hand = threads::is_left_hand(read),
                    .tapers = threads::tapers(read)};
    threads::PartLimits limits;
    if (out.tapers || !threads::evaluate(catalogue_, part, {}, limits).ok()) {
        return out;
    }
    // the depth of the form: between the greatest major and the least minor diameter where both are set
    out.root = std::isnan(limits.mm[5]) ? out.major - kRootDepth * out.pitch : limits.mm[5];
    if (!step.masked && !part_.coating.bare() && step.what != Do::tap) {
        threads::PartLimits coated;
        if (threads::evaluate(catalogue_, limits, part_.coating, threads::GaugedAt::basic, coated).ok()) {
            limits = coated;
        }
    }
    out.major_high = limits.mm[0];
    out.major_low = limits.mm[1];
    out.minor_high = limits.mm[4];
    out.minor_low = limits.mm[5];
    return out;
}

/// The diameter turned for a thread, along its whole length.
bool Walker::check_blank(const Step& step, const ThreadSizes& sizes) {
    const auto [from, to] = cut_of(step);
    if (std::isnan(sizes.major_high) || std::isnan(sizes.major_low)) {
        return true;
    }
    for (const Zone& zone : seen_from(step.end, now_.outside, from, to)) {
        const bool chamfer =
            zone.from_mm <= from + kTouch && zone.length_mm() <= kChamferPitches * sizes.pitch;
        const bool less = zone.least_mm() < sizes.major_low - kTouch && zone.surface != Surface::groove &&
                          !(chamfer && zone.surface == Surface::taper);
        const bool more = zone.greatest_mm() > sizes.major_high + kTouch;
        if (!less && !more) {
            continue;
        }
        const double found = more ? zone.greatest_mm() : zone.least_mm();
        if (zone.from_mm > from + kTouch && zone.from_mm > near_end(step.end) + kTouch) {
            mistake("thread_longer", to, zone.from_mm, {{"thread", step.thread}, {"there", size(found)}});
        } else {
            const double off = more ? found - sizes.major_high : sizes.major_low - found;
            mistake(off <= kNearBlankPitches * sizes.pitch ? "thread_blank_near" : "thread_blank", found,
                    sizes.major_low,
                    {{"thread", step.thread},
                     {"aim", size(0.5 * (sizes.major_low + sizes.major_high))},
                     {"length", size(to)}},
                    sizes.major_high);
        }
        return false;
    }
    return true;
}

/// Room behind a thread for the tool to leave it, or to begin.
void Walker::check_run_out(const Step& step, const ThreadSizes& sizes) {
    const auto [from, to] = cut_of(step);
    const double high = std::isnan(sizes.major_high) ? sizes.major : sizes.major_high;
    double shoulder = far_end(step.end);
    bool is_shoulder = false;
    double relief = 0.0;
    for (const Zone& zone :
         seen_from(step.end, now_.outside, to - 2.0 * kGroovePitches * sizes.pitch, far_end(step.end))) {
        if (zone.greatest_mm() > high + kTouch && zone.to_mm > to + kTouch) {
            shoulder = std::max(zone.from_mm, to);
            is_shoulder = true;
            break;
        }
        if (zone.greatest_mm() <= sizes.root + kTouch) {
            relief += zone.length_mm();
        }
    }
    const double room = shoulder - to;
    if (sizes.left_hand) {
        const double width = kGroovePitches * sizes.pitch;
        if (relief <= kTouch) {
            mistake("no_groove", kNaN, width, {{"thread", step.thread}, {"root", size(sizes.root)}});
        } else if (relief < width - kTouch) {
            mistake("groove_narrow", relief, width);
        }
        return;
    }
    const double said = std::isnan(step.run_out_mm) ? 0.0 : step.run_out_mm;
    if (is_shoulder && relief <= kTouch && room < kLeastRunOutPitches * sizes.pitch - kTouch) {
        mistake("no_run_out", room, kRunOutPitches * sizes.pitch);
    } else if (is_shoulder && said > std::max(room, relief) + kTouch) {
        mistake("no_run_out", std::max(room, relief), said);
    }
}

void Walker::thread_outside(const Step& step) {
    const auto [from, to] = cut_of(step);
    check_reach(step, to);
    Zone zone =
        zone_of(step, from, to, now_.greatest_mm(span(step, from, to).first, span(step, from, to).second),
                Surface::thread);
    at_.from_mm = zone.from_mm;
    at_.to_mm = zone.to_mm;
    at_.start_mm = zone.from_diameter_mm;
    zone.thread = step.thread;
    check_broken(step);
    const std::optional<ThreadSizes> sizes = sizes_of(step);
    if (sizes) {
        const std::vector<Zone> blank = seen_from(step.end, now_.outside, from, to);
        if (sizes->tapers && std::none_of(blank.begin(), blank.end(),
                                          [](const Zone& each) { return each.surface == Surface::taper; })) {
            mistake("taper_blank", kNaN, kNaN, {{"thread", step.thread}});
        } else if (!sizes->tapers && check_blank(step, *sizes)) {
            check_run_out(step, *sizes);
        }
        const double hole = now_.bore_mm(zone.from_mm, zone.to_mm);
        const double wall = 0.5 * (sizes->root - hole);
        zone.depth_mm = 0.5 * (sizes->major - sizes->root);
        zone.left_hand = sizes->left_hand;
        if (hole > 0.0 && wall <= kTouch) {
            mistake("thread_through", sizes->root, hole, {{"thread", step.thread}});
        } else if (hole > 0.0 && wall < zone.depth_mm - kTouch) {
            mistake("thread_wall", wall, zone.depth_mm);
        }
        if (std::isnan(zone.depth_mm)) {
            zone.depth_mm = 0.0;
        }
    }
    check_cut_away(now_.outside, zone, false);
    for (const Zone& under : Profile::within(now_.outside, zone.from_mm, zone.to_mm)) {
        if (under.surface != Surface::groove && under.surface != Surface::taper) {
            Zone cut = zone;
            cut.from_mm = under.from_mm;
            cut.to_mm = under.to_mm;
            cut.from_diameter_mm = under.from_diameter_mm;
            cut.to_diameter_mm = under.to_diameter_mm;
            Profile::lay(now_.outside, cut);
        }
    }
}

// ---- knurls -----------------------------------------------------------------------------------------------

bool Walker::tracks(const Step& step, double diameter) const {
    try {
        knurls::KnurlRequest asked = request_of(step, diameter, catalogue_);
        asked.finished = false;
        const knurls::KnurlBlank found = knurls::knurl_blank(asked, catalogue_);
        return std::abs(found.given_mismatch_teeth) <= found.mismatch_limit_teeth + kTouch;
    } catch (const Error&) {
        return true;  // said where the knurl itself is asked for
    }
}

/// A knurl whose place the job does not give: at the face, or behind what its end has smaller, wherever it
/// is not turned away later and finds one diameter, best one that it tracks on, best one turned for it.
double Walker::knurl_place(const Step& step) const {
    if (!std::isnan(step.at_mm)) {
        return step.at_mm;
    }
    const auto cuts_here = [&](const Step& each) {
        return (each.what == Do::turn || each.what == Do::taper) && each.end == step.end && on_lathe(each) &&
               std::isnan(each.at_mm);
    };
    std::vector<double> places{0.0};
    for (const Step& each : part_.steps) {
        if (cuts_here(each) && each.length_mm + step.width_mm <= part_.length_mm + kTouch) {
            places.push_back(each.length_mm);
        }
    }
    std::sort(places.begin(), places.end());
    double best = 0.0;
    int best_score = -1;
    for (const double place : places) {
        const std::vector<Zone> zones = seen_from(step.end, now_.outside, place, place + step.width_mm);
        if (zones.empty()) {
            continue;
        }
        const double across = zones.front().greatest_mm();
        const bool spared =
            std::none_of(&step, part_.steps.data() + part_.steps.size(), [&](const Step& each) {
                return cuts_here(each) && each.length_mm > place + kTouch && each.to_mm < across - kTouch;
            });
        const bool even = std::all_of(zones.begin(), zones.end(), [&](const Zone& zone) {
            return std::abs(zone.greatest_mm() - across) <= kTouch &&
                   std::abs(zone.least_mm() - across) <= kTouch;
        });
        const int score = (spared ? 8 : 0) + (even ? 4 : 0) + (tracks(step, across) ? 2 : 0) +
                          (zones.front().surface == Surface::turned ? 1 : 0);
        if (score > best_score) {
            best = place;
            best_score = score;
        }
    }
    return best;
}

void Walker::knurl(const Step& step) {
    const auto [from, to] = cut_of(step);
    check_reach(step, to);
    Zone zone = zone_of(step, from, to, 0.0, Surface::knurl);
    at_.from_mm = zone.from_mm;
    at_.to_mm = zone.to_mm;
    const double there = now_.greatest_mm(zone.from_mm, zone.to_mm);
    at_.start_mm = there;
    if (part_.form == Form::hexagon && !now_.outside.empty()) {
        for (const Zone& each : Profile::within(now_.outside, zone.from_mm, zone.to_mm)) {
            if (each.surface == Surface::stock) {
                mistake("knurl_flats", there, part_.across_flats_mm);
                return;
            }
        }
    }
    for (const Zone& each : now_.outside) {
        const bool blank = each.from_mm > zone.from_mm - kTouch && each.to_mm < zone.to_mm + kTouch;
        if (each.finished && each.surface == Surface::turned && !blank) {
            mistake("knurl_late", kNaN, kNaN, {{"other", number(each.operation)}});
            break;
        }
    }
    zone.from_diameter_mm = zone.to_diameter_mm = there;
    zone.thread = step.pitch;
    try {
        const knurls::KnurlRequest request =
            request_of(step, std::isnan(step.diameter_mm) ? there : step.diameter_mm, catalogue_);
        const knurls::KnurlBlank blank = knurls::knurl_blank(request, catalogue_);
        const double tooth = blank.transverse_pitch_mm / std::numbers::pi;  // on the diameter
        const bool wanted =
            std::isnan(step.diameter_mm) || std::abs(there - blank.blank_diameter_mm) <= tooth;
        const double least = now_.least_mm(zone.from_mm, zone.to_mm);
        if (!tracks(step, there) || !wanted || least < there - kTouch) {
            mistake("knurl_blank", least < there - kTouch ? least : there, blank.blank_diameter_mm,
                    {{"length", size(to)}, {"pitch", step.pitch}});
        }
        zone.from_diameter_mm = zone.to_diameter_mm = there + blank.growth_mm;
        zone.depth_mm = blank.tooth_depth_mm;
    } catch (const Error&) {
        // said where the knurl itself is asked for
    }
    if (zone.length_mm() > kTouch) {
        Zone flat = zone;  // its wheels flatten whatever is under them
        flat.from_diameter_mm = flat.to_diameter_mm = 0.0;
        check_cut_away(now_.outside, flat, false);
        Profile::lay(now_.outside, zone);
    }
}

}  // namespace halfnut::job
