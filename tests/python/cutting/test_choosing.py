"""The choice of passes: against trying everything, against level 1, and what it says of itself."""

from __future__ import annotations

import math
import random
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import halfnut as hn
from halfnut import _core
from halfnut.machine.machines import Machine

TESTS = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(TESTS / "oracles"), str(TESTS / "python")]
import choose_brute  # noqa: E402
from choose_cases import (  # noqa: E402
    SHAPES,
    ask,
    ask_milling,
    milling_case,
    oracle_case,
    places,
    small_case,
    small_machine,
    small_milling,
    table_speed,
)

CASES, MANY = 2000, 200
MILLED, MANY_MILLED = 800, 120


def check_as_shops(cases: int, remember: bool, **size: Any) -> tuple[int, dict[str, dict[object, int]]]:
    """Objective by objective and reading by reading, over random cases: those without an answer, and what came up."""
    impossible = 0
    seen: dict[str, dict[object, int]] = {"passes": {}, "apart": {}, "closing": {}, "levers": {}}
    for seed in range(cases):
        machine, cut, alloy, tool, numbers, hold, line = small_case(seed, **size)
        case = oracle_case(machine, cut, alloy, tool, numbers, hold, line)
        expected = choose_brute.fastest_as_shops(case, remember)
        found = ask(machine, cut, alloy, tool, numbers, hold)
        if expected is None:
            impossible += 1
            assert not found.passes, f"case {seed}: nothing keeps every limit, but {len(found.passes)} passes"
            continue
        assert found.passes, f"case {seed}: {expected} was there"
        before = found.time_s - machine.measure_s
        got = (round(1000 * before), found.levers_moved, places(machine, found))
        assert (got, found.lines_apart) == expected, f"case {seed}"
        levers = len(case["speeds"]) * len(case["feeds"])
        what = (len(found.passes), found.lines_apart, found.closing, levers)
        for counts, key in zip(seen.values(), what, strict=True):
            counts[key] = counts.get(key, 0) + 1
    print(f"{cases} cases, {impossible} without an answer; {seen}")
    return impossible, seen


def test_passes_as_shops_divide_them_are_those_of_trying_every_one():
    impossible, seen = check_as_shops(CASES, remember=False, lines=(0.02, 0.05, 0.1), most=13)
    assert impossible >= CASES // 10
    assert sum(seen["passes"].values()) >= CASES // 4
    assert len(seen["passes"]) >= 3
    assert len(seen["apart"]) == 3
    assert len(seen["closing"]) == 3


def test_passes_of_many_levers_over_many_lines_are_those_of_a_search_that_remembers():
    """Where whole families of levers and depths are skipped: up to 25 levers, 80 lines."""
    impossible, seen = check_as_shops(MANY, remember=True, lines=(0.01, 0.02, 0.05), most=80, steps=5)
    assert impossible >= MANY // 10
    assert sum(count for passes, count in seen["passes"].items() if passes >= 4) >= MANY // 20
    assert sum(count for levers, count in seen["levers"].items() if levers >= 6) >= MANY // 5


def check_milling(cases: int, remember: bool, **size: Any) -> tuple[int, dict[str, Counter[object]]]:
    """Objective by objective, reading by reading, passes side by side; those without an answer, and what came up."""
    impossible = 0
    seen: dict[str, Counter[object]] = {key: Counter() for key in ("shape", "passes", "apart", "across", "more")}
    for seed in range(cases):
        machine, cut, alloy, tool, numbers, line = small_milling(seed, **size)
        case = milling_case(machine, cut, alloy, tool, numbers, line)
        expected = choose_brute.fastest_milled(case, remember)
        found = ask_milling(machine, cut, alloy, tool, numbers)
        if expected is None:
            impossible += 1
            assert not found.passes, f"case {seed}: nothing keeps every limit, but {len(found.passes)} passes"
            continue
        assert found.passes, f"case {seed}: {expected} was there"
        cost = (round(1000 * (found.time_s - machine.measure_s)), found.levers_moved, places(machine, found))
        got = (cost, found.lines_apart, found.across)
        assert got == expected, f"case {seed}: {got}, trying everything gives {expected}"
        more = found.across - min(choose_brute.tried_across(case))
        what = (cut, len(found.passes), found.lines_apart, found.across, more)
        for counts, key in zip(seen.values(), what, strict=True):
            counts[key] += 1
    print(f"{cases} cases, {impossible} without an answer; {seen}")
    return impossible, seen


