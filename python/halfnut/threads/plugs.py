"""Plug gauges for the shop, and the nuts they are made for."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from halfnut import _core
from halfnut._core import Evidence, over_wires_exact_mm
from halfnut.core.arguments import checked
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH, one
from halfnut.core.units import length
from halfnut.threads import form_threads
from halfnut.threads.gauging import HALF_ANGLE_DEG, wires
from halfnut.threads.precoating import one_part
from halfnut.threads.standard import ThreadLimits, limits

__all__ = ["ShopPlug", "shop_plug"]


@dataclass(frozen=True, repr=False)
class ShopPlug(Record):
    """Sizes of a plug that a shop cuts for itself to try an internal thread with. Lengths in mm."""

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

    def lines(self) -> list[str]:
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
def shop_plug(thread: Any, *, pitch: tuple[Any, Any] | None = None, wire: Any = None) -> ShopPlug:
    """Sizes of a go and not-go plug for an internal thread, with the readings over wires to cut them by.

    Parameters
    ----------
    thread : str, Thread, FormThread, ThreadLimits or FormLimits
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
    nut = _nut(thread)
    go_pitch, not_go_pitch = nut.pitch_min_mm, nut.pitch_max_mm
    if pitch is not None:
        go_pitch, not_go_pitch = (length(each, "pitch").mm for each in pitch)
        if not 0.0 < go_pitch <= not_go_pitch:
            least, greatest = one(go_pitch, nut.unit), one(not_go_pitch, nut.unit)
            raise _core.DomainError(f"pitch must be > 0, the least before the greatest, got {least} to {greatest}")
    not_go_major = not_go_pitch + 2.0 * nut.land_mm
    wire_mm = wires(nut.screw, wire=wire).wire_mm
    sizes = (nut.pitch_mm, nut.lead_mm, nut.half_angle_deg, wire_mm)
    return ShopPlug(
        thread=nut.title,
        unit=nut.unit,
        go_pitch_mm=go_pitch,
        go_major_mm=nut.go_major_mm,
        go_over_wires_mm=over_wires_exact_mm(go_pitch, nut.go_major_mm, *sizes),
        not_go_pitch_mm=not_go_pitch,
        not_go_major_mm=not_go_major,
        not_go_over_wires_mm=over_wires_exact_mm(not_go_pitch, not_go_major, *sizes),
        wire_mm=wire_mm,
        evidence=nut.evidence,
    )


@dataclass(frozen=True)
class _Nut:
    """What a plug is made to try, mm."""

    title: str
    unit: str
    screw: Any
    pitch_mm: float
    lead_mm: float
    half_angle_deg: float
    pitch_min_mm: float
    pitch_max_mm: float
    go_major_mm: float
    land_mm: float
    """What the crest of the not-go end stands above the pitch line."""
    evidence: tuple[Evidence, ...]


def _nut(thread: Any) -> _Nut:
    if form_threads.is_form(thread):
        form = thread if isinstance(thread, form_threads.FormLimits) else form_threads.form_limits(thread, "internal")
        _refuse_external(form.side, form.title)
        own: Any = form.thread
        # a root with a clearance touches no screw, so that the plug has the screw's crest; a centralizing one does
        crest = form.major_min_mm if form.tolerance_class.endswith("C") else None
        return _Nut(
            form.title, form.unit, own.external, form.pitch_mm, form.lead_mm, form.half_angle_deg, form.pitch_min_mm,
            form.pitch_max_mm, own.diameter_mm if crest is None else crest,
            (own.diameter_mm - form.basic_pitch_mm) / 3.0, form.evidence,
        )  # fmt: skip
    found = thread if isinstance(thread, ThreadLimits) else limits(one_part(thread, "internal"))
    _refuse_external(found.side, str(found.thread))
    scale = MM_PER_INCH if found.unit == "in" else 1.0
    own = found.thread
    return _Nut(
        str(own), found.unit, own.external, own.pitch_mm, own.lead_mm, HALF_ANGLE_DEG, found.pitch_min * scale,
        found.pitch_max * scale, float(found.major_min or 0.0) * scale, 0.25 * _core.triangle_height_mm(own.pitch_mm),
        found.evidence,
    )  # fmt: skip


def _refuse_external(side: str, title: str) -> None:
    if side != "internal":
        raise _core.DomainError(f"a plug tries an internal thread, got {title}")
