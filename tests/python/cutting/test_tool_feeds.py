"""Feeds of drills, reamers and mills: bounded, continuous in the tool's size, and by hand where power is too coarse."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import material

FILE = Path(__file__).resolve().parents[2] / "reference" / "cutting" / "practice_feeds.csv"
ALLOYS = [row["id"] for row in hn.core.catalogue.rows("material/alloys")]
TOOLS = ("HSS", "carbide")
STEEPEST = 2.0  # no feed grows faster than the square of the diameter

alloys = st.sampled_from(ALLOYS)
tools = st.sampled_from(TOOLS)
sizes = st.floats(math.log(0.3), math.log(100.0)).map(math.exp)
steps = st.floats(1.0001, 1.05)


def rows(operation: str) -> list[dict[str, str]]:
    """The published feeds of an operation."""
    with FILE.open(encoding="utf-8") as file:
        found = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return [row for row in found if row["operation"] == operation]


def ids_of(group: str) -> list[str]:
    """Alloys of a group that is a name's beginning, such as every steel."""
    return [
        row["id"]
        for row in hn.core.catalogue.rows("material/alloys")
        if group == "any" or row["group"] == group or row["group"].startswith(group + "-")
    ]


def milled(alloy: str, mm: float, shape: str, tool: str = "HSS", **how):
    """A light cut of an end mill or face mill."""
    return hn.mill(
        alloy, f"{mm!r} mm", depth=f"{0.1 * mm!r} mm", width=f"{mm!r} mm", shape=shape, tool=tool, flutes=2, **how
    )


@settings(max_examples=400, deadline=None)
@given(alloys, tools, sizes, steps)
def test_drill_feeds_rise_with_the_diameter_without_steps(alloy, tool, mm, by):
    small = hn.drill(alloy, f"{mm!r} mm", tool=tool).feed_mm_rev
    large = hn.drill(alloy, f"{mm * by!r} mm", tool=tool).feed_mm_rev
    assert small * (1 - 1e-9) <= large <= small * by**STEEPEST * (1 + 1e-9)


@settings(max_examples=300, deadline=None)
@given(alloys, tools, st.floats(0.3, 12.5))
def test_a_small_drill_is_fed_a_small_share_of_its_diameter(alloy, tool, mm):
    """Kalpakjian & Schmid: at most 0.0167 of 1.5 mm and 0.024 of 12.5 mm; a third of 1 % is the least that cuts."""
    share = hn.drill(alloy, f"{mm!r} mm", tool=tool).feed_mm_rev / mm
    assert share <= (0.0167 if mm <= 1.5 else 0.024) * 1.003
    assert share >= 0.002


@settings(max_examples=200, deadline=None)
@given(alloys, st.sampled_from(("slot", "side", "face")), sizes, steps)
def test_tooth_feeds_rise_with_the_cutter_without_steps(alloy, shape, mm, by):
    small = milled(alloy, mm, shape).feed_per_tooth_mm
    large = milled(alloy, mm * by, shape).feed_per_tooth_mm
    assert small * (1 - 1e-9) <= large <= small * by**STEEPEST * (1 + 1e-9)


@pytest.mark.parametrize("group", ["titanium", "nickel", "copper-beryllium"])
@pytest.mark.parametrize("shape", ["slot", "side", "face"])
@pytest.mark.parametrize("tool", TOOLS)
def test_hard_metals_have_a_ceiling_whatever_the_cutter(group, shape, tool):
    """Printed for titanium: 0.002 to 0.005 in a tooth from 1 to 5 in; nickel the same, beryllium copper 0.15 mm."""
    named = ids_of(group)
    assert named
    for alloy in named:
        for mm in (1, 3, 10, 25, 63, 100, 160, 300):
            assert milled(alloy, mm, shape, tool).feed_per_tooth_mm <= (0.15 if group[0] == "c" else 0.13)


@settings(max_examples=200, deadline=None)
@given(alloys, st.sampled_from(("slot", "side", "pocket")), st.floats(0.5, 12.0), tools)
def test_a_small_cutter_bears_a_small_tooth(alloy, shape, mm, tool):
    """At most one hundredth of the diameter: the largest of the published ranges, aluminium at 12 mm, is 0.12."""
    assert milled(alloy, mm, shape, tool).feed_per_tooth_mm <= 0.0101 * mm


def test_published_drill_feeds():
    """Single printed feeds are the most, and the soft are fed at least a third of them; no range is passed."""
    checked = 0
    for row in rows("drill"):
        for alloy in ids_of(row["group"]):
            hardness = material.alloy(alloy).hardness_hb or 0.0
            high = float(row["feed_high_mm"])
            if row["feed_low_mm"]:
                if material.alloy(alloy).group == "magnesium":  # coarse, for fine chips burn: as the textbook has it
                    continue
                middle = math.sqrt(float(row["diameter_low_mm"] or 1.0) * float(row["diameter_high_mm"]))
                assert hn.drill(alloy, f"{middle!r} mm").feed_mm_rev <= high, (alloy, row)
            else:
                feed = hn.drill(alloy, f"{row['diameter_low_mm']} mm").feed_mm_rev
                assert feed <= high * 1.003, (alloy, row)
                if hardness <= 250:
                    assert feed >= 0.35 * high, (alloy, row, feed)
            checked += 1
    print(f"{checked} comparisons")
    assert checked > 250


