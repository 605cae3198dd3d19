"""What a pair of hands can do: each answer stays within the machine file's ceilings and names the one that binds."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.machine.machines import lathe, milling_machine

REFERENCE = Path(__file__).parents[2] / "reference" / "machine" / "hand_ceilings.csv"
ALLOYS = ("6061-T6", "C36000", "1018", "4140 prehard", "304", "Ti-6Al-4V", "POM")
LATHES = ("gap-bed", "metric-lathe")


def ceilings() -> dict[str, tuple[float, float]]:
    """Low and high end by id; the low end of a ceiling is 0."""
    with REFERENCE.open() as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return {row["id"]: (float(row["low"] or 0), float(row["high"])) for row in rows}


TAUGHT = ceilings()


def test_defaults_are_what_is_taught() -> None:
    core = lathe("gap-bed").core
    assert core.tailstock_turns_per_min == core.table_turns_per_min == TAUGHT["dial"][1]
    assert core.hand_ream_rpm == TAUGHT["ream"][1]
    assert core.hand_knurl_rpm == TAUGHT["knurl"][1]


@pytest.mark.parametrize("machine", LATHES)
@pytest.mark.parametrize("alloy", ALLOYS)
@pytest.mark.parametrize("mm", [3, 6, 10, 16, 25])
def test_drills_and_reamers_from_the_tailstock(machine: str, alloy: str, mm: int) -> None:
    for ask in (hn.drill, hn.ream):
        cut = ask(alloy, f"{mm} mm", depth=f"{2 * mm} mm", machine=machine)
        assert cut.feed_source == "hand"
        assert cut.hand_turns_per_min <= TAUGHT["dial"][1] * (1 + 1e-9)
        assert cut.spindle_rpm <= TAUGHT["ream"][1] or ask is hn.drill


def test_a_drill_names_the_hand_that_feeds_it() -> None:
    cut = hn.drill("5083", "5/16 in", depth="1.25 in", machine="gap-bed")
    assert cut.hand_turns_per_min == pytest.approx(TAUGHT["dial"][1])
    assert cut.limited_by == cut.feed_limited_by == "hand_feed"
    slow = lathe("gap-bed").replace(hands={"tailstock_turns": 30})
    slower = hn.drill("5083", "5/16 in", machine=slow)
    assert slower.feed_mm_rev * slower.spindle_rpm == pytest.approx(cut.feed_mm_rev * cut.spindle_rpm / 2)


def test_a_drill_that_hardens_its_metal_is_slowed_rather_than_starved() -> None:
    slow = lathe("metric-lathe").replace(hands={"tailstock_turns": 5})
    for alloy, share in (("304", 1.0), ("1018", 0.5)):
        free = hn.drill(alloy, "12 mm", machine="metric-lathe")
        held = hn.drill(alloy, "12 mm", machine=slow)
        assert held.limited_by == "hand_feed"
        assert held.spindle_rpm < free.spindle_rpm
        assert held.feed_mm_rev * held.spindle_rpm == pytest.approx(5 * 3.0)
        assert held.feed_mm_rev >= share * free.feed_mm_rev * 0.5


@pytest.mark.parametrize("alloy", ["6061-T6", "C36000", "POM"])
def test_a_reamer_by_hand(alloy: str) -> None:
    cut = hn.ream(alloy, "6 mm", machine="metric-lathe")
    assert cut.spindle_rpm == TAUGHT["ream"][1]
    assert cut.limited_by == "hand_speed"
    quick = lathe("metric-lathe").replace(hands={"ream_rpm": 250})
    assert hn.ream(alloy, "6 mm", machine=quick).spindle_rpm == 250


@pytest.mark.parametrize("machine", [None, *LATHES])
@pytest.mark.parametrize("alloy", ALLOYS)
def test_a_knurl_is_counted_by_eye(machine: str | None, alloy: str) -> None:
    for mm in (8, 12, 20, 36):
        cut = hn.knurl(alloy, f"{mm} mm", machine=machine)
        assert cut.spindle_rpm <= TAUGHT["knurl"][1]
        assert cut.limited_by in ("hand_speed", "speed_window")


def test_a_knurl_names_the_hand() -> None:
    assert hn.knurl("C36000", "20 mm", machine="metric-lathe").limited_by == "hand_speed"


def test_a_tap_names_what_stops_it() -> None:
    assert hn.tap("6061-T6", "1/4-20 UNC", machine="gap-bed").limited_by == "reversal"


def test_threading_to_a_shoulder() -> None:
    """The taught figure, 210 rev/min, is 60 x 0.25 in x 14 over one second."""
    thread = "7/8-14 UNF-2A"
    chased = hn.chase(thread, machine="gap-bed", alloy="6061-T6", run_out="0.25 in")
    assert chased.stopping_rpm == pytest.approx(TAUGHT["shoulder"][1])
    assert chased.spindle_rpm <= TAUGHT["shoulder"][1]
    brisk = lathe("gap-bed").replace(hands={"half_nut": "0.5 s"})
    assert hn.chase(thread, machine=brisk, alloy="6061-T6", run_out="0.25 in").stopping_rpm == pytest.approx(420)


def test_a_table_without_power_is_wound() -> None:
    bare = milling_machine("bench-mill").replace(table=None)
    cut = hn.mill("6061-T6", "10 mm", shape="slot", depth="5 mm", length="100 mm", flutes=2, machine=bare)
    assert cut.feed_source == "hand"
    assert cut.hand_turns_per_min <= TAUGHT["dial"][1] * (1 + 1e-9)
    assert cut.limited_by == "hand_feed"


def test_slides_that_hands_do_not_move_at_once() -> None:
    ask = ("7075", "10 mm", "16 mm", "6 mm")
    with pytest.raises(hn.DomainError, match="drill a start hole, or plunge"):
        hn.helix(*ask, machine="bench-mill")
    with pytest.raises(hn.DomainError, match="moves 1, hands winding 1"):
        hn.ramp("7075", "10 mm", "3 mm", machine=milling_machine("bench-mill").replace(table=None))
    assert hn.ramp("7075", "10 mm", "3 mm", machine="bench-mill").way == "ramp"  # X by power, the quill by hand
    programmed = milling_machine("bench-mill").replace(hands={"axes": 3})
    assert hn.helix(*ask, machine=programmed).turns > 1


@pytest.mark.parametrize(("key", "value"), [("axes", 4), ("tailstock_turns", 200)])
def test_a_ceiling_that_no_hand_reaches_is_told(key: str, value: float) -> None:
    told = lathe("gap-bed").replace(hands={key: value}).core.problems()
    assert [where for where, _, _ in told] == [f"hands.{key}"]
