"""Coatings on threads: what they add to a size, and what to cut before they go on.

`precoat` answers the limits to cut to; `coating` says what is known of a finish. The functions of numbers take
micrometres.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    BuildUp,
    Evidence,
    Thread,
    build_up_um,
    coated_diameter_change_um,
    coated_pitch_change_um,
    greatest_build_up_um,
    metal_consumed_um,
    needed_deviation_um,
    recoated_build_up_um,
)
from halfnut.core.arguments import checked
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, CautionLine, Record
from halfnut.core.sizes import at_most, both, film, one
from halfnut.core.units import length
from halfnut.core.words import LOAD, caution, caution_lines
from halfnut.threads.standard import Rule, ThreadLimits
from halfnut.threads.standard import thread as read_thread

__all__ = [
    "BuildUp",
    "Coating",
    "PrecoatLimits",
    "build_up",
    "build_up_um",
    "coated_diameter_change_um",
    "coated_pitch_change_um",
    "coating",
    "greatest_build_up_um",
    "metal_consumed_um",
    "needed_deviation_um",
    "precoat_columns",
    "recoated_build_up_um",
    "refuse_coating",
]


def build_up(value: Any, name: str = "build_up") -> BuildUp:
    """What a coating adds to one surface, from what a person gives.

    Parameters
    ----------
    value : str, Length, pint quantity, pair of these, Coating, BuildUp or None
        ``"8 um"`` (exact), ``"0.0002 in to 0.0003 in"``, ``"8 um min"`` (maximum half as much again), a coating such
        as ``"anodise II 12 um"``, ``"hard anodise 0.002 in"``, ``"zinc SC2"``; ``None`` or ``"bare"`` for none.
    name : str
        The argument's name, for messages.

    Returns
    -------
    BuildUp
        Least and greatest build-up, um.

    Raises
    ------
    UnitError
        A bare number.
    DesignationError, NotTabulatedError
        Not understood, or no such coating.

    >>> build_up("anodise II black 15 um").max_um
    7.5
    """
    if value is None:
        return _core.parse_build_up("bare", active())
    if isinstance(value, BuildUp):
        return value
    if isinstance(value, Coating):
        return value.build_up
    try:
        if isinstance(value, str):
            return _core.parse_build_up(value, active())
        if isinstance(value, (tuple, list)) and len(value) == 2:
            least, most = (1000.0 * length(each, name).mm for each in value)
            return BuildUp(least, most)
    except _core.Error as error:
        error.args = (f"{name}: {error}",)
        raise
    exact = 1000.0 * length(value, name).mm
    return BuildUp(exact, exact)


@dataclass(frozen=True, repr=False)
class Coating(Record):
    """A finish: its film, what it adds to a surface, and what to mind."""

    id: str
    name: str
    process: str
    base: str
    film_min_um: float
    film_max_um: float
    build_up_min_um: float
    build_up_max_um: float
    pitch_change_min_um: float
    pitch_change_max_um: float
    note: str
    build_up: BuildUp = field(compare=False)
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """The finish as a flat dictionary with unit-suffixed keys."""
        return self._fields("build_up")

    def lines(self) -> list[str]:
        """What it adds in the first line, then the film and what it rests on."""
        low, high = self.build_up_min_um, self.build_up_max_um
        out = [f"{self.name}: {film(low, high, 'mm')} a surface ({film(low, high, 'in')})"]
        out.append(f"  film      {film(self.film_min_um, self.film_max_um, 'mm')}")
        out.append(f"  diameter  {film(2 * low, 2 * high, 'mm')}; a hole shrinks by as much")
        pitch = film(self.pitch_change_min_um, self.pitch_change_max_um, "mm")
        out.append(f"  pitch     {pitch} on a 60 degree thread")
        if self.note:
            out.append(f"  note      {self.note}")
        out += [f"  rests on  {item.source} [{item.kind}]" for item in self.evidence if item.source]
        out += caution_lines(self.cautions)
        return out


@checked
def coating(text: str, *, on: str | None = None, strips: int = 0) -> Coating:
    """What is known of a finish, for a film of a given or its usual thickness.

    Parameters
    ----------
    text : str
        ``"anodise II"``, ``"anodise II black 15 um"``, ``"hard anodise 0.002 in"``, ``"electroless nickel B"``.
    on : str, optional
        The alloy it is to go on; one that does not take it is refused.
    strips : int
        How often the film was stripped and grown anew, which takes metal each time: 0 to 10.

    Returns
    -------
    Coating
        Immutable; prints itself.

    Raises
    ------
    NotTabulatedError
        No such coating or alloy; the message names the nearest.
    DomainError
        The alloy does not take it, or `strips` is out of its range.

    >>> coating("anodise II 12 um", strips=1).build_up_max_um
    0.0
    >>> coating("hard anodise 0.002 in").build_up_max_um
    25.4
    """
    catalogue = active()
    found = build_up(text, "coating")
    if found.coating is None:
        raise _core.NotTabulatedError(f"'{text}' is a build-up; a coating has a name, such as 'anodise II'")
    row = catalogue.row("threads/coatings", found.coating)
    if on is not None:
        refuse_coating(found, on)
    if strips:
        found = found.recoated(strips, catalogue)
    low, high = found.film_min_um or 0.0, found.film_max_um or 0.0
    return Coating(
        id=row["coating"],
        name=row["name"],
        process=row["process"],
        base=row["base"],
        film_min_um=low,
        film_max_um=high,
        build_up_min_um=found.min_um,
        build_up_max_um=found.max_um,
        pitch_change_min_um=coated_pitch_change_um(found.min_um, 30.0),
        pitch_change_max_um=coated_pitch_change_um(found.max_um, 30.0),
        note=row["note"],
        build_up=found,
        cautions=tuple(process_cautions(found)),
        evidence=tuple(found.evidence(catalogue)),
    )


def refuse_coating(found: BuildUp, on: str) -> None:
    """Refuse a coating on an alloy that does not take it; DomainError.

    >>> refuse_coating(build_up("anodise II"), "6061-T6")
    """
    from halfnut.material.alloys import alloy

    metal = alloy(on)
    if found.coating is not None:
        _core.require_takes(found.coating, metal.group, metal.title, active())


def process_cautions(found: BuildUp, *, internal: bool = False) -> list[Caution]:
    """What to mind about a finish as a process."""
    made = []
    if found.maximum_by_rule:
        made.append(caution("coat_maximum_by_rule"))
    if found.coating is None:
        return made
    row = active().row("threads/coatings", found.coating)
    low, high = found.film_min_um or 0.0, found.film_max_um or 0.0
    if low < row["film_min_um"] - 1e-9 or (row["film_max_um"] is not None and high > row["film_max_um"] + 1e-9):
        most = "" if row["film_max_um"] is None else f" to {row['film_max_um']:g}"
        made.append(caution("coat_film_outside", film=f"{row['film_min_um']:g}{most}"))
    if found.usual:
        made.append(caution("coat_usual_film"))
    if row["process"] == "anodise":
        if row["growth_low"] != row["growth_high"]:
            made.append(caution("coat_growth_range"))
        if row["etch_high_um"] > 0:
            made.append(caution("coat_etch", etch=f"{row['etch_high_um']:g}"))
        made.append(caution("coat_strip"))
        if internal:
            made.append(caution("coat_blind_hole"))
    elif row["process"] == "plating":
        made.append(caution("coat_uneven"))
    elif row["process"] == "conversion" and "chromate" in row["name"]:
        made.append(caution("coat_chromate"))
    return made


class PrecoatLimits(ThreadLimits):
    """Limits to cut to before coating; after it, the gauges in `go_after_pitch_mm` and its fellows."""

    way: str
    """"bare", "held" (the allowance holds the coating) or "deducted"."""
    build_up: BuildUp
    allowance_um: float
    pitch_change_um: float
    greatest_build_up_um: float
    go_after_pitch_mm: float
    go_after_crest_mm: float
    not_go_after_pitch_mm: float
    uncoated: _core.LimitFigures
    """Of the class as it is written."""
    position: str | None
    """The nearest position or class whose allowance would hold the coating."""

    def __init__(
        self, thread: Thread, answer: _core.PrecoatAnswer, found: BuildUp, rule: Rule, engagement_mm: float | None
    ) -> None:
        catalogue = active()
        super().__init__(thread, answer.before, rule, catalogue, engagement_mm)
        own = answer.evidence(catalogue)
        self.__dict__.update(
            {key: value for key, value in answer.figures.items() if key != "position_deviation_um"},
            way=answer.way,
            build_up=found,
            position=answer.position,
            uncoated=answer.uncoated,
            evidence=(*own, *answer.uncoated.evidence(catalogue)),
        )

    @property
    def said(self) -> str:
        """How these limits come about."""
        coat = film(self.build_up.min_um, self.build_up.max_um, self.unit)
        allowance = film(self.allowance_um, self.allowance_um, self.unit)
        change = film(self.pitch_change_um, self.pitch_change_um, self.unit)
        return {
            "bare": "no coating: the limits of the class",
            "held": f"the allowance, {allowance}, holds {coat} a surface",
            "deducted": f"moved by {coat} a surface, up to {change} on the pitch diameter",
        }[self.way]

    @property
    def roomier_class(self) -> str | None:
        """The class of the same grades whose allowance holds the coating, where there is one: "6f", "2A"."""
        if self.position is None or self.unit == "in":
            return self.position
        return re.sub("[A-Za-z]+", self.position, self.thread.tolerance_class)

    @property
    def remedies(self) -> tuple[str, ...]:
        """What keeps the class's own limits, where its allowance does not hold the coating."""
        if self.way != "deducted":
            return ()
        out = []
        if self.roomier_class is not None:
            out.append(f"cut it to {self.roomier_class}: that allowance holds the coating")
        if self.allowance_um > 0:
            out.append(f"a coating that builds up at most {at_most(self.greatest_build_up_um, self.unit)[1]}")
        out.append("mask the thread, and leave it bare")
        return tuple(out)

    def to_dict(self) -> dict[str, Any]:
        """The six limits before coating, and what they rest on."""
        return {
            **super().to_dict(),
            "way": self.way,
            "build_up_min_um": self.build_up.min_um,
            "build_up_max_um": self.build_up.max_um,
            "allowance_um": self.allowance_um,
            "pitch_change_um": self.pitch_change_um,
            "greatest_build_up_um": self.greatest_build_up_um,
            "go_after_pitch_mm": self.go_after_pitch_mm,
            "go_after_crest_mm": self.go_after_crest_mm,
            "not_go_after_pitch_mm": self.not_go_after_pitch_mm,
            "position": self.position,
        }

    def lines(self) -> list[str]:
        """The limits to cut in the first line; then both units, the gauges after coating, the remedies."""
        first, *rest = super().lines()
        tail = [line for line in rest if isinstance(line, CautionLine) or line.strip() == LOAD]
        body = [line for line in rest if line not in tail]
        out = [f"before coating {first}", *body, f"  {self.said}"]
        crest = "major" if self.side == "external" else "minor"
        out.append(
            f"  after coating: go {both(self.go_after_pitch_mm, self.unit)} pitch, "
            f"{one(self.go_after_crest_mm, self.unit)} {crest}; "
            f"not go {one(self.not_go_after_pitch_mm, self.unit)} pitch"
        )
        out += [f"  or: {remedy}" for remedy in self.remedies]
        return out + tail

    def _notes(self) -> tuple[Caution, ...]:
        # what the other rule gives are the class's limits, not those of a part to be coated
        return () if self.way == "deducted" else super()._notes()

    def _cautions(self) -> tuple[Caution, ...]:
        made = [caution(code, group=self.engagement_group) for code in self.figures.cautions]
        made += process_cautions(self.build_up, internal=self.side == "internal")
        if self.way == "deducted" and self.allowance_um > 0:
            made.append(
                caution(
                    "coat_allowance_short",
                    needs=film(self.pitch_change_um, self.pitch_change_um, self.unit),
                    has=film(self.allowance_um, self.allowance_um, self.unit),
                )
            )
        if self.build_up.coating is not None:
            row = active().row("threads/coatings", self.build_up.coating)
            own = self.thread
            if row["coating"] == "hot dip zinc" and (own.diameter_mm < 8.0 or own.pitch_mm < 1.25):
                made.append(caution("coat_galvanize_small"))
        if self.build_up.min_um < 0 and not self.build_up.bare:
            made.append(caution("coat_loses_metal"))
        return tuple(made)


