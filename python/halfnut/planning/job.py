"""Job files: parts, their stock, and the operations that make them, as TOML.

The models below are the format; their fields are the keys. Those of an operation are made from the core's
declarations. They check shape: keys, types, texts with units, names that must exist. Whether a cut can be made is the
core's to say, one operation at a time.
"""

from __future__ import annotations

import copy
import hashlib
import math
import os
import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import reduce
from operator import or_
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, Literal, TypeAlias

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    Strict,
    ValidationError,
    ValidationInfo,
    create_model,
    model_validator,
)

from halfnut import _core
from halfnut._core import BuildUp, Error, Quantity, bounds, find_alloy, parse_build_up
from halfnut.core.catalogue import active
from halfnut.core.fixed import fixed, one_line, token
from halfnut.core.mistakes import InputError, Mistake, NameMistake, from_pydantic
from halfnut.core.questions import declared
from halfnut.core.shapes import AtLeast, Count, Length, Text, YesNo, load_toml, refuse_large
from halfnut.core.text import read_text
from halfnut.machine import machines
from halfnut.planning.job_lines import line_of, lines_of

__all__ = ["Coating", "Job", "Joint", "Operation", "Part", "Stock", "load", "schema"]


def _known_alloy(value: str) -> str:
    try:
        find_alloy(value, active())
    except Error as error:
        raise ValueError(str(error)) from None
    return value


def _known_machine(value: str, info: ValidationInfo) -> str:
    """The name of a machine at hand, or a machine file's path from the job file's folder."""
    folder: Path | None = (info.context or {}).get("folder")
    name = value
    if folder is not None and value.endswith(".toml") and (folder / value).is_file():
        name = str(folder / value)
    try:
        machines.machine(name)
    except InputError as error:
        raise ValueError(f"this machine's file has mistakes: {error}") from None
    except Error:
        raise NameMistake("no machine of that name", value, machines.names()) from None
    return name


def _known_coating(value: str, info: ValidationInfo) -> str:
    known = (info.context or {}).get("coatings", ())
    if value not in known:
        raise NameMistake("no coating of that name in this job", value, known)
    return value


def _known_finish(value: str) -> str:
    try:
        parse_build_up(value, active())
    except Error as error:
        raise ValueError(str(error)) from None
    return value


AlloyName = Annotated[str, Strict(), AfterValidator(_known_alloy)]
MachineName = Annotated[str, Strict(), AfterValidator(_known_machine)]
CoatingName = Annotated[str, Strict(), AfterValidator(_known_coating)]
Finish = Annotated[str, Strict(), AfterValidator(_known_finish)]
LengthOrZero = Annotated[Quantity, Text("length", zero=True)]
Name = Annotated[str, Field(min_length=1)]
Factor = Annotated[float, AtLeast(1, included=True)]
Share = Annotated[float, Field(gt=0, le=1)]


class _Closed(BaseModel):
    model_config: ClassVar[ConfigDict] = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    def model_post_init(self, context: object, /) -> None:
        """Lists and tables that nobody can change."""
        self.__dict__.update({name: fixed(value) for name, value in self.__dict__.items()})

    def __dask_tokenize__(self) -> tuple[object, ...]:
        """What Dask knows the table of a job by."""
        return token(self, *self.__dict__.items())

    def __repr__(self) -> str:
        said = ", ".join(f"{name}={value!r}" for name, value in self.__dict__.items() if value)
        return one_line(f"<{type(self).__name__} {said}>")

    def size(self, key: str) -> Quantity | None:
        """A size, where it is given."""
        found = getattr(self, key, None)
        return found if isinstance(found, Quantity) else None

    def base(self, key: str) -> float:
        """The same in its base unit; 0 where it is not given."""
        found = self.size(key)
        return 0.0 if found is None else found.base

    def text(self, key: str) -> str:
        """A text, or nothing."""
        found = getattr(self, key, None)
        return found if isinstance(found, str) else ""

    def given(self) -> dict[str, object]:
        """Every key that has a value."""
        return {key: value for key, value in self if value is not None}


