"""halfnut machine: check a file, show a machine, list those at hand, begin a file of one's own."""

from __future__ import annotations

import json
import re
from pathlib import Path

import click

from halfnut._core import Error
from halfnut.cli.failures import ANSWERED, MARKED
from halfnut.cli.output import begin, tell, with_file, with_json
from halfnut.core.shapes import load_toml
from halfnut.core.text import toml_text
from halfnut.demo import FOLDER
from halfnut.machine import machines

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
    tell(as_json, listed, (f"{each['name']:16} {each['kind']:12} {each['title']}" for each in listed))


@machine.command()
@click.argument("name")
@with_json
def show(name: str, as_json: bool) -> None:
    """Show a machine's speeds, feeds and dials, by NAME or by its file's path; as JSON it is what questions take."""
    found = machines.machine(name)
    tell(as_json, json.loads(found.core.json()), [str(found)])


@machine.command(
    epilog="Exit status: 0 sound, even where something is missing or odd; 1 wrong as a machine; 2 cannot be read."
)
@click.argument("name")
@with_json
@click.pass_context
def check(ctx: click.Context, name: str, as_json: bool) -> None:
    """Read a machine file back and say what is wrong, missing or odd; NAME may be a path."""
    found = machines.machine(name)
    problems = found.core.problems()
    texts = {
        "wrong": [f"{where}: {text}" for where, text, odd in problems if not odd],
        "missing": [f"{where}: {text}" for where, text in found.core.missing()],
        "odd": [f"{where}: {text}" for where, text, odd in problems if odd],
    }
    counts = ", ".join(f"{len(each)} {label}" for label, each in texts.items() if each)
    lines = [f"  {label}  {text}" for label, each in texts.items() for text in each]
    tell(as_json, {"machine": found.name, **texts}, [f"{found.title}: {counts or 'sound'}", *lines])
    ctx.exit(MARKED if texts["wrong"] else ANSWERED)


@machine.command()
@click.argument("name")
@click.option("--kind", type=click.Choice(["lathe", "mill"]), default="lathe", show_default=True)
@click.option("--system", type=click.Choice(["inch", "metric"]), required=True, help="Of its dials and charts.")
@with_file("--out", "Where to write; NAME.toml when not given")
def new(name: str, kind: str, system: str, out: Path | None, replace: bool) -> None:
    """Write a commented machine file to fill in, for a machine called NAME."""
    if out is None and re.search(r"[/\\\x00-\x1f\x7f-\x9f]", name):
        raise click.UsageError(f"a file cannot well be called {toml_text(name)}; name one with --out")
    sizes = load_toml(FOLDER / "templates" / "sizes.toml")[system]
    words = {**sizes, "name": toml_text(name), "system": system}
    begin(out or Path(f"{name}.toml"), f"{kind}.toml", "machine", replace=replace, **words)
