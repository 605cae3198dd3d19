// How a job's parts are read, and how the walk is answered: the members as rows.

#include <array>

#include "halfnut/job/walk.hpp"
#include "halfnut/threads/coating_questions.hpp"

namespace halfnut::job {

namespace {

#define ASKED(member, about) HALFNUT_ASKED(Step, member, about)
#define LENGTH(member, about) HALFNUT_ASKED(Step, member, about).above(0)
constexpr std::array kStep{
    ASKED(what, "What is done.").called("do"),
    ASKED(end, "End that is worked on."),
    ASKED(machine, "Machine that it is done on."),
    ASKED(name, "Name of the surface that it makes."),
    ASKED(holding, "Name of the chuck."),
    ASKED(hold, "How the work is held."),
    ASKED(grips, "What closes on the work."),
    LENGTH(grip_mm, "Length in the jaws.").called("grip_length"),
    ASKED(indicated, "The work is trued by an indicator."),
    ASKED(steadies_mm, "Places of fixed steadies, from the chuck or the first centre.").called("steadies"),
    ASKED(masked, "The coating is kept off the surface."),
    ASKED(finish, "It is one finishing cut."),
    ASKED(fit, "Class of a fit, such as g6 or H7; the diameter is then its nominal size."),
    LENGTH(tolerance_mm,
           "How far the limits of the diameter are apart, or of the length that facing comes to."),
    LENGTH(roughness_mm, "Ra that is asked for."),
    ASKED(times, "How often it is done to a piece."),
    ASKED(at_mm, "Where it begins, from the finished face of its end.").least(0),
    LENGTH(to_mm, "Diameter that it is cut to."),
    LENGTH(start_mm, "Diameter that it starts from; without it that which is there."),
    LENGTH(length_mm, "Length along the axis, or of a milled cut."),
    LENGTH(depth_mm, "Depth of a hole at full diameter, or of a milled cut; the most of one pass."),
    LENGTH(diameter_mm, "Diameter of a drill, a reamer, a knurl."),
    LENGTH(width_mm, "Width of a knurl, a groove, a milled cut."),
    LENGTH(off_mm, "What is faced off."),
    LENGTH(blade_mm, "Width of a blade, diameter of a saw."),
    LENGTH(thickness_mm, "Thickness of a saw."),
    LENGTH(stick_out_mm, "How far work, bar or cutter stands out."),
    LENGTH(bar_mm, "Diameter of a boring bar."),
    LENGTH(hole_mm, "Hole that is there, or that a knurl is pressed into."),
    LENGTH(run_out_mm, "Room behind a thread."),
    LENGTH(cutter_mm, "Diameter of a cutter."),
    ASKED(point_deg, "Included angle of a spot.").called("point"),
    ASKED(included_deg, "Included angle of a countersink.").called("included"),
    ASKED(entry, "How an end mill goes down into a slot or a pocket at each level."),
    ASKED(least_x_mm, "Least of its holes along X, from their zero."),
    ASKED(least_y_mm, "Least of its holes along Y, from their zero."),
    ASKED(spread_x_mm, "What its holes spread over along X.").least(0),
    ASKED(spread_y_mm, "What its holes spread over along Y.").least(0),
    LENGTH(apart_mm, "How far its two nearest holes are apart."),
    ASKED(thread, "Designation of a thread."),
    ASKED(side, "Side of a thread."),
    ASKED(form, "The tap forms the thread."),
    ASKED(shape, "What is milled."),
    ASKED(pitch, "Pitch of a knurl."),
    ASKED(pattern, "Pattern of a knurl."),
    ASKED(process, "How a knurl is made."),
    ASKED(finished, "The diameter is wanted after knurling."),
};
#undef LENGTH
#undef ASKED

#define ASKED(member, about) HALFNUT_ASKED(Part, member, about)
constexpr std::array kPart{
    ASKED(name, "Name of the part."),
    ASKED(alloy, "What it is made of."),
    ASKED(inch, "Sizes are told in inches."),
    ASKED(form, "Form of its stock."),
    ASKED(length_mm, "Length of the finished part."),
    ASKED(diameter_mm, "Diameter of bar or tube."),
    ASKED(bore_mm, "Bore of a tube."),
    ASKED(across_flats_mm, "Width across flats of a hexagon."),
    ASKED(thickness_mm, "Thickness of a plate."),
    ASKED(width_mm, "Width of a plate."),
    ASKED(kerf_mm, "Width of a cut that parts a piece off.").least(0),
    ASKED(facing_mm, "What is left on at each end for facing.").least(0),
    ASKED(stub_mm, "What of a blank stays in the chuck.").least(0).called("grip"),
    ASKED(blank_mm, "Length of the blank, or of the bar in the spindle."),
    ASKED(pieces, "Pieces of one blank."),
    ASKED(through_spindle, "The whole bar goes through the spindle."),
    ASKED(coating, "Build-up of the coating."),
    ASKED(coating_name, "Name of the coating."),
};
#undef ASKED

constexpr std::array kJoint{
    HALFNUT_ASKED(Joint, external, "External thread."),
    HALFNUT_ASKED(Joint, internal, "Internal thread."),
    HALFNUT_ASKED(Joint, engagement_mm, "Length of engagement."),
    HALFNUT_ASKED(Joint, bought, "The screw is bought."),
    HALFNUT_ASKED(Joint, adjuster, "It is an end of an adjuster."),
    HALFNUT_ASKED(Joint, second_end, "It is the second end."),
    HALFNUT_ASKED(Joint, thread_length_mm, "Thread that an adjuster counts on."),
    HALFNUT_ASKED(Joint, tube_diameter_mm, "Outside of the part, as the joint has it."),
    HALFNUT_ASKED(Joint, tube_bore_mm, "Bore of the part, as the joint has it."),
};

constexpr std::array kTrue{
    HALFNUT_ASKED(True, feature, "Name of a surface, or number of its operation."),
    HALFNUT_ASKED(True, to, "What it must run true to."),
    HALFNUT_ASKED(True, within_mm, "Run-out that is allowed, full indicator reading."),
};

constexpr std::array kKinds{
    Kind{Do::turn, "turn",
         "to* fit length* start depth finish nose_radius roughness=step.roughness tolerance hold stick_out "
         "steadies at",
         "Turn the outside down to a diameter; with a fit that is the nominal size.", On::lathe,
         Cuts::outside, "[{tool} ]turning tool"},
    Kind{Do::taper, "taper", "to* length* start between_centres depth finish nose_radius hold stick_out at",
         "Turn a taper from the diameter that is there down to one at its end.", On::lathe, Cuts::outside,
         "[{tool} ]turning tool", "turn a taper"},
    Kind{Do::face, "face", "off* to start depth finish nose_radius roughness=step.roughness tolerance",
         "Face the end, down to the middle or to a diameter; a tolerance is that of the length it comes to.",
         On::lathe, Cuts::end, "[{tool} ]turning tool"},
    Kind{Do::bore, "bore",
         "to* fit length* start depth finish bar stick_out=step.stick_out nose_radius "
         "roughness=step.roughness tolerance at",
         "Bore the hole out to a diameter; with a fit that is the nominal size.", On::lathe, Cuts::bore,
         "[{tool} ]boring bar[, {bar}]"},
    Kind{Do::groove, "groove", "to* blade* width start hold at", "Cut a groove down to a diameter.",
         On::lathe, Cuts::outside, "[{tool} ]blade, {blade}"},
    Kind{Do::part_off, "part_off", "blade* stick_out", "Part the piece off the bar.", On::lathe, Cuts::end,
         "[{tool} ]blade, {blade}"},
    Kind{Do::spot, "spot", "diameter* point=point_deg places divisions",
         "Spot the place of a hole, or a centre.", On::either, Cuts::hole,
         "[{tool} ]spotting drill, {diameter}"},
    Kind{Do::drill, "drill", "diameter* depth places divisions", "Drill a hole; without a depth, through.",
         On::either, Cuts::hole, "[{tool} ]drill, [{called}, ]{diameter}"},
    Kind{Do::countersink, "countersink",
         "diameter* hole=step.hole included=included_deg flutes places divisions", "Countersink a hole.",
         On::either, Cuts::hole, "[{tool} ]countersink, {diameter}"},
    Kind{Do::counterbore, "counterbore", "diameter* depth* hole=step.hole flutes places divisions",
         "Counterbore a hole, flat at the bottom.", On::either, Cuts::hole,
         "[{tool} ]counterbore, {diameter}"},
    Kind{Do::ream, "ream", "diameter* depth places divisions",
         "Ream a drilled hole; without a depth, through.", On::either, Cuts::hole,
         "[{tool} ]reamer, {diameter}"},
    Kind{Do::tap, "tap", "thread* depth form places divisions",
         "Tap a drilled hole; without a depth, through.", On::either, Cuts::hole, "tap {thread}"},
    Kind{Do::mill, "mill",
         "shape* cutter* flutes length* width* depth* step_down step_over stick_out nose_radius "
         "roughness=step.roughness entry entry_angle=ramp.angle_deg places divisions",
         "Mill a slot, a pocket or a side with an end mill, or a face with a face mill.", On::mill,
         Cuts::shape, "[{tool} ]cutter, {cutter}", "mill a {shape}"},
    Kind{Do::saw, "saw", "blade* thickness* teeth* length* depth* places divisions",
         "Slit with a saw on an arbor, in one pass to depth.", On::mill, Cuts::shape,
         "[{tool} ]slitting saw, {blade} × {thickness}", "slit with a saw",
         "{thickness} × {length}, {depth} deep, blade {blade}, oil"},
    Kind{Do::thread, "chase",
         "thread* side length* engagement=limits.engagement infeed nose_radius run_out hold at",
         "Cut a thread with a single point, outside or inside.", On::lathe, Cuts::outside,
         "[{tool} ]threading tool"},
    Kind{Do::knurl, "knurl_setup",
         "pitch* pattern diameter finished width* process wheels hole=step.hole hold at",
         "Knurl a band; the diameter is the blank's, or with finished the knurled one.", On::lathe,
         Cuts::outside, "knurl wheels {pitch}"},
};

static_assert(kKinds.size() == enum_names(Do{}).size(), "each kind of operation has a row");
static_assert(
    [] {
        for (std::size_t place = 0; place < kKinds.size(); ++place) {
            if (kKinds[place].what != static_cast<Do>(place)) {
                return false;
            }
        }
        return true;
    }(),
    "rows stand in the order of Do");

template <class Asked>
constexpr Question read_only(std::span<const AskedRow> rows) {
    Question out;
    out.name = out.room = "job";
    out.arguments = rows;
    out.fresh = []() -> std::shared_ptr<void> { return std::make_shared<Asked>(); };
    return out;
}

constexpr Question kStepQuestion = read_only<Step>(kStep);
constexpr Question kPartQuestion = read_only<Part>(kPart);
constexpr Question kJointQuestion = read_only<Joint>(kJoint);
constexpr Question kTrueQuestion = read_only<True>(kTrue);

#define FIGURE(member, about) HALFNUT_FIGURE(Zone, member, about)
constexpr std::array kZone{
    FIGURE(from_mm, "Where it begins, from the finished face of the first end."),
    FIGURE(to_mm, "Where it ends."),
    FIGURE(from_diameter_mm, "Diameter where it begins."),
    FIGURE(to_diameter_mm, "Diameter where it ends."),
    FIGURE(surface, "What it is."),
    FIGURE(thread, "Designation of a thread, pitch of a knurl."),
    FIGURE(name, "As the job calls it."),
    FIGURE(operation, "Operation that cut it; 0 for stock."),
    FIGURE(finished, "It has a size that matters."),
    FIGURE(left_hand, "Of a thread."),
    FIGURE(depth_mm, "Of a thread or a knurl, on the radius."),
};
#undef FIGURE
constexpr RecordRow kZoneRecord{"Zone", "A length of the outside or of the bore with one surface.", kZone};

#define FIGURE(member, about) HALFNUT_FIGURE(Holes, member, about)
constexpr std::array kHoles{
    FIGURE(count, "How many."),
    FIGURE(diameter_mm, "Diameter."),
    FIGURE(depth_mm, "Depth of the full diameter."),
    FIGURE(through, "They go through."),
    FIGURE(surface, "Drilled, reamed or tapped."),
    FIGURE(thread, "Designation of a thread."),
    FIGURE(operation, "Operation that made them what they are."),
};
#undef FIGURE
constexpr RecordRow kHolesRecord{"Holes", "Holes off the axis, alike.", kHoles};

#define FIGURE(member, about) HALFNUT_FIGURE(Milled, member, about)
constexpr std::array kMilled{
    FIGURE(shape, "Slot, pocket, side, face or slit."),
    FIGURE(length_mm, "Length."),
    FIGURE(width_mm, "Width."),
    FIGURE(depth_mm, "Depth."),
    FIGURE(count, "How many."),
    FIGURE(operation, "Operation that cut it."),
};
#undef FIGURE
constexpr RecordRow kMilledRecord{"Milled", "What a mill or a saw has taken away.", kMilled};

#define FIGURE(member, about) HALFNUT_FIGURE(Held, member, about)
constexpr std::array kHeld{
    FIGURE(grip, "What holds the work."),
    FIGURE(end, "End that is worked on; the other one is held."),
    FIGURE(from_mm, "Where the jaws begin, along the axis."),
    FIGURE(to_mm, "Where they end."),
    FIGURE(diameter_mm, "Diameter that they close on."),
    FIGURE(surface, "What they close on."),
    FIGURE(setting, "Which holding of the part it is, from 1."),
    FIGURE(stick_out_mm, "From the jaws to the face that is worked on."),
};
#undef FIGURE
constexpr RecordRow kHeldRecord{"Held", "What holds the work, and where.", kHeld};

#define FIGURE(member, about) HALFNUT_FIGURE(Profile, member, about)
constexpr std::array kProfile{
    FIGURE(from_mm, "Where the work begins, from the finished face of the first end."),
    FIGURE(to_mm, "Where it ends."),
    FIGURE(on_bar, "It is still on the bar."),
    FIGURE(first_faced, "The first end is faced."),
    FIGURE(second_faced, "The second end is faced."),
    HALFNUT_RECORDS(Profile, outside, kZoneRecord, "Outside by zones, from the first end to the second."),
    HALFNUT_RECORDS(Profile, bore, kZoneRecord, "Hole on the axis by zones."),
    HALFNUT_RECORDS(Profile, holes, kHolesRecord, "Holes off the axis."),
    HALFNUT_RECORDS(Profile, milled, kMilledRecord, "What is milled and sawn."),
    HALFNUT_RECORD(Profile, held, kHeldRecord, "What holds the work."),
};
#undef FIGURE
constexpr RecordRow kProfileRecord{"Profile", "A workpiece as it stands after an operation.", kProfile};

#define FIGURE(member, about) HALFNUT_FIGURE(cutting::WorkSection, member, about)
constexpr std::array kSection{
    FIGURE(length_mm, "Length."),
    FIGURE(diameter_mm, "Diameter."),
    FIGURE(bore_mm, "Bore."),
};
#undef FIGURE
constexpr RecordRow kSectionRecord{"WorkSection", "A length of work of one section.", kSection};

#define FIGURE(member, about) HALFNUT_FIGURE(Walked, member, about)
constexpr std::array kWalked{
    FIGURE(operation, "Its number."),
    FIGURE(from_mm, "Where it cuts, along the axis."),
    FIGURE(to_mm, "Where that ends."),
    FIGURE(start_mm, "The greatest outside diameter that the tool meets."),
    FIGURE(hole_mm, "The hole that is there before."),
    FIGURE(hole_deep_mm, "Depth of that hole."),
    FIGURE(overhang_mm, "How far the work stands out; none of inside work."),
    FIGURE(reach_mm, "How far from the face the cuts of this holding go."),
    FIGURE(length_mm, "Length of the work after it."),
    FIGURE(through, "Its hole goes through."),
    FIGURE(beyond_mm, "How far reamer or tap goes on below the work, until its lead is clear of it."),
    FIGURE(covers, "What it comes to that makes cautions needless."),
    HALFNUT_RECORDS(Walked, sections, kSectionRecord,
                    "Stepped work that is cut along its outside, from the chuck or the first centre on."),
    FIGURE(cut_at_mm, "Where on them the cut begins, from the other end."),
    HALFNUT_RECORD(Walked, after, kProfileRecord, "The work after it."),
};
#undef FIGURE
constexpr RecordRow kWalkedRecord{"Walked", "An operation as the work came to it and left it.", kWalked};

#define FIGURE(member, about) HALFNUT_FIGURE(Mistake, member, about)
constexpr std::array kMistake{
    FIGURE(code, "Which."),
    FIGURE(operation, "Number of the operation; 0 for the part as a whole."),
    FIGURE(refused, "It is refused; else cautioned about."),
    FIGURE(found_mm, "What is found."),
    FIGURE(needed_mm, "What is needed."),
    FIGURE(needed_most_mm, "The most of it, of a range."),
    FIGURE(text, "What is found and needed, in words."),
    FIGURE(cure, "The nearest cure."),
    FIGURE(line, "Line of the job's file where the operation begins, or the part."),
};
#undef FIGURE
constexpr RecordRow kMistakeRecord{"Mistake", "A mistake of a job.", kMistake};

constexpr std::array kWalkedPart{
    HALFNUT_FIGURE(WalkedPart, part, "Name of the part."),
    HALFNUT_RECORDS(WalkedPart, operations, kWalkedRecord, "Its operations."),
    HALFNUT_RECORDS(WalkedPart, mistakes, kMistakeRecord, "Its mistakes."),
    HALFNUT_FIGURE(WalkedPart, told, "What a person should know of it."),
};
constexpr RecordRow kWalkedPartRecord{"WalkedPart", "A part walked through its operations.", kWalkedPart};

constexpr std::array kWalkedJobRows{
    HALFNUT_RECORDS(WalkedJob, parts, kWalkedPartRecord, "Every part."),
};

}  // namespace

const RecordRow kWalkedJob{"WalkedJob", "A job's parts walked through their operations.", kWalkedJobRows};

std::span<const Kind> kinds() {
    return kKinds;
}
const Kind& kind_of(Do what) {
    return kKinds[static_cast<std::size_t>(what)];
}
const Question& step_question() {
    return kStepQuestion;
}
const Question& part_question() {
    return kPartQuestion;
}
const Question& joint_question() {
    return kJointQuestion;
}
const Question& true_question() {
    return kTrueQuestion;
}

}  // namespace halfnut::job
