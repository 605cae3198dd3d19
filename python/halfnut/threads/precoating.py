"""Threads that are to be coated: the limits to cut them to. The functions of numbers take micrometres."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal

from halfnut import _core
from halfnut._core import BuildUp, coated_pitch_change_um, greatest_build_up_um, needed_deviation_um
from halfnut.core.arguments import checked
from halfnut.core.arrays import ArrayLike, NDArray, np
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, CautionLine
from halfnut.core.sizes import at_most, both, film, one
from halfnut.core.words import caution, words
from halfnut.material.coatings import build_up as read_build_up
from halfnut.material.coatings import process_cautions, refuse_coating
from halfnut.threads.standard import PartLike, Rule, ThreadLimits, limits
from halfnut.threads.standard import thread as read_thread

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike
    from halfnut.material.coatings import BuildUpLike

__all__ = [
    "PrecoatLimits",
    "coated_pitch_change_um",
    "greatest_build_up_um",
    "needed_deviation_um",
    "precoat",
    "precoat_columns",
]


class PrecoatLimits(ThreadLimits):
    """Limits to cut to before coating; after it, the gauges in `go_after_pitch_mm` and its fellows."""

    way: str
    """"bare", "held" (the allowance holds the coating) or "deducted"."""
    build_up: BuildUp
    allowance_um: float | None
    pitch_change_um: float
    greatest_build_up_um: float
    go_after_pitch_mm: float
    go_after_crest_mm: float | None
    not_go_after_pitch_mm: float
    uncoated: ThreadLimits
    """Of the class as it is written."""
    position: str | None
    """The nearest position or class whose allowance would hold the coating."""

    def __init__(self, bare: ThreadLimits, before: _core.PartLimits) -> None:
        super().__init__(before, bare.rule, engagement_mm=bare._engagement_mm)
        assert before.coating is not None
        self.__dict__.update(before.coating, uncoated=bare)

    @property
    def said(self) -> str:
        """How these limits come about."""
        coat = film(self.build_up.min_um, self.build_up.max_um, self.unit)
        allowance = film(self.allowance_um or 0.0, self.allowance_um or 0.0, self.unit)
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
        return re.sub("[A-Za-z]+", self.position, self.tolerance_class)

    @property
    def remedies(self) -> tuple[str, ...]:
        """What keeps the class's own limits, where its allowance does not hold the coating."""
        if self.way != "deducted":
            return ()
        out = []
        if self.roomier_class is not None:
            out.append(f"cut it to {self.roomier_class}: that allowance holds the coating")
        if self.greatest_build_up_um > 0:
            out.append(f"a coating that builds up at most {at_most(self.greatest_build_up_um, self.unit)[1]}")
        out.append("mask the thread, and leave it bare")
        return tuple(out)

    def to_dict(self) -> dict[str, Any]:
        """The limits before coating, and how they come about."""
        names = (
            "way", "allowance_um", "pitch_change_um", "greatest_build_up_um", "go_after_pitch_mm", "go_after_crest_mm",
            "not_go_after_pitch_mm", "position",
        )  # fmt: skip
        return super().to_dict() | {name: getattr(self, name) for name in names}

    def whole(self) -> list[str]:
        """The limits to cut in the first line; then both units, the gauges after coating, the remedies."""
        first, *rest = super().whole()
        tail = [line for line in rest if isinstance(line, CautionLine) or line.strip() == words("said", "load")]
        body = [line for line in rest if line not in tail]
        out = [f"before coating {first}", *body, f"  {self.said}"]
        crest = "major" if self.side == "external" else "minor"
        mouth = "" if self.go_after_crest_mm is None else f", {one(self.go_after_crest_mm, self.unit)} {crest}"
        out.append(
            f"  after coating: go {both(self.go_after_pitch_mm, self.unit)} pitch{mouth}; "
            f"not go {one(self.not_go_after_pitch_mm, self.unit)} pitch"
        )
        out += [f"  or: {remedy}" for remedy in self.remedies]
        return out + tail

    def _notes(self) -> tuple[Caution, ...]:
        # what the other rule gives are the class's limits, not those of a part to be coated
        return () if self.way == "deducted" else super()._notes()

    def _cautions(self) -> tuple[Caution, ...]:
        made = [*super()._cautions(), *([caution("form_precoat")] if self.by_form else [])]
        made += process_cautions(self.build_up, internal=self.side == "internal")
        if self.way == "deducted" and self.allowance_um and not self.by_form:
            made.append(
                caution(
                    "coat_allowance_short",
                    needs=film(self.pitch_change_um, self.pitch_change_um, self.unit),
                    has=film(self.allowance_um, self.allowance_um, self.unit),
                )
            )
        if self.build_up.coating is not None and not self.by_form:
            row = active().row("threads/coatings", self.build_up.coating)
            if row["coating"] == "hot dip zinc" and (self.diameter_mm < 8.0 or self.pitch_mm < 1.25):
                made.append(caution("coat_galvanize_small"))
        if self.build_up.min_um < 0 and not self.build_up.bare and not self.by_form:
            made.append(caution("coat_loses_metal"))
        return tuple(made)


@checked
def precoat(
    thread: PartLike,
    build_up: BuildUpLike,
    *,
    gauged_at: Literal["basic", "class"] = "basic",
    engagement: LengthLike | None = None,
    rule: Rule = "printed",
    on: str | None = None,
) -> PrecoatLimits:
    """Limits to cut a thread to so that it gauges once it is coated, of any form that is known.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        ``"M10x1.5-6g"``, ``"1/4-20 UNC-3A"``, ``"Tr40x7-7e"``; without a class the usual one is meant. Limits are those
        of the coated part.
    build_up : str, Length, pint quantity, pair of lengths, Coating or BuildUp
        See `build_up`.
    gauged_at : {"basic", "class"}
        "basic": the coated part gauges at the basic size, as both standards say: a class with an allowance keeps its
        limits while the allowance holds the coating. "class": the allowance is to be there after coating, too. No
        standard of another form than ISO metric and Unified lets an allowance hold a coating: all of it is taken off.
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
    >>> round(precoat("Tr40x7-7e", "5 um").pitch_max, 3)
    36.336
    """
    found = read_build_up(build_up)
    if on is not None:
        refuse_coating(found, on)
    if isinstance(thread, ThreadLimits):
        bare = thread
        if bare.build_up is not None:
            raise _core.DomainError(f"{bare.title}: these are limits before a coating already")
    else:
        given = read_thread(thread)
        bare = limits(given, side=_core.one_part(given)[1], engagement=engagement, rule=rule)
    idle = [
        name for name, each, usual in (("gauged_at", gauged_at, "basic"), ("rule", rule, "printed")) if each != usual
    ]
    if bare.by_form and idle:
        raise _core.DomainError(f"{', '.join(idle)}: no standard of this form has a use for it")
    return PrecoatLimits(bare, _core.precoat_answer(bare.figures, found, active(), gauged_at))


def precoat_columns(
    designations: Sequence[str] | str,
    *,
    build_up_min_um: ArrayLike = 0.0,
    build_up_max_um: ArrayLike = 0.0,
    engagement_mm: ArrayLike = math.nan,
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
