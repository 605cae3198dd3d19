"""Questions as JSON: what a program may send, what it gets, and the JSON Schema of both.

    {"question": "turn", "values": {"alloy": "6061-T6", "diameter": "1.25 in", "length_mm": 50}}

A value is named as the function's argument, with its unit in the text, or as a column, with its unit in the name. The
answer is one flat object: `halfnut` is the version of this form, `version` that of the question, raised when a key
goes or changes its meaning; keys that a reader does not know are to be left alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, NotTabulatedError, Quantity
from halfnut.core.questions import Answered, declared
from halfnut.core.record import Record

__all__ = ["answer", "flat", "schema"]

FORM = 1
_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_PLAIN: dict[str, dict[str, Any]] = {
    "number": {"type": "number"},
    "count": {"type": "integer"},
    "flag": {"type": "boolean"},
    "text": {"type": "string"},
    "machine": {"type": "string"},
}
_FIGURES: dict[str, dict[str, Any]] = {
    **_PLAIN,
    "pairs": {"type": "object", "additionalProperties": {"type": "string"}},
    "numbers": {"type": "array", "items": {"type": "number"}},
    "texts": {"type": "array", "items": {"type": "string"}},
}
_TEXTS = ("figure", "rule", "row", "source", "kind")


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema of a question; that of its answer stands in ``$defs``.

    >>> schema("turn")["properties"]["question"]
    {'const': 'turn'}
    """
    question = _question(name)
    rows = question["arguments"]
    values = {row["name"]: _named(row) for row in rows}
    values |= {row["key"]: _column(row) for row in rows if row["unit"] and row["key"] != row["name"]}
    needed = [{"anyOf": [{"required": [key]} for key in sorted({row["name"], row["key"]} & values.keys())]}
              for row in rows if row["required"]]  # fmt: skip
    return {
        "$schema": _DIALECT,
        "title": name,
        "description": question["about"],
        "type": "object",
        "properties": {
            "halfnut": {"const": FORM},
            "question": {"const": name},
            "values": {"type": "object", "properties": values, "additionalProperties": False, "allOf": needed},
        },
        "required": ["question", "values"],
        "additionalProperties": False,
        "$defs": {"answer": _answer(question)},
    }


def _question(name: str) -> dict[str, Any]:
    known = declared()
    if name not in known:
        near = _core.nearest_name(str(name), list(known))
        raise NotTabulatedError(f"no question {name!r}{f'; did you mean {near!r}?' if near else ''}")
    return known[name]


def _said(row: dict[str, Any]) -> str:
    usual = f" When not given: {row['usual']}." if row["usual"] else ""
    return f"{row['about']}{usual}"


def _named(row: dict[str, Any]) -> dict[str, Any]:
    out: dict[str, Any] = {"description": _said(row)}
    if row["kind"] == "choice":
        return out | {"enum": row["choices"]}
    if row["kind"] == "list":
        return out | {"type": "array"}
    if row["written"]:
        return out | {"type": "string"}
    if row["kind"] == "text":
        return out | {"type": ["string", "integer"] if row["kin"] == "Holder" else "string"}
    if row["dimension"]:
        return out | {"type": ["number", "string"]} | _range(row)
    return out | _PLAIN[row["kind"]] | (_range(row) if row["kind"] == "number" else {})


def _column(row: dict[str, Any]) -> dict[str, Any]:
    plain = {"description": f"{_said(row)} In {row['unit']}.", "type": "number"} | _range(row)
    return {"type": "array", "items": plain} if row["kind"] == "list" else plain


def _range(row: dict[str, Any]) -> dict[str, float]:
    finite = {key: row[key] for key in ("low", "high") if abs(row[key]) != float("inf")}
    words = {"low": ("minimum", "exclusiveMinimum"), "high": ("maximum", "exclusiveMaximum")}
    return {words[key][row[f"{key}_open"]]: value for key, value in finite.items()}


