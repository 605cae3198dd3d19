"""ISO metric limits of size a second time, in decimal, from the formulas and rounding of ISO 965-1.

It reads no table of the package under test and imports nothing of it. Tolerances come from the formulas,
rounded to the R40 series, with the departures that the printed tables are known to hold listed one by one.
"""

from __future__ import annotations

import itertools
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal, localcontext
from functools import cache

D = Decimal
R40 = [
    "1.00 1.06 1.12 1.18 1.25 1.32 1.40 1.50 1.60 1.70 1.80 1.90 2.00 2.12 2.24 2.36 2.50 2.65 2.80 3.00",
    "3.15 3.35 3.55 3.75 4.00 4.25 4.50 4.75 5.00 5.30 5.60 6.00 6.30 6.70 7.10 7.50 8.00 8.50 9.00 9.50",
]
DECADE = [D(x) for line in R40 for x in line.split()]
# Whole micrometres; a half below 100 goes to the even neighbour.
EXACT = [x * 10**k for k in (1, 2, 3) for x in DECADE]
SERIES = [int(x.quantize(D(1), rounding=ROUND_HALF_EVEN)) for x in EXACT]
RANGES = [D(x) for x in ("0.99", "1.4", "2.8", "5.6", "11.2", "22.4", "45", "90", "180", "355")]
TD_STEPS = {4: -8, 6: 0, 8: 8}
TD1_STEPS = {4: -8, 5: -4, 6: 0, 7: 4, 8: 8}
TD2_EXTERNAL_STEPS = {3: -12, 4: -8, 5: -4, 6: 0, 7: 4, 8: 8, 9: 12}
TD2_INTERNAL_STEPS = {4: -3, 5: 1, 6: 5, 7: 9, 8: 13}
# Grade-6 cells where the printed table leaves the nearest R40 number of the formula.
TD_DEPARTS = {D("0.75"): 140, D(4): 475}
TD1_DEPARTS = {D("0.25"): 71, D("0.5"): 140, D("2.5"): 450}
TD2_DEPARTS = {(D("2.8"), D("0.5")): 75, (D(45), D(5)): 250, (D(180), D(3)): 250}
TD_8_DEPARTS = {D(8): 1180}
EI_G_DEPARTS = {D("0.75"): 22, D(8): 100}
ES_E_DEPARTS = {D("0.5"): 50, D("0.6"): 53, D("0.75"): 56}
# f follows no rounding rule that is known; whole micrometres of the formula except for these.
ES_F_DEPARTS = {"0.6": 36, "0.8": 38, "1": 40, "1.25": 42, "1.5": 45, "1.75": 48, "3": 63, "3.5": 70, "4": 75}
ES_F_DEPARTS |= {"4.5": 80, "5.5": 90, "6": 95}


def micrometres(x: Decimal) -> int:
    return int(x.quantize(D(1), rounding=ROUND_HALF_UP))


def power(x: Decimal, exponent: str) -> Decimal:
    return (x.ln() * D(exponent)).exp()


@cache
def nearest_index(x: Decimal) -> int:
    """Place of the R40 number nearest to x by ratio, taken before the number itself is rounded."""
    return min(range(len(EXACT)), key=lambda i: abs((x / EXACT[i]).ln()))


def stepped(grade_6: int, steps: int) -> int:
    return SERIES[SERIES.index(grade_6) + steps]


def diameter_range(d: Decimal) -> tuple[Decimal, Decimal]:
    for over, up_to in itertools.pairwise(RANGES):
        if over < d <= up_to:
            return over, up_to
    raise ValueError(f"no diameter range holds {d}")


@cache
def td6(p: Decimal) -> int:
    x = 180 * power(p, "0.6666666666666666666666666667") - D("3.15") / p.sqrt()
    return TD_DEPARTS.get(p, SERIES[nearest_index(x)])


@cache
def td(p: Decimal, grade: int) -> int:
    return TD_8_DEPARTS[p] if grade == 8 and p in TD_8_DEPARTS else stepped(td6(p), TD_STEPS[grade])


