"""Pages of answers: an answer has one, and the room of sheets, which stands above, draws it.

So that no room needs to know of one above it, the package says here where drawings come from.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

__all__ = ["drawn", "drawn_by"]

_HOME: list[Callable[[str], Callable[..., Any]]] = []


def drawn_by(find: Callable[[str], Callable[..., Any]]) -> None:
    """Say how a drawing is found by its name."""
    _HOME[:] = [find]


def drawn(name: str, answer: object, **how: str | None) -> Any:
    """An answer as the drawing of this name shows it: on which paper, under which title."""
    return _HOME[0](name)(answer, **how)
