"""halfnut thread."""

from __future__ import annotations

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads.questions import taper_pipe
from halfnut.threads.standard import Side, limits
from halfnut.threads.standard import thread as read_thread

_EXAMPLES = """\b
Example:
  halfnut thread M10-6g
  halfnut thread 1/4-20 --side internal --engagement 0.5in
  halfnut thread Tr40x7-7H
  halfnut thread "1 1/2-4 Acme-2G" --side internal
  halfnut thread "G1/2 A"
  halfnut thread "1/2-14 NPT\""""


@click.command(epilog=_EXAMPLES)
@click.argument("designation")
@click.option(
    "--side", type=click.Choice(["external", "internal"]), help="For a designation that names no class, or two."
)
@click.option("--engagement", help="Length of engagement, such as 0.5in.")
@with_evidence
@with_json
def thread(designation: str, side: Side | None, engagement: str | None, as_json: bool, evidence: bool) -> None:
    """Limits of size of the thread DESIGNATION, such as M10-6g or Tr40x7-7e; gauge plane and turns of a taper one."""
    found = read_thread(designation)
    if not found.tapers:
        show(limits(found, side=side, engagement=engagement), as_json, evidence=evidence)
        return
    if side is not None or engagement is not None:
        raise click.UsageError("--side and --engagement say nothing about a taper pipe thread")
    show(taper_pipe(found), as_json, evidence=evidence)
