"""Figures as a card writes them: short, true, and as they stand on a rule, a micrometer or a dial."""

from __future__ import annotations

import math
from fractions import Fraction

from halfnut.core.sizes import MM_PER_INCH

_PLACES = {"in": 3, "mm": 2}
"""Decimals of a size, least."""
_SAME = 1e-9
_KEPT = 0.75
"""Share of a tolerance that must be left when its limits are rounded inwards; else a decimal more is shown."""


def size(value_mm: float, unit: str) -> str:
    """A size: .868 or 22.05, with a fourth or third decimal where it has one.

    >>> size(22.0472, "in"), size(22.06, "in"), size(22.05, "mm"), size(6.0, "mm")
    ('.868', '.8685', '22.05', '6.00')
    """
    value = value_mm / MM_PER_INCH if unit == "in" else value_mm
    return _trimmed(f"{value:.{_PLACES[unit] + 1}f}", _PLACES[unit])


def limits(pair_mm: tuple[float, float], unit: str) -> tuple[str, str]:
    """Limits of a size, the greater first, each rounded towards the other.

    >>> limits((0.8631 * 25.4, 0.87337 * 25.4), "in"), limits((1.74803 * 25.4, 1.74841 * 25.4), "in")
    (('.873', '.864'), ('1.7484', '1.7481'))
    >>> limits((21.732, 21.968), "mm")
    ('21.96', '21.74')
    """
    scale = MM_PER_INCH if unit == "in" else 1.0
    low, high = (each / scale for each in pair_mm)
    for places in range(_PLACES[unit], _PLACES[unit] + 4):
        step = float(f"1e-{places}")
        up, down = math.ceil(low / step - 1e-6) * step, math.floor(high / step + 1e-6) * step
        if down - up >= _KEPT * (high - low) - _SAME:
            break
    return _trimmed(f"{down:.{places}f}", _PLACES[unit]), _trimmed(f"{up:.{places}f}", _PLACES[unit])


def length(value_mm: float, unit: str) -> str:
    """A length set by a rule or a drill's name: inches in 64ths where they are such.

    >>> length(57.15, "in"), length(41.91, "in"), length(25.4, "in"), length(12.5, "mm")
    ('2-1/4', '1.65', '1', '12.5')
    """
    if unit != "in":
        return f"{round(value_mm, 3):g}"
    value = value_mm / MM_PER_INCH
    parts = Fraction(value).limit_denominator(64)
    if abs(float(parts) - value) > _SAME * max(1.0, value) or parts.denominator not in (1, 2, 4, 8, 16, 32, 64):
        return bare(f"{round(value, 4):.6g}")
    whole, over = divmod(parts.numerator, parts.denominator)
    if not over:
        return str(whole)
    return f"{whole}-{over}/{parts.denominator}" if whole else f"{over}/{parts.denominator}"


def in_dial_units(value_mm: float, unit: str) -> str:
    """A distance as a dial is marked: thousandths of an inch, or millimetres.

    >>> in_dial_units(0.2032, "in"), in_dial_units(0.0635, "in"), in_dial_units(0.35, "mm")
    ('8', '2½', '.35')
    """
    if unit != "in":
        return bare(f"{value_mm:.2f}")
    halves = round(value_mm / MM_PER_INCH * 2000.0)
    whole, half = divmod(halves, 2)
    return f"{whole or '' if half else whole}{'½' if half else ''}"


def dial(turns: int, beyond_mm: float, unit: str) -> str:
    """A dial's reading: whole turns, then what the dial shows beyond them; none of either is left out.

    >>> dial(0, 2.54, "in"), dial(1, 0.508, "in"), dial(1, 2.45, "mm"), dial(11, 0.0, "in")
    ('100', '1·020', '1·2.45', '11·000')
    """
    if not turns:
        return in_dial_units(beyond_mm, unit)
    shown = in_dial_units(beyond_mm, unit)
    if unit != "in":
        return f"{turns}·{beyond_mm:.2f}"
    digits = len(shown.rstrip("½")) or 0
    return f"{turns}·{'0' * (3 - digits)}{shown}"


def _trimmed(text: str, places: int) -> str:
    """Without the zeros at the end beyond the decimals that stay, and without the nought before the point."""
    whole, _, decimals = text.partition(".")
    kept = decimals[:places] + decimals[places:].rstrip("0")
    return bare(f"{whole}.{kept}")


def bare(text: str) -> str:
    """A figure without the nought before its point."""
    return text.removeprefix("0") if text.startswith("0.") else text
