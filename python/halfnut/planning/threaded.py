"""Threads cut with a single point or a die, asked of the core."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from halfnut._core import DomainError, Length, Quantity
from halfnut.core.record import Record
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.words import caution as warning
from halfnut.cutting import questions
from halfnut.cutting.chasing import Chasing
from halfnut.cutting.figures import GearTrain
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Levers
from halfnut.planning.asking import Ask, Workpiece, asked
from halfnut.planning.cut_answers import levers_of, overhead_s
from halfnut.planning.job import Step
from halfnut.threads import questions as questions_of
from halfnut.threads import standard
from halfnut.threads.figures import OverWires, TaperPipe
from halfnut.threads.questions import taper_pipe, wires
from halfnut.threads.standard import Side, ThreadLimits


def _thread(work: Workpiece, step: Step, machine: Machine) -> Answer:
    named, said = standard.thread(step.text("thread")), step.text("thread")
    side: Side = "internal" if step.text("side") == "internal" else "external"
    other: Side = "internal" if side == "external" else "external"
    if named.tapers:
        return _taper_thread(work, step, machine, named, side)
    if getattr(named, f"has_{other}") and not getattr(named, f"has_{side}"):
        raise DomainError(f"{said} is the class of an {other} thread, and side is {side}")
    thread = named.part(side)
    engagement = step.size("engagement")
    limits = limits_to_cut(work, step, thread, side, engagement)
    mate = questions_of.limits(named.mate(other), side=other, engagement=engagement)
    blank = None if side == "internal" else _blank_to_chase(work, limits)
    chasing = asked(questions.chase, work, step, machine, thread=limits, blank=blank)
    found = _chased(work, step, machine, thread, limits, chasing, coating_remarks(work, step, limits))
    return replace(found, mate=mate, wires=_over_wires(limits))


def _taper_thread(work: Workpiece, step: Step, machine: Machine, thread: standard.Thread, side: Side) -> Answer:
    """A taper pipe thread: no limits of size and no mate to draw, but a cone, and a gauge to try it with."""
    inner = thread.prefix == "Rc"
    if inner != (side == "internal"):
        other = "Rc, or is tapped" if side == "internal" else "R or NPT"
        raise DomainError(f"{step.text('thread')} is not cut {side}: there the thread is {other}")
    pipe = taper_pipe(thread)
    chasing = asked(questions.chase, work, step, machine, thread=thread)
    said = []
    needed = max(pipe.effective_length_mm or 0.0, pipe.hand_engagement_mm)
    if step.base("length") < needed - 1e-9:
        said.append(f"The length is less than the {work.spelled(needed)} of full thread that the standard asks for.")
    if work.coating is not None and not step.masked:
        said.append(f"{work.coating.title}: mask the thread; no standard gives a taper thread room for a coating.")
    return _chased(work, step, machine, thread, pipe, chasing, said)


def _chased(
    work: Workpiece,
    step: Step,
    machine: Machine,
    thread: standard.Thread,
    record: Record,
    chasing: Chasing,
    said: Sequence[str],
) -> Answer:
    """What chasing any thread gives: its spindle step, levers or gears, time and remarks."""
    sizes = {"diameter": work.length(thread.diameter_mm), "pitch": work.length(thread.lead_mm)}
    cut = asked(questions.thread_speed, work, step, machine, **sizes)
    remarks = []
    if chasing.stopping_rpm is not None and cut.spindle_rpm > chasing.stopping_rpm:
        slower = machine.core.fastest_rpm(chasing.stopping_rpm)
        cut = asked(questions.thread_speed, work, step, machine, spindle_rpm=slower, **sizes)
        remarks.append("Slowed so that the half nut can be opened within the run-out.")
    train, about_gears = _threading_levers(machine, thread, chasing.train)
    levers = (*levers_of(cut, machine)[:1], *train)
    # the carriage is wound back as fast as it went; two passes without infeed before each measurement
    strokes = 2 * (len(chasing.passes) + (4 if chasing.repeats else 0)) * chasing.starts
    told: dict[str, float | str] = {"thread": str(thread), "side": chasing.side, "length_mm": step.base("length")}
    return Answer(
        record,
        cut,
        levers,
        (),
        told | {"lead_mm": thread.lead_mm},
        step.times * (overhead_s(work, machine, levers, 2) + strokes * (cut.time_s or 0.0)),
        remarks=(*remarks, *about_gears, *said),
        chasing=chasing,
        warned=() if train else (warning("lead_off_chart"),),
    )


def _blank_to_chase(work: Workpiece, limits: ThreadLimits) -> Length | None:
    """What the end was turned to, where that is within the limits of the major diameter."""
    turned = work.outside_mm
    low, high = limits.major_min_mm, limits.major_max_mm
    if low is None or high is None or not low - 1e-9 <= turned <= high + 1e-9:
        return None
    return work.length(turned)


def _gearbox(machine: Machine, lead_mm: float) -> Levers | None:
    """The levers of the gearbox's chart for a lead, if it has it."""
    threading = machine.core.threading
    for step in threading.gearbox:
        if math.isclose(step.ratio * threading.lead_mm, lead_mm, rel_tol=1e-9):
            return Levers("gearbox", tuple((each.control, each.setting) for each in step.positions), True)
    return None


def _threading_levers(
    machine: Machine, thread: standard.Thread, train: GearTrain | None
) -> tuple[list[Levers], list[str]]:
    """Levers of the gearbox where its chart has the lead, else the change gears, and what to say of them."""
    charted = _gearbox(machine, thread.lead_mm)
    if charted is not None:
        return [charted], []
    if train is None:
        return [], [_no_gearbox(thread)]
    levers = [Levers("gears", train.shafts, True)]
    if train.positions:
        levers.append(Levers("gearbox", train.positions, True))
    said = [f"The lead is not on the gearbox's chart: change gears {train.gears}, {train.error_said}."]
    if not train.exact:
        said.append(f"Lead error {train.judgement}.")
    return levers, [*said, f"The train {train.mounting_said}."]


def _no_gearbox(thread: standard.Thread) -> str:
    lead = f"{thread.lead_mm:g} mm" if thread.unit == "mm" else f"{MM_PER_INCH / thread.lead_mm:g} threads an inch"
    return f"A lead of {lead} is not on the gearbox's chart: set up change gears."


def limits_to_cut(
    work: Workpiece, step: Step, thread: standard.Thread, side: Side, engagement: Quantity | None = None
) -> ThreadLimits:
    """Limits to cut a thread to: those of its class, or those before the coating that it will bear."""
    bare = questions_of.limits(thread, side=side, engagement=engagement)
    coating = work.coat(step)
    return bare if coating is None else questions_of.precoat(bare, coating.surface, on=work.part.alloy)


def _over_wires(limits: ThreadLimits) -> OverWires | None:
    """What to read; nothing where no wire or ball measures the thread."""
    try:
        return wires(limits)
    except DomainError:
        return None


def coating_remarks(work: Workpiece, step: Step, limits: ThreadLimits | TaperPipe) -> list[str]:
    """What to mind of a part that is to be coated."""
    if step.masked and work.coating is not None:
        return [f"{work.coating.title}: mask it."]
    if not isinstance(limits, ThreadLimits) or limits.way in {None, "bare"}:
        return []
    assert work.coating is not None
    out = [f"{work.coating.title}: {limits.said}. Cut to the sizes before coating, gauge the coated part at its own."]
    return [*out, *(f"Or: {remedy}." for remedy in limits.remedies)]


ASK: dict[str, Ask] = {"thread": _thread}
"""The question to the core by the kind of operation."""
