"""Forces of an edge in use: passive and feed force by flank wear, limits with ordinary wear, roughness as the least."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

import halfnut as hn
from halfnut import batch

FILE = Path(__file__).resolve().parents[2] / "reference" / "cutting" / "worn_edge_forces.csv"
ORDINARY = 1.3  # Machinery's Handbook 31st ed., p. 1147: wear factor of ordinary turning
BLUNT_WEAR, BLUNT_MM = 1.4, 0.3  # Tschaetsch, recalled: blunt 1.3 to 1.5; ISO 3685, recalled: 0.3 mm


def measured() -> dict[float, tuple[float, float]]:
    """Passive and feed force over the cutting force, by flank wear."""
    with FILE.open(encoding="utf-8") as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return {float(row["flank_wear_mm"]): (float(row["fp_over_fc"]), float(row["ff_over_fc"])) for row in rows}


def across(cut) -> float:
    """Force across the edge, in the plane of feed and depth, over the cutting force."""
    return math.hypot(cut.passive_force_n, cut.feed_force_n) / cut.cutting_force_n


@pytest.mark.parametrize("flank", [0.0, 0.1, 0.3])
def test_force_across_the_edge_is_as_measured(flank):
    passive, feed = measured()[flank]
    wear = 1 + flank / BLUNT_MM * (BLUNT_WEAR - 1)
    cut = hn.turn("1045", "40 mm", depth="0.5 mm", feed="0.1 mm/rev", wear_factor=wear)
    assert across(cut) == pytest.approx(math.hypot(passive, feed), rel=1e-3)
    assert cut.passive_force_n / cut.cutting_force_n == pytest.approx(passive, abs=0.25)


def test_an_edge_of_which_nothing_is_said_is_half_worn():
    """Between the measured 0.1 and 0.3 mm, at 0.15 mm: a quarter of the way."""
    low, high = (math.hypot(*measured()[flank]) for flank in (0.1, 0.3))
    cut = hn.turn("1045", "40 mm", depth="0.5 mm", feed="0.1 mm/rev")
    assert across(cut) == pytest.approx(low + 0.25 * (high - low), rel=1e-3)
    assert {"ordinary_flank", "ordinary_wear"} <= {item.rule_id for item in cut.evidence}


def test_the_limit_of_deflection_covers_a_worn_edge():
    """The limit compares at least what an edge with 0.3 mm of flank wear does to a slender bar."""
    cut = hn.turn(
        "1045", "12 mm", depth="0.2 mm", feed="0.1 mm/rev", stick_out="60 mm", deflection="0.5 mm", machine="gap-bed"
    )
    sharp = hn.turn(
        "1045", "12 mm", depth="0.2 mm", feed="0.1 mm/rev", stick_out="60 mm", wear_factor=1.0, machine="gap-bed"
    )
    limit = next(limit for limit in cut.limits if limit.name == "deflection")
    worn = sharp.deflection_mm * math.hypot(*measured()[0.3]) / math.hypot(*measured()[0.0])
    assert limit.value >= worn
    assert cut.deflection_mm > 1.4 * sharp.deflection_mm


@pytest.mark.parametrize(
    ("cut", "wear"),
    [
        (hn.turn("1018", "40 mm", machine="gap-bed"), 1.3),
        (hn.drill("1018", "10 mm", machine="bench-mill"), 1.3),
        (hn.mill("1018", "10 mm", depth="2 mm", shape="slot", machine="bench-mill"), 1.1),
        (hn.mill("1018", "50 mm", depth="1 mm", width="40 mm", shape="face", machine="bench-mill"), 1.25),
    ],
)
def test_power_is_judged_with_ordinary_wear(cut, wear):
    band = hn.cutting.force_band("1018", "turn" if cut.operation == "turn" else cut.operation.split()[0].split("_")[0])
    power = next(limit for limit in cut.limits if limit.name == "power")
    assert power.value == pytest.approx(cut.spindle_power_kw * band.high * wear)
    assert cut.spindle_power_high_kw == pytest.approx(power.value)


def test_wear_that_is_given_is_all_the_wear_there_is():
    cut = hn.turn("1018", "40 mm", wear_factor=1.2, machine="gap-bed")
    band = hn.cutting.force_band("1018")
    power = next(limit for limit in cut.limits if limit.name == "power")
    assert power.value == pytest.approx(cut.spindle_power_kw * band.high)


def test_wear_and_forces_of_a_batch_are_the_scalar_ones_bit_for_bit():
    wears = [1.0, 1.05, 1.1333, 1.2, 1.4, 2.0, float("nan")]
    frame = {
        "alloy": ["1018"] * len(wears),
        "diameter_mm": [30.0] * len(wears),
        "depth_mm": [0.4] * len(wears),
        "feed_mm_rev": [0.1] * len(wears),
        "wear_factor": wears,
        "stick_out_mm": [60.0] * len(wears),
    }
    names = ["cutting_force_high_n", "passive_force_n", "feed_force_n", "deflection_mm", "spindle_power_high_kw"]
    found = batch.turn(frame, columns=names)
    for row, wear in enumerate(wears):
        cut = hn.turn(
            "1018", "30 mm", depth="0.4 mm", feed="0.1 mm/rev", stick_out="60 mm",
            wear_factor=None if math.isnan(wear) else wear,
        )  # fmt: skip
        for name in names:
            assert found[name][row] == getattr(cut, name), (name, wear)


def test_roughness_says_that_it_is_geometry_and_the_least():
    words = "geometry alone: the least"
    cut = hn.turn("1018", "30 mm", roughness_um=0.8)
    assert words in cut.why()
    assert "roughness_ra_um" in cut.to_dict()
    assert "roughness_least" in {item.code for item in (*cut.notes, *cut.cautions)}
    assert "the feed aims finer" in cut.why()
    assert cut.roughness_ra_um == pytest.approx(0.4)
    assert cut.roughness_low_um < 0.8 < cut.roughness_high_um
    milled = hn.mill("1018", "50 mm", depth="1 mm", width="40 mm", shape="face", roughness_um=1.6)
    assert words in milled.why()
    assert "rougher than its geometry" in milled.why()
    chosen = hn.choose("turn", "1018", "30 mm", to="28 mm", length="40 mm", machine="metric-lathe", roughness_um=1.6)
    assert words in chosen.why()
    assert "rougher than its geometry" in chosen.why()
    assert "roughness_least" not in {item.code for item in (*hn.turn("1018", "30 mm").notes,)}
