"""Trapezoidal, Acme, pipe and Whitworth threads a second time, from the formulas of their standards.

It reads no table of the package under test and imports nothing of it. Where a table leaves its formula the cell is
listed. Position c of trapezoidal threads and the pitch tolerances of ISO 228 follow no formula that is known; of
position c a regularity is here, which a mistyped cell would break and which proves nothing else.
"""

from __future__ import annotations

import math
from decimal import ROUND_HALF_EVEN
from decimal import Decimal as D

from iso_metric_oracle import SERIES, nearest_index, td, td1, td2_6

TD_GRADE = 4
EXTERNAL_STEPS = {7: 4, 8: 8, 9: 12}
INTERNAL_STEPS = {7: 9, 8: 13, 9: 17}
TD2_DEPARTS = {(45, 18): 450}
INTERNAL_DEPARTS = {(180, 44, 7): 1250}
TD_DEPARTS = {4: 300}
TD1_DEPARTS = {10: 710, 12: 800, 14: 900, 18: 1120, 32: 1600, 44: 2000}
ES_DEPARTS = {8: 132, 9: 140, 10: 150, 12: 160, 14: 180, 16: 190, 18: 200, 20: 212, 22: 224, 24: 236, 28: 250, 32: 265}
ES_DEPARTS |= {36: 280, 40: 300, 44: 315}


def clearance(p: float) -> float:
    return 0.15 if p <= 1.5 else 0.25 if p <= 5 else 0.5 if p <= 12 else 1.0


def grade_6(d: float, p: float) -> int:
    over = max(x for x in (5.6, 11.2, 22.4, 45, 90, 180) if x < d)
    return TD2_DEPARTS.get((over, p), td2_6(D(str(d)), D(str(p))))


def trapezoidal(d: float, p: float, grade: int, internal: bool, starts: int = 1) -> dict[str, float]:
    """Limits of 7e, 8e, 9e or 7H, 8H, 9H, um."""
    over = max(x for x in (5.6, 11.2, 22.4, 45, 90, 180) if x < d)
    step = (INTERNAL_STEPS if internal else EXTERNAL_STEPS)[grade]
    t2: float = SERIES[SERIES.index(grade_6(d, p)) + step]
    if internal:
        t2 = INTERNAL_DEPARTS.get((over, p, grade), t2)
    t2 = round(t2 * {1: 1, 2: 1.12, 3: 1.25, 4: 1.4}.get(starts, 1.6))
    d, p, a = 1000 * d, p, 1000 * clearance(p)
    pitch = d - 500 * p
    if internal:
        t1 = TD1_DEPARTS.get(p, td1(D(str(p)), TD_GRADE))
        minor = d - 1000 * p
        return {
            "major_min": d + 2 * a,
            "pitch_max": pitch + t2,
            "pitch_min": pitch,
            "minor_max": minor + t1,
            "minor_min": minor,
        }
    es = ES_DEPARTS.get(p, SERIES[nearest_index(50 + 11 * D(str(p)))])
    minor = d - 1000 * p - 2 * a
    return {
        "major_max": d,
        "major_min": d - TD_DEPARTS.get(p, td(D(str(p)), TD_GRADE)),
        "pitch_max": pitch - es,
        "pitch_min": pitch - es - t2,
        "minor_max": minor,
        "minor_min": minor - round(1.25 * t2) - es,
    }


ACME = {"2": ("0.008", "0.006", "0.030"), "3": ("0.006", "0.0028", "0.014"), "4": ("0.004", "0.002", "0.010")}


def four(x: D) -> D:
    """To four places, a half to the even one."""
    return x.quantize(D("0.0001"), rounding=ROUND_HALF_EVEN)


def acme(d: float, tpi: float, name: str, internal: bool, stub: bool = False) -> dict[str, float]:
    """Limits of an Acme general purpose thread, in, as print forms them.

    Pitch diameters of basic size, allowance and tolerance rounded each, the other limits of unrounded tolerances.
    """
    size, p = D(str(d)), 1 / D(str(tpi))
    height = D("0.3") if stub else D("0.5")
    allowance, by_d, by_p = map(D, ACME[name[0]])
    t = by_d * size.sqrt() + by_p * p.sqrt()
    a = D("0.020") if tpi <= 10 else D("0.010")
    pitch, minor = four(size - height * p), size - 2 * height * p
    if internal:
        least = four(minor)
        out = {
            "major_max": four(size + 2 * a),
            "major_min": four(size + a),
            "pitch_max": pitch + four(t),
            "pitch_min": pitch,
            "minor_max": four(least + D("0.05") * p),
            "minor_min": least,
        }
    else:
        top, root = pitch - four(allowance * size.sqrt()), four(minor - a)
        out = {
            "major_max": four(size),
            "major_min": four(size - max(D("0.05") * p, D("0.005"))),
            "pitch_max": top,
            "pitch_min": top - four(t),
            "minor_max": root,
            "minor_min": four(root - D("1.5") * t),
        }
    return {key: float(value) for key, value in out.items()}


def whitworth_basic(d: float, p: float) -> tuple[float, float]:
    """Pitch and minor diameter from the triangle: H = P / (2 tan 27.5), a sixth of it off at crest and root."""
    depth = p / (2 * math.tan(math.radians(27.5))) * 2 / 3
    return d - depth, d - 2 * depth


