"""The package as a whole: light to import, typed as built, names in their places."""

import doctest
import importlib
import pkgutil
import shlex
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import halfnut as hn
from halfnut import _core
from halfnut.cli import commands

HEAVY = {"numpy", "rich", "jinja2", "pandas", "matplotlib", "pint"}


def loaded_by(code: str) -> set[str]:
    """Which of the heavy libraries a piece of code loads."""
    code = f"import sys\n{code}\nprint(*{{each.split('.')[0] for each in sys.modules}})"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(out.stdout.splitlines()[-1].split()) & {*HEAVY, "click"}


def test_import_loads_the_core_only():
    assert loaded_by("import halfnut") == set()
    assert loaded_by("import numpy") == {"numpy"}


def test_every_example_of_a_command_answers_without_a_heavy_library():
    """One process asks them all: NumPy is for arrays, the others for files, sheets and frames."""
    examples = [line for name in _core.question_names() for line in _core.question(name)["example"].splitlines()]
    examples = [line for line in examples if line.split()[0] in commands()]
    assert len(examples) >= 40
    code = f"""
from halfnut.cli import main
for words in {[shlex.split(line) for line in examples]}:
    try:
        main(words)
    except SystemExit as end:
        assert end.code == 0, words
"""
    assert loaded_by(code) == {"click"}


def test_numbers_and_answers_of_one_load_no_numpy():
    code = """
import halfnut as hn
assert round(hn.cutting.spindle_speed_rpm(100.0, 50.0)) == 637
lathe = hn.lathe("gap-bed")
for answer in (hn.turn("6061-T6", "1.25 in", machine=lathe), hn.turn("1018", hn.inch(1), machine="gap-bed"),
               hn.limits("M8x1.25-6g"), hn.fit("M8x1.25-6g", "M8x1.25-6H"), hn.knurl_blank("1 in", "96 DP"),
               hn.drill("6061-T6", "8 mm"), hn.cylindrical_fit("25 H7/g6"), hn.alloy("1018")):
    str(answer), repr(answer), answer.to_dict(), answer.why()
"""
    assert loaded_by(code) == set()


def test_the_stub_agrees_with_the_built_module():
    allow = Path(__file__).with_name("stubtest_allow.txt")
    command = [sys.executable, "-m", "mypy.stubtest", "halfnut._core", "--allowlist", str(allow)]
    out = subprocess.run(command, capture_output=True, text=True)
    assert out.returncode == 0, out.stdout + out.stderr


def test_every_name_is_a_room_or_no_module():
    """No room hides a name of level 2, whatever was imported before."""
    rooms = {module.name for module in pkgutil.iter_modules(hn.__path__)} - {"__main__", "_core"}
    for name in sorted(rooms):
        importlib.import_module(f"halfnut.{name}")
    for name in hn.__all__:
        assert isinstance(getattr(hn, name), ModuleType) == (name in rooms), name
    assert rooms <= set(hn.__all__)


def test_examples_in_docstrings_run():
    attempted = 0
    for module in pkgutil.walk_packages(hn.__path__, "halfnut."):
        if module.name.rsplit(".", 1)[-1] != "__main__":
            result = doctest.testmod(importlib.import_module(module.name), optionflags=doctest.NORMALIZE_WHITESPACE)
            assert result.failed == 0, module.name
            attempted += result.attempted
    assert attempted >= 5
