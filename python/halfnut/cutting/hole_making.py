"""Holes: drilled, spotted, countersunk, counterbored, reamed and tapped."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from halfnut import _core
from halfnut._core import Length
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import asked
from halfnut.core.units import length as read_length
from halfnut.core.words import caution
from halfnut.cutting.asking import (
    ASKED,
    cut_record,
    formed,
    held_numbers,
    holder_place,
    optional_feed,
    optional_mm,
)
from halfnut.cutting.cuts import Cut
from halfnut.cutting.tools import find_tool
from halfnut.machine.of_name import core_machine
from halfnut.material.alloys import Alloy
from halfnut.material.questions import alloy as find_alloy

__all__ = ["counterbore", "countersink", "drill", "ream", "spot", "tap"]


def _hole(
    operation: str,
    alloy: str | Alloy,
    size: Length,
    numbers: Mapping[str, float | None],
    *,
    tool: str | None,
    machine: Any,
    chuck: Any,
    hardness_hb: float | None,
    usual: Mapping[str, str] = MappingProxyType({}),
) -> Cut:
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    core = core_machine(machine)
    edge = find_tool(tool)
    given, assumed = formed(numbers, edge, {"point_deg": "point_deg", "teeth": "teeth"}, usual)
    turns = core is not None and core.kind == "lathe"
    holder = holder_place(core, chuck, "chuck", assumed) if turns else -1
    given["diameter_mm"] = size.mm
    name = operation.replace("_", " ")
    with asked(size.system == "inch", ASKED):
        result = _core.hole_cut(name, found.index, edge.material, given, holder, hardness_hb, core, active())
    return cut_record(operation, found, result, core, None if core is None else core.quill, size, edge, assumed)


@checked
def drill(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    pilot: Any = None,
    point_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Drill a hole, from a lathe's tailstock or a mill's quill.

    Parameters
    ----------
    alloy, machine, tool, spindle_rpm, hardness_hb, wear_factor, chuck
        As for `turn`.
    diameter : str or Length
        Of the drill; a number or letter drill by its name ("#7", "letter F").
    depth : str or Length, optional
        Of the full diameter; the point is added. Without it there is no time.
    feed : str, optional
        Wanted, a revolution; by the table for the diameter when not given.
    pilot : str or Length, optional
        Hole that is there already.
    point_deg : float, optional
        118 when not given.
    approach, overrun : str or Length, optional
        2 mm, and nothing beyond the depth, when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the hole takes; the thrust is `feed_force_n`.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> round(drill("1018", "10 mm", depth="20 mm").travel_mm, 3)
    25.004
    """
    size = read_length(diameter, "diameter")
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "depth_mm": optional_mm(depth, "depth"),
        "pilot_mm": optional_mm(pilot, "pilot"),
        "point_deg": point_deg,
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "wear_factor": wear_factor,
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    return _hole("drill", alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)


@checked
def spot(
    alloy: str | Alloy,
    diameter: Any,
    *,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    point_deg: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
) -> Cut:
    """Spot a hole's place before it is drilled.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach
        As for `drill`; the forces are those of a drill of the spot's diameter.
    diameter : str or Length
        Of the spot at the surface; a little more than the hole leaves its chamfer.
    point_deg : float, optional
        90 when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the spot takes.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> spot("6061-T6", "6 mm").travel_mm
    5.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "point_deg": point_deg,
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "approach_mm": optional_mm(approach, "approach"),
    }
    size = read_length(diameter, "diameter")
    return _hole("spot", alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)


def countersink(
    alloy: str | Alloy,
    diameter: Any,
    hole: Any,
    *,
    machine: Any = None,
    tool: str | None = None,
    flutes: int | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    included_deg: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
) -> Cut:
    """Countersink a hole.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach
        As for `drill`.
    diameter, hole : str or Length
        Of the cone at the surface, and of the hole.
    flutes : int, optional
        Three when not given.
    included_deg : float, optional
        Of the cone: 90 when not given; 82 and 100 are usual in inch work.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers, and the torque at the widest place.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> round(countersink("6061-T6", "12 mm", "6 mm").travel_mm, 6)
    5.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "point_deg": included_deg,
        "pilot_mm": optional_mm(hole, "hole"),
        "feed_mm_rev": optional_feed(feed),
    }
    return _ring(
        "countersink", alloy, diameter, numbers, flutes, spindle_rpm, approach, tool, machine, chuck, hardness_hb
    )


