"""A person's file as plain tables, or why it cannot be read."""

from pathlib import Path
from typing import Any

from halfnut._core import Error
from halfnut.core.mistakes import InputError, Mistake, key_path
from halfnut.core.plain_files import BOUNDS, read_plain, toml_data
from halfnut.core.text import FileTextError

__all__ = ["load_toml", "refuse_large"]

_GREATEST = 1e15


def load_toml(path: Path) -> dict[str, Any]:
    """A TOML file's tables.

    Parameters
    ----------
    path : Path
        The file; messages name it so.

    Returns
    -------
    dict
        Values and tables by their keys, of Python's own types.

    Raises
    ------
    FileTextError
        It is not UTF-8 text.
    InputError
        It is not TOML, with the place, passes a bound, or cannot be read, with the reason.
    """
    try:
        data = toml_data(read_plain(path))
    except FileTextError:
        raise
    except (OSError, Error) as error:
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise InputError(str(path), [Mistake("", str(reason), given=False)]) from None
    refuse_large(data, str(path))
    return data


def refuse_large(data: object, name: str) -> None:
    """Refuse data shaped as a file that passes a bound on texts, lists or numbers.

    Parameters
    ----------
    data : object
        Tables and lists, as TOML or a person gives them.
    name : str
        What messages call it.

    Raises
    ------
    InputError
        A bound is passed; it says where.

    >>> refuse_large({"parts": [{"quantity": 10**400}]}, "job.toml")
    Traceback (most recent call last):
        ...
    halfnut.core.mistakes.InputError: job.toml: 1 mistake
      parts[0].quantity: must be at most 1e+15
    """
    waiting: list[tuple[list[str | int], Any]] = [([], data)]
    while waiting:
        where, value = waiting.pop()
        if problem := _too_large(value, len(where)):
            raise InputError(name, [Mistake(key_path(where), problem, given=False)])
        if isinstance(value, (dict, list, tuple)):
            entries = value.items() if isinstance(value, dict) else enumerate(value)
            waiting += [([*where, key if isinstance(key, int) else str(key)], each) for key, each in entries]


def _too_large(value: object, depth: int) -> str:
    """The bound that a value passes at a depth of tables and lists."""
    if isinstance(value, (dict, list, tuple)):
        if len(value) > BOUNDS["items"]:
            return f"must have at most {BOUNDS['items']} entries, got {len(value)}"
        return f"must be nested at most {BOUNDS['nesting']} deep" if depth > BOUNDS["nesting"] else ""
    if isinstance(value, str) and (size := len(value.encode("utf-8", "replace"))) > BOUNDS["text_bytes"]:
        return f"must be at most {BOUNDS['text_bytes']} bytes, got {size}"
    if isinstance(value, int) and abs(value) > _GREATEST:  # what a float may be is each key's to say
        return f"must be at most {_GREATEST:g}"
    return ""
