"""Questions as JSON: what a program may send, what it gets, and the JSON Schema of both.

    {"question": "turn", "values": {"alloy": "6061-T6", "diameter": "1.25 in", "length_mm": 50}}

A value is named as the function's argument, with its unit in the text, or as a column, with its unit in the name. The
answer is one flat object: `halfnut` is the version of this form, `version` that of the question, raised when a key
goes or changes its meaning; keys that a reader does not know are to be left alone. The core reads and writes it, for
this and every other face.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from types import NoneType
from typing import Any

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.questions import Answered, declared, found
from halfnut.core.record import Record
from halfnut.core.words import by_rank

__all__ = ["answer", "flat", "schema"]

_TEXTS = ("figure", "rule", "row", "source", "kind")


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema of a question; that of its answer stands in ``$defs``.

    Parameters
    ----------
    name : str
        Name of the question, such as "turn".

    Returns
    -------
    dict
        Of draft 2020-12, with what each argument is in words.

    Raises
    ------
    NotTabulatedError
        No such question.

    >>> schema("turn")["properties"]["question"]
    {'const': 'turn'}
    """
    out: dict[str, Any] = json.loads(_core.schema_json(name, active()))
    return out


def answer(asked: object) -> dict[str, Any]:
    """The answer to a question that came as JSON, what stands in files named in it as a person names it.

    Parameters
    ----------
    asked : mapping
        ``{"question": ..., "values": {...}}``.

    Returns
    -------
    dict
        Figures by the keys that the question declares, cautions and evidence, as one flat object.

    Raises
    ------
    DomainError
        What is no question, or a value that it does not have; the message names the nearest.
    Error
        As the question's own.

    >>> answer({"question": "turn", "values": {"alloy": "brass", "diameter_mm": 20}})["spindle_rpm"] > 1000
    True
    """
    try:
        out: dict[str, Any] = json.loads(_core.answered_json(_with_files(asked), active()))
    except UnicodeEncodeError:
        raise _core.DomainError("the question has half of a surrogate pair, which is no character") from None
    return out


def _with_files(asked: object) -> object:
    """What was asked, with what stands in files in place of its name."""
    if not isinstance(asked, Mapping) or not isinstance(asked.get("values"), Mapping):
        return asked
    name, values = asked.get("question", ""), dict(asked["values"])
    for row in declared()[name]["arguments"] if name in declared() else ():
        given = values.get(row["name"])  # by its name, if at all; else it is there as JSON
        if isinstance(given, (str, NoneType)) and (held := found(name, row, given)) is not given:
            values[row["name"]] = held
    return {**asked, "values": values}


def flat(record: Record) -> dict[str, Any]:
    """A record as JSON answers hold it; an answer has what its question declares.

    Parameters
    ----------
    record : Record
        Any answer of level 2.

    Returns
    -------
    dict
        Figures by their keys, ``cautions`` with code, rank and text, and ``evidence``.
    """
    if isinstance(record, Answered):
        out: dict[str, Any] = json.loads(record.json())
        return out
    evidence = [{key: getattr(item, key) for key in _TEXTS} for item in record.evidence]
    return record.to_dict() | {"cautions": [item.to_dict() for item in by_rank(record.told)], "evidence": evidence}
