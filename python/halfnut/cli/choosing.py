"""halfnut choose, halfnut speed-chart: the fastest passes, and a machine's speeds for the wall."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from halfnut._core import DomainError
from halfnut.cli.failures import MARKED
from halfnut.cli.output import COUNT, STREAM, echo, json_text, put, ready, show, with_evidence, with_file, with_json
from halfnut.core.extras import optional

if TYPE_CHECKING:
    from halfnut.cutting.choosing import Passes

_JOBS = ("turn", "face", "bore", "mill slot", "mill side", "mill pocket", "mill face")
_HOLDS = ("chuck", "chuck and centre", "between centres")

_EPILOG = """\b
Example:
  halfnut choose turn 6061-T6 1.5in 1.25in --length 2in --machine gap-bed
  halfnut choose "mill slot" 7075 10mm --off 8mm --length 60mm --machine bench-mill

A length is written with its unit: 1.25in, 1-1/4in, 32mm. The exit status is 1 where nothing keeps every limit."""

_CHART = """\b
Example:
  halfnut speed-chart --machine gap-bed --out gap-bed.html"""


@click.command(epilog=_EPILOG)
@click.argument("do", type=click.Choice(_JOBS), metavar="JOB")
@click.argument("alloy")
@click.argument("diameter")
@click.argument("to", required=False)
@click.option("--machine", required=True, help="Machine to choose levers from, by name or file.")
@click.option("--off", help="Depth to take off: along the axis in facing, down in milling.")
@click.option("--length", help="Length of the cut along the feed.")
@click.option("--width", help="Width to mill away.")
@click.option("--end-diameter", help="Where facing ends; the centre, or the bore, when not given.")
@click.option("--flutes", type=COUNT, help="Teeth of the cutter.")
@click.option("--tool", help="HSS, cobalt HSS, cast cobalt, carbide or coated carbide; HSS when not given.")
@click.option("--tolerance", help="Of the diameter, or a faced length: says how the size is closed on.")
@click.option("--tolerance-share", type=float, help="Share of the tolerance that the bend may take.")
@click.option("--roughness", "roughness_um", type=float, help="Ra of the last pass, in micrometres.")
@click.option("--life", "life_min", type=float, help="Minutes that the edge must last at least.")
@click.option("--force", "force_n", type=float, help="Force that tool and work bear, N.")
@click.option("--jaw-force", "jaw_force_n", type=float, help="Force of each jaw at rest, N.")
@click.option("--grip-diameter", help="Where the jaws grip; the diameter when not given.")
@click.option("--deflection", help="Most bend of any pass; 0.1 mm when not given.")
@click.option("--deepest", help="Deepest that the edge cuts; 2.5 mm when not given.")
@click.option("--step-over", help="Most across in one pass of milling.")
@click.option("--hold", type=click.Choice(_HOLDS), default="chuck", help="How the work is held.")
@click.option("--chuck", help="What holds the work, by the name the machine file gives it.")
@click.option("--stick-out", help="Of the work from the jaws, of a boring bar, of a cutter.")
@click.option("--bar-diameter", help="Diameter of the boring bar.")
@click.option("--bore", help="Bore of a tube.")
@click.option("--nose-radius", help="Nose radius of the tool.")
@click.option("--rake", "rake_deg", type=float, help="Rake of the tool, degrees.")
@click.option("--hardness", "hardness_hb", type=float, help="The work's own Brinell hardness.")
@click.option("--single", is_flag=True, help="All in one finishing pass.")
@click.option("--free", is_flag=True, help="Any depths and levers in every pass, instead of a shop's way.")
@with_file("--plot", "Draw the passes to this file")
@with_json
@with_evidence
@click.pass_context
def choose(
    ctx: click.Context, /, do: str, plot: Path | None, replace: bool, as_json: bool, evidence: bool, **given: Any
) -> None:
    """The fastest passes within every limit.

    JOB is turn, face, bore, or mill slot, side, pocket or face; DIAMETER is the one before turning or boring, of the
    face, or of the cutter; TO the diameter to reach.
    """
    from halfnut.cutting.choosing import choose as ask

    ready(plot, replace=replace, as_json=as_json)
    if plot is not None:
        optional("matplotlib", "plot")
    found = ask(do, given.pop("alloy"), given.pop("diameter"), given.pop("to"), **given)
    if plot is not None and found.found:
        put(plot, _drawn(found, plot.suffix), replace=replace)
    if plot != STREAM or not found.found:
        show(found, as_json, evidence=evidence)
    if not found.found:
        ctx.exit(MARKED)


def _drawn(found: Passes, suffix: str) -> bytes:
    """The passes as a picture of the kind that a file's name ends in; SVG where it ends in none."""
    from halfnut.drawing.charts import pass_plan

    optional("matplotlib.pyplot", "plot").style.use("halfnut.drawing.style")
    figure = pass_plan(found).figure
    kind = suffix.removeprefix(".").lower() or "svg"
    known = figure.canvas.get_supported_filetypes()
    if kind not in known:
        raise DomainError(f"--plot cannot draw {suffix} files; allowed: {', '.join(sorted(known))}")
    out = io.BytesIO()
    figure.savefig(out, format=kind)  # type: ignore[union-attr]
    return out.getvalue()


@click.command(epilog=_CHART)
@click.option("--machine", required=True, help="Whose speeds, by name or file.")
@click.option("--alloy", "alloys", multiple=True, help="An alloy of the chart, as often as wanted; one of each kind.")
@click.option("--tool", default="HSS", show_default=True, help="Tool material.")
@click.option("--chuck", help="Whose speed limit holds; the machine's first when not given.")
@with_file("--out", "Write the page to print to this file")
@click.option(
    "--paper",
    type=click.Choice(["A4", "letter"], case_sensitive=False),
    default="A4",
    show_default=True,
    help="Paper of the page.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the speeds as JSON.")
def speed_chart(
    machine: str,
    alloys: tuple[str, ...],
    tool: str,
    chuck: str | None,
    out: Path | None,
    replace: bool,
    paper: str,
    as_json: bool,
) -> None:
    """A machine's spindle speeds by diameter and alloy, with its levers: for the wall."""
    from halfnut.drawing.charts import ALLOYS, speed_chart

    ready(out, replace=replace, as_json=as_json)
    found = speed_chart(machine, alloys or ALLOYS, tool=tool, chuck=chuck)
    if out is not None:
        put(out, found.page(paper), replace=replace)
    if out != STREAM:
        echo(json_text(found.to_dict()) if as_json else str(found))
