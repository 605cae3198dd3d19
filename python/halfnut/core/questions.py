"""Questions that the core declares: how Python asks one, and how its answer becomes a record.

Functions and records of a room's questions are written by `./shop stubs` from the core's declarations.
"""

from __future__ import annotations

import numbers as numeric
from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, fields, is_dataclass
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any, ClassVar, Generic, TypeVar, cast

from halfnut import _core
from halfnut._core import Quantity
from halfnut.core.arguments import sound
from halfnut.core.catalogue import active
from halfnut.core.fixed import made
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both_systems

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = ["Answered", "Listed", "answer_to", "ask", "declared", "found", "found_by", "function_of", "plain"]

_PLAIN = (str, bool, int, float, Quantity, _core.Machine, _core.BuildUp, _core.Thread, _core.Answer)
_FINDERS: dict[str, Callable[[Any], Any]] = {}
_new: Callable[[type[Any]], Any] = object.__new__
_TOLD = frozenset({"notes", "cautions", "evidence"})


def found_by(kind: str, finder: Callable[[Any], Any]) -> None:
    """Say how what stands in files, machines or wheels, is found by what a person gives for it.

    Parameters
    ----------
    kind : str
        The `kin` of an argument, or its `kind` where it has none: "KnurlWheels", "machine".
    finder : Callable
        Takes what a person gave, or None, and gives what the core reads.
    """
    _FINDERS[kind] = finder


def found(name: str, row: Mapping[str, Any], value: object) -> Any:
    """What a question takes of a value: what it finds in files, else the value.

    Parameters
    ----------
    name : str
        Name of the question, such as "turn".
    row : mapping
        The argument as the question declares it.
    value : object
        What a person gave, or None.

    Returns
    -------
    Any
        A machine or wheels where the argument is of such a kind, else `value`.
    """
    function_of(name)  # its room says what it finds
    finder = _FINDERS.get(row["kin"] or row["kind"])
    return value if finder is None else finder(value)


class _Declared(Mapping[str, dict[str, Any]]):
    def __init__(self) -> None:
        self._read: dict[str, dict[str, Any] | None] = dict.fromkeys(_core.question_names())

    def __getitem__(self, name: str) -> dict[str, Any]:
        found = self._read[name]
        if found is None:
            found = self._read[name] = _core.question(name)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._read)

    def __len__(self) -> int:
        return len(self._read)


@cache
def declared() -> Mapping[str, dict[str, Any]]:
    """Every question by its name, as the core declares it; each is read when it is first looked at."""
    return _Declared()


def function_of(name: str) -> Callable[..., Any]:
    """The function that asks a question, of the room that it is in.

    Parameters
    ----------
    name : str
        Name of the question, a key of `declared`.

    Returns
    -------
    Callable
        From the room's module ``questions``, which is loaded for it.

    Examples
    --------
    >>> function_of("turn").__module__
    'halfnut.cutting.questions'
    """
    room = (declared().get(name) or _core.question(name))["room"]  # the core says which name is nearest
    function: Callable[..., Any] = getattr(import_module(f"halfnut.{room}.questions"), name)
    return function


def placed(question: str, /, **given: object) -> tuple[Any, ...]:
    """Values of a question's arguments, given by their names, in the order of its declaration.

    >>> placed("alloy", name="6061-T6")
    ('6061-T6',)
    """
    names = [row["name"] for row in declared()[question]["arguments"]]
    if odd := [each for each in given if each not in names]:
        raise TypeError(f"{question}() got an unexpected keyword argument {odd[0]!r}")
    return tuple(given.get(each) for each in names)


def ask(name: str, values: tuple[Any, ...]) -> _core.Answer:
    """The core's answer to a question.

    Parameters
    ----------
    name : str
        Name of the question, such as "turn".
    values : tuple
        In the order of the question's arguments, None for one that is not given.

    Returns
    -------
    _core.Answer
        From which its record reads figures.

    Raises
    ------
    NotTabulatedError
        No such question.
    Error
        As the question's own.
    """
    try:
        return _core.ask(name, values, active(), read)
    except UnicodeEncodeError:
        for row, value in zip(declared()[name]["arguments"], values, strict=False):
            sound(value, row["name"])
        raise


def answer_to(name: str, answer: str, values: tuple[Any, ...]) -> Any:
    """The record of the core's answer to a question, of the class of a module and name, loaded when first asked for.

    Parameters
    ----------
    name : str
        Name of the question, such as "turn".
    answer : str
        Module and class of the record: "halfnut.cutting.figures:Cut".
    values : tuple
        In the order of the question's arguments, None for one that is not given.

    Returns
    -------
    Any
        A record of that class.
    """
    out = _new(_answer(answer))
    out.__dict__["_held"] = ask(name, values)
    return out


def read(name: str, values: tuple[Any, ...]) -> tuple[Any, ...]:
    """What the core reads, of the values of a question's arguments."""
    return tuple(value if value is None else plain(name, place, value) for place, value in enumerate(values))


def plain(name: str, place: int, value: object) -> Any:
    """What the core reads, of what a person may give besides.

    Parameters
    ----------
    name : str
        Name of the question, such as "turn".
    place : int
        Which argument of the declaration, from 0.
    value : object
        What a person gave; values within lists and mappings are read one by one.

    Returns
    -------
    Any
        A number, a text, a quantity, an object of the core, or tuples and dictionaries of them.
    """
    return _item(declared()[name]["arguments"][place], value)


