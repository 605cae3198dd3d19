"""Limits of plain holes and shafts a second time, from the formulas and the rounding rules of ISO 286-1.

It reads no table of the package under test and imports nothing of it. The standard's tables leave its own formulas in
places; every such cell is listed one by one below, as the table has it.
"""

from __future__ import annotations

import bisect
import math
from functools import cache

LETTERS = ["a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "js", "j", "k", "m", "n", "p", "r", "s"]
LETTERS += ["t", "u", "v", "x", "y", "z", "za", "zb", "zc"]
MAIN = [0, 3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150]
SUB = [
    0,
    3,
    6,
    10,
    14,
    18,
    24,
    30,
    40,
    50,
    65,
    80,
    100,
    120,
    140,
    160,
    180,
    200,
    225,
    250,
    280,
    315,
    355,
    400,
    450,
    500,
]
SUB += [560, 630, 710, 800, 900, 1000, 1120, 1250, 1400, 1600, 1800, 2000, 2240, 2500, 2800, 3150]
UNITS = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}
POWERS = {"d": (16, 0.44), "e": (11, 0.41), "f": (5.5, 0.41), "g": (2.5, 0.34), "n": (5, 0.34)}
UNITS_OVER_500 = {1: 2, 2: 2.7, 3: 3.7, 4: 5} | UNITS

