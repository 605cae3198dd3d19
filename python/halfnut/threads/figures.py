"""Figures of the answers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING, ClassVar

from halfnut.core.fixed import made
from halfnut.core.questions import Answered
from halfnut.core.record import Part

if TYPE_CHECKING:
    from halfnut.threads.holes import TappingHole
    from halfnut.threads.standard import ThreadLimits


__all__ = [
    "AdjusterEnd",
    "AdjusterState",
    "BlindHole",
    "ClassTried",
    "ClearanceHole",
    "DrillSet",
    "Galling",
    "Identification",
    "Judged",
    "LubricantFriction",
    "MinimumStrength",
    "OverWires",
    "ScrewSeat",
    "ShopPlug",
    "Suited",
    "TaperPipe",
    "ThreadFit",
    "ThreadGauges",
    "ThreadMatch",
    "ThreadStrength",
    "ThreadsNear",
    "Tightening",
    "Verdict",
]


@made(frozen=True)
class ThreadGauges:
    """What the gauges for a part are made to, before gauge tolerances and wear."""

    go_pitch: float
    """Pitch diameter of the go thread gauge."""
    go_crest: float
    """Minor diameter of a go ring, major diameter of a go plug."""
    not_go_pitch: float
    """Pitch diameter of the not-go thread gauge."""
    plain_go: float
    """Plain go gauge on the crest."""
    plain_not_go: float
    """Plain not-go gauge on the crest."""


@made(frozen=True)
class ThreadLimitsFigures(Answered):
    """Limits of size of one part of a thread of any form, or of a part by its sizes alone."""

    thread: str
    """Thread as it is designated; of sizes alone their title."""
    side: str
    """Which part."""
    tolerance_class: str
    """Tolerance class; empty of sizes alone."""
    unit: str
    """Unit of the standard."""
    major_max: float | None
    """Greatest major diameter, in the standard's own unit as it rounds."""
    major_min: float | None
    """Least major diameter, in the standard's own unit as it rounds. In min."""
    pitch_max: float
    """Greatest pitch diameter, in the standard's own unit as it rounds."""
    pitch_min: float
    """Least pitch diameter, in the standard's own unit as it rounds. In min."""
    minor_max: float | None
    """Greatest minor diameter, in the standard's own unit as it rounds; of an external Unified thread for reference."""
    minor_min: float | None
    """Least minor diameter, in the standard's own unit as it rounds; of an external metric thread that of the smallest
    root radius. In min."""
    major_max_mm: float | None
    """Greatest major diameter. In mm."""
    major_min_mm: float | None
    """Least major diameter. In mm."""
    pitch_max_mm: float
    """Greatest pitch diameter. In mm."""
    pitch_min_mm: float
    """Least pitch diameter. In mm."""
    minor_max_mm: float | None
    """Greatest minor diameter. In mm."""
    minor_min_mm: float | None
    """Least minor diameter. In mm."""
    major_max_in: float | None
    """Greatest major diameter, in inches."""
    major_min_in: float | None
    """Least major diameter, in inches."""
    pitch_max_in: float
    """Greatest pitch diameter, in inches."""
    pitch_min_in: float
    """Least pitch diameter, in inches."""
    minor_max_in: float | None
    """Greatest minor diameter, in inches."""
    minor_min_in: float | None
    """Least minor diameter, in inches."""
    title: str
    """How answers call the part."""
    class_assumed: bool
    """No class was given: the limits are those of the usual one."""
    rule: str
    """Decimal rule of Unified threads."""
    form: str
    """Name of the form, such as trapezoidal; empty of sizes alone."""
    by_form: bool
    """Of a form beside ISO metric and Unified, or of sizes alone."""
    lead_screw: bool
    """A thread that moves a load."""
    diameter_mm: float
    """Nominal diameter; of sizes alone the largest that is known. In mm."""
    pitch_mm: float
    """Axial pitch. In mm."""
    lead_mm: float
    """Lead: how far it moves in a turn. In mm."""
    starts: int
    """Number of starts."""
    hand: str
    """Hand of the helix."""
    half_angle_deg: float
    """Between a flank and a plane across the axis. In deg."""
    lead_angle_deg: float
    """Lead angle at the basic pitch diameter. In deg."""
    holding_friction: float
    """Least friction at which a load does not turn the screw."""
    basic_pitch_mm: float
    """Basic pitch diameter. In mm."""
    basic_minor_mm: float | None
    """Basic minor diameter. In mm."""
    root_radius_mm: float
    """Radius of a root that is round; 0 where it is flat, or free. In mm."""
    crest_flat_mm: float | None
    """Flat of the basic crest. In mm."""
    allowance: float | None
    """How far the external part stays below, or the internal part above, the basic size, in the standard's own unit."""
    allowance_mm: float | None
    """The same. In mm."""
    pitch_tolerance: float
    """Tolerance of the pitch diameter before any rounding of the limits, in the standard's own unit."""
    pitch_tolerance_mm: float
    """The same. In mm."""
    crest_tolerance: float | None
    """Tolerance of the crest: major of an external part, minor of an internal one."""
    root_radius_min: float | None
    """Least radius at the root of an external metric thread. In min."""
    major_min_unfinished: float | None
    """Least major diameter of class 2A on unfinished hot-rolled material."""
    unr_minor_max: float | None
    """Greatest minor diameter with the UNR root, for reference."""
    engagement_mm: float | None
    """Length of engagement that was asked for. In mm."""
    engagement_group: str
    """Group S, N or L of that length; empty where none was given."""
    gauges: ThreadGauges | None
    """What the gauges are made to; of ISO metric and Unified threads, in the standard's own unit."""
    way: str | None
    """How limits to cut to before a coating come about: bare, held (the allowance holds the coating) or deducted."""
    build_up_min_um: float | None
    """Least that the coating still to come adds to a surface. In um."""
    build_up_max_um: float | None
    """Most that it adds. In um."""
    allowance_um: float | None
    """Allowance that there is for the coating. In um."""
    pitch_change_um: float | None
    """Most that the coating changes the pitch diameter. In um."""
    greatest_build_up_um: float | None
    """Greatest build-up that the allowance holds. In um."""
    go_after_pitch_mm: float | None
    """Pitch diameter that the coated part is gauged to go at. In mm."""
    go_after_crest_mm: float | None
    """Crest that the coated part is gauged to go at. In mm."""
    not_go_after_pitch_mm: float | None
    """Pitch diameter that the coated part must not go at. In mm."""
    not_go_after_crest_mm: float | None
    """Other limit of the coated part's crest. In mm."""
    position: str | None
    """The nearest position or class whose allowance would hold the coating."""
    roomier_class: str | None
    """The class of the same grades whose allowance holds the coating."""
    remedies: tuple[str, ...]
    """What keeps the class's own limits under the coating."""
    sizes_said: str = field(repr=False, compare=False)
    """Every diameter's limits, the greater first, with their unit."""
    minor_for_reference: bool = field(repr=False, compare=False)
    """The minor diameter is for reference."""
    said: str = field(repr=False, compare=False)
    """How limits before a coating come about; empty of others."""
    printed: tuple[str, ...] = field(repr=False, compare=False)
    """Limits in both units, what sets them, what a coating makes of them."""
    class_taken: str = field(repr=False, compare=False)
    """Classes that were not given and therefore taken; empty where none were."""
    profile_most: tuple[float, ...] = field(repr=False, compare=False)
    """Corners of a turn's outline at most material: place along the axis and radius, one corner after the other, in the
    standard's own unit; none where a limit is not set."""
    profile_least: tuple[float, ...] = field(repr=False, compare=False)
    """The same at least material."""
    other: ThreadLimits | None
    """Limits of the internal part, where a designation means both."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "gauges": ThreadGauges,
        "other": "halfnut.threads.standard:ThreadLimits",
    }


@made(frozen=True)
class OverWires(Answered):
    """Sizes over wires of an external thread, or across two balls."""

    thread: str
    """Part that is measured."""
    side: str
    """Which part: external over wires, internal across balls."""
    unit: str
    """Unit of the thread."""
    wire_mm: float
    """Wire to measure with; of an internal thread the ball. In mm."""
    wire_choice: str
    """How the wire was come by."""
    best_wire_mm: float
    """Wire that touches at the pitch line. In mm."""
    smallest_wire_mm: float
    """Smallest wire that measures every part within the limits. In mm."""
    largest_wire_mm: float
    """Largest wire that does. In mm."""
    over_max_mm: float
    """Reading at the greatest pitch diameter. In mm."""
    over_min_mm: float
    """Reading at the least pitch diameter. In mm."""
    over_max_plain_mm: float
    """Greatest reading by the plain formula, the lead left aside. In mm."""
    over_min_plain_mm: float
    """Least reading by the plain formula. In mm."""
    over_max_lead_mm: float | None
    """Greatest reading by the standards' formula for the lead. In mm."""
    over_min_lead_mm: float | None
    """Least reading by that formula. In mm."""
    over_max_held_mm: float | None
    """Greatest reading with wires held at the lead angle. In mm."""
    over_min_held_mm: float | None
    """Least reading with wires held so. In mm."""
    pitch_max_mm: float
    """Greatest pitch diameter. In mm."""
    pitch_min_mm: float
    """Least pitch diameter. In mm."""
    lead_angle_deg: float
    """Lead angle at the pitch diameter. In deg."""
    wire_tilt_deg: float | None
    """How far free wires tilt in the groove. In deg."""
    wire_error_factor: float
    """Error of the pitch diameter for one of the wire's diameter."""
    measuring_force_n: float | None
    """Force to measure with. In N."""
    skew_add_mm: float
    """Added to the reading where two balls stand half a pitch apart. In mm."""
    wire_known_to_mm: float
    """How well the wire must be known. In mm."""
    micrometer_max_mm: float | None
    """Greatest reading of a thread micrometer, set on a plug of this pitch. In mm."""
    micrometer_min_mm: float | None
    """Least reading of a thread micrometer. In mm."""
    before_coating: bool
    """These are readings before a coating."""
    coated_max_mm: float | None
    """Most that the coated part may read over these wires; its gauges decide. In mm."""
    coated_min_mm: float | None
    """Least that the coated part may read. In mm."""
    wires: str = field(repr=False, compare=False)
    """What it is read over: wires, or balls."""
    plain_off_mm: float = field(repr=False, compare=False)
    """By how much the plain formula is off. In mm."""
    left_mm: float = field(repr=False, compare=False)
    """What is left unknown of the pitch diameter. In mm."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "coated",
        "pitch",
    )


@made(frozen=True)
class ShopPlug(Answered):
    """Sizes of a plug that a shop cuts to try an internal thread with."""

    thread: str
    """Internal thread that it tries."""
    unit: str
    """Unit of the thread."""
    go_pitch_mm: float
    """Pitch diameter of the go end. In mm."""
    go_major_mm: float
    """Major diameter of the go end. In mm."""
    go_over_wires_mm: float
    """Reading of the go end over wires. In mm."""
    not_go_pitch_mm: float
    """Pitch diameter of the not-go end. In mm."""
    not_go_major_mm: float
    """Major diameter of the not-go end. In mm."""
    not_go_over_wires_mm: float
    """Reading of the not-go end over wires. In mm."""
    wire_mm: float
    """Wire to measure with. In mm."""
    SHORT: ClassVar[tuple[str, ...]] = ("not-go",)


@made(frozen=True)
class Judged:
    """One diameter against its limits."""

    measured_mm: float | None
    """Size as measured. In mm."""
    min_mm: float | None
    """Least size allowed. In mm."""
    max_mm: float | None
    """Greatest size allowed. In mm."""
    place: str
    """Where the size lies."""
    to_enter_mm: float
    """To come off the diameter before it is within. In mm."""
    to_middle_mm: float
    """To come off to the middle of the zone; below 0 it is past that. In mm."""
    to_last_mm: float
    """Most that may come off; below 0 it is past its limit. In mm."""


@made(frozen=True)
class ClassTried:
    """A class that a part was tried against."""

    name: str
    """Class that was tried."""
    met: bool
    """Whether every measured diameter meets it."""
    major: str
    """Where the major diameter lies."""
    pitch: str
    """Where the pitch diameter lies."""
    minor: str
    """Where the minor diameter lies."""


@made(frozen=True)
class Verdict(Answered):
    """What a measured part is: its place in each zone, its classes, what is left to take off."""

    thread: str
    """Thread that the part was to be."""
    side: str
    """Which part it is."""
    unit: str
    """Unit of the thread."""
    place: str
    """Where the worst of its diameters lies."""
    major: Judged
    """Major diameter."""
    pitch: Judged
    """Pitch diameter."""
    minor: Judged
    """Minor diameter."""
    functional_pitch_mm: float | None
    """Pitch diameter that a gauge feels, errors of lead and angle included. In mm."""
    over_wires_mm: float | None
    """Size over wires as measured. In mm."""
    wire_mm: float | None
    """Wire that it was measured over. In mm."""
    classes: tuple[ClassTried, ...]
    """Every class that was tried."""
    classes_met: tuple[str, ...]
    """Classes that every measured diameter meets."""
    passes: bool = field(repr=False, compare=False)
    """Whether every diameter that was measured is within its limits."""
    worst: str = field(repr=False, compare=False)
    """The worst of its diameters."""
    worst_left_mm: float = field(repr=False, compare=False)
    """What has to come off that one. In mm."""
    worst_past_mm: float = field(repr=False, compare=False)
    """How far that one is past its limit. In mm."""
    diameters_said: tuple[tuple[str, str], ...] = field(repr=False, compare=False)
    """Each diameter, and what is left on either dial."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "major": Judged,
        "pitch": Judged,
        "minor": Judged,
        "classes": ClassTried,
    }

    _paired: ClassVar[frozenset[str] | set[str]] = {"diameters_said"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "pitch",
        "meets",
    )


