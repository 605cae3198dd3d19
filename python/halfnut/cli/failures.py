"""What the command says and how it ends when it does not answer: one handler for whatever goes wrong."""

from __future__ import annotations

import contextlib
import errno
import os
import sys

import click

from halfnut._core import DesignationError, DomainError, Error, NotTabulatedError, TableError, UnitError
from halfnut.cli.output import echo, json_text
from halfnut.core.extras import MissingExtraError
from halfnut.core.fixed import made

__all__ = ["ANSWERED", "INTERRUPTED", "MARKED", "UNABLE", "WRONG", "tell"]

ANSWERED, MARKED, WRONG, UNABLE, INTERRUPTED = 0, 1, 2, 3, 130
"""Exit statuses: answered; planned, with marks; the question or a file is wrong; Halfnut could not; stopped."""

_CODES = (
    (UnitError, "unit"),
    (NotTabulatedError, "not_tabulated"),
    (DesignationError, "designation"),
    (TableError, "table"),
    (DomainError, "domain"),
    (Error, "input"),
)


@made(frozen=True)
class Failure:
    """A failure as a person and a program are told of it."""

    status: int
    code: str
    message: str


def failure_of(error: BaseException) -> Failure | None:
    """What an exception comes to; None where nobody is left to be told."""
    if isinstance(error, MissingExtraError):
        return Failure(UNABLE, "missing_package", str(error))
    if isinstance(error, Error):
        code = next(code for kind, code in _CODES if isinstance(error, kind))
        return Failure(WRONG, code, str(error))
    if isinstance(error, click.ClickException):
        return Failure(WRONG, "usage", _usage(error))
    if isinstance(error, KeyboardInterrupt):
        return Failure(INTERRUPTED, "interrupted", "stopped")
    if isinstance(error, BrokenPipeError):
        return None
    if isinstance(error, OSError):
        return Failure(UNABLE, "file", _os_words(error))
    if isinstance(error, ModuleNotFoundError):
        return Failure(UNABLE, "missing_package", f"a package is missing: {error}")
    if isinstance(error, UnicodeDecodeError):
        return Failure(UNABLE, "file", f"what was read is not {error.encoding} text: {error.reason}")
    if isinstance(error, MemoryError):
        return Failure(UNABLE, "memory", "there is not enough memory for this")
    if isinstance(error, RecursionError):
        return Failure(UNABLE, "too_deep", "what was given is nested too deeply")
    words = " ".join(f"unforeseen {type(error).__name__}: {error}".split()).rstrip(":")
    return Failure(UNABLE, "unforeseen", f"{words}; HALFNUT_TRACEBACK=1 shows where")


def tell(error: BaseException, *, as_json: bool) -> int:
    """Say on standard error what went wrong, on one line unless a person's file has several mistakes.

    Parameters
    ----------
    error : BaseException
        What was raised.
    as_json : bool
        Whether the answer was asked for as JSON; then the failure is a JSON object too.

    Returns
    -------
    int
        The exit status.
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
        if as_json:
            whole = {"error": {"code": found.code, "message": found.message}}
            echo(json_text(whole), err=True)
        else:
            echo(f"halfnut: {found.message}", err=True)
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
