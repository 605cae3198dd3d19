"""Figures of the answers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from dataclasses import field
from typing import ClassVar

from halfnut.core.fixed import made
from halfnut.core.questions import Answered

__all__ = ["Alloy"]


@made(frozen=True)
class Alloy(Answered):
    """An alloy in one condition. Properties that no source gives are None."""

    id: str
    """UNS number where there is one, with the condition where several are listed."""
    name: str
    """Name in the trade."""
    condition: str
    """How it was treated."""
    iso513: str
    """Group of work material by ISO 513."""
    group: str
    """Group that speeds are tabulated for."""
    group_names: tuple[str, ...]
    """Name of that group and of those above it."""
    title: str = field(repr=False, compare=False)
    """Name and condition, as a person says them."""
    hardness_hb: float | None
    """Brinell hardness. In HB."""
    density_kg_m3: float
    """Density. In kg/m3."""
    youngs_modulus_gpa: float | None
    """Young's modulus. In GPa."""
    yield_mpa: float | None
    """Yield strength. In MPa."""
    tensile_mpa: float | None
    """Tensile strength. In MPa."""
    kc11_n_mm2: float | None
    """Specific cutting force kc1.1. In N/mm2."""
    mc: float | None
    """Exponent mc of the chip's thickness."""
    unit_power_hp_in3_min: float | None
    """Unit power. In hp/(in3/min)."""
    unit_power_high_hp_in3_min: float | None
    """Upper end of the unit power, where its source prints a range. In hp/(in3/min)."""
    expansion_um_m_k: float | None
    """Thermal expansion. In um/(m K)."""
    conductivity_w_m_k: float | None
    """Thermal conductivity. In W/(m K)."""
    specific_heat_j_kg_k: float | None
    """Specific heat. In J/(kg K)."""
    hazards: tuple[str, ...]
    """What is dangerous in machining it, in single words."""
    traits: tuple[str, ...]
    """How it behaves in machining, in single words."""
    note: str
    """What else is to be said."""
    fluids: tuple[str, ...]
    """Operation and its cutting fluid, in one word each."""
    strengths: tuple[str, ...]
    """Minimum strengths by form and thickness, each with the kind of its source."""
    lacking: tuple[str, ...]
    """What its row leaves out that forces and deflections of the work need."""
    index: int
    """Place in the table of alloys."""
    SHORT: ClassVar[tuple[str, ...]] = ("*",)


@made(frozen=True)
class CoatingFigures(Answered):
    """A finish: its film, what it adds to a surface, and what to mind."""

    id: str
    """Name in the table of coatings."""
    name: str
    """Name of the finish."""
    text: str
    """Finish as it was asked for."""
    strips: int
    """How often it was stripped."""
    process: str
    """How it is made."""
    base: str
    """Metal that it goes on."""
    film_min_um: float
    """Least thickness of the film. In um."""
    film_max_um: float
    """Greatest thickness of the film. In um."""
    build_up_min_um: float
    """Least that it adds to a surface. In um."""
    build_up_max_um: float
    """Most that it adds to a surface. In um."""
    diameter_min_um: float = field(repr=False, compare=False)
    """What it adds to a diameter, at least. In um."""
    diameter_max_um: float = field(repr=False, compare=False)
    """What it adds to a diameter, at most. In um."""
    pitch_change_min_um: float
    """Least change of the pitch diameter of a 60 degree thread. In um."""
    pitch_change_max_um: float
    """Greatest change of it. In um."""
    note: str
    """What else is to be said."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "diameter",
        "pitch",
    )
