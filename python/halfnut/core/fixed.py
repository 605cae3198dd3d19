"""Values that stay as they are made: what nobody can change, compares, is hashed and goes to other processes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, fields, is_dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Any, ClassVar, NoReturn, Protocol, TypeVar

from halfnut.core.extras import optional

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

__all__ = ["Fixed", "Value", "fixed", "made", "one_line", "token"]

K = TypeVar("K")
V = TypeVar("V")

_PLAIN = {str, int, float, bool, type(None)}
_LONGEST = 120  # of a repr


class Fixed(dict[K, V]):
    """A dictionary that nobody can change.

    >>> table = Fixed({"a": 1})
    >>> table["a"], hash(table) == hash(Fixed({"a": 1}))
    (1, True)
    """

    def _refuse(self, *given: object, **named: object) -> NoReturn:
        """Nothing changes it.

        Parameters
        ----------
        *given, **named : object
            As the dictionary's own method takes them; none is looked at.

        Raises
        ------
        TypeError
            Always.
        """
        raise TypeError("a table of an answer is not changed in place: dict(table) is a copy that can be")

    if not TYPE_CHECKING:
        __setitem__ = __delitem__ = __ior__ = _refuse
        clear = pop = popitem = setdefault = update = _refuse

    def __hash__(self) -> int:  # type: ignore[override]
        return hash(frozenset(self.items()))

    def __reduce__(self) -> tuple[Any, ...]:
        return type(self), (dict(self),)


def fixed(value: object) -> Any:
    """A value that nobody can change: lists as tuples, dictionaries as `Fixed`, in plain dataclasses too.

    Parameters
    ----------
    value : object
        What is neither a list, a tuple, a mapping nor a dataclass is taken as it is.

    Returns
    -------
    Any
        The value itself where nothing in it had to be replaced.

    Examples
    --------
    >>> fixed([1, {"a": [2]}])
    (1, {'a': (2,)})
    """
    kind: Any = type(value)
    within = _within(kind)
    return value if within is None else within(value)


@cache
def _within(kind: type) -> Callable[[Any], Any] | None:
    """What fixes the values of a type; None where they are fixed as they are made."""
    if kind in _PLAIN or issubclass(kind, (Fixed, Value)):
        return None
    if issubclass(kind, (list, tuple)):
        return _fixed_row
    if issubclass(kind, Mapping):
        return _fixed_table
    return _fixed_fields if is_dataclass(kind) else None


def _fixed_row(value: list[Any] | tuple[Any, ...]) -> Any:
    kind: Any = type(value)
    inner = [fixed(each) for each in value]
    same = kind is not list and all(a is b for a, b in zip(inner, value, strict=True))
    return value if same else kind._make(inner) if hasattr(kind, "_make") else tuple(inner)


def _fixed_table(value: Mapping[Any, Any]) -> Fixed[Any, Any]:
    return Fixed({key: fixed(each) for key, each in value.items()})


def _fixed_fields(value: DataclassInstance) -> DataclassInstance:
    found = {name: getattr(value, name) for name in _names(type(value), given=True)}
    changed = {name: new for name, each in found.items() if (new := fixed(each)) is not each}
    return replace(value, **changed) if changed else value


@cache
def _names(kind: type[DataclassInstance], *, given: bool = False) -> tuple[str, ...]:
    """The fields of a dataclass; those alone that it is given."""
    return tuple(each.name for each in fields(kind) if each.init or not given)


def one_line(text: str) -> str:
    """A text as a repr has it: one line, cut between words where it is long.

    Parameters
    ----------
    text : str
        Each run of white space becomes one space.

    Returns
    -------
    str
        At most 120 characters; a cut one ends in ``...>``.

    Examples
    --------
    >>> one_line("<Cut 597 rev/min>")
    '<Cut 597 rev/min>'
    """
    text = " ".join(text.split())
    return text if len(text) <= _LONGEST else text[: _LONGEST - 4].rpartition(" ")[0] + " ...>"


def token(value: object, *parts: object) -> tuple[Any, ...]:
    """What Dask, which asks for it, knows a value by: its class and its parts.

    Parameters
    ----------
    value : object
        Its class is the first part of the token.
    *parts : object
        What is the same in equal values and differs in others.

    Returns
    -------
    tuple
        The class's name, and the parts as Dask normalizes them.
    """
    return type(value).__qualname__, optional("dask.base", "dask").normalize_token(parts)


class Value:
    """A frozen dataclass whose fields hold nothing that can be changed, and whose repr is one line."""

    __slots__ = ()

    def __init_subclass__(cls, **named: object) -> None:
        super().__init_subclass__(**named)
        if "__repr__" not in cls.__dict__:  # a dataclass sets its own only where there is none
            inherited = (vars(base).get("__repr__") for base in cls.__mro__[1:])
            type.__setattr__(cls, "__repr__", next(filter(None, inherited)))

    def __post_init__(self) -> None:
        kind: Any = type(self)
        for name in _names(kind):
            value = getattr(self, name)
            if (new := fixed(value)) is not value:
                object.__setattr__(self, name, new)

    def __repr__(self) -> str:
        found = ((each.name, getattr(self, each.name)) for each in fields(self))  # type: ignore[arg-type]
        plain = [f"{name}={value!r}" for name, value in found if type(value) in _PLAIN and value not in (None, "")]
        return one_line(f"<{type(self).__name__} {', '.join(plain)}>")

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the value by."""
        compared = (each.name for each in fields(self) if each.compare)  # type: ignore[arg-type]
        return token(self, *((name, getattr(self, name)) for name in compared))


