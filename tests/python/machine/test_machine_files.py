"""Machine files: read strictly, and every mistake reported at once."""

import copy
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.core.mistakes import InputError
from halfnut.core.shapes import load_toml
from halfnut.core.text import FileTextError
from halfnut.machine import machines

DEMO = Path(hn.__file__).parent / "demo" / "machines"
MACHINES = sorted(DEMO.glob("*.toml"))


@pytest.fixture
def data():
    return copy.deepcopy(load_toml(DEMO / "gap-bed.toml"))


def mistakes(data):
    with pytest.raises(InputError) as caught:
        machines.Machine(data, called="mine.toml")
    return {mistake.key: mistake for mistake in caught.value.mistakes}


def test_the_demonstration_has_an_inch_lathe_a_metric_lathe_and_a_mill():
    found = {(machine.kind, machine.file["system"]) for machine in map(machines.machine, MACHINES)}
    assert found == {("lathe", "inch"), ("lathe", "metric"), ("mill", "metric")}


@pytest.mark.parametrize("path", MACHINES, ids=lambda path: path.stem)
def test_a_machine_file_is_named_as_its_machine(path):
    assert machines.machine(path).name == path.stem


@pytest.mark.parametrize("path", MACHINES, ids=lambda path: path.stem)
def test_a_machine_holds_what_its_file_says(path):
    assert machines.machine(path).to_dict() == load_toml(path)


def test_quantities_keep_the_unit_they_are_written_in():
    machine = machines.machine(DEMO / "gap-bed.toml")
    assert machine.file["motor"] == "2 hp"
    assert machine.file["slides"]["cross"]["per_turn"] == "0.100 in"
    assert machine.core.slide("cross").travel_per_turn_mm == pytest.approx(2.54)


def test_every_mistake_is_reported_at_once(data):
    data["moter"] = data.pop("motor")
    data["kind"] = "lath"
    data["slides"]["cross"]["per_turn"] = 0.1
    data["spindle"]["steps"][2]["rpm"] = "86"
    data["carriage"]["steps"][0]["feed"] = "0.2 mm"
    data["threading"]["lead"] = "3 mm"
    data["chucks"][0]["jaws"] = -1
    data["chucks"][1]["diameter"] = "0 in"
    found = mistakes(data)
    assert found.keys() == {
        "moter",
        "motor",
        "kind",
        "slides.cross.per_turn",
        "spindle.steps[2].rpm",
        "carriage.steps[0].feed",
        "threading",
        "chucks[0].jaws",
        "chucks[1].diameter",
    }
    assert found["moter"].nearest == "motor"
    assert "spindle" in found["moter"].allowed
    assert found["kind"].nearest == "lathe"
    assert found["kind"].allowed == ("lathe", "mill", "drill press")
    assert found["motor"].problem == "is missing"
    assert "bare number is never a length" in found["slides.cross.per_turn"].problem
    assert found["spindle.steps[2].rpm"].value == "86"
    assert "feed" in found["carriage.steps[0].feed"].problem


@pytest.mark.parametrize(
    ("place", "value", "problem"),
    [
        (("spindle", "steps"), [], "at least one step"),
        (("spindle", "steps", 0, "rpm"), True, "must be a number"),
        (("spindle", "steps", 0, "rpm"), float("nan"), "more than 0"),
        (("spindle", "steps", 0, "rpm"), float("inf"), "more than 0"),
        (("spindle", "steps", 0, "rpm_low"), 500, "less than rpm"),
        (("spindle", "steps", 0, "power_low"), "1 kW", "rpm_low"),
        (("spindle", "stop_to_change"), "yes", "true or false"),
        (("slides",), [], "must be a table"),
        (("chucks",), {}, "must be a list"),
        (("chucks", 0), "a chuck", "must be a table"),
        (("chucks", 0, "jaws"), 3.5, "whole number"),
        (("name",), 13, "text in quotes"),
        (("efficiency",), 85, "at most 1"),
        (("motor",), "2 in", "power"),
        (("threading", "module"), "1 mm", "give one"),
        (("seconds", "lever"), "-5 s", "negative"),
    ],
)
def test_what_is_refused(data, place, value, problem):
    *outer, last = place
    target = data
    for step in outer:
        target = target[step]
    target[last] = value
    (mistake,) = mistakes(data).values()
    assert problem in mistake.problem


def test_a_file_that_is_not_toml_says_where(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text('name = "mine\n')
    with pytest.raises(InputError, match=r"(?s)mine\.toml.*line 1"):
        machines.machine(path)
    path.write_bytes(b"name = '\xff'")
    with pytest.raises(FileTextError, match=r"mine\.toml: not UTF-8 text: byte 0xff in line 1, byte 9"):
        machines.machine(path)
    with pytest.raises(hn.NotTabulatedError, match="no machine file"):
        machines.machine(tmp_path / "other.toml")
