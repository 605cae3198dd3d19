#pragma once
// What is asked of cuts at the lathe, by questions of the lathe and by those that a cut is part of.

#include "cut_rows.hpp"
#include "halfnut/cutting/deflection.hpp"

namespace halfnut::cutting::lathe {

using Rows = CutRows<LatheAsk, kTurnArguments>;
#define ASKED(member, about) HALFNUT_ASKED(LatheAsk, member, about)
#define NUMBER(member, about) ASKED(cut.member, about).in(range_in(kTurnArguments, #member))

inline constexpr AskedRow kAlloy = Rows::alloy;
inline constexpr AskedRow kDiameter = NUMBER(diameter_mm, "").required().leads();
inline constexpr AskedRow kDepth =
    NUMBER(depth_mm, "Depth of the cut on the radius.")
        .usually(
            "1 mm, or 0.25 mm when finishing, in an inch question 0.040 in and 0.010 "
            "in, at most a quarter of the "
            "radius");
inline constexpr AskedRow kLength =
    NUMBER(length_mm, "Length of the cut along the work; without it there is no time.");
inline constexpr AskedRow kMachine = Rows::machine;
inline constexpr AskedRow kTool = Rows::tool;
inline constexpr AskedRow kFinish = ASKED(cut.finish, "A finishing cut, whatever its depth.");
inline constexpr AskedRow kFeed = Rows::feed;
inline constexpr AskedRow kSpindle = Rows::spindle;
inline constexpr AskedRow kNose = NUMBER(nose_radius_mm, "Nose radius of the tool.").usually("0.8 mm");
inline constexpr AskedRow kEntering =
    NUMBER(entering_deg, "Entering angle of the tool.").usually("90 degrees").finer();
inline constexpr AskedRow kRake =
    NUMBER(rake_deg, "Rake of the tool.").usually("as the force constants were measured").finer();
inline constexpr AskedRow kWear = Rows::wear.saying(
    "Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is "
    "that of a "
    "sharp edge, while limits, upper edges of force and power, and the force across the edge with the "
    "deflection that it makes are those of an edge in use.");
inline constexpr AskedRow kHold = ASKED(cut.hold, "How the work is held.");
inline constexpr AskedRow kChuck = Rows::chuck;
inline constexpr AskedRow kStickOut =
    Rows::stick_out.saying("Overhang of the work from the jaws, or the distance between centres.");
inline constexpr AskedRow kBore = NUMBER(bore_mm, "Bore of a tube.");
inline constexpr AskedRow kRoughness = Rows::roughness;
inline constexpr AskedRow kDeflection = Rows::deflection;
inline constexpr AskedRow kApproach = Rows::approach;
inline constexpr AskedRow kOverrun = Rows::overrun;
inline constexpr AskedRow kStock = Rows::stock.usually("the diameter that is cut");
inline constexpr AskedRow kBarLength = Rows::bar_length;
inline constexpr AskedRow kBarBehind = Rows::bar_behind;
inline constexpr AskedRow kEndDiameter =
    NUMBER(end_diameter_mm, "Diameter where the cut ends.").usually("the centre, or the bore");

inline constexpr AskedRow kSections =
    ASKED(sections,
          "Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter "
          "and, of a tube, bore of each section.")
        .or_a("Section")
        .as_length()
        .finer();
inline constexpr AskedRow kCutAt =
    ASKED(cut_at_mm,
          "Where on the sections the cut begins, from the end that is free or on the last centre: what is "
          "turned there has the diameter of the cut, and the deflection is the worst along the cut.")
        .least(0)
        .usually("it is not known: the worst along the work")
        .finer();

inline constexpr std::array kTurnAsked{
    kAlloy,
    kDiameter.saying("Diameter before the cut."),
    kDepth,
    kLength,
    kMachine,
    kTool,
    kFinish,
    kFeed,
    kSpindle,
    Rows::hardness,
    kNose,
    kEntering,
    kRake,
    kWear,
    kHold,
    kChuck,
    kStock,
    kBarLength,
    kBarBehind,
    kStickOut.usually("the length of the cut, which it is at least; without either there is no deflection"),
    kSections.saying(
        "Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter "
        "and, of a tube, bore of each section. The deflection is that of the beam at its worst place."),
    kCutAt,
    ASKED(steadies_mm, "Place of each fixed steady, from the chuck or the first centre.").called("steadies"),
    kBore,
    kRoughness,
    kDeflection,
    kApproach,
    kOverrun,
    Rows::skin,
};
inline constexpr std::array kStabilityAsked{
    ASKED(
        stiffness_n_um,
        "Measured stiffness at the edge: a load beside the deflection that it makes. Tells the width of cut "
        "without chatter.")
        .in(LimitingWidth::arguments[0])
        .optioned("stiffness")
        .finer(),
    ASKED(damping, "Damping ratio of it.").in(LimitingWidth::arguments[1]).usually("0.03").finer(),
};
inline constexpr std::array kPartOffAsked{
    kAlloy,
    kDiameter.saying("Diameter where the cut starts."),
    kDepth.called("blade").saying("Width of the blade.").usually("3 mm, in an inch question 1/8 in"),
    kEndDiameter.usually("the centre, or the bore"),
    kMachine,
    kTool,
    kFeed,
    kSpindle,
    Rows::hardness,
    kRake,
    kWear,
    kChuck,
    kStock,
    kBarLength,
    kBarBehind,
    kBore,
    kStickOut.saying("How far from the jaws the cut is; beyond a diameter there is a caution."),
    kApproach,
    kOverrun,
};
#undef NUMBER
#undef ASKED

}  // namespace halfnut::cutting::lathe
