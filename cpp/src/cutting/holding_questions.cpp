// How work gives way where it is held: its bend along its length, a ring in jaws, and both under a cut.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cut_answer.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/words.hpp"
#include "halfnut/cutting/heat.hpp"
#include "halfnut/cutting/holding.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/column.hpp"
#include "lathe_rows.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

constexpr double kThinRing = 0.2;  // wall over mean radius up to which the ring formula holds well
constexpr double kTakesTolerance = 0.5;
constexpr double kWarmShare = 0.25;  // of the tolerance, which growth may take unsaid
constexpr double kRingForceN = 1000.0;
constexpr std::array kRingJaws{2, 3, 4, 6};
constexpr std::array kJawsInstead{2, 3, 4, 6, 12};
constexpr int kPlacesTold = 5;
constexpr double kPassiveShare = 0.4;  // of the cutting force, from which the edge's angle is worth a word
constexpr double kHeavyKg = 20.0;      // common practice

bool has(double value) {
    return !std::isnan(value);
}

// ---- what is asked ----------------------------------------------------------------------------------------

template <class Formula>
constexpr Argument range_of(string_view name) {
    for (const Argument& each : Formula::arguments) {
        if (each.name == name) {
            return each;
        }
    }
    throw "no such argument";
}

constexpr string_view kFrictionSaid =
    "Friction of the jaws on the work: smooth jaws 0.1 to 0.2, serrated ones on raw stock 0.3 to 0.5.";
constexpr Argument kSafety = between("safety", 1.0, 1000.0);  // Halfnut's own end
constexpr string_view kSafetySaid = "Safety against slipping; asked for with the friction, never assumed.";
constexpr string_view kJawsSaid = "Jaws of the chuck; each contact of a pie jaw or a collet counts.";

