"""Any question of the core for every row of a table: each distinct row is answered once, and its answer spread."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, cast, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import DomainError
from halfnut.batch.frames import ArrowStream, Frame, FrameLike, SameFrame, TableLike, open_frame
from halfnut.batch.given import Argument, Given, near_or_all
from halfnut.batch.running import CHUNKS, DISTINCT_ROWS, Columns, Run, Types, workers_of
from halfnut.core.catalogue import active
from halfnut.core.questions import declared, found, plain

__all__ = ["ask"]

Row = Mapping[str, Any]
_OF_ROWS: Types = {"status": np.dtype(np.uint8), "case_id": np.dtype(np.int32), "reason": np.dtype(object)}


@overload
def ask(
    question: str, frame: Mapping[str, ArrayLike], *, columns: Iterable[str] | None = None, **common: object
) -> dict[str, NDArray[Any]]: ...
@overload
def ask(question: str, frame: SameFrame, *, columns: Iterable[str] | None = None, **common: object) -> SameFrame: ...
@overload
def ask(question: str, frame: ArrowStream, *, columns: Iterable[str] | None = None, **common: object) -> TableLike: ...
def ask(question: str, frame: FrameLike, *, columns: Iterable[str] | None = None, **common: object) -> Any:
    """Ask a question for every row of a table, each as the function of that name would answer it.

    Parameters
    ----------
    question : str
        Name of a question, such as "turn".
    frame : mapping of arrays, pandas.DataFrame, pyarrow.Table or RecordBatch, polars.DataFrame
        Columns by the keys of the question's arguments, sizes as ``diameter_mm`` or ``diameter_in``, texts as
        ``alloy``. A cell that holds nothing is not given.
    columns : iterable of str, optional
        Figures of the answer that are wanted; all that are numbers or texts when not given.
    **common
        Arguments that all rows share, as the function takes them.

    Returns
    -------
    table of the same kind
        The figures, those of a record within the answer after its name; ``status`` (0 where there is an answer),
        ``case_id`` (see `row_cases`) and ``reason``.

    Raises
    ------
    NotTabulatedError
        No such question.
    DomainError
        A column or a figure that the question does not have, one that is missing, or one given twice.

    >>> ask("turn", {"diameter_mm": [20.0, 0.0]}, alloy="6061-T6", columns=["spindle_rpm"])["status"].tolist()
    [0, 2]
    """
    return answered(question, frame, Run("all" if columns is None else list(columns)), common)


@dataclass(frozen=True)
class Asked:
    """What a table and the keywords give for a question."""

    table: Frame
    given: Given
    values: tuple[Any, ...]
    """Of each argument what all rows share, None where there is nothing such."""
    columns: dict[str, tuple[int, NDArray[Any], Any]]
    """By argument as the core takes it: (place, numbers, whether inches) or (place, codes, texts)."""

    def row(self, row: int) -> dict[str, Any]:
        """What the columns give in a row: numbers in the core's units."""
        out: dict[str, Any] = {}
        for name, (_, column, texts) in self.columns.items():
            if isinstance(texts, list):
                out |= {name: texts[column[row]]} if column[row] >= 0 else {}
            elif not np.isnan(column[row]):
                out[name] = float(column[row])
        return out


def rows_of(question: str) -> list[Row]:
    """The arguments of a question; NotTabulatedError where there is no such question."""
    if question not in declared():
        _core.question(question)  # which says what is nearest
    rows: list[Row] = declared()[question]["arguments"]
    return rows


def column_of(row: Row) -> Argument | None:
    """The column of numbers that an argument may come as."""
    if row["kind"] in {"number", "count", "flag"}:
        return Argument(row["key"], row["unit"], False)
    return (
        Argument(f"{row['key']}_{row['unit']}", row["unit"], False) if row["unit"] and row["kind"] == "text" else None
    )


