"""A job planned: one question to the core an operation, its answer kept, and all of it written for the shop."""

from __future__ import annotations

import csv
import io
import math
import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any

from halfnut._core import DomainError, Error, spell
from halfnut.core import files
from halfnut.core.arguments import checked
from halfnut.core.extras import optional
from halfnut.core.fixed import Value, one_line
from halfnut.core.pages import drawn
from halfnut.core.record import Caution, Evidence, Record
from halfnut.core.text import plain_cell, read_text, shown
from halfnut.core.words import by_rank, caution_lines, words, wrapped
from halfnut.machine.machines import Machine
from halfnut.planning import job as job_files
from halfnut.planning import timing
from halfnut.planning.answers import Answer
from halfnut.planning.cautioned import needed, needed_of_joint
from halfnut.planning.job import Job, Joint, Part, Step
from halfnut.planning.stock import Bar, CutList, bars, cut_list
from halfnut.planning.walking import JobMistake, WalkedPart, walk
from halfnut.threads.figures import ThreadStrength
from halfnut.threads.questions import strength

if TYPE_CHECKING:
    import pandas as pd

    from halfnut.threads.adjusters import Adjuster

__all__ = ["Plan", "PlannedOperation", "PlannedPart", "plan"]

_FAILED = "         failed: "
_STEP = 10  # between operation numbers, so that one can be put in between by hand


@dataclass(frozen=True)
class PlannedOperation(Value):
    """One operation with its answer, or with the reason why there is none."""

    number: int
    step: Step
    machine: Machine
    answer: Answer | None
    error: str = ""
    mistakes: tuple[JobMistake, ...] = ()
    """What the walk through the job finds wrong with it."""
    walked: Mapping[str, Any] = field(default_factory=dict, repr=False)
    """What it came to, and as `after` the work that it leaves: see `walking.WalkedPart`."""
    pieces: int = 1
    """Of the lot."""

    @property
    def status(self) -> str:
        """Planned or failed."""
        return "failed" if self.answer is None else "planned"

    @property
    def record(self) -> Record | None:
        """The core's answer."""
        return None if self.answer is None else self.answer.record

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """Cautions of the walk and of the answer."""
        own = [each.caution for each in self.mistakes if not each.refused]
        if self.answer is not None:
            own += needed(self.answer, walked=self.walked.get("covers", ()), pieces=self.pieces)
        return tuple(own)

    @property
    def told(self) -> tuple[Caution, ...]:
        """Cautions of the answer, and the notes of its cut, each once."""
        notes = () if self.answer is None or self.answer.cut is None else self.answer.cut.notes
        return tuple(dict.fromkeys((*self.cautions, *notes)))

    @property
    def evidence(self) -> tuple[Evidence, ...]:
        """What the answer rests on."""
        return () if self.answer is None else self.answer.evidence

    @property
    def time_s(self) -> float:
        """Time at the machine for one piece: cutting, changes and measuring, as often as the operation is done."""
        return 0.0 if self.answer is None else self.answer.time_s

    def to_dict(self) -> dict[str, Any]:
        """The operation as a dictionary; a figure that is not a number is None."""
        return {
            "operation": self.number,
            "do": self.step.do,
            "end": self.step.end,
            "machine": self.machine.name,
            "status": self.status,
            "error": self.error or None,
            "mistakes": [_mistake(each) for each in self.mistakes],
            "work_after": self.walked.get("after"),
            "time_s": self.time_s if self.answer else None,
            "figures": None if self.answer is None else _finite(self.answer.to_dict()),
            "cautions": [item.to_dict() for item in by_rank(self.told)],
            "evidence": [
                {"figure": item.figure, "rule": item.rule, "row": item.row, "source": item.source, "kind": item.kind}
                for item in self.evidence
            ],
        }


@dataclass(frozen=True)
class PlannedJoint(Value):
    """A threaded joint with what it holds, or with the reason why there is no answer."""

    joint: Joint
    record: ThreadStrength | None
    error: str = ""

    def to_dict(self) -> dict[str, Any]:
        """The joint as a dictionary."""
        found = self.record
        return {
            "external": self.joint.external,
            "internal": self.joint.internal,
            "error": self.error or None,
            "figures": None if found is None else _finite(found.to_dict()),
            "cautions": [] if found is None else [item.to_dict() for item in by_rank(found.cautions)],
        }