def _item(row: dict[str, Any], value: object) -> Any:
    if isinstance(value, _PLAIN):
        return value
    if isinstance(value, Mapping):
        parts = {part["name"]: part for part in row["of"]}
        return {key: _item(parts.get(key, row), each) for key, each in value.items()}
    if isinstance(value, (list, tuple)):
        return tuple(_item(row, each) for each in value)
    if (given := getattr(value, "given", None)) is not None and row["kin"]:
        return given
    if row["kin"] and type(value).__name__.endswith(row["kin"]):
        return getattr(value, "id", None) or str(value)
    if isinstance(value, numeric.Real):
        return float(value)
    if type(value).__name__ == "bool_":  # NumPy's
        return bool(value)
    from halfnut.core import carriers, units

    if carriers.unit_carrier(value) is not None:
        if row["unit"] and not row["dimension"]:
            return float(carriers.numbers(value, row["unit"], row["name"]))
        return units.quantity(value, row["dimension"] or "length", row["name"])
    return value


def _plain(value: object) -> Any:
    """A figure as a dictionary holds it; what stands for an answer within it without what that tells."""
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, Answered):
        if value._held.is_whole:  # of a name
            return value.id  # type: ignore[attr-defined]
        return {key: each for key, each in value.to_dict().items() if key not in {"notes", "cautions"}}
    if is_dataclass(value):
        return {item.name: getattr(value, item.name) for item in fields(value) if item.repr}
    return value


@cache
def _answer(place: str) -> type[Answered]:
    """The class of an answer within another, by its module and name."""
    module, name = place.split(":")
    found: type[Answered] = getattr(import_module(module), name)
    return found


def _made_of(held: object, made: type | str) -> object:
    """A figure as a record: of plain figures, or an answer by the place of its class; each of a list of them."""
    if isinstance(held, tuple):
        return tuple(_made_of(each, made) for each in held)
    if held is None:
        return None
    if isinstance(made, type):
        return made(**cast("Mapping[str, object]", held))
    return _answer(made).of(cast("_core.Answer", held))


Item = TypeVar("Item")


class Listed(Generic[Item]):
    """An answer that comes to a list, which it can be walked as."""

    ITEMS: ClassVar[str] = ""

    def _items(self) -> tuple[Item, ...]:
        items: tuple[Item, ...] = getattr(self, self.ITEMS)
        return items

    def __iter__(self) -> Iterator[Item]:
        return iter(self._items())

    def __len__(self) -> int:
        return len(self._items())

    def __getitem__(self, place: int) -> Item:
        return self._items()[place]


@made(frozen=True)
class Answered(Record):
    """An answer whose figures the core gives."""

    notes: tuple[Caution, ...] = field(repr=False)
    """What is worth knowing and harmless."""
    cautions: tuple[Caution, ...] = field(repr=False)
    """What a person should heed, in the order of its finding."""
    evidence: tuple[_core.Evidence, ...] = field(repr=False)
    """What each figure rests on."""

    IN_BOTH: ClassVar[bool] = False
    """Whether the flat dictionary has each figure in the other system of units too."""
    _made: ClassVar[Mapping[str, type | str]] = {}
    _paired: ClassVar[frozenset[str] | set[str]] = frozenset()

    @classmethod
    def of(cls, answer: _core.Answer) -> Self:
        """The record of the core's answer, each figure read when it is asked for.

        What answers within it tell and rest on is its own, too.
        """
        out = object.__new__(cls)
        out.__dict__["_held"] = answer
        return out

    if TYPE_CHECKING:

        @property
        def _held(self) -> _core.Answer:
            """What the core holds of it."""

    else:  # a type checker knows the figures

        def __getattr__(self, name: str) -> Any:
            if name not in self.__dataclass_fields__:
                raise AttributeError(f"{type(self).__name__} has no figure {name!r}")
            if name in _TOLD:
                told, evidence = self._held.tells()
                told = [Caution(*each) for each in told]
                notes = tuple(item for item in told if item.rank == "note")
                cautions = tuple(item for item in told if item.rank != "note")
                self.__dict__.update(notes=notes, cautions=cautions, evidence=evidence)
            else:
                held = self._held.figure(name)
                self.__dict__[name] = _made_of(held, self._made[name]) if name in self._made else held
            return self.__dict__[name]

    def __getstate__(self) -> dict[str, Any]:
        return {"_held": self._held}

    @property
    def answer(self) -> str:
        """The answer in one line."""
        return self._held.says()[0]

    @property
    def first_line(self) -> str:
        """The first line of what is printed."""
        answer, first, _ = self._held.says()
        return first or answer

    @property
    def last_line(self) -> str:
        """The last line of the short answer, if any."""
        return self._held.says()[2] or ""

    def filled(self, template: str, unit: str = "") -> str | None:
        """A template with the answer's figures, in its own unit if in no other; None where it lacks one."""
        return self._held.filled(template, unit)

    def report(self) -> list[tuple[str, str]]:
        """What stands under the answer: label and text."""
        return self._held.rows()

    def to_dict(self) -> dict[str, Any]:
        """The answer as a flat dictionary: figures by their unit-suffixed keys, codes of notes and cautions."""
        values = {item.name: getattr(self, item.name) for item in fields(self) if item.repr}
        out = {name: dict(value) if name in self._paired else _plain(value) for name, value in values.items()}
        out = both_systems(out) if self.IN_BOTH else out
        return out | {"notes": [item.code for item in self.notes], "cautions": [item.code for item in self.cautions]}

    def json(self) -> str:
        """The whole of what was asked as JSON, as every face has it: the figures that the core declares."""
        return self._held.json()
