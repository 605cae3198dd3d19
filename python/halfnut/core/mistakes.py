"""Mistakes in a person's file, all at once: where, what is there, what is allowed, what was probably meant."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, Any

from halfnut._core import Error, nearest_name
from halfnut.core.fixed import made

if TYPE_CHECKING:
    from pydantic import ValidationError

    from halfnut._core import FileMistake

__all__ = ["InputError", "Mistake", "NameMistake", "from_pydantic", "key_path", "of_core"]


@made(frozen=True)
class Mistake:
    """One mistake: the key it is at, what is wrong, and what would be right."""

    key: str
    problem: str
    value: object = None
    given: bool = True
    allowed: tuple[str, ...] = ()
    nearest: str = ""
    place: str = ""
    """What it belongs to, in a person's words, and the key from there: "pin, operation 20, line 7: to"."""

    def __str__(self) -> str:
        shown = f" = {_shown(self.value)}" if self.given else ""
        parts = [f"{self.place or self.key or 'the file'}{shown}: {self.problem}"]
        if self.nearest:
            parts.append(f"nearest: {self.nearest}")
        if self.allowed:
            parts.append(f"allowed: {', '.join(self.allowed)}")
        return "; ".join(parts)


class InputError(Error, ValueError):
    """A file or dictionary that cannot be used as it is; `mistakes` holds every one found."""

    def __init__(self, file: str, mistakes: Iterable[Mistake]):
        self.file = file
        self.mistakes: tuple[Mistake, ...] = tuple(mistakes)
        count = len(self.mistakes)
        lines = [f"{file}: {count} mistake{'' if count == 1 else 's'}"]
        super().__init__("\n  ".join([*lines, *map(str, self.mistakes)]))

    def __reduce__(self) -> tuple[Any, ...]:
        return type(self), (self.file, self.mistakes)


def _shown(value: object) -> str:
    text = f'"{value}"' if isinstance(value, str) else repr(value)
    return text if len(text) <= 60 else text[:57] + "..."


def key_path(location: Iterable[str | int]) -> str:
    """A key path as a person writes it.

    >>> key_path(["parts", 0, "stock", "diameter"])
    'parts[0].stock.diameter'
    """
    path = ""
    for step in location:
        path += f"[{step}]" if isinstance(step, int) else f".{step}" if path else step
    return path


class NameMistake(ValueError):
    """Naming something that does not exist; a validator raises it, `from_pydantic` reports it.

    A list too long to read is not shown: then only the nearest name is.
    """

    def __init__(self, problem: str, value: str, known: Iterable[str], *, listed: bool = True):
        super().__init__(problem)
        names = list(known)
        self.nearest: str = nearest_name(value, names)
        self.allowed: tuple[str, ...] = tuple(names) if listed else ()


def of_core(found: Iterable[FileMistake], data: object) -> list[Mistake]:
    """Mistakes that the core found in the tables of a file.

    Parameters
    ----------
    found : iterable
        The way to each, what is wrong, whether it is a value's, what is allowed and what is nearest.
    data : object
        What was read.

    Returns
    -------
    list of Mistake
        With the values that are mistakes.
    """
    out = []
    for path, problem, given, allowed, nearest in found:
        value: Any = data if given else None
        for step in path if given else ():
            value = value[step]
        out.append(Mistake(key_path(path), problem, value, given, tuple(allowed), nearest))
    return out


def from_pydantic(error: ValidationError, root: type, data: object) -> list[Mistake]:
    """Mistakes from a pydantic ValidationError.

    Parameters
    ----------
    error : pydantic.ValidationError
        What was raised.
    root : type
        The model or dataclass that was validated.
    data : object
        What was validated, to tell a file's keys from the tags pydantic puts between them.
    """
    return [_mistake(item, root, data) for item in error.errors(include_url=False)]


