"""Figures in the other system of units."""

from __future__ import annotations

from typing import Any

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
