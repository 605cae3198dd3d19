"""A cut, or a choice of passes, as the answer to an operation: passes, dials, levers, time."""

from __future__ import annotations

import math
from collections.abc import Mapping

from halfnut import _core
from halfnut._core import DomainError, Error
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.words import caution as warning
from halfnut.core.words import words
from halfnut.cutting.figures import Cut, DialReading
from halfnut.cutting.questions import choose
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Levers, Pass
from halfnut.planning.asking import Workpiece, asked
from halfnut.planning.job import Step

__all__ = ["feed_ladder"]
DEEPEST_PASS_MM = {"in": 0.040 * MM_PER_INCH, "mm": 1.0}


def across_remark(work: Workpiece, machine: Machine, step: Step, across: int) -> tuple[str, ...]:
    if across < 2:
        return ()
    over = step.base("width") / across
    slide = machine.core.slide("y")
    dial = f"; y dial {slide.reading(over)[-1]} each" if slide is not None else ""
    return (f"{across} passes across, {work.spelled(over)} apart{dial}",)


def reading(slide: _core.Slide | None, travel_mm: float) -> DialReading | None:
    """What a slide's dial reads after a travel from zero."""
    return None if slide is None else DialReading(*slide.reading(travel_mm))


def chosen_passes(
    work: Workpiece, step: Step, machine: Machine, diameter_mm: float, sizes: Mapping[str, float | str], **own: object
) -> Answer | str:
    """The answer from the fastest passes within every limit; or why there are none."""
    if work.set_to is not None and work.set_to[0] == machine.name:
        own |= _set_by(work.set_to[1], machine)
    do = f"mill {step.text('shape')}" if step.do == "mill" else step.do
    own |= {"do": do, "diameter": work.length(diameter_mm), "brief": True}
    own.setdefault("deepest", step.size("depth"))
    try:
        found = asked(choose, work, step, machine, **own)
    except Error as error:
        return str(error)
    if not found.found:
        return ", ".join(words("limit", each.name) for each in found.relaxations) or "none of them alone"
    passes = []
    before: tuple[Levers, ...] = ()
    for each in found.passes:
        levers = levers_of(each.cut, machine)
        # facing tells what is still on, the others what is reached
        size = step.base("off") - each.after_mm if do == "face" else each.after_mm
        other = levers if before and levers != before else ()
        passes.append(Pass(each.number, each.depth_mm, size, each.dial, each.measure_before, other))
        before = levers
    first = found.passes[0].cut
    remarks = across_remark(work, machine, step, found.across) if step.do == "mill" else ()
    time_s = step.times * ((found.time_s or 0.0) + machine.core.tool_change_s)
    levers = levers_of(first, machine)
    return Answer(first, first, levers, tuple(passes), sizes, time_s, found.dial, remarks, chosen=found, left=before)


def cut_answer(
    work: Workpiece,
    step: Step,
    machine: Machine,
    cut: Cut,
    passes: tuple[Pass, ...],
    sizes: Mapping[str, float | str],
    dial: str = "",
    why: str = "",
) -> Answer:
    """The answer of one cut that is repeated; `why` no passes were found."""
    levers = levers_of(cut, machine)
    measured = sum(each.measure for each in passes) + 1
    cuts = max(1, len(passes)) * (cut.time_s or 0.0)
    time_s = step.times * (cuts + overhead_s(work, machine, levers, measured))
    warned = (warning("equal_passes", why=why),) if why else ()
    return Answer(cut, cut, levers, passes, sizes, time_s, dial, warned=warned)


def overhead_s(work: Workpiece, machine: Machine, levers: tuple[Levers, ...], measured: int = 1) -> float:
    """Seconds for the tool, the levers that differ from the operation before, and measuring."""
    core = machine.core
    before = () if work.last is None or work.last[0] is not machine else work.last[1]
    seconds = core.tool_change_s + measured * core.measure_s
    for group in levers:
        if group.positions and group not in before:
            seconds += core.stop_change_s if group.stop else core.lever_change_s
    return seconds


