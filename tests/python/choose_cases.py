"""Cases for the choice of passes: small machines at random, and any case in the words of the brute force.

Windows of speed and feed, and constants of force, are asked of the tables; nothing here knows how passes are chosen.
"""

from __future__ import annotations

import functools
import math
import random
from collections.abc import Sequence
from typing import Any

import halfnut as hn
from halfnut import _core
from halfnut.core.catalogue import active

ALLOYS = ("6061-T6", "1018", "304", "grey iron", "C36000", "titanium grade 2")


def aim_of(alloy, tool):
    """Roughness asked for over that of the geometry that is aimed at: of the nearest group's row, by its tool."""
    groups = {row["group"]: row["parent"] for row in active().rows("material/groups")}
    kind = "carbide" if tool.startswith("carbide") else "hss"
    bands = active().rows("cutting/finish_bands")
    group = alloy.group
    while group:
        of_group = {row["tool_material"]: row["aim"] for row in bands if row["group"] == group}
        if tool in of_group or kind in of_group:
            return of_group.get(tool, of_group.get(kind))
        group = groups[group]
    return 1.0


def reference_rake(alloy):
    """Rake that a force stands for: of the nearest group's row."""
    groups = {row["group"]: row["parent"] for row in active().rows("material/groups")}
    rakes = {row["group"]: row["rake_deg"] for row in active().rows("cutting/force_scales")}
    group = alloy.group
    while group not in rakes:
        group = groups[group]
    return rakes[group]


def small_machine(
    chance: random.Random, lines: Sequence[float] = (0.1, 0.2, 0.5), steps: int = 2, **own: Any
) -> _core.Machine:
    """A lathe of at most so many speeds and feeds, and what is its own whatever the chance."""
    given: dict[str, Any] = {"motor_kw": chance.choice([0.2, 0.6, 2.0])}
    if chance.random() < 0.3:
        given["torque_limit_nm"] = chance.choice([8.0, 25.0, 80.0])
    speeds = []
    for rpm in sorted(chance.sample([60, 150, 320, 560, 900, 1400], chance.randint(1, steps))):
        stop = chance.random() < 0.5
        positions = [_core.Position("belt", chance.choice("AB")), _core.Position("lever", chance.choice("12"))]
        speeds.append(_core.SpindleStep(rpm=rpm, stop_to_change=stop, positions=positions))
    feeds = []
    for feed in sorted(chance.sample([0.04, 0.08, 0.15, 0.25, 0.4], chance.randint(1, steps))):
        feeds.append(_core.FeedStep(feed_mm=feed, positions=[_core.Position("knob", chance.choice("XYZ"))]))
    slides = []
    for name, turn in (("cross", 2.0), ("compound", 2.0), ("carriage", 15.0)):
        graduation = chance.choice(lines)
        reads_diameter = name == "cross" and chance.random() < 0.5
        slides.append(
            _core.Slide(name=name, travel_per_turn_mm=turn, graduation_mm=graduation, reads_diameter=reads_diameter)
        )
    chuck = _core.Chuck(name="jaws", jaws=3, diameter_mm=160.0, rpm_limit=chance.choice([800.0, 2000.0]))
    given |= {
        "name": "small",
        "kind": "lathe",
        "efficiency": 0.8,
        "spindle": speeds,
        "carriage": _core.FeedLadder(steps=feeds, cross_ratio=0.5),
        "slides": slides,
        "chucks": [chuck],
        "lever_change_s": 4.0,
        "stop_change_s": 30.0,
        "measure_s": 20.0,
    }
    return _core.Machine(**{**given, **own})