class Pattern(_Closed):
    """Where holes lie, from a stated zero, as the question `positions` asks."""

    zero: str = ""
    """Where the dials are set to zero, in words: "left front corner"."""
    holes: Count | None = None
    rows: Count | None = None
    at: list[str] = []
    """Of a list: "1 in, 2 in" each."""

    @property
    def count(self) -> int:
        """How many holes."""
        return len(self.at) if self.text("pattern") == "list" else (self.holes or 0) * (self.rows or 1)

    @property
    def asked(self) -> dict[str, object]:
        """The question to `positions`, less the machine."""
        own = {key: value for key, value in self.given().items() if key != "zero" and value != ()}
        return {f"{key}_deg" if key in {"angle", "over"} else key: value for key, value in own.items()}


class Step(_Closed):
    """What every operation may say; what each kind asks besides is made from the core's declarations."""

    do: str
    name: str = ""
    """Of the surface that it makes, for `true_to`."""
    machine: MachineName | None = None
    end: Literal["first", "second"] = "first"
    tool: str | None = None
    holding: str | None = None
    grips: Literal["hard jaws", "soft jaws", "strip", "split ring", "collet", "mandrel", "faceplate", "vice"] | None = (
        None
    )
    """What closes on the work; without it the jaws or the collet of `holding`. Strip is copper or aluminium."""
    grip_length: Length | None = None
    indicated: YesNo = False
    """The work is trued by an indicator when it is held anew."""
    masked: YesNo = False
    """The coating is kept off what the operation makes."""
    times: Count = 1
    note: str = ""

    @property
    def finishes(self) -> bool:
        """Whether it is one finishing cut."""
        return bool(getattr(self, "finish", False))

    @property
    def laid_out(self) -> Pattern | None:
        """Where its holes lie."""
        found = getattr(self, "places", None)
        return found if isinstance(found, Pattern) else None

    @property
    def divided(self) -> int | None:
        """Parts of a turn on the dividing head: it is done at each."""
        found = getattr(self, "divisions", None)
        return found if isinstance(found, int) else None

    @model_validator(mode="after")
    def _as_often(self) -> Step:
        if self.laid_out is not None and self.divided is not None:
            raise ValueError("has places and divisions: give one")
        count = self.divided if self.laid_out is None else self.laid_out.count
        if count:
            if "times" in self.model_fields_set and self.times != count:
                raise ValueError(f"times, {self.times}, must be the {count} of its places or divisions; leave it out")
            self.__dict__["times"] = count
        return self


Row: TypeAlias = Mapping[str, Any]


def _hint(row: Row) -> Any:
    """The type of a key from the declaration of an argument."""
    kind, low, high = row["kind"], row["low"], row["high"]
    dimension = row["dimension"]
    if kind == "flag":
        return YesNo
    if kind == "choice":
        return Literal[tuple(row["choices"])]
    if kind == "count":
        return Count
    if kind in {"number", "list"}:
        one = Annotated[Quantity, Text(str(dimension), zero=low == 0 and not row["low_open"])]
        if kind == "list":
            return list[one] if dimension else list[str]
        if row["written"]:
            return one
        least = {"gt" if row["low_open"] else "ge": low} if low != -math.inf else {}
        most = {"lt" if row["high_open"] else "le": high} if high != math.inf else {}
        return Annotated[float, Field(**least, **most)]
    return AlloyName if row["kin"] == "Alloy" else Name


def _model(name: str, base: type[_Closed], keys: Iterable[tuple[str, Row, bool]], **more: object) -> type[_Closed]:
    """A table of a job's file from keys, their declarations, and whether they must be given."""
    hints: dict[str, object] = dict(more)
    for key, row, needed in keys:
        hint, about = _hint(row), row["about"]
        if needed:
            hints[key] = (hint, Field(description=str(about)))
        elif row["kind"] == "flag":
            hints[key] = (hint, Field(False, description=str(about)))
        else:
            hints[key] = (hint | None, Field(None, description=str(about)))
    made: type[_Closed] = create_model(name, __base__=base, __module__=__name__, **hints)  # type: ignore[call-overload]
    return made