def test_milled_passes_are_those_of_trying_every_one():
    impossible, seen = check_milling(MILLED, remember=False, lines=(0.1, 0.2, 0.5), most=7, steps=3)
    assert impossible >= MILLED // 10
    assert min(seen["shape"][shape] for shape in SHAPES) >= MILLED // 40
    assert len(seen["passes"]) >= 3
    assert len(seen["across"]) >= 3
    assert sum(count for more, count in seen["more"].items() if more) >= MILLED // 100


def test_milled_passes_over_many_lines_are_those_of_a_search_that_remembers():
    impossible, seen = check_milling(MANY_MILLED, remember=True, lines=(0.02, 0.05, 0.1), most=30, steps=4)
    assert impossible >= MANY_MILLED // 10
    assert len(seen["passes"]) >= 4
    assert len(seen["apart"]) == 3
    assert len(seen["across"]) >= 3


def test_free_choice_is_that_of_trying_every_sequence():
    """Objective by objective, over random small cases; at least a tenth of them without an answer."""
    impossible = answered = 0
    lengths: dict[int, int] = {}
    for seed in range(CASES):
        machine, cut, alloy, tool, numbers, hold, line = small_case(seed)
        expected = choose_brute.fastest(oracle_case(machine, cut, alloy, tool, numbers, hold, line))
        found = ask(machine, cut, alloy, tool, numbers, hold, free=True)
        if expected is None:
            impossible += 1
            assert not found.passes, f"case {seed}: nothing keeps every limit, but {len(found.passes)} passes"
            continue
        answered += 1
        measured = 2 * machine.measure_s
        got = (round(1000 * (found.time_s - measured)), found.levers_moved, places(machine, found))
        assert found.passes, f"case {seed}: {expected} was there"
        assert got == expected, f"case {seed}: {got}, trying everything gives {expected}"
        lengths[len(found.passes)] = lengths.get(len(found.passes), 0) + 1
    print(f"{CASES} cases, {impossible} without an answer; passes: {dict(sorted(lengths.items()))}")
    assert impossible >= CASES // 10
    assert answered >= CASES // 5
    assert len(lengths) >= 3


SHAFTS = [
    ("turn", "6061-T6", "1.5 in", {"to": "1.2345 in", "length": "4 in", "machine": "gap-bed"}),
    ("turn", "4130 normalised", "32 mm", {"to": "25 mm", "length": "80 mm", "stick_out": "90 mm",
                                          "tolerance": "0.02 mm", "roughness_um": 1.6, "machine": "metric-lathe"}),
    ("turn", "304", "20 mm", {"to": "16 mm", "length": "40 mm", "tool": "carbide", "machine": "metric-lathe"}),
    ("turn", "1018", "2 in", {"to": "1.5 in", "length": "6 in", "life_min": 60.0, "machine": "gap-bed"}),
    ("turn", "titanium grade 2", "12 mm", {"to": "10 mm", "length": "30 mm", "machine": "gap-bed"}),
    ("bore", "6061-T6", "20 mm", {"to": "24.5 mm", "length": "30 mm", "bar_diameter": "14 mm", "stick_out": "45 mm",
                                  "tolerance": "0.02 mm", "machine": "metric-lathe"}),
    ("face", "C36000", "40 mm", {"off": "1.5 mm", "machine": "metric-lathe"}),
    ("face", "1018", "3 in", {"off": "0.1 in", "machine": "gap-bed"}),
    ("mill slot", "7075", "10 mm", {"off": "8 mm", "length": "60 mm", "machine": "bench-mill"}),
    ("mill side", "6061-T6", "12 mm", {"off": "12 mm", "width": "9 mm", "length": "80 mm", "stick_out": "30 mm",
                                       "tolerance": "0.05 mm", "machine": "bench-mill"}),
    ("mill pocket", "5083", "8 mm", {"off": "6 mm", "width": "30 mm", "length": "50 mm", "machine": "bench-mill"}),
    ("mill face", "5083", "50 mm", {"off": "1 mm", "width": "90 mm", "length": "120 mm", "flutes": 5,
                                    "machine": "bench-mill"}),
]  # fmt: skip
BROKEN = {
    "above_window", "asked_too_fast", "above_chuck_limit", "power_exceeded", "torque_exceeded", "deflection_exceeded",
    "roughness_exceeded", "feed_above_nose", "chip_too_thin", "below_smallest_feed",
}  # fmt: skip


