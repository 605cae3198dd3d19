"""Holes before tapping for threads of any form: `tapping_hole` and `blind_hole` answer for all that are known.

Per cent of thread of a form beside ISO metric and Unified is of its own basic height: 100 leaves the basic minor
diameter. No standard of these forms says which hole within the minor diameter's limits is best.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, Evidence, FormThread, Thread
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one, span
from halfnut.core.words import caution, caution_lines, words
from halfnut.threads import blind_holes, holes
from halfnut.threads.blind_holes import BlindHole
from halfnut.threads.form_threads import FormLimits, form_limits, form_thread, is_form, taper_pipe, tapers
from halfnut.threads.holes import TappingHole, beside_limits, drill_set
from halfnut.threads.standard import ThreadLimits

__all__ = ["FormHole", "TaperHole", "blind_hole", "form_hole", "taper_depth_mm", "tapping_hole"]

_SHARE = 0.75
_LEAD_SCREWS = {"Tr", "Acme", "Stub Acme"}


@dataclass(frozen=True, repr=False)
class FormHole(Record):
    """The drill for a parallel tapped hole of such a form. Lengths in mm."""

    thread: str
    unit: str
    drill: str
    drill_mm: float
    percent: float
    """Of the form's basic height."""
    wanted_mm: float
    wanted_percent: float
    hole_min_mm: float
    hole_max_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = ()

    @property
    def in_limits(self) -> bool:
        """Whether the drill keeps the limits of the minor diameter."""
        return self.hole_min_mm - 1e-9 <= self.drill_mm <= self.hole_max_mm + 1e-9

    @property
    def beside_limits(self) -> str:
        """By how much the drill misses the limits: "0.0001 in over"; empty where it keeps them."""
        return beside_limits(self.drill_mm, self.hole_min_mm, self.hole_max_mm, self.unit)

    def to_dict(self) -> dict[str, Any]:
        """The hole as a flat dictionary with unit-suffixed keys."""
        out = self._fields()
        return out | {"in_limits": self.in_limits}

    def lines(self) -> list[str]:
        """The drill in the first line, then the hole wanted, its limits, what they rest on, cautions."""
        unit = self.unit
        other = "mm" if unit == "in" else "in"
        low, high = self.hole_min_mm, self.hole_max_mm
        first = f"drill {self.drill}: {self.percent:.0f} % of the form's height"
        if not self.in_limits:
            first = f"drill {self.drill}, then bore or ream to {both(self.wanted_mm, unit)}"
        out = [f"{self.thread}: {first}"]
        out.append(f"  wanted    {both(self.wanted_mm, unit)}, {self.wanted_percent:.0f} %")
        verdict = self.beside_limits or "within"
        out.append(f"  limits    {span(low, high, unit)} ({span(low, high, other)}): {verdict}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return [*out, words("said", "load")]


@dataclass(frozen=True, repr=False)
class TaperHole(Record):
    """The drill for a taper pipe thread: straight, or before a taper reamer. Lengths in mm."""

    thread: str
    unit: str
    drill: str
    """For a straight hole, tapped without reaming."""
    drill_mm: float
    ream_drill: str
    """For a hole that a taper reamer then opens."""
    ream_drill_mm: float
    hole_at_face_mm: float
    """What the reamer leaves at the mouth: the minor diameter there."""
    hole_at_end_mm: float
    """The minor diameter where the thread ends."""
    taper_on_diameter: float
    hand_turns: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    def lines(self) -> list[str]:
        """The drills in the first line, then the reamed hole, how far the tap goes, cautions."""
        unit = self.unit
        out = [f"{self.thread}: drill {self.drill} straight, or {self.ream_drill} and ream 1:16"]
        out.append(
            f"  reamed    {both(self.hole_at_face_mm, unit)} at the mouth, {both(self.hole_at_end_mm, unit)} at the end"
        )
        out.append(f"  tap       until the plug gauge, or the fitting, goes in {self.hand_turns:.1f} turns by hand")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return [*out, words("said", "load")]


def _largest(names: list[str], sizes: list[float], most_mm: float, what: str) -> tuple[str, float]:
    place = bisect_right(sizes, most_mm + 1e-6) - 1
    if place < 0:
        raise _core.NotTabulatedError(f"no drill of the set is as small as {what}, {most_mm:.3f} mm")
    return names[place], sizes[place]


def _taper_hole(thread: FormThread, drills: Any) -> TaperHole:
    pipe = taper_pipe(thread)
    found = drill_set(drills, thread.unit)
    straight = _largest(found.names, found.diameters_mm, pipe.hole_at_face_mm, f"the hole for {thread}")
    before = _largest(found.names, found.diameters_mm, pipe.hole_at_end_mm, f"the hole for {thread} before reaming")
    return TaperHole(
        thread=str(thread),
        unit=thread.unit,
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


def form_hole(
    thread: str | FormThread | FormLimits,
    *,
    percent: float | None = None,
    drills: Any = None,
    larger_mm: float = 0.0,
) -> FormHole | TaperHole:
    """The drill for a tapped hole of a trapezoidal, Acme, pipe or Whitworth thread.

    Parameters
    ----------
    thread : str, FormThread or FormLimits
        ``"G1/2"``, ``"1/4-20 BSW"``, ``"Tr16x4-7H"``, ``"1/2-14 NPT"``; without a class the usual internal one. Limits
        of an internal part, such as those before coating, are the hole's.
    percent : float, optional
        Wanted, of the form's basic height, above 0 and at most 100. Where none is given the hole lies three quarters
        of the way from the least to the greatest minor diameter.
    drills : optional
        A set, or the drills at hand; see `halfnut.threads.holes.drill_set`.
    larger_mm : float
        By how much a coating wants the hole larger, mm.

    Returns
    -------
    FormHole or TaperHole
        Immutable; prints itself, the drill in its first line. A taper thread has two drills: the largest that the
        minor diameter at the mouth lets through, and the largest that a taper reamer may follow.

    Raises
    ------
    DomainError
        A per cent out of its range, or of a taper thread.
    NotTabulatedError
        A thread or drill set that is not tabulated, or no drill small enough.

    >>> form_hole("G1/2").drill, form_hole("1/2-14 NPT").drill
    ('19 mm', '23/32 in')
    """
    given = thread.thread if isinstance(thread, FormLimits) else form_thread(thread)
    if isinstance(thread, FormLimits) and thread.side != "internal":
        raise DomainError(f"a tapped hole needs the limits of an internal thread, got those of {thread.title}")
    if tapers(given):
        if percent is not None:
            raise DomainError(f"percent: {given} is a taper thread, its hole follows from the gauge plane")
        return _taper_hole(given, drills)
    inner = thread if isinstance(thread, FormLimits) else form_limits(given, "internal")
    shape = _core.form_geometry(inner.thread, active())
    depth_mm: float = inner.thread.diameter_mm - shape["basic_minor_mm"]
    assert inner.minor_min_mm is not None and inner.minor_max_mm is not None
    low, high = inner.minor_min_mm + larger_mm, inner.minor_max_mm + larger_mm

    def share(size_mm: float) -> float:
        return 100.0 * (inner.thread.diameter_mm - size_mm) / depth_mm

    if percent is None:
        wanted = low + _SHARE * (high - low)
    elif 0.0 < percent <= 100.0:
        wanted = inner.thread.diameter_mm - percent / 100.0 * depth_mm
    else:
        raise DomainError(f"percent must be above 0 and at most 100, got {percent:g}")
    found = drill_set(drills, given.unit)
    pairs = list(zip(found.diameters_mm, found.names, strict=True))
    kept = [pair for pair in pairs if low - 1e-9 <= pair[0] <= high + 1e-9]
    if kept:
        size, name = min(kept, key=lambda pair: (abs(pair[0] - wanted), pair[0]))
    else:
        name, size = _largest(found.names, found.diameters_mm, low, f"the hole for {given}")
    made = [] if kept else [caution("hole_no_drill", limits=span(low, high, given.unit))]
    if given.form in _LEAD_SCREWS:
        made.append(caution("form_tap_set"))
    if not low - 1e-9 <= wanted <= high + 1e-9:
        made.append(caution("form_hole_outside", limits=span(low, high, given.unit)))
    evidence = [item for item in inner.evidence if item.figure in {"minor_min", "minor_max", "every size", "pitch_min"}]
    chosen = _core.rule_evidence([("wanted_mm", "form_hole")], active()) if percent is None else []
    return FormHole(
        thread=str(inner.thread),
        unit=given.unit,
        drill=name,
        drill_mm=size,
        percent=share(size),
        wanted_mm=wanted,
        wanted_percent=share(wanted),
        hole_min_mm=low,
        hole_max_mm=high,
        cautions=tuple(dict.fromkeys([*made, *inner.cautions])),
        evidence=(*evidence, *chosen),
    )


@checked
def tapping_hole(
    thread: str | Thread | FormThread | ThreadLimits | FormLimits, **given: Any
) -> TappingHole | FormHole | TaperHole:
    """The drill for a tapped hole, of any form that is known.

    Parameters
    ----------
    thread : str, Thread, FormThread, ThreadLimits or FormLimits
        Without a class the usual internal one. Limits, such as those before coating, are the hole's.
    **given
        For ISO metric and Unified threads as for `halfnut.threads.holes.tapping_hole`; for the others as for
        `form_hole`.

    Returns
    -------
    TappingHole, FormHole or TaperHole
        Immutable; prints itself, the drill in its first line.

    Raises
    ------
    DomainError, NotTabulatedError
        As from those; an argument that no rule of the form makes use of is refused by its name.

    >>> tapping_hole("M6").drill, tapping_hole("G1/4").drill
    ('5 mm', '11.8 mm')
    """
    if isinstance(thread, Thread | ThreadLimits) or not is_form(thread):
        assert not isinstance(thread, FormThread | FormLimits)
        return holes.tapping_hole(thread, **given)
    odd = [name for name, value in given.items() if name not in {"percent", "drills"} and value not in (None, "cut")]
    if odd:
        raise DomainError(f"{', '.join(odd)}: there is no rule for it in threads of this form")
    return form_hole(thread, percent=given.get("percent"), drills=given.get("drills"))


@checked
def blind_hole(thread: str | Thread | FormThread, **given: Any) -> BlindHole:
    """How deep to drill a blind hole for a length of full thread, of any form that is known.

    Parameters
    ----------
    thread : str, Thread or FormThread
        By its designation.
    **given
        As for `halfnut.threads.holes.blind_hole`.

    Returns
    -------
    BlindHole
        Immutable; prints itself.

    Raises
    ------
    DomainError, NotTabulatedError
        As from that; a taper thread's depth is given by its gauge plane.

    >>> round(blind_hole("G1/2", full_thread="15 mm").drill_depth_mm, 2)
    27.7
    """
    if isinstance(thread, Thread) or not is_form(thread):
        return blind_holes.blind_hole(thread, **given)
    found = form_thread(thread)
    if given.get("tap", "cut") != "cut":
        raise DomainError("tap: there is no rule for forming taps in threads of this form")
    if given.get("drill") is None:
        given["drill"] = form_hole(found)
    if isinstance(given["drill"], TaperHole) or tapers(found):
        raise DomainError(
            f"{found} is a taper thread: drill past its {one(taper_depth_mm(found), found.unit)} of thread by the "
            "tap's chamfer, and stop by the gauge"
        )
    return blind_holes.blind_hole(found, **given)


def taper_depth_mm(thread: FormThread) -> float:
    """Of the thread in an internal taper part: hand engagement and wrench turns."""
    pipe = taper_pipe(thread)
    return pipe.hand_engagement_mm + (pipe.wrench_length_mm or 0.0)
