"""What a joint of trapezoidal, Acme, pipe or Whitworth threads holds, and what a lead screw asks of its handle.

`strength` answers any form that is known; `form_strength` is its part for forms beside ISO metric and Unified. No
standard of these forms has rules for dilation or bending of threads: nothing is taken off for them, and the answer says
so.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from inspect import signature
from typing import Any

from halfnut import _core, thread_strength
from halfnut._core import external_shear_area_mm2, internal_shear_area_mm2
from halfnut.form_threads import FormLimits, form_limits, is_form, screw_efficiency
from halfnut.record import Caution, Record
from halfnut.sizes import both
from halfnut.thread_strength import ThreadStrength, part_strength
from halfnut.units import length, quantity
from halfnut.words import LOAD, caution

__all__ = ["FormStrength", "form_strength", "strength"]

_SHEAR_OF_TENSILE = 1.0 / math.sqrt(3.0)
_FRICTION = (0.10, 0.16)
"""Of a lubricated steel screw in a bronze or iron nut: common practice."""


@dataclass(frozen=True, repr=False)
class FormStrength(Record):
    """What a joint of such threads holds, mm, mm2, N, MPa; no factor of safety but in `allowable_n`."""

    external: str
    internal: str
    unit: str
    weakest: str
    """What gives way first: "external part in tension", "external thread strips", "internal thread strips"."""
    engagement_mm: float
    engaged_turns: float
    root_area_mm2: float
    """At the least minor diameter."""
    external_shear_area_mm2: float
    internal_shear_area_mm2: float
    external_tension_n: float
    external_stripping_n: float
    internal_stripping_n: float
    weakest_n: float
    factor_of_safety: float | None
    allowable_n: float | None
    load_n: float | None
    flank_pressure_mpa: float | None
    """Load over the projected flanks that are engaged."""
    raising_torque_nm: tuple[float, float] | None
    """Of the screw alone, for the least and the greatest friction."""
    holding_friction: float
    friction: tuple[float, float]
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def __repr__(self) -> str:
        return f"<FormStrength {self.lines()[0]}>"

    def to_dict(self) -> dict[str, Any]:
        """The joint as a flat dictionary with unit-suffixed keys."""
        return {key: value for key, value in self.__dict__.items() if key not in {"cautions", "evidence"}}

    def lines(self) -> list[str]:
        """What gives way in the first line, then areas, loads, the screw, what it rests on, cautions."""
        unit = self.unit
        out = [
            f"{self.external} in {self.internal}: first to give way: {self.weakest} at {self._force(self.weakest_n)}"
        ]
        if self.allowable_n is None:
            out.append("  allow     not answered: no factor of safety is given")
        else:
            out.append(f"  allow     {self._force(self.allowable_n)}, factor of safety {self.factor_of_safety:g}")
        out.append(f"  engaged   {both(self.engagement_mm, unit)} full form, {self.engaged_turns:.1f} turns")
        out.append(f"  section   breaks {self._force(self.external_tension_n)}")
        out.append(
            f"  strips    external {self._force(self.external_stripping_n)}, "
            f"internal {self._force(self.internal_stripping_n)}"
        )
        if self.load_n is not None and self.flank_pressure_mpa is not None and self.raising_torque_nm is not None:
            out.append(f"  load      {self._force(self.load_n)}: {self.flank_pressure_mpa:.1f} MPa on the flanks")
            low, high = self.raising_torque_nm
            least, most = self.friction
            out.append(f"  raise     {low:.3g} to {high:.3g} N m in the screw, friction {least:g} to {most:g}")
        holds = "holds" if self.holding_friction <= self.friction[0] else "does not hold for certain"
        out.append(f"  holds     {holds}: it needs a friction of {self.holding_friction:.3f}; shaking lowers it")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += [f"caution: {item}" for item in self.cautions]
        return [*out, LOAD]

    def _force(self, value_n: float) -> str:
        return f"{value_n / 1000:.4g} kN ({value_n / 4.4482216152605:.4g} lbf)"


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
    external_bore: Any = None,
    load: Any = None,
    factor_of_safety: float | None = None,
    friction: tuple[float, float] = _FRICTION,
) -> FormStrength:
    """What a joint of such threads holds, and what turns it under its load.

    Parameters
    ----------
    external, internal : str, FormThread or FormLimits
        ``"Tr16x4-7e"`` and its like.
    engagement : length
        Full-form length.
    external_alloy, external_form, external_thickness, external_grade : optional
        As for `halfnut.thread_strength.strength`; so the strengths of one's own and the internal part's.
    external_bore : length, optional
        Of a hollow screw.
    load : str or Quantity, optional
        Axial load: for the pressure on the flanks and the torque that raises it.
    factor_of_safety : float, optional
        1 to 100; without one no allowable load is answered.
    friction : pair of float
        Least and greatest in the thread.

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
    length_mm = length(engagement, "engagement").mm
    if not length_mm > 0:
        raise _core.DomainError(f"engagement must be > 0, got {engagement}")
    if not 0 <= friction[0] <= friction[1] <= 1:
        raise _core.DomainError(f"friction must rise from 0 to 1, got {friction}")
    if factor_of_safety is not None and not 1 <= factor_of_safety <= 100:
        raise _core.DomainError(f"factor_of_safety must be from 1 to 100, got {factor_of_safety:g}")
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
    assert male.minor_max_mm is not None and male.major_min_mm is not None and female.minor_max_mm is not None
    root_mm = male.minor_max_mm if male.minor_min_mm is None else male.minor_min_mm
    bore_mm = 0.0 if external_bore is None else length(external_bore, "external_bore").mm
    if bore_mm >= root_mm:
        raise _core.DomainError(f"external_bore: no wall is left under the thread, whose root is {root_mm:.3f} mm")
    root = math.pi / 4 * (root_mm**2 - bore_mm**2)
    args = (male.pitch_mm, male.half_angle_deg, length_mm)
    outer = float(external_shear_area_mm2(female.minor_max_mm, male.pitch_min_mm, *args))
    inner = float(internal_shear_area_mm2(male.major_min_mm, female.pitch_max_mm, *args))
    shear = [part.shear_mpa or _SHEAR_OF_TENSILE * part.tensile_mpa for part in (own, mate)]
    ways = {
        "external part in tension": root * own.tensile_mpa,
        "external thread strips": outer * shear[0],
        "internal thread strips": inner * shear[1],
    }
    weakest = min(ways, key=lambda name: ways[name])
    load_n = None if load is None else quantity(load, "force", "load").base
    pressure = torque = None
    if load_n is not None:
        flank_mm = (male.major_min_mm - female.minor_max_mm) / 2
        pressure = load_n / (math.pi * male.basic_pitch_mm * flank_mm * length_mm / male.pitch_mm)
        low, high = (load_n * male.lead_mm / 1000 / (2 * math.pi * _efficiency(male, each)) for each in friction)
        torque = (low, high)
    made = [*male.cautions, caution("form_strength_rules")]
    if own.shear_mpa is None or mate.shear_mpa is None:
        made.append(caution("strength_shear_by_ratio"))
    if factor_of_safety is None:
        made.append(caution("strength_no_factor"))
    made.append(caution("strength_licensed"))
    return FormStrength(
        external=male.title,
        internal=female.title,
        unit=male.unit,
        weakest=weakest,
        engagement_mm=length_mm,
        engaged_turns=length_mm / male.pitch_mm,
        root_area_mm2=root,
        external_shear_area_mm2=outer,
        internal_shear_area_mm2=inner,
        external_tension_n=ways["external part in tension"],
        external_stripping_n=ways["external thread strips"],
        internal_stripping_n=ways["internal thread strips"],
        weakest_n=ways[weakest],
        factor_of_safety=factor_of_safety,
        allowable_n=None if factor_of_safety is None else ways[weakest] / factor_of_safety,
        load_n=load_n,
        flank_pressure_mpa=pressure,
        raising_torque_nm=torque,
        holding_friction=male.holding_friction,
        friction=friction,
        cautions=tuple(dict.fromkeys([*made, *own.cautions, *mate.cautions])),
        evidence=(*male.evidence, *female.evidence, *own.evidence, *mate.evidence),
    )


def _efficiency(screw: FormLimits, friction: float) -> float:
    found = float(screw_efficiency(screw.lead_mm, screw.basic_pitch_mm, screw.half_angle_deg, friction))
    if found <= 0.0:
        raise _core.DomainError(f"a screw this steep does not turn under load with a friction of {friction:g}")
    return found


def strength(external: Any, internal: Any, **given: Any) -> ThreadStrength | FormStrength:
    """What a threaded joint holds, of any form that is known.

    Parameters
    ----------
    external, internal
        Designations or limits.
    **given
        As for `halfnut.thread_strength.strength`; for trapezoidal, Acme, pipe and Whitworth threads as for
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
    return thread_strength.strength(external, internal, **given)
