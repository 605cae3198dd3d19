"""Magnesium: no tool, operation, machine or wish gets a speed at which chips take fire, nor a feed too fine."""

from __future__ import annotations

import itertools
import random
import sys
from pathlib import Path

import numpy as np
import pytest

import halfnut as hn
from halfnut import _core, batch

sys.path[:0] = [str(Path(__file__).resolve().parents[1])]
from choose_cases import ask as choose_passes  # noqa: E402
from choose_cases import small_machine  # noqa: E402

CHOSEN = 152.4  # 500 ft/min, T.O. 1-1A-9 para 4-21
NEVER = 213.36  # 700 ft/min, the same
LEAST_FEED = 0.1
TOOLS = ("HSS", "cobalt HSS", "cast cobalt", "carbide", "coated carbide")
DIAMETERS = (0.6, 3, 6.35, 12, 25, 50, 110)
HUGE = (300, 900)
LATHES = (None, "gap-bed", "metric-lathe")
MILLS = (None, "bench-mill")


def alloys() -> list[str]:
    """Every alloy whose chips burn."""
    return [row["id"] for row in hn.core.catalogue.rows("material/alloys") if "magnesium_chips" in row["hazards"]]


def tools() -> list[str]:
    """Every tool that the product knows of those named here."""
    return [name for name in TOOLS if _known(name)]


def _known(name: str) -> bool:
    try:
        hn.turn("1018", "20 mm", tool=name)
    except hn.Error:
        return False
    return True


def asks(alloy: str, tool: str, mm: float):
    """Every operation on a size, by name; turning operations first."""
    size = f"{mm} mm"
    hole = f"{0.6 * mm} mm"
    turning = {
        "turn": lambda **how: hn.turn(alloy, size, tool=tool, **how),
        "finish": lambda **how: hn.turn(alloy, size, tool=tool, finish=True, roughness_um=0.2, **how),
        "sharp nose": lambda **how: hn.turn(alloy, size, tool=tool, nose_radius="0.1 mm", **how),
        "face": lambda **how: hn.face(alloy, size, tool=tool, **how),
        "bore": lambda **how: hn.bore(alloy, size, tool=tool, **how),
        "part off": lambda **how: hn.part_off(alloy, size, tool=tool, **how),
    }
    holes = {
        "drill": lambda **how: hn.drill(alloy, size, tool=tool, **how),
        "spot": lambda **how: hn.spot(alloy, size, tool=tool, **how),
        "ream": lambda **how: hn.ream(alloy, size, tool=tool, **how),
        "countersink": lambda **how: hn.cutting.countersink(alloy, size, hole, tool=tool, **how),
        "counterbore": lambda **how: hn.cutting.counterbore(alloy, size, hole, tool=tool, **how),
    }
    mills = {
        f"mill {shape}": lambda shape=shape, **how: hn.mill(
            alloy, size, depth=f"{0.2 * mm} mm", width=size, shape=shape, tool=tool, **how
        )
        for shape in ("slot", "side", "pocket", "face")
    }
    return turning, holes, mills


def ask(question, **how):
    """The cut; None where a machine refuses the size."""
    try:
        return question(**how)
    except hn.Error:
        assert how["machine"] is not None
        return None


def fast_lathe(rpm: float) -> _core.Machine:
    """A lathe of one speed."""
    chuck = _core.Chuck(name="jaws", jaws=3, diameter_mm=160.0, rpm_limit=5000.0)
    return small_machine(random.Random(1), spindle=[_core.SpindleStep(rpm=rpm)], chucks=[chuck])


def test_there_are_alloys_that_burn():
    assert len(alloys()) >= 2
    assert len(tools()) >= 4


@pytest.mark.parametrize("alloy", alloys())
def test_no_speed_above_the_fire_limit(alloy):
    answered = 0
    for tool, mm in itertools.product(tools(), DIAMETERS + HUGE):
        turning, holes, mills = asks(alloy, tool, mm)
        for questions, machines in ((turning | holes, LATHES), (holes | mills, MILLS)):
            for (name, question), machine in itertools.product(questions.items(), machines):
                if machine is not None and mm in HUGE:
                    continue
                cut = ask(question, machine=machine)
                if cut is None:
                    continue
                assert cut.cutting_speed_m_min <= NEVER * (1 + 1e-9), (name, tool, mm, machine)
                assert cut.window_high_m_min <= CHOSEN, (name, tool, mm)
                if cut.spindle_fit != "above window":
                    assert cut.cutting_speed_m_min <= CHOSEN * (1 + 1e-9), (name, tool, mm, machine)
                if name in turning:
                    assert cut.feed_mm_rev >= LEAST_FEED * (1 - 1e-9), (name, tool, mm, machine)
                answered += 1
    assert answered > 500


