"""Figures of the answers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import ClassVar

from halfnut.core.fixed import made
from halfnut.core.questions import Answered, Listed
from halfnut.core.record import Part
from halfnut.material.figures import Alloy

__all__ = [
    "ChasePass",
    "Cut",
    "Data",
    "DialReading",
    "DivideMove",
    "DivideStep",
    "Division",
    "Entry",
    "ForceBand",
    "Gain",
    "GaugePlane",
    "GearTrain",
    "GearTrains",
    "Groove",
    "Holding",
    "InJaws",
    "JawSqueeze",
    "Limit",
    "OtherWay",
    "PassPlanned",
    "PlaceOnWork",
    "PlaceToGo",
    "Polygon",
    "Positions",
    "Price",
    "Relaxation",
    "Resting",
    "ScrewHole",
    "SineBar",
    "Slack",
    "Speeds",
    "Taper",
    "ToolLife",
    "TranslatingPair",
    "TranslatingPairs",
    "UsualSpeed",
    "WorkBend",
]


@made(frozen=True)
class GearTrain(Answered):
    """A train of change gears."""

    what: str
    """What the train gives: lead or feed."""
    unit: str
    """Unit of the lead that is wanted."""
    wanted_mm: float
    """Travel that is wanted for a turn of the spindle. In mm."""
    gives_mm: float
    """Travel that the train gives. In mm."""
    error: float
    """Error as a share, above zero where the lead is long."""
    exact: bool
    """Whether the lead is exact."""
    drivers: tuple[int, ...]
    """Driving gears: on the stud; of a compound train then the one in the banjo."""
    driven: tuple[int, ...]
    """Driven gears: of a compound train the one in the banjo first; last that on the leadscrew."""
    compound: bool = field(repr=False, compare=False)
    """Whether two gears turn together in the banjo."""
    idler: int | None
    """Idler of a simple train; where there is none, any that meshes with both."""
    ends_on: str
    """What the last gear turns: leadscrew or gearbox."""
    positions: tuple[tuple[str, str], ...]
    """Where the levers of the gearbox stand."""
    chart_mm: float | None
    """What the gearbox's chart says beside those levers. In mm."""
    standard: bool
    """Whether these are the gears that the chart is for."""
    mounting: str
    """Whether it can be put up."""
    stud_to_banjo_mm: float | None
    """Distance of the banjo's stud from the stud. In mm."""
    banjo_to_screw_mm: float | None
    """Distance of the banjo's stud from the last shaft. In mm."""
    stud_to_screw_mm: float | None
    """Distance of the stud from the last shaft. In mm."""
    lathe_unit: str
    """Unit of the lathe's own distances."""
    engagement_mm: float | None
    """Length of thread over which the error is judged. In mm."""
    lead_error_mm: float | None
    """Error of the lead over the engagement. In mm."""
    on_pitch_diameter_mm: float | None
    """What that counts as on the pitch diameter. In mm."""
    pitch_tolerance_mm: float | None
    """Tolerance of the pitch diameter. In mm."""
    good_enough: bool | None
    """Whether it takes at most half of that tolerance; where none is known it is not judged."""
    starts: int
    """Starts of the thread."""
    index_teeth: int | None
    """Teeth of the stud's gear to pass from one start to the next; none where they are not whole."""
    said: str
    """The gears, the levers, what they give and how far it is off, in one line."""
    gears: str
    """Drivers over driven gears, as a chart writes them."""
    error_said: str
    """How far the lead is off."""
    mounting_said: str
    """Whether the train can be put up, and the distances of its shafts."""
    judgement: str | None
    """What the error comes to over the engagement, against the tolerance of the pitch diameter."""
    indexing: str | None
    """How to come from one start to the next by the gears."""
    shafts: tuple[tuple[str, str], ...]
    """What goes on each shaft, from the spindle on."""
    steps: tuple[str, ...]
    """What to do at the lathe, in order."""

    _paired: ClassVar[frozenset[str] | set[str]] = {"positions", "shafts"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "1.",
        "2.",
    )


@made(frozen=True)
class GearTrains(Answered, Listed[GearTrain]):
    """Trains, best first, and how the search went."""

    title: str
    """What was asked."""
    trains: tuple[GearTrain, ...]
    """Trains, best first."""
    found: int
    """Trains within the limit of error that can be put up, or may be."""
    refused: int
    """Trains of the right ratio that do not close."""
    asked_percent: float
    """Limit of error that was asked for, in percent."""
    error_percent: float
    """Limit within which these were found; wider where nothing was within the other."""
    said: str
    """The best train in one line."""
    wider: str | None
    """That nothing is within the limit that was asked for, where it is so."""
    others: tuple[str, ...]
    """The other trains, a line each."""
    search: str
    """How the search went."""

    _made: ClassVar[Mapping[str, type | str]] = {"trains": "halfnut.cutting.figures:GearTrain"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "limit",
        "1.",
        "2.",
    )
    ITEMS: ClassVar[str] = "trains"


@made(frozen=True)
class TranslatingPair:
    """Two gears that turn inches to millimetres once the ratio is added, or back."""

    driver: int
    """Teeth of the driving gear."""
    driven: int
    """Teeth of the driven gear."""
    num: int
    """Numerator of the ratio that is added."""
    den: int
    """Its denominator."""
    error: float
    """Error of the ratio, relative."""
    exact: bool
    """Whether there is none."""


@made(frozen=True)
class TranslatingPairs(Answered, Listed[TranslatingPair]):
    """Pairs of gears that turn inches to millimetres, or back."""

    cut: str
    """What is to be cut."""
    pairs: tuple[TranslatingPair, ...]
    """The pairs: exact ones first, then those of the simplest ratio, then by error."""
    said: str
    """What they cut, and how many there are."""
    each_said: tuple[str, ...]
    """Each pair in a line, with the ratio that is added and its error."""

    _made: ClassVar[Mapping[str, type | str]] = {"pairs": TranslatingPair}
    SHORT: ClassVar[tuple[str, ...]] = ("pair",)
    ITEMS: ClassVar[str] = "pairs"


