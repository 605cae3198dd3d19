#pragma once
/// The members of a machine by their names: what reads, writes, shows and compares one is made of these
/// lists.

#include <string_view>

#include "halfnut/machine/machine.hpp"

namespace halfnut::machine {

/// A member by its name.
template <class Record, class M>
struct Named {
    std::string_view name;
    M Record::* member;
};
template <class Record, class M>
Named(std::string_view, M Record::*) -> Named<Record, M>;

#define HALFNUT_AT(Record, member) \
    Named {                        \
        #member, &Record::member   \
    }
template <class Each>
void members(const SpindleStep* /*of*/, const Each& each) {
    each(HALFNUT_AT(SpindleStep, rpm), HALFNUT_AT(SpindleStep, rpm_low), HALFNUT_AT(SpindleStep, power_kw),
         HALFNUT_AT(SpindleStep, power_low_kw), HALFNUT_AT(SpindleStep, back_gear),
         HALFNUT_AT(SpindleStep, stop_to_change), HALFNUT_AT(SpindleStep, positions));
}
template <class Each>
void members(const FeedStep* /*of*/, const Each& each) {
    each(HALFNUT_AT(FeedStep, feed_mm), HALFNUT_AT(FeedStep, marked), HALFNUT_AT(FeedStep, stop_to_change),
         HALFNUT_AT(FeedStep, positions));
}
template <class Each>
void members(const FeedLadder* /*of*/, const Each& each) {
    each(HALFNUT_AT(FeedLadder, kind), HALFNUT_AT(FeedLadder, marked_in_inch), HALFNUT_AT(FeedLadder, steps),
         HALFNUT_AT(FeedLadder, cross_ratio));
}
template <class Each>
void members(const Slide* /*of*/, const Each& each) {
    each(HALFNUT_AT(Slide, name), HALFNUT_AT(Slide, travel_per_turn_mm), HALFNUT_AT(Slide, graduation_mm),
         HALFNUT_AT(Slide, marked_graduation), HALFNUT_AT(Slide, marked_in_inch),
         HALFNUT_AT(Slide, reads_diameter), HALFNUT_AT(Slide, travel_mm), HALFNUT_AT(Slide, readout_mm),
         HALFNUT_AT(Slide, power_feed), HALFNUT_AT(Slide, backlash_mm), HALFNUT_AT(Slide, approach_minus));
}
template <class Each>
void members(const Chuck* /*of*/, const Each& each) {
    each(HALFNUT_AT(Chuck, name), HALFNUT_AT(Chuck, jaws), HALFNUT_AT(Chuck, diameter_mm),
         HALFNUT_AT(Chuck, rpm_limit), HALFNUT_AT(Chuck, cast_iron), HALFNUT_AT(Chuck, through_mm),
         HALFNUT_AT(Chuck, jaw_depth_mm), HALFNUT_AT(Chuck, opening_least_mm),
         HALFNUT_AT(Chuck, opening_greatest_mm), HALFNUT_AT(Chuck, jaw_mass_kg),
         HALFNUT_AT(Chuck, run_out_mm));
}
template <class Each>
void members(const GearboxStep* /*of*/, const Each& each) {
    each(HALFNUT_AT(GearboxStep, ratio), HALFNUT_AT(GearboxStep, positions));
}
template <class Each>
void members(const ChartRow* /*of*/, const Each& each) {
    each(HALFNUT_AT(ChartRow, lead_mm), HALFNUT_AT(ChartRow, inch), HALFNUT_AT(ChartRow, drivers),
         HALFNUT_AT(ChartRow, driven), HALFNUT_AT(ChartRow, positions));
}
template <class Each>
void members(const Threading* /*of*/, const Each& each) {
    each(HALFNUT_AT(Threading, lead_mm), HALFNUT_AT(Threading, threads_per_inch),
         HALFNUT_AT(Threading, metric), HALFNUT_AT(Threading, spindle_to_stud), HALFNUT_AT(Threading, gears),
         HALFNUT_AT(Threading, module_mm), HALFNUT_AT(Threading, stud_to_screw_mm),
         HALFNUT_AT(Threading, banjo_low_mm), HALFNUT_AT(Threading, banjo_high_mm),
         HALFNUT_AT(Threading, stud_clearance_mm), HALFNUT_AT(Threading, collar_mm),
         HALFNUT_AT(Threading, standard_driver), HALFNUT_AT(Threading, standard_driven),
         HALFNUT_AT(Threading, gearbox), HALFNUT_AT(Threading, dial_threads_per_turn),
         HALFNUT_AT(Threading, dial_marks), HALFNUT_AT(Threading, chart));
}
template <class Each>
void members(const Machine* /*of*/, const Each& each) {
    each(HALFNUT_AT(Machine, name), HALFNUT_AT(Machine, kind), HALFNUT_AT(Machine, inch),
         HALFNUT_AT(Machine, motor_kw), HALFNUT_AT(Machine, efficiency), HALFNUT_AT(Machine, spindle),
         HALFNUT_AT(Machine, carriage), HALFNUT_AT(Machine, quill), HALFNUT_AT(Machine, table),
         HALFNUT_AT(Machine, slides), HALFNUT_AT(Machine, compound_zero), HALFNUT_AT(Machine, chucks),
         HALFNUT_AT(Machine, threading), HALFNUT_AT(Machine, centre_height_mm),
         HALFNUT_AT(Machine, swing_over_bed_mm), HALFNUT_AT(Machine, swing_over_cross_slide_mm),
         HALFNUT_AT(Machine, swing_in_gap_mm), HALFNUT_AT(Machine, between_centres_mm),
         HALFNUT_AT(Machine, spindle_bore_mm), HALFNUT_AT(Machine, spindle_length_mm),
         HALFNUT_AT(Machine, torque_limit_nm), HALFNUT_AT(Machine, lever_change_s),
         HALFNUT_AT(Machine, stop_change_s), HALFNUT_AT(Machine, measure_s),
         HALFNUT_AT(Machine, tool_change_s), HALFNUT_AT(Machine, tailstock_turns_per_min),
         HALFNUT_AT(Machine, table_turns_per_min), HALFNUT_AT(Machine, half_nut_s),
         HALFNUT_AT(Machine, hand_ream_rpm), HALFNUT_AT(Machine, hand_knurl_rpm),
         HALFNUT_AT(Machine, hand_axes), HALFNUT_AT(Machine, tool_clearance_mm),
         HALFNUT_AT(Machine, dividing_ratio), HALFNUT_AT(Machine, dividing_plates),
         HALFNUT_AT(Machine, direct_holes));
}
#undef HALFNUT_AT

}  // namespace halfnut::machine
