"""What a person gives to a public function, checked against the function's own annotations before it is used."""

from __future__ import annotations

import ast
import inspect
import math
import numbers as numeric
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial, wraps
from types import FunctionType, UnionType
from typing import Any, Literal, ParamSpec, TypeVar, cast, get_args, get_origin

from halfnut._core import DomainError

__all__ = ["checked", "number"]

P = ParamSpec("P")
R = TypeVar("R")
Check = Callable[[Any, str], Any]

_HOLDERS: dict[str, tuple[type, ...]] = {
    "Sequence": (Sequence,),
    "Iterable": (Iterable,),
    "Mapping": (Mapping,),
    "MutableMapping": (Mapping,),
}


def checked(function: Callable[P, R]) -> Callable[P, R]:
    """Refuse arguments of a wrong kind by name: a text where a number belongs, NaN, half of a surrogate pair."""
    checks: dict[str, Check] = {}
    find: Callable[..., dict[str, Check]] = _checks
    unknown: Check = sound

    def call(*given: P.args, **named: P.kwargs) -> R:
        checks.update(checks or find(function))
        values: Any = [check(value, name) for (name, check), value in zip(checks.items(), given, strict=False)]
        more = {name: checks.get(name, unknown)(value, name) for name, value in named.items()}
        return function(*values, *given[len(checks) :], **more)  # type: ignore[arg-type]

    # In the module of the function, where its examples are looked for.
    out = FunctionType(call.__code__, function.__globals__, function.__name__, None, call.__closure__)
    return wraps(function)(out)


def _checks(function: Callable[..., Any]) -> dict[str, Check]:
    out: dict[str, Check] = {}
    for name, parameter in inspect.signature(function).parameters.items():
        if parameter.kind in (parameter.VAR_POSITIONAL, parameter.VAR_KEYWORD):
            continue
        annotation = parameter.annotation if isinstance(parameter.annotation, str) else "Any"
        check = _check(annotation, function.__globals__)
        # What is left out is not looked at: a default may be of another kind than what a person gives.
        out[name] = partial(_unless_default, check, parameter.default)
    return out


def _unless_default(check: Check, default: object, value: object, name: str) -> Any:
    return value if value is default else check(value, name)


def _check(annotation: str, known: dict[str, Any]) -> Check:
    """The check of one annotation; what it does not know is taken as it is, but for texts that cannot be written."""
    parts = [each for part in _parts(annotation) for each in _members(part, known)]
    kinds = [part for part in parts if part in {"str", "int", "float", "bool", "None"}]
    classes: list[type] = []
    choices: list[Any] = []
    holders: list[str] = []
    for part in parts:
        head, _, inside = part.removesuffix("]").partition("[")
        found = _found(head, known)
        if part in kinds:
            continue
        if head == "Literal":
            choices += ast.literal_eval(f"({inside},)")
        elif get_origin(found) is Literal:
            choices += get_args(found)
        elif head in _HOLDERS:
            holders.append(part)
        elif isinstance(found, type) and found is not Any and not inside:
            classes.append(found)
        else:
            return sound
    return partial(_of_kind, kinds, tuple(classes), tuple(choices), holders)


def _parts(annotation: str) -> list[str]:
    """The members of a union."""
    out, depth, start = [], 0, 0
    for place, letter in enumerate(annotation):
        depth += {"[": 1, "]": -1}.get(letter, 0)
        if letter == "|" and depth == 0:
            out.append(annotation[start:place].strip())
            start = place + 1
    return [*out, annotation[start:].strip()]


def _members(part: str, known: dict[str, Any]) -> list[str]:
    """The plain kinds that an alias stands for; what is none of them is itself."""
    members = get_args(known.get(part)) if isinstance(known.get(part), UnionType) else ()
    plain = {str: "str", int: "int", float: "float", bool: "bool"}
    return [plain[each] for each in members] if members and all(each in plain for each in members) else [part]


def _found(name: str, known: dict[str, Any]) -> Any:
    first, *rest = name.split(".")
    found = known.get(first)
    for part in rest:
        found = getattr(found, part, None)
    return found


def _of_kind(
    kinds: list[str], classes: tuple[type, ...], choices: tuple[Any, ...], holders: list[str], value: object, name: str
) -> Any:
    if value is None and "None" in kinds:
        return value
    if any(type(value) is type(choice) and value == choice for choice in choices):
        return value
    if isinstance(value, str) and "str" in kinds:
        return sound(value, name)
    if type(value).__name__ in {"bool", "bool_"}:  # Python's or NumPy's
        if "bool" in kinds:
            return bool(value)
    elif "int" in kinds and isinstance(value, numeric.Integral):
        return value
    elif "float" in kinds and not holders:
        return number(value, name)
    if classes and isinstance(value, classes):
        return value
    for holder in holders:
        head, _, inside = holder.removesuffix("]").partition("[")
        an_array = hasattr(value, "__array__") and hasattr(value, "__len__") and "Mapping" not in head
        if (an_array or isinstance(value, _HOLDERS[head])) and not isinstance(value, (str, bytes)):
            return _held(inside, cast("Collection[object]", value), name)
    words = {"str": "text", "int": "a whole number", "float": "a number", "bool": "True or False"}
    wanted = [words.get(kind, kind) for kind in kinds if kind != "None"]
    wanted += [f"a {kind.__name__}" for kind in classes]
    wanted += ["a mapping" if "Mapping" in each else "a sequence" for each in holders]
    wanted += [f"one of {', '.join(map(repr, choices))}"] if choices else []
    raise DomainError(f"{name} must be {' or '.join(wanted)}, got {_shown(value)}")


def _held(inside: str, value: Collection[object], name: str) -> object:
    """What a sequence holds, where that is of a plain kind."""
    if inside in {"str", "int", "float"}:
        for place, each in enumerate(value):
            _of_kind([inside], (), (), [], each, f"{name}[{place}]")
    return value


def sound(value: object, name: str) -> Any:
    """A text that can be written; anything else as it is."""
    if isinstance(value, str):
        try:
            value.encode()
        except UnicodeEncodeError:
            raise DomainError(f"{name} must be text, got {_shown(value)}: it holds half of a surrogate pair") from None
    return value


def number(value: object, name: str) -> float:
    """A finite number for an argument.

    Parameters
    ----------
    value : object
        What was given.
    name : str
        The argument's name, for messages.

    Returns
    -------
    float
        The number.

    Raises
    ------
    DomainError
        What is no number, NaN or infinite.

    >>> number(95, "value")
    95.0
    """
    if isinstance(value, bool) or not isinstance(value, numeric.Real):
        raise DomainError(f"{name} must be a number, got {_shown(value)}")
    try:
        out = float(value)
    except OverflowError:
        out = math.inf
    if not math.isfinite(out):
        raise DomainError(f"{name} must be a finite number, got {out}")
    return out


def _shown(value: object) -> str:
    text = repr(value)
    text = text if len(text) <= 60 else f"{text[:57]}..."
    return text.encode("utf-8", "backslashreplace").decode()
