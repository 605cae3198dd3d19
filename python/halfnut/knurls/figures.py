"""Figures of the answers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING, ClassVar

from halfnut.core.fixed import made
from halfnut.core.questions import Answered

if TYPE_CHECKING:
    from halfnut.cutting.figures import Cut


__all__ = ["DialReading", "KnurlBlank", "KnurlSetup", "WheelChoice", "WheelOnDiameter"]


@made(frozen=True)
class KnurlBlank(Answered):
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
    given_tracks: bool
    """The diameter that was given is near enough to whole teeth as it is."""
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
    pattern_assumed: bool = field(repr=False, compare=False)
    """Whether the pattern was not said."""
    off_teeth: float = field(repr=False, compare=False)
    """How far the teeth are from whole ones, either way."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "knurled",
        "limits",
        "tracks",
    )


@made(frozen=True)
class WheelOnDiameter:
    """One wheel on one diameter; None where a figure does not apply."""

    wheel: str
    """Its name."""
    pattern: str
    """Pattern that it prints."""
    pitch: str
    """Its pitch."""
    tracks: bool
    """The diameter takes nearly a whole number of its teeth."""
    mismatch_teeth: float | None
    """How far from a whole number of teeth the diameter is, -0.5 to 0.5."""
    mismatch_limit_teeth: float | None
    """Mismatch beyond which it is likely to print a second set."""
    blank_diameter_mm: float | None
    """Nearest blank that tracks. In mm."""
    finished_diameter_mm: float | None
    """Diameter expected over the points of that blank. In mm."""
    below_diameter_mm: float | None
    """Largest blank that tracks, not above the diameter. In mm."""
    below_teeth: int | None
    """Teeth around that."""
    above_diameter_mm: float | None
    """Smallest blank that tracks, not below it. In mm."""
    above_teeth: int | None
    """Teeth around that."""
    refusal: str
    """Why there is no blank."""
    off_teeth: float | None = field(repr=False, compare=False)
    """How far the teeth are from whole ones, either way."""
    in_column: str = field(repr=False, compare=False)
    """The name, as wide as a column of names."""


@made(frozen=True)
class WheelChoice(Answered):
    """The shop's wheels on one diameter, best first."""

    diameter_mm: float
    """The diameter that was given. In mm."""
    unit: str
    """Unit that the answer is shown in first: that of the diameter given."""
    wheels: tuple[WheelOnDiameter, ...]
    """Each wheel, those first that are nearest to whole teeth."""
    tracking: tuple[str, ...] = field(repr=False, compare=False)
    """Names of the wheels that track."""

    _made: ClassVar[Mapping[str, type | str]] = {"wheels": WheelOnDiameter}
    SHORT: ClassVar[tuple[str, ...]] = ("*",)


@made(frozen=True)
class DialReading:
    """A dial's reading from zero."""

    slide: str
    """Slide whose dial it is."""
    turns: int
    """Whole turns of the handle."""
    line: int
    """Nearest line within the turn."""
    remainder_mm: float
    """What the line misses; on the diameter where the dial reads the diameter. In mm."""
    graduation_mm: float
    """What one line is marked as. In mm."""
    unit: str
    """Unit of the dial."""
    said: str
    """The reading in words."""


@made(frozen=True)
class KnurlSetup(Answered):
    """How to knurl a band; None where a figure does not apply."""

    blank: KnurlBlank
    """The blank."""
    alloy: str
    """The work's material."""
    unit: str
    """Unit that the answer is shown in first: that of the diameter given."""
    width_mm: float
    """Width of the band. In mm."""
    wheels: int
    """Wheels that the holder carries."""
    wheel_kind: str
    """What wheels they are."""
    chamfer_mm: float
    """Chamfer of the blank's ends. In mm."""
    groove_depth_mm: float | None
    """Depth of the groove where a cut knurl ends. In mm."""
    infeed_mm: float
    """Infeed on the radius, from touching to full depth. In mm."""
    infeed_mm_rev: float
    """Infeed a turn of the work. In mm/rev."""
    first_bite_mm: float
    """First bite, at once. In mm."""
    turns: int
    """Turns of the work from touching to full depth, the first bite counted as one."""
    dwell_turns: int
    """Turns to dwell at full depth."""
    passes: int
    """Passes along the work."""
    feed_mm_rev: float | None
    """Feed along the work, where the band is wider than the wheels. In mm/rev."""
    spindle_rpm: float
    """Spindle speed to set. In rev/min."""
    dial: DialReading | None
    """Reading of the cross slide's dial at full depth, for one wheel pushed in."""
    force_n: float | None
    """Force of one wheel, within a factor of two or three. In N."""
    side_force_n: float | None
    """Force that the work must bear across its axis. In N."""
    bend_mm: float | None
    """Deflection of the work under it. In mm."""
    wall_mm: float | None
    """Wall of a tube. In mm."""
    least_wall_mm: float | None
    """Least wall that bears the wheels. In mm."""
    interference_min_mm: float | None
    """Least raised diameter less the greatest hole, for a press fit. In mm."""
    interference_max_mm: float | None
    """Greatest raised diameter less the least hole. In mm."""
    bite_share: float | None
    """Share of the tooth's depth that the greatest interference buries."""
    cut: Cut
    """The cut."""
    said: str
    """Blank, wheels and speed in one line."""
    finished_diameter_mm: float = field(repr=False, compare=False)
    """What the knurl comes out at. In mm."""
    infeed_said: str
    """The first bite and the way to full depth, on the radius."""
    steps: tuple[str, ...]
    """What to do at the lathe, in order."""
    assumed: tuple[str, ...]
    """What was not said and therefore taken."""

    _made: ClassVar[Mapping[str, type | str]] = {
        "dial": DialReading,
        "blank": "halfnut.knurls.figures:KnurlBlank",
        "cut": "halfnut.cutting.figures:Cut",
    }
    SHORT: ClassVar[tuple[str, ...]] = (
        "infeed",
        "over",
        "feed",
        "force",
    )
    AT_MACHINE: ClassVar[bool] = True
