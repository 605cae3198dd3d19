"""Plain holes and shafts: limits of size by ISO 286 and ANSI B4.1, and how a pair goes together.

`cylindrical_fit` answers one size or a pair, bare or coated, at its temperatures; `preferred_fits` names the fits to
choose first.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, Literal

from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import BuildUp, Evidence, spell, spell_span, tolerance_unit_um
from halfnut.core.arguments import checked, checked_temperature_c
from halfnut.core.catalogue import active, rows
from halfnut.core.record import Caution, Record
from halfnut.core.units import measured_mm
from halfnut.core.words import caution
from halfnut.material.alloys import expansion_at
from halfnut.material.coatings import build_up

__all__ = [
    "CylinderPart",
    "CylindricalFit",
    "cylindrical_fit",
    "cylindrical_fit_columns",
    "preferred_fits",
    "tolerance_unit_um",
]

_UNITS = 1_000_000
"""The core counts sizes in millionths of the standard's unit."""
_ROOM_C = 20.0


@dataclass(frozen=True)
class CylinderPart:
    """Limits of one part: whole millionths of the standard's unit, and millimetres."""

    side: Literal["hole", "shaft"]
    tolerance_class: str
    """"H7"; a fit of ANSI B4.1 names the pair: "RC4"."""
    unit: str
    nominal_units: int
    upper_units: int
    """Deviation from the nominal size."""
    lower_units: int
    kind: str
    """"printed", "derived" by the standard's rule, "memory" or "shop"."""

    @property
    def max_units(self) -> int:
        """Greatest size."""
        return self.nominal_units + self.upper_units

    @property
    def min_units(self) -> int:
        """Least size."""
        return self.nominal_units + self.lower_units

    @property
    def max_mm(self) -> float:
        """Greatest size, mm."""
        return self._mm(self.max_units)

    @property
    def min_mm(self) -> float:
        """Least size, mm."""
        return self._mm(self.min_units)

    @property
    def tolerance_mm(self) -> float:
        """Greatest less least, mm."""
        return self._mm(self.upper_units - self.lower_units)

    def _mm(self, units: int) -> float:
        return units / _UNITS if self.unit == "mm" else units * 127 / (5 * _UNITS)

    def sizes(self) -> str:
        """The limits in the standard's unit, the other unit beside them rounded inward: the greater one first."""
        places = _places((self.max_units, self.min_units), self.unit)
        own = "/".join(f"{units / _UNITS:.{places}f}" for units in (self.max_units, self.min_units))
        other = "in" if self.unit == "mm" else "mm"
        step = 1e-5 if other == "in" else 1e-4
        scale = 1 / 25.4 if other == "in" else 25.4
        most = math.floor(self.max_units / _UNITS * scale / step + 1e-6) * step
        least = math.ceil(self.min_units / _UNITS * scale / step - 1e-6) * step
        digits = 5 if other == "in" else 4
        return f"{own} {self.unit} ({most:.{digits}f}/{least:.{digits}f} {other})"

    def deviations(self) -> str:
        """The deviations as a table prints them: "+21/0 um", "-0.3/-0.7 thou"."""
        name = "um" if self.unit == "mm" else "thou"
        texts = [f"{units / 1000:+g}" if units else "0" for units in (self.upper_units, self.lower_units)]
        return f"{'/'.join(texts)} {name}"


def _places(sizes: Iterable[int], unit: str) -> int:
    """Decimals that show each size whole, the unit's usual ones at least."""
    least = 3 if unit == "mm" else 4
    return next(
        (places for places in range(least, 6) if all(size % 10 ** (6 - places) == 0 for size in sizes)),
        6,
    )


