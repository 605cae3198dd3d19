"""One operation of a job: what the core is asked, and its answer with levers, passes and dial readings."""

from __future__ import annotations

from dataclasses import replace

from halfnut._core import DomainError
from halfnut.machine.machines import Machine
from halfnut.planning import drilled, milled, threaded, turned
from halfnut.planning.answers import Answer
from halfnut.planning.cut_answers import place_of
from halfnut.planning.job import Bore, Face, Groove, Knurl, Mill, Operation, PartOff, Saw, Taper, Thread, Turn
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
    work.last = (machine, found.levers if found.left is None else found.left)
    work.set_to = None
    if found.chosen is not None:
        cut = found.chosen.passes[-1].cut
        work.set_to = (machine.name, place_of(cut.spindle_step), place_of(cut.feed_step))
    return found


_LATHE_ONLY = (Turn, Taper, Face, Bore, Groove, PartOff, Knurl, Thread)
_ASK = turned.ASK | threaded.ASK | drilled.ASK | milled.ASK
