// Level-1 formulas of threads, in the order of the domain: a line here is all that every face needs of one.

#include <array>

#include "halfnut/core/formula.hpp"
#include "halfnut/threads/adjuster.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/column.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/forms.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/hole_formulas.hpp"
#include "halfnut/threads/profile.hpp"
#include "halfnut/threads/strength_formulas.hpp"

namespace halfnut::threads {

std::span<const FormulaRow> formulas() noexcept {
    static constexpr std::array kFormulas{
        row<TriangleHeight>("Height of the fundamental triangle, H = (sqrt 3 / 2) P, mm."),
        row<BasicPitchDiameter>("Basic pitch diameter, unrounded, d2 = d - 3 H / 4, mm."),
        row<BasicMinorDiameter>("Basic minor diameter, unrounded, d1 = d - 5 H / 4, mm."),
        row<RootDiameter>("Root of the design profile, unrounded, d3 = d - 17 H / 12, mm."),
        row<StressDiameter>("Diameter of the stress area, (d2 + d3) / 2, mm."),
        row<LeadAngle>("Lead angle at the pitch diameter, tan L = lead / (pi d2), deg."),
        row<TappingHoleSize>("Hole before tapping for a per cent of thread, mm."),
        row<ThreadPercent>("Per cent of thread that a hole leaves."),
        row<FormingHole>("Hole before a forming tap for a per cent of thread, mm."),
        row<FormingPercent>("Per cent of thread that a forming tap makes in a hole."),
        row<BlindDrillDepth>("Depth at full diameter of a blind hole for a length of full thread, mm."),
        row<FullThread>("Length of full thread that a drilled blind hole takes, mm."),
        row<CountersinkDiameter>("Diameter that a countersink reaches at a depth, mm."),
        row<StripRatio>("Shear area of the external thread in a hole, over that in another hole."),
        row<HoleForStripRatio>("Largest hole that leaves a share of the external thread's shear area, mm."),
        row<BestWire>("Wire that touches the flanks at the pitch line, lead angle left aside, mm."),
        row<SmallestWire>("Smallest wire that still stands above the crest, mm."),
        row<LargestWire>("Largest wire that still touches below the end of the flank, mm."),
        row<OverWiresPlain>("Size over three wires by the plain formula, lead angle left aside, mm."),
        row<OverWiresLead>(
            "Size over three wires with the lead-angle correction of the screw-thread standards, mm."),
        row<OverWiresNormal>("Size over three wires with the half angle of the normal plane, mm."),
        row<OverWiresInvolute>("Size over wires of a groove between involute helicoids, mm."),
        row<OverWiresExact>("Size over three free wires, exactly, mm; refused out of the usable range."),
        row<OverWiresHeld>("Size over wires held at the lead angle of the pitch line, mm."),
        row<WireTilt>("Tilt that a free wire finds, degrees from the plane square to the thread's axis."),
        row<BestWireExact>("Wire that touches at the pitch line, lead angle included, mm."),
        row<PitchFromWiresPlain>("Pitch diameter from a size over wires by the plain formula, mm."),
        row<PitchFromWiresLead>("Pitch diameter from a size over wires with the lead-angle correction, mm."),
        row<PitchFromWiresExact>("Pitch diameter from a size over wires, exactly, mm."),
        row<SmallestBall>("Smallest ball that does not bottom in an internal thread, mm."),
        row<LargestBall>("Largest ball that touches an internal thread's flank, mm."),
        row<AcrossBallsPlain>("Size across two balls in an internal thread, lead angle left aside, mm."),
        row<AcrossBallsExact>("Size across two balls in an internal thread, exactly, mm."),
        row<PitchFromBallsExact>("Pitch diameter from a size across two balls, mm."),
        row<AcrossBallsSkew>("Size across two balls in grooves half a pitch apart along the axis, mm."),
        row<PitchErrorEquivalent>("What an error of lead takes from the pitch diameter's clearance, mm."),
        row<FlankErrorEquivalent>(
            "What errors of the half angles take from the pitch diameter's clearance, mm."),
        row<BuildUpOfFilm>("Build-up of one surface by a film, growth x film - etch, um."),
        row<MetalConsumed>("Metal of one surface that an anodic film is made of, um."),
        row<RecoatedBuildUp>("Build-up of one surface after the film was stripped and grown anew, um."),
        row<CoatedDiameterChange>(
            "Change of a cylinder's, a crest's or a root's diameter under a build-up, um."),
        row<CoatedPitchChange>("Change of an external thread's pitch diameter under a build-up, um."),
        row<GreatestBuildUp>("Greatest build-up that an allowance on the pitch diameter holds, um."),
        row<NeededDeviation>("Fundamental deviation that a plate of known batch average needs, um."),
        row<AxialPlay>("End play of a thread from the clearance at its pitch diameter, mm."),
        row<ThreadTilt>("How far one part leans in the other, to either side, deg."),
        row<MetricStressArea>("Tensile stress area of an ISO metric thread, mm2."),
        row<UnifiedStressArea>("Tensile stress area of a Unified thread, in2."),
        row<HighStrengthStressArea<Units::metric>>("Tensile stress area of a thread of high strength, mm2."),
        row<HighStrengthStressArea<Units::inch>>("Tensile stress area of a thread of high strength, in2."),
        row<MeanStressArea<Units::metric>>("Circle of the mean of pitch and minor diameter, mm2."),
        row<MeanStressArea<Units::inch>>("Circle of the mean of pitch and minor diameter, in2."),
        row<MinorDiameterArea<Units::metric>>(
            "Area at the root of a 60 degree thread of the basic size, mm2."),
        row<MinorDiameterArea<Units::inch>>("Area at the root of a 60 degree thread of the basic size, in2."),
        row<NetArea<Units::metric>>("Net section of a tube, mm2."),
        row<NetArea<Units::inch>>("Net section of a tube, in2."),
        row<ExternalShearArea<Units::metric>>("Area over which an external thread strips, mm2."),
        row<ExternalShearArea<Units::inch>>("Area over which an external thread strips, in2."),
        row<InternalShearArea<Units::metric>>("Area over which an internal thread strips, mm2."),
        row<InternalShearArea<Units::inch>>("Area over which an internal thread strips, in2."),
        row<FullFormLength<Units::metric>>(
            "Length over which two threads are engaged with their full form, mm."),
        row<FullFormLength<Units::inch>>(
            "Length over which two threads are engaged with their full form, in."),
        row<SectionLoad<Units::metric>>("Load that an area bears at a strength, N."),
        row<SectionLoad<Units::inch>>("Load that an area bears at a strength, lbf."),
        row<EngagementForLoad<Units::metric>>("Full-form length at which a thread strips at a load, mm."),
        row<EngagementForLoad<Units::inch>>("Full-form length at which a thread strips at a load, in."),
        row<EngagementForTension<Units::metric>>(
            "Full-form length that makes a thread break before it strips, both parts of one strength, mm."),
        row<EngagementForTension<Units::inch>>(
            "Full-form length that makes a thread break before it strips, both parts of one strength, in."),
        row<StrippingRatio>("How much more the external thread bears against stripping, a ratio."),
        row<DilationFactor>("What is left of a stripping load in a thin internal part, a factor."),
        row<ExternalBendingFactor>("What is left of the external thread's stripping load, a factor."),
        row<InternalBendingFactor>("What is left of the internal thread's stripping load, a factor."),
        row<RadialPressure<Units::metric>>(
            "Pressure with which loaded flanks spread the internal part, MPa."),
        row<RadialPressure<Units::inch>>("Pressure with which loaded flanks spread the internal part, psi."),
        row<HoopTension<Units::metric>>("Greatest hoop stress of a ring under pressure from within, MPa."),
        row<HoopTension<Units::inch>>("Greatest hoop stress of a ring under pressure from within, psi."),
        row<HoopCompression<Units::metric>>(
            "Greatest hoop stress of a tube under pressure from outside, MPa."),
        row<HoopCompression<Units::inch>>("Greatest hoop stress of a tube under pressure from outside, psi."),
        row<TighteningTorque<Units::metric>>("Torque that brings a tension into a thread, N m."),
        row<TighteningTorque<Units::inch>>("Torque that brings a tension into a thread, lbf in."),
        row<LooseningTorque<Units::metric>>("Torque that turns a thread under tension back, N m."),
        row<LooseningTorque<Units::inch>>("Torque that turns a thread under tension back, lbf in."),
        row<PreloadFromTorque<Units::metric>>("Tension that a torque brings into a thread, N."),
        row<PreloadFromTorque<Units::inch>>("Tension that a torque brings into a thread, lbf."),
        row<HandbookTorque<Units::metric>>("Torque of a fastener with a head or nut of the usual size, N m."),
        row<HandbookTorque<Units::inch>>(
            "Torque of a fastener with a head or nut of the usual size, lbf in."),
        row<NutFactorTorque<Units::metric>>("Torque by the nut factor, N m."),
        row<NutFactorTorque<Units::inch>>("Torque by the nut factor, lbf in."),
        row<TighteningStress<Units::metric>>("Tension and torsion of a thread as one stress, MPa."),
        row<TighteningStress<Units::inch>>("Tension and torsion of a thread as one stress, psi."),
        row<ShareOfStrength>("Share of a strength that a tension takes up, a share."),
        row<OverloadFactor>("How many times a joint's outside load may grow, a factor."),
        row<YieldingFactor>("Proof load over the tension in a preloaded bolt, a factor."),
        row<TurnbuckleTravel>(
            "Change of length for a turn of a turnbuckle's middle, |L1 - L2|, left-hand leads below 0, mm."),
        row<EngagedLength>("Full-form length of engagement at an insertion, mm."),
        row<LockPreload>("Least preload of a lock nut that keeps a joint tight, n max(push, pull), N."),
        row<LockPreloadChange>(
            "Most that a lock nut's preload changes for a degree between unlike materials, N/K."),
        row<TubeArea>("Area of a round bar or tube, A = pi (D - d) (D + d) / 4, mm2."),
        row<GyrationRadius>("Radius of gyration of a round bar or tube, r = sqrt(D^2 + d^2) / 4, mm."),
        row<TransitionSlenderness>(
            "Slenderness where Johnson's and Euler's formulas meet, sqrt(2 pi^2 E / S_y)."),
        row<EulerLoad>("Elastic buckling load of a uniform column, pi^2 E A / (K L / r)^2, N."),
        row<JohnsonLoad>(
            "Johnson's load of a column below the transition, S_y A (1 - S_y (K L / r)^2 / (4 pi^2 E)), N."),
        row<ColumnLoad>("Load at which a uniform column fails, Johnson's or Euler's, N."),
        row<ColumnCapacity>(
            "Load at which any column fails, from its elastic buckling load and its yield load, N."),
        row<ScrewEfficiency>("Efficiency of a screw that lifts a load, without its collar."),
        row<HoldingFriction>("Least friction at which a load does not turn its screw."),
    };
    return kFormulas;
}

}  // namespace halfnut::threads
