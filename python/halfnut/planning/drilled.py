"""Holes drilled, spotted, countersunk, counterbored, reamed and tapped, asked of the core."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from halfnut._core import Length
from halfnut.core.record import Record
from halfnut.cutting import questions
from halfnut.cutting.cuts import Cut
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Pass
from halfnut.planning.cut_answers import axial_reading, levers_of, overhead_s
from halfnut.planning.job import Counterbore, Countersink, Drill, Ream, Spot, Tap
from halfnut.planning.threaded import coating_remarks, limits_to_cut
from halfnut.planning.workpiece import Ask, Workpiece, size_text
from halfnut.threads import holes, standard
from halfnut.threads import questions as asked
from halfnut.threads.standard import Thread, ThreadLimits
from halfnut.threads.taper_pipes import TaperPipe

_APPROACH_MM = 2.0
_REAMED = 0.85
"""Least hole over reamer that is taken for the one drilled for it."""


def _drill(work: Workpiece, step: Drill, machine: Machine) -> Answer:
    # on a mill every hole is a new one
    pilot = work.bore if machine.kind == "lathe" else None
    depth = _hole_depth(work, step)

    cut = questions.drill(
        work.part.alloy,
        step.diameter,
        depth=work.length(depth),
        machine=machine,
        tool=step.tool or work.part.tool,
        pilot=pilot,
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    found = _hole_answer(work, step, machine, cut, cut, {"diameter_mm": step.diameter.base, "depth_mm": depth})
    return found


def _spot(work: Workpiece, step: Spot, machine: Machine) -> Answer:
    cut = questions.spot(
        work.part.alloy,
        step.diameter,
        machine=machine,
        tool=step.tool or work.part.tool,
        point_deg=step.point,
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    return _hole_answer(work, step, machine, cut, cut, _cone(step, cut))


def _countersink(work: Workpiece, step: Countersink, machine: Machine) -> Answer:
    cut = questions.countersink(
        work.part.alloy,
        step.diameter,
        _hole_under(work, step),
        machine=machine,
        tool=step.tool or work.part.tool,
        flutes=step.flutes,
        included_deg=step.included,
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    return _hole_answer(work, step, machine, cut, cut, _cone(step, cut))


def _counterbore(work: Workpiece, step: Counterbore, machine: Machine) -> Answer:
    cut = questions.counterbore(
        work.part.alloy,
        step.diameter,
        _hole_under(work, step),
        depth=step.depth,
        machine=machine,
        tool=step.tool or work.part.tool,
        flutes=step.flutes,
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    sizes = {"diameter_mm": step.diameter.base, "depth_mm": step.depth.base}
    return _hole_answer(work, step, machine, cut, cut, sizes)


def _cone(step: Spot | Countersink, cut: Cut) -> dict[str, float]:
    deep = (cut.travel_mm or _APPROACH_MM) - _APPROACH_MM
    return {"diameter_mm": step.diameter.base, "depth_mm": deep}


def _hole_under(work: Workpiece, step: Countersink | Counterbore) -> Length:
    assert work.bore is not None
    return work.bore


def _ream(work: Workpiece, step: Ream, machine: Machine) -> Answer:
    depth = _hole_depth(work, step)

    cut = questions.ream(
        work.part.alloy,
        step.diameter,
        depth=work.length(depth),
        hole=_hole_to_ream(work, step),
        machine=machine,
        tool=step.tool or work.part.tool,
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    found = _hole_answer(work, step, machine, cut, cut, {"diameter_mm": step.diameter.base, "depth_mm": depth})
    return found


def _tap(work: Workpiece, step: Tap, machine: Machine) -> Answer:
    thread = standard.thread(step.thread).internal
    depth = _hole_depth(work, step)
    limits: ThreadLimits | TaperPipe
    if thread.tapers:
        limits = asked.taper_pipe(thread)
        hole_said = _taper_hole_remarks(work, step, thread, limits)
    else:
        limits = limits_to_cut(work, step, thread, "internal", None)
        hole_said = _tap_hole_remarks(work, step, thread, limits)
    cut = questions.tap(
        work.part.alloy,
        thread,
        depth=work.length(depth),
        machine=machine,
        tool=step.tool or work.part.tool,
        form=step.form,
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    sizes = {"thread": str(thread), "side": "internal", "length_mm": depth, "lead_mm": thread.lead_mm}
    remarks = (*hole_said, *coating_remarks(work, step, limits))
    return _hole_answer(work, step, machine, limits, cut, sizes, remarks)


def _drilled(work: Workpiece, step: Any, machine: Machine) -> dict[str, Any]:
    """How work is held in a lathe that a hole is made in."""
    held = work.held(step, machine)
    return held and held | {"stick_out": work.overhang(step)}


def _hole_to_ream(work: Workpiece, step: Ream) -> Length | None:
    """The hole that the reamer follows, where it is a little smaller."""
    if work.hole_mm is None or not _REAMED <= work.hole_mm / step.diameter.base < 1.0:
        return None
    return work.bore


def _hole_depth(work: Workpiece, step: Drill | Ream | Tap) -> float:
    """Depth of the full diameter; through the piece where none is given."""
    if step.depth is not None:
        return float(step.depth.base)
    thickness = work.part.stock.thickness
    return float((work.part.length if thickness is None else thickness).base)


def _hole_answer(
    work: Workpiece,
    step: Spot | Drill | Countersink | Counterbore | Ream | Tap,
    machine: Machine,
    record: Record,
    cut: Cut,
    sizes: Mapping[str, Any],
    remarks: tuple[str, ...] = (),
) -> Answer:
    slide = machine.core.slide("tailstock" if machine.kind == "lathe" else "quill")
    passes: tuple[Pass, ...] = ()
    if cut.travel_mm is not None and not isinstance(step, Tap):
        depth = cut.travel_mm - _APPROACH_MM
        point = depth - cut.peck_depths_mm[-1] if cut.peck_depths_mm else 0.0
        reached = tuple(each + point for each in cut.peck_depths_mm) or (depth,)
        passes = tuple(
            Pass(n + 1, each - (reached[n - 1] if n else 0.0), each, axial_reading(slide, each))
            for n, each in enumerate(reached)
        )
    levers = levers_of(cut, machine)
    time_s = step.times * (cut.time_s or 0.0) + overhead_s(work, machine, levers, cut, 1)
    return Answer(record, cut, levers, passes, sizes, time_s, dial="" if slide is None else slide.name, remarks=remarks)


def _tap_hole_remarks(work: Workpiece, step: Tap, thread: Thread, limits: ThreadLimits) -> tuple[str, ...]:
    assert limits.minor_min_mm is not None and limits.minor_max_mm is not None
    low_mm, high_mm = limits.minor_min_mm, limits.minor_max_mm

    def within(size_mm: float) -> bool:
        return low_mm - 1e-9 <= size_mm <= high_mm + 1e-9

    # of a form beside ISO metric and Unified the limits of its minor diameter are the hole's
    hole = asked.tapping_hole(limits if limits.by_form else thread)
    if not within(hole.drill_mm) and not limits.by_form:  # a coating moves the limits: aim between them
        middle = holes.thread_percent(thread.diameter_mm, thread.pitch_mm, (low_mm + high_mm) / 2)
        hole = asked.tapping_hole(thread, percent=middle)
    text = f"Hole before tapping: {size_text(work, low_mm)} to {size_text(work, high_mm)}"
    if within(hole.drill_mm):
        of = "the form's height" if limits.by_form else "thread"
        text += f"; drill {_drill_words(work, hole)}, for {hole.percent:.0f} % of {of}"
    else:
        text += "; no drill of the set keeps that: bore or ream it"
    if work.hole_mm is not None:
        state = "within" if within(work.hole_mm) else "outside"
        text += f"; the hole drilled, {size_text(work, work.hole_mm)}, is {state}"
        if not limits.by_form:
            percent = holes.thread_percent(thread.diameter_mm, thread.pitch_mm, work.hole_mm)
            text += f": {percent:.0f} %"
    return (text, *_blind_remarks(work, step, thread, hole))


def _drill_words(work: Workpiece, hole: holes.TappingHole) -> str:
    return hole.drill if hole.drill.endswith(work.unit) else f"{hole.drill}, {size_text(work, hole.drill_mm)}"


def _blind_remarks(work: Workpiece, step: Tap, thread: Thread, hole: holes.TappingHole) -> tuple[str, ...]:
    if step.depth is None or work.walked["through"]:
        return ()
    blind = asked.blind_hole(thread, full_thread=work.length(step.depth.base), drill=hole)
    return (
        f"Blind: drill {size_text(work, blind.drill_depth_mm)} deep at full diameter for "
        f"{size_text(work, blind.full_thread_mm)} of full thread with a plug tap; "
        f"{size_text(work, blind.total_depth_mm)} to the drill's point",
    )


def _taper_hole_remarks(work: Workpiece, step: Tap, thread: Thread, pipe: TaperPipe) -> tuple[str, ...]:
    hole = asked.tapping_hole(thread)
    assert hole.ream_drill is not None and hole.ream_drill_mm is not None and hole.hole_at_face_mm is not None
    before = _drill_words(work, replace(hole, drill=hole.ream_drill, drill_mm=hole.ream_drill_mm))
    text = f"Hole before tapping: drill {_drill_words(work, hole)} straight"
    text += f"; or drill {before}, and ream 1:16 to {size_text(work, hole.hole_at_face_mm)} at the mouth"
    if work.hole_mm is not None:
        fits = work.hole_mm <= hole.hole_at_face_mm + 1e-9
        text += f"; the hole drilled, {size_text(work, work.hole_mm)}, is {'small enough' if fits else 'too large'}"
    low, high = (pipe.hand_turns + sign * pipe.tolerance_turns for sign in (-1, 1))
    out = [text, f"Tap until the plug gauge goes in {low:.1f} to {high:.1f} turns by hand"]
    if step.depth is not None and step.depth.base < pipe.depth_mm:
        out.append(f"Depth is less than hand engagement and wrench turns, {size_text(work, pipe.depth_mm)}")
    return tuple(out)


ASK: dict[type, Ask] = {
    Spot: _spot,
    Countersink: _countersink,
    Counterbore: _counterbore,
    Drill: _drill,
    Ream: _ream,
    Tap: _tap,
}
"""The question to the core by the kind of operation."""
