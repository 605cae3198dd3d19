"""The common face of level-2 results: immutable, printable, and able to say what they rest on."""

from __future__ import annotations

import html
from dataclasses import dataclass, field
from typing import Any, Literal

from halfnut._core import Evidence
from halfnut.core.fixed import Value, one_line
from halfnut.core.text import shown

__all__ = ["RANKS", "Caution", "CautionLine", "Evidence", "Rank", "Record"]


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


class Record(Value):
    """A level-2 result. Subclasses are frozen dataclasses; they set `cautions` and `evidence`."""

    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys."""
        return self._fields()

    def _fields(self, *left_out: str) -> dict[str, Any]:
        """The fields by name, without cautions, evidence and those that are left out."""
        return {key: value for key, value in self.__dict__.items() if key not in {"cautions", "evidence", *left_out}}

    @property
    def told(self) -> tuple[Caution, ...]:
        """Everything that the result cautions of, notes included, each once."""
        notes = [item for item in getattr(self, "notes", ()) if isinstance(item, Caution)]
        return tuple(dict.fromkeys((*self.cautions, *notes)))

    def told_by_rank(self) -> list[Caution]:
        """The same, the gravest first."""
        return sorted(self.told, key=lambda item: RANKS.index(item.rank))

    def lines(self) -> list[str]:
        """The result as lines for a terminal: the answer first, then what it rests on, limits, cautions."""
        raise NotImplementedError

    def __str__(self) -> str:
        return "\n".join(self.lines())

    def __repr__(self) -> str:
        return one_line(f"<{type(self).__name__} {self.lines()[0]}>")

    def _repr_html_(self) -> str:
        first, *rest = map(shown, self.lines())
        body = "\n".join(html.escape(line) for line in rest)
        return (
            '<div style="font-family:inherit;color:inherit">'
            f"<p><strong>{html.escape(first)}</strong></p>"
            f'<pre style="background:none;color:inherit">{body}</pre></div>'
        )
