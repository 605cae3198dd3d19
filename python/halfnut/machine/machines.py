"""The shop's machines: `lathe` and `milling_machine` find a machine file by path or by name."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar

from halfnut import _core
from halfnut._core import DomainError, NotTabulatedError, Quantity, nearest_name
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active_folders
from halfnut.core.fixed import fixed, token
from halfnut.core.shapes import Positions
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.text import shown
from halfnut.demo import FOLDER
from halfnut.machine.machine_file import (
    ChartRow,
    FeedLadder,
    FeedStep,
    MachineFile,
    RateLadder,
    RateStep,
    Slide,
    SpindleStep,
    Thread,
    Threading,
    from_dict,
    read,
)

if TYPE_CHECKING:
    MachineName: TypeAlias = "str | os.PathLike[str] | Machine"

_Kind = TypeVar("_Kind")

__all__ = ["Machine", "fastest_step", "lathe", "machine", "milling_machine", "names"]


class Machine:
    """A machine of the shop: what its file says, and the core's form of it.

    Attributes
    ----------
    file : MachineFile
        The file's own words and units.
    core : halfnut._core.Machine
        The same in base units, as the core computes with it.
    path : Path or None
        Where it was read from.
    """

    __slots__ = ("core", "file", "path")
    core: _core.Machine
    file: MachineFile
    path: Path | None

    def __init__(self, file: MachineFile, path: Path | None = None):
        object.__setattr__(self, "core", to_core(file))
        object.__setattr__(self, "file", fixed(file))
        object.__setattr__(self, "path", path)

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"a machine is not changed in place: replace({name}=...) makes another")

    def replace(self, **changes: object) -> Machine:
        """Another machine, like this one but for some keys of its file.

        Parameters
        ----------
        **changes
            Keys of a machine file with new values, quantities as text; None leaves a key out.

        Returns
        -------
        Machine
            Without a path. Give it to any function that takes a machine.

        Raises
        ------
        InputError
            A key that there is not, or a value that cannot be read.

        >>> lathe("gap-bed").replace(motor="3 hp").core.motor_kw > lathe("gap-bed").core.motor_kw
        True
        """
        plain = self.to_dict() | changes
        given = {key: str(value) if isinstance(value, Quantity) else value for key, value in plain.items()}
        return Machine(from_dict({key: value for key, value in given.items() if value is not None}, self.name))

    @property
    def name(self) -> str:
        """The name it is called by."""
        return self.file.name

    @property
    def title(self) -> str:
        """What a sheet calls it."""
        return self.file.title or self.file.name

    @property
    def kind(self) -> str:
        """Its kind: lathe, mill or drill press."""
        return self.file.kind

    @property
    def unit(self) -> str:
        """Unit of its dials: "in" or "mm"."""
        return "in" if self.file.system == "inch" else "mm"

    def lines(self) -> list[str]:
        """The machine on a terminal: what it is, its spindle, its feeds, its dials."""
        file = self.file
        out = [f"{self.title} ({file.name}): {file.kind}, {file.system} dials, {file.motor} motor"]
        out += ["spindle, rev/min"]
        for step in file.spindle.steps:
            speed = f"{step.rpm:g}" if step.rpm_low is None else f"{step.rpm_low:g} to {step.rpm:g}"
            out.append(f"  {speed:>12}  {positions_text(step.positions)}")
        for label, ladder in (("carriage", file.carriage), ("quill", file.quill), ("table", file.table)):
            if ladder is not None and ladder.steps:
                out.append(f"{label} feeds")
                out += [f"  {step.feed!s:>12}  {positions_text(step.positions)}" for step in ladder.steps]
        out += self._sizes()
        core = self.core
        out.append(
            f"by hand  {core.tailstock_turns_per_min:g} turns a minute at tailstock or quill, "
            f"{core.table_turns_per_min:g} at a slide"
        )
        out.append("dials")
        for name, slide in file.slides.items():
            reads = f", reads {slide.reads}" if slide.reads != "travel" else ""
            out.append(f"  {name:>12}  {slide.per_turn} a turn, {slide.graduation} a line{reads}")
        return out

    def _sizes(self) -> list[str]:
        """What goes into a lathe, and what its chucks take."""
        file = self.file
        swing = file.swing_over_bed or (None if file.centre_height is None else f"centre height {file.centre_height}")
        named = (
            ("over bed", swing),
            ("over cross slide", file.swing_over_cross_slide),
            ("in gap", file.swing_in_gap),
            ("between centres", file.between_centres),
            ("spindle bore", file.spindle_bore),
        )
        out = [f"  {label:>16}  {value}" for label, value in named if value is not None]
        for chuck in file.chucks:
            opens = "" if chuck.opening_greatest is None else f", opens to {chuck.opening_greatest}"
            limit = "no speed marked" if chuck.max_rpm is None else f"{chuck.max_rpm:g} rev/min"
            out.append(f"  {chuck.name:>16}  {limit}{opens}")
        return ["room", *out] if out else []

    def to_dict(self) -> dict[str, Any]:
        """The file as plain dictionaries and lists, quantities as text; what is not given is left out."""
        plain: dict[str, Any] = _plain(self.file)
        return plain

    def missing(self) -> list[tuple[str, str]]:
        """What the file leaves out, and what the answers lack without it."""
        file = self.file
        wanted = {"lathe": ("cross", "compound", "carriage", "tailstock"), "mill": ("x", "y", "z")}.get(file.kind, ())
        out = [(f"slides.{name}", f"no dial readings for the {name}") for name in wanted if name not in file.slides]
        if file.efficiency is None and any(step.power is None for step in file.spindle.steps):
            out.append(("efficiency", "a typical one is taken from motor to spindle"))
        if not file.chucks:
            out.append(("chucks", "no limit of speed for what holds the work"))
        for place, chuck in enumerate(file.chucks):
            if chuck.max_rpm is None:
                out.append((f"chucks[{place}].max_rpm", "a cautious rim speed is taken"))
            if file.kind == "lathe" and chuck.jaws:
                if chuck.opening_greatest is None or chuck.opening_least is None:
                    out.append((f"chucks[{place}].opening_least and opening_greatest", "work is not held against them"))
                if chuck.jaw_weight is None:
                    out.append((f"chucks[{place}].jaw_weight", "the grip that the jaws lose at speed is not told"))
        if file.kind == "mill":
            wanted = ("x", "quill") if "quill" in file.slides else ("x",)
            out += [
                (f"slides.{name}.travel", "a cut that is too long for it is not told")
                for name in wanted
                if name in file.slides and file.slides[name].travel is None
            ]
        if file.kind == "lathe":
            sizes = (
                ("swing_over_bed", file.swing_over_bed or file.centre_height, "work too wide for the lathe"),
                ("swing_over_cross_slide", file.swing_over_cross_slide, "work too wide for the carriage to pass"),
                ("between_centres", file.between_centres, "work too long for the lathe"),
                ("spindle_bore", file.spindle_bore, "a bar too wide for the spindle"),
            )
            out += [(name, f"{what} is not refused") for name, given, what in sizes if given is None]
            if file.spindle_length is None:
                out.append(("spindle_length", "the whole bar behind the overhang is taken to whip"))
            if file.carriage is None or not file.carriage.steps:
                out.append(("carriage", "no power feed: answers are in turns of the handle"))
            if file.threading is None:
                out.append(("threading", "no threads can be chased"))
        return out

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Machine) and self.file == other.file

    def __hash__(self) -> int:
        return hash(self.file)

    def __reduce__(self) -> tuple[Any, ...]:
        return Machine, (self.file, self.path)

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the machine by: what its file says."""
        return token(self, self.to_dict())

    def __str__(self) -> str:
        return "\n".join(self.lines())

    def __repr__(self) -> str:
        return f"<Machine {self.name}: {self.title}>"

    def _repr_html_(self) -> str:
        import html

        return f'<pre style="background:none;color:inherit">{html.escape(shown(str(self)))}</pre>'


