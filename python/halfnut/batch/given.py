"""What a table and the keywords give for the arguments of a batch."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import DomainError, Quantity, nearest_name
from halfnut.batch.frames import Frame, spelled_out
from halfnut.core import carriers
from halfnut.core.carriers import carried_units, memory
from halfnut.core.questions import declared

# Other units that a column may carry: one of them is 127 over this in the unit of the core, rounded as a scalar's is.
_OTHER_UNITS = {"_mm_rev": ("_in_rev", 5.0), "_mm": ("_in", 5.0), "_um": ("_uin", 5000.0)}
_AS_IT_IS = 0.0


Number = TypeVar("Number", float, NDArray[np.float64])


@dataclass(frozen=True)
class Argument:
    """An argument of a kind of batch: the core's name, and the columns that may give it, see _OTHER_UNITS."""

    name: str
    unit: str
    required: bool

    @property
    def spellings(self) -> dict[str, float]:
        """Columns that may give it, with what each is over."""
        for suffix, (other, factor) in _OTHER_UNITS.items():
            if self.name.endswith(suffix):
                return {self.name: _AS_IT_IS, self.name.removesuffix(suffix) + other: factor}
        return {self.name: _AS_IT_IS}

    @property
    def stem(self) -> str:
        """The name without its unit."""
        for suffix in _OTHER_UNITS:
            if self.name.endswith(suffix):
                return self.name.removesuffix(suffix)
        return re.sub(r"_(deg|rpm|hb|factor)$", "", self.name)


@lru_cache(maxsize=8)
def arguments_of(kind: str) -> tuple[Argument, ...]:
    """The numbers of a kind of batch of cuts that its question asks for, too."""
    asked = {row["key"] for row in declared()[kind]["arguments"]}
    return tuple(Argument(*each) for each in _core.batch_arguments(kind) if each[0] in asked)


class Given:
    """What a table and the keywords give for the arguments, each column found once."""

    def __init__(self, frame: Frame, arguments: Iterable[Argument], texts: Iterable[str], constants: Mapping[str, Any]):
        self.frame = frame
        self.arguments: tuple[Argument, ...] = tuple(arguments)
        self._texts = tuple(texts)
        self._constants = constants
        self._columns = set(frame.names())
        self._carried: dict[str, str] = {}  # columns without a unit in their name, that carry one
        self._refuse_near_misses()
        self.inch: bool = False
        self.inches: set[str] = set()  # arguments that a column gives in inches
        self.memory: list[Any] = [
            part
            for name in frame.names()
            if name in self._texts or name in self._carried or any(name in each.spellings for each in self.arguments)
            for part in memory(frame.column(name))
        ]
        self.numbers: dict[str, tuple[float | NDArray[np.float64], float]] = {}
        for argument in self.arguments:
            self._find(argument)

    def _refuse_near_misses(self) -> None:
        """A column that means an argument but lacks its unit, or is misspelt, is not left alone."""
        valid = {spelling: argument for argument in self.arguments for spelling in argument.spellings}
        stems = {argument.stem: argument for argument in self.arguments}
        known = set(valid) | set(self._texts)
        for name in [*self._columns, *self._constants]:
            if name in known:
                continue
            named = stems.get(name)
            if named is not None and name in self._columns and carried_units(self.frame.column(name)):
                self._carried[name] = named.name
                continue
            if named is not None:
                raise DomainError(f"column {name!r} has no unit; call it {_either(named)}")
            stem = re.sub(r"_[a-z0-9]{1,3}$", "", name)
            if stem in stems:
                raise DomainError(f"column {name!r} has another unit; call it {_either(stems[stem])}")
            near = difflib.get_close_matches(name, sorted(known), n=1, cutoff=0.85)
            if near:
                raise DomainError(f"column {name!r} is not known; the nearest is {near[0]!r}")
            if name in self._constants:
                raise DomainError(f"no argument {name!r}; {near_or_all(name, known)}")

    def _find(self, argument: Argument) -> None:
        found = [name for name in argument.spellings if name in self._columns]
        found += [name for name, of in self._carried.items() if of == argument.name]
        constant = [name for name in argument.spellings if self._constants.get(name) is not None]
        if len(found) + len(constant) > 1:
            raise DomainError(f"{' and '.join(map(repr, found + constant))} both give {argument.stem}")
        if found:
            units = carried_units(self.frame.column(found[0]))
            over = _AS_IT_IS if units else argument.spellings[found[0]]
            self.numbers[argument.name] = (self.frame.numbers(found[0], argument.unit), over)
            if units == {"in"} or over != _AS_IT_IS:
                self.inches.add(argument.name)
            self.inch |= argument.name == "diameter_mm" and argument.name in self.inches
        elif constant:
            value, over = self._constant(argument, constant[0])
            self.numbers[argument.name] = (_in_core(value, over), _AS_IT_IS)
            self.inch |= argument.name == "diameter_mm" and over != _AS_IT_IS
        elif argument.required:
            raise DomainError(f"a column {_either(argument)} is needed; the table has {sorted(self._columns)}")

    def _constant(self, argument: Argument, name: str) -> tuple[float, float]:
        """A number for all rows and its unit; what carries one is in the core's already."""
        given = self._constants[name]
        value = carriers.numbers(given, argument.unit, name)
        if isinstance(given, bool) or np.ndim(value) != 0:
            raise DomainError(f"{name} must be one number for all rows, got {given!r}")
        if not np.isfinite(value):
            raise DomainError(f"{name} must be finite, got {float(value)}")
        has_unit = isinstance(given, Quantity) or carriers.unit_carrier(given) is not None
        return float(value), _AS_IT_IS if has_unit else argument.spellings[name]

    def slice(self, first: int, last: int) -> dict[str, float | NDArray[np.float64]]:
        """Numbers of some rows in the core's units."""
        out: dict[str, float | NDArray[np.float64]] = {}
        for name, (column, over) in self.numbers.items():
            if isinstance(column, float):
                out[name] = column
            else:
                out[name] = _in_core(column[first:last], over)
        return out

    def texts(
        self, name: str, constant: object, default: str | None = None
    ) -> tuple[NDArray[np.int32] | int, list[str]]:
        """A column of texts, or one text for all rows."""
        if name in self._columns:
            if constant is not None:
                raise DomainError(f"column {name!r} and the argument {name} both give the {name}")
            return self.frame.texts(name)
        if constant is None:
            constant = default
        if constant is None:
            raise DomainError(f"a column {name!r} is needed; the table has {sorted(self._columns)}")
        if not isinstance(constant, str):
            raise DomainError(f"{name} must be text, got {constant!r}")
        return 0, [spelled_out(constant)]

    @property
    def inputs(self) -> list[NDArray[Any]]:
        """Memory that is read while answers are written."""
        return [*(column for column, _ in self.numbers.values() if not isinstance(column, float)), *self.memory]


def _in_core(value: Number, over: float) -> Number:
    """A number or a column in the core's unit."""
    return value if over == _AS_IT_IS else value * 127.0 / over


def _either(argument: Argument) -> str:
    return " or ".join(map(repr, argument.spellings))


def near_or_all(name: str, known: Iterable[str]) -> str:
    """The name that a slip of the hand explains, else every name there is."""
    names = sorted(known)
    near = nearest_name(str(name), names)
    return f"the nearest is {near!r}" if near else f"known: {', '.join(names)}"
