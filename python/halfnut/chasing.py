"""Chasing: a thread cut with a single point, pass by pass, on a lathe's own dial."""

from __future__ import annotations

import math
import textwrap
from dataclasses import dataclass, fields
from fractions import Fraction
from typing import Any, Literal

from halfnut import _core
from halfnut._core import Evidence, chasing_depth_mm, compound_travel_mm, stopping_rpm
from halfnut.catalogue import active
from halfnut.coatings import PrecoatLimits, one_part
from halfnut.cutting import Cut, thread_speed
from halfnut.gauging import OverWires, over_wires_exact_mm, wires
from halfnut.machines import Machine, lathe
from halfnut.record import Caution, Record
from halfnut.sizes import MM_PER_INCH, one, span
from halfnut.threads import ThreadLimits, limits
from halfnut.units import length as read_length
from halfnut.units import quantity
from halfnut.words import FIRST, LOAD, caution

__all__ = [
    "ChasePass",
    "Chasing",
    "chase",
    "chasing_depth_mm",
    "compound_travel_mm",
    "stopping_rpm",
]

_LINE_MM = {"in": 0.001 * MM_PER_INCH, "mm": 0.01}
_FIRST_MM = {"in": 0.010 * MM_PER_INCH, "mm": 0.25}
_LEAST_MM = {"in": 0.0015 * MM_PER_INCH, "mm": 0.04}
_SIDE_CLEARANCE_DEG = 3.0
_RUN_OUT_PITCHES, _GROOVE_PITCHES = 2.5, 3.5
_WIDTH = 88


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


