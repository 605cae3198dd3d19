"""Milling and sawing, asked of the core."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from halfnut._core import DomainError
from halfnut.core.words import caution as warning
from halfnut.cutting import questions
from halfnut.cutting.cuts import Cut
from halfnut.cutting.milling import Entry
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Pass
from halfnut.planning.cut_answers import across_remark, axial_reading, chosen_passes, levers_of, overhead_s, shares_of
from halfnut.planning.job import Mill, Saw
from halfnut.planning.workpiece import Ask, Workpiece


def _mill(work: Workpiece, step: Mill, machine: Machine) -> Answer:
    how: dict[str, Any] = {
        "flutes": step.flutes,
        "length": step.length,
        "width": step.width,
        "step_over": step.step_over,
        "tool": step.tool or work.part.tool,
        "stick_out": step.stick_out,
        "nose_radius": step.nose_radius,
        "roughness_um": None if step.roughness is None else step.roughness.base * 1000,
    }
    sizes = {
        "shape": step.shape,
        "cutter_mm": step.cutter.base,
        "length_mm": step.length.base,
        "cut_width_mm": step.width.base,
        "cut_depth_mm": step.depth.base,
    }
    question: dict[str, Any] = {"off": step.depth, "deepest": step.step_down, **how}
    found = chosen_passes(work, step, machine, f"mill {step.shape}", step.cutter, question, sizes)
    if isinstance(found, Answer):
        assert found.cut is not None
        way = _entry(work, step, machine, found.cut)
        if way is None:
            return found
        down_s = step.times * len(found.passes) * way.time_s
        return replace(found, remarks=(*found.remarks, way.said), time_s=found.time_s + down_s)
    cut = questions.mill(
        work.part.alloy,
        step.cutter,
        shape=step.shape,
        depth=step.depth,
        step_down=step.step_down,
        machine=machine,
        **how,
    )
    entry = _entry(work, step, machine, cut)
    slide = machine.core.slide("z") or machine.core.slide("quill")
    total, count = step.depth.base, cut.passes_down
    depths = shares_of(total, count, None if slide is None else slide.graduation_mm)
    passes = tuple(
        Pass(n + 1, depth - (depths[n - 1] if n else 0.0), depth, axial_reading(slide, depth))
        for n, depth in enumerate(depths)
    )
    levers = levers_of(cut, machine)
    down_s = 0.0 if entry is None else count * entry.time_s
    time_s = step.times * ((cut.time_s or 0.0) + down_s + overhead_s(work, machine, levers, cut, 1))
    dial = "" if slide is None else slide.name
    remarks = across_remark(work, machine, step, cut.passes_across) + (() if entry is None else (entry.said,))
    warned = (warning("equal_passes", why=found),)
    return Answer(cut, cut, levers, passes, sizes, time_s, dial=dial, remarks=remarks, warned=warned)


def _entry(work: Workpiece, step: Mill, machine: Machine, cut: Cut) -> Entry | None:
    """The way down to each level, where the job asks for one."""
    if step.entry is None:
        return None
    if step.shape not in {"slot", "pocket"}:
        raise DomainError(f"entry is for a slot or a pocket, and shape is {step.shape}")
    angle: dict[str, Any] = {} if step.entry_angle is None else {"angle_deg": step.entry_angle}
    return questions.ramp(
        work.part.alloy,
        step.cutter,
        work.length(cut.depth_mm or step.depth.base),
        flutes=step.flutes,
        machine=machine,
        tool=step.tool or work.part.tool,
        **angle,
    )


def _saw(work: Workpiece, step: Saw, machine: Machine) -> Answer:
    cut = questions.saw(
        work.part.alloy,
        step.blade,
        step.thickness,
        step.depth,
        teeth=step.teeth,
        length=step.length,
        machine=machine,
        tool=step.tool or work.part.tool,
    )
    sizes = {
        "shape": "slit",
        "cutter_mm": step.blade.base,
        "length_mm": step.length.base,
        "cut_width_mm": step.thickness.base,
        "cut_depth_mm": step.depth.base,
    }
    levers = levers_of(cut, machine)
    time_s = step.times * ((cut.time_s or 0.0) + overhead_s(work, machine, levers, cut, 1))
    return Answer(cut, cut, levers, (), sizes, time_s)


ASK: dict[type, Ask] = {
    Saw: _saw,
    Mill: _mill,
}
"""The question to the core by the kind of operation."""