@dataclass(frozen=True, repr=False)
class CylindricalFit(Record):
    """A size, or a hole and a shaft together. Clearances are below 0 where the parts interfere; lengths in mm."""

    text: str
    unit: str
    nominal_mm: float
    hole: CylinderPart | None
    shaft: CylinderPart | None
    name: str
    """What such a fit is for, where it is a preferred one."""
    character: str
    """"clearance", "transition" or "interference", as the parts meet; "none" for one part."""
    clearance_min_mm: float | None = None
    """As the parts meet: coated, and at their temperatures."""
    clearance_max_mm: float | None = None
    clearance_mean_mm: float | None = None
    clearance_sigma_mm: float | None = None
    chance_of_interference: float | None = None
    hole_build_up_min_um: float = 0.0
    hole_build_up_max_um: float = 0.0
    shaft_build_up_min_um: float = 0.0
    shaft_build_up_max_um: float = 0.0
    hole_temperature_c: float = 20.0
    shaft_temperature_c: float = 20.0
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    @property
    def kind(self) -> str:
        """Where the limits come from, the least sure of their figures deciding."""
        order = ("printed", "derived", "memory", "shop")
        return max((part.kind for part in self.parts), key=order.index)

    @property
    def parts(self) -> tuple[CylinderPart, ...]:
        """The parts that are given, the hole first."""
        return tuple(part for part in (self.hole, self.shaft) if part is not None)

    def cut_to_mm(self, side: str) -> tuple[float, float] | None:
        """Least and greatest size to cut a part to, so that it is within its class once it is coated.

        None where the part has no coating, or where the coating's own range is wider than the tolerance.
        """
        part = self.hole if side == "hole" else self.shaft
        most = self.hole_build_up_max_um if side == "hole" else self.shaft_build_up_max_um
        least = self.hole_build_up_min_um if side == "hole" else self.shaft_build_up_min_um
        if part is None or most == 0.0:
            return None
        low, high = (
            (part.min_mm + 2 * most / 1000, part.max_mm + 2 * least / 1000)
            if side == "hole"
            else (part.min_mm - 2 * least / 1000, part.max_mm - 2 * most / 1000)
        )
        return None if low > high else (low, high)

    def to_dict(self) -> dict[str, Any]:
        """The fit as a flat dictionary with unit-suffixed keys."""
        out = self._fields("hole", "shaft")
        out["kind"] = self.kind
        for part in self.parts:
            out[f"{part.side}_class"] = part.tolerance_class
            out[f"{part.side}_max_mm"] = part.max_mm
            out[f"{part.side}_min_mm"] = part.min_mm
            out[f"{part.side}_kind"] = part.kind
        return out

    @property
    def answer(self) -> str:
        """The fit or the limits."""
        return f"{self._title()}: {self._answer()}"

    def report(self) -> list[tuple[str, str]]:
        """The parts, and how they meet."""
        out: list[tuple[str, str]] = [
            (part.side, f"{part.sizes()}, {part.deviations()}, {part.kind}") for part in self.parts
        ]
        for part in self.parts:
            out += self._coated(part)
        warm = {"hole": self.hole_temperature_c, "shaft": self.shaft_temperature_c}
        out += [(part.side, f"at {warm[part.side]:g} °C") for part in self.parts if warm[part.side] != 20.0]
        if self.clearance_mean_mm is not None and self.clearance_sigma_mm is not None:
            out.append(("likely", self._likely()))
        return out

    def _title(self) -> str:
        size, rest = self.text.split(" ", 1)
        return f"{size} {self.unit} {rest}"

    def _answer(self) -> str:
        if self.clearance_min_mm is None or self.clearance_max_mm is None:
            return self.parts[0].sizes()
        low, high = self.clearance_min_mm, self.clearance_max_mm
        named = f" ({self.name})" if self.name else ""
        if self.character == "interference":
            return f"interference{named}, {spell_span(-high, -low, 'length', self.unit)}"
        if self.character == "clearance":
            return f"clearance{named}, {spell_span(low, high, 'length', self.unit)}"
        tight, free = (spell(each, "length", self.unit) for each in (-low, high))
        return f"transition{named}, up to {tight} of interference or {free} of clearance"

    def _coated(self, part: CylinderPart) -> list[tuple[str, str]]:
        hole = part.side == "hole"
        least = self.hole_build_up_min_um if hole else self.shaft_build_up_min_um
        most = self.hole_build_up_max_um if hole else self.shaft_build_up_max_um
        if most == 0.0:
            return []
        thick = spell_span(least, most, "film", self.unit)
        cut = self.cut_to_mm(part.side)
        to = "no size keeps the class once coated: the coating varies by more than the tolerance"
        if cut is not None:
            size = spell_span(*cut, "length", self.unit)
            to = f"to be {part.tolerance_class} once coated: cut the {part.side} {size}"
        return [("coated", f"{thick} a surface on the {part.side}, twice that on its diameter"), ("cut", to)]

    def _likely(self) -> str:
        low, high = self.clearance_min_mm or 0.0, self.clearance_max_mm or 0.0
        mean, three = self.clearance_mean_mm or 0.0, 3 * (self.clearance_sigma_mm or 0.0)
        text = spell_span(max(low, mean - three), min(high, mean + three), "length", self.unit)
        chance = self.chance_of_interference or 0.0
        share = (
            "none"
            if chance <= 0.0
            else "certain"
            if chance >= 1.0
            else "under 0.01 %"
            if chance < 1e-4
            else f"{100 * chance:.2g} %"
        )
        return f"{text} of clearance; chance of interference {share}"


