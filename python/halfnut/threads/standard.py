"""Screw threads of any form: designations, limits of size, and the profile's formulas.

A `Thread` is a system (ISO metric, Unified, or the form of trapezoidal, Acme, pipe and Whitworth threads) with its size
and classes. `ThreadLimits` are the limits of one part of it, or of a part by its sizes alone (`plain_thread`); whatever
is asked of a thread goes by them.
"""

from __future__ import annotations

import itertools
from dataclasses import fields
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from halfnut import _core
from halfnut._core import Length, Thread, spell, spell_span
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active, rows
from halfnut.core.given import FeedLike, LengthLike
from halfnut.core.questions import ask
from halfnut.core.sizes import MM_PER_INCH, both, one
from halfnut.core.words import caution_lines, words
from halfnut.threads.figures import ThreadGauges, ThreadLimitsFigures

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = ["PartLike", "Side", "Thread", "ThreadLimits", "mate", "thread", "thread_series"]

Rule = Literal["printed", "formula"]
Side = Literal["external", "internal"]

_SIZES = ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min")


@checked
def thread(text: str | Thread) -> Thread:
    """A thread from its designation, of any form that is known.

    Parameters
    ----------
    text : str or Thread
        ``"M10x1.5-6g"``, ``"M24xPh3P1.5-6H-LH"``, ``"1/4-20 UNC-2A"``, ``"#10-32 UNF"``, ``"1.125-18 UNEF"``,
        ``"3/4-.0625P-.1875L(3 starts) UN"``; ``"Tr40x7-7e"``, ``"Tr 40 x 14 (P7) LH"``, ``"1 1/2-4 Acme-2G"``,
        ``"G1/2 A"``, ``"1/4-20 BSW"``, ``"1/2-14 NPT"``, ``"R1/2"``, ``"Rc1/2"``. What the trade leaves out is what it
        means by it: ``"M10"`` is of the coarse series, ``"1/4-20"`` UNC, ``"10-32"`` #10-32 UNF. A `Thread` is given
        back as it is.

    Returns
    -------
    Thread
        Immutable; ``str()`` is the one canonical designation.

    Raises
    ------
    DesignationError
        Not understood, contradictory, or ambiguous; the message points at the character and names the candidates.
    NotTabulatedError
        No coarse pitch for the diameter, no such size in the series, or a system without figures here, by its name.

    >>> str(thread("M10 × 1.5 – 4g6g")), str(thread("Tr 40 x 14 (P7) LH - 7e")), str(thread("10-32"))
    ('M10x1.5-4g6g', 'Tr40x14(P7)LH-7e', '#10-32 UNF')
    >>> thread("10-32 UNF").diameter_in
    0.19
    """
    if isinstance(text, str):
        return _core.parse_thread(text, active())
    if isinstance(text, Thread):
        return text
    raise _core.DesignationError(f"a thread is written as text, such as 'M10x1.5-6g', got {text!r}")


def mate(text: str | Thread, side: Side) -> Thread:
    """The part that goes with a thread.

    Parameters
    ----------
    text : str or Thread
        A designation, of the one part or of both.
    side : {"external", "internal"}
        Which part is wanted.

    Returns
    -------
    Thread
        Of the class that the designation gives it; where it gives none the usual one (6g or 6H, below M1.6 6h or 5H;
        7e or 7H, 2G, A, medium), and in Unified threads the number of the other part's class.

    Examples
    --------
    >>> str(mate("M24x1.5-6g", "internal")), str(mate("1/4-20 UNC-3A", "internal")), str(mate("Tr40x7-7e", "internal"))
    ('M24x1.5-6H', '1/4-20 UNC-3B', 'Tr40x7-7H')
    """
    return thread(text).mate(side)