@made(frozen=True)
class Limit(Part):
    """A limit of a cut: what is used of it and what is left."""

    name: str
    """What limits."""
    value: float
    """What the cut comes to; what follows the force at the upper edge of its band."""
    bound: float
    """What is allowed."""
    slack: float
    """What is left, as a share of the bound; below zero it is passed."""
    said: str = field(repr=False, compare=False)
    """It in one line."""


@made(frozen=True)
class Cut(Answered):
    """One cut: the levers to set and what it comes to."""

    operation: str
    """What is done."""
    alloy: Alloy
    """The work's material."""
    tool_material: str
    """What the edge is made of."""
    tool_name: str
    """Name of the tool."""
    machine_name: str | None
    """Name of the machine."""
    unit: str
    """Unit of the question: in or mm."""
    machine_unit: str
    """Unit of the machine's dials and charts."""
    diameter_mm: float
    """Diameter of the work or the tool. In mm."""
    spindle_rpm: float
    """Spindle speed to set. In rev/min."""
    cutting_speed_m_min: float
    """Cutting speed at the diameter. In m/min."""
    window_low_m_min: float
    """Slowest cutting speed that suits. In m/min."""
    window_high_m_min: float
    """Fastest cutting speed that suits. In m/min."""
    feed_mm_rev: float | None
    """Feed to set. In mm/rev."""
    feed_per_tooth_mm: float | None
    """Milling: feed a tooth. In mm."""
    feed_mm_min: float | None
    """Feed by time. In mm/min."""
    depth_mm: float | None
    """Depth of the cut: on the radius; of a hole; down, in milling. In mm."""
    width_mm: float | None
    """Milling: width of the cut. In mm."""
    chip_thickness_mm: float | None
    """Thickness of the chip, its mean over the engaged edge. In mm."""
    chip_thickness_max_mm: float | None
    """Milling: greatest thickness of the chip. In mm."""
    mrr_cm3_min: float | None
    """Metal removed. In cm3/min."""
    cutting_force_n: float | None
    """Force along the cutting speed, of a sharp edge. In N."""
    feed_force_n: float | None
    """Force along the feed: a drill's thrust; in turning that of an edge half worn, or as worn as was said. In N."""
    passive_force_n: float | None
    """Turning: force across cutting speed and feed, of such an edge. In N."""
    cutting_force_low_n: float | None
    """Least force that a measurement would find. In N."""
    cutting_force_high_n: float | None
    """Greatest force that a measurement would find, with an edge in use. In N."""
    feed_force_low_n: float | None
    """Least thrust that a measurement would find. In N."""
    feed_force_high_n: float | None
    """Greatest thrust that a measurement would find. In N."""
    spindle_power_kw: float | None
    """Power at the spindle. In kW."""
    spindle_power_low_kw: float | None
    """Its least. In kW."""
    spindle_power_high_kw: float | None
    """Its most, with an edge in use. In kW."""
    motor_power_kw: float | None
    """Power that the motor gives for it. In kW."""
    available_power_kw: float | None
    """Power that the spindle has at this step. In kW."""
    torque_nm: float | None
    """Torque at the spindle. In N m."""
    travel_mm: float | None
    """Travel of the feed, approach and overrun with it. In mm."""
    time_s: float | None
    """Time of that travel. In s."""
    tool_life_min: float | None
    """Turning: life of the edge after Taylor, unverified. In min."""
    tool_life_low_min: float | None
    """Its likely least. In min."""
    tool_life_high_min: float | None
    """Its likely most. In min."""
    roughness_ra_um: float | None
    """Ra by geometry alone: the least. In um."""
    roughness_low_um: float | None
    """Ra that a sharp edge on steady work leaves at least. In um."""
    roughness_high_um: float | None
    """Ra that an edge in use leaves at most. In um."""
    deflection_mm: float | None
    """Deflection of work, bar or cutter at the cut; in turning under such an edge. In mm."""
    hand_turns_per_min: float | None
    """Feed by hand: turns of the handle a minute. In min."""
    hand_turns: float | None
    """Turns of the handle for the whole travel."""
    torque_low_nm: float | None
    """Torque at the lower edge of the force. In N m."""
    torque_high_nm: float | None
    """Torque at its upper edge, where it is judged. In N m."""
    deflection_low_mm: float | None
    """Deflection at the lower edge of the force. In mm."""
    deflection_high_mm: float | None
    """Deflection at its upper edge, where it is judged. In mm."""
    chip_thinning: float | None
    """Milling: how much more feed a tooth bears for the same greatest chip than in a cut half as wide as the cutter."""
    chip_rise_k: float | None
    """Mean rise of temperature where the chip leaves the edge, an estimate. In K."""
    heat_to_work_share: float | None
    """Share of the cutting power that goes into the work, an estimate."""
    heat_to_work_w: float | None
    """The same as power. In W."""
    heat_to_work_high_w: float | None
    """The same at the upper edge of the force. In W."""
    peck_depths_mm: tuple[float, ...]
    """Drilling: depths at which the drill is withdrawn to clear its chips, the whole depth last. In mm."""
    force_verified: bool | None
    """Whether measured cuts of the alloy bear the band of the force out."""
    passes: int
    """Passes in all."""
    passes_across: int
    """Passes side by side."""
    passes_down: int
    """Passes one below another."""
    spindle_step: int | None
    """Place of the spindle step in the machine's list."""
    spindle_positions: tuple[tuple[str, str], ...]
    """Where levers and belts of the spindle stand, in the machine's own words."""
    spindle_fit: str
    """How the spindle step meets the window of speeds."""
    feed_step: int | None
    """Place of the feed step in the machine's list, where the feed is one."""
    feed_positions: tuple[tuple[str, str], ...]
    """Where the levers of the feed stand."""
    feed_marked: float | None
    """The feed as the machine's chart marks it."""
    dial_slide: str | None
    """Slide whose dial sets the depth."""
    dial_turns: int | None
    """Turns of its handle from where the tool touches."""
    dial_line: int | None
    """Line of its dial within the turn, to the nearest."""
    feed_said: str | None
    """The feed to set; by hand, turns of the handle a minute."""
    feed_source: str
    """step: a power feed of the machine; hand: the handle is turned; exact: no machine, or a thread."""
    limited_by: str
    """What keeps the cut from being faster."""
    feed_limited_by: str
    """What keeps the feed from being coarser."""
    limits: tuple[Limit, ...]
    """Every limit that applies."""
    holds_at_edge: bool | None
    """Whether power, torque and deflection hold at the upper edge of the force; None without such a limit."""
    fluid: str | None
    """Cutting fluid in one word."""
    lacking: tuple[str, ...]
    """What the alloy's row is too poor to tell."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken, the tool first."""
    operation_said: str = field(repr=False, compare=False)
    """What is done, in words."""
    taken: tuple[str, ...] = field(repr=False, compare=False)
    """What was taken, but for what the answer shows beside it."""
    milled: bool = field(repr=False, compare=False)
    """Whether a cutter of several teeth goes round."""
    setting_said: str = field(repr=False, compare=False)
    """The levers to set, in one line: spindle speed and feed."""
    by_hand: bool = field(repr=False, compare=False)
    """A tap is better turned by hand: no reversing holder is known of."""
    spindle_text: str = field(repr=False, compare=False)
    """The spindle speed to set, with its levers as the plate has them."""
    feed_text: str = field(repr=False, compare=False)
    """The feed to set, with its levers."""
    dial_text: str | None = field(repr=False, compare=False)
    """The dial that sets the depth, from where the tool touches."""
    passes_said: str | None = field(repr=False, compare=False)
    """How many passes, or where a drill is withdrawn; none for one."""
    pecks_said: str | None = field(repr=False, compare=False)
    """Depths at which the drill is drawn clear, but the last."""
    band: str = field(repr=False, compare=False)
    """What the band of the force rests on: verified or unverified."""
    feed_limit: str | None = field(repr=False, compare=False)
    """What keeps the feed from being coarser, where it is something else."""
    left: tuple[Limit, ...] = field(repr=False, compare=False)
    """Other limits that are kept."""
    over: tuple[Limit, ...] = field(repr=False, compare=False)
    """Other limits that are passed."""
    edge_limits: tuple[str, ...] = field(repr=False, compare=False)
    """Limits that holds_at_edge speaks of: those passed, else all that follow the force."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "limits": Limit,
        "left": Limit,
        "over": Limit,
        "alloy": "halfnut.material.figures:Alloy",
    }

    _paired: ClassVar[frozenset[str] | set[str]] = {"spindle_positions", "feed_positions"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "feed",
        "depth",
        "passes",
        "limit",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class GaugePlane:
    """Where a taper thread is cut and gauged."""

    compound_setting_deg: float
    """Setting of the taper attachment from the axis. In deg."""
    taper_on_diameter: float
    """Taper on the diameter."""
    hand_engagement_mm: float
    """Distance of the gauge plane from the end. In mm."""
    tolerance_turns: float
    """Turns that the gauge may stand off either way."""
    thread_height_mm: float
    """Height of the thread. In mm."""


@made(frozen=True)
class ChasePass:
    """One pass: where the dial stands, and what the thread measures after it."""

    number: int
    """Which pass it is."""
    line: int
    """Lines of the dial from touching the blank."""
    travel_mm: float
    """The same along the slide. In mm."""
    depth_mm: float
    """Depth of the tip below the blank. In mm."""
    shift_mm: float
    """Shift of the tool along the work, for infeed from flank to flank; above zero towards the headstock. In mm."""
    force_n: float | None
    """Force of the pass. In N."""
    pitch_diameter_mm: float
    """Pitch diameter after it. In mm."""
    over_wires_mm: float | None
    """Reading over wires or across balls, where they touch. In mm."""
    left_mm: float
    """What is left on the pitch diameter, to the size that is aimed at. In mm."""
    left_lines: float
    """The same in lines."""
    measure: bool
    """Whether to measure after it."""
    turns: int
    """Whole turns of the handle from touching."""
    dial: int
    """Line of the dial beyond those turns."""
    at: str
    """Where the dial stands, in words."""


@made(frozen=True)
class ChasingFigures(Answered):
    """How to chase a thread: sizes, settings, passes, readings; None where a figure does not apply."""

    thread: str
    """Part that is cut."""
    side: str
    """Which part it is."""
    unit: str
    """Unit of the dial."""
    infeed: str
    """How the tool goes in."""
    slide: str
    """Slide that feeds in."""
    line_mm: float
    """Travel of the slide for one line of its dial. In mm."""
    compound_deg: float | None
    """Angle of the compound from square to the work's axis. In deg."""
    compound_marked_deg: float | None
    """The same as this lathe's own scale reads it. In deg."""
    blank_mm: float
    """Turned or bored diameter. In mm."""
    pitch_diameter_mm: float
    """Pitch diameter that is aimed at. In mm."""
    pitch_max_mm: float
    """Greatest pitch diameter. In mm."""
    pitch_min_mm: float
    """Least pitch diameter. In mm."""
    half_angle_deg: float
    """Angle of a flank. In deg."""
    nose_radius_mm: float
    """Radius of a round nose; nothing of a flat one. In mm."""
    nose_flat_mm: float
    """Width of a flat nose; nothing of a round one. In mm."""
    root_mm: float
    """Diameter at the bottom of the groove. In mm."""
    depth_mm: float
    """Depth of the tip below the blank. In mm."""
    travel_mm: float
    """Travel of the slide to there. In mm."""
    cross_travel_mm: float
    """Travel of the cross slide straight in for the same depth. In mm."""
    remainder_mm: float
    """What of the travel the last line goes past; below zero it is left. In mm."""
    line_on_pitch_diameter_mm: float
    """What one line takes off the pitch diameter. In mm."""
    lead_mm: float
    """Lead of the thread. In mm."""
    starts: int
    """Starts of the thread."""
    start_shift_mm: float | None
    """Travel of the compound, set along the work, that moves the tool from one start to the next. In mm."""
    hand: str
    """Hand of the thread: right or left."""
    lead_angle_deg: float
    """Lead angle at the root. In deg."""
    leading_clearance_deg: float
    """Clearance of the tool's side towards which it is fed. In deg."""
    trailing_clearance_deg: float
    """Clearance of its other side. In deg."""
    chamfer_mm: float
    """Chamfer of the blank. In mm."""
    run_out_mm: float
    """Free way between the end of the thread and a shoulder. In mm."""
    groove_width_mm: float
    """Width of a groove before a shoulder. In mm."""
    groove_diameter_mm: float
    """Diameter at its bottom. In mm."""
    groove_radius_mm: float
    """Radius of its corners. In mm."""
    spindle_rpm: float | None
    """Spindle speed to set; needs a machine and an alloy. In rev/min."""
    spindle_positions: tuple[tuple[str, str], ...]
    """Where levers and belts of the spindle stand."""
    stopping_rpm: float | None
    """Fastest spindle speed at which a hand still opens the half nut in time. In rev/min."""
    stop_run_out_mm: float | None
    """Run-out in which the slowest step could be stopped, where there is too little. In mm."""
    dial_every: int | None
    """Which marks of the thread dial fit: every so-many-th; 0 where none does; none where no dial is known."""
    dial_marks: int | None
    """Marks of the thread dial."""
    dial_wheels: tuple[int, ...]
    """Where no mark fits: teeth of wheels for the thread dial that would."""
    train: GearTrain | None
    """Change gears for the lead, where the lathe's file names its gears."""
    wire_mm: float | None
    """Wires, or balls of an internal thread. In mm."""
    taper: GaugePlane | None
    """Of a taper thread, whose diameters here are those in its gauge plane."""
    passes: tuple[ChasePass, ...]
    """The passes."""
    repeats: bool
    """Whether a pass is repeated at the same dial before measuring: not in metal that hardens where it is rubbed."""
    most_force_n: float | None
    """The greatest force of a pass. In N."""
    cut: Cut | None
    """The cut at the speed of the window."""
    said: str
    """The passes in one line."""
    spindle_said: str | None
    """The spindle speed to set, with its levers."""
    feed_said: str | None
    """Levers of the gearbox, and gears to change."""
    dial_said: str
    """The slide, and the lines of its dial from touching, pass by pass."""
    good: str | None
    """Reading at which the thread is within its limits."""
    stages: tuple[str, ...]
    """From the first measurement on: the line, the reading, what is left."""
    steps: tuple[str, ...]
    """What to do at the lathe, in order."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "taper": GaugePlane,
        "passes": ChasePass,
        "train": "halfnut.cutting.figures:GearTrain",
        "cut": "halfnut.cutting.figures:Cut",
    }

    _paired: ClassVar[frozenset[str] | set[str]] = {"spindle_positions"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "feed",
        "dial",
        "good",
        "blank",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class PlaceToGo:
    """A place of a hole."""

    hole: int
    """Its number, as the pattern counts."""
    x_mm: float
    """From the zero along X. In mm."""
    y_mm: float
    """From the zero along Y. In mm."""
    back_x: bool
    """Go back past it along X first, so that the way ends with the approach."""
    back_y: bool
    """The same along Y."""
    x_turns: int | None
    """Whole turns of the handle from the zero; below 0 on its other side."""
    x_line: int | None
    """Line of the dial within the turn, to the nearest."""
    y_turns: int | None
    """Whole turns of the handle of Y."""
    y_line: int | None
    """Line of the dial of Y."""
    x_reading: str | None
    """What dial or readout of X shows."""
    y_reading: str | None
    """What dial or readout of Y shows."""


@made(frozen=True)
class Positions(Answered):
    """Places of holes from a zero, in the order in which they are gone to."""

    pattern: str
    """How the holes lie."""
    unit: str
    """Unit of the question: in or mm."""
    holes: int
    """How many."""
    places: tuple[PlaceToGo, ...]
    """The places in the order in which they are gone to."""
    chord_mm: float | None
    """Distance between neighbours on a circle. In mm."""
    check_from: int
    """Of the two holes that are farthest apart one; 0: there is one hole."""
    check_to: int
    """The other."""
    check_mm: float | None
    """Their distance: measure it before anything is drilled. In mm."""
    edge_mm: float | None
    """Way from where the edge finder touches to where the spindle stands over the edge. In mm."""
    edge_reading: str | None
    """The same on the dial of X."""
    within_mm: float | None
    """How near to its place a hole comes. In mm."""
    approach: str | None
    """The sides from which every reading is come to."""
    said: str
    """How many, how, and the sides to come from."""
    zero_said: str | None
    """Way from where the edge finder touches, in words."""
    places_said: tuple[tuple[str, str], ...]
    """Each hole: its coordinates, and what dial or readout shows."""
    check_said: str | None
    """What to measure before anything is drilled."""

    _made: ClassVar[Mapping[str, type | str]] = {"places": PlaceToGo}

    _paired: ClassVar[frozenset[str] | set[str]] = {"places_said"}
    SHORT: ClassVar[tuple[str, ...]] = ("*",)


@made(frozen=True)
class DivideMove:
    """Turns of the crank and holes of a plate."""

    turns: int
    """Whole turns of the crank."""
    holes: int
    """Further holes of the circle; 0: none."""
    circle: int
    """Holes of the circle; 0: any."""
    other_holes: int
    """Holes of a second circle of the same plate, by turning it; below 0 against the crank."""
    other_circle: int
    """Holes of that circle; 0: none."""
    error_deg: float
    """How much more than wanted the work turns. In deg."""


@made(frozen=True)
class DivideStep:
    """A division counted from the start."""

    division: int
    """Which, from 1; the start is 0."""
    turns: int
    """Whole turns of the crank from the start."""
    holes: int
    """Further holes of the circle."""
    error_deg: float
    """How far beyond its place the work stands. In deg."""


@made(frozen=True)
class Division(Answered):
    """A part of a turn by the dividing head."""

    divisions: int | None
    """Parts of a turn."""
    angle_deg: float
    """Angle of one of them. In deg."""
    unit: str
    """Unit of the question: in or mm."""
    ratio: int
    """Turns of the crank for one turn of the work."""
    plates: str
    """The plates, with commas between."""
    crank_turns: float
    """Turns of the crank for one."""
    exact: bool
    """A circle gives it without error."""
    move: DivideMove
    """How to turn: on the largest circle that gives it; else on the nearest."""
    also: tuple[DivideMove, ...]
    """Other circles that give it."""
    two_circles: tuple[DivideMove, ...]
    """Where one circle does not: two of a plate, the nearest first."""
    steps: tuple[DivideStep, ...]
    """Where no circle gives it: each division on the largest circle, counted from the start, so that errors do not add
    up."""
    direct_step: int | None
    """Holes of the plate on the spindle, where that divides it."""
    direct_holes: int | None
    """Holes of that plate."""
    error_mm: float | None
    """Greatest error at the rim of the work. In mm."""
    said: str
    """How to turn the crank, in one line."""
    move_said: str
    """The movement in words."""
    arms_said: str | None
    """Where the sector arms stand."""
    also_said: str
    """Other circles in words."""
    direct_said: str | None
    """Holes of the plate on the spindle, in words."""
    two_said: tuple[str, ...]
    """Two circles of a plate, each in words."""
    count_said: tuple[str, ...]
    """The first divisions counted from the start, each in words."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "move": DivideMove,
        "also": DivideMove,
        "two_circles": DivideMove,
        "steps": DivideStep,
    }
    SHORT: ClassVar[tuple[str, ...]] = (
        "or",
        "direct",
        "two",
        "error",
    )


