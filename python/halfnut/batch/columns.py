"""The columns that a batch answers with, before it is run."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from halfnut._core import DomainError
from halfnut.batch.distinct import types_of
from halfnut.batch.frames import TableLike
from halfnut.batch.given import near_or_all
from halfnut.batch.knurls import knurls_asked
from halfnut.batch.running import USUAL, cut_types, wanted_columns
from halfnut.core.arguments import checked
from halfnut.core.extras import optional

__all__ = ["column_types", "meta"]


@checked
def meta(kind: str, columns: Iterable[str] | str | None = None, **options: object) -> TableLike:
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
    empty: TableLike = pandas.DataFrame({name: np.empty(0, dtype) for name, dtype in types.items()})
    return empty


@checked
def column_types(kind: str, columns: Iterable[str] | str | None = None, **options: object) -> dict[str, np.dtype[Any]]:
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

    >>> from halfnut import batch
    >>> out = {name: np.empty(2, dtype) for name, dtype in column_types("limits").items()}
    >>> batch.limits({"thread": ["M10-6g", "G1/2 A"]}, out=out)["native_unit"].tolist()
    ['mm', 'mm']
    """
    from halfnut.threads import fitting, gauging, taper_pipes
    from halfnut.threads import standard as threads

    kinds = (*USUAL, "limits", "fit", "wires", "taper_pipe", "knurl_blank")
    if kind not in kinds:
        raise DomainError(f"no batch {kind!r}; {near_or_all(kind, kinds)}")
    pitch = options.pop("pitch", None)
    if kind != "knurl_blank" and (options or pitch is not None):
        raise DomainError(f"{', '.join(options) or 'pitch'}: only the columns of knurl_blank depend on options")
    if kind in USUAL:
        return wanted_columns(cut_types(), USUAL[kind], columns, None)
    if kind == "knurl_blank":
        if pitch is None:
            raise DomainError("the columns of knurl_blank depend on the pitch: give pitch, such as '96 DP'")
        types = types_of(knurls_asked(options, True), [[str(pitch)]])
    else:
        empty = {
            "limits": lambda: threads.limit_columns([]),
            "fit": lambda: fitting.fit_columns([], []),
            "wires": lambda: gauging.wire_columns([]),
            "taper_pipe": lambda: taper_pipes.taper_pipe_columns([]),
        }
        types = types_of(lambda texts, numbers: empty[kind](), [])
    return wanted_columns(types, types, columns, None)
