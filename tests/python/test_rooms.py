"""The rooms of the package: arrows run one way, no circles, and each shows what is in it at first touch."""

from __future__ import annotations

import ast
import pickle
import pkgutil
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

import halfnut as hn

PACKAGE = Path(hn.__file__).parent

# Each imports from itself and from those before it. The package itself stands above all of them.
ORDER = (
    "_core",
    "demo",
    "core",
    "material",
    "machine",
    "fits",
    "threads",
    "cutting",
    "knurls",
    "batch",
    "planning",
    "drawing",
    "sheet",
    "cli",
)


def modules(package: Path = PACKAGE) -> dict[str, str]:
    """Texts of the package's modules by their names."""
    out = {}
    for path in sorted(package.rglob("*.py")):
        parts = ("halfnut", *path.relative_to(package).with_suffix("").parts)
        out[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path.read_text("utf-8")
    return out


def arrows(texts: dict[str, str]) -> set[tuple[str, str]]:
    """Who imports whom, wherever in a module that stands, and by name too.

    Made figures speak of answers within them for the type checkers only: those are no arrows.
    """
    known = {*texts, "halfnut._core"}
    out = set()
    for module, text in texts.items():
        tree = ast.parse(text)
        if module.endswith(".figures") and "Written by `./shop stubs`" in text:
            tree.body = [node for node in tree.body if not isinstance(node, ast.If)]
        for node in ast.walk(tree):
            found: list[str] = []
            if isinstance(node, ast.Import):
                found = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                assert not node.level, f"{module} imports by dots"
                home = node.module or ""
                # what is no module of the package is a name that the package itself gives
                found = [each if (each := f"{home}.{alias.name}") in known else home for alias in node.names]
            elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith("import_module"):
                found = [arg.value for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str)]
            out |= {(module, each) for each in found if each in known and each != module}
    return out


def circles(pairs: set[tuple[str, str]]) -> list[list[str]]:
    """Groups of modules that import each other, straight or by way of others."""
    ahead: dict[str, set[str]] = {}
    for start, end in pairs:
        ahead.setdefault(start, set()).add(end)
    reach: dict[str, set[str]] = {}
    for start in ahead:
        seen: set[str] = set()
        left = [start]
        while left:
            for each in ahead.get(left.pop(), set()) - seen:
                seen.add(each)
                left.append(each)
        reach[start] = seen
    groups = {frozenset(b for b in seen if a in reach.get(b, ())) for a, seen in reach.items() if a in seen}
    return sorted(sorted(group) for group in groups)


def room(module: str) -> str:
    """The room of a module; that of the package itself and of its command line's door is the last."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 and parts[1] != "__main__" else ORDER[-1]


def backward(pairs: set[tuple[str, str]]) -> list[tuple[str, str]]:
    """Arrows from a room to one after it."""
    return sorted(
        pair
        for pair in pairs
        if pair[0] not in {"halfnut", "halfnut.__main__"}
        and (pair[1] == "halfnut" or ORDER.index(room(pair[0])) < ORDER.index(room(pair[1])))
    )


def test_every_module_is_in_a_room():
    assert {room(module) for module in modules()} | {"_core"} == set(ORDER)
    assert {path.name for path in PACKAGE.glob("*.py")} == {"__init__.py", "__main__.py"}


def test_arrows_run_one_way():
    assert backward(arrows(modules())) == []


def test_there_are_no_circles():
    assert circles(arrows(modules())) == []


@pytest.mark.parametrize(
    "planted",
    [
        "from halfnut.planning.plans import plan",
        "from halfnut.planning import plans",
        "from halfnut import planning",
        "from halfnut import plan",
        "import halfnut",
        "import halfnut.planning.plans as p",
        "def late():\n    from halfnut.planning.plans import plan",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from halfnut.planning.plans import Plan",
        "from importlib import import_module\nimport_module('halfnut.planning.plans')",
    ],
)
def test_an_arrow_that_runs_back_is_seen(planted):
    texts = modules()
    texts["halfnut.threads.standard"] += f"\n{planted}\n"
    (found,) = backward(arrows(texts))
    assert found[0] == "halfnut.threads.standard"


def test_a_circle_is_seen():
    texts = modules()
    texts["halfnut.core.words"] += "\ndef late():\n    from halfnut.core.record import Record\n"
    (found,) = circles(arrows(texts))
    assert {"halfnut.core.record", "halfnut.core.words"} <= set(found)


def test_tab_shows_the_public_names_and_the_rooms():
    assert dir(hn) == sorted(hn.__all__)
    assert {*ORDER} - {"_core"} <= set(dir(hn))


@pytest.mark.parametrize("place", ORDER[1:])
def test_a_room_works_at_first_touch(place):
    """In an interpreter of its own, where nothing else has loaded it; what it shows is there."""
    code = f"import halfnut as hn; room = hn.{place}; print([name for name in dir(room) if not hasattr(room, name)])"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert out.returncode == 0, out.stderr
    assert out.stdout.strip() == "[]"


@pytest.mark.parametrize(
    "code",
    [
        "hn.threads.wires('M10-6g')",
        "hn.threads.over_wires_exact_mm(9.026, 10.0, 1.5, 1.5, 30.0, 0.866)",
        "hn.cutting.spindle_speed_rpm(100.0, 50.0)",
        "hn.cutting.formulas.root_flat_mm",
        "hn.batch.turn",
        "hn.planning.plan",
        "hn.core.units.inch(1)",
    ],
)
def test_what_stands_in_a_room_works_at_first_touch(code):
    out = subprocess.run([sys.executable, "-c", f"import halfnut as hn; {code}"], capture_output=True, text=True)
    assert out.returncode == 0, out.stderr


@pytest.mark.parametrize("place", [each for each in ORDER[1:] if each not in {"core", "demo", "cli"}])
def test_names_of_a_room_are_one_module_s_and_no_module_hides_one(place):
    room = import_module(f"halfnut.{place}")
    homes: dict[str, str] = {}
    parts = [found.name for found in pkgutil.iter_modules(room.__path__)]
    for part in parts:
        for name in getattr(import_module(f"halfnut.{place}.{part}"), "__all__", ()):
            assert name not in homes, f"{name}: {homes[name]} and {part}"
            homes[name] = part
    assert not homes.keys() & set(parts)
    # what a type checker is told is what is there
    text = Path(room.__file__ or "").read_text("utf-8")
    told = {node.module for node in ast.walk(ast.parse(text)) if isinstance(node, ast.ImportFrom)}
    assert {f"halfnut.{place}.{part}" for part in homes.values()} <= told


def test_classes_say_where_they_stand():
    """A class's module is a place that a person may import it from; so it reads well, and pickles."""
    classes = {getattr(hn, name) for name in hn.__all__ if isinstance(getattr(hn, name), type)}
    for place in ORDER[3:-1]:
        room = import_module(f"halfnut.{place}")
        classes |= {found for name in dir(room) if isinstance(found := getattr(room, name), type)}
    assert len(classes) > 60
    for each in classes:
        if not each.__module__.startswith("halfnut"):
            continue  # a name for another package's type
        assert not any(part.startswith("_") for part in each.__module__.split(".")), each
        assert pickle.loads(pickle.dumps(each)) is each


def test_import_of_the_package_loads_no_room_but_what_tells_of_them():
    code = "import sys, halfnut; print(*sorted(name for name in sys.modules if name.startswith('halfnut.')))"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert set(out.stdout.split()) == {"halfnut._core", "halfnut.core", "halfnut.core.pages", "halfnut.core.rooms"}
