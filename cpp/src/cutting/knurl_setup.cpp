// Knurling at the lathe, as a question.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/knurling.hpp"
#include "halfnut/knurls/asked.hpp"
#include "halfnut/knurls/rolling.hpp"
#include "halfnut/knurls/rules.hpp"
#include "halfnut/machine/dial.hpp"
#include "halfnut/material/alloy.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

using knurls::Pattern;
using std::string_view;

// Rules of the trade, as knurls/rules has them.
constexpr double kLeastFeedMm = 0.02;
constexpr double kMostFeedMm = 0.15;
constexpr double kLeastInfeedMm = 0.05;
constexpr double kMostInfeedMm = 0.10;
constexpr double kFastestMMin = 50.0;
constexpr double kTurnsToDepth = 15.0;
constexpr int kDwellTurns = 3;
constexpr double kBite = 1.0 / 3.0;
constexpr double kWallInTeeth = 4.5;
constexpr double kHardestHb = 327.0;
constexpr double kBendShare = 0.25;  // of the tooth's depth, that the work may bend by
constexpr double kWheelMm = 20.0;
constexpr double kFaceMm = 6.0;
constexpr double kSlender = 2.0;  // diameters from the chuck, from where one wheel wants a centre
constexpr double kOnePassPitchMm = 0.8;
constexpr double kBeyondGrooveMm = 0.3;
constexpr double kAsSaid = 1e-9;

/// Wheels of a pattern, by how many the holder carries; in the order of enum_names(Pattern).
constexpr std::array<std::array<string_view, 3>, 7> kWheelKinds{{
    {"a straight wheel", "two straight wheels", "three straight wheels"},
    {"a wheel for left-hand teeth, or a straight one set over", "two equal wheels for left-hand teeth",
     "three equal wheels for left-hand teeth"},
    {"a wheel for right-hand teeth, or a straight one set over", "two equal wheels for right-hand teeth",
     "three equal wheels for right-hand teeth"},
    {"a wheel with sunk diamonds", "a left-hand and a right-hand wheel", "three wheels with sunk diamonds"},
    {"a wheel with standing diamonds", "two wheels with standing diamonds",
     "three wheels with standing diamonds"},
    {"a wheel with sunk squares", "two wheels with sunk squares", "three wheels with sunk squares"},
    {"a wheel with standing squares", "two wheels with standing squares",
     "three wheels with standing squares"},
}};

bool has(double value) {
    return !std::isnan(value);
}

// ---- what is asked ----------------------------------------------------------------------------------------

using Rows = CutRows<KnurlSetupAsk, kTurnArguments>;
#define ASKED(member, about) HALFNUT_ASKED(KnurlSetupAsk, member, about)
constexpr std::array kOwn{
    Rows::alloy,
    ASKED(blank.width_mm, "Width of the knurled band.").above(0).required().named(),
    ASKED(wheels,
          "Wheels of the holder: pushed in from one side, clamped above and below, or around the work.")
        .from(1, 3)
        .usually("1"),
    ASKED(wheel_width_mm, "Face of a wheel.").above(0).usually("6 mm"),
    ASKED(bore_mm, "Bore of a tube.").above(0),
    ASKED(stick_out_mm, "Distance from the chuck to the middle of the band.").above(0),
    ASKED(hold, "How the work is held."),
    ASKED(hole, "Hole that the knurl is pressed into; two sizes are its least and its greatest.")
        .or_a("Hole")
        .as_length(),
    hardness_row(ASKED(hardness_hb, "")),
    Rows::machine.saying("The lathe."),
    Rows::chuck,
    Rows::stock.usually("the blank"),
    ASKED(bar_length_mm, "Length of a whole bar that goes through the spindle.").above(0),
    ASKED(bar_behind_mm, "Length of a bar that is free behind the spindle.").least(0),
};
#undef ASKED

constexpr auto kOfBlank = inherited<KnurlSetupAsk, knurls::KnurlAsk, knurls::kBlankAsked>();
constexpr auto kAsked =
    with_those_of(std::array{kOfBlank[0], kOfBlank[1], kOwn[0]},
                  with_those_of(std::array{kOwn[1], kOwn[2], kOwn[3], kOwn[4], kOwn[5], kOwn[6], kOwn[7],
                                           kOwn[8], kOwn[9], kOwn[10], kOwn[11], kOwn[12], kOwn[13]},
                                kOfBlank, std::array<string_view, 3>{"diameter_mm", "pitch", "width_mm"}),
                  std::array<string_view, 0>{});

