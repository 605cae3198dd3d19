"""The columns that a batch answers with, before it is run."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from halfnut._core import DomainError
from halfnut.batch.asking import types_of, usual_of
from halfnut.batch.frames import TableLike
from halfnut.batch.given import near_or_all
from halfnut.batch.running import USUAL, cut_types, wanted_columns
from halfnut.core.arguments import checked
from halfnut.core.extras import optional
from halfnut.core.questions import declared

__all__ = ["column_types", "meta"]


@checked
def meta(kind: str, columns: Iterable[str] | str | None = None) -> TableLike:
    """An empty pandas frame with the columns and types that a batch answers.

    Parameters
    ----------
    kind : str
        The function, such as "turn" or "limits", or any question that `ask` asks.
    columns : list of str or "all", optional
        As given to it.

    Returns
    -------
    pandas.DataFrame
        Without rows: what ``dask.dataframe.map_partitions`` takes as ``meta``. Its types are those that ``out`` needs,
        where pandas has them; texts that are one of few are as wide as the widest.

    Raises
    ------
    DomainError
        Another kind.

    >>> meta("drill").dtypes["status"]
    dtype('uint8')
    >>> list(meta("limits", columns=["pitch_max_mm"]))
    ['pitch_max_mm', 'status']
    """
    pandas = optional("pandas", "pandas")
    types = column_types(kind, columns)
    blank = {name: np.array([""], object) if dtype.hasobject else np.zeros(1, dtype) for name, dtype in types.items()}
    empty: TableLike = pandas.DataFrame(blank).iloc[:0]
    return empty


@checked
def column_types(kind: str, columns: Iterable[str] | str | None = None) -> dict[str, np.dtype[Any]]:
    """The columns that a batch answers and their types, as ``out`` needs them.

    Parameters
    ----------
    kind, columns
        As for `meta`.

    Returns
    -------
    dict
        From the name of a column to its type.

    Raises
    ------
    DomainError
        As from `meta`.

    >>> from halfnut import batch
    >>> out = {name: np.empty(2, dtype) for name, dtype in column_types("limits").items()}
    >>> batch.limits({"thread": ["M10-6g", "G1/2 A"]}, out=out)["unit"].tolist()
    ['mm', 'mm']
    """
    if kind in USUAL:
        return wanted_columns(cut_types(), USUAL[kind], columns, None)
    if kind not in declared():
        raise DomainError(f"no batch {kind!r}; {near_or_all(kind, declared())}")
    return wanted_columns(types_of(kind), usual_of(kind), columns, None)
