// Fit, coating and gauging of threads.

#include "bind.hpp"
#include "halfnut/threads/gauging.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;

void bind_gauging(py::module_& module) {
    using namespace halfnut::threads;
    level1<BestWire>(module, "Wire that touches the flanks at the pitch line, lead angle left aside, mm.");
    level1<SmallestWire>(module, "Smallest wire that still stands above the crest, mm.");
    level1<LargestWire>(module, "Largest wire that still touches below the end of the flank, mm.");
    level1<OverWiresPlain>(module, "Size over three wires by the plain formula, lead angle left aside, mm.");
    level1<OverWiresLead>(
        module, "Size over three wires with the lead-angle correction of the screw-thread standards, mm.");
    level1<OverWiresNormal>(module, "Size over three wires with the half angle of the normal plane, mm.");
    level1<OverWiresInvolute>(module, "Size over wires of a groove between involute helicoids, mm.");
    level1<OverWiresExact>(module,
                           "Size over three free wires, exactly, mm; refused out of the usable range.");
    level1<OverWiresHeld>(module, "Size over wires held at the lead angle of the pitch line, mm.");
    level1<WireTilt>(module,
                     "Tilt that a free wire finds, degrees from the plane square to the thread's axis.");
    level1<BestWireExact>(module, "Wire that touches at the pitch line, lead angle included, mm.");
    level1<PitchFromWiresPlain>(module, "Pitch diameter from a size over wires by the plain formula, mm.");
    level1<PitchFromWiresLead>(module,
                               "Pitch diameter from a size over wires with the lead-angle correction, mm.");
    level1<PitchFromWiresExact>(module, "Pitch diameter from a size over wires, exactly, mm.");
    level1<SmallestBall>(module, "Smallest ball that does not bottom in an internal thread, mm.");
    level1<LargestBall>(module, "Largest ball that touches an internal thread's flank, mm.");
    level1<AcrossBallsPlain>(module,
                             "Size across two balls in an internal thread, lead angle left aside, mm.");
    level1<AcrossBallsExact>(module, "Size across two balls in an internal thread, exactly, mm.");
    level1<PitchFromBallsExact>(module, "Pitch diameter from a size across two balls, mm.");
    level1<AcrossBallsSkew>(module,
                            "Size across two balls in grooves half a pitch apart along the axis, mm.");
    level1<PitchErrorEquivalent>(module,
                                 "What an error of lead takes from the pitch diameter's clearance, mm.");
    level1<FlankErrorEquivalent>(
        module, "What errors of the half angles take from the pitch diameter's clearance, mm.");
}

}  // namespace halfnut::bind
