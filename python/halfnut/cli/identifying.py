"""halfnut identify-thread: what a thread found on the bench may be."""

from __future__ import annotations

from typing import Literal

import click

from halfnut.cli.output import COUNT, echo, json_text, show, with_evidence, with_json
from halfnut.threads import identification

__all__ = ["identify_thread"]

_EXAMPLES = """\b
Example:
  halfnut identify-thread 0.248in 20tpi
  halfnut identify-thread 0.248in 20tpi --flank-angle 55
  halfnut identify-thread 14mm 2mm --side internal
  halfnut identify-thread 25mm"""


@click.command(epilog=_EXAMPLES)
@click.argument("diameter")
@click.argument("pitch", required=False)
@click.option(
    "--side", type=click.Choice(["external", "internal"]), default="external", help="Which part was measured."
)
@click.option("--flank-angle", help="Between the two flanks of a groove, such as 60, 55, 30 or 29.")
@click.option("--engagement", help="Length over which it would engage; one diameter where none is given.")
@click.option("--count", type=COUNT, default=6, show_default=True, help="How many candidates.")
@with_evidence
@with_json
def identify_thread(
    diameter: str,
    pitch: str | None,
    side: Literal["external", "internal"],
    flank_angle: str | None,
    engagement: str | None,
    count: int,
    as_json: bool,
    evidence: bool,
) -> None:
    """Standard threads nearest to a measured crest DIAMETER and PITCH (1.5mm or 20tpi), of every form.

    The diameter is the major one of an external thread, the minor one of an internal one. Without PITCH: the
    standard threads near that major diameter.
    """
    if pitch is None:
        if side == "internal" or flank_angle is not None or engagement is not None or evidence:
            raise click.UsageError("without a PITCH there is a list of sizes only: leave the options away")
        found = [str(thread) for thread in identification.threads_near(diameter)]
        echo(json_text(found) if as_json else "\n".join(found) or f"no standard thread near {diameter}")
        return
    answer = identification.identify_thread(
        diameter, pitch, side=side, engagement=engagement, flank_angle=flank_angle, count=count
    )
    show(answer, as_json, evidence=evidence)
