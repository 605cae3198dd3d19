"""Holes for screws: before tapping, blind, clearance, counterbored and countersunk.

Per cent of thread has one basis for metric and Unified threads, that of tap-drill tables: 100 is a double depth of
1.299 P. The basic height of the internal thread is 83.3 of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Literal, Protocol, runtime_checkable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    DomainError,
    DrillSet,
    Evidence,
    FormThread,
    Thread,
    blind_drill_depth_mm,
    countersink_depth_mm,
    countersink_diameter_mm,
    forming_hole_mm,
    forming_percent,
    full_thread_mm,
    hole_for_strip_ratio_mm,
    point_length_mm,
    strip_ratio,
    tapping_hole_mm,
    thread_percent,
)
from halfnut.core.arguments import checked
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one, span
from halfnut.core.units import length, quantity
from halfnut.core.words import LOAD, caution, caution_lines
from halfnut.threads.standard import ThreadLimits
from halfnut.threads.standard import thread as read_thread

__all__ = [
    "BlindHole",
    "ClearanceHole",
    "ScrewSeat",
    "TappingHole",
    "blind_drill_depth_mm",
    "clearance_hole",
    "counterbore",
    "countersink",
    "countersink_depth_mm",
    "countersink_diameter_mm",
    "drill_set",
    "forming_hole_mm",
    "forming_percent",
    "full_thread_mm",
    "hole_for_strip_ratio_mm",
    "point_length_mm",
    "strip_ratio",
    "tapping_hole_columns",
    "tapping_hole_mm",
    "thread_percent",
]

Tap = Literal["cut", "form"]


def drill_set(drills: Any, unit: str) -> DrillSet:
    """Drills to choose from.

    Parameters
    ----------
    drills : None, str, or sequence of lengths
        A set by name, or several joined by "+": ``"metric"``, ``"fractional"``, ``"number"``, ``"letter"``, ``"inch"``
        (the last three), ``"shop"`` or whatever the shop's own tables call theirs; or the drills themselves, such as
        ``["#7", "13/64 in", "5.1 mm"]``. None: the shop's own set where there is one, else that of `unit`.
    unit : {"mm", "in"}
        Of the thread.

    >>> drill_set("letter", "in").names[:2]
    ['letter A', 'letter B']
    """
    catalogue = active()
    if drills is None:
        drills = _core.usual_drill_set(unit == "in", catalogue)
    if isinstance(drills, str):
        return _core.drill_set(drills, catalogue)
    if isinstance(drills, Sequence):
        return DrillSet([(str(drill), length(drill, "drills").mm) for drill in drills])
    raise DomainError(f"drills must be a set's name or a list of drills, got {drills!r}")


def beside_limits(hole_mm: float, low_mm: float, high_mm: float, unit: str) -> str:
    """By how much a hole misses its limits; empty where it keeps them.

    >>> beside_limits(14.684375, 14.366, 14.681, "in")
    '0.0001 in over'
    """
    if hole_mm > high_mm + 1e-9:
        return f"{one(hole_mm - high_mm, unit)} over"
    return f"{one(low_mm - hole_mm, unit)} under" if hole_mm < low_mm - 1e-9 else ""


@runtime_checkable
class Drilled(Protocol):
    """A hole whose drill is chosen."""

    @property
    def drill(self) -> str:
        """Its name."""

    @property
    def drill_mm(self) -> float:
        """Its diameter."""


@dataclass(frozen=True, repr=False)
class TappingHole(Record):
    """The drill for a tapped hole, and what it leaves of the thread. Lengths in mm."""

    thread: str
    unit: str
    tap: Tap
    drill: str
    below: str | None
    """The drills beside the hole that is wanted; None where the set has none."""
    above: str | None
    within: str | None
    """The drill nearest to the wanted hole that keeps the limits."""
    wanted_mm: float
    wanted_percent: float
    drill_mm: float
    hole_mm: float
    minor_mm: float
    percent: float
    basic_percent: float
    strength_ratio: float
    hole_min_mm: float
    hole_max_mm: float
    minor_min_mm: float
    minor_max_mm: float
    oversize_mm: float
    usual_oversize_mm: float
    below_mm: float | None
    below_percent: float | None
    above_mm: float | None
    above_percent: float | None
    notes: tuple[Caution, ...] = ()
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    @property
    def in_limits(self) -> bool:
        """Whether the hole keeps its limits."""
        return self.hole_min_mm - 1e-9 <= self.hole_mm <= self.hole_max_mm + 1e-9

    @property
    def beside_limits(self) -> str:
        """By how much the hole misses its limits: "0.0001 in over"; empty where it keeps them."""
        return beside_limits(self.hole_mm, self.hole_min_mm, self.hole_max_mm, self.unit)

    def to_dict(self) -> dict[str, Any]:
        """The hole as a flat dictionary with unit-suffixed keys."""
        return {
            **self._fields("notes"),
            "in_limits": self.in_limits,
        }

    def lines(self) -> list[str]:
        """The drill in the first line, then its neighbours, the limits, what it leaves, and what that rests on."""
        unit = self.unit
        how = " formed" if self.tap == "form" else ""
        drill = _named(self.drill, self.drill_mm, unit)
        out = [f"{self.thread}: drill {drill}: {self.percent:.0f} % of thread{how}"]
        out.append(f"  wanted    {both(self.wanted_mm, unit)}, {self.wanted_percent:.0f} %")
        beside = [
            f"{name} ({percent:.0f} %)" if name.endswith(f" {unit}") else f"{name} ({one(size, unit)}, {percent:.0f} %)"
            for name, size, percent in (
                (self.below, self.below_mm, self.below_percent),
                (self.above, self.above_mm, self.above_percent),
            )
            if name is not None and size is not None and percent is not None
        ]
        out.append(f"  nearest   {' and '.join(beside)}")
        verdict = self.beside_limits or "within"
        other = "mm" if unit == "in" else "in"
        limits = f"{span(self.hole_min_mm, self.hole_max_mm, unit)} ({span(self.hole_min_mm, self.hole_max_mm, other)})"
        out.append(f"  limits    {limits}: {verdict}")
        if self.tap == "form":
            minor = f"about {one(self.minor_mm, unit)} once formed, limits "
            out.append(f"  minor     {minor}{span(self.minor_min_mm, self.minor_max_mm, unit)}")
        if self.oversize_mm > 0:
            out.append(f"  hole      {both(self.hole_mm, unit)}, with {one(self.oversize_mm, unit)} of oversize")
        else:
            out.append(f"  oversize  a drill this size usually cuts {one(self.usual_oversize_mm, unit)} over: measure")
        out.append(
            f"  strength  {100 * self.strength_ratio:.0f} % of the screw thread's shear area in the smallest hole; "
            f"{self.basic_percent:.0f} % of the basic height"
        )
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines((*self.notes, *self.cautions))
        return [*out, LOAD]


@checked
def tapping_hole(
    thread: str | Thread | ThreadLimits,
    *,
    percent: float | None = None,
    engagement: Any = None,
    strength: float | None = None,
    drills: Any = None,
    oversize: Any = None,
    tap: Tap = "cut",
) -> TappingHole:
    """The drill for a tapped hole.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        ``"M6"``, ``"1/4-20 UNC-2B"``; without a class the usual internal one. Limits of an internal part, such as
        those before coating, are the hole's.
    percent : float, optional
        Per cent of thread wanted; at most one of percent, engagement and strength. 75 where none is given, 65 for a
        forming tap.
    engagement : length, optional
        Full-form length of engagement: the hole's limits then move within the class's tolerance as the standard says,
        small holes for short engagements.
    strength : float, optional
        Share of the external thread's shear area to keep, above 0 and at most 1. The internal thread strips at its
        major diameter, where the hole does not matter.
    drills : optional
        A set, or the drills at hand; see `drill_set`.
    oversize : str or length, optional
        What the drill cuts over its own size: nothing, ``"usual"``, or a length.
    tap : {"cut", "form"}
        A forming tap presses the thread, and wants a larger hole.

    Returns
    -------
    TappingHole
        Immutable; prints itself, the drill in its first line.

    Raises
    ------
    DomainError
        An argument out of its range, or two that ask for a hole each.
    NotTabulatedError
        No such drill set, or no drill small enough.

    >>> tapping_hole("M6").drill, round(tapping_hole("M6").percent)
    ('5 mm', 77)
    >>> tapping_hole("1/4-20 UNC").drill
    '#7'
    """
    catalogue = active()
    own = thread if isinstance(thread, ThreadLimits) else None
    if own is not None and own.side != "internal":
        raise DomainError(f"a tapped hole needs the limits of an internal thread, got those of {own.thread}")
    found = thread.thread if isinstance(thread, ThreadLimits) else read_thread(thread)
    if tap not in ("cut", "form"):
        raise DomainError(f"tap must be 'cut' or 'form', got {tap!r}")
    answer = _core.tapping_answer(
        found,
        drill_set(drills, found.unit),
        catalogue,
        percent,
        None if engagement is None else length(engagement, "engagement").mm,
        strength,
        tap == "form",
        _oversize_mm(oversize),
        None if own is None else own.figures,
    )
    figures: dict[str, Any] = answer["figures"]
    names = {name: answer[name] for name in ("drill", "below", "above", "within")}
    made = []
    for code in answer["cautions"]:
        bounds = span(figures["hole_min_mm"], figures["hole_max_mm"], found.unit)
        made.append(caution(code, percent=f"{figures['wanted_percent']:.0f}", within=names["within"], limits=bounds))
    return TappingHole(
        thread=str(found.internal),
        unit=found.unit,
        tap=tap,
        notes=tuple(each for each in made if each.rank == "note"),
        cautions=tuple(each for each in made if each.rank != "note"),
        evidence=tuple(answer["evidence"]),
        **names,
        **figures,
    )


def _named(name: str, size_mm: float, unit: str) -> str:
    """A drill with its size in both units, each said once."""
    if name.endswith(f" {unit}"):
        return f"{name} ({one(size_mm, 'mm' if unit == 'in' else 'in')})"
    return f"{name}, {both(size_mm, unit)}"


def _oversize_mm(oversize: Any) -> float | None:
    """Millimetres of oversize; None for the usual one."""
    if oversize is None:
        return 0.0
    if isinstance(oversize, str) and oversize.strip().lower() == "usual":
        return None
    return length(oversize, "oversize").mm


def tapping_hole_columns(
    designations: Iterable[str],
    *,
    percent: ArrayLike = np.nan,
    engagement_mm: ArrayLike = np.nan,
    strength: ArrayLike = np.nan,
    drills: Any = None,
    oversize: Any = None,
    tap: Tap = "cut",
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Tapping holes of many designations as columns.

    Parameters
    ----------
    designations : iterable of str
        One a row.
    percent, engagement_mm, strength : array_like
        As for `tapping_hole`, one value or one a row; NaN: not asked.
    drills, oversize, tap
        As for `tapping_hole`, for all rows; without `drills` each row has the set of its own unit.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        ``drill`` (its name), the figures of `TappingHole` in mm and per cent, ``cautions`` (bits) and ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> tapping_hole_columns(["M6", "M8"])["drill"].tolist()
    ['5 mm', '6.8 mm']
    """
    texts = list(designations)
    numbers = columns(percent=percent, engagement_mm=engagement_mm, strength=strength)
    chosen = None if drills is None else drill_set(drills, "mm")
    return _core.tapping_columns(texts, chosen, active(), numbers, tap == "form", _oversize_mm(oversize), on_error)


