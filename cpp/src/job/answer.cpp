// A part's operations in order: each asked, and what it leaves of the machine.

#include "halfnut/job/answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <limits>

#include "halfnut/core/error.hpp"
#include "halfnut/cutting/choosing.hpp"
#include "halfnut/cutting/layout.hpp"
#include "work.hpp"

namespace halfnut::job {

namespace {

using std::string_view;

// From hole to hole; source: common practice of hand mills.
constexpr double kByDialS = 30.0;
constexpr double kByReadoutS = 12.0;

Answered answer_kind(Work& work) {
    switch (work.what()) {
        case Do::turn:
        case Do::bore:
            return answer_sized(work);
        case Do::taper:
            return answer_taper(work);
        case Do::face:
            return answer_face(work);
        case Do::groove:
            return answer_groove(work);
        case Do::part_off:
            return answer_part_off(work);
        case Do::tap:
            return answer_tap(work);
        case Do::mill:
            return answer_mill(work);
        case Do::saw:
            return answer_saw(work);
        case Do::thread:
            return answer_thread(work);
        case Do::knurl:
            return answer_knurl(work);
        case Do::spot:
        case Do::drill:
        case Do::countersink:
        case Do::counterbore:
        case Do::ream:
            break;
    }
    return answer_hole(work);
}

void check_machine(const Work& work) {
    const machine::Machine& machine = work.machine();
    if (!work.at_lathe() && work.kind->on == On::lathe) {
        throw DomainError(fmt::format("{} is a {}; {} needs a lathe", machine.name, enum_name(machine.kind),
                                      enum_name(work.what())));
    }
    if (work.at_lathe() && work.kind->on == On::mill) {
        throw DomainError(
            fmt::format("{} is a lathe; {} needs a milling machine", machine.name, enum_name(work.what())));
    }
}

std::string capital(string_view said) {
    std::string out(said);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    if (!out.empty()) {
        out.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(out.front())));
    }
    return out;
}

/// The places of its holes as what is read at the machine.
void add_places(Work& work, const Given& places, Answered& found) {
    Own own;
    for (std::size_t i = 0; i < places.keys.size(); ++i) {
        const string_view key = places.keys[i];
        if (key != "zero") {
            own.emplace_back(key == "angle"  ? "angle_deg"
                             : key == "over" ? "over_deg"
                                             : key,
                             places.items[i]);
        }
    }
    const machine::Machine& machine = work.machine();
    if (machine::find_slide(machine, "x") != nullptr && machine::find_slide(machine, "y") != nullptr) {
        own.emplace_back("machine",
                         Given{.tag = Given::Tag::machine, .text = "a machine", .machine = &machine});
    }
    const Asked& asked = work.put("positions", own);
    const auto& placed = asked.as<cutting::Positions>();
    const string_view from = at(places, "zero").text;
    const std::string zero = from.empty() ? std::string() : fmt::format(" from {}", from);
    for (const auto& [label, said] : placed.places_said) {
        found.remarks.push_back({fmt::format("{}{}: {}.", capital(label), zero, said)});
    }
    const bool by_dial = std::any_of(placed.places.begin(), placed.places.end(),
                                     [](const cutting::PlaceToGo& each) { return each.x_turns.has_value(); });
    found.time_s += (placed.holes - 1) * (by_dial ? kByDialS : kByReadoutS);
    found.answers.emplace_back("placed", &asked);
}

Answered answer_one(Work& work) {
    check_machine(work);
    Answered out = answer_kind(work);
    if (work.what() == Do::face && work.step->end == End::second && !work.is_said("to")) {
        out.remarks.push_back({fmt::format("To a length of {} between the faces.",
                                           work.spelled(known(work.walked->length_mm)))});
    }
    if (const Given& places = work.said("places"); places.tag == Given::Tag::object) {
        add_places(work, places, out);
    } else if (const Given& divisions = work.said("divisions"); divisions.number > 1.0) {
        const Given machine{.tag = Given::Tag::machine, .text = "a machine", .machine = &work.machine()};
        out.answers.emplace_back("divided", &work.put("divide", {{"part", divisions}, {"machine", machine}}));
        out.remarks.push_back({"Divide: {answer}.", "divided"});
    }
    work.leave(out);
    return out;
}

