"""Knurling at the lathe: what stands beside the figures of its setup."""

from __future__ import annotations

from typing import ClassVar

from halfnut.core.words import words
from halfnut.cutting.cuts import Cut
from halfnut.knurls.blanks import KnurlBlank
from halfnut.knurls.figures import KnurlSetupFigures

__all__ = ["KnurlSetup"]


class KnurlSetup(KnurlSetupFigures):
    """How to knurl a band. Lengths in mm, forces in N; None where one does not apply."""

    AT_MACHINE: ClassVar[bool] = True
    ANSWER: ClassVar[str] = "{said}"
    SHORT: ClassVar[tuple[str, ...]] = ("infeed", "over", "feed", "force")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("infeed", "{infeed_said}"),
        ("feed", "{feed_mm_rev}"),
        ("over", "{finished_diameter_mm} over the points"),
        ("force", "about {force_n} a wheel, within a factor of two or three; {across}[, deflects it {bend_mm}]"),
        ("wall", "{wall_mm}, at least {least_wall_mm}"),
        ("press fit", "interference {interference_min_mm..interference_max_mm}, buries {buries} of the teeth"),
        ("#", "steps"),
        ("never", "{never}"),
        ("assumed", "{assumed}"),
    )
    blank: KnurlBlank
    cut: Cut

    @property
    def finished_diameter_mm(self) -> float:
        """What the knurl comes out at."""
        return self.blank.finished_diameter_mm

    @property
    def across(self) -> str:
        """The force across the work."""
        return str(self.filled("{side_force_n} across the work")) if self.side_force_n else "balanced across the work"

    @property
    def buries(self) -> str:
        """Share of the teeth that a press fit buries."""
        return f"{100 * (self.bite_share or 0.0):.0f} %"

    @property
    def never(self) -> str:
        """Where there must be no knurl."""
        return words("said", "no_knurl")
