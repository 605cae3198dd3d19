"""Blind holes: how deep to drill for a thread."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import (
    DomainError,
    Evidence,
    Thread,
    blind_drill_depth_mm,
    full_thread_mm,
    point_length_mm,
)
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one, span
from halfnut.core.units import length, quantity
from halfnut.core.words import caution, caution_lines
from halfnut.threads.holes import Drilled, Tap, taper_depth_mm, tapping_hole
from halfnut.threads.standard import thread as read_thread

__all__ = ["BlindHole", "blind_drill_depth_mm", "blind_hole", "full_thread_mm", "point_length_mm"]


@dataclass(frozen=True, repr=False)
class BlindHole(Record):
    """Depths of a blind tapped hole, mm."""

    SHORT: ClassVar[tuple[str, ...]] = ("full", "tap", "point")
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

    def whole(self) -> list[str]:
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
    thread: str | Thread,
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
    thread : str or Thread
        By its designation.
    full_thread, drilled : length
        One of them: the length with every thread full, or the depth at full diameter that is there.
    lead : str
        "taper", "plug", "bottoming", or a form letter "A" to "E"; its longest chamfer is computed with.
    drill : length or TappingHole, optional
        Without it that of `tapping_hole`.
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
    found = read_thread(thread)
    if found.tapers:
        depth = one(taper_depth_mm(found), found.unit)
        raise DomainError(
            f"{found} is a taper thread: drill past its {depth} of thread by the tap's chamfer, and stop by the gauge"
        )
    if drill is None or (found.form and tap != "cut"):
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
