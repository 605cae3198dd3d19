"""How work gives way: bent by the tool, squeezed by the jaws, grown by its own warmth."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any, Literal

import numpy as np

from halfnut import _core
from halfnut._core import (
    Evidence,
    jaw_force_at_speed_n,
    jaw_force_needed_n,
    ring_out_of_round_mm,
    size_at_20_mm,
    work_bend_mm,
)
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.sizes import force as force_text
from halfnut.core.units import length, quantity
from halfnut.core.words import caution, caution_lines
from halfnut.material.alloys import modulus_gpa
from halfnut.material.questions import alloy as find_alloy

__all__ = [
    "JawSqueeze",
    "WorkBend",
    "jaw_force_at_speed_n",
    "jaw_force_needed_n",
    "jaw_squeeze",
    "ring_out_of_round_mm",
    "size_at_20_mm",
    "work_bend",
    "work_bend_mm",
]

Hold = Literal["chuck", "chuck and centre", "between centres"]

_MOST_SLENDER_FREE, _MOST_SLENDER_HELD = 4.0, 12.0
"""Diameters that work may stick out, and span between supports: shop texts, recalled."""
_THIN_RING = 0.2
"""Wall over mean radius up to which the ring formula holds well."""
_WIDTH = 88


@dataclass(frozen=True, repr=False)
class WorkBend(Record):
    """How far work bends at the tool as the tool travels along it."""

    unit: str
    hold: str
    force_n: float
    places_mm: tuple[float, ...]
    """Where the tool stands, from the chuck or the first centre."""
    bend_mm: tuple[float, ...]
    """Deflection there. The diameter is left larger by twice as much."""
    worst_mm: float
    worst_at_mm: float
    length_mm: float
    slenderness: float
    """Greatest free length over the mean diameter of the work."""
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    @property
    def diameter_error_mm(self) -> tuple[float, ...]:
        """How much larger than set each place is turned."""
        return tuple(2.0 * each for each in self.bend_mm)

    @property
    def taper_mm(self) -> float:
        """Largest diameter turned less the smallest."""
        return 2.0 * (max(self.bend_mm) - min(self.bend_mm))

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys."""
        out = {field.name: getattr(self, field.name) for field in fields(self) if field.name != "evidence"}
        out["places_mm"], out["bend_mm"] = list(self.places_mm), list(self.bend_mm)
        out["diameter_error_mm"], out["taper_mm"] = list(self.diameter_error_mm), self.taper_mm
        out["cautions"] = [item.code for item in self.cautions]
        return out

    def lines(self) -> list[str]:
        """The worst place in the first line, then the diameters, what they rest on, cautions."""
        return [
            f"bends {_small(self.worst_mm, self.unit)} at {_long(self.worst_at_mm, self.unit)}, {self.hold}, "
            f"under {force_text(self.force_n, self.unit)} across the work",
            f"  diameter  up to {_small(2 * self.worst_mm, self.unit)} larger than set; "
            f"largest less smallest {_small(self.taper_mm, self.unit)}",
            f"  length    {_long(self.length_mm, self.unit)}, {self.slenderness:.1f} diameters unsupported",
            *_rests_on(self.evidence),
            *caution_lines(self.cautions, defer=True),
        ]


