"""Threads cut with a single point or a die, asked of the core."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from halfnut._core import DomainError, Length
from halfnut.core.record import Record
from halfnut.core.sizes import MM_PER_INCH
from halfnut.cutting import questions
from halfnut.cutting.chasing import Chasing
from halfnut.cutting.cuts import Cut
from halfnut.cutting.gears import GearTrain
from halfnut.machine.machines import Machine, fastest_step
from halfnut.planning.answers import Answer, Levers
from halfnut.planning.cut_answers import levers_of, overhead_s
from halfnut.planning.job import Thread
from halfnut.planning.workpiece import Ask, Workpiece, size_text
from halfnut.threads import gauging, standard
from halfnut.threads import questions as asked
from halfnut.threads.questions import taper_pipe, wires
from halfnut.threads.standard import Side, ThreadLimits
from halfnut.threads.taper_pipes import TaperPipe


def _thread(work: Workpiece, step: Thread, machine: Machine) -> Answer:
    named = standard.thread(step.thread)
    if named.tapers:
        return _taper_thread(work, step, machine, named)
    side: Side = step.side
    other: Side = "internal" if side == "external" else "external"
    if getattr(named, f"has_{other}") and not getattr(named, f"has_{side}"):
        raise DomainError(f"{step.thread} is the class of an {other} thread, and side is {step.side}")
    thread = named.part(side)
    limits = limits_to_cut(work, step, thread, side, step.engagement)
    mate = asked.limits(named.mate(other), side=other, engagement=step.engagement)
    blank = None if side == "internal" else _blank_to_chase(work, step, limits)
    chasing = _chase(work, step, machine, limits, blank)
    found = _chased(work, step, machine, thread, limits, chasing, coating_remarks(work, step, limits))
    return replace(found, mate=mate, wires=_over_wires(limits))


def _taper_thread(work: Workpiece, step: Thread, machine: Machine, thread: standard.Thread) -> Answer:
    """A taper pipe thread: no limits of size and no mate to draw, but a cone, and a gauge to try it with."""
    inner = thread.prefix == "Rc"
    if inner != (step.side == "internal"):
        other = "Rc, or is tapped" if step.side == "internal" else "R or NPT"
        raise DomainError(f"{step.thread} is not cut {step.side}: there the thread is {other}")
    pipe = taper_pipe(thread)
    chasing = _chase(work, step, machine, thread, None)
    said = []
    needed = max(pipe.effective_length_mm or 0.0, pipe.hand_engagement_mm)
    if step.length.base < needed - 1e-9:
        said.append(f"The length is less than the {size_text(work, needed)} of full thread that the standard asks for.")
    if work.coating is not None and not step.masked:
        said.append(f"{work.coating.title}: mask the thread; no standard gives a taper thread room for a coating.")
    return _chased(work, step, machine, thread, pipe, chasing, said)


def _chase(work: Workpiece, step: Thread, machine: Machine, thread: Any, blank: Length | None) -> Chasing:
    return questions.chase(
        thread,
        machine=machine,
        alloy=work.part.alloy,
        blank=blank,
        nose_radius=step.nose_radius,
        run_out=step.run_out,
        infeed=step.infeed,
        **_threaded(work, step, machine),
    )


def _chased(
    work: Workpiece,
    step: Thread,
    machine: Machine,
    thread: Any,
    record: Record,
    chasing: Chasing,
    said: Sequence[str],
) -> Answer:
    """What chasing any thread gives: its spindle step, levers or gears, time and remarks."""
    cut = _thread_cut(work, step, machine, thread, None)
    remarks = []
    if chasing.stopping_rpm is not None and cut.spindle_rpm > chasing.stopping_rpm:
        cut = _thread_cut(work, step, machine, thread, fastest_step(machine, chasing.stopping_rpm))
        remarks.append("Slowed so that the half nut can be opened within the run-out.")
    train, about_gears = _threading_levers(machine, thread, chasing.train)
    levers = [*levers_of(cut, machine)[:1], *train]
    # the carriage is wound back as fast as it went; two passes without infeed before each measurement
    strokes = 2 * (len(chasing.passes) + 4) * chasing.starts
    return Answer(
        record,
        cut,
        tuple(levers),
        (),
        {"thread": str(thread), "side": chasing.side, "length_mm": step.length.base, "lead_mm": thread.lead_mm},
        step.times * (overhead_s(work, machine, tuple(levers), cut, 2) + strokes * (cut.time_s or 0.0)),
        remarks=(*remarks, *about_gears, *said),
        chasing=chasing,
    )


def _blank_to_chase(work: Workpiece, step: Thread, limits: ThreadLimits) -> Length | None:
    """What the end was turned to, where that is within the limits of the major diameter."""
    turned = work.outside_mm
    low, high = limits.major_min_mm, limits.major_max_mm
    if low is None or high is None or not low - 1e-9 <= turned <= high + 1e-9:
        return None
    return work.length(turned)


def _thread_cut(work: Workpiece, step: Thread, machine: Machine, thread: Any, spindle_rpm: float | None) -> Cut:
    return questions.thread_speed(
        work.part.alloy,
        work.length(thread.diameter_mm),
        work.length(thread.lead_mm),
        machine=machine,
        tool=step.tool or work.part.tool,
        spindle_rpm=spindle_rpm,
        **_threaded(work, step, machine),
    )


def _threaded(work: Workpiece, step: Thread, machine: Machine) -> dict[str, Any]:
    """How work is held that is threaded."""
    held = {"length": step.length, "chuck": step.holding, "stick_out": work.overhang(step)}
    return held | work.held(step, machine)


def _gearbox(machine: Machine, lead_mm: float) -> Levers | None:
    """The levers of the gearbox's chart for a lead, if it has it."""
    threading = machine.core.threading
    for step in threading.gearbox:
        if math.isclose(step.ratio * threading.lead_mm, lead_mm, rel_tol=1e-9):
            return Levers("gearbox", tuple((each.control, each.setting) for each in step.positions), True)
    return None