def _plain(value: Any) -> Any:
    if is_dataclass(value):
        given = {each.name: getattr(value, each.name) for each in fields(value)}
        return {name: _plain(each) for name, each in given.items() if each is not None}
    if isinstance(value, Mapping):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(each) for each in value]
    return str(value) if isinstance(value, Quantity) else value


def positions_text(positions: Positions) -> str:
    """Lever positions in one line.

    >>> positions_text({"range": "B", "lever": "2"})
    'range B, lever 2'
    """
    return ", ".join(f"{control} {setting}" for control, setting in positions.items())


@checked
def lathe(machine_or_name: MachineName) -> Machine:
    """A lathe of the shop.

    Parameters
    ----------
    machine_or_name : str, Path or Machine
        A machine file's path, or a name: of a file in a shop folder's ``machines``, in a package that offers one
        through the entry-point group ``halfnut.tables``, or of a demonstration machine.

    Returns
    -------
    Machine
        With its levers, feeds, dials and sizes.

    Raises
    ------
    NotTabulatedError
        No machine of that name; the message lists those there are.
    DomainError
        The machine is not a lathe.
    InputError
        The file has mistakes: every one of them is in the message.

    >>> lathe("gap-bed").unit
    'in'
    """
    return _of_kind(machine(machine_or_name), ("lathe",))


