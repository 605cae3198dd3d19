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
from halfnut.threads.standard import ThreadLimits
from halfnut.threads.standard import thread as read_thread

__all__ = [
    "TappingHole",
    "drill_set",
    "forming_hole_mm",
    "forming_percent",
    "hole_for_strip_ratio_mm",
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
        return [*out, words("said", "load")]


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
