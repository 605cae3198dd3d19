// A cut, or a choice of passes, as the answer to an operation: passes, dials, time.

#include <fmt/format.h>

#include <cmath>
#include <numeric>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/words.hpp"
#include "halfnut/cutting/choosing.hpp"
#include "work.hpp"

namespace halfnut::job {

double deepest_pass_mm(const Work& work) {
    constexpr double kInch = 0.040 * kInchMm;
    constexpr double kMetric = 1.0;
    return work.part.inch ? kInch : kMetric;
}

std::optional<cutting::DialAt> reading(const machine::Slide* slide, double travel_mm) {
    if (slide == nullptr) {
        return std::nullopt;
    }
    if (!(travel_mm >= 0.0 && std::isfinite(travel_mm))) {
        throw DomainError(fmt::format("a dial's travel must be >= 0 mm, got {:g}", travel_mm));
    }
    return cutting::dial_at(*slide, travel_mm);
}

int pass_count(const Work& work, double total_mm, double deepest_mm) {
    const double count = std::fmax(1.0, std::ceil(total_mm / deepest_mm - kSame));
    if (count > bounds::kPasses) {
        throw DomainError(fmt::format("depth, {}, makes {:.0f} passes; at most {}, so at least {}",
                                      work.size_of(deepest_mm).text(), count, bounds::kPasses,
                                      work.spelled(total_mm / bounds::kPasses)));
    }
    return bounds::whole<int>(count, 1);
}

std::vector<double> shares_of(double total_mm, int count, double line_mm) {
    std::vector<double> depths;
    depths.reserve(static_cast<std::size_t>(count));
    for (int n = 0; n < count; ++n) {
        depths.push_back(total_mm * (n + 1) / count);
    }
    if (std::isnan(line_mm) || count == 1) {
        return depths;
    }
    const auto to_line = [&](double depth) { return std::nearbyint(depth) * line_mm; };
    const std::size_t last = depths.size() - 1;
    for (std::size_t n = 0; n < last; ++n) {
        depths[n] = to_line(depths[n] / line_mm);
    }
    const double before = count > 2 ? depths[last - 2] : 0.0;
    depths[last - 1] = to_line((before + total_mm) / 2.0 / line_mm);
    return depths;
}

std::vector<Pass> passes_between(const Work& work, double start_mm, double to_mm) {
    const machine::Slide* const slide = machine::find_slide(work.machine(), "cross");
    const double total = std::abs(start_mm - to_mm) / 2.0;
    const double deepest = work.base("depth") != 0.0 ? work.base("depth") : deepest_pass_mm(work);
    const int count = work.step->finish ? 1 : pass_count(work, total, deepest);
    const double line = slide == nullptr ? kNaN : slide->graduation_mm / (slide->reads_diameter ? 2.0 : 1.0);
    const double sign = to_mm < start_mm ? -2.0 : 2.0;
    std::vector<Pass> out;
    out.reserve(static_cast<std::size_t>(count));
    double before = 0.0;
    for (const double depth : shares_of(total, count, line)) {
        const int number = static_cast<int>(out.size()) + 1;
        out.push_back({number, depth - before, start_mm + sign * depth, reading(slide, 2.0 * depth / 2.0),
                       count > 1 && number == count});
        before = depth;
    }
    return out;
}

std::vector<Pass> axial_passes(double total_mm, const std::vector<double>& depths,
                               const machine::Slide* slide, bool left) {
    std::vector<Pass> out;
    out.reserve(depths.size());
    double before = 0.0;
    for (const double depth : depths) {
        out.push_back({static_cast<int>(out.size()) + 1, depth - before, left ? total_mm - depth : depth,
                       reading(slide, depth)});
        before = depth;
    }
    return out;
}

std::vector<Remark> across_remark(const Work& work, int across) {
    if (across < 2) {
        return {};
    }
    const double over = work.base("width") / across;
    const auto at_dial = reading(machine::find_slide(work.machine(), "y"), over);
    return {{fmt::format("{} passes across, {} apart{}", across, work.spelled(over),
                         at_dial ? fmt::format("; y dial {} each", at_dial->said) : std::string())}};
}

Answered cut_answer(const Work& work, std::string_view name, const Asked& asked,
                    const cutting::CutAnswer& cut, std::vector<Pass> passes, std::vector<Size> sizes,
                    std::string dial, const std::string& why) {
    Answered out{.answers = {{name, &asked}},
                 .cut = &cut,
                 .cuts = {&cut},
                 .levers = work.levers_of(cut),
                 .passes = std::move(passes),
                 .sizes = std::move(sizes),
                 .dial = std::move(dial)};
    const int measured =
        std::accumulate(out.passes.begin(), out.passes.end(), 1,
                        [](int sum, const Pass& each) { return sum + (each.measure ? 1 : 0); });
    const double count = static_cast<double>(std::max<std::size_t>(1, out.passes.size()));
    out.time_s = work.times() * (count * known(cut.cut.time_s) + work.overhead_s(out.levers, measured));
    if (!why.empty()) {
        out.told.push_back({.code = "equal_passes", .words = {{"why", why}}});
    }
    return out;
}

namespace {

/// Speed and feed that the cut before leaves set, as `choose` takes them.
void tell_set(Work& work, Own& own) {
    if (work.set_to == nullptr || work.set_on->name != work.machine().name) {
        return;
    }
    const cutting::CutAnswer& cut = *work.set_to;
    if (cut.spindle_step) {
        own.emplace_back("now_spindle_rpm", number(cut.cut.spindle_rpm));
    }
    if (cut.feed_step) {
        const machine::FeedLadder& ladder = cutting::ladder_of(work.machine(), cut.feeds);
        const bool per_minute = ladder.kind == machine::FeedKind::per_minute;
        own.emplace_back("now_feed",
                         text(work.keep(fmt::format(
                             "{} {}", ladder.steps[static_cast<std::size_t>(*cut.feed_step)].feed_mm,
                             per_minute ? "mm/min" : "mm/rev"))));
    }
}

std::string why_none(const cutting::ChooseAnswer& found, const Catalogue& catalogue) {
    std::string out;
    for (const cutting::Share& each : found.relaxations) {
        out += out.empty() ? "" : ", ";
        out += find_words("limit", each.name, catalogue);
    }
    return out.empty() ? "none of them alone" : out;
}

}  // namespace

std::variant<Answered, std::string> chosen_passes(Work& work, double diameter_mm, std::vector<Size> sizes,
                                                  Own own) {
    const bool is_deep =
        std::any_of(own.begin(), own.end(), [](const auto& each) { return each.first == "deepest"; });
    tell_set(work, own);
    const std::string what = work.what() == Do::mill ? fmt::format("mill {}", work.word("shape"))
                                                     : std::string(enum_name(work.what()));
    own.emplace_back("do", text(work.keep(what)));
    own.emplace_back("diameter", work.length(diameter_mm));
    own.emplace_back("brief", flag(true));
    if (!is_deep) {
        own.emplace_back("deepest", work.said("depth"));
    }
    const Asked* asked = nullptr;
    try {
        asked = &work.ask("choose", own);
    } catch (const Error& error) {
        return std::string(error.what());
    }
    const auto& found = asked->as<cutting::ChooseAnswer>();
    if (found.passes.empty()) {
        return why_none(found, work.catalogue);
    }
    Answered out{.answers = {{"chosen", asked}}, .sizes = std::move(sizes), .dial = found.dial};
    std::vector<Levers> before;
    out.passes.reserve(found.passes.size());
    out.cuts.reserve(found.passes.size());
    for (const cutting::PlannedPass& each : found.passes) {
        std::vector<Levers> levers = work.levers_of(each.cut);
        // facing tells what is still on, the others what is reached
        const double size =
            work.what() == Do::face ? work.base("off") - each.chosen.after_mm : each.chosen.after_mm;
        const bool moves = !before.empty() && levers != before;
        out.passes.push_back({each.number, each.chosen.depth_mm, size, each.dial, each.chosen.measure_before,
                              moves ? levers : std::vector<Levers>{}});
        out.cuts.push_back(&each.cut);
        before = std::move(levers);
    }
    out.cut = out.cuts.front();
    if (work.what() == Do::mill) {
        out.remarks = across_remark(work, found.chosen.across);
    }
    out.time_s = work.times() * (known(found.chosen.time_s) + work.machine().tool_change_s);
    out.levers = work.levers_of(*out.cut);
    out.left = std::move(before);
    return out;
}

// ---- milling ----------------------------------------------------------------------------------------------

namespace {

/// The way down to each level, where the job asks for one.
void add_entry(Work& work, Answered& found) {
    if (work.word("entry") != "ramp") {
        return;
    }
    const std::string_view shape = work.word("shape");
    if (shape != "slot" && shape != "pocket") {
        throw DomainError(fmt::format("entry is for a slot or a pocket, and shape is {}", shape));
    }
    const double depth = known(found.cut->cut.depth_mm);
    const Asked& way = work.ask("ramp", {{"depth", work.length(depth != 0.0 ? depth : work.base("depth"))},
                                         {"angle_deg", work.said("entry_angle")},
                                         {"length", {}},
                                         {"stick_out", {}},
                                         {"nose_radius", {}},
                                         {"roughness_um", {}}});
    found.answers.emplace_back("entry", &way);
    Remark& said = found.remarks.emplace_back();
    said.text = "{way} down to each level at {angle_deg}, {length_mm:travel} of travel at {feed_mm_min}";
    said.of = "entry";
    const double down_s =
        work.times() * static_cast<double>(found.passes.size()) * way.as<cutting::EntryAnswer>().time_s;
    found.time_s += down_s;
}

}  // namespace

Answered answer_mill(Work& work) {
    std::vector<Size> sizes{{"shape", kNaN, std::string(work.word("shape"))},
                            {"cutter_mm", work.base("cutter")},
                            {"length_mm", work.base("length")},
                            {"cut_width_mm", work.base("width")},
                            {"cut_depth_mm", work.base("depth")}};
    std::variant<Answered, std::string> found = chosen_passes(
        work, work.base("cutter"), sizes, {{"off", work.said("depth")}, {"deepest", work.said("step_down")}});
    if (auto* const chosen = std::get_if<Answered>(&found)) {
        add_entry(work, *chosen);
        return std::move(*chosen);
    }
    const Asked& asked = work.ask("mill", {});
    const auto& cut = asked.as<cutting::CutAnswer>();
    const machine::Slide* slide = machine::find_slide(work.machine(), "z");
    slide = slide != nullptr ? slide : machine::find_slide(work.machine(), "quill");
    const double total = work.base("depth");
    std::vector<Pass> passes = axial_passes(
        total, shares_of(total, cut.cut.passes_down, slide == nullptr ? kNaN : slide->graduation_mm), slide);
    // its time is that of all passes
    Answered out = cut_answer(work, "record", asked, cut, {}, std::move(sizes),
                              slide == nullptr ? std::string() : slide->name, std::get<std::string>(found));
    out.passes = std::move(passes);
    out.remarks = across_remark(work, cut.cut.passes_across);
    add_entry(work, out);
    return out;
}

/// A kind that has no passes of its own.
Answered answer_saw(Work& work) {
    const Asked& asked = work.ask(work.kind->question, {});
    const auto& cut = asked.as<cutting::CutAnswer>();
    std::vector<Size> sizes;
    const Given& step = *work.step_said;
    for (std::size_t i = 0; i < step.keys.size(); ++i) {
        if (step.items[i].tag == Given::Tag::quantity) {
            sizes.push_back({fmt::format("{}_mm", step.keys[i]), work.base(step.keys[i])});
        }
    }
    return cut_answer(work, "record", asked, cut, {}, std::move(sizes));
}

}  // namespace halfnut::job
