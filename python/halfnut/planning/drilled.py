"""Holes drilled, spotted, countersunk, counterbored, reamed and tapped, asked of the core."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from halfnut.core.record import Record
from halfnut.cutting import questions
from halfnut.cutting.figures import Cut
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Pass
from halfnut.planning.asking import APPROACH_MM, Ask, Workpiece, asked
from halfnut.planning.cut_answers import axial_passes, levers_of, overhead_s
from halfnut.planning.job import Step
from halfnut.planning.threaded import coating_remarks, limits_to_cut
from halfnut.threads import formulas, holes, standard
from halfnut.threads import questions as asked_of
from halfnut.threads.figures import TaperPipe
from halfnut.threads.standard import Thread, ThreadLimits

_REAMED = 0.85
"""Least hole over reamer that is taken for the one drilled for it."""


def _hole(work: Workpiece, step: Step, machine: Machine) -> Answer:
    """A hole drilled, reamed, or shaped at its mouth."""
    own: dict[str, object] = {}
    if step.do == "drill":
        own = {"pilot": work.bore}
    elif step.do in {"countersink", "counterbore"} or (
        step.do == "ream" and work.hole_mm is not None and _REAMED <= work.hole_mm / step.base("diameter") < 1.0
    ):
        own = {"hole": work.bore}
    if step.do in {"drill", "ream"}:
        own["depth"] = work.length(_depth_mm(work, step) + (work.found("beyond_mm") or 0.0))
    cut = asked(_QUESTIONS[step.do], work, step, machine, **own)
    deep = _depth_mm(work, step) if "depth" in own or step.do == "counterbore" else (cut.travel_mm or 0.0) - APPROACH_MM
    return _hole_answer(work, step, machine, cut, cut, {"diameter_mm": step.base("diameter"), "depth_mm": deep})


def _tap(work: Workpiece, step: Step, machine: Machine) -> Answer:
    thread = standard.thread(step.text("thread")).internal
    depth = _depth_mm(work, step)
    limits: ThreadLimits | TaperPipe
    if thread.tapers:
        limits = asked_of.taper_pipe(thread)
        hole_said = _taper_hole_remarks(work, step, thread, limits)
    else:
        limits = limits_to_cut(work, step, thread, "internal")
        hole_said = _tap_hole_remarks(work, step, thread, limits)
    turned_mm = depth + (work.found("beyond_mm") or 0.0)
    cut = asked(questions.tap, work, step, machine, thread=thread, depth=work.length(turned_mm))
    sizes: dict[str, float | str] = {
        "thread": str(thread),
        "side": "internal",
        "length_mm": depth,
        "lead_mm": thread.lead_mm,
        "turns": turned_mm / thread.lead_mm,
    }
    return _hole_answer(work, step, machine, limits, cut, sizes, (*hole_said, *coating_remarks(work, step, limits)))


def _depth_mm(work: Workpiece, step: Step) -> float:
    """Depth of the full diameter; through the piece where none is given."""
    return step.base("depth") or (work.part.stock.thickness or work.part.length).base


def _hole_answer(
    work: Workpiece,
    step: Step,
    machine: Machine,
    record: Record,
    cut: Cut,
    sizes: Mapping[str, float | str],
    remarks: tuple[str, ...] = (),
) -> Answer:
    slide = machine.core.slide("tailstock" if machine.kind == "lathe" else "quill")
    passes: tuple[Pass, ...] = ()
    if cut.travel_mm is not None and step.do != "tap":
        depth = cut.travel_mm - APPROACH_MM
        point = depth - cut.peck_depths_mm[-1] if cut.peck_depths_mm else 0.0
        passes = axial_passes(depth, [each + point for each in cut.peck_depths_mm] or [depth], slide)
    levers = levers_of(cut, machine)
    time_s = step.times * (cut.time_s or 0.0) + overhead_s(work, machine, levers)
    return Answer(record, cut, levers, passes, sizes, time_s, "" if slide is None else slide.name, remarks)


def _tap_hole_remarks(work: Workpiece, step: Step, thread: Thread, limits: ThreadLimits) -> tuple[str, ...]:
    assert limits.minor_min_mm is not None and limits.minor_max_mm is not None
    low_mm, high_mm = limits.minor_min_mm, limits.minor_max_mm

    def within(size_mm: float) -> bool:
        return low_mm - 1e-9 <= size_mm <= high_mm + 1e-9

    # of a form beside ISO metric and Unified the limits of its minor diameter are the hole's
    hole = asked_of.tapping_hole(limits if limits.by_form else thread)
    if not within(hole.drill_mm) and not limits.by_form:  # a coating moves the limits: aim between them
        middle = formulas.thread_percent(thread.diameter_mm, thread.pitch_mm, (low_mm + high_mm) / 2)
        hole = asked_of.tapping_hole(thread, percent=middle)
    text = f"Hole before tapping: {work.spelled(low_mm)} to {work.spelled(high_mm)}"
    if within(hole.drill_mm):
        of = "the form's height" if limits.by_form else "thread"
        text += f"; drill {_drill_words(work, hole)}, for {hole.percent:.0f} % of {of}"
    else:
        text += "; no drill of the set keeps that: bore or ream it"
    if work.hole_mm is not None:
        state = "within" if within(work.hole_mm) else "outside"
        text += f"; the hole drilled, {work.spelled(work.hole_mm)}, is {state}"
        if not limits.by_form:
            percent = formulas.thread_percent(thread.diameter_mm, thread.pitch_mm, work.hole_mm)
            text += f": {percent:.0f} %"
    return (text, *_blind_remarks(work, step, thread, hole))


def _drill_words(work: Workpiece, hole: holes.TappingHole) -> str:
    return hole.drill if hole.drill.endswith(work.unit) else f"{hole.drill}, {work.spelled(hole.drill_mm)}"


def _blind_remarks(work: Workpiece, step: Step, thread: Thread, hole: holes.TappingHole) -> tuple[str, ...]:
    if step.size("depth") is None or work.walked["through"]:
        return ()
    blind = asked_of.blind_hole(thread, full_thread=work.length(step.base("depth")), drill=hole)
    return (
        f"Blind: drill {work.spelled(blind.drill_depth_mm)} deep at full diameter for "
        f"{work.spelled(blind.full_thread_mm)} of full thread with a plug tap; "
        f"{work.spelled(blind.total_depth_mm)} to the drill's point",
    )


def _taper_hole_remarks(work: Workpiece, step: Step, thread: Thread, pipe: TaperPipe) -> tuple[str, ...]:
    hole = asked_of.tapping_hole(thread)
    assert hole.ream_drill is not None and hole.ream_drill_mm is not None and hole.hole_at_face_mm is not None
    before = _drill_words(work, replace(hole, drill=hole.ream_drill, drill_mm=hole.ream_drill_mm))
    text = f"Hole before tapping: drill {_drill_words(work, hole)} straight"
    text += f"; or drill {before}, and ream 1:16 to {work.spelled(hole.hole_at_face_mm)} at the mouth"
    if work.hole_mm is not None:
        fits = work.hole_mm <= hole.hole_at_face_mm + 1e-9
        text += f"; the hole drilled, {work.spelled(work.hole_mm)}, is {'small enough' if fits else 'too large'}"
    low, high = (pipe.hand_turns + sign * pipe.tolerance_turns for sign in (-1, 1))
    out = [text, f"Tap until the plug gauge goes in {low:.1f} to {high:.1f} turns by hand"]
    if 0.0 < step.base("depth") < pipe.depth_mm:
        out.append(f"Depth is less than hand engagement and wrench turns, {work.spelled(pipe.depth_mm)}")
    return tuple(out)


_QUESTIONS: dict[str, Callable[..., Cut]] = {
    "spot": questions.spot,
    "drill": questions.drill,
    "countersink": questions.countersink,
    "counterbore": questions.counterbore,
    "ream": questions.ream,
}
ASK: dict[str, Ask] = {**dict.fromkeys(_QUESTIONS, _hole), "tap": _tap}
"""The question to the core by the kind of operation."""
