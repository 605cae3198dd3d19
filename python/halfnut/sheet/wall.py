"""Charts for the wall: spindle speeds by diameter and metal, cells as tall as one lever position serves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, NamedTuple

from halfnut._core import DomainError
from halfnut.core.sizes import MM_PER_INCH
from halfnut.drawing.charts import SpeedChart, short_size, speed_chart
from halfnut.knurls.questions import suitable_wheels
from halfnut.knurls.wheels import knurl_wheels
from halfnut.sheet.layout import environment
from halfnut.threads.questions import clearance_hole, tapping_hole

if TYPE_CHECKING:
    from halfnut.drawing.charts import SpeedCell

__all__ = ["WallCell", "WallColumn", "WallPage", "chart_page", "knurl_pages", "tap_page", "wall_pages"]

_COLUMNS = 5
"""Columns on a page, most: digits of 7 mm leave no room for more."""
_TAPS = {
    "in": (
        *("#4-40", "#6-32", "#8-32", "#10-24", "#10-32", "1/4-20", "1/4-28"),
        *("5/16-18", "5/16-24", "3/8-16", "3/8-24", "1/2-13", "1/2-20"),
    ),
    "mm": ("M2", "M2.5", "M3", "M4", "M5", "M6", "M8", "M10", "M10x1", "M12", "M12x1.25", "M16", "M20"),
}
"""The common coarse and fine threads of a small shop."""
_BLANKS = {
    "in": tuple(["1/2", "5/8", "3/4", "7/8", "1", "1-1/8", "1-1/4", "1-3/8", "1-1/2", "1-3/4", "2"]),
    "mm": tuple(["10", "12", "15", "16", "18", "20", "22", "25", "28", "30", "32", "35", "40"]),
}
"""Bars that knurled parts are made from."""
_TOO_FAST = {"HSS": "carbide", "carbide": "too fast"}
_PAPERS = {"A4": ("A4 landscape", "297mm", "209.5mm"), "letter": ("letter landscape", "279.4mm", "215.4mm")}


class WallCell(NamedTuple):
    """A speed with the short names of its levers, for so many rows of diameters."""

    rpm: str
    levers: str = ""
    back_gear: bool = False
    rows: int = 1


class WallColumn(NamedTuple):
    """Metals that share every speed, and a cell for each row at which one begins."""

    alloys: tuple[str, ...]
    cells: tuple[WallCell | None, ...]


class WallPage(NamedTuple):
    """A page of a chart."""

    heading: str
    of: str
    sizes: tuple[str, ...]
    columns: tuple[WallColumn, ...]
    key: str
    swing_row: int | None = None
    """First row over the swing above the cross slide."""
    also: str = ""
    """What else is read from it."""


def chart_page(chart: SpeedChart, paper: str = "A4") -> str:
    """The pages as HTML that stands alone.

    Parameters
    ----------
    chart : SpeedChart
        After one of turning with HSS come pages for carbide, drills, taps and knurl blanks.
    paper : str
        A4 or letter, landscape.

    Returns
    -------
    str
        All pages in one text.

    Raises
    ------
    DomainError
        Another paper.
    """
    if paper not in _PAPERS:
        raise DomainError(f"paper: one of {', '.join(_PAPERS)}, got {paper!r}")
    charts = [chart]
    others: list[WallPage] = []
    if chart.operation == "turn" and chart.tool == "HSS":
        charts += [
            speed_chart(chart.machine, chart.alloys, tool="carbide"),
            speed_chart(chart.machine, chart.alloys, operation="drill"),
        ]
        others = [tap_page(chart.machine.unit), *knurl_pages(chart.machine.unit)]
    pages = [*(page for each in charts for page in wall_pages(each)), *others]
    template = environment().get_template("wall.html")
    size, wide, tall = _PAPERS[paper]
    return template.render(title=f"{chart.machine.title}: spindle", pages=pages, size=size, wide=wide, tall=tall)


def wall_pages(chart: SpeedChart) -> list[WallPage]:
    """A chart on as many pages as its columns need.

    Parameters
    ----------
    chart : SpeedChart
        One operation with one tool material.

    Returns
    -------
    list of WallPage
        Of at most five columns; metals with the same speeds share one.
    """
    short = _short_names(chart)
    places = range(len(chart.diameters))
    shared: dict[tuple[WallCell, ...], list[str]] = {}
    for name in chart.alloys:
        column = tuple(_shown(chart, chart.cells.get((name, place)), short) for place in places)
        shared.setdefault(column, []).append(name)
    columns = [WallColumn(tuple(names), _merged(column)) for column, names in shared.items()]
    over = chart.machine.core.swing_over_cross_slide_mm
    swing = next((place for place in places if 0.0 < over < chart.diameters[place].mm), None)
    return [
        WallPage(
            f"{chart.tool}, {'turning' if chart.operation == 'turn' else chart.of}",
            chart.of,
            tuple(short_size(size, unit=False) for size in chart.diameters),
            tuple(some),
            _key(chart, short),
            swing if chart.operation == "turn" else None,
            _also(chart),
        )
        for some in _of_a_page(columns)
    ]


def _of_a_page(columns: Sequence[WallColumn]) -> Iterator[Sequence[WallColumn]]:
    """Columns a page, on each about as many."""
    pages = -(-len(columns) // _COLUMNS)
    for page in range(pages):
        yield columns[page * len(columns) // pages : (page + 1) * len(columns) // pages]


def tap_page(unit: str) -> WallPage:
    """Drills for taps, and for the holes that a screw passes through.

    Parameters
    ----------
    unit : str
        "in" for inch threads, "mm" for metric ones.

    Returns
    -------
    WallPage
        A row a thread: drills, and per cent of thread.
    """
    answers = [(tapping_hole(name), clearance_hole(name, "close"), clearance_hole(name)) for name in _TAPS[unit]]
    columns = [
        WallColumn((head,), tuple(WallCell(_drill(each[place].drill, unit)) for each in answers))
        for place, head in enumerate(("tap drill", "close hole", "usual hole"))
    ]
    columns.append(WallColumn(("% of thread",), tuple(WallCell(f"{tap.percent or 0.0:.0f}") for tap, *_ in answers)))
    key = "Drills by number, letter or inch" if unit == "in" else "Drills in mm"
    return WallPage("Taps, by hand", "thread", _TAPS[unit], tuple(columns), key)


def _drill(name: str, unit: str) -> str:
    return name.removesuffix(f" {unit}").removeprefix("letter ")


def knurl_pages(unit: str) -> list[WallPage]:
    """For each of the shop's wheels the largest blank below each bar that tracks.

    Parameters
    ----------
    unit : str
        Of bars and diameters, "in" or "mm".

    Returns
    -------
    list of WallPage
        A column a wheel, at most five a page; a dash where no blank tracks.
    """
    bars = _BLANKS[unit]
    columns = []
    for wheel in knurl_wheels():
        found = [suitable_wheels(f"{size} {unit}", wheels=[wheel]).wheels[0] for size in bars]
        cells = tuple(WallCell(_below(each.below_diameter_mm, unit)) for each in found)
        columns.append(WallColumn((found[0].wheel,), cells))
    key = f"Diameter to turn, {unit}: the largest that tracks and can be turned from the bar"
    return [WallPage("Knurl blanks", "bar", bars, tuple(some), key) for some in _of_a_page(columns)]


def _below(size_mm: float | None, unit: str) -> str:
    if size_mm is None:
        return "–"
    return f"{size_mm / MM_PER_INCH:.3f}".removeprefix("0") if unit == "in" else f"{size_mm:.2f}"


def _shown(chart: SpeedChart, cell: SpeedCell | None, short: dict[tuple[str, str], str]) -> WallCell:
    if cell is None:
        return WallCell("–")
    if cell.cut.spindle_fit == "above window":
        return WallCell(_TOO_FAST.get(chart.tool, "too fast"))
    place = cell.cut.spindle_step
    levers = " ".join(short[pair] for pair in cell.cut.spindle_positions if pair in short)
    back = place is not None and chart.machine.core.spindle[place].back_gear
    return WallCell(f"{cell.cut.spindle_rpm:.0f}", levers, back)


def _merged(column: Sequence[WallCell]) -> tuple[WallCell | None, ...]:
    """Cells in a row that are alike as one; None where the one above reaches."""
    out: list[WallCell | None] = []
    for cell, alike in groupby(column):
        rows = len(list(alike))
        out += [cell._replace(rows=rows), *[None] * (rows - 1)]
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
