"""Threads: sizes, fits, coatings, gauging, holes, strength, and what is built of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.threads.adjusters import *
    from halfnut.threads.columns import *
    from halfnut.threads.figures import *
    from halfnut.threads.fitting import *
    from halfnut.threads.formulas import *
    from halfnut.threads.holes import *
    from halfnut.threads.questions import *
    from halfnut.threads.standard import *

furnish(__name__)
