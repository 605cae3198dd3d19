"""How long a lot takes as a person plans it: ranges, the first piece apart, spares; and an order that saves stops."""

from __future__ import annotations

from dataclasses import dataclass

from halfnut import _core
from halfnut.core.fixed import Value

__all__ = ["Lot", "Order", "Span", "lot"]
_ROUND_S = 300.0


@dataclass(frozen=True)
class Span(Value):
    """A time from least to most, in seconds."""

    least_s: float
    most_s: float

    def __add__(self, other: Span) -> Span:
        return Span(self.least_s + other.least_s, self.most_s + other.most_s)

    @property
    def minutes(self) -> str:
        """The same in minutes alone: "65 to 130 min"."""
        low, high = (max(5, round(each / _ROUND_S) * 5) for each in (self.least_s, self.most_s))
        return f"{low} min" if low == high else f"{low} to {high} min"

    def __str__(self) -> str:
        """Rounded to five minutes: "45 to 55 min", "1 h 5 min to 2 h"; below five minutes as that."""
        low, high = (round(each / _ROUND_S) * 5 for each in (self.least_s, self.most_s))
        if high < 5:
            return "under 5 min"
        low = max(low, 5)
        if low == high:
            return _hours(low)
        return f"{low} to {high} min" if high < 60 else f"{_hours(low)} to {_hours(high)}"


def _hours(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    return " ".join([f"{hours} h"] * bool(hours) + [f"{rest} min"] * bool(rest or not hours))


@dataclass(frozen=True)
class Lot(Value):
    """Times of a lot, pieces more to saw than are wanted, and which pieces are measured wholly."""

    first: Span
    """Set-up and first piece."""
    further: Span
    """Each piece after it."""
    whole: Span
    """All pieces, the first with its set-up."""
    spares: int
    measured: tuple[int, ...]


def lot(time_s: float, quantity: int) -> Lot:
    """A lot of pieces that take a time each at the machine.

    Parameters
    ----------
    time_s : float
        At the machine for one piece, s.
    quantity : int
        Pieces that are wanted.

    Returns
    -------
    Lot
        Ranges in s; numbers of the measured pieces from 1.

    Examples
    --------
    >>> found = lot(1200.0, 12)
    >>> str(found.first), found.spares, found.measured
    ('40 min to 1 h 20 min', 1, (1, 6, 11))
    """
    found = _core.lot_of(time_s, quantity)
    return Lot(**found | {name: Span(**found[name]) for name in ("first", "further", "whole")})


@dataclass(frozen=True)
class Order(Value):
    """Another order of a part's operations: their numbers, and what it saves of a piece.

    It moves fewer levers and leaves every cut as it is. Only operations of one holding change places, and of them
    none that the trade keeps where it is: a knurl before what is slender or close, threads, reamed and tapped holes
    after the rest, milled shapes before holes. The person's order is kept; this one is offered.
    """

    numbers: tuple[int, ...]
    saves_s: float
    saves_stops: int
