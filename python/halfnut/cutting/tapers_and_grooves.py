"""Tapers and grooves at the lathe: what stands beside the figures."""

from __future__ import annotations

from typing import ClassVar

from halfnut.cutting.cuts import Cut
from halfnut.cutting.figures import GrooveFigures, TaperFigures

__all__ = ["Groove", "Taper"]


class Taper(TaperFigures):
    """A taper: how to set the machine, and the cut at its large end."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("spindle", *Cut.SHORT)
    ANSWER: ClassVar[str] = (
        "set {set_to} from the axis ({foot} in a foot on the diameter)[, or set the tailstock over {setover_mm}]"
    )
    proof: ClassVar[str] = "with a gauge or over two measured places before the last pass"
    """How to prove the setting."""

    cut: Cut

    @property
    def set_to(self) -> str:
        """The setting, to a thousandth of a degree."""
        return f"{self.angle_deg:.3f}°"

    @property
    def foot(self) -> str:
        """Inches a foot, as they are set."""
        return f"{self.taper_per_foot_in:.4f}"

    def report(self) -> list[tuple[str, str]]:
        """How to prove the setting, and the cut."""
        return [("spindle", self.cut.spindle_text), *self.cut.report(), ("prove", self.proof)]


class Groove(GrooveFigures):
    """A groove: plunges side by side, each a cut of the blade."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("spindle", *Cut.SHORT)
    cut: Cut

    @property
    def answer(self) -> str:
        """The plunges in one line."""
        many = self.filled("{plunges} plunges, {step_mm} apart") if self.plunges > 1 else "one plunge"
        return f"{many}{self.filled('[, {time_s} in all]')}"

    def report(self) -> list[tuple[str, str]]:
        """One of the plunges."""
        return [("spindle", self.cut.spindle_text), *self.cut.report()]
