// The question of an adjuster or a turnbuckle: designations and metals become sizes and strengths.

#include "halfnut/threads/adjuster_questions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "answering.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/joint.hpp"

namespace halfnut::threads {

namespace {

using material::AlloyRow;
using std::string_view;

constexpr const Argument& range(string_view key) {
    return range_in(kAdjusterArguments, key);
}
constexpr const Argument& end_range(string_view key) {
    return range_in(kAdjusterEndArguments, key);
}

// NOLINTBEGIN(bugprone-macro-parentheses)

// ---- what is asked ----------------------------------------------------------------------------------------

constexpr string_view kExternal =
    "External thread by its designation, or its limits: of the tube, or of the rod in a body. Any parallel "
    "form; the two ends may be of unlike ones.";
constexpr string_view kInternal = "Internal thread, likewise: of the base, or of the body.";

#define SIZE(Ask, path, member, about) HALFNUT_ASKED(Ask, path sizes.member, about).in(end_range(#member))
#define END(Ask, path)                                                                                      \
    SIZE(Ask, path, thread_length_mm, "External thread from its end, run-out included."),                   \
        SIZE(Ask, path, base_length_mm, "Internal thread from its mouth, run-out included.")                \
            .called("base_thread"),                                                                         \
        SIZE(Ask, path, internal_outside_mm,                                                                \
             "Outside of the base; of the body where that is the middle member.")                           \
            .called("base_outside"),                                                                        \
        SIZE(Ask, path, outer_length_mm, "From the base's joint to its mouth; of a rod to its end.")        \
            .called("base_reach"),                                                                          \
        HALFNUT_ASKED(Ask, path bore_mm,                                                                    \
                      "Bore of the middle member: of a tube also under its external threads, of a body "    \
                      "its plain part alone.")                                                              \
            .in(range("middle_bore_mm").called("bore_mm"))                                                  \
            .usually("solid, and the answer says so"),                                                      \
        HALFNUT_ASKED(Ask, path rod_bore_mm, "Bore of the rods of a body.")                                 \
            .in(range("middle_bore_mm").called("rod_bore_mm"))                                              \
            .usually("solid, and the answer says so"),                                                      \
        SIZE(Ask, path, chamfer_mm, "Chamfer at the end of the external thread, along the axis.")           \
            .usually("none"),                                                                               \
        SIZE(Ask, path, run_out_mm, "Run-out of the external thread.").usually("none"),                     \
        SIZE(Ask, path, countersink_mm, "Countersink at the mouth of the internal thread, along the axis.") \
            .usually("none"),                                                                               \
        SIZE(Ask, path, base_run_out_mm, "Run-out at the far end of the internal thread.").usually("none"), \
        SIZE(Ask, path, room_mm, "How far the external end may go in past the mouth.")                      \
            .usually("to the run-out of the internal thread"),                                              \
        HALFNUT_ASKED(Ask, path base_alloy, "Alloy of the base, or of the rod in a body.")                  \
            .or_a("Alloy")                                                                                  \
            .listing(&material::alloy_names)                                                                \
            .usually("that of the middle member"),                                                          \
        HALFNUT_ASKED(Ask, path base_form, "Form that the base or the rod is made of.").usually("bar"),     \
        SIZE(Ask, path, nut_thickness_mm, "Thickness of the lock nut.").called("lock_nut").usually("none"), \
        SIZE(Ask, path, nut_outside_mm, "Width of the lock nut across flats."),                             \
        SIZE(Ask, path, nut_countersink_mm, "Countersink of each face of the lock nut.").usually("none"),   \
        SIZE(Ask, path, rule_diameters, "Least engagement by rule, in nominal diameters.")                  \
            .usually("by practice for the internal part's metal")

constexpr std::array kSecondAsked{
    HALFNUT_ASKED(AdjusterEndAsk, external, kExternal).or_a("Part").placed(),
    HALFNUT_ASKED(AdjusterEndAsk, internal, kInternal).or_a("Part").placed(),
    END(AdjusterEndAsk, ),
};

std::span<const AskedRow> second_rows() {
    return kSecondAsked;
}

/// Sizes that a second end may have of its own.
constexpr std::array kOwnSizes{
    &AdjusterEnd::thread_length_mm, &AdjusterEnd::base_length_mm,  &AdjusterEnd::internal_outside_mm,
    &AdjusterEnd::outer_length_mm,  &AdjusterEnd::chamfer_mm,      &AdjusterEnd::run_out_mm,
    &AdjusterEnd::countersink_mm,   &AdjusterEnd::base_run_out_mm, &AdjusterEnd::room_mm,
    &AdjusterEnd::nut_thickness_mm, &AdjusterEnd::nut_outside_mm,  &AdjusterEnd::nut_countersink_mm,
    &AdjusterEnd::rule_diameters};

/// A second end as it is given: NaN and empty where it is like the first.
void take_second(void* asked, const Given& given, const AskedRow& row, Asking& asking) {
    AdjusterEndAsk own{.rod_bore_mm = kNaN, .base_form = ""};
    for (double AdjusterEnd::* const size : kOwnSizes) {
        own.sizes.*size = kNaN;
    }
    if (take_parts(&own, given, row, asking)) {
        static_cast<AdjusterAsk*>(asked)->second = std::move(own);
    }
}

/// The first end with what differs at the second.
AdjusterEndAsk merged(AdjusterEndAsk first, const AdjusterEndAsk& own) {
    const auto take_over = [](auto& to, const auto& from, bool is_given) {
        if (is_given) {
            to = from;
        }
    };
    take_over(first.external, own.external, own.external.is.index() != 0);
    take_over(first.internal, own.internal, own.internal.is.index() != 0);
    for (double AdjusterEnd::* const size : kOwnSizes) {
        take_over(first.sizes.*size, own.sizes.*size, !std::isnan(own.sizes.*size));
    }
    take_over(first.bore_mm, own.bore_mm, !std::isnan(own.bore_mm));
    take_over(first.rod_bore_mm, own.rod_bore_mm, !std::isnan(own.rod_bore_mm));
    take_over(first.base_alloy, own.base_alloy, !own.base_alloy.empty());
    take_over(first.base_form, own.base_form, !own.base_form.empty());
    return first;
}

#define ASKED(member, about) HALFNUT_ASKED(AdjusterAsk, member, about)
/// Rows whose member is needed.
constexpr auto kEndAsked = [] {
    std::array rows{END(AdjusterAsk, first.)};
    for (std::size_t i = 0; i < 4; ++i) {
        rows[i] = rows[i].required().named();
    }
    return rows;
}();
#undef END
#undef SIZE
constexpr std::array kHeadAsked{
    ASKED(first.external, kExternal).or_a("Part").required().leads(),
    ASKED(first.internal, kInternal).or_a("Part").required(),
    ASKED(whole.middle_length_mm, "Overall length of the middle member; of an adjuster to its far joint.")
        .in(range("middle_length_mm"))
        .called("length_of_tube")
        .required()
        .named(),
    ASKED(whole.middle_outside_mm, "Plain outside diameter of the middle member.")
        .in(range("middle_outside_mm"))
        .called("tube_diameter")
        .required()
        .named(),
    ASKED(alloy, "Alloy of the middle member.")
        .or_a("Alloy")
        .listing(&material::alloy_names)
        .required()
        .named(),
    ASKED(form, "Form that the middle member is made of: drawn tube, extrusion, bar.").required().named(),
    ASKED(whole.push_n, "Largest push along the axis; 0 N where there is none.")
        .in(range("push_n"))
        .with_unit()
        .required()
        .named(),
    ASKED(whole.pull_n, "Largest pull along the axis; 0 N where there is none.")
        .in(range("pull_n"))
        .with_unit()
        .required()
        .named(),
    ASKED(whole.factor_of_safety, "Factor of safety. There is no usual one: it is asked for.")
        .in(range("factor_of_safety"))
        .required()
        .named(),
};
constexpr AskedRow kSecondRow = [] {
    AskedRow out{
        .name = "second",
        .key = "second",
        .kind = AskedKind::object,
        .about =
            "Second end of a turnbuckle: what differs from the first, by the names of these arguments; two "
            "texts are its external and its internal thread."};
    out.kin = "End";
    out.parts = &second_rows;
    out.take = &take_second;
    return out;
}();
constexpr std::array kTailAsked{
    ASKED(nut_alloy, "Alloy of the lock nut.")
        .or_a("Alloy")
        .listing(&material::alloy_names)
        .usually("that of the middle member"),
    ASKED(nut_form, "Form that the lock nut is made of.").usually("bar"),
    ASKED(coating,
          "Coating of all parts: its name, or what it adds to each surface: \"0.0002 in\", \"anodise II "
          "black 15 um\".")
        .or_a("BuildUp")
        .usually("none"),
    ASKED(base_coating, "Coating of the internal parts, where it is another.").or_a("BuildUp"),
    ASKED(friction, "Friction in thread and nut, its least and greatest: 0.10-0.16.")
        .or_a("Friction")
        .usually("that of the lubricant"),
    ASKED(lubricant, "Lubricant to take the friction from.").usually("dry"),
    ASKED(flats, "Flats of the wrench that turns the middle member.").in(range("flats")).usually("6"),
    ASKED(whole.groove_width_mm, "Width of the witness groove; its full form is lost where it is engaged.")
        .in(range("groove_width_mm"))
        .usually("none"),
    [] {
        AskedRow out = ASKED(ends, "How the joints hold the column, the first and the second one.");
        out.kind = AskedKind::list;
        out.choices = kSpellings<ColumnEnd>;
        return out.usually("both pinned");
    }(),
    ASKED(whole.middle, "Middle member: a tube with external threads, or a body with internal ones."),
};
#undef ASKED
constexpr auto kAsked = [] {
    std::array<AskedRow, kHeadAsked.size() + kEndAsked.size() + 1 + kTailAsked.size()> out{};
    auto at = std::copy(kHeadAsked.begin(), kHeadAsked.end(), out.begin());
    at = std::copy(kEndAsked.begin(), kEndAsked.end(), at);
    *at++ = kSecondRow;
    std::copy(kTailAsked.begin(), kTailAsked.end(), at);
    return out;
}();

// ---- what is answered -------------------------------------------------------------------------------------

#define FIGURE(member, about) HALFNUT_FIGURE(AdjusterEndFound, member, about)
#define METAL(part, of, about)                                                      \
    FIGURE(of.strength.tensile_mpa, "Tensile strength of the " about ", at least.") \
        .called(part "_tensile_mpa")                                                \
        .always(),                                                                  \
        FIGURE(of.strength.yield_mpa, "Yield strength of the " about ", at least.") \
            .called(part "_yield_mpa"),                                             \
        FIGURE(of.youngs_modulus_gpa, "Young's modulus of the " about ".")          \
            .called(part "_youngs_modulus_gpa")                                     \
            .always(),                                                              \
        FIGURE(of.expansion_um_m_k, "Expansion of the " about " for each degree.")  \
            .called(part "_expansion_um_m_k")
constexpr std::array kEndFigures{
    FIGURE(external, "External part."),
    FIGURE(internal, "Internal part."),
    FIGURE(unit, "Unit of the external part."),
    FIGURE(given.thread_length_mm, "External thread from its end.").always(),
    FIGURE(given.chamfer_mm, "Chamfer of the external thread.").always(),
    FIGURE(given.run_out_mm, "Run-out of the external thread.").always(),
    FIGURE(given.base_length_mm, "Internal thread from its mouth.").always(),
    FIGURE(given.countersink_mm, "Countersink at the mouth.").always(),
    FIGURE(given.base_run_out_mm, "Run-out of the internal thread.").always(),
    FIGURE(given.room_mm, "How far the external end may go in past the mouth, where that was given."),
    FIGURE(given.internal_outside_mm, "Outside of the internal part.").always(),
    FIGURE(given.outer_length_mm, "From the outer member's joint to its mouth, or to its end.").always(),
    FIGURE(given.nut_thickness_mm, "Thickness of the lock nut; 0 without one.").always(),
    FIGURE(given.nut_countersink_mm, "Countersink of each face of the lock nut.").always(),
    FIGURE(given.nut_outside_mm, "Width of the lock nut across flats."),
    FIGURE(given.external_bore_mm, "Bore under the external thread; 0 where it is solid.").always(),
    FIGURE(given.outer_outside_mm, "Outside of the outer member.").always(),
    FIGURE(given.outer_bore_mm, "Bore of the outer member; 0 where it is solid.").always(),
    FIGURE(given.rule_diameters, "Least engagement by rule, in nominal diameters.").always(),
    FIGURE(given.thread_friction_low, "Least friction in the thread.").always(),
    FIGURE(given.thread_friction_high, "Greatest friction in the thread.").always(),
    FIGURE(given.bearing_friction_low, "Least friction under the lock nut.").always(),
    FIGURE(given.bearing_friction_high, "Greatest friction under the lock nut.").always(),
    METAL("external", external_metal, "external part"),
    METAL("internal", internal_metal, "internal part"),
    METAL("nut", given.nut, "lock nut"),
    FIGURE(given.nut.strength.shear_mpa,
           "Shear strength of the lock nut, at least; none where no row has it.")
        .called("nut_shear_mpa"),
    FIGURE(end.lead_mm, "Lead: above 0 right-hand, below 0 left-hand.").always(),
    FIGURE(end.engagement_for_load_mm,
           "Full form that bears the load of thread_load_n, which has the factor of safety.")
        .always(),
    FIGURE(end.engagement_full_strength_mm, "Full form at which a section breaks before a thread strips.")
        .always(),
    FIGURE(end.engagement_rule_mm, "Full form by rule.").always(),
    FIGURE(end.engagement_least_mm, "Least full form: the greater of that for the load and that by rule.")
        .always(),
    FIGURE(end.insertion_max_mm, "Greatest insertion, from the mouth to the external part's end.").always(),
    FIGURE(end.insertion_min_mm, "Least insertion.").always(),
    FIGURE(end.insertion_min_strength_mm, "Least insertion, were strength the only rule.").always(),
    FIGURE(end.insertion_min_rule_mm, "Least insertion, were engagement by rule the only one.").always(),
    FIGURE(end.engagement_max_mm, "Full form at the greatest insertion.").always(),
    FIGURE(end.groove_mm, "From the external part's end to the far edge of the witness groove.").always(),
    FIGURE(groove_under, "What the groove comes out of when it is out too far: lock nut or mouth."),
    FIGURE(end.pitch_clearance_min_mm, "Least clearance at the pitch diameter, coated.").always(),
    FIGURE(end.pitch_clearance_max_mm, "Greatest clearance at the pitch diameter, coated.").always(),
    FIGURE(end.crest_clearance_max_mm, "Greatest clearance at the crests."),
    FIGURE(end.axial_play_min_mm, "Least end play.").always(),
    FIGURE(end.axial_play_max_mm, "Greatest end play.").always(),
    FIGURE(end.pitch_diameter_mm, "Greatest pitch diameter of the external part.").always(),
    FIGURE(end.external_area_mm2, "Stress area of the external part, less its bore.").always(),
    FIGURE(end.external_root_mm, "Root diameter of the external part.").always(),
    FIGURE(end.internal_area_mm2, "Section of the internal part at the root of its thread.").always(),
    FIGURE(end.internal_root_mm, "Root diameter of the internal part.").always(),
    FIGURE(end.external_shear_area_mm2_mm, "Shear area of the external thread for a length of one.").always(),
    FIGURE(end.internal_shear_area_mm2_mm, "Shear area of the internal thread for a length of one.").always(),
    FIGURE(end.external_shear_mpa, "Shear strength of the external part.").always(),
    FIGURE(end.internal_shear_mpa, "Shear strength of the internal part.").always(),
    FIGURE(end.external_strip_n_mm, "Load that strips each millimetre of the external thread.").always(),
    FIGURE(end.internal_strip_n_mm, "Load that strips each millimetre of the internal thread.").always(),
    FIGURE(end.external_section_n, "Load that yields the external section.").always(),
    FIGURE(end.internal_section_n, "Load that yields the internal section.").always(),
    FIGURE(end.preload_least_n, "Least preload of the lock nut that keeps the joint tight."),
    FIGURE(end.preload_max_n, "Preload at the torque where friction is least."),
    FIGURE(end.torque_nm, "Torque that brings the least preload where friction is greatest."),
    FIGURE(end.loosen_nm, "Least torque that turns the lock nut back."),
    FIGURE(end.thread_load_n, "Load that the least engagement is for.").always(),
    FIGURE(end.nut_least_mm, "Thickness of the lock nut at which its thread bears preload and push."),
    FIGURE(end.nut_rule_mm, "Thickness of the lock nut by rule: half the diameter."),
    FIGURE(end.preload_change_n_k, "Most that the preload changes for each degree.")
        .called("preload_change_n_k"),
    FIGURE(end.sizes.external_major_min_mm, "Least major diameter of the external part.").always(),
    FIGURE(end.sizes.external_pitch_min_mm, "Least pitch diameter of the external part.").always(),
    FIGURE(end.sizes.internal_minor_max_mm, "Greatest minor diameter of the internal part.").always(),
    FIGURE(end.sizes.internal_pitch_max_mm, "Greatest pitch diameter of the internal part.").always(),
    FIGURE(end.sizes.diameter_mm, "Nominal diameter.").always(),
    FIGURE(end.sizes.pitch_mm, "Axial pitch.").always(),
    FIGURE(end.half_angle_deg, "Between a flank and a plane across the axis.").always(),
    HALFNUT_RECORD(AdjusterEndFound, external_cut, kPartLimitsRecord,
                   "Limits to cut the external part to, before any coating."),
    HALFNUT_RECORD(AdjusterEndFound, internal_cut, kPartLimitsRecord,
                   "Limits to cut the internal part to, before any coating."),
    HALFNUT_RECORD(AdjusterEndFound, wires, kWiresRecord, "What to read over wires on the external part."),
    HALFNUT_RECORD(AdjusterEndFound, hole, kTappingRecord, "The drill before tapping the internal thread."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef METAL
#undef FIGURE
constexpr std::array kAdjusterEndSays{
    SaidRow{"engage",
            "{engagement_least_mm} of full form or more: {engagement_for_load_mm} by strength, "
            "{engagement_rule_mm} by rule, {engagement_full_strength_mm} for a section to break first"},
    SaidRow{"groove", "{groove_mm} from the end: past the {groove_under} it is out too far"},
    SaidRow{"lock nut", "{torque_nm} holds at least {preload_least_n}, at most {preload_max_n}"},
    SaidRow{"", "thickness {nut_least_mm} or more by strength, {nut_rule_mm} by rule"},
};
constexpr RecordRow kEndRecord{
    "AdjusterEnd",
    "One threaded end: what it is cut to, and what holds there.",
    kEndFigures,
    {},
    {"{external} in {internal}: {engagement_least_mm} of full form or more", kAdjusterEndSays}};

#define FIGURE(member, about) HALFNUT_FIGURE(AdjusterStateFound, member, about)
constexpr std::array kStateFigures{
    FIGURE(unit, "Unit of the adjuster."),
    FIGURE(at.turns, "Turns from the shortest safe length.").always(),
    FIGURE(at.length_mm, "Length between the joints.").always(),
    FIGURE(at.insertion_mm[0], "Insertion of the first end.").called("first_insertion_mm").always(),
    FIGURE(at.insertion_mm[1], "Insertion of the second end.").called("second_insertion_mm"),
    FIGURE(at.engagement_mm[0], "Full form engaged at the first end.").called("first_engagement_mm").always(),
    FIGURE(at.engagement_mm[1], "Full form engaged at the second end.").called("second_engagement_mm"),
    FIGURE(at.axial_play_min_mm, "Least end play of both ends together, lock nuts slack.").always(),
    FIGURE(at.axial_play_max_mm, "Greatest end play of both ends together, lock nuts slack.").always(),
    FIGURE(at.tilt_max_deg[0], "Greatest lean at the first end, either way, lock nuts slack.")
        .called("first_tilt_deg")
        .always(),
    FIGURE(at.tilt_max_deg[1], "Greatest lean at the second end.").called("second_tilt_deg"),
    FIGURE(tilt_max_deg, "Greatest lean at either end.").always(),
    FIGURE(at.pull_n, "Pull at which the weakest element gives way, without a factor of safety.").always(),
    FIGURE(at.push_n, "Push at which it does.").always(),
    FIGURE(at.elastic_load_n, "Push that buckles it elastically, its ends ideal.").always(),
    FIGURE(at.column_n, "Push that it bears as a column.").always(),
    FIGURE(pull_element, "What gives way under the pull."),
    FIGURE(push_element, "What gives way under the push."),
    FIGURE(told, "What a person should know."),
};
#undef FIGURE
constexpr RecordRow kStateRecord{
    "AdjusterState",
    "An adjuster wound out by some turns.",
    kStateFigures,
    {},
    {"{length_mm}: pull {pull_n} ({pull_element}), push {push_n} ({push_element}), before the factor", {}}};

#define FIGURE(member, about) HALFNUT_FIGURE(AdjusterAnswer, member, about)
constexpr std::array kFigures{
    FIGURE(form, "Adjuster, or turnbuckle with its hands."),
    FIGURE(whole.request.middle, "Middle member: tube or body."),
    FIGURE(unit, "Unit of the first end."),
    FIGURE(whole.request.middle_length_mm, "Overall length of the middle member.").always(),
    FIGURE(whole.request.middle_outside_mm, "Its plain outside diameter.").always(),
    FIGURE(whole.request.middle_bore_mm, "Its bore; 0 where it is solid.").always(),
    FIGURE(whole.request.push_n, "Largest push.").always(),
    FIGURE(whole.request.pull_n, "Largest pull.").always(),
    FIGURE(whole.request.factor_of_safety, "Factor of safety.").always(),
    FIGURE(whole.request.flats, "Flats of the wrench.").always(),
    FIGURE(whole.request.groove_width_mm, "Width of the witness groove.").always(),
    FIGURE(whole.request.first_end, "How the first joint holds the column."),
    FIGURE(whole.request.second_end, "How the second joint holds it."),
    FIGURE(whole.request.middle_material.strength.tensile_mpa, "Tensile strength of the middle member.")
        .called("middle_tensile_mpa")
        .always(),
    FIGURE(whole.request.middle_material.strength.yield_mpa, "Yield strength of the middle member.")
        .called("middle_yield_mpa"),
    FIGURE(whole.request.middle_material.strength.shear_mpa,
           "Shear strength of the middle member; none where no row has it.")
        .called("middle_shear_mpa"),
    FIGURE(whole.request.middle_material.youngs_modulus_gpa, "Young's modulus of the middle member.")
        .called("middle_youngs_modulus_gpa")
        .always(),
    FIGURE(whole.request.middle_material.expansion_um_m_k, "Expansion of the middle member for each degree.")
        .called("middle_expansion_um_m_k"),
    FIGURE(whole.travel_per_turn_mm, "Change of length for a turn of the middle member.").always(),
    FIGURE(whole.travel_per_flat_mm, "Change of length for a flat of the wrench.").always(),
    FIGURE(whole.turns, "Turns from the shortest safe length to the longest.").always(),
    FIGURE(whole.travel_mm, "From the shortest safe length to the longest.").always(),
    FIGURE(whole.shortest_mm, "Shortest safe length between the joints.").always(),
    FIGURE(whole.longest_mm, "Longest safe length between the joints.").always(),
    FIGURE(whole.longest_strength_mm, "Longest length, were engagement by strength the only rule.").always(),
    FIGURE(whole.longest_rule_mm, "Longest length, were engagement by rule the only one.").always(),
    FIGURE(whole.growth_um_k, "Growth for each degree, half wound out."),
    FIGURE(whole.middle_section_n, "Load that yields the plain section of the middle member.").always(),
    FIGURE(whole.least_yield_load_n, "Least load that yields a section along the column.").always(),
    FIGURE(whole.end_factor, "What real joints leave of the ideal column: (K ideal / K for design)^2.")
        .always(),
    FIGURE(whole.factor_reached, "Least factor over the range, of the loads that are stated."),
    HALFNUT_RECORD(AdjusterAnswer, first, kEndRecord, "The first end."),
    HALFNUT_RECORD(AdjusterAnswer, second, kEndRecord, "The second end of a turnbuckle."),
    HALFNUT_RECORD(AdjusterAnswer, shortest, kStateRecord, "At the shortest safe length."),
    HALFNUT_RECORD(AdjusterAnswer, half, kStateRecord, "Half wound out."),
    HALFNUT_RECORD(AdjusterAnswer, longest, kStateRecord, "At the longest safe length."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kAdjusterSays{
    SaidRow{"travel", "{travel_per_flat_mm:both} a flat of {flats:g}; {form}"},
    SaidRow{"longest", "{longest_strength_mm} by strength, {longest_rule_mm} by rule: the lesser holds"},
    SaidRow{"=", "first", "[{second?}first end, ]"},
    SaidRow{"=", "second", "second end, "},
    SaidRow{"play",
            "nuts slack: {longest.axial_play_min_mm..longest.axial_play_max_mm}, up to "
            "{longest.tilt_max_deg:.2f} deg; tight: none under preload"},
    SaidRow{"shortest", "{shortest}"},
    SaidRow{"half", "{half}"},
    SaidRow{"longest", "{longest}"},
    SaidRow{"warmth", "grows {growth_um_k}"},
    SaidRow{"rests on", "{kinds}"},
};
constexpr RecordRow kAdjusterRecord{
    "Adjuster",
    "How far an adjuster or a turnbuckle may be wound out, and what it bears there.",
    kFigures,
    "shortest_mm longest_mm turns travel_per_turn_mm travel_per_flat_mm",
    {"{first.external}: wind {shortest_mm..longest_mm}, {turns:.2f} turns of {travel_per_turn_mm}; factor of "
     "safety {factor_of_safety:g}",
     kAdjusterSays, "travel, play"}};

// NOLINTEND(bugprone-macro-parentheses)

// ---- from the one to the other ----------------------------------------------------------------------------

/// The middle member's metal and the lock nut's, with what they rest on.
class Making {
   public:
    Making(const AdjusterAsk& asked, const Asking& asking, AdjusterAnswer& out)
        : asked_(asked), asking_(asking), catalogue_(asking.catalogue), out_(out) {}

    void make();

   private:
    [[nodiscard]] bool tube() const { return asked_.whole.middle == AdjusterMiddle::external; }
    AdjusterMaterial metal(const std::string& alloy, const std::string& form);
    AdjusterEndFound end(const AdjusterEndAsk& asked);
    void cut(const AdjusterEndAsk& asked, AdjusterEndFound& out) const;
    void rub(const AlloyRow& external, const AlloyRow& nut, AdjusterEnd& end);
    void rule(const AlloyRow& internal, double diameter, AdjusterEnd& end);
    [[nodiscard]] AdjusterStateFound state(double turns) const;
    void complete(std::size_t place, AdjusterEndFound& end) const;
    [[nodiscard]] std::string solid() const;

    const AdjusterAsk& asked_;
    const Asking& asking_;
    const Catalogue& catalogue_;
    AdjusterAnswer& out_;
    std::vector<Told> told_{};
    std::vector<EvidenceText> evidence_{};
};

AdjusterMaterial Making::metal(const std::string& alloy, const std::string& form) {
    const AlloyRow& row = material::find_alloy(catalogue_, alloy);
    MinimumStrengthAnswer least = minimum_strength({.alloy = alloy, .form = form}, asking_);
    append(evidence_, std::move(least.evidence));
    append(told_, std::move(least.told));
    if (std::isnan(row.youngs_modulus_gpa)) {
        throw NotTabulatedError(material::lacks_modulus(row, "stiffness of the tube"));
    }
    return {.strength = {least.found.tensile_mpa, least.found.yield_mpa, least.found.shear_mpa},
            .youngs_modulus_gpa = row.youngs_modulus_gpa,
            .expansion_um_m_k = row.expansion_um_m_k};
}

void refuse_unlike(const Catalogue& catalogue, const PartLimits& male, const PartLimits& female) {
    const bool form = male.by_form() != female.by_form() ||
                      (male.by_form() && form_name(catalogue, male) != form_name(catalogue, female));
    if (form || (male.by_form() && male.diameter_mm() != female.diameter_mm())) {
        throw DomainError(fmt::format("{} and {} are not one thread: {} differs", male.title(),
                                      female.title(), form ? "form" : "diameter"));
    }
}

/// The limits of both parts, those before coating, and what the core takes of them.
void Making::cut(const AdjusterEndAsk& asked, AdjusterEndFound& out) const {
    PartLimits male = limits_of(catalogue_, asked.external, Side::external);
    PartLimits female = limits_of(catalogue_, asked.internal, Side::internal);
    refuse_unlike(catalogue_, male, female);
    AdjusterEnd& end = out.given;
    end.external_build_up = coat_of(male, asked_.coating, "coating");
    end.internal_build_up =
        coat_of(female, asked_.base_coating ? asked_.base_coating : asked_.coating, "base_coating");
    const auto cut = [&](PartLimits& limits, const BuildUp& coat) {
        return LimitsAnswer{limits.coating ? std::move(limits) : before(catalogue_, limits, coat),
                            &catalogue_};
    };
    out.external = male.title();
    out.internal = female.title();
    out.unit = unit_of(male);
    out.external_cut = cut(male, end.external_build_up);
    out.internal_cut = cut(female, end.internal_build_up);
    const PartLimits& outer = out.external_cut.limits;
    const PartLimits& inner = out.internal_cut.limits;
    if (!outer.by_form()) {
        end.external = std::get<Thread>(outer.part->thread);
        end.internal = std::get<Thread>(inner.part->thread);
        return;
    }
    end.sized = SizedPair{.diameter_mm = outer.diameter_mm(),
                          .external = outer.sizes,
                          .internal = inner.sizes,
                          .external_name = outer.title(),
                          .internal_name = inner.title()};
    end.sized->external.build_up = end.external_build_up;
    end.sized->internal.build_up = end.internal_build_up;
}

/// Friction as it is given, else that of the lubricant on these metals.
void Making::rub(const AlloyRow& external, const AlloyRow& nut, AdjusterEnd& end) {
    FrictionAsked friction = asked_.friction;
    if (!friction.is_given()) {
        const ThreadFrictionRow& row = thread_friction(catalogue_, external, nut, asked_.lubricant);
        friction = {row.friction_low, row.friction_high};
        evidence_.push_back(as_tabulated("friction", row_ref(catalogue_.thread_friction, row), catalogue_));
    }
    end.thread_friction_low = end.bearing_friction_low = friction.low;
    end.thread_friction_high = end.bearing_friction_high = friction.high;
}

/// Engagement by practice, where no rule is given.
void Making::rule(const AlloyRow& internal, double diameter, AdjusterEnd& end) {
    if (!std::isnan(end.rule_diameters)) {
        return;
    }
    const EngagementPracticeRow& row = engagement_practice(catalogue_, internal, Loading::steady);
    end.rule_diameters = engagement_by_practice_mm(row, diameter) / diameter;
    EvidenceText& rests = evidence_.emplace_back(
        as_tabulated("engagement_rule_mm", row_ref(catalogue_.engagement_practice, row), catalogue_));
    rests.rule = "rule of practice";
}

AdjusterEndFound Making::end(const AdjusterEndAsk& asked) {
    AdjusterEndFound out{.given = asked.sizes};
    AdjusterEnd& end = out.given;
    cut(asked, out);
    const PartLimits& screw = out.external_cut.limits;
    end.external_bore_mm = tube() ? std::isnan(asked.bore_mm) ? 0.0 : asked.bore_mm : asked.rod_bore_mm;
    end.outer_outside_mm = tube() ? end.internal_outside_mm : screw.diameter_mm();
    end.outer_bore_mm = tube() ? 0.0 : end.external_bore_mm;
    const std::string& base = asked.base_alloy.empty() ? asked_.alloy : asked.base_alloy;
    const std::string& nut = asked_.nut_alloy.empty() ? asked_.alloy : asked_.nut_alloy;
    end.outer = metal(base, asked.base_form);
    end.nut = metal(nut, asked_.nut_form);
    const auto row = [&](const std::string& alloy) -> const AlloyRow& {
        return material::find_alloy(catalogue_, alloy);
    };
    const std::string& outer = tube() ? asked_.alloy : base;
    const std::string& inner = tube() ? base : asked_.alloy;
    rule(row(inner), screw.diameter_mm(), end);
    rub(row(outer), row(nut), end);
    if (screw.by_form()) {
        tell(told_, "adjuster_form_practice");
        const double holds = holding_friction(screw.sizes.starts * screw.sizes.pitch_mm,
                                              basic_pitch_mm(catalogue_, screw), screw.sizes.half_angle_deg);
        if (holds > end.thread_friction_low) {
            tell(told_, "adjuster_runs", {{"friction", fmt::format("{:.2f}", holds)}});
        }
    }
    append(told_, galling({outer, inner}, asking_).told);
    return out;
}

AdjusterStateFound Making::state(double turns) const {
    AdjusterStateFound out{.unit = out_.unit};
    (void)evaluate(out_.whole, turns, out.at);
    out.tilt_max_deg = std::fmax(out.at.tilt_max_deg[0], out.at.tilt_max_deg[1]);
    out.pull_element = element_text(out_.whole, out.at.pull_element, out.at.pull_end);
    out.push_element = element_text(out_.whole, out.at.push_element, out.at.push_end);
    return out;
}

/// What the core answers of an end, how its threads are measured and drilled.
void Making::complete(std::size_t place, AdjusterEndFound& end) const {
    const AdjusterMaterial& middle = out_.whole.request.middle_material;
    end.end = out_.whole.ends[place];
    end.groove_under = end.given.nut_thickness_mm > 0.0 ? "lock nut" : "mouth";
    end.external_metal = tube() ? middle : end.given.outer;
    end.internal_metal = tube() ? end.given.outer : middle;
    end.wires = wires({.thread = {end.external_cut.limits}}, asking_);
    end.hole = tapping_hole({.thread = {end.internal_cut.limits}}, asking_);
}

/// Which members are taken as solid; empty where each has a bore.
std::string Making::solid() const {
    const AdjusterRequest& request = out_.whole.request;
    std::string out = request.middle_bore_mm == 0.0 ? std::string(enum_name(request.middle)) : std::string();
    const auto rods = std::count_if(request.ends.begin(), request.ends.begin() + request.count,
                                    [](const AdjusterEnd& end) { return end.external_bore_mm == 0.0; });
    if (!tube() && rods > 0) {
        out += fmt::format("{}{}", out.empty() ? "" : " and ", rods == 2 ? "rods" : "rod");
    }
    return out;
}

void Making::make() {
    AdjusterRequest request = asked_.whole;
    if (tube() &&
        (asked_.first.rod_bore_mm != 0.0 || (asked_.second && !std::isnan(asked_.second->rod_bore_mm)))) {
        throw DomainError("rod_bore goes with middle='body': a tube's bore is bore");
    }
    if (!tube() && asked_.second && !std::isnan(asked_.second->bore_mm)) {
        throw DomainError("second: bore is the body's and the same for both ends; a rod's own is rod_bore");
    }
    request.middle_bore_mm = std::isnan(asked_.first.bore_mm) ? 0.0 : asked_.first.bore_mm;
    request.middle_material = metal(asked_.alloy, asked_.form);
    request.flats = asked_.flats;
    request.first_end = asked_.ends.first;
    request.second_end = asked_.ends.second;
    request.count = asked_.second ? 2 : 1;
    out_.first = end(asked_.first);
    request.ends[0] = out_.first.given;
    out_.unit = out_.first.unit;
    if (asked_.second) {
        out_.second = end(merged(asked_.first, *asked_.second));
        request.ends[1] = out_.second->given;
    }
    Adjuster& whole = out_.whole;
    whole = adjuster(catalogue_, request);
    complete(0, out_.first);
    if (out_.second) {
        complete(1, *out_.second);
        out_.form = whole.opposite_hands ? AdjusterForm::opposite_hands : AdjusterForm::equal_hands;
    }
    out_.shortest = state(0.0);
    out_.half = state(whole.turns / 2.0);
    out_.longest = state(whole.turns);
    for (const auto& [caution, spelling] : enum_names(AdjusterCaution{})) {
        if (whole.has(caution)) {
            tell(out_.told, spelling,
                 caution == AdjusterCaution::factor_short
                     ? Words{{"reached", fmt::format("{:.2g}", whole.factor_reached)}}
                     : Words{});
        }
    }
    append(out_.told, std::move(told_));
    if (std::string members = solid(); !members.empty()) {
        tell(out_.told, "adjuster_solid", {{"members", std::move(members)}});
    }
    tell(out_.told, "adjuster_rotating");
    tell(out_.told, "licensed");
    keep_once(out_.told);
    append_evidence(whole.evidence.items(), kAdjusterEvidence, catalogue_, out_.evidence);
    append(out_.evidence, std::move(evidence_));
}

}  // namespace

void take(ColumnEndsAsked& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    if (given.tag != Given::Tag::list || (given.items.size() != 2 && !given.items.empty())) {
        throw DomainError(
            fmt::format("{} must be two, the first and the second; got {}", row.name, given.shown()));
    }
    if (!given.items.empty()) {
        to.first = enum_names(ColumnEnd{})[take_choice(given.items[0], row)].first;
        to.second = enum_names(ColumnEnd{})[take_choice(given.items[1], row)].first;
    }
}

std::string element_text(const Adjuster& adjuster, AdjusterElement element, std::uint8_t end) {
    const bool of_an_end = element != AdjusterElement::middle_section && element != AdjusterElement::column;
    const string_view which = adjuster.request.count != 2 || !of_an_end ? ""
                              : end == 0                                ? ", first end"
                                                                        : ", second end";
    return fmt::format("{}{}", enum_name(element), which);
}

AdjusterAnswer adjuster(const AdjusterAsk& asked, const Asking& asking) {
    AdjusterAnswer out;
    Making(asked, asking, out).make();
    return out;
}

constinit const Question kAdjuster = [] {
    Question out = question<AdjusterAsk, AdjusterAnswer, &adjuster>(
        "threads", "adjuster",
        "How far a threaded tube or a turnbuckle may be wound out, its play, and what it bears.", kAsked,
        kAdjusterRecord);
    out.sources =
        "Handbook and textbook rules for stripping, columns and lock nuts; practice; rows that the evidence "
        "names.";
    out.example =
        "adjuster \"7/8-14 UNF-2A\" \"7/8-14 UNF-2B\" --second \"7/8-14 UNF-2A-LH\" \"7/8-14 UNF-2B-LH\" "
        "--thread-length 2in --base-thread 1.25in --bore 0.624in --length-of-tube 20in --tube-diameter 1in "
        "--alloy 6061-T6 --form \"drawn tube\" --base-outside 1.5in --base-reach 1.5in --lock-nut 0.375in "
        "--nut-outside 1.25in --push 90lbf --pull 60lbf --factor-of-safety 4 --rule-diameters 1";
    return out;
}();

}  // namespace halfnut::threads
