"""Figures, black on white."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnished

if TYPE_CHECKING:
    from halfnut.drawing.charts import *
    from halfnut.drawing.chasing import *
    from halfnut.drawing.cylinders import *
    from halfnut.drawing.fits import *
    from halfnut.drawing.gears import *
    from halfnut.drawing.knurls import *
    from halfnut.drawing.threads import *

__getattr__, __dir__ = furnished(__name__)