@made(frozen=True)
class Polygon(Answered):
    """Flats on a round."""

    flats: int
    """Flats around the work."""
    unit: str
    """Unit of the question: in or mm."""
    across_flats_mm: float
    """Twice the distance of a flat from the axis. In mm."""
    across_corners_mm: float | None
    """Diameter of the circle through the corners; two flats have none. In mm."""
    bar_mm: float
    """Diameter of the round. In mm."""
    depth_mm: float
    """Depth of each flat below the round. In mm."""
    depth_reading: str | None
    """The same on the dial of the vertical slide, from where the cutter touches."""
    flat_mm: float
    """Width of a flat as it comes. In mm."""
    over_first_mm: float
    """From the first flat to the round opposite: measure it before the next. In mm."""
    measure_mm: float
    """What the finished work measures. In mm."""
    measured: str
    """Between what."""
    division: Division | None
    """How to divide."""
    dividing: str | None
    """How to turn from flat to flat, in words."""

    _made: ClassVar[Mapping[str, type | str]] = {"division": "halfnut.cutting.figures:Division"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "first",
        "finished",
        "divide",
        "corners",
    )


@made(frozen=True)
class SineBar(Answered):
    """A sine bar on its stack."""

    angle_deg: float
    """The angle. In deg."""
    unit: str
    """Unit of the question: in or mm."""
    bar_mm: float
    """Length of the bar between its rollers. In mm."""
    stack_mm: float
    """Stack under one roller. In mm."""
    set_mm: float
    """The same to the last place of gauge blocks. In mm."""
    set_deg: float
    """Angle of that. In deg."""
    error_deg: float
    """How much more it is than wanted. In deg."""
    error_each_deg: float
    """Error for each 0.001 mm, or 0.0001 in, of the stack. In deg."""
    blocks_mm: tuple[float, ...]
    """Gauge blocks that make the stack. In mm."""
    said: str
    """The stack and its angle."""
    error_said: str
    """How far the stack is off, and what its last place does."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "blocks",
        "error",
    )


@made(frozen=True)
class ScrewHole(Answered):
    """A hole for a screw: sizes, and the cuts in their order."""

    size: str
    """Size of the screw."""
    unit: str
    """Unit of its thread: in or mm."""
    alloy: Alloy
    """The work's material."""
    fit: str
    """Fit, as the standard calls it."""
    hole_mm: float
    """Diameter of the clearance hole. In mm."""
    drill: str
    """Drill that makes it."""
    head: str
    """Head of the screw."""
    seat_mm: float | None
    """Diameter of its seat at the surface. In mm."""
    seat_depth_mm: float | None
    """Depth of the counterbore, or of the cone down to the hole. In mm."""
    seat_deg: float | None
    """Angle of the cone; none of a counterbore. In deg."""
    spot_mm: float
    """Diameter of the spot at the surface. In mm."""
    point_mm: float
    """How far the drill goes on past the far face, for its point. In mm."""
    tapping_drill: str
    """Drill for the part that the screw is turned into."""
    tapping_drill_mm: float
    """Its diameter. In mm."""
    spot: Cut
    """Spotting."""
    drills: tuple[Cut, ...]
    """Drilling, in its steps."""
    seat: Cut | None
    """Counterboring or countersinking."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "alloy": "halfnut.material.figures:Alloy",
        "spot": "halfnut.cutting.figures:Cut",
        "drills": "halfnut.cutting.figures:Cut",
        "seat": "halfnut.cutting.figures:Cut",
    }
    SHORT: ClassVar[tuple[str, ...]] = (
        "seat",
        "drill",
        "tapped",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class DialReading:
    """A dial's reading from zero."""

    slide: str
    """Slide whose dial it is."""
    turns: int
    """Whole turns of the handle."""
    line: int
    """Nearest line within the turn."""
    remainder_mm: float
    """What the line misses; on the diameter where the dial reads the diameter. In mm."""
    graduation_mm: float
    """What one line is marked as. In mm."""
    unit: str
    """Unit of the dial."""
    said: str
    """The reading in words."""


