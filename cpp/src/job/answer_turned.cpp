// Turning, tapers, grooves, boring, facing, parting off and knurling, asked of the core.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "halfnut/core/error.hpp"
#include "halfnut/cutting/knurling.hpp"
#include "halfnut/threads/coating_questions.hpp"
#include "work.hpp"

namespace halfnut::job {

namespace {

using std::string_view;

/// What a turned or bored diameter is cut to.
struct Aim {
    double to_mm = kNaN;
    Given tolerance{};             ///< how far its limits are apart
    const Asked* plain = nullptr;  ///< its limits, where it has a class
    std::vector<Remark> remarks{};
};

bool is_inner(const Work& work) {
    return work.what() == Do::bore;
}

/// Limits of the class that a turned or bored diameter is to have.
const Asked& plain_limits(Work& work) {
    const string_view fit = work.word("fit");
    const Given& size = work.said("to");
    const Given coat = work.is_coated() ? work.coating() : Given{};
    const Given none{};
    const bool outer = !is_inner(work);
    const Asked& out = work.put(
        "cylindrical_fit",
        {{"text", text(work.keep(fmt::format("{} {}", Quantity(size.number, *size.unit).text(), fit)))},
         {"hole_build_up", outer ? none : coat},
         {"shaft_build_up", outer ? coat : none}});
    const auto& found = out.as<threads::CylindricalFit>();
    if (!(outer ? found.shaft : found.hole)) {
        throw DomainError(fmt::format(
            "fit: {}, got '{}'",
            outer ? "a turned diameter needs a shaft, such as 'g6'" : "a bore needs a hole, such as 'H7'",
            fit));
    }
    return out;
}

/// The middle of the limits where there is a fit; as the job says its tolerance, else that of its class
/// before coating.
Aim aim(Work& work) {
    if (work.word("fit").empty()) {
        return {work.base("to"), work.said("tolerance")};
    }
    Aim out{.plain = &plain_limits(work)};
    const auto& plain = out.plain->as<threads::CylindricalFit>();
    const string_view fit = work.word("fit");
    const threads::CylinderPart& part = is_inner(work) ? *plain.hole : *plain.shaft;
    std::string said = fmt::format("Limits of {}: {}.", fit, part.sizes_said);
    double low = part.min_mm;
    double high = part.max_mm;
    if (work.is_coated() && work.part.coating.max_um > 0.0) {
        low = is_inner(work) ? plain.hole_cut_min_mm : plain.shaft_cut_min_mm;
        high = is_inner(work) ? plain.hole_cut_max_mm : plain.shaft_cut_max_mm;
        if (std::isnan(low) || std::isnan(high)) {
            throw DomainError(
                fmt::format("fit: no size keeps {} once coated; {} varies by more than the tolerance", fit,
                            work.part.coating_name));
        }
        said.pop_back();
        said += fmt::format(" once coated; cut {} before it.",
                            spell_span(low, high, FigureKind::length, work.system()));
    }
    out.to_mm = 0.5 * (low + high);
    out.tolerance = work.is_said("tolerance") ? work.said("tolerance") : work.length(high - low);
    out.remarks.push_back({std::move(said)});
    return out;
}

double deepest_of(const std::vector<Pass>& passes) {
    return std::max_element(passes.begin(), passes.end(),
                            [](const Pass& a, const Pass& b) { return a.depth_mm < b.depth_mm; })
        ->depth_mm;
}

std::vector<Size> sizes_along(const Work& work, double start, double to) {
    return {{"start_diameter_mm", start}, {"to_diameter_mm", to}, {"length_mm", work.base("length")}};
}

/// How far turned work deflects where it is held, under the first cut.
void add_holding(Work& work, double start, Answered& found) {
    if (found.cut == nullptr || is_inner(work) || !work.is_said("stick_out")) {
        return;
    }
    const cutting::CutResult& first = found.cut->cut;
    static const Unit* const kFeed = find_unit("mm/rev", Dimension::feed_per_rev);
    const Given feed{.tag = Given::Tag::quantity, .number = first.feed_mm_rev, .unit = kFeed};
    found.answers.emplace_back(
        "holding",
        &work.ask("hold", {{"diameter", work.length(start)},
                           {"feed", feed},
                           {"spindle_rpm", number(first.spindle_rpm)},
                           {"depth", std::isnan(first.depth_mm) ? Given{} : work.length(first.depth_mm)},
                           {"roughness_um", {}},
                           {"tolerance", {}}}));
}

}  // namespace

/// A diameter turned or bored to a size.
Answered answer_sized(Work& work) {
    const bool inner = is_inner(work);
    const double start = inner ? known(work.hole_mm()) : work.outside_mm();
    Aim wanted = aim(work);
    const double to = wanted.to_mm;
    Own own{{"to", work.length(to)}, {"tolerance", wanted.tolerance}};
    if (inner) {
        own.emplace_back("stick_out", work.said("stick_out"));
    }
    std::variant<Answered, std::string> chosen =
        chosen_passes(work, start, sizes_along(work, start, to), std::move(own));
    Answered out;
    if (auto* const found = std::get_if<Answered>(&chosen)) {
        out = std::move(*found);
    } else {
        std::vector<Pass> passes = passes_between(work, start, to);
        const Asked& asked = work.ask(inner ? "bore" : "turn", {{"diameter", work.length(inner ? to : start)},
                                                                {"depth", work.length(deepest_of(passes))}});
        out = cut_answer(work, "record", asked, asked.as<cutting::CutAnswer>(), std::move(passes),
                         sizes_along(work, start, to), "cross", std::get<std::string>(chosen));
    }
    add_holding(work, start, out);
    if (wanted.plain != nullptr) {
        out.answers.emplace_back("plain", wanted.plain);
    }
    out.remarks.insert(out.remarks.end(), wanted.remarks.begin(), wanted.remarks.end());
    return out;
}

Answered answer_taper(Work& work) {
    const double start = work.outside_mm();
    const double to = work.base("to");
    std::vector<Pass> passes = passes_between(work, start, to);
    const Asked& asked = work.ask("taper", {{"large", work.length(start)},
                                            {"small", work.said("to")},
                                            {"depth", work.length(deepest_of(passes))}});
    Answered out = cut_answer(work, "record", asked, asked.as<cutting::TaperAnswer>().cut, std::move(passes),
                              sizes_along(work, start, to), "cross");
    const std::span<const SaidRow> rows = asked.answer.question->answer->says.rows;
    const auto prove =
        std::find_if(rows.begin(), rows.end(), [](const SaidRow& row) { return row.label == "prove"; });
    out.remarks = {{"{answer}", "record"}, {fmt::format("prove it {}", prove->text), "record"}};
    return out;
}

Answered answer_groove(Work& work) {
    const double start = work.outside_mm();
    const double to = work.base("to");
    const Asked& asked = work.ask(
        "groove", {{"diameter", work.length(start)}, {"end_diameter", work.said("to")}, {"stick_out", {}}});
    const auto& found = asked.as<cutting::GrooveAnswer>();
    const double depth = (start - to) / 2.0;
    const double wide = work.base("width") != 0.0 ? work.base("width") : work.base("blade");
    std::vector<Pass> passes{{1, depth, to, reading(machine::find_slide(work.machine(), "cross"), depth)}};
    Answered out =
        cut_answer(work, "record", asked, found.cut, std::move(passes),
                   {{"start_diameter_mm", start}, {"to_diameter_mm", to}, {"length_mm", wide}}, "cross");
    out.time_s = work.times() * (known(found.time_s) + work.overhead_s(out.levers));
    if (found.plunges > 1) {
        out.remarks.push_back(
            {fmt::format("{} plunges, {} apart", found.plunges, work.spelled(found.step_mm))});
    }
    return out;
}

Answered answer_face(Work& work) {
    const double start = work.outside_mm();
    const double off = work.base("off");
    const double deepest = work.base("depth") != 0.0 ? work.base("depth") : deepest_pass_mm(work);
    // a skim that cleans an end up is one pass, and nothing is measured before it
    const bool close = work.is_said("tolerance");
    const Profile& after = work.walked->after;
    const bool comes_to_length = !work.is_said("to") && after.first_faced && after.second_faced;
    if (close && !comes_to_length) {
        throw DomainError(
            "tolerance of a face is that of the length: give it where the other end is faced already");
    }
    std::vector<Size> sizes{{"start_diameter_mm", start}, {"off_mm", off}};
    const bool single = work.step->finish || (off <= deepest * (1.0 + kSame) && !close);
    std::variant<Answered, std::string> chosen = chosen_passes(
        work, start, sizes, {{"single", flag(single)}, {"end_diameter", work.said("to")}, {"to", {}}});
    if (auto* const found = std::get_if<Answered>(&chosen)) {
        return std::move(*found);
    }
    const machine::Slide* slide = machine::find_slide(work.machine(), "compound");
    slide = slide != nullptr ? slide : machine::find_slide(work.machine(), "carriage");
    std::vector<Pass> passes = axial_passes(
        off, shares_of(off, pass_count(work, off, deepest), slide == nullptr ? kNaN : slide->graduation_mm),
        slide, true);
    const Asked& asked = work.ask("face", {{"diameter", work.length(start)},
                                           {"depth", work.length(deepest_of(passes))},
                                           {"end_diameter", work.said("to")},
                                           {"to", {}}});
    return cut_answer(work, "record", asked, asked.as<cutting::CutAnswer>(), std::move(passes),
                      std::move(sizes), slide == nullptr ? std::string() : slide->name,
                      std::get<std::string>(chosen));
}

Answered answer_part_off(Work& work) {
    const double start = work.outside_mm();
    const Asked& asked =
        work.ask("part_off", {{"diameter", work.length(start)}, {"stick_out", work.said("stick_out")}});
    return cut_answer(work, "record", asked, asked.as<cutting::CutAnswer>(), {},
                      {{"start_diameter_mm", start}, {"blade_mm", work.base("blade")}});
}

Answered answer_knurl(Work& work) {
    // the walk has found that the work is on a blank that tracks: that one is told
    const double start = work.outside_mm();
    const Asked& asked =
        work.ask("knurl_setup", {{"diameter", work.length(start)}, {"finished", {}}, {"stick_out", {}}});
    return cut_answer(work, "knurling", asked, asked.as<cutting::KnurlSetup>().cut, {},
                      {{"start_diameter_mm", start}, {"width_mm", work.base("width")}});
}

}  // namespace halfnut::job
