"""Where on a sheet each caution is told, so that it is told once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.questions import Answered
from halfnut.core.record import Caution, Rank
from halfnut.core.words import by_rank, of_the_piece
from halfnut.sheet import figures

if TYPE_CHECKING:
    from halfnut.cutting.figures import Holding
    from halfnut.planning.answers import Answer
    from halfnut.planning.job import Step
    from halfnut.planning.plans import PlannedPart

__all__ = ["Told"]
_TELLING_MM = 0.005
"""Error of the diameter from which a sheet tells that work deflects."""


class Told(NamedTuple):
    """A danger, caution or note as a sheet tells it."""

    rank: Rank
    label: str
    text: str


def sentence(text: str) -> str:
    """A text with a capital in front.

    >>> sentence("take up backlash")
    'Take up backlash'
    """
    return text[:1].upper() + text[1:]


def counted(number: int, one: str) -> str:
    """A number with its noun.

    >>> counted(1, "piece"), counted(8, "piece")
    ('1 piece', '8 pieces')
    """
    return f"{number} {one}{'' if number == 1 else 's'}"


def title_of(part: PlannedPart) -> str:
    """What a part is called on paper."""
    return part.part.title or part.part.name


def told(item: Caution, also: Sequence[int] = ()) -> Told:
    """A caution as a sheet tells it; `also` are the numbers of other operations that it goes with."""
    where = f" Also at {', '.join(map(str, also))}." if also else ""
    return Told(item.rank, item.label, f"{sentence(item.text)}.{where}")


def filled(of: object, template: str, unit: str) -> str | None:
    """A template with the figures of an answer, or of a value of plain ones; None where it lacks one."""
    return of.filled(template, unit) if isinstance(of, Answered) else _core.filled(template, vars(of), unit, active())


def worded(step: Step, template: str, unit: str, *, bare: bool = False, **more: str | None) -> str:
    """A template of a kind of operation with its keys and `more`; `bare` leaves the unit out, as a card does."""
    keys = {key: more.get(key) or step.text(key) or None for key in (*step, *more)}
    for key in step:
        if (size := step.size(key)) is not None:
            keys[key] = figures.length(size.base, unit) + ("" if bare else f" {unit}")
    return _core.filled(template, keys, unit, active()) or ""


def of_the_whole(part: PlannedPart) -> list[Caution]:
    """What is told once at a part's head: its metal, its finish, and what goes with most of its operations."""
    at_once = [each for op in part.operations for each in op.told if of_the_piece(each.code)]
    return by_rank([*part.standing, *at_once])


def at_operations(part: PlannedPart, heading: Sequence[Caution]) -> dict[int, list[Told]]:
    """By its number, what each operation is the first to tell."""
    places: dict[Caution, list[int]] = {}
    for op in part.operations:
        for each in op.told:
            if each not in heading:
                places.setdefault(each, []).append(op.number)
    out: dict[int, list[Told]] = {}
    for each in by_rank(places):
        first, *others = places[each]
        out.setdefault(first, []).append(told(each, () if each.rank == "note" else others))
    return out


def gives_way(found: Answer) -> Holding | None:
    """How turned work deflects, where it does so enough to tell."""
    held = found.holding
    if held is None:
        return None
    codes = {each.code for each in held.cautions}
    tells = 2 * held.bend.worst_mm >= _TELLING_MM or codes & {"slender", "thin_wall", "warm_size"}
    return held if tells else None