@pytest.fixture(scope="module")
def shafts():
    return [hn.choose(do, alloy, size, **how) for do, alloy, size, how in SHAFTS]


def test_every_shaft_has_an_answer(shafts):
    for chosen, (do, alloy, size, _) in zip(shafts, SHAFTS, strict=True):
        assert chosen.found, (do, alloy, size, chosen.relaxations)


def test_nothing_chosen_breaks_a_limit_at_level_1(shafts):
    """Every pass again from the formulas of numbers, and as a cut of its own."""
    checked = 0
    for chosen, (do, _, _, how) in zip(shafts, SHAFTS, strict=True):
        alloy, machine = chosen.alloy, hn.lathe(how["machine"]).core if not do.startswith("mill") else None
        for one in chosen.passes:
            assert not BROKEN & {item.code for item in one.cut.cautions}, one.cut.cautions
            assert all(limit.slack >= -1e-9 for limit in one.limits), one.limits
            if machine is None:
                continue
            cut = one.cut
            at_mm = one.before_mm if do == "turn" else one.after_mm if do == "bore" else chosen.diameter_mm
            v = hn.cutting.cutting_speed_m_min(cut.spindle_rpm, at_mm)
            assert v <= cut.window_high_m_min * (1 + 1e-9)
            kappa = hn.cutting.mean_entering_deg(one.depth_mm, 0.8, 90.0)
            chip = hn.cutting.chip_thickness_mm(cut.feed_mm_rev, kappa)
            assert chip >= 0.01
            constants = hn.force_band(alloy)
            v0 = table_speed(alloy)
            factor = 1.0 if v0 is None else hn.cutting.speed_correction(v, v0)
            force = hn.cutting.turning_force_n(
                constants.kc11_n_mm2, constants.mc, one.depth_mm, cut.feed_mm_rev, kappa,
                factor * (1.2 if do == "bore" else 1.0),
            )  # fmt: skip
            assert force == pytest.approx(cut.cutting_force_n, rel=1e-9)
            high = 1.3 * constants.high  # ordinary wear
            power = hn.cutting.cutting_power_kw(force * high, v)
            assert power <= cut.available_power_kw
            ra = hn.cutting.roughness_ra_um(cut.feed_mm_rev, 0.8)
            if one.finish and "roughness_um" in how:
                assert ra <= how["roughness_um"]
            if "stick_out" in how:
                passive = choose_brute.ACROSS * force * high * abs(math.cos(math.radians(kappa)))
                out = hn.quantity(how["stick_out"], "length", "stick_out").base
                if do == "bore":
                    bend = hn.cutting.cantilever_deflection_mm(
                        passive, out, 205.0, hn.cutting.second_moment_mm4(14.0, 0.0)
                    )
                else:
                    stiff = hn.cutting.second_moment_mm4(one.after_mm, 0.0)
                    bend = hn.cutting.cantilever_deflection_mm(passive, out, alloy.youngs_modulus_gpa, stiff)
                assert bend <= (0.5 * 0.02 / 2 if one.finish else 0.1)
            checked += 1
    assert checked >= 15


