"""Alloys of the shop, by any of their names."""

from __future__ import annotations

from functools import lru_cache
from typing import TypeAlias

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.questions import ask, read_by
from halfnut.material.figures import Alloy as Alloy

AlloyLike: TypeAlias = str | Alloy


def of_name(name: str) -> Alloy:
    """The alloy of a name."""
    return _made(name, active())


@lru_cache(maxsize=256)
def _made(name: str, catalogue: _core.Catalogue) -> Alloy:
    return Alloy.of(ask("alloy", (name,)))


read_by("Alloy", of_name)
