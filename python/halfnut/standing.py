"""Cautions that go with work at the machine whatever its figures: which of them apply to a cut, and to a part."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from halfnut import _core
from halfnut.catalogue import active
from halfnut.record import Caution
from halfnut.sizes import KG_PER_LB
from halfnut.words import STANDING, caution

if TYPE_CHECKING:
    from halfnut.job import Operation, Stock
    from halfnut.machines import Machine
    from halfnut.material import Alloy

__all__ = ["is_aluminium", "is_faceplate", "of_cut", "of_part", "of_weight"]

# Source: common practice, as are the conditions below unless one is named.
_HOLES = frozenset({"drill", "ream", "tap", "form_tap", "countersink", "counterbore", "spot"})
_FINE_CHIP_MM = 0.05  # aluminium milled finer than this is dust rather than chips
_HEAVY_KG = 20.0
_GRIP_DIAMETERS = 0.75  # Source: memory, lathe texts: grip at least 0.75 to 1 diameters, and 10 mm
_LEAST_GRIP_MM = 10.0


def of_cut(
    operation: str, found: Alloy, machine: _core.Machine | None, figures: Mapping[str, Any], diameter_mm: float
) -> list[str]:
    """Codes of the standing cautions of one cut."""
    codes = list(STANDING.get(operation, ()))
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

    >>> from halfnut.material import alloy
    >>> is_aluminium(alloy("6061-T6")), is_aluminium(alloy("1018"))
    (True, False)
    """
    return "aluminium" in _core.group_chain(found.group, active())


def is_faceplate(machine: _core.Machine | None, holder: int) -> bool:
    """Whether the holder in this place of the machine's list is a faceplate, by its name."""
    if machine is None or holder < 0:
        return False
    name = machine.chucks[holder].name.lower()
    return "faceplate" in name or "face plate" in name


def of_weight(mass_kg: float, inch: bool) -> list[Caution]:
    """The caution of work that is heavy to lift, with its weight."""
    if not mass_kg > _HEAVY_KG:
        return []
    mass = f"{mass_kg / KG_PER_LB:.0f} lb" if inch else f"{mass_kg:.0f} kg"
    return [caution("heavy_work", gravity=mass_kg, mass=mass)]


def of_part(
    stock: Stock, blank_mm: float | None, found: Alloy, steps: Iterable[tuple[Operation, Machine]], inch: bool
) -> tuple[Caution, ...]:
    """Cautions that go with a part as a whole, each once.

    Parameters
    ----------
    stock : Stock
        What the part is made from.
    blank_mm : float or None
        How long a blank is sawn; None where that is not known.
    found : Alloy
        Its metal.
    steps : iterable of (Operation, Machine)
        What is done, and where.
    inch : bool
        Whether the weight is told in pounds.
    """
    done = list(steps)
    in_chuck = [
        step
        for step, machine in done
        if machine.kind == "lathe" and machine.core.chucks and getattr(step, "hold", "chuck") != "between centres"
    ]
    made: list[Caution] = [caution("chuck_key")] if in_chuck else []
    if any(step.do == "turn" and getattr(step, "finish", False) for step in in_chuck):
        made.append(caution("emery_by_hand"))
    across = stock.diameter or stock.across_flats
    if across is not None and stock.grip is not None and blank_mm is not None and in_chuck:
        grip = stock.grip.base
        short = 0.0 < grip < max(_GRIP_DIAMETERS * across.base, _LEAST_GRIP_MM)
        alone = any(getattr(step, "hold", "chuck") == "chuck" for step in in_chuck)
        if short and alone and blank_mm - grip > across.base:
            made.append(caution("jaws_tip"))
    if blank_mm is not None:
        made += of_weight(_section_mm2(stock) * blank_mm * 1e-9 * found.density_kg_m3, inch)
    return tuple(made)


def _section_mm2(stock: Stock) -> float:
    if stock.thickness is not None and stock.width is not None:
        return stock.thickness.base * stock.width.base
    if stock.across_flats is not None:
        return math.sqrt(3.0) / 2.0 * stock.across_flats.base**2
    outside = 0.0 if stock.diameter is None else stock.diameter.base
    inside = 0.0 if stock.bore is None else stock.bore.base
    return math.pi / 4.0 * (outside**2 - inside**2)
