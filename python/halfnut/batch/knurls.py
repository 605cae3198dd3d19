"""Batches of knurl blanks."""

from __future__ import annotations

from collections.abc import Iterable, MutableMapping
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from halfnut._core import Error
from halfnut.batch.distinct import Ask, distinct_rows
from halfnut.batch.frames import FrameLike, batch_of
from halfnut.batch.running import NOT_UNDERSTOOD, Cancel, Progress

__all__ = ["knurl_blank"]


@batch_of
def knurl_blank(
    frame: FrameLike,
    /,
    *,
    pitch: str | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
    **options: object,
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
    return distinct_rows(
        "knurl_blank", frame, {"pitch": pitch}, {},
        knurls_asked(options, pitch is not None), columns=columns, out=out, workers=workers, progress=progress,
        cancel=cancel,
    )  # fmt: skip


def knurls_asked(options: dict[str, Any], sure: bool) -> Ask:
    """Ask for the blanks of one pitch after the other; a pitch that is not understood marks its rows, or is refused."""
    from halfnut.knurls.blanks import blank_columns

    def ask(texts: list[list[str]], numbers: dict[str, Any]) -> dict[str, NDArray[Any]]:
        pitches = np.array(texts[0], dtype=object)
        diameters = numbers.get("diameter_mm", np.empty(0))
        answers: dict[str, NDArray[Any]] = {"status": np.full(len(diameters), NOT_UNDERSTOOD, np.uint8)}
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
