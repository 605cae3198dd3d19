"""How a batch is run: columns to fill, pieces, progress, stopping."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, MutableMapping
from typing import Any, Literal, Protocol, TypeAlias

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import DomainError, Error
from halfnut.batch.given import near_or_all

__all__ = ["NOT_REACHED", "Stopped"]

NOT_REACHED = 255
"""Status of a row that a stopped run did not come to."""

NOT_REACHED_REASON = NOT_REACHED << 8
NO_ARGUMENT = 255

DTYPES: dict[str, type] = {
    "spindle_step": np.uint16,
    "feed_step": np.uint16,
    "passes": np.uint16,
    "limited_by": np.uint8,
    "cautions": np.uint64,
    "case_id": np.int32,
    "status": np.uint8,
    "reason": np.uint16,
}

USUAL = {
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
CHUNKS = {"turn": 1 << 18, "drill": 1 << 13, "mill": 1 << 13, "limits": 1 << 13, "fit": 1 << 13, "wires": 1 << 12}
CHUNKS |= {"knurl_blank": 1 << 13, "taper_pipe": 1 << 13}

_FIGURE = np.dtype(np.float64)
Types = dict[str, np.dtype[Any]]

Progress = Callable[[int, int], object]


class Settable(Protocol):
    """An event of threads or processes."""

    def is_set(self) -> bool:
        """Whether the run is to stop."""


Cancel: TypeAlias = Settable | Callable[[], bool]


class Stopped(Error):
    """A run was cancelled; the message says after how many rows."""


def cut_types() -> Types:
    return {**dict.fromkeys(_core.cut_figures(), _FIGURE), **{name: np.dtype(of) for name, of in DTYPES.items()}}


def wanted_columns(
    types: Types, usual: Iterable[str], columns: Iterable[str] | str | None, out: Mapping[str, Any] | None
) -> Types:
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
            raise DomainError(f"no column {name!r}; {near_or_all(name, types)}")
    if out is not None and "status" not in out:
        raise DomainError("out must hold a column 'status': it says which rows have an answer")
    if "status" not in wanted:
        wanted.append("status")
    return {name: types[name] for name in wanted}


def places_of(
    wanted: Types, rows: int, out: MutableMapping[str, NDArray[Any]] | None, inputs: list[NDArray[Any]]
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


def run_pieces(
    rows: int,
    places: dict[str, NDArray[Any]],
    chunk_rows: int,
    work: Callable[[int, int, dict[str, NDArray[Any]]], None],
    progress: Progress | Literal["bar"] | None,
    cancel: Cancel | None,
) -> None:
    """Work through the rows. Whatever stops it, each row is either whole or marked as not reached."""
    places["status"].fill(NOT_REACHED)
    done = 0
    try:
        with _display(progress, rows) as show:
            while done < rows:
                if cancel is not None and (cancel() if callable(cancel) else cancel.is_set()):
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
        blank = {"status": NOT_REACHED, "reason": NOT_REACHED_REASON, "case_id": -1}
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


def workers_of(workers: int | None) -> int:
    if workers is None:
        return 0
    most = _core.bounds()["items"]
    if isinstance(workers, bool) or not isinstance(workers, int) or not 1 <= workers <= most:
        raise DomainError(f"workers must be a whole number from 1 to {most}, got {workers!r}")
    return workers


NOT_UNDERSTOOD = 6
