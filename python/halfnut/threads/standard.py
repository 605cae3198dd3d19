"""Screw threads: designations, limits of size, and the profile's formulas."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    LimitFigures,
    Thread,
    basic_minor_diameter_mm,
    basic_pitch_diameter_mm,
    lead_angle_deg,
    root_diameter_mm,
    stress_diameter_mm,
    triangle_height_mm,
)
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.core.fixed import token
from halfnut.core.record import Caution, Record
from halfnut.core.words import LOAD, caution, caution_lines

__all__ = [
    "Thread",
    "ThreadLimits",
    "basic_minor_diameter_mm",
    "basic_pitch_diameter_mm",
    "lead_angle_deg",
    "limit_columns",
    "mate",
    "root_diameter_mm",
    "stress_diameter_mm",
    "triangle_height_mm",
]

Rule = Literal["printed", "formula"]

_SIZES = ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min")


def thread(text: str | Thread) -> Thread:
    """A thread from its designation.

    Parameters
    ----------
    text : str or Thread
        ``"M10x1.5-6g"``, ``"M24xPh3P1.5-6H-LH"``, ``"1/4-20 UNC-2A"``, ``"#10-32 UNF"``, ``"1.125-18 UNEF"``,
        ``"3/4-.0625P-.1875L(3 starts) UN"`` and the like. A `Thread` is given back as it is.

    Returns
    -------
    Thread
        Immutable; ``str()`` is the one canonical designation.

    Raises
    ------
    DesignationError
        Not understood, contradictory, or ambiguous; the message points at the character and names the candidates.
    NotTabulatedError
        No coarse pitch for the diameter, or no such size in the series.

    >>> str(thread("M10 × 1.5 – 4g6g"))
    'M10x1.5-4g6g'
    >>> thread("10-32 UNF").diameter_in
    0.19
    """
    return _read(text, active())


def mate(text: str | Thread, side: str) -> Thread:
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
        Of the class that the designation gives it; where it gives none, 6g or 6H (below M1.6: 6h or 5H), and in
        Unified threads the number of the other part's class.

    >>> str(mate("M24x1.5-6g", "internal")), str(mate("1/4-20 UNC-3A", "internal"))
    ('M24x1.5-6H', '1/4-20 UNC-3B')
    """
    given = thread(text)
    part = given.part(side)
    if given.unit == "in" and given.tolerance_class and not getattr(given, f"has_{side}"):
        return thread(re.sub("-2(?=[AB])", f"-{given.tolerance_class[0]}", str(part)))
    return part


def _read(text: str | Thread, catalogue: _core.Catalogue) -> Thread:
    if isinstance(text, str):
        return _core.parse_thread(text, catalogue)
    if isinstance(text, Thread):
        return text
    raise _core.DesignationError(f"a thread is written as text, such as 'M10x1.5-6g', got {text!r}")