@dataclass(frozen=True, repr=False)
class BlindHole(Record):
    """Depths of a blind tapped hole, mm."""

    thread: str
    unit: str
    lead: str
    threads_min: float
    threads_max: float
    drill: str
    hole_mm: float
    full_thread_mm: float
    chamfer_min_mm: float
    chamfer_max_mm: float
    chip_room_mm: float
    drill_depth_mm: float
    point_mm: float
    total_depth_mm: float
    tap_depth_mm: float
    full_threads: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """The depths as a flat dictionary with unit-suffixed keys."""
        return self._fields("notes")

    def lines(self) -> list[str]:
        """The drill and its depth in the first line, then what the depth is made of."""
        unit = self.unit
        out = [
            f"{self.thread}: drill {self.drill}, {both(self.drill_depth_mm, unit)} deep at full diameter "
            f"for {both(self.full_thread_mm, unit)} of full thread"
        ]
        out.append(f"  full      {self.full_threads:.1f} threads")
        out.append(
            f"  chamfer   {span(self.chamfer_min_mm, self.chamfer_max_mm, unit)}: "
            f"{self.lead} tap, {self.threads_min:g} to {self.threads_max:g} threads"
        )
        out.append(f"  chips     {one(self.chip_room_mm, unit)} of room under the tap")
        out.append(f"  tap       to {both(self.tap_depth_mm, unit)} at its end")
        out.append(f"  point     {one(self.point_mm, unit)} more: {both(self.total_depth_mm, unit)} to the tip")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


