// Change gears, as a question: trains for a thread, a lead or a feed.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <numeric>
#include <optional>

#include "cut_answer.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/cutting/chase.hpp"
#include "halfnut/cutting/gears.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/questions.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

using machine::Ratio;
using std::string_view;

constexpr double kHalf = 0.5;  // share of the pitch diameter's tolerance that a wrong lead may take
constexpr double kWidest = 1.0;
constexpr double kWider = 4.0;
constexpr double kLeastWider = 1e-4;
constexpr Ratio kInch{127, 5};

// ---- what is asked ----------------------------------------------------------------------------------------

constexpr Argument kPercent{.name = "error_percent", .unit = "", .low = 0.0, .high = 100.0};
constexpr AskedRow gears_row(const AskedRow& row, string_view about) {
    AskedRow out = row.saying(about);
    out.kind = AskedKind::list;
    return out;
}

#define ASKED(member, about) HALFNUT_ASKED(GearAsk, member, about)
constexpr std::array kAsked{
    ASKED(lead,
          "Thread, such as M24x1.5-6g, which also gives a tolerance; a lead, such as 1.5 mm or 11.5 TPI; or "
          "a feed "
          "for turning or knurling, such as 0.12 mm/rev.")
        .or_a("Lead")
        .required()
        .leads(),
    ASKED(machine, "The lathe with its gears, gearbox and distances."),
    gears_row(ASKED(gears, ""), "Teeth of the gears at hand, equal ones repeated, in place of a machine.")
        .or_a("Teeth"),
    ASKED(leadscrew, "Leadscrew that bare gears drive, such as 8 TPI or 3 mm.").or_a("Lead"),
    ASKED(spindle_to_stud, "Turns of the stud for one of the spindle, with bare gears.")
        .above(0)
        .usually("1"),
    ASKED(engagement_mm, "Length of thread over which the error is judged.")
        .above(0)
        .usually("the thread's own, else its diameter"),
    ASKED(error_percent, "Error of the lead in percent beyond which trains are left out.")
        .in(kPercent)
        .usually("0.1"),
    ASKED(most, "How many trains to answer.").from(1, 1'000'000).usually("10"),
    ASKED(simple, "Simple trains only."),
    ASKED(no_gearbox, "Leave the gearbox out."),
};
#undef ASKED

// ---- what is answered -------------------------------------------------------------------------------------

bool is_compound(const GearTrainAnswer& train) {
    return train.drivers.size() == 2;
}

