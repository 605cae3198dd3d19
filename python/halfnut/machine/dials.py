"""What a dial reads: turns of the handle and lines, and what is left over between two lines."""

from __future__ import annotations

from dataclasses import dataclass

from halfnut._core import DomainError, Slide, spell

__all__ = ["Reading", "reading"]


@dataclass(frozen=True)
class Reading:
    """A dial's reading from zero: whole turns, the line within the turn, and the remainder to the nearest line.

    Parameters
    ----------
    slide : str
        Name of the slide.
    turns : int
        Whole turns of the handle.
    line : int
        The nearest line of the dial within the turn.
    remainder_mm : float
        What that line misses. It counts as the dial does: on the diameter where the dial reads the diameter.
    graduation_mm : float
        What one line is marked as.
    unit : str
        Of the dial, "in" or "mm".
    """

    slide: str
    turns: int
    line: int
    remainder_mm: float
    graduation_mm: float
    unit: str

    @property
    def remainder(self) -> str:
        """The remainder with its sign and unit, or an empty text."""
        if self.remainder_mm == 0:
            return ""
        text = spell(abs(self.remainder_mm), "fine", self.unit)
        return f"+{text}" if self.remainder_mm > 0 else f"−{text}"

    def __str__(self) -> str:
        whole = f"{self.turns} turn{'' if self.turns == 1 else 's'} + " if self.turns else ""
        over = f" {self.remainder}" if self.remainder else ""
        return f"{whole}{self.line} line{'' if self.line == 1 else 's'}{over}"


def reading(slide: Slide, diameter_change_mm: float | None = None, *, travel_mm: float | None = None) -> Reading:
    """The reading of a dial that was set to zero.

    Parameters
    ----------
    slide : halfnut._core.Slide
        The slide, from a machine.
    diameter_change_mm : float, optional
        By how much a diameter changes, for a slide that moves across the work.
    travel_mm : float, optional
        How far the slide goes; one of the two is given.

    Returns
    -------
    Reading
        To the nearest line; the remainder says what the line misses.

    Raises
    ------
    DomainError
        Both or neither are given, or less than zero.
    """
    if (diameter_change_mm is None) == (travel_mm is None):
        raise DomainError("give diameter_change_mm or travel_mm, one of the two")
    travel = diameter_change_mm / 2 if diameter_change_mm is not None else travel_mm
    assert travel is not None
    if not 0 <= travel < float("inf"):
        raise DomainError(f"a dial's travel must be >= 0 mm, got {travel:g}")
    turns, line, remainder = slide.reading(travel)
    unit = "in" if slide.marked_in_inch else "mm"
    return Reading(slide.name, turns, line, remainder, slide.graduation_mm, unit)
