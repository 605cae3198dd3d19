"""Job files: parts, their stock, and the operations that make them, as TOML.

The models below are the format; their fields are the keys. They check shape: keys, types, texts with units, names
that must exist. Whether a cut can be made is the core's to say, one operation at a time.
"""

from __future__ import annotations

import copy
import hashlib
import os
import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any, ClassVar, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, ValidationError, ValidationInfo, model_validator

from halfnut._core import BuildUp, Error, Quantity, bounds, find_alloy, parse_build_up
from halfnut.core.catalogue import active
from halfnut.core.fixed import fixed, one_line, token
from halfnut.core.mistakes import InputError, Mistake, NameMistake, from_pydantic
from halfnut.core.shapes import AtLeast, Count, Length, Text, YesNo, load_toml, refuse_large
from halfnut.core.text import read_text
from halfnut.machine import machines
from halfnut.planning.job_lines import line_of, lines_of

__all__ = ["Coating", "Job", "Joint", "Operation", "Part", "Stock", "load"]


class _AlloyName:
    """The name of an alloy in the catalogue."""

    def check(self, value: str) -> str:
        try:
            find_alloy(value, active())
        except Error as error:
            raise ValueError(str(error)) from None
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_after_validator_function(self.check, core_schema.str_schema(strict=True))


class _MachineName:
    """The name of a machine at hand, or a machine file's path from the job file's folder."""

    def check(self, value: str, info: ValidationInfo) -> str:
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

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.with_info_after_validator_function(self.check, core_schema.str_schema(strict=True))


class _CoatingName:
    """The name of one of the job's coatings."""

    def check(self, value: str, info: ValidationInfo) -> str:
        known = (info.context or {}).get("coatings", ())
        if value not in known:
            raise NameMistake("no coating of that name in this job", value, known)
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.with_info_after_validator_function(self.check, core_schema.str_schema(strict=True))


AlloyName = Annotated[str, _AlloyName()]
MachineName = Annotated[str, _MachineName()]
CoatingName = Annotated[str, _CoatingName()]
LengthOrZero = Annotated[Quantity, Text("length", zero=True)]
Name = Annotated[str, Field(min_length=1)]
Force = Annotated[Quantity, Text("force")]
Factor = Annotated[float, AtLeast(1, included=True)]
Share = Annotated[float, Field(gt=0, le=1)]
Degrees = Annotated[float, Field(gt=0, lt=180)]


class _Closed(BaseModel):
    model_config: ClassVar[ConfigDict] = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    def model_post_init(self, context: Any, /) -> None:
        """Lists and tables that nobody can change."""
        self.__dict__.update({name: fixed(value) for name, value in self.__dict__.items()})

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the table of a job by."""
        return token(self, *self.__dict__.items())

    def __repr__(self) -> str:
        said = ", ".join(f"{name}={value!r}" for name, value in self.__dict__.items() if value)
        return one_line(f"<{type(self).__name__} {said}>")


class Step(_Closed):
    """What every operation may say."""

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


class Placed(Step):
    """An operation at a place along the work."""

    at: LengthOrZero | None = None
    """Where it begins, from the finished face of its end. Without it a groove lies against the shoulder, a knurl
    behind all that its end has smaller, everything else at the face."""


class Turn(Placed):
    """Turn the outside down to a diameter, from the running diameter or from `start`.

    `depth` is the deepest that one pass may be, on the radius; `finish` makes it one finishing pass; of `tolerance`, of
    the diameter, the bend of the last two may take half. With a `fit`, such as "g6", `to` is the nominal size, and the
    limits to turn to are those of the class.
    """

    do: Literal["turn"]
    to: Length
    fit: Name | None = None
    length: Length
    start: Length | None = None
    depth: Length | None = None
    finish: YesNo = False
    nose_radius: Length | None = None
    roughness: Length | None = None
    tolerance: Length | None = None
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck"
    stick_out: Length | None = None
    steadies: list[Length] = []
    """Places of fixed steadies, from the chuck or the first centre."""


class Taper(Placed):
    """Turn a taper from the running diameter, or `start`, down to `to` at its end, over `length` along the axis."""

    do: Literal["taper"]
    to: Length
    length: Length
    start: Length | None = None
    between_centres: Length | None = None
    """Of the whole work, for setting over the tailstock."""
    depth: Length | None = None
    finish: YesNo = False
    nose_radius: Length | None = None
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck"
    stick_out: Length | None = None


class Groove(Placed):
    """Cut a groove down to a diameter; `width` is the blade's where none is given."""

    do: Literal["groove"]
    to: Length
    blade: Length
    width: Length | None = None
    start: Length | None = None