def npt(d: float, tpi: float, hand: float, wrench: int) -> dict[str, float]:
    """Basic sizes of an NPT thread, in."""
    p = 1 / tpi
    e0 = d - (0.05 * d + 1.1) * p
    l2 = (0.80 * d + 6.8) * p
    l3 = wrench * p
    return {
        "E0": e0,
        "E1": e0 + hand / 16,
        "E2": e0 + l2 / 16,
        "E3": e0 - l3 / 16,
        "E5": e0 + (l2 - 2 * p) / 16,
        "K0": e0 - 0.8 * p,
        "L2": l2,
        "L3": l3,
        "L4": l2 + 3.47 * p,
        "L5": l2 - 2 * p,
        "h": 0.8 * p,
    }


# Centralizing classes, x sqrt D: major tolerance of the screw, clearance at the nut's major diameter, its tolerance.
ACME_C = {
    "2": ("0.0035", "0.001", "0.0035"),
    "3": ("0.0015", "0.001", "0.0035"),
    "4": ("0.001", "0.001", "0.002"),
}


def acme_centralizing(d: float, tpi: float, name: str, internal: bool) -> dict[str, float]:
    """Limits of an Acme centralizing thread, in: they meet at the major diameter, where the general ones clear."""
    size, p = D(str(d)), 1 / D(str(tpi))
    root = size.sqrt()
    screw_major, clearance, nut_major = map(D, ACME_C[name[0]])
    out = acme(d, tpi, name, internal)
    if internal:
        least = four(size - D("0.9") * p)
        own = {"major_min": size + clearance * root, "major_max": size + (clearance + nut_major) * root}
        own |= {"minor_min": least, "minor_max": least + D("0.05") * p}
    else:
        own = {"major_min": size - screw_major * root}
    return out | {key: float(four(value)) for key, value in own.items()}


def whitworth_t(d: float, p: float, length: float) -> float:
    return float(0.002 * d ** (1 / 3) + 0.003 * length**0.5 + 0.005 * p**0.5)


WHITWORTH = {"close": (D(2) / 3, 0, 0.013), "medium": (D(1), 0.3, 0.02), "free": (D(3) / 2, 0.3, 0.02)}


def whitworth(
    d: float, tpi: float, name: str, internal: bool, fine: bool, length: float | None = None
) -> dict[str, float]:
    """Limits of BSW and BSF, in, one diameter engaged unless a length is given."""
    p = 1 / tpi
    factor, share, by_root = WHITWORTH[name]
    t = float(factor) * whitworth_t(d, p, length or d)
    pitch, minor = whitworth_basic(d, p)
    if internal:
        more = 0.004 if tpi >= 26 else 0.005 if tpi >= 22 else 0.007
        return {
            "major_min": d,
            "pitch_max": pitch + t,
            "pitch_min": pitch,
            "minor_max": minor + 0.2 * p + more,
            "minor_min": minor,
        }
    of = (0.25, 1 / (26 if fine else 20)) if d < 0.25 else (d, p)
    a = 0.0 if d > 0.75 else share * whitworth_t(*of, length or of[0])
    root = math.sqrt(p)
    return {
        "major_max": d - a,
        "major_min": d - a - t - 0.01 * root,
        "pitch_max": pitch - a,
        "pitch_min": pitch - a - t,
        "minor_max": minor - a,
        "minor_min": minor - a - t - by_root * root,
    }


def pipe_minor_um(tpi: int) -> int:
    """Tolerance of the minor diameter of ISO 228: that of a Whitworth nut, to 0.0001 in, then to 1 um; halves up."""
    more = D("0.004") if tpi >= 26 else D("0.007")
    inch = (D("0.2") / tpi + more).quantize(D("0.0001"))
    return math.floor(inch * 25400 + D("0.5"))


GAUGE_LENGTHS_IN = {"1/16": D(5) / 32, "1/8": D(5) / 32, "1/4": D("4.5") / 19, "3/8": D(1) / 4, "1/2": D("4.5") / 14}
GAUGE_LENGTHS_IN |= {"3/4": D(3) / 8, "1": D("4.5") / 11, "1 1/4": D(1) / 2, "1 1/2": D(1) / 2, "2": D(5) / 8}
GAUGE_LENGTHS_IN |= {"2 1/2": D(11) / 16, "3": D(13) / 16, "4": D(1), "5": D(9) / 8, "6": D(9) / 8}
"""Of BS 21, before it was metric, recalled."""


def gauge_length_mm(size: str) -> float:
    """Of ISO 7-1, to 0.1 mm, halves up."""
    return math.floor(GAUGE_LENGTHS_IN[size] * D("254") + D("0.5")) / 10


def position_c_um(es_e: int) -> int:
    """Position c as the series' number a factor of two, twelve steps, above position e."""
    return int(SERIES[SERIES.index(es_e) + 12])


POSITION_C_DEPARTS = {1.5: 140, 2: 150, 12: 335}


__all__ = [
    "acme",
    "acme_centralizing",
    "gauge_length_mm",
    "npt",
    "pipe_minor_um",
    "position_c_um",
    "trapezoidal",
    "whitworth",
    "whitworth_basic",
]
