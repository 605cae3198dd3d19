"""Cutting stock up: how long each blank is, how many a bar gives, and what is left."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from halfnut._core import DomainError
from halfnut.core.fixed import Value

__all__ = ["Bar", "CutList", "cut_list", "first_fit"]


@dataclass(frozen=True)
class CutList(Value):
    """How a part's stock is cut up. Lengths in mm; counts of bars are None where no bar's length is given."""

    blank_mm: float
    blanks: int
    pieces_a_blank: int
    kerf_mm: float
    facing_mm: float
    grip_mm: float
    total_mm: float
    """Stock that the lot takes, saw cuts included."""
    blanks_a_bar: int | None = None
    bars: int | None = None
    left_mm: float | None = None
    """What the last bar leaves."""

    def to_dict(self) -> dict[str, Any]:
        """The list as a flat dictionary with unit-suffixed keys."""
        return {name: getattr(self, name) for name in self.__dataclass_fields__}


def cut_list(
    length_mm: float,
    quantity: int,
    *,
    kerf_mm: float = 0.0,
    facing_mm: float = 0.0,
    grip_mm: float = 0.0,
    pieces: int = 1,
    bar_mm: float | None = None,
) -> CutList:
    """How to cut stock up for a lot.

    A blank is as long as its pieces, the facing at either end of each, one kerf to part each piece off the stub
    that the chuck grips, and that stub. Without a stub and with one piece a blank, nothing is parted off.

    Parameters
    ----------
    length_mm : float
        Finished length of a piece.
    quantity : int
        Pieces wanted.
    kerf_mm : float
        Width of a cut, by the saw or the parting tool.
    facing_mm : float
        Left on for facing, at each end.
    grip_mm : float
        The stub that stays in the chuck, of each blank.
    pieces : int
        Pieces made from one blank.
    bar_mm : float, optional
        Length of the bars as bought.

    Raises
    ------
    DomainError
        One blank is longer than a bar.

    >>> cut_list(100.0, 8, kerf_mm=2.0, facing_mm=1.0, bar_mm=1000.0).blanks_a_bar
    9
    """
    parted = pieces if grip_mm > 0 else pieces - 1
    blank = pieces * (length_mm + 2 * facing_mm) + parted * kerf_mm + grip_mm
    blanks = math.ceil(quantity / pieces)
    if bar_mm is None:
        return CutList(blank, blanks, pieces, kerf_mm, facing_mm, grip_mm, blanks * (blank + kerf_mm))
    # the last blank needs no saw cut after it
    a_bar = math.floor((bar_mm + kerf_mm) / (blank + kerf_mm) + 1e-9)
    if a_bar < 1:
        raise DomainError(f"a blank of {blank:g} mm, for {pieces} of the part, is longer than the bar, {bar_mm:g} mm")
    bars = math.ceil(blanks / a_bar)
    last = blanks - (bars - 1) * a_bar
    left = max(0.0, bar_mm - last * (blank + kerf_mm))
    total = blanks * (blank + kerf_mm)
    return CutList(blank, blanks, pieces, kerf_mm, facing_mm, grip_mm, total, a_bar, bars, left)


@dataclass(frozen=True)
class Bar(Value):
    """A bar and what is sawn from it, in this order: names and lengths of blanks, mm; and what it leaves."""

    blanks: tuple[tuple[str, float], ...]
    left_mm: float


def first_fit(blanks: Iterable[tuple[str, float, float]], bar_mm: float) -> tuple[Bar, ...]:
    """Blanks laid over bars, the longest first, each on the first bar that it goes on.

    Parameters
    ----------
    blanks : iterable of (str, float, float)
        Name, length and saw cut of each, mm; the last blank of a bar needs no cut after it.
    bar_mm : float
        Length of a bar. Every blank must go on one.

    >>> [[name for name, _ in bar.blanks] for bar in first_fit([("a", 60, 2), ("b", 30, 2), ("c", 40, 2)], 100.0)]
    [['a', 'b'], ['c']]
    """
    bars: list[list[tuple[str, float]]] = []
    free: list[float] = []
    for name, length, kerf in sorted(blanks, key=lambda each: -each[1]):
        place = next((n for n, room in enumerate(free) if length <= room + 1e-9), None)
        if place is None:
            bars.append([])
            free.append(bar_mm)
            place = len(bars) - 1
        bars[place].append((name, length))
        free[place] -= length + kerf
    return tuple(Bar(tuple(each), max(0.0, room)) for each, room in zip(bars, free, strict=True))
