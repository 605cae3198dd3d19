"""Milling, asked of the core."""

from __future__ import annotations

from dataclasses import replace

from halfnut._core import DomainError
from halfnut.core.words import caution as warning
from halfnut.cutting import questions
from halfnut.cutting.figures import Cut, Entry
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer
from halfnut.planning.asking import Ask, Workpiece, asked
from halfnut.planning.cut_answers import across_remark, axial_passes, chosen_passes, cut_answer, shares_of
from halfnut.planning.job import Step


def _mill(work: Workpiece, step: Step, machine: Machine) -> Answer:
    sizes: dict[str, float | str] = {
        "shape": step.text("shape"),
        "cutter_mm": step.base("cutter"),
        "length_mm": step.base("length"),
        "cut_width_mm": step.base("width"),
        "cut_depth_mm": step.base("depth"),
    }
    own = {"off": step.size("depth"), "deepest": step.size("step_down")}
    found = chosen_passes(work, step, machine, step.base("cutter"), sizes, **own)
    if isinstance(found, str):
        why, cut = found, asked(questions.mill, work, step, machine)
        slide = machine.core.slide("z") or machine.core.slide("quill")
        total, line = step.base("depth"), None if slide is None else slide.graduation_mm
        passes = axial_passes(total, shares_of(total, cut.passes_down, line), slide)
        found = cut_answer(work, step, machine, cut, (), sizes, "" if slide is None else slide.name)
        remarks = across_remark(work, machine, step, cut.passes_across)
        found = replace(found, passes=passes, remarks=remarks, warned=(warning("equal_passes", why=why),))
    assert found.cut is not None
    way = _entry(work, step, machine, found.cut)
    if way is None:
        return found
    said = str(way.filled("{way} down to each level at {angle_deg}, {length_mm:travel} of travel at {feed_mm_min}"))
    down_s = step.times * len(found.passes) * way.time_s
    return replace(found, remarks=(*found.remarks, said), time_s=found.time_s + down_s)


def _entry(work: Workpiece, step: Step, machine: Machine, cut: Cut) -> Entry | None:
    """The way down to each level, where the job asks for one."""
    if step.text("entry") != "ramp":
        return None
    if step.text("shape") not in {"slot", "pocket"}:
        raise DomainError(f"entry is for a slot or a pocket, and shape is {step.text('shape')}")
    own = {"depth": work.length(cut.depth_mm or step.base("depth")), "angle_deg": getattr(step, "entry_angle", None)}
    own |= {"length": None, "stick_out": None, "nose_radius": None, "roughness_um": None}
    return asked(questions.ramp, work, step, machine, **own)


ASK: dict[str, Ask] = {"mill": _mill}
"""The question to the core by the kind of operation."""
