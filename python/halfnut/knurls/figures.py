"""Figures of the answers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from dataclasses import dataclass

from halfnut.core.questions import Answered


@dataclass(frozen=True)
class KnurlBlankFigures(Answered):
    """The blank to turn before knurling, and what comes of it; None where a figure does not apply."""

    pitch: str
    """Pitch as it was asked for."""
    pattern: str
    """What the knurl looks like on the work."""
    process: str
    """How the teeth are made."""
    finished_wanted: bool
    """The diameter that was given is wanted after knurling."""
    unit: str
    """Unit that the answer is shown in first: that of the diameter given."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken."""
    blank_diameter_mm: float
    """Diameter to turn. In mm."""
    teeth: int
    """Whole teeth around it."""
    blank_plus_minus_mm: float
    """Tolerance of the blank to either side. In mm."""
    finished_diameter_mm: float
    """Diameter expected over the points. In mm."""
    finished_max_mm: float | None
    """Greatest diameter over the points by the tolerance class. In mm."""
    finished_min_mm: float | None
    """Least diameter over the points by the tolerance class. In mm."""
    growth_mm: float
    """Growth of the diameter. In mm."""
    tooth_depth_mm: float
    """Full depth of the teeth. In mm."""
    given_diameter_mm: float
    """Blank that was given, or that leaves the finished diameter. In mm."""
    given_teeth: float
    """Teeth around that one, not rounded."""
    given_mismatch_teeth: float
    """How far these are from whole ones, -0.5 to 0.5."""
    given_mismatch_mm: float
    """The same along the surface. In mm."""
    mismatch_limit_teeth: float
    """Mismatch beyond which the wheel is likely to print a second set."""
    below_diameter_mm: float
    """Largest blank that tracks, not above it. In mm."""
    below_teeth: int
    """Teeth around that."""
    above_diameter_mm: float
    """Smallest blank that tracks, not below it. In mm."""
    above_teeth: int
    """Teeth around that."""
    normal_pitch_mm: float
    """Pitch across the teeth, as called for. In mm."""
    transverse_pitch_mm: float
    """Pitch around the work, as the wheel prints it. In mm."""
    helix_deg: float
    """Angle of the teeth from the axis. In deg."""
    wheel_diameter_mm: float | None
    """Diameter of the wheel over the points. In mm."""
    wheel_teeth: int | None
    """Teeth of the wheel."""
    tracking_allowance_mm: float | None
    """How much larger than measured the wheel tracks. In mm."""
