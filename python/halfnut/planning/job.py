"""Job files: parts, their stock, and the operations that make them, as TOML.

The core reads them: a key is an argument of the question that an operation asks, or what the walk knows. It checks
shape: keys, types, texts with units, names that must exist. Whether a cut can be made is the core's to say too, one
operation at a time.
"""

from __future__ import annotations

import hashlib
import json
import os
import unicodedata
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import BuildUp, Error, Quantity, parse_build_up
from halfnut.core.catalogue import active
from halfnut.core.fixed import Fixed, fixed, one_line, token
from halfnut.core.mistakes import InputError, Mistake, of_core
from halfnut.core.shapes import load_toml, refuse_large
from halfnut.core.text import read_text
from halfnut.machine import machines

__all__ = ["Coating", "Job", "Joint", "Part", "Step", "Stock", "load", "schema"]


class Table(Fixed[str, Any]):
    """A table of a job's file as the core has read it: its keys are attributes, None where they are not given."""

    OF: ClassVar[Mapping[str, type[Table]]] = {}
    """What stands at its keys that are tables, lists of tables, or tables by names."""

    def __init__(self, keys: Mapping[str, Any]):
        super().__init__({key: _table(self.OF[key], value) if key in self.OF else value for key, value in keys.items()})

    def __getattr__(self, key: str) -> Any:
        try:
            return self[key]
        except KeyError:
            raise AttributeError(f"{type(self).__name__} has no {key!r}") from None

    def __repr__(self) -> str:
        said = ", ".join(f"{name}={value!r}" for name, value in self.items() if value)
        return one_line(f"<{type(self).__name__} {said}>")

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the table by."""
        return token(self, *self.items())

    def size(self, key: str) -> Quantity | None:
        """A size, where it is given."""
        found = self.get(key)
        return found if isinstance(found, Quantity) else None

    def base(self, key: str) -> float:
        """The same in its base unit; 0 where it is not given."""
        found = self.size(key)
        return 0.0 if found is None else found.base

    def text(self, key: str) -> str:
        """A text, or nothing."""
        found = self.get(key)
        return found if isinstance(found, str) else ""

    def given(self) -> dict[str, Any]:
        """Every key that has a value."""
        return {key: value for key, value in self.items() if value is not None}


def _table(of: type[Table], value: tuple[Any, ...] | Mapping[str, Any] | None) -> Any:
    if isinstance(value, tuple):
        return tuple(_table(of, each) for each in value)
    if value is None or isinstance(value, of):
        return value
    return Fixed({name: of(each) for name, each in value.items()}) if of is Coating else of(value)


class Pattern(Table):
    """Where holes lie, from a stated zero, as the question `positions` asks."""

    @property
    def asked(self) -> dict[str, Any]:
        """The question to `positions`, less the machine."""
        own = {key: value for key, value in self.given().items() if key != "zero"}
        return {f"{key}_deg" if key in {"angle", "over"} else key: value for key, value in own.items()}


class Step(Table):
    """An operation: what every one may say, and the keys of its kind."""

    OF: ClassVar[Mapping[str, type[Table]]] = {"places": Pattern}
    do: str
    end: str
    machine: str | None
    tool: str | None
    holding: str | None
    times: int
    note: str

    @property
    def finishes(self) -> bool:
        """Whether it is one finishing cut."""
        return bool(self.get("finish"))

    @property
    def laid_out(self) -> Pattern | None:
        """Where its holes lie."""
        return self.get("places")

    @property
    def divided(self) -> int | None:
        """Parts of a turn on the dividing head: it is done at each."""
        return self.get("divisions")


KINDS = {kind["do"]: kind for kind in _core.job_kinds()}
"""Kinds of operations as the core declares them: their questions, machines, and how papers tell them."""


class Coating(Table):
    """A coating: how far it grows outward from each surface, or which finish it is."""

    title: str
    build_up: Quantity | None
    build_up_most: Quantity | None
    finish: str | None

    @property
    def surface(self) -> BuildUp:
        """What it adds to one surface."""
        if self.finish is not None:
            return parse_build_up(self.finish, active())
        most = self.build_up if self.build_up_most is None else self.build_up_most
        assert self.build_up is not None and most is not None
        return BuildUp(1000.0 * self.build_up.base, 1000.0 * most.base)


class Stock(Table):
    """What a part is made from, and what cutting it up costs."""

    form: str
    diameter: Quantity | None
    bore: Quantity | None
    across_flats: Quantity | None
    thickness: Quantity | None
    width: Quantity | None
    bar_length: Quantity | None
    through_spindle: bool
    grip: Quantity | None
    pieces: int


class Joint(Table):
    """A threaded joint of the part, as the question `strength` asks."""

    external: str
    internal: str
    shock: bool


class Adjuster(Table):
    """How a threaded part is screwed into its bases: asks for a page on how far it may be wound out."""

    OF: ClassVar[Mapping[str, type[Table]]] = {"second": Table}


class Part(Table):
    """A part: how many, of what, and how it is made."""

    OF: ClassVar[Mapping[str, type[Table]]] = {
        "stock": Stock,
        "joints": Joint,
        "adjuster": Adjuster,
        "true_to": Table,
        "operations": Step,
    }
    name: str
    title: str
    number: str
    quantity: int
    alloy: str
    stock: Stock
    length: Quantity
    machine: str | None
    tool: str | None
    coating: str | None
    note: str
    joints: tuple[Joint, ...]
    adjuster: Adjuster | None
    operations: tuple[Step, ...]


class Job(Table):
    """A job: what goes in the title block, the coatings, and the parts."""

    OF: ClassVar[Mapping[str, type[Table]]] = {"coatings": Coating, "parts": Part}
    title: str
    number: str
    revision: str
    date: str
    owner: str
    prepared_by: str
    approved_by: str
    machine: str | None
    coatings: Mapping[str, Coating]
    parts: tuple[Part, ...]

    def machine_of(self, part: Part, step: Step) -> machines.Machine:
        """The machine that an operation is done on.

        Parameters
        ----------
        part : Part
            A part of this job.
        step : Step
            An operation of that part.

        Returns
        -------
        Machine
            What the operation names, else the part, else the job.
        """
        return machines.machine(step.machine or part.machine or self.machine)

    @property
    def machines(self) -> dict[str, _core.Machine]:
        """Every machine that it names, as the core computes with it."""
        named = {self.machine, *(each.machine for part in self.parts for each in (part, *part.operations))}
        return {name: machines.machine(name).core for name in named if name is not None}


OPENING_PAGE, PAPERS_PAGE, DETAILS_PAGE, PHONE_PAGE = "index.html", "papers.html", "details.html", "phone.html"
TABLE, MANIFEST = "plan.csv", "plan.json"
"""Files of a plan besides those of its parts."""
_LONGEST = 255 - len("-99999.html")
"""Bytes of a part's name as the stem of a file, most; what file systems allow leaves room for a number."""