@checked
def cylindrical_fit(
    text: str,
    *,
    hole_build_up: Any = None,
    shaft_build_up: Any = None,
    hole: Any = None,
    shaft: Any = None,
    hole_alloy: str | None = None,
    shaft_alloy: str | None = None,
    hole_temperature_c: float = 20.0,
    shaft_temperature_c: float = 20.0,
    tolerance_over_sigma: float = 6.0,
    mean_shift: float = 0.0,
) -> CylindricalFit:
    """Limits of a plain hole or shaft, and how the two go together.

    Parameters
    ----------
    text : str
        ``"25 H7/g6"``, ``"25 H7"``, ``"25 g6"`` (ISO 286, in mm where no unit is said; ``"1 in H7/g6"``), or
        ``"1.25 RC4"`` (ANSI B4.1, in inches where no unit is said).
    hole_build_up, shaft_build_up : optional
        What a coating adds to each surface: ``"8 um"``, ``"anodise II 12 um"``.
    hole, shaft : str, Length or pint quantity, optional
        Measured sizes of bare parts, in place of their limits when they meet.
    hole_alloy, shaft_alloy : str, optional
        Needed for a temperature other than 20 C.
    hole_temperature_c, shaft_temperature_c : float
        Of each part, degrees Celsius.
    tolerance_over_sigma : float
        Tolerance over the standard deviation of the shop's cutting, 2 to 100; 6 fills the zone.
    mean_shift : float
        Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other.

    Returns
    -------
    CylindricalFit
        Immutable; prints itself, the fit in its first line.

    Raises
    ------
    DesignationError
        The text is not understood; the error's ``position`` says where.
    NotTabulatedError
        The standard gives no such class at this size.
    DomainError
        A size, temperature or spread out of its range.

    >>> answer = cylindrical_fit("25 H7/g6")
    >>> answer.hole.max_mm, answer.shaft.max_mm, answer.character
    (25.021, 24.993, 'clearance')
    >>> answer.answer
    '25 mm H7/g6: clearance (sliding), 0.007 to 0.041 mm'
    >>> cylindrical_fit("1 RC4").shaft.min_units
    998400
    """
    catalogue = active()
    answer = _core.cylinder_answer(text, catalogue)
    unit = answer["unit"]
    fit_class = answer["ansi_fit"]
    parts: dict[str, CylinderPart | None] = {}
    for side in ("hole", "shaft"):
        zone = answer[side]
        parts[side] = zone and CylinderPart(
            side="hole" if side == "hole" else "shaft",
            tolerance_class=fit_class or answer[f"{side}_class"],
            unit=unit,
            nominal_units=answer["nominal_units"],
            **zone,
        )
    coats = {"hole": build_up(hole_build_up, "hole_build_up"), "shaft": build_up(shaft_build_up, "shaft_build_up")}
    for side, coat in coats.items():
        if parts[side] is None and coat.max_um > 0.0:
            raise _core.DomainError(f"{side}_build_up says nothing about {text}: it has no {side}")
    for name, warm in (("hole_temperature_c", hole_temperature_c), ("shaft_temperature_c", shaft_temperature_c)):
        if checked_temperature_c(warm, name) != _ROOM_C and None in parts.values():
            raise _core.DomainError(f"{name} says nothing about {text}: it is of a pair, and {text} names one part")
    for name, size in (("hole", hole), ("shaft", shaft)):
        if size is not None and None in parts.values():
            raise _core.DomainError(f"{name}, measured, says nothing about {text}: it names one part, not a pair")
    given: dict[str, Any] = {}
    evidence = list(answer["evidence"])
    character = answer["character"]
    bore, pin = parts["hole"], parts["shaft"]
    if bore is not None and pin is not None:
        met = _core.meeting_answer(
            _meeting_part(bore, coats["hole"], hole, hole_alloy, hole_temperature_c),
            _meeting_part(pin, coats["shaft"], shaft, shaft_alloy, shaft_temperature_c),
            tolerance_over_sigma,
            mean_shift,
            catalogue,
        )
        evidence += met.pop("evidence")
        given = met
        character = _character(met["clearance_min_mm"], met["clearance_max_mm"])
    name = next((row["name"] for row in rows("fits/preferred_fits") if row["fit"] == text_of_fit(answer)), "")
    out = CylindricalFit(
        text=answer["text"],
        unit=unit,
        nominal_mm=answer["nominal_units"] / _UNITS * (25.4 if unit == "in" else 1.0),
        name=name,
        character=character,
        hole_build_up_min_um=coats["hole"].min_um,
        hole_build_up_max_um=coats["hole"].max_um,
        shaft_build_up_min_um=coats["shaft"].min_um,
        shaft_build_up_max_um=coats["shaft"].max_um,
        hole_temperature_c=hole_temperature_c,
        shaft_temperature_c=shaft_temperature_c,
        evidence=tuple(evidence),
        hole=bore,
        shaft=pin,
        **given,
    )
    return _with_cautions(out)


