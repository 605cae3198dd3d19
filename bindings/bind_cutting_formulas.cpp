// Cutting: level-1 formulas.

#include <fmt/format.h>
#include <pybind11/stl.h>

#include <algorithm>
#include <limits>
#include <map>

#include "bind.hpp"
#include "figures.hpp"
#include "halfnut/cutting/chase.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/heat.hpp"
#include "halfnut/cutting/holes.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/cutting/milling_force.hpp"
#include "halfnut/cutting/orthogonal.hpp"
#include "halfnut/cutting/path.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/tool_life.hpp"
#include "halfnut/evidence.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;
using namespace cutting;
using namespace pybind11::literals;

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

std::vector<double> work_bend(const std::vector<std::array<double, 3>>& sections, const std::string& hold,
                              double force_n, const std::vector<double>& places_mm, double youngs_modulus_gpa,
                              const std::vector<double>& steadies_mm, double centre_n_um, double chuck_n_um) {
    WorkBeam beam;
    if (!enum_from_name(hold, beam.hold)) {
        throw DomainError("hold must be 'chuck', 'chuck and centre' or 'between centres', got '" + hold +
                          "'");
    }
    for (const auto& [length, diameter, bore] : sections) {
        beam.sections.push_back({length, diameter, bore});
    }
    beam.youngs_modulus_gpa = youngs_modulus_gpa;
    beam.steadies_mm = steadies_mm;
    beam.centre_n_um = centre_n_um;
    beam.chuck_n_um = chuck_n_um;
    std::vector<double> bend(places_mm.size());
    std::string why;
    if (!evaluate(beam, force_n, places_mm, bend, &why).ok()) {
        throw DomainError("work_bend_mm: " + why);
    }
    return bend;
}

template <class E>
E named(const char* argument, const std::string& text) {
    E value{};
    if (!enum_from_name(text, value)) {
        std::string allowed;
        for (const auto& [candidate, spelling] : enum_names(E{})) {
            allowed += (allowed.empty() ? "'" : ", '") + std::string(spelling) + "'";
        }
        throw DomainError(std::string(argument) + " must be one of " + allowed + ", got '" + text + "'");
    }
    return value;
}

/// The numbers of a request by name; a name that it does not know is an error.
void fill(ChaseRequest& request, const std::map<std::string, double>& numbers) {
    const std::map<std::string, double ChaseRequest::*> known{
        {"blank_mm", &ChaseRequest::blank_mm},
        {"pitch_diameter_mm", &ChaseRequest::pitch_diameter_mm},
        {"pitch_mm", &ChaseRequest::pitch_mm},
        {"half_angle_deg", &ChaseRequest::half_angle_deg},
        {"nose_radius_mm", &ChaseRequest::nose_radius_mm},
        {"nose_flat_mm", &ChaseRequest::nose_flat_mm},
        {"compound_deg", &ChaseRequest::compound_deg},
        {"graduation_mm", &ChaseRequest::graduation_mm},
        {"first_mm", &ChaseRequest::first_mm},
        {"least_mm", &ChaseRequest::least_mm},
        {"measure_left_mm", &ChaseRequest::measure_left_mm},
        {"kc11_n_mm2", &ChaseRequest::kc11_n_mm2},
        {"mc", &ChaseRequest::mc},
        {"force_limit_n", &ChaseRequest::force_limit_n},
    };
    for (const auto& [name, value] : numbers) {
        const auto found = known.find(name);
        if (found == known.end()) {
            throw DomainError("chase_schedule has no number '" + name + "'");
        }
        if (std::isnan(value)) {
            throw DomainError(name + " must be finite, got nan");
        }
        request.*(found->second) = value;
    }
}

py::dict chase_schedule(bool internal, const std::string& infeed, bool equal_depths,
                        const std::map<std::string, double>& numbers) {
    ChaseRequest request;
    request.internal = internal;
    request.infeed = named<Infeed>("infeed", infeed);
    request.equal_depths = equal_depths;
    fill(request, numbers);
    ChaseSchedule found;
    std::string why;
    if (!evaluate(request, found, &why).ok()) {
        throw DomainError("chase_schedule: " + why);
    }
    py::list passes;
    for (const ChasePass& pass : found.passes) {
        passes.append(py::dict("line"_a = pass.line, "travel_mm"_a = pass.travel_mm,
                               "depth_mm"_a = pass.depth_mm, "shift_mm"_a = pass.shift_mm,
                               "area_mm2"_a = pass.area_mm2, "force_n"_a = number_or_none(pass.force_n),
                               "pitch_diameter_mm"_a = pass.pitch_diameter_mm, "measure"_a = pass.measure));
    }
    return py::dict("depth_mm"_a = found.depth_mm, "travel_mm"_a = found.travel_mm,
                    "remainder_mm"_a = found.remainder_mm,
                    "line_on_pitch_diameter_mm"_a = found.line_on_pitch_diameter_mm,
                    "area_limit_mm2"_a = found.area_limit_mm2, "passes"_a = passes);
}

