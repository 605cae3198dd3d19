"""How batches of turning, drilling and milling are run; `batch.questions` has the functions."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import DomainError
from halfnut.batch.frames import FrameLike, open_frame
from halfnut.batch.given import Argument, Given, arguments_of
from halfnut.batch.running import CHUNKS, USUAL, Run, cut_types, workers_of
from halfnut.core.catalogue import active
from halfnut.machine.of_name import core_machine

if TYPE_CHECKING:
    from halfnut.core.given import HolderLike
    from halfnut.machine.of_name import MachineLike

Kind: TypeAlias = Literal["turn", "drill", "mill"]


def turn_cases() -> _core.TurnCases:
    """The cases of the active catalogue, worked out once and kept while it is the active one."""
    return _cases_of(active())


_cases_of = lru_cache(maxsize=1)(_core.TurnCases)


def cuts(
    kind: Kind,
    frame: FrameLike,
    run: Run,
    machine: MachineLike | None,
    alloy: str | None,
    tool: str | None,
    numbers: Mapping[str, object],
    *,
    finish: bool = False,
    way: str = "",
    chuck: HolderLike | None = None,
    clone: str = "",
) -> Any:
    """Answer a batch of cuts; `way` is how turned work is held, or what is milled."""
    table = open_frame(frame)
    core = core_machine(machine)
    hardness = Argument("hardness_hb", "HB", False)
    given = Given(table, [*arguments_of(kind), hardness], ("alloy", "tool", "finish", "shape"), numbers)
    alloys, alloy_names = given.texts("alloy", alloy)
    tools, tool_names = given.texts("tool", tool, "HSS")
    if not isinstance(tools, np.ndarray):
        _core.tool(tool_names[0], active())  # one for all rows: says why it is none
    finishes: NDArray[np.uint8] | bool = finish
    if kind == "turn" and "finish" in table.names():
        finishes = np.ascontiguousarray(np.nan_to_num(table.numbers("finish")) != 0.0).view(np.uint8)
    places = run.places(cut_types(), USUAL[kind], table.rows, given.inputs)
    rows_of_alloys = _core.match_alloys(alloy_names, active())
    if not isinstance(alloys, np.ndarray) and rows_of_alloys[0] < 0:
        _core.find_alloy(alloy_names[0], active())  # one for all rows: says why it is none
    held = kind == "turn" or (kind == "drill" and core is not None and core.kind == "lathe")
    holder = _holder(core, chuck, way or "chuck") if held else -1
    threads, cases = workers_of(run.workers), turn_cases()

    def work(first: int, last: int, to: dict[str, NDArray[Any]]) -> None:
        some, of_rows = given.slice(first, last), slice(first, last)
        _core.batch_cuts(
            kind,
            cases,
            core,
            last - first,
            rows_of_alloys,
            alloys[of_rows] if isinstance(alloys, np.ndarray) else alloys,
            tool_names,
            tools[of_rows] if isinstance(tools, np.ndarray) else tools,
            some.pop("hardness_hb", None),
            some,
            finishes[of_rows] if isinstance(finishes, np.ndarray) else finishes,
            way,
            given.inch,
            holder,
            to,
            threads,
            clone,
        )

    run.fill(table.rows, places, CHUNKS[kind], work)
    return run.given(table, places)


def _holder(machine: _core.Machine | None, chuck: HolderLike | None, hold: str) -> int:
    """The place of the chuck that is meant; a number that can be none is refused as a name is."""
    if chuck is not None and not isinstance(chuck, (str, int)):
        raise DomainError(f"chuck must be text or a place, got {chuck!r}")
    odd = isinstance(chuck, int) and not 0 <= chuck <= _core.bounds()["items"]
    return _core.holder_place(machine, str(chuck) if odd else chuck, hold)
