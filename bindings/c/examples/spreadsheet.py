"""Answers in the cells of a spreadsheet whose scripting is Python: one function, no package beside the C library.

Where the spreadsheet keeps its scripts, this file makes HALFNUT a function of cells:

    =HALFNUT("spindle_rpm"; "turn"; "alloy"; "6061-T6"; "diameter"; "1.25 in")
    =HALFNUT("blank_diameter_mm"; "knurl_blank"; "diameter"; A2; "pitch"; B2)

The library is looked for where the system keeps its libraries, or at the path in HALFNUT_LIBRARY.
"""

from __future__ import annotations

import ctypes
import json
import os
from functools import cache
from typing import Any


@cache
def _library() -> ctypes.CDLL:
    library = ctypes.CDLL(os.environ.get("HALFNUT_LIBRARY", "libhalfnut.so"))
    library.halfnut_ask.argtypes = [ctypes.c_char_p]
    library.halfnut_ask.restype = ctypes.c_void_p  # the bytes are the library's until they are given back
    library.halfnut_free.argtypes = [ctypes.c_void_p]
    library.halfnut_free.restype = None
    return library


def ask(question: str, **values: Any) -> dict[str, Any]:
    """The answer to a question, or {"error": {...}}."""
    asked = json.dumps({"question": question, "values": values})
    answer = _library().halfnut_ask(asked.encode())
    try:
        found: dict[str, Any] = json.loads(ctypes.string_at(answer))
    finally:
        _library().halfnut_free(answer)
    return found


def HALFNUT(figure: str, question: str, *given: Any) -> Any:
    """A figure of an answer; what stands after the question are names and values, one after another."""
    if len(given) % 2:
        return f"#no value for {given[-1]}"
    values = {name: value for name, value in zip(given[::2], given[1::2], strict=True) if value not in (None, "")}
    answer = ask(question, **values)
    if "error" in answer:
        return f"#{answer['error']['message']}"
    return answer.get(figure, f"#{question} has no {figure}")
