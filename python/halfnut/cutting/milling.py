"""Milling: slots, sides, pockets and faces, the way down into them, and slits."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import DomainError, Evidence
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.units import asked, unit_of
from halfnut.core.units import length as read_length
from halfnut.core.words import caution
from halfnut.cutting.asking import ASKED, NOSE, cut_record, formed, optional_mm
from halfnut.cutting.cuts import Cut
from halfnut.cutting.formulas import centre_feed_mm_min, helix_length_mm, helix_pitch_mm, ramp_length_mm
from halfnut.cutting.standing import is_aluminium
from halfnut.cutting.tools import find_tool
from halfnut.machine.of_name import core_machine
from halfnut.material.alloys import Alloy
from halfnut.material.questions import alloy as find_alloy

__all__ = ["Entry", "helix", "mill", "ramp", "saw"]


@checked
def mill(
    alloy: str | Alloy,
    cutter: Any,
    *,
    depth: Any,
    flutes: int | None = None,
    shape: str = "side",
    width: Any = None,
    length: Any = None,
    step_over: Any = None,
    step_down: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed_per_tooth: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    entering_deg: float | None = None,
    nose_radius: Any = None,
    roughness_um: float | None = None,
    stick_out: Any = None,
    deflection: Any = None,
    wear_factor: float | None = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Mill a slot, a side or a pocket with an end mill, or a face with a face mill.

    Parameters
    ----------
    alloy, machine, tool, spindle_rpm, hardness_hb, wear_factor
        As for `turn`.
    cutter : str or Length
        Diameter of the cutter.
    depth : str or Length
        To be cut away along the cutter's axis, in all passes.
    flutes : int, optional
        Teeth of the cutter; four when not given, two below 5 mm.
    shape : str
        "slot", "side", "pocket" or "face".
    width : str or Length, optional
        To be cut away across the feed, in all passes; a slot is as wide as its cutter when not given.
    length : str or Length, optional
        Along the feed. Without it there is no time.
    step_over, step_down : str or Length, optional
        Most in one pass; the passes come out equal.
    feed_per_tooth : str or Length, optional
        Wanted; the next slower table feed is taken.
    entering_deg : float, optional
        Of a face mill's edge; 90 when not given.
    nose_radius : str or Length, optional
        Of a face mill's teeth; 0.8 mm when not given.
    roughness_um : float, optional
        Ra that the feed may leave on a wall or a face, one tooth leading the others.
    stick_out : str or Length, optional
        Of the cutter from its holder; without it there is no deflection.
    deflection : str or Length, optional
        Largest deflection of the cutter.
    approach, overrun : str or Length, optional
        2 mm, and half a face mill's diameter, when not given.

    Returns
    -------
    Cut
        The levers and what one pass comes to; the time is that of all passes.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> mill("6061-T6", "10 mm", shape="slot", depth="8 mm", flutes=2).passes_down
    2
    """
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    size = read_length(cutter, "cutter")
    core = core_machine(machine)
    edge = find_tool(tool)
    numbers = {
        "cutter_diameter_mm": size.mm,
        "teeth": None if flutes is None else float(flutes),
        "length_mm": optional_mm(length, "length"),
        "width_mm": optional_mm(width, "width"),
        "depth_mm": optional_mm(depth, "depth"),
        "step_over_mm": optional_mm(step_over, "step_over"),
        "step_down_mm": optional_mm(step_down, "step_down"),
        "feed_per_tooth_mm": optional_mm(feed_per_tooth, "feed_per_tooth"),
        "spindle_rpm": spindle_rpm,
        "entering_deg": entering_deg,
        "nose_radius_mm": optional_mm(nose_radius, "nose_radius"),
        "roughness_limit_um": roughness_um,
        "stick_out_mm": optional_mm(stick_out, "stick_out"),
        "deflection_limit_mm": optional_mm(deflection, "deflection"),
        "wear_factor": wear_factor,
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    keys = {name: name for name in ("teeth", "entering_deg", "nose_radius_mm", "stick_out_mm")}
    usual = {"teeth": f"{_core.usual_teeth(size.mm):g} flutes"} | (NOSE if shape == "face" else {})
    given, assumed = formed(numbers, edge, keys, usual)
    with asked(size.system == "inch", ASKED):
        result = _core.mill_cut(shape, found.index, edge.material, given, hardness_hb, core, active())
    ladder = None if core is None else core.table
    return cut_record(f"mill_{shape}", found, result, core, ladder, size, edge, assumed)


_RAMP_DEG = 3.0
_RAMP_FEED = 0.5
_HELIX_LEAST, _HELIX_MOST = 1.2, 1.9
_SAW_TOOTH_MM = 0.02


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

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("turns", "time", "spindle", *Cut.SHORT)
    ANSWER: ClassVar[str] = "{way} at {angle_deg}, {spindle_rpm}, {feed_mm_min} at the centre"
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("turns", "{turns_words}, {pitch_mm} down in each"),
        ("time", "{time_s} on the way down"),
    )
    way: str
    unit: str
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
    def notes(self) -> tuple[Caution, ...]:
        """What is worth knowing of the cut."""
        return self.cut.notes

    @property
    def said(self) -> str:
        """The way down in one line."""
        return str(
            self.filled("{way} down to each level at {angle_deg}, {length_mm:travel} of travel at {feed_mm_min}")
        )

    @property
    def turns_words(self) -> str | None:
        """Turns of a helix."""
        return None if self.turns is None else f"{self.turns:.1f} turns"

    @property
    def spindle_rpm(self) -> float:
        """Spindle speed of the cut."""
        return self.cut.spindle_rpm

    def report(self) -> list[tuple[str, str]]:
        """The way down, then the cut at full depth."""
        return [*super().report(), ("spindle", self.cut.spindle_text), *self.cut.report()]


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
        A number out of its range, a machine whose hands do not move two slides at once.

    >>> round(ramp("6061-T6", "10 mm", "3 mm", flutes=2).length_mm, 2)
    57.32
    """
    if not 0.0 < angle_deg <= 30.0:
        raise DomainError(f"angle_deg must be above 0 and at most 30 deg, got {angle_deg:g}")
    down = read_length(depth, "depth")
    _moves_at_once(machine, "ramp", 2)
    cut = mill(alloy, cutter, shape="slot", depth=down, step_down=down, machine=machine, **how)
    along = float(ramp_length_mm(down.mm, angle_deg))
    feed = _RAMP_FEED * (cut.feed_mm_min or 0.0)
    size = read_length(cutter, "cutter")
    return Entry(
        way="ramp",
        unit=unit_of(size),
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
        A number out of its range, a machine that does not move three slides at once.

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
    _moves_at_once(machine, "helix", 3)
    pitch = min(helix_pitch_mm(wide.mm, size.mm, angle_deg), down.mm)
    along = float(helix_length_mm(down.mm, pitch, wide.mm, size.mm))
    cut = mill(alloy, size, shape="slot", depth=f"{pitch} mm", step_down=f"{pitch} mm", machine=machine, **how)
    feed = float(centre_feed_mm_min(_RAMP_FEED * (cut.feed_mm_min or 0.0), wide.mm, size.mm))
    return Entry(
        way="helix",
        unit=unit_of(size),
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


def _moves_at_once(machine: Any, way: str, axes: int) -> None:
    core = core_machine(machine)
    if core is not None:
        core.require_axes(way, axes)


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
