"""What a threaded joint holds: areas, stripping, walls, torque and preload, minimum strengths, galling.

Level 1 are the formulas, in millimetres, newtons and megapascals or in inches, pounds and psi. `strength` answers for
a pair of threads, `tighten` for the torque, `minimum_strength` for an alloy in a form, `galling` for two metals.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    dilation_factor,
    engagement_for_load_in,
    engagement_for_load_mm,
    engagement_for_tension_in,
    engagement_for_tension_mm,
    external_bending_factor,
    external_shear_area_in2,
    external_shear_area_mm2,
    full_form_length_in,
    full_form_length_mm,
    handbook_torque_lbf_in,
    handbook_torque_nm,
    high_strength_stress_area_in2,
    high_strength_stress_area_mm2,
    hoop_compression_mpa,
    hoop_compression_psi,
    hoop_tension_mpa,
    hoop_tension_psi,
    internal_bending_factor,
    internal_shear_area_in2,
    internal_shear_area_mm2,
    loosening_torque_lbf_in,
    loosening_torque_nm,
    mean_stress_area_in2,
    mean_stress_area_mm2,
    metric_stress_area_mm2,
    minor_diameter_area_in2,
    minor_diameter_area_mm2,
    net_area_in2,
    net_area_mm2,
    nut_factor_torque_lbf_in,
    nut_factor_torque_nm,
    overload_factor,
    preload_from_torque_lbf,
    preload_from_torque_n,
    radial_pressure_mpa,
    radial_pressure_psi,
    section_load_lbf,
    section_load_n,
    share_of_strength,
    stripping_ratio,
    tightening_stress_mpa,
    tightening_stress_psi,
    tightening_torque_lbf_in,
    tightening_torque_nm,
    unified_stress_area_in2,
    yielding_factor,
)
from halfnut.core import carriers
from halfnut.core.arguments import checked, number
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one
from halfnut.core.units import length, quantity
from halfnut.core.words import GALLING_ADVICE, caution, caution_lines
from halfnut.material.alloys import Alloy, PropertySource, alloy
from halfnut.threads.form_threads import FormThread, form_limits, taper_pipe
from halfnut.threads.form_threads import thread as read_thread
from halfnut.threads.precoating import one_part
from halfnut.threads.standard import Thread, ThreadLimits, limits

__all__ = [
    "Galling",
    "MinimumStrength",
    "ThreadStrength",
    "Tightening",
    "dilation_factor",
    "engagement_for_load_in",
    "engagement_for_load_mm",
    "engagement_for_tension_in",
    "engagement_for_tension_mm",
    "external_bending_factor",
    "external_shear_area_in2",
    "external_shear_area_mm2",
    "full_form_length_in",
    "full_form_length_mm",
    "galling",
    "handbook_torque_lbf_in",
    "handbook_torque_nm",
    "high_strength_stress_area_in2",
    "high_strength_stress_area_mm2",
    "hoop_compression_mpa",
    "hoop_compression_psi",
    "hoop_tension_mpa",
    "hoop_tension_psi",
    "internal_bending_factor",
    "internal_shear_area_in2",
    "internal_shear_area_mm2",
    "loosening_torque_lbf_in",
    "loosening_torque_nm",
    "mean_stress_area_in2",
    "mean_stress_area_mm2",
    "metric_stress_area_mm2",
    "minimum_strength",
    "minor_diameter_area_in2",
    "minor_diameter_area_mm2",
    "net_area_in2",
    "net_area_mm2",
    "nut_factor_torque_lbf_in",
    "nut_factor_torque_nm",
    "overload_factor",
    "preload_from_torque_lbf",
    "preload_from_torque_n",
    "radial_pressure_mpa",
    "radial_pressure_psi",
    "section_load_lbf",
    "section_load_n",
    "share_of_strength",
    "strength_columns",
    "stripping_ratio",
    "tighten",
    "tightening_stress_mpa",
    "tightening_stress_psi",
    "tightening_torque_lbf_in",
    "tightening_torque_nm",
    "unified_stress_area_in2",
    "yielding_factor",
]

_HALF_ANGLE_DEG = 30.0

N_PER_LBF = 4.4482216152605
MPA_PER_KSI = 6.894757293168361
NM_PER_LBF_IN = 0.1129848290276167

# Suffix of a key, that of its other unit, and how many of the first make one of the second.
_OTHER_UNITS = (
    ("_mm2_mm", "_in2_in", 25.4),
    ("_mm2", "_in2", 645.16),
    ("_mm", "_in", 25.4),
    ("_nm", "_lbf_in", NM_PER_LBF_IN),
    ("_n", "_lbf", N_PER_LBF),
    ("_mpa", "_psi", MPA_PER_KSI / 1000.0),
)


def both_systems(figures: dict[str, Any]) -> dict[str, Any]:
    """Figures with each one in the other unit beside it."""
    out: dict[str, Any] = {}
    for key, value in figures.items():
        out[key] = value
        for suffix, other, scale in _OTHER_UNITS:
            if key.endswith(suffix) and (value is None or isinstance(value, (int, float))):
                out[key.removesuffix(suffix) + other] = None if value is None else value / scale
                break
    return out


def force_text(value_n: float, unit: str) -> str:
    """A force in both units, that of the thread's system first."""
    newtons = f"{value_n / 1000:.3g} kN" if value_n >= 1000 else f"{value_n:.3g} N"
    three = float(f"{value_n / N_PER_LBF:.3g}")
    pounds = f"{three:,.0f} lbf" if three >= 100 else f"{three:g} lbf"
    return f"{pounds} ({newtons})" if unit == "in" else f"{newtons} ({pounds})"


