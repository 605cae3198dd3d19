"""What the first answer costs to build, and what a new row and a new column cost, in a copy of the sources."""

from __future__ import annotations

import csv
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pybind11
from marks import Mark

ROOT = Path(__file__).parents[2]
COPY = ROOT / "build" / "cost"
UNIT_S, UNIT_MB, ROW_S, COLUMN_UNITS = 20, 700, 30, 15


class Build:
    """A copy of the sources and its build tree."""

    def __init__(self) -> None:
        shutil.rmtree(COPY, ignore_errors=True)
        self.sources = COPY / "sources"
        self.notes = COPY / "notes.tsv"
        for name in ("cpp", "bindings"):
            shutil.copytree(ROOT / name, self.sources / name)
        for name in ("CMakeLists.txt", "LICENSE"):
            shutil.copy(ROOT / name, self.sources / name)
        launcher = f"{sys.executable};{Path(__file__).with_name('measured_compiler.py')};{self.notes}"
        self._run(
            *("cmake", "-S", self.sources, "-B", COPY / "tree", "-G", "Ninja", "-DHALFNUT_PYTHON=ON"),
            *(f"-DPython_EXECUTABLE={sys.executable}", f"-Dpybind11_DIR={pybind11.get_cmake_dir()}"),
            f"-DCMAKE_CXX_COMPILER_LAUNCHER={launcher}",
        )

    def _run(self, *command: object) -> None:
        subprocess.run([str(word) for word in command], check=True, stdout=subprocess.DEVNULL)

    def units(self) -> list[tuple[str, float, float]]:
        """Build what is not up to date: each unit with its processor seconds and megabytes, the dearest first."""
        self.notes.unlink(missing_ok=True)
        self._run("cmake", "--build", COPY / "tree", "--target", "_core")
        with self.notes.open(encoding="utf-8") as file:
            rows = [(unit, float(seconds), float(most)) for unit, seconds, most in csv.reader(file, delimiter="\t")]
        return sorted(rows, key=lambda row: -row[1])

    def change(self, name: str, old: str, new: str) -> None:
        """Put a text of a source in place of another."""
        path = self.sources / name
        text = path.read_text("utf-8")
        if text.count(old) != 1:
            raise ValueError(f"{name} holds {old!r} {text.count(old)} times")
        path.write_text(text.replace(old, new), "utf-8")


def new_alloy(build: Build) -> None:
    """Add an alloy: its table's last row again, with an id that sorts behind it."""
    path = build.sources / "cpp/data/material/alloys.csv"
    last = path.read_text("utf-8").rstrip("\n").rsplit("\n", 1)[1]
    with path.open("a", encoding="utf-8") as file:
        file.write("ZZ" + last + "\n")


def new_column(build: Build) -> None:
    """Add an optional column to a table of knurls."""
    build.change(
        "cpp/include/halfnut/knurls/tables.hpp",
        "    double tracking_factor_in = 0;",
        "    double tracking_factor_in = 0;\n    double pitch_in = 0;",
    )
    build.change(
        "cpp/include/halfnut/knurls/tables.hpp",
        "HALFNUT_REQUIRED(tracking_factor_in),",
        "HALFNUT_REQUIRED(tracking_factor_in), HALFNUT_OPTIONAL(pitch_in),",
    )


def marks() -> list[Mark]:
    """Processor seconds of the whole, the dearest units, a new row and a new column."""
    build = Build()
    whole = build.units()
    print(f"{len(whole)} units; the dearest:")
    for unit, took, most in whole[:12]:
        print(f"  {took:6.1f} s {most:5.0f} MB  {unit}")
    dearest = whole[0]
    largest = max(whole, key=lambda row: row[2])
    core = sum(took for unit, took, _ in whole if "_core.dir" not in unit)
    new_alloy(build)
    row = build.units()
    new_column(build)
    column = build.units()
    workers = os.cpu_count() or 1
    return [
        Mark("build: the core", core, unit="s"),
        Mark("build: the bindings", sum(took for _, took, _ in whole) - core, unit="s"),
        Mark("build: dearest unit", dearest[1], UNIT_S, at_least=False, unit="s", note=dearest[0]),
        Mark("build: largest unit", largest[2], UNIT_MB, at_least=False, unit="MB", note=largest[0]),
        Mark("build: a new alloy row", sum(unit[1] for unit in row), ROW_S, at_least=False, unit="s"),
        Mark("build: units of a new knurl column", len(column), COLUMN_UNITS, at_least=False, unit=""),
        Mark("build: cores that shared it", workers, unit=""),
    ]