@dataclass(frozen=True)
class PlannedPart(Value):
    """A part with its stock cut up and its operations answered in order."""

    part: Part
    unit: str
    stock: CutList | None
    stock_error: str
    operations: tuple[PlannedOperation, ...]
    file: str = field(default="")
    joints: tuple[PlannedJoint, ...] = ()
    adjuster: Adjuster | None = None
    adjuster_error: str = ""
    standing: tuple[Caution, ...] = ()
    """What goes with the part as a whole, whatever the figures."""
    mistakes: tuple[JobMistake, ...] = ()
    """What the walk finds wrong with the part as a whole."""
    order: timing.Order | None = None
    """Another order of its operations, where that saves time or stops."""

    @property
    def failed(self) -> int:
        """Operations and joints without an answer, the stock counted as one."""
        unanswered = sum(op.status == "failed" for op in self.operations) + sum(
            bool(each.error) for each in self.joints
        )
        wrong = sum(each.refused for each in self.mistakes)
        return unanswered + wrong + bool(self.stock_error) + bool(self.adjuster_error)

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """Cautions of the part as a whole, of all operations and of all joints."""
        of_joints = (
            caution for each in self.joints if each.record is not None for caution in needed_of_joint(each.record)
        )
        of_walk = (each.caution for each in self.mistakes if not each.refused)
        return (*self.standing, *of_walk, *(caution for op in self.operations for caution in op.cautions), *of_joints)

    @property
    def time_each_s(self) -> float:
        """Time for one piece; operations without an answer are left out."""
        return sum(op.time_s for op in self.operations)

    @property
    def time_lot_s(self) -> float:
        """Time for the lot."""
        return self.time_each_s * self.part.quantity

    @property
    def span(self) -> timing.Span:
        """Time for the lot as a person plans it, set-up and first piece in it."""
        return self.lot.whole

    @property
    def lot(self) -> timing.Lot:
        """Times of the lot, spares, and which pieces are measured wholly."""
        return timing.lot(self.time_each_s, self.part.quantity)

    def to_dict(self) -> dict[str, Any]:
        """The part as nested dictionaries."""
        part = self.part
        return {
            "name": part.name,
            "title": part.title,
            "number": part.number,
            "quantity": part.quantity,
            "alloy": part.alloy,
            "sheet": self.file,
            "failed": self.failed,
            "time_each_s": self.time_each_s,
            "time_lot_s": self.time_lot_s,
            "spares": self.lot.spares,
            "measured_wholly": list(self.lot.measured),
            "stock": None if self.stock is None else self.stock.to_dict(),
            "stock_error": self.stock_error or None,
            "mistakes": [_mistake(each) for each in self.mistakes],
            "cautions": [item.to_dict() for item in by_rank(self.standing)],
            "operations": [op.to_dict() for op in self.operations],
            "joints": [each.to_dict() for each in self.joints],
        }


