"""A thread cut to suit the part that is there."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

from halfnut import _core
from halfnut._core import Evidence, coated_pitch_change_um
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import one, span
from halfnut.core.units import length, mm
from halfnut.core.words import caution, caution_lines
from halfnut.material.coatings import build_up as read_build_up
from halfnut.material.coatings import process_cautions
from halfnut.threads.fitting import coat_of
from halfnut.threads.standard import PartLike, limits_of

if TYPE_CHECKING:
    from halfnut.threads.plugs import ShopPlug

__all__ = ["Suited", "cut_to_suit"]


@dataclass(frozen=True, repr=False)
class Suited(Record):
    """A part cut to suit one that is there: pitch diameter to cut, and what to read. Lengths in mm.

    An external part is read over wires, an internal one is tried with `plug`; None where one does not apply.
    """

    SHORT: ClassVar[tuple[str, ...]] = ("read", "suits")
    thread: str
    side: str
    unit: str
    pitch_min_mm: float
    pitch_max_mm: float
    clearance_min_mm: float
    clearance_max_mm: float
    measured_pitch_mm: float
    wire_mm: float | None
    over_min_mm: float | None
    over_max_mm: float | None
    plug: ShopPlug | None = None
    now_pitch_mm: float | None = None
    """Pitch diameter of the part as it is cut so far."""
    left_least_mm: float | None = None
    """What has to come off it yet, on the diameter; ``left_most_mm`` is what may. Below 0: past the size."""
    left_most_mm: float | None = None
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The sizes as a flat dictionary with unit-suffixed keys; those of the plug begin with ``plug_``."""
        out = self._fields("plug")
        if self.plug is not None:
            own = self.plug.to_dict()
            out.update({f"plug_{key}": value for key, value in own.items() if key.endswith("_mm")})
        return out

    def whole(self) -> list[str]:
        """The pitch diameter to cut in the first line, then the readings, and what is left on the dial."""
        unit = self.unit
        other = "mm" if unit == "in" else "in"
        out = [f"{self.thread}: cut the pitch diameter to {self._limits(unit)} ({self._limits(other)})"]
        if self.wire_mm is not None and self.over_min_mm is not None and self.over_max_mm is not None:
            reading = span(self.over_min_mm, self.over_max_mm, unit, 1)
            out.append(f"  read      {reading} over {one(self.wire_mm, unit, 1)} wires")
        if self.plug is not None:
            out += [f"  {line.strip()}" for line in self.plug.whole()[:2]]
        if self.now_pitch_mm is not None and self.left_least_mm is not None and self.left_most_mm is not None:
            out.append(f"  left      {self._left(self.left_least_mm, self.left_most_mm)}")
        out.append(
            f"  suits     {one(self.measured_pitch_mm, unit)} measured, with a clearance of "
            f"{span(self.clearance_min_mm, self.clearance_max_mm, unit)} once coated"
        )
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out

    def _limits(self, unit: str) -> str:
        high = one(self.pitch_max_mm, unit).rsplit(" ", 1)[0]
        return f"{high}/{one(self.pitch_min_mm, unit)}"

    def _left(self, least: float, most: float) -> str:
        unit = self.unit
        if most < 0:
            return f"nothing: it is {one(-most, unit)} past the size"
        if least <= 0:
            return f"nothing has to come off; {one(most, unit)} on a diameter dial may"
        return (
            f"{span(least, most, unit)} to come off on a diameter dial, {span(least / 2, most / 2, unit)} "
            "on a radius dial"
        )


