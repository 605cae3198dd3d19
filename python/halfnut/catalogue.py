"""The tables Halfnut computes with, sources included, and a shop's own rows over them."""

from __future__ import annotations

from typing import Any

from halfnut._core import Catalogue

_active = Catalogue()


def active() -> Catalogue:
    """The catalogue that level-2 functions use: the built-in tables, or those with the shop's own over them."""
    return _active


def activate(catalogue: Catalogue) -> None:
    """Make a catalogue the one that level-2 functions use."""
    global _active
    _active = catalogue


def tables() -> list[str]:
    """Names of the tables, such as "material/alloys"."""
    return active().tables()


def rows(table: str) -> list[dict[str, Any]]:
    """Rows of a table; each source is a dictionary with its kind and citation.

    >>> rows("quantity/drills")[0]["name"]
    '1'
    """
    return active().rows(table)
