"""Batches of turning, drilling and milling."""

from __future__ import annotations

from collections.abc import Callable, Iterable, MutableMapping
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import DomainError
from halfnut.batch.frames import FrameLike, batch_of, open_frame
from halfnut.batch.given import Argument, Given, arguments_of
from halfnut.batch.running import (
    CHUNKS,
    USUAL,
    Cancel,
    Progress,
    cut_types,
    places_of,
    run_pieces,
    wanted_columns,
    workers_of,
)
from halfnut.core.catalogue import active
from halfnut.machine.of_name import core_machine

if TYPE_CHECKING:
    from halfnut.machine.of_name import MachineLike

__all__ = ["drill", "mill", "turn"]


_cases: dict[int, tuple[_core.Catalogue, _core.TurnCases]] = {}


def turn_cases() -> _core.TurnCases:
    """The cases of the active catalogue, worked out once and kept while it is the active one."""
    catalogue = active()
    known = _cases.get(0)
    if known is None or known[0] is not catalogue:
        known = (catalogue, _core.TurnCases(catalogue))
        _cases[0] = known
    return known[1]


def _holder(machine: _core.Machine | None, chuck: str | int | None, hold: str) -> int:
    """The place of the chuck that is meant; a number that can be none is refused as a name is."""
    odd = isinstance(chuck, int) and not 0 <= chuck <= _core.bounds()["items"]
    return _core.holder_place(machine, str(chuck) if odd else chuck, hold)


def _cut(
    kind: Literal["turn", "drill", "mill"],
    frame: FrameLike,
    *,
    machine: MachineLike | None,
    alloy: str | None,
    tool: str | None,
    columns: Iterable[str] | str | None,
    out: MutableMapping[str, NDArray[Any]] | None,
    workers: int | None,
    progress: Progress | Literal["bar"] | None,
    cancel: Cancel | None,
    constants: dict[str, Any],
    ask: Callable[..., None],
) -> Any:
    table = open_frame(frame)
    hardness = Argument("hardness_hb", "HB", False)
    given = Given(table, [*arguments_of(kind), hardness], ("alloy", "tool", "finish", "shape"), constants)
    alloys, alloy_names = given.texts("alloy", alloy)
    tools, tool_names = given.texts("tool", tool, "HSS")
    one = not isinstance(tools, np.ndarray)
    known = [_core.tool(tool_names[0], active())] if one else [_tool(name) for name in tool_names]
    known.append(_core.tool("", active()))  # of rows without a tool
    materials = _core.tool_materials()
    codes = np.array([-1 if each is None else materials.index(each[0]) for each in known], np.int32)
    tool_codes: NDArray[np.int32] | int = codes[tools] if isinstance(tools, np.ndarray) else int(codes[0])
    forms = {name: np.array([np.nan if each is None else each[1][name] for each in known]) for name in _OF_TOOL[kind]}
    forms = {name: values for name, values in forms.items() if not np.isnan(values).all()}
    places = places_of(wanted_columns(cut_types(), USUAL[kind], columns, out), table.rows, out, given.inputs)
    rows_of_alloys = _core.match_alloys(alloy_names, active())
    if not isinstance(alloys, np.ndarray) and rows_of_alloys[0] < 0:
        _core.find_alloy(alloy_names[0], active())  # one for all rows: says why it is none
    core = core_machine(machine)
    threads = workers_of(workers)

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

    run_pieces(table.rows, places, CHUNKS[kind], work, progress, cancel)
    return table.give(places) if out is None else out


# What a tool of the shop may say of its form, where the row does not.
_OF_TOOL = {
    "turn": ("nose_radius_mm", "entering_deg", "rake_deg"),
    "drill": ("point_deg",),
    "mill": ("teeth", "entering_deg", "nose_radius_mm", "stick_out_mm"),
}


def _tool(name: str) -> tuple[str, dict[str, float]] | None:
    """Material and form of the tool of a name, None where there is none."""
    try:
        return _core.tool(name, active())
    except DomainError:
        return None


def _or_tool(given: float | NDArray[np.float64] | None, of_tool: Any) -> Any:
    """A number that is given, else the tool's."""
    if given is None:
        return np.ascontiguousarray(of_tool) if np.ndim(of_tool) else float(of_tool)
    return np.where(np.isnan(given), of_tool, given) if isinstance(given, np.ndarray) else given


@batch_of
def turn(
    frame: FrameLike,
    /,
    *,
    machine: MachineLike | None = None,
    alloy: str | None = None,
    tool: str | None = None,
    finish: bool = False,
    hold: str = "chuck",
    chuck: str | int | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
    clone: str = "",
    **constants: float,
) -> Any:
    """Turn many diameters; each row is what `halfnut.turn` computes for the same numbers.

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

    >>> from halfnut import batch
    >>> jobs = {"alloy": ["6061-T6", "4140"], "diameter_mm": [32.0, -1.0], "depth_mm": [1.0, 1.0]}
    >>> done = turn(jobs, machine="gap-bed")
    >>> done["status"].tolist(), batch.reasons(done, "turn")
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

    cases = turn_cases()
    table = open_frame(frame)
    finishes: NDArray[np.uint8] | bool = finish
    if "finish" in table.names():
        finishes = np.ascontiguousarray(np.nan_to_num(table.numbers("finish")) != 0.0).view(np.uint8)
    core = core_machine(machine)
    holder = _holder(core, chuck, hold)
    return _cut(
        "turn", frame, machine=core, alloy=alloy, tool=tool, columns=columns, out=out, workers=workers,
        progress=progress, cancel=cancel, constants=constants, ask=ask,
    )  # fmt: skip


@batch_of
def drill(
    frame: FrameLike,
    /,
    *,
    machine: MachineLike | None = None,
    alloy: str | None = None,
    tool: str | None = None,
    chuck: str | int | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
    **constants: float,
) -> Any:
    """Drill many holes; each row is what `halfnut.drill` computes for the same numbers.

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
    core = core_machine(machine)
    holder = _holder(core, chuck, "chuck") if core is not None and core.kind == "lathe" else -1

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


@batch_of
def mill(
    frame: FrameLike,
    /,
    *,
    machine: MachineLike | None = None,
    alloy: str | None = None,
    tool: str | None = None,
    shape: str = "side",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
    **constants: float,
) -> Any:
    """Mill many cuts; each row is what `halfnut.mill` computes for the same numbers.

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
