"""Holes before tapping, as other questions take them."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from halfnut._core import Length
from halfnut.threads.figures import TappingHoleFigures

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike

    DrillLike: TypeAlias = "LengthLike | tuple[str, Length] | TappingHole"

__all__ = ["TappingHole"]


class TappingHole(TappingHoleFigures):
    """The drill for a tapped hole of any form, and what it leaves of the thread; a taper pipe thread has two drills."""

    @property
    def given(self) -> tuple[str, Length]:
        """What a blind hole takes of it: the drill."""
        return self.drill, Length(self.drill_mm, "mm")