py::dict alloy_force_constants(const std::string& alloy, const SharedCatalogue& catalogue) {
    const material::AlloyRow& row = material::find_alloy(catalogue.get(), alloy);
    const ForceConstants found = force_constants(catalogue.get(), row, kNaN);
    return py::dict("kc11_n_mm2"_a = found.kc11_n_mm2, "mc"_a = found.mc);
}

py::dict dial_marks(std::pair<std::int64_t, std::int64_t> lead, std::pair<std::int64_t, std::int64_t> screw,
                    int wheel_threads, int marks) {
    const ThreadDial found =
        thread_dial(screw.first, screw.second, lead.first, lead.second, wheel_threads, marks);
    return py::dict("every"_a = found.every, "marks"_a = found.marks, "any_line"_a = found.any_line);
}

py::list rule_evidence(const std::vector<std::pair<std::string, std::string>>& rules,
                       const SharedCatalogue& catalogue) {
    py::list out;
    for (const std::pair<std::string, std::string>& each : rules) {
        const auto all = catalogue.get().rules;
        const auto found =
            std::find_if(all.begin(), all.end(), [&](const RuleRow& row) { return row.id == each.second; });
        if (found == all.end()) {
            throw DomainError(fmt::format("there is no rule '{}'", each.second));
        }
        const std::array<std::string_view, 1> names{each.first};
        const RuleId rule = rule_at(catalogue.get(), static_cast<std::size_t>(found - all.begin()));
        const EvidenceItem item{.figure = 0, .rule = rule, .row = {}};
        out.append(py::cast(evidence_text(item, names, catalogue.get())));
    }
    return out;
}

}  // namespace

