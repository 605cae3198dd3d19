"""What a person reads beside the numbers, keyed by code. The text of errors lives in the core."""

from __future__ import annotations

from typing import Any

from halfnut.record import Caution

CAUTIONS: dict[str, str] = {
    # material
    "hazard_titanium_chips": "fine titanium chips burn: sharp tool, steady feed, plenty of coolant, chips cleared "
    "away, a class D extinguisher at hand; never water on burning chips",
    "hazard_magnesium_chips": "magnesium chips burn: sharp tool, no fine feed, no dwell, cut dry, chips kept dry in "
    "closed cans, a class D extinguisher or dry sand at hand; never water or foam",
    "hazard_beryllium_dust": "beryllium in dust or fume harms the lungs for good: no dry grinding or filing, wet or "
    "with extraction, no compressed air",
    "hazard_lead_dust": "contains lead: wash hands before eating, keep the dust down",
    "hazard_glass_dust": "glass dust: extraction and a mask; it also wears slideways, so cover them",
    "hazard_formaldehyde_fume": "gives off formaldehyde when overheated: sharp tool, no rubbing",
    "hazard_fluorine_fume": "gives off poisonous fume when overheated: sharp tool, no smoking near the chips",
    # knurls
    "knurl_stray_pitch": "this pitch is not in its system's series: check that a wheel of it is at hand",
    "knurl_few_teeth": "fewer than 12 teeth: growth and depth are rough on so small a blank, try one piece",
    "knurl_wheel_off_pitch": "the wheel's own pitch is more than 3 % from the pitch called for: "
    "check its size and its teeth",
    "knurl_coarse_diametral": "64 DP is best avoided in new work; 96 DP is preferred",
    "knurl_large_diametral": "diametral pitches are laid down for blanks up to 1 in",
    "knurl_wide_band": "the knurled band is wider than the blank's diameter: knurl a narrower band",
    "knurl_off_finished": "whole teeth leave the finished diameter outside its limits: "
    "choose another pitch or turn the points down",
    "knurling_hard": "above 327 HB (35 HRC) forming chips the wheels and the work: cut the knurl, or knurl before "
    "hardening",
    "knurling_crumbles": "cast iron crumbles under form wheels: cut the knurl",
    "knurling_thin_wall": "the wall is less than 4.5 times the tooth's depth and gives way: plug the bore, clamp with "
    "two wheels, or cut the knurl",
    "knurling_bends": "the force bends the work by more than a quarter of the tooth's depth: a centre, or a holder "
    "with two wheels above and below the work",
    "knurling_support": "the work sticks out more than two diameters: a centre before one wheel is pushed in",
    "knurling_three": "three wheels around the work print standing points only where each has the whole pattern",
    "knurling_loose": "the smallest knurl does not fill the largest hole: a smaller hole, or a larger blank",
    "knurling_buried": "the interference is more than the teeth are high: the hole splits or the teeth shear",
    # threads
    "not_tabulated": "not in the tables of the standard: by the formulas behind them",
    "not_provided": "the standard provides no such class at this size: stepped from the classes it has",
    "engagement_class": "the class is not one the standard recommends for this length of engagement (group {group})",
    "special_engagement": "tolerance for a special length of engagement: the drawing states limits and length",
    "toleranced_as_series": "toleranced as the thread of another series that it is",
    "not_in_series": "in no standard series: taps, dies and gauges will be specials",
    "multi_start": "several starts: the tolerance is that of a single start of the same pitch",
    "doubtful_position": "position a to d: the sources for its deviation disagree or are memory; check it first",
    "mixed_positions": "pitch and crest diameter have different tolerance positions",
    "no_close_match": "no standard thread is close: measure the pitch over more turns, or take it for a special",
    "near_match": "a little outside its usual class: another class, worn or coated",
    "close_matches": "more than one standard thread fits these measurements: measure the pitch over more turns",
    "flank_angle_tells": "threads of other flank angles have this diameter and pitch: measure the angle with a thread "
    "gauge",
    "taper_tells": "a taper and a parallel thread have this diameter and pitch: measure the diameter at two places",
    "depth_tells": "more than one standard thread has this diameter, pitch and angle: measure the other diameter",
    "nothing_tells": "more than one standard thread has this profile, and they differ in their tolerances alone: the "
    "drawing or the joint says which",
    "taper_diameter": "of a taper thread the diameter changes along it, a sixteenth of the length: measured elsewhere "
    "than in the gauge plane it is another size",
    # coatings
    "coat_maximum_by_rule": "only a minimum is specified: the maximum is taken as half as much again",
    "coat_usual_film": "no thickness given: the usual film; order one, and say it here",
    "coat_film_outside": "the film is outside what the specification allows, {film} um",
    "coat_galvanize_small": "hot dip galvanizing is laid down (ISO 10684) for threads from M8 and pitch 1.25 mm up",
    "coat_growth_range": "growth is published both as one third and as one half of the film: "
    "anodise a coupon of the same alloy and measure it",
    "coat_etch": "cleaning takes up to {etch} um a surface before the film grows: ask the shop, or measure a coupon",
    "coat_strip": "stripping and anodising again takes the metal of the first film for good",
    "coat_blind_hole": "a blind hole traps acid, which weeps out later: drill it through, or plug it",
    "coat_uneven": "a plate builds up at crests and ends and is thin in the roots: the go gauge decides",
    "coat_loses_metal": "at its least this coating takes more metal than it grows: check the coated part not-go",
    "coat_allowance_short": "the coating needs {needs} on the pitch diameter, the class allows {has}: "
    "cut to these limits, not to the class's",
    # holes
    "hole_usual_percent": "nothing asked: {percent} % of thread, as is usual",
    "hole_outside": "the hole is outside its limits, {limits}; {within} keeps them",
    "hole_no_drill": "no drill of the set keeps the limits, {limits}: bore or ream the hole",
    "hole_by_analogy": "hole limits by length of engagement are a rule of Unified threads, used here by analogy",
    "hole_high_percent": "over 85 % of thread the tap works much harder for hardly more strength, and breaks sooner",
    "hole_forming": "a forming tap's hole depends on the metal: try one and measure its minor diameter",
    "hole_short_lead": "so short a lead does not start a thread straight: tap first with a longer one",
    # other thread forms
    "form_memory": "some figures of this thread are recalled, not read in print: check them before a part depends on "
    "them",
    "form_precoat": "no standard of this form says whether its allowance may hold a coating: all of it is taken off",
    "form_strength_rules": "no factor is published for dilation or bending of threads of this flank angle: that of 60 "
    "degree threads for dilation, which a flatter flank does not exceed, and the least of theirs for bending, 0.897, "
    "are taken off",
    "form_special_pair": "no standard series has this diameter with this pitch: standards and prints then differ on "
    "the diameter that allowance and tolerance go by: here it is the thread's own",
    "form_hole_outside": "the hole is outside the minor diameter's limits, {limits}",
    "form_tap_set": "a coarse screw thread is tapped in steps, with a set of taps or one with a long taper, or bored "
    "and cut with a single point",
    "form_tap_torque": "the torque is that of a chip as wide as in a 60 degree thread: a full Whitworth form takes a "
    "third more",
    "taper_tap": "a taper tap cuts along its whole length in the work, with several times the torque reckoned: run it "
    "at half the speed, back it often, and stop by the gauge",
    "taper_hole_straight": "tapping a straight hole cuts the far threads fuller than those at the mouth, and loads the "
    "tap: ream where the joint must hold pressure",
    "tighten_form": "no standard of this form gives a torque: it is reckoned from the form's own flanks and lead; the "
    "nut factor of practice is of 60 degree threads and left out",
    "form_no_classes": "judged against this class alone: of this form no other is tried",
    "taper_pipe_seal": "the thread seals only with a sealant; piping that holds pressure, gas or fuel follows its own "
    "code and is tested",
    # tapers
    "holding_taper_steep": "steeper than 1:10 a taper may let go under load: give it a drawbar",
    "holding_taper_blue": "the angle decides whether it holds: prove it with blue in a gauge or a known socket, "
    "bearing over most of its length and hardest at the large end, before the last cut",
    # plain holes and shafts
    "fit_memory": "a limit of this class is recalled, not read in print: check it before a part depends on it",
    "fit_press": "parts that interfere are stressed by it, and a press or heat is needed to join them: reckon hoop "
    "stress, force and temperature first, in a brittle or thin part above all",
    "fit_coating_wide": "the coating's range takes more than the tolerance of the {part}: finish it after coating, "
    "mask it, or take a coarser grade",
    # adjusters and turnbuckles
    "adjuster_factor_short": "the factor of safety is not reached everywhere in the range: only {reached} of the load",
    "adjuster_strips_first": "wound out, a thread strips before a section yields, without warning: keep it wound in "
    "where the length allows",
    "adjuster_few_turns": "fewer than three full turns are left engaged at the longest",
    "adjuster_preload_high": "at its greatest the lock nut and the pull together take more than three quarters of the "
    "section's yield: less friction spread, less load, or more wall",
    "adjuster_nut_thin": "the lock nut is thinner than its own preload asks for: a thicker one",
    "adjuster_may_bind": "some parts within their limits and coating do not screw together: see fit",
    "adjuster_expansion": "base or lock nut expand unlike the external part: warmth or cold moves the preload",
    "adjuster_no_lock_nut": "without a lock nut the play stays, and nothing keeps it from turning",
    "adjuster_shear_by_ratio": "a shear strength is taken as 0.577 of the tensile: better a figure of the metal's",
    "adjuster_thin_wall": "less wall is left by a thread than the thread is deep",
    "adjuster_dilation_beyond": "an internal part is thinner than 1.4 diameters outside: nothing is published on how "
    "far it widens",
    "adjuster_form_practice": "no standard of this thread form gives a length of engagement, a lock nut or factors for "
    "bending: practice, and bounds from 60 degree threads",
    "adjuster_runs": "the lead is steep: a load turns this thread by itself where friction is below {friction}: only "
    "the lock nut holds it",
    "adjuster_solid": "taken as solid: {members}. A hollow one buckles and breaks sooner: give its bore",
    "adjuster_rotating": "a member that turns, shakes or feels loads that come and go fails by fatigue far below these "
    "figures, and unscrews: pin, wire or stake it",
    "adjuster_licensed": "static figures for a straight member pushed along its axis: what bears a load or a person is "
    "for licensed practice and the local code to settle",
    # measuring and fitting threads
    "wire_off_best": "the wire is more than 10 % off the best one: an error of the flank angle shows in the reading",
    "wire_even_starts": "an even number of starts: a crest stands opposite a crest, so a thread micrometer does not do",
    "wire_lead_matters": "the plain formula is more than 0.00015 in (0.004 mm) short here: the lead angle counts",
    "fit_engagement_assumed": "no length of engagement given: {length} assumed; take the full form only",
    "judge_major_assumed": "no major diameter given: taken at its upper limit for the wires",
    "judge_minor_assumed": "no minor diameter given: taken at its lower limit for the balls",
    "judge_these_limits": "judged against these limits alone: no other class is tried",
    "judge_form_assumed": "pitch and flank angles taken as right: a go gauge finds out",
    "printed_rule_differs": "printed tables and go gauges carry: {differences}",
    "formula_rule_differs": "the standard's own rounding since 2003 gives: {differences}",
    # strength of threads
    "galling": "these metals gall: once seized, the thread is lost; lubricate, turn by hand, stop at the first drag",
    "strength_shear_by_ratio": "a shear strength is taken as 0.577 of the tensile: better a figure of the metal's",
    "strength_dilation_beyond": "the internal part is thinner than 1.4 diameters outside: nothing is published on "
    "how much of its stripping load is left; the curve is carried on. Try one to destruction, or make it thicker",
    "strength_outside_unknown": "no outside size of the internal part is given: taken as too thick to widen, "
    "its section not checked",
    "strength_few_turns": "fewer than three full turns are engaged",
    "strength_many_turns": "beyond one and a half diameters the far turns bear little, whatever the area says",
    "strength_thin_external_wall": "less wall is left under the external thread than the thread is deep",
    "strength_thin_internal_wall": "less wall is left over the internal thread than the thread is deep",
    "strength_strips_first": "a thread strips before a section breaks, without warning: engage further "
    "where there is room",
    "strength_yield_unknown": "a section's yield strength is not known: held to breaking only",
    "strength_no_factor": "no factor of safety is in any figure: choose one for the use, and give it",
    "strength_hoop_over_yield": "the wall over the internal thread yields under this load",
    "strength_weakest_row": "no thickness given: the weakest row of this form is taken",
    "strength_under_practice": "shorter than practice engages such a metal, {length} of full form",
    "strength_rotating": "a joint that turns or feels loads that come and go fails by fatigue far below these "
    "figures: first thread and run-out are where it starts; have it designed and inspected as such",
    "strength_licensed": "static figures: fatigue, shock, heat, corrosion and welding are not in them. What bears a "
    "load that can hurt someone is checked by licensed practice and local codes before it is used",
    "torque_friction_single": "one value of friction, no range: real preloads scatter by a quarter and more",
    "torque_seat_assumed": "no seat given: its mean diameter is taken as 1.25 thread diameters, {length}",
    "torque_over_yield": "tightened to the greatest torque here, the thread yields",
    # cutting
    "above_window": "even the machine's slowest step runs above the speed for this material and tool: a smaller "
    "diameter, a harder tool, or another machine",
    "above_chuck_limit": "the spindle would turn faster than what holds the work may turn",
    "chuck_unmarked": "this chuck carries no speed limit; a rim speed of 25 m/s was taken, look for the marking",
    "power_exceeded": "at the upper edge of its band the cut needs more power than the spindle has at this step: "
    "less depth or a finer feed",
    "torque_exceeded": "at the upper edge of its band the cut needs more torque than the spindle bears",
    "deflection_exceeded": "at the upper edge of the force the work or the bar bends more than allowed: "
    "support it, or less depth or feed",
    "roughness_exceeded": "the feed leaves a rougher surface than asked for",
    "feed_above_nose": "the feed is large for the nose radius: the surface is torn and the nose breaks",
    "chip_too_thin": "the chip is thinner than the edge is round: the tool rubs; more feed or a sharper edge",
    "slender": "the work is slender for how it is held: centre, steady or follow rest",
    "overhang": "the bar or cutter sticks out more than four diameters: expect chatter",
    "force_rough": "force and power are estimated from the tensile strength alone, within a factor of two",
    "entry_centre_cutting": "an end mill goes down into solid work only if it cuts to its centre, or the path keeps "
    "its middle off the work",
    "saw_clamped": "a slitting saw seizes where the slit closes: clamp both sides, run it true, plenty of oil",
    "setover_steep": "a set-over this large wears the centre holes and is no longer true: "
    "use the compound or an attachment",
    "life_unverified": "measured lives scatter widely, and an edge may fail at a tenth of the life: watch the finish "
    "and the sound, change early",
    "window_doubtful": "the speed rests on a row marked as weak; start at the low end",
    "window_far": "no speed is tabulated for this alloy or its near kin; the speed is that of a wide group",
    "window_stand_in": "no speed is tabulated for this operation and tool; it is reckoned from another's",
    "fire_speed": "the speed asked for can set chips on fire: held to 213 m/min (700 ft/min)",
    "deep_hole": "deep for its diameter: withdraw and clear the chips often",
    "chase_cannot_stop": "even the slowest step runs too fast to stop in this run-out by hand: a wider groove, the "
    "tool upside down and run away from the shoulder, or a crank on the spindle",
    "chase_root_binds": "the bottom of the groove would touch the other part's crest: a narrower nose",
    "chase_root_deep": "the nose is sharper than the root that the standard asks for: a wider nose",
    "chase_line_too_coarse": "the last whole line leaves the pitch diameter outside its limits: go the remainder "
    "between two lines, by the reading",
    "gears_lead_too_far_off": "over this engagement the wrong lead takes more than half of the pitch diameter's "
    "tolerance: a shorter engagement, a looser class, or a gear that is not at hand",
    "gears_steep": "a mesh above 6 to 1 runs hard and noisily: drive it by hand, or turn the leadscrew instead",
    "gears_short_idler": "take an idler that meshes with both gears; it does not change the lead",
    "warm_size": "warm from the cut it measures larger by more than a quarter of the tolerance: let it cool, or see "
    "size_at_20_mm",
    "bend_takes_tolerance": "the bend takes more than half of the diameter's tolerance: a centre or steady, a lighter "
    "last cut, or an edge nearer 90 degrees",
    "ring_out_of_round": "the jaws leave the work further out of round than allowed: more contacts (soft or pie jaws), "
    "a collet, a plug in the bore, less grip and a lighter cut, or clamp it endwise on a face plate",
    "ring_is_thick": "the wall is thick for a thin ring: it will come rounder than this",
    "thin_wall": "a thin wall springs under the jaws: plug it, soft jaws, or a collet",
    "speed_at_centre": "towards the centre the cutting speed falls to nothing: ease the feed",
    "grabs": "this material draws a sharp drill in: flatten the cutting lips",
    "below_smallest_feed": "every power feed is too coarse here and can break the tool: feed by hand",
    "tap_reversal": "by power a tap wants a tapping head or a spindle that reverses; "
    "without one, turn the spindle by hand",
    "form_tap_ductile": "a forming tap wants a ductile metal, a larger hole than a cutting one and plenty of oil; its "
    "torque is known only within a factor of two",
    "part_slender": "parting this far from the jaws the work springs, climbs the blade and is thrown: part close to "
    "the chuck, hold it in a collet, or saw it",
    "part_centre": "never part off work that a centre presses on: the piece pinches the blade and is flung",
    "bar_behind": "a bar over {bar_free} behind the spindle whips at this speed: guide it, or cut it",
    "plastic_melts": "plastics melt and grow with heat: sharp edge, air, light grip; measure cold",
    "no_passes": "nothing within every limit: do not take a limit of chuck or grip for one to stretch; change the "
    "holding, the tool or the machine",
    "edge_spent": "the edge is reckoned to wear out within these passes: slower, or grind or turn it on the way",
    "equal_passes": "no passes keep every limit, {why}; equal passes instead: go carefully, or change what is said",
    "ream_forward": "never turn a reamer backwards, not even to withdraw it",
    "work_whips": "overhanging work whips above {whirl_of_the_work} rev/min: bring a centre or steady, or shorten it",
    "bar_whips": "the bar behind the spindle whips above {whirl_of_the_bar} rev/min: guide it, or cut it shorter",
    "climbs": "the work gives way by more than the cut's depth: it climbs the tool; support it",
    "in_gap": "over the {swing_over_the_bed} swing: it turns in the gap only, clear of the carriage",
    "over_cross_slide": "over the {swing_over_the_cross_slide} swing of the cross slide: clear of the carriage only",
    "below_jaws": "the jaws close on {jaws} at least: take a collet, or grip thicker stock",
    "over_travel": "the cut is longer than the slide's {travel} of travel: set it up again part-way",
    # cutting, harmless
    "trait_built_up_edge": "metal welds itself to the edge at low speed: the upper half of the window, a sharp "
    "polished edge of high rake, cutting fluid",
    "trait_work_hardening": "hardens where it is rubbed: keep the feed up, no dwelling, never less depth than the skin "
    "of the last pass",
    "trait_abrasive": "wears the edge: carbide lasts longer, and look at the edge between passes",
    "trait_brittle": "chips and cracks at edges: fine feed, ease off before the tool breaks through, light clamping",
    "trait_long_chips": "long stringy chips: stop the spindle and clear them with a hook, never by hand; more feed "
    "breaks them sooner",
    "trait_low_conductivity": "the heat stays at the edge and in the work: sharp tool, no dwelling, coolant where the "
    "material bears it, and measure when cold",
    "trait_springy": "springs away from the edge: sharp tool, short overhang, measure before the last pass",
    "conventional": "on plain feed screws mill conventionally, the teeth moving against the feed: a climb cut pulls "
    "the table through the play of the screw",
    "backlash": "come to every dial reading from the side that the cut is fed from; overshot, go back past the play "
    "and come again",
    "speed_below_window": "the machine has no step within the window; slower does no harm",
    "asked_speed_moved": "the machine has no such speed; the nearest step was taken",
    "asked_feed_moved": "the machine has no such feed; the next step was taken",
    "hand_feed": "there is no power feed for this: turn the handle evenly",
    "fine_feed_fire": "fine magnesium chips can take fire: feed at least 0.1 mm (0.004 in) a turn",
    "tap_by_hand": "no reversing holder is known: by hand, or the slowest step at most",
    "roughness_least": "Ra is geometry alone: measured values lie 1.05 to 3.4 times higher",
}