def _answer(question: dict[str, Any]) -> dict[str, Any]:
    properties: dict[str, Any] = {
        "halfnut": {"const": FORM},
        "question": {"const": question["name"]},
        "version": {"const": question["version"]},
        "cautions": {"type": "array", "items": _texts("code", "rank", "text")},
        "evidence": {"type": "array", "items": _texts(*_TEXTS)},
    }
    return _figures(question["answer"], properties)


def _texts(*names: str) -> dict[str, Any]:
    return {"type": "object", "properties": {name: {"type": "string"} for name in names}}


def _figures(record: dict[str, Any], properties: dict[str, Any]) -> dict[str, Any]:
    for figure in record["figures"]:
        if figure["kind"] in {"told", "evidence"}:
            continue
        about = {"description": f"{figure['about']}{f' In {unit}.' if (unit := figure['unit']) else ''}"}
        if figure["kind"] == "records":
            shape: dict[str, Any] = {"type": "array", "items": _figures(figure["of"], {})}
        elif figure["kind"] == "record":
            shape = _figures(figure["of"], {})
        else:
            shape = {**_FIGURES[figure["kind"]]}
        if not figure["always"]:
            shape["type"] = [shape["type"], "null"]
        properties[figure["key"]] = shape | about
    return {"description": record["about"], "type": "object", "properties": properties}


def answer(asked: Any) -> dict[str, Any]:
    """The answer to a question that came as JSON, as one flat object.

    Parameters
    ----------
    asked : mapping
        ``{"question": ..., "values": {...}}``.

    Raises
    ------
    DomainError
        What is no question, or a value that it does not have; the message names the nearest.
    Error
        As the question's own.

    >>> answer({"question": "turn", "values": {"alloy": "brass", "diameter_mm": 20}})["spindle_rpm"] > 1000
    True
    """
    if not isinstance(asked, Mapping) or not isinstance(asked.get("values", {}), Mapping):
        raise DomainError("a question is an object with 'question' and, as an object, 'values'")
    for key in asked:
        if key not in {"halfnut", "question", "values"}:
            raise DomainError(f"a question has no {key!r}; it has 'halfnut', 'question' and 'values'")
    if asked.get("halfnut", FORM) != FORM:
        raise DomainError(f"halfnut must be {FORM}, the version of this form, got {asked['halfnut']!r}")
    question = _question(asked.get("question", ""))
    places = {row["name"]: row for row in question["arguments"]}
    columns = {row["key"]: row for row in question["arguments"] if row["unit"]}
    given: dict[str, Any] = {}
    for key, value in asked.get("values", {}).items():
        row = places.get(key) or columns.get(key)
        if row is None:
            near = _core.nearest_name(key, [*places, *columns])
            raise DomainError(f"{question['name']} has no {key!r}{f'; did you mean {near!r}?' if near else ''}")
        if row["name"] in given:
            raise DomainError(f"{row['name']} is given twice")
        given[row["name"]] = value if key == row["name"] else _in_unit(row, value)
    for name, row in places.items():
        if row["required"] and given.get(name) is None:
            raise DomainError(f"{question['name']} needs {name}: {row['about']}")
    function = getattr(import_module(f"halfnut.{question['room']}.questions"), question["name"])
    return flat(function(**given), question["name"])


def _in_unit(row: dict[str, Any], value: Any) -> Any:
    if isinstance(value, list):
        return [_in_unit(row, each) for each in value]
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise DomainError(f"{row['key']} must be a number in {row['unit']}, got {value!r}")
    return Quantity(value, row["unit"], row["dimension"]) if row["dimension"] else value


def flat(record: Record, name: str = "") -> dict[str, Any]:
    """A record as JSON answers hold it; a question's says which and in which version."""
    head = {"halfnut": FORM, "question": name, "version": _question(name)["version"]} if name else {}
    evidence = [{key: getattr(item, key) for key in _TEXTS} for item in record.evidence]
    notes = {} if not isinstance(record, Answered) else {"notes": None}
    told = [item.to_dict() for item in record.told_by_rank()]
    figures = {key: value for key, value in record.to_dict().items() if key not in notes}
    return head | figures | {"cautions": told, "evidence": evidence}
