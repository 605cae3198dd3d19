"""halfnut cylindrical-fit."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.asking import options
from halfnut.cli.output import echo, json_text, show, with_evidence, with_json

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
@options("cylindrical_fit", tolerance_over_sigma="--spread")
@with_evidence
@with_json
def cylindrical_fit(designation: str | None, preferred: bool, as_json: bool, evidence: bool, **given: Any) -> None:
    """Limits of a plain hole or shaft, or of both together, by ISO 286 or ANSI B4.1."""
    if preferred:
        if designation is not None:
            raise click.UsageError("--preferred names fits; it takes no size")
        from halfnut.fits.questions import preferred_fits

        fits = preferred_fits()
        if as_json:
            echo(json_text(fits.to_dict()["fits"]))
        for each in () if as_json else fits:
            echo(f"{each.fit:<8} {each.basis} basis, {each.name}  [{each.kind}]")
        return
    if designation is None:
        raise click.UsageError('a size and its class are missing, such as "25 H7/g6"')
    from halfnut.fits.questions import cylindrical_fit

    show(cylindrical_fit(designation, **given), as_json, evidence=evidence)
