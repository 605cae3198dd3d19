"""The shop's machines: found by path or name, and given to the core unchanged."""

import math
import os

import pytest

import halfnut as hn
from halfnut.machine import machines

DEMO = ("bench-mill", "gap-bed", "metric-lathe")


def test_the_demonstration_machines_are_at_hand():
    assert set(DEMO) <= set(machines.names())


@pytest.mark.parametrize("name", DEMO)
def test_the_core_finds_nothing_wrong_or_odd(name):
    assert machines.machine(name).core.problems() == []


def test_figures_reach_the_core_in_its_units():
    core = hn.lathe("gap-bed").core
    assert core.inch
    assert core.motor_kw == pytest.approx(1.491, abs=0.001)
    assert [step.rpm for step in core.spindle][:3] == [43, 70, 86]
    assert core.spindle[0].back_gear
    assert core.spindle[0].stop_to_change
    assert math.isnan(core.spindle[0].power_kw)
    assert [(p.control, p.setting) for p in core.spindle[-1].positions] == [
        ("back gear", "out"),
        ("belt", "fast"),
        ("lever", "3"),
    ]
    assert core.carriage.kind == "per rev"
    assert core.carriage.marked_in_inch
    assert core.carriage.steps[0].marked == 0.0013
    assert core.carriage.steps[0].feed_mm == pytest.approx(0.0013 * 25.4)
    cross = core.slide("cross")
    assert cross.reads_diameter
    assert cross.travel_per_turn_mm == pytest.approx(2.54)
    assert cross.graduation_mm == pytest.approx(0.0254)
    assert core.threading.lead_mm == pytest.approx(25.4 / 8)
    assert core.threading.dial_threads_per_turn == 32
    by_ratio = {round(8 / step.ratio, 6) for step in core.threading.gearbox}
    assert {4, 4.5, 8, 13, 20, 56} <= by_ratio
    assert core.lever_change_s == 6
    assert core.chucks[1].cast_iron
    assert core.chucks[1].rpm_limit == 1000


def test_an_inverter_is_one_step_over_a_range():
    step = hn.lathe("metric-lathe").core.spindle[0]
    assert step.variable
    assert (step.rpm_low, step.rpm) == (40, 400)


def test_a_machine_of_the_other_kind_is_refused_by_name():
    with pytest.raises(hn.DomainError, match="bench-mill is a mill, not a lathe; of that kind: gap-bed, metric-lathe"):
        hn.lathe("bench-mill")
    with pytest.raises(hn.DomainError, match="not a mill"):
        hn.milling_machine("gap-bed")


def test_an_unknown_name_offers_the_nearest():
    with pytest.raises(LookupError, match="did you mean 'gap-bed'"):
        hn.lathe("gap bed")
    with pytest.raises(LookupError, match=r"no machine file .*ours\.toml"):
        hn.lathe("ours.toml")


def test_the_shop_comes_before_the_demonstration(tmp_path, monkeypatch):
    text = hn.lathe("gap-bed").path.read_text().replace("13 × 36 in gap-bed lathe", "the big one")
    (tmp_path / "machines").mkdir()
    (tmp_path / "machines" / "gap-bed.toml").write_text(text)
    (tmp_path / "machines" / "little.toml").write_text(text.replace('"gap-bed"', '"little"'))
    assert hn.lathe("gap-bed").title == "13 × 36 in gap-bed lathe"
    monkeypatch.setenv("HALFNUT_SHOP", str(tmp_path))
    assert hn.lathe("gap-bed").title == "the big one"
    assert hn.lathe("little").name == "little"
    assert "little" in machines.names()


def test_a_changed_file_is_read_again(tmp_path):
    path = tmp_path / "ours.toml"
    text = hn.lathe("gap-bed").path.read_text()
    path.write_text(text)
    assert hn.lathe(path).title == "13 × 36 in gap-bed lathe"
    path.write_text(text.replace("13 × 36 in gap-bed lathe", "the big one"))
    os.utime(path, ns=(1, 1))
    assert hn.lathe(str(path)).title == "the big one"


def test_a_machine_shows_itself():
    lathe = hn.lathe("gap-bed")
    assert str(lathe).splitlines()[0] == "13 × 36 in gap-bed lathe (gap-bed): lathe, inch dials, 2 hp motor"
    assert lathe.to_dict()["slides"]["cross"]["per_turn"] == "0.100 in"
    assert "cross" in lathe._repr_html_()
    assert hn.lathe(lathe) is lathe


def test_mixed_units_on_one_chart_are_marked_in_the_charts_own(tmp_path):
    path = tmp_path / "mixed.toml"
    path.write_text(
        'name = "mixed"\nkind = "lathe"\nsystem = "inch"\nmotor = "1 hp"\nspindle = { steps = [{ rpm = 100 }] }\n'
        'carriage = { steps = [{ feed = "0.002 in/rev" }, { feed = "0.254 mm/rev" }] }\n'
    )
    fine, coarse = hn.lathe(path).core.carriage.steps
    assert fine.marked == 0.002
    assert coarse.marked == pytest.approx(0.01)
