"""What a plan has for an answer: levers, passes, and the records that go with an operation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from halfnut._core import Evidence, FeedLadder, Slide
from halfnut.core.fixed import Value
from halfnut.core.record import Caution, Record
from halfnut.core.words import caution
from halfnut.cutting import figures as cuts
from halfnut.cutting.chasing import Chasing
from halfnut.cutting.choosing import Passes
from halfnut.cutting.figures import Cut, DialReading, Division, Entry, Holding, Positions
from halfnut.fits import figures as fits
from halfnut.fits.cylindrical import CylindricalFit
from halfnut.fits.tapers import HoldingTaper
from halfnut.knurls import figures as knurls
from halfnut.knurls.figures import KnurlSetup
from halfnut.machine.machines import Machine
from halfnut.threads import figures as threads
from halfnut.threads.figures import OverWires
from halfnut.threads.holes import TappingHole
from halfnut.threads.standard import ThreadLimits

__all__ = ["Answer", "Levers", "Pass", "feed_ladder", "reading"]


@dataclass(frozen=True)
class Levers(Value):
    """Levers that belong together: what they are for, and where each stands."""

    group: str
    positions: tuple[tuple[str, str], ...]
    stop: bool = False
    """Whether the spindle must stand still to set them."""


@dataclass(frozen=True)
class Pass(Value):
    """One pass: its depth on the radius or along the axis, the size it leaves, and the dial from zero."""

    number: int
    depth_mm: float
    size_mm: float
    reading: DialReading | None
    """Of the dial named in the answer, set to zero where the tool touches; None where the measurement sets it."""
    measure: bool = False
    """Whether to measure before this pass."""
    levers: tuple[Levers, ...] = ()
    """To set before this pass, where they are not those of the pass before."""


@dataclass(frozen=True)
class Answer(Value):
    """The core's answer to an operation.

    Attributes
    ----------
    record : Record
        The answer itself; `cut` is the cut that goes with it, which may be the same; None without a spindle.
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
    feeds: str = ""
    """Power feeds that the cut is fed by: "carriage", "quill" or "table"."""
    remarks: tuple[str, ...] = ()
    mate: ThreadLimits | None = None
    """Of a thread: the part that usually goes with it."""
    wires: OverWires | None = None
    """Of a thread: what to read over wires or across balls."""
    chasing: Chasing | None = None
    """Of a thread cut with a single point: its passes."""
    knurling: KnurlSetup | None = None
    """Of a knurl: how it is pressed in or cut."""
    plain: CylindricalFit | None = None
    """Of a turned or bored diameter with a fit: its limits."""
    holding: Holding | None = None
    """Of turned work that stands out or is thin: how far it deflects where it is held."""
    chosen: Passes | None = None
    """Of turning, facing, boring and milling: the choice that the passes come from."""
    left: tuple[Levers, ...] | None = None
    """How the levers stand afterwards, where that is not as at first."""
    warned: tuple[Caution, ...] = ()
    """Cautions of the plan's own."""
    placed: Positions | None = None
    """Of holes with places: their coordinates and readings."""
    divided: Division | None = None
    """Of what is done at each division of a turn: how the dividing head is turned."""
    entry: Entry | None = None
    """Of a slot or a pocket: the way down to each level, where one is asked for."""

    @classmethod
    def of(cls, found: Mapping[str, Any]) -> Answer:
        """The answer as the core has it: its figures, and of each record its name and what was answered."""
        made = {name: _record_class(kind).of(held) for name, (kind, held) in found["answers"].items()}
        chosen, knurling, record = (made.pop(name, None) for name in ("chosen", "knurling", "record"))
        if chosen is not None:
            record = cut = chosen.passes[0].cut
        else:
            cut = made.pop("cut", None) or getattr(knurling or record, "cut", None)
            cut = record if cut is None and isinstance(record, Cut) else cut
            record = record or knurling.blank
        told = {**made, "record": record}
        return cls(
            record,
            cut,
            _levers(found["levers"]),
            tuple(_pass(each) for each in found["passes"]),
            {each["key"]: each["text"] or each["number"] for each in found["sizes"]},
            found["time_s"],
            found["dial"],
            found["feeds"],
            tuple(told[each["of"]].filled(each["text"]) if each["of"] else each["text"] for each in found["remarks"]),
            knurling=knurling,
            chosen=chosen,
            left=None if chosen is None else _levers(found["left"]),
            warned=tuple(caution(code, gravity=gravity, **dict(more)) for code, gravity, more in found["told"]),
            **made,
        )

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
        for other in (self.holding, self.placed, self.divided):
            found += [] if other is None else other.cautions
        return tuple(dict.fromkeys(found))

    @property
    def evidence(self) -> tuple[Evidence, ...]:
        """What all records rest on."""
        of_hold: Iterable[Evidence] = ()
        if self.holding is not None:
            of_cut = self.holding.cut.evidence
            of_hold = (item for item in self.holding.evidence if item not in of_cut)
        of_layout = (item for each in (self.placed, self.divided) if each is not None for item in each.evidence)
        return (*(item for record in self.records for item in record.evidence), *of_hold, *of_layout)

    def to_dict(self) -> dict[str, Any]:
        """Sizes, then every record's own figures."""
        out: dict[str, Any] = dict(self.sizes)
        for record in reversed(self.records):
            if record not in (self.wires, self.chasing, self.knurling, self.plain, self.chosen):
                out |= record.to_dict()
        if self.wires is not None:
            out |= {key: value for key, value in self.wires.to_dict().items() if key in _READ}
        if self.holding is not None:
            out |= _held(self.holding)
        out.pop("cautions", None)
        if self.chasing is not None:
            out["passes"] = len(self.chasing.passes)
            out["chasing_lines"] = " ".join(str(each.line) for each in self.chasing.passes)
            out["measure_at_line"] = self.chasing.stop.line
        if self.placed is not None:
            out["places"] = [[each.hole, each.x_mm, each.y_mm] for each in self.placed.places]
        if self.passes:
            out["passes"] = len(self.passes)
        if self.chosen is not None:
            out |= {key: value for key, value in self.chosen.to_dict().items() if key in _CHOSEN}
            out["limited_by"] = self.chosen.tightest
        return out


