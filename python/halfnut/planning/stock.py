"""Cutting stock up: how long each blank is, how many a bar gives, and what is left."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from halfnut import _core
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

    def to_dict(self) -> dict[str, float | int | None]:
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
    found = _core.cut_up(
        length_mm,
        quantity,
        kerf_mm=kerf_mm,
        facing_mm=facing_mm,
        stub_mm=grip_mm,
        pieces=pieces,
        bar_mm=math.nan if bar_mm is None else bar_mm,
    )
    return CutList(pieces_a_blank=pieces, kerf_mm=kerf_mm, facing_mm=facing_mm, grip_mm=grip_mm, **found)


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
    return tuple(Bar(sawn, left_mm) for sawn, left_mm in _core.first_fit(list(blanks), bar_mm))