def _rows(question: str) -> dict[str, Row]:
    """Declarations of a question's arguments, or of what the walk knows of an operation, by their names."""
    rows = _core.job_members() if question == "step" else declared()[question]["arguments"]
    return {row["name"]: row for row in rows}


_POSITIONS = _rows("positions")
Places: type[_Closed] = _model(
    "Places",
    Pattern,
    [
        (name.removesuffix("_deg"), row, name == "pattern")
        for name, row in _POSITIONS.items()
        if name not in {"machine", "holes", "rows", "at"}
    ],
)
_DONE_AT = {
    "places": (Places | None, Field(None, description="Where its holes lie.")),
    "divisions": (Count | None, Field(None, description="Parts of a turn: it is done at each.")),
}
CALLED: dict[str, dict[str, str]] = {}
"""Of each kind of operation its keys that its question calls otherwise."""


def _kind(kind: Mapping[str, str]) -> type[_Closed]:
    own, members = _rows(kind["question"]), _rows("step")
    keys, more = [], {}
    called = CALLED.setdefault(kind["do"], {})
    for word in kind["keys"].split():
        key, _, of = word.replace("*", "").partition("=")
        if key in _DONE_AT:
            more[key] = _DONE_AT[key]
            continue
        question, _, argument = of.rpartition(".")
        if of and not question:
            called[key] = argument
        rows = _rows(question) if question else own
        found = rows.get(argument or key) or members[key]
        keys.append((key, found, "*" in word))
    name = kind["do"].title().replace(" ", "")
    made = _model(name, Step, keys, do=(Literal[kind["do"]], ...), **more)
    made.__doc__ = kind["about"]
    globals()[name] = made
    return made


KINDS = {kind["do"]: kind for kind in _core.job_kinds()}
"""Kinds of operations as the core declares them: their questions, machines, and how papers tell them."""
_KINDS = tuple(map(_kind, KINDS.values()))
if TYPE_CHECKING:
    Operation: TypeAlias = Step
else:
    Operation = Annotated[reduce(or_, _KINDS), Field(discriminator="do")]


class Coating(_Closed):
    """A coating: how far it grows outward from each surface, or which finish it is."""

    title: Name
    build_up: LengthOrZero | None = None
    build_up_most: Length | None = None
    """Where the build-up has a range, `build_up` is its least."""
    finish: Finish | None = None
    """"anodise II black 15 um", "0.0002 in to 0.0003 in"; in place of `build_up`."""

    @model_validator(mode="after")
    def _says_how_much(self) -> Coating:
        if (self.build_up is None) == (self.finish is None):
            raise ValueError("needs build_up, how far each surface grows, or finish, such as 'anodise II black 15 um'")
        if self.build_up_most is not None:
            if self.build_up is None:
                raise ValueError("has build_up_most without build_up")
            if self.build_up_most.base < self.build_up.base:
                raise ValueError(f"build_up_most, {self.build_up_most}, is less than build_up, {self.build_up}")
        return self

    @property
    def surface(self) -> BuildUp:
        """What it adds to one surface."""
        if self.finish is not None:
            return parse_build_up(self.finish, active())
        assert self.build_up is not None
        most = self.build_up if self.build_up_most is None else self.build_up_most
        return BuildUp(1000.0 * self.build_up.base, 1000.0 * most.base)


