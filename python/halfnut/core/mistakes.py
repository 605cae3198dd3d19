"""Mistakes in a person's file, all at once: where, what is there, what is allowed, what was probably meant."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from halfnut._core import Error
from halfnut.core.fixed import made

if TYPE_CHECKING:
    from halfnut._core import FileMistake

__all__ = ["InputError", "Mistake", "of_core"]


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


def of_core(found: Iterable[FileMistake], data: object) -> list[Mistake]:
    """Mistakes that the core found in the tables of a file.

    Parameters
    ----------
    found : iterable
        The way to each, what is wrong, whether it is a value's, what is allowed, what is nearest, and its place.
    data : object
        What was read.

    Returns
    -------
    list of Mistake
        With the values that are mistakes.
    """
    out = []
    for path, problem, given, allowed, nearest, place in found:
        value: Any = data if given else None
        for step in path if given else ():
            if isinstance(value, Mapping):
                value = next(each for key, each in value.items() if str(key) == step)
            else:
                value = value[step]
        out.append(Mistake(key_path(path), problem, value, given, tuple(allowed), nearest, place))
    return out
