"""Thousands to millions of setups at once: columns in, columns out.

Every function takes a table (a mapping of arrays, a pandas, Arrow or polars table) and answers with one of the same
kind, a row for each row. A row that has no answer holds NaN in every figure, a `status` other than 0 and a `reason`;
it never stops the others. Each row is what the scalar function gives for the same numbers, bit for bit, for any
number of workers.

Columns of lengths carry their unit in their name, ``diameter_mm`` or ``diameter_in``, or in their values, as pint's
and astropy's do: those are converted, and may be called ``diameter``. Columns that name nothing here are left alone.

A cell without a number (NaN, null) is not given: it takes what the scalar function takes when the argument is left
out, in the system of the question. That is inch where all diameters are in inches, else metric. NaN for a whole
batch (``hardness_hb=nan``) is refused.
"""

from __future__ import annotations

import difflib
import os
import re
from collections.abc import Callable, Iterable, Mapping, MutableMapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from halfnut import _core, carriers
from halfnut._core import DomainError, Error, Evidence, Quantity, nearest_name
from halfnut.arguments import checked
from halfnut.carriers import carried_units, memory
from halfnut.catalogue import active, carried
from halfnut.extras import optional
from halfnut.frames import Frame, open_frame, spelled_out
from halfnut.tools import Tool, find_tool
from halfnut.units import mm

__all__ = [
    "NOT_REACHED",
    "Case",
    "RowCase",
    "Stopped",
    "cases",
    "cautions",
    "column_types",
    "drill",
    "fit",
    "knurl_blank",
    "limits",
    "meta",
    "mill",
    "reasons",
    "row_cases",
    "taper_pipe",
    "turn",
    "wires",
]

NOT_REACHED = 255
"""Status of a row that a stopped run did not come to."""

_NOT_REACHED_REASON = NOT_REACHED << 8
_NO_ARGUMENT = 255

# Other units that a column may carry: one of them is 127 over this in the unit of the core, rounded as a scalar's is.
_OTHER_UNITS = {"_mm_rev": ("_in_rev", 5.0), "_mm": ("_in", 5.0), "_um": ("_uin", 5000.0)}
_AS_IT_IS = 0.0

_DTYPES: dict[str, type] = {
    "spindle_step": np.uint16,
    "feed_step": np.uint16,
    "passes": np.uint16,
    "limited_by": np.uint8,
    "cautions": np.uint64,
    "case_id": np.int32,
    "status": np.uint8,
    "reason": np.uint16,
}

_USUAL = {
    "turn": [
        "spindle_step",
        "spindle_rpm",
        "cutting_speed_m_min",
        "feed_step",
        "feed_mm_rev",
        "depth_mm",
        "cutting_force_n",
        "spindle_power_kw",
        "torque_nm",
        "mrr_cm3_min",
        "roughness_ra_um",
        "deflection_mm",
        "time_s",
        "limited_by",
        "cautions",
        "case_id",
        "status",
        "reason",
    ],
    "drill": [
        "spindle_step",
        "spindle_rpm",
        "cutting_speed_m_min",
        "feed_step",
        "feed_mm_rev",
        "feed_force_n",
        "spindle_power_kw",
        "torque_nm",
        "mrr_cm3_min",
        "time_s",
        "limited_by",
        "cautions",
        "status",
        "reason",
    ],
    "mill": [
        "spindle_step",
        "spindle_rpm",
        "cutting_speed_m_min",
        "feed_step",
        "feed_mm_min",
        "feed_per_tooth_mm",
        "depth_mm",
        "width_mm",
        "passes",
        "cutting_force_n",
        "spindle_power_kw",
        "torque_nm",
        "mrr_cm3_min",
        "deflection_mm",
        "time_s",
        "limited_by",
        "cautions",
        "status",
        "reason",
    ],
}

# Rows between two looks at the clock, the cancel switch and the keyboard.
_CHUNKS = {"turn": 1 << 18, "drill": 1 << 13, "mill": 1 << 13, "limits": 1 << 13, "fit": 1 << 13, "wires": 1 << 12}
_CHUNKS |= {"knurl_blank": 1 << 13, "taper_pipe": 1 << 13}

# Texts and numbers that make a row of the kinds whose rows repeat.
_FILMS = tuple(f"build_up_{side}_{end}_um" for side in ("external", "internal") for end in ("min", "max"))
_ROWS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "limits": (("thread",), ("engagement_mm",)),
    "fit": (("external", "internal"), ("engagement_mm", *_FILMS)),
    "wires": (("thread",), ("wire_mm",)),
    "taper_pipe": (("thread",), ()),
    "knurl_blank": (("pitch",), ("diameter_mm",)),
}

_FIGURE = np.dtype(np.float64)
_Types = dict[str, np.dtype[Any]]

_LEFT_OUT = {"turn": {"end_diameter_mm", "bar_diameter_mm"}, "drill": {"teeth", "pitch_mm"}, "mill": set[str]()}

Progress = Callable[[int, int], object]


class Stopped(Error):
    """A run was cancelled; the message says after how many rows."""


@dataclass(frozen=True)
class _Argument:
    """An argument of a kind of batch: the core's name, and the columns that may give it, see _OTHER_UNITS."""

    name: str
    unit: str
    required: bool

    @property
    def system_matters(self) -> bool:
        """Whether its unit is that of the question: what is left open is then usual in inch or in metric work."""
        return self.name == "diameter_mm"

    @property
    def spellings(self) -> dict[str, float]:
        for suffix, (other, factor) in _OTHER_UNITS.items():
            if self.name.endswith(suffix):
                return {self.name: _AS_IT_IS, self.name.removesuffix(suffix) + other: factor}
        return {self.name: _AS_IT_IS}

    @property
    def stem(self) -> str:
        """The name without its unit."""
        for suffix in _OTHER_UNITS:
            if self.name.endswith(suffix):
                return self.name.removesuffix(suffix)
        return re.sub(r"_(deg|rpm|hb|factor)$", "", self.name)


@lru_cache(maxsize=8)
def _arguments(kind: str) -> tuple[_Argument, ...]:
    return tuple(
        _Argument(name, unit, required)
        for name, unit, required in _core.batch_arguments(kind)
        if name not in _LEFT_OUT[kind]
    )


