"""What the rows of a batch rest on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from halfnut import _core
from halfnut._core import DomainError, Error, Evidence
from halfnut.batch.cuts import turn_cases
from halfnut.batch.distinct import FILMS, ROWS, row_arguments
from halfnut.batch.frames import FrameLike, open_frame
from halfnut.batch.given import Given, near_or_all
from halfnut.batch.telling import whole_numbers
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.units import mm

__all__ = ["Case", "RowCase", "cases", "row_cases"]


@dataclass(frozen=True)
class Case:
    """What rows with one ``case_id`` rest on.

    Attributes
    ----------
    alloy : str
        Its id.
    tool : str
        The tool's material.
    finish : bool
        Whether the rows are finishing cuts.
    window_low_m_min, window_high_m_min : float
        Speeds that suit it.
    kc11_n_mm2, mc, kc_speed_m_min : float
        Constants of the cutting force, and the speed that they were measured at; NaN: they hold for any.
    band_low, band_high : float
        Where a measured force lies, as shares of the computed one.
    youngs_modulus_gpa : float
        Of the work.
    evidence : tuple of Evidence
        For each figure its rule, and the row of a table where there is one.
    """

    case_id: int
    alloy: str
    tool: str
    finish: bool
    window_low_m_min: float
    window_high_m_min: float
    kc11_n_mm2: float
    mc: float
    kc_speed_m_min: float
    band_low: float
    band_high: float
    youngs_modulus_gpa: float
    evidence: tuple[Evidence, ...]


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
    found = {}
    alloys = active().rows("material/alloys")
    for case_id in np.unique(column[column >= 0]).tolist():
        known = turn_cases().describe(case_id)
        if known is not None:
            known["alloy"] = alloys[known["alloy"]]["id"]
            known["evidence"] = tuple(known["evidence"])
            found[case_id] = Case(case_id=case_id, **known)
    return found


@dataclass(frozen=True)
class RowCase:
    """What rows of threads or knurls with one ``case_id`` rest on.

    Attributes
    ----------
    case_id : int
        Place in the table, from 0, of the first row like it.
    given : dict
        Texts and numbers of that row, lengths in mm.
    evidence : tuple of Evidence
        For each figure its rule, and the row of a table where there is one.
    """

    case_id: int
    given: dict[str, Any]
    evidence: tuple[Evidence, ...]


@checked
def row_cases(answers: FrameLike, kind: str, frame: FrameLike, **how: object) -> dict[int, RowCase]:
    """The distinct cases that the rows of a batch of threads or knurls rest on.

    Parameters
    ----------
    answers : table
        What the batch answered, with ``case_id``.
    kind : {"limits", "fit", "wires", "taper_pipe", "knurl_blank"}
        The function that answered.
    frame : table
        What it was asked.
    **how
        The keywords it was asked with, but for those of the run.

    Returns
    -------
    dict
        From ``case_id`` to what it rests on, each asked of the scalar function, whose answer the row is; failed rows
        are not in it. Ids are places in this table: those of pieces of a frame stand for themselves.

    Raises
    ------
    DomainError
        A kind or a table that is not understood.

    >>> from halfnut import batch
    >>> frame = {"thread": ["M10-6g", "Tr40x7-7e", "M10-6g"]}
    >>> done = batch.limits(frame)
    >>> done["case_id"].tolist(), sorted(row_cases(done, "limits", frame))
    ([0, 1, 0], [0, 1])
    """
    if kind not in ROWS:
        raise DomainError(f"no batch {kind!r} of threads or knurls; {near_or_all(kind, ROWS)}")
    words, _ = ROWS[kind]
    arguments = row_arguments(kind)
    spellings = {spelling for argument in arguments for spelling in argument.spellings}
    table = open_frame(frame)
    given = Given(table, arguments, words, {name: value for name, value in how.items() if name in spellings})
    coded = {name: given.texts(name, how.get(name)) for name in words}
    options = {name: value for name, value in how.items() if name not in spellings and name not in words}
    numbers = given.slice(0, table.rows)
    found = {}
    for case_id in np.unique(whole_numbers(answers, "case_id", -1, table.rows - 1)).tolist():
        if case_id < 0:
            continue
        row: dict[str, Any] = {}
        for name, (codes, texts) in coded.items():
            code = int(codes[case_id]) if isinstance(codes, np.ndarray) else 0
            row[name] = texts[code] if code >= 0 else ""
        for name, column in numbers.items():
            value = float(column[case_id]) if isinstance(column, np.ndarray) else column
            if not np.isnan(value):
                row[name] = value
        try:
            found[case_id] = RowCase(case_id, row, tuple(_ask_scalar(kind, row, options).evidence))
        except Error:
            continue
    return found


def _ask_scalar(kind: str, row: dict[str, Any], options: dict[str, Any]) -> Any:
    """The scalar answer to a row."""
    from halfnut.knurls.questions import knurl_blank
    from halfnut.threads import questions

    given = dict(options)
    for name, value in row.items():
        if name.endswith("_mm"):
            given[name.removesuffix("_mm")] = mm(value)
        elif name not in FILMS:
            given[name] = value
    if kind == "wires" and given.pop("best", False):
        given.setdefault("wire", "best")
    if kind == "fit":
        for side in ("external", "internal"):
            ends = (row.get(f"build_up_{side}_{end}_um", 0.0) for end in ("min", "max"))
            given[f"build_up_{side}"] = _core.BuildUp(*ends)
    return knurl_blank(**given) if kind == "knurl_blank" else getattr(questions, kind)(**given)
