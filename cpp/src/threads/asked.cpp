// How threads and their parts are read from what a person gives, and what their answers have in common.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "answering.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/failed.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::threads {

bool is_word(std::string_view text, std::string_view word) {
    const auto blank = [](char letter) { return letter == ' ' || letter == '\t'; };
    while (!text.empty() && blank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && blank(text.back())) {
        text.remove_suffix(1);
    }
    return std::equal(text.begin(), text.end(), word.begin(), word.end(), [](char given, char wanted) {
        return std::tolower(static_cast<unsigned char>(given)) == wanted;
    });
}

void take(AnyThread& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (const auto* const known = given.as<AnyThread>()) {
        to = *known;
    } else if (given.tag == Given::Tag::text) {
        to = parse_any_thread(given.text, asking.catalogue);
    } else {
        throw DesignationError(fmt::format("{}: a thread is written as text, such as 'M10x1.5-6g', got {}",
                                           row.name, given.shown()),
                               0);
    }
    if (row.leading != 0) {
        asking.inch = is_inch(to);
    }
}

void take(PartAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    const auto* const answer = given.as<LimitsAnswer>();
    if (answer == nullptr) {
        AnyThread thread;
        take(thread, given, row, asking);
        to = std::move(thread);
        return;
    }
    to = answer->limits;
    if (row.leading != 0) {
        asking.inch = answer->limits.inch;
    }
}

void take(WireAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    to.best = given.tag == Given::Tag::text && is_word(given.text, "best");
    if (!to.best) {
        take(to.mm, given, row, asking);
    }
}

AnyThread part_of(const AnyThread& thread, Side side) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return form != nullptr ? AnyThread(form_part(*form, side))
                           : AnyThread(std::get<Thread>(thread).part(side));
}

PartLimits limits_of(const Catalogue& catalogue, const PartAsked& part, std::optional<Side> side,
                     const LimitOptions& options) {
    if (const PartLimits* const given = part.limits()) {
        if (side && given->side != *side) {
            throw DomainError(
                fmt::format("the {0} part must be {0}, got {1}", enum_name(*side), given->title()));
        }
        return *given;
    }
    ThreadPart meant;
    std::string why;
    if (const Status status = one_part(std::get<AnyThread>(part.is), side, meant, &why); !status.ok()) {
        throw Failed(status.code, why);
    }
    return limits(catalogue, meant, options);
}

PartLimits before(const Catalogue& catalogue, const PartLimits& limits, const BuildUp& build_up) {
    if (build_up.bare()) {
        return limits;
    }
    if (limits.coating) {
        throw DomainError(fmt::format("{}: these are limits before a coating already", limits.title()));
    }
    return precoat(catalogue, limits, build_up);
}

void tell_of(std::vector<Told>& out, const Catalogue& catalogue, const PartLimits& limits, bool class_only) {
    constexpr std::string_view kClass = "class_assumed";
    if (!class_only && limits.by_form()) {
        const std::vector<EvidenceText> evidence = evidence_of(catalogue, limits);
        if (std::any_of(evidence.begin(), evidence.end(),
                        [](const auto& each) { return each.kind == "memory"; })) {
            tell(out, "from_memory");
        }
    }
    const auto* const own = std::get_if<ThreadLimits>(&limits.standard);
    const Words words{{"group", own == nullptr ? "" : std::string(enum_name(own->group))},
                      {"name", limits.part ? class_of(limits.part->thread, limits.side) : std::string()}};
    for (const std::string_view code : limit_cautions(catalogue, limits)) {
        if (!class_only || code == kClass) {
            tell(out, code, words);
        }
    }
}

std::vector<EvidenceText> evidence_of(const Catalogue& catalogue, const PartLimits& limits) {
    std::vector<EvidenceText> out;
    if (limits.coating) {
        append_evidence(limits.coating->evidence.items(), kPrecoatFigures, catalogue, out);
    }
    if (const auto* const own = std::get_if<ThreadLimits>(&limits.standard)) {
        append_evidence(own->evidence.items(), kThreadLimitFigures, catalogue, out);
    } else if (const auto* const form = std::get_if<FormLimits>(&limits.standard)) {
        append_evidence(form->evidence.items(), kFormFigures, catalogue, out);
    }
    return out;
}

void keep_once(std::vector<Told>& told) {
    std::vector<Told> out;
    for (Told& each : told) {
        const auto same = [&](const Told& other) {
            return other.code == each.code && other.words == each.words;
        };
        if (std::none_of(out.begin(), out.end(), same)) {
            out.push_back(std::move(each));
        }
    }
    told = std::move(out);
}

void take(std::optional<BuildUp>& to, const Given& given, const AskedRow& row, Asking& asking) {
    take(to.emplace(), given, row, asking);
}

BuildUp coat_of(const PartLimits& limits, const std::optional<BuildUp>& given, std::string_view name) {
    if (!limits.before_coating()) {
        return given.value_or(BuildUp{});
    }
    const BuildUp& carried = limits.coating->build_up;
    if (!given) {
        return carried;
    }
    if (given->min_um != carried.min_um || given->max_um != carried.max_um) {
        const auto film = [&](const BuildUp& coat) {
            return spell_span(coat.min_um, coat.max_um, FigureKind::film, system_of(limits.inch));
        };
        throw DomainError(fmt::format(
            "{0}: {1} has limits for a coating of {2} a surface, got {3}: leave {0} out, or give the limits "
            "of the class",
            name, limits.title(), film(carried), film(*given)));
    }
    return *given;
}

std::vector<EvidenceText> evidence_of(const Catalogue& catalogue, const BuildUp& coat) {
    constexpr std::array<std::string_view, 1> kFigure{"build_up_um"};
    constexpr std::size_t kMost = 4;
    Evidence<kMost> evidence;
    note_build_up(catalogue, coat, 0, evidence);
    std::vector<EvidenceText> out;
    append_evidence(evidence.items(), kFigure, catalogue, out);
    return out;
}

std::string roomier_class(const PartLimits& before) {
    const std::string& position = before.coating->position;
    if (position.empty() || before.inch) {
        return position;
    }
    std::string out;
    bool within = false;  // letters of the class's own position
    for (const char each : class_of(before.part->thread, before.side)) {
        const bool letter = std::isalpha(static_cast<unsigned char>(each)) != 0;
        if (letter && !within) {
            out += position;
        } else if (!letter) {
            out += each;
        }
        within = letter;
    }
    return out;
}

double whole_films(double most_um, bool inch) {
    constexpr double kInchStepUm = 0.254;
    constexpr double kStepUm = 0.1;
    constexpr double kSame = 1e-6;
    const double step = inch ? kInchStepUm : kStepUm;
    return std::floor(most_um / step + kSame) * step;
}

}  // namespace halfnut::threads
