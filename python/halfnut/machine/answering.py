"""A question that came as JSON, machines named in it as a person names them; `core.schemas` says its form."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from halfnut import _core
from halfnut._core import DomainError
from halfnut.core.catalogue import active
from halfnut.core.questions import declared
from halfnut.machine.of_name import core_machine

__all__ = ["answer"]


def answer(asked: object) -> dict[str, Any]:
    """The answer to a question that came as JSON, as one flat object.

    Parameters
    ----------
    asked : mapping
        ``{"question": ..., "values": {...}}``.

    Returns
    -------
    dict
        Figures by the keys that the question declares, cautions and evidence.

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
        out: dict[str, Any] = json.loads(_core.answered_json(_with_machines(asked), active()))
    except UnicodeEncodeError:
        raise DomainError("the question has half of a surrogate pair, which is no character") from None
    return out


def _with_machines(asked: object) -> object:
    """What was asked, machines in place of their names."""
    if not isinstance(asked, Mapping) or not isinstance(asked.get("values"), Mapping):
        return asked
    question = declared().get(asked.get("question", ""), {"arguments": []})
    values = dict(asked["values"])
    for row in question["arguments"]:
        if row["kind"] == "machine" and isinstance(values.get(row["name"]), str):
            values[row["name"]] = core_machine(values[row["name"]])
    return {**asked, "values": values}
