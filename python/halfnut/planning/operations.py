"""One operation of a job: what the core is asked, and its answer with levers, passes and dial readings."""

from __future__ import annotations

from dataclasses import replace

from halfnut._core import DomainError
from halfnut.cutting import questions
from halfnut.machine.machines import Machine
from halfnut.planning import drilled, milled, threaded, turned
from halfnut.planning.answers import Answer
from halfnut.planning.cut_answers import place_of
from halfnut.planning.job import (
    Bore,
    Face,
    Groove,
    Knurl,
    Mill,
    Operation,
    PartOff,
    Repeated,
    Saw,
    Taper,
    Thread,
    Turn,
)
from halfnut.planning.workpiece import Workpiece, size_text

__all__ = ["answer"]


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
    ask = _ASK[type(step)]
    found = ask(work, step, machine)
    if isinstance(step, Face) and step.end == "second" and step.to is None:
        length = size_text(work, work.walked["length_mm"])
        found = replace(found, remarks=(*found.remarks, f"To a length of {length} between the faces."))
    if isinstance(step, Repeated):
        found = _laid_out(found, step, machine)
    work.last = (machine, found.levers if found.left is None else found.left)
    work.set_to = None
    if found.chosen is not None:
        cut = found.chosen.passes[-1].cut
        work.set_to = (machine.name, place_of(cut.spindle_step), place_of(cut.feed_step))
    return found


# From hole to hole; source: common practice of hand mills.
_BY_DIAL_S = 30.0
_BY_READOUT_S = 12.0


def _laid_out(found: Answer, step: Repeated, machine: Machine) -> Answer:
    """The answer with the places of its holes, or the divisions, as what is read at the machine."""
    if step.divisions is not None and step.divisions > 1:
        divided = questions.divide(step.divisions, machine=machine)
        return replace(found, divided=divided, remarks=(*found.remarks, f"Divide: {divided.answer}."))
    if step.places is None:
        return found
    places = step.places
    placed = questions.positions(
        places.pattern,
        holes=places.holes,
        rows=places.rows,
        diameter=places.diameter,
        step=places.step,
        row_step=places.row_step,
        angle_deg=places.angle,
        over_deg=places.over,
        clockwise=places.clockwise,
        x=places.x,
        y=places.y,
        at=places.at,
        edge_finder=places.edge_finder,
        machine=machine if {"x", "y"} <= machine.file.slides.keys() else None,
    )
    zero = f" from {places.zero}" if places.zero else ""
    lines = (f"{label.capitalize()}{zero}: {text}." for label, text in placed.rows_of_places)
    by_dial = any(place.x_turns is not None for place in placed.places)
    between_s = _BY_DIAL_S if by_dial else _BY_READOUT_S
    time_s = found.time_s + (placed.holes - 1) * between_s
    return replace(found, placed=placed, remarks=(*found.remarks, *lines), time_s=time_s)


_LATHE_ONLY = (Turn, Taper, Face, Bore, Groove, PartOff, Knurl, Thread)
_ASK = turned.ASK | threaded.ASK | drilled.ASK | milled.ASK
