"""Cautions that go with work at the machine whatever its figures: which of them apply to a cut."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from halfnut import _core
from halfnut._core import spell
from halfnut.core.catalogue import active
from halfnut.core.record import Caution
from halfnut.core.words import caution

if TYPE_CHECKING:
    from halfnut.material.alloys import Alloy

__all__ = ["is_aluminium", "of_cut", "of_weight"]

# Source: common practice, as are the conditions below unless one is named.
_HOLES = frozenset({"drill", "ream", "tap", "form_tap", "countersink", "counterbore", "spot"})
_FINE_CHIP_MM = 0.05  # aluminium milled finer than this is dust rather than chips
_HEAVY_KG = 20.0


def of_cut(
    operation: str, found: Alloy, machine: _core.Machine | None, figures: Mapping[str, Any], diameter_mm: float
) -> list[str]:
    """Codes of the standing cautions of one cut."""
    codes = active().standing(operation)
    if operation in _HOLES and (machine is None or machine.kind != "lathe"):
        codes.append("clamp_work")
    depth = figures.get("depth_mm")
    if operation == "drill" and depth is not None and depth < diameter_mm:
        codes.append("breakthrough")
    chip = figures.get("chip_thickness_mm")
    if operation.startswith("mill") and chip is not None and chip < _FINE_CHIP_MM and is_aluminium(found):
        codes.append("aluminium_fines")
    return codes


def is_aluminium(found: Alloy) -> bool:
    """Whether an alloy is one of aluminium.

    >>> from halfnut.material.questions import alloy
    >>> is_aluminium(alloy("6061-T6")), is_aluminium(alloy("1018"))
    (True, False)
    """
    return "aluminium" in _core.group_chain(found.group, active())


def of_weight(mass_kg: float, unit: str) -> list[Caution]:
    """The caution of work that is heavy to lift, with its weight."""
    if not mass_kg > _HEAVY_KG:
        return []
    return [caution("heavy_work", gravity=mass_kg, mass=spell(mass_kg, "mass", unit))]
