"""Alloys by name, and where each of their properties comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.material.coatings import *
    from halfnut.material.figures import *
    from halfnut.material.questions import *

furnish(__name__)