@checked
def milling_machine(machine_or_name: MachineName) -> Machine:
    """A milling machine or drill press of the shop; see `lathe`.

    Parameters
    ----------
    machine_or_name : str, Path or Machine
        As for `lathe`.

    Returns
    -------
    Machine
        With its levers, feeds, dials and travels.

    Examples
    --------
    >>> milling_machine("bench-mill").kind
    'mill'
    """
    return _of_kind(machine(machine_or_name), ("mill", "drill press"))


def _of_kind(found: Machine, kinds: tuple[str, ...]) -> Machine:
    if found.kind not in kinds:
        others = [name for name in names() if machine(name).kind in kinds]
        raise DomainError(f"{found.name} is a {found.kind}, not a {kinds[0]}; of that kind: {', '.join(others)}")
    return found


def machine(machine_or_name: MachineName | None) -> Machine:
    """A machine of any kind; see `lathe`."""
    if isinstance(machine_or_name, Machine):
        return machine_or_name
    if not isinstance(machine_or_name, (str, os.PathLike)):
        raise DomainError(f"machine must be a name, a path or a Machine, got {machine_or_name!r}")
    if str(machine_or_name).strip() == "":
        raise NotTabulatedError(f"machine must have a name, got ''. At hand: {', '.join(names())}")
    path = _find(machine_or_name)
    return _load(path, path.stat().st_mtime_ns)


@lru_cache(maxsize=64)
def _load(path: Path, changed_ns: int) -> Machine:
    return Machine(read(path), path)


def fastest_step(shop: Machine, rpm: float) -> float:
    """The fastest speed of a machine that is not above another, rev/min, else its slowest.

    >>> fastest_step(lathe("gap-bed"), 1.0) == lathe("gap-bed").core.spindle[0].rpm
    True
    """
    steps = shop.core.spindle
    reached = [min(rpm, step.rpm) for step in steps if (step.rpm_low if step.variable else step.rpm) <= rpm]
    return max(reached, default=steps[0].rpm_low if steps[0].variable else steps[0].rpm)


def names() -> list[str]:
    """Names of the machines at hand: the shop's, then the demonstration's."""
    return sorted({path.stem for folder in _folders() for path in folder.glob("*.toml")})


def _find(path_or_name: str | os.PathLike[str]) -> Path:
    given = Path(path_or_name)
    if given.suffix == ".toml" or len(given.parts) > 1:
        if given.is_file():
            return given
        raise NotTabulatedError(f"no machine file {given}")
    most = _core.bounds()["designation_bytes"]
    if len(os.fsencode(given)) > most:
        raise NotTabulatedError(f"no machine '{str(given)[:60]}...'; a name has at most {most} bytes")
    for folder in _folders():
        path = folder / f"{given}.toml"
        if path.is_file():
            return path
    known = names()
    nearest = nearest_name(str(given), known)
    hint = f"; did you mean '{nearest}'?" if nearest else "."
    raise NotTabulatedError(f"no machine '{given}'{hint} At hand: {', '.join(known)}")


def _folders() -> Iterator[Path]:
    """Folders of machine files: the shop's, those of installed packages, the demonstration's."""
    for folder in reversed(active_folders()):
        yield folder / "machines"
    yield FOLDER / "machines"


_BASE = ("", "_mm", "_kw", "_kg", "_nm", "_s")
"""Ends of the core's names for what a file gives under the name alone."""


def _made(kind: type[_Kind], given: object, /, **own: object) -> _Kind:
    """The core's record of what a file gives, by its names and in base units; `own` is what is not called alike.

    What is not given is as the core has it.
    """
    values: dict[str, Any] = dict(own)
    for name in (each.name for each in fields(given)):  # type: ignore[arg-type]
        called = next((name + end for end in _BASE if hasattr(kind, name + end)), None)
        if called is not None:
            values.setdefault(called, getattr(given, name))
    plain: dict[str, Any] = {
        name: value.base if isinstance(value, Quantity) else value for name, value in values.items()
    }
    if "positions" in plain:
        plain["positions"] = [_core.Position(control, setting) for control, setting in plain["positions"].items()]
    return kind(**{name: value for name, value in plain.items() if value is not None})