@cache
def td1(p: Decimal, grade: int) -> int:
    x = 433 * p - 190 * power(p, "1.22") if p < 1 else 230 * power(p, "0.7")
    return stepped(TD1_DEPARTS.get(p, SERIES[nearest_index(x)]), TD1_STEPS[grade])


@cache
def td2_6(d: Decimal, p: Decimal) -> int:
    over, up_to = diameter_range(d)
    mean = (over * up_to).sqrt()
    x = 90 * power(p, "0.4") * power(mean, "0.1")
    return TD2_DEPARTS.get((over, p), SERIES[nearest_index(x)])


def td2_external(d: Decimal, p: Decimal, grade: int) -> int:
    return stepped(td2_6(d, p), TD2_EXTERNAL_STEPS[grade])


def td2_internal(d: Decimal, p: Decimal, grade: int) -> int:
    return stepped(td2_6(d, p), TD2_INTERNAL_STEPS[grade])


@cache
def deviation(position: str, p: Decimal) -> int:
    """Deviation in micrometres: EI of an internal thread, es of an external one."""
    if position in "hH":
        return 0
    if position == "az":
        return -micrometres(300 + 20 * p)
    if position == "AZ":
        return micrometres(300 + 20 * p)
    if position == "AX":
        return micrometres(220 * p - 20)
    if position in "gG":
        size = EI_G_DEPARTS.get(p, SERIES[nearest_index(15 + 11 * p)])
        return size if position == "G" else -size
    if position == "e":
        return -ES_E_DEPARTS.get(p, SERIES[nearest_index(50 + 11 * p)])
    if position == "f":
        return -ES_F_DEPARTS.get(format(p.normalize(), "f"), micrometres(30 + 11 * p))
    raise ValueError(f"no formula for position {position}")


@cache
def basic(d: Decimal, p: Decimal) -> tuple[int, int]:
    """Basic pitch and minor diameter, whole micrometres (ISO 724)."""
    with localcontext() as ctx:
        ctx.prec = 40
        h = D(3).sqrt() / 2 * p
        return micrometres(1000 * (d - 3 * h / 4)), micrometres(1000 * (d - 5 * h / 4))


@cache
def root_below(d: Decimal, p: Decimal) -> Decimal:
    """Root of the smallest radius before deviation and tolerance, micrometres, from the unrounded pitch diameter."""
    with localcontext() as ctx:
        ctx.prec = 40
        return 1000 * (d - 3 * (D(3).sqrt() / 2 * p) / 4) - 1000 * D("0.616025") * p


def limits(
    d: Decimal, p: Decimal, pitch_class: tuple[int, str], crest_class: tuple[int, str], starts: int = 1
) -> dict[str, int]:
    """Limits in micrometres by the column names of the reference rows."""
    d2, d1 = basic(d, p)
    major = micrometres(1000 * d)
    factor = {1: D(1), 2: D("1.12"), 3: D("1.25"), 4: D("1.4")}.get(starts, D("1.6"))
    es = deviation(crest_class[1], p)
    if crest_class[1][0].islower():
        td2 = micrometres(factor * td2_external(d, p, pitch_class[0]))
        es2 = deviation(pitch_class[1], p)
        out = {"d_max": major + es, "d_min": major + es - td(p, crest_class[0]), "d2_max": d2 + es2, "d1_max": d1 + es2}
        out["d2_min"] = out["d2_max"] - td2
        out["d3_min"] = micrometres(root_below(d, p) + es2 - td2)
        return out
    out = {"D_min": major + deviation(pitch_class[1], p), "D2_min": d2 + deviation(pitch_class[1], p)}
    out["D2_max"] = out["D2_min"] + micrometres(factor * td2_internal(d, p, pitch_class[0]))
    out["D1_min"] = d1 + es
    out["D1_max"] = out["D1_min"] + td1(p, crest_class[0])
    return out