@made(frozen=True)
class TappingHoleFigures(Answered):
    """The drill for a tapped hole, and what it leaves of the thread; a taper pipe thread has two, and no limits."""

    thread: str
    """Internal thread, with its class."""
    unit: str
    """Unit of the thread."""
    tap: str
    """How the tap makes the thread."""
    drill: str
    """Drill to use; of a taper thread the one for a straight hole, tapped without reaming."""
    drill_mm: float
    """Diameter of that drill. In mm."""
    below: str | None
    """Next drill at or below the hole that is wanted."""
    above: str | None
    """Next drill above it."""
    within: str | None
    """Drill nearest to the wanted hole that keeps the limits."""
    wanted_mm: float | None
    """Hole that is wanted. In mm."""
    wanted_percent: float | None
    """Per cent of thread in the wanted hole."""
    hole_mm: float | None
    """Hole that the drill leaves. In mm."""
    minor_mm: float | None
    """Minor diameter once tapped. In mm."""
    percent: float | None
    """Per cent of thread reached."""
    basic_percent: float | None
    """Per cent of the basic height reached."""
    strength_ratio: float | None
    """Shear area of the external thread, over that in the smallest hole."""
    hole_min_mm: float | None
    """Least hole allowed. In mm."""
    hole_max_mm: float | None
    """Greatest hole allowed. In mm."""
    in_limits: bool | None
    """Whether the hole keeps its limits."""
    beside_limits: str
    """By how much the hole misses its limits: 0.0001 in over; empty where it keeps them or has none."""
    minor_min_mm: float | None
    """Least minor diameter of the class. In mm."""
    minor_max_mm: float | None
    """Greatest minor diameter of the class. In mm."""
    oversize_mm: float | None
    """Oversize that was counted in. In mm."""
    usual_oversize_mm: float | None
    """Oversize that a drill this size usually cuts. In mm."""
    below_mm: float | None
    """Diameter of the drill below. In mm."""
    below_percent: float | None
    """Per cent of thread it would leave."""
    above_mm: float | None
    """Diameter of the drill above. In mm."""
    above_percent: float | None
    """Per cent of thread it would leave."""
    ream_drill: str | None
    """Drill for a hole that a taper reamer then opens."""
    ream_drill_mm: float | None
    """Diameter of that drill. In mm."""
    hole_at_face_mm: float | None
    """Minor diameter at the mouth of a taper thread, which the reamer leaves. In mm."""
    hole_at_end_mm: float | None
    """Minor diameter where a taper thread ends. In mm."""
    taper_on_diameter: float | None
    """Taper on the diameter for a length of one."""
    hand_turns: float | None
    """Turns that the gauge or the fitting goes in by hand."""
    drill_said: str = field(repr=False, compare=False)
    """The drill with its size in both units."""
    nearest_said: str | None = field(repr=False, compare=False)
    """The drills on either side, with what each would leave."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "limits",
        "nearest",
        "reamed",
        "tap",
    )


@made(frozen=True)
class BlindHole(Answered):
    """Depths of a blind tapped hole."""

    thread: str
    """Internal thread, with its class."""
    unit: str
    """Unit of the thread."""
    lead: str
    """Lead of the tap."""
    threads_min: float
    """Shortest chamfer of such a tap, threads. In min."""
    threads_max: float
    """Longest chamfer of such a tap, threads; depths are computed with it."""
    drill: str
    """Drill that is used."""
    hole_mm: float
    """Diameter of that drill. In mm."""
    full_thread_mm: float
    """Length with every thread full. In mm."""
    chamfer_min_mm: float
    """Shortest chamfer of the tap. In mm."""
    chamfer_max_mm: float
    """Longest chamfer of the tap. In mm."""
    chip_room_mm: float
    """Room for chips under the tap. In mm."""
    drill_depth_mm: float
    """Depth to drill at full diameter. In mm."""
    point_mm: float
    """Length of the drill's point. In mm."""
    total_depth_mm: float
    """Depth to the tip of the point. In mm."""
    tap_depth_mm: float
    """Depth that the tap's end goes to. In mm."""
    full_threads: float
    """How many full threads there are."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "full",
        "tap",
        "point",
    )


@made(frozen=True)
class ClearanceHole(Answered):
    """A hole that a screw passes through."""

    size: str
    """Size of the screw."""
    unit: str
    """Unit of its thread."""
    fit: str
    """Fit, as the standard calls it."""
    standard: str
    """Standard that sets the hole."""
    hole_mm: float
    """Diameter of the hole. In mm."""
    drill: str
    """Drill that makes it."""
    clearance_mm: float
    """Hole less the screw. In mm."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "play",
        "by",
    )


