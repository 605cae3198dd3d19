"""Pages for the machine: cards, details, a wall chart, the bench page of an adjuster."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.sheet.adjuster import *
    from halfnut.sheet.card import *
    from halfnut.sheet.cards import *
    from halfnut.sheet.details import *
    from halfnut.sheet.layout import *
    from halfnut.sheet.outline import *
    from halfnut.sheet.pages import *
    from halfnut.sheet.paper import *
    from halfnut.sheet.papers import *
    from halfnut.sheet.telling import *
    from halfnut.sheet.wall import *

furnish(__name__)
