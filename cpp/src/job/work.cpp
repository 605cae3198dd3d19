// A question about an operation: what it asks is filled in by name.

#include "work.hpp"

#include <fmt/format.h>

#include "halfnut/core/error.hpp"
#include "halfnut/job/job_file.hpp"

namespace halfnut::job {

using std::string_view;
using Tag = Given::Tag;

Value figure(const Answer& answer, string_view key) {
    const auto& rows = answer.question->answer->figures;
    const auto found =
        std::find_if(rows.begin(), rows.end(), [&](const FigureRow& row) { return row.key == key; });
    return found == rows.end() ? Value{} : found->get(answer.record.get());
}

void Work::take(std::size_t place, const std::optional<StepAt>& keep) {
    step_said = &at(part_said, "operations").items[place];
    step = &part.steps[place];
    kind = &kind_of(step->what);
    walked = &walked_part.operations[place];
    called_ = called_otherwise(*kind);
    shared = keep;
}

Quantity Work::size_of(double mm) const {
    static const Unit* const kIn = find_unit("in", Dimension::length);
    static const Unit* const kMm = find_unit("mm", Dimension::length);
    return part.inch ? bounded_quantity(mm / kInchMm, *kIn) : bounded_quantity(mm, *kMm);
}

Given Work::length(double mm) const {
    const Quantity size = size_of(mm);
    return {.tag = Tag::quantity, .number = size.value(), .unit = &size.unit()};
}

Given Work::coating() const {
    return {
        .tag = Tag::other, .text = "the coating", .type = &typeid(threads::BuildUp), .object = &part.coating};
}

Given Work::given(const Asked& asked) {
    return {.tag = Tag::other,
            .text = asked.answer.question->answer->name,
            .type = asked.answer.question->answered,
            .object = asked.answer.record.get()};
}

Given Work::given(const threads::AnyThread& thread) {
    const threads::AnyThread& held = kept.threads.emplace_back(thread);
    return {.tag = Tag::other,
            .text = keep(threads::format_any_thread(thread)),
            .type = &typeid(threads::AnyThread),
            .object = &held};
}

// ---- what a question of an operation may ask --------------------------------------------------------------

Given Work::hold() {
    const string_view own = word("hold");
    const int setting = walked->after.held.setting;
    if (!own.empty()) {
        centre_ = own == "chuck" ? std::nullopt : std::optional(std::pair(setting, own));
        return text(own);
    }
    return kind->cuts == Cuts::outside && centre_ && centre_->first == setting ? text(centre_->second)
                                                                               : Given{};
}

/// What stands in place of the overhang where the walk knows that the work is stepped.
void Work::tell_sections(Own& out) {
    if (walked->sections.empty()) {
        return;
    }
    std::vector<Given> sections;
    sections.reserve(walked->sections.size());
    for (const cutting::WorkSection& each : walked->sections) {
        std::vector<Given>& sizes = kept.lists.emplace_back();
        for (const double size : {each.length_mm, each.diameter_mm, each.bore_mm}) {
            if (known(size) != 0.0) {
                sizes.push_back(length(size));
            }
        }
        sections.push_back({.tag = Tag::list, .text = "a section", .items = sizes});
    }
    out.emplace_back(
        "sections",
        Given{.tag = Tag::list, .text = "sections", .items = kept.lists.emplace_back(std::move(sections))});
    out.emplace_back("cut_at", length(known(walked->cut_at_mm)));
    out.emplace_back("stick_out", Given{});
}

void Work::tell_stock(Own& out) {
    const Given& stock = at(part_said, "stock");
    if (part.form == Form::plate) {
        return;
    }
    const bool hexagon = is_given(stock, "across_flats");
    const double across = size_mm(stock, hexagon ? "across_flats" : "diameter");
    out.emplace_back("stock", hexagon ? text(keep(size_of(across).text() + " hex")) : length(across));
    const double blank =
        part.through_spindle && is_given(stock, "bar_length") ? size_mm(stock, "bar_length") : part.sawn_mm;
    if (!std::isnan(blank) && (part.through_spindle || !(across > machine().spindle_bore_mm))) {
        out.emplace_back("bar_length", length(blank));
    }
}

Own Work::told() {
    Own out;
    constexpr std::size_t kMore = 24;
    out.reserve(step_said->keys.size() + kMore);
    for (std::size_t i = 0; i < step_said->keys.size(); ++i) {
        if (step_said->items[i].tag != Tag::nothing) {
            const auto other = std::find_if(called_.begin(), called_.end(), [&](const auto& each) {
                return each.first == step_said->keys[i];
            });
            out.emplace_back(other == called_.end() ? step_said->keys[i] : other->second,
                             step_said->items[i]);
        }
    }
    constexpr double kUm = 1000.0;
    out.emplace_back("alloy", at(part_said, "alloy"));
    out.emplace_back("machine", Given{.tag = Tag::machine, .text = "a machine", .machine = step->machine});
    out.emplace_back("tool", word("tool").empty() ? at(part_said, "tool") : said("tool"));
    out.emplace_back("chuck", said("holding"));
    out.emplace_back("bore", bore());
    out.emplace_back("roughness_um", is_said("roughness") ? number(kUm * base("roughness")) : Given{});
    out.emplace_back("bar_diameter", said("bar"));
    out.emplace_back("overhang", said("stick_out"));
    out.emplace_back("approach", kind->cuts == Cuts::hole ? length(kApproachMm) : Given{});
    for (const string_view key : {"jaws", "friction", "safety"}) {
        out.emplace_back(key, at(part_said, key));
    }
    if (shared) {
        out.emplace_back("spindle_rpm", number(shared->rpm));
        out.emplace_back("only_spindle", number(shared->step));
    }
    if (!at_lathe()) {
        return out;
    }
    out.emplace_back("hold", hold());
    out.emplace_back("stick_out", std::isnan(walked->overhang_mm) ? Given{} : length(walked->overhang_mm));
    tell_sections(out);
    tell_stock(out);
    return out;
}

const Asked& Work::put(string_view name, const Own& own) {
    const Question& question = find_question(name);
    Asked out;
    out.values.reserve(question.arguments.size());
    for (const AskedRow& row : question.arguments) {
        const auto found =
            std::find_if(own.rbegin(), own.rend(), [&](const auto& each) { return each.first == row.name; });
        out.values.push_back(found == own.rend() ? Given{} : found->second);
    }
    out.answer = halfnut::ask(question, out.values, catalogue);
    return kept.asked.emplace_back(std::move(out));
}

const Asked& Work::ask(string_view question, const Own& own) {
    Own all = told();
    all.insert(all.end(), own.begin(), own.end());
    return put(question, all);
}

// ---- levers and time --------------------------------------------------------------------------------------

std::vector<Levers> Work::levers_of(const cutting::CutAnswer& cut) const {
    std::vector<Levers> out;
    if (cut.spindle_step) {
        const machine::SpindleStep& set = machine().spindle[static_cast<std::size_t>(*cut.spindle_step)];
        Levers& spindle = out.emplace_back(Levers{"spindle", cut.spindle_positions, set.stop_to_change});
        if (set.variable()) {
            spindle.positions.emplace_back("speed, rev/min", fmt::format("{:.0f}", cut.cut.spindle_rpm));
        }
    }
    if (cut.feed_step) {
        const auto place = static_cast<std::size_t>(*cut.feed_step);
        const machine::FeedStep& set = cutting::ladder_of(machine(), cut.feeds).steps[place];
        out.push_back({"feed", cut.feed_positions, set.stop_to_change});
    }
    return out;
}

double Work::overhead_s(const std::vector<Levers>& levers, int measured) const {
    double seconds = machine().tool_change_s + measured * machine().measure_s;
    for (const Levers& group : levers) {
        const bool stands = last_ == &machine() &&
                            std::find(last_levers_.begin(), last_levers_.end(), group) != last_levers_.end();
        if (!group.positions.empty() && !stands) {
            seconds += group.stop ? machine().stop_change_s : machine().lever_change_s;
        }
    }
    return seconds;
}

void Work::leave(const Answered& found) {
    last_ = &machine();
    last_levers_ = found.left ? *found.left : found.levers;
    const bool chosen = found.left.has_value();
    set_to = chosen ? found.cuts.back() : nullptr;
    set_on = chosen ? &machine() : nullptr;
}

}  // namespace halfnut::job
