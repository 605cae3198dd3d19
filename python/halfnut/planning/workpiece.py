"""A part as it comes from operation to operation: its running sizes."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from halfnut._core import Length, spell
from halfnut.core.units import in_unit
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer
from halfnut.planning.job import Bore, Coating, Job, Knurl, Part, PartOff, Taper, Thread, Turn

__all__ = ["Workpiece"]


@dataclass
class Workpiece:
    """A part as it comes from operation to operation: its running sizes."""

    part: Part
    unit: str
    coating: Coating | None
    outside_mm: dict[str, float]
    hole_mm: float | None
    last: tuple[Machine, Any] | None = field(default=None)
    """Machine and lever positions of the operation before."""
    blank_mm: float | None = field(default=None)
    """Length of the blank in the chuck, or of the whole bar that goes through the spindle."""
    set_to: tuple[str, int, int] | None = field(default=None)
    """Machine, spindle and feed step of the operation before, where it was turning, facing, boring or milling."""

    @classmethod
    def from_part(cls, job: Job, part: Part, unit: str, blank_mm: float | None = None) -> Workpiece:
        """The workpiece as sawn from its stock, of which a blank may hold several."""
        stock = part.stock
        outside = 0.0
        if stock.diameter is not None:
            outside = stock.diameter.base
        elif stock.across_flats is not None:
            outside = stock.across_flats.base * 2 / math.sqrt(3.0)
        hole = None if stock.bore is None else stock.bore.base
        coating = None if part.coating is None else job.coatings[part.coating]
        blank = stock.bar_length.base if stock.through_spindle and stock.bar_length is not None else blank_mm
        return cls(part, unit, coating, {"first": outside, "second": outside}, hole, blank_mm=blank)

    def length(self, value_mm: float) -> Length:
        """A length in the part's own unit, so that answers come in it."""
        return in_unit(value_mm, self.unit)

    def outside(self, step: Any) -> float:
        """The running outside diameter at the end that a step works on, or the one it starts from."""
        start = getattr(step, "start", None)
        return float(start.base) if start is not None else self.outside_mm[step.end]

    def overhang(self, step: Any) -> Length | None:
        """How far the work stands out: as said, else as its longest cut at this end, the whole piece to part it off."""
        said = getattr(step, "stick_out", None)
        if said is not None and not isinstance(step, (Bore, PartOff)):
            return self.length(said.base)
        reach = 0.0
        for each in self.part.operations:
            if each.end != step.end:
                continue
            if isinstance(each, PartOff):
                reach = max(reach, self.part.length.base + each.blade.base)
            elif isinstance(each, (Turn, Taper, Thread)):
                told = getattr(each, "stick_out", None)
                reach = max(reach, each.length.base, 0.0 if told is None else told.base)
            elif isinstance(each, Knurl):
                reach = max(reach, each.width.base)
        if getattr(step, "hold", "chuck") == "between centres":
            reach = max(reach, self.part.length.base)
        return self.length(reach) if reach > 0.0 else None

    def held(self, step: Any, machine: Machine) -> dict[str, Any]:
        """How the work is held on a lathe: its stock, and what of it stands in or behind the spindle."""
        stock = self.part.stock
        if machine.kind != "lathe" or stock.form == "plate":
            return {}
        size_mm = stock.across_flats.base if stock.across_flats is not None else self.outside_mm[step.end]
        if stock.across_flats is None and stock.diameter is not None:
            size_mm = max(size_mm, stock.diameter.base)
        size: Any = self.length(size_mm)
        out: dict[str, Any] = {"stock": f"{size} hex" if stock.across_flats is not None else size}
        fits = not size_mm > machine.core.spindle_bore_mm
        if self.blank_mm is not None and (stock.through_spindle or fits):
            out["bar_length"] = self.length(self.blank_mm)
        return out

    def turned(self, step: Any, diameter_mm: float, length_mm: float) -> None:
        """Note that the outside was turned down; over the whole length it holds for both ends."""
        self.outside_mm[step.end] = diameter_mm
        if length_mm >= self.part.length.base:
            self.outside_mm = dict.fromkeys(self.outside_mm, diameter_mm)


def size_text(work: Workpiece, value_mm: float) -> str:
    return spell(value_mm, "length", work.unit)


Ask = Callable[[Workpiece, Any, Machine], Answer]
"""A question to the core about one operation."""
