"""The common face of level-2 results: immutable, printable, and able to say what they rest on."""

from __future__ import annotations

import re
from typing import Any, ClassVar

from halfnut._core import Evidence
from halfnut.core.fixed import Value, one_line
from halfnut.core.text import shown
from halfnut.core.words import RANKS, Caution, CautionLine, Rank, brief_lines, caution_lines, wrapped

__all__ = ["RANKS", "Caution", "CautionLine", "Evidence", "Part", "Rank", "Record"]

_UNDER = " " * 12
_MOST, _LEAST = 6, 2  # lines of an answer; rows that stand in it however much there is to tell
_REPEATED = re.compile(r" \([-+\d.,/ to]+ (?:in|mm)\)")


class Record(Value):
    """A level-2 result. Subclasses are frozen dataclasses; they set `cautions` and `evidence`.

    `SHORT` are the labels of the rows that the short answer has, ``*`` for every row.
    """

    SHORT: ClassVar[tuple[str, ...]] = ()
    AT_MACHINE: ClassVar[bool] = False
    """Whether what comes before Halfnut's figures is said with a caution."""
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys."""
        return {key: value for key, value in self.__dict__.items() if key not in {"cautions", "evidence"}}

    @property
    def told(self) -> tuple[Caution, ...]:
        """Everything that the result cautions of, notes included, each once."""
        notes = [item for item in getattr(self, "notes", ()) if isinstance(item, Caution)]
        return tuple(dict.fromkeys((*self.cautions, *notes)))

    @property
    def answer(self) -> str:
        """The answer in one line."""
        return ""

    @property
    def first_line(self) -> str:
        """The first line of what is printed."""
        return self.answer

    @property
    def last_line(self) -> str:
        """The last line of the short answer, if any."""
        return ""

    def report(self) -> list[tuple[str, str]]:
        """What stands under the answer: label and text."""
        return []

    def whole(self) -> list[str]:
        """All that the result has to say: the answer, its rows, cautions and notes."""
        out = [self.first_line]
        for label, text in self.report():
            head = f"  {label:<9} "
            table = "  " in text.strip()
            out += [head + text] if table else wrapped(text, head, _UNDER)
        return [*out, *caution_lines(self.told, defer=self.AT_MACHINE)]

    def lines(self) -> list[str]:
        """The answer as it is read at the machine: three to six lines in one system of units; `why` has the rest."""
        if self.SHORT == ("*",):
            return self.whole()
        told = brief_lines(self.told, defer=self.AT_MACHINE)
        first, *rows = self._unwrapped()
        out = wrapped(_one_system(first))
        for count, row in enumerate(row for label in self.SHORT for row in _of_label(rows, label)):
            lines = wrapped(_one_system(row), "  ", _UNDER)
            if count >= _LEAST and len(out) + len(lines) + len(told) > _MOST:
                break
            out += lines
        return [*out, *told, *([f"  {self.last_line}"] if self.last_line else [])]

    def _unwrapped(self) -> list[str]:
        if type(self).whole is Record.whole:
            return [self.first_line, *(f"  {label:<9} {text}" for label, text in self.report())]
        return [line for line in self.whole() if not isinstance(line, CautionLine)]

    def why(self) -> str:
        """What limits the answer, what would help, what was assumed, and every other figure, as text."""
        return "\n".join(self.whole())

    def __str__(self) -> str:
        return "\n".join(self.lines())

    def __repr__(self) -> str:
        return one_line(f"<{type(self).__name__} {self.lines()[0]}>")

    def _repr_html_(self) -> str:
        import html

        first, *rest = map(shown, self.whole())
        body = "\n".join(html.escape(line) for line in rest)
        return (
            '<div style="font-family:inherit;color:inherit">'
            f"<p><strong>{html.escape(first)}</strong></p>"
            f'<pre style="background:none;color:inherit">{body}</pre></div>'
        )


def _of_label(rows: list[str], label: str) -> list[str]:
    """The rows of a label, each with the rows without one that go on from it."""
    out: list[str] = []
    taken = False
    for row in rows:
        if row.startswith((f"  {label} ", f"  {label}: ")):
            out.append(row.strip())
            taken = True
        elif taken and row.startswith(_UNDER):
            out[-1] += f"; {row.strip()}"
        else:
            taken = False
    return out


def _one_system(text: str) -> str:
    """A text without the sizes in brackets that repeat one in the other system."""
    return _REPEATED.sub("", text)


class Part:
    """A record within an answer that is told by itself."""

    said: str

    def __str__(self) -> str:
        return self.said
