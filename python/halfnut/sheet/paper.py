"""The papers of a card, how tall each thing on it is, and where a setup that overflows is split."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from markupsafe import Markup

from halfnut._core import DomainError
from halfnut.sheet.card import Bar, Cell, Feed, Row

__all__ = ["PAPERS", "Paper"]


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
    line: float = 1.1

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
        Paper("A5", "148mm 210mm", 148.0, 209.6, 11.6, 3.7, 5.0, 3.5, 9.0),
        Paper("half-letter", "139.7mm 215.9mm", 139.6, 215.4, 11.6, 3.7, 4.0, 3.5, 9.0),
        Paper("A4", "210mm 297mm", 210.0, 296.6, 16.2, 5.2, 7.0, 4.9, 13.0),
        Paper("letter", "215.9mm 279.4mm", 215.8, 279.0, 15.9, 4.0, 8.0, 3.7, 13.0),
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

_SET, _WIDEST_SET, _NO, _GAP, _PAD = 5.8, 12.0, 1.93, 0.45, 0.45
_BIG, _BIG_LINE = 1.28, 1.33
_BAR, _ROW, _BOX_LINE = 1.82, 0.2, 1.46
_BOX = 4.25
_LEVER = 1.34
_BESIDE, _APART, _NEAR = 0.63, 0.68, 0.2
_TAG = re.compile(r"<(/?)(\w+)(?: class=\"(\w*)\")?[^>]*>")
_PLAIN = {
    191: "'",
    222: "ijl\N{RIGHT SINGLE QUOTATION MARK}",
    278: " !,./:;I[]ft\N{MIDDLE DOT}",
    333: "()-r",
    400: "\N{DEGREE SIGN}",
    500: "Jcksvxyz",
    584: "+<=>\N{MULTIPLICATION SIGN}",
    611: "FTZ",
    667: "&ABEKPSVXY",
    722: "CDHNRUw",
    778: "GOQ\N{LATIN CAPITAL LETTER O WITH STROKE}",
    834: "Mm\N{VULGAR FRACTION ONE HALF}",
    889: "%",
    1015: "@W\N{EM DASH}\N{HORIZONTAL ELLIPSIS}",
}
_BOLD = {
    278: " ,./Iijl\N{MIDDLE DOT}",
    333: "!()-:;[]ft",
    389: "r",
    400: "\N{DEGREE SIGN}",
    500: "z",
    584: "+<=>\N{MULTIPLICATION SIGN}",
    611: "?FLTZbdghnopqu",
    667: "EPSVXY",
    722: "&ABCDHKNRU",
    778: "GOQw\N{LATIN CAPITAL LETTER O WITH STROKE}",
    834: "M\N{VULGAR FRACTION ONE HALF}",
    889: "%m",
    1015: "@W\N{EM DASH}\N{HORIZONTAL ELLIPSIS}",
}
"""Widths of characters of Liberation Sans in thousandths of its size; any other is as wide as a figure."""
_WIDTHS = [{each: width / 1000.0 for width, chars in face.items() for each in chars} for face in (_PLAIN, _BOLD)]
_SPACE, _FIGURE = 0.278, 0.556


@lru_cache(maxsize=4096)
def text_width(text: str, scale: float = 1.0, *, bold: bool = False) -> float:
    """Width of a text; what another alphabet may need is allowed for."""
    widths = _WIDTHS[bold]
    return scale * sum(widths.get(each, _FIGURE if each.isascii() else 1.0) for each in text)


def _words(markup: Markup) -> list[tuple[float, float]]:
    """Width and height of each piece that a line's end does not part."""
    out: list[tuple[float, float]] = []
    kinds: list[str] = []
    joined: list[float] | None = None
    at = 0
    for tag in [*_TAG.finditer(markup), None]:
        text = Markup(markup[at : None if tag is None else tag.start()]).unescape()
        scale = _BIG if "size" in kinds else 1.0
        bold = bool({"size", "b", "strong"} & set(kinds))
        whole = {"size", "n", "small"} & set(kinds)
        pieces = [text] if whole else text.split()
        for piece in filter(str.strip, pieces):
            one = (text_width(piece, scale, bold=bold), scale * 1.02 if scale > 1.0 else 0.0)
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


def text_height(markup: Markup, wide: float, line: float, last: float = 0.0, tall: float = 0.0) -> float:
    """Height of words set in a column; `last` and `tall` are width and height of what follows them in one piece."""
    lines: list[float] = []
    used = wide + 1.0
    for width, height in [*_words(markup), *([(last, tall)] if last else [])]:
        if used + _SPACE + width > wide:
            lines.append(line)
            used = width
        else:
            used += _SPACE + width
        lines[-1] = max(lines[-1], height)
    return sum(lines)


