"""The command `halfnut`. Each subcommand is loaded only when it is called, so that an answer comes at once."""

from __future__ import annotations

import os
import re
import sys
import warnings
from collections.abc import Sequence
from importlib import import_module
from typing import NoReturn, TextIO

import click

from halfnut._core import Catalogue, __version__, nearest_name, question, question_names
from halfnut.cli import failures
from halfnut.cli.output import echo
from halfnut.core.catalogue import FOLDER_VARIABLE

__all__ = ["command", "commands", "main"]

_HOMES = {
    "alloy": ("alloys", "alloy", "What is known of an alloy: speeds first; list, new and check."),
    "ask": ("programs", "ask", "Any question as JSON, for other programs."),
    "batch": ("batches", "batch", "Every row of a file of jobs, into a file of answers."),
    "machine": ("machine_files", "machine", "Check a machine file, show a machine, or begin a file of one's own."),
    "plan": ("plans", "plan", "Setup sheets for a whole job."),
    "serve": ("serving", "serve", "The sheets of a plan for a browser beside the machine."),
    "shop": ("shops", "shop", "Check a shop's own tables."),
    "speed-chart": ("charts", "speed_chart", "A machine's spindle speeds by diameter and alloy, for the wall."),
    "use": ("using", "use", "Remember a machine, a tool, units and a shop's folder."),
}
"""Commands of their own: module, name there, summary. Every question that the core declares is a command besides."""

_EPILOG = f"""{Catalogue().words("said", "first", {})}

\b
Example:
  halfnut turn 6061-T6 1.25in --machine gap-bed

\b
Exit status:
  0  answered, every operation planned
  1  answered or planned, but some row, operation or machine file is marked as wrong or without an answer
  2  the question, or what stands in a file, is wrong; the message says what, where, and what is allowed
  3  Halfnut could not do its work: a file cannot be read or written, the disk is full, a package is missing,
     or something unforeseen; one line says it, and HALFNUT_TRACEBACK=1 shows where
  130  stopped with Ctrl-C


With --json a failure is JSON on standard error: {{"error": {{"code": ..., "message": ...}}}}.

What `halfnut use` remembers is taken where a question does not say.
A shop's own machines and tables are read from the folder that HALFNUT_SHOP names. NO_COLOR=1 keeps colour out.
Shell completion: eval "$(_HALFNUT_COMPLETE=bash_source halfnut)", or zsh_source, or fish_source."""


def commands() -> list[str]:
    """Names of the commands."""
    return sorted({*_HOMES, *(name.replace("_", "-") for name in question_names())})


def _summary(name: str) -> str:
    """What stands beside a command in the list of all."""
    if name in _HOMES:
        return _HOMES[name][2]
    about: str = question(name.replace("-", "_"))["about"]
    return re.split("[:;]", about)[0].removesuffix(".") + "."


class _Lazy(click.Group):
    """A group whose commands are imported when they are called; its help needs none of them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return commands()

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in commands():
            return None
        module, attribute, _ = _HOMES.get(name, ("asking", name.replace("-", "_"), ""))
        command: click.Command = getattr(import_module(f"halfnut.cli.{module}"), attribute)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, _summary(name)) for name in self.list_commands(ctx)])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        known = bool(args) and args[0] in commands()
        if args and not known and not args[0].startswith("-"):
            nearest = nearest_name(args[0], commands())
            hint = f"; did you mean '{nearest}'?" if nearest else ""
            raise click.UsageError(f"no command '{args[0]}'{hint}", ctx)
        ctx.meta[_WORDS] = tuple(args)
        if known and args[0] != "use" and not {"-h", "--help"} & set(args):
            _remember(ctx, args)
        return super().resolve_command(ctx, args)


def _remember(ctx: click.Context, args: list[str]) -> None:
    """Take what `halfnut use` keeps where the words do not say: options, and the shop's folder."""
    from halfnut.cli.defaults import options, remembered

    found = remembered()
    ctx.default_map = options(found, args)
    if "shop" in found and FOLDER_VARIABLE not in os.environ:
        os.environ[FOLDER_VARIABLE] = found["shop"]
        ctx.call_on_close(lambda: os.environ.pop(FOLDER_VARIABLE, None))


_WORDS = "halfnut.words"


@click.command(cls=_Lazy, epilog=_EPILOG, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="halfnut", message="%(prog)s %(version)s")
def command() -> None:
    """What to do at the lathe and the mill for a one-off part, on your own machines."""
    shown = warnings.showwarning

    def say(
        message: Warning | str,
        category: type[Warning],
        filename: str,
        lineno: int,
        file: TextIO | None = None,
        line: str | None = None,
    ) -> None:
        from halfnut.core.shop_tables import ShopWarning

        if issubclass(category, ShopWarning):
            echo(f"halfnut: note: {message}", err=True)
        else:
            shown(message, category, filename, lineno, file, line)

    warnings.showwarning = say
    click.get_current_context().call_on_close(lambda: setattr(warnings, "showwarning", shown))


def main(args: Sequence[str] | None = None) -> NoReturn:
    """Run the command and end with its exit status; whatever goes wrong ends here, in one message."""
    sys.exit(_status(list(sys.argv[1:] if args is None else args)))


def _status(args: list[str]) -> int:
    as_json = "--json" in args
    try:
        for number, word in enumerate(args, 1):
            if any(letter == "\0" or "\ud800" <= letter <= "\udfff" for letter in word):  # bytes that are not text
                raise click.UsageError(f"word {number} is not UTF-8 text: {word!a}")
        if "_HALFNUT_COMPLETE" in os.environ:
            command(args=args, prog_name="halfnut")
        with command.make_context("halfnut", args) as context:
            command.invoke(context)
        status = failures.ANSWERED
    except click.exceptions.Exit as end:
        status = end.exit_code
    except (Exception, KeyboardInterrupt) as error:
        return failures.tell(error, as_json=as_json)
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except OSError as error:
        return failures.tell(error, as_json=as_json)
    return status
