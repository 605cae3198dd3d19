"""The common face of level-2 results: immutable, printable, and able to say what they rest on."""

from __future__ import annotations

import operator
import re
from functools import lru_cache
from typing import Any, ClassVar, NamedTuple

from halfnut._core import Evidence, spell, spell_span
from halfnut.core.fixed import Value, one_line
from halfnut.core.text import shown
from halfnut.core.words import RANKS, Caution, CautionLine, Rank, brief_lines, by_rank, caution_lines, words, wrapped

__all__ = ["RANKS", "Caution", "CautionLine", "Evidence", "Part", "Rank", "Record", "filled", "parsed"]


_PLACE = re.compile(
    r"\{(?P<list>\w+)/(?P<code>[a-z]\w*)\}"
    r"|\{(?:(?P<times>-?\d+)\*)?(?P<path>\w*(?:\.\w+)*)"
    r"(?:(?P<test>[!<>]=|[?!=<>])(?P<than>[^}]*)"
    r"|(?:\.\.(?P<last>\w+(?:\.\w+)*))?(?:/(?P<over>[\d.]+))?(?::(?P<kind>[\w.+% ]+))?)\}"
)
_ENDS = {"first": 0, "last": -1}
_TESTS = {
    "=": operator.eq,
    "!=": operator.ne,
    "<": operator.lt,
    ">": operator.gt,
    "<=": operator.le,
    ">=": operator.ge,
}
_FORMAT = re.compile(r"\+?(?:\.\d+)?[fg%]")
_NUMBER = re.compile(r"-?[\d.]+(?:e-?\d+)?")
_UNDER = " " * 12
_MOST, _LEAST = 6, 2  # lines of an answer; rows that stand in it however much there is to tell
_REPEATED = re.compile(r" \([-+\d.,/ to]+ (?:in|mm)\)")
_OPTIONAL = re.compile(r"\[([^\]]*)\]")


class Record(Value):
    """A level-2 result. Subclasses are frozen dataclasses; they set `cautions` and `evidence`.

    `ANSWER` is the first line as a template, `ROWS` what stands under it, a label and a template each, `SHORT` the
    labels of the rows that the short answer has, ``*`` for every row, `FIRST` what is printed in place of the answer,
    `LAST` the last line of the short one: see `Says` of the core, which declares them.
    """

    ANSWER: ClassVar[str] = ""
    ROWS: ClassVar[tuple[tuple[str, ...], ...]] = ()
    SHORT: ClassVar[tuple[str, ...]] = ()
    FIRST: ClassVar[str] = ""
    LAST: ClassVar[str] = ""
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
        return str(self.filled(self.FIRST)) if self.FIRST else self.answer

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
            within = _figure(self, template, "")
            head = str(self.filled(each))
            return (
                [] if within is None else [(label, f"{head if label else ''}{text}") for label, text in within.report()]
            )
        if label == "#" or label.startswith("*"):
            texts = enumerate(getattr(self, template), 1)
            return [(f"{number}." if label == "#" else label[1:], text) for number, text in texts]
        unit = getattr(self, "unit", "mm")
        items = getattr(self, each.removesuffix("+"))[each.endswith("+") :] if each else (self,)
        said = [(filled(one, label, unit), filled(one, template, unit)) for one in items]
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
        last = self.filled(self.LAST) if self.LAST else None
        return [*out, *told, *([] if last is None else [f"  {last}"])]

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
    """A record within an answer that is told by a template of its own."""

    ANSWER: ClassVar[str] = ""

    def __str__(self) -> str:
        return str(filled(self, self.ANSWER, getattr(self, "unit", "mm")))


def filled(of: object, template: str, unit: str) -> str | None:
    """A template with figures; None where one lacks outside square brackets."""
    out = ""
    for place, (parts, end) in enumerate(parsed(template)):
        text = _filled_part(of, parts, end, unit)
        if text is None and not place % 2:
            return None
        out += text or ""
    return out


class _Place(NamedTuple):
    """A place of a template, and what stands before it."""

    before: str
    list: str | None
    code: str
    times: str
    path: str
    test: str | None
    than: str
    last: str | None
    over: str
    kind: str


@lru_cache(maxsize=1024)
def parsed(template: str) -> list[tuple[list[_Place], str]]:
    """What stands outside square brackets and within, by turns: places, and what follows the last."""
    out = []
    for part in _OPTIONAL.split(template):
        places, end = [], 0
        for found in _PLACE.finditer(part):
            places.append(_Place(part[end : found.start()], **found.groupdict()))
            end = found.end()
        out.append((places, part[end:]))
    return out


def _filled_part(of: object, places: list[_Place], end: str, unit: str) -> str | None:
    out = ""
    for place in places:
        text = _said(of, place, unit)
        if text is None:
            return None
        out += place.before + text
    return out + end


def _said(of: object, place: _Place, unit: str) -> str | None:
    """What a place of a template says; None where it lacks its figure, or what it asks for does not hold."""
    if place.list:
        return words(place.list, place.code)
    value = _figure(of, place.path, unit)
    if place.test:
        return "" if _holds(of, value, place.test, place.than, unit) else None
    last = None if place.last is None else _figure(of, place.last, unit)
    if value is None or (place.last is not None and last is None):
        return None
    if place.times or place.over:
        times, over = int(place.times or 1), float(place.over or 1)
        value, last = times * value / over, None if last is None else times * last / over
    return _spelled(value, last, place.kind, place.path, unit) or None


def _figure(of: object, path: str, unit: str) -> Any:
    """The figure of a path; a record without a unit of its own is told in that of the answer it stands in."""
    value: Any = of
    for key in filter(None, path.split(".")):
        if isinstance(value, tuple):
            value = len(value) if key == "count" else value[_ENDS[key]] if value else None
        elif value is not None:
            value = getattr(value, key, unit) if key == "unit" else getattr(value, key)
    return value


def _holds(of: object, value: Any, test: str, than: str, unit: str) -> bool:
    if test in {"?", "!"}:
        is_there = bool(value) or (value == 0 and value is not False)
        return is_there == (test == "?")
    if value is None:
        return False
    other: Any = than
    if isinstance(value, (int, float)):
        other = float(than) if _NUMBER.fullmatch(than) else _figure(of, than, unit)
    return bool(_TESTS[test](value, other))


def _spelled(value: Any, last: Any, kind: str | None, path: str, unit: str) -> str | None:
    """A figure, or a span of two, as a template's place has it."""
    if isinstance(value, str):
        return words(kind.removesuffix(" and"), value) if kind and value else value
    if isinstance(value, Record):
        return value.answer
    if isinstance(value, tuple):
        each_said = (
            " ".join(each) if isinstance(each, tuple) else _spelled(each, None, kind, path, unit) for each in value
        )
        return (" and " if kind and kind.endswith(" and") else ", ").join(filter(None, each_said))
    if answer := getattr(value, "ANSWER", None):
        return filled(value, answer, unit)
    if kind and _FORMAT.fullmatch(kind):
        return format(value, kind)
    if isinstance(value, int) and last is None:
        return str(value)

    def spelled(kind: str, unit: str) -> str:
        return spell(value, kind, unit) if last is None else spell_span(value, last, kind, unit)

    what, _, units = (f"length {kind}" if kind in {"both", "other"} else kind or path).partition(" ")
    if not units:
        return spelled(what, unit)
    beside = spelled(what, "mm" if unit == "in" else "in")
    return beside if units == "other" else f"{spelled(what, unit)} ({beside})"