class Face(Step):
    """Face the end: `off` is how much comes off, `to` the diameter to stop at."""

    do: Literal["face"]
    off: Length
    to: Length | None = None
    start: Length | None = None
    depth: Length | None = None
    finish: YesNo = False
    nose_radius: Length | None = None
    roughness: Length | None = None


class Bore(Placed):
    """Bore the hole out to a diameter, from the running hole or from `start`; `fit`, such as "H7", as for turning."""

    do: Literal["bore"]
    to: Length
    fit: Name | None = None
    length: Length
    start: Length | None = None
    depth: Length | None = None
    finish: YesNo = False
    bar: Length | None = None
    stick_out: Length | None = None
    nose_radius: Length | None = None
    roughness: Length | None = None
    tolerance: Length | None = None


class PartOff(Step):
    """Part the piece off the bar."""

    do: Literal["part off"]
    blade: Length
    stick_out: Length | None = None


class Places(_Closed):
    """Where holes lie, from a stated zero, as the question `positions` asks."""

    pattern: Literal["circle", "row", "grid", "list"]
    zero: str = ""
    """Where the dials are set to zero, in words: "left front corner"."""
    holes: Count | None = None
    rows: Count | None = None
    diameter: Length | None = None
    step: Length | None = None
    row_step: Length | None = None
    angle: float = 0.0
    over: float = 360.0
    clockwise: YesNo = False
    x: str | None = None
    y: str | None = None
    at: list[str] = []
    """Of a list: "1 in, 2 in" each."""
    edge_finder: Length | None = None

    @property
    def count(self) -> int:
        """How many holes."""
        return len(self.at) if self.pattern == "list" else (self.holes or 0) * (self.rows or 1)


class Repeated(Step):
    """An operation that is done at several places, or at each division of a turn."""

    places: Places | None = None
    divisions: Count | None = None
    """Parts of a turn on the dividing head: the operation is done at each."""

    @model_validator(mode="after")
    def _as_often(self) -> Repeated:
        if self.places is not None and self.divisions is not None:
            raise ValueError("has places and divisions: give one")
        count = self.divisions if self.places is None else self.places.count
        if count:
            if "times" in self.model_fields_set and self.times != count:
                raise ValueError(f"times, {self.times}, must be the {count} of its places or divisions; leave it out")
            self.__dict__["times"] = count
        return self


class Drill(Repeated):
    """Drill a hole; without `depth`, through the piece."""

    do: Literal["drill"]
    diameter: Length
    depth: Length | None = None


class Spot(Repeated):
    """Spot a hole's place; `diameter` is the spot's at the surface, `point` its included angle in degrees."""

    do: Literal["spot"]
    diameter: Length
    point: Degrees | None = None


class Countersink(Repeated):
    """Countersink a hole: `hole` or the running one; `included` is the cone's angle in degrees."""

    do: Literal["countersink"]
    diameter: Length
    hole: Length | None = None
    included: Degrees | None = None
    flutes: Count | None = None


class Counterbore(Repeated):
    """Counterbore a hole, `hole` or the running one, flat at the bottom."""

    do: Literal["counterbore"]
    diameter: Length
    depth: Length
    hole: Length | None = None
    flutes: Count | None = None