@made(frozen=True)
class ScrewSeat(Answered):
    """A counterbore or countersink over a clearance hole."""

    size: str
    """Size of the screw."""
    unit: str
    """Unit of its thread."""
    head: str
    """Head of the screw."""
    hole_mm: float
    """Hole under the seat. In mm."""
    seat_diameter_mm: float
    """Diameter of the seat at the surface. In mm."""
    depth_mm: float
    """Depth of the counterbore, or of the cone down to the hole. In mm."""
    head_diameter_mm: float
    """Diameter of the head; of a flat one to its sharp corner. In mm."""
    head_height_mm: float | None
    """Height of the head; none of a flat one. In mm."""
    angle_deg: float | None
    """Angle of the countersink; none of a counterbore. In deg."""
    recess_mm: float
    """How far the head lies below the surface. In mm."""
    SHORT: ClassVar[tuple[str, ...]] = ("hole",)


@made(frozen=True)
class TaperPipe(Answered):
    """What a taper pipe thread is cut and gauged to."""

    thread: str
    """Thread as it is designated."""
    unit: str
    """Unit of its standard."""
    tpi: float
    """Threads per inch."""
    pitch_small_end_mm: float
    """Pitch diameter at the small end. In mm."""
    pitch_gauge_plane_mm: float
    """Pitch diameter in the gauge plane. In mm."""
    pitch_effective_mm: float | None
    """Pitch diameter where the effective thread ends. In mm."""
    pitch_wrench_mm: float | None
    """Pitch diameter at the end of the wrench make-up. In mm."""
    hand_engagement_mm: float
    """Length of hand engagement: the gauge plane from the end. In mm."""
    effective_length_mm: float | None
    """Length of the effective thread. In mm."""
    wrench_length_mm: float | None
    """Length of the wrench make-up. In mm."""
    overall_length_mm: float | None
    """Overall length, vanishing threads included. In mm."""
    full_crest_length_mm: float | None
    """Length with full crests. In mm."""
    thread_height_mm: float
    """Height of the thread. In mm."""
    hand_turns: float
    """Turns of hand engagement."""
    tolerance_turns: float
    """Tolerance of the gauge, turns either way."""
    hole_at_face_mm: float
    """Minor diameter at the mouth of the internal thread: a reamer's large end. In mm."""
    hole_at_end_mm: float
    """Minor diameter where the internal thread ends: the hole to drill before reaming. In mm."""
    compound_setting_deg: float
    """Setting of the compound: half of the taper. In deg."""
    taper_on_diameter: float
    """Taper on the diameter for a length of one."""
    depth_mm: float = field(repr=False, compare=False)
    """Depth of the thread in an internal part: hand engagement and wrench turns. In mm."""
    fewest_turns: float = field(repr=False, compare=False)
    """Fewest turns of hand engagement."""
    most_turns: float = field(repr=False, compare=False)
    """Most turns of hand engagement."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "hole",
        "set",
    )


@made(frozen=True)
class DrillSet(Answered):
    """Drills, smallest first."""

    names: tuple[str, ...]
    """Their names."""
    diameters_mm: tuple[float, ...]
    """Their diameters. In mm."""


@made(frozen=True)
class ThreadFit(Answered):
    """Fit of two threads; clearances are differences of diameters, below 0 where the parts interfere."""

    external: str
    """External part."""
    internal: str
    """Internal part."""
    unit: str
    """Unit of the external part."""
    verdict: str
    """Whether they screw together."""
    deciding: str
    """What decides it."""
    pitch_clearance_min_mm: float
    """Least clearance at the pitch diameter. In mm."""
    pitch_clearance_max_mm: float
    """Greatest clearance at the pitch diameter. In mm."""
    major_clearance_min_mm: float | None
    """Least clearance at the major diameter. In mm."""
    major_clearance_max_mm: float | None
    """Greatest clearance at the major diameter. In mm."""
    minor_clearance_min_mm: float | None
    """Least clearance at the minor diameter. In mm."""
    minor_clearance_max_mm: float | None
    """Greatest clearance at the minor diameter. In mm."""
    radial_play_min_mm: float
    """Least play side to side. In mm."""
    radial_play_max_mm: float
    """Greatest play side to side. In mm."""
    axial_play_min_mm: float
    """Least end play. In mm."""
    axial_play_max_mm: float
    """Greatest end play. In mm."""
    tilt_min_deg: float
    """Least tilt, either way. In deg."""
    tilt_max_deg: float
    """Greatest tilt, either way. In deg."""
    clearance_mean_mm: float
    """Mean of the clearance at the pitch diameter. In mm."""
    clearance_sigma_mm: float
    """Standard deviation of that clearance. In mm."""
    chance_of_interference: float
    """Share of the pairs that interfere."""
    engagement_mm: float
    """Full-form length of engagement. In mm."""
    engagement_assumed: bool
    """That length was not given."""
    lead_mismatch_mm: float
    """Difference of the leads, a turn. In mm."""
    turns_to_bind: float | None
    """Turns until a wrong lead binds."""
    build_up_external_min_um: float
    """Least that a coating adds to a surface of the external part. In um."""
    build_up_external_max_um: float
    """Most that it adds. In um."""
    build_up_internal_min_um: float
    """Least that a coating adds to a surface of the internal part. In um."""
    build_up_internal_max_um: float
    """Most that it adds. In um."""
    external_pitch_max_mm: float
    """Greatest pitch diameter of the external part, bare. In mm."""
    external_pitch_min_mm: float
    """Least pitch diameter of the external part, bare. In mm."""
    internal_pitch_max_mm: float
    """Greatest pitch diameter of the internal part, bare. In mm."""
    internal_pitch_min_mm: float
    """Least pitch diameter of the internal part, bare. In mm."""
    remedies: tuple[str, ...]
    """What makes coated parts go together, each tried."""
    goes_together: bool = field(repr=False, compare=False)
    """Whether every pair within the limits screws together."""
    deciding_min_mm: float = field(repr=False, compare=False)
    """Least clearance at the diameter that decides. In mm."""
    deciding_max_mm: float | None = field(repr=False, compare=False)
    """Greatest clearance there. In mm."""
    rarely: bool = field(repr=False, compare=False)
    """Only the rarest pairs bind."""
    chance_said: str = field(repr=False, compare=False)
    """The chance of interference in words."""
    likely_min_mm: float = field(repr=False, compare=False)
    """Least likely clearance at the pitch diameter. In mm."""
    likely_max_mm: float = field(repr=False, compare=False)
    """Greatest likely clearance. In mm."""
    external_over: str = field(repr=False, compare=False)
    """Bare pitch diameter of the external part, upper over lower limit."""
    internal_over: str = field(repr=False, compare=False)
    """That of the internal part."""
    coats_said: tuple[str, ...] = field(repr=False, compare=False)
    """What coatings add, each part in words."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "axial",
        "tilt",
        "or",
    )
    IN_BOTH: ClassVar[bool] = True


