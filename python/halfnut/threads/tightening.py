"""Torque for a preload, or preload from a torque."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import spell, spell_span
from halfnut.core.arguments import checked, number
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, both_systems
from halfnut.core.units import length, quantity
from halfnut.core.words import caution, caution_lines
from halfnut.material.alloys import Alloy, PropertySource
from halfnut.material.questions import alloy
from halfnut.threads.metals import minimum_strength, row_evidence
from halfnut.threads.standard import Thread, ThreadLimits, limits_of
from halfnut.threads.standard import thread as read_thread
from halfnut.threads.taper_pipes import taper_pipe

__all__ = ["Tightening", "tighten"]

_HALF_ANGLE_DEG = 30.0


@dataclass(frozen=True, repr=False)
class Tightening(Record):
    """Torque and preload over the range of friction. N, N m, MPa; `to_dict` gives pounds and psi beside them."""

    SHORT: ClassVar[tuple[str, ...]] = ("friction", "stress")
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

    def whole(self) -> list[str]:
        """Torque or preload in the first line, then what it rests on, cautions."""
        unit = self.unit
        torque = spell_span(self.torque_min_nm, self.torque_max_nm, "torque", unit)
        if self.asked == "preload":
            out = [f"{self.thread}: {torque} for a preload of {spell(self.preload_min_n, 'force', unit)}"]
        else:
            low, high = spell(self.preload_min_n, "force", unit), spell(self.preload_max_n, "force", unit)
            out = [f"{self.thread}: {torque} brings a preload of {low} to {high}"]
        out.append(
            f"  friction  thread {self.thread_friction_low:.2f} to {self.thread_friction_high:.2f}, seat "
            f"{self.bearing_friction_low:.2f} to {self.bearing_friction_high:.2f}, {self.lubricant}"
        )
        out.append(f"  seat      mean diameter {both(self.bearing_diameter_mm, unit)}")
        if self.prevailing_nm:
            out.append(f"  prevails  {spell_span(self.prevailing_nm, self.prevailing_nm, 'torque', unit)}, included")
        out.append(f"  loosens   {spell_span(self.loosen_min_nm, self.loosen_max_nm, 'torque', unit)}")
        practice = "none published for these flanks"
        if self.practice_nut_factor is not None and self.practice_torque_nm is not None:
            rule = spell_span(self.practice_torque_nm, self.practice_torque_nm, "torque", unit)
            practice = f"by practice {self.practice_nut_factor:g}, {rule}"
        out.append(f"  K         {self.nut_factor_min:.3f} to {self.nut_factor_max:.3f}; {practice}")
        bears = "" if self.yield_mpa is None else f", {100 * self.stress_max_mpa / self.yield_mpa:.0f} % of yield"
        out.append(f"  stress    {spell(self.stress_max_mpa, 'stress', unit)} while tightening at most{bears}")
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


def _section(thread: Thread, screw: ThreadLimits | None) -> tuple[float, float, float]:
    """Mean thread diameter, half of the flank angle, and area of the section that is strained: mm, degrees, mm2.

    Of another form than ISO metric and Unified the section is that of its least root.
    """
    if screw is None:
        area = (
            _core.unified_stress_area_in2(thread.diameter_mm / 25.4, 25.4 / thread.pitch_mm) * 645.16
            if thread.unit == "in"
            else _core.metric_stress_area_mm2(thread.diameter_mm, thread.pitch_mm)
        )
        return _core.basic_pitch_diameter_mm(thread.diameter_mm, thread.pitch_mm), _HALF_ANGLE_DEG, area
    assert screw.minor_max_mm is not None
    root_mm = screw.minor_max_mm - screw.pitch_tolerance_mm if screw.minor_min_mm is None else screw.minor_min_mm
    return screw.basic_pitch_mm, screw.half_angle_deg, _core.tube_area_mm2(root_mm, 0.0)


@checked
def tighten(
    thread: str | Thread,
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
    thread : str or Thread
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
    'M10x1.5: 27.8 to 41.7 N m for a preload of 20 kN'
    """
    catalogue = active()
    found = read_thread(thread)
    metals = (external_alloy, internal_alloy)
    pair = [each if each is None or isinstance(each, Alloy) else alloy(each) for each in metals]
    diameter_mm = found.diameter_mm
    evidence: list[Any] = []
    cautions: list[Caution] = []
    if found.tapers or found.prefix == "Rp":
        pipe = taper_pipe(found.external if found.tapers else f"R{found.size}")
        raise _core.NotTabulatedError(
            f"{found}: a taper pipe thread is made up by turns, not to a torque: {pipe.hand_turns:.1f} by hand, then "
            "by the wrench until it seals"
        )
    screw = limits_of(found.external) if found.form else None
    pitch_diameter_mm, half_angle_deg, area = _section(found, screw)
    if screw is not None:
        evidence += screw.evidence
        cautions += [*screw.cautions, caution("tighten_form")]
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
        evidence.append(row_evidence("threads/thread_friction", at, key, "thread_friction_low", "as tabulated"))
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
        evidence.append(row_evidence("threads/bolt_grades", bolt["row"], external_grade, "yield_mpa", "as tabulated"))
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
        preload_n = share * holds * (area - math.pi / 4.0 * bore_mm * bore_mm)
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
    cautions.append(caution("licensed"))
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
