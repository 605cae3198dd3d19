"""Measuring threads: sizes over wires and between balls, and what they say of the pitch diameter.

The functions of numbers take the half angle in the axial plane (30 for a 60 degree thread) and the lead (starts
times the pitch). ``over_wires_exact_mm`` is the contact itself; the formulas beside it are those of the shop and of
the standards.
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
    wire_tilt_deg,
)

__all__ = [
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
