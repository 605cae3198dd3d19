"""Figures as a sheet writes them: sizes as on a drawing, the rest rounded to what a person can use."""

from __future__ import annotations

from halfnut.core.sizes import M_PER_FOOT, MM_PER_INCH, N_PER_LBF, duration, force

__all__ = [
    "count",
    "depth",
    "diameter",
    "duration",
    "feed",
    "force",
    "force_span",
    "length",
    "power",
    "roughness",
    "small",
    "speed",
    "torque",
]

_HP_KW = 0.7456998715822702


def diameter(value_mm: float, unit: str) -> str:
    """A diameter: ⌀0.8750 or ⌀22.225.

    >>> diameter(22.225, "in"), diameter(22.225, "mm")
    ('⌀0.8750', '⌀22.225')
    """
    return f"⌀{_turned(value_mm, unit)}"


def depth(value_mm: float, unit: str) -> str:
    """A depth or a small distance, without its unit.

    >>> depth(0.381, "in"), depth(0.4, "mm")
    ('0.0150', '0.400')
    """
    return _turned(value_mm, unit)


def small(value_mm: float, unit: str) -> str:
    """A distance that may be too small to matter, with its unit.

    >>> small(0.01, "in"), small(0.0001, "mm")
    ('0.0004 in', 'under 0.001 mm')
    """
    least = 0.0001 * MM_PER_INCH if unit == "in" else 0.001
    return (
        f"{depth(value_mm, unit)} {unit}"
        if value_mm >= least
        else f"under {least / (MM_PER_INCH if unit == 'in' else 1):g} {unit}"
    )


def _turned(value_mm: float, unit: str) -> str:
    return f"{value_mm / MM_PER_INCH:.4f}" if unit == "in" else f"{value_mm:.3f}"


def length(value_mm: float, unit: str, *, with_unit: bool = True) -> str:
    """A length along the work.

    >>> length(38.1, "in"), length(38.1, "mm")
    ('1.500 in', '38.1 mm')
    """
    text = f"{value_mm / MM_PER_INCH:.3f}" if unit == "in" else f"{value_mm:.1f}"
    return f"{text} {unit}" if with_unit else text


def feed(value_mm_rev: float, unit: str) -> str:
    """A feed a revolution.

    >>> feed(0.18034, "in"), feed(0.12, "mm")
    ('0.0071 in/rev', '0.12 mm/rev')
    """
    return f"{value_mm_rev / MM_PER_INCH:.4f} in/rev" if unit == "in" else f"{value_mm_rev:.3g} mm/rev"


def speed(value_m_min: float, unit: str) -> str:
    """A cutting speed.

    >>> speed(91.44, "in"), speed(91.44, "mm")
    ('300 ft/min', '91 m/min')
    """
    return f"{value_m_min / M_PER_FOOT:.0f} ft/min" if unit == "in" else f"{value_m_min:.0f} m/min"


def force_span(low_n: float, high_n: float, unit: str) -> str:
    """From one force to another.

    >>> force_span(61.0, 115.0, "mm")
    '61 to 115 N'
    """
    if unit == "in":
        return f"{low_n / N_PER_LBF:.0f} to {high_n / N_PER_LBF:.0f} lbf"
    return f"{low_n:.0f} to {high_n:.0f} N"


def power(value_kw: float, unit: str) -> str:
    """A power."""
    return f"{value_kw / _HP_KW:.2f} hp" if unit == "in" else f"{value_kw:.2f} kW"


def torque(value_nm: float, unit: str) -> str:
    """A torque."""
    return f"{value_nm / (N_PER_LBF * M_PER_FOOT):.1f} lbf ft" if unit == "in" else f"{value_nm:.1f} N m"


def roughness(value_um: float, unit: str) -> str:
    """A roughness Ra."""
    return f"{value_um / 0.0254:.0f} µin" if unit == "in" else f"{value_um:.1f} µm"


def count(number: int, one: str, many: str | None = None) -> str:
    """A number with its noun.

    >>> count(1, "piece"), count(8, "piece")
    ('1 piece', '8 pieces')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"
