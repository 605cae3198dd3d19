"""What a joint of trapezoidal, Acme, pipe or Whitworth threads holds, and what a lead screw asks of its handle.

`strength` answers any form that is known; `form_strength` is its part for forms beside ISO metric and Unified. Areas
and factors are those of the core, with the form's own flank angle. Factors for dilation and bending are published for
60 degree threads only: the answer says how far they are a bound here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from inspect import signature
from typing import Any, Literal

from halfnut import _core
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both
from halfnut.core.units import length, quantity
from halfnut.core.words import caution, caution_lines, words
from halfnut.threads import joints
from halfnut.threads.both_units import both_systems, force_text, stress_text, torque_text
from halfnut.threads.form_threads import FormLimits, form_limits, is_form, screw_efficiency
from halfnut.threads.joints import ThreadStrength, part_strength, practice_engagement
from halfnut.threads.metals import galling

__all__ = ["FormStrength", "form_strength", "strength"]

_FRICTION = (0.10, 0.16)
"""Of a lubricated steel screw in a bronze or iron nut: common practice."""


_FROM_CORE = (
    "engaged_turns",
    "root_area_mm2",
    "external_shear_area_mm2",
    "internal_shear_area_mm2",
    "dilation_factor",
    "external_bending_factor",
    "internal_bending_factor",
    "external_tension_n",
    "internal_tension_n",
    "external_stripping_n",
    "internal_stripping_n",
    "external_yield_n",
    "internal_yield_n",
    "weakest_n",
    "bears_n",
    "factor_reached",
    "allowable_n",
    "engagement_required_mm",
    "engagement_for_load_mm",
    "external_wall_mm",
    "internal_wall_mm",
    "internal_hoop_mpa",
)


@dataclass(frozen=True, repr=False)
class FormStrength(Record):
    """What a joint of such threads holds, mm, mm2, N, MPa; no factor of safety but in `allowable_n`."""

    external: str
    internal: str
    unit: str
    weakest: str
    """What breaks first: "external part in tension", "internal thread strips" and so on."""
    overlap_mm: float
    full_form_engagement_mm: float
    engaged_turns: float
    root_area_mm2: float
    """At the least minor diameter."""
    external_shear_area_mm2: float
    internal_shear_area_mm2: float
    external_material: str
    internal_material: str
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
    factor_reached: float | None
    engagement_required_mm: float
    engagement_practice_mm: float | None
    engagement_for_load_mm: float | None
    external_wall_mm: float | None
    internal_wall_mm: float | None
    internal_hoop_mpa: float | None
    factor_of_safety: float | None
    allowable_n: float | None
    load_n: float | None
    flank_pressure_mpa: float | None
    """Load over the projected flanks that are engaged."""
    raising_torque_nm: tuple[float, float] | None
    """Of the screw alone, for the least and the greatest friction."""
    holding_friction: float
    friction: tuple[float, float]
    galling: str | None
    advice: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The joint as a flat dictionary with unit-suffixed keys, each figure in both systems."""
        return both_systems(self._fields() | {"advice": list(self.advice)})

    def lines(self) -> list[str]:
        """What it bears in the first line, then engagement, loads, the screw, what it rests on, cautions."""
        unit = self.unit
        out = [
            f"{self.external} in {self.internal}: bears {self._force(self.bears_n)}; "
            f"first to break: {self.weakest} at {self._force(self.weakest_n)}"
        ]
        if self.allowable_n is None:
            out.append("  allow     not answered: no factor of safety is given")
        else:
            out.append(f"  allow     {self._force(self.allowable_n)}, factor of safety {self.factor_of_safety:g}")
        out.append(f"  engaged   {both(self.full_form_engagement_mm, unit)} full form, {self.engaged_turns:.1f} turns")
        need = f"{both(self.engagement_required_mm, unit)} for a section to break before a thread strips"
        out.append(f"  engage    {need}")
        if self.engagement_practice_mm is not None:
            out.append(f"  practice  {both(self.engagement_practice_mm, unit)}")
        if self.engagement_for_load_mm is not None:
            factor = "" if self.factor_of_safety is None else f" with factor {self.factor_of_safety:g}"
            out.append(f"  for load  {both(self.engagement_for_load_mm, unit)} full form{factor}")
        for side in ("external", "internal"):
            breaks, yields = getattr(self, f"{side}_tension_n"), getattr(self, f"{side}_yield_n")
            held = [] if breaks is None else [f"section breaks {self._force(breaks)}"]
            held += [] if yields is None else [f"yields {self._force(yields)}"]
            held.append(f"thread strips {self._force(getattr(self, f'{side}_stripping_n'))}")
            out.append(f"  {side}  {', '.join(held)}")
        out.append(
            f"  factors   dilation {self.dilation_factor:.3f}, bending {self.external_bending_factor:.3f}, "
            "bounds from 60 degree threads"
        )
        for side, where in (("external", "under"), ("internal", "over")):
            wall = getattr(self, f"{side}_wall_mm")
            if wall is not None:
                out.append(f"  wall      {both(wall, unit)} left {where} the {side} thread")
        if self.load_n is not None and self.flank_pressure_mpa is not None and self.raising_torque_nm is not None:
            out.append(
                f"  load      {self._force(self.load_n)}: {stress_text(self.flank_pressure_mpa, unit)} on the flanks"
            )
            low, high = self.raising_torque_nm
            least, most = self.friction
            out.append(f"  raise     {torque_text(low, high, unit)} in the screw, friction {least:g} to {most:g}")
        holds = "holds" if self.holding_friction <= self.friction[0] else "does not hold for certain"
        out.append(f"  holds     {holds}: it needs a friction of {self.holding_friction:.3f}; shaking lowers it")
        if self.galling is not None:
            out.append(f"  galling   {self.galling}")
            out += [f"  advice    {each}" for each in self.advice]
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return [*out, words("said", "load")]

    def _force(self, value_n: float) -> str:
        return force_text(value_n, self.unit)