class ThreadLimits(ThreadLimitsFigures):
    """Limits of size of one part of a thread of any form, before a coating too, or of a part by its sizes alone.

    A limit without a suffix is in the standard's own unit, as it rounds; the same with ``_mm`` and ``_in``. None where
    no limit is set. Immutable; prints itself, the limits in its first line.
    """

    @classmethod
    def of(cls, answer: _core.Answer | dict[str, Any]) -> Self:
        """The limits of the core's answer; those of the internal part within it have no others."""
        return super().of({"other": None, **answer} if isinstance(answer, dict) else answer)

    def __getstate__(self) -> dict[str, Any]:
        return super().__getstate__() | {name: value for name, value in self.__dict__.items() if name == "_held"}

    @property
    def given(self) -> _core.Answer:
        """What a question takes of it."""
        held: _core.Answer | None = self.__dict__.get("_held")
        engagement = None if self.engagement_mm is None else Length(self.engagement_mm, "mm")
        return held or ask("limits", (self.thread, self.side, engagement, self.rule))

    @property
    def said(self) -> str:
        """How limits before a coating come about."""
        coat = spell_span(self.build_up_min_um or 0.0, self.build_up_max_um or 0.0, "film", self.unit)
        allowance = spell(self.allowance_um or 0.0, "film", self.unit)
        change = spell(self.pitch_change_um or 0.0, "film", self.unit)
        return {
            "bare": "no coating: the limits of the class",
            "held": f"the allowance, {allowance}, holds {coat} a surface",
            "deducted": f"moved by {coat} a surface, up to {change} on the pitch diameter",
        }[self.way or "bare"]

    def sizes(self, name: Literal["major", "pitch", "minor"]) -> str:
        """One diameter's limits in `unit`.

        Parameters
        ----------
        name : {"major", "pitch", "minor"}
            Which diameter.

        Returns
        -------
        str
            The greater limit first.

        Examples
        --------
        >>> from halfnut.threads.questions import limits
        >>> limits("Tr12x3-7e").sizes("pitch"), limits("M10-6H").sizes("major")
        ('10.415/10.191', '10.000 min')
        """
        return _range(getattr(self, f"{name}_max_mm"), getattr(self, f"{name}_min_mm"), self.unit)

    def to_dict(self) -> dict[str, Any]:
        """The limits as a flat dictionary: the standard's own unit without a suffix, then mm and inches.

        Where the designation means both parts, those of the internal one follow with ``internal_`` before their names.
        """
        figures = super().to_dict()
        other, gauges = figures.pop("other"), figures.pop("gauges")
        out = {"class" if name == "tolerance_class" else name: value for name, value in figures.items()}
        out |= {f"gauge_{item.name}": gauges and gauges[item.name] for item in fields(ThreadGauges)}
        if other is not None:
            sizes = [f"{name}{suffix}" for suffix in ("", "_mm", "_in") for name in _SIZES]
            out |= {"internal_class": other["class"], **{f"internal_{name}": other[name] for name in sizes}}
        return out

    def as_declared(self) -> dict[str, Any]:
        """The figures as the core declares them; limits within another answer have no others."""
        figures = super().as_declared()
        if "_held" not in self.__dict__:
            del figures["other"]
        return figures

    def whole(self) -> list[str]:
        """The limits as a person at the lathe reads them: upper over lower, then both units, then what they rest on."""
        order = ("major", "pitch", "minor") if self.side == "external" else ("minor", "pitch", "major")
        sizes = [(name, getattr(self, f"{name}_max_mm"), getattr(self, f"{name}_min_mm")) for name in order]
        sizes = [each for each in sizes if each[1:] != (None, None)]
        unit, other = self.unit, "in" if self.unit == "mm" else "mm"
        said = ", ".join(f"{name} {_range(high, low, unit)}" for name, high, low in sizes)
        reference = " (minor for reference)" if unit == "in" and self.side == "external" and not self.by_form else ""
        before = "" if self.way is None else "before coating "
        out = [f"{before}{self.title}: {said} {unit}{reference}", ""]
        out.append(f"  {'':<8}{'max':>9}{'min':>9} {unit}   {'max':>9}{'min':>9} {other}")
        for name, high, low in sizes:
            cells = [_size(value, each) for each in (unit, other) for value in (high, low)]
            out.append(f"  {name:<8}{cells[0]:>9}{cells[1]:>9}      {cells[2]:>9}{cells[3]:>9}".rstrip())
        out += self._basis()
        if kinds := sorted({item.kind for item in self.evidence}):
            out.append(f"  rests on: {', '.join(kinds)}")
        out += self._coating()
        of_other = () if self.other is None else self.other.told
        out += caution_lines([each for each in (*self.notes, *self.cautions) if each not in of_other])
        if self.other is not None:
            out += ["", *self.other.whole()[:-1]]
        return [*out, f"  {words('said', 'load')}"]

    def lines(self) -> list[str]:
        """The limits, of both parts where the designation names neither; a class that was taken is said."""
        every = super().lines()
        out = _first(every)
        told = every[len(out) :]
        out += [] if self.other is None else _first(self.other.lines())
        taken = [part.tolerance_class for part in (self, self.other) if part is not None and part.class_assumed]
        named = f"  {' and '.join(taken)}, the usual one{'s' if len(taken) > 1 else ''}, taken" if taken else ""
        return [*out, *([named] if named else []), *told]

    def _unwrapped(self) -> list[str]:
        first, *rest = super()._unwrapped()
        return [first.removesuffix(" (minor for reference)"), *rest]

    def _basis(self) -> list[str]:
        """What sets these limits; of a form its flanks and its lead."""
        if self.by_form:
            starts = f", {self.starts} starts" if self.starts > 1 else ""
            hand = ", left-hand" if self.hand == "left" else ""
            name = f"{self.form}, " if self.form else ""
            out = [
                f"  form      {name}flanks {2 * self.half_angle_deg:g} deg{starts}{hand}",
                f"  lead      {both(self.lead_mm, self.unit)}, {self.lead_angle_deg:.2f} deg at the pitch diameter",
            ]
            if self.lead_screw:
                out.append(f"  holds     a load does not turn it above a friction of {self.holding_friction:.3f}")
            return out
        if self.unit == "mm":
            group = f", engagement {self.engagement_group}" if self.engagement_group else ""
            return [f"  ISO 965-1 on ISO 724 basic sizes{group}"]
        rule = (
            "rounded as printed tables and go gauges are" if self.rule == "printed" else "its decimal rule since 2003"
        )
        return [f"  ASME B1.1, {rule}"]

    def _coating(self) -> list[str]:
        """How limits before a coating come about, the gauges after it, the remedies."""
        if self.way is None or self.go_after_pitch_mm is None or self.not_go_after_pitch_mm is None:
            return []
        crest = "major" if self.side == "external" else "minor"
        mouth = "" if self.go_after_crest_mm is None else f", {one(self.go_after_crest_mm, self.unit)} {crest}"
        after = (
            f"  after coating: go {both(self.go_after_pitch_mm, self.unit)} pitch{mouth}; "
            f"not go {one(self.not_go_after_pitch_mm, self.unit)} pitch"
        )
        return [f"  {self.said}", after, *(f"  or: {remedy}" for remedy in self.remedies)]


