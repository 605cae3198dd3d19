#pragma once
/// What is asked of a knurl's blank, by its own question and by those that a blank is part of.

#include <array>
#include <string_view>

#include "halfnut/knurls/questions.hpp"

namespace halfnut::knurls {

constexpr const Argument& range_of(std::string_view key) {
    for (const Argument& each : kKnurlArguments) {
        if (each.name == key) {
            return each;
        }
    }
    throw "no such argument";
}
#define NUMBER(member, about) HALFNUT_ASKED(KnurlAsk, blank.member, about).in(range_of(#member))
#define ASKED(member, about) HALFNUT_ASKED(KnurlAsk, member, about)
inline constexpr std::array kBlankAsked{
    NUMBER(diameter_mm, "Diameter of the work before knurling; after it when finished.").required().leads(),
    ASKED(pitch,
          "Pitch: \"96 DP\" (teeth per inch of diameter), \"21 TPI\" (teeth per inch across the teeth), "
          "\"0.8 mm\" "
          "(the same), a name (\"coarse\", \"medium\", \"fine\"), or a metric designation (\"RGE 0.8\", "
          "\"RGE 08 "
          "- 105 DIN 82\").")
        .required(),
    ASKED(
        pattern,
        "Pattern: straight, left, right, diamond raised, diamond indented, cross raised, cross indented, or "
        "a metric form such as RGV.")
        .usually("as the pitch names it, else diamond raised"),
    ASKED(wheel,
          "Wheel at hand: \"0.750 in, 47 teeth\" as measured over the points, or \"20 mm\" for a standard "
          "wheel.")
        .or_a("Wheel")
        .as_length(),
    ASKED(blank.finished,
          "The diameter is wanted after knurling; growth and whole teeth are solved together."),
    ASKED(blank.process, "How the teeth are made: pressed in, or cut with cutting wheels."),
    ASKED(blank.prefer,
          "Which of the blanks that track is answered; the one below when the bar is already to size."),
    NUMBER(helix_deg, "Angle of leaning teeth from the axis.").usually("30 degrees"),
    NUMBER(profile_deg, "Angle between the flanks of the wheel's teeth.").usually("the system's own depth"),
    ASKED(blank.set_over,
          "Straight wheels are turned to the helix angle, in place of wheels with leaning teeth."),
    NUMBER(tracking_allowance_mm, "How much larger than measured the wheel tracks.").usually("by rule"),
    ASKED(tolerance_class, "Class of a diametral pitch: I, II or III.")
        .or_a("ToleranceClass")
        .optioned("class"),
    NUMBER(width_mm, "Width of the knurled band."),
};
#undef ASKED
#undef NUMBER

}  // namespace halfnut::knurls
