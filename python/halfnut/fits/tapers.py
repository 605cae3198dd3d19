"""Self-holding tapers of spindles and tailstocks: ends, taper, settings of the lathe."""

from __future__ import annotations

from typing import Any

from halfnut.core.sizes import MM_PER_INCH, both, one
from halfnut.core.units import length as read_length
from halfnut.core.words import caution_lines
from halfnut.fits.figures import HoldingTaperFigures

__all__ = ["HoldingTaper"]


class HoldingTaper(HoldingTaperFigures):
    """A self-holding taper. Lengths in mm."""

    def diameter_mm(self, from_gauge_plane: Any) -> float:
        """Diameter at a distance from the gauge plane, towards the small end."""
        return self.large_mm - self.taper_on_diameter * read_length(from_gauge_plane, "from_gauge_plane").mm

    def lines(self) -> list[str]:
        """Ends and length in the first line, then the taper, settings, proofs, what they rest on."""
        unit = self.unit
        ratio = 1.0 / self.taper_on_diameter
        out = [
            f"{self.name}: {both(self.large_mm, unit)} at the gauge plane, {both(self.small_mm, unit)} "
            f"at {both(self.length_mm, unit)} from it"
        ]
        out.append(f"  taper     1:{ratio:.3f} on the diameter, {self.per_foot_in:.5f} in per foot")
        out.append(f"  set       compound or attachment at {self.angle_deg:.4f} deg from the axis")
        if self.setover_mm is not None:
            out.append(f"  set over  the tailstock by {both(self.setover_mm, unit)}")
        travel = 25.0 if unit == "mm" else MM_PER_INCH
        rise = travel * self.taper_on_diameter / 2
        out.append(f"  prove     a dial on the side moves {both(rise, unit)} in {one(travel, unit)} of carriage")
        out.append(f"  sine bar  {both(self.sine_stack_mm, unit)} under a bar of {one(self.sine_bar_mm, unit)}")
        small = 0.01 if unit == "mm" else 0.001 * MM_PER_INCH
        out.append(
            f"  gauge     {one(small, unit)} on the diameter moves the gauge plane {both(small * ratio, unit)} along"
        )
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        return [*out, *caution_lines(self.told)]
