"""From a planned part to its cards: a page a setup, parted where it overflows."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.words import by_rank
from halfnut.sheet import figures
from halfnut.sheet.card import Bar, Card, Row, Turned, bars, ticks
from halfnut.sheet.layout import said
from halfnut.sheet.outline import WIDE, drawn, held_work
from halfnut.sheet.paper import Paper, bars_height, laid, settled, split, text_height, text_width
from halfnut.sheet.rows import moves
from halfnut.sheet.telling import sentence, title_of

if TYPE_CHECKING:
    from halfnut.planning.job import Job
    from halfnut.planning.plans import PlannedOperation, PlannedPart

__all__ = ["Setup"]

_FEW = 3
"""Operations of a setup that stands at the foot of the one before."""
_CAUTIONS = 3
"""Cautions on a card, most; dangers are all told."""
_BETWEEN = {"soft jaws", "strip", "split ring"}
"""What stands between a chuck and the work, and is put there first."""
_HEAD, _HOLD, _FOOT = 1.85, 0.4, 4.45
_HEADING = 1.9
_PICTURE, _GUTTER = 0.58, 0.6
"""Share of a card's width that the outline has, and what is free beside it."""


@dataclass(frozen=True)
class Setup:
    """Operations done in one holding of the work at one machine."""

    number: int
    holding: str
    operations: tuple[PlannedOperation, ...]

    @property
    def machine(self) -> str:
        """The machine's name."""
        return self.operations[0].machine.name

    @property
    def held(self) -> Mapping[str, Any]:
        """How the walk through the job finds it held."""
        found: Mapping[str, Any] = self.operations[0].walked["after"]["held"]
        return found

    @property
    def end(self) -> str:
        """Which end of the work is free."""
        return str(self.held["end"])


def setups(part: PlannedPart) -> list[Setup]:
    """The holdings of a part, in order, as the walk through the job counts them."""
    groups = groupby(part.operations, key=lambda op: (op.walked["after"]["held"]["setting"], op.machine.name))
    out: list[Setup] = []
    for _, group in groups:
        ops = tuple(group)
        holding = next((op.step.holding for op in ops if op.step.holding), "")
        out.append(Setup(len(out) + 1, holding, ops))
    return out


def cards_of(job: Job, part: PlannedPart, paper: Paper) -> list[Card]:
    """The cards of a part."""
    out: list[Card] = []
    found = setups(part)
    told = _told(part, found)
    place = 0
    while place < len(found):
        setup = found[place]
        places = _bars(part, setup, told, paper)
        held, (picture, tall) = _holding(part, setup), _outline(part, setup)
        hold = said("hold", part, setup.number, stock_size(part), sawn(part), held)
        small = _small(job, part, setup, len(found))
        after = said("after", job.coatings.get(part.part.coating or ""))
        noted = said("noted", after, part.part.note) if setup.number == 1 else after
        room = paper.tall - _FOOT - _head(part, small, paper)
        later, column = room - paper.line - _HOLD, paper.wide * (1.0 - _PICTURE) - _GUTTER if tall else paper.wide
        high = text_height(hold, column, paper.line)
        first = room - max(high, tall * _PICTURE * paper.wide / WIDE) - _HOLD
        first -= text_height(noted, paper.wide, paper.line, _done_width(part)) - paper.line
        pages = split(places, first, later, paper)
        turned = None
        if place + 1 < len(found) and len(found[place + 1].operations) <= _FEW:
            following = found[place + 1]
            machine = following.machine if following.machine != setup.machine else ""
            heading = said("turned_round", machine, _holding(part, following))
            short = Turned(heading, _bars(part, following, told, paper))
            used = bars_height(pages[-1], paper) + bars_height(short.bars, paper) + _HEADING
            if used <= (first if len(pages) == 1 else later):
                turned = Turned(short.heading, settled(short.bars, paper))
        for number, page in enumerate(pages):
            out.append(
                Card(
                    title=title_of(part),
                    small=small,
                    hold=hold if not number else Markup("Held as on card 1."),
                    outline=picture if not number else Markup(""),
                    bars=settled(page, paper),
                    after=after if number else noted,
                    pieces=part.part.quantity,
                    unit=part.unit,
                    count=(number + 1, len(pages)),
                    turned=turned if number == len(pages) - 1 else None,
                )
            )
        place += 1 + (turned is not None)
    return out


def _outline(part: PlannedPart, setup: Setup) -> tuple[Markup, float]:
    """The work of a lathe as it is held; nothing where it is not known how far it stands out."""
    out = stands_out(setup)
    held = None if out is None else held_work(setup.operations, out, part.unit)
    return (Markup(""), 0.0) if held is None else drawn(held, f"{title_of(part)}, {setup.end} end, as it is held")


