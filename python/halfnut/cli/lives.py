"""halfnut edge-life."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.cutting import edge_life as edges

_EXAMPLES = """\b
Example:
  halfnut edge-life 1045 --tool "coated carbide" --life 15
  halfnut edge-life 1018 --speed 30m/min --feed 0.2mm/rev --depth 1mm
  halfnut edge-life 1018 --machine gap-bed --diameter 2in --edge-cost 2 --cost-per-min 1"""


@click.command("edge-life", epilog=_EXAMPLES)
@click.argument("alloy")
@click.option("--tool", help="HSS, carbide or coated carbide; HSS when not given.")
@click.option("--speed", help="Cutting speed to tell the life at, such as 100m/min.")
@click.option("--life", "life_min", type=float, help="Life to tell the speed for, minutes.")
@click.option("--feed", help="A revolution; 0.25 mm, as in the trials, when not given.")
@click.option("--depth", help="Depth of cut; 2.5 mm when not given.")
@click.option("--machine", help="Whose time to change a tool is taken, and whose steps the speeds are turned into.")
@click.option("--diameter", help="Of the work: turns speeds into spindle speeds.")
@click.option("--change-min", type=float, help="Minutes to change the edge: tells the life for most parts an hour.")
@click.option("--edge-cost", type=float, help="Of one edge: with --cost-per-min tells the cheapest life.")
@click.option("--cost-per-min", type=float, help="Of a minute of machine and person, in the same currency.")
@click.option("--hardness", "hardness_hb", type=float, help="The work's own Brinell hardness.")
@with_evidence
@with_json
def edge_life(alloy: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """Tool life in turning ALLOY, the speed for a life, the lives for most and for cheapest parts."""
    show(edges.tool_life(alloy, **given), as_json, evidence=evidence)
