"""Screw threads of any form: designations, limits of size, and the profile's formulas.

A `Thread` is a system (ISO metric, Unified, or the form of trapezoidal, Acme, pipe and Whitworth threads) with its size
and classes. `ThreadLimits` are the limits of one part of it, or of a part by its sizes alone (`plain_thread`); whatever
is asked of a thread goes by them.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from typing import Any, Literal, TypeAlias

from halfnut import _core
from halfnut._core import (
    BuildUp,
    Length,
    PartLimits,
    Thread,
    basic_minor_diameter_mm,
    basic_pitch_diameter_mm,
    holding_friction,
    lead_angle_deg,
    root_diameter_mm,
    screw_efficiency,
    stress_diameter_mm,
    triangle_height_mm,
)
from halfnut.core.arguments import checked
from halfnut.core.arrays import ArrayLike, NDArray, np
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active, rows
from halfnut.core.fixed import token
from halfnut.core.given import FeedLike, LengthLike
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH, both
from halfnut.core.units import length
from halfnut.core.words import caution, caution_lines, words

__all__ = [
    "PartLike",
    "Side",
    "Thread",
    "ThreadLimits",
    "basic_minor_diameter_mm",
    "basic_pitch_diameter_mm",
    "holding_friction",
    "lead_angle_deg",
    "limit_columns",
    "limits",
    "limits_of",
    "mate",
    "plain_thread",
    "root_diameter_mm",
    "screw_efficiency",
    "stress_diameter_mm",
    "thread",
    "thread_series",
    "triangle_height_mm",
]

Rule = Literal["printed", "formula"]
Side = Literal["external", "internal"]

_SIZES = ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min")
_FORWARDED = frozenset(
    [
        "thread",
        "title",
        "side",
        "unit",
        "tolerance_class",
        "class_assumed",
        "by_form",
        "pitch_mm",
        "starts",
        "lead_mm",
        "hand",
        "half_angle_deg",
        "diameter_mm",
        "allowance",
        "allowance_mm",
        "pitch_tolerance",
        "pitch_tolerance_mm",
        "crest_tolerance",
        "root_radius_min",
        "engagement_group",
        "major_min_unfinished",
        "unr_minor_max",
    ]
) | {f"{name}{suffix}" for name in _SIZES for suffix in ("", "_mm", "_in")}
_GEOMETRY = frozenset({"form", "basic_pitch_mm", "basic_minor_mm", "root_radius_mm", "crest_flat_mm"})


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

    >>> str(mate("M24x1.5-6g", "internal")), str(mate("1/4-20 UNC-3A", "internal")), str(mate("Tr40x7-7e", "internal"))
    ('M24x1.5-6H', '1/4-20 UNC-3B', 'Tr40x7-7H')
    """
    return thread(text).mate(side)


