"""A job walked by the core: the work after each operation, and every mistake with its line in the job's file."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from halfnut import _core
from halfnut._core import Error
from halfnut.core.catalogue import active
from halfnut.core.fixed import Value
from halfnut.core.words import Caution
from halfnut.cutting.questions import positions
from halfnut.machine import machines
from halfnut.planning.asking import put
from halfnut.planning.job import Adjuster, AdjusterSecond, Job, Joint, Part, Pattern, Step
from halfnut.planning.job_lines import line_of, lines_of

__all__ = ["JobMistake", "WalkedPart", "as_walked", "walk"]


@dataclass(frozen=True)
class JobMistake(Value):
    """What is wrong with an operation, or with a part as a whole.

    Attributes
    ----------
    operation : int
        Its number, 10, 20, ...; 0 where the part as a whole is meant.
    refused : bool
        Whether the operation is refused; else it is cautioned about, and `text` is the whole caution.
    found_mm, needed_mm, needed_most_mm : float or None
        What is found and what is needed, from least to most where that is a range.
    cure : str
        The nearest way out.
    line : int or None
        Where the operation, or the part, begins in the job's file.
    """

    part: str
    code: str
    operation: int
    refused: bool
    found_mm: float | None
    needed_mm: float | None
    needed_most_mm: float | None
    text: str
    cure: str
    line: int | None = None

    @property
    def said(self) -> str:
        """What is wrong and how to cure it."""
        return f"{self.text}; {self.cure}" if self.cure else self.text

    @property
    def place(self) -> str:
        """Part, operation and line."""
        of = f", operation {self.operation}" if self.operation else ""
        line = f", line {self.line}" if self.line else ""
        return f"{self.part}{of}{line}"

    @property
    def caution(self) -> Caution:
        """The mistake as a caution."""
        return Caution(self.code, self.text, "caution")

    def __str__(self) -> str:
        return f"{self.place}: {self.said}"


@dataclass(frozen=True)
class WalkedPart(Value):
    """A part walked through its operations.

    Attributes
    ----------
    operations : tuple of dict
        Of each operation what it came to and, as `after`, the work that it left: `outside` and `bore` by zones,
        `holes`, `milled`, and how it is `held`; places from the finished face of the first end, mm.
    """

    operations: tuple[Mapping[str, Any], ...]
    mistakes: tuple[JobMistake, ...]

    def of(self, operation: int) -> tuple[JobMistake, ...]:
        """Mistakes of one operation; 0 for the part as a whole."""
        return tuple(each for each in self.mistakes if each.operation == operation)


def walk(job: Job, blanks_mm: Sequence[float | None], text: str = "") -> tuple[WalkedPart, ...]:
    """Every part of a job walked.

    Parameters
    ----------
    job : Job
        What is made.
    blanks_mm : sequence of float or None
        How long each part's blank is sawn.
    text : str
        The job's file, for the lines of mistakes.
    """
    parts = [as_walked(job, part, blank) for part, blank in zip(job.parts, blanks_mm, strict=True)]
    found = _core.walk_job(parts, active())["parts"]
    lines = lines_of(text) if text and any(each["mistakes"] for each in found) else []
    return tuple(
        WalkedPart(
            each["operations"],
            tuple(
                JobMistake(each["part"], **mistake, line=line_of(lines, place, mistake["operation"] // 10 - 1))
                for mistake in each["mistakes"]
            ),
        )
        for place, each in enumerate(found)
    )


def as_walked(job: Job, part: Part, blank_mm: float | None) -> dict[str, object]:
    """A part as the core's walk reads it."""
    stock = part.stock
    coating = None if part.coating is None else job.coatings[part.coating]
    size = stock.diameter or stock.across_flats or stock.thickness
    blank = None if blank_mm is None else _core.Quantity(blank_mm, "mm", "length")
    return stock.given() | {
        "name": part.name,
        "alloy": part.alloy,
        "inch": size is not None and size.system == "inch",
        "length": part.length,
        "blank": stock.bar_length if stock.through_spindle else blank,
        "coating": None if coating is None else coating.surface,
        "coating_name": "" if coating is None else coating.title,
        "steps": [_step(job, part, step) for step in part.operations],
        "joints": [*map(_joint, part.joints), *([] if part.adjuster is None else _ends(part.adjuster))],
        "true_to": [each.given() for each in part.true_to],
    }


def _step(job: Job, part: Part, step: Step) -> dict[str, object]:
    """What the walk takes of an operation: what it knows by name, and how far its holes spread."""
    machine = machines.machine(step.machine or part.machine or job.machine)
    return step.given() | _spread(step.laid_out) | {"machine": machine.core}


def _spread(places: Pattern | None) -> dict[str, object]:
    if places is None:
        return {}
    try:
        found = put(positions, places.asked)
    except Error:
        return {}  # said where the places themselves are asked for
    at = [(each.x_mm, each.y_mm) for each in found.places]
    apart = min(
        (math.sqrt((a - c) * (a - c) + (b - d) * (b - d)) for n, (a, b) in enumerate(at) for c, d in at[:n]),
        default=None,
    )
    sizes = {f"least_{axis}": min(row) for axis, row in zip("xy", zip(*at, strict=True), strict=True)}
    sizes |= {f"spread_{axis}": max(row) - min(row) for axis, row in zip("xy", zip(*at, strict=True), strict=True)}
    return {key: _core.Quantity(mm, "mm", "length") for key, mm in (*sizes.items(), ("apart", apart)) if mm is not None}


def _joint(joint: Joint) -> dict[str, object]:
    return joint.given() | {"bought": joint.external_grade is not None}


def _ends(adjuster: Adjuster) -> list[dict[str, object]]:
    """The ends of an adjuster that the job speaks of."""
    ends: list[Adjuster | AdjusterSecond] = [adjuster]
    if adjuster.second is not None:
        ends.append(adjuster.second)
    return [
        {
            "external": end.external,
            "internal": end.internal,
            "adjuster": True,
            "second_end": place == 1,
            "thread_length": end.thread_length or adjuster.thread_length,
            "tube_diameter": adjuster.tube_diameter if place == 0 and adjuster.middle == "tube" else None,
            "tube_bore": adjuster.bore if place == 0 and adjuster.middle == "tube" else None,
        }
        for place, end in enumerate(ends)
    ]
