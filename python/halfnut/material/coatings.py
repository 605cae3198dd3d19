"""Coatings: how much they build up on a surface, on what they go, and what to mind."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import (
    BuildUp,
    Evidence,
    build_up_um,
    coated_diameter_change_um,
    coated_pitch_change_um,
    metal_consumed_um,
    recoated_build_up_um,
    spell_span,
)
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.units import length
from halfnut.core.words import caution

__all__ = [
    "BuildUp",
    "Coating",
    "build_up",
    "build_up_um",
    "coated_diameter_change_um",
    "coating",
    "metal_consumed_um",
    "recoated_build_up_um",
    "refuse_coating",
]


def build_up(value: Any, name: str = "build_up") -> BuildUp:
    """What a coating adds to one surface, from what a person gives.

    Parameters
    ----------
    value : str, Length, pint quantity, pair of these, Coating, BuildUp or None
        ``"8 um"`` (exact), ``"0.0002 in to 0.0003 in"``, ``"8 um min"`` (maximum half as much again), a coating such
        as ``"anodise II 12 um"``, ``"hard anodise 0.002 in"``, ``"zinc SC2"``; ``None`` or ``"bare"`` for none.
    name : str
        The argument's name, for messages.

    Returns
    -------
    BuildUp
        Least and greatest build-up, um.

    Raises
    ------
    UnitError
        A bare number.
    DesignationError, NotTabulatedError
        Not understood, or no such coating.

    >>> build_up("anodise II black 15 um").max_um
    7.5
    """
    if value is None:
        return _core.parse_build_up("bare", active())
    if isinstance(value, BuildUp):
        return value
    if isinstance(value, Coating):
        return value.build_up
    try:
        if isinstance(value, str):
            return _core.parse_build_up(value, active())
        if isinstance(value, (tuple, list)) and len(value) == 2:
            least, most = (1000.0 * length(each, name).mm for each in value)
            return BuildUp(least, most)
    except _core.Error as error:
        error.args = (f"{name}: {error}",)
        raise
    exact = 1000.0 * length(value, name).mm
    return BuildUp(exact, exact)


@dataclass(frozen=True, repr=False)
class Coating(Record):
    """A finish: its film, what it adds to a surface, and what to mind."""

    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("film", "{film_min_um..film_max_um:film}"),
        ("diameter", "{diameter_min_um..diameter_max_um:film}; a hole shrinks by as much"),
        ("pitch", "{pitch_change_min_um..pitch_change_max_um:film} on a 60 degree thread"),
        ("note", "{note}"),
    )
    id: str
    name: str
    process: str
    base: str
    film_min_um: float
    film_max_um: float
    build_up_min_um: float
    build_up_max_um: float
    pitch_change_min_um: float
    pitch_change_max_um: float
    note: str
    build_up: BuildUp = field(compare=False)
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """The finish as a flat dictionary with unit-suffixed keys."""
        return self._fields("build_up")

    @property
    def answer(self) -> str:
        """What it adds, in both systems: no length says which."""
        adds = [spell_span(self.build_up_min_um, self.build_up_max_um, "film", unit) for unit in ("mm", "in")]
        return f"{self.name}: {adds[0]} a surface ({adds[1]})"

    @property
    def diameter_min_um(self) -> float:
        """What it adds to a diameter, at least."""
        return 2 * self.build_up_min_um

    @property
    def diameter_max_um(self) -> float:
        """What it adds to a diameter, at most."""
        return 2 * self.build_up_max_um


@checked
def coating(text: str, *, on: str | None = None, strips: int = 0) -> Coating:
    """What is known of a finish, for a film of a given or its usual thickness.

    Parameters
    ----------
    text : str
        ``"anodise II"``, ``"anodise II black 15 um"``, ``"hard anodise 0.002 in"``, ``"electroless nickel B"``.
    on : str, optional
        The alloy it is to go on; one that does not take it is refused.
    strips : int
        How often the film was stripped and grown anew, which takes metal each time: 0 to 10.

    Returns
    -------
    Coating
        Immutable; prints itself.

    Raises
    ------
    NotTabulatedError
        No such coating or alloy; the message names the nearest.
    DomainError
        The alloy does not take it, or `strips` is out of its range.

    >>> coating("anodise II 12 um", strips=1).build_up_max_um
    0.0
    >>> coating("hard anodise 0.002 in").build_up_max_um
    25.4
    """
    catalogue = active()
    found = build_up(text, "coating")
    if found.coating is None:
        raise _core.NotTabulatedError(f"'{text}' is a build-up; a coating has a name, such as 'anodise II'")
    row = catalogue.row("threads/coatings", found.coating)
    if on is not None:
        refuse_coating(found, on)
    if strips:
        found = found.recoated(strips, catalogue)
    low, high = found.film_min_um or 0.0, found.film_max_um or 0.0
    return Coating(
        id=row["coating"],
        name=row["name"],
        process=row["process"],
        base=row["base"],
        film_min_um=low,
        film_max_um=high,
        build_up_min_um=found.min_um,
        build_up_max_um=found.max_um,
        pitch_change_min_um=coated_pitch_change_um(found.min_um, 30.0),
        pitch_change_max_um=coated_pitch_change_um(found.max_um, 30.0),
        note=row["note"],
        build_up=found,
        cautions=tuple(process_cautions(found)),
        evidence=tuple(found.evidence(catalogue)),
    )


def refuse_coating(found: BuildUp, on: str) -> None:
    """Refuse a coating on an alloy that does not take it; DomainError.

    >>> refuse_coating(build_up("anodise II"), "6061-T6")
    """
    from halfnut.material.questions import alloy

    metal = alloy(on)
    if found.coating is not None:
        _core.require_takes(found.coating, metal.group, metal.title, active())


def process_cautions(found: BuildUp, *, internal: bool = False) -> list[Caution]:
    """What to mind about a finish as a process."""
    made = []
    if found.maximum_by_rule:
        made.append(caution("coat_maximum_by_rule"))
    if found.coating is None:
        return made
    row = active().row("threads/coatings", found.coating)
    low, high = found.film_min_um or 0.0, found.film_max_um or 0.0
    if low < row["film_min_um"] - 1e-9 or (row["film_max_um"] is not None and high > row["film_max_um"] + 1e-9):
        most = "" if row["film_max_um"] is None else f" to {row['film_max_um']:g}"
        made.append(caution("coat_film_outside", film=f"{row['film_min_um']:g}{most}"))
    if found.usual:
        made.append(caution("coat_usual_film"))
    if row["process"] == "anodise":
        if row["growth_low"] != row["growth_high"]:
            made.append(caution("coat_growth_range"))
        if row["etch_high_um"] > 0:
            made.append(caution("coat_etch", etch=f"{row['etch_high_um']:g}"))
        made.append(caution("coat_strip"))
        if internal:
            made.append(caution("coat_blind_hole"))
    elif row["process"] == "plating":
        made.append(caution("coat_uneven"))
    elif row["process"] == "conversion" and "chromate" in row["name"]:
        made.append(caution("coat_chromate"))
    return made
