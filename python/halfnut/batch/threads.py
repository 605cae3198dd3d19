"""Batches of thread limits, fits, sizes over wires and taper pipe threads."""

from __future__ import annotations

from collections.abc import Iterable, MutableMapping
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from halfnut.batch.distinct import FILMS, Numbers, distinct_rows
from halfnut.batch.frames import FrameLike, batch_of
from halfnut.batch.running import Cancel, Columns, Progress, Run

__all__ = ["fit", "limits", "taper_pipe", "wires"]


@batch_of
def limits(
    frame: FrameLike,
    /,
    *,
    thread: str | None = None,
    rule: Literal["printed", "formula"] = "printed",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
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
    from halfnut.threads.standard import limit_columns

    def ask(texts: list[list[str]], numbers: Numbers) -> Columns:
        return limit_columns(texts[0], rule=rule, engagement_mm=numbers.get("engagement_mm", np.nan), on_error="status")

    return distinct_rows(
        "limits", frame, {"thread": thread}, constants, ask,
        Run(columns, out, workers, progress, cancel),
    )  # fmt: skip


@batch_of
def fit(
    frame: FrameLike,
    /,
    *,
    external: str | None = None,
    internal: str | None = None,
    tolerance_over_sigma: float = 6.0,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
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
    from halfnut.threads.fitting import fit_columns

    def ask(texts: list[list[str]], numbers: Numbers) -> Columns:
        bare = {name: np.where(np.isnan(numbers[name]), 0.0, numbers[name]) for name in FILMS if name in numbers}
        return fit_columns(
            texts[0],
            texts[1],
            engagement_mm=numbers.get("engagement_mm", np.nan),
            tolerance_over_sigma=tolerance_over_sigma,
            on_error="status",
            **bare,
        )

    return distinct_rows(
        "fit", frame, {"external": external, "internal": internal}, constants, ask,
        Run(columns, out, workers, progress, cancel),
    )  # fmt: skip


@batch_of
def wires(
    frame: FrameLike,
    /,
    *,
    thread: str | None = None,
    best: bool = False,
    set: str = "",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
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
        As `halfnut.threads.gauging.wire_columns` has them.
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
    from halfnut.threads.gauging import wire_columns

    def ask(texts: list[list[str]], numbers: Numbers) -> Columns:
        return wire_columns(texts[0], wire_mm=numbers.get("wire_mm", np.nan), best=best, set=set, on_error="status")

    return distinct_rows(
        "wires", frame, {"thread": thread}, constants, ask,
        Run(columns, out, workers, progress, cancel),
    )  # fmt: skip


@batch_of
def taper_pipe(
    frame: FrameLike,
    /,
    *,
    thread: str | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
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
    from halfnut.threads.taper_pipes import taper_pipe_columns

    def ask(texts: list[list[str]], numbers: Numbers) -> Columns:
        return taper_pipe_columns(texts[0], on_error="status")

    return distinct_rows(
        "taper_pipe", frame, {"thread": thread}, {}, ask,
        Run(columns, out, workers, progress, cancel),
    )  # fmt: skip