def stress_text(value_mpa: float, unit: str) -> str:
    ksi = f"{value_mpa / MPA_PER_KSI:.3g} ksi"
    mpa = f"{value_mpa:.3g} MPa"
    return f"{ksi} ({mpa})" if unit == "in" else f"{mpa} ({ksi})"


def torque_text(low_nm: float, high_nm: float, unit: str) -> str:
    def span(scale: float, name: str) -> str:
        first, second = f"{low_nm / scale:.3g}", f"{high_nm / scale:.3g}"
        return f"{first} {name}" if first == second else f"{first} to {second} {name}"

    metric, inch = span(1.0, "N m"), span(NM_PER_LBF_IN * 12.0, "lbf ft")
    return f"{inch} ({metric})" if unit == "in" else f"{metric} ({inch})"


def _row_evidence(table: str, row: int, key: str, figure: str, rule: str, source: str = "source") -> PropertySource:
    """What a figure rests on that is read from a row of a table."""
    cells = active().row(table, row)
    cited = cells[source] or cells["source"]
    return PropertySource(figure, rule, "", f"{table} {key}", cited["citation"], cited["kind"])


@dataclass(frozen=True, repr=False)
class MinimumStrength(Record):
    """Minimum strengths of an alloy in a form; None where the specification sets none or none is known."""

    alloy: str
    form: str
    temper: str
    tensile_mpa: float
    yield_mpa: float | None
    shear_mpa: float | None
    bearing_mpa: float | None
    over_mm: float | None
    up_to_mm: float | None
    weakest_of_several: bool
    note: str
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The strengths as a flat dictionary, in both systems of units."""
        own = self._fields()
        return both_systems(own)

    def lines(self) -> list[str]:
        """The strengths in the first line, then range, source, cautions."""

        def said(name: str, value: float | None) -> str:
            return f"{name} {stress_text(value, 'mm')}" if value is not None else f"{name} not set"

        first = f"{self.alloy} {self.form}, at least: {said('tensile', self.tensile_mpa)}"
        out = [f"{first}, {said('yield', self.yield_mpa)}"]
        for name, value in (("shear", self.shear_mpa), ("bearing", self.bearing_mpa)):
            if value is not None:
                out.append(f"  {name:<9} {stress_text(value, 'mm')}")
        out.append(f"  temper    {self.temper}")
        if self.over_mm or self.up_to_mm:
            low = f"over {both(self.over_mm, 'mm')}" if self.over_mm else ""
            high = f"up to {both(self.up_to_mm, 'mm')}" if self.up_to_mm else ""
            out.append(f"  serves    {' '.join(each for each in (low, high) if each)}")
        if self.note:
            out.append(f"  note      {self.note}")
        out += [f"  rests on  {item.source} [{item.kind}]" for item in self.evidence]
        out += caution_lines(self.cautions)
        return out


@checked
def minimum_strength(alloy_name: str | Alloy, form: str = "", *, thickness: Any = None) -> MinimumStrength:
    """Minimum strengths of an alloy in a form: what a load is to rest on.

    Parameters
    ----------
    alloy_name : str or Alloy
        As for `alloy`.
    form : str
        "bar", "casting", "drawn tube", "extrusion", "plate" or "sheet"; when it is not said, the error lists the
        forms of the alloy.
    thickness : str, Length or pint quantity, optional
        Diameter of a bar, thickness of plate, sheet or extrusion, wall of a tube; otherwise the weakest row.

    Returns
    -------
    MinimumStrength
        Immutable; prints itself, the strengths in its first line.

    Raises
    ------
    NotTabulatedError
        No minimum for this alloy, form or thickness; the message names those there are.

    >>> found = minimum_strength("6061-T6", "drawn tube")
    >>> round(found.tensile_mpa), round(found.yield_mpa)
    (290, 241)
    """
    found = alloy_name if isinstance(alloy_name, Alloy) else alloy(alloy_name)
    thickness_mm = None if thickness is None else length(thickness, "thickness").mm
    answer = _core.minimum_strength(found.index, form, thickness_mm, active())
    place = answer.pop("row")
    row = active().row("material/strengths", place)
    key = f"{row['alloy']} {row['form']} {row['step']}"
    evidence = [_row_evidence("material/strengths", place, key, "tensile_mpa", "minimum, as tabulated")]
    if answer["shear_mpa"] is not None:
        evidence.append(
            _row_evidence("material/strengths", place, key, "shear_mpa", "minimum, as tabulated", "shear_source")
        )
    cautions = [caution("strength_weakest_row")] if answer["weakest_of_several"] else []
    return MinimumStrength(
        alloy=found.title,
        form=row["form"],
        temper=row["temper"],
        note=row["note"],
        cautions=tuple(cautions),
        evidence=tuple(evidence),
        **answer,
    )


@dataclass(frozen=True, repr=False)
class Galling(Record):
    """How two metals go together in a thread, what to do about it, and the friction that goes with it."""

    alloy: str
    other: str
    severity: str
    """"unknown", "low", "moderate", "high" or "severe"."""
    advice: tuple[str, ...]
    friction: tuple[tuple[str, float, float], ...]
    """Lubricant, least and greatest friction; the metal that slides worse decides."""
    note: str
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The pair as a flat dictionary."""
        out = self._fields()
        out["advice"] = list(self.advice)
        out["friction"] = [list(each) for each in self.friction]
        return out

    def lines(self) -> list[str]:
        """The severity in the first line, then advice, friction, cautions."""
        known = "galling not known" if self.severity == "unknown" else f"galling {self.severity}"
        out = [f"{self.alloy} in {self.other}: {known}"]
        out += [f"  {each}" for each in self.advice]
        out += [f"  friction  {low:.2f} to {high:.2f} {name}" for name, low, high in self.friction]
        if self.note:
            out.append(f"  note      {self.note}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


@checked
def galling(external_alloy: str | Alloy, internal_alloy: str | Alloy) -> Galling:
    """Whether two metals gall in a thread, and what is done about it.

    Parameters
    ----------
    external_alloy, internal_alloy : str or Alloy
        As for `alloy`.

    Returns
    -------
    Galling
        Severity, advice on class, lubricant and handling, friction with each lubricant.

    Raises
    ------
    NotTabulatedError
        An alloy of no such name.

    >>> galling("6061-T6", "6061-T6").severity
    'high'
    """
    catalogue = active()
    pair = [each if isinstance(each, Alloy) else alloy(each) for each in (external_alloy, internal_alloy)]
    place = _core.galling_row(pair[0].index, pair[1].index, catalogue)
    row = catalogue.row("threads/galling", place)
    evidence = [
        _row_evidence("threads/galling", place, f"{row['group']} {row['other_group']}", "severity", "as tabulated")
    ]
    friction = []
    for lubricant in sorted({each["lubricant"] for each in catalogue.rows("threads/thread_friction")}):
        try:
            at = _core.thread_friction_row(pair[0].index, pair[1].index, lubricant, catalogue)
        except _core.NotTabulatedError:
            continue
        found = catalogue.row("threads/thread_friction", at)
        friction.append((lubricant, found["friction_low"], found["friction_high"]))
        key = f"{found['group']} {lubricant}"
        evidence.append(_row_evidence("threads/thread_friction", at, key, "friction", "as tabulated"))
    return Galling(
        alloy=pair[0].title,
        other=pair[1].title,
        severity=row["severity"],
        advice=tuple(GALLING_ADVICE[word] for word in row["advice"].split()),
        friction=tuple(friction),
        note=row["note"],
        cautions=(caution("galling"),) if row["severity"] in {"high", "severe"} else (),
        evidence=tuple(evidence),
    )


@dataclass(frozen=True, repr=False)
class ThreadStrength(Record):
    """What a threaded joint holds. mm, mm2, N, MPa; `to_dict` gives inches, pounds and psi beside them.

    No factor of safety is in any figure but `allowable_n` and `engagement_for_load_mm`.
    """

    external: str
    internal: str
    unit: str
    weakest: str
    """What breaks first: "external part in tension", "internal thread strips" and so on."""
    overlap_mm: float
    full_form_engagement_mm: float
    engaged_turns: float
    thread_depth_mm: float
    stress_area_mm2: float
    root_area_mm2: float
    external_net_area_mm2: float
    internal_net_area_mm2: float | None
    external_shear_area_mm2_mm: float
    internal_shear_area_mm2_mm: float
    external_shear_area_mm2: float
    internal_shear_area_mm2: float
    external_tensile_mpa: float
    internal_tensile_mpa: float
    external_yield_mpa: float | None
    internal_yield_mpa: float | None
    external_shear_strength_mpa: float
    internal_shear_strength_mpa: float
    external_material: str
    internal_material: str
    strength_ratio: float
    stripping_ratio: float
    outside_to_diameter: float | None
    dilation_factor: float
    external_bending_factor: float
    internal_bending_factor: float
    external_tension_n: float
    internal_tension_n: float | None
    external_stripping_n: float
    internal_stripping_n: float
    external_yield_n: float | None
    internal_yield_n: float | None
    weakest_n: float
    bears_n: float
    """Before a section yields or anything breaks."""
    factor_of_safety: float | None
    allowable_n: float | None
    load_n: float | None
    factor_reached: float | None
    engagement_required_mm: float
    engagement_handbook_mm: float
    engagement_practice_mm: float | None
    engagement_for_load_mm: float | None
    external_wall_mm: float | None
    internal_wall_mm: float | None
    radial_pressure_mpa: float | None
    internal_hoop_mpa: float | None
    external_hoop_mpa: float | None
    galling: str | None
    advice: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The joint as a flat dictionary with unit-suffixed keys, in both systems of units."""
        own = self._fields()
        own["advice"] = list(self.advice)
        return both_systems(own)

    def lines(self) -> list[str]:
        """What it bears in the first line, then engagement, loads, walls, what they rest on, cautions."""
        unit = self.unit

        def force(value_n: float) -> str:
            return force_text(value_n, unit)

        out = [
            f"{self.external} in {self.internal}: bears {force(self.bears_n)}; "
            f"first to break: {self.weakest} at {force(self.weakest_n)}"
        ]
        if self.allowable_n is not None:
            out.append(f"  allow     {force(self.allowable_n)}, factor of safety {self.factor_of_safety:g}")
        else:
            out.append("  allow     not answered: no factor of safety is given")
        if self.load_n is not None:
            reached = "" if self.factor_reached is None else f": factor {self.factor_reached:.2f}"
            out.append(f"  load      {force(self.load_n)}{reached}")
        lost = "" if self.overlap_mm == self.full_form_engagement_mm else f" of {one(self.overlap_mm, unit)} overlap"
        out.append(
            f"  engaged   {both(self.full_form_engagement_mm, unit)} full form{lost}, {self.engaged_turns:.1f} turns"
        )
        need = f"{both(self.engagement_required_mm, unit)} for a section to break before a thread strips"
        out.append(f"  engage    {need}; {one(self.engagement_handbook_mm, unit)} by the handbook's rule, solid parts")
        if self.engagement_practice_mm is not None:
            share = self.engagement_practice_mm / self._diameter_mm()
            out.append(f"  practice  {both(self.engagement_practice_mm, unit)}, {share:.2g} diameters")
        if self.engagement_for_load_mm is not None:
            factor = "" if self.factor_of_safety is None else f" with factor {self.factor_of_safety:g}"
            least_mm = 3.0 * self.full_form_engagement_mm / self.engaged_turns
            short = self.engagement_for_load_mm < least_mm
            least = f"; never under three turns, {one(least_mm, unit)}" if short else ""
            out.append(f"  for load  {both(self.engagement_for_load_mm, unit)} full form{factor}{least}")
        for side in ("external", "internal"):
            parts = []
            breaks, yields = getattr(self, f"{side}_tension_n"), getattr(self, f"{side}_yield_n")
            if breaks is not None:
                parts.append(f"section breaks {force(breaks)}")
                parts.append("yield not known" if yields is None else f"yields {force(yields)}")
            parts.append(f"thread strips {force(getattr(self, f'{side}_stripping_n'))}")
            out.append(f"  {side}  {', '.join(parts)}")
        out.append(
            f"  factors   dilation {self.dilation_factor:.3f}, bending {self.external_bending_factor:.3f} external, "
            f"{self.internal_bending_factor:.3f} internal"
        )
        for side in ("external", "internal"):
            wall = getattr(self, f"{side}_wall_mm")
            if wall is not None:
                where = "under" if side == "external" else "over"
                out.append(f"  wall      {both(wall, unit)} left {where} the {side} thread")
            tensile, shear = getattr(self, f"{side}_tensile_mpa"), getattr(self, f"{side}_shear_strength_mpa")
            made = getattr(self, f"{side}_material")
            out.append(
                f"  made of   {side} {made}: tensile {stress_text(tensile, unit)}, shear {stress_text(shear, unit)}"
            )
        if self.internal_hoop_mpa is not None:
            out.append(f"  hoop      {stress_text(self.internal_hoop_mpa, unit)} in the internal wall under the load")
        if self.galling is not None:
            out.append(f"  galling   {self.galling}")
            out += [f"  advice    {each}" for each in self.advice]
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out

    def _diameter_mm(self) -> float:
        return one_part(self.external, "external").diameter_mm


@dataclass(frozen=True)
class PartStrengths:
    """Strengths of one part, and where they come from."""

    title: str
    tensile_mpa: float
    yield_mpa: float | None
    shear_mpa: float | None
    alloy: Alloy | None
    evidence: tuple[Any, ...]
    cautions: tuple[Caution, ...]


def part_strength(
    side: str, alloy_name: Any, form: str | None, grade: str | None, thickness: Any, given: Sequence[Any], mm: float
) -> PartStrengths:
    """Strengths as they are given, else of the grade, else of the alloy's form."""

    def mpa(what: str, value: Any) -> float | None:
        return None if value is None else quantity(value, "stress", f"{side}_{what}").base

    names = ("tensile", "yield", "shear")
    tensile, yields, shear = (mpa(name, value) for name, value in zip(names, given, strict=True))
    found = None if alloy_name is None else alloy_name if isinstance(alloy_name, Alloy) else alloy(alloy_name)
    title = f"strengths as given{f', {found.title}' if found else ''}"
    evidence: list[Any] = []
    cautions: list[Caution] = []
    if tensile is None and grade is not None:
        bolt = _core.bolt_strength(grade, mm, active())
        evidence = [_row_evidence("threads/bolt_grades", bolt["row"], grade, f"{side}_tensile_mpa", "as tabulated")]
        title, tensile = f"grade {grade}", bolt["tensile_mpa"]
        yields = bolt["yield_mpa"] if yields is None else yields
    elif tensile is None and found is not None:
        least = minimum_strength(found, form or "", thickness=thickness)
        evidence = [replace(item, figure=f"{side}_{item.figure}") for item in least.evidence]
        cautions = list(least.cautions)
        title, tensile = f"{least.alloy} {least.form}, minimum", least.tensile_mpa
        yields = least.yield_mpa if yields is None else yields
        shear = least.shear_mpa if shear is None else shear
    if tensile is None:
        wanted = f"{side}_alloy and {side}_form, {'external_grade, ' if side == 'external' else ''}or {side}_tensile"
        raise _core.DomainError(f"the strength of the {side} part is needed: give {wanted}")
    return PartStrengths(title, tensile, yields, shear, found, tuple(evidence), tuple(cautions))


def practice_engagement(inner: Alloy, loading: str, diameter_mm: float) -> tuple[float, PropertySource]:
    """Length of engagement by practice in an internal part of this metal, mm, and where that comes from."""
    row, practice_mm = _core.engagement_practice(inner.index, loading, diameter_mm, active())
    cells = active().row("threads/engagement_practice", row)
    key = f"{cells['group']} {cells['loading']}"
    return practice_mm, _row_evidence(
        "threads/engagement_practice", row, key, "engagement_practice_mm", "rule of practice"
    )


def _limits_of(part: Any, side: str) -> ThreadLimits:
    found = part if isinstance(part, ThreadLimits) else limits(one_part(part, side))
    if found.side != side:
        raise _core.DomainError(f"the {side} part of a joint must be {side}, got {found.thread}")
    return found


@checked
def strength(
    external: Any,
    internal: Any,
    *,
    engagement: Any,
    external_alloy: str | Alloy | None = None,
    external_form: str | None = None,
    external_thickness: Any = None,
    external_grade: str | None = None,
    external_tensile: Any = None,
    external_yield: Any = None,
    external_shear: Any = None,
    internal_alloy: str | Alloy | None = None,
    internal_form: str | None = None,
    internal_thickness: Any = None,
    internal_tensile: Any = None,
    internal_yield: Any = None,
    internal_shear: Any = None,
    external_chamfer: Any = None,
    external_run_out: Any = None,
    internal_countersink: Any = None,
    internal_run_out: Any = None,
    external_bore: Any = None,
    internal_outside: Any = None,
    load: Any = None,
    factor_of_safety: float | None = None,
    loading: Literal["steady", "shock"] = "steady",
    rotating: bool = False,
) -> ThreadStrength:
    """What a threaded joint holds, what fails first, and how far it is to be engaged.

    Parameters
    ----------
    external, internal : str, Thread or ThreadLimits
        Designations (a class that is not given is the usual one), or limits, such as those before coating.
    engagement : str, Length or pint quantity
        Length over which one part is inside the other. Only its full form counts: give what the chamfers,
        countersinks and run-outs take of it, or a length from which they are already taken.
    external_alloy, internal_alloy : str or Alloy, optional
        With `external_form`, `internal_form` ("drawn tube", "bar", ...): minimum strengths by form. A thickness
        picks the row; without one the weakest is taken.
    external_grade : str, optional
        Grade or property class of a bolt instead: "8.8", "SAE 5", "A4-80".
    external_tensile, external_yield, external_shear, internal_tensile, internal_yield, internal_shear : optional
        Strengths of one's own, such as ``"310 MPa"`` or ``"45 ksi"``; they come before any table.
    external_chamfer, external_run_out, internal_countersink, internal_run_out : str, Length or pint quantity, optional
        Lengths within the engagement that have no full form; all countersinks together.
    external_bore : str, Length or pint quantity, optional
        Of a threaded tube.
    internal_outside : str, Length or pint quantity, optional
        Outside diameter, or width across flats, of the internal part; without it no dilation and no wall is counted.
    load : str or Quantity, optional
        Axial load on the joint.
    factor_of_safety : float, optional
        1 to 100; without one no allowable load is answered.
    loading : {"steady", "shock"}
        For the length of engagement by practice.
    rotating : bool
        Whether the joint turns, or feels loads that come and go.

    Returns
    -------
    ThreadStrength
        Immutable; prints itself, what it bears in its first line.

    Raises
    ------
    DesignationError, NotTabulatedError
        A thread, alloy, form or grade that is not understood or not tabulated.
    DomainError
        A size, strength or factor out of its range, no full form left, no wall left.

    >>> joint = strength("M10-6g", "M10-6H", engagement="15 mm", external_grade="8.8", internal_alloy="6061-T6",
    ...                  internal_form="bar", factor_of_safety=4)
    >>> joint.weakest, round(joint.bears_n, -2), round(joint.allowable_n, -2)
    ('external part in tension', 37100.0, 9300.0)
    """
    catalogue = active()

    def mm(value: Any, name: str) -> float | None:
        return None if value is None else length(value, name).mm

    male, female = _limits_of(external, "external"), _limits_of(internal, "internal")
    if not math.isclose(male.thread.pitch_mm, female.thread.pitch_mm, rel_tol=1e-9) or (
        male.thread.starts != female.thread.starts
    ):
        raise _core.DomainError(f"{male.thread} and {female.thread} are not one thread: pitch or starts differ")
    if male.thread.hand != female.thread.hand:
        raise _core.DomainError(f"{male.thread} and {female.thread} do not go together: their hands differ")
    diameter_mm = male.thread.diameter_mm
    own = part_strength(
        "external",
        external_alloy,
        external_form,
        external_grade,
        external_thickness,
        (external_tensile, external_yield, external_shear),
        diameter_mm,
    )
    mate = part_strength(
        "internal",
        internal_alloy,
        internal_form,
        None,
        internal_thickness,
        (internal_tensile, internal_yield, internal_shear),
        diameter_mm,
    )
    overlap_mm = length(engagement, "engagement").mm
    load_n = None if load is None else quantity(load, "force", "load").base
    answer = _core.strength_answer(
        male.thread,
        male.figures,
        female.figures,
        _core.PartStrength("external", own.tensile_mpa, own.yield_mpa, own.shear_mpa),
        _core.PartStrength("internal", mate.tensile_mpa, mate.yield_mpa, mate.shear_mpa),
        overlap_mm,
        external_chamfer_mm=mm(external_chamfer, "external_chamfer") or 0.0,
        external_run_out_mm=mm(external_run_out, "external_run_out") or 0.0,
        internal_countersink_mm=mm(internal_countersink, "internal_countersink") or 0.0,
        internal_run_out_mm=mm(internal_run_out, "internal_run_out") or 0.0,
        external_bore_mm=mm(external_bore, "external_bore") or 0.0,
        internal_outside_mm=mm(internal_outside, "internal_outside"),
        load_n=load_n,
        factor_of_safety=factor_of_safety,
    )
    figures: dict[str, Any] = answer.figures
    cautions = [caution(code) for code in answer.cautions]
    cautions += [each for each in (*own.cautions, *mate.cautions) if each not in cautions]
    evidence: list[Any] = [*answer.evidence(catalogue), *own.evidence, *mate.evidence]
    practice_mm = None
    if mate.alloy is not None:
        practice_mm, source = practice_engagement(mate.alloy, loading, diameter_mm)
        evidence.append(source)
        if figures["full_form_engagement_mm"] < practice_mm - 1e-9:
            cautions.append(caution("strength_under_practice", length=both(practice_mm, male.unit)))
    pair = galling(own.alloy, mate.alloy) if own.alloy is not None and mate.alloy is not None else None
    if pair is not None:
        evidence.append(pair.evidence[0])
        cautions += pair.cautions
    if rotating:
        cautions.append(caution("strength_rotating"))
    cautions.append(caution("strength_licensed"))
    return ThreadStrength(
        external=str(male.thread),
        internal=str(female.thread),
        unit=male.unit,
        weakest=answer.weakest,
        overlap_mm=overlap_mm,
        external_tensile_mpa=own.tensile_mpa,
        internal_tensile_mpa=mate.tensile_mpa,
        external_yield_mpa=own.yield_mpa,
        internal_yield_mpa=mate.yield_mpa,
        external_material=own.title,
        internal_material=mate.title,
        factor_of_safety=factor_of_safety,
        load_n=load_n,
        engagement_practice_mm=practice_mm,
        galling=None if pair is None else pair.severity,
        advice=() if pair is None else pair.advice,
        cautions=tuple(cautions),
        evidence=tuple(evidence),
        **figures,
    )


def strength_columns(
    external: Sequence[str] | str,
    internal: Sequence[str] | str,
    *,
    engagement_mm: ArrayLike,
    external_tensile_mpa: ArrayLike,
    internal_tensile_mpa: ArrayLike,
    external_yield_mpa: ArrayLike = np.nan,
    external_shear_mpa: ArrayLike = np.nan,
    internal_yield_mpa: ArrayLike = np.nan,
    internal_shear_mpa: ArrayLike = np.nan,
    external_chamfer_mm: ArrayLike = 0.0,
    external_run_out_mm: ArrayLike = 0.0,
    internal_countersink_mm: ArrayLike = 0.0,
    internal_run_out_mm: ArrayLike = 0.0,
    external_bore_mm: ArrayLike = 0.0,
    internal_outside_mm: ArrayLike = np.nan,
    load_n: ArrayLike = np.nan,
    factor_of_safety: ArrayLike = np.nan,
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """What many joints hold, as columns.

    Parameters
    ----------
    external, internal : str or sequence of str
        Designations; one serves all rows.
    engagement_mm, external_tensile_mpa, internal_tensile_mpa : array_like
        Overlap and tensile strengths: one value, or one a row.
    external_yield_mpa, external_shear_mpa, internal_yield_mpa, internal_shear_mpa : array_like
        NaN: not known; the shear strength is then 0.577 of the tensile.
    external_chamfer_mm, external_run_out_mm, internal_countersink_mm, internal_run_out_mm : array_like
        What has no full form within the overlap.
    external_bore_mm, internal_outside_mm : array_like
        Of a tube, and of the internal part (NaN: not known).
    load_n, factor_of_safety : array_like
        NaN: none.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        The core's figures of `ThreadStrength`, ``weakest``, ``cautions`` (bits) and ``status``.

    Raises
    ------
    DomainError
        With the first bad index and the count.

    >>> columns = strength_columns("M10-6g", "M10-6H", engagement_mm=[10.0, 20.0], external_tensile_mpa=800.0,
    ...                            internal_tensile_mpa=290.0)
    >>> columns["weakest"].tolist()
    ['internal thread strips', 'external part in tension']
    """
    numbers = carriers.columns(
        engagement_mm=engagement_mm,
        external_chamfer_mm=external_chamfer_mm,
        external_run_out_mm=external_run_out_mm,
        internal_countersink_mm=internal_countersink_mm,
        internal_run_out_mm=internal_run_out_mm,
        external_bore_mm=external_bore_mm,
        internal_outside_mm=internal_outside_mm,
        external_tensile_mpa=external_tensile_mpa,
        external_yield_mpa=external_yield_mpa,
        external_shear_mpa=external_shear_mpa,
        internal_tensile_mpa=internal_tensile_mpa,
        internal_yield_mpa=internal_yield_mpa,
        internal_shear_mpa=internal_shear_mpa,
        load_n=load_n,
        factor_of_safety=factor_of_safety,
    )
    rows = max(each.size for each in numbers)

    def texts(given: Sequence[str] | str) -> list[str]:
        many = [given] if isinstance(given, str) else list(given)
        return many * rows if len(many) == 1 else many

    columns = _core.strength_columns(texts(external), texts(internal), active(), numbers, on_error)
    names = np.array(_WEAKEST)
    weakest = names[columns.pop("weakest_code")]
    return {**columns, "weakest": np.where(columns["status"] == 0, weakest, "")}


_WEAKEST = (
    "external part in tension",
    "internal part in tension",
    "external thread strips",
    "internal thread strips",
)


@dataclass(frozen=True, repr=False)
class Tightening(Record):
    """Torque and preload over the range of friction. N, N m, MPa; `to_dict` gives pounds and psi beside them."""

    thread: str
    unit: str
    asked: str
    """"preload" or "torque"."""
    preload_min_n: float
    preload_max_n: float
    torque_min_nm: float
    torque_max_nm: float
    loosen_min_nm: float
    loosen_max_nm: float
    prevailing_nm: float
    nut_factor_min: float
    nut_factor_max: float
    thread_share_min: float
    thread_share_max: float
    practice_nut_factor: float | None
    practice_torque_nm: float | None
    """By the nut factor of common practice, for the middle preload, prevailing torque included."""
    stress_max_mpa: float
    yield_mpa: float | None
    lubricant: str
    thread_friction_low: float
    thread_friction_high: float
    bearing_friction_low: float
    bearing_friction_high: float
    bearing_diameter_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The tightening as a flat dictionary, in both systems of units."""
        own = self._fields()
        return both_systems(own)

    def lines(self) -> list[str]:
        """Torque or preload in the first line, then what it rests on, cautions."""
        unit = self.unit
        torque = torque_text(self.torque_min_nm, self.torque_max_nm, unit)
        if self.asked == "preload":
            out = [f"{self.thread}: {torque} for a preload of {force_text(self.preload_min_n, unit)}"]
        else:
            low, high = force_text(self.preload_min_n, unit), force_text(self.preload_max_n, unit)
            out = [f"{self.thread}: {torque} brings a preload of {low} to {high}"]
        out.append(
            f"  friction  thread {self.thread_friction_low:.2f} to {self.thread_friction_high:.2f}, seat "
            f"{self.bearing_friction_low:.2f} to {self.bearing_friction_high:.2f}, {self.lubricant}"
        )
        out.append(f"  seat      mean diameter {both(self.bearing_diameter_mm, unit)}")
        if self.prevailing_nm:
            out.append(f"  prevails  {torque_text(self.prevailing_nm, self.prevailing_nm, unit)}, included")
        out.append(f"  loosens   {torque_text(self.loosen_min_nm, self.loosen_max_nm, unit)}")
        practice = "none published for these flanks"
        if self.practice_nut_factor is not None and self.practice_torque_nm is not None:
            rule = torque_text(self.practice_torque_nm, self.practice_torque_nm, unit)
            practice = f"by practice {self.practice_nut_factor:g}, {rule}"
        out.append(f"  K         {self.nut_factor_min:.3f} to {self.nut_factor_max:.3f}; {practice}")
        bears = "" if self.yield_mpa is None else f", {100 * self.stress_max_mpa / self.yield_mpa:.0f} % of yield"
        out.append(f"  stress    {stress_text(self.stress_max_mpa, unit)} while tightening at most{bears}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


def _friction(value: Any, name: str) -> tuple[float, float]:
    """A friction or its range."""
    if isinstance(value, (list, tuple)) and len(value) == 2:
        return number(value[0], name), number(value[1], name)
    if isinstance(value, (list, tuple)):
        raise _core.DomainError(f"{name} must be a number or two, got {value!r}")
    return number(value, name), number(value, name)


def _nut_factor(condition: str) -> tuple[float, PropertySource]:
    """Of common practice, with 60 degree threads, and where it comes from."""
    factors = {row["condition"]: row for row in active().rows("threads/nut_factors")}
    if condition not in factors:
        near = _core.nearest_name(condition, sorted(factors))
        hint = f"; did you mean '{near}'?" if near else f"; there is {', '.join(sorted(factors))}"
        raise _core.NotTabulatedError(f"no nut factor for '{condition}'{hint}")
    cited = factors[condition]["source"]
    return factors[condition]["nut_factor"], PropertySource(
        "practice_nut_factor", "T = K F D", "", f"threads/nut_factors {condition}", cited["citation"], cited["kind"]
    )


def _tightened(found: Thread | FormThread, evidence: list[Any], cautions: list[Caution]) -> tuple[float, float, float]:
    """Mean thread diameter, half of the flank angle, and area of the section: mm, degrees, mm2."""
    if isinstance(found, Thread):
        area = (
            _core.unified_stress_area_in2(found.diameter_mm / 25.4, 25.4 / found.pitch_mm) * 645.16
            if found.unit == "in"
            else _core.metric_stress_area_mm2(found.diameter_mm, found.pitch_mm)
        )
        return _core.basic_pitch_diameter_mm(found.diameter_mm, found.pitch_mm), _HALF_ANGLE_DEG, area
    if found.form in {"NPT", "R"}:
        pipe = taper_pipe(found.external if found.prefix != "Rp" else f"R{found.size}")
        raise _core.NotTabulatedError(
            f"{found}: a taper pipe thread is made up by turns, not to a torque: {pipe.hand_turns:.1f} by hand, then "
            "by the wrench until it seals"
        )
    screw = form_limits(found, "external")
    assert screw.minor_max_mm is not None
    root_mm = screw.minor_max_mm - screw.pitch_tolerance_mm if screw.minor_min_mm is None else screw.minor_min_mm
    evidence += screw.evidence
    cautions += [*screw.cautions, caution("tighten_form")]
    return screw.basic_pitch_mm, screw.half_angle_deg, math.pi / 4.0 * root_mm**2


@checked
def tighten(
    thread: Any,
    *,
    preload: Any = None,
    torque: Any = None,
    share: float | None = None,
    external_alloy: str | Alloy | None = None,
    external_form: str | None = None,
    external_grade: str | None = None,
    external_yield: Any = None,
    internal_alloy: str | Alloy | None = None,
    lubricant: str | None = None,
    friction: Any = None,
    bearing_friction: Any = None,
    bearing_diameter: Any = None,
    bore: Any = None,
    prevailing: Any = None,
    condition: str = "unknown",
) -> Tightening:
    """Torque for a preload, or the preload that a torque brings, over the range of friction.

    Parameters
    ----------
    thread : str, Thread or FormThread
        Designation; sizes are basic ones. Of a form beside ISO metric and Unified the section is that of its least
        root, the flank angle and the lead its own.
    preload, torque : str or Quantity
        One of the two: ``"12 kN"``, ``"2500 lbf"``; ``"40 N m"``, ``"30 lbf ft"``. Or ...
    share : float, optional
        ... preload as a share of the proof strength of the grade, or of the yield strength: 0.75 is usual for a
        joint that is taken apart, 0.9 for one that stays.
    external_alloy, external_form, external_grade, external_yield : optional
        As for `strength`; for the share, and for the stress against yield.
    internal_alloy : str or Alloy, optional
        The other metal, for the friction; otherwise both are the external one.
    lubricant : str, optional
        "dry", "oil", "anti-seize paste", ...: friction of the pair from the table.
    friction, bearing_friction : float or (float, float), optional
        Friction in the thread and under the nut or head, each with its range; the second is the first when not given.
    bearing_diameter : str, Length or pint quantity, optional
        Mean diameter of the seat of nut or head; 1.25 diameters when not given. For a jam nut, its own.
    bore : str, Length or pint quantity, optional
        Of a threaded tube.
    prevailing : str or Quantity, optional
        Torque of a locking element or a coated thread before any preload.
    condition : str
        Of the nut factor of common practice, see the table threads/nut_factors.

    Returns
    -------
    Tightening
        Immutable; prints itself, torque and preload in its first line.

    Raises
    ------
    DomainError
        Neither or both of preload and torque, a friction out of its range.
    NotTabulatedError
        No friction for this pair and lubricant; a taper pipe thread.

    >>> tighten("M10", preload="20 kN", friction=(0.10, 0.16)).lines()[0]
    'M10x1.5: 27.8 to 41.7 N m (20.5 to 30.7 lbf ft) for a preload of 20 kN (4,500 lbf)'
    """
    catalogue = active()
    found = read_thread(thread)
    metals = (external_alloy, internal_alloy)
    pair = [each if each is None or isinstance(each, Alloy) else alloy(each) for each in metals]
    diameter_mm = found.diameter_mm
    evidence: list[Any] = []
    cautions: list[Caution] = []
    pitch_diameter_mm, half_angle_deg, area = _tightened(found, evidence, cautions)
    if friction is not None:
        thread_friction = _friction(friction, "friction")
        name = "as given"
    else:
        one_alloy, other_alloy = pair[0] or pair[1], pair[1] or pair[0]
        if one_alloy is None or other_alloy is None or lubricant is None:
            raise _core.DomainError("friction is needed: give it with its range, or the lubricant and the alloys")
        at = _core.thread_friction_row(one_alloy.index, other_alloy.index, lubricant, catalogue)
        cells = catalogue.row("threads/thread_friction", at)
        thread_friction = (cells["friction_low"], cells["friction_high"])
        name = lubricant
        key = f"{cells['group']} {lubricant}"
        evidence.append(_row_evidence("threads/thread_friction", at, key, "thread_friction_low", "as tabulated"))
    seat_friction = thread_friction if bearing_friction is None else _friction(bearing_friction, "bearing_friction")
    if thread_friction[0] == thread_friction[1]:
        cautions.append(caution("torque_friction_single"))
    bearing_mm = 1.25 * diameter_mm if bearing_diameter is None else length(bearing_diameter, "bearing_diameter").mm
    if bearing_diameter is None:
        cautions.append(caution("torque_seat_assumed", length=both(bearing_mm, found.unit)))
    bore_mm = 0.0 if bore is None else length(bore, "bore").mm
    section_mm = math.sqrt(4.0 * area / math.pi)

    yield_mpa = None if external_yield is None else quantity(external_yield, "stress", "external_yield").base
    holds = yield_mpa
    if external_grade is not None:
        bolt = _core.bolt_strength(external_grade, diameter_mm, catalogue)
        evidence.append(_row_evidence("threads/bolt_grades", bolt["row"], external_grade, "yield_mpa", "as tabulated"))
        yield_mpa = bolt["yield_mpa"]
        holds = bolt["proof_mpa"] or yield_mpa
    elif yield_mpa is None and pair[0] is not None and external_form is not None:
        least = minimum_strength(pair[0], external_form)
        evidence += least.evidence
        yield_mpa = holds = least.yield_mpa
    preload_n = None if preload is None else quantity(preload, "force", "preload").base
    if share is not None:
        if preload_n is not None or torque is not None:
            raise _core.DomainError("give one of preload, torque and share")
        if holds is None:
            raise _core.DomainError("a share needs a strength: external_grade, external_yield, or alloy and form")
        if not 0.0 < share <= 1.0:
            raise _core.DomainError(f"share must be above 0 and at most 1, got {share!r}")
        preload_n = share * holds * (area - math.pi / 4.0 * bore_mm**2)
    torque_nm = None if torque is None else quantity(torque, "torque", "torque").base
    prevailing_nm = 0.0 if prevailing is None else quantity(prevailing, "torque", "prevailing").base
    answer = _core.tightening_answer(
        diameter_mm=diameter_mm,
        pitch_diameter_mm=pitch_diameter_mm,
        lead_mm=found.lead_mm,
        half_angle_deg=half_angle_deg,
        section_diameter_mm=section_mm,
        bore_mm=bore_mm,
        thread_friction=thread_friction,
        bearing_friction=seat_friction,
        bearing_diameter_mm=bearing_mm,
        prevailing_nm=prevailing_nm,
        preload_n=preload_n,
        torque_nm=torque_nm,
    )
    figures: dict[str, Any] = answer.figures
    factor = None
    if half_angle_deg == _HALF_ANGLE_DEG:
        factor, source = _nut_factor(condition)
        evidence.append(source)
    middle_n = (figures["preload_min_n"] + figures["preload_max_n"]) / 2.0
    if yield_mpa is not None and figures["stress_max_mpa"] > yield_mpa:
        cautions.append(caution("torque_over_yield"))
    cautions.append(caution("strength_licensed"))
    return Tightening(
        thread=str(found),
        unit=found.unit,
        asked="preload" if torque is None else "torque",
        prevailing_nm=prevailing_nm,
        practice_nut_factor=factor,
        practice_torque_nm=None
        if factor is None
        else _core.nut_factor_torque_nm(middle_n, diameter_mm, factor) + prevailing_nm,
        yield_mpa=yield_mpa,
        lubricant=name,
        thread_friction_low=thread_friction[0],
        thread_friction_high=thread_friction[1],
        bearing_friction_low=seat_friction[0],
        bearing_friction_high=seat_friction[1],
        bearing_diameter_mm=bearing_mm,
        cautions=tuple(cautions),
        evidence=(*answer.evidence(catalogue), *evidence),
        **figures,
    )
