"""Cuts: levers, forces, tool life, the choice of passes, single-point threads, and how work is held."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.cutting.chasing import *
    from halfnut.cutting.choosing import *
    from halfnut.cutting.figures import *
    from halfnut.cutting.formulas import *
    from halfnut.cutting.questions import *

furnish(__name__)
