"""A job walked by the core: the work after each operation, and every mistake with its line in the job's file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.fixed import Value
from halfnut.core.words import Caution
from halfnut.machine import machines
from halfnut.planning.job import Adjuster, AdjusterSecond, Job, Joint, Operation, Part, Saw
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


def as_walked(job: Job, part: Part, blank_mm: float | None) -> dict[str, Any]:
    """A part as the core's walk reads it."""
    stock = part.stock
    coating = None if part.coating is None else job.coatings[part.coating]
    size = stock.diameter or stock.across_flats or stock.thickness
    bar = stock.bar_length if stock.through_spindle else None
    return {
        "name": part.name,
        "inch": size is not None and size.system == "inch",
        "form": stock.form,
        "length": part.length,
        "diameter": stock.diameter,
        "bore": stock.bore,
        "across_flats": stock.across_flats,
        "thickness": stock.thickness,
        "width": stock.width,
        "kerf": stock.kerf,
        "facing": stock.facing,
        "stub": stock.grip,
        "blank": bar if bar is not None else None if blank_mm is None else _core.Quantity(blank_mm, "mm", "length"),
        "pieces": stock.pieces,
        "through_spindle": stock.through_spindle,
        "coating": None if coating is None else coating.surface,
        "coating_name": "" if coating is None else coating.title,
        "steps": [_step(job, part, step) for step in part.operations],
        "joints": [*map(_joint, part.joints), *([] if part.adjuster is None else _ends(part.adjuster))],
        "true_to": [dict(each) for each in part.true_to],
    }


def _step(job: Job, part: Part, step: Operation) -> dict[str, Any]:
    given = dict(step)  # the walk takes what it knows
    exact = any(getattr(step, name, None) is not None for name in ("fit", "tolerance", "roughness"))
    if isinstance(step, Saw):
        given["width"] = step.thickness
    return given | {
        "machine": machines.machine(step.machine or part.machine or job.machine).core,
        "grip": step.grip_length,
        "steady": bool(getattr(step, "steadies", ())),
        "exact": exact,
    }


def _joint(joint: Joint) -> dict[str, Any]:
    return dict(joint) | {"bought": joint.external_grade is not None}


def _ends(adjuster: Adjuster) -> list[dict[str, Any]]:
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