def test_a_neighbouring_speed_holds_where_it_is_said_to(shafts):
    """The pass asked again one step up and down, as a cut of its own."""
    kept = 0
    for chosen, (do, alloy, _, how) in zip(shafts, SHAFTS, strict=True):
        if do != "turn" or how["machine"] != "gap-bed" or "life_min" in how:
            continue
        steps = [step.rpm for step in hn.lathe("gap-bed").core.spindle]
        for one in chosen.passes:
            for holds, move in ((one.slower_holds, -1), (one.faster_holds, 1)):
                place = one.cut.spindle_step + move
                if not 0 <= place < len(steps):
                    assert not holds
                    continue
                again = hn.turn(
                    alloy, hn.mm(one.before_mm), depth=hn.mm(one.depth_mm), feed=f"{one.cut.feed_mm_rev!r} mm/rev",
                    spindle_rpm=steps[place], machine="gap-bed", finish=one.finish, tool=how.get("tool"),
                )  # fmt: skip
                broken = BROKEN & {item.code for item in again.cautions}
                usual = 0.0 if again.feed_mm_rev is None else again.feed_mm_rev
                assert holds == (not broken and usual > 0), (place, broken)
                kept += holds
    assert kept >= 3


def test_time_is_the_sum_of_its_shares_and_prices_are_positive(shafts):
    for chosen in shafts:
        shares = (chosen.cutting_s, chosen.returning_s, chosen.dials_s, chosen.levers_s, chosen.measuring_s)
        assert chosen.time_s == pytest.approx(sum(shares), abs=1e-6)
        prices = [each.saved_s for each in chosen.prices]
        assert prices == sorted(prices, reverse=True)
        assert all(saved > 0 for saved in prices)
        assert chosen.limited_by in {"none", *(each.name for each in chosen.prices)}
        if chosen.next_s is not None:
            assert chosen.next_s >= chosen.time_s
        if chosen.closing == "halves":
            last, before = chosen.passes[-1], chosen.passes[-2]
            assert last.measure_before
            assert last.cut.answer == before.cut.answer
            assert abs(last.depth_mm - before.depth_mm) <= chosen.line_mm * 1.000001


def test_depths_lie_on_the_dial_and_the_remainder_is_told(shafts):
    for chosen in shafts:
        gone = np.cumsum([one.depth_mm for one in chosen.passes])
        assert gone[-1] == pytest.approx(chosen.depth_mm)
        lines = gone / chosen.line_mm
        assert np.abs(lines[:-1] - np.round(lines[:-1])).max(initial=0.0) < 1e-6
        assert (lines[-1] - round(lines[-1])) * chosen.line_mm == pytest.approx(chosen.remainder_mm, abs=1e-9)


def test_what_one_more_thing_buys_is_what_it_buys():
    how = {"length": "6 in", "stick_out": "8 in", "tolerance": "0.002 in", "machine": "gap-bed"}
    chosen = hn.choose("turn", "1018", "1 in", "0.9 in", **how)
    gains = {gain.code: gain.saved_s for gain in chosen.gains}
    held = hn.choose("turn", "1018", "1 in", "0.9 in", hold="chuck and centre", **how)
    if chosen.found:
        assert gains["centre"] == pytest.approx(chosen.time_s - held.time_s, abs=1e-6)
    else:
        assert held.found
        assert gains["centre"] is None
    assert "with a live centre" in chosen.why()


