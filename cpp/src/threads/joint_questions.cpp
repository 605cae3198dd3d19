// The questions of joints: what a metal bears, whether two gall, what a joint holds, how tight it is to be.

#include "halfnut/threads/joint_questions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>
#include <span>

#include "answering.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/core/words.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/column.hpp"
#include "halfnut/threads/forms.hpp"
#include "halfnut/threads/holes.hpp"
#include "halfnut/threads/profile.hpp"

namespace halfnut::threads {

namespace {

using material::AlloyRow;
using std::string_view;

constexpr double kNewtonMetre = 1000.0;  // N mm

EvidenceText tabulated(string_view figure, RowRef row, const Catalogue& catalogue, string_view rule) {
    EvidenceText out = as_tabulated(figure, row, catalogue);
    out.rule = rule;
    return out;
}

/// Say where a strength is recalled only.
void tell_memory(std::vector<Told>& told, std::span<const EvidenceText> strengths) {
    if (std::any_of(strengths.begin(), strengths.end(),
                    [](const EvidenceText& each) { return each.kind == "memory"; })) {
        tell(told, "strength_from_memory");
    }
}

/// An argument by another key than its member's; a length, a force, a torque or a stress is given with its
/// unit, and named without it.
constexpr AskedRow keyed(string_view key, AskedRow row) {
    const auto suffix = halfnut::detail::suffix_of(key);
    row.key = key;
    row.written = suffix.has_dimension;
    row.name = suffix.has_dimension ? key.substr(0, key.size() - suffix.suffix.size()) : key;
    return row;
}

// ---- minimum strengths ------------------------------------------------------------------------------------

#define ASKED(member, about) HALFNUT_ASKED(MinimumStrengthAsk, member, about)
constexpr std::array kMinimumAsked{
    ASKED(alloy, "Alloy in its condition.").or_a("Alloy").listing(&material::alloy_names).required(),
    ASKED(form,
          "Form it comes in: bar, casting, drawn tube, extrusion, plate or sheet; else the error lists "
          "those there are.")
        .placed(),
    ASKED(thickness_mm, "Diameter of a bar, thickness of plate, sheet or extrusion, wall of a tube.")
        .above(0)
        .usually("the least of the form is taken"),
    ASKED(grain, "How the load lies to the grain; else the least of the two is taken."),
};
#undef ASKED

#define FIGURE(member, about) HALFNUT_FIGURE(MinimumStrengthAnswer, member, about)
constexpr std::array kMinimumRows{
    FIGURE(alloy, "Alloy and condition."),
    FIGURE(form, "Form it comes in."),
    FIGURE(temper, "Tempers that the row is for."),
    FIGURE(found.tensile_mpa, "Tensile strength, at least.").always(),
    FIGURE(found.yield_mpa, "Yield strength, at least; none where the specification sets none."),
    FIGURE(found.shear_mpa, "Shear strength, at least."),
    FIGURE(found.bearing_mpa, "Bearing strength, at least."),
    FIGURE(found.over_mm, "Thickness above which the row serves."),
    FIGURE(found.up_to_mm, "Thickness up to which it serves."),
    FIGURE(grain, "How the load lies to the grain; empty where the least is taken or the row does not say."),
    FIGURE(found.least_of_grain, "The least of along and across the grain is taken."),
    FIGURE(found.weakest_of_several, "No thickness was given: the least of the form's rows is taken."),
    FIGURE(note, "What else the row says."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kMinimumSays{
    SaidRow{"shear", "{shear_mpa}"},
    SaidRow{"bearing", "{bearing_mpa}"},
    SaidRow{"temper", "{temper}"},
    SaidRow{"serves", "{over_mm!=0}over {over_mm:both}[{up_to_mm!=0} up to {up_to_mm:both}]"},
    SaidRow{"serves", "{over_mm=0}{up_to_mm!=0}up to {up_to_mm:both}"},
    SaidRow{"serves", "{over_mm!}{up_to_mm!=0}up to {up_to_mm:both}"},
    SaidRow{"grain", "{grain}"},
    SaidRow{"grain", "{grain!}{least_of_grain?}the least of along and across"},
    SaidRow{"note", "{note}"},
    SaidRow{"*rests on", "cited"},
};
constexpr RecordRow kMinimumRecord{"MinimumStrength",
                                   "Minimum strengths of an alloy in a form.",
                                   kMinimumRows,
                                   {},
                                   {"{alloy} {form}, at least: tensile {tensile_mpa}, yield "
                                    "[{yield_mpa}][{yield_mpa!}not set]",
                                    kMinimumSays, "shear, bearing"},
                                   true};

// ---- galling ----------------------------------------------------------------------------------------------

constexpr std::array kGallingAsked{
    HALFNUT_ASKED(GallingAsk, external_alloy, "Alloy of the external part.")
        .or_a("Alloy")
        .listing(&material::alloy_names)
        .required(),
    HALFNUT_ASKED(GallingAsk, internal_alloy, "Alloy of the internal part.")
        .or_a("Alloy")
        .listing(&material::alloy_names)
        .required(),
};
constexpr std::array kLubricantRows{
    HALFNUT_FIGURE(LubricantFriction, lubricant, "Lubricant, or dry."),
    HALFNUT_FIGURE(LubricantFriction, low, "Least friction.").always(),
    HALFNUT_FIGURE(LubricantFriction, high, "Greatest friction.").always(),
};
constexpr RecordRow kLubricantRecord{"LubricantFriction", "Friction with a lubricant.", kLubricantRows};
#define FIGURE(member, about) HALFNUT_FIGURE(GallingAnswer, member, about)
constexpr std::array kGallingRows{
    FIGURE(alloy, "Alloy of the external part."),
    FIGURE(other, "Alloy of the internal part."),
    FIGURE(severity, "How badly they gall."),
    FIGURE(advice, "What is done about it."),
    HALFNUT_RECORDS(GallingAnswer, friction, kLubricantRecord,
                    "Friction with each lubricant; the metal that slides worse decides."),
    FIGURE(note, "What else the row says."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kGallingSays{
    SaidRow{"*advice", "advice"},
    SaidRow{"friction", "{low:.2f} to {high:.2f} {lubricant}", "friction"},
    SaidRow{"note", "{note}"},
};
constexpr RecordRow kGallingRecord{
    "Galling",
    "How two metals go together in a thread, what to do about it, and the friction that goes with it.",
    kGallingRows,
    {},
    {"{alloy} in {other}: galling [{severity=unknown}not known][{severity!=unknown}{severity}]", kGallingSays,
     "advice, friction"}};

// ---- strength ---------------------------------------------------------------------------------------------

constexpr const Argument& range(string_view key) {
    return range_in(kStrengthArguments, key);
}
#define ASKED(member, about) HALFNUT_ASKED(StrengthAsk, member, about)
#define SIZE(member, about) ASKED(joint.member, about).in(range(#member))
constexpr std::array kStrengthAsked{
    ASKED(external, "External thread by its designation, or its limits.").or_a("Part").required().leads(),
    ASKED(internal, "Internal thread, likewise.").or_a("Part").required(),
    keyed("engagement_mm", ASKED(joint.overlap_mm,
                                 "Length over which one part is inside the other; only its full form counts.")
                               .in(range("engagement_mm"))
                               .required()
                               .named()),
    keyed("external_alloy",
          ASKED(outer.alloy, "Alloy of the external part.").or_a("Alloy").listing(&material::alloy_names)),
    keyed(
        "external_form",
        ASKED(
            outer.form,
            "Form that the external part is made of: bar, casting, drawn tube, extrusion, plate or sheet.")),
    keyed("external_thickness_mm",
          ASKED(outer.thickness_mm, "Diameter, thickness or wall that the external part is made of.")
              .above(0)
              .usually("the weakest of the form")),
    keyed("external_grade", ASKED(outer.grade, "Grade or property class of a bolt: 8.8, SAE 5, A4-80.")),
    keyed("external_tensile_mpa",
          ASKED(outer.tensile_mpa, "Tensile strength of the external part; it comes before any table.")
              .in(range("external_tensile_mpa"))),
    keyed("external_yield_mpa",
          ASKED(outer.yield_mpa, "Yield strength of the external part.").in(range("external_yield_mpa"))),
    keyed("external_shear_mpa", ASKED(outer.shear_mpa, "Shear strength of the external part.")
                                    .in(range("external_shear_mpa"))
                                    .usually("0.577 of the tensile strength")),
    keyed("internal_alloy",
          ASKED(inner.alloy, "Alloy of the internal part.").or_a("Alloy").listing(&material::alloy_names)),
    keyed(
        "internal_form",
        ASKED(
            inner.form,
            "Form that the internal part is made of: bar, casting, drawn tube, extrusion, plate or sheet.")),
    keyed("internal_thickness_mm",
          ASKED(inner.thickness_mm, "Diameter, thickness or wall that the internal part is made of.")
              .above(0)
              .usually("the weakest of the form")),
    keyed("internal_tensile_mpa",
          ASKED(inner.tensile_mpa, "Tensile strength of the internal part; it comes before any table.")
              .in(range("internal_tensile_mpa"))),
    keyed("internal_yield_mpa",
          ASKED(inner.yield_mpa, "Yield strength of the internal part.").in(range("internal_yield_mpa"))),
    keyed("internal_shear_mpa", ASKED(inner.shear_mpa, "Shear strength of the internal part.")
                                    .in(range("internal_shear_mpa"))
                                    .usually("0.577 of the tensile strength")),
    SIZE(external_chamfer_mm, "Chamfer of the external thread within the engagement.").usually("none"),
    SIZE(external_run_out_mm, "Run-out of the external thread within the engagement.").usually("none"),
    SIZE(internal_countersink_mm, "Countersinks of the internal thread within it, all together.")
        .usually("none"),
    SIZE(internal_run_out_mm, "Run-out of the internal thread within the engagement.").usually("none"),
    SIZE(external_bore_mm, "Bore of a threaded tube.").usually("solid"),
    SIZE(internal_outside_mm,
         "Outside diameter of the internal part, or width across flats; without it no dilation and no wall "
         "counts."),
    keyed("load_n", SIZE(load_n, "Axial load on the joint.")),
    SIZE(factor_of_safety, "Factor of safety; without one no allowable load is answered."),
    ASKED(friction, "Friction in the thread, its least and greatest: 0.10-0.16.")
        .or_a("Friction")
        .usually("none; of lead screws 0.10 to 0.16, lubricated steel in bronze or iron"),
    ASKED(loading, "How the load comes, for the length of engagement by practice.").usually("steady"),
    ASKED(rotating, "The joint turns, or its load comes and goes."),
};
#undef SIZE
#undef ASKED

std::optional<double> practice_diameters(const StrengthAnswer& answer) {
    const double practice = answer.engagement_practice_mm / answer.diameter_mm;
    return std::isnan(practice) ? std::nullopt : std::optional(practice);
}
double three_turns_mm(const StrengthAnswer& answer) {
    constexpr double kTurns = 3.0;
    return kTurns * answer.joint.full_form_engagement_mm / answer.joint.engaged_turns;
}

#define FIGURE(member, about) HALFNUT_FIGURE(StrengthAnswer, member, about)
constexpr std::array kStrengthRows{
    FIGURE(external, "External part."),
    FIGURE(internal, "Internal part."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(joint.weakest, "What breaks first."),
    FIGURE(overlap_mm, "Length over which one part is inside the other.").always(),
    FIGURE(joint.full_form_engagement_mm, "Length of full form that is engaged.").always(),
    FIGURE(joint.engaged_turns, "The same in pitches.").always(),
    FIGURE(joint.thread_depth_mm, "Depth of the thread.").always(),
    FIGURE(joint.stress_area_mm2, "Stress area.").always(),
    FIGURE(joint.root_area_mm2, "Area at the root.").always(),
    FIGURE(joint.external_net_area_mm2, "Stress area less the bore.").always(),
    FIGURE(joint.internal_net_area_mm2, "Section of the internal part at the root of its thread."),
    FIGURE(joint.external_shear_area_mm2_mm, "Shear area of the external thread for a length of one.")
        .always(),
    FIGURE(joint.internal_shear_area_mm2_mm, "Shear area of the internal thread for a length of one.")
        .always(),
    FIGURE(joint.external_shear_area_mm2, "Shear area of the external thread.").always(),
    FIGURE(joint.internal_shear_area_mm2, "Shear area of the internal thread.").always(),
    FIGURE(outer.tensile_mpa, "Tensile strength of the external part.")
        .called("external_tensile_mpa")
        .always(),
    FIGURE(inner.tensile_mpa, "Tensile strength of the internal part.")
        .called("internal_tensile_mpa")
        .always(),
    FIGURE(outer.yield_mpa, "Yield strength of the external part.").called("external_yield_mpa"),
    FIGURE(inner.yield_mpa, "Yield strength of the internal part.").called("internal_yield_mpa"),
    FIGURE(joint.external_shear_strength_mpa, "Shear strength of the external part.").always(),
    FIGURE(joint.internal_shear_strength_mpa, "Shear strength of the internal part.").always(),
    FIGURE(external_material, "Where the strengths of the external part are from."),
    FIGURE(internal_material, "Where the strengths of the internal part are from."),
    FIGURE(joint.strength_ratio, "Internal over external strength of the threads, by shear.").always(),
    FIGURE(joint.stripping_ratio, "External over internal, by tensile strengths (J).").always(),
    FIGURE(joint.outside_to_diameter, "Outside of the internal part over the nominal diameter."),
    FIGURE(joint.dilation_factor, "Factor for the dilation of the internal part.").always(),
    FIGURE(joint.external_bending_factor, "Factor for the bending of the external thread.").always(),
    FIGURE(joint.internal_bending_factor, "Factor for the bending of the internal thread.").always(),
    FIGURE(joint.external_tension_n, "Load that breaks the external section.").always(),
    FIGURE(joint.internal_tension_n, "Load that breaks the internal section."),
    FIGURE(joint.external_stripping_n, "Load that strips the external thread.").always(),
    FIGURE(joint.internal_stripping_n, "Load that strips the internal thread.").always(),
    FIGURE(joint.external_yield_n, "Load that yields the external section."),
    FIGURE(joint.internal_yield_n, "Load that yields the internal section."),
    FIGURE(joint.weakest_n, "Load that breaks the first.").always(),
    FIGURE(joint.bears_n, "Load before a section yields or anything breaks.").always(),
    FIGURE(factor_of_safety, "Factor of safety."),
    FIGURE(joint.allowable_n, "Load that is allowed with it."),
    FIGURE(load_n, "Load on the joint."),
    FIGURE(joint.factor_reached, "What it bears over the load."),
    FIGURE(joint.engagement_required_mm, "Full form for a section to break before a thread strips.").always(),
    FIGURE(joint.engagement_handbook_mm, "Full form by the handbook's rule, solid parts.").always(),
    FIGURE(engagement_practice_mm, "Length of engagement by practice."),
    FIGURE(joint.engagement_for_load_mm, "Full form for the load, with the factor of safety."),
    FIGURE(joint.external_wall_mm, "Wall left under the external thread."),
    FIGURE(joint.internal_wall_mm, "Wall left over the internal thread."),
    FIGURE(joint.radial_pressure_mpa, "Radial pressure of the flanks under the load."),
    FIGURE(joint.internal_hoop_mpa, "Hoop tension in the internal wall under the load."),
    FIGURE(joint.external_hoop_mpa, "Hoop compression in the external wall under the load."),
    FIGURE(flank_pressure_mpa, "Pressure of the load on the projected flanks that are engaged."),
    FIGURE(holding_friction, "Least friction at which a load does not turn the screw.").always(),
    FIGURE(friction_low, "Least friction in the thread."),
    FIGURE(friction_high, "Greatest friction in the thread."),
    FIGURE(raising_torque_min_nm, "Torque that raises the load at the least friction, the screw alone."),
    FIGURE(raising_torque_max_nm, "Torque that raises the load at the greatest friction."),
    FIGURE(by_form, "Of a form for whose flanks no factors are published."),
    FIGURE(diameter_mm, "Nominal diameter.").always(),
    made_figure<&practice_diameters>("practice_diameters", "Engagement by practice, in diameters."),
    made_figure<&three_turns_mm>("three_turns_mm", "Length of three turns."),
    FIGURE(galling, "How badly the two metals gall."),
    FIGURE(advice, "What is done about galling."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kStrengthSays{
    SaidRow{"allow", "{allowable_n}, factor of safety {factor_of_safety:g}"},
    SaidRow{"allow", "{allowable_n!}not answered: no factor of safety is given"},
    SaidRow{"load",
            "{load_n}[: factor {factor_reached:.2f}][{by_form?}{factor_reached?}, {flank_pressure_mpa} on "
            "the flanks]"
            "[{by_form?}{factor_reached!}: {flank_pressure_mpa} on the flanks]"},
    SaidRow{"engaged",
            "{full_form_engagement_mm:both} full form[{overlap_mm!=full_form_engagement_mm} of {overlap_mm} "
            "overlap], "
            "{engaged_turns:.1f} turns"},
    SaidRow{"engage",
            "{engagement_required_mm:both} for a section to break before a thread strips; "
            "{engagement_handbook_mm} "
            "by the handbook's rule, solid parts"},
    SaidRow{"practice", "{engagement_practice_mm:both}, {practice_diameters:.2g} diameters"},
    SaidRow{"for load",
            "{engagement_for_load_mm:both} full form[ with factor {factor_of_safety:g}]"
            "[{engagement_for_load_mm<three_turns_mm}; never under three turns, {three_turns_mm}]"},
    SaidRow{"external",
            "section breaks {external_tension_n}, [yields {external_yield_n}][{external_yield_n!}yield not "
            "known], "
            "thread strips {external_stripping_n}"},
    SaidRow{
        "internal",
        "[section breaks {internal_tension_n}, ][{internal_tension_n?}yields {internal_yield_n}, ]"
        "[{internal_tension_n?}{internal_yield_n!}yield not known, ]thread strips {internal_stripping_n}"},
    SaidRow{"factors",
            "dilation {dilation_factor:.3f}, bending {external_bending_factor:.3f} external, "
            "{internal_bending_factor:.3f} internal[{by_form?}, bounds from 60 degree threads]"},
    SaidRow{"wall", "{external_wall_mm:both} left under the external thread"},
    SaidRow{
        "made of",
        "external {external_material}: tensile {external_tensile_mpa}, shear {external_shear_strength_mpa}"},
    SaidRow{"wall", "{internal_wall_mm:both} left over the internal thread"},
    SaidRow{
        "made of",
        "internal {internal_material}: tensile {internal_tensile_mpa}, shear {internal_shear_strength_mpa}"},
    SaidRow{"hoop", "{internal_hoop_mpa} in the internal wall under the load"},
    SaidRow{"raise",
            "{raising_torque_min_nm..raising_torque_max_nm} in the screw, friction {friction_low:g} to "
            "{friction_high:g}"},
    SaidRow{"holds",
            "{friction_low?}[{holding_friction<=friction_low}holds][{holding_friction>friction_low}does not "
            "hold for "
            "certain]: it needs a friction of {holding_friction:.3f}; shaking lowers it"},
    SaidRow{"galling", "{galling}"},
    SaidRow{"*advice", "advice"},
};
constexpr RecordRow kStrengthRecord{
    "ThreadStrength",
    "What a threaded joint holds; a factor of safety is in the allowable load and its engagement only.",
    kStrengthRows,
    {},
    {"{external} in {internal}: bears {bears_n}; first to break: {weakest} at {weakest_n}", kStrengthSays,
     "allow, engage"},
    true};

/// Strengths of one part with where they come from.
struct MadeOf {
    PartStrength strength;
    std::string title;
    const AlloyRow* alloy = nullptr;
    double proof_mpa = kNaN;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};

const AlloyRow* alloy_of(const Catalogue& catalogue, const std::string& name) {
    return name.empty() ? nullptr : &material::find_alloy(catalogue, name);
}

double or_else(double given, double other) {
    return std::isnan(given) ? other : given;
}

/// Strengths as they are given, else of the grade, else of the alloy's form.
MadeOf made_of(const PartMade& part, Side side, double diameter_mm, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const string_view which = enum_name(side);
    MadeOf out;
    out.alloy = alloy_of(catalogue, part.alloy);
    out.title = "strengths as given" + (out.alloy == nullptr ? "" : ", " + material::full_name(*out.alloy));
    out.strength = {part.tensile_mpa, part.yield_mpa, part.shear_mpa};
    if (!std::isnan(part.tensile_mpa)) {
        return out;
    }
    if (!part.grade.empty()) {
        const BoltStrength bolt = bolt_strength(catalogue, part.grade, diameter_mm);
        out.evidence.push_back(as_tabulated(fmt::format("{}_tensile_mpa", which),
                                            row_ref(catalogue.bolt_grades, *bolt.row), catalogue));
        tell_memory(out.told, out.evidence);
        out.title = "grade " + part.grade;
        out.strength.tensile_mpa = bolt.tensile_mpa;
        out.strength.yield_mpa = or_else(part.yield_mpa, bolt.yield_mpa);
        out.proof_mpa = bolt.proof_mpa;
    } else if (out.alloy != nullptr) {
        MinimumStrengthAnswer least = minimum_strength(
            {.alloy = part.alloy, .form = part.form, .thickness_mm = part.thickness_mm}, asking);
        for (EvidenceText& each : least.evidence) {
            each.figure = fmt::format("{}_{}", which, each.figure);
            out.evidence.push_back(std::move(each));
        }
        out.told = std::move(least.told);
        out.title = fmt::format("{} {}, minimum", least.alloy, least.form);
        out.strength.tensile_mpa = least.found.tensile_mpa;
        out.strength.yield_mpa = or_else(part.yield_mpa, least.found.yield_mpa);
        out.strength.shear_mpa = or_else(part.shear_mpa, least.found.shear_mpa);
    } else {
        throw DomainError(fmt::format(
            "the strength of the {0} part is needed: give {0}_alloy and {0}_form, {1}or {0}_tensile", which,
            side == Side::external ? "external_grade, " : ""));
    }
    return out;
}

/// Refuse parts that are not of one thread.
void require_one_thread(const Catalogue& catalogue, const PartLimits& male, const PartLimits& female) {
    constexpr double kSame = 1e-9;
    const FitPart& a = male.sizes;
    const FitPart& b = female.sizes;
    std::vector<string_view> unlike;
    if (male.by_form() != female.by_form() ||
        (male.by_form() && form_name(catalogue, male) != form_name(catalogue, female))) {
        unlike.emplace_back("form");
    }
    if (std::abs(a.pitch_mm - b.pitch_mm) > kSame * std::max(a.pitch_mm, b.pitch_mm)) {
        unlike.emplace_back("pitch");
    }
    if (a.starts != b.starts) {
        unlike.emplace_back("starts");
    }
    if (a.left_hand != b.left_hand) {
        unlike.emplace_back("hand");
    }
    if (!unlike.empty()) {
        throw DomainError(fmt::format("{} and {} are not one thread: {} {}", male.title(), female.title(),
                                      fmt::join(unlike, " and "), unlike.size() == 1 ? "differs" : "differ"));
    }
}

double torque_to_raise(const PartLimits& screw, double pitch_diameter_mm, double load_n, double friction) {
    const double lead = screw.sizes.starts * screw.sizes.pitch_mm;
    const double efficiency = screw_efficiency(lead, pitch_diameter_mm, screw.sizes.half_angle_deg, friction);
    if (efficiency <= 0.0) {
        throw DomainError(
            fmt::format("a screw this steep does not turn under load with a friction of {:g}", friction));
    }
    return load_n * lead / kNewtonMetre / (2.0 * std::numbers::pi * efficiency);
}

/// Load over the projected flanks of the full form that is engaged; NaN where a crest is not known.
double flank_pressure_mpa(const PartLimits& male, const PartLimits& female, double pitch_diameter_mm,
                          double load_n, double engaged_mm) {
    const double flank = (male.sizes.major.min_mm - female.sizes.minor.max_mm) / 2.0;
    return load_n / (std::numbers::pi * pitch_diameter_mm * flank * engaged_mm / male.sizes.pitch_mm);
}

// ---- tightening -------------------------------------------------------------------------------------------

constexpr const Argument& tight_range(string_view key) {
    return range_in(kTighteningArguments, key);
}
#define ASKED(member, about) HALFNUT_ASKED(TightenAsk, member, about)
constexpr std::array kTightenAsked{
    ASKED(thread, "Thread by its designation; sizes are basic ones.").or_a("Thread").required().leads(),
    keyed("preload_n", ASKED(preload_n, "Preload wanted.").in(tight_range("preload_n"))),
    keyed("torque_nm",
          ASKED(torque_nm, "Torque that is applied, in place of a preload.").in(tight_range("torque_nm"))),
    ASKED(
        share,
        "Preload as a share of the proof strength of the grade, or of the yield strength: 0.75 is usual for "
        "a joint that is taken apart, 0.9 for one that stays.")
        .in({.name = "share", .unit = "", .low = 0.0, .high = 1.0, .low_open = true}),
    keyed("external_alloy",
          ASKED(screw.alloy, "Alloy of the external part.").or_a("Alloy").listing(&material::alloy_names)),
    keyed("external_form", ASKED(screw.form, "Form that the external part is made of.")),
    keyed("external_grade", ASKED(screw.grade, "Grade or property class of the bolt: 8.8, SAE 5, A4-80.")),
    keyed("external_yield_mpa",
          ASKED(screw.yield_mpa, "Yield strength of the external part.").in(range("external_yield_mpa"))),
    ASKED(internal_alloy, "Alloy of the internal part, for the friction.")
        .or_a("Alloy")
        .listing(&material::alloy_names)
        .usually("that of the external part"),
    ASKED(lubricant, "Lubricant, for the friction of the pair: dry, oil, anti-seize paste."),
    ASKED(friction, "Friction in the thread, its least and greatest: 0.10-0.16.").or_a("Friction"),
    ASKED(bearing_friction, "Friction under the nut or head.").or_a("Friction").usually("that of the thread"),
    ASKED(bearing_diameter_mm, "Mean diameter of the seat of nut or head; for a jam nut its own.")
        .in(tight_range("bearing_diameter_mm"))
        .usually("1.25 diameters"),
    ASKED(bore_mm, "Bore of a threaded tube.").in(tight_range("bore_mm")).usually("solid"),
    keyed("prevailing_nm",
          ASKED(prevailing_nm, "Torque of a locking element or a coated thread before any preload.")
              .in(tight_range("prevailing_nm"))
              .usually("none")),
    ASKED(condition, "Condition of the nut factor of common practice: dry, lubricated, ...")
        .usually("unknown"),
};
#undef ASKED

std::optional<double> yield_share(const TightenAnswer& answer) {
    constexpr double kPerCent = 100.0;
    return std::isnan(answer.yield_mpa)
               ? std::nullopt
               : std::optional(kPerCent * answer.tight.stress_max_mpa / answer.yield_mpa);
}

#define FIGURE(member, about) HALFNUT_FIGURE(TightenAnswer, member, about)
constexpr std::array kTightenRows{
    FIGURE(thread, "Thread as it is designated."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(asked, "What was asked for: preload or torque."),
    FIGURE(tight.preload_min_n, "Least preload.").always(),
    FIGURE(tight.preload_max_n, "Greatest preload.").always(),
    FIGURE(tight.torque_min_nm, "Least torque.").always(),
    FIGURE(tight.torque_max_nm, "Greatest torque.").always(),
    FIGURE(tight.loosen_min_nm, "Least torque that turns it back.").always(),
    FIGURE(tight.loosen_max_nm, "Greatest torque that turns it back.").always(),
    FIGURE(prevailing_nm, "Torque before any preload.").always(),
    FIGURE(tight.nut_factor_min, "Least nut factor K.").always(),
    FIGURE(tight.nut_factor_max, "Greatest nut factor K.").always(),
    FIGURE(tight.thread_share_min, "Least share of the torque that goes into the thread.").always(),
    FIGURE(tight.thread_share_max, "Greatest share of it.").always(),
    FIGURE(practice_nut_factor, "Nut factor of common practice; none published for other flanks."),
    FIGURE(practice_torque_nm, "Torque by it for the middle preload, prevailing torque included."),
    FIGURE(tight.stress_max_mpa, "Greatest stress while tightening, tension and torsion together.").always(),
    FIGURE(yield_mpa, "Yield strength of the external part."),
    made_figure<&yield_share>("yield_share", "That stress over the yield strength, per cent."),
    FIGURE(lubricant, "Lubricant, or \"as given\"."),
    FIGURE(thread_friction_low, "Least friction in the thread.").always(),
    FIGURE(thread_friction_high, "Greatest friction in the thread.").always(),
    FIGURE(bearing_friction_low, "Least friction under the nut or head.").always(),
    FIGURE(bearing_friction_high, "Greatest friction under the nut or head.").always(),
    FIGURE(bearing_diameter_mm, "Mean diameter of the seat.").always(),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kTightenSays{
    SaidRow{
        "friction",
        "thread {thread_friction_low:.2f} to {thread_friction_high:.2f}, seat {bearing_friction_low:.2f} to "
        "{bearing_friction_high:.2f}, {lubricant}"},
    SaidRow{"seat", "mean diameter {bearing_diameter_mm:both}"},
    SaidRow{"prevails", "{prevailing_nm!=0}{prevailing_nm}, included"},
    SaidRow{"loosens", "{loosen_min_nm..loosen_max_nm}"},
    SaidRow{"K",
            "{nut_factor_min:.3f} to {nut_factor_max:.3f}; [by practice {practice_nut_factor:g}, "
            "{practice_torque_nm}][{practice_nut_factor!}none published for these flanks]"},
    SaidRow{"stress", "{stress_max_mpa} while tightening at most[, {yield_share:.0f} % of yield]"},
};
constexpr RecordRow kTightenRecord{
    "Tightening",
    "Torque and preload over the range of friction.",
    kTightenRows,
    {},
    {"{thread}: {torque_min_nm..torque_max_nm} [{asked=preload}for a preload of {preload_min_n}]"
     "[{asked!=preload}brings a preload of {preload_min_n} to {preload_max_n}]",
     kTightenSays, "friction, stress"},
    true};

constexpr double kHalfAngleDeg = 30.0;  // that nut factors are published for

/// What is strained as a screw is tightened.
struct Strained {
    double pitch_diameter_mm = kNaN;
    double half_angle_deg = kHalfAngleDeg;
    double area_mm2 = kNaN;
};

/// Of another form than ISO metric and Unified the section is that of its least root.
Strained strained(const Catalogue& catalogue, const AnyThread& thread,
                  const std::optional<PartLimits>& screw) {
    if (!screw) {
        const double diameter = diameter_mm(thread);
        const double pitch = pitch_mm(thread);
        constexpr double kSquareInch = kInchMm * kInchMm;
        return {basic_pitch_diameter_mm(diameter, pitch), kHalfAngleDeg,
                is_inch(thread) ? unified_stress_area_in2(diameter / kInchMm, kInchMm / pitch) * kSquareInch
                                : metric_stress_area_mm2(diameter, pitch)};
    }
    const SizeRange& minor = screw->sizes.minor;
    const double root = or_else(minor.min_mm, minor.max_mm - screw->pitch_tolerance_mm);
    return {basic_pitch_mm(catalogue, *screw), screw->sizes.half_angle_deg, tube_area_mm2(root, 0.0)};
}

const NutFactorRow& nut_factor(const Catalogue& catalogue, string_view condition) {
    std::vector<string_view> known;
    for (const NutFactorRow& row : catalogue.nut_factors) {
        if (row.condition == condition) {
            return row;
        }
        known.push_back(row.condition);
    }
    std::sort(known.begin(), known.end());
    const string_view near = nearest_name(condition, known);
    throw NotTabulatedError(fmt::format("no nut factor for '{}'{}", condition,
                                        near.empty() ? fmt::format("; there is {}", fmt::join(known, ", "))
                                                     : fmt::format("; did you mean '{}'?", near)));
}

}  // namespace

void take(FrictionAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    const AskedRow plain = row.in(finite(row.name));
    if (given.tag == Given::Tag::list && given.items.size() == 2) {
        take(to.low, given.items[0], plain, asking);
        take(to.high, given.items[1], plain, asking);
    } else if (given.tag == Given::Tag::text) {
        const char* const end = given.text.data() + given.text.size();
        const auto first = read_number(given.text.data(), end, to.low);
        const char* at = first.ptr;
        while (at != end && (*at == ' ' || *at == '-' || *at == 't' || *at == 'o')) {
            ++at;
        }
        to.high = to.low;
        const bool one = first.ec == std::errc() && first.ptr == end;
        const auto second = one || at == first.ptr ? first : read_number(at, end, to.high);
        if (first.ec != std::errc() || second.ec != std::errc() || second.ptr != end) {
            throw DesignationError(
                fmt::format("{}: '{}' is no friction; write a number or its range, such as 0.10-0.16",
                            row.name, bounds::shown(given.text)),
                0);
        }
    } else {
        if (given.tag == Given::Tag::list) {
            throw DomainError(fmt::format("{} must be a number or two, got {}", row.name, given.shown()));
        }
        take(to.low, given, plain, asking);
        to.high = to.low;
    }
    if (!(0.0 <= to.low && to.low <= to.high && to.high <= 1.0)) {
        throw DomainError(
            fmt::format("{} must rise from 0 to 1, got {:g} to {:g}", row.name, to.low, to.high));
    }
}

MinimumStrengthAnswer minimum_strength(const MinimumStrengthAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    MinimumStrengthAnswer out{.alloy = material::full_name(alloy), .grain = asked.grain};
    out.found = material::minimum_strength(catalogue, alloy, asked.form, asked.thickness_mm, asked.grain);
    out.form = out.found.row->form;
    out.temper = out.found.row->temper;
    out.note = out.found.row->note;
    constexpr string_view kRule = "minimum, as tabulated";
    out.evidence.push_back(
        tabulated("tensile_mpa", row_ref(catalogue.strengths, *out.found.row), catalogue, kRule));
    if (out.found.shear_row != nullptr) {
        const std::uint8_t own = out.found.shear_row->shear_source == SourceId{} ? 0 : 1;
        out.evidence.push_back(tabulated("shear_mpa", row_ref(catalogue.strengths, *out.found.shear_row, own),
                                         catalogue, kRule));
    }
    tell_memory(out.told, out.evidence);
    if (out.found.weakest_of_several) {
        tell(out.told, "strength_weakest_row");
    }
    return out;
}

GallingAnswer galling(const GallingAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const AlloyRow& one = material::find_alloy(catalogue, asked.external_alloy);
    const AlloyRow& other = material::find_alloy(catalogue, asked.internal_alloy);
    const GallingRow& row = galling(catalogue, one, other);
    GallingAnswer out{.alloy = material::full_name(one),
                      .other = material::full_name(other),
                      .severity = row.severity,
                      .note = std::string(row.note)};
    string_view words = row.advice;
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        if (end > 0) {
            out.advice.emplace_back(find_words("galling", words.substr(0, end), catalogue));
        }
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    out.evidence.push_back(as_tabulated("severity", row_ref(catalogue.galling, row), catalogue));
    std::set<string_view> lubricants;
    for (const ThreadFrictionRow& each : catalogue.thread_friction) {
        lubricants.insert(each.lubricant);
    }
    for (const string_view lubricant : lubricants) {
        try {
            const ThreadFrictionRow& found = thread_friction(catalogue, one, other, lubricant);
            out.friction.push_back({std::string(lubricant), found.friction_low, found.friction_high});
            out.evidence.push_back(
                as_tabulated("friction", row_ref(catalogue.thread_friction, found), catalogue));
        } catch (const NotTabulatedError&) {
            continue;  // none is known with it
        }
    }
    if (row.severity == Galling::high || row.severity == Galling::severe) {
        tell(out.told, "galling");
    }
    return out;
}

StrengthAnswer strength(const StrengthAsk& asked, const Asking& asking) {
    constexpr FrictionAsked kScrewInBronze{0.10,
                                           0.16};  // lubricated steel in bronze or iron: common practice
    constexpr double kRounding = 1e-9;
    const Catalogue& catalogue = asking.catalogue;
    const PartLimits male = limits_of(catalogue, asked.external, Side::external);
    const PartLimits female = limits_of(catalogue, asked.internal, Side::internal);
    require_one_thread(catalogue, male, female);
    const FrictionAsked friction =
        !asked.friction.is_given() && male.by_form() ? kScrewInBronze : asked.friction;
    const double diameter = male.diameter_mm();
    MadeOf outer = made_of(asked.outer, Side::external, diameter, asking);
    MadeOf inner = made_of(asked.inner, Side::internal, diameter, asking);
    StrengthRequest request = asked.joint;
    request.sizes = strength_sizes(male, female);
    request.external = outer.strength;
    request.internal = inner.strength;
    StrengthAnswer out{.external = male.title(),
                       .internal = female.title(),
                       .unit = unit_of(male),
                       .overlap_mm = request.overlap_mm,
                       .joint = strength(request),
                       .outer = outer.strength,
                       .inner = inner.strength,
                       .external_material = outer.title,
                       .internal_material = inner.title,
                       .factor_of_safety = request.factor_of_safety,
                       .load_n = request.load_n,
                       .friction_low = friction.low,
                       .friction_high = friction.high,
                       .by_form = male.by_form(),
                       .diameter_mm = diameter};
    const double basic_pitch = basic_pitch_mm(catalogue, male);
    const double engaged = out.joint.full_form_engagement_mm;
    out.holding_friction =
        holding_friction(male.sizes.starts * male.sizes.pitch_mm, basic_pitch, male.sizes.half_angle_deg);
    if (!std::isnan(out.load_n)) {
        out.flank_pressure_mpa = flank_pressure_mpa(male, female, basic_pitch, out.load_n, engaged);
        if (friction.is_given()) {
            out.raising_torque_min_nm = torque_to_raise(male, basic_pitch, out.load_n, friction.low);
            out.raising_torque_max_nm = torque_to_raise(male, basic_pitch, out.load_n, friction.high);
        }
    }
    if (male.by_form()) {
        tell_of(out.told, catalogue, male);
        tell(out.told, "form_strength_rules");
        append(out.evidence, evidence_of(catalogue, male));
        append(out.evidence, evidence_of(catalogue, female));
    }
    tell_all<StrengthCaution>(out.told, out.joint);
    append(out.told, std::move(outer.told));
    append(out.told, std::move(inner.told));
    append_evidence(out.joint.evidence.items(), kStrengthFigures, catalogue, out.evidence);
    append(out.evidence, std::move(outer.evidence));
    append(out.evidence, std::move(inner.evidence));
    if (inner.alloy != nullptr) {
        const EngagementPracticeRow& practice = engagement_practice(catalogue, *inner.alloy, asked.loading);
        out.engagement_practice_mm = engagement_by_practice_mm(practice, diameter);
        out.evidence.push_back(tabulated("engagement_practice_mm",
                                         row_ref(catalogue.engagement_practice, practice), catalogue,
                                         "rule of practice"));
        if (engaged < out.engagement_practice_mm - kRounding) {
            tell(out.told, "strength_under_practice",
                 {{"length", both_sizes_text(out.engagement_practice_mm, male.inch)}});
        }
    }
    if (outer.alloy != nullptr && inner.alloy != nullptr) {
        GallingAnswer pair = galling(GallingAsk{asked.outer.alloy, asked.inner.alloy}, asking);
        out.galling = pair.severity;
        out.advice = std::move(pair.advice);
        out.evidence.push_back(pair.evidence.front());
        append(out.told, std::move(pair.told));
    }
    if (asked.rotating) {
        tell(out.told, "strength_rotating");
    }
    tell(out.told, "licensed");
    keep_once(out.told);
    return out;
}

TightenAnswer tighten(const TightenAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const AnyThread& thread = asked.thread;
    const FormThread* const form = std::get_if<FormThread>(&thread);
    const std::string name = format_any_thread(thread);
    if (form != nullptr && (form->tapers() || form->parallel_internal())) {
        const AnyThread taper =
            form->tapers() ? part_of(thread, Side::external) : parse_any_thread("R" + form->size, catalogue);
        constexpr auto kTurns = figure_index(kTaperPipeFigures, "hand_turns");
        throw NotTabulatedError(
            fmt::format("{}: a taper pipe thread is made up by turns, not to a torque: {:.1f} by hand, then "
                        "by the wrench "
                        "until it seals",
                        name, taper_pipe(catalogue, taper).figures[kTurns]));
    }
    const bool inch = is_inch(thread);
    const double diameter = diameter_mm(thread);
    TightenAnswer out{.thread = name,
                      .unit = unit_name(inch),
                      .asked = std::isnan(asked.torque_nm) ? TightenAsked::preload : TightenAsked::torque,
                      .prevailing_nm = asked.prevailing_nm,
                      .yield_mpa = asked.screw.yield_mpa};
    std::vector<EvidenceText> evidence;
    std::optional<PartLimits> screw;
    if (form != nullptr) {
        screw = limits_of(catalogue, {part_of(thread, Side::external)}, Side::external);
        evidence = evidence_of(catalogue, *screw);
        tell_of(out.told, catalogue, *screw);
        tell(out.told, "tighten_form");
    }
    const Strained section = strained(catalogue, thread, screw);
    FrictionAsked friction = asked.friction;
    out.lubricant = "as given";
    if (!friction.is_given()) {
        const AlloyRow* const own = alloy_of(catalogue, asked.screw.alloy);
        const AlloyRow* const other = alloy_of(catalogue, asked.internal_alloy);
        if ((own == nullptr && other == nullptr) || asked.lubricant.empty()) {
            throw DomainError("friction is needed: give it with its range, or the lubricant and the alloys");
        }
        const ThreadFrictionRow& row = thread_friction(catalogue, own == nullptr ? *other : *own,
                                                       other == nullptr ? *own : *other, asked.lubricant);
        friction = {row.friction_low, row.friction_high};
        out.lubricant = asked.lubricant;
        evidence.push_back(
            as_tabulated("thread_friction_low", row_ref(catalogue.thread_friction, row), catalogue));
    }
    const FrictionAsked seat = asked.bearing_friction.is_given() ? asked.bearing_friction : friction;
    out.thread_friction_low = friction.low;
    out.thread_friction_high = friction.high;
    out.bearing_friction_low = seat.low;
    out.bearing_friction_high = seat.high;
    if (friction.low == friction.high) {
        tell(out.told, "torque_friction_single");
    }
    constexpr double kSeatDiameters = 1.25;
    out.bearing_diameter_mm = or_else(asked.bearing_diameter_mm, kSeatDiameters * diameter);
    if (std::isnan(asked.bearing_diameter_mm)) {
        tell(out.told, "torque_seat_assumed", {{"length", both_sizes_text(out.bearing_diameter_mm, inch)}});
    }
    double holds = out.yield_mpa;
    if (!asked.screw.grade.empty()) {
        const BoltStrength bolt = bolt_strength(catalogue, asked.screw.grade, diameter);
        evidence.push_back(as_tabulated("yield_mpa", row_ref(catalogue.bolt_grades, *bolt.row), catalogue));
        tell_memory(out.told, std::span(&evidence.back(), 1));
        out.yield_mpa = bolt.yield_mpa;
        holds = or_else(bolt.proof_mpa, bolt.yield_mpa);
    } else if (std::isnan(out.yield_mpa) && !asked.screw.alloy.empty() && !asked.screw.form.empty()) {
        MinimumStrengthAnswer least =
            minimum_strength({.alloy = asked.screw.alloy, .form = asked.screw.form}, asking);
        out.yield_mpa = holds = least.found.yield_mpa;
        append(evidence, std::move(least.evidence));
        append(out.told, std::move(least.told));
    }
    double preload = asked.preload_n;
    if (!std::isnan(asked.share)) {
        if (!std::isnan(preload) || !std::isnan(asked.torque_nm)) {
            throw DomainError("give one of preload, torque and share");
        }
        if (std::isnan(holds)) {
            throw DomainError("a share needs a strength: external_grade, external_yield, or alloy and form");
        }
        constexpr double kQuarter = 4.0;
        preload = asked.share * holds *
                  (section.area_mm2 - std::numbers::pi / kQuarter * asked.bore_mm * asked.bore_mm);
    }
    out.tight = tighten({.diameter_mm = diameter,
                         .pitch_diameter_mm = section.pitch_diameter_mm,
                         .lead_mm = starts(thread) * pitch_mm(thread),
                         .half_angle_deg = section.half_angle_deg,
                         .section_diameter_mm = std::sqrt(4.0 * section.area_mm2 / std::numbers::pi),
                         .bore_mm = asked.bore_mm,
                         .thread_friction_low = friction.low,
                         .thread_friction_high = friction.high,
                         .bearing_friction_low = seat.low,
                         .bearing_friction_high = seat.high,
                         .bearing_diameter_mm = out.bearing_diameter_mm,
                         .prevailing_nm = asked.prevailing_nm,
                         .preload_n = preload,
                         .torque_nm = asked.torque_nm});
    append_evidence(out.tight.evidence.items(), kTighteningFigures, catalogue, out.evidence);
    append(out.evidence, std::move(evidence));
    if (section.half_angle_deg == kHalfAngleDeg) {
        const NutFactorRow& row = nut_factor(catalogue, asked.condition);
        out.practice_nut_factor = row.nut_factor;
        out.practice_torque_nm =
            nut_factor_torque_nm((out.tight.preload_min_n + out.tight.preload_max_n) / 2.0, diameter,
                                 row.nut_factor) +
            asked.prevailing_nm;
        out.evidence.push_back(
            tabulated("practice_nut_factor", row_ref(catalogue.nut_factors, row), catalogue, "T = K F D"));
    }
    if (out.tight.stress_max_mpa > out.yield_mpa) {
        tell(out.told, "torque_over_yield");
    }
    tell(out.told, "licensed");
    return out;
}

constinit const Question kMinimumStrength = [] {
    Question out = question<MinimumStrengthAsk, MinimumStrengthAnswer, &minimum_strength>(
        "threads", "minimum_strength", "Minimum strengths of an alloy in a form: what a load is to rest on.",
        kMinimumAsked, kMinimumRecord);
    out.sources = "Specifications of the alloys, as the rows of the evidence name them.";
    out.example = "minimum-strength 6061-T6 \"drawn tube\"";
    return out;
}();

constinit const Question kGalling = [] {
    Question out = question<GallingAsk, GallingAnswer, &galling>(
        "threads", "galling", "Whether two metals gall in a thread, and what is done about it.",
        kGallingAsked, kGallingRecord);
    out.sources = "Common practice, as the rows of the evidence name it.";
    out.example = "galling 304 304";
    return out;
}();

constinit const Question kStrength = [] {
    Question out = question<StrengthAsk, StrengthAnswer, &strength>(
        "threads", "strength", "What a threaded joint holds, what fails first, how far it is to be engaged.",
        kStrengthAsked, kStrengthRecord);
    out.sources =
        "Handbook and textbook rules for stripping and for screws that raise a load, and the rows that the "
        "evidence names.";
    out.example =
        "strength M10-6g M10-6H --engagement 15mm --external-grade 8.8 --internal-alloy 6061-T6 "
        "--internal-form bar --factor-of-safety 4 --load 5kN";
    return out;
}();

constinit const Question kTighten = [] {
    Question out = question<TightenAsk, TightenAnswer, &tighten>(
        "threads", "tighten", "Torque for a preload, or preload from a torque, over the range of friction.",
        kTightenAsked, kTightenRecord);
    out.sources =
        "Forces on the thread and the seat; nut factors of common practice; rows that the evidence names.";
    out.example = "tighten M10 --external-grade 8.8 --share 0.75 --friction 0.10-0.16";
    return out;
}();

}  // namespace halfnut::threads