def small_case(seed: int, lines: Sequence[float] = (0.1, 0.2, 0.5), most: int = 5, steps: int = 2):
    """A machine, the question to the core, and the same case for the oracle.

    Dials have one of ``lines`` for a line, at most ``most`` of them come off, with at most so many speeds and feeds.
    """
    chance = random.Random(seed)
    machine = small_machine(chance, lines=lines, steps=steps)
    cut = chance.choice(["turn", "turn", "bore", "face"])
    name = chance.choice(ALLOYS)
    alloy = hn.alloy(name)
    tool = chance.choice(["hss", "carbide"])
    cross = next(slide for slide in machine.slides if slide.name == ("compound" if cut == "face" else "cross"))
    line = cross.graduation_mm / (2 if cross.reads_diameter else 1)
    whole = line * chance.choice(range(1, most + 1)) + chance.choice([0.0, 0.0, 0.37 * line])
    diameter = chance.choice([10.0, 18.0, 30.0, 55.0])
    sign = {"turn": -2, "bore": 2, "face": 0}[cut]
    to = diameter + sign * whole
    numbers = {
        "diameter_mm": diameter,
        "to_mm": None if cut == "face" else to,
        "off_mm": whole if cut == "face" else None,
        "length_mm": chance.choice([20.0, 45.0, 150.0]),
        "nose_radius_mm": chance.choice([0.2, 0.4, 0.8]),
        "entering_deg": chance.choice([60.0, 90.0]),
        "deepest_mm": chance.choice([0.25, 1.0, 2.5]),
        "dial_set_s": 3.0,
        "rake_deg": chance.choice([None, 12.0]),
    }
    hold = "chuck"
    if cut == "turn" and chance.random() < 0.5:
        numbers["stick_out_mm"] = numbers["length_mm"] + chance.choice([0.0, 10.0, 25.0])
        hold = chance.choice(["chuck", "chuck and centre", "between centres"])
    if cut == "bore" and chance.random() < 0.5:
        numbers["stick_out_mm"] = numbers["length_mm"] + chance.choice([0.0, 10.0])
        numbers["bar_diameter_mm"] = 0.6 * diameter
    if chance.random() < 0.5:
        numbers["tolerance_mm"] = chance.choice([0.03, 0.1])
    if chance.random() < 0.4:
        numbers["roughness_um"] = chance.choice([0.8, 3.2])
    if chance.random() < 0.2:
        numbers["force_n"] = chance.choice([250.0, 900.0])
    if chance.random() < 0.3:
        numbers["jaw_force_n"] = chance.choice([800.0, 4500.0])
    return machine, cut, alloy, tool, numbers, hold, line


def table_speed(alloy):
    """The speed that a tabulated force was measured at; None for a force from a unit power."""
    rules = {item.rule_id for item in hn.turn(alloy, "20 mm").evidence}
    return (50.0 if alloy.iso513 == "S" else 100.0) if "speed_correction" in rules else None


def oracle_case(machine, cut, alloy, tool, numbers, hold, line):
    """The case in the oracle's words; windows and constants of force are asked of the tables."""
    tables = active()
    band = hn.force_band(alloy)
    reference = reference_rake(alloy)
    correction = 1.2 if cut == "bore" else 1.0
    if numbers.get("rake_deg") is not None:
        correction *= 1 - (numbers["rake_deg"] - reference) / 66.7
    usual = {True: 0.1, False: 0.1 if cut == "bore" else 0.2}
    known = {}

    def operation(finish):
        return "bore" if cut == "bore" else "turn_finish" if finish else "turn_rough"

    def window(finish, depth, feed):
        key = ("speed", finish, depth, feed)
        if key not in known:
            known[key] = _core.windows(alloy.index, operation(finish), tool, depth, feed, None, tables)[1]
        return known[key]

    def guide(finish, depth):
        key = ("feed", finish, depth)
        if key not in known:
            found = _core.windows(alloy.index, operation(finish), tool, depth, usual[finish], None, tables)[3]
            known[key] = usual[finish] if found is None else found
        return known[key]

    def life(depth, feed):
        key = ("life", depth, feed)
        if key not in known:
            try:
                found = hn.cutting.tool_life(alloy.id, tool=tool, feed=f"{feed!r} mm/rev", depth=hn.mm(depth))
                known[key] = found.c_m_min, found.exponent
            except hn.NotTabulatedError:
                known[key] = None
        return known[key]

    crossing = cut == "face"
    travel = (numbers["diameter_mm"] / 2 if crossing else numbers["length_mm"]) + 2.0
    ratio = machine.carriage.cross_ratio if crossing else 1.0
    fed = next(slide for slide in machine.slides if slide.name == ("cross" if crossing else "carriage"))

    def power(step):
        typical = 0.75 if step.back_gear else 0.9
        return machine.motor_kw * (typical if math.isnan(machine.efficiency) else machine.efficiency)

    tolerance = numbers.get("tolerance_mm")
    grip = numbers.get("jaw_force_n")
    return {
        "cut": cut,
        "diameter": numbers["diameter_mm"],
        "to": numbers["to_mm"],
        "off": numbers["off_mm"],
        "line": line,
        "speeds": [
            (step.rpm, power(step), step.stop_to_change, {each.control: each.setting for each in step.positions})
            for step in machine.spindle
        ],
        "feeds": [
            (step.feed_mm * ratio, step.stop_to_change, {each.control: each.setting for each in step.positions})
            for step in machine.carriage.steps
        ],
        "travel": travel,
        "wind_s": travel / fed.travel_per_turn_mm,
        "dial_s": numbers["dial_set_s"],
        "lever_s": machine.lever_change_s,
        "stop_s": machine.stop_change_s,
        "kc11": band.kc11_n_mm2,
        "mc": band.mc,
        "v0": table_speed(alloy),
        "correction": correction,
        "high": band.high * 1.3,  # ordinary wear
        "nose": numbers["nose_radius_mm"],
        "entering": numbers["entering_deg"],
        "window": window,
        "guide": guide,
        "life": life,
        "least": least_depth(alloy, tool, numbers["nose_radius_mm"]),
        "deepest": numbers["deepest_mm"],
        "roughness": numbers["roughness_um"] / aim_of(alloy, tool) if "roughness_um" in numbers else None,
        "torque": None if math.isnan(machine.torque_limit_nm) else machine.torque_limit_nm,
        "force": numbers.get("force_n"),
        "chuck_rpm": None if hold == "between centres" else machine.chucks[0].rpm_limit,
        "grip": None if grip is None else (grip, 3, numbers["diameter_mm"], 0.15, 2.0),
        "stick_out": numbers.get("stick_out_mm") or (None if crossing else numbers["length_mm"]),
        "density": alloy.density_kg_m3,
        "hold": hold,
        "bar": numbers.get("bar_diameter_mm"),
        "tube_bore": None,
        "modulus": alloy.youngs_modulus_gpa,
        "bend": 0.1,
        "tolerance": None if tolerance is None else 0.5 * tolerance / 2,
        "band": tolerance,
        "measure_s": machine.measure_s,
    }