def one_part(thread: str | Thread, side: str | None = None) -> Thread:
    """The part of a thread that is meant: the one it names a class for, else the external one with its usual class.

    A `side` that is asked for gets the usual class where the thread names none; a class of the other side is refused.
    """
    part, _, _ = _core.one_part(read_thread(thread), side)
    assert isinstance(part, Thread)
    return part


@checked
def precoat(
    thread: str | Thread,
    build_up: Any,
    *,
    gauged_at: Literal["basic", "class"] = "basic",
    engagement: Any = None,
    rule: Rule = "printed",
    on: str | None = None,
) -> PrecoatLimits:
    """Limits to cut a thread to so that it gauges once it is coated.

    Parameters
    ----------
    thread : str or Thread
        ``"M10x1.5-6g"``, ``"1/4-20 UNC-3A"``; without a class the usual one is meant.
    build_up : str, Length, pint quantity, pair of lengths, Coating or BuildUp
        See `build_up`.
    gauged_at : {"basic", "class"}
        "basic": the coated part gauges at the basic size, as both standards say: a class with an allowance keeps its
        limits while the allowance holds the coating. "class": the allowance is to be there after coating, too.
    engagement : length, optional
        Length of engagement, as for `limits`.
    rule : {"printed", "formula"}
        Decimal rule of Unified threads.
    on : str, optional
        The alloy; one that does not take the coating is refused.

    Returns
    -------
    PrecoatLimits
        A `ThreadLimits` with the gauges after coating and the remedies.

    Raises
    ------
    DomainError
        The spread of the coating is more than the tolerance, or the alloy does not take it.

    >>> precoat("M10-6h", "8 um").pitch_max
    8.994
    >>> precoat("M10-6g", "8 um").way
    'held'
    """
    part = one_part(thread)
    found = globals()["build_up"](build_up)
    if on is not None:
        refuse_coating(found, on)
    length_mm = None if engagement is None else length(engagement, "engagement").mm
    answer = _core.precoat_answer(part, found, active(), gauged_at, rule, length_mm)
    return PrecoatLimits(part, answer, found, rule, length_mm)


