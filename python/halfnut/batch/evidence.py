"""What the rows of a batch rest on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from halfnut._core import Evidence, Quantity
from halfnut.batch.asking import read_table, rows_of
from halfnut.batch.cuts import turn_cases
from halfnut.batch.frames import FrameLike
from halfnut.batch.telling import whole_numbers
from halfnut.core.arguments import checked
from halfnut.core.questions import function_of

__all__ = ["Case", "RowCase", "cases", "row_cases"]


@dataclass(frozen=True)
class Case:
    """What rows with one ``case_id`` rest on."""

    case_id: int
    alloy: str
    """Its id."""
    tool: str
    """The tool's material."""
    finish: bool
    """Whether the rows are finishing cuts."""
    window_low_m_min: float
    window_high_m_min: float
    """Speeds that suit it."""
    kc11_n_mm2: float
    mc: float
    kc_speed_m_min: float
    """Constants of the cutting force, and the speed that they were measured at; NaN: they hold for any."""
    band_low: float
    band_high: float
    """Where a measured force lies, as shares of the computed one."""
    youngs_modulus_gpa: float
    """Of the work."""
    evidence: tuple[Evidence, ...]
    """For each figure its rule, and the row of a table where there is one."""


@checked
def cases(answers: FrameLike) -> dict[int, Case]:
    """The distinct cases that the rows of a turning batch rest on.

    Parameters
    ----------
    answers : table
        What `turn` answered, with ``case_id``.

    Returns
    -------
    dict
        From ``case_id`` to what it rests on. Ids depend on the tables alone: they hold over pieces of a frame.
    """
    column = whole_numbers(answers, "case_id", -1, 2**31 - 1)
    described = {case_id: turn_cases().describe(case_id) for case_id in np.unique(column[column >= 0]).tolist()}
    return {case_id: Case(case_id, **known) for case_id, known in described.items() if known is not None}


@dataclass(frozen=True)
class RowCase:
    """What rows of a question with one ``case_id`` rest on."""

    case_id: int
    """Place in the table, from 0, of the first row like it."""
    given: dict[str, object]
    """What the columns give in that row, by argument; lengths in mm."""
    evidence: tuple[Evidence, ...]
    """For each figure its rule, and the row of a table where there is one."""


@checked
def row_cases(answers: FrameLike, kind: str, frame: FrameLike, **how: object) -> dict[int, RowCase]:
    """The distinct cases that the rows of a question rest on.

    Parameters
    ----------
    answers : table
        What the batch answered, with ``case_id``.
    kind : str
        The question, such as "limits".
    frame : table
        What it was asked.
    **how
        The keywords it was asked with, but for those of the run.

    Returns
    -------
    dict
        From ``case_id`` to what it rests on, each asked of the question alone, whose answer the row is; failed rows
        are not in it. Ids are places in this table: those of pieces of a frame stand for themselves.

    Raises
    ------
    DomainError, NotTabulatedError
        A question or a table that is not understood.

    >>> from halfnut import batch
    >>> frame = {"thread": ["M10-6g", "Tr40x7-7e", "M10-6g"]}
    >>> done = batch.limits(frame)
    >>> done["case_id"].tolist(), sorted(row_cases(done, "limits", frame))
    ([0, 1, 0], [0, 1])
    """
    asked = read_table(kind, frame, how)
    ids, failed = (
        whole_numbers(answers, name, *of)
        for name, of in (("case_id", (-1, asked.table.rows - 1)), ("status", (0, 255)))
    )
    rows = {row["name"]: row for row in rows_of(kind)}
    function = function_of(kind)
    shared = {name: value for name, value in zip(rows, asked.values, strict=True) if value is not None}
    found = {}
    for case_id in np.unique(ids[(ids >= 0) & (failed == 0)]).tolist():
        given = asked.row(case_id)
        values = {name: _written(rows[name], value) for name, value in given.items()}
        found[case_id] = RowCase(case_id, given, tuple(function(**shared, **values).evidence))
    return found


def _written(row: Mapping[str, Any], value: object) -> object:
    """What a cell gives, as a function takes it."""
    return Quantity(value, row["unit"], row["dimension"]) if isinstance(value, float) and row["dimension"] else value
