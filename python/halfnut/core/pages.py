"""Pages of answers: an answer has one, and the room of sheets, which stands above, draws it.

So that no room needs to know of one above it, the package says here where drawings come from.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

__all__ = ["drawn", "drawn_by"]

_HOME: list[Callable[[str], Callable[..., Any]]] = []


def drawn_by(find: Callable[[str], Callable[..., Any]]) -> None:
    """Say how a drawing is found by its name.

    Parameters
    ----------
    find : Callable
        Gives the function that draws, by its name; it takes the place of one said before.
    """
    _HOME[:] = [find]


def drawn(name: str, answer: object, **how: str | None) -> Any:
    """An answer as the drawing of this name shows it: on which paper, under which title.

    Parameters
    ----------
    name : str
        A function of the room of sheets, such as "chart_page".
    answer : object
        What is drawn.
    **how : str or None
        What else that function takes, such as `paper` and `title`.

    Returns
    -------
    Any
        HTML as text; of a plan a dictionary of such texts by the names of files.
    """
    return _HOME[0](name)(answer, **how)
