"""Thin and slender work where it is held: how far it deflects, is squeezed by the jaws, and grows warm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, ClassVar

import numpy as np

from halfnut._core import DomainError, Evidence, Length, NotTabulatedError, rule_evidence, spell, tube_area_mm2
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.units import length as read_length
from halfnut.core.units import unit_of
from halfnut.core.words import caution, words
from halfnut.cutting.asking import holder_place
from halfnut.cutting.cuts import Cut
from halfnut.cutting.formulas import work_warming_k
from halfnut.cutting.questions import turn
from halfnut.cutting.rigidity import (
    Hold,
    JawSqueeze,
    WorkBend,
    jaw_force_needed_n,
    jaw_squeeze,
    jaws_words,
    ring_out_of_round_mm,
    work_bend,
)
from halfnut.cutting.standing import of_weight
from halfnut.machine.of_name import core_machine
from halfnut.material.alloys import lacking, modulus_gpa
from halfnut.material.questions import alloy as find_alloy

__all__ = ["Holding", "hold"]

_JAWS = (2, 3, 4, 6)
_RING_FORCE_N = 1000.0
_SPAN_DIAMETERS = 12.0
"""Free span between supports, in diameters, up to which turned work is left without a further steady: shop texts."""
_PLACES = 5


@dataclass(frozen=True)
class Holding(Record):
    """Work where it is held, under one cut.

    Attributes
    ----------
    bend : WorkBend
        Under the passive force at the upper edge of its band.
    places : tuple of (mm, mm)
        Where the tool stands, from the jaws or the first centre, and how much larger than set the diameter comes there.
    other_ways : dict
        Worst bend, mm, of the same work held otherwise.
    steadies_for_span : int
        Further fixed steadies that bring the free spans down to twelve diameters.
    jaw_force_n : float or None
        That each jaw needs so that the cut does not turn the work; needs friction and safety.
    out_of_round_per_kn_mm : dict
        Of a tube, by number of jaws: peak to valley on the radius for 1000 N a jaw.
    squeeze : JawSqueeze or None
        Of a tube, with the grip that the cut needs.
    warming_k, growth_mm : float or None
        How much warmer the cut makes the work when no heat leaves it, and how much larger it then measures; needs a
        length of cut.
    ways : tuple of str
        What to do at the machine.
    """

    SHORT: ClassVar[tuple[str, ...]] = ("grip", "round", "do")
    AT_MACHINE: ClassVar[bool] = True
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("larger", "{along_words}"),
        ("force", "{force_words}"),
        ("otherwise", "{others_words}"),
        ("grip", "{jaw_force_n} a jaw, so that the cut does not turn the work"),
        ("round", "{round_words}"),
        ("warmth", "up to {warming_k} warmer after the cut: measures {growth_mm} too large"),
    )
    unit: str
    cut: Cut
    bend: WorkBend
    places: tuple[tuple[float, float], ...]
    other_ways: dict[str, float]
    steadies_for_span: int
    jaw_force_n: float | None
    out_of_round_per_kn_mm: dict[int, float]
    squeeze: JawSqueeze | None
    warming_k: float | None
    growth_mm: float | None
    ways: tuple[str, ...]
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    @property
    def own_evidence(self) -> tuple[Evidence, ...]:
        """What the holding rests on, without what the cut does."""
        return self.evidence[len(self.cut.evidence) :]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys."""
        bend = self.bend
        return {
            "hold": bend.hold,
            "passive_force_high_n": bend.force_n,
            "bend_mm": bend.worst_mm,
            "bend_at_mm": bend.worst_at_mm,
            "taper_mm": bend.taper_mm,
            "slenderness": bend.slenderness,
            "places_mm": [at for at, _ in self.places],
            "diameter_error_mm": [larger for _, larger in self.places],
            "other_ways_mm": dict(self.other_ways),
            "steadies_for_span": self.steadies_for_span,
            "jaw_force_n": self.jaw_force_n,
            "out_of_round_per_kn_mm": dict(self.out_of_round_per_kn_mm),
            "out_of_round_mm": None if self.squeeze is None else self.squeeze.out_of_round_mm,
            "warming_k": self.warming_k,
            "growth_mm": self.growth_mm,
            "spindle_rpm": self.cut.spindle_rpm,
            "cautions": [item.code for item in self.cautions],
        }

    @property
    def answer(self) -> str:
        """The deflection in one line."""
        held = f"{self.bend.slenderness:.1f} diameters unsupported  ({self.cut.alloy.title})"
        worst = self.bend.filled("deflects up to {worst_mm} at {worst_at_mm:travel}, {hold}")
        return f"{worst}, {held}"

    @property
    def along_words(self) -> str:
        """How much larger the diameter comes, by place."""
        return ", ".join(f"{self._length(larger)} at {spell(at, 'travel', self.unit)}" for at, larger in self.places)

    @property
    def force_words(self) -> str:
        """The force across the work."""
        across = spell(self.cut.passive_force_n or 0.0, "force", self.unit)
        return f"{spell(self.bend.force_n, 'force', self.unit)} across the work at most, {across} computed"

    @property
    def others_words(self) -> str:
        """Deflection, held otherwise."""
        return ", ".join(f"{self._length(value)} {name}" for name, value in self.other_ways.items())

    @property
    def round_words(self) -> str | None:
        """Out-of-round of a tube."""
        if self.squeeze is not None:
            own = f"{self._length(self.squeeze.out_of_round_mm)} out when {self.squeeze.jaws} jaws let go"
            return f"{own}; the same grip in all: {self.squeeze.instead_words} jaws or contacts"
        if not self.out_of_round_per_kn_mm:
            return None
        rings = jaws_words(self.out_of_round_per_kn_mm, self.unit)
        return f"for {spell(_RING_FORCE_N, 'force', self.unit)} a jaw: {rings} jaws"

    def report(self) -> list[tuple[str, str]]:
        """Diameters, other ways to hold it, grip, warmth, advice."""
        return [*super().report(), *(("do", each) for each in self.ways)]

    def _length(self, value_mm: float) -> str:
        return spell(value_mm, "length", self.unit)