def to_core(file: MachineFile) -> _core.Machine:
    """The core's form of a machine file."""
    stop, head, hands, seconds = file.spindle.stop_to_change, file.dividing, file.hands, file.seconds
    steps = [_made(_core.SpindleStep, step, stop_to_change=_either(step, stop)) for step in file.spindle.steps]
    return _made(
        _core.Machine,
        file,
        inch=file.system == "inch",
        spindle=steps,
        carriage=_ladder(file.carriage, "per rev"),
        quill=_ladder(file.quill, "per rev"),
        table=_ladder(file.table, "per minute"),
        slides=[_slide(name, slide) for name, slide in file.slides.items()],
        chucks=[
            _made(
                _core.Chuck,
                chuck,
                cast_iron=chuck.body != "steel",
                rpm_limit=chuck.max_rpm,
                jaw_mass_kg=chuck.jaw_weight,
            )
            for chuck in file.chucks
        ],
        threading=None if file.threading is None else _threading(file.threading),
        lever_change_s=seconds.lever,
        stop_change_s=seconds.stop,
        measure_s=seconds.measure,
        tool_change_s=seconds.tool,
        tailstock_turns_per_min=hands.tailstock_turns,
        table_turns_per_min=hands.table_turns,
        half_nut_s=hands.half_nut,
        hand_ream_rpm=hands.ream_rpm,
        hand_knurl_rpm=hands.knurl_rpm,
        hand_axes=hands.axes,
        dividing_ratio=None if head is None else head.ratio,
        dividing_plates=None if head is None else head.plates,
        direct_holes=None if head is None else head.direct,
    )


def _either(step: SpindleStep | FeedStep | RateStep, every: bool) -> bool:
    """Whether the spindle is stopped for a step: its own word, else that of the ladder."""
    return every if step.stop_to_change is None else step.stop_to_change


def _ladder(ladder: FeedLadder | RateLadder | None, kind: str) -> _core.FeedLadder:
    if ladder is None:
        return _core.FeedLadder(kind=kind)
    inch = bool(ladder.steps) and ladder.steps[0].feed.system == "inch"
    unit = MM_PER_INCH if inch else 1.0
    steps = [
        _made(
            _core.FeedStep,
            step,
            marked=step.feed.value if (step.feed.system == "inch") == inch else step.feed.base / unit,
            stop_to_change=_either(step, ladder.stop_to_change),
        )
        for step in ladder.steps
    ]
    return _made(_core.FeedLadder, ladder, kind=kind, marked_in_inch=inch, steps=steps)


def _slide(name: str, slide: Slide) -> _core.Slide:
    return _made(
        _core.Slide,
        slide,
        name=name,
        travel_per_turn_mm=slide.per_turn,
        marked_in_inch=slide.graduation.system == "inch",
        marked_graduation=slide.graduation.value,
        reads_diameter=slide.reads == "diameter",
        approach_minus=slide.approach == "minus",
    )


def _threading(threading: Threading) -> _core.Threading:
    inch, box, dial = threading.threads_per_inch, threading.gearbox, threading.dial
    lead_mm = MM_PER_INCH / inch if threading.lead is None else threading.lead.base  # type: ignore[operator]
    module = threading.module if threading.diametral_pitch is None else MM_PER_INCH / threading.diametral_pitch
    return _made(
        _core.Threading,
        threading,
        metric=inch is None,
        lead_mm=lead_mm,
        module_mm=module,
        banjo_low_mm=threading.banjo_nearest,
        banjo_high_mm=threading.banjo_farthest,
        chart=[_chart_row(row) for row in threading.chart],
        standard_driver=None if box is None else box.driver,
        standard_driven=None if box is None else box.driven,
        gearbox=[] if box is None else [_gearbox_step(thread, lead_mm) for thread in box.steps],
        dial_threads_per_turn=None if dial is None else float(dial.teeth),
        dial_marks=None if dial is None else dial.marks,
    )


def _pitch_mm(row: Thread | ChartRow) -> float:
    """Pitch of a row of a chart, that says it or threads an inch."""
    return MM_PER_INCH / row.threads_per_inch if row.pitch is None else row.pitch.base  # type: ignore[operator]


def _chart_row(row: ChartRow) -> _core.ChartRow:
    return _made(_core.ChartRow, row, inch=row.threads_per_inch is not None, lead_mm=_pitch_mm(row))


def _gearbox_step(thread: Thread, lead_mm: float) -> _core.GearboxStep:
    return _made(_core.GearboxStep, thread, ratio=_pitch_mm(thread) / lead_mm)
