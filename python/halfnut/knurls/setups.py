"""Knurling at the lathe: what stands beside the figures of its setup."""

from __future__ import annotations

from halfnut.core.words import words
from halfnut.knurls.figures import KnurlSetupFigures

__all__ = ["KnurlSetup"]


class KnurlSetup(KnurlSetupFigures):
    """How to knurl a band. Lengths in mm, forces in N; None where one does not apply."""

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
