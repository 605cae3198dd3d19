"""Turning, facing, boring, parting off, knurling and threading: one cut at the lathe."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, spell
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.units import asked, unit_of
from halfnut.core.units import length as read_length
from halfnut.core.words import caution
from halfnut.cutting import standing
from halfnut.cutting.asking import (
    ASKED,
    NOSE,
    bar_note,
    core_machine,
    cut_record,
    formed,
    held_numbers,
    holder_place,
    optional_feed,
    optional_mm,
)
from halfnut.cutting.cuts import Cut
from halfnut.cutting.tools import find_tool
from halfnut.material.alloys import Alloy, modulus_gpa
from halfnut.material.alloys import alloy as find_alloy

__all__ = ["bore", "face", "knurl", "part_off", "thread_speed", "turn"]

_PART_OUT = 1.0  # diameters from the jaws, beyond which parting is worth a caution


def _usual_depth(operation: str, depth_mm: float, unit: str) -> str:
    """How to say the depth, or the width of the blade, that was taken where none was given."""
    shown = spell(depth_mm, "size", unit)
    return f"{'blade' if operation == 'part_off' else 'depth'} {shown}"


_LATHE_TOOL = {
    "nose_radius_mm": "nose_radius_mm",
    "entering_deg": "entering_deg",
    "rake_deg": "rake_deg",
    "bar_diameter_mm": "bar_diameter_mm",
}
_ASKED_OF = {"bore": {"stick_out": "overhang"}, "part_off": {"depth": "blade"}, "thread": {"feed": "pitch"}}


def _lathe(
    operation: str,
    alloy: str | Alloy,
    diameter: Any,
    numbers: Mapping[str, float | None],
    *,
    tool: str | None,
    machine: Any,
    chuck: Any = None,
    hold: str = "chuck",
    finish: bool = False,
    hardness_hb: float | None = None,
    usual: Mapping[str, str] = MappingProxyType({}),
) -> Cut:
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    size = read_length(diameter, "diameter")
    core = core_machine(machine)
    edge = find_tool(tool)
    keys = _LATHE_TOOL | ({"stick_out_mm": "stick_out_mm"} if operation == "bore" else {})
    keys |= {"depth_mm": "width_mm"} if operation == "part_off" else {}
    given, assumed = formed(numbers, edge, keys, usual)
    holder = holder_place(core, chuck, hold, assumed)
    given["diameter_mm"] = size.mm
    inch = size.system == "inch"
    name = operation.replace("_", " ")
    with asked(inch, ASKED | _ASKED_OF.get(operation, {})):
        result = _core.lathe_cut(
            name, found.index, edge.material, given, finish, inch, hold, holder, hardness_hb, core, active()
        )
    depth_mm = result.figures["depth_mm"]
    if "depth_mm" in given and given["depth_mm"] is None and depth_mm is not None:
        assumed.insert(1 if tool is None else 0, _usual_depth(operation, depth_mm, unit_of(size)))
    extra = ["emery_by_hand"] if operation == "turn" and finish else []
    extra += ["faceplate_balance"] if standing.is_faceplate(core, holder) else []
    ladder = None if core is None else core.carriage
    cut = cut_record(operation, found, result, core, ladder, size, edge, assumed, extra)
    return bar_note(cut, core, given, hold)


@checked
def turn(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    length: Any = None,
    machine: Any = None,
    tool: str | None = None,
    finish: bool = False,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    nose_radius: Any = None,
    entering_deg: float | None = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    hold: str = "chuck",
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    sections: Sequence[Any] = (),
    steadies: Sequence[Any] = (),
    bore: Any = None,
    roughness_um: float | None = None,
    deflection: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Turn a diameter: spindle step, feed, force, power, finish, deflection and time of one cut.

    Parameters
    ----------
    alloy : str or Alloy
        The work's material, by any name that `alloy` understands.
    diameter : str or Length
        Before the cut.
    depth : str or Length, optional
        On the radius; when it is not given 1 mm, or 0.25 mm when finishing, in an inch question 0.040 in and 0.010 in,
        and at most a quarter of the radius.
    length : str or Length, optional
        Of the cut along the axis; without it there is no time.
    machine : str, Path or Machine, optional
        Whose steps to choose from; without one, speed and feed are exact.
    tool : str, optional
        "HSS", "cobalt HSS", "cast cobalt", "carbide" or "coated carbide"; HSS when not given.
    finish : bool
        A finishing cut, whatever its depth.
    feed : str, optional
        Wanted, such as "0.1 mm/rev"; the next finer step of the machine is taken.
    spindle_rpm : float, optional
        Wanted; the nearest step of the machine is taken.
    hardness_hb : float, optional
        The work's own Brinell hardness.
    nose_radius : str or Length, optional
        0.8 mm when not given.
    entering_deg, rake_deg : float, optional
        Of the tool: 90 degrees, and as the force constants were measured, when not given.
    wear_factor : float, optional
        On the force, 1 to 3; 1 is a sharp tool, 1.4 a blunt one. Not given: the force is that of a sharp edge,
        while limits, the upper edges of force and power, and the force across the edge with the deflection that it
        makes are those of an edge in use.
    hold : str
        "chuck", "chuck and centre" or "between centres".
    chuck : str or int, optional
        Which of the machine's; the first when not given.
    stick_out : str or Length, optional
        From the jaws, or between the centres: at least `length`, which stands for it when it is not given. Without
        either there is no deflection.
    sections : sequence of (length, diameter) or (length, diameter, bore), optional
        Stepped work from the chuck or the first centre on, in place of `stick_out`; the deflection is then that of
        the beam at its worst place, with the tool anywhere along it.
    steadies : sequence of str or Length, optional
        Places of fixed steadies, from the chuck or the first centre.
    bore : str or Length, optional
        Of a tube.
    roughness_um : float, optional
        Ra that the feed may leave.
    deflection : str or Length, optional
        Largest deflection of the work.
    approach, overrun : str or Length, optional
        2 mm and nothing when not given.
    stock : str or Length, optional
        Of the bar or blank that is held: its diameter, or "30 mm hex" across the flats; `diameter` when not given.
    bar_length, bar_behind : str or Length, optional
        Of a bar through the spindle: its whole length, or what is free behind the spindle.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> turn("6061-T6", "32 mm", depth="1 mm").limited_by
    'speed_window'
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind),
        "depth_mm": optional_mm(depth, "depth"),
        "length_mm": optional_mm(length, "length"),
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "bore_mm": optional_mm(bore, "bore"),
        "stick_out_mm": optional_mm(stick_out, "stick_out"),
        "nose_radius_mm": optional_mm(nose_radius, "nose_radius"),
        "entering_deg": entering_deg,
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "roughness_limit_um": roughness_um,
        "deflection_limit_mm": optional_mm(deflection, "deflection"),
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    sections, steadies = tuple(sections), tuple(steadies)
    if sections and stick_out is not None:
        raise DomainError("sections say how far the work stands out: leave stick_out away")
    if steadies and not sections and stick_out is None:
        raise DomainError("steadies need stick_out or sections")

    def ask(numbers: Mapping[str, float | None]) -> Cut:
        return _lathe(
            "turn",
            alloy,
            diameter,
            numbers,
            tool=tool,
            machine=machine,
            chuck=chuck,
            hold=hold,
            finish=finish,
            hardness_hb=hardness_hb,
            usual=NOSE,
        )

    if deflection is not None:
        modulus_gpa(find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy), "limit of deflection")
    if not sections and not steadies:
        return ask(numbers)
    from halfnut.cutting.bending import turned_on_beam

    modulus_gpa(find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy), "deflection of stepped or steadied work")
    return turned_on_beam(ask, numbers, core_machine(machine), hold, sections, steadies)


@checked
def face(
    alloy: str | Alloy,
    diameter: Any,
    *,
    end_diameter: Any = None,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    finish: bool = False,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    nose_radius: Any = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    bore: Any = None,
    roughness_um: float | None = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Face an end: the spindle keeps the speed of the outer diameter, the cross slide feeds.

    Parameters
    ----------
    alloy, machine, tool, finish, feed, spindle_rpm, hardness_hb, nose_radius, rake_deg, wear_factor, chuck
        As for `turn`; the feed is that of the cross slide.
    diameter : str or Length
        Where the cut starts.
    end_diameter : str or Length, optional
        Where it ends; the centre, or the bore, when not given.
    depth : str or Length, optional
        Along the axis.
    bore, roughness_um, approach, overrun
        As for `turn`.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> face("brass", "40 mm").travel_mm
    22.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "end_diameter_mm": optional_mm(end_diameter, "end_diameter"),
        "depth_mm": optional_mm(depth, "depth"),
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "bore_mm": optional_mm(bore, "bore"),
        "nose_radius_mm": optional_mm(nose_radius, "nose_radius"),
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "roughness_limit_um": roughness_um,
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    return _lathe(
        "face",
        alloy,
        diameter,
        numbers,
        tool=tool,
        machine=machine,
        chuck=chuck,
        finish=finish,
        hardness_hb=hardness_hb,
        usual=NOSE,
    )


@checked
def bore(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    length: Any = None,
    machine: Any = None,
    tool: str | None = None,
    finish: bool = False,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    nose_radius: Any = None,
    entering_deg: float | None = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    bar_diameter: Any = None,
    overhang: Any = None,
    roughness_um: float | None = None,
    deflection: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Bore a hole with a single-point bar.

    Parameters
    ----------
    alloy, depth, length, machine, tool, finish, feed, spindle_rpm, hardness_hb, nose_radius
        As for `turn`.
    diameter : str or Length
        Of the bore after the cut.
    bar_diameter, overhang : str or Length, optional
        Of the bar and from its holder; a steel bar. Without them there is no deflection.
    entering_deg, rake_deg, wear_factor, chuck, roughness_um, deflection, approach, overrun
        As for `turn`; the deflection is the bar's.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> bore("6061-T6", "25 mm", bar_diameter="16 mm", overhang="60 mm").deflection_mm is not None
    True
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind),
        "depth_mm": optional_mm(depth, "depth"),
        "length_mm": optional_mm(length, "length"),
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "stick_out_mm": optional_mm(overhang, "overhang"),
        "bar_diameter_mm": optional_mm(bar_diameter, "bar_diameter"),
        "nose_radius_mm": optional_mm(nose_radius, "nose_radius"),
        "entering_deg": entering_deg,
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "roughness_limit_um": roughness_um,
        "deflection_limit_mm": optional_mm(deflection, "deflection"),
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    return _lathe(
        "bore",
        alloy,
        diameter,
        numbers,
        tool=tool,
        machine=machine,
        chuck=chuck,
        finish=finish,
        hardness_hb=hardness_hb,
        usual=NOSE,
    )


@checked
def part_off(
    alloy: str | Alloy,
    diameter: Any,
    *,
    blade: Any = None,
    end_diameter: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    bore: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Part off, or cut a groove that ends at `end_diameter`.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, rake_deg, wear_factor, chuck, bore, approach, overrun
        As for `face`.
    diameter : str or Length
        Where the cut starts.
    blade : str or Length, optional
        Width of the blade; 3 mm, in an inch question 0.125 in, when not given.
    end_diameter : str or Length, optional
        Where it ends; the centre, or the bore, when not given.
    stick_out : str or Length, optional
        From the jaws to the blade; more than the diameter is a caution.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> part_off("6061-T6", "1 in", blade="0.125 in").feed_source
    'exact'
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind),
        "end_diameter_mm": optional_mm(end_diameter, "end_diameter"),
        "depth_mm": optional_mm(blade, "blade"),
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "bore_mm": optional_mm(bore, "bore"),
        "stick_out_mm": optional_mm(stick_out, "stick_out"),
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    cut = _lathe(
        "part_off",
        alloy,
        diameter,
        numbers,
        tool=tool,
        machine=machine,
        chuck=chuck,
        hardness_hb=hardness_hb,
    )
    out_mm = numbers["stick_out_mm"]
    if out_mm is not None and out_mm > _PART_OUT * cut.diameter_mm:
        return replace(cut, cautions=(*cut.cautions, caution("part_slender")))
    return cut


@checked
def knurl(
    alloy: str | Alloy,
    diameter: Any,
    *,
    length: Any = None,
    machine: Any = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    chuck: str | int | None = None,
    hold: str = "chuck",
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Speed and feed for knurling with form wheels; the blank is `knurl_blank`'s business.

    Parameters
    ----------
    alloy, length, machine, feed, spindle_rpm, hardness_hb, chuck, hold, approach, overrun
        As for `turn`.
    diameter : str or Length
        Of the blank.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and the time; knurling has no chip, so no force is computed.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material.

    >>> knurl("brass", "20 mm").cutting_force_n is None
    True
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "length_mm": optional_mm(length, "length"),
        "feed_mm_rev": optional_feed(feed),
        "spindle_rpm": spindle_rpm,
        "approach_mm": optional_mm(approach, "approach"),
        "overrun_mm": optional_mm(overrun, "overrun"),
    }
    return _lathe(
        "knurl",
        alloy,
        diameter,
        numbers,
        tool="HSS",
        machine=machine,
        chuck=chuck,
        hold=hold,
        hardness_hb=hardness_hb,
    )


@checked
def thread_speed(
    alloy: str | Alloy,
    diameter: Any,
    pitch: Any,
    *,
    length: Any = None,
    machine: Any = None,
    tool: str | None = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
) -> Cut:
    """Spindle step for single-point threading; one pass takes `time_s`.

    Parameters
    ----------
    alloy, length, machine, tool, spindle_rpm, hardness_hb, chuck
        As for `turn`.
    diameter : str or Length
        Major diameter.
    pitch : str or Length
        Lead of the thread.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and the time of one pass.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> thread_speed("6061-T6", "24 mm", "1.5 mm").feed_mm_rev
    1.5
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "length_mm": optional_mm(length, "length"),
        "feed_mm_rev": optional_mm(pitch, "pitch"),
        "spindle_rpm": spindle_rpm,
    }
    return _lathe("thread", alloy, diameter, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)