@pytest.mark.parametrize("alloy", alloys())
def test_a_speed_asked_for_is_held_and_a_fine_feed_told(alloy):
    cut = hn.turn(alloy, "50 mm", spindle_rpm=3000.0)
    assert cut.cutting_speed_m_min <= NEVER * (1 + 1e-9)
    assert "fire_speed" in {item.code for item in cut.cautions}
    fine = hn.turn(alloy, "50 mm", feed="0.03 mm/rev")
    assert fine.feed_mm_rev == pytest.approx(0.03)
    assert "fine_feed_fire" in {item.code for item in fine.cautions}
    assert "fine_feed_fire" not in {item.code for item in hn.turn(alloy, "50 mm").cautions}


def test_a_machine_that_cannot_turn_slowly_enough_is_refused():
    """At 900 rev/min 100 mm run at 283 m/min, 70 mm at 198 m/min."""
    machine = fast_lathe(900.0)
    for asked in (None, 1.0):
        with pytest.raises(hn.Error, match="even the slowest step"):
            hn.turn("AZ31B", "100 mm", machine=machine, spindle_rpm=asked)
    assert hn.turn("AZ31B", "70 mm", machine=machine).cutting_speed_m_min == pytest.approx(197.92, abs=0.01)
    found = batch.turn({"alloy": ["AZ31B", "6061-T6"], "diameter_mm": [100.0, 100.0]}, machine=machine)
    assert np.isnan(found["spindle_rpm"][0])
    assert found["spindle_rpm"][1] == 900.0
    assert "slowest step" in batch.reasons(found, "turn")[0]


@pytest.mark.parametrize("tool", ["hss", "carbide"])
def test_the_tap_is_slow(tool):
    assert hn.tap("AZ31B", "M8x1.25", tool=tool).cutting_speed_m_min < 40


def test_a_batch_is_the_scalar_bit_for_bit():
    names, kinds, sizes = zip(*itertools.product(alloys(), ("hss", "carbide"), DIAMETERS), strict=True)
    frame = {"alloy": list(names), "tool": list(kinds), "diameter_mm": np.array(sizes, dtype=float)}
    frame["depth_mm"] = np.full(len(names), 0.1)
    for machine in LATHES:
        found = batch.turn(frame, machine=machine, columns=["spindle_rpm", "cutting_speed_m_min", "feed_mm_rev"])
        speeds = np.asarray(found["cutting_speed_m_min"])
        feeds = np.asarray(found["feed_mm_rev"])
        for row, (name, kind, size) in enumerate(zip(names, kinds, sizes, strict=True)):
            try:
                cut = hn.turn(name, f"{size} mm", depth="0.1 mm", tool=kind, machine=machine)
            except hn.Error:
                assert np.isnan(speeds[row])
                continue
            assert speeds[row] == cut.cutting_speed_m_min
            assert feeds[row] == cut.feed_mm_rev
            assert speeds[row] <= NEVER * (1 + 1e-9)
            assert feeds[row] >= LEAST_FEED * (1 - 1e-9)


@pytest.mark.parametrize("alloy", alloys())
@pytest.mark.parametrize("tool", ["HSS", "carbide"])
def test_chosen_passes_keep_it(alloy, tool):
    turned = hn.choose("turn", alloy, "40 mm", to="34 mm", length="50 mm", machine="metric-lathe", tool=tool)
    milled = hn.choose("mill slot", alloy, "10 mm", off="6 mm", length="50 mm", machine="bench-mill", tool=tool)
    assert turned.found
    assert milled.found
    for one in (*turned.passes, *milled.passes):
        assert one.cut.cutting_speed_m_min <= CHOSEN * (1 + 1e-9)
    for one in turned.passes:
        assert one.cut.feed_mm_rev >= LEAST_FEED * (1 - 1e-9)


def test_a_faster_cut_is_no_way_out():
    """Where nothing keeps every limit, going past the fire limit is not offered."""
    numbers = {"diameter_mm": 100.0, "to_mm": 99.0, "off_mm": None, "length_mm": 50.0, "nose_radius_mm": 0.8}
    found = choose_passes(fast_lathe(900.0), "turn", hn.alloy("AZ31B"), "hss", numbers, "chuck")
    assert not found.passes
    assert "speed_window" not in {each.name for each in found.relaxations}


@pytest.mark.parametrize("tool", ["HSS", "carbide"])
@pytest.mark.parametrize("machine", ["gap-bed", "metric-lathe", "bench-mill"])
def test_charts_keep_it(machine, tool):
    chart = hn.speed_chart(machine, alloys(), tool=tool)
    assert chart.cells
    for cell in chart.cells.values():
        assert cell.cut.cutting_speed_m_min <= NEVER * (1 + 1e-9)
        if cell.cut.spindle_fit != "above window":
            assert cell.cut.cutting_speed_m_min <= CHOSEN * (1 + 1e-9)