class _Given:
    """What a table and the keywords give for the arguments, each column found once."""

    def __init__(self, frame: Frame, arguments: Iterable[_Argument], texts: Iterable[str], constants: dict[str, Any]):
        self.frame = frame
        self.arguments = tuple(arguments)
        self._texts = tuple(texts)
        self._constants = constants
        self._columns = set(frame.names())
        self._carried: dict[str, str] = {}  # columns without a unit in their name, that carry one
        self._refuse_near_misses()
        self.inch = False
        self.memory = [
            part
            for name in frame.names()
            if name in self._texts or name in self._carried or any(name in each.spellings for each in self.arguments)
            for part in memory(frame.column(name))
        ]
        self.numbers: dict[str, tuple[float | NDArray[np.float64], float]] = {}
        for argument in self.arguments:
            self._find(argument)

    def _refuse_near_misses(self) -> None:
        """A column that means an argument but lacks its unit, or is misspelt, is not left alone."""
        valid = {spelling: argument for argument in self.arguments for spelling in argument.spellings}
        stems = {argument.stem: argument for argument in self.arguments}
        known = set(valid) | set(self._texts)
        for name in [*self._columns, *self._constants]:
            if name in known:
                continue
            named = stems.get(name)
            if named is not None and name in self._columns and carried_units(self.frame.column(name)):
                self._carried[name] = named.name
                continue
            if named is not None:
                raise DomainError(f"column {name!r} has no unit; call it {_either(named)}")
            stem = re.sub(r"_[a-z0-9]{1,3}$", "", name)
            if stem in stems:
                raise DomainError(f"column {name!r} has another unit; call it {_either(stems[stem])}")
            near = difflib.get_close_matches(name, sorted(known), n=1, cutoff=0.85)
            if near:
                raise DomainError(f"column {name!r} is not known; the nearest is {near[0]!r}")
            if name in self._constants:
                raise DomainError(f"no argument {name!r}; {_near_or_all(name, known)}")

    def _find(self, argument: _Argument) -> None:
        found = [name for name in argument.spellings if name in self._columns]
        found += [name for name, of in self._carried.items() if of == argument.name]
        constant = [name for name in argument.spellings if self._constants.get(name) is not None]
        if len(found) + len(constant) > 1:
            raise DomainError(f"{' and '.join(map(repr, found + constant))} both give {argument.stem}")
        if found:
            units = carried_units(self.frame.column(found[0]))
            over = _AS_IT_IS if units else argument.spellings[found[0]]
            self.numbers[argument.name] = (self.frame.numbers(found[0], argument.unit), over)
            self.inch |= argument.system_matters and (units == {"in"} or over != _AS_IT_IS)
        elif constant:
            value, over = self._constant(argument, constant[0])
            self.numbers[argument.name] = (_in_core(value, over), _AS_IT_IS)
            self.inch |= argument.system_matters and over != _AS_IT_IS
        elif argument.required:
            raise DomainError(f"a column {_either(argument)} is needed; the table has {sorted(self._columns)}")

    def _constant(self, argument: _Argument, name: str) -> tuple[float, float]:
        """A number for all rows and its unit; what carries one is in the core's already."""
        given = self._constants[name]
        value = carriers.numbers(given, argument.unit, name)
        if isinstance(given, bool) or np.ndim(value) != 0:
            raise DomainError(f"{name} must be one number for all rows, got {given!r}")
        if not np.isfinite(value):
            raise DomainError(f"{name} must be finite, got {float(value)}")
        has_unit = isinstance(given, Quantity) or carriers.unit_carrier(given) is not None
        return float(value), _AS_IT_IS if has_unit else argument.spellings[name]

    def slice(self, first: int, last: int) -> dict[str, float | NDArray[np.float64]]:
        """Numbers of some rows in the core's units."""
        out: dict[str, float | NDArray[np.float64]] = {}
        for name, (column, over) in self.numbers.items():
            if isinstance(column, float):
                out[name] = column
            else:
                out[name] = _in_core(column[first:last], over)
        return out

    def texts(self, name: str, constant: Any, default: str | None = None) -> tuple[NDArray[np.int32] | int, list[str]]:
        """A column of texts, or one text for all rows."""
        if name in self._columns:
            if constant is not None:
                raise DomainError(f"column {name!r} and the argument {name} both give the {name}")
            return self.frame.texts(name)
        if constant is None:
            constant = default
        if constant is None:
            raise DomainError(f"a column {name!r} is needed; the table has {sorted(self._columns)}")
        if not isinstance(constant, str):
            raise DomainError(f"{name} must be text, got {constant!r}")
        return 0, [spelled_out(constant)]

    @property
    def inputs(self) -> list[NDArray[Any]]:
        """Memory that is read while answers are written."""
        return [*(column for column, _ in self.numbers.values() if not isinstance(column, float)), *self.memory]


def _in_core(value: Any, over: float) -> Any:
    """A number or a column in the core's unit."""
    return value if over == _AS_IT_IS else value * 127.0 / over


def _either(argument: _Argument) -> str:
    return " or ".join(map(repr, argument.spellings))


def _cut_types() -> _Types:
    return {**dict.fromkeys(_core.cut_figures(), _FIGURE), **{name: np.dtype(of) for name, of in _DTYPES.items()}}


def _wanted(
    types: _Types, usual: Iterable[str], columns: Iterable[str] | str | None, out: Mapping[str, Any] | None
) -> _Types:
    """The columns to answer, of those that there are, and their types."""
    if out is not None:
        wanted = list(out)
    elif columns is None:
        wanted = list(usual)
    elif isinstance(columns, str):
        if columns != "all":
            raise DomainError(f"columns must be a list of names or 'all', got {columns!r}")
        wanted = list(types)
    else:
        wanted = list(columns)
    for name in wanted:
        if not isinstance(name, str):
            raise DomainError(f"columns must be names, got {name!r}")
        if name not in types:
            raise DomainError(f"no column {name!r}; {_near_or_all(name, types)}")
    if out is not None and "status" not in out:
        raise DomainError("out must hold a column 'status': it says which rows have an answer")
    if "status" not in wanted:
        wanted.append("status")
    return {name: types[name] for name in wanted}


def _places(
    wanted: _Types, rows: int, out: MutableMapping[str, NDArray[Any]] | None, inputs: list[NDArray[Any]]
) -> dict[str, NDArray[Any]]:
    if out is None:
        return {name: np.empty(rows, dtype) for name, dtype in wanted.items()}
    places: dict[str, NDArray[Any]] = {}
    for name, dtype in wanted.items():
        column = out[name]
        right = isinstance(column, np.ndarray) and column.dtype == dtype and column.shape == (rows,)
        if not (right and column.flags.c_contiguous and column.flags.writeable):
            raise DomainError(f"out[{name!r}] must be a writable, contiguous array of {rows} rows of {dtype}")
        others = [*inputs, *places.values()]
        if any(np.may_share_memory(column, other) for other in others):
            raise DomainError(f"out[{name!r}] shares memory with another column")
        places[name] = column
    return places