def levers_of(cut: Cut, machine: Machine) -> tuple[Levers, ...]:
    out = []
    if cut.spindle_step is not None:
        step = machine.core.spindle[cut.spindle_step]
        set_to = (("speed, rev/min", f"{cut.spindle_rpm:.0f}"),) if step.variable else ()
        out.append(Levers("spindle", cut.spindle_positions + set_to, step.stop_to_change))
    if cut.feed_step is not None:
        stop = feed_ladder(cut, machine).steps[cut.feed_step].stop_to_change
        out.append(Levers("feed", cut.feed_positions, stop))
    return tuple(out)


def feed_ladder(cut: Cut, machine: Machine) -> _core.FeedLadder:
    """The feeds that a cut is fed by."""
    if machine.kind == "lathe":
        return machine.core.carriage
    return machine.core.table if cut.operation.startswith(("mill", "saw")) else machine.core.quill


def _set_by(cut: Cut, machine: Machine) -> dict[str, object]:
    """Speed and feed that a cut leaves set, as `choose` takes them."""
    out: dict[str, object] = {} if cut.spindle_step is None else {"now_spindle_rpm": cut.spindle_rpm}
    if cut.feed_step is not None:
        ladder = feed_ladder(cut, machine)
        unit = "mm/min" if ladder.kind == "per minute" else "mm/rev"
        out["now_feed"] = f"{ladder.steps[cut.feed_step].feed_mm!r} {unit}"
    return out


def passes_between(start_mm: float, to_mm: float, work: Workpiece, step: Step, machine: Machine) -> tuple[Pass, ...]:
    """Equal passes on the radius, each but the last ending on a line of the dial; the last is measured before."""
    slide = machine.core.slide("cross")
    total = abs(start_mm - to_mm) / 2
    count = 1 if step.finishes else pass_count(total, step.base("depth") or DEEPEST_PASS_MM[work.unit], work)
    line = None if slide is None else slide.graduation_mm / (2 if slide.reads_diameter else 1)
    sign = -2 if to_mm < start_mm else 2
    depths = shares_of(total, count, line)
    return tuple(
        Pass(
            n + 1,
            depth - (depths[n - 1] if n else 0.0),
            start_mm + sign * depth,
            reading(slide, depth),
            measure=count > 1 and n == count - 1,
        )
        for n, depth in enumerate(depths)
    )


def axial_passes(
    total_mm: float, depths: list[float], slide: _core.Slide | None, *, left: bool = False
) -> tuple[Pass, ...]:
    """Passes to depths along the axis, by what they reach or, `left`, by what is still on."""
    return tuple(
        Pass(
            n + 1,
            depth - (depths[n - 1] if n else 0.0),
            total_mm - depth if left else depth,
            reading(slide, depth),
        )
        for n, depth in enumerate(depths)
    )


def pass_count(total_mm: float, deepest_mm: float, work: Workpiece) -> int:
    """Passes of at most a depth that take a depth in all; a depth that needs too many is refused."""
    count = max(1, math.ceil(total_mm / deepest_mm - 1e-9))
    most: int = _core.bounds()["passes"]
    if count > most:
        raise DomainError(
            f"depth, {work.length(deepest_mm)}, makes {count} passes; at most {most}, so at least "
            f"{work.spelled(total_mm / most)}"
        )
    return count


def shares_of(total_mm: float, count: int, line_mm: float | None) -> list[float]:
    """Depths reached after each of equal passes; all but the last on a line, the last two as equal as lines allow."""
    depths = [total_mm * (n + 1) / count for n in range(count)]
    if line_mm is not None:
        depths[:-1] = [round(depth / line_mm) * line_mm for depth in depths[:-1]]
        if count > 1:
            before = depths[-3] if count > 2 else 0.0
            depths[-2] = round((before + total_mm) / 2 / line_mm) * line_mm
    return depths