@made(frozen=True)
class Suited(Answered):
    """A part cut to suit one that is there: an external one is read over wires, an internal one tried with a plug."""

    thread: str
    """Part to cut."""
    side: str
    """Which part it is."""
    unit: str
    """Unit of the thread."""
    pitch_min_mm: float
    """Least pitch diameter to cut. In mm."""
    pitch_max_mm: float
    """Greatest pitch diameter to cut. In mm."""
    clearance_min_mm: float
    """Least clearance wanted. In mm."""
    clearance_max_mm: float
    """Greatest clearance wanted. In mm."""
    measured_pitch_mm: float
    """Pitch diameter of the part that is there. In mm."""
    wire_mm: float | None
    """Wire to measure an external part with. In mm."""
    over_min_mm: float | None
    """Least reading over it. In mm."""
    over_max_mm: float | None
    """Greatest reading over it. In mm."""
    plug: ShopPlug | None
    """Plug to try an internal part with."""
    now_pitch_mm: float | None
    """Pitch diameter of the part as it is cut so far. In mm."""
    left_least_mm: float | None
    """What has to come off it yet, on the diameter; below 0 nothing. In mm."""
    left_most_mm: float | None
    """What may come off it; below 0 it is past the size. In mm."""
    limits_said: str = field(repr=False, compare=False)
    """The pitch diameter to cut, in both units."""

    _made: ClassVar[Mapping[str, type | str]] = {"plug": "halfnut.threads.figures:ShopPlug"}
    SHORT: ClassVar[tuple[str, ...]] = (
        "read",
        "plug",
        "not-go",
        "left",
        "suits",
    )