def _run(
    rows: int,
    places: dict[str, NDArray[Any]],
    chunk_rows: int,
    work: Callable[[int, int, dict[str, NDArray[Any]]], None],
    progress: Progress | Literal["bar"] | None,
    cancel: Any,
) -> None:
    """Work through the rows. Whatever stops it, each row is either whole or marked as not reached."""
    places["status"].fill(NOT_REACHED)
    done = 0
    try:
        with _display(progress, rows) as show:
            while done < rows:
                if cancel is not None and (cancel.is_set() if hasattr(cancel, "is_set") else cancel()):
                    raise Stopped(f"stopped after {done} of {rows} rows")
                last = min(rows, done + chunk_rows)
                work(done, last, {name: column[done:last] for name, column in places.items()})
                done = last
                show(done, rows)
    finally:
        if done < rows:
            _mark(places, done)


def _mark(places: dict[str, NDArray[Any]], first: int) -> None:
    for name, column in places.items():
        blank = {"status": NOT_REACHED, "reason": _NOT_REACHED_REASON, "case_id": -1}
        column[first:] = blank.get(name, {"f": np.nan, "U": ""}.get(column.dtype.kind, 0))


class _display:
    """What shows the progress: nothing, a caller's function, or a bar on the terminal."""

    def __init__(self, progress: Progress | Literal["bar"] | None, rows: int):
        self._bar: Any = None
        self._shown = 0
        if progress == "bar":
            import click

            self._bar = click.progressbar(length=rows, label="rows")
            self._show: Progress = self._step
        elif progress is None:
            self._show = lambda done, rows: None
        elif callable(progress):
            self._show = progress
        else:
            raise DomainError(f"progress must be a function of (rows done, rows) or 'bar', got {progress!r}")

    def _step(self, done: int, rows: int) -> None:
        self._bar.update(done - self._shown)
        self._shown = done

    def __enter__(self) -> Progress:
        if self._bar is not None:
            self._bar.__enter__()
        return self._show

    def __exit__(self, *error: object) -> None:
        if self._bar is not None:
            self._bar.__exit__(*error)


_cases: dict[int, tuple[_core.Catalogue, _core.TurnCases]] = {}


def _turn_cases() -> _core.TurnCases:
    """The cases of the active catalogue, worked out once and kept while it is the active one."""
    catalogue = active()
    known = _cases.get(0)
    if known is None or known[0] is not catalogue:
        known = (catalogue, _core.TurnCases(catalogue))
        _cases[0] = known
    return known[1]


def _machine(machine: Any) -> _core.Machine | None:
    if machine is None or isinstance(machine, _core.Machine):
        return machine
    from halfnut import machines

    return machines.machine(machine).core


def _chuck(machine: _core.Machine | None, chuck: str | int | None, hold: str) -> int:
    from halfnut.cutting import holder_place

    return holder_place(machine, chuck, hold, [])


def _cut(
    kind: Literal["turn", "drill", "mill"],
    frame: Any,
    *,
    machine: Any,
    alloy: str | None,
    tool: str | None,
    columns: Iterable[str] | str | None,
    out: MutableMapping[str, NDArray[Any]] | None,
    workers: int | None,
    progress: Progress | Literal["bar"] | None,
    cancel: Any,
    constants: dict[str, Any],
    ask: Callable[..., None],
) -> Any:
    table = open_frame(frame)
    hardness = _Argument("hardness_hb", "HB", False)
    given = _Given(table, [*_arguments(kind), hardness], ("alloy", "tool", "finish", "shape"), constants)
    alloys, alloy_names = given.texts("alloy", alloy)
    tools, tool_names = given.texts("tool", tool, "HSS")
    known = [_tool(name) for name in tool_names] if isinstance(tools, np.ndarray) else [find_tool(tool_names[0])]
    known.append(find_tool(None))  # of rows without a tool
    materials = _core.tool_materials()
    codes = np.array([-1 if each is None else materials.index(each.material) for each in known], np.int32)
    tool_codes: NDArray[np.int32] | int = codes[tools] if isinstance(tools, np.ndarray) else int(codes[0])
    forms = {
        name: np.array([np.nan if each is None else each.form.get(name, np.nan) for each in known])
        for name in _OF_TOOL[kind]
    }
    forms = {name: values for name, values in forms.items() if not np.isnan(values).all()}
    places = _places(_wanted(_cut_types(), _USUAL[kind], columns, out), table.rows, out, given.inputs)
    rows_of_alloys = _core.match_alloys(alloy_names, active())
    if not isinstance(alloys, np.ndarray) and rows_of_alloys[0] < 0:
        _core.find_alloy(alloy_names[0], active())  # one for all rows: says why it is none
    core = _machine(machine)
    threads = _workers(workers)

    def piece(column: Any, first: int, last: int) -> Any:
        return column[first:last] if isinstance(column, np.ndarray) else column

    def work(first: int, last: int, to: dict[str, NDArray[Any]]) -> None:
        numbers = given.slice(first, last)
        for name, values in forms.items():
            numbers[name] = _or_tool(numbers.get(name), values[piece(tools, first, last)])
        hardness_hb = numbers.pop("hardness_hb", None)
        ask(
            core,
            last - first,
            rows_of_alloys,
            piece(alloys, first, last),
            piece(tool_codes, first, last),
            hardness_hb,
            numbers,
            to,
            threads,
            first,
            last,
            given.inch,
        )

    _run(table.rows, places, _CHUNKS[kind], work, progress, cancel)
    return table.give(places) if out is None else out


# What a tool of the shop may say of its form, where the row does not.
_OF_TOOL = {
    "turn": ("nose_radius_mm", "entering_deg", "rake_deg"),
    "drill": ("point_deg",),
    "mill": ("teeth", "entering_deg", "nose_radius_mm", "stick_out_mm"),
}


def _tool(name: str) -> Tool | None:
    """The tool of a name, None where there is none."""
    try:
        return find_tool(name)
    except DomainError:
        return None


def _or_tool(given: float | NDArray[np.float64] | None, of_tool: Any) -> Any:
    """A number that is given, else the tool's."""
    if given is None:
        return np.ascontiguousarray(of_tool) if np.ndim(of_tool) else float(of_tool)
    return np.where(np.isnan(given), of_tool, given) if isinstance(given, np.ndarray) else given


def _workers(workers: int | None) -> int:
    if workers is None:
        return 0
    most = _core.bounds()["items"]
    if isinstance(workers, bool) or not isinstance(workers, int) or not 1 <= workers <= most:
        raise DomainError(f"workers must be a whole number from 1 to {most}, got {workers!r}")
    return workers