def read_table(question: str, frame: FrameLike, common: Mapping[str, object]) -> Asked:
    """What a table, and what all its rows share, give for a question."""
    rows = rows_of(question)
    names = [row["name"] for row in rows]
    if unknown := sorted(common.keys() - set(names)):
        raise DomainError(f"no argument {unknown[0]!r}; {near_or_all(unknown[0], names)}")
    numbers = {row["name"]: column for row in rows if (column := column_of(row)) is not None}
    texts = [row["name"] for row in rows if row["kind"] in {"text", "choice"} and row["name"] not in numbers]
    table = open_frame(frame)
    given = Given(table, numbers.values(), texts, {})
    sliced = given.slice(0, table.rows)
    there = set(table.names()) & set(texts)
    values: list[Any] = [None] * len(rows)
    columns: dict[str, tuple[int, NDArray[Any], Any]] = {}
    for place, row in enumerate(rows):
        name, value = row["name"], common.get(row["name"])
        key = numbers[name].name if name in numbers else name
        if (key in sliced or name in there) and value is not None:
            raise DomainError(f"column {key!r} and the argument {name} both give the {name}")
        if key in sliced:
            columns[name] = place, np.ascontiguousarray(sliced[key], np.float64), key in given.inches
        elif name in there:
            columns[name] = place, *cast("tuple[NDArray[np.int32], list[str]]", given.texts(name, None))
        elif (value := found(question, row, value)) is not None:
            values[place] = plain(question, place, value)
        elif row["required"] and row["kind"] != "machine":
            spellings = " or ".join(map(repr, numbers[name].spellings if name in numbers else [name]))
            raise DomainError(f"a column {spellings} is needed; the table has {sorted(table.names())}")
    return Asked(table, given, tuple(values), columns)


@lru_cache(maxsize=64)
def types_of(question: str) -> Types:
    """The columns that a question answers and their types: numbers, and texts, as wide as their choices if few."""
    rows_of(question)
    out: Types = {}
    for figure in declared()[question]["answer"]["figures"]:
        within = figure["of"]["figures"] if figure["kind"] == "record" else []
        if any(each["kind"] == "told" for each in within):  # the answer to a question of its own
            continue
        for each in (row for row in within or [figure] if not row["aside"]):
            key = f"{figure['key']}_{each['key']}" if within else figure["key"]
            if each["kind"] in {"number", "count", "flag"}:
                out[key] = np.dtype(np.float64)
            elif choices := ["mm", "in"] if key == "unit" else each["choices"]:
                out[key] = np.dtype(f"U{max(map(len, choices))}")
            elif each["kind"] in {"text", "texts", "told"}:
                out[key] = np.dtype(object)
    return {**out, **_OF_ROWS}


def usual_of(question: str) -> list[str]:
    """The columns that are answered when none are named: all but texts that may be any."""
    return [name for name, dtype in types_of(question).items() if not dtype.hasobject or name in _OF_ROWS]


def answered(question: str, frame: FrameLike, run: Run, common: Mapping[str, object]) -> Any:
    """Answer each distinct row of a table once, when the first of its rows comes."""
    asked = read_table(question, frame, common)
    types, rows, catalogue = types_of(question), asked.table.rows, active()
    places = run.places(types, usual_of(question), rows, asked.given.inputs)
    _core.ask_rows(question, asked.values, [], 0, [], catalogue)  # what all rows share is refused at once
    first_rows, spread = _distinct([column for _, column, _ in asked.columns.values()], rows)
    kept = {name: np.empty(len(first_rows), types[name]) for name in {**places, "status": None}}
    done = np.zeros(len(first_rows), bool)
    wanted = [name for name in places if name not in _OF_ROWS]
    workers = workers_of(run.workers)

    def work(first: int, last: int, to: Columns) -> None:
        of_rows = spread[first:last]
        new = np.unique(of_rows)
        new = new[~done[new]]
        at = first_rows[new]
        columns = [(place, column[at], more) for place, column, more in asked.columns.values()]
        answer = _core.ask_rows(question, asked.values, columns, len(at), wanted, catalogue, workers) | {"case_id": at}
        for name, column in kept.items():
            column[new] = answer[name]
        done[new] = True
        for name in [*(each for each in to if each != "status"), "status"]:
            to[name][:] = kept[name][of_rows]

    run.fill(rows, places, CHUNKS.get(question, DISTINCT_ROWS), work)
    return run.given(asked.table, places)


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
