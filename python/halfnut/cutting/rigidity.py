"""How far work deflects under the tool, is squeezed by the jaws, and grows by its own warmth: words and numbers."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

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

    @property
    def larger_mm(self) -> float:
        """How much larger than set the worst place is turned."""
        return 2 * self.worst_mm


class JawSqueeze(JawSqueezeFigures):
    """A ring or tube in jaws: the force that holds it, and how far out of round it comes when bored there."""

    @property
    def instead_words(self) -> str:
        """The same with other numbers of jaws."""
        return jaws_words(self.by_jaws, self.unit)


def jaws_words(by_jaws: Iterable[InJaws], unit: str) -> str:
    """Out-of-round by number of jaws, as a person reads it."""
    return ", ".join(f"{spell(each.out_of_round_mm, 'length', unit)} with {each.jaws}" for each in by_jaws)
