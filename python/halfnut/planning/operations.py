"""One operation of a job: what the core is asked, and its answer with levers, passes and dial readings."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, Error, Evidence, Length
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH, spans
from halfnut.core.words import LIMITS
from halfnut.core.words import caution as warning
from halfnut.cutting import hole_making, milling, tapers_and_grooves, turning
from halfnut.cutting.chasing import Chasing, chase
from halfnut.cutting.choosing import Passes, choose
from halfnut.cutting.cuts import Cut
from halfnut.cutting.gears import GearTrain
from halfnut.cutting.holding import Holding, hold
from halfnut.fits.cylindrical import CylindricalFit, cylindrical_fit
from halfnut.knurls import blanks
from halfnut.knurls.setups import KnurlSetup, knurl_setup
from halfnut.machine.dials import Reading, reading
from halfnut.machine.machines import Machine, fastest_step
from halfnut.planning.job import (
    Bore,
    Coating,
    Counterbore,
    Countersink,
    Drill,
    Face,
    Groove,
    Job,
    Knurl,
    Mill,
    Operation,
    Part,
    PartOff,
    Ream,
    Saw,
    Spot,
    Tap,
    Taper,
    Thread,
    Turn,
)
from halfnut.threads import form_holes, form_threads, gauging, holes, precoating, standard
from halfnut.threads.form_threads import FormLimits, FormThread, TaperPipe

__all__ = ["Answer", "Levers", "Pass", "Workpiece", "answer", "feed_ladder"]

_APPROACH_MM = 2.0
_REAMED = 0.85
"""Least hole over reamer that is taken for the one drilled for it."""
_DEEPEST_PASS_MM = {"in": 0.040 * MM_PER_INCH, "mm": 1.0}


@dataclass(frozen=True)
class Levers:
    """Levers that belong together: what they are for, and where each stands."""

    group: str
    positions: tuple[tuple[str, str], ...]
    stop: bool = False
    """Whether the spindle must stand still to set them."""


@dataclass(frozen=True)
class Pass:
    """One pass: its depth on the radius or along the axis, the size it leaves, and the dial from zero."""

    number: int
    depth_mm: float
    size_mm: float
    reading: Reading | None
    """Of the dial named in the answer, set to zero where the tool touches."""
    measure: bool = False
    """Whether to measure before this pass."""
    levers: tuple[Levers, ...] = ()
    """To set before this pass, where they are not those of the pass before."""


@dataclass(frozen=True)
class Answer:
    """The core's answer to an operation.

    Attributes
    ----------
    record : Record
        The answer itself; `cut` is the cut that goes with it where that is another record.
    sizes : dict
        What the operation starts from and ends at, in unit-suffixed keys.
    time_s : float
        For one piece: cutting, changes and measuring.
    """

    record: Record
    cut: Cut | None
    levers: tuple[Levers, ...]
    passes: tuple[Pass, ...]
    sizes: Mapping[str, Any]
    time_s: float
    dial: str = ""
    remarks: tuple[str, ...] = ()
    mate: standard.ThreadLimits | FormLimits | None = None
    """Of a thread: the part that usually goes with it."""
    wires: gauging.OverWires | None = None
    """Of a thread: what to read over wires or across balls."""
    chasing: Chasing | None = None
    """Of a thread cut with a single point: its passes."""
    knurling: KnurlSetup | None = None
    """Of a knurl: how it is pressed in or cut."""
    plain: CylindricalFit | None = None
    """Of a turned or bored diameter with a fit: its limits."""
    holding: Holding | None = None
    """Of turned work that stands out or is thin: how it gives way where it is held."""
    chosen: Passes | None = None
    """Of turning, facing, boring and milling: the choice that the passes come from."""
    left: tuple[Levers, ...] | None = None
    """How the levers stand afterwards, where that is not as at first."""
    warned: tuple[Caution, ...] = ()
    """Cautions of the plan's own."""

    @property
    def records(self) -> tuple[Record, ...]:
        """The record and, where there are others, wires, the way to chase or knurl, limits, passes, the cut."""
        own = (self.wires, self.chasing, self.knurling, self.plain, self.chosen)
        others = (*own, None if self.cut is self.record else self.cut)
        return (self.record, *(each for each in others if each is not None))

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """Cautions of all records, each once."""
        found = [*self.warned, *(caution for record in self.records for caution in record.cautions)]
        found += [] if self.holding is None else self.holding.cautions
        return tuple(dict.fromkeys(found))

    @property
    def evidence(self) -> tuple[Evidence, ...]:
        """What all records rest on."""
        of_hold = () if self.holding is None else self.holding.own_evidence
        return (*(item for record in self.records for item in record.evidence), *of_hold)

    def to_dict(self) -> dict[str, Any]:
        """Sizes, then every record's own figures."""
        out: dict[str, Any] = dict(self.sizes)
        for record in reversed(self.records):
            if record not in (self.wires, self.chasing, self.knurling, self.plain, self.chosen):
                out |= record.to_dict()
        if self.wires is not None:
            out |= {key: value for key, value in self.wires.to_dict().items() if key in _READ}
        if self.holding is not None:
            held = self.holding.to_dict()
            out |= {key: held[key] for key in _HELD}
        out.pop("cautions", None)
        if self.chasing is not None:
            out["passes"] = len(self.chasing.passes)
            out["chasing_lines"] = " ".join(str(each.line) for each in self.chasing.passes)
            out["measure_at_line"] = self.chasing.stop.line
        if self.passes:
            out["passes"] = len(self.passes)
        if self.chosen is not None:
            out |= {key: value for key, value in self.chosen.to_dict().items() if key in _CHOSEN}
            out["limited_by"] = self.chosen.tightest
        return out