def precoat_columns(
    designations: Sequence[str] | str,
    *,
    build_up_min_um: ArrayLike = 0.0,
    build_up_max_um: ArrayLike = 0.0,
    engagement_mm: ArrayLike = np.nan,
    gauged_at: Literal["basic", "class"] = "basic",
    rule: Rule = "printed",
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Limits before coating of many threads as columns.

    Parameters
    ----------
    designations : str or sequence of str
        One designation a row, of any form that is known; one serves all rows.
    build_up_min_um, build_up_max_um : array_like
        Least and greatest build-up of a surface, um: one value, or one a row.
    engagement_mm : array_like
        Length of engagement, mm; NaN: normal.
    gauged_at, rule
        As for `precoat`; of ISO metric and Unified threads alone: those of other forms gauge at their own limits.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        ``major_max_mm`` ... ``minor_min_mm``, ``major_max_in`` ... ``minor_min_in`` to cut to (NaN where there is no
        limit), ``way`` ("bare", "held", "deducted"; "" in a failed row), the figures of `PrecoatLimits`, ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> precoat_columns("M10-6h", build_up_min_um=8.0, build_up_max_um=[8.0, 10.0])["pitch_max_mm"].round(3).tolist()
    [8.994, 8.986]
    """
    numbers = columns(
        build_up_min_um=build_up_min_um,
        build_up_max_um=build_up_max_um,
        engagement_mm=engagement_mm,
    )
    names = [designations] if isinstance(designations, str) else list(designations)
    out = _core.precoat_columns(names, active(), numbers, gauged_at, rule, on_error)
    codes = out.pop("way_code")
    out["way"] = np.where(out["status"] == 0, np.array(["bare", "held", "deducted"])[codes], "")
    return out
