"""Figures as a sheet writes them: sizes as on a drawing."""

from __future__ import annotations

from halfnut._core import spell, spell_number

__all__ = ["count", "diameter", "small"]


def diameter(value_mm: float, unit: str) -> str:
    """A diameter: ⌀0.8750 or ⌀22.225.

    >>> diameter(22.225, "in"), diameter(22.225, "mm")
    ('⌀0.8750', '⌀22.225')
    """
    return f"⌀{spell_number(value_mm, 'length', unit)}"


def small(value_mm: float, unit: str) -> str:
    """A distance that may be too small to matter, with its unit.

    >>> small(0.01, "in"), small(0.0001, "mm")
    ('0.0004 in', 'under 0.001 mm')
    """
    least = 0.00254 if unit == "in" else 0.001
    return spell(value_mm, "length", unit) if value_mm >= least else f"under {spell(least, 'length', unit)}"


def count(number: int, one: str, many: str | None = None) -> str:
    """A number with its noun.

    >>> count(1, "piece"), count(8, "piece")
    ('1 piece', '8 pieces')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"