@checked
def turn(
    frame: Any,
    *,
    machine: Any = None,
    alloy: str | None = None,
    tool: str | None = None,
    finish: bool = False,
    hold: str = "chuck",
    chuck: str | int | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
    clone: str = "",
    **constants: float,
) -> Any:
    """Turn many diameters; each row is what `halfnut.turn` reckons for the same numbers.

    Parameters
    ----------
    frame : table
        Columns ``diameter_mm`` (or ``_in``) and, where they are not given for all rows, ``alloy``, ``tool``, ``finish``
        (0 or 1), ``depth_mm``, ``length_mm``, ``feed_mm_rev``, ``nose_radius_mm``, ``entering_deg``, ``rake_deg``,
        ``wear_factor``, ``stick_out_mm``, ``bore_mm``, ``roughness_limit_um``, ``deflection_limit_mm``,
        ``spindle_rpm``, ``hardness_hb``, ``approach_mm``, ``overrun_mm``. NaN is not given.
    machine : str, Path or Machine, optional
        One for all rows; without one, speed and feed are exact.
    alloy, tool : str, optional
        For all rows.
    finish : bool
        Finishing cuts, whatever their depth.
    hold, chuck
        As for `halfnut.turn`.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.
    clone : str
        Instruction set, "portable", "avx2" or "avx512"; the widest here when not given.
    **constants : float
        Any of the columns of numbers, for all rows.

    Returns
    -------
    table of the same kind
        Figures, NaN in failed rows; ``spindle_step`` and ``feed_step``, places in the machine's lists from 0;
        ``limited_by``, a place in `halfnut._core.limit_codes`; ``cautions``, a bit for each (`cautions` reads them);
        ``case_id``, see `cases`; ``status``, 0 for an answer; ``reason``, see `reasons`. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> jobs = {"alloy": ["6061-T6", "4140"], "diameter_mm": [32.0, -1.0], "depth_mm": [1.0, 1.0]}
    >>> done = turn(jobs, machine="gap-bed")
    >>> done["status"].tolist(), reasons(done, "turn")
    ([0, 2], {1: 'diameter_mm must be from 1e-06 to 100000 mm'})
    """

    def ask(
        core: Any, rows: int, alloys: Any, alloy: Any, tool: Any, hardness: Any, numbers: Any, to: Any, threads: int,
        first: int, last: int, inch: bool,
    ) -> None:  # fmt: skip
        _core.batch_turn(
            cases, active(), core, rows, alloys, alloy, tool, hardness, numbers,
            finishes[first:last] if isinstance(finishes, np.ndarray) else finishes, inch,
            hold, holder, to, threads, clone,
        )  # fmt: skip

    cases = _turn_cases()
    table = open_frame(frame)
    finishes: NDArray[np.uint8] | bool = finish
    if "finish" in table.names():
        finishes = np.ascontiguousarray(np.nan_to_num(table.numbers("finish")) != 0.0).view(np.uint8)
    core = _machine(machine)
    holder = _chuck(core, chuck, hold)
    return _cut(
        "turn", frame, machine=core, alloy=alloy, tool=tool, columns=columns, out=out, workers=workers,
        progress=progress, cancel=cancel, constants=constants, ask=ask,
    )  # fmt: skip


@checked
def drill(
    frame: Any,
    *,
    machine: Any = None,
    alloy: str | None = None,
    tool: str | None = None,
    chuck: str | int | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
    **constants: float,
) -> Any:
    """Drill many holes; each row is what `halfnut.drill` reckons for the same numbers.

    Parameters
    ----------
    frame : table
        Columns ``diameter_mm`` (or ``_in``) and, where they are not given for all rows, ``alloy``, ``tool``,
        ``depth_mm``, ``pilot_mm``, ``point_deg``, ``feed_mm_rev``, ``spindle_rpm``, ``wear_factor``, ``hardness_hb``,
        ``approach_mm``, ``overrun_mm``.
    machine, alloy, tool, columns, out, workers, progress, cancel, **constants
        As for `turn`.
    chuck : str or int, optional
        Where the work turns, on a lathe.

    Returns
    -------
    table of the same kind
        As for `turn`, without ``case_id``.

    Raises
    ------
    DomainError, Stopped
        As for `turn`.

    >>> drill({"diameter_mm": [6.0], "depth_mm": [20.0]}, alloy="6061-T6", machine="bench-mill")["status"].tolist()
    [0]
    """
    core = _machine(machine)
    holder = _chuck(core, chuck, "chuck") if core is not None and core.kind == "lathe" else -1

    def ask(
        core: Any, rows: int, alloys: Any, alloy: Any, tool: Any, hardness: Any, numbers: Any, to: Any, threads: int,
        first: int, last: int, inch: bool,
    ) -> None:  # fmt: skip
        _core.batch_holes(
            active(), core, rows, alloys, alloy, tool, hardness, numbers, "drill", holder, to, threads
        )  # fmt: skip

    return _cut(
        "drill", frame, machine=core, alloy=alloy, tool=tool, columns=columns, out=out, workers=workers,
        progress=progress, cancel=cancel, constants=constants, ask=ask,
    )  # fmt: skip


@checked
def mill(
    frame: Any,
    *,
    machine: Any = None,
    alloy: str | None = None,
    tool: str | None = None,
    shape: str = "side",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
    **constants: float,
) -> Any:
    """Mill many cuts; each row is what `halfnut.mill` reckons for the same numbers.

    Parameters
    ----------
    frame : table
        Columns ``cutter_diameter_mm`` (or ``_in``), ``depth_mm`` and, where they are not given for all rows,
        ``alloy``, ``tool``, ``teeth``, ``length_mm``, ``width_mm``, ``step_over_mm``, ``step_down_mm``,
        ``feed_per_tooth_mm``, ``spindle_rpm``, ``entering_deg``, ``stick_out_mm``, ``wear_factor``,
        ``deflection_limit_mm``, ``hardness_hb``, ``approach_mm``, ``overrun_mm``.
    shape : {"slot", "side", "pocket", "face"}
        Of all rows.
    machine, alloy, tool, columns, out, workers, progress, cancel, **constants
        As for `turn`.

    Returns
    -------
    table of the same kind
        As for `turn`, without ``case_id``.

    Raises
    ------
    DomainError, Stopped
        As for `turn`.

    >>> jobs = {"cutter_diameter_mm": [10.0], "teeth": [4.0], "depth_mm": [5.0], "width_mm": [2.0]}
    >>> mill(jobs, alloy="7075-T6", machine="bench-mill")["status"].tolist()
    [0]
    """

    def ask(
        core: Any, rows: int, alloys: Any, alloy: Any, tool: Any, hardness: Any, numbers: Any, to: Any, threads: int,
        first: int, last: int, inch: bool,
    ) -> None:  # fmt: skip
        _core.batch_mill(active(), core, rows, alloys, alloy, tool, hardness, numbers, shape, to, threads)

    return _cut(
        "mill", frame, machine=machine, alloy=alloy, tool=tool, columns=columns, out=out, workers=workers,
        progress=progress, cancel=cancel, constants=constants, ask=ask,
    )  # fmt: skip


