"""Holes for screws: before tapping, blind, clearance, counterbored and countersunk.

Per cent of thread has one basis for metric and Unified threads, that of tap-drill tables: 100 is a double depth of
1.299 P. The basic height of the internal thread is 83.3 of it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Literal, Protocol, runtime_checkable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    DomainError,
    DrillSet,
    Evidence,
    Thread,
    forming_hole_mm,
    forming_percent,
    hole_for_strip_ratio_mm,
    strip_ratio,
    tapping_hole_mm,
    thread_percent,
)
from halfnut.core.arguments import checked
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one, span
from halfnut.core.units import length
from halfnut.core.words import caution, caution_lines, words
from halfnut.threads.standard import PartLike, ThreadLimits, limits_of
from halfnut.threads.standard import thread as read_thread
from halfnut.threads.taper_pipes import taper_pipe

__all__ = [
    "TappingHole",
    "drill_set",
    "forming_hole_mm",
    "forming_percent",
    "hole_for_strip_ratio_mm",
    "strip_ratio",
    "taper_depth_mm",
    "tapping_hole",
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
    if isinstance(drills, Sequence) and drills:
        return DrillSet([(str(drill), length(drill, "drills").mm) for drill in drills])
    raise DomainError(f"drills must be a set's name or a list of one drill or more, got {drills!r}")


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
    """The drill for a tapped hole of any form, and what it leaves of the thread. Lengths in mm.

    None where one does not apply: a taper pipe thread has two drills, and no limits.
    """

    SHORT: ClassVar[tuple[str, ...]] = ("limits", "nearest", "reamed", "tap")
    thread: str
    unit: str
    tap: Tap
    drill: str
    """Of a taper thread the one for a straight hole, tapped without reaming."""
    drill_mm: float
    below: str | None = None
    """The drills beside the hole that is wanted; None where the set has none."""
    above: str | None = None
    within: str | None = None
    """The drill nearest to the wanted hole that keeps the limits."""
    wanted_mm: float | None = None
    wanted_percent: float | None = None
    hole_mm: float | None = None
    minor_mm: float | None = None
    percent: float | None = None
    """Of tap-drill tables; of a form beside ISO metric and Unified, of its own basic height."""
    basic_percent: float | None = None
    strength_ratio: float | None = None
    hole_min_mm: float | None = None
    hole_max_mm: float | None = None
    minor_min_mm: float | None = None
    minor_max_mm: float | None = None
    oversize_mm: float | None = None
    usual_oversize_mm: float | None = None
    below_mm: float | None = None
    below_percent: float | None = None
    above_mm: float | None = None
    above_percent: float | None = None
    ream_drill: str | None = None
    """For a hole that a taper reamer then opens."""
    ream_drill_mm: float | None = None
    hole_at_face_mm: float | None = None
    """What the reamer leaves at the mouth: the minor diameter there."""
    hole_at_end_mm: float | None = None
    """The minor diameter where the thread ends."""
    taper_on_diameter: float | None = None
    hand_turns: float | None = None
    notes: tuple[Caution, ...] = ()
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    @property
    def in_limits(self) -> bool | None:
        """Whether the hole keeps its limits; None where there are none."""
        return None if self.hole_min_mm is None else not self.beside_limits

    @property
    def beside_limits(self) -> str:
        """By how much the hole misses its limits: "0.0001 in over"; empty where it keeps them or has none."""
        if self.hole_mm is None or self.hole_min_mm is None or self.hole_max_mm is None:
            return ""
        return beside_limits(self.hole_mm, self.hole_min_mm, self.hole_max_mm, self.unit)

    def to_dict(self) -> dict[str, Any]:
        """The hole as a flat dictionary with unit-suffixed keys."""
        return {**self._fields("notes"), "in_limits": self.in_limits}

    def whole(self) -> list[str]:
        """The drill in the first line, then the hole wanted, the limits, what it leaves, and what that rests on."""
        out = self._taper_lines() if self.hand_turns is not None else self._parallel_lines()
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines((*self.notes, *self.cautions))
        return [*out, words("said", "load")]

    def _taper_lines(self) -> list[str]:
        face, end, unit = _known(self.hole_at_face_mm), _known(self.hole_at_end_mm), self.unit
        return [
            f"{self.thread}: drill {self.drill} straight, or {self.ream_drill} and ream 1:16",
            f"  reamed    {both(face, unit)} at the mouth, {both(end, unit)} at the end",
            f"  tap       until the plug gauge, or the fitting, goes in {_known(self.hand_turns):.1f} turns by hand",
        ]

    def _parallel_lines(self) -> list[str]:
        unit, other = self.unit, "mm" if self.unit == "in" else "in"
        wanted, percent, shared = _known(self.wanted_mm), _known(self.percent), self.basic_percent is not None
        low, high = _known(self.hole_min_mm), _known(self.hole_max_mm)
        how = " formed" if self.tap == "form" else ""
        first = f"drill {_named(self.drill, self.drill_mm, unit)}: {percent:.0f} % of thread{how}"
        if not shared:
            first = f"drill {self.drill}: {percent:.0f} % of the form's height"
            if not self.in_limits:
                first = f"drill {self.drill}, then bore or ream to {both(wanted, unit)}"
        out = [f"{self.thread}: {first}", f"  wanted    {both(wanted, unit)}, {_known(self.wanted_percent):.0f} %"]
        beside = [
            f"{name} ({share:.0f} %)" if name.endswith(f" {unit}") else f"{name} ({one(size, unit)}, {share:.0f} %)"
            for name, size, share in (
                (self.below, self.below_mm, self.below_percent),
                (self.above, self.above_mm, self.above_percent),
            )
            if name is not None and size is not None and share is not None
        ]
        if beside:
            out.append(f"  nearest   {' and '.join(beside)}")
        out.append(f"  limits    {span(low, high, unit)} ({span(low, high, other)}): {self.beside_limits or 'within'}")
        if self.tap == "form":
            minor = f"about {one(_known(self.minor_mm), unit)} once formed, limits "
            out.append(f"  minor     {minor}{span(_known(self.minor_min_mm), _known(self.minor_max_mm), unit)}")
        if self.oversize_mm:
            out.append(
                f"  hole      {both(_known(self.hole_mm), unit)}, with {one(self.oversize_mm, unit)} of oversize"
            )
        elif self.usual_oversize_mm is not None:
            out.append(f"  oversize  a drill this size usually cuts {one(self.usual_oversize_mm, unit)} over: measure")
        if self.strength_ratio is not None:
            out.append(
                f"  strength  {100 * self.strength_ratio:.0f} % of the screw thread's shear area in the smallest hole; "
                f"{_known(self.basic_percent):.0f} % of the basic height"
            )
        return out


def _known(value: float | None) -> float:
    assert value is not None
    return value


@checked
def tapping_hole(
    thread: PartLike,
    *,
    percent: float | None = None,
    engagement: Any = None,
    strength: float | None = None,
    drills: Any = None,
    oversize: Any = None,
    tap: Tap = "cut",
) -> TappingHole:
    """The drill for a tapped hole, of any form that is known.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        ``"M6"``, ``"1/4-20 UNC-2B"``, ``"G1/2"``, ``"1/2-14 NPT"``; without a class the usual internal one. Limits of
        an internal part, such as those before coating, are the hole's.
    percent : float, optional
        Per cent of thread wanted; at most one of percent, engagement and strength. 75 where none is given, 65 for a
        forming tap. Of a form beside ISO metric and Unified it is of the form's basic height, above 0 and at most 100;
        where none is given the hole lies three quarters of the way from the least to the greatest minor diameter.
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
        Immutable; prints itself, the drill in its first line. A taper thread has two drills: the largest that the
        minor diameter at the mouth lets through, and the largest that a taper reamer may follow.

    Raises
    ------
    DomainError
        An argument out of its range, two that ask for a hole each, or one that no rule of the form makes use of.
    NotTabulatedError
        No such drill set, or no drill small enough.

    >>> tapping_hole("M6").drill, round(tapping_hole("M6").percent)
    ('5 mm', 77)
    >>> tapping_hole("1/4-20 UNC").drill, tapping_hole("G1/4").drill, tapping_hole("1/2-14 NPT").drill
    ('#7', '11.8 mm', '23/32 in')
    """
    own = thread if isinstance(thread, ThreadLimits) else None
    if own is not None and (own.side != "internal" or own.thread is None):
        raise DomainError(f"a tapped hole needs the limits of an internal thread, got those of {own.title}")
    if own is not None and own.thread is not None:
        found = own.thread
    else:
        assert not isinstance(thread, ThreadLimits)
        found = read_thread(thread)
    if tap not in ("cut", "form"):
        raise DomainError(f"tap must be 'cut' or 'form', got {tap!r}")
    if not found.form:
        return _tabulated_hole(found, own, percent, engagement, strength, drill_set(drills, found.unit), oversize, tap)
    asked = {"engagement": engagement, "strength": strength, "oversize": oversize}
    odd = [name for name, value in asked.items() if value is not None] + (["tap"] if tap != "cut" else [])
    if found.tapers and percent is not None:
        raise DomainError(f"percent: {found} is a taper thread, its hole follows from the gauge plane")
    if odd:
        raise DomainError(f"{', '.join(odd)}: there is no rule for it in threads of this form")
    chosen = drill_set(drills, found.unit)
    return (
        _taper_hole(found, chosen) if found.tapers else _form_hole(own or limits_of(found, "internal"), percent, chosen)
    )


def _tabulated_hole(
    thread: Thread,
    own: ThreadLimits | None,
    percent: float | None,
    engagement: Any,
    strength: float | None,
    drills: DrillSet,
    oversize: Any,
    tap: Tap,
) -> TappingHole:
    """By per cent of thread, as tap-drill tables have it."""
    answer = _core.tapping_answer(
        thread,
        drills,
        active(),
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
        bounds = span(figures["hole_min_mm"], figures["hole_max_mm"], thread.unit)
        made.append(caution(code, percent=f"{figures['wanted_percent']:.0f}", within=names["within"], limits=bounds))
    return TappingHole(
        thread=str(thread.internal),
        unit=thread.unit,
        tap=tap,
        notes=tuple(each for each in made if each.rank == "note"),
        cautions=tuple(each for each in made if each.rank != "note"),
        evidence=tuple(answer["evidence"]),
        **names,
        **figures,
    )


_SHARE = 0.75
"""Of the way from the least to the greatest minor diameter: no standard of these forms says which hole is best."""


def _form_hole(inner: ThreadLimits, percent: float | None, drills: DrillSet) -> TappingHole:
    """By the limits of the minor diameter; per cent is of the form's own basic height."""
    assert inner.thread is not None and inner.minor_min_mm is not None and inner.minor_max_mm is not None
    depth_mm = inner.diameter_mm - _known(inner.basic_minor_mm)
    low, high, unit = inner.minor_min_mm, inner.minor_max_mm, inner.unit

    def share(size_mm: float) -> float:
        return 100.0 * (inner.diameter_mm - size_mm) / depth_mm

    if percent is None:
        wanted = low + _SHARE * (high - low)
    elif 0.0 < percent <= 100.0:
        wanted = inner.diameter_mm - percent / 100.0 * depth_mm
    else:
        raise DomainError(f"percent must be above 0 and at most 100, got {percent:g}")
    pairs = list(zip(drills.diameters_mm, drills.names, strict=True))
    kept = [pair for pair in pairs if low - 1e-9 <= pair[0] <= high + 1e-9]
    if kept:
        size, name = min(kept, key=lambda pair: (abs(pair[0] - wanted), pair[0]))
    else:
        name, size = _largest(drills, low, f"the hole for {inner.title}")
    made = [] if kept else [caution("hole_no_drill", limits=span(low, high, unit))]
    if inner.thread.lead_screw:
        made.append(caution("form_tap_set"))
    if not low - 1e-9 <= wanted <= high + 1e-9:
        made.append(caution("form_hole_outside", limits=span(low, high, unit)))
    evidence = [item for item in inner.evidence if item.figure in {"minor_min", "minor_max", "every size", "pitch_min"}]
    chosen = _core.rule_evidence([("wanted_mm", "form_hole")], active()) if percent is None else []
    return TappingHole(
        thread=str(inner.thread),
        unit=unit,
        tap="cut",
        drill=name,
        drill_mm=size,
        within=name if kept else None,
        wanted_mm=wanted,
        wanted_percent=share(wanted),
        hole_mm=size,
        percent=share(size),
        hole_min_mm=low,
        hole_max_mm=high,
        minor_min_mm=low,
        minor_max_mm=high,
        cautions=tuple(dict.fromkeys([*made, *inner.cautions])),
        evidence=(*evidence, *chosen),
    )