@checked
def cut_to_suit(
    thread: PartLike,
    *,
    clearance: Any,
    internal_pitch: Any = None,
    external_pitch: Any = None,
    build_up: Any = None,
    measured_build_up: Any = None,
    wire: Any = None,
    over_wires: Any = None,
) -> Suited:
    """The pitch diameter to cut so that a part suits one that is there: usually the screw, to suit the nut.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        Of the pair; of any form.
    clearance : str, Length, pint quantity or pair
        Wanted at the pitch diameter once both are coated: ``"0.02-0.06 mm"``; a single value is the least, and the
        greatest is that and the tolerance of the part's class.
    internal_pitch, external_pitch : str, Length or pint quantity
        Measured pitch diameter of the part that is there: one of the two. The other part is the one to cut.
    build_up, measured_build_up : optional
        Coating still to go on the part to cut, and on the measured part (none when it is finished).
    wire : str, Length or pint quantity, optional
        The wire at hand; otherwise the nearest of a set.
    over_wires : str, Length or pint quantity, optional
        What the external part to cut reads over these wires now: then the answer says what is left on the dial.

    Returns
    -------
    Suited
        Immutable; prints itself, the size to cut in its first line. For an internal part with the sizes of a plug.

    Raises
    ------
    DomainError
        Neither or both parts measured, the coatings spread more than the clearance may, or a wire that does not do.

    >>> suited = cut_to_suit("M10", internal_pitch="9.100 mm", clearance="0.02-0.06 mm", build_up="3-5 um")
    >>> round(suited.pitch_min_mm, 3), round(suited.pitch_max_mm, 3)
    (9.028, 9.06)
    """
    from halfnut.threads.gauging import over_wires_exact_mm, pitch_diameter_from_wires_exact_mm, wires
    from halfnut.threads.plugs import shop_plug

    if (internal_pitch is None) == (external_pitch is None):
        raise _core.DomainError("give the measured pitch diameter of one part: internal_pitch or external_pitch")
    external = external_pitch is None
    if over_wires is not None and not external:
        raise _core.DomainError("over_wires is a reading of an external part, and the one to cut is internal")
    measured = length(
        internal_pitch if external else external_pitch, "internal_pitch" if external else "external_pitch"
    )
    own = limits_of(thread, "external" if external else "internal")
    angle = own.half_angle_deg
    wanted = read_build_up(clearance, "clearance")
    least, most = wanted.min_um / 1000.0, wanted.max_um / 1000.0
    if least == most:
        most = least + own.pitch_tolerance_mm
    coat, other = coat_of(own, build_up, "build_up"), read_build_up(measured_build_up, "measured_build_up")
    changes = [coated_pitch_change_um(um, angle) for um in (other.min_um, other.max_um, coat.min_um, coat.max_um)]
    answer = _core.suit_answer(measured.mm, least, most, external, *changes)
    low, high = answer.pitch_min_mm, answer.pitch_max_mm
    found: dict[str, Any] = {"wire_mm": None, "over_min_mm": None, "over_max_mm": None}
    cautions = process_cautions(coat, internal=not external)
    if external:
        wire_mm = wires(own, wire=wire).wire_mm
        assert own.major_max_mm is not None  # what the wires have been chosen by
        sizes = (own.major_max_mm, own.pitch_mm, own.lead_mm, angle, wire_mm)
        found = {
            "wire_mm": wire_mm,
            "over_min_mm": over_wires_exact_mm(low, *sizes),
            "over_max_mm": over_wires_exact_mm(high, *sizes),
        }
        if over_wires is not None:
            now = pitch_diameter_from_wires_exact_mm(length(over_wires, "over_wires").mm, *sizes)
            found.update(now_pitch_mm=now, left_least_mm=now - high, left_most_mm=now - low)
            cautions.append(caution("judge_major_assumed"))
    else:
        found["plug"] = shop_plug(own, pitch=(mm(low), mm(high)), wire=wire)
    catalogue = active()
    return Suited(
        thread=own.title,
        side=own.side,
        unit=own.unit,
        pitch_min_mm=low,
        pitch_max_mm=high,
        clearance_min_mm=least,
        clearance_max_mm=most,
        measured_pitch_mm=measured.mm,
        cautions=tuple(cautions),
        evidence=(*answer.evidence(catalogue), *coat.evidence(catalogue)),
        **found,
    )
