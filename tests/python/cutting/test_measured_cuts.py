"""Reckoned forces against measured cuts: ratios by paper and group, and bands that no checked row has a say in."""

from __future__ import annotations

import csv
import math
import statistics
from collections.abc import Iterable
from pathlib import Path

import pytest

import halfnut as hn
from halfnut import cutting

FILE = Path(__file__).resolve().parents[2] / "reference" / "cutting" / "measured_forces.csv"
MOST_BAND = 2.5
MOST_VERIFIED = 1.8
BAND_POINTS = (0.05, 0.95)

# The material that a paper names, in the catalogue; what is not named is stood in for, and verifies nothing.
STEEL_STAND_IN = "1018"
IRON_STAND_IN = ("grey iron class 30", 150.0)  # the hardness that the handbook's factor for iron is given at


def rows() -> list[dict[str, str]]:
    """Return every measured row."""
    with FILE.open(encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def cut_of(row: dict[str, str]) -> hn.cutting.Cut:
    """Ask for the cut of a measured row, saying what the paper says and nothing more."""
    feed = f"{row['feed_mm']} mm/rev"
    if row["process"] == "drill":
        alloy, hardness = IRON_STAND_IN
        return hn.drill(
            alloy,
            f"{row['diameter_mm']} mm",
            feed=feed,
            spindle_rpm=float(row["spindle_rpm"]),
            tool="HSS",
            hardness_hb=hardness,
        )
    speed = float(row["cutting_speed_m_min"] or 100.0)
    tool = "coated carbide" if row["tool_material"] == "carbide_coated" else "carbide"
    alloy = "6061-T6" if row["alloy"] == "6061" else STEEL_STAND_IN
    rpm = cutting.spindle_speed_rpm(speed, 50.0)
    return hn.turn(alloy, "50 mm", depth=f"{row['depth_mm']} mm", feed=feed, spindle_rpm=rpm, tool=tool)


def measured_over_reckoned(row: dict[str, str]) -> float:
    """Return the ratio of a row's force, or of a drill's thrust."""
    cut = cut_of(row)
    if row["process"] == "drill":
        assert cut.feed_force_n is not None
        return float(row["thrust_n"]) / cut.feed_force_n
    assert cut.cutting_force_n is not None
    return float(row["fc_n"]) / cut.cutting_force_n


ALL = ("coating-6061", "iron-drilling", "student-steel")


def constants_apart(alloy: str) -> list[float]:
    """The alloy's other constants over the one that its force is reckoned with, at the unit power's chip."""
    found = hn.material.alloy(alloy)
    row = next(row for row in hn.core.catalogue.rows("material/alloys") if row["id"] == found.id)
    at, unit = row["unit_power_thickness_mm"], found.unit_power_hp_in3_min
    if at is None or unit is None:
        return [1.0]
    printed = cutting.unit_power_force_n_mm2(unit)
    upper = printed * (found.unit_power_high_hp_in3_min or unit) / unit
    if found.kc11_n_mm2 is None:
        return [1.0, upper / printed]
    groups = {each["group"]: each["parent"] for each in hn.core.catalogue.rows("material/groups")}
    scales = {each["group"]: each["kienzle_over_unit_power"] for each in hn.core.catalogue.rows("cutting/force_scales")}
    group = row["group"]
    while group not in scales:
        group = groups[group]
    kienzle = cutting.specific_cutting_force_n_mm2(found.kc11_n_mm2, found.mc, at) / scales[group]
    evidence = {item.rule_id for item in hn.turn(alloy, "50 mm").evidence}
    used = kienzle if "kc_tabulated" in evidence else printed
    return [each / used for each in (kienzle, printed, upper)]


@pytest.fixture(scope="module")
def ratios() -> dict[str, list[float]]:
    """Return measured over reckoned force of every row with a force, by paper."""
    out: dict[str, list[float]] = {}
    for row in rows():
        if row["fc_n"] or row["thrust_n"]:
            out.setdefault(row["paper"], []).append(measured_over_reckoned(row))
    return out


def point(papers: Iterable[list[float]], share: float) -> float:
    """Return the value below which a share of the rows lies, each paper weighted alike."""
    weighted = sorted((value, 1.0 / len(paper)) for paper in papers for value in paper)
    whole = sum(weight for _, weight in weighted)
    seen = 0.0
    for value, weight in weighted:
        seen += weight
        if seen >= share * whole - 1e-12:
            return value
    raise AssertionError


def covered(values: list[float], band: cutting.ForceBand) -> float:
    """Return the share of ratios within a band."""
    return sum(band.low <= value <= band.high for value in values) / len(values)


def test_rows_are_all_there():
    counts: dict[str, int] = {}
    for row in rows():
        counts[row["paper"]] = counts.get(row["paper"], 0) + 1
    assert counts == {"coating-6061": 18, "student-steel": 7, "iron-drilling": 64, "s45c-power": 49}


def test_ratio_and_spread_by_paper(ratios):
    """The median of reckoned over measured force lies within 0.8 and 1.25 in every paper that states a force."""
    for paper, values in ratios.items():
        over = sorted(1.0 / value for value in values)
        middle = statistics.median(over)
        spread = statistics.pstdev(map(math.log, over))
        print(
            f"{paper:14} {len(over):3} rows, reckoned over measured: median {middle:.2f}, "
            f"{over[0]:.2f} to {over[-1]:.2f}, standard deviation of the logarithm {spread:.2f}"
        )
        assert 0.8 <= middle <= 1.25


def test_coated_and_uncoated_edges_differ():
    """The one paper on 6061 has both: a coated edge is rounder, and takes a third more force at the same cut."""
    medians = {}
    for tool in ("carbide_uncoated", "carbide_coated"):
        chosen = [1.0 / measured_over_reckoned(row) for row in rows() if row["tool_material"] == tool]
        assert len(chosen) == 9
        medians[tool] = statistics.median(chosen)
        print(f"6061, {tool}: reckoned over measured {medians[tool]:.2f}")
    assert medians["carbide_uncoated"] > 1.2 * medians["carbide_coated"]


@pytest.mark.parametrize(
    ("alloy", "process", "own", "others"),
    [
        ("6061-T6", "turn", "coating-6061", ("iron-drilling", "student-steel")),
        ("grey iron class 30", "drill", "iron-drilling", ("coating-6061", "student-steel")),
        ("1018", "turn", "student-steel", ("coating-6061", "iron-drilling")),
        ("1045", "mill", "s45c-power", ("coating-6061", "iron-drilling")),
        ("304", "turn", None, ALL),
        ("7075", "turn", None, ALL),
        ("6082", "turn", None, ALL),
        ("Ti-6Al-4V", "tap", None, ALL),
        ("6061-T6", "mill", None, ALL),
        ("5083", "drill", None, ALL),
    ],
)
def test_bands_come_from_other_papers_and_say_what_they_are(ratios, alloy, process, own, others):
    """A band is reckoned without the paper it is checked on; verified is what passes, and names a material.

    Every paper of another group that states forces counts. A band that no measurement bears out is no narrower than
    the alloy's own constants are apart.
    """
    band = hn.cutting.force_band(alloy, process)
    low, high = (point([ratios[paper] for paper in others], share) for share in BAND_POINTS)
    apart = [1.0] if band.verified else constants_apart(alloy)
    assert band.low == pytest.approx(min(round(low, 2), *apart))
    assert band.high == pytest.approx(max(round(high, 2), *apart))
    assert band.high / band.low <= (MOST_VERIFIED if band.verified else MOST_BAND)
    assert band.rows == (0 if own is None else sum(row["paper"] == own for row in rows()))
    if own not in ratios:
        assert not band.verified
        return
    share = covered(ratios[own], band)
    middle = statistics.median(1.0 / value for value in ratios[own])
    print(f"upper over lower edge {band.high / band.low:.2f}")
    print(f"{alloy}, {process}: {share:.0%} of {band.rows} rows within {band.low} to {band.high}, median {middle:.2f}")
    passes = 0.80 <= share <= 0.95 and 0.8 <= middle <= 1.25
    named = own == "coating-6061"
    assert band.verified == (passes and named)


def test_no_paper_is_behind_the_constants():
    """No source of a measured row is behind the constants that the force was reckoned with."""
    titles = [line.split("|", 1)[1].strip() for line in FILE.read_text(encoding="utf-8").splitlines() if "| " in line]
    assert len(titles) == 4
    checked = 0
    for row in rows():
        if not (row["fc_n"] or row["thrust_n"]) or row["number"] != "1":
            continue
        for item in cut_of(row).evidence:
            if item.rule_id.startswith(("kc_", "kd_", "drill_")):
                assert not any(item.source in title or title in item.source for title in titles)
                checked += 1
    assert checked >= 4


def test_spindle_power_of_milling_by_its_trends():
    """The cutter's size is not stated, so the level says nothing; the rise with depth and feed must be the formula's.

    At a constant feed a tooth the formula makes power proportional to depth and to speed.
    """
    power: dict[tuple[str, float, float], float] = {}
    for row in rows():
        if row["power_w"]:
            power[row["note"], float(row["spindle_rpm"]), float(row["depth_mm"])] = float(row["power_w"])
    assert len(power) == 49
    reckoned = {
        (rpm, depth): hn.mill(
            "1045",
            "20 mm",
            depth=f"{depth} mm",
            step_down=f"{depth} mm",
            width="10 mm",
            step_over="10 mm",
            flutes=2,
            feed_per_tooth="0.1 mm",
            spindle_rpm=rpm,
            tool="carbide",
        ).spindle_power_kw
        for _, rpm, depth in power
    }
    speeds = sorted({rpm for _, rpm, _ in power})
    for sheet in sorted({sheet for sheet, _, _ in power}):
        slopes = {}
        for rpm in speeds:
            points = [(depth, watts) for (name, at, depth), watts in power.items() if (name, at) == (sheet, rpm)]
            mean_depth = statistics.mean(depth for depth, _ in points)
            mean_watts = statistics.mean(watts for _, watts in points)
            slope = sum((depth - mean_depth) * (watts - mean_watts) for depth, watts in points)
            slope /= sum((depth - mean_depth) ** 2 for depth, _ in points)
            residual = max(abs(watts - mean_watts - slope * (depth - mean_depth)) for depth, watts in points)
            assert residual < 0.15 * max(watts for _, watts in points), "power rises in proportion to depth"
            slopes[rpm] = slope
        rise = slopes[speeds[-1]] / slopes[speeds[0]]
        wanted = reckoned[speeds[-1], 5.0] / reckoned[speeds[0], 5.0]
        print(f"{sheet}: power a millimetre of depth rises {rise:.2f} times with speed, reckoned {wanted:.2f}")
        assert rise == pytest.approx(wanted, rel=0.12)


def test_the_band_is_shown_and_judged():
    cut = hn.turn("6061-T6", "32 mm", depth="1 mm", feed="0.2 mm/rev", tool="carbide")
    values = cut.to_dict()
    assert values["force_verified"] is True
    assert values["cutting_force_low_n"] < values["cutting_force_n"] < values["cutting_force_high_n"]
    assert values["spindle_power_low_kw"] < values["spindle_power_kw"] < values["spindle_power_high_kw"]
    assert "likely" in cut.why()
    assert "checked on measured cuts" in cut.why()
    steel = hn.turn("304", "1.25 in", depth="0.04 in")
    assert steel.force_verified is False
    assert "unverified" in steel.why()
    assert hn.knurl("brass", "20 mm").force_verified is None
    drilled = hn.drill("1018", "10 mm")
    assert drilled.feed_force_low_n < drilled.feed_force_n < drilled.feed_force_high_n


def test_force_grows_with_depth_feed_and_hardness_and_falls_with_rake():
    """Physical sense of whole cuts, over a grid of alloys."""
    checked = 0
    for row in hn.core.catalogue.rows("material/alloys"):
        if not (row["kc11_n_mm2"] or row["unit_power_hp_in3_min"]):
            continue
        name = row["id"]

        def force(depth=1.0, feed=0.2, name=name, **more):
            cut = hn.turn(name, "50 mm", depth=f"{depth} mm", feed=f"{feed} mm/rev", spindle_rpm=200, **more)
            return cut.cutting_force_n

        base = force()
        assert force(depth=1.2) > base
        assert force(feed=0.25) > base
        assert force(rake_deg=12.0) < force(rake_deg=0.0)
        slow, fast = (
            hn.turn(name, "50 mm", depth="1 mm", feed="0.2 mm/rev", spindle_rpm=rpm).spindle_power_kw
            for rpm in (100, 300)
        )
        assert fast > slow
        if row["hardness_hb"]:
            harder = float(row["hardness_hb"]) * 1.2
            assert force(hardness_hb=harder) > base
            before, after = hn.turn(name, "50 mm"), hn.turn(name, "50 mm", hardness_hb=harder)
            assert after.window_high_m_min <= before.window_high_m_min * (1 + 1e-9) or name in {
                "G11170",
                "G12144",
                "G12150",
            }
        checked += 1
    print(f"{checked} alloys")
    assert checked == 109


def test_passive_force_follows_the_real_edge():
    """A depth below the nose radius turns the force across the work, whatever the tool's own edge angle."""
    fine = hn.turn("1018", "20 mm", depth="0.1 mm", feed="0.1 mm/rev", nose_radius="0.8 mm")
    deep = hn.turn("1018", "20 mm", depth="3 mm", feed="0.1 mm/rev", nose_radius="0.8 mm")
    assert fine.passive_force_n > 2 * fine.feed_force_n
    assert deep.passive_force_n < deep.feed_force_n / 2
    slanted = hn.turn("1018", "20 mm", depth="3 mm", feed="0.1 mm/rev", nose_radius="0.8 mm", entering_deg=45)
    assert slanted.passive_force_n > 2 * deep.passive_force_n
