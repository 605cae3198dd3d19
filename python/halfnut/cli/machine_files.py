"""halfnut machine: check a file, show a machine, list those at hand, begin a file of one's own."""

from __future__ import annotations

import json
import re
from pathlib import Path
from string import Template

import click

from halfnut._core import Error
from halfnut.cli.failures import ANSWERED, MARKED
from halfnut.cli.output import STREAM, echo, json_text, put, ready, with_file, with_json
from halfnut.core.shapes import load_toml
from halfnut.core.text import toml_text
from halfnut.demo import FOLDER
from halfnut.machine import machines

_TEMPLATES = FOLDER / "templates"

_EPILOG = """\b
Example:
  halfnut machine new our-lathe --system metric
  halfnut machine check our-lathe.toml
  halfnut turn 1018 "32 mm" --machine our-lathe.toml"""


@click.group(epilog=_EPILOG)
def machine() -> None:
    """Check a machine file, show a machine, or begin a file of one's own."""


@machine.command("list")
@with_json
def list_machines(as_json: bool) -> None:
    """Machines at hand: the shop's, packages', the demonstration's."""
    listed: list[dict[str, str]] = []
    for name in machines.names():
        try:
            found = machines.machine(name)
        except Error as error:
            why = " ".join(str(error).split())
            listed.append({"name": name, "kind": "unreadable", "title": why if len(why) <= 160 else why[:157] + "..."})
        else:
            listed.append({"name": found.name, "kind": found.kind, "title": found.title})
    if as_json:
        echo(json_text(listed))
        return
    for each in listed:
        echo(f"{each['name']:16} {each['kind']:12} {each['title']}")


@machine.command()
@click.argument("name")
@with_json
def show(name: str, as_json: bool) -> None:
    """Show a machine's speeds, feeds and dials, by NAME or by its file's path; as JSON it is what questions take."""
    found = machines.machine(name)
    echo(json_text(json.loads(found.core.json())) if as_json else str(found))


@machine.command(
    epilog="Exit status: 0 sound, even where something is missing or odd; 1 wrong as a machine; 2 cannot be read."
)
@click.argument("name")
@with_json
@click.pass_context
def check(ctx: click.Context, name: str, as_json: bool) -> None:
    """Read a machine file back and say what is wrong, missing or odd; NAME may be a path."""
    found = machines.machine(name)
    wrong: list[tuple[str, str]] = []
    odd: list[tuple[str, str]] = []
    for where, text, is_odd in found.core.problems():
        (odd if is_odd else wrong).append((where, text))
    missing = found.core.missing()
    if as_json:
        texts = [[f"{where}: {text}" for where, text in each] for each in (wrong, missing, odd)]
        echo(json_text({"machine": found.name, **dict(zip(("wrong", "missing", "odd"), texts, strict=True))}))
    else:
        counts = ", ".join(
            f"{len(each)} {label}" for each, label in ((wrong, "wrong"), (missing, "missing"), (odd, "odd")) if each
        )
        echo(f"{found.title}: {counts or 'sound'}")
        for label, each in (("wrong", wrong), ("missing", missing), ("odd", odd)):
            for where, text in each:
                echo(f"  {label}  {where}: {text}")
    ctx.exit(MARKED if wrong else ANSWERED)


@machine.command()
@click.argument("name")
@click.option("--kind", type=click.Choice(["lathe", "mill"]), default="lathe", show_default=True)
@click.option("--system", type=click.Choice(["inch", "metric"]), required=True, help="Of its dials and charts.")
@with_file("--out", "Where to write; NAME.toml when not given")
def new(name: str, kind: str, system: str, out: Path | None, replace: bool) -> None:
    """Write a commented machine file to fill in, for a machine called NAME."""
    if out is None and re.search(r"[/\\\x00-\x1f\x7f-\x9f]", name):
        raise click.UsageError(f"a file cannot well be called {toml_text(name)}; name one with --out")
    path = out or Path(f"{name}.toml")
    ready(path, replace=replace)
    template = Template((_TEMPLATES / f"{kind}.toml").read_text(encoding="utf-8"))
    sizes = load_toml(_TEMPLATES / "sizes.toml")[system]
    put(path, template.substitute(sizes, name=toml_text(name), system=system), replace=replace)
    if path != STREAM:
        echo(f"{path}: fill it in, then `halfnut machine check {path}`")
