"""Cautions that go with a part as a whole, whatever its figures."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from halfnut._core import spell
from halfnut.core.record import Caution
from halfnut.core.words import caution

if TYPE_CHECKING:
    from halfnut.machine.machines import Machine
    from halfnut.material.alloys import Alloy
    from halfnut.planning.job import Step, Stock

__all__ = ["of_part"]
# Source: common practice, as are the conditions below unless one is named.
_GRIP_DIAMETERS = 0.75  # Source: memory, lathe texts: grip at least 0.75 to 1 diameters, and 10 mm
_LEAST_GRIP_MM = 10.0
_HEAVY_KG = 20.0


def of_part(
    stock: Stock, blank_mm: float | None, found: Alloy, steps: Iterable[tuple[Step, Machine]], unit: str
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
    steps : iterable of (Step, Machine)
        What is done, and where.
    unit : str
        "in" or "mm": the weight is told in its system.
    """
    done = list(steps)
    in_chuck = [
        step
        for step, machine in done
        if machine.kind == "lathe" and machine.core.chucks and step.text("hold") != "between centres"
    ]
    made: list[Caution] = [caution("chuck_key")] if in_chuck else []
    if any(step.do == "turn" and step.finishes for step in in_chuck):
        made.append(caution("emery_by_hand"))
    across = stock.diameter or stock.across_flats
    if across is not None and stock.grip is not None and blank_mm is not None and in_chuck:
        grip = stock.grip.base
        short = 0.0 < grip < max(_GRIP_DIAMETERS * across.base, _LEAST_GRIP_MM)
        alone = any(step.text("hold") in {"", "chuck"} for step in in_chuck)
        if short and alone and blank_mm - grip > across.base:
            made.append(caution("jaws_tip"))
    if blank_mm is not None:
        mass_kg = _section_mm2(stock) * blank_mm * 1e-9 * found.density_kg_m3
        if mass_kg > _HEAVY_KG:
            made.append(caution("heavy_work", gravity=mass_kg, mass=spell(mass_kg, "mass", unit)))
    return tuple(made)


def _section_mm2(stock: Stock) -> float:
    if stock.thickness is not None and stock.width is not None:
        return stock.thickness.base * stock.width.base
    if stock.across_flats is not None:
        return math.sqrt(3.0) / 2.0 * stock.across_flats.base * stock.across_flats.base
    outside = 0.0 if stock.diameter is None else stock.diameter.base
    inside = 0.0 if stock.bore is None else stock.bore.base
    return math.pi / 4.0 * (outside - inside) * (outside + inside)
