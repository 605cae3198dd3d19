"""What a person reads beside the numbers, by code: from the core's tables `core/cautions` and `core/words`."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, Literal

from halfnut.core.catalogue import active

Rank = Literal["danger", "caution", "note"]
RANKS: tuple[Rank, ...] = ("danger", "caution", "note")
"""What a caution can come to, the gravest first: someone is hurt; work, tool or machine suffers; good to know."""


@dataclass(frozen=True)
class Caution:
    """A warning that goes with a result: its code, the words a person reads, and how grave it is."""

    code: str
    text: str
    rank: Rank
    gravity: float = field(default=0.0, compare=False, repr=False)
    """Of cautions with one code and other figures the one with the greatest is the gravest."""

    @property
    def label(self) -> str:
        """What stands before the words on every face: DANGER, CAUTION or note."""
        return self.rank if self.rank == "note" else self.rank.upper()

    def to_dict(self) -> dict[str, str]:
        """The caution as JSON answers hold it."""
        return {"code": self.code, "rank": self.rank, "text": self.text}

    def __str__(self) -> str:
        return self.text


class CautionLine(str):
    """A caution's line on a terminal; it knows its rank, which its colour goes by."""

    rank: Rank

    def __new__(cls, caution: Caution) -> CautionLine:
        """The line of a caution."""
        line = super().__new__(cls, f"  {caution.label}: {caution.text}")
        line.rank = caution.rank
        return line


def words(of: str, code: str, **figures: Any) -> str:
    """A text by its list and code, its places filled with `figures`.

    >>> words("limit", "tool_life"), words("relaxed", "torque", factor=2)
    ('tool life', '2 times the torque')
    """
    return active().words(of, code, figures)


def caution(code: str, *, gravity: float = 0.0, **figures: Any) -> Caution:
    """A caution by its code; `figures` fill the places in its text, `gravity` tells how grave they are.

    >>> caution("hazard_lead_dust").rank
    'caution'
    """
    rank, text = active().caution(code, figures)
    return Caution(code, text, rank, gravity)


def of_the_piece(code: str) -> bool:
    """Whether a caution goes with the whole piece, its metal or its finish, and not with one operation.

    >>> of_the_piece("hazard_lead_dust"), of_the_piece("coat_etch"), of_the_piece("coat_allowance_short")
    (True, True, False)
    """
    return active().of_the_piece(code)


def by_rank(cautions: Iterable[Caution]) -> list[Caution]:
    """Every caution once, the gravest first.

    >>> [item.rank for item in by_rank([caution("backlash"), caution("part_centre"), caution("backlash")])]
    ['danger', 'note']
    """
    return sorted(dict.fromkeys(cautions), key=lambda item: RANKS.index(item.rank))


def caution_lines(cautions: Iterable[Caution], *, defer: bool = False) -> list[str]:
    """The lines in which every answer tells its cautions.

    Parameters
    ----------
    cautions : iterable of Caution
        What the answer cautions of, in any order, also twice.
    defer : bool
        For an answer at the machine: where one is more than a note, what comes before Halfnut's figures stands last.

    >>> caution_lines([caution("backlash"), caution("fire_speed")])[0]
    '  DANGER: the speed asked for can set chips on fire: held to 213 m/min (700 ft/min)'
    """
    told = by_rank(cautions)
    out: list[str] = [CautionLine(item) for item in told]
    first = [f"  {words('said', 'first')}"] if defer and any(item.rank != "note" for item in told) else []
    return out + first
