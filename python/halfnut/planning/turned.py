"""Turning, tapers, grooves, boring, facing, parting off and knurling, asked of the core."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from halfnut._core import DomainError, Length, Quantity, spell_span
from halfnut.cutting import questions
from halfnut.fits.cylindrical import CylindricalFit
from halfnut.fits.questions import cylindrical_fit
from halfnut.knurls.questions import knurl_setup
from halfnut.machine.machines import Machine
from halfnut.planning.answers import Answer, Pass
from halfnut.planning.asking import Ask, Workpiece, asked
from halfnut.planning.cut_answers import (
    DEEPEST_PASS_MM,
    axial_passes,
    chosen_passes,
    cut_answer,
    levers_of,
    overhead_s,
    pass_count,
    passes_between,
    reading,
    shares_of,
)
from halfnut.planning.job import Step


def _sized(work: Workpiece, step: Step, machine: Machine) -> Answer:
    """A diameter turned or bored to a size."""
    inner = step.do == "bore"
    start = (work.hole_mm if inner else work.outside_mm) or 0.0
    plain = _plain(work, step)
    to, band, remarks = _aimed(work, step, plain)
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": step.base("length")}
    out = {"stick_out": step.size("stick_out")} if inner else {}
    found = chosen_passes(work, step, machine, start, sizes, to=work.length(to), tolerance=band, **out)
    if isinstance(found, str):
        passes = passes_between(start, to, work, step, machine)
        depth = work.length(max(each.depth_mm for each in passes))
        question = questions.bore if inner else questions.turn
        cut = asked(question, work, step, machine, diameter=work.length(to if inner else start), depth=depth)
        found = cut_answer(work, step, machine, cut, passes, sizes, "cross", found)
    first = found.cut
    if first is not None and not inner and step.size("stick_out") is not None:
        own = {"diameter": work.length(start), "feed": f"{first.feed_mm_rev} mm/rev", "spindle_rpm": first.spindle_rpm}
        own |= {"depth": None if first.depth_mm is None else work.length(first.depth_mm)}
        own |= {"roughness_um": None, "tolerance": None}
        found = replace(found, holding=asked(questions.hold, work, step, machine, **own))
    return replace(found, plain=plain, remarks=(*found.remarks, *remarks))


def _plain(work: Workpiece, step: Step) -> CylindricalFit | None:
    """Limits of the class that a turned or bored diameter is to have."""
    fit = step.text("fit")
    if not fit:
        return None
    coating = work.coat(step)
    coat = None if coating is None else coating.surface
    outer = step.do != "bore"
    found = cylindrical_fit(
        f"{step.size('to')} {fit}", hole_build_up=None if outer else coat, shaft_build_up=coat if outer else None
    )
    if (found.shaft if outer else found.hole) is None:
        what = "a turned diameter needs a shaft, such as 'g6'" if outer else "a bore needs a hole, such as 'H7'"
        raise DomainError(f"fit: {what}, got {fit!r}")
    return found


def _aimed(
    work: Workpiece, step: Step, plain: CylindricalFit | None
) -> tuple[float, Quantity | Length | None, tuple[str, ...]]:
    """Diameter to cut to, mm, how far its limits are apart, and what the sheet says of it.

    The middle of the limits where there is a fit; as the job says its tolerance, else that of its class before
    coating.
    """
    if plain is None:
        return step.base("to"), step.size("tolerance"), ()
    side, fit = "hole" if step.do == "bore" else "shaft", step.text("fit")
    part = plain.hole if side == "hole" else plain.shaft
    assert part is not None
    said = f"Limits of {fit}: {part.sizes_said}."
    low, high = part.min_mm, part.max_mm
    coating = work.coat(step)
    if coating is not None and coating.surface.max_um > 0.0:
        cut = plain.cut_to_mm(side)
        if cut is None:
            raise DomainError(
                f"fit: no size keeps {fit} once coated; {coating.title} varies by more than the tolerance"
            )
        low, high = cut
        said = f"{said[:-1]} once coated; cut {spell_span(low, high, 'length', work.unit)} before it."
    return 0.5 * (low + high), step.size("tolerance") or work.length(high - low), (said,)


def _taper(work: Workpiece, step: Step, machine: Machine) -> Answer:
    start, to = work.outside_mm, step.base("to")
    passes = passes_between(start, to, work, step, machine)
    depth = work.length(max(each.depth_mm for each in passes))
    large = work.length(start)
    found = asked(questions.taper, work, step, machine, large=large, small=step.size("to"), depth=depth)
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": step.base("length")}
    out = cut_answer(work, step, machine, found.cut, passes, sizes, "cross")
    return replace(out, record=found, remarks=(found.answer, f"prove it {dict(found.report())['prove']}"))


def _groove(work: Workpiece, step: Step, machine: Machine) -> Answer:
    start, to = work.outside_mm, step.base("to")
    found = asked(
        questions.groove, work, step, machine, diameter=work.length(start), end_diameter=step.size("to"), stick_out=None
    )
    depth = (start - to) / 2
    dial = reading(machine.core.slide("cross"), depth)
    wide = step.base("width") or step.base("blade")
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": wide}
    levers = levers_of(found.cut, machine)
    time_s = step.times * ((found.time_s or 0.0) + overhead_s(work, machine, levers))
    remarks = (f"{found.plunges} plunges, {work.spelled(found.step_mm)} apart",) if found.plunges > 1 else ()
    return Answer(found, found.cut, levers, (Pass(1, depth, to, dial),), sizes, time_s, "cross", remarks)


def _comes_to_length(work: Workpiece, step: Step) -> bool:
    """Whether the piece has its length once an end is faced."""
    after = work.walked["after"]
    assert isinstance(after, Mapping)
    return step.size("to") is None and bool(after["first_faced"] and after["second_faced"])


def _face(work: Workpiece, step: Step, machine: Machine) -> Answer:
    start, off = work.outside_mm, step.base("off")
    deepest = step.base("depth") or DEEPEST_PASS_MM[work.unit]
    sizes = {"start_diameter_mm": start, "off_mm": off}
    own = {"end_diameter": step.size("to"), "to": None}
    # a skim that cleans an end up is one pass, and nothing is measured before it
    close = step.size("tolerance") is not None
    if close and not _comes_to_length(work, step):
        raise DomainError("tolerance of a face is that of the length: give it where the other end is faced already")
    single = step.finishes or (off <= deepest * (1 + 1e-9) and not close)
    found = chosen_passes(work, step, machine, start, sizes, single=single, **own)
    if isinstance(found, Answer):
        return found
    slide = machine.core.slide("compound") or machine.core.slide("carriage")
    line = slide.graduation_mm if slide is not None else None
    passes = axial_passes(off, shares_of(off, pass_count(off, deepest, work), line), slide, left=True)
    depth = work.length(max(each.depth_mm for each in passes))
    cut = asked(questions.face, work, step, machine, diameter=work.length(start), depth=depth, **own)
    return cut_answer(work, step, machine, cut, passes, sizes, slide.name if slide is not None else "", found)


def _part_off(work: Workpiece, step: Step, machine: Machine) -> Answer:
    start = work.outside_mm
    diameter = work.length(start)
    cut = asked(questions.part_off, work, step, machine, diameter=diameter, stick_out=step.size("stick_out"))
    return cut_answer(work, step, machine, cut, (), {"start_diameter_mm": start, "blade_mm": step.base("blade")})


def _knurl(work: Workpiece, step: Step, machine: Machine) -> Answer:
    # the walk has found that the work is on a blank that tracks: that one is told
    diameter = work.length(work.outside_mm)
    setup = asked(knurl_setup, work, step, machine, diameter=diameter, finished=None, stick_out=None)
    levers = levers_of(setup.cut, machine)
    time_s = step.times * ((setup.cut.time_s or 0.0) + overhead_s(work, machine, levers))
    sizes = {"start_diameter_mm": work.outside_mm, "width_mm": step.base("width")}
    return Answer(setup.blank, setup.cut, levers, (), sizes, time_s, knurling=setup)


ASK: dict[str, Ask] = {
    "turn": _sized,
    "bore": _sized,
    "taper": _taper,
    "groove": _groove,
    "face": _face,
    "part off": _part_off,
    "knurl": _knurl,
}
"""The question to the core by the kind of operation."""