def _head(part: PlannedPart, small: str, paper: Paper) -> float:
    """Height of the first line, of several where the part's name is long."""
    title, beside = text_width(title_of(part), 1.4, bold=True), text_width(f"{small}, card 1 of 2") + 1.2
    lines = math.ceil(title / paper.wide)
    alone = title - (lines - 1) * paper.wide + beside > paper.wide
    return _HEAD + 1.5 * (lines - 1) + paper.line * alone


def _bars(part: PlannedPart, setup: Setup, told: dict[int, list[Row]], paper: Paper) -> tuple[Bar, ...]:
    found = bars(move for op in setup.operations for move in moves(part, op, told.get(op.number, ())))
    return tuple(laid(bar, paper) for bar in found)


def _small(job: Job, part: PlannedPart, setup: Setup, of: int) -> str:
    number = " ".join(filter(None, (part.part.number, job.revision)))
    where = f"setup {setup.number} of {of}" if of > 1 else ""
    return ", ".join(filter(None, (number, setup.machine, where)))


def _told(part: PlannedPart, found: Sequence[Setup]) -> dict[int, list[Row]]:
    """What stands above the rows of each operation: every danger once, and of cautions one a row, three a setup."""
    out: dict[int, list[Row]] = {}
    known: set[str] = set()
    for setup in found:
        left = _CAUTIONS
        for op in setup.operations:
            of_part = part.standing if op is part.operations[0] else ()
            fresh = [each for each in by_rank([*of_part, *op.told]) if each.code not in known]
            dangers = list({each.code: each for each in fresh if each.rank == "danger"}.values())
            cautions = [each for each in fresh if each.rank == "caution"][: min(1, left)]
            left -= len(cautions)
            known.update(each.code for each in [*dangers, *cautions])
            out[op.number] = [
                Row("danger" if each.rank == "danger" else "caution", said("caution", each))
                for each in [*dangers, *cautions]
            ]
    return out


# ---- how the work is held ----------------------------------------------------------------------------------


def _holding(part: PlannedPart, setup: Setup) -> Markup:
    """What holds it, and how far it stands out."""
    held = []
    if setup.end == "second" and part.part.operations[0].end != "second":
        held.append("turned round")
    grips, on = setup.held, ""
    if grips["diameter_mm"]:
        size = f"{grips['surface']} Ø {figures.size(grips['diameter_mm'], part.unit)}"
        on = f" on the {part.part.stock.form if grips['surface'] == 'stock' else size}"
    holders = (setup.holding, grips["grip"] if grips["grip"] in _BETWEEN else "")
    held += [f"{', '.join(filter(None, holders))}{on}"] if any(holders) else []
    if any(op.step.text("hold") == "chuck and centre" for op in setup.operations):
        held.append("centre")
    if part.part.stock.through_spindle:
        held.append("bar through the spindle")
    out = stands_out(setup)
    return said("holding", sentence(", ".join(held)), None if out is None else _to_rule(out, part.unit))


def stands_out(setup: Setup) -> float | None:
    """How far the work stands out of what holds it, mm: the most that an operation of the setup says or needs."""
    if setup.operations[0].machine.kind != "lathe":
        return None
    found = [op.walked["overhang_mm"] for op in setup.operations]
    return max((each for each in found if each is not None), default=None)


def stock_size(part: PlannedPart) -> str:
    """The stock's section, as it is asked for."""
    given = part.part.stock
    sizes = (given.diameter, given.bore, given.across_flats, given.thickness, given.width)
    across = " × ".join(figures.length(each.base, part.unit) for each in sizes if each is not None)
    return f"{across} across flats" if given.form == "hexagon" else across


def sawn(part: PlannedPart) -> str:
    """How long a blank is sawn, never short: to the next sixteenth of an inch or half millimetre."""
    step = MM_PER_INCH / 16.0 if part.unit == "in" else 0.5
    blank_mm = 0.0 if part.stock is None else part.stock.blank_mm
    return figures.length(math.ceil(blank_mm / step - 1e-6) * step, part.unit)


def _to_rule(value_mm: float, unit: str) -> str:
    """A length that is set by a rule."""
    step = MM_PER_INCH / 16.0 if unit == "in" else 1.0
    return figures.length(math.ceil(value_mm / step - 1e-6) * step, unit)


def _done_width(part: PlannedPart) -> float:
    """Width of the boxes that count the pieces."""
    boxes = len(ticks(part.part.quantity))
    return text_width("Done ") + (1.7 * boxes if boxes else 2.95 + text_width(f" of {part.part.quantity}"))