@dataclass(frozen=True)
class Plan(Value):
    """A planned job: parts, their operations, and every way to write them down."""

    job: Job
    name: str
    parts: tuple[PlannedPart, ...]

    @property
    def failed(self) -> int:
        """Operations that have no answer."""
        return sum(part.failed for part in self.parts)

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """Cautions of all operations."""
        return tuple(caution for part in self.parts for caution in part.cautions)

    @property
    def mistakes(self) -> tuple[JobMistake, ...]:
        """What the walk through the job finds wrong, part by part."""
        return tuple(
            mistake
            for part in self.parts
            for mistake in (*(each for op in part.operations for each in op.mistakes), *part.mistakes)
        )

    @property
    def operations(self) -> Iterator[tuple[PlannedPart, PlannedOperation]]:
        """Every operation with its part, in order."""
        return ((part, op) for part in self.parts for op in part.operations)

    @property
    def time_s(self) -> float:
        """Time for all lots at the machine, without set-up and chucking."""
        return sum(part.time_lot_s for part in self.parts)

    @property
    def span(self) -> timing.Span:
        """Time for all lots as a person plans it, set-ups and first pieces in it."""
        return sum((part.span for part in self.parts), timing.Span(0.0, 0.0))

    @property
    def better_orders(self) -> dict[str, timing.Order]:
        """Orders of operations that save time or stops, by part; the person's own is kept."""
        return {part.part.name: part.order for part in self.parts if part.order is not None}

    @property
    def bars(self) -> dict[str, tuple[Bar, ...]]:
        """What is sawn from which bar, by alloy and stock: see `stock.bars`."""
        return bars(self.job)

    def to_dict(self) -> dict[str, Any]:
        """The plan as nested dictionaries and lists without NaN, as plan.json holds it."""
        job = self.job
        return {
            "title": job.title,
            "number": job.number,
            "revision": job.revision,
            "date": job.date,
            "failed": self.failed,
            "time_s": self.time_s,
            "time_least_s": self.span.least_s,
            "time_most_s": self.span.most_s,
            "bars": {name: [[[*each] for each in bar.blanks] for bar in found] for name, found in self.bars.items()},
            "parts": [part.to_dict() for part in self.parts],
        }

    def rows(self) -> list[dict[str, Any]]:
        """One flat row an operation, as plan.csv holds them; a failed one has its reason and no figures.

        Returns
        -------
        list of dict
            Keys of the part and the operation, then of its figures: lists of them as texts, None for what is not
            finite.
        """
        return [_row(part, op) for part, op in self.operations]

    def to_frame(self) -> pd.DataFrame:
        """One row an operation, as a pandas data frame.

        Returns
        -------
        pandas.DataFrame
            Columns by the keys of `rows`.

        Raises
        ------
        MissingExtraError
            pandas is not installed.
        """
        return optional("pandas", "pandas").DataFrame(self.rows())

    def lines(self) -> list[str]:
        """A summary on one screen."""
        count = sum(1 for _ in self.operations)
        failed = f", {self.failed} failed" if self.failed else ""
        out = [f"{self.job.title}: {len(self.parts)} parts, {count} operations{failed}, {self.span} in all"]
        for part in self.parts:
            title = part.part.title or part.part.name
            then = f", then {part.lot.further.minutes} each" if part.part.quantity > 1 else ""
            alloy_name = f"{part.part.alloy:16}"
            out.append(f"  {part.part.quantity:>4} × {title:21} {alloy_name} first {part.lot.first.minutes}{then}")
            out += _failures(part)
            if part.stock_error:
                out.append(f"         failed: stock: {part.stock_error}")
        # the last line says what `licensed` does
        told = (item for item in self.cautions if item.rank != "note" and item.code != "licensed")
        out += caution_lines(_once_a_code(told))
        for name, order in self.better_orders.items():
            numbers = ", ".join(map(str, order.numbers))
            stops = f"{order.saves_stops} stop{'' if order.saves_stops == 1 else 's'}"
            saved = f"{spell(order.saves_s, 'time', 'mm')} and {stops} a piece"
            out += wrapped(f"another order of {name} saves {saved}: {numbers}", "  ", "    ")
        return [*out, f"  {words('said', 'first')}"]

    def __str__(self) -> str:
        return "\n".join(self.lines())

    def __repr__(self) -> str:
        return one_line(f"<Plan {self.lines()[0]}>")

    def _repr_html_(self) -> str:
        first, *rest = map(shown, self.lines())
        body = "\n".join(escape(line) for line in rest)
        return f'<p><strong>{escape(first)}</strong></p><pre style="background:none;color:inherit">{body}</pre>'

    def files(self, paper: str = "A5", phone_page: str | None = None) -> dict[str, str]:
        """Name and text of every file that `write` writes.

        Parameters
        ----------
        paper : str
            Of the cards: A5, half-letter, A4 or letter.
        phone_page : str, optional
            Text of the page that ``./shop page`` builds.

        Returns
        -------
        dict
            The table plan.csv, the pages, and plan.json with the SHA-256 of each.

        Raises
        ------
        DomainError
            No such paper, or no such phone page.
        """
        made = {job_files.TABLE: self._csv(), **drawn("sheets", self, paper=paper, phone_page=phone_page)}
        return files.seal(made, job_files.MANIFEST, self.to_dict())

    def write(
        self,
        folder: str | os.PathLike[str],
        *,
        paper: str = "A5",
        phone_page: str | os.PathLike[str] | None = None,
        replace: bool = False,
    ) -> list[Path]:
        """Write plan.csv, plan.json, the cards of every part, details and a page that opens them.

        The folder is made beside its place and put there whole: after a kill or on a full disk the earlier one is there
        as it was. plan.json holds the SHA-256 of every file, by which a file that was changed since is known.

        Parameters
        ----------
        folder : path
            Made if it is not there; the one above it must be.
        paper : str
            Of the cards: A5, half-letter, A4 or letter.
        phone_page : path, optional
            The page that ``./shop page`` builds, to lie beside the cards as phone.html.
        replace : bool
            Whether an earlier plan in the folder may be replaced. It is only where it stayed as it was written.

        Returns
        -------
        list of Path
            The files, the opening page first.

        Raises
        ------
        DomainError
            No such paper or phone page; or the folder is not empty and `replace` is not set, or it holds something that
            no plan wrote or that was changed since; the message names it.
        OSError
            The disk is full, or the folder above cannot be written to.
        """
        page = None if phone_page is None else read_text(Path(phone_page))
        written = files.write_folder(folder, self.files(paper, page), job_files.MANIFEST, replace=replace)
        first = job_files.OPENING_PAGE
        return sorted(written.iterdir(), key=lambda path: (path.name != first, path.name))

    def _csv(self) -> str:
        """plan.csv; a text that a spreadsheet would take for a formula has an apostrophe in front."""
        rows = self.rows()
        columns = list(dict.fromkeys(key for row in rows for key in row))
        out = io.StringIO()
        writer = csv.DictWriter(out, columns, restval="", lineterminator="\r\n")
        writer.writeheader()
        writer.writerows(
            {key: "" if value is None else plain_cell(value) for key, value in row.items()} for row in rows
        )
        return out.getvalue()


