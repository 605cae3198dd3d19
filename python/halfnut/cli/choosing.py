"""halfnut choose, halfnut speed-chart: the fastest passes, and a machine's speeds for the wall."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from halfnut._core import DomainError
from halfnut.cli.asking import examples, options
from halfnut.cli.failures import MARKED
from halfnut.cli.output import STREAM, echo, json_text, put, ready, show, with_evidence, with_file, with_json
from halfnut.core.extras import optional

if TYPE_CHECKING:
    from halfnut.cutting.choosing import Passes

_CHART = """\b
Example:
  halfnut speed-chart --machine gap-bed --out gap-bed.html"""


@click.command(epilog=examples("choose") + " The exit status is 1 where nothing keeps every limit.")
@options("choose", every=True)
@with_file("--plot", "Draw the passes to this file")
@with_json
@with_evidence
@click.pass_context
def choose(
    ctx: click.Context, /, plot: Path | None, replace: bool, as_json: bool, evidence: bool, **given: Any
) -> None:
    """The fastest passes within every limit.

    DO is turn, face, bore, or mill slot, side, pocket or face; DIAMETER is the one before turning or boring, of the
    face, or of the cutter; TO the diameter to reach.
    """
    from halfnut.cutting.questions import choose as ask

    ready(plot, replace=replace, as_json=as_json)
    if plot is not None:
        optional("matplotlib", "plot")
    found = ask(**given)
    if plot is not None and found.found:
        put(plot, _drawn(found, plot.suffix), replace=replace)
    if plot != STREAM or not found.found:
        show(found, as_json, evidence=evidence, question="choose")
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