@checked
def hold(
    alloy: str,
    diameter: Any,
    *,
    stick_out: Any = None,
    sections: Sequence[Any] = (),
    bore: Any = None,
    hold: Hold = "chuck",
    steadies: Sequence[Any] = (),
    jaws: int = 3,
    grip_diameter: Any = None,
    grip_width: Any = None,
    friction: float | None = None,
    safety: float | None = None,
    tolerance: Any = None,
    out_of_round: Any = None,
    length: Any = None,
    **cut: Any,
) -> Holding:
    """How far work deflects, is squeezed and warms where it is held, under the cut that `turn` would make.

    Parameters
    ----------
    alloy : str
        The work's material.
    diameter : str or Length
        Before the cut.
    stick_out : str or Length
        From the jaws, or between the centres; or `sections` in its place.
    sections : sequence of (length, diameter) or (length, diameter, bore), optional
        Stepped work, from the chuck or the first centre on.
    bore : str or Length, optional
        Of a tube.
    hold : {"chuck", "chuck and centre", "between centres"}
        How the work is held.
    steadies : sequence of str or Length, optional
        Places of fixed steadies, from the chuck or the first centre.
    jaws : int
        2 to 100 jaws or contacts of the chuck.
    grip_diameter, grip_width : str or Length, optional
        Where the jaws grip; the diameter before the cut, and a quarter of it wide, when not given.
    friction, safety : float, optional
        Together: of the jaws on the work, and against slipping; then the grip is told. Never assumed.
    tolerance : str or Length, optional
        Of the diameter.
    out_of_round : str or Length, optional
        That may remain on the radius.
    length : str or Length, optional
        Of the cut: then the warmth is told.
    **cut
        What else `turn` takes: depth, feed, machine, tool, nose_radius, finish and the like.

    Returns
    -------
    Holding
        Bend, diameters along the length, grip and out-of-round, warmth, and what to do.

    Raises
    ------
    DomainError
        A size outside its range, or friction without safety.

    >>> found = hold("6061-T6", "20 mm", stick_out="120 mm", depth="0.5 mm", feed="0.1 mm/rev")
    >>> found.bend.slenderness > 4
    True
    """
    sections = tuple(sections)
    if (stick_out is None) == (not sections):
        raise DomainError("give stick_out or sections, one of the two")
    if (friction is None) != (safety is None):
        raise DomainError("friction and safety are given together or not at all")
    size = read_length(diameter, "diameter")
    found = find_alloy(alloy)
    made = turn(
        found,
        size,
        bore=bore,
        length=length,
        hold=hold,
        stick_out=stick_out,
        sections=sections,
        steadies=steadies,
        **cut,
    )
    if made.passive_force_n is None or made.cutting_force_n is None or made.cutting_force_high_n is None:
        raise NotTabulatedError(next(iter(lacking(found)), f"no force is known for {found.title}"))
    over = made.cutting_force_high_n / made.cutting_force_n
    left = Length(size.mm - 2 * (made.depth_mm or 0.0), "mm")
    inner = None if bore is None else read_length(bore, "bore")
    whole = list(sections) or [(stick_out, left) if inner is None else (stick_out, left, inner)]
    force = f"{made.passive_force_n * over} N"

    def bent(way: Any, at: Sequence[Any]) -> WorkBend:
        return work_bend(whole, force=force, hold=way, alloy=found.id, steadies=at, tolerance=tolerance, places=101)

    bend = bent(hold, steadies)
    middle = Length(bend.length_mm / 2, "mm")
    ways: tuple[tuple[str, Hold, tuple[Any, ...]], ...] = (
        ("with a centre", "chuck and centre", ()),
        ("with a centre and a steady half-way", "chuck and centre", (middle,)),
        ("between centres", "between centres", ()),
        ("between centres with a steady half-way", "between centres", (middle,)),
    )
    others = {name: bent(way, at).worst_mm for name, way, at in ways if (way, at) != (hold, tuple(steadies))}
    pick = np.linspace(0, len(bend.places_mm) - 1, _PLACES).astype(int)
    free_span = bend.slenderness / (_SPAN_DIAMETERS if hold != "chuck" else _SPAN_DIAMETERS / 3)
    grip_mm = size.mm if grip_diameter is None else read_length(grip_diameter, "grip_diameter").mm
    needed = None
    squeeze = None
    rings: dict[int, float] = {}
    pull = f"{made.cutting_force_high_n} N"
    jaw = _jaw(cut.get("machine"), cut.get("chuck"), hold)
    if friction is not None and safety is not None:
        needed = jaw_force_needed_n(made.cutting_force_high_n, size.mm, grip_mm, jaws, friction, safety)
        if jaw is not None:
            turn_rad_s = 2 * math.pi * made.spindle_rpm / 60
            needed += jaw[0] * jaw[1] * turn_rad_s * turn_rad_s
    if inner is not None:
        width = Length(size.mm / 4, "mm") if grip_width is None else read_length(grip_width, "grip_width")
        mean, wall = (size.mm + inner.mm) / 2, (size.mm - inner.mm) / 2
        modulus = modulus_gpa(found, "out-of-round")
        rings = {n: ring_out_of_round_mm(_RING_FORCE_N, n, mean, wall, width.mm, modulus) for n in _JAWS}
        if friction is not None and safety is not None:
            squeeze = jaw_squeeze(
                size,
                inner,
                width=width,
                cutting_force=pull,
                friction=friction,
                safety=safety,
                jaws=jaws,
                cut_diameter=size,
                alloy=found.id,
                spindle_rpm=None if jaw is None else made.spindle_rpm,
                jaw_mass_kg=None if jaw is None else jaw[0],
                mass_radius=None if jaw is None else f"{jaw[1]} m",
                allowed=out_of_round,
            )
    warming, growth = _warmth(made, inner, bend.length_mm)
    steady_count = max(0, math.ceil(free_span - 1e-9) - 1)
    codes = [item for item in made.cautions if item.code != "slender"]
    codes += [item for item in bend.cautions if item not in codes]
    codes += [] if squeeze is None else [item for item in squeeze.cautions if item not in codes]
    if growth is not None and tolerance is not None and growth > read_length(tolerance, "tolerance").mm / 4:
        codes.append(caution("warm_size"))
    rules = [] if needed is None or squeeze is not None else [("jaw_force_n", "jaw_force")]
    rules += [("out_of_round_per_kn_mm", "work_ring")] if rings and squeeze is None else []
    rules += [] if warming is None else [("warming_k", "work_warming")]
    codes += [caution("chuck_key")] if hold != "between centres" else []
    around_mm2 = tube_area_mm2(size.mm, 0.0 if inner is None else inner.mm)
    codes += of_weight(around_mm2 * bend.length_mm * 1e-9 * found.density_kg_m3, unit_of(size))
    return Holding(
        unit=unit_of(size),
        cut=made,
        bend=bend,
        places=tuple((float(bend.places_mm[n]), float(bend.diameter_error_mm[n])) for n in pick),
        other_ways=others,
        steadies_for_span=steady_count,
        jaw_force_n=needed,
        out_of_round_per_kn_mm=rings,
        squeeze=squeeze,
        warming_k=warming,
        growth_mm=growth,
        ways=tuple(_ways(bend, steady_count, made, hold, rings)),
        cautions=tuple(codes),
        evidence=(
            *made.evidence,
            *bend.evidence,
            *(() if squeeze is None else squeeze.evidence),
            *(rule_evidence(rules, active()) if rules else ()),
        ),
    )


