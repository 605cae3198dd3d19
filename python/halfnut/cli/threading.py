"""halfnut thread."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.asking import options
from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads.questions import limits, taper_pipe
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
@options("limits")
@with_evidence
@with_json
def thread(designation: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """Limits of size of the thread DESIGNATION, such as M10-6g or Tr40x7-7e; gauge plane and turns of a taper one."""
    found = read_thread(designation)
    if not found.tapers:
        show(limits(found, **given), as_json, evidence=evidence)
        return
    if given["side"] is not None or given["engagement"] is not None:
        raise click.UsageError("--side and --engagement say nothing about a taper pipe thread")
    show(taper_pipe(found), as_json, evidence=evidence)
