"""Knurls: the blank that tracks, the shop's wheels, and the setup at the lathe."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnished

if TYPE_CHECKING:
    from halfnut.knurls.blanks import *
    from halfnut.knurls.questions import *
    from halfnut.knurls.setups import *
    from halfnut.knurls.wheels import *

__getattr__, __dir__ = furnished(__name__)