P_ADDS = (-4, 0, 0, 0, 1, 1, 2, 2, 3, 4, 4, 5, 5)
"""What the table adds to IT7 for p, range by range; the standard says 0 to 5."""
S_ADDS = (0, 1, 1, 1, 2, 4)
"""What the table adds to IT8 for s to 50 mm; the standard says 1 to 4."""
# fmt: off
TOLERANCES: dict[tuple[int, int], float] = {
    (-1, 3): 0.4, (-1, 10): 0.5, (-1, 18): 0.6, (-1, 120): 1.2,
    (0, 10): 0.8, (0, 18): 1, (0, 50): 1.2, (0, 120): 2,
    (1, 3): 1, (1, 10): 1.2, (1, 80): 2.5, (1, 120): 3.5, (1, 180): 4.5, (1, 315): 7, (1, 400): 8, (1, 1250): 15,
    (1, 1600): 18, (1, 2500): 26,
    (2, 0): 1.2, (2, 10): 2, (2, 18): 2.5, (2, 120): 5, (2, 250): 8, (2, 315): 9, (2, 400): 10, (2, 500): 11,
    (3, 3): 2.5, (3, 18): 4, (3, 315): 13, (3, 400): 15, (3, 1600): 35, (3, 2500): 50,
    (4, 0): 3, (4, 3): 4, (4, 315): 18, (4, 400): 20, (4, 2500): 68,
    (5, 500): 32, (5, 630): 36, (5, 1000): 47, (5, 1250): 55, (5, 1600): 65, (5, 2500): 96,
    (6, 0): 6, (6, 3): 8, (6, 315): 36, (6, 400): 40, (6, 500): 44, (6, 630): 50, (6, 800): 56,
    (7, 0): 10, (7, 6): 15, (7, 10): 18, (7, 400): 63,
    (9, 0): 25, (9, 3): 30,
    (10, 0): 40, (10, 3): 48, (10, 6): 58, (10, 10): 70,
    (11, 0): 60, (11, 3): 75, (11, 30): 160, (11, 50): 190, (11, 315): 360, (11, 400): 400, (11, 500): 440,
    (11, 630): 500,
}
"""Grade and lower end of the range: the table's cell where it leaves the formula, um."""
DEVIATIONS: dict[tuple[str, int, int], float] = {
    ("a", 10, 14): 290, ("a", 18, 24): 300, ("a", 120, 140): 460, ("a", 160, 180): 580, ("a", 225, 250): 820,
    ("a", 250, 280): 920, ("a", 315, 355): 1200, ("a", 355, 400): 1350,
    ("b", 3, 6): 140, ("b", 6, 10): 150, ("b", 14, 18): 150, ("b", 24, 30): 160, ("b", 100, 120): 240,
    ("b", 120, 140): 260, ("b", 140, 160): 280, ("b", 225, 250): 420, ("b", 450, 500): 840,
    ("c", 0, 3): 60, ("c", 10, 14): 95, ("c", 14, 18): 95, ("c", 18, 24): 110, ("c", 24, 30): 110, ("c", 30, 40): 120,
    ("c", 65, 80): 150, ("c", 80, 100): 170, ("c", 100, 120): 180, ("c", 180, 200): 240, ("c", 250, 280): 300,
    ("c", 400, 450): 440, ("c", 450, 500): 480,
    ("cd", 0, 3): 34,
    ("d", 6, 10): 40,
    ("e", 80, 120): 72, ("e", 315, 400): 125, ("e", 800, 1000): 170,
    ("ef", 0, 3): 10,
    ("f", 0, 3): 6, ("f", 315, 400): 62, ("f", 400, 500): 68, ("f", 500, 630): 76, ("f", 630, 800): 80,
    ("f", 800, 1000): 86,
    ("fg", 0, 3): 4,
    ("g", 0, 3): 2, ("g", 630, 800): 24, ("g", 800, 1000): 26, ("g", 1000, 1250): 28, ("g", 1250, 1600): 30,
    ("g", 2500, 3150): 38,
    ("k", 0, 3): 0,
    ("m", 0, 3): 2, ("m", 1000, 1250): 40, ("m", 1250, 1600): 48, ("m", 1600, 2000): 58, ("m", 2000, 2500): 68,
    ("m", 2500, 3150): 76,
    ("n", 0, 3): 4, ("n", 80, 120): 23, ("n", 500, 630): 44, ("n", 630, 800): 50, ("n", 800, 1000): 56,
    ("p", 1600, 2000): 170, ("p", 2000, 2500): 195,
    ("r", 0, 3): 10, ("r", 10, 14): 23, ("r", 14, 18): 23, ("r", 30, 40): 34, ("r", 40, 50): 34, ("r", 120, 140): 63,
    ("r", 140, 160): 65, ("r", 180, 200): 77, ("r", 450, 500): 132, ("r", 1400, 1600): 330, ("r", 2500, 2800): 550,
    ("s", 80, 100): 71, ("s", 100, 120): 79, ("s", 630, 710): 340, ("s", 1250, 1400): 640, ("s", 1800, 2000): 920,
    ("t", 24, 30): 41, ("t", 30, 40): 48, ("t", 40, 50): 54, ("t", 65, 80): 75, ("t", 80, 100): 91,
    ("t", 560, 630): 450, ("t", 1120, 1250): 840,
    ("u", 0, 3): 18, ("u", 3, 6): 23, ("u", 6, 10): 28, ("u", 10, 14): 33, ("u", 14, 18): 33, ("u", 18, 24): 41,
    ("u", 50, 65): 87, ("u", 400, 450): 490, ("u", 450, 500): 540,
    ("v", 14, 18): 39, ("v", 40, 50): 81, ("v", 400, 450): 595,
    ("x", 0, 3): 20, ("x", 3, 6): 28, ("x", 6, 10): 34, ("x", 10, 14): 40, ("x", 14, 18): 45, ("x", 40, 50): 97,
    ("y", 18, 24): 63, ("y", 24, 30): 75,
    ("z", 0, 3): 26, ("z", 3, 6): 35, ("z", 6, 10): 42, ("z", 10, 14): 50, ("z", 14, 18): 60, ("z", 18, 24): 73,
    ("z", 200, 225): 575,
    ("za", 0, 3): 32, ("za", 3, 6): 42, ("za", 6, 10): 52, ("za", 14, 18): 77,
    ("zb", 0, 3): 40, ("zb", 3, 6): 50, ("zb", 6, 10): 67, ("zb", 14, 18): 108, ("zb", 40, 50): 242,
    ("zc", 0, 3): 60, ("zc", 3, 6): 80, ("zc", 6, 10): 97, ("zc", 80, 100): 585,
}
"""Letter and range: the table's cell where it leaves the formula, um."""
# fmt: on