def test_no_answer_says_which_limit_and_by_how_much():
    how = {"length": "200 mm", "stick_out": "300 mm", "machine": "metric-lathe", "free": True}
    chosen = hn.choose("turn", "1018", "12 mm", "10 mm", tolerance="0.01 mm", **how)
    assert not chosen.found
    factor = next(each.factor for each in chosen.relaxations if each.name == "deflection")
    assert factor > 1
    assert str(chosen).startswith("no passes keep every limit")
    assert "no_passes" in {item.code for item in chosen.cautions}
    enough = {"tolerance": f"{0.01 * factor * 1.002} mm", "deflection": f"{0.1 * factor * 1.002} mm"}
    assert hn.choose("turn", "1018", "12 mm", "10 mm", brief=True, **how, **enough).found
    little = {"tolerance": f"{0.01 * factor / 1.01} mm", "deflection": f"{0.1 * factor / 1.01} mm"}
    assert not hn.choose("turn", "1018", "12 mm", "10 mm", brief=True, **how, **little).found


def test_a_hand_fed_slide_is_answered_in_turns_of_the_handle():
    from halfnut.machine.machines import Machine

    data = hn.lathe("metric-lathe").to_dict()
    del data["carriage"]
    by_hand = Machine(data)
    chosen = hn.choose("turn", "6061-T6", "30 mm", "28 mm", length="20 mm", machine=by_hand)
    assert chosen.hand_fed
    assert {one.cut.feed_source for one in chosen.passes} == {"hand"}
    assert all(
        round(one.cut.hand_turns_per_min, 6) in (1, 1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 60) for one in chosen.passes
    )
    assert "turns of the handle a minute" in chosen.why()


def test_a_readout_lets_the_last_pass_land_on_size():
    from halfnut.machine.machines import Machine

    data = hn.lathe("metric-lathe").to_dict()
    data["slides"]["cross"]["readout"] = "0.005 mm"
    shown = Machine(data)
    how = {"length": "20 mm"}
    chosen = hn.choose("turn", "6061-T6", "30 mm", "27.97 mm", machine=shown, **how)
    assert chosen.readout
    assert "set by the readout" in chosen.why()
    plain = hn.choose("turn", "6061-T6", "30 mm", "27.97 mm", machine="metric-lathe", **how)
    assert "between two lines" in plain.why()


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"to": "33 mm"}, "to must be below the diameter before"),
        ({"to": "30 mm", "tolerance": "0 mm"}, "tolerance"),
        ({"to": "30 mm", "tolerance_share": 2.0}, "tolerance_share must be"),
        ({"to": "30 mm", "bore": "31 mm"}, "bore must be below the finished diameter"),
        ({"to": "30 mm", "friction": 0.0}, "friction must be"),
    ],
)
def test_what_cannot_be_is_refused(given, words):
    to = given.pop("to")
    with pytest.raises(hn.Error, match=words):
        hn.choose("turn", "1018", "32 mm", to, length="50 mm", machine="metric-lathe", **given)


def test_a_job_or_machine_of_another_kind_is_refused():
    with pytest.raises(hn.DomainError, match="do must be one of"):
        hn.choose("plane", "1018", "32 mm", "30 mm", machine="metric-lathe")
    with pytest.raises(hn.DomainError, match="needs a lathe"):
        hn.choose("turn", "1018", "32 mm", "30 mm", length="50 mm", machine="bench-mill")
    with pytest.raises(hn.DomainError, match="length must be given"):
        hn.choose("turn", "1018", "32 mm", "30 mm", machine="metric-lathe")


def test_levers_that_stand_already_are_not_counted():
    how = {"length": "40 mm", "machine": "metric-lathe", "brief": True}
    free = hn.choose("turn", "6061-T6", "32 mm", "30 mm", **how)
    first = free.passes[0].cut
    now = {"now_spindle_rpm": first.spindle_rpm, "now_feed": f"{first.feed_mm_rev!r} mm/rev"}
    there = hn.choose("turn", "6061-T6", "32 mm", "30 mm", **now, **how)
    assert there.time_s < free.time_s