void bind_cutting_formulas(pybind11::module_& module) {
    level1<SpindleSpeed>(module, "Spindle speed that gives a cutting speed at a diameter, rev/min.");
    level1<CuttingSpeed>(module, "Cutting speed at a diameter, m/min.");
    level1<FeedRate>(module, "Feed motion of a tool fed by the revolution, mm/min.");
    level1<TableFeed>(module, "Table feed of a milling cutter, mm/min.");
    level1<TurningRemoval>(module, "Metal removed in turning, cm3/min.");
    level1<MillingRemoval>(module, "Metal removed in milling, cm3/min.");
    level1<DrillingRemoval>(module, "Metal removed in drilling, cm3/min.");
    level1<FeedTime>(module, "Time of a feed motion, s.");
    level1<PointLength>(module, "Length of a drill's point, mm.");
    level1<CountersinkDepth>(module, "Depth of a countersink, mm.");
    level1<MillingApproach>(module,
                            "Travel of a milling cutter to full width, cutting with its periphery, mm.");
    level1<FaceMillingApproach>(module, "Travel of a centred face mill to full width, mm.");
    level1<ChipThickness>(module, "Uncut chip thickness in turning, mm.");
    level1<MeanEntering>(module, "Mean entering angle where the nose does part of the cutting, degrees.");
    level1<Engagement>(module, "Angle of the cutter's turn during which a tooth cuts, degrees.");
    level1<MillingChipMax>(module, "Greatest chip thickness of a milling tooth, mm.");
    level1<MillingChipMean>(module, "Mean chip thickness of a milling tooth, mm.");
    level1<ChipThinning>(module, "How much more feed a narrow cut bears for the same chip.");
    level1<SpecificCuttingForce>(module, "Specific cutting force after Kienzle, N/mm2.");
    level1<TurningForce>(module, "Cutting force in turning after Kienzle, N.");
    level1<RakeCorrection>(module, "Correction of the cutting force for the rake.");
    level1<SpeedCorrection>(module, "Correction of the cutting force for the cutting speed.");
    level1<UnitPowerForce>(module, "Specific cutting force that a unit power stands for, N/mm2.");
    level1<FeedFactor>(module, "Feed factor of the handbook's power constants.");
    level1<UnitPower>(module, "Power at the cutter from a unit power, kW.");
    level1<CuttingPower>(module, "Power at the cutter from force and speed, kW.");
    level1<MotorPower>(module, "Power at the motor, kW.");
    level1<SpindleTorque>(module, "Torque at the spindle of a force at a diameter, N m.");
    level1<TorquePower>(module, "Power of a torque at a spindle speed, kW.");
    level1<RoughnessRt>(module, "Height of the feed ridges that a round nose leaves, um.");
    level1<RoughnessRa>(module, "Mean roughness that a round nose leaves, um.");
    level1<MillingRoughnessRt>(module, "Height of the tooth marks of peripheral milling, um.");
    level1<DrillingTorque>(module, "Torque of a drill, N m.");
    level1<DrillingThrust>(module, "Thrust of a drill, N.");
    level1<TappingTorque>(module, "Torque of a cutting tap, N m.");
    level1<SecondMoment>(module, "Second moment of area of a round bar or tube, mm4.");
    level1<CantileverDeflection>(module, "Deflection at the load of a bar held at one end, mm.");
    level1<CentresDeflection>(module, "Deflection at the load of work between centres, mm.");
    level1<ChuckCentreDeflection>(module, "Deflection at the load of work in a chuck with a centre, mm.");
    level1<FirstWhirl>(module, "First whirl of a round bar or tube, rev/min.");
    level1<TaperAngle>(module, "Angle between the side of a taper and its axis, degrees.");
    level1<TailstockSetover>(module, "Set-over of the tailstock for a taper between centres, mm.");
    level1<RampLength>(module, "Travel along a slope to a depth, mm.");
    level1<HelixLength>(module, "Travel of the cutter's centre along a helix, mm.");
    level1<CentreFeed>(module, "Feed of the cutter's centre in a round hole, mm/min.");
    level1<ChipRatio>(module, "Chip thickness ratio.");
    level1<ShearAngle>(module, "Angle of the shear plane, degrees.");
    level1<ShearStrain>(module, "Shear strain of the chip.");
    level1<ShearForce>(module, "Force along the shear plane, N.");
    level1<ShearArea>(module, "Area of the shear plane, mm2.");
    level1<MerchantFriction>(module, "Friction angle on the rake face after Merchant, degrees.");
    level1<ChipSpeed>(module, "Speed at which the chip runs over the rake face, m/min.");
    level1<TemperatureRise>(module, "Mean rise of temperature at the chip after Cook, K.");
    level1<HeatToWork>(module, "Share of a cut's heat that goes into the work.");
    level1<WorkWarming>(module, "How much warmer a round piece gets when no heat leaves it, K.");
    level1<MillingFeedForce>(module, "Mean force against the feed over the tangential one, in milling.");
    level1<MillingCrossForce>(module, "Mean force across the feed over the tangential one, in milling.");
    level1<TaylorExponent>(module, "Taylor exponent from two trials.");
    level1<TaylorSpeed>(module, "Cutting speed for a tool life, m/min.");
    level1<TaylorLife>(module, "Tool life at a cutting speed, min.");
    level1<FastestLife>(module, "Tool life for the most parts an hour, min.");
    level1<EconomicLife>(module, "Tool life for the lowest cost of a part, min.");
    level1<RingOutOfRound>(module,
                           "Out-of-round of a thin ring bored in jaws, peak to valley on the radius, mm.");
    level1<JawForceNeeded>(module, "Force of each jaw that keeps the work from slipping, N.");
    level1<JawForceAtSpeed>(module, "Force of a jaw gripping from outside, at speed, N.");
    level1<SizeAt20>(module, "Size at 20 degrees of work measured warm, mm.");
    module.def("work_bend_mm", &work_bend, "sections"_a, "hold"_a, "force_n"_a, "places_mm"_a,
               "youngs_modulus_gpa"_a, "steadies_mm"_a = std::vector<double>{}, "centre_n_um"_a = kInfinite,
               "chuck_n_um"_a = kInfinite,
               "Deflection of stepped work at the tool, mm, as the tool travels. sections: length, diameter "
               "and bore of "
               "each, mm; hold: 'chuck', 'chuck and centre' or 'between centres'.");
    level1<ChasingDepth>(module, "Depth of the tool's tip below the blank at the pitch diameter wanted, mm.");
    level1<CompoundTravel>(module, "Travel of a compound that is set over, for a depth across the work, mm.");
    level1<StoppingRpm>(module,
                        "Fastest spindle at which the half nut is opened within the run-out, rev/min.");
    module.def("chase_schedule", &chase_schedule, "internal"_a, "infeed"_a, "equal_depths"_a, "numbers"_a,
               "Passes that cut a thread to its pitch diameter on whole lines of a dial; see ChaseRequest.");
    module.def("alloy_force_constants", &alloy_force_constants, "alloy"_a, "catalogue"_a,
               "Kienzle's constants of an alloy as tabulated or estimated: kc11_n_mm2 and mc.");
    module.def("thread_lead_fraction", &lead_fraction_mm, "thread"_a,
               "Lead of a thread in mm as a fraction: numerator and denominator.");
    module.def("thread_dial", &dial_marks, "lead_mm"_a, "screw_lead_mm"_a, "wheel_threads"_a, "marks"_a,
               "How often the marks of a thread dial fit; leads of thread and leadscrew in mm as fractions.");
    module.def(
        "whirl_span_mm",
        [](const std::string& hold, double length_mm, const std::vector<double>& steadies_mm) {
            return whirl_span_mm(named<Hold>("hold", hold), length_mm, steadies_mm);
        },
        "hold"_a, "length_mm"_a, "steadies_mm"_a,
        "Free span that work held by steadies whips with, as an overhang without them.");
    module.attr("WHIRL_ROOT_CHUCK") = kWhirlRootChuck;
    module.attr("WHIRL_SHARE") = kWhirlShare;
    module.def("rule_evidence", &rule_evidence, "rules"_a, "catalogue"_a,
               "Evidence of figures that each rest on one rule: pairs of figure and rule.");
    level1<TaylorLifeRatio>(module, "How tool life changes with speed, feed and depth together.");
}

}  // namespace halfnut::bind