def span(edges: list[int], size: float) -> tuple[int, int]:
    place = bisect.bisect_left(edges, size)
    return edges[place - 1], edges[place]


def mean(edges: list[int], size: float) -> float:
    low, high = span(edges, size)
    return math.sqrt(max(low, 1) * high)


def to_step(value: float, step: float) -> float:
    return round(math.floor(value / step + 0.5) * step, 6)


def tolerance_step(value: float, over_500: bool) -> float:
    if over_500:
        limits = ((60, 1), (100, 2), (200, 5), (500, 10), (1000, 20), (2000, 50), (5000, 100))
    else:
        limits = ((100, 1), (200, 5), (1000, 10))
    return next(step for most, step in limits if value <= most)


@cache
def tolerance(grade: int, size: float) -> float | None:
    """IT, um; -1 is IT01. None where the standard gives none."""
    low = span(MAIN, size)[0]
    over_500 = size > 500
    if over_500 and grade < 1:
        return None
    if (grade, low) in TOLERANCES:
        return TOLERANCES[grade, low]
    if grade >= 12:
        finer = tolerance(grade - 5, size)
        return None if finer is None else 10 * finer
    d = mean(MAIN, size)
    unit = 0.004 * d + 2.1 if over_500 else 0.45 * d ** (1 / 3) + 0.001 * d
    if over_500:
        value = UNITS_OVER_500[grade] * unit
    elif grade in UNITS:
        value = UNITS[grade] * unit
    elif grade in (-1, 0, 1):
        value = {-1: 0.3 + 0.008 * d, 0: 0.5 + 0.012 * d, 1: 0.8 + 0.020 * d}[grade]
    else:
        first = 0.8 + 0.020 * d
        value = first * (7 * unit / first) ** ((grade - 1) / 4)
    if value < 1:
        return to_step(value, 0.1)
    if value < 3:
        return to_step(value, 0.5)
    return to_step(value, tolerance_step(value, over_500))


def deviation_step(value: float, clearance: bool, over_500: bool) -> float:
    if over_500:
        limits = ((60, 1), (100, 2), (200, 5), (500, 10), (1000, 20), (2000, 50), (5000, 100))
    elif clearance:
        limits = ((45, 1), (60, 2), (200, 5), (500, 10), (800, 20), (2000, 50))
    else:
        limits = ((60, 1), (300, 2), (560, 5), (800, 10), (1000, 20), (2000, 50), (5000, 100))
    return next(step for most, step in limits if value <= most)


def formula(letter: str, size: float) -> float | None:
    """Size of the fundamental deviation, um, not rounded; None where the standard gives none."""
    sub, d = mean(SUB, size), mean(MAIN, size)
    if letter == "a":
        return None if size > 500 else 265 + 1.3 * sub if sub <= 120 else 3.5 * sub
    if letter == "b":
        return None if size > 500 else 140 + 0.85 * sub if sub <= 160 else 1.8 * sub
    if letter == "c":
        return None if size > 500 else 52 * sub**0.2 if sub <= 40 else 95 + 0.8 * sub
    pairs = {"cd": "cd", "ef": "ef", "fg": "fg"}
    if letter in pairs:
        if size > 50:
            return None
        one, two = (deviation(each, size) for each in pairs[letter])
        assert one is not None and two is not None
        return math.sqrt(one * two)
    factor, exponent = POWERS.get(letter, (0, 0))
    if letter == "h":
        return 0
    if size > 500:
        if letter in "mnp":
            slope, base = {"m": (0.024, 12.6), "n": (0.04, 21), "p": (0.072, 37.8)}[letter]
            return slope * d + base
        if letter == "k":
            return 0
        if letter == "r":
            return math.sqrt(deviation("p", size) * deviation("s", size))
        if letter in "stu":
            return tolerance(7, size) + {"s": 0.4, "t": 0.63, "u": 1}[letter] * sub
        if letter in "defg":
            return factor * d**exponent
        return None
    if factor:
        return factor * d**exponent
    it = {grade: tolerance(grade, size) for grade in (6, 7, 8, 9, 10)}
    if letter == "k":
        return 0.6 * d ** (1 / 3)
    if letter == "m":
        return it[7] - it[6]
    if letter == "p":
        return it[7] + P_ADDS[MAIN.index(span(MAIN, size)[0])]
    if letter == "r":
        return math.sqrt(deviation("p", size) * deviation("s", size))
    if letter == "s":
        return it[8] + S_ADDS[MAIN.index(span(MAIN, size)[0])] if size <= 50 else it[7] + 0.4 * sub
    if letter in ("t", "u", "v", "x", "y", "z"):
        by = {"t": 0.63, "u": 1, "v": 1.25, "x": 1.6, "y": 2, "z": 2.5}[letter]
        starts = {"t": 24, "v": 14, "y": 18}
        return None if size <= starts.get(letter, 0) else it[7] + by * sub
    if letter in ("za", "zb", "zc"):
        grade, by = {"za": (8, 3.15), "zb": (9, 4), "zc": (10, 5)}[letter]
        return it[grade] + by * sub
    raise AssertionError(letter)