@made(frozen=True)
class PassPlanned(Answered):
    """One pass: its cut, what it leaves, and where the dial stands."""

    number: int
    """Number of the pass, from 1."""
    cut: Cut
    """The pass as a cut of its own."""
    depth_mm: float
    """Depth: on the radius, along the axis, or down. In mm."""
    before_mm: float
    """Diameter before it in turning and boring, else what is off already. In mm."""
    after_mm: float
    """The same after it. In mm."""
    dial: DialReading | None
    """Dial that sets the depth, from where the tool touches; None where a measurement sets it."""
    finish: bool
    """Whether it is a finishing cut."""
    measure_before: bool
    """Whether the work is measured before it."""
    measure: str
    """What to measure before it, and what to take then."""
    slower_holds: bool
    """Whether the next slower speed keeps every limit too."""
    faster_holds: bool
    """Whether the next faster speed keeps every limit too."""
    cut_s: float
    """Time of the cut. In s."""
    return_s: float
    """Time of the way back. In s."""
    dial_s: float
    """Time to set the dial. In s."""
    change_s: float
    """Time to change levers before it. In s."""
    measure_s: float
    """Time to measure before it. In s."""
    levers_moved: int
    """Levers that are moved before it."""
    limits: tuple[Limit, ...]
    """Every limit of the pass; chip thickness and tool life have a least value."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "dial": DialReading,
        "limits": Limit,
        "cut": "halfnut.cutting.figures:Cut",
    }


@made(frozen=True)
class Price:
    """A limit that costs time."""

    name: str
    """What limits."""
    saved_s: float
    """Time that would be saved without it. In s."""


@made(frozen=True)
class Slack:
    """What is left of a limit."""

    name: str
    """What limits."""
    share: float
    """Least that is left of it over the passes, as a share of the bound."""
    cost_s: float = field(repr=False, compare=False)
    """Time that would be saved without it, where that is told beside it. In s."""


@made(frozen=True)
class Gain:
    """One more thing, and what it would buy."""

    code: str
    """One more thing, by its code."""
    saved_s: float | None
    """Time that it would save; None where only it makes an answer. In s."""


@made(frozen=True)
class Relaxation:
    """A limit that stands in the way."""

    name: str
    """What limits."""
    factor: float
    """How many times as wide it would have to be."""
    said: str = field(repr=False, compare=False)
    """The same in words."""


@made(frozen=True)
class PassesFigures(Answered):
    """The fastest passes, or what stands in their way."""

    do: str
    """What is done."""
    alloy: Alloy
    """The work's material."""
    tool_material: str
    """What the edge is made of."""
    machine_name: str
    """Name of the machine."""
    unit: str
    """Unit of the question: in or mm."""
    diameter_mm: float
    """Diameter before the cut, or of the cutter. In mm."""
    to_mm: float | None
    """Diameter to reach. In mm."""
    off_mm: float | None
    """Depth to take off. In mm."""
    depth_mm: float
    """Depth in all. In mm."""
    closing: str
    """How the size is closed on."""
    instrument: str
    """What the size is measured with; none where that is not said."""
    reach_mm: float | None
    """Half a line of the dial and the instrument's error together, either way on the size. In mm."""
    lines_apart: int
    """Rough readings are whole multiples of so many lines."""
    passes: tuple[PassPlanned, ...]
    """Passes in order; none where nothing keeps every limit."""
    time_s: float | None
    """Cutting, return strokes, dial, levers and measuring. In s."""
    levers_moved: int
    """Levers that are moved in all."""
    final_measure_s: float
    """Time to measure the finished work. In s."""
    line_mm: float
    """Travel of the slide for one line of its dial. In mm."""
    remainder_mm: float
    """What the last pass misses the nearest line by, along the slide. In mm."""
    readout: bool
    """Whether a readout can set that."""
    hand_fed: bool
    """Whether the feed is by hand."""
    across: int
    """Milling: passes side by side at each depth."""
    edge_share: float | None
    """Share of the edge's computed life that the passes take, unverified."""
    dial: str
    """Slide whose dial sets the depth; empty where the machine has none."""
    limited_by: str
    """The limit without which the answer would be quickest; none where no single one holds it back."""
    prices: tuple[Price, ...]
    """Limits that cost time, the dearest first."""
    slack: tuple[Slack, ...]
    """What is left of each limit."""
    gains: tuple[Gain, ...]
    """What one more thing would buy, most first."""
    next_s: float | None
    """Time of the best answer that leaves the first pass's levers alone. In s."""
    next_words: str
    """That answer in words."""
    relaxations: tuple[Relaxation, ...]
    """Without passes: what stands in the way, the least first."""
    together: bool
    """Whether no single one would do, but all of these together."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken, the tool first."""
    found: bool = field(repr=False, compare=False)
    """Whether there is an answer."""
    tightest: str = field(repr=False, compare=False)
    """The limit that least is left of in any pass; none without passes."""
    cutting_s: float = field(repr=False, compare=False)
    """Time of the cuts. In s."""
    returning_s: float = field(repr=False, compare=False)
    """Time of the ways back. In s."""
    dials_s: float = field(repr=False, compare=False)
    """Time to set the dial. In s."""
    levers_s: float = field(repr=False, compare=False)
    """Time to change levers. In s."""
    measuring_s: float = field(repr=False, compare=False)
    """Time to measure, the finished work too. In s."""
    depths_said: str = field(repr=False, compare=False)
    """The depths, without their unit."""
    table_said: tuple[tuple[str, str], ...] = field(repr=False, compare=False)
    """A line a pass: depth, what it leaves, dial, levers."""
    off_line_mm: float = field(repr=False, compare=False)
    """How far off a line of the dial the last pass ends. In mm."""
    fewest_turns: float | None = field(repr=False, compare=False)
    """By hand: fewest turns of the handle a minute."""
    most_turns: float | None = field(repr=False, compare=False)
    """By hand: most turns of the handle a minute."""
    limit_cost_s: float | None = field(repr=False, compare=False)
    """Time that would be saved without what limits. In s."""
    left: tuple[Slack, ...] = field(repr=False, compare=False)
    """What is left of each limit, the least first."""
    neighbours_said: str = field(repr=False, compare=False)
    """What one step up or down does in each pass."""
    next_more_s: float | None = field(repr=False, compare=False)
    """How much longer the next best answer takes. In s."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "prices": Price,
        "slack": Slack,
        "gains": Gain,
        "relaxations": Relaxation,
        "left": Slack,
        "alloy": "halfnut.material.figures:Alloy",
        "passes": "halfnut.cutting.figures:PassPlanned",
    }

    _paired: ClassVar[frozenset[str] | set[str]] = {"table_said"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "limit",
        "why",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class ForceBand(Answered):
    """Where a measured force lies, as shares of the computed one."""

    alloy: Alloy
    """The work's material."""
    process: str
    """What is done."""
    low: float
    """Lower edge as a share of the computed force; power and torque follow the force."""
    high: float
    """Upper edge as a share of the computed force."""
    verified: bool
    """Whether measured cuts of the alloy's group bear the band out."""
    papers: int
    """Papers whose measured cuts of the group are counted."""
    rows: int
    """Measured cuts of the group."""
    median: float | None
    """Median of computed over measured force in them."""
    kc11_n_mm2: float | None
    """Specific cutting force of a chip 1 mm thick, tabulated or estimated. In N/mm2."""
    mc: float | None
    """Exponent by which it falls with the chip's thickness."""

    _made: ClassVar[Mapping[str, type | str]] = {"alloy": "halfnut.material.figures:Alloy"}