@made(frozen=True)
class MinimumStrength(Answered):
    """Minimum strengths of an alloy in a form."""

    alloy: str
    """Alloy and condition."""
    form: str
    """Form it comes in."""
    temper: str
    """Tempers that the row is for."""
    tensile_mpa: float
    """Tensile strength, at least. In MPa."""
    yield_mpa: float | None
    """Yield strength, at least; none where the specification sets none. In MPa."""
    shear_mpa: float | None
    """Shear strength, at least. In MPa."""
    bearing_mpa: float | None
    """Bearing strength, at least. In MPa."""
    over_mm: float | None
    """Thickness above which the row serves. In mm."""
    up_to_mm: float | None
    """Thickness up to which it serves. In mm."""
    grain: str
    """How the load lies to the grain; empty where the least is taken or the row does not say."""
    least_of_grain: bool
    """The least of along and across the grain is taken."""
    weakest_of_several: bool
    """No thickness was given: the least of the form's rows is taken."""
    note: str
    """What else the row says."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "shear",
        "bearing",
    )
    IN_BOTH: ClassVar[bool] = True


@made(frozen=True)
class LubricantFriction:
    """Friction with a lubricant."""

    lubricant: str
    """Lubricant, or dry."""
    low: float
    """Least friction."""
    high: float
    """Greatest friction."""


@made(frozen=True)
class Galling(Answered):
    """How two metals go together in a thread, what to do about it, and the friction that goes with it."""

    alloy: str
    """Alloy of the external part."""
    other: str
    """Alloy of the internal part."""
    severity: str
    """How badly they gall."""
    advice: tuple[str, ...]
    """What is done about it."""
    friction: tuple[LubricantFriction, ...]
    """Friction with each lubricant; the metal that slides worse decides."""
    note: str
    """What else the row says."""

    _made: ClassVar[Mapping[str, type | str]] = {"friction": LubricantFriction}
    SHORT: ClassVar[tuple[str, ...]] = (
        "advice",
        "friction",
    )


@made(frozen=True)
class ThreadStrength(Answered):
    """What a threaded joint holds; a factor of safety is in the allowable load and its engagement only."""

    external: str
    """External part."""
    internal: str
    """Internal part."""
    unit: str
    """Unit of the thread."""
    weakest: str
    """What breaks first."""
    overlap_mm: float
    """Length over which one part is inside the other. In mm."""
    full_form_engagement_mm: float
    """Length of full form that is engaged. In mm."""
    engaged_turns: float
    """The same in pitches."""
    thread_depth_mm: float
    """Depth of the thread. In mm."""
    stress_area_mm2: float
    """Stress area. In mm2."""
    root_area_mm2: float
    """Area at the root. In mm2."""
    external_net_area_mm2: float
    """Stress area less the bore. In mm2."""
    internal_net_area_mm2: float | None
    """Section of the internal part at the root of its thread. In mm2."""
    external_shear_area_mm2_mm: float
    """Shear area of the external thread for a length of one. In mm."""
    internal_shear_area_mm2_mm: float
    """Shear area of the internal thread for a length of one. In mm."""
    external_shear_area_mm2: float
    """Shear area of the external thread. In mm2."""
    internal_shear_area_mm2: float
    """Shear area of the internal thread. In mm2."""
    external_tensile_mpa: float
    """Tensile strength of the external part. In MPa."""
    internal_tensile_mpa: float
    """Tensile strength of the internal part. In MPa."""
    external_yield_mpa: float | None
    """Yield strength of the external part. In MPa."""
    internal_yield_mpa: float | None
    """Yield strength of the internal part. In MPa."""
    external_shear_strength_mpa: float
    """Shear strength of the external part. In MPa."""
    internal_shear_strength_mpa: float
    """Shear strength of the internal part. In MPa."""
    external_material: str
    """Where the strengths of the external part are from."""
    internal_material: str
    """Where the strengths of the internal part are from."""
    strength_ratio: float
    """Internal over external strength of the threads, by shear."""
    stripping_ratio: float
    """External over internal, by tensile strengths (J)."""
    outside_to_diameter: float | None
    """Outside of the internal part over the nominal diameter."""
    dilation_factor: float
    """Factor for the dilation of the internal part."""
    external_bending_factor: float
    """Factor for the bending of the external thread."""
    internal_bending_factor: float
    """Factor for the bending of the internal thread."""
    external_tension_n: float
    """Load that breaks the external section. In N."""
    internal_tension_n: float | None
    """Load that breaks the internal section. In N."""
    external_stripping_n: float
    """Load that strips the external thread. In N."""
    internal_stripping_n: float
    """Load that strips the internal thread. In N."""
    external_yield_n: float | None
    """Load that yields the external section. In N."""
    internal_yield_n: float | None
    """Load that yields the internal section. In N."""
    weakest_n: float
    """Load that breaks the first. In N."""
    bears_n: float
    """Load before a section yields or anything breaks. In N."""
    factor_of_safety: float | None
    """Factor of safety."""
    allowable_n: float | None
    """Load that is allowed with it. In N."""
    load_n: float | None
    """Load on the joint. In N."""
    factor_reached: float | None
    """What it bears over the load."""
    engagement_required_mm: float
    """Full form for a section to break before a thread strips. In mm."""
    engagement_handbook_mm: float
    """Full form by the handbook's rule, solid parts. In mm."""
    engagement_practice_mm: float | None
    """Length of engagement by practice. In mm."""
    engagement_for_load_mm: float | None
    """Full form for the load, with the factor of safety. In mm."""
    external_wall_mm: float | None
    """Wall left under the external thread. In mm."""
    internal_wall_mm: float | None
    """Wall left over the internal thread. In mm."""
    radial_pressure_mpa: float | None
    """Radial pressure of the flanks under the load. In MPa."""
    internal_hoop_mpa: float | None
    """Hoop tension in the internal wall under the load. In MPa."""
    external_hoop_mpa: float | None
    """Hoop compression in the external wall under the load. In MPa."""
    flank_pressure_mpa: float | None
    """Pressure of the load on the projected flanks that are engaged. In MPa."""
    holding_friction: float
    """Least friction at which a load does not turn the screw."""
    friction_low: float | None
    """Least friction in the thread."""
    friction_high: float | None
    """Greatest friction in the thread."""
    raising_torque_min_nm: float | None
    """Torque that raises the load at the least friction, the screw alone. In N m."""
    raising_torque_max_nm: float | None
    """Torque that raises the load at the greatest friction. In N m."""
    by_form: bool
    """Of a form for whose flanks no factors are published."""
    diameter_mm: float
    """Nominal diameter. In mm."""
    practice_diameters: float | None = field(repr=False, compare=False)
    """Engagement by practice, in diameters."""
    three_turns_mm: float = field(repr=False, compare=False)
    """Length of three turns. In mm."""
    galling: str | None
    """How badly the two metals gall."""
    advice: tuple[str, ...]
    """What is done about galling."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "allow",
        "engage",
    )
    IN_BOTH: ClassVar[bool] = True


@made(frozen=True)
class Tightening(Answered):
    """Torque and preload over the range of friction."""

    thread: str
    """Thread as it is designated."""
    unit: str
    """Unit of the thread."""
    asked: str
    """What was asked for: preload or torque."""
    preload_min_n: float
    """Least preload. In N."""
    preload_max_n: float
    """Greatest preload. In N."""
    torque_min_nm: float
    """Least torque. In N m."""
    torque_max_nm: float
    """Greatest torque. In N m."""
    loosen_min_nm: float
    """Least torque that turns it back. In N m."""
    loosen_max_nm: float
    """Greatest torque that turns it back. In N m."""
    prevailing_nm: float
    """Torque before any preload. In N m."""
    nut_factor_min: float
    """Least nut factor K. In min."""
    nut_factor_max: float
    """Greatest nut factor K."""
    thread_share_min: float
    """Least share of the torque that goes into the thread. In min."""
    thread_share_max: float
    """Greatest share of it."""
    practice_nut_factor: float | None
    """Nut factor of common practice; none published for other flanks."""
    practice_torque_nm: float | None
    """Torque by it for the middle preload, prevailing torque included. In N m."""
    stress_max_mpa: float
    """Greatest stress while tightening, tension and torsion together. In MPa."""
    yield_mpa: float | None
    """Yield strength of the external part. In MPa."""
    yield_share: float | None = field(repr=False, compare=False)
    """That stress over the yield strength, per cent."""
    lubricant: str
    """Lubricant, or "as given"."""
    thread_friction_low: float
    """Least friction in the thread."""
    thread_friction_high: float
    """Greatest friction in the thread."""
    bearing_friction_low: float
    """Least friction under the nut or head."""
    bearing_friction_high: float
    """Greatest friction under the nut or head."""
    bearing_diameter_mm: float
    """Mean diameter of the seat. In mm."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "friction",
        "stress",
    )
    IN_BOTH: ClassVar[bool] = True


