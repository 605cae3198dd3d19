"""Self-holding tapers of spindles and tailstocks: their diameter at any place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.units import length as read_length
from halfnut.fits.figures import HoldingTaperFigures

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike

__all__ = ["HoldingTaper"]


class HoldingTaper(HoldingTaperFigures):
    """A self-holding taper. Lengths in mm."""

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