# Codes of CAUTIONS that go with an operation whatever its figures.
STANDING: dict[str, tuple[str, ...]] = {
    "tap": ("tap_reversal",),
    "form_tap": ("tap_reversal", "form_tap_ductile"),
    "ream": ("ream_forward",),
    "mill_side": ("conventional",),
    "mill_pocket": ("conventional",),
    "mill_face": ("conventional",),
    "turn": ("backlash",),
    "bore": ("backlash",),
    "face": ("backlash",),
    "part_off": ("part_centre",),
}

# What a band of force, power or life rests on: unverified, verified.
GEOMETRY_ALONE = "geometry alone: the least"
"""Said with every roughness that feed and nose, or the marks of a tooth, give."""

BANDS: tuple[str, str] = (
    "unverified, the spread is that of measured cuts in other materials",
    "at least eight in ten measured cuts of this alloy lie within",
)

# What to do with work that gives way.
HOLDING: dict[str, str] = {
    "centre": "bring up a centre, or shorten what stands out",
    "steadies": "{count} further steady rest{plural}, or a follow rest, or turn it in shorter lengths",
    "edge": "an edge nearer 90 degrees, a smaller nose or more depth than its radius: less force across the work",
    "spring": "two last passes of equal depth spring alike: set the last by what the one before it left",
    "ring": "plug the bore, soft or pie jaws bored to size, a collet, or clamp it endwise; rough, let go, "
    "grip lightly, finish",
}

