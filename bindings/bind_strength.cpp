// Strength of threads: areas, stripping, torque, walls.

#include <pybind11/stl.h>

#include "bind.hpp"
#include "figures.hpp"
#include "halfnut/threads/strength.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;
using namespace threads;

namespace {

/// A formula in millimetres and in inches.
template <template <Units> class Formula>
void both_units(py::module_& module, const char* metric, const char* inch) {
    level1<Formula<Units::metric>>(module, metric);
    level1<Formula<Units::inch>>(module, inch);
}

PartStrength part_strength(std::string_view side, const std::optional<double>& tensile_mpa,
                           const std::optional<double>& yield_mpa, const std::optional<double>& shear_mpa) {
    const auto given = [&](const char* what, const std::optional<double>& value) {
        return given_or_lacking(fmt::format("{}_{}_mpa", side, what), value);
    };
    return {given("tensile", tensile_mpa), given("yield", yield_mpa), given("shear", shear_mpa)};
}

py::list caution_codes(const ThreadStrength& strength) {
    py::list out;
    for (const auto& [caution, name] : enum_names(StrengthCaution{})) {
        if (strength.has(caution)) {
            out.append(py::str(name.data(), name.size()));
        }
    }
    return out;
}

void bind_answers(py::module_& module) {
    py::class_<PartStrength>(module, "PartStrength", "Strengths of one part of a joint, MPa.")
        .def(py::init(&part_strength), py::arg("side"), py::arg("tensile_mpa"),
             py::arg("yield_mpa") = py::none(), py::arg("shear_mpa") = py::none());
    py::class_<ThreadStrength>(module, "StrengthAnswer", "The core's answer on what a joint holds.")
        .def_property_readonly(
            "figures", [](const ThreadStrength& s) { return figures_by_name(kStrengthFigures, s.figures()); })
        .def_property_readonly("weakest",
                               [](const ThreadStrength& s) { return std::string(enum_name(s.weakest)); })
        .def_property_readonly("cautions", &caution_codes)
        .def("engagement_for", &engagement_for, py::arg("load_n"))
        .def(
            "evidence",
            [](const ThreadStrength& s, const SharedCatalogue& catalogue) {
                return evidence_list(s.evidence.items(), kStrengthFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "strength_answer",
        [](const Thread& external, const ThreadLimits& external_limits, const ThreadLimits& internal_limits,
           const PartStrength& external_strength, const PartStrength& internal_strength, double overlap_mm,
           double external_chamfer_mm, double external_run_out_mm, double internal_countersink_mm,
           double internal_run_out_mm, double external_bore_mm, std::optional<double> internal_outside_mm,
           std::optional<double> load_n, std::optional<double> factor_of_safety) {
            StrengthRequest request;
            request.sizes = strength_sizes(external, external_limits, internal_limits);
            request.external = external_strength;
            request.internal = internal_strength;
            request.overlap_mm = overlap_mm;
            request.external_chamfer_mm = external_chamfer_mm;
            request.external_run_out_mm = external_run_out_mm;
            request.internal_countersink_mm = internal_countersink_mm;
            request.internal_run_out_mm = internal_run_out_mm;
            request.external_bore_mm = external_bore_mm;
            request.internal_outside_mm = given_or_lacking("internal_outside_mm", internal_outside_mm);
            request.load_n = given_or_lacking("load_n", load_n);
            request.factor_of_safety = given_or_lacking("factor_of_safety", factor_of_safety);
            return strength(request);
        },
        py::arg("external"), py::arg("external_limits"), py::arg("internal_limits"),
        py::arg("external_strength"), py::arg("internal_strength"), py::arg("overlap_mm"), py::kw_only(),
        py::arg("external_chamfer_mm") = 0.0, py::arg("external_run_out_mm") = 0.0,
        py::arg("internal_countersink_mm") = 0.0, py::arg("internal_run_out_mm") = 0.0,
        py::arg("external_bore_mm") = 0.0, py::arg("internal_outside_mm") = py::none(),
        py::arg("load_n") = py::none(), py::arg("factor_of_safety") = py::none(), "What a joint holds.");

    py::class_<Tightening>(module, "TighteningAnswer", "The core's answer on torque and preload.")
        .def_property_readonly(
            "figures", [](const Tightening& t) { return figures_by_name(kTighteningFigures, t.figures()); })
        .def(
            "evidence",
            [](const Tightening& t, const SharedCatalogue& catalogue) {
                return evidence_list(t.evidence.items(), kTighteningFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "tightening_answer",
        [](double diameter_mm, double pitch_diameter_mm, double lead_mm, double half_angle_deg,
           double section_diameter_mm, double bore_mm, std::pair<double, double> thread_friction,
           std::pair<double, double> bearing_friction, double bearing_diameter_mm, double prevailing_nm,
           std::optional<double> preload_n, std::optional<double> torque_nm) {
            return tighten({.diameter_mm = diameter_mm,
                            .pitch_diameter_mm = pitch_diameter_mm,
                            .lead_mm = lead_mm,
                            .half_angle_deg = half_angle_deg,
                            .section_diameter_mm = section_diameter_mm,
                            .bore_mm = bore_mm,
                            .thread_friction_low = thread_friction.first,
                            .thread_friction_high = thread_friction.second,
                            .bearing_friction_low = bearing_friction.first,
                            .bearing_friction_high = bearing_friction.second,
                            .bearing_diameter_mm = bearing_diameter_mm,
                            .prevailing_nm = prevailing_nm,
                            .preload_n = given_or_lacking("preload_n", preload_n),
                            .torque_nm = given_or_lacking("torque_nm", torque_nm)});
        },
        py::kw_only(), py::arg("diameter_mm"), py::arg("pitch_diameter_mm"), py::arg("lead_mm"),
        py::arg("half_angle_deg"), py::arg("section_diameter_mm"), py::arg("bore_mm"),
        py::arg("thread_friction"), py::arg("bearing_friction"), py::arg("bearing_diameter_mm"),
        py::arg("prevailing_nm") = 0.0, py::arg("preload_n") = py::none(), py::arg("torque_nm") = py::none(),
        "Torque for a preload, or preload from a torque, over a range of friction.");
}

}  // namespace

void bind_strength(py::module_& module) {
    level1<MetricStressArea>(module, "Tensile stress area of an ISO metric thread, mm2.");
    level1<UnifiedStressArea>(module, "Tensile stress area of a Unified thread, in2.");
    both_units<HighStrengthStressArea>(module, "Tensile stress area of a thread of high strength, mm2.",
                                       "Tensile stress area of a thread of high strength, in2.");
    both_units<MeanStressArea>(module, "Circle of the mean of pitch and minor diameter, mm2.",
                               "Circle of the mean of pitch and minor diameter, in2.");
    both_units<MinorDiameterArea>(module, "Area at the root of a 60 degree thread of the basic size, mm2.",
                                  "Area at the root of a 60 degree thread of the basic size, in2.");
    both_units<NetArea>(module, "Net section of a tube, mm2.", "Net section of a tube, in2.");
    both_units<ExternalShearArea>(module, "Area over which an external thread strips, mm2.",
                                  "Area over which an external thread strips, in2.");
    both_units<InternalShearArea>(module, "Area over which an internal thread strips, mm2.",
                                  "Area over which an internal thread strips, in2.");
    both_units<FullFormLength>(module, "Length over which two threads are engaged with their full form, mm.",
                               "Length over which two threads are engaged with their full form, in.");
    both_units<SectionLoad>(module, "Load that an area bears at a strength, N.",
                            "Load that an area bears at a strength, lbf.");
    both_units<EngagementForLoad>(module, "Full-form length at which a thread strips at a load, mm.",
                                  "Full-form length at which a thread strips at a load, in.");
    both_units<EngagementForTension>(
        module,
        "Full-form length that makes a thread break before it strips, both parts of one strength, mm.",
        "Full-form length that makes a thread break before it strips, both parts of one strength, in.");
    level1<StrippingRatio>(module, "How much more the external thread bears against stripping, a ratio.");
    level1<DilationFactor>(module, "What is left of a stripping load in a thin internal part, a factor.");
    level1<ExternalBendingFactor>(module, "What is left of the external thread's stripping load, a factor.");
    level1<InternalBendingFactor>(module, "What is left of the internal thread's stripping load, a factor.");
    both_units<RadialPressure>(module, "Pressure with which loaded flanks spread the internal part, MPa.",
                               "Pressure with which loaded flanks spread the internal part, psi.");
    both_units<HoopTension>(module, "Greatest hoop stress of a ring under pressure from within, MPa.",
                            "Greatest hoop stress of a ring under pressure from within, psi.");
    both_units<HoopCompression>(module, "Greatest hoop stress of a tube under pressure from outside, MPa.",
                                "Greatest hoop stress of a tube under pressure from outside, psi.");
    both_units<TighteningTorque>(module, "Torque that brings a tension into a thread, N m.",
                                 "Torque that brings a tension into a thread, lbf in.");
    both_units<LooseningTorque>(module, "Torque that turns a thread under tension back, N m.",
                                "Torque that turns a thread under tension back, lbf in.");
    both_units<PreloadFromTorque>(module, "Tension that a torque brings into a thread, N.",
                                  "Tension that a torque brings into a thread, lbf.");
    both_units<HandbookTorque>(module, "Torque of a fastener with a head or nut of the usual size, N m.",
                               "Torque of a fastener with a head or nut of the usual size, lbf in.");
    both_units<NutFactorTorque>(module, "Torque by the nut factor, N m.",
                                "Torque by the nut factor, lbf in.");
    both_units<TighteningStress>(module, "Tension and torsion of a thread as one stress, MPa.",
                                 "Tension and torsion of a thread as one stress, psi.");
    level1<ShareOfStrength>(module, "Share of a strength that a tension takes up, a share.");
    level1<OverloadFactor>(module, "How many times a joint's outside load may grow, a factor.");
    level1<YieldingFactor>(module, "Proof load over the tension in a preloaded bolt, a factor.");
    bind_answers(module);
}

}  // namespace halfnut::bind
