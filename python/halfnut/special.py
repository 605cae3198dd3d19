"""Cuts that are made of others: tapers, grooves, ramps and helices into the work, slitting."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Any

from halfnut._core import DomainError, Evidence, Length
from halfnut.arguments import checked
from halfnut.cutting import (
    Cut,
    centre_feed_mm_min,
    core_machine,
    helix_length_mm,
    mill,
    part_off,
    ramp_length_mm,
    tailstock_setover_mm,
    taper_angle_deg,
    turn,
)
from halfnut.material import Alloy
from halfnut.record import Caution, Record
from halfnut.sizes import MM_PER_INCH, duration
from halfnut.standing import is_aluminium
from halfnut.tapers import holding_taper
from halfnut.units import length as read_length
from halfnut.words import caution

__all__ = ["Entry", "Groove", "Taper", "groove", "helix", "ramp", "saw", "taper"]

_MOST_SETOVER_DEG = 8.0
_RAMP_DEG = 3.0
_RAMP_FEED = 0.5
_HELIX_LEAST, _HELIX_MOST = 1.2, 1.9
_SAW_TOOTH_MM = 0.02


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

    inch: bool
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
    def setting(self) -> str:
        """How to set the machine, in one line."""
        foot = f"{self.taper_per_foot_in:.4f} in a foot on the diameter"
        out = f"set {self.angle_deg:.3f} deg from the axis ({foot})"
        if self.setover_mm is not None:
            shown = f"{self.setover_mm / MM_PER_INCH:.4f} in" if self.inch else f"{self.setover_mm:.3f} mm"
            out += f", or set the tailstock over {shown}"
        return out

    @property
    def proof(self) -> str:
        """How to prove the setting."""
        return "prove it with a gauge or over two measured places before the last pass"

    def lines(self) -> list[str]:
        """The taper as lines for a terminal."""
        return [self.setting, f"  {self.proof}", *(f"  {line}" for line in self.cut.lines())]


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
    slope_mm = along.mm / math.cos(math.radians(angle))
    if over is None and slide is not None and slope_mm > slide.travel_mm:
        inch = big.system == "inch"
        travel = f"{slide.travel_mm / MM_PER_INCH:.4g} in" if inch else f"{slide.travel_mm:.4g} mm"
        made.append(caution("compound_short", travel=travel))
    return Taper(
        inch=big.system == "inch",
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

    def lines(self) -> list[str]:
        """The groove as lines for a terminal."""
        step = f"{self.step_mm / MM_PER_INCH:.4f} in" if self.cut.inch else f"{self.step_mm:.3f} mm"
        many = f"{self.plunges} plunges, {step} apart" if self.plunges > 1 else "one plunge"
        total = "" if self.time_s is None else f", {duration(self.time_s)} in all"
        return [f"{many}{total}", *(f"  {line}" for line in self.cut.lines())]


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


@dataclass(frozen=True)
class Entry(Record):
    """How an end mill goes down into the work: a slope or a helix, and the cut at full depth.

    Attributes
    ----------
    feed_mm_min : float
        Of the cutter's centre on the way down.
    angle_deg, turns, pitch_mm : float
        Of the slope; turns and pitch of a helix only.
    """

    way: str
    inch: bool
    angle_deg: float
    turns: float | None
    pitch_mm: float | None
    length_mm: float
    feed_mm_min: float
    time_s: float
    cut: Cut
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    def to_dict(self) -> dict[str, Any]:
        """The way down as a flat dictionary, with the cut's spindle speed."""
        names = ("way", "angle_deg", "turns", "pitch_mm", "length_mm", "feed_mm_min", "time_s")
        return {name: getattr(self, name) for name in names} | {"spindle_rpm": self.cut.spindle_rpm}

    @property
    def said(self) -> str:
        """The way down in one line."""
        along = f"{self.length_mm / MM_PER_INCH:.3f} in" if self.inch else f"{self.length_mm:.1f} mm"
        feed = f"{self.feed_mm_min / MM_PER_INCH:.3g} in/min" if self.inch else f"{self.feed_mm_min:.4g} mm/min"
        return f"{self.way} down to each level at {self.angle_deg:.3g} deg, {along} of travel at {feed}"

    def lines(self) -> list[str]:
        """The way down as lines for a terminal."""
        feed = f"{self.feed_mm_min / MM_PER_INCH:.3g} in/min" if self.inch else f"{self.feed_mm_min:.4g} mm/min"
        out = [f"{self.way} at {self.angle_deg:.2f} deg, {self.cut.spindle_rpm:.0f} rev/min, {feed} at the centre"]
        if self.turns is not None and self.pitch_mm is not None:
            pitch = f"{self.pitch_mm / MM_PER_INCH:.4f} in" if self.inch else f"{self.pitch_mm:.3f} mm"
            out.append(f"  {self.turns:.1f} turns, {pitch} down in each")
        out.append(f"  {duration(self.time_s)} on the way down; then as the cut at full depth")
        return [*out, *(f"  {line}" for line in self.cut.lines())]