@dataclass
class Workpiece:
    """A part as it comes from operation to operation: its running sizes."""

    part: Part
    unit: str
    coating: Coating | None
    outside_mm: dict[str, float]
    hole_mm: float | None
    last: tuple[Machine, Any] | None = field(default=None)
    """Machine and lever positions of the operation before."""
    blank_mm: float | None = field(default=None)
    """Length of the blank in the chuck, or of the whole bar that goes through the spindle."""
    set_to: tuple[str, int, int] | None = field(default=None)
    """Machine, spindle and feed step of the operation before, where it was turning, facing, boring or milling."""

    @classmethod
    def from_part(cls, job: Job, part: Part, unit: str, blank_mm: float | None = None) -> Workpiece:
        """The workpiece as sawn from its stock, of which a blank may hold several."""
        stock = part.stock
        outside = 0.0
        if stock.diameter is not None:
            outside = stock.diameter.base
        elif stock.across_flats is not None:
            outside = stock.across_flats.base / math.cos(math.radians(30))
        hole = None if stock.bore is None else stock.bore.base
        coating = None if part.coating is None else job.coatings[part.coating]
        blank = stock.bar_length.base if stock.through_spindle and stock.bar_length is not None else blank_mm
        return cls(part, unit, coating, {"first": outside, "second": outside}, hole, blank_mm=blank)

    def length(self, value_mm: float) -> Length:
        """A length in the part's own unit, so that answers come in it."""
        return Length(value_mm / MM_PER_INCH, "in") if self.unit == "in" else Length(value_mm, "mm")

    def outside(self, step: Any) -> float:
        """The running outside diameter at the end that a step works on, or the one it starts from."""
        start = getattr(step, "start", None)
        return float(start.base) if start is not None else self.outside_mm[step.end]

    def overhang(self, step: Any) -> Length | None:
        """How far the work stands out: as said, else as its longest cut at this end, the whole piece to part it off."""
        said = getattr(step, "stick_out", None)
        if said is not None and not isinstance(step, (Bore, PartOff)):
            return self.length(said.base)
        reach = 0.0
        for each in self.part.operations:
            if each.end != step.end:
                continue
            if isinstance(each, PartOff):
                reach = max(reach, self.part.length.base + each.blade.base)
            elif isinstance(each, (Turn, Taper, Thread)):
                told = getattr(each, "stick_out", None)
                reach = max(reach, each.length.base, 0.0 if told is None else told.base)
            elif isinstance(each, Knurl):
                reach = max(reach, each.width.base)
        if getattr(step, "hold", "chuck") == "between centres":
            reach = max(reach, self.part.length.base)
        return self.length(reach) if reach > 0.0 else None

    def held(self, step: Any, machine: Machine) -> dict[str, Any]:
        """How the work is held on a lathe: its stock, and what of it stands in or behind the spindle."""
        stock = self.part.stock
        if machine.kind != "lathe" or stock.form == "plate":
            return {}
        size_mm = stock.across_flats.base if stock.across_flats is not None else self.outside_mm[step.end]
        if stock.across_flats is None and stock.diameter is not None:
            size_mm = max(size_mm, stock.diameter.base)
        size: Any = self.length(size_mm)
        out: dict[str, Any] = {"stock": f"{size} hex" if stock.across_flats is not None else size}
        fits = not size_mm > machine.core.spindle_bore_mm
        if self.blank_mm is not None and (stock.through_spindle or fits):
            out["bar_length"] = self.length(self.blank_mm)
        return out

    def turned(self, step: Any, diameter_mm: float, length_mm: float) -> None:
        """Note that the outside was turned down; over the whole length it holds for both ends."""
        self.outside_mm[step.end] = diameter_mm
        if length_mm >= self.part.length.base:
            self.outside_mm = dict.fromkeys(self.outside_mm, diameter_mm)


# Figures of a choice of passes that a plan tells.
_CHOSEN = frozenset({"across", "depths_mm", "sizes_mm", "levers_moved"})

# Figures of a Holding and of an OverWires that a plan tells.
_HELD = ("bend_mm", "bend_at_mm", "slenderness", "jaw_force_n", "out_of_round_mm", "warming_k", "growth_mm")
_READ = ("wire_mm", "over_max_mm", "over_min_mm", "coated_max_mm", "coated_min_mm")


def answer(work: Workpiece, step: Operation, machine: Machine) -> Answer:
    """Ask the core about one operation, and note what the operation leaves of the work.

    Raises
    ------
    Error
        The core's reason why there is no answer; the workpiece is then as it was.
    """
    if machine.kind != "lathe" and isinstance(step, _LATHE_ONLY):
        raise DomainError(f"{machine.name} is a {machine.kind}; {step.do} needs a lathe")
    if machine.kind == "lathe" and isinstance(step, (Mill, Saw)):
        raise DomainError(f"{machine.name} is a lathe; {step.do} needs a milling machine")
    ask: Callable[[Workpiece, Any, Machine], Answer] = _ASK[type(step)]
    found = ask(work, step, machine)
    work.last = (machine, found.levers if found.left is None else found.left)
    work.set_to = None
    if found.chosen is not None:
        cut = found.chosen.passes[-1].cut
        work.set_to = (machine.name, _place(cut.spindle_step), _place(cut.feed_step))
    return found


def _place(step: int | None) -> int:
    return -1 if step is None else step


