"""Jobs of a hundred parts of three operations: no two questions alike, or twelve parts again and again.

The parts are of a truss telescope's kind: pins turned to limits, threaded studs, tapped plates, milled links, knurled
knobs and bored rings, half of them in inches. No operation of them is refused.
"""

from __future__ import annotations

import math
from typing import Any

PARTS = 100
ALLOYS = (
    "6061-T6", "1018", "C36000", "4130 normalised", "304", "titanium grade 2", "7075", "12L14", "1045", "2024",
    "6063", "4140 annealed", "C26000", "5083", "1144", "C54400", "4340 annealed", "grey iron class 30", "C93200",
    "1215",
)  # fmt: skip
KNURLED = ("6061-T6", "C36000", "12L14", "1018", "1215", "C26000", "1144", "2024", "6063", "7075")
SCREWS = {
    True: ("#10-24 UNC", "1/4-20 UNC", "1/4-28 UNF", "5/16-18 UNC", "5/16-24 UNF", "3/8-16 UNC", "3/8-24 UNF",
           "1/2-20 UNF"),
    False: ("M5x0.8", "M6x1", "M8x1.25", "M8x1", "M10x1.5", "M10x1", "M12x1.75", "M12x1.5"),
}  # fmt: skip
DIAMETERS_MM = (4.826, 6.35, 6.35, 7.9375, 7.9375, 9.525, 9.525, 12.7), (5.0, 6.0, 8.0, 8.0, 10.0, 10.0, 12.0, 12.0)


def distinct() -> dict[str, Any]:
    """A job in which no question is asked twice."""
    return _job([_part(number) for number in range(PARTS)])


def repeated() -> dict[str, Any]:
    """A job of the same twelve parts again and again."""
    return _job([_part(number % 12) for number in range(PARTS)])