@checked
def ramp(
    alloy: str | Alloy, cutter: Any, depth: Any, *, angle_deg: float = _RAMP_DEG, machine: Any = None, **how: Any
) -> Entry:
    """Ramp an end mill down a slope into a slot or pocket.

    Parameters
    ----------
    alloy, cutter, machine
        As for `mill`.
    depth : str or Length
        To reach.
    angle_deg : float
        Of the slope, above 0 to 30; three degrees are usual.
    **how
        What else `mill` takes.

    Returns
    -------
    Entry
        Length, feed and time on the way down, and the slot cut at full depth.

    Raises
    ------
    DomainError
        A number out of its range.

    >>> round(ramp("6061-T6", "10 mm", "3 mm", flutes=2).length_mm, 2)
    57.32
    """
    if not 0.0 < angle_deg <= 30.0:
        raise DomainError(f"angle_deg must be above 0 and at most 30 deg, got {angle_deg:g}")
    down = read_length(depth, "depth")
    cut = mill(alloy, cutter, shape="slot", depth=down, step_down=down, machine=machine, **how)
    along = float(ramp_length_mm(down.mm, angle_deg))
    feed = _RAMP_FEED * (cut.feed_mm_min or 0.0)
    size = read_length(cutter, "cutter")
    return Entry(
        way="ramp",
        inch=size.system == "inch",
        angle_deg=angle_deg,
        turns=None,
        pitch_mm=None,
        length_mm=along,
        feed_mm_min=feed,
        time_s=60 * along / feed,
        cut=cut,
        cautions=(caution("entry_centre_cutting"), *cut.cautions),
        evidence=cut.evidence,
    )


@checked
def helix(
    alloy: str | Alloy,
    cutter: Any,
    hole: Any,
    depth: Any,
    *,
    angle_deg: float = _RAMP_DEG,
    machine: Any = None,
    **how: Any,
) -> Entry:
    """Wind an end mill down a helix into solid work; wants a machine that moves three axes at once.

    Parameters
    ----------
    alloy, cutter, machine
        As for `mill`.
    hole : str or Length
        Diameter of the hole it leaves, 1.2 to 1.9 cutters, so that no post is left standing.
    depth : str or Length
        To reach.
    angle_deg : float
        Of the helix at the cutter's centre, above 0 to 10; three degrees are usual.
    **how
        What else `mill` takes.

    Returns
    -------
    Entry
        Turns, pitch, feed of the centre and time on the way down, and the slot cut of one pitch.

    Raises
    ------
    DomainError
        A number out of its range.

    >>> way = helix("6061-T6", "10 mm", "16 mm", "5 mm", flutes=2)
    >>> round(way.pitch_mm, 3), round(way.turns, 2)
    (0.988, 5.06)
    """
    if not 0.0 < angle_deg <= 10.0:
        raise DomainError(f"angle_deg must be above 0 and at most 10 deg, got {angle_deg:g}")
    size, wide, down = read_length(cutter, "cutter"), read_length(hole, "hole"), read_length(depth, "depth")
    least, most = _HELIX_LEAST * size.mm, _HELIX_MOST * size.mm
    if not least * (1 - 1e-9) <= wide.mm <= most * (1 + 1e-9):
        raise DomainError(f"hole must be from {least:.4g} to {most:.4g} mm for this cutter, got {wide.mm:.4g} mm")
    pitch = math.pi * (wide.mm - size.mm) * math.tan(math.radians(angle_deg))
    pitch = min(pitch, down.mm)
    along = float(helix_length_mm(down.mm, pitch, wide.mm, size.mm))
    cut = mill(alloy, size, shape="slot", depth=f"{pitch} mm", step_down=f"{pitch} mm", machine=machine, **how)
    feed = float(centre_feed_mm_min(_RAMP_FEED * (cut.feed_mm_min or 0.0), wide.mm, size.mm))
    return Entry(
        way="helix",
        inch=size.system == "inch",
        angle_deg=angle_deg,
        turns=down.mm / pitch,
        pitch_mm=pitch,
        length_mm=along,
        feed_mm_min=feed,
        time_s=60 * along / feed,
        cut=cut,
        cautions=(caution("entry_centre_cutting"), *cut.cautions),
        evidence=cut.evidence,
    )


@checked
def saw(
    alloy: str | Alloy,
    blade: Any,
    thickness: Any,
    depth: Any,
    *,
    teeth: int,
    feed_per_tooth: Any = None,
    **how: Any,
) -> Cut:
    """Slit with a saw on an arbor, in one pass to depth; the speed is that of an end mill.

    Parameters
    ----------
    alloy : str or Alloy
        The work's material.
    blade, thickness : str or Length
        Diameter of the saw and the width it cuts.
    depth : str or Length
        Of the slit, below the radius of the saw.
    teeth : int
        Of the saw, at most 400.
    feed_per_tooth : str or Length, optional
        0.02 mm when not given.
    **how
        What else `mill` takes.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A slit deeper than the saw reaches, a number out of its range.

    >>> saw("6061-T6", "80 mm", "1 mm", "6 mm", teeth=48, length="50 mm").operation
    'saw'
    """
    across, wide, down = read_length(blade, "blade"), read_length(thickness, "thickness"), read_length(depth, "depth")
    if down.mm >= across.mm / 2:
        raise DomainError(f"depth must be below half the saw, {across.mm / 2:.4g} mm, got {down.mm:.4g} mm")
    tooth = f"{_SAW_TOOTH_MM} mm" if feed_per_tooth is None else feed_per_tooth
    cut = mill(
        alloy,
        across,
        shape="side",
        depth=wide,
        step_down=wide,
        width=down,
        step_over=down,
        flutes=teeth,
        feed_per_tooth=tooth,
        **how,
    )
    assumed = cut.assumed if feed_per_tooth is not None else (*cut.assumed, f"{_SAW_TOOTH_MM:g} mm a tooth")
    stand_in = caution("window_stand_in")
    fines = (caution("aluminium_fines"),) if is_aluminium(cut.alloy) else ()
    notes = dict.fromkeys((stand_in, *fines, *cut.notes))
    return replace(
        cut,
        operation="saw",
        roughness_ra_um=None,
        assumed=assumed,
        notes=tuple(notes),
        cautions=(caution("saw_clamped"), *cut.cautions),
    )
