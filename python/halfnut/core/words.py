"""What a person reads beside the numbers, keyed by code. The text of errors lives in the core."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from halfnut.core.record import RANKS, Caution, CautionLine, Rank

# Rank and words of every caution, by its code: what can happen and what to do, in fifteen words at most.
CAUTIONS: dict[str, tuple[Rank, str]] = {
    # material
    "hazard_titanium_chips": (
        "danger",
        "fine titanium chips burn: sharp tool, coolant, class D extinguisher; never water on a fire",
    ),
    "hazard_magnesium_chips": (
        "danger",
        "magnesium chips burn: no fine feed, cut dry, class D extinguisher or sand, never water",
    ),
    "hazard_beryllium_dust": (
        "danger",
        "beryllium dust or fume harms the lungs for good: wet or extraction, no grinding",
    ),
    "hazard_lead_dust": ("caution", "contains lead: wash hands before eating, keep the dust down"),
    "hazard_glass_dust": ("caution", "glass dust harms lungs and slideways: extraction, a mask, slideways covered"),
    "hazard_formaldehyde_fume": ("caution", "gives off formaldehyde when overheated: sharp tool, no rubbing"),
    "hazard_fluorine_fume": (
        "danger",
        "gives off poisonous fume when overheated: sharp tool, no smoking near the chips",
    ),
    "hazard_iron_dust": ("note", "cast iron dust harms lungs and slideways: vacuum it up, no air jet, cover ways"),
    # knurls
    "knurl_stray_pitch": ("note", "this pitch is not in its system's series: check that you have its wheel"),
    "knurl_few_teeth": ("note", "fewer than 12 teeth: growth and depth are rough figures; try one piece"),
    "knurl_wheel_off_pitch": ("caution", "the wheel's pitch is over 3 % from the one asked: check size and teeth"),
    "knurl_coarse_diametral": ("note", "64 DP is best avoided in new work; 96 DP is preferred"),
    "knurl_large_diametral": ("note", "diametral pitches are laid down for blanks up to 1 in"),
    "knurl_wide_band": ("caution", "the knurled band is wider than the blank's diameter: knurl a narrower band"),
    "knurl_off_finished": (
        "caution",
        "whole teeth miss the finished diameter's limits: choose another pitch or turn points down",
    ),
    "knurling_hard": ("caution", "above 327 HB (35 HRC) wheels and work chip: cut the knurl, or before hardening"),
    "knurling_crumbles": ("caution", "cast iron crumbles under form wheels: cut the knurl"),
    "knurling_thin_wall": ("caution", "wall under 4.5 tooth depths gives way: plug the bore, or cut the knurl"),
    "knurling_bends": ("caution", "work deflects over a quarter of the tooth's depth: a centre, or two wheels opposed"),
    "knurling_support": ("caution", "overhang is above two diameters: bring up a centre before pushing one wheel in"),
    "knurling_three": (
        "note",
        "three wheels around the work print standing points only where each has the whole pattern",
    ),
    "knurling_loose": ("caution", "the smallest knurl does not fill the largest hole: smaller hole or larger blank"),
    "knurling_buried": (
        "caution",
        "interference exceeds the teeth's height: the hole splits or teeth shear; open the hole",
    ),
    # threads
    "not_tabulated": ("note", "not in the tables of the standard: by the formulas behind them"),
    "not_provided": ("note", "the standard provides no such class at this size: stepped from the classes it has"),
    "engagement_class": ("note", "the standard does not recommend this class for this engagement (group {group})"),
    "special_engagement": (
        "note",
        "tolerance for a special length of engagement: the drawing states limits and length",
    ),
    "toleranced_as_series": ("note", "toleranced as the thread of another series that it is"),
    "not_in_series": ("note", "in no standard series: taps, dies and gauges will be specials"),
    "multi_start": ("note", "several starts: the tolerance is that of a single start of the same pitch"),
    "doubtful_position": ("caution", "position a to d: sources disagree or are from memory; check the deviation first"),
    "mixed_positions": ("note", "pitch and crest diameter have different tolerance positions"),
    "no_close_match": ("note", "no standard thread is close: measure over more turns, or treat as a special"),
    "near_match": ("note", "a little outside its usual class: another class, worn or coated"),
    "close_matches": (
        "note",
        "more than one standard thread fits these measurements: measure the pitch over more turns",
    ),
    "flank_angle_tells": ("note", "threads of other flank angles match too: check the angle with a thread gauge"),
    "taper_tells": ("note", "a taper and a parallel thread match: measure the diameter at two places"),
    "depth_tells": (
        "note",
        "more than one standard thread has this diameter, pitch and angle: measure the other diameter",
    ),
    "nothing_tells": (
        "note",
        "several standards have this profile with other tolerances: the drawing or joint decides",
    ),
    "taper_diameter": ("note", "a taper thread's diameter changes along it: measure in the gauge plane"),
    # coatings
    "coat_maximum_by_rule": ("note", "only a minimum is specified: the maximum is taken as half as much again"),
    "coat_usual_film": ("note", "no thickness given: the usual film; order one, and say it here"),
    "coat_film_outside": ("caution", "the film is outside what the specification allows, {film} um"),
    "coat_galvanize_small": ("note", "hot dip galvanizing (ISO 10684) is for threads from M8 and 1.25 mm up"),
    "coat_growth_range": ("note", "growth is published as a third and as half of the film: measure a coupon"),
    "coat_etch": ("note", "cleaning takes up to {etch} um a surface first: ask, or measure a coupon"),
    "coat_strip": ("note", "stripping and anodising again takes the metal of the first film for good"),
    "coat_blind_hole": ("caution", "a blind hole traps acid, which weeps out later: drill it through, or plug it"),
    "coat_uneven": ("note", "plate is thicker at crests and ends, thin in roots: the go gauge decides"),
    "coat_loses_metal": ("caution", "at its least this coating removes metal: check the coated part with not-go"),
    "coat_allowance_short": (
        "caution",
        "coating needs {needs} on the pitch diameter, the class allows {has}: cut to these",
    ),
    "coat_chromate": (
        "caution",
        "chromate films may hold hexavalent chromium, which is poisonous: gloves, no dry sanding",
    ),
    # holes
    "hole_usual_percent": ("note", "nothing asked: {percent} % of thread, as is usual"),
    "hole_outside": ("caution", "the hole is outside its limits, {limits}; {within} keeps them"),
    "hole_no_drill": ("caution", "no drill of the set keeps the limits, {limits}: bore or ream the hole"),
    "hole_by_analogy": ("note", "hole limits by engagement are a Unified rule, used here by analogy"),
    "hole_high_percent": ("caution", "over 85 % of thread the tap breaks sooner, hardly stronger: drill larger"),
    "hole_forming": ("note", "a forming tap's hole depends on the metal: try one and measure its minor diameter"),
    "hole_short_lead": ("caution", "so short a lead starts crooked: tap first with a longer one"),
    # other thread forms
    "form_memory": ("caution", "some figures of this thread are from memory: check before a part depends on them"),
    "form_precoat": ("note", "no standard lets this form's allowance hold a coating: all of it is taken off"),
    "form_strength_rules": ("note", "no factors are published for this flank angle: the least for 60 degrees, 0.897"),
    "form_special_pair": (
        "note",
        "no series pairs this diameter and pitch: tolerances go by the thread's own diameter",
    ),
    "form_hole_outside": ("caution", "the hole is outside the minor diameter's limits, {limits}"),
    "form_tap_set": ("note", "tap a coarse screw thread in steps with a set, or cut it single point"),
    "form_tap_torque": ("note", "torque is for a 60 degree chip: a full Whitworth form takes a third more"),
    "taper_tap": ("caution", "a taper tap takes several times this torque: half speed, back often, stop by gauge"),
    "taper_hole_straight": ("note", "a straight hole cuts fuller far threads: ream it taper where pressure is held"),
    "tighten_form": ("note", "no standard gives this form's torque: computed from flanks and lead"),
    "form_no_classes": ("note", "judged against this class alone: of this form no other is tried"),
    "taper_pipe_seal": ("danger", "seals only with sealant; pressure or gas piping leaks: follow its code and test"),
    # tapers
    "holding_taper_steep": ("caution", "steeper than 1:10 a taper may let go under load: give it a drawbar"),
    "holding_taper_blue": ("note", "prove the angle with blue, hardest at the large end, before the last cut"),
    # plain holes and shafts
    "fit_memory": ("caution", "a limit of this class is from memory: check before a part depends on it"),
    "fit_press": (
        "caution",
        "an interference fit stresses both parts: compute stress and force first, brittle parts above all",
    ),
    "fit_coating_wide": (
        "caution",
        "the coating's range exceeds the {part}'s tolerance: finish after coating, mask, or coarsen grade",
    ),
    "fit_hot": ("caution", "parts heated to join burn skin and light oil: tongs, oven, nothing flammable"),
    # adjusters and turnbuckles
    "adjuster_factor_short": ("danger", "the factor of safety is not reached everywhere: only {reached} of the load"),
    "adjuster_strips_first": ("caution", "wound out, a thread strips before a section yields: keep it wound in"),
    "adjuster_few_turns": ("caution", "fewer than three full turns are left engaged at the longest"),
    "adjuster_preload_high": (
        "caution",
        "nut and pull exceed three quarters of yield: less friction spread, load, or more wall",
    ),
    "adjuster_nut_thin": ("caution", "the lock nut is thinner than its own preload asks for: a thicker one"),
    "adjuster_may_bind": ("caution", "some parts within their limits and coating do not screw together: see fit"),
    "adjuster_expansion": (
        "note",
        "base or lock nut expand unlike the external part: warmth or cold moves the preload",
    ),
    "adjuster_no_lock_nut": ("caution", "without a lock nut the play stays, and nothing keeps it from turning"),
    "adjuster_shear_by_ratio": ("note", "shear strength is taken as 0.577 of tensile: give the metal's own if known"),
    "adjuster_thin_wall": ("caution", "less wall is left by a thread than the thread is deep"),
    "adjuster_dilation_beyond": (
        "caution",
        "an internal part is under 1.4 diameters outside: its widening is not published",
    ),
    "adjuster_form_practice": ("note", "no standard of this form covers engagement or lock nuts: practice is used"),
    "adjuster_runs": (
        "caution",
        "steep lead: under load it turns itself below friction {friction}; the nut alone holds",
    ),
    "adjuster_solid": ("note", "taken as solid: {members}; a hollow one buckles sooner: give its bore"),
    "adjuster_rotating": ("danger", "turning or varying load breaks it by fatigue, and unscrews it: pin or wire it"),
    "adjuster_licensed": ("caution", "static figures: what bears a load or a person is for licensed practice and code"),
    # measuring and fitting threads
    "wire_off_best": ("note", "wire is over 10 % off the best: an angle error shows in the reading"),
    "wire_even_starts": ("note", "even number of starts: crest opposes crest, so no thread micrometer"),
    "wire_lead_matters": ("note", "the plain formula is over 0.00015 in (0.004 mm) short: the lead counts"),
    "fit_engagement_assumed": ("note", "no length of engagement given: {length} assumed; take the full form only"),
    "judge_major_assumed": ("note", "no major diameter given: taken at its upper limit for the wires"),
    "judge_minor_assumed": ("note", "no minor diameter given: taken at its lower limit for the balls"),
    "judge_these_limits": ("note", "judged against these limits alone: no other class is tried"),
    "judge_form_assumed": ("note", "pitch and flank angles taken as right: a go gauge finds out"),
    "printed_rule_differs": ("note", "printed tables and go gauges carry: {differences}"),
    "formula_rule_differs": ("note", "the standard's own rounding since 2003 gives: {differences}"),
    # strength of threads
    "galling": ("caution", "these metals gall and seize: lubricate, turn by hand, stop at the first drag"),
    "strength_shear_by_ratio": ("note", "shear strength is taken as 0.577 of tensile: give the metal's own if known"),
    "strength_dilation_beyond": (
        "caution",
        "internal part under 1.4 diameters outside, curve carried on: test one or thicken it",
    ),
    "strength_outside_unknown": (
        "note",
        "internal part's outside unknown: taken as too thick to widen, section not checked",
    ),
    "strength_few_turns": ("caution", "fewer than three full turns are engaged"),
    "strength_many_turns": (
        "note",
        "beyond one and a half diameters the far turns bear little, whatever the area says",
    ),
    "strength_thin_external_wall": ("caution", "less wall is left under the external thread than the thread is deep"),
    "strength_thin_internal_wall": ("caution", "less wall is left over the internal thread than the thread is deep"),
    "strength_strips_first": (
        "caution",
        "a thread strips before a section breaks, without warning: engage further where there is room",
    ),
    "strength_yield_unknown": ("note", "a section's yield strength is not known: held to breaking only"),
    "strength_no_factor": ("caution", "no factor of safety is in any figure: choose one and give it"),
    "strength_hoop_over_yield": ("danger", "the wall over the internal thread yields under this load"),
    "strength_weakest_row": ("note", "no thickness given: the weakest row of this form is taken"),
    "strength_under_practice": ("caution", "shorter than practice engages such a metal, {length} of full form"),
    "strength_rotating": (
        "danger",
        "turning or varying load breaks joints by fatigue far below these figures: have it designed",
    ),
    "strength_licensed": (
        "caution",
        "static figures: a load that can hurt someone needs licensed practice and local codes",
    ),
    "torque_friction_single": ("note", "one value of friction, no range: real preloads scatter by a quarter and more"),
    "torque_seat_assumed": ("note", "no seat given: its mean diameter is taken as 1.25 thread diameters, {length}"),
    "torque_over_yield": ("danger", "tightened to the greatest torque here, the thread yields"),
    # cutting
    "above_window": ("caution", "even the slowest step is too fast: smaller diameter, or another machine"),
    "carbide_bears": ("caution", "too fast for high-speed steel: carbide bears this speed"),
    "above_chuck_limit": ("danger", "the spindle would turn faster than what holds the work may turn"),
    "chuck_unmarked": ("danger", "this chuck carries no speed limit: 25 m/s at the rim taken; find the marking"),
    "power_exceeded": ("caution", "the cut may need more power than this step has: less depth or feed"),
    "torque_exceeded": ("caution", "the cut may need more torque than the spindle bears: less depth or feed"),
    "deflection_exceeded": ("caution", "work or bar may deflect more than allowed: support it, or less depth or feed"),
    "roughness_exceeded": ("caution", "the feed leaves a rougher surface than asked for"),
    "feed_above_nose": ("caution", "feed is large for the nose radius: torn surface, broken nose; finer feed"),
    "chip_too_thin": ("caution", "the chip is thinner than the edge is round: more feed or sharper edge"),
    "slender": ("caution", "the work is slender for how it is held: centre, steady or follow rest"),
    "overhang": ("caution", "the bar or cutter sticks out more than four diameters: expect chatter"),
    "force_rough": ("note", "force and power are estimated from the tensile strength alone, within a factor of two"),
    "entry_centre_cutting": ("caution", "the end mill must cut to its centre, or its path clear the middle"),
    "saw_clamped": ("caution", "a slitting saw seizes as the slit closes: clamp both sides, plenty of oil"),
    "setover_steep": ("caution", "so large a set-over wears the centre holes: use the compound or an attachment"),
    "life_unverified": ("note", "an edge may fail at a tenth of this life: watch finish, change early"),
    "window_doubtful": ("note", "the speed is recalled or doubted: its range is taken at the low end"),
    "window_far": ("note", "no speed is tabulated for this alloy's kin: the speed is a wide group's"),
    "window_stand_in": ("note", "no speed is tabulated for this operation and tool: computed from another's"),
    "fire_speed": ("danger", "the speed asked for can set chips on fire: held to 213 m/min (700 ft/min)"),
    "deep_hole": ("caution", "deep for its diameter: withdraw and clear the chips often"),
    "chase_cannot_stop": (
        "caution",
        "too fast to stop in this run-out: wider groove, run outwards, or a spindle crank",
    ),
    "chase_root_binds": ("caution", "the bottom of the groove would touch the other part's crest: a narrower nose"),
    "chase_root_deep": ("note", "the nose is sharper than the root that the standard asks for: a wider nose"),
    "chase_line_too_coarse": (
        "caution",
        "the last whole line misses the pitch diameter's limits: go between lines by the reading",
    ),
    "gears_lead_too_far_off": (
        "caution",
        "the wrong lead takes over half the tolerance: shorter engagement, looser class, another gear",
    ),
    "gears_steep": ("caution", "a mesh above 6 to 1 runs hard: drive by hand or turn the leadscrew"),
    "gears_short_idler": ("note", "take an idler that meshes with both gears; it does not change the lead"),
    "warm_size": ("caution", "warm work measures large, over a quarter of the tolerance: let it cool"),
    "bend_takes_tolerance": (
        "caution",
        "deflection takes over half the tolerance: a centre or steady, or lighter last cut",
    ),
    "ring_out_of_round": ("caution", "the jaws leave the ring out of round: soft jaws, collet, plug, lighter grip"),
    "ring_is_thick": ("note", "the wall is thick for a thin ring: it will come rounder than this"),
    "thin_wall": ("caution", "a thin wall springs under the jaws: plug it, soft jaws, or a collet"),
    "speed_at_centre": ("note", "towards the centre the cutting speed falls to nothing: ease the feed"),
    "grabs": ("caution", "this material draws a sharp drill in: flatten the cutting lips"),
    "below_smallest_feed": ("caution", "every power feed is too coarse here and can break the tool: feed by hand"),
    "tap_reversal": ("note", "power tapping needs a tapping head or reversing spindle; otherwise turn by hand"),
    "form_tap_ductile": ("note", "forming taps need ductile metal, a larger hole, oil; torque within a factor two"),
    "part_slender": ("danger", "so far from the jaws the work climbs the blade and flies: part close in"),
    "part_centre": ("danger", "never part off against a centre: the piece pinches the blade and is flung"),
    "bar_behind": ("caution", "a bar over {bar_free} behind the spindle whips at this speed: guide or cut it"),
    "plastic_melts": ("note", "plastics melt and grow with heat: sharp edge, air, light grip; measure cold"),
    "no_passes": ("caution", "nothing keeps every limit: change holding, tool or machine; never exceed chuck or grip"),
    "edge_spent": ("caution", "the edge may wear out within these passes: slower, or change it on the way"),
    "equal_passes": ("caution", "no passes keep every limit, {why}: equal passes instead; go carefully"),
    "ream_forward": ("note", "never turn a reamer backwards, not even to withdraw it"),
    "work_whips": (
        "danger",
        "overhanging work whips above {whirl_of_the_work} rev/min: a centre or steady, or shorten it",
    ),
    "whirl_unknown": ("caution", "slender work, no modulus to say where it whips: a centre or steady, slowly"),
    "bar_whips": ("danger", "the bar behind the spindle whips above {whirl_of_the_bar} rev/min: guide it, or cut it"),
    "climbs": ("danger", "work gives way by more than the cut's depth: it climbs the tool; support it"),
    "in_gap": ("caution", "over the {swing_over_the_bed} swing: it turns in the gap only, clear of the carriage"),
    "over_cross_slide": (
        "caution",
        "over the {swing_over_the_cross_slide} swing of the cross slide: clear of the carriage only",
    ),
    "below_jaws": ("caution", "the jaws close on {jaws} at least: take a collet, or grip thicker stock"),
    "compound_short": (
        "caution",
        "the taper is longer than the compound's {travel}: tailstock set over, or attachment",
    ),
    "over_travel": ("caution", "the cut is longer than the slide's {travel} of travel: set it up again part-way"),
    # cutting, what a metal or a machine brings
    "trait_built_up_edge": ("note", "built-up edge: faster, sharper, cutting fluid"),
    "trait_work_hardening": ("note", "hardens where rubbed: keep the feed up, no dwelling, cut below the skin"),
    "trait_abrasive": ("note", "wears the edge: carbide lasts longer, and look at the edge between passes"),
    "trait_brittle": ("note", "chips and cracks at edges: fine feed, ease off at breakthrough, clamp lightly"),
    "trait_long_chips": ("caution", "long stringy chips cut and wind in: stop, clear with a hook; more feed"),
    "trait_low_conductivity": ("note", "heat stays at the edge: sharp tool, no dwelling, coolant; measure cold"),
    "trait_springy": ("note", "springs away from the edge: sharp tool, short overhang, measure before the last pass"),
    "conventional": ("note", "on plain screws mill conventionally: a climb cut pulls the table through its backlash"),
    "backlash": ("note", "take up backlash before each reading"),
    "speed_below_window": ("note", "the machine has no step within the window; slower does no harm"),
    "slow_harms": ("caution", "slower than the window: built-up edge or a hardened skin; keen edge, oil, full feed"),
    "asked_speed_moved": ("note", "the machine has no such speed; the nearest step was taken"),
    "asked_feed_moved": ("note", "the machine has no such feed; the next step was taken"),
    "hand_feed": ("note", "there is no power feed for this: turn the handle evenly"),
    "fine_feed_fire": ("danger", "fine magnesium chips can take fire: feed at least 0.1 mm (0.004 in) a turn"),
    "tap_by_hand": ("caution", "no reversing holder is known: by hand, or the slowest step at most"),
    "roughness_least": ("note", "Ra is geometry alone: measured values lie 1.05 to 3.4 times higher"),
    # at the machine, whatever the figures
    "clamp_work": ("caution", "a drill or tap that grabs spins the work: clamp it or the vice"),
    "breakthrough": ("caution", "thin work grabs as the point breaks through: ease the feed, back it up"),
    "emery_by_hand": ("danger", "emery held by hand winds in and drags the hand along: use a holder"),
    "chuck_key": ("danger", "a key left in the chuck flies out: remove it before letting go"),
    "aluminium_fines": ("note", "fine aluminium burns: keep it from steel sparks and water, sweep it up dry"),
    "jaws_tip": ("caution", "a short grip tips the work out of the jaws: grip deeper, or a centre"),
    "piece_falls": ("caution", "the parted piece drops hot and sharp: catch it on a rod, not by hand"),
    "faceplate_balance": (
        "danger",
        "an unbalanced faceplate shakes and throws work: counterweight it, turn it by hand first",
    ),
    "heavy_work": ("caution", "the work weighs about {mass}: lift it with a hoist, a board over the ways"),
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
    "part_off": ("part_centre", "piece_falls"),
}

GEOMETRY_ALONE = "geometry alone: the least"
"""Said with every roughness that feed and nose, or the marks of a tooth, give."""

# What a band of force, power or life rests on: unverified, verified.
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
        "coat_chromate",
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


def caution(code: str, *, gravity: float = 0.0, **figures: Any) -> Caution:
    """A caution by its code; `figures` fill the places in its words, `gravity` tells how grave they are.

    >>> caution("hazard_lead_dust").rank
    'caution'
    """
    rank, text = CAUTIONS[code]
    return Caution(code, text.format(**figures), rank, gravity)


def by_rank(cautions: Iterable[Caution]) -> list[Caution]:
    """Every caution once, the gravest first.

    >>> [item.rank for item in by_rank([caution("backlash"), caution("part_centre"), caution("backlash")])]
    ['danger', 'note']
    """
    return sorted(dict.fromkeys(cautions), key=lambda item: RANKS.index(item.rank))


def caution_lines(cautions: Iterable[Caution], *, defer: bool = False) -> list[str]:
    """The lines in which every answer tells its cautions.

    Parameters
    ----------
    cautions : iterable of Caution
        What the answer cautions of, in any order, also twice.
    defer : bool
        For an answer at the machine: where one is more than a note, what comes before Halfnut's figures stands last.

    >>> caution_lines([caution("backlash"), caution("fire_speed")])[0]
    '  DANGER: the speed asked for can set chips on fire: held to 213 m/min (700 ft/min)'
    """
    told = by_rank(cautions)
    out: list[str] = [CautionLine(item) for item in told]
    return [*out, f"  {FIRST}"] if defer and any(item.rank != "note" for item in told) else out
