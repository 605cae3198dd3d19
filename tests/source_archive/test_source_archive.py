"""The source archive, unpacked elsewhere, gains an alloy and is built in isolation.

Two promises in one build: the archive is whole, and a new alloy is two lines of data, nothing else. Not among
the other Python tests, since it builds everything anew; ``./shop test`` runs it when the sources have changed.
"""

from __future__ import annotations

import difflib
import os
import re
import subprocess
import sys
import tarfile
import venv
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
MODEL, ADDED = "A96061,6061,T6,", "A96005,6005A,T5,"
ADDED_NAME = "3.3210,A96005,"


@dataclass(frozen=True)
class Copy:
    """The unpacked archive, the lines added to it by file, and the Python it is installed in."""

    root: Path
    added: dict[str, list[str]]
    python: Path

    def run(self, *command: str, folder: Path) -> str:
        """Run a command of the copy's environment and return what it printed."""
        program = self.python.with_name(command[0])
        done = subprocess.run(
            [program, *command[1:]], cwd=folder, capture_output=True, text=True, check=False, env=clean_environment()
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout


def clean_environment() -> dict[str, str]:
    """Return the environment without what would let the copy see this checkout's packages or build."""
    hidden = ("PYTHONPATH", "VIRTUAL_ENV", "SKBUILD_BUILD_DIR", "PIP_CONFIG_SETTINGS", "PIP_NO_BUILD_ISOLATION")
    return {key: value for key, value in os.environ.items() if key not in hidden}


def insert_sorted(path: Path, row: str) -> None:
    """Add a row to a table, in the place of its key."""
    lines = path.read_text("utf-8").splitlines(keepends=True)
    first = next(number for number, line in enumerate(lines) if not line.startswith("#")) + 1
    key = row.partition(",")[0]
    at = next((n for n in range(first, len(lines)) if lines[n].partition(",")[0] > key), len(lines))
    path.write_text("".join([*lines[:at], row + "\n", *lines[at:]]), "utf-8")


def added_lines(before: Path, after: Path) -> list[str]:
    """Return the lines that differ between two files, as diff shows them."""
    texts = [path.read_text("utf-8").splitlines() for path in (before, after)]
    return [line for line in difflib.ndiff(*texts) if line[0] in "+-"]


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Copy:
    folder = tmp_path_factory.mktemp("archive")
    build = [sys.executable, "-m", "build", "--sdist", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    subprocess.run(build, check=True, capture_output=True)
    (archive,) = folder.glob("halfnut-*.tar.gz")
    # Debian 12's Python is older than the filter of unpacking, newer ones warn without it
    safely: dict[str, Any] = {"filter": "data"} if hasattr(tarfile, "data_filter") else {}
    with tarfile.open(archive) as tar:
        tar.extractall(folder, **safely)
    root = folder / archive.name.removesuffix(".tar.gz")

    material = root / "cpp/data/material"
    lines = (material / "alloys.csv").read_text("utf-8").splitlines()
    model = next(line for line in lines if line.startswith(MODEL))
    insert_sorted(material / "alloys.csv", model.replace(MODEL, ADDED))
    insert_sorted(material / "aliases.csv", ADDED_NAME + "S1")
    files = sorted(path.relative_to(root).as_posix() for path in (root / "cpp/data").rglob("*.csv"))
    added = {name: added_lines(ROOT / name, root / name) for name in files}

    venv.create(folder / "venv", with_pip=True)
    python = folder / "venv/bin/python"
    quick = ("cmake.build-type=Debug", "cmake.define.CMAKE_CXX_FLAGS_DEBUG=-O0")  # nothing here is to run fast
    install = [python, "-m", "pip", "install", "--quiet", *(f"--config-settings={each}" for each in quick), root]
    done = subprocess.run(install, env=clean_environment(), capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return Copy(root, {name: lines for name, lines in added.items() if lines}, python)


def test_archive_holds_the_sources_and_no_more(copy: Copy) -> None:
    names = {path.name for path in copy.root.iterdir()}
    assert {"CMakeLists.txt", "LICENSE", "README.md", "pyproject.toml", "cpp", "bindings", "python", "tests"} <= names
    assert not names & {".venv", "build", "dist", "halfnut-sheets"}


def test_an_alloy_is_two_files_and_four_lines_at_most(copy: Copy) -> None:
    assert sorted(copy.added) == ["cpp/data/material/aliases.csv", "cpp/data/material/alloys.csv"]
    assert 2 <= sum(len(lines) for lines in copy.added.values()) <= 4
    assert all(line.startswith("+") for lines in copy.added.values() for line in lines)


def test_the_new_alloy_is_known_by_every_name(copy: Copy, tmp_path: Path) -> None:
    code = "import halfnut as hn; print(*(hn.alloy(name).id for name in ('A96005', '6005A', '6005A-T5', '3.3210')))"
    assert copy.run("python", "-c", code, folder=tmp_path).split() == ["A96005"] * 4


def test_the_new_alloy_is_turned(copy: Copy, tmp_path: Path) -> None:
    new, model = (
        copy.run("halfnut", "turn", name, "1.25in", "--machine", "gap-bed", folder=tmp_path)
        for name in ("6005A-T5", "6061-T6")
    )
    figures = re.compile(r"\d+\.?\d*")
    assert figures.findall(new.splitlines()[0].replace("6005A T5", "")) == figures.findall(
        model.splitlines()[0].replace("6061 T6", "")
    )


def test_version_is_the_one_of_the_build(copy: Copy, tmp_path: Path) -> None:
    (version,) = re.findall(r"project\(halfnut VERSION ([\d.]+)", (copy.root / "CMakeLists.txt").read_text("utf-8"))
    assert version in copy.run("halfnut", "--version", folder=tmp_path)
    assert copy.run("python", "-c", "import halfnut; print(halfnut.__version__)", folder=tmp_path).strip() == version


def test_tests_of_materials_still_pass_with_the_new_alloy(copy: Copy) -> None:
    (site,) = (copy.python.parents[1] / "lib").glob("python*/site-packages")
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "tests/python/material/test_alloys.py"],
        cwd=copy.root,
        env=clean_environment() | {"PYTHONPATH": str(site)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
