"""Alloys of the shop, by any of their names."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, TypeAlias

from halfnut import _core
from halfnut.core.arguments import checked, checked_temperature_c
from halfnut.core.catalogue import active
from halfnut.core.questions import read_by
from halfnut.core.record import Caution, Record
from halfnut.core.words import caution, caution_lines

__all__ = ["Alloy", "alloy"]

_FIGURES = {
    "hardness_hb": ("hardness", "HB", "source"),
    "density_kg_m3": ("density", "kg/m3", "source"),
    "youngs_modulus_gpa": ("Young's modulus", "GPa", "source"),
    "yield_mpa": ("yield strength", "MPa", "source"),
    "tensile_mpa": ("tensile strength", "MPa", "source"),
    "kc11_n_mm2": ("specific cutting force kc1.1", "N/mm2", "kc_source"),
    "mc": ("its exponent mc", "", "kc_source"),
    "unit_power_hp_in3_min": ("unit power", "hp/(in3/min)", "unit_power_source"),
    "unit_power_high_hp_in3_min": ("unit power, upper end", "hp/(in3/min)", "unit_power_source"),
    "expansion_um_m_k": ("thermal expansion", "um/(m K)", "thermal_source"),
    "conductivity_w_m_k": ("thermal conductivity", "W/(m K)", "thermal_source"),
    "specific_heat_j_kg_k": ("specific heat", "J/(kg K)", "thermal_source"),
}


@dataclass(frozen=True)
class PropertySource:
    """Where one property of an alloy comes from."""

    figure: str
    rule: str
    rule_id: str
    row: str
    source: str
    kind: str


@dataclass(frozen=True)
class Alloy(Record):
    """An alloy in one condition. Properties that no source gives are None."""

    id: str
    name: str
    condition: str
    iso513: str
    group: str
    group_names: tuple[str, ...]
    hardness_hb: float | None
    density_kg_m3: float
    youngs_modulus_gpa: float | None
    yield_mpa: float | None
    tensile_mpa: float | None
    kc11_n_mm2: float | None
    mc: float | None
    unit_power_hp_in3_min: float | None
    unit_power_high_hp_in3_min: float | None
    expansion_um_m_k: float | None
    conductivity_w_m_k: float | None
    specific_heat_j_kg_k: float | None
    hazards: tuple[str, ...]
    traits: tuple[str, ...]
    note: str
    index: int = field(repr=False)
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Any, ...] = field(repr=False)

    @property
    def title(self) -> str:
        """Name and condition, as a person says them."""
        return f"{self.name} {self.condition}"

    def to_dict(self) -> dict[str, Any]:
        """The alloy as a flat dictionary with unit-suffixed keys."""
        return {
            "id": self.id,
            "name": self.name,
            "condition": self.condition,
            "iso513": self.iso513,
            "group": self.group,
            **{key: getattr(self, key) for key in _FIGURES},
            "hazards": list(self.hazards),
            "traits": list(self.traits),
            "note": self.note,
        }

    def lines(self) -> list[str]:
        """The alloy as lines for a terminal."""
        out = [f"{self.title}: {self.group_names[0]}, ISO 513 group {self.iso513} ({self.id})"]
        source = {item.figure: item for item in self.evidence}
        for key, (words, unit, _) in _FIGURES.items():
            value = getattr(self, key)
            if value is not None:
                out.append(f"  {words} {value:g}{' ' if unit else ''}{unit}  [{source[key].kind}]")
        if self.note:
            out.append(f"  note: {self.note}")
        out += caution_lines(self.cautions)
        return out


@checked
def alloy(name: str) -> Alloy:
    """The alloy of a name, in one condition.

    Parameters
    ----------
    name : str
        A UNS number, a trade name with or without its condition ("6061-T6", "4130 normalised"), an EN or
        Werkstoff number. Case, spaces and punctuation do not count.

    Returns
    -------
    Alloy
        Its properties with where each comes from.

    Raises
    ------
    NotTabulatedError
        Nothing of that name (the message offers the nearest), or several conditions to choose from.

    >>> alloy("6061-T6").hardness_hb
    95.0
    """
    return _alloy(name, active())


@lru_cache(maxsize=256)
def _alloy(name: str, catalogue: _core.Catalogue) -> Alloy:
    index = _core.find_alloy(name, catalogue)
    row = catalogue.row("material/alloys", index)
    sources = {key: row.pop(key) for key in ("source", "kc_source", "unit_power_source", "thermal_source")}
    row.pop("unit_power_thickness_mm")
    like = row.pop("like")
    base = catalogue.row("material/alloys", _core.find_alloy(like, catalogue)) if like else {}

    def origin(key: str, place: str) -> tuple[str, Any]:
        """Row and source of a figure: of the alloy that this one is like, where its own row leaves it out."""
        if base and base[key] == row[key]:
            return base["id"], base[place]
        return row["id"], sources[place]

    hazards = tuple(row.pop("hazards").split())
    evidence = tuple(
        PropertySource(
            key,
            "as tabulated",
            "",
            f"material/alloys {home}",
            source["citation"],
            source["kind"],
        )
        for key, (_, _, place) in _FIGURES.items()
        for home, source in [origin(key, place)]
        if row[key] is not None and source is not None
    )
    return Alloy(
        **row | {"traits": tuple(row["traits"].split())},
        group_names=tuple(_core.group_chain(row["group"], catalogue)),
        hazards=hazards,
        index=index,
        cautions=tuple(caution(f"hazard_{word}") for word in hazards),
        evidence=evidence,
    )


AlloyLike: TypeAlias = str | Alloy
read_by("Alloy", alloy)


def lacking(found: Alloy) -> list[str]:
    """What an alloy's row leaves out that forces and deflections of the work need, in words; nothing as a rule.

    >>> lacking(alloy("6061-T6"))
    []
    """
    out = []
    if found.kc11_n_mm2 is None and found.unit_power_hp_in3_min is None and found.tensile_mpa is None:
        out.append(
            f"no force, power or torque: the row of {found.title} gives none of kc11_n_mm2 with mc, "
            "unit_power_hp_in3_min with its thickness, tensile_mpa"
        )
    if found.youngs_modulus_gpa is None:
        out.append(f"no deflection or whirl of the work: the row of {found.title} gives no youngs_modulus_gpa")
    return out


def modulus_gpa(found: Alloy, figure: str) -> float:
    """Young's modulus of an alloy, GPa, for a figure that cannot do without it.

    Raises
    ------
    NotTabulatedError
        The alloy's row leaves it out.

    >>> modulus_gpa(alloy("6061-T6"), "deflection")
    68.9
    """
    if found.youngs_modulus_gpa is None:
        raise _core.NotTabulatedError(
            f"no {figure}: the row of {found.title} gives no youngs_modulus_gpa; add it, or like = an alloy that has it"
        )
    return found.youngs_modulus_gpa


def expansion_at(alloy_name: str | None, temperature_c: float) -> float:
    """Thermal expansion of an alloy that a temperature asks for, um/(m K); at 20 C no alloy is needed.

    >>> expansion_at(None, 20.0), expansion_at("6061-T6", 60.0)
    (0.0, 23.6)
    """
    checked_temperature_c(temperature_c, "temperature_c")
    if alloy_name is None:
        if temperature_c != 20.0:
            raise _core.DomainError(f"at {temperature_c:g} C the alloy of each part is needed: its expansion counts")
        return 0.0
    found = alloy(alloy_name)
    if found.expansion_um_m_k is None:
        raise _core.NotTabulatedError(f"no thermal expansion is tabulated for {found.title}")
    return found.expansion_um_m_k
