"""The papers of a card, how tall each thing on it is, and where a setup that overflows is split."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from halfnut._core import DomainError
from halfnut.sheet.card import Bar, Cell, Feed, Row

__all__ = ["PAPERS", "Paper", "bars_height", "paper_named", "settled", "split", "text_height", "text_width"]


@dataclass(frozen=True)
class Paper:
    """A paper: its size and margins in mm, and the size of plain words in points, by which everything else goes."""

    name: str
    size: str
    width_mm: float
    height_mm: float
    words_pt: float
    top_mm: float
    right_mm: float
    bottom_mm: float
    left_mm: float
    line: float = 1.16
    outline: float = 1.0
    """Width of the outline, as a share of the card's."""

    @property
    def em_mm(self) -> float:
        """Size of plain words, mm."""
        return self.words_pt * 25.4 / 72.0

    @property
    def wide(self) -> float:
        """Width between the margins, in sizes of plain words."""
        return (self.width_mm - self.left_mm - self.right_mm) / self.em_mm

    @property
    def tall(self) -> float:
        """Height between the margins."""
        return (self.height_mm - self.top_mm - self.bottom_mm) / self.em_mm


PAPERS = {
    paper.name: paper
    for paper in (
        Paper("A5", "148mm 210mm", 148.0, 209.6, 11.6, 5.5, 6.0, 4.5, 9.0),
        Paper("half-letter", "139.7mm 215.9mm", 139.6, 215.4, 11.6, 5.5, 4.0, 5.0, 9.0),
        Paper("A4", "210mm 297mm", 210.0, 296.6, 16.2, 8.0, 8.5, 6.5, 13.0),
        Paper("letter", "215.9mm 279.4mm", 215.8, 279.0, 15.9, 6.5, 9.0, 5.0, 13.0, 1.12, 0.84),
    )
}


def paper_named(name: str) -> Paper:
    """A paper by its name.

    Raises
    ------
    DomainError
        No such paper.
    """
    if name not in PAPERS:
        raise DomainError(f"paper: one of {', '.join(PAPERS)}, got {name!r}")
    return PAPERS[name]


# ---- how tall things are, in sizes of plain words; the style sheet says the same ----------------------------

_SET, _NO, _GAP, _PAD = 5.8, 1.93, 0.45, 0.45
_BIG, _BIG_LINE = 1.28, 1.43
_BAR, _ROW, _BOX_LINE = 2.08, 0.30, 1.55
_BOX = 4.95
_TAG = re.compile(r"<(/?)(\w+)(?: class=\"(\w*)\")?[^>]*>")
_WIDTHS = {" ": 0.28, "m": 0.84, "w": 0.73, "M": 0.84, "W": 0.95, "%": 0.89, "—": 1.0, "½": 0.84, "=": 0.59, "+": 0.59}
_WIDTHS |= dict.fromkeys("ijlI'|", 0.24) | dict.fromkeys(".,:;/tf()-·!", 0.31) | dict.fromkeys("rcksvxyzJ", 0.5)


def text_width(text: str, scale: float = 1.0) -> float:
    """Width of a text, a little more than it is."""
    return scale * sum(_WIDTHS.get(each, 0.7 if each.isupper() else 0.57) for each in text)


def _words(markup: Markup) -> list[tuple[float, float]]:
    """Width and height of each piece that a line's end does not part."""
    out: list[tuple[float, float]] = []
    kinds: list[str] = []
    joined: list[float] | None = None
    at = 0
    for tag in [*_TAG.finditer(markup), None]:
        text = Markup(markup[at : None if tag is None else tag.start()]).unescape()
        scale = _BIG if "size" in kinds else 1.0
        whole = {"size", "n", "small"} & set(kinds)
        pieces = [text] if whole else text.split()
        for piece in filter(str.strip, pieces):
            one = (text_width(piece, scale), scale * 1.1 if scale > 1.0 else 0.0)
            if joined is not None:
                joined[0] += one[0]
            else:
                out.append(one)
        if tag is None:
            break
        closes, name, kind = tag.groups()
        if closes:
            last = kinds.pop()
            if last == "n" and joined is not None:
                out.append((joined[0], joined[1]))
                joined = None
        else:
            if kind == "box":
                if joined is not None:
                    joined[0] += _BOX
                    joined[1] = _BOX_LINE
                else:
                    out.append((_BOX, _BOX_LINE))
            else:
                kinds.append(kind or name)
            if kind == "n":
                joined = [0.0, 0.0]
        at = tag.end()
    return out