def _taper_hole(thread: Thread, drills: DrillSet) -> TappingHole:
    """The drill for a straight hole, and the one before a taper reamer."""
    pipe = taper_pipe(thread)
    straight = _largest(drills, pipe.hole_at_face_mm, f"the hole for {thread}")
    before = _largest(drills, pipe.hole_at_end_mm, f"the hole for {thread} before reaming")
    return TappingHole(
        thread=str(thread),
        unit=thread.unit,
        tap="cut",
        drill=straight[0],
        drill_mm=straight[1],
        ream_drill=before[0],
        ream_drill_mm=before[1],
        hole_at_face_mm=pipe.hole_at_face_mm,
        hole_at_end_mm=pipe.hole_at_end_mm,
        taper_on_diameter=pipe.taper_on_diameter,
        hand_turns=pipe.hand_turns,
        cautions=(caution("taper_hole_straight"), *pipe.cautions),
        evidence=(*pipe.evidence, *_core.rule_evidence([("drill_mm", "taper_drill")], active())),
    )


def _largest(drills: DrillSet, most_mm: float, what: str) -> tuple[str, float]:
    place = bisect_right(drills.diameters_mm, most_mm + 1e-6) - 1
    if place < 0:
        raise _core.NotTabulatedError(f"no drill of the set is as small as {what}, {most_mm:.3f} mm")
    return drills.names[place], drills.diameters_mm[place]


def taper_depth_mm(thread: Thread) -> float:
    """Of the thread in an internal taper part: hand engagement and wrench turns."""
    pipe = taper_pipe(thread)
    return pipe.hand_engagement_mm + (pipe.wrench_length_mm or 0.0)


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
