"""Taper pipe threads: what they are cut and gauged to."""

from __future__ import annotations

from halfnut.threads.figures import TaperPipeFigures

__all__ = ["TaperPipe"]


class TaperPipe(TaperPipeFigures):
    """What a taper pipe thread is cut and gauged to; figures are None where the standard gives none."""

    @property
    def depth_mm(self) -> float:
        """Depth of the thread in an internal part: hand engagement and wrench turns."""
        return self.hand_engagement_mm + (self.wrench_length_mm or 0.0)

    @property
    def fewest_turns(self) -> float:
        """Fewest turns of hand engagement."""
        return self.hand_turns - self.tolerance_turns

    @property
    def most_turns(self) -> float:
        """Most turns of hand engagement."""
        return self.hand_turns + self.tolerance_turns

    @property
    def inches_per_foot(self) -> float:
        """What an attachment is set to."""
        return 12 * self.taper_on_diameter
