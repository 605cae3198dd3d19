"""Sizes as a person reads them: in one unit first, the other beside it."""

from __future__ import annotations

import math

__all__ = [
    "CM3_PER_IN3",
    "KW_PER_HP",
    "MM_PER_INCH",
    "M_PER_FOOT",
    "NM_PER_LBF_IN",
    "N_PER_LBF",
    "at_most",
    "both",
    "film",
    "one",
    "span",
    "spans",
]

# Exact: the international yard and pound of 1959, standard gravity, 550 foot-pounds a second.
MM_PER_INCH = 25.4
M_PER_FOOT = 0.3048
CM3_PER_IN3 = 16.387064
N_PER_LBF = 4.4482216152605
NM_PER_LBF_IN = N_PER_LBF * MM_PER_INCH / 1000
KW_PER_HP = 550 * N_PER_LBF * M_PER_FOOT / 1000


def one(value_mm: float, unit: str, extra: int = 0) -> str:
    """A length in one unit: 0.001 mm or 0.0001 in, or `extra` places more.

    >>> one(9.026, "mm"), one(25.4, "in")
    ('9.026 mm', '1.0000 in')
    """
    return f"{value_mm / MM_PER_INCH:.{4 + extra}f} in" if unit == "in" else f"{value_mm:.{3 + extra}f} mm"


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
    first = one(low_mm, unit, extra).rsplit(" ", 1)[0]
    return f"{first} to {one(high_mm, unit, extra)}"


def spans(low_mm: float, high_mm: float, unit: str) -> str:
    """Two lengths as from-to in one unit, the other in brackets.

    >>> spans(0.032, 0.344, "mm")
    '0.032 to 0.344 mm (0.0013 to 0.0135 in)'
    """
    return f"{span(low_mm, high_mm, unit)} ({span(low_mm, high_mm, 'mm' if unit == 'in' else 'in')})"


def film(low_um: float, high_um: float, unit: str) -> str:
    """A thickness, from-to where it has a range.

    >>> film(5.08, 7.62, "in"), film(0.0, 8.0, "mm")
    ('0.00020 to 0.00030 in', '0 to 8 um')
    """
    values = [0.0 if abs(value) < 1e-6 else value for value in (low_um, high_um)]
    texts = [f"{value / 25400:.5f}" if unit == "in" and value else f"{value:.3g}" for value in values]
    name = "in" if unit == "in" else "um"
    return f"{texts[0]} {name}" if texts[0] == texts[1] else f"{texts[0]} to {texts[1]} {name}"


def at_most(value_um: float, unit: str) -> tuple[float, str]:
    """A thickness that must not be passed, rounded down: um, and as a person reads it.

    >>> at_most(9.525, "in")[1], at_most(9.525, "mm")[1]
    ('0.00037 in', '9.5 um')
    """
    step_um = 0.254 if unit == "in" else 0.1
    whole = math.floor(value_um / step_um + 1e-6) * step_um
    return whole, film(whole, whole, unit)
