"""How a batch is run: columns to fill, pieces, progress, stopping."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, MutableMapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Literal, Protocol, TypeAlias

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import DomainError, Error
from halfnut.batch.frames import Frame
from halfnut.batch.given import near_or_all

__all__ = ["NOT_REACHED", "Stopped"]

NOT_REACHED = 255
"""Status of a row that a stopped run did not come to."""

NOT_REACHED_REASON = NOT_REACHED << 8
NOT_REACHED_WORDS = "the run was stopped before this row"

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

_SET = "spindle_step spindle_rpm cutting_speed_m_min feed_step"
_SAID = "time_s limited_by cautions"
USUAL = {
    "turn": f"{_SET} feed_mm_rev depth_mm cutting_force_n spindle_power_kw torque_nm mrr_cm3_min roughness_ra_um "
    f"deflection_mm {_SAID} case_id status reason".split(),
    "drill": f"{_SET} feed_mm_rev feed_force_n spindle_power_kw torque_nm mrr_cm3_min {_SAID} status reason".split(),
    "mill": f"{_SET} feed_mm_min feed_per_tooth_mm depth_mm width_mm passes cutting_force_n spindle_power_kw torque_nm "
    f"mrr_cm3_min deflection_mm {_SAID} status reason".split(),
}

# Rows between two looks at the clock, the cancel switch and the keyboard.
CHUNKS = {"turn": 1 << 18, "drill": 1 << 13, "mill": 1 << 13}
DISTINCT_ROWS = 1 << 13

_FIGURE = np.dtype(np.float64)
Types: TypeAlias = dict[str, np.dtype[Any]]
Columns: TypeAlias = dict[str, NDArray[Any]]

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
    types: Types, usual: Iterable[str], columns: Iterable[str] | str | None, out: Mapping[str, object] | None
) -> Types:
    """The columns to answer, of those that there are, and their types."""
    if out is None and isinstance(columns, str) and columns != "all":
        raise DomainError(f"columns must be a list of names or 'all', got {columns!r}")
    wanted = list(
        out if out is not None else usual if columns is None else types if isinstance(columns, str) else columns
    )
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


@dataclass(frozen=True)
class Run:
    """How a batch is run: what is answered and where to, by how many, who is told, who may stop it."""

    columns: Iterable[str] | str | None = None
    out: MutableMapping[str, NDArray[Any]] | None = None
    workers: int | None = None
    progress: Progress | Literal["bar"] | None = None
    cancel: Cancel | None = None

    def places(self, types: Types, usual: Iterable[str], rows: int, inputs: list[NDArray[Any]]) -> Columns:
        """Where the answers go: new arrays, or those of `out`, none over another or over what is read."""
        wanted = wanted_columns(types, usual, self.columns, self.out)
        if self.out is None:
            return {name: np.empty(rows, dtype) for name, dtype in wanted.items()}
        places: Columns = {}
        for name, dtype in wanted.items():
            column = self.out[name]
            right = isinstance(column, np.ndarray) and column.dtype == dtype and column.shape == (rows,)
            if not (right and column.flags.c_contiguous and column.flags.writeable):
                raise DomainError(f"out[{name!r}] must be a writable, contiguous array of {rows} rows of {dtype}")
            if any(np.may_share_memory(column, other) for other in (*inputs, *places.values())):
                raise DomainError(f"out[{name!r}] shares memory with another column")
            places[name] = column
        return places

    def fill(self, rows: int, places: Columns, chunk_rows: int, work: Callable[[int, int, Columns], None]) -> None:
        """Work through the rows. Whatever stops it, each row is either whole or marked as not reached."""
        places["status"].fill(NOT_REACHED)
        done = 0
        try:
            with _display(self.progress, rows) as show:
                while done < rows:
                    if self.cancel is not None and (self.cancel() if callable(self.cancel) else self.cancel.is_set()):
                        raise Stopped(f"stopped after {done} of {rows} rows")
                    last = min(rows, done + chunk_rows)
                    work(done, last, {name: column[done:last] for name, column in places.items()})
                    done = last
                    show(done, rows)
        finally:
            if done < rows:
                _mark(places, done)

    def given(self, table: Frame, places: Columns) -> Any:
        """The answers: `out`, or a table of the kind that was asked."""
        return table.give(places) if self.out is None else self.out


def _mark(places: Columns, first: int) -> None:
    for name, column in places.items():
        reason = NOT_REACHED_WORDS if column.dtype.hasobject else NOT_REACHED_REASON
        blank = {"status": NOT_REACHED, "reason": reason, "case_id": -1}
        column[first:] = blank.get(name, {"f": np.nan, "U": "", "O": ""}.get(column.dtype.kind, 0))


@contextmanager
def _display(progress: Progress | Literal["bar"] | None, rows: int) -> Iterator[Progress]:
    """What shows the progress: nothing, a caller's function, or a bar on the terminal."""
    if progress == "bar":
        import click

        with click.progressbar(length=rows, label="rows") as bar:
            yield lambda done, rows: bar.update(done - bar.pos)
    elif progress is None:
        yield lambda done, rows: None
    elif callable(progress):
        yield progress
    else:
        raise DomainError(f"progress must be a function of (rows done, rows) or 'bar', got {progress!r}")


def workers_of(workers: int | None) -> int:
    if workers is None:
        return 0
    most = _core.bounds()["items"]
    if isinstance(workers, bool) or not isinstance(workers, int) or not 1 <= workers <= most:
        raise DomainError(f"workers must be a whole number from 1 to {most}, got {workers!r}")
    return workers