def _turn(work: Workpiece, step: Turn, machine: Machine) -> Answer:
    start, plain = work.outside(step), _plain(work, step, "shaft")
    to, remarks = _aimed(work, step, plain)
    if not to < start:
        raise DomainError(f"to must be less than the running diameter, {_size(work, start)}, got {_size(work, to)}")
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": step.length.base}
    how: dict[str, Any] = {
        "tool": step.tool or work.part.tool,
        "nose_radius": step.nose_radius,
        "hold": step.hold,
        "chuck": step.holding,
        "stick_out": work.overhang(step),
        "steadies": step.steadies,
        "bore": None if work.hole_mm is None else work.length(work.hole_mm),
        "roughness_um": None if step.roughness is None else step.roughness.base * 1000,
        **work.held(step, machine),
    }
    question: dict[str, Any] = {
        "to": work.length(to),
        "length": step.length,
        "single": step.finish,
        "deepest": step.depth,
        "tolerance": _tolerance(work, step, plain),
        **how,
    }
    found = _chosen(work, step, machine, "turn", work.length(start), question, sizes)
    if isinstance(found, str):
        passes = _passes(start, to, work, step, machine.core.slide("cross"))
        cut = turning.turn(
            work.part.alloy,
            work.length(start),
            depth=work.length(max(each.depth_mm for each in passes)),
            length=step.length,
            machine=machine,
            finish=step.finish,
            **how,
        )
        found = _cut_answer(work, step, machine, cut, passes, sizes, "cross", found)
    assert found.cut is not None
    found = replace(found, holding=_holding(work, step, machine, start, found.cut))
    work.turned(step, to, step.length.base)
    return replace(found, plain=plain, remarks=(*found.remarks, *remarks))


def _holding(work: Workpiece, step: Turn, machine: Machine, start_mm: float, cut: Cut) -> Holding | None:
    """How the work gives way, where it was said how far it stands out."""
    if step.stick_out is None:
        return None
    part = work.part
    return hold(
        part.alloy,
        work.length(start_mm),
        stick_out=step.stick_out,
        bore=None if work.hole_mm is None else work.length(work.hole_mm),
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
    start, to = work.outside(step), step.to.base
    if not to < start:
        raise DomainError(f"to must be less than the running diameter, {_size(work, start)}, got {_size(work, to)}")
    passes = _passes(start, to, work, step, machine.core.slide("cross"))
    found = tapers_and_grooves.taper(
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
        bore=None if work.hole_mm is None else work.length(work.hole_mm),
        **work.held(step, machine),
    )
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": step.length.base}
    out = _cut_answer(work, step, machine, found.cut, passes, sizes, "cross")
    return replace(out, record=found, remarks=(found.setting, found.proof))


def _groove(work: Workpiece, step: Groove, machine: Machine) -> Answer:
    start, to = work.outside(step), step.to.base
    if not to < start:
        raise DomainError(f"to must be less than the running diameter, {_size(work, start)}, got {_size(work, to)}")
    found = tapers_and_grooves.groove(
        work.part.alloy,
        work.length(start),
        step.to,
        width=step.width,
        blade=step.blade,
        machine=machine,
        tool=step.tool or work.part.tool,
        chuck=step.holding,
        bore=None if work.hole_mm is None else work.length(work.hole_mm),
        **work.held(step, machine),
    )
    slide = machine.core.slide("cross")
    depth = (start - to) / 2
    dial = None if slide is None else reading(slide, 2 * depth)
    wide = step.blade.base if step.width is None else step.width.base
    sizes = {"start_diameter_mm": start, "to_diameter_mm": to, "length_mm": wide}
    levers = _levers(found.cut, machine)
    time_s = step.times * ((found.time_s or 0.0) + _overhead(work, machine, levers, found.cut, 1))
    remarks = (f"{found.plunges} plunges, {_size(work, found.step_mm)} apart",) if found.plunges > 1 else ()
    passes = (Pass(1, depth, to, dial),)
    return Answer(found, found.cut, levers, passes, sizes, time_s, dial="cross", remarks=remarks)


def _bore(work: Workpiece, step: Bore, machine: Machine) -> Answer:
    start = step.start.base if step.start is not None else work.hole_mm
    if start is None:
        raise DomainError("there is no hole to bore out: drill it before, or say start")
    plain = _plain(work, step, "hole")
    to, remarks = _aimed(work, step, plain)
    if not to > start:
        raise DomainError(f"to must be more than the running hole, {_size(work, start)}, got {_size(work, to)}")
    outside = work.outside_mm[step.end]
    if not to < outside:
        raise DomainError(f"to must be less than the outside, {_size(work, outside)}, got {_size(work, to)}")
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
        "single": step.finish,
        "deepest": step.depth,
        "stick_out": step.stick_out,
        "tolerance": _tolerance(work, step, plain),
        **how,
    }
    found = _chosen(work, step, machine, "bore", work.length(start), question, sizes)
    if isinstance(found, str):
        passes = _passes(start, to, work, step, machine.core.slide("cross"))
        cut = turning.bore(
            work.part.alloy,
            work.length(to),
            depth=work.length(max(each.depth_mm for each in passes)),
            length=step.length,
            machine=machine,
            finish=step.finish,
            overhang=step.stick_out,
            **how,
        )
        found = _cut_answer(work, step, machine, cut, passes, sizes, "cross", found)
    work.hole_mm = to
    return replace(found, plain=plain, remarks=(*found.remarks, *remarks))


def _plain(work: Workpiece, step: Turn | Bore, side: str) -> CylindricalFit | None:
    """Limits of the class that a turned or bored diameter is to have."""
    if step.fit is None:
        return None
    coat = None if work.coating is None else work.coating.surface
    outer = side == "shaft"
    found = cylindrical_fit(
        f"{step.to} {step.fit}", hole_build_up=None if outer else coat, shaft_build_up=coat if outer else None
    )
    if getattr(found, side) is None:
        what = "a turned diameter needs a shaft, such as 'g6'" if outer else "a bore needs a hole, such as 'H7'"
        raise DomainError(f"fit: {what}, got {step.fit!r}")
    return found


