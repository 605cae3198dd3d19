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
from halfnut.core.text import toml_text
from halfnut.demo import FOLDER
from halfnut.machine import machines

_TEMPLATES = FOLDER / "templates"
_EXAMPLES = {
    "inch": {
        "motor": "2 hp",
        "torque": "120 lbf ft",
        "swing": "12 in",
        "centre_height": "6 in",
        "cross_swing": "7 in",
        "gap_swing": "17 in",
        "between_centres": "30 in",
        "spindle_bore": "1.4 in",
        "spindle_length": "15 in",
        "tool_clearance": "1/8 in",
        "run_out": "0.004 in",
        "power": "1.6 hp",
        "power_low": "0.2 hp",
        "feed_1": "0.0030 in/rev",
        "feed_2": "0.0060 in/rev",
        "feed_3": "0.0120 in/rev",
        "rate_1": "1 in/min",
        "rate_2": "4 in/min",
        "cross_turn": "0.100 in",
        "cross_line": "0.001 in",
        "cross_travel": "6 in",
        "backlash": "0.005 in",
        "readout": "0.0005 in",
        "compound_turn": "0.100 in",
        "compound_line": "0.001 in",
        "carriage_turn": "0.750 in",
        "carriage_line": "0.005 in",
        "table_turn": "0.200 in",
        "table_line": "0.001 in",
        "x_travel": "24 in",
        "chuck": "6 in",
        "chuck_through": "1.5 in",
        "jaw_depth": "1 in",
        "opening_least": "0.12 in",
        "opening_greatest": "6 in",
        "jaw_weight": "1.2 lb",
        "collet": "2 in",
        "leadscrew": "threads_per_inch = 8",
        "gear_size": "diametral_pitch = 16",
        "stud_to_screw": "8 in",
        "banjo_nearest": "2.5 in",
        "banjo_farthest": "9 in",
        "stud_clearance": "2.5 in",
        "collar": "1.25 in",
    },
    "metric": {
        "motor": "1.5 kW",
        "torque": "160 N m",
        "swing": "300 mm",
        "centre_height": "150 mm",
        "cross_swing": "180 mm",
        "gap_swing": "430 mm",
        "between_centres": "750 mm",
        "spindle_bore": "38 mm",
        "spindle_length": "380 mm",
        "tool_clearance": "3 mm",
        "run_out": "0.1 mm",
        "power": "1.2 kW",
        "power_low": "0.15 kW",
        "feed_1": "0.08 mm/rev",
        "feed_2": "0.16 mm/rev",
        "feed_3": "0.32 mm/rev",
        "rate_1": "25 mm/min",
        "rate_2": "100 mm/min",
        "cross_turn": "2.5 mm",
        "cross_line": "0.05 mm",
        "cross_travel": "150 mm",
        "backlash": "0.1 mm",
        "readout": "0.01 mm",
        "compound_turn": "2 mm",
        "compound_line": "0.02 mm",
        "carriage_turn": "20 mm",
        "carriage_line": "0.1 mm",
        "table_turn": "4 mm",
        "table_line": "0.02 mm",
        "x_travel": "600 mm",
        "chuck": "160 mm",
        "chuck_through": "40 mm",
        "jaw_depth": "25 mm",
        "opening_least": "3 mm",
        "opening_greatest": "160 mm",
        "jaw_weight": "0.5 kg",
        "collet": "50 mm",
        "leadscrew": 'lead = "3 mm"',
        "gear_size": 'module = "1.25 mm"',
        "stud_to_screw": "160 mm",
        "banjo_nearest": "50 mm",
        "banjo_farthest": "180 mm",
        "stud_clearance": "60 mm",
        "collar": "30 mm",
    },
}


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
    missing = found.missing()
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
    put(path, template.substitute(_EXAMPLES[system], name=toml_text(name), system=system), replace=replace)
    if path != STREAM:
        echo(f"{path}: fill it in, then `halfnut machine check {path}`")