class ThreadLimits(Record):
    """Limits of size of one part of a thread, in its standard's own unit; None where no limit is set."""

    thread: Thread
    rule: Rule
    figures: LimitFigures
    _catalogue: _core.Catalogue
    _engagement_mm: float | None

    def __init__(
        self,
        thread: Thread,
        figures: LimitFigures,
        rule: Rule,
        catalogue: _core.Catalogue,
        engagement_mm: float | None = None,
    ) -> None:
        own = self.__dict__  # __setattr__ refuses
        own["thread"] = thread
        own["figures"] = figures
        own["rule"] = rule
        own["_catalogue"] = catalogue
        own["_engagement_mm"] = engagement_mm

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"limits cannot be changed: {name}")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"limits cannot be changed: {name}")

    def __getattr__(self, name: str) -> Any:
        # cautions, notes and evidence are made when they are first asked for
        if name == "cautions":
            made: Any = self._cautions()
        elif name == "notes":
            made = self._notes()
        elif name == "evidence":
            made = tuple(self.figures.evidence(self._catalogue))
        else:
            raise AttributeError(f"ThreadLimits has no attribute {name!r}")
        self.__dict__[name] = made
        return made

    def __eq__(self, other: object) -> bool:
        return isinstance(other, ThreadLimits) and self.thread == other.thread and self.to_dict() == other.to_dict()

    def __hash__(self) -> int:
        return hash((self.thread, self.rule))

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the limits by."""
        return token(self, self.thread, self.rule, self.figures)

    @property
    def unit(self) -> str:
        """The standard's unit, "mm" or "in"."""
        return self.figures.unit

    @property
    def side(self) -> str:
        """Which part: "external" or "internal"."""
        return self.figures.side

    @property
    def major_max(self) -> float | None:
        """Largest major diameter."""
        return self.figures.major_max

    @property
    def major_min(self) -> float | None:
        """Smallest major diameter."""
        return self.figures.major_min

    @property
    def pitch_max(self) -> float:
        """Largest pitch diameter."""
        return float(self.figures.pitch_max or 0.0)

    @property
    def pitch_min(self) -> float:
        """Smallest pitch diameter."""
        return float(self.figures.pitch_min or 0.0)

    @property
    def minor_max(self) -> float | None:
        """Largest minor diameter; a reference size on an external Unified thread."""
        return self.figures.minor_max

    @property
    def minor_min(self) -> float | None:
        """Smallest minor diameter; on an external metric thread that of the smallest root radius."""
        return self.figures.minor_min

    @property
    def major_min_unfinished(self) -> float | None:
        """Smallest major diameter of class 2A on unfinished hot-rolled material."""
        return self.figures.major_min_unfinished

    @property
    def unr_minor_max(self) -> float | None:
        """Largest minor diameter with the UNR root, a reference size."""
        return self.figures.unr_minor_max

    @property
    def allowance(self) -> float:
        """How far the external part stays below, or the internal part above, the basic size."""
        return abs(self.figures.deviation)

    @property
    def pitch_tolerance(self) -> float:
        """Tolerance of the pitch diameter before any rounding of the limits."""
        return self.figures.pitch_tolerance

    @property
    def crest_tolerance(self) -> float:
        """Tolerance of the crest: major of an external part, minor of an internal one."""
        return self.figures.crest_tolerance

    @property
    def root_radius_min(self) -> float | None:
        """Smallest radius at the root of an external metric thread."""
        return self.figures.root_radius_min

    @property
    def engagement_group(self) -> str:
        """Group S, N or L of the length of engagement, or "" where no length was given."""
        return self.figures.engagement_group

    def gauges(self) -> dict[str, float]:
        """What the gauges for this part are made to, in `unit`, before gauge tolerances and wear.

        ``go_pitch`` and ``not_go_pitch`` of the thread gauges (a ring for an external part, a plug for an internal
        one), ``go_crest`` (minor diameter of the go ring, major diameter of the go plug), ``plain_go`` and
        ``plain_not_go`` of the plain gauges on the crest.

        >>> limits("M10-6H").gauges()["not_go_pitch"]
        9.206
        """
        return _core.gauge_sizes(self.figures)

    def to_dict(self) -> dict[str, Any]:
        """The six limits as the standard rounds them, and their unit."""
        return {"unit": self.unit, **{name: getattr(self.figures, name) for name in _SIZES}}

    def lines(self) -> list[str]:
        """The limits as a person at the lathe reads them: upper over lower, then both units, then what they rest on."""
        ordered: list[tuple[str, float | None, float | None]] = [("pitch", self.pitch_max, self.pitch_min)]
        ordered.insert(0 if self.side == "external" else 1, ("major", self.major_max, self.major_min))
        ordered.insert(2 if self.side == "external" else 0, ("minor", self.minor_max, self.minor_min))
        said = ", ".join(f"{name} {self._span(high, low)}" for name, high, low in ordered)
        reference = " (minor for reference)" if self.unit == "in" and self.side == "external" else ""
        out = [f"{self.thread}: {said} {self.unit}{reference}", ""]
        out.append(f"  {'':<8}{'max':>9}{'min':>9} {self.unit}   {'max':>9}{'min':>9} {self._other_unit}")
        for name, high, low in ordered:
            row = f"  {name:<8}{self._text(high):>9}{self._text(low):>9}      "
            out.append(f"{row}{self._other(high):>9}{self._other(low):>9}".rstrip())
        out.append(f"  {self._basis()}")
        kinds = sorted({item.kind for item in self.evidence})
        out.append(f"  rests on: {', '.join(kinds)}")
        out += caution_lines((*self.notes, *self.cautions))
        return [*out, f"  {LOAD}"]

    @property
    def _other_unit(self) -> str:
        return "in" if self.unit == "mm" else "mm"

    def _basis(self) -> str:
        if self.unit == "mm":
            group = f", engagement {self.engagement_group}" if self.engagement_group else ""
            return f"ISO 965-1 on ISO 724 basic sizes{group}"
        rule = (
            "rounded as printed tables and go gauges are" if self.rule == "printed" else "its decimal rule since 2003"
        )
        return f"ASME B1.1, {rule}"

    def _text(self, value: float | None) -> str:
        if value is None:
            return "-"
        return f"{value:.{3 if self.unit == 'mm' else 4}f}"

    def _other(self, value: float | None) -> str:
        if value is None:
            return "-"
        return f"{value / 25.4:.4f}" if self.unit == "mm" else f"{value * 25.4:.3f}"

    def _span(self, high: float | None, low: float | None) -> str:
        if high is None:
            return f"{self._text(low)} min"
        if low is None:
            return f"{self._text(high)} max"
        return f"{self._text(high)}/{self._text(low)}"

    def _cautions(self) -> tuple[Caution, ...]:
        return tuple(caution(code, group=self.engagement_group) for code in self.figures.cautions)

    def _notes(self) -> tuple[Caution, ...]:
        if self.unit != "in":
            return ()
        other = "formula" if self.rule == "printed" else "printed"
        found = _core.thread_limits(self.thread, self._catalogue, other, self._engagement_mm)
        names = [name for name in _SIZES if not (name == "minor_max" and self.side == "external")]
        differences = [
            f"{name.replace('_', ' ')} {self._text(getattr(found, name))}"
            for name in names
            if getattr(found, name) != getattr(self.figures, name)
        ]
        return (caution(f"{other}_rule_differs", differences=", ".join(differences)),) if differences else ()


