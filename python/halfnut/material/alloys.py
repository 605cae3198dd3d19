"""Alloys of the shop, by any of their names."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, TypeAlias

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.fixed import made
from halfnut.core.questions import ask, read_by
from halfnut.material.figures import AlloyFigures

__all__ = ["Alloy"]

_FIGURES = {
    "hardness_hb": ("hardness", "HB"),
    "density_kg_m3": ("density", "kg/m3"),
    "youngs_modulus_gpa": ("Young's modulus", "GPa"),
    "yield_mpa": ("yield strength", "MPa"),
    "tensile_mpa": ("tensile strength", "MPa"),
    "kc11_n_mm2": ("specific cutting force kc1.1", "N/mm2"),
    "mc": ("its exponent mc", ""),
    "unit_power_hp_in3_min": ("unit power", "hp/(in3/min)"),
    "unit_power_high_hp_in3_min": ("unit power, upper end", "hp/(in3/min)"),
    "expansion_um_m_k": ("thermal expansion", "um/(m K)"),
    "conductivity_w_m_k": ("thermal conductivity", "W/(m K)"),
    "specific_heat_j_kg_k": ("specific heat", "J/(kg K)"),
}


@made(frozen=True)
class PropertySource:
    """Where one property of an alloy comes from."""

    figure: str
    rule: str
    rule_id: str
    row: str
    source: str
    kind: str


class Alloy(AlloyFigures):
    """An alloy in one condition. Properties that no source gives are None."""

    @property
    def given(self) -> str:
        """What a question takes of it."""
        return self.id

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

    @property
    def answer(self) -> str:
        """What it is."""
        return f"{self.title}: {self.group_names[0]}, ISO 513 group {self.iso513} ({self.id})"

    def lines(self) -> list[str]:
        """All of it: it is looked through."""
        return self.whole()

    def report(self) -> list[tuple[str, str]]:
        """Its figures."""
        out = []
        for key, (what, unit) in _FIGURES.items():
            value = getattr(self, key)
            if value is not None:
                out.append(("", f"{what:<28}  {value:g} {unit}".rstrip()))
        return [*out, *([("note", self.note)] if self.note else [])]


AlloyLike: TypeAlias = str | Alloy


def of_name(name: str) -> Alloy:
    return _made(name, active())


@lru_cache(maxsize=256)
def _made(name: str, catalogue: _core.Catalogue) -> Alloy:
    return Alloy.of(ask("alloy", (name,)))


read_by("Alloy", of_name)
