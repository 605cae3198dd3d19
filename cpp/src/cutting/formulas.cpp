// Level-1 formulas of cutting, in the order of the domain: a line here is all that every face needs of one.

#include <array>

#include "halfnut/core/formula.hpp"
#include "halfnut/cutting/chase.hpp"
#include "halfnut/cutting/chip.hpp"
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
#include "halfnut/threads/hole_formulas.hpp"

namespace halfnut::cutting {

std::span<const FormulaRow> formulas() noexcept {
    static constexpr std::array kFormulas{
        row<SpindleSpeed>("Spindle speed that gives a cutting speed at a diameter, rev/min."),
        row<CuttingSpeed>("Cutting speed at a diameter, m/min."),
        row<FeedRate>("Feed motion of a tool fed by the revolution, mm/min."),
        row<TableFeed>("Table feed of a milling cutter, mm/min."),
        row<TurningRemoval>("Metal removed in turning, cm3/min."),
        row<MillingRemoval>("Metal removed in milling, cm3/min."),
        row<DrillingRemoval>("Metal removed in drilling, cm3/min."),
        row<FeedTime>("Time of a feed motion, s."),
        row<PointLength>("Length of a drill's point, mm."),
        row<CountersinkDepth>("Depth of a countersink, mm."),
        row<MillingApproach>("Travel of a milling cutter to full width, cutting with its periphery, mm."),
        row<FaceMillingApproach>("Travel of a centred face mill to full width, mm."),
        row<ChipThickness>("Uncut chip thickness in turning, mm."),
        row<MeanEntering>("Mean entering angle where the nose does part of the cutting, degrees."),
        row<Engagement>("Angle of the cutter's turn during which a tooth cuts, degrees."),
        row<MillingChipMax>("Greatest chip thickness of a milling tooth, mm."),
        row<MillingChipMean>("Mean chip thickness of a milling tooth, mm."),
        row<ChipThinning>("How much more feed a narrow cut bears for the same chip."),
        row<SpecificCuttingForce>("Specific cutting force after Kienzle, N/mm2."),
        row<TurningForce>("Cutting force in turning after Kienzle, N."),
        row<RakeCorrection>("Correction of the cutting force for the rake."),
        row<SpeedCorrection>("Correction of the cutting force for the cutting speed."),
        row<UnitPowerForce>("Specific cutting force that a unit power stands for, N/mm2."),
        row<FeedFactor>("Feed factor of the handbook's power constants."),
        row<UnitPower>("Power at the cutter from a unit power, kW."),
        row<CuttingPower>("Power at the cutter from force and speed, kW."),
        row<MotorPower>("Power at the motor, kW."),
        row<SpindleTorque>("Torque at the spindle of a force at a diameter, N m."),
        row<TorquePower>("Power of a torque at a spindle speed, kW."),
        row<RoughnessRt>("Height of the feed ridges that a round nose leaves, um."),
        row<RoughnessRa>("Mean roughness that a round nose leaves, um."),
        row<MillingRoughnessRt>("Height of the tooth marks of peripheral milling, um."),
        row<DrillingTorque>("Torque of a drill, N m."),
        row<DrillingThrust>("Thrust of a drill, N."),
        row<TappingTorque>("Torque of a cutting tap, N m."),
        row<SecondMoment>("Second moment of area of a round bar or tube, mm4."),
        row<CantileverDeflection>("Deflection at the load of a bar held at one end, mm."),
        row<CentresDeflection>("Deflection at the load of work between centres, mm."),
        row<PinnedBuckling>("Load that buckles a bar held at one end and pinned at the other, N."),
        row<TwistStrength>("Torque at which a round bar's surface reaches a shear stress, N m."),
        row<LimitingWidth>("Width of cut up to which no chatter grows at any speed, mm."),
        row<ChuckCentreDeflection>("Deflection at the load of work in a chuck with a centre, mm."),
        row<FirstWhirl>("First whirl of a round bar or tube, rev/min."),
        row<TaperAngle>("Angle between the side of a taper and its axis, degrees."),
        row<TailstockSetover>("Set-over of the tailstock for a taper between centres, mm."),
        row<RampLength>("Travel along a slope to a depth, mm."),
        row<HelixPitch>("Pitch of a helix on which an end mill winds down at an angle, mm."),
        row<HelixLength>("Travel of the cutter's centre along a helix, mm."),
        row<CentreFeed>("Feed of the cutter's centre in a round hole, mm/min."),
        row<ChipRatio>("Chip thickness ratio."),
        row<ShearAngle>("Angle of the shear plane, degrees."),
        row<ShearStrain>("Shear strain of the chip."),
        row<ShearForce>("Force along the shear plane, N."),
        row<ShearArea>("Area of the shear plane, mm2."),
        row<MerchantFriction>("Friction angle on the rake face after Merchant, degrees."),
        row<ChipSpeed>("Speed at which the chip runs over the rake face, m/min."),
        row<TemperatureRise>("Mean rise of temperature at the chip after Cook, K."),
        row<HeatToWork>("Share of a cut's heat that goes into the work."),
        row<WorkWarming>("How much warmer a round piece gets when no heat leaves it, K."),
        row<MillingFeedForce>("Mean force against the feed over the tangential one, in milling."),
        row<MillingCrossForce>("Mean force across the feed over the tangential one, in milling."),
        row<TaylorExponent>("Taylor exponent from two trials."),
        row<TaylorSpeed>("Cutting speed for a tool life, m/min."),
        row<TaylorLife>("Tool life at a cutting speed, min."),
        row<FastestLife>("Tool life for the most parts an hour, min."),
        row<EconomicLife>("Tool life for the lowest cost of a part, min."),
        row<RingOutOfRound>("Out-of-round of a thin ring bored in jaws, peak to valley on the radius, mm."),
        row<JawForceNeeded>("Force of each jaw that keeps the work from slipping, N."),
        row<JawForceAtSpeed>("Force of a jaw gripping from outside, at speed, N."),
        row<SizeAt20>("Size at 20 degrees of work measured warm, mm."),
        row<ChasingDepth>("Depth of the tool's tip below the blank at the pitch diameter wanted, mm."),
        row<RootFlat>("Width of a thread's groove at its root, mm."),
        row<CompoundTravel>("Travel of a compound that is set over, for a depth across the work, mm."),
        row<StoppingRpm>("Fastest spindle at which the half nut is opened within the run-out, rev/min."),
        row<TaylorLifeRatio>("How tool life changes with speed, feed and depth together."),
    };
    return kFormulas;
}

}  // namespace halfnut::cutting