if TYPE_CHECKING:
    from dataclasses import dataclass as made
else:

    def made(*, frozen: bool) -> Any:
        """`dataclass(frozen=True)` whose methods all classes share: to compile them for each takes long.

        Parameters
        ----------
        frozen : bool
            True, which type checkers read.

        Returns
        -------
        Callable
            What decorates the class; methods that the class has of its own stay.
        """
        assert frozen
        return _shared

    def _shared(cls: type) -> type:
        dataclass(init=False, repr=False, eq=False)(cls)
        for method in (_init, _same, _hashed, _refuse_set, _refuse_delete):
            if method.__name__ not in cls.__dict__:
                setattr(cls, method.__name__, method)
        cls.__figures__ = {each.name: each for each in fields(cls)}
        if cls.__repr__ is object.__repr__:
            cls.__repr__ = _listed
        return cls


class _Made(Protocol):
    __figures__: ClassVar[dict[str, Field[Any]]]
    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]


def _init(self: _Made, *placed: object, **named: object) -> None:
    known = self.__figures__
    given = dict(zip(known, placed, strict=False))
    if len(placed) > len(known) or given.keys() & named.keys():
        raise TypeError(f"{type(self).__name__} takes each of its {len(known)} figures once")
    given |= named
    if odd := given.keys() - known.keys():
        raise TypeError(f"{type(self).__name__} has no figure {min(odd)!r}")
    values = {}
    for name, each in known.items():
        if name in given:
            values[name] = given[name]
        elif each.default is not MISSING:
            values[name] = each.default
        elif each.default_factory is not MISSING:
            values[name] = each.default_factory()
        else:
            raise TypeError(f"{type(self).__name__} lacks {name!r}")
    self.__dict__.update(values)
    if hasattr(self, "__post_init__"):
        self.__post_init__()


def _compared(self: _Made) -> tuple[Any, ...]:
    return tuple(getattr(self, name) for name, each in self.__figures__.items() if each.compare)


def _same(self: _Made, other: object) -> bool:
    return _compared(self) == _compared(other) if type(other) is type(self) else NotImplemented


def _hashed(self: _Made) -> int:
    return hash(_compared(self))


def _listed(self: _Made) -> str:
    shown = (f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{type(self).__qualname__}({', '.join(shown)})"


def _refuse_set(self: object, name: str, value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_delete(self: object, name: str) -> NoReturn:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


_init.__name__, _same.__name__, _hashed.__name__ = "__init__", "__eq__", "__hash__"
_refuse_set.__name__, _refuse_delete.__name__ = "__setattr__", "__delattr__"
