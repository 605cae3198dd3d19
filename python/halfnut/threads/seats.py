"""Clearance holes, and seats for the heads of screws."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import DomainError, Evidence, Thread, countersink_depth_mm, countersink_diameter_mm
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one
from halfnut.core.units import length
from halfnut.core.words import caution_lines
from halfnut.threads.standard import thread as read_thread

__all__ = [
    "ClearanceHole",
    "ScrewSeat",
    "clearance_hole",
    "counterbore",
    "countersink",
    "countersink_depth_mm",
    "countersink_diameter_mm",
]


@dataclass(frozen=True, repr=False)
class ClearanceHole(Record):
    """A hole that a screw passes through, mm."""

    SHORT: ClassVar[tuple[str, ...]] = ("play", "by")
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

    def whole(self) -> list[str]:
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

    SHORT: ClassVar[tuple[str, ...]] = ("hole",)
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

    def whole(self) -> list[str]:
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
