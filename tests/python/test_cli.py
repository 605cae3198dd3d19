"""The command: answers first, JSON on request, mistakes in one clear message."""

import json
import os
import re
import subprocess
import sys

import pytest
from click.testing import CliRunner

from halfnut import cli


def run(*args, env=None, cwd=None):
    """The command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "halfnut", *args],
        capture_output=True,
        text=True,
        cwd=cwd,
        env={**os.environ, "PYTHONIOENCODING": "utf-8", **(env or {})},
    )


def test_help_names_every_command_and_shows_an_example():
    out = run("--help")
    assert out.returncode == 0
    for name in cli.commands():
        assert f"\n  {name}" in out.stdout
    assert "Example:" in out.stdout
    assert "Exit status:" in out.stdout


@pytest.mark.parametrize("name", cli.commands())
def test_every_command_explains_itself_with_an_example(name):
    out = CliRunner().invoke(cli.command, [name, "--help"])
    assert out.exit_code == 0
    assert "Example:" in out.output
    assert f"halfnut {name}" in out.output


def test_a_mistyped_command_gets_the_nearest():
    out = run("alooy")
    assert out.returncode == 2
    assert "did you mean 'alloy'?" in out.stderr
    assert "Traceback" not in out.stderr


def test_alloy():
    out = run("alloy", "6061-T6")
    assert out.returncode == 0
    assert out.stdout.splitlines()[0].startswith("6061 T6")
    figures = json.loads(run("alloy", "6061-T6", "--json").stdout)
    assert figures["id"] == "A96061"
    assert figures["evidence"]
    out = run("alloy", "6061-T66")
    assert out.returncode == 2
    assert out.stderr.startswith("halfnut: ")
    assert "6061-T6" in out.stderr


def test_machine_list_and_show():
    assert "gap-bed" in run("machine", "list").stdout
    assert json.loads(run("machine", "list", "--json").stdout)[0].keys() == {"name", "kind", "title"}
    assert run("machine", "show", "gap-bed").stdout.startswith("13 × 36 in gap-bed lathe")
    assert json.loads(run("machine", "show", "gap-bed", "--json").stdout)["motor"] == "2 hp"


@pytest.mark.parametrize("system", ["inch", "metric"])
@pytest.mark.parametrize("kind", ["lathe", "mill"])
def test_a_new_machine_file_is_sound_as_written_and_with_everything_filled_in(tmp_path, kind, system):
    out = run("machine", "new", "ours", "--kind", kind, "--system", system, cwd=tmp_path)
    assert out.returncode == 0
    assert "halfnut machine check ours.toml" in out.stdout
    path = tmp_path / "ours.toml"
    checked = run("machine", "check", "ours.toml", cwd=tmp_path)
    assert checked.returncode == 0
    assert "wrong" not in checked.stdout
    path.write_text(path.read_text().replace("#= ", ""))
    filled = run("machine", "check", "ours.toml", "--json", cwd=tmp_path)
    assert filled.returncode == 0
    assert json.loads(filled.stdout)["wrong"] == []
    refused = run("machine", "new", "ours", "--system", system, cwd=tmp_path)
    assert refused.returncode == 2
    assert "stays as it is" in refused.stderr


def test_the_templates_name_every_key_of_a_machine_file():
    from dataclasses import fields, is_dataclass

    from halfnut import machine_file as mf
    from halfnut.cli.machine_files import _EXAMPLES, _TEMPLATES

    text = "".join(path.read_text() for path in sorted(_TEMPLATES.glob("*.toml")))
    text += "\n".join(value for system in _EXAMPLES.values() for value in system.values())
    models = [getattr(mf, name) for name in mf.__all__ if is_dataclass(getattr(mf, name))]
    assert len(models) >= 10
    keys = {field.name for model in models for field in fields(model)}
    assert not {key for key in keys if not re.search(rf"\b{key}\b", text)}


def test_machine_check_tells_wrong_from_unreadable(tmp_path):
    text = 'name = "x"\nkind = "lathe"\nsystem = "inch"\nmotor = "1 hp"\n'
    (tmp_path / "x.toml").write_text(text + "spindle = { steps = [{ rpm = 200 }, { rpm = 100 }] }\n")
    wrong = run("machine", "check", "x.toml", cwd=tmp_path)
    assert wrong.returncode == 1
    assert "spindle[1].rpm" in wrong.stdout
    (tmp_path / "x.toml").write_text(text + "spindel = {}\n")
    unreadable = run("machine", "check", "x.toml", cwd=tmp_path)
    assert unreadable.returncode == 2
    assert "nearest: spindle" in unreadable.stderr


def test_a_shops_tables_and_machines_are_used(tmp_path):
    (tmp_path / "ours.toml").write_text(
        '[[material.aliases]]\nalias = "tube stock"\nalloy = "A96061"\nsource = "our rack"\n'
    )
    out = run("alloy", "tube stock", env={"HALFNUT_SHOP": str(tmp_path)})
    assert out.returncode == 0, out.stderr
    assert "A96061" in out.stdout