class Stock(_Closed):
    """What a part is made from, and what cutting it up costs."""

    form: Literal["bar", "tube", "hexagon", "plate"]
    diameter: Length | None = None
    bore: Length | None = None
    across_flats: Length | None = None
    thickness: Length | None = None
    width: Length | None = None
    bar_length: Length | None = None
    through_spindle: YesNo = False
    """Whether the whole bar is put through the spindle, not sawn to blanks before."""
    kerf: LengthOrZero | None = None
    facing: LengthOrZero | None = None
    grip: LengthOrZero | None = None
    pieces: Count = 1

    @model_validator(mode="after")
    def _sizes_of_the_form(self) -> Stock:
        needed = {
            "bar": ("diameter",),
            "tube": ("diameter", "bore"),
            "hexagon": ("across_flats",),
            "plate": ("thickness", "width"),
        }[self.form]
        sizes = ("diameter", "bore", "across_flats", "thickness", "width")
        missing = [name for name in needed if getattr(self, name) is None]
        extra = [name for name in sizes if name not in needed and getattr(self, name) is not None]
        if missing or extra:
            wrong = " and ".join(
                f"{verb} {', '.join(names)}" for verb, names in (("needs", missing), ("has no", extra)) if names
            )
            raise ValueError(f"{self.form} stock {wrong}")
        if self.through_spindle and self.bar_length is None:
            raise ValueError("through_spindle needs bar_length, for a long bar behind the spindle whips")
        if self.diameter is not None and self.bore is not None and self.bore.base >= self.diameter.base:
            raise ValueError(f"bore, {self.bore}, must be less than diameter, {self.diameter}")
        return self


class Joint(_Closed):
    """A threaded joint of the part, as the question `strength` asks. The factor of safety is the shop's to choose."""

    external: Name
    internal: Name
    engagement: Length
    factor_of_safety: Factor
    external_grade: Name | None = None
    internal_alloy: AlloyName
    internal_form: Name
    shock: YesNo = False


if TYPE_CHECKING:
    WholeJoint: TypeAlias = Joint
else:
    WholeJoint = _model(
        "WholeJoint",
        Joint,
        [
            (name, row, False)
            for name, row in _rows("strength").items()
            if name not in {*Joint.model_fields, "loading", "friction"}
        ],
    )


class AdjusterSecond(_Closed):
    """What differs at a turnbuckle's second end."""

    external: Name
    internal: Name
    thread_length: Length | None = None
    base_thread: Length | None = None
    base_reach: Length | None = None
    lock_nut: Length | None = None
    rod_bore: LengthOrZero | None = None


class Adjuster(_Closed):
    """How a threaded part is screwed into its bases: asks for a page on how far it may be wound out."""

    external: Name
    internal: Name
    second: AdjusterSecond | None = None
    thread_length: Length
    base_thread: Length
    tube_diameter: Length
    middle: Literal["tube", "body"] = "tube"
    bore: LengthOrZero | None = None
    rod_bore: LengthOrZero | None = None
    chamfer: LengthOrZero | None = None
    run_out: LengthOrZero | None = None
    countersink: LengthOrZero | None = None
    base_run_out: LengthOrZero | None = None
    base_outside: Length
    base_reach: Length
    base_alloy: AlloyName | None = None
    lock_nut: Length | None = None
    nut_outside: Length | None = None
    nut_countersink: LengthOrZero | None = None
    form: Name
    push: Name
    pull: Name
    factor_of_safety: Annotated[float, Field(ge=1, le=100)]
    rule_diameters: Annotated[float, Field(gt=0, le=10)] | None = None
    lubricant: str | None = None
    groove_width: LengthOrZero | None = None

    def asked(self, part: Part, build_up: str | None) -> dict[str, object]:
        """The question to `halfnut.adjuster`."""

        def plain(table: _Closed) -> dict[str, object]:
            return {key: str(value) if isinstance(value, Quantity) else value for key, value in table.given().items()}

        own = plain(self)
        if self.second is not None:
            own["second"] = plain(self.second)
        return own | {"alloy": part.alloy, "length_of_tube": str(part.length), "coating": build_up}


class TrueTo(_Closed):
    """Two features that must run true to each other: names of operations' surfaces, or operations' numbers."""

    feature: Name
    to: Name
    within: Length
    """Run-out that is allowed, full indicator reading."""