# Whether power, torque and deflection hold where the force is at the upper edge of its band.
AT_EDGE: dict[bool, str] = {
    True: "held at the upper edge of the force's band: {limits}",
    False: "NOT held at the upper edge of the force's band: {limits}",
}

EDGE_SHORT: dict[bool, str] = {True: "{limits} held", False: "{limits} NOT held"}

# Codes of CAUTIONS that a finish brings to every surface of a piece.
_FINISH = frozenset(
    {
        "coat_etch",
        "coat_film_outside",
        "coat_growth_range",
        "coat_loses_metal",
        "coat_maximum_by_rule",
        "coat_strip",
        "coat_uneven",
        "coat_usual_film",
    }
)

# What every sheet and every answer defers to.
FIRST = "The machine's manual, the chuck's marked speed, local codes and licensed practice come before these figures."
LOAD = "Limits of size say nothing of strength: have a thread that carries a load checked by licensed practice."

# Where no knurl goes.
NO_KNURL = (
    "a knurl is a row of notches: not on a shaft that is bent as it turns, not where a seal or a bearing runs, not on "
    "hardened work, not over a thread or a keyway"
)

# Codes of CAUTIONS that are worth knowing and harmless.
NOTES = frozenset(
    {
        "asked_feed_moved",
        "asked_speed_moved",
        "backlash",
        "bar_behind",
        "conventional",
        "trait_abrasive",
        "trait_brittle",
        "trait_built_up_edge",
        "trait_long_chips",
        "trait_low_conductivity",
        "trait_springy",
        "trait_work_hardening",
        "adjuster_solid",
        "force_rough",
        "formula_rule_differs",
        "printed_rule_differs",
        "hand_feed",
        "hole_by_analogy",
        "hole_usual_percent",
        "judge_these_limits",
        "near_match",
        "plastic_melts",
        "roughness_least",
        "speed_at_centre",
        "speed_below_window",
        "window_doubtful",
        "window_far",
        "window_stand_in",
    }
)