// ---- what is answered -------------------------------------------------------------------------------------

#define FIGURE(member, about) HALFNUT_FIGURE(DialAt, member, about)
constexpr std::array kDialFigures{
    FIGURE(slide, "Slide whose dial it is."),
    FIGURE(reading.turns, "Whole turns of the handle."),
    FIGURE(reading.line, "Nearest line within the turn."),
    FIGURE(reading.remainder_mm, "What the line misses; on the diameter where the dial reads the diameter.")
        .always(),
    FIGURE(graduation_mm, "What one line is marked as.").always(),
    FIGURE(unit, "Unit of the dial."),
    FIGURE(said, "The reading in words."),
};
#undef FIGURE
}  // namespace

constinit const RecordRow kDialRecord{"DialReading", "A dial's reading from zero.", kDialFigures};

namespace {

double finished_diameter_mm(const KnurlSetup& setup) {
    return setup.blank.blank.finished_diameter_mm;
}

#define FIGURE(member, about) HALFNUT_FIGURE(KnurlSetup, member, about)
constexpr std::array kFigures{
    HALFNUT_RECORD(KnurlSetup, blank, knurls::kBlankRecord, "The blank."),
    FIGURE(alloy, "The work's material."),
    FIGURE(unit, "Unit that the answer is shown in first: that of the diameter given."),
    FIGURE(width_mm, "Width of the band.").always(),
    FIGURE(wheels, "Wheels that the holder carries."),
    FIGURE(wheel_kind, "What wheels they are."),
    FIGURE(chamfer_mm, "Chamfer of the blank's ends.").always(),
    FIGURE(groove_depth_mm, "Depth of the groove where a cut knurl ends."),
    FIGURE(infeed_mm, "Infeed on the radius, from touching to full depth.").always(),
    FIGURE(infeed_mm_rev, "Infeed a turn of the work.").always(),
    FIGURE(first_bite_mm, "First bite, at once.").always(),
    FIGURE(turns, "Turns of the work from touching to full depth, the first bite counted as one."),
    FIGURE(dwell_turns, "Turns to dwell at full depth."),
    FIGURE(passes, "Passes along the work."),
    FIGURE(feed_mm_rev, "Feed along the work, where the band is wider than the wheels."),
    FIGURE(spindle_rpm, "Spindle speed to set.").always(),
    HALFNUT_RECORD(KnurlSetup, dial, kDialRecord,
                   "Reading of the cross slide's dial at full depth, for one wheel pushed in."),
    FIGURE(force_n, "Force of one wheel, within a factor of two or three."),
    FIGURE(side_force_n, "Force that the work must bear across its axis."),
    FIGURE(bend_mm, "Deflection of the work under it."),
    FIGURE(wall_mm, "Wall of a tube."),
    FIGURE(least_wall_mm, "Least wall that bears the wheels."),
    FIGURE(interference_min_mm, "Least raised diameter less the greatest hole, for a press fit."),
    FIGURE(interference_max_mm, "Greatest raised diameter less the least hole."),
    FIGURE(bite_share, "Share of the tooth's depth that the greatest interference buries."),
    HALFNUT_RECORD(KnurlSetup, cut, kCutRecord, "The cut."),
    FIGURE(said, "Blank, wheels and speed in one line."),
    made_figure<&finished_diameter_mm>("finished_diameter_mm", "What the knurl comes out at."),
    FIGURE(infeed_said, "The first bite and the way to full depth, on the radius."),
    FIGURE(steps, "What to do at the lathe, in order."),
    FIGURE(assumed, "What was not said and therefore taken."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What the figures rest on beside those of blank and cut."),
};
#undef FIGURE
constexpr std::array kKnurlSetupSays{
    SaidRow{"infeed", "{infeed_said}"},
    SaidRow{"feed", "{feed_mm_rev}"},
    SaidRow{"over", "{blank.finished_diameter_mm} over the points"},
    SaidRow{"force",
            "about {force_n} a wheel, within a factor of two or three; "
            "[{side_force_n>0}{side_force_n}][{side_force_n!}balanced]"
            "[{side_force_n=0}balanced] across the work[, deflects it {bend_mm}]"},
    SaidRow{"wall", "{wall_mm}, at least {least_wall_mm}"},
    SaidRow{"press fit",
            "interference {interference_min_mm..interference_max_mm}, buries {100*bite_share:.0f} % of the "
            "teeth"},
    SaidRow{"#", "steps"},
    SaidRow{"never", "{said/no_knurl}"},
    SaidRow{"assumed", "{assumed}"},
};
constexpr RecordRow kRecord{"KnurlSetup",
                            "How to knurl a band; None where a figure does not apply.",
                            kFigures,
                            {},
                            {"{said}", kKnurlSetupSays, "infeed, over, feed, force", true}};

// ---- how it is answered -----------------------------------------------------------------------------------

/// The cut at the speed of its window, slower where the wheels do not bear it.
CutAnswer cut_of(const KnurlSetupAsk& asked, const KnurlSetup& setup, double feed_mm_rev, bool formed,
                 const Asking& asking) {
    const knurls::KnurlBlank& blank = setup.blank.blank;
    // work that tracks is knurled as it is, though the nearest blank be a hair larger than the bar
    const bool as_it_is = setup.blank.given_tracks && asked.stock.diameter_mm < blank.blank_diameter_mm;
    const double diameter = as_it_is ? blank.given_diameter_mm : blank.blank_diameter_mm;
    LatheAsk cut;
    cut.alloy = asked.alloy;
    cut.machine = asked.machine;
    cut.chuck = asked.chuck;
    cut.stock = asked.stock;
    cut.cut.diameter_mm = diameter;
    cut.cut.length_mm = setup.width_mm;
    cut.cut.feed_mm_rev = feed_mm_rev;
    cut.cut.work.hardness_hb = asked.hardness_hb;
    cut.cut.hold = asked.hold == KnurlHold::chuck ? Hold::chuck : Hold::chuck_and_centre;
    cut.cut.bar_length_mm = asked.bar_length_mm;
    cut.cut.bar_behind_mm = asked.bar_behind_mm;
    cut.cut.stick_out_mm = asked.stick_out_mm + setup.width_mm / 2.0;
    CutAnswer out = knurl(cut, asking);
    const double fastest = kFastestMMin * 1000.0 / (std::numbers::pi * diameter);
    if (formed && out.cut.spindle_rpm > fastest) {
        cut.cut.spindle_rpm = asked.machine == nullptr
                                  ? fastest
                                  : machine::choose_spindle(*asked.machine, fastest, fastest).rpm;
        out = knurl(cut, asking);
    }
    return out;
}

/// What the work must bear, where its yield strength is known.
void set_forces(const KnurlSetupAsk& asked, const material::AlloyRow& alloy, double wheel_mm, double face_mm,
                KnurlSetup& out) {
    const double diameter = out.blank.blank.blank_diameter_mm;
    if (!has(alloy.yield_mpa)) {
        return;
    }
    const auto force = [&](double infeed, double share) {
        return knurls::knurl_force_n(alloy.yield_mpa, std::min(face_mm, out.width_mm),
                                     knurls::knurl_contact_mm(infeed, wheel_mm, diameter), share);
    };
    out.force_n = std::max(force(out.first_bite_mm, kBite), force(out.infeed_mm_rev, 1.0));
    out.side_force_n = asked.wheels == 1 ? out.force_n : 0.0;
    if (!has(asked.stick_out_mm) || !has(alloy.youngs_modulus_gpa)) {
        return;
    }
    const double inertia = second_moment_mm4(diameter, has(asked.bore_mm) ? asked.bore_mm : 0.0);
    const double reach = asked.stick_out_mm;
    const double modulus = alloy.youngs_modulus_gpa;
    if (out.side_force_n == 0.0) {
        out.bend_mm = 0.0;
    } else if (asked.hold == KnurlHold::chuck) {
        out.bend_mm = cantilever_deflection_mm(out.side_force_n, reach, modulus, inertia);
    } else {  // the centre stands half a band beyond the band
        out.bend_mm =
            chuck_centre_deflection_mm(out.side_force_n, reach, reach + out.width_mm, modulus, inertia);
    }
}

/// Least and greatest interference in a hole, from the limits of both.
void set_press(const HoleSizes& hole, KnurlSetup& out) {
    if (!has(hole.least_mm)) {
        return;
    }
    const knurls::KnurlBlank& blank = out.blank.blank;
    const double slack = blank.blank_plus_minus_mm;
    const double least =
        has(blank.finished_min_mm) ? blank.finished_min_mm : blank.finished_diameter_mm - slack;
    const double most =
        has(blank.finished_max_mm) ? blank.finished_max_mm : blank.finished_diameter_mm + slack;
    out.interference_min_mm = least - hole.greatest_mm;
    out.interference_max_mm = most - hole.least_mm;
    out.bite_share = std::max(out.interference_max_mm, 0.0) / 2.0 / blank.tooth_depth_mm;
}

void tell(const KnurlSetupAsk& asked, const material::AlloyRow& alloy, bool formed, KnurlSetup& out) {
    const double depth = out.blank.blank.tooth_depth_mm;
    const double hardness = has(asked.hardness_hb) ? asked.hardness_hb : alloy.hardness_hb;
    const bool three =
        out.blank.pattern == Pattern::diamond_raised || out.blank.pattern == Pattern::cross_raised;
    const bool far = asked.wheels == 1 && asked.hold == KnurlHold::chuck &&
                     asked.stick_out_mm > kSlender * out.blank.blank.blank_diameter_mm;
    const auto say = [&](bool applies, const char* code) {
        if (applies) {
            out.told.push_back({code, 0.0, {}});
        }
    };
    say(formed && hardness > kHardestHb, "knurling_hard");
    say(formed && alloy.group.starts_with("iron"), "knurling_crumbles");
    say(formed && out.wall_mm < out.least_wall_mm, "knurling_thin_wall");
    say(out.bend_mm > kBendShare * depth, "knurling_bends");
    say(far, "knurling_support");
    say(asked.wheels == 3 && three, "knurling_three");
    say(out.interference_min_mm <= 0.0, "knurling_loose");
    say(out.bite_share > 1.0, "knurling_buried");
}

void rest(const Catalogue& catalogue, KnurlSetup& out) {
    const auto on = [&](bool applies, string_view figure, RuleId rule) {
        if (applies) {
            out.evidence.push_back(rests_on(figure, rule, catalogue));
        }
    };
    namespace rule = knurls::rule;
    on(true, "infeed_mm", rule::infeed_travel);
    on(true, "infeed_mm_rev", rule::infeed_forming);
    on(true, "spindle_rpm", rule::feed_forming);
    on(true, "chamfer_mm", rule::lead_in);
    on(has(out.feed_mm_rev), "feed_mm_rev", rule::feed_forming);
    on(has(out.force_n), "force_n", rule::press_force);
    on(has(out.wall_mm), "least_wall_mm", rule::thin_wall);
    on(has(out.interference_max_mm), "interference_max_mm", rule::press_bite);
    on(true, "cautions", rule::form_limit);
}

}  // namespace

void take(HoleSizes& to, const Given& given, const AskedRow& row, Asking& asking) {
    AskedRow size = row;
    size.range = positive(row.key, "mm");
    if (given.tag != Given::Tag::list) {
        take(to.least_mm, given, size, asking);
        to.greatest_mm = to.least_mm;
        return;
    }
    if (given.items.size() != 2) {
        throw DomainError(
            fmt::format("{} must be a size, or its least and its greatest, got {}", row.name, given.shown()));
    }
    take(to.least_mm, given.items[0], size, asking);
    take(to.greatest_mm, given.items[1], size, asking);
    if (to.least_mm > to.greatest_mm) {
        throw DomainError(fmt::format("{} must run from its least to its greatest size, got {:g} to {:g} mm",
                                      row.name, to.least_mm, to.greatest_mm));
    }
}

KnurlSetup knurl_setup(const KnurlSetupAsk& asked, const Asking& asking) {
    const material::AlloyRow& alloy = material::find_alloy(asking.catalogue, asked.alloy);
    KnurlSetup out;
    out.blank = knurls::ask_blank(asked, asking);
    const knurls::KnurlBlank& blank = out.blank.blank;
    const double depth = blank.tooth_depth_mm;
    const bool formed = out.blank.process != knurls::Process::cut;
    out.alloy = alloy.name;
    out.unit = out.blank.unit;
    out.width_mm = asked.blank.width_mm;
    out.wheels = asked.wheels;
    out.wheel_kind =
        kWheelKinds[static_cast<std::size_t>(out.blank.pattern)][static_cast<std::size_t>(asked.wheels - 1)];
    const auto size = [&](double mm) {
        return spell(mm, FigureKind::length, out.unit == "in" ? UnitSystem::inch : UnitSystem::metric);
    };
    double wheel = has(asked.wheel.diameter_mm) ? asked.wheel.diameter_mm : kNaN;
    if (!has(wheel)) {
        wheel = has(blank.wheel_diameter_mm) ? blank.wheel_diameter_mm : kWheelMm;
        out.assumed.push_back(fmt::format("a wheel of {}", size(wheel)));
    }
    double face = asked.wheel_width_mm;
    if (!has(face)) {
        face = kFaceMm;
        out.assumed.push_back(fmt::format("a face of {}", size(face)));
    }
    if (asked.bore_mm >= blank.blank_diameter_mm) {
        throw DomainError(fmt::format("bore_mm must be less than the blank's {:g} mm, got {:g} mm",
                                      blank.blank_diameter_mm, asked.bore_mm));
    }
    out.infeed_mm = formed ? depth - blank.growth_mm / 2.0 : depth;
    out.first_bite_mm = out.infeed_mm * kBite;
    out.infeed_mm_rev = std::min(std::max(out.infeed_mm / kTurnsToDepth, kLeastInfeedMm), kMostInfeedMm);
    out.turns =
        1 + bounds::whole(std::ceil((out.infeed_mm - out.first_bite_mm) / out.infeed_mm_rev - kAsSaid), 0);
    out.dwell_turns = kDwellTurns;
    out.passes = !formed || blank.normal_pitch_mm <= kOnePassPitchMm ? 1 : 2;
    out.chamfer_mm = std::max(blank.normal_pitch_mm / 2.0, depth);
    out.groove_depth_mm = formed ? kNaN : blank.normal_pitch_mm / 2.0 + kBeyondGrooveMm;
    const bool along = out.width_mm > face * (1.0 + kAsSaid) || !formed;
    const double feed =
        along ? std::min(std::max(blank.normal_pitch_mm / 4.0, kLeastFeedMm), kMostFeedMm) : kNaN;
    out.cut = cut_of(asked, out, feed, formed, asking);
    out.feed_mm_rev = !along ? kNaN : has(out.cut.cut.feed_mm_rev) ? out.cut.cut.feed_mm_rev : feed;
    out.spindle_rpm = out.cut.cut.spindle_rpm;
    if (formed) {
        set_forces(asked, alloy, wheel, face, out);
    }
    if (has(asked.bore_mm)) {
        out.wall_mm = (blank.blank_diameter_mm - asked.bore_mm) / 2.0;
        out.least_wall_mm = kWallInTeeth * depth;
    }
    set_press(asked.hole, out);
    const machine::Slide* const slide =
        asked.machine == nullptr ? nullptr : machine::find_slide(*asked.machine, "cross");
    if (slide != nullptr && asked.wheels == 1) {
        out.dial = dial_at(*slide, out.infeed_mm);
    }
    tell(asked, alloy, formed, out);
    rest(asking.catalogue, out);
    say(out);
    return out;
}

constinit const Question kKnurlSetup = [] {
    Question out = question<KnurlSetupAsk, KnurlSetup, &knurl_setup>(
        "knurls", "knurl_setup",
        "How to knurl a blank: wheels, infeed, feed, speed, passes, force and support, what to turn first.",
        kAsked, kRecord);
    out.sources = "ANSI/ASME B94.6, DIN 82 and rules of the trade, as the evidence names them.";
    out.example = "knurl-setup 20mm \"RGE 0.8\" brass --width 12mm --wheels 2";
    out.own_units = true;
    return out;
}();

}  // namespace halfnut::cutting
