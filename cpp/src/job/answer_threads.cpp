// Threads cut with a single point, asked of the core.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/error.hpp"
#include "halfnut/cutting/chasing.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/thread_figures.hpp"
#include "work.hpp"

namespace halfnut::job {

namespace {

using threads::AnyThread;
using threads::Side;

Side other_side(Side side) {
    return side == Side::internal ? Side::external : Side::internal;
}

double lead_mm(const AnyThread& thread) {
    return threads::starts(thread) * threads::pitch_mm(thread);
}

/// What the end was turned to, where that is within the limits of the major diameter.
Given blank_to_chase(const Work& work, const Asked& limits) {
    const auto& sizes = limits.as<threads::LimitsAnswer>().limits.mm;  // the greatest major diameter first
    const double turned = work.outside_mm();
    const bool suits = turned >= sizes[1] - kSame && turned <= sizes[0] + kSame;
    return suits ? work.length(turned) : Given{};
}

/// The levers of the gearbox's chart for a lead, if it has it.
std::optional<Levers> gearbox(const machine::Machine& machine, double lead) {
    for (const machine::GearboxStep& step : machine.threading.gearbox) {
        const double gives = step.ratio * machine.threading.lead_mm;
        if (std::abs(gives - lead) <= kSame * std::fmax(std::abs(gives), std::abs(lead))) {
            Levers out{.group = "gearbox", .stop = true};
            for (const machine::Position& each : step.positions) {
                out.positions.emplace_back(each.control, each.setting);
            }
            return out;
        }
    }
    return std::nullopt;
}

/// Levers of the gearbox where its chart has the lead, else the change gears, and what to say of them.
std::vector<Levers> threading_levers(const Work& work, const AnyThread& thread,
                                     const std::optional<cutting::GearTrainAnswer>& train,
                                     std::vector<Remark>& said) {
    if (auto charted = gearbox(work.machine(), lead_mm(thread))) {
        return {std::move(*charted)};
    }
    if (!train) {
        const double lead = lead_mm(thread);
        said.push_back(
            {fmt::format("A lead of {} is not on the gearbox's chart: set up change gears.",
                         threads::is_inch(thread) ? fmt::format("{:g} threads an inch", kInchMm / lead)
                                                  : fmt::format("{:g} mm", lead))});
        return {};
    }
    std::vector<Levers> out{{"gears", train->shafts, true}};
    if (!train->positions.empty()) {
        out.push_back({"gearbox", train->positions, true});
    }
    said.push_back({fmt::format("The lead is not on the gearbox's chart: change gears {}, {}.", train->gears,
                                train->error_said)});
    if (!train->exact && train->judgement) {
        said.push_back({fmt::format("Lead error {}.", *train->judgement)});
    }
    said.push_back({fmt::format("The train {}.", train->mounting_said)});
    return out;
}

/// What chasing any thread gives: its spindle step, levers or gears, time and remarks.
Answered chased(Work& work, const AnyThread& thread, const Asked& record, const Asked& chasing,
                const std::vector<Remark>& said) {
    const auto& way = chasing.as<cutting::ChaseAnswer>();
    const Own sizes{{"diameter", work.length(threads::diameter_mm(thread))},
                    {"pitch", work.length(lead_mm(thread))}};
    const Asked* cut = &work.ask("thread_speed", sizes);
    std::vector<Remark> remarks;
    if (cut->as<cutting::CutAnswer>().cut.spindle_rpm > way.stopping_rpm) {
        Own slower = sizes;
        slower.emplace_back("spindle_rpm",
                            number(machine::choose_spindle(work.machine(), 0.0, way.stopping_rpm).rpm));
        cut = &work.ask("thread_speed", slower);
        remarks.push_back({"Slowed so that the half nut can be opened within the run-out."});
    }
    const auto& found = cut->as<cutting::CutAnswer>();
    const std::vector<Levers> train = threading_levers(work, thread, way.train, remarks);
    std::vector<Levers> levers = work.levers_of(found);
    levers.resize(std::min<std::size_t>(1, levers.size()));
    levers.insert(levers.end(), train.begin(), train.end());
    remarks.insert(remarks.end(), said.begin(), said.end());
    // the carriage is wound back as fast as it went; two passes without infeed before each measurement
    const double passes = static_cast<double>(way.passes.size()) + (way.repeats ? 4.0 : 0.0);
    const double strokes = 2.0 * passes * way.starts;
    Answered out{.answers = {{"record", &record}, {"cut", cut}, {"chasing", &chasing}},
                 .cut = &found,
                 .cuts = {&found},
                 .levers = std::move(levers),
                 .sizes = {{"thread", kNaN, threads::format_any_thread(thread)},
                           {"side", kNaN, std::string(enum_name(way.side))},
                           {"length_mm", work.base("length")},
                           {"lead_mm", lead_mm(thread)}},
                 .remarks = std::move(remarks)};
    constexpr int kMeasured = 2;
    out.time_s = work.times() * (work.overhead_s(out.levers, kMeasured) + strokes * known(found.cut.time_s));
    if (train.empty()) {
        out.told.push_back({.code = "lead_off_chart", .words = {}});
    }
    return out;
}

/// A taper pipe thread: no limits of size and no mate to draw, but a cone, and a gauge to try it with.
Answered taper_thread(Work& work, const AnyThread& thread, Side side) {
    const bool inner = std::get<threads::FormThread>(thread).prefix == "Rc";
    if (inner != (side == Side::internal)) {
        throw DomainError(fmt::format("{} is not cut {}: there the thread is {}", work.word("thread"),
                                      enum_name(side),
                                      side == Side::internal ? "Rc, or is tapped" : "R or NPT"));
    }
    const Asked& pipe =
        work.put("taper_pipe", {{"thread", text(work.keep(threads::format_any_thread(thread)))}});
    const Asked& chasing = work.ask("chase", {{"thread", work.given(thread)}});
    std::vector<Remark> said;
    const auto of_pipe = [&](std::string_view key) {
        const Value value = figure(pipe.answer, key);
        const double* const is = std::get_if<double>(&value.is);
        return is == nullptr ? 0.0 : *is;
    };
    const double needed = std::fmax(of_pipe("effective_length_mm"), of_pipe("hand_engagement_mm"));
    if (work.base("length") < needed - kSame) {
        said.push_back(
            {fmt::format("The length is less than the {} of full thread that the standard asks for.",
                         work.spelled(needed))});
    }
    if (work.is_coated()) {
        said.push_back(
            {fmt::format("{}: mask the thread; no standard gives a taper thread room for a coating.",
                         work.part.coating_name)});
    }
    return chased(work, thread, pipe, chasing, said);
}

/// How limits before a coating come about.
std::string coated_said(const threads::LimitsAnswer& limits) {
    const threads::BeforeCoating& coat = *limits.limits.coating;
    const UnitSystem system = limits.limits.inch ? UnitSystem::inch : UnitSystem::metric;
    const std::string film = spell_span(coat.build_up.min_um, coat.build_up.max_um, FigureKind::film, system);
    if (coat.way == threads::PrecoatWay::held) {
        return fmt::format("the allowance, {}, holds {} a surface",
                           spell(known(coat.allowance_um), FigureKind::film, system), film);
    }
    return fmt::format("moved by {} a surface, up to {} on the pitch diameter", film,
                       spell(known(coat.pitch_change_um), FigureKind::film, system));
}

}  // namespace

const Asked& limits_to_cut(Work& work, const AnyThread& thread, Side side, const Given& engagement) {
    const Asked& bare = work.put(
        "limits",
        {{"thread", work.given(thread)}, {"side", text(enum_name(side))}, {"engagement", engagement}});
    return work.is_coated() ? work.put("precoat", {{"thread", Work::given(bare)},
                                                   {"build_up", work.coating()},
                                                   {"on", at(work.part_said, "alloy")}})
                            : bare;
}

void coating_remarks(const Work& work, const Asked* limits, std::vector<Remark>& out) {
    const std::string& title = work.part.coating_name;
    if (work.step->masked && work.has_coating()) {
        out.push_back({fmt::format("{}: mask it.", title)});
        return;
    }
    if (limits == nullptr || !limits->as<threads::LimitsAnswer>().limits.before_coating()) {
        return;
    }
    out.push_back({fmt::format("{}: {}. Cut to the sizes before coating, gauge the coated part at its own.",
                               title, coated_said(limits->as<threads::LimitsAnswer>()))});
    const Value remedies = figure(limits->answer, "remedies");
    for (const Value& each : std::get<Values>(remedies.is)) {
        out.push_back({fmt::format("Or: {}.", std::get<std::string>(each.is))});
    }
}

Answered answer_thread(Work& work) {
    const AnyThread named = threads::parse_any_thread(work.word("thread"), work.catalogue);
    const Side side = work.word("side") == "internal" ? Side::internal : Side::external;
    if (threads::tapers(named)) {
        return taper_thread(work, named, side);
    }
    const Side other = other_side(side);
    if (threads::has_class(named, other) && !threads::has_class(named, side)) {
        throw DomainError(fmt::format("{} is the class of an {} thread, and side is {}", work.word("thread"),
                                      enum_name(other), enum_name(side)));
    }
    const AnyThread thread = threads::part_of(named, side);
    const Given& engagement = work.said("engagement");
    const Asked& limits = limits_to_cut(work, thread, side, engagement);
    const Asked& mate = work.put("limits", {{"thread", work.given(threads::mate(named, other).thread)},
                                            {"side", text(enum_name(other))},
                                            {"engagement", engagement}});
    const Asked& chasing =
        work.ask("chase", {{"thread", Work::given(limits)},
                           {"blank", side == Side::internal ? Given{} : blank_to_chase(work, limits)}});
    std::vector<Remark> said;
    coating_remarks(work, &limits, said);
    Answered out = chased(work, thread, limits, chasing, said);
    out.answers.emplace_back("mate", &mate);
    try {
        out.answers.emplace_back("wires", &work.put("wires", {{"thread", Work::given(limits)}}));
    } catch (const DomainError&) {  // no wire or ball measures the thread
    }
    return out;
}

}  // namespace halfnut::job
