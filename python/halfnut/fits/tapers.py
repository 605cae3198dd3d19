"""Self-holding tapers of spindles and tailstocks: what stands beside the figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length as read_length
from halfnut.fits.figures import HoldingTaperFigures

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike

__all__ = ["HoldingTaper"]


class HoldingTaper(HoldingTaperFigures):
    """A self-holding taper. Lengths in mm."""

    @property
    def ratio(self) -> str:
        """The taper on the diameter, as one in so much."""
        return f"1:{1.0 / self.taper_on_diameter:.3f}"

    @property
    def carriage_mm(self) -> float:
        """Travel of the carriage over which the taper is proved."""
        return 25.0 if self.unit == "mm" else MM_PER_INCH

    @property
    def rise_mm(self) -> float:
        """What a dial on the side then moves."""
        return self.carriage_mm * self.taper_on_diameter / 2

    @property
    def small_step_mm(self) -> float:
        """A small step on the diameter."""
        return 0.01 if self.unit == "mm" else 0.001 * MM_PER_INCH

    @property
    def moves_mm(self) -> float:
        """How far that step moves the gauge plane."""
        return self.small_step_mm / self.taper_on_diameter

    def diameter_mm(self, from_gauge_plane: LengthLike) -> float:
        """Diameter at a distance from the gauge plane.

        Parameters
        ----------
        from_gauge_plane : str, Length or pint quantity
            Towards the small end.

        Returns
        -------
        float
            The diameter, mm.
        """
        return self.large_mm - self.taper_on_diameter * read_length(from_gauge_plane, "from_gauge_plane").mm
