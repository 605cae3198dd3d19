"""Commands made of the questions that the core declares: arguments, options, help and example."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

import click

from halfnut._core import bounds
from halfnut.cli.failures import MARKED
from halfnut.cli.output import STREAM, put, ready, show, with_evidence, with_file, with_json
from halfnut.core.questions import declared, function_of

DRAWN = {
    "adjuster": "Write the bench page to this file",
    "choose": "Draw the passes to this file",
    "gear_train": "Write the best train's drawing to this SVG file",
}
"""Questions whose answers have a drawing, and what their option says."""
_UNITS = ("_um", "_hb", "_deg", "_c")
_WITHIN = "__"  # between the name of an object and that of its part
_LENGTHS = "\n\nA length is written with its unit: 1.25in, 1-1/4in, 32mm."


class _AsWritten:
    """Python's own reading takes 1_5 for 15, digits of any script, and 08, which may have lost a point."""

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        if isinstance(value, str) and (re.search(r"_|^\s*[-+]?0\d", value) or not value.isascii()):
            self.fail(f"{value!r} is not a valid {self.name}.", param, ctx)  # type: ignore[attr-defined]
        return super().convert(value, param, ctx)  # type: ignore[misc]


class _Number(_AsWritten, click.types.FloatParamType):
    pass


class _Whole(_AsWritten, click.types.IntParamType):
    pass


