"""Sizes as a person reads them: in one unit first, the other beside it."""

from __future__ import annotations

import math

from halfnut._core import spell, spell_span

__all__ = [
    "MM_PER_INCH",
    "N_PER_LBF",
    "at_most",
    "both",
    "film",
    "one",
    "span",
    "spans",
]

# Exact: the international yard and pound of 1959, standard gravity.
MM_PER_INCH = 25.4
N_PER_LBF = 4.4482216152605


def one(value_mm: float, unit: str, extra: int = 0) -> str:
    """A length in one unit: 0.001 mm or 0.0001 in, or a place more.

    >>> one(9.026, "mm"), one(25.4, "in")
    ('9.026 mm', '1.0000 in')
    """
    return spell(value_mm, "fine" if extra else "length", unit)


def both(value_mm: float, unit: str, extra: int = 0) -> str:
    """A length in one unit, the other in brackets.

    >>> both(9.026, "mm")
    '9.026 mm (0.3554 in)'
    """
    other = "mm" if unit == "in" else "in"
    return f"{one(value_mm, unit, extra)} ({one(value_mm, other, extra)})"


def span(low_mm: float, high_mm: float, unit: str, extra: int = 0) -> str:
    """Two lengths as from-to, in one unit.

    >>> span(0.032, 0.344, "mm")
    '0.032 to 0.344 mm'
    """
    return spell_span(low_mm, high_mm, "fine" if extra else "length", unit)


def spans(low_mm: float, high_mm: float, unit: str) -> str:
    """Two lengths as from-to in one unit, the other in brackets.

    >>> spans(0.032, 0.344, "mm")
    '0.032 to 0.344 mm (0.0013 to 0.0135 in)'
    """
    return f"{span(low_mm, high_mm, unit)} ({span(low_mm, high_mm, 'mm' if unit == 'in' else 'in')})"


def film(low_um: float, high_um: float, unit: str) -> str:
    """A thickness, from-to where it has a range.

    >>> film(5.08, 7.62, "in"), film(0.0, 8.0, "mm")
    ('0.00020 to 0.00030 in', '0 to 8 µm')
    """
    return spell_span(low_um, high_um, "film", unit)


def at_most(value_um: float, unit: str) -> tuple[float, str]:
    """A thickness that must not be passed, rounded down: µm, and as a person reads it.

    >>> at_most(9.525, "in")[1], at_most(9.525, "mm")[1]
    ('0.00037 in', '9.5 µm')
    """
    step_um = 0.254 if unit == "in" else 0.1
    whole = math.floor(value_um / step_um + 1e-6) * step_um
    return whole, spell(whole, "film", unit)
