"""The shop's machines, from their files."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.machine.formulas import *
    from halfnut.machine.machines import *

furnish(__name__)
