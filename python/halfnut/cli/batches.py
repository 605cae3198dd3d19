"""halfnut batch: a file of jobs, answered row by row into another file."""

from __future__ import annotations

import csv
import io
import math
import re
import sys
from collections import Counter
from functools import partial
from pathlib import Path
from typing import Any, BinaryIO

import click

from halfnut import _core
from halfnut._core import DomainError, limit_codes
from halfnut.cli.asking import or_none
from halfnut.cli.failures import MARKED
from halfnut.cli.output import STREAM, echo, ready, with_file
from halfnut.core import files
from halfnut.core.extras import optional
from halfnut.core.questions import declared
from halfnut.core.text import plain_cell, read_text


def _known(ctx: click.Context, param: click.Parameter, value: str) -> str:
    return str(_core.question(value.replace("-", "_"))["name"])


@click.command(
    epilog="\b\nExample:\n  halfnut batch turn jobs.csv --machine gap-bed --out answers.csv\n\n"
    "QUESTION is a command that asks one, such as turn or limits. FILE is CSV with a line of names, or Parquet (needs "
    "pyarrow); its columns are what the command asks for. Those of lengths carry their unit: "
    "diameter_mm or diameter_in, depth_mm, feed_mm_rev; alloy and tool are names, thread a designation. A text that a "
    "spreadsheet would take for a formula is answered with an apostrophe in front."
)
@click.argument("question", callback=_known)
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@with_file("--out", "File for the answers", required=True)
@click.option("--machine", callback=or_none, help="Whose levers to choose; without one speeds are exact.")
@click.option("--alloy", help="For all rows, where FILE has no such column.")
@click.option("--tool", help="For all rows; HSS when nothing says.")
@click.option("--pitch", help="For all rows of knurl-blank, such as '96 DP'.")
@click.option("--pattern", help="For all rows of knurl-blank.")
@click.pass_context
def batch(ctx: click.Context, /, question: str, file: Path, out: Path, replace: bool, **given: str | None) -> None:
    """Answer every row of FILE: its columns, the answers, and for a row without one the reason."""
    ready(out, replace=replace)
    table = _read(file, question)
    answers, words = _answer(question, table, {name: value for name, value in given.items() if value is not None})
    rows = len(answers["status"])
    columns = {name: table[name] for name in table if name not in answers} | answers | {"reason": words}
    if out == STREAM:
        _write(sys.stdout.buffer, out.suffix, columns)
    else:
        with files.writing(out, replace=replace) as stream:
            _write(stream, out.suffix, columns)
    failed = sum(1 for word in words if word)
    aside = out == STREAM
    echo(f"{rows - failed} of {rows} rows answered{'' if aside else f': {out}'}", err=aside)
    for word, count in sorted(Counter(word for word in words if word).items()):
        echo(f"  {count} rows: {word}", err=aside)
    if failed:
        ctx.exit(MARKED)


def _answer(question: str, table: dict[str, Any], given: dict[str, str]) -> tuple[dict[str, Any], list[str]]:
    from halfnut import batch
    from halfnut.batch.running import USUAL

    known = {row["name"] for row in declared()[question]["arguments"]}
    for name in given:
        if name not in known:
            raise DomainError(f"--{name} does not go with {question.replace('_', '-')}")
    asked = getattr(batch, question, partial(batch.ask, question))  # not all have a function of their own
    answers: dict[str, Any] = dict(asked(table, **given))
    why = batch.reasons(answers, question, table)
    words = [why.get(row, "") for row in range(len(answers["status"]))]
    if question in USUAL:  # whose limits and cautions are codes
        limits = limit_codes()
        codes = zip(answers["limited_by"], words, strict=True)
        answers["limited_by"] = ["" if word else limits[code] for code, word in codes]
        answers["cautions"] = [" ".join(batch.cautions(bits)) for bits in answers["cautions"]]
    return answers, words


def _read(file: Path, question: str) -> dict[str, Any]:
    """The columns of a file: texts and numbers as the question asks for them; what else it holds is what it is."""
    from halfnut.batch.asking import column_of

    asked = {row["name"]: column_of(row) for row in declared()[question]["arguments"]}
    texts = {name for name, column in asked.items() if column is None}
    numbers = {name for column in asked.values() if column for name in column.spellings}
    if file.suffix == ".parquet":
        table = optional("pyarrow.parquet", "arrow").read_table(file)
        if repeated := [name for name, count in Counter(table.column_names).items() if count > 1]:
            raise DomainError(f"{file}: column {repeated[0]!r} is there twice")
        return dict(zip(table.column_names, table.columns, strict=True))
    with io.StringIO(read_text(file), newline="") as stream:
        lines = csv.reader(stream)
        names = [name.strip() for name in next(lines, [])]
        if not names or len(set(names)) != len(names):
            raise DomainError(f"{file}: its first line must name each column once")
        cells: list[list[str]] = [[] for _ in names]
        for number, line in enumerate(lines, 2):
            if not line:
                continue
            if len(line) != len(names):
                raise DomainError(f"{file}:{number}: {len(line)} cells for {len(names)} columns")
            for column, cell in zip(cells, line, strict=True):
                column.append(cell.strip())
    columns = zip(names, cells, strict=True)
    return {name: _column(column, text=name in texts, number=name in numbers) for name, column in columns}


def _column(cells: list[str], *, text: bool, number: bool) -> list[Any]:
    """An empty cell is not given; a column that the question does not ask for has numbers where all of it are."""
    if text:
        return [cell or None for cell in cells]
    numbers = [_number(cell) for cell in cells]
    if number or all(math.isfinite(value) or not cell for value, cell in zip(numbers, cells, strict=True)):
        return numbers
    return cells


# Python's own reading takes 1_5 for 15, digits of any script, and 08, which may have lost a point.
_PLAIN = re.compile(r"[-+]?(?!0\d)(\d+\.?\d*|\.\d+)(e[-+]?\d+)?", re.IGNORECASE | re.ASCII)


def _number(cell: str) -> float:
    """A number; infinite, which marks its row, where the cell holds something else."""
    if not cell:
        return math.nan
    return float(cell) if _PLAIN.fullmatch(cell) else math.inf


def _write(stream: BinaryIO, suffix: str, columns: dict[str, Any]) -> None:
    if suffix == ".parquet":
        optional("pyarrow.parquet", "arrow").write_table(optional("pyarrow", "arrow").table(columns), stream)
        return
    listed = [column.to_pylist() if hasattr(column, "to_pylist") else column for column in columns.values()]
    text = io.TextIOWrapper(stream, encoding="utf-8", newline="", write_through=True)
    lines = csv.writer(text, lineterminator="\n")
    lines.writerow(map(plain_cell, columns))
    for row in zip(*listed, strict=True):
        lines.writerow([_cell(value) for value in row])
    text.detach()


def _cell(value: object) -> object:
    """A cell; empty where there is no number."""
    if value is None:
        return ""
    if isinstance(value, float):
        return repr(float(value)) if math.isfinite(value) else ""
    return plain_cell(value)
