"""Sizes as a person reads them: in one unit first, the other beside it."""

from __future__ import annotations

from typing import Any

from halfnut._core import spell

__all__ = ["MM_PER_INCH", "N_PER_LBF"]

# Exact: the international yard and pound of 1959, standard gravity.
MM_PER_INCH = 25.4
N_PER_LBF = 4.4482216152605
_NM_PER_LBF_IN = 0.1129848290276167
_MPA_PER_KSI = 6.894757293168361

# Suffix of a key, that of its other unit, and how many of the first make one of the second.
_OTHER_UNITS = (
    ("_mm2_mm", "_in2_in", 25.4),
    ("_mm2", "_in2", 645.16),
    ("_mm", "_in", 25.4),
    ("_nm", "_lbf_in", _NM_PER_LBF_IN),
    ("_n", "_lbf", N_PER_LBF),
    ("_mpa", "_psi", _MPA_PER_KSI / 1000.0),
)


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


def both_systems(figures: dict[str, Any]) -> dict[str, Any]:
    """Figures with each one in the other unit beside it."""
    out: dict[str, Any] = {}
    for key, value in figures.items():
        out[key] = value
        for suffix, other, scale in _OTHER_UNITS:
            if key.endswith(suffix) and (value is None or isinstance(value, (int, float))):
                out[key.removesuffix(suffix) + other] = None if value is None else value / scale
                break
    return out