LIMITS: dict[str, str] = {
    "none": "nothing",
    "speed_window": "cutting speed for this material and tool",
    "machine_top_speed": "the machine's fastest step",
    "chuck_speed": "speed limit of what holds the work",
    "power": "power at the spindle",
    "torque": "torque at the spindle",
    "deflection": "deflection",
    "roughness": "roughness",
    "feed_at_the_nose": "feed for the nose radius",
    "feed_guide": "usual feed",
    "as_asked": "what was asked for",
    "machine_slowest_speed": "the machine's slowest step",
    "machine_finest_feed": "the machine's finest feed",
    "reversal": "stopping the spindle in time at the end of the thread",
    "chip_thickness": "thinnest chip that the edge cuts",
    "force": "force that tool and work bear",
    "grip": "grip of the jaws",
    "tool_life": "life of the edge",
    "depth_of_the_edge": "depth that the edge cuts",
    "whirl_of_the_work": "half the first whirl of the overhanging work",
    "whirl_of_the_bar": "half the first whirl of the bar behind the spindle",
    "swing_over_the_bed": "swing over the bed",
    "swing_over_the_cross_slide": "swing over the cross slide",
    "jaws": "smallest diameter that the jaws grip",
    "travel": "travel of the slide",
}

# How far a limit would have to give for there to be passes at all, by its code.
RELAXED: dict[str, str] = {
    "speed_window": "{factor} times the cutting speed: a harder tool, a slower step or a smaller diameter",
    "feed_guide": "{factor} times the usual feed: a finer feed step would do",
    "feed_at_the_nose": "{factor} times as large a nose, or a finer feed step",
    "roughness": "{factor} times as rough, or a larger nose",
    "chip_thickness": "a chip {factor} times as thin: a sharper edge, or more depth in fewer passes",
    "tool_life": "a life {factor} times as short",
    "deflection": "{factor} times the bend: a centre, less stick-out or a stiffer bar",
    "power": "{factor} times the power",
    "torque": "{factor} times the torque",
    "force": "{factor} times the force",
    "grip": "{factor} times the grip: jaws that hold more, never less safety",
    "chuck_speed": "a chuck marked for {factor} times the speed",
    "depth_of_the_edge": "an edge that cuts {factor} times as deep, or a finer dial",
    "whirl_of_the_work": "an overhang that bears {factor} times the speed: a centre, a steady, or shorter",
    "whirl_of_the_bar": "a bar that bears {factor} times the speed: guide it, or cut it shorter",
}

