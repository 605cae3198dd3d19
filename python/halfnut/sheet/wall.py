"""Charts for the wall: spindle speeds by diameter and metal, cells as tall as one lever position serves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from halfnut._core import DomainError
from halfnut.drawing.charts import SpeedChart, short_size, speed_chart
from halfnut.sheet.pages import environment

if TYPE_CHECKING:
    from halfnut.drawing.charts import SpeedCell

__all__ = ["WallCell", "WallColumn", "WallPage", "chart_page", "wall_pages"]

_COLUMNS = 5
"""Columns on a page, most: digits of 7 mm leave no room for more."""
_TOO_FAST = {"HSS": "carbide", "carbide": "too fast"}
_PAPERS = {"A4": ("A4 landscape", "297mm", "209.5mm"), "letter": ("letter landscape", "279.4mm", "215.4mm")}


@dataclass(frozen=True)
class WallCell:
    """A speed with the short names of its levers, for so many rows of diameters."""

    rpm: str
    levers: str
    rows: int
    back_gear: bool = False


@dataclass(frozen=True)
class WallColumn:
    """Metals that share every speed, and a cell for each row at which one begins."""

    alloys: tuple[str, ...]
    cells: tuple[WallCell | None, ...]


@dataclass(frozen=True)
class WallPage:
    """A page of a chart."""

    heading: str
    of: str
    sizes: tuple[str, ...]
    columns: tuple[WallColumn, ...]
    key: str
    swing_row: int | None
    """First row over the swing above the cross slide."""
    also: str = ""
    """What else is read from it."""


def chart_page(chart: SpeedChart, paper: str = "A4") -> str:
    """The pages as HTML that stands alone."""
    if paper not in _PAPERS:
        raise DomainError(f"paper: one of {', '.join(_PAPERS)}, got {paper!r}")
    charts = [chart]
    if chart.operation == "turn" and chart.tool == "HSS":
        charts += [
            speed_chart(chart.machine, chart.alloys, tool="carbide"),
            speed_chart(chart.machine, chart.alloys, operation="drill"),
        ]
    pages = [page for each in charts for page in wall_pages(each)]
    template = environment().get_template("wall.html")
    size, wide, tall = _PAPERS[paper]
    return template.render(title=f"{chart.machine.title}: spindle", pages=pages, size=size, wide=wide, tall=tall)


def wall_pages(chart: SpeedChart) -> list[WallPage]:
    """A chart on as many pages as its columns need."""
    short = _short_names(chart)
    places = range(len(chart.diameters))
    shared: dict[tuple[tuple[str, str, bool], ...], list[str]] = {}
    for name in chart.alloys:
        column = tuple(_shown(chart, chart.cells.get((name, place)), short) for place in places)
        shared.setdefault(column, []).append(name)
    columns = [WallColumn(tuple(names), _merged(column)) for column, names in shared.items()]
    over = chart.machine.core.swing_over_cross_slide_mm
    swing = next((place for place in places if 0.0 < over < chart.diameters[place].mm), None)
    pages = -(-len(columns) // _COLUMNS)
    of_a_page = -(-len(columns) // pages)
    return [
        WallPage(
            f"{chart.tool}, {'turning' if chart.operation == 'turn' else chart.of}",
            chart.of,
            tuple(short_size(size, unit=False) for size in chart.diameters),
            tuple(columns[first : first + of_a_page]),
            _key(chart, short),
            swing if chart.operation == "turn" else None,
            _also(chart),
        )
        for first in range(0, len(columns), of_a_page)
    ]


def _shown(chart: SpeedChart, cell: SpeedCell | None, short: dict[tuple[str, str], str]) -> tuple[str, str, bool]:
    if cell is None:
        return ("–", "", False)
    if cell.cut.spindle_fit == "above window":
        return (_TOO_FAST.get(chart.tool, "too fast"), "", False)
    steps, place = chart.machine.core.spindle, cell.cut.spindle_step
    back = place is not None and steps[place].back_gear
    levers = [short[pair] for pair in cell.cut.spindle_positions if pair in short]
    return (f"{cell.cut.spindle_rpm:.0f}", " ".join(levers), back)


def _merged(column: Sequence[tuple[str, str, bool]]) -> tuple[WallCell | None, ...]:
    """Cells in a row that are alike as one; None where the one above reaches."""
    out: list[WallCell | None] = []
    for place, (rpm, levers, back) in enumerate(column):
        if place and column[place - 1] == column[place]:
            out.append(None)
            continue
        rows = 1
        while place + rows < len(column) and column[place + rows] == column[place]:
            rows += 1
        out.append(WallCell(rpm, levers, rows, back))
    return tuple(out)


def _short_names(chart: SpeedChart) -> dict[tuple[str, str], str]:
    """A letter or figure for each lever position; those that only say whether the back gear is in are shown by grey."""
    settings: dict[str, dict[str, set[bool]]] = {}
    for step in chart.machine.core.spindle:
        for each in step.positions:
            settings.setdefault(each.control, {}).setdefault(each.setting, set()).add(step.back_gear)
    geared = any(step.back_gear for step in chart.machine.core.spindle)
    out = {}
    for control, found in settings.items():
        told_by_grey = geared and len(found) == 2 and all(len(backs) == 1 for backs in found.values())
        if told_by_grey:
            continue
        initials = {setting[:1].upper() for setting in found}
        brief = len(initials) == len(found)
        for setting in found:
            out[control, setting] = setting[:1].upper() if brief else setting
    return out


def _also(chart: SpeedChart) -> str:
    """Other operations that are read from the chart's lines."""
    same = [name for name, share in chart.same_lines.items() if share == 1.0]
    twice = [name for name, share in chart.same_lines.items() if share == 2.0]
    said = [f"{', '.join(same)}: the same line."] if same else []
    said += [f"{', '.join(twice)}: the line of twice the work."] if twice else []
    return " ".join(each[:1].upper() + each[1:] for each in said)


def _key(chart: SpeedChart, short: dict[tuple[str, str], str]) -> str:
    """What the letters stand for."""
    said: dict[str, list[str]] = {}
    for (control, setting), letter in short.items():
        said.setdefault(control, []).append(setting if setting == letter else f"{letter} {setting}")
    return "; ".join(f"{control}: {', '.join(settings)}" for control, settings in said.items())