def _tolerance(work: Workpiece, step: Turn | Bore, plain: CylindricalFit | None) -> Any:
    """Tolerance of the diameter: as the job says, else that of its class."""
    if step.tolerance is not None or plain is None:
        return step.tolerance
    part = plain.hole if isinstance(step, Bore) else plain.shaft
    return None if part is None else work.length(part.max_mm - part.min_mm)


def _aimed(work: Workpiece, step: Turn | Bore, plain: CylindricalFit | None) -> tuple[float, tuple[str, ...]]:
    """Diameter to cut to, mm, and what the sheet says of it: the middle of the limits where there is a fit."""
    if plain is None:
        return step.to.base, ()
    side = "hole" if isinstance(step, Bore) else "shaft"
    part = plain.hole if side == "hole" else plain.shaft
    assert part is not None
    said = f"Limits of {step.fit}: {part.sizes()}."
    low, high = part.min_mm, part.max_mm
    if work.coating is not None and work.coating.surface.max_um > 0.0:
        cut = plain.cut_to_mm(side)
        if cut is None:
            raise DomainError(
                f"fit: no size keeps {step.fit} once coated; {work.coating.title} varies by more than the tolerance"
            )
        low, high = cut
        said = f"{said[:-1]} once coated; cut {spans(low, high, work.unit)} before it."
    return 0.5 * (low + high), (said,)


def _face(work: Workpiece, step: Face, machine: Machine) -> Answer:
    start = work.outside(step)
    deepest = step.depth.base if step.depth is not None else _DEEPEST_PASS_MM[work.unit]
    sizes = {"start_diameter_mm": start, "off_mm": step.off.base}
    how: dict[str, Any] = {
        "end_diameter": step.to,
        "tool": step.tool or work.part.tool,
        "nose_radius": step.nose_radius,
        "chuck": step.holding,
        "stick_out": work.overhang(step),
        "bore": None if work.hole_mm is None else work.length(work.hole_mm),
        "roughness_um": None if step.roughness is None else step.roughness.base * 1000,
        **work.held(step, machine),
    }
    # a skim that cleans an end up is one pass, and nothing is measured before it
    single = step.finish or step.off.base <= deepest * (1 + 1e-9)
    question: dict[str, Any] = {"off": step.off, "single": single, "deepest": step.depth, **how}
    found = _chosen(work, step, machine, "face", work.length(start), question, sizes)
    if isinstance(found, Answer):
        return found
    slide = machine.core.slide("compound") or machine.core.slide("carriage")
    count = _pass_count(step.off.base, deepest, work)
    depths = _shares(step.off.base, count, slide.graduation_mm if slide is not None else None)
    passes = tuple(
        Pass(n + 1, depths[n] - (depths[n - 1] if n else 0.0), step.off.base - depths[n], _axial(slide, depths[n]))
        for n in range(count)
    )
    cut = turning.face(
        work.part.alloy,
        work.length(start),
        depth=work.length(max(each.depth_mm for each in passes)),
        machine=machine,
        finish=step.finish,
        **how,
    )
    return _cut_answer(work, step, machine, cut, passes, sizes, slide.name if slide is not None else "", found)


def _part_off(work: Workpiece, step: PartOff, machine: Machine) -> Answer:
    start = work.outside_mm[step.end]
    cut = turning.part_off(
        work.part.alloy,
        work.length(start),
        blade=step.blade,
        machine=machine,
        tool=step.tool or work.part.tool,
        chuck=step.holding,
        stick_out=step.stick_out,
        bore=None if work.hole_mm is None else work.length(work.hole_mm),
        **work.held(step, machine),
    )
    return _cut_answer(work, step, machine, cut, (), {"start_diameter_mm": start, "blade_mm": step.blade.base}, "")


def _thread(work: Workpiece, step: Thread, machine: Machine) -> Answer:
    named = form_threads.thread(step.thread)
    if isinstance(named, FormThread) and form_threads.tapers(named):
        return _taper_thread(work, step, machine, named)
    side = "external" if step.side == "outside" else "internal"
    other = "internal" if side == "external" else "external"
    if getattr(named, f"has_{other}") and not getattr(named, f"has_{side}"):
        raise DomainError(f"{step.thread} is the class of an {other} thread, and side is {step.side}")
    thread = getattr(named, side)
    limits: standard.ThreadLimits | FormLimits
    mate: standard.ThreadLimits | FormLimits
    if isinstance(named, FormThread):
        limits = _form_limits_to_cut(work, thread, step.engagement, side)
        mate = form_threads.form_limits(named.part(other), other, engagement=step.engagement)
    else:
        limits = _limits_to_cut(work, thread, step.engagement)
        mate = standard.limits(standard.mate(named, other), engagement=step.engagement)
    blank = None if side == "internal" else _blank_to_chase(work, step, limits)
    chasing = _chase(work, step, machine, limits, blank)
    found = _chased(work, step, machine, thread, limits, chasing, _coating_remarks(work, limits))
    return replace(found, mate=mate, wires=_over_wires(limits))