class Part(_Closed):
    """A part: how many, of what, and how it is made."""

    name: Name
    title: str = ""
    number: str = ""
    quantity: Count
    alloy: AlloyName
    stock: Stock
    length: Length
    machine: MachineName | None = None
    tool: str | None = None
    coating: CoatingName | None = None
    note: str = ""
    jaws: Count = 3
    """Of the chuck that holds it; with `friction` and `safety` the sheet tells the grip and how round it comes."""
    friction: Share | None = None
    safety: Factor | None = None
    joints: list[WholeJoint] = []
    adjuster: Adjuster | None = None
    true_to: list[TrueTo] = []
    operations: Annotated[list[Operation], Field(min_length=1)]

    @model_validator(mode="after")
    def _name_makes_a_file_name(self) -> Part:
        most = bounds()["designation_bytes"]
        if len(self.name.encode()) > most:
            raise ValueError(f"name must be at most {most} bytes, got {len(self.name.encode())}")
        return self

    @model_validator(mode="after")
    def _grip_is_whole(self) -> Part:
        if (self.friction is None) != (self.safety is None):
            raise ValueError("friction and safety of the grip are given together or not at all")
        return self


class Job(_Closed):
    """A job: what goes in the title block, the coatings, and the parts."""

    title: Name
    number: str = ""
    revision: str = ""
    date: str = ""
    owner: str = ""
    prepared_by: str = ""
    approved_by: str = ""
    machine: MachineName | None = None
    coatings: dict[str, Coating] = {}
    parts: Annotated[list[Part], Field(min_length=1)]

    @model_validator(mode="after")
    def _names_are_unique(self) -> Job:
        seen: dict[str, int] = {}
        for place, part in enumerate(self.parts):
            alike = " ".join(unicodedata.normalize("NFKC", part.name).casefold().split())
            if alike in seen:
                raise ValueError(
                    f"parts[{place}].name, '{part.name}', is that of parts[{seen[alike]}]; names must differ"
                )
            seen[alike] = place
        return self

    @model_validator(mode="after")
    def _every_operation_has_a_machine(self) -> Job:
        homeless = [
            f"parts[{i}].operations[{k}]"
            for i, part in enumerate(self.parts)
            for k, operation in enumerate(part.operations)
            if (operation.machine or part.machine or self.machine) is None
        ]
        if homeless:
            raise ValueError(
                f"machine is missing for {', '.join(homeless)}: give it there, for the part or for the job"
            )
        return self


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

    >>> schema()["required"]
    ['title', 'parts']
    """
    return Job.model_json_schema()


def load(job: str | os.PathLike[str] | Mapping[str, Any] | Job) -> tuple[Job, str]:
    """Read a job, and what messages call it.

    Parameters
    ----------
    job : path, dict or Job
        A job file, or a dictionary shaped as one.

    Raises
    ------
    InputError
        Every mistake at once: where, what is there, what is allowed, what was probably meant.
    """
    if isinstance(job, Job):
        return job, job.title
    if isinstance(job, Mapping):
        return _validated(copy.deepcopy(dict(job)), "job", None), "job"
    path = Path(job)
    return _validated(load_toml(path), str(path), path.parent, path), str(path)


def _validated(data: dict[str, Any], name: str, folder: Path | None, file: Path | None = None) -> Job:
    refuse_large(data, name)
    coatings = data.get("coatings")
    context = {"folder": folder, "coatings": list(coatings) if isinstance(coatings, Mapping) else []}
    try:
        return Job.model_validate(data, context=context)
    except ValidationError as error:
        lines = [] if file is None else lines_of(read_text(file))
        raise InputError(name, [_placed(each, data, lines) for each in from_pydantic(error, Job, data)]) from None


_KEY = re.compile(r"parts\[(\d+)\](?:\.operations\[(\d+)\])?\.?(.*)")


def _placed(mistake: Mistake, data: dict[str, Any], lines: list[tuple[int, list[int]]]) -> Mistake:
    """A mistake with the name of its part, the number of its operation and its line."""
    at = _KEY.fullmatch(mistake.key)
    if at is None:
        return mistake
    part, step = int(at[1]), -1 if at[2] is None else int(at[2])
    given = data["parts"][part]
    name = given.get("name") if isinstance(given, Mapping) else None
    of = [name if isinstance(name, str) and name else f"part {part + 1}"]
    if step >= 0:
        of.append(f"operation {10 * (step + 1)}")
    line = line_of(lines, part, step)
    if line is not None:
        of.append(f"line {line}")
    return replace(mistake, place=": ".join(filter(None, (", ".join(of), at[3]))))
