"""Files that a person gives: plain ones of a bounded size, and TOML that is no deeper than a person writes it."""

from __future__ import annotations

import os
import re
import stat
import sys
from pathlib import Path
from typing import Any

from halfnut._core import DomainError, bounds
from halfnut.core.text import decoded

__all__ = ["read_plain", "toml_data"]

BOUNDS = bounds()

# Texts and comments of TOML: brackets, dots and signs of equality in them mean nothing.
_TEXTS = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*"""|' r"'''.*?'''|" r'"(?:[^"\\\n]|\\.)*"|' r"'[^'\n]*'|#[^\n]*",
    re.DOTALL,
)
_BETWEEN = re.compile(r"[=\n,\[\]{}]+")


def read_plain(path: Path) -> str:
    """Text of a plain file, UTF-8 with or without a byte order mark.

    Parameters
    ----------
    path : Path
        A link is followed.

    Returns
    -------
    str
        Without the byte order mark; line ends as they are.

    Raises
    ------
    DomainError
        A pipe, a device or a folder; a file of more than a million bytes.
    FileTextError
        It is not UTF-8 text.
    OSError
        It cannot be read.
    """
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    try:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise DomainError("not a plain file")
        most = BOUNDS["file_bytes"]
        parts, left = [], most + 1
        while left > 0 and (part := os.read(handle, left)):
            parts.append(part)
            left -= len(part)
    finally:
        os.close(handle)
    if left <= 0:
        raise DomainError(f"larger than {most} bytes")
    return decoded(b"".join(parts), str(path))


def toml_data(text: str) -> dict[str, Any]:
    """Tables of a text in TOML.

    Parameters
    ----------
    text : str
        The whole of a file.

    Returns
    -------
    dict
        Values and tables by their keys, of Python's own types.

    Raises
    ------
    DomainError
        It is not TOML, is nested too deep, or holds a number that is too long.
    """
    if sys.version_info >= (3, 11):
        import tomllib
    else:
        import tomli as tomllib
    _refuse_deep(text)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise DomainError(f"not TOML: {error}") from None
    except (ValueError, RecursionError):  # an integer of thousands of digits
        raise DomainError("not TOML that can be read: a number is too long, or tables are nested too deep") from None


def _refuse_deep(text: str) -> None:
    """Refuse what would keep the TOML reader busy: keys of many parts, lists within lists."""
    most = BOUNDS["nesting"]
    bare = _TEXTS.sub("_", text)
    depth = 0
    for bracket in re.findall(r"[\[\]{}]", bare):
        depth = depth + 1 if bracket in "[{" else max(0, depth - 1)
        if depth > most:
            raise DomainError(f"lists and tables nested more than {most} deep")
    for piece in _BETWEEN.split(bare):
        if piece.count(".") >= most:
            raise DomainError(f"a key of {piece.count('.') + 1} parts; at most {most}")