def text_height(markup: Markup, wide: float, line: float) -> float:
    """Height of words set in a column."""
    lines: list[float] = []
    used = wide + 1.0
    for width, height in _words(markup):
        if used + 0.28 + width > wide:
            lines.append(line)
            used = width
        else:
            used += 0.28 + width
        lines[-1] = max(lines[-1], height)
    return sum(lines)


def row_height(row: Row, wide: float, line: float) -> float:
    """Height of a row beside a feed cell."""
    column = wide - _SET - _PAD
    if row.kind in {"caution", "danger", "failed"}:
        return text_height(row.what, (column - 1.0) / 1.07, line) + _ROW
    column -= _NO + _GAP
    if row.kind == "go":
        if row.go is not None:
            return 2 * _BIG_LINE + _ROW
        shown = text_width(row.start) + sum(text_width(each, _BIG) + 1.05 for each in row.dial)
        return max(1, math.ceil(shown / column)) * _BIG_LINE + _ROW
    dial = 0.0
    if row.dial:
        dial = text_width(row.start) + sum(text_width(each, _BIG) + 0.6 for each in row.dial)
        column -= dial + _GAP
    return max(text_height(row.what, column, line), _BIG_LINE if dial else 0.0) + _ROW


def cell_height(cell: Cell, wide: float, line: float) -> float:
    """Height of a feed cell with its rows, and with what is told above them."""
    told = sum(text_height(row.what, wide - 1.2, line) + _ROW for row in cell.told)
    rows = sum(row_height(row, wide, line) for row in cell.inside)
    return told + max(set_height(cell.feed, rows), rows) + 0.12


def set_height(feed: Feed, rows: float) -> float:
    """Height of a setting beside rows of a height; what the levers give is left out where there is no room for it."""
    texts = [text_width(f"{control} ") + text_width(setting, _BIG) for control, setting in feed.levers]
    levers = 0.3 + sum(1.5 * math.ceil(width / (_SET - 0.1)) for width in texts)
    gives = 1.2 * len(feed.gives)
    return levers if feed.levers and rows < levers + gives else levers + gives


def settled(bars: Iterable[Bar], paper: Paper) -> tuple[Bar, ...]:
    """Bars as they are printed: what a feed's levers give is left out beside rows that are not as tall."""

    def printed(cell: Cell) -> Cell:
        rows = sum(row_height(row, paper.wide, paper.line) for row in cell.inside)
        kept = set_height(cell.feed, rows) > set_height(Feed(cell.feed.levers), rows)
        return cell if kept else Cell(Feed(cell.feed.levers), cell.rows)

    return tuple(Bar(bar.spindle, tuple(map(printed, bar.cells))) for bar in bars)


def bars_height(bars: Sequence[Bar], paper: Paper) -> float:
    """Height of spindle bars with all that hangs on them."""
    cells = (cell_height(cell, paper.wide, paper.line) for bar in bars for cell in bar.cells)
    return _BAR * len(bars) + sum(cells) + 0.15


def split(bars: Sequence[Bar], first: float, later: float, paper: Paper) -> list[tuple[Bar, ...]]:
    """Bars page by page, parted at a heavy line: between two settings, which the next page then shows again.

    Parameters
    ----------
    bars : sequence of Bar
        Of a setup.
    first, later : float
        Room for them on the first page, and on one after it.
    paper : Paper
        What they are set on.
    """
    pages: list[list[Bar]] = [[]]
    left = first
    for bar in bars:
        for cell in _parted(bar.cells, later - _BAR, paper):
            on_page = bool(pages[-1]) and pages[-1][-1].spindle == bar.spindle
            tall = cell_height(cell, paper.wide, paper.line)
            if pages[-1] and tall + (0.0 if on_page else _BAR) > left:
                pages.append([])
                left, on_page = later, False
            if on_page:
                pages[-1][-1] = Bar(bar.spindle, (*pages[-1][-1].cells, cell))
            else:
                pages[-1].append(Bar(bar.spindle, (cell,)))
            left -= tall + (0.0 if on_page else _BAR)
    return [tuple(page) for page in pages]


def _parted(cells: Iterable[Cell], most: float, paper: Paper) -> Iterable[Cell]:
    """Cells, one that is taller than a page parted between its operations."""
    for cell in cells:
        rows: list[Row] = []
        for row in cell.rows:
            starts = row.told or (row.number is not None and not (rows and rows[-1].told))
            tall = cell_height(Cell(cell.feed, (*rows, row)), paper.wide, paper.line)
            if rows and starts and tall > most:
                yield Cell(cell.feed, tuple(rows))
                rows = []
            rows.append(row)
        yield Cell(cell.feed, tuple(rows))