def _part(number: int) -> dict[str, Any]:
    return KINDS[number % len(KINDS)](number, number // 6 % 2 == 0)


def _job(parts: list[dict[str, Any]]) -> dict[str, Any]:
    named = [{**part, "name": f"part {number}", "quantity": 1} for number, part in enumerate(parts)]
    return {"title": "a hundred parts", "machine": "gap-bed", "parts": named}


def _size(mm: float, inch: bool) -> str:
    return f"{mm / 25.4:.4f} in" if inch else f"{mm:.3f} mm"


def _turned(number: int, inch: bool, alloy: str, blank_mm: float, length_mm: float, *operations: Any) -> dict[str, Any]:
    """A part of a bar in the three-jaw chuck of the inch or the metric lathe."""
    holding = "6 in three-jaw" if inch else "160 mm three-jaw"
    return {
        "alloy": alloy,
        "machine": "gap-bed" if inch else "metric-lathe",
        "length": _size(length_mm, inch),
        "stock": {"form": "bar", "diameter": _size(blank_mm, inch), "facing": _size(0.8, inch)},
        "operations": [{**each, "holding": holding} for each in operations],
    }


def _pin(number: int, inch: bool) -> dict[str, Any]:
    blank, length = 14.0 + 0.37 * number, 40.0 + 0.61 * number
    to, cut = blank - 1.7 - 0.013 * number, 0.4 * length
    face = {"do": "face", "off": _size(0.8, inch)}
    finish = {"tolerance": _size(0.04, inch)} if number % 4 < 2 else {}
    turn = {"do": "turn", "to": _size(to, inch), "length": _size(cut, inch), "stick_out": _size(cut + 12.0, inch)}
    step = {"do": "turn", "to": _size(to - 1.9, inch), "length": _size(0.3 * length, inch)}
    alloy = ALLOYS[(number // 6) % len(ALLOYS)]
    return _turned(number, inch, alloy, blank, length, face, {**turn, **finish}, step)


def _stud(number: int, inch: bool) -> dict[str, Any]:
    place = (number // 12) % 8
    size = DIAMETERS_MM[not inch][place]
    thread, to = SCREWS[inch][place] + ("-2A" if inch else "-6g"), size - 0.1 - 0.0003 * number
    blank = size + 3.3 + 0.01 * number
    cut = 1.8 * size
    length = cut + 6.0 + 0.01 * number
    out = {"stick_out": _size(length + 5.0, inch)}
    turn = {"do": "turn", "to": _size(to, inch), "length": _size(cut, inch), **out}
    screw = {"do": "thread", "thread": thread, "length": _size(0.7 * cut, inch)}
    part = {"do": "part off", "blade": _size(2.0, inch), "tool": "HSS"}
    made = _turned(number, inch, ALLOYS[(number // 6 + 7) % len(ALLOYS)], blank, length, turn, screw, part)
    made["stock"] |= {
        "bar_length": _size(900.0, inch),
        "grip": _size(35.0, inch),
        "pieces": 2,
        "kerf": _size(2.0, inch),
    }
    return made


def _tapped(number: int, inch: bool) -> dict[str, Any]:
    place = (number // 12) % 8
    size, thick = DIAMETERS_MM[not inch][place], 8.0 + 0.05 * number
    thread = SCREWS[inch][place]
    holes = {"pattern": "row", "holes": 3, "step": _size(2.5 * size + 0.1 * number, inch), "x": _size(2.0 * size, inch),
             "y": _size(2.0 * size, inch), "zero": "the left front corner"}  # fmt: skip
    spot = {"do": "spot", "diameter": _size(6.0, inch), "places": holes}
    drill = {"do": "drill", "diameter": "", "places": holes}
    tap = {"do": "tap", "thread": thread + ("-2B" if inch else "-6H"), "places": holes}
    drills = {
        True: ("#25", "#7", "#3", "letter F", "letter I", "5/16 in", "letter Q", "29/64 in"),
        False: ("4.2 mm", "5 mm", "6.8 mm", "7 mm", "8.5 mm", "9 mm", "10.2 mm", "10.5 mm"),
    }
    drill["diameter"] = drills[inch][place]
    return _plate(ALLOYS[(number // 6 + 3) % len(ALLOYS)], thick, 110.0 + number, inch, spot, drill, tap)


def _plate(alloy: str, thick_mm: float, length_mm: float, inch: bool, *operations: Any) -> dict[str, Any]:
    stock = {"form": "plate", "thickness": _size(thick_mm, inch), "width": _size(60.0, inch)}
    return {"alloy": alloy, "machine": "bench-mill", "length": _size(length_mm, inch), "stock": stock,
            "operations": [*operations]}  # fmt: skip


def _link(number: int, inch: bool) -> dict[str, Any]:
    thick = 9.0 + 0.04 * number
    cutters = (10.0, 12.0, 8.0) if not inch else (9.525, 12.7, 7.9375)
    cutter = cutters[(number // 6) % 3]
    own = {"do": "mill", "cutter": _size(cutter, inch), "flutes": 3, "stick_out": _size(2.2 * cutter, inch)}
    side = {**own, "shape": "side", "length": _size(38.0, inch), "width": _size(1.0, inch), "depth": _size(thick, inch)}
    pocket = {**own, "shape": "pocket", "flutes": 2, "length": _size(60.0 + 0.1 * number, inch), "entry": "ramp",
              "width": _size(2.0 * cutter, inch), "depth": _size(3.0 + 0.02 * number, inch)}  # fmt: skip
    face = {"do": "mill", "shape": "slot", "cutter": _size(cutter, inch), "flutes": 2, "length": _size(30.0, inch),
            "stick_out": _size(2.2 * cutter, inch), "depth": _size(2.0 + 0.011 * number, inch),
            "width": _size(cutter, inch)}  # fmt: skip
    alloy = ("6061-T6", "7075", "5083", "2024", "C36000", "6063", "12L14", "1018", "C26000")[(number // 6) % 9]
    return _plate(alloy, thick, 120.0 + number, inch, side, pocket, face)


def _knob(number: int, inch: bool) -> dict[str, Any]:
    pitch_mm = 25.4 / 21 if inch else 1.2
    tracks = (60 + number // 6) * pitch_mm / math.pi
    turn = {"do": "turn", "to": _size(tracks, inch), "length": _size(12.0, inch)}
    knurl = {"do": "knurl", "pitch": "21 TPI" if inch else "1.2 mm", "pattern": "straight", "width": _size(8.0, inch)}
    neck = {"do": "turn", "to": _size(0.7 * tracks, inch), "length": _size(3.5 + 0.01 * number, inch)}
    alloy = KNURLED[(number // 6) % len(KNURLED)]
    return _turned(number, inch, alloy, tracks + 1.6, 20.0 + 0.03 * number, turn, knurl, neck)


def _ring(number: int, inch: bool) -> dict[str, Any]:
    blank = 30.0 + 0.2 * number
    spot = {"do": "spot", "diameter": _size(6.0, inch)}
    drill = {"do": "drill", "diameter": _size(14.0 + 0.03 * number, inch), "depth": _size(30.0, inch)}
    bore = {"do": "bore", "to": _size(16.5 + 0.05 * number, inch), "length": _size(24.0, inch),
            "bar": _size(10.0, inch), "stick_out": _size(32.0, inch), "tolerance": _size(0.05, inch)}  # fmt: skip
    return _turned(number, inch, ALLOYS[(number // 6 + 11) % len(ALLOYS)], blank, 45.0 + number, spot, drill, bore)


KINDS = (_pin, _tapped, _stud, _link, _knob, _ring)