#define ASKED(member, about) HALFNUT_ASKED(WorkBendAsk, member, about)
constexpr std::array kBendAsked{
    ASKED(sections,
          "Length, diameter and, of a tube, bore of each section, from the chuck or the first centre on.")
        .required()
        .or_a("Section")
        .as_length()
        .leads(),
    ASKED(force_n, "Force across the work, such as 120 N or 27 lbf.").with_unit().required().named(),
    ASKED(hold, "How the work is held."),
    ASKED(alloy, "The work's material, whose Young's modulus is taken.").or_a("Alloy"),
    ASKED(youngs_modulus_gpa, "Young's modulus, in place of an alloy's.").above(0),
    ASKED(steadies_mm, "Place of each fixed steady, from the chuck or the first centre.").called("steadies"),
    ASKED(centre_n_um, "Stiffness of a centre.").above(0).usually("one that does not give"),
    ASKED(chuck_n_um, "Stiffness of the work's seat in the chuck.")
        .above(0)
        .usually("one that does not give"),
    ASKED(tolerance_mm, "Tolerance of the diameter; a bend that takes over half of it is a caution.")
        .above(0),
    ASKED(places, "Places along the work to answer.").from(2, 10'000).usually("101"),
};
#undef ASKED

#define ASKED(member, about) HALFNUT_ASKED(JawSqueezeAsk, member, about)
constexpr std::array kSqueezeAsked{
    ASKED(outside_mm, "Diameter of the ring where the jaws grip it.").above(0).required().leads(),
    ASKED(bore_mm, "Bore of the ring, which is turned in the jaws.").above(0).required(),
    ASKED(width_mm, "Width of the ring that the jaws bear on.").above(0).required().named(),
    ASKED(cutting_force_n, "Force that turns the work in the jaws, such as 300 N.")
        .in(range_of<JawForceNeeded>("cutting_force_n"))
        .with_unit()
        .required()
        .named(),
    ASKED(friction, kFrictionSaid).in(range_of<JawForceNeeded>("friction")).required().named(),
    ASKED(safety, kSafetySaid).in(kSafety).required().named(),
    ASKED(jaws, kJawsSaid).in(range_of<JawForceNeeded>("jaws")).usually("3"),
    ASKED(cut_diameter_mm, "Diameter where the tool cuts.").above(0).usually("the bore"),
    ASKED(alloy, "The work's material, whose Young's modulus is taken.").or_a("Alloy"),
    ASKED(youngs_modulus_gpa, "Young's modulus, in place of an alloy's.").above(0),
    ASKED(spindle_rpm, "Spindle speed at which the grip must hold.")
        .in(range_of<JawForceAtSpeed>("spindle_rpm")),
    ASKED(jaw_mass_kg,
          "Mass of one jaw with its top jaw; with it and a spindle speed the force to set is told.")
        .in(range_of<JawForceAtSpeed>("jaw_mass_kg")),
    ASKED(mass_radius_mm, "Distance of the jaw's centre of mass from the axis.").above(0),
    ASKED(allowed_mm, "Out-of-round that may remain on the radius.").above(0),
};
#undef ASKED

#define ASKED(member, about) HALFNUT_ASKED(LatheAsk, member, about)
constexpr std::array kGripAsked{
    ASKED(grip.jaws, kJawsSaid).in(range_of<JawForceNeeded>("jaws")).usually("3"),
    ASKED(grip.grip_diameter_mm, "Diameter where the jaws grip.").above(0).usually("that before the cut"),
    ASKED(grip.grip_width_mm, "Width that the jaws bear on.").above(0).usually("a quarter of the diameter"),
    ASKED(grip.friction, kFrictionSaid).in(range_of<JawForceNeeded>("friction")),
    ASKED(grip.safety, kSafetySaid).in(kSafety),
    ASKED(grip.tolerance_mm, "Tolerance of the diameter.").above(0),
    ASKED(grip.out_of_round_mm, "Out-of-round that may remain on the radius of a tube.").above(0),
};
#undef ASKED
constexpr auto kHoldAsked = with_those_of(lathe::kTurnAsked, kGripAsked, std::array<string_view, 0>{});

// ---- what is answered -------------------------------------------------------------------------------------

double larger_mm(const WorkBend& bend) {
    return 2.0 * bend.beam.worst_mm;
}
double ring_force_n(const Holding& /*answer*/) {
    return kRingForceN;
}

#define FIGURE(member, about) HALFNUT_FIGURE(WorkBend, member, about)
constexpr std::array kBendFigures{
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(hold, "How the work is held."),
    FIGURE(force_n, "Force across the work.").always(),
    FIGURE(beam.places_mm, "Where the tool stands, from the chuck or the first centre."),
    FIGURE(beam.bend_mm, "Deflection there."),
    FIGURE(diameter_error_mm, "How much larger than set the diameter comes there."),
    FIGURE(beam.worst_mm, "Greatest deflection.").always(),
    FIGURE(beam.worst_at_mm, "Where that is.").always(),
    FIGURE(taper_mm, "Largest diameter turned less the smallest.").always(),
    FIGURE(beam.length_mm, "Length of the work.").always(),
    FIGURE(beam.slenderness, "Greatest free length over the mean diameter of the work.").always(),
    made_figure<&larger_mm>("larger_mm", "How much larger than set the worst place is turned."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kWorkBendSays{
    SaidRow{"diameter", "up to {larger_mm} larger than set; largest less smallest {taper_mm}"},
    SaidRow{"length", "{length_mm:travel}, {slenderness:.1f} diameters unsupported"},
};
constexpr RecordRow kBendRecord{
    "WorkBend",
    "How far work deflects at the tool as the tool travels along it.",
    kBendFigures,
    {},
    {"deflects {worst_mm} at {worst_at_mm:travel}, {hold}, under {force_n} across the work", kWorkBendSays,
     "diameter, length", true}};

#define FIGURE(member, about) HALFNUT_FIGURE(InJaws, member, about)
constexpr std::array kJawsFigures{
    FIGURE(jaws, "Jaws or contacts."),
    FIGURE(out_of_round_mm, "Out-of-round in them, peak to valley on the radius.").always(),
};
#undef FIGURE
constexpr RecordRow kJawsRecord{"InJaws",
                                "Out-of-round of a ring in a number of jaws.",
                                kJawsFigures,
                                {},
                                {"{out_of_round_mm} with {jaws}"}};

#define FIGURE(member, about) HALFNUT_FIGURE(JawSqueeze, member, about)
constexpr std::array kSqueezeFigures{
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(jaws, "Jaws or contacts."),
    FIGURE(jaw_force_n, "Force that each jaw needs so that the work does not slip.").always(),
    FIGURE(jaw_force_at_rest_n,
           "Force to set each jaw to at standstill so that this is left at speed, for the jaws fly outward."),
    FIGURE(out_of_round_mm, "Out-of-round once the work is let go, peak to valley on the radius.").always(),
    FIGURE(wall_mm, "Wall of the ring.").always(),
    FIGURE(mean_diameter_mm, "Mean diameter of the ring.").always(),
    HALFNUT_RECORDS(JawSqueeze, by_jaws, kJawsRecord,
                    "The same grip in all, shared by other numbers of jaws."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kJawSqueezeSays{
    SaidRow{"grip", "{jaw_force_n} a jaw[; set {jaw_force_at_rest_n} at standstill]"},
    SaidRow{"instead", "{by_jaws} jaws or contacts, the same grip in all"},
};
constexpr RecordRow kSqueezeRecord{
    "JawSqueeze",
    "A ring or tube in jaws: the force that holds it, and how far out of round it comes when bored there.",
    kSqueezeFigures,
    {},
    {"out of round by {out_of_round_mm} on the radius when let go of {jaws} jaws", kJawSqueezeSays,
     "grip, instead", true}};

constexpr std::array kPlaceFigures{
    HALFNUT_FIGURE(PlaceOnWork, at_mm, "Where the tool stands, from the jaws or the first centre.").always(),
    HALFNUT_FIGURE(PlaceOnWork, larger_mm, "How much larger than set the diameter comes there.").always(),
};
constexpr RecordRow kPlaceRecord{"PlaceOnWork",
                                 "A place along the work and the diameter that it comes to.",
                                 kPlaceFigures,
                                 {},
                                 {"{larger_mm} at {at_mm:travel}"}};

constexpr std::array kWayFigures{
    HALFNUT_FIGURE(OtherWay, name, "How the work is held."),
    HALFNUT_FIGURE(OtherWay, bend_mm, "Greatest deflection of the same work held so.").always(),
};
constexpr RecordRow kWayRecord{
    "OtherWay", "Another way to hold the work.", kWayFigures, {}, {"{bend_mm} {name}"}};

#define FIGURE(member, about) HALFNUT_FIGURE(Holding, member, about)
constexpr std::array kHoldFigures{
    FIGURE(unit, "Unit of the question: in or mm."),
    HALFNUT_RECORD(Holding, cut, kCutRecord, "The cut."),
    HALFNUT_RECORD(Holding, bend, kBendRecord, "Bend under the passive force at the upper edge of its band."),
    HALFNUT_RECORDS(Holding, places, kPlaceRecord, "Places along the work and the diameters they come to."),
    HALFNUT_RECORDS(Holding, other_ways, kWayRecord, "The same work held otherwise."),
    FIGURE(steadies_for_span, "Further fixed steadies that bring the free spans down to what is usual."),
    FIGURE(jaw_force_n,
           "Force that each jaw needs so that the cut does not turn the work; needs friction and safety."),
    HALFNUT_RECORDS(Holding, rings, kJawsRecord,
                    "Of a tube: out-of-round for 1000 N a jaw, by number of jaws."),
    HALFNUT_RECORD(Holding, squeeze, kSqueezeRecord, "Of a tube: the grip that the cut needs."),
    FIGURE(warming_k,
           "How much warmer the cut makes the work when no heat leaves it; needs a length of the cut."),
    FIGURE(growth_mm, "How much larger it then measures."),
    FIGURE(ways, "What to do at the machine, in the order in which it helps."),
    made_figure<&ring_force_n>("ring_force_n", "Force of a jaw that the rings are answered for."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What the figures rest on beside those of cut, bend and squeeze."),
};
#undef FIGURE
constexpr std::array kHoldingSays{
    SaidRow{"larger", "{places}"},
    SaidRow{"force", "{bend.force_n} across the work at most, {cut.passive_force_n} computed"},
    SaidRow{"otherwise", "{other_ways}"},
    SaidRow{"grip", "{jaw_force_n} a jaw, so that the cut does not turn the work"},
    SaidRow{"round",
            "{squeeze.out_of_round_mm} out when {squeeze.jaws} jaws let go; the same grip in all: "
            "{squeeze.by_jaws} "
            "jaws or contacts"},
    SaidRow{"round", "{squeeze!}{rings?}for {ring_force_n} a jaw: {rings} jaws"},
    SaidRow{"warmth", "up to {warming_k} warmer after the cut: measures {growth_mm} too large"},
    SaidRow{"*do", "ways"},
};
constexpr RecordRow kHoldRecord{"Holding",
                                "Work where it is held, under one cut.",
                                kHoldFigures,
                                {},
                                {"deflects up to {bend.worst_mm} at {bend.worst_at_mm:travel}, {bend.hold}, "
                                 "{bend.slenderness:.1f} diameters unsupported  ({cut.alloy.title})",
                                 kHoldingSays, "grip, round, do", true}};

// ---- how it is answered -----------------------------------------------------------------------------------

double modulus_gpa(const material::AlloyRow& alloy, string_view figure) {
    if (!has(alloy.youngs_modulus_gpa)) {
        throw NotTabulatedError(material::lacks_modulus(alloy, figure));
    }
    return alloy.youngs_modulus_gpa;
}

double modulus_gpa(const std::string& alloy, double given_gpa, string_view figure, const Asking& asking) {
    if (alloy.empty() != has(given_gpa)) {
        throw DomainError("give an alloy or youngs_modulus_gpa, one of the two");
    }
    return alloy.empty() ? given_gpa : modulus_gpa(material::find_alloy(asking.catalogue, alloy), figure);
}

WorkBend bend_of(BeamBend beam, Hold hold, double force_n, double tolerance_mm, const Asking& asking) {
    WorkBend out;
    out.unit = unit_name(asking.inch);
    out.hold = hold;
    out.force_n = force_n;
    out.beam = std::move(beam);
    for (const double each : out.beam.bend_mm) {
        out.diameter_error_mm.push_back(2.0 * each);
    }
    const auto [least, most] = std::minmax_element(out.beam.bend_mm.begin(), out.beam.bend_mm.end());
    out.taper_mm = 2.0 * (*most - *least);
    if (out.beam.slender) {
        out.told.push_back({"slender", 0.0, {}});
    }
    if (2.0 * out.beam.worst_mm > kTakesTolerance * tolerance_mm) {
        out.told.push_back({"bend_takes_tolerance", 0.0, {}});
    }
    out.evidence.push_back(rests_on("bend_mm", rule::work_beam, asking.catalogue));
    out.evidence.push_back(rests_on("diameter_error_mm", rule::work_diameter_error, asking.catalogue));
    return out;
}

/// Force that a jaw's mass takes from its grip at speed.
double flung_n(double mass_kg, double radius_mm, double rpm) {
    constexpr double kAmpleN = 1e9;  // a grip that speed cannot use up
    return kAmpleN - jaw_force_at_speed_n(kAmpleN, mass_kg, radius_mm, rpm);
}

// ---- under a cut

/// Weight of a jaw, and the radius of its centre of mass: at most the chuck's rim; NaN where it is not known.
struct Jaw {
    double mass_kg = kNaN;
    double radius_mm = kNaN;
};

Jaw jaw_of(const LatheAsk& asked) {
    std::vector<std::string> unsaid;
    const int place = holder_place(asked.machine, asked.chuck, asked.cut.hold, unsaid);
    if (place < 0) {
        return {};
    }
    const machine::Chuck& chuck = asked.machine->chucks[static_cast<std::size_t>(place)];
    return chuck.jaw_mass_kg > 0.0 ? Jaw{chuck.jaw_mass_kg, chuck.diameter_mm / 2.0} : Jaw{};
}

/// What the cut leaves of the work, or the sections that were said.
std::vector<WorkSection> sections_of(const LatheAsk& asked, double left_mm) {
    return !asked.sections.empty()
               ? asked.sections
               : std::vector<WorkSection>{
                     {asked.cut.stick_out_mm, left_mm, has(asked.cut.bore_mm) ? asked.cut.bore_mm : 0.0}};
}

void set_other_ways(const WorkBeam& beam, Holding& out) {
    const std::vector<double> middle{out.bend.beam.length_mm / 2.0};
    const auto add = [&](string_view name, Hold hold, const std::vector<double>& steadies) {
        if (hold != beam.hold || steadies != beam.steadies_mm) {
            WorkBeam other = beam;
            other.hold = hold;
            other.steadies_mm = steadies;
            const std::vector<double>& along = out.bend.beam.places_mm;
            out.other_ways.push_back(
                {std::string(name),
                 bend_along(other, out.bend.force_n, kBeamPlaces, along.front(), along.back()).worst_mm});
        }
    };
    add("with a centre", Hold::chuck_and_centre, {});
    add("with a centre and a steady half-way", Hold::chuck_and_centre, middle);
    add("between centres", Hold::between_centres, {});
    add("between centres with a steady half-way", Hold::between_centres, middle);
}

/// The grip that the cut needs and, of a tube, how far out of round jaws leave it.
void set_grip(const LatheAsk& asked, const material::AlloyRow& alloy, const Asking& asking, Holding& out) {
    const Grip& grip = asked.grip;
    const double diameter = asked.cut.diameter_mm;
    const double pull = out.cut.cut.cutting_force_high_n;
    const double rpm = out.cut.cut.spindle_rpm;
    const Jaw jaw = jaw_of(asked);
    const bool known = has(grip.friction);
    if (known) {
        const double at = has(grip.grip_diameter_mm) ? grip.grip_diameter_mm : diameter;
        out.jaw_force_n = jaw_force_needed_n(pull, diameter, at, grip.jaws, grip.friction, grip.safety);
        if (has(jaw.mass_kg)) {
            out.jaw_force_n += flung_n(jaw.mass_kg, jaw.radius_mm, rpm);
        }
    }
    if (has(asked.cut.bore_mm)) {
        const double bore = asked.cut.bore_mm;
        const double width = has(grip.grip_width_mm) ? grip.grip_width_mm : diameter / 4.0;
        const double modulus = modulus_gpa(alloy, "out-of-round");
        for (const int jaws : kRingJaws) {
            out.rings.push_back({jaws, ring_out_of_round_mm(kRingForceN, jaws, (diameter + bore) / 2.0,
                                                            (diameter - bore) / 2.0, width, modulus)});
        }
        if (known) {
            JawSqueezeAsk ring;
            ring.outside_mm = diameter;
            ring.bore_mm = bore;
            ring.width_mm = width;
            ring.cutting_force_n = pull;
            ring.friction = grip.friction;
            ring.safety = grip.safety;
            ring.jaws = grip.jaws;
            ring.cut_diameter_mm = diameter;
            ring.youngs_modulus_gpa = modulus;
            ring.spindle_rpm = has(jaw.mass_kg) ? rpm : kNaN;
            ring.jaw_mass_kg = jaw.mass_kg;
            ring.mass_radius_mm = jaw.radius_mm;
            ring.allowed_mm = grip.out_of_round_mm;
            out.squeeze = jaw_squeeze(ring, asking);
        } else {
            out.evidence.push_back(rests_on("rings", rule::work_ring, asking.catalogue));
        }
    }
    if (known && !out.squeeze) {
        out.evidence.push_back(rests_on("jaw_force_n", rule::jaw_force, asking.catalogue));
    }
}

/// How much warmer the work gets in the cut, and how much larger its diameter then measures.
void set_warmth(const LatheAsk& asked, const material::AlloyRow& alloy, double left_mm, const Asking& asking,
                Holding& out) {
    const double bore = has(asked.cut.bore_mm) ? asked.cut.bore_mm : 0.0;
    const bool known = has(out.cut.cut.time_s) && has(out.cut.heat.heat_to_work_high_w) &&
                       has(alloy.specific_heat_j_kg_k) && has(alloy.expansion_um_m_k);
    if (!known || left_mm <= bore) {
        return;
    }
    out.warming_k = work_warming_k(out.cut.heat.heat_to_work_high_w, out.cut.cut.time_s, left_mm, bore,
                                   out.bend.beam.length_mm, alloy.density_kg_m3, alloy.specific_heat_j_kg_k);
    out.growth_mm = out.warming_k * alloy.expansion_um_m_k * 1e-6 * left_mm;
    if (out.growth_mm > kWarmShare * asked.grip.tolerance_mm) {
        out.told.push_back({"warm_size", 0.0, {}});
    }
    out.evidence.push_back(rests_on("warming_k", rule::work_warming, asking.catalogue));
}

void set_ways(const LatheAsk& asked, const Catalogue& catalogue, Holding& out) {
    const auto add = [&](string_view code) {
        const string_view plural = out.steadies_for_span == 1 ? "" : "s";
        out.ways.push_back(filled(find_words("holding", code, catalogue), [&](string_view name) {
            return name == "count" ? fmt::format("{}", out.steadies_for_span) : std::string(plural);
        }));
    };
    if (asked.cut.hold == Hold::chuck && out.bend.beam.slender) {
        add("centre");
    } else if (out.steadies_for_span > 0) {
        add("steadies");
    }
    if (std::abs(out.cut.cut.passive_force_n) > kPassiveShare * out.cut.cut.cutting_force_n) {
        add("edge");
    }
    if (out.bend.taper_mm > 0.0) {
        add("spring");
    }
    if (!out.rings.empty()) {
        add("ring");
    }
}

/// Of the cut only what a person must heed at the chuck; the beam says whether the work is slender.
void keep_cautions(const Catalogue& catalogue, std::vector<Told>& told) {
    std::erase_if(told, [&](const Told& each) {
        const CautionRow* const row = find_caution(each.code, catalogue);
        return each.code == "slender" || (row != nullptr && row->rank == Rank::note);
    });
}

}  // namespace

WorkBend work_bend(const WorkBendAsk& asked, const Asking& asking) {
    WorkBeam beam{.sections = asked.sections, .hold = asked.hold, .steadies_mm = asked.steadies_mm};
    beam.youngs_modulus_gpa = modulus_gpa(asked.alloy, asked.youngs_modulus_gpa, "deflection", asking);
    beam.centre_n_um = asked.centre_n_um;
    beam.chuck_n_um = asked.chuck_n_um;
    return bend_of(bend_along(beam, asked.force_n, asked.places), beam.hold, asked.force_n,
                   asked.tolerance_mm, asking);
}

JawSqueeze jaw_squeeze(const JawSqueezeAsk& asked, const Asking& asking) {
    const double modulus = modulus_gpa(asked.alloy, asked.youngs_modulus_gpa, "out-of-round", asking);
    if (!(asked.bore_mm < asked.outside_mm)) {
        throw DomainError(fmt::format("bore_mm must be below outside_mm, {:g} mm, got {:g} mm",
                                      asked.outside_mm, asked.bore_mm));
    }
    const int said = static_cast<int>(has(asked.spindle_rpm)) + static_cast<int>(has(asked.jaw_mass_kg)) +
                     static_cast<int>(has(asked.mass_radius_mm));
    if (said != 0 && said != 3) {
        throw DomainError("spindle_rpm, jaw_mass_kg and mass_radius_mm are given together or not at all");
    }
    JawSqueeze out;
    out.unit = unit_name(asking.inch);
    out.jaws = asked.jaws;
    out.wall_mm = (asked.outside_mm - asked.bore_mm) / 2.0;
    out.mean_diameter_mm = (asked.outside_mm + asked.bore_mm) / 2.0;
    out.jaw_force_n = jaw_force_needed_n(asked.cutting_force_n,
                                         has(asked.cut_diameter_mm) ? asked.cut_diameter_mm : asked.bore_mm,
                                         asked.outside_mm, asked.jaws, asked.friction, asked.safety);
    out.evidence.push_back(rests_on("jaw_force_n", rule::jaw_force, asking.catalogue));
    out.evidence.push_back(rests_on("out_of_round_mm", rule::work_ring, asking.catalogue));
    if (said != 0) {
        out.jaw_force_at_rest_n =
            out.jaw_force_n + flung_n(asked.jaw_mass_kg, asked.mass_radius_mm, asked.spindle_rpm);
        out.evidence.push_back(rests_on("jaw_force_at_rest_n", rule::jaw_force_at_speed, asking.catalogue));
    }
    const double bends = has(out.jaw_force_at_rest_n) ? out.jaw_force_at_rest_n : out.jaw_force_n;
    const auto squeezed = [&](int jaws) {
        return ring_out_of_round_mm(bends * asked.jaws / jaws, jaws, out.mean_diameter_mm, out.wall_mm,
                                    asked.width_mm, modulus);
    };
    out.out_of_round_mm = squeezed(asked.jaws);
    for (const int jaws : kJawsInstead) {
        if (jaws != asked.jaws) {
            out.by_jaws.push_back({jaws, squeezed(jaws)});
        }
    }
    if (out.wall_mm > kThinRing * out.mean_diameter_mm / 2.0) {
        out.told.push_back({"ring_is_thick", 0.0, {}});
    }
    if (out.out_of_round_mm > asked.allowed_mm) {
        out.told.push_back({"ring_out_of_round", 0.0, {}});
    }
    return out;
}

Holding hold(const LatheAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    if (has(asked.cut.stick_out_mm) != asked.sections.empty()) {
        throw DomainError("give stick_out or sections, one of the two");
    }
    if (has(asked.grip.friction) != has(asked.grip.safety)) {
        throw DomainError("friction and safety are given together or not at all");
    }
    const material::AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    Holding out;
    out.unit = unit_name(asking.inch);
    out.cut = turn(asked, asking);
    const CutResult& cut = out.cut.cut;
    if (!has(cut.passive_force_n) || !has(cut.cutting_force_n)) {
        throw NotTabulatedError(out.cut.lacking.empty()
                                    ? fmt::format("no force is known for {}", material::full_name(alloy))
                                    : out.cut.lacking.front());
    }
    const double left_mm = asked.cut.diameter_mm - 2.0 * (has(cut.depth_mm) ? cut.depth_mm : 0.0);
    std::optional<TurnedBeam> turned;
    if (has(asked.cut_at_mm)) {
        turned.emplace(turned_beam(asked.sections, asked.steadies_mm, alloy,
                                   {asked.cut.hold, asked.cut_at_mm, asked.cut.length_mm, left_mm}));
    }
    const WorkBeam beam = turned ? turned->with(left_mm)
                                 : WorkBeam{.sections = sections_of(asked, left_mm),
                                            .hold = asked.cut.hold,
                                            .steadies_mm = asked.steadies_mm,
                                            .youngs_modulus_gpa = modulus_gpa(alloy, "deflection")};
    const double force = cut.passive_force_n * (cut.cutting_force_high_n / cut.cutting_force_n);
    BeamBend bend = bend_along(beam, force);
    if (turned) {
        const double end = turned->length_mm() - asked.cut_at_mm;
        const double length = has(asked.cut.length_mm) ? asked.cut.length_mm : end;
        bend = bend_along(beam, force, kBeamPlaces, std::max(0.0, end - length), end);
        bend.slender = turned->slender(asked.cut.diameter_mm);
    }
    out.bend = bend_of(std::move(bend), beam.hold, force, asked.grip.tolerance_mm, asking);
    for (int i = 0; i < kPlacesTold; ++i) {
        const auto at = static_cast<std::size_t>(i * (kBeamPlaces - 1) / (kPlacesTold - 1));
        out.places.push_back({out.bend.beam.places_mm[at], out.bend.diameter_error_mm[at]});
    }
    set_other_ways(beam, out);
    const double span = beam.hold == Hold::chuck ? kSlenderChuck : kSlenderCentre;
    const bool firm = turned && !out.bend.beam.slender;
    out.steadies_for_span =
        firm ? 0 : bounds::whole(std::ceil(out.bend.beam.slenderness / span - 1e-9), 1) - 1;
    set_grip(asked, alloy, asking, out);
    set_warmth(asked, alloy, left_mm, asking, out);
    if (beam.hold != Hold::between_centres) {
        out.told.push_back({"chuck_key", 0.0, {}});
    }
    const double bore = has(asked.cut.bore_mm) ? asked.cut.bore_mm : 0.0;
    const double mass_kg = threads::tube_area_mm2(asked.cut.diameter_mm, bore) * out.bend.beam.length_mm *
                           1e-9 * alloy.density_kg_m3;
    if (mass_kg > kHeavyKg) {
        const UnitSystem system = asking.inch ? UnitSystem::inch : UnitSystem::metric;
        out.told.push_back({"heavy_work", mass_kg, {{"mass", spell(mass_kg, FigureKind::mass, system)}}});
    }
    set_ways(asked, catalogue, out);
    keep_cautions(catalogue, out.cut.told);
    return out;
}

namespace {

template <class Asked, class Answered, Answered (*Evaluate)(const Asked&, const Asking&)>
constexpr Question holding_question(string_view name, string_view about, std::span<const AskedRow> rows,
                                    const RecordRow& record, string_view example) {
    Question out = cut_question<Asked, Answered, Evaluate>(name, about, rows, record, example);
    out.sources =
        "Beams by the unit-load theorem; thin rings after Timoshenko, Strength of Materials; the rules that "
        "the "
        "evidence names.";
    return out;
}

}  // namespace

constinit const std::array<Question, 3> kHoldingQuestions{
    holding_question<LatheAsk, Holding, &hold>(
        "hold",
        "How far work deflects, is squeezed and warms where it is held, under the cut that turning would "
        "make.",
        kHoldAsked, kHoldRecord,
        "hold 6061-T6 20mm --stick-out 120mm --depth 0.5mm --length 100mm\n"
        "hold 6061-T6 1.25in --bore 1.125in --stick-out 3in --friction 0.15 --safety 2\n"
        "hold 4130-N 1in --section 4in,1in --section 6in,0.625in --hold \"between centres\" --steady 6in"),
    holding_question<WorkBendAsk, WorkBend, &work_bend>(
        "work_bend", "How far stepped work deflects at the tool, and the diameters it leaves.", kBendAsked,
        kBendRecord, "work-bend 6in,1in --force 100N --alloy 1018"),
    holding_question<JawSqueezeAsk, JawSqueeze, &jaw_squeeze>(
        "jaw_squeeze", "The jaw force that a ring or tube needs, and how far out of round that leaves it.",
        kSqueezeAsked, kSqueezeRecord,
        "jaw-squeeze 60mm 54mm --width 20mm --cutting-force 150N --friction 0.15 --safety 2 --alloy 6061"),
};

}  // namespace halfnut::cutting
