"""Sizes as a person reads them: in one unit first, the other beside it."""

from __future__ import annotations

import math

from halfnut._core import LONGEST_LIFE_MIN

__all__ = [
    "CM3_PER_IN3",
    "KG_PER_LB",
    "KW_PER_HP",
    "MM_PER_INCH",
    "M_PER_FOOT",
    "NM_PER_LBF_IN",
    "N_PER_LBF",
    "at_most",
    "both",
    "duration",
    "film",
    "force",
    "growth",
    "life",
    "life_span",
    "one",
    "span",
    "spans",
    "strip",
]

# Exact: the international yard and pound of 1959, standard gravity, 550 foot-pounds a second.
MM_PER_INCH = 25.4
M_PER_FOOT = 0.3048
CM3_PER_IN3 = 16.387064
N_PER_LBF = 4.4482216152605
KG_PER_LB = 0.45359237
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


def duration(seconds: float, *, tenths: bool = False) -> str:
    """A time, to the second under an hour and to the minute above; rounded first, so that no minute has 60 s.

    With `tenths` a time under a minute has them.

    >>> duration(20), duration(119.7), duration(5400)
    ('20 s', '2 min', '1 h 30 min')
    >>> duration(3.42, tenths=True), duration(364.0, tenths=True)
    ('3.4 s', '6 min 4 s')
    """
    whole = round(seconds)
    if tenths and whole < 60:
        return f"{seconds:.1f} s"
    if whole < 60:
        return f"{whole} s"
    if whole < 3600:
        return f"{whole // 60} min {whole % 60} s" if whole % 60 else f"{whole // 60} min"
    minutes = round(seconds / 60)
    return f"{minutes // 60} h {minutes % 60} min"


def life(minutes: float) -> str:
    """How long an edge lasts; above what the lives were measured to, only that it is more.

    >>> life(0.4), life(4.25), life(207.3), life(1e6)
    ('under 1 min', '4.2 min', '207 min', '8 h or more')
    """
    if minutes >= LONGEST_LIFE_MIN:
        return "8 h or more"
    if minutes < 1:
        return "under 1 min"
    return f"{minutes:.2g} min" if minutes < 10 else f"{minutes:.0f} min"


def life_span(low_min: float, high_min: float) -> str:
    """From one life to another; nothing where even the shortest is more than was measured.

    >>> life_span(3.0, 1e6), life_span(0.1, 0.5), life_span(1e6, 1e6)
    ('3 min to 8 h or more', 'under 1 min', '')
    """
    if low_min >= LONGEST_LIFE_MIN:
        return ""
    low, high = life(low_min), life(high_min)
    return low if low == high else f"{low} to {high}"


def force(value_n: float, unit: str) -> str:
    """A force, in pounds-force where lengths are in inches.

    >>> force(120.0, "mm"), force(120.0, "in")
    ('120 N', '27 lbf')
    """
    return f"{value_n / N_PER_LBF:.0f} lbf" if unit == "in" else f"{value_n:.0f} N"


def growth(value_um_k: float, unit: str) -> str:
    """How much a length grows with each degree.

    >>> growth(14.99, "mm"), growth(14.99, "in")
    ('14.99 µm/°C', '328 µin/°F')
    """
    return f"{value_um_k / (MM_PER_INCH / 1000) / 1.8:.0f} µin/°F" if unit == "in" else f"{value_um_k:.2f} µm/°C"


def strip(value_n_mm: float, unit: str) -> str:
    """What a thread bears for each length of engagement.

    >>> strip(4296.0, "mm"), strip(4296.0, "in")
    ('4296 N/mm', '24531 lbf/in')
    """
    return f"{value_n_mm * MM_PER_INCH / N_PER_LBF:.0f} lbf/in" if unit == "in" else f"{value_n_mm:.0f} N/mm"
