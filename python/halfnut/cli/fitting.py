"""halfnut limits: sizes to cut a thread to, also before a coating."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.asking import options
from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads import questions

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
@options("precoat")
@with_evidence
@with_json
def limits(designation: str, coating: str | None, as_json: bool, evidence: bool, **given: Any) -> None:
    """Limits of size of the thread DESIGNATION; with --coating those to cut to before it is coated."""
    if coating is not None:
        show(questions.precoat(designation, coating, **given), as_json, evidence=evidence)
        return
    if given["on"] is not None or given["gauged_at"] != "basic":
        raise click.UsageError("--on and --gauged-at go with --coating")
    found = questions.limits(designation, engagement=given["engagement"], rule=given["rule"])
    show(found, as_json, evidence=evidence)