@checked
def limits(
    frame: Any,
    *,
    thread: str | None = None,
    rule: Literal["printed", "formula"] = "printed",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
    **constants: float,
) -> Any:
    """Limits of size of many threads of any form; each row is what `halfnut.limits` gives.

    Parameters
    ----------
    frame : table
        Columns ``thread`` (a designation, with its class) and, if wanted, ``engagement_mm`` (or ``_in``).
    thread : str, optional
        For all rows.
    rule : {"printed", "formula"}
        As for `halfnut.limits`.
    columns, out, workers, progress, cancel, **constants
        As for `turn`; all columns are the usual ones. The number is ``engagement_mm`` (or ``_in``).

    Returns
    -------
    table of the same kind
        ``major_max_mm`` ... ``minor_min_in`` in both units (NaN where there is no limit), ``native_unit``, ``status``,
        ``case_id`` (see `row_cases`), ``reason``.

    Raises
    ------
    DomainError, Stopped
        As for `turn`.

    >>> limits({"thread": ["M10-6g", "M10-6z", "Tr40x7-7e", "1/2-14 NPT"]})["status"].tolist()
    [0, 6, 0, 5]
    """
    from halfnut.threads import limit_columns

    def ask(texts: list[list[str]], numbers: dict[str, Any]) -> dict[str, NDArray[Any]]:
        return limit_columns(texts[0], rule=rule, engagement_mm=numbers.get("engagement_mm", np.nan), on_error="status")

    return _distinct_rows(
        "limits", frame, {"thread": thread}, constants, ask, columns=columns, out=out, workers=workers,
        progress=progress, cancel=cancel,
    )  # fmt: skip


@checked
def fit(
    frame: Any,
    *,
    external: str | None = None,
    internal: str | None = None,
    tolerance_over_sigma: float = 6.0,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
    **constants: float,
) -> Any:
    """Fits of many pairs of threads of any form; each row is what `halfnut.fit` gives.

    Parameters
    ----------
    frame : table
        Columns ``external`` and ``internal`` (designations) and, if wanted, ``engagement_mm`` (or ``_in``),
        ``build_up_external_min_um``, ``build_up_external_max_um``, ``build_up_internal_min_um``,
        ``build_up_internal_max_um`` (or ``_uin``).
    external, internal : str, optional
        For all rows.
    tolerance_over_sigma : float
        As for `halfnut.fit`.
    columns, out, workers, progress, cancel, **constants
        As for `turn`; all columns are the usual ones.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.fit`, ``verdict``, ``status``, ``case_id`` (see `row_cases`), ``reason``.

    Raises
    ------
    DomainError, Stopped
        As for `turn`.

    >>> fit({"external": ["M10-6g", "M10-6h"]}, internal="M10-6H")["verdict"].tolist()
    ['free', 'free']
    """
    from halfnut.thread_fits import fit_columns

    def ask(texts: list[list[str]], numbers: dict[str, Any]) -> dict[str, NDArray[Any]]:
        bare = {name: np.where(np.isnan(numbers[name]), 0.0, numbers[name]) for name in _FILMS if name in numbers}
        return fit_columns(
            texts[0],
            texts[1],
            engagement_mm=numbers.get("engagement_mm", np.nan),
            tolerance_over_sigma=tolerance_over_sigma,
            on_error="status",
            **bare,
        )

    return _distinct_rows(
        "fit", frame, {"external": external, "internal": internal}, constants, ask, columns=columns, out=out,
        workers=workers, progress=progress, cancel=cancel,
    )  # fmt: skip


@checked
def wires(
    frame: Any,
    *,
    thread: str | None = None,
    best: bool = False,
    set: str = "",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
    **constants: float,
) -> Any:
    """Sizes over wires, or across balls, of many threads of any form; each row is what `halfnut.wires` gives.

    Parameters
    ----------
    frame : table
        Columns ``thread`` (a designation) and, if wanted, ``wire_mm`` (or ``_in``).
    thread : str, optional
        For all rows.
    best, set
        As `halfnut.gauging.wire_columns` has them.
    columns, out, workers, progress, cancel, **constants
        As for `turn`; all columns are the usual ones. The number is ``wire_mm`` (or ``_in``).

    Returns
    -------
    table of the same kind
        The figures of `halfnut.wires`, ``side``, ``status``, ``case_id`` (see `row_cases`), ``reason``.

    Raises
    ------
    DomainError, Stopped
        As for `turn`.

    >>> wires({"thread": ["M10-6g", "nothing"]}, best=True)["over_max_mm"].round(3).tolist()
    [10.29, nan]
    """
    from halfnut.gauging import wire_columns

    def ask(texts: list[list[str]], numbers: dict[str, Any]) -> dict[str, NDArray[Any]]:
        return wire_columns(texts[0], wire_mm=numbers.get("wire_mm", np.nan), best=best, set=set, on_error="status")

    return _distinct_rows(
        "wires", frame, {"thread": thread}, constants, ask, columns=columns, out=out, workers=workers,
        progress=progress, cancel=cancel,
    )  # fmt: skip


@checked
def taper_pipe(
    frame: Any,
    *,
    thread: str | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
) -> Any:
    """Gauge planes, turns and holes of many taper pipe threads; each row is what `halfnut.taper_pipe` gives.

    Parameters
    ----------
    frame : table
        A column ``thread``, designations.
    thread : str, optional
        For all rows.
    columns, out, workers, progress, cancel
        As for `turn`; all columns are the usual ones.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.taper_pipe` (NaN where the standard gives none), ``native_unit``, ``status``,
        ``case_id`` (see `row_cases`), ``reason``.

    Raises
    ------
    DomainError, Stopped
        As for `turn`.

    >>> taper_pipe({"thread": ["1/2-14 NPT", "M10-6g"]})["hand_turns"].round(2).tolist()
    [4.48, nan]
    """
    from halfnut.form_threads import taper_pipe_columns

    def ask(texts: list[list[str]], numbers: dict[str, Any]) -> dict[str, NDArray[Any]]:
        return taper_pipe_columns(texts[0], on_error="status")

    return _distinct_rows(
        "taper_pipe", frame, {"thread": thread}, {}, ask, columns=columns, out=out, workers=workers,
        progress=progress, cancel=cancel,
    )  # fmt: skip