@checked
def blind_hole(
    thread: str | Thread | FormThread,
    *,
    full_thread: Any = None,
    drilled: Any = None,
    lead: str = "plug",
    drill: Any = None,
    point: Any = "118 deg",
    chip_room: Any = None,
    thickness: Any = None,
    tap: Tap = "cut",
) -> BlindHole:
    """How deep to drill a blind hole for a length of full thread, or what full thread a drilled one takes.

    Parameters
    ----------
    thread : str, Thread or FormThread
        By its designation.
    full_thread, drilled : length
        One of them: the length with every thread full, or the depth at full diameter that is there.
    lead : str
        "taper", "plug", "bottoming", or a form letter "A" to "E"; its longest chamfer is reckoned with.
    drill : length, TappingHole or FormHole, optional
        Without it that of `tapping_hole`; of a `FormThread` it is asked for.
    point : angle
        Of the drill.
    chip_room : length, optional
        Two pitches when not given, one under a forming tap.
    thickness : length, optional
        Of the metal: a point that comes through is refused.
    tap : {"cut", "form"}
        As for `tapping_hole`.

    Returns
    -------
    BlindHole
        Immutable; prints itself.

    Raises
    ------
    DomainError
        Both or neither of the lengths, too shallow a hole, or metal too thin; the message says what would do.
    NotTabulatedError
        No such lead.

    >>> blind_hole("M6", full_thread="12 mm").drill_depth_mm
    19.0
    """
    catalogue = active()
    found = thread if isinstance(thread, FormThread) else read_thread(thread)
    if drill is None:
        if isinstance(found, FormThread):
            raise DomainError(f"drill is asked for {found}: give one, or its hole")
        drill = tapping_hole(found, tap=tap)
    if isinstance(drill, Drilled):
        name, size_mm = drill.drill, drill.drill_mm
    else:
        given = length(drill, "drill")
        name, size_mm = str(drill), given.mm
        if size_mm >= found.diameter_mm:
            raise DomainError(f"drill must be below {found.diameter_mm:.4g} mm, the thread's own, got {given}")
    answer = _core.blind_answer(
        found.pitch_mm,
        size_mm,
        lead,
        catalogue,
        None if full_thread is None else length(full_thread, "full_thread").mm,
        None if drilled is None else length(drilled, "drilled").mm,
        None if chip_room is None else length(chip_room, "chip_room").mm,
        quantity(point, "angle", "point").base,
        None if thickness is None else length(thickness, "thickness").mm,
        tap == "form",
    )
    figures: dict[str, float] = answer["figures"]
    cautions = (caution("hole_short_lead"),) if answer["threads_min"] < 2 else ()
    return BlindHole(
        thread=str(found.internal),
        unit=found.unit,
        lead=answer["lead"],
        threads_min=answer["threads_min"],
        threads_max=answer["threads_max"],
        drill=name,
        hole_mm=size_mm,
        full_threads=figures["full_thread_mm"] / found.pitch_mm,
        cautions=cautions,
        evidence=tuple(answer["evidence"]),
        **figures,
    )


