// Level-1 formulas of knurls, in the order of the domain: a line here is all that every face needs of one.

#include <array>

#include "halfnut/core/formula.hpp"
#include "halfnut/knurls/growth.hpp"
#include "halfnut/knurls/pitch.hpp"
#include "halfnut/knurls/rolling.hpp"
#include "halfnut/knurls/tracking.hpp"

namespace halfnut::knurls {

std::span<const FormulaRow> formulas() noexcept {
    static constexpr std::array kFormulas{
        row<PitchFromTeethPerInch>("Circular pitch of a number of teeth per inch, mm."),
        row<PitchFromDiametral>("Circular pitch around the blank of a diametral pitch, mm."),
        row<TransversePitch>("Pitch around the work of teeth that lean by the helix angle, mm."),
        row<NormalPitch>("Pitch across teeth that lean by the helix angle, mm."),
        row<WheelPitch>("Pitch that a measured wheel prints around its own face, mm."),
        row<DiametralWheelOutside>("Outside diameter of a wheel by diametral pitch, in."),
        row<TeethAround>("Teeth that a pitch puts around a blank, not rounded."),
        row<MismatchTeeth>("How far the teeth around a blank are from a whole number, -0.5 to 0.5."),
        row<TrackingBlank>("Blank that takes a number of teeth, mm."),
        row<BlankBelow>("Largest blank with whole teeth that is not above a diameter, mm."),
        row<BlankAbove>("Smallest blank with whole teeth that is not below a diameter, mm."),
        row<TrackingHelix>("Angle at which a straight wheel, set over, puts a number of teeth around."),
        row<SharpToothDepth>("Height of a full sharp tooth, mm."),
        row<FormGrowth>("What forming a full tooth adds to the diameter, mm."),
        row<KnurlContact>("Length of the arc on which a knurl wheel touches the work, mm."),
        row<KnurlForce>("Force that presses one knurl wheel into the work, N."),
    };
    return kFormulas;
}

}  // namespace halfnut::knurls
