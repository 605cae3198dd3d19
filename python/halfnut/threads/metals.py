"""What a metal brings to a thread: its minimum strength in a form, and whether two of them gall."""

from __future__ import annotations

from typing import Any

from halfnut._core import spell
from halfnut.core.sizes import both, both_systems
from halfnut.threads.figures import GallingFigures, MinimumStrengthFigures

__all__ = ["Galling", "MinimumStrength"]


class MinimumStrength(MinimumStrengthFigures):
    """Minimum strengths of an alloy in a form; None where the specification sets none or none is known."""

    def to_dict(self) -> dict[str, Any]:
        """The answer as a flat dictionary, each figure in both systems of units."""
        return both_systems(super().to_dict())

    @property
    def answer(self) -> str:
        """The strengths."""
        first = f"{self.alloy} {self.form}, at least: tensile {spell(self.tensile_mpa, 'stress', 'mm')}"
        return f"{first}, yield {'not set' if self.yield_mpa is None else spell(self.yield_mpa, 'stress', 'mm')}"

    def report(self) -> list[tuple[str, str]]:
        """Other strengths, range, where they are from."""
        out = [
            (name, spell(value, "stress", "mm"))
            for name, value in (("shear", self.shear_mpa), ("bearing", self.bearing_mpa))
            if value is not None
        ]
        out.append(("temper", self.temper))
        if self.over_mm or self.up_to_mm:
            low = f"over {both(self.over_mm, 'mm')}" if self.over_mm else ""
            high = f"up to {both(self.up_to_mm, 'mm')}" if self.up_to_mm else ""
            out.append(("serves", " ".join(each for each in (low, high) if each)))
        if self.grain or self.least_of_grain:
            out.append(("grain", self.grain or "the least of along and across"))
        if self.note:
            out.append(("note", self.note))
        cited = dict.fromkeys(f"{item.source} [{item.kind}]" for item in self.evidence)
        return [*out, *(("rests on", each) for each in cited)]


class Galling(GallingFigures):
    """How two metals go together in a thread, what to do about it, and the friction that goes with it."""

    @property
    def answer(self) -> str:
        """The severity."""
        known = "galling not known" if self.severity == "unknown" else f"galling {self.severity}"
        return f"{self.alloy} in {self.other}: {known}"

    def report(self) -> list[tuple[str, str]]:
        """Advice, and friction."""
        out = [("advice", each) for each in self.advice]
        out += [("friction", f"{each.low:.2f} to {each.high:.2f} {each.lubricant}") for each in self.friction]
        return out + ([("note", self.note)] if self.note else [])
