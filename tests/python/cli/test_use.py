"""What the command remembers: a machine, a tool, units, a shop's folder."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from halfnut import cli
from halfnut.cli import defaults
from halfnut.core.questions import declared


@pytest.fixture
def file(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.delenv("HALFNUT_SHOP", raising=False)
    return tmp_path / "config" / "halfnut" / "defaults.toml"


def run(*words):
    return CliRunner().invoke(cli.command, list(words))


def machine_of(*words):
    """The machine that answers a question."""
    done = run(*words, "--json")
    assert done.exit_code == 0, done.exception
    return json.loads(done.output)["machine_name"]


TURN = ("turn", "6061-T6", "1.25in")
DRILL = ("drill", "6061-T6", "8mm", "--depth", "20mm")
MILL = ("mill", "7075", "10mm", "--depth", "2mm", "--shape", "slot")


def test_nothing_is_remembered_at_first(file):
    assert machine_of(*TURN) is None
    assert "nothing is remembered" in run("use").output
    assert not file.exists()


def test_a_machine_is_remembered_and_the_answer_says_so(file):
    assert run("use", "gap-bed").exit_code == 0
    told = run(*TURN).output
    assert told.splitlines()[0].endswith("(gap-bed, remembered)")
    assert run(*TURN, "--machine", "gap-bed").output == told.replace(" (gap-bed, remembered)", "")
    assert 'lathe = "gap-bed"' in file.read_text(encoding="utf-8")
    assert str(file) in run("use").output
    assert json.loads(run("use", "--json").output) == {"file": str(file), "remembered": {"lathe": "gap-bed"}}


def test_what_is_said_wins(file):
    run("use", "gap-bed")
    assert machine_of(*TURN, "--machine", "metric-lathe") == "metric-lathe"
    assert machine_of(*TURN, "--machine", "none") is None
    assert "remembered" not in run(*TURN, "--machine", "none").output


def test_each_question_gets_a_machine_of_its_kind(file):
    run("use", "gap-bed", "bench-mill")
    assert (machine_of(*TURN), machine_of(*MILL), machine_of(*DRILL)) == ("gap-bed", "bench-mill", "gap-bed")
    run("use", "bench-mill")
    assert (machine_of(*TURN), machine_of(*MILL), machine_of(*DRILL)) == ("gap-bed", "bench-mill", "bench-mill")
    passes = run("choose", "turn", "6061-T6", "1.5in", "1.25in", "--length", "2in")
    slot = run("choose", "mill slot", "7075", "10mm", "--off", "8mm", "--length", "60mm")
    assert "gap-bed, remembered" in passes.output and "bench-mill, remembered" in slot.output


def test_of_each_question_with_a_machine_its_kind_is_known():
    asked = {row["name"].replace("_", "-") for row in declared().values() if "machine" in _arguments(row)}
    assert len(asked) > 25
    assert {name for name in asked if defaults.asked_on([name]) is None} == set()


def _arguments(question):
    return {row["name"] for row in question["arguments"]}


def test_a_tool_units_and_a_shop_are_remembered(file, tmp_path, monkeypatch):
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "ours.toml").write_text(
        '[[material.aliases]]\nalias = "tube stock"\nalloy = "A96061"\nsource = "our rack"\n', encoding="utf-8"
    )
    monkeypatch.chdir(tmp_path)
    assert run("use", "--tool", "carbide", "--units", "metric", "--shop", "shop").exit_code == 0
    assert json.loads(run(*TURN, "--json").output)["tool_material"] == "carbide"
    assert json.loads(run(*DRILL, "--json").output)["tool_material"] == "hss", "it is the turning tool"
    assert "mm" in run("machine", "new", "ours", "--out", "-").output
    monkeypatch.chdir("/")
    assert "A96061" in run("alloy", "tube stock").output


def test_a_machine_file_is_remembered_wherever_it_is_asked_from(file, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    run("machine", "new", "ours", "--system", "metric")
    assert run("use", "ours.toml").exit_code == 0
    monkeypatch.chdir("/")
    assert machine_of(*TURN) == "ours"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("lathe = [", "not TOML"),
        ('lathee = "gap-bed"', "no key 'lathee'; nearest: lathe"),
        ("lathe = 3", "lathe must be a text in quotes, got 3"),
        ('units = "feet"', 'units must be "inch" or "metric", got "feet"'),
        ('shop = "/no/such/folder"', "shop: no folder /no/such/folder"),
    ],
)
def test_a_broken_file_is_named_with_its_cure(file, text, told):
    file.parent.mkdir(parents=True)
    file.write_text(text, encoding="utf-8")
    for words in (TURN, ("use",), ("alloy", "brass")):
        error = str(run(*words).exception)
        assert error.startswith(f"{file}: ") and told in error and "`halfnut use --forget`" in error
    assert run("turn", "--help").exit_code == 0
    assert run("use", "--forget").exit_code == 0
    assert not file.exists() and run(*TURN).exit_code == 0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("nope",), "no machine 'nope'"),
        (("gap-bed", "metric-lathe"), "both lathes"),
        (("--tool", "wood"), "tool must be one of"),
        (("--shop", "/no/such/folder"), "no such shop folder"),
        (("gap-bed", "--forget"), "goes with nothing else"),
    ],
)
def test_what_cannot_be_remembered_is_not(file, words, told):
    assert told in str(run("use", *words).exception) or told in run("use", *words).output
    assert not file.exists()


def test_the_file_goes_home_where_no_folder_is_named(monkeypatch):
    monkeypatch.setenv(
        "XDG_CONFIG_HOME", "not/absolute"
    )  # which the XDG base directory specification says to pass over
    assert defaults.place() == Path.home() / ".config" / "halfnut" / "defaults.toml"