_PROBLEMS = {
    "string_type": "must be text in quotes",
    "string_too_short": "must not be empty",
    "too_short": "must not be empty",
    "int_type": "must be a whole number",
    "int_from_float": "must be a whole number",
    "float_type": "must be a number",
    "bool_type": "must be true or false",
    "list_type": "must be a list",
    "tuple_type": "must be a list",
    "dict_type": "must be a table",
    "model_type": "must be a table",
    "dataclass_type": "must be a table",
    "model_attributes_type": "must be a table",
}


def _mistake(item: Mapping[str, Any], root: object, data: object) -> Mistake:
    location = _location(item["loc"], data)
    key, value, kind = key_path(location), item["input"], item["type"]
    context = item.get("ctx", {})
    if kind == "missing":
        return Mistake(key, "is missing", given=False)
    if kind in {"extra_forbidden", "unexpected_keyword_argument"}:
        allowed = _keys_at(root, item["loc"][:-1])
        nearest = nearest_name(str(location[-1]), allowed)
        return Mistake(key, "no such key", given=False, allowed=tuple(allowed), nearest=nearest)
    if kind == "literal_error":
        allowed = _choices(context["expected"])
        nearest = nearest_name(value, allowed) if isinstance(value, str) else ""
        return Mistake(key, "not one of the choices", value, allowed=tuple(allowed), nearest=nearest)
    if kind in {"union_tag_invalid", "union_tag_not_found"}:
        tag = context["discriminator"].strip("'")
        if kind == "union_tag_not_found":
            return Mistake(f"{key}.{tag}", "is missing", given=False)
        allowed = _choices(context["expected_tags"])
        nearest = nearest_name(context["tag"], allowed)
        return Mistake(
            f"{key}.{tag}", "not one of the choices", context["tag"], allowed=tuple(allowed), nearest=nearest
        )
    if kind == "value_error":
        cause = context["error"]
        if isinstance(cause, NameMistake):
            return Mistake(key, str(cause), value, allowed=cause.allowed, nearest=cause.nearest)
        return Mistake(key, str(cause), value, given=not isinstance(value, (Mapping, list)))
    return Mistake(key, _PROBLEMS.get(kind) or item["msg"].lower(), value)


def _choices(text: str) -> list[str]:
    return [word.strip().strip("'") for word in text.replace(" or ", ", ").split(", ")]


def _location(location: Sequence[str | int], whole: object) -> list[str | int]:
    found: list[str | int] = []
    data: Any = whole
    for place, step in enumerate(location):
        if isinstance(data, Mapping) and step not in data and place + 1 < len(location):
            continue
        found.append(step)
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            data = None
    return found


def _keys_at(hint: object, location: Sequence[str | int]) -> list[str]:
    for step in location:
        hint = _inside(hint, step)
    models = [model for model in _members(hint) if _hints(model)]
    return list(_hints(models[0])) if models else []


def _inside(hint: object, step: str | int) -> Any:
    for member in _members(hint):
        origin = typing.get_origin(member)
        if origin in {list, tuple} and isinstance(step, int):
            return typing.get_args(member)[0]
        if origin is dict:
            return typing.get_args(member)[1]
        hints = _hints(member)
        if step in hints:
            return hints[str(step)]
        if _tag(member) == step:
            return member
    return hint


def _members(hint: object) -> list[Any]:
    origin = typing.get_origin(hint)
    if origin is typing.Annotated:
        return _members(typing.get_args(hint)[0])
    if origin in {typing.Union, types.UnionType}:
        return [member for argument in typing.get_args(hint) for member in _members(argument)]
    return [hint]


def _hints(model: object) -> dict[str, Any]:
    if not isinstance(model, type):
        return {}
    if is_dataclass(model):
        hints = typing.get_type_hints(model, include_extras=True)
        return {field.name: hints[field.name] for field in fields(model)}
    found: dict[str, Any] = {}
    for name, field in getattr(model, "model_fields", {}).items():
        found[field.alias or name] = field.annotation
    return found


def _tag(model: object) -> str | None:
    for hint in _hints(model).values():
        if typing.get_origin(hint) is typing.Literal:
            values = typing.get_args(hint)
            if len(values) == 1:
                return str(values[0])
    return None