def limits(thread: str | Thread, *, engagement: Any = None, rule: Rule = "printed") -> ThreadLimits:
    """Limits of size of one part of a thread.

    Parameters
    ----------
    thread : str or Thread
        A designation with one class: ``"M10x1.5-6g"``, ``"1/4-20 UNC-2B"``. For one that names no class or both,
        take a part: ``limits(thread("M10").external)``.
    engagement : length, optional
        Length of engagement: text with a unit, or a `Length`. It chooses the group (S, N, L) of a metric thread, and
        outside the usual lengths the tolerance of a Unified one.
    rule : {"printed", "formula"}
        Decimal rule of Unified threads: what printed tables and go gauges carry (Halfnut's own fit to them), or the
        standard's own rule since 2003.

    Returns
    -------
    ThreadLimits
        In the standard's own unit, as the standard rounds.

    Raises
    ------
    DesignationError
        The designation is not understood.
    DomainError
        It names no class, or two; or the length is out of range.
    NotTabulatedError
        The class or form has no figures.

    >>> limits("M10x1.5-6g").to_dict()["pitch_max"]
    8.994
    >>> limits("1/4-20 UNC-2B").pitch_max
    0.2224
    >>> print(limits("M10-6H").lines()[0])
    M10x1.5-6H: minor 8.676/8.376, pitch 9.206/9.026, major 10.000 min mm
    """
    catalogue = active()
    given = _read(thread, catalogue)
    length_mm = None
    if engagement is not None:
        from halfnut.core.units import length

        length_mm = length(engagement, "engagement").mm
    return ThreadLimits(given, _core.thread_limits(given, catalogue, rule, length_mm), rule, catalogue, length_mm)


def limit_columns(
    designations: Iterable[str] | str,
    *,
    engagement_mm: ArrayLike = np.nan,
    rule: Rule = "printed",
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Limits of many designations as columns.

    Parameters
    ----------
    designations : str or iterable of str
        One designation a row, of any form that is known, each with one class; one serves all rows.
    engagement_mm : array_like
        Length of engagement, mm: one for all, or one a row (NaN: normal).
    rule : {"printed", "formula"}
        Decimal rule of Unified threads.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        ``major_max_mm`` ... ``minor_min_mm``, ``major_max_in`` ... ``minor_min_in`` (NaN where there is no limit),
        ``native_unit`` ("mm", "in", or "" in a failed row) and ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> limit_columns(["M10-6g", "1/4-20 UNC-2A", "Tr12x3-7e"])["pitch_max_mm"].round(3).tolist()
    [8.994, 5.497, 10.415]
    """
    names = [designations] if isinstance(designations, str) else list(designations)
    out = _core.thread_limit_columns(names, active(), columns(engagement_mm=engagement_mm), rule, on_error)
    out["native_unit"] = np.where(out["status"] == 0, np.array(["mm", "in"])[out.pop("unit_code")], "")
    return out
