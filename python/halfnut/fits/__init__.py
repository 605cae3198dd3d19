"""Plain holes and shafts, and self-holding tapers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.fits.cylindrical import *
    from halfnut.fits.figures import *
    from halfnut.fits.formulas import *
    from halfnut.fits.questions import *
    from halfnut.fits.tapers import *

furnish(__name__)
