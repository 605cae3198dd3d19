"""A job walked by the core: the work after each operation, and every mistake with its line in the job's file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.fixed import Value
from halfnut.core.words import Caution, caution
from halfnut.planning.answers import Answer
from halfnut.planning.job import Job
from halfnut.planning.timing import Order

__all__ = ["JobMistake", "WalkedPart"]


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
    standing: tuple[Caution, ...] = ()
    """What goes with the part as a whole, whatever its figures."""
    answers: tuple[Answer | str, ...] = ()
    """Of each operation its answer, where that is asked for, or why there is none."""
    order: Order | None = None
    """Another order of the operations, where that is asked for and saves time or stops."""

    def of(self, operation: int) -> tuple[JobMistake, ...]:
        """Mistakes of one operation; 0 for the part as a whole."""
        return tuple(each for each in self.mistakes if each.operation == operation)


def walk(job: Job, text: str = "", *, asked: bool = False) -> tuple[WalkedPart, ...]:
    """Every part of a job walked.

    Parameters
    ----------
    job : Job
        What is made.
    text : str
        The job's file, for the lines of mistakes.
    asked : bool
        Whether its operations are answered, too.
    """
    found = _core.walk_job(job, job.machines, text, active(), asked)["parts"]
    return tuple(
        WalkedPart(
            each["operations"],
            tuple(JobMistake(each["part"], **mistake) for mistake in each["mistakes"]),
            tuple(caution(code, gravity=gravity, **dict(more)) for code, gravity, more in each["told"]),
            tuple(one["error"] or Answer.of(one) for one in each.get("answered", ())),
            Order(**each["order"]) if each.get("order") else None,
        )
        for each in found
    )