class Ream(Repeated):
    """Ream a drilled hole; without `depth`, through the piece."""

    do: Literal["ream"]
    diameter: Length
    depth: Length | None = None


class Tap(Repeated):
    """Tap a drilled hole; without `depth`, through the piece. `form` is a tap that forms the thread."""

    do: Literal["tap"]
    thread: Name
    depth: Length | None = None
    form: YesNo = False


class Mill(Repeated):
    """Mill a slot, a pocket or a side with an end mill, or a face with a face mill."""

    do: Literal["mill"]
    shape: Literal["slot", "pocket", "side", "face"]
    cutter: Length
    flutes: Count | None = None
    length: Length
    width: Length
    depth: Length
    step_down: Length | None = None
    step_over: Length | None = None
    stick_out: Length | None = None
    nose_radius: Length | None = None
    roughness: Length | None = None
    entry: Literal["ramp"] | None = None
    """How an end mill goes down into a slot or pocket at each level."""
    entry_angle: Degrees | None = None


class Saw(Repeated):
    """Slit with a saw on an arbor, in one pass to depth."""

    do: Literal["saw"]
    blade: Length
    thickness: Length
    teeth: Count
    length: Length
    depth: Length


class Thread(Placed):
    """Cut a thread, outside or inside."""

    do: Literal["thread"]
    thread: Name
    side: Literal["external", "internal"] = "external"
    length: Length
    engagement: Length | None = None
    infeed: Literal["flank", "straight", "alternating"] = "flank"
    nose_radius: Length | None = None
    run_out: Length | None = None


class Knurl(Placed):
    """Knurl a band; `diameter` is the blank's, or with `finished` the knurled one."""

    do: Literal["knurl"]
    pitch: Name
    pattern: str | None = None
    diameter: Length | None = None
    finished: YesNo = False
    width: Length
    process: Literal["form", "cut"] = "form"
    wheels: Literal[1, 2, 3] = 1
    hole: Length | None = None


Operation: TypeAlias = Annotated[
    Turn
    | Taper
    | Face
    | Bore
    | Groove
    | PartOff
    | Spot
    | Drill
    | Countersink
    | Counterbore
    | Ream
    | Tap
    | Mill
    | Saw
    | Thread
    | Knurl,
    Field(discriminator="do"),
]


class _FinishText:
    """A build-up with its range, or a coating by name and film, as `halfnut.material.coatings.build_up` reads them."""

    def check(self, value: str) -> str:
        try:
            parse_build_up(value, active())
        except Error as error:
            raise ValueError(str(error)) from None
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_after_validator_function(self.check, core_schema.str_schema(strict=True))


class Coating(_Closed):
    """A coating: how far it grows outward from each surface, or which finish it is."""

    title: Name
    build_up: LengthOrZero | None = None
    build_up_most: Length | None = None
    """Where the build-up has a range, `build_up` is its least."""
    finish: Annotated[str, _FinishText()] | None = None
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
    """A threaded joint of the part: what its sheet says of strength. The factor of safety is the shop's to choose."""

    external: Name
    internal: Name
    engagement: Length
    factor_of_safety: Factor
    load: Force | None = None
    external_grade: Name | None = None
    external_alloy: AlloyName | None = None
    external_form: Name | None = None
    internal_alloy: AlloyName
    internal_form: Name
    external_bore: Length | None = None
    internal_outside: Length | None = None
    external_chamfer: Length | None = None
    external_run_out: Length | None = None
    internal_countersink: Length | None = None
    internal_run_out: Length | None = None
    shock: YesNo = False
    rotating: YesNo = False


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

    def asked(self, part: Part, build_up: str | None) -> dict[str, Any]:
        """The question to `halfnut.adjuster`."""
        own = {
            key: str(value) if isinstance(value, Quantity) else value
            for key, value in self
            if value is not None and key != "second"
        }
        if self.second is not None:
            own["second"] = {
                key: str(value) if isinstance(value, Quantity) else value
                for key, value in self.second
                if value is not None
            }
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
    joints: list[Joint] = []
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