@made(frozen=True)
class WorkBend(Answered):
    """How far work deflects at the tool as the tool travels along it."""

    unit: str
    """Unit of the question: in or mm."""
    hold: str
    """How the work is held."""
    force_n: float
    """Force across the work. In N."""
    places_mm: tuple[float, ...]
    """Where the tool stands, from the chuck or the first centre. In mm."""
    bend_mm: tuple[float, ...]
    """Deflection there. In mm."""
    diameter_error_mm: tuple[float, ...]
    """How much larger than set the diameter comes there. In mm."""
    worst_mm: float
    """Greatest deflection. In mm."""
    worst_at_mm: float
    """Where that is. In mm."""
    taper_mm: float
    """Largest diameter turned less the smallest. In mm."""
    length_mm: float
    """Length of the work. In mm."""
    slenderness: float
    """Greatest free length over the mean diameter of the work."""
    larger_mm: float = field(repr=False, compare=False)
    """How much larger than set the worst place is turned. In mm."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "diameter",
        "length",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class InJaws(Part):
    """Out-of-round of a ring in a number of jaws."""

    jaws: int
    """Jaws or contacts."""
    out_of_round_mm: float
    """Out-of-round in them, peak to valley on the radius. In mm."""
    said: str = field(repr=False, compare=False)
    """It in one line."""


@made(frozen=True)
class JawSqueeze(Answered):
    """A ring or tube in jaws: the force that holds it, and how far out of round it comes when bored there."""

    unit: str
    """Unit of the question: in or mm."""
    jaws: int
    """Jaws or contacts."""
    jaw_force_n: float
    """Force that each jaw needs so that the work does not slip. In N."""
    jaw_force_at_rest_n: float | None
    """Force to set each jaw to at standstill so that this is left at speed, for the jaws fly outward. In N."""
    out_of_round_mm: float
    """Out-of-round once the work is let go, peak to valley on the radius. In mm."""
    wall_mm: float
    """Wall of the ring. In mm."""
    mean_diameter_mm: float
    """Mean diameter of the ring. In mm."""
    by_jaws: tuple[InJaws, ...]
    """The same grip in all, shared by other numbers of jaws."""

    _made: ClassVar[Mapping[str, type | str]] = {"by_jaws": InJaws}
    SHORT: ClassVar[tuple[str, ...]] = (
        "grip",
        "instead",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class PlaceOnWork(Part):
    """A place along the work and the diameter that it comes to."""

    at_mm: float
    """Where the tool stands, from the jaws or the first centre. In mm."""
    larger_mm: float
    """How much larger than set the diameter comes there. In mm."""
    said: str = field(repr=False, compare=False)
    """It in one line."""


@made(frozen=True)
class OtherWay(Part):
    """Another way to hold the work."""

    name: str
    """How the work is held."""
    bend_mm: float
    """Greatest deflection of the same work held so. In mm."""
    said: str = field(repr=False, compare=False)
    """It in one line."""


@made(frozen=True)
class Holding(Answered):
    """Work where it is held, under one cut."""

    unit: str
    """Unit of the question: in or mm."""
    cut: Cut
    """The cut."""
    bend: WorkBend
    """Bend under the passive force at the upper edge of its band."""
    places: tuple[PlaceOnWork, ...]
    """Places along the work and the diameters they come to."""
    other_ways: tuple[OtherWay, ...]
    """The same work held otherwise."""
    steadies_for_span: int
    """Further fixed steadies that bring the free spans down to what is usual."""
    jaw_force_n: float | None
    """Force that each jaw needs so that the cut does not turn the work; needs friction and safety. In N."""
    rings: tuple[InJaws, ...]
    """Of a tube: out-of-round for 1000 N a jaw, by number of jaws."""
    squeeze: JawSqueeze | None
    """Of a tube: the grip that the cut needs."""
    warming_k: float | None
    """How much warmer the cut makes the work when no heat leaves it; needs a length of the cut. In K."""
    growth_mm: float | None
    """How much larger it then measures. In mm."""
    ways: tuple[str, ...]
    """What to do at the machine, in the order in which it helps."""
    ring_force_n: float = field(repr=False, compare=False)
    """Force of a jaw that the rings are answered for. In N."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "places": PlaceOnWork,
        "other_ways": OtherWay,
        "rings": InJaws,
        "cut": "halfnut.cutting.figures:Cut",
        "bend": "halfnut.cutting.figures:WorkBend",
        "squeeze": "halfnut.cutting.figures:JawSqueeze",
    }
    SHORT: ClassVar[tuple[str, ...]] = (
        "grip",
        "round",
        "do",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class Taper(Answered):
    """A taper: how to set the machine, and the cut at its large end."""

    unit: str
    """Unit that the answer is shown in first."""
    angle_deg: float
    """Angle between side and axis: what compound or attachment is set to; the included angle is twice. In deg."""
    taper_per_foot_in: float
    """Taper on the diameter in inches a foot."""
    setover_mm: float | None
    """How far the tailstock is set over, where a length between centres is given. In mm."""
    cut: Cut
    """The cut at the large end."""

    _made: ClassVar[Mapping[str, type | str]] = {"cut": "halfnut.cutting.figures:Cut"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "spindle",
        "feed",
        "depth",
        "passes",
        "limit",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class Groove(Answered):
    """A groove: plunges side by side, each a cut of the blade."""

    unit: str
    """Unit of the question: in or mm."""
    plunges: int
    """Plunges side by side."""
    plunges_said: str
    """How many, and how far apart."""
    step_mm: float
    """Distance between them. In mm."""
    time_s: float | None
    """Time of all plunges. In s."""
    cut: Cut
    """One plunge."""

    _made: ClassVar[Mapping[str, type | str]] = {"cut": "halfnut.cutting.figures:Cut"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "spindle",
        "feed",
        "depth",
        "passes",
        "limit",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class Entry(Answered):
    """How an end mill goes down into the work: a slope or a helix, and the cut at full depth."""

    way: str
    """How the cutter goes down: ramp or helix."""
    unit: str
    """Unit of the question: in or mm."""
    angle_deg: float
    """Angle of the slope. In deg."""
    turns: float | None
    """Turns of a helix."""
    pitch_mm: float | None
    """How far a turn of a helix goes down. In mm."""
    length_mm: float
    """Travel on the way down. In mm."""
    feed_mm_min: float
    """Feed of the cutter's centre on the way down. In mm/min."""
    time_s: float
    """Time of the way down. In s."""
    cut: Cut
    """The slot cut at full depth, of a helix that of one turn."""

    _made: ClassVar[Mapping[str, type | str]] = {"cut": "halfnut.cutting.figures:Cut"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "turns",
        "time",
        "spindle",
        "feed",
        "depth",
        "passes",
        "limit",
    )
    AT_MACHINE: ClassVar[bool] = True


@made(frozen=True)
class ToolLife(Answered):
    """Life of an edge in turning. A figure that was not asked for is None."""

    alloy: Alloy
    """The work's material."""
    tool_material: str
    """What the edge is made of."""
    unit: str
    """Unit of the question: in or mm."""
    feed_mm_rev: float
    """Feed that the constants are for. In mm/rev."""
    depth_mm: float
    """Depth that the constants are for. In mm."""
    exponent: float
    """n of V T^n = C, at this feed and depth."""
    c_m_min: float
    """C of V T^n = C: the speed for a life of one minute. In m/min."""
    at_speed_m_min: float | None
    """Speed asked about. In m/min."""
    life_min: float | None
    """Life at that speed, at most eight hours. In min."""
    life_low_min: float | None
    """Its likely least. In min."""
    life_high_min: float | None
    """Its likely most. In min."""
    for_life_min: float | None
    """Life wanted. In min."""
    speed_m_min: float | None
    """Speed for that life. In m/min."""
    speed_low_m_min: float | None
    """Its likely least. In m/min."""
    speed_high_m_min: float | None
    """Its likely most. In m/min."""
    fastest_life_min: float | None
    """Life for the most parts an hour, from the time to change the edge. In min."""
    fastest_speed_m_min: float | None
    """Speed for the most parts an hour. In m/min."""
    economic_life_min: float | None
    """Life for the cheapest part, from that time, the edge's cost and the cost of a minute. In min."""
    economic_speed_m_min: float | None
    """Speed for the cheapest part. In m/min."""
    spindle_rpm: float | None
    """Spindle speed for the life wanted: the machine's fastest step that is not above it, or its slowest; without a
    machine exact. In rev/min."""
    fastest_rpm: float | None
    """Spindle speed for the most parts an hour. In rev/min."""
    economic_rpm: float | None
    """Spindle speed for the cheapest part. In rev/min."""
    verified: bool
    """Always False: measured lives scatter too widely about any computed one."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken, the tool first."""
    foremost: str = field(repr=False, compare=False)
    """Which answer is told first: life, speed, most, cheapest, or none was asked for."""
    edge_said: str = field(repr=False, compare=False)
    """What the edge is made of, in words."""

    _made: ClassVar[Mapping[str, type | str]] = {"alloy": "halfnut.material.figures:Alloy"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "assumed",
        "likely",
        "speed",
        "most",
        "cheapest",
    )


@made(frozen=True)
class UsualSpeed:
    """Speed and feed of one usual cut."""

    tool: str
    """The tool's material."""
    cut: str
    """What is done."""
    window_low_m_min: float
    """Slowest cutting speed that suits. In m/min."""
    window_high_m_min: float
    """Fastest cutting speed that suits. In m/min."""
    feed_mm: float | None
    """Feed a revolution, in milling a tooth. In mm."""


@made(frozen=True)
class Speeds(Answered, Listed[UsualSpeed]):
    """Speeds and feeds that suit an alloy, by tool and usual cut."""

    alloy: Alloy
    """The work's material."""
    unit: str
    """Unit of the question: in or mm."""
    cuts: tuple[UsualSpeed, ...]
    """The usual cuts, tool by tool."""
    never_taken: tuple[str, ...]
    """Speeds that are printed against the order of operations: no answer takes them."""
    table: tuple[tuple[str, str], ...] = field(repr=False, compare=False)
    """Speeds and feeds by tool, a column a cut."""

    _made: ClassVar[Mapping[str, type | str]] = {"cuts": UsualSpeed, "alloy": "halfnut.material.figures:Alloy"}

    _paired: ClassVar[frozenset[str] | set[str]] = {"table"}
    SHORT: ClassVar[tuple[str, ...]] = ("*",)
    ITEMS: ClassVar[str] = "cuts"


@made(frozen=True)
class Resting:
    """How many rest on each kind of source."""

    name: str
    """The table, or the operation."""
    shop: int
    """A shop's own."""
    standard: int
    """Standards."""
    government: int
    """Government publications."""
    handbook: int
    """Handbooks."""
    textbook: int
    """Textbooks."""
    paper: int
    """Papers."""
    transcription: int
    """Copies of a source whose own page was not seen."""
    practice: int
    """Common practice."""
    memory: int
    """Sources as they are remembered."""


@made(frozen=True)
class Data(Answered):
    """What the figures rest on."""

    tables: tuple[Resting, ...]
    """Cells that name a source, by table."""
    answers: tuple[Resting, ...]
    """Speeds that are answered, by operation; an alloy that a shop meets weekly counts five times."""
    memory_share: float
    """Share of the answers that rest on memory."""
    counted: tuple[tuple[str, str], ...] = field(repr=False, compare=False)
    """Both lists as one table."""

    _made: ClassVar[Mapping[str, type | str]] = {"tables": Resting, "answers": Resting}

    _paired: ClassVar[frozenset[str] | set[str]] = {"counted"}
    SHORT: ClassVar[tuple[str, ...]] = ("*",)