/// Why the walk refuses an operation.
std::string refusal(const WalkedPart& walked, int operation) {
    std::string out;
    for (const Mistake& each : walked.mistakes) {
        if (each.operation == operation && each.refused) {
            out += fmt::format("{}{}{}{}", out.empty() ? "" : "; ", each.text, each.cure.empty() ? "" : "; ",
                               each.cure);
        }
    }
    return out;
}

using Keeps = std::vector<std::optional<StepAt>>;

/// Every operation asked, in order. What was answered `before` stands where neither it nor the operation in
/// front of it has another step.
std::vector<Answered> answer_all(Work work, const Keeps& keep, const std::vector<Answered>& before) {
    std::vector<Answered> out;
    out.reserve(work.part.steps.size());
    for (std::size_t place = 0; place < work.part.steps.size(); ++place) {
        work.take(place, keep.empty() ? std::nullopt : keep[place]);
        if (!before.empty() && !keep[place] && !keep[place == 0 ? 0 : place - 1] &&
            before[place].error.empty() && work.word("hold").empty()) {
            work.leave(before[place]);
            out.push_back(before[place]);
            continue;
        }
        Answered& found = out.emplace_back();
        constexpr int kApart = 10;  // between the numbers of operations
        found.error = refusal(work.walked_part, kApart * (static_cast<int>(place) + 1));
        if (found.error.empty()) {
            try {
                found = answer_one(work);
            } catch (const Error& error) {
                found.error = error.what();
            }
        }
    }
    return out;
}

bool by_hand(const cutting::CutAnswer& cut) {
    return std::any_of(cut.told.begin(), cut.told.end(),
                       [](const Told& each) { return each.code == "tap_by_hand"; });
}

/// The spindle of an operation: its step, where all of its cuts have one.
Setting setting_of(const Answered& found) {
    Setting out;
    const cutting::CutAnswer* const cut = found.cut;
    if (cut == nullptr || !cut->spindle_step || by_hand(*cut) ||
        std::any_of(found.cuts.begin(), found.cuts.end(), [&](const cutting::CutAnswer* each) {
            return each->spindle_step != cut->spindle_step;
        })) {
        return out;
    }
    out.step = *cut->spindle_step;
    for (const cutting::CutAnswer* const each : found.cuts) {
        out.cut_s += known(each->cut.time_s);
    }
    const cutting::CutResult& its = cut->cut;
    const double speed = known(its.cutting_speed_m_min) != 0.0 ? its.cutting_speed_m_min
                                                               : std::numeric_limits<double>::infinity();
    out.least_rpm = its.spindle_rpm * known(its.window_low_m_min) / speed;
    out.rpm = found.left ? kNaN : its.spindle_rpm;
    return out;
}

/// The step and speed that each operation is better asked again with, so that no lever is moved for a little.
Keeps shared(const Part& part, const std::vector<Answered>& done) {
    std::vector<const machine::Machine*> machines;
    std::vector<Setting> settings;
    settings.reserve(done.size());
    for (std::size_t i = 0; i < done.size(); ++i) {
        const machine::Machine* const machine = part.steps[i].machine;
        const auto known_at = std::find(machines.begin(), machines.end(), machine);
        settings.push_back(setting_of(done[i]));
        settings.back().machine = static_cast<int>(known_at - machines.begin());
        if (known_at == machines.end()) {
            machines.push_back(machine);
        }
    }
    const std::vector<StepAt> steps = shared_steps(settings, machines);
    Keeps out(done.size());
    for (std::size_t i = 0; i < done.size(); ++i) {
        if (steps[i].step != settings[i].step || steps[i].rpm < settings[i].rpm) {
            const auto place = static_cast<std::size_t>(steps[i].step);
            out[i] =
                StepAt{steps[i].step,
                       std::isnan(steps[i].rpm) ? part.steps[i].machine->spindle[place].rpm : steps[i].rpm};
        }
    }
    return out;
}

}  // namespace

AnsweredPart answer_part(const Given& job, std::size_t place, const Part& part, const WalkedPart& walked,
                         const Catalogue& catalogue) {
    auto kept = std::make_unique<Kept>();
    const Work work(at(job, "parts").items[place], part, walked, catalogue, *kept);
    AnsweredPart out{.operations = answer_all(work, {}, {})};
    const Keeps keep = shared(part, out.operations);
    if (std::any_of(keep.begin(), keep.end(), [](const auto& each) { return each.has_value(); })) {
        std::vector<Answered> again = answer_all(work, keep, out.operations);
        const bool all = std::equal(
            again.begin(), again.end(), out.operations.begin(),
            [](const Answered& two, const Answered& one) { return two.error.empty() || !one.error.empty(); });
        out.operations = all ? std::move(again) : std::move(out.operations);
    }
    out.kept = std::move(kept);
    return out;
}