def __getattr__(name: str) -> click.Command:
    if name in declared():
        return command(name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def command(name: str) -> click.Command:
    """The command that asks a question: what it requires are arguments, the rest options."""
    question = declared()[name]
    rows = question["arguments"]

    def ask(*, as_json: bool, evidence: bool, out: Path | None = None, replace: bool = False, **given: object) -> None:
        from halfnut.cli import drawings

        ready(out, replace=replace, as_json=as_json)
        for each in [each for each in given if _WITHIN in each]:
            whole, _, part = each.partition(_WITHIN)
            if (value := given.pop(each)) is not None:
                given[whole] = {**cast("dict[str, object]", given[whole] or {}), part: value}
        if out is not None:
            drawings.check(name, out.suffix)
        found = function_of(name)(**given)
        is_answer = getattr(found, "found", True)
        drawn = drawings.drawing(found, out.suffix) if out is not None and is_answer else None
        if out is not None and drawn is not None:
            put(out, drawn, replace=replace)
        if out != STREAM or drawn is None:
            show(found, as_json, evidence=evidence)
        if not is_answer:
            click.get_current_context().exit(MARKED)

    needed = [_needed(row) for row in rows if row["placed"]]
    ask.__doc__ = "\n".join([question["about"], *(["", "\b"] if needed else []), *needed])
    made: Any = with_evidence(with_json(ask))
    if name in DRAWN:
        made = with_file("--out", DRAWN[name])(made)
    for row in reversed(rows):
        made = _parameter(row)(made)
    return click.command(name.replace("_", "-"), epilog=examples(name))(made)


def examples(name: str) -> str:
    """What stands below the help of a question's command."""
    question = declared()[name]
    lines = "".join(f"\n{_broken(f'  halfnut {line}')}" for line in question["example"].splitlines())
    return f"\b\nExample:{lines}{_LENGTHS if any(row['written'] for row in question['arguments']) else ''}"


def _broken(line: str) -> str:
    """A command in lines of 90 characters, broken before its options."""
    out, *options = line.split(" --")
    width = len(out)
    for option in options:
        begins = " " if width + len(option) < 87 else " \\\n    "
        width = (width if begins == " " else 3) + len(option) + 3
        out += f"{begins}--{option}"
    return out


def _needed(row: dict[str, Any]) -> str:
    first, second, *rest = about = row["about"][:-1]
    words = about if second.isupper() else first.lower() + "".join((second, *rest))
    start = f"  {row['name'].upper():<10}  "
    return textwrap.fill(words, 78, initial_indent=start, subsequent_indent=" " * len(start))


def _parameter(row: dict[str, Any]) -> Any:
    name, about = row["name"], row["about"]
    needed = row["required"]
    if row["placed"]:
        many = -1 if row["kind"] == "list" else 1
        whole = _Whole() if row["kind"] == "count" else click.STRING
        shown = name.upper() if needed else f"[{name.upper()}]"
        return click.argument(name, metavar=shown, required=needed, nargs=many, type=whole)
    bound = row["range"].removeprefix("> ").removeprefix(">= ").partition(" ")[0]
    if not row["written"] and bound not in {"", "0", "finite"}:
        about = f"{about[:-1]}, {row['range'].replace('>= ', 'at least ').replace('> ', 'above ')}."
    if row["usual"] and row["kind"] != "choice":
        about = f"{about[:-1]}; when not given {row['usual']}."
    flag = "--" + (row["option"] or name).replace("_", "-")
    for unit in _UNITS:
        flag = flag.removesuffix(unit.replace("_", "-"))
    match row["kind"]:
        case "machine" if not needed:
            return click.option(flag, name, callback=or_none, help=about)
        case "flag":
            return click.option(flag, name, is_flag=True, help=about)
        case "choice":
            kind = click.Choice(row["choices"])
            usual = row["usual"] or None
            return click.option(flag, name, type=kind, default=usual, show_default=True, required=needed, help=about)
        case "list" if row["kin"] == "Teeth":
            return click.option(flag, name, callback=_teeth, help=f"{about[:-1]}, such as 20,24,30,127.")
        case "list" if row["kin"] != "KnurlWheels":
            return click.option(_one(flag), name, multiple=True, help=f"{about[:-1]}; as often as there are.")
        case "object":
            return _of_parts(flag, row)
        case "count":
            return click.option(flag, name, type=_Whole(), required=needed, help=about)
        case "number" if row["unit"] == "C":
            about = about.replace("degrees Celsius", "such as 40C or 104F")
            return click.option(flag, name, required=needed, help=about)
        case _:
            bare = row["kind"] == "number" and not row["dimension"]
            return click.option(flag, name, type=_Number() if bare else click.STRING, required=needed, help=about)


def or_none(ctx: click.Context, param: click.Parameter, value: str | None) -> str | None:
    """No machine, where one is remembered and none is meant."""
    return None if value == "none" else value


def _teeth(ctx: click.Context, param: click.Parameter, value: str | None) -> list[int]:
    """Whole numbers with commas between."""
    parts = (value or "").replace(",", " ").split()
    most = bounds()["items"]
    if len(parts) > most or not all(part.isascii() and part.isdigit() and len(part) <= 6 for part in parts):
        given = (value or "")[:60]
        raise click.UsageError(f"{param.opts[0]} are whole numbers, at most {most}, with commas between, got {given!r}")
    return [int(part) for part in parts]


def _of_parts(flag: str, row: dict[str, Any]) -> Any:
    """An option for the parts of an object that are given by their places, and one for each of the others."""
    placed = [part["name"] for part in row["of"] if part["placed"]]
    others = [part for part in row["of"] if not part["placed"]]

    def named(ctx: click.Context, param: click.Parameter, values: tuple[str, ...] | None) -> dict[str, str] | None:
        return dict(zip(placed, values, strict=True)) if values else None

    def give(command: Callable[..., object]) -> Callable[..., object]:
        for part in reversed(others):
            within = {"name": f"{row['name']}{_WITHIN}{part['name']}", "option": f"{row['name']}_{part['name']}"}
            command = _parameter(part | within)(command)
            vars(command)["__click_params__"][-1].hidden = True  # each is said where the first end is
        metavar = " ".join(name.upper() for name in placed)
        about = f"{row['about'][:-1]}; what else differs as {flag}-{others[0]['name'].replace('_', '-')} and its like."
        return click.option(flag, row["name"], nargs=len(placed), metavar=metavar, callback=named, help=about)(command)

    return give


def _one(flag: str) -> str:
    """The option that is said once for each of several."""
    return flag[:-3] + "y" if flag.endswith("ies") else flag.removesuffix("s")
