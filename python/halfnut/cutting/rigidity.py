"""How far work deflects under the tool, is squeezed by the jaws, and grows by its own warmth: words and numbers."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar

from halfnut._core import (
    spell,
    work_bend_mm,
)
from halfnut.cutting.figures import JawSqueezeFigures, WorkBendFigures

if TYPE_CHECKING:
    from halfnut.cutting.figures import InJaws

__all__ = [
    "JawSqueeze",
    "WorkBend",
    "work_bend_mm",
]


class WorkBend(WorkBendFigures):
    """How far work deflects at the tool as the tool travels along it."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("diameter", "length")
    ANSWER: ClassVar[str] = "deflects {worst_mm} at {worst_at_mm:travel}, {hold}, under {force_n} across the work"
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("diameter", "up to {larger_mm} larger than set; largest less smallest {taper_mm}"),
        ("length", "{length_mm:travel}, {slender_words}"),
    )

    @property
    def larger_mm(self) -> float:
        """How much larger than set the worst place is turned."""
        return 2 * self.worst_mm

    @property
    def slender_words(self) -> str:
        """The free length in diameters."""
        return f"{self.slenderness:.1f} diameters unsupported"


class JawSqueeze(JawSqueezeFigures):
    """A ring or tube in jaws: the force that holds it, and how far out of round it comes when bored there."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("grip", "instead")
    ANSWER: ClassVar[str] = "out of round by {out_of_round_mm} on the radius when let go of {jaws} jaws"
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("grip", "{jaw_force_n} a jaw[; set {jaw_force_at_rest_n} at standstill]"),
        ("instead", "{instead_words} jaws or contacts, the same grip in all"),
    )

    @property
    def instead_words(self) -> str:
        """The same with other numbers of jaws."""
        return jaws_words(self.by_jaws, self.unit)


def jaws_words(by_jaws: Iterable[InJaws], unit: str) -> str:
    """Out-of-round by number of jaws, as a person reads it."""
    return ", ".join(f"{spell(each.out_of_round_mm, 'length', unit)} with {each.jaws}" for each in by_jaws)