@made(frozen=True)
class AdjusterEnd(Answered):
    """One threaded end: what it is cut to, and what holds there."""

    external: str
    """External part."""
    internal: str
    """Internal part."""
    unit: str
    """Unit of the external part."""
    thread_length_mm: float
    """External thread from its end. In mm."""
    chamfer_mm: float
    """Chamfer of the external thread. In mm."""
    run_out_mm: float
    """Run-out of the external thread. In mm."""
    base_length_mm: float
    """Internal thread from its mouth. In mm."""
    countersink_mm: float
    """Countersink at the mouth. In mm."""
    base_run_out_mm: float
    """Run-out of the internal thread. In mm."""
    room_mm: float | None
    """How far the external end may go in past the mouth, where that was given. In mm."""
    internal_outside_mm: float
    """Outside of the internal part. In mm."""
    outer_length_mm: float
    """From the outer member's joint to its mouth, or to its end. In mm."""
    nut_thickness_mm: float
    """Thickness of the lock nut; 0 without one. In mm."""
    nut_countersink_mm: float
    """Countersink of each face of the lock nut. In mm."""
    nut_outside_mm: float | None
    """Width of the lock nut across flats. In mm."""
    external_bore_mm: float
    """Bore under the external thread; 0 where it is solid. In mm."""
    outer_outside_mm: float
    """Outside of the outer member. In mm."""
    outer_bore_mm: float
    """Bore of the outer member; 0 where it is solid. In mm."""
    rule_diameters: float
    """Least engagement by rule, in nominal diameters."""
    thread_friction_low: float
    """Least friction in the thread."""
    thread_friction_high: float
    """Greatest friction in the thread."""
    bearing_friction_low: float
    """Least friction under the lock nut."""
    bearing_friction_high: float
    """Greatest friction under the lock nut."""
    external_tensile_mpa: float
    """Tensile strength of the external part, at least. In MPa."""
    external_yield_mpa: float | None
    """Yield strength of the external part, at least. In MPa."""
    external_youngs_modulus_gpa: float
    """Young's modulus of the external part. In GPa."""
    external_expansion_um_m_k: float | None
    """Expansion of the external part for each degree. In um/(m K)."""
    internal_tensile_mpa: float
    """Tensile strength of the internal part, at least. In MPa."""
    internal_yield_mpa: float | None
    """Yield strength of the internal part, at least. In MPa."""
    internal_youngs_modulus_gpa: float
    """Young's modulus of the internal part. In GPa."""
    internal_expansion_um_m_k: float | None
    """Expansion of the internal part for each degree. In um/(m K)."""
    nut_tensile_mpa: float
    """Tensile strength of the lock nut, at least. In MPa."""
    nut_yield_mpa: float | None
    """Yield strength of the lock nut, at least. In MPa."""
    nut_youngs_modulus_gpa: float
    """Young's modulus of the lock nut. In GPa."""
    nut_expansion_um_m_k: float | None
    """Expansion of the lock nut for each degree. In um/(m K)."""
    nut_shear_mpa: float | None
    """Shear strength of the lock nut, at least; none where no row has it. In MPa."""
    lead_mm: float
    """Lead: above 0 right-hand, below 0 left-hand. In mm."""
    engagement_for_load_mm: float
    """Full form that bears the load of thread_load_n, which has the factor of safety. In mm."""
    engagement_full_strength_mm: float
    """Full form at which a section breaks before a thread strips. In mm."""
    engagement_rule_mm: float
    """Full form by rule. In mm."""
    engagement_least_mm: float
    """Least full form: the greater of that for the load and that by rule. In mm."""
    insertion_max_mm: float
    """Greatest insertion, from the mouth to the external part's end. In mm."""
    insertion_min_mm: float
    """Least insertion. In mm."""
    insertion_min_strength_mm: float
    """Least insertion, were strength the only rule. In mm."""
    insertion_min_rule_mm: float
    """Least insertion, were engagement by rule the only one. In mm."""
    engagement_max_mm: float
    """Full form at the greatest insertion. In mm."""
    groove_mm: float
    """From the external part's end to the far edge of the witness groove. In mm."""
    groove_under: str
    """What the groove comes out of when it is out too far: lock nut or mouth."""
    pitch_clearance_min_mm: float
    """Least clearance at the pitch diameter, coated. In mm."""
    pitch_clearance_max_mm: float
    """Greatest clearance at the pitch diameter, coated. In mm."""
    crest_clearance_max_mm: float | None
    """Greatest clearance at the crests. In mm."""
    axial_play_min_mm: float
    """Least end play. In mm."""
    axial_play_max_mm: float
    """Greatest end play. In mm."""
    pitch_diameter_mm: float
    """Greatest pitch diameter of the external part. In mm."""
    external_area_mm2: float
    """Stress area of the external part, less its bore. In mm2."""
    external_root_mm: float
    """Root diameter of the external part. In mm."""
    internal_area_mm2: float
    """Section of the internal part at the root of its thread. In mm2."""
    internal_root_mm: float
    """Root diameter of the internal part. In mm."""
    external_shear_area_mm2_mm: float
    """Shear area of the external thread for a length of one. In mm."""
    internal_shear_area_mm2_mm: float
    """Shear area of the internal thread for a length of one. In mm."""
    external_shear_mpa: float
    """Shear strength of the external part. In MPa."""
    internal_shear_mpa: float
    """Shear strength of the internal part. In MPa."""
    external_strip_n_mm: float
    """Load that strips each millimetre of the external thread. In mm."""
    internal_strip_n_mm: float
    """Load that strips each millimetre of the internal thread. In mm."""
    external_section_n: float
    """Load that yields the external section. In N."""
    internal_section_n: float
    """Load that yields the internal section. In N."""
    preload_least_n: float | None
    """Least preload of the lock nut that keeps the joint tight. In N."""
    preload_max_n: float | None
    """Preload at the torque where friction is least. In N."""
    torque_nm: float | None
    """Torque that brings the least preload where friction is greatest. In N m."""
    loosen_nm: float | None
    """Least torque that turns the lock nut back. In N m."""
    thread_load_n: float
    """Load that the least engagement is for. In N."""
    nut_least_mm: float | None
    """Thickness of the lock nut at which its thread bears preload and push. In mm."""
    nut_rule_mm: float | None
    """Thickness of the lock nut by rule: half the diameter. In mm."""
    preload_change_n_k: float | None
    """Most that the preload changes for each degree. In K."""
    external_major_min_mm: float
    """Least major diameter of the external part. In mm."""
    external_pitch_min_mm: float
    """Least pitch diameter of the external part. In mm."""
    internal_minor_max_mm: float
    """Greatest minor diameter of the internal part. In mm."""
    internal_pitch_max_mm: float
    """Greatest pitch diameter of the internal part. In mm."""
    diameter_mm: float
    """Nominal diameter. In mm."""
    pitch_mm: float
    """Axial pitch. In mm."""
    half_angle_deg: float
    """Between a flank and a plane across the axis. In deg."""
    external_cut: ThreadLimits
    """Limits to cut the external part to, before any coating."""
    internal_cut: ThreadLimits
    """Limits to cut the internal part to, before any coating."""
    wires: OverWires
    """What to read over wires on the external part."""
    hole: TappingHole
    """The drill before tapping the internal thread."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "external_cut": "halfnut.threads.standard:ThreadLimits",
        "internal_cut": "halfnut.threads.standard:ThreadLimits",
        "wires": "halfnut.threads.figures:OverWires",
        "hole": "halfnut.threads.holes:TappingHole",
    }


@made(frozen=True)
class AdjusterState(Answered):
    """An adjuster wound out by some turns."""

    unit: str
    """Unit of the adjuster."""
    turns: float
    """Turns from the shortest safe length."""
    length_mm: float
    """Length between the joints. In mm."""
    first_insertion_mm: float
    """Insertion of the first end."""
    second_insertion_mm: float | None
    """Insertion of the second end."""
    first_engagement_mm: float
    """Full form engaged at the first end."""
    second_engagement_mm: float | None
    """Full form engaged at the second end."""
    axial_play_min_mm: float
    """Least end play of both ends together, lock nuts slack. In mm."""
    axial_play_max_mm: float
    """Greatest end play of both ends together, lock nuts slack. In mm."""
    first_tilt_deg: float
    """Greatest lean at the first end, either way, lock nuts slack."""
    second_tilt_deg: float | None
    """Greatest lean at the second end."""
    tilt_max_deg: float
    """Greatest lean at either end. In deg."""
    pull_n: float
    """Pull at which the weakest element gives way, without a factor of safety. In N."""
    push_n: float
    """Push at which it does. In N."""
    elastic_load_n: float
    """Push that buckles it elastically, its ends ideal. In N."""
    column_n: float
    """Push that it bears as a column. In N."""
    pull_element: str
    """What gives way under the pull."""
    push_element: str
    """What gives way under the push."""


@made(frozen=True)
class AdjusterFigures(Answered):
    """How far an adjuster or a turnbuckle may be wound out, and what it bears there."""

    form: str
    """Adjuster, or turnbuckle with its hands."""
    middle: str
    """Middle member: tube or body."""
    unit: str
    """Unit of the first end."""
    middle_length_mm: float
    """Overall length of the middle member. In mm."""
    middle_outside_mm: float
    """Its plain outside diameter. In mm."""
    middle_bore_mm: float
    """Its bore; 0 where it is solid. In mm."""
    push_n: float
    """Largest push. In N."""
    pull_n: float
    """Largest pull. In N."""
    factor_of_safety: float
    """Factor of safety."""
    flats: float
    """Flats of the wrench."""
    groove_width_mm: float
    """Width of the witness groove. In mm."""
    first_end: str
    """How the first joint holds the column."""
    second_end: str
    """How the second joint holds it."""
    middle_tensile_mpa: float
    """Tensile strength of the middle member. In MPa."""
    middle_yield_mpa: float | None
    """Yield strength of the middle member. In MPa."""
    middle_shear_mpa: float | None
    """Shear strength of the middle member; none where no row has it. In MPa."""
    middle_youngs_modulus_gpa: float
    """Young's modulus of the middle member. In GPa."""
    middle_expansion_um_m_k: float | None
    """Expansion of the middle member for each degree. In um/(m K)."""
    travel_per_turn_mm: float
    """Change of length for a turn of the middle member. In mm."""
    travel_per_flat_mm: float
    """Change of length for a flat of the wrench. In mm."""
    turns: float
    """Turns from the shortest safe length to the longest."""
    travel_mm: float
    """From the shortest safe length to the longest. In mm."""
    shortest_mm: float
    """Shortest safe length between the joints. In mm."""
    longest_mm: float
    """Longest safe length between the joints. In mm."""
    longest_strength_mm: float
    """Longest length, were engagement by strength the only rule. In mm."""
    longest_rule_mm: float
    """Longest length, were engagement by rule the only one. In mm."""
    growth_um_k: float | None
    """Growth for each degree, half wound out. In K."""
    middle_section_n: float
    """Load that yields the plain section of the middle member. In N."""
    least_yield_load_n: float
    """Least load that yields a section along the column. In N."""
    end_factor: float
    """What real joints leave of the ideal column: (K ideal / K for design)^2."""
    factor_reached: float | None
    """Least factor over the range, of the loads that are stated."""
    first: AdjusterEnd
    """The first end."""
    second: AdjusterEnd | None
    """The second end of a turnbuckle."""
    shortest: AdjusterState
    """At the shortest safe length."""
    half: AdjusterState
    """Half wound out."""
    longest: AdjusterState
    """At the longest safe length."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "first": "halfnut.threads.figures:AdjusterEnd",
        "second": "halfnut.threads.figures:AdjusterEnd",
        "shortest": "halfnut.threads.figures:AdjusterState",
        "half": "halfnut.threads.figures:AdjusterState",
        "longest": "halfnut.threads.figures:AdjusterState",
    }
    SHORT: ClassVar[tuple[str, ...]] = (
        "travel",
        "play",
    )


@made(frozen=True)
class ThreadsNear(Answered):
    """Standard threads near a diameter."""

    unit: str
    """Unit of the question: in or mm."""
    diameter_mm: float
    """Diameter that was asked for. In mm."""
    within_mm: float
    """Largest difference. In mm."""
    threads: tuple[str, ...]
    """Standard threads, preferred ones first, taper ones last."""


@made(frozen=True)
class ThreadMatch(Part):
    """A standard thread beside a measured part."""

    thread: str
    """Standard thread, with the class it was judged by."""
    title: str
    """Its designation, with the side where that leaves it open."""
    preference: int
    """Order of choice."""
    taper: bool
    """The diameter changes along it: sizes are those of the gauge plane."""
    basic_diameter_mm: float
    """Basic size of what was measured. In mm."""
    outside_mm: float
    """How far the measured diameter is outside the limits. In mm."""
    pitch_difference_mm: float
    """Measured pitch less the standard one. In mm."""
    mismatch_mm: float
    """What that adds up to over the engagement. In mm."""
    pitch_diameter_equivalent_mm: float
    """What it takes from the clearance at the pitch diameter. In mm."""
    flank_angle_deg: float
    """Angle between the two flanks of the standard thread. In deg."""
    flank_difference_deg: float | None
    """Measured angle less the standard one. In deg."""
    flank_equivalent_mm: float
    """What that takes from the clearance at the pitch diameter. In mm."""
    like_the_first: bool
    """These measurements do not tell it from the nearest thread."""
    said: str = field(repr=False, compare=False)
    """It in one line."""


@made(frozen=True)
class Identification(Answered):
    """Standard threads nearest to a measured part."""

    verdict: str
    """Whether the part is a standard thread, near one, or none."""
    unit: str
    """Unit of the question: in or mm."""
    side: str
    """Which part was measured."""
    diameter_mm: float
    """Crest as measured. In mm."""
    pitch_mm: float
    """Pitch as measured. In mm."""
    engagement_mm: float
    """Length over which it would engage. In mm."""
    flank_angle_deg: float | None
    """Flank angle as measured. In deg."""
    thread: str | None
    """The standard thread; none where no one is close."""
    nearest: str
    """The nearest one."""
    outside_mm: float
    """How far the part is outside its limits. In mm."""
    pitch_difference_mm: float
    """Measured pitch less its pitch. In mm."""
    mismatch_mm: float
    """What that adds up to over the engagement. In mm."""
    alike: tuple[str, ...]
    """Threads that these measurements do not tell from the nearest."""
    tpi: float = field(repr=False, compare=False)
    """Turns in an inch, of the measured pitch."""
    matches: tuple[ThreadMatch, ...]
    """Nearest threads, the nearest first."""

    _made: ClassVar[Mapping[str, type | str]] = {"matches": ThreadMatch}
    SHORT: ClassVar[tuple[str, ...]] = (
        "is",
        "nearest",
        "or",
    )
