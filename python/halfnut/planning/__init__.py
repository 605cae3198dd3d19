"""Whole jobs: the file, its operations in order, the stock, and the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.planning.answers import *
    from halfnut.planning.job import *
    from halfnut.planning.plans import *
    from halfnut.planning.stock import *
    from halfnut.planning.timing import *
    from halfnut.planning.walking import *

furnish(__name__)
