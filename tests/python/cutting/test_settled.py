"""Answers that once lay apart from practice, as each was settled: tests/reference/cutting/settled.csv."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

import halfnut as hn

FILE = Path(__file__).resolve().parents[2] / "reference" / "cutting" / "settled.csv"
with FILE.open(encoding="utf-8") as file:
    SETTLED = list(csv.DictReader(line for line in file if not line.startswith("#")))


def cut_of(ask: str, **more: object) -> hn.cutting.Cut:
    """The cut that a row asks: what, alloy, size, unit, tool."""
    what, alloy, size, unit, tool = ask.split()
    name, tool, across = alloy.replace("_", " "), tool.replace("_", " "), f"{size} {unit}"
    match what:
        case "finish":
            return hn.turn(name, across, tool=tool, finish=True, **more)
        case "chase":
            return hn.thread_speed(name, across, "1.5 mm", tool=tool)
        case "knurl":
            return hn.knurl(name, across, **more)
        case "mill_face":
            return hn.mill(name, across, tool=tool, shape="face", depth="1 mm", width="40 mm", **more)
        case "mill_slot":
            return hn.mill(name, across, tool=tool, shape="slot", depth="2 mm", **more)
    return getattr(hn, what)(name, across, tool=tool, **more)


def figure(ask: str, name: str) -> float:
    """A figure of an alloy, of a form's strength or of a cut; forces are those of one and the same cut."""
    what, alloy, form, *thickness = (word.replace("_", " ") for word in ask.split())
    if what == "alloy":
        held = hn.alloy(alloy)
        return held.tensile_mpa / held.hardness_hb if name == "tensile_over_hb" else getattr(held, name)
    if what == "strength":
        given = "-" not in thickness
        return getattr(hn.minimum_strength(alloy, form, thickness=" ".join(thickness) if given else None), name)
    if name == "cutting_force_n":
        return cut_of(ask, depth="2 mm", feed="0.2 mm/rev", spindle_rpm=1000).cutting_force_n
    cut = cut_of(ask)
    if name == "specific_n_mm2":
        return cut.cutting_force_n / (cut.depth_mm * cut.feed_mm_rev)
    return getattr(cut, name)


@pytest.mark.parametrize("row", SETTLED, ids=lambda row: row["id"])
def test_settled_figures_hold(row):
    found = figure(row["ask"], row["figure"])
    if row["over"]:
        found /= figure(row["over"], row["figure"])
    print(f"{row['id']}: {found:.3g}, from {row['low']} to {row['high']}")
    assert float(row["low"]) <= found <= float(row["high"]) * (1 + 1e-9)
    assert row["reason"]
    assert row["kind"] in ("changed", "kept")


def test_laminates_are_not_knurled():
    for alloy in ("G10", "CFRP", "PHENOLIC"):
        with pytest.raises(hn.NotTabulatedError, match="splits"):
            hn.knurl(alloy, "20 mm")


def test_no_leading_nought_vanishes():
    """#00-90 is 0.047 in, #0-90 0.060 in."""
    assert hn.limits("#00-90 UNS-2A").to_dict()["major_max"] == pytest.approx(0.0465)