#define FIGURE(member, about) HALFNUT_FIGURE(GearTrainAnswer, member, about)
constexpr std::array kTrainFigures{
    FIGURE(what, "What the train gives: lead or feed."),
    FIGURE(unit, "Unit of the lead that is wanted."),
    FIGURE(wanted_mm, "Travel that is wanted for a turn of the spindle.").always(),
    FIGURE(gives_mm, "Travel that the train gives.").always(),
    FIGURE(error, "Error as a share, above zero where the lead is long.").always(),
    FIGURE(exact, "Whether the lead is exact."),
    FIGURE(drivers, "Driving gears: on the stud; of a compound train then the one in the banjo."),
    FIGURE(driven,
           "Driven gears: of a compound train the one in the banjo first; last that on the leadscrew."),
    made_figure<&is_compound>("compound", "Whether two gears turn together in the banjo."),
    FIGURE(idler, "Idler of a simple train; where there is none, any that meshes with both."),
    FIGURE(ends_on, "What the last gear turns: leadscrew or gearbox."),
    FIGURE(positions, "Where the levers of the gearbox stand."),
    FIGURE(chart_mm, "What the gearbox's chart says beside those levers."),
    FIGURE(standard, "Whether these are the gears that the chart is for."),
    FIGURE(mounting, "Whether it can be put up."),
    FIGURE(stud_to_banjo_mm, "Distance of the banjo's stud from the stud."),
    FIGURE(banjo_to_screw_mm, "Distance of the banjo's stud from the last shaft."),
    FIGURE(stud_to_screw_mm, "Distance of the stud from the last shaft."),
    FIGURE(lathe_unit, "Unit of the lathe's own distances."),
    FIGURE(engagement_mm, "Length of thread over which the error is judged."),
    FIGURE(lead_error_mm, "Error of the lead over the engagement."),
    FIGURE(on_pitch_diameter_mm, "What that counts as on the pitch diameter."),
    FIGURE(pitch_tolerance_mm, "Tolerance of the pitch diameter."),
    FIGURE(good_enough,
           "Whether it takes at most half of that tolerance; where none is known it is not judged."),
    FIGURE(starts, "Starts of the thread."),
    FIGURE(index_teeth,
           "Teeth of the stud's gear to pass from one start to the next; none where they are not whole."),
    FIGURE(said, "The gears, the levers, what they give and how far it is off, in one line."),
    FIGURE(gears, "Drivers over driven gears, as a chart writes them."),
    FIGURE(error_said, "How far the lead is off."),
    FIGURE(mounting_said, "Whether the train can be put up, and the distances of its shafts."),
    FIGURE(judgement,
           "What the error comes to over the engagement, against the tolerance of the pitch diameter."),
    FIGURE(indexing, "How to come from one start to the next by the gears."),
    FIGURE(shafts, "What goes on each shaft, from the spindle on."),
    FIGURE(steps, "What to do at the lathe, in order."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE

#define FIGURE(member, about) HALFNUT_FIGURE(GearTrainsAnswer, member, about)
constexpr std::array kTrainsFigures{
    FIGURE(title, "What was asked."),
    HALFNUT_RECORDS(GearTrainsAnswer, trains, kGearTrainRecord, "Trains, best first."),
    FIGURE(found, "Trains within the limit of error that can be put up, or may be."),
    FIGURE(refused, "Trains of the right ratio that do not close."),
    FIGURE(asked_percent, "Limit of error that was asked for, in percent.").always(),
    FIGURE(error_percent, "Limit within which these were found; wider where nothing was within the other.")
        .always(),
    FIGURE(said, "The best train in one line."),
    FIGURE(wider, "That nothing is within the limit that was asked for, where it is so."),
    FIGURE(others, "The other trains, a line each."),
    FIGURE(search, "How the search went."),
    FIGURE(told, "What a person should know of the best train."),
    FIGURE(evidence, "What the best train rests on."),
};
#undef FIGURE
constexpr std::array kGearTrainsSays{
    SaidRow{"limit", "{wider}"},
    SaidRow{"=", "trains.first"},
    SaidRow{"*or", "others"},
    SaidRow{"found", "{search}"},
};
constexpr RecordRow kTrainsRecord{
    "GearTrains", "Trains, best first, and how the search went.", kTrainsFigures,
    {},           {"{said}", kGearTrainsSays, "limit, 1., 2."},   false,
    "trains"};

// ---- how a lead is read -----------------------------------------------------------------------------------

Ratio exact_ratio(double value_mm, string_view name) {
    const Ratio out = machine::simplest_ratio(value_mm);
    if (out.num == 0) {
        throw DomainError(fmt::format("{} must be > 0 mm and a ratio of terms up to ten million, got {:g} mm",
                                      name, value_mm));
    }
    return out;
}

string_view trimmed(string_view text) {
    const auto blank = [](char letter) { return std::isspace(static_cast<unsigned char>(letter)) != 0; };
    while (!text.empty() && blank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && blank(text.back())) {
        text.remove_suffix(1);
    }
    return text;
}

std::string lower(string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return out;
}

/// A count of threads an inch, "11.5", "11 1/2" is none; a nought in front may have lost a point.
std::optional<double> count_of(string_view text) {
    const auto number = [](string_view part) -> std::optional<double> {
        double value = 0.0;
        const bool lost = part.size() > 1 && part[0] == '0' && part[1] != '.';
        const bool digits = !part.empty() && std::isdigit(static_cast<unsigned char>(part.front())) != 0;
        const auto [end, error] = read_number(part.data(), part.data() + part.size(), value, false);
        const bool whole = digits && !lost && error == std::errc{} && end == part.data() + part.size();
        return whole ? std::optional(value) : std::nullopt;
    };
    const std::size_t slash = text.find('/');
    if (slash == string_view::npos) {
        return number(text);
    }
    const std::optional<double> over = number(trimmed(text.substr(0, slash)));
    const std::optional<double> under = number(trimmed(text.substr(slash + 1)));
    return over && under && *under > 0.0 ? std::optional(*over / *under) : std::nullopt;
}

/// Threads an inch, where the text says so: "8 TPI", "11.5 threads an inch".
std::optional<double> per_inch(string_view text) {
    const std::string small = lower(text);
    for (const string_view unit :
         {"tpi", "threads an inch", "thread an inch", "threads per inch", "thread per inch"}) {
        if (small.ends_with(unit)) {
            return count_of(trimmed(text.substr(0, text.size() - unit.size())));
        }
    }
    return std::nullopt;
}

LeadWanted of_length(double value_mm, std::string title, bool inch, string_view name) {
    LeadWanted out;
    out.title = std::move(title);
    out.mm = exact_ratio(value_mm, name);
    out.inch = inch;
    return out;
}

/// A feed such as "0.12 mm/rev", which a chart of feeds gives.
bool is_feed(string_view text) {
    const std::string small = lower(text);
    const std::size_t slash = small.find('/');
    if (slash == std::string::npos) {
        return false;
    }
    const string_view unit = trimmed(string_view(small).substr(slash + 1));
    return unit.starts_with("rev") || unit.starts_with("turn");
}

LeadWanted of_quantity(const Quantity& quantity, string_view name) {
    LeadWanted out = of_length(quantity.base(), quantity.text(), quantity.system() == UnitSystem::inch, name);
    out.feed = quantity.dimension() == Dimension::feed_per_rev;
    return out;
}

LeadWanted of_text(string_view text, const AskedRow& row, Asking& asking) {
    if (const std::optional<double> count = per_inch(text)) {
        if (!(*count > 0.0)) {
            throw DomainError(fmt::format("{} must be of more than 0 threads an inch, got '{}'", row.name,
                                          bounds::shown(text)));
        }
        const Ratio each = exact_ratio(*count, row.name);
        const std::int64_t num = kInch.num * each.den;
        const std::int64_t den = kInch.den * each.num;
        const std::int64_t common = std::gcd(num, den);
        LeadWanted out;
        out.title = std::string(trimmed(text));
        out.mm = {num / common, den / common};
        out.inch = true;
        return out;
    }
    if (is_feed(text)) {
        try {
            return of_quantity(parse_quantity(text, Dimension::feed_per_rev, asking.catalogue), row.name);
        } catch (const Error&) {
            rethrow_of(row.name);
        }
    }
    try {
        return of_quantity(parse_quantity(text, Dimension::length, asking.catalogue), row.name);
    } catch (const Error&) {
        threads::PartAsked part;
        take(part, {.tag = Given::Tag::text, .text = text}, row, asking);
        return lead_of(asking.catalogue, cut_limits(asking.catalogue, part));
    }
}

// ---- how it is answered -----------------------------------------------------------------------------------

/// The threading with the feeds of the carriage in place of the gearbox's leads.
machine::Threading feeds_of(const machine::Machine* lathe) {
    if (lathe == nullptr || lathe->carriage.steps.empty() || lathe->threading.standard_driver == 0) {
        throw DomainError(
            "a feed is computed from a lathe's chart of feeds and the gears it is for: carriage.steps and "
            "threading.gearbox of its file; say a lead where the leadscrew feeds");
    }
    machine::Threading out = lathe->threading;
    out.lead_mm = 1.0;
    out.spindle_to_stud = 1.0;
    out.gearbox.clear();
    for (const machine::FeedStep& step : lathe->carriage.steps) {
        out.gearbox.push_back({step.feed_mm, step.positions});
    }
    return out;
}

machine::Threading threading_of(const GearAsk& asked) {
    const machine::Machine* const lathe = asked.machine;
    const bool bare = lathe == nullptr;
    if (bare == asked.gears.teeth.empty()) {
        throw DomainError("say machine or gears, one of the two");
    }
    const bool screw = asked.leadscrew.mm.num != 0;
    if (!bare && (screw || !std::isnan(asked.spindle_to_stud))) {
        throw DomainError(
            fmt::format("leadscrew and spindle_to_stud are those of {}'s file; leave them out", lathe->name));
    }
    if (!bare && lathe->threading.gears.empty()) {
        throw DomainError(fmt::format("{}'s file names no change gears: threading.gears", lathe->name));
    }
    machine::Threading out;
    if (asked.lead.feed) {
        out = feeds_of(lathe);
    } else if (!bare) {
        out = lathe->threading;
    } else {
        out.gears = asked.gears.teeth;
        out.spindle_to_stud = std::isnan(asked.spindle_to_stud) ? 1.0 : asked.spindle_to_stud;
        out.lead_mm = screw ? asked.leadscrew.mm.value() : kNaN;
    }
    if (std::isnan(out.lead_mm)) {
        throw DomainError("no leadscrew is known: say leadscrew='8 TPI' or leadscrew='3 mm'");
    }
    return out;
}

machine::GearAnswer search(const machine::Threading& threading, const machine::GearQuestion& question) {
    machine::GearAnswer out;
    std::string why;
    if (!machine::gear_trains(threading, question, out, &why).ok()) {
        throw DomainError(why);
    }
    return out;
}

/// Teeth of the stud's gear from one start to the next, where they are whole.
std::optional<int> index_teeth(double spindle_to_stud, int driver, int starts) {
    const Ratio stud = machine::simplest_ratio(spindle_to_stud);
    const std::int64_t den = stud.den * starts;
    const std::int64_t num = stud.num * driver;
    const std::int64_t whole = num / den;
    return starts > 1 && num % den == 0 ? std::optional(bounds::whole<int>(static_cast<double>(whole)))
                                        : std::nullopt;
}

void judge_lead(const LeadWanted& wanted, double over_mm, GearTrainAnswer& out) {
    if (wanted.feed || std::isnan(over_mm)) {
        return;
    }
    out.engagement_mm = over_mm;
    out.lead_error_mm = std::abs(out.error) * over_mm;
    out.on_pitch_diameter_mm = threads::pitch_error_equivalent_mm(out.lead_error_mm, wanted.half_angle_deg);
    if (!std::isnan(wanted.tolerance_mm)) {
        out.good_enough = out.on_pitch_diameter_mm <= kHalf * wanted.tolerance_mm;
    }
}

GearTrainAnswer train_of(const machine::GearTrain& found, const LeadWanted& wanted,
                         const machine::Threading& threading, double over_mm, bool lathe_inch,
                         const Catalogue& catalogue) {
    GearTrainAnswer out;
    const machine::GearboxStep* const box =
        found.box < 0 ? nullptr : &threading.gearbox[static_cast<std::size_t>(found.box)];
    out.what = wanted.feed ? "feed" : "lead";
    out.unit = unit_name(wanted.inch);
    out.wanted_mm = wanted.mm.value();
    out.gives_mm = out.wanted_mm * (1.0 + found.error);
    out.error = found.error;
    out.exact = found.exact;
    if (found.compound()) {
        out.drivers = {found.driver_1, found.driver_2};
        out.driven = {found.driven_1, found.driven_2};
    } else {
        out.drivers = {found.driver_1};
        out.driven = {found.driven_2};
    }
    if (found.idler > 0) {
        out.idler = found.idler;
    }
    out.ends_on = box == nullptr ? "leadscrew" : "gearbox";
    if (box != nullptr) {
        for (const machine::Position& each : box->positions) {
            out.positions.emplace_back(each.control, each.setting);
        }
        out.chart_mm = box->ratio * threading.lead_mm;
    }
    out.standard = found.standard;
    out.mounting = found.mounting;
    out.stud_to_banjo_mm = found.stud_to_banjo_mm;
    out.banjo_to_screw_mm = found.banjo_to_screw_mm;
    out.stud_to_screw_mm = threading.stud_to_screw_mm;
    out.lathe_unit = unit_name(lathe_inch);
    out.pitch_tolerance_mm = wanted.tolerance_mm;
    judge_lead(wanted, over_mm, out);
    out.starts = wanted.starts;
    out.index_teeth = index_teeth(threading.spindle_to_stud, found.driver_1, wanted.starts);
    const auto tell = [&](bool applies, const char* code) {
        if (applies) {
            out.told.push_back({code, 0.0, {}});
        }
    };
    tell(out.good_enough == false, "gears_lead_too_far_off");
    tell(found.steep, "gears_steep");
    tell(found.mounting == machine::Mounting::unchecked && !found.compound(), "gears_short_idler");
    const auto rest = [&](string_view figure, RuleId rule) {
        out.evidence.push_back(rests_on(figure, rule, catalogue));
    };
    rest("gives_mm", rule::gear_ratio);
    rest("error", rule::gear_exact);
    rest("mounting", found.mounting == machine::Mounting::closes ? rule::gear_closes : rule::gear_fifteen);
    if (!std::isnan(out.on_pitch_diameter_mm)) {
        rest("on_pitch_diameter_mm", rule::lead_as_pitch_diameter);
    }
    if (out.good_enough) {
        rest("good_enough", rule::lead_half_tolerance);
    }
    if (wanted.starts > 1) {
        rest("index_teeth", rule::gear_index);
    }
    say(out);
    return out;
}

}  // namespace

LeadWanted lead_of(const Catalogue& catalogue, const threads::PartLimits& part) {
    constexpr std::size_t kPitchMax = 2;
    constexpr std::size_t kPitchMin = 3;
    LeadWanted out;
    out.title = part.title();
    out.inch = part.inch;
    out.half_angle_deg = part.sizes.half_angle_deg;
    const auto* const named = part.part ? std::get_if<threads::Thread>(&part.part->thread) : nullptr;
    if (named != nullptr) {
        const auto [num, den] = lead_fraction_mm(*named);
        out.mm = {num, den};
    } else {
        out.mm = exact_ratio(part.sizes.starts * part.sizes.pitch_mm, "lead");
    }
    if (part.part && threads::tapers(part.part->thread)) {
        const threads::TaperPipe pipe = threads::taper_pipe(catalogue, part.part->thread);
        out.engagement_mm = pipe.figures[figure_index(threads::kTaperPipeFigures, "hand_engagement_mm")];
        return out;
    }
    out.starts = part.sizes.starts;
    const double stated = named == nullptr ? kNaN : named->engagement_mm();
    out.engagement_mm = std::isnan(stated) ? part.diameter_mm() : stated;
    out.tolerance_mm = part.mm[kPitchMax] - part.mm[kPitchMin];
    return out;
}

threads::PartLimits cut_limits(const Catalogue& catalogue, const threads::PartAsked& part) {
    const auto* const thread = std::get_if<threads::AnyThread>(&part.is);
    return thread != nullptr && threads::tapers(*thread) ? threads::gauge_plane_limits(catalogue, *thread)
                                                         : threads::limits_of(catalogue, part);
}

void append_evidence(const Catalogue& catalogue, const threads::PartLimits& part,
                     std::vector<EvidenceText>& out) {
    if (const auto* const own = std::get_if<threads::ThreadLimits>(&part.standard)) {
        append_evidence(own->evidence.items(), threads::kThreadLimitFigures, catalogue, out);
    } else if (const auto* const form = std::get_if<threads::FormLimits>(&part.standard)) {
        append_evidence(form->evidence.items(), threads::kFormFigures, catalogue, out);
    }
}

void take(LeadWanted& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag == Given::Tag::text) {
        bounds::require_text(row.name, given.text, bounds::kDesignationBytes);
        to = of_text(trimmed(given.text), row, asking);
    } else if (given.tag == Given::Tag::quantity) {
        const Quantity quantity(given.number, *given.unit);
        if (quantity.dimension() != Dimension::length && quantity.dimension() != Dimension::feed_per_rev) {
            throw DomainError(fmt::format("{}: {} is a {}, not a length", row.name, quantity.text(),
                                          dimension_name(quantity.dimension())));
        }
        to = of_quantity(quantity, row.name);
    } else if (given.tag == Given::Tag::number) {
        throw UnitError(
            fmt::format("{}: {} has no unit; a bare number is never a length: write text such as '1.5 mm'",
                        row.name, given.shown()));
    } else {
        threads::PartAsked part;
        take(part, given, row, asking);
        to = lead_of(asking.catalogue, cut_limits(asking.catalogue, part));
    }
    if (row.leading != 0) {
        asking.inch = to.inch;
        asking.led_by = row.leading;
    }
}

