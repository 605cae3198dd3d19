"""halfnut limits: sizes to cut a thread to, also before a coating."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads.precoating import precoat

__all__ = ["limits"]


@click.command(
    epilog="""\b
Example:
  halfnut limits M10-6g
  halfnut limits "7/8-14 UNF-2B" --coating "anodise II black 15 um" --on 6061-T6
  halfnut limits Tr16x4-7e --coating "zinc SC2"

A length is written with its unit: 0.75in, 3/4in, 19mm."""
)
@click.argument("designation")
@click.option("--coating", help='Sizes before this coating: "8 um", "hard anodise 0.002 in", "zinc SC2".')
@click.option(
    "--gauged-at",
    type=click.Choice(["basic", "class"]),
    default="basic",
    help="Where the coated part is to gauge: at the basic size, as the standards say, or at its own class.",
)
@click.option("--on", help="The alloy; one that does not take the coating is refused.")
@click.option("--engagement", help="Length of engagement, such as 0.75in.")
@click.option(
    "--rule",
    type=click.Choice(["printed", "formula"]),
    default="printed",
    help="Decimal rule of Unified threads: as tables and gauges are printed, or by formula.",
)
@with_evidence
@with_json
def limits(
    designation: str,
    coating: str | None,
    gauged_at: Any,
    on: str | None,
    engagement: str | None,
    rule: Any,
    as_json: bool,
    evidence: bool,
) -> None:
    """Limits of size of the thread DESIGNATION; with --coating those to cut to before it is coated."""
    from halfnut.threads import standard

    if coating is None:
        if on is not None or gauged_at != "basic":
            raise click.UsageError("--on and --gauged-at go with --coating")
        show(standard.limits(designation, engagement=engagement, rule=rule), as_json, evidence=evidence)
        return
    before = precoat(designation, coating, engagement=engagement, on=on, gauged_at=gauged_at, rule=rule)
    show(before, as_json, evidence=evidence)
