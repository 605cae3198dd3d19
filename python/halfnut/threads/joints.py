"""What a threaded joint holds, and what fails first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, ClassVar, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import spell, spell_span
from halfnut.core import carriers
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, both_systems, one
from halfnut.core.units import length, quantity
from halfnut.core.words import caution, caution_lines
from halfnut.material.alloys import Alloy, PropertySource
from halfnut.material.questions import alloy
from halfnut.threads.metals import galling, minimum_strength, row_evidence
from halfnut.threads.standard import PartLike, ThreadLimits, limits_of, screw_efficiency

__all__ = ["ThreadStrength", "strength", "strength_columns"]


@dataclass(frozen=True, repr=False)
class ThreadStrength(Record):
    """What a threaded joint holds. mm, mm2, N, MPa; `to_dict` gives inches, pounds and psi beside them.

    No factor of safety is in any figure but `allowable_n` and `engagement_for_load_mm`.
    """

    SHORT: ClassVar[tuple[str, ...]] = ("allow", "engage")
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
    flank_pressure_mpa: float | None
    """Of the load on the projected flanks that are engaged; None where there is no load."""
    holding_friction: float
    """Least friction in the thread at which a load does not turn it."""
    friction: tuple[float, float] | None
    """In the thread, least and greatest; of ISO metric and Unified threads None unless it is given."""
    raising_torque_nm: tuple[float, float] | None
    """Of the screw alone under the load, for the least and the greatest friction."""
    by_form: bool
    """Of a form beside ISO metric and Unified, for whose flanks no factors are published."""
    diameter_mm: float
    galling: str | None
    advice: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The joint as a flat dictionary with unit-suffixed keys, in both systems of units."""
        own = self._fields()
        own["advice"] = list(self.advice)
        return both_systems(own)

    def whole(self) -> list[str]:
        """What it bears in the first line, then engagement, loads, walls, what they rest on, cautions."""
        unit = self.unit

        def force(value_n: float) -> str:
            return spell(value_n, "force", unit)

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
            if self.flank_pressure_mpa is not None and self.by_form:
                reached += f"{',' if reached else ':'} {spell(self.flank_pressure_mpa, 'stress', unit)} on the flanks"
            out.append(f"  load      {force(self.load_n)}{reached}")
        lost = "" if self.overlap_mm == self.full_form_engagement_mm else f" of {one(self.overlap_mm, unit)} overlap"
        out.append(
            f"  engaged   {both(self.full_form_engagement_mm, unit)} full form{lost}, {self.engaged_turns:.1f} turns"
        )
        need = f"{both(self.engagement_required_mm, unit)} for a section to break before a thread strips"
        out.append(f"  engage    {need}; {one(self.engagement_handbook_mm, unit)} by the handbook's rule, solid parts")
        if self.engagement_practice_mm is not None:
            share = self.engagement_practice_mm / self.diameter_mm
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
            f"{self.internal_bending_factor:.3f} internal{', bounds from 60 degree threads' if self.by_form else ''}"
        )
        for side in ("external", "internal"):
            wall = getattr(self, f"{side}_wall_mm")
            if wall is not None:
                where = "under" if side == "external" else "over"
                out.append(f"  wall      {both(wall, unit)} left {where} the {side} thread")
            tensile, shear = getattr(self, f"{side}_tensile_mpa"), getattr(self, f"{side}_shear_strength_mpa")
            made = getattr(self, f"{side}_material")
            strengths = f"tensile {spell(tensile, 'stress', unit)}, shear {spell(shear, 'stress', unit)}"
            out.append(f"  made of   {side} {made}: {strengths}")
        if self.internal_hoop_mpa is not None:
            out.append(
                f"  hoop      {spell(self.internal_hoop_mpa, 'stress', unit)} in the internal wall under the load"
            )
        if self.friction is not None:
            slick, rough = self.friction
            if self.raising_torque_nm is not None:
                torque = spell_span(*self.raising_torque_nm, "torque", unit)
                out.append(f"  raise     {torque} in the screw, friction {slick:g} to {rough:g}")
            holds = "holds" if self.holding_friction <= slick else "does not hold for certain"
            out.append(f"  holds     {holds}: it needs a friction of {self.holding_friction:.3f}; shaking lowers it")
        if self.galling is not None:
            out.append(f"  galling   {self.galling}")
            out += [f"  advice    {each}" for each in self.advice]
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


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
        evidence = [row_evidence("threads/bolt_grades", bolt["row"], grade, f"{side}_tensile_mpa", "as tabulated")]
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
    return practice_mm, row_evidence(
        "threads/engagement_practice", row, key, "engagement_practice_mm", "rule of practice"
    )


