"""Batches whose rows repeat: each distinct row is answered once, and its answer spread."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from halfnut.batch.frames import FrameLike, open_frame
from halfnut.batch.given import Argument, Given
from halfnut.batch.running import CHUNKS, DTYPES, NO_ARGUMENT, Columns, Run, Types, workers_of
from halfnut.core.catalogue import carried

# Texts and numbers that make a row of the kinds whose rows repeat.
FILMS = tuple(f"build_up_{side}_{end}_um" for side in ("external", "internal") for end in ("min", "max"))
ROWS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "limits": (("thread",), ("engagement_mm",)),
    "fit": (("external", "internal"), ("engagement_mm", *FILMS)),
    "wires": (("thread",), ("wire_mm",)),
    "taper_pipe": (("thread",), ()),
    "knurl_blank": (("pitch",), ("diameter_mm",)),
}

Numbers: TypeAlias = Mapping[str, float | NDArray[np.float64]]
Ask: TypeAlias = Callable[[list[list[str]], Numbers], Columns]


def types_of(ask: Ask, texts: list[list[str]]) -> Types:
    """The columns that a question answers: those of no rows."""
    own: Types = {name: np.dtype(DTYPES[name]) for name in ("case_id", "reason")}
    return {**{name: column.dtype for name, column in ask(texts, {}).items()}, **own}


def row_arguments(kind: str) -> tuple[Argument, ...]:
    """The numbers of a row."""
    return tuple(Argument(name, name.rpartition("_")[2], name == "diameter_mm") for name in ROWS[kind][1])


def distinct_rows(
    kind: str,
    frame: FrameLike,
    constant_texts: dict[str, str | None],
    constants: dict[str, Any],
    ask: Ask,
    run: Run,
) -> Any:
    """Answer each distinct row once, on several threads, when the first of its rows comes; spread the answers."""
    table = open_frame(frame)
    given = Given(table, row_arguments(kind), constant_texts, constants)
    coded = [given.texts(name, text) for name, text in constant_texts.items()]
    lookups = [[*distinct, ""] for _, distinct in coded]  # the last for a row without a text
    types = types_of(ask, [distinct if kind == "knurl_blank" else [] for _, distinct in coded])
    places = run.places(types, types, table.rows, given.inputs)
    numbers = given.slice(0, table.rows)
    parts: list[NDArray[Any]] = [codes for codes, _ in coded if isinstance(codes, np.ndarray)]
    parts += [column for column in numbers.values() if isinstance(column, np.ndarray)]
    first_rows, spread = _distinct(parts, table.rows)
    answers = {name: np.empty(len(first_rows), types[name]) for name in {**places, "status": None}}
    answered = np.zeros(len(first_rows), bool)
    threads = workers_of(run.workers) or os.cpu_count() or 1

    def piece(which: NDArray[np.intp]) -> None:
        at = first_rows[which]
        texts = [
            [lookup[code] for code in (codes[at] if isinstance(codes, np.ndarray) else [0] * len(at))]
            for (codes, _), lookup in zip(coded, lookups, strict=True)
        ]
        some = {name: column[at] if isinstance(column, np.ndarray) else column for name, column in numbers.items()}
        answer = ask(texts, some)
        status = answer["status"]
        answer["reason"] = np.where(status == 0, 0, (status.astype(np.uint16) << 8) | NO_ARGUMENT)
        answer["case_id"] = at
        for name, column in answers.items():
            column[which] = answer.get(name, np.nan if column.dtype.kind == "f" else 0)

    answer_piece = carried(piece)  # the pool's threads know of no shop
    with ThreadPoolExecutor(threads) as pool:

        def work(first: int, last: int, to: Columns) -> None:
            rows = spread[first:last]
            new = np.unique(rows)
            new = new[~answered[new]]
            if len(new) > 0:
                list(pool.map(answer_piece, np.array_split(new, min(threads, max(1, len(new) // 64)))))
            answered[new] = True
            for name, column in to.items():
                if name != "status":
                    column[:] = answers[name][rows]
            to["status"][:] = answers["status"][rows]

        run.fill(table.rows, places, CHUNKS[kind], work)
    return run.given(table, places)


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