def text_of_fit(answer: dict[str, Any]) -> str:
    """The fit alone, without its size: "H7/g6", "RC4"."""
    return answer["ansi_fit"] or f"{answer['hole_class']}/{answer['shaft_class']}"


def _character(low_mm: float, high_mm: float) -> str:
    rounding = 1e-9
    return "clearance" if low_mm >= -rounding else "interference" if high_mm <= rounding else "transition"


def _meeting_part(
    part: CylinderPart, coat: BuildUp, measured: Any, alloy_name: str | None, temperature_c: float
) -> tuple[float, float, float, float, float, float]:
    low, high = part.min_mm, part.max_mm
    if measured is not None:
        low = high = measured_mm(measured, part.side)
    return low, high, coat.min_um, coat.max_um, temperature_c, expansion_at(alloy_name, temperature_c)


def _with_cautions(found: CylindricalFit) -> CylindricalFit:
    made = []
    if found.kind == "memory":
        made.append(caution("from_memory"))
    if found.character in {"interference", "transition"}:
        made += [caution("fit_press"), caution("fit_hot")]
    for part in found.parts:
        most = found.hole_build_up_max_um if part.side == "hole" else found.shaft_build_up_max_um
        if most > 0.0 and found.cut_to_mm(part.side) is None:
            made.append(caution("fit_coating_wide", part=part.side))
    return found if not made else CylindricalFit(**{**found.__dict__, "cautions": tuple(made)})


@checked
def preferred_fits() -> list[dict[str, Any]]:
    """The fits to choose first, with their basis (hole or shaft), use and source.

    >>> [row["fit"] for row in preferred_fits() if row["name"] == "sliding"]
    ['G7/h6', 'H7/g6', 'RC2']
    """
    return rows("fits/preferred_fits")


def cylindrical_fit_columns(
    texts: Iterable[str], *, on_error: Literal["raise", "status"] = "raise"
) -> dict[str, NDArray[Any]]:
    """Limits of many sizes as columns.

    Parameters
    ----------
    texts : iterable of str
        One a row, as for `cylindrical_fit`.
    on_error : {"raise", "status"}
        "raise" stops at the first bad row and counts the others; "status" marks bad rows in ``status``.

    Returns
    -------
    dict of ndarray
        ``hole_max_mm`` and its fellows, ``clearance_min_mm`` and ``clearance_max_mm`` (NaN where a row has no such
        part), and ``status`` (0: ok).

    Raises
    ------
    DomainError
        With ``on_error="raise"``, at a bad row.

    >>> cylindrical_fit_columns(["25 H7/g6", "40 H7"])["hole_max_mm"].tolist()
    [25.021, 40.025]
    """
    columns: dict[str, NDArray[Any]] = _core.cylinder_columns(list(texts), active(), on_error)
    return columns
