"""Speeds and feeds keep the trade's order over every alloy, tool, operation and size."""

from __future__ import annotations

import csv
from collections import Counter
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

import halfnut as hn
from halfnut import _core, material
from halfnut.core.catalogue import active

FILE = Path(__file__).resolve().parents[2] / "reference" / "cutting" / "relations.csv"
with FILE.open(encoding="utf-8") as file:
    RELATIONS = list(csv.DictReader(line for line in file if not line.startswith("#")))
TABLES = active()
ALLOYS = [material.alloy(row["id"]) for row in hn.core.catalogue.rows("material/alloys")]
TOOLS = ("hss", "hss_cobalt", "cast_cobalt", "carbide", "carbide_coated")
SIZES = (3, 6, 10, 20, 50, 100, 150)
SAME = 1e-9
USUAL = {  # depth and feed, mm, of a cut of which nothing is said
    "turn_rough": (1.0, 0.2),
    "turn_finish": (0.25, 0.1),
    "bore": (1.0, 0.1),
    "part_off": (3.0, 0.05),
    "thread": (float("nan"), 1.5),
    "knurl": (float("nan"), 0.1),
}
KNURL_MOST = 50.0  # m/min, printed with the forming feeds of knurls


@cache
def speeds(alloy: int, operation: str, tool: str, hardness: float | None = None) -> tuple[float, float]:
    """The window of a cut of which nothing else is said."""
    depth, feed = USUAL.get(operation, (float("nan"), float("nan")))
    return _core.windows(alloy, operation, tool, depth, feed, hardness, TABLES)[:2]


def is_of(alloy: material.Alloy, family: str) -> bool:
    plastic = alloy.group.split("-")[0] in ("plastic", "composite")
    burns = alloy.group == "magnesium"
    return {"any": True, "metal": not plastic and not burns, "plastic": plastic, "magnesium": burns}[family]


def tools_of(row: dict[str, str]) -> tuple[str, ...]:
    if row["figure"] == "knurl":
        return ("hss",)
    if row["figure"] == row["over"]:
        return ("carbide",)
    return TOOLS


def broken(row: dict[str, str]) -> list[str]:
    """The answers that a relation of speeds does not hold for."""
    out = []
    for alloy in ALLOYS:
        if not is_of(alloy, row["family"]):
            continue
        for tool in tools_of(row):
            these = speeds(alloy.index, row["figure"], tool)
            those = speeds(alloy.index, row["over"], row["over_tool"] or tool)
            ratios = [this / that for this, that in zip(these, those, strict=True)]
            if not all(float(row["least"]) - SAME <= one <= float(row["most"]) + SAME for one in ratios):
                out.append(f"{alloy.id} {tool}: {these[0]:.1f}-{these[1]:.1f} over {those[0]:.1f}-{those[1]:.1f}")
    return out


@pytest.mark.parametrize("row", [row for row in RELATIONS if row["quantity"] == "speed"], ids=lambda row: row["id"])
def test_speeds_keep_the_order_of_operations(row):
    wrong = broken(row)
    print(f"{row['id']}: {len(wrong)} violations")
    assert not wrong, "\n".join(wrong)


def test_no_knurl_is_faster_than_print_allows():
    assert [alloy.id for alloy in ALLOYS if speeds(alloy.index, "knurl", "hss")[1] > KNURL_MOST] == []


def test_carbide_is_never_slower_than_high_speed_steel():
    slower = [
        (alloy.id, operation)
        for alloy in ALLOYS
        for operation in ("turn_rough", "turn_finish", "bore", "part_off", "drill", "end_mill", "face_mill", "ream")
        if speeds(alloy.index, operation, "carbide")[1] < speeds(alloy.index, operation, "hss")[1] * (1 - SAME)
    ]
    assert slower == []


def test_coated_carbide_is_never_slower_than_plain():
    slower = [
        (alloy.id, operation)
        for alloy in ALLOYS
        for operation in ("turn_rough", "bore", "part_off", "end_mill", "face_mill")
        if speeds(alloy.index, operation, "carbide_coated")[1]
        < speeds(alloy.index, operation, "carbide")[1] * (1 - SAME)
    ]
    assert slower == []