def _failures(part: PlannedPart) -> list[str]:
    """What is refused, and why; the cure of a mistake below it."""
    out: list[str] = []

    def tell(mistakes: Iterable[JobMistake]) -> bool:
        refused = [each for each in mistakes if each.refused]
        for each in refused:
            out.extend((f"{_FAILED}{each.place}: {each.text}", f"{' ' * len(_FAILED)}{each.cure}"))
        return bool(refused)

    for op in part.operations:
        if not tell(op.mistakes) and op.error:
            out.append(f"{_FAILED}{op.number} {op.step.do}: {op.error}")
    tell(part.mistakes)
    return out


def _mistake(found: JobMistake) -> dict[str, Any]:
    own = ("code", "refused", "line", "found_mm", "needed_mm", "needed_most_mm", "text", "cure")
    return {name: getattr(found, name) for name in own}


def _once_a_code(cautions: Iterable[Caution]) -> list[Caution]:
    """One caution for those that differ only in their figures, in the words of the gravest of them."""
    alike: dict[str, list[Caution]] = {}
    for item in dict.fromkeys(cautions):
        alike.setdefault(item.code, []).append(item)
    out = []
    for items in alike.values():
        worst = max(items, key=lambda item: item.gravity)
        out.append(worst if len(items) == 1 else replace(worst, text=f"{worst.text}; other figures on other sheets"))
    return out