def least_depth(alloy, tool, nose):
    """Least depth of an edge: keen, ground for aluminium and copper, honed; more where metal hardens."""
    keen = "carbide" not in tool or (tool == "carbide" and alloy.iso513 == "N")
    edge = 0.05 if keen else max(0.1, nose / 3)
    return max(edge, 0.1) if alloy.iso513 in "MS" else edge


SHAPES = ("mill slot", "mill side", "mill face", "mill pocket")
USUAL_OVER = {"mill slot": 0.5, "mill side": 0.25, "mill face": 0.7, "mill pocket": 0.5}  # of the cutter's diameter
MILLED = ("6061-T6", "7075-T6", "1018", "304", "grey iron", "C36000", "titanium grade 2")


def small_mill(chance: random.Random, lines: Sequence[float], steps: int) -> _core.Machine:
    """A mill of at most so many speeds and feeds."""
    given: dict[str, Any] = {"motor_kw": chance.choice([0.06, 0.2, 1.0])}
    if chance.random() < 0.3:
        given["torque_limit_nm"] = chance.choice([2.0, 8.0, 25.0])
    speeds = []
    for rpm in sorted(chance.sample([120, 260, 500, 850, 1500, 2600], chance.randint(1, steps))):
        positions = [_core.Position("belt", chance.choice("AB")), _core.Position("lever", chance.choice("12"))]
        speeds.append(_core.SpindleStep(rpm=rpm, stop_to_change=chance.random() < 0.5, positions=positions))
    feeds = []
    for feed in sorted(chance.sample([30, 60, 110, 180, 300, 500], chance.randint(1, steps))):
        stop = chance.random() < 0.2
        at = [_core.Position("knob", chance.choice("XYZ"))]
        feeds.append(_core.FeedStep(feed_mm=feed, stop_to_change=stop, positions=at))
    slides = [
        _core.Slide(name=name, travel_per_turn_mm=chance.choice([2.0, 5.0]), graduation_mm=graduation)
        for name, graduation in (("x", 0.05), ("y", 0.05), ("z", chance.choice(lines)))
    ]
    return _core.Machine(
        name="small",
        kind="mill",
        efficiency=0.8,
        spindle=speeds,
        table=_core.FeedLadder(kind="per minute", steps=feeds),
        slides=slides,
        lever_change_s=4.0,
        stop_change_s=30.0,
        measure_s=20.0,
        **given,
    )


def small_milling(seed: int, lines: Sequence[float], most: int, steps: int):
    """A mill and a question to the core about it, as `small_case` makes those of lathes."""
    chance = random.Random(seed)
    machine = small_mill(chance, lines, steps)
    cut = chance.choice(SHAPES)
    alloy = hn.alloy(chance.choice(MILLED))
    tool = chance.choice(["hss", "carbide"])
    cutter = chance.choice([32.0, 50.0] if cut == "mill face" else [4.0, 10.0, 16.0])
    line = next(slide.graduation_mm for slide in machine.slides if slide.name == "z")
    numbers = {
        "diameter_mm": cutter,
        "off_mm": line * chance.choice(range(1, most + 1)) + chance.choice([0.0, 0.0, 0.37 * line]),
        "length_mm": chance.choice([15.0, 60.0, 180.0]),
        "dial_set_s": 3.0,
        "flutes": chance.choice([None, 2, 3]),
    }
    widths = {"mill side": [0.1, 0.25, 0.5, 1.0], "mill face": [0.4, 0.7, 1.4], "mill slot": [None, None, 1.0, 1.7]}
    width = chance.choice(widths.get(cut, [1.0, 1.8, 2.6]))
    numbers["width_mm"] = None if width is None else width * cutter
    if chance.random() < 0.3:
        numbers["step_over_mm"] = chance.choice([0.15, 0.5, 1.0]) * cutter
    if chance.random() < 0.7:
        numbers["deepest_mm"] = chance.choice([0.3, 0.6, 1.2, 4.0])
    if chance.random() < 0.5:
        numbers["tolerance_mm"] = chance.choice([0.03, 0.1])
    if chance.random() < 0.3:
        numbers["roughness_um"] = chance.choice([1.6, 6.3])
    if chance.random() < 0.2:
        numbers["force_n"] = chance.choice([80.0, 400.0])
    if chance.random() < 0.6:
        numbers["stick_out_mm"] = chance.choice([2.0, 3.5, 5.0]) * cutter
        if chance.random() < 0.4:
            numbers["deflection_mm"] = chance.choice([0.02, 0.05])
    return machine, cut, alloy, tool, numbers, line


