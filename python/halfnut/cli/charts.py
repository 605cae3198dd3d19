"""halfnut speed-chart: a machine's speeds for the wall."""

from __future__ import annotations

from pathlib import Path

import click

from halfnut.cli.output import STREAM, put, ready, tell, with_file, with_json

_CHART = """\b
Example:
  halfnut speed-chart --machine gap-bed --out gap-bed.html"""


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
@with_json
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
        tell(as_json, found.to_dict(), [str(found)])