def test_titanium_is_drilled_at_half_the_feed_of_steel():
    """Kalpakjian & Schmid, p. 649: 0.010 and 0.15 mm over 0.025 and 0.3 mm."""
    for mm in (1.5, 3, 6, 12.5):
        steel, titanium = (hn.drill(alloy, f"{mm} mm").feed_mm_rev for alloy in ("1018", "Ti-6Al-4V"))
        assert 0.4 <= titanium / steel <= 0.5 + 1e-9


def test_published_tooth_feeds():
    """No answer is above the published range for its size."""
    checked = 0
    for row in [*rows("end_mill"), *rows("face_mill")]:
        shape = "slot" if row["operation"] == "end_mill" else "face"
        for alloy in ids_of(row["group"]):
            for mm in (float(row["diameter_low_mm"]), float(row["diameter_high_mm"])):
                tooth = milled(alloy, mm, shape, "carbide").feed_per_tooth_mm
                assert tooth <= float(row["feed_high_mm"]) * (1.5 if row["group"] == "aluminium" else 1.0), (alloy, row)
                checked += 1
    assert checked > 50


def test_a_reamer_is_fed_two_to_three_times_as_fast_as_its_drill():
    """Kalpakjian & Schmid, p. 652, has three times; reaming texts two to three."""
    for alloy in ALLOYS:
        for mm in (2, 6.3, 6.4, 12, 20):
            ratio = hn.ream(alloy, f"{mm} mm").feed_mm_rev / hn.drill(alloy, f"{mm} mm").feed_mm_rev
            assert 2.0 - 1e-9 <= ratio <= 3.0


@pytest.mark.parametrize("alloy", ALLOYS)
def test_no_power_feed_is_coarser_than_what_suits(alloy):
    """Where the finest power feed of the quill is too coarse the answer is by hand, with the feed that is wanted."""
    finest = min(step.feed_mm for step in hn.milling_machine("bench-mill").core.quill.steps)
    by_hand = 0
    for mm in (0.34, 0.5, 1, 2, 3, 4, 6.3, 6.4, 10, 16):
        free = hn.drill(alloy, f"{mm} mm").feed_mm_rev
        cut = hn.drill(alloy, f"{mm} mm", machine="bench-mill")
        if cut.feed_source == "hand":
            by_hand += 1
            assert cut.feed_mm_rev == pytest.approx(free)
            assert cut.feed_mm_rev < finest
            assert "by hand" in cut.answer
        else:
            assert cut.feed_mm_rev <= 1.6 * free
    assert by_hand >= 3


def test_a_feed_finer_than_the_machine_has_is_fed_by_hand():
    cut = hn.drill("304", "1 mm", feed="0.01 mm/rev", machine="bench-mill")
    assert (cut.feed_source, cut.feed_mm_rev) == ("hand", 0.01)
    assert "below_smallest_feed" in {item.code for item in (*cut.notes, *cut.cautions)}


def test_a_table_feed_too_coarse_for_the_cutter_is_not_set():
    """A 3 mm cutter at the slowest step: the finest table feed would be several times what its teeth bear."""
    table = hn.milling_machine("bench-mill").core.table
    finest = min(step.feed_mm for step in table.steps)
    slow = hn.mill("718", "3 mm", depth="1 mm", shape="slot", flutes=2, machine="bench-mill")
    assert slow.feed_per_tooth_mm <= 0.015
    assert (slow.feed_source == "hand") == (slow.feed_mm_min < finest)


@pytest.mark.parametrize(
    ("alloy", "cutter", "flutes", "most"),
    [("7075", "10 mm", 4, 0.1), ("7075", "3/8 in", 2, 0.1), ("6061-T6", "1/8 in", 2, 0.032), ("304", "6 mm", 4, 0.03)],
)
def test_small_cutters_at_the_bench_mill(alloy, cutter, flutes, most):
    """Recalled from the handbook's table of feed a tooth: the high end for the metal at that diameter."""
    cut = hn.mill(alloy, cutter, depth="2 mm", shape="slot", flutes=flutes, machine="bench-mill")
    assert cut.feed_per_tooth_mm <= most
    chosen = hn.choose("mill slot", alloy, cutter, off="2 mm", length="60 mm", flutes=flutes, machine="bench-mill")
    for one in chosen.passes:
        assert one.cut.feed_per_tooth_mm <= most


@pytest.mark.parametrize("machine", ["gap-bed", "metric-lathe", "bench-mill"])
def test_a_tap_turns_at_the_slowest_step_or_by_hand(machine):
    read = hn.milling_machine if machine == "bench-mill" else hn.lathe
    slowest = min(step.rpm_low if step.variable else step.rpm for step in read(machine).core.spindle)
    for thread in ("1/4-20 UNC", "3/8-16 UNC", "M6x1", "M3x0.5"):
        for alloy in ("6061-T6", "1018", "Ti-6Al-4V"):
            cut = hn.tap(alloy, thread, machine=machine)
            assert cut.spindle_rpm == slowest
            assert str(cut).startswith("tap by hand, or at the slowest step")
            assert "tap_by_hand" in {item.code for item in cut.cautions}
            assert cut.window_high_m_min > 0
    asked = hn.tap("6061-T6", "1/4-20 UNC", machine=machine, spindle_rpm=3 * slowest)
    assert asked.spindle_rpm > slowest
    assert "tap_by_hand" not in {item.code for item in asked.cautions}
