"""A part as it comes from operation to operation."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from halfnut._core import Length, spell
from halfnut.core.units import in_unit
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer
from halfnut.planning.job import Bore, Coating, Job, Part, PartOff

__all__ = ["Workpiece"]


@dataclass
class Workpiece:
    """A part as it comes from operation to operation: how the walk finds it, and how the machine stands."""

    part: Part
    unit: str
    coating: Coating | None
    blank_mm: float | None = None
    """Length of the blank in the chuck, or of the whole bar that goes through the spindle."""
    walked: Mapping[str, Any] = field(default_factory=dict)
    """What the operation in hand comes to: see `walking.WalkedPart`."""
    last: tuple[Machine, Any] | None = None
    """Machine and lever positions of the operation before."""
    set_to: tuple[str, int, int] | None = None
    """Machine, spindle and feed step of the operation before, where it was turning, facing, boring or milling."""

    @classmethod
    def from_part(cls, job: Job, part: Part, unit: str, blank_mm: float | None = None) -> Workpiece:
        """The workpiece as sawn from its stock, of which a blank may hold several."""
        stock = part.stock
        coating = None if part.coating is None else job.coatings[part.coating]
        blank = stock.bar_length.base if stock.through_spindle and stock.bar_length is not None else blank_mm
        return cls(part, unit, coating, blank)

    def length(self, value_mm: float) -> Length:
        """A length in the part's own unit, so that answers come in it."""
        return in_unit(value_mm, self.unit)

    @property
    def outside_mm(self) -> float:
        """The outside diameter that the operation meets."""
        return float(self.walked["start_mm"] or 0.0)

    @property
    def hole_mm(self) -> float | None:
        """The hole that the operation finds."""
        found: float | None = self.walked["hole_mm"]
        return found

    @property
    def bore(self) -> Length | None:
        """The same as a length."""
        return None if self.hole_mm is None else self.length(self.hole_mm)

    def coat(self, step: Any) -> Coating | None:
        """The coating that what an operation makes will bear."""
        return None if step.masked else self.coating

    def overhang(self, step: Any) -> Length | None:
        """How far the work stands out of what holds it: as said, else as the walk finds it."""
        said = getattr(step, "stick_out", None)
        if said is not None and not isinstance(step, (Bore, PartOff)):
            return self.length(said.base)
        found = self.walked["after"]["held"]["stick_out_mm"]
        return self.length(found) if found else None

    def held(self, step: Any, machine: Machine) -> dict[str, Any]:
        """How the work is held on a lathe: its stock, and what of it stands in or behind the spindle."""
        stock = self.part.stock
        if machine.kind != "lathe" or stock.form == "plate":
            return {}
        across = stock.across_flats or stock.diameter
        assert across is not None
        size: Any = self.length(across.base)
        out: dict[str, Any] = {"stock": f"{size} hex" if stock.across_flats is not None else size}
        fits = not across.base > machine.core.spindle_bore_mm
        if self.blank_mm is not None and (stock.through_spindle or fits):
            out["bar_length"] = self.length(self.blank_mm)
        return out


def size_text(work: Workpiece, value_mm: float) -> str:
    return spell(value_mm, "length", work.unit)


Ask = Callable[[Workpiece, Any, Machine], Answer]
"""A question to the core about one operation."""