_WITH_MORE = {
    each.__name__: each for each in (Chasing, CylindricalFit, HoldingTaper, Passes, TappingHole, ThreadLimits)
}


def _record_class(name: str) -> Any:
    """The class of a record: one that has more than its figures, else as it is made of its declaration."""
    rooms = (cuts, threads, knurls, fits)
    return _WITH_MORE.get(name) or next(getattr(room, name) for room in rooms if hasattr(room, name))


def _levers(found: Iterable[Mapping[str, Any]]) -> tuple[Levers, ...]:
    return tuple(Levers(**each) for each in found)


def _pass(found: Mapping[str, Any]) -> Pass:
    reading = found["reading"] and DialReading(**found["reading"])
    return Pass(**{**found, "reading": reading, "levers": _levers(found["levers"])})


def reading(slide: Slide | None, travel_mm: float) -> DialReading | None:
    """What a slide's dial reads after a travel from zero.

    Parameters
    ----------
    slide : Slide or None
        Whose dial is read; None where the machine has no such slide.
    travel_mm : float
        From zero, mm, >= 0.

    Returns
    -------
    DialReading or None
        Whole turns and the line beyond them; None without a slide.

    Raises
    ------
    DomainError
        A negative travel.
    """
    return None if slide is None else DialReading(*slide.reading(travel_mm))


def feed_ladder(answer: Answer, machine: Machine) -> FeedLadder | None:
    """The feeds that the cut of an answer is fed by.

    Parameters
    ----------
    answer : Answer
        Whose `feeds` are looked up.
    machine : Machine
        What it is done on.

    Returns
    -------
    FeedLadder or None
        The carriage's, the quill's or the table's; None without a cut.
    """
    found: FeedLadder | None = getattr(machine.core, answer.feeds) if answer.feeds else None
    return found


# Figures of a choice of passes that a plan tells.
_CHOSEN = frozenset({"across", "depths_mm", "sizes_mm", "levers_moved"})


def _held(held: Holding) -> dict[str, Any]:
    """Figures of a Holding that a plan tells."""
    return {
        "bend_mm": held.bend.worst_mm,
        "bend_at_mm": held.bend.worst_at_mm,
        "slenderness": held.bend.slenderness,
        "jaw_force_n": held.jaw_force_n,
        "out_of_round_mm": None if held.squeeze is None else held.squeeze.out_of_round_mm,
        "warming_k": held.warming_k,
        "growth_mm": held.growth_mm,
    }


# Figures of an OverWires that a plan tells.
_READ = ("wire_mm", "over_max_mm", "over_min_mm", "coated_max_mm", "coated_min_mm")
