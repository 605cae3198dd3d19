"""What a batch says of its rows: reasons why one has no answer, and cautions."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import DomainError, Error
from halfnut.batch.frames import Frame, FrameLike, open_frame
from halfnut.batch.given import Argument, near_or_all
from halfnut.batch.running import NOT_REACHED, NOT_REACHED_REASON, NOT_REACHED_WORDS, USUAL
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.questions import declared

__all__ = ["cautions", "reasons"]


@checked
def reasons(answers: FrameLike, kind: str, frame: FrameLike | None = None) -> dict[int, str]:
    """Why rows have no answer.

    Parameters
    ----------
    answers : table
        What a batch answered, with ``reason``.
    kind : str
        The function that answered, such as "turn" or "limits".
    frame : table, optional
        What a batch of cuts was asked: then the reason says what was given, and the nearest that would be right.

    Returns
    -------
    dict
        Row, from 0, to the reason; rows with an answer are not in it.

    Examples
    --------
    >>> from halfnut import batch
    >>> jobs = {"alloy": ["6061-T6", "6061-T7"], "diameter_mm": [-2.0, 20.0]}
    >>> reasons(batch.turn(jobs), "turn", jobs)[0]
    'diameter_mm must be from 1e-06 to 100000 mm, got -2 mm'
    >>> reasons(batch.turn(jobs), "turn", jobs)[1][:20]
    "no alloy '6061-T7'; "
    """
    if kind not in USUAL:
        if kind not in declared():
            raise DomainError(f"no batch {kind!r}; {near_or_all(kind, declared())}")
        codes, texts = open_frame(answers).texts("reason")
        return {row: text for row, code in enumerate(codes.tolist()) if code >= 0 and (text := texts[code])}
    column = whole_numbers(answers, "reason", 0, 65_535)
    rows = np.flatnonzero(column)
    why = {*column[rows].tolist()} - {NOT_REACHED_REASON}
    words = {code: _core.batch_reason(kind, code) for code in why} | {NOT_REACHED_REASON: NOT_REACHED_WORDS}
    out = {int(row): words[int(column[row])] for row in rows}
    if frame is not None:
        table = open_frame(frame)
        if table.rows != len(column):
            raise DomainError(f"frame must have the {len(column)} rows of answers, got {table.rows}")
        _say_what_was_given(out, column, kind, table)
    return out


def _say_what_was_given(out: dict[int, str], reason: NDArray[np.int64], kind: str, table: Frame) -> None:
    from halfnut.material.questions import alloy

    names, catalogue = set(table.names()), active()
    places = dict(enumerate(Argument(*each) for each in _core.batch_arguments(kind)))
    places[_core.HARDNESS_ARGUMENT] = Argument("hardness_hb", "HB", False)
    asked: dict[str, Callable[[str], object]] = {"alloy": alloy, "tool": lambda name: _core.tool(name, catalogue)}
    columns = {name: table.texts(name) for name in asked if name in names}
    numbers, complaint = cache(table.numbers), cache(_complaint)
    for row in out:
        status, at = divmod(int(reason[row]), 256)
        if status == NOT_REACHED:
            continue
        if at in places:
            name, unit = places[at].name, places[at].unit
            for spelling in names.intersection(places[at].spellings):
                shown = unit if spelling == name else _IN_INCHES.get(unit, unit)
                out[row] += f", got {numbers(spelling, unit)[row]:g} {shown}".rstrip()
            continue
        given = {name: texts[codes[row]] if codes[row] >= 0 else "" for name, (codes, texts) in columns.items()}
        out[row] = next(filter(None, (complaint(asked[name], text) for name, text in given.items())), out[row])


_IN_INCHES = {"mm": "in", "mm/rev": "in/rev", "um": "uin"}


def _complaint(ask: Callable[[str], object], text: str) -> str:
    """What a scalar call says of a text; nothing where it takes it."""
    try:
        ask(text)
    except Error as error:
        return str(error)
    return ""


def whole_numbers(answers: FrameLike, name: str, low: int, high: int) -> NDArray[np.int64]:
    """A column of whole numbers that a batch answered; what came back from a file may hold anything."""
    table = open_frame(answers)
    if name not in table.names():
        raise DomainError(f"a column {name!r} is needed; the table has {sorted(table.names())}")
    column = table.numbers(name)
    bad = np.flatnonzero(~((column >= low) & (column <= high) & (column == np.floor(column))))
    if bad.size:
        raise DomainError(
            f"column {name!r} must hold whole numbers from {low} to {high}, got {column[bad[0]]:g} in row {bad[0]}"
        )
    return column.astype(np.int64)


@checked
def cautions(bits: int) -> list[str]:
    """Codes of the cautions of a row.

    Parameters
    ----------
    bits : int
        A value of the column ``cautions`` of a cut.

    Returns
    -------
    list of str
        As `Cut.cautions` has them.

    Examples
    --------
    >>> cautions(0)
    []
    """
    return [name for place, name in enumerate(_core.caution_codes()) if int(bits) >> place & 1]
