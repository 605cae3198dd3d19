"""halfnut holding-taper."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.fits import tapers

_EXAMPLES = """\b
Example:
  halfnut holding-taper "morse 3"
  halfnut holding-taper "jarno 6" --between-centres 8in
  halfnut holding-taper 1:10 --large 20mm --length 40mm"""


@click.command("holding-taper", epilog=_EXAMPLES)
@click.argument("name")
@click.option("--length", help="From the gauge plane; that of the table where none is given.")
@click.option("--large", help="Diameter at the gauge plane of a taper such as 1:10.")
@click.option("--between-centres", help="Of the whole work, for setting over the tailstock.")
@click.option("--sine-bar", help="Between its rollers; 5in, or 100mm of a metric taper.")
@with_evidence
@with_json
def holding_taper(name: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """Ends, taper and settings of the self-holding taper NAME: morse 3, jarno 6, metric 80, 1:10."""
    show(tapers.holding_taper(name, **given), as_json, evidence=evidence)