std::optional<Order> better_order(const Part& part, const AnsweredPart& answered,
                                  const Catalogue& catalogue) {
    const auto groups = [](const std::vector<Levers>& levers) {
        std::vector<LeverGroup> out;
        out.reserve(levers.size());
        for (const Levers& each : levers) {
            std::string positions;
            for (const auto& [control, setting] : each.positions) {
                positions += fmt::format("{} {}, ", control, setting);
            }
            out.push_back({each.group, std::move(positions), each.stop});
        }
        return out;
    };
    std::vector<Moved> moved;
    moved.reserve(answered.operations.size());
    for (const Answered& each : answered.operations) {
        moved.push_back({groups(each.levers), groups(each.left.value_or(each.levers)), each.error.empty()});
    }
    return better_order(part, moved, catalogue);
}

// ---- as a face reads it -----------------------------------------------------------------------------------

namespace {

constexpr std::array kLevers{
    HALFNUT_FIGURE(Levers, group, "What they are for."),
    HALFNUT_FIGURE(Levers, positions, "Where each stands."),
    HALFNUT_FIGURE(Levers, stop, "The spindle must stand still to set them."),
};
constexpr RecordRow kLeversRecord{"Levers", "Levers that belong together.", kLevers};

#define FIGURE(member, about) HALFNUT_FIGURE(Pass, member, about)
constexpr std::array kPass{
    FIGURE(number, "Its number."),
    FIGURE(depth_mm, "Depth on the radius or along the axis."),
    FIGURE(size_mm, "The size that it leaves."),
    HALFNUT_RECORD(Pass, reading, cutting::kDialRecord, "The dial from zero, where the tool touches."),
    FIGURE(measure, "Whether to measure before it."),
    HALFNUT_RECORDS(Pass, levers, kLeversRecord, "To set before it, where they are not as before."),
};
#undef FIGURE
constexpr RecordRow kPassRecord{"Pass", "One pass.", kPass};

constexpr std::array kSize{
    HALFNUT_FIGURE(Size, key, "Its key."),
    HALFNUT_FIGURE(Size, number, "A number."),
    HALFNUT_FIGURE(Size, text, "Or a text."),
};
constexpr RecordRow kSizeRecord{"Size", "What it starts from or ends at.", kSize};

constexpr std::array kRemark{
    HALFNUT_FIGURE(Remark, text, "A text, or a template."),
    HALFNUT_FIGURE(Remark, of, "The answer that fills the template."),
};
constexpr RecordRow kRemarkRecord{"Remark", "What a card says beside the figures.", kRemark};

std::vector<Levers> left_of(const Answered& found) {
    return found.left.value_or(std::vector<Levers>());
}

std::string feeds_of(const Answered& found) {
    return found.cut == nullptr ? std::string() : std::string(enum_name(found.cut->feeds));
}

#define FIGURE(member, about) HALFNUT_FIGURE(Answered, member, about)
constexpr std::array kAnsweredFigures{
    FIGURE(error, "Why there is no answer."),
    HALFNUT_RECORDS(Answered, levers, kLeversRecord, "Levers to set."),
    made_records<kLeversRecord, &left_of>("left", "How they stand afterwards, where passes were chosen."),
    made_figure<&feeds_of>("feeds", "Power feeds that its cut is fed by; none without a cut."),
    HALFNUT_RECORDS(Answered, passes, kPassRecord, "Its passes."),
    HALFNUT_RECORDS(Answered, sizes, kSizeRecord, "What it starts from and ends at."),
    FIGURE(time_s, "For one piece: cutting, changes and measuring."),
    FIGURE(dial, "Slide whose dial sets the depth."),
    HALFNUT_RECORDS(Answered, remarks, kRemarkRecord, "What a card says beside the figures."),
    FIGURE(told, "What the plan itself cautions of."),
};
#undef FIGURE

}  // namespace

const RecordRow kAnswered{"Answered", "An operation answered.", kAnsweredFigures};

}  // namespace halfnut::job
