"""Chasing: a thread cut with a single point, pass by pass, on a lathe's own dial."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any, ClassVar, Literal

from halfnut import _core
from halfnut._core import (
    Evidence,
    chasing_depth_mm,
    compound_travel_mm,
    lead_angle_deg,
    root_flat_mm,
    spell,
    spell_span,
    stopping_rpm,
)
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length as read_length
from halfnut.core.units import quantity
from halfnut.core.words import caution, words
from halfnut.cutting.cuts import Cut, setting
from halfnut.cutting.formulas import specific_cutting_force_n_mm2
from halfnut.cutting.gears import GearTrain, gear_train
from halfnut.cutting.questions import thread_speed
from halfnut.machine.machines import Machine, fastest_step, lathe, positions_at
from halfnut.threads.gauging import OverWires, across_balls_exact_mm, over_wires_exact_mm, wires
from halfnut.threads.parts import ThreadPart, exact_ratio, thread_part
from halfnut.threads.standard import ThreadGiven
from halfnut.threads.taper_pipes import TaperPipe

__all__ = ["ChasePass", "Chasing", "chase", "chasing_depth_mm", "compound_travel_mm", "root_flat_mm", "stopping_rpm"]

_LINE_MM = {"in": 0.001 * MM_PER_INCH, "mm": 0.01}
_FIRST_MM = {"in": 0.010 * MM_PER_INCH, "mm": 0.25}
_LEAST_MM = {"in": 0.0015 * MM_PER_INCH, "mm": 0.04}
_MILD_STEEL = "1018"
"""What the usual first pass is for; an alloy that resists more gets a shallower one."""
_SIDE_CLEARANCE_DEG = 3.0
_RUN_OUT_PITCHES = 2.5
_GROOVE_PITCHES = {"external": 3.5, "internal": 5.2}
_GROOVE_RADIUS_PITCHES = 0.5
_DIAL_WHEELS = range(10, 49)


@dataclass(frozen=True)
class ChasePass:
    """One pass: where the dial stands, and what the thread measures after it."""

    number: int
    line: int
    """Lines of the dial from touching the blank."""
    travel_mm: float
    depth_mm: float
    """Of the tip below the blank."""
    shift_mm: float
    """Of the tool along the work, for infeed from flank to flank; + towards the headstock."""
    force_n: float | None
    pitch_diameter_mm: float
    over_wires_mm: float | None
    """None where the wires do not touch yet, and for internal threads."""
    left_mm: float
    """On the pitch diameter, to the size that is aimed at."""
    left_lines: float
    measure: bool
    turns: int
    """Whole turns of the handle from touching."""
    dial: int
    """Line of the dial beyond those turns."""


@dataclass(frozen=True, repr=False)
class Chasing(Record):
    """How to chase a thread: sizes, settings, passes, readings. Lengths in mm; None where one does not apply."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("feed", "dial", "good", "blank")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("good", "{good}"),
        ("blank", "{blank_mm}[ {where}]; tip goes {depth_mm} deep, root {root_mm}"),
        ("pitch", "aim {pitch_diameter_mm}, limits {pitch_min_mm..pitch_max_mm}; last line leaves {left_mm}"),
        ("spindle", "{spindle_text}"),
        ("feed", "{feed_text}"),
        ("stop", "at most {stopping_rpm} to stop by hand"),
        ("force", "at most {most_force_n} in a pass"),
    )
    thread: str
    side: str
    unit: str
    """The dial's."""
    infeed: str
    slide: str
    line_mm: float
    """Travel of the slide for one line of its dial."""
    compound_deg: float | None
    """From square to the work's axis."""
    compound_marked_deg: float | None
    """The same as this lathe's own scale reads it."""
    blank_mm: float
    pitch_diameter_mm: float
    pitch_max_mm: float
    pitch_min_mm: float
    half_angle_deg: float
    nose_radius_mm: float
    nose_flat_mm: float
    root_mm: float
    """Diameter at the bottom of the groove."""
    depth_mm: float
    travel_mm: float
    cross_travel_mm: float
    """What the cross slide would go straight in for the same depth: the depth."""
    remainder_mm: float
    """Of the travel, at the last line; negative: that much is left."""
    line_on_pitch_diameter_mm: float
    lead_mm: float
    starts: int
    start_shift_mm: float | None
    """How far the compound, set along the work, moves the tool from one start to the next."""
    hand: str
    lead_angle_deg: float
    leading_clearance_deg: float
    """Of the tool's side towards which it is fed."""
    trailing_clearance_deg: float
    chamfer_mm: float
    run_out_mm: float
    groove_width_mm: float
    groove_diameter_mm: float
    groove_radius_mm: float
    """Of its corners."""
    spindle_rpm: float | None
    spindle_positions: tuple[tuple[str, str], ...]
    stopping_rpm: float | None
    stop_run_out_mm: float | None
    """Run-out in which the slowest step could be stopped; None where there is room enough."""
    dial_every: int | None
    """Engage at every so-many-th mark of the thread dial; 0: keep the half nut closed; None: no dial is known."""
    dial_marks: int | None
    dial_wheels: tuple[int, ...]
    """Where no mark fits: teeth of wheels for the thread dial that would."""
    train: GearTrain | None
    """Change gears for the lead, where the lathe's file names its gears."""
    wire_mm: float | None
    """Of the wires, or of the balls of an internal thread."""
    taper: TaperPipe | None
    """Of a taper thread, whose diameters here are those in its gauge plane."""
    passes: tuple[ChasePass, ...]
    most_force_n: float | None
    """The greatest of the passes."""
    cut: Cut | None
    assumed: tuple[str, ...]
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys; passes as a list of dictionaries."""
        skip = {"evidence", "cut", "train", "taper"}
        out = {field.name: getattr(self, field.name) for field in fields(self) if field.name not in skip}
        out["passes"] = [vars(each) for each in self.passes]
        out["gears"] = None if self.train is None else self.train.gears
        out["taper_setting_deg"] = None if self.taper is None else self.taper.compound_setting_deg
        out["assumed"] = list(self.assumed)
        out["cautions"] = [item.code for item in self.cautions]
        return out

    @property
    def stop(self) -> ChasePass:
        """The pass after which the thread is measured for the first time."""
        return next(each for each in self.passes if each.measure)

    def gauge_turns(self, on_diameter_mm: float) -> float:
        """Turns by which a change of the pitch diameter moves the gauge of a taper thread."""
        if self.taper is None:
            raise _core.DomainError(f"{self.thread} does not taper: its gauge has no turns")
        return on_diameter_mm / (self.taper.taper_on_diameter * self.lead_mm)

    def steps(self) -> list[str]:
        """What to do at the lathe, in order."""
        inner = self.side == "internal"
        out = self._blank_words()
        square = "Set the tool square by a centre gauge."
        if self.taper is not None:
            square = "Set the tool square to the axis by a centre gauge, not to the taper."
        if self.compound_deg is not None:
            out.append(
                f"Set the compound to {self.compound_marked_deg:g} on its scale, {self.compound_deg:g} degrees from "
                f"square to the work. {square}"
            )
        elif self.infeed == "alternating":
            out.append(f"Set the compound along the work; it shifts the tool. {square}")
        else:
            out.append(square)
        ground = (
            f"round {self._long(self.nose_radius_mm)}"
            if self.nose_radius_mm
            else f"flat {self._long(self.nose_flat_mm)}"
        )
        if self.train is not None and not self.train.standard:
            out.append(f"Change gears {self.train.gears}: {self.train.error_words}, {self.train.mounting}.")
        out.append(
            f"Tool: nose {ground}; side clearance {self.leading_clearance_deg:.0f} degrees on the leading side, "
            f"{self.trailing_clearance_deg:.0f} on the other."
        )
        out.append(self._half_nut_words())
        if self.hand == "left":
            out.append(
                "Left-hand: groove first, leadscrew reversed; start in the groove and cut towards the tailstock. The "
                "clearances change sides."
            )
        if self._cannot_stop:
            out.append(
                "Too fast to stop here by hand: the tool upside down, the spindle reversed, cutting from the groove "
                f"away from the shoulder; or a groove {self._long(self.stop_run_out_mm or 0.0)} wide; or a crank on "
                "the spindle."
            )
        stop = self.stop
        out.append(
            f"Touch the {'bore' if inner else 'blank'}, set the dial to 0, and cut to line {stop.line} by the table. "
            f"Repeat the last pass without feeding in until nothing more comes off, and {self._try}."
        )
        taken = self._long(self.line_on_pitch_diameter_mm)
        if self.wire_mm is not None and stop.over_wires_mm is not None:
            target = stop.over_wires_mm + (stop.left_mm if inner else -stop.left_mm)
            how = f"Across balls of {self._long(self.wire_mm)}: subtract the reading from {self._long(target)}"
            if not inner:
                how = f"Over wires of {self._long(self.wire_mm)}: subtract {self._long(target)} from the reading"
            out.append(
                f"{how}; a line takes off {taken}. Go half of the lines left, repeat without feeding in, measure, "
                "go the rest. Never round up."
            )
        elif self.taper is not None:
            out.append(self._gauge_words(self.taper))
        else:
            out.append(
                f"A line takes {taken} off the pitch diameter. Go half of the lines that are left, repeat without "
                "feeding in, measure or try the gauge, go the rest. Never round up."
            )
        if self.start_shift_mm is not None:
            out.append(
                f"Next start: with the same dial readings, after moving the compound {self._long(self.start_shift_mm)} "
                f"along the work; {self.starts} starts."
            )
            if self.train is not None and self.train.index_teeth is not None:
                out.append(f"Or by the gears: {self.train.indexing}")
        return out

    def _blank_words(self) -> list[str]:
        inner = self.side == "internal"
        chamfer = f"chamfer {self._long(self.chamfer_mm)} at 45 degrees"
        if self.taper is None:
            return [f"{'Bore' if inner else 'Turn'} to {self._long(self.blank_mm)}, {chamfer}{self._groove_words()}."]
        pipe = self.taper
        shrink = pipe.taper_on_diameter * pipe.hand_engagement_mm
        setting = (
            f"Set the taper attachment to {pipe.compound_setting_deg:.4f} degrees, "
            f"{12 * pipe.taper_on_diameter:g} in per foot on the diameter"
        )
        if inner:
            return [
                f"{setting}, the large end at the mouth. Bore to {self._long(self.blank_mm)} at the mouth, "
                f"{self._long(self.blank_mm - shrink)} at a depth of {self._long(pipe.hand_engagement_mm)}, {chamfer}."
            ]
        return [
            f"{setting}, the small end at the end of the pipe. Turn to {self._long(self.blank_mm - shrink)} at the "
            f"end, {self._long(self.blank_mm)} at {self._long(pipe.hand_engagement_mm)} from it, {chamfer}; the thread "
            "runs out on the taper, without a groove."
        ]

    def _gauge_words(self, pipe: TaperPipe) -> str:
        turns = self.gauge_turns(self.line_on_pitch_diameter_mm)
        gauge = "plug" if self.side == "internal" else "ring"
        end = "the mouth" if self.side == "internal" else "the end of the pipe"
        return (
            f"Screw the taper {gauge} on by hand: right where its step is flush with {end}, within "
            f"{pipe.tolerance_turns:g} turn{'' if pipe.tolerance_turns == 1 else 's'}. A line brings it {turns:.2f} "
            "turns further. Go half of the lines that are left, repeat without feeding in, try it, go the rest. Never "
            "round up."
        )

    @property
    def answer(self) -> str:
        """Passes and lines."""
        angle = f" at {self.compound_deg:g}°, marked {self.compound_marked_deg:g}" if self.compound_deg else ""
        return (
            f"{self.thread}: {len(self.passes)} passes on the {self.slide}{angle}, {self.passes[-1].line} lines; "
            f"{self._try} at line {self.stop.line}"
        )

    @property
    def where(self) -> str | None:
        """Where the diameters of a taper thread are."""
        return None if self.taper is None else "in the gauge plane"

    @property
    def left_mm(self) -> float:
        """On the pitch diameter, after the last line."""
        return self.passes[-1].left_mm

    @property
    def first_line(self) -> str:
        """The spindle speed to set, where it is known; else the passes."""
        return self.spindle_text or self.answer

    @property
    def spindle_text(self) -> str | None:
        """The spindle speed to set, with its levers."""
        return None if self.spindle_rpm is None else f"{self.spindle_rpm:.0f} rev/min{setting(self.spindle_positions)}"

    @property
    def feed_text(self) -> str | None:
        """Levers of the gearbox, and gears to change."""
        if self.train is None:
            return None
        gears = () if self.train.standard else (f"change gears {self.train.gears}",)
        return ", ".join([*gears, *(" ".join(each) for each in self.train.positions)])

    @property
    def good(self) -> str | None:
        """Where the thread is within its limits, as its last reading tells it."""
        last = self.passes[-1]
        if last.over_wires_mm is None or self.wire_mm is None:
            return None
        over = last.over_wires_mm - last.pitch_diameter_mm
        limits = spell_span(self.pitch_min_mm + over, self.pitch_max_mm + over, "length", self.unit)
        return f"{limits} {'across balls' if self.side == 'internal' else 'over wires'} of {self._long(self.wire_mm)}"

    def report(self) -> list[tuple[str, str]]:
        """Settings, passes, steps."""
        lines = " ".join(f"{each.line}{f' ({self._try})' if each.measure else ''}" for each in self.passes)
        angle = f" at {self.compound_marked_deg:g}" if self.compound_marked_deg else ""
        out = [*super().report(), ("dial", f"{self.slide}{angle}, touch = 0, then lines {lines}")]
        if self.spindle_text:
            out.append(("passes", self.answer))
        what = "across balls" if self.side == "internal" else "over wires"
        for each in self.passes[self.stop.number - 1 :]:
            read = "" if each.over_wires_mm is None else f"{what} {self._long(each.over_wires_mm)}, "
            if self.taper is not None:
                read = f"{self.gauge_turns(each.left_mm):.1f} turns of the gauge, "
            left = f"{self._long(each.left_mm)} left on the pitch diameter, {each.left_lines:.1f} lines"
            out.append(("stage", f"line {each.line}, the dial at {_turns_words(each)}: {read}{left}"))
        out += [(f"{number}.", step) for number, step in enumerate(self.steps(), 1)]
        assumed = [("assumed", ", ".join(self.assumed))] if self.assumed else []
        return [*out, *assumed, ("load", words("said", "load"))]

    def _long(self, value_mm: float) -> str:
        return spell(value_mm, "length", self.unit)

    @property
    def _try(self) -> str:
        return "measure" if self.taper is None else "try the gauge"

    @property
    def _cannot_stop(self) -> bool:
        return self.stop_run_out_mm is not None

    def _groove_words(self) -> str:
        if self.run_out_mm <= 0:
            return ""
        return (
            f"; before a shoulder a groove {self._long(self.groove_width_mm)} wide at "
            f"{self._long(self.groove_diameter_mm)}, corners rounded {self._long(self.groove_radius_mm)}"
        )

    def _half_nut_words(self) -> str:
        if self.dial_every is None:
            return "Keep the half nut closed and reverse the spindle, unless the lathe's own chart says where it fits."
        if self.dial_every == 0:
            fits = ", ".join(str(each) for each in self.dial_wheels)
            other = f" A wheel of {fits} teeth on the dial would let it open." if fits else ""
            return (
                "No mark of the thread dial fits: keep the half nut closed, draw the tool out as the spindle stops, "
                f"and run back with the spindle reversed.{other}"
            )
        if self.dial_every == 1:
            return "Close the half nut at any mark of the thread dial."
        if self.dial_every == self.dial_marks:
            return "Close the half nut at one mark of the thread dial, always the same."
        return (
            f"Close the half nut at every {_ordinal(self.dial_every)} mark of the thread dial, counted from the first."
        )


def _turns_words(each: ChasePass) -> str:
    turns = f"{each.turns} turn{'' if each.turns == 1 else 's'} and " if each.turns else ""
    return f"{turns}{each.dial}"


def _ordinal(number: int) -> str:
    return {2: "second", 3: "third"}.get(number, f"{number}th")


@checked
def chase(
    thread: ThreadGiven,
    *,
    machine: str | Machine | None = None,
    alloy: str | None = None,
    infeed: Literal["flank", "straight", "alternating"] = "flank",
    compound_deg: float | None = None,
    blank: Any = None,
    pitch_diameter: Any = None,
    nose_radius: Any = None,
    nose_flat: Any = None,
    first: Any = None,
    least: Any = None,
    equal_depths: bool = False,
    force_limit: Any = None,
    run_out: Any = None,
    reaction_s: float | None = None,
    wire: Any = None,
    tool: str | None = None,
    **held: Any,
) -> Chasing:
    """How to cut a thread with a single point on a lathe: blank, settings, passes on the dial, readings.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        A designation (without a class the usual external one is meant), or limits, such as those before coating, or
        the sizes of a form that has no designation here.
    machine : str or Machine, optional
        The lathe; its dials, scale, leadscrew, change gears, thread dial and spindle steps are used.
    alloy : str, optional
        With a machine it gives the spindle step; it gives the force of each pass, and a shallower first pass where it
        resists more than mild steel.
    infeed : {"flank", "straight", "alternating"}
        By the compound set over; by the cross slide; by the cross slide with the compound shifting the tool.
    compound_deg : float, optional
        0 to the half angle of the thread, from square to the work; half a degree less than it when not given.
    blank : length, optional
        Turned or bored diameter; the middle of its limits when not given.
    pitch_diameter : length, optional
        To aim at; the middle of its limits when not given.
    nose_radius, nose_flat : length, optional
        Of the tool, one of the two. At 60 degrees a round nose of P/8 outside and a flat one of P/8 inside when not
        given; of other forms the root's own radius, or the flat that leaves the root's diameter.
    first, least : length, optional
        Greatest first and least later pass along the slide; 0.010 and 0.0015 in, or 0.25 and 0.04 mm, the first less
        in a tough alloy.
    equal_depths : bool
        Passes of one depth; otherwise of one chip area.
    force_limit : str or Quantity, optional
        That no pass may go above; needs an alloy.
    run_out : length, optional
        Free way between the end of the thread and a shoulder; 0 for none. 2.5 pitches when not given.
    reaction_s : float, optional
        Time for opening the half nut: 0.5 brisk, 1 safe. The machine file's when not given, else 1.
    wire : length, optional
        The wires, or for an internal thread the balls, at hand.
    tool : str, optional
        Its material, for the speed.
    **held
        How the work is held, as `thread_speed` takes it: length, chuck, stock, bar_length, bar_behind, stick_out.

    Returns
    -------
    Chasing
        Immutable; prints itself, passes in its first line, the steps below.

    Raises
    ------
    DomainError
        Sizes that do not go together, a force limit that cannot be kept.
    UnitError
        A bare number as a length.

    >>> found = chase("M24x1.5-6g")
    >>> found.passes[-1].line, found.stop.line
    (106, 90)
    """
    part = thread_part(thread)
    inner = part.side == "internal"
    assumed: list[str] = []
    shop = lathe(machine) if isinstance(machine, str) else machine
    reaction_s = (1.0 if shop is None else shop.core.half_nut_s) if reaction_s is None else reaction_s
    slide_name = "compound" if infeed == "flank" else "cross"
    slide = None if shop is None else shop.core.slide(slide_name)
    if slide is None:
        unit = part.unit
        line_mm = _LINE_MM[unit]
        lines_round = round((MM_PER_INCH / 10 if unit == "in" else 1.0) / line_mm)
        assumed.append(f"a dial of {spell(line_mm, 'length', unit)} a line, {lines_round} lines around")
    else:
        unit = "in" if slide.marked_in_inch else "mm"
        line_mm = slide.graduation_mm / (2 if slide.reads_diameter else 1)
        lines_round = slide.lines_a_turn
    crest = ("minor_max", "minor_min") if inner else ("major_max", "major_min")
    blank_mm = _given(blank, "blank", (part.size(crest[0]) + part.size(crest[1])) / 2 if blank is None else 0.0)
    high, low = part.size("pitch_max"), part.size("pitch_min")
    aim = _given(pitch_diameter, "pitch_diameter", (high + low) / 2)
    radius, flat = _nose(nose_radius, nose_flat, part, aim, assumed, unit)
    set_over = part.half_angle_deg - 0.5 if compound_deg is None else compound_deg
    numbers = {
        "blank_mm": blank_mm,
        "pitch_diameter_mm": aim,
        "pitch_mm": part.pitch_mm,
        "half_angle_deg": part.half_angle_deg,
        "nose_radius_mm": radius,
        "nose_flat_mm": flat,
        "compound_deg": set_over,
        "graduation_mm": line_mm,
        "first_mm": _given(first, "first", _FIRST_MM[unit]),
        "least_mm": _given(least, "least", _LEAST_MM[unit]),
    }
    if force_limit is not None:
        numbers["force_limit_n"] = quantity(force_limit, "force", "force_limit").base
    gap = _given(run_out, "run_out", _RUN_OUT_PITCHES * part.pitch_mm)
    stopping = stopping_rpm(gap, part.lead_mm, reaction_s) if gap > 0 else None
    cut, speed, codes = _spindle(shop, alloy, part, tool, stopping, held)
    needed = None
    if shop is not None and "chase_cannot_stop" in codes:
        needed = _slowest(shop) * part.lead_mm * reaction_s / 60.0
    eased = False
    if alloy is not None:
        numbers |= _core.alloy_force_constants(alloy, active())
        share = _resistance(_MILD_STEEL) / _resistance(alloy)
        if first is None and force_limit is None and share < 1:
            eased = True
            numbers["first_mm"] = max(numbers["first_mm"] * share, numbers["least_mm"], line_mm)
    plan = _core.chase_schedule(inner, infeed, equal_depths, numbers) | {"blank_mm": blank_mm}

    root = blank_mm + (2 if inner else -2) * plan["depth_mm"]
    codes += _root_cautions(part, root)
    if part.taper is not None:
        turns = part.taper.tolerance_turns
        assumed.append(f"limits that are {turns:g} turn{'' if turns == 1 else 's'} of the gauge either way")
        codes += [item.code for item in part.taper.cautions]
    reading = _readings(part, wire)
    passes = _passes(plan, part, aim, reading, lines_round)
    last = passes[-1]
    if not low <= last.pitch_diameter_mm <= high:
        codes.append("chase_line_too_coarse")
    lead_deg = lead_angle_deg(part.lead_mm, blank_mm if inner else root)
    every, marks, wheels = _dial(shop, part)
    train = _train(shop, thread)
    if train is not None and train.good_enough is False:
        codes.append("gears_lead_too_far_off")
    zero = "" if shop is None else shop.core.compound_zero
    marked = 90.0 - set_over if zero == "along the spindle axis" else set_over
    if infeed == "flank" and (shop is None or zero == "none"):
        assumed.append("a scale that reads 0 with the compound square to the work")
    if run_out is None:
        assumed.append(f"a run-out of {spell(gap, 'length', unit)}")
    clear = (2 if inner else -2) * (plan["depth_mm"] + 2 * line_mm)
    return Chasing(
        thread=part.title,
        side=part.side,
        unit=unit,
        infeed=infeed,
        slide="compound" if infeed == "flank" else "cross slide",
        line_mm=line_mm,
        compound_deg=set_over if infeed == "flank" else None,
        compound_marked_deg=marked if infeed == "flank" else None,
        blank_mm=blank_mm,
        pitch_diameter_mm=aim,
        pitch_max_mm=high,
        pitch_min_mm=low,
        half_angle_deg=part.half_angle_deg,
        nose_radius_mm=radius,
        nose_flat_mm=flat,
        root_mm=root,
        depth_mm=plan["depth_mm"],
        travel_mm=plan["travel_mm"],
        cross_travel_mm=plan["depth_mm"],
        remainder_mm=plan["remainder_mm"],
        line_on_pitch_diameter_mm=plan["line_on_pitch_diameter_mm"],
        lead_mm=part.lead_mm,
        starts=part.starts,
        start_shift_mm=part.pitch_mm if part.starts > 1 else None,
        hand=part.hand,
        lead_angle_deg=lead_deg,
        leading_clearance_deg=math.ceil(lead_deg + _SIDE_CLEARANCE_DEG),
        trailing_clearance_deg=max(1.0, math.floor(_SIDE_CLEARANCE_DEG - lead_deg)),
        chamfer_mm=plan["depth_mm"],
        run_out_mm=gap,
        groove_width_mm=_GROOVE_PITCHES[part.side] * part.pitch_mm,
        groove_diameter_mm=blank_mm + clear,
        groove_radius_mm=_GROOVE_RADIUS_PITCHES * part.pitch_mm,
        spindle_rpm=speed,
        spindle_positions=() if shop is None or speed is None else positions_at(shop, speed),
        stopping_rpm=stopping,
        stop_run_out_mm=needed,
        dial_every=every,
        dial_marks=marks,
        dial_wheels=wheels,
        train=train,
        wire_mm=None if reading is None else reading.wire_mm,
        taper=part.taper,
        passes=passes,
        most_force_n=None if alloy is None else max(each.force_n or 0.0 for each in passes),
        cut=cut,
        assumed=tuple(assumed),
        cautions=(*(caution(code) for code in codes), *(() if cut is None else cut.cautions)),
        evidence=(
            *_core.rule_evidence([*_RULES, *([("passes", "chase_alloy")] if eased else [])], active()),
            *part.evidence,
            *(() if train is None else train.evidence),
            *(() if cut is None else cut.evidence),
        ),
    )


_RULES = [
    ("depth_mm", "chase_depth"),
    ("passes", "chase_area"),
    ("passes", "chase_first"),
    ("passes", "chase_measure"),
    ("pitch_diameter_mm", "chase_aim"),
    ("compound_deg", "chase_compound"),
    ("nose_radius_mm", "chase_nose"),
    ("run_out_mm", "chase_run_out"),
    ("stopping_rpm", "chase_stop"),
    ("dial_every", "chase_dial"),
]


def _resistance(alloy: str) -> float:
    """Specific cutting force at a chip of 0.1 mm, N/mm2."""
    constants = _core.alloy_force_constants(alloy, active())
    return specific_cutting_force_n_mm2(constants["kc11_n_mm2"], constants["mc"], 0.1)


def _given(value: Any, name: str, otherwise: float) -> float:
    return otherwise if value is None else read_length(value, name).mm


def _nose(
    nose_radius: Any, nose_flat: Any, part: ThreadPart, aim_mm: float, assumed: list[str], unit: str
) -> tuple[float, float]:
    if nose_radius is not None or nose_flat is not None:
        return _given(nose_radius, "nose_radius", 0.0), _given(nose_flat, "nose_flat", 0.0)
    inner = part.side == "internal"
    if part.root_radius_mm > 0:
        assumed.append(f"a round nose of {spell(part.root_radius_mm, 'length', unit)}, the root's own")
        return part.root_radius_mm, 0.0
    if part.half_angle_deg != 30.0 or part.taper is not None:
        root = part.major_min_mm if inner else part.minor_max_mm
        if part.taper is not None:
            root = aim_mm + (part.taper.thread_height_mm if inner else -part.taper.thread_height_mm)
        if root is None:
            raise _core.DomainError(f"{part.title}: give nose_radius or nose_flat, or the diameter of its root")
        flat = root_flat_mm(part.pitch_mm, aim_mm, root, part.half_angle_deg)
        assumed.append(
            f"a flat nose of {spell(flat, 'length', unit)}, which leaves the root at {spell(root, 'length', unit)}"
        )
        return 0.0, flat
    shape = "flat" if inner else "round"
    assumed.append(f"a {shape} nose of {spell(part.pitch_mm / 8, 'length', unit)}")
    return (0.0, part.pitch_mm / 8) if inner else (part.pitch_mm / 8, 0.0)


def _spindle(
    shop: Machine | None,
    alloy: str | None,
    part: ThreadPart,
    tool: str | None,
    stopping: float | None,
    held: Mapping[str, Any],
) -> tuple[Cut | None, float | None, list[str]]:
    """The cut at the speed of the window, the step that can also be stopped in time, and codes of cautions.

    Without an alloy no step is named: how fast it may be cut is not known.
    """
    if shop is None:
        return None, None, []
    # a left-hand thread starts in the groove and runs out at the free end
    codes = ["chase_cannot_stop"] if stopping is not None and part.hand == "right" and _slowest(shop) > stopping else []
    if alloy is None:
        return None, None, codes
    cut = thread_speed(alloy, f"{part.diameter_mm!r} mm", f"{part.lead_mm!r} mm", machine=shop, tool=tool, **held)
    return cut, cut.spindle_rpm if stopping is None else min(cut.spindle_rpm, fastest_step(shop, stopping)), codes


def _slowest(shop: Machine) -> float:
    step = shop.core.spindle[0]
    return step.rpm_low if step.variable else step.rpm


def _root_cautions(part: ThreadPart, root_mm: float) -> list[str]:
    """The bottom of the groove must clear the crest of the mate, and leave the root that the standard asks for."""
    if part.side == "internal":
        major = part.major_min_mm
        return ["chase_root_binds"] if major is not None and root_mm < major - _ROUNDING_MM else []
    high, low = part.minor_max_mm, part.minor_min_mm
    if high is not None and root_mm > high + _ROUNDING_MM:
        return ["chase_root_binds"]
    if part.unit == "mm" and low is not None and root_mm < low - _ROUNDING_MM:
        return ["chase_root_deep"]
    return []


_ROUNDING_MM = 1e-6


def _readings(part: ThreadPart, wire: Any) -> OverWires | None:
    """Wires over an external thread, balls in an internal one; None where none measure it and none were asked for."""
    if part.given is None:
        if wire is not None:
            raise _core.DomainError(f"wire={wire!r}: {part.title} tapers; it is tried with its gauge, not over wires")
        return None
    try:
        return wires(part.given, wire=wire)
    except _core.DomainError:
        if wire is not None:
            raise
        return None


def _passes(
    plan: dict[str, Any], part: ThreadPart, aim: float, reading: OverWires | None, lines_round: int
) -> tuple[ChasePass, ...]:
    per_line = plan["line_on_pitch_diameter_mm"]
    size = across_balls_exact_mm if part.side == "internal" else over_wires_exact_mm
    out = []
    for number, each in enumerate(plan["passes"], 1):
        now = each["pitch_diameter_mm"]
        over = None
        if reading is not None:
            sizes = (plan["blank_mm"], part.pitch_mm, part.lead_mm, part.half_angle_deg, reading.wire_mm)
            value, status = size(now, *sizes, on_error="status")
            over = float(value) if not status.any() else None
        left = abs(now - aim)
        turns, dial = divmod(each["line"], lines_round)
        out.append(
            ChasePass(
                number=number,
                line=each["line"],
                travel_mm=each["travel_mm"],
                depth_mm=each["depth_mm"],
                shift_mm=each["shift_mm"],
                force_n=each["force_n"],
                pitch_diameter_mm=now,
                over_wires_mm=over,
                left_mm=left,
                left_lines=left / per_line,
                measure=each["measure"],
                turns=turns,
                dial=dial,
            )
        )
    return tuple(out)


def _train(shop: Machine | None, thread: ThreadGiven) -> GearTrain | None:
    """The best train of the lathe's own gears; None where its file names none, or nothing comes near."""
    if shop is None or not shop.core.threading.gears or math.isnan(shop.core.threading.lead_mm):
        return None
    found = gear_train(thread, shop, most=1)
    return found[0] if found else None


def _dial(shop: Machine | None, part: ThreadPart) -> tuple[int | None, int | None, tuple[int, ...]]:
    """How often a mark fits, how many there are, and wheels that would do where none does."""
    if shop is None:
        return None, None, ()
    threading = shop.core.threading
    if not threading.dial_marks or math.isnan(threading.dial_threads_per_turn) or math.isnan(threading.lead_mm):
        return None, None, ()
    screw = exact_ratio(threading.lead_mm, "leadscrew")

    def every(wheel: int) -> int:
        found = _core.thread_dial(part.lead.as_integer_ratio(), screw.as_integer_ratio(), wheel, threading.dial_marks)
        return int(found["every"])

    fits = every(round(threading.dial_threads_per_turn))
    wheels = () if fits else tuple(wheel for wheel in _DIAL_WHEELS if every(wheel))[:4]
    return fits, threading.dial_marks, wheels