_FRICTION = (0.10, 0.16)
"""Of a lubricated steel screw in a bronze or iron nut: common practice."""


def _one_thread(male: ThreadLimits, female: ThreadLimits) -> None:
    """Refuse parts that are not of one thread."""
    same = {
        "form": male.by_form == female.by_form and (not male.by_form or male.form == female.form),
        "pitch": math.isclose(male.pitch_mm, female.pitch_mm, rel_tol=1e-9),
        "starts": male.starts == female.starts,
        "hand": male.hand == female.hand,
    }
    unlike = [what for what, alike in same.items() if not alike]
    if unlike:
        unequal = f"{' and '.join(unlike)} differ{'s' if len(unlike) == 1 else ''}"
        raise _core.DomainError(f"{male.title} and {female.title} are not one thread: {unequal}")


def _efficiency(screw: ThreadLimits, friction: float) -> float:
    found = float(screw_efficiency(screw.lead_mm, screw.basic_pitch_mm, screw.half_angle_deg, friction))
    if found <= 0.0:
        raise _core.DomainError(f"a screw this steep does not turn under load with a friction of {friction:g}")
    return found


def _flank_pressure_mpa(male: ThreadLimits, female: ThreadLimits, load_n: float, engaged_mm: float) -> float | None:
    """Load over the projected flanks of the full form that is engaged; None where a crest is not known."""
    if male.major_min_mm is None or female.minor_max_mm is None:
        return None
    flank_mm = (male.major_min_mm - female.minor_max_mm) / 2
    return load_n / (math.pi * male.basic_pitch_mm * flank_mm * engaged_mm / male.pitch_mm)


@checked
def strength(
    external: PartLike,
    internal: PartLike,
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
    friction: tuple[float, float] | None = None,
    loading: Literal["steady", "shock"] = "steady",
    rotating: bool = False,
) -> ThreadStrength:
    """What a threaded joint of any form holds, what fails first, how far it is to be engaged, what turns a screw.

    Areas and factors are those of the core, with the form's own flank angle. Factors for dilation and bending are
    published for 60 degree threads only: the answer says how far they are a bound for another form.

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
        Axial load on the joint: also for the pressure on the flanks and the torque that raises it.
    factor_of_safety : float, optional
        1 to 100; without one no allowable load is answered.
    friction : pair of float, optional
        Least and greatest in the thread; of a form beside ISO metric and Unified 0.10 to 0.16, a lubricated steel screw
        in bronze or iron, where none is given.
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

    male, female = limits_of(external, "external"), limits_of(internal, "internal")
    _one_thread(male, female)
    if friction is None and male.by_form:
        friction = _FRICTION
    if friction is not None and not 0 <= friction[0] <= friction[1] <= 1:
        raise _core.DomainError(f"friction must rise from 0 to 1, got {friction}")
    diameter_mm = male.diameter_mm
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
    engaged_mm = figures["full_form_engagement_mm"]
    pressure = torque = None
    if load_n is not None:
        pressure = _flank_pressure_mpa(male, female, load_n, engaged_mm)
    if load_n is not None and friction is not None:
        least, most = (load_n * male.lead_mm / 1000 / (2 * math.pi * _efficiency(male, each)) for each in friction)
        torque = (least, most)
    cautions = [*male.cautions, caution("form_strength_rules")] if male.by_form else []
    cautions += [*(caution(code) for code in answer.cautions), *own.cautions, *mate.cautions]
    of_form = (*male.evidence, *female.evidence) if male.by_form else ()
    evidence: list[Any] = [*of_form, *answer.evidence(catalogue), *own.evidence, *mate.evidence]
    practice_mm = None
    if mate.alloy is not None:
        practice_mm, source = practice_engagement(mate.alloy, loading, diameter_mm)
        evidence.append(source)
        if engaged_mm < practice_mm - 1e-9:
            cautions.append(caution("strength_under_practice", length=both(practice_mm, male.unit)))
    pair = galling(own.alloy, mate.alloy) if own.alloy is not None and mate.alloy is not None else None
    if pair is not None:
        evidence.append(pair.evidence[0])
        cautions += pair.cautions
    if rotating:
        cautions.append(caution("strength_rotating"))
    cautions.append(caution("licensed"))
    return ThreadStrength(
        external=male.title,
        internal=female.title,
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
        flank_pressure_mpa=pressure,
        holding_friction=male.holding_friction,
        friction=friction,
        raising_torque_nm=torque,
        by_form=male.by_form,
        diameter_mm=diameter_mm,
        galling=None if pair is None else pair.severity,
        advice=() if pair is None else pair.advice,
        cautions=tuple(dict.fromkeys(cautions)),
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