@checked
def knurl_blank(
    frame: Any,
    *,
    pitch: str | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Any = None,
    **options: Any,
) -> Any:
    """Blanks of many knurls; each row is what `halfnut.knurl_blank` gives.

    Parameters
    ----------
    frame : table
        Columns ``diameter_mm`` (or ``_in``) and, if it is not given for all rows, ``pitch``, such as "96 DP".
    pitch : str, optional
        For all rows.
    columns, out, workers, progress, cancel
        As for `turn`; the usual columns are those that apply to the pitches and options.
    **options
        As for `halfnut.knurl_blank`, for all rows: ``pattern``, ``finished``, ``process`` and so on.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.knurl_blank`, ``cautions``, ``status``, ``case_id`` (see `row_cases`), ``reason``.

    Raises
    ------
    DomainError, Stopped
        As for `turn`.

    >>> knurl_blank({"diameter_mm": [12.7, -1.0]}, pitch="96 DP", pattern="straight")["teeth"].tolist()
    [48.0, nan]
    """
    return _distinct_rows(
        "knurl_blank", frame, {"pitch": pitch}, {},
        _knurls_asked(options, pitch is not None), columns=columns, out=out, workers=workers, progress=progress,
        cancel=cancel,
    )  # fmt: skip


def _knurls_asked(options: dict[str, Any], sure: bool) -> _Ask:
    """Ask for the blanks of one pitch after the other; a pitch that is not understood marks its rows, or is refused."""
    from halfnut.knurls import blank_columns

    def ask(texts: list[list[str]], numbers: dict[str, Any]) -> dict[str, NDArray[Any]]:
        pitches = np.array(texts[0], dtype=object)
        diameters = numbers.get("diameter_mm", np.empty(0))
        answers: dict[str, NDArray[Any]] = {"status": np.full(len(diameters), _NOT_UNDERSTOOD, np.uint8)}
        for pitch in dict.fromkeys(texts[0]):
            at = np.flatnonzero(pitches == pitch)[: len(diameters)]
            try:
                answer = blank_columns(diameters[at], pitch, on_error="status", **options)
            except Error:
                if sure:
                    raise
                continue
            for name, column in answer.items():
                if name not in answers:
                    blank = np.nan if column.dtype.kind == "f" else 0
                    answers[name] = np.full(len(diameters), blank, column.dtype)
                answers[name][at] = column
        return {**{name: column for name, column in answers.items() if name != "status"}, "status": answers["status"]}

    return ask


_NOT_UNDERSTOOD = 6

_Ask = Callable[[list[list[str]], dict[str, Any]], dict[str, NDArray[Any]]]


def _types_of(ask: _Ask, texts: list[list[str]]) -> _Types:
    """The columns that a question answers: those of no rows."""
    own: _Types = {name: np.dtype(_DTYPES[name]) for name in ("case_id", "reason")}
    return {**{name: column.dtype for name, column in ask(texts, {}).items()}, **own}


def _row_arguments(kind: str) -> tuple[_Argument, ...]:
    return tuple(_Argument(name, name.rpartition("_")[2], name == "diameter_mm") for name in _ROWS[kind][1])


