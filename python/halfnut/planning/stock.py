"""Cutting stock up: how long each blank is, how many a bar gives, and what is left."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from halfnut import _core
from halfnut.core.fixed import Value

__all__ = ["Bar", "CutList", "bars", "cut_list"]


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


def cut_list(part: Mapping[str, Any]) -> CutList:
    """How the stock of a job's part is cut up for its lot.

    A blank is as long as its pieces, the facing at either end of each, one kerf to part each piece off the stub
    that the chuck grips, and that stub. Without a stub and with one piece a blank, nothing is parted off.

    Parameters
    ----------
    part : mapping
        A part of a `Job`: stock, length, quantity and operations.

    Returns
    -------
    CutList
        Spares of the lot are not counted.

    Raises
    ------
    DomainError
        One blank is longer than a bar.
    """
    return CutList(**_core.cut_up(dict(part)))


@dataclass(frozen=True)
class Bar(Value):
    """A bar and what is sawn from it, in this order: names and lengths of blanks, mm; and what it leaves."""

    blanks: tuple[tuple[str, float], ...]
    left_mm: float

    @classmethod
    def of(cls, blanks: Iterable[Mapping[str, Any]], left_mm: float) -> Bar:
        """The bar as the core has it."""
        return cls(tuple((each["name"], each["length_mm"]) for each in blanks), left_mm)


def bars(job: Mapping[str, Any]) -> dict[str, tuple[Bar, ...]]:
    """What is sawn from which bar, by alloy and stock: longest blank first, each on the first bar with room.

    Of a lot the spares are not counted; stock without a length of its bars is left out.

    Parameters
    ----------
    job : mapping
        A `Job`.

    Returns
    -------
    dict
        Bars in the order of sawing, by texts of alloy and stock.
    """
    return {sawn["stock"]: tuple(Bar.of(**each) for each in sawn["bars"]) for sawn in _core.bars_of(dict(job))}