@dataclass(frozen=True, repr=False)
class ClearanceHole(Record):
    """A hole that a screw passes through, mm."""

    size: str
    unit: str
    fit: str
    standard: str
    hole_mm: float
    drill: str
    """The drill that makes it."""
    clearance_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """The hole as a flat dictionary with unit-suffixed keys."""
        return self._fields("notes")

    def lines(self) -> list[str]:
        """The hole in the first line, then its clearance and what it rests on."""
        out = [f"{self.size}: {self.fit} clearance hole {both(self.hole_mm, self.unit)}, drill {self.drill}"]
        out.append(f"  play      {both(self.clearance_mm, self.unit)} over the screw")
        out.append(f"  by        {self.standard}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


_FITS = {
    "mm": {"close": "fine", "normal": "medium", "loose": "coarse"},
    "in": {"fine": "close", "medium": "normal", "coarse": "loose"},
}


@checked
def clearance_hole(thread: str | Thread, fit: str = "normal") -> ClearanceHole:
    """A hole that a screw passes through.

    Parameters
    ----------
    thread : str or Thread
        Of the screw; its diameter and system count.
    fit : str
        "fine", "medium" or "coarse" (ISO 273); "close", "normal" or "loose" (ASME B18.2.8); either names either.

    Returns
    -------
    ClearanceHole
        Immutable; prints itself.

    Raises
    ------
    DomainError
        No such fit.
    NotTabulatedError
        The standard has no such diameter; the message names the nearest.

    >>> clearance_hole("M6").hole_mm
    6.6
    >>> clearance_hole("1/4-20 UNC", "close").drill
    '17/64'
    """
    found = read_thread(thread)
    answer = _core.clearance_answer(found, fit, active())
    return ClearanceHole(
        size=found.size,
        unit=found.unit,
        fit=_FITS[found.unit].get(fit, fit),
        standard="ISO 273" if found.unit == "mm" else "ASME B18.2.8",
        hole_mm=answer["hole_mm"],
        drill=answer["drill"] or f"{answer['hole_mm']:g} mm",
        clearance_mm=answer["hole_mm"] - found.diameter_mm,
        evidence=tuple(answer["evidence"]),
    )


@dataclass(frozen=True, repr=False)
class ScrewSeat(Record):
    """A counterbore or countersink over a clearance hole, mm."""

    size: str
    unit: str
    head: str
    hole_mm: float
    seat_diameter_mm: float
    depth_mm: float
    head_diameter_mm: float
    head_height_mm: float | None
    angle_deg: float | None
    recess_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """The seat as a flat dictionary with unit-suffixed keys."""
        return self._fields("notes")

    def lines(self) -> list[str]:
        """Diameter and depth in the first line, then the head, the hole, and what it rests on."""
        unit = self.unit
        what = "counterbore" if self.angle_deg is None else f"countersink {self.angle_deg:g} deg to"
        out = [
            f"{self.size} {self.head} head: {what} {both(self.seat_diameter_mm, unit)}, "
            f"{both(self.depth_mm, unit)} deep"
        ]
        out.append(f"  hole      {both(self.hole_mm, unit)}")
        height = "" if self.head_height_mm is None else f", {one(self.head_height_mm, unit)} high"
        sharp = "" if self.angle_deg is None else " to its sharp corner"
        out.append(f"  head      {both(self.head_diameter_mm, unit)}{sharp}{height}")
        if self.recess_mm > 0:
            out.append(f"  recess    {one(self.recess_mm, unit)} below the surface")
        if self.angle_deg is not None:
            out.append("  depth     of the cone from the surface to the hole")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


@checked
def counterbore(
    thread: str | Thread, *, head: str = "socket", fit: str = "normal", hole: Any = None, recess: Any = None
) -> ScrewSeat:
    """Counterbore for a screw with a cylindrical head.

    Parameters
    ----------
    thread : str or Thread
        Of the screw.
    head : str
        "socket".
    fit : str
        Of the clearance hole, as for `clearance_hole`; not used when `hole` is given.
    hole : length, optional
        The hole that is there.
    recess : length, optional
        Of the head below the surface; flush when not given.

    Returns
    -------
    ScrewSeat
        Immutable; prints itself.

    Raises
    ------
    NotTabulatedError
        No such head or size; the message names those that there are.
    DomainError
        A countersunk head, or a hole larger than the seat.

    >>> counterbore("M6").seat_diameter_mm
    11.0
    """
    return _seat(thread, head, fit, hole, recess, countersunk=False)


@checked
def countersink(
    thread: str | Thread, *, head: str = "flat", fit: str = "normal", hole: Any = None, recess: Any = None
) -> ScrewSeat:
    """Countersink for a screw with a flat head, down to its clearance hole.

    Parameters
    ----------
    thread : str or Thread
        Of the screw.
    head : str
        "flat" (90 degrees metric, 82 inch), "flat socket" (the same angles), "flat 100" (inch, 100 degrees).
    fit, hole, recess
        As for `counterbore`.

    Returns
    -------
    ScrewSeat
        Immutable; prints itself.

    Raises
    ------
    NotTabulatedError
        No such head or size; the message names those that there are.
    DomainError
        A cylindrical head, or a hole larger than the seat.

    >>> countersink("M6").angle_deg, round(countersink("M6").depth_mm, 3)
    (90.0, 3.0)
    """
    return _seat(thread, head, fit, hole, recess, countersunk=True)


def _seat(thread: str | Thread, head: str, fit: str, hole: Any, recess: Any, *, countersunk: bool) -> ScrewSeat:
    found = read_thread(thread)
    hole_mm = clearance_hole(found, fit).hole_mm if hole is None else length(hole, "hole").mm
    recess_mm = 0.0 if recess is None else length(recess, "recess").mm
    answer = _core.seat_answer(found, head, hole_mm, recess_mm, active())
    if (answer["angle_deg"] is not None) != countersunk:
        other = "countersink" if answer["angle_deg"] is not None else "counterbore"
        raise DomainError(f"a {head} head sits in a {other}: ask for that")
    evidence = tuple(answer.pop("evidence"))
    return ScrewSeat(size=found.size, unit=found.unit, head=head, recess_mm=recess_mm, evidence=evidence, **answer)
