"""The common face of level-2 results: immutable, printable, and able to say what they rest on."""

from __future__ import annotations

import re
from typing import Any, ClassVar

from halfnut._core import Evidence, spell, spell_span
from halfnut.core.fixed import Value, one_line
from halfnut.core.text import shown
from halfnut.core.words import RANKS, Caution, CautionLine, Rank, brief_lines, by_rank, caution_lines, wrapped

__all__ = ["RANKS", "Caution", "CautionLine", "Evidence", "Rank", "Record", "filled"]


_PLACE = re.compile(r"\{(\w+(?:\.\w+)*)(?:\.\.(\w+))?(?::([\w.]+))?\}")
_UNDER = " " * 12
_MOST, _LEAST = 6, 2  # lines of an answer; rows that stand in it however much there is to tell
_REPEATED = re.compile(r" \([-+\d.,/ to]+ (?:in|mm)\)")
_OPTIONAL = re.compile(r"\[([^\]]*)\]")


class Record(Value):
    """A level-2 result. Subclasses are frozen dataclasses; they set `cautions` and `evidence`.

    `ANSWER` is the first line as a template, `ROWS` what stands under it, a label and a template each, `SHORT` the
    labels of the rows that the short answer has, ``*`` for every row: see `Says` of the core, which declares them.
    """

    ANSWER: ClassVar[str] = ""
    ROWS: ClassVar[tuple[tuple[str, ...], ...]] = ()
    SHORT: ClassVar[tuple[str, ...]] = ()
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
        return by_rank(self.told)

    @property
    def answer(self) -> str:
        """The answer in one line."""
        return str(self.filled(self.ANSWER))

    @property
    def first_line(self) -> str:
        """The first line of what is printed."""
        return self.answer

    def filled(self, template: str) -> str | None:
        """A template with the result's figures; None where it lacks one outside square brackets."""
        return filled(self, template, getattr(self, "unit", "mm"))

    def report(self) -> list[tuple[str, str]]:
        """What stands under the answer: label and text."""
        return [row for parts in self.ROWS for row in self._rows(*parts)]

    def _rows(self, label: str, template: str, each: str = "") -> list[tuple[str, str]]:
        if label == "*":
            return list(getattr(self, template))
        if label == "=":
            within = getattr(self, template)
            return [] if within is None else within.report()
        if label == "#" or label.startswith("*"):
            texts = enumerate(getattr(self, template), 1)
            return [(f"{number}." if label == "#" else label[1:], text) for number, text in texts]
        unit = getattr(self, "unit", "mm")
        said = [
            (filled(one, label, unit), filled(one, template, unit))
            for one in (getattr(self, each) if each else (self,))
        ]
        return [(name, text) for name, text in said if name is not None and text is not None]

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
        return [*out, *told]

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


def filled(of: object, template: str, unit: str) -> str | None:
    """A template with figures; None where one lacks outside square brackets."""
    out = ""
    for place, part in enumerate(_OPTIONAL.split(template)):
        text = _filled_part(of, part, unit)
        if text is None and not place % 2:
            return None
        out += text or ""
    return out


def _filled_part(of: object, part: str, unit: str) -> str | None:
    values: dict[str, str] = {}
    for found in _PLACE.finditer(part):
        path, last, kind = found.groups()
        text = _spelled(of, path, last, kind, unit)
        if not text:
            return None
        values[found[0]] = text
    return _PLACE.sub(lambda found: values[found[0]], part)


def _spelled(of: object, path: str, last: str | None, kind: str | None, unit: str) -> str | None:
    value: Any = of
    for key in path.split("."):
        value = None if value is None else getattr(value, key)
    end = None if last is None else getattr(of, last)
    if value is None or isinstance(value, str):
        return value
    if last is not None and end is None:
        return None
    if kind is not None and (kind == "g" or kind.startswith(".")):
        return format(value, kind)

    def spelled(kind: str, unit: str) -> str:
        return spell(value, kind, unit) if end is None else spell_span(value, end, kind, unit)

    if kind == "both":
        return f"{spelled('length', unit)} ({spelled('length', 'mm' if unit == 'in' else 'in')})"
    if isinstance(value, tuple):
        return ", ".join(each if isinstance(each, str) else spell(each, kind or key, unit) for each in value)
    if isinstance(value, int) and end is None:
        return str(value)
    return spelled(kind or key, unit)
