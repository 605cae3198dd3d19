"""A person's file as plain tables, or why it cannot be read."""

from pathlib import Path
from typing import Any

from halfnut._core import Error
from halfnut.core.mistakes import InputError, Mistake, key_path
from halfnut.core.plain_files import read_plain, require_small, toml_data
from halfnut.core.text import FileTextError

__all__ = ["load_toml", "refuse_large"]


def load_toml(path: Path) -> dict[str, Any]:
    """A TOML file's tables.

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
    """Refuse data shaped as a file that passes a bound on texts, lists or numbers; `InputError` says where."""
    found = require_small(data)
    if found is not None:
        where, problem = found
        raise InputError(name, [Mistake(key_path(where), problem, given=False)])
