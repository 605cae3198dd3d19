"""halfnut knurl."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.knurls import knurl_blank


@click.command(
    epilog='\b\nExample:\n  halfnut knurl 0.75in "96 DP" --pattern "diamond raised"\n  halfnut knurl 20mm "RGE 0.8"'
)
@click.argument("diameter")
@click.argument("pitch")
@click.option(
    "--pattern", help="straight, left, right, diamond raised, diamond indented, cross raised, cross indented."
)
@click.option("--wheel", help='The wheel at hand, such as "0.750 in, 47 teeth".')
@click.option("--finished", is_flag=True, help="DIAMETER is wanted after knurling.")
@click.option("--process", type=click.Choice(["form", "cut"]), default="form", help="Pressed in, or cut.")
@click.option("--prefer", type=click.Choice(["nearest", "below", "above"]), default="nearest", help="Which blank.")
@click.option("--width", help="Of the knurled band.")
@with_evidence
@with_json
def knurl(diameter: str, pitch: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """The blank near DIAMETER that a knurl of PITCH tracks on, and the size it comes out at."""
    show(knurl_blank(diameter, pitch, **given), as_json, evidence=evidence)