def _threading_levers(machine: Machine, thread: Any, train: GearTrain | None) -> tuple[list[Levers], list[str]]:
    """Levers of the gearbox where its chart has the lead, else the change gears, and what to say of them."""
    charted = _gearbox(machine, thread.lead_mm)
    if charted is not None:
        return [charted], []
    if train is None:
        return [], [_no_gearbox(thread)]
    levers = [Levers("gears", train.shafts(), True)]
    if train.positions:
        levers.append(Levers("gearbox", train.positions, True))
    said = [f"The lead is not on the gearbox's chart: change gears {train.gears}, {train.error_words}."]
    if not train.exact:
        said.append(f"Lead error {train.judgement}.")
    return levers, [*said, f"The train {train.mounting_words}."]


def _no_gearbox(thread: Any) -> str:
    lead = f"{thread.lead_mm:g} mm" if thread.unit == "mm" else f"{MM_PER_INCH / thread.lead_mm:g} threads an inch"
    return f"A lead of {lead} is not on the gearbox's chart: set up change gears."


def limits_to_cut(work: Workpiece, step: Any, thread: standard.Thread, side: Side, engagement: Any) -> ThreadLimits:
    """Limits to cut a thread to: those of its class, or those before the coating that it will bear."""
    bare = asked.limits(thread, side=side, engagement=engagement)
    coating = work.coat(step)
    return bare if coating is None else asked.precoat(bare, coating.surface, on=work.part.alloy)


def _over_wires(limits: ThreadLimits) -> gauging.OverWires | None:
    """What to read; nothing where no wire or ball measures the thread."""
    try:
        return wires(limits)
    except DomainError:
        return None


def coating_remarks(work: Workpiece, step: Any, limits: ThreadLimits | TaperPipe) -> list[str]:
    """What to mind of a part that is to be coated."""
    if step.masked and work.coating is not None:
        return [f"{work.coating.title}: mask it."]
    if not isinstance(limits, ThreadLimits) or limits.way in {None, "bare"}:
        return []
    assert work.coating is not None
    out = [f"{work.coating.title}: {limits.said}. Cut to the sizes before coating, gauge the coated part at its own."]
    return [*out, *(f"Or: {remedy}." for remedy in limits.remedies)]


ASK: dict[type, Ask] = {
    Thread: _thread,
}
"""The question to the core by the kind of operation."""
