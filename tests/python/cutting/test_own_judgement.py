"""225 cuts on the demonstration machines against an engineer's own figures, written down before Halfnut was asked.

Every answer lies within one step of the machine of the figure written down, but for those named here with their
reason.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.machine.machines import Machine, lathe, milling_machine

REFERENCE = Path(__file__).parents[2] / "reference"
REAM_RPM = 400.0  # by hand from the tailstock: tests/reference/machine/hand_ceilings.csv
LATHE, MILL = lathe("gap-bed"), milling_machine("bench-mill")

# Settled from print, with what is printed.
FERROUS = "The Ferrous Metals Data Book, ch. 9, table 9-6"
SETTLED = {
    ("7075-T651", "turn", "carbide"): "a printed course sheet gives 244 to 457 m/min; the own figure is its low end",
    ("4130 annealed", "turn", "HSS"): f"{FERROUS}: to 36 m/min, a third above the own figure",
    ("4130 annealed", "mill_slot", "HSS"): f"{FERROUS}: the same row of turning by its share",
    ("4140 prehard", "bore", "HSS"): f"{FERROUS}: to 26 m/min in turning, of which boring is a share",
    ("grey iron class 30", "ream", "HSS"): "Machinery's Handbook, drilling and reaming: to 17 m/min, a third above",
    ("grey iron class 30", "turn", "carbide"): "a printed course sheet gives 76 to 122 m/min",
    ("POM", "part_off", "HSS"): "a printed course sheet gives 61 to 122 m/min in turning and half of it in parting",
}
SETTLED_MORE = {
    ("grey iron class 30", "mill_face", "carbide"): "a printed course sheet turns at 76 to 122 m/min, a handbook's "
    "face mills run a quarter faster than it turns",
    ("AZ31B", "drill", "HSS"): "a hand on the tailstock gives no faster than 60 turns a minute, and a finer feed burns",
    ("1018", "mill_face", "carbide"): f"{FERROUS.replace('9-6', '9-8')}: 64 m/min with HSS, and carbide by the least "
    "of the printed pairs",
}
TAPPED = "one hand stops the spindle before the bottom: 60 rev/min at most, tests/reference/machine/hand_ceilings.csv"
SETTLED_DRAWN = {
    ("A97050", "tap", "HSS"): TAPPED,
    ("M11916", "tap", "HSS"): TAPPED,
    (
        "F33800",
        "bore",
        "HSS",
    ): "Machinery's Handbook drills this iron at 21 m/min, and boring is no slower than drilling",
    ("R50700", "finish", "HSS"): "21 m/min in roughing, recalled from a handbook by grade; the own figure is nearer to "
    "that of titanium alloys",
    ("T11302", "turn", "carbide"): "a course sheet turns tool steels at 46 to 76 m/min, and a handbook reams M2 with "
    "carbide as fast as the O1 and A2 of that sheet",
}


# A tooth of a 1 mm cutter in laminate: in proportion to the recalled load at 3 mm, a third of the own figure.
FED_FINER = {("PHENOLIC", "mill_slot", "carbide")}
SEATS = ("countersink", "counterbore")
HOLE_SHARE = 0.55  # of the seat's diameter


def rows(name: str = "own_judgement.csv") -> list[dict[str, str]]:
    """The cuts."""
    with (REFERENCE / "cutting" / name).open() as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def step(machine: Machine, rpm: float) -> int:
    """Place of the fastest step that is not above a speed, else of the slowest."""
    speeds = [each.rpm for each in machine.core.spindle]
    return max((place for place, speed in enumerate(speeds) if speed <= rpm * (1 + 1e-9)), default=0)


def answer(row: dict[str, str], *, exact: bool = False) -> hn.Cut:
    """The same cut as Halfnut sets it, at the machines or as exact figures."""
    at_lathe, at_mill = (None, None) if exact else (LATHE, MILL)
    alloy, size, tool = row["alloy"], row.get("size") or f"{row['size_mm']} mm", row["tool"]
    match row["operation"]:
        case "turn":
            return hn.turn(alloy, size, tool=tool, machine=at_lathe)
        case "finish":
            return hn.turn(alloy, size, tool=tool, finish=True, machine=at_lathe)
        case "bore":
            return hn.bore(alloy, size, tool=tool, machine=at_lathe)
        case "part_off":
            return hn.part_off(alloy, size, tool=tool, machine=at_lathe)
        case "drill":
            return hn.drill(alloy, size, tool=tool, machine=at_lathe)
        case "ream":
            return hn.ream(alloy, size, tool=tool, machine=at_lathe)
        case "tap":
            return hn.tap(alloy, size, machine=at_lathe)
        case "knurl":
            return hn.knurl(alloy, size, machine=at_lathe)
        case "countersink" | "counterbore" as seat:
            hole = hn.Length(size) * HOLE_SHARE
            return getattr(hn, seat)(alloy, size, hole, tool=tool, machine=at_mill)
        case "mill_face":
            return hn.mill(alloy, size, shape="face", depth="1 mm", width="40 mm", tool=tool, machine=at_mill)
    depth = f"{float(row['size_mm']) / 4} mm" if "size_mm" in row else "0.5 mm"
    return hn.mill(alloy, size, shape="slot", depth=depth, length="60 mm", tool=tool, machine=at_mill)


def key_of(row: dict[str, str]) -> tuple[str, str, str]:
    """Metal, operation and tool of a cut."""
    return row["alloy"], row["operation"], row["tool"]


def steps_apart(row: dict[str, str]) -> int:
    """How many steps of the machine lie between the answer and the figure written down."""
    cut = answer(row)
    machine = MILL if row["operation"].startswith("mill") or row["operation"] in SEATS else LATHE
    rpm = min(float(row["rpm"]), REAM_RPM) if row["operation"] == "ream" else float(row["rpm"])
    apart = abs(step(machine, cut.spindle_rpm) - step(machine, rpm))
    print(f"{key_of(row)}: {cut.spindle_rpm:.0f}, own {rpm:.0f} rev/min, {apart} steps apart")
    return apart


def test_the_cuts_are_all_there() -> None:
    asked = rows()
    assert len(asked) == 120
    assert len({row["alloy"] for row in asked}) == 12
    assert {row["tool"] for row in asked} == {"HSS", "carbide"}
    sizes = [float(row["size_mm"]) for row in asked]
    assert (min(sizes), max(sizes)) == (3, 150)


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['alloy']}-{row['operation']}-{row['tool']}")
def test_speed_within_one_step(row: dict[str, str]) -> None:
    assert (steps_apart(row) <= 1) != (key_of(row) in SETTLED)


MORE = rows("own_judgement_more.csv")


def test_the_further_cuts_are_of_many_metals_and_both_systems() -> None:
    assert len(MORE) == 45
    assert len({row["alloy"] for row in MORE}) >= 20
    assert {"in", "mm"} <= {row["size"].split()[-1] for row in MORE}
    assert {key_of(row) for row in MORE} >= set(SETTLED_MORE)


@pytest.mark.parametrize("row", MORE, ids=lambda row: f"{row['alloy']}-{row['operation']}-{row['tool']}")
def test_further_speeds_within_one_step(row: dict[str, str]) -> None:
    assert (steps_apart(row) <= 1) != (key_of(row) in SETTLED_MORE)


DRAWN = rows("own_judgement_drawn.csv")


def test_the_drawn_cuts_cover_the_families_and_what_is_seldom_asked() -> None:
    assert len(DRAWN) == 60
    assert len({row["alloy"] for row in DRAWN}) >= 35
    assert len({row["operation"] for row in DRAWN}) == 12
    assert {key_of(row) for row in DRAWN} >= set(SETTLED_DRAWN)


@pytest.mark.parametrize("row", DRAWN, ids=lambda row: f"{row['alloy']}-{row['operation']}-{row['tool']}")
def test_drawn_speeds_within_one_step(row: dict[str, str]) -> None:
    assert (steps_apart(row) <= 1) != (key_of(row) in SETTLED_DRAWN)


FED = [row for row in MORE + DRAWN if row["feed_mm"] and key_of(row) not in FED_FINER]


@pytest.mark.parametrize("row", FED, ids=lambda row: f"{row['alloy']}-{row['size']}")
def test_further_feeds_within_half_and_twice(row: dict[str, str]) -> None:
    cut = answer(row, exact=True)
    feed = cut.feed_mm_rev if cut.feed_per_tooth_mm is None else cut.feed_per_tooth_mm
    assert float(row["feed_mm"]) / 2 <= feed <= 2 * float(row["feed_mm"])


@pytest.mark.parametrize("row", [row for row in rows() if row["feed_mm_rev"]], ids=lambda row: row["alloy"])
def test_feed_within_half_and_twice(row: dict[str, str]) -> None:
    feed = answer(row).feed_mm_rev
    assert float(row["feed_mm_rev"]) / 2 <= feed <= 2 * float(row["feed_mm_rev"])
