"""Turning, tapers, grooves, boring, facing, parting off and knurling, asked of the core."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from halfnut._core import DomainError, spell_span
from halfnut.cutting import questions
from halfnut.cutting.cuts import Cut
from halfnut.cutting.holding import Holding
from halfnut.cutting.questions import hold
from halfnut.fits.cylindrical import CylindricalFit
from halfnut.fits.questions import cylindrical_fit
from halfnut.knurls.questions import knurl_setup
from halfnut.machine.dials import reading
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Pass
from halfnut.planning.cut_answers import (
    DEEPEST_PASS_MM,
    axial_reading,
    chosen_passes,
    cut_answer,
    levers_of,
    overhead_s,
    pass_count,
    passes_between,
    shares_of,
)
from halfnut.planning.job import Bore, Face, Groove, Knurl, PartOff, Taper, Turn
from halfnut.planning.workpiece import Ask, Workpiece, size_text


def _turn(work: Workpiece, step: Turn, machine: Machine) -> Answer:
    start, plain = work.outside_mm, _plain(work, step, "shaft")
    to, band, remarks = _aimed(work, step, plain)
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": step.length.base}
    how: dict[str, Any] = {
        "tool": step.tool or work.part.tool,
        "nose_radius": step.nose_radius,
        "hold": step.hold,
        "chuck": step.holding,
        "stick_out": work.overhang(step),
        "steadies": step.steadies,
        "bore": work.bore,
        "roughness_um": None if step.roughness is None else step.roughness.base * 1000,
        **work.held(step, machine),
    }
    question: dict[str, Any] = {
        "to": work.length(to),
        "length": step.length,
        "deepest": step.depth,
        "tolerance": band,
        **how,
    }
    found = chosen_passes(work, step, machine, "turn", work.length(start), question, sizes)
    if isinstance(found, str):
        passes = passes_between(start, to, work, step, machine.core.slide("cross"))
        cut = questions.turn(
            work.part.alloy,
            work.length(start),
            depth=work.length(max(each.depth_mm for each in passes)),
            length=step.length,
            machine=machine,
            finish=step.finish,
            **how,
        )
        found = cut_answer(work, step, machine, cut, passes, sizes, "cross", found)
    assert found.cut is not None
    found = replace(found, holding=_holding(work, step, machine, start, found.cut))
    return replace(found, plain=plain, remarks=(*found.remarks, *remarks))


def _holding(work: Workpiece, step: Turn, machine: Machine, start_mm: float, cut: Cut) -> Holding | None:
    """How far the work deflects, where its overhang is known."""
    if step.stick_out is None:
        return None
    part = work.part
    return hold(
        part.alloy,
        work.length(start_mm),
        stick_out=step.stick_out,
        bore=work.bore,
        hold=step.hold,
        steadies=step.steadies,
        jaws=part.jaws,
        friction=part.friction,
        safety=part.safety,
        length=step.length,
        depth=None if cut.depth_mm is None else work.length(cut.depth_mm),
        feed=f"{cut.feed_mm_rev} mm/rev",
        spindle_rpm=cut.spindle_rpm,
        machine=machine,
        tool=step.tool or part.tool,
        chuck=step.holding,
        finish=step.finish,
        nose_radius=step.nose_radius,
    )


def _taper(work: Workpiece, step: Taper, machine: Machine) -> Answer:
    start, to = work.outside_mm, step.to.base
    passes = passes_between(start, to, work, step, machine.core.slide("cross"))
    found = questions.taper(
        work.part.alloy,
        work.length(start),
        step.to,
        step.length,
        between_centres=step.between_centres,
        depth=work.length(max(each.depth_mm for each in passes)),
        machine=machine,
        tool=step.tool or work.part.tool,
        finish=step.finish,
        nose_radius=step.nose_radius,
        hold=step.hold,
        chuck=step.holding,
        stick_out=work.overhang(step),
        bore=work.bore,
        **work.held(step, machine),
    )
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": step.length.base}
    out = cut_answer(work, step, machine, found.cut, passes, sizes, "cross")
    return replace(out, record=found, remarks=(found.answer, f"prove it {found.proof}"))


def _groove(work: Workpiece, step: Groove, machine: Machine) -> Answer:
    start, to = work.outside_mm, step.to.base
    found = questions.groove(
        work.part.alloy,
        work.length(start),
        step.to,
        width=step.width,
        blade=step.blade,
        machine=machine,
        tool=step.tool or work.part.tool,
        chuck=step.holding,
        bore=work.bore,
        **work.held(step, machine),
    )
    slide = machine.core.slide("cross")
    depth = (start - to) / 2
    dial = None if slide is None else reading(slide, 2 * depth)
    wide = step.blade.base if step.width is None else step.width.base
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": wide}
    levers = levers_of(found.cut, machine)
    time_s = step.times * ((found.time_s or 0.0) + overhead_s(work, machine, levers, found.cut, 1))
    remarks = (f"{found.plunges} plunges, {size_text(work, found.step_mm)} apart",) if found.plunges > 1 else ()
    passes = (Pass(1, depth, to, dial),)
    return Answer(found, found.cut, levers, passes, sizes, time_s, dial="cross", remarks=remarks)


def _bore(work: Workpiece, step: Bore, machine: Machine) -> Answer:
    start = work.hole_mm
    assert start is not None
    plain = _plain(work, step, "hole")
    to, band, remarks = _aimed(work, step, plain)
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": step.length.base}
    how: dict[str, Any] = {
        "tool": step.tool or work.part.tool,
        "nose_radius": step.nose_radius,
        "chuck": step.holding,
        "bar_diameter": step.bar,
        "roughness_um": None if step.roughness is None else step.roughness.base * 1000,
        **work.held(step, machine),
    }
    question: dict[str, Any] = {
        "to": work.length(to),
        "length": step.length,
        "deepest": step.depth,
        "stick_out": step.stick_out,
        "tolerance": band,
        **how,
    }
    found = chosen_passes(work, step, machine, "bore", work.length(start), question, sizes)
    if isinstance(found, str):
        passes = passes_between(start, to, work, step, machine.core.slide("cross"))
        cut = questions.bore(
            work.part.alloy,
            work.length(to),
            depth=work.length(max(each.depth_mm for each in passes)),
            length=step.length,
            machine=machine,
            finish=step.finish,
            overhang=step.stick_out,
            **how,
        )
        found = cut_answer(work, step, machine, cut, passes, sizes, "cross", found)
    return replace(found, plain=plain, remarks=(*found.remarks, *remarks))


def _plain(work: Workpiece, step: Turn | Bore, side: str) -> CylindricalFit | None:
    """Limits of the class that a turned or bored diameter is to have."""
    if step.fit is None:
        return None
    coating = work.coat(step)
    coat = None if coating is None else coating.surface
    outer = side == "shaft"
    found = cylindrical_fit(
        f"{step.to} {step.fit}", hole_build_up=None if outer else coat, shaft_build_up=coat if outer else None
    )
    if getattr(found, side) is None:
        what = "a turned diameter needs a shaft, such as 'g6'" if outer else "a bore needs a hole, such as 'H7'"
        raise DomainError(f"fit: {what}, got {step.fit!r}")
    return found


def _aimed(work: Workpiece, step: Turn | Bore, plain: CylindricalFit | None) -> tuple[float, Any, tuple[str, ...]]:
    """Diameter to cut to, mm, how far its limits are apart, and what the sheet says of it.

    The middle of the limits where there is a fit; as the job says its tolerance, else that of its class before
    coating.
    """
    if plain is None:
        return step.to.base, step.tolerance, ()
    side = "hole" if isinstance(step, Bore) else "shaft"
    part = plain.hole if side == "hole" else plain.shaft
    assert part is not None
    said = f"Limits of {step.fit}: {part.sizes()}."
    low, high = part.min_mm, part.max_mm
    coating = work.coat(step)
    if coating is not None and coating.surface.max_um > 0.0:
        cut = plain.cut_to_mm(side)
        if cut is None:
            raise DomainError(
                f"fit: no size keeps {step.fit} once coated; {coating.title} varies by more than the tolerance"
            )
        low, high = cut
        said = f"{said[:-1]} once coated; cut {spell_span(low, high, 'length', work.unit)} before it."
    band = step.tolerance if step.tolerance is not None else work.length(high - low)
    return 0.5 * (low + high), band, (said,)


def _face(work: Workpiece, step: Face, machine: Machine) -> Answer:
    start = work.outside_mm
    deepest = step.depth.base if step.depth is not None else DEEPEST_PASS_MM[work.unit]
    sizes = {"start_diameter_mm": start, "off_mm": step.off.base}
    how: dict[str, Any] = {
        "end_diameter": step.to,
        "tool": step.tool or work.part.tool,
        "nose_radius": step.nose_radius,
        "chuck": step.holding,
        "stick_out": work.overhang(step),
        "bore": work.bore,
        "roughness_um": None if step.roughness is None else step.roughness.base * 1000,
        **work.held(step, machine),
    }
    # a skim that cleans an end up is one pass, and nothing is measured before it
    single = step.finish or step.off.base <= deepest * (1 + 1e-9)
    question: dict[str, Any] = {"off": step.off, "single": single, "deepest": step.depth, **how}
    found = chosen_passes(work, step, machine, "face", work.length(start), question, sizes)
    if isinstance(found, Answer):
        return found
    slide = machine.core.slide("compound") or machine.core.slide("carriage")
    count = pass_count(step.off.base, deepest, work)
    depths = shares_of(step.off.base, count, slide.graduation_mm if slide is not None else None)
    passes = tuple(
        Pass(
            n + 1, depths[n] - (depths[n - 1] if n else 0.0), step.off.base - depths[n], axial_reading(slide, depths[n])
        )
        for n in range(count)
    )
    cut = questions.face(
        work.part.alloy,
        work.length(start),
        depth=work.length(max(each.depth_mm for each in passes)),
        machine=machine,
        finish=step.finish,
        **how,
    )
    return cut_answer(work, step, machine, cut, passes, sizes, slide.name if slide is not None else "", found)


def _part_off(work: Workpiece, step: PartOff, machine: Machine) -> Answer:
    start = work.outside_mm
    cut = questions.part_off(
        work.part.alloy,
        work.length(start),
        blade=step.blade,
        machine=machine,
        tool=step.tool or work.part.tool,
        chuck=step.holding,
        stick_out=step.stick_out,
        bore=work.bore,
        **work.held(step, machine),
    )
    return cut_answer(work, step, machine, cut, (), {"start_diameter_mm": start, "blade_mm": step.blade.base}, "")


def _knurl(work: Workpiece, step: Knurl, machine: Machine) -> Answer:
    # the walk has found that the work is on a blank that tracks: that one is told
    setup = knurl_setup(
        work.length(work.outside_mm),
        step.pitch,
        work.part.alloy,
        pattern=step.pattern,
        process=step.process,
        width=step.width,
        wheels=step.wheels,
        bore=work.bore,
        hole=step.hole,
        machine=machine,
        chuck=step.holding,
        **work.held(step, machine),
    )
    blank, cut = setup.blank, setup.cut
    levers = levers_of(cut, machine)
    time_s = step.times * ((cut.time_s or 0.0) + overhead_s(work, machine, levers, cut, 1))
    sizes = {"start_diameter_mm": work.outside_mm, "width_mm": step.width.base}
    return Answer(blank, cut, levers, (), sizes, time_s, knurling=setup)


ASK: dict[type, Ask] = {
    Turn: _turn,
    Taper: _taper,
    Groove: _groove,
    Face: _face,
    Bore: _bore,
    PartOff: _part_off,
    Knurl: _knurl,
}
"""The question to the core by the kind of operation."""
