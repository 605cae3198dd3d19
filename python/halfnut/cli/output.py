"""How answers are printed: three to six lines, all of it with --why, sources with --evidence; or JSON."""

from __future__ import annotations

import codecs
import math
import os
import re
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, TextIO, TypeVar

import click

from halfnut._core import Evidence
from halfnut.core.record import CautionLine, Rank, Record
from halfnut.core.text import shown

STREAM = Path("-")
"""What stands for standard output in place of a file."""

_WHY = "halfnut.why"
_REMEMBERED = click.core.ParameterSource.DEFAULT_MAP
_COLOURS: dict[Rank, dict[str, Any]] = {"danger": {"fg": "red", "bold": True}, "caution": {"fg": "red"}, "note": {}}

_Command = TypeVar("_Command", bound=Callable[..., Any])


def with_json(command: _Command) -> _Command:
    """Give a command the option --json."""
    return click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")(command)


def with_evidence(command: _Command) -> _Command:
    """Give a command the options --why, which `show` finds by itself, and --evidence."""
    why = click.option(
        "--why", is_flag=True, expose_value=False, callback=_keep, help="Say what limits it, and all else."
    )
    return why(click.option("--evidence", is_flag=True, help="Say for each figure what it rests on.")(command))


def _keep(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    ctx.meta[_WHY] = value


def with_file(option: str, what: str, *, required: bool = False) -> Callable[[_Command], _Command]:
    """Give a command an option that names a file to write, and --replace."""

    def give(command: _Command) -> _Command:
        command = click.option("--replace", is_flag=True, help="Write over an earlier file.")(command)
        kind = click.Path(path_type=Path)
        return click.option(option, type=kind, required=required, help=f"{what}; - is standard output.")(command)

    return give


def ready(place: Path | None, *, replace: bool, as_json: bool = False) -> None:
    """Refuse a file that `put` would refuse, before the work for it begins."""
    if place == STREAM and as_json:
        raise click.UsageError("--json and the file cannot both go to standard output; name a file")
    if place is None or place == STREAM:
        if replace:
            raise click.UsageError("--replace goes with a file to write")
        return
    from halfnut.core import files

    files.check(place, replace=replace)


def put(place: Path, content: str | bytes, *, replace: bool) -> None:
    """Write a file, or standard output where "-" stands for it."""
    if place == STREAM:
        click.echo(content, nl=False)
    else:
        from halfnut.core import files

        files.write(place, content, replace=replace)


def begin(place: Path, template: str, command: str, *, replace: bool, **words: str) -> None:
    """Write a file of a shop's own to fill in, of a template's text, and say which command checks it."""
    from string import Template

    from halfnut.demo import FOLDER

    ready(place, replace=replace)
    text = Template((FOLDER / "templates" / template).read_text(encoding="utf-8")).substitute(words)
    put(place, text, replace=replace)
    if place != STREAM:
        echo(f"{place}: fill it in, then `halfnut {command} check {place}`")


def plain(value: object) -> Any:
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


def json_text(value: object) -> str:
    """JSON text, readable, without NaN; what a terminal would obey is escaped as JSON does."""
    import json

    text = json.dumps(plain(value), indent=2, ensure_ascii=False, allow_nan=False)
    return _OBEYED.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def tell(as_json: bool, data: object, lines: Iterable[str]) -> None:
    """Print what a command found, as JSON or in lines."""
    for line in [json_text(data)] if as_json else lines:
        echo(line)


def echo(text: str, *, err: bool = False) -> None:
    """Print lines: control characters written out, characters that the terminal lacks put in others.

    A caution's line is in the colour of its rank where the terminal has any.
    """
    written = _for(sys.stderr if err else sys.stdout, text)
    if isinstance(text, CautionLine) and sys.stdout.isatty() and not os.environ.get("NO_COLOR"):
        written = click.style(written, **_COLOURS[text.rank])
    click.echo(written, err=err)


def _for(stream: TextIO, text: str) -> str:
    """Text as a stream can take it: without control characters, spelled in the characters that it has."""
    written = shown(text)
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return written if encoding.lower() in {"utf-8", "utf8"} else written.encode(encoding, "halfnut").decode(encoding)


def _spelled(error: UnicodeError) -> tuple[str, int]:
    """What stands for the characters that an encoding lacks."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lacking = error.object[error.start : error.end]
    ascii_only = error.encoding.lower() in {"ascii", "us-ascii", "ansi_x3.4-1968"}
    spelled = (_SPELLED.get(each) or (_LATIN.get(each) if ascii_only else None) for each in lacking)
    return "".join(
        new or each.encode("ascii", "backslashreplace").decode() for new, each in zip(spelled, lacking, strict=True)
    ), error.end


_OBEYED = re.compile("[\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")
_SPELLED = {
    "⌀": "dia ", "↑": "^", "↓": "v", "→": "->", "←": "<-", "–": "-", "—": "-", "−": "-", "’": "'", "‘": "'",
    "“": '"', "”": '"', "…": "...", "≤": "<=", "≥": ">=", "≈": "~", "√": "sqrt ", "π": "pi", "Ø": "dia ", "α": "alpha",
    "μ": "u", "φ": "phi", "λ": "lambda",
}  # fmt: skip
_LATIN = {"µ": "u", "°": " deg", "±": "+/-", "×": "x", "·": "*", "²": "^2", "³": "^3", "½": "1/2", "é": "e"}
codecs.register_error("halfnut", _spelled)


def show(record: Record, as_json: bool, *, evidence: bool = False) -> None:
    """Print a record; cautions last, and in the colour of their rank where the terminal has any.

    Where nothing is asked for beyond the answer it is the short one.
    """
    if as_json:
        from halfnut.core.schemas import flat

        echo(json_text(flat(record)))
        return
    ctx = click.get_current_context()
    first, *rest = record.whole() if ctx.meta.get(_WHY) else record.lines()
    kept = [str(value) for name, value in ctx.params.items() if ctx.get_parameter_source(name) is _REMEMBERED]
    echo(f"{first} ({', '.join(kept)}, remembered)" if kept else first)
    for line in rest:
        echo(line)
    if evidence:
        tell_evidence(record.evidence)


def tell_evidence(evidence: Iterable[Evidence]) -> None:
    """Print what figures rest on, a line each."""
    for item in evidence:
        row = f"; {item.row}" if item.row else ""
        echo(f"  {item.figure}: {item.rule}{row}; {item.source} ({item.kind})")
