"""Tapers and grooves at the lathe: how to set it, and the cut."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Any, ClassVar

from halfnut._core import DomainError, Evidence, Length, spell
from halfnut.core.arguments import checked
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length as read_length
from halfnut.core.units import unit_of
from halfnut.core.words import caution
from halfnut.cutting.cuts import Cut
from halfnut.cutting.formulas import tailstock_setover_mm, taper_angle_deg
from halfnut.cutting.questions import part_off, turn
from halfnut.fits.questions import holding_taper
from halfnut.machine.of_name import core_machine
from halfnut.material.alloys import Alloy

__all__ = ["Groove", "Taper", "groove", "taper"]

_MOST_SETOVER_DEG = 8.0


@dataclass(frozen=True)
class Taper(Record):
    """A taper: how to set the machine, and the cut at its large end.

    Attributes
    ----------
    angle_deg : float
        Between its side and the axis: the compound's, or the taper attachment's, setting; the included angle is twice.
    taper_per_foot_in : float
        On the diameter, inches a foot.
    setover_mm : float or None
        Of the tailstock, where a length between the centres was given.
    """

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("spindle", *Cut.SHORT)
    unit: str
    angle_deg: float
    taper_per_foot_in: float
    setover_mm: float | None
    cut: Cut
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    def to_dict(self) -> dict[str, Any]:
        """The taper and its cut as a flat dictionary."""
        own = {name: getattr(self, name) for name in ("angle_deg", "taper_per_foot_in", "setover_mm")}
        return own | self.cut.to_dict()

    @property
    def notes(self) -> tuple[Caution, ...]:
        """What is worth knowing of the cut."""
        return self.cut.notes

    @property
    def setting(self) -> str:
        """How to set the machine, in one line."""
        over = "[, or set the tailstock over {setover_mm}]"
        return str(self.filled("set {set_to} from the axis ({foot} in a foot on the diameter)" + over))

    @property
    def set_to(self) -> str:
        """The setting, to a thousandth of a degree."""
        return f"{self.angle_deg:.3f}°"

    @property
    def proof(self) -> str:
        """How to prove the setting."""
        return "with a gauge or over two measured places before the last pass"

    @property
    def foot(self) -> str:
        """Inches a foot, as they are set."""
        return f"{self.taper_per_foot_in:.4f}"

    @property
    def answer(self) -> str:
        """How to set the machine."""
        return self.setting

    def report(self) -> list[tuple[str, str]]:
        """How to prove the setting, and the cut."""
        return [("spindle", self.cut.spindle_text), *self.cut.report(), ("prove", self.proof)]


@checked
def taper(
    alloy: str | Alloy,
    large: Any,
    small: Any = None,
    length: Any = None,
    *,
    between_centres: Any = None,
    machine: Any = None,
    tool: str | None = None,
    **how: Any,
) -> Taper:
    """Turn a taper: the setting of compound or tailstock, and the cut at the large end.

    Parameters
    ----------
    alloy, machine, tool
        As for `turn`.
    large, small, length : str or Length
        Diameters at the two ends and the distance between them along the axis; or `large` alone is a self-holding taper
        by its name, such as ``"morse 3"``, and `length` another than that of its table.
    between_centres : str or Length, optional
        Of the whole work, for setting over the tailstock.
    **how
        What else `turn` takes.

    Returns
    -------
    Taper
        Angle, set-over and the cut.

    Raises
    ------
    DomainError
        A small end that is not below the large one, a number out of its range.
    NotTabulatedError
        `small` left out, and no taper of the name.

    >>> round(taper("1018", "30 mm", "20 mm", "50 mm").angle_deg, 4)
    5.7106
    >>> round(taper("1018", "morse 2").taper_per_foot_in, 5)
    0.59941
    """
    if small is None:
        cone = holding_taper(str(large), length=length)
        scale = MM_PER_INCH if cone.unit == "in" else 1.0
        large, small, length = (
            Length(size / scale, cone.unit) for size in (cone.large_mm, cone.small_mm, cone.length_mm)
        )
    elif length is None:
        raise DomainError("length is needed beside large and small")
    big, little, along = read_length(large, "large"), read_length(small, "small"), read_length(length, "length")
    if little.mm >= big.mm:
        raise DomainError(f"small must be below large, {big}, got {little}")
    angle = float(taper_angle_deg(big.mm, little.mm, along.mm))
    over = None
    codes = []
    if between_centres is not None:
        whole = read_length(between_centres, "between_centres").mm
        if whole < along.mm:
            raise DomainError(f"between_centres must be at least length, {along}, got {between_centres}")
        over = float(tailstock_setover_mm(big.mm, little.mm, along.mm, whole))
        codes = ["setover_steep"] if angle > _MOST_SETOVER_DEG else []
        if how.get("hold") == "between centres":
            how.setdefault("stick_out", between_centres)
    cut = turn(alloy, big, length=along, machine=machine, tool=tool, **how)
    made = [caution(code) for code in codes]
    at = core_machine(machine)
    slide = None if at is None else at.slide("compound")
    rise_mm = (big.mm - little.mm) / 2
    slope_mm = math.sqrt(along.mm * along.mm + rise_mm * rise_mm)
    if over is None and slide is not None and slope_mm > slide.travel_mm:
        made.append(caution("compound_short", travel=spell(slide.travel_mm, "size", unit_of(big))))
    return Taper(
        unit=unit_of(big),
        angle_deg=angle,
        taper_per_foot_in=12 * (big.mm - little.mm) / along.mm,
        setover_mm=over,
        cut=cut,
        cautions=(*made, *cut.cautions),
        evidence=cut.evidence,
    )


@dataclass(frozen=True)
class Groove(Record):
    """A groove: plunges side by side, each a cut of the blade."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("spindle", *Cut.SHORT)
    plunges: int
    step_mm: float
    time_s: float | None
    cut: Cut
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    def to_dict(self) -> dict[str, Any]:
        """The groove and one of its plunges as a flat dictionary; the time is of all."""
        own = {"plunges": self.plunges, "step_mm": self.step_mm}
        return own | self.cut.to_dict() | {"time_s": self.time_s}

    @property
    def notes(self) -> tuple[Caution, ...]:
        """What is worth knowing of the cut."""
        return self.cut.notes

    @property
    def unit(self) -> str:
        """The unit of its cut."""
        return self.cut.unit

    @property
    def answer(self) -> str:
        """The plunges in one line."""
        many = self.filled("{plunges} plunges, {step_mm} apart") if self.plunges > 1 else "one plunge"
        return f"{many}{self.filled('[, {time_s} in all]')}"

    def report(self) -> list[tuple[str, str]]:
        """One of the plunges."""
        return [("spindle", self.cut.spindle_text), *self.cut.report()]


