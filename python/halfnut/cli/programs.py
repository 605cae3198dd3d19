"""halfnut ask: questions and answers as JSON, for other programs."""

from __future__ import annotations

import json
import sys
from typing import Any

import click

from halfnut._core import DomainError
from halfnut.cli.output import echo, json_text
from halfnut.core.questions import declared
from halfnut.core.schemas import answer, schema

_EPILOG = """\b
Example:
  halfnut ask '{"question": "turn", "values": {"alloy": "6061-T6", "diameter": "1.25 in"}}'
  halfnut ask --schema turn"""


@click.command(epilog=_EPILOG)
@click.argument("question", required=False)
@click.option("--schema", "of", help="Print the JSON Schema of a question, that of its answer within it.")
@click.option(
    "--list", "listed", is_flag=True, help="Print the names of all questions, what each answers, its version."
)
def ask(question: str | None, of: str | None, listed: bool) -> None:
    """The answer to a QUESTION that is JSON, as JSON; - reads it from standard input.

    A failure is JSON on standard error.
    """
    if sum((question is not None, of is not None, listed)) != 1:
        raise click.UsageError("give a question, or --schema with its name, or --list")
    if listed:
        echo(json_text({name: {"about": row["about"], "version": row["version"]} for name, row in declared().items()}))
    elif of is not None:
        echo(json_text(schema(of)))
    else:
        assert question is not None
        text = sys.stdin.read() if question == "-" else question
        echo(json_text(answer(_read(text))))


def _read(text: str) -> Any:
    try:
        return json.loads(text, parse_constant=_refuse)
    except json.JSONDecodeError as error:
        raise DomainError(f"the question is no JSON: {error}") from None


def _refuse(constant: str) -> Any:
    raise DomainError(f"the question is no JSON: {constant} is no number of it")
