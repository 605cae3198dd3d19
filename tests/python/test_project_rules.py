"""Rules that hold for every file of the project, and that no other check would notice."""

from __future__ import annotations

import ast
import csv
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE_KINDS = ("standard", "government", "handbook", "textbook", "paper", "transcription", "practice", "memory")

FORBIDDEN = {
    "a path of one machine": re.compile(r"(?<![\w.}\)/-])/(?:work|tmp|root|home)(?:/|\b)"),
    "work left for later": re.compile(r"\b(?:TODO|FIXME|XXX)\b"),
    "a package registry": re.compile(r"\bpypi\.org\b|pythonhosted|deb\.debian\.org", re.IGNORECASE),
    "an issue's number": re.compile(r"\bissue #?\d+|\(#\d+\)", re.IGNORECASE),
}


def tracked() -> list[Path]:
    """Return every file under version control."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True)
    return [ROOT / name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file()]


def breaches(text: str) -> list[str]:
    """Return what a text says that no file may say, with line numbers."""
    return [
        f"{number}: {what}: {line.strip()[:80]}"
        for number, line in enumerate(text.splitlines(), 1)
        for what, pattern in FORBIDDEN.items()
        if pattern.search(line)
    ]


@pytest.mark.parametrize(
    "line",
    [
        "open('/tmp/x')",
        "cd /work/main",
        "# TODO: later",
        "https://pypi.org/simple",
        "see issue 2",
    ],
)
def test_a_breach_is_seen(line: str) -> None:
    assert breaches(line)


def test_no_tracked_file_names_this_machine_or_work_left() -> None:
    found = []
    read = 0
    for path in tracked():
        if path == Path(__file__).resolve():
            continue  # it quotes what it forbids
        try:
            text = path.read_text("utf-8")
        except UnicodeDecodeError:
            continue  # a picture
        read += 1
        found += [f"{path.relative_to(ROOT)}:{breach}" for breach in breaches(text)]
    assert read > 30
    assert not found, "\n".join(found)


def imported(source: str) -> set[str]:
    """Return the top-level packages that a Python text imports, by statement or by name."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names.add(node.module or "")
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith(("import_module", "__import__")):
            names |= {arg.value for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str)}
    return {name.partition(".")[0] for name in names}


def oracles() -> list[Path]:
    """Return the files of tests that compute an answer a second way."""
    files = [path for path in tracked() if path.suffix == ".py" and path.is_relative_to(ROOT / "tests")]
    return [path for path in files if "oracle" in path.stem or "oracles" in path.parts]


@pytest.mark.parametrize(
    "source",
    [
        "import halfnut",
        "import halfnut.threads as t",
        "from halfnut import thread",
        "def f():\n    from halfnut._core import x",
        "importlib.import_module('halfnut.threads')",
    ],
)
def test_an_import_of_the_product_is_seen(source: str) -> None:
    assert "halfnut" in imported(source)


def test_oracles_do_not_import_the_product() -> None:
    assert oracles()
    for path in oracles():
        assert "halfnut" not in imported(path.read_text("utf-8")), path


EXACT = {"ceil", "floor", "inf", "isclose", "isfinite", "isnan", "nan", "pi", "sqrt"}
"""Of `math`: the same bits everywhere."""
INEXACT = re.compile(r"a?(?:sin|cos|tan)h?|arc\w+|atan2|exp\w*|log\w*|(?:float_)?power|cbrt|hypot|geomspace|logspace")
"""Of numpy: left to the C library, or to the processor."""


def of_the_c_library(source: str) -> list[str]:
    """Return what a Python text computes by functions whose last bits differ between systems."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            wrong = {"math": node.attr not in EXACT, "np": bool(INEXACT.fullmatch(node.attr)), "cmath": True}
            bad = wrong.get(node.value.id, False)
        elif isinstance(node, ast.ImportFrom):
            bad = node.module in {"math", "cmath", "numpy"}
        elif isinstance(node, ast.BinOp) and isinstance(node.op, ast.Pow):
            bad = not (isinstance(node.left, ast.Constant) and isinstance(node.left.value, int))
        else:
            bad = isinstance(node, ast.Name) and node.id == "pow"
        if bad:
            found.append(f"{node.lineno}: {ast.unparse(node)}")
    return found


@pytest.mark.parametrize(
    "source", ["math.tan(x)", "math.radians(x)", "from math import sin", "np.log2(x)", "x**2", "0.1**y", "pow(x, 2)"]
)
def test_a_function_of_the_c_library_is_seen(source: str) -> None:
    assert of_the_c_library(source)


def test_answers_are_computed_by_the_elementary_functions_of_the_core() -> None:
    package = ROOT / "python" / "halfnut"
    files = [path for path in package.rglob("*.py") if "drawing" not in path.parts]
    found = [f"{path.name}:{line}" for path in files for line in of_the_c_library(path.read_text("utf-8"))]
    assert len(files) > 50
    assert not found, "\n".join(found)


def references() -> list[Path]:
    """Return the files of published answers."""
    return sorted((ROOT / "tests" / "reference").rglob("*.csv"))


@pytest.mark.parametrize("path", references(), ids=lambda path: f"{path.parent.name}/{path.name}")
def test_published_answers_name_their_source(path: Path) -> None:
    """The source is the citation itself, or the key of a line ``# S1: <kind> | <citation>``."""
    lines = path.read_text("utf-8").splitlines()
    declared = {match[1]: match[2] for line in lines if (match := re.match(r"# (S\d+): (\w+) \| \S", line))}
    assert set(declared.values()) <= set(SOURCE_KINDS)
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    assert rows
    for number, row in enumerate(rows, 1):
        source = row.get("source") or ""
        assert source.strip(), f"row {number} names no source"
        assert source in declared or not re.fullmatch(r"S\d+", source), f"row {number}: {source} is not declared"


def test_there_are_published_answers() -> None:
    assert references()
