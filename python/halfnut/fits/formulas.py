"""The formulas of numbers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from halfnut._core import tolerance_unit_um

__all__ = ["tolerance_unit_um"]
