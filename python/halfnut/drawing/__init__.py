"""Figures, black on white."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.drawing.charts import *
    from halfnut.drawing.chasing import *
    from halfnut.drawing.cylinders import *
    from halfnut.drawing.fits import *
    from halfnut.drawing.gears import *
    from halfnut.drawing.knurls import *
    from halfnut.drawing.threads import *

furnish(__name__)