def _distinct_rows(
    kind: str,
    frame: Any,
    constant_texts: dict[str, str | None],
    constants: dict[str, Any],
    ask: _Ask,
    *,
    columns: Iterable[str] | str | None,
    out: MutableMapping[str, NDArray[Any]] | None,
    workers: int | None,
    progress: Progress | Literal["bar"] | None,
    cancel: Any,
) -> Any:
    """Answer each distinct row once, on several threads, when the first of its rows comes; spread the answers."""
    table = open_frame(frame)
    given = _Given(table, _row_arguments(kind), constant_texts, constants)
    coded = [given.texts(name, text) for name, text in constant_texts.items()]
    lookups = [[*distinct, ""] for _, distinct in coded]  # the last for a row without a text
    types = _types_of(ask, [distinct if kind == "knurl_blank" else [] for _, distinct in coded])
    places = _places(_wanted(types, types, columns, out), table.rows, out, given.inputs)
    numbers = given.slice(0, table.rows)
    parts: list[NDArray[Any]] = [codes for codes, _ in coded if isinstance(codes, np.ndarray)]
    parts += [column for column in numbers.values() if isinstance(column, np.ndarray)]
    first_rows, spread = _distinct(parts, table.rows)
    answers = {name: np.empty(len(first_rows), types[name]) for name in {**places, "status": None}}
    answered = np.zeros(len(first_rows), bool)
    threads = _workers(workers) or os.cpu_count() or 1

    def piece(which: NDArray[np.intp]) -> None:
        at = first_rows[which]
        texts = [
            [lookup[code] for code in (codes[at] if isinstance(codes, np.ndarray) else [0] * len(at))]
            for (codes, _), lookup in zip(coded, lookups, strict=True)
        ]
        some = {name: column[at] if isinstance(column, np.ndarray) else column for name, column in numbers.items()}
        answer = ask(texts, some)
        status = answer["status"]
        answer["reason"] = np.where(status == 0, 0, (status.astype(np.uint16) << 8) | _NO_ARGUMENT)
        answer["case_id"] = at
        for name, column in answers.items():
            column[which] = answer.get(name, np.nan if column.dtype.kind == "f" else 0)

    answer_piece = carried(piece)  # the pool's threads know of no shop
    with ThreadPoolExecutor(threads) as pool:

        def work(first: int, last: int, to: dict[str, NDArray[Any]]) -> None:
            rows = spread[first:last]
            new = np.unique(rows)
            new = new[~answered[new]]
            if len(new) > 0:
                list(pool.map(answer_piece, np.array_split(new, min(threads, max(1, len(new) // 64)))))
            answered[new] = True
            for name, column in to.items():
                if name != "status":
                    column[:] = answers[name][rows]
            to["status"][:] = answers["status"][rows]

        _run(table.rows, places, _CHUNKS[kind], work, progress, cancel)
    return table.give(places) if out is None else out


def _distinct(parts: list[NDArray[Any]], rows: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """The first row of each distinct one, and for each row its place among them. NaN equals NaN here."""
    if rows == 0:
        return np.empty(0, np.intp), np.empty(0, np.intp)
    if not parts:
        return np.zeros(1, np.intp), np.zeros(rows, np.intp)
    whole = np.zeros(rows, np.int64)
    for part in parts:
        _, codes = np.unique(part, return_inverse=True)
        _, whole = np.unique(whole * (int(codes.max()) + 1) + codes, return_inverse=True)
    _, first = np.unique(whole, return_index=True)
    return first, whole


@checked
def reasons(answers: Any, kind: str, frame: Any = None) -> dict[int, str]:
    """Why rows have no answer.

    Parameters
    ----------
    answers : table
        What a batch answered, with ``reason``.
    kind : str
        The function that answered: "turn", "drill", "mill", "limits", "fit", "wires", "taper_pipe" or
        "knurl_blank".
    frame : table, optional
        What it was asked: then the reason says what was given, and the nearest that would be right.

    Returns
    -------
    dict
        Row, from 0, to the reason; rows with an answer are not in it.

    >>> jobs = {"alloy": ["6061-T6", "6061-T7"], "diameter_mm": [-2.0, 20.0]}
    >>> reasons(turn(jobs), "turn", jobs)[0]
    'diameter_mm must be from 1e-06 to 100000 mm, got -2 mm'
    >>> reasons(turn(jobs), "turn", jobs)[1][:20]
    "no alloy '6061-T7'; "
    """
    if kind not in _USUAL and kind not in _ROWS:
        raise DomainError(f"no batch {kind!r}; {_near_or_all(kind, [*_USUAL, *_ROWS])}")
    column = _whole(answers, "reason", 0, 65_535)
    rows = np.flatnonzero(column)
    words = {int(code): _reason(kind, int(code)) for code in np.unique(column[rows])}
    out = {int(row): words[int(column[row])] for row in rows}
    if frame is not None:
        table = open_frame(frame)
        if table.rows != len(column):
            raise DomainError(f"frame must have the {len(column)} rows of answers, got {table.rows}")
        _say_what_was_given(out, column, kind, table)
    return out


def _say_what_was_given(out: dict[int, str], reason: NDArray[np.int64], kind: str, table: Frame) -> None:
    names = set(table.names())
    places = dict(enumerate(_core.batch_arguments(kind))) if kind in _USUAL else {}
    places[_core.HARDNESS_ARGUMENT] = ("hardness_hb", "HB", False)
    asked: dict[str, Callable[[str], object]] = {}
    if kind in _USUAL:
        from halfnut.material import alloy

        asked = {"alloy": alloy, "tool": find_tool}
    elif kind in ("limits", "wires", "taper_pipe"):
        from halfnut import form_threads, gauging

        by_kind: dict[str, Callable[[str], object]] = {"limits": form_threads.limits, "wires": gauging.wires}
        asked = {"thread": by_kind.get(kind, form_threads.taper_pipe)}
    elif kind == "knurl_blank":
        from halfnut import knurls

        asked = {"pitch": partial(knurls.blank_columns, np.empty(0))}
    elif kind == "fit":
        from halfnut import thread_fits

        asked = {side: partial(thread_fits.part_limits, side=side) for side in ("external", "internal")}
    columns = {name: table.texts(name) for name in asked if name in names}
    numbers: dict[str, NDArray[np.float64]] = {}
    complaints: dict[tuple[str, str], str] = {}
    for row in out:
        status, at = int(reason[row]) >> 8, int(reason[row]) & 255
        if status == NOT_REACHED:
            continue
        if at in places:
            name, unit, required = places[at]
            spelling = next((each for each in _Argument(name, unit, required).spellings if each in names), None)
            if spelling is not None:
                if spelling not in numbers:
                    numbers[spelling] = table.numbers(spelling, unit)
                shown = {"mm": "in", "mm/rev": "in/rev", "um": "uin"}.get(unit, unit) if spelling != name else unit
                out[row] += f", got {numbers[spelling][row]:g} {shown}".rstrip()
            continue
        for name, (codes, texts) in columns.items():
            text = texts[codes[row]] if codes[row] >= 0 else ""
            if (name, text) not in complaints:
                complaints[name, text] = _complaint(asked[name], text)
            if complaints[name, text]:
                out[row] = complaints[name, text]
                break


def _complaint(ask: Callable[[str], object], text: str) -> str:
    """What a scalar call says of a text; nothing where it takes it."""
    try:
        ask(text)
    except Error as error:
        return str(error)
    return ""


def _near_or_all(name: str, known: Iterable[str]) -> str:
    """The name that a slip of the hand explains, else every name there is."""
    names = sorted(known)
    near = nearest_name(str(name), names)
    return f"the nearest is {near!r}" if near else f"known: {', '.join(names)}"


def _reason(kind: str, code: int) -> str:
    if code == _NOT_REACHED_REASON:
        return "the run was stopped before this row"
    return _core.batch_reason(kind, code)


def _whole(answers: Any, name: str, low: int, high: int) -> NDArray[np.int64]:
    """A column of whole numbers that a batch answered; what came back from a file may hold anything."""
    table = open_frame(answers)
    if name not in table.names():
        raise DomainError(f"a column {name!r} is needed; the table has {sorted(table.names())}")
    column = table.numbers(name)
    bad = np.flatnonzero(~((column >= low) & (column <= high) & (column == np.floor(column))))
    if bad.size:
        raise DomainError(
            f"column {name!r} must hold whole numbers from {low} to {high}, got {column[bad[0]]:g} in row {bad[0]}"
        )
    return column.astype(np.int64)


@checked
def cautions(bits: int) -> list[str]:
    """Codes of the cautions of a row.

    Parameters
    ----------
    bits : int
        A value of the column ``cautions`` of a cut.

    Returns
    -------
    list of str
        As `Cut.cautions` has them.

    >>> cautions(0)
    []
    """
    return [name for place, name in enumerate(_core.caution_codes()) if int(bits) >> place & 1]


@dataclass(frozen=True)
class Case:
    """What rows with one ``case_id`` rest on.

    Attributes
    ----------
    alloy : str
        Its id.
    tool : str
        The tool's material.
    finish : bool
        Whether the rows are finishing cuts.
    window_low_m_min, window_high_m_min : float
        Speeds that suit it.
    kc11_n_mm2, mc, kc_speed_m_min : float
        Constants of the cutting force, and the speed that they were measured at; NaN: they hold for any.
    band_low, band_high : float
        Where a measured force lies, as shares of the reckoned one.
    youngs_modulus_gpa : float
        Of the work.
    evidence : tuple of Evidence
        For each figure its rule, and the row of a table where there is one.
    """

    case_id: int
    alloy: str
    tool: str
    finish: bool
    window_low_m_min: float
    window_high_m_min: float
    kc11_n_mm2: float
    mc: float
    kc_speed_m_min: float
    band_low: float
    band_high: float
    youngs_modulus_gpa: float
    evidence: tuple[Evidence, ...]


@checked
def cases(answers: Any) -> dict[int, Case]:
    """The distinct cases that the rows of a turning batch rest on.

    Parameters
    ----------
    answers : table
        What `turn` answered, with ``case_id``.

    Returns
    -------
    dict
        From ``case_id`` to what it rests on. Ids depend on the tables alone: they hold over pieces of a frame.
    """
    column = _whole(answers, "case_id", -1, 2**31 - 1)
    found = {}
    alloys = active().rows("material/alloys")
    for case_id in np.unique(column[column >= 0]).tolist():
        known = _turn_cases().describe(case_id)
        if known is not None:
            known["alloy"] = alloys[known["alloy"]]["id"]
            known["evidence"] = tuple(known["evidence"])
            found[case_id] = Case(case_id=case_id, **known)
    return found


@dataclass(frozen=True)
class RowCase:
    """What rows of threads or knurls with one ``case_id`` rest on.

    Attributes
    ----------
    case_id : int
        Place in the table, from 0, of the first row like it.
    given : dict
        Texts and numbers of that row, lengths in mm.
    evidence : tuple of Evidence
        For each figure its rule, and the row of a table where there is one.
    """

    case_id: int
    given: dict[str, Any]
    evidence: tuple[Evidence, ...]


@checked
def row_cases(answers: Any, kind: str, frame: Any, **how: Any) -> dict[int, RowCase]:
    """The distinct cases that the rows of a batch of threads or knurls rest on.

    Parameters
    ----------
    answers : table
        What the batch answered, with ``case_id``.
    kind : {"limits", "fit", "wires", "taper_pipe", "knurl_blank"}
        The function that answered.
    frame : table
        What it was asked.
    **how
        The keywords it was asked with, but for those of the run.

    Returns
    -------
    dict
        From ``case_id`` to what it rests on, each asked of the scalar function, whose answer the row is; failed rows
        are not in it. Ids are places in this table: those of pieces of a frame stand for themselves.

    Raises
    ------
    DomainError
        A kind or a table that is not understood.

    >>> frame = {"thread": ["M10-6g", "Tr40x7-7e", "M10-6g"]}
    >>> done = limits(frame)
    >>> done["case_id"].tolist(), sorted(row_cases(done, "limits", frame))
    ([0, 1, 0], [0, 1])
    """
    if kind not in _ROWS:
        raise DomainError(f"no batch {kind!r} of threads or knurls; {_near_or_all(kind, _ROWS)}")
    words, _ = _ROWS[kind]
    arguments = _row_arguments(kind)
    spellings = {spelling for argument in arguments for spelling in argument.spellings}
    table = open_frame(frame)
    given = _Given(table, arguments, words, {name: value for name, value in how.items() if name in spellings})
    coded = {name: given.texts(name, how.get(name)) for name in words}
    options = {name: value for name, value in how.items() if name not in spellings and name not in words}
    numbers = given.slice(0, table.rows)
    found = {}
    for case_id in np.unique(_whole(answers, "case_id", -1, table.rows - 1)).tolist():
        if case_id < 0:
            continue
        row: dict[str, Any] = {}
        for name, (codes, texts) in coded.items():
            code = int(codes[case_id]) if isinstance(codes, np.ndarray) else 0
            row[name] = texts[code] if code >= 0 else ""
        for name, column in numbers.items():
            value = float(column[case_id]) if isinstance(column, np.ndarray) else column
            if not np.isnan(value):
                row[name] = value
        try:
            found[case_id] = RowCase(case_id, row, tuple(_ask_scalar(kind, row, options).evidence))
        except Error:
            continue
    return found


def _ask_scalar(kind: str, row: dict[str, Any], options: dict[str, Any]) -> Any:
    """The scalar answer to a row."""
    from halfnut import form_threads, gauging, knurls, thread_fits

    def size(name: str) -> Any:
        return mm(row[name]) if name in row else None

    if kind == "limits":
        return form_threads.limits(row["thread"], engagement=size("engagement_mm"), **options)
    if kind == "taper_pipe":
        return form_threads.taper_pipe(row["thread"])
    if kind == "wires":
        best = options.get("best") and "wire_mm" not in row
        return gauging.wires(row["thread"], wire="best" if best else size("wire_mm"), set=options.get("set", ""))
    if kind == "knurl_blank":
        return knurls.knurl_blank(size("diameter_mm"), row["pitch"], **options)
    films = [
        _core.BuildUp(row.get(f"build_up_{side}_min_um", 0.0), row.get(f"build_up_{side}_max_um", 0.0))
        for side in ("external", "internal")
    ]
    return thread_fits.fit(
        row["external"],
        row["internal"],
        build_up_external=films[0],
        build_up_internal=films[1],
        engagement=size("engagement_mm"),
        **options,
    )


@checked
def meta(kind: str, columns: Iterable[str] | str | None = None, **options: Any) -> Any:
    """An empty pandas frame with the columns and types that a batch answers.

    Parameters
    ----------
    kind : {"turn", "drill", "mill", "limits", "fit", "wires", "taper_pipe", "knurl_blank"}
        The function.
    columns : list of str or "all", optional
        As given to it.
    **options
        Of a knurl, as given to it: ``pitch``, ``pattern`` and so on; they decide which columns apply.

    Returns
    -------
    pandas.DataFrame
        Without rows: what ``dask.dataframe.map_partitions`` takes as ``meta``. Its types are those that ``out`` needs,
        where pandas has them; texts are ``<U2`` (native_unit), ``<U10`` (verdict) and ``<U8`` (side).

    Raises
    ------
    DomainError
        Another kind, or an option that it does not take.

    >>> meta("drill").dtypes["status"]
    dtype('uint8')
    >>> list(meta("limits", columns=["pitch_max_mm"]))
    ['pitch_max_mm', 'status']
    """
    pandas = optional("pandas", "pandas")
    types = column_types(kind, columns, **options)
    return pandas.DataFrame({name: np.empty(0, dtype) for name, dtype in types.items()})


@checked
def column_types(kind: str, columns: Iterable[str] | str | None = None, **options: Any) -> dict[str, np.dtype[Any]]:
    """The columns that a batch answers and their types, as ``out`` needs them.

    Parameters
    ----------
    kind, columns, **options
        As for `meta`.

    Returns
    -------
    dict
        From the name of a column to its type.

    Raises
    ------
    DomainError
        As from `meta`.

    >>> out = {name: np.empty(2, dtype) for name, dtype in column_types("limits").items()}
    >>> limits({"thread": ["M10-6g", "G1/2 A"]}, out=out)["native_unit"].tolist()
    ['mm', 'mm']
    """
    from halfnut import form_threads, gauging, thread_fits, threads

    kinds = (*_USUAL, "limits", "fit", "wires", "taper_pipe", "knurl_blank")
    if kind not in kinds:
        raise DomainError(f"no batch {kind!r}; {_near_or_all(kind, kinds)}")
    pitch = options.pop("pitch", None)
    if kind != "knurl_blank" and (options or pitch is not None):
        raise DomainError(f"{', '.join(options) or 'pitch'}: only the columns of knurl_blank depend on options")
    if kind in _USUAL:
        return _wanted(_cut_types(), _USUAL[kind], columns, None)
    if kind == "knurl_blank":
        if pitch is None:
            raise DomainError("the columns of knurl_blank depend on the pitch: give pitch, such as '96 DP'")
        types = _types_of(_knurls_asked(options, True), [[str(pitch)]])
    else:
        empty = {
            "limits": lambda: threads.limit_columns([]),
            "fit": lambda: thread_fits.fit_columns([], []),
            "wires": lambda: gauging.wire_columns([]),
            "taper_pipe": lambda: form_threads.taper_pipe_columns([]),
        }
        types = _types_of(lambda texts, numbers: empty[kind](), [])
    return _wanted(types, types, columns, None)
