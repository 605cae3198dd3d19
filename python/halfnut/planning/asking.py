"""A part as it comes from operation to operation, and a question about one: what it asks is filled in by name."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import TypeVar

from halfnut._core import Length, spell
from halfnut.core.questions import declared
from halfnut.core.units import in_unit
from halfnut.cutting.figures import Cut
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Levers
from halfnut.planning.job import KINDS, Coating, Job, Part, Step

__all__ = ["Workpiece", "asked", "put"]
Found = TypeVar("Found")

APPROACH_MM = 2.0
_HOLES = ("spot", "drill", "countersink", "counterbore", "ream", "tap")
_STAYS = ("turn", "taper", "groove", "thread", "knurl")
"""What is done with the centre left where it is."""


@dataclass(frozen=True)
class Keep:
    """A spindle step, and the speed that it is set to."""

    step: int
    rpm: float


@dataclass
class Workpiece:
    """A part as it comes from operation to operation: how the walk finds it, and how the machine stands."""

    part: Part
    unit: str
    coating: Coating | None
    blank_mm: float | None = None
    """Length of the blank in the chuck, or of the whole bar that goes through the spindle."""
    walked: Mapping[str, object] = field(default_factory=dict)
    """What the operation in hand comes to: see `walking.WalkedPart`."""
    last: tuple[Machine, tuple[Levers, ...]] | None = None
    """Machine and lever positions of the operation before."""
    set_to: tuple[str, Cut] | None = None
    """Machine and last cut of the operation before, where it was turning, facing, boring or milling."""
    keep: Keep | None = None
    """The spindle step that neighbouring operations share."""
    centre: tuple[object, str] | None = None
    """Setting that a centre was brought up in, and how."""

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

    def spelled(self, value_mm: float) -> str:
        """A size in the part's own unit."""
        return spell(value_mm, "length", self.unit)

    def found(self, name: str) -> float | None:
        """A size that the walk finds."""
        value = self.walked[name]
        return value if isinstance(value, float) else None

    @property
    def outside_mm(self) -> float:
        """The outside diameter that the operation meets."""
        return self.found("start_mm") or 0.0

    @property
    def hole_mm(self) -> float | None:
        """The hole that the operation finds."""
        return self.found("hole_mm")

    @property
    def bore(self) -> Length | None:
        """The same as a length."""
        return None if self.hole_mm is None else self.length(self.hole_mm)

    @property
    def held(self) -> Mapping[str, object]:
        """How the walk finds it held."""
        after = self.walked["after"]
        assert isinstance(after, Mapping)
        held: Mapping[str, object] = after["held"]
        return held

    def stepped(self) -> dict[str, object]:
        """What stands in place of the overhang where the walk knows that the work is stepped."""
        sections = self.walked["sections"]
        assert isinstance(sections, Sequence)
        if not sections:
            return {}
        names = ("length_mm", "diameter_mm", "bore_mm")
        sizes = [tuple(self.length(each[name]) for name in names if each[name]) for each in sections]
        return {"sections": sizes, "cut_at": self.length(self.found("cut_at_mm") or 0.0), "stick_out": None}

    def coat(self, step: Step) -> Coating | None:
        """The coating that what an operation makes will bear."""
        return None if step.masked else self.coating

    def overhang(self, step: Step) -> Length | None:
        """How far the work stands out of what holds it: as said, else as the walk finds it; of inside work not."""
        if step.text("side") == "internal":
            return None
        said = step.size("stick_out")
        if said is not None and step.do not in {"bore", "part off"}:
            return self.length(said.base)
        out = self.held["stick_out_mm"]
        return self.length(out) if isinstance(out, float) and out > 0.0 else None

    def hold(self, step: Step) -> str | None:
        """How the work is held: as said; a centre stays where it was brought up."""
        said = step.text("hold") or None
        setting = self.held["setting"]
        if said is None and step.do in _STAYS and self.centre is not None and self.centre[0] == setting:
            return self.centre[1]
        if said is not None:
            self.centre = (setting, said) if said != "chuck" else None
        return said

    def told(self, step: Step, machine: Machine) -> dict[str, object]:
        """What a question of an operation may ask, by the names of its arguments."""
        part, stock = self.part, self.part.stock
        called = KINDS[step.do]["called"]
        out: dict[str, object] = {called.get(key, key): value for key, value in step.given().items()}
        roughness = step.size("roughness")
        out |= {
            "alloy": part.alloy,
            "machine": machine,
            "tool": step.tool or part.tool,
            "chuck": step.holding,
            "bore": self.bore,
            "roughness_um": None if roughness is None else 1000.0 * roughness.base,
            "bar_diameter": step.size("bar"),
            "overhang": step.size("stick_out"),
            "approach": self.length(APPROACH_MM) if step.do in _HOLES else None,
            "jaws": part.jaws,
            "friction": part.friction,
            "safety": part.safety,
        }
        if self.keep is not None:
            out |= {"spindle_rpm": self.keep.rpm, "only_spindle": self.keep.step}
        if machine.kind != "lathe":
            return out
        out |= {"hold": self.hold(step), "stick_out": self.overhang(step)} | self.stepped()
        if stock.form == "plate":
            return out
        across = stock.across_flats or stock.diameter
        assert across is not None
        size = self.length(across.base)
        out["stock"] = f"{size} hex" if stock.across_flats is not None else size
        if self.blank_mm is not None and (stock.through_spindle or not across.base > machine.core.spindle_bore_mm):
            out["bar_length"] = self.length(self.blank_mm)
        return out


@cache
def _arguments(question: str) -> tuple[str, ...]:
    return tuple(row["name"] for row in declared()[question]["arguments"])


def asked(question: Callable[..., Found], work: Workpiece, step: Step, machine: Machine, **own: object) -> Found:
    """The answer to a question about an operation: what is not given here the operation, its part or the walk tell."""
    known = work.told(step, machine) | own
    names = _arguments(question.__name__)
    return question(**{name: known[name] for name in names if known.get(name) is not None})


def put(question: Callable[..., Found], given: Mapping[str, object]) -> Found:
    """The answer to a question whose arguments a job's file gives by their names."""
    return question(**given)


Ask = Callable[[Workpiece, Step, Machine], Answer]
"""What answers an operation of one kind."""