class ThreadLimits(Record):
    """Limits of size of one part of a thread of any form, or of a part by its sizes alone.

    A limit without a suffix is in the standard's own unit, as it rounds; the same with ``_mm`` and ``_in``. None where
    no limit is set. Immutable; prints itself, the limits in its first line.
    """

    figures: PartLimits
    rule: Rule
    thread: Thread | None
    """None for sizes without a designation."""
    title: str
    """How answers call the part: its designation, and the side where that leaves it open."""
    side: str
    unit: str
    tolerance_class: str
    class_assumed: bool
    """No class was given: the limits are those of the usual one."""
    by_form: bool
    """Of a form beside ISO metric and Unified, or of sizes alone."""
    form: str
    """Its name, such as "trapezoidal"."""
    major_max: float | None
    major_min: float | None
    pitch_max: float
    pitch_min: float
    minor_max: float | None
    """A reference size on an external Unified thread."""
    minor_min: float | None
    """On an external metric thread that of the smallest root radius."""
    major_max_mm: float | None
    major_min_mm: float | None
    pitch_max_mm: float
    pitch_min_mm: float
    minor_max_mm: float | None
    minor_min_mm: float | None
    major_min_unfinished: float | None
    """Of class 2A on unfinished hot-rolled material."""
    unr_minor_max: float | None
    """With the UNR root, a reference size."""
    allowance: float | None
    """How far the external part stays below, or the internal part above, the basic size."""
    allowance_mm: float | None
    pitch_tolerance: float
    """Of the pitch diameter, before any rounding of the limits."""
    pitch_tolerance_mm: float
    crest_tolerance: float | None
    """Of the crest: major of an external part, minor of an internal one."""
    root_radius_min: float | None
    """At the root of an external metric thread."""
    engagement_group: str
    """Group S, N or L of the length of engagement, or "" where no length was given."""
    pitch_mm: float
    lead_mm: float
    starts: int
    hand: str
    half_angle_deg: float
    diameter_mm: float
    """Nominal; of sizes alone the largest that is known."""
    basic_pitch_mm: float
    basic_minor_mm: float | None
    root_radius_mm: float
    """Of a form whose root is round; 0 where it is flat, or free."""
    crest_flat_mm: float | None
    build_up: BuildUp | None
    """What the part is still to be coated with, where these are limits before coating."""
    other: ThreadLimits | None
    """Limits of the other part, where a designation means both."""
    notes: tuple[Caution, ...]

    def __init__(
        self,
        figures: PartLimits,
        rule: Rule = "printed",
        *,
        engagement_mm: float | None = None,
        other: ThreadLimits | None = None,
    ) -> None:
        own = self.__dict__  # __setattr__ refuses
        own["figures"] = figures
        own["rule"] = rule
        own["build_up"] = None
        own["other"] = other
        own["_engagement_mm"] = engagement_mm
        own["_catalogue"] = active()

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"limits cannot be changed: {name}")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"limits cannot be changed: {name}")

    def __getattr__(self, name: str) -> Any:
        if name in _FORWARDED:
            return getattr(self.figures, name)
        # what follows is made when it is first asked for
        if name in _GEOMETRY:
            self.__dict__.update(self.figures.geometry(self._catalogue))
        elif name == "cautions":
            self.__dict__[name] = self._cautions()
        elif name == "notes":
            self.__dict__[name] = self._notes()
        elif name == "evidence":
            self.__dict__[name] = tuple(self.figures.evidence(self._catalogue))
        else:
            raise AttributeError(f"ThreadLimits has no attribute {name!r}")
        return self.__dict__[name]

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and self.to_dict() == other.to_dict()

    def __hash__(self) -> int:
        return hash((self.title, self.side, self.rule))

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the limits by."""
        return token(self, self.rule, self.figures)

    @property
    def given(self) -> PartLimits:
        """What a question takes of it."""
        return self.figures

    @property
    def lead_angle_deg(self) -> float:
        """At the basic pitch diameter."""
        return float(lead_angle_deg(self.lead_mm, self.basic_pitch_mm))

    @property
    def holding_friction(self) -> float:
        """Least friction at which a load does not turn the screw."""
        return float(holding_friction(self.lead_mm, self.basic_pitch_mm, self.half_angle_deg))

    def gauges(self) -> dict[str, float]:
        """What the gauges for this part are made to, in `unit`, before gauge tolerances and wear.

        ``go_pitch`` and ``not_go_pitch`` of the thread gauges (a ring for an external part, a plug for an internal
        one), ``go_crest`` (minor diameter of the go ring, major diameter of the go plug), ``plain_go`` and
        ``plain_not_go`` of the plain gauges on the crest.

        Raises
        ------
        NotTabulatedError
            Another form than ISO metric and Unified.

        >>> limits("M10-6H").gauges()["not_go_pitch"]
        9.206
        """
        return self.figures.gauges()

    def sizes(self, name: Literal["major", "pitch", "minor"]) -> str:
        """One diameter's limits in `unit`, the greater one first.

        >>> limits("Tr12x3-7e").sizes("pitch"), limits("M10-6H").sizes("major")
        ('10.415/10.191', '10.000 min')
        """
        return _range(getattr(self, f"{name}_max_mm"), getattr(self, f"{name}_min_mm"), self.unit)

    def to_dict(self) -> dict[str, Any]:
        """The limits as a flat dictionary: the standard's own unit without a suffix, then mm and inches.

        Where the designation means both parts, those of the internal one follow with ``internal_`` before their names.
        """
        sizes = [f"{name}{suffix}" for suffix in ("", "_mm", "_in") for name in _SIZES]
        out: dict[str, Any] = {
            "thread": self.title if self.thread is None else str(self.thread),
            "side": self.side,
            "class": self.tolerance_class,
            "unit": self.unit,
            **{name: getattr(self, name) for name in sizes},
        }
        names = [
            "class_assumed",
            "rule",
            "form",
            "pitch_mm",
            "lead_mm",
            "starts",
            "hand",
            "half_angle_deg",
            "lead_angle_deg",
            "basic_pitch_mm",
            "allowance",
            "allowance_mm",
            "pitch_tolerance",
            "pitch_tolerance_mm",
            "crest_tolerance",
            "root_radius_min",
            "root_radius_mm",
            "crest_flat_mm",
            "major_min_unfinished",
            "unr_minor_max",
            "engagement_group",
        ]
        out |= {name: getattr(self, name) for name in names}
        if self.build_up is not None:
            out |= {"build_up_min_um": self.build_up.min_um, "build_up_max_um": self.build_up.max_um}
        if self.other is not None:
            own = self.other
            out |= {"internal_class": own.tolerance_class, **{f"internal_{name}": getattr(own, name) for name in sizes}}
        return out

    def whole(self) -> list[str]:
        """The limits as a person at the lathe reads them: upper over lower, then both units, then what they rest on."""
        order = ("major", "pitch", "minor") if self.side == "external" else ("minor", "pitch", "major")
        sizes = [(name, getattr(self, f"{name}_max_mm"), getattr(self, f"{name}_min_mm")) for name in order]
        sizes = [each for each in sizes if each[1:] != (None, None)]
        unit, other = self.unit, "in" if self.unit == "mm" else "mm"
        said = ", ".join(f"{name} {_range(high, low, unit)}" for name, high, low in sizes)
        reference = " (minor for reference)" if unit == "in" and self.side == "external" and not self.by_form else ""
        out = [f"{self.title}: {said} {unit}{reference}", ""]
        out.append(f"  {'':<8}{'max':>9}{'min':>9} {unit}   {'max':>9}{'min':>9} {other}")
        for name, high, low in sizes:
            cells = [_size(value, each) for each in (unit, other) for value in (high, low)]
            out.append(f"  {name:<8}{cells[0]:>9}{cells[1]:>9}      {cells[2]:>9}{cells[3]:>9}".rstrip())
        out += self._basis()
        out.append(f"  rests on: {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines((*self.notes, *self.cautions))
        if self.other is not None:
            out += ["", *self.other.whole()[:-1]]
        return [*out, f"  {words('said', 'load')}"]

    def lines(self) -> list[str]:
        """The limits, of both parts where the designation names neither; a class that was taken is said."""
        first, *told = super().lines()
        out = [first, *([] if self.other is None else self.other.lines()[:1])]
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
            if self.thread is not None and self.thread.lead_screw:
                out.append(f"  holds     a load does not turn it above a friction of {self.holding_friction:.3f}")
            return out
        if self.unit == "mm":
            group = f", engagement {self.engagement_group}" if self.engagement_group else ""
            return [f"  ISO 965-1 on ISO 724 basic sizes{group}"]
        rule = (
            "rounded as printed tables and go gauges are" if self.rule == "printed" else "its decimal rule since 2003"
        )
        return [f"  ASME B1.1, {rule}"]

    def _cautions(self) -> tuple[Caution, ...]:
        made = [caution("from_memory")] if self.by_form and any(each.kind == "memory" for each in self.evidence) else []
        codes = self.figures.cautions(self._catalogue)
        group, name = self.engagement_group, self.tolerance_class
        return (*made, *(caution(code, group=group, name=name) for code in codes))

    def _notes(self) -> tuple[Caution, ...]:
        if self.thread is None or self.unit != "in" or self.by_form:
            return ()
        other: Rule = "formula" if self.rule == "printed" else "printed"
        found = _core.thread_limits(self.thread, self._catalogue, self.side, other, self._engagement_mm)
        differences = [
            f"{name.replace('_', ' ')} {_size(getattr(found, f'{name}_mm'), self.unit)}"
            for name in _SIZES
            if not (name == "minor_max" and self.side == "external")
            and getattr(found, name) != getattr(self.figures, name)
        ]
        return (caution(f"{other}_rule_differs", differences=", ".join(differences)),) if differences else ()


def _size(value_mm: float | None, unit: str) -> str:
    if value_mm is None:
        return "-"
    return f"{value_mm:.3f}" if unit == "mm" else f"{value_mm / MM_PER_INCH:.4f}"


def _range(high_mm: float | None, low_mm: float | None, unit: str) -> str:
    if high_mm is None:
        return f"{_size(low_mm, unit)} min"
    if low_mm is None:
        return f"{_size(high_mm, unit)} max"
    return f"{_size(high_mm, unit)}/{_size(low_mm, unit)}"


PartLike: TypeAlias = str | Thread | ThreadLimits
LeadLike: TypeAlias = PartLike | LengthLike | FeedLike


@checked
def limits(
    thread: str | Thread, *, side: Side | None = None, engagement: LengthLike | None = None, rule: Rule = "printed"
) -> ThreadLimits:
    """Limits of size of a thread, of any form that is known.

    Parameters
    ----------
    thread : str or Thread
        ``"M10x1.5-6g"``, ``"1/4-20 UNC-2B"``, ``"Tr40x7-7e"``, ``"G1/2 A"``. One that names no class means both parts
        in their usual classes, and the answer says so.
    side : {"external", "internal"}, optional
        One part alone, of a designation that means both.
    engagement : length, optional
        Length of engagement: text with a unit, or a `Length`. It chooses the group (S, N, L) of a metric thread, and
        outside the usual lengths the tolerance of a Unified one; Whitworth tolerances depend on it.
    rule : {"printed", "formula"}
        Decimal rule of Unified threads: what printed tables and go gauges carry (Halfnut's own fit to them), or the
        standard's own rule since 2003.

    Returns
    -------
    ThreadLimits
        As the thread's standard rounds; of a designation that means both parts the external one, with the internal one
        as `other`.

    Raises
    ------
    DesignationError
        The designation is not understood.
    DomainError
        It is the class of the other part, or the length is out of range.
    NotTabulatedError
        The class or form has no figures; a taper pipe thread has a gauge plane and no limits.

    >>> limits("M10x1.5-6g").pitch_max, limits("1/4-20 UNC-2B").pitch_max, limits("Tr12x3-7e").pitch_max
    (8.994, 0.2224, 10.415)
    >>> print(limits("M10-6H").lines()[0])
    M10x1.5-6H: minor 8.676/8.376, pitch 9.206/9.026, major 10.000 min mm
    >>> both = limits("M8")
    >>> both.title, both.other.title, both.class_assumed
    ('M8x1.25-6g', 'M8x1.25-6H', True)
    """
    given = _thread(thread)
    length_mm = None if engagement is None else length(engagement, "engagement").mm

    def of(which: Side | None, other: ThreadLimits | None = None) -> ThreadLimits:
        found = _core.thread_limits(given, active(), which, rule, length_mm)
        return ThreadLimits(found, rule, engagement_mm=length_mm, other=other)

    means_both = side is None and given.has_external == given.has_internal and not given.pipe
    return of("external", of("internal")) if means_both else of(side)


_thread = thread


def limits_of(part: PartLike, side: Side | None = None, *, engagement: LengthLike | None = None) -> ThreadLimits:
    """Limits of one part, of the usual class where none is given; limits that are given come back.

    Parameters
    ----------
    part : str, Thread or ThreadLimits
        A designation, or limits, such as those before coating or of sizes alone.
    side : {"external", "internal"}, optional
        Which part it is to be; the one that is named, else the external one.
    engagement : length, optional
        As for `limits`.

    Raises
    ------
    DesignationError, DomainError, NotTabulatedError
        As from `limits`; limits of the other part.

    >>> limits_of("M10", "internal").pitch_min
    9.026
    """
    if not isinstance(part, ThreadLimits):
        given = thread(part)
        return limits(given, side=side or _core.one_part(given)[1], engagement=engagement)
    if side is not None and part.side != side:
        raise _core.DomainError(f"the {side} part must be {side}, got {part.title}")
    return part


def limit_columns(
    designations: Iterable[str] | str,
    *,
    engagement_mm: ArrayLike = math.nan,
    rule: Rule = "printed",
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Limits of many designations as columns.

    Parameters
    ----------
    designations : str or iterable of str
        One designation a row, of any form that is known; one serves all rows. The external part of one that means both.
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


def thread_series(form: str) -> list[dict[str, Any]]:
    """Standard sizes of a form: "Tr", "Acme", "Stub Acme", "G", "BSW", "BSF", "NPT" or "R".

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


@checked
def plain_thread(
    side: Side,
    *,
    pitch: LengthLike,
    half_angle_deg: float,
    pitch_diameter: LengthLike,
    major: LengthLike | None = None,
    minor: LengthLike | None = None,
    starts: int = 1,
    hand: Literal["right", "left"] = "right",
    title: str = "",
) -> ThreadLimits:
    """One part of a thread by its sizes, for forms that have no designation here.

    Parameters
    ----------
    side : {"external", "internal"}
        Which part.
    pitch : str, Length or pint quantity
        Axial pitch (not the lead), or threads per inch as ``"5 tpi"``.
    half_angle_deg : float
        Half of the thread angle, from 3 to 60: 27.5 for 55 degrees, 15 for 30, 14.5 for 29.
    pitch_diameter, major, minor : length or pair of lengths
        Smallest and largest, or one size that was measured. The crest (major of an external part, minor of an internal
        one) is what a wire has to stand above.
    starts : int
        1 to 100.
    hand : {"right", "left"}
        Of the helix.
    title : str
        How answers call it; made up of the sizes when not given.

    Returns
    -------
    ThreadLimits
        For `wires`, `fit`, `judge`, `precoat`, `strength` and `chase`.

    Raises
    ------
    DomainError
        A pair that is not in order, or a size, angle or number of starts out of its range.

    >>> screw = plain_thread("external", pitch="4 mm", half_angle_deg=15, pitch_diameter=("17.6 mm", "17.9 mm"),
    ...                      major=("19.7 mm", "20 mm"))
    >>> screw.title
    '30 degree external thread, pitch 4 mm, pitch diameter 17.9 mm'
    """
    if not 3.0 <= half_angle_deg <= 60.0:
        raise _core.DomainError(f"half_angle_deg must be from 3 to 60 deg, got {half_angle_deg:g}")
    if not (isinstance(starts, int) and 1 <= starts <= 100):
        raise _core.DomainError(f"starts must be a whole number from 1 to 100, got {starts!r}")
    axial = _pitch(pitch)
    (low, high), unit = _sizes(pitch_diameter, "pitch_diameter")
    crests: dict[str, tuple[float | None, float | None]] = {
        name: (None, None) if each is None else _sizes(each, name)[0]
        for name, each in (("major", major), ("minor", minor))
    }
    mouth = "major" if side == "external" else "minor"
    outside = crests[mouth][0 if side == "external" else 1]
    if outside is not None and (outside - high if side == "external" else low - outside) <= 0.0:
        raise _core.DomainError(f"the {mouth} diameter must lie on the other side of the pitch diameter")
    shown = f"{axial.mm:g} mm" if unit == "mm" else f"{axial.inch:.4g} in"
    across = f"{high:g} mm" if unit == "mm" else f"{high / MM_PER_INCH:.5g} in"
    named = f"{2 * half_angle_deg:g} degree {side} thread, pitch {shown}, pitch diameter {across}"
    found = _core.sized_limits(
        title or named,
        side,
        unit,
        axial.mm,
        starts,
        half_angle_deg,
        hand,
        crests["major"],
        (low, high),
        crests["minor"],
    )
    return ThreadLimits(found)


def _pitch(value: Any) -> Length:
    turns = (
        re.fullmatch(r"\s*((?!0\d)\d+(?:\.\d+)?)\s*tpi\s*", value, re.IGNORECASE) if isinstance(value, str) else None
    )
    if turns is not None and float(turns[1]) > 0:
        return Length(1.0 / float(turns[1]), "in")
    found = length(value, "pitch")
    if not found.mm > 0:
        raise _core.DomainError(f"pitch must be > 0, got {found}")
    return found


def _sizes(value: Any, name: str) -> tuple[tuple[float, float], str]:
    pair = value if isinstance(value, (tuple, list)) else (value, value)
    if len(pair) != 2:
        raise _core.DomainError(f"{name} takes one length, or the smallest and the largest; got {len(pair)}")
    low, high = (length(each, name) for each in pair)
    if not 0.0 < low.mm <= high.mm:
        raise _core.DomainError(f"{name} must be > 0, the smallest before the largest, got {low} and {high}")
    return (low.mm, high.mm), "in" if low.unit == "in" else "mm"
