"""How long a lot takes as a person plans it: ranges, the first piece apart, spares; and an order that saves stops."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Protocol

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.fixed import Value
from halfnut.planning.walking import as_walked

if TYPE_CHECKING:
    from halfnut.machine.machines import Machine
    from halfnut.planning.answers import Answer
    from halfnut.planning.job import Job, Operation, Part
    from halfnut.planning.stock import CutList
    from halfnut.planning.walking import JobMistake

__all__ = [
    "Order",
    "Planned",
    "Span",
    "better_order",
    "first_piece",
    "further_piece",
    "lot",
    "measured_pieces",
    "spares",
]

# Source of this file's figures: common practice of one-off shops; doubted, so that only ranges are told.
_FIRST = (2.0, 4.0)  # set-up and first piece, over its time at the machine
_FURTHER = (1.3, 1.6)  # each further piece: chucking, deburring, looking
_ROUND_S = 300.0
_SPARE_SHARE = 0.05
_SPARE_FROM = 10  # up to so many pieces one spare
_EVERY = 5  # of further pieces one is measured wholly
_LEAST_GAIN_S = 60.0  # another order is worth a word from here on
# Operations that may change places among themselves; source: the order that apprentices are taught.
_FREE = ({"turn", "taper", "groove", "bore", "spot", "drill", "countersink", "counterbore"}, {"mill"})
_MOST_TRIED = 400  # orders that are walked for one part


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


def first_piece(time_s: float) -> Span:
    """Set-up and first piece.

    >>> str(first_piece(1200.0))
    '40 min to 1 h 20 min'
    """
    return Span(_FIRST[0] * time_s, _FIRST[1] * time_s)


def further_piece(time_s: float) -> Span:
    """Each piece after the first."""
    return Span(_FURTHER[0] * time_s, _FURTHER[1] * time_s)


def lot(time_s: float, quantity: int) -> Span:
    """All pieces, the first with its set-up."""
    more = quantity - 1
    return first_piece(time_s) + Span(more * _FURTHER[0] * time_s, more * _FURTHER[1] * time_s)


def spares(quantity: int) -> int:
    """Pieces more to saw than are wanted.

    >>> spares(8), spares(10), spares(200)
    (1, 1, 10)
    """
    return 1 if quantity <= _SPARE_FROM else math.ceil(_SPARE_SHARE * quantity)


def measured_pieces(quantity: int) -> tuple[int, ...]:
    """Which pieces are measured wholly: the first, then every fifth.

    >>> measured_pieces(12)
    (1, 6, 11)
    """
    return tuple(range(1, quantity + 1, _EVERY))


class Planned(Protocol):
    """An operation with its answer, as far as its place among others needs it."""

    @property
    def number(self) -> int:
        """Its number."""

    @property
    def step(self) -> Operation:
        """What the job says of it."""

    @property
    def machine(self) -> Machine:
        """Where it is done."""

    @property
    def answer(self) -> Answer | None:
        """The core's answer."""

    @property
    def mistakes(self) -> tuple[JobMistake, ...]:
        """What the walk finds wrong with it."""

    @property
    def walked(self) -> Mapping[str, Any]:
        """What it came to."""


@dataclass(frozen=True)
class Order(Value):
    """Another order of a part's operations: their numbers, and what it saves of a piece."""

    numbers: tuple[int, ...]
    saves_s: float
    saves_stops: int


def _cost(operations: Sequence[Planned]) -> tuple[float, int]:
    """Seconds and stops of the levers that are moved from operation to operation."""
    seconds, stops = 0.0, 0
    before: Mapping[tuple[str, str], Any] = {}
    for op in operations:
        if op.answer is None:
            continue
        first = {(op.machine.name, each.group): each for each in op.answer.levers if each.positions}
        for key, each in first.items():
            if before.get(key) != each.positions:
                core = op.machine.core
                seconds += core.stop_change_s if each.stop else core.lever_change_s
                stops += each.stop
        left = op.answer.levers if op.answer.left is None else op.answer.left
        before = {**before, **{(op.machine.name, each.group): each.positions for each in left if each.positions}}
    return seconds, stops


def _fewest_stops(operations: Sequence[Planned]) -> int:
    """Stops that no order does without: one for each setting of each machine's spindle."""
    settings = {
        (op.machine.name, each.group, each.positions)
        for op in operations
        if op.answer is not None
        for each in op.answer.levers
        if each.stop and each.positions
    }
    return len(settings)


_SAME = ("from_mm", "to_mm", "start_mm", "hole_mm", "hole_deep_mm", "through")


def better_order(job: Job, part: Part, planned: Sequence[Planned], stock: CutList | None) -> Order | None:
    """An order of a part's operations that moves fewer levers and leaves every cut as it is; None where none is found.

    Only operations of one holding change places, and of them none that the trade keeps where it is: a knurl before
    what is slender or close, threads, reamed and tapped holes after the rest, milled shapes before holes. Each order is
    walked: an operation that would meet other work, or a mistake that was not there, rules it out. The person's order
    is kept; this one is offered.
    """
    operations = list(planned)
    now_s, now_stops = _cost(operations)
    if any(op.answer is None for op in operations) or now_stops <= _fewest_stops(operations):
        return None
    blank = None if stock is None else stock.blank_mm
    wanted = {op.number: [op.walked[name] for name in _SAME] for op in operations}
    told = {(each.operation, each.code) for op in operations for each in op.mistakes}
    tried = 0

    def stays(order: Sequence[Planned]) -> bool:
        steps = [op.step for op in order]
        changed = part.model_copy(update={"operations": tuple(steps)})
        found = _core.walk_job([as_walked(job, changed, blank)], active())["parts"][0]
        numbers = [op.number for op in order]
        same = all(
            [walked[name] for name in _SAME] == wanted[number]
            for number, walked in zip(numbers, found["operations"], strict=True)
        )
        mistakes = {
            (numbers[each["operation"] // 10 - 1], each["code"]) for each in found["mistakes"] if each["operation"]
        }
        return same and mistakes <= told

    best, best_s, best_stops = operations, now_s, now_stops
    moved = True
    while moved and tried < _MOST_TRIED:
        moved = False
        for order in _single_moves(best):
            seconds, stops = _cost(order)
            if seconds >= best_s - 1e-9:
                continue
            tried += 1
            if stays(order):
                best, best_s, best_stops, moved = order, seconds, stops, True
                break
    if now_s - best_s < _LEAST_GAIN_S and now_stops == best_stops:
        return None
    return Order(tuple(op.number for op in best), now_s - best_s, now_stops - best_stops)


def _single_moves(operations: list[Planned]) -> list[list[Planned]]:
    """Orders in which one operation stands elsewhere within its holding."""

    def held(op: Planned) -> tuple[Any, ...]:
        return op.machine.name, op.step.end, op.step.holding, op.step.grips, op.walked["after"]["held"]["setting"]

    out = []
    for place, op in enumerate(operations):
        for other in range(len(operations)):
            low, high = sorted((place, other))
            crossed = operations[low : high + 1]
            kinds = {each.step.do for each in crossed}
            if (
                place != other
                and any(kinds <= free for free in _FREE)
                and all(held(each) == held(op) for each in crossed)
            ):
                order = operations[:place] + operations[place + 1 :]
                order.insert(other, op)
                out.append(order)
    return out
