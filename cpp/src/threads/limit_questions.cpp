// The questions of limits of size: of a thread's parts, before a coating, of a part by its sizes alone.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "answering.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/series.hpp"
#include "limit_words.hpp"

namespace halfnut::threads {

namespace {

using std::string_view;

constexpr double kMicrometres = 1000.0;  // in a millimetre
constexpr std::size_t kSizes = 6;

const ThreadLimits* own_of(const PartLimits& limits) {
    return std::get_if<ThreadLimits>(&limits.standard);
}
const FormLimits* standard_of_form(const PartLimits& limits) {
    return std::get_if<FormLimits>(&limits.standard);
}
const FormThread* form_of(const PartLimits& limits) {
    return limits.part ? std::get_if<FormThread>(&limits.part->thread) : nullptr;
}

// ---- what is answered -------------------------------------------------------------------------------------

double native(const PartLimits& limits, double mm) {
    return limits.inch ? mm / kInchMm : mm;
}

/// A tolerance in the standard's own unit, counted in places of an inch or in micrometres; 0: none set.
double in_own_unit(std::int32_t value, bool inch, double places) {
    return value == 0 ? kNaN : value / (inch ? places : kMicrometres);
}

double pitch_tolerance(const PartLimits& limits) {
    const ThreadLimits* const own = own_of(limits);
    const FormLimits* const form = standard_of_form(limits);
    return own != nullptr    ? own->pitch_tolerance / (own->inch() ? 1e6 : 1e3)
           : form != nullptr ? form->pitch_tolerance
                             : native(limits, limits.pitch_tolerance_mm);
}

double allowance(const PartLimits& limits) {
    const ThreadLimits* const own = own_of(limits);
    const FormLimits* const form = standard_of_form(limits);
    return own != nullptr    ? std::abs(own->deviation / (own->inch() ? 1e4 : 1e3))
           : form != nullptr ? form->allowance
                             : native(limits, limits.allowance_mm);
}

double basic_minor_mm(const LimitsAnswer& answer) {
    const PartLimits& limits = answer.limits;
    if (const FormThread* const form = form_of(limits)) {
        return basic_minor_diameter_mm(*answer.catalogue, *form);
    }
    return limits.part ? BasicMinorDiameter::compute(limits.diameter_mm(), limits.sizes.pitch_mm) : kNaN;
}

double root_radius_mm(const LimitsAnswer& answer) {
    const FormThread* const form = form_of(answer.limits);
    return form == nullptr ? 0.0
                           : form_row(*answer.catalogue, *form).root_radius * answer.limits.sizes.pitch_mm;
}

double crest_flat_mm(const LimitsAnswer& answer) {
    constexpr double kOfIso = 1.0 / 8.0;
    const FormThread* const form = form_of(answer.limits);
    const double share = form != nullptr      ? form_row(*answer.catalogue, *form).crest_flat
                         : answer.limits.part ? kOfIso
                                              : kNaN;
    return share * answer.limits.sizes.pitch_mm;
}

double lead_mm(const PartLimits& limits) {
    return limits.sizes.starts * limits.sizes.pitch_mm;
}

std::string spelled_film(const PartLimits& limits, double um) {
    return spell(um, FigureKind::film, system_of(limits.inch));
}

/// What the other decimal rule of Unified threads gives, where that differs.
void tell_other_rule(std::vector<Told>& out, const LimitsAnswer& answer) {
    const PartLimits& own = answer.limits;
    if (own.by_form() || !own.inch || (own.coating && own.coating->way == PrecoatWay::deducted)) {
        return;
    }
    const UnifiedRule rule =
        own.options.rule == UnifiedRule::printed ? UnifiedRule::formula : UnifiedRule::printed;
    const PartLimits other =
        limits(*answer.catalogue, *own.part, {.rule = rule, .engagement_mm = own.options.engagement_mm});
    std::string differences;
    for (std::size_t i = 0; i < kSizes; ++i) {
        const bool reference = static_cast<Limit>(i) == Limit::minor_max && own.side == Side::external;
        if (!reference && own.in[i] != other.in[i] && !std::isnan(other.in[i])) {
            std::string name(kThreadLimitFigures[i]);
            std::replace(name.begin(), name.end(), '_', ' ');
            differences += fmt::format("{}{} {:.4f}", differences.empty() ? "" : ", ", name, other.in[i]);
        }
    }
    if (!differences.empty()) {
        tell(out, fmt::format("{}_rule_differs", enum_name(rule)), {{"differences", differences}});
    }
}

void tell_of_coating(std::vector<Told>& out, const LimitsAnswer& answer) {
    const PartLimits& own = answer.limits;
    const BeforeCoating& coat = *own.coating;
    if (own.by_form()) {
        tell(out, "form_precoat");
    }
    append(out, coating_cautions(coat.build_up, *answer.catalogue, own.side == Side::internal));
    if (own.by_form()) {
        return;
    }
    if (coat.way == PrecoatWay::deducted && coat.allowance_um > 0.0) {
        tell(out, "coat_allowance_short",
             {{"needs", spelled_film(own, coat.pitch_change_um)},
              {"has", spelled_film(own, coat.allowance_um)}});
    }
    constexpr double kGalvanizedMm = 8.0;
    constexpr double kGalvanizedPitchMm = 1.25;
    const CoatingRow* const row = coat.build_up.row(*answer.catalogue);
    if (row != nullptr && row->id == "hot dip zinc" &&
        (own.diameter_mm() < kGalvanizedMm || own.sizes.pitch_mm < kGalvanizedPitchMm)) {
        tell(out, "coat_galvanize_small");
    }
    if (coat.build_up.min_um < 0.0 && !coat.build_up.bare()) {
        tell(out, "coat_loses_metal");
    }
}

std::vector<Told> told(const LimitsAnswer& answer) {
    std::vector<Told> out;
    tell_of(out, *answer.catalogue, answer.limits);
    tell_other_rule(out, answer);
    if (answer.limits.coating) {
        tell_of_coating(out, answer);
    }
    return out;
}

/// A figure that a function makes of the answer when it is read.
template <auto Make>
constexpr FigureRow made(string_view key, string_view about) {
    using Made = std::remove_cvref_t<decltype(Make(std::declval<const LimitsAnswer&>()))>;
    return halfnut::detail::figure_row<Made, decltype([](const void* answer) {
                                           return Make(*static_cast<const LimitsAnswer*>(answer));
                                       })>(key, about);
}
#define OF(key, expression, about)                              \
    made<[](const LimitsAnswer& answer) {                       \
        [[maybe_unused]] const PartLimits& own = answer.limits; \
        return expression;                                      \
    }>(key, about)
#define COAT(member) (own.coating ? own.coating->member : kNaN)

constexpr std::array kGaugeRows{
    HALFNUT_FIGURE(GaugeAnswer, go_pitch, "Pitch diameter of the go thread gauge.").always(),
    HALFNUT_FIGURE(GaugeAnswer, go_crest, "Minor diameter of a go ring, major diameter of a go plug.")
        .always(),
    HALFNUT_FIGURE(GaugeAnswer, not_go_pitch, "Pitch diameter of the not-go thread gauge.").always(),
    HALFNUT_FIGURE(GaugeAnswer, plain_go, "Plain go gauge on the crest.").always(),
    HALFNUT_FIGURE(GaugeAnswer, plain_not_go, "Plain not-go gauge on the crest.").always(),
};
constexpr RecordRow kGaugeRecord{
    "ThreadGauges", "What the gauges for a part are made to, before gauge tolerances and wear.", kGaugeRows};

std::optional<GaugeAnswer> gauges(const LimitsAnswer& answer) {
    const ThreadLimits* const own = own_of(answer.limits);
    if (own == nullptr) {
        return std::nullopt;
    }
    const GaugeSizes sizes = gauge_sizes(*own);
    return GaugeAnswer{sizes.native(sizes.go_pitch), sizes.native(sizes.go_crest),
                       sizes.native(sizes.not_go_pitch), sizes.native(sizes.plain_go),
                       sizes.native(sizes.plain_not_go)};
}

constexpr std::array kLimitRows{
    OF("thread", (own.part ? format_any_thread(own.part->thread) : own.name),
       "Thread as it is designated; of sizes alone their title."),
    OF("side", own.side, "Which part."),
    OF("tolerance_class", (own.part ? class_of(own.part->thread, own.side) : std::string()),
       "Tolerance class; empty of sizes alone."),
    OF("unit", unit_of(own), "Unit of the standard."),
    OF("major_max", (own.inch ? own.in[0] : own.mm[0]),
       "Greatest major diameter, in the standard's own unit as it rounds."),
    OF("major_min", (own.inch ? own.in[1] : own.mm[1]),
       "Least major diameter, in the standard's own unit as it rounds."),
    OF("pitch_max", (own.inch ? own.in[2] : own.mm[2]),
       "Greatest pitch diameter, in the standard's own unit as it rounds.")
        .always(),
    OF("pitch_min", (own.inch ? own.in[3] : own.mm[3]),
       "Least pitch diameter, in the standard's own unit as it rounds.")
        .always(),
    OF("minor_max", (own.inch ? own.in[4] : own.mm[4]),
       "Greatest minor diameter, in the standard's own unit as it rounds; of an external Unified thread for "
       "reference."),
    OF("minor_min", (own.inch ? own.in[5] : own.mm[5]),
       "Least minor diameter, in the standard's own unit as it rounds; of an external metric thread that of "
       "the smallest root radius."),
    OF("major_max_mm", own.mm[0], "Greatest major diameter."),
    OF("major_min_mm", own.mm[1], "Least major diameter."),
    OF("pitch_max_mm", own.mm[2], "Greatest pitch diameter.").always(),
    OF("pitch_min_mm", own.mm[3], "Least pitch diameter.").always(),
    OF("minor_max_mm", own.mm[4], "Greatest minor diameter."),
    OF("minor_min_mm", own.mm[5], "Least minor diameter."),
    OF("major_max_in", own.in[0], "Greatest major diameter, in inches."),
    OF("major_min_in", own.in[1], "Least major diameter, in inches."),
    OF("pitch_max_in", own.in[2], "Greatest pitch diameter, in inches.").always(),
    OF("pitch_min_in", own.in[3], "Least pitch diameter, in inches.").always(),
    OF("minor_max_in", own.in[4], "Greatest minor diameter, in inches."),
    OF("minor_min_in", own.in[5], "Least minor diameter, in inches."),
    OF("title", own.title(), "How answers call the part."),
    OF("class_assumed", (own.part && own.part->class_assumed),
       "No class was given: the limits are those of the usual one."),
    OF("rule", own.options.rule, "Decimal rule of Unified threads."),
    OF("form", form_name(*answer.catalogue, own),
       "Name of the form, such as trapezoidal; empty of sizes alone."),
    OF("by_form", own.by_form(), "Of a form beside ISO metric and Unified, or of sizes alone."),
    OF("lead_screw", (form_of(own) != nullptr && form_of(own)->lead_screw), "A thread that moves a load."),
    OF("diameter_mm", own.diameter_mm(), "Nominal diameter; of sizes alone the largest that is known.")
        .always(),
    OF("pitch_mm", own.sizes.pitch_mm, "Axial pitch.").always(),
    OF("lead_mm", lead_mm(own), "Lead: how far it moves in a turn.").always(),
    OF("starts", own.sizes.starts, "Number of starts."),
    OF("hand", (own.sizes.left_hand ? Hand::left : Hand::right), "Hand of the helix."),
    OF("half_angle_deg", own.sizes.half_angle_deg, "Between a flank and a plane across the axis.").always(),
    OF("lead_angle_deg", lead_angle_deg(lead_mm(own), basic_pitch_mm(*answer.catalogue, own)),
       "Lead angle at the basic pitch diameter.")
        .always(),
    OF("holding_friction",
       holding_friction(lead_mm(own), basic_pitch_mm(*answer.catalogue, own), own.sizes.half_angle_deg),
       "Least friction at which a load does not turn the screw.")
        .always(),
    OF("basic_pitch_mm", basic_pitch_mm(*answer.catalogue, own), "Basic pitch diameter.").always(),
    OF("basic_minor_mm", basic_minor_mm(answer), "Basic minor diameter."),
    OF("root_radius_mm", root_radius_mm(answer),
       "Radius of a root that is round; 0 where it is flat, or free.")
        .always(),
    OF("crest_flat_mm", crest_flat_mm(answer), "Flat of the basic crest."),
    OF("allowance", allowance(own),
       "How far the external part stays below, or the internal part above, the basic size, in the standard's "
       "own unit."),
    OF("allowance_mm", own.allowance_mm, "The same."),
    OF("pitch_tolerance", pitch_tolerance(own),
       "Tolerance of the pitch diameter before any rounding of the limits, in the standard's own unit.")
        .always(),
    OF("pitch_tolerance_mm", own.pitch_tolerance_mm, "The same.").always(),
    OF("crest_tolerance",
       (own_of(own) == nullptr ? kNaN : in_own_unit(own_of(own)->crest_tolerance, own.inch, 1e6)),
       "Tolerance of the crest: major of an external part, minor of an internal one."),
    OF("root_radius_min",
       (own_of(own) == nullptr ? kNaN : in_own_unit(own_of(own)->root_radius_min, own.inch, 1e4)),
       "Least radius at the root of an external metric thread."),
    OF("major_min_unfinished",
       (own_of(own) == nullptr ? kNaN : own_of(own)->native(Limit::major_min_unfinished)),
       "Least major diameter of class 2A on unfinished hot-rolled material."),
    OF("unr_minor_max", (own_of(own) == nullptr ? kNaN : own_of(own)->native(Limit::unr_minor_max)),
       "Greatest minor diameter with the UNR root, for reference."),
    OF("engagement_mm", own.options.engagement_mm, "Length of engagement that was asked for."),
    OF("engagement_group",
       std::string(own_of(own) == nullptr ? string_view() : enum_name(own_of(own)->group)),
       "Group S, N or L of that length; empty where none was given."),
    FigureRow{.key = "gauges",
              .about =
                  "What the gauges are made to; of ISO metric and Unified threads, in the standard's own "
                  "unit.",
              .kind = AnsweredKind::record,
              .of = &kGaugeRecord,
              .is_always = false,
              .get =
                  [](const void* answer) {
                      const auto found = gauges(*static_cast<const LimitsAnswer*>(answer));
                      return record_value(kGaugeRecord, found ? &*found : nullptr);
                  }},
    OF("way", (own.coating ? std::optional(own.coating->way) : std::nullopt),
       "How limits to cut to before a coating come about: bare, held (the allowance holds the coating) or "
       "deducted."),
    OF("build_up_min_um", COAT(build_up.min_um), "Least that the coating still to come adds to a surface."),
    OF("build_up_max_um", COAT(build_up.max_um), "Most that it adds."),
    OF("allowance_um", COAT(allowance_um), "Allowance that there is for the coating."),
    OF("pitch_change_um", COAT(pitch_change_um), "Most that the coating changes the pitch diameter."),
    OF("greatest_build_up_um", COAT(greatest_build_up_um), "Greatest build-up that the allowance holds."),
    OF("go_after_pitch_mm", COAT(go_after_pitch_mm),
       "Pitch diameter that the coated part is gauged to go at."),
    OF("go_after_crest_mm", COAT(go_after_crest_mm), "Crest that the coated part is gauged to go at."),
    OF("not_go_after_pitch_mm", COAT(not_go_after_pitch_mm),
       "Pitch diameter that the coated part must not go at."),
    OF("not_go_after_crest_mm", COAT(not_go_after_crest_mm), "Other limit of the coated part's crest."),
    OF("position",
       (own.coating && !own.coating->position.empty() ? std::optional(own.coating->position) : std::nullopt),
       "The nearest position or class whose allowance would hold the coating."),
    OF("roomier_class",
       (own.coating && !roomier_class(own).empty() ? std::optional(roomier_class(own)) : std::nullopt),
       "The class of the same grades whose allowance holds the coating."),
    OF("remedies", remedies(own), "What keeps the class's own limits under the coating."),
    made_figure<&sizes_said>("sizes_said", "Every diameter's limits, the greater first, with their unit."),
    made_figure<&minor_for_reference>("minor_for_reference", "The minor diameter is for reference."),
    made_figure<&coating_said>("said", "How limits before a coating come about; empty of others."),
    made_figure<&printed_lines>("printed",
                                "Limits in both units, what sets them, what a coating makes of them."),
    made_figure<&class_taken>("class_taken",
                              "Classes that were not given and therefore taken; empty where none were."),
    made_figure<&profile_most>(
        "profile_most",
        "Corners of a turn's outline at most material: place along the axis and radius, one corner after "
        "the other, in the standard's own unit; none where a limit is not set."),
    made_figure<&profile_least>("profile_least", "The same at least material."),
    OF("told", told(answer), "What a person should know."),
    OF("evidence", evidence_of(*answer.catalogue, own), "What each figure rests on."),
    FigureRow{.key = "other",
              .about = "Limits of the internal part, where a designation means both.",
              .kind = AnsweredKind::record,
              .of = &kPartLimitsRecord,
              .is_always = false,
              .get =
                  [](const void* answer) {
                      const auto& other = static_cast<const LimitsAnswer*>(answer)->other;
                      return record_value(kPartLimitsRecord, other.get());
                  }},
};
#undef COAT
#undef OF
constexpr string_view kLimitsAbout =
    "Limits of size of one part of a thread of any form, or of a part by its sizes alone.";
constexpr string_view kLimitsLead =
    "major_max_mm major_min_mm pitch_max_mm pitch_min_mm minor_max_mm minor_min_mm";
constexpr Says kLimitsSays{
    .answer = "[{way?}before coating ]{title}: {sizes_said}",
    .first = "[{way?}before coating ]{title}: {sizes_said}[{minor_for_reference?} (minor for reference)]"};
constexpr RecordRow kLimitsRecord{"ThreadLimits", kLimitsAbout, kLimitRows, kLimitsLead, kLimitsSays};

LimitsAnswer answered(PartLimits limits, const Asking& asking) {
    return {.limits = std::move(limits), .catalogue = &asking.catalogue};
}

// ---- limits of a thread -----------------------------------------------------------------------------------

constexpr AskedRow engagement_row(AskedRow row) {
    return row.above(0).usually("normal");
}

#define ASKED(member, about) HALFNUT_ASKED(LimitsAsk, member, about)
constexpr std::array kLimitsAsked{
    ASKED(thread,
          "Thread by its designation: M10x1.5-6g, 1/4-20 UNC-2B, Tr40x7-7e, G1/2 A; one that names no class "
          "means both parts in their usual ones.")
        .or_a("Part")
        .required()
        .leads(),
    ASKED(side, "One part alone, of a designation that means both."),
    engagement_row(ASKED(engagement_mm,
                         "Length of engagement: it chooses the group of a metric thread, and outside the "
                         "usual lengths the tolerance of a Unified one; Whitworth tolerances depend on it.")),
    ASKED(rule,
          "Decimal rule of Unified threads: what printed tables and go gauges carry, or the standard's own "
          "since 2003."),
};
#undef ASKED

bool means_both(const AnyThread& thread) {
    const FormThread* const form = std::get_if<FormThread>(&thread);
    return has_class(thread, Side::external) == has_class(thread, Side::internal) &&
           (form == nullptr || !form->pipe());
}

// ---- before a coating -------------------------------------------------------------------------------------

#define ASKED(member, about) HALFNUT_ASKED(PrecoatAsk, member, about)
constexpr std::array kPrecoatAsked{
    ASKED(thread,
          "Thread by its designation, or limits of one part; without a class the usual one is meant. Limits "
          "are those of the coated part.")
        .or_a("Part")
        .required()
        .leads(),
    ASKED(build_up,
          "Coating: its name, or what it adds to each surface: \"8 um\", \"0.0002 in to 0.0003 in\", "
          "\"anodise II black 15 um\".")
        .or_a("BuildUp")
        .optioned("coating")
        .required(),
    ASKED(
        gauged_at,
        "Where the coated part is to gauge: at the basic size, as the standards say, or at its own class, so "
        "that the allowance is there after coating, too. Of ISO metric and Unified threads."),
    engagement_row(ASKED(engagement_mm, "Length of engagement.")),
    ASKED(rule, "Decimal rule of Unified threads: as tables and gauges are printed, or by formula."),
    ASKED(on, "Alloy; one that does not take the coating is refused.")
        .or_a("Alloy")
        .listing(&material::alloy_names),
};
#undef ASKED

/// What is asked beside limits that are there already, or of a form that has no use for it.
void refuse_idle(const PrecoatAsk& asked, const PartLimits& bare) {
    std::string idle;
    const auto add = [&](bool is_given, string_view name) {
        if (is_given) {
            idle += fmt::format("{}{}", idle.empty() ? "" : ", ", name);
        }
    };
    add(asked.gauged_at != GaugedAt{}, "gauged_at");
    add(asked.rule != UnifiedRule{}, "rule");
    if (bare.by_form() && !idle.empty()) {
        throw DomainError(fmt::format("{}: no standard of this form has a use for it", idle));
    }
}

// ---- by sizes alone ---------------------------------------------------------------------------------------

constexpr double kFlattestDeg = 3.0;
constexpr double kSteepestDeg = 60.0;
constexpr double kMostStarts = 100.0;

#define ASKED(member, about) HALFNUT_ASKED(PlainThreadAsk, member, about)
constexpr std::array kPlainAsked{
    ASKED(side, "Which part.").required().usually(""),
    ASKED(pitch, "Axial pitch, not the lead: a length, or threads per inch as \"5 tpi\".")
        .as_length()
        .required()
        .named(),
    ASKED(half_angle_deg, "Half of the thread angle: 27.5 for 55 degrees, 15 for 30, 14.5 for 29.")
        .from(kFlattestDeg, kSteepestDeg)
        .required()
        .named(),
    ASKED(pitch_diameter, "Pitch diameter: smallest and largest, or one size that was measured.")
        .as_length()
        .or_a("Sizes")
        .required()
        .named()
        .leads(),
    ASKED(major, "Major diameter, likewise; of an external part what a wire has to stand above.")
        .as_length()
        .or_a("Sizes"),
    ASKED(minor, "Minor diameter, likewise; of an internal part what a ball has to stand above.")
        .as_length()
        .or_a("Sizes"),
    ASKED(starts, "Number of starts.").from(1, kMostStarts).usually("1"),
    ASKED(hand, "Hand of the helix."),
    ASKED(title, "How answers call it.").usually("made up of the sizes"),
};
#undef ASKED

std::string size_of(double mm, bool inch) {
    return inch ? fmt::format("{:.5g} in", mm / kInchMm) : fmt::format("{:g} mm", mm);
}

}  // namespace

constinit const RecordRow kPartLimitsRecord{"ThreadLimits", kLimitsAbout,
                                            std::span(kLimitRows).first(kLimitRows.size() - 1), kLimitsLead,
                                            kLimitsSays};

std::string form_name(const Catalogue& catalogue, const PartLimits& limits) {
    if (const FormThread* const form = form_of(limits)) {
        return std::string(form->parallel_internal() ? "parallel pipe" : form_row(catalogue, *form).name);
    }
    return !limits.part ? "" : limits.inch ? "Unified" : "ISO metric";
}

void take(SizesAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    const bool pair = given.tag == Given::Tag::list;
    if (pair && given.items.size() != 2) {
        throw DomainError(fmt::format("{} takes one length, or the smallest and the largest; got {}",
                                      row.name, given.items.size()));
    }
    take(to.mm.min_mm, pair ? given.items[0] : given, row, asking);
    take(to.mm.max_mm, pair ? given.items[1] : given, row, asking);
    if (!(to.mm.min_mm > 0.0 && to.mm.min_mm <= to.mm.max_mm)) {
        throw DomainError(fmt::format("{} must be > 0, the smallest before the largest, got {} and {}",
                                      row.name, (pair ? given.items[0] : given).shown(),
                                      (pair ? given.items[1] : given).shown()));
    }
}

LimitsAnswer limits(const LimitsAsk& asked, const Asking& asking) {
    const LimitOptions options{.rule = asked.rule, .engagement_mm = asked.engagement_mm};
    const auto* const thread = std::get_if<AnyThread>(&asked.thread.is);
    const bool both = thread != nullptr && !asked.side && means_both(*thread);
    const auto of = [&](std::optional<Side> side) {
        return answered(limits_of(asking.catalogue, asked.thread, side, options), asking);
    };
    LimitsAnswer out = of(both ? Side::external : asked.side);
    if (both) {
        out.other = std::make_shared<const LimitsAnswer>(of(Side::internal));
    }
    return out;
}

LimitsAnswer precoat(const PrecoatAsk& asked, const Asking& asking) {
    if (const CoatingRow* const row = asked.build_up.row(asking.catalogue);
        row != nullptr && !asked.on.empty()) {
        const material::AlloyRow& metal = material::find_alloy(asking.catalogue, asked.on);
        require_takes(*row, metal.group, material::full_name(metal));
    }
    const PartLimits bare = limits_of(asking.catalogue, asked.thread, std::nullopt,
                                      {.rule = asked.rule, .engagement_mm = asked.engagement_mm});
    if (bare.coating) {
        throw DomainError(fmt::format("{}: these are limits before a coating already", bare.title()));
    }
    refuse_idle(asked, bare);
    return answered(precoat(asking.catalogue, bare, asked.build_up, asked.gauged_at), asking);
}

LimitsAnswer plain_thread(const PlainThreadAsk& asked, const Asking& asking) {
    const bool external = asked.side == Side::external;
    const SizeRange& pitch = asked.pitch_diameter.mm;
    const double crest = external ? asked.major.mm.min_mm : asked.minor.mm.min_mm;
    if (external ? crest <= pitch.max_mm : crest >= pitch.min_mm) {
        throw DomainError(fmt::format("the {} diameter must lie on the other side of the pitch diameter",
                                      external ? "major" : "minor"));
    }
    FitPart sizes;
    sizes.major = asked.major.mm;
    sizes.pitch = pitch;
    sizes.minor = asked.minor.mm;
    sizes.pitch_mm = asked.pitch.mm;
    sizes.starts = asked.starts;
    sizes.half_angle_deg = asked.half_angle_deg;
    sizes.left_hand = asked.hand == Hand::left;
    const std::string axial = asking.inch ? fmt::format("{:.4g} in", asked.pitch.mm / kInchMm)
                                          : fmt::format("{:g} mm", asked.pitch.mm);
    std::string title =
        !asked.title.empty()
            ? asked.title
            : fmt::format("{:g} degree {} thread, pitch {}, pitch diameter {}", 2.0 * asked.half_angle_deg,
                          enum_name(asked.side), axial, size_of(pitch.max_mm, asking.inch));
    return answered(sized_limits(sizes, asked.side, asking.inch, std::move(title)), asking);
}

constinit const Question kThreadLimits = [] {
    Question out = question<LimitsAsk, LimitsAnswer, &limits>(
        "threads", "limits", "Limits of size of a thread, of any form that is known.", kLimitsAsked,
        kLimitsRecord);
    out.sources =
        "ISO 965-1 on ISO 724 basic sizes; ASME B1.1; the standards of the other forms, as the rules of the "
        "evidence name.";
    out.example =
        "limits M10-6g\nlimits 1/4-20 --side internal --engagement 0.5in\nlimits Tr40x7-7H\n"
        "limits \"1 1/2-4 Acme-2G\" --side internal\nlimits \"G1/2 A\"";
    return out;
}();

constinit const Question kPrecoat = [] {
    Question out = question<PrecoatAsk, LimitsAnswer, &precoat>(
        "threads", "precoat", "Limits to cut a thread to so that it gauges once it is coated.", kPrecoatAsked,
        kLimitsRecord);
    out.sources = "ASME B1.1-2003, 7.4.2 and 7.5.2; the rows of coatings that the evidence names.";
    out.example =
        "precoat M10-6h \"8 um\"\nprecoat \"7/8-14 UNF-2B\" \"anodise II black 15 um\" --on 6061-T6";
    return out;
}();

constinit const Question kPlainThread = [] {
    Question out = question<PlainThreadAsk, LimitsAnswer, &plain_thread>(
        "threads", "plain_thread",
        "One part of a thread by its sizes, for forms that have no designation here.", kPlainAsked,
        kLimitsRecord);
    out.sources = "The sizes that were given; geometry.";
    out.example = "plain-thread external --pitch 4mm --half-angle 15 --pitch-diameter 17.9mm --major 20mm";
    return out;
}();

}  // namespace halfnut::threads
