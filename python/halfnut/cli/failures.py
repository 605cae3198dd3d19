"""What the command says and how it ends when it does not answer: one handler for whatever goes wrong."""

from __future__ import annotations

import contextlib
import errno
import os
import sys
from collections.abc import Callable
from typing import Any, NamedTuple

import click

from halfnut._core import DesignationError, DomainError, Error, NotTabulatedError, TableError, UnitError
from halfnut.cli.output import echo, json_text
from halfnut.core.extras import MissingExtraError

__all__ = ["ANSWERED", "INTERRUPTED", "MARKED", "UNABLE", "WRONG", "tell"]

ANSWERED, MARKED, WRONG, UNABLE, INTERRUPTED = 0, 1, 2, 3, 130
"""Exit statuses: answered; planned, with marks; the question or a file is wrong; Halfnut could not; stopped."""


class Failure(NamedTuple):
    """A failure as a person and a program are told of it."""

    status: int
    code: str
    message: str


def failure_of(error: BaseException) -> Failure | None:
    """What an exception comes to; None where nobody is left to be told."""
    if isinstance(error, BrokenPipeError):
        return None
    return next(Failure(status, code, words(error)) for kind, status, code, words in _KINDS if isinstance(error, kind))


def tell(error: BaseException, *, as_json: bool) -> int:
    """Say on standard error what went wrong, on one line unless a person's file has several mistakes.

    Parameters
    ----------
    error : BaseException
        What was raised; a broken pipe is not told.
    as_json : bool
        Whether the answer was asked for as JSON: then ``{"error": {"code": ..., "message": ...}}``.

    Returns
    -------
    int
        The exit status: WRONG, UNABLE or INTERRUPTED.
    """
    found = failure_of(error)
    _let_go_of_standard_output()
    if isinstance(error, click.exceptions.NoArgsIsHelpError):
        error.show()
        return WRONG
    if found is None:
        return UNABLE
    with contextlib.suppress(OSError):
        if os.environ.get("HALFNUT_TRACEBACK"):
            import traceback

            echo("".join(traceback.format_exception(error)).rstrip(), err=True)
        as_data = {"error": {"code": found.code, "message": found.message}}
        echo(json_text(as_data) if as_json else f"halfnut: {found.message}", err=True)
    return found.status


def _usage(error: click.ClickException) -> str:
    words = " ".join((_missing(error) or error.format_message()).split())
    words += "" if words.endswith((".", "?", "!")) else "."
    context = getattr(error, "ctx", None)
    return f"{words} `{context.command_path} --help` says how." if context is not None else words


def _missing(error: click.ClickException) -> str:
    """Every option that has to be given and is not, where one is the mistake."""
    ctx = error.ctx if isinstance(error, click.MissingParameter) else None
    if ctx is None or not isinstance(error.param, click.Option):  # type: ignore[attr-defined]
        return ""
    said = {word.partition("=")[0] for word in ctx.meta.get("halfnut.words", ())}
    lacking = [each.opts[0] for each in ctx.command.params if isinstance(each, click.Option) and each.required]
    lacking = [each for each in lacking if each not in said]
    return f"missing option{'s' if len(lacking) > 1 else ''} {', '.join(lacking)}"


def _os_words(error: OSError) -> str:
    if error.filename is not None:
        return f"{os.fspath(error.filename)!s}: {error.strerror}"
    words = error.strerror or " ".join(str(error).split()) or os.strerror(errno.EIO)
    # files that are written are named by whoever writes them
    return f"standard output: {words}" if error.errno in (errno.ENOSPC, errno.EFBIG, errno.EDQUOT) else words


def _unforeseen(error: BaseException) -> str:
    words = " ".join(f"unforeseen {type(error).__name__}: {error}".split()).rstrip(":")
    return f"{words}; HALFNUT_TRACEBACK=1 shows where"


_KINDS: tuple[tuple[type[BaseException], int, str, Callable[[Any], str]], ...] = (
    (MissingExtraError, UNABLE, "missing_package", str),
    (UnitError, WRONG, "unit", str),
    (NotTabulatedError, WRONG, "not_tabulated", str),
    (DesignationError, WRONG, "designation", str),
    (TableError, WRONG, "table", str),
    (DomainError, WRONG, "domain", str),
    (Error, WRONG, "input", str),
    (click.ClickException, WRONG, "usage", _usage),
    (KeyboardInterrupt, INTERRUPTED, "interrupted", lambda _: "stopped"),
    (OSError, UNABLE, "file", _os_words),
    (ModuleNotFoundError, UNABLE, "missing_package", lambda error: f"a package is missing: {error}"),
    (UnicodeDecodeError, UNABLE, "file", lambda error: f"what was read is not {error.encoding} text: {error.reason}"),
    (MemoryError, UNABLE, "memory", lambda _: "there is not enough memory for this"),
    (RecursionError, UNABLE, "too_deep", lambda _: "what was given is nested too deeply"),
    (BaseException, UNABLE, "unforeseen", _unforeseen),
)
"""What an exception comes to: the first kind that it is."""


def _let_go_of_standard_output() -> None:
    """Where what was printed cannot be written, drop it, or the interpreter fails on it once more as it ends."""
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except (OSError, ValueError):
        with contextlib.suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, sys.stdout.fileno())
            os.close(nowhere)
