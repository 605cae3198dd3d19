"""Figures of the answers of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import ClassVar

from halfnut.core.fixed import made
from halfnut.core.questions import Answered, Listed
from halfnut.core.record import Part

__all__ = ["CylinderPart", "PreferredFit", "PreferredFits"]


@made(frozen=True)
class CylinderPart:
    """Limits of one part: whole millionths of the standard's unit, and millimetres."""

    side: str
    """Which part: hole or shaft."""
    tolerance_class: str
    """Class such as H7; a fit of ANSI B4.1 names the pair: RC4."""
    unit: str
    """Unit of the standard."""
    nominal_units: int
    """Nominal size in millionths of the unit."""
    upper_units: int
    """Upper deviation from it."""
    lower_units: int
    """Lower deviation from it."""
    max_units: int
    """Greatest size in millionths of the unit."""
    min_units: int
    """Least size in millionths of the unit."""
    max_mm: float
    """Greatest size. In mm."""
    min_mm: float
    """Least size. In mm."""
    tolerance_mm: float
    """Greatest less least. In mm."""
    kind: str
    """Where the limits come from: printed, derived by the standard's rule, memory or shop."""
    sizes_said: str
    """Both limits, the greater first, in the standard's unit and rounded inward in the other."""
    deviations_said: str
    """The deviations as a table prints them."""


@made(frozen=True)
class CylindricalFitFigures(Answered):
    """A size, or a hole and a shaft together; clearances are below 0 where they interfere."""

    text: str
    """Size and class as a drawing writes them."""
    unit: str
    """Unit of the standard."""
    nominal_mm: float
    """Nominal size. In mm."""
    hole: CylinderPart | None
    """Limits of the hole."""
    shaft: CylinderPart | None
    """Limits of the shaft."""
    name: str
    """What such a fit is for, where it is a preferred one."""
    character: str
    """How the parts meet; none for one part."""
    kind: str
    """Where the limits come from, the least sure of their figures deciding."""
    clearance_min_mm: float | None
    """Least clearance as the parts meet: coated, and at their temperatures. In mm."""
    clearance_max_mm: float | None
    """Greatest clearance as they meet. In mm."""
    clearance_mean_mm: float | None
    """Mean of the clearance. In mm."""
    clearance_sigma_mm: float | None
    """Standard deviation of the clearance. In mm."""
    chance_of_interference: float | None
    """Share of the pairs that interfere."""
    hole_build_up_min_um: float
    """Least that a coating adds to a surface of the hole. In um."""
    hole_build_up_max_um: float
    """Most that it adds. In um."""
    shaft_build_up_min_um: float
    """Least that a coating adds to a surface of the shaft. In um."""
    shaft_build_up_max_um: float
    """Most that it adds. In um."""
    hole_cut_min_mm: float | None
    """Least size to cut the hole to, to be within its class once it is coated. In mm."""
    hole_cut_max_mm: float | None
    """Greatest size to cut the hole to. In mm."""
    shaft_cut_min_mm: float | None
    """Least size to cut the shaft to, to be within its class once it is coated. In mm."""
    shaft_cut_max_mm: float | None
    """Greatest size to cut the shaft to. In mm."""
    hole_temperature_c: float
    """Temperature of the part with the hole. In C."""
    shaft_temperature_c: float
    """Temperature of the shaft. In C."""
    said: str
    """The fit or the limits in one line."""
    hole_said: str | None
    """The hole's limits, deviations and where they come from."""
    shaft_said: str | None
    """The shaft's limits, deviations and where they come from."""
    coated_said: tuple[str, ...]
    """What a coating adds, each part in words."""
    cut_said: tuple[str, ...]
    """What to cut each coated part to."""
    hole_warm_said: str | None
    """Temperature of the hole, where it is not that of the limits."""
    shaft_warm_said: str | None
    """Temperature of the shaft, where it is not that of the limits."""
    likely_said: str | None
    """The likely clearance, and the chance of interference."""

    _made: ClassVar[Mapping[str, type | str]] = {"hole": CylinderPart, "shaft": CylinderPart}
    SHORT: ClassVar[tuple[str, ...]] = (
        "hole",
        "shaft",
        "cut",
        "likely",
    )


@made(frozen=True)
class PreferredFit(Part):
    """A fit to choose first."""

    fit: str
    """The fit: H7/g6, RC4."""
    basis: str
    """Which part keeps its zone."""
    name: str
    """What it is for."""
    source: str
    """Where it is from."""
    kind: str
    """Kind of that source."""
    said: str = field(repr=False, compare=False)
    """It in one line."""


@made(frozen=True)
class PreferredFits(Answered, Listed[PreferredFit]):
    """Fits to choose first."""

    fits: tuple[PreferredFit, ...]
    """The fits, by name."""

    _made: ClassVar[Mapping[str, type | str]] = {"fits": PreferredFit}
    ITEMS: ClassVar[str] = "fits"


@made(frozen=True)
class HoldingTaperFigures(Answered):
    """A self-holding taper."""

    name: str
    """Name of the taper."""
    unit: str
    """Unit that the answer is shown in first."""
    large_mm: float
    """Diameter at the gauge plane, the mouth of the socket. In mm."""
    small_mm: float
    """Diameter at the length from it, by the taper. In mm."""
    length_mm: float
    """Length from the gauge plane. In mm."""
    taper_on_diameter: float
    """Taper on the diameter."""
    per_foot_in: float
    """The same in inches a foot."""
    angle_deg: float
    """Angle between side and axis: what compound or attachment is set to. In deg."""
    setover_mm: float | None
    """How far the tailstock is set over, where a length between centres is given. In mm."""
    sine_stack_mm: float
    """Stack under one roller of a sine bar that levels the top side of the taper. In mm."""
    sine_bar_mm: float
    """Length of the sine bar. In mm."""
    ratio: str = field(repr=False, compare=False)
    """The taper on the diameter, as one in so much."""
    carriage_mm: float = field(repr=False, compare=False)
    """Travel of the carriage over which the taper is proved. In mm."""
    rise_mm: float = field(repr=False, compare=False)
    """What a dial on the side then moves. In mm."""
    small_step_mm: float = field(repr=False, compare=False)
    """A small step on the diameter. In mm."""
    moves_mm: float = field(repr=False, compare=False)
    """How far that step moves the gauge plane. In mm."""
    SHORT: ClassVar[tuple[str, ...]] = (
        "taper",
        "set",
        "set over",
        "prove",
    )
