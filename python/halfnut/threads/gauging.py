"""Measuring threads: what to read over wires.

The functions of numbers take the half angle in the axial plane (30 for a 60 degree thread) and the lead (starts times
the pitch); ``over_wires_exact_mm`` is the contact itself, the formulas beside it are those of the shop and of the
standards.
"""

from __future__ import annotations

from halfnut._core import (
    across_balls_exact_mm,
    across_balls_plain_mm,
    across_balls_skew_mm,
    best_wire_exact_mm,
    best_wire_mm,
    flank_error_equivalent_mm,
    largest_ball_mm,
    largest_wire_mm,
    over_wires_exact_mm,
    over_wires_held_mm,
    over_wires_involute_mm,
    over_wires_lead_mm,
    over_wires_normal_mm,
    over_wires_plain_mm,
    pitch_diameter_from_balls_exact_mm,
    pitch_diameter_from_wires_exact_mm,
    pitch_diameter_from_wires_lead_mm,
    pitch_diameter_from_wires_plain_mm,
    pitch_error_equivalent_mm,
    smallest_ball_mm,
    smallest_wire_mm,
    spell,
    spell_span,
    wire_tilt_deg,
)
from halfnut.core.sizes import both
from halfnut.threads.figures import OverWiresFigures

__all__ = [
    "OverWires",
    "across_balls_exact_mm",
    "across_balls_plain_mm",
    "across_balls_skew_mm",
    "best_wire_exact_mm",
    "best_wire_mm",
    "flank_error_equivalent_mm",
    "largest_ball_mm",
    "largest_wire_mm",
    "over_wires_exact_mm",
    "over_wires_held_mm",
    "over_wires_involute_mm",
    "over_wires_lead_mm",
    "over_wires_normal_mm",
    "over_wires_plain_mm",
    "pitch_diameter_from_balls_exact_mm",
    "pitch_diameter_from_wires_exact_mm",
    "pitch_diameter_from_wires_lead_mm",
    "pitch_diameter_from_wires_plain_mm",
    "pitch_error_equivalent_mm",
    "smallest_ball_mm",
    "smallest_wire_mm",
    "wire_tilt_deg",
]


class OverWires(OverWiresFigures):
    """Sizes over wires of an external thread, or across two balls of an internal one (then wire is the ball)."""

    @property
    def answer(self) -> str:
        """The two readings and the wire."""
        when = "before coating " if self.before_coating else ""
        return f"{when}{self.thread}: {self._reading(self.unit)}"

    @property
    def wires(self) -> str:
        """What it is read over: wires, or balls."""
        return "wires" if self.side == "external" else "balls"

    @property
    def other_reading(self) -> str:
        """The reading in the other unit."""
        return self._reading("mm" if self.unit == "in" else "in")

    @property
    def chosen(self) -> str:
        """The best wire, and how this one was come by."""
        best = both(self.best_wire_mm, self.unit, 1)
        return f"{best}, taken" if self.wire_choice == "best" else f"{best}; taken: {self.wire_choice}"

    @property
    def plain_off_mm(self) -> float:
        """By how much the plain formula is off."""
        return self.over_max_plain_mm - self.over_max_mm

    @property
    def offset_mm(self) -> float | None:
        """What an offset of half a pitch adds, where there is one."""
        return self.skew_add_mm or None

    @property
    def left_mm(self) -> float:
        """What is left unknown of the pitch diameter."""
        return self.wire_known_to_mm * self.wire_error_factor

    def _reading(self, unit: str) -> str:
        over = "over" if self.side == "external" else "across"
        size = spell_span(self.over_min_mm, self.over_max_mm, "fine", unit)
        return f"{size} {over} {spell(self.wire_mm, 'fine', unit)} {self.wires}"
