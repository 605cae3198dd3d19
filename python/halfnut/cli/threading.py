"""halfnut thread."""

from __future__ import annotations

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads import limits
from halfnut.threads import thread as read_thread


@click.command(epilog="\b\nExample:\n  halfnut thread M10-6g\n  halfnut thread 1/4-20 --side inside --engagement 0.5in")
@click.argument("designation")
@click.option("--side", type=click.Choice(["outside", "inside"]), help="For a designation that names no class, or two.")
@click.option("--engagement", help="Length of engagement, such as 0.5in.")
@with_evidence
@with_json
def thread(designation: str, side: str | None, engagement: str | None, as_json: bool, evidence: bool) -> None:
    """Limits of size of the thread DESIGNATION, such as M10-6g or "1/4-20 UNC-2A"."""
    found = read_thread(designation)
    if side is not None:
        found = found.external if side == "outside" else found.internal
    show(limits(found, engagement=engagement), as_json, evidence=evidence)
