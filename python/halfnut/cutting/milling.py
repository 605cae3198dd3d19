"""The way down into slots and pockets: what stands beside the figures."""

from __future__ import annotations

from typing import ClassVar

from halfnut.cutting.cuts import Cut
from halfnut.cutting.figures import EntryFigures

__all__ = ["Entry"]


class Entry(EntryFigures):
    """How an end mill goes down into the work: a slope or a helix, and the cut at full depth."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("turns", "time", "spindle", *Cut.SHORT)
    ANSWER: ClassVar[str] = "{way} at {angle_deg}, {spindle_rpm}, {feed_mm_min} at the centre"
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("turns", "{turns_words}, {pitch_mm} down in each"),
        ("time", "{time_s} on the way down"),
    )

    cut: Cut

    @property
    def said(self) -> str:
        """The way down in one line."""
        return str(
            self.filled("{way} down to each level at {angle_deg}, {length_mm:travel} of travel at {feed_mm_min}")
        )

    @property
    def turns_words(self) -> str | None:
        """Turns of a helix."""
        return None if self.turns is None else f"{self.turns:.1f} turns"

    @property
    def spindle_rpm(self) -> float:
        """Spindle speed of the cut."""
        return self.cut.spindle_rpm

    def report(self) -> list[tuple[str, str]]:
        """The way down, then the cut at full depth."""
        return [*super().report(), ("spindle", self.cut.spindle_text), *self.cut.report()]