@cache
def deviation(letter: str, size: float) -> float | None:
    """Size of the fundamental deviation of a shaft, um, rounded as the standard rounds."""
    for edges in (SUB, MAIN):
        key = (letter, span(edges, size)[0], span(edges, size)[1])
        if key in DEVIATIONS:
            return DEVIATIONS[key]
    value = formula(letter, size)
    if value is None:
        return None
    return to_step(value, deviation_step(value, LETTERS.index(letter) < LETTERS.index("h"), size > 500))


J = {  # j and J follow no formula: the standard has them in its tables only
    "j5": (2, 2, 2, 3, 4, 5, 7, 9, 11, 13, 16, 18, 20),
    "j7": (4, 4, 5, 6, 8, 10, 12, 15, 18, 21, 26, 28, 32),
    "J6": (2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33),
    "J7": (4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43),
    "J8": (6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66),
}


def limits(letter: str, grade: int, size: float) -> tuple[float, float] | None:
    """Upper and lower deviation, um, of a hole (capitals) or a shaft; None where the standard gives none."""
    hole, name = letter.isupper(), letter.lower()
    width = tolerance(grade, size)
    if width is None or (size <= 1 and (grade >= 14 or name in "ab")):
        return None
    if name == "js":
        return width / 2, -width / 2
    if name == "j":
        return limits_j(hole, grade, size, width)
    if name == "k" and (size > 500 or (not hole and not 4 <= grade <= 7)):
        value: float | None = 0
    else:
        value = deviation(name, size)
    if value is None:
        return None
    if LETTERS.index(name) <= LETTERS.index("h"):
        return (value + width, value) if hole else (-value, -value - width)
    if not hole:
        return value + width, value
    upper = hole_upper(name, grade, size, value)
    return None if upper is None else (upper, upper - width)


def limits_j(hole: bool, grade: int, size: float, width: float) -> tuple[float, float] | None:
    if size > 500:
        return None
    place = MAIN.index(span(MAIN, size)[0])
    if hole:
        return (J[f"J{grade}"][place], J[f"J{grade}"][place] - width) if grade in (6, 7, 8) else None
    if grade == 8:
        return (width - 6, -6) if size <= 3 else None
    if grade not in (5, 6, 7):
        return None
    lower = -J["j7" if grade == 7 else "j5"][place]
    return lower + width, lower


def hole_upper(name: str, grade: int, size: float, value: float) -> float | None:
    """ES of K to ZC, um."""
    last = 8 if name in "kmn" else 7
    if name == "m" and grade == 6 and 250 < size <= 315:
        return -9
    if name == "n" and size <= 1 and grade > last:
        return None
    if name == "k" and size > 3 and grade > last:
        return None
    if 3 < size <= 500:
        if grade <= last:
            finer = tolerance(grade - 1, size) if grade >= 3 else None
            width = tolerance(grade, size)
            return None if finer is None or width is None else -value + width - finer
        if name == "n":
            return 0
    return -value
