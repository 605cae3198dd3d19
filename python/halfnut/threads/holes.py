"""Holes for screws: before tapping, blind, clearance, counterbored and countersunk.

Per cent of thread has one basis for metric and Unified threads, that of tap-drill tables: 100 is a double depth of
1.299 P. The basic height of the internal thread is 83.3 of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from halfnut._core import (
    Length,
    blind_drill_depth_mm,
    countersink_depth_mm,
    countersink_diameter_mm,
    forming_hole_mm,
    forming_percent,
    full_thread_mm,
    hole_for_strip_ratio_mm,
    point_length_mm,
    strip_ratio,
    tapping_hole_mm,
    thread_percent,
)
from halfnut.core.sizes import both, one, span
from halfnut.core.words import words
from halfnut.threads.figures import (
    DrillSetFigures,
    ScrewSeatFigures,
    TappingHoleFigures,
)

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike

    DrillLike: TypeAlias = "LengthLike | tuple[str, Length] | TappingHole"

__all__ = [
    "DrillSet",
    "ScrewSeat",
    "TappingHole",
    "blind_drill_depth_mm",
    "countersink_depth_mm",
    "countersink_diameter_mm",
    "forming_hole_mm",
    "forming_percent",
    "full_thread_mm",
    "hole_for_strip_ratio_mm",
    "point_length_mm",
    "strip_ratio",
    "tapping_hole_mm",
    "thread_percent",
]


class TappingHole(TappingHoleFigures):
    """The drill for a tapped hole of any form, and what it leaves of the thread.

    Figures are None where one does not apply: a taper pipe thread has two drills, and no limits.
    """

    @property
    def given(self) -> tuple[str, Length]:
        """What a blind hole takes of it: the drill."""
        return self.drill, Length(self.drill_mm, "mm")

    @property
    def answer(self) -> str:
        """The drill, and the thread it leaves."""
        return f"{self.thread}: {self._drill()}"

    def report(self) -> list[tuple[str, str]]:
        """The hole wanted, the limits, what the drill leaves."""
        return [
            *(self._tapered() if self.hand_turns is not None else self._parallel()),
            ("load", words("said", "load")),
        ]

    def _drill(self) -> str:
        if self.hand_turns is not None:
            return f"drill {self.drill} straight, or {self.ream_drill} and ream 1:16"
        share = f"{self.percent:.0f} %"
        if self.basic_percent is not None:
            formed = " formed" if self.tap == "form" else ""
            return f"drill {_named(self.drill, self.drill_mm, self.unit)}: {share} of thread{formed}"
        if self.in_limits:
            return f"drill {self.drill}: {share} of the form's height"
        return f"drill {self.drill}, then bore or ream to {both(self.wanted_mm or 0.0, self.unit)}"

    def _tapered(self) -> list[tuple[str, str]]:
        face, end = (both(each or 0.0, self.unit) for each in (self.hole_at_face_mm, self.hole_at_end_mm))
        return [
            ("reamed", f"{face} at the mouth, {end} at the end"),
            ("tap", f"until the plug gauge, or the fitting, goes in {self.hand_turns:.1f} turns by hand"),
        ]

    def _parallel(self) -> list[tuple[str, str]]:
        unit, other = self.unit, "mm" if self.unit == "in" else "in"
        low, high = self.hole_min_mm or 0.0, self.hole_max_mm or 0.0
        out = [("wanted", f"{both(self.wanted_mm or 0.0, unit)}, {self.wanted_percent:.0f} %")]
        if beside := [
            f"{name} ({share:.0f} %)" if name.endswith(f" {unit}") else f"{name} ({one(size, unit)}, {share:.0f} %)"
            for name, size, share in (
                (self.below, self.below_mm, self.below_percent),
                (self.above, self.above_mm, self.above_percent),
            )
            if name is not None and size is not None and share is not None
        ]:
            out.append(("nearest", " and ".join(beside)))
        kept = self.beside_limits or "within"
        out.append(("limits", f"{span(low, high, unit)} ({span(low, high, other)}): {kept}"))
        if self.tap == "form":
            minor = span(self.minor_min_mm or 0.0, self.minor_max_mm or 0.0, unit)
            out.append(("minor", f"about {one(self.minor_mm or 0.0, unit)} once formed, limits {minor}"))
        if self.oversize_mm:
            over = one(self.oversize_mm, unit)
            out.append(("hole", f"{both(self.hole_mm or 0.0, unit)}, with {over} of oversize"))
        elif self.usual_oversize_mm is not None:
            over = one(self.usual_oversize_mm, unit)
            out.append(("oversize", f"a drill this size usually cuts {over} over: measure"))
        if self.strength_ratio is not None:
            share = f"{100 * self.strength_ratio:.0f} % of the screw thread's shear area in the smallest hole"
            out.append(("strength", f"{share}; {self.basic_percent:.0f} % of the basic height"))
        return out


def _named(name: str, size_mm: float, unit: str) -> str:
    """A drill with its size in both units, each said once."""
    if name.endswith(f" {unit}"):
        return f"{name} ({one(size_mm, 'mm' if unit == 'in' else 'in')})"
    return f"{name}, {both(size_mm, unit)}"


class DrillSet(DrillSetFigures):
    """Drills, smallest first."""

    @property
    def answer(self) -> str:
        """How many there are, and from which to which."""
        return f"{len(self.names)} drills, {self.names[0]} to {self.names[-1]}"


class ScrewSeat(ScrewSeatFigures):
    """A counterbore or countersink over a clearance hole."""

    @property
    def answer(self) -> str:
        """Diameter and depth."""
        what = "counterbore" if self.angle_deg is None else f"countersink {self.angle_deg:g} deg to"
        size, depth = both(self.seat_diameter_mm, self.unit), both(self.depth_mm, self.unit)
        return f"{self.size} {self.head} head: {what} {size}, {depth} deep"

    def report(self) -> list[tuple[str, str]]:
        """The hole and the head."""
        unit = self.unit
        height = "" if self.head_height_mm is None else f", {one(self.head_height_mm, unit)} high"
        sharp = "" if self.angle_deg is None else " to its sharp corner"
        out = [
            ("hole", both(self.hole_mm, unit)),
            ("head", f"{both(self.head_diameter_mm, unit)}{sharp}{height}"),
        ]
        if self.recess_mm > 0:
            out.append(("recess", f"{one(self.recess_mm, unit)} below the surface"))
        return out + ([] if self.angle_deg is None else [("depth", "of the cone from the surface to the hole")])
