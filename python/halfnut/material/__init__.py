"""Alloys by name, and where each of their properties comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnished

if TYPE_CHECKING:
    from halfnut.material.alloys import *
    from halfnut.material.coatings import *
    from halfnut.material.questions import *

__getattr__, __dir__ = furnished(__name__)