def milling_case(machine, cut, alloy, tool, numbers, line):
    """The case in the oracle's words; windows and constants of force are asked of the tables."""
    tables = active()
    face = cut == "mill face"
    band = hn.force_band(alloy, "mill")
    cutter = numbers["diameter_mm"]
    operation = "face_mill" if face else "end_mill"

    @functools.cache
    def window(depth, a_tooth):
        return _core.windows(alloy.index, operation, tool, depth, a_tooth, None, tables, cutter)[1]

    @functools.cache
    def guide(depth):
        found = _core.windows(alloy.index, operation, tool, depth, math.nan, None, tables, cutter)[3]
        return min(0.003 * cutter, 0.05) if found is None else found

    def controls(step):
        return {each.control: each.setting for each in step.positions}

    tolerance, bend = numbers.get("tolerance_mm"), numbers.get("deflection_mm", 0.1)
    usual_down = {"mill face": 2.0, "mill side": cutter}.get(cut, cutter / 2)
    x_turn = next(slide.travel_per_turn_mm for slide in machine.slides if slide.name == "x")
    return {
        "cut": cut,
        "diameter": cutter,
        "cutter": cutter,
        "teeth": numbers["flutes"] or (2 if cutter < 5 else 4),
        "off": numbers["off_mm"],
        "width": numbers["width_mm"] or cutter,
        "over": numbers.get("step_over_mm", USUAL_OVER[cut] * cutter),
        "length": numbers["length_mm"],
        "carbide": tool == "carbide",
        "line": line,
        "speeds": [
            (step.rpm, machine.motor_kw * machine.efficiency, step.stop_to_change, controls(step))
            for step in machine.spindle
        ],
        "feeds": [(step.feed_mm, step.stop_to_change, controls(step)) for step in machine.table.steps],
        "wind_rate": max(60 * x_turn, *(step.feed_mm for step in machine.table.steps)),
        "dial_s": numbers["dial_set_s"],
        "measure_s": machine.measure_s,
        "lever_s": machine.lever_change_s,
        "stop_s": machine.stop_change_s,
        "kc11": band.kc11_n_mm2,
        "mc": band.mc,
        "v0": table_speed(alloy),
        "high": band.high * (1.25 if face else 1.1),  # ordinary wear
        "window": window,
        "guide": guide,
        "deepest": numbers.get("deepest_mm", usual_down),
        "roughness": numbers["roughness_um"] / aim_of(alloy, tool) if "roughness_um" in numbers else None,
        "torque": None if math.isnan(machine.torque_limit_nm) else machine.torque_limit_nm,
        "force": numbers.get("force_n"),
        "stick_out": numbers.get("stick_out_mm"),
        "bend": bend,
        "tolerance": bend if tolerance is None else min(bend, 0.5 * tolerance),
        "band": tolerance,
    }


def ask_milling(machine, cut, alloy, tool, numbers):
    said = {key: value for key, value in numbers.items() if value is not None}
    given = {key.removesuffix("_mm"): hn.mm(value) if key.endswith("_mm") else value for key, value in said.items()}
    return hn.choose(cut, alloy, machine=machine, tool=tool, brief=True, **given)


def ask(machine, cut, alloy, tool, numbers, hold, explain=False, free=False):
    said = {key: value for key, value in numbers.items() if value is not None}
    given = {key.removesuffix("_mm"): hn.mm(value) if key.endswith("_mm") else value for key, value in said.items()}
    return hn.choose(cut, alloy, machine=machine, tool=tool, hold=hold, chuck=0, free=free, brief=not explain, **given)


def places(machine, found):
    """Sum of the places of the speeds used."""
    speeds = [step.rpm for step in machine.spindle]
    return sum(speeds.index(one.cut.spindle_rpm) for one in found.passes)
