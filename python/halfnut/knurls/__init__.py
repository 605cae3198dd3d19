"""Knurls: the blank that tracks, the shop's wheels, and the setup at the lathe."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.knurls.figures import *
    from halfnut.knurls.formulas import *
    from halfnut.knurls.questions import *
    from halfnut.knurls.wheels import *

furnish(__name__)
