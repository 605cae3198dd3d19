"""Screw threads of any form: designations, limits of size, and the profile's formulas.

A `Thread` is a system (ISO metric, Unified, or the form of trapezoidal, Acme, pipe and Whitworth threads) with its size
and classes. `ThreadLimits` are the limits of one part of it, or of a part by its sizes alone (`plain_thread`); whatever
is asked of a thread goes by them.
"""

from __future__ import annotations

import itertools
from dataclasses import fields
from typing import Any, Literal, TypeAlias

from halfnut import _core
from halfnut._core import Length, Thread
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active, rows
from halfnut.core.given import FeedLike, LengthLike
from halfnut.core.questions import ask
from halfnut.core.words import caution_lines, words
from halfnut.threads.figures import ThreadGauges, ThreadLimitsFigures

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

    @property
    def given(self) -> _core.Answer:
        """What a question takes of it."""
        if self._held.is_whole:
            return self._held
        engagement = None if self.engagement_mm is None else Length(self.engagement_mm, "mm")
        return ask("limits", (self.thread, self.side, engagement, self.rule))

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

    def whole(self) -> list[str]:
        """The limits as a person at the lathe reads them: upper over lower, then both units, then what they rest on."""
        of_other = () if self.other is None else self.other.told
        told = caution_lines([each for each in (*self.notes, *self.cautions) if each not in of_other])
        other = [] if self.other is None else ["", *self.other.whole()[:-1]]
        return [self.first_line, *self.printed, *told, *other, f"  {words('said', 'load')}"]

    def lines(self) -> list[str]:
        """The limits, of both parts where the designation names neither; a class that was taken is said."""
        every = super().lines()
        out = _first(every)
        other = [] if self.other is None else _first(self.other.lines())
        return [*out, *other, *([f"  {self.class_taken}"] if self.class_taken else []), *every[len(out) :]]

    def _unwrapped(self) -> list[str]:
        return [self.answer]


def _first(lines: list[str]) -> list[str]:
    """The first line, with those that go on from it."""
    return [lines[0], *itertools.takewhile(lambda line: line.startswith("    "), lines[1:])]


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