void take(Teeth& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    if (given.tag != Given::Tag::list) {
        throw DomainError(fmt::format("{} must be a sequence, got {}", row.name, given.shown()));
    }
    for (const Given& each : given.items) {
        double number = each.number;
        bool is_number = each.tag == Given::Tag::number;
        if (each.tag == Given::Tag::text) {
            const char* const end = each.text.data() + each.text.size();
            const auto read = read_number(each.text.data(), end, number);
            is_number = read.ec == std::errc() && read.ptr == end && !each.text.starts_with('0');
        }
        if (!is_number || number != std::floor(number)) {
            throw DomainError(
                fmt::format("{} must be whole numbers of teeth, got {}", row.name, each.shown()));
        }
        to.teeth.push_back(bounds::whole<int>(number));
    }
}

constexpr std::array kGearTrainSays{
    SaidRow{"mounting", "{mounting_said}"},
    SaidRow{"error", "{judgement}"},
    SaidRow{"#", "steps"},
};
constinit const RecordRow kGearTrainRecord{
    "GearTrain", "A train of change gears.", kTrainFigures, {}, {"{said}", kGearTrainSays, "1., 2."}};

GearTrainsAnswer gear_train(const GearAsk& asked, const Asking& asking) {
    const machine::Threading threading = threading_of(asked);
    const LeadWanted& wanted = asked.lead;
    machine::GearQuestion question{
        wanted.mm,     asked.error_percent / 100.0, static_cast<std::size_t>(asked.most),
        !asked.simple, !asked.no_gearbox,           false};
    machine::GearAnswer found = search(threading, question);
    while (found.trains.empty() && question.error_limit < kWidest) {
        question.error_limit = std::min(std::max(kWider * question.error_limit, kLeastWider), kWidest);
        question.most = 1;
        found = search(threading, question);
    }
    GearTrainsAnswer out;
    out.title =
        asked.machine == nullptr ? wanted.title : fmt::format("{} on {}", wanted.title, asked.machine->name);
    out.found = bounds::whole<int>(static_cast<double>(found.found));
    out.refused = bounds::whole<int>(static_cast<double>(found.refused));
    out.asked_percent = asked.error_percent;
    out.error_percent = 100.0 * question.error_limit;
    const double over = std::isnan(asked.engagement_mm) ? wanted.engagement_mm : asked.engagement_mm;
    const bool lathe_inch = asked.machine == nullptr ? wanted.inch : asked.machine->inch;
    for (const machine::GearTrain& each : found.trains) {
        out.trains.push_back(train_of(each, wanted, threading, over, lathe_inch, asking.catalogue));
    }
    if (!out.trains.empty()) {
        out.told = out.trains.front().told;
        out.evidence = out.trains.front().evidence;
    }
    say(out);
    return out;
}

