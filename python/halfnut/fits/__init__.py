"""Plain holes and shafts, and self-holding tapers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnished

if TYPE_CHECKING:
    from halfnut.fits.cylindrical import *
    from halfnut.fits.questions import *
    from halfnut.fits.tapers import *

__getattr__, __dir__ = furnished(__name__)
