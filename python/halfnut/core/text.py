"""Text from outside and text for outside: files as UTF-8, control characters made visible, cells without formulas."""

from __future__ import annotations

import codecs
import re
from pathlib import Path

from halfnut._core import Error

__all__ = ["FileTextError", "plain_cell", "read_text", "shown", "toml_text"]

# Control characters but the line feed, separators of lines and paragraphs, changes of direction, lone surrogates.
_UNSHOWN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")
_MARKS = ((codecs.BOM_UTF16_LE, "UTF-16"), (codecs.BOM_UTF16_BE, "UTF-16"))
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


class FileTextError(Error, ValueError):
    """A file that is not UTF-8 text; the message names the file, and the byte where it stops being so."""


def read_text(path: str | Path) -> str:
    """A file's text: UTF-8, with or without a byte order mark.

    Parameters
    ----------
    path : str or Path
        The file, of any size; messages name it so.

    Returns
    -------
    str
        Without the mark; line ends as they are.

    Raises
    ------
    FileTextError
        It is in another encoding.
    OSError
        It cannot be read.
    """
    return decoded(Path(path).read_bytes(), str(path))


def decoded(data: bytes, name: str) -> str:
    """Bytes of a file as text; `name` is what a message calls the file.

    >>> decoded("\N{BYTE ORDER MARK}size".encode(), "sizes.csv")
    'size'
    >>> decoded("Ø 8".encode("latin-1"), "a.csv")
    Traceback (most recent call last):
        ...
    halfnut.core.text.FileTextError: a.csv: not UTF-8 text: byte 0xd8 in line 1, byte 1 of the file; save it as UTF-8
    """
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            raise FileTextError(f"{shown(name)}: {encoding} text, by byte 1 of the file; save it as UTF-8")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        at = error.start + (len(codecs.BOM_UTF8) if data.startswith(codecs.BOM_UTF8) else 0)
        raise FileTextError(
            f"{shown(name)}: not UTF-8 text: byte 0x{data[at]:02x} in line {data.count(10, 0, at) + 1}, "
            f"byte {at + 1} of the file; save it as UTF-8"
        ) from None
    if "\0" in text:
        at = data.index(0)
        raise FileTextError(f"{shown(name)}: not text: byte 0x00, byte {at + 1} of the file; save it as UTF-8")
    return text


def shown(text: str) -> str:
    r"""Text with control characters written out, for a terminal or a page; line feeds stay.

    Parameters
    ----------
    text : str
        Any text, halves of surrogate pairs too.

    Returns
    -------
    str
        With escapes such as ``\x1b`` and ``\t`` in place of the characters.

    Examples
    --------
    >>> shown("clear\x1b[2J")
    'clear\\x1b[2J'
    """
    return _UNSHOWN.sub(lambda found: found[0].encode("unicode_escape", "surrogatepass").decode("ascii"), text)


def toml_text(text: str) -> str:
    r"""A text as a TOML file holds it, quotes included.

    Parameters
    ----------
    text : str
        Any text, line feeds and control characters too.

    Returns
    -------
    str
        A basic string of TOML, on one line.

    Examples
    --------
    >>> print(toml_text('13" lathe\n'))
    "13\" lathe\n"
    """
    import json

    quoted = json.dumps(text, ensure_ascii=False)
    return _UNSHOWN.sub(lambda found: f"\\u{ord(found[0]):04x}", quoted)


def plain_cell(value: object) -> object:
    """A cell of CSV that no spreadsheet takes for a formula: such a text gets an apostrophe in front.

    Parameters
    ----------
    value : object
        A cell of any kind.

    Returns
    -------
    object
        A number, also one as text, and anything but text as it is.

    Examples
    --------
    >>> plain_cell("=1+1"), plain_cell("-0.5"), plain_cell(-0.5), plain_cell("pin")
    ("'=1+1", '-0.5', -0.5, 'pin')
    """
    if not isinstance(value, str) or not value.startswith(_FORMULA) or _is_number(value):
        return value
    return f"'{value}"


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