@dataclass(frozen=True, repr=False)
class JawSqueeze(Record):
    """A ring or tube in jaws: the force that holds it, and how far out of round it comes when bored there."""

    unit: str
    jaws: int
    jaw_force_n: float
    jaw_force_at_rest_n: float | None
    """What the jaw must be set to at standstill so that this is left at speed; None where no speed was given."""
    out_of_round_mm: float
    """Peak to valley on the radius once the work is let go."""
    wall_mm: float
    mean_diameter_mm: float
    by_jaws: dict[int, float]
    """Out-of-round in mm of the same total grip shared by other numbers of jaws or soft-jaw contacts."""
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys."""
        out = {field.name: getattr(self, field.name) for field in fields(self) if field.name != "evidence"}
        out["cautions"] = [item.code for item in self.cautions]
        return out

    def lines(self) -> list[str]:
        """The out-of-round in the first line, then the forces, other jaws, what it rests on, cautions."""
        others = ", ".join(f"{_small(value, self.unit)} in {jaws}" for jaws, value in self.by_jaws.items())
        at_rest = ""
        if self.jaw_force_at_rest_n is not None:
            at_rest = f"; set {force_text(self.jaw_force_at_rest_n, self.unit)} at standstill"
        return [
            f"out of round by {_small(self.out_of_round_mm, self.unit)} on the radius when let go of {self.jaws} jaws",
            f"  grip      {force_text(self.jaw_force_n, self.unit)} a jaw{at_rest}",
            f"  instead   {others} jaws or contacts, the same grip in all",
            *_rests_on(self.evidence),
            *caution_lines(self.cautions, defer=True),
        ]


def work_bend(
    sections: Sequence[Any],
    *,
    force: Any,
    hold: Hold = "chuck",
    alloy: str | None = None,
    youngs_modulus_gpa: float | None = None,
    steadies: Sequence[Any] = (),
    centre_n_um: float = math.inf,
    chuck_n_um: float = math.inf,
    tolerance: Any = None,
    places: int = 101,
) -> WorkBend:
    """How far stepped work bends at the tool, and the diameters it leaves.

    Parameters
    ----------
    sections : sequence of (length, diameter) or (length, diameter, bore)
        From the chuck or the first centre on; each a text with a unit, a `Length` or a pint quantity.
    force : str or Quantity
        Across the work, that is the passive force, ``"120 N"`` or ``"27 lbf"``.
    hold : {"chuck", "chuck and centre", "between centres"}
        How the work is held.
    alloy : str, optional
        Whose Young's modulus is taken.
    youngs_modulus_gpa : float, optional
        GPa, in place of an alloy's.
    steadies : sequence of lengths
        Places of fixed steadies, from the chuck or the first centre.
    centre_n_um, chuck_n_um : float
        Stiffness of a centre and of the seat in the chuck, N/µm; they do not give where none is stated.
    tolerance : length, optional
        Of the diameter; a bend that takes more than half of it is a caution.
    places : int
        How many places along the work to answer, 2 to 10000.

    Returns
    -------
    WorkBend
        Deflection and diameter error at each place.

    Raises
    ------
    DomainError
        A size outside its range, or neither or both of alloy and modulus.
    UnitError
        A bare number as a length or a force.

    >>> print(work_bend([("6 in", "1 in")], force="100 N", alloy="1018").lines()[0])
    bends 0.0011 in at 6.000 in, chuck, under 22 lbf across the work
    """
    if (alloy is None) == (youngs_modulus_gpa is None):
        raise _core.DomainError("give an alloy or youngs_modulus_gpa, one of the two")
    if not 2 <= places <= 10_000:
        raise _core.DomainError(f"places must be 2 to 10000, got {places}")
    given = [tuple(length(value, "sections") for value in section) for section in sections]
    if not given or any(len(section) not in {2, 3} for section in given):
        raise _core.DomainError("each section is a length, a diameter and, for a tube, a bore")
    sizes = [(*(value.mm for value in section), 0.0)[:3] for section in given]
    modulus = modulus_gpa(find_alloy(alloy), "deflection") if alloy is not None else float(youngs_modulus_gpa or 0.0)
    held = [length(value, "steadies").mm for value in steadies]
    force_n = quantity(force, "force", "force").base
    total = sum(size[0] for size in sizes)
    at = np.linspace(0.0, total, places)
    bend = np.array(work_bend_mm(sizes, hold, force_n, at.tolist(), modulus, held, centre_n_um, chuck_n_um))
    worst = int(np.argmax(np.abs(bend)))
    mean_mm = sum(size[0] * size[1] for size in sizes) / total
    ends = sorted({0.0, *held, total})
    spans = np.diff(ends) / mean_mm
    most = np.full(spans.size, _MOST_SLENDER_HELD)
    if hold == "chuck":
        most[-1] = _MOST_SLENDER_FREE
    codes = ["slender"] if (spans > most).any() else []
    if tolerance is not None and 2 * abs(bend[worst]) > length(tolerance, "tolerance").mm / 2:
        codes.append("bend_takes_tolerance")
    rules = [("bend_mm", "work_beam"), ("diameter_error_mm", "work_diameter_error")]
    return WorkBend(
        unit="in" if given[0][0].system == "inch" else "mm",
        hold=hold,
        force_n=force_n,
        places_mm=tuple(at.tolist()),
        bend_mm=tuple(bend.tolist()),
        worst_mm=float(abs(bend[worst])),
        worst_at_mm=float(at[worst]),
        length_mm=total,
        slenderness=float(spans.max()),
        cautions=tuple(caution(code) for code in codes),
        evidence=tuple(_core.rule_evidence(rules, active())),
    )


def jaw_squeeze(
    outside: Any,
    bore: Any,
    *,
    width: Any,
    cutting_force: Any,
    friction: float,
    safety: float,
    jaws: int = 3,
    cut_diameter: Any = None,
    alloy: str | None = None,
    youngs_modulus_gpa: float | None = None,
    spindle_rpm: float | None = None,
    jaw_mass_kg: float | None = None,
    mass_radius: Any = None,
    allowed: Any = None,
) -> JawSqueeze:
    """The jaw force that a ring or tube needs, and how far out of round that leaves it.

    Parameters
    ----------
    outside, bore : lengths
        Of the ring; it is gripped on the outside and bored there.
    width : length
        That the jaws bear on.
    cutting_force : str or Quantity
        ``"300 N"``; it turns the work in the jaws.
    friction : float
        Above 0 up to 1: smooth jaws 0.1 to 0.2, serrated ones on raw stock 0.3 to 0.5.
    safety : float
        At least 1; against slipping. It is asked for, never assumed.
    jaws : int
        2 to 100; each contact of a pie jaw or collet counts.
    cut_diameter : length, optional
        Where the tool cuts; the bore where none is given.
    alloy, youngs_modulus_gpa : str, float
        One of the two.
    spindle_rpm, jaw_mass_kg, mass_radius : float, float, length, optional
        Together: then the force to set at standstill is answered, for the jaws fly outward at speed.
    allowed : length, optional
        Out-of-round that may remain; above it a caution tells the ways out.

    Returns
    -------
    JawSqueeze
        With the same grip shared by other numbers of jaws beside it.

    Raises
    ------
    DomainError
        A value outside its range.

    >>> jaw_squeeze("60 mm", "54 mm", width="20 mm", cutting_force="150 N", friction=0.15, safety=2, alloy="6061").jaws
    3
    """
    if (alloy is None) == (youngs_modulus_gpa is None):
        raise _core.DomainError("give an alloy or youngs_modulus_gpa, one of the two")
    modulus = modulus_gpa(find_alloy(alloy), "out-of-round") if alloy is not None else float(youngs_modulus_gpa or 0.0)
    whole, hole = length(outside, "outside"), length(bore, "bore")
    if not 0.0 < hole.mm < whole.mm:
        raise _core.DomainError(f"bore {hole} must be above 0 and below outside {whole}")
    wall_mm, mean_mm = (whole.mm - hole.mm) / 2, (whole.mm + hole.mm) / 2
    wide_mm = length(width, "width").mm
    cut_mm = hole.mm if cut_diameter is None else length(cut_diameter, "cut_diameter").mm
    pull_n = quantity(cutting_force, "force", "cutting_force").base
    force_n = jaw_force_needed_n(pull_n, cut_mm, whole.mm, jaws, friction, safety)
    turning = (spindle_rpm, jaw_mass_kg, mass_radius)
    at_rest = None
    if any(value is not None for value in turning):
        if spindle_rpm is None or jaw_mass_kg is None or mass_radius is None:
            raise _core.DomainError("spindle_rpm, jaw_mass_kg and mass_radius are given together or not at all")
        # what speed takes from the grip, found at a grip that it cannot use up
        ample = 1e9
        at_rest = force_n + ample
        at_rest -= jaw_force_at_speed_n(ample, jaw_mass_kg, length(mass_radius, "mass_radius").mm, spindle_rpm)
    bends_n = at_rest if at_rest is not None else force_n

    def squeezed(count: int) -> float:
        return ring_out_of_round_mm(bends_n * jaws / count, count, mean_mm, wall_mm, wide_mm, modulus)

    out = squeezed(jaws)
    codes = ["ring_is_thick"] if wall_mm > _THIN_RING * mean_mm / 2 else []
    if allowed is not None and out > length(allowed, "allowed").mm:
        codes.append("ring_out_of_round")
    rules = [("jaw_force_n", "jaw_force"), ("out_of_round_mm", "work_ring")]
    rules += [("jaw_force_at_rest_n", "jaw_force_at_speed")] if at_rest is not None else []
    return JawSqueeze(
        unit="in" if whole.system == "inch" else "mm",
        jaws=jaws,
        jaw_force_n=force_n,
        jaw_force_at_rest_n=at_rest,
        out_of_round_mm=out,
        wall_mm=wall_mm,
        mean_diameter_mm=mean_mm,
        by_jaws={count: squeezed(count) for count in (2, 3, 4, 6, 12) if count != jaws},
        cautions=tuple(caution(code) for code in codes),
        evidence=tuple(_core.rule_evidence(rules, active())),
    )


def _long(value_mm: float, unit: str) -> str:
    return f"{value_mm / MM_PER_INCH:.3f} in" if unit == "in" else f"{value_mm:.1f} mm"


def _small(value_mm: float, unit: str) -> str:
    return f"{value_mm / MM_PER_INCH:.4f} in" if unit == "in" else f"{value_mm:.3f} mm"


def _rests_on(evidence: tuple[Evidence, ...]) -> list[str]:
    out: list[str] = []
    for item in evidence:
        text = f"{item.rule} ({item.kind}: {item.source})"
        out += textwrap.wrap(text, _WIDTH, initial_indent="  rests on  ", subsequent_indent=" " * 12)
    return out
