"""Self-holding tapers of spindles and tailstocks: what stands beside the figures."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length as read_length
from halfnut.fits.figures import HoldingTaperFigures

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike

__all__ = ["HoldingTaper"]


class HoldingTaper(HoldingTaperFigures):
    """A self-holding taper. Lengths in mm."""

    ANSWER: ClassVar[str] = "{name}: {large_mm} at the gauge plane, {small_mm} at {length_mm} from it"
    SHORT: ClassVar[tuple[str, ...]] = ("taper", "set", "set over", "prove")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("taper", "{ratio} on the diameter, {foot} in per foot"),
        ("set", "compound or attachment at {set_to} from the axis"),
        ("set over", "the tailstock by {setover_mm}"),
        ("prove", "a dial on the side moves {rise_mm} in {carriage_mm:size} of carriage"),
        ("sine bar", "{sine_stack_mm} under a bar of {sine_bar_mm:size}"),
        ("gauge", "{small_step_mm} on the diameter moves the gauge plane {moves_mm} along"),
    )

    @property
    def ratio(self) -> str:
        """The taper on the diameter, as one in so much."""
        return f"1:{1.0 / self.taper_on_diameter:.3f}"

    @property
    def foot(self) -> str:
        """Inches a foot on the diameter."""
        return f"{self.per_foot_in:.5f}"

    @property
    def set_to(self) -> str:
        """The setting, to a ten-thousandth of a degree."""
        return f"{self.angle_deg:.4f}°"

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
        """Diameter at a distance from the gauge plane, towards the small end."""
        return self.large_mm - self.taper_on_diameter * read_length(from_gauge_plane, "from_gauge_plane").mm