def sheet_file(stem: str) -> str:
    """File of a part's cards."""
    return f"{stem}.html"


def adjuster_file(sheet: str) -> str:
    """File of the page that says how far a part may be wound out, from that of its cards."""
    return f"{sheet.removesuffix('.html')}-adjuster.html"


def file_names(parts: Iterable[Part]) -> list[str]:
    """Files of the sheets of parts, in order: no two alike, nor like another file of the plan.

    A name that another part or the plan itself has taken gets a number; one that is too long is cut and gets a sum of
    the whole.
    """
    taken = {Path(own).stem for own in (OPENING_PAGE, PAPERS_PAGE, DETAILS_PAGE, PHONE_PAGE, TABLE, MANIFEST)}
    numbers: dict[str, int] = {}
    out = []
    for part in parts:
        ends = ("", "-adjuster") if part.adjuster is not None else ("",)
        first = stem = _stem(part.name, _LONGEST - len(ends[-1]))
        while any(stem + end in taken for end in ends):
            numbers[first] = numbers.get(first, 1) + 1
            stem = f"{first}-{numbers[first]}"
        taken.update(stem + end for end in ends)
        out.append(sheet_file(stem))
    return out


def _stem(name: str, longest: int) -> str:
    """A part's name as the stem of a file.

    >>> _stem("Truss tube, 1-1/4", 200)
    'truss-tube-1-1-4'
    >>> _stem("Truss tube, 1-1/4", 15)
    'truss-364418aa'
    """
    kept = "".join(letter if letter.isalnum() else " " for letter in unicodedata.normalize("NFC", name.lower()))
    stem = "-".join(kept.split()) or "part"
    data = stem.encode("utf-8")
    if len(data) <= longest:
        return stem
    mark = hashlib.sha256(name.encode("utf-8")).hexdigest()[:8]
    start = data[: longest - len(mark) - 1].decode("utf-8", "ignore").rstrip("-")
    return f"{start}-{mark}"


def schema() -> dict[str, Any]:
    """The JSON Schema of a job's file.

    Returns
    -------
    dict
        Of each table its keys, their types and what is allowed.

    Examples
    --------
    >>> schema()["required"]
    ['title', 'parts']
    """
    found: dict[str, Any] = json.loads(_core.job_schema_json(active()))
    return found


def load(job: str | os.PathLike[str] | Mapping[str, Any] | Job) -> tuple[Job, str]:
    """Read a job, and what messages call it.

    Parameters
    ----------
    job : path, dict or Job
        A job file, or a dictionary shaped as one.

    Returns
    -------
    tuple
        The `Job`, and its path; its title where it was read before, "job" for a dictionary.

    Raises
    ------
    InputError
        Every mistake at once: where, what is there, what is allowed, what was probably meant.
    """
    if isinstance(job, Job):
        return job, job.title
    if isinstance(job, Mapping):
        return _read(job, "job"), "job"
    path = Path(job)
    return _read(load_toml(path), str(path), path), str(path)


def _read(data: Mapping[str, Any], name: str, file: Path | None = None) -> Job:
    refuse_large(data, name)
    kept = fixed(data)

    def find_machine(called: str) -> tuple[str, str, list[str]]:
        """The name of a machine at hand, or a machine file's path from the job file's folder."""
        beside = None if file is None else file.parent / called
        found = str(beside) if beside is not None and called.endswith(".toml") and beside.is_file() else called
        try:
            machines.machine(found)
        except InputError as error:
            return found, f"this machine's file has mistakes: {error}", []
        except Error:
            return called, "no machine of that name", machines.names()
        return found, "", []

    read, found = _core.job_of_file(kept, "" if file is None else read_text(file), find_machine, active())
    mistakes = of_core(found, data) or _alike(read["parts"])
    if mistakes:
        raise InputError(name, mistakes)
    return Job(read)


def _alike(parts: Iterable[Mapping[str, Any]]) -> list[Mistake]:
    """A mistake where two parts have one name."""
    seen: dict[str, int] = {}
    for place, part in enumerate(parts):
        alike = " ".join(unicodedata.normalize("NFKC", part["name"]).casefold().split())
        if alike in seen:
            said = f"parts[{place}].name, '{part['name']}', is that of parts[{seen[alike]}]; names must differ"
            return [Mistake("", said, given=False)]
        seen[alike] = place
    return []
