"""A machine cannot be changed in place, so that nobody's answers change behind their back."""

import pytest

import halfnut as hn
from halfnut import _core


def bound_values(value, seen=None):
    """Every bound value that can be reached from one."""
    seen = {} if seen is None else seen
    for name in dir(type(value)):
        if name.startswith("_") or not isinstance(getattr(type(value), name, None), property):
            continue
        inner = getattr(value, name)
        for each in inner if isinstance(inner, list) else [inner]:
            if type(each).__module__ == "halfnut._core" and type(each) not in seen:
                seen[type(each)] = each
                bound_values(each, seen)
    return seen


def test_no_bound_value_of_a_machine_can_be_set():
    core = hn.lathe("gap-bed").core
    found = {type(core): core} | bound_values(core)
    assert {"Machine", "SpindleStep", "FeedLadder", "FeedStep", "Slide", "Chuck", "Threading", "Position"} <= {
        kind.__name__ for kind in found
    }
    tried = 0
    for kind, value in found.items():
        for name in [each for each in dir(kind) if isinstance(getattr(kind, each, None), property)]:
            with pytest.raises(AttributeError):
                setattr(value, name, getattr(value, name))
            tried += 1
    assert tried > 50


def test_a_list_that_is_read_is_a_copy():
    core = hn.lathe("gap-bed").core
    steps = len(core.spindle)
    core.spindle.clear()
    core.carriage.steps.clear()
    assert len(core.spindle) == steps
    assert core.carriage.steps


def test_the_shared_machine_stays_what_its_file_says():
    before = hn.turn("6061-T6", "1 in", machine="gap-bed").available_power_kw
    machine = hn.lathe("gap-bed")
    for name in ("core", "file", "path", "name", "other"):
        with pytest.raises(AttributeError, match="a machine is not changed in place"):
            setattr(machine, name, None)
    with pytest.raises((AttributeError, TypeError)):
        machine.file["spindle"]["steps"].clear()
    with pytest.raises(TypeError):
        machine.file["slides"]["cross"] = None
    with pytest.raises(AttributeError):
        machine.core.motor_kw = 0.01
    assert hn.turn("6061-T6", "1 in", machine="gap-bed").available_power_kw == before


def test_replace_makes_another_machine():
    machine = hn.lathe("gap-bed")
    motor_kw = machine.core.motor_kw
    strong = machine.replace(motor="3 hp")
    # 3 hp of 550 ft lbf/s: 3 * 0.745699872 kW.
    assert strong.core.motor_kw == pytest.approx(3 * 0.745699872, rel=1e-9)
    assert machine.core.motor_kw == motor_kw
    assert hn.lathe("gap-bed").core.motor_kw == motor_kw
    assert strong.file["slides"] == machine.file["slides"]
    assert machine.replace().to_dict() == machine.to_dict()
    with pytest.raises(hn.InputError, match="moter"):
        machine.replace(moter="3 hp")
    with pytest.raises(hn.InputError, match="motor"):
        machine.replace(motor="3 apples")


def test_a_bound_value_is_made_of_named_fields():
    step = _core.SpindleStep(rpm=100.0, positions=[_core.Position("lever", "A")])
    assert (step.rpm, step.positions[0].setting) == (100.0, "A")
    with pytest.raises(hn.DomainError, match="SpindleStep has no field 'rmp'"):
        _core.SpindleStep(rmp=100.0)
    with pytest.raises(hn.DomainError, match=r"SpindleStep: rpm cannot be 'fast'"):
        _core.SpindleStep(rpm="fast")
