"""Any question of the core for every row of a table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, cast, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import DomainError, nearest_name
from halfnut.batch.frames import ArrowStream, FrameLike, SameFrame, TableLike, open_frame
from halfnut.batch.given import Argument, Given, near_or_all
from halfnut.core.catalogue import active
from halfnut.core.questions import declared, plain
from halfnut.machine.of_name import core_machine

if TYPE_CHECKING:
    from halfnut.machine.of_name import MachineLike

__all__ = ["ask"]

_COLUMNS = {"number", "count", "flag", "text"}


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
        The figures, `status` (0 where there is an answer) and `reason`.

    Raises
    ------
    NotTabulatedError
        No such question.
    DomainError
        A column or a figure that the question does not have, or one given twice.

    >>> ask("turn", {"diameter_mm": [20.0, 0.0]}, alloy="6061-T6", columns=["spindle_rpm"])["status"].tolist()
    [0, 2]
    """
    known = declared()
    if question not in known:
        near = nearest_name(question, list(known))
        raise _core.NotTabulatedError(f"no question {question!r}{f'; did you mean {near!r}?' if near else ''}")
    rows = known[question]["arguments"]
    table = open_frame(frame)
    numbers = [row for row in rows if row["kind"] in {"number", "count"}]
    texts = [row["name"] for row in rows if row["kind"] in {"text", "choice"}]
    given = Given(table, [Argument(row["key"], row["unit"], False) for row in numbers], texts, {})
    asked: list[tuple[Any, ...]] = []
    values: list[Any] = [None] * len(rows)
    unknown = common.keys() - {row["name"] for row in rows}
    if unknown:
        name = sorted(unknown)[0]
        raise DomainError(f"no argument {name!r}; {near_or_all(name, [row['name'] for row in rows])}")
    for place, row in enumerate(rows):
        has_column = row["key"] in given.numbers or row["name"] in (set(table.names()) & set(texts))
        if has_column and common.get(row["name"]) is not None:
            raise DomainError(f"column {row['key']!r} and the argument {row['name']} both give the {row['name']}")
        if row["key"] in given.numbers:
            column = given.slice(0, table.rows)[row["key"]]
            asked.append((place, np.ascontiguousarray(column, dtype=np.float64), row["key"] in given.inches))
        elif has_column:
            asked.append((place, *given.texts(row["name"], None)))
        elif row["name"] in common:
            value = common[row["name"]]
            values[place] = (
                core_machine(cast("MachineLike | None", value))
                if row["kind"] == "machine"
                else plain(question, place, value)
            )
    figures = {row["key"]: row["kind"] for row in known[question]["answer"]["figures"]}
    wanted = [key for key, kind in figures.items() if kind in _COLUMNS] if columns is None else list(columns)
    for key in wanted:
        if figures.get(key) not in _COLUMNS:
            raise DomainError(f"no column {key!r}; {near_or_all(key, figures)}")
    answers: FrameLike = table.give(_core.ask_rows(question, tuple(values), asked, table.rows, wanted, active()))
    return answers
