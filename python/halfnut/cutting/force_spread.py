"""How far a force may lie from the one computed, by alloy, process and edge: what stands beside the figures."""

from __future__ import annotations

from halfnut.core.words import words
from halfnut.cutting.figures import ForceBandFigures

__all__ = ["ForceBand"]


class ForceBand(ForceBandFigures):
    """Where a measured force lies, as shares of the computed one; power and torque follow the force."""

    @property
    def answer(self) -> str:
        """The band in one line."""
        return f"{self.low:.2f} to {self.high:.2f} of the computed force  ({self.process} {self.alloy.title})"

    @property
    def checked(self) -> str:
        """Whether measured cuts bear it out."""
        return words("band", "verified" if self.verified else "unverified")

    @property
    def counted(self) -> str | None:
        """Measured cuts of the group."""
        if not self.rows:
            return None
        middle = "" if self.median is None else f", computed over measured {self.median:.2f} in the middle"
        return f"{self.rows} measured cuts of the group, {self.papers} paper{'' if self.papers == 1 else 's'}{middle}"