def counterbore(
    alloy: str | Alloy,
    diameter: Any,
    hole: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    flutes: int | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
) -> Cut:
    """Counterbore a hole, flat at the bottom.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach
        As for `drill`.
    diameter, hole : str or Length
        Of the counterbore and of the hole that guides it.
    depth : str or Length, optional
        Without it there is no time.
    flutes : int, optional
        Three when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and the torque.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> counterbore("1018", "11 mm", "6.6 mm", depth="6 mm").travel_mm
    8.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "pilot_mm": optional_mm(hole, "hole"),
        "depth_mm": optional_mm(depth, "depth"),
        "feed_mm_rev": optional_feed(feed),
    }
    return _ring(
        "counterbore", alloy, diameter, numbers, flutes, spindle_rpm, approach, tool, machine, chuck, hardness_hb
    )


def _ring(
    operation: str,
    alloy: str | Alloy,
    diameter: Any,
    numbers: Mapping[str, float | None],
    flutes: int | None,
    spindle_rpm: float | None,
    approach: Any,
    tool: str | None,
    machine: Any,
    chuck: Any,
    hardness_hb: float | None,
) -> Cut:
    given = {
        **numbers,
        "teeth": None if flutes is None else float(flutes),
        "spindle_rpm": spindle_rpm,
        "approach_mm": optional_mm(approach, "approach"),
    }
    return _hole(
        operation,
        alloy,
        read_length(diameter, "diameter"),
        given,
        tool=tool,
        machine=machine,
        chuck=chuck,
        hardness_hb=hardness_hb,
        usual={"teeth": "3 flutes"},
    )


@checked
def ream(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    hole: Any = None,
    flutes: int | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Ream a drilled hole.

    Parameters
    ----------
    alloy, diameter, depth, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach, overrun
        As for `drill`.
    hole : str or Length, optional
        As drilled or bored; without it no force is reckoned.
    flutes : int, optional
        Six when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers, the time and, where the hole is known, torque and thrust.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> ream("6061-T6", "10 mm", depth="20 mm").torque_nm is None
    True
    >>> ream("6061-T6", "10 mm", depth="20 mm", hole="9.8 mm").torque_nm > 0
    True
    """
    size = read_length(diameter, "diameter")
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "depth_mm": optional_mm(depth, "depth"),
        "pilot_mm": optional_mm(hole, "hole"),
        "teeth": None if flutes is None else float(flutes),
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    usual = {} if hole is None else {"teeth": "6 flutes"}
    return _hole(
        "ream", alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb, usual=usual
    )


@checked
def tap(
    alloy: str | Alloy,
    thread: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    wear_factor: float | None = None,
    form: bool = False,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Tap a drilled hole with a machine tap, in and out again.

    Parameters
    ----------
    alloy, machine, tool, spindle_rpm, hardness_hb, wear_factor, chuck
        As for `turn`.
    thread : str, Thread or FormThread
        By its designation, such as "M6", "1/4-20 UNC", "G1/4" or "1/8-27 NPT"; of one start.
    depth : str or Length, optional
        Of the thread. Without it there is no time.
    form : bool
        A tap that forms the thread without a chip; its torque is rough.
    approach, overrun : str or Length, optional
        2 mm, and nothing beyond the depth, when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers, the torque and the time.

    Raises
    ------
    DesignationError
        A thread that is not understood.
    DomainError
        Several starts of a thread beside ISO metric and Unified, or a forming tap for one.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> tap("6061-T6", "M6", depth="12 mm").feed_mm_rev
    1.0
    """
    from halfnut.threads.form_threads import FormThread, tapers
    from halfnut.threads.form_threads import thread as read_thread

    found = read_thread(thread)
    size = Length(found.diameter_mm / MM_PER_INCH, "in") if found.unit == "in" else Length(found.diameter_mm, "mm")
    said = []
    if isinstance(found, FormThread):
        if found.starts > 1:
            raise _core.DomainError(f"{found} has {found.starts} starts: cut it with a single point, not with a tap")
        if form:
            raise _core.DomainError(f"form: there is no rule for forming taps in {found}")
        said = [caution("taper_tap" if tapers(found) else "form_tap_torque")]
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "depth_mm": optional_mm(depth, "depth"),
        "pitch_mm": found.pitch_mm,
        "spindle_rpm": spindle_rpm,
        "wear_factor": wear_factor,
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    operation = "form_tap" if form else "tap"
    cut = _hole(operation, alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)
    return replace(cut, cautions=(*cut.cautions, *said)) if said else cut