constinit const Question kGearTrain = [] {
    Question out = question<GearAsk, GearTrainsAnswer, &gear_train>(
        "cutting", "gear_train", "Every train of change gears for a thread, a lead or a feed, best first.",
        kAsked, kTrainsRecord);
    out.sources = "F. D. Jones, Turning and Boring (1914), change gears; the rules that the evidence names.";
    out.example =
        "gear-train M24x1.5-6g --machine gap-bed\n"
        "gear-train \"1.5 mm\" --gears 20,24,30,40,60,63,80,127 --leadscrew \"8 TPI\"\n"
        "gear-train \"0.08 mm/rev\" --machine gap-bed";
    return out;
}();

// ---- translating pairs ------------------------------------------------------------------------------------

namespace {

constexpr Argument kPairPercent{.name = "error_percent", .unit = "", .low = 0.0, .high = 100.0};
constexpr double kMostTeeth = 400.0;
constexpr int kFewestUsual = 20;
constexpr int kMostUsual = 127;
constexpr double kPercent100 = 100.0;

constexpr std::array kPairsAsked{
    gears_row(HALFNUT_ASKED(PairsAsk, gears, ""), "Teeth of the gears at hand.")
        .or_a("Teeth")
        .placed()
        .usually("20 to 127"),
    HALFNUT_ASKED(PairsAsk, machine, "Lathe whose gears are at hand, in place of their teeth."),
    HALFNUT_ASKED(PairsAsk, cut,
                  "What is to be cut: inches on a metric leadscrew, 127/100, or millimetres on an inch one, "
                  "100/127."),
    HALFNUT_ASKED(PairsAsk, simplest, "Greatest whole number of the ratio that is added.")
        .from(1, 60)
        .usually("6"),
    HALFNUT_ASKED(PairsAsk, error_percent, "Error of the ratio in percent beyond which pairs are left out.")
        .in(kPairPercent)
        .usually("0.1"),
};

constexpr std::array kPairFigures{
    HALFNUT_FIGURE(machine::TranslatingPair, driver, "Teeth of the driving gear."),
    HALFNUT_FIGURE(machine::TranslatingPair, driven, "Teeth of the driven gear."),
    HALFNUT_FIGURE(machine::TranslatingPair, num, "Numerator of the ratio that is added."),
    HALFNUT_FIGURE(machine::TranslatingPair, den, "Its denominator."),
    HALFNUT_FIGURE(machine::TranslatingPair, error, "Error of the ratio, relative.").always(),
    HALFNUT_FIGURE(machine::TranslatingPair, exact, "Whether there is none."),
};
constexpr RecordRow kPairRecord{"TranslatingPair",
                                "Two gears that turn inches to millimetres once the ratio is added, or back.",
                                kPairFigures};
constexpr std::array kPairsFigures{
    HALFNUT_FIGURE(PairsAnswer, cut, "What is to be cut."),
    HALFNUT_RECORDS(PairsAnswer, pairs, kPairRecord,
                    "The pairs: exact ones first, then those of the simplest ratio, then by error."),
    HALFNUT_FIGURE(PairsAnswer, said, "What they cut, and how many there are."),
    HALFNUT_FIGURE(PairsAnswer, each_said,
                   "Each pair in a line, with the ratio that is added and its error."),
    HALFNUT_FIGURE(PairsAnswer, told, "What a person should know."),
    HALFNUT_FIGURE(PairsAnswer, evidence, "What each figure rests on."),
};
constexpr std::array kTranslatingPairsSays{
    SaidRow{"*pair", "each_said"},
};
constexpr RecordRow kPairsRecord{"TranslatingPairs",
                                 "Pairs of gears that turn inches to millimetres, or back.",
                                 kPairsFigures,
                                 {},
                                 {"{said}", kTranslatingPairsSays, "pair"},
                                 false,
                                 "pairs"};

}  // namespace