@checked
def groove(
    alloy: str | Alloy, diameter: Any, end_diameter: Any, *, width: Any = None, blade: Any = None, **how: Any
) -> Groove:
    """Cut a groove with a blade, in as many plunges as its width takes.

    Parameters
    ----------
    alloy : str or Alloy
        The work's material.
    diameter, end_diameter : str or Length
        Of the work and at the bottom of the groove.
    width : str or Length, optional
        The blade's when not given.
    blade : str or Length, optional
        Width of the blade; 3 mm when not given.
    **how
        What else `part_off` takes.

    Returns
    -------
    Groove
        The number of plunges, their spacing and the cut.

    Raises
    ------
    DomainError
        A groove narrower than the blade, a bottom that is not below the diameter.

    >>> groove("6061-T6", "30 mm", "24 mm", width="8 mm").plunges
    3
    """
    cut = part_off(alloy, diameter, blade=blade, end_diameter=end_diameter, **how)
    wide = cut.depth_mm or 0.0
    whole = wide if width is None else read_length(width, "width").mm
    if whole < wide * (1 - 1e-9):
        raise DomainError(f"width must be at least the blade's, {wide:.4g} mm, got {whole:.4g} mm")
    plunges = math.ceil(whole / wide - 1e-9)
    step = 0.0 if plunges == 1 else (whole - wide) / (plunges - 1)
    codes = tuple(item for item in cut.cautions if item.code not in {"part_centre", "piece_falls"})
    cut = replace(cut, operation="groove", cautions=codes)
    total = None if cut.time_s is None else plunges * cut.time_s
    return Groove(plunges, step, total, cut, codes, cut.evidence)