def form_strength(
    external: Any,
    internal: Any,
    *,
    engagement: Any,
    external_alloy: Any = None,
    external_form: str | None = None,
    external_thickness: Any = None,
    external_grade: str | None = None,
    external_tensile: Any = None,
    external_yield: Any = None,
    external_shear: Any = None,
    internal_alloy: Any = None,
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
    friction: tuple[float, float] = _FRICTION,
    loading: Literal["steady", "shock"] = "steady",
    rotating: bool = False,
) -> FormStrength:
    """What a joint of such threads holds, and what turns it under its load.

    Parameters
    ----------
    external, internal : str, FormThread or FormLimits
        ``"Tr16x4-7e"`` and its like.
    engagement : length
        Over which one part is inside the other; only its full form counts.
    external_alloy, external_form, external_thickness, external_grade : optional
        As for `halfnut.threads.joints.strength`; so the strengths of one's own and the internal part's.
    external_chamfer, external_run_out, internal_countersink, internal_run_out : length, optional
        Lengths within the engagement that have no full form.
    external_bore : length, optional
        Of a hollow screw.
    internal_outside : length, optional
        Outside of the nut, or its width across flats; without it no dilation and no wall is counted.
    load : str or Quantity, optional
        Axial load: for the pressure on the flanks and the torque that raises it.
    factor_of_safety : float, optional
        1 to 100; without one no allowable load is answered.
    friction : pair of float
        Least and greatest in the thread.
    loading : {"steady", "shock"}
        For the length of engagement by practice.
    rotating : bool
        Whether the joint turns, or feels loads that come and go.

    Returns
    -------
    FormStrength
        Immutable; prints itself, what gives way in its first line.

    Raises
    ------
    DomainError
        Parts that are not one thread; a size, strength, friction or factor out of its range.

    >>> joint = form_strength("Tr16x4-7e", "Tr16x4-7H", engagement="24 mm", external_tensile="600 MPa",
    ...                       internal_tensile="250 MPa", load="2 kN", factor_of_safety=4)
    >>> joint.weakest, round(joint.flank_pressure_mpa, 1)
    ('external part in tension', 4.6)
    """
    male = external if isinstance(external, FormLimits) else form_limits(external, "external")
    female = internal if isinstance(internal, FormLimits) else form_limits(internal, "internal")
    for what in ("form", "pitch_mm", "starts", "hand"):
        if getattr(male, what) != getattr(female, what):
            raise _core.DomainError(f"{male.title} and {female.title} are not one thread: {what} differs")
    overlap_mm = length(engagement, "engagement").mm
    if not 0 <= friction[0] <= friction[1] <= 1:
        raise _core.DomainError(f"friction must rise from 0 to 1, got {friction}")
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

    def mm(value: Any, name: str) -> float | None:
        return None if value is None else length(value, name).mm

    load_n = None if load is None else quantity(load, "force", "load").base
    catalogue = active()
    bare = _core.BuildUp(0.0, 0.0)
    answer = _core.sized_strength_answer(
        diameter_mm,
        male.part(bare),
        female.part(bare),
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
        assert male.major_min_mm is not None and female.minor_max_mm is not None
        flank_mm = (male.major_min_mm - female.minor_max_mm) / 2
        pressure = load_n / (math.pi * male.basic_pitch_mm * flank_mm * engaged_mm / male.pitch_mm)
        low, high = (load_n * male.lead_mm / 1000 / (2 * math.pi * _efficiency(male, each)) for each in friction)
        torque = (low, high)
    made = [*male.cautions, caution("form_strength_rules"), *(caution(code) for code in answer.cautions)]
    evidence = [*male.evidence, *female.evidence, *answer.evidence(catalogue), *own.evidence, *mate.evidence]
    practice_mm = None
    if mate.alloy is not None:
        practice_mm, source = practice_engagement(mate.alloy, loading, diameter_mm)
        evidence.append(source)
        if engaged_mm < practice_mm - 1e-9:
            made.append(caution("strength_under_practice", length=both(practice_mm, male.unit)))
    pair = galling(own.alloy, mate.alloy) if own.alloy is not None and mate.alloy is not None else None
    if pair is not None:
        evidence.append(pair.evidence[0])
        made += pair.cautions
    if rotating:
        made.append(caution("strength_rotating"))
    made.append(caution("licensed"))
    return FormStrength(
        external=male.title,
        internal=female.title,
        unit=male.unit,
        weakest=answer.weakest,
        overlap_mm=overlap_mm,
        full_form_engagement_mm=engaged_mm,
        factor_of_safety=factor_of_safety,
        load_n=load_n,
        flank_pressure_mpa=pressure,
        raising_torque_nm=torque,
        holding_friction=male.holding_friction,
        friction=friction,
        external_material=own.title,
        internal_material=mate.title,
        engagement_practice_mm=practice_mm,
        galling=None if pair is None else pair.severity,
        advice=() if pair is None else pair.advice,
        cautions=tuple(dict.fromkeys([*made, *own.cautions, *mate.cautions])),
        evidence=tuple(evidence),
        **{name: figures[name] for name in _FROM_CORE},
    )


def _efficiency(screw: FormLimits, friction: float) -> float:
    found = float(screw_efficiency(screw.lead_mm, screw.basic_pitch_mm, screw.half_angle_deg, friction))
    if found <= 0.0:
        raise _core.DomainError(f"a screw this steep does not turn under load with a friction of {friction:g}")
    return found


@checked
def strength(external: Any, internal: Any, **given: Any) -> ThreadStrength | FormStrength:
    """What a threaded joint holds, of any form that is known.

    Parameters
    ----------
    external, internal
        Designations or limits.
    **given
        As for `halfnut.threads.joints.strength`; for trapezoidal, Acme, pipe and Whitworth threads as for
        `form_strength`.

    Returns
    -------
    ThreadStrength or FormStrength
        Immutable; prints itself.

    Raises
    ------
    DomainError, DesignationError, NotTabulatedError
        As from those; an argument that no rule of the form makes use of is refused by its name.

    >>> strength("M10-6g", "M10-6H", engagement="15 mm", external_grade="8.8", internal_tensile="310 MPa").weakest
    'external part in tension'
    """
    if is_form(external) or is_form(internal):
        known = signature(form_strength).parameters
        odd = [name for name in given if name not in known]
        if odd:
            raise _core.DomainError(f"{', '.join(odd)}: there is no rule for it in threads of this form")
        return form_strength(external, internal, **given)
    return joints.strength(external, internal, **given)