PairsAnswer translating_pairs(const PairsAsk& asked, const Asking& /*asking*/) {
    if (asked.machine != nullptr && !asked.gears.teeth.empty()) {
        throw DomainError("say machine or gears, one of the two");
    }
    std::vector<int> gears = asked.machine != nullptr ? asked.machine->threading.gears : asked.gears.teeth;
    if (asked.machine == nullptr && gears.empty()) {
        gears.resize(kMostUsual - kFewestUsual + 1);
        std::iota(gears.begin(), gears.end(), kFewestUsual);
    }
    for (const int teeth : gears) {
        if (teeth < 1 || teeth > kMostTeeth) {
            throw DomainError(fmt::format("gears must have 1 to {:g} teeth, got {}", kMostTeeth, teeth));
        }
    }
    PairsAnswer out;
    out.cut = asked.cut;
    out.pairs = machine::translating_pairs(gears, asked.simplest, asked.error_percent / kPercent100,
                                           asked.cut == Translating::millimetres);
    say(out);
    return out;
}

constinit const Question kTranslatingPairs = [] {
    Question out = question<PairsAsk, PairsAnswer, &translating_pairs>(
        "cutting", "translating_pairs",
        "Pairs of gears that turn inches to millimetres once a simple ratio is added.", kPairsAsked,
        kPairsRecord);
    out.sources = "1 in = 25.4 mm exactly; arithmetic.";
    out.example = "translating-pairs 100 120 127\ntranslating-pairs --machine gap-bed --cut millimetres";
    return out;
}();

}  // namespace halfnut::cutting