def test_every_window_has_a_width():
    """R31: the lower end lies below the upper one."""
    for alloy in ALLOYS:
        for operation in (*USUAL, "drill", "ream", "tap", "end_mill", "face_mill", "spot", "countersink"):
            for tool in TOOLS:
                low, high = speeds(alloy.index, operation, tool)
                assert 0 < low < high, (alloy.id, operation, tool)


def test_harder_is_never_faster():
    """R24, printed with the exception of a few metals: here the free-machining steels, whose harder rows are drawn."""
    rising = set()
    for alloy in ALLOYS:
        if alloy.hardness_hb is None:
            continue
        for operation in (*USUAL, "drill", "ream", "tap", "end_mill"):
            for tool in ("hss", "carbide"):
                highs = [
                    speeds(alloy.index, operation, tool, alloy.hardness_hb * by)[1] for by in (1.0, 1.15, 1.3, 1.6)
                ]
                if any(after > before * (1 + SAME) for before, after in pairwise(highs)):
                    rising.add(alloy.id)
    assert rising <= {"G11170", "G12144", "G12150"}


def test_order_holds_for_every_hardness():
    """The relations hold not only at the tabulated hardness."""
    for row in RELATIONS:
        if row["quantity"] != "speed" or row["figure"] == row["over"]:
            continue
        for alloy in ALLOYS:
            if alloy.hardness_hb is None or not is_of(alloy, row["family"]):
                continue
            for by in (0.8, 1.25, 1.6):
                for tool in tools_of(row):
                    this = speeds(alloy.index, row["figure"], tool, by * alloy.hardness_hb)[1]
                    that = speeds(alloy.index, row["over"], row["over_tool"] or tool, by * alloy.hardness_hb)[1]
                    ratio = this / that
                    assert float(row["least"]) - SAME <= ratio <= float(row["most"]) + SAME, (row, alloy.id, tool, by)


@pytest.mark.parametrize("tool", ["HSS", "carbide"])
def test_feeds_keep_their_order(tool):
    """R3 ream over drill; R22 finish over rough; R16 to R18 drill over its diameter."""
    count: Counter[str] = Counter()
    for alloy in ALLOYS:
        for mm in SIZES:
            drill = hn.drill(alloy.id, f"{mm} mm", tool=tool).feed_mm_rev
            ream = hn.ream(alloy.id, f"{mm} mm", tool=tool).feed_mm_rev
            count["R3"] += not 2 - SAME <= ream / drill <= 3 + SAME
            count["R17"] += mm <= 12.5 and not 0.003 <= drill / mm <= 0.024 * 1.003
        rough = hn.turn(alloy.id, "50 mm", tool=tool).feed_mm_rev
        fine = hn.turn(alloy.id, "50 mm", tool=tool, finish=True).feed_mm_rev
        count["R22"] += not 0.15 <= fine / rough <= 0.6
        if fine / rough > 0.6:
            print(alloy.id, tool, rough, fine)
    print(dict(count))
    assert not any(count.values()), count


@pytest.mark.parametrize("tool", ["HSS", "carbide"])
def test_tooth_feeds_do_not_grow_beyond_25_mm(tool):
    """R20: at most 0.13 mm in titanium and nickel; R21: half to all of steel's."""
    for alloy in ALLOYS:
        cuts = {
            mm: hn.mill(alloy.id, f"{mm} mm", depth="1 mm", width=f"{mm / 2} mm", shape="side", flutes=4, tool=tool)
            for mm in SIZES
        }
        feeds = {mm: cut.feed_per_tooth_mm for mm, cut in cuts.items()}
        assert feeds[50] == pytest.approx(feeds[100]) == pytest.approx(feeds[150]), alloy.id
        if alloy.group.split("-")[0] in ("titanium", "nickel"):
            steel = hn.mill("1018", "10 mm", depth="1 mm", width="5 mm", shape="side", flutes=4, tool=tool)
            assert max(feeds.values()) <= 0.13
            assert 0.5 <= feeds[10] / steel.feed_per_tooth_mm <= 1
