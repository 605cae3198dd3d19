"""How batches of knurl blanks are run; `batch.questions` has the function."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from halfnut._core import Error
from halfnut.batch.distinct import Ask, Numbers, distinct_rows
from halfnut.batch.frames import FrameLike
from halfnut.batch.running import NOT_UNDERSTOOD, Columns, Run


def blanks(frame: FrameLike, run: Run, pitch: str | None, options: Mapping[str, Any]) -> Any:
    """Answer a batch of blanks, one pitch for all rows where it is given."""
    return distinct_rows("knurl_blank", frame, {"pitch": pitch}, {}, knurls_asked(options, pitch is not None), run)


def knurls_asked(options: Mapping[str, Any], sure: bool) -> Ask:
    """Ask for the blanks of one pitch after the other; a pitch that is not understood marks its rows, or is refused."""
    from halfnut.knurls.blanks import blank_columns

    def ask(texts: list[list[str]], numbers: Numbers) -> Columns:
        pitches = np.array(texts[0], dtype=object)
        diameters = np.atleast_1d(numbers.get("diameter_mm", np.empty(0)))
        answers: Columns = {"status": np.full(len(diameters), NOT_UNDERSTOOD, np.uint8)}
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
