"""Questions as JSON: what a program may send, what it gets, and the JSON Schema of both.

    {"question": "turn", "values": {"alloy": "6061-T6", "diameter": "1.25 in", "length_mm": 50}}

A value is named as the function's argument, with its unit in the text, or as a column, with its unit in the name. The
answer is one flat object: `halfnut` is the version of this form, `version` that of the question, raised when a key
goes or changes its meaning; keys that a reader does not know are to be left alone. The core reads and writes it, for
this and every other face; `machine.answering` puts one.
"""

from __future__ import annotations

import json
from typing import Any

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.questions import Answered, declared
from halfnut.core.record import Record

__all__ = ["flat", "schema"]

FORM = 1
_TEXTS = ("figure", "rule", "row", "source", "kind")


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema of a question; that of its answer stands in ``$defs``.

    >>> schema("turn")["properties"]["question"]
    {'const': 'turn'}
    """
    out: dict[str, Any] = json.loads(_core.schema_json(name, active()))
    return out


def flat(record: Record, name: str = "") -> dict[str, Any]:
    """A record as JSON answers hold it; a question's says which and in which version, and has what is declared."""
    head = {"halfnut": FORM, "question": name, "version": declared()[name]["version"]} if name else {}
    evidence = [{key: getattr(item, key) for key in _TEXTS} for item in record.evidence]
    told = [item.to_dict() for item in record.told_by_rank()]
    figures = record.as_declared() if isinstance(record, Answered) else record.to_dict()
    return head | figures | {"cautions": told, "evidence": evidence}