@dataclass(frozen=True, repr=False, eq=False)
class Chasing(Record):
    """How to chase a thread: sizes, settings, passes, readings. Lengths in mm; None where one does not apply."""

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
    nose_radius_mm: float
    nose_flat_mm: float
    root_mm: float
    """Diameter at the bottom of the groove."""
    depth_mm: float
    travel_mm: float
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
    trailing_clearance_deg: float
    chamfer_mm: float
    run_out_mm: float
    groove_width_mm: float
    groove_diameter_mm: float
    spindle_rpm: float | None
    stopping_rpm: float | None
    dial_every: int | None
    """Engage at every so-many-th mark of the thread dial; 0: keep the half nut closed; None: no dial is known."""
    dial_marks: int | None
    wire_mm: float | None
    passes: tuple[ChasePass, ...]
    cut: Cut | None
    assumed: tuple[str, ...]
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys; passes as a list of dictionaries."""
        skip = {"evidence", "cut"}
        out = {field.name: getattr(self, field.name) for field in fields(self) if field.name not in skip}
        out["passes"] = [vars(each) for each in self.passes]
        out["assumed"] = list(self.assumed)
        out["cautions"] = [item.code for item in self.cautions]
        return out

    def __repr__(self) -> str:
        return f"<Chasing {self.lines()[0]}>"

    @property
    def stop(self) -> ChasePass:
        """The pass after which the thread is measured for the first time."""
        return next(each for each in self.passes if each.measure)

    def steps(self) -> list[str]:
        """What to do at the lathe, in order."""
        inner = self.side == "internal"
        out = [
            f"{'Bore' if inner else 'Turn'} to {self._long(self.blank_mm)}, chamfer {self._long(self.chamfer_mm)} "
            f"at 45 degrees{self._groove_words()}."
        ]
        if self.compound_deg is not None:
            out.append(
                f"Set the compound to {self.compound_marked_deg:g} on its scale, {self.compound_deg:g} degrees from "
                "square to the work. Set the tool square by a centre gauge."
            )
        elif self.infeed == "alternating":
            out.append("Set the compound along the work; it shifts the tool. Set the tool square by a centre gauge.")
        else:
            out.append("Set the tool square by a centre gauge.")
        ground = (
            f"round {self._long(self.nose_radius_mm)}"
            if self.nose_radius_mm
            else f"flat {self._long(self.nose_flat_mm)}"
        )
        out.append(
            f"Tool: nose {ground}; side clearance {self.leading_clearance_deg:.0f} degrees on the leading side, "
            f"{self.trailing_clearance_deg:.0f} on the other."
        )
        out.append(self._half_nut_words())
        if self.hand == "left":
            out.append(
                "Left-hand: start in the groove at the shoulder and cut towards the tailstock, the leadscrew reversed."
            )
        stop = self.stop
        out.append(
            f"Touch the {'bore' if inner else 'blank'}, set the dial to 0, and cut to line {stop.line} by the table. "
            "Repeat the last pass without feeding in until nothing more comes off, and measure."
        )
        taken = self._long(self.line_on_pitch_diameter_mm)
        if self.wire_mm is not None and stop.over_wires_mm is not None:
            target = stop.over_wires_mm - stop.left_mm
            out.append(
                f"Over wires of {self._long(self.wire_mm)}: subtract {self._long(target)} from the reading; a line "
                f"takes off {taken}. Go half of the lines that are left, repeat without feeding in, measure again, go "
                "the rest. Never round up."
            )
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
        return out

    def lines(self) -> list[str]:
        """Passes and lines in the first line, then settings, passes, steps, what it rests on, cautions."""
        stop, last = self.stop, self.passes[-1]
        angle = f" at {self.compound_deg:g} deg, marked {self.compound_marked_deg:g}" if self.compound_deg else ""
        out = [
            f"{self.thread}: {len(self.passes)} passes on the {self.slide}{angle}, {last.line} lines; "
            f"measure at line {stop.line}"
        ]

        def row(label: str, text: str) -> None:
            out.extend(textwrap.wrap(text, _WIDTH, initial_indent=f"  {label:<9} ", subsequent_indent=" " * 12))

        row(
            "blank",
            f"{self._long(self.blank_mm)}; tip goes {self._long(self.depth_mm)} deep, root {self._long(self.root_mm)}",
        )
        within = span(self.pitch_min_mm, self.pitch_max_mm, self.unit)
        aim, left = self._long(self.pitch_diameter_mm), self._long(last.left_mm)
        row("pitch", f"aim {aim}, limits {within}; last line leaves {left}")
        speeds = [] if self.spindle_rpm is None else [f"{self.spindle_rpm:.0f} rev/min"]
        if self.stopping_rpm is not None:
            speeds.append(f"at most {self.stopping_rpm:.0f} rev/min to stop by hand")
        if speeds:
            row("spindle", ", ".join(speeds))
        row("lines", " ".join(f"{each.line}{' (measure)' if each.measure else ''}" for each in self.passes))
        for number, step in enumerate(self.steps(), 1):
            row(f"{number}.", step)
        if self.assumed:
            row("assumed", ", ".join(self.assumed))
        kinds = sorted({item.kind for item in self.evidence})
        row("rests on", ", ".join(kinds))
        out.extend(f"caution: {item}" for item in self.cautions)
        return [*out, f"  {FIRST}", f"  {LOAD}"]

    def _long(self, value_mm: float) -> str:
        return one(value_mm, self.unit)

    def _groove_words(self) -> str:
        if self.run_out_mm <= 0:
            return ""
        return (
            f"; before a shoulder a groove {self._long(self.groove_width_mm)} wide at "
            f"{self._long(self.groove_diameter_mm)}"
        )

    def _half_nut_words(self) -> str:
        if self.dial_every is None:
            return "Keep the half nut closed and reverse the spindle, unless the lathe's own chart says where it fits."
        if self.dial_every == 0:
            return "No mark of the thread dial fits: keep the half nut closed and reverse the spindle."
        if self.dial_every == 1:
            return "Close the half nut at any mark of the thread dial."
        if self.dial_every == self.dial_marks:
            return "Close the half nut at one mark of the thread dial, always the same."
        return (
            f"Close the half nut at every {_ordinal(self.dial_every)} mark of the thread dial, counted from the first."
        )


def _ordinal(number: int) -> str:
    return {2: "second", 3: "third"}.get(number, f"{number}th")


def chase(
    thread: str | ThreadLimits | PrecoatLimits,
    *,
    machine: str | Machine | None = None,
    alloy: str | None = None,
    infeed: Literal["flank", "straight", "alternating"] = "flank",
    compound_deg: float = 29.5,
    blank: Any = None,
    pitch_diameter: Any = None,
    nose_radius: Any = None,
    nose_flat: Any = None,
    first: Any = None,
    least: Any = None,
    equal_depths: bool = False,
    force_limit: Any = None,
    run_out: Any = None,
    reaction_s: float = 1.0,
    wire: Any = None,
    tool: str | None = None,
) -> Chasing:
    """How to cut a thread with a single point on a lathe: blank, settings, passes on the dial, readings.

    Parameters
    ----------
    thread : str, ThreadLimits or PrecoatLimits
        A designation (without a class the usual external one is meant), or limits, such as those before coating.
    machine : str or Machine, optional
        The lathe; its dials, scale, leadscrew, thread dial and spindle steps are used.
    alloy : str, optional
        With a machine it gives the spindle step; it gives the force of each pass.
    infeed : {"flank", "straight", "alternating"}
        By the compound set over; by the cross slide; by the cross slide with the compound shifting the tool.
    compound_deg : float
        0 to the half angle of the thread, from square to the work.
    blank : length, optional
        Turned or bored diameter; the middle of its limits when not given.
    pitch_diameter : length, optional
        To aim at; the middle of its limits when not given.
    nose_radius, nose_flat : length, optional
        Of the tool, one of the two; a round nose of P/8 outside and a flat one of P/8 inside when not given.
    first, least : length, optional
        Greatest first and least later pass along the slide; 0.010 and 0.0015 in, or 0.25 and 0.04 mm.
    equal_depths : bool
        Passes of one depth; otherwise of one chip area.
    force_limit : str or Quantity, optional
        That no pass may go above; needs an alloy.
    run_out : length, optional
        Free way between the end of the thread and a shoulder; 0 for none. 2.5 pitches when not given.
    reaction_s : float
        Time for opening the half nut: 0.5 brisk, 1 safe.
    wire : length, optional
        The wires at hand.
    tool : str, optional
        Its material, for the speed.

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
    part = thread if isinstance(thread, ThreadLimits | PrecoatLimits) else limits(one_part(thread))
    named, inner = part.thread, part.side == "internal"
    scale = MM_PER_INCH if part.unit == "in" else 1.0
    assumed: list[str] = []

    def mm(name: str) -> float:
        value = getattr(part, name)
        if value is None:
            raise _core.DomainError(f"{named}: {name.replace('_', ' ')} has no limit; give the size to cut")
        return float(value) * scale

    shop = lathe(machine) if isinstance(machine, str) else machine
    slide_name = "compound" if infeed == "flank" else "cross"
    slide = None if shop is None else shop.core.slide(slide_name)
    if slide is None:
        unit = str(part.unit)
        line_mm = _LINE_MM[unit]
        assumed.append(f"a dial of {one(line_mm, unit)} a line")
    else:
        unit = "in" if slide.marked_in_inch else "mm"
        line_mm = slide.graduation_mm / (2 if slide.reads_diameter else 1)
    crest = ("minor_max", "minor_min") if inner else ("major_max", "major_min")
    blank_mm = _given(blank, "blank", (mm(crest[0]) + mm(crest[1])) / 2 if blank is None else 0.0)
    high, low = mm("pitch_max"), mm("pitch_min")
    aim = _given(pitch_diameter, "pitch_diameter", (high + low) / 2)
    radius, flat = _nose(nose_radius, nose_flat, named.pitch_mm, inner, assumed, unit)
    numbers = {
        "blank_mm": blank_mm,
        "pitch_diameter_mm": aim,
        "pitch_mm": named.pitch_mm,
        "nose_radius_mm": radius,
        "nose_flat_mm": flat,
        "compound_deg": compound_deg,
        "graduation_mm": line_mm,
        "first_mm": _given(first, "first", _FIRST_MM[unit]),
        "least_mm": _given(least, "least", _LEAST_MM[unit]),
    }
    if force_limit is not None:
        numbers["force_limit_n"] = quantity(force_limit, "force", "force_limit").base
    gap = _given(run_out, "run_out", _RUN_OUT_PITCHES * named.pitch_mm)
    stopping = stopping_rpm(gap, named.lead_mm, reaction_s) if gap > 0 else None
    cut, speed, codes = _spindle(shop, alloy, named, tool, stopping)
    if alloy is not None:
        numbers |= _core.alloy_force_constants(alloy, active())
    plan = _core.chase_schedule(inner, infeed, equal_depths, numbers) | {"blank_mm": blank_mm}

    root = blank_mm + (2 if inner else -2) * plan["depth_mm"]
    codes += _root_cautions(part, root, scale, inner)
    reading = None if inner else wires(part, wire=wire)
    passes = _passes(plan, part, aim, reading)
    last = passes[-1]
    if not low <= last.pitch_diameter_mm <= high:
        codes.append("chase_line_too_coarse")
    lead_deg = math.degrees(math.atan(named.lead_mm / (math.pi * (blank_mm if inner else root))))
    every, marks = _dial(shop, named)
    zero = "" if shop is None else shop.core.compound_zero
    marked = 90.0 - compound_deg if zero == "along the spindle axis" else compound_deg
    if infeed == "flank" and (shop is None or zero == "none"):
        assumed.append("a scale that reads 0 with the compound square to the work")
    if run_out is None:
        assumed.append(f"a run-out of {one(gap, unit)}")
    clear = (2 if inner else -2) * (plan["depth_mm"] + 2 * line_mm)
    return Chasing(
        thread=str(named),
        side=part.side,
        unit=unit,
        infeed=infeed,
        slide="compound" if infeed == "flank" else "cross slide",
        line_mm=line_mm,
        compound_deg=compound_deg if infeed == "flank" else None,
        compound_marked_deg=marked if infeed == "flank" else None,
        blank_mm=blank_mm,
        pitch_diameter_mm=aim,
        pitch_max_mm=high,
        pitch_min_mm=low,
        nose_radius_mm=radius,
        nose_flat_mm=flat,
        root_mm=root,
        depth_mm=plan["depth_mm"],
        travel_mm=plan["travel_mm"],
        remainder_mm=plan["remainder_mm"],
        line_on_pitch_diameter_mm=plan["line_on_pitch_diameter_mm"],
        lead_mm=named.lead_mm,
        starts=named.starts,
        start_shift_mm=named.pitch_mm if named.starts > 1 else None,
        hand=named.hand,
        lead_angle_deg=lead_deg,
        leading_clearance_deg=math.ceil(lead_deg + _SIDE_CLEARANCE_DEG),
        trailing_clearance_deg=max(1.0, math.floor(_SIDE_CLEARANCE_DEG - lead_deg)),
        chamfer_mm=plan["depth_mm"],
        run_out_mm=gap,
        groove_width_mm=_GROOVE_PITCHES * named.pitch_mm,
        groove_diameter_mm=blank_mm + clear,
        spindle_rpm=speed,
        stopping_rpm=stopping,
        dial_every=every,
        dial_marks=marks,
        wire_mm=None if reading is None else reading.wire_mm,
        passes=passes,
        cut=cut,
        assumed=tuple(assumed),
        cautions=(*(caution(code) for code in codes), *(() if cut is None else cut.cautions)),
        evidence=(*_core.rule_evidence(_RULES, active()), *part.evidence, *(() if cut is None else cut.evidence)),
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


def _given(value: Any, name: str, otherwise: float) -> float:
    return otherwise if value is None else read_length(value, name).mm


def _nose(
    nose_radius: Any, nose_flat: Any, pitch_mm: float, inner: bool, assumed: list[str], unit: str
) -> tuple[float, float]:
    if nose_radius is not None or nose_flat is not None:
        return _given(nose_radius, "nose_radius", 0.0), _given(nose_flat, "nose_flat", 0.0)
    if inner:
        assumed.append(f"a flat nose of {one(pitch_mm / 8, unit)}")
        return 0.0, pitch_mm / 8
    assumed.append(f"a round nose of {one(pitch_mm / 8, unit)}")
    return pitch_mm / 8, 0.0


def _spindle(
    shop: Machine | None, alloy: str | None, named: _core.Thread, tool: str | None, stopping: float | None
) -> tuple[Cut | None, float | None, list[str]]:
    """The cut at the speed of the window, the step that can also be stopped in time, and codes of cautions.

    Without an alloy no step is named: how fast it may be cut is not known.
    """
    if shop is None:
        return None, None, []
    reached = math.inf if stopping is None else _fastest(shop, stopping)
    codes = ["chase_cannot_stop"] if reached is None else []
    if alloy is None:
        return None, None, codes
    cut = thread_speed(alloy, f"{named.diameter_mm!r} mm", f"{named.lead_mm!r} mm", machine=shop, tool=tool)
    slow = shop.core.spindle[0]
    slowest = slow.rpm_low if slow.variable else slow.rpm
    return cut, min(cut.spindle_rpm, slowest if reached is None else reached), codes


def _fastest(shop: Machine, rpm: float) -> float | None:
    """The fastest speed that is not above another; None where the machine has none."""
    steps = shop.core.spindle
    return max(
        (min(rpm, step.rpm) for step in steps if (step.rpm_low if step.variable else step.rpm) <= rpm), default=None
    )


def _root_cautions(part: ThreadLimits | PrecoatLimits, root_mm: float, scale: float, inner: bool) -> list[str]:
    """The bottom of the groove must clear the crest of the mate, and leave the root that the standard asks for."""
    if inner:
        return ["chase_root_binds"] if part.major_min is not None and root_mm < part.major_min * scale else []
    if part.minor_max is not None and root_mm > part.minor_max * scale:
        return ["chase_root_binds"]
    if part.unit == "mm" and part.minor_min is not None and root_mm < part.minor_min * scale:
        return ["chase_root_deep"]
    return []


def _passes(
    plan: dict[str, Any], part: ThreadLimits | PrecoatLimits, aim: float, reading: OverWires | None
) -> tuple[ChasePass, ...]:
    per_line = plan["line_on_pitch_diameter_mm"]
    named = part.thread
    out = []
    for number, each in enumerate(plan["passes"], 1):
        now = each["pitch_diameter_mm"]
        over = None
        if reading is not None:
            sizes = (plan["blank_mm"], named.pitch_mm, named.lead_mm, 30.0, reading.wire_mm)
            value, status = over_wires_exact_mm(now, *sizes, on_error="status")
            over = float(value) if not status.any() else None
        left = abs(now - aim)
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
            )
        )
    return tuple(out)


def _dial(shop: Machine | None, named: _core.Thread) -> tuple[int | None, int | None]:
    if shop is None:
        return None, None
    threading = shop.core.threading
    if not threading.dial_marks or math.isnan(threading.dial_threads_per_turn) or math.isnan(threading.lead_mm):
        return None, None
    if threading.metric:
        screw = Fraction(round(threading.lead_mm * 1_000_000), 1_000_000)
    else:
        screw = Fraction(127, 5) / Fraction(threading.threads_per_inch).limit_denominator(1000)
    found = _core.thread_dial(
        _core.thread_lead_fraction(named),
        (screw.numerator, screw.denominator),
        round(threading.dial_threads_per_turn),
        threading.dial_marks,
    )
    return found["every"], found["marks"]
