"""The formulas of numbers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from halfnut._core import (
    blank_above_mm,
    blank_below_mm,
    diametral_wheel_outside_in,
    form_growth_mm,
    knurl_contact_mm,
    knurl_force_n,
    mismatch_teeth,
    normal_pitch_mm,
    pitch_from_diametral_mm,
    pitch_from_teeth_per_inch_mm,
    sharp_tooth_depth_mm,
    teeth_around,
    tracking_blank_mm,
    tracking_helix_deg,
    transverse_pitch_mm,
    wheel_pitch_mm,
)

__all__ = [
    "blank_above_mm",
    "blank_below_mm",
    "diametral_wheel_outside_in",
    "form_growth_mm",
    "knurl_contact_mm",
    "knurl_force_n",
    "mismatch_teeth",
    "normal_pitch_mm",
    "pitch_from_diametral_mm",
    "pitch_from_teeth_per_inch_mm",
    "sharp_tooth_depth_mm",
    "teeth_around",
    "tracking_blank_mm",
    "tracking_helix_deg",
    "transverse_pitch_mm",
    "wheel_pitch_mm",
]
