"""Figures of strength in both systems of units."""

from __future__ import annotations

from typing import Any

from halfnut._core import spell, spell_span

N_PER_LBF = 4.4482216152605
MPA_PER_KSI = 6.894757293168361
NM_PER_LBF_IN = 0.1129848290276167

# Suffix of a key, that of its other unit, and how many of the first make one of the second.
_OTHER_UNITS = (
    ("_mm2_mm", "_in2_in", 25.4),
    ("_mm2", "_in2", 645.16),
    ("_mm", "_in", 25.4),
    ("_nm", "_lbf_in", NM_PER_LBF_IN),
    ("_n", "_lbf", N_PER_LBF),
    ("_mpa", "_psi", MPA_PER_KSI / 1000.0),
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


def force_text(value_n: float, unit: str) -> str:
    """A force as a person reads it."""
    return spell(value_n, "force", unit)


def stress_text(value_mpa: float, unit: str) -> str:
    """A stress as a person reads it."""
    return spell(value_mpa, "stress", unit)


def torque_text(low_nm: float, high_nm: float, unit: str) -> str:
    """A torque, or its span, as a person reads it."""
    return spell_span(low_nm, high_nm, "torque", unit)
