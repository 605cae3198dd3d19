"""halfnut hold."""

from __future__ import annotations

from typing import Any

import click

from halfnut._core import DomainError
from halfnut.cli.output import COUNT, show, with_evidence, with_json
from halfnut.cutting import holding

_EXAMPLES = """\b
Example:
  halfnut hold 6061-T6 20mm --stick-out 120mm --depth 0.5mm --length 100mm
  halfnut hold 6061-T6 1.25in --bore 1.125in --stick-out 3in --friction 0.15 --safety 2
  halfnut hold 4130 1in --section 4in,1in --section 6in,0.625in --hold "between centres" --steady 6in"""


@click.command(epilog=_EXAMPLES)
@click.argument("alloy")
@click.argument("diameter")
@click.option("--stick-out", help="How far the work stands out of the jaws, or the distance between centres.")
@click.option("--section", "sections", multiple=True, help="Of stepped work: length,diameter or length,diameter,bore.")
@click.option("--bore", help="Bore of a tube.")
@click.option(
    "--hold",
    "how",
    type=click.Choice(["chuck", "chuck and centre", "between centres"]),
    default="chuck",
    help="How the work is held.",
)
@click.option(
    "--steady", "steadies", multiple=True, help="Place of a fixed steady, from the chuck or the first centre."
)
@click.option("--jaws", type=COUNT, default=3, show_default=True, help="Jaws or contacts of the chuck.")
@click.option("--grip-diameter", help="Where the jaws grip; the diameter before the cut when not given.")
@click.option("--grip-width", help="Width that the jaws bear on; a quarter of the diameter when not given.")
@click.option("--friction", type=float, help="Of the jaws on the work: smooth 0.1 to 0.2, serrated 0.3 to 0.5.")
@click.option("--safety", type=float, help="Against slipping; with --friction tells the grip.")
@click.option("--tolerance", help="Of the diameter.")
@click.option("--out-of-round", help="That may remain on the radius.")
@click.option("--length", help="Of the cut: then the warmth is told.")
@click.option("--depth", help="Depth of cut on the radius; a usual one when not given.")
@click.option("--feed", help="Feed wanted, such as 0.1mm/rev.")
@click.option("--nose-radius", help="Nose radius of the tool.")
@click.option("--entering", "entering_deg", type=float, help="Of the tool's edge, degrees; 90 when not given.")
@click.option("--machine", help="Machine to choose levers from, by name or file.")
@click.option("--tool", help="HSS, carbide, ... or a tool of the shop's tables; HSS when not given.")
@click.option("--hardness", "hardness_hb", type=float, help="The work's own Brinell hardness.")
@click.option("--finish", is_flag=True, help="A finishing cut, whatever its depth.")
@with_evidence
@with_json
def hold(alloy: str, diameter: str, how: Any, as_json: bool, evidence: bool, **given: Any) -> None:
    """How far ALLOY of a DIAMETER deflects under the tool, is squeezed by the jaws and warms, and what helps."""
    given["sections"] = [tuple(map(str.strip, each.split(","))) for each in given["sections"]]
    if any(len(each) not in {2, 3} for each in given["sections"]):
        raise DomainError("--section wants length,diameter or length,diameter,bore")
    show(holding.hold(alloy, diameter, hold=how, **given), as_json, evidence=evidence)