def row_height(row: Row, column: float, line: float) -> float:
    """Height of a row in the column beside a feed's setting."""
    if row.kind == "failed":
        return text_height(row.what, (column - 1.0) / 1.07, line) + _ROW
    column -= _NO + _GAP
    if row.go is not None:
        return 2 * _BIG_LINE + _ROW
    if row.places:
        return text_height(row.what, column, line) + _BIG_LINE * len(row.places) + _ROW
    dial = 0.0
    if row.dial:
        dial = text_width(row.start) - _NEAR + sum(text_width(each, _BIG, bold=True) + _APART for each in row.dial)
    lines = math.ceil(dial / column)
    large = 0.05 if 'class="box"' in row.what and 'class="size"' in row.what else 0.0
    said = text_height(row.what, column, line, min(dial, column), _BIG_LINE)
    return said + large + _BIG_LINE * max(0, lines - 1) + _ROW


def cell_height(cell: Cell, wide: float, paper: Paper) -> float:
    """Height of a feed cell with its rows, and with what is told above them."""
    told = sum(text_height(row.what, paper.wide - 1.2, paper.line) + _ROW for above, _ in cell.parts for row in above)
    rows = _beside(cell, wide, paper)
    rest = sum(_rows_height(rows, wide, paper) for _, rows in cell.parts[1:])
    return told + max(set_height(cell.feed, rows, wide), rows) + rest + 0.09


def _beside(cell: Cell, wide: float, paper: Paper) -> float:
    """Height of the rows beside what a cell's setting says."""
    return _rows_height(cell.parts[0][1], wide, paper)


def _rows_height(rows: Iterable[Row], wide: float, paper: Paper) -> float:
    column = paper.wide - (wide or _SET) - _PAD
    return sum(row_height(row, column, paper.line) for row in rows)


def set_height(feed: Feed, rows: float, wide: float) -> float:
    """Height of a setting beside rows of a height; what the levers give is left out where there is no room for it."""
    texts = [text_width(f"{control} ") + text_width(setting, _BIG, bold=True) for control, setting in feed.levers]
    if wide:
        levers = 0.22 + _LEVER * bool(texts)
    else:
        levers = 0.22 + sum(_LEVER * math.ceil(width / (_SET - 0.1)) for width in texts)
    gives = 1.2 * len(feed.gives)
    return levers if feed.levers and rows < levers + gives else levers + gives


def laid(bar: Bar, paper: Paper) -> Bar:
    """A bar with the levers of its feeds above each other or beside each other, whichever is less tall."""
    need = max(_abreast(cell.feed) for cell in bar.cells)
    if not _SET < need <= _WIDEST_SET:
        return bar
    narrow, abreast = (sum(cell_height(cell, way, paper) for cell in bar.cells) for way in (0.0, need))
    return replace(bar, wide=need if abreast < narrow - 0.2 else 0.0)


def _abreast(feed: Feed) -> float:
    """Width of the levers of a feed beside each other."""
    widths = [text_width(f"{control} ") + text_width(to, _BIG, bold=True) for control, to in feed.levers]
    return math.ceil(10.0 * (sum(widths) + _BESIDE * (len(widths) - 1) + 0.35)) / 10.0


def settled(bars: Iterable[Bar], paper: Paper) -> tuple[Bar, ...]:
    """Bars as they are printed: what a feed's levers give is left out beside rows that are not as tall."""

    def printed(cell: Cell, wide: float) -> Cell:
        rows = _beside(cell, wide, paper)
        kept = set_height(cell.feed, rows, wide) > set_height(Feed(cell.feed.levers), rows, wide)
        return cell if kept else Cell(Feed(cell.feed.levers), cell.rows)

    return tuple(replace(bar, cells=tuple(printed(cell, bar.wide) for cell in bar.cells)) for bar in bars)


def bars_height(bars: Sequence[Bar], paper: Paper) -> float:
    """Height of spindle bars with all that hangs on them."""
    cells = (cell_height(cell, bar.wide, paper) for bar in bars for cell in bar.cells)
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
        for cell in _parted(bar, later - _BAR, paper):
            on_page = bool(pages[-1]) and pages[-1][-1].spindle == bar.spindle
            tall = cell_height(cell, bar.wide, paper)
            if pages[-1] and tall + (0.0 if on_page else _BAR) > left:
                pages.append([])
                left, on_page = later, False
            if on_page:
                pages[-1][-1] = replace(bar, cells=(*pages[-1][-1].cells, cell))
            else:
                pages[-1].append(replace(bar, cells=(cell,)))
            left -= tall + (0.0 if on_page else _BAR)
    return [tuple(page) for page in pages]


def _parted(bar: Bar, most: float, paper: Paper) -> Iterable[Cell]:
    """Cells, one that is taller than a page parted between its operations."""
    for cell in bar.cells:
        rows: list[Row] = []
        for row in cell.rows:
            starts = row.told or (row.number is not None and not (rows and rows[-1].told))
            tall = cell_height(Cell(cell.feed, (*rows, row)), bar.wide, paper)
            if rows and starts and tall > most:
                yield Cell(cell.feed, tuple(rows))
                rows = []
            rows.append(row)
        yield Cell(cell.feed, tuple(rows))