def test_one_line_of_the_dial_is_not_divided():
    how = {"width": "3 mm", "length": "80 mm", "tolerance": "0.1 mm", "machine": "bench-mill"}
    for lines in (1, 2):
        chosen = hn.choose("mill side", "6061-T6", "12 mm", off=hn.mm(0.02 * lines), **how)
        assert [one.depth_mm for one in chosen.passes] == pytest.approx([chosen.line_mm] * lines)
        assert ("little_left" in {item.code for item in chosen.cautions}) == (lines == 1)


def test_the_edge_is_told_to_wear_out_within_the_cut():
    longer = {**hn.lathe("metric-lathe").to_dict(), "between_centres": "1000 mm"}
    machine = Machine(longer)
    how = {"length": "900 mm", "machine": machine, "hold": "between centres", "brief": True, "free": True}
    long = hn.choose("turn", "1045", "60 mm", "50 mm", **how)
    share = sum(one.cut_s / 60 / one.cut.tool_life_min for one in long.passes)
    assert long.edge_share == pytest.approx(share)
    assert ("edge_spent" in {item.code for item in long.cautions}) == (share > 1)
    assert share > 1


def two_belts() -> _core.Machine:
    """A lathe with an inverter on two belts, 60 to 600 and 437 to 1800 rev/min: 437 is no number of series R40."""
    belts = []
    for name, low, high in (("slow", 60.0, 600.0), ("fast", 437.0, 1800.0)):
        belts.append(_core.SpindleStep(rpm_low=low, rpm=high, positions=[_core.Position("belt", name)]))
    chuck = _core.Chuck(name="jaws", jaws=3, diameter_mm=160.0, rpm_limit=437.2)
    return small_machine(random.Random(1), spindle=belts, motor_kw=3.0, torque_limit_nm=math.nan, chucks=[chuck])


def test_the_low_end_of_an_inverters_second_belt_is_tried():
    """The chuck allows 437.2 rev/min; the fastest speed under it that is tried is that end, on the first belt."""
    how = {"length": "60 mm", "tool": "carbide", "machine": two_belts(), "brief": True}
    found = hn.choose("turn", "6061-T6", "40 mm", "38 mm", **how)
    assert {one.cut.spindle_rpm for one in found.passes} == {437.0}
    assert {one.cut.spindle_step for one in found.passes} == {0}


def test_what_a_neighbouring_speed_does_is_said_of_every_pass(shafts):
    told = 0
    for chosen in shafts:
        line = dict(chosen.report())["speed"]
        for name, holds in (
            ("slower", [one.slower_holds for one in chosen.passes]),
            ("faster", [one.faster_holds for one in chosen.passes]),
        ):
            whole = line.split(";")[0]
            assert (name in whole and "in every pass" in whole and "breaks" not in line) == all(holds), line
            if any(holds) and not all(holds):
                numbers = ", ".join(str(at) for at, held in enumerate(holds, 1) if held)
                assert f"one step {name} keeps every limit in pass" in line
                assert f"{numbers} alone" in line
                told += 1
    assert told >= 1


@pytest.mark.parametrize("tool", ["HSS", "carbide", "coated carbide"])
def test_no_pass_is_chosen_whose_edge_would_not_last(tool):
    """Ten minutes and the pass, where a life is tabulated; less where less is asked for."""
    known = 0
    for alloy in ("1018", "1045", "4140 prehard", "6061-T6", "C36000", "C26000", "grey iron class 30", "12L14"):
        for length in (40, 300):
            how = {"to": "34 mm", "length": f"{length} mm", "machine": "gap-bed", "hold": "between centres"}
            chosen = hn.choose("turn", alloy, "40 mm", tool=tool, **how)
            lives = [one.cut.tool_life_min for one in chosen.passes]
            if None in lives:
                continue
            for life, one in zip(lives, chosen.passes, strict=True):
                known += 1
                assert life >= max(10.0, one.cut.time_s / 60) * (1 - 1e-9), (alloy, length)
            assert hn.choose("turn", alloy, "40 mm", tool=tool, life_min=0.1, **how).time_s <= chosen.time_s
    assert known > 10
