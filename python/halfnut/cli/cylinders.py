"""halfnut cylindrical-fit."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import echo, json_text, show, with_evidence, with_json
from halfnut.fits import cylindrical

_EXAMPLES = """\b
Example:
  halfnut cylindrical-fit "25 H7/g6"
  halfnut cylindrical-fit "25 H7"
  halfnut cylindrical-fit "1.25 RC4"
  halfnut cylindrical-fit "12 H7/h6" --shaft-build-up "anodise II 12 um"
  halfnut cylindrical-fit --preferred"""


@click.command(epilog=_EXAMPLES)
@click.argument("designation", required=False)
@click.option("--preferred", is_flag=True, help="Name the fits to choose first.")
@click.option("--hole-build-up", help="What a coating adds to each surface of the hole, such as 8um.")
@click.option("--shaft-build-up", help="The same of the shaft.")
@click.option("--hole", help="The hole as measured, in place of its limits.")
@click.option("--shaft", help="The shaft as measured.")
@click.option("--hole-alloy", help="For a temperature other than 20 C.")
@click.option("--shaft-alloy", help="For a temperature other than 20 C.")
@click.option("--hole-temperature", "hole_temperature_c", type=float, default=20.0, help="Degrees Celsius.")
@click.option("--shaft-temperature", "shaft_temperature_c", type=float, default=20.0, help="Degrees Celsius.")
@click.option("--spread", "tolerance_over_sigma", type=float, default=6.0, help="Tolerance over standard deviation.")
@with_evidence
@with_json
def cylindrical_fit(designation: str | None, preferred: bool, as_json: bool, evidence: bool, **given: Any) -> None:
    """Limits of a plain hole or shaft, or of both together, by ISO 286 or ANSI B4.1."""
    if preferred:
        if designation is not None:
            raise click.UsageError("--preferred names fits; it takes no size")
        fits = cylindrical.preferred_fits()
        if as_json:
            echo(json_text(fits))
            return
        for row in fits:
            echo(f"{row['fit']:<8} {row['basis']} basis, {row['name']}  [{row['source']['kind']}]")
        return
    if designation is None:
        raise click.UsageError('a size and its class are missing, such as "25 H7/g6"')
    show(cylindrical.cylindrical_fit(designation, **given), as_json, evidence=evidence)
