"""Lines of a job's file: where each part and each of its operations begins, for messages about them."""

from __future__ import annotations

import re
from collections.abc import Sequence

__all__ = ["line_of", "lines_of"]


def line_of(lines: Sequence[tuple[int, Sequence[int]]], part: int, operation: int) -> int | None:
    """Line of a part's operation, both counted from 0; that of the part where there is no such operation.

    >>> line_of([(1, [4, 5])], 0, 1), line_of([(1, [4, 5])], 0, -1), line_of([], 0, 0)
    (5, 1, None)
    """
    if not 0 <= part < len(lines):
        return None
    of_part, of_operations = lines[part]
    return of_operations[operation] if 0 <= operation < len(of_operations) else of_part


_HEADER = re.compile(r"\s*\[\[\s*parts\s*(\.\s*operations\s*)?\]\]")
_LIST = re.compile(r"\s*operations\s*=\s*")
_WORD = re.compile(r'"""(?:.|\n)*?"""|\'\'\'(?:.|\n)*?\'\'\'|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|#[^\n]*|[\[\]{}\n]')


def lines_of(text: str) -> list[tuple[int, list[int]]]:
    r"""Line of each part of a job's file and of each of its operations, counted from 1.

    >>> lines_of('[[parts]]\nname = "pin"\noperations = [\n  { do = "face" },\n  { do = "turn" },\n]\n')
    [(1, [4, 5])]
    """
    out: list[tuple[int, list[int]]] = []
    line, start, depth, listing = 1, 0, 0, False

    def begin(of: str) -> None:
        nonlocal listing
        header = _HEADER.match(of)
        if header is not None and header[1] is None:
            out.append((line, []))
        elif header is not None and out:
            out[-1][1].append(line)
        elif _LIST.match(of):
            listing = True

    begin(text)
    for word in _WORD.finditer(text):
        mark = word[0]
        if mark == "\n":
            line, start = line + 1, word.end()
            if depth == 0:
                listing = False
                begin(text[start : text.find("\n", start) % (len(text) + 1)])
        elif mark in "[{":
            depth += 1
            if listing and mark == "{" and depth == 2 and out:
                out[-1][1].append(line)
        elif mark in "]}":
            depth -= 1
        else:
            line += mark.count("\n")
    return out
