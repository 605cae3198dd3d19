"""What a card shows: settings as its skeleton, rows inside them; every text is formatted, a template lays it out."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from markupsafe import Markup, escape

from halfnut.core.text import shown

__all__ = ["Bar", "Card", "Cell", "Feed", "Go", "Move", "Row", "Spindle", "Turned"]
_BOXES = 12
"""Pieces that have a box each to tick."""

Setting = tuple[tuple[str, str], ...]
"""What stands on a machine's plates, in the order a hand reaches for it: what is set, and where to."""


@dataclass(frozen=True)
class Spindle:
    """The spindle: its speed in rev/min, or in words, and where its levers stand."""

    rpm: str
    levers: Setting = ()


@dataclass(frozen=True)
class Feed:
    """The feed or the gearbox: where its levers stand, and what that gives."""

    levers: Setting = ()
    gives: tuple[str, ...] = ()


@dataclass(frozen=True)
class Go:
    """What a thread reads, and how much further its dial is to go."""

    read: str
    readings: tuple[str, ...]
    to_go: tuple[str, ...]


@dataclass(frozen=True)
class Row:
    """A row of a card.

    `start` says where a dial is zeroed, `dial` what it is to show. A measuring row has boxes in `what`.
    """

    kind: Literal["cut", "measure", "caution", "danger", "failed"]
    what: Markup
    number: int | None = None
    start: str = ""
    dial: tuple[str, ...] = ()
    go: Go | None = None
    places: tuple[Markup, ...] = ()
    """Of holes, the cells of a line each: its number, and where it is on either axis."""

    @property
    def told(self) -> bool:
        """Whether it warns of the row below."""
        return self.kind in {"caution", "danger"}


@dataclass(frozen=True)
class Move:
    """Rows done with the levers in one place."""

    spindle: Spindle
    feed: Feed
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Cell:
    """Rows of one feed setting."""

    feed: Feed
    rows: tuple[Row, ...]

    @property
    def parts(self) -> tuple[tuple[tuple[Row, ...], tuple[Row, ...]], ...]:
        """Rows beside the setting, each lot with what is told above it, which has the whole width of the card."""
        lots = [tuple(lot) for _, lot in groupby(self.rows, key=lambda row: row.told)]
        if not self.rows[0].told:
            lots.insert(0, ())
        return tuple(itertools.zip_longest(lots[::2], lots[1::2], fillvalue=()))


@dataclass(frozen=True)
class Bar:
    """Cells of one spindle setting."""

    spindle: Spindle
    cells: tuple[Cell, ...]
    wide: float = 0.0
    """Width of the levers of its feeds where they stand beside each other, which saves a line where rows are short."""


@dataclass(frozen=True)
class Turned:
    """A short setup at the foot of the one before: how the work is turned round and held, and its bars."""

    heading: Markup
    bars: tuple[Bar, ...]


@dataclass(frozen=True)
class Card:
    """A page: a part in one setup, or what fits of it."""

    title: str
    small: str
    hold: Markup
    outline: Markup
    bars: tuple[Bar, ...]
    after: Markup
    pieces: int
    unit: str
    """Of its sizes, and of a reading that says none: in or mm."""
    count: tuple[int, int] = (1, 1)
    """Which card of how many of this setup."""
    turned: Turned | None = None


def bars(moves: Iterable[Move]) -> tuple[Bar, ...]:
    """Rows under the settings that hold for them: a setting is printed once over all of them."""
    return tuple(
        Bar(
            spindle,
            tuple(
                Cell(feed, tuple(row for move in same for row in move.rows))
                for feed, same in groupby(of_spindle, key=lambda move: move.feed)
            ),
        )
        for spindle, of_spindle in groupby(moves, key=lambda move: move.spindle)
    )


_PARTED = re.compile(r"\S*\d (?:in|mm)\b\S*|\S*-\S*")
_POINTED = re.compile(r"(?<![\w.·-])-?(?:\d+·)?\d*\.\d+")


def firm(text: str) -> Markup:
    """Text whose figures with a decimal point are bold: a thin point is what a photocopy loses first."""
    pieces = re.split(r"(<[^>]*>)", escape(text))
    bold = [each if each.startswith("<") else _POINTED.sub(r"<b>\g<0></b>", each) for each in pieces]
    return Markup("".join(bold))


def unparted(text: str) -> Markup:
    """A text in which no line's end comes between a number and its unit, or at a hyphen."""
    return Markup(_PARTED.sub(r'<span class="n">\g<0></span>', str(escape(shown(text)))))


def ticks(pieces: int) -> range:
    """Pieces that have a box each."""
    return range(1, pieces + 1 if pieces <= _BOXES else 1)
