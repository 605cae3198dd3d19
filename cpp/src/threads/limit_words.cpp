#include "limit_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "answering.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/profile.hpp"

namespace halfnut::threads {

namespace {

using std::string_view;

struct Diameter {
    string_view name;
    double max_mm = kNaN;
    double min_mm = kNaN;
};

/// Those with a limit, in the order that they are cut: an external part from its crest, an internal one from
/// its own.
std::vector<Diameter> diameters(const PartLimits& own) {
    std::vector<Diameter> out{
        {"major", own.mm[0], own.mm[1]}, {"pitch", own.mm[2], own.mm[3]}, {"minor", own.mm[4], own.mm[5]}};
    if (own.side == Side::internal) {
        std::reverse(out.begin(), out.end());
    }
    std::erase_if(out,
                  [](const Diameter& each) { return std::isnan(each.max_mm) && std::isnan(each.min_mm); });
    return out;
}

std::string number(double mm, bool inch) {
    return std::isnan(mm) ? "-" : inch ? fmt::format("{:.4f}", mm / kInchMm) : fmt::format("{:.3f}", mm);
}

std::string range_said(const Diameter& of, bool inch) {
    return std::isnan(of.max_mm)   ? fmt::format("{} min", number(of.min_mm, inch))
           : std::isnan(of.min_mm) ? fmt::format("{} max", number(of.max_mm, inch))
                                   : fmt::format("{}/{}", number(of.max_mm, inch), number(of.min_mm, inch));
}

std::string length(double mm, bool inch) {
    return spell(mm, FigureKind::length, system_of(inch));
}
std::string both_lengths(double mm, bool inch) {
    return fmt::format("{} ({})", length(mm, inch), length(mm, !inch));
}

void say_table(const PartLimits& own, std::vector<std::string>& out) {
    const bool inch = own.inch;
    out.push_back(fmt::format("  {:<8}{:>9}{:>9} {}   {:>9}{:>9} {}", "", "max", "min", unit_name(inch),
                              "max", "min", unit_name(!inch)));
    for (const Diameter& each : diameters(own)) {
        out.push_back(fmt::format("  {:<8}{:>9}{:>9}      {:>9}{:>9}", each.name, number(each.max_mm, inch),
                                  number(each.min_mm, inch), number(each.max_mm, !inch),
                                  number(each.min_mm, !inch)));
    }
}

/// What sets the limits; of a form its flanks and its lead.
void say_basis(const LimitsAnswer& answer, std::vector<std::string>& out) {
    const PartLimits& own = answer.limits;
    if (!own.by_form()) {
        const auto* const standard = std::get_if<ThreadLimits>(&own.standard);
        const string_view group = standard == nullptr ? "" : enum_name(standard->group);
        out.push_back(!own.inch ? fmt::format("  ISO 965-1 on ISO 724 basic sizes{}",
                                              group.empty() ? "" : fmt::format(", engagement {}", group))
                      : own.options.rule == UnifiedRule::printed
                          ? std::string("  ASME B1.1, rounded as printed tables and go gauges are")
                          : std::string("  ASME B1.1, its decimal rule since 2003"));
        return;
    }
    const std::string form = form_name(*answer.catalogue, own);
    const double lead_mm = own.sizes.starts * own.sizes.pitch_mm;
    const double basic_mm = basic_pitch_mm(*answer.catalogue, own);
    out.push_back(fmt::format("  form      {}flanks {:g} deg{}{}", form.empty() ? "" : form + ", ",
                              2.0 * own.sizes.half_angle_deg,
                              own.sizes.starts > 1 ? fmt::format(", {} starts", own.sizes.starts) : "",
                              own.sizes.left_hand ? ", left-hand" : ""));
    out.push_back(fmt::format("  lead      {}, {:.2f} deg at the pitch diameter",
                              both_lengths(lead_mm, own.inch), lead_angle_deg(lead_mm, basic_mm)));
    const auto* const thread = own.part ? std::get_if<FormThread>(&own.part->thread) : nullptr;
    if (thread != nullptr && thread->lead_screw) {
        out.push_back(fmt::format("  holds     a load does not turn it above a friction of {:.3f}",
                                  holding_friction(lead_mm, basic_mm, own.sizes.half_angle_deg)));
    }
}

void say_evidence(const LimitsAnswer& answer, std::vector<std::string>& out) {
    std::set<std::string> kinds;
    for (const LimitsAnswer* part : {&answer, answer.other.get()}) {
        if (part != nullptr) {
            for (const EvidenceText& each : evidence_of(*part->catalogue, part->limits)) {
                kinds.insert(each.kind);
            }
        }
    }
    if (!kinds.empty()) {
        out.push_back(fmt::format("  rests on: {}", fmt::join(kinds, ", ")));
    }
}

/// How limits before a coating come about, the gauges after it, the remedies.
void say_coating(const LimitsAnswer& answer, std::vector<std::string>& out) {
    const PartLimits& own = answer.limits;
    if (!own.coating || std::isnan(own.coating->go_after_pitch_mm) ||
        std::isnan(own.coating->not_go_after_pitch_mm)) {
        return;
    }
    const BeforeCoating& coat = *own.coating;
    out.push_back(fmt::format("  {}", coating_said(answer)));
    const std::string mouth = std::isnan(coat.go_after_crest_mm)
                                  ? ""
                                  : fmt::format(", {} {}", length(coat.go_after_crest_mm, own.inch),
                                                own.side == Side::external ? "major" : "minor");
    out.push_back(fmt::format("  after coating: go {} pitch{}; not go {} pitch",
                              both_lengths(coat.go_after_pitch_mm, own.inch), mouth,
                              length(coat.not_go_after_pitch_mm, own.inch)));
    for (const std::string& each : remedies(own)) {
        out.push_back(fmt::format("  or: {}", each));
    }
}

/// Of major, pitch and minor diameter.
std::vector<double> outline(const PartLimits& own, const std::array<double, 3>& sizes) {
    const double major = sizes[0];
    const double middle = sizes[1];
    const double minor = sizes[2];
    if (std::isnan(major + middle + minor)) {
        return {};
    }
    const double pitch = own.inch ? own.sizes.pitch_mm / kInchMm : own.sizes.pitch_mm;
    const double slope = 1.0 / tangent_deg(own.sizes.half_angle_deg);
    const auto place = [&](double diameter) {
        return std::clamp(pitch / 4.0 + (diameter - middle) / 2.0 / slope, 0.0, pitch / 2.0);
    };
    const auto radius = [&](double x) {
        const double flank = middle / 2.0 + (x - pitch / 4.0) * slope;
        return std::min(std::max(flank, minor / 2.0), major / 2.0);
    };
    const std::array half{0.0, place(minor), place(major), pitch / 2.0};
    std::vector<double> out;
    out.reserve(14);
    for (const double x : half) {
        out.insert(out.end(), {x, radius(x)});
    }
    for (std::size_t i = half.size() - 1; i-- > 0;) {
        out.insert(out.end(), {pitch - half[i], radius(half[i])});
    }
    return out;
}

const std::array<double, 6>& native(const PartLimits& own) {
    return own.inch ? own.in : own.mm;
}

}  // namespace

std::string sizes_said(const LimitsAnswer& answer) {
    std::string out;
    for (const Diameter& each : diameters(answer.limits)) {
        out +=
            fmt::format("{}{} {}", out.empty() ? "" : ", ", each.name, range_said(each, answer.limits.inch));
    }
    return fmt::format("{} {}", out, unit_of(answer.limits));
}

bool minor_for_reference(const LimitsAnswer& answer) {
    const PartLimits& own = answer.limits;
    return own.inch && own.side == Side::external && !own.by_form();
}

std::string coating_said(const LimitsAnswer& answer) {
    const PartLimits& own = answer.limits;
    if (!own.coating) {
        return {};
    }
    const auto film = [&](double um) { return spell(um, FigureKind::film, system_of(own.inch)); };
    const auto known = [](double um) { return std::isnan(um) ? 0.0 : um; };
    const std::string coat =
        spell_span(known(own.coating->build_up.min_um), known(own.coating->build_up.max_um), FigureKind::film,
                   system_of(own.inch));
    switch (own.coating->way) {
        case PrecoatWay::held:
            return fmt::format("the allowance, {}, holds {} a surface",
                               film(known(own.coating->allowance_um)), coat);
        case PrecoatWay::deducted:
            return fmt::format("moved by {} a surface, up to {} on the pitch diameter", coat,
                               film(known(own.coating->pitch_change_um)));
        default:
            return "no coating: the limits of the class";
    }
}

std::vector<std::string> remedies(const PartLimits& limits) {
    if (!limits.coating || limits.coating->way != PrecoatWay::deducted) {
        return {};
    }
    std::vector<std::string> out;
    if (const std::string wanted = roomier_class(limits); !wanted.empty()) {
        out.push_back(fmt::format("cut it to {}: that allowance holds the coating", wanted));
    }
    if (const double most = limits.coating->greatest_build_up_um; most > 0.0) {
        out.push_back(
            fmt::format("a coating that builds up at most {}",
                        spell(whole_films(most, limits.inch), FigureKind::film, system_of(limits.inch))));
    }
    out.emplace_back("mask the thread, and leave it bare");
    return out;
}

std::vector<std::string> printed_lines(const LimitsAnswer& answer) {
    std::vector<std::string> out{""};
    say_table(answer.limits, out);
    say_basis(answer, out);
    say_evidence(answer, out);
    say_coating(answer, out);
    return out;
}

std::string class_taken(const LimitsAnswer& answer) {
    std::vector<std::string> taken;
    for (const LimitsAnswer* part : {&answer, answer.other.get()}) {
        if (part != nullptr && part->limits.part && part->limits.part->class_assumed) {
            taken.push_back(class_of(part->limits.part->thread, part->limits.side));
        }
    }
    return taken.empty() ? ""
                         : fmt::format("{}, the usual one{}, taken", fmt::join(taken, " and "),
                                       taken.size() > 1 ? "s" : "");
}

std::vector<double> profile_most(const LimitsAnswer& answer) {
    const PartLimits& own = answer.limits;
    const auto& [major_max, major_min, pitch_max, pitch_min, minor_max, minor_min] = native(own);
    if (own.side == Side::internal) {
        return outline(own, {major_min, pitch_min, minor_min});
    }
    return outline(own, {major_max, pitch_max, std::isnan(minor_max) ? pitch_max : minor_max});
}

std::vector<double> profile_least(const LimitsAnswer& answer) {
    const PartLimits& own = answer.limits;
    const auto& [major_max, major_min, pitch_max, pitch_min, minor_max, minor_min] = native(own);
    const double width = pitch_max - pitch_min;
    if (own.side == Side::internal) {
        return outline(own, {std::isnan(major_max) ? major_min + width : major_max, pitch_max, minor_max});
    }
    const double root = std::isnan(minor_max) ? pitch_max : minor_max;
    return outline(own, {major_min, pitch_min, std::isnan(minor_min) ? root - width : minor_min});
}

}  // namespace halfnut::threads
