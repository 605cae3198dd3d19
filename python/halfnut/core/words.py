"""What a person reads beside the numbers, by code: from the core's tables `core/cautions` and `core/words`."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable
from dataclasses import field
from typing import Literal

from halfnut.core.catalogue import active
from halfnut.core.fixed import made

Rank = Literal["danger", "caution", "note"]
RANKS: tuple[Rank, ...] = ("danger", "caution", "note")
"""What a caution can come to, the gravest first: someone is hurt; work, tool or machine suffers; good to know."""
_WIDTH = 90
_BEFORE_UNIT = re.compile(r" (?=(?:in|mm|um|m|ft|min|s|h|%|in²|mm²|[NW]|k[NW]|hp|lbf|[a-z]+/[a-z]+)(?:[\s,;:.)]|$))")
_NO_BREAK = "\N{NO-BREAK SPACE}"


@made(frozen=True)
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

    def __new__(cls, text: str, rank: Rank) -> CautionLine:
        """A line of a caution of that rank."""
        line = super().__new__(cls, text)
        line.rank = rank
        return line


def wrapped(text: str, head: str = "", under: str = "    ") -> list[str]:
    """A text in lines of a terminal, at most 90 characters each; no line begins with a unit.

    >>> wrapped("take up backlash", "  note: ")
    ['  note: take up backlash']
    >>> wrapped("major 0.5000 in", "x" * 77)[1]
    '    0.5000 in'
    """
    firm = _BEFORE_UNIT.sub(_NO_BREAK, text)
    lines = textwrap.wrap(firm, _WIDTH, initial_indent=head, subsequent_indent=under, break_on_hyphens=False)
    return [line.replace(_NO_BREAK, " ") for line in lines]


def _lines_of(item: Caution, more: str = "") -> list[str]:
    return [CautionLine(line, item.rank) for line in wrapped(item.text + more, f"  {item.label}: ")]


def words(of: str, code: str, **figures: object) -> str:
    """A text by its list and code, its places filled with `figures`.

    >>> words("limit", "tool_life"), words("relaxed", "torque", factor=2)
    ('tool life', '2 times the torque')
    """
    return active().words(of, code, figures)


def caution(code: str, *, gravity: float = 0.0, **figures: object) -> Caution:
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
    return [line for item in told for line in _lines_of(item)] + _deferral(told, defer)


def brief_lines(cautions: Iterable[Caution], *, defer: bool = False) -> list[str]:
    """The same for a short answer: every danger, the first caution of the cut, how many more there are.

    >>> brief_lines([caution("grabs"), caution("heavy_work", mass="40 kg"), caution("backlash")])
    ['  CAUTION: this material draws a sharp drill in: flatten the cutting lips (1 more: --why)']
    """
    told = [item for item in by_rank(cautions) if item.rank != "note"]
    dangers = [item for item in told if item.rank == "danger"]
    deferring = [item for item in told if item.code == "licensed"]
    rest = [item for item in told if item.rank == "caution" and item not in deferring]
    rest.sort(key=lambda item: of_the_piece(item.code))
    out = [line for item in dangers for line in _lines_of(item)]
    if rest:
        left = len(rest) - 1
        out += _lines_of(rest[0], f" ({words('said', 'more', count=left)})" if left else "")
    return out + [line for item in deferring for line in _lines_of(item)] + _deferral(told, defer)


def _deferral(told: Iterable[Caution], defer: bool) -> list[str]:
    return wrapped(words("said", "first"), "  ") if defer and any(item.rank != "note" for item in told) else []
