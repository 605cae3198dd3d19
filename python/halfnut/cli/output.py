"""How answers are printed: the answer first, then why, then limits, then cautions; or JSON."""

from __future__ import annotations

import json
import math
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from halfnut import files
from halfnut._core import bounds
from halfnut.record import CautionLine, Rank, Record
from halfnut.words import by_rank

__all__ = ["COUNT", "STREAM", "json_text", "plain", "put", "ready", "show", "with_evidence", "with_file", "with_json"]

STREAM = Path("-")
"""What stands for standard output in place of a file."""

_COLOURS: dict[Rank, dict[str, Any]] = {"danger": {"fg": "red", "bold": True}, "caution": {"fg": "red"}, "note": {}}

# How many of something: from 1 to a million.
COUNT = click.IntRange(1, bounds()["count"])

_Command = TypeVar("_Command", bound=Callable[..., Any])


def with_json(command: _Command) -> _Command:
    """Give a command the option --json."""
    return click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")(command)


def with_evidence(command: _Command) -> _Command:
    """Give a command the option --evidence."""
    return click.option("--evidence", is_flag=True, help="Say for each figure what it rests on.")(command)


def with_file(option: str, what: str, **how: Any) -> Callable[[_Command], _Command]:
    """Give a command an option that names a file to write, and --replace."""

    def give(command: _Command) -> _Command:
        command = click.option("--replace", is_flag=True, help="Write over an earlier file.")(command)
        kind = click.Path(path_type=Path)
        return click.option(option, type=kind, help=f"{what}; - is standard output.", **how)(command)

    return give


def ready(place: Path | None, *, replace: bool, as_json: bool = False) -> None:
    """Refuse a file that `put` would refuse, before the work for it begins."""
    if place == STREAM and as_json:
        raise click.UsageError("--json and the file cannot both go to standard output; name a file")
    if place is None or place == STREAM:
        if replace:
            raise click.UsageError("--replace goes with a file to write")
        return
    files.check(place, replace=replace)


def put(place: Path, content: str | bytes, *, replace: bool) -> None:
    """Write a file, or standard output where "-" stands for it."""
    if place == STREAM:
        click.echo(content, nl=False)
    else:
        files.write(place, content, replace=replace)


def plain(value: Any) -> Any:
    """A value that JSON can hold: no NaN, no objects."""
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, dict):
        return {str(key): plain(each) for key, each in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(each) for each in value]
    if value is None or isinstance(value, (str, int, bool)):
        return value
    return str(value)


def json_text(value: Any) -> str:
    """JSON text, readable, without NaN."""
    return json.dumps(plain(value), indent=2, ensure_ascii=False, allow_nan=False)


def show(record: Record, as_json: bool, *, evidence: bool = False) -> None:
    """Print a record; cautions last, and in the colour of their rank where the terminal has any."""
    if as_json:
        click.echo(json_text(_whole(record)))
        return
    for line in record.lines():
        click.echo(_accent(line))
    if evidence:
        for item in record.evidence:
            row = f"; {item.row}" if item.row else ""
            click.echo(f"  {item.figure}: {item.rule}{row}; {item.source} ({item.kind})")


def _whole(record: Record) -> dict[str, Any]:
    return {
        **record.to_dict(),
        "cautions": [item.to_dict() for item in by_rank(record.told)],
        "evidence": [
            {"figure": item.figure, "rule": item.rule, "row": item.row, "source": item.source, "kind": item.kind}
            for item in record.evidence
        ],
    }


def _accent(line: str) -> str:
    """A caution's line in the colour of its rank; any other as it is."""
    if not isinstance(line, CautionLine) or not sys.stdout.isatty() or os.environ.get("NO_COLOR"):
        return line
    return click.style(line, **_COLOURS[line.rank])
