"""The formulas of numbers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from halfnut._core import gear_centres_mm, train_lead_mm

__all__ = ["gear_centres_mm", "train_lead_mm"]
