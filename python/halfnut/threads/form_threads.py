"""Thread forms beside ISO metric and Unified: trapezoidal, Acme, pipe, Whitworth.

`form_thread` reads a designation, `form_limits` answers its limits, `taper_pipe` what a taper pipe thread is cut and
gauged to. `thread`, `limits`, `fit`, `wires`, `judge` and `precoat` take such designations, too.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import BuildUp, Evidence, FormThread, holding_friction, lead_angle_deg, screw_efficiency
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active, rows
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH, both, one, spans
from halfnut.core.units import length
from halfnut.core.words import LOAD, caution, caution_lines
from halfnut.material.coatings import build_up as read_build_up
from halfnut.material.coatings import process_cautions, refuse_coating
from halfnut.threads import standard
from halfnut.threads.plain_threads import PlainThread
from halfnut.threads.precoating import PrecoatLimits
from halfnut.threads.precoating import precoat as precoat_thread
from halfnut.threads.standard import Rule, Thread, ThreadLimits

__all__ = [
    "FormLimits",
    "FormThread",
    "TaperPipe",
    "coated_limits",
    "form_limits",
    "form_series",
    "form_thread",
    "holding_friction",
    "is_form",
    "limits",
    "precoat",
    "screw_efficiency",
    "taper_pipe",
    "taper_pipe_columns",
    "tapers",
    "thread",
]

_FIGURES = ("major_max_mm", "major_min_mm", "pitch_max_mm", "pitch_min_mm", "minor_max_mm", "minor_min_mm")
_LEAD_SCREWS = {"Tr", "Acme", "Stub Acme"}


def is_form(value: Any) -> bool:
    """Whether a text, a thread or limits are of such a form.

    >>> is_form("Tr40x7"), is_form("G1/2 A"), is_form("M10-6g"), is_form("1/4-20 UNC-2A")
    (True, True, False, False)
    """
    if isinstance(value, str):
        return _core.is_form_designation(value)
    return isinstance(value, (FormThread, FormLimits))


def form_thread(text: str | FormThread) -> FormThread:
    """A thread of such a form from its designation.

    Parameters
    ----------
    text : str or FormThread
        ``"Tr40x7-7e"``, ``"Tr 40 x 14 (P7) LH"``, ``"1 1/2-4 Acme-2G"``, ``"1-0.2P-0.4L Acme"``, ``"G1/2 A"``,
        ``"1/4-20 BSW"``, ``"1/2-14 NPT"``, ``"R1/2"``, ``"Rc1/2"``.

    Returns
    -------
    FormThread
        Immutable; ``str()`` is the one canonical designation.

    Raises
    ------
    DesignationError
        Not understood or contradictory; the error's ``position`` says where.
    NotTabulatedError
        No such size in the series that is named.

    >>> str(form_thread("Tr 40 x 14 (P7) LH - 7e")), form_thread("G1/2 A").diameter_mm
    ('Tr40x14(P7)LH-7e', 20.955)
    """
    return text if isinstance(text, FormThread) else _core.parse_form_thread(text, active())


def tapers(thread: FormThread) -> bool:
    """Whether it is a taper thread, which has a gauge plane and no limits.

    >>> tapers(form_thread("1/2-14 NPT")), tapers(form_thread("Rp1/2"))
    (True, False)
    """
    return thread.form in {"NPT", "R"} and thread.prefix != "Rp"


@checked
def thread(text: str | Thread | FormThread) -> Thread | FormThread:
    """A thread from its designation, of any form that is known.

    Parameters
    ----------
    text : str, Thread or FormThread
        As for `halfnut.threads.standard.thread` and `form_thread`.

    Returns
    -------
    Thread or FormThread
        Immutable; ``str()`` is the one canonical designation.

    Raises
    ------
    DesignationError, NotTabulatedError
        As from those.

    >>> str(thread("M10")), str(thread("tr40x7"))
    ('M10x1.5', 'Tr40x7')
    """
    if isinstance(text, FormThread) or (isinstance(text, str) and is_form(text)):
        return form_thread(text)
    return standard.thread(text)


@dataclass(frozen=True, repr=False)
class FormLimits(PlainThread, Record):
    """Limits of one part of such a form, mm; None where its standard sets none. `wires` and `fit` take it."""

    thread: FormThread
    tolerance_class: str
    form: str
    lead_angle_deg: float
    """At the basic pitch diameter."""
    basic_pitch_mm: float
    allowance_mm: float
    pitch_tolerance_mm: float
    root_radius_mm: float
    crest_flat_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)
    build_up: BuildUp | None = field(default=None, compare=False)
    """What the part is still to be coated with, where these are limits before coating."""

    __repr__ = Record.__repr__

    def __str__(self) -> str:
        return "\n".join(self.lines())

    def to_dict(self) -> dict[str, Any]:
        """The limits as a flat dictionary with unit-suffixed keys."""
        out = self._fields("thread", "build_up")
        coat = self.build_up
        films = {} if coat is None else {"build_up_min_um": coat.min_um, "build_up_max_um": coat.max_um}
        return {"thread": str(self.thread), **out, **films}

    @property
    def diameter_mm(self) -> float:
        """Nominal."""
        return self.thread.diameter_mm

    def _native(self, size_mm: float) -> float:
        # back to the places that the standard has: 25.4 over and back leaves a last bit
        return round(size_mm / MM_PER_INCH, 9) if self.unit == "in" else size_mm

    @property
    def major_max(self) -> float | None:
        """In the thread's own unit."""
        return None if self.major_max_mm is None else self._native(self.major_max_mm)

    @property
    def major_min(self) -> float | None:
        """In the thread's own unit."""
        return None if self.major_min_mm is None else self._native(self.major_min_mm)

    @property
    def pitch_max(self) -> float:
        """In the thread's own unit."""
        return self._native(self.pitch_max_mm)

    @property
    def pitch_min(self) -> float:
        """In the thread's own unit."""
        return self._native(self.pitch_min_mm)

    @property
    def minor_max(self) -> float | None:
        """In the thread's own unit."""
        return None if self.minor_max_mm is None else self._native(self.minor_max_mm)

    @property
    def minor_min(self) -> float | None:
        """In the thread's own unit."""
        return None if self.minor_min_mm is None else self._native(self.minor_min_mm)

    def sizes(self, name: str) -> str:
        """One diameter's limits, the greater one first."""
        low, high = getattr(self, f"{name}_min_mm"), getattr(self, f"{name}_max_mm")
        least, most = ("" if each is None else one(each, self.unit).rsplit(" ", 1)[0] for each in (low, high))
        return f"{most}/{least}" if least and most else f"{most} max" if most else f"{least} min"

    def lines(self) -> list[str]:
        """The limits in the first line, then both units, the helix, what it rests on, cautions."""
        order = ("major", "pitch", "minor") if self.side == "external" else ("minor", "pitch", "major")
        given = [
            name
            for name in order
            if getattr(self, f"{name}_min_mm") is not None or getattr(self, f"{name}_max_mm") is not None
        ]
        out = [f"{self.title}: {', '.join(f'{name} {self.sizes(name)}' for name in given)} {self.unit}"]
        for name in given:
            low, high = getattr(self, f"{name}_min_mm"), getattr(self, f"{name}_max_mm")
            if low is not None and high is not None:
                out.append(f"  {name:<9} {spans(low, high, self.unit)}")
            else:
                out.append(f"  {name:<9} {both(low if high is None else high, self.unit)}")
        starts = f", {self.starts} starts" if self.starts > 1 else ""
        hand = ", left-hand" if self.hand == "left" else ""
        out.append(f"  form      {self.form}, flanks {2 * self.half_angle_deg:g} deg{starts}{hand}")
        out.append(f"  lead      {both(self.lead_mm, self.unit)}, {self.lead_angle_deg:.2f} deg at the pitch diameter")
        if self.thread.form in _LEAD_SCREWS:
            out.append(f"  holds     a load does not turn it above a friction of {self.holding_friction:.3f}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return [*out, LOAD]

    @property
    def holding_friction(self) -> float:
        """Least friction at which a load does not turn the screw."""
        return float(holding_friction(self.lead_mm, self.basic_pitch_mm, self.half_angle_deg))


def form_limits(
    thread: str | FormThread, side: str | None = None, *, engagement: Any = None, usual: bool = False
) -> FormLimits:
    """Limits of size of one part of such a form.

    Parameters
    ----------
    thread : str or FormThread
        ``"Tr40x7-7e"``; without a class, or with one for both parts (``"1-5 Acme-2G"``), say the side.
    side : {"external", "internal"}, optional
        Which part is meant where the designation leaves it open.
    engagement : length, optional
        Length of engagement, one diameter where none is given: Whitworth tolerances depend on it.
    usual : bool
        Take the external part where neither the designation nor `side` says which.

    Returns
    -------
    FormLimits
        Immutable; prints itself, the limits in its first line.

    Raises
    ------
    NotTabulatedError
        The standard gives no such class, or no limits at all: a taper pipe thread has a gauge plane.
    DomainError
        Neither part is named.

    >>> print(form_limits("Tr12x3-7e").lines()[0])
    Tr12x3-7e: major 12.000/11.764, pitch 10.415/10.191, minor 8.500/8.135 mm
    """
    catalogue = active()
    named, side, title = _core.one_part(form_thread(thread), side, usual)
    assert isinstance(named, FormThread)
    length_mm = None if engagement is None else length(engagement, "engagement").mm
    answer = _core.form_limits_answer(named, side, catalogue, length_mm)
    shape = _core.form_geometry(named, catalogue)
    evidence = tuple(answer["evidence"])
    made = []
    if any(item.kind == "memory" for item in evidence):
        made.append(caution("form_memory"))
    if named.form in _LEAD_SCREWS and not shape["in_series"]:
        made.append(caution("form_special_pair"))
    if named.starts > 1 and named.form != "Tr":
        made.append(caution("multi_start"))
    return FormLimits(
        title=title,
        side=side,
        unit=named.unit,
        pitch_mm=named.pitch_mm,
        starts=named.starts,
        half_angle_deg=shape["half_angle_deg"],
        hand=named.hand,
        **{name: answer[name] for name in _FIGURES},
        thread=named,
        tolerance_class=named.external_class if side == "external" else named.internal_class,
        form=shape["name"],
        lead_angle_deg=float(lead_angle_deg(named.lead_mm, shape["basic_pitch_mm"])),
        basic_pitch_mm=shape["basic_pitch_mm"],
        allowance_mm=answer["allowance_mm"],
        pitch_tolerance_mm=answer["pitch_tolerance_mm"],
        root_radius_mm=shape["root_radius_mm"],
        crest_flat_mm=shape["crest_flat_mm"],
        cautions=tuple(made),
        evidence=evidence,
    )


@checked
def limits(
    thread: str | Thread | FormThread, *, engagement: Any = None, rule: Rule = "printed"
) -> ThreadLimits | FormLimits:
    """Limits of size of one part of a thread, of any form that is known.

    Parameters
    ----------
    thread : str, Thread or FormThread
        A designation with one class: ``"M10x1.5-6g"``, ``"1/4-20 UNC-2B"``, ``"Tr40x7-7e"``, ``"G1/2 A"``.
    engagement : length, optional
        Length of engagement, where the standard makes use of it.
    rule : {"printed", "formula"}
        Decimal rule of Unified threads.

    Returns
    -------
    ThreadLimits or FormLimits
        As the thread's standard rounds.

    Raises
    ------
    DesignationError, DomainError, NotTabulatedError
        As from `halfnut.threads.standard.limits` and `form_limits`.

    >>> limits("M10x1.5-6g").to_dict()["pitch_max"], limits("Tr12x3-7e").pitch_max_mm
    (8.994, 10.415)
    """
    if isinstance(thread, FormThread) or (isinstance(thread, str) and is_form(thread)):
        return form_limits(thread, engagement=engagement)
    return standard.limits(thread, engagement=engagement, rule=rule)


def coated_limits(bare: FormLimits, coat: BuildUp) -> FormLimits:
    """Limits to cut a part to, so that it is within its own once it is coated.

    The pitch diameter moves by 2 / sin A times the build-up, a crest or root by twice the build-up. No standard of
    these forms says that an allowance may hold a coating: all of it is taken off.

    Raises
    ------
    DomainError
        The coating varies by more than a tolerance.

    >>> bare = form_limits("Tr40x7-7e")
    >>> round(bare.pitch_max_mm - coated_limits(bare, BuildUp(5.0, 5.0)).pitch_max_mm, 4)
    0.0386
    """
    moved: dict[str, Any] = _core.sizes_before_coating(bare.part(coat), bare.side, bare.title)
    made = [caution("form_precoat"), *process_cautions(coat, internal=bare.side == "internal")]
    title = f"{bare.title} before coating"
    return replace(bare, title=title, cautions=(*bare.cautions, *made), build_up=coat, **moved)


@checked
def precoat(thread: str | Thread | FormThread, build_up: Any, **given: Any) -> PrecoatLimits | FormLimits:
    """Limits to cut a thread to so that it gauges once it is coated, of any form that is known.

    Parameters
    ----------
    thread : str, Thread or FormThread
        With a class, or of the usual one.
    build_up : str, Length, pint quantity, pair of lengths, Coating or BuildUp
        See `halfnut.material.coatings.build_up`.
    **given
        For ISO metric and Unified threads as for `precoating.precoat`; for the others `engagement` and `on`.

    Returns
    -------
    PrecoatLimits or FormLimits
        See `halfnut.threads.precoating.precoat` and `coated_limits`.

    Raises
    ------
    DomainError
        The coating varies by more than a tolerance, or an argument does not serve this form.

    >>> precoat("M10-6g", "8 um").way
    'held'
    >>> round(precoat("Tr40x7-7e", "5 um").pitch_max_mm, 3)
    36.336
    """
    if isinstance(thread, Thread) or not is_form(thread):
        assert not isinstance(thread, FormThread)
        return precoat_thread(thread, build_up, **given)
    engagement, on = given.pop("engagement", None), given.pop("on", None)
    if given:
        raise _core.DomainError(f"{', '.join(given)}: no standard of this form has a use for it")
    found = read_build_up(build_up)
    if on is not None:
        refuse_coating(found, on)
    return coated_limits(form_limits(thread, engagement=engagement, usual=True), found)


def form_series(form: str) -> list[dict[str, Any]]:
    """Standard sizes of a form: "Tr", "Acme", "Stub Acme", "G", "BSW", "BSF", "NPT" or "R".

    Raises
    ------
    NotTabulatedError
        No such form; the message names the nearest.

    >>> [row["pitch_mm"] for row in form_series("Tr") if row["diameter"] == 40]
    [7.0, 3.0, 10.0]
    """
    names = [row["form"] for row in rows("threads/thread_forms")]
    if form not in names:
        near = _core.nearest_name(form, names)
        hint = f"; did you mean '{near}'?" if near else ""
        raise _core.NotTabulatedError(f"no thread form '{form}'; the forms are {', '.join(names)}{hint}")
    table = "threads/taper_pipe" if form in {"NPT", "R"} else "threads/form_series"
    return [row for row in rows(table) if row["form"] == form]


@dataclass(frozen=True, repr=False)
class TaperPipe(Record):
    """What a taper pipe thread is cut and gauged to, mm; None where the standard gives none."""

    thread: str
    unit: str
    tpi: float
    pitch_small_end_mm: float
    """E0, at the end of the pipe."""
    pitch_gauge_plane_mm: float
    """E1, a hand engagement from the end."""
    pitch_effective_mm: float | None
    pitch_wrench_mm: float | None
    hand_engagement_mm: float
    effective_length_mm: float | None
    wrench_length_mm: float | None
    overall_length_mm: float | None
    full_crest_length_mm: float | None
    thread_height_mm: float
    hand_turns: float
    tolerance_turns: float
    hole_at_face_mm: float
    """Minor diameter at the mouth of the internal thread: a reamer's large end."""
    hole_at_end_mm: float
    """Minor diameter where the internal thread ends: the hole to drill before reaming."""
    compound_setting_deg: float
    """Half of the taper: to the axis."""
    taper_on_diameter: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    def lines(self) -> list[str]:
        """Turns by hand in the first line, then gauge plane, lengths, holes, how to set the lathe, cautions."""
        unit = self.unit

        def size(value_mm: float) -> str:
            return both(value_mm, unit)

        out = [
            f"{self.thread}: {self.hand_turns:.2f} turns by hand, {self.hand_turns - self.tolerance_turns:.1f} to "
            f"{self.hand_turns + self.tolerance_turns:.1f}; gauge plane {one(self.hand_engagement_mm, unit)} "
            "from the end",
        ]
        out.append(
            f"  pitch     {size(self.pitch_small_end_mm)} at the end, {size(self.pitch_gauge_plane_mm)} at the plane"
        )
        if self.effective_length_mm is not None and self.pitch_effective_mm is not None:
            out.append(f"  thread    {size(self.effective_length_mm)} effective, {size(self.pitch_effective_mm)} there")
        if self.overall_length_mm is not None:
            out.append(f"  overall   {size(self.overall_length_mm)} with the vanishing threads")
        out.append(f"  height    {size(self.thread_height_mm)}")
        out.append(
            f"  hole      drill at most {size(self.hole_at_end_mm)}, ream to {size(self.hole_at_face_mm)} at the mouth"
        )
        out.append(
            f"  set       compound or attachment at {self.compound_setting_deg:.4f} deg; attachment "
            f"{12 * self.taper_on_diameter:g} in per foot; tool square to the axis, not to the taper"
        )
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        return [*out, *caution_lines(self.cautions)]


@checked
def taper_pipe(thread: str | FormThread) -> TaperPipe:
    """What a taper pipe thread is cut and gauged to: turns by hand, gauge plane, holes, setting of the lathe.

    Parameters
    ----------
    thread : str or FormThread
        ``"1/2-14 NPT"``, ``"R1/2"``, ``"Rc1/2"``.

    Returns
    -------
    TaperPipe
        Immutable; prints itself, turns of hand engagement in its first line.

    Raises
    ------
    NotTabulatedError
        Not a taper form, or no such size.

    >>> found = taper_pipe("1/2-14 NPT")
    >>> round(found.pitch_small_end_mm / 25.4, 5), round(found.hand_turns, 2)
    (0.75843, 4.48)
    """
    given = form_thread(thread)
    answer: dict[str, Any] = _core.taper_pipe_answer(given, active())
    evidence = tuple(answer.pop("evidence"))
    made = [caution("taper_pipe_seal")]
    if any(item.kind == "memory" for item in evidence):
        made.insert(0, caution("form_memory"))
    return TaperPipe(
        thread=str(given), unit=given.unit, tpi=given.tpi, cautions=tuple(made), evidence=evidence, **answer
    )


def taper_pipe_columns(
    designations: Iterable[str] | str, *, on_error: Literal["raise", "status"] = "raise"
) -> dict[str, NDArray[Any]]:
    """Taper pipe threads of many designations as columns.

    Parameters
    ----------
    designations : str or iterable of str
        ``"1/2-14 NPT"``, ``"R1/2"``, ``"Rc1/2"`` and so on.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        The figures of `TaperPipe` (NaN where the standard gives none), ``native_unit`` ("mm", "in", or "" in a failed
        row) and ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> taper_pipe_columns(["1/2-14 NPT", "R1/2"])["hand_turns"].round(2).tolist()
    [4.48, 4.52]
    """
    names = [designations] if isinstance(designations, str) else list(designations)
    out = _core.taper_pipe_columns(names, active(), on_error)
    out["native_unit"] = np.where(out["status"] == 0, np.array(["mm", "in"])[out.pop("unit_code")], "")
    return out
