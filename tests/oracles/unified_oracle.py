"""Unified limits of size a second time, in decimal, from the formulas of ASME B1.1.

Written from the standard's formulas as the handbooks state them and not from the core; it imports nothing of
the package under test.
Two rules are held: ``printed`` (what printed tables carry) and ``formula`` (six-place intermediates, half up).
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal, localcontext
from functools import cache

D = Decimal
FACTOR = {"1A": D("1.5"), "2A": D(1), "3A": D("0.75"), "1B": D("1.95"), "2B": D("1.3"), "3B": D("0.975")}
AT_DIAMETER = {"UNC", "UNF", "UNRC", "UNRF"}
# Sizes toleranced over nine pitches whose printed limits carry the tolerance of another size.
NEIGHBOURS = {D("0.216"): D("0.1875"), D("0.5625"): D("0.5"), D("0.9375"): D(1), D("2.375"): D("2.5"), D("5.75"): D(6)}


def places(x: Decimal, n: int, mode: str = ROUND_HALF_UP) -> Decimal:
    return x.quantize(D(1).scaleb(-n), rounding=mode)


def half_even(x: Decimal, n: int) -> Decimal:
    return places(x, n, ROUND_HALF_EVEN)


@cache
def root(x: Decimal, n: int) -> Decimal:
    return (x.ln() / n).exp() if x else x


def engagement(d: Decimal, tpi: Decimal, series: str, p: Decimal) -> tuple[Decimal, bool]:
    """Length of engagement behind the tabulated tolerance, and whether it is one diameter."""
    if series in AT_DIAMETER or (series in {"UN", "UNR"} and tpi in (4, 6, 8)) or (d == 1 and tpi == 14):
        return d, True
    return 9 * p, False


def minor_tolerance(d: Decimal, tpi: Decimal, p: Decimal, cls: str, special: bool = False) -> Decimal:
    p23 = root(p, 3) ** 2
    small = D("0.05") * p23 + D("0.03") * p / d - D("0.002")
    if cls == "3B":
        least = D("0.23") * p - D("1.5") * p * p if tpi >= 13 else D("0.12") * p
        return max(least, min(small, D("0.394") * p))
    if tpi < 4 and d >= D("0.25"):
        return D("0.15") * p
    coarse = D("0.25") * p - D("0.4") * p * p
    return coarse if d >= D("0.25") or special else max(coarse, min(small, D("0.394") * p))


def limits(
    d: Decimal, tpi: Decimal, series: str, cls: str, rule: str = "printed", length: Decimal | None = None
) -> dict[str, Decimal]:
    """Limits in inches by the column names of the reference rows."""
    with localcontext() as ctx:
        ctx.prec = 40
        return (_formula if rule == "formula" else _printed)(d, tpi, series, cls, length)


def _tolerance(d: Decimal, le: Decimal, p: Decimal) -> Decimal:
    return D("0.0015") * root(d, 3) + D("0.0015") * le.sqrt() + D("0.015") * root(p, 3) ** 2


def _formula(d: Decimal, tpi: Decimal, series: str, cls: str, length: Decimal | None) -> dict[str, Decimal]:
    p = places(1 / tpi, 8)
    le = length if length is not None else engagement(d, tpi, series, p)[0]
    t2a = places(_tolerance(d, le, p), 6)
    h_b = places(D("1.08253175") * p, 6)
    h_s = places(D("1.19078493") * p, 6)
    add = places(D("0.64951905") * p, 6)
    p23 = root(p, 3) ** 2
    out: dict[str, Decimal] = {}
    if cls.endswith("A"):
        es = D(0) if cls == "3A" else places(D("0.3") * t2a, 4)
        td = places(D("0.09" if cls == "1A" else "0.06") * p23, 6)
        td2 = places(FACTOR[cls] * t2a, 6)
        major = places(d - es, 4)
        pitch = places(major - add, 4)
        out |= {"allowance": es, "major_max": major, "major_min": places(major - td, 4)}
        out |= {"pd_max": pitch, "pd_min": places(pitch - td2, 4)}
        out |= {"unr_minor_max": places(major - h_s, 4), "un_minor_max": places(major - h_b, 4)}
        if cls == "2A":
            out["major_min_2"] = places(major - places(D("0.09") * p23, 6), 4)
        return out
    pitch = places(d - add, 4)
    out |= {"int_major_min": places(d, 4), "pd_min": pitch, "pd_max": places(pitch + places(FACTOR[cls] * t2a, 6), 4)}
    minor = d - h_b
    top = minor + places(minor_tolerance(d, tpi, p, cls), 6)
    small = d < D("0.138")
    out["minor_min"] = places(minor, 4 if small else 3)
    out["minor_max"] = places(top, 4 if small or cls == "3B" else 3)
    return out


def _printed(d: Decimal, tpi: Decimal, series: str, cls: str, length: Decimal | None) -> dict[str, Decimal]:
    p = places(1 / tpi, 8)
    le, at_diameter = engagement(d, tpi, series, p)
    at = d if at_diameter or length is not None else NEIGHBOURS.get(d, d)
    le = length if length is not None else le
    # The old method adds three increments from tables printed to six places.
    increments = (D("0.0015") * root(at, 3), D("0.0015") * le.sqrt(), D("0.015") * root(p, 3) ** 2)
    t2a = sum((places(x, 6) for x in increments), D(0))
    add = places(D("0.64951905") * p, 4)
    p23 = root(p, 3) ** 2
    out: dict[str, Decimal] = {}
    if cls.endswith("A"):
        es = D(0) if cls == "3A" else half_even(D("0.3") * places(t2a, 5), 4)
        major = half_even(d - es, 4)
        pitch = half_even(major - add, 4)
        out |= {"allowance": es, "major_max": major}
        out["major_min"] = major - half_even(D("0.09" if cls == "1A" else "0.06") * p23, 4)
        out |= {"pd_max": pitch, "pd_min": pitch - half_even(FACTOR[cls] * t2a, 4)}
        out["unr_minor_max"] = major - half_even(D("1.0825") * p, 4) - half_even(D("0.10825") * p, 4)
        out["un_minor_max"] = half_even(major - D("1.08253175") * p, 4)
        if cls == "2A":
            out["major_min_2"] = major - half_even(D("0.09") * p23, 4)
        return out
    pitch = half_even(d - D("0.64951905") * p, 4)
    out |= {"int_major_min": half_even(d, 4), "pd_min": pitch, "pd_max": pitch + half_even(FACTOR[cls] * t2a, 4)}
    minor = half_even(d - D("1.08253175") * p, 4)
    top = minor + half_even(minor_tolerance(d, tpi, p, cls, series == "UNS"), 4)
    small = d < D("0.138")
    out["minor_min"] = half_even(minor, 4 if small else 3)
    out["minor_max"] = half_even(top, 4 if small or cls == "3B" else 3)
    return out