def _size(value_mm: float | None, unit: str) -> str:
    if value_mm is None:
        return "-"
    return f"{value_mm:.3f}" if unit == "mm" else f"{value_mm / MM_PER_INCH:.4f}"


def _first(lines: list[str]) -> list[str]:
    """The first line, with those that go on from it."""
    return [lines[0], *itertools.takewhile(lambda line: line.startswith("    "), lines[1:])]


def _range(high_mm: float | None, low_mm: float | None, unit: str) -> str:
    if high_mm is None:
        return f"{_size(low_mm, unit)} min"
    if low_mm is None:
        return f"{_size(high_mm, unit)} max"
    return f"{_size(high_mm, unit)}/{_size(low_mm, unit)}"


PartLike: TypeAlias = str | Thread | ThreadLimits
LeadLike: TypeAlias = PartLike | LengthLike | FeedLike


def thread_series(form: str) -> list[dict[str, Any]]:
    """Standard sizes of a form.

    Parameters
    ----------
    form : str
        "Tr", "Acme", "Stub Acme", "G", "BSW", "BSF", "NPT" or "R".

    Returns
    -------
    list of dict
        Rows of its table, sizes in the form's own unit.

    Raises
    ------
    NotTabulatedError
        No such form; the message names the nearest.

    >>> [row["pitch_mm"] for row in thread_series("Tr") if row["diameter"] == 40]
    [7.0, 3.0, 10.0]
    """
    forms = {row["form"]: row for row in rows("threads/thread_forms")}
    if form not in forms:
        near = _core.nearest_name(form, list(forms))
        hint = f"; did you mean '{near}'?" if near else ""
        raise _core.NotTabulatedError(f"no thread form '{form}'; the forms are {', '.join(forms)}{hint}")
    table = "threads/taper_pipe" if forms[form]["taper"] else "threads/form_series"
    return [row for row in rows(table) if row["form"] == form]
