"""The common face of level-2 results: immutable, printable, and able to say what they rest on."""

from __future__ import annotations

import html
import re
import textwrap
from typing import Any, ClassVar

from halfnut._core import Evidence, spell, spell_span
from halfnut.core.fixed import Value, one_line
from halfnut.core.text import shown
from halfnut.core.words import RANKS, Caution, CautionLine, Rank, caution_lines

__all__ = ["RANKS", "Caution", "CautionLine", "Evidence", "Rank", "Record"]


_PLACE = re.compile(r"\{(\w+)(?:\.\.(\w+))?(?::(\w+))?\}")
_WIDTH, _UNDER = 90, " " * 12
_OPTIONAL = re.compile(r"\[([^\]]*)\]")


class Record(Value):
    """A level-2 result. Subclasses are frozen dataclasses; they set `cautions` and `evidence`.

    `ANSWER` is the first line as a template, `ROWS` what stands under it: a label and a template. In a template
    ``{torque_nm}`` is a figure, spelled by the unit at the end of its key, ``{deflection_mm:fine}`` one of another
    kind, ``{low_n..high_n}`` a span; what stands in square brackets is left out where one of its figures is lacking,
    and so is the row for one outside.
    """

    ANSWER: ClassVar[str] = ""
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = ()
    AT_MACHINE: ClassVar[bool] = False
    """Whether what comes before Halfnut's figures is said with a caution."""
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

    @property
    def answer(self) -> str:
        """The answer in one line."""
        return str(self.filled(self.ANSWER))

    def filled(self, template: str) -> str | None:
        """A template with the result's figures; None where it lacks one outside square brackets."""
        out = ""
        for place, part in enumerate(_OPTIONAL.split(template)):
            text = self._filled_part(part)
            if text is None and not place % 2:
                return None
            out += text or ""
        return out

    def _filled_part(self, part: str) -> str | None:
        values: dict[str, str] = {}
        for found in _PLACE.finditer(part):
            first, last, kind = found.groups()
            text = self._spelled(first, last, kind)
            if not text:
                return None
            values[found[0]] = text
        return _PLACE.sub(lambda found: values[found[0]], part)

    def _spelled(self, key: str, last: str | None, kind: str | None) -> str | None:
        value, unit = getattr(self, key), getattr(self, "unit", "mm")
        if value is None or isinstance(value, str):
            return value
        if last is not None:
            end = getattr(self, last)
            return None if end is None else spell_span(value, end, kind or key, unit)
        if isinstance(value, tuple):
            return ", ".join(spell(each, kind or key, unit) for each in value)
        if isinstance(value, int):
            return str(value)
        return spell(value, kind or key, unit)

    def report(self) -> list[tuple[str, str]]:
        """What stands under the answer: label and text."""
        return [(label, text) for label, template in self.ROWS if (text := self.filled(template)) is not None]

    def lines(self) -> list[str]:
        """The result as lines for a terminal: the answer, its rows, cautions."""
        out = [self.answer]
        for label, text in self.report():
            head = f"  {label:<9} "
            table = "  " in text.strip()
            out += (
                [head + text] if table else textwrap.wrap(text, _WIDTH, initial_indent=head, subsequent_indent=_UNDER)
            )
        return [*out, *caution_lines(self.told, defer=self.AT_MACHINE)]

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