def _jaw(machine: Any, chuck: Any, hold: str) -> tuple[float, float] | None:
    """Weight of a jaw, kg, and radius of its centre of mass, m: at most the chuck's rim; None where it is not known."""
    core = core_machine(machine)
    place = holder_place(core, chuck, hold, [])
    if core is None or place < 0 or not core.chucks[place].jaw_mass_kg > 0.0:
        return None
    held = core.chucks[place]
    return held.jaw_mass_kg, held.diameter_mm / 2000


def _warmth(cut: Cut, bore: Length | None, length_mm: float) -> tuple[float | None, float | None]:
    """How much warmer the work gets in the cut, and how much larger its diameter measures."""
    alloy = cut.alloy
    known = (cut.time_s, cut.heat_to_work_high_w, alloy.specific_heat_j_kg_k, alloy.expansion_um_m_k)
    if any(value is None for value in known):
        return None, None
    seconds, watts, heat, expansion = (float(value or 0.0) for value in known)
    left_mm = cut.diameter_mm - 2 * (cut.depth_mm or 0.0)
    inner_mm = 0.0 if bore is None else bore.mm
    if left_mm <= inner_mm:
        return None, None
    rise = work_warming_k(watts, seconds, left_mm, inner_mm, length_mm, alloy.density_kg_m3, heat)
    return rise, rise * expansion * 1e-6 * left_mm


def _ways(bend: WorkBend, steadies: int, cut: Cut, hold: str, rings: dict[int, float]) -> list[str]:
    """What to do at the machine, in the order in which it helps."""
    out = []
    if hold == "chuck" and any(item.code == "slender" for item in bend.cautions):
        out.append(words("holding", "centre"))
    elif steadies:
        out.append(words("holding", "steadies", count=steadies, plural="" if steadies == 1 else "s"))
    if abs(cut.passive_force_n or 0.0) > 0.4 * (cut.cutting_force_n or 0.0):
        out.append(words("holding", "edge"))
    if bend.taper_mm > 0.0:
        out.append(words("holding", "spring"))
    if rings:
        out.append(words("holding", "ring"))
    return out
