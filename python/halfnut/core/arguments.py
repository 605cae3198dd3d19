"""What a person gives to a public function, checked against the function's own annotations before it is used."""

from __future__ import annotations

import ast
import inspect
import math
import numbers as numeric
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial, wraps
from types import FunctionType
from typing import Any, ParamSpec, TypeVar, cast

from halfnut._core import DomainError

__all__ = ["checked", "number"]

P = ParamSpec("P")
R = TypeVar("R")
Check = Callable[[Any, str], Any]

_WORDS = {"str": "text", "int": "a whole number", "float": "a number", "bool": "True or False"}
_HOLDERS = {"Sequence": Sequence, "Iterable": Iterable, "Mapping": Mapping, "MutableMapping": Mapping}


def checked(function: Callable[P, R]) -> Callable[P, R]:
    """Refuse arguments of a wrong kind by name: a text where a number belongs, NaN, half of a surrogate pair.

    Parameters
    ----------
    function : Callable
        Its annotations must be texts, as ``from __future__ import annotations`` makes them. An argument whose
        annotation names something unknown is taken as it is.

    Returns
    -------
    Callable
        The same function, but it raises `DomainError` with the argument's name. Defaults are not checked.
    """
    checks: dict[str, Check] = {}
    find: Callable[..., dict[str, Check]] = _checks
    unknown: Check = sound

    def call(*given: P.args, **named: P.kwargs) -> R:
        if not checks:
            checks.update(find(function))
        values: Any = [check(value, name) for (name, check), value in zip(checks.items(), given, strict=False)]
        more = {name: checks.get(name, unknown)(value, name) for name, value in named.items()} if named else named
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
    kinds: list[str] = []
    classes: list[type] = []
    choices: list[Any] = []
    holders: list[tuple[str, str]] = []
    for part in _parts(ast.parse(annotation, mode="eval").body):
        inside = part.slice if isinstance(part, ast.Subscript) else None
        head = ast.unparse(part.value if isinstance(part, ast.Subscript) else part)
        if head in {*_WORDS, "None"}:
            kinds.append(head)
        elif head == "Literal" and inside is not None:
            choices += ast.literal_eval(ast.Tuple(getattr(inside, "elts", [inside]), ast.Load()))
        elif head in _HOLDERS and inside is not None:
            holders.append((head, ast.unparse(inside)))
        elif isinstance(found := known.get(head), type) and found is not Any and inside is None:
            classes.append(found)
        else:
            return sound
    return partial(_of_kind, kinds, tuple(classes), tuple(choices), holders)


def _parts(annotation: ast.expr) -> list[ast.expr]:
    """The members of a union."""
    either = isinstance(annotation, ast.BinOp)
    return [*_parts(annotation.left), *_parts(annotation.right)] if either else [annotation]  # type: ignore[attr-defined]


def _of_kind(
    kinds: list[str],
    classes: tuple[type, ...],
    choices: tuple[Any, ...],
    holders: list[tuple[str, str]],
    value: object,
    name: str,
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
    for head, inside in holders:
        an_array = hasattr(value, "__array__") and hasattr(value, "__len__") and "Mapping" not in head
        if (an_array or isinstance(value, _HOLDERS[head])) and not isinstance(value, (str, bytes)):
            for place, each in enumerate(cast("Collection[object]", value) if inside in _WORDS else ()):
                _of_kind([inside], (), (), [], each, f"{name}[{place}]")
            return value
    wanted = [_WORDS[kind] for kind in kinds if kind != "None"]
    wanted += [f"a {kind.__name__}" for kind in classes]
    wanted += ["a mapping" if "Mapping" in head else "a sequence" for head, _ in holders]
    wanted += [f"one of {', '.join(map(repr, choices))}"] if choices else []
    raise DomainError(f"{name} must be {' or '.join(wanted)}, got {_shown(value)}")


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
    if type(value) is float and math.isfinite(value):
        return value
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