def _taper_thread(work: Workpiece, step: Thread, machine: Machine, thread: FormThread) -> Answer:
    """A taper pipe thread: no limits of size and no mate to draw, but a cone, and a gauge to try it with."""
    inner = thread.prefix == "Rc"
    if inner != (step.side == "inside"):
        other = "Rc, or is tapped" if step.side == "inside" else "R or NPT"
        raise DomainError(f"{step.thread} is not cut {step.side}: there the thread is {other}")
    pipe = form_threads.taper_pipe(thread)
    chasing = _chase(work, step, machine, thread, None)
    said = []
    needed = max(pipe.effective_length_mm or 0.0, pipe.hand_engagement_mm)
    if step.length.base < needed - 1e-9:
        said.append(f"The length is less than the {_size(work, needed)} of full thread that the standard asks for.")
    if work.coating is not None:
        said.append(f"{work.coating.title}: mask the thread; no standard gives a taper thread room for a coating.")
    return _chased(work, step, machine, thread, pipe, chasing, said)


def _chase(work: Workpiece, step: Thread, machine: Machine, thread: Any, blank: Length | None) -> Chasing:
    return chase(
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
    levers = [*_levers(cut, machine)[:1], *train]
    # the carriage is wound back as fast as it went; two passes without infeed before each measurement
    strokes = 2 * (len(chasing.passes) + 4) * chasing.starts
    return Answer(
        record,
        cut,
        tuple(levers),
        (),
        {"thread": str(thread), "side": chasing.side, "length_mm": step.length.base, "lead_mm": thread.lead_mm},
        step.times * (_overhead(work, machine, tuple(levers), cut, 2) + strokes * (cut.time_s or 0.0)),
        remarks=(*remarks, *about_gears, *said),
        chasing=chasing,
    )


def _blank_to_chase(work: Workpiece, step: Thread, limits: standard.ThreadLimits | FormLimits) -> Length | None:
    """What the end was turned to, where that is within the limits of the major diameter."""
    turned = work.outside_mm[step.end]
    scale = MM_PER_INCH if limits.unit == "in" else 1.0
    low, high = limits.major_min, limits.major_max
    if low is None or high is None or not low * scale - 1e-9 <= turned <= high * scale + 1e-9:
        return None
    return work.length(turned)


def _knurl(work: Workpiece, step: Knurl, machine: Machine) -> Answer:
    diameter = work.outside_mm[step.end] if step.diameter is None else step.diameter.base
    blank = blanks.knurl_blank(
        work.length(diameter),
        step.pitch,
        pattern=step.pattern,
        finished=step.finished,
        process=step.process,
        prefer="below" if diameter <= work.outside_mm[step.end] and not step.finished else "nearest",
        width=step.width,
    )
    setup = knurl_setup(
        blank,
        work.part.alloy,
        width=step.width,
        wheels=step.wheels,
        bore=None if work.hole_mm is None else work.length(work.hole_mm),
        hole=step.hole,
        machine=machine,
        chuck=step.holding,
        **work.held(step, machine),
    )
    cut = setup.cut
    passes: tuple[Pass, ...] = ()
    running = work.outside_mm[step.end]
    slide = machine.core.slide("cross")
    if blank.blank_diameter_mm < running - 1e-9:
        depth = (running - blank.blank_diameter_mm) / 2
        dial = None if slide is None else reading(slide, 2 * depth)
        passes = (Pass(1, depth, blank.blank_diameter_mm, dial, measure=True),)
    elif blank.blank_diameter_mm > running + 1e-9:
        raise DomainError(
            f"the knurl needs a blank of {_size(work, blank.blank_diameter_mm)}, more than the running diameter, "
            f"{_size(work, running)}"
        )
    levers = _levers(cut, machine)
    time_s = step.times * ((cut.time_s or 0.0) + _overhead(work, machine, levers, cut, 1))
    sizes = {"start_diameter_mm": running, "width_mm": step.width.base}
    work.outside_mm[step.end] = blank.finished_diameter_mm
    return Answer(blank, cut, levers, passes, sizes, time_s, dial="cross" if passes else "", knurling=setup)


def _drill(work: Workpiece, step: Drill, machine: Machine) -> Answer:
    pilot = _hole_before(work, step, machine)
    depth = _hole_depth(work, step)

    cut = hole_making.drill(
        work.part.alloy,
        step.diameter,
        depth=work.length(depth),
        machine=machine,
        tool=step.tool or work.part.tool,
        pilot=None if pilot is None else work.length(pilot),
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    found = _hole_answer(work, step, machine, cut, cut, {"diameter_mm": step.diameter.base, "depth_mm": depth})
    work.hole_mm = step.diameter.base
    return found


def _spot(work: Workpiece, step: Spot, machine: Machine) -> Answer:
    cut = hole_making.spot(
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
    cut = hole_making.countersink(
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
    cut = hole_making.counterbore(
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
    if step.hole is not None:
        return work.length(step.hole.base)
    if work.hole_mm is None:
        raise DomainError(f"there is no hole to {step.do}: drill it before, or say hole")
    return work.length(work.hole_mm)


def _ream(work: Workpiece, step: Ream, machine: Machine) -> Answer:
    before = _hole_before(work, step, machine)
    if before is None and machine.kind == "lathe":
        raise DomainError("there is no hole to ream: drill it before")
    depth = _hole_depth(work, step)

    cut = hole_making.ream(
        work.part.alloy,
        step.diameter,
        depth=work.length(depth),
        hole=_hole_to_ream(work, step, before),
        machine=machine,
        tool=step.tool or work.part.tool,
        chuck=step.holding,
        approach=work.length(_APPROACH_MM),
        **_drilled(work, step, machine),
    )
    found = _hole_answer(work, step, machine, cut, cut, {"diameter_mm": step.diameter.base, "depth_mm": depth})
    work.hole_mm = step.diameter.base
    return found


def _tap(work: Workpiece, step: Tap, machine: Machine) -> Answer:
    thread = form_threads.thread(step.thread).internal
    if work.hole_mm is not None and work.hole_mm >= thread.diameter_mm:
        raise DomainError(f"the hole, {_size(work, work.hole_mm)}, is too large for {step.thread}")
    depth = _hole_depth(work, step)
    limits: standard.ThreadLimits | FormLimits | TaperPipe
    if not isinstance(thread, FormThread):
        limits = _limits_to_cut(work, thread, None)
        hole_said = _tap_hole_remarks(work, step, thread, limits)
    elif form_threads.tapers(thread):
        limits = form_threads.taper_pipe(thread)
        hole_said = _taper_hole_remarks(work, step, thread, limits)
    else:
        limits = _form_limits_to_cut(work, thread, None, "internal")
        hole_said = _form_hole_remarks(work, step, thread, limits)
    cut = hole_making.tap(
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
    remarks = (*hole_said, *_coating_remarks(work, limits))
    return _hole_answer(work, step, machine, limits, cut, sizes, remarks)


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
    found = _chosen(work, step, machine, f"mill {step.shape}", step.cutter, question, sizes)
    if isinstance(found, Answer):
        assert found.cut is not None
        way = _entry(work, step, machine, found.cut)
        if way is None:
            return found
        down_s = step.times * len(found.passes) * way.time_s
        return replace(found, remarks=(*found.remarks, way.said), time_s=found.time_s + down_s)
    cut = milling.mill(
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
    depths = _shares(total, count, None if slide is None else slide.graduation_mm)
    passes = tuple(
        Pass(n + 1, depth - (depths[n - 1] if n else 0.0), depth, _axial(slide, depth))
        for n, depth in enumerate(depths)
    )
    levers = _levers(cut, machine)
    down_s = 0.0 if entry is None else count * entry.time_s
    time_s = step.times * ((cut.time_s or 0.0) + down_s + _overhead(work, machine, levers, cut, 1))
    dial = "" if slide is None else slide.name
    remarks = _across_remark(work, machine, step, cut.passes_across) + (() if entry is None else (entry.said,))
    warned = (warning("equal_passes", why=found),)
    return Answer(cut, cut, levers, passes, sizes, time_s, dial=dial, remarks=remarks, warned=warned)


def _entry(work: Workpiece, step: Mill, machine: Machine, cut: Cut) -> milling.Entry | None:
    """The way down to each level, where the job asks for one."""
    if step.entry is None:
        return None
    if step.shape not in {"slot", "pocket"}:
        raise DomainError(f"entry is for a slot or a pocket, and shape is {step.shape}")
    angle = {} if step.entry_angle is None else {"angle_deg": step.entry_angle}
    return milling.ramp(
        work.part.alloy,
        step.cutter,
        work.length(cut.depth_mm or step.depth.base),
        flutes=step.flutes,
        machine=machine,
        tool=step.tool or work.part.tool,
        **angle,
    )


def _saw(work: Workpiece, step: Saw, machine: Machine) -> Answer:
    cut = milling.saw(
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
    levers = _levers(cut, machine)
    time_s = step.times * ((cut.time_s or 0.0) + _overhead(work, machine, levers, cut, 1))
    return Answer(cut, cut, levers, (), sizes, time_s)


def _across_remark(work: Workpiece, machine: Machine, step: Mill, across: int) -> tuple[str, ...]:
    if across < 2:
        return ()
    over = step.width.base / across
    slide = machine.core.slide("y")
    dial = f"; y dial {reading(slide, travel_mm=over)} each" if slide is not None else ""
    return (f"{across} passes across, {_size(work, over)} apart{dial}",)


def _drilled(work: Workpiece, step: Any, machine: Machine) -> dict[str, Any]:
    """How work is held in a lathe that a hole is made in."""
    held = work.held(step, machine)
    return held and held | {"stick_out": work.overhang(step)}


def _hole_to_ream(work: Workpiece, step: Ream, before: float | None) -> Length | None:
    """The hole that the reamer follows; on a mill the last one drilled, where it is a little smaller."""
    hole = work.hole_mm if before is None else before
    if hole is None or not _REAMED <= hole / step.diameter.base < 1.0:
        return None
    return work.length(hole)


def _hole_before(work: Workpiece, step: Drill | Ream, machine: Machine) -> float | None:
    """The hole on the axis that a drill or a reamer follows; on a mill every hole is a new one."""
    if machine.kind != "lathe" or work.hole_mm is None:
        return None
    if work.hole_mm >= step.diameter.base:
        raise DomainError(
            f"diameter must be more than the running hole, {_size(work, work.hole_mm)}, "
            f"got {_size(work, step.diameter.base)}"
        )
    return work.hole_mm


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
            Pass(n + 1, each - (reached[n - 1] if n else 0.0), each, _axial(slide, each))
            for n, each in enumerate(reached)
        )
    levers = _levers(cut, machine)
    time_s = step.times * (cut.time_s or 0.0) + _overhead(work, machine, levers, cut, 1)
    return Answer(record, cut, levers, passes, sizes, time_s, dial="" if slide is None else slide.name, remarks=remarks)


def _tap_hole_remarks(
    work: Workpiece, step: Tap, thread: standard.Thread, limits: standard.ThreadLimits
) -> tuple[str, ...]:
    to_mm = MM_PER_INCH if limits.unit == "in" else 1.0
    low_mm, high_mm = (to_mm * size for size in (limits.minor_min, limits.minor_max) if size is not None)

    def within(size_mm: float) -> bool:
        return low_mm - 1e-9 <= size_mm <= high_mm + 1e-9

    hole = holes.tapping_hole(thread)
    if not within(hole.drill_mm):  # a coating moves the limits: aim between them
        middle = holes.thread_percent(thread.diameter_mm, thread.pitch_mm, (low_mm + high_mm) / 2)
        hole = holes.tapping_hole(thread, percent=middle)
    text = f"Hole before tapping: {_size(work, low_mm)} to {_size(work, high_mm)}"
    if within(hole.drill_mm):
        text += f"; drill {_drill_words(work, hole)}, for {hole.percent:.0f} % of thread"
    else:
        text += "; no drill of the set keeps that: bore or ream it"
    if work.hole_mm is not None:
        percent = holes.thread_percent(thread.diameter_mm, thread.pitch_mm, work.hole_mm)
        state = "within" if within(work.hole_mm) else "outside"
        text += f"; the hole drilled, {_size(work, work.hole_mm)}, is {state}: {percent:.0f} %"
    return (text, *_blind_remarks(work, step, thread, hole))


def _drill_words(work: Workpiece, hole: holes.Drilled) -> str:
    return hole.drill if hole.drill.endswith(work.unit) else f"{hole.drill}, {_size(work, hole.drill_mm)}"


def _blind_remarks(
    work: Workpiece, step: Tap, thread: standard.Thread | FormThread, hole: holes.Drilled
) -> tuple[str, ...]:
    if step.depth is None:
        return ()
    blind = holes.blind_hole(thread, full_thread=work.length(step.depth.base), drill=hole)
    return (
        f"Blind: drill {_size(work, blind.drill_depth_mm)} deep at full diameter for "
        f"{_size(work, blind.full_thread_mm)} of full thread with a plug tap; "
        f"{_size(work, blind.total_depth_mm)} to the drill's point",
    )


def _form_hole_remarks(work: Workpiece, step: Tap, thread: FormThread, limits: FormLimits) -> tuple[str, ...]:
    """Of a parallel thread beside ISO metric and Unified; a coating moves the limits with it."""
    hole = form_holes.form_hole(thread)
    assert isinstance(hole, form_holes.FormHole) and limits.minor_min_mm is not None
    moved = limits.minor_min_mm - hole.hole_min_mm
    if moved > 0.0:
        hole = form_holes.form_hole(thread, larger_mm=moved)
        assert isinstance(hole, form_holes.FormHole)
    text = f"Hole before tapping: {_size(work, hole.hole_min_mm)} to {_size(work, hole.hole_max_mm)}"
    if hole.in_limits:
        text += f"; drill {_drill_words(work, hole)}, for {hole.percent:.0f} % of the form's height"
    else:
        text += "; no drill of the set keeps that: bore or ream it"
    if work.hole_mm is not None:
        within = hole.hole_min_mm - 1e-9 <= work.hole_mm <= hole.hole_max_mm + 1e-9
        text += f"; the hole drilled, {_size(work, work.hole_mm)}, is {'within' if within else 'outside'}"
    return (text, *_blind_remarks(work, step, thread, hole))


def _taper_hole_remarks(work: Workpiece, step: Tap, thread: FormThread, pipe: TaperPipe) -> tuple[str, ...]:
    hole = form_holes.form_hole(thread)
    assert isinstance(hole, form_holes.TaperHole)
    before = _drill_words(work, replace(hole, drill=hole.ream_drill, drill_mm=hole.ream_drill_mm))
    text = f"Hole before tapping: drill {_drill_words(work, hole)} straight"
    text += f"; or drill {before}, and ream 1:16 to {_size(work, hole.hole_at_face_mm)} at the mouth"
    if work.hole_mm is not None:
        fits = work.hole_mm <= hole.hole_at_face_mm + 1e-9
        text += f"; the hole drilled, {_size(work, work.hole_mm)}, is {'small enough' if fits else 'too large'}"
    low, high = (pipe.hand_turns + sign * pipe.tolerance_turns for sign in (-1, 1))
    out = [text, f"Tap until the plug gauge goes in {low:.1f} to {high:.1f} turns by hand"]
    depth_mm = form_holes.taper_depth_mm(thread)
    if step.depth is not None and step.depth.base < depth_mm:
        out.append(f"Depth is less than hand engagement and wrench turns, {_size(work, depth_mm)}")
    return tuple(out)


_LATHE_ONLY = (Turn, Taper, Face, Bore, Groove, PartOff, Knurl, Thread)
_ASK: dict[type, Callable[[Workpiece, Any, Machine], Answer]] = {
    Turn: _turn,
    Taper: _taper,
    Groove: _groove,
    Spot: _spot,
    Countersink: _countersink,
    Counterbore: _counterbore,
    Saw: _saw,
    Face: _face,
    Bore: _bore,
    PartOff: _part_off,
    Thread: _thread,
    Knurl: _knurl,
    Drill: _drill,
    Ream: _ream,
    Tap: _tap,
    Mill: _mill,
}


def _chosen(
    work: Workpiece,
    step: Any,
    machine: Machine,
    do: str,
    diameter: Any,
    question: Mapping[str, Any],
    sizes: Mapping[str, Any],
) -> Answer | str:
    """The answer from the fastest passes within every limit; or why there are none."""
    now = (-1, -1)
    if work.set_to is not None and work.set_to[0] == machine.name:
        now = work.set_to[1:]
    try:
        found = choose(do, work.part.alloy, diameter, machine=machine, now=now, explain=False, **question)
    except Error as error:
        return str(error)
    if not found.found:
        return ", ".join(LIMITS[name] for name in found.relaxations) or "none of them alone"
    passes = []
    before: tuple[Levers, ...] = ()
    for each in found.passes:
        levers = _levers(each.cut, machine)
        # facing tells what is still on, the others what is reached
        size = sizes["off_mm"] - each.after_mm if do == "face" else each.after_mm
        other = levers if before and levers != before else ()
        passes.append(Pass(each.number, each.depth_mm, size, each.reading, each.measure_before, other))
        before = levers
    first = found.passes[0].cut
    remarks = _across_remark(work, machine, step, found.across) if do.startswith("mill") else ()
    time_s = step.times * ((found.time_s or 0.0) + machine.core.tool_change_s)
    return Answer(
        first,
        first,
        _levers(first, machine),
        tuple(passes),
        sizes,
        time_s,
        dial=found.dial,
        remarks=remarks,
        chosen=found,
        left=before,
    )


def _cut_answer(
    work: Workpiece,
    step: Any,
    machine: Machine,
    cut: Cut,
    passes: tuple[Pass, ...],
    sizes: Mapping[str, Any],
    dial: str,
    why: str = "",
) -> Answer:
    levers = _levers(cut, machine)
    count = max(1, len(passes))
    measured = sum(each.measure for each in passes) + 1
    time_s = step.times * (count * (cut.time_s or 0.0) + _overhead(work, machine, levers, cut, measured))
    warned = (warning("equal_passes", why=why),) if why else ()
    return Answer(cut, cut, levers, passes, sizes, time_s, dial=dial, warned=warned)


def _overhead(work: Workpiece, machine: Machine, levers: tuple[Levers, ...], cut: Cut, measured: int) -> float:
    """Seconds for the tool, the levers that differ from the operation before, and measuring."""
    core = machine.core
    before = () if work.last is None or work.last[0] is not machine else work.last[1]
    seconds = core.tool_change_s + measured * core.measure_s
    for group in levers:
        if group.positions and group not in before:
            seconds += core.stop_change_s if group.stop else core.lever_change_s
    return float(seconds)


def _levers(cut: Cut, machine: Machine) -> tuple[Levers, ...]:
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


def _passes(start_mm: float, to_mm: float, work: Workpiece, step: Any, slide: _core.Slide | None) -> tuple[Pass, ...]:
    """Equal passes on the radius, each but the last ending on a line of the dial; the last is measured before."""
    total = abs(start_mm - to_mm) / 2
    deepest = step.depth.base if step.depth is not None else _DEEPEST_PASS_MM[work.unit]
    count = 1 if step.finish else _pass_count(total, deepest, work)
    line = None if slide is None else slide.graduation_mm / (2 if slide.reads_diameter else 1)
    depths = _shares(total, count, line)
    sign = -2 if to_mm < start_mm else 2
    out = []
    for n, depth in enumerate(depths):
        dial = None if slide is None else reading(slide, 2 * depth)
        before = depths[n - 1] if n else 0.0
        out.append(Pass(n + 1, depth - before, start_mm + sign * depth, dial, measure=count > 1 and n == count - 1))
    return tuple(out)


def _pass_count(total_mm: float, deepest_mm: float, work: Workpiece) -> int:
    """Passes of at most a depth that take a depth in all; a depth that needs too many is refused."""
    count = max(1, math.ceil(total_mm / deepest_mm - 1e-9))
    most: int = _core.bounds()["passes"]
    if count > most:
        raise DomainError(
            f"depth, {work.length(deepest_mm)}, makes {count} passes; at most {most}, so at least "
            f"{_size(work, total_mm / most)}"
        )
    return count


def _shares(total_mm: float, count: int, line_mm: float | None) -> list[float]:
    """Depths reached after each of equal passes; all but the last on a line, the last two as equal as lines allow."""
    depths = [total_mm * (n + 1) / count for n in range(count)]
    if line_mm is not None:
        depths[:-1] = [round(depth / line_mm) * line_mm for depth in depths[:-1]]
        if count > 1:
            before = depths[-3] if count > 2 else 0.0
            depths[-2] = round((before + total_mm) / 2 / line_mm) * line_mm
    return depths


def _axial(slide: _core.Slide | None, travel_mm: float) -> Reading | None:
    return None if slide is None else reading(slide, travel_mm=travel_mm)


def _thread_cut(work: Workpiece, step: Thread, machine: Machine, thread: Any, spindle_rpm: float | None) -> Cut:
    return turning.thread_speed(
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


def _limits_to_cut(work: Workpiece, thread: standard.Thread, engagement: Any) -> standard.ThreadLimits:
    """Limits to cut a thread to: those of its class, or those before the part's coating."""
    if work.coating is None:
        return standard.limits(thread, engagement=engagement)
    return precoating.precoat(thread, work.coating.surface, engagement=engagement, on=work.part.alloy)


def _form_limits_to_cut(work: Workpiece, thread: FormThread, engagement: Any, side: str) -> FormLimits:
    """The same of a trapezoidal, Acme, pipe or Whitworth thread."""
    bare = form_threads.form_limits(thread, side, engagement=engagement)
    return bare if work.coating is None else form_threads.coated_limits(bare, work.coating.surface)


def _over_wires(limits: standard.ThreadLimits | FormLimits) -> gauging.OverWires | None:
    """What to read; nothing where no wire or ball measures the thread."""
    try:
        return gauging.wires(limits)
    except DomainError:
        return None


def _coating_remarks(work: Workpiece, limits: standard.ThreadLimits | FormLimits | TaperPipe) -> list[str]:
    if not isinstance(limits, precoating.PrecoatLimits) or limits.way == "bare":
        return []
    assert work.coating is not None
    out = [f"{work.coating.title}: {limits.said}. Cut to the sizes before coating, gauge the coated part at its own."]
    return [*out, *(f"Or: {remedy}." for remedy in limits.remedies)]


def _size(work: Workpiece, value_mm: float) -> str:
    return f"{value_mm / MM_PER_INCH:.4f} in" if work.unit == "in" else f"{value_mm:.3f} mm"
