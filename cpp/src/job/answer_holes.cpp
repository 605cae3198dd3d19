// Holes drilled, spotted, countersunk, counterbored, reamed and tapped, asked of the core.

#include <fmt/format.h>

#include <cmath>

#include "halfnut/core/error.hpp"
#include "halfnut/threads/hole_formulas.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/thread_figures.hpp"
#include "work.hpp"

namespace halfnut::job {

namespace {

using threads::AnyThread;
using threads::TappingAnswer;

constexpr double kReamed = 0.85;  // least hole over reamer that is taken for the one drilled for it

/// Depth of the full diameter; through the piece where none is given.
double depth_mm(const Work& work) {
    const double said = work.base("depth");
    const Given& stock = at(work.part_said, "stock");
    return said != 0.0                    ? said
           : is_given(stock, "thickness") ? size_mm(stock, "thickness")
                                          : size_mm(work.part_said, "length");
}

Answered hole_answer(const Work& work, const Asked& record, const Asked& asked, std::vector<Size> sizes) {
    const auto& cut = asked.as<cutting::CutAnswer>();
    const machine::Slide* const slide =
        machine::find_slide(work.machine(), work.at_lathe() ? "tailstock" : "quill");
    Answered out = cut_answer(work, "record", record, cut, {}, std::move(sizes),
                              slide == nullptr ? std::string() : slide->name);
    if (&record != &asked) {
        out.answers.emplace_back("cut", &asked);
    }
    if (!std::isnan(cut.cut.travel_mm) && work.what() != Do::tap) {
        const double depth = cut.cut.travel_mm - kApproachMm;
        std::vector<double> pecks = cut.peck_depths_mm;
        const double point = pecks.empty() ? 0.0 : depth - pecks.back();
        for (double& each : pecks) {
            each += point;
        }
        if (pecks.empty()) {
            pecks.push_back(depth);
        }
        out.passes = axial_passes(depth, pecks, slide);
    }
    out.time_s = work.times() * known(cut.cut.time_s) + work.overhead_s(out.levers);
    return out;
}

std::string drill_words(const Work& work, const std::string& drill, double size_mm) {
    return drill.ends_with(work.part.inch ? "in" : "mm")
               ? drill
               : fmt::format("{}, {}", drill, work.spelled(size_mm));
}

void blind_remarks(Work& work, const AnyThread& thread, const TappingAnswer& hole, std::vector<Remark>& out) {
    if (!work.is_said("depth") || work.walked->through) {
        return;
    }
    static const Unit* const kMm = find_unit("mm", Dimension::length);
    const std::vector<Given>& drill = work.kept.lists.emplace_back(std::vector<Given>{
        text(hole.drill), Given{.tag = Given::Tag::quantity, .number = hole.hole.drill_mm, .unit = kMm}});
    const Asked& asked =
        work.put("blind_hole", {{"thread", text(work.keep(threads::format_any_thread(thread)))},
                                {"full_thread", work.length(work.base("depth"))},
                                {"drill", {.tag = Given::Tag::list, .text = "a drill", .items = drill}}});
    const threads::BlindHole& blind = asked.as<threads::BlindAnswer>().hole;
    out.push_back(
        {fmt::format("Blind: drill {} deep at full diameter for {} of full thread with a plug tap; "
                     "{} to the drill's point",
                     work.spelled(blind.drill_depth_mm), work.spelled(blind.full_thread_mm),
                     work.spelled(blind.total_depth_mm))});
}

void tap_hole_remarks(Work& work, const AnyThread& thread, const Asked& limits, std::vector<Remark>& out) {
    const threads::PartLimits& cut_to = limits.as<threads::LimitsAnswer>().limits;
    const double high = cut_to.mm[4];
    const double low = cut_to.mm[5];
    const bool by_form = cut_to.by_form();
    const auto is_within = [&](double size) { return low - kSame <= size && size <= high + kSame; };
    const auto percent_of = [&](double hole) {
        return threads::thread_percent(threads::diameter_mm(thread), threads::pitch_mm(thread), hole);
    };
    // of a form beside ISO metric and Unified the limits of its minor diameter are the hole's
    const Asked* asked =
        &work.put("tapping_hole", {{"thread", by_form ? Work::given(limits) : work.given(thread)}});
    if (!is_within(asked->as<TappingAnswer>().hole.drill_mm) && !by_form) {
        // a coating moves the limits: aim between them
        asked = &work.put("tapping_hole", {{"thread", work.given(thread)},
                                           {"percent", number(percent_of((low + high) / 2.0))}});
    }
    const auto& hole = asked->as<TappingAnswer>();
    std::string said = fmt::format("Hole before tapping: {} to {}", work.spelled(low), work.spelled(high));
    if (is_within(hole.hole.drill_mm)) {
        said +=
            fmt::format("; drill {}, for {:.0f} % of {}", drill_words(work, hole.drill, hole.hole.drill_mm),
                        hole.hole.percent, by_form ? "the form's height" : "thread");
    } else {
        said += "; no drill of the set keeps that: bore or ream it";
    }
    if (const double drilled = work.hole_mm(); !std::isnan(drilled)) {
        said += fmt::format("; the hole drilled, {}, is {}", work.spelled(drilled),
                            is_within(drilled) ? "within" : "outside");
        if (!by_form) {
            said += fmt::format(": {:.0f} %", percent_of(drilled));
        }
    }
    out.push_back({std::move(said)});
    blind_remarks(work, thread, hole, out);
}

void taper_hole_remarks(Work& work, const AnyThread& thread, const Asked& asked, std::vector<Remark>& out) {
    const auto& hole = work.put("tapping_hole", {{"thread", work.given(thread)}}).as<TappingAnswer>();
    std::string said =
        fmt::format("Hole before tapping: drill {} straight; or drill {}, and ream 1:16 to {} at the mouth",
                    drill_words(work, hole.drill, hole.hole.drill_mm),
                    drill_words(work, hole.ream_drill.value_or(""), hole.ream_drill_mm),
                    work.spelled(hole.hole_at_face_mm));
    if (const double drilled = work.hole_mm(); !std::isnan(drilled)) {
        said += fmt::format("; the hole drilled, {}, is {}", work.spelled(drilled),
                            drilled <= hole.hole_at_face_mm + kSame ? "small enough" : "too large");
    }
    out.push_back({std::move(said)});
    const auto of_pipe = [&](std::string_view key) { return std::get<double>(figure(asked.answer, key).is); };
    const double turns = of_pipe("hand_turns");
    const double either_way = of_pipe("tolerance_turns");
    out.push_back({fmt::format("Tap until the plug gauge goes in {:.1f} to {:.1f} turns by hand",
                               turns - either_way, turns + either_way)});
    const double deep = of_pipe("depth_mm");
    if (work.base("depth") > 0.0 && work.base("depth") < deep) {
        out.push_back(
            {fmt::format("Depth is less than hand engagement and wrench turns, {}", work.spelled(deep))});
    }
}

}  // namespace

/// A hole drilled, reamed, or shaped at its mouth.
Answered answer_hole(Work& work) {
    const Do what = work.what();
    const double diameter = work.base("diameter");
    Own own;
    const double share = work.hole_mm() / diameter;
    if (what == Do::drill) {
        own.emplace_back("pilot", work.bore());
    } else if (what == Do::countersink || what == Do::counterbore ||
               (what == Do::ream && kReamed <= share && share < 1.0)) {
        own.emplace_back("hole", work.bore());
    }
    const bool deep = what == Do::drill || what == Do::ream;
    if (deep) {
        own.emplace_back("depth", work.length(depth_mm(work) + work.walked->beyond_mm));
    }
    const Asked& asked = work.ask(work.kind->question, own);
    const double depth = deep || what == Do::counterbore
                             ? depth_mm(work)
                             : known(asked.as<cutting::CutAnswer>().cut.travel_mm) - kApproachMm;
    return hole_answer(work, asked, asked, {{"diameter_mm", diameter}, {"depth_mm", depth}});
}

Answered answer_tap(Work& work) {
    const AnyThread thread = threads::part_of(threads::parse_any_thread(work.word("thread"), work.catalogue),
                                              threads::Side::internal);
    const double depth = depth_mm(work);
    const bool tapers = threads::tapers(thread);
    const std::string named(work.keep(threads::format_any_thread(thread)));
    const Asked* limits = nullptr;
    std::vector<Remark> remarks;
    if (tapers) {
        limits = &work.put("taper_pipe", {{"thread", text(work.keep(named))}});
        taper_hole_remarks(work, thread, *limits, remarks);
    } else {
        limits = &limits_to_cut(work, thread, threads::Side::internal);
        tap_hole_remarks(work, thread, *limits, remarks);
    }
    const double turned_mm = depth + work.walked->beyond_mm;
    const double lead = threads::starts(thread) * threads::pitch_mm(thread);
    const Asked& cut =
        work.ask("tap", {{"thread", text(work.keep(named))}, {"depth", work.length(turned_mm)}});
    coating_remarks(work, tapers ? nullptr : limits, remarks);
    Answered out = hole_answer(work, *limits, cut,
                               {{"thread", kNaN, named},
                                {"side", kNaN, "internal"},
                                {"length_mm", depth},
                                {"lead_mm", lead},
                                {"turns", turned_mm / lead}});
    out.remarks = std::move(remarks);
    return out;
}

}  // namespace halfnut::job
