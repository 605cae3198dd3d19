// Plain holes and shafts, bare or coated, as a question.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "halfnut/fits/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/coating_questions.hpp"

namespace halfnut::threads {

namespace {

using std::string_view;

constexpr double kUnits = 1e6;          // the core counts sizes in millionths of the standard's unit
constexpr double kRoomC = 20.0;         // where limits hold
constexpr double kLongestMm = 10000.0;  // more is a slip of the pen
constexpr double kRounding = 1e-9;      // mm

constexpr const Argument& range(string_view key) {
    for (const Argument& each : fits::kMeetingArguments) {
        if (each.name == key) {
            return each;
        }
    }
    throw "no such argument";
}
#define ASKED(member, about) HALFNUT_ASKED(CylindricalFitAsk, member, about)
#define NUMBER(member, about) ASKED(member, about).in(range(#member))
constexpr std::array kAsked{
    ASKED(text,
          "Size with its class: \"25 H7/g6\", \"25 H7\", \"25 g6\" (ISO 286, in mm where no unit is said; "
          "\"1 in "
          "H7/g6\"), or \"1.25 RC4\" (ANSI B4.1, in inches where no unit is said).")
        .required(),
    ASKED(
        hole_build_up,
        "What a coating adds to each surface of the hole: \"8 um\", \"0.0002 in to 0.0003 in\", \"anodise II "
        "12 um\".")
        .or_a("BuildUp")
        .usually("none"),
    ASKED(shaft_build_up, "What a coating adds to each surface of the shaft.")
        .or_a("BuildUp")
        .usually("none"),
    ASKED(hole_mm, "Hole as measured, bare, in place of its limits."),
    ASKED(shaft_mm, "Shaft as measured, bare, in place of its limits."),
    ASKED(hole_alloy, "Alloy around the hole, for a temperature other than 20 C.")
        .or_a("Alloy")
        .listing(&material::alloy_names),
    ASKED(shaft_alloy, "Alloy of the shaft, for a temperature other than 20 C.")
        .or_a("Alloy")
        .listing(&material::alloy_names),
    NUMBER(hole_temperature_c, "Temperature of the part with the hole, degrees Celsius.").usually("20 C"),
    NUMBER(shaft_temperature_c, "Temperature of the shaft, degrees Celsius.").usually("20 C"),
    NUMBER(tolerance_over_sigma, "Tolerance over the standard deviation of the shop's cutting.")
        .usually("6, which fills the zone"),
    NUMBER(
        mean_shift,
        "Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other.")
        .usually("0")
        .finer(),
};
#undef NUMBER
#undef ASKED

#define PART(member, about) HALFNUT_FIGURE(CylinderPart, member, about)
constexpr std::array kPartFigures{
    PART(side, "Which part: hole or shaft."),
    PART(tolerance_class, "Class such as H7; a fit of ANSI B4.1 names the pair: RC4."),
    PART(unit, "Unit of the standard."),
    PART(nominal_units, "Nominal size in millionths of the unit."),
    PART(upper_units, "Upper deviation from it."),
    PART(lower_units, "Lower deviation from it."),
    PART(max_units, "Greatest size in millionths of the unit."),
    PART(min_units, "Least size in millionths of the unit."),
    PART(max_mm, "Greatest size.").always(),
    PART(min_mm, "Least size.").always(),
    PART(tolerance_mm, "Greatest less least.").always(),
    PART(kind, "Where the limits come from: printed, derived by the standard's rule, memory or shop."),
    PART(sizes_said,
         "Both limits, the greater first, in the standard's unit and rounded inward in the other."),
    PART(deviations_said, "The deviations as a table prints them."),
};
#undef PART
constexpr RecordRow kPartRecord{
    "CylinderPart", "Limits of one part: whole millionths of the standard's unit, and millimetres.",
    kPartFigures};

#define FIGURE(member, about) HALFNUT_FIGURE(CylindricalFit, member, about)
constexpr std::array kFigures{
    FIGURE(text, "Size and class as a drawing writes them."),
    FIGURE(unit, "Unit of the standard."),
    FIGURE(nominal_mm, "Nominal size.").always(),
    HALFNUT_RECORD(CylindricalFit, hole, kPartRecord, "Limits of the hole."),
    HALFNUT_RECORD(CylindricalFit, shaft, kPartRecord, "Limits of the shaft."),
    FIGURE(name, "What such a fit is for, where it is a preferred one."),
    FIGURE(character, "How the parts meet; none for one part."),
    FIGURE(kind, "Where the limits come from, the least sure of their figures deciding."),
    FIGURE(meeting.clearance_min_mm, "Least clearance as the parts meet: coated, and at their temperatures."),
    FIGURE(meeting.clearance_max_mm, "Greatest clearance as they meet."),
    FIGURE(meeting.clearance_mean_mm, "Mean of the clearance."),
    FIGURE(meeting.clearance_sigma_mm, "Standard deviation of the clearance."),
    FIGURE(meeting.chance_of_interference, "Share of the pairs that interfere."),
    FIGURE(hole_build_up_min_um, "Least that a coating adds to a surface of the hole.").always(),
    FIGURE(hole_build_up_max_um, "Most that it adds.").always(),
    FIGURE(shaft_build_up_min_um, "Least that a coating adds to a surface of the shaft.").always(),
    FIGURE(shaft_build_up_max_um, "Most that it adds.").always(),
    FIGURE(hole_cut_min_mm, "Least size to cut the hole to, to be within its class once it is coated."),
    FIGURE(hole_cut_max_mm, "Greatest size to cut the hole to."),
    FIGURE(shaft_cut_min_mm, "Least size to cut the shaft to, to be within its class once it is coated."),
    FIGURE(shaft_cut_max_mm, "Greatest size to cut the shaft to."),
    FIGURE(hole_temperature_c, "Temperature of the part with the hole.").always(),
    FIGURE(shaft_temperature_c, "Temperature of the shaft.").always(),
    FIGURE(said, "The fit or the limits in one line."),
    FIGURE(hole_said, "The hole's limits, deviations and where they come from."),
    FIGURE(shaft_said, "The shaft's limits, deviations and where they come from."),
    FIGURE(coated_said, "What a coating adds, each part in words."),
    FIGURE(cut_said, "What to cut each coated part to."),
    FIGURE(hole_warm_said, "Temperature of the hole, where it is not that of the limits."),
    FIGURE(shaft_warm_said, "Temperature of the shaft, where it is not that of the limits."),
    FIGURE(likely_said, "The likely clearance, and the chance of interference."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kCylindricalFitSays{
    SaidRow{"hole", "{hole_said}"},      SaidRow{"shaft", "{shaft_said}"},
    SaidRow{"*coated", "coated_said"},   SaidRow{"*cut", "cut_said"},
    SaidRow{"hole", "{hole_warm_said}"}, SaidRow{"shaft", "{shaft_warm_said}"},
    SaidRow{"likely", "{likely_said}"},
};
constexpr RecordRow kRecord{
    "CylindricalFit",
    "A size, or a hole and a shaft together; clearances are below 0 where they interfere.",
    kFigures,
    "hole shaft clearance_min_mm clearance_max_mm",
    {"{said}", kCylindricalFitSays, "hole, shaft, cut, likely"}};

double in_mm(std::int64_t units, bool inch) {
    return inch ? static_cast<double>(units * 127) / (5 * kUnits) : static_cast<double>(units) / kUnits;
}

CylinderPart part_of(const fits::Cylinder& cylinder, const fits::Zone& zone,
                     const fits::ToleranceClass& tolerance_class, string_view side) {
    CylinderPart out;
    out.side = side;
    out.tolerance_class = cylinder.ansi_fit.empty() ? fits::format_class(tolerance_class) : cylinder.ansi_fit;
    out.unit = cylinder.inch() ? "in" : "mm";
    out.nominal_units = cylinder.nominal_units;
    out.upper_units = zone.upper;
    out.lower_units = zone.lower;
    out.max_units = cylinder.nominal_units + zone.upper;
    out.min_units = cylinder.nominal_units + zone.lower;
    out.max_mm = in_mm(out.max_units, cylinder.inch());
    out.min_mm = in_mm(out.min_units, cylinder.inch());
    out.tolerance_mm = in_mm(zone.upper - zone.lower, cylinder.inch());
    out.kind = zone.kind;
    return out;
}

/// One side of the question.
struct AskedSide {
    string_view name;
    const BuildUp& coat;
    double measured_mm;
    const std::string& alloy;
    double temperature_c;
    bool is_there;
};

void refuse_odd(const AskedSide& side, bool is_pair, const std::string& text) {
    if (!side.is_there && side.coat.max_um > 0.0) {
        throw DomainError(fmt::format("{0}_build_up says nothing about {1}: it has no {0}", side.name, text));
    }
    const std::string warm = fmt::format("{}_temperature_c", side.name);
    const Argument& bounds = range(side.name == "hole" ? "hole_temperature_c" : "shaft_temperature_c");
    require(bounds, side.temperature_c);
    if (side.temperature_c != kRoomC && !is_pair) {
        throw DomainError(
            fmt::format("{0} says nothing about {1}: it is of a pair, and {1} names one part", warm, text));
    }
    if (std::isnan(side.measured_mm)) {
        return;
    }
    if (!is_pair) {
        throw DomainError(fmt::format("{}, measured, says nothing about {}: it names one part, not a pair",
                                      side.name, text));
    }
    if (!(std::abs(side.measured_mm) <= kLongestMm)) {
        throw DomainError(
            fmt::format("{} must be at most {:g} mm, got {:g} mm", side.name, kLongestMm, side.measured_mm));
    }
}

double expansion_um_m_k(const AskedSide& side, const Catalogue& catalogue) {
    if (side.alloy.empty()) {
        if (side.temperature_c != kRoomC) {
            throw DomainError(fmt::format("at {:g} C the alloy of each part is needed: its expansion counts",
                                          side.temperature_c));
        }
        return 0.0;
    }
    const material::AlloyRow& alloy = material::find_alloy(catalogue, side.alloy);
    if (std::isnan(alloy.expansion_um_m_k)) {
        throw NotTabulatedError(
            fmt::format("no thermal expansion is tabulated for {}", material::full_name(alloy)));
    }
    return alloy.expansion_um_m_k;
}

fits::MeetingPart meeting_part(const CylinderPart& part, const AskedSide& side, const Catalogue& catalogue) {
    const bool measured = !std::isnan(side.measured_mm);
    return {measured ? side.measured_mm : part.min_mm,
            measured ? side.measured_mm : part.max_mm,
            side.coat.min_um,
            side.coat.max_um,
            side.temperature_c,
            expansion_um_m_k(side, catalogue)};
}

/// Sizes to cut a part to, that a coating brings within its class; whether there are any.
bool cut_sizes(const CylinderPart& part, const BuildUp& coat, bool hole, double& least_mm, double& most_mm) {
    const double low = hole ? part.min_mm + 2 * coat.max_um / 1000 : part.min_mm - 2 * coat.min_um / 1000;
    const double high = hole ? part.max_mm + 2 * coat.min_um / 1000 : part.max_mm - 2 * coat.max_um / 1000;
    if (low > high) {
        return false;
    }
    least_mm = low;
    most_mm = high;
    return true;
}

fits::FitCharacter character_of(double low_mm, double high_mm) {
    return low_mm >= -kRounding   ? fits::FitCharacter::clearance
           : high_mm <= kRounding ? fits::FitCharacter::interference
                                  : fits::FitCharacter::transition;
}

}  // namespace

CylindricalFit cylindrical_fit(const CylindricalFitAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const fits::Cylinder cylinder = fits::parse_cylinder(asked.text, catalogue);
    const fits::CylinderLimits limits = fits::cylinder_limits(catalogue, cylinder);
    CylindricalFit out;
    out.text = fits::format_cylinder(cylinder);
    out.unit = cylinder.inch() ? "in" : "mm";
    out.nominal_mm = static_cast<double>(cylinder.nominal_units) / kUnits * (cylinder.inch() ? kInchMm : 1.0);
    if (limits.hole.given) {
        out.hole = part_of(cylinder, limits.hole, cylinder.hole, "hole");
    }
    if (limits.shaft.given) {
        out.shaft = part_of(cylinder, limits.shaft, cylinder.shaft, "shaft");
    }
    const bool is_pair = out.hole && out.shaft;
    const AskedSide hole{"hole",           asked.hole_build_up,      asked.hole_mm,
                         asked.hole_alloy, asked.hole_temperature_c, out.hole.has_value()};
    const AskedSide shaft{"shaft",           asked.shaft_build_up,      asked.shaft_mm,
                          asked.shaft_alloy, asked.shaft_temperature_c, out.shaft.has_value()};
    refuse_odd(hole, is_pair, asked.text);
    refuse_odd(shaft, is_pair, asked.text);
    if (asking.evidence) {
        append_evidence(limits.evidence.items(), fits::kCylinderFigures, catalogue, out.evidence);
    }
    out.character = limits.character;
    if (is_pair) {
        out.meeting = fits::meeting({meeting_part(*out.hole, hole, catalogue),
                                     meeting_part(*out.shaft, shaft, catalogue), asked.tolerance_over_sigma,
                                     asked.mean_shift});
        if (asking.evidence) {
            append_evidence(out.meeting.evidence.items(), fits::kMeetingFigures, catalogue, out.evidence);
        }
        out.character = character_of(out.meeting.clearance_min_mm, out.meeting.clearance_max_mm);
        const std::string fit =
            cylinder.ansi_fit.empty()
                ? fmt::format("{}/{}", fits::format_class(cylinder.hole), fits::format_class(cylinder.shaft))
                : cylinder.ansi_fit;
        for (const fits::PreferredFitRow& row : catalogue.preferred_fits) {
            if (row.fit == fit) {
                out.name = row.name;
            }
        }
    }
    out.hole_build_up_min_um = asked.hole_build_up.min_um;
    out.hole_build_up_max_um = asked.hole_build_up.max_um;
    out.shaft_build_up_min_um = asked.shaft_build_up.min_um;
    out.shaft_build_up_max_um = asked.shaft_build_up.max_um;
    out.hole_temperature_c = asked.hole_temperature_c;
    out.shaft_temperature_c = asked.shaft_temperature_c;
    out.kind = std::max(out.hole ? out.hole->kind : fits::FigureKind::printed,
                        out.shaft ? out.shaft->kind : fits::FigureKind::printed);
    if (out.kind == fits::FigureKind::memory) {
        out.told.push_back({"from_memory", 0.0, {}});
    }
    if (out.character == fits::FitCharacter::interference ||
        out.character == fits::FitCharacter::transition) {
        out.told.push_back({"fit_press", 0.0, {}});
        out.told.push_back({"fit_hot", 0.0, {}});
    }
    const auto cut = [&](const AskedSide& side, const std::optional<CylinderPart>& part, double& least_mm,
                         double& most_mm) {
        if (part && side.coat.max_um != 0.0 &&
            !cut_sizes(*part, side.coat, side.name == "hole", least_mm, most_mm) && side.coat.max_um > 0.0) {
            out.told.push_back({"fit_coating_wide", 0.0, {{"part", std::string(side.name)}}});
        }
    };
    cut(hole, out.hole, out.hole_cut_min_mm, out.hole_cut_max_mm);
    cut(shaft, out.shaft, out.shaft_cut_min_mm, out.shaft_cut_max_mm);
    say(out);
    return out;
}

constinit const Question kCylindricalFit = [] {
    Question out = question<CylindricalFitAsk, CylindricalFit, &cylindrical_fit>(
        "fits", "cylindrical_fit", "Limits of a plain hole or shaft, and how the two go together.", kAsked,
        kRecord);
    out.sources = "ISO 286 and ANSI B4.1 as the rows of the evidence name them.";
    out.example =
        "cylindrical-fit \"25 H7/g6\"\ncylindrical-fit \"1.25 RC4\"\n"
        "cylindrical-fit \"12 H7/h6\" --shaft-build-up \"anodise II 12 um\"";
    out.own_units = true;
    return out;
}();

// ---- fits to choose first ---------------------------------------------------------------------------------

namespace {

constexpr std::array kPreferredAsked{
    HALFNUT_ASKED(PreferredFitsAsk, basis, "Fits of this basis alone: which part keeps its zone."),
};
constexpr std::array kPreferredRows{
    HALFNUT_FIGURE(PreferredFit, fit, "The fit: H7/g6, RC4."),
    HALFNUT_FIGURE(PreferredFit, basis, "Which part keeps its zone."),
    HALFNUT_FIGURE(PreferredFit, name, "What it is for."),
    HALFNUT_FIGURE(PreferredFit, source, "Where it is from."),
    HALFNUT_FIGURE(PreferredFit, kind, "Kind of that source."),
};
constexpr RecordRow kPreferredRecord{"PreferredFit", "A fit to choose first.", kPreferredRows, {}, {"{fit}"}};
constexpr std::array kPreferredFigures{
    HALFNUT_RECORDS(PreferredFitsAnswer, fits, kPreferredRecord, "The fits, by name."),
    HALFNUT_FIGURE(PreferredFitsAnswer, told, "What a person should know."),
    HALFNUT_FIGURE(PreferredFitsAnswer, evidence, "What each figure rests on."),
};
constexpr std::array kPreferredSays{SaidRow{"{fit}", "{basis} basis, {name} [{kind}]", "fits"}};
constexpr RecordRow kPreferredFitsRecord{"PreferredFits",
                                         "Fits to choose first.",
                                         kPreferredFigures,
                                         {},
                                         {"{fits.count} fits to choose first: {fits}", kPreferredSays},
                                         false,
                                         "fits"};

}  // namespace

PreferredFitsAnswer preferred_fits(const PreferredFitsAsk& asked, const Asking& asking) {
    PreferredFitsAnswer out;
    for (const fits::PreferredFitRow& row : asking.catalogue.preferred_fits) {
        if (!asked.basis || row.basis == enum_name(*asked.basis)) {
            const EvidenceText text =
                as_tabulated("fit", row_ref(asking.catalogue.preferred_fits, row), asking.catalogue);
            out.fits.push_back({std::string(row.fit), std::string(row.basis), std::string(row.name),
                                text.source, text.kind});
        }
    }
    return out;
}

constinit const Question kPreferredFits = [] {
    Question out = question<PreferredFitsAsk, PreferredFitsAnswer, &preferred_fits>(
        "fits", "preferred_fits", "The fits to choose first, with their basis, use and source.",
        kPreferredAsked, kPreferredFitsRecord);
    out.sources = "ANSI B4.2 and B4.1, as each row names them.";
    out.example = "preferred-fits\npreferred-fits --basis shaft";
    return out;
}();

}  // namespace halfnut::threads
