"""The operations of a part: what the core is asked of each, and its answer with levers, passes and dial readings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from halfnut import _core
from halfnut._core import DomainError
from halfnut.core.questions import function_of
from halfnut.cutting import questions
from halfnut.cutting.figures import Cut
from halfnut.machine.machines import Machine
from halfnut.planning import drilled, milled, threaded, turned
from halfnut.planning.answers import Answer
from halfnut.planning.asking import Keep, Workpiece, asked, put
from halfnut.planning.cut_answers import levers_of, overhead_s
from halfnut.planning.job import KINDS, Pattern, Step

__all__ = ["answer", "leave", "shared_steps"]

_ASK = turned.ASK | threaded.ASK | drilled.ASK | milled.ASK
# From hole to hole; source: common practice of hand mills.
_BY_DIAL_S = 30.0
_BY_READOUT_S = 12.0


def answer(work: Workpiece, step: Step, machine: Machine) -> Answer:
    """Ask the core about one operation, and note what the operation leaves of the work.

    Raises
    ------
    Error
        The core's reason why there is no answer; the workpiece is then as it was.
    """
    on = KINDS[step.do]["on"]
    if machine.kind != "lathe" and on == "lathe":
        raise DomainError(f"{machine.name} is a {machine.kind}; {step.do} needs a lathe")
    if machine.kind == "lathe" and on == "mill":
        raise DomainError(f"{machine.name} is a lathe; {step.do} needs a milling machine")
    found = _ASK.get(step.do, _as_declared)(work, step, machine)
    if step.do == "face" and step.end == "second" and step.size("to") is None:
        length = work.spelled(work.found("length_mm") or 0.0)
        found = replace(found, remarks=(*found.remarks, f"To a length of {length} between the faces."))
    if step.laid_out is not None:
        found = _placed(found, step.laid_out, machine)
    elif step.divided is not None and step.divided > 1:
        divided = questions.divide(step.divided, machine=machine)
        found = replace(found, divided=divided, remarks=(*found.remarks, f"Divide: {divided.answer}."))
    leave(work, machine, found)
    return found


def _as_declared(work: Workpiece, step: Step, machine: Machine) -> Answer:
    """The answer to the question of a kind that has no passes of its own."""
    record = asked(function_of(KINDS[step.do]["question"]), work, step, machine)
    cut = record if isinstance(record, Cut) else getattr(record, "cut", None)
    levers = () if cut is None else levers_of(cut, machine)
    time_s = step.times * ((getattr(record, "time_s", None) or 0.0) + overhead_s(work, machine, levers))
    sizes = {f"{key}_mm": size.base for key in step.given() if (size := step.size(key)) is not None}
    return Answer(record, cut, levers, (), sizes, time_s)


def leave(work: Workpiece, machine: Machine, found: Answer) -> None:
    """Note how an operation leaves the machine."""
    work.last = (machine, found.levers if found.left is None else found.left)
    work.set_to = None
    if found.chosen is not None:
        work.set_to = (machine.name, found.chosen.passes[-1].cut)


def _placed(found: Answer, places: Pattern, machine: Machine) -> Answer:
    """The answer with the places of its holes as what is read at the machine."""
    on_dials = machine if {"x", "y"} <= {slide.name for slide in machine.core.slides} else None
    placed = put(questions.positions, places.asked | {"machine": on_dials})
    zero = f" from {places.zero}" if places.zero else ""
    lines = (f"{label.capitalize()}{zero}: {text}." for label, text in placed.places_said)
    by_dial = any(place.x_turns is not None for place in placed.places)
    time_s = found.time_s + (placed.holes - 1) * (_BY_DIAL_S if by_dial else _BY_READOUT_S)
    return replace(found, placed=placed, remarks=(*found.remarks, *lines), time_s=time_s)


def shared_steps(done: Sequence[tuple[Machine, Answer | None]]) -> list[Keep | None]:
    """The step and speed that each operation is better asked again with, so that no lever is moved for a little."""
    machines = list(dict.fromkeys(machine for machine, _ in done))
    settings, own = [], []
    for machine, found in done:
        step, least, cut_s, rpm = -1, 0.0, 0.0, math.nan
        cut = None if found is None else found.cut
        cuts = [] if cut is None else [cut]
        if found is not None and found.chosen is not None:
            cuts = [each.cut for each in found.chosen.passes]
        one_step = len({each.spindle_step for each in cuts}) == 1
        if found is not None and cut is not None and cut.spindle_step is not None and not cut.by_hand and one_step:
            step, cut_s = cut.spindle_step, sum(each.time_s or 0.0 for each in cuts)
            least = cut.spindle_rpm * (cut.window_low_m_min or 0.0) / (cut.cutting_speed_m_min or math.inf)
            rpm = cut.spindle_rpm if found.chosen is None else math.nan
        own.append((step, rpm))
        settings.append((machines.index(machine), step, least, cut_s, rpm))
    shared = _core.shared_steps(settings, [machine.core for machine in machines])
    out: list[Keep | None] = []
    for (machine, _), (step, rpm), before in zip(done, shared, own, strict=True):
        moved = step != before[0] or rpm < before[1]
        out.append(Keep(step, machine.core.spindle[step].rpm if math.isnan(rpm) else rpm) if moved else None)
    return out