# One more thing that a choice of passes might have, by its code.
GAINS: dict[str, str] = {
    "centre": "with a live centre",
    "rake": "with six degrees more rake",
    "stick_out": "with a quarter less stick-out",
    "spindle_step": "with a speed between the first pass's and the next faster step",
    "feed_step": "with a feed between the first pass's and the next coarser step",
}

# Names of tool materials that a person may say, by the code of the tables; the first of a code is shown.
TOOLS: dict[str, str] = {
    "hss": "hss",
    "high speed steel": "hss",
    "cobalt hss": "hss_cobalt",
    "hss cobalt": "hss_cobalt",
    "cobalt": "hss_cobalt",
    "cast cobalt": "cast_cobalt",
    "carbide": "carbide",
    "coated carbide": "carbide_coated",
    "carbide coated": "carbide_coated",
}


# What is done about metals that gall, by the words of threads/galling.
GALLING_ADVICE: dict[str, str] = {
    "anodise": "anodise one part or both: a hard film does not weld, though it wears",
    "coarse_pitch": "take a coarse pitch: a fine one seizes sooner and strips sooner",
    "corrosion": "in the wet the less noble metal is eaten: paste or film between them, no bare contact outdoors",
    "insert": "for a thread that is undone often, put an insert of stainless or bronze in the soft metal",
    "looser_class": "cut a class with an allowance (6g with 6H, 2A with 2B), not a tight one (4h, 3A); leave no burr",
    "lubricate": "anti-seize paste or a solid film on every turn, renewed at each assembly",
    "no_power": "by hand and slowly: a power driver heats the flanks and welds them",
    "unlike_metal": "make one part of another metal, bronze best, or of another hardness by some 50 HB",
}


def of_the_piece(code: str) -> bool:
    """Whether a caution goes with the whole piece, its metal or its finish, and not with one operation.

    >>> of_the_piece("hazard_lead_dust"), of_the_piece("coat_etch"), of_the_piece("coat_allowance_short")
    (True, True, False)
    """
    return code.startswith("hazard_") or code in _FINISH


def caution(code: str, **figures: Any) -> Caution:
    """A caution by its code; `figures` fill the places in its words.

    >>> caution("hazard_lead_dust").code
    'hazard_lead_dust'
    """
    return Caution(code, CAUTIONS[code].format(**figures))
