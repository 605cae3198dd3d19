"""Plug gauges for the shop, and the nuts they are made for."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import Evidence, over_wires_exact_mm, triangle_height_mm
from halfnut.core.arguments import checked
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import one
from halfnut.core.units import length
from halfnut.threads.gauging import wires
from halfnut.threads.standard import PartLike, ThreadLimits, limits_of

__all__ = ["ShopPlug", "shop_plug"]


@dataclass(frozen=True, repr=False)
class ShopPlug(Record):
    """Sizes of a plug that a shop cuts for itself to try an internal thread with. Lengths in mm."""

    SHORT: ClassVar[tuple[str, ...]] = ("not-go end",)
    thread: str
    unit: str
    go_pitch_mm: float
    go_major_mm: float
    go_over_wires_mm: float
    not_go_pitch_mm: float
    not_go_major_mm: float
    not_go_over_wires_mm: float
    wire_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    def whole(self) -> list[str]:
        """The go end in the first line, then the not-go end."""
        unit = self.unit
        return [
            f"plug for {self.thread}: go end {one(self.go_pitch_mm, unit)} pitch, {one(self.go_major_mm, unit)} major, "
            f"{one(self.go_over_wires_mm, unit, 1)} over {one(self.wire_mm, unit, 1)} wires",
            f"  not-go end {one(self.not_go_pitch_mm, unit)} pitch, {one(self.not_go_major_mm, unit)} major, "
            f"{one(self.not_go_over_wires_mm, unit, 1)} over the same wires; three turns are enough",
            f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}",
        ]


@checked
def shop_plug(thread: PartLike, *, pitch: tuple[Any, Any] | None = None, wire: Any = None) -> ShopPlug:
    """Sizes of a go and not-go plug for an internal thread, with the readings over wires to cut them by.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        An internal thread of any form, ``"M10-6H"``, ``"Tr16x4-7H"``; or its limits, such as those before coating.
    pitch : pair of lengths, optional
        Least and greatest pitch diameter to try for, in place of the limits: of a nut cut to suit a screw.
    wire : str, Length or pint quantity, optional
        The wire at hand; otherwise the nearest of a set.

    Returns
    -------
    ShopPlug
        The go end has the form of the largest screw of the smallest nut; the not-go end touches on the flanks about the
        pitch line only, so its crest is kept two thirds of the depth above it (of a 60 degree thread a quarter of the
        triangle's height).

    Raises
    ------
    DomainError
        The thread is external, the pair is not in order, or the wire does not measure the plug.

    >>> round(shop_plug("M10-6H").go_pitch_mm, 3), round(shop_plug("Tr16x4-7H").go_major_mm, 3)
    (9.026, 16.0)
    """
    nut = limits_of(thread) if isinstance(thread, ThreadLimits) else limits_of(thread, "internal")
    if nut.side != "internal" or nut.thread is None:
        raise _core.DomainError(f"a plug tries an internal thread that has a designation, got {nut.title}")
    go_pitch, not_go_pitch = nut.pitch_min_mm, nut.pitch_max_mm
    if pitch is not None:
        go_pitch, not_go_pitch = (length(each, "pitch").mm for each in pitch)
        if not 0.0 < go_pitch <= not_go_pitch:
            least, greatest = one(go_pitch, nut.unit), one(not_go_pitch, nut.unit)
            raise _core.DomainError(f"pitch must be > 0, the least before the greatest, got {least} to {greatest}")
    # a root with a clearance touches no screw, so that the plug has the screw's crest; a centralizing one does
    clear = nut.by_form and not nut.tolerance_class.endswith("C")
    go_major = nut.diameter_mm if clear or nut.major_min_mm is None else nut.major_min_mm
    # what the crest of the not-go end stands above the pitch line
    depth_mm = (nut.diameter_mm - nut.basic_pitch_mm) / 3.0 if nut.by_form else triangle_height_mm(nut.pitch_mm) / 4.0
    not_go_major = not_go_pitch + 2.0 * depth_mm
    wire_mm = wires(nut.thread.external, wire=wire).wire_mm
    sizes = (nut.pitch_mm, nut.lead_mm, nut.half_angle_deg, wire_mm)
    return ShopPlug(
        thread=nut.title,
        unit=nut.unit,
        go_pitch_mm=go_pitch,
        go_major_mm=go_major,
        go_over_wires_mm=over_wires_exact_mm(go_pitch, go_major, *sizes),
        not_go_pitch_mm=not_go_pitch,
        not_go_major_mm=not_go_major,
        not_go_over_wires_mm=over_wires_exact_mm(not_go_pitch, not_go_major, *sizes),
        wire_mm=wire_mm,
        evidence=nut.evidence,
    )
