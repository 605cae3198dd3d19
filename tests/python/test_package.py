"""The package as a whole: light to import, typed as built, names in their places."""

import doctest
import importlib
import pkgutil
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import halfnut as hn


def test_import_loads_numpy_and_the_core_only():
    heavy = {"pydantic", "rich", "click", "jinja2", "pandas", "matplotlib"}
    code = f"import sys, halfnut; print(sorted({{m.split('.')[0] for m in sys.modules}} & {heavy}))"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"


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