@checked
def plan(job: str | os.PathLike[str] | Mapping[str, Any] | Job) -> Plan:
    """Plan a job: one question to the core an operation.

    An operation that has no answer is marked with the reason; the rest is planned.

    Parameters
    ----------
    job : path, dict or Job
        A job file, or a dictionary shaped as one.

    Returns
    -------
    Plan
        An answer an operation, or why there is none.

    Raises
    ------
    InputError
        The job has mistakes of shape; all of them are in the message.

    >>> planned = plan({
    ...     "title": "one pin", "machine": "gap-bed",
    ...     "parts": [{
    ...         "name": "pin", "quantity": 1, "alloy": "6061-T6", "length": "2 in",
    ...         "stock": {"form": "bar", "diameter": "1 in"},
    ...         "operations": [{"do": "turn", "to": "0.9 in", "length": "1 in"}],
    ...     }],
    ... })
    >>> planned.failed
    0
    """
    found, name = job_files.load(job)
    sheets = job_files.file_names(found.parts)
    stocks = [_cut_up(part) for part in found.parts]
    text = read_text(Path(job)) if isinstance(job, (str, os.PathLike)) else ""
    walked = walk(found, text, asked=True)
    parts = (
        _planned_part(found, part, sheet, stock, way)
        for part, sheet, stock, way in zip(found.parts, sheets, stocks, walked, strict=True)
    )
    return Plan(found, name, tuple(parts))


def _planned_part(
    job: Job, part: Part, file: str, stock_cut: tuple[CutList | None, str], walked: WalkedPart
) -> PlannedPart:
    size = part.stock.diameter or part.stock.across_flats or part.stock.thickness
    assert size is not None
    unit = "in" if size.system == "inch" else "mm"
    stock, stock_error = stock_cut
    operations = tuple(
        PlannedOperation(
            number := (place + 1) * _STEP,
            step,
            job.machine_of(part, step),
            found if isinstance(found, Answer) else None,
            "" if isinstance(found, Answer) else found,
            walked.of(number),
            walked.operations[place],
            part.quantity,
        )
        for place, (step, found) in enumerate(zip(part.operations, walked.answers, strict=True))
    )
    joints = tuple(map(_planned_joint, part.joints))
    wound, wound_error = _wound(job, part)
    answered = (stock, stock_error, operations, file, joints, wound, wound_error)
    return PlannedPart(part, unit, *answered, walked.standing, walked.of(0), walked.order)


def _planned_joint(joint: Joint) -> PlannedJoint:
    try:
        own = {key: value for key, value in joint.given().items() if key != "shock"}
        found = strength(**own | {"loading": "shock" if joint.shock else "steady"})
    except Error as failure:
        return PlannedJoint(joint, None, str(failure))
    return PlannedJoint(joint, found)


def _wound(job: Job, part: Part) -> tuple[Adjuster | None, str]:
    """How far a threaded part may be wound out, where the job asks."""
    if part.adjuster is None:
        return None, ""
    from halfnut.threads.questions import adjuster

    coating = None if part.coating is None else job.coatings[part.coating]
    build_up = None
    if coating is not None:
        most = coating.build_up_most
        build_up = str(coating.build_up) if most is None else f"{coating.build_up} to {most}"
    try:
        own = part.adjuster.given() | {"alloy": part.alloy, "length_of_tube": part.length, "coating": build_up}
        if part.adjuster.second is not None:
            own["second"] = part.adjuster.second.given()
        return adjuster(**own), ""
    except Error as error:
        return None, str(error)


def _cut_up(part: Part) -> tuple[CutList | None, str]:
    try:
        return cut_list(part), ""
    except DomainError as error:
        return None, str(error)


def _row(part: PlannedPart, op: PlannedOperation) -> dict[str, Any]:
    head = {
        "part": part.part.name,
        "number": part.part.number,
        "quantity": part.part.quantity,
        "alloy": part.part.alloy,
        **{key: value for key, value in op.to_dict().items() if key not in {"figures", "cautions", "evidence"}},
        "cautions": " ".join(caution.code for caution in op.cautions),
    }
    figures = {} if op.answer is None else _finite(op.answer.to_dict())
    flat = {key: " ".join(map(str, value)) if isinstance(value, list) else value for key, value in figures.items()}
    return {**head, **{key: value for key, value in flat.items() if key not in head}}


def _finite(figures: Mapping[str, Any]) -> dict[str, Any]:
    return {
        key: None if isinstance(value, float) and not math.isfinite(value) else value for key, value in figures.items()
    }
