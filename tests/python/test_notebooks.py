"""The notebooks: kept without output, run from top to bottom, figures labelled with units and without colour."""

from __future__ import annotations

import asyncio
import json
import os
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

FOLDER = Path(__file__).resolve().parents[2] / "notebooks"
NOTEBOOKS = sorted(FOLDER.glob("*.ipynb"))
NAMES = [
    "batch_of_setups",
    "change_gears",
    "fastest_passes",
    "fits_of_the_mount",
    "knurl_blank",
    "many_setups",
    "measured_thread",
    "over_wires",
    "single_point",
    "spindle_speed",
    "tapped_holes",
    "thread_strength",
    "threaded_tube",
    "winding_out",
]
AT_ONCE = 2

# Runs after the notebook's own cells and tells what it drew; Agg keeps the figures open until then.
LOOK = """
import json as _json

import matplotlib as _matplotlib
import matplotlib.pyplot as _pyplot
from matplotlib.colors import to_rgb as _to_rgb


def _colours(axes):
    for line in axes.get_lines():
        yield line.get_color()
        yield line.get_markerfacecolor()
    for patch in axes.patches:
        yield patch.get_facecolor()
        yield patch.get_edgecolor()
    for group in axes.collections:
        yield from group.get_facecolor()
        yield from group.get_edgecolor()


_found = []
for _number in _pyplot.get_fignums():
    for _axes in _pyplot.figure(_number).axes:
        _found.append({
            "x": _axes.get_xlabel(),
            "y": _axes.get_ylabel() or next(
                (other.get_ylabel() for other in _axes.figure.axes
                 if other.get_ylabel() and _axes.get_shared_y_axes().joined(_axes, other)), ""),
            "coloured": sum(
                len(set(_to_rgb(colour))) > 1 for colour in _colours(_axes)
                if not isinstance(colour, str) or colour != "none"),
        })
print("LOOK " + _json.dumps([_matplotlib.get_backend(), _found]))
"""

UNITS = {
    "mm",
    "µm",
    "in",
    "teeth",
    "m/min",
    "ft/min",
    "rev/min",
    "mm/rev",
    "in/rev",
    "kW",
    "N",
    "s",
    "min",
    "parts",
    "number",
    "%",
    "deg",
    "kN",
    "MPa",
    "mm/mm",
}


async def run(path: Path, turn: asyncio.Semaphore) -> nbformat.NotebookNode:
    notebook = nbformat.read(path, as_version=4)
    notebook.cells.append(nbformat.v4.new_code_cell(LOOK))
    client = NotebookClient(notebook, timeout=180, resources={"metadata": {"path": str(FOLDER)}})
    async with turn:
        return await client.async_execute(env={**os.environ, "MPLBACKEND": "Agg"})


async def run_all() -> dict[str, nbformat.NotebookNode]:
    turn = asyncio.Semaphore(AT_ONCE)
    done = await asyncio.gather(*(run(path, turn) for path in NOTEBOOKS))
    return {path.stem: notebook for path, notebook in zip(NOTEBOOKS, done, strict=True)}


@pytest.fixture(scope="module")
def executed() -> dict[str, nbformat.NotebookNode]:
    return asyncio.run(run_all())


def printed(cell: nbformat.NotebookNode) -> str:
    return "".join(output.get("text", "") for output in cell.get("outputs", []))


def test_every_notebook_is_known_here() -> None:
    assert [path.stem for path in NOTEBOOKS] == NAMES


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_no_output_is_kept(path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    nbformat.validate(notebook)
    for cell in notebook.cells:
        if cell.cell_type == "code":
            assert cell.outputs == []
            assert cell.execution_count is None
    assert set(notebook.metadata) == {"kernelspec", "language_info"}


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_it_opens_with_a_question_and_ends_with_what_to_do(path: Path) -> None:
    cells = nbformat.read(path, as_version=4).cells
    assert cells[0].cell_type == "markdown"
    assert cells[0].source.splitlines()[0].startswith("# ")
    assert cells[0].source.splitlines()[0].endswith("?")
    assert [cell.source for cell in cells if cell.cell_type == "markdown"][-1] == "## What to do"
    assert cells[-1].cell_type == "code"
    assert len(cells) <= 20


@pytest.mark.parametrize("name", NAMES)
def test_it_runs_and_says_what_to_do(executed: dict[str, nbformat.NotebookNode], name: str) -> None:
    steps = printed(executed[name].cells[-2])
    assert steps.startswith("1. ")
    assert "nan" not in steps.lower()


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_has_labelled_axes_with_units_and_no_colour(
    executed: dict[str, nbformat.NotebookNode], name: str
) -> None:
    backend, drawn = json.loads(printed(executed[name].cells[-1]).removeprefix("LOOK "))
    assert backend.lower() == "agg"
    assert drawn, "no figure"
    for axes in drawn:
        for label in (axes["x"], axes["y"]):
            quantity, _, unit = label.rpartition(", ")
            assert quantity, f"{label!r} has no unit"
            assert unit in UNITS, label
        assert axes["coloured"] == 0
